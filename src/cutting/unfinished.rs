//! What can be shown of a draft that is not finished: every piece that could be drawn, also one that no
//! layer cuts yet, and where its allowances are not known or do not fit, its stitching line alone.

use super::model::Cutting;
use super::size::WorkedSize;
use crate::garment::{CutHow, Garment, Layer, LayerId, PaperId, Part, PieceId};
use crate::resolve::{CutRow, SizedGarment};
use crate::source::Span;
use std::sync::Arc;

/// The garment with a layer more for the pieces that are in none, and what can be shown of it in those
/// sizes.
pub fn cut_unfinished(garment: &Garment, sizes: &[&WorkedSize]) -> (Garment, Vec<Cutting>) {
    let mut shown = garment.clone();
    let is_drawn = |paper: PaperId| sizes.iter().any(|size| size.drawn.paper(paper).is_some());
    let in_no_layer = (0..garment.pieces.len()).map(PieceId::from_index).filter(|&piece| {
        let is_cut = garment.layers.iter().any(|layer| layer.pieces.contains(&piece));
        !is_cut
            && garment.piece(piece).ended_by.is_none()
            && garment.paper_of(None, piece).is_some_and(is_drawn)
    });
    let pieces: Vec<PieceId> = in_no_layer.collect();
    let extra = (!pieces.is_empty()).then(|| LayerId::from_index(garment.layers.len()));
    if extra.is_some() {
        shown.layers.push(Layer {
            name: Arc::from(IN_NO_LAYER),
            span: Span::default(),
            fabric: None,
            fused: false,
            share: None,
            onto: None,
            piece_spans: vec![Span::default(); pieces.len()],
            pieces: pieces.clone(),
        });
    }
    let mut cuts = Vec::with_capacity(sizes.len());
    for size in sizes {
        let mut sized: SizedGarment = size.drawn.clone();
        for (&piece, layer) in pieces.iter().zip(extra.iter().cycle()) {
            let Some(paper) = garment.paper_of(None, piece) else { continue };
            let Some(drawn) = sized.paper(paper) else { continue };
            let (copies, how): (u32, CutHow) = (drawn.count, drawn.cut);
            let part = Part { layer: *layer, piece, paper };
            sized.cut_list.push(CutRow {
                part,
                fabric: None,
                copies,
                how,
                flipped: false,
                hand: None,
                whole: false,
            });
        }
        cuts.push(WorkedSize::new(&shown, sized).cut_as_far_as_known(&shown));
    }
    (shown, cuts)
}

/// What stands over pieces that no layer cuts.
const IN_NO_LAYER: &str = "in no layer yet";
