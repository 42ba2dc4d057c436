//! Cords that are drawn through.

use super::teller::Teller;
use super::{Step, StepText};
use crate::garment::CordId;
use crate::sheet::FigureKind;

impl Teller<'_> {
    pub(super) fn cord(&self, step: &Step, id: CordId, text: &mut StepText) {
        let forms = self.forms();
        let cord = self.garment.cord(id);
        let named = self.sewn_edges(&cord.through, None);
        let length = self.amount(FigureKind::Length, &cord.length);
        let words = super::teller::spoken(&cord.name);
        let name = self.name(&super::teller::without_last(&words, self.words.cord));
        let letter = step.letter.clone();
        text.say_all(self.listed(&named, |edges| match &length {
            Some(length) => forms.thread(name.clone(), letter.clone(), edges, length.clone()),
            None => forms.thread_any(name.clone(), letter.clone(), edges),
        }));
        if let Some(ends) = cord.ends.as_ref().and_then(|said| self.amount(FigureKind::Length, said)) {
            text.say(forms.cord_ends(ends));
        }
    }
}
