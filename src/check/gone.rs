//! `edge/gone`, `point/gone` and `place/gone`: what an alteration has taken away, though something is done
//! to it. Looked for where something could not be worked out.

use super::words;
use crate::garment::{
    Alteration, Garment, Outline, PieceId, PlacedCorner, Placement, SewnEdge, TackEnd, TackSpot,
};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnPiece, SizedGarment};

/// An edge or a line that is gone, and that something is done to; `otherwise` is the way out for who does not
/// need it.
pub(super) fn edge(
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnEdge,
    done: &str,
    otherwise: &str,
) -> Option<Finding> {
    if !sized.runs_of(garment, sewn).is_empty() {
        return None;
    }
    let whole = garment.whole_edge(sewn.edge);
    // A side of a slit goes with the edge that the slit is cut from.
    let of_slit = || {
        let slit = garment.take_up(garment.edge(whole).side_of?)?;
        sized.edge_taken_by(garment, slit.edge()?)
    };
    let Some(by) = sized.edge_taken_by(garment, whole).or_else(of_slit) else {
        return beside_strip(garment, sized, sewn, done);
    };
    let (piece, name) = (&garment.piece(sewn.piece).title, &garment.edge(whole).name);
    let title = Title::new(format!("{piece} has no {name} to be {done}")).in_sizes();
    let now = where_it_is(garment, sized, garment.alteration(by), |drawn| {
        let lines = drawn.lines.iter().map(|line| line.edge);
        drawn.edges.iter().map(|edge| edge.edge).chain(lines).any(|own| {
            let other = garment.edge(own);
            garment.is_run_of(own, whole)
                || other.same_run_as.is_some_and(|one| Some(one) == garment.edge(whole).same_run_as)
        })
    });
    let mistake = Diagnostic::new(&catalogue::EDGE_GONE, sewn.span, title).label("named here");
    let mistake = match now {
        Some(other) => mistake
            .also(garment.alteration(by).span, format!("{name} goes to {} here", garment.piece(other).title))
            .help(swapped(garment, sewn.piece, other, &format!("{}.{name}", garment.piece(other).name))),
        None => mistake
            .also(garment.alteration(by).span, format!("{name} is removed here"))
            .help(format!("name the edge that is there now, or {otherwise}")),
    };
    Some(Finding::new(sized.size, 1.0, mistake).about(&**name))
}

/// An edge of the piece that a strip or a rest is taken from, which this has no part of.
fn beside_strip(garment: &Garment, sized: &SizedGarment, sewn: &SewnEdge, done: &str) -> Option<Finding> {
    let piece = garment.piece(sewn.piece);
    let (Outline::Strip { of, span, .. } | Outline::Rest { of, span, .. }) = &piece.drawing.outline else {
        return None;
    };
    let drawn = piece.papers.iter().find_map(|&paper| sized.paper(paper))?;
    if sized.is_partly_undrawn(garment, sewn.piece) {
        return None;
    }
    let name = &garment.edge(garment.whole_edge(sewn.edge)).name;
    let title = Title::new(format!("{} has no {name} to be {done}", piece.title)).in_sizes();
    let mut own: Vec<&str> = drawn.edges.iter().map(|edge| &*garment.edge(edge.edge).name).collect();
    once_each(&mut own);
    let base = &garment.piece(garment.paper(of.paper).piece).title;
    let mistake = Diagnostic::new(&catalogue::EDGE_GONE, sewn.span, title)
        .label("named here")
        .also(*span, format!("made of {base}, without its {name}"))
        .help(format!("its edges are {}: name one of them, or leave this out", own.join(", ")));
    Some(Finding::new(sized.size, 1.0, mistake).about(&**name))
}

