//! All that is worked out of how one size is put together.

use super::channels::Channel;
use super::model::{FastenerRow, NotionNeed, PartId, SewnPart, SewnSeam};
use super::openings::OpeningRing;
use super::stitching::{Finder, PartIndex, Stitching};
use super::surface::{Gluing, StretchId, Surface};
use crate::garment::{EdgeId, Garment, Part};
use crate::resolve::SizedGarment;

/// A garment in one size, put together. `None` is what could not be worked out and is reported.
#[derive(Clone, Debug, Default)]
pub struct Sewing {
    /// Every part that is cut, in the order of [`crate::garment::Garment::parts`]; parts whose
    /// paper could not be drawn are left out.
    pub parts: Vec<SewnPart>,
    /// Every seam in every layer that it is sewn in, in the order of the garment.
    pub seams: Vec<SewnSeam>,
    /// Openings that must pass a part of the body, in the order of the garment; none where the
    /// surface or a length is unknown.
    pub openings: Vec<Option<OpeningRing>>,
    /// Buttons by closure.
    pub fasteners: Vec<FastenerRow>,
    /// What has to be bought beside cloth.
    pub notions: Vec<NotionNeed>,
    /// How many there are of each closure, over all copies; none where the surface is not known.
    pub closure_counts: Option<Vec<u32>>,
    /// Where elastic and cords run, once for every copy; none where the surface is not known.
    pub channels: Option<Vec<Channel>>,
    /// The garment as one sewn surface; none where something of it is not known, which has been reported.
    pub surface: Option<Surface>,
    /// How all seams glue that surface, with the closures open; nothing is glued where it is not known.
    pub gluing: Gluing,
    /// Which edges of which parts every seam takes, in every layer that it is sewn in; also of seams
    /// of which not all is known.
    pub stitchings: Vec<Stitching>,
    /// By what the parts are found.
    pub index: PartIndex,
}

impl Sewing {
    /// Finds the parts' edges that names mean, in the garment and the size that this is of.
    pub fn finder<'a>(&'a self, garment: &'a Garment, sized: &'a SizedGarment) -> Finder<'a> {
        Finder::new(garment, sized, &self.index)
    }

    /// The part and the edge that a stretch of its surface lies on.
    pub fn edge_of(
        &self,
        sized: &SizedGarment,
        surface: &Surface,
        stretch: StretchId,
    ) -> Option<(Part, EdgeId)> {
        let side = surface.side_of(stretch);
        let part = self.part(side.part).part;
        Some((part, sized.paper(part.paper)?.edge_at(side.edge)?.edge))
    }

    /// Of a part whose left and right are told apart the left one, for both; of any other that part itself. What hangs on a
    /// piece as it is drawn, and not on the side of the body, asks by this.
    pub fn left_of(&self, part: PartId) -> PartId {
        let twin = self.index.twin(part).filter(|twin| twin.index() < part.index());
        twin.unwrap_or(part)
    }

    /// The part of that id.
    pub fn part(&self, id: PartId) -> &SewnPart {
        &self.parts[id.index()]
    }
}
