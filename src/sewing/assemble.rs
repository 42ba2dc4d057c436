use super::channels::{channels, closure_counts, elastic_stretches};
use super::ends::Corners;
use super::fasteners::mark_fasteners;
use super::fates::parts;
use super::lengths::Lengths;
use super::notches::Notching;
use super::notions::{Counted, notions};
use super::openings::openings;
use super::seams::seams;
use super::sides::claims_of;
use super::stitched::mark_stitched;
use super::stitching::{Finder, PartIndex};
use super::surface::{Gluing, surface};
use super::whole::Sewing;
use crate::garment::Garment;
use crate::resolve::SizedGarment;

/// Puts a size together.
pub fn assemble(garment: &Garment, sized: &SizedGarment) -> Sewing {
    let mut index = PartIndex::new(garment, sized);
    if index.has_sides {
        let claims = claims_of(garment, &Finder::new(garment, sized, &index));
        index = index.with_claims(claims);
    }
    let finder = Finder::new(garment, sized, &index);
    let stitchings = finder.stitchings();
    let mut parts = parts(garment, sized, &finder, &stitchings);
    let fasteners = mark_fasteners(garment, sized, &finder, &mut parts);
    mark_stitched(garment, sized, &finder, &mut parts);
    let mut corners = Corners::new(garment, sized, &finder);
    let mut lengths = Lengths::new(garment, &finder);
    let mut seams = seams(garment, sized, &finder, &stitchings, &mut corners, &mut lengths);
    Notching::new(garment, sized, &mut corners).notch(&mut seams, &mut parts);
    let surface = surface(garment, sized, &finder, &mut corners, &parts, &seams, &mut lengths);
    let closure_counts = surface.as_ref().map(|surface| closure_counts(garment, surface));
    let channels = surface.as_ref().map(|surface| channels(garment, &finder, surface));
    let elastic = elastic_stretches(garment, sized, channels.as_deref().unwrap_or_default());
    let openings = openings(garment, sized, &finder, &parts, &seams, surface.as_ref(), &elastic);
    let counted = Counted {
        closures: closure_counts.as_deref(),
        channels: channels.as_deref(),
        surface: surface.as_ref(),
    };
    let notions = notions(garment, sized, &finder, &fasteners, &seams, counted);
    Sewing {
        parts,
        seams,
        openings,
        fasteners,
        notions,
        closure_counts,
        channels,
        gluing: surface.as_ref().map(Gluing::seams).unwrap_or_default(),
        surface,
        stitchings,
        index,
    }
}
