//! One canonical layout of a file, printed from its tree.
//!
//! Notes and single blank lines stay where they are; what the maker wrote on one line in braces
//! stays on one line if it is not too long. Numbers and texts keep their spelling. What follows
//! one another and is alike is aligned in columns.

mod alteration;
mod cloth;
mod entry;
mod expression;
mod fitted;
mod layout;
mod piece;
mod said;
mod sewing;
mod short;
mod spelling;
mod statement;
mod stitched;
mod strap;
mod take_up;

pub use alteration::altered as altered_words;
pub(crate) use cloth::fused_words;
pub use said::{Said, said};
pub use spelling::{AsWritten, Plain, Spelling, quoted};

use super::tree::{Expr, SewnWords, Statement};
use crate::report::{Diagnostic, Severity};
use crate::source::{FileId, SourceMap};
use expression::Printer;

/// The file in its canonical layout.
///
/// It says the same: the text that comes back has the same tree, and is itself tidy.
///
/// # Errors
/// The mistakes of the file's text, when it has any: what cannot be read is left as it is.
pub fn tidy(map: &SourceMap, file: FileId) -> Result<String, Vec<Diagnostic>> {
    let parsed = super::parse(map, file);
    if parsed.mistakes.iter().any(|one| one.severity() == Severity::Mistake) {
        return Err(parsed.mistakes);
    }
    let source = map.file(file);
    let printer = Printer { spelling: &AsWritten { map } };
    let entries = parsed.file.statements.iter().map(|one| printer.statement(one)).collect();
    Ok(layout::laid_out(&source.text, source.base, &parsed.file.notes, entries))
}

/// Statements that stand in no one file, in the canonical layout, with a blank line wherever the
/// kind of thing changes.
pub fn print(statements: &[Statement], spelling: &dyn Spelling) -> String {
    let printer = Printer { spelling };
    layout::gathered(statements.iter().map(|one| printer.statement(one)).collect())
}

/// An edge as it is sewn, or a run of it.
pub fn sewn(words: &SewnWords, spelling: &dyn Spelling) -> String {
    Printer { spelling }.sewn(words)
}

/// One expression, in one line.
pub fn expression(expr: &Expr, spelling: &dyn Spelling) -> String {
    Printer { spelling }.expr(expr)
}
