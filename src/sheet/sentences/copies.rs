//! Copies of one piece that lie on one another in a seam, and what lies on a part of it alone.

use super::StepText;
use super::sides::Sides;
use super::teller::{Teller, Way};
use crate::garment::Part;
use crate::sewing::SewnSide;

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
