//! The ends of a run of an edge that is taken by itself: so far along its edge from one of its corners.

use super::teller::{Teller, Way};
use crate::garment::{CountedFrom, CutHow, EdgeId, Part};
use crate::resolve::{CornerName, DrawnEdgeId, taken};
use crate::sheet::{FigureKind, Text};

/// Nearer to a corner than this it is there, in millimetres.
const AT_CORNER: f64 = 0.5;

/// Where an end of a run lies on its edge in one size.
struct Lies {
    /// How far from where the outline comes to the edge, and from where it leaves it.
    far: [f64; 2],
    corners: [CornerName; 2],
    /// Which of these lies on the fold that the piece is cut on.
    fold: Option<usize>,
    /// Which of them the maker counts from.
    counted: Option<usize>,
}

impl Teller<'_> {
    /// An end of a run in words; none where it is not known where that lies.
    pub(super) fn run_end(&self, run: EdgeId, is_far: bool, part: Part, way: Way) -> Option<Text> {
        let forms = self.forms();
        let whole = self.garment.whole_edge(run);
        let first = self.run_end_lies(0, run, is_far, part)?;
        let nearer = usize::from(first.far[1] < first.far[0]);
        let from = first.counted.unwrap_or(nearer);
        let amount = self.figure(FigureKind::Length, |at, _| {
            let lies = self.run_end_lies(at, run, is_far, part)?;
            lies.far.get(from).copied()
        })?;
        let edge = forms.edge(self.edge_name(&self.edge_words(run)), self.piece(part, None, way));
        let is_there = amount.values.iter().flatten().all(|far| *far < AT_CORNER);
        let corner = *first.corners.get(from)?;
        Some(match (corner, first.fold == Some(from), is_there) {
            (_, true, true) => forms.middle_of_edge(edge),
            (_, true, false) => forms.on_edge_from_middle(edge, amount),
            (CornerName::Named(point), false, true) => self.point(point, part, None, way),
            (CornerName::Named(point), false, false) => {
                forms.on_edge(edge, amount, self.name(&self.garment.point_words(point)))
            }
            (CornerName::Between(..), false, true) => return None,
            (CornerName::Between(one, other), false, false) => {
                let beside = if self.garment.whole_edge(one) == whole { other } else { one };
                forms.on_edge_from(edge, amount, self.name(&self.edge_words(beside)))
            }
        })
    }

    fn run_end_lies(&self, size: usize, run: EdgeId, is_far: bool, part: Part) -> Option<Lies> {
        let garment = self.garment;
        let drawn = self.facts.sizes.get(size)?.drawn.paper(part.paper)?;
        let end = drawn.portion_ends(garment, run, is_far).next()?.index();
        let (outline, whole) = (drawn.outline(), garment.whole_edge(run));
        let count = outline.len();
        let own = |at: usize| outline.get(at % count).map(|edge| edge.edge);
        let is_whole = |at: usize| own(at).is_some_and(|edge| garment.whole_edge(edge) == whole);
        // Of an edge that a slit parts the outline comes to it more than once.
        let mut begins = (0..count).filter(|&at| is_whole(at) && !is_whole(at + count - 1));
        let begin = begins.next().filter(|_| begins.next().is_none())?;
        let long = (begin..begin + count).take_while(|&at| is_whole(at)).count();
        let (mut before, mut all) = (0.0, 0.0);
        let is_on_it = end == (begin + long) % count || (begin..begin + long).any(|at| at % count == end);
        for at in begin..begin + long {
            let id = DrawnEdgeId::from_index(at % count);
            if at % count == end {
                before = all;
            }
            all += taken(garment, drawn, id)?.as_sewn(drawn.edge_at(id)?.path.length());
        }
        if end == (begin + long) % count && long < count {
            before = all;
        }
        let beside = [own(begin + count - 1)?, own(begin + long)?];
        let fold = beside
            .iter()
            .position(|beside| matches!(drawn.cut, CutHow::OnFold(fold) if garment.is_run_of(*beside, fold)));
        let corners = [outline.get(begin)?.corner, outline.get((begin + long) % count)?.corner];
        let portion = garment.portions_at(run).next().map(|id| garment.portion(id).counted);
        let counted = match portion {
            Some(CountedFrom::Point(point)) => corners.iter().position(
                |corner| matches!(corner, CornerName::Named(named) if garment.is_point_of(*named, point)),
            ),
            Some(CountedFrom::Edge(edge)) => {
                beside.iter().position(|beside| garment.is_run_of(*beside, edge))
            }
            Some(CountedFrom::Side(..)) | None => None,
        };
        is_on_it.then_some(Lies { far: [before, all - before], corners, fold, counted })
    }
}
