//! Readings of a part of the text each, of which none hangs on another.

use super::notes::Notes;
use super::{Known, Lowering};
use rayon::prelude::*;
use std::borrow::Cow;

/// So many are read in one go: most garments have no more pieces, and less is not worth handing to another thread.
const RUN: usize = 32;

impl Lowering<'_> {
    /// Reads each of some things, which changes nothing but the notes, and gives back and notes what reading one after the
    /// other does. Where runs begin hangs on how many there are alone.
    pub(super) fn side_by_side<One, Made>(
        &self,
        all: &[One],
        read: impl Fn(&Lowering, One) -> Made + Sync,
    ) -> Vec<Made>
    where
        One: Copy + Sync,
        Made: Send,
    {
        // How many messages there were before decides which of the next are told at length: where there is any, one waits
        // for the other.
        if all.len() > RUN && self.notes.borrow().plain_numbers.is_empty() {
            let (known, searches) = (&*self.known, self.searches.get());
            let runs = all.par_chunks(RUN).map(|run| quiet_run(known, searches, run, &read));
            if let Some(runs) = runs.collect::<Option<Vec<(Vec<Made>, Notes)>>>() {
                let mut notes = self.notes.borrow_mut();
                let mut made = Vec::with_capacity(all.len());
                for (own, noted) in runs {
                    made.extend(own);
                    notes.absorb(noted);
                }
                return made;
            }
        }
        all.iter().map(|&one| read(self, one)).collect()
    }
}

/// What a run of readings gives back and notes; none where it tells anything.
fn quiet_run<One: Copy, Made>(
    known: &Known,
    searches: usize,
    run: &[One],
    read: impl Fn(&Lowering, One) -> Made,
) -> Option<(Vec<Made>, Notes)> {
    let reading = Lowering::new(Cow::Borrowed(known), searches);
    let mut made = Vec::with_capacity(run.len());
    for &one in run {
        made.push(read(&reading, one));
        // Looking for what a name may have meant takes its time: that is done but once.
        if reading.searches.get() != searches || !reading.notes.borrow().is_quiet() {
            return None;
        }
    }
    Some((made, reading.notes.take()))
}
