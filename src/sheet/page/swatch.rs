//! Cloth as it is shown: each has a texture of its own, the same as in the pictures of the steps, whose classes these are.

/// Textures that are told apart; a cloth beyond them looks like the first again.
const TEXTURES: usize = 5;

/// A small sample of a cloth; none of one that nothing is cut from.
pub fn swatch(texture: Option<usize>) -> String {
    texture.map_or_else(String::new, |_| {
        format!(
            "<svg class=\"swatch\" width=\"18\" height=\"12\" viewBox=\"0 0 18 12\" aria-hidden=\"true\"><g class=\"pic\"><rect width=\"18\" height=\"12\" class=\"{}\"/></g></svg>",
            class(texture, true)
        )
    })
}

/// The class of a cloth's right or wrong side.
pub fn class(texture: Option<usize>, right: bool) -> String {
    let side = if right { 'r' } else { 'w' };
    texture.map_or_else(String::new, |at| format!("{side}{}", at % TEXTURES))
}
