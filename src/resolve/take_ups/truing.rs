//! Truing: with its darts shut, an edge is drawn as one smooth curve.

use super::declared;
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::model::{DrawnEdge, DrawnEdgeId, DrawnPiece, Mouth};
use crate::resolve::work::Work;
use crate::shape::tolerance::ON_OUTLINE;
use crate::shape::wedge::{Wedge, trued};

/// Trues the edges that a trued take-up lies on, of those that are meant; all take-ups of such an edge are
/// shut for it. Reported where that cannot be done. Notches and marks stay on the edge.
pub(in crate::resolve) fn true_edges(
    work: &Work,
    drawn: &mut DrawnPiece,
    meant: impl Fn(&DrawnEdge) -> bool,
) -> bool {
    let mut whole = true;
    for at in 0..drawn.edges.len() {
        let id = DrawnEdgeId::from_index(at);
        let Some(edge) = drawn.edges.get(at) else { continue };
        let own = drawn.take_ups_on(id);
        let asks = own.iter().find_map(|(placed, _)| declared(work, placed).filter(|one| one.trues()));
        let (Some(asks), true) = (asks, meant(edge)) else { continue };
        let wedges: Vec<(Wedge, (f64, f64))> =
            own.iter().map(|(placed, mouth)| (placed.wedge, (mouth.from, mouth.to))).collect();
        let names: Vec<_> = own.iter().map(|(placed, _)| placed.name).collect();
        let Some(made) = trued(&edge.path, &wedges) else {
            whole = false;
            work.mistake(1.0, "", || {
                let (dart, name) = (&work.garment.edge(asks.name).name, &work.garment.edge(edge.edge).name);
                let title =
                    Title::new(format!("{name} cannot be drawn as one curve with {dart} shut")).in_sizes();
                Diagnostic::new(&catalogue::DART_KINK, asks.span, title)
                    .help("leave more of the edge beside the dart, or make the dart narrower")
            });
            continue;
        };
        let edge_id = edge.edge;
        for (name, ((wedge, (from, to)), moved)) in names.into_iter().zip(made.wedges.iter().zip(&made.moved))
        {
            if let Some(placed) = drawn.take_ups.iter_mut().find(|placed| placed.name == name) {
                placed.wedge = *wedge;
                placed.mouth = Some(Mouth { edge: edge_id, from: *from, to: *to });
                placed.moved = Some(*moved);
            }
        }
        // What stands on the edge goes with it.
        let old = edge.path.clone();
        for spot in drawn.spots.iter_mut().filter(|spot| old.nearest(spot.at).distance <= ON_OUTLINE) {
            spot.at = made.edge.nearest(spot.at).point;
        }
        for notch in drawn.notches.iter_mut().filter(|notch| notch.edge == edge_id) {
            let nearest = made.edge.nearest(notch.at);
            (notch.along, notch.at) = (nearest.at, nearest.point);
        }
        if let Some(edge) = drawn.edges.get_mut(at) {
            edge.path = made.edge;
        }
    }
    whole
}
