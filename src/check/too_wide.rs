//! `cutting/too-wide`: an allowance for which there is no room.

use super::{Check, Run};
use crate::cutting::too_wide;
use crate::garment::Garment;
use crate::report::{Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CUTTING_TOO_WIDE], run: Run::Sewn(run) };

/// What the cutting lines themselves come up against.
fn run(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, findings: &mut Vec<Finding>) {
    findings.extend(too_wide(garment, sized, sewing));
}
