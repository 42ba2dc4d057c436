//! Notches cut into the edges of the parts.

use super::{Notching, ONE_NOTCH};
use crate::garment::SeamId;
use crate::resolve::taken;
use crate::sewing::model::{PartNotch, SeamNotchPlace, SewnPart, SewnRun, SewnSide};
use crate::shape::taken::Taken;
use kurbo::Point;

impl Notching<'_, '_> {
    /// Cuts the notches into the parts of one side, on each of its plies.
    pub(super) fn snip(
        &self,
        side: &SewnSide,
        on_second: bool,
        lengths: (f64, f64),
        notches: &[SeamNotchPlace],
        seam: SeamId,
        parts: &mut [SewnPart],
    ) {
        let whole = if on_second { lengths.1 } else { lengths.0 };
        for ply in &side.plies {
            let scale = if whole > 0.0 { ply.length / whole } else { 1.0 };
            let mut at = 0;
            let mut station = 0.0;
            let mut alike: Vec<Alike> = Vec::new();
            for run in &ply.runs {
                let copies = copies_in(&ply.runs, run);
                let mut sewn_as = None;
                let end = station + run.length;
                while let Some(notch) = notches.get(at) {
                    let place = scale * if on_second { notch.on_second } else { notch.on_first };
                    if place > end - ONE_NOTCH {
                        // Of two edges that meet, none is notched at the corner itself.
                        if place <= end + ONE_NOTCH {
                            at += 1;
                            continue;
                        }
                        break;
                    }
                    if place >= station + ONE_NOTCH && copies > 1 {
                        count(&mut alike, *run, place - station, notch.double);
                    } else if place >= station + ONE_NOTCH {
                        self.snip_edge(run, &mut sewn_as, place - station, notch.double, seam, parts);
                    }
                    at += 1;
                }
                station = end;
            }
            for notch in alike.iter().filter(|notch| notch.times == copies_in(&ply.runs, &notch.run)) {
                self.snip_edge(&notch.run, &mut None, notch.along, notch.double, seam, parts);
            }
        }
    }

    /// `sewn_as` is how the run's edge is sewn, once that is known.
    fn snip_edge(
        &self,
        run: &SewnRun,
        sewn_as: &mut Option<Taken>,
        along: f64,
        double: bool,
        seam: SeamId,
        parts: &mut [SewnPart],
    ) {
        let Some(drawn) = self.drawn(run.part) else { return };
        let Some(edge) = drawn.edge_at(run.edge) else { return };
        if sewn_as.is_none() {
            *sewn_as = taken(self.garment, drawn, run.edge);
        }
        let Some(sewn_as) = sewn_as.as_ref() else { return };
        let Some(part) = parts.get_mut(run.part.index()) else { return };
        let along = sewn_as.as_drawn(if run.reversed { run.length - along } else { along });
        let same =
            |notch: &&mut PartNotch| notch.edge == run.edge && (notch.along - along).abs() <= ONE_NOTCH;
        if let Some(notch) = part.notches.iter_mut().find(same) {
            notch.seam = Some(seam);
            notch.double |= double;
            return;
        }
        let at: Point = edge.path.point_at_length(along);
        part.notches.push(PartNotch { edge: run.edge, along, at, double, seam: Some(seam) });
    }
}

/// A notch on copies that are cut alike, in a ring of them.
struct Alike {
    run: SewnRun,
    along: f64,
    double: bool,
    times: usize,
}

/// How often a ply runs along that edge of copies that are cut alike.
fn copies_in(runs: &[SewnRun], run: &SewnRun) -> usize {
    if run.hand.is_some() || runs.len() < 2 {
        return 1;
    }
    let same = |other: &&SewnRun| {
        (other.part, other.edge, other.reversed, other.hand) == (run.part, run.edge, run.reversed, None)
    };
    runs.iter().filter(same).count()
}

/// What is cut into one of them is cut into all: so only what falls on the same place of each is cut, and the rest
/// stands on the other side alone, between the joints.
fn count(alike: &mut Vec<Alike>, run: SewnRun, along: f64, double: bool) {
    let same = |one: &&mut Alike| {
        (one.run.part, one.run.edge) == (run.part, run.edge) && (one.along - along).abs() <= ONE_NOTCH
    };
    match alike.iter_mut().find(same) {
        Some(one) => {
            one.times += 1;
            one.double |= double;
        }
        None => alike.push(Alike { run, along, double, times: 1 }),
    }
}
