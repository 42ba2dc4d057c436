//! `measure/tight`: a neckline that goes round and is shorter than the neck of the body.
//!
//! The neck is measured round its foot, and every neckline lies there or lower: in cloth that does not stretch it is no shorter.

use super::necklines::Necklines;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{PartId, SewnPart, give_along};
use crate::syntax::tree::ClothKind;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::MEASURE_TIGHT], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let is_neck = |value: &Value| matches!(value.kind, ValueKind::Body(_)) && &*value.name == "neck";
    let Some((id, neck)) = ValueId::enumerate(&garment.values).find(|(_, value)| is_neck(value)) else {
        return;
    };
    let Some(round) = size.drawn.scalar(id).filter(|round| *round > 0.0) else { return };
    // What the maker measures is told where it is measured.
    let is_measured = garment.values.iter().any(
        |value| matches!(value.kind, ValueKind::Measure { against: Some(against), .. } if against == id),
    );
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| !is_measured) else { return };
    let looking = Necklines { garment, size, surface };
    let mut known: Vec<(PartId, DrawnEdgeId)> = Vec::new();
    let is_asked = |&(id, part): &(PartId, &SewnPart)| !part.fused && size.sewn.left_of(id) == id;
    for (part, sewn) in PartId::enumerate(&size.sewn.parts).filter(is_asked) {
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        for (edge, _) in DrawnEdgeId::enumerate(&drawn.edges) {
            if known.contains(&(part, edge)) || looking.ends(part, drawn, edge).is_none() {
                continue;
            }
            let Some(whole) = whole(&looking, part, edge) else { continue };
            known.extend(&whole);
            let Some((is, stretched)) = lengths(&looking, &whole) else { continue };
            if stretched < round - garment.tolerance {
                findings.extend(reported(&looking, &whole, neck, [is, stretched, round]));
                return;
            }
        }
    }
}

/// All edges that a neckline goes on along, from piece to piece; none where it goes round nothing, as that of a
/// front that stays open.
fn whole(looking: &Necklines, part: PartId, edge: DrawnEdgeId) -> Option<Vec<(PartId, DrawnEdgeId)>> {
    let mut all = vec![(part, edge)];
    let mut at = 0;
    while let Some(&(part, edge)) = all.get(at) {
        at += 1;
        let sewn = looking.size.sewn.part(part);
        let drawn = looking.size.drawn.paper(sewn.part.paper)?;
        for beside in [drawn.before(edge), drawn.after(edge)] {
            let next = looking.next(part, edge, beside);
            if next.is_empty() && !is_closed(looking, part, drawn, beside) {
                return None;
            }
            for found in next {
                if !all.contains(&found) {
                    all.push(found);
                }
            }
        }
    }
    Some(all)
}

/// Whether a neckline ends at a fold, or in a piece that something fastens.
fn is_closed(looking: &Necklines, part: PartId, drawn: &DrawnPiece, beside: DrawnEdgeId) -> bool {
    let piece = looking.size.sewn.part(part).part.piece;
    looking.is_fold(drawn, beside) || is_fastened(looking.garment, piece)
}

fn is_fastened(garment: &Garment, piece: PieceId) -> bool {
    let origins = garment.origins(piece);
    let mut closures = garment.closures.iter().filter(|closure| closure.kind.is_some());
    closures.any(|closure| {
        let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
        edges.any(|sewn| origins.contains(&garment.edge(sewn.edge).piece))
    })
}

/// How long it is over all copies, and how long where its cloth stretches as far as it goes; none where that is not known.
fn lengths(looking: &Necklines, whole: &[(PartId, DrawnEdgeId)]) -> Option<(f64, f64)> {
    let size = looking.size;
    let mut sums = (0.0, 0.0);
    for &(part, edge) in whole {
        let sewn = size.sewn.part(part);
        let path = &size.drawn.paper(sewn.part.paper)?.edge_at(edge)?.path;
        // What is woven gives on the bias, and is held there by what finishes it.
        let fabric = looking.garment.layer(sewn.part.layer).fabric.map(|id| looking.garment.fabric(id));
        let is_woven = fabric
            .is_some_and(|fabric| matches!(fabric.kind, Some(ClothKind::WovenFirm | ClothKind::WovenSupple)));
        let give = give_along(looking.garment, &size.drawn, &sewn.part, path);
        let share = give.share().or(is_woven.then_some(0.0))?;
        let long: f64 = looking.sides(part, edge).map(|side| looking.surface.side(side).length).sum();
        sums.0 += long;
        sums.1 += long * (1.0 + share);
    }
    Some(sums)
}

fn reported(
    looking: &Necklines,
    whole: &[(PartId, DrawnEdgeId)],
    neck: &Value,
    [is, stretched, round]: [f64; 3],
) -> Option<Finding> {
    let (garment, size) = (looking.garment, looking.size);
    let named = |&(part, edge): &(PartId, DrawnEdgeId)| {
        Some(size.drawn.paper(size.sewn.part(part).part.paper)?.edge_at(edge)?.edge)
    };
    let mut edges = whole.iter().filter_map(named);
    let first = edges.next()?;
    let shown = |mm: f64| amount(mm, garment.unit);
    let name = words::edge(garment, first);
    let title = Title::new(format!(
        "the neckline comes to {} all round, less than the neck of {}",
        shown(is),
        shown(round)
    ));
    let advice = Diagnostic::new(&catalogue::MEASURE_TIGHT, garment.edge(first).span, title.in_sizes())
        .label(match stretched - is > garment.tolerance {
            true => format!("its cloth stretches to {} at the most", shown(stretched)),
            false => format!("{name}, and what it goes on along, in cloth that does not stretch"),
        })
        .also(neck.span, format!("the neck is {}", shown(round)));
    Some(
        Finding::new(size.id(), round - stretched, advice.help(format!(
            "make it at least {} longer: wider at the shoulder, or lower in front; a collar is buttoned 1 to 2 cm wider than the \
             neck (common practice)",
            at_least(round - stretched, garment.unit)
        )))
        .about("neckline")
        .figure("neckline", shown(is))
        .figure("neck", shown(round)),
    )
}
