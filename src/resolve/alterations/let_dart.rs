//! `let dart`: an edge is cut straight to a place and opened there. What lies between the cut and where the turning
//! ends turns about that place, and laps over the paper there by the same angle: so it is as if a dart of that angle
//! were folded away there and moved to the cut.

use super::Step;
use super::beyond::report_no_line;
use super::move_dart::moved;
use crate::garment::{CutHow, DartChange, DartGoal, DartLet, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnTakeUp, Mouth};
use crate::resolve::sketch::{Sketch, ring};
use crate::resolve::take_ups::place::place_on;
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::line::meet_segment;
use crate::shape::outline::contains_strictly;
use crate::shape::pivot::lap;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;

/// The widest angle of a dart, in degrees: a fold of cloth twice as wide as long is no dart (a judgement).
const WIDEST: f64 = 90.0;

/// Lets a dart into the target.
pub(super) fn let_dart(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let Some(DartChange::Let(change)) = &step.alteration.dart else { return None };
    let angle = angle(work, change);
    let apex = work.place(&change.to, None);
    let (angle, apex) = (angle?, apex?);
    if !is_inside(work, drawn, change, apex) {
        return None;
    }
    let lapped = lapped(work, step, target, drawn, change, angle, apex)?;
    let mut with_it = drawn.clone();
    with_it.take_ups.push(lapped);
    let target = Target { edge: change.name, ..target.clone() };
    let mut after = moved(work, step, &target, &with_it, &change.opens)?;
    // The name is the piece's only from here on.
    after.missing.edges.retain(|(gone, _)| *gone != change.name);
    Some(after)
}

/// How far it opens, in radians; reported if that is no angle of a dart.
fn angle(work: &Work, change: &DartLet) -> Option<f64> {
    let angle = work.scalar(&change.angle, None)?;
    let degrees = angle.to_degrees();
    if degrees > 0.0 && degrees <= WIDEST {
        return Some(angle);
    }
    let over = (-degrees).max(degrees - WIDEST);
    work.mistake(over, "", || {
        let name = &work.garment.edge(change.name).name;
        let title =
            Title::new(format!("{name} is to open by {degrees:.4}°").replace(".0000°", "°")).in_sizes();
        Diagnostic::new(&catalogue::DART_NOTHING, change.angle.span, title)
            .label("no angle of a dart")
            .help(format!("give it more than 0 and at most {WIDEST}°"))
    });
    None
}

/// Whether the place that it is directed to lies inside the piece; reported otherwise.
fn is_inside(work: &Work, drawn: &DrawnPiece, change: &DartLet, apex: Point) -> bool {
    let old = ring(drawn);
    let off = old.iter().map(|edge| edge.nearest(apex).distance).fold(f64::INFINITY, f64::min);
    if off > ON_OUTLINE && contains_strictly(&old, apex) {
        return true;
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let name = &work.garment.edge(change.name).name;
        let place = if off > ON_OUTLINE { "outside" } else { "on the outline of" };
        let what = format!("{name} is directed to a place {place} {title}, where no paper can turn about it");
        Diagnostic::new(&catalogue::DART_REACH, change.to.span, Title::new(what).in_sizes())
            .also(work.garment.piece(drawn.piece).span, title.to_owned())
            .help("direct it to a point inside the piece")
    });
    false
}

