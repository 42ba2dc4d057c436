//! What the lines mean.

use super::shapes::{ShapeView, view};
use crate::emit::drawing::{Shape, WORDS, What, entries, sample};
use crate::garment::Garment;
use kurbo::{Point, Vec2};
use serde::Serialize;

/// A line of the key.
#[derive(Clone, Debug, Serialize)]
pub struct KeyView {
    /// What it means.
    pub words: String,
    /// A sample of it, from (0, 0) to the right.
    pub sample: Vec<ShapeView>,
}

/// How wide a sample is, in millimetres.
pub(super) const SAMPLE: f64 = WORDS - 5.0;

/// The key to these shapes.
pub(super) fn key(garment: &Garment, shapes: &[Shape]) -> Vec<KeyView> {
    let drawn = |entry| {
        let shapes: Vec<Shape> = sample(entry, Point::ZERO, 1.0);
        let lines = shapes.iter().filter(|shape| !matches!(shape.what, What::Words(_)));
        lines.map(|shape| view(garment, shape, Vec2::ZERO)).collect()
    };
    let all = entries(garment, shapes);
    all.iter().map(|entry| KeyView { words: entry.words.clone(), sample: drawn(entry) }).collect()
}
