//! A test square: a closed square that is called, or inscribed with, the length of its side.

use super::elements::Elements;
use crate::bring::traced::TracedPath;
use kurbo::{Affine, ParamCurve, PathSeg, Point};

/// By how much a square may miss its length and the drawing still be at scale.
const EXACT: f64 = 0.002;

/// Takes test squares out of a drawing, and brings it to the scale that the first one says.
pub fn by_square(drawing: &mut Elements) {
    let mut said: Option<(f64, f64)> = None;
    let words = std::mem::take(&mut drawing.words);
    drawing.items.retain(|item| {
        let [path] = item.paths.as_slice() else { return true };
        let Some((side, corners)) = square(path) else { return true };
        let (low, high) = (corners[0], corners[1]);
        let inside = words.iter().filter(|words| {
            words.at.x > low.x - side * 0.1
                && words.at.x < high.x
                && words.at.y > low.y - side * 0.4
                && words.at.y < high.y
        });
        let mut texts = item.name.iter().chain(inside.map(|words| &words.text));
        match texts.find_map(|text| length_in(text)) {
            Some(length) => {
                said.get_or_insert((length, side));
                false
            }
            None => true,
        }
    });
    drawing.words = words;
    let Some((length, side)) = said else { return };
    let factor = length / side;
    if (factor - 1.0).abs() > EXACT {
        let by = Affine::scale(factor);
        for item in &mut drawing.items {
            for segment in item.paths.iter_mut().flat_map(|path| &mut path.segments) {
                segment.course = by * segment.course;
                if let Some(arc) = &mut segment.arc {
                    arc.centre = by * arc.centre;
                }
            }
        }
        for words in &mut drawing.words {
            words.at = by * words.at;
        }
        drawing.remarks.push(format!(
            "the square of {length:.1} mm is drawn {side:.1} mm wide: everything is brought to its scale"
        ));
    }
    drawing.measured = true;
}

/// The side of a square that stands upright, and its lower left and upper right corner.
fn square(path: &TracedPath) -> Option<(f64, [Point; 2])> {
    if !path.closed || path.segments.len() != 4 {
        return None;
    }
    let corners: Vec<Point> = path
        .segments
        .iter()
        .filter(|one| matches!(one.course, PathSeg::Line(_)))
        .map(|one| one.course.start())
        .collect();
    let &[a, b, c, d] = corners.as_slice() else { return None };
    let (side, other, slant) = (a.distance(b), b.distance(c), a.distance(c) - b.distance(d));
    let upright = (a.x - b.x).abs() < 1e-3 * side || (a.y - b.y).abs() < 1e-3 * side;
    let even = (side - other).abs() < 1e-3 * side && slant.abs() < 1e-3 * side;
    let low = Point::new(a.x.min(c.x), a.y.min(c.y));
    (even && upright && side > 0.0).then(|| (side, [low, Point::new(a.x.max(c.x), a.y.max(c.y))]))
}

/// The length that some words name, in millimetres: `10 cm`, `test square 4in`.
fn length_in(text: &str) -> Option<f64> {
    let lower = text.to_lowercase();
    let number_at = lower.find(|letter: char| letter.is_ascii_digit())?;
    let rest = &lower[number_at..];
    let number: String =
        rest.chars().take_while(|letter| letter.is_ascii_digit() || *letter == '.').collect();
    let unit = rest[number.len()..].trim_start_matches([' ', '-', '_', '×']);
    let mm = match () {
        () if unit.starts_with("cm") => 10.0,
        () if unit.starts_with("mm") => 1.0,
        () if unit.starts_with("in") || unit.starts_with('"') => 25.4,
        () => return None,
    };
    let length = number.parse::<f64>().ok()? * mm;
    (1.0..2000.0).contains(&length).then_some(length)
}
