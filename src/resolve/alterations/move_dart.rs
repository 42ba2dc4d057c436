//! `move dart`: shut about the place that it is directed to, and opened elsewhere.

use super::Step;
use super::beyond::report_no_line;
use super::dart::{dart_of, dart_with_mouth, over_shut};
use super::turning::{gap, trued, turned, turning};
use crate::garment::{DartChange, DartGoal, DartMove, EdgeId, EdgePlace, Laying, Pressed, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnTakeUp, Mouth};
use crate::resolve::model::Why;
use crate::resolve::sketch::{Sketch, ring};
use crate::resolve::take_ups::dart::{Laid, side_pressed, stopped};
use crate::resolve::take_ups::declared;
use crate::resolve::take_ups::place::place_on;
use crate::resolve::work::{Work, plain};
use crate::shape::line::meet_segment;
use crate::shape::outline::contains_strictly;
use crate::shape::path::Path;
use crate::shape::pivot::{Gap, Pivot, pivot};
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;

/// Where a dart opens.
struct Opens {
    gap: Gap,
    /// The side that is nearer to where its place is counted from.
    near: usize,
    /// The dart that it goes into.
    into: Option<usize>,
}

/// Moves the target's dart, or a share of it.
pub(super) fn move_dart(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let Some(DartChange::Move(change)) = &step.alteration.dart else { return None };
    moved(work, step, target, drawn, change)
}

/// A piece with the target's dart, or a share of it, shut and opened elsewhere.
pub(super) fn moved(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    change: &DartMove,
) -> Option<DrawnPiece> {
    let share = share(work, change);
    let (at, placed, shut) = dart_with_mouth(work, target, drawn)?;
    let old = ring(drawn);
    let opens = match &change.goal {
        DartGoal::Edge(edge, place) => on_edge(work, step, target, drawn, &placed, *edge, place),
        DartGoal::Dart(into, span) => into_dart(work, target, drawn, &placed, *into, *span),
    };
    let (share, opens) = (share?, opens?);
    if !is_inside(work, step, drawn, &placed, &old) {
        return None;
    }
    let turning = turning(drawn, placed.apex, shut, opens.gap);
    let made = pivot(&old, placed.apex, shut, opens.gap, share, turning).ok()?;
    let mut before = drawn.clone();
    let goes_into = opens.into.and_then(|into| drawn.take_ups.get(into)).copied();
    before
        .take_ups
        .retain(|one| one.name != placed.name && goes_into.is_none_or(|into| into.name != one.name));
    let mut after = turned(work, &before, &made, step)?;
    let stopping = match &change.stopping {
        Some(stopping) => Some(work.scalar(stopping, None)?),
        None => None,
    };
    let whole = share >= 1.0;
    let moving = Moving { work, step, change, made: &made };
    let opened = match goes_into {
        Some(into) => {
            let stopping = stopping.unwrap_or(into.stopping);
            let wedge = moving.wedge(&after, opens.gap.edge, made.opened, &into, stopping)?;
            DrawnTakeUp { wedge, mouth: moving.mouth(&after, opens.gap.edge, made.opened), stopping, ..into }
        }
        None => {
            let stopping = stopping.unwrap_or(placed.stopping);
            let name = change.named.unwrap_or(placed.name);
            let new = DrawnTakeUp {
                name,
                stopping,
                near: opens.near,
                said: step.alteration.span,
                moved: None,
                ..placed
            };
            let wedge = moving.wedge(&after, opens.gap.edge, made.opened, &new, stopping)?;
            DrawnTakeUp { wedge, mouth: moving.mouth(&after, opens.gap.edge, made.opened), ..new }
        }
    };
    let pressed = moving.pressed(&after, &opened, goes_into.is_some())?;
    let opened = DrawnTakeUp { pressed, trued: opened.trued || change.trued, ..opened };
    let rest = match whole {
        true => None,
        false => {
            let wedge = moving.wedge(&after, shut.edge, made.shut, &placed, placed.stopping)?;
            let mouth = moving.mouth(&after, shut.edge, made.shut);
            Some(DrawnTakeUp { wedge, mouth, moved: None, ..placed })
        }
    };
    // Each where it stood; a new one comes last.
    let mut all = after.take_ups.clone().into_iter();
    let mut in_order = Vec::with_capacity(drawn.take_ups.len() + 1);
    for (place, _) in drawn.take_ups.iter().enumerate() {
        match () {
            () if place == at && goes_into.is_none() && whole => in_order.push(opened),
            () if place == at => in_order.extend(rest),
            () if Some(place) == opens.into => in_order.push(opened),
            () => in_order.extend(all.next()),
        }
    }
    if goes_into.is_none() && !whole {
        in_order.push(opened);
    }
    after.take_ups = in_order;
    // Its name goes with it, unless only what is left of it has a new one.
    let keeps_name = rest.is_some() || work.garment.is_run_of(opened.name, placed.name);
    if !keeps_name {
        after.missing.edges.push((placed.name, Why::By(step.id)));
    }
    if whole {
        over_shut(work, step, &placed, &mut after, shut.edge, made.shut.0, made.step);
    }
    trued(work, &before, after)
}

