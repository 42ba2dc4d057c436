//! A pleat or tuck on its way to its place.

use crate::garment::{Piece, Pleat, TakeUp};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Title};
use crate::resolve::sketch::Sketch;
use crate::resolve::work::Work;
use crate::source::Span;

/// A pleat that is being placed.
pub(super) struct Placing<'p, 'g> {
    pub(super) work: &'p Work<'g>,
    pub(super) piece: &'p Piece,
    pub(super) sketch: &'p Sketch,
    pub(super) take_up: &'p TakeUp,
    pub(super) pleat: &'p Pleat,
}

impl<'p> Placing<'p, '_> {
    pub(super) fn name(&self) -> &str {
        &self.work.garment.edge(self.take_up.name).name
    }

    /// Reports something of it.
    pub(super) fn tell(&self, kind: &'static Entry, weight: f64, span: Span, title: String, help: String) {
        self.work.mistake(weight, self.name(), || {
            Diagnostic::new(kind, span, Title::new(title).in_sizes()).help(help)
        });
    }
}
