//! Which way up the faces lie to one another, and where that cannot be so.
//!
//! In a seam of two plies the pieces lie right sides together, so that the rings of both faces run
//! along it in opposite ways once both are seen from their right sides; so do those plies of a stack that are of one
//! layer. A pair's left and right copies
//! are mirror images, unless their piece is its own; what is cut as it is drawn lies as it is drawn. All
//! of this together is one system of equations of two values, solved by a union-find with parity.

use super::faces::drawn;
use super::model::{Face, FaceId, Join, JoinId, JoinedBy, JoinedPly, PlyAt, Surface, Tie, Twist};
use super::union::Signed;
use crate::garment::{CutHow, Garment, Part};
use crate::id_hash::IdSet;
use crate::resolve::{SizedGarment, is_symmetrical};
use crate::sewing::model::{PartId, SewnPart};
use crate::shape::outline::is_anticlockwise;
use crate::syntax::tree::Hand;
use smallvec::{SmallVec, smallvec};
use std::collections::VecDeque;

/// So many contradictions are looked into; a maker mends them one after the other.
const MOST_TWISTS: usize = 24;

/// A tie between two faces, and whether they lie opposite ways up by it, as they are drawn.
struct Tied {
    faces: [usize; 2],
    tie: Tie,
    opposite: bool,
}

/// Every contradiction, each as the shortest loop of ties; and of every face whether it lies the other
/// way up, as it is drawn, than the first face that it hangs together with.
pub(super) fn signs(
    garment: &Garment,
    sized: &SizedGarment,
    parts: &[SewnPart],
    surface: &Surface,
) -> (Vec<Twist>, Vec<bool>) {
    let mut solving =
        Solving { signs: Signed::new(surface.faces.len()), ties: Vec::new(), broken: Vec::new() };
    for (at, join) in surface.joins.iter().enumerate() {
        if matches!(join.by, JoinedBy::Placing(_)) {
            continue;
        }
        for [one, other] in right_sides_together(surface, join) {
            let faces = [one, other].map(|ply| surface.face_of(ply.stretch).index());
            let tie = Tie::Join(JoinId::from_index(at));
            solving.tie(Tied { faces, tie, opposite: one.against == other.against });
        }
    }
    let flipped = sized.cut_list.iter().filter(|row| row.flipped).map(|row| row.part).collect();
    let seen = Drawn { garment, sized, parts, flipped };
    solving.pairs(surface, &seen);
    solving.as_drawn(surface, &seen);
    let twists = solving.loops(surface.faces.len());
    let mut first: Vec<Option<bool>> = vec![None; surface.faces.len()];
    let turned = (0..surface.faces.len()).map(|face| {
        let (root, flip) = solving.signs.root(face);
        flip != *first[root].get_or_insert(flip)
    });
    let turned = turned.collect();
    (twists, turned)
}

/// Both plies of a seam of two. In a stack of more, a yoke of two layers with the front between them, those of one
/// layer, if each side has just one of that layer: the others lie there turned over or not. What is folded with both its
/// edges in a stack is right side out on both its faces and may lie either way up, but the same way in all its seams.
fn right_sides_together<'a>(surface: &Surface, join: &'a Join) -> SmallVec<[[&'a JoinedPly; 2]; 2]> {
    let sewn: SmallVec<[&JoinedPly; 4]> = join.plies.iter().filter(|ply| ply.at != PlyAt::Caught).collect();
    if let [one, other] = sewn.as_slice() {
        return smallvec![[*one, *other]];
    }
    let layer = |ply: &JoinedPly| surface.face(surface.face_of(ply.stretch)).layer;
    let is_first = |ply: &JoinedPly| matches!(ply.at, PlyAt::First(_));
    let alone = |ply: &JoinedPly| {
        let mut beside = sewn.iter().filter(|other| is_first(other) == is_first(ply));
        beside.by_ref().filter(|other| layer(other) == layer(ply)).count() == 1
    };
    let firsts = sewn.iter().filter(|ply| is_first(ply) && alone(ply));
    let pairs = firsts.filter_map(|one| {
        let mut others = sewn.iter().filter(|other| !is_first(other) && alone(other));
        Some([*one, *others.find(|other| layer(other) == layer(one))?])
    });
    pairs.collect()
}

/// Pieces as they are drawn.
struct Drawn<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    parts: &'a [SewnPart],
    /// The parts that are cut turned over.
    flipped: IdSet<Part>,
}

impl Drawn<'_> {
    fn is_symmetrical(&self, part: PartId) -> bool {
        let drawn = self.parts.get(part.index()).and_then(|part| drawn(self.sized, part));
        drawn.is_none_or(is_symmetrical)
    }

    /// Whether a part that is cut alike lies anticlockwise as it is cut; none of other parts.
    fn lies(&self, part: PartId) -> Option<bool> {
        let sewn = self.parts.get(part.index())?;
        let drawn = drawn(self.sized, sewn)?;
        if drawn.cut != CutHow::Alike {
            return None;
        }
        let is_left = is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path));
        Some(is_left != self.flipped.contains(&sewn.part))
    }

    fn is_fused(&self, part: PartId) -> bool {
        self.parts.get(part.index()).is_none_or(|part| self.garment.layer(part.part.layer).fused)
    }
}

