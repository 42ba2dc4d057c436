//! A point that lies elsewhere in one size than the even growth of the others has it: a corner or a joint that was moved, a
//! point of a traced line beside its curve.
//!
//! As sizes grow, points move on alike: each its own way and as far as it does, but all of them in one measure from size to
//! size, and on a curve each as those beside it. What one point does alone in one size alone was hardly meant. Two sizes show no
//! growth: of them nothing is said.
//!
//! The numbers below are no standard's. With them what is moved in `tests/it/makers_drawings.rs` (a skirt, a waistcoat and a mitten),
//! `bring_odd_sizes.rs` and `bring_displaced.rs` is told, and nothing of the sound drawings there: whoever changes one runs these.

use super::corners::answering_by;
use super::course::{Course, controls};
use super::traced::TracedSegment;
use kurbo::{ParamCurve, ParamCurveArclen, PathSeg, Point, Vec2};

/// Fewer sizes than this show no growth.
const SIZES: usize = 3;
/// Of longer lines points are not compared one by one.
const MOST_POINTS: usize = 2_000;
/// A corner lies so far off in millimetres …
const CORNER_OFF: f64 = 4.0;
/// … and so many times as far as it moves on from one size to the next, seen from the middle of the piece. Between others that
/// grow evenly it may less.
const STEPS: f64 = 1.2;
/// See [`STEPS`]: between two others.
const STEPS_BETWEEN: f64 = 0.3;
/// A point of a traced curve lies so far beside it, in millimetres: no hand traces better than half of that.
const TRACED_OFF: f64 = 3.0;
/// And so many times as far as points usually do in that size, …
const USUAL: f64 = 3.0;
/// … and as the other sizes lie from growing evenly.
const UNEVEN: f64 = 3.0;
/// The steps between points of a traced curve are no longer than this, in millimetres.
const TRACED_STEP: f64 = 60.0;
/// A point that most sizes have no corner at turns less than this there, in radians (25°).
const CORNER: f64 = 0.436;
/// Where more points of a size than this lie off, it is drawn otherwise as a whole.
const MOST_TOLD: usize = 2;
/// Points that answer to one another lie no farther apart than this, as a share of the piece, most of them.
const ALIKE: f64 = 0.1;
/// Into so many shares a stretch between corners is parted whose sizes have unlike numbers of points.
const SHARES: usize = 32;
/// What is more uneven than this, in millimetres, is no more than uneven.
const FAR: f64 = 3.0;
/// What growing by leaps counts against growing evenly, in millimetres.
const LEAPS: f64 = 10.0;
/// By so much farther, in millimetres, a corner moves in one step than in another, that grows by leaps.
const LEAP: f64 = 10.0;
/// What moves on by less than this, in millimetres, stays where it is.
const STAYS: f64 = 1.5;
/// So many points beside the first one are tried as that which answers to it …
const BESIDE_START: usize = 60;
/// … and all then have to lie so many times nearer.
const NEARER_START: f64 = 2.0;
/// So many points are tried as the one that stays where it is, and as the one that grows as all do.
const TRIED: usize = 6;

/// A point that lies off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Astray {
    /// In which size.
    pub size: usize,
    /// Where it lies in that size.
    pub at: Point,
    /// How far from where the others have it.
    pub off: Vec2,
    /// Whether it is the handle of a curve.
    pub is_handle: bool,
    /// Whether no one size alone explains it: the point grows by leaps, this far at least and at most.
    pub leaps: Option<(f64, f64)>,
}

/// The points of an outline that lie off in one size. Sizes have to have equally many points.
pub fn astray(courses: &[&Course]) -> Vec<Astray> {
    let Some(shifts) = shifts(courses) else { return Vec::new() };
    let count = courses.first().map_or(0, |course| course.nodes());
    let node = |size: usize, at: usize| -> usize { (at + shifts.get(size).copied().unwrap_or(0)) % count };
    let points: Vec<Vec<Point>> = courses
        .iter()
        .enumerate()
        .map(|(size, course)| (0..count).map(|at| course.node(node(size, at))).collect())
        .collect();
    let turns = |at: usize| -> f64 {
        let each = courses.iter().enumerate().map(|(size, course)| course.turn(node(size, at)));
        middle(each.collect())
    };
    let is_corner: Vec<bool> = (0..count).map(|at| turns(at) >= CORNER).collect();
    // A joint that only parts an arc lies where it lies.
    let is_of_arc = |at: usize| {
        courses.iter().enumerate().any(|(size, course)| {
            let own = |at: usize| course.segments.get(node(size, at)).and_then(|one| one.arc);
            own(at).is_some() && own(at) == own(at + count - 1)
        })
    };
    let is_joint: Vec<bool> = (0..count).map(is_of_arc).collect();
    match among(&points, &is_corner, &is_joint) {
        Some(found) => found,
        None => handles_astray(courses, &points, &node),
    }
}

