//! `turn/closed`, `gap/small` and `gap/long`: what is sewn right sides together all round is turned through a gap.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, SeamId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::{Finder, PartId, Place, Sewing, Stitching, TakenBy, amount_of};
use std::collections::{HashMap, HashSet};

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::TURN_CLOSED, &catalogue::GAP_SMALL, &catalogue::GAP_LONG],
    run: Run::PerSize(run),
};

/// The least gap that a garment is turned through without ado, in millimetres: makers leave 5 to
/// 6 in, 13 to 15 cm (common practice).
const GAP: f64 = 130.0;
/// The same for a thick pile.
const GAP_OF_PILE: f64 = 150.0;
/// So thick a cloth is a thick pile, in millimetres.
const PILE: f64 = 5.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    findings.extend(small_gaps(garment, sized));
    findings.extend(long_gaps(garment, sized, sewing));
    if garment.incomplete.sewing || garment.seams.iter().any(|seam| seam.poisoned) {
        return;
    }
    let (finder, stitchings) = (size.finder(garment), &sewing.stitchings);
    let closed = closed_parts(garment, sized, sewing, stitchings);
    // What is sewn with copies that cannot be paired may lie open once they are.
    let unpaired: HashSet<SeamId> =
        sewing.seams.iter().filter(|sewn| sewn.unpaired.is_some()).map(|sewn| sewn.seam).collect();
    let uncertain: HashSet<PartId> = stitchings
        .iter()
        .filter(|stitching| unpaired.contains(&stitching.seam))
        .flat_map(|stitching| stitching.places().map(|place| place.part))
        .collect();
    for group in together(&closed, stitchings) {
        if group.iter().any(|part| uncertain.contains(part)) {
            continue;
        }
        if let Some(finding) = told_closed(garment, sized, &finder, &group, stitchings) {
            findings.push(finding);
        }
    }
}

/// Which parts bound a closed space.
///
/// Parts are cells glued along seams. One that has an edge open (finished, placed, loose), or that
/// is the only ply left in a seam, bounds nothing and is taken away; what is left at the end is
/// closed. A piece folded with both its edges in one seam is a flap: it hangs on the seam and
/// closes nothing (it is folded right side out). Between the edges of a fold the piece is closed
/// by itself.
fn closed_parts(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    stitchings: &[Stitching],
) -> Vec<bool> {
    let mut left: Vec<bool> = Vec::with_capacity(sewing.parts.len());
    for part in &sewing.parts {
        let open = DrawnEdgeId::enumerate(&part.edges).any(|(edge, fate)| {
            let closes = |what: TakenBy| match what {
                TakenBy::Seam(..) | TakenBy::Fold => true,
                TakenBy::Closure(_) => is_between_folds(garment, sized, part.part.paper, edge),
                _ => false,
            };
            !fate.takers.iter().any(|taker| closes(taker.what))
        });
        left.push(!part.fused && !open);
    }
    for stitching in stitchings {
        for (one, other) in flaps(garment, sized, sewing, stitching) {
            for part in [one.part, other.part] {
                if let Some(left) = left.get_mut(part.index()) {
                    *left = false;
                }
            }
        }
    }
    let mut by_part: Vec<Vec<usize>> = vec![Vec::new(); left.len()];
    for (at, stitching) in stitchings.iter().enumerate() {
        for place in stitching.places() {
            if let Some(seams) = by_part.get_mut(place.part.index()) {
                seams.push(at);
            }
        }
    }
    let mut open: Vec<usize> = (0..stitchings.len()).collect();
    while let Some(at) = open.pop() {
        let Some(stitching) = stitchings.get(at) else { continue };
        let whole = |ply: &&Vec<Place>| {
            !ply.is_empty() && ply.iter().all(|place| left.get(place.part.index()).copied().unwrap_or(false))
        };
        // Left and right of one edge are two plies.
        let both_hands = match &stitching.sides {
            [first, second] => {
                let named = |side: &[Vec<Place>]| -> Vec<(PartId, DrawnEdgeId)> {
                    side.iter().flatten().map(|place| (place.part, place.edge)).collect()
                };
                named(first) == named(second)
            }
        };
        let plies: Vec<&Vec<Place>> = stitching.plies().filter(whole).collect();
        if plies.len() > 1 || (both_hands && !plies.is_empty()) {
            continue;
        }
        // Of plies that are no longer whole, what is left of them is open too.
        let loose: Vec<PartId> = stitching.places().map(|place| place.part).collect();
        for part in loose {
            if let Some(left) = left.get_mut(part.index()).filter(|left| **left) {
                *left = false;
                open.extend(by_part.get(part.index()).into_iter().flatten());
            }
        }
    }
    left
}

