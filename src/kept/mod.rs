//! What is remembered from one compiling of a garment to the next, while its text is being written.

mod memo;
mod question;

pub(crate) use memo::Memo;
pub(crate) use question::Question;

use crate::cutting::{CutRun, HemEnd, Unfit};
use crate::resolve::DrawnPiece;
use crate::syntax::KeptTexts;
use std::sync::Arc;

/// What was worked out of a garment when it was last compiled, by what it was worked out of: nothing that is taken from
/// it differs from what a first compiling gives. It holds no more than the last two texts of one garment came to.
#[derive(Debug, Default)]
pub struct Kept {
    pub(crate) texts: KeptTexts,
    /// By size.
    sizes: Vec<Arc<SizeMemory>>,
}

/// What was worked out of one size: answers to questions of geometry alone, each by all that it hangs on.
#[derive(Debug, Default)]
pub(crate) struct SizeMemory {
    /// Pieces as they are drawn, where nothing was told of them.
    pub drawn: Memo<Arc<DrawnPiece>>,
    /// Cutting lines of parts without darts.
    pub lines: Memo<Result<Arc<[CutRun]>, Unfit>>,
    /// Ends of hems that come out beside their piece.
    pub hem_ends: Memo<Arc<[HemEnd]>>,
    /// Whether finishes come to nothing on the piece that they lie on.
    pub roomy: Memo<bool>,
    /// How far an edge swaps sides with that of the size before.
    pub swapped: Memo<Option<(f64, f64)>>,
}

impl Kept {
    /// What is remembered of each of so many sizes; what was not asked for since the last time is forgotten.
    pub(crate) fn sizes(&mut self, count: usize) -> &[Arc<SizeMemory>] {
        self.sizes.resize_with(count, Arc::default);
        for size in &mut self.sizes {
            *size = Arc::new(size.next());
        }
        &self.sizes
    }
}

impl SizeMemory {
    /// The memory for the next text.
    fn next(&self) -> SizeMemory {
        let SizeMemory { drawn, lines, hem_ends, roomy, swapped } = self;
        SizeMemory {
            drawn: drawn.next(),
            lines: lines.next(),
            hem_ends: hem_ends.next(),
            roomy: roomy.next(),
            swapped: swapped.next(),
        }
    }
}
