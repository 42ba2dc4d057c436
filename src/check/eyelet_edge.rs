//! `set/place` of an eyelet that is set so near to an edge that its hole goes over it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, FinishKind, Garment, Notion, NotionKind, Tack};
use crate::report::{Diagnostic, Finding, INCH, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::sewing::{EdgeFate, TakenBy, tacked};
use crate::shape::Point;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SET_PLACE], run: Run::PerSize(run) };

/// What is set in a hole of its own. A rivet holds a corner or a seam together, and belongs there.
const HOLES: [&str; 4] = ["eyelet", "eyelets", "grommet", "grommets"];
/// Units of a size in a notion's name, in millimetres.
const UNITS: [(&str, f64); 4] = [("mm", 1.0), ("cm", 10.0), ("in", INCH), ("\"", INCH)];
/// So much of a hole over an edge nobody measures, in millimetres.
const BARELY: f64 = 0.1;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for tack in &garment.tacks {
        let Some(notion) = tack.sets.as_ref().and_then(|set| set.notion) else { continue };
        let notion = garment.notion(notion);
        if let Some(wide) = hole(notion) {
            findings.extend(over_edge(garment, size, (tack, notion), wide));
        }
    }
}

/// How wide the hole is that a notion is set in, by its name.
fn hole(notion: &Notion) -> Option<f64> {
    let NotionKind::Other(name) = &notion.name.kind else { return None };
    let is_hole = |word: &str| HOLES.contains(&word);
    if !name.split(|letter: char| !letter.is_alphabetic()).any(is_hole) {
        return None;
    }
    let mut words = name.split_whitespace().peekable();
    while let Some(word) = words.next() {
        let figures = word.trim_end_matches(|letter: char| !letter.is_ascii_digit());
        let Ok(number) = figures.parse::<f64>() else { continue };
        let unit = word.get(figures.len()..).filter(|unit| !unit.is_empty()).or(words.peek().copied())?;
        let (_, each) = UNITS.iter().find(|(name, _)| *name == unit)?;
        return Some(number * each);
    }
    None
}

/// The place that lies nearest to an edge of its piece.
fn over_edge(
    garment: &Garment,
    size: &WorkedSize,
    (tack, notion): (&Tack, &Notion),
    wide: f64,
) -> Option<Finding> {
    let finder = size.sewn.finder(garment, &size.drawn);
    let mut worst: Option<(f64, &DrawnPiece, &DrawnEdge, crate::source::Span)> = None;
    for end in tack.ends.iter().filter(|end| !size.drawn.is_undrawn(garment, end.piece)) {
        for (part, at) in tacked(garment, &size.drawn, &finder, end) {
            let sewn = size.sewn.part(part);
            let (Ok(at), Some(drawn)) = (at, size.drawn.paper(sewn.part.paper)) else { continue };
            for (edge, fate) in drawn.edges.iter().zip(&sewn.edges) {
                let Some(away) = ends_there(garment, drawn, (edge, fate), at) else { continue };
                if away < wide / 2.0 - BARELY && worst.is_none_or(|(least, ..)| away < least) {
                    worst = Some((away, drawn, edge, end.span));
                }
            }
        }
    }
    let (away, drawn, edge, span) = worst?;
    let unit = garment.unit;
    let (far, radius) = (amount(away, unit), amount(wide / 2.0, unit));
    let title = Title::new(format!(
        "{} sets \u{201c}{}\u{201d} {far} from {}: its hole goes over that edge",
        tack.name,
        notion.title,
        words::edge(garment, edge.edge)
    ));
    let mistake = Diagnostic::new(&catalogue::SET_PLACE, span, title.in_sizes())
        .label(format!("half of its hole is {radius} wide"))
        .also(garment.edge(edge.edge).span, "this edge")
        .help(format!(
            "move it at least {} further into {}: it needs cloth all round, and its rim more than its hole",
            at_least(wide / 2.0 - away, unit),
            words::piece(garment, drawn.piece)
        ));
    let finding = Finding::new(size.id(), wide / 2.0 - away, mistake);
    Some(finding.about(&*tack.name).figure("from the edge", far))
}

/// How far a place is from an edge at which its cloth is sewn to other cloth, or ends. Beyond a fold it goes on; a hem lies double
/// behind it, and what is placed has the cloth below it.
fn ends_there(
    garment: &Garment,
    drawn: &DrawnPiece,
    (edge, fate): (&DrawnEdge, &EdgeFate),
    at: Point,
) -> Option<f64> {
    if matches!(drawn.cut, CutHow::OnFold(fold) if garment.is_run_of(edge.edge, fold)) {
        return None;
    }
    let is_end = fate.takers.iter().any(|taker| match taker.what {
        TakenBy::Seam(..) => true,
        TakenBy::Finish(id) => matches!(
            garment.finish(id).kind,
            FinishKind::Hem(_) | FinishKind::Bound(_) | FinishKind::Overlocked | FinishKind::Raw
        ),
        _ => false,
    });
    is_end.then(|| edge.path.nearest(at).distance)
}
