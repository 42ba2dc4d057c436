//! The ends of a run of an edge that is taken by itself: so far along its edge from one of its corners.

use super::edge_runs::AT_CORNER;
use super::teller::{Teller, Way};
use crate::garment::{EdgeId, Part};
use crate::resolve::CornerName;
use crate::sheet::{FigureKind, Text};

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
        let drawn = self.facts.sizes.get(size)?.drawn.paper(part.paper)?;
        let end = drawn.portion_ends(self.garment, run, is_far).next()?;
        let edge = self.edge_runs(size, part, run)?;
        let all = edge.length();
        let at = edge.runs.iter().position(|(at, _)| *at == end);
        let before = match at {
            // Behind all of it the outline goes on.
            _ if end == edge.after && edge.runs.len() < drawn.outline().len() => all,
            Some(at) => edge.runs.iter().take(at).map(|(_, length)| length).sum(),
            None => return None,
        };
        let counted = self.counted_from(&[run], &edge);
        Some(Lies { far: [before, all - before], corners: edge.corners, fold: edge.fold, counted })
    }
}
