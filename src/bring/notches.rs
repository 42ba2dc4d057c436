//! Notches on their edges, side by side over the sizes.
//!
//! They are counted along whole runs from corner to corner: where a run is parted into stretches, a notch at a joint may lie
//! on the one stretch in one size and on the next in another, and is the same notch.

use super::at_most::at_most;
use super::close_notches;
use super::course::{angle, leaving_end, leaving_start};
use super::names::one_line;
use super::pattern::{Notch, Piece, nearest};
use super::traced::TracedSize;
use crate::report::listed;
use crate::sewing::LEAST_APART;
use indexmap::IndexMap;
use kurbo::Vec2;

/// How far from the sew line a notch may be drawn, in millimetres: the widest usual allowance.
const BESIDE_SEWN: f64 = 40.0;
/// How far from an outline that is the only one.
const BESIDE: f64 = 5.0;
/// A notch nearer to the end of its edge than this, in millimetres, is at it.
const AT_END: f64 = 0.5;
/// One between that and this is not told from it (common practice).
const BESIDE_END: f64 = 5.0;
/// A notch so near to a place where a run kinks, in millimetres, stands for it: drawn on the cutting line, one that is not
/// square to the edge, as at a dart's leg, lies so far beside.
const AT_KINK: f64 = 3.0;
/// Notches nearer to each other than this, in millimetres, are one that is drawn twice.
const TWICE: f64 = 0.3;
/// From so large a turn on, in radians (1°), a joint is a kink.
const KINK: f64 = 0.0175;

/// The notches that answer to one another in all sizes, on their edges.
pub fn notches(
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    names: &[String],
    piece: &mut Piece,
    remarks: &mut Vec<String>,
) {
    let lengths: Vec<Vec<f64>> = (0..drawn.len())
        .map(|size| (0..piece.outline.edges.len()).map(|edge| piece.outline.length(edge, size)).collect())
        .collect();
    // By size, on which edge and how far along it.
    let mut placed: Vec<Vec<(usize, f64)>> = vec![Vec::new(); drawn.len()];
    let beside = if piece.sewn { BESIDE_SEWN } else { BESIDE };
    // Where another piece lies over this one, that is told: what lies there may be the other's.
    let is_doubtful = drawn.iter().any(|size| size.is_overlapped);
    let mut away: IndexMap<usize, usize> = IndexMap::new();
    for (size, (drawn, shift)) in drawn.iter().zip(shifts).enumerate() {
        for notch in &drawn.notches {
            let at = notch.at + *shift;
            let edges = 0..piece.outline.edges.len();
            let places = edges.filter(|edge| Some(*edge) != piece.fold).filter_map(|edge| {
                nearest(&piece.outline.path(edge, size), at).map(|(along, off)| (edge, along, off))
            });
            let best =
                places.min_by(|one, other| one.2.total_cmp(&other.2)).filter(|(.., off)| *off < beside);
            let Some((edge, along, _)) = best else {
                *away.entry(size).or_default() += 1;
                continue;
            };
            if let Some(list) = placed.get_mut(size) {
                list.push((edge, along));
            }
        }
    }
    let runs = runs(piece, &lengths, &placed);
    // By run, by size, how far along.
    let mut found: Vec<Vec<Vec<f64>>> = vec![vec![Vec::new(); drawn.len()]; runs.len()];
    for (size, placed) in placed.iter().enumerate() {
        for (edge, along) in placed {
            let Some(at) = runs.iter().position(|run| run.contains(edge)) else { continue };
            let before = before(runs.get(at), lengths.get(size), *edge);
            if let Some(list) = found.get_mut(at).and_then(|sizes| sizes.get_mut(size)) {
                list.push(before + along);
            }
        }
    }
    for (size, count) in away {
        let in_size = match names.get(size).map(String::as_str) {
            Some("") | None => String::new(),
            Some(name) => format!(" in size {}", one_line(name)),
        };
        let what = match count {
            1 => format!("1 notch lies at no edge{in_size}, and is"),
            count => format!("{count} notches lie at no edge{in_size}, and are"),
        };
        remarks.push(format!("{}: {what} left out", piece.name));
    }
    let mut told = Vec::new();
    for (run, mut sizes) in runs.iter().zip(found) {
        for list in &mut sizes {
            list.sort_by(f64::total_cmp);
            // What is pasted over itself is there once.
            list.dedup_by(|next, own| *next - *own < TWICE);
        }
        let count = sizes.first().map_or(0, Vec::len);
        if sizes.iter().any(|list| list.len() != count) {
            if !is_doubtful {
                remarks.push(format!(
                    "{}: {} has not equally many notches in every size ({}), and its notches are left out",
                    piece.name,
                    called(piece, run),
                    by_count(&sizes, names)
                ));
            }
            continue;
        }
        let mut number = 0;
        while number < count {
            let place = |number: usize| -> Vec<f64> {
                sizes.iter().filter_map(|list| list.get(number).copied()).collect()
            };
            let (own, next) = (place(number), place(number + 1));
            let is_joint = |along: &[f64]| {
                let mut sizes = along.iter().zip(&lengths);
                sizes.all(|(along, lengths)| is_at_joint(run, lengths, *along))
            };
            // Two that stand where stretches of the outline meet are one notch each.
            let double = next.len() == own.len()
                && own.iter().zip(&next).all(|(own, next)| next - own < LEAST_APART)
                && !(is_joint(&own) && is_joint(&next));
            number += if double { 2 } else { 1 };
            let along: Vec<f64> = match double {
                true => own.iter().zip(&next).map(|(own, next)| f64::midpoint(*own, *next)).collect(),
                false => own,
            };
            match on_an_edge(piece, run, &lengths, &along) {
                Ok((notch, note)) => {
                    told.extend(note);
                    piece.notches.push(Notch { double, ..notch });
                }
                Err(note) => told.push(note),
            }
        }
    }
    told.extend(close_notches::leave_out(piece, &lengths, names));
    remarks.extend(at_most(told, |more| format!("{}: the like is so of {more} more notches", piece.name)));
}