/// A mark that is gone, at which something is placed.
pub(super) fn mark(garment: &Garment, sized: &SizedGarment, placement: &Placement) -> Option<Finding> {
    let taken = |corner: &PlacedCorner| Some((*corner, sized.point_taken_by(garment, corner.at)?));
    let (corner, by) = placement.corners.iter().find_map(taken)?;
    let (host, name) = (&garment.piece(placement.on).title, &garment.point(corner.at).name);
    let placed = words::piece(garment, placement.piece);
    let title = Title::new(format!("{host} has no {name} that {placed} could be placed at")).in_sizes();
    let now = where_it_is(garment, sized, garment.alteration(by), |drawn| {
        let same = garment.point(corner.at).same_as;
        drawn.spots.iter().any(|spot| same.is_some() && garment.point(spot.point).same_as == same)
    });
    let mistake = Diagnostic::new(&catalogue::POINT_GONE, corner.span, title).label("named here");
    let placed = &garment.piece(placement.piece).name;
    let mistake = match now {
        Some(other) => {
            let piece = garment.piece(other);
            mistake
                .also(garment.alteration(by).span, format!("{name} goes to {} here", piece.title))
                .help(swapped(garment, placement.on, other, &format!("place {placed} on {}", piece.name)))
        }
        None => mistake.also(garment.alteration(by).span, format!("{name} is removed here")).help(format!(
            "name a mark that is still there, or drop this: drop place {placed} on {}",
            garment.piece(placement.on).name
        )),
    };
    Some(Finding::new(sized.size, 1.0, mistake).about(&**name))
}

/// A mark or a corner that is gone, at which a tack or a set holds.
pub(super) fn held(
    garment: &Garment,
    sized: &SizedGarment,
    end: &TackEnd,
    done: &str,
    otherwise: &str,
) -> Option<Finding> {
    let TackSpot::Point(point) = end.spot else { return None };
    let by = sized.point_taken_by(garment, point)?;
    let is_there = |drawn: &DrawnPiece| drawn.spots.iter().any(|spot| garment.is_point_of(spot.point, point));
    if sized.papers.iter().flatten().any(|drawn| is_there(drawn)) {
        return None;
    }
    let (piece, name) = (&garment.piece(end.piece).title, &garment.point(point).name);
    let title = Title::new(format!("{piece} has no {name} to be {done}")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::POINT_GONE, end.span, title)
        .label("named here")
        .also(garment.alteration(by).span, format!("{name} is removed here"))
        .help(format!("name a mark that is still there, or {otherwise}"));
    Some(Finding::new(sized.size, 1.0, mistake).about(&**name))
}

/// Whether an alteration has taken away the place at which a tack or a set holds.
pub(super) fn is_held_gone(garment: &Garment, sized: &SizedGarment, end: &TackEnd) -> bool {
    match end.spot {
        TackSpot::Point(point) => sized.point_taken_by(garment, point).is_some(),
        TackSpot::Edge(edge, _) => sized.edge_taken_by(garment, garment.whole_edge(edge)).is_some(),
    }
}

/// Which other piece of a split has what this one has not.
fn where_it_is(
    garment: &Garment,
    sized: &SizedGarment,
    by: &Alteration,
    has: impl Fn(&DrawnPiece) -> bool,
) -> Option<PieceId> {
    let mut made = by.made_pieces();
    made.find(|&piece| garment.piece(piece).papers.iter().filter_map(|&paper| sized.paper(paper)).any(&has))
}

/// The way out where the other piece of a split has it: to name that, or to name both pieces the other way round.
fn swapped(garment: &Garment, own: PieceId, other: PieceId, named: &str) -> String {
    let [own, other] = [own, other].map(|piece| &garment.piece(piece).name);
    format!(
        "write {named}; or, if {own} and {other} are named the wrong way round in that line, swap them there"
    )
}

/// A placed piece that was split or joined into others.
pub(super) fn placed_piece(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
) -> Option<Finding> {
    let piece = garment.piece(placement.piece);
    let by = piece.ended_by?;
    let becomes = piece.papers.iter().flat_map(|&paper| &garment.paper(paper).becomes);
    let mut names: Vec<String> =
        becomes.map(|&paper| garment.piece(garment.paper(paper).piece).name.to_string()).collect();
    once_each(&mut names);
    let on = words::piece(garment, placement.on);
    let title = format!("{} is placed on {on}, but is no piece of its own any more", piece.title);
    let mut mistake = Diagnostic::new(&catalogue::PLACE_GONE, placement.span, title)
        .label("placed here")
        .also(garment.alteration(by).span, format!("becomes {}", words::listed(&names)));
    if let Some(first) = names.first() {
        mistake = mistake.help(format!(
            "drop this, and place what it has become by corners of its own: place {first} on {} {{ … }}",
            garment.piece(placement.on).name
        ));
    }
    Some(Finding::new(sized.size, 1.0, mistake).about(&*piece.name))
}
