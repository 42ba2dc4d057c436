//! What stands up or is turned over: stands, collars and unfolded bands, each a narrow piece that is sewn to the body along one
//! edge, and along the opposite one to its own twin of another layer. A facing has no twin there, so that it is told apart.

use super::fit::contains;
use super::flat::Flat;
use super::making::Making;
use super::outside::{Met, is_band, is_strip};
use crate::sewing::surface::{FaceId, PlyAt, StretchId};
use crate::shape::{Point, Vec2};

/// So far a piece is looked across at most, in millimetres.
const FARTHEST: f64 = 1000.0;
/// What is no deeper than this stands up, in millimetres; what is deeper, and on no stand, is turned over.
const STANDS: f64 = 50.0;

/// A narrow piece with its twin.
#[derive(Clone, Copy, Debug)]
pub struct Doubled {
    /// Its face in the outermost layer.
    pub face: FaceId,
    /// How deep it is, from the edge that is sewn on to the opposite one, in millimetres.
    pub deep: f64,
    /// How long that edge is.
    pub long: f64,
    /// What stands up between it and the body, as a stand under a collar.
    pub on: Option<FaceId>,
    /// How its end goes from the edge that is sewn on: so far along that edge, and so far across.
    pub end: (f64, f64),
}

impl Doubled {
    /// Whether it may be turned over: it lies on a stand, or is too deep to stand.
    pub fn is_turned(&self) -> bool {
        self.on.is_some() || self.deep > STANDS
    }
}

/// All of them, outside.
pub fn doubled(making: &Making, outside: &[FaceId], met: &[Met], body: &[FaceId]) -> Vec<Doubled> {
    let is_narrow = |face: &FaceId| {
        is_strip(making, *face)
            && !body.contains(face)
            && making.flat(*face).is_some_and(|flat| !is_band(making, flat))
    };
    let narrow: Vec<FaceId> = outside.iter().copied().filter(is_narrow).collect();
    let sewn_to = |face: FaceId, to: &dyn Fn(FaceId) -> bool| -> Vec<StretchId> {
        let stretches = met.iter().filter_map(|met| match (met.one, met.other) {
            ((one, stretch), (other, _)) if one == face && to(other) => Some(stretch),
            ((other, _), (one, stretch)) if one == face && to(other) => Some(stretch),
            _ => None,
        });
        stretches.collect()
    };
    let mut found: Vec<Doubled> = Vec::new();
    for &face in &narrow {
        let on_body = sewn_to(face, &|other| body.contains(&other));
        let Some(own) = across(making, face, &on_body) else { continue };
        if is_twin(making, face, &own.opposite) {
            found.push(own.doubled(face, None));
            continue;
        }
        for &collar in narrow.iter().filter(|other| own.opposite.contains(other)) {
            let on_stand = sewn_to(collar, &|other| other == face);
            let Some(its) = across(making, collar, &on_stand) else { continue };
            if is_twin(making, collar, &its.opposite) {
                found.push(own.doubled(face, None));
                found.push(its.doubled(collar, Some(face)));
            }
        }
    }
    found
}

/// What lies across from the edge that a piece is sewn on by.
struct Across {
    deep: f64,
    long: f64,
    end: (f64, f64),
    /// The faces that the opposite edge is sewn to.
    opposite: Vec<FaceId>,
}

impl Across {
    fn doubled(&self, face: FaceId, on: Option<FaceId>) -> Doubled {
        Doubled { face, deep: self.deep, long: self.long, on, end: self.end }
    }
}

fn across(making: &Making, face: FaceId, sewn: &[StretchId]) -> Option<Across> {
    let flat = making.flat(face)?;
    let mut paths: Vec<_> =
        sewn.iter().filter_map(|stretch| flat.stretch(making.garment, making.surface, *stretch)).collect();
    paths.sort_by(|one, other| other.length().total_cmp(&one.length()));
    let longest = paths.first()?;
    let middle = longest.length() / 2.0;
    let from = longest.point_at_length(middle);
    let along = longest.tangent_at_length(middle)?;
    let way = [Vec2::new(-along.y, along.x), Vec2::new(along.y, -along.x)];
    let inward = way.into_iter().find(|way| contains(&flat.ring, from + *way * 2.0))?;
    let (edge, deep) = flat
        .edges
        .iter()
        .take(flat.outline)
        .enumerate()
        .filter_map(|(at, edge)| Some((at, hit(&edge.path.flatten(0.5), from + inward, inward)? + 1.0)))
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    let opposite = flat.edges.get(edge)?;
    let surface = making.surface;
    let is_opposite = |stretch: &StretchId| {
        let side = surface.side_of(*stretch);
        (side.edge, side.mirrored) == (opposite.edge, opposite.mirrored)
    };
    let mut faces = Vec::new();
    for stretch in surface.stretches_of(face).filter(is_opposite) {
        let Some(join) = surface.stretch(stretch).join else { continue };
        let plies = surface.join(join).plies.iter();
        let own = plies.clone().find(|ply| ply.stretch == stretch).map(|ply| is_second(ply.at));
        let others = plies.filter(|ply| ply.at != PlyAt::Caught && Some(is_second(ply.at)) != own);
        faces.extend(others.map(|ply| surface.face_of(ply.stretch)));
    }
    let long = paths.iter().map(|path| path.length()).sum();
    let end = end(making, flat, sewn).unwrap_or((0.0, deep));
    Some(Across { deep, long, end, opposite: faces })
}

