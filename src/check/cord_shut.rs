//! `cord/shut`: a cord whose ends are to hang out of a channel that is closed all round.

use super::cords::NARROWEST;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Cord, CordId, FinishKind, Garment, LayerId, PieceId, SewnEdge, StitchedRow};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, SizedGarment, sewn_layer};
use crate::sewing::{Finder, Place, RunsThrough, TakenBy, Taker, amount_of, tacked};
use crate::shape::Point;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CORD_SHUT], run: Run::PerSize(run) };

/// What a cord may be longer than its channel without an end that hangs out, in millimetres: its ends are sewn
/// together inside.
const JOINED: f64 = 50.0;
/// An eyelet lies so far beyond its channel at the most, in millimetres: its rim, and how a maker measures.
const BEYOND: f64 = 10.0;
/// So far from its seam a channel between two layers lies at the most, in millimetres.
const BETWEEN: f64 = 60.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let own =
            || size.sewn.channels.iter().flatten().filter(|channel| channel.of == RunsThrough::Cord(id));
        let look = Look { garment, size, finder: size.finder(garment) };
        // What is no ring ends in seams at both ends, as between an outer and a lining that are sewn together all round.
        let ring = own().find(|channel| channel.ring);
        let Some(ring) = ring.or_else(|| own().next().filter(|_| look.is_closed_in(cord))) else { continue };
        let long = amount_of(garment, &size.drawn, &cord.length);
        let ends = cord.ends.as_ref().map(|said| amount_of(garment, &size.drawn, said));
        // Ends that are longer than the cord are told as that.
        let hangs_out = long.is_some_and(|long| match ends {
            Some(ends) => ends.is_some_and(|ends| ends > 0.0 && 2.0 * ends <= long),
            None => long > ring.length + JOINED,
        });
        if hangs_out && !look.comes_out(cord) {
            findings.push(look.shut(cord, ring.ring, ends.flatten()));
        }
    }
}

/// How far from some edges the last row lies that is stitched beside one of them; none where none is known.
pub(super) fn furthest_row(garment: &Garment, sized: &SizedGarment, edges: &[&SewnEdge]) -> Option<f64> {
    let same = |one: &SewnEdge, other: &SewnEdge| {
        garment.is_run_of(one.edge, other.edge) || garment.is_run_of(other.edge, one.edge)
    };
    let is_beside =
        |row: &&StitchedRow| row.edges.iter().any(|beside| edges.iter().any(|edge| same(edge, &beside.sewn)));
    let far = |row: &StitchedRow| {
        let first = amount_of(garment, sized, row.distance.as_ref()?)?;
        let more = match &row.rows {
            Some((count, apart)) => {
                (amount_of(garment, sized, count)? - 1.0) * amount_of(garment, sized, apart)?
            }
            None => 0.0,
        };
        Some(first + more.max(0.0))
    };
    garment.rows.iter().filter(is_beside).filter_map(far).reduce(f64::max)
}

struct Look<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    finder: Finder<'a>,
}

/// An edge along which a channel lies, and how far from it its cloth is the channel's; all of it where none is said.
struct Along {
    place: Place,
    reach: Option<f64>,
}

