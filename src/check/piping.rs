//! `piping/straight`: a narrow folded strip of woven cloth, cut with the grain, that is sewn round a curve.

use super::seams::sides::each;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::SewnSeam;
use crate::shape::Vec2;
use crate::shape::path::Path;
use crate::syntax::tree::ClothKind;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PIPING_STRAIGHT], run: Run::PerSize(run) };

/// A folded strip that is no wider than this as it is cut, in millimetres, is piping, and no band that is shaped to lie flat.
const NARROW: f64 = 60.0;
/// An edge that is so many times as long as the way between its ends is curved: a tenth of a circle and more.
const CURVED: f64 = 1.03;
/// The cosine of the angle to the grain, between 25 and 65 degrees, within which cloth is cut on the bias.
const ON_THE_BIAS: std::ops::RangeInclusive<f64> = 0.42..=0.91;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.pieces.iter().all(|piece| piece.folds.is_empty()) {
        return;
    }
    let mut told: Vec<PieceId> = Vec::new();
    for (seam, sewn) in each(garment, &size.sewn) {
        let Some(strip) = strip(garment, size, sewn).filter(|piece| !told.contains(piece)) else { continue };
        let Some(round) = curved(garment, size, sewn) else { continue };
        told.push(strip);
        let own = garment.piece(strip);
        let piece = words::piece(garment, strip);
        let title =
            Title::new(format!("{piece} is cut with the grain, and is to lie round {round}")).in_sizes();
        let advice = Diagnostic::new(&catalogue::PIPING_STRAIGHT, own.span, title)
            .label("does not lie round a curve")
            .also(seam.name_span, "sewn on here")
            .help(format!("cut it on the bias: grain bias in {}; or from cloth that stretches", own.name));
        findings.push(Finding::new(size.id(), 0.0, advice).about(&*own.name));
    }
}

/// The piece of a narrow folded strip in a seam that lies straight in woven cloth.
fn strip(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<PieceId> {
    let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
    plies.flat_map(|ply| &ply.runs).find_map(|run| {
        let part = size.sewn.part(run.part).part;
        let cloth = garment.fabric(garment.layer(part.layer).fabric?);
        let is_woven = matches!(cloth.kind, Some(ClothKind::WovenFirm | ClothKind::WovenSupple))
            && cloth.stretch.across.is_none();
        if garment.piece(part.piece).folds.is_empty() || !is_woven {
            return None;
        }
        let drawn = size.drawn.paper(part.paper)?;
        let path = &drawn.edge_at(run.edge)?.path;
        let long = drawn.outline().iter().map(|edge| edge.path.length()).fold(0.0, f64::max);
        // Its end goes round nothing.
        let is_along = path.length() > 0.5 * long;
        (is_narrow(drawn) && is_along && is_straight(path) && !is_on_bias(drawn.grain, path))
            .then_some(part.piece)
    })
}

fn is_narrow(drawn: &DrawnPiece) -> bool {
    let area = crate::shape::outline::signed_area(drawn.outline().iter().map(|edge| &edge.path)).abs();
    let long = drawn.outline().iter().map(|edge| edge.path.length()).fold(0.0, f64::max);
    long > 0.0 && area / long <= NARROW
}

fn is_straight(path: &Path) -> bool {
    path.length() <= CURVED * path.start().distance(path.end())
}

fn is_on_bias(grain: Vec2, path: &Path) -> bool {
    let way = path.end() - path.start();
    way.hypot() > 0.0 && ON_THE_BIAS.contains(&grain.normalize().dot(way.normalize()).abs())
}

/// What of a seam is curved that is no folded strip itself.
fn curved(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<String> {
    let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
    plies.flat_map(|ply| &ply.runs).find_map(|run| {
        let part = size.sewn.part(run.part).part;
        if !garment.piece(part.piece).folds.is_empty() {
            return None;
        }
        let edge = size.drawn.paper(part.paper)?.edge_at(run.edge)?;
        (!is_straight(&edge.path)).then(|| words::edge(garment, garment.whole_edge(edge.edge)))
    })
}
