//! Edges that are matched end for end: a corner with another one than its namesake, which the other piece has at
//! the edge's other end.

use super::runs::{corner_of, point_name};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SewnPoint, SewnSpot};
use crate::sewing::{SeamEnd, SewnRun, SewnSeam};

/// What the corners of every rectangle are called: that says nothing of how it is meant to lie.
const OF_RECTANGLES: [&str; 4] = ["top_left", "top_right", "bottom_left", "bottom_right"];

/// Whether a name is a letter and a number, `p3`, as corners of a drawing are called that came in: it says nothing either.
fn is_number(name: &str) -> bool {
    let figures = name.trim_start_matches(|letter: char| letter.is_alphabetic());
    !figures.is_empty()
        && name.len() - figures.len() <= 1
        && figures.bytes().all(|figure| figure.is_ascii_digit())
}

/// Whether a seam is matched so.
pub(in crate::check) fn has_any(garment: &Garment, size: &WorkedSize) -> bool {
    !all(garment, size).is_empty()
}

/// Two edges that are matched crosswise.
pub(super) struct Crosswise<'a> {
    /// The seam.
    pub(super) sewn: &'a SewnSeam,
    /// What is matched there.
    pub(super) matching: &'a (SewnPoint, SewnPoint),
    /// Its two edges.
    pub(super) runs: [&'a SewnRun; 2],
    /// The corners that are matched.
    pub(super) ends: [SeamEnd; 2],
    /// The other piece's other end, with the name of the first piece's corner.
    pub(super) namesake: SeamEnd,
    /// The first piece's other end, where only words of the names are alike, crosswise at both ends.
    pub(super) by_words: Option<SeamEnd>,
}

/// Words of names that only say on which side of a piece a corner lies.
const SIDES: [&str; 24] = [
    "left", "right", "top", "bottom", "upper", "lower", "front", "back", "side", "inner", "outer", "inside",
    "outside", "in", "out", "low", "high", "up", "down", "near", "far", "start", "end", "corner",
];

/// Whether two names have a word in common that says what lies there: `underarm` and `underarm_front`.
fn share_a_word(one: &str, other: &str) -> bool {
    let said = |word: &&str| word.chars().count() > 1 && !SIDES.contains(word) && !is_number(word);
    one.split('_').filter(said).any(|word| other.split('_').any(|other| other == word))
}

/// Every seam that is matched so.
pub(super) fn all<'a>(garment: &'a Garment, size: &'a WorkedSize) -> Vec<Crosswise<'a>> {
    if size.sewn.surface.as_ref().is_none_or(|surface| !surface.twists.is_empty()) {
        return Vec::new();
    }
    let mut found: Vec<Crosswise> = Vec::new();
    for sewn in &size.sewn.seams {
        let seam = garment.seam(sewn.seam);
        let is_known = found.last().is_some_and(|last| last.sewn.seam == sewn.seam);
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        let ([one], [other]) = (first.runs.as_slice(), second.runs.as_slice()) else { continue };
        // The same edge in two layers is reported by `seam/end-for-end`, left and right of one by
        // `seam/matching`.
        let piece = |run: &SewnRun| size.sewn.part(run.part).part.piece;
        if is_known || seam.matching.is_empty() || piece(one) == piece(other) {
            continue;
        }
        let matched = seam.matching.iter().find_map(|matching| {
            [false, true].into_iter().find_map(|end| {
                let own = corner_of(size, one, end)?;
                let at = corner_of(size, other, end)?;
                let is_named = |end: &SeamEnd| {
                    [matching.0.point, matching.1.point].into_iter().filter_map(SewnSpot::point).any(|point| {
                        matches!(end.corner, crate::resolve::CornerName::Named(own) if garment.is_point_of(own, point))
                    })
                };
                let name = point_name(garment, &own)?;
                let is_meant = is_named(&own)
                    && is_named(&at)
                    && point_name(garment, &at)? != name
                    && !OF_RECTANGLES.contains(&&**name)
                    && !is_number(name);
                let namesake = corner_of(size, other, !end)?;
                let found = Crosswise {
                    sewn,
                    matching,
                    runs: [one, other],
                    ends: [own, at],
                    namesake,
                    by_words: None,
                };
                let far = point_name(garment, &namesake)?;
                if is_meant && far == name {
                    return Some(found);
                }
                let own_far = corner_of(size, one, !end)?;
                let (there, beyond) = (point_name(garment, &at)?, point_name(garment, &own_far)?);
                let is_crosswise = share_a_word(name, far)
                    && share_a_word(beyond, there)
                    && !share_a_word(name, there)
                    && !share_a_word(beyond, far);
                (is_named(&own) && is_named(&at) && is_crosswise)
                    .then_some(Crosswise { by_words: Some(own_far), ..found })
            })
        });
        found.extend(matched);
    }
    found
}
