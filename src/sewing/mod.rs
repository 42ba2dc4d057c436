//! How a worked-out size is put together: which copies meet in each seam, what becomes of every
//! edge, its allowance, notches, buttons and the like, and what has to be bought.
//!
//! A pure function of the garment and one size; nothing is judged here: [`crate::check`] does.

mod allowances;
mod amounts;
mod assemble;
mod channels;
mod closure_pairs;
mod copies;
mod ends;
mod fasteners;
mod fates;
mod give;
mod hands;
pub mod hanging;
mod lengths;
mod lying;
mod marks;
mod model;
mod notches;
mod notions;
mod openings;
pub mod order;
mod over_seam;
pub mod patches;
mod reach;
mod seam_kinds;
mod seams;
mod set_count;
mod sides;
mod stitched;
mod stitching;
mod stitchings;
mod straps;
pub mod surface;
mod whole;

pub use crate::garment::{CASING_TURN, SewnLayers, seam_edges};
pub use crate::resolve::PlaceLost;
pub use allowances::{Allowance, allowance as allowance_asked, piece_allowance};
pub use amounts::amount_of;
pub use assemble::assemble;
pub use channels::{Channel, ELASTIC_STRETCH, RunsThrough};
pub use closure_pairs::unpaired_closures;
pub use fasteners::{BUTTON_THICKNESS, MOST_FASTENERS, Row, RowTrouble, lay as lay_fasteners};
pub use fates::may_share;
pub use give::{Give, give, give_along, give_turned};
pub use lying::{LyingEdge, as_it_lies};
pub use marks::{bears_mark, is_placed_on};
pub use model::*;
pub use notches::{LEAST_APART, mark_on_ply, parts_between, way_from_inside};
pub use notions::ELASTIC_JOINING;
pub use openings::{
    GarmentRim, Holder, LOCKSTITCH, LineBreak, OpeningRing, PassedRing, RimsOfFaces, RingBreak, RingLine,
    garment_rims, lines_run_on, opens_within, ring_in_brim, ring_of_lines,
};
pub use over_seam::over_seam;
pub use reach::Reach;
pub use seam_kinds::{BEYOND_ROW, FELL_TRIM, SeamMaking, seam_making};
pub use set_count::set_count;
pub use stitched::{beside, tacked};
pub use stitching::{Finder, PartIndex, Place, Stitching};
pub use straps::{SewnStrap, SewnStrapRun, is_on_fold, strap_place, straps};
pub use whole::Sewing;
