//! Names found, units known, the variation merged, and the plan made.
//!
//! After this room nothing is looked up by name: every name is an id, every expression has its
//! dimension, and the [`Plan`] says in which order a size is worked out.

mod causes;
mod chain;
mod circle;
mod lower;
mod merge;
mod model;
mod order;
mod pack;
mod plan;
mod short;

pub(crate) use causes::with_name;
pub use causes::{Cause, Causes, Texts, Told, causes};
pub(crate) use chain::load_again;
pub use chain::{ChainFile, FileKind, Link, LinkWord, LoadedChain, load};
pub use lower::{Lowered, NamesUsed, lower};
pub use merge::{Declaration, Dropped, Merged, merge, via_variation};
pub use model::*;
pub use pack::pack;
pub use plan::{Planned, plan};
pub use short::expand;