/// What of the dart goes, more than nothing and all of it at most; reported otherwise.
fn share(work: &Work, change: &DartMove) -> Option<f64> {
    let Some(share) = &change.share else { return Some(1.0) };
    let value = work.scalar(share, None)?;
    if value > 0.0 && value <= 1.0 + 1e-9 {
        return Some(value.min(1.0));
    }
    work.mistake(value.abs(), "", || {
        let percent = plain(100.0 * value);
        let what = if value > 0.0 { "more than all of it" } else { "nothing of it" };
        let title = Title::new(format!("{percent} % of a dart is {what}")).in_sizes();
        Diagnostic::new(&catalogue::DART_SHARE, share.span, title)
            .label("what is to be moved")
            .help("move more than 0 and at most 100 % of its angle; all of it where nothing is said")
    });
    None
}

/// The place on an edge where the dart opens; reported if it cannot be cut from there.
fn on_edge(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    placed: &DrawnTakeUp,
    wanted: EdgeId,
    place: &EdgePlace,
) -> Option<Opens> {
    let Some(edge) = drawn.edges.iter().position(|own| work.garment.is_run_of(own.edge, wanted)) else {
        let target = Target { edge: wanted, span: step.alteration.span, ..target.clone() };
        report_no_line(work, &target, drawn);
        return None;
    };
    let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
    let found = place_on(work, &sketch, edge, place)?;
    let own = drawn.edges.get(edge)?;
    let (length, title) = (own.path.length(), work.title(drawn.piece));
    let (dart, name) = (&work.garment.edge(placed.name).name, &work.garment.edge(own.edge).name);
    if found.along <= AT_CORNER || found.along >= length - AT_CORNER {
        let beyond = (-found.along).max(found.along - length).max(0.0);
        work.report(|size| {
            let (long, by) = (work.amount(length), work.amount(beyond));
            let what = match beyond > AT_CORNER {
                true => format!("{name} of {title} is {long} long, and this is {by} beyond its end"),
                false => format!("this is a corner of {name} of {title}"),
            };
            let message =
                Diagnostic::new(&catalogue::DART_REACH, step.alteration.span, Title::new(what).in_sizes())
                    .also(work.garment.edge(own.edge).span, name.to_string())
                    .help(format!(
                        "let {dart} open between the ends of {name}: something of it is left on both sides"
                    ));
            Finding::new(size, beyond, message).about(title).figure("long", long)
        });
        return None;
    }
    let at = own.path.point_at_length(found.along);
    let inside = drawn.take_ups.iter().find(|one| {
        one.name != placed.name
            && one.mouth.is_some_and(|mouth| {
                let near = own.path.point_at_length(mouth.from).distance(one.wedge.sides[0]) <= ON_OUTLINE;
                mouth.edge == own.edge && near && mouth.from <= found.along && found.along <= mouth.to
            })
    });
    if let Some(other) = inside {
        work.mistake(1.0, title, || {
            let other_name = &work.garment.edge(other.name).name;
            let what = format!("{other_name} is taken from {name} of {title} at this place already");
            Diagnostic::new(&catalogue::DART_REACH, step.alteration.span, Title::new(what).in_sizes())
                .also(other.said, format!("{other_name} is here"))
                .help(format!("move {dart} beside it, or into it: into {other_name}"))
        });
        return None;
    }
    let mouth = placed
        .mouth
        .filter(|mouth| mouth.edge == own.edge && gap(drawn, placed).is_some_and(|gap| gap.edge == edge));
    if let Some(mouth) = mouth.filter(|mouth| mouth.from <= found.along && found.along <= mouth.to) {
        work.mistake(mouth.to - mouth.from, title, || {
            let what = format!("{dart} is at this place of {name} already");
            Diagnostic::new(&catalogue::DART_REACH, step.alteration.span, Title::new(what).in_sizes())
                .also(placed.said, "it is here")
                .help("move it to another place, or leave this line out")
        });
        return None;
    }
    let old = ring(drawn);
    let leaves =
        meet_segment(placed.apex, at, &old).into_iter().find(|hit| hit.point.distance(at) > AT_CORNER);
    let outside = leaves.is_none() && !contains_strictly(&old, placed.apex.midpoint(at));
    if leaves.is_some() || outside {
        let edge = leaves.and_then(|hit| drawn.edges.get(hit.edge)).unwrap_or(own);
        work.mistake(1.0, title, || {
            let met = work.garment.edge(edge.edge);
            let what = format!(
                "the way from this place of {name} to where {dart} is directed leaves {title} at {}",
                met.name
            );
            Diagnostic::new(&catalogue::DART_REACH, step.alteration.span, Title::new(what).in_sizes())
                .also(met.span, met.name.to_string())
                .also(placed.said, format!("{dart} is here"))
                .help("a dart is cut straight to that point: choose a place that is seen from there")
        });
        return None;
    }
    let gap = Gap { edge, from: found.along, to: found.along };
    Some(Opens { gap, near: usize::from(found.backwards), into: None })
}

