//! What lies elsewhere in one size alone: marks, notches and lines that leap from one size to the next, a grain that turns.
//!
//! What lies on a piece goes along as the piece grows: from one size to the next it moves no farther than the corners of the
//! outline do, but for what a maker shifts on purpose.

use super::at_most::at_most;
use super::bends::{bends, bends_of_line};
use super::names::one_line;
use super::pattern::{Notch, Piece, Walk, of_size};
use super::runs::Form;
use super::traced::TracedSize;
use crate::shape::path::Path;
use indexmap::IndexSet;
use kurbo::{Point, Rect, Vec2};

/// So much farther than the corners, in millimetres, things may move from one size to the next.
const FREE: f64 = 12.0;
/// And so much farther as a share of how far the corners do.
const SHARE: f64 = 0.5;
/// By so much a grain line may turn from one size to the next, in radians (2°).
const TURN: f64 = 0.0349;

/// Sentences on what leaps; of the edges themselves none where something else `is_told` of them.
pub fn jumps(piece: &Piece, drawn: &[&TracedSize], sizes: &[String], is_told: bool) -> Vec<String> {
    let count = sizes.len();
    if count < 2 || drawn.len() != count {
        return Vec::new();
    }
    let middles = middles(piece, count);
    // A curve bows on as its ends move on: its middle moves hardly farther than any of them.
    let wide: Vec<Rect> = (1..count)
        .map(|size| {
            let most = moves(&piece.outline, size).map(|by| by.hypot()).fold(0.0, f64::max);
            Rect::ZERO.inflate((1.0 + SHARE) * most + FREE, (1.0 + SHARE) * most + FREE)
        })
        .collect();
    let mut bows: Vec<(&str, String)> = bends(piece, sizes)
        .into_iter()
        .filter_map(|(edge, words)| Some((&*piece.outline.edges.get(edge)?.name, words)))
        .map(|(name, words)| (name, format!("{name} {words}")))
        .collect();
    for (name, places) in &middles {
        if let Some(words) = leap(places, &wide, sizes).filter(|_| bows.iter().all(|(told, _)| told != name))
        {
            bows.push((name, format!("the middle of {name} {words}")));
        }
    }
    let bowed = bows.iter().filter(|_| !is_told);
    let mut found: Vec<String> = bowed.map(|(_, words)| words.clone()).collect();
    let sound: Vec<&[Point]> = middles
        .iter()
        .filter(|(name, _)| !bows.iter().any(|(bowed, _)| bowed == name))
        .map(|(_, places)| &**places)
        .collect();
    let room: Vec<Rect> = (1..count).map(|size| room(&piece.outline, &sound, size)).collect();
    let marks = piece.marks.iter().map(|mark| (mark.name.clone(), mark.at.clone()));
    let notches = piece.notches.iter().filter_map(|notch| {
        let edge = piece.outline.edges.get(notch.edge)?;
        let places = (0..count).map(|size| notch_at(&piece.outline, notch, size));
        Some((format!("the notch on {}", edge.name), places.collect::<Option<Vec<Point>>>()?))
    });
    let lines = piece.lines.iter().flat_map(|walk| {
        let ends = walk.edges.iter().map(|edge| (edge.name.clone(), edge.stretch.ends.clone()));
        let first = walk.edges.first().map(|edge| (edge.name.clone(), walk.from.clone()));
        first.into_iter().chain(ends)
    });
    let mut told: IndexSet<String> = IndexSet::new();
    for (name, places) in marks.chain(notches).chain(lines) {
        // What a size has of another one is told as that.
        if told.contains(&name) || piece.borrowed.contains(&name) {
            continue;
        }
        if let Some(words) = leap(&places, &room, sizes) {
            found.push(format!("{name} {words}"));
            told.insert(name);
        }
    }
    for line in &piece.lines {
        let bent = bends_of_line(line, sizes).into_iter();
        let named = bent.filter_map(|(edge, words)| Some((&line.edges.get(edge)?.name, words)));
        let own = named.filter(|(name, _)| !told.contains(*name) && !piece.borrowed.contains(*name));
        found.extend(own.map(|(name, words)| format!("{name} {words}")));
    }
    found.extend(turned(drawn, sizes));
    let of_piece = |words: String| format!("{} ({}): {words}", piece.name, piece.origin);
    at_most(found.into_iter().map(of_piece), |more| {
        of_piece(format!("{more} more things on it lie elsewhere in one size than in the next"))
    })
}

/// How far things may move up to that size from the one before: as far as any of the corners and middles of edges, and some more.
fn room(outline: &Walk, middles: &[&[Point]], size: usize) -> Rect {
    let along = middles.iter().filter_map(|places| Some(of_size(places, size)? - of_size(places, size - 1)?));
    let moves = moves(outline, size).chain(along).fold(Rect::ZERO, |all, by| all.union_pt(by.to_point()));
    let free = FREE.max(SHARE * moves.width().max(moves.height()));
    moves.inflate(free, free)
}

