//! Where in its seam a gap for turning lies, and the notches at its ends.

use super::anchors::Anchor;
use super::{Lone, Notching, ONE_NOTCH};
use crate::garment::{Dimension, GapAt, NotchAt, Seam};
use crate::resolve::taken;
use crate::sewing::amounts::amount_of;
use crate::sewing::model::{GapLost, NotchMarks, PartGap, SewnGap, SewnPart, SewnPly, SewnSeam};
use crate::syntax::tree::Hand;

/// A place on one side of a seam, from its start, and the copy that it is counted on.
#[derive(Clone, Copy, Debug)]
struct Met {
    side: usize,
    at: f64,
    long: f64,
    hand: Option<Hand>,
}

impl Notching<'_, '_> {
    /// The gaps of a seam of which it is said where they lie, each with the side that it is counted on, and from where to
    /// where there. Those of other layers and of the other side of the body are left out.
    pub(super) fn gaps(&self, seam: &Seam, sewn: &SewnSeam) -> Vec<(usize, Result<Stretch, GapLost>)> {
        let mut found = Vec::new();
        for (at, gap) in seam.gaps.iter().enumerate() {
            let Some(place) = &gap.at else { continue };
            let is_meant = gap.layer.is_none_or(|layer| sewn.layers.contains(&layer))
                && gap.hand.zip(sewn.reach.hand()).is_none_or(|(one, other)| one == other);
            let long = amount_of(self.garment, self.sized, &gap.length).filter(|long| *long > 0.0);
            let Some(long) = long.filter(|_| is_meant) else { continue };
            found.extend(self.gap(sewn, place, long, gap.hand).map(|stretch| (at, stretch)));
        }
        found
    }

    /// None where an amount is not known, which has been reported.
    fn gap(
        &self,
        sewn: &SewnSeam,
        at: &GapAt,
        long: f64,
        hand: Option<Hand>,
    ) -> Option<Result<Stretch, GapLost>> {
        let edge = at.along.as_ref().map(|edge| self.runs_of(sewn, edge));
        let Some([from, to]) = &at.between else {
            let whole = |side: usize| (side, 0.0, self.long(sewn, side), None);
            let all = match edge {
                Some(runs) if hand.is_none() => run_on(runs),
                Some(runs) => runs,
                None => vec![whole(0)],
            };
            if let ([(side, start, ..), .., (last, _, end, _)], true) = (all.as_slice(), sewn.ring)
                && side == last
                && *start <= ONE_NOTCH
                && *end >= self.long(sewn, *side) - ONE_NOTCH
            {
                return Some(Err(GapLost::Seamed));
            }
            let all: Vec<Stretch> = all
                .into_iter()
                .map(|(side, start, end, hand)| {
                    let middle = f64::midpoint(start, end);
                    Stretch {
                        side,
                        from: middle - long / 2.0,
                        to: middle + long / 2.0,
                        within: (start, end),
                        hand,
                    }
                })
                .collect();
            return Some(chosen(all, hand));
        };
        let (from, to) = (self.met(sewn, from)?, self.met(sewn, to)?);
        let mut all: Vec<Stretch> = Vec::new();
        for one in &from {
            for other in &to {
                let off = (one.at - other.at).abs() - long;
                if one.side != other.side || off.abs() > ONE_NOTCH {
                    continue;
                }
                let hand = other.hand.or(one.hand);
                let (from, to) = (one.at.min(other.at), one.at.max(other.at));
                let own = Stretch { side: one.side, from, to, within: (0.0, one.long), hand };
                let is_there =
                    |known: &Stretch| known.side == own.side && (known.from - own.from).abs() <= ONE_NOTCH;
                match &edge {
                    _ if all.iter().any(is_there) => {}
                    None => all.push(own),
                    Some(edges) => {
                        let middle = f64::midpoint(from, to);
                        let mut on = edges.iter().filter(|(side, start, end, _)| {
                            *side == own.side && *start <= middle && middle <= *end
                        });
                        all.extend(
                            on.next().map(|&(_, start, end, _)| Stretch { within: (start, end), ..own }),
                        );
                    }
                }
            }
        }
        Some(chosen(all, hand))
    }

