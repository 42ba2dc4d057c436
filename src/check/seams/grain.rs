//! `seam/grain`: two body pieces whose grain runs otherwise along the seam between them.
//!
//! Body pieces are told by how they are drawn: their seam goes up and down. Bands, yokes and waistbands
//! are sewn on by edges that go across, and are often cut the other way of the cloth.

use super::sides::each;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnRun, SewnSide};
use crate::shape::Vec2;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_GRAIN], run: Run::PerSize(run) };

/// The most that a side seam leans, in degrees, and still goes up and down.
const UPRIGHT: f64 = 30.0;
/// Grains that differ by less than this, in degrees, hang alike: a seam's own slant is as much.
const ALIKE: f64 = 10.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for (seam, sewn) in each(garment, sewing) {
        let (Some(first), Some(second)) = (only(&sewn.first), only(&sewn.second)) else { continue };
        let (one, other) = (sewing.part(first.part).part, sewing.part(second.part).part);
        let cloth = |part: crate::garment::Part| garment.layer(part.layer).fabric;
        if one.piece == other.piece || cloth(one).is_none() || cloth(one) != cloth(other) {
            continue;
        }
        let angles = (angle(sized, sewing, first), angle(sized, sewing, second));
        let (Some(first), Some(second)) = angles else { continue };
        if (first - second).abs() >= ALIKE {
            findings.push(finding(garment, sized, seam, (one.piece, other.piece), (first, second)));
        }
    }
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
    (one, other): (crate::garment::PieceId, crate::garment::PieceId),
    (first, second): (f64, f64),
) -> Finding {
    let words_of = |angle: f64| match angle {
        angle if angle < ALIKE => "along it".to_owned(),
        angle if angle > 90.0 - ALIKE => "across it".to_owned(),
        angle => format!("at {}° to it", angle.round()),
    };
    let (name, other_name) = (words::piece(garment, one), words::piece(garment, other));
    let title = format!(
        "at the {} seam the grain of {name} runs {}, that of {other_name} {}",
        seam.name,
        words_of(first),
        words_of(second)
    );
    let advice = Diagnostic::new(&catalogue::SEAM_GRAIN, seam.name_span, title)
        .label("the two sides hang differently")
        .also(garment.piece(one).span, format!("{name}: {}", words_of(first)))
        .also(garment.piece(other).span, format!("{other_name}: {}", words_of(second)))
        .help("give both pieces one grain; if one is cut across or on the bias by design, nothing needs to change");
    Finding::new(sized.size, 0.0, advice).about(seam.name.to_string())
}
