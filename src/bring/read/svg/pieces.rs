//! From shapes to pieces: which closed path is an outline, and what the shapes inside it are.

use super::elements::Elements;
use super::owner_of_words;
use super::roles::{Role, Shape, roles};
use super::sizes::Owner;
use crate::bring::course::Course;
use crate::bring::traced::{
    Traced, TracedLine, TracedMark, TracedNotch, TracedPath, TracedPiece, TracedSize,
};
use indexmap::IndexMap;
use kurbo::{BezPath, Point, Rect, Shape as _};

/// An outline, ready to be asked what lies in it.
struct Outline {
    owner: Owner,
    path: TracedPath,
    whole: BezPath,
    bounds: Rect,
    area: f64,
    size: TracedSize,
}

/// Puts the pieces of a drawing together.
pub fn pieces(drawing: &Elements, owners: &[Owner], file: &str) -> Traced {
    let mut traced =
        Traced { in_inches: drawing.in_inches, remarks: drawing.remarks.clone(), ..Traced::default() };
    let (closed, rest) = roles(drawing, owners);
    let mut outlines: Vec<Outline> = closed.into_iter().filter_map(outline).collect();
    outlines.sort_by(|one, other| other.area.total_cmp(&one.area));
    let mut found: Vec<Outline> = Vec::new();
    for own in outlines {
        // In the same size, and inside another: not a piece, but something on it.
        let around =
            found.iter_mut().rev().find(|other| other.owner.size == own.owner.size && holds(other, &own));
        match around {
            None => found.push(own),
            Some(around) => inner(around, own, &mut traced.remarks),
        }
    }
    for shape in rest {
        let at = shape.middle();
        let fits = |own: &&mut Outline| {
            (shape.owner.size.is_none() || shape.owner.size == own.owner.size) && near(own, &shape, at)
        };
        // The smallest that holds it: of sizes in one another, the smallest size's.
        if let Some(own) = found.iter_mut().rev().find(fits) {
            put(&mut own.size, shape);
        }
    }
    for words in &drawing.words {
        let size = owner_of_words(drawing, words, owners);
        let fits = |own: &&mut Outline| {
            (size.is_none() || size == own.owner.size)
                && own.whole.contains(words.at)
                && own.bounds.contains(words.at)
        };
        if let Some(own) = found.iter_mut().rev().find(fits) {
            own.size.texts.push(words.text.clone());
        }
    }
    // Pieces come in the order of the drawing, from the top left.
    gathered(found, file, &mut traced);
    traced
}

fn outline(shape: Shape) -> Option<Outline> {
    let path = shape.path;
    let course = Course::of(&path)?;
    let whole = BezPath::from_path_segments(course.segments.iter().map(|one| one.course));
    let size = TracedSize {
        outline: path.clone(),
        sew_line: None,
        lines: Vec::new(),
        notches: Vec::new(),
        marks: Vec::new(),
        grain: None,
        fold: None,
        texts: Vec::new(),
    };
    Some(Outline {
        owner: shape.owner,
        bounds: course.bounds(),
        area: course.area().abs(),
        whole,
        path,
        size,
    })
}

fn holds(outer: &Outline, inner: &Outline) -> bool {
    let within = |rect: &Rect, other: &Rect| {
        rect.x0 <= other.x0 + 0.01
            && rect.y0 <= other.y0 + 0.01
            && rect.x1 >= other.x1 - 0.01
            && rect.y1 >= other.y1 - 0.01
    };
    let corners = inner.path.segments.iter().map(|segment| kurbo::ParamCurve::eval(&segment.course, 0.5));
    within(&outer.bounds, &inner.bounds)
        && outer.area > inner.area * 1.0001
        && corners.take(50).all(|corner| outer.whole.contains(corner))
}

/// Whether a shape lies in an outline, or touches it.
fn near(own: &Outline, shape: &Shape, at: Point) -> bool {
    match shape.role {
        Role::Stroke | Role::Fold => {
            own.bounds.inflate(REACH, REACH).contains(at)
                && (own.whole.contains(at) || shape.distance_to(&own.whole) < REACH)
        }
        _ => own.bounds.contains(at) && own.whole.contains(at),
    }
}

/// How far beside an outline a notch may be drawn, in millimetres.
const REACH: f64 = 3.0;

