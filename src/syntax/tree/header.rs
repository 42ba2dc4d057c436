use super::{Comparison, Expr, Name, SizeName, Text};
use crate::source::Span;
use std::sync::Arc;

/// `variation "…" of "base.fus" as of 3f2a… with "hood.fus", "zip.fus" without "lining.fus"`
#[derive(Clone, Debug)]
pub struct VariationOf {
    /// What the variation is called.
    pub title: Text,
    /// The base.
    pub base: NamedFile,
    /// What is combined with it, in this order: other variations of that base or of one of its bases, and
    /// libraries that hold an addition.
    pub with: Vec<NamedFile>,
    /// What is taken back of that, relative to this file.
    pub without: Vec<Text>,
}

/// Another file: `"library.fus" as of 3f2a…`
#[derive(Clone, Debug)]
pub struct NamedFile {
    /// Where it is, relative to the file that names it.
    pub path: Text,
    /// Its content, if pinned.
    pub pin: Option<Pin>,
}

/// The digits after `as of`.
#[derive(Clone, Debug)]
pub struct Pin {
    /// Lower-case hexadecimal digits.
    pub digits: Arc<str>,
    /// Where they stand.
    pub span: Span,
}

/// `wearer adult`, `wearer child from 2 to 7 years`, `wearer baby`, each with `, for sleep`.
#[derive(Clone, Debug)]
pub struct Wearer {
    /// Who.
    pub who: Who,
    /// `for sleep`: nightwear.
    pub for_sleep: bool,
}

/// Who wears the garment.
#[derive(Clone, Debug)]
pub enum Who {
    /// `adult`
    Adult,
    /// `baby`: under one year
    Baby,
    /// `child from 2 to 7 years`, or in months
    Child {
        /// The youngest.
        from: Expr,
        /// The oldest.
        to: Expr,
        /// `months` instead of `years`.
        months: bool,
    },
}

/// What is said of the pattern itself, and of nothing that is cut or sewn.
#[derive(Clone, Debug)]
pub enum Credit {
    /// `maker "Ferry workshop"`: who drew it
    Maker(Text),
    /// `edition 3`
    Edition(u32),
    /// `licence "…"`: what others may do with it
    Licence(Text),
    /// `level easy`
    Level(Level),
}

impl Credit {
    /// Which of them it is.
    pub fn kind(&self) -> CreditKind {
        match self {
            Credit::Maker(_) => CreditKind::Maker,
            Credit::Edition(_) => CreditKind::Edition,
            Credit::Licence(_) => CreditKind::Licence,
            Credit::Level(_) => CreditKind::Level,
        }
    }
}

/// The kinds of what is said of the pattern itself; a garment says each once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CreditKind {
    /// Who drew it.
    Maker,
    /// Which edition of it this is.
    Edition,
    /// What others may do with it.
    Licence,
    /// How hard it is to sew.
    Level,
}

impl CreditKind {
    /// The word that a maker writes.
    pub fn word(self) -> &'static str {
        match self {
            CreditKind::Maker => "maker",
            CreditKind::Edition => "edition",
            CreditKind::Licence => "licence",
            CreditKind::Level => "level",
        }
    }
}

/// How hard a garment is to sew, as its maker judges it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// `easy`
    Easy,
    /// `medium`
    Medium,
    /// `hard`
    Hard,
}

impl Level {
    /// The word that a maker writes.
    pub fn word(self) -> &'static str {
        match self {
            Level::Easy => "easy",
            Level::Medium => "medium",
            Level::Hard => "hard",
        }
    }
}

/// `sizes XS, S, M`
#[derive(Clone, Debug)]
pub struct Sizes {
    /// Smallest first.
    pub names: Vec<SizeName>,
}

/// `body { … }`
#[derive(Clone, Debug)]
pub struct Body {
    /// One girth or length a row.
    pub rows: Vec<BodyRow>,
}

/// A row of the size table.
#[derive(Clone, Debug)]
pub struct BodyRow {
    /// All of it.
    pub span: Span,
    /// What is measured.
    pub name: Name,
    /// Literals only: `Each`, `Grade`, `EverySize`, or one quantity where there is one size.
    pub values: Expr,
    /// A note for people.
    pub label: Option<Text>,
}

/// `pick size by chest` or `pick size by larger of chest, hip`
#[derive(Clone, Debug)]
pub struct Pick {
    /// The body measures, one or more.
    pub measures: Vec<Name>,
}

/// `let ease = 24 "wearing ease"` or `let cap between … and … so that …`
#[derive(Clone, Debug)]
pub struct Let {
    /// What is named.
    pub name: Name,
    /// Its value.
    pub value: LetValue,
    /// A note for people.
    pub label: Option<Text>,
}

/// How a `let` gets its value.
#[derive(Clone, Debug)]
pub enum LetValue {
    /// `= e`
    Is(Expr),
    /// `between low and high so that left = right`
    Solved {
        /// The least it may be.
        low: Expr,
        /// The most it may be.
        high: Expr,
        /// What must hold; its relation is `=` (another is a mistake reported later).
        so_that: Comparison,
    },
}

/// `measure chest_finished "Finished chest" against chest = …`
#[derive(Clone, Debug)]
pub struct Measure {
    /// The name of the value.
    pub name: Name,
    /// What people read.
    pub title: Text,
    /// The body measure it is compared with.
    pub against: Option<Name>,
    /// Its value.
    pub value: Expr,
}

/// `require length(front.side) >= 30 "…"`
#[derive(Clone, Debug)]
pub struct Require {
    /// What must hold.
    pub condition: Comparison,
    /// The maker's own words.
    pub because: Text,
}
