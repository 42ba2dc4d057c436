//! Closed outlines: slices of paths end to end, the last ending where the first begins.

use super::crossing::{self, Piece};
use super::root::bernstein_roots;
use super::segment;
use super::tolerance::{AT_CORNER, NO_AREA, SAME_POINT};
use crate::shape::path::Path;
use crate::shape::turn::unit;
use kurbo::{CubicBez, ParamCurve, ParamCurveArea, PathSeg, Point, Rect, Vec2};
use std::cell::OnceCell;
use thiserror::Error;

/// Why a slice of paths is no closed outline.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RingError {
    /// There is no edge.
    #[error("an outline needs at least one edge")]
    Empty,
    /// Edge `edge` holds a number that is not finite.
    #[error("edge {edge} holds a number that is not finite")]
    NotFinite {
        /// Its index.
        edge: usize,
    },
    /// Edge `edge` does not end where the next begins.
    #[error("edge {edge} ends {gap} mm from the start of the next")]
    Open {
        /// Its index.
        edge: usize,
        /// The distance, mm.
        gap: f64,
    },
}

/// A place where an outline crosses itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Index of one edge.
    pub first: usize,
    /// Index of the other edge; equal to `first` when an edge crosses itself.
    pub second: usize,
    /// Where.
    pub point: Point,
}

/// How an outline has collapsed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Collapse {
    /// An edge has no length.
    EdgeWithoutLength {
        /// Its index.
        edge: usize,
    },
    /// The outline holds no area.
    NoArea {
        /// The area, mm².
        area: f64,
    },
}

/// Whether the paths are a closed outline: finite, each ending within [`SAME_POINT`] of where the next begins.
pub fn check_ring(ring: &[Path]) -> Result<(), RingError> {
    let Some(first) = ring.first() else { return Err(RingError::Empty) };
    let nexts = ring.iter().skip(1).chain(std::iter::once(first));
    for (edge, (path, next)) in ring.iter().zip(nexts).enumerate() {
        if !path.is_finite() {
            return Err(RingError::NotFinite { edge });
        }
        let gap = path.end().distance(next.start());
        if next.is_finite() && (gap.is_nan() || gap > SAME_POINT) {
            return Err(RingError::Open { edge, gap });
        }
    }
    Ok(())
}

/// The area inside, mm²: positive when the outline goes anticlockwise. Exact for lines and cubics (Green's theorem;
/// the integral over a cubic is a polynomial in its control points).
pub fn signed_area<'a>(ring: impl IntoIterator<Item = &'a Path>) -> f64 {
    ring.into_iter().flat_map(|path| path.segments()).map(ParamCurveArea::signed_area).sum()
}

/// Whether the outline goes anticlockwise.
pub fn is_anticlockwise<'a>(ring: impl IntoIterator<Item = &'a Path>) -> bool {
    signed_area(ring) > 0.0
}

/// The smallest upright rectangle round the paths, exact; none when there are none.
pub fn extents(paths: &[Path]) -> Option<Rect> {
    paths.iter().map(Path::bounding_box).reduce(|whole, own| whole.union(own))
}

/// The first place where the outline crosses or touches itself, by the indices of the edges; none when it does not.
///
/// Corners shared by neighbours do not count, nor anything nearer to them than [`AT_CORNER`]; edges that lie on each
/// other for a stretch do. An edge that crosses itself gives its index twice. Method: see the crossing module.
/// An outline that is not finite gives none. The search is held to a fixed number of steps; an outline would need about
/// a thousand long curves lying over one another to use them up, and then what was found by that time is given.
pub fn crossings(ring: &[Path]) -> Option<Crossing> {
    Region::of(ring).crossing()
}

/// The pieces of all paths, in order.
fn pieces(ring: &[Path]) -> Vec<Piece> {
    // Few segments turn.
    let segments: usize = ring.iter().map(|path| path.segments().len()).sum();
    let mut all = Vec::with_capacity(segments + ring.len());
    ring.iter().enumerate().for_each(|(edge, path)| crossing::add_pieces(edge, path, &mut all));
    all
}

