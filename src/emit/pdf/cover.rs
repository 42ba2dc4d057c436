//! The first page: what it is, squares to measure, a map of the pages and the key.

use super::paper::Paper;
use super::tiles::{MARGIN, OVERLAP, Tiling};
use crate::emit::drawing::{
    ABOUT_LETTERS, DrawnGroup, Pen, Shape, TITLE_LETTERS, Words, entries, in_short, sample,
};
use crate::garment::Garment;
use kurbo::{BezPath, Point, Rect, Shape as _, Vec2};

/// The shapes of the first page; (0, 0) is its lower left corner. `drawn` is all that follows.
pub(super) fn cover(
    garment: &Garment,
    groups: &[DrawnGroup],
    drawn: &[Shape],
    tiling: &Tiling,
    paper: Paper,
    sizes: &str,
) -> Vec<Shape> {
    let (width, height) = paper.size();
    let (left, right, top) = (MARGIN, width - MARGIN, height - MARGIN);
    let mut shapes = Vec::new();
    let title = fitting(
        Words::new(in_short(&garment.title, TITLE_LETTERS), Point::new(left, top - 8.0), 11.0).bold(),
        right - left,
    );
    shapes.push(Shape::words(title));
    let (count, all) = (tiling.pages.len(), tiling.all.len());
    let pages = match (count, all) {
        (1, 1) => "1 page after this one".to_owned(),
        (count, all) if count == all => format!("{count} pages after this one"),
        (count, all) => format!("{count} of the {all} pages of all sizes after this one"),
    };
    let below = if sizes.is_empty() { pages } else { format!("{sizes}, {pages}") };
    shapes.push(Shape::words(Words::new(below, Point::new(left, top - 15.0), 4.4).grey()));
    let credits = in_short(&garment.credits.line(), ABOUT_LETTERS);
    if !credits.is_empty() {
        let words = Words::new(credits, Point::new(left, top - 21.0), 4.4).grey();
        shapes.push(Shape::words(fitting(words, right - left)));
    }

    let squares = Point::new(left, top - 26.0 - INCHES);
    shapes.extend(square(squares, INCHES, "4 in", false));
    let lower = Point::new(left, squares.y - 8.0 - CENTIMETRES);
    shapes.extend(square(lower, CENTIMETRES, "10 cm", true));

    let column = left + INCHES + 8.0;
    let mut at = top - 28.0;
    let advice = [
        "Print at 100 %, never fitted to the page.",
        "Measure the squares before anything else.",
        "",
        "Each page is named by its row and column.",
        "Cut a page along its upper and left frame",
        "and lay it on its neighbours, up to their",
        "dotted lines: the rings with the same",
        "names must cover each other.",
    ];
    for line in advice {
        if !line.is_empty() {
            let words = Words::new(line, Point::new(column, at), BODY);
            shapes.push(Shape::words(fitting(words, right - column)));
        }
        at -= 5.2;
    }
    at -= 4.0;
    let key = entries(garment, drawn);
    // With very many sizes the key goes on only as far as the page does; their names stand in the
    // lines themselves.
    let rows = ((at - MARGIN) / KEY_ROW).max(0.0) as usize;
    for entry in key.iter().take(rows) {
        let body = key_body(right - column, &entry.words);
        shapes.extend(sample(entry, Point::new(column, at), body));
        at -= KEY_ROW;
    }
    at -= 2.0;
    for note in pages_by_size(garment, tiling) {
        let words = Words::new(note, Point::new(column, at), NOTE);
        shapes.push(Shape::words(fitting(words, right - column)));
        at -= NOTE_ROW;
    }
    // Under all of it, or in the column of the key: where the map is larger.
    let under = Rect::new(left, MARGIN, right, (lower.y - 6.0).min(at));
    let beside = Rect::new(column, MARGIN, right, at);
    let scale = |area: Rect| map_scale(tiling, area).map_or(0.0, |(scale, _)| scale);
    shapes.extend(map(groups, tiling, if scale(under) > scale(beside) { under } else { beside }));
    shapes
}

