//! Rows that are lost, doubled or lack their size.

use super::placed::{Kind, Placed, Sizes};
use super::rows::Wrong;
use crate::bring::course::angle;
use crate::bring::read::letters::shown;
use crate::bring::traced::TracedPoint;
use indexmap::IndexMap;
use std::collections::{BTreeMap, HashSet};

/// Of outlines with more points than this each is one of a curve, unless it is said to be a corner.
const DRAWN_POINTS: usize = 64;
/// From so large a turn on, in radians (25°), a point of which nothing is said is a corner, as it is where nobody says another angle.
const CORNER: f64 = 0.436_332;
/// Of rows without a size no more are told one by one.
const MOST_TOLD: usize = 5;
/// So many points of one number are not one slip each: it is another outline.
const SEVERAL: usize = 3;

/// What is said of rows without a size among those of a piece that has sizes; they are taken out. An outline that is whole
/// without a size may be drawn once more.
pub(super) fn without_size(pieces: &mut IndexMap<String, Sizes>) -> Vec<Wrong> {
    let mut wrong = Vec::new();
    for (piece, sizes) in pieces {
        let is_whole =
            |kinds: &IndexMap<Kind, Vec<Placed>>| kinds.get(&Kind::Outline).is_some_and(|all| all.len() > 2);
        let has_others = sizes.keys().any(|size| !size.is_empty());
        if !has_others || sizes.get("").is_none_or(is_whole) {
            continue;
        }
        let Some(kinds) = sizes.shift_remove("") else { continue };
        let mut lines: Vec<usize> = kinds.values().flatten().map(|point| point.line).collect();
        lines.sort_unstable();
        let others: Vec<String> = sizes.keys().map(|size| shown(size)).collect();
        let why = |more: usize| {
            let rows = if more > 0 { format!(" here and in {more} more rows") } else { String::new() };
            format!("the size is missing{rows}: {} is drawn in {}", shown(piece), others.join(", "))
        };
        match lines.as_slice() {
            [first, rest @ ..] if rest.len() >= MOST_TOLD => wrong.push((*first, why(rest.len()))),
            few => wrong.extend(few.iter().map(|line| (*line, why(0)))),
        }
    }
    wrong
}

/// What is said of points that one size lacks between two of its own, and other sizes have.
#[derive(Debug, Default)]
pub(super) struct Lost {
    /// Of corners: sizes with other corners do not answer to one another.
    pub wrong: Vec<Wrong>,
    /// Of points of curves, which may be traced with more or fewer.
    pub remarks: Vec<String>,
    /// Of which pieces and sizes it is said.
    pub told: HashSet<(String, String)>,
}

/// A point of another size, and whether it is a corner there.
struct Known<'a> {
    point: &'a Placed,
    size: &'a str,
    is_corner: bool,
}

/// What is said of a point that one size lacks between two of its own, and other sizes have.
pub(super) fn lost(pieces: &IndexMap<String, Sizes>, file: &str) -> Lost {
    let mut lost = Lost::default();
    for (piece, sizes) in pieces {
        let numbered: Vec<(&String, BTreeMap<u64, &Placed>)> = sizes
            .iter()
            .filter_map(|(size, kinds)| Some((size, by_number(kinds.get(&Kind::Outline)?)?)))
            .collect();
        if numbered.len() < 2 {
            continue;
        }
        // Of each number the size that has it first; where it is a corner in any size, that one.
        let mut known: BTreeMap<u64, Known> = BTreeMap::new();
        for (size, own) in &numbered {
            for ((number, point), is_corner) in own.iter().zip(corners(own)) {
                let is_better = known.get(number).is_none_or(|known| is_corner && !known.is_corner);
                if is_better {
                    known.insert(*number, Known { point, size, is_corner });
                }
            }
        }
        for (size, own) in &numbered {
            let missing = missing(own, &known);
            let corner = missing.iter().find(|(_, known)| known.is_corner);
            let Some((number, other)) = corner.or(missing.first()) else { continue };
            let Some((_, before)) = own.range(..number).next_back() else { continue };
            let why = |place: &str| {
                format!(
                    "behind {place} the point {number} of {} is missing in size {}; {} has it in line {}: is a row lost?",
                    shown(piece),
                    shown(size),
                    shown(other.size),
                    other.point.line
                )
            };
            match corner.is_some() {
                true => lost.wrong.push((before.line, why("this row"))),
                false => lost.remarks.push(why(&format!("line {} of {file}", before.line))),
            }
            lost.told.insert((piece.clone(), (*size).clone()));
        }
    }
    lost
}

/// The points that a size lacks between its first and its last, as far as they are looked for: until one is a corner.
fn missing<'a, 'b>(
    own: &BTreeMap<u64, &Placed>,
    known: &'b BTreeMap<u64, Known<'a>>,
) -> Vec<(u64, &'b Known<'a>)> {
    let (Some((least, _)), Some((most, _))) = (own.first_key_value(), own.last_key_value()) else {
        return Vec::new();
    };
    let mut found: Vec<(u64, &Known)> = Vec::new();
    for (number, other) in known.range(least..most).filter(|(number, _)| !own.contains_key(number)) {
        if other.is_corner || found.is_empty() {
            found.push((*number, other));
        }
        if other.is_corner {
            break;
        }
    }
    found
}

