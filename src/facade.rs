//! What a program that uses Fustian as a library asks of a compiled garment; everything else that
//! it needs is named at the crate's root.

use crate::compile::Compiled;
use crate::emit::{Document, document, to_text};
use crate::report::{ReportedDiagnostic, reported};
use thiserror::Error;

/// Why there is no document of a garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum NoDocument {
    /// It has mistakes: nobody shall cut from it.
    #[error("the garment has mistakes, and nobody shall cut from it")]
    Mistakes,
    /// Some figure of it is not finite.
    #[error("a figure of the garment is not finite")]
    NotFinite,
}

impl Compiled {
    /// The diagnostics with their places counted in lines and columns, in the same order.
    pub fn reported(&self) -> Vec<ReportedDiagnostic> {
        reported(&self.map, &self.diagnostics)
    }

    /// Everything that was worked out, in every size: lengths in millimetres, angles in degrees.
    ///
    /// # Errors
    /// Where the garment has mistakes.
    pub fn document(&self) -> Result<Document, NoDocument> {
        if self.has_mistakes() {
            return Err(NoDocument::Mistakes);
        }
        Ok(document(&self.garment, &self.sizes, &self.map, &self.diagnostics))
    }

    /// The document as JSON text; `grammar/resolved.schema.json` describes it.
    ///
    /// # Errors
    /// Where there is no document, or a figure in it is not finite.
    pub fn json(&self) -> Result<String, NoDocument> {
        to_text(&self.document()?).map_err(|_| NoDocument::NotFinite)
    }
}
