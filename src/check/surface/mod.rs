//! What only the garment as one sewn surface shows.

pub(super) mod apart;
pub(super) mod crossed;
pub(super) mod runs_on;
pub(super) mod twisted;
