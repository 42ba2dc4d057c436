//! Copies of one piece that lie on one another in a seam, what lies on a part of it alone, and which faces of a shell and its
//! lining lie on one another.

use super::sides::Sides;
use super::teller::{Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::Part;
use crate::once_each::once_each;
use crate::sewing::{SewnRun, SewnSide};

impl Teller<'_> {
    /// Says of which pieces several copies are taken at once, each as a ply: their edge is named once only.
    pub(super) fn say_copies(&self, sides: &Sides, text: &mut StepText) {
        let mut told: Vec<(Part, usize)> = Vec::new();
        for sewn in sides.sewn.iter().filter_map(|&nth| self.sewn(nth)) {
            for side in [&sewn.first, &sewn.second] {
                for named in self.in_several_plies(side) {
                    if !told.contains(&named) {
                        told.push(named);
                    }
                }
            }
        }
        for (part, count) in told {
            let piece = self.piece(part, None, Way::default());
            text.say(self.forms().copies_at_once(piece, self.count(count as u32)));
        }
    }

    /// Says of what a part of a seam takes besides what it lies on: named one after the other, edges would be read as lying end
    /// to end.
    pub(super) fn say_lying(&self, sides: &Sides, text: &mut StepText) {
        let mut told: Vec<(Part, Vec<Part>)> = Vec::new();
        for sewn in sides.sewn.iter().filter_map(|&nth| self.sewn(nth)) {
            for (over, host) in [&sewn.first, &sewn.second].into_iter().flat_map(|side| self.lying(side)) {
                match told.iter_mut().find(|(own, _)| *own == host) {
                    Some((_, all)) if all.contains(&over) => {}
                    Some((_, all)) => all.push(over),
                    None => told.push((host, vec![over])),
                }
            }
        }
        let forms = self.forms();
        for (host, over) in told {
            let layered = over.iter().any(|own| own.layer != host.layer);
            let way = Way { layered, ..Way::default() };
            let (host, several) = (self.piece(host, None, way), over.len() > 1);
            let over = self.words.list(over.into_iter().map(|own| self.piece(own, None, way)));
            text.say(if several { forms.lie_on(over, host) } else { forms.lies_on(over, host) });
        }
    }

    /// Says of a lining that goes into a seam with its shell, or with a band that is folded, which of its faces lies inward: right
    /// sides together is said of both sides of a seam alone.
    pub(super) fn say_faces(&self, step: &Step, sides: &Sides, text: &mut StepText) {
        let before = self.sewn_by(self.targets().take_while(|target| !step.does(target)));
        let mut told: Vec<(Vec<Part>, Vec<Part>)> = Vec::new();
        for sewn in sides.sewn.iter().filter_map(|&nth| self.sewn(nth)) {
            for (own, other) in [(&sewn.first, &sewn.second), (&sewn.second, &sewn.first)] {
                // What is sewn together already lies as it must.
                told.extend(self.behind(own, other).filter(|(inner, outer)| {
                    let both = |all: &&Vec<Part>| {
                        inner.iter().any(|part| all.contains(part))
                            && outer.iter().any(|part| all.contains(part))
                    };
                    !before.iter().any(|all| both(&all))
                }));
            }
        }
        once_each(&mut told);
        let forms = self.forms();
        for (inner, outer) in told {
            let layered = inner.iter().any(|part| outer.iter().any(|own| own.piece == part.piece));
            let say = |way: Way| {
                let named =
                    |parts: &[Part]| self.words.list(parts.iter().map(|&part| self.piece(part, None, way)));
                forms.wrong_sides_face(named(&inner), named(&outer))
            };
            let full = say(Way { layered, ..Way::default() });
            text.say(match fit(std::slice::from_ref(&full)) {
                true => full,
                false => say(Way { layered, short: true }),
            });
        }
    }

    /// What lies behind what once a seam is opened out, of all that one side takes from end to end: a piece and the same one, or
    /// what is drawn from it, in a later layer; and beside a folded band whatever hangs down from it. A slit's side has the cloth
    /// of its pocket there.
    fn behind(&self, own: &SewnSide, other: &SewnSide) -> Option<(Vec<Part>, Vec<Part>)> {
        let work = self.work()?;
        let is_slit = |run: &SewnRun| {
            let edge = work.finder.drawn(run.part).and_then(|drawn| drawn.edge_at(run.edge));
            edge.is_some_and(|edge| self.garment.edge(self.garment.whole_edge(edge.edge)).side_of.is_some())
        };
        let runs = || own.plies.iter().chain(&other.plies).flat_map(|ply| &ply.runs);
        if runs().any(is_slit) {
            return None;
        }
        let is_folded = |part: &Part| !self.garment.piece(part.piece).folds.is_empty();
        let whole = |side: &SewnSide| -> Vec<Part> {
            let plies = side.plies.iter().filter(|ply| ply.runs.iter().all(|run| !run.elsewhere));
            let runs = plies.flat_map(|ply| &ply.runs);
            let mut parts = runs.map(|run| work.finder.part(run.part)).collect();
            once_each(&mut parts);
            parts
        };
        let [(band, own), (its_band, its)]: [(Vec<Part>, Vec<Part>); 2] =
            [own, other].map(|side| whole(side).into_iter().partition(is_folded));
        let first = own.iter().map(|part| part.layer).min()?;
        let (outer, inner): (Vec<Part>, Vec<Part>) = own.into_iter().partition(|part| part.layer == first);
        if inner.is_empty() {
            let is_beyond =
                !band.is_empty() && its_band.is_empty() && its.iter().all(|part| part.layer < first);
            return (is_beyond && !its.is_empty()).then_some((outer, its));
        }
        let is_like = |part: &Part| outer.iter().any(|own| self.share_origin(own, part));
        (!its_band.is_empty() || inner.iter().all(is_like)).then_some((inner, outer))
    }

    /// What lies on a part of a side alone, and on what.
    fn lying(&self, side: &SewnSide) -> Vec<(Part, Part)> {
        let Some(work) = self.work() else { return Vec::new() };
        let Some(whole) = side.plies.iter().find(|ply| ply.runs.iter().all(|run| !run.elsewhere)) else {
            return Vec::new();
        };
        let mut found = Vec::new();
        for ply in side.plies.iter().filter(|ply| ply.runs.iter().any(|run| run.elsewhere)) {
            let mut from = 0.0;
            for run in &ply.runs {
                let middle = from + run.length / 2.0;
                from += run.length;
                let mut far = 0.0;
                let host = whole.runs.iter().find(|own| {
                    far += own.length;
                    middle <= far
                });
                if let Some(host) = host.filter(|_| !run.elsewhere) {
                    found.push((work.finder.part(run.part), work.finder.part(host.part)));
                }
            }
        }
        found
    }

    /// The parts of which a side takes the same edge in several plies, and in how many.
    fn in_several_plies(&self, side: &SewnSide) -> Vec<(Part, usize)> {
        let Some(work) = self.work() else { return Vec::new() };
        let mut found: Vec<(Part, usize)> = Vec::new();
        for run in side.plies.iter().flat_map(|ply| &ply.runs).filter(|run| !run.elsewhere) {
            let takes = side.plies.iter().filter(|ply| {
                ply.runs.iter().any(|own| !own.elsewhere && (own.part, own.edge) == (run.part, run.edge))
            });
            let named = (work.finder.part(run.part), takes.count());
            if named.1 > 1 && !found.contains(&named) {
                found.push(named);
            }
        }
        found
    }
}
