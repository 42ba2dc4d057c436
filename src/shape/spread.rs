//! Cutting along a straight line and moving what lies beyond: lengthen, shorten, spread.

use crate::shape::bridge::Chain;
use crate::shape::line::{StraightLine, places};
use crate::shape::outline::{RingError, check_ring};
use crate::shape::path::Path;
use crate::shape::segment;
use crate::shape::tolerance::{FLATTEN, SAME_POINT};
use kurbo::{ParamCurve, Point, Vec2};
use thiserror::Error;

/// Why a piece could not be spread.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SpreadError {
    /// More is to be taken out than there is beyond the line before the next corner.
    #[error("{asked} mm is to be taken out, and there is {available} mm, by edge {edge}")]
    TooShort {
        /// How much, square to the line, can be taken out at most, mm.
        available: f64,
        /// How much was asked for, square to the line, mm.
        asked: f64,
        /// The edge that ends first.
        edge: usize,
    },
    /// The vector that says which side is beyond lies along the line.
    #[error("it is not clear which side is beyond the line")]
    NoSide,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// What becomes of a point when a piece is spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PointFate {
    /// It is not beyond the line and stays.
    Stays,
    /// It is beyond and moves to here.
    Moves(Point),
    /// It was in the strip that was taken out; this is the place on the line where that closed.
    Removed(Point),
}

/// A line, the side beyond it, and how far that side moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    line: StraightLine,
    normal: Vec2,
    shift: Vec2,
}

impl Spread {
    /// A spread at `line`. `beyond` points to the side that moves (any vector not along the line), `shift` is how it
    /// moves: a shift toward the beyond side opens, the opposite one takes material out.
    ///
    /// # Errors
    /// When `beyond` lies along the line, or something is not finite.
    pub fn new(line: StraightLine, beyond: Vec2, shift: Vec2) -> Result<Spread, SpreadError> {
        if !shift.is_finite() || !line.point.is_finite() || !line.direction.is_finite() || !beyond.is_finite()
        {
            return Err(SpreadError::NotFinite);
        }
        let side = line.direction.cross(beyond);
        if side == 0.0 {
            return Err(SpreadError::NoSide);
        }
        Ok(Spread { line, normal: line.direction.turn_90() * side.signum(), shift })
    }

    /// How far beyond the line a point lies, mm; negative before it.
    pub fn depth(&self, point: Point) -> f64 {
        self.normal.dot(point - self.line.point)
    }

    /// How much is taken out, square to the line, mm; zero when the spread opens.
    pub fn taken_out(&self) -> f64 {
        (-self.normal.dot(self.shift)).max(0.0)
    }

    /// Whether the point is beyond the line; a point on the line is not.
    pub fn is_beyond(&self, point: Point) -> bool {
        self.depth(point) > SAME_POINT
    }

    /// What becomes of a point.
    pub fn fate(&self, point: Point) -> PointFate {
        let (depth, taken) = (self.depth(point), self.taken_out());
        if depth.is_nan() || depth <= SAME_POINT {
            PointFate::Stays
        } else if depth < taken - SAME_POINT {
            PointFate::Removed(point + self.shift * (depth / taken))
        } else {
            PointFate::Moves(point + self.shift)
        }
    }

    /// Where a point ends up.
    pub fn moved(&self, point: Point) -> Point {
        match self.fate(point) {
            PointFate::Stays => point,
            PointFate::Moves(to) | PointFate::Removed(to) => to,
        }
    }

