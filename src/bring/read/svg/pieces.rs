//! From shapes to pieces: which closed path is an outline, and what the shapes inside it are.

use super::again::Again;
use super::elements::Elements;
use super::in_parts;
use super::lacking::lacking;
use super::lying::{Lying, doubled, without_frame};
use super::open_sew;
use super::outline::{NESTED, Outline, Work, shared, together};
use super::roles::{Role, SHORT_STROKE, Shape, roles};
use super::sizes::{Owner, size_in};
use super::small_notches::told_apart;
use super::words;
use crate::bring::at_most::at_most;
use crate::bring::course::Course;
use crate::bring::error::BringError;
use crate::bring::names::name_of;
use crate::bring::read::by_place::by_place;
use crate::bring::read::inside::{Inside, follows, goes_round};
use crate::bring::read::letters::base_name;
use crate::bring::read::line_work::ends;
use crate::bring::read::overlaps::{Lying as Placed, MOST_COMPARED, overlapping};
use crate::bring::read::said::{before_count, is_title};
use crate::bring::read::small_notches::at_sew_line;
use crate::bring::read::two_folds::{TwoFolds, is_other};
use crate::bring::traced::{Traced, TracedLine, TracedMark, TracedNotch, TracedPiece, TracedSize};
use crate::limits::LENGTH_MM;
use indexmap::{IndexMap, IndexSet};
use kurbo::{BezPath, Point, Rect};

/// Puts the pieces of a drawing together.
///
/// # Errors
/// More that lies in one another than in any pattern, which would take too long.
pub fn pieces(drawing: &Elements, owners: &[Owner], file: &str) -> Result<Traced, BringError> {
    let work = Work::default();
    let mut traced = Traced {
        in_inches: drawing.in_inches,
        remarks: drawing.remarks.clone(),
        causes: drawing.causes.clone(),
        wrong: drawing.wrong.clone(),
        units: drawing.unit.clone().into_iter().collect(),
        ..Traced::default()
    };
    let (closed, mut rest) = roles(drawing, owners, &mut traced.remarks);
    let mut closed = told_apart(closed, &mut rest, &work);
    closed.extend(in_parts::in_parts(&mut rest));
    let mut outlines: Vec<Outline> =
        closed.into_iter().enumerate().filter_map(|(number, shape)| outline(number, shape)).collect();
    outlines.sort_by(|one, other| other.area.total_cmp(&one.area));
    traced.causes.extend(without_frame(&mut outlines, file));
    let doubled = doubled(&outlines, drawing);
    let mut rest = match &doubled {
        Some(doubled) => {
            traced.causes.push(doubled.words.clone());
            outlines.retain(|own| !doubled.holds(&own.groups));
            rest.into_iter().filter(|shape| !doubled.holds(&shape.groups)).collect()
        }
        None => rest,
    };
    let mut found: Vec<Outline> = Vec::new();
    let mut lying = Lying::default();
    let has_sizes = outlines.iter().any(|own| own.owner.size.is_some());
    let mut twins = 0;
    for own in outlines {
        if let Some(first) = found.iter_mut().rev().find(|first| is_twin(first, &own, &work)) {
            twins += 1;
            if twins <= MOST_TWINS {
                traced.remarks.push(twice(first, &own, file));
            }
            if first.owner.piece.is_none() {
                first.owner = own.owner;
            }
            continue;
        }
        // In the same size, and inside another: not a piece, but something on it.
        let around = found
            .iter_mut()
            .rev()
            .find(|other| other.owner.size == own.owner.size && holds(other, &own, &work));
        match around {
            None => found.push(own),
            Some(around) => inner(around, own, &work, (&mut lying, &mut rest)),
        }
    }
    traced.remarks.extend(put_together(&found, file));
    traced.wrong.extend(apart(&rest, &found, &work, file));
    let (causes, remarks) = lying.told(drawing, has_sizes);
    traced.causes.extend(causes);
    traced.remarks.extend(remarks);
    overlap(&mut found, file, &mut traced.remarks);
    let known: IndexSet<Option<String>> = found.iter().map(|own| own.owner.size.clone()).collect();
    place(rest, &mut found, (drawing, &known), &work, file, &mut traced);
    let (astray, doubts) = words::put(drawing, owners, &mut found, &known, &work);
    traced.remarks.extend(doubts);
    if work.is_too_much() {
        return Err(BringError::new(file, "more lies in one another in it than in any pattern"));
    }
    gathered(found, drawing, file, &mut traced);
    let told = by_place(&mut traced.pieces);
    traced.remarks.extend(told);
    traced.remarks.extend(words::told(&astray, &traced.pieces));
    Ok(traced)
}