/// Whether the outline has collapsed: an edge without length, or no area ([`NO_AREA`]).
pub fn collapse(ring: &[Path]) -> Option<Collapse> {
    if let Some(edge) = ring.iter().position(|path| path.length() <= SAME_POINT) {
        return Some(Collapse::EdgeWithoutLength { edge });
    }
    let area = signed_area(ring);
    (area.abs() <= NO_AREA).then_some(Collapse::NoArea { area })
}

/// Whether an outline crosses itself so that there is cloth on some side of the crossing: the two
/// lobes of a bow-tie hold no area together, and yet each of them is there.
pub fn has_lobes(ring: &[Path]) -> bool {
    let (Some(crossing), Some(bounds)) = (crossings(ring), extents(ring)) else { return false };
    let region = Region::of(ring);
    let away = LOBE * bounds.width().max(bounds.height());
    (0..LOBE_WAYS).any(|way| {
        let (sine, cosine) = libm::sincos(std::f64::consts::TAU * f64::from(way) / f64::from(LOBE_WAYS));
        region.winding(crossing.point + Vec2::new(cosine, sine) * away) != 0
    })
}

/// Whether the point is inside the outline; a point within [`SAME_POINT`] of it counts.
pub fn contains(ring: &[Path], point: Point) -> bool {
    Region::beside(ring, point).contains(point)
}

/// Whether the point is inside the outline and not on it.
pub fn contains_strictly(ring: &[Path], point: Point) -> bool {
    Region::beside(ring, point).contains_strictly(point)
}

/// Whether the point lies within `tolerance` mm of one of the paths.
pub fn is_on(paths: &[Path], point: Point, tolerance: f64) -> bool {
    paths.iter().any(|path| path.is_near(point, tolerance))
}

/// How many times the outline goes round the point, anticlockwise counted positive: crossings of the ray to the
/// right, each piece counted with its lower end and without its upper.
pub fn winding(ring: &[Path], point: Point) -> i32 {
    Region::beside(ring, point).winding(point)
}

/// An outline made ready, so that many points can be asked for at the cost of one look at it.
pub struct Region<'a> {
    ring: &'a [Path],
    /// Pieces that rise or fall all the way, once they are asked for; none where the outline is not finite.
    pieces: OnceCell<Vec<Piece>>,
}

impl<'a> Region<'a> {
    /// Makes an outline ready.
    pub fn of(ring: &'a [Path]) -> Self {
        Region { ring, pieces: OnceCell::new() }
    }

