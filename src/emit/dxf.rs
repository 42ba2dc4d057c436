//! The pieces for other makers' programs: DXF as sewn products are exchanged in it, after ASTM
//! D6673-10: an AutoCAD R13 text file, one block a piece and size, each kind of line on a layer of
//! its own. The layers' numbers are the standard's; the words before the piece's texts
//! (`Piece Name:` and the like) are from memory.

use crate::cutting::{CutPart, Cutting};
use crate::garment::Garment;
use crate::shape::path::Path;
use crate::shape::tolerance::FLATTEN;
use dxf::entities::{Entity, EntityType, Insert, Line, ModelPoint, Polyline, Text, Vertex};
use dxf::enums::AcadVersion;
use dxf::tables::Layer;
use dxf::{Block, Drawing, Point as DxfPoint};
use kurbo::Point;
use std::collections::BTreeSet;
use thiserror::Error;

/// The file could not be made.
#[derive(Debug, Error)]
#[error("the pieces could not be written as DXF: {0}")]
pub struct NotWritten(String);

/// Layers of ASTM D6673-10.
const BOUNDARY: &str = "1";
const TURN_POINTS: &str = "2";
const CURVE_POINTS: &str = "3";
const NOTCHES: &str = "4";
const MIRROR_LINE: &str = "6";
const GRAIN_LINE: &str = "7";
const INTERNAL_LINES: &str = "8";
const DRILL_HOLES: &str = "13";
const SEW_LINES: &str = "14";
const ANNOTATION: &str = "15";
const LAYERS: [&str; 10] = [
    BOUNDARY,
    TURN_POINTS,
    CURVE_POINTS,
    NOTCHES,
    MIRROR_LINE,
    GRAIN_LINE,
    INTERNAL_LINES,
    DRILL_HOLES,
    SEW_LINES,
    ANNOTATION,
];
/// The longest name of a block in R13.
const NAME_LETTERS: usize = 31;
/// The height of the piece's texts, in millimetres.
const TEXT_HEIGHT: f64 = 6.0;

/// These sizes of a garment as the bytes of a DXF file, in millimetres. A piece cut on the fold is
/// its half with a mirror line.
pub fn dxf(garment: &Garment, cuts: &[Cutting]) -> Result<Vec<u8>, NotWritten> {
    let mut drawing = Drawing::new();
    drawing.header.version = AcadVersion::R13;
    for name in LAYERS {
        drawing.add_layer(Layer { name: name.to_owned(), ..Layer::default() });
    }
    let mut taken = BTreeSet::new();
    for part in cuts.iter().flat_map(|cut| &cut.parts) {
        let name = block_name(garment, part, &mut taken);
        let entities = block(&mut drawing, garment, part);
        let entities = entities.into_iter().filter_map(|entity| with_handle(&mut drawing, entity)).collect();
        drawing.add_block(Block {
            name: name.clone(),
            layer: BOUNDARY.to_owned(),
            entities,
            ..Block::default()
        });
        put(&mut drawing, BOUNDARY, EntityType::Insert(Insert { name, ..Insert::default() }));
    }
    for (at, text) in
        [format!("Style Name: {}", plain(&garment.title)), "Units: METRIC".to_owned()].into_iter().enumerate()
    {
        let location = DxfPoint::new(0.0, -(at as f64) * 2.0 * TEXT_HEIGHT, 0.0);
        put(&mut drawing, ANNOTATION, text_entity(text, location));
    }
    let mut bytes = Vec::new();
    drawing.save(&mut bytes).map_err(|error| NotWritten(error.to_string()))?;
    Ok(tidied(&bytes))
}

fn put(drawing: &mut Drawing, layer: &str, specific: EntityType) {
    drawing.add_entity(on(layer, specific));
}

/// An entity for a block with a handle of its own: the drawing gives handles only to those that it
/// takes in itself.
fn with_handle(drawing: &mut Drawing, entity: Entity) -> Option<Entity> {
    let at = drawing.entities().count();
    drawing.add_entity(entity);
    drawing.remove_entity(at)
}

fn on(layer: &str, specific: EntityType) -> Entity {
    let mut entity = Entity::new(specific);
    entity.common.layer = layer.to_owned();
    entity
}

