//! What drawings hold, to be looked at where it makes no pattern: every outline, its corners by their numbers.

use super::corners::sharp;
use super::course::Course;
use super::look::{INKS, dot, marked, stroke, written};
use super::names::one_line;
use super::traced::Traced;
use kurbo::{Affine, BezPath, Rect, Vec2};
use svg::Document;

/// Between two outlines, in millimetres.
const GAP: f64 = 60.0;
/// The ends of a line that does not close.
const OPEN: &str = "#d00000";

/// The picture, as the text of an SVG file in millimetres: a row a piece, its sizes side by side; below them what
/// does not close, its ends marked.
pub fn sketch(traced: &Traced, least: f64) -> String {
    let mut document = marked(Document::new());
    let (mut top, mut widest) = (GAP, 0.0_f64);
    for piece in &traced.pieces {
        let (mut left, mut deepest) = (GAP, 0.0_f64);
        for (number, (size, drawn)) in piece.sizes.iter().enumerate() {
            let Some(course) = Course::of(&drawn.outline) else { continue };
            let bounds: Rect = course.bounds();
            let place = Affine::translate((left - bounds.x0, top + bounds.y1)) * Affine::FLIP_Y;
            let ink = INKS.get(number % INKS.len()).copied().unwrap_or("#000000");
            let whole = BezPath::from_path_segments(course.segments.iter().map(|one| one.course));
            document = document.add(stroke(whole, place, ink, 0.6));
            for (corner, at) in sharp(&course, least).into_iter().enumerate() {
                let at = place * course.node(at);
                document = document.add(dot(at, 1.2, ink));
                let words = (corner + 1).to_string();
                document = document.add(written(&words, at + Vec2::new(2.0, -2.0), 6.0, "start"));
            }
            let words = format!("{} {}", one_line(&piece.name), one_line(size));
            document = document.add(written(words.trim(), place * bounds.center(), 8.0, "middle"));
            left += bounds.width() + GAP;
            deepest = deepest.max(bounds.height());
        }
        widest = widest.max(left);
        top += deepest + GAP;
    }
    for path in &traced.open {
        let Some(course) = Course::of(path) else { continue };
        let bounds: Rect = course.bounds();
        let place = Affine::translate((GAP - bounds.x0, top + bounds.y1)) * Affine::FLIP_Y;
        let whole = BezPath::from_path_segments(course.segments.iter().map(|one| one.course));
        document = document.add(stroke(whole, place, INKS.first().copied().unwrap_or("#000000"), 0.6));
        for end in [0, course.segments.len()] {
            document = document.add(dot(place * course.node(end), 3.0, OPEN));
        }
        document = document.add(written("does not close", place * bounds.center(), 8.0, "middle"));
        widest = widest.max(bounds.width() + 2.0 * GAP);
        top += bounds.height() + GAP;
    }
    let document = document
        .set("width", format!("{widest:.1}mm"))
        .set("height", format!("{top:.1}mm"))
        .set("viewBox", format!("0 0 {widest:.1} {top:.1}"));
    format!("{document}\n")
}
