//! Every slug: how much it matters, what it is called, and why the trade minds.

/// Declares the entries of one part of the catalogue, and the list of them. An entry is named as its
/// slug is: `SEAM_UNEQUAL` is `seam/unequal`.
macro_rules! catalogue_entries {
    ($($name:ident = $severity:ident($slug:literal, $title:literal, $reason:expr $(,)?);)*) => {
        $(
            #[doc = concat!("`", $slug, "`: ", $title, ".")]
            pub static $name: Entry = $severity($slug, $title, $reason);
        )*

        pub(super) static ENTRIES: &[&Entry] = &[$(&$name),*];
    };
}

mod alteration;
mod cloth;
mod darts;
mod drawing;
mod elastic;
mod ends;
mod fastening;
mod finishing;
mod fitting;
mod placing;
mod pleats;
mod runs;
mod sewing;
mod short;
mod sides;
mod slits;
mod steps;
mod stitched;
mod text;

use super::Severity;
use std::hash::{Hash, Hasher};

pub use alteration::*;
pub use cloth::*;
pub use darts::*;
pub use drawing::*;
pub use elastic::*;
pub use ends::*;
pub use fastening::*;
pub use finishing::*;
pub use fitting::*;
pub use placing::*;
pub use pleats::*;
pub use runs::*;
pub use sewing::*;
pub use short::*;
pub use sides::*;
pub use slits::*;
pub use steps::*;
pub use stitched::*;
pub use text::*;

/// One kind of message: what it is called, how much it matters, and why. Every diagnostic is made from
/// its entry, so that no two places can disagree.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct Entry {
    /// `seam/unequal`; no other entry has it.
    pub slug: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// One line.
    pub title: &'static str,
    /// The trade's reason and the usual way out, a short paragraph.
    pub reason: &'static str,
}

impl Entry {
    /// What stands before the slash: `seam`, `syntax`.
    pub fn family(&self) -> &'static str {
        self.slug.split_once('/').map_or(self.slug, |(family, _)| family)
    }
}

impl PartialEq for Entry {
    fn eq(&self, other: &Self) -> bool {
        self.slug == other.slug
    }
}

impl Eq for Entry {}

impl Hash for Entry {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.slug.hash(state);
    }
}

/// The whole catalogue, in the order in which a garment is worked out.
pub fn entries() -> impl Iterator<Item = &'static Entry> {
    [
        text::ENTRIES,
        fitting::ENTRIES,
        drawing::ENTRIES,
        darts::ENTRIES,
        pleats::ENTRIES,
        slits::ENTRIES,
        short::ENTRIES,
        stitched::ENTRIES,
        alteration::ENTRIES,
        runs::ENTRIES,
        sewing::ENTRIES,
        elastic::ENTRIES,
        steps::ENTRIES,
        fastening::ENTRIES,
        ends::ENTRIES,
        sides::ENTRIES,
        finishing::ENTRIES,
        placing::ENTRIES,
        cloth::ENTRIES,
    ]
    .into_iter()
    .flatten()
    .copied()
}

/// The entry of that slug.
pub fn entry(slug: &str) -> Option<&'static Entry> {
    entries().find(|entry| entry.slug == slug)
}

impl Severity {
    /// "mistake", "warning", "advice", "caution".
    pub fn word(self) -> &'static str {
        match self {
            Severity::Mistake => "mistake",
            Severity::Warning => "warning",
            Severity::Advice => "advice",
            Severity::Caution => "caution",
        }
    }

    /// The word after that number: "1 mistake", "2 mistakes", "3 pieces of advice".
    pub fn counted(self, count: usize) -> String {
        let word = match (self, count) {
            (Severity::Mistake, 1) => "mistake",
            (Severity::Mistake, _) => "mistakes",
            (Severity::Warning, 1) => "warning",
            (Severity::Warning, _) => "warnings",
            (Severity::Advice, 1) => "piece of advice",
            (Severity::Advice, _) => "pieces of advice",
            (Severity::Caution, 1) => "caution",
            (Severity::Caution, _) => "cautions",
        };
        format!("{count} {word}")
    }
}

const fn mistake(slug: &'static str, title: &'static str, reason: &'static str) -> Entry {
    Entry { slug, severity: Severity::Mistake, title, reason }
}

const fn warning(slug: &'static str, title: &'static str, reason: &'static str) -> Entry {
    Entry { slug, severity: Severity::Warning, title, reason }
}

const fn advice(slug: &'static str, title: &'static str, reason: &'static str) -> Entry {
    Entry { slug, severity: Severity::Advice, title, reason }
}

const fn caution(slug: &'static str, title: &'static str, reason: &'static str) -> Entry {
    Entry { slug, severity: Severity::Caution, title, reason }
}
