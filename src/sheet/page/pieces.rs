//! The pieces, numbered, with small pictures at one scale; and the cut list.

use super::shapes::{data, tenth};
use super::swatch::swatch;
use super::write::{Html, NAME_LETTERS, escaped, isolated, ring, said};
use super::{Page, Writer};
use crate::cutting::CutPart;
use crate::emit::{CutDocument, CutWay, HandDocument, SizeDocument};
use crate::garment::Part;
use crate::sheet::{Differing, Figure, FigureKind, NumberedPiece};
use crate::syntax::tree::Hand;
use indexmap::IndexMap;
use kurbo::{BezPath, Point, Rect, Shape as _, Vec2};
use minijinja::Value;
use serde::Serialize;
use std::fmt::Write as _;

/// How wide and high a picture of a piece may be, in units of the page.
const WIDEST: f64 = 150.0;
const TALLEST: f64 = 210.0;
/// A strip takes the room of two, so that it does not make all others small.
const STRIP: f64 = 330.0;
/// So many times as wide as high is a strip.
const STRIPS: f64 = 3.0;

#[derive(Debug, Serialize)]
pub struct Pieces {
    about: Html,
    cards: Vec<Card>,
    cut_list: Vec<CutCloth>,
}

#[derive(Debug, Serialize)]
struct Card {
    number: usize,
    title: Html,
    picture: Html,
    /// It is wider than the others.
    wide: bool,
    cuts: Vec<Html>,
    size: Html,
    /// How it differs from the base.
    differs: Html,
}

/// What is cut from one cloth.
#[derive(Debug, Serialize)]
struct CutCloth {
    cloth: Html,
    rows: Vec<CutRowShown>,
}

#[derive(Debug, Serialize)]
struct CutRowShown {
    piece: Html,
    layer: Html,
    how: Html,
    size: Html,
}

pub fn pieces(page: &Page, writer: &Writer) -> Pieces {
    let say = page.say;
    let parts: Vec<Option<&CutPart>> = page.facts.pieces.iter().map(|piece| cut_of(page, piece)).collect();
    let scale = scale(&parts);
    let cards = page.facts.pieces.iter().zip(&parts).map(|(piece, part)| {
        let rows: Vec<&CutDocument> =
            piece.parts.iter().flat_map(|part| rows_of(page, *part, piece.hand)).collect();
        let cuts = rows.iter().map(|row| {
            let cloth = format!("{} {}", swatch(page.texture_of(&row.fabric)), how(page, writer, row));
            Value::from_safe_string(format!("{cloth}, {}", isolated(&row.layer, NAME_LETTERS)))
        });
        Card {
            number: piece.number,
            title: said(&piece.title, NAME_LETTERS),
            picture: Value::from_safe_string(
                part.map_or(String::new(), |part| picture(page, piece, part, scale)),
            ),
            wide: part.is_some_and(|part| bounds(part).width() * scale > WIDEST),
            cuts: cuts.collect(),
            differs: Value::from_safe_string(differs(page, piece)),
            size: Value::from_safe_string(
                rows.first().map_or(String::new(), |row| cut_size(page, writer, row)),
            ),
        }
    });
    let about = match page.sizes.len() {
        0 | 1 => format!("{} {}", say.pieces_scale_one, say.texture_tells),
        _ => format!(
            "{} {}. {}",
            say.pieces_scale,
            isolated(&page.shown_size(), NAME_LETTERS),
            say.texture_tells
        ),
    };
    Pieces { about: Value::from_safe_string(about), cards: cards.collect(), cut_list: cut_list(page, writer) }
}

/// "new"; "changed: side, hem; new (lining)": which edges are longer, shorter or new, and which layers the base does not have;
/// nothing of what the base has too.
fn differs(page: &Page, piece: &NumberedPiece) -> String {
    let (Some(differing), garment) = (&page.differing, page.facts.garment) else { return String::new() };
    let is_added = |part: &&Part| differing.is_added(garment, **part);
    let added: Vec<&Part> = piece.parts.iter().filter(is_added).collect();
    if added.len() == piece.parts.len() {
        return escaped(page.say.added);
    }
    let mut told: Vec<String> = Vec::new();
    if let Some(part) = piece.parts.iter().find(|part| differing.is_changed(garment, **part)) {
        let names = differing_edges(page, differing, *part);
        told.push(match names.is_empty() {
            true => escaped(page.say.changed),
            false => format!("{}: {}", escaped(page.say.changed), names.join(", ")),
        });
    }
    if !added.is_empty() {
        let layers = added.iter().map(|part| isolated(&garment.layer(part.layer).name, NAME_LETTERS));
        told.push(format!("{} ({})", escaped(page.say.added), layers.collect::<Vec<_>>().join(", ")));
    }
    told.join("; ")
}

