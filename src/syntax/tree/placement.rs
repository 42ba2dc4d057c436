//! `place`.

use super::{Dotted, EdgePlace, Name};
use crate::source::Span;

/// `place pocket on front { … }`
#[derive(Clone, Debug)]
pub struct Place {
    /// What is placed.
    pub piece: Dotted,
    /// What it is placed on.
    pub on: Dotted,
    /// What stands in its braces.
    pub items: Vec<PlaceItem>,
}

/// One line of a placement.
#[derive(Clone, Debug)]
pub struct PlaceItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: PlaceItemNode,
}

/// What a line of a placement says.
#[derive(Clone, Debug)]
pub enum PlaceItemNode {
    /// `corner bottom_left at pocket_corner`
    Corner {
        /// A corner of what is placed.
        corner: Name,
        /// Where on what it is placed on.
        at: HostPlace,
    },
    /// `topstitch left, right`
    Topstitch(Vec<Name>),
    /// `topstitch all round`: every edge that nothing catches
    TopstitchAllRound,
    /// `caught bottom in hem_band`
    Caught {
        /// Edges of what is placed.
        edges: Vec<Name>,
        /// A seam or a closure.
        in_seam: Name,
    },
}

/// Where on a piece something is placed.
#[derive(Clone, Debug)]
pub enum HostPlace {
    /// `at pocket_corner`: a mark or a corner
    Point(Name),
    /// `on waist at 8 from side`: a place on an edge
    Edge(Name, EdgePlace),
}
