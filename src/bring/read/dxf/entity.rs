//! What a DXF file draws, as it says it: in the drawing's units, in the coordinates of its block.

use kurbo::{Point, Vec2};
use std::sync::Arc;

/// Something drawn.
#[derive(Debug, Clone)]
pub(super) struct Entity {
    /// The layer's name.
    pub layer: Arc<str>,
    /// The colour's number, where the entity has one of its own.
    pub colour: Option<i64>,
    /// Where it begins in the file, counted from 1.
    pub line: usize,
    /// Drawn on the back of the plane: x goes the other way (extrusion 0, 0, −1).
    pub is_from_behind: bool,
    /// What is drawn.
    pub shape: Shape,
}

/// What can be drawn.
#[derive(Debug, Clone)]
pub(super) enum Shape {
    /// A straight line.
    Line(Point, Point),
    /// Straight lines and arcs from vertex to vertex.
    Polyline {
        /// The vertices, each with the bulge of what goes out from it: the tangent of a quarter of the arc's
        /// angle, anticlockwise positive; 0 for a straight line.
        vertices: Vec<(Point, f64)>,
        /// Whether it goes from the last back to the first.
        closed: bool,
    },
    /// Part of a circle or of an ellipse, anticlockwise.
    Arc {
        /// The middle.
        centre: Point,
        /// From the middle to where the parameter is 0; a circle's radius, along x.
        major: Vec2,
        /// The other half axis as a share of this one; 1 for a circle.
        ratio: f64,
        /// Parameters of both ends, radians.
        from: f64,
        /// Past `from`; a whole turn past it where it is closed.
        to: f64,
    },
    /// A B-spline.
    Spline(Spline),
    /// A single point.
    Point(Point),
    /// Words, one line each.
    Words {
        /// Where they stand.
        at: Point,
        /// The letters' height.
        height: f64,
        /// The lines.
        lines: Vec<String>,
    },
    /// A block put down.
    Insert(Box<Insert>),
}

/// A B-spline, or points that one shall go through.
#[derive(Debug, Clone, Default)]
pub(super) struct Spline {
    /// The degree of its polynomials.
    pub degree: usize,
    /// Parameters, not falling; as many as the control points, the degree and one.
    pub knots: Vec<f64>,
    /// The control points.
    pub controls: Vec<Point>,
    /// Their weights; empty where all are alike.
    pub weights: Vec<f64>,
    /// Points that it goes through, where they are all that is said.
    pub through: Vec<Point>,
    /// Whether it ends where it begins.
    pub closed: bool,
}

/// A block put down.
#[derive(Debug, Clone)]
pub(super) struct Insert {
    /// The block's name.
    pub block: String,
    /// Where its base point comes to lie.
    pub at: Point,
    /// How much larger, along x and y.
    pub scale: (f64, f64),
    /// Turned anticlockwise, radians.
    pub turn: f64,
    /// How many in a row, and how far apart.
    pub columns: (u32, f64),
    /// How many rows, and how far apart.
    pub rows: (u32, f64),
    /// What is written with it.
    pub words: Vec<(Point, String)>,
}
