//! Outputs: one file each. They read the resolved garment and nothing else, and only here are
//! figures rounded.

mod closures;
mod cloths;
mod comparison;
mod cut_size;
mod documents;
pub mod drawing;
mod dxf;
mod fates;
mod form;
mod indented;
mod json;
mod lay;
mod left_open;
mod materials;
mod number;
mod openings;
mod outline;
mod pdf;
mod placements;
mod schema;
mod seams;
mod sewn;
mod sheet;
mod steps;
mod stitched;
mod straps;
mod svg;
mod table;
mod take_ups;
mod threaded;
mod write_steps;

pub use comparison::{
    CauseDocument, Change, ChangedFact, Comparison, Differs, Fate, TextsDocument, Told, compare, said_only,
};
pub use documents::*;
pub use dxf::dxf;
#[cfg(feature = "preview")]
pub(crate) use fates::taker_words;
pub use fates::{FateRow, fates_table, fates_text};
pub use form::Form;
pub use json::{document, files, to_text};
pub use lay::{lays_document, lays_text};
pub use materials::{lays_of, materials, materials_document};
pub use number::Figure;
pub use pdf::{Paper, Unprintable, Wide, pdf, pdf_wide};
pub use schema::{Schemas, schema};
pub use steps::{steps, steps_document, steps_table};
#[cfg(feature = "preview")]
pub(crate) use svg::data as path_data;
pub(crate) use svg::rounded_data as rounded_path_data;
pub use svg::{Lettering, svg, svg_lettered};
pub use table::{cut_list, pieces};
pub use write_steps::{NotWritten, with_steps};
