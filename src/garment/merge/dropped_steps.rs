//! What a file drops leaves the steps of the files before it: nothing is left to be done there.

use super::key::{Key, dotted};
use super::{Dropped, Merging};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{Action, Dotted, StatementNode, Steps, Verb};

impl Merging {
    /// Takes out of the steps what a later file dropped and none declares anew; actions and steps that are left with
    /// nothing to do go too. What the file that drops it, or a later one, says of it stays, and is reported as dangling.
    /// The files are all that were merged, in that order.
    pub(super) fn take_dropped_out_of_steps(&mut self, files: &[Span]) {
        let Some(slot) = self.standing.slots_of(&Key::Steps).first().copied() else { return };
        let Some(StatementNode::Steps(steps)) = self.standing.get(slot).map(|one| &one.statement.node) else {
            return;
        };
        let gone: Vec<Dropped> =
            self.merged.dropped.iter().filter(|gone| !self.stands(gone)).cloned().collect();
        if gone.is_empty() {
            return;
        }
        let file_of = |span: Span| files.iter().position(|file| file.lo <= span.lo && span.hi <= file.hi);
        let mut rest: Steps = steps.clone();
        let mut places: Vec<(usize, Span)> = Vec::new();
        for group in &mut rest.groups {
            group.actions.retain_mut(|action| {
                if action.targets.is_empty() {
                    return true;
                }
                let said = action.clone();
                let own = file_of(action.span);
                action.targets.retain(|target| {
                    let is_gone =
                        |gone: &Dropped| file_of(gone.dropped) > own && is_done_to(&said, target, gone);
                    let by = gone.iter().position(is_gone);
                    places.extend(by.map(|by| (by, target.span)));
                    by.is_none()
                });
                !action.targets.is_empty()
            });
        }
        if places.is_empty() {
            return;
        }
        rest.groups.retain(|group| !group.actions.is_empty());
        self.standing.edit(slot, |node| *node = StatementNode::Steps(rest));
        for (at, gone) in gone.iter().enumerate() {
            let named = places.iter().filter(|(by, _)| *by == at).map(|(_, span)| *span);
            self.tell(gone, named);
        }
    }

    fn tell(&mut self, gone: &Dropped, mut named: impl Iterator<Item = Span>) {
        let Some(first) = named.next() else { return };
        let what = match gone.kind {
            "finish" => format!("the finish of {}", gone.name),
            "place" => format!("the placing of {}", gone.name),
            kind => format!("the {kind} {}", gone.name),
        };
        let title = format!("{what} is dropped, and leaves the steps");
        let mut advice = Diagnostic::new(&catalogue::STEP_GONE, gone.dropped, title)
            .label("dropped here")
            .also(first, "goes with it");
        for span in named {
            advice = advice.also(span, "and here");
        }
        self.merged.mistakes.push(advice);
    }

    /// Whether something of that name is there again, so that its steps are still done.
    fn stands(&self, gone: &Dropped) -> bool {
        let name = &gone.name;
        match gone.kind {
            "seam" | "closure" => self.standing.find(&Key::Sewn(name.clone())).is_some(),
            "cord" => self.standing.find(&Key::Cord(name.clone())).is_some(),
            "strap" => self.standing.find(&Key::Piece(name.clone())).is_some(),
            "topstitch" | "understitch" | "tack" | "set" => {
                self.standing.find(&Key::Stitched(name.clone())).is_some()
            }
            // An edge that one layer still finishes, or one side.
            "finish" => self.standing.keys().any(|key| match key {
                Key::Finish(edge) => of_one_edge(edge, name),
                _ => false,
            }),
            "place" => {
                self.standing.keys().any(|key| matches!(key, Key::Place(piece, _) if *piece == **name))
            }
            // Pieces and what is made of them are reported where they are named.
            _ => true,
        }
    }
}

/// Whether the action is done to what was dropped.
fn is_done_to(action: &Action, target: &Dotted, gone: &Dropped) -> bool {
    let words = dotted(target);
    match action.verb {
        Verb::Sew | Verb::Baste | Verb::TurnThroughGap | Verb::SlipstitchGap | Verb::Press => {
            matches!(gone.kind, "seam" | "closure") && *gone.name == *words
        }
        Verb::Thread => gone.kind == "cord" && *gone.name == *words,
        Verb::Topstitch | Verb::Understitch | Verb::Tack | Verb::SetNotion => {
            matches!(gone.kind, "topstitch" | "understitch" | "tack" | "set") && *gone.name == *words
        }
        Verb::Hem | Verb::Finish => {
            let in_layer = action.layer.as_ref().map(|layer| format!("{}.{words}", layer.text));
            let finish = without_run(&gone.name);
            gone.kind == "finish" && (finish == words || in_layer.is_some_and(|one| finish == one))
        }
        Verb::Place => matches!(gone.kind, "place" | "strap") && *gone.name == *words,
        Verb::Fuse | Verb::Note => false,
    }
}

/// The edge, and its side of the body, without the run of it that is meant.
fn without_run(words: &str) -> String {
    let edge = words.split(' ').next().unwrap_or(words);
    match words.rsplit_once(" on ") {
        Some((_, side)) => format!("{edge} on {side}"),
        None => edge.to_owned(),
    }
}

/// `front.hem`, `lining.front.hem`, `front.hem on left` and a run of it are of one edge.
fn of_one_edge(one: &str, other: &str) -> bool {
    let edge = |words: &str| -> Option<(String, String)> {
        let names = words.split(' ').next()?;
        let mut parts = names.rsplit('.');
        let (edge, piece) = (parts.next()?, parts.next()?);
        Some((piece.to_owned(), edge.to_owned()))
    };
    edge(one).is_some() && edge(one) == edge(other)
}
