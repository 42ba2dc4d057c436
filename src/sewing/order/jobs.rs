//! Everything that is to be done to make a garment, each thing once.

use crate::garment::{
    Chain, Closure, ClosureId, ClosureKind, CordId, EdgeId, Fasteners, FinishId, FinishKind, Garment,
    LayerId, PieceId, PlacementId, RingWay, RowId, Seam, SeamId, SewnEdge, StrapId, TackId,
};
use crate::id_hash::{IdIndexMap, IdIndexSet, IdMap};
use crate::resolve::SizedGarment;
use crate::sewing::surface::{JoinedBy, StretchId};
use crate::sewing::{Finder, Place, Sewing, Stitching};
use crate::syntax::tree::{Fastener, Hand};
use smallvec::SmallVec;

/// So much of a zip's edge, in millimetres, is held by the seam beside it.
const LEAST_BEYOND: f64 = 10.0;

/// Something that is done for good just once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Job {
    /// A seam in a layer, by its place among the stitchings.
    Seam(usize),
    /// The finish of one named edge in one layer: the finish, the edge in it, the layer.
    Finish(FinishId, usize, LayerId),
    /// A closure that no seam encloses, or of which seams enclose only a part.
    Closure(ClosureId),
    /// A zip that a seam encloses is put in its place, where that seam takes it in.
    PutIn(ClosureId),
    /// A placement in one layer.
    Place(PlacementId, LayerId),
    /// A dart or another take-up of a part: the layer, and its name on the piece.
    TakeUp(LayerId, EdgeId),
    /// A fused part.
    Fuse(LayerId, PieceId),
    /// A cord that is threaded.
    Cord(CordId),
    /// A row of topstitching or understitching.
    Row(RowId),
    /// A tack.
    Tack(TackId),
    /// A strap that is sewn on.
    Strap(StrapId),
    /// What is turned through the gap of a seam.
    Turn(SeamId),
    /// The gap of a seam that is closed by hand.
    Gap(SeamId),
}

/// Jobs that one step does, mostly one.
pub type Jobs = SmallVec<[Job; 2]>;

/// The work on one size.
pub struct Work<'a> {
    /// What is made.
    pub garment: &'a Garment,
    /// One size of it, drawn.
    pub sized: &'a SizedGarment,
    /// The same, put together.
    pub sewing: &'a Sewing,
    /// Finds the edges that names mean.
    pub finder: Finder<'a>,
    /// Which edges each seam takes.
    pub stitchings: &'a [Stitching],
    /// Every job, in the order in which the garment declares them.
    pub jobs: IdIndexSet<Job>,
    by_seam: IdMap<SeamId, SmallVec<[usize; 4]>>,
    finishes_by_edge: IdIndexMap<EdgeId, Jobs>,
    by_piece: IdMap<PieceId, Jobs>,
}

impl<'a> Work<'a> {
    /// Lists the jobs.
    pub fn new(garment: &'a Garment, sized: &'a SizedGarment, sewing: &'a Sewing) -> Self {
        let (finder, stitchings) = (sewing.finder(garment, sized), &sewing.stitchings);
        let mut work = Work {
            garment,
            sized,
            sewing,
            finder,
            stitchings,
            jobs: IdIndexSet::default(),
            by_seam: IdMap::default(),
            finishes_by_edge: IdIndexMap::default(),
            by_piece: IdMap::default(),
        };
        work.list_jobs();
        work
    }

