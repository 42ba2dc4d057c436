//! Lines inside a piece, put side by side over its sizes.

use super::at_most::at_most;
use super::corners::corners;
use super::course::Course;
use super::cusps::turning_back;
use super::edges::name_stretches;
use super::figures::TextUnit;
use super::inside::is_far;
use super::lacking::lacking;
use super::names::{Answer, Called, name_of, one_line, stem, unlike};
use super::options::BringOptions;
use super::outlines::in_size;
use super::pattern::{Piece, Walk, away};
use super::traced::{TracedLine, TracedSize};
use super::unlike_lines;
use super::unmatched::place;
use super::walks::{as_written, move_walk, walk};
use crate::report::listed;
use crate::shape::outline::contains;
use crate::shape::path::Path;
use indexmap::IndexSet;
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Shape, Vec2};

/// Adds the lines that answer to one another in all sizes.
pub fn lines(
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    (options, unit, sizes): (&BringOptions, TextUnit, &[String]),
    piece: &mut Piece,
    remarks: &mut Vec<String>,
) {
    let Some(first) = drawn.first() else { return };
    let mut taken: IndexSet<String> = piece.outline.edges.iter().map(|edge| edge.name.clone()).collect();
    taken.insert("grain_line".to_owned());
    let called: Vec<Called> =
        drawn.iter().map(|size| Called::of(size.lines.iter().map(|line| &*line.name))).collect();
    let lacking = lacking(&called, sizes, "a line");
    let mut told: Vec<String> = lacking.into_iter().map(|words| format!("{}: {words}", piece.name)).collect();
    for (number, line) in first.lines.iter().enumerate() {
        let name = unlike(&name_of(&line.name, "line"), &mut taken);
        let answers: Option<Vec<Answer>> =
            called.iter().map(|list| called.first()?.answering(number, list)).collect();
        // What is drawn once lies where the first size lies.
        let own = |(at, answer): (usize, &Answer)| {
            shifts.get(if *answer == Answer::Once { 0 } else { at }).copied().unwrap_or_default()
        };
        let is_borrowed = answers.iter().flatten().any(|answer| *answer == Answer::Once);
        let moves: Vec<Vec2> = answers.iter().flatten().enumerate().map(own).collect();
        let each: Option<Vec<&TracedLine>> = answers.and_then(|answers| {
            let each = drawn.iter().zip(answers).map(|(size, answer)| match answer {
                Answer::There(at) => size.lines.get(at),
                Answer::Once => Some(line),
            });
            each.collect()
        });
        let found = match each {
            Some(each) => followed(&each, &moves, options, sizes),
            None => Err(unlike_lines::counts(&called, &stem(&line.name), sizes)),
        };
        let (mut walk, error) = match found {
            Ok(found) => found,
            Err(why) => {
                let why = why.unwrap_or_default();
                told.push(format!(
                    "{}: {name} does not answer to itself in every size, and is left out{why}",
                    piece.name
                ));
                continue;
            }
        };
        move_walk(&mut walk, &moves);
        if let Some(words) = unfit(&walk, piece, drawn, shifts, (unit, sizes)) {
            told.push(format!("{}: {name} {words}", piece.name));
            continue;
        }
        // All its parts are lines of their own: a line goes one way.
        let runs = walk.runs();
        let names: Vec<String> =
            (0..runs)
                .map(|run| {
                    if runs == 1 { name.clone() } else { unlike(&format!("{name}_{}", run + 1), &mut taken) }
                })
                .collect();
        name_stretches(&mut walk, &names, &mut taken);
        piece.error = piece.error.max(error);
        let own = walk.edges.iter().filter(|_| is_borrowed).map(|edge| edge.name.clone());
        piece.borrowed.extend(own);
        piece.lines.push(walk);
    }
    remarks.extend(at_most(told, |more| format!("{}: {more} more lines are left out", piece.name)));
}

/// What is said of a line that cannot come in, behind its name.
fn unfit(
    walk: &Walk,
    piece: &Piece,
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    (unit, sizes): (TextUnit, &[String]),
) -> Option<String> {
    let (outline, written) = (as_written(&piece.outline, unit), as_written(walk, unit));
    let outside = |edge| (0..drawn.len()).any(|size| is_outside(&outline, &written.path(edge, size), size));
    if (0..walk.edges.len()).any(outside) {
        let words =
            "lies at least in part outside of the outline, where cloth is folded or sewn in, and is left out";
        return Some(words.to_owned());
    }
    if let Some(words) = beyond(walk, drawn, shifts, sizes) {
        return Some(format!("{words}, and is left out; let it end at the outline"));
    }
    let (size, at) = turning_back(walk, drawn.len(), unit)?;
    let at = at - shifts.get(size).copied().unwrap_or_default();
    let outline = drawn.get(size).and_then(|drawn| Course::of(&drawn.outline));
    let at = outline.map_or_else(String::new, |outline| format!(", {}", place(&outline, at)));
    Some(format!(
        "comes to a point and goes back on itself{}{at}, and is left out; bring the handles of that curve nearer to its ends",
        in_size(sizes, size)
    ))
}

