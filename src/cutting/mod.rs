//! From stitching lines to what lies on the cutting table: cutting lines with their corners,
//! notches, grain, fold and labels, all in millimetres on the piece's own paper (y up); and what can be
//! used of the cloth they are cut from.
//!
//! Pure: reads a garment in one size and how it is put together; knows no output.

mod allowed;
mod cap;
mod cloth;
mod corner;
mod folded;
mod girths;
mod grain;
mod guides;
mod label;
mod line;
mod mark;
mod model;
mod part;
mod part_line;
mod rows;
mod sides;
mod size;
mod slits;
mod take_ups;
mod too_wide;
mod unfinished;
mod wide;

pub use allowed::{Allowed, CornerCut, Darted, Laid};
pub use cloth::{Cloth, Spread};
pub(crate) use folded::End as HemEnd;
pub use line::{CutRun, Most, Unfit, cutting_line, cutting_line_over};
pub use model::*;
pub use part::{cut_extent, opened};
pub use part_line::widest_allowance;
pub(crate) use part_line::{Redrawn, redrawn_corners};
pub use size::WorkedSize;
pub use too_wide::too_wide;
pub use unfinished::cut_unfinished;
