//! The pieces for other makers' programs: DXF as sewn products are exchanged in it, after ASTM
//! D6673-10: an AutoCAD R13 text file, one block a piece and size, each kind of line on a layer of
//! its own. The layers' numbers are the standard's; the words before the piece's texts
//! (`Piece Name:` and the like) are from memory.

mod file;

use crate::cutting::{CutPart, Cutting, GuideKind};
use crate::garment::Garment;
use crate::shape::path::Path;
use crate::shape::tolerance::FLATTEN;
use file::{Block, Entity, Shape};
use kurbo::{Line, ParamCurveNearest, Point, Rect, Vec2};
use std::collections::BTreeSet;

/// Layers of ASTM D6673-10.
const BOUNDARY: &str = "1";
const TURN_POINTS: &str = "2";
const CURVE_POINTS: &str = "3";
const NOTCHES: &str = "4";
const MIRROR_LINE: &str = "6";
const GRAIN_LINE: &str = "7";
const INTERNAL_LINES: &str = "8";
const INTERNAL_CUTOUTS: &str = "11";
const DRILL_HOLES: &str = "13";
/// Holes no farther apart than this, in millimetres, are one.
const SAME_HOLE: f64 = 0.01;
const SEW_LINES: &str = "14";
const ANNOTATION: &str = "15";
const LAYERS: [&str; 11] = [
    BOUNDARY,
    TURN_POINTS,
    CURVE_POINTS,
    NOTCHES,
    MIRROR_LINE,
    GRAIN_LINE,
    INTERNAL_LINES,
    INTERNAL_CUTOUTS,
    DRILL_HOLES,
    SEW_LINES,
    ANNOTATION,
];
/// The longest name of a block in R13.
const NAME_LETTERS: usize = 31;
/// Vertices nearer to one another than this, in millimetres, would be one once they are rounded.
const VERTEX: f64 = 0.005;
/// How far a notch may lie beside the chords of the cutting line, in millimetres.
const ON_OUTLINE: f64 = 2.0 * FLATTEN;
/// The height of the piece's texts, in millimetres.
const TEXT_HEIGHT: f64 = 6.0;

/// How far apart pieces are put down, in millimetres.
const APART: f64 = 50.0;
/// How wide a letter is at most, as a share of its height.
const LETTER_WIDTH: f64 = 1.0;

/// These sizes of a garment as the bytes of a DXF file, in millimetres, the pieces of each size side by side in a row. A
/// piece cut on the fold is its half with a mirror line.
pub fn dxf(garment: &Garment, cuts: &[Cutting]) -> Vec<u8> {
    let mut blocks = Vec::new();
    let mut entities = Vec::new();
    let mut taken = BTreeSet::new();
    let texts = style(garment, cuts);
    let mut extents: Option<Rect> = None;
    let mut top = 0.0;
    for cut in cuts {
        let (mut left, mut height) = (0.0, 0.0_f64);
        for part in &cut.parts {
            let name = block_name(garment, part, &mut taken);
            let inside = block(garment, part);
            let own = drawn_in(&inside).unwrap_or_default();
            // Rounded, so that what is put down is as round as what was drawn.
            let at = Point::new((left - own.x0).ceil(), (top - own.y1).floor());
            entities.push(Entity { layer: BOUNDARY, shape: Shape::Insert(name.clone(), at) });
            blocks.push(Block { name, layer: BOUNDARY, entities: inside });
            let placed = own + at.to_vec2();
            extents = Some(extents.map_or(placed, |all| all.union(placed)));
            left = placed.x1 + APART;
            height = height.max(top - placed.y0);
        }
        top -= height + APART;
    }
    for (at, words) in texts.into_iter().rev().enumerate() {
        entities.push(text(words, Point::new(0.0, APART + at as f64 * 2.0 * TEXT_HEIGHT)));
    }
    let words = drawn_in(&entities);
    let extents = extents.into_iter().chain(words).reduce(|one, other| one.union(other));
    file::written(&LAYERS, &blocks, &entities, extents.unwrap_or_default())
}

