//! `dart/far`: a dart that is many times as long as it is wide, so that its point was hardly meant; `dart/to-point`: one that is
//! sewn to the very point of the bust.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnPiece, DrawnTakeUp};
use std::collections::HashSet;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::DART_FAR, &catalogue::DART_TO_POINT], run: Run::PerSize(run) };

/// Darts from an edge are 8 to 18 cm long, long ones from the side to the bust some 25, a tailor's front dart that runs out
/// under the pocket some 36 (trade habit). Longer than this, in millimetres, …
const LONG: f64 = 380.0;
/// … and so many times as long as wide, no dart is: a long one takes in much.
const THIN: f64 = 15.0;

/// The points of a body that are round, by a word of their name.
const ROUND: [&str; 2] = ["bust_point", "apex"];
/// A dart that stops so far before a point does not end at it, in millimetres.
const BEFORE: f64 = 5.0;
/// A place no further from a point is it, in millimetres.
pub(super) const AT_POINT: f64 = 0.5;

/// Whether a point of that name is one at which a body is round.
pub(super) fn is_round(name: &str) -> bool {
    ROUND.iter().any(|word| name == *word || name.ends_with(&format!("_{word}")))
}

/// A dart that is sewn to the point of the bust stands off there: the body is round, and no dart ends in a point on it.
fn to_point(
    garment: &Garment,
    size: &WorkedSize,
    drawn: &DrawnPiece,
    placed: &DrawnTakeUp,
) -> Option<Finding> {
    if placed.pressed.is_none() || placed.stopping >= BEFORE {
        return None;
    }
    let spot = drawn.spots.iter().find(|spot| {
        spot.at.distance(placed.apex) <= AT_POINT && is_round(&garment.point(spot.point).name)
    })?;
    let (named, piece) = (garment.edge(placed.name), words::piece(garment, drawn.piece));
    let point = &garment.point(spot.point).name;
    let short = words::written(&amount(25.0, garment.unit));
    let title = Title::new(format!("{} of {piece} is sewn to the very {point}", named.name));
    let advice = Diagnostic::new(&catalogue::DART_TO_POINT, placed.said, title.in_sizes())
        .label("ends in a point where the body is round")
        .help(format!(
            "makers stop 2 to 2.5 cm before it, so that no tip stands off: stopping {short} short"
        ));
    let about = format!("{} {}", garment.piece(drawn.piece).name, named.name);
    Some(Finding::new(size.id(), BEFORE - placed.stopping, advice).about(about))
}

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
            findings.extend(to_point(garment, size, drawn, placed));
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
