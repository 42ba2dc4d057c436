//! Copies of one piece that lie on one another in a seam.

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
