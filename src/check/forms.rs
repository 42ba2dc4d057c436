//! Sizes that hang together alike.

use crate::cutting::WorkedSize;
use crate::garment::{Part, SeamId};
use crate::sewing::Reach;
use crate::syntax::tree::Hand;

/// Of each size the first that is put together as it is, but for lengths: itself, where none before it is. A size of which
/// not all is known stands alone.
pub(super) fn first_alike(sizes: &[WorkedSize]) -> Vec<usize> {
    let mut firsts: Vec<usize> = Vec::new();
    let found = sizes.iter().enumerate().map(|(at, size)| {
        let is_like = |first: &&usize| sizes.get(**first).is_some_and(|first| is_alike(first, size));
        firsts.iter().find(is_like).copied().unwrap_or_else(|| {
            firsts.push(at);
            at
        })
    });
    found.collect()
}

fn is_alike(one: &WorkedSize, other: &WorkedSize) -> bool {
    let (Some(surface), Some(other_surface)) = (&one.sewn.surface, &other.sewn.surface) else { return false };
    surface.is_formed_like(other_surface) && parts(one).eq(parts(other)) && seams(one).eq(seams(other))
}

fn parts(size: &WorkedSize) -> impl Iterator<Item = (Part, Option<Hand>, usize)> {
    size.sewn.parts.iter().map(|part| (part.part, part.hand, part.edges.len()))
}

fn seams(size: &WorkedSize) -> impl Iterator<Item = (SeamId, Reach, bool, bool)> {
    size.sewn.seams.iter().map(|sewn| (sewn.seam, sewn.reach, sewn.ring, sewn.known))
}
