//! Whether two sizes hang together alike: what is glued to what, whatever its length.

use super::model::{ClosureLine, Side, Stretch, Surface};

impl Surface {
    /// Whether another surface is this one but for lengths: the same faces, cut into the same stretches, joined and closed
    /// alike. What is no matter of length is then the same of both. Takes time in proportion to the stretches.
    pub fn is_formed_like(&self, other: &Surface) -> bool {
        self.vertices == other.vertices
            && self.faces == other.faces
            && self.holes == other.holes
            && alike(&self.sides, &other.sides, is_side_like)
            && alike(&self.stretches, &other.stretches, is_stretch_like)
            && self.joins == other.joins
            && alike(&self.closures, &other.closures, is_closure_like)
            && self.placings == other.placings
            && self.twists == other.twists
    }
}

fn alike<T>(one: &[T], other: &[T], is_like: impl Fn(&T, &T) -> bool) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| is_like(one, other))
}

fn is_side_like(one: &Side, other: &Side) -> bool {
    *one == Side { length: one.length, ..*other }
}

fn is_stretch_like(one: &Stretch, other: &Stretch) -> bool {
    *one == Stretch { from: one.from, to: one.to, ..*other }
}

fn is_closure_like(one: &ClosureLine, other: &ClosureLine) -> bool {
    let of = |line: &ClosureLine| (line.closure, line.time, line.takes_edges);
    of(one) == of(other) && one.sides == other.sides && one.faces == other.faces
}
