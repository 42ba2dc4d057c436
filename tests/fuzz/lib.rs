//! Damaged files, what must hold whatever stands in them, and how that is watched.

pub mod garments;
pub mod mutator;
pub mod readers;
pub mod seeds;
pub mod watched;