/// Puts all shapes where they belong: on the outline that they lie in, or on none, which is told.
fn place(
    rest: Vec<Shape>,
    found: &mut [Outline],
    (drawing, known): (&Elements, &IndexSet<Option<String>>),
    work: &Work,
    file: &str,
    traced: &mut Traced,
) {
    let mut outside: Vec<String> = Vec::new();
    let mut open: Vec<(usize, Shape)> = Vec::new();
    let mut two_folds = TwoFolds::default();
    let mut lost: IndexSet<String> = IndexSet::new();
    for mut shape in rest {
        if let Some(size) = lost_size(&shape, known, drawing) {
            match goes_round(&shape.path) {
                Some(gap) => does_not_close(shape, gap, file, traced),
                None => drop(lost.insert(size)),
            }
            continue;
        }
        // A number behind the name of a line is no size where no outline has that size.
        if !known.contains(&shape.owner.size) {
            shape.owner.size = None;
        }
        let at = shape.middle();
        let fits = |own: &&mut Outline| {
            (shape.owner.size.is_none() || shape.owner.size == own.owner.size) && near(own, &shape, at, work)
        };
        // The smallest that holds it, of those that it is in most groups with: of sizes in one another, the smallest size's.
        let fitting = found.iter_mut().rev().filter(fits);
        let best = fitting.enumerate().max_by_key(|(at, own)| {
            let in_groups = if shape.owner.size.is_none() { together(&own.groups, &shape.groups) } else { 0 };
            (in_groups, std::cmp::Reverse(*at))
        });
        match best.map(|(_, own)| own) {
            Some(own) if !is_far(own) && open_sew::may_be(&shape, own) => open.push((own.number, shape)),
            Some(own) => {
                if is_other_fold(own, &shape) {
                    two_folds.see(own.owner.piece.as_deref().unwrap_or("a piece"), own.owner.size.as_deref());
                }
                put(own, shape);
            }
            None => match goes_round(&shape.path) {
                Some(gap) => does_not_close(shape, gap, file, traced),
                None => outside.push(match shape.name.is_empty() {
                    true => format!("line {}", shape.line),
                    false => format!("{} in line {}", shape.name, shape.line),
                }),
            },
        }
    }
    traced.causes.extend(lost.iter().map(|size| {
        format!("the layer of size {size} draws no outline, and what is drawn in it is left out: is its outline open, or gone?")
    }));
    traced.remarks.extend(two_folds.told(file, "the first one"));
    open_sew::placed(open, found, work, file, traced);
    found.iter_mut().for_each(|own| strokes_at_sew_line(own, work));
    traced.remarks.extend(lying_outside(outside));
}

/// What is said of lines and marks that lie in no piece.
fn lying_outside(mut outside: Vec<String>) -> Option<String> {
    let what = match outside.len() {
        0 => return None,
        1 => "1 line or mark lies outside of every piece, and is".to_owned(),
        count => format!("{count} lines or marks lie outside of every piece, and are"),
    };
    let more = if outside.len() > MOST_NAMED { " …" } else { "" };
    outside.truncate(MOST_NAMED);
    Some(format!("{what} left out: {}{more}", outside.join(", ")))
}

/// The size of a shape in whose layer no outline stands.
fn lost_size(shape: &Shape, known: &IndexSet<Option<String>>, drawing: &Elements) -> Option<String> {
    let size = shape.owner.size.clone().filter(|_| !known.contains(&shape.owner.size))?;
    let is_layer = |group: &usize| {
        let name = drawing.groups.get(*group).and_then(Option::as_deref);
        name.and_then(size_in).as_ref() == Some(&size)
    };
    (known.iter().any(Option::is_some) && shape.groups.iter().any(is_layer)).then_some(size)
}

/// Tells of a path that goes round and does not close.
fn does_not_close(shape: Shape, gap: f64, file: &str, traced: &mut Traced) {
    let piece = shape.owner.piece.as_ref().map(|_| called(&shape.owner));
    let name = match shape.name.is_empty() {
        true => piece.map_or_else(|| "a path".to_owned(), |piece| format!("a path of {piece}")),
        false => shape.name.clone(),
    };
    let why = format!(
        "{name} goes round like an outline, but does not close: its ends are {gap:.1} mm apart; close it, or take it out"
    );
    traced.wrong.push(BringError::new(file, why).at_line(shape.line));
    traced.open.push(shape.path);
}

