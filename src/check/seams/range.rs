//! `seam/range`: a fit whose most is less than its least.

use crate::check::{Check, Run};
use crate::garment::{Fit, Garment};
use crate::report::{Diagnostic, Finding, amount, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::amount_of;
use crate::syntax::tree::FitKind;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_RANGE], run: Run::PerSize(run) };

fn run(garment: &Garment, sized: &SizedGarment, findings: &mut Vec<Finding>) {
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        let Some(Fit { kind, low, high, .. }) = &seam.fit else { continue };
        let (Some(least), Some(most)) = (amount_of(garment, sized, low), amount_of(garment, sized, high))
        else {
            continue;
        };
        if least <= most {
            continue;
        }
        let shown = |value: f64| match kind {
            FitKind::Easing => amount(value, garment.unit),
            FitKind::Gathering => format!("{} times", (value * 100.0).round() / 100.0),
            FitKind::Stretching => percent(value),
        };
        let word = match kind {
            FitKind::Easing => "easing",
            FitKind::Gathering => "gathering",
            FitKind::Stretching => "stretching",
        };
        let title =
            format!("the {word} of the {} seam is said from the most to the least {{sizes}}", seam.name);
        let mistake = Diagnostic::new(&catalogue::SEAM_RANGE, high.span, title)
            .label(format!("at most {}", shown(most)))
            .also(low.span, format!("at least {}", shown(least)))
            .help(format!("write the lesser first, from {} to {}", shown(most), shown(least)));
        findings.push(Finding::new(sized.size, least - most, mistake).about(seam.name.to_string()));
    }
}
