//! The finished lengths of edges in one size.

use super::model::PartId;
use super::stitching::Finder;
use crate::garment::Garment;
use crate::resolve::{DrawnEdgeId, finished};

/// The finished lengths of edges, each worked out once.
pub(super) struct Lengths<'a> {
    garment: &'a Garment,
    finder: &'a Finder<'a>,
    /// Where the edges of each part's paper begin among those of all papers.
    starts: Vec<u32>,
    known: Vec<Option<f64>>,
}

impl<'a> Lengths<'a> {
    /// Of the parts that a finder knows.
    pub(super) fn new(garment: &'a Garment, finder: &'a Finder<'a>) -> Self {
        let mut starts = Vec::with_capacity(finder.parts.len());
        let mut count = 0;
        // What is cut from one paper in several layers is measured once.
        let mut of_papers: Vec<Option<u32>> = vec![None; garment.papers.len()];
        for (id, part) in PartId::enumerate(finder.parts) {
            let known = of_papers.get_mut(part.paper.index());
            let start = match known {
                Some(Some(start)) => *start,
                known => {
                    let start = count;
                    count += finder.drawn(id).map_or(0, |drawn| drawn.edges.len() as u32);
                    known.into_iter().for_each(|known| *known = Some(start));
                    start
                }
            };
            starts.push(start);
        }
        Lengths { garment, finder, starts, known: vec![None; count as usize] }
    }

    /// The finished length of an edge; not a number if it is unknown.
    pub(super) fn of(&mut self, part: PartId, edge: DrawnEdgeId) -> f64 {
        let at = self.starts.get(part.index()).map_or(usize::MAX, |start| *start as usize + edge.index());
        let Some(known) = self.known.get_mut(at) else { return f64::NAN };
        *known.get_or_insert_with(|| {
            self.finder.drawn(part).and_then(|drawn| finished(self.garment, drawn, edge)).unwrap_or(f64::NAN)
        })
    }
}
