//! A rectangle.

use crate::garment::{EdgeId, Expression, PieceId, PointId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece, DrawnSpot};
use crate::resolve::sketch::{self, Sketch};
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::path::Path;
use crate::source::Span;

/// The words of a rectangle.
pub(super) struct Given<'g> {
    pub(super) width: &'g Expression,
    pub(super) height: &'g Expression,
    pub(super) edges: &'g [EdgeId; 4],
    pub(super) corners: &'g [PointId; 4],
    pub(super) span: Span,
}

/// A rectangle from (0, 0) to the right and up: `bottom right top left`.
pub(super) fn rectangle(work: &Work, piece: PieceId, sketch: &Sketch, given: &Given) -> Option<DrawnPiece> {
    let &Given { width, height, edges, corners, span } = given;
    let (wide, high) = (work.scalar(width, Some(sketch)), work.scalar(height, Some(sketch)));
    let (wide, high) = (wide?, high?);
    for (measure, value, expression) in [("wide", wide, width), ("high", high, height)] {
        if value <= 0.0 {
            work.mistake(-value, measure, || {
                let title = Title::new(format!("{} is {} {measure}", work.title(piece), work.amount(value)))
                    .in_sizes();
                Diagnostic::new(&catalogue::OUTLINE_COLLAPSES, expression.span, title)
                    .also(span, "the rectangle")
                    .help("a rectangle must be more than 0 both ways: look at what is subtracted")
            });
        }
    }
    if wide <= 0.0 || high <= 0.0 {
        return None;
    }
    let places = [Point::ZERO, Point::new(wide, 0.0), Point::new(wide, high), Point::new(0.0, high)];
    let ends = places.iter().cycle().skip(1);
    let drawn = edges.iter().zip(corners).zip(places.iter().zip(ends));
    let drawn = drawn.map(|((&edge, &corner), (&from, &to))| DrawnEdge {
        edge,
        path: Path::straight(from, to),
        corner: CornerName::Named(corner),
        touched: Vec::new(),
    });
    let mut whole = sketch::bare(piece, drawn.collect());
    whole.spots = corners.iter().zip(places).map(|(&point, at)| DrawnSpot { point, at }).collect();
    Some(whole)
}
