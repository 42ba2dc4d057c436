//! Edges from which cloth is folded away: how it is shut, and how an edge is trued over it.

use crate::shape::curve::smooth_curve;
use crate::shape::line::{Met, StraightLine};
use crate::shape::path::{Path, Position};
use crate::shape::pleat::Pleat;
use crate::shape::segment;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::wedge::{REACH, Wedge};
use kurbo::{Affine, Line, ParamCurve, PathSeg, Point, Vec2};

/// Cloth that is folded away from an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shut {
    /// Between two legs that meet: what lies beyond it is turned.
    Wedge(Wedge),
    /// Between two lines that run side by side: what lies beyond it is moved.
    Pleat(Pleat),
}

impl Shut {
    /// Where its lines meet the edge.
    pub fn sides(&self) -> [Point; 2] {
        match self {
            Shut::Wedge(wedge) => wedge.sides,
            Shut::Pleat(pleat) => pleat.sides,
        }
    }

    /// The same with its lines meeting the edge elsewhere.
    pub fn with_sides(&self, sides: [Point; 2]) -> Shut {
        match self {
            Shut::Wedge(wedge) => Shut::Wedge(Wedge { sides, ..*wedge }),
            Shut::Pleat(pleat) => Shut::Pleat(Pleat { sides, ..*pleat }),
        }
    }

    /// Shuts it: moves what lies beyond its second line until that lies along the first.
    pub fn shutting(&self) -> Affine {
        match self {
            Shut::Wedge(wedge) => wedge.shutting(),
            Shut::Pleat(pleat) => pleat.shutting(),
        }
    }

    /// By how much the edge turns, with it shut, where it crosses the seam: the edge's directions where it
    /// reaches the first line and where it leaves the second. Radians.
    pub fn kink(&self, arriving: Vec2, leaving: Vec2) -> f64 {
        match self {
            Shut::Wedge(wedge) => wedge.kink(arriving, leaving),
            Shut::Pleat(_) => libm::atan2(arriving.cross(leaving), arriving.dot(leaving)),
        }
    }

    /// A place in the cloth from which its first line leads to the edge.
    fn within(&self) -> Point {
        match self {
            Shut::Wedge(wedge) => wedge.point,
            Shut::Pleat(pleat) => pleat.sides[0] + pleat.into * (REACH * pleat.taken().hypot()),
        }
    }
}

/// An edge trued over what is folded away from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trued {
    /// The edge, straight across all that is taken from it.
    pub edge: Path,
    /// What is folded away as it is now, and where it lies along the edge.
    pub folded: Vec<(Shut, (f64, f64))>,
    /// How far the edge moved at each of them, at most, mm.
    pub moved: Vec<f64>,
}