fn is_second(at: PlyAt) -> bool {
    matches!(at, PlyAt::Second(_))
}

/// Whether one of these is another copy of the same piece, worn on the same side.
fn is_twin(making: &Making, face: FaceId, others: &[FaceId]) -> bool {
    let of = |face: FaceId| making.flat(face).map(|flat| (flat.drawn.piece, flat.hand));
    others.iter().any(|other| *other != face && of(*other).is_some() && of(*other) == of(face))
}

/// How the end of a piece goes from the edge that is sewn on: along that edge, inward, and across it.
fn end(making: &Making, flat: &Flat, sewn: &[StretchId]) -> Option<(f64, f64)> {
    let count = flat.outline;
    let is_sewn = |at: usize| {
        flat.edges.get(at % count).is_some_and(|edge| {
            sewn.iter().any(|stretch| {
                let side = making.surface.side_of(*stretch);
                (side.edge, side.mirrored) == (edge.edge, edge.mirrored)
            })
        })
    };
    let last = (0..count).find(|&at| is_sewn(at) && !is_sewn(at + 1))?;
    let (edge, next) = (flat.edges.get(last)?, flat.edges.get((last + 1) % count)?);
    let back = -edge.path.tangent_at_length(edge.path.length())?;
    let way = next.path.end() - next.path.start();
    Some((way.dot(back), way.cross(back).abs()))
}

/// How far from a point a line is met that way.
fn hit(line: &[Point], from: Point, way: Vec2) -> Option<f64> {
    let sides = line.iter().zip(line.iter().skip(1));
    let met = sides.filter_map(|(one, other)| {
        let along = *other - *one;
        let turned = way.cross(along);
        if turned.abs() < 1e-9 {
            return None;
        }
        let off = *one - from;
        let (far, share) = (off.cross(along) / turned, off.cross(way) / turned);
        ((0.0..=FARTHEST).contains(&far) && (-1e-9..=1.0 + 1e-9).contains(&share)).then_some(far)
    });
    met.min_by(f64::total_cmp)
}

/// Whether a narrow piece lies between others of the body, as a yoke does: it is sewn to them along edges that are apart on its
/// outline. A facing is sewn to them along one edge that runs on.
pub fn is_between(making: &Making, face: FaceId, met: &[Met], body: &[FaceId]) -> bool {
    let Some(flat) = making.flat(face) else { return false };
    let sides: Vec<_> = met
        .iter()
        .filter_map(|met| match (met.one, met.other) {
            ((one, stretch), (other, _)) if one == face && body.contains(&other) => Some(stretch),
            ((other, _), (one, stretch)) if one == face && body.contains(&other) => Some(stretch),
            _ => None,
        })
        .map(|stretch| making.surface.side_of(stretch))
        .collect();
    let is_sewn: Vec<bool> = flat
        .edges
        .iter()
        .take(flat.outline)
        .map(|edge| sides.iter().any(|side| (side.edge, side.mirrored) == (edge.edge, edge.mirrored)))
        .collect();
    let next = is_sewn.iter().cycle().skip(1);
    is_sewn.iter().zip(next).filter(|(own, next)| **own && !**next).count() > 1
}

#[cfg(test)]
mod tests {
    use super::hit;
    use crate::shape::{Point, Vec2};

    /// From (0, 0) upward a line from (-1, 3) to (1, 3) is 3 away; to the right it is never met.
    #[test]
    fn a_line_is_met_straight_across() {
        let line = [Point::new(-1.0, 3.0), Point::new(1.0, 3.0)];
        assert_eq!(hit(&line, Point::ZERO, Vec2::new(0.0, 1.0)), Some(3.0));
        assert_eq!(hit(&line, Point::ZERO, Vec2::new(1.0, 0.0)), None);
    }
}