/// A closed path inside an outline: its sew line, or a line on it.
fn inner(around: &mut Outline, own: Outline, remarks: &mut Vec<String>) {
    let name = own.owner.piece.clone().unwrap_or_default();
    let said = ["sew", "stitch", "seam"].iter().any(|word| name.to_lowercase().contains(word));
    if around.size.sew_line.is_none() && (said || is_even(around, &own)) {
        around.size.sew_line = Some(own.path);
        return;
    }
    let piece = around.owner.piece.clone().unwrap_or_else(|| "a piece".to_owned());
    let what = if name.is_empty() { "a closed path".to_owned() } else { name.clone() };
    let in_size = around.owner.size.as_ref().map_or(String::new(), |size| format!(" in {size}"));
    remarks.push(format!(
        "{what} lies inside {piece}{in_size}, and is taken for a line on it; a piece has to lie beside"
    ));
    around.size.lines.push(TracedLine { name, path: own.path });
}

/// Whether a path runs everywhere equally far inside an outline: from 2 to 50 mm, to 0.5 mm.
fn is_even(outer: &Outline, inner: &Outline) -> bool {
    let every = inner.path.segments.len().div_ceil(24).max(1);
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for segment in inner.path.segments.iter().step_by(every) {
        let middle = kurbo::ParamCurve::eval(&segment.course, 0.5);
        let away =
            outer.path.segments.iter().map(|one| {
                libm::sqrt(kurbo::ParamCurveNearest::nearest(&one.course, middle, 0.01).distance_sq)
            });
        let away = away.fold(f64::INFINITY, f64::min);
        (least, most) = (least.min(away), most.max(away));
    }
    least > 2.0 && most < 50.0 && most - least < 0.5 && inner.path.segments.len() >= 3
}

fn put(size: &mut TracedSize, shape: Shape) {
    match shape.role {
        Role::Stroke => size.notches.push(TracedNotch { at: shape.nearest_on(&size.outline) }),
        Role::Mark(at) => size.marks.push(TracedMark { name: shape.name, at }),
        Role::Grain(from, to) if size.grain.is_none() => size.grain = Some((from, to)),
        Role::Fold if size.fold.is_none() => {
            let ends = shape.path.segments.first().zip(shape.path.segments.last());
            size.fold = ends.map(|(first, last)| {
                (kurbo::ParamCurve::start(&first.course), kurbo::ParamCurve::end(&last.course))
            });
        }
        _ => size.lines.push(TracedLine { name: shape.name, path: shape.path }),
    }
}

/// Outlines of one name are one piece in several sizes.
fn gathered(found: Vec<Outline>, file: &str, traced: &mut Traced) {
    let mut order: Vec<Outline> = found;
    // The order of sizes is found later; pieces from the top, then from the left.
    order.sort_by(|one, other| {
        let place = |own: &Outline| (-(own.bounds.y1 / 50.0).round(), own.bounds.x0);
        let (one, other) = (place(one), place(other));
        one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1))
    });
    let mut pieces: IndexMap<String, TracedPiece> = IndexMap::new();
    let sized = order.iter().any(|own| own.owner.size.is_some());
    // Nameless ones of several sizes answer to each other by their number in their size.
    let mut numbers: IndexMap<Option<String>, usize> = IndexMap::new();
    for own in order {
        let written = own.size.texts.iter().find(|text| is_title(text)).cloned();
        let number = numbers.entry(own.owner.size.clone()).or_insert(0);
        let name = own.owner.piece.clone().or(written).unwrap_or_else(|| {
            *number += 1;
            format!("piece {number}")
        });
        let size = own.owner.size.clone().unwrap_or_default();
        let mut key = name.clone();
        let mut count = 1;
        while pieces.get(&key).is_some_and(|known| known.sizes.contains_key(&size)) {
            count += 1;
            key = format!("{name} {count}");
        }
        let what = if sized { "layers or names" } else { "paths" };
        let piece = pieces.entry(key.clone()).or_insert_with(|| TracedPiece {
            origin: format!("{key}, of the {what} of {file}"),
            name: key.clone(),
            sizes: IndexMap::new(),
            cut: None,
            material: None,
        });
        piece.sizes.insert(size, own.size);
    }
    traced.pieces.extend(pieces.into_values());
}

/// Whether words on a piece are likely its name: not a size, a count or a length.
fn is_title(text: &str) -> bool {
    let lower = text.to_lowercase();
    let known = ["size", "cut", "grain", "fold", "notch", "cm", "mm", "allowance"];
    text.chars().any(char::is_alphabetic)
        && text.chars().count() > 2
        && !known.iter().any(|word| lower.contains(word))
}
