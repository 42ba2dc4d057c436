//! Amounts that are sought until a closure fits.

use super::Lowering;
use crate::garment::{ClosureId, ClosureKind, Until};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::HashMap;

impl Lowering<'_> {
    /// Two alterations that both seek one closure's length: reported, and the second made poison.
    pub(super) fn check_untils(&mut self) {
        let mut seen: HashMap<ClosureId, Span> = HashMap::new();
        for at in 0..self.garment.alterations.len() {
            let Some(&Until { closure, span, .. }) = self.garment.alterations[at].until() else { continue };
            let zipper =
                matches!(self.garment.closure(closure).kind, Some(ClosureKind::Zipper { .. }) | None);
            let name = self.garment.closure(closure).name.clone();
            if let Some(&first) = seen.get(&closure) {
                let title = format!("{name} is made to fit twice; only one alteration can be found for it");
                let diagnostic = Diagnostic::new(&catalogue::SOLVE_MANY, span, title)
                    .label("again here")
                    .also(first, "first here")
                    .help("give one of the two its amount: by …");
                self.report(diagnostic);
                self.poison_alteration(at);
            } else if !zipper {
                let with = match &self.garment.closure(closure).kind {
                    Some(ClosureKind::Fasteners(row)) => row.kind.many(),
                    _ => "buttons",
                };
                let title = format!("{name} has {with}, which fit any length; `until` is for zips");
                self.report(Diagnostic::new(&catalogue::SOLVE_NONE, span, title).help("say how much: by …"));
                self.poison_alteration(at);
            }
            seen.entry(closure).or_insert(span);
        }
    }
}
