//! What is said of a fold that is drawn, and along which no edge lies in all sizes.

use super::course::SAME;
use super::inside::{ON_FOLD, fold_of};
use super::names::one_line;
use super::pattern::{Piece, Walk, of_size};
use super::runs::Form;
use super::traced::TracedSize;
use crate::report::listed;
use indexmap::IndexMap;
use kurbo::{ParamCurve, Point, Shape, Vec2};

/// In so many places an edge is looked at.
const PLACES: usize = 64;
/// By so much less a half may go beyond its fold than an edge may lie off it, in millimetres: what is written is rounded.
const ROUNDED: f64 = 0.02;

/// What is said of a piece of which a fold is drawn that is none; nothing where no fold is drawn.
pub fn astray(drawn: &[&TracedSize], shifts: &[Vec2], piece: &Piece, sizes: &[String]) -> Option<String> {
    if let Some(words) = too_far(drawn, shifts, piece, sizes) {
        return Some(words);
    }
    let called = |size: usize| sizes.get(size).map(|name| one_line(name)).filter(|name| !name.is_empty());
    let mut lies: IndexMap<Lies, Vec<String>> = IndexMap::new();
    for size in 0..drawn.len() {
        lies.entry(Lies::of(drawn, shifts, piece, size)).or_default().extend(called(size));
    }
    if lies.keys().all(|own| *own == Lies::Undrawn) {
        return None;
    }
    let within = |names: &[String]| {
        if names.is_empty() { String::new() } else { format!(" in {}", listed(names)) }
    };
    let each: Vec<String> = lies
        .iter()
        .map(|(own, names)| match own {
            Lies::Undrawn => format!("none is drawn{}", within(names)),
            Lies::Nowhere => format!("no edge lies along it{}", within(names)),
            Lies::Along(edges) => format!("{} lies along it{}", edges.join(" or "), within(names)),
        })
        .collect();
    let way = match lies.len() {
        1 => "; it",
        _ => ": is it drawn wrong in one of them? It",
    };
    Some(format!(
        "{} ({}): a fold is drawn, and {}{way} is left out, and the piece is taken to be whole",
        piece.name,
        piece.origin,
        each.join(", and ")
    ))
}

/// What is said of a half that goes beyond the fold that is drawn.
fn too_far(drawn: &[&TracedSize], shifts: &[Vec2], piece: &Piece, sizes: &[String]) -> Option<String> {
    let fold = fold_of(drawn, shifts, &piece.outline)?;
    let (size, far, at) = beyond(&piece.outline, fold, drawn.len())?;
    let others = (0..drawn.len()).filter(|other| *other != size);
    let is_alone = others.clone().count() > 0
        && others.into_iter().all(|other| beyond_in(&piece.outline, fold, other).is_none());
    let bounds = piece.outline.whole(size).bounding_box();
    let name = sizes.get(size).map(|name| one_line(name)).filter(|name| !name.is_empty());
    let in_size = name.map_or_else(String::new, |name| format!(" in {name}"));
    let way = if is_alone { ": is it drawn wrong in that size? The fold" } else { "; the fold" };
    Some(format!(
        "{} ({}): a fold is drawn, and{in_size} the half goes {far:.1} mm beyond it, {:.0} mm from its left and {:.0} mm from its \
         lower end{way} is left out, and the piece is taken to be whole",
        piece.name,
        piece.origin,
        at.x - bounds.x0,
        at.y - bounds.y0
    ))
}

/// In which size a half goes farthest beyond its fold, how far and where; none where it stays on its side in all.
pub fn beyond(outline: &Walk, fold: usize, sizes: usize) -> Option<(usize, f64, Point)> {
    let each = (0..sizes).filter_map(|size| beyond_in(outline, fold, size).map(|(far, at)| (size, far, at)));
    each.reduce(|one, other| if other.1 > one.1 { other } else { one })
}

fn beyond_in(outline: &Walk, fold: usize, size: usize) -> Option<(f64, Point)> {
    let from = of_size(outline.start(fold), size)?;
    let way = of_size(&outline.edges.get(fold)?.stretch.ends, size)? - from;
    let long = way.hypot().max(SAME);
    // The cloth lies on the left of an outline that goes round against the clock.
    let off = |at: Point| -way.cross(at - from) / long;
    let edges = (0..outline.edges.len()).filter(|edge| *edge != fold);
    let places = edges
        .flat_map(|edge| outline.path(edge, size))
        .flat_map(|segment| (0..=PLACES).map(move |nth| segment.eval(nth as f64 / PLACES as f64)));
    let farthest =
        places.map(|at| (off(at), at)).reduce(|one, other| if other.0 > one.0 { other } else { one })?;
    (farthest.0 > ON_FOLD - ROUNDED).then_some(farthest)
}

/// Where the fold lies in one size.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
enum Lies {
    /// None is drawn.
    Undrawn,
    /// Along no straight edge.
    Nowhere,
    /// Along these.
    Along(Vec<String>),
}

impl Lies {
    fn of(drawn: &[&TracedSize], shifts: &[Vec2], piece: &Piece, size: usize) -> Self {
        let fold = drawn.get(size).and_then(|own| own.fold).zip(shifts.get(size));
        let Some(((from, to), shift)) = fold else { return Lies::Undrawn };
        let (from, to) = (from + *shift, to + *shift);
        let long = from.distance(to).max(SAME);
        let near =
            |end: Option<Point>| end.is_some_and(|end| (end - from).cross(to - from).abs() / long < ON_FOLD);
        let along = piece.outline.edges.iter().enumerate().filter(|(at, edge)| {
            edge.stretch.form == Form::Straight
                && near(of_size(piece.outline.start(*at), size))
                && near(of_size(&edge.stretch.ends, size))
        });
        let names: Vec<String> = along.map(|(_, edge)| edge.name.clone()).collect();
        if names.is_empty() { Lies::Nowhere } else { Lies::Along(names) }
    }
}