/// The file without the times at which it was made (`$TD…`), so that the same garment gives the
/// same bytes, and with a handle of its own for the end of each block, which otherwise has the
/// block's.
fn tidied(bytes: &[u8]) -> Vec<u8> {
    let text = String::from_utf8_lossy(bytes);
    let lines: Vec<&str> = text.lines().collect();
    let pairs: Vec<(&str, &str)> = lines
        .chunks(2)
        .map(|pair| (pair.first().copied().unwrap_or(""), pair.get(1).copied().unwrap_or("")))
        .collect();
    let handles = pairs.iter().filter(|(code, _)| code.trim() == "5");
    let used = handles.filter_map(|(_, handle)| u64::from_str_radix(handle, 16).ok()).max().unwrap_or(0);
    let ends = pairs.iter().filter(|(code, value)| code.trim() == "0" && *value == "ENDBLK").count() as u64;
    let mut next = used;
    let mut kept = String::with_capacity(text.len());
    let (mut variable, mut kind) = ("", "");
    for (code, value) in pairs {
        match code.trim() {
            "9" => variable = value,
            "0" => (variable, kind) = ("", value),
            _ => {}
        }
        let value = match (code.trim(), variable, kind) {
            (_, variable, _) if variable.starts_with("$TD") => continue,
            ("5", "$HANDSEED", _) => format!("{:X}", used + ends + 1),
            ("5", _, "ENDBLK") => {
                next += 1;
                format!("{next:X}")
            }
            _ => value.to_owned(),
        };
        kept.push_str(code);
        kept.push_str("\r\n");
        kept.push_str(&value);
        kept.push_str("\r\n");
    }
    kept.into_bytes()
}

fn block(drawing: &mut Drawing, garment: &Garment, part: &CutPart) -> Vec<Entity> {
    let mut entities = Vec::new();
    let boundary = part.cutting_ring();
    entities.push(polyline(drawing, BOUNDARY, &boundary, true));
    for path in &boundary {
        entities.push(point(TURN_POINTS, path.start()));
        let flat = path.flatten(FLATTEN);
        let inner = flat.len().saturating_sub(2);
        entities.extend(flat.iter().skip(1).take(inner).map(|&at| point(CURVE_POINTS, at)));
    }
    for (top, _) in part.notches.iter().flat_map(|notch| &notch.snips) {
        entities.push(point(NOTCHES, *top));
    }
    if let Some(fold) = part.fold_path() {
        entities.push(line(MIRROR_LINE, fold.start(), fold.end()));
    }
    if let Some((from, to)) = part.grain_line {
        entities.push(line(GRAIN_LINE, from, to));
    }
    for inner in &part.lines {
        entities.push(polyline(drawing, INTERNAL_LINES, std::slice::from_ref(&inner.path), false));
    }
    let holes = part.marks.iter().map(|mark| mark.at).chain(part.buttons.iter().map(|button| button.at));
    entities.extend(holes.map(|at| point(DRILL_HOLES, at)));
    entities.push(polyline(drawing, SEW_LINES, &part.stitching, true));
    entities.extend(texts(garment, part));
    entities
}

/// What is written on the piece, downward from the middle of its grain.
fn texts(garment: &Garment, part: &CutPart) -> Vec<Entity> {
    let name = garment.part_name(Some(part.part.layer), part.part.piece);
    let mut lines = vec![format!("Piece Name: {}", plain(&name))];
    if !part.label.size.is_empty() {
        lines.push(format!("Size: {}", plain(&part.label.size)));
    }
    lines.push(format!("Quantity: {}", part.copies));
    lines.push(format!("Material: {}", plain(&part.label.cloth)));
    lines.push(format!("Annotation: {}", plain(&part.label.piece)));
    lines.push(format!("Annotation: {}", plain(&part.label.cut)));
    let start = part.stitching.first().map_or(Point::ZERO, Path::start);
    let middle = part.grain_line.map_or(start, |(from, to)| from.midpoint(to));
    let place = |at: usize| DxfPoint::new(middle.x + 3.0, middle.y - at as f64 * 1.6 * TEXT_HEIGHT, 0.0);
    lines.into_iter().enumerate().map(|(at, words)| on(ANNOTATION, text_entity(words, place(at)))).collect()
}

fn text_entity(value: String, location: DxfPoint) -> EntityType {
    EntityType::Text(Text { location, text_height: TEXT_HEIGHT, value, ..Text::default() })
}

/// Each corner takes a handle from the drawing that it goes into.
fn polyline(drawing: &mut Drawing, layer: &str, paths: &[Path], closed: bool) -> Entity {
    let mut drawn = Polyline::default();
    drawn.set_is_closed(closed);
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
    for at in points {
        drawn.add_vertex(drawing, Vertex::new(place(at)));
    }
    on(layer, EntityType::Polyline(drawn))
}

fn line(layer: &str, from: Point, to: Point) -> Entity {
    on(layer, EntityType::Line(Line::new(place(from), place(to))))
}

fn point(layer: &str, at: Point) -> Entity {
    on(layer, EntityType::ModelPoint(ModelPoint::new(place(at))))
}

/// Rounded to 0.001 mm: finer figures are noise.
fn place(at: Point) -> DxfPoint {
    let rounded = |value: f64| (value * 1000.0).round() / 1000.0 + 0.0;
    DxfPoint::new(rounded(at.x), rounded(at.y), 0.0)
}

/// Words on one line: a line's end would end the figure in the file.
fn plain(words: &str) -> String {
    words.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

/// A name that R13 allows for a block: letters, digits, `-` and `_`, and no other block's.
fn block_name(garment: &Garment, part: &CutPart, taken: &mut BTreeSet<String>) -> String {
    let whole = format!("{}-{}", garment.part_name(Some(part.part.layer), part.part.piece), part.label.size);
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
