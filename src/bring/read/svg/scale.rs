//! A test square: a closed square that is called, or inscribed with, the length of its side.

use super::elements::{Elements, Item, Words};
use super::sizes::says_something;
use crate::bring::error::BringError;
use crate::bring::traced::TracedPath;
use crate::report::INCH;
use indexmap::IndexSet;
use kurbo::{Affine, BezPath, ParamCurve, PathSeg, Point, Rect, Shape};

/// By how much a square may miss its length and the drawing still be at scale.
const EXACT: f64 = 0.002;
/// By how much what two sides of a square say may differ, as a share, and be one scale.
const EVEN: f64 = 1e-3;
/// A rectangle whose sides differ by more, as a share, was hardly meant as a square.
const NEARLY: f64 = 0.25;
/// Words no farther beside a square than this, in millimetres, or than its side, may be its own.
const BESIDE: f64 = 60.0;
/// Of words that stand beside something no more are looked at: a drawing has one test square, or a few.
const MOST_WORDS: usize = 200;
/// Of squares that may be test squares no more are told.
const MOST_DOUBTS: usize = 20;

/// A rectangle that stands upright.
#[derive(Debug, Clone, Copy)]
struct Frame {
    bounds: Rect,
}

impl Frame {
    fn found(&self, item: usize, measures: Measures, words: &str, by: By) -> Found {
        let drawn = (self.bounds.width(), self.bounds.height());
        Found { item, drawn, measures, words: words.to_owned(), by }
    }

    fn is_nearly_square(&self) -> bool {
        let (wide, high) = (self.bounds.width(), self.bounds.height());
        (wide - high).abs() <= NEARLY * wide.max(high)
    }
}

/// A test square: which of the items it is, how it is drawn, what it is said to measure, and by what words.
struct Found {
    item: usize,
    /// How wide and how high it is drawn, in millimetres; of one that stands turned its two sides.
    drawn: (f64, f64),
    measures: Measures,
    words: String,
    by: By,
}

impl Found {
    /// What is said of its width, and how wide it is drawn, where its height says the same scale.
    fn across(&self) -> Option<(f64, f64)> {
        let (wide, high) = self.drawn;
        let Measures { one, other } = self.measures;
        // Nobody says which of two measures is the one across.
        let ways = [(one, other), (other, one)];
        let fits = |(across, up): &(f64, f64)| ((across / wide) / (up / high) - 1.0).abs() < EVEN;
        ways.into_iter().find(fits).map(|(across, _)| (across, wide))
    }

    /// By what share its measures miss what is drawn; none where its sides are at two scales.
    fn off(&self) -> Option<f64> {
        self.across().map(|(said, drawn)| (said / drawn - 1.0).abs())
    }
}

/// By what a test square is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum By {
    /// Words in it, or its name, that say a length and nothing else.
    Its,
    /// Words in it that say a length and nothing else, and it stands turned.
    Turned,
    /// Words beside it.
    Beside,
}

/// Takes test squares out of a drawing and, if `may_scale`, brings it to the scale that the first one says. One that is no square,
/// or whose words stand beside it and say another length than it has, makes nothing of the drawing certain. Where the maker has
/// said the scale, that holds, and it is told what does not agree with it.
pub fn by_square(drawing: &mut Elements, file: &str, may_scale: bool) {
    let (found, doubts) = found(drawing);
    drawing.remarks.extend(doubts.into_iter().filter(|_| may_scale));
    let mut scale: Option<(f64, f64)> = None;
    let mut squares: IndexSet<usize> = IndexSet::new();
    for own in &found {
        let Some(line) = drawing.items.get(own.item).map(|item| item.line) else { continue };
        if may_scale {
            squares.insert(own.item);
            match certain(own, &mut scale) {
                Ok(remark) => {
                    drawing.remarks.extend(remark.map(|words| format!("the square in line {line} {words}")))
                }
                Err(why) => drawing.wrong.push(BringError::new(file, why).at_line(line)),
            }
        } else {
            let (is_square, words) = beside_a_said_scale(own, line);
            drawing.remarks.push(words);
            if is_square {
                squares.insert(own.item);
            }
        }
    }
    let mut number = 0;
    drawing.items.retain(|_| {
        number += 1;
        !squares.contains(&(number - 1))
    });
    if let Some((length, side)) = scale {
        to_scale(drawing, length, side);
    }
}

