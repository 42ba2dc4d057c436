//! `pair/same` and `part/flip`: pieces whose copies come out for the same side of the body.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, CutHow, EdgeId, Garment, Part, PieceId, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{is_symmetrical, is_symmetrical_with};
use crate::sewing::{PartId, Reach, Sewing, SewnRun, SewnSeam};
use crate::shape::Point;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::PAIR_SAME, &catalogue::PART_FLIP], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut reported: Vec<PieceId> = Vec::new();
    for row in &sized.cut_list {
        let piece = garment.piece(row.part.piece);
        if row.flipped
            && let Some(span) = piece.never_flipped
        {
            let layer = &garment.layer(row.part.layer).name;
            let title =
                format!("{} must be turned over to be cut for {layer}, which it may not be", piece.title);
            let mistake = Diagnostic::new(&catalogue::PART_FLIP, span, title)
                .label("never turned")
                .also(garment.layer(row.part.layer).span, "its second layer")
                .help(format!(
                    "cut {0} in pairs (cut 2 mirrored), draw a piece of its own for {layer}, or let it be turned",
                    piece.name
                ));
            findings.push(Finding::new(sized.size, 0.0, mistake).about(&**layer));
        }
        let is_of_side = row.hand.is_some() || row.whole;
        if row.how != CutHow::Alike || is_of_side || row.copies < 2 || reported.contains(&row.part.piece) {
            continue;
        }
        let Some(drawn) = sized.paper(row.part.paper) else { continue };
        let name = words::piece(garment, row.part.piece);
        let copies = row.copies;
        let title = if !is_symmetrical(drawn) {
            format!("{name} is shaped, and all {copies} of it are cut the same way round")
        } else if !is_symmetrical_with(drawn, &handed_notches(sewing, row.part)) {
            format!("the notches of {name} make a left and a right one of it, but all {copies} are cut alike")
        } else if !is_symmetrical_with(drawn, &lying_beside(garment, size, row.part)) {
            format!("what lies on {name} makes a left and a right one of it, but all {copies} are cut alike")
        } else {
            continue;
        };
        reported.push(row.part.piece);
        let even = copies - copies % 2;
        let mistake = Diagnostic::new(&catalogue::PAIR_SAME, piece.cut.span, title)
            .label("no left and right")
            .help(format!("write cut {} mirrored, so that half of them are turned over", even.max(2)));
        findings.push(Finding::new(sized.size, 0.0, mistake));
    }
}

/// Where what is placed on a piece has its corners, if one copy is sewn to the other by the same edge: then
/// they are a left and a right one.
fn lying_beside(garment: &Garment, size: &WorkedSize, part: Part) -> Vec<(Point, bool)> {
    let edges = |chains: &[Chain]| -> Vec<EdgeId> {
        let sewn = chains.iter().flat_map(|chain| &chain.edges);
        let own = sewn
            .filter(|sewn| sewn.piece == part.piece && sewn.layer.is_none_or(|layer| layer == part.layer));
        own.map(|sewn| sewn.edge).collect()
    };
    let is_to_itself = garment.seams.iter().any(|seam| {
        let second = edges(&seam.second);
        edges(&seam.first).iter().any(|edge| second.contains(edge))
    });
    if !is_to_itself {
        return Vec::new();
    }
    let placed = size.drawn.placed.iter().flatten().filter(|placed| placed.on == part.paper);
    placed.flat_map(|placed| placed.edges.iter().map(|(_, path)| (path.start(), false))).collect()
}

/// The notches by which a piece whose copies are cut alike is sewn to a left and to a right one of
/// another: where they are, and whether they are double.
fn handed_notches(sewing: &Sewing, part: Part) -> Vec<(Point, bool)> {
    let mut parts = PartId::enumerate(&sewing.parts);
    let Some((id, sewn)) = parts.find(|(_, sewn)| sewn.part == part) else { return Vec::new() };
    let runs = |seam: &SewnSeam| -> Vec<SewnRun> {
        let plies = seam.first.plies.iter().chain(&seam.second.plies);
        plies.flat_map(|ply| ply.runs.iter().copied()).collect()
    };
    let is_handed = |seam: &&SewnSeam| {
        let runs = runs(seam);
        (seam.sewings > 1 || matches!(seam.reach, Reach::On { of_two: true, .. }))
            && runs.iter().any(|run| run.part == id && run.hand.is_none())
            && runs.iter().any(|run| run.hand.is_some())
    };
    let handed: Vec<SeamId> = sewing.seams.iter().filter(is_handed).map(|seam| seam.seam).collect();
    let sewn = sewn.notches.iter().filter(|notch| notch.seam.is_some_and(|seam| handed.contains(&seam)));
    sewn.map(|notch| (notch.at, notch.double)).collect()
}
