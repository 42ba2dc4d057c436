//! Darts, pleats, tucks and slits as they are drawn in one size.

use super::drawn_piece::DrawnPiece;
use super::model::DrawnEdgeId;
use crate::garment::EdgeId;
use crate::shape::line::StraightLine;
use crate::shape::pleat::Pleat;
use crate::shape::shut::Shut;
use crate::shape::wedge::Wedge;
use crate::source::Span;
use kurbo::{Affine, Point, Vec2};
use smallvec::SmallVec;
use std::sync::Arc;

/// A take-up where it lies on a drawn piece. The outline runs straight across it.
#[derive(Clone, Copy, Debug)]
pub struct DrawnTakeUp {
    /// Its name on this piece.
    pub name: EdgeId,
    /// Its name where it is declared: another one's of a copy, or of what was split or joined.
    pub declared: EdgeId,
    /// The stretch of an edge that it takes; none of one inside the piece.
    pub mouth: Option<Mouth>,
    /// Its cloth. Of one inside the piece the sides are where it is widest, and the point is its
    /// lower end.
    pub wedge: Wedge,
    /// The upper end of one inside the piece.
    pub upper: Option<Point>,
    /// The place that it is directed to; it is sewn to its point, which may lie before that.
    pub apex: Point,
    /// The side, 0 or 1, that its cloth is pressed towards; none: cut open.
    pub pressed: Option<usize>,
    /// The side, 0 or 1, that is nearer to where its place is counted from.
    pub near: usize,
    /// How far before the place that it is directed to it is sewn to, in millimetres.
    pub stopping: f64,
    /// Its edge is drawn anew with it shut.
    pub trued: bool,
    /// Where it is said: its declaration, or the alteration that moved it.
    pub said: Span,
    /// How far its edge moved there when it was trued, in millimetres; none where it was not.
    pub moved: Option<f64>,
    /// Of one fold of a pleat or tuck, how it lies; none of a dart. Its wedge's sides are where its lines meet
    /// the edge; it is pressed towards the line that its fold is laid on.
    pub pleat: Option<DrawnPleat>,
}

/// One fold of a pleat or tuck. A tuck is taken from two edges: it is there once for each of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawnPleat {
    /// The way that its lines go from the edge into the cloth, a unit vector.
    pub into: Vec2,
    /// How far from the edge its lines are sewn on one another, in millimetres; 0 where they are not.
    pub sewn: f64,
    /// Where each of its lines ends: where it is sewn to, of a tuck on the other edge.
    pub ends: [Point; 2],
    /// Which fold of its row it is, in the order in which they are laid out.
    pub nth: usize,
    /// Of a tuck, which end it is.
    pub tuck: Option<TuckEnd>,
}

/// An end of a tuck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TuckEnd {
    /// On the edge that it is placed on.
    First,
    /// On the edge that it goes to.
    Second,
}

/// A slit where it lies on a drawn piece, before it is cut. The outline runs straight across it.
#[derive(Clone, Copy, Debug)]
pub struct DrawnSlit {
    /// Its name on this piece.
    pub name: EdgeId,
    /// Where it is said.
    pub said: Span,
    /// The stretch of the edge that is lost: its window, or nothing. None of one inside the piece.
    pub mouth: Option<Mouth>,
    /// Where its sides leave the edge, in the order of the edge; of one inside the piece where they begin, the
    /// one first that an outline would go in along: in one place without a window.
    pub sides: [Point; 2],
    /// Where they end inside: in one place without a window.
    pub ends: [Point; 2],
    /// The way that the edge runs there, and from the first side to the second.
    pub along: Vec2,
    /// The side, 0 or 1, that is nearer to where its place is counted from; of one inside the piece the left one.
    pub near: usize,
    /// Of one in the middle of what is cut on the fold the side, 0 or 1, that lies on the fold and so is none: its
    /// other half has the like of the near one.
    pub fold: Option<usize>,
}

impl DrawnSlit {
    /// Its corners, round.
    pub fn corners(&self) -> [Point; 4] {
        [self.sides[0], self.ends[0], self.ends[1], self.sides[1]]
    }

    /// The same with its sides in the order that the outline goes: of one inside a piece whose outline may go the
    /// other way than it was drawn. `anticlockwise` tells which way it goes.
    pub fn ordered(self, anticlockwise: bool) -> DrawnSlit {
        let (start, end) = self.middle();
        if self.mouth.is_none() && ((end - start).cross(self.along) < 0.0) != anticlockwise {
            self.turned()
        } else {
            self
        }
    }

