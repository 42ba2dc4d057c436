//! What is said where a length, an angle or a number stands in place of another.

use crate::garment::Dimension;

/// Words longer than this are not said again in the help.
const SAID_AGAIN: usize = 24;

/// How to get from what was found to what is needed; `words` is what was found, as it is written.
pub(super) fn way_to(found: Dimension, needed: Dimension, words: &str) -> String {
    let it = again(words);
    match (found, needed) {
        (Dimension::Number, Dimension::Length) => "only a number standing alone takes the file's unit: give \
             one of its parts a unit, for example 3cm"
            .to_owned(),
        (Dimension::Angle, Dimension::Length) => format!(
            "a side of a triangle is a length, for example 12cm * tan({it}); if {it} was to be a length, give it \
             a length's unit"
        ),
        (Dimension::Area, Dimension::Length) => format!(
            "sqrt({it}) is a length; or, if one of its parts was meant as a plain number, write that without \
             a unit"
        ),
        (Dimension::Point, Dimension::Length) => {
            format!("x({it}) and y({it}) are lengths, and so is the distance(…, …) from another point")
        }
        (_, Dimension::Point) => "a point has two lengths: (to the side, up)".to_owned(),
        (Dimension::Length, Dimension::Number) => {
            format!("a length divided by a length is a plain number, for example ({it}) / 1cm")
        }
        (Dimension::Area, Dimension::Number) => {
            format!("an area divided by an area is a plain number, for example ({it}) / (1cm * 1cm)")
        }
        (Dimension::Angle, Dimension::Number) => {
            format!("sin({it}), cos({it}) and tan({it}) are plain numbers, and so is ({it}) / 1deg")
        }
        (Dimension::Point, Dimension::Number) => {
            format!("a length divided by a length is a plain number, for example x({it}) / 1cm")
        }
        (Dimension::Length, Dimension::Angle) => {
            "an angle is written 30° or 30deg; of two lengths atan2(up, right) makes one".to_owned()
        }
        (_, Dimension::Angle) => "an angle is written 30° or 30deg".to_owned(),
        (Dimension::Length, Dimension::Area) => {
            format!("a length times a length is an area, for example ({it}) * 20cm")
        }
        (_, Dimension::Area) => "a length times a length is an area, for example 20cm * 30cm".to_owned(),
        (Dimension::Number, Dimension::Number) | (Dimension::Length, Dimension::Length) => {
            "look at what each of the two means".to_owned()
        }
    }
}

/// What helps where two cannot be multiplied, or one divided by the other; `words` are the second's.
pub(super) fn way_to_scale(one: Dimension, other: Dimension, times: bool, words: &str) -> String {
    let it = again(words);
    match (one, other) {
        (_, Dimension::Angle) | (Dimension::Angle, _) => {
            let (again, angle) = (it, if other == Dimension::Angle { it } else { "…" });
            // The angle of a part of a cone or of a ring is degrees times a length, by a length.
            let brackets = match (one, other) {
                (Dimension::Angle, Dimension::Length) if times => {
                    format!("; so is a length by a length, in brackets: … * ({again} / …)")
                }
                (Dimension::Length, Dimension::Angle) if times => {
                    format!("; so is an angle by an angle, in brackets: … * ({again} / …)")
                }
                _ => String::new(),
            };
            format!(
                "multiply or divide by sin({angle}), cos({angle}) or tan({angle}), which are plain numbers{brackets}"
            )
        }
        (_, Dimension::Point) | (Dimension::Point, _) => {
            let point = if other == Dimension::Point { it } else { "…" };
            format!("take one of its lengths: x({point}) or y({point})")
        }
        (Dimension::Area | Dimension::Length, _) if times => format!(
            "two lengths make an area, and no amount of a piece goes beyond that: a plain count has no unit, \
             as 2 in 2 * {it}"
        ),
        _ => format!(
            "a length or an area is divided by a length: turn it round, {it} / …, or leave the unit out of what \
             is only a number"
        ),
    }
}

/// The words, or dots in their place.
fn again(words: &str) -> &str {
    match words.chars().count() <= SAID_AGAIN && !words.contains('\n') && !words.is_empty() {
        true => words,
        false => "…",
    }
}
