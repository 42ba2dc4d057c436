//! The garment as one sewn surface.
//!
//! A garment is more than its seams: what they make together is a surface, and much of what a maker
//! must know is a fact about that surface alone: whether it hangs together, which openings it has and
//! what goes through them, whether it can be turned, whether two pieces lie wrong side to right side.
//! It is built once for each size, from what [`crate::sewing::assemble`] gives, and judges nothing.
//!
//! - **Faces** ([`Face`]) are discs: every copy of every sewn part; a slit inside it is a hole in it, whose sides are
//!   a ring of their own. A half on the fold is opened out. A
//!   piece `folded` with both its edges in one seam is one ply, a *flap*: its ring runs round from that
//!   seam to the fold and back.
//! - **Sides** ([`Side`]) are a face's edges in the order of its ring, which is the order in which the
//!   piece is drawn; **stretches** ([`Stretch`]) are what joints of seams, joints of closures and ends of
//!   caught edges cut them into.
//! - **Joins** ([`Join`]) glue stacks of two or more stretches. Within a stack all stretches are mapped onto
//!   one another in equal shares, so that ease, gathers and stretching are lengths and no matter of
//!   how things hang together. A placed piece's stitched edges are stacks of their own, on the inside of
//!   the face below.
//! - **Closures** ([`ClosureLine`]) glue nothing.
//! - **Vertices** are the ends of stretches that the joins bring together.
//! - **Twists** ([`Twist`]) are seams that cannot all be sewn right sides together.
//!
//! What is read from it: [`Gluing`] (one way to go on from stretch to stretch, with its
//! [`Sheet`]s and [`Rim`]s), and the [`Bag`]s that close a space off.
//!
//! Everything takes time in proportion to the number of stretches.

mod bags;
mod bands;
mod build;
mod closures;
mod components;
mod cuts;
mod faces;
mod fold_ends;
mod form;
mod gluing;
mod model;
mod on_paper;
mod placed;
mod plies;
mod rims;
mod sheets;
mod signs;
pub(crate) mod union;

pub use bags::{Bag, Enclosing, Shut};
pub use gluing::{Gluing, Partner};
pub use model::*;
pub use rims::{Rim, RimPart};
pub use sheets::Sheet;
pub(crate) use union::Union;

use super::ends::Corners;
use super::lengths::Lengths;
use super::model::{SewnPart, SewnSeam};
use super::stitching::Finder;
use crate::garment::{Garment, Seam, SeamId};
use crate::resolve::SizedGarment;
use crate::sewing::fates::may_share;
use build::Sewing;
use plies::Pairing;

/// The surface of one size. None where a part, a seam, a placement or a closure is not known, or an
/// edge has no fate or more than one: that has been reported.
pub(super) fn surface(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    corners: &mut Corners,
    parts: &[SewnPart],
    seams: &[SewnSeam],
    lengths: &mut Lengths,
) -> Option<Surface> {
    if !is_known(garment, finder, parts, seams) {
        return None;
    }
    let faces = faces::faces(garment, sized, parts, seams, lengths)?;
    let folds = fold_ends::Folds { garment, sized, parts };
    let sewn = Pairing::new(&faces, folds, seams).all(seams)?;
    let lying = placed::lying(garment, sized, finder, parts, &faces)?;
    let closings = closures::closings(garment, sized, finder, corners, &faces)?;
    let mut sewing = Sewing::new(garment, parts, faces, &lying);
    sewing.sew(seams, &sewn, &closings);
    sewing.place();
    sewing.close(&closings);
    let mut surface = sewing.finish(&closings);
    let (twists, turned) = signs::signs(garment, sized, parts, &surface);
    for (face, turned) in surface.faces.iter_mut().zip(turned) {
        face.turned = turned;
    }
    surface.twists = twists;
    Some(surface)
}

/// Whether all is known that is sewn, and every edge has its one fate.
fn is_known(garment: &Garment, finder: &Finder, parts: &[SewnPart], seams: &[SewnSeam]) -> bool {
    if garment.incomplete.sewing || garment.incomplete.layers {
        return false;
    }
    let mut is_sewn = vec![false; garment.seams.len()];
    seams.iter().for_each(|sewn| is_sewn[sewn.seam.index()] = true);
    let is_there = |(id, seam): (SeamId, &Seam)| {
        let by_itself = || seam.across_fold || garment.joined_away(seam).is_some();
        !seam.poisoned && (is_sewn[id.index()] || by_itself())
    };
    if !SeamId::enumerate(&garment.seams).all(is_there) {
        return false;
    }
    if seams.iter().any(|sewn| !sewn.known || sewn.unpaired.is_some() || sewn.unmet.is_some()) {
        return false;
    }
    let is_sound = |part: &SewnPart| {
        part.fused
            || part
                .edges
                .iter()
                .all(|fate| fate.folded_in || !fate.takers.is_empty() && may_share(garment, &fate.takers))
    };
    finder.is_whole() && parts.iter().all(is_sound)
}