    /// The outline itself.
    pub fn ring(&self) -> &'a [Path] {
        self.ring
    }

    fn pieces(&self) -> &[Piece] {
        self.pieces.get_or_init(|| match self.ring.iter().all(Path::is_finite) {
            true => pieces(self.ring),
            false => Vec::new(),
        })
    }

    /// The same for one point alone: of the outline, only what lies beside it.
    fn beside(ring: &'a [Path], point: Point) -> Self {
        let mut pieces = Vec::new();
        if ring.iter().all(Path::is_finite) {
            let is_beside = |segment: &PathSeg| {
                let hull = segment::hull(segment);
                hull.y0 <= point.y + NEXT_TO && hull.y1 >= point.y - NEXT_TO
            };
            for (edge, path) in ring.iter().enumerate() {
                crossing::add_pieces_of(edge, path, |_, segment| is_beside(segment), &mut pieces);
            }
        }
        Region { ring, pieces: OnceCell::from(pieces) }
    }

    /// Whether the point is inside; a point within [`SAME_POINT`] of the outline counts.
    pub fn contains(&self, point: Point) -> bool {
        self.winding(point) != 0 || self.is_on(point)
    }

    /// The same of one of few points: of an outline of which nothing was asked yet only what lies beside it is looked at.
    pub fn contains_one(&self, point: Point) -> bool {
        match self.pieces.get() {
            Some(_) => self.contains(point),
            None => contains(self.ring, point),
        }
    }

    /// As [`contains_strictly`].
    pub fn contains_strictly(&self, point: Point) -> bool {
        self.winding(point) != 0 && !self.is_on(point)
    }

    /// Whether the point lies within [`SAME_POINT`] of the outline.
    fn is_on(&self, point: Point) -> bool {
        let around = Rect::from_points(point, point).inflate(NEXT_TO, NEXT_TO);
        let mut beside = self.pieces().iter().filter(|piece| crossing::overlap(&piece.bounds, &around));
        (self.pieces().is_empty() || beside.next().is_some()) && is_on(self.ring, point, SAME_POINT)
    }

    /// Whether the straight stretch between two points may meet the outline. Where it may not, it does not.
    pub fn may_meet(&self, from: Point, to: Point) -> bool {
        if self.pieces().is_empty() {
            return true;
        }
        let stretch = Rect::from_points(from, to).inflate(NEXT_TO, NEXT_TO);
        let Some(way) = unit(to - from) else { return true };
        self.pieces().iter().any(|piece| {
            crossing::overlap(&piece.bounds, &stretch) && {
                let CubicBez { p0, p1, p2, p3 } = piece.curve;
                // Whether they lie apart in that direction: what is convex lies between its corners.
                let apart = |axis: Vec2| {
                    let at = |point: Point| axis.dot(point - p0);
                    let (b, c, d, one, other) = (at(p1), at(p2), at(p3), at(from), at(to));
                    let (low, high) = (b.min(c).min(d).min(0.0), b.max(c).max(d).max(0.0));
                    one.min(other) > high + NEXT_TO || one.max(other) < low - NEXT_TO
                };
                let chord = unit(p3 - p0).unwrap_or(way);
                let is_apart = apart(way.turn_90())
                    || apart(chord.turn_90())
                    // They may meet where the stretch would go on, at an end of the piece.
                    || unit(way + chord).is_some_and(apart)
                    || unit(way - chord).is_some_and(apart);
                !is_apart
            }
        })
    }

    /// As [`crossings`].
    pub fn crossing(&self) -> Option<Crossing> {
        self.crossing_of(|_| true)
    }

    /// The same of crossings in which one of those edges has a part, by their indices: of an outline that did not cross
    /// itself before they were changed no other can be there.
    pub fn crossing_of(&self, is_changed: impl Fn(usize) -> bool) -> Option<Crossing> {
        let changed: Vec<bool> = (0..self.ring.len()).map(is_changed).collect();
        let is_changed = |piece: &Piece| changed.get(piece.edge).copied().unwrap_or(true);
        let near;
        let (pieces, left_out) = match changed.contains(&false) && self.pieces.get().is_none() {
            true => {
                near = self.pieces_near(&changed);
                (near.0.as_slice(), near.1.as_slice())
            }
            false => (self.pieces(), [].as_slice()),
        };
        // Of all pieces in order, which each of these is: between two that follow one another none was left out.
        let count = pieces.len() + left_out.len();
        let left_out_before = |piece: &Piece| {
            let place = (piece.edge, piece.from.segment);
            left_out.partition_point(|left_out| *left_out < place)
        };
        let numbered = pieces.iter().enumerate().map(|(at, piece)| (at + left_out_before(piece), piece));
        let mut order: Vec<(usize, &Piece)> = numbered.collect();
        order.sort_by(|a, b| a.1.bounds.x0.total_cmp(&b.1.bounds.x0));
        let mut search = crossing::Search::new(CROSSING_STEPS);
        let mut best: Option<Crossing> = None;
        for (place, (index, piece)) in order.iter().enumerate() {
            for (other_index, other) in order.iter().skip(place + 1) {
                if other.bounds.x0 > piece.bounds.x1 {
                    break;
                }
                if !is_changed(piece) && !is_changed(other) {
                    continue;
                }
                let ((low, p), (high, q)) = if index < other_index {
                    ((*index, *piece), (*other_index, *other))
                } else {
                    ((*other_index, *other), (*index, *piece))
                };
                if best.is_some_and(|known| (known.first, known.second) <= (p.edge, q.edge)) {
                    continue;
                }
                if !crossing::overlap(&p.bounds, &q.bounds) {
                    continue;
                }
                let corner = match (low + 1 == high, low == 0 && high + 1 == count) {
                    (true, _) => Some((p.curve.p3, q.curve.p0)),
                    (_, true) => Some((p.curve.p0, q.curve.p3)),
                    _ => None,
                };
                if corner.is_some_and(|corner| crossing::meet_only_at(p, q, corner, AT_CORNER)) {
                    continue;
                }
                for meet in crossing::meets(p, q, &mut search) {
                    let at = |corner: Point| corner.distance(meet.point) <= AT_CORNER;
                    let shared = (low + 1 == high && at(p.curve.p3))
                        || (low == 0 && high + 1 == count && at(p.curve.p0));
                    if !shared {
                        best = Some(Crossing { first: p.edge, second: q.edge, point: meet.point });
                        break;
                    }
                }
            }
        }
        best
    }

    /// The pieces of the edges that are changed, and of the others those that may meet them; and which segments are left
    /// out, by edge and segment. Nothing of an outline that is not finite.
    fn pieces_near(&self, changed: &[bool]) -> (Vec<Piece>, Vec<(usize, usize)>) {
        let (mut pieces, mut left_out) = (Vec::new(), Vec::new());
        if !self.ring.iter().all(Path::is_finite) {
            return (pieces, left_out);
        }
        let is_changed = |edge: usize| changed.get(edge).copied().unwrap_or(true);
        let around = |segment: &PathSeg| segment::hull(segment).inflate(2.0 * NEXT_TO, 2.0 * NEXT_TO);
        let those = self.ring.iter().enumerate().filter(|(edge, _)| is_changed(*edge));
        let hulls: Vec<Rect> = those.flat_map(|(_, path)| path.segments()).map(around).collect();
        for (edge, path) in self.ring.iter().enumerate() {
            let before = left_out.len();
            if !is_changed(edge) {
                let is_far = |segment: &PathSeg| {
                    let own = segment::hull(segment);
                    !hulls.iter().any(|hull| crossing::overlap(hull, &own))
                };
                let far = path.segments().iter().enumerate().filter(|(_, segment)| is_far(segment));
                left_out.extend(far.map(|(at, _)| (edge, at)));
            }
            let mut far = left_out.iter().skip(before).map(|(_, at)| *at).peekable();
            crossing::add_pieces_of(edge, path, |at, _| far.next_if_eq(&at).is_none(), &mut pieces);
        }
        (pieces, left_out)
    }

    /// As [`winding`].
    pub fn winding(&self, point: Point) -> i32 {
        if !point.is_finite() {
            return 0;
        }
        let pieces = self.pieces();
        let befores = pieces.iter().cycle().skip(pieces.len().saturating_sub(1));
        let mut turns = 0;
        for (piece, before) in pieces.iter().zip(befores) {
            let (start, end) = (piece.curve.p0, piece.curve.p3);
            if (start.y > point.y + NEXT_TO && end.y > point.y + NEXT_TO)
                || (start.y < point.y - NEXT_TO && end.y < point.y - NEXT_TO)
            {
                continue;
            }
            // Between two pieces there may have been one too short to be kept: the later one begins
            // where the earlier ends, or a ray that passes just there would miss both.
            let joined = before.curve.p3.distance(start) <= 4.0 * SAME_POINT;
            let start = if joined { before.curve.p3 } else { start };
            let (below, ends_below) = (start.y <= point.y, end.y <= point.y);
            if below == ends_below || point.x > piece.bounds.x1 {
                continue;
            }
            let right = point.x < piece.bounds.x0 || {
                let heights =
                    [piece.curve.p0, piece.curve.p1, piece.curve.p2, piece.curve.p3].map(|p| p.y - point.y);
                let t = bernstein_roots(heights, 0.0).first().copied().unwrap_or(0.5);
                piece.curve.eval(t).x > point.x
            };
            if right {
                turns += if below { 1 } else { -1 };
            }
        }
        turns
    }
}