/// Which pages a size can do without, where it does not need them all; or that some are left out.
fn pages_by_size(garment: &Garment, tiling: &Tiling) -> Vec<String> {
    if tiling.pages.len() < tiling.all.len() {
        return vec!["Pages that are dotted on the map are not needed.".to_owned()];
    }
    let mut notes: Vec<(Vec<String>, String)> = Vec::new();
    for (size, needed) in &tiling.needed {
        let without: Vec<String> =
            tiling.pages.iter().filter(|page| !needed.contains(page)).map(|&page| page_name(page)).collect();
        let name = garment.size(*size).name.to_string();
        match notes.iter_mut().find(|(_, pages)| *pages == without.join(", ")) {
            Some((names, _)) => names.push(name),
            None => notes.push((vec![name], without.join(", "))),
        }
    }
    if notes.iter().all(|(_, without)| without.is_empty()) {
        return Vec::new();
    }
    let said = notes.into_iter().map(|(names, without)| {
        let sizes = names.join(", ");
        if without.is_empty() { format!("{sizes}: every page") } else { format!("{sizes}: not {without}") }
    });
    std::iter::once("Which pages to print for a size:".to_owned()).chain(said).collect()
}

/// Words made smaller until they fit.
pub(super) fn fitting(words: Words, room: f64) -> Words {
    let length = words.length();
    let size = if length > room { words.size * room / length } else { words.size };
    Words { size, ..words }
}

fn key_body(room: f64, words: &str) -> f64 {
    let length = Words::new(words, Point::ZERO, BODY).length();
    let free = room - crate::emit::drawing::WORDS;
    if length > free && free > 0.0 { BODY * free / length } else { BODY }
}

/// A square whose sides' middles are as far apart as it says.
pub(super) fn square(corner: Point, side: f64, words: &str, metric: bool) -> Vec<Shape> {
    let mut drawn = BezPath::new();
    drawn.move_to(corner);
    for way in [Vec2::new(side, 0.0), Vec2::new(side, side), Vec2::new(0.0, side)] {
        drawn.line_to(corner + way);
    }
    drawn.close_path();
    let mut shapes = vec![Shape::stroke(drawn, Pen::Frame).named(format!("square of {words}"))];
    let (parts, step) = if metric { (10, side / 10.0) } else { (16, side / 16.0) };
    let mut ticks = BezPath::new();
    for part in 1..parts {
        let along = f64::from(part) * step;
        let length = match (metric, part) {
            (true, 5) => 4.0,
            (true, _) => 2.5,
            (false, part) if part % 4 == 0 => 4.0,
            (false, part) if part % 2 == 0 => 2.5,
            _ => 1.5,
        };
        for (foot, way) in
            [(Vec2::new(along, 0.0), Vec2::new(0.0, length)), (Vec2::new(0.0, along), Vec2::new(length, 0.0))]
        {
            ticks.move_to(corner + foot);
            ticks.line_to(corner + foot + way);
        }
    }
    shapes.push(Shape::stroke(ticks, Pen::Sheet));
    let name = Words::new(words, Point::ZERO, 9.0).bold();
    let at = corner + Vec2::new((side - name.length()) / 2.0, side / 2.0);
    shapes.push(Shape::words(Words { at, ..name }));
    let says = Words::new("each side, from line to line", Point::ZERO, 3.4).grey();
    let at = corner + Vec2::new((side - says.length()) / 2.0, side / 2.0 - 7.0);
    shapes.push(Shape::words(Words { at, ..says }));
    shapes
}

