//! `piece/tiny` and `piece/huge`: a piece smaller than a stitch is long, and one far longer than whoever wears it.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Dimension, Garment, PaperId, ValueId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::SewnRun;
use crate::shape::fold::opened_extents;
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::PIECE_TINY, &catalogue::PIECE_HUGE], run: Run::PerSize(run) };

/// How long a stitch is, in millimetres: 10 an inch (common practice).
const STITCH: f64 = 2.54;

/// Longer than this, in millimetres, is no piece of a garment: a train, or a circle from hip to floor, has less …
const HUGE: f64 = 3200.0;
/// … unless it is narrower than this, in millimetres, as a sash or a binding is: …
const SASH: f64 = 500.0;
/// … the longest cloth that is wound round a head or a waist has less than this (common practice).
const WOUND: f64 = 7000.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen: IdSet<PaperId> = IdSet::default();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|_| seen.insert(part.part.paper)) else {
            continue;
        };
        // Two of its corners that lie far enough apart show most pieces at once.
        let mut corners = drawn.outline().iter().map(|edge| edge.path.start());
        if let Some(first) = corners.next()
            && drawn.edges.len() > 1
        {
            let apart = corners.map(|corner| corner - first);
            let (across, up) = apart
                .fold((0.0_f64, 0.0_f64), |(across, up), way| (across.max(way.x.abs()), up.max(way.y.abs())));
            if across >= STITCH && up >= STITCH && across.hypot(up) < 0.5 * HUGE {
                continue;
            }
        }
        let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
        let fold = match drawn.cut {
            CutHow::OnFold(fold) => drawn.edges.iter().position(|edge| edge.edge == fold),
            CutHow::Alike | CutHow::Mirrored => None,
        };
        let whole = match fold {
            Some(fold) => opened_extents(&ring, fold).ok(),
            None => extents(&ring),
        };
        let Some(whole) = whole else { continue };
        let least = whole.width().min(whole.height());
        if least >= STITCH {
            findings.extend(huge(garment, size, drawn, [whole.width(), whole.height()]));
            continue;
        }
        let piece = garment.piece(drawn.piece);
        let (across, up) = (shown(whole.width()), shown(whole.height()));
        let title = Title::new(format!("{} is {across} wide and {up} high", piece.title)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::PIECE_TINY, piece.span, title)
            .label("narrower than a stitch is long")
            .help("look at its figures and their unit: a bare number takes the units that the file says");
        let finding = Finding::new(size.id(), STITCH - least, mistake).about(&*piece.name);
        findings.push(finding.figure("wide", across).figure("high", up));
    }
}

fn huge(garment: &Garment, size: &WorkedSize, drawn: &DrawnPiece, [wide, high]: [f64; 2]) -> Option<Finding> {
    let long = wide.max(high);
    // What is narrow and sewn along something else, a flounce or a binding, goes round as often as that does.
    let is_sash = wide.min(high) < SASH;
    let is_told = garment.straps.iter().any(|strap| strap.piece == drawn.piece);
    if long <= if is_sash { WOUND } else { HUGE } || is_sash && (is_told || is_sewn_to_another(size, drawn)) {
        return None;
    }
    let (piece, unit) = (garment.piece(drawn.piece), garment.unit);
    let (across, up) = (amount(wide, unit), amount(high, unit));
    let title = Title::new(format!("{} is {across} wide and {up} high", piece.title)).in_sizes();
    let mut warning =
        Diagnostic::new(&catalogue::PIECE_HUGE, piece.span, title).label("longer than anybody is tall");
    // The longest value that is no longer than the piece is most often where the slip is.
    let values = ValueId::enumerate(&garment.values);
    let long_ones = values.filter_map(|(id, value)| Some((value, size.drawn.scalar(id)?)));
    let longest = long_ones
        .filter(|(value, mm)| value.dimension == Dimension::Length && *mm > 0.5 * HUGE && *mm <= long)
        .max_by(|one, other| one.1.total_cmp(&other.1));
    if let Some((value, mm)) = longest {
        warning = warning.also(value.span, amount(mm, unit));
    }
    let warning =
        warning.help("look at its figures and their unit: a bare number takes the units that the file says");
    let finding = Finding::new(size.id(), long, warning).about(&*piece.name);
    Some(finding.figure("wide", across).figure("high", up))
}

/// Whether a seam takes it together with another piece.
fn is_sewn_to_another(size: &WorkedSize, drawn: &DrawnPiece) -> bool {
    size.sewn.seams.iter().any(|sewn| {
        let plies = || sewn.first.plies.iter().chain(&sewn.second.plies);
        let is_own = |run: &SewnRun| size.sewn.part(run.part).part.piece == drawn.piece;
        let mut runs = plies().flat_map(|ply| &ply.runs);
        plies().flat_map(|ply| &ply.runs).any(is_own) && runs.any(|run| !is_own(run))
    })
}

/// To a hundredth of a millimetre, whatever unit the file has: a tape does not show it.
fn shown(mm: f64) -> String {
    format!("{} mm", (mm * 100.0).round() / 100.0)
}
