//! How points that answer to one another grow from size to size: each its own way, and all in one measure.

use kurbo::{Point, Vec2};

/// Of three sizes any two show even growth.
const SIZES: usize = 3;
/// How much it counts, against growing otherwise than any other point, that a point lies off in the middle one of three sizes, …
const OFF_BETWEEN: f64 = 0.4;
/// … and in another one: the same slip is twice as large seen from there.
const OFF_AT_END: f64 = 0.2;
/// What is more uneven than this, in millimetres, is no more than uneven.
const FAR: f64 = 3.0;
/// What growing by leaps counts against growing evenly, in millimetres.
const LEAPS: f64 = 10.0;
/// So many points are tried as the one that stays where it is, and as the one that grows as all do.
const TRIED: usize = 6;
/// Of two sizes of which the one is hardly likelier than the other, by so many millimetres, either may be drawn otherwise.
const AS_LIKELY: f64 = 1.0;

/// How the points of all sizes grow, across and up.
pub struct Growth {
    /// To the right.
    pub across: Axis,
    /// Upward.
    pub up: Axis,
}

/// What one point does alone.
pub struct Odd {
    /// In which size.
    pub size: usize,
    /// Another one in which it may be as well.
    pub or: Option<usize>,
    /// How far it lies off.
    pub off: Vec2,
    /// How far it moves on from one size to the next by the other sizes.
    pub step: f64,
    /// How far these lie from growing evenly.
    pub uneven: f64,
}

impl Growth {
    /// Of the points of every size.
    pub fn of(points: &[Vec<Point>]) -> Self {
        let axis = |of: fn(&Point) -> f64| {
            Axis::of(points.iter().map(|points| points.iter().map(of).collect()).collect())
        };
        Growth { across: axis(|at| at.x), up: axis(|at| at.y) }
    }

    /// The same taken to grow by equal steps from size to size.
    pub fn even(points: &[Vec<Point>]) -> Self {
        let sizes = points.len();
        let axis = |of: fn(&Point) -> f64| Axis {
            places: points.iter().map(|points| points.iter().map(of).collect()).collect(),
            shares: (0..sizes).map(|size| size as f64 / (sizes - 1).max(1) as f64).collect(),
        };
        Growth { across: axis(|at| at.x), up: axis(|at| at.y) }
    }

    /// How far a point lies off in one size, how far it grows from the first size to the last by the others, and how unevenly.
    pub fn off(&self, size: usize, at: usize) -> Option<(Vec2, Vec2, f64)> {
        let ((x, wide, a), (y, high, b)) = (self.across.off(size, at)?, self.up.off(size, at)?);
        Some((Vec2::new(x, y), Vec2::new(wide, high), a.max(b)))
    }

    /// How far a point grows from the first size to the last.
    pub fn whole(&self, at: usize) -> Vec2 {
        Vec2::new(self.across.whole(at), self.up.whole(at))
    }

    /// How far all points grow from the first size to the last, in the middle.
    pub fn centre(&self) -> Vec2 {
        let count = self.across.places.first().map_or(0, Vec::len);
        (0..count).fold(Vec2::ZERO, |sum, at| sum + self.whole(at)) / count.max(1) as f64
    }

    /// The size in which a point lies off, if the others then grow evenly. Of three any two do: it is that which leaves them growing
    /// most as points do of which it is known, and lies off least.
    pub fn odd(&self, at: usize, known: &[(Vec2, f64)], centre: Vec2) -> Option<Odd> {
        let sizes = self.across.places.len();
        // Across as one point grows, and up as another.
        let unlike = |grown: Vec2| {
            let nearest = |of: fn(&Vec2) -> f64| {
                let each = known.iter().map(|(other, rather)| (of(&grown) - of(other)).abs() + rather);
                each.fold(f64::INFINITY, f64::min)
            };
            libm::hypot(nearest(|one| one.x), nearest(|one| one.y))
        };
        let each = (0..sizes).filter_map(|size| {
            let (off, grown, uneven) = self.off(size, at)?;
            // How far it is from what is likely.
            let unlikely = match sizes == SIZES {
                true if size > 0 && size + 1 < sizes => unlike(grown) + OFF_BETWEEN * off.hypot(),
                true => unlike(grown) + OFF_AT_END * off.hypot(),
                false => uneven * sizes as f64,
            };
            Some((
                unlikely,
                Odd {
                    size,
                    or: None,
                    off,
                    step: (grown - centre).hypot().min(grown.hypot()) / (sizes - 1) as f64,
                    uneven,
                },
            ))
        });
        let mut each: Vec<(f64, Odd)> = each.collect();
        each.sort_by(|one, other| one.0.total_cmp(&other.0));
        let next = each.get(1).map(|(unlikely, next)| (*unlikely, next.size));
        let (least, odd) = each.into_iter().next()?;
        let or = next.filter(|(next, _)| sizes == SIZES && next - least < AS_LIKELY).map(|(_, size)| size);
        Some(Odd { or, ..odd })
    }

