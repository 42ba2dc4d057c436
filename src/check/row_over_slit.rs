//! `place/shut` of a slit inside a piece, as of a welt pocket, that a row of stitching goes across.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, RowId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{SewnPart, order};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_SHUT], run: Run::PerSize(run) };

/// A row that comes no nearer to the middle of a slit than this holds its end, in millimetres.
const AT_END: f64 = 5.0;
/// Places along a row are looked at so far apart, in millimetres.
const APART: f64 = 1.0;
/// The most places that are looked at on one row.
const MOST_PLACES: usize = 1000;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.rows.is_empty() {
        return;
    }
    let mut told: Vec<(RowId, EdgeId)> = Vec::new();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
        // Those at an edge interrupt the rows along it; of those inside the sides follow the outline.
        let inside = drawn.edges.get(drawn.outline().len()..).unwrap_or_default();
        if inside.is_empty() {
            continue;
        }
        for (row, span, path) in rows(drawn, part) {
            let crossed = inside.iter().find(|side| goes_across(&path, &side.path));
            let Some(slit) = crossed.and_then(|side| garment.edge(side.edge).side_of) else { continue };
            if !told.contains(&(row, slit)) {
                told.push((row, slit));
                findings.push(reported(garment, size, drawn, (row, span), slit));
            }
        }
    }
}

/// Every row on a part, and where its edge or its line is named.
fn rows(drawn: &DrawnPiece, part: &SewnPart) -> Vec<(RowId, Span, Path)> {
    let along = part.rows.iter().filter_map(|row| Some((row.row, row.span, order::beside(drawn, row)?)));
    let lines = part.line_rows.iter().filter_map(|row| {
        let line = drawn.lines.iter().find(|line| line.edge == row.line)?;
        Some((row.row, row.span, line.path.clone()))
    });
    along.chain(lines).collect()
}

/// Whether a row goes over a side of a slit between its ends.
fn goes_across(row: &Path, side: &Path) -> bool {
    let (from, to, length) = (side.start(), side.end(), row.length());
    let (way, long) = (to - from, (to - from).hypot());
    if !length.is_finite() || long <= 2.0 * AT_END {
        return false;
    }
    let way: Vec2 = way / long;
    let lies = |at: Point| (way.cross(at - from), way.dot(at - from));
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    let places = (0..=count).map(|nth| lies(row.point_at_length(length * nth as f64 / count as f64)));
    let mut before: Option<f64> = None;
    for (aside, along) in places {
        let is_between = (AT_END..=long - AT_END).contains(&along);
        let is_across = before.is_some_and(|before| (before > 0.0) != (aside > 0.0));
        if is_between && is_across {
            return true;
        }
        before = Some(aside);
    }
    false
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    drawn: &DrawnPiece,
    (row, span): (RowId, Span),
    slit: EdgeId,
) -> Finding {
    let (row, slit) = (garment.row(row), garment.edge(slit));
    let name = &slit.name;
    let piece = words::piece(garment, drawn.piece);
    let title =
        Title::new(format!("{} goes across {name} of {piece}, and sews it shut", row.name)).in_sizes();
    let warning = Diagnostic::new(&catalogue::PLACE_SHUT, row.name_span, title)
        .label("stitched across a slit")
        .also(span, "along this")
        .also(slit.span, "cut open here")
        .help(format!(
            "look at how far from its edge it runs; or let it end beside {name}: say from where to where along its edge"
        ));
    Finding::new(size.id(), 0.0, warning).about(format!("{} {name}", row.name))
}
