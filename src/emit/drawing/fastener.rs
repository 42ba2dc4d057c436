//! Signs for buttons, snaps, hooks, toggles, buckles and ties.

use crate::syntax::tree::Fastener;
use kurbo::{BezPath, Circle, Point, Shape as _, Vec2};

/// Half the length of a stroke of a sign that has no size of its own, in millimetres.
const MARK: f64 = 3.0;

/// How one is drawn, in its own size in millimetres: a button and its buttonhole, the rings of a snap, a hook's bow, a toggle as long as
/// it is with its loop, the frame of a buckle, the end of a tie.
pub(super) fn sign(kind: Fastener, at: Point, size: Option<f64>) -> BezPath {
    let (half, square) = (size.unwrap_or(MARK) / 2.0, Vec2::new(0.0, MARK));
    let across = Vec2::new(half, 0.0);
    let line = |drawn: &mut BezPath, from: Point, to: Point| {
        drawn.move_to(from);
        drawn.line_to(to);
    };
    match kind {
        Fastener::Button => {
            let mut drawn = Circle::new(at, half).to_path(0.01);
            line(&mut drawn, at - across, at + across);
            drawn
        }
        Fastener::Snap => {
            let mut drawn = Circle::new(at, half).to_path(0.01);
            drawn.extend(Circle::new(at, half / 2.0).to_path(0.01));
            drawn
        }
        Fastener::Hook => {
            let mut drawn = Circle::new(at, MARK / 2.0).to_path(0.01);
            line(&mut drawn, at - square, at + square);
            drawn
        }
        Fastener::Toggle => {
            let mut drawn = BezPath::new();
            line(&mut drawn, at - across, at + across);
            line(&mut drawn, at - across - square / 2.0, at - across + square / 2.0);
            line(&mut drawn, at + across - square / 2.0, at + across + square / 2.0);
            drawn
        }
        Fastener::Buckle => {
            let up = Vec2::new(0.0, half);
            let mut drawn = BezPath::new();
            drawn.move_to(at - across - up);
            drawn.line_to(at + across - up);
            drawn.line_to(at + across + up);
            drawn.line_to(at - across + up);
            drawn.close_path();
            line(&mut drawn, at - up, at + up);
            drawn
        }
        Fastener::Tie => {
            let mut drawn = BezPath::new();
            line(&mut drawn, at - square, at + square);
            line(&mut drawn, at - square / 2.0, at + Vec2::new(MARK, 0.0));
            line(&mut drawn, at + square / 2.0, at + Vec2::new(MARK, 0.0));
            drawn
        }
    }
}
