//! Which edges of which parts every seam takes, before a single length is compared.

use super::layers::SewnLayers;
use super::model::PartId;
use crate::garment::{Chain, Garment, LayerId, PaperId, Part, SeamId, SewnEdge};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::source::Span;

/// An edge of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The part.
    pub part: PartId,
    /// The edge.
    pub edge: DrawnEdgeId,
    /// Where it is named.
    pub span: Span,
}

/// A seam in one layer, or once across layers that it names.
#[derive(Clone, Debug)]
pub struct Stitching {
    /// The seam.
    pub seam: SeamId,
    /// The layer in which its unqualified names are meant; none where it names the layers of all.
    pub layer: Option<LayerId>,
    /// Before and after `to`: plies, each of edges end to end.
    pub sides: [Vec<Vec<Place>>; 2],
    /// Whether every edge that the seam names was found. One whose piece could not be drawn is reported
    /// there, and what is left of its ply is not to be compared.
    pub whole: bool,
}

impl Stitching {
    /// All plies of both sides.
    pub fn plies(&self) -> impl Iterator<Item = &Vec<Place>> {
        self.sides.iter().flatten()
    }

    /// All edges of all plies.
    pub fn places(&self) -> impl Iterator<Item = &Place> {
        self.plies().flatten()
    }
}

/// The parts of one size, and by what they are found.
#[derive(Clone, Debug, Default)]
pub struct PartIndex {
    layers: SewnLayers,
    parts: Vec<Part>,
    /// The parts of each paper, one paper's after another's.
    of_papers: Vec<PartId>,
    /// Where in that list those of each paper end.
    ends: Vec<u32>,
}

impl PartIndex {
    /// Of a garment in one size.
    pub fn new(garment: &Garment, sized: &SizedGarment) -> Self {
        let parts: Vec<Part> =
            garment.parts().into_iter().filter(|part| sized.paper(part.paper).is_some()).collect();
        let paper = |id: &PartId| parts[id.index()].paper;
        let mut of_papers: Vec<PartId> = PartId::enumerate(&parts).map(|(id, _)| id).collect();
        of_papers.sort_by_key(paper);
        let ends = PaperId::enumerate(&garment.papers)
            .map(|(at, _)| of_papers.partition_point(|id| paper(id) <= at) as u32)
            .collect();
        PartIndex { layers: SewnLayers::new(garment), parts, of_papers, ends }
    }

    /// The id of a part.
    pub fn of(&self, part: Part) -> Option<PartId> {
        self.find(part.layer, part.paper)
    }

    /// The part that a layer has of a paper.
    fn find(&self, layer: LayerId, paper: PaperId) -> Option<PartId> {
        let end = |at: usize| self.ends.get(at).map_or(0, |end| *end as usize);
        let start = paper.index().checked_sub(1).map_or(0, end);
        let of_paper = self.of_papers.get(start..end(paper.index()))?;
        of_paper.iter().copied().find(|id| self.parts[id.index()].layer == layer)
    }
}

/// Finds the parts' edges that names mean.
#[derive(Clone, Copy)]
pub struct Finder<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    index: &'a PartIndex,
    /// Which layer has which piece.
    pub layers: &'a SewnLayers,
    /// The parts that could be drawn.
    pub parts: &'a [Part],
}

impl<'a> Finder<'a> {
    /// Of a garment in one size, and that size's index.
    pub fn new(garment: &'a Garment, sized: &'a SizedGarment, index: &'a PartIndex) -> Self {
        Finder { garment, sized, index, layers: &index.layers, parts: &index.parts }
    }

    /// The part of that id.
    pub fn part(&self, id: PartId) -> Part {
        self.parts[id.index()]
    }

    /// What that part's paper looks like.
    pub fn drawn(&self, id: PartId) -> Option<&'a DrawnPiece> {
        self.sized.paper(self.part(id).paper)
    }

    /// The runs that an edge's name means in a layer.
    pub fn in_layer(&self, layer: LayerId, sewn: &SewnEdge) -> Vec<Place> {
        let mut places = Vec::new();
        self.add_places(layer, sewn, &mut places);
        places
    }

    fn add_places(&self, layer: LayerId, sewn: &SewnEdge, places: &mut Vec<Place>) {
        self.sized.each_run(self.garment, Some(layer), sewn.edge, &mut |run| {
            let part = self.index.find(layer, run.paper);
            places.extend(part.map(|part| Place { part, edge: run.edge, span: sewn.span }));
        });
    }

    /// The runs that an edge's name means in all the layers that it may be meant in.
    pub fn everywhere(&self, sewn: &SewnEdge) -> Vec<Place> {
        let mut places = Vec::new();
        for layer in self.layers.meant(sewn.layer, sewn.piece) {
            self.add_places(layer, sewn, &mut places);
        }
        places
    }

    /// Every seam in every layer that it is sewn in.
    pub fn stitchings(&self) -> Vec<Stitching> {
        let mut all = Vec::with_capacity(self.garment.seams.len());
        for (id, seam) in SeamId::enumerate(&self.garment.seams) {
            for layer in self.layers.of_seam(seam) {
                let mut whole = true;
                let mut ply = |chain: &Chain| -> Vec<Place> {
                    let mut places = Vec::with_capacity(chain.edges.len());
                    for sewn in &chain.edges {
                        let before = places.len();
                        if let Some(layer) = sewn.layer.or(layer) {
                            self.add_places(layer, sewn, &mut places);
                        }
                        whole &= places.len() > before;
                    }
                    places
                };
                let sides =
                    [seam.first.iter().map(&mut ply).collect(), seam.second.iter().map(&mut ply).collect()];
                all.push(Stitching { seam: id, layer, sides, whole });
            }
        }
        all
    }
}