    /// How wide a strip is lost, in millimetres.
    pub fn window(&self) -> f64 {
        let own = self.ends[0].distance(self.ends[1]);
        if self.fold.is_some() { 2.0 * own } else { own }
    }

    /// The corners that lie in the cloth: its end, and where one inside the piece begins.
    pub fn held(&self) -> Vec<Point> {
        if self.mouth.is_none() { self.corners().to_vec() } else { self.ends.to_vec() }
    }

    /// The line that is cut, in the middle: from the edge to its end.
    pub fn middle(&self) -> (Point, Point) {
        if let Some((side, end)) = self.fold.and_then(|at| self.sides.get(at).zip(self.ends.get(at))) {
            return (*side, *end);
        }
        (self.sides[0].midpoint(self.sides[1]), self.ends[0].midpoint(self.ends[1]))
    }

    /// The same with everything moved so.
    pub fn moved(&self, by: impl Fn(Point) -> Point) -> DrawnSlit {
        let along = by(self.sides[0] + self.along) - by(self.sides[0]);
        DrawnSlit { sides: self.sides.map(&by), ends: self.ends.map(&by), along, ..*self }
    }

    /// The same on an edge that runs the other way.
    pub fn turned(&self) -> DrawnSlit {
        let turned = |[one, other]: [Point; 2]| [other, one];
        let (sides, ends) = (turned(self.sides), turned(self.ends));
        // Of one inside the piece that is the way from side to side, which is turned with them.
        let fold = self.fold.map(|at| 1 - at);
        DrawnSlit { sides, ends, along: -self.along, near: 1 - self.near, fold, ..*self }
    }
}

/// A piece before its slits were cut.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The piece, its outline straight across its slits.
    pub whole: Arc<DrawnPiece>,
    /// By the edges of the piece that is cut: the edge of the whole that each is a run of; none of the
    /// sides of slits.
    pub run_of: Vec<Option<DrawnEdgeId>>,
    /// Where the edges of each slit inside the piece begin: rings of their own, after the outline.
    pub holes: Vec<usize>,
}

/// The corners of what a take-up takes: four at most.
pub type Corners = SmallVec<[Point; 4]>;

/// The lines along which a take-up is sewn: four at most.
pub type Legs = SmallVec<[(Point, Point); 4]>;

/// The stretch of an edge that a take-up takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mouth {
    /// The edge.
    pub edge: EdgeId,
    /// From so far along the edge, in millimetres from its start, as drawn …
    pub from: f64,
    /// … to there.
    pub to: f64,
}

