//! The papers that alterations work on: one a piece, and one more for each layer's part that has
//! an alteration of its own.

use super::Lowering;
use crate::garment::{AlterationId, LayerId, Moment, Paper, PaperId, PaperUse, PieceId, PieceOrigin, Target};
use crate::source::Span;

/// When an expression looks at pieces.
#[derive(Clone, Copy, Debug)]
pub(super) enum When {
    /// A fact: everything is done.
    Fact,
    /// While a piece is drawn: its own points and edges as drawn, everything else done.
    Drawing(PieceId),
    /// In an alteration: as things stand at that line.
    Altering(AlterationId),
}

impl Lowering<'_> {
    /// Makes the papers and writes down which alterations touch each of them.
    pub(super) fn lay_papers(&mut self) {
        let mut own_layers: Vec<Vec<LayerId>> = vec![Vec::new(); self.garment.pieces.len()];
        for alteration in &self.garment.alterations {
            for target in &alteration.targets {
                if let Some(layer) = target.layer {
                    own_layers[target.piece.index()].push(layer);
                }
            }
        }
        // Pieces that are split or joined hand their layers' own papers on. Made pieces have later
        // ids than the drawn ones, and are made in the order of their ids.
        for at in 0..self.garment.pieces.len() {
            for parent in self.made_of(PieceId::from_index(at)) {
                let inherited = own_layers[parent.index()].clone();
                own_layers[at].extend(inherited);
            }
            own_layers[at].sort();
            own_layers[at].dedup();
        }
        for (at, layers) in own_layers.iter().enumerate() {
            let piece = PieceId::from_index(at);
            self.add_paper(piece, None);
            for &layer in layers {
                self.add_paper(piece, Some(layer));
            }
        }
        for at in 0..self.garment.papers.len() {
            let id = PaperId::from_index(at);
            let Paper { piece, layer, .. } = self.garment.papers[at];
            for parent in self.made_of(piece) {
                if let Some(parent) = self.garment.paper_of(layer, parent) {
                    self.garment.papers[at].made_of.push(parent);
                    // A layer's own paper of the whole becomes only that layer's of the halves.
                    if self.garment.paper(parent).layer == layer {
                        self.garment.papers[parent.index()].becomes.push(id);
                    }
                }
            }
        }
        for at in 0..self.garment.alterations.len() {
            for target in self.garment.alterations[at].targets.clone() {
                for paper in self.papers_of_target(&target) {
                    let alterations = &mut self.garment.papers[paper.index()].alterations;
                    let id = AlterationId::from_index(at);
                    if alterations.last() != Some(&id) {
                        alterations.push(id);
                    }
                }
            }
        }
    }

    fn add_paper(&mut self, piece: PieceId, layer: Option<LayerId>) {
        let id = PaperId::from_index(self.garment.papers.len());
        self.garment.papers.push(Paper {
            piece,
            layer,
            alterations: Vec::new(),
            becomes: Vec::new(),
            made_of: Vec::new(),
        });
        self.garment.pieces[piece.index()].papers.push(id);
    }

    /// The pieces that a split or join makes this one of.
    fn made_of(&self, piece: PieceId) -> Vec<PieceId> {
        match self.garment.piece(piece).origin {
            PieceOrigin::Drawn => Vec::new(),
            PieceOrigin::Split { of, .. } => vec![of],
            PieceOrigin::Join { by } => self.garment.pieces_joined(by),
        }
    }

    /// The papers that an alteration with that target makes new versions of. A split or join is
    /// of whole pieces, whatever layer is named.
    pub(super) fn papers_of_target(&self, target: &Target) -> Vec<PaperId> {
        match target.layer {
            Some(layer) => self.garment.paper_of(Some(layer), target.piece).into_iter().collect(),
            None => self.garment.piece(target.piece).papers.clone(),
        }
    }

    /// A part's paper at the moment that an expression there looks at it.
    pub(super) fn paper_use(
        &self,
        layer: Option<LayerId>,
        piece: PieceId,
        when: When,
        span: Span,
    ) -> Option<PaperUse> {
        let paper = self.garment.paper_of(layer, piece)?;
        let moment = match when {
            When::Fact => Moment::Final,
            When::Drawing(own) if own == piece && self.garment.paper(paper).layer.is_none() => Moment::Own,
            When::Drawing(_) => Moment::Final,
            When::Altering(at) => {
                let before = self.garment.paper(paper).alterations.iter().filter(|&&one| one < at).count();
                Moment::After(before as u32)
            }
        };
        Some(PaperUse { paper, moment, span })
    }
}
