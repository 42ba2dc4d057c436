//! `cloth/shrinks`: a cloth that is said to shrink to nothing, or nearly so.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::limits;
use crate::report::{Diagnostic, Finding, catalogue, percent};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_SHRINKS], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for fabric in &garment.fabrics {
        for (way, share) in [("along", &fabric.shrink.along), ("across", &fabric.shrink.across)] {
            let Some(share) = share else { continue };
            let Some(shrinks) = amount_of(garment, sized, share).filter(|shrinks| *shrinks > limits::SHRINKS)
            else {
                continue;
            };
            let title =
                format!("{} shrinks by {} {way}, which leaves almost nothing", fabric.name, percent(shrinks));
            let mistake = Diagnostic::new(&catalogue::CLOTH_SHRINKS, share.span, title)
                .label(percent(shrinks))
                .help(match shrinks > 1.0 {
                    true => "a share is written with its sign: 3% for three hundredths; 3 alone is three times as much",
                    false => "write by which share of itself it becomes shorter in the wash: 2 to 5 % of most cloths",
                });
            findings.push(Finding::new(sized.size, shrinks, mistake).about(format!("{} {way}", fabric.name)));
        }
    }
}
