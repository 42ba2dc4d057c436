//! `seam/at-shoulder`: a sleeve whose own seam comes to the top of the armhole, and its cap to the side seam.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Part, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::CornerName;
use crate::sewing::surface::{FaceId, JoinedBy, SideId, StretchId, Surface};
use crate::shape::Point;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_AT_SHOULDER], run: Run::PerSize(run) };

/// The lowest place of an armhole lies at least so far below its highest, in millimetres.
const DEEP: f64 = 60.0;
/// A cap rises over its ends by more than this share of the way between them; where that lies is told by its crown.
const RISES: f64 = 0.1;
/// A joint no further than this above another is as high as that, in millimetres.
const LEVEL: f64 = 10.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut known: IdSet<(SeamId, SeamId)> = IdSet::default();
    for face in surface.face_ids() {
        let Some(tube) = Tube::of(surface, face) else { continue };
        let Some(hole) = Hole::of(size, surface, &tube) else { continue };
        if known.insert((tube.own, hole.seam)) {
            findings.extend(hole.reported(garment, size, surface, &tube));
        }
    }
}

/// A corner: the side that begins or ends there, as its edge is drawn, and whether it ends.
type Corner = (SideId, bool);

/// A piece that is closed by a seam of its own to a tube, which is sewn round a hole.
pub(super) struct Tube {
    pub(super) face: FaceId,
    own: SeamId,
    /// What lies between the edges of that seam, in the order of the ring.
    pub(super) round: Vec<StretchId>,
}

impl Tube {
    pub(super) fn of(surface: &Surface, face: FaceId) -> Option<Tube> {
        let closing = |stretch: StretchId| {
            let join = surface.join(surface.stretch(stretch).join?);
            let JoinedBy::Seam { seam, .. } = join.by else { return None };
            let [one, other] = join.plies.as_slice() else { return None };
            let sides = [one, other].map(|ply| surface.stretch(ply.stretch).side);
            let is_own = sides.iter().all(|&side| surface.side(side).face == face) && sides[0] != sides[1];
            is_own.then_some(seam)
        };
        let own = surface.stretches_of(face).find_map(closing)?;
        let is_free = |stretch: &StretchId| closing(*stretch).is_none();
        // Between its edges there are two ways round; the one that is sewn to another piece all along.
        let all: Vec<StretchId> = surface.stretches_of(face).collect();
        let start = all.iter().position(|stretch| !is_free(stretch))?;
        let turned = all.iter().cycle().skip(start).take(all.len());
        let mut ways: Vec<Vec<StretchId>> = Vec::new();
        let mut was_free = false;
        for stretch in turned {
            if is_free(stretch) {
                match ways.last_mut().filter(|_| was_free) {
                    Some(way) => way.push(*stretch),
                    None => ways.push(vec![*stretch]),
                }
            }
            was_free = is_free(stretch);
        }
        let sewn_to = |stretch: &StretchId| {
            let join = surface.join(surface.stretch(*stretch).join?);
            match join.by {
                JoinedBy::Seam { sewn, .. } => Some(sewn),
                JoinedBy::Placing(_) => None,
            }
        };
        let is_one_seam = |way: &Vec<StretchId>| {
            let first = way.first().and_then(sewn_to);
            first.is_some() && way.iter().all(|stretch| sewn_to(stretch) == first)
        };
        let mut round = ways.into_iter().filter(is_one_seam);
        let found = round.next()?;
        // A sleeve is a tube whose other end is a wrist: sewn on or finished, and another way round.
        round.next().is_none().then_some(Tube { face, own, round: found })
    }
}

/// A corner of what the tube is sewn to: where two of its pieces meet, and how high that lies.
struct Joint {
    /// The stretches of both pieces that meet there.
    pieces: [StretchId; 2],
    /// Where the first of them ends, as the side and whether it is its end.
    corner: Corner,
    height: f64,
}

/// The hole that a tube is sewn round.
struct Hole {
    seam: SeamId,
    /// The corner of it to which the tube's own seam comes.
    at: Corner,
    lowest: Joint,
}

impl Hole {
    /// None unless the tube's own seam comes to its highest joint and hangs down from there, while another lies much lower.
    fn of(size: &WorkedSize, surface: &Surface, tube: &Tube) -> Option<Hole> {
        let seam = match surface.join(surface.stretch(*tube.round.first()?).join?).by {
            JoinedBy::Seam { seam, .. } => seam,
            JoinedBy::Placing(_) => return None,
        };
        let mut height = 0.0;
        let mut joints: Vec<Joint> = Vec::new();
        let mut before: Option<(StretchId, Corner)> = None;
        let (mut first, mut last) = (None, None);
        for &stretch in &tube.round {
            let (host, start, end) = host(surface, stretch)?;
            if !hangs(size, surface, host) {
                return None;
            }
            if let Some((known, corner)) = before
                && surface.face_of(known) != surface.face_of(host)
            {
                joints.push(Joint { pieces: [known, host], corner, height });
            }
            let there = |at: Corner| corner(size, surface, at);
            // Within an edge, places lie as far along it as they are sewn.
            let side = surface.stretch(host).side;
            let share = surface.length(host) / surface.side(side).length;
            height += share * (there((side, end.1))?.y - there((side, start.1))?.y);
            first = first.or(Some((host, start)));
            last = Some(host);
            before = Some((host, end));
        }
        let ((first, at), last) = (first?, last?);
        let highest = joints.iter().map(|joint| joint.height).fold(f64::NEG_INFINITY, f64::max);
        let lowest = joints.into_iter().min_by(|one, other| one.height.total_cmp(&other.height))?;
        // It comes to a joint itself, and goes on down from there.
        let is_joint = surface.face_of(first) != surface.face_of(last);
        let is_low = lowest.height < -DEEP && highest < LEVEL;
        let is_flat = || !has_crown(size, surface, tube);
        (is_joint && is_low && hangs_down(size, surface, tube) && is_flat()).then_some(Hole {
            seam,
            at,
            lowest,
        })
    }

