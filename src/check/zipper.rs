//! `zipper/sides`, `zipper/length`, `zipper/stock`: zips that do not fit what they are sewn to.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Chain, Closure, ClosureKind, CutHow, Expression, Garment, Line, LineRun, PieceId, SewnEdge,
};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, group};
use crate::resolve::{SizedGarment, ZipFit, constant};

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::ZIPPER_SIDES, &catalogue::ZIPPER_LENGTH, &catalogue::ZIPPER_STOCK],
    run: Run::OverSizes(run),
};

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let mut findings = Vec::new();
    for size in sizes {
        in_size(garment, sizes, &size.drawn, &mut findings);
    }
    diagnostics.extend(group(findings, &words::size_names(garment)));
}

fn in_size(garment: &Garment, sizes: &[WorkedSize], sized: &SizedGarment, findings: &mut Vec<Finding>) {
    for (at, (closure, fit)) in garment.closures.iter().zip(&sized.zips).enumerate() {
        let (Some(fit), Some(ClosureKind::Zipper { lengths, stocked, .. })) = (fit, &closure.kind) else {
            continue;
        };
        let [first, second] = fit.sides;
        if !first.is_finite() || !second.is_finite() || !fit.zip.is_finite() {
            continue;
        }
        let over = Over { garment, sizes, at };
        if (first - second).abs() > garment.tolerance {
            findings.push(uneven(&over, sized, closure, fit));
        } else if (fit.zip - first).abs() > garment.tolerance {
            findings.push(match stocked {
                true => unstocked(&over, sized, closure, fit, lengths),
                false => unfitting(&over, sized, closure, fit),
            });
        }
    }
}

/// A closure in all sizes.
struct Over<'a> {
    garment: &'a Garment,
    sizes: &'a [WorkedSize],
    at: usize,
}

impl Over<'_> {
    /// An amount in each size; none where one of them is not known.
    fn each(&self, of: impl Fn(&ZipFit) -> f64) -> Option<Vec<f64>> {
        let fit = |size: &WorkedSize| size.drawn.zips.get(self.at).copied().flatten();
        let all: Option<Vec<f64>> = self.sizes.iter().map(|size| fit(size).map(|fit| of(&fit))).collect();
        all.filter(|all| all.len() == self.garment.sizes.len() && all.iter().all(|one| one.is_finite()))
    }

    /// As it is written, once where it is the same in every size; none where some sizes need more and others
    /// less. In the size that is shown it is `here`.
    fn written(&self, here: f64, of: impl Fn(&ZipFit) -> f64) -> Option<String> {
        let unit = self.garment.unit;
        let one = |long: f64| words::written(&amount(long.abs(), unit));
        let Some(all) = self.each(of) else { return Some(one(here)) };
        let said: Vec<String> = all.iter().map(|&long| one(long)).collect();
        if said.iter().all(|other| *other == one(here)) {
            return Some(one(here));
        }
        let is_against = |long: &f64| long * here < 0.0 && long.abs() > self.garment.tolerance;
        (!all.iter().any(is_against)).then(|| format!("each {}", said.join(", ")))
    }
}

fn uneven(over: &Over, sized: &SizedGarment, closure: &Closure, fit: &ZipFit) -> Finding {
    let (garment, unit) = (over.garment, over.garment.unit);
    let [first, second] = fit.sides;
    let by = (first - second).abs();
    let (longer, shorter, long, short) = match first > second {
        true => ("first", "second", &closure.first, &closure.second),
        false => ("second", "first", &closure.second, &closure.first),
    };
    let only = |one: &Chain, other: &Chain| -> Vec<PieceId> {
        let others: Vec<PieceId> = other.edges.iter().map(|edge| edge.piece).collect();
        one.edges.iter().map(|edge| edge.piece).filter(|piece| !others.contains(piece)).collect()
    };
    let difference = |fit: &ZipFit| match first > second {
        true => fit.sides[0] - fit.sides[1],
        false => fit.sides[1] - fit.sides[0],
    };
    let help = match (only(short, long), only(long, short)) {
        (more, _) if !more.is_empty() => lengthening(over, &more, by, difference),
        (_, more) if !more.is_empty() => {
            format!(
                "{}, or take {} in on the other side too",
                lengthening(over, &more, -by, |fit| -difference(fit)),
                names(garment, &more)
            )
        }
        _ => "name the same run of edges on both sides".to_owned(),
    };
    let title = Title::new(format!(
        "the {longer} side of {} is {} longer than the {shorter}",
        closure.name,
        amount(by, unit)
    ))
    .in_sizes();
    let mistake = Diagnostic::new(&catalogue::ZIPPER_SIDES, closure.first.span, title)
        .label(amount(first, unit))
        .also(closure.second.span, amount(second, unit))
        .help(format!("make the sides equal: {help}"));
    let mistake = with_chain(garment, closure, mistake);
    Finding::new(sized.size, by, mistake)
        .about(&*closure.name)
        .figure("first side", amount(first, unit))
        .figure("second side", amount(second, unit))
}

