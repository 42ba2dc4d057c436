//! `place/small-mouth`: a pocket into which no finger goes, or that is too shallow to hold anything.

use super::put;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::patches::Patch;
use crate::shape::Point;
use std::collections::BTreeSet;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_SMALL_MOUTH], run: Run::PerSize(run) };

/// As wide as a finger and the cloth beside it, in millimetres.
const FINGER: f64 = 25.0;
/// Less deep than this, in millimetres, no pocket holds anything.
const DEEP: f64 = 30.0;
/// Stitched down on so many edges it is a pocket, and not a tab.
const SIDES: usize = 2;

/// Rows are followed within this, in millimetres.
const FLAT: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    for patch in Patch::all(garment, &size.drawn) {
        let edges = |of: &[(EdgeId, _)]| of.iter().map(|(edge, _)| *edge).collect::<BTreeSet<EdgeId>>();
        let open = edges(&patch.open);
        let mouth: f64 = patch.open.iter().map(|(_, path)| path.length()).sum();
        if open.len() != 1 || edges(&patch.rows).len() < SIDES || mouth <= 0.0 {
            continue;
        }
        let own = words::piece(garment, patch.placement.piece);
        if mouth >= FINGER {
            let deep = depth(&patch);
            if deep < DEEP - garment.tolerance {
                let deep_words = amount(deep, garment.unit);
                let title = Title::new(format!("{own} is {deep_words} deep: it holds nothing")).in_sizes();
                let advice = Diagnostic::new(&catalogue::PLACE_SMALL_MOUTH, put(&patch), title)
                    .label("open on one side alone")
                    .help(
                        "look at its figures and their unit; if it is a badge or a label, topstitch all round; if it is a loop or \
                         a tab, leave another side of it free",
                    );
                findings
                    .push(Finding::new(size.id(), DEEP - deep, advice).about(own).figure("deep", deep_words));
            }
            continue;
        }
        let wide = amount(mouth, garment.unit);
        let title = Title::new(format!("{own} is open for {wide}: no finger goes into it")).in_sizes();
        let advice = Diagnostic::new(&catalogue::PLACE_SMALL_MOUTH, put(&patch), title)
            .label("stitched down on all sides but one")
            .help(
                "look at its figures and their unit; if it is a badge or a label, topstitch all round; if it is a tab, \
                 leave its sides free",
            );
        findings.push(Finding::new(size.id(), FINGER - mouth, advice).about(own).figure("open", wide));
    }
}

/// How far it goes down from its mouth.
fn depth(patch: &Patch) -> f64 {
    let away = |at: Point| {
        let mouths = patch.open.iter().map(|(_, path)| path.nearest(at).distance);
        mouths.fold(f64::INFINITY, f64::min)
    };
    let places = patch.rows.iter().flat_map(|(_, path)| path.flatten(FLAT));
    places.map(away).fold(0.0, f64::max)
}
