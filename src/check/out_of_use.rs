//! `length/out-of-use`: stands, bands, cords, ties, straps, tapes and gaps far longer than any that are sewn: slips of the unit or
//! of the decimal point.

use super::{Check, Run, gaps, strap_room};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, CordId, Expression, Garment, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{RunsThrough, amount_of, straps};
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::LENGTH_OUT_OF_USE], run: Run::PerSize(run) };

/// The stand of a double-breasted front is up to 10 cm wide, in millimetres (common practice).
const STAND: f64 = 120.0;
/// A waistband is a hand deep, one over all of the belly two, in millimetres (common practice); facings are no wider.
const BAND: f64 = 400.0;
/// A tie goes twice round a body and hangs down, in millimetres.
const TIE: f64 = 3000.0;
/// A sash goes three times round, in millimetres.
const STRAP: f64 = 5000.0;
/// A sash is a hand wide, in millimetres.
const STRAP_WIDE: f64 = 200.0;
/// A cord is as long as its channel spread out and hangs out at both ends; so much more, in millimetres, nobody
/// leaves.
const CORD: f64 = 2000.0;
/// Shoulder tape is 1 cm wide, petersham at a waist up to 10, in millimetres (common practice).
const TAPE: f64 = 100.0;
/// Makers turn through 13 to 25 cm, thick coats through 40, in millimetres (common practice).
const GAP: f64 = 500.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut look = |what: String, said: &Expression, most: f64, why: &str| {
        let Some(is) = amount_of(garment, &size.drawn, said).filter(|is| *is > most) else { return };
        let (shown, usual) = (amount(is, garment.unit), amount(most, garment.unit));
        let title = Title::new(format!("{what} is {shown}, more than any that is sewn")).in_sizes();
        let warning = Diagnostic::new(&catalogue::LENGTH_OUT_OF_USE, said.span, title)
            .label(format!("{why}: {usual} at the most"))
            .help("look at its figure and its unit: a bare number takes the units that the file says");
        findings.push(Finding::new(size.id(), is - most, warning).about(what).figure("is", shown));
    };
    for (name, said) in &garment.depths {
        look(format!("the depth of {name}"), said, BAND, "a band over all of the belly");
    }
    for closure in &garment.closures {
        let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
        // A stand that is drawn is compared with what is said of it.
        let is_drawn = |sewn: &SewnEdge| garment.edge(garment.whole_edge(sewn.edge)).line;
        let mut lines = closure.first.edges.iter().chain(&closure.second.edges);
        if let Some(stand) = row.stand.as_ref().filter(|_| !lines.any(is_drawn)) {
            look(format!("the stand of {}", closure.name), stand, STAND, "what laps over beyond the middle");
        }
        if let (Fastener::Tie, Some(long)) = (row.kind, &row.size) {
            look(format!("each tie of {}", closure.name), long, TIE, "round a body and down");
        }
    }
    for strap in garment.straps.iter().filter(|strap| !strap.poisoned) {
        look(strap.name.to_string(), &strap.length, STRAP, "a sash goes three times round");
        // What is wider than its piece has room for is told as that.
        let is_too_wide = straps(garment, &size.drawn).iter().any(|sewn| {
            std::ptr::eq(garment.strap(sewn.strap), strap) && strap_room::is_too_wide(garment, size, sewn)
        });
        if !is_too_wide {
            look(format!("the width of {}", strap.name), &strap.width, STRAP_WIDE, "the widest of sashes");
        }
    }
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        if let Some(width) = seam.tape.as_ref().and_then(|tape| tape.width.as_ref()) {
            look(format!("the tape in {}", seam.name), width, TAPE, "petersham, the widest");
        }
        for gap in seam.gaps.iter().filter(|gap| !gaps::is_too_long(garment, size, seam, gap)) {
            look(format!("the gap in {}", seam.name), &gap.length, GAP, "to turn a coat through");
        }
    }
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let own = size.sewn.channels.iter().flatten().filter(|channel| channel.of == RunsThrough::Cord(id));
        let channel = own.map(|channel| channel.length).filter(|long| long.is_finite()).reduce(f64::max);
        let ends = cord.ends.as_ref().and_then(|ends| amount_of(garment, &size.drawn, ends)).unwrap_or(0.0);
        if let Some(channel) = channel {
            look(
                cord.name.to_string(),
                &cord.length,
                channel + 2.0 * ends.max(0.0) + CORD,
                "its channel and both its ends",
            );
        }
    }
}
