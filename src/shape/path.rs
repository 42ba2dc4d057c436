//! A path: an open chain of straight segments and cubic Béziers.

use super::segment;
use super::tolerance::{SAME_POINT, STRAIGHT};
use super::turn::angle_between;
use crate::few::Few;
use kurbo::{Affine, BezPath, CubicBez, Line, ParamCurve, PathSeg, Point, Rect, Vec2};
use std::sync::{Arc, OnceLock};
use thiserror::Error;

/// Why a chain of segments is no path.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PathError {
    /// There is no segment.
    #[error("a path needs at least one segment")]
    Empty,
    /// A coordinate is not a finite number.
    #[error("a coordinate is not a finite number")]
    NotFinite,
    /// Segment `segment` begins `gap` mm away from the end of the one before.
    #[error("segment {segment} begins {gap} mm from the end of the one before")]
    Broken {
        /// The segment's index.
        segment: usize,
        /// The distance in millimetres.
        gap: f64,
    },
}

/// A place on a path: a segment and the parameter (0 to 1) in it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Position {
    /// Index of the segment.
    pub segment: usize,
    /// Parameter in the segment, 0 at its start and 1 at its end.
    pub t: f64,
}

/// An open chain of straight segments and cubic Béziers, with at least one segment.
#[derive(Clone)]
pub struct Path {
    segments: Few<PathSeg>,
    /// How long each of several segments is, once that has been asked for. Of a single one it is worked out each
    /// time, so that most paths stay small.
    lengths: OnceLock<Arc<[f64]>>,
}

impl std::fmt::Debug for Path {
    fn fmt(&self, to: &mut std::fmt::Formatter) -> std::fmt::Result {
        to.debug_struct("Path").field("segments", &self.segments).finish()
    }
}

impl PartialEq for Path {
    fn eq(&self, other: &Self) -> bool {
        self.segments == other.segments
    }
}

/// A segment with its end moved.
fn ended(piece: PathSeg, end: Point) -> PathSeg {
    match piece {
        PathSeg::Line(line) => PathSeg::Line(Line::new(line.p0, end)),
        other => {
            let cubic = other.to_cubic();
            PathSeg::Cubic(CubicBez::new(cubic.p0, cubic.p1, cubic.p2, end))
        }
    }
}

impl Path {
    fn of(segments: Few<PathSeg>) -> Path {
        Path { segments, lengths: OnceLock::new() }
    }

    /// The straight path between two points.
    pub fn straight(from: Point, to: Point) -> Path {
        Path::of(Few::one(PathSeg::Line(Line::new(from, to))))
    }

    /// The path of one cubic Bézier.
    pub fn cubic(start: Point, first_handle: Point, second_handle: Point, end: Point) -> Path {
        Path::of(Few::one(PathSeg::Cubic(CubicBez::new(start, first_handle, second_handle, end))))
    }

    /// The path of these segments, each beginning where the one before ends (quadratic ones become cubic).
    ///
    /// # Errors
    /// When there is none, when one is not finite, or when two do not meet within [`SAME_POINT`].
    pub fn from_segments(segments: impl IntoIterator<Item = PathSeg>) -> Result<Path, PathError> {
        let mut chain: Few<PathSeg> = Few::new();
        for segment in segments {
            if !segment.is_finite() {
                return Err(PathError::NotFinite);
            }
            if let Some(before) = chain.last() {
                let gap = before.end().distance(segment.start());
                if gap.is_nan() || gap > SAME_POINT {
                    return Err(PathError::Broken { segment: chain.len(), gap });
                }
            }
            chain.push(match segment {
                PathSeg::Quad(quad) => PathSeg::Cubic(quad.raise()),
                other => other,
            });
        }
        if chain.is_empty() { Err(PathError::Empty) } else { Ok(Path::of(chain)) }
    }

    /// A path of segments known to meet; a straight path of no length at `place` when there are none.
    pub(super) fn chain(segments: impl Into<Few<PathSeg>>, place: Point) -> Path {
        let segments = segments.into();
        if segments.is_empty() { Path::straight(place, place) } else { Path::of(segments) }
    }

