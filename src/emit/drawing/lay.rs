//! Lay plans drawn: cloth, fold, selvages, way of the nap, pieces and a scale, at a tenth of
//! their size.

use super::clear::{Clear, inside};
use super::font::Face;
use super::pen::{Pen, Tone};
use super::shape::{Shape, Words};
use super::sheet::Sheet;
use crate::cutting::Spread;
use crate::emit::lay::{length_line, spread_line};
use crate::garment::Garment;
use crate::materials::{Buying, GarmentLay, LaidPart, Plies};
use crate::report::DisplayUnit;
use kurbo::{BezPath, Point, Rect, Vec2};

/// One tenth.
const SCALE: f64 = 0.1;
const MARGIN: f64 = 14.0;
/// Between two lays.
const GAP: f64 = 16.0;
/// Above the cloth: what it is, and its measure.
const HEAD: f64 = 26.0;

/// Draws lays one below the other.
pub fn lays(garment: &Garment, lays: &[(GarmentLay, Buying)]) -> Sheet {
    let mut shapes = vec![Shape::words(
        Words::new(garment.title.to_string(), Point::new(MARGIN, -MARGIN - 6.0), 8.0).bold(),
    )];
    let note = Words::new("lay plans, at 1 : 10", Point::new(MARGIN, -MARGIN - 12.0), 3.4).grey();
    shapes.push(Shape::words(note));
    let mut down = MARGIN + 18.0;
    let mut widest: f64 = 120.0;
    for (lay, bought) in lays {
        let by = Vec2::new(MARGIN, -down);
        let (drawn, width, height) = one(garment, lay, bought);
        shapes.extend(drawn.into_iter().map(|shape| shape.moved(by)));
        widest = widest.max(width);
        down += height + GAP;
    }
    Sheet { width: widest + 2.0 * MARGIN, height: down - GAP + MARGIN, shapes }
}

/// One lay, its upper left corner at (0, 0), with its width and height.
fn one(garment: &Garment, lay: &GarmentLay, bought: &Buying) -> (Vec<Shape>, f64, f64) {
    let fabric = garment.fabric(lay.cloth.fabric);
    let mut title = fabric.title.to_string();
    if garment.names_sizes() {
        let names = lay.sizes.iter().map(|&size| &*garment.size(size).name);
        title = format!("{title}, {}", names.collect::<Vec<_>>().join(", "));
    }
    let lines = [spread_line(garment, lay), length_line(garment, lay, bought)];
    let mut shapes = vec![Shape::words(Words::new(title, Point::new(0.0, -4.5), 5.0).bold())];
    for (at, line) in lines.iter().enumerate() {
        let place = Point::new(0.0, -9.5 - 4.4 * at as f64);
        shapes.push(Shape::words(Words::new(line.clone(), place, 3.2).grey()));
    }
    let selvages = match lay.spread {
        Spread::Open if !lay.cloth.tubular => (lay.cloth.selvage, lay.cloth.selvage),
        Spread::Lengthwise => (0.0, lay.cloth.selvage),
        Spread::Open | Spread::Tube => (0.0, 0.0),
    };
    let (length, width) = (lay.length * SCALE, (lay.width + selvages.0 + selvages.1) * SCALE);
    // The cloth lies with y upwards from its near edge; a little of it goes on past the lay.
    let foot = -HEAD - width;
    let place = |point: Point| Point::new(point.x * SCALE, foot + (point.y + selvages.0) * SCALE);
    let over = 6.0;
    let cloth = Rect::new(0.0, foot, length + over, foot + width);
    shapes.push(Shape::fill(rectangle(cloth), Tone::Allowance).named("cloth"));
    shapes.extend(edges(lay, cloth, selvages));
    let mut clear = Clear::default();
    for part in &lay.parts {
        shapes.extend(piece(garment, lay, part, &place, &mut clear));
    }
    shapes.push(Shape::stroke(line(Point::new(length, foot), Point::new(length, foot + width)), Pen::Join));
    shapes.extend(scale(garment.unit, length, foot + width));
    if lay.cloth.one_way {
        shapes.extend(nap(Point::new(length + over + 4.0, foot + width / 2.0)));
    }
    let texts = lines.iter().map(|words| Face::Plain.length(words, 3.2)).fold(0.0, f64::max);
    ((shapes), (length + over + 26.0).max(texts), HEAD + width + 4.0)
}

