//! One size in, one drawn garment out.

mod model;

pub use model::*;

/// STUB until the room lands.
#[derive(Debug)]
pub struct Resolved {
    pub sizes: Vec<SizedGarment>,
    pub findings: Vec<crate::report::Finding>,
}
/// STUB
pub fn resolve(_garment: &crate::garment::Garment) -> Resolved {
    Resolved { sizes: Vec::new(), findings: Vec::new() }
}
