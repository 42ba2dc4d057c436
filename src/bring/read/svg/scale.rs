//! A test square: a closed square that is called, or inscribed with, the length of its side.

use super::elements::{Elements, Item, Words};
use super::sizes::says_something;
use crate::bring::error::BringError;
use crate::bring::traced::TracedPath;
use indexmap::IndexSet;
use kurbo::{Affine, BezPath, ParamCurve, PathSeg, Point, Rect, Shape};

/// By how much a square may miss its length and the drawing still be at scale.
const EXACT: f64 = 0.002;
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
    fn is_square(&self) -> bool {
        (self.bounds.width() - self.bounds.height()).abs() < 1e-3 * self.bounds.width()
    }

    fn is_nearly_square(&self) -> bool {
        let (wide, high) = (self.bounds.width(), self.bounds.height());
        (wide - high).abs() <= NEARLY * wide.max(high)
    }
}

/// A test square: which of the items it is, how long its side is said to be, and by what words.
struct Found {
    item: usize,
    frame: Frame,
    length: f64,
    words: String,
    by: By,
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
/// or whose words stand beside it and say another length than it has, makes nothing of the drawing certain.
pub fn by_square(drawing: &mut Elements, file: &str, may_scale: bool) {
    let (found, doubts) = found(drawing);
    drawing.remarks.extend(doubts.into_iter().filter(|_| may_scale));
    let mut scale: Option<(f64, f64)> = None;
    for own in &found {
        let Some(item) = drawing.items.get(own.item) else { continue };
        let line = item.line;
        let (wide, high) = (own.frame.bounds.width(), own.frame.bounds.height());
        if !may_scale {
            continue;
        }
        if own.by == By::Turned {
            let why = format!(
                "a square stands turned and says “{}”: a test square stands upright; turn it, take it out and say the `scale`, or, \
                 if it is a piece, give it a name",
                own.words
            );
            drawing.wrong.push(BringError::new(file, why).at_line(line));
            continue;
        }
        if !own.frame.is_square() {
            let why = format!(
                "a test square that says “{}” is drawn {wide:.1} mm wide and {high:.1} mm high: across and up the drawing is at \
                 two scales, or this is no test square; a piece has its name in it, and `scale` says how large the drawing is",
                own.words
            );
            drawing.wrong.push(BringError::new(file, why).at_line(line));
            continue;
        }
        let off = (own.length / wide - 1.0).abs();
        if own.by == By::Beside && off > EXACT {
            let why = format!(
                "a square is drawn {wide:.1} mm wide, and the words beside it say “{}”: if it is a test square, let them stand in \
                 it, or say the `scale`; if it is a piece, give it a name",
                own.words
            );
            drawing.wrong.push(BringError::new(file, why).at_line(line));
            continue;
        }
        match own.by {
            By::Its | By::Turned => {}
            By::Beside => drawing.remarks.push(format!(
                "the square in line {line} is {wide:.1} mm wide as the words beside it say, and is taken for a test square, not a \
                 piece"
            )),
        }
        let (length, side) = *scale.get_or_insert((own.length, wide));
        if ((own.length / wide) / (length / side) - 1.0).abs() > EXACT {
            let why = format!(
                "two test squares say two scales: {:.1} mm are drawn {wide:.1} mm wide here, and {length:.1} mm {side:.1} mm wide \
                 elsewhere",
                own.length
            );
            drawing.wrong.push(BringError::new(file, why).at_line(line));
        }
    }
    let squares: IndexSet<usize> = found.iter().map(|own| own.item).collect();
    let mut number = 0;
    drawing.items.retain(|_| {
        number += 1;
        !squares.contains(&(number - 1))
    });
    if let Some((length, side)) = scale {
        to_scale(drawing, length, side);
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
                frame.is_square() && length_in(text).is_some_and(|length| (length / side - 1.0).abs() > EXACT)
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
        let said = |text: &String| Some((length_in(text)?, text.clone()));
        if let Some((length, words)) = item.name.iter().chain(inside).find_map(said) {
            all.push(Found { item: *at, frame: *frame, length, words, by: By::Its });
        }
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
        .filter(|words| is_of_a_square(&words.text) && length_in(&words.text).is_some())
        .take(MOST_WORDS)
        .collect();
    let found = drawing.items.iter().enumerate().filter_map(|(at, item)| {
        let [path] = item.paths.as_slice() else { return None };
        let is_named = item.name.as_deref().is_some_and(|name| says_something(name) && !is_of_a_square(name));
        if lengths.is_empty() || is_named || upright(path).is_some() || !is_square(path) {
            return None;
        }
        let whole = BezPath::from_path_segments(path.segments.iter().map(|one| one.course));
        let words = lengths.iter().find(|words| whole.contains(words.at))?;
        let is_free =
            !drawing.words.iter().any(|words| whole.contains(words.at) && !is_of_a_square(&words.text));
        let frame = Frame { bounds: whole.bounding_box() };
        let length = length_in(&words.text).filter(|_| is_free)?;
        Some(Found { item: at, frame, length, words: words.text.clone(), by: By::Turned })
    });
    found.take(MOST_DOUBTS).collect()
}

/// Whether a closed path is four straight sides of one length with right angles between them.
fn is_square(path: &TracedPath) -> bool {
    let sides: Vec<kurbo::Vec2> = path
        .segments
        .iter()
        .filter(|one| matches!(one.course, PathSeg::Line(_)))
        .map(|one| one.course.end() - one.course.start())
        .collect();
    let &[a, b, c, d] = sides.as_slice() else { return false };
    let long = a.hypot();
    path.closed
        && path.segments.len() == 4
        && long > 0.0
        && [b, c, d].iter().all(|side| (side.hypot() - long).abs() <= 1e-3 * long)
        && a.dot(b).abs() <= 1e-3 * long * long
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
    let lengths =
        drawing.words.iter().filter(|words| is_of_a_square(&words.text) && length_in(&words.text).is_some());
    let mut best: Option<(f64, Found)> = None;
    // Whether a square has no name and nothing is written in it: asked once of each.
    let mut is_free: Vec<Option<bool>> = vec![None; frames.len()];
    for words in lengths.take(MOST_WORDS).filter(stands_in_nothing) {
        let Some(length) = length_in(&words.text) else { continue };
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
                let words = words.text.clone();
                best = Some((away, Found { item: *at, frame: *frame, length, words, by: By::Beside }));
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
    is_of_a_square(text) && length_in(text).is_some()
}

/// Whether words are those of a test square: a length, and no more than the usual words with it.
fn is_of_a_square(text: &str) -> bool {
    const WORDS: [&str; 28] = [
        "test",
        "square",
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
    words.all(|word| WORDS.contains(&word) || ["testsquare", "scalesquare"].contains(&word))
        || (lower.contains("square") && length_in(text).is_some())
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

/// The length that some words name, in millimetres: `10 cm`, `test square 4in`, `10 x 10 cm`.
fn length_in(text: &str) -> Option<f64> {
    let lower = text.to_lowercase();
    let number_at = lower.find(|letter: char| letter.is_ascii_digit())?;
    let rest = lower.get(number_at..)?;
    let figures = |rest: &str| -> String {
        rest.chars().take_while(|letter| letter.is_ascii_digit() || *letter == '.').collect()
    };
    let number = figures(rest);
    let blanks = |rest: &str| rest.trim_start_matches([' ', '-', '_']).to_owned();
    let mut unit = blanks(rest.get(number.len()..)?);
    // The other side may be said too.
    if let Some(other) = unit.strip_prefix(['x', '×']) {
        let other = blanks(other);
        unit = blanks(other.get(figures(&other).len()..)?);
    }
    let word: String = unit.chars().take_while(|letter| letter.is_alphabetic()).collect();
    let mm = match &*word {
        "cm" => 10.0,
        "mm" => 1.0,
        "in" | "inch" | "inches" => 25.4,
        "" if unit.starts_with('"') => 25.4,
        _ => return None,
    };
    let length = number.parse::<f64>().ok()? * mm;
    (1.0..2000.0).contains(&length).then_some(length)
}
