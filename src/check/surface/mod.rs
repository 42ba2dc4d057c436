//! What only the garment as one sewn surface shows.

pub(super) mod apart;
pub(super) mod bag_at_slit;
pub(super) mod bag_up;
pub(super) mod bags;
pub(super) mod closure_across;
pub(super) mod closure_jumps;
pub(super) mod closure_short;
mod cloth;
pub(super) mod comes_out_nowhere;
pub(super) mod corner_shut;
pub(super) mod crossed;
pub(super) mod drawn_together;
mod each_by_itself;
pub(super) mod facing_ends;
pub(super) mod falls_down;
pub(super) mod folded_twist;
pub(super) mod gap_open;
pub(super) mod hood_small;
pub(super) mod jumps;
pub(super) mod left_to_right;
pub(super) mod lining_behind;
pub(super) mod lining_narrow;
pub(super) mod long_sleeve;
pub(super) mod narrow_limb;
pub(super) mod narrow_sleeve;
pub(super) mod no_way;
mod on_both_sides;
pub(super) mod open_bag;
pub(super) mod opens_behind;
pub(super) mod out_of_reach;
pub(super) mod own_edge;
pub(super) mod pinched;
mod rim_words;
pub(super) mod round_part;
pub(super) mod runs_on;
pub(super) mod seam_at_shoulder;
pub(super) mod sewn_shut;
mod shut_in;
pub(super) mod shuts_left_on_right;
mod shuts_rim;
pub(super) mod straps_across;
pub(super) mod straps_buckled;
mod straps_closed;
mod trunk;
pub(super) mod twisted;
pub(super) mod two_tubes;
pub(super) mod unjoined;
pub(super) mod unsaid;
pub(super) mod unsaid_line;
mod worn;

pub(super) mod zip_ends;

pub(super) use crossed::crossed_seams;
pub(super) use narrow_sleeve::is_caught;
pub(super) use out_of_reach::laps;
pub(super) use runs_on::angle;
pub(super) use trunk::{TRUNK, knows_trunk};

use crate::cutting::WorkedSize;
use crate::garment::Garment;

/// Whether left and right copies, or edges in a row, do not go together as they are sewn.
pub(super) fn sews_left_to_right_or_jumps(garment: &Garment, size: &WorkedSize) -> bool {
    !left_to_right::all(garment, size).is_empty() || !jumps::all(garment, size).is_empty()
}
