//! Where on a seam the points lie that notches, gaps and stretches are counted from.

use super::Notching;
use crate::garment::{Garment, SewnPoint};
use crate::resolve::{DrawnPiece, taken};
use crate::sewing::model::{PartId, SewnPly, SewnSeam};
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::syntax::tree::Hand;

/// Where a named end lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Anchor {
    pub(super) side: usize,
    pub(super) station: f64,
    /// The edge that it is an end of goes on towards the seam's end.
    pub(super) forward: bool,
    /// It is nearer to the seam's end.
    pub(super) from_end: bool,
    /// The copy that it is on.
    pub(super) hand: Option<Hand>,
}

impl Notching<'_, '_> {
    /// Where on a seam's first plies a point is: at ends and joints.
    pub(super) fn anchors(&self, sewn: &SewnSeam, point: &SewnPoint) -> Vec<Anchor> {
        let mut found = Vec::new();
        for (side, plies) in [&sewn.first.plies, &sewn.second.plies].into_iter().enumerate() {
            for ply in plies {
                let mut station = 0.0;
                let last = ply.runs.len().saturating_sub(1);
                for (at, run) in ply.runs.iter().enumerate() {
                    let is = |is_end: bool| {
                        let node = self.corners.end_of(run.part, run.edge, is_end != run.reversed);
                        node.is_some_and(|node| self.corners.is_point(node, point))
                    };
                    if is(false) {
                        found.push(Anchor {
                            side,
                            station,
                            forward: true,
                            from_end: at > last / 2,
                            hand: run.hand,
                        });
                    }
                    station += run.length;
                    if is(true) {
                        found.push(Anchor {
                            side,
                            station,
                            forward: false,
                            from_end: at >= last / 2,
                            hand: run.hand,
                        });
                    }
                }
                if !found.is_empty() {
                    return found;
                }
            }
        }
        found
    }

    /// Where on one of a seam's sides a corner or a mark is: the side and how far from its start.
    pub(super) fn station(&self, sewn: &SewnSeam, point: &SewnPoint) -> Option<(usize, f64)> {
        if let Some(anchor) = self.anchors(sewn, point).first() {
            return Some((anchor.side, anchor.station));
        }
        let sides = [&sewn.first.plies, &sewn.second.plies].into_iter().enumerate();
        let mut plies = sides.flat_map(|(side, plies)| plies.iter().map(move |ply| (side, ply)));
        plies.find_map(|(side, ply)| {
            Some((side, mark_on_ply(self.garment, |part| self.drawn(part), ply, point)?))
        })
    }
}

/// How far from the start of a ply a mark, or a place on one of its edges, is as sewn.
pub fn mark_on_ply<'d>(
    garment: &Garment,
    drawn: impl Fn(PartId) -> Option<&'d DrawnPiece>,
    ply: &SewnPly,
    point: &SewnPoint,
) -> Option<f64> {
    let wanted = point.point.point()?;
    let mut station = 0.0;
    for run in &ply.runs {
        let own = drawn(run.part)?;
        let spot = own.spots.iter().find(|spot| garment.is_point_of(spot.point, wanted));
        if let (Some(spot), Some(edge)) = (spot, own.edge_at(run.edge)) {
            let nearest = edge.path.nearest(spot.at);
            if nearest.distance <= ON_OUTLINE {
                let along = edge.path.length_to(nearest.position);
                let along = taken(garment, own, run.edge)?.as_sewn(along);
                return Some(station + if run.reversed { run.length - along } else { along });
            }
        }
        station += run.length;
    }
    None
}

/// Whether one goes on from a place of a seam so long towards its end, or back; none where both can be, or neither.
pub fn way_from_inside(station: f64, far: f64, long: f64) -> Option<bool> {
    let (on, back) = (station + far <= long + SAME_POINT, station - far >= -SAME_POINT);
    match (far.abs() <= SAME_POINT || on, back) {
        (true, true) if far.abs() > SAME_POINT => None,
        (true, _) => Some(true),
        (false, true) => Some(false),
        (false, false) => None,
    }
}