/// A line in all sizes, and how far that misses what was drawn; or why it is none.
fn followed(
    each: &[&TracedLine],
    moves: &[Vec2],
    options: &BringOptions,
    sizes: &[String],
) -> Result<(Walk, f64), Option<String>> {
    let courses: Option<Vec<Course>> = each.iter().map(|line| Course::of(&line.path)).collect();
    let courses = one_way(courses.ok_or(None)?, moves);
    let is_near = |(course, by): (&Course, &Vec2)| {
        let reach = course.reach() + *by;
        !is_far(reach.origin()) && !is_far((reach.x1, reach.y1).into())
    };
    if !courses.iter().zip(moves).all(is_near) {
        return Err(None);
    }
    let borrowed: Vec<&Course> = courses.iter().collect();
    let places =
        corners(&borrowed, options.corner).map_err(|why| unlike_lines::why(why, &courses, moves, sizes))?;
    walk(&borrowed, &places, options.tolerance).ok_or(None)
}

/// Where a curve is looked at, in tenths of its length.
const TENTHS: [u32; 9] = [1, 2, 3, 4, 5, 6, 7, 8, 9];
/// Farther than this beyond the outline, in millimetres, no line runs that is drawn a little too long.
const TOO_LONG: f64 = 10.0;

/// What is said of a line that runs beyond the outermost line of its piece.
fn beyond(line: &Walk, drawn: &[&TracedSize], shifts: &[Vec2], sizes: &[String]) -> Option<String> {
    let each =
        drawn.iter().zip(shifts).zip(sizes).enumerate().filter_map(|(size, ((drawn, shift), name))| {
            let outline = Course::of(&drawn.outline)?;
            let segments: Vec<PathSeg> = outline.segments.iter().map(|one| one.course).collect();
            let whole = BezPath::from_path_segments(segments.iter().copied());
            let path = line.whole(size).segments().collect::<Vec<_>>();
            let places =
                path.iter().flat_map(|one| (0..=16).map(move |at| one.eval(f64::from(at) / 16.0) - *shift));
            let outside = places.filter(|place| !whole.contains(*place));
            let off = outside.filter_map(|place| away(&segments, place)).fold(0.0, f64::max);
            (off > TOO_LONG).then(|| (off, one_line(name)))
        });
    let each: Vec<(f64, String)> = each.collect();
    let (most, _) = each.iter().max_by(|(one, _), (other, _)| one.total_cmp(other))?;
    let named: Vec<String> =
        each.iter().map(|(_, name)| name.clone()).filter(|name| !name.is_empty()).collect();
    let in_sizes = if named.is_empty() { String::new() } else { format!(" in {}", listed(&named)) };
    Some(format!("runs up to {most:.0} mm beyond the outline{in_sizes}, where no cloth is"))
}

/// The same lines, those that are drawn the other way round than the first one turned: a line goes no way.
fn one_way(courses: Vec<Course>, moves: &[Vec2]) -> Vec<Course> {
    let ends = |course: &Course, by: Vec2| {
        (!course.closed).then(|| (course.node(0) + by, course.node(course.segments.len()) + by))
    };
    let by = |at: usize| moves.get(at).copied().unwrap_or_default();
    let Some((from, to)) = courses.first().and_then(|first| ends(first, by(0))) else { return courses };
    let is_turned = |(start, end): (Point, Point)| {
        start.distance(from) + end.distance(to) > start.distance(to) + end.distance(from)
    };
    let each = courses.into_iter().enumerate().map(|(at, course)| match ends(&course, by(at)) {
        Some(own) if is_turned(own) => course.reversed(),
        _ => course,
    });
    each.collect()
}

/// Whether no place on a line, that is looked at, lies in the outline: of a straight one its ends and its middle, of a curve so many
/// between, as the compiler looks at them.
fn is_outside(outline: &Walk, line: &[PathSeg], size: usize) -> bool {
    let ring = (0..outline.edges.len()).map(|edge| Path::from_segments(outline.path(edge, size)));
    let Ok(ring) = ring.collect::<Result<Vec<Path>, _>>() else { return false };
    let Ok(path) = Path::from_segments(line.to_vec()) else { return false };
    let (length, tenths) = (path.length(), if path.is_straight() { [0, 5, 10].as_slice() } else { &TENTHS });
    let mut places = tenths.iter().map(|&tenth| path.point_at_length(f64::from(tenth) * length / 10.0));
    !places.any(|place| contains(&ring, place))
}
