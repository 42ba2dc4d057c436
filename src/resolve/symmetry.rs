//! Whether a piece is its own mirror image.

use super::drawn_piece::DrawnPiece;
use super::drawn_take_up::DrawnTakeUp;
use super::sketch::ring;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

/// How far a mirrored point may lie off the outline, in millimetres: less than a pencil line.
const OFF: f64 = 0.3;
/// How far a mirrored notch may lie off the other, in millimetres: seams match within 2 mm.
const NOTCH_OFF: f64 = 2.0;
/// Places looked at on each edge.
const PLACES: usize = 8;
/// The most axes tried beyond the two principal ones.
const AXES: usize = 128;

/// Whether some axis mirrors the outline onto itself. An axis of symmetry goes through the centroid;
/// along a principal axis, unless the outline is as round as a square or a circle: then through a
/// corner or the middle of an edge too.
pub fn is_symmetrical(drawn: &DrawnPiece) -> bool {
    is_symmetrical_with(drawn, &[])
}

/// The same of an outline with notches: single ones (false) and double ones (true), each of which
/// must lie on one of its own kind.
pub fn is_symmetrical_with(drawn: &DrawnPiece, notches: &[(Point, bool)]) -> bool {
    let ring = ring(drawn);
    let outline: Vec<Point> = drawn.outline().iter().flat_map(|edge| edge.path.flatten(0.1)).collect();
    let Some((centre, principal)) = middle(&outline) else { return false };
    let ends = ring.iter().flat_map(|edge| [edge.start(), edge.point_at_length(0.5 * edge.length())]);
    // The first most often tells.
    let mut axes = [principal, Vec2::new(-principal.y, principal.x)]
        .into_iter()
        .chain(ends.map(|point| point - centre).take(AXES));
    let places: Vec<Point> = ring.iter().flat_map(places).collect();
    // A fold that is laid one way lies on one that is laid the other.
    let folded: Vec<(Point, bool)> = drawn.take_ups.iter().flat_map(places_folded).collect();
    axes.any(|axis| {
        is_axis(&ring, &places, centre, axis)
            && folded.iter().all(|&(at, kind)| {
                let there = mirrored(at, centre, axis);
                folded.iter().any(|&(other, own)| own == kind && other.distance(there) <= NOTCH_OFF)
            })
            && notches.iter().all(|&(at, double)| {
                let there = mirrored(at, centre, axis);
                notches.iter().any(|&(other, kind)| kind == double && other.distance(there) <= NOTCH_OFF)
            })
    })
}

/// The corners of a take-up; of a pleat its two lines, that of its fold told apart.
fn places_folded(take_up: &DrawnTakeUp) -> Vec<(Point, bool)> {
    match (take_up.pleat, take_up.pressed) {
        (Some(_), Some(laid_on)) => {
            let sides = take_up.wedge.sides.iter().enumerate();
            sides.map(|(side, &at)| (at, side != laid_on)).collect()
        }
        _ => take_up.corners().into_iter().map(|at| (at, false)).collect(),
    }
}

/// Whether the mirror that changes two corners over maps the whole piece onto itself, within `off`
/// millimetres: its outline, the notches that it declares, and what lies on it.
pub fn is_mirrored_between(drawn: &DrawnPiece, [one, other]: [Point; 2], lying: &[&Path], off: f64) -> bool {
    let across = other - one;
    if across.hypot() <= off {
        return false;
    }
    let (centre, axis) = (one.midpoint(other), Vec2::new(-across.y, across.x));
    let there = |place: Point| mirrored(place, centre, axis);
    let near = |path: &Path, place: Point| path.is_near(place, off);
    let mut outline = drawn.edges.iter().flat_map(|edge| places(&edge.path)).map(there);
    let mut on_it = lying.iter().flat_map(|path| places(path)).map(there);
    outline.all(|place| drawn.edges.iter().any(|edge| near(&edge.path, place)))
        && on_it.all(|place| lying.iter().any(|path| near(path, place)))
        && drawn.notches.iter().all(|notch| {
            let place = there(notch.at);
            let mut others = drawn.notches.iter();
            others.any(|other| other.double == notch.double && other.at.distance(place) <= off.max(NOTCH_OFF))
        })
}

/// A place mirrored across an axis through the centre.
fn mirrored(place: Point, centre: Point, axis: Vec2) -> Point {
    let axis = axis / axis.hypot();
    let off = place - centre;
    centre + axis * (2.0 * off.dot(axis)) - off
}

