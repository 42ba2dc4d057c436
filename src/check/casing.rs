//! `casing/narrow`: elastic that is wider than the casing it is to run through.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CASING_NARROW], run: Run::PerSize(run) };

/// Rounding leaves no more than this, in millimetres.
const NOISE: f64 = 1e-6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for finish in &garment.finishes {
        let FinishKind::Casing(depth, Some((width, _))) = &finish.kind else { continue };
        let (Some(deep), Some(wide)) = (amount_of(garment, sized, depth), amount_of(garment, sized, width))
        else {
            continue;
        };
        // Less than nothing is told as that.
        if deep < 0.0 || wide <= deep + NOISE {
            continue;
        }
        let unit = garment.unit;
        let (deep, wide) = (amount(deep, unit), amount(wide, unit));
        let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        let title =
            Title::new(format!("elastic {wide} wide does not go into the casing of {edge}, which is {deep}"))
                .in_sizes();
        let mistake = Diagnostic::new(&catalogue::CASING_NARROW, width.span, title)
            .label(wide.clone())
            .also(depth.span, deep.clone())
            .help(format!(
                "make the casing at least {wide}, and a little more so that the elastic runs freely; or take a \
                 narrower elastic"
            ));
        findings.push(Finding::new(sized.size, 0.0, mistake).figure("casing", deep).figure("elastic", wide));
    }
}