impl Look<'_> {
    /// Whether anything lets the ends out. What is not known may.
    fn comes_out(&self, cord: &Cord) -> bool {
        let mut along = Vec::new();
        for sewn in &cord.through {
            let Some(layer) = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece)) else {
                return true;
            };
            for place in self.finder.in_layer(layer, sewn) {
                let Some(found) = self.along(place) else { return true };
                along.extend(found);
            }
        }
        along.is_empty()
            || along.iter().any(|one| self.has_gap(&one.place) || self.has_slit(one))
            || self.has_eyelet(&along)
    }

    /// Whether it runs between two layers that are sewn to one another, and all edges beside its own are in seams as well.
    fn is_closed_in(&self, cord: &Cord) -> bool {
        let taken = |place: &Place, edge: DrawnEdgeId| {
            let fate = self.size.sewn.part(place.part).fate(edge);
            fate.map(|fate| fate.takers.as_slice()).unwrap_or_default()
        };
        let is_between = |place: &Place| match taken(place, place.edge) {
            [Taker { what: TakenBy::Seam(id, _), .. }] => {
                let seam = self.garment.seam(*id);
                let edges = || seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
                let layers: Vec<Option<LayerId>> = edges().map(|sewn| sewn.layer).collect();
                let is_plain = edges().all(|sewn| self.garment.piece(sewn.piece).folds.is_empty());
                is_plain && layers.iter().any(|layer| *layer != layers.first().copied().flatten())
            }
            _ => false,
        };
        let is_shut = |place: &Place| {
            let Some(drawn) = self.finder.drawn(place.part) else { return false };
            [drawn.before(place.edge), drawn.after(place.edge)].into_iter().all(|beside| {
                let is_closed = |taker: &Taker| matches!(taker.what, TakenBy::Seam(..) | TakenBy::Fold);
                taken(place, beside).iter().any(is_closed)
            })
        };
        let mut places = cord.through.iter().flat_map(|sewn| self.named(sewn)).peekable();
        places.peek().is_some() && places.all(|place| is_between(&place) && is_shut(&place))
    }

    /// The edges that make the channel: of a seam between two layers, both sides of it.
    fn along(&self, place: Place) -> Option<Vec<Along>> {
        let garment = self.garment;
        let fate = self.size.sewn.part(place.part).edges.get(place.edge.index())?;
        let [taker] = fate.takers.as_slice() else { return None };
        let known =
            |said| amount_of(garment, &self.size.drawn, said).map(|deep| Some(deep.max(0.0) + BEYOND));
        let reach = match taker.what {
            TakenBy::Finish(id) => match &garment.finish(id).kind {
                FinishKind::Hem(hem) => known(&hem.depth)?,
                FinishKind::Casing(depth, _) => known(depth)?,
                FinishKind::Bound(_) | FinishKind::Elastic(..) => Some(BETWEEN),
                // No channel, which is told as that.
                _ => return None,
            },
            TakenBy::Seam(id, _) => {
                let seam = garment.seam(id);
                let edges = || seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
                let is_folded = |piece: PieceId| !garment.piece(piece).folds.is_empty();
                if is_folded(self.size.sewn.part(place.part).part.piece) {
                    None
                } else {
                    let all = edges().flat_map(|sewn| self.named(sewn));
                    let named: Vec<&SewnEdge> = edges().collect();
                    // What lies beyond the row that makes the channel lies beside it.
                    let row = furthest_row(garment, &self.size.drawn, &named);
                    let row = row.filter(|far| *far >= NARROWEST).map(|far| far + BEYOND);
                    let reach = Some(row.unwrap_or(BETWEEN));
                    return Some(all.map(|place| Along { place, reach }).collect());
                }
            }
            _ => None,
        };
        Some(vec![Along { place, reach }])
    }

    fn named(&self, sewn: &SewnEdge) -> Vec<Place> {
        let layer: Option<LayerId> = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece));
        layer.map_or_else(Vec::new, |layer| self.finder.in_layer(layer, sewn))
    }

    /// A gap in the seam along the channel, or in one that ends at it.
    fn has_gap(&self, place: &Place) -> bool {
        let sewn = self.size.sewn.part(place.part);
        let Some(drawn) = self.finder.drawn(place.part) else { return true };
        let beside = [place.edge, drawn.before(place.edge), drawn.after(place.edge)];
        let fates = beside.into_iter().filter_map(|edge| sewn.edges.get(edge.index()));
        fates.flat_map(|fate| &fate.takers).any(|taker| match taker.what {
            TakenBy::Seam(id, _) => {
                let gaps = &self.garment.seam(id).gaps;
                gaps.iter().any(|gap| gap.layer.is_none_or(|layer| layer == sewn.part.layer))
            }
            _ => false,
        })
    }

    fn has_slit(&self, along: &Along) -> bool {
        let Some(drawn) = self.finder.drawn(along.place.part) else { return true };
        let first = drawn.outline().len();
        let mut sides = drawn.edges.iter().skip(first);
        sides.any(|side| self.lies_on(along, side.path.start()))
    }

    /// What is set at a place of the channel: an eyelet, a buttonhole that is counted.
    fn has_eyelet(&self, along: &[Along]) -> bool {
        let ends = self.garment.tacks.iter().filter(|tack| tack.sets.is_some()).flat_map(|tack| &tack.ends);
        let mut places = ends.flat_map(|end| tacked(self.garment, &self.size.drawn, &self.finder, end));
        places.any(|(part, at)| {
            let piece = self.size.sewn.part(part).part.piece;
            let own = along.iter().filter(|one| self.size.sewn.part(one.place.part).part.piece == piece);
            match at {
                Ok(at) => own.into_iter().any(|one| self.lies_on(one, at)),
                Err(_) => own.count() > 0,
            }
        })
    }

    fn lies_on(&self, along: &Along, at: Point) -> bool {
        let Some(reach) = along.reach else { return true };
        let drawn = self.finder.drawn(along.place.part);
        let edge = drawn.and_then(|drawn| drawn.edges.get(along.place.edge.index()));
        edge.is_none_or(|edge| edge.path.nearest(at).distance <= reach)
    }

    fn shut(&self, cord: &Cord, is_ring: bool, ends: Option<f64>) -> Finding {
        let garment = self.garment;
        let first = cord.through.first();
        let edge = first.map_or_else(String::new, |sewn| words::edge(garment, sewn.edge));
        let closed = if is_ring { "closed all round" } else { "sewn shut at both ends" };
        let title = Title::new(format!(
            "nothing lets {} out of its channel along {edge}, which is {closed}",
            cord.name
        ))
        .in_sizes();
        let span = first.map_or(cord.span, |sewn| sewn.span);
        let label =
            if is_ring { "a ring without an opening" } else { "between layers that are sewn together" };
        let mut warning = Diagnostic::new(&catalogue::CORD_SHUT, span, title).label(label);
        if let (Some(said), Some(ends)) = (&cord.ends, ends) {
            let out = amount(ends, garment.unit);
            warning = warning.also(said.span, format!("{out} are to hang out at each end"));
        }
        let piece = first.map_or_else(String::new, |sewn| garment.piece(sewn.piece).name.to_string());
        let help = format!(
            "draw marks on it where the ends come out, and set eyelets there: set {0}_eyelets \"eyelet\" at \
             {piece}.left_hole, {piece}.right_hole; or let a seam end before it, with a hem of its own; or say ends 0, \
             where the cord stays inside",
            cord.name
        );
        Finding::new(self.size.id(), 0.0, warning.help(help)).about(&*cord.name)
    }
}