    /// The ring with what lies beyond moved: the same edges in the same order.
    ///
    /// An edge wholly beyond moves, one wholly before stays. One that the line crosses is trued: a straight edge is
    /// redrawn straight end to end; a curved one is cut at the line and keeps its shape on both sides. Where it opens,
    /// the two are bridged with a smooth curve (Hobby) that leaves and arrives in the edge's own direction. Where
    /// material is taken out, the edge is cut at the line and at the line as far beyond as is taken out, what lies
    /// between is dropped, and where the ends then do not run on, a little of both is bridged smoothly. So what is
    /// opened and taken out again at the same line is as it was. A corner on the line stays; the edge that goes on
    /// beyond it is trued.
    ///
    /// # Errors
    /// When a corner, or a bow of a curve that only dips past the line, lies in what is taken out; when an edge
    /// would have no length left.
    pub fn ring(&self, ring: &[Path]) -> Result<Vec<Path>, SpreadError> {
        check_ring(ring)?;
        let taken = self.taken_out();
        let shallow = ring
            .iter()
            .map(|path| self.depth(path.start()))
            .enumerate()
            .filter(|(_, depth)| *depth > SAME_POINT && *depth < taken - SAME_POINT)
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((edge, available)) = shallow {
            return Err(SpreadError::TooShort { available, asked: taken, edge });
        }
        let too_short = |available, edge| SpreadError::TooShort { available, asked: taken, edge };
        ring.iter()
            .enumerate()
            .map(|(edge, path)| {
                let new = self.path(path).map_err(|available| too_short(available, edge))?;
                let vanished = taken > 0.0 && new.length() <= SAME_POINT && path.length() > SAME_POINT;
                if vanished { Err(too_short(taken, edge)) } else { Ok(new) }
            })
            .collect()
    }

    /// A line inside the piece, trued as an edge of the outline is.
    ///
    /// # Errors
    /// As [`ring`](Self::ring), with edge 0.
    pub fn inner_line(&self, path: &Path) -> Result<Path, SpreadError> {
        if !path.is_finite() {
            return Err(SpreadError::NotFinite);
        }
        self.path(path).map_err(|available| SpreadError::TooShort {
            available,
            asked: self.taken_out(),
            edge: 0,
        })
    }

    /// One edge; the error is how much could be taken out.
    fn path(&self, path: &Path) -> Result<Path, f64> {
        let (start, end) = (self.moved(path.start()), self.moved(path.end()));
        if path.is_straight() {
            let still = start == path.start() && end == path.end();
            return Ok(if still { path.clone() } else { Path::straight(start, end) });
        }
        // What lies clearly before the line, or beyond it, is not cut.
        let depths = path.segments().iter().flat_map(segment::controls).map(|control| self.depth(control));
        let clear = (self.taken_out() + CLEAR, -CLEAR);
        let (least, most) = depths.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), depth| {
            (least.min(depth), most.max(depth))
        });
        if most < clear.1 {
            return Ok(path.clone());
        }
        if least > clear.0 {
            return Ok(path.translated(self.shift));
        }
        let sections = self.sections(path);
        if let [(only, _)] = sections.as_slice() {
            // A corner on the line stays although its edge lies beyond; then there is a gap to bridge below.
            match only {
                Side::Before => return Ok(path.clone()),
                Side::Beyond if start != path.start() && end != path.end() => {
                    return Ok(path.translated(self.shift));
                }
                _ => {}
            }
        }
        self.check_strips(path, &sections)?;
        let mut chain = Chain { segments: Vec::new(), here: start, way: path.tangent_at_start(), fresh: 0.0 };
        for (side, section) in &sections {
            match side {
                Side::Before => chain.go_on(section, self.taken_out()),
                Side::Beyond => chain.go_on(&section.translated(self.shift), self.taken_out()),
                Side::Strip => {}
            }
        }
        chain.close(end, path.tangent_at_end(), self.taken_out());
        Ok(Path::chain(chain.segments, start))
    }

    /// The path parted where it crosses the line (and the far side of the strip taken out), with the side of each part.
    fn sections(&self, path: &Path) -> Vec<(Side, Path)> {
        let mut stops = places(&self.line, path);
        let taken = self.taken_out();
        if taken > 0.0 {
            stops.extend(places(
                &StraightLine { point: self.line.point + self.normal * taken, ..self.line },
                path,
            ));
        }
        stops.push(path.last_position());
        stops.sort_by(|a, b| a.segment.cmp(&b.segment).then(a.t.total_cmp(&b.t)));
        let mut sections: Vec<(Side, Path)> = Vec::new();
        let mut from = path.first_position();
        for stop in stops {
            let part = path.between(from, stop);
            from = stop;
            if !part.is_longer_than(SAME_POINT) {
                continue;
            }
            let side = self.side(&part);
            match sections.last_mut() {
                Some((last, before)) if *last == side => *before = before.then(&part),
                _ => sections.push((side, part)),
            }
        }
        sections
    }

    /// The side of a part that does not cross: that of the first of its middles that is clear of the lines.
    fn side(&self, part: &Path) -> Side {
        let taken = self.taken_out();
        let depths =
            part.segments().iter().flat_map(|piece| [0.5, 0.25, 0.75].map(|t| self.depth(piece.eval(t))));
        let mut side = Side::Before;
        for depth in depths {
            if depth < -SAME_POINT {
                return Side::Before;
            } else if depth > taken + SAME_POINT {
                return Side::Beyond;
            } else if depth > SAME_POINT && depth < taken - SAME_POINT {
                return Side::Strip;
            } else if depth > SAME_POINT {
                side = Side::Beyond;
            }
        }
        side
    }

    /// Whether every part in the strip goes through it from one side to the other; else how much could be taken out.
    fn check_strips(&self, path: &Path, sections: &[(Side, Path)]) -> Result<(), f64> {
        let at_end = |point: Point| {
            if self.depth(point) <= 0.5 * self.taken_out() { Side::Before } else { Side::Beyond }
        };
        for (index, (side, part)) in sections.iter().enumerate() {
            if *side != Side::Strip {
                continue;
            }
            let near =
                |neighbour: Option<&(Side, Path)>, corner: Point| neighbour.map_or(at_end(corner), |n| n.0);
            let before = near(index.checked_sub(1).and_then(|i| sections.get(i)), path.start());
            let after = near(sections.get(index + 1), path.end());
            if before == after {
                let depths = part.flatten(FLATTEN).into_iter().map(|point| self.depth(point));
                return Err(match before {
                    Side::Beyond => depths.fold(f64::INFINITY, f64::min),
                    _ => depths.fold(0.0, f64::max),
                });
            }
        }
        Ok(())
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Before,
    Strip,
    Beyond,
}

