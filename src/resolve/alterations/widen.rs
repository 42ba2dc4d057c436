//! `extend` and `trim` by another amount at each end, or with a step at the end where an edge was divided.

use super::Step;
use super::beyond::report_no_line;
use super::carry::carried;
use super::extend::{HALVINGS, LEAST, report};
use crate::garment::{EdgeId, EndOfEdge, Garment, Tapered, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnNotch, DrawnPiece};
use crate::resolve::model::DrawnEdgeId;
use crate::resolve::sketch::{corners_of, ring};
use crate::resolve::take_ups::carry::on_edge;
use crate::resolve::work::Work;
use crate::shape::outline;
use crate::shape::widen::{Widening, widen_edge};

/// Moves the target's edge unevenly.
pub(super) fn widen(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let alteration = step.alteration;
    let is_it = |one: &Target| (one.layer, one.piece, one.edge) == (target.layer, target.piece, target.edge);
    let which = alteration.targets.iter().position(is_it)?;
    let mut runs =
        drawn.edges.iter().enumerate().filter(|(_, edge)| work.garment.is_run_of(edge.edge, target.edge));
    let (Some((at, own)), more) = (runs.next(), runs.next()) else {
        report_no_line(work, target, drawn);
        return None;
    };
    if more.is_some() {
        let title = work.title(drawn.piece);
        work.mistake(1.0, title, || {
            let name = &work.garment.edge(target.edge).name;
            let what = format!("{name} lies on {title} in more than one run, each with ends of its own");
            Diagnostic::new(&catalogue::EDGE_PLACE, target.span, Title::new(what).in_sizes())
                .help("name one of its runs, or extend all of it by one amount")
        });
        return None;
    }
    let way = step.kind.way();
    let by = match &alteration.tapered {
        Some(tapered) => amounts(work, target, drawn, at, tapered, which)?.map(|by| way * by),
        None => [way * step.amount; 2],
    };
    let steps = match alteration.steps.get(which) {
        Some(_) => ends_that_step(work, step, target, drawn, at)?,
        None => [false; 2],
    };
    let old = ring(drawn);
    let made = match widen_edge(&old, at, Widening { by, steps }) {
        Ok(made) => made,
        Err(error) => {
            let farthest = if by[0].abs() > by[1].abs() { by[0] } else { by[1] };
            let most = || {
                let (mut can, mut cannot) = (0.0, 1.0);
                for _ in 0..HALVINGS {
                    let middle = f64::midpoint(can, cannot);
                    let widening = Widening { by: by.map(|by| by * middle), steps };
                    match widen_edge(&old, at, widening) {
                        Ok(now) if outline::crossings(&now.edges).is_none() => can = middle,
                        _ => cannot = middle,
                    }
                }
                Some((can * farthest).abs()).filter(|most| *most >= LEAST)
            };
            report(work, step, target, drawn, farthest, (error, &most));
            return None;
        }
    };
    let name = own.edge;
    let after = carried(work, drawn, &made.edges, step, |point| point, &[])?;
    match alteration.steps.get(which) {
        Some(&named) => Some(with_steps(step, after, name, named, made.steps)),
        None => Some(after),
    }
}

/// How much at the edge's start and at its end; reported if an end is not one, or an amount below nothing.
fn amounts(
    work: &Work,
    target: &Target,
    drawn: &DrawnPiece,
    at: usize,
    tapered: &Tapered,
    which: usize,
) -> Option<[f64; 2]> {
    let ends = tapered.at.get(which)?;
    let (start, end) = corners_of(drawn, at)?;
    let (before, after) = beside_it(drawn, at);
    let beside = |edge: EdgeId, at: usize| {
        drawn.edges.get(at).is_some_and(|own| work.garment.is_run_of(own.edge, edge))
    };
    let is_at = |corner: CornerName, neighbour: usize, end: EndOfEdge| match (end, corner) {
        (EndOfEdge::Corner(point), CornerName::Named(own)) => work.garment.is_point_of(own, point),
        (EndOfEdge::Corner(_), CornerName::Between(..)) => false,
        (EndOfEdge::Beside(edge), _) => beside(edge, neighbour),
    };
    let mut found = [None, None];
    let mut sound = true;
    for (amount, (end_named, span)) in tapered.by.iter().zip(ends) {
        let value = work.scalar(amount, None);
        let of = [is_at(start, before, *end_named), is_at(end, after, *end_named)];
        let place = match of {
            [true, false] => 0,
            [false, true] => 1,
            _ => {
                sound = false;
                let title = work.title(drawn.piece);
                work.mistake(1.0, title, || {
                    let name = &work.garment.edge(target.edge).name;
                    let what = match of[0] {
                        true => format!("this is both ends of {name} of {title}"),
                        false => format!("this is no end of {name} of {title}"),
                    };
                    Diagnostic::new(&catalogue::EDGE_PLACE, *span, Title::new(what).in_sizes())
                        .also(work.garment.edge(target.edge).span, name.to_string())
                        .help(
                            "name the corner that the edge has there, or the edge that it meets there alone",
                        )
                });
                continue;
            }
        };
        let Some(value) = value else {
            sound = false;
            continue;
        };
        if value < 0.0 {
            sound = false;
            work.report(|size| {
                let by = work.amount(value);
                let title =
                    Title::new(format!("this end is to move by {by}")).in_sizes().then(", which is below 0");
                let message = Diagnostic::new(&catalogue::ALTER_NEGATIVE, amount.span, title)
                    .label("below 0")
                    .help("give each end an amount of 0 or more; extend moves out, and trim moves in");
                Finding::new(size, -value, message)
            });
        }
        if let Some(place) = found.get_mut(place) {
            *place = Some(value);
        }
    }
    match found {
        [Some(one), Some(other)] if sound => Some([one, other]),
        [_, _] if sound => {
            let title = work.title(drawn.piece);
            work.mistake(1.0, title, || {
                let name = &work.garment.edge(target.edge).name;
                let what = format!("both amounts are for one end of {name} of {title}");
                let spans = ends.map(|(_, span)| span);
                Diagnostic::new(&catalogue::EDGE_PLACE, spans[1], Title::new(what).in_sizes())
                    .also(spans[0], "the same end")
                    .help("say how much at its other end")
            });
            None
        }
        _ => None,
    }
}

