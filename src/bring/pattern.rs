//! A pattern as it was understood: what the text says, before it is said.

use super::figures::TextUnit;
use super::hems::HemLine;
use super::runs::Stretch;
use super::traced::TracedCut;
use crate::bring::length::length;
use indexmap::IndexSet;
use kurbo::{BezPath, CubicBez, ParamCurve, PathSeg, Point};

/// A pattern of one or more pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// What the garment is called.
    pub title: String,
    /// When it was drawn, as the drawing says it.
    pub dated: Option<String>,
    /// In which unit it is written.
    pub unit: TextUnit,
    /// The sizes' names, the smallest first; none of a pattern without sizes.
    pub sizes: Vec<String>,
    /// What the outlines hold as allowance, in millimetres, if they do.
    pub holds: Option<f64>,
    /// The pieces.
    pub pieces: Vec<Piece>,
}

/// A piece. Everything that may differ by size is a list: of one value for all sizes, or of one a size.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its name in the text.
    pub name: String,
    /// What the drawing calls it.
    pub title: String,
    /// Where it stood.
    pub origin: String,
    /// Its outline, anticlockwise.
    pub outline: Walk,
    /// Which edge lies on the fold.
    pub fold: Option<usize>,
    /// Lines inside.
    pub lines: Vec<Walk>,
    /// Points inside.
    pub marks: Vec<Mark>,
    /// Of those lines, which run along an edge as a hem's fold does.
    pub hem_lines: Vec<HemLine>,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Marks and lines inside that a size has of another one.
    pub borrowed: IndexSet<String>,
    /// How the grain lies, where it was drawn.
    pub grain: Option<Grain>,
    /// How many are cut, where the drawing says so.
    pub cut: Option<TracedCut>,
    /// By size how many, where it is not the same in all.
    pub counts: Vec<u32>,
    /// From what, where the drawing says so.
    pub material: Option<String>,
    /// Whether its outline is a sew line of the drawing.
    pub sewn: bool,
    /// Its own allowance in millimetres, where the drawing has a sew line that is everywhere so far inside.
    pub allowance: Option<f64>,
    /// By edge how far outside it the cutting line lies in millimetres, where the drawing has both and it is not the same.
    pub allowances: Vec<f64>,
    /// How far fitted curves miss what was traced, in millimetres; 0 where all is exact.
    pub error: f64,
}

/// A walk along edges, or along one or more lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Where it begins, by size.
    pub from: Vec<Point>,
    /// One after the other.
    pub edges: Vec<Edge>,
}

/// An edge, or a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// Its name.
    pub name: String,
    /// Which run between two corners it belongs to, counted from 0.
    pub run: usize,
    /// How it goes.
    pub stretch: Stretch,
}

/// A point inside.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name.
    pub name: String,
    /// Where it lies, by size.
    pub at: Vec<Point>,
}

/// A notch.
#[derive(Debug, Clone, PartialEq)]
pub struct Notch {
    /// On which edge.
    pub edge: usize,
    /// How far from the edge's beginning, by size, in millimetres; from its end where `from_end` says so.
    pub along: Vec<f64>,
    /// Whether it is counted from the end.
    pub from_end: bool,
    /// Whether it is two side by side, of which it is the middle.
    pub double: bool,
}

/// How the grain lies.
#[derive(Debug, Clone, PartialEq)]
pub enum Grain {
    /// Up the paper.
    Up,
    /// Across it.
    Across,
    /// Otherwise: along a line, from and to by size.
    Along(Vec<Point>, Vec<Point>),
}

/// The value of that size: a list of one holds for all.
pub fn of_size<T: Copy>(list: &[T], size: usize) -> Option<T> {
    list.get(size).or_else(|| list.first()).copied()
}

