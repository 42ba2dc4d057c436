//! What looks as if a drawing came in at another scale than it was made for.

use super::pattern::Pattern;
use kurbo::Shape;

/// No piece of a garment that a person wears is longer, in millimetres.
const TOO_LONG: f64 = 2_500.0;
/// If no piece is longer than this, in millimetres, it is no garment.
const TOO_SHORT: f64 = 60.0;

/// A sentence on the scale, where it is suspected.
pub fn scale(pattern: &Pattern) -> Option<String> {
    let largest = pattern.sizes.len().max(1) - 1;
    let long = |piece: &super::pattern::Piece| {
        let bounds = piece.outline.whole(largest).bounding_box();
        bounds.width().max(bounds.height())
    };
    let most = pattern.pieces.iter().max_by(|one, other| long(one).total_cmp(&long(other)))?;
    let length = long(most);
    let metres = length / 1000.0;
    if length > TOO_LONG {
        return Some(format!(
            "{} is {metres:.2} m long: if that is not so, the drawing is measured otherwise; `scale` says how long 10 cm are in it",
            most.name
        ));
    }
    (length < TOO_SHORT).then(|| {
        format!(
            "no piece is longer than {length:.1} mm: if that is not so, the drawing is measured otherwise; \
             `scale` says how long 10 cm are in it"
        )
    })
}
