//! How what is placed lies: of a piece that is folded in wear one half.

use crate::garment::{EdgeId, Garment, Placement};
use crate::resolve::{PlacedPiece, SizedGarment};
use crate::shape::Point;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;

/// An edge of what is placed, as it lies there.
#[derive(Clone, Debug)]
pub struct LyingEdge {
    /// The edge.
    pub edge: EdgeId,
    /// Where it lies; of an edge that is brought over, the fold.
    pub path: Path,
    /// Its cloth is folded there: the edge itself lies on the one it is brought onto.
    pub is_fold: bool,
}

/// The outline of what is placed. A piece of four edges whose one straight edge is brought onto the straight one across is half as
/// high: the half with the corner that it is put by stays, and the other is brought onto that. Of all others the outline is that
/// of the paper.
pub fn as_it_lies(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
    placed: &PlacedPiece,
) -> Vec<LyingEdge> {
    let flat = || {
        let edges = placed.edges.iter();
        edges.map(|(edge, path)| LyingEdge { edge: *edge, path: path.clone(), is_fold: false }).collect()
    };
    half(garment, sized, placement, placed).unwrap_or_else(flat)
}

fn half(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
    placed: &PlacedPiece,
) -> Option<Vec<LyingEdge>> {
    let [over] = garment.piece(placement.piece).folds.as_slice() else { return None };
    let ring = placed.edges.as_slice();
    if over.in_four || ring.len() != 4 {
        return None;
    }
    let at = |wanted: EdgeId| ring.iter().position(|(edge, _)| garment.is_run_of(*edge, wanted));
    let (mut over, mut onto) = (at(over.edge)?, at(over.onto)?);
    if (over + 2) % 4 != onto {
        return None;
    }
    let put = put_at(garment, sized, placement, placed)?;
    let away = |edge: usize| ring.get(edge).map_or(f64::INFINITY, |(_, path)| path.nearest(put).distance);
    if away(over) < away(onto) {
        std::mem::swap(&mut over, &mut onto);
    }
    let edge = |turn: usize| ring.get((onto + turn) % 4);
    let [(stays, kept), (up, rises), (moved, brought), (down, falls)] =
        [edge(0)?, edge(1)?, edge(2)?, edge(3)?];
    if !kept.is_straight() || !brought.is_straight() {
        return None;
    }
    let rises = rises.part(0.0, rises.length() / 2.0);
    let falls = falls.part(falls.length() / 2.0, falls.length());
    let fold = Path::straight(rises.end(), falls.start());
    let lies = |edge: EdgeId, path: Path, is_fold: bool| LyingEdge { edge, path, is_fold };
    (fold.length() > SAME_POINT).then(|| {
        vec![
            lies(*stays, kept.clone(), false),
            lies(*up, rises, false),
            lies(*moved, fold, true),
            lies(*down, falls, false),
        ]
    })
}

/// Where its first corner is put.
fn put_at(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
    placed: &PlacedPiece,
) -> Option<Point> {
    let corner = placement.corners.first()?;
    let spots = &sized.paper(placed.on)?.spots;
    spots.iter().find(|spot| garment.is_point_of(spot.point, corner.at)).map(|spot| spot.at)
}
