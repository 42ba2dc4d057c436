//! `opening/unsaid` of a waist that no edge lies at: narrower than what must get past it, and nothing is said of
//! how that gets there.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Expression, Garment, LayerId, Used, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::sewn_layer;
use crate::sewing::ring_of_lines;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_UNSAID], run: Run::PerSize(run) };

/// The narrowest of the trunk.
const WAIST: &str = "waist";
/// What gets past it when a garment is put on from below.
const BELOW: [&str; 3] = ["hip", "hips", "seat"];
/// The same from above.
const ABOVE: [&str; 2] = ["bust", "chest"];

/// A garment tells its waist by a measure along lines, held against the body's.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.openings_unread {
        return;
    }
    for (id, value) in ValueId::enumerate(&garment.values) {
        let ValueKind::Measure { value: measured, against: Some(body) } = &value.kind else { continue };
        if &*garment.value(*body).name != WAIST {
            continue;
        }
        let (Some(lines), Some(long), Some(past)) =
            (lines(garment, measured), size.drawn.scalar(id), passes(garment, size))
        else {
            continue;
        };
        if long + garment.tolerance >= past.1 || is_spoken_of(garment, &lines) {
            continue;
        }
        let named: Option<Vec<(LayerId, EdgeId)>> =
            lines.iter().map(|&line| Some((sewn_layer(garment, garment.edge(line).piece)?, line))).collect();
        let ring = named.and_then(|named| ring_of_lines(garment, &size.drawn, &size.sewn, &named));
        if let Some(ring) = ring.filter(|ring| ring.opens() + garment.tolerance < past.1) {
            findings.push(reported(garment, size, value, &lines, ring.opens(), past));
        }
    }
}

/// The lines that a measure adds up, and nothing else.
fn lines(garment: &Garment, measured: &Expression) -> Option<Vec<EdgeId>> {
    let mut found = Vec::new();
    for used in measured.uses() {
        match used {
            Used::Edge(used) if garment.edge(used.edge).line => {
                if !found.contains(&used.edge) {
                    found.push(used.edge);
                }
            }
            _ => return None,
        }
    }
    (!found.is_empty()).then_some(found)
}

fn is_spoken_of(garment: &Garment, lines: &[EdgeId]) -> bool {
    let mut spoken = garment.openings.iter().flat_map(|opening| &opening.ring.edges);
    spoken.any(|sewn| lines.contains(&sewn.edge))
}

/// The measure that has the least to get past a waist, from below or from above.
fn passes<'a>(garment: &'a Garment, size: &WorkedSize) -> Option<(&'a str, f64)> {
    let of = |names: &[&str]| {
        ValueId::enumerate(&garment.values).find_map(|(id, value)| {
            let is_it = matches!(value.kind, ValueKind::Body(_)) && names.contains(&&*value.name);
            if is_it { Some((&*value.name, size.drawn.scalar(id)?)) } else { None }
        })
    };
    let below = of(&BELOW)?;
    Some(of(&ABOVE).filter(|above| above.1 < below.1).unwrap_or(below))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    value: &Value,
    lines: &[EdgeId],
    opens: f64,
    (passes, needed): (&str, f64),
) -> Finding {
    let named: Vec<String> = lines.iter().map(|&line| words::edge(garment, line)).collect();
    let (is, needs) = (amount(opens, garment.unit), amount(needed, garment.unit));
    let title = Title::new(format!(
        "nothing is said of what must pass {}, where it opens to {is}, and the {passes} is {needs}",
        words::listed(&named)
    ))
    .in_sizes();
    let chain: Vec<String> = lines
        .iter()
        .map(|&line| {
            let edge = garment.edge(line);
            format!("{}.{}", garment.piece(edge.piece).name, edge.name)
        })
        .collect();
    let advice = Diagnostic::new(&catalogue::OPENING_UNSAID, value.span, title)
        .label("measured here")
        .help(format!("say it, so that it is checked: opening {}  passes {passes}", chain.join(" + ")));
    Finding::new(size.id(), needed - opens, advice)
        .about(&*value.name)
        .figure("opens to", is)
        .figure(passes, needs)
}
