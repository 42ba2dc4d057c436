//! All pieces on one page as wide as a roll of paper or a screen: for a copy shop's plotter, or for a projector over the
//! cutting table, white on black.

use super::along::Along;
use super::cells::{Cover, cell_of};
use super::cover::{fitting, square};
use super::ink::{Ground, draw, sharing};
use super::letters::Letters;
use super::pack::{Order, ToPack, pack};
use super::stretches::{GAP, INSET, ink};
use super::tiles::MARGIN;
use super::{Sheets, Unprintable, layers, packed, shapes_shown, size_words, sizes_shown, started, written};
use crate::cutting::Cutting;
use crate::emit::drawing::{
    ABOUT_LETTERS, DrawnGroup, Look, Pen, Shape, TITLE_LETTERS, Words, draw_group, entries, in_short, pieces,
    sample,
};
use crate::garment::Garment;
use crate::report::{DisplayUnit, INCH};
use kurbo::{BezPath, Point, Rect, Vec2};
use rayon::prelude::*;

/// How a wide page is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wide {
    /// How wide it is, in millimetres; it is as long as it has to be.
    pub width: f64,
    /// White on black.
    pub dark: bool,
    /// A grid under the pieces: of 10 cm, or of 1 in for a garment in inches.
    pub grid: bool,
}

/// One page with these sizes of a garment, in one another where they are several, each a layer.
///
/// # Errors
/// Where a piece is wider than the page.
pub fn pdf_wide(
    garment: &Garment,
    cuts: &[Cutting],
    wide: Wide,
    look: &Look,
) -> Result<Vec<u8>, Unprintable> {
    let pieces = pieces(garment, cuts, look);
    let groups: Vec<DrawnGroup> =
        pieces.par_iter().filter_map(|piece| draw_group(garment, piece, look, false)).collect();
    let field = wide.width - 2.0 * MARGIN;
    let groups: Vec<DrawnGroup> = groups.into_iter().map(|group| fitted(group, field)).collect();
    let to_pack =
        |group| ToPack { cover: Cover::of(group, &ink(group), cell_of(field)), along: Along::default() };
    let covers: Vec<ToPack> = groups.par_iter().map(to_pack).collect();
    let tried =
        Order::ALL.into_iter().filter_map(|order| pack(&covers, field, None, &order.of(&covers), None));
    let laid = tried.min_by(|one, other| one.height.total_cmp(&other.height)).ok_or(Unprintable::Narrow)?;
    let sizes = sizes_shown(cuts, look);
    let drawn = shapes_shown(&groups, &laid.moves, look);
    let (heading, head) = heading(garment, &drawn, &size_words(garment, &sizes), field);
    let (width, height) = (wide.width, 2.0 * MARGIN + head + laid.height);
    let mut shapes = Vec::new();
    if wide.grid {
        shapes.push(grid(width, height, garment.unit));
    }
    let corner = Vec2::new(MARGIN, height - MARGIN);
    shapes.extend(heading.into_iter().map(|shape| shape.moved(corner)));
    let down = corner - Vec2::new(0.0, head);
    shapes.extend(drawn.into_iter().map(|shape| shape.moved(down)));
    let (layers, sewn_apart) = layers(&sizes, look);
    let mut letters = Letters::default();
    let mut content = started(width.max(height));
    let whole = Rect::new(0.0, 0.0, width, height);
    let ground = if wide.dark { Ground::Dark } else { Ground::Paper };
    ground.fill(&mut content, whole);
    draw(&mut content, &shapes, whole, sewn_apart, ground, &mut letters);
    let contents = [packed(&content.finish())];
    let sheets = Sheets { contents: &contents, size: (width, height) };
    Ok(written(garment, sheets, &layers, &sharing(&shapes), &letters))
}

/// A piece that is too wide for the page, turned a quarter.
fn fitted(group: DrawnGroup, field: f64) -> DrawnGroup {
    if group.bounds.width() + INSET + GAP <= field {
        return group;
    }
    let turn = |points: &[Point]| points.iter().map(|point| Point::new(-point.y, point.x)).collect();
    let bounds = group.bounds;
    DrawnGroup {
        bounds: Rect::new(-bounds.y1, bounds.x0, -bounds.y0, bounds.x1),
        outline: turn(&group.outline),
        outlines: group.outlines.iter().map(|(size, outline)| (*size, turn(outline))).collect(),
        shapes: group.shapes.into_iter().map(Shape::turned).collect(),
        ..group
    }
}

/// Title, squares to measure and key, from (0, 0) to the right and down, and how high all of it is.
fn heading(garment: &Garment, drawn: &[Shape], sizes: &str, across: f64) -> (Vec<Shape>, f64) {
    let mut shapes = Vec::new();
    let title = Words::new(in_short(&garment.title, TITLE_LETTERS), Point::new(0.0, -9.0), 12.0).bold();
    shapes.push(Shape::words(fitting(title, across)));
    let credits = in_short(&garment.credits.line(), ABOUT_LETTERS);
    let below =
        [sizes, &*credits].iter().filter(|words| !words.is_empty()).copied().collect::<Vec<_>>().join(".  ");
    if !below.is_empty() {
        let words = Words::new(below, Point::new(0.0, -17.0), 5.0).grey();
        shapes.push(Shape::words(fitting(words, across)));
    }
    shapes.extend(square(Point::new(0.0, -HEADED - INCHES), INCHES, "4 in", false));
    let (mut left, mut top) = (INCHES + 12.0, HEADED + 4.0);
    let mut lowest = HEADED + INCHES;
    if across >= INCHES + CENTIMETRES + 90.0 {
        shapes.extend(square(Point::new(left, -HEADED - CENTIMETRES), CENTIMETRES, "10 cm", true));
        left += CENTIMETRES + 12.0;
    }
    for entry in entries(garment, drawn) {
        // As many columns as there is room for; what is more goes on down.
        if top > HEADED + INCHES && left + 2.0 * COLUMN <= across {
            (left, top) = (left + COLUMN, HEADED + 4.0);
        }
        shapes.extend(sample(&entry, Point::new(left, -top), BODY));
        lowest = lowest.max(top + ROW);
        top += ROW;
    }
    (shapes, lowest + 14.0)
}

/// Lines each 10 cm, or each inch, across and down from the upper left.
fn grid(width: f64, height: f64, unit: DisplayUnit) -> Shape {
    let step = match unit {
        DisplayUnit::Inch => INCH,
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => 100.0,
    };
    let mut lines = BezPath::new();
    let count = |length: f64| (length / step).floor() as usize;
    for at in 1..=count(width) {
        lines.move_to((at as f64 * step, 0.0));
        lines.line_to((at as f64 * step, height));
    }
    for at in 1..=count(height) {
        lines.move_to((0.0, height - at as f64 * step));
        lines.line_to((width, height - at as f64 * step));
    }
    Shape::stroke(lines, Pen::Sheet).named("grid")
}

/// From the top to the squares, in millimetres.
const HEADED: f64 = 24.0;
/// The side of the square in inches: 4 × 25.4 mm.
const INCHES: f64 = 101.6;
/// The side of the square in centimetres.
const CENTIMETRES: f64 = 100.0;
/// How wide a column of the key is.
const COLUMN: f64 = 110.0;
/// From line to line of the key.
const ROW: f64 = 8.0;
/// The body of the key's words.
const BODY: f64 = 4.2;
