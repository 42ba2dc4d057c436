//! Where a seam's plies are cut, so that each piece of one lies on one piece of every other.
//!
//! Every ply is cut where any of them has a joint or is cut by something else. Places of different
//! plies are one where they are marked as meeting (the seam's own stretches say so), or lie nearer to
//! each other than the tolerance; two places of one ply never are. Between them the plies are mapped onto
//! one another in equal shares.

use super::model::{PlyAt, SideId};
use super::plies::Ply;
use crate::id_hash::IdIndexMap;
use crate::sewing::model::{SewnPly, SewnSeam, Stretch};

/// A stretch of a side, along its ring.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutPly {
    pub(super) side: SideId,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) against: bool,
    pub(super) at: PlyAt,
}

/// Cuts that no joint of a seam makes.
#[derive(Clone, Copy)]
pub(super) struct More<'a> {
    /// Of sides, from the side's start along its ring.
    pub(super) sides: &'a IdIndexMap<SideId, Vec<f64>>,
    /// Of all plies, from the start of the first side.
    pub(super) on_first: &'a [f64],
}

/// A place on a ply, and where that is on the seam's first ply.
#[derive(Clone, Copy, Debug)]
struct Mark {
    on_first: f64,
    ply: usize,
    at: f64,
}

/// The way from the second side of a seam to its first, in straight pieces.
#[derive(Clone, Copy)]
pub(super) struct Across<'a> {
    /// What the seam's own notches and joints mark.
    marked: &'a [Stretch],
    lengths: (f64, f64),
}

impl<'a> Across<'a> {
    /// As the seam's own notches and joints say.
    pub(super) fn of(sewn: &'a SewnSeam) -> Self {
        let long = |plies: &[SewnPly]| plies.first().map_or(0.0, |ply| ply.length);
        Across { marked: &sewn.stretches, lengths: (long(&sewn.first.plies), long(&sewn.second.plies)) }
    }

    /// In equal shares from end to end.
    pub(super) fn straight(first: f64, second: f64) -> Self {
        Across { marked: &[], lengths: (first, second) }
    }

    /// The place on the first side of one on a ply of either.
    fn onto_first(&self, at: PlyAt, place: f64, long: f64) -> f64 {
        let share = if long > 0.0 { place / long } else { 0.0 };
        match at {
            PlyAt::Second(_) => through(self.marked, share * self.lengths.1, |point| (point.1, point.0))
                .unwrap_or(share * self.lengths.0),
            PlyAt::First(_) | PlyAt::Caught => share * self.lengths.0,
        }
    }

    /// The place on a ply of either side of one on the first.
    fn place_on_first(&self, at: PlyAt, place: f64, long: f64) -> f64 {
        let straight = if self.lengths.0 > 0.0 { place / self.lengths.0 } else { 0.0 };
        match at {
            PlyAt::Second(_) => {
                let found = through(self.marked, place, |point| point);
                let share =
                    found.map(|found| if self.lengths.1 > 0.0 { found / self.lengths.1 } else { 0.0 });
                share.unwrap_or(straight) * long
            }
            PlyAt::First(_) | PlyAt::Caught => straight * long,
        }
    }
}

/// A place on the one side carried to the other: between the ends of what is marked in equal shares.
fn through(marked: &[Stretch], at: f64, of: impl Fn((f64, f64)) -> (f64, f64)) -> Option<f64> {
    let last = marked.len().checked_sub(1)?;
    let begins = |stretch: &Stretch| of((stretch.first.0, stretch.second.0));
    let stretch = marked.partition_point(|stretch| begins(stretch).0 <= at).clamp(1, last + 1) - 1;
    let stretch = marked.get(stretch)?;
    let ((from, from_across), (to, to_across)) = (begins(stretch), of((stretch.first.1, stretch.second.1)));
    Some(match to > from {
        true => from_across + (at - from) / (to - from) * (to_across - from_across),
        false => from_across,
    })
}

