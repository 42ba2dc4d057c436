//! What a pleat measures, and whether its cloth has room under it.

use super::placing::Placing;
use crate::garment::{Expression, PleatKind};
use crate::limits;
use crate::report::catalogue;
use crate::resolve::work::plain;
use crate::shape::tolerance::SAME_POINT;

/// What a pleat measures, in millimetres.
pub(super) struct Measures {
    /// Under each fold, once.
    pub(super) depth: f64,
    /// Between two folds of a pair: of a box, and under an inverted pleat.
    pub(super) wide: f64,
    /// How many.
    pub(super) count: usize,
    /// From one to the next as sewn.
    pub(super) apart: f64,
    /// How far it is sewn shut; 0 where it hangs open.
    pub(super) stitched: f64,
}

impl Placing<'_, '_> {
    /// What it measures; reported where that cannot be folded.
    pub(super) fn measures(&self) -> Option<Measures> {
        let (work, pleat, word) = (self.work, self.pleat, self.take_up.word());
        let scalar = |expression: &Expression| work.scalar(expression, Some(self.sketch));
        let above_0 = |expression: &Expression, what: &str| {
            let value = scalar(expression)?;
            if value > SAME_POINT {
                return Some(value);
            }
            let title = format!("{} is {} {what}", self.name(), work.amount(value));
            let help = format!("a {word} folds cloth away: give it a depth above 0 in every size");
            let help = if what == "deep" {
                help
            } else {
                "give a length above 0 in every size, or leave it out".to_owned()
            };
            self.tell(&catalogue::PLEAT_NOTHING, -value, expression.span, title, help);
            None
        };
        let depth = above_0(&pleat.depth, "deep");
        let row = match &pleat.row {
            None => Some((1, 0.0)),
            Some((count, apart)) => {
                let (count, apart) = (self.count(count), above_0(apart, "apart"));
                count.zip(apart)
            }
        };
        let stitched = match &pleat.stitched {
            None => Some(0.0),
            Some(stitched) => above_0(stitched, "stitched down"),
        };
        let wide = match &pleat.kind {
            PleatKind::Knife => Some(0.0),
            PleatKind::Box(wide) | PleatKind::Inverted(wide) => match wide {
                None => depth.map(|depth| 2.0 * depth),
                Some(wide) => scalar(wide),
            },
        };
        let (depth, (count, apart), stitched, wide) = (depth?, row?, stitched?, wide?);
        let measures = Measures { depth, wide, count, apart, stitched };
        self.have_room(&measures).then_some(measures)
    }

    fn count(&self, count: &Expression) -> Option<usize> {
        let value = self.work.scalar(count, Some(self.sketch))?;
        let whole = libm::round(value);
        let word = self.take_up.word();
        if whole > limits::PLEATS as f64 {
            let title = format!(
                "{} {word}s are more than the {} that one row may have",
                plain(value),
                limits::PLEATS
            );
            let help = "make several rows of them, or gather the edge".to_owned();
            self.tell(&catalogue::LIMIT_PLEATS, value, count.span, title, help);
            return None;
        }
        if whole < 1.0 || (value - whole).abs() > 1e-9 {
            let title = format!("{} is to be folded {} times", self.name(), plain(value));
            let help = format!("{word}s are counted: 1 or more, a whole number in every size");
            self.tell(&catalogue::PLEAT_NOTHING, 1.0, count.span, title, help);
            return None;
        }
        Some(whole as usize)
    }

    /// Whether what lies under two folds that lead together, or away from each other, has room between them.
    fn have_room(&self, measures: &Measures) -> bool {
        let Measures { depth, wide, count, apart, .. } = *measures;
        let (work, name) = (self.work, self.name());
        let said = match &self.pleat.kind {
            PleatKind::Knife => return true,
            PleatKind::Box(said) | PleatKind::Inverted(said) => said,
        };
        let both = work.amount(2.0 * depth);
        let span = said.as_ref().map_or(self.take_up.span, |said| said.span);
        if wide < 2.0 * depth - SAME_POINT {
            let title =
                format!("{name} is {} wide, and the cloth under its two folds {both}", work.amount(wide));
            let help = format!(
                "make it {both} wide or wider, which it is by itself where nothing is said; or fold it less deep: {} at most",
                work.amount(wide / 2.0)
            );
            self.tell(&catalogue::PLEAT_TOO_DEEP, 2.0 * depth - wide, span, title, help);
            return false;
        }
        // From one to the next: what lies between the folds of a box above, and under an inverted pleat.
        let least = wide;
        if count > 1 && apart < least - SAME_POINT {
            let span = self.pleat.row.as_ref().map_or(span, |(_, apart)| apart.span);
            let title = format!(
                "one of {name} is {} wide, and the next only {} further on",
                work.amount(least),
                work.amount(apart)
            );
            let help = format!(
                "`apart` goes from the middle of one to the middle of the next as sewn: {} leaves no gap between them",
                work.amount(least)
            );
            self.tell(&catalogue::PLEAT_TOO_DEEP, least - apart, span, title, help);
            return false;
        }
        true
    }
}
