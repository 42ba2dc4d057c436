//! Collars that are turned over, on the garment laid flat: each falls from the upper edge of its stand, or from where it folds over
//! if it has none.

use super::canvas::{Panel, polygon};
use super::doubled::Doubled;
use super::ink::Stroke;
use super::making::Making;
use crate::sewing::surface::FaceId;
use crate::shape::{Point, Vec2, unit};

/// A collar without a stand folds over at this share of how deep it is.
const FOLDS: f64 = 0.35;
/// Lines whose ends are no farther apart are one, in millimetres.
const ONE_LINE: f64 = 3.0;
/// A neck is hollow by more than this, in millimetres; a waist is not.
const HOLLOW: f64 = 20.0;
/// A collar falls a little, whichever way its neck line faces.
const FALLS: f64 = 0.35;
/// The ends of a collar spread away from the middle by this share of how deep they are, at least.
const SPREAD: f64 = 0.2;

/// What stands along an edge of a view.
pub struct Band {
    /// Which face.
    pub face: FaceId,
    /// The edge that it is sewn to.
    pub line: Vec<Point>,
    /// From there to its upper edge.
    pub off: Vec2,
}

impl Band {
    /// How long the edge is.
    pub fn long(&self) -> f64 {
        self.line.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
    }
}

/// How high a narrow piece with a twin stands above the edge that it is sewn to.
pub fn high(own: &Doubled) -> f64 {
    if own.on.is_none() && own.is_turned() { FOLDS * own.deep } else { own.deep }
}

/// Draws the collars that fall over a view; which faces they are.
pub fn draw(making: &Making, doubled: &[Doubled], bands: &[Band], panel: &mut Panel) -> Vec<FaceId> {
    let mut seen = Vec::new();
    for collar in doubled.iter().filter(|own| own.is_turned()) {
        let stand = collar.on.unwrap_or(collar.face);
        let Some(stands) = doubled.iter().find(|own| own.face == stand) else { continue };
        let Some(flat) = making.flat(collar.face) else { continue };
        let own: Vec<&Band> = bands.iter().filter(|band| band.face == stand && band.off.y > 0.0).collect();
        let lines = joined(own.iter().map(|band| band.line.clone()).collect());
        let top = lines.iter().flatten().map(|at| at.y).fold(f64::MIN, f64::max);
        let low = lines.iter().flatten().map(|at| at.y).fold(f64::MAX, f64::min);
        let up = high(stands);
        if top - low < HOLLOW && collar.on.is_none() {
            continue;
        }
        // The stand may be longer than the collar: its ends lie beyond it.
        let beyond = ((stands.long - collar.long) / 2.0).max(0.0);
        for line in lines {
            let Some(ring) = fallen(&line, top, up, collar, beyond) else { continue };
            panel.cloth(polygon(&ring), making.cloth(flat.layer, true, false));
            panel.line(polygon(&ring), Stroke::Outline);
            seen.push(collar.face);
        }
    }
    seen
}

/// A collar over one line of the neck, from its upper fold to its lower edge.
fn fallen(line: &[Point], top: f64, up: f64, collar: &Doubled, beyond: f64) -> Option<Vec<Point>> {
    let (first, last) = (line.first()?, line.last()?);
    // What crosses the middle has no end here; of a left or right half the end is near the middle.
    let is_half = first.x * last.x >= 0.0 || first.x.abs().min(last.x.abs()) < HOLLOW;
    let mut line = line.to_vec();
    if is_half && last.x.abs() < first.x.abs() {
        line.reverse();
    }
    let line = if is_half { shortened(&line, beyond) } else { line };
    let neck = Point::new(0.0, top);
    let outward: Vec<Vec2> = (0..line.len())
        .map(|at| {
            let (before, after) = (line[at.saturating_sub(1)], line[(at + 1).min(line.len() - 1)]);
            let along = way_of(after - before);
            let across = Vec2::new(-along.y, along.x);
            let across = if across.dot(line[at] - neck) < 0.0 { -across } else { across };
            way_of(across - Vec2::new(0.0, FALLS))
        })
        .collect();
    let over = (collar.deep - up * if collar.on.is_some() { 1.0 } else { 2.0 }).max(0.0);
    let mut lower: Vec<Point> = line.iter().zip(&outward).map(|(at, way)| *at + *way * over).collect();
    let upper: Vec<Point> = line.iter().map(|at| *at + Vec2::new(0.0, up)).collect();
    if is_half {
        let along = way_of(*line.get(1)? - *line.first()?);
        let (start, way) = (upper.first()?, outward.first()?);
        let (far, across) = collar.end;
        let end = *start + along * far.max(SPREAD * across) + *way * across;
        *lower.first_mut()? = end;
    }
    lower.reverse();
    Some(upper.into_iter().chain(lower).collect())
}

/// Lines that meet end to end as one.
fn joined(mut lines: Vec<Vec<Point>>) -> Vec<Vec<Point>> {
    lines.retain(|line| line.len() > 1);
    let mut all: Vec<Vec<Point>> = Vec::new();
    for mut line in lines {
        // Whatever it meets is taken in, and may meet others then.
        while let Some((at, joint)) =
            all.iter().enumerate().find_map(|(at, own)| Some((at, meeting(own, &line)?)))
        {
            line = joint;
            all.remove(at);
        }
        all.push(line);
    }
    all
}

fn meeting(one: &[Point], other: &[Point]) -> Option<Vec<Point>> {
    let (start, end) = (one.first()?, one.last()?);
    let (its_start, its_end) = (other.first()?, other.last()?);
    let near = |one: &Point, other: &Point| one.distance(*other) < ONE_LINE;
    let turned = |line: &[Point]| line.iter().rev().copied().collect::<Vec<Point>>();
    let then = |one: Vec<Point>, other: Vec<Point>| Some([one, other[1..].to_vec()].concat());
    if near(end, its_start) {
        then(one.to_vec(), other.to_vec())
    } else if near(end, its_end) {
        then(one.to_vec(), turned(other))
    } else if near(start, its_start) {
        then(turned(one), other.to_vec())
    } else if near(start, its_end) {
        then(other.to_vec(), one.to_vec())
    } else {
        None
    }
}

/// A line without so much of its beginning.
fn shortened(line: &[Point], by: f64) -> Vec<Point> {
    let mut left = by;
    for (at, pair) in line.windows(2).enumerate() {
        let long = pair[0].distance(pair[1]);
        if left < long {
            let from = pair[0].lerp(pair[1], left / long);
            return std::iter::once(from).chain(line[at + 1..].iter().copied()).collect();
        }
        left -= long;
    }
    line.to_vec()
}

/// The way that it goes; down, where it goes nowhere.
fn way_of(vector: Vec2) -> Vec2 {
    unit(vector).unwrap_or(Vec2::new(0.0, -1.0))
}

#[cfg(test)]
mod tests {
    use super::{joined, shortened};
    use crate::shape::Point;

    /// Three lines of 10 on end, given out of order and turned, are one of 30; without its first 12 it is 18 long.
    #[test]
    fn lines_on_end_are_one() {
        let at = |x: f64| Point::new(x, 0.0);
        let lines = vec![vec![at(0.0), at(10.0)], vec![at(30.0), at(20.0)], vec![at(10.0), at(20.0)]];
        let one = joined(lines);
        assert_eq!(one.len(), 1);
        let long = |line: &[Point]| line.windows(2).map(|pair| pair[0].distance(pair[1])).sum::<f64>();
        assert!((long(&one[0]) - 30.0).abs() < 1e-9);
        assert!((long(&shortened(&one[0], 12.0)) - 18.0).abs() < 1e-9);
    }
}