/// The dart that it goes into: directed to the same place; reported otherwise.
fn into_dart(
    work: &Work,
    target: &Target,
    drawn: &DrawnPiece,
    placed: &DrawnTakeUp,
    into: EdgeId,
    span: crate::source::Span,
) -> Option<Opens> {
    let other = Target { edge: into, span, ..target.clone() };
    let (at, into, gap) = dart_with_mouth(work, &other, drawn)?;
    let apart = into.apex.distance(placed.apex);
    if apart > work.garment.tolerance.max(ON_OUTLINE) {
        let title = work.title(drawn.piece);
        work.report(|size| {
            let by = work.amount(apart);
            let (one, other) = (&work.garment.edge(placed.name).name, &work.garment.edge(into.name).name);
            let what = format!("{one} and {other} are directed to places {by} apart");
            let message = Diagnostic::new(&catalogue::DART_APART, span, Title::new(what).in_sizes())
                .also(placed.said, format!("{one} is here"))
                .also(into.said, format!("{other} is here"))
                .help("let both be directed to one point; each may stop short of it by itself");
            Finding::new(size, apart, message).about(title).figure("apart", by)
        });
        return None;
    }
    if dart_of(work, target, drawn) == Some(at) {
        return None;
    }
    Some(Opens { gap, near: into.near, into: Some(at) })
}

/// Whether the place that the dart is directed to lies inside the piece; reported otherwise.
fn is_inside(work: &Work, step: &Step, drawn: &DrawnPiece, placed: &DrawnTakeUp, old: &[Path]) -> bool {
    let off = old.iter().map(|edge| edge.nearest(placed.apex).distance).fold(f64::INFINITY, f64::min);
    if off > ON_OUTLINE && contains_strictly(old, placed.apex) {
        return true;
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let name = &work.garment.edge(placed.name).name;
        let what = format!(
            "{name} is directed to a place on the outline of {title}, where nothing can turn about it"
        );
        Diagnostic::new(&catalogue::DART_REACH, step.alteration.span, Title::new(what).in_sizes())
            .also(placed.said, format!("{name} is here"))
            .help(format!(
                "shut it: close dart {}.{name}; or move it before the piece is split",
                work.garment.piece(drawn.piece).name
            ))
    });
    false
}

