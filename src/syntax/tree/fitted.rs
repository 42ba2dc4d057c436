use super::{Expr, Name, NamedFile, SizeName, Text};
use crate::source::Span;

/// `fitting "Second mate" of "deck-jacket.fus" { body { … } }`
#[derive(Clone, Debug)]
pub struct FittingOf {
    /// Who it is for.
    pub wearer: Text,
    /// The garment.
    pub base: NamedFile,
    /// What is known of the wearer; one block where all is well.
    pub bodies: Vec<FittedBody>,
}

impl FittingOf {
    /// Every row, in the order written.
    pub fn rows(&self) -> impl Iterator<Item = &FittedRow> {
        self.bodies.iter().flat_map(|body| &body.rows)
    }
}

/// `body { chest 101; hip as L; the rest as M }`
#[derive(Clone, Debug)]
pub struct FittedBody {
    /// All of it.
    pub span: Span,
    /// The word `body`.
    pub word: Span,
    /// One measure of the wearer a row.
    pub rows: Vec<FittedRow>,
}

/// A row of a wearer's measures.
#[derive(Clone, Debug)]
pub struct FittedRow {
    /// All of it.
    pub span: Span,
    /// What is measured; none of `the rest`.
    pub name: Option<Name>,
    /// How it is known.
    pub value: FittedValue,
    /// A note for people.
    pub label: Option<Text>,
}

/// How a wearer's measure is known.
#[derive(Clone, Debug)]
pub enum FittedValue {
    /// `chest 101`: a literal
    Measured(Expr),
    /// `hip as L`
    AsSize(SizeName),
    /// `hip between sizes`: as far between two sizes as the wearer lies; where it says so
    BetweenSizes(Span),
}
