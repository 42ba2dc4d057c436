//! What a layer is for.

use crate::bring::trade_words::{FOLD, GRAIN, NOTCH, ON_TOP, SEWN, has_word};

/// What is drawn on a layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// The piece's outline.
    Boundary,
    /// Points where a line turns.
    Turn,
    /// Points of curves.
    Curve,
    /// Notches.
    Notch,
    /// The line along which a half is mirrored.
    Mirror,
    /// The grain line.
    Grain,
    /// Lines inside.
    Internal,
    /// Lines inside that are cut.
    CutOut,
    /// Drill holes.
    Drill,
    /// Stitching lines.
    Sew,
    /// Words.
    Annotation,
    /// What other work needs: grade and stripe references, curves again for comparison.
    Reference,
    /// Nothing is known of it.
    Unknown,
}

/// By its number in ASTM D6673-10 (5, 9, 10, 80 to 87 from memory).
pub(super) fn by_number(layer: &str) -> Role {
    match layer.trim() {
        "1" => Role::Boundary,
        "2" => Role::Turn,
        "3" => Role::Curve,
        "4" | "80" | "81" | "82" | "83" => Role::Notch,
        "6" => Role::Mirror,
        "7" => Role::Grain,
        "8" => Role::Internal,
        "11" => Role::CutOut,
        "13" => Role::Drill,
        "14" => Role::Sew,
        "15" => Role::Annotation,
        "5" | "9" | "10" | "84" | "85" | "86" | "87" => Role::Reference,
        _ => Role::Unknown,
    }
}

/// By the trade's word for it in the layer's name, where layers have names.
pub(super) fn by_word(layer: &str) -> Role {
    let holds = |words: &[&str]| has_word(layer, words);
    match () {
        () if holds(&NOTCH) => Role::Notch,
        () if holds(&GRAIN) => Role::Grain,
        () if holds(&ON_TOP) => Role::Internal,
        () if holds(&SEWN) => Role::Sew,
        () if holds(&FOLD) || holds(&["mirror", "mirrorline"]) => Role::Mirror,
        () if holds(&["drill", "drills", "drillhole", "drillholes"]) => Role::Drill,
        () => Role::Unknown,
    }
}
