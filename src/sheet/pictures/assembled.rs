//! The garment, its pieces laid together flat.

use super::canvas::Panel;
use super::making::Making;

/// The scenes.
pub fn garment(_making: &Making) -> Vec<Panel> {
    Vec::new()
}