/// Cuts plies; what it works with is kept for the next.
#[derive(Default)]
pub(super) struct Cutter {
    marks: Vec<Mark>,
    walks: Vec<Walk>,
    cell: Vec<CutPly>,
}

impl Cutter {
    /// Cuts one sewing of a seam into cells: stretches that lie on one another, from one cut to the
    /// next. Each is taken with its middle on the first side.
    pub(super) fn cells(
        &mut self,
        plies: &[Ply],
        across: &Across,
        more: &More,
        tolerance: f64,
        take: &mut dyn FnMut(&[CutPly], f64),
    ) {
        let Cutter { marks, walks, cell } = self;
        find_marks(plies, across, more, marks);
        walks.clear();
        walks.resize(plies.len(), Walk::default());
        let mut open = marks.as_slice();
        let mut before = 0.0;
        while let Some(first) = open.first() {
            let mut many = 1;
            while let Some(next) = open.get(many)
                && next.on_first - first.on_first <= tolerance
                && open.iter().take(many).all(|mark| mark.ply != next.ply)
            {
                many += 1;
            }
            let (here, rest) = open.split_at(many);
            open = rest;
            let own = |at: usize| here.iter().find(|mark| mark.ply == at).map(|mark| mark.at);
            cell.clear();
            cell.extend(plies.iter().zip(walks.iter_mut()).enumerate().filter_map(|(at, (ply, walk))| {
                let to =
                    own(at).unwrap_or_else(|| across.place_on_first(ply.at, first.on_first, ply.length()));
                walk.to(ply, to)
            }));
            take(cell, f64::midpoint(before, first.on_first));
            before = first.on_first;
        }
        cell.clear();
        cell.extend(plies.iter().zip(walks).filter_map(|(ply, walk)| walk.to(ply, ply.length())));
        take(cell, f64::midpoint(before, across.lengths.0));
    }
}

/// Where plies are cut, in order along the first side.
fn find_marks(plies: &[Ply], across: &Across, more: &More, marks: &mut Vec<Mark>) {
    marks.clear();
    // Of no ply: on each it lies where the first side's place does.
    let inside = more.on_first.iter().filter(|at| **at > 0.0 && **at < across.lengths.0);
    marks.extend(inside.map(|&at| Mark { on_first: at, ply: plies.len(), at }));
    for (at, ply) in plies.iter().enumerate() {
        let long = ply.length();
        let mut station = 0.0;
        let mut mark = |place: f64| {
            if place > 0.0 && place < long {
                marks.push(Mark { on_first: across.onto_first(ply.at, place, long), ply: at, at: place });
            }
        };
        for run in &ply.runs {
            for &cut in more.sides.get(&run.side).into_iter().flatten() {
                mark(station + if run.against { run.length - cut } else { cut });
            }
            station += run.length;
            mark(station);
        }
    }
    marks.sort_by(|a, b| a.on_first.total_cmp(&b.on_first).then(a.ply.cmp(&b.ply)));
}

/// How far a ply is cut.
#[derive(Clone, Copy, Default)]
struct Walk {
    run: usize,
    /// The length of all runs before this one.
    before: f64,
    at: f64,
}

impl Walk {
    /// Cuts on to a place.
    fn to(&mut self, ply: &Ply, place: f64) -> Option<CutPly> {
        let place = place.max(self.at);
        let middle = 0.5 * (self.at + place);
        while let Some(run) = ply.runs.get(self.run)
            && self.run + 1 < ply.runs.len()
            && middle >= self.before + run.length
        {
            self.before += run.length;
            self.run += 1;
        }
        let run = ply.runs.get(self.run)?;
        let along = |at: f64| (at - self.before).clamp(0.0, run.length);
        let (from, to) = (along(self.at), along(place));
        self.at = place;
        let (from, to) = if run.against { (run.length - to, run.length - from) } else { (from, to) };
        if run.elsewhere {
            return None;
        }
        Some(CutPly { side: run.side, from, to, against: run.against, at: ply.at })
    }
}
