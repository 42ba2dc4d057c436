//! The same outline as another piece.

use super::carried::{own_corner, own_edge, own_point};
use crate::garment::{PaperUse, PieceId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::model::Why;
use crate::resolve::sketch;
use crate::resolve::take_ups::carry::renamed;
use crate::resolve::take_ups::carry_slits::renamed_slits;
use crate::resolve::work::Work;
use crate::shape::Affine;
use crate::source::Span;
use std::sync::Arc;

/// The paper that a piece is made from at that moment; reported if it is in pieces.
pub(in crate::resolve) fn base<'w>(work: &'w Work, of: &PaperUse) -> Option<&'w Arc<DrawnPiece>> {
    let papers = work.at(of.paper, of.moment)?;
    match papers.as_slice() {
        [one] => Some(one),
        several => {
            work.mistake(1.0, "", || {
                let names: Vec<String> =
                    several.iter().map(|drawn| work.garment.piece(drawn.piece).name.to_string()).collect();
                let piece = work.garment.paper(of.paper).piece;
                let title =
                    format!("{} has been split, so there is no whole of it to draw from", work.title(piece));
                Diagnostic::new(&catalogue::EDGE_GONE, of.span, title)
                    .help(format!("name one of its parts: {}", names.join(", ")))
            });
            None
        }
    }
}

/// Outline, points, marks, lines and notches of the other piece under the piece's own names.
pub(super) fn copy(work: &Work, piece: PieceId, of: &PaperUse, span: Span) -> Option<DrawnPiece> {
    let from = base(work, of)?;
    if !super::left_out::runs_on(work, piece, from) {
        return None;
    }
    let garment = work.garment;
    let ids: Option<Vec<_>> = from.edges.iter().map(|edge| own_edge(garment, piece, edge.edge)).collect();
    let Some(ids) = ids else {
        report_nameless(work, piece, span);
        return None;
    };
    let before = ids.iter().cycle().skip(ids.len().saturating_sub(1));
    let edges = from.edges.iter().zip(ids.iter().zip(before)).map(|(edge, (&id, &before))| DrawnEdge {
        edge: id,
        path: edge.path.clone(),
        corner: own_corner(garment, piece, edge.corner, before, id),
        touched: Vec::new(),
    });
    let mut drawn = sketch::bare(piece, edges.collect());
    let spots = from.spots.iter();
    drawn.spots = spots
        .filter_map(|spot| Some(DrawnSpot { point: own_point(garment, piece, spot.point)?, at: spot.at }))
        .collect();
    let lines = from.lines.iter();
    drawn.lines = lines
        .filter_map(|line| {
            Some(DrawnLine { edge: own_edge(garment, piece, line.edge)?, path: line.path.clone() })
        })
        .collect();
    drawn.notches = carried_notches(work, piece, from);
    let own = |edge| own_edge(garment, piece, edge);
    let take_ups = from.take_ups.iter();
    drawn.take_ups =
        take_ups.filter_map(|placed| renamed(placed, own(placed.name)?, &own, &drawn.edges)).collect();
    drawn.slits = renamed_slits(&from.slits, Affine::IDENTITY, &own, &drawn.edges);
    carry_missing(work, piece, from, &mut drawn);
    Some(drawn)
}

/// The other piece's notches under the piece's own names of edges.
pub(super) fn carried_notches(work: &Work, piece: PieceId, from: &DrawnPiece) -> Vec<DrawnNotch> {
    let first = work.garment.piece(piece).drawing.notches.len();
    let carried = from.notches.iter().enumerate().filter_map(|(at, notch)| {
        let edge = own_edge(work.garment, piece, notch.edge)?;
        Some(DrawnNotch { edge, declared: first + at, ..*notch })
    });
    carried.collect()
}

/// What was reported of the other piece is reported of this one.
pub(super) fn carry_missing(work: &Work, piece: PieceId, from: &DrawnPiece, to: &mut DrawnPiece) {
    let edges = from.missing.edges.iter().filter(|(_, why)| *why == Why::Reported);
    to.missing.edges.extend(edges.filter_map(|(id, why)| Some((own_edge(work.garment, piece, *id)?, *why))));
    let points = from.missing.points.iter().filter(|(_, why)| *why == Why::Reported);
    to.missing
        .points
        .extend(points.filter_map(|(id, why)| Some((own_point(work.garment, piece, *id)?, *why))));
}

/// An edge came to be after the names were given out.
pub(super) fn report_nameless(work: &Work, piece: PieceId, span: Span) {
    work.mistake(1.0, "", || {
        let title =
            Title::new(format!("{} would get an edge that has no name", work.title(piece))).in_sizes();
        Diagnostic::new(&catalogue::EDGE_GONE, span, title)
            .help("draw it from the piece as it is before that edge is made, or draw its outline yourself")
    });
}
