//! Edges that are not as long as each other: eased, gathered, stretched.

use super::StepText;
use super::sides::Sides;
use super::teller::{Teller, Way, fit};
use crate::garment::SeamId;
use crate::sewing::{SewnSeam, SewnSide};
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::FitKind;

/// Less than this is no difference to speak of, in millimetres: half of what is written.
const NOTHING: f64 = 0.5;

impl Teller<'_> {
    /// By how much the sides differ, and what is done with it.
    pub(super) fn say_fit(&self, id: SeamId, sides: &Sides, text: &mut StepText) {
        let forms = self.forms();
        let Some(said) = &self.garment.seam(id).fit else { return };
        let Some(&nth) = sides.sewn.first() else { return };
        let [long, short] = [0, 1].map(|side| self.length_of(nth, side));
        let differ = self.difference(nth);
        let between = said.between.as_ref();
        let way = self.way_of_sides(sides);
        let say = |way: Way| -> Option<Text> {
            let first = self.words.list(self.pieces(&sides.sides[0], way));
            let ends = between.map(|(from, to)| (self.spot(from, sides, way), self.spot(to, sides, way)));
            let ends = ends.and_then(|(from, to)| from.zip(to));
            match (said.kind, ends) {
                (FitKind::Easing, None) => Some(forms.ease(first, differ.clone()?)),
                (FitKind::Easing, Some((from, to))) => {
                    Some(forms.ease_between(first, from, to, differ.clone()?))
                }
                (FitKind::Stretching, None) => Some(forms.stretch(first, differ.clone()?)),
                (FitKind::Stretching, Some((from, to))) => {
                    Some(forms.stretch_between(first, from, to, differ.clone()?))
                }
                (FitKind::Gathering, None) => Some(forms.gather(first, long.clone()?, short.clone()?)),
                (FitKind::Gathering, Some((from, to))) => {
                    Some(forms.gather_between(first, from, to, long.clone()?, short.clone()?))
                }
            }
        };
        let full = say(way).filter(|full| fit(std::slice::from_ref(full)));
        text.say_all(full.or_else(|| say(Way { short: true, ..way })));
    }

    fn length_of(&self, nth: usize, side: usize) -> Option<Figure> {
        self.fit_figure(nth, |sewn| Some(long(if side == 0 { &sewn.first } else { &sewn.second })))
    }

    /// How much longer or shorter the first side is; none where that is nothing in any size.
    fn difference(&self, nth: usize) -> Option<Figure> {
        let found = self.fit_figure(nth, |sewn| Some((long(&sewn.first) - long(&sewn.second)).abs()))?;
        found.values.iter().flatten().any(|value| *value >= NOTHING).then_some(found)
    }

    /// Of the seam that stands at that place in every size.
    fn fit_figure(&self, nth: usize, value: impl Fn(&SewnSeam) -> Option<f64>) -> Option<Figure> {
        let first = self.facts.sizes.first()?.sewn.seams.get(nth)?;
        self.figure(FigureKind::Length, |_, size| {
            let sewn = size.sewn.seams.get(nth)?;
            let is_same = sewn.seam == first.seam && sewn.reach == first.reach && sewn.left == first.left;
            value(sewn).filter(|value| is_same && value.is_finite())
        })
    }
}

fn long(side: &SewnSide) -> f64 {
    side.plies.first().map_or(0.0, |ply| ply.length)
}
