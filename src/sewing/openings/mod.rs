//! How far an opening opens: its ring and every ring that lies at it, all that holds them, the cloth at
//! full stretch and closures undone.
//!
//! Read from the sewn surface: `ring` goes along the edges, `lines` along lines inside pieces, `reach` finds what
//! else must be passed, `hold` what each place stretches to, `ways` what open closures add.

mod hold;
mod lines;
mod model;
mod opening;
mod over;
mod passed;
mod reach;
mod rims;
mod ring;
mod shared;
mod ways;

pub use hold::LOCKSTITCH;
pub use model::*;
pub(super) use opening::openings;
pub use opening::{lines_run_on, ring_of_lines};
pub use rims::{GarmentRim, garment_rims, opens_within, ring_in_brim};
pub use shared::RimsOfFaces;