/// Which of the points are corners: those that are said to be, and of a drawn outline those at which it turns as corners do.
fn corners(points: &BTreeMap<u64, &Placed>) -> Vec<bool> {
    let all: Vec<&Placed> = points.values().copied().collect();
    let count = all.len();
    let turn = |at: usize| {
        let place = |at: usize| all.get(at % count).map(|point| point.at);
        let (Some(before), Some(own), Some(after)) = (place(at + count - 1), place(at), place(at + 1)) else {
            return 0.0;
        };
        angle(own - before, after - own)
    };
    let is_corner = |(at, point): (usize, &&Placed)| match point.said {
        TracedPoint::Corner => true,
        TracedPoint::Curve => false,
        TracedPoint::Unsaid => count <= DRAWN_POINTS && turn(at) > CORNER,
    };
    all.iter().enumerate().map(is_corner).collect()
}

/// The points by their numbers, where all have one of their own, behind the same word or none: `7`, or `p7`.
fn by_number(points: &[Placed]) -> Option<BTreeMap<u64, &Placed>> {
    let parted = |point: &'_ Placed| -> Option<(usize, u64)> {
        let word = point.name.trim_end_matches(|letter: char| letter.is_ascii_digit()).len();
        Some((word, point.name.get(word..)?.parse().ok()?))
    };
    let (first, (word, _)) = points.first().and_then(|first| Some((first, parted(first)?)))?;
    let is_alike = |point: &Placed| point.name.get(..word) == first.name.get(..word);
    let number =
        |point| parted(point).filter(|own| own.0 == word && is_alike(point)).map(|(_, number)| number);
    let all: Option<BTreeMap<u64, &Placed>> =
        points.iter().map(|point| Some((number(point)?, point))).collect();
    all.filter(|all| all.len() == points.len())
}

/// What is said of an outline that stands there twice; the points are in the order of their numbers.
pub(super) fn twice(points: &[Placed], whose: &str) -> Option<Wrong> {
    let same: Vec<(usize, usize)> = points
        .windows(2)
        .filter_map(|pair| match pair {
            [one, other] if one.name.parse::<u64>().ok() == other.name.parse::<u64>().ok() => {
                Some((one.line.min(other.line), one.line.max(other.line)))
            }
            _ => None,
        })
        .collect();
    let first = same.iter().map(|(first, _)| *first).min().filter(|_| same.len() >= SEVERAL)?;
    let again = same.iter().map(|(_, again)| *again).min()?;
    let why = format!(
        "{whose} stands there twice, from line {first} and again from here on: two pieces want two names"
    );
    Some((again, why))
}

/// What is said of outlines whose points are numbered one after the other, but for a few that are not there.
pub(super) fn gaps(pieces: &IndexMap<String, Sizes>, told: &HashSet<(String, String)>) -> Vec<String> {
    let mut found = Vec::new();
    for (piece, sizes) in pieces {
        for (size, kinds) in sizes {
            if told.contains(&(piece.clone(), size.clone())) {
                continue;
            }
            let Some(points) = kinds.get(&Kind::Outline) else { continue };
            let numbers: Option<Vec<u64>> = points.iter().map(|point| point.name.parse().ok()).collect();
            let Some(mut numbers) = numbers else { continue };
            numbers.sort_unstable();
            let gaps: Vec<(u64, u64)> = numbers
                .windows(2)
                .filter_map(|pair| match pair {
                    &[one, other] if other > one.saturating_add(1) => Some((one, other)),
                    _ => None,
                })
                .collect();
            // Who numbers by tens leaves no point out.
            let Some((one, other)) = gaps.first().filter(|_| gaps.len() * 4 < numbers.len()) else {
                continue;
            };
            let of_size = if size.is_empty() { String::new() } else { format!(" in size {}", shown(size)) };
            found.push(format!(
                "the points of {}{of_size} go from {one} to {other}: is one missing?",
                shown(piece)
            ));
        }
    }
    found
}

/// What is said of pieces, and of sizes of one, whose names differ in capitals alone.
pub(super) fn alike(pieces: &IndexMap<String, Sizes>) -> Vec<String> {
    let mut found = Vec::new();
    let mut sizes: IndexMap<&String, ()> = IndexMap::new();
    for own in pieces.values() {
        sizes.extend(own.keys().map(|size| (size, ())));
    }
    let names: Vec<&String> = pieces.keys().collect();
    let sizes: Vec<&String> = sizes.into_keys().collect();
    for (all, what) in [(names, "pieces"), (sizes, "sizes")] {
        let mut known: IndexMap<String, &String> = IndexMap::new();
        for name in all {
            match known.get(&name.to_lowercase()) {
                Some(first) => found.push(format!(
                    "{} and {} differ in capitals alone, and are taken for two {what}; if they are one, write them alike",
                    shown(first),
                    shown(name)
                )),
                None => {
                    known.insert(name.to_lowercase(), name);
                }
            }
        }
    }
    found
}

/// What is said of pieces that have marks in some sizes and none in others.
pub(super) fn unmarked(pieces: &IndexMap<String, Sizes>) -> Vec<String> {
    let mut found = Vec::new();
    for (piece, sizes) in pieces {
        let (with, without): (Vec<&String>, Vec<&String>) = sizes
            .keys()
            .partition(|size| sizes.get(*size).is_some_and(|kinds| kinds.contains_key(&Kind::Mark)));
        // Of what more sizes have, or not the first, the like is said of every drawing.
        let is_of_first_alone = with.len() == 1 && with.first().copied() == sizes.keys().next();
        if !is_of_first_alone || without.is_empty() {
            continue;
        }
        let named = |sizes: &[&String]| sizes.iter().map(|size| shown(size)).collect::<Vec<_>>().join(", ");
        found.push(format!(
            "{} has no mark in {}, and has one in {}: it is taken to lie there as in the size that has it",
            shown(piece),
            named(&without),
            named(&with)
        ));
    }
    found
}
