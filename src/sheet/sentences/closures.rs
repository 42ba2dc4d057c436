//! Zips; and closures of other kinds.

use super::teller::{Named, Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::{ClosureId, ClosureKind};
use crate::sheet::{FigureKind, Text};
use crate::syntax::tree::{Hand, ZipperKind};

impl Teller<'_> {
    pub(super) fn closure(&self, step: &Step, id: ClosureId, basted: bool, text: &mut StepText) {
        let closure = self.garment.closure(id);
        match &closure.kind {
            Some(ClosureKind::Zipper { kind, showing, .. }) => {
                let is_enclosed =
                    self.work().is_some_and(|work| work.jobs.contains(&crate::sewing::order::Job::PutIn(id)));
                self.zip(step, id, *kind, basted || is_enclosed, text);
                let showing = showing.as_ref().and_then(|said| self.amount(FigureKind::Length, said));
                if let Some(showing) = showing {
                    text.say(self.forms().zip_shows(showing));
                }
            }
            Some(ClosureKind::Fasteners(row)) if !basted => self.fasteners(step, id, row, text),
            Some(ClosureKind::Fasteners(_)) => {
                text.say(self.forms().baste(self.name(&closure.name), step.letter.clone()));
            }
            None => {}
        }
    }

    fn zip(&self, step: &Step, id: ClosureId, kind: ZipperKind, basted: bool, text: &mut StepText) {
        let forms = self.forms();
        let name = || self.name(&self.garment.closure(id).name);
        let say = |edges: Text| {
            let letter = step.letter.clone();
            match (basted, kind) {
                (true, ZipperKind::Separating | ZipperKind::Concealed) => {
                    forms.baste_zip_open(name(), letter, edges)
                }
                (true, ZipperKind::Closed) => forms.baste_zip(name(), letter, edges),
                (false, ZipperKind::Separating) => forms.sew_zip_open(name(), letter, edges),
                (false, ZipperKind::Closed) => forms.sew_zip(name(), letter, edges),
                (false, ZipperKind::Concealed) => forms.sew_zip_concealed(name(), letter, edges),
            }
        };
        let [first, second] = self.closure_sides(id);
        let both = |way: Way| -> Vec<Text> {
            match is_same(&first, &second) {
                true => {
                    let plain: Vec<Named> =
                        first.iter().map(|named| Named { hand: None, ..*named }).collect();
                    vec![forms.on_both(self.words.list(self.edges(&plain, way)))]
                }
                false => self.edges(&[&first[..], &second[..]].concat(), way),
            }
        };
        let all: Vec<Named> = first.iter().chain(&second).copied().collect();
        let way = self.way_of(&all);
        let [full, short] = [way, Way { short: true, ..way }].map(|way| say(self.words.list(both(way))));
        if fit(std::slice::from_ref(&full)) {
            text.say(full);
        } else if fit(std::slice::from_ref(&short)) {
            text.say(short);
        } else {
            let groups = both(Way { short: true, ..way });
            let mut rest = groups.as_slice();
            if let Some((first, others)) = groups.split_first() {
                text.say(say(first.clone()));
                rest = others;
            }
            text.say_all(self.packed(rest, |edges| forms.zip_along(edges)));
        }
        text.say(match kind {
            ZipperKind::Concealed => forms.zip_lies_concealed(),
            ZipperKind::Separating | ZipperKind::Closed => forms.zip_lies(),
        });
        let long = self.figure(FigureKind::Length, |_, size| {
            size.drawn.zips.get(id.index()).copied().flatten().map(|fit| fit.zip)
        });
        if let Some(long) = long {
            text.note(forms.fact_zip(long));
        }
    }

    /// The edges of both sides; where both are the same ones, the left and the right.
    pub(super) fn closure_sides(&self, id: ClosureId) -> [Vec<Named>; 2] {
        let closure = self.garment.closure(id);
        let [first, second] =
            [&closure.first, &closure.second].map(|chain| self.sewn_edges(&chain.edges, None));
        match first == second {
            true => [Hand::Left, Hand::Right]
                .map(|hand| first.iter().map(|named| Named { hand: Some(hand), ..*named }).collect()),
            false => [first, second],
        }
    }
}

/// Whether both sides are the same edges, left and right.
pub(super) fn is_same(first: &[Named], second: &[Named]) -> bool {
    let plain = |all: &[Named]| -> Vec<_> { all.iter().map(|named| (named.part, named.edge)).collect() };
    plain(first) == plain(second)
}