/// Fold and selvages, and what they are called.
fn edges(lay: &GarmentLay, cloth: Rect, selvages: (f64, f64)) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut edge = |y: f64, inner: f64, fold: bool, above: bool| {
        let pen = if fold { Pen::Fold } else { Pen::Sheet };
        shapes.push(Shape::stroke(line(Point::new(cloth.x0, y), Point::new(cloth.x1, y)), pen));
        if inner > 0.0 {
            let inward = y + if above { -inner } else { inner } * SCALE;
            let (from, to) = (Point::new(cloth.x0, inward), Point::new(cloth.x1, inward));
            shapes.push(Shape::stroke(line(from, to), Pen::Join));
        }
        let name = if fold {
            "fold"
        } else if lay.cloth.tubular {
            "slit"
        } else {
            "selvage"
        };
        let at = Point::new(cloth.x1 + 2.0, if above { y - 2.6 } else { y + 0.4 });
        shapes.push(Shape::words(Words::new(name, at, 3.0).grey()));
    };
    let (near_fold, far_fold) = (lay.spread != Spread::Open, lay.spread == Spread::Tube);
    edge(cloth.y0, selvages.0, near_fold, false);
    edge(cloth.y1, selvages.1, far_fold, true);
    shapes
}

fn piece(
    garment: &Garment,
    lay: &GarmentLay,
    part: &LaidPart,
    place: &dyn Fn(Point) -> Point,
    clear: &mut Clear,
) -> Vec<Shape> {
    let outline: Vec<Point> = part.outline.iter().map(|&point| place(point)).collect();
    let mut path = BezPath::new();
    for (at, &point) in outline.iter().enumerate() {
        if at == 0 { path.move_to(point) } else { path.line_to(point) }
    }
    path.close_path();
    let on = part.hand.map_or(String::new(), |hand| format!(" on {}", hand.word()));
    let name = garment.part_name(Some(part.part.layer), part.part.piece) + &on;
    clear.ring(&outline);
    let mut shapes = vec![
        Shape::fill(path.clone(), Tone::Piece),
        Shape::stroke(path, Pen::Map).named(format!("{name} laid")),
    ];
    let mut words = vec![garment.piece(part.part.piece).title.to_string()];
    words.extend(part.hand.map(|hand| hand.word().to_owned()));
    if lay.sizes.len() > 1 {
        words.push(garment.size(part.size).name.to_string());
    }
    match part.plies {
        Plies::Both => words.push("both plies".to_owned()),
        Plies::OneOfTwo => words.push("one ply".to_owned()),
        Plies::OnFold => words.push("on the fold".to_owned()),
        Plies::Single => {}
    }
    if part.mirrored && part.plies == Plies::Single {
        words.push("face down".to_owned());
    }
    shapes.extend(label(&outline, &words, clear));
    shapes
}

/// The words inside an outline: along or across, as large as there is room, on as many lines as
/// they are; only the name where there is less room; nothing where there is none.
fn label(outline: &[Point], words: &[String], clear: &Clear) -> Vec<Shape> {
    let Some(first) = outline.first() else { return Vec::new() };
    let bounds = outline.iter().fold(Rect::from_points(*first, *first), |all, &one| all.union_pt(one));
    let joined = words.join(", ");
    for (lines, size) in [
        (words, 3.4),
        (std::slice::from_ref(&joined), 3.0),
        (words, 2.6),
        (&words[..1], 2.6),
        (&words[..1], 1.9),
    ] {
        for upright in [false, true] {
            let longest = lines.iter().map(|line| Face::Plain.length(line, size)).fold(0.0, f64::max);
            let high = size * 1.25 * lines.len() as f64;
            let (across, along) = if upright { (high, longest) } else { (longest, high) };
            if let Some(at) = room(outline, bounds, across + size * 0.35, along + size * 0.35, clear) {
                return written(lines, size, at, upright);
            }
        }
    }
    Vec::new()
}

