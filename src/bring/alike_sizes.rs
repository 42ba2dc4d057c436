//! What is drawn in one size as in the next, or said otherwise in one: a copy that was never graded, a count, a grain line that lacks.

use super::course::Course;
use super::inside::cut_of;
use super::names::one_line;
use super::traced::{TracedCut, TracedPiece, TracedSize};
use crate::limits::COPIES;
use crate::report::listed;
use indexmap::IndexMap;

/// What lies no farther apart than this, in millimetres, is the same.
const SAME: f64 = 0.05;
/// What grows moves by more than this, in millimetres.
const GROWS: f64 = 1.0;
/// Smaller pieces, in millimetres, are often the same in two sizes.
const LARGE: f64 = 300.0;

/// Two sizes of a large piece that are the same, though it grows otherwise: a sentence's end, behind its name.
pub fn ungraded(courses: &[Course], sizes: &[String]) -> Option<String> {
    let bounds = courses.first()?.bounds();
    if courses.len() < 3 || bounds.width().max(bounds.height()) < LARGE {
        return None;
    }
    let apart = |one: &Course, other: &Course| -> f64 {
        if one.nodes() != other.nodes() {
            return f64::INFINITY;
        }
        let by = other.node(0) - one.node(0);
        let each = (0..one.nodes()).map(|at| (other.node(at) - one.node(at) - by).hypot());
        each.fold(0.0, f64::max)
    };
    let steps: Vec<f64> = courses
        .windows(2)
        .filter_map(|pair| match pair {
            [one, other] => Some(apart(one, other)),
            _ => None,
        })
        .collect();
    let mut same = steps.iter().enumerate().filter(|(_, step)| **step < SAME);
    let (at, _) = same.next()?;
    let is_only =
        same.next().is_none() && steps.iter().enumerate().all(|(other, step)| other == at || *step > GROWS);
    let (one, other) = (sizes.get(at)?, sizes.get(at + 1)?);
    is_only.then(|| {
        format!(
            "it is the same in {} and {}, point by point, and grows in every other step: is one of them a copy that was not graded?",
            one_line(one),
            one_line(other)
        )
    })
}

/// The count that a drawing says; none of one that no piece is cut in, which is told.
pub fn possible(cut: Option<TracedCut>, name: &str, doubts: &mut Vec<String>) -> Option<TracedCut> {
    let cut = cut?;
    if cut.count <= COPIES {
        return Some(cut);
    }
    doubts.push(format!(
        "{name}: the drawing says that it is cut {} times, and a piece is cut {COPIES} times at most; 1 is taken",
        cut.count
    ));
    None
}

/// By size how many are cut of a piece of which one size says another number than the next, where all of them say one; and what
/// is said of that. Where some say nothing, or some alone are left and right, what was taken holds for all.
pub fn counts(
    name: &str,
    drawn: &[&TracedSize],
    sizes: &[String],
    taken: Option<TracedCut>,
) -> (Vec<u32>, Option<String>) {
    let said: Vec<Option<TracedCut>> = drawn
        .iter()
        .map(|size| size.cut.or_else(|| cut_of(&size.texts)).filter(|cut| cut.count <= COPIES))
        .collect();
    let mut known: IndexMap<(u32, bool), Vec<&str>> = IndexMap::new();
    for (cut, size) in said.iter().zip(sizes) {
        if let Some(cut) = cut {
            known.entry((cut.count, cut.mirrored)).or_default().push(size);
        }
    }
    let Some(taken) = taken.filter(|_| known.len() > 1) else { return (Vec::new(), None) };
    let words = |cut: &(u32, bool)| format!("{}{}", cut.0, if cut.1 { " (left and right)" } else { "" });
    let each: Vec<String> =
        known.iter().map(|(cut, sizes)| format!("{} in {}", words(cut), listed(sizes))).collect();
    let each = format!("{name} is cut {}", each.join(", and "));
    let counts: Option<Vec<u32>> = said
        .iter()
        .map(|cut| cut.filter(|cut| cut.mirrored == taken.mirrored).map(|cut| cut.count))
        .collect();
    match counts {
        Some(counts) => (counts, Some(format!("{each}: each size is written so; is one of them a slip?"))),
        None => {
            let taken = words(&(taken.count, taken.mirrored));
            (Vec::new(), Some(format!("{each}: {taken} was taken for every size")))
        }
    }
}

/// What is said of a grain line that one size lacks: one that is drawn once stands for all, unless other pieces have one in every size.
pub fn grain(
    name: &str,
    all_pieces: &[TracedPiece],
    drawn: &[&TracedSize],
    sizes: &[String],
) -> Option<String> {
    let of = |has: bool| -> Vec<&str> {
        let each = drawn.iter().zip(sizes).filter(|(own, _)| own.grain.is_some() == has);
        each.map(|(_, size)| size.as_str()).filter(|size| !size.is_empty()).collect()
    };
    let (with, without) = (of(true), of(false));
    let in_every =
        |piece: &TracedPiece| piece.sizes.len() > 1 && piece.sizes.values().all(|own| own.grain.is_some());
    let is_told =
        !with.is_empty() && !without.is_empty() && (with.len() > 1 || all_pieces.iter().any(in_every));
    is_told.then(|| format!("{name} has a grain line in {}, and none in {}", listed(&with), listed(&without)))
}
