//! Every slug: how much it matters, what it is called, and why the trade minds.

mod alteration;
mod cloth;
mod drawing;
mod sewing;
mod text;

use super::Severity;

/// One slug of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// `seam/unequal`
    pub slug: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// One line.
    pub title: &'static str,
    /// The trade's reason and the usual way out, a short paragraph.
    pub reason: &'static str,
}

/// The whole catalogue, in the order in which a garment is worked out.
pub fn entries() -> impl Iterator<Item = &'static Entry> {
    [text::ENTRIES, drawing::ENTRIES, alteration::ENTRIES, sewing::ENTRIES, cloth::ENTRIES]
        .into_iter()
        .flatten()
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