    /// The places on a seam that are meant by one that is said: one, where nothing is there twice.
    fn met(&self, sewn: &SewnSeam, at: &NotchAt) -> Option<Vec<Met>> {
        let amount = amount_of(self.garment, self.sized, at.amount())?;
        let from = match at {
            NotchAt::From(_, from) => from,
            NotchAt::Share(_) => {
                let long = self.long(sewn, 0);
                return Some(vec![Met { side: 0, at: long * amount, long, hand: None }]);
            }
        };
        let is_share = at.amount().dimension == Dimension::Number;
        let mut anchors = self.anchors(sewn, from);
        if anchors.is_empty() {
            // From inside it may go either way.
            let station = self.station(sewn, from).into_iter();
            anchors.extend(station.flat_map(|(side, station)| {
                let anchor = |forward| Anchor { side, station, forward, from_end: false, hand: None };
                [anchor(true), anchor(false)]
            }));
        }
        let met = anchors.into_iter().map(|anchor| {
            let long = self.long(sewn, anchor.side);
            let far = if is_share { amount * long } else { amount };
            let at = if anchor.forward { anchor.station + far } else { anchor.station - far };
            Met { side: anchor.side, at, long, hand: anchor.hand }
        });
        Some(met.collect())
    }

    /// Where on the first plies of a seam an edge lies, and on which copy.
    fn runs_of(
        &self,
        sewn: &SewnSeam,
        edge: &crate::garment::SewnEdge,
    ) -> Vec<(usize, f64, f64, Option<Hand>)> {
        let mut found = Vec::new();
        let whole = self.garment.whole_edge(edge.edge);
        for (side, plies) in [&sewn.first.plies, &sewn.second.plies].into_iter().enumerate() {
            for ply in plies {
                let mut station = 0.0;
                let before = found.len();
                for run in &ply.runs {
                    let own = self.drawn(run.part).and_then(|drawn| drawn.edge_at(run.edge));
                    let is_own = own.is_some_and(|own| {
                        let own = self.garment.whole_edge(own.edge);
                        self.garment.is_run_of(own, whole)
                    });
                    let is_layer = edge
                        .layer
                        .is_none_or(|layer| self.corners.layer(run.part).is_none_or(|own| own == layer));
                    if is_own && is_layer {
                        found.push((side, station, station + run.length, run.hand));
                    }
                    station += run.length;
                }
                // What lies on it is that edge too.
                if found.len() > before {
                    return found;
                }
            }
        }
        found
    }

    fn long(&self, sewn: &SewnSeam, side: usize) -> f64 {
        super::lengths(sewn, side).0
    }

    /// Notches the ends of gaps: as places of the side that they are counted on.
    pub(super) fn gap_ends(gaps: &[(usize, Result<Stretch, GapLost>)]) -> impl Iterator<Item = Lone> {
        let known = gaps.iter().filter_map(|(_, stretch)| stretch.as_ref().ok());
        known.flat_map(|stretch| {
            let on_second = stretch.side == 1;
            let marks = NotchMarks { gap_end: true, ..NotchMarks::default() };
            [stretch.from, stretch.to].map(|at| Lone { at, double: false, on_second, marks })
        })
    }

    /// What each edge of the seam's parts has of a gap.
    pub(super) fn mark_gaps(&self, sewn: &SewnSeam, parts: &mut [SewnPart]) {
        for gap in &sewn.gaps {
            let Ok(stretch) = gap.at else { continue };
            for (plies, (from, to), whole) in [
                (&sewn.first.plies, stretch.first, self.long(sewn, 0)),
                (&sewn.second.plies, stretch.second, self.long(sewn, 1)),
            ] {
                for ply in plies {
                    let scale = if whole > 0.0 { ply.length / whole } else { 1.0 };
                    self.mark_gap(sewn, ply, (from * scale, to * scale), gap.gap, parts);
                }
            }
        }
    }