fn unfitting(over: &Over, sized: &SizedGarment, closure: &Closure, fit: &ZipFit) -> Finding {
    let (garment, unit) = (over.garment, over.garment.unit);
    let edges = fit.sides[0];
    let by = (fit.zip - edges).abs();
    let way = if fit.zip > edges { "longer" } else { "shorter" };
    let title =
        Title::new(format!("the zip of {} is {} {way} than its edges", closure.name, amount(by, unit)))
            .in_sizes();
    let mistake = Diagnostic::new(&catalogue::ZIPPER_LENGTH, closure.kind_span, title)
        .label(format!("a zip of {}", amount(fit.zip, unit)))
        .also(closure.first.span, format!("finished {}", amount(edges, unit)))
        .help(match over_both_halves(garment, closure, fit) {
            Some(pieces) => format!(
                "of a half on the fold one half alone is counted: draw {} whole, with cut 1, for one zip over both halves",
                names(garment, &pieces)
            ),
            None => ways(over, closure, fit, &format!("take a zip of {}", long_enough(over, edges))),
        });
    figures(garment, sized, closure, fit, with_chain(garment, closure, mistake))
}

/// The pieces of a zip that is as long as both halves of what lies on the fold together.
fn over_both_halves(garment: &Garment, closure: &Closure, fit: &ZipFit) -> Option<Vec<PieceId>> {
    let is_both = (fit.zip - 2.0 * fit.sides[0]).abs() <= garment.tolerance;
    let edges = closure.first.edges.iter().chain(&closure.second.edges);
    let mut pieces: Vec<PieceId> = edges.map(|sewn| sewn.piece).collect();
    once_each(&mut pieces);
    let on_fold = |piece: &PieceId| matches!(garment.piece(*piece).cut.how, CutHow::OnFold(_));
    (is_both && pieces.iter().all(on_fold)).then_some(pieces)
}

/// Of a closure from end to end, along which edges it was found to go.
fn with_chain(garment: &Garment, closure: &Closure, mistake: Diagnostic) -> Diagnostic {
    let Some(span) = closure.end_to_end else { return mistake };
    let words = |chain: &Chain| -> String {
        let edge = |sewn: &SewnEdge| {
            let part = garment.part_name(sewn.layer, sewn.piece);
            format!("{part}.{}", garment.edge(sewn.edge).name)
        };
        chain.edges.iter().map(edge).collect::<Vec<String>>().join(" + ")
    };
    let (first, second) = (words(&closure.first), words(&closure.second));
    mistake.also(
        span,
        match first == second {
            true => format!("along {first}"),
            false => format!("along {first} to {second}"),
        },
    )
}

/// How long a zip must be for its edges.
fn long_enough(over: &Over, edges: f64) -> String {
    let said = over.written(edges, |fit| fit.sides[0]).filter(|said| said.starts_with("each"));
    said.unwrap_or_else(|| amount(edges, over.garment.unit))
}

fn unstocked(
    over: &Over,
    sized: &SizedGarment,
    closure: &Closure,
    fit: &ZipFit,
    lengths: &[Expression],
) -> Finding {
    let (garment, unit) = (over.garment, over.garment.unit);
    let edges = fit.sides[0];
    let by = (fit.zip - edges).abs();
    let way = if fit.zip > edges { "longer" } else { "shorter" };
    let mut stock: Vec<f64> = lengths.iter().filter_map(|length| constant(garment, sized, length)).collect();
    stock.sort_by(f64::total_cmp);
    let stock: Vec<String> = stock.into_iter().map(|length| amount(length, unit)).collect();
    let title = Title::new(format!("no stocked zip fits {}", closure.name))
        .in_sizes()
        .then(format!(": the nearest is {} {way} than its edges", amount(by, unit)));
    let mistake = Diagnostic::new(&catalogue::ZIPPER_STOCK, closure.kind_span, title)
        .label(format!("of {} the nearest is {}", words::listed(&stock), amount(fit.zip, unit)))
        .also(closure.first.span, format!("finished {}", amount(edges, unit)))
        .help(ways(over, closure, fit, &format!("stock a zip of {}", amount(edges, unit))));
    figures(garment, sized, closure, fit, with_chain(garment, closure, mistake))
}

