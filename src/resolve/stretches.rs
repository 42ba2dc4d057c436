//! The stretches of an edge between the ends of the runs that are taken by themselves.
//!
//! Runs of one layer on one side of the body may not lie over one another. Those of different layers or sides may: the
//! paper that they share then has a stretch that each of them takes in its own cloth.

use super::work::Work;
use crate::few::Few;
use crate::garment::{Chain, EdgeId, Garment, LayerId, PieceId, Portion, PortionEdges, PortionId};
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

/// A stretch of an edge, from where the one before ends.
pub(super) struct Stretch<'a, 'g> {
    pub(super) to: f64,
    /// Who takes it: nobody, one, or several of different layers or sides of the body.
    pub(super) takers: Few<&'a Lying<'g>>,
}

impl Stretch<'_, '_> {
    /// What it is called that several share; none where it has no name.
    fn shared(&self, garment: &Garment) -> Option<EdgeId> {
        let on = self.takers.first()?.names.on;
        let mut all: Vec<PortionId> = self.takers.iter().map(|lying| lying.id).collect();
        all.sort_unstable();
        let found = garment.portions_over.iter().find(|over| over.on == on && *over.portions == *all)?;
        Some(found.name)
    }
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
        let takers = on.iter().filter(|lying| lying.from < middle && middle < lying.to).collect();
        found.push(Stretch { to, takers });
        start = to;
    }
    found
}

/// What the stretches are called: portions by themselves; of what is left the first, counted as portions are, by the
/// edge's own name, the others by the portion before them.
pub(super) fn called(garment: &Garment, stretches: &[Stretch], whole: EdgeId, back: bool) -> Vec<EdgeId> {
    let mut names = vec![whole; stretches.len()];
    let order: Vec<usize> =
        if back { (0..stretches.len()).rev().collect() } else { (0..stretches.len()).collect() };
    let (mut before, mut is_named): (Option<&Lying>, bool) = (None, false);
    for at in order {
        let Some(stretch) = stretches.get(at) else { continue };
        let name = match (stretch.takers.as_slice(), before) {
            ([one, others @ ..], _) => {
                before = Some(one);
                let shared = if others.is_empty() { None } else { stretch.shared(garment) };
                shared.unwrap_or(one.names.taken)
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
        if let Some(one) = over.find(|one| !one.portion.is_apart_from(other.portion)) {
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
        let plies = caught_twice(work.garment, first, second);
        let apart = (one.from - other.from).abs().max((one.to - other.to).abs());
        let title = match same {
            false if let Some(piece) = plies => Title::new(format!(
                "two plies of {} are caught in the {} of {}, and not in one place",
                work.title(piece),
                edge.name,
                work.title(edge.piece)
            ))
            .in_sizes()
            .then(format!(": {} apart", work.amount(apart))),
            true => Title::new(format!("{runs} are one and the same stretch")).in_sizes(),
            false => {
                Title::new(format!("{runs} lie over one another")).in_sizes().then(format!(" by {over}"))
            }
        };
        let hands = [first, second].map(|lying| lying.portion.only_hand());
        let other_side = hands.into_iter().flatten().next().map(Hand::other);
        let is_half_said = hands[0].is_none() != hands[1].is_none();
        let help = match (other_side.filter(|_| is_half_said), same) {
            (Some(side), _) => format!(
                "write on {} after the other one if it is on that side of the body; else let the one begin where the other ends",
                side.word()
            ),
            _ if let Some(layers) = in_layers(work.garment, first, second) => format!(
                "name the layer of each, {layers}, if they are in different ones; else let the one begin where the other ends"
            ),
            (None, false) if plies.is_some() => {
                "say the same place in the same words for both, if they lie on one another; else let the one begin where the other ends"
                    .to_owned()
            }
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

/// The piece of which a seam catches one edge twice, in these two runs.
fn caught_twice(garment: &Garment, first: &Lying, second: &Lying) -> Option<PieceId> {
    let caught = |lying: &Lying| {
        let place = lying.portion.span;
        let chains = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
        let is_it = |chain: &&Chain| chain.caught && chain.span.lo <= place.lo && place.hi <= chain.span.hi;
        let edge = chains.filter(is_it).find_map(|chain| chain.edges.first())?;
        Some((edge.piece, edge.edge))
    };
    let (one, other) = (caught(first)?, caught(second)?);
    (one == other).then_some(one.0)
}

/// "outer.front.side …", where one of the two is taken in several layers: then the layer may have been forgotten.
fn in_layers(garment: &Garment, first: &Lying, second: &Lying) -> Option<String> {
    let layers = |lying: &Lying| -> Vec<LayerId> {
        let mut all: Vec<LayerId> = lying.portion.places.iter().filter_map(|place| place.layer).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let several = [first, second].into_iter().map(layers).find(|layers| layers.len() > 1)?;
    let edge = garment.edge(first.names.on);
    let words = |layer: &LayerId| {
        format!("{}.{}.{}", garment.layer(*layer).name, garment.piece(edge.piece).name, edge.name)
    };
    Some(several.iter().take(2).map(words).collect::<Vec<_>>().join(" and "))
}