/// What is written of the style as a whole.
fn style(garment: &Garment, cuts: &[Cutting]) -> Vec<String> {
    let mut texts = vec![format!("Style Name: {}", garment.title), "Units: METRIC".to_owned()];
    // The standard has no field for an edition of a style.
    let edition = garment.credits.edition.map(|edition| format!("edition {edition}"));
    let author: Vec<String> = garment.credits.maker.iter().map(ToString::to_string).chain(edition).collect();
    texts.extend((!author.is_empty()).then(|| format!("Author: {}", author.join(", "))));
    // Values are graded from the first size on.
    let sample = cuts.iter().flat_map(|cut| &cut.parts).map(|part| &part.label.size).next();
    texts.extend(sample.filter(|size| !size.is_empty()).map(|size| format!("Sample Size: {size}")));
    texts
}

/// The rectangle that holds what is drawn, words as wide as they may become.
fn drawn_in(entities: &[Entity]) -> Option<Rect> {
    let mut all: Option<Rect> = None;
    let mut take = |at: Point| {
        all = Some(all.map_or_else(|| Rect::from_points(at, at), |all| all.union_pt(at)));
    };
    for entity in entities {
        match &entity.shape {
            Shape::Line(from, to) => [*from, *to].into_iter().for_each(&mut take),
            Shape::Point(at) => take(*at),
            Shape::Polyline { points, .. } => points.iter().copied().for_each(&mut take),
            Shape::Text { at, height, words } => {
                let width = words.chars().count() as f64 * height * LETTER_WIDTH;
                [*at, *at + Vec2::new(width, *height)].into_iter().for_each(&mut take);
            }
            Shape::Insert(..) => {}
        }
    }
    all
}

fn block(garment: &Garment, part: &CutPart) -> Vec<Entity<'static>> {
    let mut entities = Vec::new();
    let boundary = part.cutting_ring();
    let notches = part.notches.iter().flat_map(|notch| &notch.snips);
    let snips = notches.chain(part.take_ups.iter().flat_map(|take_up| &take_up.snips));
    let tops: Vec<Point> = snips.map(|(top, _)| *top).collect();
    entities.push(through(polyline(BOUNDARY, &boundary, true), &tops));
    for path in &boundary {
        entities.push(point(TURN_POINTS, path.start()));
        let flat = path.flatten(FLATTEN);
        let inner = flat.len().saturating_sub(2);
        entities.extend(flat.iter().skip(1).take(inner).map(|&at| point(CURVE_POINTS, at)));
    }
    // Where the stitching line turns, too: its edges are what is sewn.
    entities.extend(part.stitching.iter().map(|path| point(TURN_POINTS, path.start())));
    entities.extend(tops.into_iter().map(|top| point(NOTCHES, top)));
    if let Some(fold) = part.fold_path() {
        entities.push(line(MIRROR_LINE, fold.start(), fold.end()));
    }
    if let Some((from, to)) = part.grain_line {
        entities.push(line(GRAIN_LINE, from, to));
    }
    for inner in &part.lines {
        entities.push(polyline(INTERNAL_LINES, std::slice::from_ref(&inner.path), false));
    }
    let placed = part.guides.iter().filter(|guide| guide.kind == GuideKind::Placed);
    entities.extend(placed.map(|guide| text(guide.name.clone(), guide.path.bounding_box().center())));
    let one_sided = part.notches.iter().filter_map(|notch| Some((notch.hand?, notch.snips.first()?.1)));
    entities.extend(one_sided.map(|(hand, at)| text(format!("{} only", hand.word()), at)));
    let guides = part.guides.iter().map(|guide| std::slice::from_ref(&guide.path));
    entities.extend(guides.map(|path| polyline(INTERNAL_LINES, path, false)));
    for take_up in &part.take_ups {
        let folds =
            take_up.fold.iter().chain(&take_up.placement).map(|&(from, to)| line(INTERNAL_LINES, from, to));
        entities.extend(folds.chain(take_up.legs.iter().map(|&(from, to)| line(SEW_LINES, from, to))));
        entities.extend(take_up.points.iter().map(|&at| point(DRILL_HOLES, at)));
    }
    for slit in &part.slits {
        entities.extend(slit.cuts.iter().map(|&(from, to)| line(INTERNAL_CUTOUTS, from, to)));
    }
    entities.extend(part.rows.iter().map(|row| polyline(SEW_LINES, std::slice::from_ref(row), false)));
    let holes = part.marks.iter().map(|mark| mark.at).chain(part.fasteners.iter().map(|one| one.at));
    // What is tacked or strapped to a mark is drilled once.
    let mut drilled: Vec<Point> = Vec::new();
    for at in holes {
        if drilled.iter().all(|own| own.distance(at) > SAME_HOLE) {
            drilled.push(at);
            entities.push(point(DRILL_HOLES, at));
        }
    }
    entities.push(polyline(SEW_LINES, &part.stitching, true));
    entities.extend(part.holes.iter().map(|hole| polyline(SEW_LINES, hole, true)));
    entities.extend(texts(garment, part));
    entities
}

