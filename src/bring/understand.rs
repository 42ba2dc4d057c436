//! From what a drawing holds to a pattern: sizes put side by side, corners matched, edges formed.

use super::alike_sizes;
use super::allowances::{allowances, held_otherwise};
use super::corners::corners;
use super::course::{Course, SAME};
use super::curve_points;
use super::cusps::turning_back;
use super::cut_in;
use super::displaced::displaced;
use super::edges::named;
use super::error::BringError;
use super::exchanged_names::exchanged;
use super::figures::TextUnit;
use super::flat_edges::flat;
use super::folds;
use super::grain_beside::lay_on;
use super::hems::hem_lines;
use super::inside;
use super::names::{name_of, one_line, unlike};
use super::odd_sizes::OddSizes;
use super::options::BringOptions;
use super::outlines::{Outlines, crossed, in_size, outlines};
use super::pattern::{Pattern, Piece, Walk};
use super::rounded;
use super::side_by_side::side_by_side;
use super::sizes::{of_one_range, sizes_of};
use super::spikes::spike;
use super::suspect;
use super::told::Told;
use super::traced::{Traced, TracedPiece, TracedSize};
use super::trade_words::{FOLD, has_word};
use super::unmatched::{place, unmatched};
use super::walks::{as_written, move_walk, walk};
use super::zigzag::{self, Beside, zigzags};
use crate::shape::outline::crossings;
use crate::shape::path::Path;
use indexmap::IndexSet;
use kurbo::{Point, Vec2};

/// How much of the smaller of two sizes must lie over the other for them to be drawn in one another.
const NESTED: f64 = 0.3;

