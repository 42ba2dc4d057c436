use super::buttons::mark_buttons;
use super::fates::parts;
use super::model::Sewing;
use super::notions::notions;
use super::stitching::Finder;
use crate::garment::Garment;
use crate::resolve::SizedGarment;

/// Puts a size together.
pub fn assemble(garment: &Garment, sized: &SizedGarment) -> Sewing {
    let finder = Finder::new(garment, sized);
    let mut parts = parts(garment, sized);
    let buttons = mark_buttons(garment, sized, &finder, &mut parts);
    let notions = notions(garment, sized, &finder, &buttons);
    Sewing { parts, seams: Vec::new(), buttons, notions }
}
