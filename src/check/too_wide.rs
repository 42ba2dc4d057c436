//! `cutting/too-wide` and `hem/corner`: an allowance for which there is no room, and a hem's end that
//! sticks out when it is turned.

use super::{Check, Run};
use crate::cutting::too_wide;
use crate::garment::Garment;
use crate::report::{Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::CUTTING_TOO_WIDE, &catalogue::HEM_CORNER], run: Run::Sewn(run) };

/// What the cutting lines themselves come up against.
fn run(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, findings: &mut Vec<Finding>) {
    findings.extend(too_wide(garment, sized, sewing));
}