/// How the corners move up to that size from the one before.
fn moves(outline: &Walk, size: usize) -> impl Iterator<Item = Vec2> + '_ {
    (0..outline.edges.len()).filter_map(move |edge| {
        let at = outline.start(edge);
        Some(of_size(at, size)? - of_size(at, size - 1)?)
    })
}

/// The middles of edges that are no straight lines, by size.
fn middles(piece: &Piece, count: usize) -> Vec<(String, Vec<Point>)> {
    let edges = piece.outline.edges.iter().enumerate();
    let curves = edges.filter(|(_, edge)| edge.stretch.form != Form::Straight);
    let each = curves.filter_map(|(at, edge)| {
        let middle = |size| {
            let path = Path::from_segments(piece.outline.path(at, size)).ok()?;
            Some(path.point_at_length(path.length() / 2.0))
        };
        Some((edge.name.clone(), (0..count).map(middle).collect::<Option<Vec<Point>>>()?))
    });
    each.collect()
}

fn notch_at(outline: &Walk, notch: &Notch, size: usize) -> Option<Point> {
    let path = Path::from_segments(outline.path(notch.edge, size)).ok()?;
    let along = of_size(&notch.along, size)?;
    Some(path.point_at_length(if notch.from_end { path.length() - along } else { along }))
}

/// The farthest leap between two sizes, and which size it is that lies elsewhere, where that can be told.
fn leap(places: &[Point], room: &[Rect], sizes: &[String]) -> Option<String> {
    let moves: Vec<Vec2> = (1..sizes.len())
        .filter_map(|size| Some(of_size(places, size)? - of_size(places, size - 1)?))
        .collect();
    let leaps: Vec<bool> = moves.iter().zip(room).map(|(by, room)| !room.contains(by.to_point())).collect();
    let far = |at: &usize| moves.get(*at).map_or(0.0, |by| by.hypot());
    let at = (0..leaps.len())
        .filter(|at| leaps.get(*at) == Some(&true))
        .max_by(|one, other| far(one).total_cmp(&far(other)).then(other.cmp(one)))?;
    let by = moves.get(at)?;
    let called = |size: usize| sizes.get(size).map_or_else(String::new, |name| one_line(name));
    // Between two leaps lies the size that is drawn otherwise.
    let own = |size: usize| size >= 1 && leaps.get(size - 1) == Some(&true) && leaps.get(size) == Some(&true);
    let odd = [at, at + 1].into_iter().find(|size| own(*size));
    let (from, to, by) = match odd {
        Some(odd) if odd == at => (at + 1, at, -*by),
        _ => (at, at + 1, *by),
    };
    Some(format!(
        "lies elsewhere in {} than in {}, by {}, and no corner moves so far between these sizes: is it drawn in the wrong place?",
        called(to),
        called(from),
        way(by)
    ))
}

/// `12 mm to the right and 30 mm above`.
pub fn way(by: Vec2) -> String {
    let across = (by.x.abs() >= 0.5)
        .then(|| format!("{:.0} mm to the {}", by.x.abs(), if by.x > 0.0 { "right" } else { "left" }));
    let up = (by.y.abs() >= 0.5)
        .then(|| format!("{:.0} mm {}", by.y.abs(), if by.y > 0.0 { "up" } else { "down" }));
    match (across, up) {
        (Some(across), Some(up)) => format!("{across} and {up}"),
        (Some(only), None) | (None, Some(only)) => only,
        (None, None) => "less than 1 mm off".to_owned(),
    }
}

/// What is said of a grain line that turns most from one size to the next.
fn turned(drawn: &[&TracedSize], sizes: &[String]) -> Option<String> {
    let ways: Vec<Option<Vec2>> = drawn.iter().map(|size| size.grain.map(|(from, to)| to - from)).collect();
    let turns: Vec<f64> = ways
        .windows(2)
        .map(|pair| match pair {
            [Some(one), Some(other)] => {
                let own = super::course::angle(*one, *other);
                // Which end has the arrow says nothing of how it lies.
                own.min(std::f64::consts::PI - own)
            }
            _ => 0.0,
        })
        .collect();
    let (at, turn) = turns.iter().enumerate().max_by(|one, other| one.1.total_cmp(other.1))?;
    if *turn <= TURN {
        return None;
    }
    // Between two turns lies the size that is drawn otherwise.
    let is_odd = at > 0 && turns.get(at - 1).is_some_and(|before| *before > TURN);
    let (from, to) = if is_odd { (at + 1, at) } else { (at, at + 1) };
    let (one, other) = (sizes.get(from)?, sizes.get(to)?);
    Some(format!(
        "the grain line of {} lies {:.0}° turned from that of {}: is one of them drawn wrong?",
        one_line(other),
        turn.to_degrees(),
        one_line(one)
    ))
}
