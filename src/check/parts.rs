//! `piece/uncut` and `part/missing`: pieces that a layer ought to have.

use super::{Check, Run, words};
use crate::garment::{Garment, LayerId, PieceId, Seam, SewnEdge};
use crate::report::Diagnostic;

pub(super) static CHECK: Check = Check { slugs: &["piece/uncut", "part/missing"], run: Run::Once(run) };

fn run(garment: &Garment, told: &mut Vec<Diagnostic>) {
    for (at, piece) in garment.pieces.iter().enumerate() {
        let id = PieceId::from_index(at);
        let listed = garment.layers.iter().any(|layer| layer.pieces.contains(&id));
        if listed || piece.block || piece.ended_by.is_some() {
            continue;
        }
        let mistake =
            Diagnostic::mistake("piece/uncut", piece.span, format!("{} is cut from nothing", piece.title))
                .label("in no layer")
                .help(format!(
                    "name {} in a layer, or write block piece if it is only there for others to be made from",
                    piece.name
                ));
        told.push(mistake);
    }
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned && !seam.by_split) {
        told.extend(unqualified(garment, seam));
    }
}

fn edges(seam: &Seam) -> impl Iterator<Item = &SewnEdge> {
    seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges)
}

/// Whether a layer has what became of the edge's piece.
fn has(garment: &Garment, layer: LayerId, sewn: &SewnEdge) -> bool {
    garment.layer(layer).pieces.iter().any(|&piece| {
        let mut edges = garment.piece(piece).edges.iter();
        piece == sewn.piece || edges.any(|&edge| garment.is_run_of(edge, sewn.edge))
    })
}

/// Whether any layer has it; of a piece that none has, `piece/uncut` tells.
fn cut_somewhere(garment: &Garment, sewn: &SewnEdge) -> bool {
    (0..garment.layers.len()).any(|layer| has(garment, LayerId::from_index(layer), sewn))
}

/// A seam without a layer: one sewn layer must have all its pieces. (Of a seam that names a layer,
/// the part is looked up when names are.)
fn unqualified(garment: &Garment, seam: &Seam) -> Option<Diagnostic> {
    let open: Vec<&SewnEdge> = edges(seam).filter(|sewn| sewn.layer.is_none()).collect();
    if open.is_empty() || !open.iter().all(|sewn| cut_somewhere(garment, sewn)) {
        return None;
    }
    let sewn_layers: Vec<LayerId> =
        (0..garment.layers.len()).map(LayerId::from_index).filter(|&id| !garment.layer(id).fused).collect();
    let count = |layer: LayerId| open.iter().filter(|sewn| has(garment, layer, sewn)).count();
    if sewn_layers.iter().any(|&layer| count(layer) == open.len()) {
        return None;
    }
    // The layer that comes nearest is the one that was meant.
    let mut best = *sewn_layers.first()?;
    for &layer in &sewn_layers {
        if count(layer) > count(best) {
            best = layer;
        }
    }
    let missing = open.iter().find(|sewn| !has(garment, best, sewn))?;
    let (layer, piece) = (garment.layer(best), garment.piece(missing.piece));
    let mut names: Vec<String> = Vec::new();
    for sewn in &open {
        let name = words::piece(garment, sewn.piece);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let title =
        format!("no layer has all of {}, so the seam {} is sewn in none", words::listed(&names), seam.name);
    let other = sewn_layers.iter().find(|&&layer| has(garment, layer, missing)).map(|&id| garment.layer(id));
    let help = match other {
        Some(other) => format!(
            "add {0} to layer {1}, or say which layer's is meant: {2}.{0}",
            piece.name, layer.name, other.name
        ),
        None => format!("add {} to layer {}", piece.name, layer.name),
    };
    let mistake = Diagnostic::mistake("part/missing", missing.span, title)
        .label(format!("{} is not in {}", piece.name, layer.name))
        .also(layer.span, "the layer that has most of them")
        .help(help);
    Some(mistake)
}
