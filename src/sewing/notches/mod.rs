//! Notches of seams: those that are said, those that pieces declare, and one for every joint; where
//! each stands on every ply, and the stretches between them.

mod anchors;
mod declared;
mod gaps;
mod run_ends;
mod said;
mod snip;

pub use anchors::{mark_on_ply, way_from_inside};

use crate::garment::{Chain, Garment, NotchSpacing, Outline, PieceId, Seam, SeamNotches};
use crate::resolve::{DrawnEdgeId, DrawnNotch, DrawnPiece, SizedGarment};
use crate::sewing::amounts::amount_of;
use crate::sewing::ends::Corners;
use crate::sewing::model::{
    NotchMarks, PartId, PartNotch, SeamEnd, SeamNotchPlace, SewnPart, SewnPly, SewnRun, SewnSeam, SewnSide,
    Stretch, StretchEnd,
};
use crate::syntax::tree::FitKind;

/// Notches nearer to each other than this, or to the end of an edge, are one, in millimetres: less
/// than a snip is wide (common practice).
const ONE_NOTCH: f64 = 0.5;

/// A place on both sides that belong together.
#[derive(Clone, Copy, Debug)]
struct Pair {
    first: f64,
    second: f64,
    double: bool,
    mark: Option<StretchEnd>,
    /// It is to be notched: not the seam's ends.
    notched: bool,
    /// What it marks; what both sides have there is found side by side.
    marks: NotchMarks,
}

/// A place on one side alone.
#[derive(Clone, Copy, Debug)]
struct Lone {
    at: f64,
    double: bool,
    on_second: bool,
    marks: NotchMarks,
}

/// What the notches of seams are found from.
pub struct Notching<'a, 'c> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    corners: &'c mut Corners<'a>,
}

impl<'a, 'c> Notching<'a, 'c> {
    /// Over corners of which every seam has joined what it joins.
    pub fn new(garment: &'a Garment, sized: &'a SizedGarment, corners: &'c mut Corners<'a>) -> Self {
        Notching { garment, sized, corners }
    }

    /// The notches and stretches of every seam, and the notches of every part.
    pub fn notch(&mut self, seams: &mut [SewnSeam], parts: &mut [SewnPart]) {
        for part in parts.iter_mut() {
            let Some(drawn) = self.sized.paper(part.part.paper) else { continue };
            for notch in &drawn.notches {
                let edges = DrawnEdgeId::enumerate(&drawn.edges).filter(|(_, edge)| edge.edge == notch.edge);
                let nearest = edges.min_by(|(_, a), (_, b)| {
                    let off = |path: &crate::shape::path::Path| path.nearest(notch.at).distance;
                    off(&a.path).total_cmp(&off(&b.path))
                });
                if let Some((edge, _)) = nearest {
                    let &DrawnNotch { along, at, double, .. } = notch;
                    part.notches.push(PartNotch { edge, along, at, double, seam: None });
                }
            }
        }
        for seam in seams.iter_mut() {
            if seam.known && seam.unpaired.is_none() && seam.unmet.is_none() {
                self.notch_seam(seam, parts);
                self.notch_run_ends(seam, parts);
            }
        }
        self.notch_finished_runs(parts);
        for part in parts.iter_mut() {
            part.notches.sort_by(|a, b| a.edge.cmp(&b.edge).then(a.along.total_cmp(&b.along)));
        }
    }

