//! From what a drawing holds to a pattern: sizes put side by side, corners matched, edges formed.

use super::allowances::{Allowances, listed};
use super::corners::corners;
use super::course::{Course, SAME};
use super::edges::named;
use super::error::BringError;
use super::figures::TextUnit;
use super::folds;
use super::hems::hem_lines;
use super::inside;
use super::names::{name_of, one_line, unlike};
use super::odd_sizes::OddSizes;
use super::options::BringOptions;
use super::pattern::{Pattern, Piece, Walk};
use super::sizes::{of_one_range, sizes_of};
use super::spikes::spike;
use super::traced::{Traced, TracedPath, TracedPiece, TracedSize};
use super::unmatched::{place, unmatched};
use super::walks::{move_walk, walk};
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
    let mut remarks = traced.remarks.clone();
    let unit =
        options.unit.unwrap_or(if traced.in_inches { TextUnit::Inches } else { TextUnit::Centimetres });
    let mut wrong: Vec<BringError> = of_one_range(traced).err().into_iter().collect();
    let (sizes, against) = sizes_of(traced);
    remarks.extend(against);
    let mut taken = IndexSet::new();
    let mut pieces = Vec::with_capacity(traced.pieces.len());
    for piece in &traced.pieces {
        let name = unlike(&name_of(&piece.name, "piece"), &mut taken);
        match understood(piece, &traced.pieces, name, &sizes, unit, options, &mut remarks) {
            Ok(piece) => pieces.push(piece),
            Err(why) => wrong.push(why),
        }
    }
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
    Ok((pattern, remarks))
}

