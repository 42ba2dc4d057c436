//! What a shape is, as far as it can be seen by itself: an outline, a stroke, a cross, an arrow, a line.

use super::elements::{Elements, Item};
use super::sizes::Owner;
use crate::bring::length::length;
use crate::bring::read::inside::goes_round;
use crate::bring::read::line_work::close;
use crate::bring::traced::TracedPath;
use crate::bring::trade_words::{FOLD, GRAIN, has_word};
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg, Point, Rect, Shape as _};

/// A stroke no longer than this, in millimetres, that touches an outline is a notch.
pub const SHORT_STROKE: f64 = 25.0;
/// Ends of an outline nearer than this, in millimetres, were meant to meet.
const MEANT: f64 = 0.5;
/// A circle no wider than this, in millimetres, is a mark.
const SMALL_CIRCLE: f64 = 16.0;
/// An arrow no shorter than this, in millimetres, is the grain.
const LONG_ARROW: f64 = 40.0;

/// What a shape is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Role {
    /// A short straight stroke: a notch where it touches an outline.
    Stroke,
    /// A notch by its form, that stands there.
    Notch(Point),
    /// A place marked by a small circle or a cross.
    Mark(Point),
    /// The grain, from tail to head.
    Grain(Point, Point),
    /// The line of the fold.
    Fold,
    /// A line.
    Line,
}

/// A path with what it is.
#[derive(Debug, Clone)]
pub struct Shape {
    /// What it belongs to.
    pub owner: Owner,
    /// What it is called, or nothing.
    pub name: String,
    /// Its path.
    pub path: TracedPath,
    /// What it is; of outlines it says nothing.
    pub role: Role,
    /// Whether it is drawn in dashes.
    pub is_dashed: bool,
    /// In which line of the file it begins, counted from 1.
    pub line: usize,
    /// The groups that it is in, the outermost first.
    pub groups: Vec<usize>,
    /// The open paths that it is put together of, if it is.
    pub parts: Vec<Shape>,
}

impl Shape {
    /// Its middle.
    pub fn middle(&self) -> Point {
        match self.role {
            Role::Mark(at) | Role::Notch(at) => at,
            Role::Grain(from, to) => from.midpoint(to),
            _ => bounds(&self.path).center(),
        }
    }

    /// What it covers.
    pub fn bounds(&self) -> Rect {
        bounds(&self.path)
    }

    /// How far it is from an outline, in millimetres.
    pub fn distance_to(&self, outline: &BezPath) -> f64 {
        self.samples()
            .map(|point| {
                outline
                    .segments()
                    .map(|one| one.nearest(point, 0.01).distance_sq)
                    .fold(f64::INFINITY, f64::min)
            })
            .fold(f64::INFINITY, f64::min)
            .max(0.0)
            .sqrt()
    }

    /// Where it meets an outline, or comes nearest to it.
    pub fn nearest_on(&self, outline: &TracedPath) -> Point {
        let mut best = (f64::INFINITY, Point::ZERO);
        for point in self.samples() {
            for segment in &outline.segments {
                let place = segment.course.nearest(point, 1e-3);
                if place.distance_sq < best.0 {
                    best = (place.distance_sq, segment.course.eval(place.t));
                }
            }
        }
        best.1
    }

    fn samples(&self) -> impl Iterator<Item = Point> + '_ {
        self.path
            .segments
            .iter()
            .flat_map(|segment| (0..=8).map(move |at| segment.course.eval(f64::from(at) / 8.0)))
    }
}

fn bounds(path: &TracedPath) -> Rect {
    path.segments
        .iter()
        .map(|one| one.course.bounding_box())
        .reduce(|all, own| all.union(own))
        .unwrap_or(Rect::ZERO)
}

fn long(path: &TracedPath) -> f64 {
    path.segments.iter().map(|one| length(&one.course, 0.01)).sum()
}