/// The edge drawn anew with all that is folded away from it shut: one smooth curve between its corners. `folded` lie
/// along the edge in order, each between those lengths from its start.
///
/// Over each fold it is a smooth curve with the edge's own directions at both ends (Hobby 1986), which begins and
/// ends equally far from the fold: half way to the nearer corner or other fold. The rest stays. So over a wedge
/// in a straight edge it is very nearly an arc, and leaves the corner that the edge had there by its reach times
/// the tangent of a quarter of the kink. Folds that touch are shut as one; those that touch a corner stay as they
/// are. None where a fold has no place or the curve misses a line.
pub fn trued(edge: &Path, folded: &[(Shut, (f64, f64))]) -> Option<Trued> {
    let length = edge.length();
    // Those that begin at the corner where the edge does, or end where it ends.
    let mut begun = 0.0;
    let leading = folded.iter().take_while(|(_, (from, to))| touches(&mut begun, *from, *to)).count();
    let mut ended = length;
    let rest = folded.get(leading..)?;
    let trailing = rest.iter().rev().take_while(|(_, (from, to))| touches(&mut ended, *to, *from)).count();
    let inner = rest.get(..rest.len() - trailing)?;
    if leading + trailing == 0 && !inner.is_empty() {
        return trued_between(edge, folded);
    }
    let (kept, kept_after) = (edge.part(0.0, begun), edge.part(ended, length));
    let mut made = if inner.is_empty() {
        Trued { edge: edge.clone(), folded: folded.to_vec(), moved: vec![0.0; folded.len()] }
    } else {
        let shifted: Vec<(Shut, (f64, f64))> =
            inner.iter().map(|(shut, (from, to))| (*shut, (from - begun, to - begun))).collect();
        trued_between(&edge.part(begun, ended), &shifted)?
    };
    if inner.is_empty() {
        return Some(made);
    }
    let stay = |(shut, at): &(Shut, (f64, f64)), by: f64| (*shut, (at.0 + by, at.1 + by));
    let mut all: Vec<(Shut, (f64, f64))> = folded.iter().take(leading).copied().collect();
    all.extend(made.folded.iter().map(|one| stay(one, begun)));
    let later = begun + made.edge.length() - ended;
    all.extend(folded.iter().skip(leading + inner.len()).map(|one| stay(one, later)));
    let mut moved = vec![0.0; leading];
    moved.extend(&made.moved);
    moved.resize(folded.len(), 0.0);
    if leading > 0 {
        made.edge = kept.then(&made.edge);
    }
    if trailing > 0 {
        made.edge = made.edge.then(&kept_after);
    }
    Some(Trued { folded: all, moved, edge: made.edge })
}

/// Whether a stretch goes on from where the ones before it have come to, which it then moves on.
fn touches(come: &mut f64, near: f64, far: f64) -> bool {
    let does = (near - *come).abs() <= SAME_POINT;
    if does {
        *come = far;
    }
    does
}