/// The edges of each run from corner to corner, in which notches are counted. Where a notch stands at a corner at which the
/// outline goes straight on, both sides of that are one run: in one size it is found on the one edge, in the next on the other.
fn runs(piece: &Piece, lengths: &[Vec<f64>], placed: &[Vec<(usize, f64)>]) -> Vec<Vec<usize>> {
    let is_notched = |before: usize| {
        lengths.iter().zip(placed).any(|(lengths, placed)| {
            let long = lengths.get(before).copied().unwrap_or(0.0);
            placed.iter().any(|&(edge, along)| {
                edge == before && long - along < AT_END || edge == before + 1 && along < AT_END
            })
        })
    };
    let mut runs: Vec<Vec<usize>> = Vec::new();
    for run in 0..piece.outline.runs() {
        let own = piece.outline.of_run(run).map(|(edge, _)| edge);
        let goes_on = |before: usize| {
            ![Some(before), Some(before + 1)].contains(&piece.fold)
                && is_notched(before)
                && (0..lengths.len()).all(|size| !is_kink(piece, before, size))
        };
        match runs.last_mut() {
            Some(last) if last.last().is_some_and(|before| goes_on(*before)) => last.extend(own),
            _ => runs.push(own.collect()),
        }
    }
    runs
}

/// Whether the outline turns between an edge and the next.
fn is_kink(piece: &Piece, before: usize, size: usize) -> bool {
    let (one, other) = (piece.outline.path(before, size), piece.outline.path(before + 1, size));
    let ways = one.last().zip(other.first()).map(|(one, other)| (leaving_end(one), leaving_start(other)));
    ways.is_some_and(|(before, after)| angle(before, after) > KINK)
}

/// Whether a place so far along a run is where two of its edges meet.
fn is_at_joint(run: &[usize], lengths: &[f64], along: f64) -> bool {
    let mut end = 0.0;
    run.iter().rev().skip(1).rev().any(|edge| {
        end += lengths.get(*edge).copied().unwrap_or(0.0);
        (along - end).abs() < AT_END
    })
}

