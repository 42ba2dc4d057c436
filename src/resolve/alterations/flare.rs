//! `flare`: cut in from one end of the line and turn what is beyond about the other.

use super::Step;
use super::beyond::slash;
use super::carry::carried;
use crate::garment::Target;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::flare::{self, FlareError};

/// Flares the piece along the target's line: hinged at its start, opened at its end.
pub(super) fn flare(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = slash(work, step, target, drawn)?;
    let (hinge, opening) = (slash.path.start(), slash.path.end());
    match flare::flare(&ring(drawn), opening, hinge, slash.beyond, step.amount) {
        Ok(made) => carried(work, drawn, &made.edges, step, |point| made.moved(point), &[]),
        Err(error) => {
            report(work, step, target, drawn, error);
            None
        }
    }
}

pub(super) fn report(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece, error: FlareError) {
    let title = work.title(drawn.piece);
    let line = work.garment.edge(target.edge);
    work.report(|size| {
        let (kind, weight, what, help) = match error {
            FlareError::OpeningOffOutline { distance } | FlareError::HingeOffOutline { distance } => {
                let end = if matches!(error, FlareError::HingeOffOutline { .. }) { "starts" } else { "ends" };
                (
                    &catalogue::ALTER_HINGE,
                    distance,
                    format!("{} {end} {} off the outline of {title}", line.name, work.amount(distance)),
                    "draw the line from a point on the outline to another".to_owned(),
                )
            }
            FlareError::TooWide { length, amount } => (
                &catalogue::ALTER_TOO_MUCH,
                amount - length,
                format!("a cut of {} in {title} cannot open {}", work.amount(length), work.amount(amount)),
                "use a smaller amount, or more than one line".to_owned(),
            ),
            FlareError::LeavesPiece { edge, .. } => {
                let edge =
                    drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
                (
                    &catalogue::ALTER_HINGE,
                    1.0,
                    format!("{} leaves {title} at {edge} on its way", line.name),
                    "draw the line so that it stays inside the piece".to_owned(),
                )
            }
            FlareError::NoSide | FlareError::NotFinite | FlareError::Ring(_) => (
                &catalogue::ALTER_HINGE,
                1.0,
                format!("{title} cannot be cut along {}", line.name),
                "draw the line from a point on the outline to another".to_owned(),
            ),
        };
        let message = Diagnostic::new(kind, target.span, Title::new(what).in_sizes())
            .also(line.span, "the line")
            .also(step.alteration.span, format!("{} here", step.kind.form().participle))
            .help(help);
        Finding::new(size, weight, message).about(title)
    });
}
