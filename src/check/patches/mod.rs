//! What is placed, against all that lies where it is stitched down: darts, hems, other pockets; and where it
//! stays open.

pub(super) mod apart;
pub(super) mod darts;
pub(super) mod flaps;
pub(super) mod hems;
pub(super) mod mouths;
pub(super) mod pockets;
pub(super) mod small;
pub(super) mod snapped;
pub(super) mod straps;

use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Finish, Garment, LayerId, PlacementId};
use crate::sewing::order::{Job, Schedule, When, Work};
use crate::sewing::patches::Patch;
use crate::shape::Rect;
use crate::source::Span;

/// Where something is put.
fn put(patch: &Patch) -> Span {
    patch.placement.corners.first().map_or(patch.placement.span, |corner| corner.span)
}

/// When the steps place and finish things.
struct Steps<'a> {
    work: Work<'a>,
    schedule: Schedule,
}

impl<'a> Steps<'a> {
    /// None of a garment without steps, and where not all of them could be made sense of.
    fn of(garment: &'a Garment, size: &'a WorkedSize) -> Option<Steps<'a>> {
        let is_known = garment.steps_span.is_some() && !garment.incomplete.steps;
        is_known.then(|| {
            let work = Work::new(garment, &size.drawn, &size.sewn);
            let schedule = Schedule::said(&work);
            Steps { work, schedule }
        })
    }

    fn first(&self, is_meant: impl Fn(Job) -> bool) -> Option<When> {
        let meant = self.work.jobs.iter().filter(|job| is_meant(**job));
        meant.filter_map(|job| self.schedule.when(*job)).min()
    }

    /// When something is placed, in the first of its layers.
    fn placed(&self, id: PlacementId) -> Option<When> {
        self.first(|job| matches!(job, Job::Place(own, _) if own == id))
    }

    /// When an edge gets its finish in that layer.
    fn finished(&self, finish: &Finish, edge: EdgeId, layer: LayerId) -> Option<When> {
        let garment = self.work.garment;
        self.first(|job| match job {
            Job::Finish(id, nth, own) => {
                let of = garment.finish(id);
                let sewn = of.edges.get(nth).filter(|_| own == layer && of.span == finish.span);
                sewn.is_some_and(|sewn| garment.is_run_of(edge, sewn.edge))
            }
            _ => false,
        })
    }
}

/// The least way that takes the first box clear of the other, in millimetres, and in which direction.
fn clearing(own: Rect, other: Rect) -> (f64, &'static str) {
    let ways = [
        (other.y1 - own.y0, "up"),
        (own.y1 - other.y0, "down"),
        (own.x1 - other.x0, "to the left on the paper"),
        (other.x1 - own.x0, "to the right on the paper"),
    ];
    let least =
        |one: (f64, &'static str), other: (f64, &'static str)| if other.0 < one.0 { other } else { one };
    ways.into_iter().fold((f64::INFINITY, "away"), least)
}
