//! `cloth/narrow`: a piece that is wider than the cloth it is cut from.

use super::{Check, Run, words};
use crate::garment::{CutHow, Fabric, Garment};
use crate::report::{Diagnostic, Finding, amount};
use crate::resolve::{CutRow, DrawnPiece, Finished, SizedGarment};
use crate::shape::path::Path;
use crate::shape::{Vec2, fold};

pub(super) static CHECK: Check = Check { slugs: &["cloth/narrow"], run: Run::PerSize(run) };

/// Less than this, in millimetres, the edge of the cloth gives.
const GIVES: f64 = 0.5;
/// How close the straight lines lie to a curve whose width is taken, in millimetres.
const CLOSE: f64 = 0.1;

fn run(garment: &Garment, sized: &SizedGarment, findings: &mut Vec<Finding>) {
    let finished = Finished::of(garment, sized);
    for row in &sized.cut_list {
        findings.extend(narrow(garment, sized, &finished, row));
    }
}

/// The stitching lines alone are looked at: with its allowances the piece needs still more.
fn narrow(garment: &Garment, sized: &SizedGarment, finished: &Finished, row: &CutRow) -> Option<Finding> {
    let fabric = garment.fabric(row.fabric?);
    let usable = usable_width(finished, fabric)?;
    let drawn = sized.papers.get(row.part.paper.index())?.as_ref()?;
    let grain = drawn.grain;
    let needed = extent(drawn, Vec2::new(-grain.y, grain.x))?;
    let over = needed - usable;
    if !over.is_finite() || over <= GIVES {
        return None;
    }
    let unit = garment.unit;
    let layer = garment.layer(row.part.layer);
    let at = layer.pieces.iter().position(|&piece| piece == row.part.piece);
    let place = at.and_then(|at| layer.piece_spans.get(at)).copied().unwrap_or(layer.span);
    let piece = garment.piece(row.part.piece);
    let on_fold = matches!(drawn.cut, CutHow::OnFold(_));
    let opened = if on_fold { ", opened out," } else { "" };
    let title = format!(
        "{}{opened} is {} wider than {} {{sizes}}",
        words::piece(garment, row.part.piece),
        amount(over, unit),
        fabric.name
    );
    let mut ways = Vec::new();
    if extent(drawn, grain).is_some_and(|along| along <= usable) {
        ways.push(format!("write grain across in {}, if the cloth may be turned", piece.name));
    }
    match drawn.cut {
        CutHow::OnFold(edge) => {
            ways.push(format!("give it a seam: open {} at {}", piece.name, garment.edge(edge).name))
        }
        _ => ways.push(format!("give it a seam: split {} at a line", piece.name)),
    }
    ways.push(format!("take a cloth that is at least {} wide between its selvages", amount(needed, unit)));
    let mut mistake = Diagnostic::mistake("cloth/narrow", place, title)
        .label(format!("{} across, without its allowances", amount(needed, unit)));
    if let Some(width) = &fabric.width {
        mistake = mistake.also(width.span, format!("{} can be cut from", amount(usable, unit)));
    }
    let mistake = mistake.help(ways.join("; or "));
    let finding = Finding::new(sized.size, over, mistake)
        .about(garment.part_name(Some(row.part.layer), row.part.piece));
    Some(finding.figure("needed", amount(needed, unit)).figure("too wide by", amount(over, unit)))
}

/// What can be cut from, from side to side: without the selvages; a tube is opened.
fn usable_width(finished: &Finished, fabric: &Fabric) -> Option<f64> {
    let width = finished.constant(fabric.width.as_ref()?)?;
    let selvage = match &fabric.selvage {
        Some(selvage) => finished.constant(selvage)?,
        None => 0.0,
    };
    let around = if fabric.tubular { 2.0 * width } else { width };
    // Less than nothing is told as that.
    (width >= 0.0 && selvage >= 0.0).then_some(around - 2.0 * selvage)
}

/// How far the piece, opened out, reaches in a direction.
fn extent(drawn: &DrawnPiece, way: Vec2) -> Option<f64> {
    let mut paths: Vec<Path> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
    if let CutHow::OnFold(edge) = drawn.cut
        && let Some(at) = drawn.edges.iter().position(|drawn| drawn.edge == edge)
    {
        paths = fold::opened_out(&paths, at).ok()?;
    }
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in paths.iter().flat_map(|path| path.flatten(CLOSE)) {
        let reach = point.to_vec2().dot(way);
        (least, most) = (least.min(reach), most.max(reach));
    }
    (least <= most).then_some(most - least)
}
