//! `alter/through-mark`: a line that a piece is cut at must not run through what is placed on it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, LineFate, PointId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnPiece, PlacedPiece};
use crate::shape::Point;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALTER_THROUGH_MARK], run: Run::PerSize(run) };

/// What reaches over the line by no more than this, in millimetres, lies beside it.
const BESIDE: f64 = 1.0;
/// How far apart places along a placed edge are looked at, at the most, in millimetres.
const APART: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
        let Some(placed) = placed.as_ref().filter(|_| !placement.poisoned) else { continue };
        let Some(host) = sized.paper(placed.on) else { continue };
        for alteration in &garment.alterations {
            let Some(form) = alteration.form().filter(|form| form.line == LineFate::Parts) else { continue };
            // Whoever keeps its mark has thought of it.
            let is_kept = |mark: PointId| alteration.keeping.iter().any(|&(kept, _)| kept == mark);
            if placement.corners.iter().any(|corner| is_kept(corner.at)) {
                continue;
            }
            let mut lines = alteration.targets.iter().map(|target| target.edge);
            let Some(line) = lines.find(|&line| runs_through(garment, host, line, placed)) else { continue };
            let (line, word) = (garment.edge(line), form.verb);
            let (host, pocket) = (words::piece(garment, host.piece), words::piece(garment, placement.piece));
            let title =
                Title::new(format!("the line {} of {host} runs through {pocket}", line.name)).in_sizes();
            let warning = Diagnostic::new(&catalogue::ALTER_THROUGH_MARK, alteration.span, title)
                .label(format!("{word} here and its paper is cut across"))
                .also(line.span, "the line")
                .also(placement.span, format!("{pocket} lies across it"))
                .help(format!("{word} at a line above or below {pocket}, or place {pocket} beside the line"));
            findings.push(Finding::new(sized.size, 1.0, warning));
        }
    }
}

/// Whether the placed piece lies on both sides of the line and meets it.
fn runs_through(garment: &Garment, host: &DrawnPiece, line: EdgeId, placed: &PlacedPiece) -> bool {
    let Some(line) = host.lines.iter().find(|drawn| garment.is_run_of(drawn.edge, line)) else {
        return false;
    };
    let (start, end) = (line.path.start(), line.path.end());
    let (way, length) = (end - start, (end - start).hypot());
    if length <= BESIDE {
        return false;
    }
    let side = |point: Point| way.cross(point - start) / length;
    let beside = |point: Point| {
        let along = way.dot(point - start) / length;
        (0.0..=length).contains(&along)
    };
    let points: Vec<Point> = placed.edges.iter().flat_map(|(_, path)| path.flatten(APART)).collect();
    let over = points.iter().any(|&point| beside(point) && side(point) > BESIDE);
    let under = points.iter().any(|&point| beside(point) && side(point) < -BESIDE);
    over && under
}
