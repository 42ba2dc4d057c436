//! `seam/fold-end`: the fold of one half on the free end of another, though both are cut on the fold.

use super::runs::{caught_runs, corner_of, drawn, is_at, run_end};
use super::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, SewnPoint};
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
        } else if let Some([fold, free]) = across_open_ends(garment, size, sewn) {
            last = Some(sewn.seam);
            findings.push(lies_across(garment, size, sewn, [fold, free]));
        } else if let Some(ends) = caught(garment, size, sewn) {
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
        _ => None,
    }
}

/// Of what is caught on a run of another edge, both cut on the fold: its fold and what that lies on, or what lies on the
/// fold below it, if that is not a fold too.
fn caught<'a>(garment: &Garment, size: &WorkedSize, sewn: &'a SewnSeam) -> Option<[(&'a SewnRun, bool); 2]> {
    let is_half =
        |run: &SewnRun| drawn(size, run).is_some_and(|drawn| matches!(drawn.cut, CutHow::OnFold(_)));
    caught_runs(sewn).filter(|(own, under)| is_half(own) && is_half(under)).find_map(|(own, under)| {
        let folds = |run: &SewnRun| [false, true].map(|is_end| is_on_fold(garment, size, run, is_end));
        let (ours, theirs) = (folds(own), folds(under));
        let at = (0..2).find(|&at| ours[at] && !theirs[at] && !meets_its_twin(size, under, at == 1))?;
        Some([(own, at == 1), (under, at == 1)])
    })
}

/// Whether left and right of a piece are sewn together beyond an end of a run, so that a fold may lie there.
fn meets_its_twin(size: &WorkedSize, run: &SewnRun, is_end: bool) -> bool {
    let Some(drawn) = drawn(size, run) else { return false };
    let beyond = if is_end != run.reversed { drawn.after(run.edge) } else { drawn.before(run.edge) };
    let part = size.sewn.left_of(run.part);
    let has = |plies: &[SewnPly]| {
        let mut runs = plies.iter().flat_map(|ply| &ply.runs);
        runs.any(|own| own.edge == beyond && size.sewn.left_of(own.part) == part)
    };
    size.sewn.seams.iter().any(|sewn| has(&sewn.first.plies) && has(&sewn.second.plies))
}

/// A ply that lies with its fold where two others end that stay open there: a bib across the open back of an apron, over
/// skirt and band. (One alone may end there: a hood, open in front, on a front on the fold.)
fn across_open_ends<'a>(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &'a SewnSeam,
) -> Option<[(&'a SewnRun, bool); 2]> {
    let plies = || sewn.first.plies.iter().chain(&sewn.second.plies);
    if plies().count() < 3 {
        return None;
    }
    let end = |ply: &'a SewnPly, is_end: bool| {
        let run = if is_end { ply.runs.last() } else { ply.runs.first() }?;
        (!run.elsewhere).then_some((run, is_end))
    };
    [false, true].into_iter().find_map(|is_end| {
        let ends = || plies().filter_map(|ply| end(ply, is_end));
        let fold = ends().find(|&(run, is_end)| is_on_fold(garment, size, run, is_end))?;
        let is_open = |&(run, is_end): &(&SewnRun, bool)| {
            !is_on_fold(garment, size, run, is_end) && opens(garment, size, (run, is_end))
        };
        let first = ends().find(is_open)?;
        let piece = |run: &SewnRun| size.sewn.part(run.part).part.piece;
        ends().filter(is_open).any(|(run, _)| piece(run) != piece(first.0)).then_some([fold, first])
    })
}

fn lies_across(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    [fold, free]: [(&SewnRun, bool); 2],
) -> Finding {
    let seam = garment.seam(sewn.seam);
    let piece = |run: &SewnRun| words::piece(garment, size.sewn.part(run.part).part.piece);
    let (own, open) = (piece(fold.0), piece(free.0));
    let title = format!("{} lays the fold of {own} across the open end of {open}", seam.words());
    let named = seam_edges(seam).find(|edge| edge.piece == size.sewn.part(fold.0.part).part.piece);
    let mistake = Diagnostic::new(&catalogue::SEAM_FOLD_END, named.map_or(seam.name_span, |edge| edge.span), title)
        .label("its left and its right hold the opening shut")
        .help(format!(
            "the fold of {own} lies in the middle of the garment: let its stretch begin where {open} lies on the fold, \
             not where that opens"
        ));
    Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name)
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
        let end = corner_of(size, run, is_end)?;
        corner(garment, &size.sewn, &end, says_layer).or_else(|| run_end(garment, size, &end, says_layer))
    };
    let lies_all_along = !caught_runs(sewn).any(|(own, _)| own == fold.0);
    let title = format!(
        "{} lays the fold of {} {}",
        seam.words(),
        piece(fold.0),
        match lies_all_along {
            true => format!("on the free end of {}, and the other way about", piece(free.0)),
            false => format!("beside the fold of {}", piece(free.0)),
        }
    );
    let is_named = |point: &SewnPoint| is_at(garment, size, fold, point) || is_at(garment, size, free, point);
    let pairs = || seam.matching.iter();
    let matched = pairs().find(|(one, other)| is_named(one) && is_named(other)).or(pairs().next());
    let matched = matched.map(|(one, other)| one.span.to(other.span));
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
