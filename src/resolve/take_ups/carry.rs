//! Take-ups go with their paper.

use super::pleat::SHOWN;
use crate::garment::{AlterationId, EdgeId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnPiece};
use crate::resolve::drawn_take_up::{Corners, DrawnPleat, DrawnTakeUp, Mouth};
use crate::resolve::model::Why;
use crate::resolve::work::Work;
use crate::shape::line::{StraightLine, meet_nearest};
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;
use crate::shape::{Affine, Point};
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
    let mut last: Option<(EdgeId, bool)> = None;
    let mut stays = |edge: EdgeId| match last {
        Some((known, stays)) if known == edge => stays,
        _ => {
            let was = drawn.edges.iter().filter(|own| own.edge == edge);
            let is = edges.iter().filter(|own| own.edge == edge);
            let stays = was.map(|own| &own.path).eq(is.map(|own| &own.path));
            last = Some((edge, stays));
            stays
        }
    };
    for placed in &drawn.take_ups {
        let Some(now) = moved_along(placed, &moved) else {
            report_through(work, drawn, placed.name, span);
            return None;
        };
        let Some(mouth) = placed.mouth else {
            all.push(now);
            continue;
        };
        // What did not move on an edge that did not is left there.
        if now.pleat.is_none() && now.lies_as(placed) && stays(mouth.edge) {
            all.push(*placed);
            continue;
        }
        match on_edge(now, mouth.edge, edges) {
            Some(now) => all.push(now),
            None => {
                report_through(work, drawn, placed.name, span);
                return None;
            }
        }
    }
    tie_tucks(&mut all);
    Some(all)
}

/// A take-up on paper that moves so; none where that tears it.
fn moved_along(placed: &DrawnTakeUp, moved: impl Fn(Point) -> Point) -> Option<DrawnTakeUp> {
    let sides = placed.wedge.sides.map(&moved);
    let wedge = Wedge { sides, point: moved(placed.wedge.point) };
    let now = DrawnTakeUp { wedge, upper: placed.upper.map(&moved), apex: moved(placed.apex), ..*placed };
    let Some(pleat) = placed.pleat else { return is_stiff(&placed.corners(), moved).then_some(now) };
    // A pleat goes with its two sides; paper that is moved along its lines makes it longer.
    let (was, is) = (placed.wedge.sides[1] - placed.wedge.sides[0], sides[1] - sides[0]);
    if (was.hypot() - is.hypot()).abs() > ON_OUTLINE {
        return None;
    }
    let turn = libm::atan2(was.cross(is), was.dot(is));
    let into = Affine::rotate(turn) * pleat.into.to_point();
    let into = into.to_vec2();
    let mut ends = pleat.ends;
    for (end, (side, old)) in ends.iter_mut().zip(sides.iter().zip(placed.wedge.sides)) {
        let long = (*end - old).hypot();
        let paper = moved(*end);
        let off = into.cross(paper - *side);
        if pleat.sewn > 0.0 && off.abs() > ON_OUTLINE {
            return None;
        }
        *end = if pleat.tuck.is_some() { paper } else { *side + into * long };
    }
    let point = ends[0].midpoint(ends[1]);
    let wedge = Wedge { sides, point };
    Some(DrawnTakeUp { wedge, apex: point, pleat: Some(DrawnPleat { into, ends, ..pleat }), ..now })
}

/// Whether corners keep their distances from one another where they are moved so.
fn is_stiff(before: &[Point], moved: impl Fn(Point) -> Point) -> bool {
    let after: Corners = before.iter().map(|&corner| moved(corner)).collect();
    before == after.as_slice()
        || before.iter().zip(&after).enumerate().all(|(at, (from, here))| {
            let mut pairs = before.iter().zip(&after).skip(at + 1);
            pairs.all(|(to, there)| (from.distance(*to) - here.distance(*there)).abs() <= ON_OUTLINE)
        })
}

/// The lines of a tuck end where its other end is.
pub(in crate::resolve) fn tie_tucks(all: &mut [DrawnTakeUp]) {
    let ends: Vec<(EdgeId, DrawnPleat, [Point; 2])> = all
        .iter()
        .filter_map(|one| Some((one.name, one.pleat.filter(|pleat| pleat.tuck.is_some())?, one.wedge.sides)))
        .collect();
    for one in all.iter_mut() {
        let Some(pleat) = one.pleat.filter(|pleat| pleat.tuck.is_some()) else { continue };
        let other = ends
            .iter()
            .find(|(name, other, _)| *name == one.name && other.nth == pleat.nth && other.tuck != pleat.tuck);
        let Some((_, _, there)) = other else { continue };
        // Each line ends at the nearer of the other's sides.
        let nearer = |line: Point| {
            let off = |side: Point| pleat.into.cross(side - line).abs();
            if off(there[0]) <= off(there[1]) { there[0] } else { there[1] }
        };
        let ends = one.wedge.sides.map(nearer);
        let sewn = one.wedge.sides[0].distance(ends[0]);
        one.wedge.point = ends[0].midpoint(ends[1]);
        one.apex = one.wedge.point;
        one.pleat = Some(DrawnPleat { ends, sewn, ..pleat });
    }
}

