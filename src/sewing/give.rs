//! How far cloth stretches along an edge.

use super::amounts::amount_of;
use crate::garment::{Garment, Part};
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::shape::path::Path;
use crate::syntax::tree::ClothKind;
use kurbo::{Point, Vec2};

/// How far a curve is looked at in straight steps from it, in millimetres.
const STEP: f64 = 0.5;

/// How far a part's cloth stretches along an edge, as a share of its length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Give {
    /// So far.
    Known(f64),
    /// The cloth's stretch is not said, and it is of a kind that is not made to stretch.
    NotSaid,
    /// Nothing is known of it.
    Unknown,
}

impl Give {
    /// The share; of a firm cloth of which nothing is said, nothing.
    pub fn share(self) -> Option<f64> {
        match self {
            Give::Known(share) => Some(share),
            Give::NotSaid => Some(0.0),
            Give::Unknown => None,
        }
    }
}

/// How far the part's cloth stretches along that edge of it.
///
/// Cloth that stretches by `a` along the grain and by `c` across stretches by a cos²θ + c sin²θ at the
/// angle θ from the grain: the transformation of plane strain without shear, as in any text on the
/// mechanics of materials. Over a curve it is the mean.
pub fn give(garment: &Garment, sized: &SizedGarment, part: &Part, edge: DrawnEdgeId) -> Give {
    match sized.paper(part.paper).and_then(|drawn| drawn.edge_at(edge)) {
        Some(edge) => give_along(garment, sized, part, &edge.path),
        None => match give_along(garment, sized, part, &Path::straight(Point::ZERO, Point::ZERO)) {
            Give::NotSaid => Give::NotSaid,
            Give::Known(_) | Give::Unknown => Give::Unknown,
        },
    }
}

/// The same if the part were cut a quarter turned: grain across in place of grain up.
pub fn give_turned(garment: &Garment, sized: &SizedGarment, part: &Part, edge: DrawnEdgeId) -> Give {
    let Some(drawn) = sized.paper(part.paper) else { return Give::Unknown };
    let Some(edge) = drawn.edge_at(edge) else { return Give::Unknown };
    let turned = Vec2::new(-drawn.grain.y, drawn.grain.x);
    give_on_grain(garment, sized, part, &edge.path, turned)
}

/// The same along any line on the part.
pub fn give_along(garment: &Garment, sized: &SizedGarment, part: &Part, path: &Path) -> Give {
    // Without a drawing only what is said of the cloth counts, whichever way the grain lies.
    let grain = sized.paper(part.paper).map_or(Vec2::new(0.0, 1.0), |drawn| drawn.grain);
    give_on_grain(garment, sized, part, path, grain)
}

fn give_on_grain(garment: &Garment, sized: &SizedGarment, part: &Part, path: &Path, grain: Vec2) -> Give {
    let layer = garment.layer(part.layer);
    let Some(fabric) = layer.fabric.map(|id| garment.fabric(id)) else { return Give::Unknown };
    let of = |said: &Option<crate::garment::Expression>| {
        said.as_ref().and_then(|said| amount_of(garment, sized, said)).filter(|share| *share >= 0.0)
    };
    let (along, across) = (of(&fabric.stretch.along), of(&fabric.stretch.across));
    if along.is_none() && across.is_none() {
        return match fabric.kind {
            Some(ClothKind::WovenFirm | ClothKind::WovenSupple | ClothKind::Leather) => Give::NotSaid,
            Some(ClothKind::Knit) | None => Give::Unknown,
        };
    }
    if sized.paper(part.paper).is_none() {
        return Give::Unknown;
    }
    let (with_grain, square) = shares(path, grain);
    let part_of = |share: f64, stretch: Option<f64>| match stretch {
        Some(stretch) => Some(share * stretch),
        // What is not said of a way that the edge does not go does not matter.
        None if share < 1e-6 => Some(0.0),
        None => None,
    };
    match (part_of(with_grain, along), part_of(square, across)) {
        (Some(one), Some(other)) => Give::Known(one + other),
        _ => Give::Unknown,
    }
}

/// The means of cos² and sin² of the angle between the path and the grain, by length.
fn shares(path: &Path, grain: Vec2) -> (f64, f64) {
    let points = path.flatten(STEP);
    let (mut with_grain, mut whole) = (0.0, 0.0);
    for pair in points.windows(2) {
        let [from, to] = pair else { continue };
        let way = *to - *from;
        let long = way.hypot();
        if long > 0.0 && long.is_finite() {
            let cosine = way.dot(grain) / long;
            with_grain += long * cosine * cosine;
            whole += long;
        }
    }
    match whole > 0.0 {
        true => (with_grain / whole, 1.0 - with_grain / whole),
        false => (0.5, 0.5),
    }
}