    /// The segments, straight lines and cubics only, at least one.
    pub fn segments(&self) -> &[PathSeg] {
        &self.segments
    }

    /// The path with its end moved onto a point that rounding alone keeps it from.
    pub(super) fn ended_at(&self, end: Point) -> Path {
        let mut segments = self.segments.clone();
        if let Some(last) = segments.last_mut() {
            *last = ended(*last, end);
        }
        Path::of(segments)
    }

    /// The path with its end moved onto the start of `next`, from which rounding alone keeps it, followed by that.
    pub(super) fn on_into(self, next: &Path) -> Path {
        let mut segments = self.segments.into_vec();
        segments.reserve(next.segments.len());
        if let Some(last) = segments.last_mut() {
            *last = ended(*last, next.start());
        }
        segments.extend_from_slice(&next.segments);
        Path::of(segments.into())
    }

    /// The path as a kurbo path (one subpath, not closed).
    pub fn to_bez(&self) -> BezPath {
        let mut whole = BezPath::new();
        whole.move_to(self.start());
        // Not kurbo's own way, which begins a new subpath where rounding leaves a gap.
        for segment in &self.segments {
            whole.push(segment.as_path_el());
        }
        whole
    }

    /// Where the path starts.
    pub fn start(&self) -> Point {
        self.segments.first().map_or(Point::ZERO, ParamCurve::start)
    }

    /// Where the path ends.
    pub fn end(&self) -> Point {
        self.segments.last().map_or(Point::ZERO, ParamCurve::end)
    }

    /// Whether every coordinate is a finite number.
    pub fn is_finite(&self) -> bool {
        self.segments.iter().all(segment::is_finite)
    }

    /// The length in mm, each segment to [`LENGTH_ACCURACY`](super::tolerance::LENGTH_ACCURACY)
    /// (Gauss–Legendre quadrature, see [`kurbo::CubicBez`]).
    pub fn length(&self) -> f64 {
        (0..self.segments.len()).map(|index| self.length_of(index)).sum()
    }

    /// How long one of its segments is, in mm; nothing where there is none.
    fn length_of(&self, index: usize) -> f64 {
        if let ([only], 0) = (self.segments.as_slice(), index) {
            return segment::length(only);
        }
        let lengths = self.lengths.get_or_init(|| self.segments.iter().map(segment::length).collect());
        lengths.get(index).copied().unwrap_or(0.0)
    }

    /// The same path walked the other way.
    pub fn reversed(&self) -> Path {
        Path::of(self.segments.iter().rev().map(PathSeg::reverse).collect())
    }

    /// The path followed by `next`; a gap between them is bridged with a straight segment.
    pub fn then(&self, next: &Path) -> Path {
        let mut segments = Vec::with_capacity(self.segments.len() + next.segments.len() + 1);
        segments.extend_from_slice(&self.segments);
        if self.end().distance(next.start()) > SAME_POINT {
            segments.push(PathSeg::Line(Line::new(self.end(), next.start())));
        }
        segments.extend_from_slice(&next.segments);
        Path::of(segments.into())
    }

    /// Paths one after the other; gaps between them are bridged with straight segments. None where there is none.
    pub fn in_a_row(paths: &[Path]) -> Option<Path> {
        let mut segments = Vec::with_capacity(paths.iter().map(|path| path.segments.len() + 1).sum());
        let mut end: Option<Point> = None;
        for path in paths {
            if let Some(end) = end.filter(|end| end.distance(path.start()) > SAME_POINT) {
                segments.push(PathSeg::Line(Line::new(end, path.start())));
            }
            segments.extend_from_slice(&path.segments);
            end = Some(path.end());
        }
        end.map(|_| Path::of(segments.into()))
    }

    /// The direction in which the path leaves its start, a unit vector; none when the path has no length.
    /// Handles that lie on the start are passed over.
    pub fn tangent_at_start(&self) -> Option<Vec2> {
        self.segments.iter().find_map(segment::tangent_at_start)
    }

