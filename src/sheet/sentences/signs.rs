//! What the signs in a picture stand for: seams and middles that come to lie on one another.

use super::StepText;
use super::seams::Sides;
use super::teller::{Teller, Way};
use crate::sheet::points::{PointIs, are_signed, meeting_points};
use crate::sheet::{Run, Text};

impl Teller<'_> {
    /// The signs that the picture of a seam bears, each with what lies there.
    pub(super) fn say_signs(&self, sides: &Sides, text: &mut StepText) {
        let forms = self.forms();
        let (first, shown) = (self.facts.sizes.first(), self.facts.shown);
        let Some((&nth, first)) = sides.sewn.first().zip(first) else { return };
        let both = first.sewn.seams.get(nth).zip(shown.sewn.seams.get(nth));
        let Some((_, sewn)) = both.filter(|(one, other)| (one.seam, one.reach) == (other.seam, other.reach))
        else {
            return;
        };
        let points = meeting_points(self.garment, shown, sewn);
        if !are_signed(&points) {
            return;
        }
        let mut told: Vec<(usize, Text)> = Vec::new();
        for point in &points {
            let Some(sign) = point.sign.filter(|sign| told.iter().all(|(own, _)| own != sign)) else {
                continue;
            };
            // A seam that runs into this one says more than the middle of a piece.
            let seam = point.is.into_iter().find_map(|is| match is {
                PointIs::Joint { seam, before, .. } => seam.map(|seam| (seam, before.0)),
                _ => None,
            });
            let middle = point.is.into_iter().find_map(|is| match is {
                PointIs::Middle { part, .. } => Some(part),
                _ => None,
            });
            let what = match (seam, middle) {
                (Some((seam, part)), _) => {
                    let layer = shown.sewn.part(part).part.layer;
                    forms.seam_called(self.seam_name(seam), self.letter_of_seam(seam, Some(layer)))
                }
                (None, Some(part)) => {
                    forms.middle_of(self.piece(shown.sewn.part(part).part, None, Way::default()))
                }
                (None, None) => continue,
            };
            told.push((sign, forms.at_sign(Run::Sign(sign), what)));
        }
        let told: Vec<Text> = told.into_iter().map(|(_, what)| what).collect();
        text.say_all(self.packed(&told, |list| forms.signs(list)));
    }
}
