//! `button/two-places`, and `button/spacing` of where a row begins: one button between two places, and a row that begins far
//! below the top of its line.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Anchor, Closure, ClosureId, ClosureKind, Fasteners, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{FastenerRow, Row, lay_fasteners};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::BUTTON_TWO_PLACES, &catalogue::BUTTON_SPACING], run: Run::PerSize(run) };

/// A row begins no further below the top of its line than this many times its spacing, or the front gapes above it.
const BEGINS: f64 = 1.5;
/// Where buttons stand close together one more is not missed above them, in millimetres: a shirt begins its row 6 to 8 cm
/// below the button of its collar's stand (common practice).
const LEAST: f64 = 100.0;
/// Of fewer it is not told how far apart they would go on.
const FEWEST: u32 = 3;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let finder = size.finder(garment);
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let Some((from, to)) = &said.between else { continue };
        let Ok(laid) = lay_fasteners(garment, &size.drawn, &finder, id) else { continue };
        let Some(row) = &laid.row else { continue };
        let looking = Looking { garment, size, closure, said, between: [from, to] };
        findings.extend(looking.two_places(&laid, row));
        findings.extend(looking.begins_far_down(&laid, row));
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    closure: &'a Closure,
    said: &'a Fasteners,
    /// The places of the first and of the last of the row.
    between: [&'a Anchor; 2],
}

impl Looking<'_> {
    fn shown(&self, mm: f64) -> String {
        amount(mm, self.garment.unit)
    }

    fn finding(&self, weight: f64, about: &str, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.size.id(), weight, diagnostic).about(format!("{} {about}", self.closure.name))
    }

    /// One of them cannot lie in two places.
    fn two_places(&self, laid: &Row, row: &FastenerRow) -> Option<Finding> {
        let (first, last, _) = laid.ends?;
        let apart = (first - last).abs();
        if row.count > 1 || apart <= self.garment.tolerance {
            return None;
        }
        let (one, words) = (self.said.kind.one(), self.shown(apart));
        let title =
            Title::new(format!("{} has one {one}, and two places for it, {words} apart", self.closure.name))
                .in_sizes();
        let [from, to] = self.between.map(|anchor| anchor.span);
        let mistake = Diagnostic::new(&catalogue::BUTTON_TWO_PLACES, to, title)
            .label("to here")
            .also(from, "from here")
            .help(format!(
                "of one {one} both places are the same, from 3 below a corner to 3 below that corner; of more, say how many"
            ));
        Some(self.finding(apart, "places", mistake).figure("apart", words))
    }

    /// A row that begins much further below the top of its line than its buttons are apart.
    fn begins_far_down(&self, laid: &Row, row: &FastenerRow) -> Option<Finding> {
        let (spacing, (first, last, down)) = (row.spacing?, laid.ends?);
        if row.count < FEWEST || !row.kind.is_lapped() {
            return None;
        }
        let [from, to] = self.between;
        let from_top = |at: f64| if down { at } else { laid.sides[0] - at };
        let (begins, anchor) = match from_top(first) <= from_top(last) {
            true => (from_top(first), from),
            false => (from_top(last), to),
        };
        let most = f64::max(BEGINS * spacing, LEAST);
        if begins <= most + self.garment.tolerance {
            return None;
        }
        let (below, apart, one) = (self.shown(begins), self.shown(spacing), self.said.kind.one());
        let title = Title::new(format!(
            "the topmost {one} of {} lies {below} below the top of its line, and they are {apart} apart",
            self.closure.name
        ))
        .in_sizes();
        let advice = Diagnostic::new(&catalogue::BUTTON_SPACING, anchor.span, title)
            .label("nothing closes it above")
            .also(self.closure.first.span, "its line")
            .help(format!(
                "begin it no further from the top than one {one} is from the next; if it is worn open there, as below a \
                 lapel, nothing needs to change"
            ));
        let finding = self.finding(begins - most, "top", advice);
        Some(finding.figure("below the top", below).figure("apart", apart))
    }
}
