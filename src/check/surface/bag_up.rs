//! `bag/up`: a pocket bag in a side seam that goes up from its mouth, or up beyond the edge above it.
//!
//! What hangs at a mouth lies folded in on the piece that it is sewn to: so the bag is laid on that, mouth on mouth.

use super::bag_at_slit;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnPiece, taken};
use crate::sewing::SewnSeam;
use crate::sewing::surface::{FaceId, JoinedBy, StretchId, Surface};
use crate::shape::outline::{Region, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::BAG_UP, &catalogue::BAG_DEEP], run: Run::PerSize(run) };

/// A hand goes into a pocket, and no body: so long is the longest mouth, in millimetres.
const MOUTH: f64 = 350.0;
/// A mouth leads down by at least so much of its length; of one that lies across no end is the upper one.
const STEEP: f64 = 0.5;
/// A grain that leads up by more than this is up and down, as its sine.
const UPRIGHT: f64 = 0.9;
/// As much as this, in millimetres, is taken in with the edge above, or is cut off there.
const BEYOND: f64 = 20.0;
/// So much more of a bag lies above its mouth than below, in millimetres, if it goes up.
const MORE: f64 = 10.0;
/// Beyond a mouth its edge goes on: it turns by less than this, as its cosine.
const GOES_ON: f64 = 0.5;
/// So many places of each edge of a bag are looked at.
const LOOKED_AT: usize = 24;
/// So far beside a mouth it is looked for the cloth of its piece, in millimetres.
const BESIDE: f64 = 2.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let looking = Looking { garment, size, surface };
    let mut told: Vec<PieceId> = Vec::new();
    for face in surface.face_ids() {
        let Some(hung) = looking.hung(face) else { continue };
        // Its other half is sewn to it, and goes up with it.
        let pieces = [face, hung.half].map(|face| size.sewn.part(surface.face(face).part).part.piece);
        if !pieces.iter().any(|piece| told.contains(piece))
            && let Some(finding) = looking.up(&hung)
        {
            told.extend(pieces);
            findings.push(finding);
        }
    }
}

/// A half of a bag that hangs at its mouth.
struct Hung {
    face: FaceId,
    /// Its other half.
    half: FaceId,
    /// Its own edge, and the one that it hangs from, from end to end along its ring.
    mouth: Vec<StretchId>,
    from: Vec<StretchId>,
    /// The ring of what it hangs from goes along it against its own.
    against: bool,
    sewn: usize,
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl<'a> Looking<'a> {
    /// A face that is sewn by one edge to what it hangs from, and by all others to its other half, which hangs from what
    /// that is sewn to beyond the mouth.
    fn hung(&self, face: FaceId) -> Option<Hung> {
        let surface = self.surface;
        let mut others: [Option<FaceId>; 2] = [None, None];
        for stretch in surface.stretches_of(face) {
            let other = self.beside(stretch)?;
            match others {
                [None, _] => others[0] = Some(other),
                [Some(one), None] if one != other => others[1] = Some(other),
                [Some(one), Some(two)] if one != other && two != other => return None,
                _ => {}
            }
        }
        let [Some(one), Some(two)] = others else { return None };
        if surface.face(face).flap || one == face || two == face {
            return None;
        }
        let hangs = |from: FaceId, half: FaceId| {
            let mouth = self.mouth(face, from, half)?;
            let beyond = self.goes_on(&mouth);
            let hangs_there = surface
                .stretches_of(half)
                .filter_map(|stretch| self.beside(stretch))
                .any(|other| other != face && beyond.contains(&other));
            hangs_there.then_some(mouth)
        };
        hangs(one, two).or_else(|| hangs(two, one))
    }

    /// The face that a stretch is sewn to in a plain seam.
    fn beside(&self, stretch: StretchId) -> Option<FaceId> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { .. } = join.by else { return None };
        match join.plies.as_slice() {
            [one, other] => {
                let other = if one.stretch == stretch { other } else { one };
                Some(self.surface.face_of(other.stretch))
            }
            _ => None,
        }
    }

