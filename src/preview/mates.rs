//! What an edge is sewn, closed or laid to.

use super::edges::{drawn_edge, keys, owners, placed_key};
use super::facing::{At, in_closure, in_seam, in_stitching};
use crate::cutting::{CutPart, Cutting, GuideKind, WorkedSize};
use crate::garment::{Catcher, ClosureId, Garment, SeamId};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, SewnSeam, Stitching, TakenBy, Taker};
use indexmap::IndexMap;

/// All edges of a size, by what takes them.
pub(super) struct Mates<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    cut: &'a Cutting,
    /// What each edge is called.
    names: IndexMap<At, String>,
    /// In every layer that it is sewn in.
    seams: IndexMap<SeamId, Vec<&'a Stitching>>,
    /// The same, those that are measured.
    measured: IndexMap<SeamId, Vec<&'a SewnSeam>>,
    /// What is caught in a seam.
    caught: IndexMap<SeamId, Vec<At>>,
    /// What a closure closes, and what is caught in it.
    closed: IndexMap<ClosureId, Vec<At>>,
}

impl<'a> Mates<'a> {
    /// Of a size.
    pub(super) fn new(garment: &'a Garment, size: &'a WorkedSize, cut: &'a Cutting) -> Self {
        let (mut names, mut seams, mut measured) = (IndexMap::new(), IndexMap::new(), IndexMap::new());
        let (mut caught, mut closed) = (IndexMap::new(), IndexMap::new());
        for part in &cut.parts {
            for (edge, key) in keys(garment, part) {
                let Some(at) = drawn_edge(size, part, edge) else { continue };
                for own in owners(size, part) {
                    names.insert((own, at), key.clone());
                }
            }
        }
        for stitching in &size.sewn.stitchings {
            seams.entry(stitching.seam).or_insert_with(Vec::new).push(stitching);
        }
        for seam in size.sewn.seams.iter().filter(|seam| is_measured(seam)) {
            measured.entry(seam.seam).or_insert_with(Vec::new).push(seam);
        }
        for (id, part) in PartId::enumerate(&size.sewn.parts) {
            for (at, fate) in DrawnEdgeId::enumerate(&part.edges) {
                for taker in &fate.takers {
                    let list: &mut Vec<At> = match taker.what {
                        TakenBy::Caught(_, Catcher::Seam(seam)) => caught.entry(seam).or_default(),
                        TakenBy::Closure(closure) | TakenBy::Caught(_, Catcher::Closure(closure)) => {
                            closed.entry(closure).or_default()
                        }
                        _ => continue,
                    };
                    list.push((id, at));
                }
            }
        }
        Mates { garment, size, cut, names, seams, measured, caught, closed }
    }

    /// What takes an edge, each with the names of its mates.
    pub(super) fn of_edge(&self, part: PartId, edge: DrawnEdgeId) -> Vec<(Taker, Vec<String>)> {
        let Some(fate) = self.size.sewn.parts.get(part.index()).and_then(|part| part.fate(edge)) else {
            return Vec::new();
        };
        fate.takers.iter().map(|taker| (*taker, self.of_taker((part, edge), taker))).collect()
    }

    fn of_taker(&self, own: At, taker: &Taker) -> Vec<String> {
        let places: Vec<At> = match taker.what {
            TakenBy::Seam(seam, _) => {
                let caught = self.caught.get(&seam).into_iter().flatten().copied();
                self.sewn_to(seam, own).into_iter().chain(caught).collect()
            }
            TakenBy::Caught(_, Catcher::Seam(seam)) => {
                let sewn = self.seams.get(&seam).into_iter().flatten();
                sewn.flat_map(|stitching| stitching.places()).map(|place| (place.part, place.edge)).collect()
            }
            TakenBy::Closure(closure) => self.closed_to(closure, own),
            TakenBy::Caught(_, Catcher::Closure(closure)) => self.all_closed(closure, own),
            TakenBy::Topstitched(placement) => {
                let Some(placed) = self.size.drawn.placed(placement) else { return Vec::new() };
                let title = &self.garment.piece(self.garment.placement(placement).piece).title;
                let is_there = |part: &&CutPart| {
                    part.part.paper == placed.on
                        && part.guides.iter().any(|one| one.kind == GuideKind::Placed && *one.name == **title)
                };
                let hosts = self.cut.parts.iter().filter(is_there);
                return hosts.map(|part| placed_key(self.garment, part, title)).collect();
            }
            TakenBy::Finish(_) | TakenBy::Fold | TakenBy::Strap(_) => Vec::new(),
        };
        let mut named: Vec<String> =
            places.into_iter().filter_map(|at| self.names.get(&at).cloned()).collect();
        let mut kept = std::collections::HashSet::new();
        named.retain(|name| kept.insert(name.clone()));
        named
    }

    fn sewn_to(&self, seam: SeamId, own: At) -> Vec<At> {
        let measured = self.measured.get(&seam).into_iter().flatten();
        let found: Vec<At> = measured.flat_map(|seam| in_seam(seam, own)).collect();
        if !found.is_empty() {
            return found;
        }
        let sewn = self.seams.get(&seam).into_iter().flatten();
        sewn.flat_map(|stitching| in_stitching(stitching, own)).collect()
    }

    fn closed_to(&self, closure: ClosureId, own: At) -> Vec<At> {
        let surface = self.size.sewn.surface.as_ref();
        let lines =
            surface.into_iter().flat_map(|surface| surface.closures.iter().map(move |line| (surface, line)));
        let own_lines = lines.filter(|(_, line)| line.closure == closure);
        let found: Vec<At> =
            own_lines.flat_map(|(surface, line)| in_closure(surface, &line.sides, own)).collect();
        if found.is_empty() { self.all_closed(closure, own) } else { found }
    }

    /// All that a closure closes but that edge itself; alone it is closed to its mirror image.
    fn all_closed(&self, closure: ClosureId, own: At) -> Vec<At> {
        let all: Vec<At> = self.closed.get(&closure).cloned().unwrap_or_default();
        let others: Vec<At> = all.iter().copied().filter(|at| *at != own).collect();
        if others.is_empty() { all } else { others }
    }
}

/// Whether the lengths of a seam mean something.
pub(super) fn is_measured(seam: &SewnSeam) -> bool {
    seam.known && seam.unpaired.is_none() && seam.uneven.is_none()
}
