//! `seam/ends` of edges that are named in another order than they lie in.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Garment, LayerId, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{Finder, PartId, Place, SewnSeam};

/// Longer chains are not looked through.
const MOST_EDGES: usize = 7;

/// A chain of a seam whose edges run on in one another only in another order.
pub(in crate::check) fn out_of_order(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
) -> Option<Finding> {
    let seam = garment.seam(sewn.seam);
    let looking = Looking { size, sewn, finder: size.finder(garment) };
    let chains = seam.first.iter().chain(&seam.second);
    chains
        .map(|chain| (chain, named(chain)))
        .filter(|(_, named)| (3..=MOST_EDGES).contains(&named.len()))
        .find_map(|(chain, named)| {
            let (at, order) = looking.order(&named)?;
            Some(reported(garment, size, seam, (chain, &named), at, &order))
        })
}

/// The edges as the maker names them: of one on which something is caught that run is an edge of the chain too.
fn named(chain: &Chain) -> Vec<Vec<&SewnEdge>> {
    let mut found: Vec<Vec<&SewnEdge>> = Vec::new();
    for sewn in &chain.edges {
        match found.last_mut().filter(|before| before.first().is_some_and(|own| own.span == sewn.span)) {
            Some(own) => own.push(sewn),
            None => found.push(vec![sewn]),
        }
    }
    found
}

struct Looking<'a> {
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
    finder: Finder<'a>,
}

impl Looking<'_> {
    /// The place of the first edge that the one before it does not run on in, and the order in which all of them
    /// do; none where the order is right, or none is, or more than one.
    fn order(&self, named: &[Vec<&SewnEdge>]) -> Option<(usize, Vec<usize>)> {
        let all = |runs: &Vec<&SewnEdge>| runs.iter().flat_map(|sewn| self.places(sewn)).collect();
        let places: Vec<Vec<Place>> = named.iter().map(all).collect();
        let many = places.len();
        let mut meets = vec![vec![false; many]; many];
        for one in 0..many {
            for other in one + 1..many {
                let does = places[one].iter().any(|own| places[other].iter().any(|far| self.meet(own, far)));
                (meets[one][other], meets[other][one]) = (does, does);
            }
        }
        let wrong = (1..many).find(|&at| !meets[at - 1][at])?;
        let mut found: Vec<Vec<usize>> = Vec::new();
        let mut open: Vec<Vec<usize>> = (0..many).map(|first| vec![first]).collect();
        while let Some(row) = open.pop() {
            let Some(&last) = row.last() else { continue };
            if row.len() == many {
                // The same read backwards is found as well; of the two, the one that begins as it is written.
                let ends = row.first().copied().zip(row.last().copied());
                if ends.is_some_and(|(first, last)| first < last) {
                    found.push(row);
                }
                continue;
            }
            let next = (0..many).filter(|at| !row.contains(at) && meets[last][*at]);
            open.extend(next.map(|at| row.iter().copied().chain([at]).collect::<Vec<_>>()));
        }
        let mut all = found.into_iter();
        let order = all.next().filter(|_| all.next().is_none())?;
        Some((wrong, order))
    }

    fn places(&self, sewn: &SewnEdge) -> Vec<Place> {
        let layers = |layer: LayerId| sewn.layer.is_none_or(|own| own == layer);
        let own = self.sewn.layers.iter().copied().filter(|&layer| layers(layer));
        own.flat_map(|layer| self.finder.in_layer(layer, sewn)).collect()
    }

    /// Whether two edges lie beside one another on a piece, or another seam joins edges beside them.
    fn meet(&self, one: &Place, other: &Place) -> bool {
        let (own, far) = (self.beside(one), self.beside(other));
        if one.part == other.part {
            return own.contains(&(other.part, other.edge));
        }
        let sewn = &self.size.sewn.stitchings;
        sewn.iter().filter(|stitching| stitching.seam != self.sewn.seam).any(|stitching| {
            let takes = |edges: &[(PartId, DrawnEdgeId)]| {
                stitching.places().any(|place| edges.contains(&(place.part, place.edge)))
            };
            takes(&own) && takes(&far)
        })
    }

    fn beside(&self, place: &Place) -> Vec<(PartId, DrawnEdgeId)> {
        let drawn = self.finder.drawn(place.part).filter(|drawn| drawn.edges.len() > 1);
        drawn.map_or_else(Vec::new, |drawn| {
            vec![(place.part, drawn.before(place.edge)), (place.part, drawn.after(place.edge))]
        })
    }
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    (chain, named): (&Chain, &[Vec<&SewnEdge>]),
    at: usize,
    order: &[usize],
) -> Finding {
    let edge = |at: usize| named.get(at).and_then(|runs| runs.first().copied());
    let name = |sewn: &SewnEdge| {
        format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
    };
    let right: Vec<String> = order.iter().filter_map(|&at| edge(at)).map(name).collect();
    let word = |at: usize| edge(at).map(|sewn| words::edge(garment, sewn.edge)).unwrap_or_default();
    let span = |at: usize| edge(at).map_or(chain.span, |sewn| sewn.span);
    let title = format!(
        "the edges of {} are not named in the order in which they lie: {} does not run on in {}",
        seam.words(),
        word(at - 1),
        word(at)
    );
    let mistake = Diagnostic::new(&catalogue::SEAM_ENDS, span(at), title)
        .label("lies elsewhere")
        .also(span(at - 1), "runs on in another")
        .help(format!("write them as they follow one another: {}", right.join(" + ")));
    Finding::new(size.id(), 0.0, mistake).about(&*seam.name)
}
