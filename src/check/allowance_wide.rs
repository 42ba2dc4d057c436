//! `allowance/wide`: a seam allowance so wide that a slip of the unit is more likely.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALLOWANCE_WIDE], run: Run::PerSize(run) };

/// More than this, in millimetres, no seam is left to be let out (common practice: 2 in at most).
const WIDE: f64 = 51.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut look = |said: Option<&Expression>, of: &dyn Fn() -> String| {
        let Some(said) = said else { return };
        let Some(wide) = amount_of(garment, &size.drawn, said).filter(|wide| *wide > WIDE) else { return };
        let is = amount(wide, garment.unit);
        let title = Title::new(format!("{} is {is} wide", of())).in_sizes();
        let warning = Diagnostic::new(&catalogue::ALLOWANCE_WIDE, said.span, title)
            .label("wider than a seam that is let out")
            .help("look at its figure and its unit; what is turned up is said of its edge: finish … hem");
        findings.push(Finding::new(size.id(), wide, warning).figure("wide", is));
    };
    look(garment.allowance.as_ref(), &|| "the allowance".to_owned());
    for piece in &garment.pieces {
        look(piece.allowance.as_ref(), &|| format!("the allowance of {}", piece.title));
    }
    for seam in &garment.seams {
        let said = seam.allowance.as_ref().map(|(said, _)| said);
        look(said, &|| format!("the allowance of {}", seam.words()));
    }
}
