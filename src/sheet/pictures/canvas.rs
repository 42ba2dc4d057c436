//! What a picture shows before it is written: cloth, lines and marks in millimetres, y up; [`super::write`] scales them.

use super::ink::{Cloth, Stroke};
use crate::shape::path::Path;
use crate::shape::{Affine, Point, Rect, Vec2};
use kurbo::{BezPath, Shape as _};

/// One scene of a picture.
#[derive(Clone, Debug, Default)]
pub struct Panel {
    /// Cloth and lines, the lowest first.
    pub ground: Vec<Drawn>,
    /// Names and numbers of pieces.
    pub labels: Vec<Label>,
    /// What stands on top of all that.
    pub marks: Vec<Mark>,
    /// What the scene is, in words that the page has.
    pub caption: Option<Caption>,
    /// It has no scale: a section, drawn large.
    pub unscaled: bool,
    /// Something small that is shown large.
    pub large: bool,
}

/// What a scene is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Caption {
    /// Which edges are sewn: the pieces lie apart, right sides up.
    WhichEdges,
    /// The pieces as they lie under the needle, right sides together.
    UnderTheNeedle,
    /// The seam rolled out straight: both sides at their own lengths.
    RolledOut,
    /// The edge, cut across and looked at from its end.
    Section,
    /// The wrong side is up.
    WrongSideUp,
    /// The front of the garment.
    Front,
    /// The back of the garment.
    Back,
    /// The pieces of the garment beside one another.
    Pieces,
    /// What the base does not have.
    Added,
}

/// Cloth or a line.
#[derive(Clone, Debug)]
pub enum Drawn {
    /// Cloth.
    Cloth(BezPath, Cloth),
    /// Plain white, as paper.
    White(BezPath),
    /// A line.
    Line(BezPath, Stroke),
}

/// A piece's number and name, where there is room.
#[derive(Clone, Debug)]
pub struct Label {
    /// The middle of both.
    pub at: Point,
    /// How wide the cloth is there, in millimetres.
    pub room: f64,
    /// How high it is there.
    pub high: f64,
    /// The number on the sheet.
    pub number: Option<usize>,
    /// The title.
    pub title: String,
    /// What lies on the cloth and has a number of its own: this one stands beside it.
    pub clear_of: Vec<Rect>,
}

/// A mark of a size of its own, whatever the scale.
#[derive(Clone, Debug)]
pub enum Mark {
    /// The letter of what is sewn; it may be moved along its line to stand clear.
    Tag {
        /// Where.
        at: Point,
        /// The way that its line goes.
        along: Vec2,
        /// The letter.
        letter: String,
        /// How long the line is, in millimetres, where a short one is not to be hidden.
        long: Option<f64>,
    },
    /// The sign of a point that meets another.
    Sign(Point, usize),
    /// A bar across a line: the end of a gap.
    Bar(Point, Vec2),
    /// An arrow; its head at the second place.
    Arrow(Point, Point),
    /// An arrow so many pixels long at a place, that way.
    Pointer(Point, Vec2, f64),
    /// Words, centred.
    Words(Point, String),
    /// Words that the page has, centred on something so high, or below it where they would hide it.
    Said(Point, Caption, f64),
    /// A button so wide in millimetres, or whatever is as round.
    Button(Point, f64),
    /// A buttonhole from end to end.
    Buttonhole(Point, Point),
    /// A flat iron.
    Iron(Point),
}

impl Panel {
    /// One with that caption.
    pub fn of(caption: Caption) -> Panel {
        Panel { caption: Some(caption), ..Panel::default() }
    }

    /// Adds cloth.
    pub fn cloth(&mut self, path: BezPath, cloth: Cloth) {
        self.ground.push(Drawn::Cloth(path, cloth));
    }

    /// Adds a line.
    pub fn line(&mut self, path: BezPath, stroke: Stroke) {
        self.ground.push(Drawn::Line(path, stroke));
    }

    /// Adds a straight line.
    pub fn straight(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.line(polyline(&[from, to]), stroke);
    }

    /// Adds the letter of a line at its middle.
    pub fn tag(&mut self, at: Point, along: Vec2, letter: &str) {
        self.marks.push(Mark::Tag { at, along, letter: letter.to_owned(), long: None });
    }

    /// Adds the letter of a line at its middle, or beyond its end where it would hide all of it.
    pub fn tag_line(&mut self, path: &Path, letter: &str) {
        let long = path.length();
        let along = path.tangent_at_length(long / 2.0).unwrap_or_default();
        let at = path.point_at_length(long / 2.0);
        self.marks.push(Mark::Tag { at, along, letter: letter.to_owned(), long: Some(long) });
    }

    /// Whether nothing is drawn.
    pub fn is_empty(&self) -> bool {
        self.ground.is_empty()
    }

    /// The upright rectangle round all that is drawn to scale; none where nothing is.
    pub fn bounds(&self) -> Option<Rect> {
        let paths = self.ground.iter().map(|drawn| match drawn {
            Drawn::Cloth(path, _) | Drawn::White(path) | Drawn::Line(path, _) => path.bounding_box(),
        });
        let points = self.marks.iter().map(|mark| match mark {
            Mark::Sign(at, _)
            | Mark::Iron(at)
            | Mark::Words(at, _)
            | Mark::Said(at, ..)
            | Mark::Bar(at, _)
            | Mark::Pointer(at, ..)
            | Mark::Tag { at, .. } => Rect::from_points(*at, *at),
            Mark::Arrow(from, to) | Mark::Buttonhole(from, to) => Rect::from_points(*from, *to),
            Mark::Button(at, wide) => Rect::from_center_size(*at, (*wide, *wide)),
        });
        paths.chain(points).filter(|rect| rect.is_finite()).reduce(|all, one| all.union(one))
    }

    /// Adds another scene, moved.
    pub fn add(&mut self, mut other: Panel, by: Vec2) {
        let moved = Affine::translate(by);
        for drawn in &mut other.ground {
            match drawn {
                Drawn::Cloth(path, _) | Drawn::White(path) | Drawn::Line(path, _) => path.apply_affine(moved),
            }
        }
        for label in &mut other.labels {
            label.at += by;
            label.clear_of.iter_mut().for_each(|rect| *rect = *rect + by);
        }
        for mark in &mut other.marks {
            match mark {
                Mark::Tag { at, .. }
                | Mark::Sign(at, _)
                | Mark::Bar(at, _)
                | Mark::Pointer(at, ..)
                | Mark::Words(at, _)
                | Mark::Said(at, ..)
                | Mark::Button(at, _)
                | Mark::Iron(at) => *at += by,
                Mark::Arrow(from, to) | Mark::Buttonhole(from, to) => {
                    *from += by;
                    *to += by;
                }
            }
        }
        self.ground.append(&mut other.ground);
        self.labels.append(&mut other.labels);
        self.marks.append(&mut other.marks);
    }
}

/// A line from point to point.
pub fn polyline(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (nth, &point) in points.iter().enumerate() {
        if nth == 0 {
            path.move_to(point);
        } else {
            path.line_to(point);
        }
    }
    path
}

/// A closed outline from point to point.
pub fn polygon(points: &[Point]) -> BezPath {
    let mut path = polyline(points);
    if !points.is_empty() {
        path.close_path();
    }
    path
}
