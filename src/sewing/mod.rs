//! How a worked-out size is put together: which copies meet in each seam, what becomes of every
//! edge, its allowance, notches, buttons, and what has to be bought.
//!
//! A pure function of the garment and one size; nothing is judged here: [`crate::check`] does.

mod model;

pub use model::*;
