//! Rows that stand again: an outline that is closed by its first row, one that goes round twice, a row amid those of another size.

use super::Columns;
use super::placed::Placed;
use super::rows::{Row, Wrong};
use crate::bring::read::letters::{base_name, shown};
use indexmap::IndexMap;
use std::collections::HashSet;

/// What lies no farther apart, in millimetres, is one place.
const SAME: f64 = 1e-6;
/// Of more rows amid others it is an order, and no slip.
const MOST_AMID: usize = 3;

/// Takes out the last of points that are the first one again, by its name and place: so outlines are closed.
pub(super) fn without_repeated_first(points: &mut Vec<Placed>) {
    let is_again = points.len() > 3
        && points.first().zip(points.last()).is_some_and(|(first, last)| {
            !first.name.is_empty() && first.name == last.name && first.at.distance(last.at) <= SAME
        });
    if is_again {
        points.pop();
    }
}

/// What is said of an outline whose rows stand there twice.
pub(super) fn round_twice(points: &[Placed], whose: &str) -> Option<Wrong> {
    let half = points.len() / 2;
    // Of numbers that stand there twice that is told.
    let numbers: HashSet<&str> = points.iter().map(|point| point.name.as_str()).collect();
    let is_numbered = points.iter().all(|point| point.name.parse::<u64>().is_ok());
    let (first, again) = points.split_at_checked(half)?;
    let is_twice = half > 2
        && (!is_numbered || numbers.len() == points.len())
        && first.len() == again.len()
        && first.iter().zip(again).all(|(one, other)| one.at.distance(other.at) <= SAME);
    let (one, other) = (first.first()?.line, again.first()?.line);
    let why =
        || format!("{whose} goes round twice: its rows from line {one} on stand there again from here on");
    is_twice.then(|| (other, why()))
}

/// What is said of single rows that stand amid those of another size of their piece, which is then mistyped.
pub(super) fn amid<'a>(rows: &'a [Row], columns: &Columns, file: &str) -> Vec<String> {
    let Some(size) = columns.size else { return Vec::new() };
    let field = |row: &'a Row, at: usize| row.fields.get(at).map_or("", String::as_str);
    let is_outline = |row: &'a Row| {
        let kind = columns.kind.map_or("", |at| field(row, at));
        ["", "corner", "curve"].iter().any(|own| kind.eq_ignore_ascii_case(own))
    };
    let whose = |row: &'a Row| (field(row, columns.piece), field(row, size));
    let mut counts: IndexMap<(&str, &str), usize> = IndexMap::new();
    for row in rows.iter().filter(|row| is_outline(row)) {
        *counts.entry(whose(row)).or_default() += 1;
    }
    let told: Vec<String> = rows
        .windows(3)
        .filter_map(|three| {
            let [before, own, after] = three else { return None };
            let is_alike = |row: &'a Row| {
                field(row, columns.piece) == field(own, columns.piece) && is_outline(row) && is_outline(own)
            };
            let (said, around) = (field(own, size), field(before, size));
            let is_amid =
                is_alike(before) && is_alike(after) && around == field(after, size) && said != around;
            // A size that nothing else has is told as that.
            let has_others = || counts.get(&whose(own)).is_some_and(|count| *count > 1);
            (is_amid && !said.is_empty() && !around.is_empty() && has_others()).then(|| {
                format!(
                    "line {} of {} says size {}, amid rows of {} in size {}: is its size mistyped?",
                    own.line,
                    base_name(file),
                    shown(said),
                    shown(field(own, columns.piece)),
                    shown(around)
                )
            })
        })
        .take(MOST_AMID + 1)
        .collect();
    if told.len() > MOST_AMID { Vec::new() } else { told }
}
