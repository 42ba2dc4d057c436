//! What only the garment as one sewn surface shows.

pub(super) mod apart;
pub(super) mod bags;
pub(super) mod crossed;
pub(super) mod folded_twist;
pub(super) mod jumps;
pub(super) mod left_to_right;
pub(super) mod runs_on;
pub(super) mod twisted;
pub(super) mod unsaid;
pub(super) mod zip_ends;

pub(super) use crossed::is_crossed;
