//! Checks: one small file a family.

use crate::garment::Garment;
use crate::report::Diagnostic;
use crate::resolve::SizedGarment;

/// STUB until the room lands.
pub fn check(_garment: &Garment, _sizes: &[SizedGarment]) -> Vec<Diagnostic> {
    Vec::new()
}
