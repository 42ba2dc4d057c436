//! The names of sizes that lie in one another, each in its own line, again and again: wherever a page is looked at,
//! every line on it shall bear its size.

use super::clear::Clear;
use super::pen::Pen;
use super::piece::Sketch;
use super::shape::{Shape, What, Words};
use super::shared::SHARED;
use crate::cutting::{CutPart, CutRun};
use crate::garment::SizeId;
use crate::resolve::DrawnEdgeId;
use crate::shape::outline::is_anticlockwise;
use kurbo::{BezPath, Point, Vec2};

impl Sketch<'_> {
    /// Each size's name in its cutting line, one further along than the other, on every edge that has room for them
    /// and where the sizes lie apart; on an edge that all share the words say so.
    pub(super) fn size_names(&mut self, members: &[&CutPart]) {
        let Some(first) = members.first() else { return };
        let edges: Vec<DrawnEdgeId> =
            DrawnEdgeId::enumerate(&first.stitching).map(|(edge, _)| edge).collect();
        for edge in edges.into_iter().filter(|edge| first.fold != Some(*edge)) {
            let runs: Vec<(&CutPart, &CutRun)> = members
                .iter()
                .filter_map(|part| Some((*part, part.cutting.iter().find(|run| run.along == Some(edge))?)))
                .collect();
            if runs.len() == members.len() {
                self.names_along(&runs);
            }
        }
    }

    /// The names along one edge, which has a run in every size.
    fn names_along(&mut self, runs: &[(&CutPart, &CutRun)]) {
        let shortest = runs.iter().map(|(_, run)| run.path.length()).fold(f64::INFINITY, f64::min);
        let count = runs.len() as f64;
        let group = ROOM_OF_NAME * count;
        let together = runs.windows(2).map(least_apart).fold(f64::INFINITY, f64::min);
        if together >= APART && shortest < group || shortest < ROOM_OF_NAME {
            return;
        }
        // Lines that lie on one another are not told apart by names on them.
        if together < APART {
            self.told_together(runs);
            return;
        }
        // As many times as the edge has room for, but no oftener than is needed.
        let times = (shortest / (group + BETWEEN)).floor().clamp(1.0, MOST_TIMES);
        for (at, (part, run)) in runs.iter().enumerate() {
            let length = run.path.length();
            let one = length / times;
            for time in 0..times as usize {
                let wanted = one * (time as f64 + 0.08 + 0.84 * (at as f64 + 0.5) / count);
                let room = (one * 0.84 / count - ROOM_OF_NAME * 0.6).max(0.0) / 2.0;
                let tried = [0.0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9].into_iter();
                let tried = tried.filter_map(|share| self.size_name(part, run, wanted + share * room));
                if let Some((_, words)) = tried.min_by_key(|(touched, _)| *touched) {
                    self.put(words, Some(part.size));
                }
            }
        }
    }

    /// Of lines that run together: in one that all sizes share that they do; beside others a short fan, a stroke from
    /// each size's line to its name.
    fn told_together(&mut self, runs: &[(&CutPart, &CutRun)]) {
        let Some((part, run)) = runs.last() else { return };
        if runs.windows(2).all(|pair| most_apart(pair) < SHARED) {
            let all = CutPart {
                label: crate::cutting::Label { size: "all sizes".to_owned(), ..part.label.clone() },
                ..(**part).clone()
            };
            let middles = [0.5, 0.35, 0.65].map(|share| share * run.path.length());
            let tried = middles.into_iter().filter_map(|along| self.size_name(&all, run, along));
            if let Some((_, words)) = tried.min_by_key(|(touched, _)| *touched) {
                self.put(words, None);
            }
            return;
        }
        for share in [0.5, 0.3, 0.7, 0.15, 0.85] {
            let along = share * run.path.length();
            if let Some(fan) =
                self.fan(runs, run.path.point_at_length(along), run.path.tangent_at_length(along))
            {
                for (stroke, words, size) in fan {
                    self.clear.line(&[stroke.0, stroke.1]);
                    let mut drawn = BezPath::new();
                    drawn.move_to(stroke.0);
                    drawn.line_to(stroke.1);
                    self.shapes.push(Shape::stroke(drawn, Pen::Sheet).of(Some(size)));
                    self.put(words, Some(size));
                }
                return;
            }
        }
    }

    /// The strokes and names of a fan that begins at a place on the outermost line; none where there is no room for it.
    fn fan(&self, runs: &[(&CutPart, &CutRun)], at: Point, way: Option<Vec2>) -> Option<Vec<Ray>> {
        let way = way?;
        let way = way / way.hypot().max(f64::MIN_POSITIVE);
        // Of an outline that goes round anticlockwise outside is to the right.
        let is_anticlockwise = runs.last().is_some_and(|(part, _)| is_anticlockwise(&part.stitching));
        let out = if is_anticlockwise { -way.turn_90() } else { way.turn_90() };
        let middle = (runs.len() as f64 - 1.0) / 2.0;
        let rays = runs.iter().enumerate().map(|(place, (part, run))| {
            let spread = way * ((place as f64 - middle) * FAN_SPREAD);
            let near = run.path.nearest(at + spread * 0.5);
            let from = near.point;
            let tip = at + out * FAN_LENGTH + spread;
            let mut words = Words::new(part.label.size.clone(), tip, SIZE_NAME).bold();
            // The name's middle lies so far beyond the tip that its box is clear of the stroke.
            let half = Vec2::new(words.length() / 2.0, SIZE_NAME / 2.0);
            let middle = tip + out * (out.x.abs() * half.x + out.y.abs() * half.y + 0.8);
            words.at = middle - Vec2::new(half.x, SIZE_NAME * 0.26);
            ((from, tip), words, part.size)
        });
        let rays: Vec<Ray> = rays.collect();
        // Names keep off each other and off all the strokes.
        let mut own = Clear::default();
        for ((from, tip), ..) in &rays {
            own.line(&[*from, *tip]);
        }
        let mut written = self.shapes.iter().filter_map(|shape| match &shape.what {
            What::Words(words) => Some(words.corners()),
            _ => None,
        });
        if written.any(|corners| !own.free(&corners)) {
            return None;
        }
        let is_free = rays.iter().all(|(_, words, _)| {
            let corners = words.corners();
            let is_free = self.clear.free(&roomy(&corners)) && own.free(&corners);
            own.words(corners);
            is_free
        });
        is_free.then_some(rays)
    }

    /// Beside each notch its size, where sizes have it in places of their own.
    pub(super) fn sizes_of_notches(&mut self, members: &[&CutPart]) {
        let Some(last) = members.last() else { return };
        let tops = |part: &CutPart| -> Vec<Point> {
            part.notches.iter().filter_map(|notch| notch.snips.first()).map(|(top, _)| *top).collect()
        };
        let own = tops(last);
        for (number, top) in own.iter().enumerate() {
            let places: Vec<Option<Point>> =
                members.iter().map(|part| tops(part).get(number).copied()).collect();
            if places.iter().all(|place| place.is_some_and(|place| place.distance(*top) < SHARED)) {
                continue;
            }
            for (part, place) in members.iter().zip(places) {
                // Looked for with room round them: lines here are flattened, to half a millimetre.
                let large = Words::new(part.label.size.clone(), Point::ZERO, SIZE_OF_NOTCH * ROOMY).grey();
                let placed = place.and_then(|at| super::place::beside(&large, at, OFF_NOTCH, &self.clear));
                if let Some(large) = placed {
                    let words = Words { size: SIZE_OF_NOTCH, ..large.clone() };
                    let over =
                        Vec2::new((large.length() - words.length()) / 2.0, (large.size - words.size) * 0.26);
                    self.put(Words { at: words.at + over, ..words }, Some(part.size));
                }
            }
        }
    }

    /// A size's name in its line, so far along it, and how many lines go through it.
    fn size_name(&self, part: &CutPart, run: &CutRun, along: f64) -> Option<(usize, Words)> {
        let (way, place) = (run.path.tangent_at_length(along)?, run.path.point_at_length(along));
        let way = if way.x < -1e-9 || (way.x.abs() <= 1e-9 && way.y < 0.0) { -way } else { way };
        let mut words = Words::new(part.label.size.clone(), place, SIZE_NAME).bold();
        words.angle = libm::atan2(way.y, way.x);
        words.cleared = true;
        words.at = place - way * (words.length() / 2.0) - way.turn_90() * (words.size * 0.27);
        Some((self.clear.touched(&words.corners()), words))
    }
}

