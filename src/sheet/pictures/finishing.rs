//! Edges that are hemmed, bound, cased and the like: the piece with its wrong side up, and the edge cut across.

use super::canvas::{Caption, Mark, Panel, polygon, polyline};
use super::fit::area;
use super::flat::Flat;
use super::ink::{Cloth, Stroke, Texture};
use super::laid::{Laid, Shown};
use super::making::Making;
use super::patches::beside;
use crate::garment::{EdgeId, Expression, FinishId, FinishKind, HemEdge, LayerId};
use crate::sewing::amount_of;
use crate::sewing::surface::FaceId;
use crate::shape::path::Path;
use crate::shape::{Affine, Point, Vec2};

/// So many copies of a piece are shown at most, and of all pieces.
const MOST_COPIES: usize = 2;
const MOST_FACES: usize = 6;

/// How an edge is folded or covered.
enum Edge {
    /// Turned to the wrong side so deep, and first turned under by so much.
    Turned(f64, f64),
    /// The same, and then turned up on the right side by so much.
    TurnedUp(f64, f64, f64),
    /// Covered from both sides, so wide.
    Bound(f64),
    /// Covered on the wrong side, so wide.
    Covered(f64),
    /// Stitched over.
    Overcast,
    /// Nothing.
    Bare,
}

/// What of a finish is done in one step: which of its edges in which layer, with its letter.
pub struct Part {
    /// Which of its edges.
    pub nth: usize,
    /// The layer.
    pub layer: LayerId,
    /// Its letter.
    pub letter: String,
}

/// The scenes of edges of a finish. `thread`: something is drawn through them.
pub fn panels(making: &Making, id: FinishId, parts: &[Part], step: usize, thread: bool) -> Vec<Panel> {
    let finish = making.garment.finish(id);
    // Each edge with the copies that have it.
    let mut edges: Vec<(EdgeId, &Part)> = Vec::new();
    let mut shown: Vec<FaceId> = Vec::new();
    for part in parts {
        let Some(named) = finish.edges.get(part.nth) else { continue };
        let edge = making.garment.whole_edge(named.edge);
        edges.push((edge, part));
        for face in making.faces_with(Some(part.layer), edge).into_iter().take(MOST_COPIES) {
            if !shown.contains(&face) {
                shown.push(face);
            }
        }
    }
    shown.truncate(MOST_FACES);
    let Some(layer) = parts.first().map(|part| part.layer) else { return Vec::new() };
    let amount = |said: &Expression| amount_of(making.garment, &making.size.drawn, said).unwrap_or(0.0);
    let how = match &finish.kind {
        FinishKind::Hem(hem) => {
            let depth = amount(&hem.depth);
            let under = match &hem.raw_edge {
                HemEdge::TurnedOnce => 0.0,
                HemEdge::TurnedUnder(under) => amount(under),
                HemEdge::TurnedTwice => depth,
            };
            match &hem.turn_up {
                Some(turn_up) => Edge::TurnedUp(depth, under, amount(turn_up)),
                None => Edge::Turned(depth, under),
            }
        }
        FinishKind::Bound(binding) => Edge::Bound(amount(&binding.width)),
        FinishKind::Casing(depth, _) => Edge::Turned(amount(depth), crate::sewing::CASING_TURN),
        FinishKind::Elastic(width, _) => Edge::Turned(amount(width), 0.0),
        FinishKind::Tape(width) => Edge::Covered(width.as_ref().map_or(10.0, amount)),
        FinishKind::TurnedUnderOnto(_) => Edge::Turned(6.0, 0.0),
        FinishKind::Overlocked => Edge::Overcast,
        FinishKind::Raw | FinishKind::Poison => Edge::Bare,
    };
    let by_hand = matches!(finish.kind, FinishKind::TurnedUnderOnto(_));
    let stroke = if by_hand { Stroke::Slipped } else { Stroke::Stitched };
    let rings: Vec<Vec<Point>> = shown
        .iter()
        .map(|face| {
            making
                .flat(*face)
                .map_or_else(Vec::new, |flat| flat.ring.iter().map(|at| Affine::FLIP_X * *at).collect())
        })
        .collect();
    let largest =
        rings.iter().filter_map(|ring| super::fit::bounds(ring)).map(|own| own.width().max(own.height()));
    let gap = 0.12 * largest.fold(20.0, f64::max);
    let mut panel = Panel::of(Caption::WrongSideUp);
    for (face, moved) in shown.iter().zip(beside(&rings, gap)) {
        let Some(flat) = making.flat(*face) else { continue };
        let laid = Laid { face: *face, by: moved * Affine::FLIP_X };
        laid.draw(making, &mut panel, Shown { step, joined: making.is_joined(*face, step), labelled: true });
        for stretch in making.surface.stretches_of(*face) {
            let named = flat.drawn.edge_at(making.surface.side_of(stretch).edge).map(|own| own.edge);
            let is = |of: EdgeId| {
                named
                    .is_some_and(|own| making.garment.is_run_of(of, own) || making.garment.is_run_of(own, of))
            };
            let own = edges.iter().find(|(edge, part)| part.layer == flat.layer && is(*edge));
            let Some((_, part)) = own.filter(|_| making.surface.stretch(stretch).finish == Some(id)) else {
                continue;
            };
            let Some(path) = flat.stretch(making.garment, making.surface, stretch) else { continue };
            worked(making, flat, &laid, &path, &how, stroke, &mut panel);
            let stitched = laid.path(&path);
            panel.tag_line(&stitched, &part.letter);
            if thread {
                for (at, way) in [
                    (stitched.start(), stitched.tangent_at_start()),
                    (stitched.end(), stitched.tangent_at_end()),
                ] {
                    panel.marks.extend(way.map(|way| Mark::Pointer(at, way, 18.0)));
                }
            }
        }
    }
    let mut panels = vec![panel];
    let texture = making.cloth(layer, true, false).texture;
    let letter = parts.first().map_or("", |part| part.letter.as_str());
    panels.extend(section(&how, texture, stroke, letter));
    panels
}