    fn mouth(&self, face: FaceId, from: FaceId, half: FaceId) -> Option<Hung> {
        let surface = self.surface;
        let is_own = |&stretch: &StretchId| self.beside(stretch) == Some(from);
        let mut own: Vec<StretchId> = surface.stretches_of(face).filter(is_own).collect();
        let start = own.iter().position(|&at| !is_own(&surface.before(at)))?;
        own.rotate_left(start);
        let mut found = Hung { face, half, mouth: Vec::new(), from: Vec::new(), against: false, sewn: 0 };
        let mut long = 0.0;
        for at in own {
            if found.mouth.last().is_some_and(|&last| surface.next(last) != at) {
                return None;
            }
            let join = surface.join(surface.stretch(at).join?);
            let JoinedBy::Seam { sewn, .. } = join.by else { return None };
            let [one, other] = join.plies.as_slice() else { return None };
            found.against = one.against != other.against;
            found.sewn = sewn;
            found.mouth.push(at);
            found.from.push(if one.stretch == at { other.stretch } else { one.stretch });
            long += surface.length(at);
        }
        (long <= MOUTH && long > 0.0).then_some(found)
    }

    /// What the edge that a bag hangs from is sewn to beyond its mouth.
    fn goes_on(&self, hung: &Hung) -> Vec<FaceId> {
        let surface = self.surface;
        let (Some(&first), Some(&last)) = (hung.from.first(), hung.from.last()) else { return Vec::new() };
        let ends = [surface.before(first), surface.next(first), surface.before(last), surface.next(last)];
        let beyond = ends.into_iter().filter(|at| !hung.from.contains(at));
        beyond.filter(|&at| self.runs_on(first, at)).filter_map(|at| self.beside(at)).collect()
    }

    /// Whether one stretch goes on as another does, and not round a corner.
    fn runs_on(&self, one: StretchId, other: StretchId) -> bool {
        let way = |at: StretchId| Some(self.place(at, true)? - self.place(at, false)?);
        way(one)
            .zip(way(other))
            .is_some_and(|(one, other)| one.dot(other) > GOES_ON * one.hypot() * other.hypot())
    }

    fn drawn(&self, stretch: StretchId) -> Option<(&'a DrawnPiece, EdgeId)> {
        let side = self.surface.side_of(stretch);
        let drawn = self.size.drawn.paper(self.size.sewn.part(side.part).part.paper)?;
        Some((drawn, drawn.edge_at(side.edge)?.edge))
    }

    /// Where a stretch begins or ends, along its ring, on the paper of its piece.
    fn place(&self, stretch: StretchId, at_end: bool) -> Option<Point> {
        let own = self.surface.stretch(stretch);
        self.place_at(stretch, if at_end { own.to } else { own.from })
    }

    fn middle(&self, stretch: StretchId) -> Option<Point> {
        let own = self.surface.stretch(stretch);
        self.place_at(stretch, f64::midpoint(own.from, own.to))
    }

    /// A place so far along the side of a stretch, along its ring.
    fn place_at(&self, stretch: StretchId, along: f64) -> Option<Point> {
        let side = self.surface.side_of(stretch);
        let (drawn, _) = self.drawn(stretch)?;
        let along = if side.mirrored { side.length - along } else { along };
        let along = taken(self.garment, drawn, side.edge)?.as_drawn(along);
        Some(drawn.edge_at(side.edge)?.path.point_at_length(along))
    }

