//! What the compiler says: severities, slugs, messages as data, and how they look.

mod amount;
pub mod catalogue;
mod diagnostic;
mod finding;
mod json;
mod suggest;
mod terminal;
mod view;

pub use amount::{DisplayUnit, amount, percent};
pub use diagnostic::{Diagnostic, Label, Severity, SizeTable};
pub use finding::{Finding, group};
pub use json::{Told, ToldPlace, ToldRow, ToldSeverity, ToldTable, tell};
pub use suggest::nearest;
pub use terminal::{Look, closing, draw};