/// Pairs of folded edges of one part that lie in one stitching.
fn flaps(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    stitching: &Stitching,
) -> Vec<(Place, Place)> {
    let mut found = Vec::new();
    let places: Vec<&Place> = stitching.places().collect();
    let edge_of = |place: &Place| -> Option<EdgeId> {
        let paper = sewing.part(place.part).part.paper;
        Some(sized.paper(paper)?.edge_at(place.edge)?.edge)
    };
    let mut by_part: Vec<(PartId, EdgeId, Place)> =
        places.iter().filter_map(|place| Some((place.part, edge_of(place)?, **place))).collect();
    by_part.sort_by_key(|(part, ..)| *part);
    for group in by_part.chunk_by(|one, other| one.0 == other.0) {
        let Some((_, first, _)) = group.first() else { continue };
        for over in &garment.piece(garment.edge(*first).piece).folds {
            let find = |of: EdgeId| {
                group.iter().find(|(_, edge, _)| garment.is_run_of(*edge, of)).map(|(.., place)| *place)
            };
            if let (Some(one), Some(other)) = (find(over.edge), find(over.onto)) {
                found.push((one, other));
            }
        }
    }
    found
}

/// Whether an edge runs from one edge of a fold to the other: folded, it lies on itself.
fn is_between_folds(garment: &Garment, sized: &SizedGarment, paper: PaperId, edge: DrawnEdgeId) -> bool {
    let Some(drawn) = sized.paper(paper) else { return false };
    let Some(edge) = drawn.edge_at(edge) else { return false };
    let folds = &garment.piece(drawn.piece).folds;
    folds
        .iter()
        .any(|over| !garment.is_run_of(edge.edge, over.edge) && !garment.is_run_of(edge.edge, over.onto))
}

/// The closed parts that hang together by seams, in the order of the parts.
fn together(closed: &[bool], stitchings: &[Stitching]) -> Vec<Vec<PartId>> {
    let mut groups: Vec<usize> = (0..closed.len()).collect();
    fn root(groups: &mut [usize], mut at: usize) -> usize {
        while let Some(&up) = groups.get(at).filter(|up| **up != at) {
            let over = groups.get(up).copied().unwrap_or(up);
            if let Some(own) = groups.get_mut(at) {
                *own = over;
            }
            at = over;
        }
        at
    }
    for stitching in stitchings {
        let parts = stitching.places().map(|place| place.part.index());
        let mut parts = parts.filter(|&part| closed.get(part).copied().unwrap_or(false));
        let Some(first) = parts.next() else { continue };
        for part in parts {
            let (one, other) = (root(&mut groups, first), root(&mut groups, part));
            if let Some(own) = groups.get_mut(one.max(other)) {
                *own = one.min(other);
            }
        }
    }
    let mut found: indexmap::IndexMap<usize, Vec<PartId>> = indexmap::IndexMap::new();
    for (part, _) in PartId::enumerate(closed).filter(|(_, closed)| **closed) {
        let root = root(&mut groups, part.index());
        found.entry(root).or_default().push(part);
    }
    found.into_values().collect()
}

