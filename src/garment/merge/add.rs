//! `add hood to layer outer`, `in steps after "…" add "…" { … }`, `in piece front add { … }`

use super::conflict::item_written;
use super::doing::Doing;
use super::key::{Key, dotted, kind_word};
use super::place::article;
use super::{Deed, Merging, Settled};
use crate::garment::model::Beside;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{
    AddSteps, AddToLayer, AddToPiece, Name, StatementNode, StepGroup, Steps, Text, Verb,
};

impl Merging {
    /// Cuts more pieces from a layer's cloth.
    pub(super) fn add_to_layer(&mut self, add: &AddToLayer) {
        let Some(slot) = self.grows(&add.layer, "layer") else { return };
        let mut twice: Vec<(Name, Span)> = Vec::new();
        self.standing.edit(slot, |node| {
            let StatementNode::Layer(layer) = node else { return };
            for piece in &add.pieces {
                match layer.pieces.iter().find(|one| one.text == piece.text) {
                    Some(first) => twice.push((piece.clone(), first.span)),
                    None => layer.pieces.push(piece.clone()),
                }
            }
        });
        // Two files may each add it.
        twice.retain(|(_, first)| !self.combined.is_beside(*first));
        for (piece, first) in twice {
            let title = format!("{} is in the layer {} already", piece.text, add.layer.text);
            let mistake = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, piece.span, title)
                .label("added here")
                .also(first, "is here already")
                .help("remove it here; for more copies change how the piece is cut");
            self.merged.mistakes.push(mistake);
        }
    }

    /// Draws more on a piece.
    pub(super) fn add_to_piece(&mut self, add: &AddToPiece) {
        let Some(slot) = self.grows(&add.piece, "piece") else { return };
        let mut items = add.items.clone();
        if self.combined.any
            && let Some(StatementNode::Piece(piece)) = self.standing.get(slot).map(|one| &one.statement.node)
        {
            // What another file draws in the same way is there already.
            let beside = piece.items.iter().filter(|old| self.combined.is_beside(old.span));
            let there: Vec<String> = beside.map(|old| item_written(&add.piece, old)).collect();
            items.retain(|item| !there.contains(&item_written(&add.piece, item)));
        }
        self.standing.edit(slot, |node| {
            if let StatementNode::Piece(piece) = node {
                piece.items.extend(items);
            }
        });
    }

    /// Puts a new step before or after one that is there.
    pub(super) fn add_steps(&mut self, add: &AddSteps) {
        let (beside, after) = self.anchor_standing(&add.anchor.text, add.after);
        let (anchor, title) = (&Text { text: beside, span: add.anchor.span }, &add.group.title);
        let what = format!("step \"{}\"", anchor.text);
        let key = Key::Step(anchor.text.clone());
        if self.settle(&key, anchor.span, &what, Deed::AddsTo, None) == Settled::Left {
            return;
        }
        let steps = "steps";
        if self.settle(&Key::Steps, anchor.span, steps, Deed::AddsTo, None) == Settled::Left {
            return;
        }
        let Some(slot) = self.slot_of_steps(&anchor.text, anchor.span, Doing::AddTo) else { return };
        self.note(&key, anchor.span, Deed::AddsTo, None);
        self.note(&Key::Steps, anchor.span, Deed::AddsTo, None);
        let own = StatementNode::Steps(Steps { groups: vec![add.group.clone()] });
        let (what, key) = (format!("step \"{}\"", title.text), Key::Step(title.text.clone()));
        if self.settle(&key, title.span, &what, Deed::Declares, Some(&own)) == Settled::Left {
            return;
        }
        self.note(&key, title.span, Deed::Declares, Some(&own));
        let mut group = add.group.clone();
        if self.combined.any {
            // Seams that went with a piece of another file are not sewn.
            let goes = |name: &str| self.went_along(&Key::Sewn(name.into()));
            for action in &mut group.actions {
                action.targets.retain(|target| !(target.parts.len() == 1 && goes(&dotted(target))));
            }
            group.actions.retain(|action| !action.targets.is_empty() || action.verb == Verb::Press);
        }
        let mut twice: Option<Span> = None;
        self.standing.edit(slot, |node| {
            let StatementNode::Steps(steps) = node else { return };
            if let Some(first) = steps.groups.iter().find(|group| group.title.text == title.text) {
                twice = Some(first.title.span);
                return;
            }
            let at = steps.groups.iter().position(|group| group.title.text == anchor.text);
            let at = at.map_or(steps.groups.len(), |at| if after { at + 1 } else { at });
            steps.groups.insert(at, group);
        });
        if self.combined.any {
            let firm = self.base_line.contains(&self.combined.at);
            let beside = Beside { title: anchor.text.clone(), after, firm };
            self.merged.steps_beside.insert(title.text.clone(), beside);
        }
        if let Some(first) = twice {
            self.said_twice(&format!("the step \"{}\"", title.text), title.span, first);
        }
    }

    /// `replace step "Edges" { … }`: it keeps its place.
    pub(super) fn replace_step(&mut self, whole: Span, group: &StepGroup) {
        let title = &group.title;
        let key = Key::Step(title.text.clone());
        let what = format!("step \"{}\"", title.text);
        if let Some(&first) = self.touched.get(&key) {
            return self.said_twice(&format!("the {what}"), title.span, first);
        }
        self.touched.insert(key.clone(), title.span);
        let own = StatementNode::Steps(Steps { groups: vec![group.clone()] });
        if self.settle(&key, title.span, &what, Deed::Changes, Some(&own)) == Settled::Left
            || self.settle(&Key::Steps, title.span, "steps", Deed::AddsTo, None) == Settled::Left
        {
            return;
        }
        let Some(slot) = self.slot_of_steps(&title.text, title.span, Doing::Replace) else { return };
        self.note(&key, whole, Deed::Changes, Some(&own));
        self.note(&Key::Steps, title.span, Deed::AddsTo, None);
        self.standing.edit(slot, |node| {
            let StatementNode::Steps(steps) = node else { return };
            if let Some(old) = steps.groups.iter_mut().find(|old| old.title.text == title.text) {
                *old = group.clone();
            }
        });
    }

    /// The declaration of that name and kind, to be added to.
    pub(super) fn grows(&mut self, name: &Name, kind: &'static str) -> Option<usize> {
        let key = Key::Piece(name.text.clone());
        let what = format!("{kind} {}", name.text);
        if self.settle(&key, name.span, &what, Deed::AddsTo, None) == Settled::Left {
            return None;
        }
        let Some(slot) = self.standing.slots_of(&key).first().copied() else {
            self.nothing(&key, name.span, &format!("{kind} {}", name.text), Doing::AddTo);
            return None;
        };
        let old = self.standing.get(slot)?;
        let span = old.statement.span;
        let is = kind_word(&old.statement.node);
        if is != kind {
            let is = match is {
                "alteration" => "made by an alteration".to_owned(),
                _ => article(is),
            };
            let title = format!("{} is {is}, not {}", name.text, article(kind));
            let mistake = Diagnostic::new(&catalogue::REPLACE_NOTHING, name.span, title)
                .label(format!("no {kind} of this name"))
                .also(span, is)
                .help(format!("name a {kind}"));
            self.merged.mistakes.push(mistake);
            return None;
        }
        if self.in_this_file(span) {
            let mistake = Diagnostic::new(
                &catalogue::VARIATION_PLACE,
                name.span,
                format!("{} is this file's own", name.text),
            )
            .label("added to from here")
            .also(span, "declared here")
            .help("write what you add where it is declared");
            self.merged.mistakes.push(mistake);
            return None;
        }
        self.note(&key, name.span, Deed::AddsTo, None);
        Some(slot)
    }
}