/// What an outline is called, for people.
fn called(owner: &Owner) -> String {
    let piece = owner.piece.as_deref().unwrap_or("a piece");
    owner.size.as_ref().map_or_else(|| piece.to_owned(), |size| format!("{piece} in {size}"))
}

/// What is said of outlines that are put together of open paths.
fn put_together(found: &[Outline], file: &str) -> Vec<String> {
    let mut all: Vec<&Outline> = found.iter().filter(|own| !own.parts.is_empty()).collect();
    all.sort_by_key(|own| own.number);
    in_parts::told(all.into_iter().map(|own| (called(&own.owner), &*own.parts)), file)
}

/// What is wrong with outlines that are drawn as open paths whose ends do not meet, and that lie on no piece.
fn apart(rest: &[Shape], found: &[Outline], work: &Work, file: &str) -> Vec<BringError> {
    let each = in_parts::nearly(rest).into_iter().filter_map(|(gap, shape)| {
        let at = shape.middle();
        let is_of_size = |own: &&Outline| shape.owner.size.is_none() || own.owner.size == shape.owner.size;
        let is_on_piece = found.iter().filter(is_of_size).any(|own| own.holds_point(at, work));
        let why = || in_parts::apart(&called(&shape.owner), &shape.parts, gap);
        (!is_on_piece).then(|| BringError::new(file, why()).at_line(shape.line))
    });
    each.collect()
}

/// Makes notches of the strokes at a piece's sew line, if that may be asked.
fn strokes_at_sew_line(own: &mut Outline, work: &Work) {
    let strokes = own.size.lines.iter().filter(|line| line.path.segments.len() == 1).count();
    if work.may(40 * strokes * own.size.sew_line.as_ref().map_or(0, |line| line.segments.len())) {
        at_sew_line(&mut own.size, SHORT_STROKE);
    }
}

/// Tells of outlines of one size that lie partly over one another.
fn overlap(found: &mut [Outline], file: &str, remarks: &mut Vec<String>) {
    let called = |own: &Outline| match &own.owner.piece {
        Some(name) => name.clone(),
        None => format!("the outline in line {}", own.line),
    };
    let all: Vec<Placed> = found
        .iter()
        .map(|own| Placed { called: called(own), size: own.owner.size.as_deref(), path: &own.path })
        .collect();
    // Of sizes in one another that nothing tells apart something else is said.
    let is_nested = |one: usize, other: usize| {
        found.get(one).zip(found.get(other)).is_some_and(|(one, other)| shared(one, other) > NESTED)
    };
    let (doubtful, told) = overlapping(&all, base_name(file), is_nested);
    remarks.extend(told);
    for at in doubtful {
        if let Some(own) = found.get_mut(at) {
            own.size.is_overlapped = true;
        }
    }
}

fn outline(number: usize, shape: Shape) -> Option<Outline> {
    let path = shape.path;
    let course = Course::of(&path)?;
    let whole = BezPath::from_path_segments(course.segments.iter().map(|one| one.course));
    let size = TracedSize::of(path.clone());
    Some(Outline {
        number,
        owner: shape.owner,
        name: shape.name,
        is_dashed: shape.is_dashed,
        groups: shape.groups,
        line: shape.line,
        parts: shape.parts,
        bounds: course.bounds(),
        area: course.area().abs(),
        whole,
        path,
        size,
    })
}

fn holds(outer: &Outline, inner: &Outline, work: &Work) -> bool {
    let within = |rect: &Rect, other: &Rect| {
        rect.x0 <= other.x0 + 0.01
            && rect.y0 <= other.y0 + 0.01
            && rect.x1 >= other.x1 - 0.01
            && rect.y1 >= other.y1 - 0.01
    };
    let corners = inner.path.segments.iter().map(|segment| kurbo::ParamCurve::eval(&segment.course, 0.5));
    within(&outer.bounds, &inner.bounds)
        && outer.area > inner.area * 1.0001
        && corners.take(50).all(|corner| outer.holds_point(corner, work))
}

/// Of outlines that are drawn twice no more are told.
const MOST_TWINS: usize = 20;

