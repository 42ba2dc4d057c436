//! `fold/unequal`: edges that are folded onto each other and differ in length.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FoldOver, Garment};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnPiece, SizedGarment};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FOLD_UNEQUAL], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let mut seen = IdSet::default();
    for row in &sized.cut_list {
        let Some(drawn) = sized.paper(row.part.paper) else { continue };
        if !seen.insert(row.part.paper) {
            continue;
        }
        for fold in &garment.piece(row.part.piece).folds {
            let (Some(over), Some(onto)) =
                (length(garment, drawn, fold.edge), length(garment, drawn, fold.onto))
            else {
                continue;
            };
            if (over - onto).abs() > garment.tolerance {
                let subject = garment.part_name(Some(row.part.layer), row.part.piece);
                findings.push(finding(garment, sized, fold, (over, onto)).about(subject));
            }
        }
    }
}

/// Of all runs of an edge; none where the piece has it no longer.
fn length(garment: &Garment, drawn: &DrawnPiece, edge: EdgeId) -> Option<f64> {
    let runs = drawn.edges.iter().filter(|drawn| garment.is_run_of(drawn.edge, edge));
    runs.map(|run| run.path.length()).reduce(|sum, own| sum + own).filter(|length| length.is_finite())
}

fn finding(garment: &Garment, sized: &SizedGarment, fold: &FoldOver, (over, onto): (f64, f64)) -> Finding {
    let unit = garment.unit;
    let by = amount((over - onto).abs(), unit);
    let (own, other) = (garment.edge(fold.edge), garment.edge(fold.onto));
    let piece = words::piece(garment, own.piece);
    let (longer, shorter) = if over > onto { (own, other) } else { (other, own) };
    let title = Title::new(format!(
        "{} of {piece} is folded onto {}, but {} is {by} longer than {}",
        own.name, other.name, longer.name, shorter.name
    ))
    .in_sizes();
    let mistake = Diagnostic::new(&catalogue::FOLD_UNEQUAL, fold.span, title)
        .label(format!("{by} are left over"))
        .also(own.span, amount(over, unit))
        .also(other.span, amount(onto, unit))
        .help(format!(
            "draw both alike: make {} {by} longer, or {} {by} shorter; or cut two of them and sew them together",
            shorter.name, longer.name
        ));
    Finding::new(sized.size, (over - onto).abs(), mistake)
        .figure(&own.name, amount(over, unit))
        .figure(&other.name, amount(onto, unit))
}