/// At which ends an edge borders what it was divided from; reported if at none.
fn ends_that_step(
    work: &Work,
    step: &Step,
    target: &Target,
    drawn: &DrawnPiece,
    at: usize,
) -> Option<[bool; 2]> {
    let (before, after) = beside_it(drawn, at);
    let own = drawn.edges.get(at)?;
    let of_one = |other: usize| {
        let other = drawn.edges.get(other).filter(|_| other != at);
        other.is_some_and(|other| {
            divided_from(work.garment, own.edge) == divided_from(work.garment, other.edge)
        })
    };
    let ends = [of_one(before), of_one(after)];
    if ends.contains(&true) {
        return Some(ends);
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let name = &work.garment.edge(target.edge).name;
        let what = format!("{name} of {title} borders no other part of an edge that was divided, and has nothing to step from");
        Diagnostic::new(&catalogue::ALTER_NEIGHBOURS, step.alteration.span, Title::new(what).in_sizes())
            .also(work.garment.edge(target.edge).span, name.to_string())
            .help(format!("divide the edge that {name} is a part of, or leave `stepped` out"))
    });
    None
}

/// The places of the edges before and after one.
fn beside_it(drawn: &DrawnPiece, at: usize) -> (usize, usize) {
    let edge = DrawnEdgeId::from_index(at);
    (drawn.before(edge).index(), drawn.after(edge).index())
}

/// The edge that a run comes of by division, as far back as it goes, where it is declared.
fn divided_from(garment: &Garment, edge: EdgeId) -> EdgeId {
    let mut at = edge;
    while let Some(before) = garment.edge(at).same_run_as.or(garment.edge(at).copied_from) {
        at = before;
    }
    let divides = &garment.piece(garment.edge(at).piece).drawing.divides;
    for _ in 0..divides.len() {
        let by =
            divides.iter().find(|divide| divide.edge != at && (divide.into.0 == at || divide.into.1 == at));
        match by {
            Some(divide) => at = divide.edge,
            None => break,
        }
    }
    at
}

/// The edge's steps as edges of their own.
fn with_steps(step: &Step, mut drawn: DrawnPiece, name: EdgeId, named: EdgeId, long: [f64; 2]) -> DrawnPiece {
    let Some(at) = drawn.edges.iter().position(|edge| edge.edge == name) else { return drawn };
    let Some(whole) = drawn.edges.get(at).cloned() else { return drawn };
    let length = whole.path.length();
    let mut parts: Vec<DrawnEdge> = Vec::with_capacity(3);
    let mut put = |edge: EdgeId, from: f64, to: f64| {
        let corner = parts.last().map_or(whole.corner, |before| CornerName::Between(before.edge, edge));
        let mut touched = whole.touched.clone();
        if touched.last() != Some(&step.id) {
            touched.push(step.id);
        }
        parts.push(DrawnEdge { edge, path: whole.path.part(from, to), corner, touched });
    };
    if long[0] > 0.0 {
        put(named, 0.0, long[0]);
    }
    put(name, long[0], length - long[1]);
    if long[1] > 0.0 {
        put(named, length - long[1], length);
    }
    let own = parts.iter().find(|part| part.edge == name).map(|part| part.path.clone());
    drawn.edges.splice(at..=at, parts);
    if let Some(own) = own {
        for notch in drawn.notches.iter_mut().filter(|notch| notch.edge == name) {
            let nearest = own.nearest(notch.at);
            *notch = DrawnNotch { along: nearest.at, at: nearest.point, ..*notch };
        }
    }
    let edges = &drawn.edges;
    for placed in drawn.take_ups.iter_mut().filter(|one| one.mouth.is_some_and(|mouth| mouth.edge == name)) {
        if let Some(now) = on_edge(*placed, name, edges) {
            *placed = now;
        }
    }
    drawn
}
