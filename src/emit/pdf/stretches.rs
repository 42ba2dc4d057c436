//! Where the ink of a drawing lies on paper, and what room is left round it.

use crate::emit::drawing::{DrawnGroup, Shape, What};
use crate::garment::SizeId;
use kurbo::{PathEl, Point};

/// From the frame of the first pages, along which they are trimmed, to the first line of a piece, in millimetres.
pub(super) const INSET: f64 = 4.0;
/// Between two pieces on paper, in millimetres.
pub(super) const GAP: f64 = 6.0;
/// How far a curve may lie from the stretches that stand for it, in millimetres: less than a line is wide.
const CHORD: f64 = 0.2;

/// The ink of one shape.
#[derive(Clone, Debug)]
pub(super) struct Ink {
    /// The sizes that it is of; none where it is of all.
    pub sizes: Vec<SizeId>,
    /// It is a line, no words.
    pub is_line: bool,
    /// Where it lies, as chains of short stretches.
    pub chains: Vec<Vec<Point>>,
}

/// The ink of a piece, shape by shape.
pub(super) fn ink(group: &DrawnGroup) -> Vec<Ink> {
    let of_shape = |shape: &Shape| Ink {
        sizes: shape.size.iter().chain(&shape.with).copied().collect(),
        is_line: matches!(shape.what, What::Stroke(..)),
        chains: stretches(shape),
    };
    group.shapes.iter().map(of_shape).collect()
}

/// The lines among it.
pub(super) fn lines(ink: &[Ink]) -> Vec<&[Point]> {
    ink.iter().filter(|ink| ink.is_line).flat_map(|ink| &ink.chains).map(Vec::as_slice).collect()
}

/// A shape as chains of short stretches; of words the box round them.
fn stretches(shape: &Shape) -> Vec<Vec<Point>> {
    match &shape.what {
        What::Words(words) => {
            let [a, b, c, d] = words.corners();
            vec![vec![a, b, c, d, a]]
        }
        What::Stroke(path, _) | What::Fill(path, _) => {
            let mut chains: Vec<Vec<Point>> = Vec::new();
            kurbo::flatten(path, CHORD, |element| match element {
                PathEl::MoveTo(point) => chains.push(vec![point]),
                PathEl::ClosePath => {
                    if let Some(chain) = chains.last_mut() {
                        chain.extend(chain.first().copied());
                    }
                }
                element => {
                    if let (Some(chain), Some(point)) = (chains.last_mut(), element.end_point()) {
                        chain.push(point);
                    }
                }
            });
            chains
        }
    }
}