fn trued_between(edge: &Path, folded: &[(Shut, (f64, f64))]) -> Option<Trued> {
    let length = edge.length();
    // Those that touch are shut as one.
    let touch = |(_, (_, to)): &(Shut, (f64, f64)), (_, (from, _)): &(Shut, (f64, f64))| {
        (from - to).abs() <= SAME_POINT
    };
    let groups: Vec<&[(Shut, (f64, f64))]> = folded.chunk_by(touch).collect();
    let mut shut = vec![Affine::IDENTITY];
    let mut stretches: Vec<Path> = Vec::with_capacity(groups.len() + 1);
    let mut from = 0.0;
    for group in &groups {
        let (_, (start, _)) = group.first()?;
        let (_, (_, end)) = group.last()?;
        stretches.push(edge.part(from, *start));
        let before = *shut.last()?;
        shut.push(group.iter().fold(before, |so_far, (one, _)| so_far * one.shutting()));
        from = *end;
    }
    stretches.push(edge.part(from, length));
    let laid: Vec<Path> = stretches.iter().zip(&shut).map(|(path, by)| path.transform(*by)).collect();
    let lengths: Vec<f64> = laid.iter().map(Path::length).collect();
    if lengths.iter().any(|length| *length <= SAME_POINT) {
        return None;
    }
    // How far on each side of a fold the edge is drawn anew.
    let reaches: Vec<f64> =
        lengths.windows(2).map(|pair| pair.iter().copied().fold(f64::INFINITY, f64::min) / 2.0).collect();
    let kept = laid.iter().zip(&lengths).enumerate().map(|(at, (path, length))| {
        let reach = |of: Option<usize>| of.and_then(|of| reaches.get(of)).copied().unwrap_or(0.0);
        path.part(reach(at.checked_sub(1)), length - reach(Some(at)))
    });
    let kept: Vec<Path> = kept.collect();
    let is_pleat = |at: usize| {
        groups.get(at).is_some_and(|group| group.iter().all(|(one, _)| matches!(one, Shut::Pleat(_))))
    };
    let first = kept.first()?;
    let mut curve = Chain::with_room(2 * kept.len());
    curve.go_on(first);
    // By groups: the segment at which the curve over them begins.
    let mut over: Vec<usize> = Vec::with_capacity(groups.len());
    let mut through = vec![first.end()];
    let mut arriving = tangent(first, laid.first()?, true)?;
    for (at, next) in kept.iter().enumerate().skip(1) {
        through.push(next.start());
        // Close to one another, pleats that step make a stair: one curve goes through the middle of its treads.
        if next.length() <= SAME_POINT && is_pleat(at - 1) && is_pleat(at) {
            continue;
        }
        let whole = laid.get(at)?;
        let leaving = tangent(next, whole, false)?;
        over.resize(at, curve.segments.len());
        curve.go_on(&smooth_curve(&through, Some(arriving), Some(leaving)).ok()?);
        curve.go_on(next);
        through.clear();
        through.push(next.end());
        arriving = tangent(next, whole, true)?;
    }
    let curve = Path::chain(curve.segments, first.start());
    let met = Met::of(&curve);
    let mut cuts: Vec<Position> = Vec::with_capacity(groups.len() + 2);
    cuts.push(curve.first_position());
    for ((group, by), begins) in groups.iter().zip(&shut).zip(&over) {
        let (first, _) = group.first()?;
        let (point, side) = (*by * first.within(), *by * first.sides()[0]);
        let leg = StraightLine::through(point, side)?;
        let (position, point) = met.nearest(&leg, side, *begins)?;
        if leg.along(point) <= SAME_POINT || cuts.last().is_some_and(|last| position <= *last) {
            return None;
        }
        cuts.push(position);
    }
    cuts.push(curve.last_position());
    let mut parts = cuts.windows(2).zip(&shut).filter_map(|(pair, by)| match pair {
        &[from, to] => Some((curve.between(from, to), by.inverse())),
        _ => None,
    });
    let room = curve.segments().len() + 3 * groups.len();
    let mut made = Chain { segments: Vec::with_capacity(room), lengths: Vec::with_capacity(room) };
    let (first, by) = parts.next()?;
    let mut along = made.go_on_measured(&first, by);
    let (mut now, mut moved) = (Vec::with_capacity(folded.len()), Vec::with_capacity(folded.len()));
    for (group, (part, by)) in groups.iter().zip(parts) {
        let mut from = made.end()?;
        for (at, (one, _)) in group.iter().enumerate() {
            let to = if at + 1 == group.len() { by * part.start() } else { one.shutting().inverse() * from };
            let mouth = from.distance(to);
            let was = one.sides();
            moved.push(was[0].distance(from).max(was[1].distance(to)));
            now.push((one.with_sides([from, to]), (along, along + mouth)));
            along += made.go_on_measured(&Path::straight(from, to), Affine::IDENTITY);
            from = to;
        }
        along += made.go_on_measured(&part, by);
    }
    let edge = Path::measured(made.segments, made.lengths, edge.start());
    Some(Trued { edge, folded: now, moved })
}

/// Paths end to end that become one.
struct Chain {
    segments: Vec<PathSeg>,
    /// How long each segment is, where that is kept, mm.
    lengths: Vec<f64>,
}

impl Chain {
    fn with_room(segments: usize) -> Self {
        Chain { segments: Vec::with_capacity(segments), lengths: Vec::new() }
    }

    fn end(&self) -> Option<Point> {
        self.segments.last().map(ParamCurve::end)
    }

    /// Adds a path, as [`Path::then`] does.
    fn go_on(&mut self, next: &Path) {
        self.bridge(next.start());
        self.segments.extend_from_slice(next.segments());
    }

    fn bridge(&mut self, to: Point) {
        if let Some(end) = self.end()
            && end.distance(to) > SAME_POINT
        {
            self.segments.push(PathSeg::Line(Line::new(end, to)));
        }
    }

    /// The same of a path that is turned or moved, where lengths are kept: by how much it is longer then, mm, without what
    /// bridges a gap.
    fn go_on_measured(&mut self, next: &Path, by: Affine) -> f64 {
        self.bridge(by * next.start());
        self.segments.extend(next.segments().iter().map(|segment| by * *segment));
        let fresh = self.segments.iter().skip(self.lengths.len()).map(segment::length);
        self.lengths.extend(fresh);
        self.lengths.iter().skip(self.lengths.len() - next.segments().len()).sum()
    }
}

