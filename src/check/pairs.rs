//! `pair/same` and `part/flip`: pieces whose copies come out for the same side of the body.

use super::{Check, Run, words};
use crate::garment::{CutHow, Garment, PieceId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{SizedGarment, is_symmetrical};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::PAIR_SAME, &catalogue::PART_FLIP], run: Run::PerSize(run) };

fn run(garment: &Garment, sized: &SizedGarment, findings: &mut Vec<Finding>) {
    let mut told: Vec<PieceId> = Vec::new();
    for row in &sized.cut_list {
        let piece = garment.piece(row.part.piece);
        if row.flipped
            && let Some(span) = piece.never_flipped
        {
            let layer = &garment.layer(row.part.layer).name;
            let title =
                format!("{} must be turned over to be cut for {layer}, which it may not be", piece.title);
            let mistake = Diagnostic::new(&catalogue::PART_FLIP, span, title)
                .label("never turned")
                .also(garment.layer(row.part.layer).span, "its second layer")
                .help(format!(
                    "cut {0} in pairs (cut 2 mirrored), draw a piece of its own for {layer}, or let it be turned",
                    piece.name
                ));
            findings.push(Finding::new(sized.size, 0.0, mistake).about(&**layer));
        }
        if row.how != CutHow::Alike || row.copies < 2 || told.contains(&row.part.piece) {
            continue;
        }
        let Some(Some(drawn)) = sized.papers.get(row.part.paper.index()) else { continue };
        if is_symmetrical(drawn) {
            continue;
        }
        told.push(row.part.piece);
        let title = format!(
            "{} is shaped, and all {} of it are cut the same way round",
            words::piece(garment, row.part.piece),
            row.copies
        );
        let even = row.copies - row.copies % 2;
        let mistake = Diagnostic::new(&catalogue::PAIR_SAME, piece.cut.span, title)
            .label("no left and right")
            .help(format!("write cut {} mirrored, so that half of them are turned over", even.max(2)));
        findings.push(Finding::new(sized.size, 0.0, mistake));
    }
}
