//! Wedges of cloth that are folded away: darts. How they shut, and the caps of their cutting lines.

use crate::shape::fold::mirror_across;
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
pub(super) const REACH: f64 = 4.0;

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
    let first = own.raw(usize::from(toward != 0))?;
    let (on_raw, _) = meet_near(&first, &fold_line, first.start())?;
    let half = straightened(first.up_to(on_raw));
    let mirrored = mirror_across(&fold_line).ok()?;
    // Where the legs do not end alike, a small step along the leg is left.
    let cap = match toward {
        0 => {
            let other = half.reversed_under(mirrored);
            let step = Path::straight(other.end(), own.after.start());
            Path::in_a_row(&[half, other, step])?
        }
        _ => {
            let other = half.transform(mirrored);
            let step = Path::straight(own.before.end(), other.start());
            Path::in_a_row(&[step, other, half.reversed()])?
        }
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
    for (at, side) in wedge.sides.iter().enumerate() {
        let raw = own.raw(at)?;
        let along = unit(*side - wedge.point)?;
        let cut = Path::straight(bottom, bottom + along * own.far);
        let (on_raw, _) = meet_near(&raw, &cut, raw.start())?;
        let end = raw.up_to(on_raw);
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

/// The cutting lines ended at the legs.
struct Halves {
    before: Path,
    after: Path,
    /// The same, drawn on straight at their far ends.
    came: Path,
    goes: Path,
    /// From the point along each leg.
    legs: [Path; 2],
    far: f64,
}

impl Halves {
    /// The cutting line beside a leg, mirrored in it: from the leg into the wedge.
    fn raw(&self, leg: usize) -> Option<Path> {
        let [first, second] = &self.legs;
        Some(match leg {
            0 => self.came.reversed_under(mirror_across(first).ok()?),
            _ => self.goes.transform(mirror_across(second).ok()?),
        })
    }
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
    let came = long_before.up_to(on_before);
    let goes = long_after.onward(on_after);
    // What was put on at the far ends, to have something to mirror, goes again.
    let put_on = |long: &Path, of: &Path| usize::from(long.segments().len() == of.segments().len() + 2);
    let begins = Position { segment: put_on(&long_before, before), t: 0.0 };
    let before = straightened(came.between(begins, came.last_position()));
    let ends = Position { segment: goes.segments().len() - put_on(&long_after, after), t: 0.0 };
    let after = straightened(goes.between(goes.first_position(), ends));
    Some(Halves { before, after, came, goes, legs: [first_leg, second_leg], far })
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
}
