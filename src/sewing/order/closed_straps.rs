//! Straps that are sewn when the way round them is closed already.
//!
//! Shell and lining, sewn together along a neck and along an armhole, are a tube between the two. Right sides together, it is
//! turned by drawing all that hangs at one of its ends through it. So what hangs there may not hang together with its other
//! end elsewhere: a waistcoat whose shoulders and sides are closed in shell and lining, and which is sewn all round then,
//! cannot be turned, whatever gap is left. Either shoulders or sides are sewn after that.
//!
//! On the surface: a circle round the strap, across both seams, does not part what is sewn by then. Ends of tubes, a hem and a
//! waist, are sewn to one another end on end all the same, since each is drawn out through the gap; there any two such
//! circles together part it. So two are looked for that do not.

use super::bags::Bags;
use super::found::find;
use super::jobs::Work;
use super::rules::Rules;
use super::schedule::{Schedule, When};
use super::shut_in::turned_after;
use super::timetable::Timetable;
use crate::garment::{Garment, SeamId};
use crate::id_hash::{IdIndexMap, IdIndexSet};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;
use crate::sewing::seam_kinds::BY_HAND;
use crate::sewing::surface::{Bag, FaceId, Join, JoinId, JoinedBy, StretchId, Surface};
use std::collections::VecDeque;

/// Wider than this, in millimetres, a strap is a body: its seams are drawn out and sewn end on end (craft judgement; a shoulder is
/// 8 to 15 cm wide).
const STRAP: f64 = 200.0;
/// So many straps of a bag are looked at.
const MOST: usize = 32;
/// So many places of a stretch are looked at.
const PLACES: usize = 5;

/// A strap that cannot be turned. Seams are named by their places in [`Sewing::seams`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosedStrap {
    /// Its piece.
    pub face: FaceId,
    /// The two seams along it, the one that is sewn first before the other.
    pub along: [usize; 2],
    /// When the second is sewn.
    pub when: When,
    /// Seams that close the way round it before.
    pub round: Vec<usize>,
}

/// The first such strap of each bag.
pub fn closed_straps(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    timetable: &Timetable,
    bags: &[Bag],
) -> Vec<ClosedStrap> {
    let Some(surface) = sewing.surface.as_ref() else { return Vec::new() };
    let is_turned = |bag: &&Bag| turned_after(garment, surface, timetable, bag).is_some();
    let of = |bag| Looking { garment, sized, sewing, surface, timetable, bag }.strap();
    bags.iter().filter(is_turned).filter_map(of).collect()
}

/// A strap through which what hangs at one end of it is drawn, so that all lies right side out, before a seam closes the way round
/// it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawnStrap {
    /// The two seams along it, by their places in [`Sewing::seams`].
    pub along: [usize; 2],
    /// The seam that closes the way round it, likewise.
    pub before: usize,
}

/// The straps through which something is drawn as the work is done, of each bag the first.
pub fn drawn_straps(work: &Work) -> Vec<DrawnStrap> {
    let (garment, sewing) = (work.garment, work.sewing);
    let Some(mut judged) = Bags::of(garment, sewing) else { return Vec::new() };
    if garment.seams.iter().all(|seam| seam.gaps.is_empty()) {
        return Vec::new();
    }
    let said = Schedule::said(work);
    judged.timetable = match said.is_whole(work) {
        true => Timetable::of(work, &said),
        false => Timetable::of(work, &find(&Rules::of(work), &said).schedule),
    };
    let (Some(timetable), Ok(bags), Some(surface)) =
        (&judged.timetable, judged.all(), sewing.surface.as_ref())
    else {
        return Vec::new();
    };
    let is_turned = |bag: &&Bag| turned_after(garment, surface, timetable, bag).is_some();
    let of = |bag| Looking { garment, sized: work.sized, sewing, surface, timetable, bag }.drawn();
    bags.iter().filter(is_turned).filter_map(of).collect()
}

/// Where a circle leaves one face for the next: the stretch of each, and their join.
#[derive(Clone, Copy)]
struct Crossing {
    from: StretchId,
    to: StretchId,
    join: JoinId,
}

/// A circle round a strap: across the face of the strap, out of it, over one face or two, and back into it.
struct Circle {
    face: FaceId,
    crossings: Vec<Crossing>,
    along: [usize; 2],
    when: When,
}

