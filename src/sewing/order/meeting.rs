//! Corners of pieces that seams bring together.

use crate::sewing::surface::StretchId;

/// A corner of a face, as the stretch that begins there.
pub type Corner = StretchId;

/// Two corners that seams bring together, others than the one that runs over both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Meeting {
    /// One corner.
    pub start: Corner,
    /// The other.
    pub goal: Corner,
    /// The seam that runs over both, by its place in [`crate::sewing::Sewing::seams`].
    pub own: usize,
}
