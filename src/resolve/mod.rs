//! One size in, one drawn garment out.
//!
//! A pure function of the garment, its plan and the size. A paper's versions are immutable: 0 as
//! drawn, `n` after its first `n` alterations. What could not be worked out is none, is reported once
//! where it went wrong, and silences whoever needs it.

mod account;
mod along;
mod alterations;
mod cut_list;
mod draw;
mod drawing_asked;
mod drawn_piece;
mod drawn_take_up;
mod evaluate;
mod inside_out;
mod measures;
mod model;
mod outline;
mod placed_points;
mod placements;
mod portions;
mod remembering;
mod root;
mod run;
mod sketch;
mod solve;
mod stretches;
mod symmetry;
mod take_ups;
mod until;
mod work;
mod zips;

pub(crate) use account::lost;
pub(crate) use along::Along;
pub use along::PlaceLost;
pub use drawn_piece::*;
pub use drawn_take_up::*;
pub use evaluate::{Finished, constant};
pub use measures::{extents, finished, finished_line, taken};
pub use model::*;
pub use symmetry::{is_mirrored_between, is_symmetrical, is_symmetrical_with};
pub use zips::sewn_layer;

use crate::garment::{Garment, Plan, SizeId};
use crate::kept::Memory;
use crate::report::Finding;
use rayon::prelude::*;
use remembering::{Asked, Remembering};
use work::Work;

/// Works a garment out in all its sizes, side by side; the result does not depend on how many
/// run at once.
pub fn resolve(garment: &Garment, plan: &Plan) -> Resolved {
    resolve_again(garment, plan, &Memory::default())
}

/// The same where something may be remembered of the sizes.
pub(crate) fn resolve_again(garment: &Garment, plan: &Plan, memory: &Memory) -> Resolved {
    let asked = memory.drawings.as_ref().map(|drawings| Asked::of(garment, drawings));
    let remembering =
        |size: usize| Some(Remembering { size: memory.sizes.get(size)?, asked: asked.as_ref()? });
    let done: Vec<(SizedGarment, Vec<Finding>)> = (0..garment.sizes.len())
        .into_par_iter()
        .map(|size| worked_out(garment, plan, SizeId::from_index(size), remembering(size)))
        .collect();
    let (sizes, found): (Vec<_>, Vec<_>) = done.into_iter().unzip();
    let mut findings: Vec<Finding> = found.into_iter().flatten().collect();
    findings.extend(inside_out::across_sizes(garment, &sizes));
    Resolved { sizes, findings }
}

/// Works a garment out in one size.
pub fn resolve_size(garment: &Garment, plan: &Plan, size: SizeId) -> (SizedGarment, Vec<Finding>) {
    worked_out(garment, plan, size, None)
}

fn worked_out(
    garment: &Garment,
    plan: &Plan,
    size: SizeId,
    memory: Option<Remembering>,
) -> (SizedGarment, Vec<Finding>) {
    let mut work = Work::new(garment, size);
    work.memory = memory;
    for step in &plan.steps {
        work.step(step);
    }
    work.work_facts_out();
    work.account_for_all(plan);
    let zips = work.zip_fits();
    let cut_list = cut_list::cut_list(&work);
    let mut papers = work.last_versions();
    placed_points::place_all(&work, &mut papers);
    let unknown = portions::cut(&work, &mut papers);
    for paper in &mut papers {
        *paper = take_ups::opened(garment, paper.take());
    }
    work.missing.extend(unknown);
    let drafted = work.first_versions();
    let placed = placements::place_all(&work, &papers);
    let Work { values, amounts, missing, findings, .. } = work;
    let missing = missing.into_iter().collect();
    (
        SizedGarment { size, values, papers, drafted, amounts, zips, placed, cut_list, missing },
        findings.into_inner(),
    )
}
