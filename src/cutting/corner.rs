//! How the cutting lines of two neighbouring edges meet.
//!
//! Method: dressmaking, as handbooks teach it (common practice): mitred corners go on until they
//! meet; a hem's end is the mirror image of what it will lie against, across the line on which it
//! is turned, and what is turned again, under or up on the outside, is mirrored once more across each line; a square end lies square to the seam that is sewn first, where that seam's stitching
//! line reaches the edge of the cloth.

use super::allowed::{Allowed, CornerCut};
use crate::shape::fold::mirror_across;
use crate::shape::offset::{SMOOTH_GAP, longer, meet_near, reach, straightened};
use crate::shape::path::Path;
use crate::shape::unit;
use crate::syntax::tree::CornerStyle;
use kurbo::{CubicBez, Line, ParamCurve, PathSeg, Point, QuadBez, Vec2};

/// How far from its corner the point of a mitre may lie, in widths of the wider allowance. An
/// angle under 39° has a longer one and is cut off across.
pub(super) const MITRE_LIMIT: f64 = 3.0;

/// A corner of a stitching line.
pub(super) struct Corner<'a> {
    /// The edge that ends there.
    pub before: &'a Path,
    /// The edge that starts there.
    pub after: &'a Path,
    /// What the two are given.
    pub allowed: [Allowed; 2],
    /// 1 where outward is to the left of the way, −1 to the right.
    pub outward: f64,
    /// How the maker wants it.
    pub cut: CornerCut,
}

/// The two cutting lines joined.
pub(super) struct Join {
    /// The line before, cut or gone on with.
    pub before: Path,
    /// What runs across the corner between them.
    pub across: Option<Path>,
    /// The line after.
    pub after: Path,
}

/// The two ways a corner's edges go there, and how far the way turns (out of the piece positive).
struct Turn {
    arriving: Vec2,
    leaving: Vec2,
    cosine: f64,
    out: f64,
}

/// Joins the cutting lines `before` and `after` at a corner; none where they cannot meet.
pub(super) fn join(corner: &Corner, before: &Path, after: &Path) -> Option<Join> {
    let at = corner.before.end();
    if before.end().distance(after.start()) <= SMOOTH_GAP {
        return Some(Join { before: snapped(before, after.start()), across: None, after: after.clone() });
    }
    let arriving = corner.before.tangent_at_end()?;
    let leaving = corner.after.tangent_at_start()?;
    let turn = Turn {
        arriving,
        leaving,
        cosine: arriving.dot(leaving),
        out: -corner.outward * arriving.cross(leaving),
    };
    let [first, second] = corner.allowed;
    let on_fold = first.fold || second.fold;
    let limit = MITRE_LIMIT * first.width.max(second.width);
    let by_style = match corner.cut.style {
        _ if on_fold => None,
        Some(CornerStyle::Square) => square(corner, &turn, before, after),
        Some(CornerStyle::Blunt) => blunt(corner, &turn, before, after, at),
        Some(CornerStyle::Mitred) => None,
        None if turns_hem(first, second) && turn.out > 0.0 && turn.cosine < GOES_ON => {
            hem_end(corner, before, after, at, limit)
        }
        None => None,
    };
    if by_style.is_some() {
        return by_style;
    }
    let mitred = mitre(corner, &turn, before, after);
    match mitred {
        Some((point, join)) if on_fold || turn.out <= 0.0 || point.distance(at) <= limit => Some(join),
        _ if turn.cosine < 0.0 && turn.out > 0.0 => blunt(corner, &turn, before, after, at),
        _ if turn.cosine > NEARLY_STRAIGHT => Some(step(before, after)),
        Some((_, join)) => Some(join),
        None if turn.out > 0.0 => Some(step(before, after)),
        None => None,
    }
}

/// Whether just one of two edges is turned up as a hem.
fn turns_hem(first: Allowed, second: Allowed) -> bool {
    let turned = |allowed: Allowed| allowed.turned_up && allowed.width > 0.0;
    turned(first) != turned(second)
}

