//! `lengthen` and `shorten`: cut along the line and move what is beyond along the grain.

use super::Step;
use super::beyond::{Slash, slash};
use super::carry::carried;
use crate::garment::{PointId, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::model::{CornerName, DrawnPiece};
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::Vec2;
use crate::shape::spread::{Spread, SpreadError};
use crate::shape::tolerance::SAME_POINT;
use crate::source::Span;

/// How nearly a grain may run along a line (the sine of the angle between them).
const ALONG: f64 = 1e-3;

/// Lengthens or shortens the piece at the target's line.
pub(super) fn lengthen(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = slash(work, step, target, drawn)?;
    let across = drawn.grain.dot(slash.beyond);
    if across.abs() < ALONG {
        report_along_grain(work, step, target, drawn);
        return None;
    }
    let way = if across > 0.0 { drawn.grain } else { -drawn.grain };
    let kept = kept_points(work, &step.alteration.keeping, &slash, drawn)?;
    moved_apart(work, step, target, drawn, &slash, way * (step.kind.way() * step.amount), &kept)
}

/// Moves what is beyond the line by `shift`, and what hangs on it.
pub(super) fn moved_apart(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    slash: &Slash,
    shift: Vec2,
    kept: &[PointId],
) -> Option<DrawnPiece> {
    let made = Spread::new(slash.line, slash.beyond, shift)
        .and_then(|spread| spread.ring(&ring(drawn)).map(|now| (spread, now)));
    match made {
        Ok((spread, now)) => carried(work, drawn, &now, step, |point| spread.moved(point), kept),
        Err(error) => {
            report_too_much(work, step, target, drawn, slash, shift, error);
            None
        }
    }
}

/// The piece's points that are kept; a corner of the outline cannot be.
fn kept_points(
    work: &Work,
    keeping: &[(PointId, Span)],
    slash: &Slash,
    drawn: &DrawnPiece,
) -> Option<Vec<PointId>> {
    let mut kept = Vec::new();
    let mut known = true;
    for &(point, span) in keeping {
        for spot in drawn.spots.iter().filter(|spot| work.garment.is_point_of(spot.point, point)) {
            if drawn.edges.iter().any(|edge| edge.corner == CornerName::Named(spot.point)) {
                let name = &work.garment.point(point).name;
                work.mistake(1.0, name, || {
                    let title = format!(
                        "{name} is a corner of {} and moves with its outline",
                        work.title(drawn.piece)
                    );
                    Diagnostic::new(&catalogue::ALTER_KEEPS_CORNER, span, title).help(
                        "keep only marks inside the piece, or use a line on the other side of the corner",
                    )
                });
                known = false;
            } else if slash.beyond.dot(spot.at - slash.line.point) <= SAME_POINT {
                let name = &work.garment.point(point).name;
                work.mistake(1.0, name, || {
                    let title = Title::new(format!(
                        "{name} is not beyond the line on {}, and stays without being kept",
                        work.title(drawn.piece)
                    ))
                    .in_sizes();
                    Diagnostic::new(&catalogue::PLACE_KEPT_NOTHING, span, title)
                        .help(format!("leave {name} out of `keeping`"))
                });
            }
            kept.push(spot.point);
        }
    }
    known.then_some(kept)
}

fn report_along_grain(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) {
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let line = work.garment.edge(target.edge);
        let word = step.kind.form().verb;
        let message = Title::new(format!(
            "the grain of {title} runs along {}, so there is no way to {word} it there",
            line.name
        ))
        .in_sizes();
        Diagnostic::new(&catalogue::ALTER_ALONG_GRAIN, target.span, message)
            .also(line.span, "this line")
            .help(format!(
                "to make the piece wider, `spread … along {}`; to {word} it, use a line across the grain",
                line.name
            ))
    });
}

fn report_too_much(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    slash: &Slash,
    shift: Vec2,
    error: SpreadError,
) {
    let title = work.title(drawn.piece);
    let line = work.garment.edge(target.edge);
    let SpreadError::TooShort { available, asked, edge } = error else {
        work.mistake(1.0, title, || {
            let message = Title::new(format!("{title} cannot be cut at {}", line.name)).in_sizes();
            Diagnostic::new(&catalogue::ALTER_NO_LINE, target.span, message)
                .also(line.span, "this line")
                .help("draw the line so that it goes across the piece")
        });
        return;
    };
    // The shape room counts square to the line; a maker counts along the grain.
    let slant = shift.dot(slash.beyond).abs() / shift.hypot().max(f64::MIN_POSITIVE);
    let slant = if slant > 0.0 { slant } else { 1.0 };
    let (available, asked) = (available / slant, asked / slant);
    work.report(|size| {
        let (most, wanted) = (work.amount(available), work.amount(asked));
        let edge = drawn.edges.get(edge).map(|edge| work.garment.edge(edge.edge));
        let form = step.kind.form();
        let message = Title::new(format!("{title} cannot be {} by {wanted}", form.participle))
            .in_sizes()
            .then(format!(": beyond {} it has {most}", line.name));
        let mut message = Diagnostic::new(&catalogue::ALTER_TOO_MUCH, step.alteration.span, message)
            .also(line.span, "the line")
            .help(format!("{} by less than {most}, or at a line with more beyond it", form.verb));
        if let Some(edge) = edge {
            message = message.also(edge.span, format!("{} is used up first", edge.name));
        }
        Finding::new(size, asked - available, message)
            .figure("there is", most)
            .figure(&format!("{} by", form.participle), wanted)
    });
}