/// The middle of a free box of that width and height, the nearest to the middle of the bounds.
fn room(outline: &[Point], bounds: Rect, width: f64, height: f64, clear: &Clear) -> Option<Point> {
    let half = Vec2::new(width / 2.0, height / 2.0);
    let mut places: Vec<Point> = Vec::new();
    for across in 0..=8 {
        for along in 0..=8 {
            let (u, v) = (f64::from(across) / 8.0, f64::from(along) / 8.0);
            let (w, h) = (bounds.width() - width, bounds.height() - height);
            if w >= 0.0 && h >= 0.0 {
                places.push(Point::new(bounds.x0 + half.x + u * w, bounds.y0 + half.y + v * h));
            }
        }
    }
    let middle = bounds.center();
    places.sort_by(|a, b| a.distance(middle).total_cmp(&b.distance(middle)));
    places.into_iter().find(|&at| {
        let corners =
            [at - half, at + Vec2::new(half.x, -half.y), at + half, at + Vec2::new(-half.x, half.y)];
        inside(outline, at) && clear.free(&corners)
    })
}

fn written(lines: &[String], size: f64, middle: Point, upright: bool) -> Vec<Shape> {
    let step = size * 1.25;
    let top = step * (lines.len() as f64 - 1.0) / 2.0;
    let each = lines.iter().enumerate();
    each.map(|(at, line)| {
        let off = Vec2::new(-Face::Plain.length(line, size) / 2.0, top - step * at as f64 - size * 0.34);
        let mut words = Words::new(line.clone(), middle + off, size);
        if upright {
            words.angle = std::f64::consts::FRAC_PI_2;
            words.at = middle + off.turn_90();
        }
        Shape::words(words)
    })
    .collect()
}

/// A measure along the cloth: a dash every 10 cm, a number every 50 cm; every 9 in, each half yard.
fn scale(unit: DisplayUnit, length: f64, y: f64) -> Vec<Shape> {
    let (step, each) = match unit {
        DisplayUnit::Inch => (228.6 * SCALE, 2),
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => (100.0 * SCALE, 5),
    };
    let mut dashes = BezPath::new();
    let mut shapes = Vec::new();
    let count = ((length / step).floor() as usize).min(5000);
    for at in 0..=count {
        let foot = Point::new(at as f64 * step, y + 0.8);
        let long = at % each == 0;
        dashes.move_to(foot);
        dashes.line_to(foot + Vec2::new(0.0, if long { 2.2 } else { 1.2 }));
        if long && at > 0 {
            let words = match unit {
                DisplayUnit::Inch => format!("{} in", at * 9),
                DisplayUnit::Millimetre | DisplayUnit::Centimetre => format!("{} cm", at * 10),
            };
            let wide = Face::Plain.length(&words, 2.4);
            let at = foot + Vec2::new(-wide / 2.0, 2.8);
            shapes.push(Shape::words(Words::new(words, at, 2.4).grey()));
        }
    }
    shapes.push(Shape::stroke(dashes, Pen::Sheet).named("length scale"));
    shapes
}

/// An arrow in the direction of the nap, from the tops of the pieces down.
fn nap(at: Point) -> Vec<Shape> {
    let (from, to) = (at + Vec2::new(14.0, 0.0), at);
    let mut arrow = line(from, to);
    arrow.move_to(to + Vec2::new(2.2, 1.2));
    arrow.line_to(to);
    arrow.line_to(to + Vec2::new(2.2, -1.2));
    let words = Words::new("nap", at + Vec2::new(4.0, 1.4), 3.0).grey();
    vec![Shape::stroke(arrow, Pen::Grain).named("nap"), Shape::words(words)]
}

fn rectangle(area: Rect) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(Point::new(area.x0, area.y0));
    path.line_to(Point::new(area.x1, area.y0));
    path.line_to(Point::new(area.x1, area.y1));
    path.line_to(Point::new(area.x0, area.y1));
    path.close_path();
    path
}

fn line(from: Point, to: Point) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(from);
    path.line_to(to);
    path
}