    fn list_jobs(&mut self) {
        let garment = self.garment;
        for (at, stitching) in self.stitchings.iter().enumerate() {
            if stitching.places().next().is_some() {
                self.jobs.insert(Job::Seam(at));
                self.by_seam.entry(stitching.seam).or_default().push(at);
            }
        }
        for (id, finish) in FinishId::enumerate(&garment.finishes) {
            for (nth, sewn) in finish.edges.iter().enumerate() {
                for layer in self.finder.layers.meant(sewn.layer, sewn.piece) {
                    if self.finder.in_layer(layer, sewn).is_empty() {
                        continue;
                    }
                    let job = Job::Finish(id, nth, layer);
                    self.jobs.insert(job);
                    self.finishes_by_edge.entry(garment.whole_edge(sewn.edge)).or_default().push(job);
                }
            }
        }
        for (id, closure) in ClosureId::enumerate(&garment.closures) {
            if self.is_put_in(id) {
                self.jobs.insert(Job::PutIn(id));
            }
            if !self.is_enclosed(id) && closure.kind.is_some() {
                self.jobs.insert(Job::Closure(id));
            }
        }
        for (id, placement) in PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned) {
            for layer in self.finder.layers.meant(placement.layer, placement.piece) {
                self.jobs.insert(Job::Place(id, layer));
                self.by_piece.entry(placement.piece).or_default().push(Job::Place(id, layer));
            }
        }
        for part in self.finder.parts.iter().filter(|part| !garment.layer(part.layer).fused) {
            let take_ups = self.sized.paper(part.paper).map_or(&[][..], |drawn| &drawn.take_ups);
            for take_up in take_ups {
                self.jobs.insert(Job::TakeUp(part.layer, take_up.name));
            }
        }
        for (id, layer) in LayerId::enumerate(&garment.layers).filter(|(_, layer)| layer.fused) {
            for &piece in &layer.pieces {
                let job = Job::Fuse(id, piece);
                self.jobs.insert(job);
                self.by_piece.entry(piece).or_default().push(job);
            }
        }
        for (id, _) in CordId::enumerate(&garment.cords) {
            self.jobs.insert(Job::Cord(id));
        }
        self.jobs.extend(RowId::enumerate(&garment.rows).map(|(id, _)| Job::Row(id)));
        self.jobs.extend(TackId::enumerate(&garment.tacks).map(|(id, _)| Job::Tack(id)));
        for (id, strap) in StrapId::enumerate(&garment.straps).filter(|(_, strap)| !strap.poisoned) {
            self.jobs.insert(Job::Strap(id));
            self.by_piece.entry(strap.piece).or_default().push(Job::Strap(id));
        }
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            if !seam.gaps.is_empty() {
                self.jobs.insert(Job::Turn(id));
                self.jobs.insert(Job::Gap(id));
            }
        }
    }

    /// Whether the seams that enclose the closure finish it with their sewing: a zip, or ties on both sides. Buttons,
    /// the toggles of loops, ties on the side that no seam takes in, and a zip where it goes on beyond these seams, are sewn on
    /// afterwards.
    pub(super) fn is_enclosed(&self, closure: ClosureId) -> bool {
        match &self.garment.closure(closure).kind {
            Some(ClosureKind::Fasteners(row)) => {
                let closure_of = self.garment.closure(closure);
                let mut edges = closure_of.first.edges.iter().chain(&closure_of.second.edges);
                row.kind == Fastener::Tie
                    && !row.are_pieces()
                    && edges.all(|sewn| self.is_taken(closure, sewn))
            }
            Some(ClosureKind::Zipper { .. }) => {
                self.enclosing(closure).next().is_some() && !self.goes_on(closure)
            }
            None => self.enclosing(closure).next().is_some(),
        }
    }

    /// Whether a zip goes on beyond the seams that enclose it. The end of a band that is folded over the zip is sewn with them.
    pub(super) fn goes_on(&self, id: ClosureId) -> bool {
        let Some(surface) = self.sewing.surface.as_ref() else { return false };
        let is_zip = matches!(self.garment.closure(id).kind, Some(ClosureKind::Zipper { .. }));
        if !is_zip || self.enclosing(id).next().is_none() {
            return false;
        }
        let is_taken = |stretch: StretchId| {
            let join = surface.stretch(stretch).join.map(|join| surface.join(join).by);
            let is_held = matches!(join, Some(JoinedBy::Seam { seam, .. })
                if self.garment.seam(seam).enclosing.iter().any(|(own, _)| *own == id));
            is_held || surface.side_of(stretch).on_itself
        };
        surface.closures.iter().filter(|line| line.closure == id).any(|line| {
            let sides = line.sides.iter();
            let mut open = sides.map(|side| {
                let own = side.iter().filter(|(stretch, _)| !is_taken(*stretch));
                own.map(|(stretch, _)| surface.length(*stretch)).sum::<f64>()
            });
            open.any(|open| open > LEAST_BEYOND)
        })
    }

    /// Whether something of the closure has its ends in the seams that enclose it: a zip's tapes, ties, the loops of toggles. It
    /// is put in its place, basted, before these.
    fn is_put_in(&self, id: ClosureId) -> bool {
        let closure = self.garment.closure(id);
        match &closure.kind {
            Some(ClosureKind::Zipper { .. }) => self.enclosing(id).next().is_some(),
            Some(ClosureKind::Fasteners(row)) => {
                let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
                match row.kind {
                    Fastener::Toggle => {
                        loops_of(closure, row).edges.iter().any(|sewn| self.is_taken(id, sewn))
                    }
                    Fastener::Tie => !row.are_pieces() && edges.any(|sewn| self.is_taken(id, sewn)),
                    _ => false,
                }
            }
            None => false,
        }
    }

    /// Of both sides of a closure whether a seam that encloses it takes them in.
    pub fn taken_sides(&self, id: ClosureId) -> [bool; 2] {
        let closure = self.garment.closure(id);
        [&closure.first, &closure.second].map(|side| side.edges.iter().any(|sewn| self.is_taken(id, sewn)))
    }

    /// Whether an edge of a closure lies in a seam that encloses it.
    fn is_taken(&self, id: ClosureId, sewn: &SewnEdge) -> bool {
        self.holds(id, sewn.edge)
    }

    /// Whether a seam that encloses a closure takes that edge.
    pub fn holds(&self, id: ClosureId, edge: EdgeId) -> bool {
        let chains = self.enclosing(id).flat_map(|seam| seam.first.iter().chain(&seam.second));
        let whole = |edge: EdgeId| self.garment.whole_edge(edge);
        chains.flat_map(|chain| &chain.edges).any(|own| whole(own.edge) == whole(edge))
    }

    /// Whether a seam that encloses a closure is among the jobs that are done.
    pub(super) fn is_shut_in(&self, id: ClosureId, is_done: impl Fn(Job) -> bool) -> bool {
        let enclosing = SeamId::enumerate(&self.garment.seams)
            .filter(|(_, seam)| seam.enclosing.iter().any(|(own, _)| *own == id));
        enclosing.flat_map(|(seam, _)| self.of_seam(seam)).any(|&at| is_done(Job::Seam(at)))
    }

    fn enclosing(&self, closure: ClosureId) -> impl Iterator<Item = &'a Seam> {
        let garment = self.garment;
        garment.seams.iter().filter(move |seam| seam.enclosing.iter().any(|(own, _)| *own == closure))
    }

    /// The jobs of a seam; in that layer, if one is named.
    pub fn seam_jobs(&self, id: SeamId, layer: Option<LayerId>) -> Jobs {
        let is_meant = |&&at: &&usize| layer.is_none_or(|layer| self.is_in_layer(at, layer));
        self.of_seam(id).iter().filter(is_meant).map(|&at| Job::Seam(at)).collect()
    }

    /// How many joints a seam has that joins pieces in a ring, each to the next; none of any other.
    pub fn joints_of(&self, stitching: usize) -> u32 {
        let Some(stitching) = self.stitchings.get(stitching) else { return 0 };
        let ring = self.garment.seam(stitching.seam).ring();
        if ring.is_none_or(|ring| ring.way != RingWay::EachToTheNext) {
            return 0;
        }
        stitching.places().next().map_or(0, |place| self.finder.times(place.part))
    }

    /// Whether a stitching lies, at least on one side, in the layer.
    fn is_in_layer(&self, stitching: usize, layer: LayerId) -> bool {
        let Some(stitching) = self.stitchings.get(stitching) else { return false };
        match stitching.layer {
            Some(own) => own == layer,
            None => stitching.places().any(|place| self.layer_of(place) == layer),
        }
    }

    /// The layer of a place.
    pub fn layer_of(&self, place: &Place) -> LayerId {
        self.finder.part(place.part).layer
    }

    pub(super) fn finish_jobs(&self, edge: EdgeId, layer: Option<LayerId>) -> Jobs {
        let garment = self.garment;
        let same = |of: EdgeId| of == edge || garment.is_run_of(of, edge) || garment.is_run_of(edge, of);
        let found = match self.finishes_by_edge.get(&edge) {
            Some(jobs) => jobs.clone(),
            None => {
                let others = self.finishes_by_edge.iter().filter(|(of, _)| same(**of));
                let mut jobs: Jobs = others.flat_map(|(_, jobs)| jobs.iter().copied()).collect();
                jobs.sort_by_key(|job| self.jobs.get_index_of(job));
                jobs
            }
        };
        let is_meant = |job: &Job| match job {
            Job::Finish(_, _, own) => layer.is_none_or(|layer| layer == *own),
            _ => false,
        };
        found.into_iter().filter(is_meant).collect()
    }

    /// The take-up of that name, also on what its piece was split or joined into.
    pub fn take_up_jobs(&self, name: EdgeId, layer: Option<LayerId>) -> Jobs {
        let is_meant = |job: &&Job| match job {
            Job::TakeUp(own, run) => {
                self.garment.is_run_of(*run, name) && layer.is_none_or(|layer| layer == *own)
            }
            _ => false,
        };
        self.jobs.iter().filter(is_meant).copied().collect()
    }

    pub(super) fn piece_jobs(
        &self,
        piece: PieceId,
        layer: Option<LayerId>,
        kind: impl Fn(&Job) -> bool,
    ) -> Jobs {
        let all = self.by_piece.get(&piece).map_or(&[][..], |jobs| jobs);
        let is_meant = |job: &&Job| match job {
            Job::Place(_, own) | Job::Fuse(own, _) => layer.is_none_or(|layer| layer == *own),
            Job::Strap(id) => layer.is_none() || layer == self.garment.strap(*id).layer,
            _ => false,
        };
        all.iter().filter(|job| kind(job)).filter(is_meant).copied().collect()
    }

    /// The jobs of a seam, one for each layer that it is sewn in.
    pub fn of_seam(&self, id: SeamId) -> &[usize] {
        self.by_seam.get(&id).map_or(&[][..], |all| all)
    }

    /// Whether a job leaves something to do: nothing is done to an edge that is left raw.
    pub fn is_done(&self, job: Job) -> bool {
        match job {
            Job::Finish(id, ..) => !matches!(self.garment.finish(id).kind, FinishKind::Raw),
            _ => true,
        }
    }
}

/// The side of toggles on which their loops are: the one that lies over, or the second where that is not said.
fn loops_of<'g>(closure: &'g Closure, row: &Fasteners) -> &'g Chain {
    let lies_on = |chain: &Chain, hand: Hand| {
        !chain.edges.is_empty() && chain.edges.iter().all(|sewn| sewn.on == Some(hand))
    };
    let is_first_over =
        row.over.is_some_and(|over| lies_on(&closure.first, over) || lies_on(&closure.second, over.other()));
    if is_first_over { &closure.first } else { &closure.second }
}
