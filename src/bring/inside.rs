//! What lies on a piece beside its outline: fold, grain, marks, and what is written on it.

use super::at_most::at_most;
use super::course::{Course, SAME};
use super::lacking::lacking;
use super::names::{Answer, Called, name_of, unlike};
use super::outlines::Outlines;
use super::pattern::{Grain, Mark, Piece, Walk, away, of_size};
use super::read::said::are_pairs;
use super::runs::Form;
use super::traced::{TracedCut, TracedSize};
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

/// Whether places, one a size, lie in the outline, where they are written.
fn lies_inside(outline: &Walk, places: &[Point]) -> bool {
    places.iter().enumerate().all(|(size, place)| {
        let ring = (0..outline.edges.len()).map(|edge| Path::from_segments(outline.path(edge, size)));
        ring.collect::<Result<Vec<Path>, _>>().is_ok_and(|ring| contains(&ring, *place))
    })
}

/// How many are cut, as it is usually written on pieces: `cut 2 mirrored`, `cut 1 on the fold`, `cut 1 pair`.
/// A line that ends in a comma goes on in the next.
pub fn cut_of(texts: &[String]) -> Option<TracedCut> {
    let mut whole: Vec<String> = Vec::with_capacity(texts.len());
    for text in texts {
        match whole.last_mut().filter(|last| last.trim_end().ends_with(',')) {
            Some(last) => *last += &format!(" {text}"),
            None => whole.push(text.clone()),
        }
    }
    whole.iter().find_map(|text| {
        let text = text.to_lowercase();
        let after = &text[text.find("cut")? + "cut".len()..];
        let number: String =
            after.trim_start_matches([':', ' ']).chars().take_while(char::is_ascii_digit).collect();
        let count: u32 = number.parse().ok().filter(|count| (1..=100).contains(count))?;
        let behind =
            after.trim_start_matches([':', ' ']).trim_start_matches(|letter: char| letter.is_ascii_digit());
        let pairs = are_pairs(behind);
        let mirrored = after.contains("pair")
            || ["mirror", "each hand", "left and right"].iter().any(|words| after.contains(words));
        let count = if pairs { count * 2 } else { count };
        Some(TracedCut { count, mirrored: mirrored && count % 2 == 0 })
    })
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
            Some(at) if !lies_inside(&piece.outline, &at) => told.push(format!(
                "{}: {own} lies outside of the outline, where nothing is marked, and is left out",
                piece.name
            )),
            Some(at) => piece.marks.push(Mark { name: own, at }),
            None => {
                told.push(format!("{}: {own} is not marked in every size, and is left out", piece.name));
            }
        }
    }
    remarks.extend(at_most(told, |more| format!("{}: {more} more marks are left out", piece.name)));
}
