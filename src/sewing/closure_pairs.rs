//! Which copies of the two sides of a closure belong together.

use super::copies::times;
use super::hands::pair_closure;
use super::model::{PartId, Unpaired};
use super::sides::{Sided, by_side};
use super::stitching::{Finder, Place};
use crate::few::Few;
use crate::garment::{Chain, Closure, ClosureId, Garment, LayerId};
use crate::resolve::SizedGarment;
use crate::source::Span;
use crate::syntax::tree::Hand;

/// The edges of both sides of a closure in a layer, for each side of the body by itself where left and
/// right are told apart; none where one of them is not known.
pub(super) fn closure_sides(
    finder: &Finder,
    closure: &Closure,
    layer: Option<LayerId>,
) -> Option<Few<Sided>> {
    let mut sides: [Few<Few<Place>>; 2] = [Few::new(), Few::new()];
    for (side, chain) in sides.iter_mut().zip([&closure.first, &closure.second]) {
        let mut places = Vec::new();
        for sewn in &chain.edges {
            let named = finder.named_in(sewn.layer.or(layer)?, sewn)?;
            // Of a ring every copy, one after the other.
            let copies = |place: &Place| if chain.ring { finder.times(place.part) } else { 1 };
            let times = named.iter().map(copies).max().unwrap_or(1);
            (0..times).for_each(|_| places.extend(named.iter().copied()));
        }
        side.push(places.into());
    }
    Some(by_side(finder, sides, None, false))
}

/// Whether a closure runs along a line inside a piece.
pub(super) fn is_along_line(garment: &Garment, closure: &Closure) -> bool {
    let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
    edges.any(|sewn| garment.edge(sewn.edge).line)
}

/// Closures whose sides are not there equally often, each in the first layer in which that is so.
pub fn unpaired_closures(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
) -> Vec<(ClosureId, Unpaired)> {
    let mut found = Vec::new();
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let layers = finder.layers.of_chains(&[&closure.first, &closure.second]);
        let unpaired = layers.into_iter().find_map(|layer| match is_along_line(garment, closure) {
            true => along_line(garment, sized, finder, closure, layer),
            false => closure_sides(finder, closure, layer)?
                .iter()
                .find_map(|own| pair_closure(&own.sides, own.reach, finder).err()),
        });
        found.extend(unpaired.map(|unpaired| (id, unpaired)));
    }
    found
}

/// A part that a closure runs over: how often it is there, and where it is named.
type Named = (PartId, u32, Span);

fn along_line(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    closure: &Closure,
    layer: Option<LayerId>,
) -> Option<Unpaired> {
    let mut sides: [Vec<Named>; 2] = [Vec::new(), Vec::new()];
    for (side, chain) in sides.iter_mut().zip([&closure.first, &closure.second]) {
        for sewn in &chain.edges {
            let layer = sewn.layer.or(layer)?;
            let on_one_side = |part: PartId, times: u32| match (sewn.on, finder.hand(part)) {
                (Some(_), Some(_)) => times / 2,
                _ => times,
            };
            let not_right = |id: PartId| finder.hand(id) != Some(Hand::Right);
            for (id, part) in PartId::enumerate(finder.parts).filter(|(_, part)| part.layer == layer) {
                let Some(drawn) = sized.paper(part.paper).filter(|_| not_right(id)) else { continue };
                if drawn.lines.iter().any(|line| garment.is_run_of(line.edge, sewn.edge)) {
                    side.push((id, on_one_side(id, times(drawn)), sewn.span));
                }
            }
            for place in finder.in_layer(layer, sewn) {
                let times = finder.drawn(place.part).map(times)?;
                let first = if not_right(place.part) { place.part } else { finder.twin(place.part)? };
                if !side.iter().any(|(part, ..)| *part == first) {
                    side.push((first, on_one_side(place.part, times), sewn.span));
                }
            }
        }
    }
    let parts = |side: &[Named]| side.iter().map(|(part, ..)| *part).collect::<Vec<PartId>>();
    let lines = |chain: &Chain| chain.edges.iter().map(|sewn| sewn.edge).collect::<Vec<_>>();
    if parts(&sides[0]) == parts(&sides[1]) && lines(&closure.first) == lines(&closure.second) {
        // Left closes on right.
        let &(part, many, span) = sides[0].iter().find(|(_, times, _)| !times.is_multiple_of(2))?;
        return Some(Unpaired {
            fewer: part,
            few: many,
            few_span: span,
            more: part,
            many: 2,
            many_span: span,
        });
    }
    let all = || sides.iter().flatten();
    let (least, most) =
        (all().min_by_key(|(_, times, _)| *times)?, all().max_by_key(|(_, times, _)| *times)?);
    (least.1 != most.1).then_some(Unpaired {
        fewer: least.0,
        few: least.1,
        few_span: least.2,
        more: most.0,
        many: most.1,
        many_span: most.2,
    })
}
