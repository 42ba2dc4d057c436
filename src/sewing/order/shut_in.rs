//! What is caught in a bag: a flap or a collar between the two plies of a bag lies inside it until that is turned.

use super::schedule::When;
use super::timetable::Timetable;
use crate::garment::{Garment, SeamId};
use crate::id_hash::{IdIndexMap, IdIndexSet};
use crate::sewing::Sewing;
use crate::sewing::surface::{Bag, FaceId, JoinedBy, Surface, Union};

/// The plies of one stack.
type Plies = Vec<FaceId>;

/// A seam that is sewn where nobody reaches. Seams are named by their places in [`Sewing::seams`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShutIn {
    /// The seam.
    pub seam: usize,
    /// When it is sewn.
    pub when: When,
    /// The seam that shuts in what it joins.
    pub closing: usize,
    /// When that is turned.
    pub turned: When,
}

/// Seams of pieces that hang on a closed bag only between its plies, sewn after it is closed and before it is
/// turned.
pub fn shut_in(
    garment: &Garment,
    sewing: &Sewing,
    surface: &Surface,
    timetable: &Timetable,
    bags: &[Bag],
) -> Vec<ShutIn> {
    let mut found = Vec::new();
    let mut stacks: Option<IdIndexMap<usize, Vec<Plies>>> = None;
    for bag in bags {
        let Some(turned) = turned_after(garment, surface, timetable, bag) else { continue };
        let is_between = |at: &usize| {
            timetable.seam(*at).filter(|when| bag.closed < when.at && when.at < turned.at).is_some()
        };
        let between: Vec<usize> = (0..sewing.seams.len()).filter(is_between).collect();
        if between.is_empty() {
            continue;
        }
        let stacks = stacks.get_or_insert_with(|| by_seam(surface));
        let closes = |at: &usize| timetable.seam(*at).is_some_and(|when| when.at == bag.closed);
        let Some(closing) = (0..sewing.seams.len()).find(closes) else { continue };
        for seam in between {
            let Some(when) = timetable.seam(seam) else { continue };
            if is_inside(surface, timetable, stacks, bag, seam, when.at) {
                found.push(ShutIn { seam, when, closing, turned });
            }
        }
    }
    found
}

/// When a bag is turned for the last time through a gap of its own, if that is after it is closed.
pub(super) fn turned_after(
    garment: &Garment,
    surface: &Surface,
    timetable: &Timetable,
    bag: &Bag,
) -> Option<When> {
    let mut gaps: Vec<SeamId> = Vec::new();
    for stretch in bag.faces.iter().flat_map(|&face| surface.stretches_of(face)) {
        let join = surface.stretch(stretch).join.map(|join| surface.join(join)).filter(|join| join.gap);
        if let Some(JoinedBy::Seam { seam, .. }) = join.map(|join| join.by)
            && !gaps.contains(&seam)
        {
            gaps.push(seam);
        }
    }
    gaps.retain(|&seam| !garment.seam(seam).gaps.is_empty());
    if gaps.is_empty() {
        return None;
    }
    timetable.turned_last(&gaps).filter(|turned| turned.at > bag.closed)
}

/// The stacks of each sewn seam.
fn by_seam(surface: &Surface) -> IdIndexMap<usize, Vec<Plies>> {
    let mut found: IdIndexMap<usize, Vec<Plies>> = IdIndexMap::default();
    for join in &surface.joins {
        if let JoinedBy::Seam { sewn, .. } = join.by {
            let plies = join.plies.iter().map(|ply| surface.face_of(ply.stretch)).collect();
            found.entry(sewn).or_default().push(plies);
        }
    }
    found
}

/// Whether all that a seam joins hangs together, without what it joins, on the bag alone, and there between
/// two of its plies.
fn is_inside(
    surface: &Surface,
    timetable: &Timetable,
    stacks: &IdIndexMap<usize, Vec<Plies>>,
    bag: &Bag,
    at: usize,
    until: usize,
) -> bool {
    let is_own = |face: &FaceId| bag.faces.binary_search(face).is_ok();
    let Some(own) = stacks.get(&at) else { return false };
    let joined: IdIndexSet<FaceId> = own.iter().flatten().copied().collect();
    if joined.iter().any(is_own) {
        return false;
    }
    let is_sewn = |at: &usize| timetable.seam(*at).is_some_and(|when| when.at < until);
    let before = || stacks.iter().filter(|(at, _)| is_sewn(at)).flat_map(|(_, stacks)| stacks);
    let mut together = Union::new(surface.faces.len());
    for stack in before() {
        let mut others = stack.iter().filter(|face| !is_own(face));
        if let Some(first) = others.next() {
            others.for_each(|face| {
                together.join(first.index(), face.index());
            });
        }
    }
    let roots: IdIndexSet<usize> = joined.iter().map(|face| together.root(face.index())).collect();
    let mut hanging: IdIndexSet<usize> = IdIndexSet::default();
    for stack in before() {
        let plies = stack.iter().filter(|face| is_own(face)).count();
        for face in stack.iter().filter(|face| !is_own(face)) {
            let root = together.root(face.index());
            if plies == 1 && roots.contains(&root) {
                return false;
            }
            if plies > 1 {
                hanging.insert(root);
            }
        }
    }
    roots.iter().all(|root| hanging.contains(root))
}
