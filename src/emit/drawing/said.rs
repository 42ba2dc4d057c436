//! What is said along lines of a piece: that it lies on the fold, which way the nap lies, what a line measures of the
//! finished garment.

use super::piece::Sketch;
use super::place;
use super::shape::Words;
use crate::cutting::{CutPart, InnerLine};
use crate::report::amount;
use kurbo::{Point, Vec2};

impl Sketch<'_> {
    /// Beside the fold, inside, that it lies on it: there is no line to cut.
    pub(super) fn said_at_fold(&mut self, part: &CutPart) {
        let Some(path) = part.fold_path() else { return };
        let (from, to) = (path.start(), path.end());
        let way = (to - from) / from.distance(to).max(f64::MIN_POSITIVE);
        let inside = towards_middle(part, from.midpoint(to), way.turn_90());
        let words = Words::new("cut on the fold", Point::ZERO, self.small).grey();
        let off = inside * OFF_FOLD;
        if let Some(words) = self.with_room(|clear| place::along(&words, from + off, to + off, clear)) {
            self.put(words, None);
        }
    }

    /// Along the grain of a cloth that must lie one way, what the arrow's only head means.
    pub(super) fn said_at_grain(&mut self, part: &CutPart) {
        let one_way = part.fabric.is_some_and(|fabric| self.garment.fabric(fabric).one_way);
        let Some((from, to)) = part.grain_line.filter(|_| one_way) else { return };
        let words = Words::new("all pieces this way", Point::ZERO, self.small).grey();
        if let Some(words) = self.with_room(|clear| place::along(&words, from, to, clear)) {
            self.put(words, None);
        }
    }

    /// What a line measures of the finished garment, in every size that is drawn: "Finished chest 104 to 146 cm".
    pub(super) fn said_of_girth(&self, line: &InnerLine, members: &[&CutPart]) -> Option<String> {
        let girth = line.girth.as_ref()?;
        let of = |part: &&CutPart| {
            let own = part.lines.iter().find(|own| own.edge == line.edge)?;
            Some(amount(own.girth.as_ref()?.long, self.garment.unit))
        };
        let (least, most) = (of(members.first()?)?, of(members.last()?)?);
        let long = if least == most { least } else { format!("{least} to {most}") };
        Some(format!("{} {long}", girth.title))
    }
}

/// The way across a line at a place on it that leads to where most of the piece lies.
fn towards_middle(part: &CutPart, at: Point, across: Vec2) -> Vec2 {
    let corners = part.stitching.iter().map(|path| path.point_at_length(path.length() / 2.0) - at);
    let lean: f64 = corners.map(|corner| corner.dot(across)).sum();
    if lean < 0.0 { -across } else { across }
}

/// From the fold to the words beside it, in millimetres.
const OFF_FOLD: f64 = 4.0;