    /// How far a point lies off to the side of the curve, more than those beside it.
    pub fn beside_curve(&self, points: &[Vec<Point>], size: usize, at: usize, beside: [usize; 2]) -> Vec2 {
        let off = |at: usize| self.off(size, at).map_or(Vec2::ZERO, |(off, ..)| off);
        let place =
            |at: usize| points.get(size).and_then(|points| points.get(at)).copied().unwrap_or_default();
        let [before, after] = beside;
        let way = place(after) - place(before);
        let side = way.turn_90() / way.hypot().max(f64::MIN_POSITIVE);
        side * (off(at) - (off(before) + off(after)) / 2.0).dot(side)
    }
}

/// The same of one axis.
pub struct Axis {
    /// By size, by point, where it lies, seen from one that stays where it is.
    places: Vec<Vec<f64>>,
    /// By size, how far it is from the first to the last, as a share that may come to more than 1.
    pub shares: Vec<f64>,
}

impl Axis {
    /// From which point all are seen, and by which it is known how far a size is, is what leaves the least uneven.
    fn of(drawn: Vec<Vec<f64>>) -> Self {
        let (sizes, count) = (drawn.len(), drawn.first().map_or(0, Vec::len));
        let even: Vec<f64> = (0..sizes).map(|size| size as f64 / (sizes - 1).max(1) as f64).collect();
        let every = count.div_ceil(TRIED).max(1);
        let mut best: Option<(f64, Axis)> = None;
        for anchor in (0..count).step_by(every) {
            let seen = |own: &Vec<f64>| -> Vec<f64> {
                let from = own.get(anchor).copied().unwrap_or(0.0);
                own.iter().map(|at| at - from).collect()
            };
            let places: Vec<Vec<f64>> = drawn.iter().map(seen).collect();
            let mut tried: Vec<Vec<f64>> = vec![even.clone()];
            tried.extend((0..count).step_by(every).filter_map(|at| shares_by(&places, at)));
            for shares in tried {
                let axis = Axis { places: places.clone(), shares };
                // One point that lies far off counts as one.
                let counted = |uneven: f64| uneven.min(FAR) + uneven * 1e-3;
                let uneven: f64 = (0..count).map(|at| counted(axis.uneven(at))).sum();
                // What grows by leaps has to show it in more than one point.
                let leaps: f64 = axis.shares.iter().zip(&even).map(|(one, other)| (one - other).abs()).sum();
                let uneven = uneven + LEAPS * leaps;
                if best.as_ref().is_none_or(|(least, _)| uneven < *least) {
                    best = Some((uneven, axis));
                }
            }
        }
        best.map_or(Axis { places: drawn, shares: even }, |(_, axis)| axis)
    }

    /// Where a point lies in a size.
    pub fn at(&self, size: usize, at: usize) -> f64 {
        self.places.get(size).and_then(|own| own.get(at)).copied().unwrap_or(0.0)
    }

    /// How far a point grows from the first size to the last.
    fn whole(&self, at: usize) -> f64 {
        self.at(self.places.len().saturating_sub(1), at) - self.at(0, at)
    }

    /// How far a point lies from growing evenly, over all sizes.
    fn uneven(&self, at: usize) -> f64 {
        let (from, grown) = self.line(at, None);
        let each = self
            .shares
            .iter()
            .enumerate()
            .map(|(size, share)| (self.at(size, at) - from - grown * share).abs());
        each.sum()
    }

    /// Where a point begins and how far it grows, by all sizes or all but one: a straight line by least squares.
    pub fn line(&self, at: usize, without: Option<usize>) -> (f64, f64) {
        let own: Vec<(f64, f64)> = self
            .shares
            .iter()
            .enumerate()
            .filter(|(size, _)| Some(*size) != without)
            .map(|(size, share)| (*share, self.at(size, at)))
            .collect();
        let count = own.len().max(1) as f64;
        let (share, place) =
            own.iter().fold((0.0, 0.0), |sum, own| (sum.0 + own.0 / count, sum.1 + own.1 / count));
        let top: f64 = own.iter().map(|own| (own.0 - share) * (own.1 - place)).sum();
        let below: f64 = own.iter().map(|own| (own.0 - share) * (own.0 - share)).sum();
        let grown = if below > 1e-9 { top / below } else { 0.0 };
        (place - grown * share, grown)
    }

    /// How far a point lies off in one size, how far it grows by the others, and how far these lie from that.
    fn off(&self, size: usize, at: usize) -> Option<(f64, f64, f64)> {
        let (from, grown) = self.line(at, Some(size));
        let expected = |size: usize| self.shares.get(size).map(|share| from + grown * share);
        let others = (0..self.places.len()).filter(|other| *other != size);
        let uneven = others.filter_map(|other| Some((self.at(other, at) - expected(other)?).abs()));
        Some((self.at(size, at) - expected(size)?, grown, uneven.fold(0.0, f64::max)))
    }
}

/// How far each size is by the growth of one point, if it grows, and never back.
fn shares_by(places: &[Vec<f64>], at: usize) -> Option<Vec<f64>> {
    let own: Vec<f64> = places.iter().filter_map(|own| own.get(at).copied()).collect();
    let (first, last) = (*own.first()?, *own.last()?);
    let grown = last - first;
    let goes_on = own.windows(2).all(|pair| match pair {
        [one, other] => (other - one) * grown >= 0.0,
        _ => true,
    });
    (goes_on && grown.abs() > 1.0).then(|| own.iter().map(|own| (own - first) / grown).collect())
}
