//! A flat copy where it lies in a scene, with all that was done to it before.

use super::canvas::{Drawn, Label, Panel, polygon, polyline};
use super::fit::{bounds, centroid, contains, left_of, width_at};
use super::flat::Flat;
use super::ink::Stroke;
use super::making::Making;
use super::patches::Placed;
use crate::resolve::DrawnTakeUp;
use crate::sewing::order::Job;
use crate::sewing::surface::FaceId;
use crate::shape::path::Path;
use crate::shape::{Affine, Point, Rect, Vec2};
use kurbo::BezPath;

/// A face where it lies.
#[derive(Clone, Copy, Debug)]
pub struct Laid {
    /// Which.
    pub face: FaceId,
    /// From flat, right side up, to where it lies.
    pub by: Affine,
}

/// How it is shown.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// The step that is shown: what was done before it is seen.
    pub step: usize,
    /// In half tone.
    pub joined: bool,
    /// With its number and title.
    pub labelled: bool,
}

impl Laid {
    /// Whether the right side is up.
    pub fn is_right_side_up(&self) -> bool {
        self.by.determinant() > 0.0
    }

    /// Its outline where it lies, from point to point.
    pub fn ring(&self, making: &Making) -> Vec<Point> {
        making
            .flat(self.face)
            .map_or_else(Vec::new, |flat| flat.ring.iter().map(|at| self.by * *at).collect())
    }

    /// A path on it, where it lies.
    pub fn path(&self, path: &Path) -> Path {
        path.transform(self.by)
    }

    /// Draws it.
    pub fn draw(&self, making: &Making, panel: &mut Panel, shown: Shown) {
        self.draw_beside(making, panel, shown, None);
    }

    /// Draws what of it lies to the right of an upright line (1) or to the left (-1), at 0.
    pub fn draw_beside(&self, making: &Making, panel: &mut Panel, shown: Shown, side: Option<f64>) {
        let Some(flat) = making.flat(self.face) else { return };
        let outline = match side {
            None => self.by * flat.path(),
            Some(side) => polygon(&left_of(&self.ring(making), Point::ZERO, Vec2::new(0.0, -side))),
        };
        let is_seen =
            |path: &Path| side.is_none_or(|side| path.point_at_length(path.length() / 2.0).x * side > -1.0);
        let cloth = making.cloth(flat.layer, self.is_right_side_up(), shown.joined);
        panel.cloth(outline.clone(), cloth);
        let placings =
            making.surface.placings.iter().enumerate().filter(|(_, placing)| placing.host == self.face);
        for (at, placing) in placings {
            let layer = making.surface.face(placing.placed).layer;
            if !self.is_right_side_up() || !making.is_placed(placing.placement, layer, shown.step) {
                continue;
            }
            if let Some(placed) = Placed::of(making, at) {
                let under = Shown { joined: true, labelled: false, ..shown };
                placed.draw(making, self, panel, under, Stroke::Before, None);
            }
        }
        for slit in flat.inner() {
            panel.line(self.path(&slit.path).to_bez(), Stroke::Ink);
        }
        for fold in folds(making, flat) {
            panel.line(self.by * flat.base * fold, Stroke::Fold);
        }
        for take_up in &flat.drawn.take_ups {
            let is_done = making.step_of(Job::TakeUp(flat.layer, take_up.name)) < shown.step;
            let hangs = take_up.pleat.is_some_and(|pleat| pleat.sewn <= 0.0);
            let stroke = match is_done {
                true if hangs => Stroke::Ink,
                true => Stroke::Before,
                false => Stroke::Joined,
            };
            let lines = match is_done.then(|| seam_of(flat, take_up)).flatten() {
                Some((from, to)) => polyline(&[from, to]),
                None => legs(&flat.settled_take_up(take_up)),
            };
            for base in flat.on_both(None) {
                panel.line(self.by * base * &lines, stroke);
            }
        }
        panel.line(outline, if shown.joined { Stroke::Joined } else { Stroke::Outline });
        for stretch in making.surface.stretches_of(self.face) {
            let finish = making.surface.stretch(stretch).finish;
            let is_finished = finish.is_some_and(|finish| {
                let edge = making.surface.side_of(stretch).edge;
                let named = flat.drawn.edge_at(edge).map(|edge| edge.edge);
                let edges = &making.garment.finish(finish).edges;
                let nth = edges
                    .iter()
                    .position(|own| named.is_some_and(|named| making.garment.is_run_of(named, own.edge)));
                nth.is_some_and(|nth| making.step_of(Job::Finish(finish, nth, flat.layer)) < shown.step)
            });
            if (is_finished || making.is_sewn(stretch, shown.step))
                && let Some(path) = flat.stretch(making.garment, making.surface, stretch)
            {
                let path = self.path(&path);
                if is_seen(&path) {
                    panel.line(path.to_bez(), Stroke::Before);
                }
            }
        }
        if shown.labelled {
            let ring = self.ring(making);
            let (number, title) = making.called(flat.part);
            let clear_of = self.covered(making, shown.step);
            panel.labels.push(Label { clear_of, ..label(&ring, number, &title) });
        }
    }

