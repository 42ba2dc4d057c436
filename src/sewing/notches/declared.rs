//! Notches that the pieces of a seam declare.

use super::{Lone, Notching, Pair, carried};
use crate::garment::{SewnPoint, SewnSpot};
use crate::resolve::taken;
use crate::sewing::model::{NotchMarks, PartId, SaidNotch, SewnPly, SewnSeam, StretchEnd};
use crate::shape::tolerance::ON_OUTLINE;
use crate::source::Span;

/// A notch that a piece declares, on a ply.
#[derive(Clone, Copy, Debug)]
struct Declared {
    part: PartId,
    at: f64,
    double: bool,
    from_end: bool,
    span: Span,
}

impl Notching<'_, '_> {
    /// Notches that the pieces declare: as many on both sides belong together in their order; of
    /// those on one side only each stands at the same distance from its end on the other.
    pub(super) fn declared(
        &self,
        first: &SewnPly,
        second: &SewnPly,
        lengths: (f64, f64),
        share: f64,
        pairs: &mut Vec<Pair>,
    ) -> Vec<Lone> {
        let (ours, theirs) = (self.declared_on(first), self.declared_on(second));
        if !ours.is_empty() && ours.len() == theirs.len() {
            for (one, other) in ours.iter().zip(&theirs) {
                pairs.push(Pair {
                    first: one.at,
                    second: other.at,
                    double: one.double || other.double,
                    mark: Some(StretchEnd::Notch(one.span, Some(other.span))),
                    notched: true,
                    marks: NotchMarks { given: true, ..NotchMarks::default() },
                });
            }
            return Vec::new();
        }
        if !ours.is_empty() && !theirs.is_empty() {
            let marks = NotchMarks { given: true, ..NotchMarks::default() };
            let lone =
                |notch: &Declared, on_second| Lone { at: notch.at, double: notch.double, on_second, marks };
            return ours
                .iter()
                .map(|one| lone(one, false))
                .chain(theirs.iter().map(|one| lone(one, true)))
                .collect();
        }
        for (all, own, other, on_second, share) in
            [(ours, lengths.0, lengths.1, false, share), (theirs, lengths.1, lengths.0, true, 1.0 / share)]
        {
            for notch in all {
                let across = if notch.from_end { other - (own - notch.at) * share } else { notch.at * share };
                if !(0.0..=other).contains(&across) {
                    continue;
                }
                let (one, two) = if on_second { (across, notch.at) } else { (notch.at, across) };
                let mark = Some(StretchEnd::Notch(notch.span, None));
                let marks = NotchMarks { given: true, ..NotchMarks::default() };
                pairs.push(Pair {
                    first: one,
                    second: two,
                    double: notch.double,
                    mark,
                    notched: true,
                    marks,
                });
            }
        }
        Vec::new()
    }

    /// All notches as they are said: those of the seam, and those that the pieces of all its plies
    /// declare.
    pub(super) fn as_said(&self, sewn: &SewnSeam, of_seam: &[Pair], pairs: &[Pair]) -> Vec<SaidNotch> {
        let said = of_seam.iter().filter_map(|pair| match pair.mark {
            Some(StretchEnd::Notch(span, _)) => {
                Some(SaidNotch { part: None, at: pair.first, double: pair.double, span })
            }
            _ => None,
        });
        let mut all: Vec<SaidNotch> = said.collect();
        for (side, on_second) in [(&sewn.first, false), (&sewn.second, true)] {
            let whole = side.plies.first().map_or(0.0, |ply| ply.length);
            for ply in &side.plies {
                let scale = if ply.length > 0.0 { whole / ply.length } else { 1.0 };
                for notch in self.declared_on(ply) {
                    let own = notch.at * scale;
                    let at = match on_second {
                        true => carried(pairs, own, |pair| (pair.second, pair.first)),
                        false => Some(own),
                    };
                    let Some(at) = at else { continue };
                    all.push(SaidNotch {
                        part: Some(notch.part),
                        at,
                        double: notch.double,
                        span: notch.span,
                    });
                }
            }
        }
        all
    }

    fn declared_on(&self, ply: &SewnPly) -> Vec<Declared> {
        let mut found = Vec::new();
        let mut station = 0.0;
        let last = ply.runs.len().saturating_sub(1);
        for (place, run) in ply.runs.iter().enumerate() {
            let Some(drawn) = self.drawn(run.part) else { continue };
            let Some(edge) = drawn.edge_at(run.edge) else { continue };
            let own = drawn.notches.iter().filter(|notch| notch.edge == edge.edge);
            if own.clone().next().is_none() {
                station += run.length;
                continue;
            }
            let Some(sewn_as) = taken(self.garment, drawn, run.edge) else { continue };
            let long = edge.path.length();
            for notch in own.filter(|notch| edge.path.nearest(notch.at).distance <= ON_OUTLINE) {
                let place_sewn = sewn_as.as_sewn(notch.along);
                let along = if run.reversed { run.length - place_sewn } else { place_sewn };
                let said = self.garment.piece(drawn.piece).drawing.notches.get(notch.declared);
                let span = said.map_or(self.garment.edge(notch.edge).span, |said| said.span);
                // From which end it is said; of a copied notch, the nearer one.
                let end = self.corners.end_of(run.part, run.edge, !run.reversed);
                let is_from_end = match said.and_then(|said| Some((said.place.point()?, said.span))) {
                    Some((point, span)) => {
                        let point = SewnPoint { layer: None, point: SewnSpot::Point(point), span };
                        end.is_some_and(|end| self.corners.is_point(end, &point))
                    }
                    None => (notch.along > long / 2.0) != run.reversed,
                };
                let from_end = match (place == 0, place == last) {
                    (true, true) => is_from_end,
                    (true, false) => false,
                    (false, true) => true,
                    (false, false) => place > last / 2,
                };
                let at = station + along;
                found.push(Declared { part: run.part, at, double: notch.double, from_end, span });
            }
            station += run.length;
        }
        found.sort_by(|a, b| a.at.total_cmp(&b.at));
        found
    }
}
