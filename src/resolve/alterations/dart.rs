//! Darts that are altered: found, shut about the place that they are directed to, and left unsewn.

use super::Step;
use super::turning::{gap, kink_at, trued, turned, turning};
use crate::garment::{DartChange, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::model::Why;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::smooth_over;
use crate::resolve::work::Work;
use crate::shape::pivot::{Gap, pivot};
use crate::shape::tolerance::ON_OUTLINE;

/// How far an edge may turn where a dart was shut, in degrees: what it may where one is sewn.
const KINK: f64 = 3.0;
/// How far its ends may be from one another there, in millimetres.
const STEP: f64 = 2.0;

/// The place of the target's dart among the piece's take-ups; reported if the piece has it no more.
pub(super) fn dart_of(work: &Work, target: &Target, drawn: &DrawnPiece) -> Option<usize> {
    let found = drawn.take_ups.iter().position(|placed| work.garment.is_run_of(placed.name, target.edge));
    if found.is_some() {
        return found;
    }
    let mut missing = drawn.missing.edges.iter().rev();
    let why = missing.find(|(gone, _)| work.garment.is_run_of(*gone, target.edge)).map(|(_, why)| *why);
    if why == Some(Why::Reported) {
        return work.inherit(None);
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let known = work.garment.edge(target.edge);
        let message = Title::new(format!("{title} has no dart {} any more", known.name)).in_sizes();
        let message =
            Diagnostic::new(&catalogue::DART_GONE, target.span, message).also(known.span, "declared here");
        match why {
            Some(Why::By(by)) => message
                .also(work.garment.alteration(by).span, format!("{} is gone from here on", known.name))
                .help("alterations are made in the order written: put this one before that, or leave it out"),
            _ => message.help("name a dart that this piece has"),
        }
    });
    None
}

/// The same with its mouth; reported also of one inside the piece, which has none.
pub(super) fn dart_with_mouth(
    work: &Work,
    target: &Target,
    drawn: &DrawnPiece,
) -> Option<(usize, DrawnTakeUp, Gap)> {
    let at = dart_of(work, target, drawn)?;
    let placed = *drawn.take_ups.get(at)?;
    if let Some(gap) = gap(drawn, &placed) {
        return Some((at, placed, gap));
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let name = &work.garment.edge(placed.name).name;
        let message = format!("{name} lies inside {title}, and has no mouth in an edge");
        Diagnostic::new(&catalogue::DART_REACH, target.span, message)
            .also(placed.said, "both ends inside the piece")
            .help("only a dart that is taken from an edge can be shut: leave it as it is, or draw it from an edge")
    });
    None
}

/// `close dart`: shut altogether. The place that it is directed to lies on the outline, which opens there.
pub(super) fn close(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let (at, placed, shut) = dart_with_mouth(work, target, drawn)?;
    let old = ring(drawn);
    let nearest = old.iter().enumerate().map(|(edge, path)| (edge, path.nearest(placed.apex)));
    let (edge, nearest) = nearest.min_by(|(_, a), (_, b)| a.distance.total_cmp(&b.distance))?;
    if nearest.distance > ON_OUTLINE {
        let title = work.title(drawn.piece);
        work.report(|size| {
            let far = work.amount(nearest.distance);
            let name = &work.garment.edge(placed.name).name;
            let of = drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
            let message = Title::new(format!("{name} is directed to a place {far} inside {title}"))
                .in_sizes()
                .then(": shut, the cloth around it would stand up in a point");
            let message = Diagnostic::new(&catalogue::DART_CLOSE, step.alteration.span, message)
                .also(placed.said, format!("{of} is the nearest edge to its point"))
                .help("split the piece at a line through that place first; or move the dart, or leave it as ease");
            Finding::new(size, nearest.distance, message).about(title).figure("inside by", far)
        });
        return None;
    }
    let open = Gap { edge, from: nearest.at, to: nearest.at };
    let turning = turning(drawn, placed.apex, shut, open);
    let made = pivot(&old, placed.apex, shut, open, 1.0, turning).ok()?;
    let mut before = drawn.clone();
    before.take_ups.remove(at);
    let mut after = turned(work, &before, &made, step)?;
    after.missing.edges.push((placed.name, Why::By(step.id)));
    over_shut(work, step, &placed, &mut after, shut.edge, made.shut.0, made.step);
    trued(work, &before, after)
}

