//! What the compiler says: severities, slugs, messages as data, and how they look.

mod alike;
mod amount;
pub mod catalogue;
mod diagnostic;
mod finding;
mod json;
mod listed;
mod plain;
mod remedy;
mod sarif;
mod size;
mod suggest;
mod terminal;
mod title;
mod view;

pub use alike::{look_alike, skeleton};
pub use amount::{DisplayUnit, INCH, amount, at_least, at_most, finely, percent};
pub use diagnostic::{Diagnostic, Fix, Label, Severity, SizeTable};
pub use finding::{Finding, group};
pub use json::{ReportedDiagnostic, ReportedPlace, ReportedRow, ReportedTable, reported};
pub use listed::listed;
pub use plain::plain;
pub use remedy::{Remedy, WayOut};
pub use sarif::{Log, sarif};
pub use size::SizeId;
pub use suggest::nearest;
pub use terminal::{RenderOptions, render, summary};
pub use title::Title;
pub use view::harmless;
