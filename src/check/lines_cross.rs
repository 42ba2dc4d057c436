//! `size/lines-cross`: the same edge of two neighbouring sizes crosses when they are nested.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, SizeId};
use crate::kept::{Question, SizeMemory, TwoPapers};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, group};
use crate::resolve::DrawnPiece;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use rayon::prelude::*;
use smallvec::{SmallVec, smallvec};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SIZE_LINES_CROSS], run: Run::OverSizes(run) };

/// On each side of the crossing the edges must be at least so far apart, in millimetres: closer
/// than a pencil line they are the same.
const APART: f64 = 1.0;
/// Where they swap sides from every size to the next, the piece is drafted so about its own middle,
/// and only more than this, in millimetres, is reported.
const DRAFTED_SO: f64 = 5.0;
/// What counts as the middle of an edge: this share of it at either end is left out, because
/// corners move from size to size.
const ENDS: f64 = 0.1;
/// Places along an edge that are looked at.
const PLACES: usize = 32;
/// How close the straight lines lie to a curve, in millimetres.
const CLOSE: f64 = 0.1;

fn run(garment: &Garment, sizes: &[WorkedSize], found: &mut Vec<Diagnostic>) {
    let of_paper = |paper: usize| on_paper(garment, sizes, PaperId::from_index(paper));
    let findings: Vec<Vec<Finding>> = (0..garment.papers.len()).into_par_iter().map(of_paper).collect();
    found.extend(group(findings.into_iter().flatten().collect(), &words::size_names(garment)));
}

fn on_paper(garment: &Garment, sizes: &[WorkedSize], paper: PaperId) -> Vec<Finding> {
    let mut findings = Vec::new();
    let drawn = |at: usize| sizes.get(at).and_then(|size| size.drawn.paper(paper));
    let Some(first) = drawn(0) else { return findings };
    if (1..sizes.len()).all(|at| is_known_to_nest(sizes, paper, at)) {
        return findings;
    }
    let mut crossed: SmallVec<[SizeId; 8]> = SmallVec::new();
    for edge in first.edges.iter().map(|edge| edge.edge) {
        if garment.edge(edge).copied_from.is_some() {
            continue;
        }
        let path = |at: usize| {
            let drawn = drawn(at)?;
            // A trued edge waves over its darts, which lie elsewhere in each size.
            let mut trued = drawn.take_ups.iter().filter(|one| one.moved.is_some());
            match trued.any(|one| one.mouth.is_some_and(|mouth| mouth.edge == edge)) {
                true => None,
                false => Some(&drawn.edge(edge)?.path),
            }
        };
        let crossings = crossings(garment, sizes, edge, path);
        crossed.extend(crossings.iter().map(|finding| finding.size));
        let everywhere = sizes.len() > 2 && crossings.len() + 1 == sizes.len();
        let least = if everywhere { DRAFTED_SO } else { APART };
        findings.extend(crossings.into_iter().filter(|finding| finding.weight > least));
    }
    for at in (1..sizes.len()).filter(|at| !crossed.contains(&SizeId::from_index(*at))) {
        remember_nested(garment, sizes, paper, at, first);
    }
    findings
}

/// The papers of a size and of the size before, with what is remembered of them.
fn pair(sizes: &[WorkedSize], paper: PaperId, at: usize) -> Option<(&SizeMemory, TwoPapers)> {
    let drawn = |at: usize| sizes.get(at)?.drawn.shared_paper(paper).cloned();
    Some((sizes.get(at)?.memory()?, (drawn(at.checked_sub(1)?)?, drawn(at)?)))
}

/// Whether it is remembered that no edge of these very papers swaps sides with that of the size before.
fn is_known_to_nest(sizes: &[WorkedSize], paper: PaperId, at: usize) -> bool {
    pair(sizes, paper, at).is_some_and(|(memory, papers)| memory.nested.holds(&papers))
}

/// Remembers papers of which no edge swaps sides, if all their edges were looked at: those that the first size has too.
fn remember_nested(garment: &Garment, sizes: &[WorkedSize], paper: PaperId, at: usize, first: &DrawnPiece) {
    let Some((memory, papers)) = pair(sizes, paper, at) else { return };
    let is_looked_at = |edge: EdgeId| first.edge(edge).is_some() && garment.edge(edge).copied_from.is_none();
    if papers.0.edges.iter().all(|edge| is_looked_at(edge.edge)) {
        memory.nested.hold(&papers);
    }
}

