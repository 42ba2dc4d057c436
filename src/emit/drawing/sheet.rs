//! The whole drawing on one sheet: title, key, and the pieces on their rails.

use super::font::Face;
use super::key::{WORDS, entries, sample};
use super::layout::{Arranged, Hanging, arrange};
use super::look::Look;
use super::pen::Pen;
use super::piece::{DrawnGroup, draw_group};
use super::pieces::{Group, pieces};
use super::shape::{ABOUT_LETTERS, Shape, TITLE_LETTERS, Words, in_short};
use crate::cutting::Cutting;
use crate::garment::{Credits, Garment, SizeId};
use crate::report::{DisplayUnit, INCH};
use crate::shape::path::Path;
use kurbo::{BezPath, Point, Vec2};

/// A sheet: (0, 0) is its upper left corner, y is up.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// In millimetres.
    pub width: f64,
    /// In millimetres.
    pub height: f64,
    /// In the order in which they are drawn.
    pub shapes: Vec<Shape>,
}

/// Draws these sizes of a garment, in one another where they are several.
pub fn sheet(garment: &Garment, cuts: &[Cutting], look: &Look) -> Sheet {
    let pieces_of_paper = pieces(garment, cuts, look);
    // What is written on a large sheet is looked at from farther away.
    let look = &Look { words: look.words * enlarged(across(&pieces_of_paper)), ..look.clone() };
    let groups: Vec<DrawnGroup> =
        pieces_of_paper.iter().filter_map(|piece| draw_group(garment, piece, look, true)).collect();
    let area: f64 =
        groups.iter().map(|group| (group.bounds.width() + 18.0) * (group.bounds.height() + 26.0)).sum();
    let widest = groups.iter().map(|group| group.bounds.width()).fold(300.0, f64::max);
    let arranged =
        arrange(&groups, Hanging { width: (area * 1.5).sqrt().max(widest), gap: 18.0, headed: true });
    let mut pieces: Vec<Shape> = Vec::new();
    for (group, by) in groups.iter().zip(&arranged.moves) {
        pieces.extend(group.shapes.iter().map(|shape| shape.clone().moved(*by)));
    }
    let key = entries(garment, &pieces);
    let across = arranged.width.max(widest);
    let scale = enlarged(across);
    let body = BODY * scale;
    let longest = key.iter().map(|entry| Face::Plain.length(&entry.words, body)).fold(40.0, f64::max);
    let (column_width, row_height) = (WORDS + longest + 14.0, 9.0_f64.max(body * 1.7));
    let columns = ((across / column_width).floor() as usize).clamp(1, 4);
    let rows = key.len().div_ceil(columns);
    let title_body = TITLE * scale;
    let mut shapes = title(garment, cuts, title_body);
    // Who drew it stands in a line of its own.
    let above_key = title_body * if garment.credits == Credits::default() { 2.4 } else { 2.9 };
    let head = above_key + rows as f64 * row_height + 4.0 * scale;
    for (at, entry) in key.iter().enumerate() {
        let (column, row) = (at / rows.max(1), at % rows.max(1));
        let place =
            Point::new(MARGIN + column as f64 * column_width, -MARGIN - above_key - row as f64 * row_height);
        shapes.extend(sample(entry, place, body));
    }
    let down = Vec2::new(MARGIN, -MARGIN - head);
    shapes.extend(rails(garment, &arranged, down, scale));
    shapes.extend(pieces.into_iter().map(|shape| shape.moved(down)));
    // The measure stands to the right of the title.
    let title_long =
        Words::new(in_short(&garment.title, TITLE_LETTERS), Point::ZERO, title_body).bold().length();
    let across = across.max(title_long + title_body + MEASURE);
    let (width, height) = (across + 2.0 * MARGIN, arranged.height + head + 2.0 * MARGIN + 10.0);
    let place = Point::new(width - MARGIN - MEASURE, -MARGIN - title_body * 0.6);
    shapes.extend(measure(place, body, garment.unit));
    Sheet { width, height, shapes }
}

/// The sheet of a draft that is not finished, with what there is to mend listed under the pieces.
pub fn unfinished_sheet(garment: &Garment, cuts: &[Cutting], look: &Look, to_mend: &[String]) -> Sheet {
    let mut sheet = sheet(garment, cuts, look);
    if to_mend.is_empty() {
        return sheet;
    }
    let across = sheet.width - 2.0 * MARGIN;
    let body = BODY * (across / 700.0).clamp(1.0, 2.4);
    let heading = body * 1.8;
    let mut at = -sheet.height - heading;
    let words = format!("Not finished: {} to mend", to_mend.len());
    sheet.shapes.push(Shape::words(Words::new(words, Point::new(MARGIN, at), heading).bold()));
    at -= body;
    for note in to_mend {
        at -= body * 0.5;
        for (row, line) in wrapped(note, across, body).into_iter().enumerate() {
            at -= body * 1.4;
            let left = MARGIN + if row > 0 { body } else { 0.0 };
            sheet.shapes.push(Shape::words(Words::new(line, Point::new(left, at), body)));
        }
    }
    sheet.height = -at + MARGIN;
    sheet
}

