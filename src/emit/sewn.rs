//! How a size is put together, for the document: fates, buttons and the like, and notions.

use super::documents::{
    FastenerDocument, FastenerRowDocument, FastenerWay, FateDocument, FateWay, NotionDocument, NotionWay,
    PointDocument, Side,
};
use super::fates::finish_word;
use super::number::Figure;
use crate::garment::{Catcher, ClosureId, Expression, FinishKind, Garment, HemEdge, NotionKind};
use crate::resolve::SizedGarment;
use crate::sewing::{EdgeFate, NotionNeed, NotionSource, Sewing, SewnPart, TakenBy, Taker, amount_of};
use crate::syntax::tree::{Fastener, Hand, ZipperKind};

/// What becomes of an edge.
pub(super) fn fates(garment: &Garment, sized: &SizedGarment, fate: &EdgeFate) -> Vec<FateDocument> {
    let inside = fate.folded_in.then(|| plain(FateWay::Inside, None));
    fate.takers.iter().map(|taker| fate_of(garment, sized, fate, taker)).chain(inside).collect()
}

/// A fate of which no more is to be said.
fn plain(by: FateWay, name: Option<String>) -> FateDocument {
    FateDocument {
        by,
        name,
        depth: None,
        turned_under: None,
        runs_on: Vec::new(),
        loops: Vec::new(),
        turn_up: None,
        folded: None,
        stitch: None,
    }
}

fn fate_of(garment: &Garment, sized: &SizedGarment, own: &EdgeFate, taker: &Taker) -> FateDocument {
    let (by, name) = match taker.what {
        TakenBy::Seam(id, _) => (FateWay::Seam, Some(garment.seam(id).name.to_string())),
        TakenBy::Finish(id) => (FateWay::Finish, Some(finish_word(&garment.finish(id).kind).to_owned())),
        TakenBy::Fold => (FateWay::Fold, None),
        TakenBy::Closure(id) => (FateWay::Closure, Some(garment.closure(id).name.to_string())),
        TakenBy::Strap(id) => (FateWay::Strap, Some(garment.strap(id).name.to_string())),
        TakenBy::Topstitched(id) => {
            let on = garment.piece(garment.placement(id).on);
            (FateWay::Topstitched, Some(on.name.to_string()))
        }
        TakenBy::Caught(_, Catcher::Seam(id)) => (FateWay::Caught, Some(garment.seam(id).name.to_string())),
        TakenBy::Caught(_, Catcher::Closure(id)) => {
            (FateWay::Caught, Some(garment.closure(id).name.to_string()))
        }
    };
    let mut fate = plain(by, name);
    if let TakenBy::Finish(id) = taker.what {
        let finish = garment.finish(id);
        let long = |said: &Expression| amount_of(garment, sized, said).map(Figure);
        (fate.depth, fate.turned_under) = match &finish.kind {
            FinishKind::Hem(hem) => {
                fate.turn_up = hem.turn_up.as_ref().and_then(long);
                fate.folded = fate.turn_up.zip(long(&hem.depth)).map(|(up, depth)| Figure(up.0 + depth.0));
                let under = match &hem.raw_edge {
                    HemEdge::TurnedOnce => None,
                    HemEdge::TurnedUnder(under) => Some(under),
                    HemEdge::TurnedTwice => Some(&hem.depth),
                };
                (long(&hem.depth), under.and_then(long))
            }
            FinishKind::Bound(binding) => {
                fate.runs_on = binding.running_on.iter().filter_map(|one| long(&one.length)).collect();
                fate.loops = binding.loops.iter().filter_map(|one| long(&one.length)).collect();
                (long(&binding.width), None)
            }
            FinishKind::Casing(depth, _) => {
                // What is turned under lies beyond the place where it is turned.
                let beyond = own.allowance.zip(own.turned_under).map(|(all, at)| all - at);
                (long(depth), beyond.filter(|under| *under > 0.0).map(Figure))
            }
            FinishKind::Elastic(depth, _) => (long(depth), None),
            FinishKind::Tape(width) => (width.as_ref().and_then(long), None),
            FinishKind::TurnedUnderOnto(_)
            | FinishKind::Overlocked
            | FinishKind::Raw
            | FinishKind::Poison => (None, None),
        };
        fate.stitch = finish.stitch.as_ref().map(|stitch| stitch.number);
    }
    fate
}

