//! The grammar as pest reads it.

/// The parser that pest derives from `grammar/fustian.pest`.
#[derive(pest_derive::Parser)]
#[grammar = "../grammar/fustian.pest"]
pub(super) struct Grammar;