/// What people read of the edges of a part that differ, each once.
fn differing_edges(page: &Page, differing: &Differing, part: Part) -> Vec<String> {
    let garment = page.facts.garment;
    let Some(size) = page.facts.document.sizes.get(page.shown) else { return Vec::new() };
    let name = garment.part_name(Some(part.layer), part.piece);
    let edges = size.pieces.iter().find(|own| own.part == name).map_or(&[][..], |own| &own.edges);
    let mut names: Vec<String> = Vec::new();
    for edge in edges.iter().filter(|edge| differing.has_edge(garment, part, &edge.name)) {
        // Of a run of an edge the edge.
        let own = edge.name.split(' ').next().unwrap_or_default();
        let whole = edges.iter().find(|whole| whole.name == own).and_then(|whole| whole.label.clone());
        let words = edge.label.clone().or(whole).unwrap_or_else(|| own.replace(['_', '.'], " "));
        let words = isolated(&words, NAME_LETTERS);
        if !names.contains(&words) {
            names.push(words);
        }
    }
    names
}

/// The part that a piece is drawn as, in the size that is shown.
fn cut_of<'p>(page: &'p Page, piece: &NumberedPiece) -> Option<&'p CutPart> {
    let cut = page.facts.shown.cut(page.facts.garment);
    cut.parts.iter().find(|part| piece.parts.contains(&part.part) && part.hand == piece.hand)
}

/// Units a millimetre, so that the widest and the tallest fit.
fn scale(parts: &[Option<&CutPart>]) -> f64 {
    let bounds = parts.iter().flatten().map(|part| bounds(part));
    let fit = bounds.map(|bounds| {
        let (width, height) = (bounds.width().max(1.0), bounds.height().max(1.0));
        let widest = if width > STRIPS * height { STRIP } else { WIDEST };
        (widest / width).min(TALLEST / height)
    });
    fit.fold(0.5, f64::min)
}

fn ring_of(part: &CutPart) -> BezPath {
    let mut path = BezPath::new();
    for run in part.cutting_ring() {
        let own = run.to_bez();
        for (at, element) in own.elements().iter().enumerate() {
            match element {
                kurbo::PathEl::MoveTo(_) if at == 0 && !path.is_empty() => {}
                other => path.push(*other),
            }
        }
    }
    path.close_path();
    path
}

fn bounds(part: &CutPart) -> Rect {
    ring_of(part).bounding_box()
}

