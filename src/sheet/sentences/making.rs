//! Seams that are not plain: felled, French, lapped, topstitched, bound.

use super::sides::Sides;
use super::teller::{Teller, Way};
use super::{Step, StepText};
use crate::garment::{ClosureId, ClosureKind, SeamId, SeamSide, SewnEdge};
use crate::sewing::order::Job;
use crate::sewing::{SeamMaking, SewnSide, seam_edges, seam_making};
use crate::sheet::{Figure, FigureKind, Run, Text};
use crate::syntax::tree::{Fastener, SeamKind};

/// Sides that differ by less than this, in millimetres, are as long as one another.
const SAME_LENGTH: f64 = 0.5;

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

    /// Loops and ties that were basted to an edge of this seam before it is sewn.
    fn say_loops_between(&self, step: &Step, id: SeamId, text: &mut StepText) {
        let forms = self.forms();
        for (closure, own) in ClosureId::enumerate(&self.garment.closures) {
            let Some(ClosureKind::Fasteners(row)) = &own.kind else { continue };
            let is_loop = row.kind == Fastener::Toggle;
            let has_ends = is_loop || row.kind == Fastener::Tie && !row.are_pieces();
            let whole = |edge| self.garment.whole_edge(edge);
            let mut edges = own.first.edges.iter().chain(&own.second.edges);
            let in_seam = |sewn: &SewnEdge| {
                seam_edges(self.garment.seam(id)).any(|one| whole(one.edge) == whole(sewn.edge))
            };
            if !has_ends || !edges.any(in_seam) || !self.is_basted_before(step, closure) {
                continue;
            }
            let letter = self.letter_of_closure(closure);
            text.say(if is_loop { forms.loops_between(letter) } else { forms.ties_between(letter) });
        }
    }

    /// What is done once both sides are sewn together, and the zip that lies between them.
    pub(super) fn say_making(&self, step: &Step, id: SeamId, sides: &Sides, text: &mut StepText) {
        let forms = self.forms();
        let seam = self.garment.seam(id);
        self.say_loops_between(step, id, text);
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
            // Where both sides are as long in every size, neither is the shorter.
            let is_equal = self.facts.sizes.iter().flat_map(|size| &size.sewn.seams).all(|sewn| {
                let length = |side: &SewnSide| side.plies.first().map_or(0.0, |ply| ply.length);
                sewn.seam != id || (length(&sewn.first) - length(&sewn.second)).abs() < SAME_LENGTH
            });
            text.say_all(long.map(|long| match (width, is_equal) {
                (Some(width), false) => forms.seam_tape(width, long),
                (None, false) => forms.seam_tape_any(long),
                (Some(width), true) => forms.seam_tape_along(width, long),
                (None, true) => forms.seam_tape_along_any(long),
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
