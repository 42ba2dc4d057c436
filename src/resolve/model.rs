//! A garment in one size.

use super::drawn_piece::{DrawnPiece, Run};
use crate::garment::{
    AlterationId, ClosureId, CutHow, EdgeId, FabricId, Garment, LayerId, Made, PaperId, Part, PieceId,
    PlacementId, PointId, SewnEdge, SizeId, ValueId,
};
use crate::id::index_id;
use crate::report::Finding;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;
use kurbo::Point;
use std::sync::Arc;

index_id!(
    /// An edge of a drawn piece, by its place in [`DrawnPiece::edges`].
    DrawnEdgeId
);

/// A garment worked out in one size. `None` anywhere is what could not be worked out and has
/// been reported where it went wrong; whoever needs it is silent.
#[derive(Clone, Debug)]
pub struct SizedGarment {
    /// The size.
    pub size: SizeId,
    /// By [`ValueId`].
    pub values: Vec<Option<Quantity>>,
    /// The last version of each paper, by [`PaperId`]; none also for papers that were split or
    /// joined into others.
    pub papers: Vec<Option<Arc<DrawnPiece>>>,
    /// The papers that are altered, as they were drafted, by [`PaperId`]; none for all others.
    pub drafted: Vec<Option<Arc<DrawnPiece>>>,
    /// What each alteration came to, by [`AlterationId`]: the length it lengthens, extends, opens
    /// by, and so on; none for those that have no amount.
    pub amounts: Vec<Option<f64>>,
    /// How each zip fits, by [`ClosureId`]; none for buttons.
    pub zips: Vec<Option<ZipFit>>,
    /// Where each placement lies, by its place in the garment's list.
    pub placed: Vec<Option<PlacedPiece>>,
    /// What is cut, layer by layer; parts whose paper could not be drawn are left out.
    pub cut_list: Vec<CutRow>,
    /// Every value, version of a paper and sought amount that could not be worked out: each was
    /// reported, or needs another of them.
    pub missing: Vec<Made>,
}

/// All sizes, and what was found on the way.
#[derive(Clone, Debug, Default)]
pub struct Resolved {
    /// In the garment's order.
    pub sizes: Vec<SizedGarment>,
    /// In the order of the sizes, and in each as it was worked out.
    pub findings: Vec<Finding>,
}

/// One line of the cut list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutRow {
    /// What is cut.
    pub part: Part,
    /// From what; none where the layer's fabric is unknown.
    pub fabric: Option<FabricId>,
    /// How many, as said (`cut 1 on fold` is 1, `cut 2 mirrored` is 2).
    pub copies: u32,
    /// How they lie.
    pub how: CutHow,
    /// Turned over: the piece is not symmetrical, not cut in pairs, and this is its second layer.
    pub flipped: bool,
    /// The copies of that side of the body alone, where left and right are cut differently.
    pub hand: Option<Hand>,
    /// Drawn as a half on the fold, and cut as its whole from cloth that is not folded.
    pub whole: bool,
}

/// A value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A number, millimetres, square millimetres or radians.
    Scalar(f64),
    /// A place or a way, in millimetres.
    Point(Point),
}

impl Quantity {
    /// The number; none of a point.
    pub fn scalar(self) -> Option<f64> {
        match self {
            Quantity::Scalar(value) => Some(value),
            Quantity::Point(_) => None,
        }
    }
}

/// Names that a drawn piece has not, and why.
#[derive(Clone, Debug, Default)]
pub struct Missing {
    /// Edges and lines.
    pub edges: Vec<(EdgeId, Why)>,
    /// Corners, points and marks.
    pub points: Vec<(PointId, Why)>,
}

/// Why a name is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It could not be drawn, and that was reported: say nothing more of it.
    Reported,
    /// An alteration took it away.
    By(AlterationId),
}

/// How a zip fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZipFit {
    /// The closure.
    pub closure: ClosureId,
    /// The finished length of each side.
    pub sides: [f64; 2],
    /// The zip that was chosen: the one length, or of those in stock the nearest.
    pub zip: f64,
    /// The alteration whose amount was found for it.
    pub solved_by: Option<AlterationId>,
}

/// A piece where it lies on another.
#[derive(Clone, Debug)]
pub struct PlacedPiece {
    /// The paper it lies on.
    pub on: PaperId,
    /// The placed piece's edges, on the other's paper.
    pub edges: Vec<(EdgeId, Path)>,
}

impl SizedGarment {
    /// The runs that an edge of a piece, or of one layer's part, means in the finished garment,
    /// in the order in which they lie along the piece. Empty where it is gone or unknown.
    pub fn runs(&self, garment: &Garment, layer: Option<LayerId>, edge: EdgeId) -> Vec<Run> {
        let mut runs = Vec::new();
        self.each_run(garment, layer, edge, &mut |run| runs.push(run));
        runs
    }

