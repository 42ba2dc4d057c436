//! When the steps sew what the sewn surface is made of.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::reach::stitchings_of;
use super::schedule::{Schedule, When};
use crate::garment::{ClosureId, SeamId};
use crate::id_hash::IdMap;

/// When every seam of a size is sewn, and every closure put in.
pub struct Timetable {
    seams: Vec<When>,
    closures: Vec<When>,
    turned: Vec<(When, Option<SeamId>)>,
}

impl Timetable {
    /// Of a schedule; none where it leaves something out.
    pub fn of(work: &Work, schedule: &Schedule) -> Option<Timetable> {
        let garment = work.garment;
        let seams = stitchings_of(work).into_iter().map(|at| schedule.when(Job::Seam(at?)));
        let seams = seams.collect::<Option<_>>()?;
        // What a seam encloses is put in for good by that seam.
        let mut enclosing: IdMap<ClosureId, SeamId> = IdMap::default();
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            for &(closure, _) in &seam.enclosing {
                enclosing.entry(closure).or_insert(id);
            }
        }
        let closures = ClosureId::enumerate(&garment.closures).map(|(id, _)| match enclosing.get(&id) {
            // What goes on beyond that is shut once both are sewn.
            Some(&seam) if work.goes_on(id) => {
                let sewn = schedule.at(work, Doing::Whole(seam))?;
                Some(sewn.max(schedule.when(Job::Closure(id))?))
            }
            Some(&seam) => schedule.at(work, Doing::Whole(seam)),
            None => schedule.when(Job::Closure(id)),
        });
        Some(Timetable { closures: closures.collect::<Option<_>>()?, seams, turned: schedule.turned.clone() })
    }

    /// When something is turned for the last time through the gap of one of these seams.
    pub fn turned_last(&self, seams: &[SeamId]) -> Option<When> {
        let own = |through: Option<SeamId>| through.is_none_or(|through| seams.contains(&through));
        self.turned.iter().filter(|(_, through)| own(*through)).map(|(when, _)| *when).max()
    }

    /// Whether something is turned after the one and before the other.
    pub fn is_turned_between(&self, first: When, last: When) -> bool {
        self.turned.iter().any(|(when, _)| first.at < when.at && when.at < last.at)
    }

    /// When a seam is sewn, by its place in [`crate::sewing::Sewing::seams`].
    pub fn seam(&self, sewn: usize) -> Option<When> {
        self.seams.get(sewn).copied()
    }

    /// When a closure is put in.
    pub fn closure(&self, id: ClosureId) -> Option<When> {
        self.closures.get(id.index()).copied()
    }
}