    fn reported(
        &self,
        garment: &Garment,
        size: &WorkedSize,
        surface: &Surface,
        tube: &Tube,
    ) -> Option<Finding> {
        let part = |face: FaceId| size.sewn.part(surface.face(face).part).part;
        let sleeve = part(tube.face);
        let (own, seam) = (garment.seam(tube.own), garment.seam(self.seam));
        let [one, other] =
            self.lowest.pieces.map(|stretch| words::piece(garment, part(surface.face_of(stretch)).piece));
        let first = *tube.round.first()?;
        let from =
            named(garment, size, surface, (surface.stretch(first).side, surface.side_of(first).mirrored))?;
        let to = named(garment, size, surface, self.lowest.corner)?;
        let there = named(garment, size, surface, self.at);
        let title = format!(
            "{} of {} comes to the top of the hole that {} goes round, and not where {one} and {other} meet below",
            own.words(),
            words::piece(garment, sleeve.piece),
            seam.words(),
        );
        let matched = seam.matching.first().map(|(one, other)| one.span.to(other.span));
        let advice = Diagnostic::new(&catalogue::SEAM_AT_SHOULDER, matched.unwrap_or(seam.name_span), title)
            .label(match there {
                Some(there) => format!("{from} at {there}"),
                None => "the top".to_owned(),
            })
            .also(own.name_span, "this seam lies under the arm as a rule")
            .help(format!("matching {from} with {to}"));
        Some(Finding::new(size.drawn.size, 0.0, advice).about(&*seam.name))
    }
}

/// The one ply below a stretch of a tube, and the corners of it where that stretch begins and ends along the tube's ring.
fn host(surface: &Surface, stretch: StretchId) -> Option<(StretchId, Corner, Corner)> {
    let join = surface.join(surface.stretch(stretch).join?);
    let [one, other] = join.plies.as_slice() else { return None };
    let (own, other) = if one.stretch == stretch { (one, other) } else { (other, one) };
    let side = surface.stretch(other.stretch).side;
    let along = own.against == other.against;
    // A face's ring goes along a side that is mirrored against its drawing.
    let drawn = |at_end: bool| (side, at_end != surface.side(side).mirrored);
    Some((other.stretch, drawn(!along), drawn(along)))
}

/// Where an edge begins or ends as it is drawn.
fn corner(size: &WorkedSize, surface: &Surface, (side, at_end): Corner) -> Option<Point> {
    let side = surface.side(side);
    let path = &size.drawn.paper(size.sewn.part(side.part).part.paper)?.edge_at(side.edge)?.path;
    Some(if at_end { path.end() } else { path.start() })
}

/// A corner as it is written.
fn named(garment: &Garment, size: &WorkedSize, surface: &Surface, (side, at_end): Corner) -> Option<String> {
    let side = surface.side(side);
    let part = size.sewn.part(side.part).part;
    let drawn = size.drawn.paper(part.paper)?;
    let edge = if at_end { drawn.after(side.edge) } else { side.edge };
    let CornerName::Named(point) = drawn.edge_at(edge)?.corner else { return None };
    Some(format!("{}.{}", garment.piece(part.piece).name, garment.point(point).name))
}

/// Whether a piece is drawn as it hangs.
fn hangs(size: &WorkedSize, surface: &Surface, stretch: StretchId) -> bool {
    let of: Part = size.sewn.part(surface.side_of(stretch).part).part;
    size.drawn.paper(of.paper).is_some_and(|drawn| drawn.grain.y.abs() > 0.999)
}

/// Whether what is left of a tube lies below what is sewn round the hole: both edges of its own seam go down from there.
fn hangs_down(size: &WorkedSize, surface: &Surface, tube: &Tube) -> bool {
    let (Some(&first), Some(&last)) = (tube.round.first(), tube.round.last()) else { return false };
    let beside = [surface.before(first), surface.next(last)].map(|stretch| surface.stretch(stretch).side);
    let falls = |side: SideId, from_end: bool| {
        let from_end = from_end != surface.side(side).mirrored;
        let ends = corner(size, surface, (side, from_end)).zip(corner(size, surface, (side, !from_end)));
        ends.is_some_and(|(near, far)| near.y - far.y > DEEP)
    };
    hangs(size, surface, first) && falls(beside[0], true) && falls(beside[1], false)
}

/// Whether what is sewn round the hole rises in its middle, as a shaped cap does.
fn has_crown(size: &WorkedSize, surface: &Surface, tube: &Tube) -> bool {
    let at = |stretch: StretchId, at_end: bool| {
        let side = surface.stretch(stretch).side;
        corner(size, surface, (side, at_end != surface.side(side).mirrored))
    };
    let ends = tube.round.first().zip(tube.round.last());
    let Some((start, end)) = ends.and_then(|(first, last)| at(*first, false).zip(at(*last, true))) else {
        return false;
    };
    let sides = tube.round.iter().map(|&stretch| surface.side_of(stretch));
    let highest = sides.filter_map(|side| {
        let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper)?;
        let path = &drawn.edge_at(side.edge)?.path;
        Some(path.point_at_length(0.5 * path.length()).y.max(path.start().y).max(path.end().y))
    });
    highest.fold(f64::NEG_INFINITY, f64::max) - start.y.max(end.y) > RISES * start.distance(end)
}