/// The pattern, and what is to be said of it.
///
/// # Errors
/// Where a piece has no closed outline, its sizes do not answer to one another, or its outline crosses itself: of every
/// piece what is wrong with it.
pub fn understand(
    traced: &Traced,
    options: &BringOptions,
) -> Result<(Pattern, Vec<String>), Vec<BringError>> {
    let mut told = Told::of(&traced.causes, &traced.remarks);
    let unit =
        options.unit.unwrap_or(if traced.in_inches { TextUnit::Inches } else { TextUnit::Centimetres });
    let mut wrong: Vec<BringError> = of_one_range(traced).err().into_iter().collect();
    let (sizes, against) = sizes_of(traced);
    let mut taken = IndexSet::new();
    let mut pieces = Vec::with_capacity(traced.pieces.len());
    let exchanged = exchanged(traced);
    for own in &exchanged {
        told.cause([own.words.clone()]);
    }
    for (at, (piece, against)) in traced.pieces.iter().zip(against).enumerate() {
        let name = unlike(&name_of(&piece.name, "piece"), &mut taken);
        let cause = exchanged.iter().find(|own| own.pieces.contains(&at));
        let mut of_piece = Told::default();
        match understood(piece, &traced.pieces, name, (&sizes, unit), (options, against), &mut of_piece) {
            Ok(piece) => pieces.push(piece),
            Err(why) => {
                wrong.push(cause.map_or(why, |own| BringError::new(&one_line(&piece.origin), &*own.words)))
            }
        }
        // Whatever else is odd of pieces that are exchanged follows from that.
        if cause.is_none() {
            told.add(of_piece);
        }
    }
    wrong.dedup_by(|one, other| one.why == other.why);
    for name in options.names.keys() {
        if !taken.contains(name) {
            let known: Vec<&str> = taken.iter().map(String::as_str).collect();
            let meant = crate::report::nearest(name, known.iter().copied())
                .map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
            let why = format!("there is no piece {name:?}, but {}{meant}", known.join(", "));
            wrong.push(BringError::new("`names`", why));
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let pattern = Pattern {
        title: options.title.clone(),
        dated: traced.dated.as_deref().map(one_line),
        unit,
        sizes,
        holds: options.allowance,
        pieces,
    };
    told.cause(suspect::scale(&pattern, &traced.units));
    Ok((pattern, told.in_order()))
}

/// A piece of a drawing, and all that it is understood by.
struct Drawn<'a> {
    piece: &'a TracedPiece,
    name: String,
    drawn: Vec<&'a TracedSize>,
    called: Vec<String>,
    outlines: Outlines,
    odd: OddSizes,
    /// By size, points that stand beside a smooth line.
    beside: Vec<Vec<Beside>>,
}

impl Drawn<'_> {
    /// Whether a size is taken from another one.
    fn is_borrowed(&self) -> bool {
        let drawn = &self.drawn;
        drawn
            .iter()
            .enumerate()
            .any(|(at, own)| drawn.iter().take(at).any(|other| std::ptr::eq(*own, *other)))
    }

    fn wrong(&self, why: String) -> BringError {
        BringError::new(&self.piece.origin, why)
    }

    /// By size, points that are told to lie where they should not: what turns beside them does so because of that.
    fn explained(&self) -> Vec<Vec<Point>> {
        let each = self.beside.iter().zip(self.odd.places(self.drawn.len()));
        each.map(|(beside, odd)| beside.iter().map(|own| own.at).chain(odd).collect()).collect()
    }

    /// By size which points are corners, so that those of one number answer to one another.
    fn corners(&mut self, options: &BringOptions, told: &mut Told) -> Result<Vec<Vec<usize>>, BringError> {
        let (name, courses, called) = (&self.name, &self.outlines.courses, &self.called);
        let borrowed: Vec<&Course> = courses.iter().collect();
        let spikes: Vec<Option<String>> = courses.iter().map(spike).collect();
        // One that stands out alike in all sizes is told of the first.
        let alike = spikes.iter().all(Option::is_some);
        let of_sizes = spikes.iter().enumerate().filter(|(at, _)| *at == 0 || !alike);
        told.doubts.extend(of_sizes.filter_map(|(at, words)| {
            let words = words.as_ref()?;
            Some(format!("{name}{} ({}): {words}", in_size(called, at), one_line(&self.piece.origin)))
        }));
        let beside = match spikes.iter().any(Option::is_some) {
            true => Vec::new(),
            false => zigzag::words(&self.beside, courses, called),
        };
        let places = corners(&borrowed, options.corner).map_err(|why| {
            if let Some(why) = self.odd.why(courses, called, None) {
                return self.wrong(format!("the sizes of {name} do not answer to each other: {why}"));
            }
            // What crosses itself, or has a point far away, has other corners too, and is told first.
            let crossed = courses.iter().enumerate().find_map(|(at, course)| Some((at, crossed(course)?)));
            let spiked = spikes.iter().enumerate().find_map(|(at, words)| Some((at, words.as_ref()?)));
            self.wrong(match (crossed, spiked, beside.first()) {
                (Some((at, why)), ..) => format!("the outline of {name}{} {why}", in_size(called, at)),
                (None, Some((at, words)), _) => {
                    format!("in the outline of {name}{}, {words}", in_size(called, at))
                }
                (None, None, Some((which, words))) => format!("in the outline of {name}{which}, {words}"),
                (None, None, None) => unmatched(name, why, called, courses, options.corner),
            })
        })?;
        self.odd.look_along(&borrowed, &places);
        // What the other sizes show is told by them.
        if !self.odd.tells_of_edges() {
            let origin = one_line(&self.piece.origin);
            told.cause(beside.iter().map(|(which, words)| format!("{name}{which} ({origin}): {words}")));
        }
        Ok(places)
    }

    /// The outline in all sizes, from its first corner on, how far it misses what was drawn, and how far each size is moved.
    fn outline(
        &self,
        mut places: Vec<Vec<usize>>,
        (options, unit): (&BringOptions, TextUnit),
    ) -> Result<(Walk, f64, Vec<Vec2>), BringError> {
        let courses = &self.outlines.courses;
        let borrowed: Vec<&Course> = courses.iter().collect();
        let begin = beginning(&borrowed, &places, &self.drawn);
        for own in &mut places {
            own.rotate_left(begin);
        }
        let shifts = shifts(&borrowed, &places);
        let (mut outline, error) = walk(&borrowed, &places, options.tolerance).ok_or_else(|| {
            self.wrong(format!(
                "the outline of {} is too restless to be followed to {} mm: a larger `tolerance` smooths it",
                self.name, options.tolerance
            ))
        })?;
        move_walk(&mut outline, &shifts);
        let written = as_written(&outline, unit);
        for at in 0..courses.len() {
            sound(&written, at).map_err(|why| {
                let cause = self.odd.why(courses, &self.called, Some(at));
                let cause = cause.map_or_else(String::new, |why| format!("; {why}"));
                self.wrong(format!("the outline of {}{} {why}{cause}", self.name, in_size(&self.called, at)))
            })?;
        }
        Ok((outline, error, shifts))
    }
}

