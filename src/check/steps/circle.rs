//! `step/circle`: seams and closures that wait for one another, so that no order will do.
//!
//! Each waits for one of the seams between the pieces that it runs over, and what encloses a closure
//! waits for the closure. What can be done is crossed off, and then what waited for that; what is left
//! at the end waits for itself (Kahn 1962, with a choice of forerunners).

use super::super::words;
use super::jobs::Work;
use super::joining::{Joining, neighbours};
use crate::garment::ClosureId;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::{BTreeSet, HashSet};

/// Stitchings by their place, and after them closures by theirs.
type Node = usize;

/// What waits for one another.
pub(super) struct Circles {
    /// Each in the order of waiting.
    circles: Vec<Vec<Node>>,
    members: HashSet<Node>,
}

impl Circles {
    /// All circles of the work, whatever the steps say.
    pub(super) fn of(work: &Work, joining: &Joining) -> Circles {
        let waits = waits(work, joining);
        let stuck = stuck(&waits);
        let mut circles: Vec<Vec<Node>> = Vec::new();
        let mut seen = vec![false; waits.len()];
        for start in 0..waits.len() {
            let mut row: Vec<Node> = Vec::new();
            let mut next = Some(start).filter(|&at| is(&stuck, at));
            while let Some(at) = next.filter(|&at| !is(&seen, at)) {
                if let Some(seen) = seen.get_mut(at) {
                    *seen = true;
                }
                row.push(at);
                let groups = waits.get(at).into_iter().flatten();
                let mut open = groups.filter(|group| group.iter().all(|&one| is(&stuck, one)));
                next = open.next().and_then(|group| group.first().copied());
            }
            if let Some(begin) = next.and_then(|at| row.iter().position(|&one| one == at)) {
                circles.push(row.split_off(begin));
            }
        }
        let members = circles.iter().flatten().copied().collect();
        Circles { circles, members }
    }

    /// Whether both wait in a circle, so that it helps nobody to do one of them sooner.
    pub(super) fn has(&self, one: Node, other: Node) -> bool {
        self.members.contains(&one) && self.members.contains(&other)
    }

    /// Whether a closure waits in a circle.
    pub(super) fn has_closure(&self, work: &Work, closure: ClosureId) -> bool {
        self.members.contains(&(work.stitchings.len() + closure.index()))
    }

    /// Each circle once, however many layers it is in.
    pub(super) fn report(&self, work: &Work, diagnostics: &mut Vec<Diagnostic>) {
        let mut seen: HashSet<BTreeSet<Span>> = HashSet::new();
        for circle in &self.circles {
            let doings: Vec<(String, Span, bool)> =
                circle.iter().filter_map(|&node| doing(work, node)).collect();
            if !seen.insert(doings.iter().map(|(_, span, _)| *span).collect()) {
                continue;
            }
            diagnostics.extend(circular(&doings));
        }
    }
}

fn is(flags: &[bool], at: usize) -> bool {
    flags.get(at).copied().unwrap_or(false)
}

/// For each what it waits for: of every group one must be done before.
fn waits(work: &Work, joining: &Joining) -> Vec<Vec<Vec<Node>>> {
    let (garment, closures) = (work.garment, work.stitchings.len());
    let mut waits: Vec<Vec<Vec<Node>>> = Vec::with_capacity(closures + garment.closures.len());
    for (at, stitching) in work.stitchings.iter().enumerate() {
        let mut groups = Vec::new();
        for two in stitching.plies().flat_map(|ply| ply.windows(2)) {
            if let [one, other] = two {
                groups.push(joining.between(one, other, Some(at)));
            }
        }
        let enclosing = &garment.seam(stitching.seam).enclosing;
        groups.extend(enclosing.iter().map(|(closure, _)| vec![closures + closure.index()]));
        waits.push(groups);
    }
    for closure in &garment.closures {
        let runs = [&closure.first, &closure.second].into_iter().flat_map(|side| neighbours(work, side));
        waits.push(runs.map(|(one, other)| joining.between(&one, &other, None)).collect());
    }
    for groups in &mut waits {
        groups.retain(|group| !group.is_empty());
    }
    waits
}

/// What can never be done.
fn stuck(waits: &[Vec<Vec<Node>>]) -> Vec<bool> {
    let mut waiting: Vec<Vec<(Node, usize)>> = vec![Vec::new(); waits.len()];
    let mut open: Vec<Vec<bool>> = Vec::with_capacity(waits.len());
    for (node, groups) in waits.iter().enumerate() {
        for (nth, group) in groups.iter().enumerate() {
            for &one in group {
                if let Some(waiting) = waiting.get_mut(one) {
                    waiting.push((node, nth));
                }
            }
        }
        open.push(vec![true; groups.len()]);
    }
    let mut stuck = vec![true; waits.len()];
    let mut ready: Vec<Node> =
        (0..waits.len()).filter(|&at| waits.get(at).is_some_and(Vec::is_empty)).collect();
    while let Some(at) = ready.pop() {
        match stuck.get_mut(at) {
            Some(stuck) if *stuck => *stuck = false,
            _ => continue,
        }
        for &(node, nth) in waiting.get(at).into_iter().flatten() {
            let Some(groups) = open.get_mut(node) else { continue };
            if let Some(group) = groups.get_mut(nth) {
                *group = false;
            }
            if !groups.iter().any(|&open| open) {
                ready.push(node);
            }
        }
    }
    stuck
}

/// "sewing side", where it is declared, and whether it is a closure.
fn doing(work: &Work, node: Node) -> Option<(String, Span, bool)> {
    match work.stitchings.get(node) {
        Some(stitching) => {
            let seam = work.garment.seam(stitching.seam);
            Some((format!("sewing {}", seam.name), seam.name_span, false))
        }
        None => {
            let closure = work.garment.closures.get(node - work.stitchings.len())?;
            Some((format!("putting in {}", closure.name), closure.name_span, true))
        }
    }
}

fn circular(doings: &[(String, Span, bool)]) -> Option<Diagnostic> {
    let ((first, place, _), others) = doings.split_first()?;
    let next = |at: usize| doings.get(at + 1).map_or(first.as_str(), |(name, ..)| name.as_str());
    let clauses: Vec<String> = doings
        .iter()
        .enumerate()
        .map(|(at, (name, ..))| match at {
            0 => format!("{name} has to wait for {}", next(at)),
            _ => format!("{name} for {}", next(at)),
        })
        .collect();
    let title = format!("no order of work is possible: {}", words::listed(&clauses));
    let mut diagnostics =
        Diagnostic::new(&catalogue::STEP_CIRCLE, *place, title).label(format!("waits for {}", next(0)));
    for (at, (_, span, _)) in others.iter().enumerate() {
        diagnostics = diagnostics.also(*span, format!("waits for {}", next(at + 1)));
    }
    let has_closure = doings.iter().any(|(.., is_closure)| *is_closure);
    Some(diagnostics.help(match has_closure {
        true => "let the closure end where the seam begins, or take it out of what the seam encloses",
        false => {
            "a seam runs on over another only once that is sewn: divide an edge of one of them where they \
             meet, and sew each run in a seam of its own"
        }
    }))
}
