//! A seam rolled out straight: the runs of each side end to end at their own lengths, so that what is stretched, eased or
//! gathered is seen to scale.

use super::canvas::{Caption, Mark, Panel, polyline};
use super::ink::Stroke;
use super::making::Making;
use super::plies::{Once, Ply, PlyRun};
use super::seam::bars;
use crate::sewing::surface::PlyAt;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use crate::sheet::points::{are_signed, meeting_points};
use kurbo::BezPath;

/// How high a strip is, as a share of how long the seam is.
const HIGH: f64 = 0.14;
/// How much of a strip is seen that lies under another.
const UNDER: f64 = 0.55;
/// How far both sides lie apart.
const APART: f64 = 0.13;
/// How far the second edge of what is folded is drawn from the first.
const FOLDED: f64 = 0.032;
/// Sides whose lengths differ by less than this share are alike.
const ALIKE: f64 = 0.012;

/// The scene; none where a side is not known.
pub fn panel(making: &Making, once: &Once, letter: &str, step: usize, stroke: Stroke) -> Option<Panel> {
    let (first, second) = (once.side(false)?, once.side(true)?);
    let longest = first.length.max(second.length);
    if longest <= 0.0 {
        return None;
    }
    let mut panel = Panel::of(Caption::RolledOut);
    let strip = Strip { making, longest, step, letter, stroke };
    let apart = APART * longest / 2.0;
    let (mut above, mut below) = (0, 0);
    // The farthest plies first, so that the nearer ones lie over them.
    let mut plies: Vec<(&Ply, usize)> = Vec::new();
    let laid: Vec<Ply> = once
        .sewn_plies()
        .map(|ply| ply.beside(if matches!(ply.at, PlyAt::First(_)) { first } else { second }))
        .collect();
    for ply in &laid {
        let depth = if matches!(ply.at, PlyAt::First(_)) { &mut above } else { &mut below };
        plies.push((ply, *depth));
        *depth += 1;
    }
    plies.sort_by_key(|(_, depth)| std::cmp::Reverse(*depth));
    let is_first = |ply: &Ply| matches!(ply.at, PlyAt::First(_));
    for (ply, depth) in &plies {
        let up = if is_first(ply) { 1.0 } else { -1.0 };
        let far = apart + *depth as f64 * HIGH * longest * UNDER;
        let differs = (ply.length - longest).abs() > ALIKE * longest;
        let other_differs = laid.iter().any(|other| (other.length - longest).abs() > ALIKE * longest);
        let longer = other_differs && !differs;
        let over: Vec<Option<usize>> = plies
            .iter()
            .filter(|(other, its)| is_first(other) == is_first(ply) && its < depth)
            .flat_map(|(other, _)| strip.numbers(other))
            .collect();
        let row = StripRow { up, far, is_first: *depth == 0, shorter: differs, longer };
        strip.draw(&mut panel, ply, row, &over);
    }
    let sewn = once.sewn.and_then(|at| making.size.sewn.seams.get(at));
    let points = sewn.map_or_else(Vec::new, |sewn| meeting_points(making.garment, making.size, sewn));
    let signed = are_signed(&points);
    let ends = [([0.0, 0.0], None), ([first.length, second.length], None)];
    let known: Vec<([f64; 2], Option<usize>)> = match points.is_empty() {
        true => ends.to_vec(),
        false => points.iter().map(|point| (point.on, point.sign.filter(|_| signed))).collect(),
    };
    let mut threads = Panel::default();
    for ([on_first, on_second], sign) in known {
        let from = Point::new(strip.left(first) + on_first, apart);
        let to = Point::new(strip.left(second) + on_second, -apart);
        threads.straight(from, to, Stroke::Thread);
        for at in [from, to] {
            threads.marks.extend(sign.map(|sign| Mark::Sign(at, sign)));
        }
    }
    threads.add(panel, Vec2::ZERO);
    threads.caption = Some(Caption::RolledOut);
    Some(threads)
}

/// How a strip lies.
#[derive(Clone, Copy)]
struct StripRow {
    /// Above the middle (1) or below (-1).
    up: f64,
    /// So far from the middle.
    far: f64,
    /// It is the nearest to the other side.
    is_first: bool,
    /// It is shorter than the longest.
    shorter: bool,
    /// It is the longest, and another is not.
    longer: bool,
}

struct Strip<'m, 'a> {
    making: &'m Making<'a>,
    longest: f64,
    step: usize,
    letter: &'m str,
    stroke: Stroke,
}

impl Strip<'_, '_> {
    /// Where a ply begins: all are centred.
    fn left(&self, ply: &Ply) -> f64 {
        -ply.length / 2.0
    }

    /// The numbers of what lies in a ply.
    fn numbers(&self, ply: &Ply) -> Vec<Option<usize>> {
        let faces = ply.rows().into_iter().map(|(face, ..)| face);
        faces.filter_map(|face| Some(self.making.called(self.making.flat(face)?.part).0)).collect()
    }