    fn notch_seam(&mut self, sewn: &mut SewnSeam, parts: &mut [SewnPart]) {
        let garment = self.garment;
        let seam = garment.seam(sewn.seam);
        let (Some(first), Some(second)) = (sewn.first.plies.first(), sewn.second.plies.first()) else {
            return;
        };
        let share = match sewn.fit.map(|fit| fit.kind) {
            // Gathered and stretched cloth lies at no distance of its own: only shares are equal.
            Some(FitKind::Gathering | FitKind::Stretching)
                if first.length > 0.0 && seam.fit.as_ref().is_some_and(|fit| fit.between.is_none()) =>
            {
                second.length / first.length
            }
            _ => 1.0,
        };
        let lengths = (first.length, second.length);
        if self.is_bare(seam, sewn) {
            let [start, end] = [(0.0, 0.0), lengths].map(|(first, second)| Pair {
                first,
                second,
                double: false,
                mark: None,
                notched: false,
                marks: NotchMarks::default(),
            });
            sewn.stretches = stretches(&[start, end], sewn, None);
            return;
        }
        let (first, second) = (first.clone(), second.clone());
        let mut pairs = vec![
            Pair {
                first: 0.0,
                second: 0.0,
                double: false,
                mark: None,
                notched: false,
                marks: NotchMarks::default(),
            },
            Pair {
                first: lengths.0,
                second: lengths.1,
                double: false,
                mark: None,
                notched: false,
                marks: NotchMarks::default(),
            },
        ];
        self.said(seam, sewn, share, &mut pairs);
        let of_seam: Vec<Pair> = pairs.iter().skip(2).copied().collect();
        self.joints(seam, &first, &second, &mut pairs);
        let mut lone = self.declared(&first, &second, lengths, share, &mut pairs);
        let confined = self.confined(seam, sewn, lengths, &mut pairs);
        let pairs = in_order(pairs);
        for (ply, on_second) in [(&first, false), (&second, true)] {
            for (at, marks) in joint_stations(ply) {
                lone.push(Lone { at, double: false, on_second, marks });
            }
        }
        lone.extend(self.dividing(seam, lengths));
        let gaps = self.gaps(seam, sewn);
        lone.extend(Self::gap_ends(&gaps));
        let across = |lone: &Lone| {
            let at = |pair: &Pair| {
                if lone.on_second { (pair.second, pair.first) } else { (pair.first, pair.second) }
            };
            let across = carried(&pairs, lone.at, at)?;
            Some(if lone.on_second { (across, lone.at) } else { (lone.at, across) })
        };
        let mut all: Vec<SeamNotchPlace> = Vec::new();
        for pair in pairs.iter().filter(|pair| pair.notched) {
            let &Pair { first: on_first, second: on_second, double, .. } = pair;
            all.push(SeamNotchPlace { on_first, on_second, double, marks: pair.marks });
        }
        for lone in lone {
            let Some((on_first, on_second)) = across(&lone) else { continue };
            all.push(SeamNotchPlace { on_first, on_second, double: lone.double, marks: lone.marks });
        }
        all.sort_by(|a, b| a.on_first.total_cmp(&b.on_first));
        let mut notches: Vec<SeamNotchPlace> = Vec::new();
        for notch in all {
            match notches.last_mut() {
                Some(last) if is_one(last, &notch) => {
                    last.double |= notch.double;
                    last.marks = last.marks.with(notch.marks);
                }
                _ => notches.push(notch),
            }
        }
        sewn.said_notches = self.as_said(sewn, &of_seam, &pairs);
        sewn.stretches = stretches(&pairs, sewn, confined);
        sewn.gaps = gaps::settled(gaps, across);
        self.mark_gaps(sewn, parts);
        for (side, on_second) in [(&sewn.first, false), (&sewn.second, true)] {
            self.snip(side, on_second, lengths, &notches, sewn.seam, parts);
        }
        sewn.notches = notches;
    }

    /// Whether one edge is sewn to one other and nothing marks a place between their ends, as in most
    /// seams.
    fn is_bare(&self, seam: &Seam, sewn: &SewnSeam) -> bool {
        let is_bare = |ply: &SewnPly| {
            let [run] = ply.runs.as_slice() else { return false };
            let drawn = self.drawn(run.part);
            let edge = drawn.and_then(|drawn| drawn.edge_at(run.edge)).map(|edge| edge.edge);
            ply.length > ONE_NOTCH
                && drawn.is_some_and(|drawn| drawn.notches.iter().all(|notch| Some(notch.edge) != edge))
        };
        seam.notches.is_empty()
            && seam.gaps.iter().all(|gap| gap.at.is_none())
            && seam.divided.is_empty()
            && seam.fit.as_ref().is_none_or(|fit| fit.between.is_none())
            && sewn.first.plies.iter().chain(&sewn.second.plies).all(is_bare)
    }

    /// `notch quarters`: places on the first side, in equal shares of the seam as it is sewn.
    fn dividing(&self, seam: &Seam, lengths: (f64, f64)) -> Vec<Lone> {
        let mut places = Vec::new();
        for notches in &seam.divided {
            let Some(parts) = parts_between(self.garment, self.sized, notches, lengths.1) else { continue };
            for part in 1..parts {
                let at = lengths.0 * f64::from(part) / f64::from(parts);
                let marks = NotchMarks { share: true, ..NotchMarks::default() };
                places.push(Lone { at, double: notches.double, on_second: false, marks });
            }
        }
        places
    }

