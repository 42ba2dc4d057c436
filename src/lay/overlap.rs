//! Whether two outlines where they lie share area, how close they come, and how far one may slide
//! before it meets the other: exact tests in `f64`, edges against edges and corners against
//! outlines.

use super::outline::{bounds, cross, turn_of};
use super::request::Point;

/// An outline where it lies, counterclockwise, with its bounds.
#[derive(Clone, Debug)]
pub struct Placed {
    corners: Vec<Point>,
    /// Least x and y.
    pub low: Point,
    /// Greatest x and y.
    pub high: Point,
}

impl Placed {
    /// An outline that lies where its corners say.
    pub fn new(corners: Vec<Point>) -> Self {
        let (low, high) = bounds(&corners);
        Placed { corners, low, high }
    }

    /// An outline moved by so much.
    pub fn moved(outline: &[Point], (dx, dy): Point) -> Self {
        Placed::new(outline.iter().map(|p| (p.0 + dx, p.1 + dy)).collect())
    }

    /// The same outline, drawn in.
    pub fn drawn_in(&self, by: f64) -> Self {
        Placed::new(drawn_in(&self.corners, by))
    }

    fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.corners.iter().copied().zip(self.corners.iter().copied().cycle().skip(1))
    }

    /// Whether a point lies within `reach` of the bounds.
    fn is_near(&self, p: Point, reach: f64) -> bool {
        p.0 >= self.low.0 - reach
            && p.0 <= self.high.0 + reach
            && p.1 >= self.low.1 - reach
            && p.1 <= self.high.1 + reach
    }

    /// Whether a point lies inside (even and odd crossings of a ray along x).
    fn holds(&self, p: Point) -> bool {
        self.is_near(p, 0.0)
            && self
                .edges()
                .filter(|&(a, b)| (a.1 > p.1) != (b.1 > p.1) && (turn_of(a, b, p) > 0.0) == (b.1 > a.1))
                .count()
                % 2
                == 1
    }
}

/// Each corner moved inward so that both its edges move by `by`; a sharp corner no further than
/// about four times that.
pub fn drawn_in(outline: &[Point], by: f64) -> Vec<Point> {
    let count = outline.len();
    let normal = |a: Point, b: Point| {
        let length = libm::hypot(b.0 - a.0, b.1 - a.1).max(1e-12);
        ((a.1 - b.1) / length, (b.0 - a.0) / length)
    };
    (0..count)
        .map(|i| {
            let (before, here, after) =
                (outline[(i + count - 1) % count], outline[i], outline[(i + 1) % count]);
            let (n, m) = (normal(before, here), normal(here, after));
            let scale = by / (1.0 + n.0 * m.0 + n.1 * m.1).max(0.1);
            (here.0 + (n.0 + m.0) * scale, here.1 + (n.1 + m.1) * scale)
        })
        .collect()
}

/// Every two whose bounds come within `reach` of each other, in the order in which they begin
/// along the cloth.
pub fn close_pairs(placed: &[Placed], reach: f64) -> Vec<(usize, usize)> {
    let mut order: Vec<usize> = (0..placed.len()).collect();
    order.sort_by(|&a, &b| placed[a].low.0.total_cmp(&placed[b].low.0).then(a.cmp(&b)));
    let mut pairs = Vec::new();
    for (at, &first) in order.iter().enumerate() {
        let one = &placed[first];
        for &second in &order[at + 1..] {
            let other = &placed[second];
            if other.low.0 > one.high.0 + reach {
                break;
            }
            if other.low.1 <= one.high.1 + reach && one.low.1 <= other.high.1 + reach {
                pairs.push((first, second));
            }
        }
    }
    pairs
}

/// Whether two outlines share area.
pub fn overlap(first: &Placed, second: &Placed) -> bool {
    let apart = |(a, b): (Point, Point), low: Point, high: Point| {
        a.0.max(b.0) < low.0 || a.0.min(b.0) > high.0 || a.1.max(b.1) < low.1 || a.1.min(b.1) > high.1
    };
    for (a, b) in first.edges() {
        if apart((a, b), second.low, second.high) {
            continue;
        }
        let (low, high) = ((a.0.min(b.0), a.1.min(b.1)), (a.0.max(b.0), a.1.max(b.1)));
        if second.edges().any(|(c, d)| !apart((c, d), low, high) && cross(a, b, c, d)) {
            return true;
        }
    }
    // No edge crosses another: one lies in the other, or they are clear of each other. Corners on
    // the other's outline say nothing, so the middles of edges are asked too.
    let within = |inner: &Placed, outer: &Placed| {
        let middles = inner.edges().map(|(a, b)| ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0));
        inner.corners.iter().copied().chain(middles).any(|p| outer.holds(p))
    };
    within(first, second) || within(second, first)
}

