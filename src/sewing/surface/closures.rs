//! Closures, once for every time that there is one.

use super::super::closure_pairs::{closure_sides, is_along_line};
use super::super::ends::Corners;
use super::super::hands;
use super::faces::Faces;
use super::model::PlyAt;
use super::model::{FaceId, SideId};
use super::plies::{Ply, Run};
use crate::few::Few;
use crate::garment::{Chain, Closure, ClosureId, ClosureKind, CutHow, Garment, LayerId};
use crate::id_hash::IdMap;
use crate::once_each::once_each;
use crate::resolve::{DrawnEdgeId, SizedGarment, finished};
use crate::sewing::model::PartId;
use crate::sewing::seams::strand::Strand;
use crate::sewing::sides::Sided;
use crate::sewing::stitching::Finder;
use crate::syntax::tree::Hand;

/// A closure, one of the times that it is there.
#[derive(Clone, Debug)]
pub(super) struct Closing {
    pub(super) closure: ClosureId,
    pub(super) time: u32,
    /// Nothing else becomes of its edges.
    pub(super) takes_edges: bool,
    /// Both sides; none where its line runs inside a piece.
    pub(super) sides: Option<[Ply; 2]>,
    pub(super) faces: [Vec<FaceId>; 2],
    pub(super) lengths: [f64; 2],
}

/// Every closure. None where one is unknown.
pub(super) fn closings(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    corners: &mut Corners,
    faces: &Faces,
) -> Option<Vec<Closing>> {
    let mut all = Vec::new();
    let mut closing = Finding { garment, sized, finder, corners, faces };
    for (at, closure) in garment.closures.iter().enumerate() {
        closure.kind.as_ref()?;
        for layer in closing.finder.layers.of_chains(&[&closure.first, &closure.second]) {
            closing.in_layer(ClosureId::from_index(at), closure, layer, &mut all)?;
        }
    }
    Some(all)
}

struct Finding<'a, 'b, 'c> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &'b Finder<'a>,
    corners: &'b mut Corners<'c>,
    faces: &'b Faces,
}