fn understood(
    piece: &TracedPiece,
    all: &[TracedPiece],
    name: String,
    (sizes, unit): (&[String], TextUnit),
    (options, against): (&BringOptions, Option<String>),
    told: &mut Told,
) -> Result<Piece, BringError> {
    let (drawn, called) = side_by_side(piece, all, sizes, &name, &mut told.doubts);
    let outlines = outlines(&drawn, &name, &called).map_err(|why| BringError::new(&piece.origin, why))?;
    let odd = OddSizes::of(&drawn, &outlines.courses, &called);
    let beside = outlines.courses.iter().map(zigzags).collect();
    let mut own = Drawn { piece, name, drawn, called, outlines, odd, beside };
    let places = own.corners(options, told)?;
    told.cause(own.odd.explain(against));
    // What is taken from another size says nothing of growth.
    let displaced = (!own.is_borrowed())
        .then(|| {
            let (courses, called) = (&own.outlines.courses, &own.called);
            alike_sizes::ungraded(courses, called).or_else(|| displaced(courses, &places, &own.drawn, called))
        })
        .flatten();
    let (outline, error, shifts) = own.outline(places, (options, unit))?;
    if let Some((size, why)) = flat(&outline, &own.outlines.courses, &shifts, unit, &own.called) {
        let which = in_size(&own.called, size);
        return Err(own.wrong(format!("in the outline of {}{which}, {why}", own.name)));
    }
    if let Some((size, at)) = turning_back(&outline, own.drawn.len(), unit) {
        let which = in_size(&own.called, size);
        let at = at - shifts.get(size).copied().unwrap_or_default();
        let at = own.outlines.courses.get(size).map_or_else(String::new, |course| place(course, at));
        return Err(own.wrong(format!(
            "a curve in the outline of {}{which} comes to a point and goes back on itself, {at}: bring its handles nearer to its \
             ends, or draw a corner there",
            own.name
        )));
    }
    let texts: Vec<String> =
        own.drawn.iter().flat_map(|size| &size.texts).map(|text| one_line(text)).collect();
    let mut whole = Piece {
        title: one_line(&piece.name),
        origin: one_line(&piece.origin),
        fold: inside::fold_of(&own.drawn, &shifts, &outline)
            .filter(|fold| folds::beyond(&outline, *fold, own.drawn.len()).is_none()),
        cut: alike_sizes::possible(piece.cut.or_else(|| inside::cut_of(&texts)), &own.name, &mut told.doubts),
        counts: Vec::new(),
        material: piece.material.as_deref().map(one_line).filter(|words| !words.is_empty()),
        allowance: inside::allowance_of(&own.outlines, &own.drawn),
        allowances: Vec::new(),
        sewn: own.outlines.sewn,
        lines: Vec::new(),
        hem_lines: Vec::new(),
        marks: Vec::new(),
        notches: Vec::new(),
        borrowed: IndexSet::new(),
        grain: inside::grain_of(&own.drawn, &shifts),
        error,
        outline,
        name: own.name.clone(),
    };
    if whole.grain.as_mut().is_some_and(|grain| lay_on(grain, &whole.outline, unit)) {
        told.doubts.push(format!(
            "{} ({}): its grain line is drawn beside the piece, and is laid onto it",
            whole.name, whole.origin
        ));
    }
    if whole.title.is_empty() {
        whole.title.clone_from(&whole.name);
    }
    let wanted = options.names.get(&whole.name).map(Vec::as_slice).unwrap_or_default();
    named(&mut whole, wanted).map_err(|why| BringError::new("`names`", why))?;
    let head = format!("{} ({}): ", whole.name, whole.origin);
    told.cause(displaced.iter().map(|words| format!("{head}{words}")));
    let points = curve_points::doubtful(&own.outlines.courses, &own.explained());
    told.cause(points.map(|words| format!("{head}{words}")));
    let (counts, words) = alike_sizes::counts(&whole.name, &own.drawn, &own.called, whole.cut);
    whole.counts = counts;
    told.doubts.extend(words);
    let rounded = rounded::told(&own.outlines.courses, &own.called);
    told.cause(rounded.map(|words| format!("{head}{words}")));
    let cut_in = cut_in::told(&own.outlines.courses, &own.called);
    told.doubts.extend(cut_in.map(|words| format!("{head}{words}")));
    told.doubts.extend(alike_sizes::grain(&whole.name, all, &own.drawn, &own.called));
    allowances(&mut whole, &own.drawn, &shifts, &own.called, &mut told.doubts);
    told.doubts.extend(held_otherwise(&whole, options.allowance));
    look_inside(&mut whole, &own, &texts, &shifts, (options, unit, displaced.is_some()), told);
    whole.hem_lines = hem_lines(&whole, own.drawn.len(), unit, options.allowance.is_some(), &mut told.doubts);
    Ok(whole)
}