/// The buttons and the like marked on a part.
pub(super) fn fasteners(garment: &Garment, part: &SewnPart) -> Vec<FastenerDocument> {
    let places = part.fasteners.iter();
    places
        .map(|place| FastenerDocument {
            kind: fastener_way(place.kind),
            closure: garment.closure(place.closure).name.to_string(),
            at: PointDocument { x: Figure(place.at.x), y: Figure(place.at.y) },
            size: place.size.map(Figure),
            over: place.over.map(|hand| match hand {
                Hand::Left => Side::Left,
                Hand::Right => Side::Right,
            }),
        })
        .collect()
}

fn fastener_way(kind: Fastener) -> FastenerWay {
    match kind {
        Fastener::Button => FastenerWay::Button,
        Fastener::Snap => FastenerWay::Snap,
        Fastener::Hook => FastenerWay::Hook,
        Fastener::Toggle => FastenerWay::Toggle,
        Fastener::Buckle => FastenerWay::Buckle,
        Fastener::Tie => FastenerWay::Tie,
    }
}

/// The row of buttons or the like of a closure.
pub(super) fn fastener_row(sewing: &Sewing, closure: ClosureId) -> Option<FastenerRowDocument> {
    let row = sewing.fasteners.iter().find(|row| row.closure == closure)?;
    Some(FastenerRowDocument {
        count: row.count,
        size: row.size.map(Figure),
        spacing: row.spacing.map(Figure),
        buttonhole: row.buttonhole.map(Figure),
    })
}

/// What has to be bought.
pub(super) fn notions(garment: &Garment, sewing: &Sewing) -> Vec<NotionDocument> {
    sewing.notions.iter().map(|need| notion(garment, need)).collect()
}

/// One thing that has to be bought.
pub(super) fn notion(garment: &Garment, need: &NotionNeed) -> NotionDocument {
    let (kind, has_width) = match need.name.kind {
        NotionKind::Zip(Some(ZipperKind::Separating)) => (NotionWay::SeparatingZip, false),
        NotionKind::Zip(Some(ZipperKind::Closed)) => (NotionWay::ClosedZip, false),
        NotionKind::Zip(Some(ZipperKind::Concealed)) => (NotionWay::ConcealedZip, false),
        NotionKind::Zip(None) => (NotionWay::Zip, false),
        NotionKind::Fastener(Fastener::Button) => (NotionWay::Button, true),
        NotionKind::Fastener(Fastener::Snap) => (NotionWay::Snap, true),
        NotionKind::Fastener(Fastener::Hook) => (NotionWay::Hook, false),
        NotionKind::Fastener(Fastener::Toggle) => (NotionWay::Toggle, true),
        NotionKind::Fastener(Fastener::Buckle) => (NotionWay::Buckle, true),
        NotionKind::Fastener(Fastener::Tie) => (NotionWay::Tie, false),
        NotionKind::Elastic => (NotionWay::Elastic, true),
        NotionKind::Binding => (NotionWay::Binding, true),
        NotionKind::Tape => (NotionWay::Tape, true),
        NotionKind::Cord(_) => (NotionWay::Cord, false),
        NotionKind::Other(_) => (NotionWay::Other, false),
    };
    NotionDocument {
        what: notion_words(garment, need),
        kind,
        width: need.name.measure.filter(|_| has_width).map(Figure),
        of: asked_by(garment, need.source),
        count: need.count,
        length: need.length.map(Figure),
        joining: need.joining.map(Figure),
        stretch: need.stretch.map(Figure),
        cut_from: need.cut_from.map(|fabric| garment.fabric(fabric).name.to_string()),
    }
}

/// What a need is called: as the maker lists it, else by its kind and measure.
pub(super) fn notion_words(garment: &Garment, need: &NotionNeed) -> String {
    match need.source {
        NotionSource::Listed(id) => garment.notion(id).title.to_string(),
        _ => match need.stretch {
            Some(stretch) => {
                format!("{} that stretches {}%", need.name.words(garment), (100.0 * stretch).round())
            }
            None => need.name.words(garment),
        },
    }
}

/// What asks for something to be bought, by name.
pub(super) fn asked_by(garment: &Garment, source: NotionSource) -> Option<String> {
    match source {
        NotionSource::Closure(id) => Some(garment.closure(id).name.to_string()),
        NotionSource::Seam(id) => Some(garment.seam(id).name.to_string()),
        NotionSource::Cord(id) => Some(garment.cord(id).name.to_string()),
        NotionSource::Finish(id) => {
            let edges = garment.finish(id).edges.iter().map(|sewn| {
                format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
            });
            Some(edges.collect::<Vec<_>>().join(", "))
        }
        NotionSource::Listed(_) => None,
    }
}