/// The handles of curves that lie off in one size, where the points do not. A curve goes along with its handle less than by
/// half.
fn handles_astray(
    courses: &[&Course],
    points: &[Vec<Point>],
    node: &dyn Fn(usize, usize) -> usize,
) -> Vec<Astray> {
    let count = points.first().map_or(0, Vec::len);
    let curve = |size: usize, at: usize| {
        let segment = courses.get(size)?.segments.get(node(size, at))?;
        let is_curve = !matches!(segment.course, PathSeg::Line(_)) && segment.arc.is_none();
        is_curve.then(|| controls(&segment.course))
    };
    let mut whole: Vec<Vec<Point>> = points.to_vec();
    let mut ends: Vec<[usize; 2]> = Vec::new();
    for at in 0..count {
        let curves: Option<Vec<[Point; 4]>> = (0..courses.len()).map(|size| curve(size, at)).collect();
        for (own, [_, first, second, _]) in whole.iter_mut().zip(curves.into_iter().flatten()) {
            own.extend([first, second]);
        }
        if whole.first().is_some_and(|own| own.len() > count + ends.len()) {
            ends.extend([[at, (at + 1) % count]; 2]);
        }
    }
    let (sizes, growth) = (points.len(), Growth::of(&whole));
    let centre = growth.centre();
    let mut found: Vec<(f64, Astray)> = Vec::new();
    for (at, ends) in ends.iter().enumerate().map(|(at, ends)| (count + at, *ends)) {
        let Some(own) = growth.odd(at, middle_growth(&growth, ends), centre) else { continue };
        let least = 2.0 * CORNER_OFF + steps(own.size, sizes) * own.step;
        if own.off.hypot() > least.max(UNEVEN * own.uneven) && !is_held(&whole, &own, at) {
            let Some(place) = whole.get(own.size).and_then(|points| points.get(at)) else { continue };
            found.push((
                own.off.hypot(),
                Astray { size: own.size, at: *place, off: own.off, is_handle: true, leaps: None },
            ));
        }
    }
    // What moves several handles is another curve.
    let most = found.iter().map(|(off, _)| *off).fold(0.0, f64::max);
    let few = found.len() <= MOST_TOLD;
    found.into_iter().filter(|(off, _)| few && *off > most / 2.0).map(|(_, own)| own).collect()
}

/// How many times as far as it moves on from size to size a corner may lie off in that one.
fn steps(size: usize, sizes: usize) -> f64 {
    if size > 0 && size + 1 < sizes { STEPS_BETWEEN } else { STEPS }
}

/// The same of outlines whose corners answer to one another, where sizes have unlike numbers of points between them: at equal
/// shares of each stretch from corner to corner.
pub fn along(courses: &[&Course], places: &[Vec<usize>]) -> Vec<Astray> {
    let count = courses.first().map_or(0, |course| course.nodes());
    let runs = places.first().map_or(0, Vec::len);
    let is_asked = courses.len() >= SIZES
        && courses.iter().all(|course| course.closed)
        && courses.iter().any(|course| course.nodes() != count)
        && (1..=MOST_POINTS / SHARES).contains(&runs);
    if !is_asked {
        return Vec::new();
    }
    let of_size = |(course, places): (&&Course, &Vec<usize>)| -> Vec<Point> {
        let each = places.iter().zip(places.iter().cycle().skip(1));
        each.flat_map(|(from, to)| shared_out(&course.between(*from, *to))).collect()
    };
    let points: Vec<Vec<Point>> = courses.iter().zip(places).map(of_size).collect();
    let is_corner: Vec<bool> = (0..runs * SHARES).map(|at| at % SHARES == 0).collect();
    if points.iter().any(|own| own.len() != is_corner.len()) {
        return Vec::new();
    }
    among(&points, &is_corner, &[]).unwrap_or_default()
}

