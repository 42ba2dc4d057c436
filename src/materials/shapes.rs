//! Cut parts as shapes for a lay: which way each may lie, and what one place of it yields.

use super::phase::Phase;
use crate::cutting::{Cloth, CutPart, Spread, opened};
use crate::garment::{CutHow, Garment, Grain};
use crate::lay::{ClothEdge, Item, Repeat, Turn};
use crate::shape::tolerance::FLATTEN;
use kurbo::{Point, Vec2};

/// What is cut at one place of the lay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Plies {
    /// One copy, from a single ply of open cloth.
    Single,
    /// One copy, from only one of two plies.
    OneOfTwo,
    /// Two copies, one from each ply.
    Both,
    /// One whole copy, unfolded from a half that lies against a fold of the cloth.
    OnFold,
}

/// A shape to lay and what it is.
#[derive(Clone, Debug)]
pub(super) struct LayShape {
    pub item: Item,
    pub plies: Plies,
}

/// How far an edge may be off the grain and still lie on a fold of the cloth, as a sine.
const ALONG: f64 = 1e-3;
/// How far the half may reach over its fold, in millimetres.
const OVER_FOLD: f64 = 0.05;

/// The shapes of one part: one, or two where copies of both hands lie apart, or where one copy is
/// left over from pairs. `symmetrical` says whether the piece is its own mirror image.
pub(super) fn shapes(
    garment: &Garment,
    part: &CutPart,
    symmetrical: bool,
    cloth: &Cloth,
    spread: Spread,
    phase: Option<Phase>,
) -> Vec<LayShape> {
    let maker = Maker { garment, part, cloth, phase };
    let copies = part.copies as usize;
    match (spread, part.how) {
        (Spread::Open, CutHow::OnFold(_)) => vec![maker.shape(Plies::Single, false, copies)],
        (Spread::Open, CutHow::Alike) => vec![maker.shape(Plies::Single, part.flipped, copies)],
        (Spread::Open, CutHow::Mirrored) => vec![
            maker.shape(Plies::Single, false, copies.div_ceil(2)),
            maker.shape(Plies::Single, true, copies / 2),
        ],
        (_, CutHow::OnFold(_)) => match maker.half(spread, copies) {
            Some(half) => vec![half],
            None => vec![maker.shape(Plies::OneOfTwo, false, copies)],
        },
        (_, CutHow::Mirrored) => {
            vec![maker.pair(copies / 2), maker.shape(Plies::OneOfTwo, false, copies % 2)]
        }
        (_, CutHow::Alike) if symmetrical => {
            vec![maker.pair(copies / 2), maker.shape(Plies::OneOfTwo, part.flipped, copies % 2)]
        }
        (_, CutHow::Alike) => vec![maker.shape(Plies::OneOfTwo, part.flipped, copies)],
    }
    .into_iter()
    .filter(|shape| shape.item.quantity > 0)
    .collect()
}

struct Maker<'a> {
    garment: &'a Garment,
    part: &'a CutPart,
    cloth: &'a Cloth,
    phase: Option<Phase>,
}

impl Maker<'_> {
    fn shape(&self, plies: Plies, mirrored: bool, quantity: usize) -> LayShape {
        let turns = self.degrees(mirrored).into_iter();
        let turns = turns.map(|degrees| Turn { degrees, mirrored, against: None }).collect();
        self.made(plies, opened(self.part), quantity, turns, mirrored)
    }

    /// Both plies are cut, so that it does not matter which side of the pattern is up.
    fn pair(&self, quantity: usize) -> LayShape {
        let mut shape = self.shape(Plies::Both, false, quantity);
        // With a repeat across, the mirror image would need another place in it.
        if self.cloth.repeat.1.is_none() {
            let mirrored = self.degrees(true).into_iter();
            let turns = mirrored.map(|degrees| Turn { degrees, mirrored: true, against: None });
            shape.item.turns.extend(turns);
        }
        shape
    }

    /// The half against a fold of the cloth, where it can lie there.
    fn half(&self, spread: Spread, quantity: usize) -> Option<LayShape> {
        let fold = self.part.fold_path()?;
        let way = fold.end() - fold.start();
        if way.cross(self.part.grain).abs() > ALONG * way.hypot() {
            return None;
        }
        let outline = half_outline(self.part);
        let mut turns = Vec::new();
        for mirrored in [false, true] {
            for degrees in self.degrees(mirrored) {
                let across = |point: Point| across(point, degrees, mirrored);
                let at = across(fold.start());
                let reach = outline.iter().map(|&point| across(point) - at);
                let low = reach.clone().fold(f64::INFINITY, f64::min);
                let high = reach.fold(f64::NEG_INFINITY, f64::max);
                if low >= -OVER_FOLD {
                    turns.push(Turn::against(ClothEdge::Near, degrees, mirrored));
                } else if high <= OVER_FOLD && spread == Spread::Tube {
                    turns.push(Turn::against(ClothEdge::Far, degrees, mirrored));
                }
            }
        }
        (!turns.is_empty()).then(|| self.made(Plies::OnFold, outline, quantity, turns, false))
    }

    fn made(
        &self,
        plies: Plies,
        outline: Vec<Point>,
        quantity: usize,
        turns: Vec<Turn>,
        mirrored: bool,
    ) -> LayShape {
        let (along, across) = self.cloth.washed_repeat();
        let repeat = self.phase.map(|phase| {
            let place = |repeat: Option<f64>, at: f64| repeat.map(|repeat| (repeat, at.rem_euclid(repeat)));
            let hand = if mirrored { -1.0 } else { 1.0 };
            Repeat {
                point: (phase.point.x, phase.point.y),
                along: place(along, phase.along),
                across: place(across, hand * phase.across),
            }
        });
        let id = self.part.name(self.garment);
        let outline = outline.iter().map(|point| (point.x, point.y)).collect();
        LayShape { item: Item { id, outline, quantity, turns, repeat }, plies }
    }

    /// By how much the piece is turned so that its grain runs along the cloth. Cloth without nap
    /// or design may be used either way up; on the bias, at either of both diagonals.
    fn degrees(&self, mirrored: bool) -> Vec<f64> {
        let grain = self.part.grain;
        let grain = if mirrored { Vec2::new(-grain.x, grain.y) } else { grain };
        let first = -libm::atan2(grain.y, grain.x).to_degrees();
        let designed = self.cloth.repeat.0.is_some() || self.cloth.repeat.1.is_some();
        let mut degrees = vec![first];
        if !self.cloth.one_way && !designed {
            degrees.push(first + 180.0);
            if self.garment.piece(self.part.part.piece).grain == Grain::Bias {
                degrees.extend([first + 90.0, first + 270.0]);
            }
        }
        degrees
    }
}

/// Where a point of the piece lies across the cloth once it is mirrored and turned.
fn across(point: Point, degrees: f64, mirrored: bool) -> f64 {
    let (sine, cosine) = libm::sincos(degrees.to_radians());
    let x = if mirrored { -point.x } else { point.x };
    x * sine + point.y * cosine
}

/// The cutting line of the half as it is drawn, flattened, its first point not repeated.
fn half_outline(part: &CutPart) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for point in part.cutting_ring().iter().flat_map(|path| path.flatten(FLATTEN)) {
        if points.last().is_none_or(|last| last.distance(point) > FLATTEN * 0.1) {
            points.push(point);
        }
    }
    if points.len() > 1
        && points.first().zip(points.last()).is_some_and(|(a, b)| a.distance(*b) <= FLATTEN * 0.1)
    {
        points.pop();
    }
    points
}
