//! Darts, pleats and tucks that are sewn, drawn shut: the cloth about a dart is turned about its point until its legs lie on one
//! another; what lies beside a pleat or a tuck is moved together (`folded.rs`).
//!
//! Cloth with a dart in it lies on no plane. What is near the mouth turns with its leg, so that edges keep their length there,
//! and less the farther it lies round the point; what lies behind the point stays. The fold of a half, or an upright edge, stays
//! where it is: the side that it lies on is not turned.

use super::fit::rigid;
use super::folded::Folded;
use crate::garment::EdgeId;
use crate::resolve::{DrawnPiece, DrawnTakeUp, Mouth};
use crate::shape::path::Path;
use crate::shape::{Affine, Point, Vec2};
use kurbo::{ParamCurve, PathSeg};

/// What lies farther round the point than this, from the middle of the dart, stays: in degrees.
const STAYS: f64 = 115.0;
/// An edge is upright that leans less than this, as a share of its height.
const LEANS: f64 = 0.05;
/// So high, as a share of its piece, is an edge that stays.
const HIGH: f64 = 0.4;
/// Two upright edges that are farther apart than this, as a share of how wide the piece is, are two sides.
const ACROSS: f64 = 0.3;
/// Points nearer than this to what stays are held back, as a share of how far the dart's point is from it.
const HELD: f64 = 0.5;
/// Edges are drawn anew in parts no longer than this, in millimetres.
const PART: f64 = 40.0;
/// Into so many parts a piece of an edge is parted at most.
const MOST_PARTS: f64 = 24.0;
/// What moves no farther than this is left as it is, in millimetres.
const UNMOVED: f64 = 0.01;

/// What of a piece is sewn shut, one after the other.
#[derive(Clone, Debug, Default)]
pub struct Shut {
    taken: Vec<Closed>,
    /// What they are called.
    names: Vec<EdgeId>,
    stays: Option<Staying>,
}

/// One take-up that is shut.
#[derive(Clone, Copy, Debug)]
enum Closed {
    Dart(Dart),
    Folded(Folded),
}

/// A line that stays where it is.
#[derive(Clone, Copy, Debug)]
pub struct Staying {
    /// A place on it.
    pub on: Point,
    /// The way that it goes, a unit vector.
    pub way: Vec2,
}

impl Staying {
    /// How far from it a place lies.
    pub fn far(&self, at: Point) -> f64 {
        self.way.cross(at - self.on).abs()
    }
}

/// One dart, where it lies once those before it are shut.
#[derive(Clone, Copy, Debug)]
struct Dart {
    point: Point,
    /// From the point to the middle of the mouth, a unit vector.
    open: Vec2,
    /// Half the angle between its legs.
    half: f64,
    /// How far the left leg and the right one are turned toward one another, both together twice the half.
    turned: [f64; 2],
    /// By how much what lies on each side is drawn out, so that the legs are as long as each other.
    drawn_out: [f64; 2],
}

/// A stretch of an edge as drawn, anew.
pub struct Anew {
    /// The path.
    pub path: Path,
    /// Places along the edge as it is drawn, and along the path.
    pub knots: Vec<(f64, f64)>,
}

impl Shut {
    /// Of a piece with its take-ups that are sewn; none where none of them is one that can be drawn shut.
    pub fn of(drawn: &DrawnPiece, fold: Option<&Path>, sewn: &[&DrawnTakeUp]) -> Option<Shut> {
        let stays = fold.and_then(line_of).or_else(|| upright(drawn));
        let on_fold = |at: Point| fold.and_then(line_of).is_some_and(|fold| fold.far(at) < 1.0);
        let corners: Vec<Point> = drawn.outline().iter().map(|edge| edge.path.start()).collect();
        let mut shut = Shut { taken: Vec::new(), names: Vec::new(), stays };
        for take_up in sewn.iter().filter(|take_up| take_up.mouth.is_some()) {
            let closed = match take_up.pleat {
                Some(_) => {
                    let row = sewn.iter().filter(|other| other.name == take_up.name);
                    let beside = row.map(|other| 2.0 * other.depth()).sum();
                    let corners: Vec<Point> = corners.iter().map(|at| shut.moved(*at)).collect();
                    Folded::of(&shut.take_up(take_up), stays, &corners, beside).map(Closed::Folded)
                }
                None if take_up.wedge.sides.into_iter().any(on_fold) => None,
                None => {
                    let moved = shut.take_up(take_up).wedge;
                    Dart::of(moved.point, moved.sides, stays).map(Closed::Dart)
                }
            };
            if let Some(closed) = closed {
                shut.taken.push(closed);
                shut.names.push(take_up.name);
            }
        }
        (!shut.taken.is_empty()).then_some(shut)
    }

