//! How the pieces lie on their cloths.

use super::shapes::{ShapeView, view};
use crate::cutting::WorkedSize;
use crate::emit::Figure;
use crate::emit::drawing;
use crate::garment::Garment;
use crate::materials::{Buying, GarmentLay, LayOrder, buying, cloths_of, lay_garment};
use kurbo::Vec2;
use rayon::prelude::*;
use serde::Serialize;

/// The lays of one size.
#[derive(Clone, Debug, Serialize)]
pub struct LayView {
    /// The size.
    pub size: String,
    /// One a cloth, at a tenth of its size.
    pub cloths: Vec<ClothView>,
    /// Cloths that cannot be laid, and why.
    pub troubles: Vec<String>,
}

/// The lay of one cloth.
#[derive(Clone, Debug, Serialize)]
pub struct ClothView {
    /// How wide the drawing is.
    pub width: Figure,
    /// How high it is.
    pub height: Figure,
    /// How it is drawn.
    pub shapes: Vec<ShapeView>,
}

/// Lays each cloth, quickly.
pub(super) fn lays(garment: &Garment, size: &WorkedSize) -> LayView {
    let found: Vec<Result<(GarmentLay, Buying), String>> = cloths_of(garment, &[size])
        .into_par_iter()
        .map(|fabric| {
            let lay = lay_garment(garment, &[size], fabric, LayOrder::default(), &mut |_| {});
            let lay = lay.map_err(|trouble| trouble.to_string())?;
            let bought = buying(&lay.cloth, lay.length, lay.main_length, garment.unit);
            Ok((lay, bought))
        })
        .collect();
    let (mut cloths, mut troubles) = (Vec::new(), Vec::new());
    for laid in found {
        match laid {
            Ok(laid) => cloths.push(cloth(garment, laid)),
            Err(trouble) => troubles.push(trouble),
        }
    }
    LayView { size: garment.size(size.id()).name.to_string(), cloths, troubles }
}

fn cloth(garment: &Garment, laid: (GarmentLay, Buying)) -> ClothView {
    let sheet = drawing::lays(garment, &[laid]);
    let shapes = sheet.shapes.iter().map(|shape| view(garment, shape, Vec2::ZERO)).collect();
    ClothView { width: Figure(sheet.width), height: Figure(sheet.height), shapes }
}