/// `leave dart`: not sewn. Its mouth is drawn into the edge.
pub(super) fn leave(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let at = dart_of(work, target, drawn)?;
    let placed = *drawn.take_ups.get(at)?;
    let mouth = gap(drawn, &placed);
    let mut after = drawn.clone();
    after.take_ups.remove(at);
    after.missing.edges.push((placed.name, Why::By(step.id)));
    let (Some(mouth), true) = (mouth, placed.trued) else { return Some(after) };
    let before = after.clone();
    if smooth_over(&mut after, mouth.edge, (mouth.from, mouth.to))
        && let Some(edge) = after.edges.get_mut(mouth.edge)
    {
        edge.touched.push(step.id);
    }
    after.cutting = Vec::new();
    trued(work, &before, after)
}

/// The edge where a dart was shut altogether: a trued one's is drawn as one smooth curve, and any other's reported
/// if it has a corner there.
pub(super) fn over_shut(
    work: &Work,
    step: &Step,
    placed: &DrawnTakeUp,
    after: &mut DrawnPiece,
    edge: usize,
    at: f64,
    apart: f64,
) {
    let is_let_in = matches!(&step.alteration.dart, Some(DartChange::Let(_)));
    let trues = placed.trued
        || matches!(&step.alteration.dart, Some(DartChange::Move(change)) if change.trued)
        || is_let_in && apart <= STEP;
    let Some(path) = after.edges.get(edge).map(|edge| edge.path.clone()) else { return };
    let kink = kink_at(&path, at).to_degrees();
    if kink <= 1e-6 && apart <= 1e-6 {
        return;
    }
    if trues && smooth_over(after, edge, (at, at)) {
        return;
    }
    let Some(own) = after.edges.get(edge) else { return };
    let (name, edge_name) = (&work.garment.edge(placed.name).name, &work.garment.edge(own.edge).name);
    let title = work.title(after.piece);
    if is_let_in && apart > STEP {
        work.report(|size| {
            let by = work.amount(apart);
            let what = Title::new(format!(
                "where the paper laps over itself, {edge_name} of {title} has a step of {by}"
            ))
            .in_sizes();
            let message = Diagnostic::new(&catalogue::DART_TURNING, step.alteration.span, what)
                .also(work.garment.edge(own.edge).span, "one side of the lap is longer than the other")
                .help(format!(
                    "let the turning end where {edge_name} is nearest to where {name} is directed: leave its place out"
                ));
            Finding::new(size, apart, message).about(title).figure("step", by)
        });
    } else if apart > STEP {
        work.report(|size| {
            let by = work.amount(apart);
            let what = Title::new(format!(
                "the sides of {name} are {by} apart on {edge_name} of {title} once it is shut"
            ))
            .in_sizes();
            let message = Diagnostic::new(&catalogue::DART_LEGS, step.alteration.span, what)
                .also(placed.said, "one leg is longer than the other, reckoned to where the dart is directed")
                .help(format!("write `trued` behind {name}: {edge_name} is then drawn as one curve"));
            Finding::new(size, apart, message).about(title).figure("apart", by)
        });
    } else if kink > KINK {
        work.report(|size| {
            let turns = format!("{kink:.1}°");
            let what = Title::new(format!("{edge_name} of {title} turns by {turns} where {name} was shut"))
                .in_sizes();
            let message = Diagnostic::new(&catalogue::DART_KINK, step.alteration.span, what)
                .also(placed.said, "taken from it here")
                .help(format!("write `trued` behind {name}: {edge_name} is then drawn as one curve"));
            Finding::new(size, kink, message).about(title).figure("turns by", turns)
        });
    }
}
