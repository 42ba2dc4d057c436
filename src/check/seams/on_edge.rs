//! Where a run lies on its edge, so that it can be compared with one of the same edge in another layer.

use crate::garment::{EdgeId, Garment, PointId};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece};

/// Where an edge, or what is left of it, lies on the whole of it.
#[derive(Clone, Copy)]
pub(in crate::check) struct OnEdge {
    /// Where the whole begins and ends: what these corners were copied from in the end.
    corners: [PointId; 2],
    /// How far from each of these it ends itself, as the edge is drawn.
    away: [f64; 2],
    length: f64,
}

impl OnEdge {
    /// None where the whole begins or ends at a corner without a name.
    pub(in crate::check) fn of(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> Option<OnEdge> {
        OnEdge::of_all(garment, drawn, edge, &|_| false)
    }

    /// The same of a run of which others part stretches: those beside it that are of it as well.
    pub(in crate::check) fn of_all(
        garment: &Garment,
        drawn: &DrawnPiece,
        edge: DrawnEdgeId,
        is_of_it: &dyn Fn(EdgeId) -> bool,
    ) -> Option<OnEdge> {
        let known = |at: DrawnEdgeId| drawn.edge_at(at).map(|own| garment.whole_edge(own.edge));
        let length = |at: DrawnEdgeId| drawn.edge_at(at).map_or(0.0, |own| own.path.length());
        let whole = known(edge)?;
        let mut own = length(edge);
        let mut beyond = |next: &dyn Fn(DrawnEdgeId) -> DrawnEdgeId| {
            let (mut at, mut away, mut is_own) = (edge, 0.0, true);
            while let Some(further) = Some(next(at)).filter(|&to| to != edge && known(to) == Some(whole)) {
                is_own = is_own && drawn.edge_at(further).is_some_and(|edge| is_of_it(edge.edge));
                match is_own {
                    true => own += length(further),
                    false => away += length(further),
                }
                at = further;
            }
            (at, away)
        };
        let (first, before) = beyond(&|at| drawn.before(at));
        let (last, after) = beyond(&|at| drawn.after(at));
        let origin = |at: DrawnEdgeId| match drawn.edge_at(at)?.corner {
            CornerName::Named(point) => Some(garment.point_origin(point)),
            CornerName::Between(..) => None,
        };
        let corners = [origin(first)?, origin(drawn.after(last))?];
        Some(OnEdge { corners, away: [before, after], length: own })
    }

    /// Where the whole begins and ends, the same of every copy of it.
    pub(in crate::check) fn whole(&self) -> (PointId, PointId) {
        let [start, end] = self.corners;
        (start.min(end), start.max(end))
    }

    /// How far the other ends from the corners of this one; none of edges that are not the same.
    fn across(&self, other: &OnEdge) -> Option<[f64; 2]> {
        let [start, end] = self.corners;
        match other.corners {
            _ if start == end => None,
            corners if corners == [start, end] => Some(other.away),
            corners if corners == [end, start] => Some([other.away[1], other.away[0]]),
            _ => None,
        }
    }

    /// How far the one lies beside the other; none of edges that are not the same. What was cut off at one end says nothing of
    /// the other: the nearer counts.
    pub(in crate::check) fn away_from(&self, other: &OnEdge) -> Option<f64> {
        let their = self.across(other)?;
        Some((self.away[0] - their[0]).abs().min((self.away[1] - their[1]).abs()))
    }

    /// How far it ends from where the whole begins and ends.
    pub(in crate::check) fn away(&self) -> [f64; 2] {
        self.away
    }

    /// Whether the other, which is of the same whole, goes the other way, as where one of both is drawn mirrored.
    pub(in crate::check) fn is_against(&self, other: &OnEdge) -> bool {
        self.corners != other.corners
    }

    /// Whether the middle of this one lies on the other.
    pub(in crate::check) fn lies_on(&self, other: &OnEdge) -> bool {
        self.across(other).is_some_and(|their| {
            self.away.into_iter().zip(their).any(|(own, their)| {
                let middle = own + 0.5 * self.length;
                their < middle && middle < their + other.length
            })
        })
    }
}
