//! `redraw`: an edge goes another way between the same corners.

use super::Step;
use super::beyond::report_no_line;
use super::carry::carried;
use crate::garment::{EdgeId, Target};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::outline::walk::edge_path;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;

/// Redraws the target's edge.
pub(super) fn redraw(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let path = step.alteration.path.as_ref()?;
    let is = |edge: EdgeId, of: EdgeId| work.garment.is_run_of(edge, of);
    let Some(at) = drawn.edges.iter().position(|edge| is(edge.edge, target.edge)) else {
        report_no_line(work, target, drawn);
        return None;
    };
    let known =
        |wanted: EdgeId| drawn.edges.iter().find(|edge| is(edge.edge, wanted)).map(|edge| edge.path.clone());
    let old = &drawn.edges.get(at)?.path;
    let way = edge_path(work, path, old.start(), old.end(), step.alteration.span, &known, None)?;
    let mut now = ring(drawn);
    *now.get_mut(at)? = way;
    carried(work, drawn, &now, step, |point| point, &[])
}
