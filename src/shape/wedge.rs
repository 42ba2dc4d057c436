//! Wedges of cloth that are folded away: darts. How they shut, the caps of their cutting lines, and how an
//! edge is trued over them.

use crate::shape::curve::smooth_curve;
use crate::shape::fold::mirror_across;
use crate::shape::line::{StraightLine, meet};
use crate::shape::offset::{longer, meet_near, straightened};
use crate::shape::path::{Path, Position};
use crate::shape::tolerance::SAME_POINT;
use crate::shape::turn::unit;
use kurbo::{Affine, Point, Vec2};

/// A wedge of cloth between two legs that are sewn together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wedge {
    /// Where its legs end on the edge: first along the edge, then further along.
    pub sides: [Point; 2],
    /// Where both legs begin: where it is sewn to.
    pub point: Point,
}

impl Wedge {
    /// How long the legs are, mm.
    pub fn legs(&self) -> [f64; 2] {
        self.sides.map(|side| side.distance(self.point))
    }

    /// The angle between the legs, radians, positive where the second lies to the left of the first.
    pub fn angle(&self) -> f64 {
        let [one, other] = self.sides.map(|side| side - self.point);
        libm::atan2(one.cross(other), one.dot(other))
    }

    /// The direction of the fold from the point: half way between the legs; none where a leg has no length
    /// or they lie on one another.
    pub fn fold(&self) -> Option<Vec2> {
        let [one, other] = self.sides.map(|side| unit(side - self.point));
        unit(one? + other?)
    }

    /// Shuts it: turns what lies beyond the second leg about the point until that leg lies along the first.
    pub fn shutting(&self) -> Affine {
        Affine::rotate_about(-self.angle(), self.point)
    }

    /// By how much the edge turns, with it shut, where it crosses the seam: the edge's directions where it
    /// reaches the first leg and where it leaves the second. Radians.
    pub fn kink(&self, arriving: Vec2, leaving: Vec2) -> f64 {
        let (sine, cosine) = libm::sincos(-self.angle());
        let turned = Vec2::new(leaving.x * cosine - leaving.y * sine, leaving.x * sine + leaving.y * cosine);
        libm::atan2(arriving.cross(turned), arriving.dot(turned))
    }

    /// The corners of its cloth, round.
    pub fn corners(&self) -> [Point; 3] {
        [self.sides[0], self.point, self.sides[1]]
    }
}

/// A cutting line over a dart: the line before it, the cap and the line after it, end to end.
#[derive(Debug, Clone, PartialEq)]
pub struct Capped {
    /// Before the dart.
    pub before: Path,
    /// Over it.
    pub cap: Path,
    /// After it.
    pub after: Path,
}

/// How far lines go on to meet, in lengths of the longer leg.
const REACH: f64 = 4.0;

/// The cap of a wedge that is folded and pressed towards one of its sides (0 or 1); `before` and `after` are
/// the cutting lines of the edge on both sides of it.
///
/// The half of the cloth that comes to lie on that side is cut as the cutting line there, mirrored in
/// that leg; the other half is its mirror image in the fold. So the raw edges lie on one another once it is
/// pressed (handbook method, common practice: the dart is folded on the paper, and the edge cut through all
/// layers). None where the lines do not meet.
pub fn folded_cap(wedge: &Wedge, before: &Path, after: &Path, toward: usize) -> Option<Capped> {
    let own = own_halves(wedge, before, after)?;
    let fold = wedge.fold()?;
    let far = own.far;
    let fold_line = Path::straight(wedge.point, wedge.point + fold * far);
    let (first, mirrored_in) = match toward {
        0 => (own.raw[0].clone(), &fold_line),
        _ => (own.raw[1].clone(), &fold_line),
    };
    let (on_raw, _) = meet_near(&first, mirrored_in, first.start())?;
    let half = straightened(first.split_at(on_raw).0);
    let other = half.transform(mirror_across(&fold_line).ok()?).reversed();
    let cap = match toward {
        0 => half.then(&other),
        _ => other.reversed().then(&half.reversed()),
    };
    // Where the legs do not end alike, a small step along the leg is left.
    let cap = match toward {
        0 => cap.then(&Path::straight(cap.end(), own.after.start())),
        _ => Path::straight(own.before.end(), cap.start()).then(&cap),
    };
    Some(Capped { before: own.before, cap, after: own.after })
}

