/// A half-open range of bytes, counted over all files of a [`super::SourceMap`] laid end to end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// First byte.
    pub lo: u32,
    /// One past the last byte.
    pub hi: u32,
}

impl Span {
    /// The span from `lo` up to, not including, `hi`.
    pub fn new(lo: u32, hi: u32) -> Self {
        Self { lo, hi }
    }

    /// The smallest span that covers both.
    pub fn to(self, other: Span) -> Span {
        Span::new(self.lo.min(other.lo), self.hi.max(other.hi))
    }

    /// Number of bytes covered.
    pub fn len(self) -> usize {
        (self.hi - self.lo) as usize
    }

    /// Whether it covers nothing.
    pub fn is_empty(self) -> bool {
        self.hi == self.lo
    }
}
