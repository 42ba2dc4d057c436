//! Points of a seam that meet: its ends, joints and notches, each with a sign that both sides bear.

use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, SeamId};
use crate::resolve::{DrawnEdgeId, taken};
use crate::sewing::{PartId, SewnPart, SewnPly, SewnRun, SewnSeam, TakenBy};

/// Points nearer to each other than this are one, in millimetres: less than a snip is wide.
const ONE_POINT: f64 = 0.5;
/// How many signs can be told apart: dot, triangle, square, lozenge, cross, and these five again, filled.
pub const SIGNS: usize = 10;

/// A point of a seam, on both its sides.
#[derive(Clone, Debug, PartialEq)]
pub struct MeetingPoint {
    /// Its sign, counted from 0: dot, triangle, square, lozenge, cross and so on. Points that are mirror images bear one
    /// sign. None beyond the [`SIGNS`] that there are.
    pub sign: Option<usize>,
    /// How far it is from the start of each side, as sewn, in millimetres.
    pub on: [f64; 2],
    /// What it is on each side.
    pub is: [PointIs; 2],
}

/// What a point is on one side of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointIs {
    /// The side begins or ends there.
    End {
        /// The part.
        part: PartId,
        /// The edge that is sewn.
        edge: EdgeId,
        /// The edge that it meets at that corner.
        beside: EdgeId,
    },
    /// Two edges of the side meet there.
    Joint {
        /// The part and the edge before it.
        before: (PartId, EdgeId),
        /// The part and the edge after it.
        after: (PartId, EdgeId),
        /// The seam that joins them there.
        seam: Option<SeamId>,
    },
    /// The middle of what is cut on the fold.
    Middle {
        /// The part.
        part: PartId,
        /// The edge.
        edge: EdgeId,
    },
    /// A notch.
    Notch {
        /// Two cuts side by side.
        double: bool,
    },
    /// No mark of its own: the other side's point meets it there.
    Within,
}