    /// Where something lies on it once a step is done.
    fn covered(&self, making: &Making, step: usize) -> Vec<Rect> {
        if !self.is_right_side_up() {
            return Vec::new();
        }
        let placings = making.surface.placings.iter().enumerate();
        let own = placings.filter(|(_, placing)| {
            let layer = making.surface.face(placing.placed).layer;
            placing.host == self.face && making.step_of(Job::Place(placing.placement, layer)) <= step
        });
        let rings = own.filter_map(|(at, _)| {
            let placed = Placed::of(making, at)?;
            let points = placed.outline.iter().flat_map(|path| path.flatten(0.5));
            bounds(&points.map(|at| self.by * at).collect::<Vec<Point>>())
        });
        rings.collect()
    }
}

/// A label in the middle of an outline, or where there is more room.
pub fn label(ring: &[Point], number: Option<usize>, title: &str) -> Label {
    let (at, room) = roomiest(ring);
    let turned: Vec<Point> = ring.iter().map(|at| Point::new(at.y, at.x)).collect();
    let high = width_at(&turned, Point::new(at.y, at.x));
    Label { at, room, high, number, title: title.to_owned(), clear_of: Vec::new() }
}

/// A place well inside an outline, and how wide the cloth is there: its middle, unless it is much wider elsewhere.
pub fn roomiest(ring: &[Point]) -> (Point, f64) {
    let middle = centroid(ring);
    let own = if contains(ring, middle) { width_at(ring, middle) } else { 0.0 };
    let Some(bounds) = super::fit::bounds(ring) else { return (middle, own) };
    let mut best = (middle, own);
    for nth in 1..12 {
        let y = bounds.y0 + bounds.height() * f64::from(nth) / 12.0;
        let mut cuts: Vec<f64> = ring
            .iter()
            .zip(ring.iter().cycle().skip(1))
            .filter(|(one, other)| (one.y > y) != (other.y > y))
            .map(|(one, other)| one.x + (y - one.y) / (other.y - one.y) * (other.x - one.x))
            .collect();
        cuts.sort_by(f64::total_cmp);
        for pair in cuts.chunks_exact(2) {
            let &[from, to] = pair else { continue };
            if to - from > 1.6 * best.1.max(own) || (own == 0.0 && to - from > best.1) {
                best = (Point::new(f64::midpoint(from, to), y), to - from);
            }
        }
    }
    best
}

/// The lines along which a take-up is sewn, on the paper; of a pleat that hangs open its two lines.
pub fn legs(take_up: &DrawnTakeUp) -> BezPath {
    let mut path = BezPath::new();
    let mut add = |from: Point, to: Point| {
        path.move_to(from);
        path.line_to(to);
    };
    for (from, to) in take_up.legs() {
        add(from, to);
    }
    if let (Some(pleat), true) = (take_up.pleat, take_up.legs().is_empty()) {
        for (side, end) in take_up.wedge.sides.into_iter().zip(pleat.ends) {
            add(side, end);
        }
    }
    path
}

/// The one line that a take-up is once it is sewn, on the paper: of a dart from its mouth or its upper end to its point, of a
/// pleat or a tuck its fold. None of what is drawn open.
pub fn seam_of(flat: &Flat, take_up: &DrawnTakeUp) -> Option<(Point, Point)> {
    if take_up.pleat.is_some() {
        return flat.settled_take_up(take_up).fold().filter(|_| flat.is_shut(take_up));
    }
    let settled = flat.settled_take_up(take_up);
    let [one, other] = settled.wedge.sides;
    match settled.upper {
        Some(upper) => Some((upper, settled.wedge.point)),
        None => flat.is_shut(take_up).then(|| (one.midpoint(other), settled.wedge.point)),
    }
}

/// Where a piece is folded whose one edge is brought onto the other, on the paper.
pub fn folds(making: &Making, flat: &Flat) -> Vec<BezPath> {
    let run = |wanted| {
        let mut runs = flat.drawn.edges.iter().filter(|own| making.garment.is_run_of(own.edge, wanted));
        runs.next().map(|edge| &edge.path).filter(|_| runs.next().is_none())
    };
    let over = making.garment.piece(flat.drawn.piece).folds.iter();
    over.filter_map(|over| {
        let (one, other) = (run(over.edge)?, run(over.onto)?);
        let (from, to) = (one.start().midpoint(other.end()), one.end().midpoint(other.start()));
        Some(polyline(&[from, to]))
    })
    .collect()
}

/// Draws a flat copy of a part that is no face, where it lies.
pub fn draw_part(making: &Making, panel: &mut Panel, flat: &Flat, by: Affine, labelled: bool) {
    let outline = by * flat.path();
    let cloth = making.cloth(flat.layer, by.determinant() > 0.0, false);
    panel.ground.push(Drawn::Cloth(outline.clone(), cloth));
    panel.line(outline, Stroke::Outline);
    if labelled {
        let ring: Vec<Point> = flat.ring.iter().map(|at| by * *at).collect();
        let (number, title) = making.called(flat.part);
        panel.labels.push(label(&ring, number, &title));
    }
}
