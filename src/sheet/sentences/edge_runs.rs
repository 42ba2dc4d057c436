//! An edge of the outline with all the runs that it is in: where it begins and ends, what lies beside it, and where its runs lie
//! along it as sewn.

use super::teller::Teller;
use crate::garment::{CountedFrom, CutHow, EdgeId, Part};
use crate::resolve::{CornerName, DrawnEdgeId, taken};

/// Nearer to a corner than this it is there, in millimetres.
pub(super) const AT_CORNER: f64 = 0.5;

/// An edge in one size, in the order of its outline.
pub(super) struct EdgeRuns {
    /// The runs, by their places in the outline, each with its length as sewn.
    pub(super) runs: Vec<(DrawnEdgeId, f64)>,
    /// Where the outline comes to the edge, and where it leaves it.
    pub(super) corners: [CornerName; 2],
    /// The edges before and behind it.
    pub(super) beside: [EdgeId; 2],
    /// The run that the outline goes on with behind it; of an edge that goes all round its own first one.
    pub(super) after: DrawnEdgeId,
    /// Which of its ends lies on the fold that the piece is cut on.
    pub(super) fold: Option<usize>,
}

impl EdgeRuns {
    /// How long all of it is, as sewn.
    pub(super) fn length(&self) -> f64 {
        self.runs.iter().map(|(_, length)| length).sum()
    }
}

impl Teller<'_> {
    /// The edge that this one is, or is a run of. None of one that a slit parts: the outline comes to that more than once.
    pub(super) fn edge_runs(&self, size: usize, part: Part, edge: EdgeId) -> Option<EdgeRuns> {
        let garment = self.garment;
        let drawn = self.facts.sizes.get(size)?.drawn.paper(part.paper)?;
        let (outline, whole) = (drawn.outline(), garment.whole_edge(edge));
        let count = outline.len();
        let own = |at: usize| outline.get(at % count).map(|edge| edge.edge);
        let is_whole = |at: usize| own(at).is_some_and(|edge| garment.whole_edge(edge) == whole);
        let mut begins = (0..count).filter(|&at| is_whole(at) && !is_whole(at + count - 1));
        let begin = begins.next().filter(|_| begins.next().is_none())?;
        let long = (begin..begin + count).take_while(|&at| is_whole(at)).count();
        let run = |at: usize| {
            let id = DrawnEdgeId::from_index(at % count);
            Some((id, taken(garment, drawn, id)?.as_sewn(drawn.edge_at(id)?.path.length())))
        };
        let runs: Vec<(DrawnEdgeId, f64)> = (begin..begin + long).map(run).collect::<Option<_>>()?;
        let beside = [own(begin + count - 1)?, own(begin + long)?];
        let fold = beside
            .iter()
            .position(|beside| matches!(drawn.cut, CutHow::OnFold(fold) if garment.is_run_of(*beside, fold)));
        let corners = [outline.get(begin)?.corner, outline.get((begin + long) % count)?.corner];
        let after = DrawnEdgeId::from_index((begin + long) % count);
        Some(EdgeRuns { runs, corners, beside, after, fold })
    }

    /// Which of the edge's two ends the maker counts these runs of it from.
    pub(super) fn counted_from(&self, own: &[EdgeId], edge: &EdgeRuns) -> Option<usize> {
        let garment = self.garment;
        let portion = own.iter().find_map(|&edge| garment.portions_at(edge).next())?;
        match garment.portion(portion).counted {
            CountedFrom::Point(point) => edge.corners.iter().position(
                |corner| matches!(corner, CornerName::Named(named) if garment.is_point_of(*named, point)),
            ),
            CountedFrom::Edge(counted) => {
                edge.beside.iter().position(|beside| garment.is_run_of(*beside, counted))
            }
            CountedFrom::Side(..) => None,
        }
    }
}