    /// The direction in which the path arrives at its end, a unit vector; none when the path has no length.
    pub fn tangent_at_end(&self) -> Option<Vec2> {
        self.segments.iter().rev().find_map(segment::tangent_at_end)
    }

    /// The direction of the path at a place, a unit vector; none when the path has no length.
    pub fn tangent_at(&self, position: Position) -> Option<Vec2> {
        let (index, t) = self.held(position);
        let here = self.segments.get(index)?;
        let is_inside = t > 0.0 && t < 1.0;
        // As the paths before and after the place would say, neither of which is made.
        let before = || {
            let own = match is_inside {
                true => segment::tangent_at_end(&segment::split(here, t).0),
                false => segment::tangent_at_end(here).filter(|_| t >= 1.0),
            };
            own.or_else(|| self.segments.iter().take(index).rev().find_map(segment::tangent_at_end))
        };
        let after = || {
            let own = match is_inside {
                true => segment::tangent_at_start(&segment::split(here, t).1),
                false => segment::tangent_at_start(here).filter(|_| t < 1.0 || t.is_nan()),
            };
            own.or_else(|| self.segments.iter().skip(index + 1).find_map(segment::tangent_at_start))
        };
        match position.t > 0.5 {
            true => before().or_else(after),
            false => after().or_else(before),
        }
    }

    /// The direction in which the part from `from` to `to` mm along the path arrives at its end.
    pub fn arriving_between(&self, from: f64, to: f64) -> Option<Vec2> {
        let (from, to) = (self.position_at(from), self.position_at(to));
        let (index, t) = self.held(to);
        if to <= from {
            return None;
        }
        // A part that begins in the same segment is cut out of it.
        if from.segment == index {
            return self.between(from, to).tangent_at_end();
        }
        let cut = self.segments.get(index).filter(|_| t > 0.0 && t < 1.0);
        let cut = cut.and_then(|piece| segment::tangent_at_end(&segment::split(piece, t).0));
        cut.or_else(|| self.between(from, to).tangent_at_end())
    }

    /// The direction in which the part from `from` to `to` mm along the path leaves its start.
    pub fn leaving_between(&self, from: f64, to: f64) -> Option<Vec2> {
        let (from, to) = (self.position_at(from), self.position_at(to));
        let (index, t) = self.held(from);
        if to <= from {
            return None;
        }
        if to.segment == index {
            return self.between(from, to).tangent_at_start();
        }
        let cut = self.segments.get(index).filter(|_| t > 0.0 && t < 1.0);
        let cut = cut.and_then(|piece| segment::tangent_at_start(&segment::split(piece, t).1));
        cut.or_else(|| self.between(from, to).tangent_at_start())
    }

    /// The place `length` mm along the path, held to the path's ends.
    /// Accuracy: that of [`length`](Self::length), by bisection on it.
    pub fn position_at(&self, length: f64) -> Position {
        let mut left = if length.is_nan() { 0.0 } else { length.max(0.0) };
        for (index, piece) in self.segments.iter().enumerate() {
            let own = self.length_of(index);
            if left <= own || own.is_nan() {
                return Position { segment: index, t: segment::parameter_at(piece, left, own) };
            }
            left -= own;
        }
        self.last_position()
    }

    /// The length along the path from its start to a place, mm.
    pub fn length_to(&self, position: Position) -> f64 {
        let before = position.segment.min(self.segments.len());
        let whole: f64 = (0..before).map(|index| self.length_of(index)).sum();
        let part = match self.segments.get(position.segment) {
            Some(_) if position.t >= 1.0 => self.length_of(position.segment),
            Some(piece) => segment::length_to(piece, position.t),
            None => 0.0,
        };
        whole + part
    }

    /// The point at a place.
    pub fn point_at(&self, position: Position) -> Point {
        self.segments.get(position.segment).map_or(self.end(), |piece| piece.eval(position.t.clamp(0.0, 1.0)))
    }

    /// The point `length` mm along the path, held to its ends.
    pub fn point_at_length(&self, length: f64) -> Point {
        self.point_at(self.position_at(length))
    }

