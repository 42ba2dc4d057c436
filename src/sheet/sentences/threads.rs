//! Cords that are drawn through.

use super::teller::{Named, Teller, Way};
use super::{Step, StepText};
use crate::garment::CordId;
use crate::sheet::{FigureKind, Text};

impl Teller<'_> {
    pub(super) fn cord(&self, step: &Step, id: CordId, text: &mut StepText) {
        let forms = self.forms();
        let cord = self.garment.cord(id);
        let named = self.sewn_edges(&cord.through, None);
        let length = self.amount(FigureKind::Length, &cord.length);
        let words = super::teller::spoken(&cord.name);
        let name = self.name(&super::teller::without_last(&words, self.words.cord));
        let letter = step.letter.clone();
        let thread = |through: Text| match &length {
            Some(length) => forms.thread(name.clone(), letter.clone(), through, length.clone()),
            None => forms.thread_any(name.clone(), letter.clone(), through),
        };
        // The edges of a folded band lie in a seam: the cord runs in its fold, and comes out where something is set in it.
        let is_folded = |named: &Named| !self.garment.piece(named.part.piece).folds.is_empty();
        if !named.is_empty() && named.iter().all(is_folded) {
            let way = Way::default();
            text.say_all(self.packed(&self.pieces(&named, way), thread));
            let sets = self.garment.tacks.iter().filter(|tack| tack.sets.is_some());
            let ends = sets.flat_map(|tack| &tack.ends);
            let own = ends.filter(|end| named.iter().any(|named| named.part.piece == end.piece));
            let places: Vec<Text> = own.map(|end| self.tack_end(end, Way { short: true, ..way })).collect();
            if !places.is_empty() {
                text.say_all(self.packed(&places, |places| forms.in_and_out(places)));
            }
        } else {
            text.say_all(self.listed(&named, thread));
        }
        if let Some(ends) = cord.ends.as_ref().and_then(|said| self.amount(FigureKind::Length, said)) {
            text.say(forms.cord_ends(ends));
        }
    }
}