/// Both go on straight, or are cut, until they meet. Where the outline turns into the piece the
/// narrower one is only ever cut: its straight continuation runs through the piece.
fn mitre(corner: &Corner, turn: &Turn, before: &Path, after: &Path) -> Option<(Point, Join)> {
    let at = corner.before.end();
    let [own, other] = corner.allowed.map(|allowed| allowed.width);
    let far = reach((MITRE_LIMIT * own.max(other)).max(1.0));
    let inward = turn.out <= 0.0;
    let on = if inward { MITRE_LIMIT * own.max(other) } else { far };
    let on_from_before = if inward && own <= other { HAIR } else { on };
    let on_from_after = if inward && other <= own { HAIR } else { on };
    let (first, second) = (longer(before, 0.0, on_from_before), longer(after, on_from_after, 0.0));
    let (on_first, on_second) = meet_near(&first, &second, at)?;
    let (ended, begun) = (before.end(), after.start());
    let before = straightened(first.up_to(on_first));
    let after = straightened(second.onward(on_second));
    let point = before.end();
    // Where they meet, and half way there on what goes on straight, each keeps off the other's edge.
    let places = [point, if own > other { ended.midpoint(point) } else { begun.midpoint(point) }];
    let keeps_off = |edge: &Path, width: f64| {
        width <= 0.0 || places.iter().all(|place| edge.nearest(*place).distance >= width - KEPT)
    };
    if inward && own != other && !(keeps_off(corner.before, own) && keeps_off(corner.after, other)) {
        return None;
    }
    let gap = Path::straight(point, after.start());
    Some((point, Join { before, across: Some(gap), after }))
}

/// Edges that go nearly the same way with different allowances: straight from one to the other.
fn step(before: &Path, after: &Path) -> Join {
    let across = Path::straight(before.end(), after.start());
    Join { before: before.clone(), across: Some(across), after: after.clone() }
}

/// Cut off across, square to the middle of the corner, as far out as the wider allowance.
fn blunt(corner: &Corner, turn: &Turn, before: &Path, after: &Path, at: Point) -> Option<Join> {
    if turn.out <= 0.0 {
        return None;
    }
    let width = corner.allowed[0].width.max(corner.allowed[1].width);
    let outward = unit(turn.arriving - turn.leaving)?;
    let foot = at + outward * width;
    let along = outward.turn_90() * reach(width);
    let cross = Path::straight(foot - along, foot + along);
    let (first, second) = (longer(before, 0.0, reach(width)), longer(after, reach(width), 0.0));
    let (on_first, _) = meet_near(&first, &cross, foot)?;
    let (on_second, _) = meet_near(&second, &cross, foot)?;
    let before = straightened(first.up_to(on_first));
    let after = straightened(second.onward(on_second));
    let across = Path::straight(before.end(), after.start());
    Some(Join { before, across: Some(across), after })
}

/// The end of both allowances square to the edge said first, where its stitching line reaches the
/// other's cutting line.
fn square(corner: &Corner, turn: &Turn, before: &Path, after: &Path) -> Option<Join> {
    if turn.out <= 0.0 {
        return None;
    }
    let at = corner.before.end();
    let far = reach(corner.allowed[0].width.max(corner.allowed[1].width).max(1.0));
    let (first, second) = (longer(before, 0.0, far), longer(after, far, 0.0));
    let way = if corner.cut.second_first { -turn.leaving } else { turn.arriving };
    let (leading, other) = if corner.cut.second_first { (&second, &first) } else { (&first, &second) };
    let ray = Path::straight(at, at + way * far);
    let (on_other, _) = meet_near(other, &ray, at)?;
    let turning = other.point_at(on_other);
    let side = way.turn_90() * far;
    let (on_leading, _) = meet_near(leading, &Path::straight(turning - side, turning + side), turning)?;
    let (on_first, on_second) =
        if corner.cut.second_first { (on_other, on_leading) } else { (on_leading, on_other) };
    let before = straightened(first.up_to(on_first));
    let after = straightened(second.onward(on_second));
    let across = Path::straight(before.end(), after.start());
    Some(Join { before, across: Some(across), after })
}

