//! `piece/none`: a garment in which nothing is drawn yet.

use super::{Check, Run};
use crate::garment::{FileKind, Garment};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PIECE_NONE], run: Run::Once(run) };

/// Not of one that says how its pieces are sewn: what those names mean has been asked there.
fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    // A library draws what others may take of it.
    let is_library = garment.files.iter().all(|file| file.kind == FileKind::Library);
    let is_begun =
        is_library || !garment.pieces.is_empty() || garment.incomplete.layers || garment.incomplete.sewing;
    if is_begun {
        return;
    }
    let title = format!("nothing is drawn of {} yet", garment.title);
    let advice = Diagnostic::new(&catalogue::PIECE_NONE, garment.heading, title).help(
        "draw a piece and say what it is cut from: piece front \"Front\" { cut 2 mirrored; outline rectangle 26 by 60 }",
    );
    diagnostics.push(advice);
}