    fn up(&self, hung: &Hung) -> Option<Finding> {
        let (garment, unit) = (self.garment, self.garment.unit);
        let (first, last) = (*hung.mouth.first()?, *hung.mouth.last()?);
        let (from_first, from_last) = (*hung.from.first()?, *hung.from.last()?);
        let (bag, _) = self.drawn(first)?;
        let (host, _) = self.drawn(from_first)?;
        if host.grain.y.abs() < UPRIGHT {
            return None;
        }
        let own = [self.place(first, false)?, self.place(last, true)?];
        let on = [self.place(from_first, hung.against)?, self.place(from_last, !hung.against)?];
        let ([upper, lower], [high, low]) = match on[0].y >= on[1].y {
            true => (own, on),
            false => ([own[1], own[0]], [on[1], on[0]]),
        };
        let long = high.distance(low);
        if high.y - low.y < STEEP * long || upper.distance(lower) <= 0.0 {
            return None;
        }
        let ring =
            |drawn: &DrawnPiece| -> Vec<Path> { drawn.edges.iter().map(|edge| edge.path.clone()).collect() };
        let places: Vec<Point> = ring(bag)
            .iter()
            .flat_map(|path| {
                let long = path.length();
                (0..LOOKED_AT).map(move |at| path.point_at_length(long * at as f64 / LOOKED_AT as f64))
            })
            .collect();
        let outline = ring(host);
        let region = Region::of(&outline);
        let aside = |way: Vec2| Vec2::new(-way.y, way.x);
        let (down, hangs) = ((lower - upper).normalize(), (low - high).normalize());
        let middle = places.iter().fold(Vec2::ZERO, |sum, at| sum + at.to_vec2()) / places.len() as f64;
        let across = match (middle - upper.to_vec2()).dot(aside(down)) >= 0.0 {
            true => aside(down),
            false => -aside(down),
        };
        let beside = self.middle(from_first)? + aside(hangs) * BESIDE;
        let inwards = if region.contains(beside) { aside(hangs) } else { -aside(hangs) };
        let laid = |at: Point| high + hangs * (at - upper).dot(down) + inwards * (at - upper).dot(across);
        let heights = || places.iter().map(|&at| laid(at).y);
        let top = heights().fold(high.y, f64::max);
        let bottom = heights().fold(low.y, f64::min);
        let is_up = top - high.y > low.y - bottom + MORE;
        let mut above: Option<(f64, Point)> = None;
        for at in places.iter().map(|&at| laid(at)).filter(|at| at.y > high.y) {
            let far = at.y - high.y;
            let is_off = !region.contains(at) && !is_on(&outline, at, BEYOND);
            if is_off && above.is_none_or(|(most, _)| far > most) {
                above = Some((far, at));
            }
        }
        if !is_up && above.is_none() {
            let lowest = outline.iter().flat_map(|path| [path.start().y, path.end().y]);
            let lowest = lowest.fold(f64::INFINITY, f64::min);
            let pieces = [hung.face, self.surface.face_of(from_first)];
            let pieces = pieces.map(|face| self.size.sewn.part(self.surface.face(face).part).part.piece);
            let sewn = self.size.sewn.seams.get(hung.sewn)?;
            let span = garment.seam(sewn.seam).name_span;
            return bag_at_slit::reported(garment, self.size, pieces, lowest - bottom, span);
        }
        let named = |face: FaceId| {
            words::piece(garment, self.size.sewn.part(self.surface.face(face).part).part.piece)
        };
        let (own, of) = (named(hung.face), named(self.surface.face_of(from_first)));
        let sewn: &SewnSeam = self.size.sewn.seams.get(hung.sewn)?;
        let seam = garment.seam(sewn.seam);
        let mut weight = 0.0;
        let title = match above {
            Some((_, at)) => {
                let edges = host.edges.iter().map(|edge| (edge.edge, edge.path.nearest(at).distance));
                let (edge, far) = edges.min_by(|one, other| one.1.total_cmp(&other.1))?;
                weight = far;
                let far = amount(far, unit);
                let edge = words::edge(garment, edge);
                format!("{own}, turned in, goes up {far} beyond {edge}")
            }
            None => format!("{own} goes up from its mouth on {of}"),
        };
        let span = seam.matching.first().map(|(one, other)| one.span.to(other.span));
        let mut warning =
            Diagnostic::new(&catalogue::BAG_UP, span.unwrap_or(seam.name_span), Title::new(title).in_sizes());
        warning = match span {
            Some(_) => warning.label("matched so").also(seam.name_span, "in this seam"),
            None => warning.label("hangs here"),
        };
        let help = match is_up {
            true => {
                "a bag hangs down from its mouth: match its upper end with the upper end of the mouth, here and at its other half"
            }
            false => {
                "if its ends are matched the wrong way round, match the other ones, here and at its other half; else draw it \
                 lower, or its mouth further down"
            }
        };
        Some(Finding::new(self.size.id(), weight, warning.help(help)).about(&*seam.name))
    }
}