    /// The direction `length` mm along the path, a unit vector; none when the path has no length.
    pub fn tangent_at_length(&self, length: f64) -> Option<Vec2> {
        self.tangent_at(self.position_at(length))
    }

    /// The path before and after a place. Exact (de Casteljau); a side with nothing on it is a straight path of no length.
    pub fn split_at(&self, position: Position) -> (Path, Path) {
        (self.up_to(position), self.onward(position))
    }

    /// The path before a place, as [`split_at`](Self::split_at) has it.
    pub(crate) fn up_to(&self, position: Position) -> Path {
        let (index, t) = self.held(position);
        let whole = self.segments.iter().take(index + usize::from(t >= 1.0));
        let cut = self.segments.get(index).filter(|_| t > 0.0 && t < 1.0);
        let cut = cut.map(|piece| segment::split(piece, t).0);
        Path::chain(whole.chain(&cut).copied().collect::<Few<PathSeg>>(), self.start())
    }

    /// The path after a place, as [`split_at`](Self::split_at) has it.
    pub(crate) fn onward(&self, position: Position) -> Path {
        let (index, t) = self.held(position);
        let is_cut = t > 0.0 && t < 1.0;
        let cut = self.segments.get(index).filter(|_| is_cut).map(|piece| segment::split(piece, t).1);
        let whole = self.segments.iter().skip(index + usize::from(is_cut || t >= 1.0));
        Path::chain(cut.iter().chain(whole).copied().collect::<Few<PathSeg>>(), self.end())
    }

    /// The path before and after `length` mm along it.
    pub fn split_at_length(&self, length: f64) -> (Path, Path) {
        self.split_at(self.position_at(length))
    }

    /// The part between two places, in the path's own direction; a path of no length when `to` is not after `from`.
    pub fn between(&self, from: Position, to: Position) -> Path {
        if to <= from {
            let point = self.point_at(from);
            return Path::straight(point, point);
        }
        // Only within the segment that was split at `to` does the parameter of `from` change.
        let rescaled = if from.segment == to.segment && to.t > 0.0 { from.t / to.t.min(1.0) } else { from.t };
        let (last, t) = self.held(to);
        let whole = self.segments.iter().take(last + usize::from(t >= 1.0));
        let cut =
            self.segments.get(last).filter(|_| t > 0.0 && t < 1.0).map(|piece| segment::split(piece, t).0);
        let count = whole.len() + usize::from(cut.is_some());
        if count == 0 {
            return Path::straight(self.start(), self.start());
        }
        // The part up to `to`, of which all before `from` is left out.
        let (first, t) = match from.segment < count {
            true => (from.segment, rescaled),
            false => (count - 1, 1.0),
        };
        let end = cut.as_ref().or(self.segments.get(count - 1)).map_or(self.end(), ParamCurve::end);
        let mut part = whole.chain(&cut).skip(first).copied();
        let head = match part.next() {
            Some(_) if t >= 1.0 => None,
            Some(piece) if t > 0.0 => Some(segment::split(&piece, t).1),
            head => head,
        };
        Path::chain(head.into_iter().chain(part).collect::<Few<PathSeg>>(), end)
    }

    /// A place's segment, held to those that there are, and the parameter in it.
    fn held(&self, position: Position) -> (usize, f64) {
        let index = position.segment.min(self.segments.len().saturating_sub(1));
        (index, if position.segment > index { 1.0 } else { position.t })
    }

    /// The part from `from` to `to` mm along the path.
    pub fn part(&self, from: f64, to: f64) -> Path {
        self.between(self.position_at(from), self.position_at(to))
    }

    /// The first place on the path.
    pub fn first_position(&self) -> Position {
        Position { segment: 0, t: 0.0 }
    }

    /// The last place on the path.
    pub fn last_position(&self) -> Position {
        Position { segment: self.segments.len().saturating_sub(1), t: 1.0 }
    }

    /// The path under an affine map.
    pub fn transform(&self, affine: Affine) -> Path {
        Path::of(self.segments.iter().map(|piece| affine * *piece).collect())
    }

