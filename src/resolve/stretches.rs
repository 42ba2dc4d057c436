//! The stretches of an edge between the ends of the runs that are taken by themselves.
//!
//! Runs of one side of the body may not lie over one another. One of the left side and one of the right may: the
//! paper that both sides share then has a stretch that each of them takes on its own side.

use super::work::Work;
use crate::garment::{EdgeId, Portion, PortionEdges, PortionId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::shape::tolerance::SAME_POINT;
use crate::syntax::tree::Hand;

/// A portion where it lies on an edge, as sewn from the edge's start.
#[derive(Clone, Copy)]
pub(super) struct Lying<'g> {
    pub(super) id: PortionId,
    pub(super) portion: &'g Portion,
    pub(super) names: PortionEdges,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) back: bool,
}

impl Lying<'_> {
    /// What the stretch is called that it and another have; none where it has no name.
    fn shared_with(&self, other: &Lying) -> Option<EdgeId> {
        let (left, right) = if self.portion.on == Some(Hand::Left) { (self, other) } else { (other, self) };
        let mut over = left.portion.over_right.iter();
        let found = over.find(|over| (over.on, over.right) == (left.names.on, right.id))?;
        Some(found.name)
    }
}

/// A stretch of an edge, from where the one before ends.
pub(super) struct Stretch<'a, 'g> {
    pub(super) to: f64,
    /// Who takes it: nobody, one, or one on the left side of the body and one on the right.
    pub(super) takers: [Option<&'a Lying<'g>>; 2],
}

/// The stretches of an edge that is so long as sewn. The portions lie in the order of where they begin.
pub(super) fn stretches<'a, 'g>(on: &'a [Lying<'g>], sewn: f64) -> Vec<Stretch<'a, 'g>> {
    let mut ends: Vec<f64> = on.iter().flat_map(|lying| [lying.from, lying.to]).chain([sewn]).collect();
    ends.sort_by(f64::total_cmp);
    let mut found = Vec::with_capacity(ends.len());
    let mut start = 0.0;
    for to in ends {
        if to - start <= SAME_POINT {
            continue;
        }
        let middle = (start + to) / 2.0;
        let mut own = on.iter().filter(|lying| lying.from < middle && middle < lying.to);
        found.push(Stretch { to, takers: [own.next(), own.next()] });
        start = to;
    }
    found
}

/// What the stretches are called: portions by themselves; of what is left the first, counted as portions are, by the
/// edge's own name, the others by the portion before them.
pub(super) fn called(stretches: &[Stretch], whole: EdgeId, back: bool) -> Vec<EdgeId> {
    let mut names = vec![whole; stretches.len()];
    let order: Vec<usize> =
        if back { (0..stretches.len()).rev().collect() } else { (0..stretches.len()).collect() };
    let (mut before, mut is_named): (Option<&Lying>, bool) = (None, false);
    for at in order {
        let Some(stretch) = stretches.get(at) else { continue };
        let name = match (stretch.takers, before) {
            ([Some(one), other], _) => {
                before = Some(one);
                other.and_then(|other| one.shared_with(other)).unwrap_or(one.names.taken)
            }
            (_, Some(last)) if is_named => {
                if last.back == back {
                    last.names.beyond
                } else {
                    last.names.before
                }
            }
            _ => {
                is_named = true;
                whole
            }
        };
        if let Some(slot) = names.get_mut(at) {
            *slot = name;
        }
    }
    names
}

/// Reports portions that lie over one another though one piece of cloth has both; whether there are any. They lie in
/// the order of where they begin.
pub(super) fn report_over(work: &Work, on: &[Lying]) -> bool {
    let mut is_any = false;
    for (at, other) in on.iter().enumerate() {
        let before = on.iter().take(at).rev();
        let mut over = before.filter(|one| other.from < one.to - SAME_POINT);
        if let Some(one) = over.find(|one| one.shared_with(other).is_none()) {
            report(work, one, other);
            is_any = true;
        }
    }
    is_any
}

fn report(work: &Work, one: &Lying, other: &Lying) {
    let (first, second) = match one.portion.span.lo <= other.portion.span.lo {
        true => (one, other),
        false => (other, one),
    };
    let by = one.to.min(other.to) - other.from;
    work.report(|size| {
        let edge = work.garment.edge(one.names.on);
        let same = (one.from - other.from).abs() <= SAME_POINT && (one.to - other.to).abs() <= SAME_POINT;
        let over = work.amount(by);
        let runs = format!("two runs of {} of {}", edge.name, work.title(edge.piece));
        let title = match same {
            true => Title::new(format!("{runs} are one and the same stretch")).in_sizes(),
            false => {
                Title::new(format!("{runs} lie over one another")).in_sizes().then(format!(" by {over}"))
            }
        };
        let other_side = [first, second].into_iter().find_map(|lying| lying.portion.on).map(Hand::other);
        let is_half_said = first.portion.on.is_none() != second.portion.on.is_none();
        let help = match (other_side.filter(|_| is_half_said), same) {
            (Some(side), _) => format!(
                "write on {} after the other one if it is on that side of the body; else let the one begin where the other ends",
                side.word()
            ),
            (None, true) => "name one place in the same words both times: it is then one run".to_owned(),
            (None, false) => {
                "let the one begin where the other ends; or name the same run in the same words".to_owned()
            }
        };
        let message = Diagnostic::new(&catalogue::RUN_OVERLAP, second.portion.span, title)
            .label("and this one")
            .also(first.portion.span, "this run")
            .help(help);
        Finding::new(size, by, message).about(&*edge.name).figure("over one another", over)
    });
}
