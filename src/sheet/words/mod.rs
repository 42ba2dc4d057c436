//! The table of words: all that a sheet says of its steps, in each language one file. Sentences are patterns with named
//! slots, so that a language orders its words as it likes; what a maker calls things stays in the maker's words.
//!
//! Another language is one more file beside `english`, a line in [`Words::of`] and one in [`Language`].

mod cautions;
mod english;
mod forms;
mod german;
mod glossary;
mod measuring;
mod pattern;

pub use cautions::{Caution, CautionWords};
pub use forms::SentenceForms;
pub use glossary::{Glossary, Term};
pub use measuring::MeasuringWords;
pub use pattern::{Pattern, PatternPart, parts};

use super::{Language, Text};

/// All words of one language.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// Sentences and short facts.
    pub sentences: SentenceForms,
    /// Trade terms.
    pub glossary: Glossary,
    /// How the body is measured.
    pub measuring: MeasuringWords,
    /// What is to be minded.
    pub cautions: CautionWords,
    /// Stitches by their number in ISO 4915.
    pub stitches: &'static [(u16, &'static str)],
    /// Words for a seam: a maker's name that ends with one is not told twice that it is a seam.
    pub seam: &'static [&'static str],
    /// The same for an edge.
    pub edge: &'static [&'static str],
    /// The same for a zip.
    pub zip: &'static [&'static str],
    /// The same for a cord.
    pub cord: &'static [&'static str],
    /// The same for a line.
    pub line: &'static [&'static str],
    /// The same for a dart, a pleat or a tuck.
    pub take_up: &'static [&'static str],
}

impl Words {
    /// Of a language.
    pub fn of(language: Language) -> &'static Words {
        match language {
            Language::English => &english::WORDS,
            Language::German => &german::WORDS,
        }
    }

    /// The trade's word for a stitch, where there is one.
    pub fn stitch(&self, number: u16) -> Option<&'static str> {
        self.stitches.iter().find(|(own, _)| *own == number).map(|(_, word)| *word)
    }

    /// "a, b and c".
    pub fn list(&self, all: impl IntoIterator<Item = Text>) -> Text {
        let all: Vec<Text> = all.into_iter().collect();
        let last = all.len().saturating_sub(1);
        let mut list = Text::default();
        for (at, one) in all.into_iter().enumerate() {
            if at > 0 {
                let between = if at == last { self.sentences.and() } else { self.sentences.comma() };
                list.0.extend(between.0);
            }
            list.0.extend(one.0);
        }
        list
    }
}
