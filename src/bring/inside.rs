//! What lies on a piece beside its outline: fold, grain, marks, and what is written on it.

use super::at_most::at_most;
use super::course::{Course, SAME};
use super::lacking::lacking;
use super::names::{Answer, Called, name_of, unlike};
use super::outlines::Outlines;
use super::pattern::{Grain, Mark, Piece, Walk, away, of_size};
pub(super) use super::read::cut_of;
use super::runs::Form;
use super::traced::TracedSize;
use crate::shape::outline::contains;
use crate::shape::path::Path;
use indexmap::IndexSet;
use kurbo::{ParamCurve, Point, Vec2};

/// How far an edge may lie off the line of the fold, in millimetres.
pub const ON_FOLD: f64 = 0.5;
/// How nearly upright a grain line is drawn that means upright, in radians (0.2°).
const UPRIGHT: f64 = 0.0035;
/// By how much the distance from sew line to cutting line may differ along it, in millimetres.
const EVEN: f64 = 0.3;

/// The edge that lies on the fold in every size.
pub fn fold_of(drawn: &[&TracedSize], shifts: &[Vec2], outline: &Walk) -> Option<usize> {
    (0..outline.edges.len()).find(|&edge| {
        let straight = outline.edges.get(edge).is_some_and(|one| one.stretch.form == Form::Straight);
        straight
            && drawn.iter().zip(shifts).enumerate().all(|(size, (drawn, shift))| {
                let Some((from, to)) = drawn.fold else { return false };
                let (from, to) = (from + *shift, to + *shift);
                let long = from.distance(to).max(SAME);
                let ends = [
                    of_size(outline.start(edge), size),
                    outline.edges.get(edge).and_then(|one| of_size(&one.stretch.ends, size)),
                ];
                ends.iter()
                    .all(|end| end.is_some_and(|end| (end - from).cross(to - from).abs() / long < ON_FOLD))
            })
    })
}

/// How the grain lies, if it was drawn.
pub fn grain_of(drawn: &[&TracedSize], shifts: &[Vec2]) -> Option<Grain> {
    let lines: Option<Vec<(Point, Point)>> = drawn
        .iter()
        .zip(shifts)
        .map(|(size, shift)| size.grain.map(|(from, to)| (from + *shift, to + *shift)))
        .map(|line| line.filter(|(from, to)| !is_far(*from) && !is_far(*to)))
        .collect();
    let lines = match lines {
        Some(lines) => lines,
        // One for all sizes is enough.
        None => {
            let (size, shift) = drawn.iter().zip(shifts).find(|(size, _)| size.grain.is_some())?;
            let (from, to) = size.grain?;
            let (from, to) = (from + *shift, to + *shift);
            if is_far(from) || is_far(to) {
                return None;
            }
            vec![(from, to)]
        }
    };
    let lies = |along: Vec2| {
        lines.iter().all(|(from, to)| {
            let way = *to - *from;
            way.cross(along).abs() <= libm::sin(UPRIGHT) * way.hypot()
        })
    };
    if lies(Vec2::new(0.0, 1.0)) {
        return Some(Grain::Up);
    }
    if lies(Vec2::new(1.0, 0.0)) {
        return Some(Grain::Across);
    }
    let (from, to) = lines.into_iter().unzip();
    Some(Grain::Along(from, to))
}

/// Whether a place is farther off than any garment reaches.
pub fn is_far(at: Point) -> bool {
    let most = crate::limits::LENGTH_MM;
    !(at.x.abs() < most && at.y.abs() < most)
}

/// By size the outline, to be asked what lies in it; none where it cannot be followed.
fn rings(outline: &Walk, sizes: usize) -> Vec<Option<Vec<Path>>> {
    let of_size = |size: usize| {
        let ring = (0..outline.edges.len()).map(|edge| Path::from_segments(outline.path(edge, size)));
        ring.collect::<Result<Vec<Path>, _>>().ok()
    };
    (0..sizes).map(of_size).collect()
}

/// So near to the outline, in millimetres, a mark is on it, and as it is written may lie beyond it: numbers are rounded.
const ON_EDGE: f64 = 0.02;
/// In so many ways one is moved off it.
const WAYS: u32 = 16;

