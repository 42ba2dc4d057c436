//! What is drawn, one thing by itself: in its place, on its layer.

use crate::bring::read::line_work::{circle, moved};
use crate::bring::traced::TracedPath;
use kurbo::{ParamCurve, Point, Vec2};
use std::sync::Arc;

/// Something drawn, in its place.
#[derive(Debug, Clone)]
pub(super) struct Item {
    /// The layer's name; what is on layer 0 of a block is on the layer that the block is put down on.
    pub layer: Arc<str>,
    /// The colour's number, where it has one of its own.
    pub colour: Option<i64>,
    /// Where it begins in the file, counted from 1.
    pub line: usize,
    /// What it is.
    pub what: What,
}

/// What is drawn.
#[derive(Debug, Clone)]
pub(super) enum What {
    /// A line of any course.
    Path(TracedPath),
    /// A single point.
    Point(Point),
    /// One line of words, and how high its letters are.
    Words(Point, f64, String),
}

/// A closed line smaller than this, mm, is a sign (a drill hole, a notch) and no piece.
pub(super) const SIGN: f64 = 12.0;

impl Item {
    /// How many points of a drawing it counts for.
    pub fn points(&self) -> usize {
        match &self.what {
            What::Path(path) => path.segments.len(),
            What::Point(_) | What::Words(..) => 1,
        }
    }

    /// A point of it that tells where it lies.
    pub fn middle(&self) -> Point {
        match &self.what {
            What::Path(path) => match path.segments.get(path.segments.len() / 2) {
                Some(segment) if path.segments.len() % 2 == 0 => segment.course.start(),
                Some(segment) => segment.course.eval(0.5),
                None => Point::ZERO,
            },
            What::Point(at) | What::Words(at, ..) => *at,
        }
    }
}

impl What {
    /// The same elsewhere.
    pub fn moved(&self, by: Vec2) -> What {
        match self {
            What::Path(path) => What::Path(moved(path, by)),
            What::Point(at) => What::Point(*at + by),
            What::Words(at, height, words) => What::Words(*at + by, *height, words.clone()),
        }
    }

    /// The middle and radius of a small circle.
    pub fn small_circle(&self) -> Option<Point> {
        let What::Path(path) = self else { return None };
        circle(path).filter(|(_, radius)| 2.0 * radius <= SIGN).map(|(centre, _)| centre)
    }
}