/// Whether a test square says what the others do; what is said of it where it does.
///
/// # Errors
/// Why nothing is certain by it.
fn certain(own: &Found, scale: &mut Option<(f64, f64)>) -> Result<Option<String>, String> {
    let ((wide, high), words) = (own.drawn, &own.words);
    if own.by == By::Turned {
        return Err(format!(
            "a square stands turned and says “{words}”: a test square stands upright; turn it, take it out and say the `scale`, \
             or, if it is a piece, give it a name"
        ));
    }
    let Some((said, drawn)) = own.across() else {
        return Err(format!(
            "a test square that says “{words}” is drawn {wide:.1} mm wide and {high:.1} mm high: across and up the drawing is at \
             two scales, or this is no test square; a piece has its name in it, and `scale` says how large the drawing is"
        ));
    };
    let off = (said / drawn - 1.0).abs();
    if own.by == By::Beside && off > EXACT {
        return Err(format!(
            "a square is drawn {wide:.1} mm wide, and the words beside it say “{words}”: if it is a test square, let them stand \
             in it, or say the `scale`; if it is a piece, give it a name"
        ));
    }
    let (length, side) = *scale.get_or_insert((said, drawn));
    if ((said / drawn) / (length / side) - 1.0).abs() > EXACT {
        return Err(format!(
            "two test squares say two scales: {said:.1} mm are drawn {drawn:.1} mm wide here, and {length:.1} mm {side:.1} mm wide \
             elsewhere"
        ));
    }
    Ok((own.by == By::Beside).then(|| {
        format!(
            "is {wide:.1} mm wide as the words beside it say, and is taken for a test square, not a piece"
        )
    }))
}

/// Whether a test square is left out where the maker has said the scale, and what is told of it.
fn beside_a_said_scale(own: &Found, line: usize) -> (bool, String) {
    let ((wide, high), words) = (own.drawn, &own.words);
    match (own.off(), own.by) {
        (Some(off), _) if off <= EXACT => (
            true,
            format!(
                "the test square in line {line} says “{words}”, and agrees with the `scale` that was said"
            ),
        ),
        (Some(_), By::Its | By::Turned) => (
            true,
            format!(
                "the test square in line {line} says “{words}” and is {wide:.1} mm wide by the `scale` that was said: the `scale` \
                 holds, and the square is left out; is one of them wrong?"
            ),
        ),
        (_, by) => {
            let stand = if by == By::Beside { "beside" } else { "in" };
            (
                false,
                format!(
                    "the words “{words}” stand {stand} a rectangle in line {line} that is {wide:.1} mm wide and {high:.1} mm high by \
                     the `scale` that was said: it is taken for a piece; a test square measures what its words say, and is to be \
                     taken out"
                ),
            )
        }
    }
}

fn to_scale(drawing: &mut Elements, length: f64, side: f64) {
    let factor = length / side;
    if (factor - 1.0).abs() > EXACT {
        let by = Affine::scale(factor);
        for item in &mut drawing.items {
            for segment in item.paths.iter_mut().flat_map(|path| &mut path.segments) {
                segment.course = by * segment.course;
                if let Some(arc) = &mut segment.arc {
                    arc.centre = by * arc.centre;
                }
            }
        }
        for words in &mut drawing.words {
            words.at = by * words.at;
        }
        let says = match drawing.measured {
            true => format!(", {factor:.3} times as large as it says of itself"),
            false => String::new(),
        };
        drawing.remarks.push(format!(
            "the square of {length:.1} mm is drawn {side:.1} mm wide: everything is brought to its scale{says}"
        ));
        if let Some(unit) = &mut drawing.unit {
            unit.size *= factor;
        }
    }
    if let Some(unit) = &mut drawing.unit {
        "as its test square says".clone_into(&mut unit.why);
    }
    drawing.measured = true;
}

