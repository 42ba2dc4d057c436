//! What a seam says to match, seen from the row of edges of one ply.

use crate::garment::SewnPoint;
use crate::sewing::ends::{Corners, Node};
use crate::sewing::stitching::Place;
use smallvec::SmallVec;

/// What is said to match, and of which pairs the place lies inside a ply.
///
/// A corner between two edges of one piece that a ply names one after the other lies inside that ply wherever the ply
/// lies. What is to match it lies inside the others too, at a joint of theirs, and is no end of theirs.
pub(super) struct Meant<'a> {
    pub(super) matching: &'a [(SewnPoint, SewnPoint)],
    inside: SmallVec<[bool; 4]>,
}

impl<'a> Meant<'a> {
    /// Nothing.
    pub(super) fn nothing() -> Self {
        Meant { matching: &[], inside: SmallVec::new() }
    }

    /// Of a seam with those plies.
    pub(super) fn of<'p>(
        corners: &Corners,
        plies: impl Iterator<Item = &'p [Place]>,
        matching: &'a [(SewnPoint, SewnPoint)],
    ) -> Self {
        if matching.is_empty() {
            return Meant::nothing();
        }
        let corners_of = |place: &Place| {
            [false, true].map(|is_end| corners.end_of(place.part, place.edge, is_end)).into_iter().flatten()
        };
        let mut inner: SmallVec<[Node; 4]> = SmallVec::new();
        for ply in plies {
            for pair in ply.windows(2) {
                let [before, after] = pair else { continue };
                if before.part != after.part {
                    continue;
                }
                let mut shared = corners_of(before).filter(|&node| corners_of(after).any(|one| one == node));
                // Two edges that make a whole outline meet at both ends.
                if let (Some(only), None) = (shared.next(), shared.next()) {
                    inner.push(only);
                }
            }
        }
        let lies_inside = |point: &SewnPoint| inner.iter().any(|&node| corners.is_point(node, point));
        let inside = matching.iter().map(|(one, other)| lies_inside(one) || lies_inside(other)).collect();
        Meant { matching, inside }
    }

    fn is_named(&self, corners: &Corners, node: Node, is_inside: bool) -> bool {
        let mut pairs = self.matching.iter().zip(&self.inside).filter(|(_, inside)| **inside == is_inside);
        pairs.any(|((one, other), _)| corners.is_point(node, one) || corners.is_point(node, other))
    }

    /// Whether a corner is said to match, and may be an end of its ply.
    pub(super) fn is_end(&self, corners: &Corners, node: Node) -> bool {
        self.is_named(corners, node, false)
    }

    /// Whether a corner is said to match what lies inside another ply.
    pub(super) fn is_joint(&self, corners: &Corners, node: Node) -> bool {
        self.is_named(corners, node, true)
    }
}
