//! Slits as they are marked on the cloth: the cut, and a stroke across its end.

use super::allowed::Allowed;
use super::mark::words;
use super::model::CutSlit;
use crate::garment::{EdgeId, Garment};
use crate::resolve::{DrawnPiece, DrawnSlit};
use crate::shape::Point;
use crate::shape::line::meet_segment;
use crate::shape::path::Path;

/// So far before the end of a window the cut parts and leads into both corners: 1 cm, common practice.
const PARTS: f64 = 10.0;
/// How long the stroke across the end of a slit without a window is, in millimetres.
const STROKE: f64 = 6.0;

/// The slits of a piece with that cutting line.
pub(super) fn slits(
    garment: &Garment,
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    ring: &[Path],
) -> Vec<CutSlit> {
    let widest = allowed.iter().map(|one| one.width).fold(0.0, f64::max);
    let cut = |slit: &DrawnSlit| {
        let (start, end) = slit.middle();
        let long = start.distance(end).max(f64::MIN_POSITIVE);
        let way = (end - start) / long;
        if slit.mouth.is_none() {
            return inside(garment, drawn, slit, allowed);
        }
        let out = meet_segment(start, start - way * (3.0 * widest + 1.0), ring);
        let start = out.into_iter().map(|hit| hit.point).next_back().unwrap_or(start);
        let window = slit.window();
        let kept = kept(garment, drawn, slit, allowed);
        let (cuts, stroke) = if window > 0.0 && kept <= 0.0 {
            // Nothing is turned: the strip is cut out.
            let [one, other] = slit.ends;
            let open = |corner: Point| (start + (corner - end), corner);
            let mut cuts: Vec<(Point, Point)> = corners_of(slit).map(open).collect();
            cuts.push((one, other));
            (cuts, (one, other))
        } else if window > 0.0 {
            let parts = end - way * PARTS.min(long / 2.0);
            let mut cuts = vec![(start, parts)];
            cuts.extend(corners_of(slit).map(|corner| (parts, corner)));
            (cuts, (slit.ends[0], slit.ends[1]))
        } else {
            let half = way.turn_90() * (STROKE / 2.0);
            (vec![(start, end)], (end - half, end + half))
        };
        CutSlit {
            name: words(&garment.edge(slit.name).name),
            edge: slit.name,
            cuts,
            end: stroke,
            start: None,
        }
    };
    drawn.uncut().slits.iter().map(cut).collect()
}

/// The corners of its end; on the fold there is none.
fn corners_of(slit: &DrawnSlit) -> impl Iterator<Item = Point> {
    let all = slit.ends.into_iter().enumerate();
    let fold = slit.fold;
    all.filter(move |(at, _)| Some(*at) != fold).map(|(_, corner)| corner)
}

/// The widest that is turned of a side of a slit.
fn kept(garment: &Garment, drawn: &DrawnPiece, slit: &DrawnSlit, allowed: &[Allowed]) -> f64 {
    let is_side = |edge: EdgeId| garment.edge(edge).side_of == Some(slit.name);
    let sides = drawn.edges.iter().zip(allowed).filter(|(edge, _)| is_side(edge.edge));
    sides.map(|(_, own)| own.width).fold(0.0, f64::max)
}

/// A slit inside its piece: both its ends lie in the cloth.
fn inside(garment: &Garment, drawn: &DrawnPiece, slit: &DrawnSlit, allowed: &[Allowed]) -> CutSlit {
    let (start, end) = slit.middle();
    let long = start.distance(end).max(f64::MIN_POSITIVE);
    let way = (end - start) / long;
    let across = |[one, other]: [Point; 2]| (one, other);
    let (cuts, [first, last]) = if slit.window() <= 0.0 {
        let half = way.turn_90() * (STROKE / 2.0);
        (vec![(start, end)], [start, end].map(|at| (at - half, at + half)))
    } else if kept(garment, drawn, slit, allowed) <= 0.0 {
        // Nothing is turned: the strip is cut out.
        let corners = slit.corners();
        let next = corners.into_iter().cycle().skip(1);
        (corners.into_iter().zip(next).collect(), [across(slit.sides), across(slit.ends)])
    } else {
        let parts = PARTS.min(long / 3.0);
        let (from, to) = (start + way * parts, end - way * parts);
        let mut cuts = vec![(from, to)];
        cuts.extend(slit.sides.map(|corner| (from, corner)));
        cuts.extend(slit.ends.map(|corner| (to, corner)));
        (cuts, [across(slit.sides), across(slit.ends)])
    };
    CutSlit {
        name: words(&garment.edge(slit.name).name),
        edge: slit.name,
        cuts,
        end: last,
        start: Some(first),
    }
}
