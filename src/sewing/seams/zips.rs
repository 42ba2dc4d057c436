//! What a zip between two pieces says of how they lie: both show their right sides, and its two edges begin and end
//! beside one another.

use crate::garment::{Closure, ClosureKind, Garment};
use crate::sewing::closure_pairs::closure_sides;
use crate::sewing::ends::Corners;
use crate::sewing::model::PartId;
use crate::sewing::stitching::{Finder, Place};
use crate::sewing::surface::union::Signed;

/// Adds it to how parts lie to one another, and remembers of corners that the end of a zip brings them together.
pub(super) fn learn_of_zips(garment: &Garment, finder: &Finder, corners: &mut Corners, signs: &mut Signed) {
    let is_zip = |closure: &&Closure| matches!(closure.kind, Some(ClosureKind::Zipper { .. }));
    for closure in garment.closures.iter().filter(is_zip) {
        for layer in finder.layers.of_chains(&[&closure.first, &closure.second]) {
            for sided in closure_sides(finder, closure, layer).unwrap_or_default() {
                let [first, second] = &sided.sides;
                if let ([one], [other]) = (first.as_slice(), second.as_slice())
                    && let ([one], [other]) = (one.as_slice(), other.as_slice())
                    && are_plain(finder, one, other)
                {
                    signs.join(one.part.index(), other.part.index(), false);
                    bring_together(corners, one, other);
                }
            }
        }
    }
}

/// Whether it is two pieces of one layer, each there once: of pairs, left may close on right.
fn are_plain(finder: &Finder, one: &Place, other: &Place) -> bool {
    let is_single = |part: PartId| finder.hand(part).is_none() && finder.times(part) == 1;
    let layer = |part: PartId| finder.part(part).layer;
    one.part != other.part
        && layer(one.part) == layer(other.part)
        && is_single(one.part)
        && is_single(other.part)
}

/// Outlines are drawn one way round, so that edges beside one another run against each other.
fn bring_together(corners: &mut Corners, one: &Place, other: &Place) {
    for at_end in [false, true] {
        let ends =
            corners.end_of(one.part, one.edge, at_end).zip(corners.end_of(other.part, other.edge, !at_end));
        if let Some((one, other)) = ends {
            corners.zip(one, other);
        }
    }
}
