//! What is drawn, before it is written in any format: shapes in millimetres, y up, the top left of
//! the sheet at (0, 0). [`super::svg`] and [`super::pdf`] write it.

mod blocks;
mod clear;
mod fastener;
mod font;
mod key;
mod label;
mod lay;
mod layout;
mod look;
mod names;
mod pen;
mod piece;
mod pieces;
mod place;
mod said;
mod shape;
mod shared;
mod sheet;
mod size_names;

pub use font::Face;
pub(super) use font::{Glyph, faces, glyphs, outline};
pub(crate) use key::{WORDS, entries, sample};
pub use lay::lays;
pub use layout::{Arranged, Hanging, arrange};
pub use look::{Lines, Look};
pub use pen::{Ink, Pen, Tone};
pub use piece::{DrawnGroup, draw_group};
pub use pieces::{Group, group, pieces};
pub(super) use shape::{ABOUT_LETTERS, TITLE_LETTERS, in_short};
pub use shape::{Shape, What, Words};
pub use sheet::{Sheet, sheet, unfinished_sheet};
