//! Notches, counted from a corner.

use crate::garment::{Piece, PointId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::model::{CornerName, DrawnNotch, DrawnPiece};
use crate::resolve::sketch::{Sketch, corners_of};
use crate::resolve::work::Work;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::source::Span;

/// From which end of an edge something is counted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::resolve) enum FromCorner {
    /// Where the edge starts.
    Start,
    /// Where it ends.
    End,
}

/// Which end of edge `at` that corner is; reported if it is neither.
pub(in crate::resolve) fn from_corner(
    work: &Work,
    drawn: &DrawnPiece,
    at: usize,
    corner: PointId,
    span: Span,
) -> Option<FromCorner> {
    let (start, end) = corners_of(drawn, at)?;
    if start == CornerName::Named(corner) {
        return Some(FromCorner::Start);
    }
    if end == CornerName::Named(corner) {
        return Some(FromCorner::End);
    }
    let edge = drawn.edges.get(at)?;
    let place = drawn.spot(corner);
    if let Some(place) = place {
        if place.distance(edge.path.start()) <= ON_OUTLINE {
            return Some(FromCorner::Start);
        }
        if place.distance(edge.path.end()) <= ON_OUTLINE {
            return Some(FromCorner::End);
        }
    }
    let reported = drawn.missing.points.iter().any(|(id, _)| *id == corner);
    if !reported {
        work.mistake(1.0, "", || {
            let (edge, corner) = (&work.garment.edge(edge.edge).name, &work.garment.point(corner).name);
            let title = Title::new(format!("{corner} is at neither end of {edge}")).in_sizes();
            let named = |end: CornerName| match end {
                CornerName::Named(point) => Some(work.garment.point(point).name.as_ref()),
                CornerName::Between(..) => None,
            };
            let help = match (named(start), named(end)) {
                (Some(start), Some(end)) => {
                    format!("count from {start} or {end}, where {edge} starts and ends")
                }
                (Some(one), None) | (None, Some(one)) => format!("count from {one}, at an end of {edge}"),
                (None, None) => format!("count from a corner where {edge} starts or ends"),
            };
            Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, span, title)
                .label("counted from elsewhere")
                .help(help)
        });
    }
    None
}

/// Cuts the notches that the piece declares, after those it was copied with.
pub(in crate::resolve) fn cut_notches(work: &Work, piece: &Piece, sketch: &mut Sketch) {
    let mut cut = Vec::new();
    for (declared, notch) in piece.drawing.notches.iter().enumerate() {
        let Some(distance) = work.scalar(&notch.distance, Some(sketch)) else { continue };
        let Some(drawn) = &sketch.drawn else { return };
        let Some(at) = drawn.edges.iter().position(|edge| edge.edge == notch.edge) else {
            report_no_edge(work, drawn, piece, notch);
            continue;
        };
        let Some(from) = from_corner(work, drawn, at, notch.from, notch.span) else { continue };
        let Some(edge) = drawn.edges.get(at) else { continue };
        let length = edge.path.length();
        if !(-SAME_POINT..=length + SAME_POINT).contains(&distance) {
            work.report(|size| {
                let name = &work.garment.edge(notch.edge).name;
                let (far, long) = (work.amount(distance), work.amount(length));
                let title = Title::new(format!("{name} of {} is {long} long", piece.title))
                    .in_sizes()
                    .then(format!(", and has no place for a notch at {far}"));
                let message = Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, notch.span, title)
                    .also(notch.distance.span, "this far")
                    .help(format!("notch it at no more than {long}"));
                Finding::new(size, distance - length, message).figure("length", long).figure("notch at", far)
            });
            continue;
        }
        let along = if from == FromCorner::Start { distance } else { length - distance };
        let at = edge.path.point_at_length(along);
        cut.push(DrawnNotch { edge: notch.edge, along, at, double: notch.double, declared });
    }
    if let Some(drawn) = &mut sketch.drawn {
        drawn.notches.splice(0..0, cut);
    }
}

fn report_no_edge(work: &Work, drawn: &DrawnPiece, piece: &Piece, notch: &crate::garment::Notch) {
    if work.edge_is_reported(drawn, notch.edge) {
        return;
    }
    work.mistake(1.0, "", || {
        let name = &work.garment.edge(notch.edge).name;
        let title = Title::new(format!("{} has no edge {name} to notch", piece.title)).in_sizes();
        Diagnostic::new(&catalogue::EDGE_GONE, notch.span, title)
            .help("notch an edge that the outline really has")
    });
}