/// What is done at an edge, drawn on the piece whose wrong side is up.
fn worked(
    making: &Making,
    flat: &Flat,
    laid: &Laid,
    path: &Path,
    how: &Edge,
    stroke: Stroke,
    panel: &mut Panel,
) {
    let right = making.cloth(flat.layer, true, false);
    let inner =
        |depth: f64| inside(flat, path, depth).into_iter().map(|at| laid.by * at).collect::<Vec<Point>>();
    let outer: Vec<Point> = path.flatten(0.5).into_iter().map(|at| laid.by * at).collect();
    let mut strip = |depth: f64, cloth: Option<Cloth>| {
        let line = inner(depth);
        let ring: Vec<Point> = outer.iter().copied().chain(line.iter().rev().copied()).collect();
        match cloth {
            Some(cloth) => panel.cloth(polygon(&ring), cloth),
            None => panel.ground.push(super::canvas::Drawn::White(polygon(&ring))),
        }
        panel.line(polygon(&ring), Stroke::Outline);
        line
    };
    match how {
        // What is turned up shows on the other side.
        Edge::Turned(depth, _) | Edge::TurnedUp(depth, ..) => {
            strip(*depth, Some(right));
            panel.line(polyline(&inner(0.93 * depth)), stroke);
        }
        Edge::Bound(width) | Edge::Covered(width) => {
            strip(*width, None);
            panel.line(polyline(&inner(0.85 * width)), stroke);
        }
        Edge::Overcast => panel.line(zigzag(&outer, &inner(5.0)), Stroke::Now),
        Edge::Bare => panel.line(polyline(&outer), Stroke::Fold),
    }
}

/// A line so far inside beside an edge, from point to point.
fn inside(flat: &Flat, path: &Path, depth: f64) -> Vec<Point> {
    let points = path.flatten(0.5);
    let turns = if area(&flat.ring) > 0.0 { 1.0 } else { -1.0 };
    let mut line = Vec::with_capacity(points.len());
    for (nth, at) in points.iter().enumerate() {
        let before = points.get(nth.saturating_sub(1)).unwrap_or(at);
        let after = points.get(nth + 1).unwrap_or(at);
        let way = *after - *before;
        let long = way.hypot();
        let off = if long > 1e-9 { Vec2::new(-way.y, way.x) / long * depth * turns } else { Vec2::ZERO };
        line.push(*at + off);
    }
    line
}

fn zigzag(outer: &[Point], inner: &[Point]) -> kurbo::BezPath {
    let (long, short) = (length(outer), 6.0);
    let count = (long / short).clamp(2.0, 400.0) as usize;
    let at = |line: &[Point], share: f64| along(line, share).unwrap_or_default();
    let points: Vec<Point> = (0..=count)
        .map(|nth| at(if nth % 2 == 0 { outer } else { inner }, nth as f64 / count as f64))
        .collect();
    polyline(&points)
}

fn length(line: &[Point]) -> f64 {
    line.iter().zip(line.iter().skip(1)).map(|(one, other)| one.distance(*other)).sum()
}