    /// Joints of both sides that are sewn together, or bear one name, or of which the seam says that they meet.
    fn joints(&mut self, seam: &Seam, first: &SewnPly, second: &SewnPly, pairs: &mut Vec<Pair>) {
        let (ours, theirs) = (self.joint_nodes(first), self.joint_nodes(second));
        let crossed = self.is_crossed(seam, first, second);
        let mut from = 0;
        let tolerance = self.garment.tolerance;
        for &(at, before, after) in &ours {
            let found = theirs.iter().enumerate().skip(from).find(|(_, (across, before_too, after_too))| {
                // Every rectangle has a bottom right: where the sides have other joints than one another, what its corners
                // are called says less than where another joint lies.
                let lies_at_another = ours.len() != theirs.len()
                    && (at - across).abs() > tolerance
                    && seam.fit.is_none()
                    && ours.iter().any(|(other, ..)| (other - across).abs() <= tolerance);
                [before, after].into_iter().flatten().any(|one| {
                    [*before_too, *after_too].into_iter().flatten().any(|other| {
                        let by_default =
                            lies_at_another && [one, other].iter().all(|&node| self.is_of_rectangle(node));
                        let by_name = !crossed && !by_default && !self.is_matched_otherwise(seam, one, other);
                        by_name && self.corners.same_name(one, other)
                            || self.corners.joined(one, other)
                            || self.is_said_to_meet(seam, one, other)
                    })
                })
            });
            if let (Some((place, &(across, ..))), Some(node)) = (found, before) {
                from = place + 1;
                let corner = self.corners.place(node);
                let mark = corner.map(|(part, _, corner)| StretchEnd::Joint(SeamEnd { part, corner }));
                pairs.push(Pair {
                    first: at,
                    second: across,
                    double: false,
                    mark,
                    notched: true,
                    marks: marks_of(mark),
                });
            }
        }
    }

    /// Whether the seam says `matching` of two corners.
    fn is_said_to_meet(&self, seam: &Seam, one: usize, other: usize) -> bool {
        seam.matching.iter().any(|(own, across)| {
            let are = |own, across| self.corners.is_point(one, own) && self.corners.is_point(other, across);
            are(own, across) || are(across, own)
        })
    }

    /// Whether the seam says of either of two corners that it meets another one: then it does not meet what bears its name.
    fn is_matched_otherwise(&self, seam: &Seam, one: usize, other: usize) -> bool {
        let is_said = |node: usize| {
            let mut said = seam.matching.iter().flat_map(|(own, across)| [own, across]);
            said.any(|point| self.corners.is_point(node, point))
        };
        (is_said(one) || is_said(other)) && !self.is_said_to_meet(seam, one, other)
    }

    /// Whether a corner is one of a rectangle, or of what is made of one: it bears the name that all of them have.
    fn is_of_rectangle(&self, node: usize) -> bool {
        let drawn = self.corners.place(node).and_then(|(part, ..)| self.corners.drawn(part));
        let is_rectangle =
            |piece: &PieceId| matches!(self.garment.piece(*piece).drawing.outline, Outline::Rectangle { .. });
        drawn.is_some_and(|drawn| self.garment.origins(drawn.piece).iter().all(is_rectangle))
    }

    /// Whether the ends of two plies meet against their names, as where a left side is sewn to a right one, and both
    /// sides are written in that order: then the names of their joints say nothing either. Where the ends meet against
    /// the order in which the edges are written, too, one piece lies turned round, and what its joints are called shows
    /// it.
    fn is_crossed(&self, seam: &Seam, first: &SewnPly, second: &SewnPly) -> bool {
        let end = |ply: &SewnPly, is_end: bool| {
            let run = if is_end { ply.runs.last() } else { ply.runs.first() };
            run.and_then(|run| self.corners.end_of(run.part, run.edge, is_end != run.reversed))
        };
        let same = |one: bool, other: bool| {
            end(first, one)
                .zip(end(second, other))
                .is_some_and(|(one, other)| self.corners.same_name(one, other))
        };
        let is_against = (same(false, true) || same(true, false)) && !same(false, false) && !same(true, true);
        is_against && self.as_written(&seam.first, first) == self.as_written(&seam.second, second)
    }

