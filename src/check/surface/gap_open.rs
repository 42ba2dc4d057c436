//! What keeps the space behind a gap open, where a gap is needed for nothing else: the one side of a pocket's bag that was not
//! sewn, a thumb that is open along its slit.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, SeamId};
use crate::sewing::surface::{FaceId, JoinedBy, Rim, Shut, Surface};
use indexmap::{IndexMap, IndexSet};

/// Of more rims than these it is not tried which of them keep a space open.
const MOST_TRIED: usize = 24;

/// Why no space is closed off behind a gap.
pub(in crate::check) enum Open {
    /// Nothing is to be closed off: it lies in one layer, or more than one kind of rim is open, as of a vest whose lining hangs free.
    Wide,
    /// It would be closed off but for these edges; and their words.
    Along(Vec<EdgeId>, String),
    /// Something is joined so that nothing would be, were all rims shut: that, and not the gap, is to be looked at.
    Odd,
}

/// Why no space is closed off behind the gap of a seam.
pub(in crate::check) fn open_at(garment: &Garment, size: &WorkedSize, surface: &Surface, id: SeamId) -> Open {
    let Some(mut rims) = rims_beside(size, surface, id) else { return Open::Wide };
    let closes = |rims: &[Rim]| closes(surface, id, rims);
    if !closes(&rims) {
        return Open::Odd;
    }
    rims.sort_by(|one, other| other.length(surface).total_cmp(&one.length(surface)));
    let mut at = 0;
    while at < rims.len() {
        let own = rims.remove(at);
        if !closes(&rims) {
            rims.insert(at, own);
            at += 1;
        }
    }
    along(garment, size, surface, &rims).unwrap_or(Open::Wide)
}

/// The open rims of all that hangs together with a seam; none where that lies in one layer.
fn rims_beside(size: &WorkedSize, surface: &Surface, id: SeamId) -> Option<Vec<Rim>> {
    let joined = surface.joins.iter().find(|join| is_of(&join.by, id))?;
    let start = surface.face_of(joined.plies.first()?.stretch);
    let component = surface.components().into_iter().find(|faces| faces.contains(&start))?;
    let layers: IndexSet<_> = component.iter().map(|&face| surface.face(face).layer).collect();
    if layers.len() < 2 {
        return None;
    }
    let shut = surface.shutting();
    let is_open =
        |rim: &Rim| rim.parts.iter().any(|part| shut.get(part.stretch.index()).is_some_and(Option::is_none));
    let is_beside =
        |rim: &Rim| rim.parts.first().is_some_and(|part| component.contains(&surface.face_of(part.stretch)));
    let mut rims = size.sewn.gluing.rims(surface);
    rims.retain(|rim| is_open(rim) && is_beside(rim));
    if rims.len() > MOST_TRIED {
        return None;
    }
    Some(rims)
}

/// Whether a space is closed off behind a seam, were these rims shut.
fn closes(surface: &Surface, id: SeamId, rims: &[Rim]) -> bool {
    let mut shut = surface.shutting();
    for part in rims.iter().flat_map(|rim| &rim.parts) {
        if let Some(own) = shut.get_mut(part.stretch.index()) {
            *own = own.or(Some(Shut::Closure(0)));
        }
    }
    let bags = surface.bags(&shut, |_| 0).unwrap_or_default();
    let joins = |face: &FaceId| {
        let mut joins = surface.stretches_of(*face).filter_map(|stretch| surface.stretch(stretch).join);
        joins.any(|join| is_of(&surface.join(join).by, id))
    };
    bags.iter().any(|bag| bag.faces.iter().any(joins))
}

fn is_of(by: &JoinedBy, id: SeamId) -> bool {
    matches!(by, JoinedBy::Seam { seam, .. } if *seam == id)
}

/// The edges of rims that are all alike.
fn along(garment: &Garment, size: &WorkedSize, surface: &Surface, rims: &[Rim]) -> Option<Open> {
    let edges = |rim: &Rim| -> IndexSet<(EdgeId, String)> {
        let edge = |stretch| {
            let part = size.sewn.part(surface.face(surface.face_of(stretch)).part).part;
            let edge = size.drawn.paper(part.paper)?.edge_at(surface.side_of(stretch).edge)?.edge;
            Some((garment.whole_edge(edge), words::piece(garment, part.piece)))
        };
        rim.parts.iter().filter_map(|part| edge(part.stretch)).collect()
    };
    let (first, others) = rims.split_first()?;
    let found = edges(first);
    // In each layer, and on the left and the right, it is the same.
    if others.iter().any(|rim| edges(rim).iter().any(|own| !found.contains(own))) {
        return None;
    }
    let mut named: IndexMap<String, Vec<String>> = IndexMap::new();
    for (edge, piece) in &found {
        named.entry(garment.edge_words(*edge)).or_default().push(piece.clone());
    }
    let named: Vec<String> =
        named.iter().map(|(edge, of)| format!("the {edge} of {}", words::listed(of))).collect();
    Some(Open::Along(found.into_iter().map(|(edge, _)| edge).collect(), words::listed(&named)))
}
