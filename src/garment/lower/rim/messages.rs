//! What is said where a closure cannot be followed from end to end.

use super::super::Lowering;
use super::uses::SeamUse;
use super::{Candidate, Following, Reached};
use crate::garment::{PieceId, PointId};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree;

impl Lowering<'_> {
    /// A line inside a piece ends nowhere at a rim.
    pub(super) fn line_has_no_rim(&self, closure: &tree::Closure, words: &tree::SewnWords) -> Diagnostic {
        let name = &closure.name.text;
        let line = words.edge.parts.last().map_or("", |last| &*last.text);
        let title = format!("{line} is a line inside its piece, and nothing is sewn on at its ends");
        Diagnostic::new(&catalogue::CLOSURE_RIM, words.span, title)
            .label("a line")
            .also(end_to_end(closure), format!("{name} goes from end to end"))
            .help("name the edge beside it, or leave out: from end to end")
    }

    /// What is drawn otherwise than by its own words.
    pub(super) fn cannot_follow(&self, closure: &tree::Closure, piece: PieceId) -> Diagnostic {
        let (name, piece) = (&closure.name.text, self.garment.piece(piece));
        let title = format!(
            "{name} cannot be followed over {}: which edges lie beside one another there is not written",
            piece.title
        );
        Diagnostic::new(&catalogue::CLOSURE_RIM, end_to_end(closure), title)
            .also(piece.span, format!("{} is declared here", piece.title))
            .help(
                "name all of it, each edge after the one below it, as band.left + front.centre + collar.left, and \
                 leave out: from end to end",
            )
    }

    /// Two ends that either may go on.
    pub(super) fn which_end(
        &self,
        following: &Following,
        from: &Reached,
        corner: Option<PointId>,
        seam: &SeamUse,
        candidates: &[Candidate],
    ) -> Diagnostic {
        let name = &following.closure.name.text;
        let words = |one: &Candidate| {
            let piece = self.garment.part_name(one.edge.layer, one.edge.piece);
            format!("{piece}.{}", self.garment.edge(one.edge.edge).name)
        };
        let all: Vec<String> = candidates.iter().map(words).collect();
        let from_words = self.garment.part_name(from.edge.layer, from.edge.piece);
        let title = format!(
            "beyond {from_words}.{}, {name} may go on along {}",
            self.garment.edge(from.edge.edge).name,
            all.join(" or ")
        );
        let point = |point: PointId| self.garment.point(point).name.to_string();
        let matched = candidates.last().and_then(|one| {
            let piece = self.garment.part_name(one.edge.layer, one.edge.piece);
            Some(format!("matching {piece}.{} with {from_words}.{}", point(one.corner?), point(corner?)))
        });
        let help = match matched {
            Some(words) => format!("say in the {} seam which ends meet, for example {words}", seam.name),
            None => "name the edges of the closure one after the other instead".to_owned(),
        };
        Diagnostic::new(&catalogue::CLOSURE_RIM, end_to_end(following.closure), title)
            .label("which of them?")
            .also(seam.span, "sewn on here")
            .help(help)
    }
}

/// The words `from end to end`.
fn end_to_end(closure: &tree::Closure) -> Span {
    closure.end_to_end.unwrap_or(closure.name.span)
}
