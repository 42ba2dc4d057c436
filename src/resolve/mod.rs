//! One size in, one drawn garment out.

mod model;

pub use model::*;
