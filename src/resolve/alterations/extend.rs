//! `extend` and `trim`: an edge moves out or in, in parallel.

use super::Step;
use super::beyond::tell_no_line;
use super::carry::carried;
use crate::garment::Target;
use crate::report::{Diagnostic, Finding};
use crate::resolve::model::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::offset::{OffsetError, extend_edge};

/// Moves the target's edge out by `distance` (in, where it is less than 0); its neighbours go on
/// straight to meet it. Points and marks inside stay.
pub(super) fn extend(
    work: &Work,
    step: &Step,
    target: &Target,
    distance: f64,
    drawn: &DrawnPiece,
) -> Option<DrawnPiece> {
    let runs = drawn.edges.iter().enumerate();
    let runs: Vec<usize> =
        runs.filter(|(_, edge)| work.garment.is_run_of(edge.edge, target.edge)).map(|(at, _)| at).collect();
    if runs.is_empty() {
        tell_no_line(work, target, drawn);
        return None;
    }
    let mut now = ring(drawn);
    for at in runs {
        match extend_edge(&now, at, distance) {
            Ok(moved) => now = moved,
            Err(error) => {
                tell(work, step, target, drawn, distance, error);
                return None;
            }
        }
    }
    Some(carried(drawn, &now, step, |point| point, &[]))
}

fn tell(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece, distance: f64, error: OffsetError) {
    let title = work.title(drawn.piece);
    let name = &work.garment.edge(target.edge).name;
    let other =
        |edge: usize| drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
    let word = if distance < 0.0 { "trimmed" } else { "extended" };
    work.tell(|size| {
        let far = work.amount(distance.abs());
        let (what, help) = match error {
            OffsetError::TooTight { radius, .. } => (
                format!("curves with a radius of {}", work.amount(radius)),
                format!("{} is the most for this curve", work.amount(radius)),
            ),
            OffsetError::MissesNeighbour { neighbour, .. } => (
                format!("does not meet {} any more", other(neighbour)),
                "use a smaller amount, or straighten the edge beside it".to_owned(),
            ),
            OffsetError::NothingLeft { edge } => {
                (format!("leaves nothing of {}", other(edge)), "use a smaller amount".to_owned())
            }
            OffsetError::NoSuchEdge | OffsetError::NotFinite | OffsetError::Ring(_) => {
                ("cannot be drawn".to_owned(), "use a smaller amount".to_owned())
            }
        };
        let message = format!("{name} of {title}, {word} by {far}, {what} {{sizes}}");
        let slug = match error {
            OffsetError::MissesNeighbour { .. } => "alter/neighbours",
            _ => "alter/too-much",
        };
        let message = Diagnostic::mistake(slug, step.alteration.span, message).help(help);
        Finding::new(size, distance.abs(), message).about(format!("{title} {name}")).figure("by", far)
    });
}