/// Where an edge, whose way in each size is given, crosses that of the size before.
fn crossings<'a>(
    garment: &Garment,
    sizes: &'a [WorkedSize],
    edge: EdgeId,
    path: impl Fn(usize) -> Option<&'a Path>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    // The chain of the size before, where it has been made.
    let mut last: Option<(usize, Option<Chain>)> = None;
    for (at, size) in sizes.iter().enumerate().skip(1) {
        let (Some(inner), Some(outer)) = (path(at - 1), path(at)) else { continue };
        let mut look = || {
            let known = last.take().filter(|(of, _)| of + 1 == at).map(|(_, chain)| chain);
            let (inner, outer) = (known.unwrap_or_else(|| Chain::of(inner)), Chain::of(outer));
            let swapped = inner.as_ref().zip(outer.as_ref()).and_then(|(inner, outer)| sides(inner, outer));
            last = Some((at, outer));
            swapped
        };
        let swapped = match size.memory() {
            Some(memory) => {
                let mut question = Question::default();
                question.paths([inner, outer].into_iter());
                memory.swapped.ask(&question, look)
            }
            None => look(),
        };
        found.extend(swapped.and_then(|sides| crossing(garment, sides, edge, SizeId::from_index(at))));
    }
    found
}

fn crossing(
    garment: &Garment,
    (one_side, other_side): (f64, f64),
    edge: EdgeId,
    size: SizeId,
) -> Option<Finding> {
    let by = one_side.min(other_side);
    let named = garment.edge(edge);
    let before = garment.sizes.get(size.index().checked_sub(1)?)?.name.clone();
    let name = words::edge(garment, edge);
    let title = Title::new(format!("nested, {name} crosses that of the size before")).in_sizes();
    let warning = Diagnostic::new(&catalogue::SIZE_LINES_CROSS, named.span, title)
        .label(format!("{} on the wrong side of size {before}", amount(by, garment.unit)))
        .help("look at what its ends and directions depend on: some of it grows where the rest shrinks");
    Some(Finding::new(size, by, warning).figure("crosses by", amount(by, garment.unit)))
}

/// How far `outer` lies to the left of `inner` at most, and to the right at most, in the middle of
/// both; none unless both are more than [`APART`], so that the two swap sides.
fn sides(inner: &Chain, outer: &Chain) -> Option<(f64, f64)> {
    if let ([inner], [_]) = (inner.chords.as_slice(), outer.chords.as_slice()) {
        // Of two straight lines the distance is in proportion to the share.
        let [one, other] = [ENDS, 1.0 - ENDS].map(|share| inner.way.cross(outer.at(share) - inner.from));
        if one.min(other) >= -APART || one.max(other) <= APART {
            return None;
        }
    }
    if keeps_to_one_side(inner, outer) {
        return None;
    }
    let (mut left, mut right) = (0.0_f64, 0.0_f64);
    let mut beside = Beside::new(inner);
    for place in 0..=PLACES {
        let share = ENDS + (1.0 - 2.0 * ENDS) * place as f64 / PLACES as f64;
        let (side, along) = beside.side_of(outer.at(share));
        if (ENDS..=1.0 - ENDS).contains(&along) {
            left = left.max(side);
            right = right.max(-side);
        }
    }
    (left > APART && right > APART).then_some((left, right))
}

/// Whether `outer` is nowhere more than [`APART`] on one of the sides of `inner`, as far as that shows when both
/// are looked at as heights over the line between the ends of `inner`: so it does for most edges, which bend
/// little. A point is at least as near to a line as the line is below or above it.
fn keeps_to_one_side(inner: &Chain, outer: &Chain) -> bool {
    let Some(first) = inner.chords.first() else { return false };
    let across = inner.end - first.from;
    let way = across / across.hypot();
    let over = |point: Point| (way.dot(point - first.from), way.cross(point - first.from));
    let (from, to) = (outer.at(ENDS), outer.at(1.0 - ENDS));
    let is_between =
        |chord: &&Chord| chord.along > ENDS * outer.length && chord.along < (1.0 - ENDS) * outer.length;
    let between = outer.chords.iter().filter(is_between).map(|chord| chord.from);
    let outer: SmallVec<[(f64, f64); 24]> = [from].into_iter().chain(between).chain([to]).map(over).collect();
    let corners = inner.chords.iter().map(|chord| chord.from).chain([inner.end]);
    let inner: SmallVec<[(f64, f64); 24]> = corners.map(over).collect();
    let [Some(&(start, _)), Some(&(end, _))] = [inner.first(), inner.last()] else { return false };
    let is_over = |&(at, _): &(f64, f64)| (start..=end).contains(&at);
    let goes_on = |of: &[(f64, f64)]| of.is_sorted_by(|one, other| one.0 < other.0);
    if !goes_on(&inner) || !goes_on(&outer) || !outer.iter().all(is_over) {
        return false;
    }
    // The difference of two chains is most, and least, above a corner of either.
    let (mut most, mut least) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut differ = |height: f64| (most, least) = (most.max(height), least.min(height));
    heights(&outer, &inner, &mut |own, below| differ(own - below));
    heights(&inner, &outer, &mut |own, above| differ(above - own));
    most <= APART || least >= -APART
}