/// Points at equal shares of some segments, the first one among them and the last one not.
fn shared_out(segments: &[TracedSegment]) -> Vec<Point> {
    let lengths: Vec<f64> = segments.iter().map(|one| one.course.arclen(0.1)).collect();
    let whole: f64 = lengths.iter().sum();
    let (mut found, mut before) = (Vec::with_capacity(SHARES), 0.0);
    for (segment, long) in segments.iter().zip(&lengths) {
        let next = |found: &Vec<Point>| whole * found.len() as f64 / SHARES as f64;
        while found.len() < SHARES && next(&found) < before + long {
            found.push(segment.course.eval(((next(&found) - before) / long).clamp(0.0, 1.0)));
        }
        before += long;
    }
    found
}

/// The points, by size, that lie off; of each it is known whether it is a corner, and whether it is none of the drawing's. Of too
/// many none is told; nothing where there is none.
fn among(points: &[Vec<Point>], is_corner: &[bool], is_joint: &[bool]) -> Option<Vec<Astray>> {
    let (sizes, count) = (points.len(), is_corner.len());
    let growth = Growth::of(points);
    let centre = growth.centre();
    let beside = |at: usize| [(at + count - 1) % count, (at + 1) % count];
    let beside_curve = |size: usize, at: usize| growth.beside_curve(points, size, at, beside(at));
    // How far points usually lie off in each size: beside their curve, and altogether.
    let usual: Vec<[f64; 2]> = (0..sizes)
        .map(|size| {
            let off = |at: usize| growth.off(size, at).map_or(0.0, |(off, ..)| off.hypot());
            let traced = (0..count).map(|at| beside_curve(size, at).hypot()).collect();
            [middle(traced), middle((0..count).map(off).collect())]
        })
        .collect();
    let mut found: Vec<(usize, f64, Astray)> = Vec::new();
    for at in (0..count).filter(|at| is_joint.get(*at) != Some(&true)) {
        let Some(own) = growth.odd(at, middle_growth(&growth, beside(at)), centre) else { continue };
        let [traced, all] = usual.get(own.size).copied().unwrap_or_default();
        let (off, least) = match is_traced(points, is_corner, at, beside(at)) {
            true => (beside_curve(own.size, at), TRACED_OFF + USUAL * traced),
            false => (own.off, CORNER_OFF + steps(own.size, sizes) * own.step + USUAL * all),
        };
        // Beside a point that lies off one that does not seems to.
        let is_its_own = own.off.hypot() > off.hypot() / 2.0;
        if is_its_own && off.hypot() > least.max(UNEVEN * own.uneven) && !is_held(points, &own, at) {
            let Some(place) = points.get(own.size).and_then(|points| points.get(at)) else { continue };
            found.push((
                at,
                off.hypot(),
                Astray { size: own.size, at: *place, off, is_handle: false, leaps: None },
            ));
        }
    }
    if found.is_empty() {
        let leaping = leaping(points, &growth, is_corner, is_joint);
        return leaping.map(|own| vec![own]);
    }
    Some(told(found, count))
}

/// The corner that grows most by leaps, where no one size alone explains it and the others grow evenly.
fn leaping(points: &[Vec<Point>], growth: &Growth, is_corner: &[bool], is_joint: &[bool]) -> Option<Astray> {
    let sizes = points.len();
    if sizes <= SIZES {
        return None;
    }
    // Where a point lies off from growing evenly by all sizes, in the worst of them.
    let off = |at: usize| -> (usize, Vec2) {
        let ((x, wide), (y, high)) = (growth.across.line(at, None), growth.up.line(at, None));
        let each = (0..sizes).map(|size| {
            let share = |axis: &Axis| axis.shares.get(size).copied().unwrap_or(0.0);
            let expected = Vec2::new(x + wide * share(&growth.across), y + high * share(&growth.up));
            (size, Vec2::new(growth.across.at(size, at), growth.up.at(size, at)) - expected)
        });
        each.max_by(|one, other| one.1.hypot().total_cmp(&other.1.hypot())).unwrap_or((0, Vec2::ZERO))
    };
    let all: Vec<(usize, Vec2)> = (0..is_corner.len()).map(off).collect();
    let usual = middle(all.iter().map(|(_, off)| off.hypot()).collect());
    let corners = all
        .iter()
        .enumerate()
        .filter(|(at, _)| is_corner.get(*at).copied().unwrap_or(false) && is_joint.get(*at) != Some(&true));
    let (at, (size, off)) =
        corners.max_by(|(_, one), (_, other)| one.1.hypot().total_cmp(&other.1.hypot()))?;
    let place = |size: usize| Vec2::new(growth.across.at(size, at), growth.up.at(size, at));
    let steps: Vec<f64> = (1..sizes).map(|size| (place(size) - place(size - 1)).hypot()).collect();
    let (least, most) = steps
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(least, most), step| (least.min(*step), most.max(*step)));
    let is_told = off.hypot() > CORNER_OFF + UNEVEN * usual && most - least > LEAP;
    let at = *points.get(*size)?.get(at)?;
    is_told.then_some(Astray { size: *size, at, off: *off, is_handle: false, leaps: Some((least, most)) })
}

