//! What could not be read, and what is therefore not known.

use super::Lowering;
use crate::garment::{Alteration, AlterationKind, PieceId, Target};
use crate::source::Span;

impl Lowering<'_> {
    /// Whether something in those words could not be read: what they leave out is then not known,
    /// and not to be missed.
    pub(super) fn is_damaged(&self, span: Span) -> bool {
        let first = self.damages.partition_point(|&at| at < span.lo);
        self.damages.get(first).is_some_and(|&at| at <= span.hi)
    }

    /// Whether a statement is whole, and then something more stands on its line: what it says so
    /// far may not be what was meant.
    pub(super) fn is_cut_short(&self, span: Span) -> bool {
        let next = self.damages.partition_point(|&at| at < span.hi);
        let Some(&damage) = self.damages.get(next) else { return false };
        let between = Span::new(span.hi, damage);
        self.map.file_of(Span::new(damage, damage)) == self.map.file_of(span)
            && !self.map.text(between).contains(['\n', '\r', ';', '{', '}'])
    }

    /// Whether something that could not be read begins with that word.
    pub(super) fn is_damaged_word(&self, word: &str) -> bool {
        self.damages.iter().any(|&at| {
            let line = self.map.line_of(Span::new(at, at));
            let words = self.map.text(line).get((at - line.lo) as usize..).unwrap_or_default();
            words.split(|letter: char| !(letter.is_alphanumeric() || letter == '_')).next() == Some(word)
        })
    }

    /// A damaged line that begins like an alteration: what it names is not known after it.
    pub(super) fn add_damaged(&mut self) {
        for at in 0..self.damages.len() {
            let Some(&damage) = self.damages.get(at) else { continue };
            let line = self.map.line_of(Span::new(damage, damage));
            let words =
                self.map.text(line).split(|letter: char| !(letter.is_alphanumeric() || letter == '_'));
            let mut words = words.filter(|word| !word.is_empty()).peekable();
            let first = words.next().unwrap_or_default();
            if AlterationKind::beginning(first, words.peek().copied()).is_none() {
                continue;
            }
            let pieces: Vec<PieceId> =
                words.filter_map(|word| self.names.pieces.get(word)).copied().collect();
            let targets: Vec<Target> = pieces
                .into_iter()
                .filter_map(|piece| {
                    let edge = *self.garment.piece(piece).edges.first()?;
                    Some(Target { layer: None, piece, edge, span: line })
                })
                .collect();
            if !targets.is_empty() {
                self.garment.alterations.push(Alteration::new(line, None, targets));
                self.alteration_trees.push(None);
            }
        }
    }
}
