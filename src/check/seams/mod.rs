//! Checks of seams: whether their sides can be paired, meet and match.

pub(super) mod back_to_front;
pub(super) mod braces;
pub(super) mod copies;
pub(super) mod divided;
pub(super) mod encloses;
pub(super) mod end_for_end;
pub(super) mod ends;
pub(super) mod fit;
pub(super) mod fold_ends;
pub(super) mod fold_kink;
pub(super) mod grain;
pub(super) mod kink;
pub(super) mod left;
pub(super) mod lengths;
pub(super) mod lining;
mod named_after;
mod one_side;
pub(super) mod opening;
pub(super) mod order;
pub(super) mod range;
pub(super) mod ring;
pub(super) mod runs;
pub(super) mod segment;
pub(super) mod sides;
pub(super) mod stretch;
pub(super) mod upside_down;
pub(super) mod width;
