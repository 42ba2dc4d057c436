//! Where a seam's plies are cut, so that each piece of one lies on one piece of every other.
//!
//! Every ply is cut where any of them has a joint or is cut by something else. Places of different
//! plies are one where they are marked as meeting (the seam's own stretches say so), or lie nearer to
//! each other than the tolerance; two places of one ply never are. Between them the plies are mapped onto
//! one another in equal shares.

use super::model::{PlyAt, SideId};
use super::plies::{Ply, Sewn};
use crate::sewing::model::{SewnPly, SewnSeam};
use indexmap::IndexMap;

/// Stretches that lie on one another, from one cut to the next.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub(super) plies: Vec<CutPly>,
}

/// A stretch of a side, along its ring.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutPly {
    pub(super) side: SideId,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) against: bool,
    pub(super) at: PlyAt,
}

/// A place on a ply, and where that is on the seam's first ply.
#[derive(Clone, Copy, Debug)]
struct Mark {
    on_first: f64,
    ply: usize,
    at: f64,
}

/// The way from the second side of a seam to its first, in straight pieces.
pub(super) struct Across {
    points: Vec<(f64, f64)>,
    lengths: (f64, f64),
}

impl Across {
    /// As the seam's own notches and joints say.
    pub(super) fn of(sewn: &SewnSeam) -> Self {
        let long = |plies: &[SewnPly]| plies.first().map_or(0.0, |ply| ply.length);
        let mut points: Vec<(f64, f64)> =
            sewn.stretches.iter().map(|stretch| (stretch.first.0, stretch.second.0)).collect();
        points.extend(sewn.stretches.last().map(|stretch| (stretch.first.1, stretch.second.1)));
        Across { points, lengths: (long(&sewn.first.plies), long(&sewn.second.plies)) }
    }

    /// In equal shares from end to end.
    pub(super) fn straight(first: f64, second: f64) -> Self {
        Across { points: Vec::new(), lengths: (first, second) }
    }

    /// The place on the first side of one on a ply of either.
    fn onto_first(&self, at: PlyAt, place: f64, long: f64) -> f64 {
        let share = if long > 0.0 { place / long } else { 0.0 };
        match at {
            PlyAt::Second(_) => through(&self.points, share * self.lengths.1, |point| (point.1, point.0))
                .unwrap_or(share * self.lengths.0),
            PlyAt::First(_) | PlyAt::Caught => share * self.lengths.0,
        }
    }

    /// The place on a ply of either side of one on the first.
    fn place_on_first(&self, at: PlyAt, place: f64, long: f64) -> f64 {
        let straight = if self.lengths.0 > 0.0 { place / self.lengths.0 } else { 0.0 };
        match at {
            PlyAt::Second(_) => {
                let found = through(&self.points, place, |point| *point);
                let share =
                    found.map(|found| if self.lengths.1 > 0.0 { found / self.lengths.1 } else { 0.0 });
                share.unwrap_or(straight) * long
            }
            PlyAt::First(_) | PlyAt::Caught => straight * long,
        }
    }
}

fn through(points: &[(f64, f64)], at: f64, of: impl Fn(&(f64, f64)) -> (f64, f64)) -> Option<f64> {
    if points.len() < 2 {
        return None;
    }
    let after = points.partition_point(|point| of(point).0 <= at).clamp(1, points.len() - 1);
    let ((from, from_across), (to, to_across)) = (of(points.get(after - 1)?), of(points.get(after)?));
    Some(match to > from {
        true => from_across + (at - from) / (to - from) * (to_across - from_across),
        false => from_across,
    })
}

/// Cuts one sewing of a seam. `more` are further cuts of sides, from the side's start along its ring.
pub(super) fn cells(
    one: &Sewn,
    across: &Across,
    more: &IndexMap<SideId, Vec<f64>>,
    tolerance: f64,
) -> Vec<Cell> {
    let mut marks: Vec<Mark> = Vec::new();
    for (at, ply) in one.plies.iter().enumerate() {
        let long = ply.length();
        let mut station = 0.0;
        let mut mark = |place: f64| {
            if place > 0.0 && place < long {
                marks.push(Mark { on_first: across.onto_first(ply.at, place, long), ply: at, at: place });
            }
        };
        for run in &ply.runs {
            for &cut in more.get(&run.side).into_iter().flatten() {
                mark(station + if run.against { run.length - cut } else { cut });
            }
            station += run.length;
            mark(station);
        }
    }
    marks.sort_by(|a, b| a.on_first.total_cmp(&b.on_first).then(a.ply.cmp(&b.ply)));
    let mut walks: Vec<Walk> =
        one.plies.iter().map(|ply| Walk { ply, run: 0, before: 0.0, at: 0.0 }).collect();
    let mut cells = Vec::with_capacity(marks.len() + 1);
    let mut open = marks.as_slice();
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
        let plies = walks.iter_mut().enumerate().filter_map(|(at, walk)| {
            let long = walk.ply.length();
            walk.to(own(at).unwrap_or_else(|| across.place_on_first(walk.ply.at, first.on_first, long)))
        });
        cells.push(Cell { plies: plies.collect() });
    }
    let plies = walks.iter_mut().filter_map(|walk| walk.to(walk.ply.length()));
    cells.push(Cell { plies: plies.collect() });
    cells
}

/// How far a ply is cut.
struct Walk<'a> {
    ply: &'a Ply,
    run: usize,
    /// The length of all runs before this one.
    before: f64,
    at: f64,
}

impl Walk<'_> {
    /// Cuts on to a place.
    fn to(&mut self, place: f64) -> Option<CutPly> {
        let place = place.max(self.at);
        let middle = 0.5 * (self.at + place);
        while let Some(run) = self.ply.runs.get(self.run)
            && self.run + 1 < self.ply.runs.len()
            && middle >= self.before + run.length
        {
            self.before += run.length;
            self.run += 1;
        }
        let run = self.ply.runs.get(self.run)?;
        let along = |at: f64| (at - self.before).clamp(0.0, run.length);
        let (from, to) = (along(self.at), along(place));
        self.at = place;
        let (from, to) = if run.against { (run.length - to, run.length - from) } else { (from, to) };
        Some(CutPly { side: run.side, from, to, against: run.against, at: self.ply.at })
    }
}
