//! Outputs: one file each. They read the resolved garment and nothing else, and only here are
//! figures rounded.

mod document;
mod fates;
mod json;
mod number;
mod outline;
mod schema;
mod seams;
mod sewn;
mod sheet;
mod table;

pub use document::*;
pub use fates::{FateRow, fates_table, fates_text};
pub use json::{document, to_text};
pub use number::Figure;
pub use schema::schema;
pub use sewn::{
    ActionDocument, ButtonDocument, ButtonRowDocument, FateDocument, FateWay, NotionDocument, Side,
    StepDocument,
};
pub use table::{Form, cut_list, pieces};
