//! Cords that are drawn through.

use super::teller::{Named, Teller, Way};
use super::{Step, StepText};
use crate::garment::{CordId, Expression, TackId};
use crate::sewing::order::{Job, laid_in};
use crate::sewing::{PartId, amount_of};
use crate::shape::Point;
use crate::sheet::{FigureKind, Text};

/// What is set no farther from the edge than this is set in the channel along it, in millimetres.
const CHANNEL: f64 = 60.0;

impl Teller<'_> {
    pub(super) fn cord(&self, step: &Step, id: CordId, text: &mut StepText) {
        let forms = self.forms();
        let cord = self.garment.cord(id);
        let named = self.sewn_edges(&cord.through, None);
        let length = self.amount(FigureKind::Length, &cord.length);
        let words = super::teller::spoken(&cord.name);
        let name = self.name(&super::teller::without_last(&words, self.words.cord));
        let letter = step.letter.clone();
        let lies_in = self.is_laid_in(step, id);
        let thread = |through: Text| match &length {
            Some(length) if lies_in => forms.lay_cord(name.clone(), letter.clone(), through, length.clone()),
            None if lies_in => forms.lay_cord_any(name.clone(), letter.clone(), through),
            Some(length) => forms.thread(name.clone(), letter.clone(), through, length.clone()),
            None => forms.thread_any(name.clone(), letter.clone(), through),
        };
        // The edges of a folded band lie in a seam: the cord runs in its fold, and comes out where something is set in it.
        let is_folded = |named: &Named| !self.garment.piece(named.part.piece).folds.is_empty();
        let in_fold = !named.is_empty() && named.iter().all(is_folded);
        let way = Way::default();
        match in_fold {
            true => text.say_all(self.packed(&self.pieces(&named, way), thread)),
            false => text.say_all(self.listed(&named, thread)),
        }
        let sets = TackId::enumerate(&self.garment.tacks).filter(|(_, tack)| tack.sets.is_some());
        let along = sets.filter(|(id, _)| in_fold || self.is_along(*id, &named));
        let own = along.flat_map(|(_, tack)| &tack.ends);
        let own = own.filter(|end| named.iter().any(|named| named.part.piece == end.piece));
        let places: Vec<Text> = own.map(|end| self.tack_end(end, Way { short: true, ..way })).collect();
        if !places.is_empty() {
            text.say_all(self.packed(&places, |places| forms.in_and_out(places)));
        }
        let stays_inside = |said: &&Expression| {
            lies_in && self.work().and_then(|work| amount_of(self.garment, work.sized, said)) == Some(0.0)
        };
        let ends = cord.ends.as_ref().filter(|said| !stays_inside(said));
        if let Some(ends) = ends.and_then(|said| self.amount(FigureKind::Length, said)) {
            text.say(forms.cord_ends(ends));
        }
    }

    /// Whether a cord lies in piping that a later step closes.
    fn is_laid_in(&self, step: &Step, id: CordId) -> bool {
        let Some(work) = self.work() else { return false };
        let closing = laid_in(work, id);
        let mut later =
            self.targets().skip_while(|target| !step.does(target)).flat_map(|target| &target.jobs);
        !closing.is_empty() && later.any(|job| matches!(job, Job::Seam(at) if closing.contains(at)))
    }

    /// Whether what is set is set along these edges, where a cord that runs there comes out.
    fn is_along(&self, id: TackId, edges: &[Named]) -> bool {
        let Some(work) = self.work() else { return false };
        let mut places = Vec::new();
        for (part, sewn) in PartId::enumerate(&work.sewing.parts) {
            let Some(drawn) = work.finder.drawn(part) else { continue };
            let own = edges.iter().filter(|named| named.part == sewn.part);
            let paths = own.flat_map(|named| {
                drawn.edges.iter().filter(|edge| self.garment.is_run_of(edge.edge, named.edge))
            });
            let paths: Vec<_> = paths.map(|edge| &edge.path).collect();
            let near = |at: Point| paths.iter().any(|path| path.nearest(at).distance <= CHANNEL);
            if !paths.is_empty() {
                places.extend(sewn.tacks.iter().filter(|tack| tack.tack == id).map(|tack| near(tack.at)));
            }
        }
        !places.is_empty() && places.iter().all(|near| *near)
    }
}