/// So far off the line, in millimetres, nothing of a path that lies there meets it.
const CLEAR: f64 = 10.0 * SAME_POINT;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};
    use crate::shape::outline::signed_area;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    fn level(y: f64) -> StraightLine {
        StraightLine::at(Point::new(3.0, y), Vec2::new(1.0, 0.0)).unwrap()
    }

    const DOWN: Vec2 = Vec2::new(0.0, -1.0);
    const UP: Vec2 = Vec2::new(0.0, 1.0);

    /// A quarter circle of radius 100, with straight sides down and to the left.
    fn quarter_ring() -> Vec<Path> {
        let p = |x: f64, y: f64| Point::new(x, y);
        vec![
            Path::straight(p(0.0, 0.0), p(100.0, 0.0)),
            arc_about(Point::ZERO, p(100.0, 0.0), p(0.0, 100.0), Turning::Anticlockwise).unwrap(),
            Path::straight(p(0.0, 100.0), p(0.0, 0.0)),
        ]
    }

    /// By hand: a side leaning 30 over a height of 60 leans 30 over 76 after 16 are let in, and is one straight line;
    /// the hem below keeps its length and lies 16 lower.
    #[test]
    fn a_leaning_side_is_redrawn_straight() {
        let ring = polygon(&[(0.0, 0.0), (0.0, -60.0), (100.0, -60.0), (70.0, 0.0)]);
        let spread = Spread::new(level(-20.0), DOWN, DOWN * 16.0).unwrap();
        let long = spread.ring(&ring).unwrap();
        assert_eq!(check_ring(&long), Ok(()));
        assert!((long[2].length() - (30.0_f64 * 30.0 + 76.0 * 76.0).sqrt()).abs() < 1e-12);
        assert!(long[2].is_straight() && long[2].segments().len() == 1);
        assert_eq!(long[1], ring[1].translated(Vec2::new(0.0, -16.0)));
        assert_eq!(long[3], ring[3]);
        assert_eq!(spread.fate(Point::new(5.0, -20.0)), PointFate::Stays);
        assert_eq!(spread.fate(Point::new(5.0, -20.1)), PointFate::Moves(Point::new(5.0, -36.1)));
        let back = Spread::new(level(-20.0), DOWN, UP * 16.0).unwrap().ring(&long).unwrap();
        for (a, b) in back.iter().zip(&ring) {
            assert!(a.start().distance(b.start()) < 1e-9 && a.end().distance(b.end()) < 1e-9);
        }
    }

    /// Along the grain at a line that leans: only the shift counts for the points, its part square to the line for
    /// what is taken out. Line at 45°, shift 10 along the grain: 10/√2 square to it.
    #[test]
    fn a_leaning_line() {
        let line = StraightLine::at(Point::ZERO, Vec2::new(1.0, 1.0)).unwrap();
        let spread = Spread::new(line, UP, DOWN * 10.0).unwrap();
        assert!((spread.taken_out() - 10.0 / 2.0_f64.sqrt()).abs() < 1e-12);
        // (0, 20) is 20/√2 beyond and moves; (0, 5) lies in the strip, whose sides meet at (0, 0).
        assert_eq!(spread.fate(Point::new(0.0, 20.0)), PointFate::Moves(Point::new(0.0, 10.0)));
        match spread.fate(Point::new(0.0, 5.0)) {
            PointFate::Removed(place) => assert!(place.distance(Point::ZERO) < 1e-12),
            other => panic!("{other:?}"),
        }
    }

    /// By hand: the line y = 50 meets the circle at 30°; 10 let in upward, the part below still lies on the circle
    /// about (0, 0), the part above on that about (0, 10); between lie 10 and a little; no corner anywhere.
    #[test]
    fn a_curve_keeps_its_shape_on_both_sides() {
        let ring = quarter_ring();
        let spread = Spread::new(level(50.0), UP, UP * 10.0).unwrap();
        let long = spread.ring(&ring).unwrap();
        assert_eq!(check_ring(&long), Ok(()));
        let curve = &long[1];
        assert_eq!(curve.end(), Point::new(0.0, 110.0));
        assert!(curve.is_smooth(1e-6));
        for point in curve.flatten(1e-3) {
            if point.y <= 50.0 - 1e-6 {
                assert!((point.to_vec2().hypot() - 100.0).abs() < 1e-3);
            } else if point.y >= 60.0 + 1e-6 {
                assert!((point.distance(Point::new(0.0, 10.0)) - 100.0).abs() < 1e-3);
            }
        }
        let grown = curve.length() - ring[1].length();
        assert!(grown > 10.0 && grown < 10.5, "{grown}");
        // A shift along the curve's own direction at the line lets in exactly as much.
        let along = Vec2::new(-0.5, 0.75_f64.sqrt()) * 10.0;
        let straight = Spread::new(level(50.0), UP, along).unwrap().ring(&ring).unwrap();
        assert!((straight[1].length() - ring[1].length() - 10.0).abs() < 1e-3);
    }

    /// What was let in and is taken out again leaves the outline as it was, by length and by place.
    #[test]
    fn in_and_out_again() {
        let ring = quarter_ring();
        for (y, amount) in [(50.0, 10.0), (99.0, 3.0), (1.0, 40.0), (70.7, 0.01)] {
            let long = Spread::new(level(y), UP, UP * amount).unwrap().ring(&ring).unwrap();
            let back = Spread::new(level(y), UP, DOWN * amount).unwrap().ring(&long).unwrap();
            for (a, b) in back.iter().zip(&ring) {
                assert!((a.length() - b.length()).abs() < 1e-6, "{y} {amount}");
                for share in [0.0, 0.1, 0.3, 0.5, 0.8, 1.0] {
                    let at = share * b.length();
                    assert!(
                        a.point_at_length(at).distance(b.point_at_length(at)) < 1e-5,
                        "{y} {amount} {share}"
                    );
                }
            }
        }
    }

    /// 20 taken out above y = 30: the top comes down by 20, and where the ends do not run on there is no corner.
    #[test]
    fn taken_out_of_a_curve() {
        let ring = quarter_ring();
        let short = Spread::new(level(30.0), UP, DOWN * 20.0).unwrap().ring(&ring).unwrap();
        assert_eq!(check_ring(&short), Ok(()));
        assert_eq!(short[1].end(), Point::new(0.0, 80.0));
        assert!(short[1].is_smooth(1e-6));
        // Area by hand: the whole quarter less the strip from y = 30 to 50: ∫√(100² − y²)dy; the bridge changes little.
        let primitive = |y: f64| 0.5 * (y * (1e4 - y * y).sqrt() + 1e4 * libm::asin(y / 100.0));
        let wanted = std::f64::consts::PI * 2500.0 - (primitive(50.0) - primitive(30.0));
        assert!((signed_area(&short) - wanted).abs() < 0.02 * wanted, "{} {wanted}", signed_area(&short));
    }

    /// A bulge about y = 40: taken out from 30 to 50 its ends meet, but in a corner of 2·asin(10/100), which is rounded.
    #[test]
    fn ends_that_meet_in_a_corner_are_rounded() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let (foot, head) = (p(60.0, -40.0), p(60.0, 120.0));
        let ring = vec![
            arc_about(p(0.0, 40.0), foot, head, Turning::Anticlockwise).unwrap(),
            Path::straight(head, p(0.0, 120.0)),
            Path::straight(p(0.0, 120.0), p(0.0, -40.0)),
            Path::straight(p(0.0, -40.0), foot),
        ];
        let short = Spread::new(level(30.0), UP, DOWN * 20.0).unwrap().ring(&ring).unwrap();
        assert_eq!(check_ring(&short), Ok(()));
        assert!(short[0].is_smooth(1e-6));
        // Far from the line the shape is kept: by hand, at y = 0 the circle stands at √(100² − 40²).
        assert!(short[0].nearest(p(8400.0_f64.sqrt(), 0.0)).distance < 1e-3);
        assert!(short[0].nearest(p(8400.0_f64.sqrt(), 60.0)).distance < 1e-3);
    }

    /// The corner 12 beyond the line can come down to the line and no farther.
    #[test]
    fn no_more_than_there_is() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 32.0), (60.0, 80.0), (0.0, 80.0)]);
        let take = |amount: f64| Spread::new(level(20.0), UP, DOWN * amount).unwrap().ring(&ring);
        assert_eq!(take(30.0), Err(SpreadError::TooShort { available: 12.0, asked: 30.0, edge: 2 }));
        assert!(take(11.0).is_ok());
        // A bow that dips 10 beyond the line and comes back.
        let p = |x: f64, y: f64| Point::new(x, y);
        let mut bowed = polygon(&[(0.0, 0.0), (0.0, -50.0), (100.0, -50.0), (100.0, 0.0)]);
        bowed[3] = Path::cubic(p(100.0, 0.0), p(70.0, 40.0), p(30.0, 40.0), p(0.0, 0.0));
        match Spread::new(level(20.0), UP, DOWN * 15.0).unwrap().ring(&bowed) {
            Err(SpreadError::TooShort { available, edge: 3, .. }) => assert!((available - 10.0).abs() < 0.03),
            other => panic!("{other:?}"),
        }
        // Letting in is no trouble there: the bow moves, joined without a corner on both sides.
        let long = Spread::new(level(20.0), UP, UP * 15.0).unwrap().ring(&bowed).unwrap();
        assert!(long[3].is_smooth(1e-6) && (long[3].bounding_box().y1 - 45.0).abs() < 1e-9);
    }

    /// The line along the bottom edge: the edge stays, its neighbours grow.
    #[test]
    fn an_edge_along_the_line() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let long = Spread::new(level(0.0), UP, UP * 5.0).unwrap().ring(&ring).unwrap();
        assert_eq!(long[0], ring[0]);
        assert!((signed_area(&long) - 6500.0).abs() < 1e-9);
        let nothing = Spread::new(level(0.0), DOWN, DOWN * 5.0).unwrap().ring(&ring).unwrap();
        assert_eq!(nothing, ring);
        // A curve that begins on the line is drawn to its corner, which stays.
        let mut curved = quarter_ring();
        curved = Spread::new(level(0.0), UP, UP * 5.0).unwrap().ring(&curved).unwrap();
        assert_eq!(check_ring(&curved), Ok(()));
        assert_eq!(curved[1].start(), Point::new(100.0, 0.0));
    }

    #[test]
    fn mistakes_are_values() {
        let line = level(0.0);
        assert_eq!(Spread::new(line, Vec2::new(2.0, 0.0), UP), Err(SpreadError::NoSide));
        assert_eq!(Spread::new(line, UP, Vec2::new(f64::NAN, 0.0)), Err(SpreadError::NotFinite));
        let spread = Spread::new(line, UP, UP).unwrap();
        let open = [Path::straight(Point::ZERO, Point::new(1.0, 0.0))];
        assert!(matches!(spread.ring(&open), Err(SpreadError::Ring(RingError::Open { .. }))));
    }
}
