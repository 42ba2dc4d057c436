//! The maker's sheet: one page from which a stranger sews the garment, made of the facts that `resolve` writes and of
//! nothing else.
//!
//! `facts` gathers what it tells of; `words` and `sentences` say it in a language, with terms and figures marked
//! ([`Text`]); `pictures` draw it; `page` composes.

mod base;
mod choices;
mod differing;
mod facts;
mod letters;
mod moved;
mod page;
pub mod pictures;
mod points;
mod publish;
mod rows;
pub mod sentences;
mod text;
pub mod words;

pub use choices::{Choices, SheetPaper};
pub use differing::Differing;
pub use facts::{Facts, NumberedPiece};
pub use letters::Letters;
pub use points::{MeetingPoint, PointIs, SIGNS, are_signed, meeting_points};
pub use publish::{NoSheet, sheet};
pub use rows::Row;
pub use text::{Figure, FigureKind, Run, Text};
pub use words::Language;
