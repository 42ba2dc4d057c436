use crate::garment::{ClosureId, FinishId, LayerId, PlacementId, SeamId};
use crate::id::index_id;
use crate::resolve::DrawnEdgeId;
use crate::sewing::model::PartId;
use crate::syntax::tree::Hand;
use smallvec::SmallVec;

index_id!(
    /// A face, by its place in [`Surface::faces`].
    FaceId
);
index_id!(
    /// A side of a face, by its place in [`Surface::sides`].
    SideId
);
index_id!(
    /// A stretch, by its place in [`Surface::stretches`].
    StretchId
);
index_id!(
    /// A join, by its place in [`Surface::joins`].
    JoinId
);

/// A garment in one size as one sewn surface: faces that are glued along stretches of their
/// outlines. All lengths are finished ones, in millimetres.
///
/// Every list stands in an order that hangs on the garment's text alone. The sides of a face, and
/// the stretches of a side, lie next to one another in their lists, in the order of the face's ring.
#[derive(Clone, Debug, Default)]
pub struct Surface {
    /// Every copy of every sewn part.
    pub faces: Vec<Face>,
    /// The edges of all faces, face by face, round each as it is drawn.
    pub sides: Vec<Side>,
    /// What the sides are cut into, side by side.
    pub stretches: Vec<Stretch>,
    /// What is sewn, stack by stack.
    pub joins: Vec<Join>,
    /// Closures, once for every time that there is one. They glue nothing: a garment is made, and put
    /// on, with its closures open.
    pub closures: Vec<ClosureLine>,
    /// Placed pieces, once for every copy.
    pub placings: Vec<Placing>,
    /// How many vertices there are.
    pub vertices: usize,
    /// Where the faces cannot all lie right side out.
    pub twists: Vec<Twist>,
    /// The stretches round each slit inside a face, first and how many: rings of their own behind its outline.
    pub(super) holes: Vec<(u32, u32)>,
}

/// A copy of a part, spread out: a disc, with a hole for each slit inside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Its part; the left one of a whole whose halves are told apart.
    pub part: PartId,
    /// Its part, or of one that is told apart the left one for both: what a left and a right face of one drawing have in
    /// common.
    pub pair: PartId,
    /// Which copy of the part it is; of a pair, which copy of its hand.
    pub copy: u32,
    /// The side of the body that it is worn on; none of what is cut alike or lies across the middle.
    pub hand: Option<Hand>,
    /// The part's layer.
    pub layer: LayerId,
    /// Folded with both edges in one seam: one ply, from that seam to the fold. The other edge is left
    /// out of its ring and the fold is a side in its place.
    pub flap: bool,
    /// It lies the other way up than the first face of what it hangs together with, as both are drawn:
    /// of a pair the one or the other copy.
    pub turned: bool,
    /// Its first side, and how many it has.
    pub(super) sides: (u32, u32),
    /// Its first stretch, and how many it has.
    pub(super) stretches: (u32, u32),
}

/// One edge of a face, or the fold of a flap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// The face.
    pub face: FaceId,
    /// The part whose edge it is: the face's, but of a half that is told apart that half's.
    pub part: PartId,
    /// The edge; of a fold an edge that is folded over.
    pub edge: DrawnEdgeId,
    /// The fold of a flap: no edge of the piece.
    pub fold: bool,
    /// It lies on the half beyond the fold that the piece is cut on. The ring then goes along it
    /// against its drawing.
    pub mirrored: bool,
    /// Which slit inside the piece it is a side of, from 1; 0 of a side of the outline.
    pub hole: u16,
    /// It runs from one edge of a fold of its piece to the other: once that is folded, it lies on itself.
    pub on_itself: bool,
    /// Of such a side: the seam that sews it to itself across the fold, by machine.
    pub across: Option<SeamId>,
    /// Its finished length.
    pub length: f64,
    pub(super) stretches: (u32, u32),
}