fn figures(
    garment: &Garment,
    sized: &SizedGarment,
    closure: &Closure,
    fit: &ZipFit,
    mistake: Diagnostic,
) -> Finding {
    let unit = garment.unit;
    Finding::new(sized.size, (fit.zip - fit.sides[0]).abs(), mistake)
        .about(&*closure.name)
        .figure("edges", amount(fit.sides[0], unit))
        .figure("zip", amount(fit.zip, unit))
        .figure("zip − edges", amount(fit.zip - fit.sides[0], unit))
}

/// What would make the zip fit: lengthening or shortening what it is sewn to, or `other`.
fn ways(over: &Over, closure: &Closure, fit: &ZipFit, other: &str) -> String {
    let (garment, by) = (over.garment, fit.zip - fit.sides[0]);
    let mut pieces: Vec<PieceId> = Vec::new();
    for edge in closure.first.edges.iter().chain(&closure.second.edges) {
        if !pieces.contains(&edge.piece) {
            pieces.push(edge.piece);
        }
    }
    let alter = lengthening(over, &pieces, by, |fit| fit.zip - fit.sides[0]);
    match cut_line(garment, &pieces) {
        Some((pieces, line)) if by > 0.0 => {
            let until = format!("lengthen {pieces} at {line} until {} fits", closure.name);
            format!("{alter}; or let the amount be found: {until}; or {other}")
        }
        _ => format!("{alter}; or {other}"),
    }
}

/// "lengthen front, back at waist by 16cm", or "shorten …" of less than nothing; of what differs from size to
/// size, as `of` tells, "by each 16cm, 15cm".
fn lengthening(over: &Over, pieces: &[PieceId], by: f64, of: impl Fn(&ZipFit) -> f64) -> String {
    let garment = over.garment;
    let verb = if by > 0.0 { "lengthen" } else { "shorten" };
    let said = over.written(by, of);
    match (cut_line(garment, pieces), said) {
        (Some((pieces, line)), Some(said)) => format!("{verb} {pieces} at {line} by {said}"),
        (Some((pieces, line)), None) => {
            format!(
                "lengthen {pieces} at {line} in some sizes and shorten in others, by as much as each needs"
            )
        }
        // Without a line nothing can be written that does it.
        (None, said) => {
            let way = if verb == "lengthen" { "longer" } else { "shorter" };
            let far = match said {
                Some(said) if !said.starts_with("each") => amount(by.abs(), garment.unit),
                _ => "as much as each size needs".to_owned(),
            };
            format!("draw {} {way} there by {far}", names(garment, pieces))
        }
    }
}

fn names(garment: &Garment, pieces: &[PieceId]) -> String {
    let mut names: Vec<String> = Vec::new();
    for &piece in pieces {
        let name = garment.piece(piece).name.to_string();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    words::listed(&names)
}

/// The line across at which one of the pieces would be lengthened (its last: the lowest, as makers
/// list them), and every piece that has a line of that name, because they are lengthened together.
fn cut_line(garment: &Garment, pieces: &[PieceId]) -> Option<(String, String)> {
    let line = pieces.iter().find_map(|&id| {
        let across = |line: &&Line| matches!(line.run, LineRun::Across(_));
        garment.piece(id).drawing.lines.iter().rfind(across)
    })?;
    let name = garment.edge(line.edge).name.clone();
    let with_line: Vec<String> = garment
        .pieces
        .iter()
        .filter(|piece| piece.ended_by.is_none() && !piece.block)
        .filter(|piece| {
            piece.edges.iter().map(|&edge| garment.edge(edge)).any(|edge| edge.line && edge.name == name)
        })
        .map(|piece| piece.name.to_string())
        .collect();
    Some((with_line.join(", "), name.to_string()))
}