/// A piece with its cutting and stitching line, grain, fold, notches and lines.
fn picture(page: &Page, piece: &NumberedPiece, part: &CutPart, scale: f64) -> String {
    let outline = ring_of(part);
    let bounds = outline.bounding_box();
    let margin = 6.0;
    let to = |point: Point| {
        Point::new((point.x - bounds.x0) * scale + margin, (bounds.y1 - point.y) * scale + margin)
    };
    let (width, height) = (bounds.width() * scale + 2.0 * margin, bounds.height() * scale + 2.0 * margin);
    let mut shapes = format!("<path class=\"cut\" d=\"{}\"/>", data(&outline, &to));
    let mut sewn = String::new();
    for path in part.stitching.iter().chain(part.holes.iter().flatten()) {
        sewn.push_str(&data(&path.to_bez(), &to));
    }
    // Writing to a String cannot fail.
    let _ = write!(shapes, "<path class=\"sewn\" d=\"{sewn}\"/>");
    let mut changed = String::new();
    if let Some(differing) = &page.differing {
        let garment = page.facts.garment;
        for (path, edge) in part.stitching.iter().zip(&part.edges) {
            if differing.has_edge(garment, part.part, &garment.edge(*edge).name) {
                changed.push_str(&data(&path.to_bez(), &to));
            }
        }
    }
    if !changed.is_empty() {
        let _ = write!(shapes, "<path class=\"differ\" d=\"{changed}\"/>");
    }
    let mut inner = String::new();
    for path in part.lines.iter().map(|line| &line.path).chain(part.guides.iter().map(|guide| &guide.path)) {
        inner.push_str(&data(&path.to_bez(), &to));
    }
    for (from, to_point) in part.take_ups.iter().flat_map(|take_up| &take_up.legs) {
        inner.push_str(&stretch(to(*from), to(*to_point)));
    }
    if !inner.is_empty() {
        let _ = write!(shapes, "<path class=\"inner\" d=\"{inner}\"/>");
    }
    let snips: String = part
        .notches
        .iter()
        .flat_map(|notch| &notch.snips)
        .map(|(from, inner)| stretch(to(*from), to(*inner)))
        .collect();
    if !snips.is_empty() {
        let _ = write!(shapes, "<path class=\"notch\" d=\"{snips}\"/>");
    }
    if let Some(fold) = part.fold.and_then(|fold| part.stitching.get(fold.index())) {
        let _ = write!(shapes, "<path class=\"onfold\" d=\"{}\"/>", data(&fold.to_bez(), &to));
    }
    if let Some((from, end)) = part.grain_line {
        let one_way = part.fabric.is_some_and(|fabric| page.facts.garment.fabric(fabric).one_way);
        let (from, end) = if (end - from).dot(part.grain) < 0.0 { (end, from) } else { (from, end) };
        shapes.push_str(&arrow(to(from), to(end), !one_way));
    }
    let alt = match page.sizes.len() {
        0 | 1 => escaped(&super::write::bounded(&piece.title, NAME_LETTERS)),
        _ => escaped(&format!(
            "{}, {} {}",
            super::write::bounded(&piece.title, NAME_LETTERS),
            page.say.size,
            super::write::bounded(&page.shown_size(), NAME_LETTERS)
        )),
    };
    format!(
        "<svg class=\"piece\" role=\"img\" aria-label=\"{alt}\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\">{shapes}</svg>",
        tenth(width),
        tenth(height)
    )
}

fn stretch(from: Point, to: Point) -> String {
    format!("M{} {}L{} {}", tenth(from.x), tenth(from.y), tenth(to.x), tenth(to.y))
}

/// An arrow with a head at its end, or at both.
pub fn arrow(from: Point, to: Point, both: bool) -> String {
    let along = to - from;
    let long = along.hypot();
    if long <= 0.0 {
        return String::new();
    }
    let unit = along / long;
    let head = |tip: Point, way: Vec2| {
        let (back, side) = (tip - way * 6.0, Vec2::new(-way.y, way.x) * 2.6);
        let (one, other) = (back + side, back - side);
        format!(
            "M{} {}L{} {}L{} {}Z",
            tenth(tip.x),
            tenth(tip.y),
            tenth(one.x),
            tenth(one.y),
            tenth(other.x),
            tenth(other.y)
        )
    };
    let mut heads = head(to, unit);
    if both {
        heads.push_str(&head(from, -unit));
    }
    format!("<path class=\"grain\" d=\"{}\"/><path class=\"head\" d=\"{heads}\"/>", stretch(from, to))
}

fn rows_of<'p>(page: &'p Page, part: Part, hand: Option<Hand>) -> Vec<&'p CutDocument> {
    let garment = page.facts.garment;
    let (layer, piece) = (&*garment.layer(part.layer).name, &*garment.piece(part.piece).name);
    let Some(size) = page.facts.document.sizes.first() else { return Vec::new() };
    let is_of = |row: &&CutDocument| {
        row.layer == layer
            && row.piece == piece
            && matches!(
                (row.side, hand),
                (None, _)
                    | (Some(HandDocument::Left), Some(Hand::Left))
                    | (Some(HandDocument::Right), Some(Hand::Right))
            )
    };
    size.cut_list.iter().filter(is_of).collect()
}

/// What people read of the piece.
fn titled(page: &Page, row: &CutDocument) -> String {
    let number = page.number_of_row(row);
    let piece = page.facts.pieces.iter().find(|piece| Some(piece.number) == number);
    piece.map_or_else(|| row.label.clone(), |piece| piece.title.clone())
}

