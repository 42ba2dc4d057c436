//! Every item, every way it may lie: the outline turned, moved so that its bounds are centred on
//! the origin, and what the cloth and its repeat allow.

use super::convex::convex_parts;
use super::outline::{area, bounds, clean, crossing, simplify_outward};
use super::request::{ClothEdge, Item, LayError, Point, Request, Turn};

/// Coordinates beyond this (1 km) are no garment's.
const FAR: f64 = 1e6;
/// A piece may be wider than the cloth by this much, in millimetres: rounding, not cloth.
const ROUNDING: f64 = 0.005;
/// The most copies in one lay.
pub const MOST_PIECES: usize = 2_000;
/// How many corners are enough for the search to see of an outline.
const ENOUGH_CORNERS: usize = 12;
/// How far the search may take an outline to reach beyond itself, in millimetres.
const OUTWARD: f64 = 0.6;

/// Places allowed on one axis: every `step` from `first`, or anywhere where `step` is 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lattice {
    /// One allowed place.
    pub first: f32,
    /// Distance to the next one.
    pub step: f32,
}

impl Lattice {
    const FREE: Lattice = Lattice { first: 0.0, step: 0.0 };

    fn of(repeat: Option<(f64, f64)>, reference: f64) -> Lattice {
        match repeat {
            Some((step, phase)) if step > 0.0 => {
                let first = phase - reference;
                Lattice { first: (first - step * (first / step).floor()) as f32, step: step as f32 }
            }
            _ => Lattice::FREE,
        }
    }

    /// The allowed place nearest to `wish` between two bounds, or `None` where there is none.
    pub fn nearest(self, wish: f32, low: f32, high: f32) -> Option<f32> {
        if low > high {
            return None;
        }
        let wish = wish.clamp(low, high);
        if self.step <= 0.0 {
            return Some(wish);
        }
        let at = |k: f32| self.first + k * self.step;
        let k = ((wish - self.first) / self.step).round();
        [at(k), at(k + 1.0), at(k - 1.0)].into_iter().find(|place| (low..=high).contains(place))
    }
}

/// One item, lying one way. Its place is where the centre of its bounds lies.
#[derive(Clone, Debug)]
pub struct Orientation {
    /// Index of the item.
    pub item: usize,
    /// How it lies.
    pub turn: Turn,
    /// What was taken from the turned outline to centre it.
    pub centre: Point,
    /// The turned outline, centred.
    pub outline: Vec<Point>,
    /// Convex parts that together cover the outline.
    pub parts: Vec<Vec<Point>>,
    /// Half the length along the cloth and half the width across it.
    pub half: (f32, f32),
    /// The same in full precision.
    pub half_exact: Point,
    /// Least and greatest y of the place.
    pub across: (f32, f32),
    /// Where x may be.
    pub lattice_x: Lattice,
    /// Where y may be.
    pub lattice_y: Lattice,
}

impl Orientation {
    /// Least and greatest x of the place on a length of cloth.
    pub fn along(&self, length: f32) -> (f32, f32) {
        (self.half.0, (length - self.half.0).max(self.half.0))
    }

    /// The allowed place nearest to a wish on a length of cloth, or `None` where it does not fit.
    pub fn place_near(&self, wish: (f32, f32), length: f32) -> Option<(f32, f32)> {
        if 2.0 * self.half.0 > length + ROUNDING as f32 {
            return None;
        }
        let (low, high) = self.along(length);
        let x = self.lattice_x.nearest(wish.0, low, high)?;
        let y = self.lattice_y.nearest(wish.1, self.across.0, self.across.1)?;
        Some((x, y))
    }

    /// The shortest cloth on which it can lie.
    pub fn least_length(&self) -> f32 {
        let Lattice { first, step } = self.lattice_x;
        let place =
            if step > 0.0 { first + ((self.half.0 - first) / step).ceil() * step } else { self.half.0 };
        place + self.half.0
    }

    /// Some allowed y.
    pub fn any_across(&self) -> f32 {
        self.lattice_y.nearest(self.across.0, self.across.0, self.across.1).unwrap_or(self.across.0)
    }
}

/// All orientations of a request, and which belong to which item.
#[derive(Clone, Debug)]
pub struct Orientations {
    /// Every orientation; those of one item follow each other.
    pub orientations: Vec<Orientation>,
    /// For each item, the orientations it may take.
    pub of_item: Vec<Vec<usize>>,
    /// For each item, its area.
    pub area: Vec<f64>,
    /// For each copy laid, its item; in the order of the request.
    pub copies: Vec<usize>,
}

/// An outline mirrored and turned about the origin.
pub fn turned(outline: &[Point], turn: Turn) -> Vec<Point> {
    let quarter = turn.degrees / 90.0;
    // Quarter turns are exact: cos 90° in floating point is not 0.
    let (cos, sin) = if quarter == quarter.round() {
        match quarter.rem_euclid(4.0) as u8 {
            0 => (1.0, 0.0),
            1 => (0.0, 1.0),
            2 => (-1.0, 0.0),
            _ => (0.0, -1.0),
        }
    } else {
        let radians = turn.degrees.to_radians();
        (libm::cos(radians), libm::sin(radians))
    };
    let flip = if turn.mirrored { -1.0 } else { 1.0 };
    outline.iter().map(|&(x, y)| (flip * x * cos - y * sin, flip * x * sin + y * cos)).collect()
}