/// What is written on the piece, downward from the middle of its grain.
fn texts(garment: &Garment, part: &CutPart) -> Vec<Entity<'static>> {
    let name = part.name(garment);
    let mut lines = vec![format!("Piece Name: {name}")];
    if !part.label.size.is_empty() {
        lines.push(format!("Size: {}", part.label.size));
    }
    lines.push(format!("Quantity: {}", part.copies));
    lines.push(format!("Material: {}", part.label.cloth));
    lines.push(format!("Annotation: {}", part.label.piece));
    lines.push(format!("Annotation: {}", part.label.cut));
    let start = part.stitching.first().map_or(Point::ZERO, Path::start);
    let middle = part.grain_line.map_or(start, |(from, to)| from.midpoint(to));
    let place = |at: usize| Point::new(middle.x + 3.0, middle.y - at as f64 * 1.6 * TEXT_HEIGHT);
    lines.into_iter().enumerate().map(|(at, words)| text(words, place(at))).collect()
}

fn text(words: String, at: Point) -> Entity<'static> {
    Entity { layer: ANNOTATION, shape: Shape::Text { at, height: TEXT_HEIGHT, words } }
}

fn polyline<'a>(layer: &'a str, paths: &[Path], closed: bool) -> Entity<'a> {
    let mut points: Vec<Point> = Vec::new();
    for at in paths.iter().flat_map(|path| path.flatten(FLATTEN)) {
        if points.last().is_none_or(|last| last.distance(at) > 1e-6) {
            points.push(at);
        }
    }
    if closed
        && points.len() > 1
        && points.first().zip(points.last()).is_some_and(|(a, b)| a.distance(*b) <= 1e-6)
    {
        points.pop();
    }
    Entity { layer, shape: Shape::Polyline { points, closed } }
}

/// The polyline with a vertex at each of these points, which lie on it.
fn through<'a>(mut line: Entity<'a>, tops: &[Point]) -> Entity<'a> {
    let Shape::Polyline { points, .. } = &mut line.shape else { return line };
    for &top in tops {
        let nexts = points.iter().cycle().skip(1);
        let chords = points.iter().zip(nexts).map(|(&from, &to)| Line::new(from, to).nearest(top, 0.0));
        let nearest =
            chords.enumerate().min_by(|(_, one), (_, other)| one.distance_sq.total_cmp(&other.distance_sq));
        let Some((at, nearest)) = nearest else { continue };
        let is_vertex = points.iter().any(|vertex| vertex.distance(top) < VERTEX);
        if !is_vertex && nearest.distance_sq <= ON_OUTLINE * ON_OUTLINE {
            points.insert(at + 1, top);
        }
    }
    line
}

fn line(layer: &str, from: Point, to: Point) -> Entity<'_> {
    Entity { layer, shape: Shape::Line(from, to) }
}

fn point(layer: &str, at: Point) -> Entity<'_> {
    Entity { layer, shape: Shape::Point(at) }
}

/// A name that R13 allows for a block: letters, digits, `-` and `_`, and no other block's.
fn block_name(garment: &Garment, part: &CutPart, taken: &mut BTreeSet<String>) -> String {
    let whole = format!("{}-{}", part.name(garment), part.label.size);
    let letter = |letter: char| match letter {
        letter if letter.is_ascii_alphanumeric() || letter == '-' => letter.to_ascii_uppercase(),
        _ => '_',
    };
    let name: String = whole.trim_end_matches('-').chars().map(letter).collect();
    let mut own: String = name.chars().take(NAME_LETTERS).collect();
    let mut count = 1;
    while !taken.insert(own.clone()) {
        count += 1;
        let end = format!("_{count}");
        own = name.chars().take(NAME_LETTERS - end.len()).chain(end.chars()).collect();
    }
    own
}
