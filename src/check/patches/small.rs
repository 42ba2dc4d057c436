//! `place/small-mouth`: a pocket into which no finger goes.

use super::put;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::patches::Patch;
use std::collections::BTreeSet;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_SMALL_MOUTH], run: Run::PerSize(run) };

/// As wide as a finger, in millimetres.
const FINGER: f64 = 20.0;
/// Stitched down on so many edges it is a pocket, and not a tab.
const SIDES: usize = 2;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    for patch in Patch::all(garment, &size.drawn) {
        let edges = |of: &[(EdgeId, _)]| of.iter().map(|(edge, _)| *edge).collect::<BTreeSet<EdgeId>>();
        let open = edges(&patch.open);
        let mouth: f64 = patch.open.iter().map(|(_, path)| path.length()).sum();
        if open.len() != 1 || edges(&patch.rows).len() < SIDES || mouth >= FINGER || mouth <= 0.0 {
            continue;
        }
        let own = words::piece(garment, patch.placement.piece);
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
