//! Straight lines without a name that say by where and how they lie what they are: a fold along an edge, the grain of each piece.

use super::line_work::ends;
use crate::bring::at_most::at_most;
use crate::bring::course::controls;
use crate::bring::names::one_line;
use crate::bring::traced::{TracedPath, TracedPiece, TracedSize};
use crate::limits::LENGTH_MM;
use kurbo::{ParamCurve, ParamCurveNearest, Point};

/// What lies along an edge lies no farther off than this, in millimetres.
const ON_EDGE: f64 = 0.5;
/// A grain line touches no edge: it keeps this far off, in millimetres.
const OFF_EDGE: f64 = 3.0;
/// And is no shorter than this.
const LONG: f64 = 40.0;
/// Upright or across is what leans by less than this, as a share (2°).
const LEANS: f64 = 0.035;
/// Of longer outlines and of more lines nothing is asked.
const MOST: usize = 2_000;
/// At so many places of a line it is asked how far it lies from an edge.
const PLACES: u32 = 8;

/// Takes such lines for what they are; what is said of them.
pub fn by_place(pieces: &mut [TracedPiece]) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for piece in pieces.iter_mut() {
        told.extend(fold(piece));
    }
    told.extend(grains(pieces));
    at_most(told, |more| format!("{more} more lines without a name may be folds or grain lines"))
}

/// A straight line without a name, by its number among the lines of its piece.
struct Nameless {
    number: usize,
    ends: (Point, Point),
}

fn nameless(size: &TracedSize) -> Vec<Nameless> {
    // What reaches far is no piece, and is told as that: its curves would be parted without end.
    let is_near = |place: &Point| place.x.abs().max(place.y.abs()) < 10.0 * LENGTH_MM;
    let mut reach = size.outline.segments.iter().flat_map(|one| controls(&one.course));
    if size.outline.segments.len() > MOST || size.lines.len() > MOST || !reach.all(|place| is_near(&place)) {
        return Vec::new();
    }
    let straight = size.lines.iter().enumerate().filter(|(_, line)| {
        let is_one =
            matches!(line.path.segments.as_slice(), [one] if matches!(one.course, kurbo::PathSeg::Line(_)));
        line.name.is_empty() && is_one
    });
    straight.filter_map(|(number, line)| Some(Nameless { number, ends: ends(&line.path)? })).collect()
}

/// By size the only one of its lines of which that holds; none where a size has none or several.
fn only_ones(
    piece: &TracedPiece,
    holds: impl Fn(&TracedSize, (Point, Point)) -> bool,
) -> Option<Vec<Nameless>> {
    let each = piece.sizes.values().map(|size| {
        let mut found = nameless(size).into_iter().filter(|line| holds(size, line.ends));
        let first = found.next()?;
        found.next().is_none().then_some(first)
    });
    each.collect()
}

/// Takes a line from corner to corner along an edge for the fold, if words on the piece speak of one.
fn fold(piece: &mut TracedPiece) -> Option<String> {
    if piece.sizes.values().any(|size| size.fold.is_some()) {
        return None;
    }
    let lines = only_ones(piece, |size, ends| lies_along(&size.outline, ends))?;
    let mut texts = piece.sizes.values().flat_map(|size| &size.texts);
    let name = one_line(&piece.name);
    if !texts.any(|text| text.to_lowercase().contains("fold")) {
        return Some(format!(
            "{name}: a line without a name lies all along an edge of it: if the piece is cut on the fold there, call the line fold"
        ));
    }
    for (size, line) in piece.sizes.values_mut().zip(lines) {
        size.lines.remove(line.number);
        size.fold = Some(line.ends);
    }
    Some(format!(
        "{name}: its words speak of a fold, and the line without a name all along an edge of it is taken for that"
    ))
}

/// Takes the line that each piece has for its grain, if they all lie one way and no grain is drawn; else tells of those that may be.
fn grains(pieces: &mut [TracedPiece]) -> Vec<String> {
    let lacks = |piece: &TracedPiece| piece.sizes.values().all(|size| size.grain.is_none());
    let own = |piece: &TracedPiece| lacks(piece).then(|| only_ones(piece, may_be_grain)).flatten();
    let lines: Vec<Option<Vec<Nameless>>> = pieces.iter().map(own).collect();
    let all: Option<Vec<&Nameless>> = lines
        .iter()
        .map(Option::as_ref)
        .collect::<Option<Vec<_>>>()
        .map(|all| all.into_iter().flatten().collect());
    let lie_alike = |is_so: &dyn Fn((Point, Point)) -> bool| {
        all.as_ref().is_some_and(|all| all.iter().all(|line| is_so(line.ends)))
    };
    let way = match (lie_alike(&is_upright), lie_alike(&is_across)) {
        (true, _) => Some("upright"),
        (_, true) => Some("level"),
        (false, false) => None,
    };
    if let Some(way) = way.filter(|_| pieces.len() > 1) {
        for (piece, lines) in pieces.iter_mut().zip(lines) {
            for (size, line) in piece.sizes.values_mut().zip(lines.into_iter().flatten()) {
                size.lines.remove(line.number);
                size.grain = Some(line.ends);
            }
        }
        return vec![format!(
            "no line is called grain; every piece has one {way} line without a name that touches no edge: those are taken for grain lines"
        )];
    }
    let each = pieces.iter().zip(&lines).filter(|(_, lines)| lines.is_some());
    let told = each.map(|(piece, _)| {
        format!(
            "{}: no grain line is drawn, and a straight line without a name touches no edge of it: if it is the grain, call it grain, or \
             set an arrowhead to it",
            one_line(&piece.name)
        )
    });
    told.collect()
}

fn may_be_grain(size: &TracedSize, (from, to): (Point, Point)) -> bool {
    let is_off = |place| away(&size.outline, place) > OFF_EDGE;
    from.distance(to) >= LONG
        && (is_upright((from, to)) || is_across((from, to)))
        && places(from, to).all(is_off)
}

fn is_upright((from, to): (Point, Point)) -> bool {
    (to.x - from.x).abs() <= LEANS * from.distance(to)
}

fn is_across((from, to): (Point, Point)) -> bool {
    (to.y - from.y).abs() <= LEANS * from.distance(to)
}

/// Whether a straight line leads along an outline from one of its points to another.
fn lies_along(outline: &TracedPath, (from, to): (Point, Point)) -> bool {
    let is_point =
        |place: Point| outline.segments.iter().any(|one| one.course.start().distance(place) <= ON_EDGE);
    is_point(from) && is_point(to) && places(from, to).all(|place| away(outline, place) <= ON_EDGE)
}

fn places(from: Point, to: Point) -> impl Iterator<Item = Point> {
    (0..=PLACES).map(move |at| from.lerp(to, f64::from(at) / f64::from(PLACES)))
}

fn away(outline: &TracedPath, place: Point) -> f64 {
    let each = outline.segments.iter().map(|one| one.course.nearest(place, 0.01).distance_sq);
    libm::sqrt(each.fold(f64::INFINITY, f64::min))
}