/// The cutting line of a wedge that is cut open: along both legs at `allowance`, to where the two allowances
/// meet; its ends mirror the edge, so that they lie along it once the dart is pressed open. None where the
/// wedge is too narrow to be cut open.
pub fn open_cut(wedge: &Wedge, before: &Path, after: &Path, allowance: f64) -> Option<Capped> {
    let own = own_halves(wedge, before, after)?;
    let fold = wedge.fold()?;
    let half = wedge.angle().abs() / 2.0;
    let sine = libm::sin(half);
    if sine <= 0.0 || allowance / sine >= wedge.legs()[0].min(wedge.legs()[1]) {
        return None;
    }
    let bottom = wedge.point + fold * (allowance / sine);
    let mut ends = Vec::with_capacity(2);
    for (side, raw) in wedge.sides.iter().zip(&own.raw) {
        let along = unit(*side - wedge.point)?;
        let cut = Path::straight(bottom, bottom + along * own.far);
        let (on_raw, _) = meet_near(raw, &cut, raw.start())?;
        let end = raw.split_at(on_raw).0;
        // Beyond the fold it is the other half's cloth.
        if (end.end() - wedge.point).cross(fold) * (*side - wedge.point).cross(fold) <= 0.0 {
            return None;
        }
        ends.push(straightened(end));
    }
    let [one, other] = ends.as_slice() else { return None };
    let cap = one
        .then(&Path::straight(one.end(), bottom))
        .then(&Path::straight(bottom, other.end()))
        .then(&other.reversed());
    Some(Capped { before: own.before, cap, after: own.after })
}

/// The cutting lines ended at the legs, and mirrored in them.
struct Halves {
    before: Path,
    after: Path,
    /// From each leg into the wedge.
    raw: [Path; 2],
    far: f64,
}

fn own_halves(wedge: &Wedge, before: &Path, after: &Path) -> Option<Halves> {
    let legs = wedge.legs();
    let far = REACH * legs[0].max(legs[1]).max(before.end().distance(wedge.point));
    if !far.is_finite() || legs[0] <= SAME_POINT || legs[1] <= SAME_POINT {
        return None;
    }
    let ray = |side: Point| -> Option<Path> {
        Some(Path::straight(wedge.point, wedge.point + unit(side - wedge.point)? * far))
    };
    let (first_leg, second_leg) = (ray(wedge.sides[0])?, ray(wedge.sides[1])?);
    let long_before = longer(before, far, far);
    let (on_before, _) = meet_near(&long_before, &first_leg, before.end())?;
    let long_after = longer(after, far, far);
    let (on_after, _) = meet_near(&long_after, &second_leg, after.start())?;
    let came = long_before.split_at(on_before).0;
    let goes = long_after.split_at(on_after).1;
    let raw = [
        came.reversed().transform(mirror_across(&first_leg).ok()?),
        goes.transform(mirror_across(&second_leg).ok()?),
    ];
    // What was put on at the far ends, to have something to mirror, goes again.
    let before = straightened(came.split_at_length(far).1);
    let after = straightened(goes.split_at_length(goes.length() - far).0);
    Some(Halves { before, after, raw, far })
}

/// An edge trued over the wedges that are taken from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trued {
    /// The edge, straight across each wedge.
    pub edge: Path,
    /// The wedges as they are now, and where they lie along the edge.
    pub wedges: Vec<(Wedge, (f64, f64))>,
    /// How far the edge moved at each of them, at most, mm.
    pub moved: Vec<f64>,
}

