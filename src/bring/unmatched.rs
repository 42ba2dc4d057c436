//! What is said of sizes whose corners do not answer to one another.

use super::corners::{Unmatched, sharp};
use super::course::Course;
use kurbo::{Point, Vec2};

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
    format!("{:.0} mm from its left and {:.0} mm from its lower end", at.x - bounds.x0, at.y - bounds.y0)
}

/// The corner of one size that lies farthest from every corner of the other, both as shares of what they cover; none where
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
    (away > ELSEWHERE && away.is_finite()).then_some(at)
}