/// The direction of a part of a stretch that is kept, at its end or its start; one of no length lies where two
/// curves meet, in the middle of the stretch.
fn tangent(part: &Path, whole: &Path, at_end: bool) -> Option<Vec2> {
    let own = if at_end { part.tangent_at_end() } else { part.tangent_at_start() };
    own.or_else(|| whole.tangent_at(whole.nearest(part.start()).position))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    fn dart() -> (Path, Wedge) {
        let edge = Path::straight(p(-100.0, 0.0), p(100.0, 0.0));
        (edge, Wedge { sides: [p(-15.0, 0.0), p(15.0, 0.0)], point: p(0.0, -120.0) })
    }

    /// Shut, the edge is a V of two stretches of 85 that turns by 14.25°; between their middles an arc leaves it by
    /// 42.5·tan(14.25°/4) = 2.645 (by hand: the sagitta of the arc against the corner of its tangents).
    #[test]
    fn a_trued_edge_is_smooth_with_its_dart_shut() {
        let (edge, wedge) = dart();
        let trued = trued(&edge, &[(Shut::Wedge(wedge), (85.0, 115.0))]).unwrap();
        let moved = trued.moved[0];
        assert!((moved - 2.645).abs() < 0.005, "{moved}");
        let (Shut::Wedge(now), (from, to)) = trued.folded[0] else { panic!("a wedge") };
        let [one, other] = now.legs();
        assert!((one - other).abs() < 1e-6 && one > wedge.legs()[0]);
        assert!((trued.edge.point_at_length(from).distance(now.sides[0])) < 1e-6);
        let (before, after) = (trued.edge.part(0.0, from), trued.edge.part(to, trued.edge.length()));
        let kink = now.kink(before.tangent_at_end().unwrap(), after.tangent_at_start().unwrap());
        assert!(kink.abs() < 1e-3, "{kink}");
        // The outer halves stay as they were.
        assert!(before.part(0.0, 42.0).is_straight());
    }

    /// An edge that falls by 1 in 10, with an upright pleat of 40 in its middle: shut, it steps by 4, and is drawn
    /// as one curve through the middle of the step, by symmetry.
    #[test]
    fn a_pleat_that_slants_is_trued_too() {
        let edge = Path::straight(p(0.0, 0.0), p(200.0, -20.0));
        let along = |x: f64| x * edge.length() / 200.0;
        let pleat = Pleat { sides: [p(80.0, -8.0), p(120.0, -12.0)], into: Vec2::new(0.0, -1.0) };
        let made = trued(&edge, &[(Shut::Pleat(pleat), (along(80.0), along(120.0)))]).unwrap();
        let (now, _) = made.folded[0];
        let [one, other] = now.sides();
        assert!((one.y - other.y).abs() < 1e-6 && (one.y + 10.0).abs() < 0.01, "{one} {other}");
        assert!((made.moved[0] - 2.0).abs() < 0.01);
    }

    /// Two that touch are shut as one, and what begins at a corner stays.
    #[test]
    fn pleats_that_touch() {
        let edge = Path::straight(p(0.0, 0.0), p(200.0, 0.0));
        let pleat = |from: f64, to: f64| {
            let sides = [p(from, 0.0), p(to, 0.0)];
            (Shut::Pleat(Pleat { sides, into: Vec2::new(0.0, -1.0) }), (from, to))
        };
        for all in [
            vec![pleat(60.0, 80.0), pleat(80.0, 100.0)],
            vec![pleat(0.0, 20.0), pleat(60.0, 80.0)],
            vec![pleat(0.0, 20.0)],
        ] {
            let made = trued(&edge, &all).unwrap();
            assert!((made.edge.length() - 200.0).abs() < 1e-6);
            for ((now, at), (was, place)) in made.folded.iter().zip(&all) {
                assert!(now.sides()[1].distance(was.sides()[1]) < 1e-6 && (at.1 - place.1).abs() < 1e-6);
            }
        }
    }
}
