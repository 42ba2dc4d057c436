//! The plies of a seam as it is sewn once: which stretches of which faces lie in each, from its start to its end.

use super::making::Making;
use crate::garment::Gap;
use crate::sewing::amount_of;
use crate::sewing::surface::{ClosureLine, FaceId, Join, JoinedBy, PlyAt, StretchId};
use crate::shape::Point;
use crate::shape::path::Path;

/// A seam, as it is sewn once, or a closure.
#[derive(Clone, Debug)]
pub struct Once {
    /// Its place among the sewn seams; none of a closure.
    pub sewn: Option<usize>,
    /// The first side's plies, the second side's, and what is caught.
    pub plies: Vec<Ply>,
}

/// A ply.
#[derive(Clone, Debug)]
pub struct Ply {
    /// Which.
    pub at: PlyAt,
    /// Stretches end to end.
    pub runs: Vec<PlyRun>,
    /// Its length as sewn, in millimetres.
    pub length: f64,
}

/// A stretch of a ply.
#[derive(Clone, Copy, Debug)]
pub struct PlyRun {
    /// The stretch.
    pub stretch: StretchId,
    /// Its face.
    pub face: FaceId,
    /// The seam goes against the way round its face.
    pub against: bool,
    /// Which stretch of the seam it lies in.
    pub cell: usize,
    /// From so far along the ply …
    pub from: f64,
    /// … to there, in millimetres.
    pub to: f64,
    /// Of a run that has a gap, how long that is, in millimetres; it is shown in the run's middle.
    pub gap: Option<f64>,
}

impl Once {
    /// Every time that a seam is sewn, by its place among the sewn seams.
    pub fn all(making: &Making, sewn: usize) -> Vec<Once> {
        let mut times: Vec<(u32, Vec<(u32, &Join)>)> = Vec::new();
        for join in &making.surface.joins {
            let JoinedBy::Seam { sewn: own, sewing, cell, .. } = join.by else { continue };
            if own != sewn {
                continue;
            }
            match times.iter_mut().find(|(time, _)| *time == sewing) {
                Some((_, cells)) => cells.push((cell, join)),
                None => times.push((sewing, vec![(cell, join)])),
            }
        }
        times.sort_by_key(|(time, _)| *time);
        let once = |(_, mut cells): (u32, Vec<(u32, &Join)>)| {
            cells.sort_by_key(|(cell, _)| *cell);
            let mut plies: Vec<Ply> = Vec::new();
            for (nth, (_, join)) in cells.iter().enumerate() {
                for ply in &join.plies {
                    let own = match plies.iter_mut().find(|own| own.at == ply.at && own.at != PlyAt::Caught) {
                        Some(own) => own,
                        None => {
                            plies.push(Ply { at: ply.at, runs: Vec::new(), length: 0.0 });
                            let Some(last) = plies.last_mut() else { continue };
                            last
                        }
                    };
                    let gap = join.gap.then(|| gap_of(making, sewn, ply.stretch)).flatten();
                    own.push(making, ply.stretch, ply.against, nth, gap);
                }
            }
            plies.sort_by_key(|ply| ply.at);
            Once { sewn: Some(sewn), plies }
        };
        times.into_iter().map(once).collect()
    }

    /// A closure, one of the times that it is there; none where its line runs inside a piece.
    pub fn closure(making: &Making, line: &ClosureLine) -> Option<Once> {
        let mut plies = Vec::with_capacity(2);
        for (second, side) in line.sides.iter().enumerate() {
            let at = if second == 0 { PlyAt::First(0) } else { PlyAt::Second(0) };
            let mut ply = Ply { at, runs: Vec::new(), length: 0.0 };
            for (cell, (stretch, against)) in side.iter().enumerate() {
                ply.push(making, *stretch, *against, cell, None);
            }
            plies.push(ply);
        }
        plies.iter().all(|ply| !ply.runs.is_empty()).then_some(Once { sewn: None, plies })
    }

    /// The first ply of the first side or of the second.
    pub fn side(&self, second: bool) -> Option<&Ply> {
        self.plies.iter().find(|ply| match ply.at {
            PlyAt::First(_) => !second,
            PlyAt::Second(_) => second,
            PlyAt::Caught => false,
        })
    }