/// The points of a seam, from its start to its end; of one that goes round the start once. Nothing where the sides' lengths
/// are not known.
pub fn meeting_points(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Vec<MeetingPoint> {
    let sides = [&sewn.first, &sewn.second].map(|side| side.plies.first());
    let [Some(first), Some(second)] = sides else { return Vec::new() };
    let looking = Looking { garment, size, sewn, sides: [first, second] };
    let mut points: Vec<MeetingPoint> = looking.ends();
    for (side, ply) in [first, second].into_iter().enumerate() {
        points.extend(looking.joints(side, ply));
    }
    for notch in &sewn.notches {
        let is = PointIs::Notch { double: notch.double };
        points.push(MeetingPoint { sign: None, on: [notch.on_first, notch.on_second], is: [is, is] });
    }
    points.retain(|point| point.on.iter().all(|at| at.is_finite()));
    points.sort_by(|one, other| one.on[0].total_cmp(&other.on[0]));
    let mut all: Vec<MeetingPoint> = Vec::with_capacity(points.len());
    for point in points {
        match all.iter_mut().find(|one| is_one(one, &point)) {
            Some(one) => {
                for (own, its) in one.is.iter_mut().zip(point.is) {
                    *own = if rank(its) > rank(*own) { its } else { *own };
                }
            }
            None => all.push(point),
        }
    }
    if sewn.ring && all.len() > 1 {
        all.pop_if(|last| matches!(last.is, [PointIs::End { .. }, _]) && last.on[0] > ONE_POINT);
    }
    looking.sign(&mut all);
    all
}

fn is_one(one: &MeetingPoint, other: &MeetingPoint) -> bool {
    one.on.iter().zip(other.on).all(|(one, other)| (one - other).abs() <= ONE_POINT)
}

/// What says more of a point.
fn rank(is: PointIs) -> u8 {
    match is {
        PointIs::Within => 0,
        PointIs::Notch { .. } => 1,
        PointIs::Middle { .. } => 2,
        PointIs::Joint { .. } => 3,
        PointIs::End { .. } => 4,
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
    sides: [&'a SewnPly; 2],
}

impl Looking<'_> {
    fn ends(&self) -> Vec<MeetingPoint> {
        let mut ends = Vec::new();
        for at_end in [false, true] {
            let is = self.sides.map(|ply| self.end(ply, at_end).unwrap_or(PointIs::Within));
            let on = self.sides.map(|ply| if at_end { ply.length } else { 0.0 });
            ends.push(MeetingPoint { sign: None, on, is });
        }
        ends
    }

    fn end(&self, ply: &SewnPly, at_end: bool) -> Option<PointIs> {
        let run = if at_end { ply.runs.last() } else { ply.runs.first() }?;
        let beside = self.beside(run, at_end)?;
        Some(PointIs::End {
            part: run.part,
            edge: self.edge(run.part, run.edge)?,
            beside: self.edge(run.part, beside)?,
        })
    }

    /// The edge that a run meets at its start or end.
    fn beside(&self, run: &SewnRun, at_end: bool) -> Option<DrawnEdgeId> {
        let drawn = self.size.drawn.paper(self.part(run.part)?.part.paper)?;
        Some(if at_end != run.reversed { drawn.after(run.edge) } else { drawn.before(run.edge) })
    }

    fn part(&self, id: PartId) -> Option<&SewnPart> {
        self.size.sewn.parts.get(id.index())
    }

    fn edge(&self, part: PartId, edge: DrawnEdgeId) -> Option<EdgeId> {
        Some(self.size.drawn.paper(self.part(part)?.part.paper)?.edge_at(edge)?.edge)
    }

    fn joints(&self, side: usize, ply: &SewnPly) -> Vec<MeetingPoint> {
        let mut found = Vec::new();
        let mut at = 0.0;
        for pair in ply.runs.windows(2) {
            let [before, after] = pair else { continue };
            at += before.length;
            let (Some(one), Some(other)) =
                (self.edge(before.part, before.edge), self.edge(after.part, after.edge))
            else {
                continue;
            };
            let is = match (before.part, before.edge) == (after.part, after.edge) && before.hand != after.hand
            {
                true => PointIs::Middle { part: before.part, edge: one },
                false => {
                    let (before_id, after_id) = ((before.part, one), (after.part, other));
                    PointIs::Joint {
                        before: before_id,
                        after: after_id,
                        seam: self.seam_between(before, after),
                    }
                }
            };
            let across = self.across(at, side == 1);
            let (on, is) = if side == 0 {
                ([at, across], [is, PointIs::Within])
            } else {
                ([across, at], [PointIs::Within, is])
            };
            found.push(MeetingPoint { sign: None, on, is });
        }
        found
    }

    /// The seam that takes the edges on both sides of a joint.
    fn seam_between(&self, before: &SewnRun, after: &SewnRun) -> Option<SeamId> {
        let seams = |run: &SewnRun, at_end: bool| -> Option<Vec<SeamId>> {
            let beside = self.beside(run, at_end)?;
            let takers = self.part(run.part)?.fate(beside)?.takers.iter();
            Some(
                takers
                    .filter_map(|taker| if let TakenBy::Seam(id, _) = taker.what { Some(id) } else { None })
                    .collect(),
            )
        };
        let other = seams(after, false)?;
        seams(before, true)?.into_iter().find(|seam| other.contains(seam))
    }

    /// Where a place of one side lies on the other.
    fn across(&self, at: f64, from_second: bool) -> f64 {
        let lengths = self.sides.map(|ply| ply.length);
        let (own, other) = if from_second { (lengths[1], lengths[0]) } else { (lengths[0], lengths[1]) };
        for stretch in &self.sewn.stretches {
            let (from, to) =
                if from_second { (stretch.second, stretch.first) } else { (stretch.first, stretch.second) };
            if at <= from.1 + 1e-9 && from.1 > from.0 {
                return to.0 + (to.1 - to.0) * ((at - from.0) / (from.1 - from.0)).clamp(0.0, 1.0);
            }
        }
        if own > 0.0 { other * at / own } else { 0.0 }
    }

    /// Gives each point its sign; what lies on one place of the paper of one of the sides is one point and its mirror image.
    fn sign(&self, points: &mut [MeetingPoint]) {
        let keys = [0, 1].map(|side: usize| -> Vec<Option<(PaperId, i64, i64)>> {
            points.iter().map(|point| self.on_paper(side, *point.on.get(side)?)).collect()
        });
        let count = |keys: &[Option<(PaperId, i64, i64)>]| {
            let mut known: Vec<_> = keys.to_vec();
            known.sort_unstable();
            known.dedup();
            known.len()
        };
        let [first, second] = &keys;
        let by = if count(second) < count(first) { second } else { first };
        let mut seen: Vec<(PaperId, i64, i64)> = Vec::new();
        for (at, point) in points.iter_mut().enumerate() {
            let Some(Some(key)) = by.get(at) else { continue };
            let nth = seen.iter().position(|known| is_near(known, key)).unwrap_or_else(|| {
                seen.push(*key);
                seen.len() - 1
            });
            point.sign = Some(nth).filter(|nth| *nth < SIGNS);
        }
    }

    /// Where on its paper a place of a side lies, to a millimetre.
    fn on_paper(&self, side: usize, at: f64) -> Option<(PaperId, i64, i64)> {
        let ply = self.sides.get(side)?;
        let mut left = at;
        let last = ply.runs.len().checked_sub(1)?;
        for (nth, run) in ply.runs.iter().enumerate() {
            if left > run.length && nth < last {
                left -= run.length;
                continue;
            }
            let paper = self.part(run.part)?.part.paper;
            let drawn = self.size.drawn.paper(paper)?;
            let along = if run.reversed { run.length - left } else { left };
            let along = taken(self.garment, drawn, run.edge)?.as_drawn(along);
            let point = drawn.edge_at(run.edge)?.path.point_at_length(along);
            return Some((paper, point.x.round() as i64, point.y.round() as i64));
        }
        None
    }
}

/// Whether two places on paper, rounded, may be one.
fn is_near(one: &(PaperId, i64, i64), other: &(PaperId, i64, i64)) -> bool {
    one.0 == other.0 && (one.1 - other.1).abs() <= 1 && (one.2 - other.2).abs() <= 1
}

/// Whether a picture gives the points of a seam their signs: where there are more of them than its two ends, which need none.
pub fn are_signed(points: &[MeetingPoint]) -> bool {
    points.len() > 2
}