/// The pages as they lie together, with the pieces on them.
fn map(groups: &[DrawnGroup], tiling: &Tiling, area: Rect) -> Vec<Shape> {
    let Some((scale, whole)) = map_scale(tiling, area) else { return Vec::new() };
    let place = |point: Point| {
        Point::new(area.x0 + 0.5 + (point.x - whole.x0) * scale, area.y1 - 0.5 - (whole.y1 - point.y) * scale)
    };
    let mut shapes = Vec::new();
    let (mut frames, mut left_out) = (BezPath::new(), BezPath::new());
    let (across, down) = (tiling.field.0 - OVERLAP, tiling.field.1 - OVERLAP);
    for &page in &tiling.all {
        let part = tiling.part(page);
        let cell = Rect::new(part.x0, part.y1 - down, part.x0 + across, part.y1);
        let (low, high) = (place(Point::new(cell.x0, cell.y0)), place(Point::new(cell.x1, cell.y1)));
        let is_printed = tiling.pages.binary_search(&page).is_ok();
        let frames = if is_printed { &mut frames } else { &mut left_out };
        frames.extend(Rect::from_points(low, high).path_elements(0.1));
    }
    if !left_out.is_empty() {
        shapes.push(Shape::stroke(left_out, Pen::Join).named("pages left out"));
    }
    shapes.push(Shape::stroke(frames, Pen::Sheet).named("map of the pages"));
    for (group, by) in groups.iter().zip(&tiling.moves) {
        let mut outline = BezPath::new();
        for (at, &point) in group.outline.iter().enumerate() {
            let point = place(point + *by);
            if at == 0 { outline.move_to(point) } else { outline.line_to(point) }
        }
        if !outline.is_empty() {
            outline.close_path();
            shapes.push(Shape::stroke(outline, Pen::Map));
        }
    }
    let body = (down.min(across) * scale * 0.3).clamp(1.2, 4.0);
    for &page in &tiling.pages {
        let part = tiling.part(page);
        let at = place(Point::new(part.x0, part.y1)) + Vec2::new(body * 0.3, -body);
        let name = Words::new(page_name(page), at, body).grey();
        shapes.push(Shape::words(Words { cleared: true, ..name }));
    }
    for (group, by) in groups.iter().zip(&tiling.moves) {
        shapes.extend(name_on_map(group, *by, scale, &place));
    }
    shapes
}

/// How large the map is in that area, and all that is on it; none where there is no room.
fn map_scale(tiling: &Tiling, area: Rect) -> Option<(f64, Rect)> {
    let whole = tiling.all.iter().map(|&page| tiling.part(page)).reduce(|all, own| all.union(own))?;
    let scale = ((area.width() - 1.0) / whole.width()).min((area.height() - 1.0) / whole.height());
    (scale > 0.0).then_some((scale, whole))
}

/// A piece's number and name in the middle of it on the map; where they do not fit the number alone.
fn name_on_map(group: &DrawnGroup, by: Vec2, scale: f64, place: &dyn Fn(Point) -> Point) -> Option<Shape> {
    let first = *group.outline.first()?;
    let own =
        group.outline.iter().fold(Rect::from_points(first, first), |all, &point| all.union_pt(point)) + by;
    let number = group.number.map_or_else(String::new, |(at, _)| at.to_string());
    let middle = place(own.center());
    let (long, high) = (own.width() * scale, own.height() * scale);
    let title = in_short(&group.title, TITLE_LETTERS);
    let tried = [(format!("{number} {title}"), 0.0), (format!("{number} {title}"), UPRIGHT), (number, 0.0)];
    let fits = tried.into_iter().find_map(|(text, angle)| {
        let room = if angle == 0.0 { long } else { high };
        let words = Words::new(text.trim(), Point::ZERO, MAP_NAME).bold();
        let size = (MAP_NAME * room * 0.94 / words.length().max(f64::MIN_POSITIVE)).min(MAP_NAME);
        (size >= LEAST_MAP_NAME).then_some(Words { size, angle, ..words })
    });
    let mut words = fits?;
    let (sine, cosine) = libm::sincos(words.angle);
    let along = Vec2::new(cosine, sine);
    words.at = middle - along * (words.length() / 2.0) - along.turn_90() * (words.size * 0.3);
    Some(Shape::words(Words { cleared: true, ..words }))
}

/// Row and column, from 1.
pub(super) fn page_name((row, column): (usize, usize)) -> String {
    format!("{}-{}", row + 1, column + 1)
}

/// The side of the square in inches: 4 × 25.4 mm.
const INCHES: f64 = 101.6;
/// The side of the square in centimetres.
const CENTIMETRES: f64 = 100.0;
/// The body of the words.
const BODY: f64 = 3.4;
/// From line to line of the key.
const KEY_ROW: f64 = 6.4;
/// The body of a piece's name on the map.
const MAP_NAME: f64 = 3.2;
/// A smaller name cannot be read.
const LEAST_MAP_NAME: f64 = 1.7;
/// A quarter turn.
const UPRIGHT: f64 = std::f64::consts::FRAC_PI_2;
/// The body of the notes on pages.
const NOTE: f64 = 3.0;
/// From line to line of the notes.
const NOTE_ROW: f64 = 4.4;