/// A take-up whose legs are brought to the edge of that name.
pub(in crate::resolve) fn on_edge(
    placed: DrawnTakeUp,
    edge: EdgeId,
    edges: &[DrawnEdge],
) -> Option<DrawnTakeUp> {
    let runs = || edges.iter().filter(|own| own.edge == edge).map(|own| &own.path);
    // Most lie on it already.
    let is_there = |path: &Path, mouth: &Mouth| lies_at(path, mouth, placed.wedge.sides);
    if placed.mouth.is_some_and(|mouth| mouth.edge == edge && runs().any(|path| is_there(path, &mouth))) {
        return Some(sewn_as_far(placed));
    }
    let mut best: Option<(f64, DrawnTakeUp)> = None;
    for path in runs() {
        let [one, other] = placed.wedge.sides;
        let found = [(0, one), (1, other)].map(|(at, side)| reached(path, placed.line_from(at), side));
        let [Some((first, from)), Some((second, to))] = found else { continue };
        if from >= to - SAME_POINT {
            continue;
        }
        let off = first.distance(placed.wedge.sides[0]) + second.distance(placed.wedge.sides[1]);
        if best.as_ref().is_none_or(|(known, _)| off < *known) {
            let wedge = Wedge { sides: [first, second], point: placed.wedge.point };
            let mouth = Some(Mouth { edge, from, to });
            best = Some((off, sewn_as_far(DrawnTakeUp { wedge, mouth, ..placed })));
        }
    }
    best.map(|(_, placed)| placed)
}

/// A pleat is sewn, and marked, as far from its edge as before.
pub(super) fn sewn_as_far(placed: DrawnTakeUp) -> DrawnTakeUp {
    let Some(pleat) = placed.pleat.filter(|pleat| pleat.tuck.is_none()) else { return placed };
    let long = if pleat.sewn > 0.0 { pleat.sewn } else { SHOWN };
    let ends = placed.wedge.sides.map(|side| side + pleat.into * long);
    let point = ends[0].midpoint(ends[1]);
    let wedge = Wedge { point, ..placed.wedge };
    DrawnTakeUp { wedge, apex: point, pleat: Some(DrawnPleat { ends, ..pleat }), ..placed }
}

/// Whether a mouth on a path has its two sides where they are said to be.
pub(super) fn lies_at(path: &Path, mouth: &Mouth, sides: [Point; 2]) -> bool {
    let is_at = |along: f64, side: Point| path.point_at_length(along).distance_squared(side) <= THERE * THERE;
    mouth.from >= 0.0 && is_at(mouth.from, sides[0]) && is_at(mouth.to, sides[1])
}

/// Nearer than this, in millimetres, only rounding keeps two places apart.
const THERE: f64 = 1e-9;

/// Where a leg that leads from `point` to `side` meets the path.
pub(super) fn reached(path: &Path, point: Point, side: Point) -> Option<(Point, f64)> {
    let nearest = path.nearest(side);
    if nearest.distance <= SAME_POINT {
        return Some((nearest.point, nearest.at));
    }
    let leg = StraightLine::through(point, side)?;
    match meet_nearest(&leg, path, side, |along| along > SAME_POINT) {
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
            None => drawn.missing.edges.push((own(placed.name).unwrap_or(placed.name), Why::By(by))),
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
    renamed(&now, name, own, edges).or_else(|| renamed(&now.turned(), name, own, edges))
}

/// Whether a cut goes through a take-up or a slit, which is reported at `span`; `off` tells how far beyond the cut a point
/// lies.
pub(in crate::resolve) fn is_cut_through(
    work: &Work,
    drawn: &DrawnPiece,
    off: &dyn Fn(Point) -> f64,
    span: Span,
) -> bool {
    let parted = |corners: &[Point]| {
        corners.iter().any(|&corner| off(corner) > SAME_POINT)
            && corners.iter().any(|&corner| off(corner) < -SAME_POINT)
    };
    let take_up = drawn.take_ups.iter().find(|placed| parted(&placed.corners())).map(|placed| placed.name);
    let through =
        take_up.or_else(|| drawn.slits.iter().find(|slit| parted(&slit.corners())).map(|slit| slit.name));
    if let Some(name) = through {
        report_through(work, drawn, name, span);
    }
    through.is_some()
}

/// Reports that an alteration at `span` goes through a take-up.
pub(in crate::resolve) fn report_through(work: &Work, drawn: &DrawnPiece, name: EdgeId, span: Span) {
    let title = work.title(drawn.piece);
    let slit = drawn.slits.iter().find(|slit| slit.name == name);
    let dart = drawn.take_ups.iter().find(|placed| placed.name == name);
    let said = slit.map(|slit| slit.said).or(dart.map(|placed| placed.said));
    let word = dart.map_or("dart", |placed| placed.word());
    work.mistake(1.0, title, || {
        let named = work.garment.edge(name);
        let name = &named.name;
        let message = Title::new(format!("this goes through {name} of {title}")).in_sizes();
        let why = match slit {
            Some(_) => "a slit keeps the length that is said of it".to_owned(),
            None => format!("a {word} that is cut through cannot be sewn any more"),
        };
        Diagnostic::new(&catalogue::ALTER_THROUGH_DART, span, message)
            .also(said.unwrap_or(named.span), "declared here")
            .help(format!("alter it beside {name}: {why}"))
    });
}
