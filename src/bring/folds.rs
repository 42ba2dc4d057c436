//! What is said of a fold that is drawn, and along which no edge lies in all sizes.

use super::allowances::listed;
use super::course::SAME;
use super::inside::ON_FOLD;
use super::names::one_line;
use super::pattern::{Piece, of_size};
use super::runs::Form;
use super::traced::TracedSize;
use indexmap::IndexMap;
use kurbo::{Point, Vec2};

/// What is said of a piece of which a fold is drawn that is none; nothing where no fold is drawn.
pub fn astray(drawn: &[&TracedSize], shifts: &[Vec2], piece: &Piece, sizes: &[String]) -> Option<String> {
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