/// "2, one of each hand, pattern turned over"; of all sizes with each before what it says, where they say different things.
fn how(page: &Page, writer: &Writer, row: &CutDocument) -> String {
    let sizes = &page.facts.document.sizes;
    let own: Vec<String> = sizes
        .iter()
        .map(|size| same_row(size, row).map_or_else(|| "–".to_owned(), |own| how_in_one_size(page, own)))
        .collect();
    let mut said: IndexMap<&String, Vec<String>> = IndexMap::new();
    for (words, size) in own.iter().zip(sizes) {
        said.entry(words).or_default().push(isolated(&size.size, NAME_LETTERS));
    }
    let all = match said.len() {
        0 | 1 => said.keys().map(|words| words.as_str()).collect(),
        _ => {
            let each = said.iter().map(|(words, sizes)| format!("{}: {words}", sizes.join(", ")));
            each.collect::<Vec<_>>().join("; ")
        }
    };
    writer.by_size(&all, &own)
}

/// What is cut of the same in another size.
fn same_row<'d>(size: &'d SizeDocument, row: &CutDocument) -> Option<&'d CutDocument> {
    let is_same =
        |other: &&CutDocument| other.layer == row.layer && other.piece == row.piece && other.side == row.side;
    size.cut_list.iter().find(is_same)
}

fn how_in_one_size(page: &Page, row: &CutDocument) -> String {
    let say = page.say;
    let mut words = match (row.how, row.copies) {
        _ if row.whole => row.copies.to_string(),
        (CutWay::OnFold, 1) => say.on_fold_one.to_owned(),
        (CutWay::OnFold, copies) => format!("{copies} {}", say.on_fold),
        (CutWay::Mirrored, 2) => say.mirrored_two.to_owned(),
        (CutWay::Mirrored, copies) => format!("{copies}, {}", say.mirrored),
        (CutWay::Alike, 1) => "1".to_owned(),
        (CutWay::Alike, copies) => format!("{copies} {}", say.alike),
    };
    let side = row.side.map(|side| match side {
        HandDocument::Left => say.worn_left,
        HandDocument::Right => say.worn_right,
    });
    let layer = page.facts.garment.layers.iter().find(|layer| *layer.name == *row.layer);
    let more = side
        .into_iter()
        .chain(row.turned_over.then_some(say.turned_over))
        .chain(layer.filter(|layer| layer.fused).map(|_| say.fused));
    for one in more {
        words.push_str(", ");
        words.push_str(one);
    }
    if let Some(share) = layer.and_then(|layer| layer.share) {
        words.push_str(&format!(" {} {} {}", share.fused, say.fused_of, share.of));
    }
    escaped(&words)
}

/// "cut size 58 to 78.8 cm (…) × 73.7 to 80 cm (…)"
fn cut_size(page: &Page, writer: &Writer, row: &CutDocument) -> String {
    let own = |of: &dyn Fn(&crate::emit::ExtentDocument) -> f64| -> Figure {
        let sizes = page.facts.document.sizes.iter();
        let values = sizes.map(|size| same_row(size, row)?.cut.as_ref().map(of));
        Figure { kind: FigureKind::Length, values: values.collect() }
    };
    let (width, height) = (own(&|cut| cut.width.rounded()), own(&|cut| cut.height.rounded()));
    if width.values.iter().all(Option::is_none) {
        return String::new();
    }
    format!("{} × {}", writer.figure(&width), writer.figure(&height))
}

/// Cloth by cloth, in the order of the layers.
fn cut_list(page: &Page, writer: &Writer) -> Vec<CutCloth> {
    let Some(size) = page.facts.document.sizes.first() else { return Vec::new() };
    let mut cloths: IndexMap<&String, Vec<&CutDocument>> = IndexMap::new();
    for row in &size.cut_list {
        cloths.entry(&row.fabric).or_default().push(row);
    }
    let shown = |row: &&CutDocument| CutRowShown {
        piece: Value::from_safe_string(format!(
            "{}\u{a0}{}",
            page.number_of_row(row).map_or(String::new(), ring),
            isolated(&titled(page, row), NAME_LETTERS)
        )),
        layer: said(&row.layer, NAME_LETTERS),
        how: Value::from_safe_string(how(page, writer, row)),
        size: Value::from_safe_string(cut_size(page, writer, row)),
    };
    cloths
        .into_iter()
        .map(|(fabric, rows)| CutCloth {
            cloth: Value::from_safe_string(format!(
                "{} {}",
                swatch(page.texture_of(fabric)),
                page.cloth_label(fabric)
            )),
            rows: rows.iter().map(shown).collect(),
        })
        .collect()
}