/// The place at a share of a line.
fn along(line: &[Point], share: f64) -> Option<Point> {
    let mut left = share * length(line);
    for (one, other) in line.iter().zip(line.iter().skip(1)) {
        let own = one.distance(*other);
        if left <= own && own > 0.0 {
            return Some(one.lerp(*other, left / own));
        }
        left -= own;
    }
    line.last().copied()
}

/// How thick cloth is drawn in a section, and how long what lies flat of it is.
const THICK: f64 = 5.0;
const LONG: f64 = 120.0;
/// How deep a hem is drawn, and how far its plies lie apart.
const DEEP: f64 = 62.0;
const GAP: f64 = 2.4 * THICK;

/// The edge cut across, its wrong side up; drawn to no scale, but for how deep is turned under to how deep it is turned.
fn section(how: &Edge, texture: Texture, stroke: Stroke, letter: &str) -> Option<Panel> {
    let mut panel = Panel::of(Caption::Section);
    panel.unscaled = true;
    let mut line = vec![Point::new(-LONG, 0.0), Point::new(0.0, 0.0)];
    let stitch_at = match how {
        Edge::Turned(depth, under) => {
            line.extend(turned([*depth, *under], 0.0));
            -DEEP + 7.0
        }
        Edge::TurnedUp(depth, under, turn_up) => {
            let up = (DEEP * turn_up / depth.max(1e-9)).clamp(DEEP + 12.0, 0.85 * LONG);
            // Both plies below the hem go up on the right side, the outer one round the inner.
            line.extend([(0.0, -GAP), (-up, -GAP), (-up, -2.0 * GAP), (GAP, -2.0 * GAP)].map(Point::from));
            line.extend(turned([*depth, *under], GAP));
            -DEEP + 7.0
        }
        Edge::Bound(_) => {
            let wrap = [
                Point::new(-34.0, 2.4 * THICK),
                Point::new(6.0, 2.4 * THICK),
                Point::new(6.0, -2.4 * THICK),
                Point::new(-34.0, -2.4 * THICK),
            ];
            band(&mut panel, &wrap, Cloth { texture: Texture::Bought, right: true, joined: false });
            -28.0
        }
        Edge::Covered(_) => {
            let tape = [Point::new(-34.0, 1.6 * THICK), Point::new(4.0, 1.6 * THICK)];
            band(&mut panel, &tape, Cloth { texture: Texture::Bought, right: true, joined: false });
            -28.0
        }
        Edge::Overcast | Edge::Bare => return None,
    };
    band(&mut panel, &line, Cloth { texture, right: true, joined: false });
    // It is stitched before it is turned up, so that no stitch goes through that.
    let low = if matches!(how, Edge::TurnedUp(..)) { -0.8 * THICK } else { -3.6 * THICK };
    let high = 4.2 * THICK;
    panel.straight(
        Point::new(stitch_at, low),
        Point::new(stitch_at, high),
        if stroke == Stroke::Slipped { stroke } else { Stroke::Now },
    );
    panel.tag(Point::new(stitch_at, high + 6.0), Vec2::new(1.0, 0.0), letter);
    // Where the cloth goes on.
    panel.line(
        polyline(&[
            Point::new(-LONG - 2.0, -9.0),
            Point::new(-LONG + 3.0, -3.0),
            Point::new(-LONG - 3.0, 3.0),
            Point::new(-LONG + 2.0, 9.0),
        ]),
        Stroke::Ink,
    );
    Some(panel)
}

/// What is turned to the wrong side, from its fold so far out, with what is turned under of it.
fn turned([depth, under]: [f64; 2], fold: f64) -> Vec<Point> {
    let mut line = vec![Point::new(fold, GAP), Point::new(-DEEP, GAP)];
    if under > 0.0 && depth > 0.0 {
        let short = (DEEP * under / depth).clamp(10.0, DEEP - 6.0);
        // What is turned under lies between the two.
        line.extend([Point::new(-DEEP, 0.5 * GAP), Point::new(-DEEP + short, 0.5 * GAP)]);
    }
    line
}

/// Cloth cut across, along a line.
fn band(panel: &mut Panel, line: &[Point], cloth: Cloth) {
    let half = THICK / 2.0;
    for pair in line.windows(2) {
        let &[from, to] = pair else { continue };
        let way = (to - from) / (to - from).hypot().max(1e-9);
        let across = Vec2::new(-way.y, way.x) * half;
        let (from, to) = (from - way * half, to + way * half);
        let ring = [from + across, to + across, to - across, from - across];
        panel.cloth(polygon(&ring), cloth);
        panel.line(polygon(&ring), Stroke::Outline);
    }
}