/// Adds what lies on a piece, and says what is in doubt of it; of a size that `is_displaced` less follows.
fn look_inside(
    whole: &mut Piece,
    own: &Drawn,
    texts: &[String],
    shifts: &[Vec2],
    (options, unit, is_displaced): (&BringOptions, TextUnit, bool),
    told: &mut Told,
) {
    let Drawn { drawn, called, odd, .. } = own;
    if whole.fold.is_none() {
        let astray = folds::astray(drawn, shifts, whole, called);
        let is_said = texts.iter().any(|text| has_word(text, &FOLD));
        told.doubts.extend(astray.or_else(|| {
            let words =
                format!("{}: it says something of a fold, but no edge of it is drawn as one", whole.name);
            is_said.then_some(words)
        }));
    }
    inside::marks(drawn, shifts, called, whole, &mut told.doubts);
    let mut of_notches = Vec::new();
    super::notches::notches(drawn, shifts, called, whole, &mut of_notches);
    let follows = odd.is_turned() || is_displaced;
    told.doubts.extend(of_notches.into_iter().filter(|_| !follows));
    super::lines::lines(drawn, shifts, (options, unit, called), whole, &mut told.doubts);
    let odd_sizes = odd.remarks(whole, &own.outlines.courses, called, shifts);
    match odd.is_turned() {
        true => told.cause(odd_sizes),
        false => told.doubts.extend(odd_sizes),
    }
    let jumping = suspect::sizes(whole, called).filter(|_| !odd.tells_of_edges());
    // What lies on a piece that is itself drawn wrong leaps with it.
    if jumping.is_none() && !follows {
        told.doubts.extend(super::jumps::jumps(whole, drawn, called, odd.tells_of_edges()));
    }
    told.doubts.extend(jumping);
}

/// Which corner the outline begins at: after the fold, so that it comes last; else the lowest on the left.
fn beginning(courses: &[&Course], places: &[Vec<usize>], drawn: &[&TracedSize]) -> usize {
    let (Some(course), Some(own)) = (courses.first(), places.first()) else { return 0 };
    let points: Vec<Point> = own.iter().map(|&at| course.node(at)).collect();
    if let Some((from, to)) = drawn.first().and_then(|size| size.fold) {
        let off = |point: Point| (point - from).cross(to - from).abs() / from.distance(to).max(SAME);
        let lies =
            |at: usize| points.get(at % points.len()).is_some_and(|point| off(*point) < inside::ON_FOLD);
        if let Some(at) = (0..points.len()).find(|&at| lies(at) && lies(at + 1)) {
            return (at + 1) % points.len();
        }
    }
    let bounds = course.bounds();
    let from_corner = |point: &Point| (point.x - bounds.x0) + (point.y - bounds.y0);
    let best =
        points.iter().enumerate().min_by(|one, other| from_corner(one.1).total_cmp(&from_corner(other.1)));
    best.map_or(0, |(at, _)| at)
}

/// How far each size is moved, so that the first corner lies at zero: all alike where sizes are drawn in one another,
/// each by itself where they are drawn side by side.
fn shifts(courses: &[&Course], places: &[Vec<usize>]) -> Vec<Vec2> {
    let firsts: Vec<Vec2> = courses
        .iter()
        .zip(places)
        .map(|(course, own)| -course.node(own.first().copied().unwrap_or(0)).to_vec2())
        .collect();
    let Some(base) = courses.first().map(|course| course.bounds()) else { return firsts };
    let nested = courses.iter().all(|course| {
        let own = course.bounds();
        let (width, height) =
            (own.x1.min(base.x1) - own.x0.max(base.x0), own.y1.min(base.y1) - own.y0.max(base.y0));
        width > 0.0 && height > 0.0 && width * height > NESTED * own.area().min(base.area())
    });
    match (nested, firsts.first()) {
        (true, Some(first)) => vec![*first; firsts.len()],
        _ => firsts,
    }
}

/// Whether an outline goes round once without crossing itself.
fn sound(outline: &Walk, size: usize) -> Result<(), String> {
    let mut ring = Vec::with_capacity(outline.edges.len());
    for edge in 0..outline.edges.len() {
        let path = Path::from_segments(outline.path(edge, size));
        ring.push(path.map_err(|_| "cannot be followed".to_owned())?);
    }
    match crossings(&ring) {
        None => Ok(()),
        Some(crossing) => {
            let (x, y) = (crossing.point.x.round(), crossing.point.y.round());
            let (across, up) =
                (if x < 0.0 { "left" } else { "right" }, if y < 0.0 { "below" } else { "above" });
            Err(format!(
                "crosses itself {:.0} mm to the {across} of and {:.0} mm {up} its first corner",
                x.abs(),
                y.abs()
            ))
        }
    }
}
