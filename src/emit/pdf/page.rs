//! What is drawn round the pieces on a page: its frame, its name, and where its neighbours join.

use super::cover::page_name;
use super::tiles::{MARGIN, OVERLAP, Tiling};
use crate::emit::drawing::{Pen, Shape, Words, in_short};
use kurbo::{BezPath, Circle, Point, Rect, Shape as _, Vec2};

/// Shapes on the drawing that join page `page` to its neighbours.
pub(super) fn joins(tiling: &Tiling, page: (usize, usize)) -> Vec<Shape> {
    let (row, column) = page;
    let part = tiling.part(page);
    let has = |page: (usize, usize)| tiling.pages.binary_search(&page).is_ok();
    let mut shapes =
        vec![Shape::stroke(Rect::new(part.x0, part.y0, part.x1, part.y1).to_path(0.1), Pen::Sheet)];
    if has((row, column + 1)) {
        let edge = part.x1 - OVERLAP;
        shapes.push(Shape::stroke(line(Point::new(edge, part.y0), Point::new(edge, part.y1)), Pen::Join));
        shapes.extend(beside(tiling, page, (row, column + 1)));
    }
    if column > 0 && has((row, column - 1)) {
        shapes.extend(beside(tiling, (row, column - 1), page));
    }
    if has((row + 1, column)) {
        let edge = part.y0 + OVERLAP;
        shapes.push(Shape::stroke(line(Point::new(part.x0, edge), Point::new(part.x1, edge)), Pen::Join));
        shapes.extend(below(tiling, page, (row + 1, column)));
    }
    if row > 0 && has((row - 1, column)) {
        shapes.extend(below(tiling, (row - 1, column), page));
    }
    shapes
}

/// Rings where a page and the one to its right lie over each other.
fn beside(tiling: &Tiling, page: (usize, usize), other: (usize, usize)) -> Vec<Shape> {
    let (part, height) = (tiling.part(page), tiling.field.1);
    let x = part.x1 - OVERLAP / 2.0;
    let rings = [0.2, 0.7].map(|share| Point::new(x, part.y1 - height * share));
    rings.into_iter().flat_map(|at| ring(at, page, other, true)).collect()
}

/// Rings where a page and the one below it lie over each other.
fn below(tiling: &Tiling, page: (usize, usize), other: (usize, usize)) -> Vec<Shape> {
    let (part, width) = (tiling.part(page), tiling.field.0);
    let y = part.y0 + OVERLAP / 2.0;
    let rings = [0.2, 0.7].map(|share| Point::new(part.x0 + width * share, y));
    rings.into_iter().flat_map(|at| ring(at, page, other, false)).collect()
}

/// A ring with a cross in it, and the names of the two pages that have it.
fn ring(at: Point, page: (usize, usize), other: (usize, usize), upright: bool) -> Vec<Shape> {
    let mut drawn = Circle::new(at, RING).to_path(0.01);
    for way in [Vec2::new(RING, 0.0), Vec2::new(0.0, RING)] {
        drawn.extend(line(at - way, at + way));
    }
    let pair = format!("{} and {}", page_name(page), page_name(other));
    let mut words = Words::new(pair.clone(), Point::ZERO, 2.6).grey();
    let half = words.length() / 2.0;
    words.at = if upright {
        words.angle = std::f64::consts::FRAC_PI_2;
        at + Vec2::new(0.9, -RING - 1.5 - 2.0 * half)
    } else {
        at + Vec2::new(RING + 1.5, -0.9)
    };
    vec![Shape::stroke(drawn, Pen::Sheet).named(format!("join {pair}")), Shape::words(words)]
}

/// The words in the lower margin; (0, 0) is the page's lower left corner.
pub(super) fn foot(
    page: (usize, usize),
    number: usize,
    count: usize,
    title: &str,
    sizes: &str,
) -> Vec<Shape> {
    let name = Words::new(page_name(page), Point::new(MARGIN, MARGIN - 6.4), 5.4).bold();
    let after = name.at + Vec2::new(name.length() + 4.0, 0.0);
    let mut words = in_short(title, FOOT_LETTERS);
    if !sizes.is_empty() {
        words = format!("{words}, {sizes}");
    }
    let words = format!("{words}: page {number} of {count}");
    vec![Shape::words(name), Shape::words(Words::new(words, after, 3.2).grey())]
}

fn line(from: Point, to: Point) -> BezPath {
    let mut line = BezPath::new();
    line.move_to(from);
    line.line_to(to);
    line
}

/// The most letters of a title in the foot.
const FOOT_LETTERS: usize = 60;
/// The radius of a ring.
const RING: f64 = 3.6;
