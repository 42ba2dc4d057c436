//! Outputs: one file each. They read the resolved garment and nothing else, and only here are
//! figures rounded.

mod document;
mod json;
mod number;
mod outline;
mod schema;
mod sheet;
mod table;

pub use document::*;
pub use json::{document, to_text};
pub use number::Figure;
pub use schema::schema;
pub use table::{Form, cut_list, pieces};
