//! The language server without its wire (LSP 3.17): the same compiler over texts that are still
//! being written.
//!
//! A [`Workspace`] holds the open documents and the garment that begins in each; nothing here touches
//! a disk. Whatever is asked is answered from the texts as they are when it is asked.

mod analysis;
mod code_actions;
mod completion;
mod completion_context;
mod cursor;
mod diagnostics;
mod document;
mod document_symbols;
mod documentation;
mod folding;
mod formatting;
mod hover;
mod line_index;
mod navigation;
mod overlay;
mod partner_seams;
mod references;
mod rename;
mod semantic_tokens;
mod service;
mod tokens;
mod uri;
mod word_texts;
mod workspace;
mod workspace_symbols;

pub use analysis::{Analysis, Place};
pub use document::{Document, Documents};
pub use document_symbols::Entry;
pub use line_index::LineIndex;
pub use overlay::Disk;
pub use service::{INVALID_PARAMS, METHOD_NOT_FOUND, REQUEST_FAILED, Refusal, Service};
pub use uri::{path_of, uri_of};
pub use workspace::Workspace;
