//! `lengthen` and `shorten`: cut along the line and move what is beyond along the grain.

use super::Step;
use super::beyond::{Slash, slash};
use super::carry::{carried, is_same_shape};
use crate::garment::{EdgeId, PointId, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnPiece};
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::Vec2;
use crate::shape::path::Path;
use crate::shape::spread::{Spread, SpreadError};
use crate::shape::swing::absolute_turning;
use crate::shape::tolerance::SAME_POINT;
use crate::source::Span;
use crate::syntax::tree::AlterationKind;

/// How nearly a grain may run along a line (the sine of the angle between them).
const ALONG: f64 = 1e-3;
/// By so much more, there and back together, an edge may turn where it is cut, as an angle: 15° to one side and
/// back is trued by eye (common practice).
const BENDS: f64 = 30.0 * std::f64::consts::PI / 180.0;

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
        Ok((_, now)) if shift.hypot() > SAME_POINT && stays_as_it_is(drawn, &now) => {
            report_nothing_beyond(work, step, target, drawn);
            None
        }
        Ok((spread, now)) => {
            report_bends(work, step, target, drawn, &now);
            carried(work, drawn, &now, step, |point| spread.moved(point), kept)
        }
        Err(error) => {
            report_too_much(work, step, target, drawn, slash, shift, error);
            None
        }
    }
}

/// Whether no edge goes another way now, though all of them may have moved.
fn stays_as_it_is(drawn: &DrawnPiece, now: &[Path]) -> bool {
    drawn.edges.iter().zip(now).all(|(edge, now)| is_same_shape(&edge.path, now))
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

/// Reports a line beyond which there is nothing, or all of the piece: no edge becomes longer or shorter.
fn report_nothing_beyond(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) {
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let (line, form) = (work.garment.edge(target.edge), step.kind.form());
        let what =
            format!("no part of {title} lies beyond {}, and nothing is {} there", line.name, form.participle);
        let by = work.amount(step.amount);
        let edge = format!("{}.{}", work.garment.piece(drawn.piece).name, line.name);
        let help = match (drawn.edge(target.edge), step.kind) {
            (Some(_), AlterationKind::Lengthen) => format!("to move the edge itself: extend {edge} by {by}"),
            (Some(_), AlterationKind::Shorten) => format!("to move the edge itself: trim {edge} by {by}"),
            _ => "draw the line where it parts the piece: line … across at …".to_owned(),
        };
        Diagnostic::new(&catalogue::ALTER_NO_LINE, target.span, Title::new(what).in_sizes())
            .also(line.span, if line.line { "this line" } else { "an edge of the outline" })
            .help(help)
    });
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

/// Reports curves that swing to and fro where they were cut: they slant there, so that their two ends lie beside one
/// another and not end to end.
fn report_bends(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece, now: &[Path]) {
    let is_redrawn = |edge: EdgeId| {
        let later = work.garment.alterations.iter().skip(step.id.index() + 1);
        let mut redraws = later.filter(|one| one.kind == Some(AlterationKind::Redraw));
        redraws.any(|one| one.targets.iter().any(|target| work.garment.is_run_of(edge, target.edge)))
    };
    let changed = drawn.edges.iter().zip(now).filter(|(edge, after)| edge.path != **after);
    for (edge, after) in changed {
        let turns = absolute_turning(after) - absolute_turning(&edge.path);
        if turns.is_nan() || turns <= BENDS || is_redrawn(edge.edge) {
            continue;
        }
        let name = &work.garment.edge(edge.edge).name;
        let (title, piece) = (work.title(drawn.piece), work.garment.piece(drawn.piece));
        work.report(|size| {
            let line = work.garment.edge(target.edge);
            let form = step.kind.form();
            let by = format!("{:.0}°", (turns / 2.0).to_degrees());
            let message =
                Title::new(format!("the {name} of {title} makes an S-bend where it is {}", form.participle))
                    .in_sizes()
                    .then(format!(": it turns by {by} and back"));
            let message = Diagnostic::new(&catalogue::ALTER_S_BEND, step.alteration.span, message)
                .also(line.span, "cut here")
                .also(work.garment.edge(edge.edge).span, format!("{name} slants there"))
                .help(format!(
                    "draw it anew after this line: redraw {}.{name} curve …; or cut at a line where {name} runs along the \
                     grain",
                    piece.name
                ));
            Finding::new(size, turns, message).about(format!("{title} {name}")).figure("turns by", by)
        });
    }
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
