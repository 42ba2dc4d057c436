//! One compiled text after another: what is said of the newest, and the last garment that was sound.

use super::lays::{LayView, lays};
use crate::compile::Compiled;
use crate::cutting::{Cutting, WorkedSize, cut_unfinished};
use crate::garment::{Garment, SizeId};
use crate::report::{Diagnostic, group};
use crate::sheet::{Choices, NoSheet, sheet};
use crate::source::Span;
use indexmap::IndexMap;
use std::sync::{Arc, Mutex, OnceLock};

/// The live view of one file, at one moment. A new one is made of it with every text.
#[derive(Clone, Debug)]
pub struct Preview {
    /// Tells one run of the program from the next.
    pub(super) run: Arc<str>,
    /// The file as it was named.
    pub(super) file: Arc<str>,
    /// Counts the texts.
    pub(super) serial: u64,
    /// The newest text.
    pub(super) newest: Arc<Compiled>,
    /// What is shown of it, or of an earlier one.
    pub(super) shown: Arc<Shown>,
}

/// A garment that is shown.
#[derive(Debug)]
pub struct Shown {
    /// The text that it comes from.
    pub(super) serial: u64,
    /// All of it.
    pub(super) compiled: Arc<Compiled>,
    /// Where there never was a sound one: what can be shown of a draft.
    unfinished: Option<(Garment, Vec<Cutting>)>,
    /// Lays that were asked for.
    lays: Mutex<IndexMap<SizeId, Arc<OnceLock<LayView>>>>,
    /// The sheet, without lays and with them.
    sheets: [OnceLock<Result<String, NoSheet>>; 2],
}

impl Preview {
    /// Of the first text. `run` is another one in every run of the program.
    pub fn new(run: &str, file: &str, first: Compiled) -> Self {
        let newest = Arc::new(first);
        let shown = Arc::new(Shown::new(0, newest.clone(), !is_sound(&newest)));
        Preview { run: run.into(), file: file.into(), serial: 0, newest, shown }
    }

    /// Of the next text; none where nothing has changed.
    pub fn next(&self, compiled: Compiled) -> Option<Preview> {
        if self.newest.map.files().iter().map(read).eq(compiled.map.files().iter().map(read))
            // Where a base cannot be had, another reason is news.
            && self.newest.diagnostics.iter().map(told).eq(compiled.diagnostics.iter().map(told))
        {
            return None;
        }
        let (serial, newest) = (self.serial + 1, Arc::new(compiled));
        // A draft that was never sound is followed as it is.
        let (sound, never) = (is_sound(&newest), self.shown.unfinished.is_some());
        let shown = match sound || never {
            true => Arc::new(Shown::new(serial, newest.clone(), !sound)),
            false => self.shown.clone(),
        };
        Some(Preview { serial, newest, shown, ..self.clone() })
    }

    /// Counts the texts, from 0.
    pub fn serial(&self) -> u64 {
        self.serial
    }
}

fn told(one: &Diagnostic) -> (&'static str, &str, Span) {
    (one.slug(), one.title.as_str(), one.span())
}

fn read(file: &crate::source::SourceFile) -> (&str, &str) {
    (&file.name, &file.text)
}

/// Whether it can be cut and sewn.
fn is_sound(compiled: &Compiled) -> bool {
    !compiled.has_mistakes() && compiled.sizes.iter().any(|size| !size.drawn.cut_list.is_empty())
}

impl Shown {
    fn new(serial: u64, compiled: Arc<Compiled>, is_unfinished: bool) -> Self {
        let unfinished = is_unfinished
            .then(|| cut_unfinished(&compiled.garment, &compiled.sizes.iter().collect::<Vec<_>>()));
        Shown { serial, compiled, unfinished, lays: Mutex::default(), sheets: Default::default() }
    }

    /// Whether it is a draft that was never sound.
    pub(super) fn is_unfinished(&self) -> bool {
        self.unfinished.is_some()
    }

    /// The garment.
    pub(super) fn garment(&self) -> &Garment {
        self.unfinished.as_ref().map_or(&self.compiled.garment, |(garment, _)| garment)
    }

    /// All sizes.
    pub(super) fn sizes(&self) -> &[WorkedSize] {
        &self.compiled.sizes
    }

    /// What is cut of the size at that place.
    pub(super) fn cut(&self, at: usize) -> Option<&Cutting> {
        match &self.unfinished {
            Some((_, cuts)) => cuts.get(at),
            None => self.sizes().get(at).map(|size| size.cut(&self.compiled.garment)),
        }
    }

    /// What is to be said of the cutting lines of those sizes.
    pub(super) fn unfit(&self, sizes: &[usize]) -> Vec<Diagnostic> {
        if self.is_unfinished() {
            return Vec::new();
        }
        let names: Vec<String> = self.garment().sizes.iter().map(|size| size.name.to_string()).collect();
        let cuts = sizes.iter().filter_map(|&at| self.cut(at));
        group(cuts.flat_map(|cut| cut.findings.clone()).collect(), &names)
    }

    /// The place of the size of that name.
    pub(super) fn size_called(&self, name: &str) -> Option<usize> {
        let mut sizes = self.sizes().iter();
        sizes.position(|size| *self.garment().size(size.id()).name == *name)
    }

    /// The sheet of all sizes, written once; with lays that takes some seconds.
    pub(super) fn sheet(&self, with_lays: bool) -> Result<&str, &NoSheet> {
        let choices = Choices { without_lays: !with_lays, ..Choices::default() };
        let written =
            self.sheets[usize::from(with_lays)].get_or_init(|| sheet(&self.compiled, &choices, &|| ()));
        written.as_deref()
    }

    /// The lays of a size, each cloth's, searched for once; whoever asks meanwhile waits.
    pub(super) fn lays(&self, size: &WorkedSize) -> Option<LayView> {
        let found = self.lays.lock().ok()?.entry(size.id()).or_default().clone();
        Some(found.get_or_init(|| lays(self.garment(), size)).clone())
    }
}
