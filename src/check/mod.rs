//! Checks: what a maker must fix, or should look at. One small file a family, listed in [`CHECKS`].
//!
//! A check changes nothing. It reads the garment and what was worked out of it, and is silent
//! about what could not be worked out: that has been reported where it went wrong.

mod account;
mod adjust;
mod adjust_at_seams;
mod alike;
mod allowance;
mod allowance_none;
mod allowance_wide;
mod band_unclosed;
mod beyond_fold;
mod binding;
mod body_unlikely;
mod button_level;
mod button_off_cloth;
mod casing;
mod casing_empty;
mod caught;
mod cautions;
mod child_size;
mod closure_one_side;
mod cord_shut;
mod cords;
mod curve_wrong_way;
mod cuttings;
mod dart_at_bust;
mod dart_far;
mod darts;
mod edges;
mod elastic;
mod eyelet_edge;
mod facing;
mod fasteners;
mod finish_room;
mod fold_narrow;
mod folded;
mod folded_in;
mod follows;
mod forms;
mod fused_alone;
mod fused_copies;
mod gap_at_end;
mod gap_caught;
mod gaps;
mod girth;
mod gone;
mod hem;
mod hem_tiny;
mod irregular;
mod lines_cross;
mod listed;
mod measured_other;
mod nap;
mod narrow;
mod neck_rises;
mod neck_tight;
mod necklines;
mod negative;
mod notches;
mod nothing_drawn;
mod odd;
mod on_themselves;
mod one_rim;
mod onto;
mod out_of_use;
mod outrun;
mod over_buttons;
mod over_cloth;
mod pairs;
mod partners;
mod parts;
mod patches;
mod piping;
mod place_count;
mod placed;
mod placing;
mod placket_narrow;
mod pocket_shut;
mod prices;
mod require;
mod ring_spacing;
mod row_ends;
mod row_off_cloth;
mod row_over_slit;
mod running;
mod running_on;
mod seams;
mod selvage;
mod set_notions;
mod shrinks;
mod sides;
mod sizes_order;
mod slit_front;
mod slits;
mod snips;
mod steps;
mod stitch_unfit;
mod stitched;
mod strap_draws;
mod strap_fastened;
mod strap_in_seam;
mod strap_off_edge;
mod strap_one_side;
mod strap_overlap;
mod strap_room;
mod straps;
mod surface;
mod swallowed;
mod tack_far;
mod tack_shuts;
mod thick;
mod through;
mod tiny;
mod too_thin;
mod too_wide;
mod turn_up;
mod turned_under;
mod two_rows;
mod underlap;
mod uneased;
mod unmeasured;
mod unpaired;
mod unused;
mod welt_down;
mod words;
mod zip_cloth;
mod zip_shows;
mod zipper;

pub use account::{account_for_garment, account_for_sizes};
pub use follows::told_once;
#[cfg(feature = "editor")]
pub(crate) use partners::loose;
pub use running::run;

use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, group};

/// A family of checks.
pub struct Check {
    /// Everything it may report.
    pub kinds: &'static [&'static Entry],
    /// How it looks.
    pub run: Run,
}

/// How a check looks at a garment.
pub enum Run {
    /// At the garment alone; the same in every size.
    Once(fn(&Garment, &mut Vec<Diagnostic>)),
    /// At each size by itself; what is found in several sizes is reported once.
    PerSize(fn(&Garment, &WorkedSize, &mut Vec<Finding>)),
    /// At each size by itself, where what hangs on lengths only words what is found: of sizes that hang together alike
    /// one is looked at, and the others where something is found in that.
    PerForm(fn(&Garment, &WorkedSize, &mut Vec<Finding>)),
    /// At each size by itself, and then once more at what is reported of all of them.
    PerSizeThenOver(
        fn(&Garment, &WorkedSize, &mut Vec<Finding>),
        fn(&Garment, &[WorkedSize], &mut [Diagnostic]),
    ),
    /// At all sizes together.
    OverSizes(fn(&Garment, &[WorkedSize], &mut Vec<Diagnostic>)),
}

