//! `dart/uneased`: a dart that is left as ease or gathers, where nothing takes its width in.

use super::{Check, Run, words};
use crate::garment::{
    AlterationId, DartChange, DartGoal, EdgeId, FinishKind, Garment, LeftAs, SewnEdge, Target,
};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::FitKind;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::DART_UNEASED], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    if garment.incomplete.sewing {
        return;
    }
    for (id, alteration) in AlterationId::enumerate(&garment.alterations) {
        let (Some(DartChange::Leave(left)), Some(target)) = (&alteration.dart, alteration.targets.first())
        else {
            continue;
        };
        let Some(edge) = edge_of(garment, id, target).filter(|&edge| !is_taken_in(garment, *left, edge))
        else {
            continue;
        };
        let (what, way, fit) = match left {
            LeftAs::Ease => ("eases", "easing 1..3", "ease"),
            LeftAs::Gathers => ("gathers", "gathering 1.1..1.5", "gathers"),
            LeftAs::Flare => continue,
        };
        let (dart, of) = (&garment.edge(target.edge).name, words::edge(garment, edge));
        let title = format!("{dart} is left as {fit}, and no seam {what} {of}");
        diagnostics.push(
            Diagnostic::new(&catalogue::DART_UNEASED, alteration.span, title)
                .label("nothing takes its width in")
                .also(
                    garment.edge(edge).span,
                    format!("{} has the dart's width more", garment.edge(edge).name),
                )
                .help(format!(
                    "let its seam take it in, {} on the first side: seam … {way}; or leave the dart as flare",
                    garment.edge(edge).name
                )),
        );
    }
}

/// The edge that a dart is taken from when an alteration leaves it.
fn edge_of(garment: &Garment, left: AlterationId, target: &Target) -> Option<EdgeId> {
    let before = garment.alterations.iter().take(left.index()).rev();
    let goal = before.filter_map(|one| match &one.dart {
        Some(DartChange::Move(change)) => Some((one.targets.first()?.edge, &**change)),
        Some(DartChange::Let(change)) => Some((change.name, &change.opens)),
        _ => None,
    });
    let mut goal = goal.filter_map(|(moved, change)| match change.goal {
        DartGoal::Edge(edge, _) => {
            let is_it = match change.named {
                Some(named) => {
                    garment.is_run_of(target.edge, named)
                        || change.share.is_none() && garment.is_run_of(named, target.edge)
                }
                None => garment.is_run_of(target.edge, moved),
            };
            is_it.then_some(edge)
        }
        DartGoal::Dart(..) => None,
    });
    let declared = || {
        let of_all = garment.pieces.iter().flat_map(|piece| &piece.drawing.take_ups);
        let mut own = of_all.filter(|take_up| garment.is_run_of(target.edge, take_up.name));
        own.find_map(|take_up| take_up.edge())
    };
    goal.next().or_else(declared)
}

fn is_taken_in(garment: &Garment, left: LeftAs, edge: EdgeId) -> bool {
    let is_it = |sewn: &SewnEdge| garment.is_run_of(sewn.edge, edge) || garment.is_run_of(edge, sewn.edge);
    let seams = garment.seams.iter().any(|seam| {
        let fits = match seam.fit.as_ref().map(|fit| fit.kind) {
            Some(FitKind::Easing) => left == LeftAs::Ease,
            Some(FitKind::Gathering) => true,
            Some(FitKind::Stretching) | None => seam.poisoned,
        };
        fits && seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges).any(is_it)
    });
    seams
        || garment
            .finishes
            .iter()
            .any(|finish| matches!(finish.kind, FinishKind::Casing(..)) && finish.edges.iter().any(is_it))
}