/// The test squares of a drawing: by their own names or words in them, else by words that stand beside; and what is said of
/// those that are pieces by their name and test squares by their words.
fn found(drawing: &Elements) -> (Vec<Found>, Vec<String>) {
    let frames: Vec<(usize, Frame)> = drawing
        .items
        .iter()
        .enumerate()
        .filter_map(|(at, item)| Some((at, frame(item)?)))
        .filter(|(_, frame)| frame.is_nearly_square())
        .collect();
    let mut all: Vec<Found> = Vec::new();
    let mut doubts: Vec<String> = Vec::new();
    for (at, frame) in &frames {
        let Some(item) = drawing.items.get(*at) else { continue };
        let (low, side) = (frame.bounds.origin(), frame.bounds.width());
        let within = drawing.words.iter().filter(|words| {
            words.at.x > low.x - side * 0.1
                && words.at.x < frame.bounds.x1
                && words.at.y > low.y - side * 0.4
                && words.at.y < frame.bounds.y1
        });
        let inside: Vec<&String> = within.map(|words| &words.text).collect();
        // What is called like a piece, or has words of a piece in it, is one, however long it says that it is.
        let is_called =
            item.name.as_deref().is_some_and(|name| says_something(name) && !is_of_a_square(name));
        if !inside.iter().all(|text| is_of_a_square(text)) {
            continue;
        }
        if is_called {
            let other = inside.iter().find(|text| {
                measures_in(text)
                    .and_then(|measures| frame.found(*at, measures, text, By::Its).off())
                    .is_some_and(|off| off > EXACT)
            });
            if let Some((text, name)) = other.zip(item.name.as_ref()) {
                doubts.push(format!(
                    "{name} in line {} is a square {side:.1} mm wide with the words “{text}” in it: it has a name, and is taken \
                     for a piece; if it is a test square, let it be called that",
                    item.line
                ));
            }
            continue;
        }
        let said = |text: &String| Some(frame.found(*at, measures_in(text)?, text, By::Its));
        all.extend(item.name.iter().chain(inside).find_map(said));
    }
    all.extend(turned(drawing));
    if all.is_empty() {
        all.extend(beside(drawing, &frames));
    }
    doubts.truncate(MOST_DOUBTS);
    (all, doubts)
}

/// Squares that do not stand upright, have no name, and hold words that say a length and nothing else.
fn turned(drawing: &Elements) -> Vec<Found> {
    let lengths: Vec<&Words> = drawing
        .words
        .iter()
        .filter(|words| is_of_a_square(&words.text) && measures_in(&words.text).is_some())
        .take(MOST_WORDS)
        .collect();
    let found = drawing.items.iter().enumerate().filter_map(|(at, item)| {
        let [path] = item.paths.as_slice() else { return None };
        let is_named = item.name.as_deref().is_some_and(|name| says_something(name) && !is_of_a_square(name));
        if lengths.is_empty() || is_named || upright(path).is_some() {
            return None;
        }
        let side = side_of_square(path)?;
        let whole = BezPath::from_path_segments(path.segments.iter().map(|one| one.course));
        let words = lengths.iter().find(|words| whole.contains(words.at))?;
        let is_free =
            !drawing.words.iter().any(|words| whole.contains(words.at) && !is_of_a_square(&words.text));
        let measures = measures_in(&words.text).filter(|_| is_free)?;
        Some(Found { item: at, drawn: (side, side), measures, words: words.text.clone(), by: By::Turned })
    });
    found.take(MOST_DOUBTS).collect()
}