/// A piece of a side between two cuts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The side.
    pub side: SideId,
    /// The face that it bounds.
    pub face: FaceId,
    /// How far from the side's start it begins, along the ring.
    pub from: f64,
    /// How far from the side's start it ends.
    pub to: f64,
    /// The vertex where it begins, along the ring.
    pub start: u32,
    /// The vertex where it ends.
    pub end: u32,
    /// What it is joined in; none of a free one.
    pub join: Option<JoinId>,
    /// The finish that it has.
    pub finish: Option<FinishId>,
}

/// Stretches sewn together: a stack of two or more.
#[derive(Clone, Debug, PartialEq)]
pub struct Join {
    /// What sews it.
    pub by: JoinedBy,
    /// What lies in it: the first side's plies, the second side's, then what is caught in it.
    pub plies: SmallVec<[JoinedPly; 2]>,
    /// Left open as the seam is sewn, and closed by hand once it is turned.
    pub gap: bool,
}

/// What joins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JoinedBy {
    /// A seam.
    Seam {
        /// The seam.
        seam: SeamId,
        /// Its place in [`crate::sewing::Sewing::seams`].
        sewn: usize,
        /// Which of the times that it is sewn, from 0.
        sewing: u32,
        /// Which stretch of that, from the seam's start.
        cell: u32,
    },
    /// A placing, by its place in [`Surface::placings`]: stitched down on the inside of a face.
    Placing(usize),
}

/// A stretch in a stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JoinedPly {
    /// The stretch.
    pub stretch: StretchId,
    /// It lies against the way that the seam goes.
    pub against: bool,
    /// Which of the places in the seam: a side and a ply of it, or caught.
    pub at: PlyAt,
}

/// Where a ply lies in a stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PlyAt {
    /// Before `to`: which ply.
    First(u32),
    /// After `to`: which ply.
    Second(u32),
    /// Caught by a placement.
    Caught,
}

/// A closure, as often as there is one.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosureLine {
    /// The closure.
    pub closure: ClosureId,
    /// Which of the times that it is there, from 0.
    pub time: u32,
    /// Nothing else becomes of its edges: those of a zip, or those that buttons or snaps lie on.
    pub takes_edges: bool,
    /// Both sides, each from its start: stretches, and whether the line goes against them. Empty
    /// where the closure's line runs inside a piece.
    pub sides: [Vec<(StretchId, bool)>; 2],
    /// The faces on both sides.
    pub faces: [Vec<FaceId>; 2],
    /// The lengths of both sides.
    pub lengths: [f64; 2],
}

/// A placed piece, as often as there is one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placing {
    /// The placement.
    pub placement: PlacementId,
    /// What is placed.
    pub placed: FaceId,
    /// What it lies on.
    pub host: FaceId,
    /// Every side of it is stitched down or caught, so that it closes off what lies under it.
    pub shut: bool,
}

impl Surface {
    /// The face of that id.
    pub fn face(&self, id: FaceId) -> &Face {
        &self.faces[id.index()]
    }

    /// The side of that id.
    pub fn side(&self, id: SideId) -> &Side {
        &self.sides[id.index()]
    }

    /// The stretch of that id.
    pub fn stretch(&self, id: StretchId) -> &Stretch {
        &self.stretches[id.index()]
    }

    /// The join of that id.
    pub fn join(&self, id: JoinId) -> &Join {
        &self.joins[id.index()]
    }

    /// The side that a stretch is a piece of.
    pub fn side_of(&self, id: StretchId) -> &Side {
        self.side(self.stretch(id).side)
    }

    /// The face that a stretch bounds.
    pub fn face_of(&self, id: StretchId) -> FaceId {
        self.stretch(id).face
    }

    /// Every face.
    pub fn face_ids(&self) -> impl Iterator<Item = FaceId> + use<> {
        (0..self.faces.len()).map(FaceId::from_index)
    }