/// Every check, in the order in which messages are reported.
pub static CHECKS: &[&Check] = &[
    &irregular::CHECK,
    &lines_cross::CHECK,
    &parts::CHECK,
    &nothing_drawn::CHECK,
    &negative::CHECK,
    &tiny::CHECK,
    &shrinks::CHECK,
    &odd::OVER_SIZES,
    &body_unlikely::CHECK,
    &child_size::CHECK,
    &sizes_order::CHECK,
    &odd::CLOTH,
    &selvage::CHECK,
    &set_notions::CHECK,
    &gap_caught::CHECK,
    &gap_at_end::CHECK,
    &eyelet_edge::CHECK,
    &placed::CHECK,
    &placing::CHECK,
    &place_count::CHECK,
    &pocket_shut::CHECK,
    &over_buttons::CHECK,
    &patches::darts::CHECK,
    &patches::hems::CHECK,
    &patches::pockets::CHECK,
    &patches::apart::CHECK,
    &patches::flaps::CHECK,
    &patches::mouths::CHECK,
    &patches::small::CHECK,
    &patches::snapped::CHECK,
    &patches::straps::CHECK,
    &through::CHECK,
    &unpaired::CHECK,
    &sides::CHECK,
    &darts::CHECK,
    &dart_far::CHECK,
    &dart_at_bust::CHECK,
    &curve_wrong_way::CHECK,
    &piping::CHECK,
    &uneased::CHECK,
    &zip_cloth::CHECK,
    &zip_shows::CHECK,
    &zipper::CHECK,
    &swallowed::CHECK,
    &narrow::CHECK,
    &unused::CHECK,
    &nap::CHECK,
    &fused_alone::CHECK,
    &fused_copies::CHECK,
    &listed::TWICE,
    &listed::NOTHING,
    &prices::CHECK,
    &pairs::CHECK,
    &beyond_fold::CHECK,
    &folded::CHECK,
    &folded_in::CHECK,
    &fold_narrow::CHECK,
    &seams::ends::CHECK,
    &seams::braces::CHECK,
    &seams::matched_apart::CHECK,
    &seams::left::CHECK,
    &seams::run_to_rest::CHECK,
    &seams::across::CHECK,
    &seams::lengths::CHECK,
    &seams::fit::CHECK,
    &seams::range::CHECK,
    &seams::ring::CHECK,
    &seams::encloses::CHECK,
    &seams::segment::CHECK,
    &seams::order::CHECK,
    &notches::CHECK,
    &snips::CHECK,
    &seams::divided::CHECK,
    &seams::tucks_meet::CHECK,
    &seams::stretch::CHECK,
    &seams::no_give::CHECK,
    &seams::kink::CHECK,
    &seams::kink_closed::CHECK,
    &seams::fold_kink::CHECK,
    &seams::grain::CHECK,
    &seams::lining::CHECK,
    &seams::lining_long::CHECK,
    &seams::lining_below::CHECK,
    &seams::made_up::CHECK,
    &seams::opening::CHECK,
    &edges::CHECK,
    &surface::unjoined::CHECK,
    &slits::CHECK,
    &slit_front::CHECK,
    &placket_narrow::CHECK,
    &welt_down::CHECK,
    &adjust::CHECK,
    &adjust_at_seams::CHECK,
    &surface::twisted::CHECK,
    &surface::folded_twist::CHECK,
    &surface::jumps::CHECK,
    &surface::closure_jumps::CHECK,
    &surface::left_to_right::CHECK,
    &surface::corner_shut::CHECK,
    &seams::fold_ends::CHECK,
    &seams::end_for_end::CHECK,
    &seams::run_apart::CHECK,
    &seams::back_to_front::CHECK,
    &surface::crossed::CHECK,
    &seams::upside_down::CHECK,
    &surface::pinched::CHECK,
    &surface::drawn_together::CHECK,
    &surface::sewn_shut::CHECK,
    &surface::straps_across::CHECK,
    &surface::straps_buckled::CHECK,
    &surface::own_edge::CHECK,
    &surface::open_bag::CHECK,
    &surface::bag_up::CHECK,
    &surface::bag_at_slit::CHECK,
    &surface::shuts_left_on_right::CHECK,
    &surface::two_tubes::CHECK,
    &surface::round_part::CHECK,
    &surface::out_of_reach::CHECK,
    &surface::opens_behind::CHECK,
    &surface::apart::CHECK,
    &surface::hood_small::CHECK,
    &neck_rises::CHECK,
    &neck_tight::CHECK,
    &surface::seam_at_shoulder::CHECK,
    &surface::closure_across::CHECK,
    &surface::zip_ends::CHECK,
    &surface::runs_on::CHECK,
    &surface::facing_ends::CHECK,
    &surface::unsaid::CHECK,
    &surface::unsaid_line::CHECK,
    &surface::lining_behind::CHECK,
    &surface::lining_narrow::CHECK,
    &surface::narrow_limb::CHECK,
    &surface::falls_down::CHECK,
    &surface::narrow_sleeve::CHECK,
    &surface::long_sleeve::CHECK,
    &surface::no_way::CHECK,
    &surface::closure_short::CHECK,
    &surface::comes_out_nowhere::CHECK,
    &caught::CHECK,
    &alike::CHECK,
    &allowance::CHECK,
    &cuttings::CHECK,
    &seams::width::CHECK,
    &allowance_none::CHECK,
    &allowance_wide::CHECK,
    &hem::CHECK,
    &hem_tiny::CHECK,
    &too_thin::CHECK,
    &turned_under::CHECK,
    &underlap::CHECK,
    &band_unclosed::CHECK,
    &turn_up::CHECK,
    &running_on::CHECK,
    &stitched::CHECK,
    &stitch_unfit::CHECK,
    &tack_far::CHECK,
    &tack_shuts::CHECK,
    &row_off_cloth::CHECK,
    &row_over_slit::CHECK,
    &onto::CHECK,
    &finish_room::CHECK,
    &binding::CHECK,
    &casing::CHECK,
    &casing_empty::CHECK,
    &elastic::CHECK,
    &cord_shut::CHECK,
    &cords::CHECK,
    &too_wide::CHECK,
    &surface::bags::CHECK,
    &gaps::CHECK,
    &fasteners::CHECK,
    &closure_one_side::CHECK,
    &row_ends::CHECK,
    &on_themselves::CHECK,
    &out_of_use::CHECK,
    &straps::CHECK,
    &strap_fastened::CHECK,
    &strap_room::CHECK,
    &strap_in_seam::CHECK,
    &strap_off_edge::CHECK,
    &strap_overlap::CHECK,
    &strap_draws::CHECK,
    &strap_one_side::CHECK,
    &facing::CHECK,
    &thick::CHECK,
    &steps::CHECK,
    &cautions::CHECK,
    &require::CHECK,
    &ring_spacing::CHECK,
    &outrun::CHECK,
    &girth::CHECK,
    &measured_other::CHECK,
    &unmeasured::CHECK,
];