impl Finding<'_, '_, '_> {
    fn in_layer(
        &mut self,
        id: ClosureId,
        closure: &Closure,
        layer: Option<LayerId>,
        all: &mut Vec<Closing>,
    ) -> Option<()> {
        if is_along_line(self.garment, closure) {
            return self.along_lines(id, [&closure.first, &closure.second], layer, all);
        }
        let first = all.len();
        for sided in closure_sides(self.finder, closure, layer)?.iter() {
            let before = (all.len() - first) as u32;
            self.closed(id, closure, sided, before, all)?;
        }
        Some(())
    }

    /// A closure, of one side of the body or of both.
    fn closed(
        &mut self,
        id: ClosureId,
        closure: &Closure,
        sided: &Sided,
        before: u32,
        all: &mut Vec<Closing>,
    ) -> Option<()> {
        let Sided { sides, reach, .. } = sided;
        let pairing = hands::pair_closure(sides, *reach, self.finder).ok()?;
        let mut strands = Vec::with_capacity(2);
        for (second, plies) in sides.iter().enumerate() {
            let hand = hands::hand_of_side(plies, second == 1, *reach, pairing.way, self.finder);
            let hand_of = |part: PartId| hands::hand_of(part, hand, self.finder);
            for places in plies {
                let mut strand = Strand::of(self.corners, places, &hand_of)?;
                // Copies in a ring run on one way, though ends of one name seem to meet.
                let ring = if second == 1 { closure.second.ring } else { closure.first.ring };
                if let (true, Some(first)) = (ring, strand.links.first().map(|link| link.reversed)) {
                    strand.links.iter_mut().for_each(|link| link.reversed = first);
                }
                strands.push(strand);
            }
        }
        let [first, mut second] = <[Strand; 2]>::try_from(strands).ok()?;
        if self.is_turned(&first, &second) {
            second.turn();
        }
        for time in 0..pairing.sewings {
            let mut seen: IdMap<(PartId, DrawnEdgeId), u32> = IdMap::default();
            let named = first.links.iter().chain(&second.links).fold(IdMap::default(), |mut named, link| {
                *named.entry((link.part, link.edge)).or_insert(0) += 1;
                named
            });
            let mut ply = |strand: &Strand, at: PlyAt| -> Option<Ply> {
                let many = strand.links.len();
                let mut runs = Few::new();
                for (place, link) in strand.links.iter().enumerate() {
                    let before = seen.entry((link.part, link.edge)).or_insert(0);
                    let nth = named.get(&(link.part, link.edge)).copied().unwrap_or(1) * time + *before;
                    *before += 1;
                    let nth = self.faces.nth_on(link.part, nth, *reach);
                    let found = self.faces.side(link.part, link.edge, nth)?;
                    let length = self.length(found.side)?;
                    let against = match found.to_fold {
                        Some(to_fold) if many > 1 => to_fold != (place > 0),
                        _ => link.reversed != found.mirrored,
                    };
                    runs.push(Run { side: found.side, against, length, elsewhere: false });
                }
                Some(Ply { at, runs })
            };
            let sides = [ply(&first, PlyAt::First(0))?, ply(&second, PlyAt::Second(0))?];
            let faces = [&sides[0], &sides[1]].map(|ply| self.faces_of(&ply.runs));
            let lengths = [sides[0].length(), sides[1].length()];
            let takes_edges = closure.kind.as_ref().is_none_or(ClosureKind::takes_edges);
            all.push(Closing {
                closure: id,
                time: before + time,
                takes_edges,
                sides: Some(sides),
                faces,
                lengths,
            });
        }
        Some(())
    }

    /// Whether the second side runs the other way: its corners say so, or it is the first side's twin.
    fn is_turned(&self, first: &Strand, second: &Strand) -> bool {
        let same =
            |one, other, corners: &Corners| corners.same_point(one, other) || corners.same_name(one, other);
        let along = u8::from(same(first.start, second.start, self.corners))
            + u8::from(same(first.end, second.end, self.corners));
        let against = u8::from(same(first.start, second.end, self.corners))
            + u8::from(same(first.end, second.start, self.corners));
        if along != against {
            return against > along;
        }
        match (first.links.as_slice(), second.links.as_slice()) {
            // Two edges of one copy close face to face.
            ([one], [other]) if one.part == other.part && one.edge != other.edge => {
                one.reversed == other.reversed
            }
            _ => false,
        }
    }

    fn length(&self, side: SideId) -> Option<f64> {
        self.faces.sides.get(side.index()).map(|side| side.length)
    }

    fn faces_of(&self, runs: &[Run]) -> Vec<FaceId> {
        let mut faces: Vec<FaceId> = runs
            .iter()
            .filter_map(|run| self.faces.sides.get(run.side.index()))
            .map(|side| side.face)
            .collect();
        once_each(&mut faces);
        faces
    }

    /// Buttons along a line: left and right copies, or the copies of two pieces, in their order.
    fn along_lines(
        &self,
        id: ClosureId,
        chains: [&Chain; 2],
        layer: Option<LayerId>,
        all: &mut Vec<Closing>,
    ) -> Option<()> {
        let mut sides: [Vec<(PartId, f64)>; 2] = [Vec::new(), Vec::new()];
        for (side, chain) in sides.iter_mut().zip(chains) {
            for sewn in &chain.edges {
                let layer = sewn.layer.or(layer)?;
                let is_meant = |id: PartId| match self.finder.hand(id) {
                    Some(own) => own == sewn.on.unwrap_or(Hand::Left),
                    None => true,
                };
                for (id, part) in PartId::enumerate(self.finder.parts)
                    .filter(|&(id, part)| part.layer == layer && is_meant(id))
                {
                    let Some(drawn) = self.sized.paper(part.paper) else {
                        continue;
                    };
                    let line = drawn.lines.iter().filter(|line| self.garment.is_run_of(line.edge, sewn.edge));
                    side.extend(line.map(|line| (id, line.path.length())));
                }
                for place in
                    self.finder.in_layer(layer, sewn).into_iter().filter(|place| is_meant(place.part))
                {
                    let drawn = self.finder.drawn(place.part)?;
                    side.push((place.part, finished(self.garment, drawn, place.edge)?));
                }
            }
        }
        let lengths = [0, 1].map(|side| sides[side].iter().map(|(_, length)| length).sum::<f64>());
        let parts = [0, 1].map(|side| sides[side].iter().map(|(part, _)| *part).collect::<Vec<_>>());
        // The left and the right copy of one line; of two lines of one piece every copy closes on itself.
        let lines = |chain: &Chain| chain.edges.iter().map(|sewn| sewn.edge).collect::<Vec<_>>();
        let crossed = parts[0] == parts[1] && lines(chains[0]) == lines(chains[1]);
        // Of what is told apart, the left parts stand for both, unless one side alone is named.
        let one_sided = chains.iter().flat_map(|chain| &chain.edges).any(|sewn| sewn.on.is_some());
        let both = |part: PartId| !one_sided && self.finder.hand(part).is_some();
        let times = |part: PartId| {
            let own = self.faces.copies(part)?.times;
            Some(if both(part) { 2 * own } else { own })
        };
        let times = parts[0].iter().filter_map(|part| times(*part)).min()?;
        let halves = |part: PartId, time: u32, second: bool| -> Option<FaceId> {
            let nth = if crossed { 2 * time + u32::from(second) } else { time };
            if both(part) {
                let own = if nth % 2 == 0 { part } else { self.finder.twin(part)? };
                let copies = self.faces.copies(own)?;
                return (nth / 2 < copies.times).then(|| copies.face(nth / 2));
            }
            let copies = self.faces.copies(part)?;
            let handed = copies.cut != CutHow::Alike;
            (nth < copies.times || !handed).then(|| copies.face(nth.min(copies.times.saturating_sub(1))))
        };
        for time in 0..if crossed { (times / 2).max(1) } else { times } {
            let faces = [false, true].map(|second| {
                let parts = &parts[usize::from(second)];
                parts.iter().filter_map(|&part| halves(part, time, second)).collect::<Vec<FaceId>>()
            });
            all.push(Closing { closure: id, time, takes_edges: false, sides: None, faces, lengths });
        }
        Some(())
    }
}
