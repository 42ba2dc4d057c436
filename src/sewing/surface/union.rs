//! Sets that are brought together (union by size, paths halved or shortened: Tarjan 1975).

/// Things by their places, in sets.
#[derive(Clone, Debug)]
pub(crate) struct Union {
    parents: Vec<u32>,
    sizes: Vec<u32>,
}

impl Union {
    /// Each thing by itself.
    pub(crate) fn new(count: usize) -> Self {
        Union { parents: (0..count as u32).collect(), sizes: vec![1; count] }
    }

    /// The thing that stands for a thing's set.
    pub(crate) fn root(&mut self, thing: usize) -> usize {
        let mut at = thing;
        while self.parents[at] as usize != at {
            let up = self.parents[at] as usize;
            self.parents[at] = self.parents[up];
            at = up;
        }
        at
    }

    /// Brings two sets together; whether they were apart.
    pub(crate) fn join(&mut self, one: usize, other: usize) -> bool {
        let (one, other) = (self.root(one), self.root(other));
        if one == other {
            return false;
        }
        let (small, large) = if self.sizes[one] < self.sizes[other] { (one, other) } else { (other, one) };
        self.parents[small] = large as u32;
        self.sizes[large] += self.sizes[small];
        true
    }
}

/// Things by their places, in sets in which it is known of any two whether they are alike or opposite.
#[derive(Clone, Debug)]
pub(crate) struct Signed {
    parents: Vec<u32>,
    /// Whether a thing is opposite to its parent.
    flips: Vec<bool>,
    sizes: Vec<u32>,
}

impl Signed {
    /// Each thing by itself.
    pub(crate) fn new(count: usize) -> Self {
        Signed { parents: (0..count as u32).collect(), flips: vec![false; count], sizes: vec![1; count] }
    }

    /// The thing that stands for a thing's set, and whether the thing is opposite to it.
    pub(crate) fn root(&mut self, thing: usize) -> (usize, bool) {
        let (mut at, mut flip) = (thing, false);
        while self.parents[at] as usize != at {
            flip ^= self.flips[at];
            at = self.parents[at] as usize;
        }
        // Once more, so that every thing on the way hangs on the root.
        let root = at;
        let (mut at, mut left) = (thing, flip);
        while self.parents[at] as usize != at {
            let (up, own) = (self.parents[at] as usize, self.flips[at]);
            (self.parents[at], self.flips[at]) = (root as u32, left);
            left ^= own;
            at = up;
        }
        (root, flip)
    }

    /// Whether two things of one set are opposite; none of things in different sets.
    pub(crate) fn opposite(&mut self, one: usize, other: usize) -> Option<bool> {
        let ((one, flip), (other, other_flip)) = (self.root(one), self.root(other));
        (one == other).then_some(flip != other_flip)
    }

    /// Says of two things that they are alike or opposite; false where the contrary is known.
    pub(crate) fn join(&mut self, one: usize, other: usize, opposite: bool) -> bool {
        let ((one, flip), (other, other_flip)) = (self.root(one), self.root(other));
        if one == other {
            return (flip != other_flip) == opposite;
        }
        let (small, large) = if self.sizes[one] < self.sizes[other] { (one, other) } else { (other, one) };
        self.parents[small] = large as u32;
        self.flips[small] = flip ^ other_flip ^ opposite;
        self.sizes[large] += self.sizes[small];
        true
    }
}
