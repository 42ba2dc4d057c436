//! `cloth/selvage`: a cloth that is knitted round and is said to have selvages.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_SELVAGE], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for fabric in garment.fabrics.iter().filter(|fabric| fabric.tubular) {
        let (Some(width), Some(said)) = (&fabric.width, &fabric.selvage) else { continue };
        let Some(selvage) = amount_of(garment, sized, said).filter(|selvage| *selvage > 0.0) else {
            continue;
        };
        let selvage = amount(selvage, garment.unit);
        let title = format!("{} is a tube, and a tube has no selvages", fabric.name);
        let warning = Diagnostic::new(&catalogue::CLOTH_SELVAGE, said.span, title)
            .label(format!("{selvage} each side, which is not taken off"))
            .also(width.span, "a tube, as it lies flat")
            .help("leave the selvage out; or leave tubular out, and give the width as the cloth lies open");
        findings.push(Finding::new(sized.size, 0.0, warning).about(&*fabric.name));
    }
}
