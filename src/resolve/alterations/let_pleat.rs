//! `let pleat`: the piece is cut along each fold and moved apart by what the fold takes, evenly, or turned open about the
//! place where it ends in nothing. So the edge is as long with the pleats folded as it was.

use super::Step;
use super::beyond::report_no_line;
use super::carry::carried_over;
use super::turning::{trued, turned, turning};
use crate::garment::{CutHow, DartChange, EdgeId, PleatLet, Target};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::let_in::{LettingIn, Row};
use crate::resolve::work::Work;
use crate::shape::line::{StraightLine, meet, meet_segment};
use crate::shape::outline::is_anticlockwise;
use crate::shape::pivot::{Gap, opened_about};
use crate::shape::spread::Spread;
use crate::shape::tolerance::AT_CORNER;
use crate::shape::{Point, Vec2};
use crate::source::Span;

/// A cut for one fold.
struct Cut {
    /// The edge that it begins at …
    at: usize,
    /// … and how far along it.
    along: f64,
    /// The way that it goes, a unit vector.
    way: Vec2,
    /// How much of the edge is put in, in millimetres.
    wide: f64,
}

/// Lets a pleat into the target.
pub(super) fn let_pleat(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let Some(DartChange::LetPleat(change)) = &step.alteration.dart else { return None };
    let pleat = change.pleat()?;
    let Some(at) = drawn.edges.iter().position(|own| work.garment.is_run_of(own.edge, target.edge)) else {
        report_no_line(work, target, drawn);
        return None;
    };
    let mut piece = work.garment.piece(drawn.piece).clone();
    piece.cut.how = drawn.cut;
    let letting = LettingIn { work, piece: &piece, take_up: &change.take_up, pleat };
    let row = letting.row(drawn, at)?;
    // From the far end of the edge on, so that the places before stay where they are.
    let mut order: Vec<usize> = (0..row.places.len()).collect();
    order.sort_by(|&a, &b| along(&row, b).total_cmp(&along(&row, a)));
    let mut now = drawn.clone();
    let mut taken = vec![0.0; row.places.len()];
    for &nth in &order {
        let place = along(&row, nth);
        let way = letting.way_at(&now, &row, place)?;
        let wide = letting.taken(&row, &now.edges.get(at)?.path, place, way);
        let cut = Cut { at, along: place, way, wide };
        now = match change.nothing {
            None => moved_apart(work, step, &now, &cut)?,
            Some(nothing) => turned_open(work, step, target, change, &now, &cut, nothing)?,
        };
        if let Some(own) = taken.get_mut(nth) {
            *own = wide;
        }
    }
    // Each begins where it was cut, behind what was put in before it.
    let mut stretches = vec![(0.0, 0.0); row.places.len()];
    let mut before = 0.0;
    for &nth in order.iter().rev() {
        let wide = taken.get(nth).copied().unwrap_or(0.0);
        if let Some(own) = stretches.get_mut(nth) {
            *own = (along(&row, nth) + before, along(&row, nth) + before + wide);
        }
        before += wide;
    }
    let laid = letting.laid(&now, &row, &stretches)?;
    now.take_ups.extend(laid);
    trued(work, drawn, now)
}

fn along(row: &Row, nth: usize) -> f64 {
    row.places.get(nth).map_or(0.0, |place| place.along)
}

/// Cut right across and moved apart, along the edge there. What has the fold stays; else what lies higher, or to the left.
fn moved_apart(work: &Work, step: &Step, drawn: &DrawnPiece, cut: &Cut) -> Option<DrawnPiece> {
    let &Cut { at, along, way, wide } = cut;
    let path = &drawn.edges.get(at)?.path;
    let (place, tangent) = (path.point_at_length(along), path.tangent_at_length(along)?);
    let line = StraightLine::at(place, way)?;
    let onward = match drawn.cut {
        CutHow::OnFold(fold) => {
            let fold = &drawn.edge(fold)?.path;
            tangent.dot(fold.start().midpoint(fold.end()) - place) < 0.0
        }
        _ if tangent.x.abs() >= tangent.y.abs() => tangent.x > 0.0,
        _ => tangent.y < 0.0,
    };
    let beyond = if onward { tangent } else { -tangent };
    let made = Spread::new(line, beyond, beyond * wide)
        .and_then(|spread| spread.ring(&ring(drawn)).map(|now| (spread, now)));
    match made {
        Ok((spread, now)) => carried_over(work, drawn, &now, step, |point| spread.moved(point), &[]),
        Err(_) => {
            report(work, drawn, step.alteration.span, |title| {
                format!("{title} cannot be cut and moved apart along the folds of this pleat")
            });
            None
        }
    }
}

