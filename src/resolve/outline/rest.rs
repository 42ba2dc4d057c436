//! Another piece without a strip of it.

use super::carried::own_edge;
use super::lines::carried_line;
use super::strip::{Given, Part, assemble, lay_out};
use crate::garment::PieceId;
use crate::resolve::drawn_piece::{DrawnLine, DrawnPiece};
use crate::resolve::sketch::Sketch;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::carry::renamed;
use crate::resolve::take_ups::carry_slits::renamed_slits;
use crate::resolve::work::Work;
use crate::shape::Affine;
use crate::shape::outline::contains;

/// What is left when the strip is cut away: the inner edge, then the other edges, those beside the
/// strip shortened by it.
pub(super) fn rest(work: &Work, piece: PieceId, sketch: &Sketch, given: &Given) -> Option<DrawnPiece> {
    let laid = lay_out(work, sketch, given, false)?;
    if !super::left_out::runs_on(work, piece, &laid.from) {
        return None;
    }
    let count = laid.from.edges.len();
    let mut parts = vec![Part { of: None, path: laid.inner_path()?, corner: None }];
    for step in laid.count..count {
        let edge = laid.edge(step)?;
        let (first, last) = (step == laid.count, step + 1 == count);
        let from = if first { laid.inner.on_next } else { 0.0 };
        let to = if last { laid.inner.on_previous } else { edge.path.length() };
        let path = if first || last { edge.path.part(from, to) } else { edge.path.clone() };
        parts.push(Part { of: Some(edge.edge), path, corner: (!first).then_some(edge.corner) });
    }
    let mut drawn = assemble(work, piece, &laid.from, given, parts)?;
    let (whole, now) = (ring(&laid.from), ring(&drawn));
    let lines = laid.from.lines.iter().filter_map(|line| {
        let own = own_edge(work.garment, piece, line.edge)?;
        let path = carried_line(&line.path, &whole, line.path.start(), line.path.end(), &now);
        Some(DrawnLine { edge: own, path })
    });
    drawn.lines = lines.collect();
    let own = |edge| own_edge(work.garment, piece, edge);
    let inside = laid
        .from
        .take_ups
        .iter()
        .filter(|placed| placed.corners().iter().all(|&corner| contains(&now, corner)));
    drawn.take_ups =
        inside.filter_map(|placed| renamed(placed, own(placed.name)?, &own, &drawn.edges)).collect();
    let whole_slits = laid.from.slits.iter().copied();
    let inside: Vec<_> =
        whole_slits.filter(|slit| slit.held().iter().all(|&end| contains(&now, end))).collect();
    drawn.slits = renamed_slits(&inside, Affine::IDENTITY, &own, &drawn.edges);
    Some(drawn)
}
