//! What groups of steps are called that are worked out.

use super::jobs::{Job, Work};
use super::phase::{Phase, Phases, is_band};
use super::planned::PlannedGroup;
use crate::garment::{ActionTarget, ClosureKind, Garment};
use crate::sewing::Place;
use crate::syntax::tree::{Fastener, Verb};
use indexmap::IndexSet;

/// A title names no more bands than these.
const BANDS: usize = 3;

/// What a group of steps is called that is worked out, in any language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupTitle {
    /// After the part of the work that it is.
    Phase(Phase),
    /// Nothing but rows of stitching.
    Topstitching,
    /// Nothing but straps.
    Straps,
    /// Seams across what has no shoulders and no yoke.
    Across,
    /// Nothing but cords and elastic.
    Threading,
    /// What is sewn by hand once all is turned.
    ByHand,
    /// Fasteners of one kind, which need not be buttons.
    Fasteners(Fastener),
    /// Fasteners of several kinds.
    Fastenings,
}

impl GroupTitle {
    /// In a garment's text.
    pub fn title(self) -> &'static str {
        match self {
            GroupTitle::Phase(phase) => phase.title(),
            GroupTitle::Topstitching => "Topstitching",
            GroupTitle::Straps => "Straps",
            GroupTitle::Across => "Seams across",
            GroupTitle::ByHand => "Sewn by hand",
            GroupTitle::Threading => "Cords and elastic",
            GroupTitle::Fasteners(kind) => match kind {
                Fastener::Button => "Buttons",
                Fastener::Snap => "Snaps",
                Fastener::Hook => "Hooks and eyes",
                Fastener::Toggle => "Toggles",
                Fastener::Buckle => "Buckle",
                Fastener::Tie => "Ties",
            },
            GroupTitle::Fastenings => "Fastenings",
        }
    }
}

/// Names each group after the part of the work that it is, and one that sews bands on after those. No two have one
/// title, so that a variation can name each: what comes again says which seam it begins with.
pub(super) fn name(work: &Work, groups: &mut [PlannedGroup]) {
    let said = groups.iter().filter(|group| group.phase.is_none());
    let mut taken: IndexSet<String> = said.map(|group| group.title.clone()).collect();
    for group in groups {
        let Some(phase) = group.phase else { continue };
        let bands = bands(work, group, phase);
        group.called = bands.is_none().then(|| called(work, group, phase));
        let plain = bands.unwrap_or_else(|| group.called.map_or("", GroupTitle::title).to_owned());
        let first = group.actions.first().and_then(|action| action.targets.first());
        let begins = first.and_then(|one| words(work.garment, one.target));
        let longer = begins.map(|words| format!("{plain}: {words}"));
        let numbered = (2..).map(|nth| format!("{} {nth}", longer.as_ref().unwrap_or(&plain)));
        let mut tried = std::iter::once(plain.clone()).chain(longer.clone()).chain(numbered);
        if let Some(title) = tried.find(|title| !taken.contains(title)) {
            taken.insert(title.clone());
            group.title = title;
        }
    }
}

/// What the part of the work is called; of nothing but rows, stitching; of nothing but straps, these.
fn called(work: &Work, group: &PlannedGroup, phase: Phase) -> GroupTitle {
    let garment = work.garment;
    let all = |is_such: fn(Verb) -> bool| group.actions.iter().all(|action| is_such(action.verb));
    let is_row = |verb| matches!(verb, Verb::Topstitch | Verb::Understitch);
    let mut jobs = group.actions.iter().flat_map(|action| &action.targets).flat_map(|target| &target.jobs);
    match phase {
        _ if group.actions.iter().all(|action| is_row(action.verb)) => GroupTitle::Topstitching,
        Phase::Shoulders
        | Phase::Collar
        | Phase::Flat
        | Phase::Sides
        | Phase::Round
        | Phase::Cuffs
        | Phase::Lining
            if all(|verb| matches!(verb, Verb::Hem | Verb::Finish)) =>
        {
            GroupTitle::Phase(Phase::Hems)
        }
        Phase::Hems if all(|verb| verb == Verb::Thread) => GroupTitle::Threading,
        Phase::Turning if all(|verb| verb == Verb::Sew) => GroupTitle::ByHand,
        Phase::Shoulders if !has_shoulders(work, group) => GroupTitle::Across,
        Phase::Pockets if jobs.clone().all(|job| matches!(job, Job::PutIn(_))) => {
            fasteners(garment, group).unwrap_or(GroupTitle::Straps)
        }
        Phase::Pockets if jobs.all(|job| matches!(job, Job::Strap(_) | Job::PutIn(_))) => GroupTitle::Straps,
        Phase::Buttons => fasteners(garment, group).unwrap_or(GroupTitle::Phase(phase)),
        _ => GroupTitle::Phase(phase),
    }
}