impl Orientations {
    /// Checks a request and turns its items every way they may lie.
    ///
    /// # Errors
    /// Every [`LayError`]; the first one met, in the order of the items.
    pub fn of(request: &Request) -> Result<Orientations, LayError> {
        let width = request.width;
        if !(width.is_finite() && width > 0.0 && width < FAR) {
            return Err(LayError::Width { width });
        }
        let space = request.minimum_space;
        if !(space.is_finite() && (0.0..FAR).contains(&space)) {
            return Err(LayError::Space { space });
        }
        let count = request.items.iter().fold(0usize, |sum, item| sum.saturating_add(item.quantity));
        if count == 0 {
            return Err(LayError::Empty);
        }
        if count > MOST_PIECES {
            return Err(LayError::TooMany { count, most: MOST_PIECES });
        }
        let mut all = Orientations {
            orientations: Vec::new(),
            of_item: Vec::new(),
            area: Vec::new(),
            copies: Vec::with_capacity(count),
        };
        for (index, item) in request.items.iter().enumerate() {
            all.copies.extend(std::iter::repeat_n(index, item.quantity));
            if item.quantity == 0 {
                all.of_item.push(Vec::new());
                all.area.push(0.0);
                continue;
            }
            all.add(index, item, width)?;
        }
        Ok(all)
    }

    fn add(&mut self, index: usize, item: &Item, width: f64) -> Result<(), LayError> {
        let id = || item.id.clone();
        if item.turns.is_empty() {
            return Err(LayError::NoTurn { item: index, id: id() });
        }
        let sane = |v: f64| v.is_finite() && v.abs() < FAR;
        let repeat_sane = item.repeat.is_none_or(|r| {
            let axis = |a: Option<(f64, f64)>| {
                a.is_none_or(|(step, phase)| sane(step) && step >= 0.0 && sane(phase))
            };
            sane(r.point.0) && sane(r.point.1) && axis(r.along) && axis(r.across)
        });
        let numbers = item.outline.iter().all(|p| sane(p.0) && sane(p.1))
            && item.turns.iter().all(|t| sane(t.degrees))
            && repeat_sane;
        if !numbers {
            return Err(LayError::NotFinite { item: index, id: id() });
        }
        let outline = clean(&item.outline);
        if outline.is_empty() {
            return Err(LayError::NoArea { item: index, id: id() });
        }
        if let Some(at) = crossing(&outline) {
            return Err(LayError::Crosses { item: index, id: id(), at });
        }
        let simple = simplify_outward(&outline, OUTWARD, ENOUGH_CORNERS);
        let parts = convex_parts(&simple);
        let first = self.orientations.len();
        let mut least_width = f64::INFINITY;
        let mut fitted_without_repeat = false;
        for &turn in &item.turns {
            let whole = turned(&outline, turn);
            let (low, high) = bounds(&whole);
            let centre = ((low.0 + high.0) / 2.0, (low.1 + high.1) / 2.0);
            let centred = |points: &[Point]| -> Vec<Point> {
                let mut moved: Vec<Point> =
                    turned(points, turn).iter().map(|p| (p.0 - centre.0, p.1 - centre.1)).collect();
                if turn.mirrored {
                    moved.reverse();
                }
                moved
            };
            let half = ((high.0 - low.0) / 2.0, (high.1 - low.1) / 2.0);
            least_width = least_width.min(2.0 * half.1);
            let room = width - 2.0 * half.1;
            if room < -ROUNDING {
                continue;
            }
            let (near, far) = (half.1.min(width / 2.0), (width - half.1).max(width / 2.0));
            let across = match turn.against {
                None => (near, far),
                Some(ClothEdge::Near) => (half.1, half.1),
                Some(ClothEdge::Far) => (width - half.1, width - half.1),
            };
            fitted_without_repeat = true;
            let reference = item.repeat.map(|r| {
                let at = turned(&[r.point], turn);
                at.first().map_or((0.0, 0.0), |p| (p.0 - centre.0, p.1 - centre.1))
            });
            let (along_repeat, across_repeat) =
                (item.repeat.and_then(|r| r.along), item.repeat.and_then(|r| r.across));
            let reference = reference.unwrap_or((0.0, 0.0));
            let orientation = Orientation {
                item: index,
                turn,
                centre,
                parts: parts.iter().map(|part| centred(part)).collect(),
                half: (half.0 as f32, half.1 as f32),
                half_exact: half,
                outline: centred(&outline),
                across: (across.0 as f32, across.1 as f32),
                lattice_x: Lattice::of(along_repeat, reference.0),
                lattice_y: Lattice::of(across_repeat, reference.1),
            };
            if orientation
                .lattice_y
                .nearest(orientation.across.0, orientation.across.0, orientation.across.1)
                .is_some()
            {
                self.orientations.push(orientation);
            }
        }
        if self.orientations.len() == first {
            return Err(if fitted_without_repeat {
                LayError::RepeatAcross { item: index, id: id(), width }
            } else {
                LayError::TooWide {
                    item: index,
                    id: id(),
                    needed: least_width,
                    width,
                    over: least_width - width,
                }
            });
        }
        self.of_item.push((first..self.orientations.len()).collect());
        self.area.push(area(&outline));
        Ok(())
    }
}
