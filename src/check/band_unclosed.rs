//! `band/unclosed`: a band with an underlap, that nothing closes.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, Seam};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BAND_UNCLOSED], run: Run::PerSize(run) };

/// What lies under is longer than this, in millimetres: less is no underlap but rounding.
const LEAST: f64 = 5.0;
/// Longer than this it is told as too long, in millimetres (`band/underlap`).
const MOST: f64 = 102.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for sewn in &size.sewn.seams {
        let seam = garment.seam(sewn.seam);
        let Some(edge) = seam.first.first().and_then(|chain| chain.edges.first()) else { continue };
        // The words that name a band are those of its piece and of the seam that sews it on.
        let piece = garment.piece(edge.piece);
        if piece.span != seam.name_span
            || piece.name != seam.name
            || seam.poisoned
            || garment.incomplete.sewing
        {
            continue;
        }
        let own = garment.paper_of(edge.layer, edge.piece).and_then(|paper| size.drawn.paper(paper));
        let (Some(own), Some(ply)) = (own, sewn.first.plies.first()) else { continue };
        let paths: Vec<Path> = own.edges.iter().map(|edge| edge.path.clone()).collect();
        let beyond = extents(&paths).map_or(0.0, |bounds| bounds.width() - ply.length);
        if !(LEAST..=MOST).contains(&beyond) || is_closed(garment, seam, edge.piece) {
            continue;
        }
        let title = format!("{} has an underlap, and nothing closes it", words::piece(garment, edge.piece));
        let advice = Diagnostic::new(&catalogue::BAND_UNCLOSED, seam.name_span, title)
            .label("one end lies under the other")
            .help(format!(
                "say what holds it: closure {0}_hook {0}.left to {0}.right {{ hooks 1 }}; or leave underlap out, if what \
                 closes below it reaches to its top",
                seam.name
            ));
        findings.push(Finding::new(size.id(), beyond, advice).about(&*seam.name));
    }
}

/// Whether anything closes on the band, or is tied from it.
fn is_closed(garment: &Garment, seam: &Seam, band: PieceId) -> bool {
    let is_own = |piece: PieceId| garment.origins(piece).contains(&band) || piece == band;
    let mut closed = garment.closures.iter().flat_map(|one| one.first.edges.iter().chain(&one.second.edges));
    let mut ends = garment.straps.iter().flat_map(|strap| &strap.runs).flat_map(|run| run.ends());
    closed.any(|sewn| is_own(sewn.piece))
        || ends.any(|end| is_own(garment.point(end.point).piece))
        || !seam.enclosing.is_empty()
}
