//! Points of an outline that are named as a mark is: their kind was forgotten, or is another one.

use super::placed::{Kind, Placed, Sizes};
use crate::bring::read::letters::shown;
use crate::bring::traced::TracedPoint;
use crate::report::listed;
use indexmap::IndexMap;
use kurbo::Point;

/// Among fewer points nothing is usual.
const LEAST_POINTS: usize = 5;
/// A mark lies so far inside of the line through the other points, in millimetres.
const INSIDE: f64 = 3.0;

/// A point, and which of its outline it is.
type Nth<'a> = (usize, &'a Placed);

/// What is said of points that bear a name among those that bear numbers.
pub(super) fn forgotten(pieces: &IndexMap<String, Sizes>, file: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (piece, sizes) in pieces {
        // By name, in which sizes it is a point of the outline, in which line first, and in which it is a mark.
        let mut doubtful: IndexMap<&str, (Vec<String>, usize)> = IndexMap::new();
        for (size, kinds) in sizes {
            for point in kinds.get(&Kind::Outline).map(|points| lonely(points, sizes)).into_iter().flatten() {
                let own = doubtful.entry(&point.name).or_insert_with(|| (Vec::new(), point.line));
                own.0.extend((!size.is_empty()).then(|| shown(size)));
            }
        }
        for (name, (of, line)) in doubtful {
            let marked = marked(sizes, name);
            let of_size = if of.is_empty() { String::new() } else { format!(" in {}", listed(&of)) };
            let elsewhere = match marked.is_empty() {
                true => String::new(),
                false => format!(", and a mark in {}", listed(&marked)),
            };
            found.push(format!(
                "{} of {} (line {line} of {file}) is a point of the outline{of_size}{elsewhere}: was its kind, mark or notch, forgotten? \
                 The outline goes there and back",
                shown(name),
                shown(piece)
            ));
        }
    }
    found
}

/// The sizes in which a mark or a notch is called so.
fn marked(sizes: &Sizes, name: &str) -> Vec<String> {
    let is_marked = |kinds: &IndexMap<Kind, Vec<Placed>>| {
        let all = [Kind::Mark, Kind::Notch].iter().filter_map(|kind| kinds.get(kind)).flatten();
        all.into_iter().any(|point| point.name == name)
    };
    let each = sizes.iter().filter(|(size, kinds)| !size.is_empty() && is_marked(kinds));
    each.map(|(size, _)| shown(size)).collect()
}

/// The named points of an outline whose others are numbered, where they are rather none of it.
fn lonely<'a>(points: &'a [Placed], sizes: &Sizes) -> Vec<&'a Placed> {
    let is_named = |point: &Placed| point.name.ends_with(|letter: char| !letter.is_ascii_digit());
    let (named, others): (Vec<Nth>, Vec<Nth>) =
        points.iter().enumerate().partition(|(_, point)| is_named(point));
    // Who names several points names the outline's.
    if named.len() > 2 || others.len() < LEAST_POINTS {
        return Vec::new();
    }
    let said = others.iter().filter(|(_, point)| point.said != TracedPoint::Unsaid).count();
    let are_said = 2 * said > others.len();
    let ring: Vec<Point> = others.iter().map(|(_, point)| point.at).collect();
    let is_doubtful = |at: usize, point: &Placed| {
        let is_at_end = at == 0 || at + 1 == points.len();
        let is_unsaid = point.said == TracedPoint::Unsaid;
        !marked(sizes, &point.name).is_empty()
            || is_unsaid && (are_said || is_at_end && lies_within(&ring, point.at))
    };
    named.into_iter().filter(|(at, point)| is_doubtful(*at, point)).map(|(_, point)| point).collect()
}

/// Whether a point lies inside of a ring of points, and not beside its lines.
fn lies_within(ring: &[Point], at: Point) -> bool {
    let nexts = || ring.iter().zip(ring.iter().cycle().skip(1));
    // A ray to the right crosses the ring an odd number of times.
    let crossings = nexts().filter(|(one, other)| {
        (one.y > at.y) != (other.y > at.y)
            && at.x < one.x + (at.y - one.y) / (other.y - one.y) * (other.x - one.x)
    });
    let is_inside = crossings.count() % 2 == 1;
    let away = nexts().map(|(one, other)| {
        let way = *other - *one;
        let share = ((at - *one).dot(way) / way.hypot2().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        (*one + way * share).distance(at)
    });
    is_inside && away.fold(f64::INFINITY, f64::min) > INSIDE
}