/// Whether an outline is another one of the same size once more: it has no other name, and covers the same.
fn is_twin(first: &Outline, own: &Outline, work: &Work) -> bool {
    let (one, other) = (first.bounds, own.bounds);
    let are_near = [one.x0 - other.x0, one.y0 - other.y0, one.x1 - other.x1, one.y1 - other.y1];
    let is_called_else =
        first.owner.piece.as_ref().zip(own.owner.piece.as_ref()).is_some_and(|(one, other)| one != other);
    are_near.iter().all(|off| off.abs() < 0.1)
        && first.owner.size == own.owner.size
        && first.is_dashed == own.is_dashed
        && !is_called_else
        && work.may(60 * (first.path.segments.len() + own.path.segments.len()))
        && Inside::of(&own.path).is_same(&Inside::of(&first.path))
}

/// What is said of an outline that is drawn twice.
fn twice(first: &Outline, own: &Outline, file: &str) -> String {
    let in_size = own.owner.size.as_ref().map_or_else(String::new, |size| format!(" in {size}"));
    let name = first.owner.piece.as_ref().or(own.owner.piece.as_ref());
    let what = name.map_or_else(|| "an outline".to_owned(), |name| format!("the outline of {name}"));
    let (one, other) = (first.line.min(own.line), first.line.max(own.line));
    format!(
        "{what}{in_size} is drawn twice, in line {one} and in line {other} of {}; it is taken once",
        base_name(file)
    )
}

/// Whether a shape lies in an outline, or touches it.
fn near(own: &Outline, shape: &Shape, at: Point, work: &Work) -> bool {
    match shape.role {
        Role::Stroke | Role::Fold | Role::Notch(_) => {
            !is_far(own)
                && own.bounds.inflate(REACH, REACH).contains(at)
                && (own.holds_point(at, work)
                    || work.may(10 * own.path.segments.len()) && shape.distance_to(&own.whole) < REACH)
        }
        _ => own.holds_point(at, work),
    }
}

/// Whether an outline reaches so far that nothing is measured from it: its curves would be parted without end. That is told later.
fn is_far(own: &Outline) -> bool {
    own.bounds.width().max(own.bounds.height()) > 10.0 * LENGTH_MM
}

/// Marks nearer to each other than this, in millimetres, are one.
const ONE_PLACE: f64 = 0.5;

/// Of what lies outside no more is named.
const MOST_NAMED: usize = 5;

/// How far beside an outline a notch may be drawn, in millimetres.
const REACH: f64 = 3.0;

/// A closed path inside an outline: its sew line, or a line on it. What was put together falls into its parts again where it is a line.
fn inner(around: &mut Outline, own: Outline, work: &Work, (lying, rest): (&mut Lying, &mut Vec<Shape>)) {
    let name = own.owner.piece.clone().unwrap_or_default();
    let said = [&name, &own.name].iter().any(|name| open_sew::is_called_sewn(name));
    let dashed = own.is_dashed && !around.is_dashed && follows(&around.bounds, &own.bounds);
    // The same piece in another group may be another size of it, and lie evenly inside too.
    let depth = together(&around.groups, &own.groups);
    let is_other_size = !name.is_empty()
        && around.owner.piece.as_ref() == Some(&name)
        && around.groups.len().min(own.groups.len()) > depth;
    let is_sewn = said || dashed || (!is_other_size && is_even(around, &own, work));
    if around.size.sew_line.is_none() && is_sewn {
        around.size.sew_line = Some(own.path);
        return;
    }
    if !own.parts.is_empty() {
        rest.extend(own.parts.into_iter().filter(|part| part.role != Role::Fold));
        return;
    }
    lying.see(around, &own);
    let is_own = around.owner.piece.as_ref() != Some(&name);
    around.size.lines.push(TracedLine { name: if is_own { name } else { own.name }, path: own.path });
}

/// Whether a path runs everywhere equally far inside an outline: from 2 to 50 mm, to 0.5 mm.
fn is_even(outer: &Outline, inner: &Outline, work: &Work) -> bool {
    if is_far(outer) || is_far(inner) || !work.may(30 * outer.path.segments.len()) {
        return false;
    }
    let every = inner.path.segments.len().div_ceil(24).max(1);
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for segment in inner.path.segments.iter().step_by(every) {
        let middle = kurbo::ParamCurve::eval(&segment.course, 0.5);
        let away =
            outer.path.segments.iter().map(|one| {
                libm::sqrt(kurbo::ParamCurveNearest::nearest(&one.course, middle, 0.01).distance_sq)
            });
        let away = away.fold(f64::INFINITY, f64::min);
        (least, most) = (least.min(away), most.max(away));
    }
    least > 2.0 && most < 50.0 && most - least < 0.5 && inner.path.segments.len() >= 3
}