    /// The same, one after the other.
    pub(crate) fn each_run(
        &self,
        garment: &Garment,
        layer: Option<LayerId>,
        edge: EdgeId,
        take: &mut dyn FnMut(Run),
    ) {
        let Some(paper) = garment.paper_of(layer, garment.edge(edge).piece) else { return };
        let mut open = Vec::new();
        let mut next = Some(paper);
        while let Some(paper) = next {
            if let Some(drawn) = self.paper(paper) {
                for (at, drawn) in DrawnEdgeId::enumerate(&drawn.edges) {
                    if garment.is_run_of(drawn.edge, edge) {
                        take(Run { paper, edge: at });
                    }
                }
            } else {
                let becomes = garment.paper(paper).becomes.iter().rev();
                open.extend(becomes.filter_map(|&next| garment.paper_of(layer, garment.paper(next).piece)));
            }
            next = open.pop();
        }
    }

    /// The same for the words of a seam, finish or closure.
    pub fn runs_of(&self, garment: &Garment, sewn: &SewnEdge) -> Vec<Run> {
        self.runs(garment, sewn.layer, sewn.edge)
    }

    /// The last version of a paper; none where it could not be drawn, was split or was joined.
    pub fn paper(&self, paper: PaperId) -> Option<&DrawnPiece> {
        self.shared_paper(paper).map(|drawn| &**drawn)
    }

    /// The same, to be held on to.
    pub(crate) fn shared_paper(&self, paper: PaperId) -> Option<&Arc<DrawnPiece>> {
        self.papers.get(paper.index())?.as_ref()
    }

    /// Whether nothing can be known of a piece: neither it nor any piece that it was made into could be
    /// drawn, which has been reported.
    pub fn is_undrawn(&self, garment: &Garment, piece: PieceId) -> bool {
        garment.piece(piece).papers.iter().all(|&paper| self.is_undrawn_paper(garment, paper))
    }

    /// The same of one of its papers.
    pub fn is_undrawn_paper(&self, garment: &Garment, paper: PaperId) -> bool {
        let mut open: Vec<PaperId> = vec![paper];
        while let Some(at) = open.pop() {
            let becomes = &garment.paper(at).becomes;
            if becomes.is_empty() && self.paper(at).is_some() {
                return false;
            }
            open.extend(becomes);
        }
        true
    }

    /// Whether some of what a piece was made into could not be drawn, which has been reported: what is
    /// known of it is not all.
    pub fn is_partly_undrawn(&self, garment: &Garment, piece: PieceId) -> bool {
        let mut open: Vec<PaperId> = garment.piece(piece).papers.clone();
        while let Some(paper) = open.pop() {
            let becomes = &garment.paper(paper).becomes;
            if becomes.is_empty() && self.paper(paper).is_none() {
                return true;
            }
            open.extend(becomes);
        }
        false
    }

    /// The alteration that took an edge, a line or a take-up away from all papers of its piece.
    pub fn edge_taken_by(&self, garment: &Garment, edge: EdgeId) -> Option<AlterationId> {
        if self.is_partly_undrawn(garment, garment.edge(edge).piece) {
            return None;
        }
        let papers = || self.last_papers(garment, garment.edge(edge).piece);
        let has = |drawn: &DrawnPiece| {
            let lines = drawn.lines.iter().map(|line| line.edge);
            let mut own = drawn.edges.iter().map(|edge| edge.edge).chain(lines);
            own.any(|own| garment.is_run_of(own, edge))
        };
        if papers().any(has) {
            return None;
        }
        let mut missing = papers().flat_map(|drawn| &drawn.missing.edges);
        missing.find_map(|&(gone, why)| match why {
            Why::By(by) if garment.is_run_of(gone, edge) => Some(by),
            _ => None,
        })
    }

    /// The alteration that took a point or mark away.
    pub fn point_taken_by(&self, garment: &Garment, point: PointId) -> Option<AlterationId> {
        let mut missing =
            self.last_papers(garment, garment.point(point).piece).flat_map(|drawn| &drawn.missing.points);
        missing.find_map(|&(gone, why)| match why {
            Why::By(by) if garment.is_point_of(gone, point) => Some(by),
            _ => None,
        })
    }

    /// Whether a point, an edge or a line of a piece could not be drawn, which was reported.
    pub fn lacks_a_name(&self, garment: &Garment, piece: PieceId) -> bool {
        self.last_papers(garment, piece).any(|drawn| {
            let points = drawn.missing.points.iter().map(|&(_, why)| why);
            points.chain(drawn.missing.edges.iter().map(|&(_, why)| why)).any(|why| why == Why::Reported)
        })
    }

    /// The last papers of a piece, or of those that it became.
    fn last_papers(&self, garment: &Garment, piece: PieceId) -> impl Iterator<Item = &DrawnPiece> {
        let mut open: Vec<PaperId> = garment.piece(piece).papers.iter().rev().copied().collect();
        let mut last = Vec::new();
        while let Some(paper) = open.pop() {
            last.extend(self.paper(paper));
            open.extend(garment.paper(paper).becomes.iter().rev());
        }
        last.into_iter()
    }

    /// Where a placement lies.
    pub fn placed(&self, placement: PlacementId) -> Option<&PlacedPiece> {
        self.placed.get(placement.index()).and_then(Option::as_ref)
    }

    /// A value's number.
    pub fn scalar(&self, value: ValueId) -> Option<f64> {
        self.values.get(value.index()).copied().flatten().and_then(Quantity::scalar)
    }
}
