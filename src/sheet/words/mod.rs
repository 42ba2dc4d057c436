//! The table of words: all that a sheet says, in each language one file. Sentences are patterns with named slots, so that a
//! language orders its words as it likes; what a maker calls things stays in the maker's words.
//!
//! Another language is one more folder beside `english` and one line in the list of [`Language`]s below.

mod cautions;
mod forms;
mod glossary;
mod labels;
mod measuring;
mod pattern;

pub use cautions::{Caution, CautionWords};
pub use forms::SentenceForms;
pub use glossary::{Glossary, Term};
pub use labels::{Labels, NumberWords, PhaseWords};
pub use measuring::MeasuringWords;
pub use pattern::{Pattern, PatternPart, parts};

use super::Text;
use crate::report::catalogue::Entry;

/// Declares the languages: each has its file, its name and tag, and its words.
macro_rules! languages {
    ($($(#[$doc:meta])* $language:ident: $file:ident, $name:literal, $tag:literal;)*) => {
        $(mod $file;)*

        /// A language that a sheet is written in.
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
        pub enum Language {
            $($(#[$doc])* $language,)*
        }

        impl Language {
            /// All of them.
            pub const ALL: &'static [Language] = &[$(Language::$language),*];

            /// What it is called by who chooses it: `english`.
            pub fn name(self) -> &'static str {
                match self {
                    $(Language::$language => $name,)*
                }
            }

            /// As BCP 47 calls it: `en`, `de`.
            pub fn tag(self) -> &'static str {
                match self {
                    $(Language::$language => $tag,)*
                }
            }
        }

        impl Words {
            /// Of a language.
            pub fn of(language: Language) -> &'static Words {
                match language {
                    $(Language::$language => &$file::WORDS,)*
                }
            }
        }
    };
}

languages! {
    /// English.
    #[default]
    English: english, "english", "en";
    /// German.
    German: german, "german", "de";
}

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
    /// What warnings are about, by their slugs; none in the language that messages are written in.
    pub warnings: &'static [(&'static Entry, &'static str)],
    /// The fixed words of the page.
    pub labels: Labels,
    /// What groups of steps are called that are worked out.
    pub phases: PhaseWords,
    /// How numbers are written.
    pub numbers: NumberWords,
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
    /// The same for a slit.
    pub slit: &'static [&'static str],
}

impl Words {
    /// What a warning of that slug is about; none where the message itself is told.
    pub fn warning(&self, slug: &str) -> Option<&'static str> {
        self.warnings.iter().find(|(own, _)| own.slug == slug).map(|(_, words)| *words)
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