/// The only straight stretch of a path, if it is one.
fn stroke(path: &TracedPath) -> Option<(Point, Point)> {
    match path.segments.as_slice() {
        [one] if matches!(one.course, PathSeg::Line(_)) => Some((one.course.start(), one.course.end())),
        _ => None,
    }
}

/// The closed paths that may be outlines, and all other shapes. What misses being closed by a hair is closed, which is told.
pub fn roles(drawing: &Elements, owners: &[Owner], remarks: &mut Vec<String>) -> (Vec<Shape>, Vec<Shape>) {
    let (mut closed, mut rest) = (Vec::new(), Vec::new());
    for (item, owner) in drawing.items.iter().zip(owners) {
        let name = item.name.clone().unwrap_or_default();
        let shape = |path: &TracedPath, role| Shape {
            owner: owner.clone(),
            name: name.clone(),
            path: path.clone(),
            role,
            is_dashed: item.paint.is_dashed,
            line: item.line,
            groups: item.groups.clone(),
            parts: Vec::new(),
        };
        let is_of_arrow = is_of_arrow(item, drawing);
        if let Some((from, to, path)) = arrow(item, is_of_arrow) {
            rest.push(shape(path, Role::Grain(from, to)));
            continue;
        }
        if is_of_arrow && item.paths.iter().all(|path| bounds(path).size().max_side() <= SHORT_STROKE) {
            continue;
        }
        if let Some((at, path)) = cross_of(&item.paths) {
            rest.push(shape(path, Role::Mark(at)));
            continue;
        }
        if let Some(path) = stem_of(&item.paths) {
            rest.push(shape(path, Role::Stroke));
            continue;
        }
        // The name of a path that draws an outline too is the piece's, and not that of what else it draws.
        let small = |path: &TracedPath| bounds(path).size().max_side() <= SMALL_CIRCLE;
        let has_outline = item.paths.iter().any(|path| path.closed && !small(path));
        let shape = |path: &TracedPath, role| match has_outline && !path.closed {
            true => Shape { name: String::new(), ..shape(path, role) },
            false => shape(path, role),
        };
        let says_fold = !has_outline && is_fold(&name);
        for path in &item.paths {
            let mut nearly = path.clone();
            if let Some(gap) = goes_round(path).filter(|gap| *gap <= MEANT) {
                close(&mut nearly);
                let what =
                    if name.is_empty() { "an outline".to_owned() } else { format!("the outline {name}") };
                let line = item.line;
                remarks.push(format!("{what} in line {line} was open by {gap:.1} mm, and was closed"));
            }
            let path = &nearly;
            let round = bounds(path);
            let small = round.width().max(round.height()) <= SMALL_CIRCLE;
            match (path.closed, stroke(path)) {
                (true, _) if small && (item.circle || is_round(path, &round)) => {
                    rest.push(shape(path, Role::Mark(round.center())));
                }
                (true, _) => closed.push(shape(path, Role::Line)),
                (false, Some(_)) if says_fold => rest.push(shape(path, Role::Fold)),
                (false, Some((from, to))) if from.distance(to) <= SHORT_STROKE => {
                    rest.push(shape(path, Role::Stroke))
                }
                (false, _) => rest.push(shape(path, Role::Line)),
            }
        }
    }
    (closed, crosses(rest))
}

/// What is folded elsewhere than in the middle of a piece that is cut double.
const FOLDED: [&str; 7] = ["hem", "pleat", "tuck", "facing", "cuff", "dart", "turn"];

/// Whether a name says that a line is the fold that a piece is cut on.
fn is_fold(name: &str) -> bool {
    has_word(name, &FOLD) && !has_word(name, &FOLDED)
}

/// Whether a closed path is a circle: all its points equally far from its middle.
fn is_round(path: &TracedPath, round: &Rect) -> bool {
    let (middle, radius) = (round.center(), round.width() / 2.0);
    let points = path.segments.iter().flat_map(|one| [one.course.start(), one.course.eval(0.5)]);
    path.segments.len() >= 2
        && points.into_iter().all(|point| (point.distance(middle) - radius).abs() < 0.05 * radius)
}

