//! `hem/turn-up`: a turn-up that does not cover the row that sews its hem.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment, Hem};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, at_most, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_TURN_UP], run: Run::PerSize(run) };

/// Rounding leaves no more than this, in millimetres.
const NOISE: f64 = 1e-6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for finish in &garment.finishes {
        let FinishKind::Hem(Hem { depth, turn_up: Some(turn_up), .. }) = &finish.kind else { continue };
        let (Some(deep), Some(up)) = (amount_of(garment, sized, depth), amount_of(garment, sized, turn_up))
        else {
            continue;
        };
        // Less than nothing is reported as that.
        if deep < 0.0 || up < 0.0 || (up > NOISE && deep <= up + NOISE) {
            continue;
        }
        let unit = garment.unit;
        let (hem, up_words) = (amount(deep, unit), amount(up, unit));
        let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        let warning = if up <= NOISE {
            let title = Title::new(format!("the turn-up of {edge} is 0 deep")).in_sizes();
            Diagnostic::new(&catalogue::HEM_TURN_UP, turn_up.span, title)
                .label("nothing is folded up")
                .help("say how deep it is, or leave turn-up out")
        } else {
            let title =
                Title::new(format!("the turn-up of {edge} is {up_words} deep, its hem {hem}")).in_sizes();
            Diagnostic::new(&catalogue::HEM_TURN_UP, turn_up.span, title)
                .label(format!("its row shows {} above it", amount(deep - up, unit)))
                .also(depth.span, hem.clone())
                .help(format!(
                    "make the turn-up at least {} deep, or the hem no deeper than {}",
                    at_least(deep, unit),
                    at_most(up, unit)
                ))
        };
        findings.push(
            Finding::new(sized.size, deep - up, warning).figure("hem", hem).figure("turn-up", up_words),
        );
    }
}