/// How long the sides of a closed path are, where it has four straight ones of one length with right angles between them.
fn side_of_square(path: &TracedPath) -> Option<f64> {
    let sides: Vec<kurbo::Vec2> = path
        .segments
        .iter()
        .filter(|one| matches!(one.course, PathSeg::Line(_)))
        .map(|one| one.course.end() - one.course.start())
        .collect();
    let &[a, b, c, d] = sides.as_slice() else { return None };
    let long = a.hypot();
    let is_square = path.closed
        && path.segments.len() == 4
        && long > 0.0
        && [b, c, d].iter().all(|side| (side.hypot() - long).abs() <= EVEN * long)
        && a.dot(b).abs() <= EVEN * long * long;
    is_square.then_some(long)
}

/// A square without a name beside words that say a length and nothing else, which stand in nothing.
fn beside(drawing: &Elements, frames: &[(usize, Frame)]) -> Option<Found> {
    let outlines: Vec<(Rect, BezPath)> = drawing
        .items
        .iter()
        .flat_map(|item| item.paths.iter().filter(|path| path.closed))
        .map(|path| BezPath::from_path_segments(path.segments.iter().map(|one| one.course)))
        .map(|path| (path.bounding_box(), path))
        .collect();
    let stands_in_nothing = |words: &&Words| {
        !outlines.iter().any(|(bounds, path)| bounds.contains(words.at) && path.contains(words.at))
    };
    let lengths = drawing
        .words
        .iter()
        .filter(|words| is_of_a_square(&words.text) && measures_in(&words.text).is_some());
    let mut best: Option<(f64, Found)> = None;
    // Whether a square has no name and nothing is written in it: asked once of each.
    let mut is_free: Vec<Option<bool>> = vec![None; frames.len()];
    for words in lengths.take(MOST_WORDS).filter(stands_in_nothing) {
        let Some(measures) = measures_in(&words.text) else { continue };
        for ((at, frame), known) in frames.iter().zip(&mut is_free) {
            let away = distance(frame.bounds, words.at);
            let reach = BESIDE.max(frame.bounds.width());
            if away > reach || best.as_ref().is_some_and(|(least, _)| away >= *least) {
                continue;
            }
            let free = *known.get_or_insert_with(|| {
                let is_unnamed = drawing.items.get(*at).is_some_and(|item| {
                    item.name.as_deref().is_none_or(|name| !says_something(name) || is_of_a_square(name))
                });
                is_unnamed && !drawing.words.iter().any(|other| frame.bounds.contains(other.at))
            });
            if free {
                best = Some((away, frame.found(*at, measures, &words.text, By::Beside)));
            }
        }
    }
    best.map(|(_, found)| found)
}

fn distance(bounds: Rect, at: Point) -> f64 {
    let off = |at: f64, least: f64, most: f64| (least - at).max(at - most).max(0.0);
    libm::hypot(off(at.x, bounds.x0, bounds.x1), off(at.y, bounds.y0, bounds.y1))
}

/// Whether words say a length and nothing else.
pub fn says_a_length(text: &str) -> bool {
    is_of_a_square(text) && measures_in(text).is_some()
}

/// Whether words are those of a test square: a length, and no more than the usual words with it.
fn is_of_a_square(text: &str) -> bool {
    const WORDS: [&str; 30] = [
        "test",
        "square",
        "testsquare",
        "scalesquare",
        "scale",
        "check",
        "control",
        "gauge",
        "reference",
        "print",
        "side",
        "x",
        "by",
        "cm",
        "mm",
        "in",
        "inch",
        "inches",
        "this",
        "is",
        "should",
        "be",
        "at",
        "must",
        "calibration",
        "measure",
        "measures",
        "exactly",
        "when",
        "printed",
    ];
    let lower = text.to_lowercase();
    let mut words = lower.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
    // By itself it is what a piece may be called.
    if lower.trim() == "side" {
        return false;
    }
    words.all(|word| WORDS.contains(&word)) || (lower.contains("square") && measures_in(text).is_some())
}

/// The only path of an item, if it is a rectangle that stands upright.
fn frame(item: &Item) -> Option<Frame> {
    let [path] = item.paths.as_slice() else { return None };
    upright(path).map(|bounds| Frame { bounds })
}