/// Whether two outlines are clear of each other and nowhere closer than `least`.
pub fn apart(first: &Placed, second: &Placed, least: f64) -> bool {
    if overlap(first, second) {
        return false;
    }
    let far_enough = |p: Point, a: Point, b: Point| {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let along = (((p.0 - a.0) * dx + (p.1 - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        libm::hypot(p.0 - a.0 - along * dx, p.1 - a.1 - along * dy) >= least
    };
    let corners_far = |one: &Placed, other: &Placed| {
        let mut near = one.corners.iter().filter(|&&p| other.is_near(p, least));
        near.all(|&p| other.edges().all(|(a, b)| far_enough(p, a, b)))
    };
    corners_far(first, second) && corners_far(second, first)
}

/// How far `mover` may slide to lower x before it meets `other`, at most `most`: the least of the
/// distances along x from a corner of one to an edge of the other. The two are clear of each other.
pub fn slide(mover: &Placed, other: &Placed, most: f64) -> f64 {
    let mut free = most;
    let mut limit = |corner: Point, (a, b): (Point, Point), towards: f64| {
        let (low, high) = if a.1 < b.1 { (a, b) } else { (b, a) };
        if corner.1 < low.1 || corner.1 > high.1 || low.1 == high.1 {
            return;
        }
        let x = low.0 + (high.0 - low.0) * ((corner.1 - low.1) / (high.1 - low.1));
        let distance = (corner.0 - x) * towards;
        if distance >= 0.0 && distance < free {
            free = distance;
        }
    };
    // Only what lies in the strip that the mover sweeps can meet anything.
    let swept = |(a, b): (Point, Point), by: &Placed, back: f64, ahead: f64| {
        a.1.max(b.1) >= by.low.1
            && a.1.min(b.1) <= by.high.1
            && a.0.max(b.0) >= by.low.0 - back
            && a.0.min(b.0) <= by.high.0 + ahead
    };
    let of_other: Vec<(Point, Point)> = other.edges().filter(|&e| swept(e, mover, most, 0.0)).collect();
    let of_mover: Vec<(Point, Point)> = mover.edges().filter(|&e| swept(e, other, 0.0, most)).collect();
    // Each edge ends where the next begins, and both ends are asked, so that a corner counts even
    // where only one of its edges is near.
    for &(from, to) in &of_mover {
        for &edge in &of_other {
            limit(from, edge, 1.0);
            limit(to, edge, 1.0);
            limit(edge.0, (from, to), -1.0);
            limit(edge.1, (from, to), -1.0);
        }
    }
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64) -> Placed {
        Placed::moved(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)], (x, y))
    }

    /// Two squares of 10: 25 apart along x leave 15 to slide, and 20 to one side they never meet.
    #[test]
    fn a_square_slides_until_it_meets_the_other() {
        assert_eq!(slide(&square(25.0, 0.0), &square(0.0, 0.0), 100.0), 15.0);
        assert_eq!(slide(&square(25.0, 4.0), &square(0.0, 0.0), 100.0), 15.0);
        assert_eq!(slide(&square(25.0, 4.0), &square(0.0, 0.0), 7.0), 7.0);
        assert_eq!(slide(&square(25.0, 20.0), &square(0.0, 0.0), 100.0), 100.0);
    }

    /// A peg of 2 slides into the mouth of a U, 8 deep, as far as its floor.
    #[test]
    fn a_peg_slides_into_a_hollow() {
        let hollow = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 3.0),
            (2.0, 3.0),
            (2.0, 7.0),
            (10.0, 7.0),
            (10.0, 10.0),
            (0.0, 10.0),
        ];
        let hollow = Placed::moved(&hollow, (0.0, 0.0));
        let peg =
            |y: f64| Placed::moved(&[(12.0, y), (14.0, y), (14.0, y + 2.0), (12.0, y + 2.0)], (0.0, 0.0));
        assert_eq!(slide(&peg(4.0), &hollow, 50.0), 10.0);
        assert_eq!(slide(&peg(2.0), &hollow, 50.0), 2.0);
        assert!(!overlap(&Placed::moved(&peg(4.0).corners, (-9.0, 0.0)), &hollow));
        assert!(overlap(&Placed::moved(&peg(2.0).corners, (-3.0, 0.0)), &hollow));
    }
}
