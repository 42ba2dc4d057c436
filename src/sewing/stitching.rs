//! Which edges of which parts every seam takes, before a single length is compared.

use super::copies::{is_told_apart, times};
use super::model::PartId;
use super::reach::Reach;
use crate::few::Few;
use crate::garment::SewnLayers;
use crate::garment::{
    Chain, ClosureId, CutHow, EdgeId, FinishKind, Garment, LayerId, Part, PieceId, PortionPlace, SeamId,
    SewnEdge, User,
};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::source::Span;
use crate::syntax::tree::Hand;

/// An edge of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The part.
    pub part: PartId,
    /// The edge.
    pub edge: DrawnEdgeId,
    /// Where it is named.
    pub span: Span,
    /// It lies in another ply of the side; here it only shows where a ply lies that is no longer than a part
    /// of that.
    pub elsewhere: bool,
}

/// A seam in one layer, or once across layers that it names.
#[derive(Clone, Debug)]
pub struct Stitching {
    /// The seam.
    pub seam: SeamId,
    /// The layer in which its unqualified names are meant; none where it names the layers of all.
    pub layer: Option<LayerId>,
    /// Before and after `to`: plies, each of edges end to end.
    pub sides: [Few<Few<Place>>; 2],
    /// The same with the runs between them that something else takes; none where nothing does.
    pub through: Option<Box<[Few<Few<Place>>; 2]>>,
    /// Of a seam that goes round over parts whose left and right are told apart: the right ones.
    pub right: Option<[Few<Few<Place>>; 2]>,
    /// The same of those, with the runs between them that something else takes.
    pub right_through: Option<Box<[Few<Few<Place>>; 2]>>,
    /// The parts of which several plies of a side each take another copy.
    pub in_plies: Few<PartId>,
    /// Which copies it takes.
    pub reach: Reach,
    /// Whether every edge that the seam names was found. One whose piece could not be drawn is reported
    /// there, and what is left of its ply is not to be compared.
    pub whole: bool,
}

impl Stitching {
    /// All plies of both sides.
    pub fn plies(&self) -> impl Iterator<Item = &Few<Place>> {
        self.sides.iter().flatten()
    }

    /// All edges of all plies.
    pub fn places(&self) -> impl Iterator<Item = &Place> {
        let right = self.right.iter().flatten().flatten().flatten();
        self.plies().flatten().chain(right).filter(|place| !place.elsewhere)
    }
}

/// The parts of one size, and by what they are found.
///
/// What is looked up for every name of every seam lies side by side here, not in the pieces, which are
/// large and lie apart.
#[derive(Clone, Debug, Default)]
pub struct PartIndex {
    layers: SewnLayers,
    parts: Vec<Part>,
    /// Of each part the side of the body that it is, where left and right are told apart: two parts, the
    /// left one first.
    hands: Vec<Option<Hand>>,
    /// Whether of any part they are.
    pub(super) has_sides: bool,
    /// What one-sided seams, closures and finishes take, in order.
    claims: Vec<(PartId, DrawnEdgeId, User)>,
    /// Whether all parts could be drawn.
    whole: bool,
    /// The parts of each piece, one piece's after another's.
    of_pieces: Vec<PartId>,
    /// Where in that list those of each piece end.
    ends: Vec<u32>,
    /// The edges of all parts, one part's after another's.
    edges: Vec<IndexedEdge>,
    /// Where in that list those of each part end.
    edge_ends: Vec<u32>,
}

/// An edge of a part.
#[derive(Clone, Copy, Debug)]
struct IndexedEdge {
    edge: EdgeId,
    /// It has been parted or taken over from another edge, whose name means it too.
    has_ancestor: bool,
    /// A run of another edge, whose name does not mean it any more: in this part something takes it by itself.
    taken_out: bool,
}

