//! `fused/alone`: interfacing of a piece that no cloth is cut by, so that there is nothing to fuse it on; and a
//! fusible that is sewn as cloth.

use super::{Check, Run, words};
use crate::garment::{Garment, Layer, PieceId};
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
    for layer in garment.layers.iter().filter(|layer| layer.fused) {
        let Some(onto) = layer.onto.map(|id| garment.layer(id)) else { continue };
        if onto.fused {
            let title = format!("{} is fused on itself: nothing is fused to it", onto.name);
            let mistake = Diagnostic::new(&catalogue::FUSED_ALONE, layer.span, title)
                .label(format!("fused to {}", onto.name))
                .also(onto.span, "fused as well")
                .help("name the layer of cloth that it is fused to");
            diagnostics.push(mistake);
            continue;
        }
        let own = origins(&onto.pieces);
        for &piece in &layer.pieces {
            if origins(&[piece]).iter().any(|origin| own.contains(origin)) {
                continue;
            }
            let (title, name) = (words::piece(garment, piece), &garment.piece(piece).name);
            let has = |other: &&Layer| !other.fused && other.pieces.contains(&piece);
            let title =
                format!("{title} is not cut in {}: there is nothing of it there to fuse it on", onto.name);
            let mistake = Diagnostic::new(&catalogue::FUSED_ALONE, layer.span, title)
                .label(format!("{name} is fused to {}", onto.name))
                .also(onto.span, format!("without {name}"));
            diagnostics.push(mistake.help(match garment.layers.iter().find(has) {
                Some(other) => format!(
                    "name {name} in layer {} as well, or fuse it to {}: in a fused layer of its own",
                    onto.name, other.name
                ),
                None => format!("name {name} in layer {} as well", onto.name),
            }));
        }
    }
    cut_as_cloth(garment, diagnostics);
    let cloth = garment.layers.iter().filter(|layer| !layer.fused);
    let cloth: IdSet<PieceId> = cloth.flat_map(|layer| origins(&layer.pieces)).collect();
    for layer in garment.layers.iter().filter(|layer| layer.fused && layer.onto.is_none()) {
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

/// A fusible that is cut as cloth, too: in its layer another one was meant.
fn cut_as_cloth(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    for layer in garment.layers.iter().filter(|layer| !layer.fused) {
        let is_same = |other: &&Layer| other.fused && other.fabric == layer.fabric;
        let (Some(fabric), Some(fused)) = (layer.fabric, garment.layers.iter().find(is_same)) else {
            continue;
        };
        let name = &garment.fabric(fabric).name;
        let title = format!("{name} is fused on in {}, and sewn as cloth in {}", fused.name, layer.name);
        let warning = Diagnostic::new(&catalogue::FUSED_ALONE, layer.span, title)
            .label("not fused on")
            .also(fused.span, "fused on")
            .help(format!(
                "name the cloth that {} is cut from, or write fused; if it is no fusible but woven interfacing that is sewn in, \
                 give it a name of its own",
                layer.name
            ));
        diagnostics.push(warning);
    }
}
