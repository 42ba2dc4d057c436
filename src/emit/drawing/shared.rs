//! Cutting lines of sizes that lie in one another: a stretch along which several of them lie on one another is one line
//! on paper, else their dashes would run into a thick muddle.

use crate::cutting::CutPart;
use crate::garment::SizeId;
use crate::shape::path::Path;
use kurbo::{
    BezPath, ParamCurve as _, ParamCurveArclen as _, ParamCurveNearest as _, PathSeg, Rect, Shape as _,
};

/// A line, and the sizes that are cut along it: at least one.
pub(super) struct Line {
    pub sizes: Vec<SizeId>,
    pub path: BezPath,
}

/// By member the stretches of its cutting line that no smaller one has drawn already, one line for all that have the
/// same sizes: its own first.
pub(super) fn lines(members: &[&CutPart]) -> Vec<Vec<Line>> {
    let rings: Vec<Ring> = members.iter().map(|part| Ring::of(part)).collect();
    // What smaller ones have drawn for each.
    let mut drawn: Vec<Ring> =
        members.iter().map(|_| Ring { segments: Vec::new(), is_closed: false }).collect();
    (0..members.len()).map(|at| lines_of(members, &rings, &mut drawn, at)).collect()
}

/// The segments of a cutting line in order, without the fold.
struct Ring {
    segments: Vec<(PathSeg, Rect)>,
    is_closed: bool,
}

impl Ring {
    fn of(part: &CutPart) -> Self {
        let fold = part.fold.and_then(|fold| part.cutting.iter().position(|run| run.along == Some(fold)));
        let runs = part.cutting.iter().enumerate().filter(|(at, _)| fold != Some(*at));
        let runs = in_order(runs.map(|(at, run)| (at, &run.path)), fold);
        let segments = runs.iter().flat_map(|path| path.segments()).map(|one| (*one, one.bounding_box()));
        Ring { segments: segments.collect(), is_closed: fold.is_none() }
    }

    /// The stretches of a segment along which it lies on this ring, by its parameter.
    fn along(&self, own: &(PathSeg, Rect), least: f64) -> Vec<Stretch> {
        let (segment, bounds) = own;
        let bounds = bounds.inflate(SHARED, SHARED);
        let near = self.segments.iter().filter(|(_, its)| {
            its.x0 <= bounds.x1 && bounds.x0 <= its.x1 && its.y0 <= bounds.y1 && bounds.y0 <= its.y1
        });
        united(near.flat_map(|(its, _)| together(segment, its)).collect(), segment, least)
    }
}

/// From one parameter of a segment to another.
type Stretch = (f64, f64);

fn lines_of(members: &[&CutPart], rings: &[Ring], drawn: &mut [Ring], at: usize) -> Vec<Line> {
    let own = &rings[at];
    // Each stretch of the ring, in order, and how many sizes from this one on share it; 0 where a smaller one drew it.
    let mut stretches: Vec<(PathSeg, usize)> = Vec::new();
    for segment in &own.segments {
        // What is hardly long enough is drawn once more.
        let known = drawn[at].along(segment, 1.5 * LEAST);
        let mut shared = vec![without(vec![(0.0, 1.0)], &known)];
        for other in &rings[at + 1..] {
            let on = match shared.last() {
                Some(last) if !last.is_empty() => both(last, &other.along(segment, LEAST)),
                _ => break,
            };
            shared.push(on);
        }
        let mut parts: Vec<(Stretch, usize)> = known.into_iter().map(|part| (part, 0)).collect();
        for (count, all) in shared.iter().enumerate() {
            let more = shared.get(count + 1).cloned().unwrap_or_default();
            parts.extend(without(all.clone(), &more).into_iter().map(|part| (part, count + 1)));
        }
        parts.sort_by(|(one, _), (other, _)| one.0.total_cmp(&other.0));
        let cut = |(from, to): Stretch| match (from, to) {
            (0.0, 1.0) => segment.0,
            (from, to) => segment.0.subsegment(from..to),
        };
        for (part, count) in parts {
            let stretch = cut(part);
            for other in drawn.iter_mut().skip(at + 1).take(count.saturating_sub(1)) {
                other.segments.push((stretch, stretch.bounding_box()));
            }
            stretches.push((stretch, count));
        }
    }
    joined(&stretches, own.is_closed)
        .into_iter()
        .map(|(count, path)| Line {
            sizes: members[at..at + count].iter().map(|part| part.size).collect(),
            path,
        })
        .collect()
}

/// Stretches that are shared by as many as one path, those of one after another as one subpath.
fn joined(stretches: &[(PathSeg, usize)], is_closed: bool) -> Vec<(usize, BezPath)> {
    let mut paths: Vec<(usize, BezPath)> = Vec::new();
    let change = stretches.windows(2).position(|pair| pair[0].1 != pair[1].1);
    // A ring begins where something changes, so that no line is parted for nothing.
    let first = change.filter(|_| is_closed).map_or(0, |at| at + 1);
    let mut before = None;
    for (segment, count) in stretches[first..].iter().chain(&stretches[..first]) {
        if *count > 0 {
            let at = paths.iter().position(|(own, _)| own == count).unwrap_or_else(|| {
                paths.push((*count, BezPath::new()));
                paths.len() - 1
            });
            let path = &mut paths[at].1;
            if before != Some(*count) {
                path.move_to(segment.start());
            }
            path.push(segment.as_path_el());
        }
        before = Some(*count);
    }
    if change.is_none() && is_closed {
        paths.iter_mut().for_each(|(_, path)| path.close_path());
    }
    paths.sort_by_key(|(count, _)| *count);
    paths
}

