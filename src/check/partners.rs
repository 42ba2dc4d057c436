//! Edges that nothing takes yet and that are equally long in every size: their messages offer the seam.

use crate::cutting::WorkedSize;
use crate::garment::{CutHow, EdgeId, Garment, PieceId};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, amount, catalogue};
use crate::resolve::{CornerName, DrawnEdgeId, finished};
use crate::sewing::SeamEnd;
use crate::shape::partners::{Stretch, pairs};
use std::collections::HashSet;

/// How many seams one message offers, …
const MOST_OFFERED: usize = 6;
/// … and what it says before them.
pub(super) const OFFERED: &str = "equally long in every size, and so perhaps sewn";

/// Adds to what is told of pieces sewn to nothing, and of loose edges, the seams that may have been forgotten. A seam is
/// offered once: where the first of its edges is told of.
pub(super) fn told(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut [Diagnostic]) {
    let of_loose_edges = |one: &Diagnostic| one.is_any(&[&catalogue::PIECE_UNSEWN, &catalogue::EDGE_LOOSE]);
    if !diagnostics.iter().any(of_loose_edges) {
        return;
    }
    let found = offered(garment, sizes);
    for one in diagnostics.iter_mut().filter(|one| of_loose_edges(one)) {
        let span = one.span();
        let here = |edge: &EdgeId| {
            let edge = garment.edge(*edge);
            edge.span == span || garment.piece(edge.piece).span == span
        };
        let seams: Vec<String> = found
            .iter()
            .filter(|(edge, ..)| here(edge))
            .take(MOST_OFFERED)
            .map(|(edge, other, lengths)| seam(garment, (*edge, *other), lengths))
            .collect();
        if !seams.is_empty() {
            let help = one.help.take().unwrap_or_default();
            let offered = seams.join("\n  ");
            one.help = Some(format!("{help}; {OFFERED}:\n  {offered}"));
        }
    }
}

/// Loose edges that may be sewn to one another, and how long they are.
fn offered(garment: &Garment, sizes: &[WorkedSize]) -> Vec<(EdgeId, EdgeId, Vec<f64>)> {
    let loose = loose(garment, sizes);
    let stretch = |(edge, lengths): (&EdgeId, &Vec<f64>)| Stretch {
        piece: garment.edge(*edge).piece.index(),
        lengths: lengths.clone(),
    };
    let stretches: Vec<Stretch> = loose.iter().map(stretch).collect();
    let met = corners_met(sizes);
    let beside = |at: usize, other: usize| {
        let ends = |at: usize| loose.get_index(at).and_then(|(edge, _)| ends_of(garment, sizes, *edge));
        // Both ends of an armhole meet already: sewn together it would be shut.
        let are_shut = ends(at).zip(ends(other)).is_some_and(|([a, b], [c, d])| {
            let are = |(one, is_on_fold): (Corner, bool), (other, is_too): (Corner, bool)| {
                is_on_fold && is_too || met.contains(&(one, other)) || met.contains(&(other, one))
            };
            (are(a, c) && are(b, d)) || (are(a, d) && are(b, c))
        });
        stretches[at].piece != stretches[other].piece && !are_shut
    };
    pairs(&stretches, beside)
        .into_iter()
        .filter_map(|(at, beside)| {
            let ((one, lengths), (other, _)) = (loose.get_index(at)?, loose.get_index(beside)?);
            Some((*one, *other, lengths.clone()))
        })
        .collect()
}

/// Loose edges of which each may be sewn to the other, and to none besides.
pub(super) fn mates(garment: &Garment, sizes: &[WorkedSize]) -> Vec<[EdgeId; 2]> {
    let found = offered(garment, sizes);
    let times = |edge: EdgeId| found.iter().filter(|(one, other, _)| *one == edge || *other == edge).count();
    let alone = found.iter().filter(|(one, other, _)| times(*one) == 1 && times(*other) == 1);
    alone.map(|(one, other, _)| [*one, *other]).collect()
}

/// A corner of a piece.
type Corner = (PieceId, CornerName);

/// The corners that seams bring together at their ends.
fn corners_met(sizes: &[WorkedSize]) -> HashSet<(Corner, Corner)> {
    let Some(size) = sizes.first() else { return HashSet::new() };
    let corner = |end: &SeamEnd| (size.sewn.part(end.part).part.piece, end.corner);
    let ends = size.sewn.seams.iter().flat_map(|sewn| &sewn.ends);
    ends.map(|(one, other)| (corner(one), corner(other))).collect()
}

/// Both corners of an edge, and whether its piece goes on there, beyond its fold.
fn ends_of(garment: &Garment, sizes: &[WorkedSize], edge: EdgeId) -> Option<[(Corner, bool); 2]> {
    sizes.first()?.drawn.papers.iter().flatten().find_map(|drawn| {
        let (at, own) = DrawnEdgeId::enumerate(&drawn.edges).find(|(_, own)| own.edge == edge)?;
        let next = drawn.edge_at(drawn.after(at))?;
        let is_fold = |at: DrawnEdgeId| match drawn.cut {
            CutHow::OnFold(fold) => drawn.edge_at(at).is_some_and(|own| garment.is_run_of(own.edge, fold)),
            _ => false,
        };
        let folds = [is_fold(drawn.before(at)), is_fold(drawn.after(at))];
        Some([((drawn.piece, own.corner), folds[0]), ((drawn.piece, next.corner), folds[1])])
    })
}

/// `seam side  front.side to back.side  # 30 cm`.
fn seam(garment: &Garment, (one, other): (EdgeId, EdgeId), lengths: &[f64]) -> String {
    let called = |edge: EdgeId| {
        format!("{}.{}", garment.piece(garment.edge(edge).piece).name, garment.edge(edge).name)
    };
    let long = |long: Option<&f64>| amount(long.copied().unwrap_or(0.0), garment.unit);
    let (least, most) = (long(lengths.first()), long(lengths.last()));
    let lengths = if least == most { least } else { format!("{least} to {most}") };
    let own = garment.edge(one);
    let is_taken = garment.seams.iter().map(|seam| &seam.name).any(|name| *name == own.name);
    let name = match own.name == garment.edge(other).name && !is_taken {
        true => own.name.to_string(),
        false => format!("{}_{}", garment.piece(own.piece).name, own.name),
    };
    format!("seam {name}  {} to {}  # {lengths}", called(one), called(other))
}

/// The edges that nothing takes, and how long they are by size, as they are sewn.
pub(crate) fn loose(garment: &Garment, sizes: &[WorkedSize]) -> IdIndexMap<EdgeId, Vec<f64>> {
    let mut found: IdIndexMap<EdgeId, Vec<f64>> = IdIndexMap::default();
    for (number, size) in sizes.iter().enumerate() {
        for part in size.sewn.parts.iter().filter(|part| !part.fused) {
            let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
            for (at, (edge, fate)) in drawn.edges.iter().zip(&part.edges).enumerate() {
                let is_loose =
                    fate.takers.is_empty() && !fate.folded_in && garment.edge(edge.edge).side_of.is_none();
                let Some(long) = finished(garment, drawn, DrawnEdgeId::from_index(at)).filter(|_| is_loose)
                else {
                    continue;
                };
                let lengths = found.entry(edge.edge).or_default();
                if lengths.len() == number {
                    lengths.push(long);
                }
            }
        }
    }
    found.retain(|_, lengths| lengths.len() == sizes.len());
    found
}
