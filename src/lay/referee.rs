//! The last word on a layout: a jagua-rs collision engine that holds the outlines as they are.
//!
//! The search sees outlines with fewer corners, as convex parts; the engine sees every corner. A
//! layout is a plan only when the engine finds no collision in it. Two outlines that merely touch
//! collide in the engine, so each is drawn in by less than half of the tolerance first.

use super::board::Layout;
use super::pose::Poses;
use super::request::Point;
use super::verify::drawn_in;
use jagua_rs::collision_detection::hazards::filter::NoFilter;
use jagua_rs::collision_detection::hazards::{Hazard, HazardEntity};
use jagua_rs::collision_detection::{CDEConfig, CDEngine};
use jagua_rs::geometry::Transformation;
use jagua_rs::geometry::fail_fast::SPSurrogateConfig;
use jagua_rs::geometry::geo_enums::GeoPosition;
use jagua_rs::geometry::geo_traits::Transformable;
use jagua_rs::geometry::primitives::{Point as EnginePoint, Rect, SPolygon};
use std::sync::Arc;

/// How far an outline is drawn in for the engine, in millimetres.
const DRAWN_IN: f64 = 0.0035;

/// What may be in a piece's way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Obstacle {
    /// All that is not cloth.
    OffTheCloth,
    /// A piece already laid.
    Piece(usize),
}

impl HazardEntity for Obstacle {
    fn scope(&self) -> GeoPosition {
        match self {
            Obstacle::OffTheCloth => GeoPosition::Exterior,
            Obstacle::Piece(_) => GeoPosition::Interior,
        }
    }
    fn is_dynamic(&self) -> bool {
        matches!(self, Obstacle::Piece(_))
    }
}

/// The true outlines, ready for the engine.
pub struct Referee {
    shapes: Vec<Option<SPolygon>>,
    width: f32,
}

impl Referee {
    /// Prepares the outline of every pose.
    pub fn new(poses: &Poses, width: f64) -> Self {
        let shapes = poses.poses.iter().map(|pose| engine_shape(&pose.outline)).collect();
        Referee { shapes, width: width as f32 }
    }

    /// Whether no piece collides with another or leaves the cloth.
    pub fn passes(&self, layout: &Layout) -> bool {
        let Some(mut engine) = self.engine(layout.length) else { return true };
        for (piece, &(pose, x, y)) in layout.lies.iter().enumerate() {
            let Some(shape) = &self.shapes[pose] else { continue };
            let laid = shape.transform_clone(&Transformation::from_translation((x, y)));
            if engine.detect_poly_collision(&laid, &NoFilter) {
                return false;
            }
            engine.register_hazard(Hazard::new(Obstacle::Piece(piece), Arc::new(laid)));
        }
        true
    }

    fn engine(&self, length: f32) -> Option<CDEngine<Obstacle>> {
        let cloth = Rect::try_new(-0.01, -0.01, length + 0.01, self.width + 0.01).ok()?;
        let bounds = Rect::try_new(-1.0, -1.0, length + 1.0, self.width + 1.0).ok()?;
        let config = CDEConfig {
            quadtree_depth: 5,
            cd_threshold: 16,
            item_surrogate_config: SPSurrogateConfig {
                n_pole_limits: [(64, 0.0), (16, 0.8), (8, 0.9)],
                n_ff_piers: 0,
                ff_pole_area_ratio: 0.0,
            },
        };
        let outside = Hazard::new(Obstacle::OffTheCloth, Arc::new(SPolygon::from(cloth)));
        Some(CDEngine::new(bounds.inflate_to_square(), vec![outside], config))
    }
}

/// An outline drawn in a little, in the engine's own form; `None` where the engine cannot hold it
/// (the exact check at the end still sees it).
fn engine_shape(outline: &[Point]) -> Option<SPolygon> {
    let points = drawn_in(outline, DRAWN_IN);
    SPolygon::new(points.iter().map(|p| EnginePoint(p.0 as f32, p.1 as f32)).collect()).ok()
}