/// Places, one a size, that lie in the outline, where they are written: those on it are moved in by what nobody sees. None where one
/// lies outside.
fn lie_inside(rings: &[Option<Vec<Path>>], places: &[Point]) -> Option<Vec<Point>> {
    let mut each = places.iter().zip(rings);
    each.try_fold(Vec::with_capacity(places.len()), |mut found, (place, ring)| {
        found.push(inside_of(ring.as_ref()?, *place)?);
        Some(found)
    })
}

fn inside_of(ring: &[Path], place: Point) -> Option<Point> {
    let off =
        |place: Point| ring.iter().map(|edge| edge.nearest(place).distance).fold(f64::INFINITY, f64::min);
    let is_there = |place: Point| contains(ring, place) && off(place) >= ON_EDGE;
    if is_there(place) {
        return Some(place);
    }
    // What lies farther outside is no matter of rounding.
    if off(place) > ON_EDGE {
        return None;
    }
    let around = (0..WAYS).map(|way| {
        let (sine, cosine) = libm::sincos(std::f64::consts::TAU * f64::from(way) / f64::from(WAYS));
        place + Vec2::new(cosine, sine) * (3.0 * ON_EDGE)
    });
    around.into_iter().find(|place| is_there(*place))
}

/// How far the cutting line lies outside the sew line, where that is everywhere and in every size the same.
pub fn allowance_of(outlines: &Outlines, drawn: &[&TracedSize]) -> Option<f64> {
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for (course, size) in outlines.courses.iter().zip(drawn).filter(|_| outlines.sewn) {
        let cutting = Course::of(&size.outline)?;
        let cutting: Vec<kurbo::PathSeg> = cutting.segments.iter().map(|one| one.course).collect();
        // Enough of them to see whether it is even; a traced line may have thousands of segments.
        let every = course.segments.len().div_ceil(40).max(1);
        for segment in course.segments.iter().step_by(every) {
            let away = away(&cutting, segment.course.eval(0.5))?;
            (least, most) = (least.min(away), most.max(away));
        }
    }
    // On the fold the two lines are one: only that much says nothing against it.
    (most - least < EVEN && most > 0.0).then(|| (f64::midpoint(least, most) * 10.0).round() / 10.0)
}

/// The points inside that answer to one another in all sizes.
pub fn marks(
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    sizes: &[String],
    piece: &mut Piece,
    remarks: &mut Vec<String>,
) {
    let Some(first) = drawn.first().map(|size| &size.marks) else { return };
    // Corners are called p1, p2 … in the text, and handles after them.
    let corners = (0..piece.outline.edges.len()).map(|edge| piece.corner(edge));
    let mut taken: IndexSet<String> =
        corners.flat_map(|corner| [format!("{corner}_out"), format!("{corner}_in"), corner]).collect();
    let called: Vec<Called> =
        drawn.iter().map(|size| Called::of(size.marks.iter().map(|mark| &*mark.name))).collect();
    let lacking = lacking(&called, sizes, "a mark");
    let mut told: Vec<String> = lacking.into_iter().map(|words| format!("{}: {words}", piece.name)).collect();
    let rings = if first.is_empty() { Vec::new() } else { rings(&piece.outline, drawn.len()) };
    for (number, mark) in first.iter().enumerate() {
        let own = unlike(&name_of(&mark.name, "mark"), &mut taken);
        let mut is_borrowed = false;
        let each: Option<Vec<Point>> = drawn
            .iter()
            .zip(&called)
            .zip(shifts)
            .map(|((size, list), shift)| match called.first()?.answering(number, list)? {
                Answer::There(found) => Some(size.marks.get(found)?.at + *shift),
                // What is drawn once lies where the first size lies.
                Answer::Once => {
                    is_borrowed = true;
                    Some(mark.at + *shifts.first()?)
                }
            })
            .collect();
        if is_borrowed {
            piece.borrowed.insert(own.clone());
        }
        match each {
            Some(at) => match lie_inside(&rings, &at) {
                Some(at) => piece.marks.push(Mark { name: own, at }),
                None => told.push(format!(
                    "{}: {own} lies outside of the outline, where nothing is marked, and is left out",
                    piece.name
                )),
            },
            None => {
                told.push(format!("{}: {own} is not marked in every size, and is left out", piece.name));
            }
        }
    }
    remarks.extend(at_most(told, |more| format!("{}: {more} more marks are left out", piece.name)));
}
