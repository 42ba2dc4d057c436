//! Edges that bend in one size otherwise than in the others.

use super::pattern::{Piece, Walk, of_size};
use crate::report::listed;
use kurbo::{ParamCurve, ParamCurveArea, Point};

/// A curve whose middle lies so far beside its chord, in millimetres, bends to that side.
const BENDS: f64 = 1.5;
/// What is no farther off than this, in millimetres, is straight …
const STRAIGHT: f64 = 0.3;
/// … and what is farther off than this bows.
const BOWS: f64 = 2.0;

/// By edge that bends otherwise in some sizes, its number and a sentence's end, behind its name.
pub fn bends(piece: &Piece, sizes: &[String]) -> Vec<(usize, String)> {
    of_walk(&piece.outline, [["into the piece", "into it"], ["out of the piece", "out of it"]], sizes)
}

/// The same of a line inside a piece.
pub fn bends_of_line(line: &Walk, sizes: &[String]) -> Vec<(usize, String)> {
    of_walk(line, [["to one side", "to the other"]; 2], sizes)
}

/// What the two ways are called to which something bends, each as it is said first and second.
type Ways = [[&'static str; 2]; 2];

fn of_walk(walk: &Walk, ways: Ways, sizes: &[String]) -> Vec<(usize, String)> {
    if sizes.len() < 2 {
        return Vec::new();
    }
    let mut found = Vec::new();
    for run in 0..walk.runs() {
        let edges: Vec<usize> = walk.of_run(run).map(|(edge, _)| edge).collect();
        let other_way = edges.iter().find_map(|edge| Some((*edge, other_way(walk, *edge, ways, sizes)?)));
        let bowed = || Some((*edges.first()?, bowed(walk, &edges, sizes)?));
        found.extend(other_way.or_else(bowed));
    }
    found
}

/// The sizes in which an edge bends to the other side.
fn other_way(outline: &Walk, edge: usize, ways: Ways, sizes: &[String]) -> Option<String> {
    let heights: Vec<f64> =
        (0..sizes.len()).map(|size| height(outline, edge, size)).collect::<Option<_>>()?;
    if heights.iter().any(|height| height.abs() < BENDS) {
        return None;
    }
    let of = |is_out: bool| -> Vec<&str> {
        let each = heights.iter().zip(sizes).filter(|(height, _)| (**height > 0.0) == is_out);
        each.map(|(_, name)| name.as_str()).collect()
    };
    // Anticlockwise what lies to the left of the way lies inside.
    let (inward, outward) = (of(true), of(false));
    if inward.is_empty() || outward.is_empty() {
        return None;
    }
    let [[into, into_too], [out, out_too]] = ways;
    let (odd, usual, way, other) = match inward.len() <= outward.len() {
        true => (inward, outward, into, out_too),
        false => (outward, inward, out, into_too),
    };
    Some(format!("bends {way} in {}, and {other} in {}: is it turned over?", listed(&odd), listed(&usual)))
}

/// How far a curve lies to the left of its chord in the middle, in millimetres.
fn height(outline: &Walk, edge: usize, size: usize) -> Option<f64> {
    let from = of_size(outline.start(edge), size)?;
    let to = of_size(&outline.edges.get(edge)?.stretch.ends, size)?;
    let back = kurbo::PathSeg::Line(kurbo::Line::new(to, from));
    let round: f64 = outline.path(edge, size).iter().chain([&back]).map(ParamCurveArea::signed_area).sum();
    // What lies to the right is gone round anticlockwise.
    (from.distance(to) > 1.0).then(|| -round / from.distance(to))
}

/// What is said of a run that is straight in some sizes and bows in others.
fn bowed(outline: &Walk, edges: &[usize], sizes: &[String]) -> Option<String> {
    let off: Vec<f64> = (0..sizes.len()).map(|size| bow(outline, edges, size)).collect::<Option<_>>()?;
    let straight: Vec<&str> =
        off.iter().zip(sizes).filter(|(off, _)| **off < STRAIGHT).map(|(_, name)| name.as_str()).collect();
    let bows: Vec<&str> =
        off.iter().zip(sizes).filter(|(off, _)| **off > BOWS).map(|(_, name)| name.as_str()).collect();
    let most = off.iter().copied().fold(0.0, f64::max);
    let is_told = !straight.is_empty() && !bows.is_empty() && straight.len() + bows.len() == sizes.len();
    is_told.then(|| {
        format!(
            "is straight in {}, and bows by {most:.0} mm in {}: is one of them drawn otherwise than it is meant?",
            listed(&straight),
            listed(&bows)
        )
    })
}

/// How far a run lies from the straight line between its ends, at most.
fn bow(outline: &Walk, edges: &[usize], size: usize) -> Option<f64> {
    let from = of_size(outline.start(*edges.first()?), size)?;
    let to = of_size(&outline.edges.get(*edges.last()?)?.stretch.ends, size)?;
    let long = from.distance(to);
    let way = to - from;
    let off = |at: Point| (at - from).cross(way).abs() / long;
    let places = edges.iter().flat_map(|edge| outline.path(*edge, size));
    let places = places.flat_map(|one| (1..=8).map(move |at| one.eval(f64::from(at) / 8.0)));
    (long > 1.0).then(|| places.map(off).fold(0.0, f64::max))
}
