//! Tolerances, each named for what it is for. Millimetres unless said.

/// How truly the length of one segment is worked out. Results are shown to 0.01 mm; this is far finer
/// because solvers look for the place where two lengths are equal and need lengths that do not jump.
pub const LENGTH_ACCURACY: f64 = 1e-6;
/// Two points nearer than this are one point.
pub const SAME_POINT: f64 = 1e-6;
/// How far a control point may lie off the chord of a path that still counts as straight.
pub const STRAIGHT: f64 = 1e-6;
/// How far an offset curve may lie from the true one.
pub const OFFSET_ACCURACY: f64 = 0.01;
/// How far a chord may lie from its curve where a curve is made into short straight lines.
pub const FLATTEN: f64 = 0.02;
/// How far a point said to be on an outline may lie off it.
pub const ON_OUTLINE: f64 = 0.01;
/// An outline with less area than this (mm²) has collapsed.
pub const NO_AREA: f64 = 1e-3;
/// Two directions whose angle (radians) is less than this go the same way.
pub const SAME_DIRECTION: f64 = 1e-6;
/// How far a drawn arc may lie from the true circle.
pub const ARC_ACCURACY: f64 = 1e-4;
/// How much the distances of an arc's two ends from its centre may differ.
pub const RADII_DIFFER: f64 = 0.01;
/// Where two neighbouring edges meet, a crossing nearer to their corner than this is the corner itself.
pub const AT_CORNER: f64 = 0.05;
