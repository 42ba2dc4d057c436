//! `add hood to layer outer`, `in steps after "…" add "…" { … }`, `in piece front add { … }`

use super::key::{Key, kind_word};
use super::place::article;
use super::{Declaration, Merging};
use crate::report::Diagnostic;
use crate::source::Span;
use crate::syntax::tree::{AddSteps, AddToLayer, AddToPiece, Name, Statement, StatementNode};
use std::sync::Arc;

impl Merging {
    /// Cuts more pieces from a layer's cloth.
    pub(super) fn add_to_layer(&mut self, add: &AddToLayer) {
        let Some((slot, span, node)) = self.grows(&add.layer, "layer") else { return };
        let StatementNode::Layer(mut layer) = node else { return };
        for piece in &add.pieces {
            match layer.pieces.iter().find(|one| one.text == piece.text) {
                Some(first) => {
                    let title = format!("{} is in the layer {} already", piece.text, layer.name.text);
                    let mistake = Diagnostic::mistake("name/declared-twice", piece.span, title)
                        .label("added here")
                        .also(first.span, "is here already")
                        .help("take it away here; for more copies change how the piece is cut");
                    self.merged.mistakes.push(mistake);
                }
                None => layer.pieces.push(piece.clone()),
            }
        }
        self.grown(slot, span, StatementNode::Layer(layer));
    }

    /// Draws more on a piece.
    pub(super) fn add_to_piece(&mut self, add: &AddToPiece) {
        let Some((slot, span, node)) = self.grows(&add.piece, "piece") else { return };
        let StatementNode::Piece(mut piece) = node else { return };
        piece.items.extend(add.items.iter().cloned());
        self.grown(slot, span, StatementNode::Piece(piece));
    }

    /// Puts a new step before or after one that is there.
    pub(super) fn add_steps(&mut self, add: &AddSteps) {
        let Some(slot) = self.slot_of_steps(&add.anchor.text, add.anchor.span, "add to") else { return };
        let Some(old) = self.standing.get(slot) else { return };
        let StatementNode::Steps(steps) = &old.statement.node else { return };
        let span = old.statement.span;
        let mut steps = steps.clone();
        let title = &add.group.title;
        if let Some(first) = steps.groups.iter().find(|group| group.title.text == title.text) {
            let first = first.title.span;
            self.said_twice(&format!("the step \"{}\"", title.text), title.span, first);
            return;
        }
        let at = steps.groups.iter().position(|group| group.title.text == add.anchor.text);
        let at = at.map_or(steps.groups.len(), |at| if add.after { at + 1 } else { at });
        steps.groups.insert(at, add.group.clone());
        self.grown(slot, span, StatementNode::Steps(steps));
    }

    /// The declaration of that name and kind, to be added to.
    fn grows(&mut self, name: &Name, kind: &'static str) -> Option<(usize, Span, StatementNode)> {
        let key = Key::Piece(name.text.clone());
        let Some(slot) = self.standing.slots_of(&key).first().copied() else {
            self.nothing(&key, name.span, &format!("{kind} {}", name.text), "add to");
            return None;
        };
        let old = self.standing.get(slot)?;
        let (span, node) = (old.statement.span, old.statement.node.clone());
        let is = kind_word(&node);
        if is != kind {
            let is = match is {
                "alteration" => "made by an alteration".to_owned(),
                _ => article(is),
            };
            let title = format!("{} is {is}, not {}", name.text, article(kind));
            let mistake = Diagnostic::mistake("replace/nothing", name.span, title)
                .label(format!("no {kind} of this name"))
                .also(span, is)
                .help(format!("name a {kind}"));
            self.merged.mistakes.push(mistake);
            return None;
        }
        if self.in_this_file(span) {
            let mistake = Diagnostic::mistake(
                "variation/place",
                name.span,
                format!("{} is this file's own", name.text),
            )
            .label("added to from here")
            .also(span, "declared here")
            .help("write what you add where it is declared");
            self.merged.mistakes.push(mistake);
            return None;
        }
        Some((slot, span, node))
    }

    fn grown(&mut self, slot: usize, span: Span, node: StatementNode) {
        let Some(old) = self.standing.get(slot) else { return };
        let declaration = Declaration { statement: Arc::new(Statement { span, node }), ..old.clone() };
        self.standing.put(slot, declaration);
    }
}
