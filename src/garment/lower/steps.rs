//! The order of work.

use super::Lowering;
use super::sought::Sought;
use crate::garment::{Action, ActionTarget, CordId, RingWay, StepGroup, Symbol};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{self, Dotted, StatementNode, Verb};
use std::sync::Arc;

impl Lowering<'_> {
    pub(super) fn lower_steps(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            if let StatementNode::Steps(steps) = &declaration.statement.node {
                self.garment.steps_span = Some(declaration.statement.span);
                self.garment.incomplete.steps |= self.is_damaged(declaration.statement.span);
                for group in &steps.groups {
                    let group = self.lower_group(group);
                    self.garment.steps.push(group);
                }
            }
        }
    }

    fn lower_group(&mut self, tree: &tree::StepGroup) -> StepGroup {
        let mut actions = Vec::with_capacity(tree.actions.len());
        for action in &tree.actions {
            let layer = action.layer.as_ref().map(|layer| self.find_layer(layer));
            let mut targets = Vec::with_capacity(action.targets.len());
            for target in &action.targets {
                let span = target.joints.map_or(target.span, |joints| target.span.to(joints.span));
                match self.action_target(action.verb, target).and_then(|found| self.jointed(found, target)) {
                    Some(found) => targets.push((found, span)),
                    None => self.garment.incomplete.steps = true,
                }
            }
            if action.targets.is_empty() && action.verb == Verb::TurnThroughGap {
                targets.push((ActionTarget::AnyGap, action.span));
            }
            // A layer that is not there is reported; the action then says nothing at all.
            if layer == Some(None) {
                self.garment.incomplete.steps = true;
                continue;
            }
            let words = action.words.as_ref().map(|words| words.text.clone());
            let layer = layer.flatten();
            actions.push(Action { layer, verb: action.verb, targets, words, span: action.span });
        }
        let beside = self.merged.steps_beside.get(&tree.title.text).cloned();
        StepGroup { title: tree.title.text.clone(), span: tree.span, actions, beside }
    }

    /// Some joints of a seam in a ring, where a step says which.
    fn jointed(&self, found: ActionTarget, target: &tree::StepTarget) -> Option<ActionTarget> {
        let Some(joints) = target.joints else { return Some(found) };
        let name = self.words(target.span);
        let wrong = |title: String, help: &str| {
            let mistake = Diagnostic::new(&catalogue::SEAM_RING, joints.span, title).label("which joint?");
            self.report(mistake.help(help));
            None
        };
        let ActionTarget::Seam(id) = found else {
            let title = format!("{name} is no seam, and has no joints to be counted");
            return wrong(title, "name it alone; only a seam that joins pieces in a ring has joints");
        };
        let seam = self.garment.seam(id);
        if !seam.poisoned && seam.ring().is_none_or(|ring| ring.way != RingWay::EachToTheNext) {
            let title =
                format!("{} joins no pieces in a ring, and has no joints to be counted", seam.words());
            return wrong(
                title,
                "name it alone, or say in a ring at the end of the seam if each is sewn to the next",
            );
        }
        if joints.first == 0 || joints.last < joints.first {
            let title = format!("{} are no joints of a ring", self.words(joints.span));
            return wrong(title, "count them from 1 up, the lesser first: 1..3");
        }
        Some(ActionTarget::Joints(id, joints.first, joints.last))
    }

    fn action_target(&self, verb: Verb, target: &Dotted) -> Option<ActionTarget> {
        match verb {
            Verb::Sew | Verb::Baste | Verb::TurnThroughGap | Verb::SlipstitchGap => self.seam_target(target),
            Verb::Hem | Verb::Finish => self.edge_target_of_step(target),
            Verb::Place | Verb::Fuse => {
                let part = self.find_part(target)?;
                Some(ActionTarget::Piece(part.layer, part.piece))
            }
            Verb::Thread => {
                let called = CordId::enumerate(&self.garment.cords)
                    .find(|(_, cord)| is_alone(target, &cord.name))
                    .map(|(id, _)| id);
                match called {
                    Some(cord) => Some(ActionTarget::Cord(cord)),
                    None => self.edge_target_of_step(target),
                }
            }
            Verb::Topstitch | Verb::Understitch | Verb::Tack | Verb::SetNotion => {
                self.stitched_target(verb, target)
            }
            Verb::Press => self.anything(target),
            Verb::Note => None,
        }
    }

    fn seam_target(&self, target: &Dotted) -> Option<ActionTarget> {
        if let [name] = target.parts.as_slice() {
            if let Some(&seam) = self.names.seams.get(&name.text) {
                self.used(Symbol::Seam(seam), name.span);
                return Some(ActionTarget::Seam(seam));
            }
            if let Some(&closure) = self.names.closures.get(&name.text) {
                self.used(Symbol::Closure(closure), name.span);
                return Some(ActionTarget::Closure(closure));
            }
            let among = self.offered(self.names.seams.keys().chain(self.names.closures.keys()));
            self.unknown(Sought::SeamOrClosure, &name.text, name.span, &among);
            return None;
        }
        let (part, take_up) = self.find_dotted_take_up(target)?;
        Some(ActionTarget::TakeUp(part.layer, take_up))
    }

    fn edge_target_of_step(&self, target: &Dotted) -> Option<ActionTarget> {
        let (part, edge) = self.find_dotted_edge(target)?;
        Some(ActionTarget::Edge(part.layer, edge))
    }

    /// What is pressed may be a seam, an edge or a piece.
    fn anything(&self, target: &Dotted) -> Option<ActionTarget> {
        if let [name] = target.parts.as_slice()
            && (self.names.seams.contains_key(&name.text) || self.names.closures.contains_key(&name.text))
        {
            return self.seam_target(target);
        }
        if self.is_part(target) {
            let part = self.find_part(target)?;
            return Some(ActionTarget::Piece(part.layer, part.piece));
        }
        let named = self.attempt(|reading| reading.find_dotted_take_up(target)).forget();
        match named {
            Some(_) => self.seam_target(target),
            None => self.edge_target_of_step(target),
        }
    }

    fn is_part(&self, target: &Dotted) -> bool {
        match target.parts.as_slice() {
            [piece] => self.names.pieces.contains_key(&piece.text),
            [layer, piece] => {
                self.names.layers.contains_key(&layer.text) && self.names.pieces.contains_key(&piece.text)
            }
            _ => false,
        }
    }
}

fn is_alone(target: &Dotted, name: &Arc<str>) -> bool {
    matches!(target.parts.as_slice(), [alone] if alone.text == *name)
}