/// What the paper laps over itself where the turning ends, as a dart; reported if there is no room for it.
fn lapped(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    change: &DartLet,
    angle: f64,
    apex: Point,
) -> Option<DrawnTakeUp> {
    let (wanted, span) = change.turning;
    let Some(at) = drawn.edges.iter().position(|own| work.garment.is_run_of(own.edge, wanted)) else {
        report_no_line(work, &Target { edge: wanted, span, ..target.clone() }, drawn);
        return None;
    };
    let own = drawn.edges.get(at)?;
    if matches!(drawn.cut, CutHow::OnFold(fold) if fold == own.edge) {
        let title = work.title(drawn.piece);
        work.mistake(1.0, title, || {
            let fold = &work.garment.edge(own.edge).name;
            let what = format!("the paper would lap over itself at {fold}, the fold of {title}");
            Diagnostic::new(&catalogue::DART_FOLD, span, Title::new(what).in_sizes())
                .also(work.garment.edge(own.edge).span, "a fold stays straight, and as long as it is")
                .help("let the turning end at another edge, for example the hem")
        });
        return None;
    }
    let along = match &change.ends {
        Some(ends) => {
            let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
            place_on(work, &sketch, at, ends)?.along
        }
        None => own.path.nearest(apex).at,
    };
    let title = work.title(drawn.piece);
    let (dart, edge) = (&work.garment.edge(change.name).name, &work.garment.edge(own.edge).name);
    let length = own.path.length();
    let middle = own.path.point_at_length(along.clamp(0.0, length));
    if along < 0.0 || along > length || middle.distance(apex) <= SAME_POINT {
        let beyond = (-along).max(along - length).max(0.0);
        work.mistake(beyond, title, || {
            let what = match beyond > 0.0 {
                true => {
                    format!("{edge} of {title} is {} long, and this is beyond its end", work.amount(length))
                }
                false => {
                    format!("{dart} is directed to the very place of {edge} where the turning is to end")
                }
            };
            Diagnostic::new(&catalogue::DART_TURNING, span, Title::new(what).in_sizes())
                .help("let the turning end at a place of an edge, some way from the point of the dart")
        });
        return None;
    }
    let sides = lap(&own.path, along, apex, angle);
    let inside = |at: f64| at > AT_CORNER && at < length - AT_CORNER;
    let (Some(one), Some(other)) = (&sides[0], &sides[1]) else {
        report_no_room(work, step, drawn, change, (at, along), apex);
        return None;
    };
    let (first, second) = if one.at <= other.at { (one, other) } else { (other, one) };
    if !inside(first.at) || !inside(second.at) {
        report_no_room(work, step, drawn, change, (at, along), apex);
        return None;
    }
    let (from, to) = (first.at, second.at);
    if let DartGoal::Edge(cut, place) = &change.opens.goal
        && work.garment.is_run_of(own.edge, *cut)
    {
        let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
        let cut = place_on(work, &sketch, at, place)?.along;
        if (from..=to).contains(&cut) {
            work.mistake(1.0, title, || {
                let what = format!("the turning ends at the very place of {edge} where {dart} is cut");
                Diagnostic::new(&catalogue::DART_TURNING, span, Title::new(what).in_sizes())
                    .help("let it end at another edge, for example the hem: what lies between turns")
            });
            return None;
        }
    }
    let taken = drawn.taken_from(own).into_iter();
    let in_the_way =
        taken.filter(|(_, mouth)| mouth.from < to && from < mouth.to).map(|(placed, _)| placed).next();
    if let Some(placed) = in_the_way {
        work.mistake(1.0, title, || {
            let other = &work.garment.edge(placed.name).name;
            let what =
                format!("{other} is taken from {edge} of {title} where the paper would lap over itself");
            Diagnostic::new(&catalogue::DART_TURNING, span, Title::new(what).in_sizes())
                .also(placed.said, format!("{other} is here"))
                .help("let the turning end at another place or edge")
        });
        return None;
    }
    let old = ring(drawn);
    for hit in [first, second] {
        let blocked = meet_segment(apex, hit.point, &old)
            .into_iter()
            .find(|met| met.point.distance(hit.point) > AT_CORNER);
        if let Some(met) = blocked {
            let met = drawn.edges.get(met.edge).unwrap_or(own);
            work.mistake(1.0, title, || {
                let name = &work.garment.edge(met.edge).name;
                let what = format!("the way from the point of {dart} to {edge} leaves {title} at {name}");
                Diagnostic::new(&catalogue::DART_TURNING, span, Title::new(what).in_sizes())
                    .also(work.garment.edge(met.edge).span, name.to_string())
                    .help("let the turning end at a place that is seen from the point of the dart")
            });
            return None;
        }
    }
    let wedge = Wedge { sides: [first.point, second.point], point: apex };
    let mouth = Some(Mouth { edge: own.edge, from, to });
    Some(DrawnTakeUp {
        name: change.name,
        declared: change.name,
        mouth,
        wedge,
        upper: None,
        apex,
        pressed: None,
        near: 0,
        stopping: 0.0,
        trued: false,
        said: step.alteration.span,
        moved: None,
        pleat: None,
    })
}

/// Reports that the lap reaches a corner: how wide it may be there.
fn report_no_room(
    work: &Work,
    step: &Step,
    drawn: &DrawnPiece,
    change: &DartLet,
    (at, along): (usize, f64),
    apex: Point,
) {
    let Some(own) = drawn.edges.get(at) else { return };
    let length = own.path.length();
    let middle = own.path.point_at_length(along.clamp(0.0, length)) - apex;
    let ends = [own.path.start(), own.path.end()].map(|end| {
        let way = end - apex;
        libm::atan2(middle.cross(way), middle.dot(way)).abs().to_degrees()
    });
    let most = 2.0 * ends[0].min(ends[1]);
    let title = work.title(drawn.piece);
    work.report(|size| {
        let (dart, edge) = (&work.garment.edge(change.name).name, &work.garment.edge(own.edge).name);
        let most = format!("{most:.1}°");
        let what = format!("where the paper turns for {dart} it would lap past an end of {edge} of {title}");
        let message =
            Diagnostic::new(&catalogue::DART_TURNING, step.alteration.span, Title::new(what).in_sizes())
                .also(work.garment.edge(own.edge).span, format!("there is room for {most} here"))
                .help("open the dart by less, or let the turning end farther from the corner");
        Finding::new(size, 1.0, message).about(title).figure("room for", most)
    });
}
