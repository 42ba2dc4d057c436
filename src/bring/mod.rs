//! A pattern that is already drawn comes in: from a plotter's file, a vector drawing or traced points to a garment
//! text that a person goes on with.
//!
//! Each format has a reader that makes [`traced::Traced`] of its bytes and understands nothing more. What comes after
//! is one for all: corners are found and matched over the sizes, curves fitted, edges named, the text written.

pub mod read;
pub mod traced;

mod error;

pub use error::BringError;
pub use read::{ReadOptions, SizesFrom};
