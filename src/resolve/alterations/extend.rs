//! `extend` and `trim`: an edge moves out or in, in parallel.

use super::Step;
use super::beyond::report_no_line;
use super::carry::carried;
use crate::garment::{AlterationKind, Target};
use crate::report::{Diagnostic, DisplayUnit, Finding, INCH, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::offset::{OffsetError, extend_edge};
use crate::shape::outline;
use crate::shape::path::Path;

/// Moves the target's edge out, or in; its neighbours go on straight to meet it. Points and marks
/// inside stay.
pub(super) fn extend(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let distance = step.kind.way() * step.amount;
    let runs = drawn.edges.iter().enumerate();
    let runs: Vec<usize> =
        runs.filter(|(_, edge)| work.garment.is_run_of(edge.edge, target.edge)).map(|(at, _)| at).collect();
    if runs.is_empty() {
        report_no_line(work, target, drawn);
        return None;
    }
    match moved(drawn, &runs, distance) {
        Ok(now) => carried(work, drawn, &now, step, |point| point, &[]),
        Err(error) => {
            let most = || most(drawn, &runs, distance);
            report(work, step, target, drawn, distance, (error, &most));
            None
        }
    }
}

/// All runs of the edge moved.
fn moved(drawn: &DrawnPiece, runs: &[usize], distance: f64) -> Result<Vec<Path>, OffsetError> {
    runs.iter().try_fold(ring(drawn), |now, &at| extend_edge(&now, at, distance))
}

/// How far the edge can be moved that way, short of what was asked for; none where not even a little.
fn most(drawn: &DrawnPiece, runs: &[usize], distance: f64) -> Option<f64> {
    let (mut can, mut cannot) = (0.0, distance);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(can, cannot);
        match moved(drawn, runs, middle) {
            Ok(now) if outline::crossings(&now).is_none() => can = middle,
            _ => cannot = middle,
        }
    }
    Some(can.abs()).filter(|most| *most >= LEAST)
}

/// "less than 3 cm" where that is the limit, else what is left below it on a tape: "at most 4.5 cm".
fn possible(work: &Work, most: f64) -> String {
    let mark = match work.garment.unit {
        DisplayUnit::Inch => INCH / 8.0,
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => 1.0,
    };
    let nearest = (most / mark).round() * mark;
    match (nearest - most).abs() < CLOSE {
        true => format!("less than {}", work.amount(nearest)),
        false => format!("at most {}", work.amount((most / mark).floor() * mark)),
    }
}

/// A limit this close to a mark of the tape is the mark, in millimetres.
const CLOSE: f64 = 0.01;
/// By so many halvings the most is found to a thousandth of a millimetre in a metre.
pub(super) const HALVINGS: usize = 20;
/// Less than this, in millimetres, nobody moves an edge.
pub(super) const LEAST: f64 = 1.0;

pub(super) fn report(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    distance: f64,
    (error, most): (OffsetError, &dyn Fn() -> Option<f64>),
) {
    let title = work.title(drawn.piece);
    let name = &work.garment.edge(target.edge).name;
    let other =
        |edge: usize| drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
    let is_straight = |edge: usize| drawn.edges.get(edge).is_some_and(|edge| edge.path.is_straight());
    let kind = if distance < 0.0 { AlterationKind::Trim } else { AlterationKind::Extend };
    let (verb, word) = (kind.form().verb, kind.form().participle);
    work.report(|size| {
        let far = work.amount(distance.abs());
        let (what, help) = match error {
            OffsetError::TooTight { radius, .. } => (
                format!("curves with a radius of {}", work.amount(radius)),
                format!("{} is the most for this curve", work.amount(radius)),
            ),
            OffsetError::MissesNeighbour { neighbour, .. } => (
                format!("no longer meets {}", other(neighbour)),
                match most() {
                    Some(most) if is_straight(neighbour) => format!("{verb} it by {}", possible(work, most)),
                    Some(most) => {
                        format!("{verb} it by {}, or straighten {}", possible(work, most), other(neighbour))
                    }
                    None => format!(
                        "{name} runs on into {0} without a corner, so that it cannot move alone: draw both \
                         where they are to be, or let {0} begin at a corner",
                        other(neighbour)
                    ),
                },
            ),
            OffsetError::NothingLeft { edge } => (
                format!("leaves nothing of {}", other(edge)),
                match most() {
                    Some(most) => format!("{verb} it by {}", possible(work, most)),
                    None => "use a smaller amount".to_owned(),
                },
            ),
            OffsetError::NoSuchEdge | OffsetError::NotFinite | OffsetError::Ring(_) => {
                ("cannot be drawn".to_owned(), "use a smaller amount".to_owned())
            }
        };
        let message = Title::new(format!("{name} of {title}, {word} by {far}, {what}")).in_sizes();
        let kind = match error {
            OffsetError::MissesNeighbour { .. } => &catalogue::ALTER_NEIGHBOURS,
            _ => &catalogue::ALTER_TOO_MUCH,
        };
        let message = Diagnostic::new(kind, step.alteration.span, message)
            .also(work.garment.edge(target.edge).span, format!("{name} as drawn"))
            .help(help);
        Finding::new(size, distance.abs(), message).about(format!("{title} {name}")).figure("by", far)
    });
}
