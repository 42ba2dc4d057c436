//! The language server without its wire (LSP 3.17): the same compiler over texts that are still
//! being written.
//!
//! A [`Desk`] holds the open documents and the garment that begins in each; nothing here touches a
//! disk. Whatever is asked is answered from the texts as they are when it is asked.

mod analysis;
mod colours;
mod completion;
mod cursor;
mod desk;
mod find;
mod fixes;
mod folding;
mod formatting;
mod handbook;
mod hover;
mod lines;
mod messages;
mod outline;
mod overlay;
mod rename;
mod service;
mod tokens;
mod uri;
mod wants;
mod web;

pub use analysis::{Analysis, Place};
pub use desk::{Desk, Document};
pub use lines::Lines;
pub use outline::Entry;
pub use overlay::Disk;
pub use service::{INVALID_PARAMS, METHOD_NOT_FOUND, REQUEST_FAILED, Refusal, Service};
pub use uri::{path_of, uri_of};
