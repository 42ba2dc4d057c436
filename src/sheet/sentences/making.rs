//! Seams that are not plain: felled, French, lapped, topstitched, bound.

use super::StepText;
use super::sides::Sides;
use super::teller::{Teller, Way};
use crate::garment::{ClosureKind, SeamId, SeamSide};
use crate::sewing::order::Job;
use crate::sewing::{SeamMaking, seam_making};
use crate::sheet::{Figure, FigureKind, Run, Text};
use crate::syntax::tree::SeamKind;

impl Teller<'_> {
    /// A lapped seam: what lies over is turned under and laid on the other.
    pub(super) fn lap(
        &self,
        id: SeamId,
        [first, second]: [Text; 2],
        several: bool,
        name: Text,
        letter: Text,
    ) -> Text {
        let over = self.garment.seam(id).work.as_ref().and_then(|work| work.over);
        let (over, under) = match over {
            Some(SeamSide::Second) => (second, first),
            _ => (first, second),
        };
        match several {
            true => self.forms().sew_lapped_several(name, letter, over, under),
            false => self.forms().sew_lapped(name, letter, over, under),
        }
    }

    /// What is done once both sides are sewn together, and the zip that lies between them.
    pub(super) fn say_making(&self, id: SeamId, sides: &Sides, text: &mut StepText) {
        let forms = self.forms();
        let seam = self.garment.seam(id);
        for &(closure, _) in &seam.enclosing {
            let own = self.garment.closure(closure);
            if matches!(own.kind, Some(ClosureKind::Zipper { .. })) {
                let letter = self.facts.letters.of_job(Job::PutIn(closure));
                let letter = letter.map_or_else(Text::default, |letter| Run::Letter(letter).into());
                text.say(forms.zip_between(self.zip_name(closure), letter));
            }
        }
        if let Some(tape) = &seam.tape {
            let long = self.figure(FigureKind::Length, |_, size| {
                let sewn = size.sewn.seams.iter().find(|sewn| sewn.seam == id && sewn.known)?;
                sewn.second.plies.first().map(|ply| ply.length)
            });
            let width = tape.width.as_ref().and_then(|width| self.amount(FigureKind::Length, width));
            text.say_all(long.map(|long| match width {
                Some(width) => forms.seam_tape(width, long),
                None => forms.seam_tape_any(long),
            }));
        }
        let Some(work) = &seam.work else { return };
        let figure = |value: &dyn Fn(&SeamMaking) -> Option<f64>| -> Option<Figure> {
            self.figure(FigureKind::Length, |_, size| {
                seam_making(self.garment, &size.drawn, seam).and_then(|making| value(&making))
            })
        };
        let Some(width) = figure(&|making| Some(making.width)) else { return };
        let way = Way { layered: self.way_of_sides(sides).layered, short: false };
        let pieces = |at: usize| self.pieces(&sides.sides[at], way);
        let alike = pieces(0) == pieces(1);
        let side = |side: SeamSide| {
            let at = if side == SeamSide::First { 0 } else { 1 };
            // Of one piece the edges tell the sides apart.
            let words = if alike { self.edges(&sides.sides[at], way) } else { pieces(at) };
            self.words.list(words)
        };
        match (work.kind, work.over) {
            (SeamKind::Felled, Some(over)) => {
                if let Some(trimmed) = figure(&SeamMaking::trimmed) {
                    text.say(forms.fell_trim(side(over.other()), trimmed));
                }
                text.say(forms.fell_over(side(over), width));
            }
            (SeamKind::French, _) => text.say(forms.french_again(width)),
            (SeamKind::Lapped, _) => text.say(forms.lapped_through(width)),
            (SeamKind::Topstitched, Some(over)) => text.say(forms.topstitch_seam(side(over), width)),
            (SeamKind::EdgesBound, _) => text.say(forms.bind_allowances(width)),
            (SeamKind::Felled | SeamKind::Topstitched, None) => {}
        }
    }
}
