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
    /// How wide the drawing is.
    pub width: Figure,
    /// How high it is.
    pub height: Figure,
    /// One below the other, at a tenth of their size.
    pub shapes: Vec<ShapeView>,
    /// Cloths that cannot be laid, and why.
    pub troubles: Vec<String>,
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
    let (laid, troubles): (Vec<_>, Vec<_>) = found.into_iter().partition(Result::is_ok);
    let laid: Vec<(GarmentLay, Buying)> = laid.into_iter().flatten().collect();
    let troubles = troubles.into_iter().filter_map(Result::err).collect();
    let name = garment.size(size.id()).name.to_string();
    if laid.is_empty() {
        return LayView { size: name, width: Figure(0.0), height: Figure(0.0), shapes: Vec::new(), troubles };
    }
    let sheet = drawing::lays(garment, &laid);
    let shapes = sheet.shapes.iter().map(|shape| view(garment, shape, Vec2::ZERO)).collect();
    LayView { size: name, width: Figure(sheet.width), height: Figure(sheet.height), shapes, troubles }
}