    /// The path under an affine map, walked the other way.
    pub(super) fn reversed_under(&self, affine: Affine) -> Path {
        Path::of(self.segments.iter().rev().map(|piece| affine * piece.reverse()).collect())
    }

    /// The path moved by `shift`.
    pub fn translated(&self, shift: Vec2) -> Path {
        Path { lengths: self.lengths.clone(), ..self.map(|point| point + shift) }
    }

    /// The path with every node and handle mapped.
    pub(super) fn map(&self, to: impl Fn(Point) -> Point) -> Path {
        let mapped = self.segments.iter().map(|piece| match piece {
            PathSeg::Line(line) => PathSeg::Line(Line::new(to(line.p0), to(line.p1))),
            PathSeg::Quad(quad) => PathSeg::Cubic(CubicBez::new(
                to(quad.p0),
                to(quad.raise().p1),
                to(quad.raise().p2),
                to(quad.p2),
            )),
            PathSeg::Cubic(c) => PathSeg::Cubic(CubicBez::new(to(c.p0), to(c.p1), to(c.p2), to(c.p3))),
        });
        Path::of(mapped.collect())
    }

    /// Whether the path is one straight stretch from start to end: every node and handle within
    /// [`STRAIGHT`] of the chord and none before or past its ends.
    pub fn is_straight(&self) -> bool {
        let chord = Line::new(self.start(), self.end());
        let is_off = |point: Point| segment::distance_to_line(chord, point) > STRAIGHT;
        !self.segments.iter().flat_map(segment::controls).any(is_off)
    }

    /// Whether it is longer than that, in mm.
    pub fn is_longer_than(&self, least: f64) -> bool {
        self.start().distance(self.end()) > least || self.length() > least
    }

    /// A path of segments known to meet, each with its length in mm; a straight path of no length at `place` when
    /// there are none.
    pub(super) fn measured(segments: Vec<PathSeg>, lengths: Vec<f64>, place: Point) -> Path {
        let made = Path::chain(segments, place);
        if made.segments.len() > 1 && made.segments.len() == lengths.len() {
            // Of a path that was only just made nothing is known yet.
            let _ = made.lengths.set(lengths.into());
        }
        made
    }

    /// Whether some of it is no straight line.
    pub fn is_curved(&self) -> bool {
        self.segments.iter().any(|segment| !matches!(segment, PathSeg::Line(_)))
    }

    /// How far the farthest node or handle lies from the straight stretch between the ends, mm.
    pub fn off_straight(&self) -> f64 {
        let chord = Line::new(self.start(), self.end());
        let off = |point: Point| segment::distance_to_line(chord, point);
        self.segments.iter().flat_map(segment::controls).map(off).fold(0.0, f64::max)
    }

    /// Whether the path has no corner inside: at every inner node the directions differ by no more than `angle` radians.
    pub fn is_smooth(&self, angle: f64) -> bool {
        let mut before: Option<Vec2> = None;
        for piece in &self.segments {
            if let (Some(before), Some(after)) = (before, segment::tangent_at_start(piece))
                && angle_between(before, after).abs() > angle
            {
                return false;
            }
            before = segment::tangent_at_end(piece).or(before);
        }
        true
    }

    /// Points along the path, its ends among them, such that straight lines between them lie within `tolerance` mm.
    /// At most some a thousand points a segment.
    pub fn flatten(&self, tolerance: f64) -> Vec<Point> {
        let mut points = vec![self.start()];
        for piece in &self.segments {
            segment::flatten(piece, tolerance, &mut points);
        }
        points
    }

    /// An upright rectangle in which the path lies: round its nodes and handles.
    pub fn hull(&self) -> Rect {
        let start = self.start();
        let hulls = self.segments.iter().map(segment::hull);
        hulls.fold(Rect::from_points(start, start), |whole, own| whole.union(own))
    }

    /// The smallest upright rectangle round the path, exact (extrema of the cubics).
    pub fn bounding_box(&self) -> Rect {
        let start = self.start();
        self.segments
            .iter()
            .map(segment::bounding_box)
            .fold(Rect::from_points(start, start), |whole, own| whole.union(own))
    }
}
