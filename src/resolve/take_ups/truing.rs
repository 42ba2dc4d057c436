//! Truing: with its darts and pleats shut, an edge is drawn as one smooth curve.

use crate::garment::EdgeId;
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnPiece};
use crate::resolve::drawn_take_up::{DrawnTakeUp, Mouth};
use crate::resolve::model::DrawnEdgeId;
use crate::resolve::take_ups::carry::{on_edge, sewn_as_far, tie_tucks};
use crate::resolve::take_ups::carry_slits::follow_edges;
use crate::resolve::work::Work;
use crate::shape::path::Path;
use crate::shape::pivot::smoothed;
use crate::shape::shut::{Shut, trued};
use crate::shape::tolerance::ON_OUTLINE;
use crate::shape::wedge::Wedge;

/// Trues the edges that a trued take-up lies on, of those that are meant; all take-ups of such an edge are
/// shut for it. Reported where that cannot be done. Notches and marks stay on the edge.
pub(in crate::resolve) fn true_edges(
    work: &Work,
    drawn: &mut DrawnPiece,
    meant: impl Fn(&DrawnEdge) -> bool,
) -> bool {
    let mut whole = true;
    let asked: Vec<EdgeId> =
        drawn.take_ups.iter().filter(|one| one.trued).filter_map(|one| Some(one.mouth?.edge)).collect();
    for at in 0..drawn.edges.len() {
        let id = DrawnEdgeId::from_index(at);
        let is_asked = |edge: &&DrawnEdge| asked.contains(&edge.edge) && meant(edge);
        let Some(edge) = drawn.edges.get(at).filter(is_asked) else { continue };
        let own = drawn.take_ups_on(id);
        let Some(asks) = own.iter().find(|(placed, _)| placed.trued).map(|(placed, _)| **placed) else {
            continue;
        };
        let folded: Vec<(Shut, (f64, f64))> =
            own.iter().map(|(placed, mouth)| (placed.shut(), (mouth.from, mouth.to))).collect();
        let places: Vec<Option<usize>> = own
            .iter()
            .map(|(placed, _)| drawn.take_ups.iter().position(|one| std::ptr::eq(one, *placed)))
            .collect();
        let Some(made) = trued(&edge.path, &folded) else {
            whole = false;
            work.mistake(1.0, "", || {
                let (own, name) = (&work.garment.edge(asks.name).name, &work.garment.edge(edge.edge).name);
                let word = asks.word();
                let title =
                    Title::new(format!("{name} cannot be drawn as one curve with {own} shut")).in_sizes();
                Diagnostic::new(&catalogue::DART_KINK, asks.said, title)
                    .help(format!("leave more of the edge beside the {word}, or make the {word} narrower"))
            });
            continue;
        };
        let edge_id = edge.edge;
        for (at, ((shut, (from, to)), moved)) in places.into_iter().zip(made.folded.iter().zip(&made.moved)) {
            if let Some(placed) = at.and_then(|at| drawn.take_ups.get_mut(at)) {
                let mouth = Mouth { edge: edge_id, from: *from, to: *to };
                *placed = sewn_as_far(DrawnTakeUp {
                    wedge: Wedge { sides: shut.sides(), ..placed.wedge },
                    mouth: Some(mouth),
                    moved: Some(*moved),
                    ..*placed
                });
            }
        }
        tie_tucks(&mut drawn.take_ups);
        redraw(drawn, at, made.edge);
    }
    whole
}

/// Gives an edge another way; what stands on it goes with it.
fn redraw(drawn: &mut DrawnPiece, at: usize, path: Path) {
    let Some(edge) = drawn.edges.get_mut(at) else { return };
    let (name, old) = (edge.edge, std::mem::replace(&mut edge.path, path));
    let path = &edge.path;
    // Most are its corners, which stay.
    let ends = [path.start(), path.end()];
    for spot in drawn.spots.iter_mut().filter(|spot| !ends.contains(&spot.at)) {
        if old.is_near(spot.at, ON_OUTLINE) {
            spot.at = path.nearest(spot.at).point;
        }
    }
    for notch in drawn.notches.iter_mut().filter(|notch| notch.edge == name) {
        let nearest = path.nearest(notch.at);
        (notch.along, notch.at) = (nearest.at, nearest.point);
    }
}

/// Draws an edge as one smooth curve over a stretch of it, from half way to the corner or dart on either side of
/// that. Whether it could: nothing is changed where it could not.
pub(in crate::resolve) fn smooth_over(drawn: &mut DrawnPiece, at: usize, (from, to): (f64, f64)) -> bool {
    let Some(edge) = drawn.edges.get(at) else { return false };
    let (name, length) = (edge.edge, edge.path.length());
    let mouths: Vec<Mouth> =
        drawn.take_ups_on(DrawnEdgeId::from_index(at)).into_iter().map(|(_, mouth)| mouth).collect();
    let low = mouths.iter().map(|mouth| mouth.to).filter(|end| *end <= from).fold(0.0, f64::max);
    let high = mouths.iter().map(|mouth| mouth.from).filter(|end| *end >= to).fold(length, f64::min);
    let Some(path) = smoothed(&edge.path, (low, from), (to, high)) else { return false };
    redraw(drawn, at, path);
    let edges = &drawn.edges;
    for placed in drawn.take_ups.iter_mut().filter(|one| one.mouth.is_some_and(|mouth| mouth.edge == name)) {
        if let Some(now) = on_edge(*placed, name, edges) {
            *placed = now;
        }
    }
    follow_edges(drawn);
    true
}
