//! Pleats and tucks that are sewn or basted, drawn shut: what lies beside each is moved together until its lines lie on one
//! another.
//!
//! A tuck is shut from edge to edge. A pleat is shut along its edge, and as far down as it is stitched; below it opens, as
//! cloth does that hangs, and the farther the more folds hang there. Edges keep what they have as sewn.

use super::shut::{Staying, smooth};
use crate::resolve::{DrawnTakeUp, TuckEnd};
use crate::shape::{Point, Vec2};

/// A pleat has opened so many times what is taken beside it below where it is held, or where its cloth ends, whichever is nearer.
const OPENS: f64 = 6.0;

/// One fold, where it lies once what was shut before it is shut.
#[derive(Clone, Copy, Debug)]
pub struct Folded {
    /// Where its first line meets the edge.
    from: Point,
    /// The way that its lines go into the cloth, a unit vector.
    into: Vec2,
    /// From the first line square to the second: what is taken.
    taken: Vec2,
    /// Where what lies beside each line is moved: at the edge, and at the other edge of a tuck.
    near: [Vec2; 2],
    far: [Vec2; 2],
    /// It is shut so far from the edge, in millimetres …
    held: f64,
    /// … and has opened there; never, of a tuck.
    open: Option<f64>,
    /// How far its lines go, of a tuck.
    long: f64,
}

impl Folded {
    /// Of a take-up that has come where it is. `corners` are the piece's, and `beside` what all folds of its row take
    /// together, in millimetres. None of a dart.
    pub fn of(
        take_up: &DrawnTakeUp,
        stays: Option<Staying>,
        corners: &[Point],
        beside: f64,
    ) -> Option<Folded> {
        let pleat = take_up.pleat?;
        let [from, to] = take_up.wedge.sides;
        let (into, across) = (pleat.into / pleat.into.hypot(), to - from);
        let taken = across - into * across.dot(into);
        // The side that is nearer to what stays is not moved; where the lines lie across the way there, both are.
        let share = stays
            .map_or(0.0, |stays| (1.4 * (stays.far(from) - stays.far(to)) / across.hypot()).clamp(-1.0, 1.0));
        let parted = |way: Vec2| [way * f64::midpoint(1.0, share), -way * f64::midpoint(1.0, -share)];
        let near = parted(across);
        let deep = |at: Point| (at - from).dot(into);
        let (far, long) = match pleat.tuck {
            Some(_) => {
                let [one, other] = pleat.ends;
                (parted(other - one), deep(one.midpoint(other)))
            }
            None => (near, 0.0),
        };
        let held = pleat.sewn.max(0.0);
        let reach = corners.iter().map(|at| deep(*at)).fold(held, f64::max) - held;
        let open = pleat.tuck.is_none().then_some(held + (OPENS * beside).min(reach));
        let folded = Folded { from, into, taken, near, far, held, open, long };
        let is_sound = into.is_finite() && taken.hypot() > 1e-6 && taken.hypot().is_finite();
        let is_open = open.is_none_or(|open| open > held + 1.0);
        (is_sound && is_open && pleat.tuck != Some(TuckEnd::Second)).then_some(folded)
    }

    /// Where a place comes.
    pub fn moved(&self, at: Point) -> Point {
        let way = at - self.from;
        let deep = way.dot(self.into);
        let across = (way.dot(self.taken) / self.taken.hypot2()).clamp(0.0, 1.0);
        let down = if self.long > 1.0 { (deep / self.long).clamp(0.0, 1.0) } else { 0.0 };
        let [one, other] = [0, 1].map(|side| {
            let own = |ways: &[Vec2; 2]| if side == 0 { ways[0] } else { ways[1] };
            own(&self.near) * (1.0 - down) + own(&self.far) * down
        });
        let left = self.open.map_or(1.0, |open| 1.0 - smooth((deep - self.held) / (open - self.held)));
        at + (one * (1.0 - across) + other * across) * left
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::garment::EdgeId;
    use crate::resolve::DrawnPleat;
    use crate::shape::wedge::Wedge;
    use crate::source::Span;

    /// Two lines from the places (0, 0) and (40, 0) of an edge down into the cloth.
    fn fold(sewn: f64, tuck: Option<TuckEnd>) -> DrawnTakeUp {
        let sides = [Point::new(0.0, 0.0), Point::new(40.0, 0.0)];
        let ends = sides.map(|side| side - Vec2::new(0.0, 300.0));
        let name = EdgeId::from_index(0);
        DrawnTakeUp {
            name,
            declared: name,
            mouth: None,
            wedge: Wedge { sides, point: ends[0] },
            upper: None,
            apex: ends[0],
            pressed: Some(0),
            near: 0,
            stopping: 0.0,
            trued: false,
            said: Span::default(),
            moved: None,
            pleat: Some(DrawnPleat { into: Vec2::new(0.0, -1.0), sewn, ends, nth: 0, tuck }),
        }
    }

    const CORNERS: [Point; 4] = [
        Point::new(-100.0, 0.0),
        Point::new(140.0, 0.0),
        Point::new(140.0, -300.0),
        Point::new(-100.0, -300.0),
    ];

    /// At the edge both lines come to one place, halfway; what lies beside them keeps its distance to them. 6 · 40 mm lower
    /// nothing is moved.
    #[test]
    fn a_pleat_is_shut_at_its_edge_and_opens_below() {
        let folded = Folded::of(&fold(0.0, None), None, &CORNERS, 40.0).unwrap();
        for side in [0.0, 20.0, 40.0] {
            assert!(folded.moved(Point::new(side, 0.0)).distance(Point::new(20.0, 0.0)) < 1e-9);
        }
        assert!(folded.moved(Point::new(-50.0, 0.0)).distance(Point::new(-30.0, 0.0)) < 1e-9);
        for below in [Point::new(0.0, -240.0), Point::new(140.0, -300.0)] {
            assert_eq!(folded.moved(below), below);
        }
        // Stitched 100 down it is shut there still.
        let folded = Folded::of(&fold(100.0, None), None, &CORNERS, 40.0).unwrap();
        assert!(folded.moved(Point::new(40.0, -100.0)).distance(Point::new(20.0, -100.0)) < 1e-9);
    }

    /// Beside a fold at −100 that side stays; of a tuck both edges are shut.
    #[test]
    fn a_tuck_is_shut_from_edge_to_edge_and_what_stays_is_not_moved() {
        let stays = Staying { on: Point::new(-100.0, 0.0), way: Vec2::new(0.0, 1.0) };
        let folded = Folded::of(&fold(300.0, Some(TuckEnd::First)), Some(stays), &CORNERS, 40.0).unwrap();
        for down in [0.0, -150.0, -300.0] {
            assert!(folded.moved(Point::new(40.0, down)).distance(Point::new(0.0, down)) < 1e-9);
            assert!(folded.moved(Point::new(140.0, down)).distance(Point::new(100.0, down)) < 1e-9);
            assert_eq!(folded.moved(Point::new(-100.0, down)), Point::new(-100.0, down));
        }
        assert!(Folded::of(&fold(300.0, Some(TuckEnd::Second)), None, &CORNERS, 40.0).is_none());
    }
}
