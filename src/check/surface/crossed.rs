//! `seam/crossed`: a seam between two layers that takes another piece than the one that it lies on.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, PieceId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{Sewing, SewnLayers, SewnPly, seam_edges};
use std::collections::HashSet;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_CROSSED], run: Run::PerSize(run) };

/// Of two plies of a seam one lies in the one layer and one in the other, and each layer has the other's
/// piece too: then it is the piece in its own layer that each should lie on.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    if sewing.surface.is_none() {
        return;
    }
    let layers = SewnLayers::new(garment);
    let mut reported: HashSet<[PieceId; 2]> = HashSet::new();
    for sewn in &sewing.seams {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        let (ours, theirs) = (in_one_layer(sewing, first), in_one_layer(sewing, second));
        let (Some((layer, pieces)), Some((other_layer, other_pieces))) = (ours, theirs) else { continue };
        if layer == other_layer {
            continue;
        }
        let (origins, other_origins) = (all_origins(garment, &pieces), all_origins(garment, &other_pieces));
        let has = |layer: LayerId, origin: PieceId| {
            let of = &garment.layer(layer).pieces;
            of.iter().any(|&piece| garment.origins(piece).contains(&origin)) && layers.layers.contains(&layer)
        };
        let strangers = |own: &[PieceId], others: &[PieceId]| -> Option<PieceId> {
            own.iter().copied().find(|piece| garment.origins(*piece).iter().all(|one| !others.contains(one)))
        };
        let (Some(one), Some(other)) =
            (strangers(&pieces, &other_origins), strangers(&other_pieces, &origins))
        else {
            continue;
        };
        let crossed = garment.origins(one).iter().any(|&origin| has(other_layer, origin))
            && garment.origins(other).iter().any(|&origin| has(layer, origin));
        if !crossed || !reported.insert([one.min(other), one.max(other)]) {
            continue;
        }
        let seam = garment.seam(sewn.seam);
        let word = |piece, layer: LayerId| {
            format!("{} in {}", words::piece(garment, piece), garment.layer(layer).name)
        };
        let title = format!(
            "the {} seam sews {} to {}, though each layer has both",
            seam.name,
            word(one, layer),
            word(other, other_layer)
        );
        let span = |piece: PieceId| {
            let mut edges = seam_edges(seam).filter(|sewn| sewn.piece == piece);
            edges.next().map_or(seam.name_span, |sewn| sewn.span)
        };
        let (mine, yours) = (span(one), span(other));
        let mistake = Diagnostic::new(&catalogue::SEAM_CROSSED, yours, title)
            .label(format!("lies on {}", word(one, layer)))
            .also(mine, "on this")
            .help(format!(
                "layers lie on one another piece by piece: sew {} to its own twin in {}",
                garment.part_name(Some(layer), one),
                garment.layer(other_layer).name
            ));
        findings.push(Finding::new(sized.size, 0.0, mistake).about(seam.name.to_string()));
    }
}

/// The layer and the pieces of a ply that lies in one layer.
fn in_one_layer(sewing: &Sewing, ply: &SewnPly) -> Option<(LayerId, Vec<PieceId>)> {
    let parts: Vec<_> = ply.runs.iter().map(|run| sewing.part(run.part).part).collect();
    let layer = parts.first()?.layer;
    parts
        .iter()
        .all(|part| part.layer == layer)
        .then(|| (layer, parts.iter().map(|part| part.piece).collect()))
}

fn all_origins(garment: &Garment, pieces: &[PieceId]) -> Vec<PieceId> {
    pieces.iter().flat_map(|&piece| garment.origins(piece)).collect()
}
