//! Outlines that are drawn as several open paths, each of which ends where the next begins.

use super::roles::{Role, Shape};
use crate::bring::at_most::at_most;
use crate::bring::read::inside::goes_round;
use crate::bring::read::letters::base_name;
use crate::bring::read::line_work::{close, ends, meet, reversed};
use crate::bring::traced::TracedPath;
use crate::report::listed;
use indexmap::IndexMap;
use kurbo::Point;

/// Ends nearer than this, in millimetres, were meant to meet.
const MEANT: f64 = 0.5;
/// Of one piece no more open paths are put together.
const MOST_PARTS: usize = 60;
/// Of their lines in the file no more are named.
const MOST_NAMED: usize = 6;
/// Ends nearer than this, in millimetres, were hardly meant to lie apart.
const NEARLY: f64 = 5.0;

/// Open paths that come to a closed one.
struct Ring {
    /// Their places among all shapes.
    own: Vec<usize>,
    /// All of it, with its parts.
    whole: Shape,
    /// How far apart two of their ends are at most, in millimetres.
    gap: f64,
}

/// Takes the open paths out of the rest that make a closed one with others of the same piece and group.
pub fn in_parts(rest: &mut Vec<Shape>) -> Vec<Shape> {
    let found = all_rings(rest, MEANT);
    let mut is_taken = vec![false; rest.len()];
    for at in found.iter().flat_map(|ring| &ring.own) {
        // The fold is part of the outline, and stays what it is.
        if let Some(taken) =
            is_taken.get_mut(*at).filter(|_| rest.get(*at).is_some_and(|one| one.role != Role::Fold))
        {
            *taken = true;
        }
    }
    let mut at = 0;
    rest.retain(|_| {
        at += 1;
        is_taken.get(at - 1) != Some(&true)
    });
    found.into_iter().map(|ring| ring.whole).collect()
}

/// What would be closed if its parts met, and by how much they do not, in millimetres.
pub fn nearly(rest: &[Shape]) -> Vec<(f64, Shape)> {
    all_rings(rest, NEARLY).into_iter().map(|ring| (ring.gap, ring.whole)).collect()
}

fn all_rings(rest: &[Shape], reach: f64) -> Vec<Ring> {
    let mut groups: IndexMap<(&[usize], Option<&str>), Vec<usize>> = IndexMap::new();
    for (at, shape) in rest.iter().enumerate() {
        if !shape.path.closed && matches!(shape.role, Role::Line | Role::Stroke | Role::Fold) {
            groups.entry((&shape.groups, shape.owner.size.as_deref())).or_default().push(at);
        }
    }
    let some = groups.values().filter(|own| (2..=MOST_PARTS).contains(&own.len()));
    some.flat_map(|own| rings(rest, own, reach)).collect()
}

/// A part: its place among all shapes, itself, and its two ends.
type Part<'a> = (usize, &'a Shape, [Point; 2]);

/// The rings that some shapes make.
fn rings(rest: &[Shape], own: &[usize], reach: f64) -> Vec<Ring> {
    let parts: Vec<Part<'_>> = own
        .iter()
        .filter_map(|at| {
            let shape = rest.get(*at)?;
            ends(&shape.path).map(|(start, end)| (*at, shape, [start, end]))
        })
        .collect();
    let mut found: Vec<Ring> = Vec::new();
    for (first, (at, ..)) in parts.iter().enumerate() {
        if !found.iter().any(|ring| ring.own.contains(at)) {
            found.extend(ring(&parts, first, reach));
        }
    }
    found
}