    /// Whether a take-up of that name is shut.
    pub fn has(&self, name: EdgeId) -> bool {
        self.names.contains(&name)
    }

    /// Where a place of the paper comes.
    pub fn moved(&self, at: Point) -> Point {
        self.taken.iter().fold(at, |at, closed| match closed {
            Closed::Folded(folded) => folded.moved(at),
            Closed::Dart(dart) => {
                let to = dart.moved(at);
                let Some(stays) = self.stays else { return to };
                at.lerp(to, smooth(stays.far(at) / stays.far(dart.point).max(1.0) / HELD))
            }
        })
    }

    /// A take-up of the paper, which may be one that is shut.
    pub fn take_up(&self, own: &DrawnTakeUp) -> DrawnTakeUp {
        let mut moved = *own;
        moved.wedge.sides = own.wedge.sides.map(|at| self.moved(at));
        moved.wedge.point = self.moved(own.wedge.point);
        moved.upper = own.upper.map(|at| self.moved(at));
        moved.pleat = own.pleat.map(|mut pleat| {
            let [from, _] = own.wedge.sides;
            let into = self.moved(from + pleat.into) - self.moved(from);
            if into.hypot() > 0.0 && into.is_finite() {
                pleat.into = into / into.hypot();
            }
            pleat.ends = pleat.ends.map(|at| self.moved(at));
            pleat
        });
        moved
    }

    /// A path of the paper.
    pub fn path(&self, path: &Path) -> Path {
        self.anew(path, &[]).map_or_else(|| path.clone(), |anew| anew.path)
    }

    /// An edge of the paper without these mouths of what is shut; none where it stays as it is.
    pub fn anew(&self, edge: &Path, mouths: &[Mouth]) -> Option<Anew> {
        let length = edge.length();
        let mut kept: Vec<(f64, f64)> = Vec::with_capacity(mouths.len() + 1);
        let mut from = 0.0;
        for mouth in mouths {
            kept.push((from, mouth.from.clamp(from, length)));
            from = mouth.to.clamp(from, length);
        }
        kept.push((from, length));
        let is_unmoved = |at: Point| self.moved(at).distance(at) < UNMOVED;
        if mouths.is_empty()
            && edge.flatten(1.0).into_iter().all(is_unmoved)
            && is_unmoved(edge.point_at_length(length / 2.0))
        {
            return None;
        }
        let mut anew: Option<Anew> = None;
        for (from, to) in kept.into_iter().filter(|(from, to)| to - from > UNMOVED) {
            let mut at = from;
            for segment in edge.part(from, to).segments() {
                let long = Path::from_segments([*segment]).map_or(0.0, |own| own.length());
                let parts = (long / PART).ceil().clamp(1.0, MOST_PARTS);
                for nth in 0..parts as u32 {
                    let share = |more: f64| (f64::from(nth) + more) / parts;
                    let own = self.through(segment, share(0.0), share(1.0));
                    let before = anew.as_ref().map_or(0.0, |anew| anew.path.length());
                    let path = anew
                        .take()
                        .map_or_else(|| (own.clone(), Vec::new()), |anew| (anew.path.then(&own), anew.knots));
                    let (path, mut knots) = path;
                    // Curves are walked at no even pace; over so short a part that is not seen.
                    knots.push((at + long * share(0.0), before));
                    knots.push((at + long * share(1.0), path.length()));
                    anew = Some(Anew { path, knots });
                }
                at += long;
            }
        }
        anew
    }

    /// The cubic through the places that four places of a segment come to.
    fn through(&self, segment: &PathSeg, from: f64, to: f64) -> Path {
        let at = |share: f64| self.moved(segment.eval(from + (to - from) * share)).to_vec2();
        let (a, b, c, d) = (at(0.0), at(1.0 / 3.0), at(2.0 / 3.0), at(1.0));
        let first = (b * 18.0 - c * 9.0 - a * 5.0 + d * 2.0) / 6.0;
        let second = (c * 18.0 - b * 9.0 + a * 2.0 - d * 5.0) / 6.0;
        Path::cubic(a.to_point(), first.to_point(), second.to_point(), d.to_point())
    }

    /// The movement that brings a small thing nearest to where its places come.
    pub fn carried(&self, places: &[Point]) -> Affine {
        let pairs: Vec<(Point, Point)> = places.iter().map(|at| (*at, self.moved(*at))).collect();
        rigid(&pairs, false).map_or(Affine::IDENTITY, |(by, _)| by)
    }
}

