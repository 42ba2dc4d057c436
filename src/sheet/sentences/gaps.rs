//! Gaps that are left for turning: how long, where along their seam, and how they are closed.

use super::StepText;
use super::teller::{Named, Teller, Way, fit};
use super::turning::together;
use crate::garment::{
    Dimension, Expression, Gap, GapAt, LayerId, NotchAt, Part, SeamId, SewnEdge, SewnPoint, SewnSpot,
};
use crate::once_each::once_each;
use crate::sewing::order::Job;
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::Hand;

impl Teller<'_> {
    /// Gaps that are left for turning.
    pub(super) fn say_gaps(&self, id: SeamId, layer: Option<LayerId>, text: &mut StepText) {
        let forms = self.forms();
        let is_here = |own: Option<LayerId>| own.is_none_or(|own| layer.is_none_or(|layer| layer == own));
        for gap in self.garment.seam(id).gaps.iter().filter(|gap| is_here(gap.layer)) {
            let own = gap.layer.or(layer);
            let Some(length) = self.amount(FigureKind::Length, &gap.length) else { continue };
            let hand = gap.hand.map(|hand| match hand {
                Hand::Left => forms.at_left(),
                Hand::Right => forms.at_right(),
            });
            let layer = gap.layer.map(|layer| self.layer(layer));
            let mut place = Text::default();
            for one in hand.into_iter().chain(layer) {
                if !place.0.is_empty() {
                    place.0.extend(forms.comma().0);
                }
                place.0.extend(one.0);
            }
            text.say(match place.0.is_empty() {
                true => forms.leave_gap(length),
                false => forms.leave_gap_in(place, length),
            });
            if let Some(at) = &gap.at {
                // Where the layer is said it need not be said of each edge once more.
                let layered = own.is_none() && self.garment.layers.len() > 1 && !self.is_by_layer(id);
                let say = |short: bool| self.gap_lies(own, at, Way { short, layered });
                let full = say(false).filter(|full| fit(std::slice::from_ref(full)));
                text.say_all(full.or_else(|| say(true)));
            }
        }
    }

    /// Where along its seam a gap lies.
    fn gap_lies(&self, layer: Option<LayerId>, at: &GapAt, way: Way) -> Option<Text> {
        let forms = self.forms();
        let along = at.along.and_then(|sewn| self.gap_edge(layer, &sewn, way));
        let Some([NotchAt::From(begin, from), NotchAt::From(end, _)]) = &at.between else {
            return Some(match along {
                Some(edge) => forms.gap_middle_of(edge),
                None => forms.gap_middle(),
            });
        };
        let place = self.gap_point(layer, from, way)?;
        let (begin, end) = (self.far(begin)?, self.far(end)?);
        let at_point = begin.values.iter().flatten().all(|value| value.abs() < 0.005);
        Some(match (along, at_point) {
            (Some(edge), true) => forms.gap_at_along(edge, place),
            (None, true) => forms.gap_at(place),
            (Some(edge), false) => forms.gap_from_along(edge, place, begin, end),
            (None, false) => forms.gap_from(place, begin, end),
        })
    }

    /// A length, or a share of the seam.
    fn far(&self, said: &Expression) -> Option<Figure> {
        let kind = if said.dimension == Dimension::Number { FigureKind::Share } else { FigureKind::Length };
        self.amount(kind, said)
    }

    /// The edge that it lies on, in its own layer.
    fn gap_edge(&self, layer: Option<LayerId>, sewn: &SewnEdge, way: Way) -> Option<Text> {
        let part = self.part_of(sewn.layer.or(layer), sewn.piece)?;
        let named = Named { part, edge: self.garment.whole_edge(sewn.edge), hand: None };
        Some(self.words.list(self.edges(&[named], way)))
    }

    /// The place that it is counted from.
    fn gap_point(&self, layer: Option<LayerId>, point: &SewnPoint, way: Way) -> Option<Text> {
        match point.point {
            SewnSpot::Point(id) => {
                let part = self.part_of(point.layer.or(layer), self.garment.point(id).piece)?;
                Some(self.point(id, part, None, way))
            }
            SewnSpot::RunEnd { run, .. } => {
                let edge = self.garment.edge(run);
                let part = self.part_of(point.layer.or(layer), edge.piece)?;
                let named = Named { part, edge: self.garment.whole_edge(run), hand: None };
                Some(self.forms().end_of(self.words.list(self.edges(&[named], way))))
            }
        }
    }

    pub(super) fn close_gap(&self, id: SeamId, text: &mut StepText) {
        let (seam, forms) = (self.garment.seam(id), self.forms());
        // Each of several, in each layer in which it is left.
        let mut left: Vec<(Option<LayerId>, Vec<&Gap>)> = Vec::new();
        for gap in &seam.gaps {
            for layer in self.layers_of_gap(id, gap) {
                match left.iter_mut().find(|(own, _)| *own == layer) {
                    Some((_, gaps)) => gaps.push(gap),
                    None => left.push((layer, vec![gap])),
                }
            }
        }
        // What is sewn in several layers under one letter is closed under it.
        let mut told: Vec<(Text, Vec<LayerId>, Vec<&Gap>)> = Vec::new();
        for (layer, gaps) in left {
            let letter = self.letter_of_seam(id, layer);
            let is_alike = |own: &[&Gap]| {
                own.len() == gaps.len()
                    && own.iter().zip(&gaps).all(|(one, other)| std::ptr::eq(*one, *other))
            };
            match told.iter_mut().find(|(own, _, its)| *own == letter && is_alike(its)) {
                Some((_, layers, _)) => layers.extend(layer),
                None => told.push((letter, layer.into_iter().collect(), gaps)),
            }
        }
        for (letter, layers, gaps) in told {
            // Its own letter stands in the picture, that of the seam tells where it was left.
            let own = self.letter_of(Job::Gap(id));
            let name = self.seam_name(id);
            let lengths: Option<Vec<Figure>> =
                gaps.iter().map(|gap| self.amount(FigureKind::Length, &gap.length)).collect();
            text.say(match lengths.as_deref() {
                Some([length]) => forms.close_gap_long(own, name, letter, length.clone()),
                Some(lengths) if lengths.len() > 1 => {
                    let count = self.count(lengths.len() as u32);
                    let list = self.words.list(lengths.iter().cloned().map(Text::from));
                    forms.close_gaps(count, own, name, letter, list)
                }
                _ => forms.close_gap(own, name, letter),
            });
            if layers.len() > 1 {
                text.say(forms.each_layer(self.words.list(layers.iter().map(|&layer| self.layer(layer)))));
            }
            if let [layer] = layers.as_slice()
                && self.lies_inside(id, *layer)
            {
                text.say(forms.push_inside(self.layer(*layer)));
            }
        }
    }

    /// Whether what is turned through a seam's gap is the lining of something in an earlier layer: it hangs out until it is pushed in.
    fn lies_inside(&self, id: SeamId, layer: LayerId) -> bool {
        let Some(work) = self.work() else { return false };
        let own = |at: &usize| work.stitchings.get(*at).filter(|own| own.layer == Some(layer));
        let places = work.of_seam(id).iter().filter_map(own).flat_map(|own| own.places());
        let parts: Vec<Part> = places.map(|place| work.finder.part(place.part)).collect();
        let joined = together(&parts, &self.sewn_by(self.targets()));
        joined.iter().any(|part| part.layer < layer)
    }

    /// The layers in which a gap is left: the one that is said, else each in which its seam is sewn by itself; none of a seam
    /// between layers.
    fn layers_of_gap(&self, id: SeamId, gap: &Gap) -> Vec<Option<LayerId>> {
        match self.work() {
            Some(work) if gap.layer.is_none() && self.is_by_layer(id) => {
                let own = work.of_seam(id).iter().filter_map(|&at| work.stitchings.get(at)?.layer);
                let mut layers: Vec<LayerId> = own.collect();
                once_each(&mut layers);
                layers.into_iter().map(Some).collect()
            }
            _ => vec![gap.layer],
        }
    }

    /// Whether a seam is sewn in each of several layers by itself.
    fn is_by_layer(&self, id: SeamId) -> bool {
        let Some(work) = self.work() else { return false };
        let layers = work.of_seam(id).iter().map(|&at| work.stitchings.get(at).and_then(|own| own.layer));
        let layers: Option<Vec<LayerId>> = layers.collect();
        layers.is_some_and(|layers| layers.first() != layers.last())
    }
}
