//! When the steps sew what the sewn surface is made of.

use super::jobs::{Job, When, Work};
use super::reach::stitchings_of;
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, Garment, SeamId};
use std::collections::HashMap;

/// When every seam of a size is sewn, and every closure put in.
pub(in crate::check) struct Timetable {
    seams: Vec<When>,
    closures: Vec<When>,
    turned: Vec<(When, Option<SeamId>)>,
}

impl Timetable {
    /// None of a garment without steps, and where the steps leave something out, which is reported.
    pub(in crate::check) fn of(garment: &Garment, size: &WorkedSize) -> Option<Timetable> {
        if garment.steps_span.is_none() || garment.incomplete.steps {
            return None;
        }
        let work = Work::new(garment, size);
        let stitchings = stitchings_of(&work, &size.sewn);
        let seams = stitchings.into_iter().map(|at| work.when(Job::Seam(at?))).collect::<Option<_>>()?;
        // What a seam encloses is put in for good by that seam.
        let mut enclosing: HashMap<ClosureId, SeamId> = HashMap::new();
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            for &(closure, _) in &seam.enclosing {
                enclosing.entry(closure).or_insert(id);
            }
        }
        let closures = ClosureId::enumerate(&garment.closures).map(|(id, _)| match enclosing.get(&id) {
            Some(&seam) => work.seam_whole(seam),
            None => work.when(Job::Closure(id)),
        });
        Some(Timetable { closures: closures.collect::<Option<_>>()?, seams, turned: work.turned.clone() })
    }

    /// When something is turned for the last time through the gap of one of these seams.
    pub(in crate::check) fn turned_last(&self, seams: &[SeamId]) -> Option<When> {
        let own = |through: Option<SeamId>| through.is_none_or(|through| seams.contains(&through));
        self.turned.iter().filter(|(_, through)| own(*through)).map(|(when, _)| *when).max()
    }

    /// When a seam is sewn, by its place in [`crate::sewing::Sewing::seams`].
    pub(in crate::check) fn seam(&self, sewn: usize) -> Option<When> {
        self.seams.get(sewn).copied()
    }

    /// When a closure is put in.
    pub(in crate::check) fn closure(&self, id: ClosureId) -> Option<When> {
        self.closures.get(id.index()).copied()
    }
}