    fn mark_gap(
        &self,
        sewn: &SewnSeam,
        ply: &SewnPly,
        (from, to): (f64, f64),
        gap: usize,
        parts: &mut [SewnPart],
    ) {
        let mut station = 0.0;
        for run in &ply.runs {
            let (start, end) = ((from - station).max(0.0), (to - station).min(run.length));
            station += run.length;
            if end - start <= ONE_NOTCH || run.elsewhere {
                continue;
            }
            let Some(sewn_as) = self.drawn(run.part).and_then(|drawn| taken(self.garment, drawn, run.edge))
            else {
                continue;
            };
            let drawn = |at: f64| sewn_as.as_drawn(if run.reversed { run.length - at } else { at });
            let (one, other) = (drawn(start), drawn(end));
            let own =
                PartGap { seam: sewn.seam, gap, edge: run.edge, along: (one.min(other), one.max(other)) };
            if let Some(part) = parts.get_mut(run.part.index()).filter(|part| !part.gaps.contains(&own)) {
                part.gaps.push(own);
            }
        }
    }
}

/// Runs of one edge of which each goes on where the one before ends, as one: both halves of a piece that lies on the fold.
fn run_on(runs: Vec<(usize, f64, f64, Option<Hand>)>) -> Vec<(usize, f64, f64, Option<Hand>)> {
    let mut whole: Vec<(usize, f64, f64, Option<Hand>)> = Vec::new();
    for (side, start, end, hand) in runs {
        match whole.last_mut() {
            Some((before, _, so_far, of)) if *before == side && (*so_far - start).abs() <= ONE_NOTCH => {
                (*so_far, *of) = (end, None);
            }
            _ => whole.push((side, start, end, hand)),
        }
    }
    whole
}

/// From where to where a gap lies on a side of its seam.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub side: usize,
    pub from: f64,
    pub to: f64,
    /// Where it has to lie.
    pub within: (f64, f64),
    pub hand: Option<Hand>,
}

/// The one that is meant.
fn chosen(mut all: Vec<Stretch>, hand: Option<Hand>) -> Result<Stretch, GapLost> {
    if all.is_empty() {
        return Err(GapLost::Elsewhere);
    }
    if let Some(hand) = hand
        && all.iter().any(|one| one.hand == Some(hand))
    {
        all.retain(|one| one.hand == Some(hand));
    }
    let beyond = |one: &Stretch| (one.within.0 - one.from).max(one.to - one.within.1).max(0.0);
    let mut inside = all.iter().filter(|one| beyond(one) <= ONE_NOTCH);
    match (inside.next(), inside.next()) {
        (Some(one), None) => {
            let (from, to) = (one.from.max(one.within.0), one.to.min(one.within.1));
            Ok(Stretch { from, to, ..*one })
        }
        (Some(one), Some(other)) => {
            let other_hand = one.hand.zip(other.hand).is_some_and(|(one, other)| one != other);
            Err(if other_hand { GapLost::Sides } else { GapLost::EitherWay })
        }
        _ => Err(GapLost::Beyond(all.iter().map(beyond).fold(f64::INFINITY, f64::min))),
    }
}

/// The gaps as the seam keeps them: on both its sides.
pub(super) fn settled(
    gaps: Vec<(usize, Result<Stretch, GapLost>)>,
    across: impl Fn(&Lone) -> Option<(f64, f64)>,
) -> Vec<SewnGap> {
    let both = |stretch: Stretch| {
        let on_second = stretch.side == 1;
        let place = |at: f64| across(&Lone { at, double: false, on_second, marks: NotchMarks::default() });
        let ((first, second), (first_end, second_end)) = place(stretch.from).zip(place(stretch.to))?;
        Some(crate::sewing::model::GapStretch { first: (first, first_end), second: (second, second_end) })
    };
    let settle = |(gap, stretch): (usize, Result<Stretch, GapLost>)| {
        let at = match stretch {
            Ok(stretch) => Ok(both(stretch)?),
            Err(lost) => Err(lost),
        };
        Some(SewnGap { gap, at })
    };
    gaps.into_iter().filter_map(settle).collect()
}