    /// The faces of a part, which lie next to one another: faces stand in the order of the parts.
    pub fn faces_of(&self, part: PartId) -> impl Iterator<Item = FaceId> + use<> {
        let from = self.faces.partition_point(|face| face.part < part);
        let to = self.faces.partition_point(|face| face.part <= part);
        (from..to).map(FaceId::from_index)
    }

    /// The faces of a part and of its twin, likewise, by the left one.
    pub fn faces_of_pair(&self, pair: PartId) -> impl Iterator<Item = FaceId> + use<> {
        let from = self.faces.partition_point(|face| face.pair < pair);
        let to = self.faces.partition_point(|face| face.pair <= pair);
        (from..to).map(FaceId::from_index)
    }

    /// Every stretch.
    pub fn stretch_ids(&self) -> impl Iterator<Item = StretchId> + use<> {
        (0..self.stretches.len()).map(StretchId::from_index)
    }

    /// The sides of a face, in the order of its ring.
    pub fn sides_of(&self, face: FaceId) -> impl Iterator<Item = SideId> + use<> {
        let (first, count) = self.face(face).sides;
        (first..first + count).map(SideId)
    }

    /// The stretches of a face, in the order of its ring.
    pub fn stretches_of(&self, face: FaceId) -> impl Iterator<Item = StretchId> + use<> {
        let (first, count) = self.face(face).stretches;
        (first..first + count).map(StretchId)
    }

    /// The stretches of a side, in the order of its face's ring.
    pub fn stretches_on(&self, side: SideId) -> impl Iterator<Item = StretchId> + use<> {
        let (first, count) = self.side(side).stretches;
        (first..first + count).map(StretchId)
    }

    /// The stretch after one, round its face.
    pub fn next(&self, id: StretchId) -> StretchId {
        let (first, count) = self.ring(id);
        StretchId(first + (id.0 - first + 1) % count.max(1))
    }

    /// The ring that a stretch lies in, its first one and how many there are: the outline of its face, or the
    /// sides of a slit inside it.
    fn ring(&self, id: StretchId) -> (u32, u32) {
        let (first, count) = self.face(self.face_of(id)).stretches;
        if self.holes.is_empty() {
            return (first, count);
        }
        let after = self.holes.partition_point(|hole| hole.0 <= id.0);
        if let Some(&hole) = after.checked_sub(1).and_then(|own| self.holes.get(own))
            && id.0 < hole.0 + hole.1
        {
            return hole;
        }
        let end = self.holes.get(after).map_or(first + count, |hole| hole.0.min(first + count));
        (first, end - first)
    }

    /// How many slits lie inside a face.
    pub(super) fn holes_of(&self, face: FaceId) -> usize {
        let (first, count) = self.face(face).stretches;
        let before = |end: u32| self.holes.partition_point(|hole| hole.0 < end);
        before(first + count) - before(first)
    }

    /// The stretch before one, round its face.
    pub fn before(&self, id: StretchId) -> StretchId {
        let (first, count) = self.ring(id);
        StretchId(first + (id.0 - first + count.max(1) - 1) % count.max(1))
    }

    /// The corner where a stretch begins or ends, along its ring: the place of the stretch that begins
    /// there.
    pub(crate) fn corner(&self, id: StretchId, at_end: bool) -> usize {
        if at_end { self.next(id).index() } else { id.index() }
    }

    /// How long a stretch is.
    pub fn length(&self, id: StretchId) -> f64 {
        let stretch = self.stretch(id);
        stretch.to - stretch.from
    }
}

/// Faces that cannot all lie right side out: a loop of ties, each between one face and the next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Twist {
    /// What ties the faces to one another; the first is the one that was found to contradict the rest.
    pub ties: Vec<Tie>,
}

/// What says of two faces how they lie to one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tie {
    /// A seam joins them.
    Join(JoinId),
    /// They are the left and the right copy of one piece that is not its own mirror image.
    Pair(FaceId, FaceId),
    /// Both are cut as they are drawn, or turned over for a second layer.
    AsDrawn(FaceId, FaceId),
}