/// Above each corner of one chain that lies over the other: its own height, and that of the other.
fn heights(of: &[(f64, f64)], over: &[(f64, f64)], each: &mut impl FnMut(f64, f64)) {
    let mut at = 0;
    for &(along, own) in of {
        while over.get(at + 1).is_some_and(|next| next.0 < along) {
            at += 1;
        }
        if let (Some(before), Some(after)) = (over.get(at), over.get(at + 1))
            && (before.0..=after.0).contains(&along)
        {
            let share = (along - before.0) / (after.0 - before.0);
            each(own, before.1 + share * (after.1 - before.1));
        }
    }
}

/// Straight lines end to end, [`CLOSE`] to a path.
struct Chain {
    chords: SmallVec<[Chord; 1]>,
    end: Point,
    length: f64,
}

/// One of them.
#[derive(Clone, Copy)]
struct Chord {
    from: Point,
    /// Its direction, a unit vector.
    way: Vec2,
    length: f64,
    /// How far along the chain it begins.
    along: f64,
}

impl Chain {
    /// None of a path without length.
    fn of(path: &Path) -> Option<Chain> {
        let mut chain = Chain { chords: SmallVec::new(), end: path.start(), length: 0.0 };
        // Most edges are straight.
        match path.is_straight() {
            true => chain.go_on(path.end())?,
            false => {
                let points = path.flatten(CLOSE);
                chain.chords.reserve_exact(points.len());
                points.into_iter().skip(1).try_for_each(|to| chain.go_on(to))?;
            }
        }
        (chain.length.is_finite() && chain.length > 0.0).then_some(chain)
    }

    /// Goes on straight to a point; none where that is nowhere.
    fn go_on(&mut self, to: Point) -> Option<()> {
        let (from, length) = (self.end, self.end.distance(to));
        if length > 0.0 {
            self.chords.push(Chord { from, way: (to - from) / length, length, along: self.length });
            self.length += length;
            self.end = to;
        }
        (!length.is_nan()).then_some(())
    }

    /// The point at a share of the length.
    fn at(&self, share: f64) -> Point {
        let wanted = share * self.length;
        let after = self.chords.partition_point(|chord| chord.along < wanted).max(1);
        self.chords.get(after - 1).map_or(self.end, |chord| chord.from + chord.way * (wanted - chord.along))
    }
}

/// Places beside a chain, one after the other.
struct Beside<'a> {
    chain: &'a Chain,
    /// The last place.
    at: Option<Point>,
    /// Its nearest chord.
    nearest: usize,
    /// Of each chord how near it is at least: it was so far off, less the way that has been gone since.
    least: SmallVec<[f64; 32]>,
}

impl<'a> Beside<'a> {
    fn new(chain: &'a Chain) -> Self {
        Beside { chain, at: None, nearest: 0, least: smallvec![0.0; chain.chords.len()] }
    }

    /// How far a point lies to the left of the chain (negative: to the right), and at which share
    /// of the length the chain is nearest to it.
    fn side_of(&mut self, point: Point) -> (f64, f64) {
        let gone = self.at.replace(point).map_or(0.0, |before| before.distance(point));
        let off = |chord: &Chord| {
            let to = point - chord.from;
            let foot = to.dot(chord.way).clamp(0.0, chord.length);
            ((to - chord.way * foot).hypot(), foot)
        };
        let Some(nearest) = self.chain.chords.get(self.nearest) else { return (0.0, 0.0) };
        // Most often it is the chord that it was, or one beside that: few others are looked at.
        let mut best = (self.nearest, off(nearest));
        for (at, (chord, least)) in self.chain.chords.iter().zip(&mut self.least).enumerate() {
            *least -= gone;
            if *least < best.1.0 {
                let own = off(chord);
                *least = own.0;
                if own.0 < best.1.0 || own.0 == best.1.0 && at < best.0 {
                    best = (at, own);
                }
            }
        }
        let (at, (distance, foot)) = best;
        self.nearest = at;
        let Some(chord) = self.chain.chords.get(at) else { return (0.0, 0.0) };
        let sign = if chord.way.cross(point - chord.from) < 0.0 { -1.0 } else { 1.0 };
        (sign * distance, (chord.along + foot) / self.chain.length)
    }
}

#[cfg(test)]
mod tests {
    use super::{Chain, sides};
    use crate::shape::Point;
    use crate::shape::path::Path;

    fn straight(from: (f64, f64), to: (f64, f64)) -> Chain {
        let path = Path::straight(Point::new(from.0, from.1), Point::new(to.0, to.1));
        Chain::of(&path).expect("it has a length")
    }

    #[test]
    fn an_edge_that_moves_out_does_not_cross() {
        assert_eq!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((0.0, 5.0), (110.0, 9.0))), None);
    }

    #[test]
    fn an_edge_that_swaps_sides_crosses() {
        assert!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((0.0, -10.0), (100.0, 10.0))).is_some());
    }

    #[test]
    fn edges_on_each_other_do_not_cross() {
        assert_eq!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((-5.0, 0.4), (105.0, -0.4))), None);
    }
}
