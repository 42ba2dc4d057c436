//! `cutting/too-wide` and `hem/corner`: an allowance for which there is no room, and a hem's end that
//! sticks out when it is turned.

use super::{Check, Run};
use crate::cutting::{WorkedSize, too_wide};
use crate::garment::Garment;
use crate::report::{Finding, catalogue};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::CUTTING_TOO_WIDE, &catalogue::HEM_CORNER], run: Run::PerSize(run) };

/// What the cutting lines themselves come up against.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    findings.extend(too_wide(garment, size));
}
