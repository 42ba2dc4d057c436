//! `strap/overlap`: straps that lie over one another where they are sewn on side by side.
//!
//! Caught at one edge they lie square to it, and a strap that is sewn on at both ends of one piece goes from the one to the
//! other. Others hang or go on to another piece side by side.

use super::over_cloth::beyond_fold;
use super::strap_room::is_too_wide;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, StrapEnd, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::sewing::{SewnStrap, SewnStrapRun, is_on_fold, strap_place, straps};
use crate::shape::{Point, Vec2};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_OVERLAP], run: Run::PerSize(run) };

/// Two straps may lie over one another by so much, in millimetres: their edges touch.
const TOUCHING: f64 = 2.0;
/// A place no further from an edge than this is caught with it, in millimetres.
const AT_EDGE: f64 = 1.0;
/// Nearer than this, in millimetres, two marks are one place, and one strap is meant to lie on the other.
const ONE_PLACE: f64 = 0.5;
/// A strap so many times as long as its ends lie apart stands up between them, as a handle does.
const STANDS_UP: f64 = 2.0;
/// Straps that run within 30 degrees of one way lie side by side: the cosine of that.
const SIDE_BY_SIDE: f64 = 0.866;

/// An end of a strap where it is sewn on.
struct Sewn<'a> {
    runs: &'a [StrapRun],
    run: &'a StrapRun,
    end: &'a StrapEnd,
    strap: &'a SewnStrap,
    drawn: &'a DrawnPiece,
    at: Point,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    let all = straps(garment, &size.drawn);
    let mut ends: Vec<Sewn> = Vec::new();
    for strap in all.iter().filter(|strap| strap.width > 0.0 && !is_too_wide(garment, size, strap)) {
        let runs = &garment.strap(strap.strap).runs;
        for run in runs {
            for end in run.ends() {
                let place = strap_place(garment, &size.drawn, end.point);
                ends.extend(place.map(|(drawn, at)| Sewn { runs, run, end, strap, drawn, at }));
            }
        }
    }
    let own = ends.iter().find_map(|sewn| over_its_twin(garment, size, sewn).map(|by| (sewn, sewn, by)));
    let found = own.or_else(|| {
        let mut pairs = ends.iter().enumerate().flat_map(|(at, one)| {
            let later = ends.iter().skip(at + 1);
            later.map(move |other| (one, other))
        });
        pairs.find_map(|(one, other)| {
            let by = over_another(one, other)
                .or_else(|| over_one_beside(garment, size, one, other))
                .or_else(|| ends_over_one_another(garment, size, one, other))
                .or_else(|| in_its_place(one, other))?;
            Some((one, other, by))
        })
    });
    findings.extend(found.map(|(one, other, by)| told(garment, size, one, other, by)));
}

/// By how much the left one of a strap lies over the right one, beside the fold of their piece.
fn over_its_twin(garment: &Garment, size: &WorkedSize, sewn: &Sewn) -> Option<f64> {
    let CutHow::OnFold(fold) = sewn.drawn.cut else { return None };
    if sewn.end.hand.is_some() || sewn.end.at_fold || is_on_fold(sewn.drawn, sewn.at) {
        return None;
    }
    let fold = &sewn.drawn.edge(fold)?.path;
    let along_fold = (fold.end() - fold.start()).normalize();
    let is_along = |way: Vec2| way.normalize().dot(along_fold).abs() >= SIDE_BY_SIDE;
    let leaves = match &sewn.end.caught {
        Some(_) => {
            let edge = edge_at(sewn.drawn, sewn.at)?;
            let way = edge.path.end() - edge.path.start();
            Vec2::new(-way.y, way.x)
        }
        // To another piece, or nowhere: up or down, as most do.
        None if !is_to_own_piece(garment, size, sewn) => sewn.drawn.grain,
        None => {
            let to = sewn.run.to.as_ref().filter(|to| to.hand == sewn.run.from.hand)?;
            let (from, to) = (place(garment, size, &sewn.run.from, sewn)?, place(garment, size, to, sewn)?);
            to - from
        }
    };
    let by = sewn.strap.width - 2.0 * fold.nearest(sewn.at).distance;
    (is_along(leaves) && by > TOUCHING).then_some(by)
}

fn is_to_own_piece(garment: &Garment, size: &WorkedSize, sewn: &Sewn) -> bool {
    let other = sewn.run.ends().find(|end| !std::ptr::eq(*end, sewn.end));
    other.is_some_and(|other| place(garment, size, other, sewn).is_some())
}

/// By how much two straps that are sewn on one piece at marks beside one another lie over one another: ends of two that
/// go to other pieces or hang free, or both ends of one that is so long that it stands up between them.
fn over_one_beside(garment: &Garment, size: &WorkedSize, one: &Sewn, other: &Sewn) -> Option<f64> {
    let is_beside = one.end.caught.is_none()
        && other.end.caught.is_none()
        && one.end.layer == other.end.layer
        && std::ptr::eq(one.drawn, other.drawn);
    let there = match one.end.hand.zip(other.end.hand) {
        // The left one and the right one lie on two copies, or on both sides of the fold.
        Some((hand, other_hand)) if hand != other_hand => beyond_fold(other.drawn, other.at)?,
        _ => other.at,
    };
    let apart = one.at.distance(there);
    let by = 0.5 * (one.strap.width + other.strap.width) - apart;
    if !is_beside || apart <= ONE_PLACE || by <= TOUCHING {
        return None;
    }
    // Two marks above one another are a strap on the end of another.
    let along = one.drawn.grain.normalize().dot((there - one.at).normalize()).abs();
    let leaves = match std::ptr::eq(one.run, other.run) {
        true => own_run(one).is_some_and(|run| run.free >= STANDS_UP * apart),
        false => [one, other].iter().all(|sewn| !is_to_own_piece(garment, size, sewn)),
    };
    (leaves && along < SIDE_BY_SIDE).then_some(by)
}

