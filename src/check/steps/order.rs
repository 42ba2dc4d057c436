//! `step/early` and `step/shut`: what has to come before what.

use super::circle::Circles;
use super::early::too_early;
use crate::check::words;
use crate::garment::PlacementId;
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Broken, Doing, Job, Rules, Schedule, When, Why, Work};
use crate::source::Span;
use indexmap::IndexSet;
use std::collections::HashSet;

/// Every slip of order; whether any order is possible.
pub(super) fn slips_of_order(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) -> bool {
    let broken: Vec<Broken> = rules.all.iter().filter_map(|rule| rules.broken(rule, schedule)).collect();
    // Where all is done and no rule is broken, there is no circle.
    let circles = match broken.is_empty() && schedule.is_whole(rules.work) {
        true => Circles::none(),
        false => Circles::of(rules),
    };
    circles.report(rules, diagnostics);
    let mut told = Told::default();
    let first_turn = schedule.turned.first().map(|(turn, _)| *turn);
    for one in broken.iter().filter(|one| !circles.has(rules, one.rule.waits, one.later)) {
        // Only the first time that something is turned, layers are shut in.
        if one.rule.why == Why::OutOfReach && Some(one.first) != first_turn {
            continue;
        }
        diagnostics.extend(told.of(rules.work, one));
    }
    let late: Vec<_> = rules.reach.iter().flat_map(|reach| reach.fused_late(schedule)).collect();
    let turned = rules.reach.iter().flat_map(|reach| reach.fused_turned(schedule));
    // What waits for it beside that is told of that alone.
    let is_told = |fused: Job| {
        late.iter().any(|&(.., known, _)| known == fused)
            || broken.iter().any(|one| one.later == Doing::Job(fused))
    };
    let turned = turned.filter(|&(.., fused, _)| !is_told(fused));
    let all = late.iter().map(|&one| (one, Why::Covers));
    for ((waits, first, later, second), why) in all.chain(turned.map(|one| (one, Why::WrongSideIn))) {
        let names = [Doing::Job(waits), Doing::Job(later)].map(|doing| rules.work.doing(doing));
        diagnostics.extend(told.early(names, first, second, why, true));
    }
    let through = rules.reach.iter().flat_map(|reach| reach.placed_late(schedule));
    let through = through.filter(|(_, placed, ..)| !told.shut.iter().any(|(span, _)| *span == placed.span));
    diagnostics.extend(through.map(|late| stitched_through(rules.work, late)));
    !circles.are_any()
}

/// What is placed would be stitched through what lies behind, too.
fn stitched_through(
    work: &Work,
    (id, placed, closing, closed): (PlacementId, When, usize, When),
) -> Diagnostic {
    let (garment, placement) = (work.garment, work.garment.placement(id));
    let (own, host) = (words::piece(garment, placement.piece), words::piece(garment, placement.on));
    let closes = work.doing(Doing::Job(Job::Seam(closing)));
    let title =
        format!("{own} is stitched onto {host} only after that is closed in with what lies behind it");
    Diagnostic::new(&catalogue::PLACE_THROUGH, placed.span, title)
        .label("goes through both layers")
        .also(closed.span, format!("{closes} closes it in"))
        .help(format!("place {own} in a step before {closes}"))
}

/// What is told already.
#[derive(Default)]
struct Told {
    /// Of rules of which one is told, their numbers.
    groups: HashSet<usize>,
    /// Both places of rules that are not read off the surface.
    places: HashSet<(Span, Span)>,
    /// What those rules told.
    plain: HashSet<([String; 2], (Span, Span))>,
    /// Both names of rules that are.
    names: HashSet<[String; 2]>,
    /// What is sewn out of reach.
    shut: IndexSet<(Span, Doing)>,
}

impl Told {
    /// The message about a broken rule; none where it is told already.
    fn of(&mut self, work: &Work, one: &Broken) -> Option<Diagnostic> {
        if one.rule.one_of.is_some_and(|group| !self.groups.insert(group)) {
            return None;
        }
        match one.rule.why {
            Why::Encloses => Some(enclosed(work, one)),
            Why::ThroughGap => Some(closed_before(work, one)),
            Why::OutOfReach => {
                self.shut.insert((one.second.span, one.later)).then(|| out_of_reach(work, one))?
            }
            why => {
                let names = [one.rule.waits, one.later].map(|doing| work.doing(doing));
                self.early(names, one.first, one.second, why, one.rule.by_surface)
            }
        }
    }

    fn early(
        &mut self,
        names: [String; 2],
        first: When,
        second: When,
        why: Why,
        by_surface: bool,
    ) -> Option<Diagnostic> {
        let places = (first.span, second.span);
        // What the chains of a seam show is not told again of the surface.
        let is_new = match by_surface {
            true => !self.places.contains(&places) && self.names.insert(names.clone()),
            false => {
                self.places.insert(places);
                self.plain.insert((names.clone(), places))
            }
        };
        let [sooner, later] = names;
        is_new.then(|| too_early((&sooner, first), (&later, second), why.of_first()))
    }
}

/// A seam encloses what is put in its place only later.
fn enclosed(work: &Work, one: &Broken) -> Diagnostic {
    let (seam, closure) = match (one.rule.waits, one.later) {
        (Doing::Begun(seam), Doing::PutIn(closure)) => {
            (work.garment.seam(seam).name.to_string(), work.garment.closure(closure).name.to_string())
        }
        (waits, later) => (work.doing(waits), work.doing(later)),
    };
    Diagnostic::new(
        &catalogue::STEP_SHUT,
        one.first.span,
        format!("{seam} encloses {closure}, which is not in its place yet"),
    )
    .label("closes it in")
    .also(one.second.span, "only here")
    .help(format!("baste {closure} in a step before sewing {seam}"))
}

/// A gap is closed before anything is turned through it.
fn closed_before(work: &Work, one: &Broken) -> Diagnostic {
    let name = match one.rule.waits {
        Doing::Job(Job::Gap(id)) => work.garment.seam(id).name.to_string(),
        waits => work.doing(waits),
    };
    let title = format!("the gap in {name} is closed before anything is turned through it");
    Diagnostic::new(&catalogue::STEP_SHUT, one.first.span, title)
        .label("closed here")
        .also(one.second.span, "turned only here")
        .help(format!("turn through gap in {name} in a step before this one"))
}

/// Once layers are turned, what lies between them cannot be reached.
fn out_of_reach(work: &Work, one: &Broken) -> Option<Diagnostic> {
    let name = match one.later {
        Doing::Job(job) => work.call(job)?.what,
        later => work.doing(later),
    };
    let title = format!("{name} is sewn after the layers are closed, where it can no longer be reached");
    Some(
        Diagnostic::new(&catalogue::STEP_SHUT, one.second.span, title)
            .label("shut in")
            .also(one.first.span, "turned here")
            .help("sew it in a step before the layers are closed"),
    )
}
