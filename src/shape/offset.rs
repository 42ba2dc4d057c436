//! Parallel edges: offsets, edges moved out or in, facing strips.

use crate::shape::outline::RingError;
use crate::shape::path::Path;
use kurbo::Point;
use thiserror::Error;

/// Why there is no parallel.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum OffsetError {
    /// The edge curves too tightly for this distance.
    #[error("the edge curves with a radius of {radius} mm at {point:?}, too tight for {distance} mm")]
    TooTight {
        /// Where on the edge.
        point: Point,
        /// The radius there, mm: the most that could be offset.
        radius: f64,
        /// What was asked for, mm.
        distance: f64,
    },
    /// The parallel of an edge does not meet the edge beside it.
    #[error("the parallel of edge {edge} does not meet edge {neighbour}")]
    MissesNeighbour {
        /// The edge that was moved.
        edge: usize,
        /// The edge beside it.
        neighbour: usize,
    },
    /// Nothing is left of an edge between its neighbours.
    #[error("nothing is left of edge {edge}")]
    NothingLeft {
        /// The edge.
        edge: usize,
    },
    /// There is no such edge, or the run holds none or all of them.
    #[error("there is no such run of edges")]
    NoSuchEdge,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// The inner side of a strip along a run of edges.
#[derive(Debug, Clone, PartialEq)]
pub struct InnerRun {
    /// The parallels of the run's edges, in the same order and direction, mitred between each other.
    pub parallels: Vec<Path>,
    /// Length along the edge before the run where the strip ends, mm from that edge's start.
    pub on_previous: f64,
    /// Length along the edge after the run where the strip ends, mm from that edge's start.
    pub on_next: f64,
}

/// The parallel of `path` at `distance` mm to its left (negative: to its right), in its direction.
pub fn parallel(path: &Path, distance: f64) -> Result<Path, OffsetError> {
    let _ = (path, distance);
    Err(OffsetError::NotFinite)
}

/// The ring with edge `edge` moved `distance` mm out of the piece (negative: in).
pub fn extend_edge(ring: &[Path], edge: usize, distance: f64) -> Result<Vec<Path>, OffsetError> {
    let _ = (ring, edge, distance);
    Err(OffsetError::NotFinite)
}

/// The inner side of a strip `width` mm wide along `count` edges from `first` on (round the ring's end if need be).
pub fn inner_run(ring: &[Path], first: usize, count: usize, width: f64) -> Result<InnerRun, OffsetError> {
    let _ = (ring, first, count, width);
    Err(OffsetError::NotFinite)
}