    /// Whether a ply is sewn from the edge that is written first; none where that cannot be told.
    fn as_written(&self, side: &[Chain], ply: &SewnPly) -> Option<bool> {
        let run = ply.runs.first()?;
        let sewn = self.corners.drawn(run.part)?.edge_at(run.edge)?.edge;
        let ends = side.iter().filter_map(|chain| chain.edges.first().zip(chain.edges.last()));
        ends.filter(|(one, other)| one.edge != other.edge).find_map(|(one, other)| match sewn {
            edge if edge == one.edge => Some(true),
            edge if edge == other.edge => Some(false),
            _ => None,
        })
    }

    fn joint_nodes(&self, ply: &SewnPly) -> Vec<(f64, Option<usize>, Option<usize>)> {
        let mut station = 0.0;
        let ends =
            |run: &SewnRun, is_end: bool| self.corners.end_of(run.part, run.edge, is_end != run.reversed);
        let pairs = ply.runs.windows(2).filter_map(|pair| match pair {
            [before, after] => Some((before, after)),
            _ => None,
        });
        pairs
            .map(|(before, after)| {
                station += before.length;
                (station, ends(before, true), ends(after, false))
            })
            .collect()
    }

    /// `easing 0..1.2 between A and B`: outside, both sides are equal.
    fn confined(
        &self,
        seam: &Seam,
        sewn: &SewnSeam,
        lengths: (f64, f64),
        pairs: &mut Vec<Pair>,
    ) -> Option<(f64, f64)> {
        let (from, to) = seam.fit.as_ref()?.between.as_ref()?;
        let (from_at, to_at) = (self.station(sewn, from)?, self.station(sewn, to)?);
        let ((from_at, from), (to_at, to)) = match from_at.0 > to_at.0 || from_at.1 > to_at.1 {
            true => ((to_at, to), (from_at, from)),
            false => ((from_at, from), (to_at, to)),
        };
        // A place on the first side is as far from the start, or from the end, on the second.
        let first = |(side, at): (usize, f64), from_end: bool| match (side, from_end) {
            (0, _) | (_, false) => at,
            (_, true) => lengths.0 - (lengths.1 - at),
        };
        let second = |(side, at): (usize, f64), from_end: bool| match (side, from_end) {
            (1, _) | (_, false) => at,
            (_, true) => lengths.1 - (lengths.0 - at),
        };
        let ends = [(from_at, false, from.span), (to_at, true, to.span)];
        for (place, from_end, span) in ends {
            let (one, two) = (first(place, from_end), second(place, from_end));
            let is_there = pairs
                .iter()
                .any(|pair| (pair.first - one).abs() <= ONE_NOTCH || (pair.second - two).abs() <= ONE_NOTCH);
            if !is_there && (0.0..=lengths.0).contains(&one) && (0.0..=lengths.1).contains(&two) {
                let mark = Some(StretchEnd::Confined(span));
                pairs.push(Pair {
                    first: one,
                    second: two,
                    double: false,
                    mark,
                    notched: true,
                    marks: marks_of(mark),
                });
            }
        }
        Some((first(from_at, false), first(to_at, true)))
    }

    fn drawn(&self, part: PartId) -> Option<&'a DrawnPiece> {
        self.corners.drawn(part)
    }
}

/// Notches nearer to each other than this are not told apart, in millimetres (common practice: two of
/// them, 6 mm apart, are one double notch).
pub const LEAST_APART: f64 = 10.0;

/// In how many parts notches divide a seam that is so long when it is sewn; none where that is not known,
/// or the parts would be shorter than [`LEAST_APART`].
pub fn parts_between(
    garment: &Garment,
    sized: &SizedGarment,
    notches: &SeamNotches,
    length: f64,
) -> Option<u32> {
    let parts = match &notches.apart {
        NotchSpacing::Parts(parts) => f64::from(*parts),
        NotchSpacing::AtMost(most) => {
            let most = amount_of(garment, sized, most).filter(|most| *most > 0.0)?;
            (length / most - SAME_SHARE).ceil().max(1.0)
        }
    };
    let is_told_apart = parts <= 1.0 || length / parts >= LEAST_APART;
    (parts.is_finite() && is_told_apart).then_some(parts as u32)
}