fn understood(
    piece: &TracedPiece,
    all: &[TracedPiece],
    name: String,
    sizes: &[String],
    unit: TextUnit,
    options: &BringOptions,
    remarks: &mut Vec<String>,
) -> Result<Piece, BringError> {
    let wrong = |why: String| BringError::new(&piece.origin, why);
    let (drawn, called) = side_by_side(piece, all, sizes, &name, remarks);
    let in_size = |at: usize| match called.get(at).map(String::as_str) {
        Some("") | None => String::new(),
        Some(size) => format!(" in {size}"),
    };
    let sewn = drawn.iter().all(|size| size.sew_line.as_ref().is_some_and(|line| line.closed));
    if sewn && let Some(at) = drawn.iter().position(|size| sews_outside(size)) {
        let why = format!(
            "the sew line of {name}{} lies outside the line that it is cut at: are the two exchanged? In DXF the line that is \
             cut is on layer 1, the sew line on layer 14",
            in_size(at)
        );
        return Err(wrong(why));
    }
    let outlines: Vec<&TracedPath> = drawn
        .iter()
        .map(|size| if sewn { size.sew_line.as_ref().unwrap_or(&size.outline) } else { &size.outline })
        .collect();
    let mut courses = Vec::with_capacity(outlines.len());
    for (at, outline) in outlines.iter().enumerate() {
        let course =
            Course::of(outline).ok_or_else(|| wrong(format!("{name} has no outline{}", in_size(at))))?;
        if !course.closed {
            let gap = course.node(0).distance(course.node(course.segments.len()));
            let why = format!(
                "the outline of {name}{} does not close: its ends are {gap:.1} mm apart",
                in_size(at)
            );
            return Err(wrong(why));
        }
        // Handles count too: they are written.
        let bounds = course.reach();
        if bounds.width().max(bounds.height()) > crate::limits::LENGTH_MM {
            return Err(wrong(format!("{name}{} is more than 100 m long: is the scale right?", in_size(at))));
        }
        if course.area() < 1.0 {
            return Err(wrong(format!("the outline of {name}{} holds no area", in_size(at))));
        }
        courses.push(course);
    }
    let borrowed: Vec<&Course> = courses.iter().collect();
    let spikes: Vec<Option<String>> = courses.iter().map(spike).collect();
    // One that stands out alike in all sizes is told of the first.
    let alike = spikes.iter().all(Option::is_some);
    let of_sizes = spikes.iter().enumerate().filter(|(at, _)| *at == 0 || !alike);
    remarks.extend(of_sizes.filter_map(|(at, words)| {
        let words = words.as_ref()?;
        Some(format!("{name}{} ({}): {words}", in_size(at), one_line(&piece.origin)))
    }));
    let mut odd = OddSizes::of(&drawn, &courses, &called);
    let mut places = corners(&borrowed, options.corner).map_err(|why| {
        if let Some(why) = odd.why(&courses, &called, None) {
            return wrong(format!("the sizes of {name} do not answer to each other: {why}"));
        }
        // What crosses itself, or has a point far away, has other corners too, and is told first.
        let crossed = courses.iter().enumerate().find_map(|(at, course)| Some((at, crossed(course)?)));
        let spiked = spikes.iter().enumerate().find_map(|(at, words)| Some((at, words.as_ref()?)));
        wrong(match (crossed, spiked) {
            (Some((at, why)), _) => format!("the outline of {name}{} {why}", in_size(at)),
            (None, Some((at, words))) => format!("in the outline of {name}{}, {words}", in_size(at)),
            (None, None) => unmatched(&name, why, &called, &courses, options.corner),
        })
    })?;
    odd.look_along(&borrowed, &places);
    let begin = beginning(&borrowed, &places, &drawn);
    for own in &mut places {
        own.rotate_left(begin);
    }
    let shifts = shifts(&borrowed, &places);
    let mut outline = walk(&borrowed, &places, options.tolerance).ok_or_else(|| {
        let why = format!(
            "the outline of {name} is too restless to be followed to {} mm: a larger `tolerance` smooths it",
            options.tolerance
        );
        wrong(why)
    })?;
    let error = outline.1;
    move_walk(&mut outline.0, &shifts);
    let outline = outline.0;
    for at in 0..courses.len() {
        sound(&outline, at).map_err(|why| {
            let cause =
                odd.why(&courses, &called, Some(at)).map_or_else(String::new, |why| format!("; {why}"));
            wrong(format!("the outline of {name}{} {why}{cause}", in_size(at)))
        })?;
    }
    let fold = inside::fold_of(&drawn, &shifts, &outline);
    let texts: Vec<String> = drawn.iter().flat_map(|size| &size.texts).map(|text| one_line(text)).collect();
    let mut whole = Piece {
        title: one_line(&piece.name),
        origin: one_line(&piece.origin),
        fold,
        cut: piece.cut.or_else(|| inside::cut_of(&texts)),
        material: piece.material.as_deref().map(one_line).filter(|words| !words.is_empty()),
        allowance: sewn.then(|| inside::allowance_of(&courses, &drawn)).flatten(),
        allowances: Vec::new(),
        sewn,
        lines: Vec::new(),
        hem_lines: Vec::new(),
        marks: Vec::new(),
        notches: Vec::new(),
        borrowed: IndexSet::new(),
        grain: inside::grain_of(&drawn, &shifts),
        error,
        outline,
        name,
    };
    if whole.title.is_empty() {
        whole.title.clone_from(&whole.name);
    }
    let wanted = options.names.get(&whole.name).map(Vec::as_slice).unwrap_or_default();
    named(&mut whole, wanted).map_err(|why| BringError::new("`names`", why))?;
    allowances(&mut whole, &drawn, &shifts, &called, remarks);
    if fold.is_none() {
        let astray = folds::astray(&drawn, &shifts, &whole, &called);
        let is_said = texts.iter().any(|text| text.to_lowercase().contains("fold"));
        remarks.extend(astray.or_else(|| {
            let words =
                format!("{}: it says something of a fold, but no edge of it is drawn as one", whole.name);
            is_said.then_some(words)
        }));
    }
    inside::marks(&drawn, &shifts, &called, &mut whole, remarks);
    let mut of_notches = Vec::new();
    super::notches::notches(&drawn, &shifts, &called, &mut whole, &mut of_notches);
    remarks.extend(of_notches.into_iter().filter(|_| !odd.is_turned()));
    super::lines::lines(&drawn, &shifts, (options, &called), &mut whole, remarks);
    remarks.extend(odd.remarks(&whole, &courses, &called, &shifts));
    let jumping = super::suspect::sizes(&whole, &called).filter(|_| !odd.tells_of_edges());
    // What lies on a piece that is itself drawn wrong leaps with it.
    if jumping.is_none() && !odd.is_turned() {
        remarks.extend(super::jumps::jumps(&whole, &drawn, &called, odd.tells_of_edges()));
    }
    remarks.extend(jumping);
    whole.hem_lines = hem_lines(&whole, drawn.len(), unit, options.allowance.is_some(), remarks);
    Ok(whole)
}

