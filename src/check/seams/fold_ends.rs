//! `seam/fold-end`: the fold of one half on the free end of another, though both are cut on the fold.

use super::runs::{corner_of, drawn};
use super::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{SewnPly, SewnRun, SewnSeam, TakenBy, seam_edges};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_FOLD_END], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut last = None;
    for sewn in size.sewn.seams.iter().filter(|sewn| sewn.unmet.is_none() && sewn.unpaired.is_none()) {
        if last == Some(sewn.seam) {
            continue;
        }
        let plies =
            sewn.first.plies.iter().flat_map(|one| sewn.second.plies.iter().map(move |two| (one, two)));
        let found = plies.filter_map(|(one, other)| crossed(garment, size, one, other)).next();
        if let Some(ends) = found {
            last = Some(sewn.seam);
            findings.push(reported(garment, size, sewn, ends));
        }
    }
}

/// Of two plies that each begin or end on a fold, the fold's end of the one and what it lies on, if that
/// is not the fold's end of the other.
fn crossed<'a>(
    garment: &Garment,
    size: &WorkedSize,
    one: &'a SewnPly,
    other: &'a SewnPly,
) -> Option<[(&'a SewnRun, bool); 2]> {
    let ends = |ply: &'a SewnPly| Some([(ply.runs.first()?, false), (ply.runs.last()?, true)]);
    let (ours, theirs) = (ends(one)?, ends(other)?);
    let folds =
        |ends: [(&SewnRun, bool); 2]| ends.map(|(run, is_end)| is_on_fold(garment, size, run, is_end));
    match (folds(ours), folds(theirs)) {
        ([true, false], [false, true]) => Some([ours[0], theirs[0]]),
        ([false, true], [true, false]) => Some([ours[1], theirs[1]]),
        // A bib across the open back of an apron: both its ends are on a fold, and one lies on a free end.
        ([true, true], [false, _]) if opens(garment, size, theirs[0]) => Some([ours[0], theirs[0]]),
        ([true, true], [_, false]) if opens(garment, size, theirs[1]) => Some([ours[1], theirs[1]]),
        ([false, _], [true, true]) if opens(garment, size, ours[0]) => Some([theirs[0], ours[0]]),
        ([_, false], [true, true]) if opens(garment, size, ours[1]) => Some([theirs[1], ours[1]]),
        _ => None,
    }
}

/// Whether a run ends at an edge that stays open or is closed by a closure: left and right do not meet there.
fn opens(garment: &Garment, size: &WorkedSize, (run, is_end): (&SewnRun, bool)) -> bool {
    let Some(drawn) = drawn(size, run) else { return false };
    let beyond = if is_end != run.reversed { drawn.after(run.edge) } else { drawn.before(run.edge) };
    let fate = size.sewn.part(run.part).fate(beyond);
    fate.is_some_and(|fate| {
        let is_open = |taken: TakenBy| match taken {
            TakenBy::Finish(_) | TakenBy::Closure(_) => true,
            // A band's end, folded on itself.
            TakenBy::Seam(seam, _) => garment.seam(seam).across_fold,
            _ => false,
        };
        !fate.takers.is_empty() && fate.takers.iter().all(|taker| is_open(taker.what))
    })
}

/// Whether a run begins or ends where its piece is cut on the fold.
fn is_on_fold(garment: &Garment, size: &WorkedSize, run: &SewnRun, is_end: bool) -> bool {
    let Some(drawn) = drawn(size, run) else { return false };
    let CutHow::OnFold(fold) = drawn.cut else { return false };
    let after = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
    [after, drawn.before(after)]
        .into_iter()
        .any(|at| drawn.edge_at(at).is_some_and(|edge| garment.is_run_of(edge.edge, fold)))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    [fold, free]: [(&SewnRun, bool); 2],
) -> Finding {
    let seam = garment.seam(sewn.seam);
    let says_layer = seam_edges(seam).any(|edge| edge.layer.is_some());
    let piece = |run: &SewnRun| words::piece(garment, size.sewn.part(run.part).part.piece);
    let word = |(run, is_end): (&SewnRun, bool)| {
        corner(garment, &size.sewn, &corner_of(size, run, is_end)?, says_layer)
    };
    let title = format!(
        "{} lays the fold of {} on the free end of {}, and the other way about",
        seam.words(),
        piece(fold.0),
        piece(free.0)
    );
    let matched = seam.matching.first().map(|(one, other)| one.span.to(other.span));
    let mut mistake = Diagnostic::new(&catalogue::SEAM_FOLD_END, matched.unwrap_or(seam.name_span), title);
    if let (Some(one), Some(other)) = (word(fold), word(free)) {
        mistake = mistake.label(format!("{one} on {other}"));
    }
    if matched.is_some() {
        mistake = mistake.also(seam.name_span, "in this seam");
    }
    let mistake = mistake.help(
        "both are cut on the fold, and their folds lie in the middle of the garment: match the fold's end of the one \
         with that of the other",
    );
    Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name)
}
