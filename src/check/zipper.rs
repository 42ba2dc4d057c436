//! `zipper/sides`, `zipper/length`, `zipper/stock`: zips that do not fit what they are sewn to.

use super::{Check, Run, words};
use crate::garment::{Closure, ClosureKind, Expression, Garment, LineRun, PieceId};
use crate::report::{Diagnostic, Finding, amount};
use crate::resolve::{SizedGarment, ZipFit, constant};

pub(super) static CHECK: Check =
    Check { slugs: &["zipper/sides", "zipper/length", "zipper/stock"], run: Run::PerSize(run) };

fn run(garment: &Garment, sized: &SizedGarment, findings: &mut Vec<Finding>) {
    for (closure, fit) in garment.closures.iter().zip(&sized.zips) {
        let (Some(fit), Some(ClosureKind::Zipper { lengths, stocked, .. })) = (fit, &closure.kind) else {
            continue;
        };
        let [first, second] = fit.sides;
        if !first.is_finite() || !second.is_finite() || !fit.zip.is_finite() {
            continue;
        }
        if (first - second).abs() > garment.tolerance {
            findings.push(uneven(garment, sized, closure, fit));
        } else if (fit.zip - first).abs() > garment.tolerance {
            findings.push(match stocked {
                true => unstocked(garment, sized, closure, fit, lengths),
                false => unfitting(garment, sized, closure, fit),
            });
        }
    }
}

fn uneven(garment: &Garment, sized: &SizedGarment, closure: &Closure, fit: &ZipFit) -> Finding {
    let unit = garment.unit;
    let [first, second] = fit.sides;
    let by = (first - second).abs();
    let (longer, shorter, pieces) = match first > second {
        true => ("first", "second", &closure.second),
        false => ("second", "first", &closure.first),
    };
    let pieces: Vec<PieceId> = pieces.edges.iter().map(|edge| edge.piece).collect();
    let title = format!(
        "the {longer} side of {} is {} longer than the {shorter} {{sizes}}",
        closure.name,
        amount(by, unit)
    );
    let mistake = Diagnostic::mistake("zipper/sides", closure.first.span, title)
        .label(amount(first, unit))
        .also(closure.second.span, amount(second, unit))
        .help(format!("make the sides equal: {}", lengthening(garment, &pieces, by)));
    Finding::new(sized.size, by, mistake)
        .about(&*closure.name)
        .figure("first side", amount(first, unit))
        .figure("second side", amount(second, unit))
}

fn unfitting(garment: &Garment, sized: &SizedGarment, closure: &Closure, fit: &ZipFit) -> Finding {
    let unit = garment.unit;
    let edges = fit.sides[0];
    let by = (fit.zip - edges).abs();
    let way = if fit.zip > edges { "longer" } else { "shorter" };
    let title = format!("the zip of {} is {} {way} than its edges {{sizes}}", closure.name, amount(by, unit));
    let mistake = Diagnostic::mistake("zipper/length", closure.kind_span, title)
        .label(format!("a zip of {}", amount(fit.zip, unit)))
        .also(closure.first.span, format!("finished {}", amount(edges, unit)))
        .help(ways(garment, closure, fit, &format!("take a zip of {}", amount(edges, unit))));
    figures(garment, sized, closure, fit, mistake)
}

fn unstocked(
    garment: &Garment,
    sized: &SizedGarment,
    closure: &Closure,
    fit: &ZipFit,
    lengths: &[Expression],
) -> Finding {
    let unit = garment.unit;
    let edges = fit.sides[0];
    let by = (fit.zip - edges).abs();
    let way = if fit.zip > edges { "longer" } else { "shorter" };
    let mut stock: Vec<f64> = lengths.iter().filter_map(|length| constant(garment, sized, length)).collect();
    stock.sort_by(f64::total_cmp);
    let stock: Vec<String> = stock.into_iter().map(|length| amount(length, unit)).collect();
    let title = format!(
        "no stocked zip fits {} {{sizes}}: the nearest is {} {way} than its edges",
        closure.name,
        amount(by, unit)
    );
    let mistake = Diagnostic::mistake("zipper/stock", closure.kind_span, title)
        .label(format!("of {} the nearest is {}", words::listed(&stock), amount(fit.zip, unit)))
        .also(closure.first.span, format!("finished {}", amount(edges, unit)))
        .help(ways(garment, closure, fit, &format!("stock a zip of {}", amount(edges, unit))));
    figures(garment, sized, closure, fit, mistake)
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

fn ways(garment: &Garment, closure: &Closure, fit: &ZipFit, other: &str) -> String {
    let by = fit.zip - fit.sides[0];
    let mut pieces: Vec<PieceId> = Vec::new();
    for edge in closure.first.edges.iter().chain(&closure.second.edges) {
        if !pieces.contains(&edge.piece) {
            pieces.push(edge.piece);
        }
    }
    let alter = lengthening(garment, &pieces, by);
    match cut_line(garment, &pieces) {
        Some((piece, line)) if by > 0.0 => {
            format!(
                "{alter}, or let it be found: lengthen {piece} at {line} until {} fits; or {other}",
                closure.name
            )
        }
        _ => format!("{alter}; or {other}"),
    }
}

/// "lengthen front at waist by 16 cm", at a line across that one of the pieces has.
fn lengthening(garment: &Garment, pieces: &[PieceId], by: f64) -> String {
    let verb = if by > 0.0 { "lengthen" } else { "shorten" };
    let by = amount(by.abs(), garment.unit).replace(' ', "");
    match cut_line(garment, pieces) {
        Some((piece, line)) => format!("{verb} {piece} at {line} by {by}"),
        None => {
            let mut names: Vec<String> = Vec::new();
            for &piece in pieces {
                let name = garment.piece(piece).name.to_string();
                if !names.contains(&name) {
                    names.push(name);
                }
            }
            format!("{verb} {} by {by}", words::listed(&names))
        }
    }
}

/// The line across at which one of the pieces would be lengthened: its last, the lowest as makers
/// list them.
fn cut_line(garment: &Garment, pieces: &[PieceId]) -> Option<(String, String)> {
    pieces.iter().find_map(|&id| {
        let piece = garment.piece(id);
        let across = |line: &&crate::garment::Line| matches!(line.run, LineRun::Across(_));
        let line = piece.drawing.lines.iter().rfind(across)?;
        Some((piece.name.to_string(), garment.edge(line.edge).name.to_string()))
    })
}
