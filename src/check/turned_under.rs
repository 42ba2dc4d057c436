//! `hem/under`: more turned under than the hem is deep.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment, Hem, HemEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_UNDER], run: Run::PerSize(run) };

/// Rounding leaves no more than this, in millimetres.
const NOISE: f64 = 1e-6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for finish in &garment.finishes {
        let FinishKind::Hem(Hem { depth, raw_edge: HemEdge::TurnedUnder(under), .. }) = &finish.kind else {
            continue;
        };
        let (Some(deep), Some(turned)) = (amount_of(garment, sized, depth), amount_of(garment, sized, under))
        else {
            continue;
        };
        // Less than nothing is reported as that.
        if deep < 0.0 || turned <= deep + NOISE {
            continue;
        }
        let unit = garment.unit;
        let (hem, turned_under) = (amount(deep, unit), amount(turned, unit));
        let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        let title =
            Title::new(format!("{turned_under} are turned under at {edge}, where the hem is {hem} deep"))
                .in_sizes();
        let mistake = Diagnostic::new(&catalogue::HEM_UNDER, under.span, title)
            .label(format!("comes out of the hem by {}", amount(turned - deep, unit)))
            .also(depth.span, hem.clone())
            .help(format!(
                "turn under no more than {hem}; or did you mean hem {} turned under {}?",
                words::written(&turned_under),
                words::written(&hem)
            ));
        findings.push(
            Finding::new(sized.size, turned - deep, mistake)
                .figure("hem", hem)
                .figure("turned under", turned_under),
        );
    }
}