/// Whether a nameless shape stands in a group that is called after the grain: its line, or one of the heads beside it.
fn is_of_arrow(item: &Item, drawing: &Elements) -> bool {
    let group = item.groups.last().and_then(|group| drawing.groups.get(*group)?.as_deref());
    let name = group.unwrap_or_default().to_lowercase();
    let name = name.trim_end_matches(|letter: char| !letter.is_alphabetic());
    item.name.is_none() && ["grain", "grainline", "grain line", "grain arrow"].contains(&name)
}

/// A long straight line with heads: set to its ends, or drawn there as strokes or triangles of the same path; or a
/// straight line that is called after the grain.
fn arrow(item: &Item, is_of_arrow: bool) -> Option<(Point, Point, &TracedPath)> {
    let longest = item.paths.iter().max_by(|one, other| long(one).total_cmp(&long(other)))?;
    let (from, to) = stroke(longest)?;
    let length = from.distance(to);
    let called = item.name.as_ref().is_some_and(|name| has_word(name, &GRAIN));
    let head = |path: &TracedPath| {
        let ends = path.segments.iter().flat_map(|one| [one.course.start(), one.course.end()]);
        let touches = ends.into_iter().any(|end| end.distance(from) < 3.0 || end.distance(to) < 3.0);
        touches && long(path) < length * 0.4 && path.segments.len() >= 2
    };
    let mut others = item.paths.iter().filter(|path| !std::ptr::eq(*path, longest)).peekable();
    let headed = others.peek().is_some() && others.all(head);
    let is_long = length >= LONG_ARROW && (item.arrow || headed || is_of_arrow);
    (called || is_long).then_some((from, to, longest))
}

/// Two short strokes over each other's middle.
fn cross_of(paths: &[TracedPath]) -> Option<(Point, &TracedPath)> {
    let [one, other] = paths else { return None };
    crossing(one, other).map(|at| (at, one))
}

/// The one of two short strokes that ends in the middle of the other: the notch of a T.
fn stem_of(paths: &[TracedPath]) -> Option<&TracedPath> {
    let [one, other] = paths else { return None };
    let is_stem = |stem: &TracedPath, bar: &TracedPath| {
        let ((a, b), (c, d)) = (stroke(stem)?, stroke(bar)?);
        let across = (b - a).dot(d - c).abs() < 0.3 * (b - a).hypot() * (d - c).hypot();
        let short = a.distance(b) <= SHORT_STROKE && c.distance(d) <= SHORT_STROKE;
        let middle = c.midpoint(d);
        Some(short && across && a.distance(middle).min(b.distance(middle)) < 0.5)
    };
    [(one, other), (other, one)].into_iter().find_map(|(stem, bar)| is_stem(stem, bar)?.then_some(stem))
}

fn crossing(one: &TracedPath, other: &TracedPath) -> Option<Point> {
    let ((a, b), (c, d)) = (stroke(one)?, stroke(other)?);
    let alike = (b - a).cross(d - c).abs() < 0.3 * (b - a).hypot() * (d - c).hypot();
    let short = a.distance(b) <= SHORT_STROKE && c.distance(d) <= SHORT_STROKE;
    let at = a.midpoint(b);
    (short && !alike && at.distance(c.midpoint(d)) < 0.5).then_some(at)
}

/// Strokes drawn one by one that make crosses become marks.
fn crosses(shapes: Vec<Shape>) -> Vec<Shape> {
    let mut found: Vec<Shape> = Vec::with_capacity(shapes.len());
    for shape in shapes {
        // The two strokes of a cross are drawn one after the other.
        let made = match (found.last(), shape.role) {
            (Some(before), Role::Stroke) if before.role == Role::Stroke => {
                crossing(&before.path, &shape.path)
            }
            _ => None,
        };
        match (made, found.last_mut()) {
            (Some(at), Some(before)) => before.role = Role::Mark(at),
            _ => found.push(shape),
        }
    }
    found
}
