//! The names of what lies on a piece.

use super::piece::{MARK, POINT, SMALL, Sketch};
use super::place;
use super::shape::Words;
use crate::cutting::{CutPart, GuideKind};
use crate::shape::path::Path;
use kurbo::{ParamCurve as _, Point};

impl Sketch<'_> {
    /// The names of lines and marks: once, at the largest size. Where sizes lie in one another it is said of each
    /// whether all of them have it there, and of a mark that lies elsewhere in each which size's it is.
    pub(super) fn names(&mut self, part: &CutPart, members: &[&CutPart]) {
        self.names_of_placed(part);
        self.names_of_lines(part, members);
        self.sizes_of_placed(part, members);
        for take_up in &part.take_ups {
            if let Some(point) = take_up.label {
                self.name_beside(take_up.name.clone(), self.small, point, POINT + 1.5);
            }
        }
        for slit in &part.slits {
            let end = slit.end.0.midpoint(slit.end.1);
            self.name_beside(slit.name.clone(), self.small, end, MARK + 1.5);
        }
        for notch in &part.notches {
            if let (Some(hand), Some((_, inner))) = (notch.hand, notch.snips.first()) {
                self.name_beside(format!("{} only", hand.word()), self.small, *inner, MARK);
            }
        }
        for gap in &part.gaps {
            let side = gap.hand.map_or(String::new(), |hand| format!(" ({})", hand.word()));
            let middle = gap.path.point_at_length(gap.path.length() / 2.0);
            self.name_beside(format!("leave open{side}"), SMALL, middle, MARK);
        }
        self.names_of_marks(part, members);
    }

    /// A name beside a place, so far off.
    fn name_beside(&mut self, name: String, size: f64, at: Point, off: f64) {
        let words = Words::new(name, Point::ZERO, size).grey();
        if let Some(words) = self.with_room(|clear| place::beside(&words, at, off, clear)) {
            self.put(words, None);
        }
    }

    /// What is placed there.
    fn names_of_placed(&mut self, part: &CutPart) {
        for guide in part.guides.iter().filter(|guide| guide.kind == GuideKind::Placed) {
            let side = guide
                .hand
                .filter(|_| part.hand.is_none())
                .map_or(String::new(), |hand| format!(" ({})", hand.word()));
            let words = Words::new(format!("{}{side}", guide.name), Point::ZERO, self.small).grey();
            // Along its longest side that has room.
            let mut sides: Vec<(Point, Point)> =
                guide.path.segments().iter().map(|side| (side.start(), side.end())).collect();
            sides.sort_by(|one, other| other.0.distance(other.1).total_cmp(&one.0.distance(one.1)));
            let found = self.with_room(|clear| {
                let along = sides.iter().find_map(|&(from, to)| place::along(&words, from, to, clear));
                along.or_else(|| place::beside(&words, guide.path.start(), MARK, clear))
            });
            if let Some(words) = found {
                self.put(words, None);
            }
        }
    }

    fn names_of_lines(&mut self, part: &CutPart, members: &[&CutPart]) {
        for line in &part.lines {
            let agree = members.iter().all(|other| {
                let lines = other.lines.iter().filter(|other| other.edge == line.edge);
                lines.into_iter().any(|other| {
                    line.path.nearest(other.path.point_at_length(other.path.length() / 2.0)).distance
                        < SAME_PLACE
                })
            });
            let mut said = self.told(&line.name, agree, part);
            if let Some(girth) = self.said_of_girth(line, members) {
                said = format!("{said}: {girth}");
            }
            let words = Words::new(said, Point::ZERO, self.small).grey();
            // Beside a curve, along its middle.
            let (low, high) = if line.path.is_curved() { NAMED } else { (0.0, 1.0) };
            let long = line.path.length();
            let [from, to] = [low, high].map(|share| line.path.point_at_length(share * long));
            if let Some(words) = self.with_room(|clear| place::along(&words, from, to, clear)) {
                self.put(words, None);
            }
            if self.nested && !agree {
                self.sizes_along(members, |other| {
                    other.lines.iter().filter(|own| own.edge == line.edge).map(|own| &own.path).collect()
                });
            }
        }
    }

    /// Where what is placed lies elsewhere in each size, which size's it is.
    fn sizes_of_placed(&mut self, part: &CutPart, members: &[&CutPart]) {
        let placed = |part: &'_ CutPart| -> Vec<Path> {
            let placed = part.guides.iter().filter(|guide| guide.kind == GuideKind::Placed);
            placed.map(|guide| guide.path.clone()).collect()
        };
        let agree = members.iter().all(|other| {
            let (own, its) = (placed(part), placed(other));
            own.len() == its.len()
                && own.iter().zip(&its).all(|(a, b)| a.start().distance(b.start()) < SAME_PLACE)
        });
        if self.nested && !agree {
            for guide in part.guides.iter().filter(|guide| guide.kind == GuideKind::Placed) {
                self.sizes_along(members, |other| {
                    other
                        .guides
                        .iter()
                        .filter(|own| own.kind == guide.kind && own.name == guide.name)
                        .map(|own| &own.path)
                        .collect()
                });
            }
        }
    }

    fn names_of_marks(&mut self, part: &CutPart, members: &[&CutPart]) {
        for mark in &part.marks {
            let in_other = |other: &CutPart| {
                let named = other.marks.iter().filter(|own| own.name == mark.name && own.hand == mark.hand);
                named.map(|own| own.at).min_by(|a, b| a.distance(mark.at).total_cmp(&b.distance(mark.at)))
            };
            let places: Vec<(Option<Point>, &CutPart)> =
                members.iter().map(|other| (in_other(other), *other)).collect();
            let agree = places.iter().all(|(at, _)| at.is_some_and(|at| at.distance(mark.at) < SAME_PLACE));
            self.name_beside(self.told(&mark.name, agree, part), self.small, mark.at, MARK + 1.5);
            if !self.nested || agree {
                continue;
            }
            for (at, other) in places.into_iter().filter(|(_, other)| other.size != part.size) {
                let words = Words::new(other.label.size.clone(), Point::ZERO, SIZE_OF_MARK).grey();
                let placed = at.and_then(|at| place::beside(&words, at, MARK + 0.6, &self.clear));
                if let Some(words) = placed {
                    self.put(words, Some(other.size));
                }
            }
        }
    }

    /// Beside a line of each size its name, one further along than the other.
    fn sizes_along<'m>(&mut self, members: &[&'m CutPart], lines: impl Fn(&'m CutPart) -> Vec<&'m Path>) {
        let count = members.len() as f64;
        for (at, &part) in members.iter().enumerate() {
            for line in lines(part) {
                let words = Words::new(part.label.size.clone(), Point::ZERO, SIZE_OF_MARK).grey();
                let tried = [0.0, 0.3, 0.6].into_iter().find_map(|share| {
                    let along = line.length() * (0.04 + 0.9 * (at as f64 + share) / count);
                    place::beside(&words, line.point_at_length(along), 0.6, &self.clear)
                });
                if let Some(words) = tried {
                    self.put(words, Some(part.size));
                }
            }
        }
    }

    /// Beside each button and the like its size, where they do not lie in the same places in all of them.
    pub(super) fn sizes_of_fasteners(&mut self, members: &[&CutPart]) {
        let Some(last) = members.last() else { return };
        let agree = members.iter().all(|other| {
            other.fasteners.len() == last.fasteners.len()
                && other.fasteners.iter().zip(&last.fasteners).all(|(a, b)| a.at.distance(b.at) < SAME_PLACE)
        });
        if agree {
            return;
        }
        for part in members {
            for fastener in &part.fasteners {
                let words = Words::new(part.label.size.clone(), Point::ZERO, SIZE_OF_MARK).grey();
                let off = fastener.size.map_or(MARK, |size| size / 2.0) + 0.6;
                if let Some(words) = place::level(&words, fastener.at, off, &self.clear) {
                    self.put(words, Some(part.size));
                }
            }
        }
    }

    /// A name with the sizes that it is of, where several lie in one another.
    fn told(&self, name: &str, agree: bool, part: &CutPart) -> String {
        match (self.nested, agree) {
            (false, _) => name.to_owned(),
            (true, true) => format!("{name}, all sizes"),
            (true, false) => format!("{name}, {}", part.label.size),
        }
    }
}

/// The stretch of a curved line beside which its name stands, as shares of its length.
const NAMED: (f64, f64) = (0.35, 0.65);
/// The body of a size's name beside a mark.
const SIZE_OF_MARK: f64 = 3.4;
/// Lines and marks of two sizes no farther apart than this are one, in millimetres.
const SAME_PLACE: f64 = 0.05;
