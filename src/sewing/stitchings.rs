//! Every seam as often as it is sewn: in each layer, and on each side of the body where these differ.

use super::copies::{is_in_middle, lying_in_plies};
use super::model::PartId;
use super::reach::Reach;
use super::sides::{Sided, by_side};
use super::stitching::{Finder, Place, Stitching};
use crate::few::Few;
use crate::garment::{Chain, LayerId, RingWay, Seam, SeamId, SewnEdge};
use crate::id_hash::IdSet;
use crate::resolve::DrawnEdgeId;

impl Finder<'_> {
    /// The sides of a seam with the runs that something else takes, if there are any.
    fn with_taken_out(
        &self,
        seam: &Seam,
        layer: Option<LayerId>,
        sides: &[Few<Few<Place>>; 2],
    ) -> Option<Box<[Few<Few<Place>>; 2]>> {
        if self.garment.portions.is_empty() && !self.has_sides() {
            return None;
        }
        // A run that the seam itself names beside what is left of its edge stands there already.
        let named = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        let named = named.filter(|sewn| self.garment.is_portion(sewn.edge));
        let named: Vec<Place> =
            named.filter_map(|sewn| Some(self.in_layer(sewn.layer.or(layer)?, sewn))).flatten().collect();
        let is_named =
            |place: &Place| named.iter().any(|own| (own.part, own.edge) == (place.part, place.edge));
        let places = |sewn: &SewnEdge| -> Few<Place> {
            let Some(layer) = sewn.layer.or(layer) else { return Few::new() };
            match self.garment.is_portion(sewn.edge) {
                true => self.in_layer(layer, sewn).into(),
                false => self.through(layer, sewn).into_iter().filter(|place| !is_named(place)).collect(),
            }
        };
        let through =
            [&seam.first, &seam.second].map(|chains| plies(chains, layer, &mut |sewn| places(sewn)));
        let many = |sides: &[Few<Few<Place>>; 2]| sides.iter().flatten().map(|ply| ply.len()).sum::<usize>();
        (many(&through) > many(sides)).then(|| Box::new(through))
    }

    /// Every seam in every layer that it is sewn in.
    pub fn stitchings(&self) -> Vec<Stitching> {
        let mut all = Vec::with_capacity(self.garment.seams.len());
        for (id, seam) in SeamId::enumerate(&self.garment.seams) {
            for &layer in &self.layers.of_seam(seam) {
                let mut whole = true;
                let mut places = |sewn: &SewnEdge| -> Few<Place> {
                    let mut places = Few::new();
                    let is_there = sewn.layer.or(layer).is_some_and(|layer| {
                        self.each_in_layer(layer, sewn, &mut |place| places.push(place))
                    });
                    // What one side takes may leave nothing on the other, and what is caught nothing of its edge.
                    let none_left = || self.has_sides() || self.garment.names_run_of(seam, sewn.edge);
                    whole &= !places.is_empty() || is_there && none_left();
                    places
                };
                let sides = [&seam.first, &seam.second].map(|chains| plies(chains, layer, &mut places));
                let through = self.with_taken_out(seam, layer, &sides);
                let goes_round = seam.ring().is_some_and(|ring| ring.way == RingWay::AllInOne);
                let mut add = |Sided { sides, through, right, right_through, reach }| {
                    let (seam, in_plies) = (id, Few::new());
                    let one = Stitching {
                        seam,
                        layer,
                        sides,
                        through,
                        right,
                        right_through,
                        in_plies,
                        reach,
                        whole,
                    };
                    all.push(one);
                };
                match self.has_sides() {
                    true => by_side(self, sides, through, goes_round).into_iter().for_each(add),
                    false => add(Sided { through, ..Sided::both(sides) }),
                }
            }
        }
        self.find_in_plies(&mut all);
        all
    }

    /// Finds the parts of which several plies of a side each take another copy.
    fn find_in_plies(&self, all: &mut [Stitching]) {
        let in_plies = |one: &Stitching| one.sides.iter().any(|side| side.len() > 1);
        if !all.iter().any(in_plies) {
            return;
        }
        let mut crossed: IdSet<(PartId, DrawnEdgeId)> = IdSet::default();
        for one in all.iter() {
            let [first, second] = [0, 1].map(|side| one.sides.iter().skip(side).take(1).flatten().flatten());
            let first: Vec<_> = first.map(|place| (place.part, place.edge)).collect();
            let is_across = one.reach == Reach::Across;
            crossed.extend(first.iter().filter(|_| is_across));
            let second = second.map(|place| (place.part, place.edge));
            crossed.extend(second.filter(|edge| is_across || first.contains(edge)));
        }
        let is_crossed = |part: PartId, edge: DrawnEdgeId| crossed.contains(&(part, edge));
        for one in all.iter_mut().filter(|one| in_plies(one)) {
            one.in_plies = lying_in_plies(self, &one.sides, &|place| is_in_middle(self, place, &is_crossed));
        }
    }
}

/// The plies of a side, each of edges end to end. One that lies on a part of another is as long as that: its
/// other edges are those of the other.
fn plies(
    chains: &[Chain],
    layer: Option<LayerId>,
    places: &mut dyn FnMut(&SewnEdge) -> Few<Place>,
) -> Few<Few<Place>> {
    let mut all = Few::new();
    let is_elsewhere = |chain: &&Chain| chain.only.zip(layer).is_some_and(|(only, layer)| only != layer);
    for chain in chains.iter().filter(|chain| !is_elsewhere(chain)) {
        let Some(under) = chain.over.and_then(|over| Some((over, chains.get(over.ply)?))) else {
            all.push(match chain.edges.as_slice() {
                [only] => places(only),
                edges => {
                    let mut ply = Vec::with_capacity(edges.len());
                    edges.iter().for_each(|sewn| ply.extend(places(sewn)));
                    ply.into()
                }
            });
            continue;
        };
        let own: Vec<Few<Place>> = chain.edges.iter().map(&mut *places).collect();
        let (over, host) = under;
        let mut ply = Few::new();
        for (at, sewn) in host.edges.iter().enumerate() {
            match at == over.edge {
                true => ply.extend(own.iter().flatten().copied()),
                false => ply.extend(places(sewn).into_iter().map(|place| Place { elsewhere: true, ..place })),
            }
        }
        all.push(ply);
    }
    all
}
