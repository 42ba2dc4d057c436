//! What is to be minded, by the slug of the garment's cautions: what it is about, the rule that is named, and that the law where
//! it is sold decides.

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
    /// `caution/cord`
    pub cord: Caution,
    /// `caution/small-parts`
    pub small_parts: Caution,
    /// `caution/flame`
    pub flame: Caution,
    /// What holds of all of them.
    pub law: &'static str,
}

impl CautionWords {
    /// The caution of a slug.
    pub fn caution(&self, slug: &str) -> Option<Caution> {
        match slug {
            "caution/cord" => Some(self.cord),
            "caution/small-parts" => Some(self.small_parts),
            "caution/flame" => Some(self.flame),
            _ => None,
        }
    }

    /// All of them, each with its slug.
    pub fn all(&self) -> [(&'static str, Caution); 3] {
        [
            ("caution/cord", self.cord),
            ("caution/small-parts", self.small_parts),
            ("caution/flame", self.flame),
        ]
    }
}