/// Those that stand out: a point that lies off takes those beside it along a little.
fn told(found: Vec<(usize, f64, Astray)>, count: usize) -> Vec<Astray> {
    let stands_out = |(at, off, _): &(usize, f64, Astray)| {
        !found.iter().any(|(other, further, _)| {
            let apart = at.abs_diff(*other).min(count - at.abs_diff(*other));
            (1..=2).contains(&apart) && further > off
        })
    };
    let out: Vec<Astray> = found.iter().filter(|one| stands_out(one)).map(|(.., own)| *own).collect();
    let in_size = |size: usize| out.iter().filter(|own| own.size == size).count();
    out.iter().filter(|own| in_size(own.size) <= MOST_TOLD).copied().collect()
}

/// By how many places the points of each size are to be turned; none where sizes are not to be compared point by point.
fn shifts(courses: &[&Course]) -> Option<Vec<usize>> {
    let first = courses.first()?;
    let count = first.nodes();
    let comparable = courses.len() >= SIZES
        && (3..=MOST_POINTS).contains(&count)
        && courses.iter().all(|course| course.closed && course.nodes() == count);
    if !comparable {
        return None;
    }
    // Point answers to point as they are drawn, if most of them lie where those of the first size do.
    let bounds = first.bounds();
    let wide = bounds.width().max(bounds.height());
    let begins_alike = |course: &&Course| {
        let moved: Vec<Vec2> = (0..count).map(|at| course.node(at) - first.node(at)).collect();
        let by = Vec2::new(
            middle(moved.iter().map(|own| own.x).collect()),
            middle(moved.iter().map(|own| own.y).collect()),
        );
        middle(moved.iter().map(|own| (*own - by).hypot()).collect()) < ALIKE * wide
    };
    match courses.iter().all(begins_alike) {
        true => Some(courses.iter().map(|course| nearest_start(first, course, count)).collect()),
        false => answering_by(courses),
    }
}

/// By how many places the points of a size are to be turned to lie nearest to those of the first one, where that is far nearer than
/// as they are drawn: sizes may begin one point beside one another.
fn nearest_start(first: &Course, course: &Course, count: usize) -> usize {
    let about =
        |own: &Course| (0..count).fold(Vec2::ZERO, |sum, at| sum + own.node(at).to_vec2()) / count as f64;
    let by = about(course) - about(first);
    let apart = |shift: usize| -> f64 {
        let each = (0..count).map(|at| (course.node((at + shift) % count) - first.node(at) - by).hypot());
        each.sum()
    };
    let near = (1..count.min(BESIDE_START)).flat_map(|shift| [shift, count - shift]);
    let best = near.map(|shift| (apart(shift), shift)).min_by(|one, other| one.0.total_cmp(&other.0));
    best.filter(|(best, _)| NEARER_START * best < apart(0)).map_or(0, |(_, shift)| shift)
}

fn is_traced(points: &[Vec<Point>], is_corner: &[bool], at: usize, beside: [usize; 2]) -> bool {
    let corner = |at: usize| is_corner.get(at).copied().unwrap_or(true);
    let is_short = points.iter().all(|points| {
        let place = |at: usize| points.get(at).copied().unwrap_or_default();
        beside.iter().all(|beside| place(*beside).distance(place(at)) < TRACED_STEP)
    });
    !corner(at) && is_short
}

fn middle(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied().unwrap_or(0.0)
}

