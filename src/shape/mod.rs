//! Pure geometry: knows nothing of garments, sizes or text. Lengths are millimetres, y is up.

/// An open chain of segments; the geometry itself follows.
#[derive(Clone, Debug)]
pub struct Path;
