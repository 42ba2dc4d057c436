//! Outlines, one file a way to give one, and what is drawn on them.

mod carried;
pub(super) mod copy;
pub(super) mod cutting;
pub(super) mod divides;
mod left_out;
pub(super) mod lines;
mod mirrored;
pub(super) mod moves;
pub(super) mod notches;
mod rectangle;
mod rest;
mod shut_strip;
pub(super) mod sound;
mod strip;
mod strip_runs;
pub(super) mod walk;

use super::drawn_piece::DrawnPiece;
use super::sketch::{Sketch, spots_so_far};
use super::work::Work;
use crate::garment::{Outline, PieceId};

/// The piece with its outline and the points it brings; none where that is unknown, which was reported.
pub(super) fn outline(work: &Work, piece_id: PieceId, sketch: &mut Sketch) -> Option<DrawnPiece> {
    let piece = work.garment.piece(piece_id);
    let mut drawn = match &piece.drawing.outline {
        Outline::None => None,
        Outline::Walk { edges, cutting: None, .. } => walk::close(piece_id, edges, sketch),
        Outline::Walk { edges, cutting: Some(widths), span } => {
            let given = cutting::Given { edges, widths, span: *span };
            cutting::inside(work, piece_id, sketch, &given)
        }
        Outline::Rectangle { width, height, edges, corners, span } => {
            let given = rectangle::Given { width, height, edges, corners, span: *span };
            rectangle::rectangle(work, piece_id, sketch, &given)
        }
        Outline::Strip { of, along, runs, width, inner, span, .. } => {
            let given = strip::Given { of: *of, along, runs, width, inner: *inner, span: *span };
            strip::strip(work, piece_id, sketch, &given)
        }
        Outline::Copy { of, span, .. } => copy::copy(work, piece_id, of, *span),
        Outline::Rest { of, without, along, width, inner, span, .. } => {
            // What is wrong with the strip is reported where it is drawn.
            work.version(work.garment.paper_of(None, *without)?, 0)?;
            let given = strip::Given { of: *of, along, runs: &[], width, inner: *inner, span: *span };
            rest::rest(work, piece_id, sketch, &given)
        }
    }?;
    if piece.drawing.outline.is_mirrored() {
        mirrored::mirror(&mut drawn);
    }
    let (spots, missing) = spots_so_far(piece, sketch);
    // What the piece says itself stands before what it was copied with.
    drawn.spots.retain(|carried| spots.iter().all(|own| own.point != carried.point));
    drawn.spots.splice(0..0, spots);
    drawn.missing.points.extend(missing.points);
    if !drawn.cutting.is_empty() {
        cutting::corners_inside(&mut drawn);
    }
    Some(drawn)
}
