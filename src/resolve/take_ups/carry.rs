//! Take-ups go with their paper.

use super::carry_slits::is_slit_cut_through;
use crate::garment::{AlterationId, EdgeId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::model::{DrawnEdge, DrawnPiece, DrawnTakeUp, Mouth, Why};
use crate::resolve::work::Work;
use crate::shape::line::{StraightLine, meet};
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;
use crate::shape::{Affine, Point, Vec2};
use crate::source::Span;

/// The take-ups of a piece whose paper goes where `moved` tells, on its edges as they are now; their legs run
/// on to an edge that moved away from them. None where one is torn, which is reported at `span`.
pub(in crate::resolve) fn carried_take_ups(
    work: &Work,
    drawn: &DrawnPiece,
    edges: &[DrawnEdge],
    moved: impl Fn(Point) -> Point,
    span: Span,
) -> Option<Vec<DrawnTakeUp>> {
    let mut all = Vec::with_capacity(drawn.take_ups.len());
    for placed in &drawn.take_ups {
        let before = placed.corners();
        let after: Vec<Point> = before.iter().map(|&corner| moved(corner)).collect();
        let torn = before.iter().enumerate().any(|(at, from)| {
            let pairs = before.iter().zip(&after).skip(at + 1);
            let here = after.get(at).copied().unwrap_or(*from);
            pairs
                .into_iter()
                .any(|(to, there)| (from.distance(*to) - here.distance(*there)).abs() > ON_OUTLINE)
        });
        if torn {
            report_through(work, drawn, placed.name, span);
            return None;
        }
        let wedge = Wedge { sides: placed.wedge.sides.map(&moved), point: moved(placed.wedge.point) };
        let now = DrawnTakeUp { wedge, upper: placed.upper.map(&moved), apex: moved(placed.apex), ..*placed };
        let Some(mouth) = placed.mouth else {
            all.push(now);
            continue;
        };
        match on_edge(now, mouth.edge, edges) {
            Some(now) => all.push(now),
            None => {
                report_through(work, drawn, placed.name, span);
                return None;
            }
        }
    }
    Some(all)
}

/// A take-up whose legs are brought to the edge of that name.
pub(in crate::resolve) fn on_edge(
    placed: DrawnTakeUp,
    edge: EdgeId,
    edges: &[DrawnEdge],
) -> Option<DrawnTakeUp> {
    let runs: Vec<&Path> = edges.iter().filter(|own| own.edge == edge).map(|own| &own.path).collect();
    let mut best: Option<(f64, DrawnTakeUp)> = None;
    for path in runs {
        let found = placed.wedge.sides.map(|side| reached(path, placed.wedge.point, side));
        let [Some((first, from)), Some((second, to))] = found else { continue };
        if from >= to - SAME_POINT {
            continue;
        }
        let off = first.distance(placed.wedge.sides[0]) + second.distance(placed.wedge.sides[1]);
        if best.as_ref().is_none_or(|(known, _)| off < *known) {
            let wedge = Wedge { sides: [first, second], point: placed.wedge.point };
            best = Some((off, DrawnTakeUp { wedge, mouth: Some(Mouth { edge, from, to }), ..placed }));
        }
    }
    best.map(|(_, placed)| placed)
}

/// Where a leg that leads from `point` to `side` meets the path.
pub(super) fn reached(path: &Path, point: Point, side: Point) -> Option<(Point, f64)> {
    let nearest = path.nearest(side);
    if nearest.distance <= SAME_POINT {
        return Some((nearest.point, nearest.at));
    }
    let leg = StraightLine::through(point, side)?;
    let hits = meet(&leg, std::slice::from_ref(path));
    let ahead = hits.iter().filter(|hit| hit.along > SAME_POINT);
    let hit = ahead.min_by(|a, b| a.point.distance(side).total_cmp(&b.point.distance(side)));
    match hit {
        Some(hit) => Some((hit.point, hit.at)),
        None if nearest.distance <= ON_OUTLINE => Some((nearest.point, nearest.at)),
        None => None,
    }
}

/// Of the take-ups of a whole, those on one side of a cut under the side's own names; what is gone is missed.
/// None of them lies across the cut.
pub(in crate::resolve) fn of_half(
    whole: &DrawnPiece,
    drawn: &mut DrawnPiece,
    off: impl Fn(Point) -> f64,
    own: &dyn Fn(EdgeId) -> Option<EdgeId>,
    by: AlterationId,
) {
    for placed in &whole.take_ups {
        let stays = placed.corners().iter().all(|&corner| off(corner) >= -SAME_POINT);
        match own(placed.name).filter(|_| stays) {
            Some(name) => drawn.take_ups.extend(renamed(placed, name, own, &drawn.edges)),
            None => drawn.missing.edges.push((placed.name, Why::By(by))),
        }
    }
}

/// A take-up under other names.
pub(in crate::resolve) fn renamed(
    placed: &DrawnTakeUp,
    name: EdgeId,
    own: &dyn Fn(EdgeId) -> Option<EdgeId>,
    edges: &[DrawnEdge],
) -> Option<DrawnTakeUp> {
    let placed = DrawnTakeUp { name, ..*placed };
    match placed.mouth {
        Some(mouth) => on_edge(placed, own(mouth.edge)?, edges),
        None => Some(placed),
    }
}

/// The take-up turned over or moved, under other names. One that is turned over has its sides the other way
/// round along the edge, where that runs the other way.
pub(in crate::resolve) fn moved_over(
    placed: &DrawnTakeUp,
    by: Affine,
    name: EdgeId,
    own: &dyn Fn(EdgeId) -> Option<EdgeId>,
    edges: &[DrawnEdge],
) -> Option<DrawnTakeUp> {
    let now = placed.transformed(by);
    let swapped = DrawnTakeUp {
        wedge: Wedge { sides: [now.wedge.sides[1], now.wedge.sides[0]], point: now.wedge.point },
        pressed: now.pressed.map(|side| 1 - side),
        near: 1 - now.near,
        ..now
    };
    renamed(&now, name, own, edges).or_else(|| renamed(&swapped, name, own, edges))
}

/// The first take-up that a line goes through; reported at `span`.
pub(in crate::resolve) fn is_cut_through(
    work: &Work,
    drawn: &DrawnPiece,
    line: &StraightLine,
    beyond: Vec2,
    span: Span,
) -> bool {
    let off = |point: Point| beyond.dot(point - line.point);
    let through = drawn.take_ups.iter().find(|placed| {
        let corners = placed.corners();
        corners.iter().any(|&corner| off(corner) > SAME_POINT)
            && corners.iter().any(|&corner| off(corner) < -SAME_POINT)
    });
    if let Some(placed) = through {
        report_through(work, drawn, placed.name, span);
    }
    through.is_some() || is_slit_cut_through(work, drawn, line, beyond, span)
}

/// Reports that an alteration at `span` goes through a take-up.
pub(in crate::resolve) fn report_through(work: &Work, drawn: &DrawnPiece, name: EdgeId, span: Span) {
    let title = work.title(drawn.piece);
    let slit = drawn.slits.iter().find(|slit| slit.name == name);
    let dart = || drawn.take_ups.iter().find(|placed| placed.name == name).map(|placed| placed.said);
    let said = slit.map(|slit| slit.said).or_else(dart);
    work.mistake(1.0, title, || {
        let named = work.garment.edge(name);
        let name = &named.name;
        let message = Title::new(format!("this goes through {name} of {title}")).in_sizes();
        let why = match slit {
            Some(_) => "a slit keeps the length that is said of it",
            None => "a dart that is cut through cannot be sewn any more",
        };
        Diagnostic::new(&catalogue::ALTER_THROUGH_DART, span, message)
            .also(said.unwrap_or(named.span), "declared here")
            .help(format!("alter it beside {name}: {why}"))
    });
}