/// By how much the ends of two straps lie over one another that both go to other places of their piece: whichever way each is
/// sewn on, along itself.
fn ends_over_one_another(garment: &Garment, size: &WorkedSize, one: &Sewn, other: &Sewn) -> Option<f64> {
    let hands = one.end.hand.zip(other.end.hand);
    let is_beside = one.end.caught.is_none()
        && other.end.caught.is_none()
        && one.strap.strap != other.strap.strap
        && one.end.layer == other.end.layer
        && hands.is_none_or(|(one, other)| one == other)
        && std::ptr::eq(one.drawn, other.drawn);
    let between = other.at - one.at;
    if !is_beside || between.hypot() <= ONE_PLACE {
        return None;
    }
    let way = |sewn: &Sewn| {
        let other = sewn.run.ends().find(|end| !std::ptr::eq(*end, sewn.end))?;
        let way = place(garment, size, other, sewn)? - sewn.at;
        (way.hypot() > ONE_PLACE).then(|| way.normalize())
    };
    let (first, second) = (way(one)?, way(other)?);
    // Side by side: what lies further along than across is one strap on the end of another.
    let across = |way: Vec2| way.cross(between).abs();
    let is_aside = |way: Vec2| way.dot(between).abs() <= across(way);
    let by = 0.5 * (one.strap.width + other.strap.width) - across(first).max(across(second));
    (first.dot(second) >= SIDE_BY_SIDE && is_aside(first) && is_aside(second) && by > TOUCHING).then_some(by)
}

fn own_run(sewn: &Sewn) -> Option<SewnStrapRun> {
    let at = sewn.runs.iter().position(|run| std::ptr::eq(run, sewn.run))?;
    sewn.strap.runs.get(at).copied()
}

fn place(garment: &Garment, size: &WorkedSize, end: &StrapEnd, on: &Sewn) -> Option<Point> {
    let (drawn, at) = strap_place(garment, &size.drawn, end.point)?;
    std::ptr::eq(drawn, on.drawn).then_some(at)
}

/// By how much two straps that are caught at one edge lie over one another, the one not wholly on the other.
fn over_another(one: &Sewn, other: &Sewn) -> Option<f64> {
    let (first, second) = (one.end, other.end);
    let is_beside = first.caught.is_some()
        && first.caught == second.caught
        && first.layer == second.layer
        && first.hand == second.hand
        && std::ptr::eq(one.drawn, other.drawn);
    if !is_beside {
        return None;
    }
    let edge = edge_at(one.drawn, one.at)?;
    let apart = one.at.distance(other.at);
    let by = 0.5 * (one.strap.width + other.strap.width) - apart;
    let is_within = apart <= 0.5 * (one.strap.width - other.strap.width).abs() + TOUCHING;
    (edge.path.nearest(other.at).distance <= AT_EDGE && apart > ONE_PLACE && !is_within && by > TOUCHING)
        .then_some(by)
}

/// Two straps of one width between the very same marks, or caught at one: the marks of the second are those of the first.
fn in_its_place(one: &Sewn, other: &Sewn) -> Option<f64> {
    let between = |sewn: &Sewn| {
        let mut ends: Vec<_> =
            sewn.run.ends().map(|end| (end.point, end.layer, end.hand, end.at_fold)).collect();
        ends.sort_unstable_by_key(|(point, ..)| *point);
        ends
    };
    // The same one twice is told as that, and so are two that hang from one place.
    let is_same = one.strap.strap != other.strap.strap
        && one.run.to.is_some()
        && other.run.to.is_some()
        && (one.strap.width - other.strap.width).abs() <= TOUCHING
        && between(one) == between(other);
    is_same.then_some(one.strap.width)
}

fn edge_at(drawn: &DrawnPiece, at: Point) -> Option<&DrawnEdge> {
    let near = |edge: &&DrawnEdge| edge.path.nearest(at).distance <= AT_EDGE;
    let mut edges = drawn.edges.iter().filter(near);
    edges.next().filter(|_| edges.next().is_none())
}

fn told(garment: &Garment, size: &WorkedSize, one: &Sewn, other: &Sewn, by: f64) -> Finding {
    let (unit, is_twin) = (garment.unit, std::ptr::eq(one, other));
    let [first, second] = [one, other].map(|sewn| garment.strap(sewn.strap.strap));
    let piece = words::piece(garment, one.drawn.piece);
    let (over, apart) = (amount(by, unit), at_least(by, unit));
    let title = match is_twin {
        true => format!("the left and the right {} lie {over} over one another on {piece}", first.name),
        false if std::ptr::eq(one.run, other.run) => {
            format!("both ends of {} lie {over} over one another on {piece}", first.name)
        }
        false => format!("{} lies {over} over {} on {piece}", second.name, first.name),
    };
    let wide = amount(other.strap.width, unit);
    let also: (Span, String) = match is_twin {
        true => (first.width.span, format!("{wide} wide, its mark in the middle")),
        false => (one.end.span, format!("{} lies here", first.name)),
    };
    let help = match is_twin {
        true => format!(
            "move its mark at least {} further from the fold; or, if one is meant, let it lie there: at the fold",
            at_least(0.5 * by, unit)
        ),
        false => {
            format!("move their marks at least {apart} further apart; or on one place, if both hang from it")
        }
    };
    let advice = Diagnostic::new(&catalogue::STRAP_OVERLAP, other.end.span, Title::new(title).in_sizes())
        .label("sewn on here")
        .also(also.0, also.1)
        .help(help);
    Finding::new(size.id(), by, advice).about(&*second.name).figure("over one another", over)
}
