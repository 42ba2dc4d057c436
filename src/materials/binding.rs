//! Binding cut from cloth on the bias.

/// How many times its finished width a binding is cut: folded in on both edges and once over
/// (common practice).
pub const BIAS_CUT: f64 = 4.0;

/// A binding as it is cut from cloth, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BindingCut {
    /// Width of the strips.
    pub width: f64,
    /// Length of all strips together.
    pub length: f64,
    /// Side of the square of cloth that holds it, by the square root rule.
    pub square: f64,
}

/// The side of the square of cloth from which a bias strip of that width and length can be cut:
/// the root of its area (handbook rule: 100 in of 3½ in need a square of 18.71 in).
pub fn bias_square(length: f64, width: f64) -> f64 {
    (length.max(0.0) * width.max(0.0)).sqrt()
}

/// How much of a bias strip of that width a square holds: the rule the other way round.
pub fn bias_length(square: f64, width: f64) -> f64 {
    if width > 0.0 { square.max(0.0) * square.max(0.0) / width } else { 0.0 }
}

/// How a binding of that finished width and length is cut.
pub fn binding_cut(finished: f64, length: f64) -> BindingCut {
    let width = BIAS_CUT * finished;
    BindingCut { width, length, square: bias_square(length, width) }
}