struct Moving<'m, 'g> {
    work: &'m Work<'g>,
    step: &'m Step<'m>,
    change: &'m DartMove,
    made: &'m Pivot,
}

impl Moving<'_, '_> {
    fn mouth(&self, after: &DrawnPiece, edge: usize, (from, to): (f64, f64)) -> Option<Mouth> {
        Some(Mouth { edge: after.edges.get(edge)?.edge, from, to })
    }

    /// The cloth of a dart between two places of an edge; reported if nothing of its length is left.
    fn wedge(
        &self,
        after: &DrawnPiece,
        edge: usize,
        mouth: (f64, f64),
        dart: &DrawnTakeUp,
        stopping: f64,
    ) -> Option<Wedge> {
        let path = &self.made.edges.get(edge)?;
        let sides = [mouth.0, mouth.1].map(|at| path.point_at_length(at));
        let middle = sides[0].midpoint(sides[1]);
        let deep = dart.apex.distance(middle);
        if (0.0..deep - SAME_POINT).contains(&stopping) {
            return Some(Wedge { sides, point: stopped(dart.apex, middle, stopping) });
        }
        let work = self.work;
        work.mistake((stopping - deep).abs(), work.title(after.piece), || {
            let (name, long, short) =
                (&work.garment.edge(dart.name).name, work.amount(deep), work.amount(stopping));
            let what = match stopping < 0.0 {
                true => format!("{name} stops {short} short, which is below 0"),
                false => {
                    format!("{name} is {long} long there and stops {short} short: nothing of it is left")
                }
            };
            Diagnostic::new(&catalogue::DART_NOTHING, self.step.alteration.span, Title::new(what).in_sizes())
                .help(
                    "a dart is sewn from its mouth towards its point: write stopping … short with less here",
                )
        });
        None
    }

    /// The side that its cloth is pressed towards there: as is said here, else as was said before.
    fn pressed(&self, after: &DrawnPiece, dart: &DrawnTakeUp, is_there: bool) -> Option<Option<usize>> {
        let work = self.work;
        let said: Option<&Pressed> = match &self.change.laid {
            Some(Laying::CutOpen) => return Some(None),
            Some(Laying::Pressed(pressed)) => Some(pressed),
            // What it goes into stays as it is pressed.
            None if is_there => return Some(dart.pressed),
            None => said_before(work, self.step, dart),
        };
        let Some(said) = said else { return Some(None) };
        let name = &work.garment.edge(dart.name).name;
        let laid = Laid { name, said: self.step.alteration.span, kind: &catalogue::DART_PRESSED };
        side_pressed(work, after, laid, &dart.wedge, said).map(Some)
    }
}

/// How a dart was said to be pressed last: by the moves before, else where it is declared. None: cut open.
fn said_before<'g>(work: &Work<'g>, step: &Step, dart: &DrawnTakeUp) -> Option<&'g Pressed> {
    let before = work.garment.alterations.iter().take(step.id.index()).rev();
    let moves = before.filter_map(|one| match &one.dart {
        Some(DartChange::Move(change)) => Some((one, change)),
        _ => None,
    });
    let is_of = |target: &Target| work.garment.is_run_of(dart.name, target.edge);
    let of_it = moves.filter(|(one, _)| one.targets.iter().any(is_of));
    match of_it.filter_map(|(_, change)| change.laid.as_ref()).next() {
        Some(Laying::CutOpen) => None,
        Some(Laying::Pressed(pressed)) => Some(pressed),
        None => declared(work, dart)?.pressed(),
    }
}