fn told_closed(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    group: &[PartId],
    stitchings: &[Stitching],
) -> Option<Finding> {
    let inside: HashSet<PartId> = group.iter().copied().collect();
    let mut seams: Vec<SeamId> = Vec::new();
    for stitching in stitchings {
        if stitching.places().any(|place| inside.contains(&place.part)) {
            if !garment.seam(stitching.seam).gaps.is_empty() {
                return None;
            }
            if !seams.contains(&stitching.seam) {
                seams.push(stitching.seam);
            }
        }
    }
    let mut layers: Vec<String> = Vec::new();
    for part in group.iter().map(|&part| finder.part(part)) {
        let name = garment.layer(part.layer).name.to_string();
        if !layers.contains(&name) {
            layers.push(name);
        }
    }
    // The seam that closes it is the last that is declared across layers.
    let across = seams.iter().rev().find(|&&id| {
        let mut own = stitchings.iter().filter(|one| one.seam == id).flat_map(Stitching::places);
        let layer = |place: &Place| finder.part(place.part).layer;
        let first = own.next().map(layer);
        own.any(|place| Some(layer(place)) != first)
    });
    let last = garment.seam(*across.or_else(|| seams.last())?);
    let title = match layers.as_slice() {
        [one] => format!("{one} is sewn shut all round, and no gap is left to turn it through"),
        _ => format!(
            "{} are sewn together all round, and no gap is left to turn them through",
            words::listed(&layers)
        ),
    };
    let inner = layers.last().cloned().unwrap_or_default();
    let mistake = Diagnostic::new(&catalogue::TURN_CLOSED, last.name_span, title)
        .label("closes the last of it")
        .help(format!(
            "leave a gap in a seam that leads inside, and close it by hand: {{ leaving gap {} in {inner} }}",
            written(garment)
        ));
    Some(Finding::new(sized.size, group.len() as f64, mistake))
}

/// 15 cm as the garment would write it.
fn written(garment: &Garment) -> String {
    amount(GAP_OF_PILE, garment.unit).replace(' ', "")
}

fn small_gaps(garment: &Garment, sized: &SizedGarment) -> Vec<Finding> {
    let thickest = garment.layers.iter().filter(|layer| !layer.fused).filter_map(|layer| layer.fabric);
    let thickest = thickest
        .filter_map(|fabric| amount_of(garment, sized, garment.fabric(fabric).thickness.as_ref()?))
        .fold(0.0, f64::max);
    let (least, why) = match thickest >= PILE {
        true => (GAP_OF_PILE, " in thick cloth"),
        false => (GAP, ""),
    };
    let mut found = Vec::new();
    for seam in &garment.seams {
        for gap in &seam.gaps {
            let Some(length) = amount_of(garment, sized, &gap.length).filter(|length| *length < least) else {
                continue;
            };
            let (is, needed) = (amount(length, garment.unit), amount(least, garment.unit));
            let title =
                Title::new(format!("a gap of {is} in {} is small to turn a garment through{why}", seam.name))
                    .in_sizes();
            let advice = Diagnostic::new(&catalogue::GAP_SMALL, gap.span, title)
                .label(is.clone())
                .help(format!("makers leave {needed} or more"));
            found.push(Finding::new(sized.size, least - length, advice).figure("gap", is));
        }
    }
    found
}

/// A gap that is longer than the seam it is left in; of several layers the longest counts.
fn long_gaps(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<Finding> {
    let mut longest: HashMap<SeamId, f64> = HashMap::new();
    for sewn in sewing.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none()) {
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        let long = plies.map(|ply| ply.length).fold(0.0, f64::max);
        let known = longest.entry(sewn.seam).or_insert(0.0);
        *known = known.max(long);
    }
    let mut found = Vec::new();
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.gaps.is_empty()) {
        let Some(&long) = longest.get(&id) else { continue };
        for gap in &seam.gaps {
            let Some(length) = amount_of(garment, sized, &gap.length).filter(|length| *length > long) else {
                continue;
            };
            let (is, of) = (amount(length, garment.unit), amount(long, garment.unit));
            let title = Title::new(format!(
                "a gap of {is} has no room in the {} seam, which is {of} long",
                seam.name
            ))
            .in_sizes();
            let mistake = Diagnostic::new(&catalogue::GAP_LONG, gap.span, title)
                .label(is.clone())
                .also(seam.name_span, of.clone())
                .help(format!("leave less than {of}, so that both its ends are held, or take a longer seam"));
            found.push(Finding::new(sized.size, length - long, mistake).figure("gap", is).figure("seam", of));
        }
    }
    found
}