    /// Draws a ply, with its number unless a ply `over` it has the same. What is shorter is stretched, what is longer is eased
    /// or gathered.
    fn draw(&self, panel: &mut Panel, ply: &Ply, row: StripRow, over: &[Option<usize>]) {
        let StripRow { up, far, is_first, shorter, longer } = row;
        let (making, left) = (self.making, self.left(ply));
        let high = HIGH * self.longest;
        let at = |along: f64, height: f64| Point::new(left + along, up * (far + height));
        for (face, from, to) in ply.rows() {
            let Some(flat) = making.flat(face) else { continue };
            let joined = making.is_joined(face, self.step);
            let cloth = making.cloth(flat.layer, true, joined);
            let edge = torn(at(from, high), at(to, high), up * high * 0.09, flat.flap);
            let mut outline = polyline(&[at(to, 0.0), at(from, 0.0), at(from, high)]);
            edge.elements().iter().skip(1).for_each(|element| outline.push(*element));
            outline.close_path();
            panel.cloth(outline, cloth);
            for end in [from, to] {
                panel.straight(
                    at(end, 0.0),
                    at(end, high),
                    if joined { Stroke::Before } else { Stroke::Outline },
                );
            }
            panel.line(edge, if flat.flap { Stroke::Fold } else { Stroke::Joined });
            let (number, title) = making.called(flat.part);
            if is_first {
                let middle = at(f64::midpoint(from, to), if shorter { high * 0.62 } else { high * 0.55 });
                panel.labels.push(super::canvas::Label {
                    at: middle,
                    room: to - from,
                    high,
                    number,
                    title: title.to_string(),
                    clear_of: Vec::new(),
                });
            } else if number.is_some() && !over.contains(&number) {
                // Of what lies under another strip the far side is seen.
                panel.labels.push(super::canvas::Label {
                    at: at(f64::midpoint(from, to), high * (1.0 - UNDER / 2.0)),
                    room: to - from,
                    high: high * UNDER,
                    number,
                    title: String::new(),
                    clear_of: Vec::new(),
                });
            }
        }
        for run in &ply.runs {
            let (from, to) = (at(run.from, 0.0), at(run.to, 0.0));
            if let Some(gap) = run.gap {
                let share = (gap / (run.to - run.from).max(1e-6)).clamp(0.0, 1.0) / 2.0;
                let (one, other) = (from.lerp(to, 0.5 - share), from.lerp(to, 0.5 + share));
                bars(panel, &Path::straight(one, other));
                panel.straight(from, one, self.stroke);
                panel.straight(other, to, self.stroke);
            } else if longer && is_first {
                panel.line(ripples(from, to, up * self.longest * 0.009, self.longest * 0.022), self.stroke);
            } else {
                panel.straight(from, to, self.stroke);
            }
            // Of what is folded both edges lie in the seam.
            if making.flat(run.face).is_some_and(|flat| flat.flap) {
                let inner = FOLDED * self.longest;
                panel.straight(at(run.from, inner), at(run.to, inner), self.stroke);
            }
        }
        if shorter && is_first {
            let height = high * 0.2;
            let (middle, half) = (ply.length / 2.0, ply.length * 0.44);
            for way in [-1.0, 1.0] {
                panel.marks.push(Mark::Arrow(
                    at(middle + way * half * 0.35, height),
                    at(middle + way * half, height),
                ));
            }
        }
        let middle = ply.length / 2.0;
        let is_in = |run: &&PlyRun| run.from <= middle && middle <= run.to;
        let beside = || ply.runs.first().map(|run| f64::midpoint(run.from, run.to));
        let at_run = ply.runs.iter().find(is_in).map(|_| middle).or_else(beside);
        panel.tag(at(at_run.unwrap_or(middle), 0.0), Vec2::new(1.0, 0.0), self.letter);
    }
}

/// The far side of a strip: torn, for the piece goes on there; straight where it is folded.
pub fn torn(from: Point, to: Point, deep: f64, is_fold: bool) -> BezPath {
    if is_fold {
        return polyline(&[from, to]);
    }
    let mut path = BezPath::new();
    path.move_to(from);
    const WAVES: u32 = 3;
    let way = to - from;
    let off = Vec2::new(-way.y, way.x) / way.hypot().max(1e-9) * deep;
    for nth in 0..WAVES {
        let share = |part: f64| from.lerp(to, (f64::from(nth) + part) / f64::from(WAVES));
        path.curve_to(share(0.3) + off, share(0.4) + off, share(0.5));
        path.curve_to(share(0.6) - off, share(0.7) - off, share(1.0));
    }
    path
}

/// A line with ripples: what is longer than what it is sewn to.
fn ripples(from: Point, to: Point, high: f64, long: f64) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(from);
    let count = (from.distance(to) / long.max(1e-6)).round().clamp(1.0, 60.0);
    for nth in 0..count as u32 {
        let share = |part: f64| from.lerp(to, (f64::from(nth) + part) / count);
        let off = Vec2::new(0.0, if nth % 2 == 0 { high } else { -high });
        path.quad_to(share(0.5) + off * 2.0, share(1.0));
    }
    path
}