/// The edge drawn anew with its wedges shut: one smooth curve between its corners. `wedges` lie along the edge in
/// order, each between those lengths from its start.
///
/// Over each wedge it is a smooth curve with the edge's own directions at both ends (Hobby 1986), which begins and
/// ends equally far from the wedge: half way to the nearer corner or other wedge. The rest stays. So over a wedge
/// in a straight edge it is very nearly an arc, and leaves the corner that the edge had there by its reach times
/// the tangent of a quarter of the kink. None where a wedge has no place or the curve misses a leg.
pub fn trued(edge: &Path, wedges: &[(Wedge, (f64, f64))]) -> Option<Trued> {
    let length = edge.length();
    let mut shut = vec![Affine::IDENTITY];
    let mut stretches: Vec<Path> = Vec::with_capacity(wedges.len() + 1);
    let mut from = 0.0;
    for (wedge, (start, end)) in wedges {
        stretches.push(edge.part(from, *start));
        let before = *shut.last()?;
        shut.push(before * wedge.shutting());
        from = *end;
    }
    stretches.push(edge.part(from, length));
    let laid: Vec<Path> = stretches.iter().zip(&shut).map(|(path, by)| path.transform(*by)).collect();
    if laid.iter().any(|path| path.length() <= SAME_POINT) {
        return None;
    }
    let lengths: Vec<f64> = laid.iter().map(Path::length).collect();
    // How far on each side of a wedge the edge is drawn anew.
    let reaches: Vec<f64> =
        lengths.windows(2).map(|pair| pair.iter().copied().fold(f64::INFINITY, f64::min) / 2.0).collect();
    let kept = laid.iter().zip(&lengths).enumerate().map(|(at, (path, length))| {
        let reach = |of: Option<usize>| of.and_then(|of| reaches.get(of)).copied().unwrap_or(0.0);
        path.part(reach(at.checked_sub(1)), length - reach(Some(at)))
    });
    let kept: Vec<Path> = kept.collect();
    let mut curve = kept.first()?.clone();
    for (before, after) in kept.iter().zip(kept.iter().skip(1)) {
        let ends = [before.end(), after.start()];
        let (arriving, leaving) = (tangent(before, &laid, true)?, tangent(after, &laid, false)?);
        curve = curve.then(&smooth_curve(&ends, Some(arriving), Some(leaving)).ok()?).then(after);
    }
    let mut cuts: Vec<Position> = Vec::with_capacity(wedges.len() + 2);
    cuts.push(curve.first_position());
    for ((wedge, _), by) in wedges.iter().zip(&shut) {
        let (point, side) = (*by * wedge.point, *by * wedge.sides[0]);
        let leg = StraightLine::through(point, side)?;
        let hits = meet(&leg, std::slice::from_ref(&curve));
        let nearest = hits.iter().min_by(|a, b| a.point.distance(side).total_cmp(&b.point.distance(side)))?;
        if nearest.along <= SAME_POINT || cuts.last().is_some_and(|last| nearest.position <= *last) {
            return None;
        }
        cuts.push(nearest.position);
    }
    cuts.push(curve.last_position());
    let mut parts: Vec<Path> = Vec::with_capacity(laid.len());
    for (pair, by) in cuts.windows(2).zip(&shut) {
        let &[from, to] = pair else { continue };
        parts.push(curve.between(from, to).transform(by.inverse()));
    }
    let mut made = parts.first()?.clone();
    let mut along = made.length();
    let (mut now, mut moved) = (Vec::with_capacity(wedges.len()), Vec::with_capacity(wedges.len()));
    for ((wedge, _), part) in wedges.iter().zip(parts.iter().skip(1)) {
        let sides = [made.end(), part.start()];
        let mouth = sides[0].distance(sides[1]);
        moved.push(wedge.sides[0].distance(sides[0]).max(wedge.sides[1].distance(sides[1])));
        now.push((Wedge { sides, point: wedge.point }, (along, along + mouth)));
        made = made.then(&Path::straight(sides[0], sides[1])).then(part);
        along += mouth + part.length();
    }
    Some(Trued { edge: made, wedges: now, moved })
}