/// Words in lines that are no longer than that; a word that is longer stands alone.
fn wrapped(words: &str, across: f64, body: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let room = across - if lines.len() > 1 { body } else { 0.0 };
        match lines.last_mut() {
            Some(line) if Face::Plain.length(&format!("{line} {word}"), body) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

fn title(garment: &Garment, cuts: &[Cutting], body: f64) -> Vec<Shape> {
    let sizes: Vec<SizeId> = cuts.iter().filter_map(|cut| cut.parts.first()).map(|part| part.size).collect();
    let mut shapes = vec![Shape::words(
        Words::new(in_short(&garment.title, TITLE_LETTERS), Point::new(MARGIN, -MARGIN - body * 0.76), body)
            .bold(),
    )];
    let mut below = match sizes.as_slice() {
        [] => String::new(),
        [one] => garment.size_words(*one),
        [first, .., last] => {
            let name = |id: &SizeId| &garment.size(*id).name;
            format!("sizes {} to {}, in one another", name(first), name(last))
        }
    };
    if let Some(about) = garment.about.as_deref() {
        below = if below.is_empty() { about.to_owned() } else { format!("{below}.  {about}") };
    }
    if !below.is_empty() {
        let at = Point::new(MARGIN, -MARGIN - body * 1.45);
        shapes.push(Shape::words(Words::new(in_short(&below, ABOUT_LETTERS), at, body * 0.36).grey()));
    }
    let credits = in_short(&garment.credits.line(), ABOUT_LETTERS);
    if !credits.is_empty() {
        let at = Point::new(MARGIN, -MARGIN - body * 2.0);
        shapes.push(Shape::words(Words::new(credits, at, body * 0.36).grey()));
    }
    shapes
}

/// The rails, and each layer's name over its first.
fn rails(garment: &Garment, arranged: &Arranged, by: Vec2, scale: f64) -> Vec<Shape> {
    let mut shapes = Vec::new();
    for &(from, to, layer) in &arranged.rails {
        let mut rail = BezPath::new();
        rail.move_to(from + by);
        rail.line_to(to + by);
        shapes.push(Shape::stroke(rail, Pen::Sheet));
        let Some(layer) = layer else { continue };
        let layer = garment.layer(layer);
        let name = Words::new(layer.name.to_string(), from + by + Vec2::new(0.0, 3.0), 7.0 * scale).bold();
        let off = name.length() + 3.0 * scale;
        shapes.push(Shape::words(name));
        if let Some(fabric) = layer.fabric {
            let cloth = in_short(&garment.fabric(fabric).title, TITLE_LETTERS);
            shapes.push(Shape::words(Words::new(cloth, from + by + Vec2::new(off, 3.0), 4.8 * scale).grey()));
        }
    }
    shapes
}

/// About how wide a sheet of these pieces becomes, in millimetres.
fn across(pieces: &[Group]) -> f64 {
    let bounds = pieces.iter().filter_map(|piece| {
        let paths = piece.members.iter().flat_map(|part| &part.stitching).map(Path::bounding_box);
        paths.reduce(|all, own| all.union(own))
    });
    let area: f64 = bounds.map(|bounds| (bounds.width() + 40.0) * (bounds.height() + 50.0)).sum();
    (area * 1.5).sqrt()
}

/// How many times larger words are on a sheet that is so wide.
fn enlarged(across: f64) -> f64 {
    (across / 700.0).clamp(1.0, 2.4)
}

/// A measure of 10 cm, a dash each centimetre, or of 4 in, a dash each quarter: what is printed true to scale shows it
/// so.
fn measure(at: Point, body: f64, unit: DisplayUnit) -> Vec<Shape> {
    let (step, count, whole, name) = match unit {
        DisplayUnit::Inch => (INCH / 4.0, 16, 4, "4 in"),
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => (10.0, 10, 5, "10 cm"),
    };
    let mut drawn = BezPath::new();
    drawn.move_to(at);
    drawn.line_to(at + Vec2::new(step * f64::from(count), 0.0));
    for dash in 0..=count {
        let foot = at + Vec2::new(f64::from(dash) * step, 0.0);
        drawn.move_to(foot);
        drawn.line_to(foot + Vec2::new(0.0, if dash % whole == 0 { 4.0 } else { 2.0 }));
    }
    let words = Words::new(format!("{name}, true to scale"), at + Vec2::new(0.0, -1.5 * body), body).grey();
    vec![Shape::stroke(drawn, Pen::Frame).named(name), Shape::words(words)]
}

/// The measure and some room, in millimetres: 4 in are 101.6.
const MEASURE: f64 = 102.0;
/// Round the whole sheet.
const MARGIN: f64 = 30.0;
/// The title's body.
const TITLE: f64 = 20.0;
/// The body of the key's words on a small sheet.
const BODY: f64 = 4.4;