impl Piece {
    /// What the point is called that an edge begins at; behind the last edge it is the first again. Corners are numbered.
    /// Where a curve is parted the name is like no other piece's: joints of one name would be taken to be sewn together.
    pub fn corner(&self, edge: usize) -> String {
        let edges = &self.outline.edges;
        let at = edge % edges.len().max(1);
        let before = at.checked_sub(1).and_then(|before| edges.get(before));
        match edges.get(at) {
            Some(own) if before.is_some_and(|before| before.run == own.run) => {
                format!("{}_{}", self.name, own.name)
            }
            own => format!("p{}", own.map_or(0, |own| own.run) + 1),
        }
    }
}

impl Walk {
    /// Where that edge begins, by size.
    pub fn start(&self, edge: usize) -> &[Point] {
        match edge.checked_sub(1).and_then(|before| self.edges.get(before)) {
            Some(before) => &before.stretch.ends,
            None => &self.from,
        }
    }

    /// How that edge goes in that size.
    pub fn path(&self, edge: usize, size: usize) -> Vec<PathSeg> {
        let Some(one) = self.edges.get(edge) else { return Vec::new() };
        let (Some(from), Some(to)) = (of_size(self.start(edge), size), of_size(&one.stretch.ends, size))
        else {
            return Vec::new();
        };
        one.stretch.course(from, to, size)
    }

    /// All of it in that size.
    pub fn whole(&self, size: usize) -> BezPath {
        let each = (0..self.edges.len()).flat_map(|edge| self.path(edge, size));
        BezPath::from_path_segments(each)
    }

    /// How long that edge is in that size, in millimetres.
    pub fn length(&self, edge: usize, size: usize) -> f64 {
        self.path(edge, size).iter().map(|segment| length(segment, 1e-3)).sum()
    }

    /// The edges of that run.
    pub fn of_run(&self, run: usize) -> impl Iterator<Item = (usize, &Edge)> {
        self.edges.iter().enumerate().filter(move |(_, edge)| edge.run == run)
    }

    /// How many runs there are.
    pub fn runs(&self) -> usize {
        self.edges.last().map_or(0, |last| last.run + 1)
    }
}

impl Stretch {
    /// Its segments from there to there in that size.
    fn course(&self, from: Point, to: Point, size: usize) -> Vec<PathSeg> {
        let straight = vec![PathSeg::Line(kurbo::Line::new(from, to))];
        match &self.form {
            super::runs::Form::Straight => straight,
            super::runs::Form::Arc { centres, clockwise } => {
                let Some(centre) = of_size(centres, size) else { return straight };
                let turning = match clockwise {
                    true => crate::shape::arc::Turning::Clockwise,
                    false => crate::shape::arc::Turning::Anticlockwise,
                };
                match crate::shape::arc::arc_about(centre, from, to, turning) {
                    Ok(path) => path.segments().to_vec(),
                    Err(_) => straight,
                }
            }
            super::runs::Form::Handles { first, second } => {
                match (of_size(first, size), of_size(second, size)) {
                    (Some(first), Some(second)) => {
                        vec![PathSeg::Cubic(CubicBez::new(from, first, second, to))]
                    }
                    _ => straight,
                }
            }
        }
    }
}

/// Where a path comes nearest to a point: how far along it that is and how far away, in millimetres.
pub fn nearest(path: &[PathSeg], point: Point) -> Option<(f64, f64)> {
    let (at, place) = nearest_segment(path, point)?;
    let long = |segment: &PathSeg| length(segment, 1e-3);
    let before: f64 = path.iter().take(at).map(long).sum();
    let along = path.get(at).map_or(0.0, |segment| long(&segment.subsegment(0.0..place.t)));
    Some((before + along, libm::sqrt(place.distance_sq)))
}

/// How far a path is from a point, in millimetres.
pub fn away(path: &[PathSeg], point: Point) -> Option<f64> {
    nearest_segment(path, point).map(|(_, place)| libm::sqrt(place.distance_sq))
}

/// Which segment of a path comes nearest to a point, and where.
fn nearest_segment(path: &[PathSeg], point: Point) -> Option<(usize, kurbo::Nearest)> {
    let each = path.iter().map(|segment| kurbo::ParamCurveNearest::nearest(segment, point, 1e-3));
    each.enumerate().reduce(|best, own| if own.1.distance_sq < best.1.distance_sq { own } else { best })
}
