//! Places on edges that sewing names: so far from a corner, half way. Each is a point of its piece that has no name of
//! its own, so that whoever reads a corner or a mark reads it as well.

use super::{EdgeId, EdgePlace, Garment, PointId};

/// A place on an edge as it is sewn, which stands for a corner or a mark.
#[derive(Clone, Debug)]
pub struct PlacedPoint {
    /// The point that it is.
    pub point: PointId,
    /// The edge that it lies on; of several the first on which it can be counted.
    pub edges: Vec<EdgeId>,
    /// Where on the edge.
    pub place: EdgePlace,
}

impl Garment {
    /// Whether a point is a place on an edge, and none that has a name.
    pub fn is_placed_point(&self, point: PointId) -> bool {
        self.placed_points.iter().any(|placed| placed.point == point)
    }
}