/// The direction of a part that is kept, at its end or its start; one of no length lies where two curves meet, in
/// the middle of its stretch.
fn tangent(part: &Path, laid: &[Path], at_end: bool) -> Option<Vec2> {
    let own = if at_end { part.tangent_at_end() } else { part.tangent_at_start() };
    own.or_else(|| {
        let nearest = laid.iter().map(|path| (path, path.nearest(part.start())));
        let (path, nearest) = nearest.min_by(|(_, a), (_, b)| a.distance.total_cmp(&b.distance))?;
        path.tangent_at(nearest.position)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::offset::parallel;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    /// A dart 30 wide and 120 long in the middle of a straight edge that runs from (−100, 0) to (100, 0).
    fn dart() -> (Path, Wedge) {
        let edge = Path::straight(p(-100.0, 0.0), p(100.0, 0.0));
        (edge, Wedge { sides: [p(-15.0, 0.0), p(15.0, 0.0)], point: p(0.0, -120.0) })
    }

    /// By hand: 2·atan(15/120) = 14.25°.
    #[test]
    fn a_straight_edge_kinks_by_the_angle_of_its_dart() {
        let (_, wedge) = dart();
        let kink = wedge.kink(Vec2::new(1.0, 0.0), Vec2::new(1.0, 0.0));
        assert!((kink.abs().to_degrees() - 14.25).abs() < 0.005, "{}", kink.to_degrees());
        assert!((wedge.shutting() * p(15.0, 0.0)).distance(p(-15.0, 0.0)) < 1e-9);
    }

    /// A mouth of 30, the point 90 in and 30 below its middle: √(90² + 15²) = 91.24 and √(90² + 45²) = 100.62.
    #[test]
    fn a_slanting_dart_has_unequal_legs() {
        let wedge = Wedge { sides: [p(0.0, -15.0), p(0.0, 15.0)], point: p(-90.0, -30.0) };
        let [one, other] = wedge.legs();
        assert!((one - 91.24).abs() < 0.005 && (other - 100.62).abs() < 0.005, "{one} {other}");
    }

    /// At an allowance of 10 the cutting line meets the leg 16.25 left of the fold; mirrored in the leg it rises
    /// by 14.25°, and 16.25·tan 14.25° = 4.13: the cap peaks 14.13 outside the edge.
    #[test]
    fn the_cap_of_a_dart_peaks_on_its_fold() {
        let (edge, wedge) = dart();
        let (before, after) = (edge.part(0.0, 85.0), edge.part(115.0, 200.0));
        let (before, after) = (parallel(&before, 10.0).unwrap(), parallel(&after, 10.0).unwrap());
        for toward in [0, 1] {
            let capped = folded_cap(&wedge, &before, &after, toward).unwrap();
            let whole = capped.before.then(&capped.cap).then(&capped.after);
            let top = whole.bounding_box().y1;
            assert!((top - 14.13).abs() < 0.005, "{top}");
            assert!(capped.before.end().distance(p(-16.25, 10.0)) < 1e-9);
            assert!((capped.after.length() - 83.75).abs() < 1e-9);
        }
    }

    /// Cut open, it is a notch: its bottom where both allowances meet, 10 / sin 7.125° = 80.62 from the point.
    #[test]
    fn a_dart_cut_open_keeps_its_allowances() {
        let (edge, wedge) = dart();
        let (before, after) = (edge.part(0.0, 85.0), edge.part(115.0, 200.0));
        let (before, after) = (parallel(&before, 10.0).unwrap(), parallel(&after, 10.0).unwrap());
        let capped = open_cut(&wedge, &before, &after, 10.0).unwrap();
        assert!((capped.cap.bounding_box().y0 - (80.62 - 120.0)).abs() < 0.005);
        let leg = Path::straight(wedge.point, wedge.sides[0]);
        assert!((leg.nearest(p(0.0, 80.62 - 120.0)).distance - 10.0).abs() < 0.001);
        assert_eq!(open_cut(&wedge, &before, &after, 15.0), None);
    }

    /// Shut, the edge is a V of two stretches of 85 that turns by 14.25°; between their middles an arc leaves it by
    /// 42.5·tan(14.25°/4) = 2.645 (by hand: the sagitta of the arc against the corner of its tangents).
    #[test]
    fn a_trued_edge_is_smooth_with_its_dart_shut() {
        let (edge, wedge) = dart();
        let trued = trued(&edge, &[(wedge, (85.0, 115.0))]).unwrap();
        let moved = trued.moved[0];
        assert!((moved - 2.645).abs() < 0.005, "{moved}");
        let (now, (from, to)) = trued.wedges[0];
        let [one, other] = now.legs();
        assert!((one - other).abs() < 1e-6 && one > wedge.legs()[0]);
        assert!((trued.edge.point_at_length(from).distance(now.sides[0])) < 1e-6);
        let (before, after) = (trued.edge.part(0.0, from), trued.edge.part(to, trued.edge.length()));
        let kink = now.kink(before.tangent_at_end().unwrap(), after.tangent_at_start().unwrap());
        assert!(kink.abs() < 1e-3, "{kink}");
        // The outer halves stay as they were.
        assert!(before.part(0.0, 42.0).is_straight());
    }
}
