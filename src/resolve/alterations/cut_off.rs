//! `cut off`: what lies beyond the line is gone, and the cut is an edge with the line's name.

use super::Step;
use super::beyond::{cut_line, goes_across};
use super::halves::{Naming, cut_in_two, side_of};
use crate::garment::{CutHow, EdgeId, PointId, Target};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::work::Work;

/// Cuts off what lies beyond the target's line.
pub(super) fn cut_off(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = cut_line(work, target, drawn)?;
    goes_across(work, target, drawn, &slash)?;
    let halves = cut_in_two(work, target, &slash, drawn)?;
    let line = drawn.lines.iter().find(|line| work.garment.is_run_of(line.edge, target.edge));
    let edge = |edge: EdgeId| Some(edge);
    let point = |point: PointId| Some(point);
    let naming = Naming {
        piece: drawn.piece,
        cut_edge: line.map_or(target.edge, |line| line.edge),
        edge: &edge,
        point: &point,
    };
    let mut left = side_of(drawn, &halves, false, &slash, step.id, &naming)?;
    // The line is no line any more, but an edge: it is not missing.
    left.missing.edges.retain(|(missing, _)| *missing != naming.cut_edge);
    if let CutHow::OnFold(fold) = left.cut
        && left.edge(fold).is_none()
    {
        let title = work.title(drawn.piece);
        work.mistake(1.0, title, || {
            let fold = work.garment.edge(fold);
            let message =
                Title::new(format!("{title} lies on the fold at {}, which is cut off", fold.name)).in_sizes();
            Diagnostic::new(&catalogue::ALTER_NOT_FOLD, step.alteration.span, message)
                .also(fold.span, "the fold")
                .help(format!("open {title} at {} first", fold.name))
        });
        return None;
    }
    Some(left)
}
