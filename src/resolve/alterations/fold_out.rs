//! `fold out`: a wedge from one end of the line to nothing at the other is taken out, and what is beyond turns
//! about that. What a flare opened is so as it was.

use super::Step;
use super::beyond::slash;
use super::flare::report;
use super::turning::{trued, turned};
use crate::garment::Target;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::smooth_over;
use crate::resolve::work::Work;
use crate::shape::flare::flare;
use crate::shape::pivot::{TakenWedge, pivot, wedge_at};

/// Folds the piece out along the target's line: hinged at its start, taken out at its end.
pub(super) fn fold_out(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = slash(work, step, target, drawn)?;
    let (hinge, opening) = (slash.path.start(), slash.path.end());
    let old = ring(drawn);
    // A line that cannot be cut cannot be folded.
    if let Err(error) = flare(&old, opening, hinge, slash.beyond, 0.0) {
        report(work, step, target, drawn, error);
        return None;
    }
    if step.amount <= 0.0 {
        return Some(drawn.clone());
    }
    let taken = match wedge_at(&old, opening, hinge, slash.beyond, step.amount) {
        Ok(taken) => taken,
        Err(most) => {
            report_too_much(work, step, target, drawn, most);
            return None;
        }
    };
    let TakenWedge { gap, hinge: at_hinge, turning } = taken;
    let made = pivot(&old, hinge, gap, at_hinge, 1.0, turning).ok()?;
    let mut after = turned(work, drawn, &made, step)?;
    let length = after.edges.get(gap.edge)?.path.length();
    if made.shut.0 > 0.0 && made.shut.0 < length {
        smooth_over(&mut after, gap.edge, (made.shut.0, made.shut.0));
    }
    trued(work, drawn, after)
}

fn report_too_much(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece, most: f64) {
    let title = work.title(drawn.piece);
    let line = work.garment.edge(target.edge);
    work.report(|size| {
        let (most, asked) = (work.amount(most), work.amount(step.amount));
        let message = Title::new(format!("{asked} cannot be folded out of {title} along {}", line.name))
            .in_sizes()
            .then(format!(": there is {most} to the next corner"));
        let message = Diagnostic::new(&catalogue::ALTER_TOO_MUCH, step.alteration.span, message)
            .also(line.span, "the line")
            .help(format!("fold out less than {most}, or draw the line farther from that corner"));
        Finding::new(size, step.amount, message)
            .about(title)
            .figure("there is", most)
            .figure("folded out", asked)
    });
}
