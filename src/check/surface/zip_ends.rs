//! `zipper/sewn-in` and `zipper/open-ends`: zips whose ends are held together where they are to come
//! apart, or free where they stay together; `closure/unclosed`: bands above them that nothing closes.

use super::shuts_rim::tells;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment};
use crate::id_hash::IdMap;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{ClosureLine, Gluing, JoinedBy, Side, StretchId, Surface};
use crate::syntax::tree::ZipperKind;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::ZIPPER_SEWN_IN, &catalogue::ZIPPER_OPEN_ENDS, &catalogue::CLOSURE_UNCLOSED],
    run: Run::PerSize(run),
};

/// A free edge across the end of a zip that is no longer than this, in millimetres, holds both of its
/// sides together there, as the tabs of a wash bag do: two zip tapes are about 3 cm wide.
const ACROSS: f64 = 60.0;

/// A waistband, a cuff or a collar is no deeper than this, in millimetres.
const BAND: f64 = 100.0;

/// An end of a closure: the stretches of both sides there, and whether each is met at its own end.
type Ends = [(StretchId, bool); 2];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    if surface.closures.is_empty() {
        return;
    }
    let gluing = &size.sewn.gluing;
    // Where one closure ends and another goes on, that one holds the end.
    let mut times: IdMap<[u32; 2], u32> = IdMap::default();
    for ends in surface.closures.iter().filter_map(both_ends) {
        let [start, end] = ends.map(|ends| vertices(surface, ends));
        *times.entry(start).or_insert(0) += 1;
        // Laid end for end and sewn in at both ends, both are the same two places: nothing goes on there.
        if end != start {
            *times.entry(end).or_insert(0) += 1;
        }
    }
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        let (Some(ClosureKind::Zipper { kind, .. }), Some(ends)) = (&closure.kind, both_ends(line)) else {
            continue;
        };
        let meets = |ends: Ends| {
            let [one, other] = vertices(surface, ends);
            one == other
        };
        let is_fast = |ends: Ends| {
            meets(ends) || is_held_across(surface, gluing, ends) || is_stitched_down(surface, ends)
        };
        let goes_on = |ends: Ends| times.get(&vertices(surface, ends)).is_some_and(|&times| times > 1);
        let is_held = |ends: Ends| is_fast(ends) || goes_on(ends);
        // Names may have laid the sides end for end; where they hang together, they are told by that.
        let [[start, other_start], [end, other_end]] = ends;
        let crosswise = [[start, other_end], [end, other_start]];
        let is_crosswise = !ends.into_iter().any(is_held) && crosswise.into_iter().any(is_held);
        let ends = if is_crosswise { crosswise } else { ends };
        let meet = ends.map(meets);
        let found = match kind {
            ZipperKind::Separating if meet.contains(&true) => {
                // A waist that is sewn shut below the zip is told as that.
                let mut held = ends.into_iter().zip(meet).filter(|(_, meet)| *meet);
                let held = held.find_map(|(ends, _)| joined_at(surface, ends));
                if held.is_some_and(|seam| tells(garment, size, seam)) {
                    continue;
                }
                sewn_in(garment, surface, line, ends, meet)
            }
            // What another closure holds opens with that, so that one end is sewn or both go on so.
            ZipperKind::Closed | ZipperKind::Concealed
                if !ends.into_iter().any(is_fast) && !ends.into_iter().all(goes_on) =>
            {
                let beyond = ends.into_iter().any(goes_on);
                open_ends(garment, line, *kind, beyond)
            }
            ZipperKind::Closed | ZipperKind::Concealed => {
                let open = ends.into_iter().find(|&ends| !is_held(ends));
                let Some(found) = open.and_then(|ends| unclosed(garment, size, surface, line, ends)) else {
                    continue;
                };
                found
            }
            _ => continue,
        };
        findings.push(Finding::new(size.drawn.size, 0.0, found).about(&*closure.name));
    }
}

/// The start and the end of a closure; none where its line runs inside a piece.
fn both_ends(line: &ClosureLine) -> Option<[Ends; 2]> {
    let [first, second] = &line.sides;
    let start = |side: &[(StretchId, bool)]| side.first().copied();
    let end = |side: &[(StretchId, bool)]| side.last().map(|&(stretch, against)| (stretch, !against));
    Some([[start(first)?, start(second)?], [end(first)?, end(second)?]])
}

fn vertices(surface: &Surface, ends: Ends) -> [u32; 2] {
    let mut both = ends.map(|(stretch, at_end)| {
        let stretch = surface.stretch(stretch);
        if at_end { stretch.end } else { stretch.start }
    });
    both.sort_unstable();
    both
}

/// Whether a short way of free edges leads from the one side of an end to the other.
fn is_held_across(surface: &Surface, gluing: &Gluing, [from, to]: Ends) -> bool {
    let (mut at, mut length) = (from, 0.0);
    for _ in 0..surface.stretches.len() {
        let (next, met_at_end) = gluing.turn(surface, at.0, at.1);
        if (next, met_at_end) == to {
            return true;
        }
        length += surface.length(next);
        if length > ACROSS || gluing.partner(next).is_some() {
            return false;
        }
        at = (next, !met_at_end);
    }
    false
}

