//! What the signs in a picture stand for: seams and middles that come to lie on one another.

use super::StepText;
use super::sides::Sides;
use super::teller::{Teller, Way};
use crate::cutting::WorkedSize;
use crate::garment::EdgeId;
use crate::resolve::CornerName;
use crate::sewing::{PartId, SewnSeam};
use crate::sheet::points::{MeetingPoint, PointIs, are_signed, meeting_points};
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
        let mut told: Vec<(Vec<usize>, Text)> = Vec::new();
        for point in &points {
            let Some(sign) = point.sign.filter(|sign| told.iter().all(|(own, _)| !own.contains(sign))) else {
                continue;
            };
            let Some(what) = self.what_meets(sewn, point, shown) else { continue };
            match told.iter_mut().find(|(_, own)| *own == what) {
                Some((signs, _)) => signs.push(sign),
                None => told.push((vec![sign], what)),
            }
        }
        let told: Vec<Text> = told
            .into_iter()
            .map(|(signs, what)| {
                let mut all = Text::default();
                for sign in signs {
                    if !all.0.is_empty() {
                        all = all.then(Text::words(" ").0);
                    }
                    all.0.push(Run::Sign(sign));
                }
                forms.at_sign(all, what)
            })
            .collect();
        let lists = self.lists(&told, |list| forms.signs(list));
        text.say_all(lists.into_iter().enumerate().map(|(at, list)| match at {
            0 => forms.signs(list),
            _ => forms.more_signs(list),
        }));
    }

    /// What lies at a point of a seam: another seam that runs into it, which says more than the middle of a piece; the
    /// corner between two of its own edges.
    fn what_meets(&self, sewn: &SewnSeam, point: &MeetingPoint, shown: &WorkedSize) -> Option<Text> {
        let forms = self.forms();
        let joints = || {
            point.is.into_iter().filter_map(|is| match is {
                PointIs::Joint { before, after, seam } => Some((before, after, seam)),
                _ => None,
            })
        };
        let seam = joints().find_map(|((part, _), _, seam)| {
            let seam = seam.filter(|seam| *seam != sewn.seam)?;
            let layer = shown.sewn.part(part).part.layer;
            Some(forms.seam_called(self.seam_name(seam), self.letter_of_seam(seam, Some(layer))))
        });
        let corner = joints().find_map(|((part, one), (other_part, other), _)| {
            // Where a run of an edge ends and the rest of it begins is no corner.
            let is_one = self.garment.whole_edge(one) == self.garment.whole_edge(other);
            (part == other_part && !is_one).then(|| self.corner(shown, part, one, other))
        });
        let middle = point.is.into_iter().find_map(|is| match is {
            PointIs::Middle { part, .. } => Some(part),
            _ => None,
        });
        let middle = || {
            let part = shown.sewn.part(middle?).part;
            Some(forms.middle_of(self.piece(part, None, Way::default())))
        };
        match (seam, corner) {
            (Some(seam), Some(corner)) => Some(self.words.list([seam, corner])),
            (Some(one), None) | (None, Some(one)) => Some(one),
            (None, None) => middle(),
        }
    }

    /// The corner between two edges of a part: its name, or those of the edges.
    fn corner(&self, shown: &WorkedSize, part: PartId, one: EdgeId, other: EdgeId) -> Text {
        let own = shown.sewn.part(part).part;
        let drawn = shown.drawn.paper(own.paper);
        let starts_at = |edge: EdgeId, before: EdgeId| {
            let edges = drawn.map_or(&[][..], |drawn| drawn.outline());
            let at = edges.iter().position(|own| own.edge == edge)?;
            let last = edges.get((at + edges.len() - 1) % edges.len())?;
            (last.edge == before).then(|| edges.get(at).map(|edge| edge.corner))?
        };
        match starts_at(other, one).or_else(|| starts_at(one, other)) {
            Some(CornerName::Named(point)) => self.point(point, own, None, Way::default()),
            _ => {
                let edge = |edge| self.name(&self.edge_words(edge));
                self.forms().corner_of(edge(one), edge(other))
            }
        }
    }
}
