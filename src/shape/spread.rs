//! Cutting along a straight line and moving what lies beyond: lengthen, shorten, spread.

use crate::shape::bridge::bridge_from;
use crate::shape::line::{StraightLine, places};
use crate::shape::outline::{RingError, check_ring};
use crate::shape::path::Path;
use crate::shape::tolerance::{FLATTEN, SAME_DIRECTION, SAME_POINT};
use crate::shape::turn::angle_between;
use kurbo::{ParamCurve, PathSeg, Point, Vec2};
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
    #[error("which side is beyond the line cannot be told")]
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

    /// One edge; the error is how much could be taken out.
    fn path(&self, path: &Path) -> Result<Path, f64> {
        let (start, end) = (self.moved(path.start()), self.moved(path.end()));
        if path.is_straight() {
            let still = start == path.start() && end == path.end();
            return Ok(if still { path.clone() } else { Path::straight(start, end) });
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
            if part.length() <= SAME_POINT {
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

/// An edge that is being put together.
struct Chain {
    segments: Vec<PathSeg>,
    here: Point,
    way: Option<Vec2>,
    /// Length of the section pushed last, mm: so much may be trimmed.
    fresh: f64,
}

impl Chain {
    /// Go on with a section, joined without a corner.
    fn go_on(&mut self, section: &Path, taken: f64) {
        let gap = self.here.distance(section.start());
        let bend = match (self.way, section.tangent_at_start()) {
            (Some(a), Some(b)) => angle_between(a, b).abs(),
            _ => 0.0,
        };
        let runs_on = gap <= SAME_POINT && bend <= SAME_DIRECTION;
        let first = self.segments.is_empty() && gap <= SAME_POINT;
        let mut section = section.clone();
        if taken > 0.0 && !runs_on && !first {
            let trim = (2.0 * gap).max(0.5 * taken);
            self.trim(trim.min(self.fresh / 3.0));
            section = section.split_at_length(trim.min(section.length() / 3.0)).1;
        }
        if !runs_on && !first {
            bridge_from(&mut self.segments, self.here, self.way, section.start(), section.tangent_at_start());
        }
        self.fresh = section.length();
        self.here = section.end();
        self.way = section.tangent_at_end();
        self.segments.extend_from_slice(section.segments());
    }

    /// Go to the edge's end, which is a corner that did not move with the last section.
    fn close(&mut self, end: Point, arriving: Option<Vec2>, taken: f64) {
        let gap = self.here.distance(end);
        if gap <= SAME_POINT {
            return;
        }
        if taken > 0.0 {
            self.trim((2.0 * gap).max(0.5 * taken).min(self.fresh / 3.0));
        }
        bridge_from(&mut self.segments, self.here, self.way, end, arriving);
    }

    fn trim(&mut self, by: f64) {
        if by <= SAME_POINT || self.segments.is_empty() {
            return;
        }
        let whole = Path::chain(std::mem::take(&mut self.segments), self.here);
        let kept = whole.split_at_length(whole.length() - by).0;
        self.here = kept.end();
        self.way = kept.tangent_at_end();
        self.segments = kept.segments().to_vec();
    }
}