impl Dart {
    fn of(point: Point, sides: [Point; 2], stays: Option<Staying>) -> Option<Dart> {
        let [one, other] = sides.map(|side| side - point);
        let angle = libm::atan2(one.cross(other), one.dot(other));
        let (left, right) = if angle > 0.0 { (other, one) } else { (one, other) };
        let middle = left / left.hypot() + right / right.hypot();
        let open = middle / middle.hypot();
        let half = angle.abs() / 2.0;
        // The leg that is nearer to what stays is turned less, and not at all where the mouth lies across the way there.
        let share = stays.map_or(0.0, |stays| {
            let far = |leg: Vec2| stays.far(point + leg);
            (1.4 * (far(left) - far(right)) / (left - right).hypot()).clamp(-1.0, 1.0)
        });
        let turned = [half * (1.0 + share), half * (1.0 - share)];
        let long = f64::midpoint(left.hypot() * (1.0 - share), right.hypot() * (1.0 + share));
        let drawn_out = [long / left.hypot(), long / right.hypot()];
        let dart = Dart { point, open, half, turned, drawn_out };
        let is_sound = half.is_finite() && half > 1e-6 && half < 1.0 && open.is_finite() && long > 1.0;
        is_sound.then_some(dart)
    }

    fn moved(&self, at: Point) -> Point {
        let way = at - self.point;
        let round = libm::atan2(self.open.cross(way), self.open.dot(way));
        let side = usize::from(round < 0.0);
        let (Some(turned), Some(drawn_out)) = (self.turned.get(side), self.drawn_out.get(side)) else {
            return at;
        };
        let sign = if side == 0 { -1.0 } else { 1.0 };
        let stays = STAYS.to_radians();
        let (by, out) = if round.abs() <= self.half {
            // The cloth of the dart comes on its seam.
            (sign * (turned - self.half) - round, *drawn_out)
        } else {
            let less = smooth((stays - round.abs()) / (stays - self.half));
            (sign * turned * less, 1.0 + (drawn_out - 1.0) * less)
        };
        let (sine, cosine) = libm::sincos(by);
        self.point + Vec2::new(cosine * way.x - sine * way.y, sine * way.x + cosine * way.y) * out
    }
}

/// From 0 to 1 without a kink at either end.
pub fn smooth(share: f64) -> f64 {
    let share = share.clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

fn line_of(path: &Path) -> Option<Staying> {
    let way = path.end() - path.start();
    (way.hypot() > 1.0).then(|| Staying { on: path.start(), way: way / way.hypot() })
}

/// The longest straight upright edge of a piece, if one is long and no other stands across from it.
fn upright(drawn: &DrawnPiece) -> Option<Staying> {
    let corners: Vec<Point> = drawn.outline().iter().map(|edge| edge.path.start()).collect();
    let whole = super::fit::bounds(&corners)?;
    let is_upright = |path: &&Path| {
        let way = path.end() - path.start();
        path.is_straight() && way.x.abs() < LEANS * way.y.abs() && way.y.abs() > HIGH * whole.height()
    };
    let all = || drawn.outline().iter().map(|edge| &edge.path).filter(is_upright);
    let longest = all().max_by(|one, other| one.length().total_cmp(&other.length()))?;
    let is_across = |path: &Path| (path.start().x - longest.start().x).abs() > ACROSS * whole.width();
    if all().any(is_across) { None } else { line_of(longest) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A dart of 20 at the lower edge, its point 100 above: both sides of its mouth come to one place, which is as far from the point as
    /// they were, √(100² + 10²); what lies above the point stays.
    #[test]
    fn a_dart_is_shut_and_what_lies_behind_its_point_stays() {
        let sides = [Point::new(-10.0, 0.0), Point::new(10.0, 0.0)];
        let point = Point::new(0.0, 100.0);
        let dart = Dart::of(point, sides, None).unwrap();
        let [one, other] = sides.map(|side| dart.moved(side));
        assert!(one.distance(other) < 1e-9 && one.x.abs() < 1e-9);
        assert!((one.distance(point) - f64::sqrt(10_100.0)).abs() < 1e-9);
        let above = Point::new(40.0, 180.0);
        assert_eq!(dart.moved(above), above);
    }

    /// The same dart beside a fold that runs upright at 60: the leg on that side stays, the other comes to it.
    #[test]
    fn a_fold_stays() {
        let sides = [Point::new(-10.0, 0.0), Point::new(10.0, 0.0)];
        let fold = Staying { on: Point::new(60.0, 0.0), way: Vec2::new(0.0, 1.0) };
        let dart = Dart::of(Point::new(0.0, 100.0), sides, Some(fold)).unwrap();
        let shut = Shut { taken: vec![Closed::Dart(dart)], names: Vec::new(), stays: Some(fold) };
        for side in sides {
            assert!(shut.moved(side).distance(sides[1]) < 1e-9);
        }
        let on_fold = Point::new(60.0, 20.0);
        assert_eq!(shut.moved(on_fold), on_fold);
    }
}
