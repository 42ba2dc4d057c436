//! How a seam is made, and which of its sides lies over.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{EdgeId, LayerId, PieceId, Seam, SeamSide, SeamWork, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, SeamKind};

/// What of a seam is said to lie over.
struct Named {
    layer: Option<LayerId>,
    piece: PieceId,
    edge: Option<EdgeId>,
}

impl Lowering<'_> {
    /// `felled 0.7 over back`; none where it cannot be known which side lies over, which is reported.
    pub(super) fn lower_work(
        &self,
        kind: SeamKind,
        width: &tree::Expr,
        over: Option<&tree::Dotted>,
        span: Span,
        seam: &Seam,
    ) -> Option<SeamWork> {
        let width = self.lower(width, When::Fact, None, Wanted::Length);
        let over = match over {
            Some(_) if seam.poisoned => return None,
            Some(over) => Some(self.upper_side(over, seam)?),
            None => None,
        };
        Some(SeamWork { kind, width, over, span })
    }

    /// The side that a piece, a part or an edge of the seam is on; of an edge that is sewn to itself the
    /// left or the right one.
    fn upper_side(&self, over: &tree::Dotted, seam: &Seam) -> Option<SeamSide> {
        if let [word] = over.parts.as_slice()
            && !self.names.pieces.contains_key(&word.text)
            && let Some(side) = hand_side(&word.text)
        {
            if is_left_to_right(seam) {
                return Some(side);
            }
            let title = format!("{} does not sew an edge's left copy to its right one", seam.words());
            let [one, other] = [&seam.first, &seam.second].map(|plies| self.side_words(plies));
            self.report(
                Diagnostic::new(&catalogue::SEAM_OVER, over.span, title)
                    .label("left and right of what?")
                    .also(seam.name_span, "the seam")
                    .help(format!("say what lies over by its name: over {one}, or over {other}")),
            );
            return None;
        }
        let named = self.named_side(over)?;
        let is_on = |plies: &[crate::garment::Chain]| {
            let is_meant = |sewn: &SewnEdge| {
                sewn.piece == named.piece
                    && named.edge.is_none_or(|edge| edge == sewn.edge)
                    && named.layer.is_none_or(|layer| sewn.layer.is_none_or(|own| own == layer))
            };
            plies.iter().flat_map(|ply| &ply.edges).any(is_meant)
        };
        let words: Vec<&str> = over.parts.iter().map(|part| &*part.text).collect();
        let words = words.join(".");
        let [one, other] = [&seam.first, &seam.second].map(|plies| self.side_words(plies));
        let diagnostic = match (is_on(&seam.first), is_on(&seam.second)) {
            (true, false) => return Some(SeamSide::First),
            (false, true) => return Some(SeamSide::Second),
            (false, false) => {
                let title = format!("{} does not take {words}", seam.words());
                Diagnostic::new(&catalogue::SEAM_OVER, over.span, title)
                    .label("on neither side of it")
                    .also(seam.name_span, "the seam")
                    .help(format!("say what lies over: over {one}, or over {other}"))
            }
            (true, true) => {
                let title = format!("{words} is on both sides of {}", seam.words());
                let help = match is_left_to_right(seam) {
                    true => "say which of the two lies over, as worn: over left, or over right".to_owned(),
                    false => format!("name the edge that lies over: over {one}, or over {other}"),
                };
                Diagnostic::new(&catalogue::SEAM_OVER, over.span, title)
                    .label("which side of it?")
                    .also(seam.name_span, "the seam")
                    .help(help)
            }
        };
        self.report(diagnostic);
        None
    }

    /// `back`, `outer.back`, `back.side` or `outer.back.side`.
    fn named_side(&self, over: &tree::Dotted) -> Option<Named> {
        let is_part = match over.parts.as_slice() {
            [_] => true,
            [head, _] => {
                !self.names.pieces.contains_key(&head.text) && self.names.layers.contains_key(&head.text)
            }
            _ => false,
        };
        if is_part {
            let part = self.find_part(over)?;
            return Some(Named { layer: part.layer, piece: part.piece, edge: None });
        }
        let (part, edge) = self.find_dotted_edge(over)?;
        Some(Named { layer: part.layer, piece: part.piece, edge: Some(edge) })
    }

    /// What one may call a side: its first edge's piece and name.
    fn side_words(&self, plies: &[crate::garment::Chain]) -> String {
        let first = plies.iter().flat_map(|ply| &ply.edges).next();
        first.map_or(String::new(), |sewn| {
            let part = self.garment.part_name(sewn.layer, sewn.piece);
            format!("{part}.{}", self.garment.edge(sewn.edge).name)
        })
    }
}

/// The left copy is sewn as the first side.
fn hand_side(word: &str) -> Option<SeamSide> {
    match word {
        "left" => Some(SeamSide::First),
        "right" => Some(SeamSide::Second),
        _ => None,
    }
}

/// Whether the same edges are named before and after `to`.
fn is_left_to_right(seam: &Seam) -> bool {
    let edges = |plies: &[crate::garment::Chain]| {
        let mut edges: Vec<_> =
            plies.iter().flat_map(|ply| &ply.edges).map(|sewn| (sewn.layer, sewn.edge)).collect();
        edges.sort_unstable();
        edges
    };
    edges(&seam.first) == edges(&seam.second)
}
