//! Lines that were drawn in parts, put together where exactly two ends meet.

use super::item::{Item, What};
use super::roles::{Role, by_number};
use crate::bring::read::inside::goes_round;
use crate::bring::read::line_work::{close, ends, meet, reversed};
use crate::bring::traced::TracedPath;
use kurbo::Point;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Ends nearer than this, mm, are one place: drawings round their coordinates.
pub(super) const JOIN: f64 = 0.1;

/// The same things with open lines of one layer and colour joined end to end; a joined line stands where its first part
/// stood. Where three ends meet nothing is joined, since nobody can know which two belong together.
pub(super) fn joined(mut items: Vec<Item>) -> Vec<Item> {
    let mut open: HashMap<(Arc<str>, Option<i64>), Vec<usize>> = HashMap::new();
    let mut order: Vec<(Arc<str>, Option<i64>)> = Vec::new();
    for (index, item) in items.iter().enumerate() {
        let What::Path(path) = &item.what else { continue };
        let is_whole =
            matches!(by_number(&item.layer), Role::Notch | Role::Mirror | Role::Grain | Role::Drill);
        if path.closed || is_whole {
            continue;
        }
        let key = (item.layer.clone(), item.colour);
        let own = open.entry(key.clone()).or_default();
        if own.is_empty() {
            order.push(key);
        }
        own.push(index);
    }
    let mut gone = vec![false; items.len()];
    for key in order {
        let own = open.remove(&key).unwrap_or_default();
        join(&mut items, &own, &mut gone);
    }
    let mut index = 0;
    items.retain(|_| {
        index += 1;
        !gone.get(index - 1).copied().unwrap_or(false)
    });
    items
}

/// Ends of an outline nearer than this, mm, were meant to meet.
const MEANT: f64 = 0.5;

/// Closes lines that go round something and miss being closed by a hair; what is said of them.
pub(super) fn closed(items: &mut [Item], file: &str) -> Vec<String> {
    let mut told = Vec::new();
    for item in items {
        let What::Path(path) = &mut item.what else { continue };
        if let Some(gap) = goes_round(path).filter(|gap| *gap <= MEANT) {
            close(path);
            if gap > JOIN {
                told.push(format!(
                    "the outline that begins in line {} of {file} was open by {gap:.1} mm, and was closed",
                    item.line
                ));
            }
        }
    }
    told
}

/// An end of a line: which of the lines, and whether it is its end rather than its start.
type End = (usize, bool);

fn join(items: &mut [Item], own: &[usize], gone: &mut [bool]) {
    let path = |items: &[Item], line: usize| match own.get(line).and_then(|&item| items.get(item)) {
        Some(Item { what: What::Path(path), .. }) => Some(path.clone()),
        _ => None,
    };
    let links = Links::of(items, own);
    let mut seen: HashSet<usize> = HashSet::new();
    for (first, &item) in own.iter().enumerate() {
        if seen.contains(&first) {
            continue;
        }
        // Back to where the chain begins, or round to this line again.
        let mut begin: End = (first, false);
        while let Some((before, is_end)) = links.other(begin) {
            begin = (before, !is_end);
            if before == first {
                begin = (first, false);
                break;
            }
        }
        let (mut chain, mut at): (Vec<End>, End) = (Vec::new(), begin);
        loop {
            seen.insert(at.0);
            chain.push(at);
            match links.other((at.0, !at.1)) {
                Some(next) if next.0 != begin.0 => at = next,
                _ => break,
            }
        }
        let closes =
            links.other(begin).is_some_and(|end| chain.last().is_some_and(|last| end == (last.0, !last.1)));
        if chain.len() == 1 && !closes {
            continue;
        }
        let mut whole = TracedPath { segments: Vec::new(), closed: closes };
        for &(line, from_end) in &chain {
            let Some(part) = path(items, line) else { continue };
            whole.segments.extend(if from_end { reversed(&part).segments } else { part.segments });
            if let Some(is_gone) =
                own.get(line).and_then(|&part| gone.get_mut(part)).filter(|_| line != first)
            {
                *is_gone = true;
            }
        }
        meet(&mut whole);
        if let Some(item) = items.get_mut(item) {
            item.what = What::Path(whole);
        }
    }
}

/// Which end meets which.
struct Links(Vec<Option<End>>);

impl Links {
    /// Ends at one place, where there are exactly two.
    fn of(items: &[Item], own: &[usize]) -> Self {
        let mut points: Vec<Option<Point>> = Vec::with_capacity(2 * own.len());
        for &item in own {
            let both = match items.get(item).map(|item| &item.what) {
                Some(What::Path(path)) => ends(path),
                _ => None,
            };
            points.extend([both.map(|(start, _)| start), both.map(|(_, end)| end)]);
        }
        let cell = |at: Point| ((at.x / JOIN).floor() as i64, (at.y / JOIN).floor() as i64);
        let mut places: HashMap<(i64, i64), Vec<(usize, Point)>> = HashMap::new();
        for (index, at) in points.iter().enumerate() {
            if let Some(at) = *at {
                places.entry(cell(at)).or_default().push((index, at));
            }
        }
        // The one other end at the same place, if there is exactly one.
        let partner = |index: usize, at: Point| -> Option<usize> {
            let (x, y) = cell(at);
            let mut found = None;
            for (x, y) in
                (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (x.saturating_add(dx), y.saturating_add(dy))))
            {
                for &(other, other_at) in places.get(&(x, y)).into_iter().flatten() {
                    if other != index && other_at.distance(at) <= JOIN {
                        if found.is_some() {
                            return None;
                        }
                        found = Some(other);
                    }
                }
            }
            found
        };
        let partners: Vec<Option<usize>> =
            points.iter().enumerate().map(|(index, at)| at.and_then(|at| partner(index, at))).collect();
        let mutual = partners.iter().enumerate().map(|(index, other)| {
            let other = (*other)?;
            (partners.get(other) == Some(&Some(index))).then_some((other / 2, other % 2 == 1))
        });
        Links(mutual.collect())
    }

    /// The end that meets this one.
    fn other(&self, end: End) -> Option<End> {
        self.0.get(2 * end.0 + usize::from(end.1)).copied().flatten()
    }
}
