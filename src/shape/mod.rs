//! Pure geometry: knows nothing of garments, sizes or text. Lengths are millimetres, y is up.
//!
//! Everything is made of straight segments and cubic Béziers. An edge is a [`path::Path`]; a closed
//! outline is a slice of them end to end, each beginning where the one before ends.
//! Routines that can fail give back an error with the numbers a message needs; none panics, also not
//! on numbers that are not finite.

pub mod arc;
pub mod beside;
pub mod crossing;
pub mod curve;
pub mod cut;
pub mod flare;
pub mod fold;
pub mod inward;
pub mod line;
pub mod nearest;
pub mod offset;
pub mod outline;
pub mod partners;
pub mod path;
pub mod pivot;
pub mod place;
pub mod pleat;
pub mod shut;
pub mod spread;
pub mod swing;
pub mod taken;
pub mod tolerance;
pub mod wedge;
pub mod widen;

mod bridge;
mod root;
mod segment;
mod turn;
mod walk;

pub use kurbo::{Affine, Point, Rect, Vec2};
pub(crate) use turn::unit;
