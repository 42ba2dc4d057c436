//! What is to be minded, by the slug of the garment's cautions: what it is about, the rule that is named, and that the law where
//! it is sold decides.

use crate::report::catalogue;

/// One caution in words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What it is about.
    pub title: &'static str,
    /// What is to be done.
    pub text: &'static str,
    /// The rule, by its name.
    pub rule: &'static str,
}

/// All cautions in one language.
#[derive(Clone, Copy, Debug)]
pub struct CautionWords {
    /// Cords where they may catch.
    pub cord: Caution,
    /// What a child may swallow.
    pub small_parts: Caution,
    /// Nightwear that may burn.
    pub flame: Caution,
    /// What holds of all of them.
    pub law: &'static str,
}

impl CautionWords {
    /// The caution of a slug.
    pub fn caution(&self, slug: &str) -> Option<Caution> {
        self.all().into_iter().find(|(own, _)| *own == slug).map(|(_, caution)| caution)
    }

    /// All of them, each with its slug.
    pub fn all(&self) -> [(&'static str, Caution); 3] {
        [
            (catalogue::CAUTION_CORD.slug, self.cord),
            (catalogue::CAUTION_SMALL_PARTS.slug, self.small_parts),
            (catalogue::CAUTION_FLAME.slug, self.flame),
        ]
    }
}
