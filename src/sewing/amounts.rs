//! Lengths and counts that are said outside a drawing.

use crate::garment::{Expression, Garment, Node};
use crate::resolve::{Quantity, SizedGarment, constant};

/// What an expression comes to; none when it is unknown or not finite, which has been reported.
/// The usual ones, a literal or a named value, are looked up without setting the garment out again.
pub fn amount_of(garment: &Garment, sized: &SizedGarment, expression: &Expression) -> Option<f64> {
    let found = match &expression.node {
        Node::Poison => None,
        Node::Constant(value) => Some(*value),
        Node::Value(id) => sized.values.get(id.index()).copied().flatten().and_then(Quantity::scalar),
        _ => constant(garment, sized, expression),
    };
    found.filter(|value| value.is_finite())
}
