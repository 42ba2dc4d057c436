//! `require/unmet`: the maker's own checks.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Garment, Require};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::Finished;
use crate::syntax::tree::Relation;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::REQUIRE_UNMET], run: Run::PerSize(run) };

/// Two values that differ by less than this share of them are the same: arithmetic is not exact.
const NOISE: f64 = 1e-9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let finished = Finished::of(garment, sized);
    for require in &garment.requires {
        let left = finished.constant(&require.left);
        let right = finished.constant(&require.right);
        let (Some(left), Some(right)) = (left, right) else { continue };
        if holds(garment, require, left, right) {
            continue;
        }
        let show = |value: f64| words::value(garment, value, require.left.dimension);
        let (mut found, mut wanted) = (show(left), show(right));
        if found == wanted && require.relation != Relation::Unequal {
            // A tape does not show the difference, so it is reported exactly.
            let plain = if require.left.dimension == Dimension::Length { " mm" } else { "" };
            (found, wanted) = (format!("{left:.4}{plain}"), format!("{right:.4}{plain}"));
        }
        let title =
            Title::new("the requirement is not met").in_sizes().then(format!(": {}", require.because));
        let mistake = Diagnostic::new(&catalogue::REQUIRE_UNMET, require.span, title)
            .label(format!("{found}, where {} {wanted} is required", relation(require.relation)))
            .help("change what it depends on, or the requirement if it no longer holds");
        let finding = Finding::new(sized.size, (left - right).abs(), mistake);
        findings.push(finding.figure("is", found).figure(relation(require.relation), wanted));
    }
}

fn holds(garment: &Garment, require: &Require, left: f64, right: f64) -> bool {
    let noise = NOISE * left.abs().max(right.abs());
    let same = match require.left.dimension {
        Dimension::Length => (left - right).abs() <= garment.tolerance.max(noise),
        _ => (left - right).abs() <= noise,
    };
    match require.relation {
        Relation::Equal => same,
        Relation::Unequal => !same,
        Relation::Less => left < right - noise,
        Relation::LessOrEqual => left <= right + noise,
        Relation::Greater => left > right + noise,
        Relation::GreaterOrEqual => left >= right - noise,
    }
}

fn relation(relation: Relation) -> &'static str {
    match relation {
        Relation::Equal => "exactly",
        Relation::Unequal => "anything but",
        Relation::Less => "less than",
        Relation::LessOrEqual => "at most",
        Relation::Greater => "more than",
        Relation::GreaterOrEqual => "at least",
    }
}