/// A part that is longer by less than this share of itself is none more.
const SAME_SHARE: f64 = 1e-6;

fn lengths(sewn: &SewnSeam, side: usize) -> (f64, f64) {
    let of = |side: &SewnSide| side.plies.first().map_or(0.0, |ply| ply.length);
    match side {
        0 => (of(&sewn.first), of(&sewn.second)),
        _ => (of(&sewn.second), of(&sewn.first)),
    }
}

/// Where runs of a ply meet, and whether that is the middle of one piece or a joint.
fn joint_stations(ply: &SewnPly) -> Vec<(f64, NotchMarks)> {
    let mut station = 0.0;
    let joints = ply.runs.windows(2).filter_map(|pair| match pair {
        [before, after] => Some((before, after)),
        _ => None,
    });
    joints
        .map(|(before, after)| {
            station += before.length;
            let is_one = (before.part, before.edge) == (after.part, after.edge);
            let middle = is_one && before.hand != after.hand;
            (station, NotchMarks { middle, joint: !middle, ..NotchMarks::default() })
        })
        .collect()
}

/// What a place marks that both sides have.
fn marks_of(mark: Option<StretchEnd>) -> NotchMarks {
    let none = NotchMarks::default();
    match mark {
        Some(StretchEnd::Notch(..)) => NotchMarks { given: true, ..none },
        // Whether that is a joint or a middle is told by what both sides have there.
        Some(StretchEnd::Joint(_)) | None => none,
        Some(StretchEnd::Confined(_)) => NotchMarks { fit_end: true, ..none },
    }
}

/// From start to end; a pair that would cross one before it is left out.
fn in_order(mut pairs: Vec<Pair>) -> Vec<Pair> {
    pairs.sort_by(|a, b| a.first.total_cmp(&b.first).then(a.second.total_cmp(&b.second)));
    let end = pairs.iter().map(|pair| pair.second).fold(0.0, f64::max);
    let mut kept: Vec<Pair> = Vec::with_capacity(pairs.len());
    for pair in pairs {
        let is_end = pair.mark.is_none() && !pair.notched;
        match kept.last_mut() {
            Some(last) if !is_end && pair.second < last.second => {}
            Some(last)
                if (pair.first - last.first).abs() <= ONE_NOTCH
                    && (pair.second - last.second).abs() <= ONE_NOTCH =>
            {
                // The same place twice: an end stays an end.
                last.double |= pair.double;
                last.marks = last.marks.with(pair.marks);
                if is_end && last.first > 0.0 {
                    *last = pair;
                }
            }
            _ if !is_end && pair.second > end => {}
            _ => kept.push(pair),
        }
    }
    kept
}

/// A place of one side on the other: between two pairs in equal shares.
fn carried(pairs: &[Pair], at: f64, of: impl Fn(&Pair) -> (f64, f64)) -> Option<f64> {
    let after = pairs.partition_point(|pair| of(pair).0 <= at);
    let (before, after) = (pairs.get(after.checked_sub(1)?)?, pairs.get(after).or(pairs.last())?);
    let ((from, from_across), (to, to_across)) = (of(before), of(after));
    match to > from {
        true => Some(from_across + (at - from) / (to - from) * (to_across - from_across)),
        false => Some(from_across),
    }
}

fn is_one(one: &SeamNotchPlace, other: &SeamNotchPlace) -> bool {
    (one.on_first - other.on_first).abs() <= ONE_NOTCH && (one.on_second - other.on_second).abs() <= ONE_NOTCH
}

fn stretches(pairs: &[Pair], sewn: &SewnSeam, confined: Option<(f64, f64)>) -> Vec<Stretch> {
    let between = pairs.windows(2).filter_map(|pair| match pair {
        [from, to] => Some((from, to)),
        _ => None,
    });
    between
        .map(|(from, to)| {
            let middle = (from.first + to.first) / 2.0;
            let is_inside = confined.is_none_or(|(from, to)| from <= middle && middle <= to);
            Stretch {
                first: (from.first, to.first),
                second: (from.second, to.second),
                fitted: sewn.fit.is_some() && is_inside,
                from: from.mark,
                to: to.mark,
            }
        })
        .collect()
}
