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
/// The engine's `f32` coordinates are fine enough up to this length; beyond it outlines are drawn
/// in by what `f32` may round, and nothing is moved any more.
const FINE_LENGTH: f64 = 16_000.0;
/// What `f32` may round, as a part of a coordinate.
const ROUNDING: f64 = 2e-7;
/// How far a piece may slide while the plan settles, in millimetres, and in how many halvings its
/// way is searched.
const SLIDE: f32 = 8.0;
const HALVINGS: usize = 12;
/// How often the whole plan settles.
const ROUNDS: usize = 4;

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
    fine: bool,
}

impl Referee {
    /// Prepares the outline of every pose, for layouts up to a length.
    pub fn new(poses: &Poses, width: f64, length: f64) -> Self {
        let fine = length < FINE_LENGTH;
        let by = if fine { DRAWN_IN } else { DRAWN_IN + ROUNDING * length };
        let shapes = poses.poses.iter().map(|pose| engine_shape(&pose.outline, by)).collect();
        Referee { shapes, width: width as f32, fine }
    }

    /// Whether no piece collides with another or leaves the cloth.
    pub fn passes(&self, layout: &Layout) -> bool {
        let Some(mut engine) = self.engine(layout.length) else { return true };
        for (piece, &(pose, x, y)) in layout.lies.iter().enumerate() {
            let Some(laid) = self.laid(pose, x, y) else { continue };
            if engine.detect_poly_collision(&laid, &NoFilter) {
                return false;
            }
            engine.register_hazard(Hazard::new(Obstacle::Piece(piece), Arc::new(laid)));
        }
        true
    }

    /// Lets every piece slide back along the cloth, by its true outline, as far as the engine
    /// finds it free: this gives back what the search lost by seeing fewer corners.
    pub fn settle(&self, poses: &Poses, layout: &Layout) -> Option<Layout> {
        let mut engine = self.engine(layout.length).filter(|_| self.fine)?;
        let mut settled = layout.clone();
        for (piece, &(pose, x, y)) in layout.lies.iter().enumerate() {
            engine.register_hazard(Hazard::new(Obstacle::Piece(piece), Arc::new(self.laid(pose, x, y)?)));
        }
        let start =
            |lies: &[(usize, f32, f32)], piece: usize| lies[piece].1 - poses.poses[lies[piece].0].half.0;
        for _ in 0..ROUNDS {
            let mut order: Vec<usize> = (0..settled.lies.len()).collect();
            order.sort_by(|&a, &b| {
                start(&settled.lies, a).total_cmp(&start(&settled.lies, b)).then(a.cmp(&b))
            });
            for piece in order {
                let (pose, x, y) = settled.lies[piece];
                let shape = &poses.poses[pose];
                let room = (x - shape.half.0).clamp(0.0, SLIDE);
                if shape.lattice_x.step > 0.0 || room <= 0.0 {
                    continue;
                }
                engine.deregister_hazard_by_entity(Obstacle::Piece(piece));
                let (mut free, mut tried) = (0.0f32, room);
                let mut step = room;
                for _ in 0..HALVINGS {
                    let clear = self
                        .laid(pose, x - tried, y)
                        .is_some_and(|laid| !engine.detect_poly_collision(&laid, &NoFilter));
                    if clear {
                        free = tried;
                    }
                    step /= 2.0;
                    tried = if clear { tried + step } else { tried - step };
                    tried = tried.min(room);
                    if free >= room {
                        break;
                    }
                }
                settled.lies[piece].1 = x - free;
                engine.register_hazard(Hazard::new(
                    Obstacle::Piece(piece),
                    Arc::new(self.laid(pose, x - free, y)?),
                ));
            }
        }
        Some(settled)
    }

    fn laid(&self, pose: usize, x: f32, y: f32) -> Option<SPolygon> {
        let shape = self.shapes[pose].as_ref()?;
        Some(shape.transform_clone(&Transformation::from_translation((x, y))))
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
fn engine_shape(outline: &[Point], by: f64) -> Option<SPolygon> {
    let points = drawn_in(outline, by);
    SPolygon::new(points.iter().map(|p| EnginePoint(p.0 as f32, p.1 as f32)).collect()).ok()
}
