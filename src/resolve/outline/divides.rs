//! Edges made into two.

use super::cutting;
use crate::garment::Piece;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece};
use crate::resolve::sketch::Sketch;
use crate::resolve::take_ups::place::place_on;
use crate::resolve::work::Work;
use crate::shape::tolerance::SAME_POINT;

/// Divides edges in the order written. None when one cannot be divided: then no name of the
/// piece's edges means what the maker thinks.
pub(in crate::resolve) fn divide_edges(work: &Work, piece: &Piece, sketch: &mut Sketch) -> Option<()> {
    for divide in &piece.drawing.divides {
        let at = sketch.drawn.as_ref()?.edges.iter().position(|edge| edge.edge == divide.edge)?;
        let placed = place_on(work, sketch, at, &divide.place)?;
        let cut_at = placed.along;
        let drawn = sketch.drawn.as_mut()?;
        let length = drawn.edges.get(at)?.path.length();
        if !(cut_at > SAME_POINT && cut_at < length - SAME_POINT) {
            let distance = placed.amount.unwrap_or(cut_at);
            work.report(|size| {
                let name = &work.garment.edge(divide.edge).name;
                let (far, long) = (work.amount(distance), work.amount(length));
                let title = Title::new(format!("{name} of {} is {long} long", piece.title))
                    .in_sizes()
                    .then(format!(", and cannot be divided at {far}"));
                let message = Diagnostic::new(&catalogue::DIVIDE_OFF_EDGE, divide.span, title)
                    .also(divide.place.expression().map_or(divide.place.span, |far| far.span), "this far")
                    .help(format!("divide it at more than 0 and less than {long}"));
                Finding::new(size, (distance - length).abs(), message)
                    .figure("length", long)
                    .figure("divided at", far)
            });
            return None;
        }
        let (first, second) = drawn.edges[at].path.split_at_length(cut_at);
        let (first_id, second_id) = match placed.backwards {
            false => divide.into,
            true => (divide.into.1, divide.into.0),
        };
        cutting::divide(drawn, at, &first, &second);
        let whole = drawn.edges[at].clone();
        drawn.edges[at] = DrawnEdge { edge: first_id, path: first, ..whole };
        let corner = CornerName::Between(first_id, second_id);
        drawn.edges.insert(at + 1, DrawnEdge { edge: second_id, path: second, corner, touched: Vec::new() });
        move_notches(drawn, divide.edge, at, cut_at);
    }
    Some(())
}

/// Notches that came with a copy go to the run they lie on.
fn move_notches(drawn: &mut DrawnPiece, whole: crate::garment::EdgeId, first: usize, cut_at: f64) {
    let (first, second) = (drawn.edges[first].edge, drawn.edges[first + 1].edge);
    for notch in drawn.notches.iter_mut().filter(|notch| notch.edge == whole) {
        if notch.along <= cut_at {
            notch.edge = first;
        } else {
            notch.edge = second;
            notch.along -= cut_at;
        }
    }
}
