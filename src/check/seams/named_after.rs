//! `seam/back-to-front` of a raglan sleeve: edges that bear the names of pieces, each sewn to the other's.
//!
//! A raglan sleeve goes up to the neck between front and back, and the two may have one length and one
//! shape: cloth allows both. Its edges' names say which is meant.

use super::runs::place_of;
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::is_mirrored_between;
use crate::sewing::{SewnRun, SewnSeam};
use std::cell::LazyCell;
use std::collections::{HashMap, HashSet};

/// An edge that bears the name of another piece than the one that it is sewn to.
struct Misled<'a> {
    sewn: &'a SewnSeam,
    run: &'a SewnRun,
    edge: EdgeId,
    /// The piece that it is sewn to.
    to: PieceId,
}

/// Every two edges of one piece of which each is sewn to the piece that the other is named after.
pub(super) fn exchanged(garment: &Garment, size: &WorkedSize) -> Vec<Finding> {
    let mut misled: HashMap<(PieceId, &str, &str), Misled> = HashMap::new();
    let mut findings = Vec::new();
    let pieces: LazyCell<HashSet<&str>, _> =
        LazyCell::new(|| garment.pieces.iter().map(|piece| &*piece.name).collect());
    for sewn in &size.sewn.seams {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        let ([one], [other]) = (first.runs.as_slice(), second.runs.as_slice()) else { continue };
        for (run, opposite) in [(one, other), (other, one)] {
            let Some((own, edge)) = piece_and_edge(size, run) else { continue };
            let Some((to, _)) = piece_and_edge(size, opposite).filter(|(to, _)| *to != own) else { continue };
            let (name, sewn_to) = (&*garment.edge(edge).name, &*garment.piece(to).name);
            if borne(name).any(|words| words == sewn_to) {
                continue;
            }
            for after in borne(name).filter(|words| pieces.contains(words)) {
                if let Some(known) = misled.get(&(own, sewn_to, after)) {
                    let own = Misled { sewn, run, edge, to };
                    if !is_alike(garment, size, [known, &own]) {
                        findings.push(reported(garment, size, [known, &own]));
                    }
                }
                misled.entry((own, after, sewn_to)).or_insert(Misled { sewn, run, edge, to });
            }
        }
    }
    findings
}

fn piece_and_edge(size: &WorkedSize, run: &SewnRun) -> Option<(PieceId, EdgeId)> {
    let part = size.sewn.part(run.part).part;
    Some((part.piece, size.drawn.paper(part.paper)?.edge_at(run.edge)?.edge))
}

/// All that an edge's name bears besides other words, each row of words side by side: `front` and `raglan` of
/// `front_raglan`.
fn borne(edge: &str) -> impl Iterator<Item = &str> {
    let starts = std::iter::once(0).chain(edge.match_indices('_').map(|(at, _)| at + 1));
    let from = move |start: usize| {
        let ends = edge.match_indices('_').map(|(at, _)| at).chain([edge.len()]);
        ends.filter(move |end| *end > start).filter_map(move |end| edge.get(start..end))
    };
    starts.flat_map(from).filter(move |words| words.len() < edge.len())
}

/// Whether the piece is the same when both edges change places: then neither is the wrong one.
fn is_alike(garment: &Garment, size: &WorkedSize, both: [&Misled; 2]) -> bool {
    let paper = size.sewn.part(both[0].run.part).part.paper;
    let Some(drawn) = size.drawn.paper(paper) else { return true };
    let ends = |one: &Misled| [false, true].map(|end| place_of(size, one.run, end));
    let [first, second] = both.map(ends);
    first.into_iter().flatten().any(|one| {
        let mut others = second.into_iter().flatten().filter(|other| *other != one);
        others.any(|other| is_mirrored_between(drawn, [one, other], &[], garment.tolerance))
    })
}

fn reported(garment: &Garment, size: &WorkedSize, [one, other]: [&Misled; 2]) -> Finding {
    let piece = garment.piece(garment.edge(one.edge).piece);
    let name = |misled: &Misled| garment.edge(misled.edge).name.to_string();
    let seam = |misled: &Misled| garment.seam(misled.sewn.seam);
    let title = format!(
        "{} seems to be set in back to front: its {} is sewn to {}, and its {} to {}",
        piece.title,
        name(other),
        words::piece(garment, other.to),
        name(one),
        words::piece(garment, one.to)
    );
    let warning = Diagnostic::new(&catalogue::SEAM_BACK_TO_FRONT, seam(other).name_span, title)
        .label(format!("takes {}.{}", piece.name, name(other)))
        .also(seam(one).name_span, format!("takes {}.{}", piece.name, name(one)))
        .help(format!(
            "exchange them: {0}.{1} in {2}, {0}.{3} in {4}",
            piece.name,
            name(one),
            seam(other).name,
            name(other),
            seam(one).name
        ));
    Finding::new(size.drawn.size, 0.0, warning).about(&*seam(other).name)
}