/// How many each size has: `1 in S and L, none in M`.
fn by_count(sizes: &[Vec<f64>], names: &[String]) -> String {
    let mut counts: IndexMap<usize, Vec<String>> = IndexMap::new();
    for (list, name) in sizes.iter().zip(names) {
        counts.entry(list.len()).or_default().push(one_line(name));
    }
    let each = counts.into_iter().map(|(count, names)| {
        let count = if count == 0 { "none".to_owned() } else { count.to_string() };
        format!("{count} in {}", listed(&names))
    });
    each.collect::<Vec<_>>().join("; ")
}

/// How long the stretches of a run are together that stand before that edge.
fn before(run: Option<&Vec<usize>>, lengths: Option<&Vec<f64>>, edge: usize) -> f64 {
    let (Some(run), Some(lengths)) = (run, lengths) else { return 0.0 };
    run.iter().take_while(|own| **own != edge).filter_map(|own| lengths.get(*own)).sum()
}

/// What a run's edges are called: `e1`, or from the first to the last, `e1_1 to e1_3`.
fn called(piece: &Piece, run: &[usize]) -> String {
    let name = |edge: Option<&usize>| {
        edge.and_then(|edge| piece.outline.edges.get(*edge)).map_or("", |edge| &*edge.name)
    };
    match run {
        [only] => name(Some(only)).to_owned(),
        run => format!("{} to {}", name(run.first()), name(run.last())),
    }
}

/// A notch so far along a run, by size, on the one of its stretches that it lies on in all sizes; and what is to be said of
/// it.
///
/// # Errors
/// Why it is left out.
fn on_an_edge(
    piece: &Piece,
    run: &[usize],
    lengths: &[Vec<f64>],
    along: &[f64],
) -> Result<(Notch, Option<String>), String> {
    let own = |edge: usize| -> Vec<(f64, f64)> {
        let each = lengths.iter().zip(along);
        each.map(|(lengths, along)| {
            let long = lengths.get(edge).copied().unwrap_or(0.0);
            (along - before(Some(&run.to_vec()), Some(lengths), edge), long)
        })
        .collect()
    };
    let beyond =
        |edge: &usize| own(*edge).iter().map(|(at, long)| (-at).max(at - long).max(0.0)).fold(0.0, f64::max);
    let best = run.iter().copied().min_by(|one, other| beyond(one).total_cmp(&beyond(other)));
    let Some(edge) = best.filter(|edge| beyond(edge) <= AT_KINK) else {
        return Err(format!(
            "{}: a notch of {} lies on one stretch in one size and on another in the next, and is left out",
            piece.name,
            called(piece, run)
        ));
    };
    let places: Vec<(f64, f64)> =
        own(edge).into_iter().map(|(at, long)| (at.clamp(0.0, long), long)).collect();
    let from_end = places.iter().map(|(at, long)| 2.0 * at - long).sum::<f64>() > 0.0;
    let mut along: Vec<f64> =
        places.iter().map(|(at, long)| if from_end { long - at } else { *at }).collect();
    let next = if from_end { edge.checked_add(1) } else { edge.checked_sub(1) };
    let is_kink =
        next.filter(|next| run.contains(next)).is_some_and(|next| is_kink(piece, edge.min(next), 0));
    let name = piece.outline.edges.get(edge).map_or("", |edge| &*edge.name);
    let far = along.iter().copied().fold(0.0, f64::max);
    let mut note = None;
    if is_kink && (AT_END..=AT_KINK).contains(&far) {
        note = Some(format!(
            "{}: a notch {far:.1} mm from an end of {name}, where the line turns, is taken to stand there",
            piece.name
        ));
        along.fill(0.0);
    }
    if along.iter().any(|along| (AT_END..BESIDE_END).contains(along)) {
        let near = along.iter().copied().fold(f64::INFINITY, f64::min);
        return Err(format!(
            "{}: a notch lies {near:.1} mm from an end of {name}, where no snip is told from it, and is left out",
            piece.name
        ));
    }
    Ok((Notch { edge, along, from_end, double: false }, note))
}
