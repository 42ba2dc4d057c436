//! Edges made into two.

use super::cutting;
use crate::garment::{Divide, EdgeId, Piece};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece};
use crate::resolve::sketch::Sketch;
use crate::resolve::take_ups::place::place_on;
use crate::resolve::work::Work;
use crate::shape::tolerance::SAME_POINT;

/// Divides edges in the order written. None when one cannot be divided: then no name of the
/// piece's edges means what the maker thinks.
pub(in crate::resolve) fn divide_edges(work: &Work, piece: &Piece, sketch: &mut Sketch) -> Option<()> {
    for (nth, divide) in piece.drawing.divides.iter().enumerate() {
        let found = sketch.drawn.as_ref()?.edges.iter().position(|edge| edge.edge == divide.edge);
        let Some(at) = found else {
            let mut before = piece.drawing.divides.iter().take(nth);
            let makes_it = |other: &&Divide| other.into.0 == divide.edge || other.into.1 == divide.edge;
            if let Some(before) = before.find(|before| before.edge == divide.edge) {
                report_divided(work, piece, before, divide);
            } else if let Some(after) = piece.drawing.divides.iter().skip(nth).find(makes_it) {
                report_too_early(work, piece, divide, after);
            }
            return None;
        };
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

/// An edge that is made into two once more: it is there no longer.
fn report_divided(work: &Work, piece: &Piece, before: &Divide, again: &Divide) {
    if before.into == again.into {
        // Both names are told to be there twice.
        work.inherit(None::<()>);
        return;
    }
    work.mistake(1.0, "", || {
        let name = |edge: EdgeId| &work.garment.edge(edge).name;
        let (whole, one, other) = (name(again.edge), name(before.into.0), name(before.into.1));
        let title =
            Title::new(format!("{whole} of {} is divided already, into {one} and {other}", piece.title));
        Diagnostic::new(&catalogue::EDGE_GONE, again.span, title)
            .label("divided again")
            .also(before.span, "divided here")
            .help(format!("divide {one} or {other}, or leave one of the two lines out"))
    });
}

/// An edge that is made into two before another line makes it.
fn report_too_early(work: &Work, piece: &Piece, divide: &Divide, made: &Divide) {
    work.mistake(1.0, "", || {
        let name = &work.garment.edge(divide.edge).name;
        let title = Title::new(format!("{name} of {} is divided before it is there", piece.title));
        Diagnostic::new(&catalogue::ALTER_NO_LINE, divide.span, title)
            .label("divided here")
            .also(made.span, "made here")
            .help("edges are divided in the order written: put this line behind that one")
    });
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
