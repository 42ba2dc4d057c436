//! `row/off-cloth`: a row along a line that goes on beyond the piece.

use super::strap_room::whole;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::shape::Point;
use crate::shape::outline::{Region, is_on};
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ROW_OFF_CLOTH], run: Run::PerSize(run) };

/// Places along a line are looked at so far apart, in millimetres.
const APART: f64 = 5.0;
/// The most places that are looked at on one line.
const MOST_PLACES: usize = 400;
/// A line along the cutting line is on the cloth, within this, in millimetres.
const ON_EDGE: f64 = 0.01;
/// The place where a line leaves the cloth is found by halving so often: to less than a thousandth of a millimetre.
const HALVINGS: usize = 13;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.rows.is_empty() {
        return;
    }
    for part in &size.sewn.parts {
        let drawn = || size.drawn.paper(part.part.paper);
        for own in &part.line_rows {
            let path = drawn().and_then(|drawn| drawn.lines.iter().find(|line| line.edge == own.line));
            let Some((drawn, line)) = drawn().zip(path) else { continue };
            let Some(outline) = whole(drawn) else { continue };
            // What is beyond the stitching line is cloth still, as wide as the widest allowance.
            let allowances = part.edges.iter().filter_map(|fate| fate.allowance);
            let wide = allowances.fold(0.0, f64::max);
            let off = off_cloth(&outline, wide, &line.path);
            if off <= garment.tolerance {
                continue;
            }
            let (row, named) = (garment.row(own.row), garment.edge(own.line));
            let far = amount(off, garment.unit);
            let piece = words::piece(garment, drawn.piece);
            let title = Title::new(format!(
                "{} would be stitched along {} of {piece}, of which {far} lie beyond the cloth",
                row.name, named.name
            ));
            let mistake = Diagnostic::new(&catalogue::ROW_OFF_CLOTH, own.span, title.in_sizes())
                .label(format!("{far} off {piece}"))
                .also(named.span, "drawn here")
                .help("let the line end on the piece: at a corner or a point of its outline, or inside it");
            let about = format!("{} {}", row.name, named.name);
            findings.push(Finding::new(size.id(), off, mistake).about(about).figure("beyond", far));
        }
    }
}

/// How much of a line lies further than that outside an outline.
fn off_cloth(outline: &[Path], wide: f64, line: &Path) -> f64 {
    let region = Region::of(outline);
    let is_off = |place: Point| !region.contains(place) && !is_on(outline, place, wide + ON_EDGE);
    let length = line.length();
    if !length.is_finite() {
        return 0.0;
    }
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    let at = |nth: usize| length * nth as f64 / count as f64;
    let place = |along: f64| line.point_at_length(along);
    let mut off = 0.0;
    for nth in 0..count {
        let (from, to) = (at(nth), at(nth + 1));
        off += match (is_off(place(from)), is_off(place(to))) {
            (true, true) => to - from,
            (false, false) => 0.0,
            (starts_off, _) => {
                let (mut low, mut high) = (from, to);
                for _ in 0..HALVINGS {
                    let middle = f64::midpoint(low, high);
                    if is_off(place(middle)) == starts_off {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                if starts_off { low - from } else { to - low }
            }
        };
    }
    off
}