/// Whether a shape is a fold beside the one that the outline has.
fn is_other_fold(own: &Outline, shape: &Shape) -> bool {
    let line = ends(&shape.path).filter(|_| shape.role == Role::Fold);
    own.size.fold.zip(line).is_some_and(|(fold, line)| is_other(fold, line))
}

fn put(own: &mut Outline, shape: Shape) {
    let touches = shape.role != Role::Stroke || shape.distance_to(&own.whole) < REACH;
    let size = &mut own.size;
    match shape.role {
        Role::Stroke if touches => size.notches.push(TracedNotch { at: shape.nearest_on(&size.outline) }),
        Role::Notch(at) => size.notches.push(TracedNotch { at }),
        Role::Mark(at) => match size.marks.iter_mut().find(|mark| mark.at.distance(at) < ONE_PLACE) {
            // A cross in a circle is one mark.
            Some(known) if known.name.is_empty() => known.name = shape.name,
            Some(_) if shape.name.is_empty() => {}
            _ => size.marks.push(TracedMark { name: shape.name, at }),
        },
        Role::Grain(from, to) if size.grain.is_none() => size.grain = Some((from, to)),
        Role::Fold if size.fold.is_none() => {
            let ends = shape.path.segments.first().zip(shape.path.segments.last());
            size.fold = ends.map(|(first, last)| {
                (kurbo::ParamCurve::start(&first.course), kurbo::ParamCurve::end(&last.course))
            });
        }
        _ => size.lines.push(TracedLine { name: shape.name, path: shape.path }),
    }
}

/// Outlines of one name are one piece in several sizes.
fn gathered(found: Vec<Outline>, drawing: &Elements, file: &str, traced: &mut Traced) {
    let mut order: Vec<Outline> = found;
    order.sort_by_key(|own| own.number);
    let mut pieces: IndexMap<String, TracedPiece> = IndexMap::new();
    let sized = order.iter().any(|own| own.owner.size.is_some());
    // Nameless ones of several sizes answer to each other by their number in their size.
    let mut numbers: IndexMap<Option<String>, usize> = IndexMap::new();
    let names = names(&order);
    let order_count = order.len();
    let nameless_lines: Vec<usize> = order
        .iter()
        .zip(&names)
        .filter(|(own, name)| name.is_none() && own.name.is_empty())
        .map(|(own, _)| own.line)
        .collect();
    // By name and size the line of the first, and the last number that is taken.
    let mut lines: IndexMap<(String, String), (usize, usize)> = IndexMap::new();
    let mut told_again: Vec<String> = Vec::new();
    let compared = if sized && order.len() <= MOST_COMPARED { &*order } else { &[] };
    let doubtful = compared.iter().enumerate().filter_map(|(at, own)| doubtful_size(at, own, &order));
    let file_name = base_name(file);
    let more = |more: usize| format!("{more} more outlines of {file_name} lie over others as sizes do");
    traced.remarks.extend(at_most(doubtful, more));
    let again = Again::of(&order, &names, drawing, file);
    traced.causes.extend(again.cause.clone());
    for (own, name) in order.into_iter().zip(names) {
        let number = numbers.entry(own.owner.size.clone()).or_insert(0);
        let name = name.unwrap_or_else(|| {
            *number += 1;
            format!("piece {number}")
        });
        let size = own.owner.size.clone().unwrap_or_default();
        // Names that differ in no more than capitals are one.
        let stem = name_of(&name, "piece");
        let numbered = |count: usize| if count > 1 { format!("{stem}_{count}") } else { stem.clone() };
        let (first, count) = lines.entry((stem.clone(), size.clone())).or_insert((own.line, 1));
        while pieces.get(&numbered(*count)).is_some_and(|known| known.sizes.contains_key(&size)) {
            *count += 1;
        }
        let (first, count) = (*first, *count);
        let called = if count > 1 { format!("{name} {count}") } else { name.clone() };
        if count > 1 {
            told_again.extend(again.words([&name, &called], &size, [first, own.line]));
        }
        let what = if sized { "layers or names" } else { "paths" };
        let piece = pieces.entry(numbered(count)).or_insert_with(|| TracedPiece {
            origin: format!("{called}, of the {what} of {}", base_name(file)),
            name: called.clone(),
            sizes: IndexMap::new(),
            cut: None,
            material: None,
        });
        piece.sizes.insert(size, own.size);
    }
    traced.remarks.extend(at_most(told_again, |more| {
        format!("{more} more outlines of {file_name} have the name and the size of another one")
    }));
    traced.causes.extend(nameless(&nameless_lines, order_count, file));
    traced.remarks.extend(pieces.values().flat_map(lacking));
    traced.pieces.extend(pieces.into_values());
}