/// The edge before `edge` in a ring of `count` edges.
pub(super) fn previous(edge: usize, count: usize) -> usize {
    if edge == 0 { count.saturating_sub(1) } else { edge - 1 }
}

/// The edge after `edge` in a ring of `count` edges.
pub(super) fn next(edge: usize, count: usize) -> usize {
    if edge + 1 >= count { 0 } else { edge + 1 }
}

/// Farther apart than this, in millimetres, two places are not one, however often they were rounded or joined.
const NEXT_TO: f64 = 10.0 * SAME_POINT;

/// How far from a crossing cloth is looked for, as a share of the outline's larger side, and in how
/// many directions.
const LOBE: f64 = 0.01;
const LOBE_WAYS: u32 = 24;

/// The most halvings spent on one outline when its crossings are looked for.
const CROSSING_STEPS: usize = 2_000_000;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    /// A half disc: πr²/2.
    #[test]
    fn area_of_a_half_disc() {
        let arc = arc_about(p(7.0, 3.0), p(57.0, 3.0), p(-43.0, 3.0), Turning::Anticlockwise).unwrap();
        let ring = [arc, Path::straight(p(-43.0, 3.0), p(57.0, 3.0))];
        assert!((signed_area(&ring) - std::f64::consts::PI * 1250.0).abs() < 0.01);
        assert!(is_anticlockwise(&ring));
        assert!(
            contains(&ring, p(7.0, 52.9)) && !contains(&ring, p(7.0, 53.1)) && contains(&ring, p(10.0, 3.0))
        );
        assert!(!contains_strictly(&ring, p(10.0, 3.0)));
        assert!(!contains(&ring, p(-43.0, 20.0)) && !contains(&ring, p(100.0, 3.0)));
        let whole = extents(&ring).unwrap();
        assert!((whole.y1 - 53.0).abs() < 1e-4 && whole.y0 == 3.0 && (whole.x0 + 43.0).abs() < 1e-4);
        assert_eq!(crossings(&ring), None);
    }

    /// Two lines of a bow-tie cross in its middle.
    #[test]
    fn a_bow_tie_crosses() {
        let ring = polygon(&[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]);
        let crossing = crossings(&ring).unwrap();
        assert_eq!((crossing.first, crossing.second), (0, 2));
        assert!(crossing.point.distance(p(5.0, 5.0)) < 1e-9);
        assert_eq!(collapse(&ring), Some(Collapse::NoArea { area: 0.0 }));
        assert!(has_lobes(&ring));
    }

    /// Of an outline of which some edges are known not to cross, the same crossing is found as of the whole: a spike of many
    /// segments that is moved into a wavy side, over it, and clear of it.
    #[test]
    fn of_changed_edges_every_crossing_is_found() {
        let wave = (0..12).fold(None, |so_far: Option<Path>, at| {
            let y = f64::from(at) * 10.0;
            let next = Path::cubic(p(100.0, y), p(112.0, y + 3.0), p(88.0, y + 7.0), p(100.0, y + 10.0));
            Some(so_far.map_or(next.clone(), |before| before.then(&next)))
        });
        let wave = wave.unwrap();
        let mut found = 0;
        for tip in [20.0, 60.0, 95.0, 99.0, 100.0, 104.0, 130.0] {
            for height in [0.0, 7.0, 50.0, 63.0, 120.0] {
                let ring = [
                    Path::straight(p(0.0, 0.0), p(100.0, 0.0)),
                    wave.clone(),
                    Path::straight(p(100.0, 120.0), p(0.0, 120.0)),
                    Path::straight(p(0.0, 120.0), p(tip, height)),
                    Path::straight(p(tip, height), p(0.0, 0.0)),
                ];
                let whole = crossings(&ring);
                let part = Region::of(&ring).crossing_of(|edge| edge > 2);
                assert_eq!(whole, part, "{tip} {height}");
                found += usize::from(whole.is_some());
            }
        }
        assert!((10..30).contains(&found), "{found}");
    }

    /// There and back along one line: the edges lie on one another, and nothing is between them.
    #[test]
    fn a_fold_without_cloth_has_no_lobes() {
        let flat = polygon(&[(0.0, 0.0), (40.0, 0.0), (25.0, 0.0), (10.0, 0.0)]);
        assert_eq!(collapse(&flat), Some(Collapse::NoArea { area: 0.0 }));
        assert!(!has_lobes(&flat));
    }

    /// A cubic whose handles cross over loops; by symmetry it crosses itself on the middle line.
    #[test]
    fn a_loop_in_one_edge() {
        let ring = [
            Path::cubic(p(0.0, 0.0), p(150.0, 100.0), p(-50.0, 100.0), p(100.0, 0.0)),
            Path::straight(p(100.0, 0.0), p(50.0, -80.0)),
            Path::straight(p(50.0, -80.0), p(0.0, 0.0)),
        ];
        let crossing = crossings(&ring).unwrap();
        assert_eq!((crossing.first, crossing.second), (0, 0));
        assert!((crossing.point.x - 50.0).abs() < 1e-6);
    }

    /// Neighbours that leave their corner in one direction (a smooth join, a point) do not cross there.
    #[test]
    fn corners_are_no_crossings() {
        let smooth = [
            arc_about(p(0.0, 0.0), p(50.0, 0.0), p(0.0, 50.0), Turning::Anticlockwise).unwrap(),
            arc_about(p(0.0, 0.0), p(0.0, 50.0), p(-50.0, 0.0), Turning::Anticlockwise).unwrap(),
            arc_about(p(0.0, 0.0), p(-50.0, 0.0), p(50.0, 0.0), Turning::Anticlockwise).unwrap(),
        ];
        assert_eq!(crossings(&smooth), None);
        let point = [
            Path::cubic(p(0.0, 0.0), p(30.0, 0.0), p(60.0, 5.0), p(100.0, 40.0)),
            Path::straight(p(100.0, 40.0), p(100.0, -40.0)),
            Path::cubic(p(100.0, -40.0), p(60.0, -5.0), p(30.0, 0.0), p(0.0, 0.0)),
        ];
        assert_eq!(crossings(&point), None);
    }

    /// A corner that touches another edge, an edge that runs back along its neighbour, and a curve crossed twice.
    #[test]
    fn touching_counts() {
        let touch = polygon(&[(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (20.0, 0.0), (0.0, 40.0)]);
        let found = crossings(&touch).unwrap();
        assert!(found.point.distance(p(20.0, 0.0)) < 1e-6 && found.first == 0);
        let back = polygon(&[(0.0, 0.0), (40.0, 0.0), (20.0, 0.0), (20.0, 30.0)]);
        assert!(crossings(&back).is_some());
        let curve = [
            Path::cubic(p(0.0, 0.0), p(30.0, -60.0), p(70.0, -60.0), p(100.0, 0.0)),
            Path::straight(p(100.0, 0.0), p(100.0, -30.0)),
            Path::straight(p(100.0, -30.0), p(0.0, -30.0)),
            Path::straight(p(0.0, -30.0), p(0.0, 0.0)),
        ];
        let found = crossings(&curve).unwrap();
        assert_eq!((found.first, found.second), (0, 2));
        assert!((found.point.y + 30.0).abs() < 1e-6);
    }

    #[test]
    fn mistakes_are_values() {
        assert_eq!(check_ring(&[]), Err(RingError::Empty));
        let open = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]);
        assert_eq!(check_ring(&open[..2]), Err(RingError::Open { edge: 1, gap: 200.0_f64.sqrt() }));
        let broken = [Path::straight(p(f64::NAN, 0.0), p(1.0, 0.0))];
        assert_eq!(check_ring(&broken), Err(RingError::NotFinite { edge: 0 }));
        assert_eq!(crossings(&broken), None);
        assert!(!contains(&broken, p(0.0, 0.0)));
        let flat = [
            Path::straight(p(0.0, 0.0), p(5.0, 0.0)),
            Path::straight(p(5.0, 0.0), p(5.0, 0.0)),
            Path::straight(p(5.0, 0.0), p(0.0, 0.0)),
        ];
        assert_eq!(collapse(&flat), Some(Collapse::EdgeWithoutLength { edge: 1 }));
    }
}