impl PartIndex {
    /// Of a garment in one size.
    pub fn new(garment: &Garment, sized: &SizedGarment) -> Self {
        let all = garment.parts();
        let whole = all.iter().all(|part| sized.paper(part.paper).is_some());
        let (mut parts, mut hands) = (Vec::with_capacity(all.len()), Vec::with_capacity(all.len()));
        for part in all {
            let Some(drawn) = sized.paper(part.paper) else { continue };
            if is_told_apart(garment, &part, drawn) {
                parts.extend([part, part]);
                hands.extend(Hand::BOTH.map(Some));
            } else {
                parts.push(part);
                hands.push(garment.side_of(part.piece).filter(|_| !garment.layer(part.layer).fused));
            }
        }
        let mut ends: Vec<u32> = vec![0; garment.pieces.len()];
        for part in &parts {
            ends[part.piece.index()] += 1;
        }
        let mut sum = 0;
        for end in &mut ends {
            (*end, sum) = (sum, sum + *end);
        }
        // Each piece's parts go where those before it end, which moves its own end on.
        let mut of_pieces: Vec<PartId> = vec![PartId::FIRST; parts.len()];
        for (id, part) in PartId::enumerate(&parts) {
            let end = &mut ends[part.piece.index()];
            of_pieces[*end as usize] = id;
            *end += 1;
        }
        let mut edges = Vec::with_capacity(6 * parts.len());
        let mut edge_ends = Vec::with_capacity(parts.len());
        for part in &parts {
            for drawn in sized.paper(part.paper).iter().flat_map(|drawn| &drawn.edges) {
                let known = garment.edge(drawn.edge);
                let has_ancestor = known.part_of.is_some() || known.same_run_as.is_some();
                edges.push(IndexedEdge { edge: drawn.edge, has_ancestor, taken_out: false });
            }
            edge_ends.push(edges.len() as u32);
        }
        let layers = SewnLayers::new(garment);
        let (claims, has_sides) = (Vec::new(), hands.iter().any(Option::is_some));
        let mut index =
            PartIndex { layers, parts, hands, has_sides, claims, whole, of_pieces, ends, edges, edge_ends };
        if !garment.portions.is_empty() {
            index.take_out(garment, sized);
        }
        index
    }

    /// The same with what is claimed for one side of the body, in order.
    pub(super) fn with_claims(self, claims: Vec<(PartId, DrawnEdgeId, User)>) -> PartIndex {
        PartIndex { claims, ..self }
    }

    /// Marks the runs that a seam, a closure or a finish takes by themselves.
    fn take_out(&mut self, garment: &Garment, sized: &SizedGarment) {
        let finder = Finder::new(garment, sized, self);
        let mut taken: Vec<Place> = Vec::new();
        let is_portion = |sewn: &&SewnEdge| garment.is_portion(sewn.edge);
        let mut each = |layers: &[Option<LayerId>], chains: &mut dyn Iterator<Item = &Chain>| {
            for sewn in chains.flat_map(|chain| &chain.edges).filter(is_portion) {
                for layer in layers.iter().filter_map(|&layer| sewn.layer.or(layer)) {
                    finder.each_in_layer(layer, sewn, &mut |place| taken.push(place));
                }
            }
        };
        for seam in &garment.seams {
            each(&finder.layers.of_seam(seam), &mut seam.first.iter().chain(&seam.second));
        }
        for closure in &garment.closures {
            let chains = [&closure.first, &closure.second];
            each(&finder.layers.of_chains(&chains), &mut chains.into_iter());
        }
        for sewn in garment.finishes.iter().flat_map(|finish| &finish.edges).filter(is_portion) {
            finder.each_everywhere(sewn, &mut |place| taken.push(place));
        }
        for place in taken {
            let first = range(&self.edge_ends, place.part.index()).start;
            if let Some(edge) = self.edges.get_mut(first + place.edge.index()) {
                edge.taken_out = true;
            }
        }
    }

    /// The id of a part.
    pub fn of(&self, part: Part) -> Option<PartId> {
        self.find(part.layer, part.piece).filter(|id| self.parts[id.index()].paper == part.paper)
    }

    /// The part that a layer has of a piece; the left one where left and right are told apart.
    fn find(&self, layer: LayerId, piece: PieceId) -> Option<PartId> {
        self.all(layer, piece).next()
    }

    /// The part, or the left and the right one, that a layer has of a piece.
    fn all(&self, layer: LayerId, piece: PieceId) -> impl Iterator<Item = PartId> {
        let of_piece = self.of_pieces.get(range(&self.ends, piece.index())).unwrap_or_default();
        of_piece.iter().copied().filter(move |id| self.parts[id.index()].layer == layer)
    }

    /// The side of the body that a part is, where left and right are told apart.
    pub fn hand(&self, part: PartId) -> Option<Hand> {
        self.hands.get(part.index()).copied().flatten()
    }

    /// The same part of the other side of the body, where left and right are told apart.
    pub fn twin(&self, part: PartId) -> Option<PartId> {
        let twin = match self.hand(part)? {
            Hand::Left => PartId::from_index(part.index() + 1),
            Hand::Right => PartId::from_index(part.index().checked_sub(1)?),
        };
        // A left and a right piece are parts of their own.
        (self.parts.get(twin.index()) == self.parts.get(part.index())).then_some(twin)
    }

