//! What is remembered from before, made ready to be asked of a size.

use super::drawing_asked::AskedDrawing;
use crate::garment::{AlterationId, AlterationKind, Garment, PieceId};
use crate::kept::{Memo, SizeMemory};
use rayon::prelude::*;

/// What is remembered of a size.
#[derive(Clone, Copy)]
pub(super) struct Remembering<'g> {
    pub(super) size: &'g SizeMemory,
    pub(super) asked: &'g Asked,
}

/// What is asked of a garment, the same in all sizes.
pub(super) struct Asked {
    /// By piece.
    drawings: Vec<Option<AskedDrawing>>,
    /// The last alteration that draws an edge anew.
    last_redraw: Option<AlterationId>,
}

/// Pieces that are gone through in one go; only those of big garments are gone through side by side.
const TOGETHER: usize = 128;

impl Asked {
    pub(super) fn of(garment: &Garment, drawings: &Memo<()>) -> Asked {
        let pieces = (0..garment.pieces.len()).into_par_iter().with_min_len(TOGETHER);
        let asked = |at: usize| AskedDrawing::of(garment, PieceId::from_index(at), drawings);
        let is_redraw = |at: &usize| {
            garment.alterations.get(*at).is_some_and(|one| one.kind == Some(AlterationKind::Redraw))
        };
        let last_redraw = (0..garment.alterations.len()).rev().find(is_redraw).map(AlterationId::from_index);
        Asked { drawings: pieces.map(asked).collect(), last_redraw }
    }

    /// What is asked of the drawing of a piece; nothing where that hangs on more.
    pub(super) fn drawing(&self, piece: PieceId) -> Option<&AskedDrawing> {
        self.drawings.get(piece.index())?.as_ref()
    }

    /// Whether some edge is drawn anew after that alteration.
    pub(super) fn is_redrawn_after(&self, alteration: AlterationId) -> bool {
        self.last_redraw.is_some_and(|last| last > alteration)
    }
}
