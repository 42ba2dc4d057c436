//! Files, spans and pins: the only way to text.
//!
//! One append-only [`SourceMap`] holds every text of a run; a [`Span`] is a pair of offsets into
//! all of them laid end to end, so that a span alone tells its file.

mod loader;
mod map;
mod pin;
mod span;

pub use loader::{LoadError, Loaded, Loader, MemoryLoader};
pub use map::{FileId, SourceFile, SourceMap};
pub use pin::pin_of;
pub use span::Span;