struct Looking<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    sewing: &'a Sewing,
    surface: &'a Surface,
    timetable: &'a Timetable,
    bag: &'a Bag,
}

impl Looking<'_> {
    fn strap(&self) -> Option<ClosedStrap> {
        let closed: Vec<Circle> = self
            .circles()
            .into_iter()
            .filter(|circle| self.way_round(&[circle], circle.when.at).is_some())
            .collect();
        let mut pairs = closed
            .iter()
            .enumerate()
            .flat_map(|(at, one)| closed.iter().skip(at + 1).map(move |other| [one, other]));
        let is_closed = |[one, other]: &[&Circle; 2]| {
            self.way_round(&[one, other], one.when.max(other.when).at).is_some()
        };
        let [one, other] = pairs.find(is_closed)?;
        let circle = if one.when < other.when { one } else { other };
        let round = self.way_round(&[circle], circle.when.at)?;
        let round: IdIndexSet<usize> =
            round.into_iter().filter(|seam| !circle.along.contains(seam)).collect();
        let (face, along, when) = (circle.face, circle.along, circle.when);
        Some(ClosedStrap { face, along, when, round: round.into_iter().collect() })
    }

    /// The strap whose way round is closed first, after it is sewn and before anything is turned.
    fn drawn(&self) -> Option<DrawnStrap> {
        let seams: IdIndexMap<usize, When> = self
            .surface
            .joins
            .iter()
            .filter_map(|join| Some((self.sewn(join)?.0, self.when(join)?)))
            .collect();
        let last = seams.values().map(|when| when.at).max()?;
        let circles = self.circles();
        let is_strap = |circle: &&Circle| {
            circles.iter().any(|other| {
                !std::ptr::eq(*circle, other) && self.way_round(&[circle, other], last).is_some()
            })
        };
        let closing = |circle: &Circle| {
            let mut later: Vec<(When, usize)> = seams
                .iter()
                .map(|(&seam, &when)| (when, seam))
                .filter(|(when, _)| *when > circle.when)
                .collect();
            later.sort_unstable();
            // What is closed once something is sewn stays closed.
            let at = later.partition_point(|(when, _)| self.way_round(&[circle], when.at).is_none());
            let &(when, seam) = later.get(at)?;
            (!self.timetable.is_turned_between(circle.when, when)).then_some((when, seam))
        };
        let open = circles.iter().filter(|circle| self.way_round(&[circle], circle.when.at).is_none());
        let found = open.filter(is_strap).filter_map(|circle| Some((closing(circle)?, circle.along)));
        let ((_, before), along) = found.min_by_key(|((when, _), _)| *when)?;
        Some(DrawnStrap { along, before })
    }

    fn sewn(&self, join: &Join) -> Option<(usize, SeamId)> {
        match join.by {
            JoinedBy::Seam { sewn, seam, .. } => Some((sewn, seam)),
            JoinedBy::Placing(_) => None,
        }
    }

    /// When a join of the bag is sewn by machine.
    fn when(&self, join: &Join) -> Option<When> {
        let (sewn, seam) = self.sewn(join)?;
        let stitch = self.garment.seam(seam).stitch.as_ref();
        let is_by_hand = stitch.is_some_and(|stitch| BY_HAND.contains(&stitch.number));
        if is_by_hand || join.gap { None } else { self.timetable.seam(sewn) }
    }

    fn is_own(&self, face: FaceId) -> bool {
        self.bag.faces.binary_search(&face).is_ok()
    }

    /// Where faces of the bag are sewn to one another, from each of them.
    fn crossings(&self) -> IdIndexMap<FaceId, Vec<Crossing>> {
        let mut found: IdIndexMap<FaceId, Vec<Crossing>> = IdIndexMap::default();
        for &face in &self.bag.faces {
            for from in self.surface.stretches_of(face) {
                let Some(id) = self.surface.stretch(from).join else { continue };
                let join = self.surface.join(id);
                if self.when(join).is_none() || self.surface.side_of(from).hole > 0 {
                    continue;
                }
                for ply in join.plies.iter().filter(|ply| ply.stretch != from) {
                    let other = self.surface.face_of(ply.stretch);
                    if other != face && self.is_own(other) && self.surface.side_of(ply.stretch).hole == 0 {
                        let crossing = Crossing { from, to: ply.stretch, join: id };
                        found.entry(face).or_default().push(crossing);
                    }
                }
            }
        }
        found
    }

    /// The circles round narrow places, one for each two seams of a piece that it is sewn to another layer by.
    fn circles(&self) -> Vec<Circle> {
        let surface = self.surface;
        let all = self.crossings();
        let layer = |stretch: StretchId| surface.face(surface.face_of(stretch)).layer;
        let mut narrowest: IdIndexMap<(FaceId, bool, [usize; 2]), (f64, Circle)> = IdIndexMap::default();
        for (&face, out) in &all {
            for (at, one) in out.iter().enumerate() {
                for other in out.iter().skip(at + 1) {
                    let is_across =
                        [one, other].iter().any(|crossing| layer(crossing.from) != layer(crossing.to));
                    let sewn = [one, other].map(|crossing| surface.join(crossing.join));
                    let [Some((first, _)), Some((second, _))] = sewn.map(|join| self.sewn(join)) else {
                        continue;
                    };
                    let [Some(when), Some(then)] = sewn.map(|join| self.when(join)) else { continue };
                    let sides = [one, other].map(|crossing| surface.side_of(crossing.from));
                    if !is_across || sides[0].mirrored != sides[1].mirrored || sides[0] == sides[1] {
                        continue;
                    }
                    let Some(wide) = self.apart(one.from, other.from).filter(|wide| *wide < STRAP) else {
                        continue;
                    };
                    let Some(crossings) = self.back(&all, *one, *other) else { continue };
                    let along = if when.at <= then.at { [first, second] } else { [second, first] };
                    if self.is_turned_between(when, then) {
                        continue;
                    }
                    let circle = Circle { face, crossings, along, when: when.max(then) };
                    let key = (face, sides[0].mirrored, along);
                    let is_wider = |known: &(f64, Circle)| known.0 <= wide;
                    let has_room = narrowest.len() < MOST;
                    if narrowest.get(&key).map_or(has_room, |known| !is_wider(known)) {
                        narrowest.insert(key, (wide, circle));
                    }
                }
            }
        }
        narrowest.into_values().map(|(_, circle)| circle).collect()
    }

    /// The way back to a strap from where one of its seams leads to where the other does: the same piece, or one beside it.
    fn back(
        &self,
        all: &IdIndexMap<FaceId, Vec<Crossing>>,
        out: Crossing,
        other: Crossing,
    ) -> Option<Vec<Crossing>> {
        let (left, arrived) = (self.surface.face_of(out.to), self.surface.face_of(other.to));
        let home = Crossing { from: other.to, to: other.from, join: other.join };
        if left == arrived {
            return (out.to != other.to).then(|| vec![out, home]);
        }
        let beside = all.get(&left)?.iter().find(|one| self.surface.face_of(one.to) == arrived)?;
        let is_apart = beside.from != out.to && beside.to != other.to;
        is_apart.then(|| vec![out, *beside, home])
    }

    /// How far apart two stretches of a piece lie.
    fn apart(&self, one: StretchId, other: StretchId) -> Option<f64> {
        let places = |stretch: StretchId| {
            (0..PLACES).filter_map(move |at| {
                let share = at as f64 / (PLACES - 1) as f64;
                self.surface.on_paper(self.sized, &self.sewing.parts, stretch, share)
            })
        };
        let all = places(one).flat_map(|at| places(other).map(move |from| at.distance(from)));
        all.min_by(f64::total_cmp)
    }

    /// It is turned, and what is pulled out through the gap then is sewn.
    fn is_turned_between(&self, one: When, other: When) -> bool {
        let (first, last) = (one.min(other), one.max(other));
        self.timetable.is_turned_between(first, last)
    }

    /// The seams of a way from one side of the first of some circles to its other side, across none of them, over what is sewn by
    /// then; none where the circles part it.
    fn way_round(&self, circles: &[&Circle], until: usize) -> Option<Vec<usize>> {
        let surface = self.surface;
        let crosses = |circle: &Circle, stretch: StretchId| {
            circle.crossings.iter().any(|crossing| crossing.from == stretch || crossing.to == stretch)
        };
        let parting: Vec<&Circle> = match circles {
            [one, other]
                if one.crossings.iter().any(|at| crosses(other, at.from) || crosses(other, at.to)) =>
            {
                return None;
            }
            all => all.to_vec(),
        };
        let node = |stretch: StretchId| self.node(&parting, stretch, None);
        let mut ways: Vec<Vec<(usize, Option<usize>)>> = vec![Vec::new(); NODES * surface.faces.len()];
        let mut link = |one: usize, other: usize, seam: Option<usize>| {
            ways[one].push((other, seam));
            ways[other].push((one, seam));
        };
        for (at, join) in surface.joins.iter().enumerate() {
            let (Some((sewn, _)), Some(when)) = (self.sewn(join), self.when(join)) else { continue };
            if when.at > until {
                continue;
            }
            let id = JoinId::from_index(at);
            let crossed = parting.iter().enumerate().find_map(|(nth, circle)| {
                circle.crossings.iter().find(|crossing| crossing.join == id).map(|crossing| (nth, *crossing))
            });
            if let Some((nth, crossing)) = crossed {
                // Where a circle crosses a seam, each half of that lies on one side of it.
                let against = |stretch: StretchId| {
                    join.plies.iter().find(|ply| ply.stretch == stretch).is_some_and(|ply| ply.against)
                };
                let same_way = against(crossing.from) == against(crossing.to);
                for side in [false, true] {
                    let (out, into) = (side, if same_way { !side } else { side });
                    let from = self.node(&parting, crossing.from, Some((nth, out)));
                    link(from, self.node(&parting, crossing.to, Some((nth, into))), Some(sewn));
                }
                continue;
            }
            let mut plies =
                join.plies.iter().map(|ply| ply.stretch).filter(|&at| surface.side_of(at).hole == 0);
            let Some(first) = plies.next() else { continue };
            plies.for_each(|other| link(node(first), node(other), Some(sewn)));
        }
        let first = parting.first()?;
        let across = first.crossings.first()?.from;
        let [start, goal] = [false, true].map(|side| self.node(&parting, across, Some((0, side))));
        way(&ways, start, goal)
    }

    /// Which part of its face a stretch bounds: of each circle that crosses the face, the side of it. One that a circle crosses lies on
    /// both, and `at` says on which.
    fn node(&self, circles: &[&Circle], stretch: StretchId, at: Option<(usize, bool)>) -> usize {
        let face = self.surface.face_of(stretch);
        let mut node = NODES * face.index();
        for (nth, circle) in circles.iter().enumerate() {
            let side = match at {
                Some((own, side)) if own == nth => side,
                _ => self.is_behind(circle, face, stretch),
            };
            node += usize::from(side) << nth;
        }
        node
    }

    /// Whether a stretch lies behind where a circle leaves its face, and before where it comes in, along the ring.
    fn is_behind(&self, circle: &Circle, face: FaceId, stretch: StretchId) -> bool {
        let leaves = circle.crossings.iter().map(|at| at.from).find(|&at| self.surface.face_of(at) == face);
        let comes = circle.crossings.iter().map(|at| at.to).find(|&at| self.surface.face_of(at) == face);
        let (Some(leaves), Some(comes)) = (leaves, comes) else { return false };
        let mut at = leaves;
        for _ in 0..self.surface.stretches_of(face).count() {
            at = self.surface.next(at);
            if at == comes {
                return false;
            }
            if at == stretch {
                return true;
            }
        }
        false
    }
}

/// With two circles a face falls into so many parts at the most.
const NODES: usize = 4;

/// The seams of the shortest way from one part to another.
fn way(ways: &[Vec<(usize, Option<usize>)>], start: usize, goal: usize) -> Option<Vec<usize>> {
    let mut came: Vec<Option<(usize, Option<usize>)>> = vec![None; ways.len()];
    let mut open = VecDeque::from([start]);
    while let Some(at) = open.pop_front() {
        if at == goal {
            let (mut seams, mut at) = (Vec::new(), goal);
            while at != start {
                let (before, seam) = came.get(at).copied().flatten()?;
                seams.extend(seam);
                at = before;
            }
            return Some(seams);
        }
        for &(next, seam) in ways.get(at).into_iter().flatten() {
            if next != start && came.get(next).is_some_and(Option::is_none) {
                came[next] = Some((at, seam));
                open.push_back(next);
            }
        }
    }
    None
}
