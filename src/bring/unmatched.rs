//! What is said of sizes whose corners do not answer to one another.

use super::corners::{Unmatched, sharp};
use super::course::{Course, angle, leaving_end, leaving_start};
use kurbo::{ParamCurve, Point, Vec2};

/// From so large a turn on, in radians (60°), nobody takes a corner for a point of a curve: how corners are found is not what is wrong.
const PLAIN: f64 = std::f64::consts::FRAC_PI_3;
/// A corner lies elsewhere in another size from so large a share of the piece on.
const ELSEWHERE: f64 = 0.08;

/// Why the sizes of a piece do not answer to one another; `least` is the turn from which on a point is a corner.
pub fn unmatched(name: &str, why: Unmatched, sizes: &[String], courses: &[Course], least: f64) -> String {
    let called = |at: usize| sizes.get(at).map_or("", String::as_str);
    match why {
        Unmatched::Counts { one: (one, count), other: (other, many) } => {
            let head = format!(
                "{name} has {count} corners in {} and {many} in {}, so its sizes do not answer to each other",
                called(one),
                called(other)
            );
            let (more, fewer) = if count > many { (one, other) } else { (other, one) };
            let lonely = courses.get(more).zip(courses.get(fewer)).and_then(|(more, fewer)| {
                let alone = alone(more, fewer, least)?;
                Some((alone, more.turn(alone) >= PLAIN))
            });
            let round = lonely.zip(courses.get(more).zip(courses.get(fewer)));
            if let Some(((alone, _), (own, other))) = round
                && let Some(reach) = rounded(own, alone, other)
            {
                return format!(
                    "{head}: the corner of {} {} is round in {}, over {reach:.0} mm; draw it as a corner in every size, or round in \
                     every size",
                    called(more),
                    place(own, own.node(alone)),
                    called(fewer)
                );
            }
            match (lonely, courses.get(more)) {
                (Some((alone, is_plain)), Some(course)) => {
                    let way = match is_plain {
                        true => "?",
                        false => ", or is it no corner? `corner` says from which angle on a point is one;",
                    };
                    format!(
                        "{head}: the corner of {} {} has none in {}; is a point of {} lost{way} `look` draws what was found",
                        called(more),
                        place(course, course.node(alone)),
                        called(fewer),
                        called(fewer)
                    )
                }
                _ => format!(
                    "{head}; `corner` says from which angle on a point is a corner, `look` draws what was found"
                ),
            }
        }
        Unmatched::TooMany { size, count } => format!(
            "{name} has {count} corners in {}, and a piece has at most {}: `corner` says from which angle on a point is a corner",
            called(size),
            crate::limits::EDGES_OF_PIECE
        ),
        Unmatched::Places { size } => {
            let worst = courses.first().zip(courses.get(size)).and_then(|(base, own)| {
                let at = alone(own, base, least)?;
                Some(format!(", most of all the one {}", place(own, own.node(at))))
            });
            format!(
                "the corners of {name} lie elsewhere in {} than in {}{}: is it the same piece? `look` draws what was found",
                called(size),
                called(0),
                worst.unwrap_or_default()
            )
        }
    }
}

/// Where a place lies, counted from the lowest and leftmost of an outline.
pub fn place(course: &Course, at: Point) -> String {
    let bounds = course.bounds();
    // What rounds to nothing is nothing, on whichever side.
    let whole = |far: f64| far.round() + 0.0;
    let (left, low) = (whole(at.x - bounds.x0), whole(at.y - bounds.y0));
    format!("{left} mm from its left and {low} mm from its lower end")
}

/// The corner of one size that lies farthest from every corner of the other, any where that has none, both as shares of what they cover; none where
/// each lies near one.
fn alone(one: &Course, other: &Course, least: f64) -> Option<usize> {
    let shares = |course: &Course| -> Vec<(usize, Vec2)> {
        let bounds = course.bounds();
        let (wide, high) = (bounds.width().max(f64::MIN_POSITIVE), bounds.height().max(f64::MIN_POSITIVE));
        let share = |at: usize| {
            let node = course.node(at);
            (at, Vec2::new((node.x - bounds.x0) / wide, (node.y - bounds.y0) / high))
        };
        sharp(course, least).into_iter().map(share).collect()
    };
    let others = shares(other);
    let away =
        |own: Vec2| others.iter().map(|(_, other)| (own - *other).hypot()).fold(f64::INFINITY, f64::min);
    let each = shares(one).into_iter().map(|(at, own)| (at, away(own)));
    let (at, away) = each.max_by(|one, other| one.1.total_cmp(&other.1))?;
    (away > ELSEWHERE).then_some(at)
}

/// A corner is round where the line turns by as much in so many times as far as it keeps from it: of a right angle the arc begins
/// 2.4 times as far from the corner as it keeps, of a blunt one farther.
const REACH: f64 = 4.0;
/// By so much, in radians (15°), the turns may differ.
const TURN: f64 = 0.26;
/// In so many places one of its curves is looked at.
const PLACES: usize = 32;

/// A place on an outline: where it is, and which way the line goes from there on and up to the next place.
struct Step {
    at: Point,
    leaving: Vec2,
    arriving: Vec2,
}

/// Over how many millimetres the other size rounds that corner; none where it does not.
fn rounded(own: &Course, corner: usize, other: &Course) -> Option<f64> {
    let (from, to) = (own.bounds(), other.bounds());
    let at = own.node(corner);
    let share = |at: f64, low: f64, long: f64| (at - low) / long.max(f64::MIN_POSITIVE);
    let expected = Point::new(
        to.x0 + to.width() * share(at.x, from.x0, from.width()),
        to.y0 + to.height() * share(at.y, from.y0, from.height()),
    );
    let steps = steps(other);
    let away = other
        .segments
        .iter()
        .map(|one| kurbo::ParamCurveNearest::nearest(&one.course, expected, 1e-3).distance_sq)
        .fold(f64::INFINITY, f64::min);
    let reach = REACH * libm::sqrt(away).max(1.0);
    let count = steps.len();
    let step = |at: usize| steps.get(at % count.max(1));
    let is_near = |at: usize| step(at).is_some_and(|own| own.at.distance(expected) < reach);
    // From the first place near it to the last one.
    let begin = (0..count).find(|&at| is_near(at) && !is_near(at + count - 1))?;
    let end = (begin..begin + count).find(|&at| !is_near(at + 1))?;
    let turn_at = |at: usize| Some(angle(step(at + count - 1)?.arriving, step(at)?.leaving));
    let sharpest = (begin..=end).filter_map(turn_at).fold(0.0, f64::max);
    let whole = angle(step(begin + count - 1)?.arriving, step(end)?.leaving);
    let wanted = own.turn(corner);
    let is_round = end > begin && sharpest < wanted / 2.0 && (whole - wanted).abs() < TURN;
    is_round.then(|| step(begin).zip(step(end)).map_or(0.0, |(first, last)| first.at.distance(last.at)))
}

/// A line's points, and places within its curves.
fn steps(course: &Course) -> Vec<Step> {
    let each = course.segments.iter().flat_map(|one| {
        let parts = if matches!(one.course, kurbo::PathSeg::Line(_)) { 1 } else { PLACES };
        (0..parts).map(move |part| {
            let (from, to) = (part as f64 / parts as f64, (part + 1) as f64 / parts as f64);
            let part = one.course.subsegment(from..to);
            Step { at: part.start(), leaving: leaving_start(&part), arriving: leaving_end(&part) }
        })
    });
    each.collect()
}
