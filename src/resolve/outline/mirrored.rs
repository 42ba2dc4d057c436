//! The mirror image of an outline that is made of another piece.

use crate::resolve::drawn_piece::DrawnPiece;
use crate::shape::{Affine, Point};

/// Turns a piece over, left to right about x = 0. Edges keep their names and their order, so that the outline goes
/// round the other way, and every corner, notch, take-up and slit goes with it under its own name.
pub(super) fn mirror(drawn: &mut DrawnPiece) {
    let over = Affine::FLIP_X;
    for edge in &mut drawn.edges {
        edge.path = edge.path.transform(over);
    }
    for line in &mut drawn.lines {
        line.path = line.path.transform(over);
    }
    for spot in &mut drawn.spots {
        spot.at = over * spot.at;
    }
    for notch in &mut drawn.notches {
        notch.at = over * notch.at;
    }
    for take_up in &mut drawn.take_ups {
        *take_up = take_up.transformed(over);
    }
    for slit in &mut drawn.slits {
        *slit = slit.moved(|at: Point| over * at);
    }
}
