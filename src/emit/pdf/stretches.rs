//! Where the ink of a drawing lies on paper, and what room is left round it.

use crate::emit::drawing::{Shape, What};
use kurbo::{PathEl, Point, Vec2};

/// From the frame of the first pages, along which they are trimmed, to the first line of a piece, in millimetres.
pub(super) const INSET: f64 = 4.0;
/// Between two pieces on paper, in millimetres.
pub(super) const GAP: f64 = 6.0;
/// How far a curve may lie from the stretches that stand for it, in millimetres: less than a line is wide.
const CHORD: f64 = 0.2;

/// A shape as chains of short stretches; of words the box round them.
pub(super) fn stretches(shape: &Shape, by: Vec2) -> Vec<Vec<Point>> {
    match &shape.what {
        What::Words(words) => {
            let [a, b, c, d] = words.corners();
            vec![[a, b, c, d, a].map(|point| point + by).to_vec()]
        }
        What::Stroke(path, _) | What::Fill(path, _) => {
            let mut chains: Vec<Vec<Point>> = Vec::new();
            kurbo::flatten(path, CHORD, |element| match element {
                PathEl::MoveTo(point) => chains.push(vec![point + by]),
                PathEl::ClosePath => {
                    if let Some(chain) = chains.last_mut() {
                        chain.extend(chain.first().copied());
                    }
                }
                element => {
                    if let (Some(chain), Some(point)) = (chains.last_mut(), element.end_point()) {
                        chain.push(point + by);
                    }
                }
            });
            chains
        }
    }
}
