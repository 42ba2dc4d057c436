//! What is remembered from one compiling of a garment to the next, while its text is being written.

mod memo;
mod memo_of;
mod question;

pub(crate) use memo::Memo;
pub(crate) use memo_of::MemoOf;
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
    /// How pieces are drawn, whatever their values come to: rows of numbers that are there but once.
    drawings: Arc<Memo<()>>,
    /// By size.
    sizes: Vec<Arc<SizeMemory>>,
}

/// What is lent of that while a garment is worked out; nothing where it is worked out but once.
#[derive(Clone, Debug, Default)]
pub(crate) struct Memory {
    pub drawings: Option<Arc<Memo<()>>>,
    /// By size.
    pub sizes: Vec<Arc<SizeMemory>>,
}

/// What was worked out of one size: answers to questions of geometry alone, each by all that it hangs on.
#[derive(Debug, Default)]
pub(crate) struct SizeMemory {
    /// Pieces as they are drawn, by how and from what values, where nothing was told of them.
    pub drawn: MemoOf<Arc<[u64]>, Arc<DrawnPiece>>,
    /// Papers after an alteration, where nothing was told of it.
    pub altered: MemoOf<Arc<DrawnPiece>, Arc<DrawnPiece>>,
    /// Cutting lines of the very same papers, and of outlines, without darts.
    pub lines_of: MemoOf<Arc<DrawnPiece>, Line>,
    pub lines: Memo<Line>,
    /// Ends of hems that come out beside their piece, likewise.
    pub hem_ends_of: MemoOf<PaperAndLine, Arc<[HemEnd]>>,
    pub hem_ends: Memo<Arc<[HemEnd]>>,
    /// Whether finishes come to nothing on the piece that they lie on, likewise.
    pub roomy_of: MemoOf<Arc<DrawnPiece>, bool>,
    pub roomy: Memo<bool>,
    /// Papers of which no edge swaps sides with that of the size before, those of both sizes.
    pub nested: MemoOf<TwoPapers, ()>,
    /// How far an edge swaps sides with that of the size before.
    pub swapped: Memo<Option<(f64, f64)>>,
}

/// A cutting line, or why there is none.
pub(crate) type Line = Result<Arc<[CutRun]>, Unfit>;

/// A paper and the cutting line round it.
pub(crate) type PaperAndLine = (Arc<DrawnPiece>, Arc<[CutRun]>);

/// The papers of one piece in two sizes.
pub(crate) type TwoPapers = (Arc<DrawnPiece>, Arc<DrawnPiece>);

impl Kept {
    /// What is remembered of a garment in so many sizes; what was not asked for since the last time is forgotten, and so
    /// is what somebody still holds on to.
    pub(crate) fn memory(&mut self, sizes: usize) -> Memory {
        match Arc::get_mut(&mut self.drawings) {
            Some(drawings) => drawings.begin(),
            None => self.drawings = Arc::default(),
        }
        self.sizes.resize_with(sizes, Arc::default);
        for size in &mut self.sizes {
            match Arc::get_mut(size) {
                Some(memory) => memory.begin(),
                None => *size = Arc::default(),
            }
        }
        Memory { drawings: Some(self.drawings.clone()), sizes: self.sizes.clone() }
    }
}

impl SizeMemory {
    fn begin(&mut self) {
        let SizeMemory {
            drawn,
            altered,
            lines_of,
            lines,
            hem_ends_of,
            hem_ends,
            roomy_of,
            roomy,
            nested,
            swapped,
        } = self;
        drawn.begin();
        altered.begin();
        lines_of.begin();
        lines.begin();
        hem_ends_of.begin();
        hem_ends.begin();
        roomy_of.begin();
        roomy.begin();
        nested.begin();
        swapped.begin();
    }
}