/// Whether what lies beyond both sides of an end is stitched down on one piece: a zip across a patch pocket.
fn is_stitched_down(surface: &Surface, ends: Ends) -> bool {
    let host = |(stretch, at_end): (StretchId, bool)| {
        let beyond = if at_end { surface.next(stretch) } else { surface.before(stretch) };
        match surface.join(surface.stretch(beyond).join?).by {
            JoinedBy::Placing(at) => surface.placings.get(at).map(|placing| placing.host),
            JoinedBy::Seam { .. } => None,
        }
    };
    let [one, other] = ends.map(host);
    one.is_some() && one == other
}

fn sewn_in(
    garment: &Garment,
    surface: &Surface,
    line: &ClosureLine,
    ends: [Ends; 2],
    meet: [bool; 2],
) -> Diagnostic {
    let closure = garment.closure(line.closure);
    let which = if meet == [true, true] { "both ends of its zip are" } else { "one end of its zip is" };
    let title = format!("{} is to come apart, but {which} sewn in", closure.name);
    let mut mistake = Diagnostic::new(&catalogue::ZIPPER_SEWN_IN, closure.kind_span, title)
        .label("a separating zip")
        .also(closure.first.span.to(closure.second.span), "its two sides meet at that end");
    let held =
        ends.into_iter().zip(meet).filter(|(_, meet)| *meet).find_map(|(ends, _)| joined_at(surface, ends));
    let help = match held {
        Some(seam) => {
            let seam = garment.seam(seam);
            mistake = mistake.also(seam.name_span, "this seam goes on from there");
            format!(
                "write zipper closed, or concealed, whose lower end stays together; or leave the edges that {} \
                 joins open to their end",
                seam.name
            )
        }
        None => "write zipper closed, or concealed, whose lower end stays together".to_owned(),
    };
    mistake.help(help)
}

/// A seam that begins where both sides of a closure meet.
fn joined_at(surface: &Surface, [(one, at_end), _]: Ends) -> Option<crate::garment::SeamId> {
    let next = if at_end { surface.next(one) } else { surface.before(one) };
    let join = surface.stretch(next).join?;
    match surface.join(join).by {
        JoinedBy::Seam { seam, .. } => Some(seam),
        JoinedBy::Placing(_) => None,
    }
}

/// The ends of a band that meet above a zip, and that nothing closes: edges of a piece of its own, short and free,
/// that both sides of the zip run on into.
fn unclosed(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
    ends: Ends,
) -> Option<Diagnostic> {
    let beyond = ends.map(|(stretch, at_end)| size.sewn.gluing.turn(surface, stretch, at_end).0);
    let is_own =
        |stretch: StretchId| line.faces.iter().flatten().any(|face| *face == surface.face_of(stretch));
    let is_band = |stretch: StretchId| {
        !is_own(stretch) && surface.side_of(stretch).length <= BAND && surface.stretch(stretch).join.is_none()
    };
    let closed = surface.closures.iter().flat_map(|line| line.sides.iter().flatten());
    let is_closed = closed.map(|(at, _)| *at).any(|at| beyond.contains(&at));
    let [one, other] = beyond.map(|stretch| surface.side_of(stretch));
    let are_alike = (one.length - other.length).abs() <= garment.tolerance;
    let pair = |side: &Side| surface.face(side.face).pair;
    if is_closed || pair(one) != pair(other) || !are_alike || !beyond.into_iter().all(is_band) {
        return None;
    }
    let part = size.sewn.part(one.part).part;
    // A facing that is cut after what the zip is in lies behind it, and goes on beyond nothing.
    let origins = garment.origins(part.piece);
    let is_behind = line.faces.iter().flatten().any(|&face| {
        let piece = size.sewn.part(surface.face(face).part).part.piece;
        garment.origins(piece).iter().any(|origin| origins.contains(origin))
    });
    if is_behind {
        return None;
    }
    let drawn = size.drawn.paper(part.paper)?;
    let name = |side: &Side| -> Option<String> {
        let edge = drawn.edge_at(side.edge)?.edge;
        Some(format!("{}.{}", garment.piece(part.piece).name, garment.edge(edge).name))
    };
    let (closure, piece) = (garment.closure(line.closure), garment.piece(part.piece));
    let title = format!("nothing closes the ends of {} beyond {}", piece.title, closure.name);
    let advice = Diagnostic::new(&catalogue::CLOSURE_UNCLOSED, closure.name_span, title)
        .label("ends below them")
        .also(piece.span, "its ends meet there")
        .help(format!(
            "close them: closure {}_hook  {} to {} {{ hooks 1 }}; or let the zip go on: from end to end",
            piece.name,
            name(one)?,
            name(other)?
        ));
    Some(advice)
}

fn open_ends(garment: &Garment, line: &ClosureLine, kind: ZipperKind, goes_on: bool) -> Diagnostic {
    let closure = garment.closure(line.closure);
    let word = if kind == ZipperKind::Concealed { "concealed" } else { "closed" };
    let (open, nothing) = match goes_on {
        true => (
            ": at one end of it another closure goes on, at the other its edges are open",
            "nothing sews these together",
        ),
        false => (", and its edges are open at both ends", "nothing joins these at either end"),
    };
    let title = format!("{} has a {word} zip{open}", closure.name);
    Diagnostic::new(&catalogue::ZIPPER_OPEN_ENDS, closure.kind_span, title)
        .label("stays together at its lower end")
        .also(closure.first.span.to(closure.second.span), nothing)
        .help("write zipper separating, which comes apart; or sew the edges together beyond one end of it")
}
