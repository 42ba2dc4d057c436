//! `fused/copies`: interfacing of some of the copies of a piece, in a number that the piece has not.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment};
use crate::report::{Diagnostic, Finding, Title, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FUSED_COPIES], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for row in &size.drawn.cut_list {
        let layer = garment.layer(row.part.layer);
        let Some(share) = layer.share else { continue };
        let Some(drawn) = size.drawn.paper(row.part.paper) else { continue };
        let (title, name) = (words::piece(garment, drawn.piece), &garment.piece(drawn.piece).name);
        let said = format!("{} of {}", share.fused, share.of);
        let is_paired = drawn.cut == CutHow::Mirrored;
        let many = drawn.count;
        let (title, help) = if share.fused >= share.of {
            (
                format!("{said} is all of them: {} is fused on every copy", layer.name),
                "write fused alone, or a smaller number in front".to_owned(),
            )
        } else if share.of != many {
            let cut = if many == 1 { "once".to_owned() } else { format!("{many} times") };
            let help = match many {
                1 => format!(
                    "write cut {} in {name}; or, where one is cut in each of two layers, fused to the layer that is meant",
                    share.of
                ),
                _ => format!(
                    "write fused {} of {many}; or put {name} into a fused layer of its own",
                    share.fused.min(many.saturating_sub(1))
                ),
            };
            (format!("{title} is cut {cut}, and {} is fused on {said} of it", layer.name), help)
        } else if is_paired && share.fused % 2 == 1 {
            (
                format!(
                    "{title} is cut in pairs, and {} is fused on {said} of it: on left ones or on right ones?",
                    layer.name
                ),
                format!(
                    "fuse whole pairs; or draw what is fused by itself: piece {name}_stay \"…\" {{ cut {}; outline copy of {name} }}",
                    share.fused
                ),
            )
        } else {
            continue;
        };
        let mistake = Diagnostic::new(&catalogue::FUSED_COPIES, share.span, Title::new(title).in_sizes())
            .label(said)
            .also(garment.piece(drawn.piece).cut.span, "cut so many times")
            .help(help);
        let about = format!("{} {name}", layer.name);
        findings
            .push(Finding::new(size.drawn.size, f64::from(share.of.abs_diff(many)), mistake).about(about));
    }
}
