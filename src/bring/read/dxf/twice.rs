//! What is said of a piece that is drawn more than once in one size.

use super::one::One;
use super::outlines::extent;
use crate::bring::read::letters::shown;
use kurbo::Rect;

/// Where a piece in one size is drawn first, and how many times it is.
pub(super) struct Place {
    origin: String,
    is_block: bool,
    begins: usize,
    bounds: Rect,
    /// How many times it is drawn in that size.
    pub times: usize,
}

impl Place {
    /// Of a piece that is drawn for the first time.
    pub fn of(one: &One) -> Self {
        let origin = one.origin.clone();
        Place { origin, is_block: one.line.is_none(), begins: one.begins, bounds: one.bounds, times: 1 }
    }

    /// What is said of the same piece in the same size once more.
    pub fn and(&self, other: &Place, name: &str, size: &str) -> String {
        let in_size = if size.is_empty() { String::new() } else { format!(" ({})", shown(size)) };
        if self.is_block && self.origin == other.origin {
            return format!(
                "{} draws more than one outline in one size{in_size}: in line {}, {}, and in line {}, {}; each is taken for a piece. \
                 Another size wants a block of its own, and so does another piece.",
                self.origin,
                self.begins,
                extent(self.bounds),
                other.begins,
                extent(other.bounds)
            );
        }
        format!(
            "“{}” stands there more than once in one size{in_size}: {}, and {}; each is a piece of its own, and two pieces want \
             two names.",
            shown(name),
            self.origin,
            other.origin
        )
    }
}