/// Whether a sew line holds more than the line that is cut.
fn sews_outside(size: &TracedSize) -> bool {
    let area = |path: &TracedPath| Course::of(path).map(|course| course.area());
    let sewn = size.sew_line.as_ref().and_then(area);
    sewn.zip(area(&size.outline)).is_some_and(|(sewn, cut)| sewn > cut)
}

/// How wide the piece's allowances are, where they are not the same everywhere and in every size.
fn allowances(
    piece: &mut Piece,
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    called: &[String],
    remarks: &mut Vec<String>,
) {
    if piece.sewn && piece.allowance.is_none() {
        let own = Allowances::of(&piece.outline, drawn, shifts);
        let unlike = own.unlike(piece, called);
        // Where it is even at the middles of edges, and no size is to blame, it is not so between them.
        piece.allowance = unlike.as_ref().and_then(|_| own.even());
        remarks.extend(unlike);
        if piece.allowance.is_none() {
            piece.allowances = own.usual();
            remarks.push(format!(
                "{}: its allowances differ from edge to edge; notes at its edges say how wide the drawing has them",
                piece.name
            ));
        }
    }
    if !piece.sewn && drawn.iter().any(|size| size.sew_line.is_some()) {
        let has_none = |size: &TracedSize| !size.sew_line.as_ref().is_some_and(|line| line.closed);
        let lacking = drawn.iter().zip(called).filter(|(size, _)| has_none(size));
        let lacking: Vec<String> =
            lacking.map(|(_, name)| one_line(name)).filter(|name| !name.is_empty()).collect();
        let which =
            if lacking.is_empty() { String::new() } else { format!(": it lacks in {}", listed(&lacking)) };
        remarks.push(format!(
            "{}: its sew line is not drawn closed in every size, and its outline is taken{which}",
            piece.name
        ));
    }
}

/// The piece in each size of the pattern, or once for all; and what the sizes are called.
fn side_by_side<'a>(
    piece: &'a TracedPiece,
    all: &[TracedPiece],
    sizes: &[String],
    name: &str,
    remarks: &mut Vec<String>,
) -> (Vec<&'a TracedSize>, Vec<String>) {
    let own: Vec<&TracedSize> = piece.sizes.values().collect();
    if own.len() <= 1 {
        let only = piece.sizes.keys().next().cloned().unwrap_or_default();
        if !only.is_empty() && sizes.len() > 1 {
            // One that is called nearly so and lacks that size may be it.
            let lack = all.iter().filter(|other| other.sizes.len() > 1 && !other.sizes.contains_key(&only));
            let meant = crate::report::nearest(&piece.name, lack.map(|other| &*other.name))
                .map_or_else(String::new, |meant| {
                    format!("; is it {}, which lacks {only}?", one_line(meant))
                });
            remarks.push(format!(
                "{name} is drawn in {only} alone: it is taken to be the same in every size{meant}"
            ));
        }
        return (own, vec![only]);
    }
    if piece.sizes.contains_key("") {
        let others: Vec<&str> =
            piece.sizes.keys().map(String::as_str).filter(|size| !size.is_empty()).collect();
        remarks.push(format!(
            "{name} is drawn in {}, and once more without a size: that one is left out; write its size on it",
            others.join(", ")
        ));
    }
    let at = |wanted: &str| sizes.iter().position(|size| size == wanted);
    let mut missing = Vec::new();
    let each = sizes.iter().enumerate().filter_map(|(own, size)| {
        if let Some(found) = piece.sizes.get(size) {
            return Some(found);
        }
        let nearest =
            piece.sizes.iter().min_by_key(|(name, _)| at(name).map_or(usize::MAX, |at| at.abs_diff(own)));
        let (taken, found) = nearest?;
        missing.push(format!("{size} (as {taken})"));
        Some(found)
    });
    let each: Vec<&TracedSize> = each.collect();
    if !missing.is_empty() {
        let words =
            format!("{name} is not drawn in every size; the nearest is taken for {}", missing.join(", "));
        remarks.push(words);
    }
    (each, sizes.to_vec())
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

/// Where a drawn outline crosses itself, if it does: counted from its lowest and leftmost place.
fn crossed(course: &Course) -> Option<String> {
    let ring = course.segments.iter().map(|segment| Path::from_segments([segment.course]));
    let crossing = crossings(&ring.collect::<Result<Vec<Path>, _>>().ok()?)?;
    Some(format!("crosses itself {}", place(course, crossing.point)))
}