    /// Its plies without what is caught.
    pub fn sewn_plies(&self) -> impl Iterator<Item = &Ply> {
        self.plies.iter().filter(|ply| ply.at != PlyAt::Caught)
    }

    /// Every face that lies in it, each once.
    pub fn faces(&self) -> Vec<FaceId> {
        let mut faces: Vec<FaceId> = Vec::new();
        for run in self.plies.iter().flat_map(|ply| &ply.runs) {
            if !faces.contains(&run.face) {
                faces.push(run.face);
            }
        }
        faces
    }
}

/// How long the gap is that a seam leaves on a stretch.
fn gap_of(making: &Making, sewn: usize, stretch: StretchId) -> Option<f64> {
    let seam = making.garment.seam(making.size.sewn.seams.get(sewn)?.seam);
    let face = making.surface.face(making.surface.face_of(stretch));
    let is_own = |gap: &&Gap| {
        gap.layer.is_none_or(|layer| layer == face.layer)
            && gap.hand.zip(face.hand).is_none_or(|(one, other)| one == other)
    };
    let gap = seam.gaps.iter().find(is_own).or(seam.gaps.first())?;
    amount_of(making.garment, &making.size.drawn, &gap.length).filter(|long| long.is_finite())
}

impl Ply {
    fn push(&mut self, making: &Making, stretch: StretchId, against: bool, cell: usize, gap: Option<f64>) {
        let length = making.surface.length(stretch);
        let (from, to) = (self.length, self.length + length);
        let face = making.surface.face_of(stretch);
        self.runs.push(PlyRun { stretch, face, against, cell, from, to, gap });
        self.length = to;
    }

    /// The same where it lies on a part of another ply of its side alone: its runs where those are that it lies on.
    pub fn beside(&self, whole: &Ply) -> Ply {
        let under = |run: &PlyRun| {
            let own = whole.runs.iter().filter(|other| other.cell == run.cell);
            own.map(|other| (other.from, other.to)).next()
        };
        let is_part = self.runs.len() < whole.runs.len();
        let runs: Option<Vec<PlyRun>> =
            self.runs.iter().map(|run| under(run).map(|(from, to)| PlyRun { from, to, ..*run })).collect();
        match runs.filter(|_| is_part) {
            Some(runs) => Ply { at: self.at, runs, length: whole.length },
            None => self.clone(),
        }
    }

    /// The face and the place on it, so far along.
    pub fn point(&self, making: &Making, at: f64) -> Option<(FaceId, Point)> {
        let run = self.runs.iter().find(|run| at <= run.to + 1e-6).or(self.runs.last())?;
        let path = run.path(making)?;
        let share =
            if run.to > run.from { ((at - run.from) / (run.to - run.from)).clamp(0.0, 1.0) } else { 0.0 };
        Some((run.face, path.point_at_length(share * path.length())))
    }

    /// Runs of one face side by side, from where to where along the ply.
    pub fn rows(&self) -> Vec<(FaceId, f64, f64)> {
        let mut rows: Vec<(FaceId, f64, f64)> = Vec::new();
        for run in &self.runs {
            match rows.last_mut() {
                Some(last) if last.0 == run.face && run.from <= last.2 + 1e-6 => last.2 = run.to,
                _ => rows.push((run.face, run.from, run.to)),
            }
        }
        rows
    }
}

impl PlyRun {
    /// The same parted at its gap: what is sewn, and what is left open.
    pub fn parted(&self, making: &Making) -> Option<(Vec<Path>, Option<Path>)> {
        let path = self.path(making)?;
        let Some(gap) = self.gap else { return Some((vec![path], None)) };
        let (length, sewn) = (path.length(), self.to - self.from);
        let open = if sewn > 0.0 { gap / sewn * length } else { length };
        if open >= length - 1.0 {
            return Some((Vec::new(), Some(path)));
        }
        let (from, to) = ((length - open) / 2.0, (length + open) / 2.0);
        Some((vec![path.part(0.0, from), path.part(to, length)], Some(path.part(from, to))))
    }

    /// The way that it goes on its flat face, as the seam goes.
    pub fn path(&self, making: &Making) -> Option<Path> {
        let path = making.flat(self.face)?.stretch(making.garment, making.surface, self.stretch)?;
        Some(if self.against { path.reversed() } else { path })
    }
}