/// The end of a hem: the neighbour's cutting line runs on to the line on which the hem is turned,
/// and from there the hem's end is the mirror image of the way it came.
fn hem_end(corner: &Corner, before: &Path, after: &Path, at: Point, limit: f64) -> Option<Join> {
    let hem_after = corner.allowed[1].turned_up && corner.allowed[1].width > 0.0;
    let (hem_edge, hem, neighbour) = if hem_after {
        (corner.after, after.clone(), before.clone())
    } else {
        (corner.before, before.reversed(), after.reversed())
    };
    let along = if hem_after { hem_edge.tangent_at_start()? } else { hem_edge.tangent_at_end()? };
    let width = corner.allowed[0].width.max(corner.allowed[1].width);
    let far = reach(width);
    let turning_line = Path::straight(at - along * far, at + along * far);
    let neighbour = longer(&neighbour, far, far);
    let (on_neighbour, _) = meet_near(&neighbour, &turning_line, at)?;
    let turning_point = neighbour.point_at(on_neighbour);
    if turning_point.distance(at) > limit {
        return None;
    }
    let came = neighbour.up_to(on_neighbour);
    let mirrored = came.transform(mirror_across(&turning_line).ok()?).reversed();
    let long_hem = longer(&hem, far, 0.0);
    let side = hem_edge_side(&hem, at, along);
    let folds = corner.allowed[usize::from(hem_after)].turned_again();
    let mirrored = folds.fold(mirrored, |end, depth| turned_again(&end, at, along, side * depth));
    let (on_hem, on_mirrored) = meet_near(&long_hem, &mirrored, at)?;
    // What was put on at the far end, to have something to mirror, goes again.
    let own = straightened(came.split_at_length(far).1);
    let end = straightened(mirrored.up_to(on_mirrored));
    let hem = straightened(long_hem.onward(on_hem));
    let end = Path::straight(own.end(), end.start()).then(&end).then(&Path::straight(end.end(), hem.start()));
    let end = without_crumbs(&end);
    Some(if hem_after {
        Join { before: own, across: Some(end), after: hem }
    } else {
        Join { before: hem.reversed(), across: Some(end.reversed()), after: own.reversed() }
    })
}

/// The end of a hem that is turned once more: beyond the next line, which runs beside the first
/// at a distance to its left, it goes back as it came.
fn turned_again(end: &Path, at: Point, along: Vec2, distance: f64) -> Path {
    let far = reach(distance);
    let foot = at + along.turn_90() * distance;
    let line = Path::straight(foot - along * far, foot + along * far);
    let again = meet_near(end, &line, foot).and_then(|(on_end, _)| {
        let first = end.up_to(on_end);
        let back = first.transform(mirror_across(&line).ok()?).reversed();
        // What comes out past the first line is reported; it is cut as it would lie.
        Some(first.then(&longer(&back, 0.0, far)))
    });
    again.unwrap_or_else(|| end.clone())
}

/// 1 where a hem lies to the left of the line on which it is turned, −1 to the right.
fn hem_edge_side(hem: &Path, at: Point, along: Vec2) -> f64 {
    if along.cross(hem.start() - at) >= 0.0 { 1.0 } else { -1.0 }
}

/// The path without segments so short that only rounding made them, what is left joined end to
/// end.
pub(super) fn without_crumbs(path: &Path) -> Path {
    let mut kept: Vec<PathSeg> = Vec::new();
    let mut at = path.start();
    for segment in path.segments() {
        // No way is shorter than the straight one between its ends.
        let may_be = segment.start().distance(segment.end()) <= SMOOTH_GAP;
        if may_be && Path::from_segments([*segment]).is_ok_and(|alone| alone.length() <= SMOOTH_GAP) {
            continue;
        }
        let begun = match *segment {
            PathSeg::Line(line) => PathSeg::Line(Line::new(at, line.p1)),
            PathSeg::Quad(quad) => PathSeg::Quad(QuadBez::new(at, quad.p1, quad.p2)),
            PathSeg::Cubic(cubic) => PathSeg::Cubic(CubicBez::new(at, cubic.p1, cubic.p2, cubic.p3)),
        };
        at = begun.end();
        kept.push(begun);
    }
    Path::from_segments(kept).map_or_else(|_| path.clone(), straightened)
}

/// The path with its end moved onto a point that rounding alone keeps it from.
pub(super) fn snapped(path: &Path, end: Point) -> Path {
    let mut segments = path.segments().to_vec();
    if let Some(last) = segments.pop() {
        segments.push(match last {
            PathSeg::Line(line) => PathSeg::Line(Line::new(line.p0, end)),
            PathSeg::Quad(quad) => PathSeg::Quad(QuadBez::new(quad.p0, quad.p1, end)),
            PathSeg::Cubic(cubic) => PathSeg::Cubic(CubicBez::new(cubic.p0, cubic.p1, cubic.p2, end)),
        });
    }
    Path::from_segments(segments).unwrap_or_else(|_| path.clone())
}

/// How much nearer than its allowance a cutting line may come to its edge, in millimetres.
const KEPT: f64 = 0.05;
/// What rounding may leave between two lines that meet, in millimetres.
const HAIR: f64 = 1e-3;
/// The cosine of the turn (20°) up to which an edge goes on a hem's line rather than ending it.
pub(super) const GOES_ON: f64 = 0.94;
/// The cosine of the turn (30°) up to which two edges count as going on the same way.
const NEARLY_STRAIGHT: f64 = 0.866;
