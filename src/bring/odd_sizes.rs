//! What is drawn otherwise in one size of a piece than in the others, as far as their outlines show it.

use super::astray::{Astray, along, astray};
use super::course::Course;
use super::handles::{Exchanged, exchanged};
use super::jumps::way;
use super::pattern::{Piece, of_size};
use super::traced::TracedSize;
use super::turned_over::turned_over;
use super::unmatched::place;
use crate::report::listed;
use kurbo::{Point, Vec2};

/// How near to a point of the text, in millimetres, one of the drawing is that point.
const SAME: f64 = 0.02;
/// Of more sizes it is not said one by one which the others are.
const NAMED: usize = 4;

/// What is drawn otherwise in one size.
pub struct OddSizes {
    turned: Option<String>,
    exchanged: Vec<Exchanged>,
    astray: Vec<Astray>,
}

impl OddSizes {
    /// Of a piece in all its sizes.
    pub fn of(drawn: &[&TracedSize], courses: &[Course], sizes: &[String]) -> Self {
        let borrowed: Vec<&Course> = courses.iter().collect();
        let turned = if courses.len() > 1 { turned_over(drawn, courses, sizes) } else { None };
        let exchanged = exchanged(&borrowed, sizes);
        // Of handles that are exchanged it is not told how far each of them lies off.
        let mut astray = astray(&borrowed);
        astray.retain(|own| exchanged.is_empty() || !own.is_handle);
        OddSizes { turned, exchanged, astray }
    }

    /// Looks along the outlines too, once it is known which corners answer to which.
    pub fn look_along(&mut self, courses: &[&Course], places: &[Vec<usize>]) {
        if !self.tells_of_edges() {
            self.astray = along(courses, places);
        }
    }

    /// Which of both explains the other, where an outline is smaller in a larger size: a corner that lies off may make it so. Of sizes
    /// that are mixed up it is not told how handles lie off.
    pub fn explain(&mut self, against: Option<String>) -> Option<String> {
        let is_corner = self.astray.iter().any(|own| !own.is_handle);
        if against.is_some() {
            self.astray.retain(|own| !own.is_handle);
        }
        against.filter(|_| !is_corner)
    }

    /// Whether a size lies turned over: whatever else is odd of it follows from that.
    pub fn is_turned(&self) -> bool {
        self.turned.is_some()
    }

    /// Whether edges may be odd because of what is told of their points.
    pub fn tells_of_edges(&self) -> bool {
        self.is_turned() || !self.exchanged.is_empty() || !self.astray.is_empty()
    }

    /// By size, of so many, the points that lie off.
    pub fn places(&self, sizes: usize) -> Vec<Vec<Point>> {
        let of_size = |size: usize| {
            self.astray.iter().filter(|own| own.size == size && !own.is_handle).map(|own| own.at).collect()
        };
        (0..sizes).map(of_size).collect()
    }

    /// What explains why sizes do not answer to each other, or why an outline crosses itself in `size`.
    pub fn why(&self, courses: &[Course], sizes: &[String], size: Option<usize>) -> Option<String> {
        let is_meant = |own: usize| size.is_none_or(|size| size == own);
        let placed =
            |size: usize, at: Point| courses.get(size).map(|course| place(course, at)).unwrap_or_default();
        let turned = self.turned.clone().filter(|_| size.is_none());
        let exchanged = self
            .exchanged
            .iter()
            .find(|own| is_meant(own.size))
            .map(|own| format!("the curve that begins {} {}", placed(own.size, own.ends.0), own.words));
        let astray = self.astray.iter().find(|own| is_meant(own.size)).map(|own| {
            let what = if own.is_handle { "the handle of a curve" } else { "the point" };
            format!("{what} {} {}", placed(own.size, own.at), lies_off(own, sizes))
        });
        turned.or(exchanged).or(astray)
    }

    /// Sentences on a piece that came in.
    pub fn remarks(
        &self,
        piece: &Piece,
        courses: &[Course],
        sizes: &[String],
        shifts: &[Vec2],
    ) -> Vec<String> {
        let head = format!("{} ({}): ", piece.name, piece.origin);
        if let Some(words) = &self.turned {
            return vec![format!("{head}{words}")];
        }
        let moved = |size: usize, at: Point| at + shifts.get(size).copied().unwrap_or_default();
        let begins = |size: usize, at: Point| {
            let near = |edge: &usize| {
                of_size(piece.outline.start(*edge), size).is_some_and(|start| start.distance(at) < SAME)
            };
            (0..piece.outline.edges.len()).find(near)
        };
        let placed =
            |size: usize, at: Point| courses.get(size).map(|course| place(course, at)).unwrap_or_default();
        let handles = self.exchanged.iter().map(|own| {
            let edge =
                begins(own.size, moved(own.size, own.ends.0)).and_then(|edge| piece.outline.edges.get(edge));
            let what = edge.map_or_else(
                || format!("the curve that begins {}", placed(own.size, own.ends.0)),
                |edge| edge.name.clone(),
            );
            format!("{head}{what} {}", own.words)
        });
        let points = self.astray.iter().map(|own| {
            let corner = begins(own.size, moved(own.size, own.at)).map(|edge| piece.corner(edge));
            let what = match own.is_handle {
                true => "the handle of a curve".to_owned(),
                false => corner.unwrap_or_else(|| "a point".to_owned()),
            };
            format!("{head}{what}, {}, {}", placed(own.size, own.at), lies_off(own, sizes))
        });
        handles.chain(points).collect()
    }
}

/// `lies 40 mm off in M, 40 mm to the right of where S and L have it: …`.
fn lies_off(own: &Astray, sizes: &[String]) -> String {
    if let Some((least, most)) = own.leaps {
        return format!(
            "grows by leaps, {least:.0} mm from one size to the next at least and {most:.0} mm at most, where the other corners grow \
             evenly: is it drawn in the wrong place in some sizes?"
        );
    }
    let others: Vec<&str> =
        sizes.iter().enumerate().filter(|(at, _)| *at != own.size).map(|(_, name)| name.as_str()).collect();
    let others = if others.len() > NAMED { "the other sizes".to_owned() } else { listed(&others) };
    let size = sizes.get(own.size).map_or("", String::as_str);
    let or = own.or.and_then(|or| sizes.get(or));
    let or = or.map_or_else(String::new, |or| format!(", or in {or} as the other two grow"));
    format!(
        "lies {:.0} mm off in {size} ({}) from where {others} have it as they grow{or}: is it drawn in the wrong place?",
        own.off.hypot(),
        way(own.off)
    )
}
