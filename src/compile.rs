//! The whole journey, from a file's name to a compiled garment and its report.

use crate::check::check;
use crate::garment::{Garment, load, lower, merge, plan, via_variation};
use crate::report::{Diagnostic, Severity, group};
use crate::resolve::{Resolved, SizedGarment, resolve};
use crate::source::{Loader, SourceMap};

/// A compiled garment and everything that is to be said of it.
#[derive(Clone, Debug, Default)]
pub struct Compiled {
    /// Every text that was read, the first file first.
    pub map: SourceMap,
    /// The garment, as far as it could be made sense of.
    pub garment: Garment,
    /// The garment in each size, smallest first.
    pub sizes: Vec<SizedGarment>,
    /// Mistakes, warnings, advice and cautions: by file, and by place in each.
    pub diagnostics: Vec<Diagnostic>,
}

impl Compiled {
    /// Whether the garment cannot be cut or sewn as it stands.
    pub fn has_mistakes(&self) -> bool {
        self.diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Mistake)
    }
}

/// Compiles the garment in the file at `path`, with its bases and libraries.
///
/// Never fails: what cannot be made sense of is told in the diagnostics, and the rest is worked
/// out as far as it goes.
pub fn compile(loader: &dyn Loader, path: &str) -> Compiled {
    let mut map = SourceMap::default();
    let merged = merge(load(loader, &mut map, path));
    let (mut garment, lowered) = lower(&map, &merged);
    let (planned, circles) = plan(&garment);
    garment.plan = planned;
    let Resolved { sizes, findings } = resolve(&garment);
    let names: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let found = group(findings, &names);
    let checked = check(&garment, &sizes);
    let told = merged.mistakes.iter().cloned().chain(lowered).chain(circles).chain(found).chain(checked);
    let mut diagnostics: Vec<Diagnostic> =
        told.map(|diagnostic| via_variation(&merged, &map, diagnostic)).collect();
    diagnostics.sort_by_key(|diagnostic| diagnostic.span().lo);
    Compiled { map, garment, sizes, diagnostics }
}
