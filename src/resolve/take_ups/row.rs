//! A row of pleats laid out along an edge: what is folded and what is left, one after the other.

use crate::garment::PleatKind;
use crate::shape::Vec2;
use crate::shape::path::Path;

/// A step of a row along its edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Step {
    /// So much of the edge is left, in millimetres.
    Keep(f64),
    /// A fold. Of a pair, whether it is laid outward: away from where the row begins.
    Fold {
        /// Laid towards what comes later.
        outward: bool,
    },
}

/// What place of a row is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    /// Its first line.
    Start,
    /// The middle of its first pleat.
    First,
    /// The middle of all.
    Middle,
    /// The middle of all, of which the second half is there.
    Half,
}

/// Where a row lies on its edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    /// So far from the edge's start, in millimetres …
    pub(super) at: f64,
    /// … lies this place of the row …
    pub(super) anchor: Anchor,
    /// … which goes against the edge's direction.
    pub(super) backwards: bool,
}

/// Which way folds go.
#[derive(Clone, Copy, Debug)]
pub(super) enum Direction {
    /// Square to the straight line between the two places where they leave the edge.
    Square,
    /// That way, a unit vector.
    Along(Vec2),
}

/// A fold on an edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    /// From so far from the edge's start, in millimetres …
    pub(super) from: f64,
    /// … to there.
    pub(super) to: f64,
    /// Laid towards what comes later in the row.
    pub(super) outward: bool,
}

/// The steps of a row of `count` pleats: its folds `depth` deep, of pairs what lies between them `wide`, and `apart`
/// from fold to fold, of pairs from middle to middle, as sewn.
pub(super) fn row(kind: &PleatKind, wide: f64, depth: f64, count: usize, apart: f64) -> Vec<Step> {
    // Between the folds of a pair, and from one pair to the next.
    let (inner, first_outward) = match kind {
        PleatKind::Knife => {
            let one = [Step::Keep(apart), Step::Fold { outward: true }];
            return one.into_iter().cycle().skip(1).take(2 * count - 1).collect();
        }
        // The folds of a box are laid away from its middle, those of an inverted pleat towards it.
        PleatKind::Box(_) => (wide, false),
        PleatKind::Inverted(_) => (wide - 2.0 * depth, true),
    };
    let pair = [
        Step::Fold { outward: first_outward },
        Step::Keep(inner),
        Step::Fold { outward: !first_outward },
        Step::Keep(apart - inner),
    ];
    pair.into_iter().cycle().take(4 * count - 1).collect()
}

/// The folds of a row on an edge, in the row's order.
pub(super) fn walked(
    path: &Path,
    steps: &[Step],
    depth: f64,
    way: &Way,
    direction: Direction,
) -> Vec<Stretch> {
    let sign = if way.backwards { -1.0 } else { 1.0 };
    let walk = Walk { path, taken: 2.0 * depth, sign, direction };
    if way.anchor == Anchor::Half {
        return walk.go(&second_half(steps), way.at);
    }
    // How far the row's place lies from its beginning, as laid out on this edge.
    let straight: f64 = steps.iter().map(|step| walk.straight(step)).sum();
    let first: f64 = steps.iter().take(3).map(|step| walk.straight(step)).sum();
    let off = match way.anchor {
        Anchor::Start | Anchor::Half => 0.0,
        Anchor::First => first / 2.0,
        Anchor::Middle => straight / 2.0,
    };
    let mut start = way.at - sign * off;
    let mut folds = walk.go(steps, start);
    if way.anchor == Anchor::Start || path.is_straight() {
        return folds;
    }
    // On a curve a fold takes a little more of the edge than straight across.
    for _ in 0..TRIES {
        let (Some(one), Some(other)) =
            (folds.first(), folds.get(if way.anchor == Anchor::First { 1 } else { folds.len() - 1 }))
        else {
            break;
        };
        let middle = (one.from.min(other.from) + one.to.max(other.to)) / 2.0;
        if (middle - way.at).abs() <= CLOSE {
            break;
        }
        start += way.at - middle;
        folds = walk.go(steps, start);
    }
    folds
}

/// What of a row lies beyond its middle.
pub(super) fn second_half(steps: &[Step]) -> Vec<Step> {
    let middle = steps.len() / 2;
    let mut half: Vec<Step> = steps.iter().skip(middle).copied().collect();
    if let Some(Step::Keep(kept)) = half.first_mut() {
        *kept /= 2.0;
    }
    half
}

struct Walk<'p> {
    path: &'p Path,
    taken: f64,
    sign: f64,
    direction: Direction,
}

impl Walk<'_> {
    fn go(&self, steps: &[Step], start: f64) -> Vec<Stretch> {
        let mut at = start;
        let mut folds = Vec::new();
        for step in steps {
            match *step {
                Step::Keep(kept) => at += self.sign * kept,
                Step::Fold { outward } => {
                    let next = self.beyond(at);
                    folds.push(Stretch { from: at.min(next), to: at.max(next), outward });
                    at = next;
                }
            }
        }
        folds
    }

    /// How much of a straight edge a step takes.
    fn straight(&self, step: &Step) -> f64 {
        match *step {
            Step::Keep(kept) => kept,
            Step::Fold { .. } => self.taken / self.square(self.path.end() - self.path.start()),
        }
    }

    /// The share of a way along the edge that lies square to the folds.
    fn square(&self, way: Vec2) -> f64 {
        match self.direction {
            Direction::Square => 1.0,
            Direction::Along(line) => (line.cross(way) / way.hypot().max(f64::MIN_POSITIVE)).abs().max(LEAST),
        }
    }

    /// Where on the edge the other line of a fold is whose one line is at `at`: beyond the edge's ends as if that
    /// went straight on.
    fn beyond(&self, at: f64) -> f64 {
        let length = self.path.length();
        let here = self.path.point_at_length(at.clamp(0.0, length));
        let tangent = self.path.tangent_at_length(at.clamp(0.0, length)).unwrap_or(Vec2::ZERO);
        let rate = self.square(tangent);
        let mut to = at + self.sign * self.taken / rate;
        if self.path.is_straight() || at < 0.0 || at > length {
            return to;
        }
        for _ in 0..TRIES {
            if to < 0.0 || to > length {
                break;
            }
            let across = self.path.point_at_length(to) - here;
            let come = match self.direction {
                Direction::Square => across.hypot(),
                Direction::Along(line) => line.cross(across).abs(),
            };
            let left = self.taken - come;
            if left.abs() <= CLOSE {
                break;
            }
            to += self.sign * left / rate;
        }
        to
    }
}

/// How near a place on a curve is looked for, in millimetres, and how often.
const CLOSE: f64 = 1e-7;
const TRIES: usize = 12;
/// The least share of a way that lies square to folds: what runs along the edge was reported.
const LEAST: f64 = 0.1;