    /// Whether something one-sided takes that edge, so that this cannot.
    fn is_claimed(&self, garment: &Garment, part: PartId, edge: DrawnEdgeId, user: User) -> bool {
        let from = self.claims.partition_point(|claim| (claim.0, claim.1) < (part, edge));
        let own = self.claims.iter().skip(from).take_while(|claim| (claim.0, claim.1) == (part, edge));
        own.into_iter().any(|&(.., by)| by != user && !lie_together(garment, by, user))
    }

    /// How many edges a part has, and how many all parts before it.
    fn edges_of(&self, part: PartId) -> &[IndexedEdge] {
        self.edges.get(range(&self.edge_ends, part.index())).unwrap_or_default()
    }
}

/// Whether two may take one edge: a seam and a closure that it encloses, a seam and a casing.
fn lie_together(garment: &Garment, one: User, other: User) -> bool {
    match (one, other) {
        (User::Seam(seam), User::Closure(closure)) | (User::Closure(closure), User::Seam(seam)) => {
            garment.seam(seam).enclosing.iter().any(|(id, _)| *id == closure)
        }
        (User::Seam(_), User::Finish(finish)) | (User::Finish(finish), User::Seam(_)) => {
            matches!(garment.finish(finish).kind, FinishKind::Casing(..))
        }
        _ => false,
    }
}

/// From where the one before ends to the own end.
fn range(ends: &[u32], at: usize) -> std::ops::Range<usize> {
    let end = |at: usize| ends.get(at).map_or(0, |end| *end as usize);
    at.checked_sub(1).map_or(0, end)..end(at)
}

/// Finds the parts' edges that names mean.
#[derive(Clone, Copy)]
pub struct Finder<'a> {
    pub(super) garment: &'a Garment,
    sized: &'a SizedGarment,
    index: &'a PartIndex,
    /// Which layer has which piece.
    pub layers: &'a SewnLayers,
    /// The parts that could be drawn.
    pub parts: &'a [Part],
}

impl<'a> Finder<'a> {
    /// Of a garment in one size, and that size's index.
    pub fn new(garment: &'a Garment, sized: &'a SizedGarment, index: &'a PartIndex) -> Self {
        Finder { garment, sized, index, layers: &index.layers, parts: &index.parts }
    }

    /// The part of that id.
    pub fn part(&self, id: PartId) -> Part {
        self.parts[id.index()]
    }