/// Cut to the edge where what is put in ends in nothing, and turned open about the place there.
fn turned_open(
    work: &Work,
    step: &Step,
    target: &Target,
    change: &PleatLet,
    drawn: &DrawnPiece,
    cut: &Cut,
    (nothing, span): (EdgeId, Span),
) -> Option<DrawnPiece> {
    let &Cut { at, along, way, wide } = cut;
    let Some(hinge_edge) = drawn.edges.iter().position(|own| work.garment.is_run_of(own.edge, nothing))
    else {
        report_no_line(work, &Target { edge: nothing, span, ..target.clone() }, drawn);
        return None;
    };
    let (own, old) = (drawn.edges.get(hinge_edge)?, ring(drawn));
    let path = &drawn.edges.get(at)?.path;
    let (place, tangent) = (path.point_at_length(along), path.tangent_at_length(along)?);
    let inward = if is_anticlockwise(&old) { tangent.turn_90() } else { -tangent.turn_90() };
    let into = if way.dot(inward) < 0.0 { -way } else { way };
    let name = &work.garment.edge(change.take_up.name).name;
    let to = &work.garment.edge(own.edge).name;
    if matches!(drawn.cut, CutHow::OnFold(fold) if fold == own.edge) || hinge_edge == at {
        report(work, drawn, span, |title| match hinge_edge == at {
            true => format!("{name} begins at {to} of {title}, and cannot end in nothing there too"),
            false => format!("{name} would bend {to}, the fold of {title}, where it ends in nothing"),
        });
        return None;
    }
    let hits = meet(&StraightLine::at(place, into)?, std::slice::from_ref(&own.path)).into_iter();
    let hit = hits.filter(|hit| hit.along > AT_CORNER).min_by(|a, b| a.along.total_cmp(&b.along));
    let leaves = |point: Point| {
        let met = meet_segment(place, point, &old).into_iter();
        let mut met =
            met.filter(|met| met.point.distance(place) > AT_CORNER && met.point.distance(point) > AT_CORNER);
        met.next().and_then(|met| drawn.edges.get(met.edge))
    };
    let Some(hit) = hit else {
        report(work, drawn, span, |title| format!("the folds of {name} do not come to {to} of {title}"));
        return None;
    };
    if let Some(edge) = leaves(hit.point) {
        let met = &work.garment.edge(edge.edge).name;
        report(work, drawn, span, |title| format!("{name} comes to {met} of {title} before {to}"));
        return None;
    }
    if wide >= hit.along {
        report(work, drawn, step.alteration.span, |title| {
            format!(
                "{title} is only {} long along {name}, which takes {}",
                work.amount(hit.along),
                work.amount(wide)
            )
        });
        return None;
    }
    let gap = |edge: usize, at: f64| Gap { edge, from: at, to: at };
    let turns = turning(drawn, hit.point, gap(hinge_edge, hit.at), gap(at, along));
    let made = opened_about(&old, (hinge_edge, hit.at), (at, along), wide, turns).ok()?;
    turned(work, drawn, &made, step)
}

/// Reports that a pleat cannot be let in.
fn report(work: &Work, drawn: &DrawnPiece, span: Span, what: impl FnOnce(&str) -> String) {
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        Diagnostic::new(&catalogue::PLEAT_LET_IN, span, Title::new(what(title)).in_sizes())
            .help("let it run along another line: along …; or evenly across the piece; or let it end in nothing at another edge")
    });
}