/// Where two segments lie on one another, by the first one's parameter. A straight one and a curve do so nowhere.
fn together(own: &PathSeg, its: &PathSeg) -> Vec<Stretch> {
    match (own, its) {
        (PathSeg::Line(one), PathSeg::Line(other)) => {
            let way = one.p1 - one.p0;
            let long = way.hypot();
            if long <= 0.0 {
                return Vec::new();
            }
            let along = [other.p0, other.p1].map(|point| (point - one.p0).dot(way) / (long * long));
            let off = [other.p0, other.p1].map(|point| (point - one.p0).cross(way) / long);
            let (from, to) = (along[0].min(along[1]).max(0.0), along[0].max(along[1]).min(1.0));
            let span = along[1] - along[0];
            if to <= from || span == 0.0 {
                return Vec::new();
            }
            let off_at = |at: f64| off[0] + (off[1] - off[0]) * (at - along[0]) / span;
            let is_near = off_at(from).abs() <= SHARED && off_at(to).abs() <= SHARED;
            if is_near { vec![(from, to)] } else { Vec::new() }
        }
        (PathSeg::Cubic(one), PathSeg::Cubic(other)) => {
            let controls = |curve: &kurbo::CubicBez| [curve.p0, curve.p1, curve.p2, curve.p3];
            let pairs = || controls(one).into_iter().zip(controls(other));
            if pairs().all(|(own, its)| own.distance(its) <= SHARED) {
                return vec![(0.0, 1.0)];
            }
            let is_near = |at: f64| other.nearest(one.eval(at), 0.01).distance_sq <= SHARED * SHARED;
            let looked = |count: usize| (0..=count).map(move |at| at as f64 / count as f64);
            if !looked(FEW).any(&is_near) {
                return Vec::new();
            }
            let near: Vec<(f64, bool)> = looked(MANY).map(|at| (at, is_near(at))).collect();
            let ends = near.windows(2).filter(|pair| pair[0].1 != pair[1].1).map(|pair| {
                let (mut low, mut high) = (pair[0].0, pair[1].0);
                for _ in 0..10 {
                    let middle = f64::midpoint(low, high);
                    if is_near(middle) == pair[0].1 { low = middle } else { high = middle }
                }
                if pair[0].1 { low } else { high }
            });
            let mut ends: Vec<f64> = ends.collect();
            if near.first().is_some_and(|(_, is_near)| *is_near) {
                ends.insert(0, 0.0);
            }
            if near.last().is_some_and(|(_, is_near)| *is_near) {
                ends.push(1.0);
            }
            ends.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
        }
        _ => Vec::new(),
    }
}

/// The same in order, those that meet as one; none that is shorter than `least`. Ends that are nearly the segment's are.
fn united(mut all: Vec<Stretch>, segment: &PathSeg, least: f64) -> Vec<Stretch> {
    if all.is_empty() {
        return all;
    }
    all.sort_by(|one, other| one.0.total_cmp(&other.0));
    let long = segment.arclen(0.01).max(f64::MIN_POSITIVE);
    let slack = SHARED / long;
    let mut united: Vec<Stretch> = Vec::new();
    for (from, to) in all {
        let from = if from < slack { 0.0 } else { from };
        let to = if to > 1.0 - slack { 1.0 } else { to };
        match united.last_mut() {
            Some(last) if from <= last.1 + slack => last.1 = last.1.max(to),
            _ => united.push((from, to)),
        }
    }
    // A whole segment may be short: it lies between others that are shared too.
    united.retain(|&(from, to)| (to - from) * long >= least || (from, to) == (0.0, 1.0));
    united
}

fn both(one: &[Stretch], other: &[Stretch]) -> Vec<Stretch> {
    let pairs = one.iter().flat_map(|own| other.iter().map(move |its| (own.0.max(its.0), own.1.min(its.1))));
    pairs.filter(|(from, to)| from < to).collect()
}

fn without(all: Vec<Stretch>, left_out: &[Stretch]) -> Vec<Stretch> {
    left_out.iter().fold(all, |all, out| {
        let rest = all.into_iter().flat_map(|own| [(own.0, own.1.min(out.0)), (own.0.max(out.1), own.1)]);
        rest.filter(|(from, to)| from < to).collect()
    })
}

/// Paths of a ring, one of them left out, from its end on.
pub(super) fn in_order<'a>(
    paths: impl Iterator<Item = (usize, &'a Path)>,
    left_out: Option<usize>,
) -> Vec<&'a Path> {
    let (before, after): (Vec<_>, Vec<_>) = paths.partition(|(at, _)| left_out.is_some_and(|out| *at < out));
    after.into_iter().chain(before).map(|(_, path)| path).collect()
}

/// Lines no farther apart than this, in millimetres, are one line.
pub(super) const SHARED: f64 = 0.05;
/// A shorter stretch than this is not worth parting lines for, in millimetres.
const LEAST: f64 = 2.0;
/// Places of a curve at which it is looked whether it lies on another at all.
const FEW: usize = 4;
/// Places at which it is looked from where to where.
const MANY: usize = 32;