/// How far those two points grow from the first size to the last, in the middle.
fn middle_growth(growth: &Growth, beside: [usize; 2]) -> Vec2 {
    beside.iter().map(|at| growth.whole(*at)).fold(Vec2::ZERO, |sum, own| sum + own) / 2.0
}

/// Whether a point of the middle one of three sizes stays where it is in one of the others, as it is drawn or seen from the middle of
/// the piece, the way that it lies off: between two sizes a measure may stay as it is.
fn is_held(points: &[Vec<Point>], own: &Odd, at: usize) -> bool {
    let place = |size: usize| points.get(size).and_then(|own| own.get(at)).copied().unwrap_or_default();
    let centre = |size: usize| {
        let all = points.get(size).map_or(&[] as &[Point], Vec::as_slice);
        all.iter().fold(Vec2::ZERO, |sum, at| sum + at.to_vec2()) / all.len().max(1) as f64
    };
    let along = own.off / own.off.hypot().max(f64::MIN_POSITIVE);
    let stays = |other: usize| {
        let by = place(own.size) - place(other);
        let from_centre = by - (centre(own.size) - centre(other));
        by.dot(along).abs() < STAYS || from_centre.dot(along).abs() < STAYS
    };
    points.len() == SIZES && own.size == 1 && [0, 2].into_iter().any(stays)
}

/// How the points of all sizes grow, across and up.
pub struct Growth {
    across: Axis,
    up: Axis,
}

/// What one point does alone.
struct Odd {
    size: usize,
    off: Vec2,
    /// How far it moves on from one size to the next by the other sizes.
    step: f64,
    /// How far these lie from growing evenly.
    uneven: f64,
}

impl Growth {
    /// Of the points of every size.
    pub fn of(points: &[Vec<Point>]) -> Self {
        let axis = |of: fn(&Point) -> f64| {
            Axis::of(points.iter().map(|points| points.iter().map(of).collect()).collect())
        };
        Growth { across: axis(|at| at.x), up: axis(|at| at.y) }
    }

    /// How far a point lies off in one size, how far it grows from the first size to the last by the others, and how unevenly.
    pub fn off(&self, size: usize, at: usize) -> Option<(Vec2, Vec2, f64)> {
        let ((x, wide, a), (y, high, b)) = (self.across.off(size, at)?, self.up.off(size, at)?);
        Some((Vec2::new(x, y), Vec2::new(wide, high), a.max(b)))
    }

    fn whole(&self, at: usize) -> Vec2 {
        Vec2::new(self.across.whole(at), self.up.whole(at))
    }

    /// How far all points grow from the first size to the last, in the middle.
    fn centre(&self) -> Vec2 {
        let count = self.across.places.first().map_or(0, Vec::len);
        (0..count).fold(Vec2::ZERO, |sum, at| sum + self.whole(at)) / count.max(1) as f64
    }

    /// The size in which a point lies off, if the others then grow evenly. Of three any two do: it is that which leaves them growing
    /// most as those beside it do, and lies off least.
    fn odd(&self, at: usize, beside: Vec2, centre: Vec2) -> Option<Odd> {
        let sizes = self.across.places.len();
        let each = (0..sizes).filter_map(|size| {
            let (off, grown, uneven) = self.off(size, at)?;
            // How far it is from what is likely.
            let unlikely = match sizes == SIZES {
                true => (grown - beside).hypot() + off.hypot() / 2.0,
                false => uneven * sizes as f64,
            };
            Some((
                unlikely,
                Odd {
                    size,
                    off,
                    step: (grown - centre).hypot().min(grown.hypot()) / (sizes - 1) as f64,
                    uneven,
                },
            ))
        });
        each.min_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, odd)| odd)
    }

    /// How far a point lies off to the side of the curve, more than those beside it.
    fn beside_curve(&self, points: &[Vec<Point>], size: usize, at: usize, beside: [usize; 2]) -> Vec2 {
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
struct Axis {
    /// By size, by point, where it lies, seen from one that stays where it is.
    places: Vec<Vec<f64>>,
    /// By size, how far it is from the first to the last, as a share that may come to more than 1.
    shares: Vec<f64>,
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

    fn at(&self, size: usize, at: usize) -> f64 {
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
    fn line(&self, at: usize, without: Option<usize>) -> (f64, f64) {
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