    /// What that part's paper looks like.
    pub fn drawn(&self, id: PartId) -> Option<&'a DrawnPiece> {
        self.sized.paper(self.part(id).paper)
    }

    /// Whether of any part left and right are told apart.
    pub fn has_sides(&self) -> bool {
        self.index.has_sides
    }

    /// The side of the body that a part is, where left and right are told apart.
    pub fn hand(&self, id: PartId) -> Option<Hand> {
        self.index.hand(id)
    }

    /// Which cloth of the garment a part is.
    pub fn cloth(&self, id: PartId) -> PortionPlace {
        PortionPlace { layer: Some(self.part(id).layer), hand: self.hand(id) }
    }

    /// The same part of the other side of the body, where left and right are told apart.
    pub fn twin(&self, id: PartId) -> Option<PartId> {
        self.index.twin(id)
    }

    /// How many times an edge of the part is there: each half on the fold is one.
    pub fn times(&self, id: PartId) -> u32 {
        let all = self.drawn(id).map_or(0, times);
        if self.twin(id).is_some() { all / 2 } else { all }
    }

    /// How many edges of the garment that edge is: of a half on the fold what runs on across it is one with its mirror image.
    pub fn edges(&self, place: &Place) -> u32 {
        let all = self.times(place.part);
        let runs_on = self.drawn(place.part).is_some_and(|drawn| {
            let CutHow::OnFold(fold) = drawn.cut else { return false };
            let beside = [drawn.before(place.edge), drawn.after(place.edge)];
            let is_fold = |edge: DrawnEdgeId| {
                drawn.edge_at(edge).is_some_and(|own| self.garment.is_run_of(own.edge, fold))
            };
            beside.into_iter().any(is_fold)
        });
        if runs_on { all.div_ceil(2) } else { all }
    }

    /// Whether every part that is cut could be drawn.
    pub fn is_whole(&self) -> bool {
        self.index.whole
    }

    /// The runs that an edge's name means in a layer.
    pub fn in_layer(&self, layer: LayerId, sewn: &SewnEdge) -> Vec<Place> {
        let mut places = Vec::new();
        self.each_in_layer(layer, sewn, &mut |place| places.push(place));
        places
    }

    /// The same; none where the layer has no such edge.
    pub(super) fn named_in(&self, layer: LayerId, sewn: &SewnEdge) -> Option<Vec<Place>> {
        let mut places = Vec::new();
        self.each_in_layer(layer, sewn, &mut |place| places.push(place)).then_some(places)
    }

    /// Those among them that nothing else takes by themselves; whether there are any, taken or not.
    pub(super) fn each_in_layer(&self, layer: LayerId, sewn: &SewnEdge, take: &mut dyn FnMut(Place)) -> bool {
        let is_whole = !self.garment.is_portion(sewn.edge);
        self.each_through(layer, sewn, &mut |place| {
            let is_gone = is_whole && self.is_taken_out(&place) || self.is_claimed(sewn, &place);
            if !is_gone {
                take(place);
            }
        })
    }

    /// Whether something takes that run of an edge by itself.
    fn is_taken_out(&self, place: &Place) -> bool {
        self.index.edges_of(place.part).get(place.edge.index()).is_some_and(|edge| edge.taken_out)
    }

    /// Whether something one-sided takes that edge of a part whose left and right are told apart.
    fn is_claimed(&self, sewn: &SewnEdge, place: &Place) -> bool {
        match (sewn.on, sewn.user) {
            // A piece that is named itself is that side's.
            _ if self.garment.side_of(sewn.piece).is_some() => false,
            // What closes left on right needs both.
            (None, Some(User::Closure(closure))) if self.is_closed_on_its_twin(closure, sewn) => false,
            (None, Some(user)) if self.hand(place.part).is_some() => {
                self.index.is_claimed(self.garment, place.part, place.edge, user)
            }
            _ => false,
        }
    }

    /// Whether a closure has an edge on both of its sides, unsided.
    fn is_closed_on_its_twin(&self, closure: ClosureId, sewn: &SewnEdge) -> bool {
        let closure = self.garment.closure(closure);
        [&closure.first, &closure.second].iter().all(|side| {
            let mut same = side.edges.iter().filter(|own| own.edge == sewn.edge && own.layer == sewn.layer);
            same.any(|own| own.on.is_none())
        })
    }

    /// The runs that an edge's name means in a layer, those too that something takes by themselves.
    pub fn through(&self, layer: LayerId, sewn: &SewnEdge) -> Vec<Place> {
        let mut places = Vec::new();
        self.each_through(layer, sewn, &mut |place| places.push(place));
        places
    }

    fn each_through(&self, layer: LayerId, sewn: &SewnEdge, take: &mut dyn FnMut(Place)) -> bool {
        let mut is_there = false;
        let mut offer = |part: PartId, edge: DrawnEdgeId| {
            is_there = true;
            let hand = self.hand(part);
            if sewn.on.is_none_or(|on| hand.is_none_or(|own| own == on)) {
                take(Place { part, edge, span: sewn.span, elsewhere: false });
            }
        };
        if self.index.find(layer, sewn.piece).is_none() {
            // The piece was split or joined, or is not cut from this layer.
            self.sized.each_run(self.garment, Some(layer), sewn.edge, &mut |run| {
                let parts = self.index.all(layer, self.garment.paper(run.paper).piece);
                let parts = parts.filter(|id| self.part(*id).paper == run.paper);
                parts.for_each(|part| offer(part, run.edge));
            });
            return is_there;
        }
        for part in self.index.all(layer, sewn.piece) {
            for (edge, known) in DrawnEdgeId::enumerate(self.index.edges_of(part)) {
                let is_named = known.edge == sewn.edge
                    || known.has_ancestor && self.garment.is_run_of(known.edge, sewn.edge);
                if is_named {
                    offer(part, edge);
                }
            }
        }
        is_there
    }

    /// The runs that an edge's name means in all the layers that it may be meant in.
    pub fn everywhere(&self, sewn: &SewnEdge) -> Vec<Place> {
        let mut places = Vec::new();
        self.each_everywhere(sewn, &mut |place| places.push(place));
        places
    }

    /// The same, one after the other.
    pub(super) fn each_everywhere(&self, sewn: &SewnEdge, take: &mut dyn FnMut(Place)) {
        for layer in self.layers.each_meant(sewn.layer, sewn.piece) {
            self.each_in_layer(layer, sewn, take);
        }
    }
}