/// What is said of outlines without a name beside others that have one.
fn nameless(lines: &[usize], all: usize, file: &str) -> Option<String> {
    if lines.is_empty() || 2 * lines.len() >= all {
        return None;
    }
    let mut named: Vec<String> = lines.iter().take(MOST_NAMED).map(|line| format!("line {line}")).collect();
    named.extend((lines.len() > MOST_NAMED).then(|| "…".to_owned()));
    Some(format!(
        "{} of {} {} no name, and others have one: each comes in as a piece; if it is a box, a sign or a key to the drawing, take it \
         out ({})",
        match lines.len() {
            1 => "1 closed path".to_owned(),
            count => format!("{count} closed paths"),
        },
        base_name(file),
        if lines.len() == 1 { "has" } else { "have" },
        named.join(", ")
    ))
}

/// What outlines are called: by their names or by words in them. Words that stand once, inside the smallest of several sizes that
/// lie in one another, name all of these.
fn names(outlines: &[Outline]) -> Vec<Option<String>> {
    let own = |own: &Outline| {
        let mut written = own.size.texts.iter().map(|text| before_count(text));
        own.owner.piece.clone().or(written.find(|text| is_title(text)).map(str::to_owned))
    };
    let mut names: Vec<Option<String>> = outlines.iter().map(own).collect();
    let of_sizes = outlines.iter().zip(&names);
    let mut taken: IndexSet<(String, Option<String>)> =
        of_sizes.filter_map(|(own, name)| Some((name.clone()?, own.owner.size.clone()))).collect();
    let compared = if outlines.len() <= MOST_COMPARED { outlines } else { &[] };
    for (at, nameless) in compared.iter().enumerate() {
        if names.get(at).is_none_or(Option::is_some) || nameless.owner.size.is_none() {
            continue;
        }
        let beside = outlines.iter().zip(&names).filter_map(|(other, name)| {
            let is_other_size = other.owner.size.is_some() && other.owner.size != nameless.owner.size;
            let over = shared(other, nameless);
            let name = name.as_ref().filter(|_| is_other_size && over > NESTED)?;
            (!taken.contains(&(name.clone(), nameless.owner.size.clone()))).then_some((over, name))
        });
        let best = beside.max_by(|(one, _), (other, _)| one.total_cmp(other)).map(|(_, name)| name.clone());
        taken.extend(best.clone().map(|best| (best, nameless.owner.size.clone())));
        if let Some(name) = names.get_mut(at) {
            *name = best;
        }
    }
    names
}

/// What is said of an outline that lies over another one as a size does, and has no size or that one's.
fn doubtful_size(at: usize, own: &Outline, all: &[Outline]) -> Option<String> {
    let name = own.owner.piece.as_deref().unwrap_or("a closed path");
    let over = |other: &&Outline| shared(other, own) > NESTED;
    if own.owner.size.is_none() {
        let other = all.iter().filter(over).find_map(|other| other.owner.size.as_deref())?;
        return Some(format!(
            "{name} lies over an outline of size {other}, and neither its layer nor its name says a size: it is taken for a \
             piece of its own; `sizes-from` says how sizes are told apart"
        ));
    }
    let size = own.owner.size.as_deref()?;
    // Of two that are called alike it is told that they are.
    let is_other = |other: &&Outline| {
        other.owner.size == own.owner.size
            && (own.owner.piece.is_none() || other.owner.piece != own.owner.piece)
    };
    let before = all.iter().take(at).filter(over).find(is_other)?;
    let other = before.owner.piece.as_deref().unwrap_or("another");
    Some(format!(
        "{name} lies over {other} in the same size {size}: it is taken for a piece of its own; are two layers called alike?"
    ))
}
