//! The whole journey, from a file's name to a compiled garment and its report.

use crate::garment::{self, Garment};
use crate::report::{Diagnostic, Severity, group};
use crate::resolve::{Resolved, SizedGarment, resolve};
use crate::source::{Loader, SourceMap};

/// A compiled garment and everything that is to be said of it.
#[derive(Debug)]
pub struct Compiled {
    /// Every text of the chain.
    pub map: SourceMap,
    /// The garment, names found and units known.
    pub garment: Garment,
    /// The garment in each size, smallest first.
    pub sizes: Vec<SizedGarment>,
    /// Mistakes, warnings, advice and cautions, in the order of the text.
    pub diagnostics: Vec<Diagnostic>,
}

impl Compiled {
    /// Whether it can be cut and sewn.
    pub fn is_sound(&self) -> bool {
        !self.diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Mistake)
    }
}

/// Compiles the garment in the file at `path`, with its bases and libraries.
///
/// Never fails: what cannot be made sense of is told in the diagnostics, and the rest is worked
/// out as far as it goes.
pub fn compile(loader: &dyn Loader, path: &str) -> Compiled {
    let mut map = SourceMap::default();
    let chain = garment::load(loader, &mut map, path);
    let merged = garment::merge(chain);
    let (mut garment, lowered) = garment::lower(&map, &merged);
    let (plan, circles) = garment::plan(&garment);
    garment.plan = plan;
    let Resolved { sizes, findings } = resolve(&garment);
    let names: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let found = group(findings, &names);
    let checked = crate::check::check(&garment, &sizes);
    let mut diagnostics: Vec<Diagnostic> = merged.mistakes.clone();
    for diagnostic in lowered.into_iter().chain(circles).chain(found).chain(checked) {
        diagnostics.push(garment::via_variation(&merged, &map, diagnostic));
    }
    diagnostics.sort_by_key(|diagnostic| diagnostic.span().lo);
    Compiled { map, garment, sizes, diagnostics }
}