/// Whether a seam of a group lies along the top of what it joins beside another edge up there, as shoulders do beside the neck
/// and the seam of a yoke beside the armhole.
fn has_shoulders(work: &Work, group: &PlannedGroup) -> bool {
    let phases = Phases::of(work);
    let jobs = group.actions.iter().flat_map(|action| &action.targets).flat_map(|target| &target.jobs);
    let mut seams = jobs.filter_map(|job| match job {
        Job::Seam(at) => work.stitchings.get(*at),
        _ => None,
    });
    let is_such = |place: &Place| phases.is_at_top(place) && phases.is_beside_high(place);
    // What goes on down the sides is none.
    seams.any(|seam| seam.sides.iter().any(|side| side.iter().flatten().all(is_such)))
}

/// What is sewn on last, where that is no buttons.
fn fasteners(garment: &Garment, group: &PlannedGroup) -> Option<GroupTitle> {
    let targets = group.actions.iter().flat_map(|action| &action.targets);
    let mut kinds: Vec<Fastener> = Vec::new();
    for target in targets {
        if let ActionTarget::Closure(id) = target.target
            && let Some(ClosureKind::Fasteners(row)) = &garment.closure(id).kind
            && !kinds.contains(&row.kind)
        {
            kinds.push(row.kind);
        }
    }
    match kinds.as_slice() {
        [] => None,
        [kind] => Some(GroupTitle::Fasteners(*kind)),
        _ => Some(GroupTitle::Fastenings),
    }
}

/// The bands that a group sews on: "Waistband", "Collar and Cuff".
fn bands(work: &Work, group: &PlannedGroup, phase: Phase) -> Option<String> {
    if !matches!(phase, Phase::Collar | Phase::Cuffs) {
        return None;
    }
    let mut titles: IndexSet<&str> = IndexSet::new();
    for job in group.actions.iter().flat_map(|action| &action.targets).flat_map(|target| &target.jobs) {
        let Job::Seam(at) = job else { continue };
        for place in work.stitchings.get(*at).into_iter().flat_map(|one| one.places()) {
            if is_band(work, place.part) {
                titles.insert(&work.garment.piece(work.finder.part(place.part).piece).title);
            }
        }
    }
    let titles: Vec<&str> = titles.into_iter().collect();
    match titles.split_last() {
        Some((last, [])) => Some((*last).to_owned()),
        Some((last, others)) if titles.len() <= BANDS => Some(format!("{} and {last}", others.join(", "))),
        _ => None,
    }
}

/// What people read of what is worked on, else its name.
fn words(garment: &Garment, target: ActionTarget) -> Option<String> {
    let plain = |name: &str| name.replace('_', " ");
    let edge = |edge| garment.edge_label(edge).map_or_else(|| plain(&garment.edge(edge).name), str::to_owned);
    Some(match target {
        ActionTarget::Seam(id) | ActionTarget::Joints(id, ..) => {
            let seam = garment.seam(id);
            seam.label.as_deref().map_or_else(|| plain(&seam.name), str::to_owned)
        }
        ActionTarget::Closure(id) => plain(&garment.closure(id).name),
        ActionTarget::Edge(_, id) | ActionTarget::TakeUp(_, id) => {
            format!("{} of {}", edge(id), garment.piece(garment.edge(id).piece).title)
        }
        ActionTarget::Piece(_, id) => garment.piece(id).title.to_string(),
        ActionTarget::Row(id) => plain(&garment.row(id).name),
        ActionTarget::Tack(id) => plain(&garment.tack(id).name),
        ActionTarget::Cord(id) => plain(&garment.cord(id).name),
        ActionTarget::AnyGap => return None,
    })
}