fn upright(path: &TracedPath) -> Option<Rect> {
    if !path.closed || path.segments.len() != 4 {
        return None;
    }
    let corners: Vec<Point> = path
        .segments
        .iter()
        .filter(|one| matches!(one.course, PathSeg::Line(_)))
        .map(|one| one.course.start())
        .collect();
    let &[a, b, c, d] = corners.as_slice() else { return None };
    let bounds = Rect::from_points(a, c);
    let least = 1e-3 * bounds.width().min(bounds.height());
    let is_corner = |at: Point| {
        let near = |own: f64, one: f64, other: f64| (own - one).abs().min((own - other).abs()) <= least;
        near(at.x, bounds.x0, bounds.x1) && near(at.y, bounds.y0, bounds.y1)
    };
    let goes_round =
        (b - a).cross(c - b).abs() > 0.5 * bounds.area() && (d - c).cross(a - d).abs() > 0.5 * bounds.area();
    (least > 0.0 && [b, d].into_iter().all(is_corner) && goes_round).then_some(bounds)
}

/// What some words say of a rectangle's sides, in millimetres: the same of both where they say one length.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Measures {
    one: f64,
    other: f64,
}

/// The measures that some words name: `10 cm`, `test square 4in`, `10 x 10 cm`, `9 cm × 10 cm`.
fn measures_in(text: &str) -> Option<Measures> {
    let lower = text.to_lowercase();
    let number_at = lower.find(|letter: char| letter.is_ascii_digit())?;
    let (first, unit, rest) = length(lower.get(number_at..)?)?;
    let rest = blanks(rest);
    let other = rest.strip_prefix(['x', '×']).or_else(|| rest.strip_prefix("by"));
    let second = other.and_then(|rest| length(blanks(rest)));
    // One unit may stand for both.
    let of_both = second.and_then(|(_, unit, _)| unit);
    let one = first * unit.or(of_both)?;
    let other = match second {
        Some((number, own, _)) => number * own.or(unit)?,
        None => one,
    };
    let is_length = |length: f64| (1.0..2000.0).contains(&length);
    (is_length(one) && is_length(other)).then_some(Measures { one, other })
}

fn blanks(rest: &str) -> &str {
    rest.trim_start_matches([' ', '-', '_'])
}

/// A number, how many millimetres the unit behind it is, if there is one, and what stands behind both.
fn length(text: &str) -> Option<(f64, Option<f64>, &str)> {
    let end = text.find(|letter: char| !letter.is_ascii_digit() && letter != '.').unwrap_or(text.len());
    let (figures, rest) = text.split_at(end);
    let number: f64 = figures.parse().ok()?;
    let behind = blanks(rest);
    if let Some(rest) = behind.strip_prefix('"') {
        return Some((number, Some(INCH), rest));
    }
    let end = behind.find(|letter: char| !letter.is_alphabetic()).unwrap_or(behind.len());
    let (word, after) = behind.split_at(end);
    let mm = match word {
        "cm" => 10.0,
        "mm" => 1.0,
        "in" | "inch" | "inches" => INCH,
        _ => return Some((number, None, rest)),
    };
    Some((number, Some(mm), after))
}

#[cfg(test)]
mod tests {
    use super::{Measures, measures_in};

    #[test]
    fn words_say_one_measure_or_two() {
        let said = |text: &str| measures_in(text).map(|Measures { one, other }| (one, other));
        for (text, measures) in [
            ("10 cm", (100.0, 100.0)),
            ("test square 4in", (101.6, 101.6)),
            ("10 x 10 cm", (100.0, 100.0)),
            ("9 cm × 10 cm", (90.0, 100.0)),
            ("9x10cm", (90.0, 100.0)),
            ("2\" by 4\"", (50.8, 101.6)),
            ("must measure 10 cm when printed", (100.0, 100.0)),
        ] {
            assert_eq!(said(text), Some(measures), "{text}");
        }
        for text in ["", "10", "10 x 10", "cm", "2 squares", "10 m"] {
            assert_eq!(said(text), None, "{text}");
        }
    }
}
