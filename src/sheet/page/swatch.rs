//! Cloth as it is shown: each has a texture of its own, its right side a tone, its wrong side a pale hatch.

use std::fmt::Write as _;

/// Textures that are told apart; a cloth beyond them takes the first again.
const TEXTURES: usize = 5;

/// Tones of the right side, by texture.
const TONES: [&str; TEXTURES] = ["#7d97a3", "#dcb978", "#a9b79a", "#c9b3c4", "#b9c4cf"];
/// Tones of what is pale: lying face down, or joined before.
const PALE: [&str; TEXTURES] = ["#e3eaed", "#f7efdf", "#e8ede3", "#f1eaef", "#e8ecf0"];

/// A small sample of a cloth; none of one that nothing is cut from.
pub fn swatch(texture: Option<usize>) -> String {
    match texture {
        None => String::new(),
        Some(at) => format!(
            "<svg class=\"swatch\" width=\"18\" height=\"12\" viewBox=\"0 0 18 12\" aria-hidden=\"true\"><rect width=\"18\" height=\"12\" class=\"cloth\" fill=\"url(#cloth-{})\"/></svg>",
            at % TEXTURES
        ),
    }
}

/// The name of a fill.
pub fn fill(texture: Option<usize>, pale: bool) -> String {
    match texture {
        None => "#ffffff".to_owned(),
        Some(at) => format!("url(#{}-{})", if pale { "pale" } else { "cloth" }, at % TEXTURES),
    }
}

/// The patterns that fills name, once for the page.
pub fn patterns() -> String {
    let mut text =
        String::from("<svg class=\"patterns\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>");
    for at in 0..TEXTURES {
        let marks = match at {
            0 => "",
            1 => "<circle cx=\"2\" cy=\"2\" r=\"1\"/><circle cx=\"5\" cy=\"5\" r=\"1\"/>",
            2 => "<path d=\"M1.5 0V6M4.5 0V6\" stroke-width=\"0.9\"/>",
            3 => "<path d=\"M3 1V5M1 3H5\" stroke-width=\"0.8\"/>",
            _ => "<path d=\"M0 3Q1.5 1 3 3T6 3\" fill=\"none\" stroke-width=\"0.8\"/>",
        };
        for (name, tone, ink) in [("cloth", TONES[at], "#4d5a60"), ("pale", PALE[at], "#9aa5aa")] {
            // Writing to a String cannot fail.
            let _ = write!(
                text,
                "<pattern id=\"{name}-{at}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><rect width=\"6\" height=\"6\" fill=\"{tone}\"/><g fill=\"{ink}\" stroke=\"{ink}\" stroke-width=\"0\">{marks}</g></pattern>"
            );
        }
    }
    text.push_str("</defs></svg>");
    text
}