fn places(edge: &Path) -> Vec<Point> {
    let length = edge.length();
    (0..PLACES).map(|step| edge.point_at_length(length * step as f64 / PLACES as f64)).collect()
}

fn is_axis(ring: &[Path], places: &[Point], centre: Point, axis: Vec2) -> bool {
    if axis.hypot() <= 1e-6 {
        return false;
    }
    places.iter().all(|&place| {
        let there = mirrored(place, centre, axis);
        ring.iter().any(|edge| edge.is_near(there, OFF))
    })
}

/// The centroid of a polygon and the direction of one of its principal axes, from its moments of
/// area (the shoelace sums of first and second order).
fn middle(polygon: &[Point]) -> Option<(Point, Vec2)> {
    let origin = *polygon.first()?;
    let (mut area, mut x, mut y, mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    for (at, &from) in polygon.iter().enumerate() {
        let to = polygon.get(at + 1).copied().unwrap_or(origin);
        let (a, b) = (from - origin, to - origin);
        let cross = a.cross(b);
        area += cross / 2.0;
        x += (a.x + b.x) * cross / 6.0;
        y += (a.y + b.y) * cross / 6.0;
        xx += (a.x * a.x + a.x * b.x + b.x * b.x) * cross / 12.0;
        yy += (a.y * a.y + a.y * b.y + b.y * b.y) * cross / 12.0;
        xy += (a.x * b.y + 2.0 * a.x * a.y + 2.0 * b.x * b.y + b.x * a.y) * cross / 24.0;
    }
    if area.abs() <= 1e-3 {
        return None;
    }
    let centre = Vec2::new(x / area, y / area);
    let (xx, yy, xy) = (xx - centre.x * x, yy - centre.y * y, xy - centre.x * y);
    let (sine, cosine) = libm::sincos(0.5 * libm::atan2(2.0 * xy, xx - yy));
    Some((origin + centre, Vec2::new(cosine, sine)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::garment::{EdgeId, PieceId};
    use crate::resolve::drawn_piece::{CornerName, DrawnEdge};
    use crate::resolve::sketch::bare;

    fn polygon(points: &[(f64, f64)]) -> DrawnPiece {
        let edges = points.iter().enumerate().map(|(at, &from)| {
            let path = Path::straight(from.into(), points[(at + 1) % points.len()].into());
            let corner = CornerName::Between(EdgeId::from_index(0), EdgeId::from_index(0));
            DrawnEdge { edge: EdgeId::from_index(0), path, corner, touched: Vec::new() }
        });
        bare(PieceId::from_index(0), edges.collect())
    }

    /// By eye: a rectangle, an isosceles trapezium lying aslant and a square are symmetrical, a
    /// parallelogram and a right-angled trapezium are not.
    #[test]
    fn tells_what_a_mirror_would_show() {
        assert!(is_symmetrical(&polygon(&[(0.0, 0.0), (300.0, 0.0), (300.0, 120.0), (0.0, 120.0)])));
        assert!(is_symmetrical(&polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])));
        assert!(is_symmetrical(&polygon(&[(0.0, 0.0), (200.0, 200.0), (100.0, 200.0), (0.0, 100.0)])));
        assert!(!is_symmetrical(&polygon(&[(0.0, 0.0), (300.0, 0.0), (350.0, 120.0), (50.0, 120.0)])));
        assert!(!is_symmetrical(&polygon(&[(0.0, 0.0), (300.0, 0.0), (200.0, 120.0), (0.0, 120.0)])));
    }

    /// By eye: an isosceles trapezium is the same with the ends of its base changed over, and not with
    /// those of a leg; what lies beside its middle is on the other side then.
    #[test]
    fn tells_what_lies_the_same_with_two_corners_changed_over() {
        let skirt = polygon(&[(0.0, 0.0), (300.0, 0.0), (250.0, 120.0), (50.0, 120.0)]);
        let at = |x: f64, y: f64| Point::new(x, y);
        assert!(is_mirrored_between(&skirt, [at(0.0, 0.0), at(300.0, 0.0)], &[], 1.0));
        assert!(!is_mirrored_between(&skirt, [at(300.0, 0.0), at(250.0, 120.0)], &[], 1.0));
        let pocket = |x: f64| Path::straight(at(x, 20.0), at(x + 100.0, 20.0));
        assert!(is_mirrored_between(&skirt, [at(0.0, 0.0), at(300.0, 0.0)], &[&pocket(100.0)], 1.0));
        assert!(!is_mirrored_between(&skirt, [at(0.0, 0.0), at(300.0, 0.0)], &[&pocket(80.0)], 1.0));
    }
}
