//! A piece that is turned inside out in some of the sizes.

use super::model::SizedGarment;
use super::sketch::ring;
use crate::garment::{Garment, Outline, PaperId, SizeId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::shape::outline::signed_area;

/// Compares the way round that each paper's outline goes: the sizes that are fewer are reported, of a
/// tie the later ones.
pub(super) fn across_sizes(garment: &Garment, sizes: &[SizedGarment]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (id, paper) in PaperId::enumerate(&garment.papers).filter(|(_, paper)| paper.layer.is_none()) {
        let ways: Vec<(SizeId, f64)> = sizes
            .iter()
            .filter_map(|sized| {
                let drawn = sized.paper(id)?;
                Some((sized.size, signed_area(&ring(drawn))))
            })
            .collect();
        let right = ways.iter().filter(|(_, area)| *area > 0.0).count();
        let left = ways.len() - right;
        let first = ways.first().is_some_and(|(_, area)| *area > 0.0);
        let usual = right > left || (right == left && first);
        for (size, area) in ways.into_iter().filter(|(_, area)| (*area > 0.0) != usual) {
            let piece = garment.piece(paper.piece);
            let span = match &piece.drawing.outline {
                Outline::Walk { span, .. } => *span,
                _ => piece.span,
            };
            let title = Title::new(format!("{} is turned inside out", piece.title)).in_sizes();
            let message = Diagnostic::new(&catalogue::OUTLINE_COLLAPSES, span, title)
                .help("its corners have passed one another: look at what they are worked out from");
            findings.push(Finding::new(size, area.abs(), message));
        }
    }
    findings
}
