//! `fused/alone`: interfacing of a piece that no cloth is cut by, so that there is nothing to fuse it on.

use super::{Check, Run, words};
use crate::garment::{Garment, PieceId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FUSED_ALONE], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    if garment.incomplete.layers || !garment.layers.iter().any(|layer| layer.fused) {
        return;
    }
    let origins = |pieces: &[PieceId]| -> Vec<PieceId> {
        pieces.iter().flat_map(|&piece| garment.origins(piece).into_iter().chain([piece])).collect()
    };
    let cloth = garment.layers.iter().filter(|layer| !layer.fused);
    let cloth: IdSet<PieceId> = cloth.flat_map(|layer| origins(&layer.pieces)).collect();
    for layer in garment.layers.iter().filter(|layer| layer.fused) {
        for &piece in &layer.pieces {
            if origins(&[piece]).iter().any(|origin| cloth.contains(origin)) {
                continue;
            }
            let (title, name) = (words::piece(garment, piece), &garment.piece(piece).name);
            diagnostics.push(
                Diagnostic::new(
                    &catalogue::FUSED_ALONE,
                    layer.span,
                    format!("{title} is cut of interfacing and of no cloth: there is nothing to fuse it on"),
                )
                .label(format!("{name} is in this layer alone"))
                .also(garment.piece(piece).span, "this piece")
                .help(format!(
                    "name {name} in a layer of cloth as well; or draw it as a copy or a strip of the piece that it is \
                     fused on; for a stay that is laid along an edge nothing needs to change"
                )),
            );
        }
    }
}
