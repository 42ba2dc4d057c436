//! `dart/far`: a dart that is many times as long as it is wide, so that its point was hardly meant.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use std::collections::HashSet;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::DART_FAR], run: Run::PerSize(run) };

/// Darts from an edge are 8 to 18 cm long, long ones from the side to the bust some 25, a tailor's front dart that runs out
/// under the pocket some 36 (trade habit). Longer than this, in millimetres, …
const LONG: f64 = 380.0;
/// … and so many times as long as wide, no dart is: a long one takes in much.
const THIN: f64 = 15.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|drawn| !drawn.take_ups.is_empty()) else {
            continue;
        };
        if !seen.insert(part.part.paper) {
            continue;
        }
        for placed in drawn.take_ups.iter().filter(|one| one.pleat.is_none() && one.upper.is_none()) {
            let wide = 2.0 * placed.depth();
            let long = placed.wedge.legs().into_iter().fold(0.0, f64::max);
            if long <= LONG || long <= THIN * wide {
                continue;
            }
            let named = garment.edge(placed.name);
            let (is, across) = (amount(long, garment.unit), amount(wide, garment.unit));
            let piece = words::piece(garment, drawn.piece);
            let title =
                Title::new(format!("{} of {piece} is {is} long and {across} wide", named.name)).in_sizes();
            let advice = Diagnostic::new(&catalogue::DART_FAR, placed.said, title)
                .label("its point lies far away")
                .help(format!(
                    "look at the point that it is directed to, and at its unit; darts are seldom longer than {}",
                    amount(LONG, garment.unit)
                ));
            let about = format!("{} {}", garment.piece(drawn.piece).name, named.name);
            findings.push(Finding::new(size.id(), long, advice).about(about).figure("long", is));
        }
    }
}
