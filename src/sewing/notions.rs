//! What has to be bought beside cloth.

use super::amounts::amount_of;
use super::model::{ButtonRow, NotionNeed};
use super::stitching::{Finder, Place};
use crate::garment::{ClosureKind, CutHow, Dimension, Finish, FinishKind, Garment, PieceId, SewnEdge};
use crate::report::amount;
use crate::resolve::{SizedGarment, finished};
use crate::syntax::tree::ZipperKind;

/// Zips, buttons, elastic, binding, cords, and what the maker lists; in that order.
pub fn notions(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    buttons: &[ButtonRow],
) -> Vec<NotionNeed> {
    let mut needs = Vec::new();
    let length = |mm: f64| amount(mm, garment.unit);
    for (closure, fit) in garment.closures.iter().zip(&sized.zips) {
        if let (Some(fit), Some(ClosureKind::Zipper { kind, .. })) = (fit, &closure.kind) {
            let what = match kind {
                ZipperKind::Separating => "separating zip",
                ZipperKind::Closed => "closed zip",
                ZipperKind::Concealed => "concealed zip",
            };
            needs.push(need(what, Some(1), Some(fit.zip), closure.kind_span));
        }
    }
    for row in buttons {
        let what = format!("button {} mm", shown(row.size));
        needs.push(need(&what, Some(row.count), None, garment.closure(row.closure).kind_span));
    }
    for finish in &garment.finishes {
        match &finish.kind {
            FinishKind::Casing(_, Some((width, long))) => {
                let (width, long) = (amount_of(garment, sized, width), amount_of(garment, sized, long));
                if let (Some(width), Some(long)) = (width, long) {
                    let what = format!("elastic {} wide", length(width));
                    needs.push(need(
                        &what,
                        Some(rings(garment, sized, finish)),
                        Some(long),
                        finish.kind_span,
                    ));
                }
            }
            FinishKind::Bound(width) => {
                if let (Some(width), Some(long)) =
                    (amount_of(garment, sized, width), bound_length(garment, finder, finish))
                {
                    let what = format!("binding, finished {} wide", length(width));
                    needs.push(need(&what, None, Some(long), finish.kind_span));
                }
            }
            _ => {}
        }
    }
    for cord in &garment.cords {
        if let Some(long) = amount_of(garment, sized, &cord.length) {
            needs.push(need(&format!("cord ({})", cord.name), Some(1), Some(long), cord.span));
        }
    }
    for notion in &garment.notions {
        let Some(said) = &notion.amount else { continue };
        let Some(value) = amount_of(garment, sized, said) else { continue };
        let is_length = said.dimension == Dimension::Length;
        let count =
            (!is_length && value >= 0.0 && value <= f64::from(u32::MAX)).then_some(value.ceil() as u32);
        needs.push(need(&notion.title, count, is_length.then_some(value), notion.span));
    }
    needs
}

fn need(what: &str, count: Option<u32>, length: Option<f64>, span: crate::source::Span) -> NotionNeed {
    NotionNeed { what: what.to_owned(), count, length, span }
}

/// A size of button as it is sold: whole millimetres, else with one decimal.
fn shown(mm: f64) -> String {
    format!("{}", (mm * 10.0).round() / 10.0 + 0.0)
}

/// How many rings the edges of a casing make: one where a piece of it lies on a fold, or where a
/// seam or a closure joins left to right; else one for each copy (two wrists).
fn rings(garment: &Garment, sized: &SizedGarment, finish: &Finish) -> u32 {
    let pieces: Vec<PieceId> = finish.edges.iter().map(|sewn| sewn.piece).collect();
    let left_to_right = |first: &[SewnEdge], second: &[SewnEdge]| {
        first.iter().any(|one| {
            pieces.contains(&one.piece)
                && second.iter().any(|other| (other.layer, other.edge) == (one.layer, one.edge))
        })
    };
    let joined = garment.seams.iter().any(|seam| {
        seam.first.iter().any(|one| seam.second.iter().any(|other| left_to_right(&one.edges, &other.edges)))
    }) || garment
        .closures
        .iter()
        .any(|closure| left_to_right(&closure.first.edges, &closure.second.edges));
    let mut copies = u32::MAX;
    for sewn in &finish.edges {
        for run in sized.runs_of(garment, sewn) {
            if let Some(Some(drawn)) = sized.papers.get(run.paper.index()) {
                copies = copies.min(match drawn.cut {
                    CutHow::OnFold(_) => 1,
                    CutHow::Alike | CutHow::Mirrored => drawn.count,
                });
            }
        }
    }
    if joined || copies == u32::MAX { 1 } else { copies.max(1) }
}

/// The finished length of all that is bound, over all copies in all its layers.
fn bound_length(garment: &Garment, finder: &Finder, finish: &Finish) -> Option<f64> {
    let places: Vec<Place> = finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn)).collect();
    let mut sum = None;
    for place in places {
        let drawn = finder.drawn(place.part)?;
        let times = match drawn.cut {
            CutHow::OnFold(_) => 2.0 * f64::from(drawn.count),
            CutHow::Alike | CutHow::Mirrored => f64::from(drawn.count),
        };
        sum = Some(sum.unwrap_or(0.0) + finished(garment, drawn, place.edge)? * times);
    }
    sum
}