/// The left and the right face of every pair.
fn pairs_of(surface: &Surface, parts: &[SewnPart]) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    let told_apart = |part: PartId| {
        let pair = parts.get(part.index()).zip(parts.get(part.index() + 1));
        pair.is_some_and(|(one, other)| one.hand.is_some() && one.part == other.part)
    };
    for (at, left) in surface.faces.iter().enumerate().filter(|(_, face)| face.hand == Some(Hand::Left)) {
        let right = |other: &Face| {
            other.hand == Some(Hand::Right)
                && other.copy == left.copy
                && other.part.index() == left.part.index() + usize::from(told_apart(left.part))
        };
        let beyond = surface.faces.iter().enumerate().skip(at + 1);
        let near = beyond.take_while(|(_, other)| other.part.index() <= left.part.index() + 1);
        pairs.extend(near.into_iter().find(|(_, other)| right(other)).map(|(other, _)| (at, other)));
    }
    pairs
}

struct Solving {
    signs: Signed,
    ties: Vec<Tied>,
    broken: Vec<Tied>,
}

impl Solving {
    fn tie(&mut self, tied: Tied) {
        let [one, other] = tied.faces;
        match self.signs.join(one, other, tied.opposite) {
            true => self.ties.push(tied),
            false => self.broken.push(tied),
        }
    }

    /// Left and right copies are mirror images.
    fn pairs(&mut self, surface: &Surface, seen: &Drawn) {
        for (at, other) in pairs_of(surface, seen.parts) {
            let Some(left) = surface.faces.get(at) else { continue };
            let agrees = self.signs.opposite(at, other);
            if agrees == Some(true) || (agrees == Some(false) && seen.is_symmetrical(left.part)) {
                continue;
            }
            let tie = Tie::Pair(FaceId::from_index(at), FaceId::from_index(other));
            self.tie(Tied { faces: [at, other], tie, opposite: true });
        }
    }

    /// Of what hangs together, all that is cut alike lies as it is cut, unless its piece is its own
    /// mirror image. Pieces cut several times are reported by `pair/same`.
    fn as_drawn(&mut self, surface: &Surface, seen: &Drawn) {
        let mut first: Vec<Option<(usize, bool)>> = vec![None; surface.faces.len()];
        let mut doubtful: IdSet<usize> = IdSet::default();
        let mut found: Vec<(usize, usize, bool)> = Vec::new();
        for (at, face) in surface.faces.iter().enumerate().filter(|(_, face)| face.hand.is_none()) {
            if seen.is_fused(face.part) || face.flap {
                continue;
            }
            let Some(lies) = seen.lies(face.part) else { continue };
            let (root, flip) = self.signs.root(at);
            let way = lies != flip;
            found.push((at, root, way));
            let known = *first[root].get_or_insert((at, way));
            if known.1 != way {
                doubtful.insert(root);
            }
        }
        let mut members: Vec<[Option<usize>; 2]> = vec![[None; 2]; surface.faces.len()];
        for (at, root, way) in found.into_iter().filter(|(_, root, _)| doubtful.contains(root)) {
            let [one, other] = members[root];
            if (if way { one } else { other }).is_none() && !seen.is_symmetrical(surface.faces[at].part) {
                members[root][usize::from(!way)] = Some(at);
            }
        }
        for [one, other] in members {
            if let (Some(one), Some(other)) = (one, other) {
                let tie = Tie::AsDrawn(FaceId::from_index(one), FaceId::from_index(other));
                let opposite = self.signs.opposite(one, other).is_some_and(|opposite| !opposite);
                self.tie(Tied { faces: [one, other], tie, opposite });
            }
        }
    }

    /// The shortest loop of every contradiction.
    fn loops(&self, faces: usize) -> Vec<Twist> {
        if self.broken.is_empty() {
            return Vec::new();
        }
        let mut of_face: Vec<Vec<usize>> = vec![Vec::new(); faces];
        for (at, tied) in self.ties.iter().enumerate() {
            for face in tied.faces {
                of_face[face].push(at);
            }
        }
        let broken = self.broken.iter().take(MOST_TWISTS);
        broken.map(|tied| Twist { ties: self.around(tied, &of_face) }).collect()
    }

    /// A tie, and the shortest way back by others, breadth first.
    fn around(&self, tied: &Tied, of_face: &[Vec<usize>]) -> Vec<Tie> {
        let [start, goal] = tied.faces;
        let mut came: Vec<Option<usize>> = vec![None; of_face.len()];
        let mut open = VecDeque::from([start]);
        while let Some(face) = open.pop_front() {
            if face == goal {
                break;
            }
            for &at in &of_face[face] {
                let [one, other] = self.ties[at].faces;
                let next = if one == face { other } else { one };
                if next != start && came[next].is_none() {
                    came[next] = Some(at);
                    open.push_back(next);
                }
            }
        }
        let mut ties = vec![tied.tie];
        let mut at = goal;
        while let Some(tie) = came[at] {
            ties.push(self.ties[tie].tie);
            let [one, other] = self.ties[tie].faces;
            at = if one == at { other } else { one };
            if at == start {
                break;
            }
        }
        ties
    }
}
