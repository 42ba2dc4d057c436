//! Fustian: a plain-text garment description language and its compiler.
//!
//! The library is pure: it reads text through a [`source::Loader`], and gives back a compiled
//! garment and a report. It never touches a disk, a clock or the environment.
//! Data goes one way through the rooms: source → syntax → garment → resolve → sewing → cutting →
//! check → emit; `DEVELOPERS.md` tells what each holds.

pub mod check;
pub mod cutting;
pub mod editor;
pub mod emit;
pub mod garment;
pub mod lay;
pub mod limits;
pub mod materials;
pub mod report;
pub mod resolve;
pub mod sewing;
pub mod shape;
pub mod source;
pub mod syntax;

mod compile;
mod id;
pub use compile::{Compiled, compile, packed};
