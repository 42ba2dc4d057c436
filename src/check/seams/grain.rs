//! `seam/grain`: two body pieces whose grain runs otherwise along the seam between them.
//!
//! Body pieces are told by how they are drawn: their seam goes up and down. Bands, yokes and waistbands
//! are sewn on by edges that go across, and are often cut the other way of the cloth.

use super::sides::each;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FabricId, Garment, Part, PieceId, Seam};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnRun, SewnSeam, SewnSide};
use crate::shape::Vec2;
use crate::shape::outline::{extents, signed_area};
use crate::shape::path::Path;
use crate::syntax::tree::ClothKind;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_GRAIN], run: Run::PerSize(run) };

/// The most that a side seam leans, in degrees, and still goes up and down.
const UPRIGHT: f64 = 30.0;
/// Grains that differ by less than this, in degrees, hang alike: a seam's own slant is as much.
const ALIKE: f64 = 10.0;
/// What has less cloth than this share of what it is sewn to hangs on it, as a pocket bag does.
const BODY: f64 = 0.25;
/// The seam of a sleeve is at least so long, as a share of the sleeve's width; that of a cuff is shorter.
const TUBE: f64 = 0.6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for (seam, sewn) in each(garment, sewing) {
        let (Some(first), Some(second)) = (only(&sewn.first), only(&sewn.second)) else { continue };
        // Two copies that are joined by one edge, as at a centre, are no tube.
        let is_one_edge = first.edge == second.edge;
        let (one, other) = (sewing.part(first.part).part, sewing.part(second.part).part);
        let (run, angles) = (first, (angle(sized, sewing, first), angle(sized, sewing, second)));
        let (Some(first), Some(second)) = angles else { continue };
        if one.piece == other.piece {
            if first > 45.0
                && !is_one_edge
                && is_tube(garment, size, one, run)
                && let Some((body, own)) = body_of(size, one).filter(|(_, own)| *own < ALIKE)
            {
                findings.push(finding(garment, sized, seam, (one.piece, body), (first, own), true));
            }
            continue;
        }
        if (first - second).abs() >= ALIKE
            && hang_alike(garment, one, other)
            && are_both_body(size, one, other)
        {
            findings.push(finding(garment, sized, seam, (one.piece, other.piece), (first, second), false));
        }
    }
}

/// Whether two parts should hang alike: of one cloth, or both woven.
fn hang_alike(garment: &Garment, one: Part, other: Part) -> bool {
    let cloth = |part: Part| garment.layer(part.layer).fabric;
    let is_woven = |fabric: FabricId| {
        matches!(garment.fabric(fabric).kind, Some(ClothKind::WovenFirm | ClothKind::WovenSupple))
    };
    match (cloth(one), cloth(other)) {
        (Some(one), Some(other)) => one == other || (is_woven(one) && is_woven(other)),
        _ => false,
    }
}

/// Whether both are pieces of the body: a pocket bag hangs straight down from a mouth that slants.
fn are_both_body(size: &WorkedSize, one: Part, other: Part) -> bool {
    let cloth = |part: Part| {
        let drawn = size.drawn.paper(part.paper);
        drawn.map_or(0.0, |drawn| signed_area(drawn.edges.iter().map(|edge| &edge.path)).abs())
    };
    let (one, other) = (cloth(one), cloth(other));
    one.min(other) >= BODY * one.max(other)
}

/// Whether a piece that is sewn to itself is a tube like a sleeve, longer than a cuff or a band is.
fn is_tube(garment: &Garment, size: &WorkedSize, part: Part, run: &SewnRun) -> bool {
    let Some(drawn) = size.drawn.paper(part.paper) else { return false };
    let ring: Vec<Path> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
    let (Some(bounds), Some(edge)) = (extents(&ring), drawn.edge_at(run.edge)) else { return false };
    garment.piece(part.piece).folds.is_empty() && edge.path.length() >= TUBE * bounds.width()
}

/// What a sleeve is set into: a piece of its layer that is sewn to it, and the angle between its grain and
/// its own upright seam.
fn body_of(size: &WorkedSize, sleeve: Part) -> Option<(PieceId, f64)> {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let parts = |sewn: &SewnSeam| -> Vec<Part> {
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        plies.flat_map(|ply| &ply.runs).map(|run| sewing.part(run.part).part).collect()
    };
    let joined = sewing.seams.iter().map(parts).filter(|parts| parts.contains(&sleeve));
    let is_body = |part: &Part| {
        part.piece != sleeve.piece && part.layer == sleeve.layer && are_both_body(size, sleeve, *part)
    };
    let bodies: Vec<Part> = joined.flatten().filter(is_body).collect();
    let upright = sewing.seams.iter().flat_map(|sewn| [&sewn.first, &sewn.second]).filter_map(only);
    upright
        .filter(|run| bodies.contains(&sewing.part(run.part).part))
        .find_map(|run| Some((sewing.part(run.part).part.piece, angle(sized, sewing, run)?)))
}

/// The one edge of a side.
fn only(side: &SewnSide) -> Option<&SewnRun> {
    match side.plies.as_slice() {
        [ply] => match ply.runs.as_slice() {
            [run] => Some(run),
            _ => None,
        },
        _ => None,
    }
}

/// The angle between an upright edge and its piece's grain, in degrees up to 90.
fn angle(sized: &SizedGarment, sewing: &Sewing, run: &SewnRun) -> Option<f64> {
    let drawn = sized.paper(sewing.part(run.part).part.paper)?;
    let path = &drawn.edge_at(run.edge)?.path;
    let way: Vec2 = path.end() - path.start();
    let between = |one: Vec2, other: Vec2| {
        let turn = libm::atan2(one.cross(other).abs(), one.dot(other).abs()).to_degrees();
        turn.is_finite().then_some(turn)
    };
    if way.hypot() <= 0.0 || between(way, Vec2::new(0.0, 1.0))? > UPRIGHT {
        return None;
    }
    between(way, drawn.grain)
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    seam: &Seam,
    (one, other): (PieceId, PieceId),
    (first, second): (f64, f64),
    is_tube: bool,
) -> Finding {
    let words_of = |angle: f64| match angle {
        angle if angle < ALIKE => "along it".to_owned(),
        angle if angle > 90.0 - ALIKE => "across it".to_owned(),
        angle => format!("at {}° to it", angle.round()),
    };
    let (name, other_name) = (words::piece(garment, one), words::piece(garment, other));
    let own = words_of(first);
    let (title, label) = match is_tube {
        false => (
            format!(
                "at {} the grain of {name} runs {own}, that of {other_name} {}",
                seam.words(),
                words_of(second)
            ),
            "the two sides hang differently",
        ),
        // What it is set into is in another seam.
        true => (
            format!(
                "at {} the grain of {name} runs {own}; that of {other_name}, to which it is sewn, runs up and down",
                seam.words()
            ),
            "it hangs otherwise than what it is sewn to",
        ),
    };
    let advice = Diagnostic::new(&catalogue::SEAM_GRAIN, seam.name_span, title)
        .label(label)
        .also(garment.piece(one).span, format!("{name}: {}", words_of(first)))
        .also(garment.piece(other).span, format!("{other_name}: {}", words_of(second)))
        .help("give both pieces one grain; if one is cut across or on the bias by design, nothing needs to change");
    Finding::new(sized.size, 0.0, advice).about(seam.name.to_string())
}
