//! The whole journey, from a file's name to a compiled garment and its report.

use crate::check::check;
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Merged, load, lower, merge, pack, plan, via_variation};
use crate::report::{Diagnostic, Severity, group};
use crate::resolve::{Resolved, resolve};
use crate::source::{Loader, SourceMap};
use crate::syntax::tree::StatementNode;
use rayon::prelude::*;

/// A compiled garment and everything that is to be said of it.
#[derive(Clone, Debug, Default)]
pub struct Compiled {
    /// Every text that was read, the first file first.
    pub map: SourceMap,
    /// The garment, as far as it could be made sense of.
    pub garment: Garment,
    /// The garment worked out in each size, smallest first.
    pub sizes: Vec<WorkedSize>,
    /// Mistakes, warnings, advice and cautions: by file, and by place in each.
    pub diagnostics: Vec<Diagnostic>,
}

impl Compiled {
    /// Whether the garment cannot be cut or sewn as it stands.
    pub fn has_mistakes(&self) -> bool {
        self.diagnostics.iter().any(|diagnostic| diagnostic.severity() == Severity::Mistake)
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
    garment.sewing_unread = is_unread(&merged, &lowered, is_sewing);
    garment.steps_unread |= is_unread(&merged, &lowered, |node| matches!(node, StatementNode::Steps(_)));
    let (planned, circles) = plan(&garment);
    garment.plan = planned;
    let Resolved { sizes, findings } = resolve(&garment);
    let names: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let found = group(findings, &names);
    let sizes: Vec<WorkedSize> =
        sizes.into_par_iter().map(|drawn| WorkedSize::new(&garment, drawn)).collect();
    let checked = check(&garment, &sizes);
    let told = merged.mistakes.iter().cloned().chain(lowered).chain(circles).chain(found).chain(checked);
    let mut diagnostics: Vec<Diagnostic> =
        told.map(|diagnostic| via_variation(&merged, &map, diagnostic)).collect();
    diagnostics.sort_by_key(|diagnostic| diagnostic.span().lo);
    Compiled { map, garment, sizes, diagnostics }
}

/// Whether statements of a kind may be lost in what could not be read, or name what could not be
/// found.
fn is_unread(merged: &Merged, lowered: &[Diagnostic], is_kind: impl Fn(&StatementNode) -> bool) -> bool {
    if merged.incomplete || merged.mistakes.iter().any(|one| one.severity() == Severity::Mistake) {
        return true;
    }
    let of_kind = merged.declarations.iter().filter(|one| is_kind(&one.statement.node));
    let mut spans: Vec<(u32, u32)> =
        of_kind.map(|one| (one.statement.span.lo, one.statement.span.hi)).collect();
    spans.sort_unstable();
    lowered.iter().filter(|one| one.severity() == Severity::Mistake).any(|one| {
        let at = one.span().lo;
        let before = spans.partition_point(|&(lo, _)| lo <= at);
        before.checked_sub(1).and_then(|last| spans.get(last)).is_some_and(|&(_, hi)| at < hi)
    })
}

fn is_sewing(node: &StatementNode) -> bool {
    matches!(
        node,
        StatementNode::Seam(_)
            | StatementNode::Finish(_)
            | StatementNode::Place(_)
            | StatementNode::Closure(_)
            | StatementNode::Layer(_)
            | StatementNode::Piece(_)
            | StatementNode::Alteration(_)
    )
}

/// The garment in the file at `path`, with its bases and libraries, as the text of one file that
/// compiles to the same.
///
/// It is only worth having of a garment that compiles without mistakes.
pub fn packed(loader: &dyn Loader, path: &str) -> String {
    let mut map = SourceMap::default();
    let merged = merge(load(loader, &mut map, path));
    let (garment, _) = lower(&map, &merged);
    pack(&map, &merged, &garment)
}