impl Check {
    /// What it finds in one size.
    fn in_size(&self, garment: &Garment, size: &WorkedSize) -> Vec<Finding> {
        let mut findings = Vec::new();
        if let Run::PerSize(run) | Run::PerForm(run) | Run::PerSizeThenOver(run, _) = self.run {
            run(garment, size, &mut findings);
        }
        findings
    }

    /// What it reports of the garment alone, or of all sizes together.
    fn over_sizes(&self, garment: &Garment, sizes: &[WorkedSize]) -> Vec<Diagnostic> {
        let mut diagnostics = Vec::new();
        match self.run {
            Run::Once(run) => run(garment, &mut diagnostics),
            Run::OverSizes(run) => run(garment, sizes, &mut diagnostics),
            Run::PerSize(_) | Run::PerForm(_) | Run::PerSizeThenOver(..) => {}
        }
        diagnostics
    }

    /// What it reports, of what it found in each size.
    fn of_sizes(
        &self,
        garment: &Garment,
        sizes: &[WorkedSize],
        found: Vec<Finding>,
        names: &[String],
    ) -> Vec<Diagnostic> {
        if found.is_empty() {
            return Vec::new();
        }
        let mut diagnostics = group(found, names);
        if let Run::PerSizeThenOver(_, run) = self.run {
            run(garment, sizes, &mut diagnostics);
        }
        diagnostics
    }
}

/// Runs every check over a garment and its sizes.
///
/// The sizes are looked at side by side; the result does not depend on how many run at once.
pub fn check(garment: &Garment, sizes: &[WorkedSize]) -> Vec<Diagnostic> {
    run(CHECKS, garment, sizes)
}