impl DrawnTakeUp {
    /// What it is called: dart, pleat, tuck.
    pub fn word(&self) -> &'static str {
        match self.pleat {
            None => "dart",
            Some(DrawnPleat { tuck: None, .. }) => "pleat",
            Some(_) => "tuck",
        }
    }

    /// The corners of the cloth that is sewn away, round; of a pleat that is not sewn down its two sides alone.
    pub fn corners(&self) -> Corners {
        let [first, point, second] = self.wedge.corners();
        match self.pleat {
            Some(DrawnPleat { sewn, ends: [one, other], .. }) if sewn > 0.0 => {
                Corners::from([first, one, other, second])
            }
            Some(_) => Corners::from_slice(&[first, second]),
            None => {
                let mut corners = Corners::from_slice(&[first, point, second]);
                corners.extend(self.upper);
                corners
            }
        }
    }

    /// Whether it lies just where another does.
    pub(crate) fn lies_as(&self, other: &DrawnTakeUp) -> bool {
        self.name == other.name
            && self.mouth == other.mouth
            && self.wedge == other.wedge
            && self.upper == other.upper
            && self.apex == other.apex
            && self.pressed == other.pressed
            && self.pleat == other.pleat
    }

    /// The lines along which it is sewn: each from a side to an end. Those of a tuck belong to its first end.
    pub fn legs(&self) -> Legs {
        match self.pleat {
            Some(DrawnPleat { tuck: Some(TuckEnd::Second), .. }) => Legs::new(),
            Some(DrawnPleat { sewn, ends, .. }) if sewn > 0.0 => {
                self.wedge.sides.into_iter().zip(ends).collect()
            }
            Some(_) => Legs::new(),
            None => {
                let [one, other] = self.wedge.sides;
                let mut legs = Legs::from_slice(&[(one, self.wedge.point), (other, self.wedge.point)]);
                if let Some(upper) = self.upper {
                    legs.extend([(one, upper), (other, upper)]);
                }
                legs
            }
        }
    }

    /// How long its two sewn lines are, to its point.
    pub fn leg_lengths(&self) -> [f64; 2] {
        match self.pleat {
            None => self.wedge.legs(),
            Some(DrawnPleat { sewn, .. }) if sewn <= 0.0 => [0.0, 0.0],
            Some(DrawnPleat { ends: [one, other], .. }) => {
                [self.wedge.sides[0].distance(one), self.wedge.sides[1].distance(other)]
            }
        }
    }

    /// The place in the cloth from which a side's line leads to the edge.
    pub fn line_from(&self, side: usize) -> Point {
        match self.pleat {
            None => self.wedge.point,
            Some(pleat) => {
                if side == 0 {
                    pleat.ends[0]
                } else {
                    pleat.ends[1]
                }
            }
        }
    }

    /// How it closes.
    pub fn shut(&self) -> Shut {
        match self.pleat {
            None => Shut::Wedge(self.wedge),
            Some(pleat) => Shut::Pleat(Pleat { sides: self.wedge.sides, into: pleat.into }),
        }
    }

    /// How much cloth lies under it, once: of a pleat its depth, of a dart half its mouth.
    pub fn depth(&self) -> f64 {
        match self.shut() {
            Shut::Wedge(wedge) => wedge.sides[0].distance(wedge.sides[1]) / 2.0,
            Shut::Pleat(pleat) => pleat.taken().hypot() / 2.0,
        }
    }

    /// The line that it is folded along: of a dart from its mouth, or its upper end, to its point; of a pleat the
    /// line that comes to lie on the other.
    pub fn fold(&self) -> Option<(Point, Point)> {
        if let Some(pleat) = self.pleat {
            let [one, other] = self.wedge.sides;
            let fold = if self.pressed == Some(0) { (other, pleat.ends[1]) } else { (one, pleat.ends[0]) };
            return (pleat.tuck != Some(TuckEnd::Second)).then_some(fold);
        }
        let from = match self.upper {
            Some(upper) => upper,
            None => {
                let [one, other] = self.wedge.sides;
                let line = StraightLine::at(self.wedge.point, self.wedge.fold()?)?;
                // Where it meets the straight line between the sides.
                let (a, b) = (line.side(one), line.side(other));
                one.lerp(other, if a == b { 0.5 } else { a / (a - b) })
            }
        };
        Some((from, self.wedge.point))
    }

    /// Of a pleat, the line that its fold is laid on.
    pub fn placement(&self) -> Option<(Point, Point)> {
        let pleat = self.pleat.filter(|pleat| pleat.tuck != Some(TuckEnd::Second))?;
        let [one, other] = self.wedge.sides;
        Some(if self.pressed == Some(0) { (one, pleat.ends[0]) } else { (other, pleat.ends[1]) })
    }

    /// The same with everything moved so.
    pub fn transformed(&self, by: Affine) -> DrawnTakeUp {
        let wedge = Wedge { sides: self.wedge.sides.map(|side| by * side), point: by * self.wedge.point };
        let pleat = self.pleat.map(|pleat| DrawnPleat {
            into: by * (Point::ZERO + pleat.into) - by * Point::ZERO,
            ends: pleat.ends.map(|end| by * end),
            ..pleat
        });
        DrawnTakeUp { wedge, upper: self.upper.map(|upper| by * upper), apex: by * self.apex, pleat, ..*self }
    }

    /// The same with its sides the other way round: on an edge that runs the other way.
    pub fn turned(&self) -> DrawnTakeUp {
        let swapped = |[one, other]: [Point; 2]| [other, one];
        let wedge = Wedge { sides: swapped(self.wedge.sides), point: self.wedge.point };
        let pleat = self.pleat.map(|pleat| DrawnPleat { ends: swapped(pleat.ends), ..pleat });
        DrawnTakeUp { wedge, pressed: self.pressed.map(|side| 1 - side), near: 1 - self.near, pleat, ..*self }
    }
}
