//! `add hood to layer outer`, `in steps after "…" add "…" { … }`, `in piece front add { … }`

use super::Merging;
use super::key::{Key, kind_word};
use super::place::article;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{AddSteps, AddToLayer, AddToPiece, Name, StatementNode};

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
        self.standing.edit(slot, |node| {
            if let StatementNode::Piece(piece) = node {
                piece.items.extend(add.items.iter().cloned());
            }
        });
    }

    /// Puts a new step before or after one that is there.
    pub(super) fn add_steps(&mut self, add: &AddSteps) {
        let Some(slot) = self.slot_of_steps(&add.anchor.text, add.anchor.span, "add to") else { return };
        let title = &add.group.title;
        let mut twice: Option<Span> = None;
        self.standing.edit(slot, |node| {
            let StatementNode::Steps(steps) = node else { return };
            if let Some(first) = steps.groups.iter().find(|group| group.title.text == title.text) {
                twice = Some(first.title.span);
                return;
            }
            let at = steps.groups.iter().position(|group| group.title.text == add.anchor.text);
            let at = at.map_or(steps.groups.len(), |at| if add.after { at + 1 } else { at });
            steps.groups.insert(at, add.group.clone());
        });
        if let Some(first) = twice {
            self.said_twice(&format!("the step \"{}\"", title.text), title.span, first);
        }
    }

    /// The declaration of that name and kind, to be added to.
    pub(super) fn grows(&mut self, name: &Name, kind: &'static str) -> Option<usize> {
        let key = Key::Piece(name.text.clone());
        let Some(slot) = self.standing.slots_of(&key).first().copied() else {
            self.nothing(&key, name.span, &format!("{kind} {}", name.text), "add to");
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
        Some(slot)
    }
}