/// The corners of a box a little larger all round.
fn roomy(corners: &[Point; 4]) -> [Point; 4] {
    let middle = corners[0].midpoint(corners[2]);
    corners.map(|corner| {
        let way = corner - middle;
        corner + way * (1.2 / way.hypot().max(1.2))
    })
}

/// How far two neighbouring sizes lie from each other at most, looked at in a few places.
fn most_apart(pair: &[(&CutPart, &CutRun)]) -> f64 {
    let &[(_, one), (_, other)] = pair else { return 0.0 };
    let length = one.path.length();
    let looked_at =
        [0.0, 0.25, 0.5, 0.75, 1.0].into_iter().map(|share| one.path.point_at_length(share * length));
    looked_at.map(|point| other.path.nearest(point).distance).fold(0.0, f64::max)
}

/// How near two neighbouring sizes come to each other, looked at in a few places.
fn least_apart(pair: &[(&CutPart, &CutRun)]) -> f64 {
    let &[(_, one), (_, other)] = pair else { return f64::INFINITY };
    let length = one.path.length();
    let looked_at = [0.2, 0.5, 0.8].into_iter().map(|share| one.path.point_at_length(share * length));
    looked_at.map(|point| other.path.nearest(point).distance).fold(f64::INFINITY, f64::min)
}

/// A stroke of a fan, the name at its end, and whose it is.
type Ray = ((Point, Point), Words, SizeId);

/// How far the strokes of a fan lead outward, in millimetres.
const FAN_LENGTH: f64 = 7.0;
/// From one stroke's end to the next, in millimetres.
const FAN_SPREAD: f64 = 9.0;
/// The body of a size's name beside a notch.
const SIZE_OF_NOTCH: f64 = 3.4;
/// How many times larger words are taken to be while a place is looked for.
const ROOMY: f64 = 1.3;
/// From a notch to its size, in millimetres.
const OFF_NOTCH: f64 = 0.8;
/// The body of a size's name in its line.
const SIZE_NAME: f64 = 4.2;
/// How much of a line one size's name needs.
const ROOM_OF_NAME: f64 = 12.0;
/// Sizes nearer to each other than this are not named in their lines.
const APART: f64 = 1.5;
/// From one time that the names stand in an edge to the next: less than a page is high.
const BETWEEN: f64 = 120.0;
/// Names stand no oftener than this in one edge.
const MOST_TIMES: f64 = 40.0;
