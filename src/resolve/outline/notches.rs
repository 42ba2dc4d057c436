//! Notches, counted from a corner.

use crate::garment::Piece;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnNotch, DrawnPiece};
use crate::resolve::sketch::Sketch;
use crate::resolve::take_ups::place::place_on;
use crate::resolve::work::Work;
use crate::shape::tolerance::SAME_POINT;

/// Cuts the notches that the piece declares, after those it was copied with.
pub(in crate::resolve) fn cut_notches(work: &Work, piece: &Piece, sketch: &mut Sketch) {
    let mut cut = Vec::new();
    for (declared, notch) in piece.drawing.notches.iter().enumerate() {
        let Some(drawn) = &sketch.drawn else { return };
        let Some(at) = drawn.edges.iter().position(|edge| edge.edge == notch.edge) else {
            report_no_edge(work, drawn, piece, notch);
            continue;
        };
        let Some(placed) = place_on(work, sketch, at, &notch.place) else { continue };
        let Some(edge) = drawn.edges.get(at) else { continue };
        let length = edge.path.length();
        let along = placed.along;
        if !(-SAME_POINT..=length + SAME_POINT).contains(&along) {
            let distance = placed.amount.unwrap_or(along);
            work.report(|size| {
                let name = &work.garment.edge(notch.edge).name;
                let (far, long) = (work.amount(distance), work.amount(length));
                let title = Title::new(format!("{name} of {} is {long} long", piece.title))
                    .in_sizes()
                    .then(format!(", and has no place for a notch at {far}"));
                let message = Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, notch.span, title)
                    .also(notch.place.expression().map_or(notch.place.span, |far| far.span), "this far")
                    .help(format!("notch it at no more than {long}"));
                Finding::new(size, distance - length, message).figure("length", long).figure("notch at", far)
            });
            continue;
        }
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
