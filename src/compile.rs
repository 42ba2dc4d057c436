//! The whole journey, from a file's name to a compiled garment and its report.

use crate::garment::{Garment, load, merge};
use crate::report::{Diagnostic, Severity};
use crate::resolve::SizedGarment;
use crate::source::{Loader, SourceMap};

/// A compiled garment and everything that is to be said of it.
#[derive(Clone, Debug, Default)]
pub struct Compiled {
    /// Every text that was read, the first file first.
    pub map: SourceMap,
    /// The garment, as far as it could be made sense of.
    pub garment: Garment,
    /// In the garment's order.
    pub sizes: Vec<SizedGarment>,
    /// Every message, in order.
    pub diagnostics: Vec<Diagnostic>,
}

impl Compiled {
    /// Whether the garment cannot be cut or sewn as it stands.
    pub fn has_mistakes(&self) -> bool {
        self.diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Mistake)
    }
}

/// Compiles the file of that name, and what it is made of.
pub fn compile(loader: &dyn Loader, path: &str) -> Compiled {
    let mut compiled = Compiled::default();
    let merged = merge(load(loader, &mut compiled.map, path));
    compiled.garment.title = merged.title;
    compiled.diagnostics = merged.mistakes;
    compiled
}