/// The ring that begins with that part.
fn ring(parts: &[Part<'_>], first: usize, reach: f64) -> Option<Ring> {
    let (.., [begin, mut place]) = *parts.get(first)?;
    let (mut chain, mut last, mut gap) = (vec![(first, false)], first, 0.0_f64);
    while place.distance(begin) > reach {
        let (next, is_end) = beside(parts, last, place, reach)?;
        let (.., [start, end]) = *parts.get(next).filter(|_| next != first && chain.len() < parts.len())?;
        let (near, far) = if is_end { (end, start) } else { (start, end) };
        gap = gap.max(near.distance(place));
        chain.push((next, is_end));
        (last, place) = (next, far);
    }
    // Whatever else ends where it closes would have to be told apart.
    let closes = chain.len() > 1 && beside(parts, last, place, reach).is_some_and(|(next, _)| next == first);
    let drawn = chain.iter().filter_map(|(at, turned)| Some((*parts.get(*at)?, *turned)));
    let mut drawn: Vec<(Part<'_>, bool)> = drawn.filter(|_| closes).collect();
    let whole = whole(&drawn)?;
    drawn.sort_by_key(|((at, ..), _)| *at);
    let parts = drawn.iter().map(|((_, shape, _), _)| (*shape).clone()).collect();
    let own = drawn.iter().map(|((at, ..), _)| *at).collect();
    Some(Ring { own, whole: Shape { parts, ..whole }, gap: gap.max(place.distance(begin)) })
}

/// The only other end at a place, and whether it is its part's second one: of three nobody can know which two belong together.
fn beside(parts: &[Part<'_>], from: usize, place: Point, reach: f64) -> Option<(usize, bool)> {
    let others = parts.iter().enumerate().filter(|(other, _)| *other != from);
    let mut found = others.flat_map(|(other, (.., [start, end]))| {
        let each = [(start, false), (end, true)].into_iter();
        each.filter(|(at, _)| at.distance(place) <= reach).map(move |(_, is_end)| (other, is_end))
    });
    let first = found.next()?;
    found.next().is_none().then_some(first)
}

/// Parts as one closed shape, which is called as the first of them that is no fold, if it goes round something.
fn whole(parts: &[(Part<'_>, bool)]) -> Option<Shape> {
    let mut path = TracedPath { segments: Vec::new(), closed: false };
    let mut called: Option<&Shape> = None;
    let mut is_dashed = true;
    for ((_, shape, _), turned) in parts {
        let own = if *turned { reversed(&shape.path) } else { shape.path.clone() };
        path.segments.extend(own.segments);
        if shape.role == Role::Fold {
            continue;
        }
        is_dashed &= shape.is_dashed;
        match called {
            // Parts of two names are two lines.
            Some(known) if known.owner.piece != shape.owner.piece => return None,
            Some(known) if known.line <= shape.line => {}
            _ => called = Some(shape),
        }
    }
    meet(&mut path);
    goes_round(&path)?;
    close(&mut path);
    Some(Shape { path, role: Role::Line, is_dashed, ..called?.clone() })
}

/// What is said of outlines that are put together of their parts, each with what it is called.
pub fn told<'a>(outlines: impl IntoIterator<Item = (String, &'a [Shape])>, file: &str) -> Vec<String> {
    let each = outlines.into_iter().map(|(called, parts)| {
        format!(
            "the outline of {called} is drawn as {} open paths that meet at their ends ({} of {}): they are taken for one",
            parts.len(),
            lines(parts),
            base_name(file)
        )
    });
    at_most(each, |more| format!("{more} more outlines are drawn as open paths that meet at their ends"))
}

/// What is said of one whose parts do not meet.
pub fn apart(called: &str, parts: &[Shape], gap: f64) -> String {
    format!(
        "the outline of {called} is drawn as {} open paths ({}), and two of their ends are {gap:.1} mm apart; let them meet",
        parts.len(),
        lines(parts)
    )
}

/// `line 4`, `lines 4 and 7`.
fn lines(parts: &[Shape]) -> String {
    let mut lines: Vec<usize> = parts.iter().map(|part| part.line).collect();
    lines.sort_unstable();
    lines.dedup();
    let more = if lines.len() > MOST_NAMED { " …" } else { "" };
    lines.truncate(MOST_NAMED);
    let named: Vec<String> = lines.iter().map(usize::to_string).collect();
    let word = if named.len() == 1 { "line" } else { "lines" };
    match more.is_empty() {
        true => format!("{word} {}", listed(&named)),
        false => format!("{word} {}{more}", named.join(", ")),
    }
}
