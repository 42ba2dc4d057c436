//! How far two places are apart over the cloth, from piece to piece over the seams between them.
//!
//! The way leads straight over each piece, and over a seam where one of its stretches begins, ends or has its middle: it is no
//! shorter than the shortest one, but for pieces with hollows, and hardly longer.

use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, LayerId, StrapEnd};
use crate::resolve::DrawnPiece;
use crate::sewing::strap_place;
use crate::sewing::surface::{FaceId, JoinId, SideId, StretchId, Surface};
use crate::shape::Point;
use crate::shape::fold::mirror_across;
use crate::syntax::tree::Hand;
use indexmap::IndexMap;
use std::collections::BTreeSet;

/// A place at which ways may meet.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Node {
    /// Where stretches begin and end.
    Vertex(u32),
    /// The middle of stretches that are sewn together.
    Middle(JoinId),
}

/// The shortest way to a place that is known so far: how long it is, over which face it came, and from which place.
struct Reached {
    far: f64,
    over: FaceId,
    from: Option<usize>,
}

/// Places that were reached, and of those that are to be gone on from how far they are and which they are: no distance is
/// negative, so that its bits are in its order.
#[derive(Default)]
struct Search {
    reached: IndexMap<Node, Reached>,
    open: BTreeSet<(u64, usize)>,
}

/// The shortest way between two places.
pub(super) struct Way {
    /// How long it is, in millimetres.
    pub(super) length: f64,
    /// All that it leads over lies flat side by side: each piece hangs on the next by one edge, and by nothing else.
    pub(super) is_flat: bool,
    /// Places on the faces at its ends.
    pub(super) ends: [Vec<(FaceId, Point)>; 2],
}

/// The ways over one surface.
pub(super) struct OverCloth<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    /// Of each face where it meets others.
    meeting: IndexMap<FaceId, Vec<(Node, Point)>>,
    /// The same by where they meet.
    faces_at: IndexMap<Node, Vec<(FaceId, Point)>>,
}

impl<'a> OverCloth<'a> {
    pub(super) fn new(garment: &'a Garment, size: &'a WorkedSize, surface: &'a Surface) -> Self {
        let mut over =
            OverCloth { garment, size, surface, meeting: IndexMap::new(), faces_at: IndexMap::new() };
        for face in surface.face_ids() {
            let sides = surface.sides_of(face).filter(|&side| !surface.side(side).fold);
            let places: Vec<(Node, Point)> = sides.flat_map(|side| over.places_on(side)).collect();
            for &(node, at) in &places {
                over.faces_at.entry(node).or_default().push((face, at));
            }
            over.meeting.insert(face, places);
        }
        over
    }

    /// Where one may come to or leave an edge, on its face laid out flat: a half on the fold opened.
    fn places_on(&self, id: SideId) -> Vec<(Node, Point)> {
        let side = self.surface.side(id);
        if side.length <= 0.0 || self.size.drawn.paper(self.size.sewn.part(side.part).part.paper).is_none() {
            return Vec::new();
        }
        let mut found = Vec::new();
        for stretch in self.surface.stretches_on(id).map(|id| self.surface.stretch(id)) {
            found.push((Node::Vertex(stretch.start), stretch.from));
            found.push((Node::Vertex(stretch.end), stretch.to));
            found.extend(
                stretch.join.map(|join| (Node::Middle(join), f64::midpoint(stretch.from, stretch.to))),
            );
        }
        found.into_iter().filter_map(|(node, along)| Some((node, self.place(id, along)?))).collect()
    }

    /// A place so far along a side, as the ring goes.
    fn place(&self, id: SideId, along: f64) -> Option<Point> {
        let side = self.surface.side(id);
        let drawn = self.size.drawn.paper(self.size.sewn.part(side.part).part.paper)?;
        let path = &drawn.edge_at(side.edge)?.path;
        let share = if side.mirrored { 1.0 - along / side.length } else { along / side.length };
        let at = path.point_at_length(share * path.length());
        match side.mirrored {
            true => beyond_fold(drawn, at),
            false => Some(at),
        }
    }

    /// Where an end of a strap may lie.
    fn ends(&self, end: &StrapEnd) -> Vec<(FaceId, Point)> {
        match strap_place(self.garment, &self.size.drawn, end.point) {
            Some((host, at)) => self.on_copies(host, at, (end.hand, end.layer)),
            None => Vec::new(),
        }
    }

    /// A place of a paper, on every copy that is cut from it, on that side of the body and in that layer.
    pub(super) fn on_copies(
        &self,
        host: &DrawnPiece,
        at: Point,
        (hand, layer): (Option<Hand>, Option<LayerId>),
    ) -> Vec<(FaceId, Point)> {
        let mut found = Vec::new();
        for face in self.surface.face_ids() {
            let own = self.surface.face(face);
            let part = self.size.sewn.part(own.part).part;
            let is_host = self.size.drawn.paper(part.paper).is_some_and(|paper| std::ptr::eq(paper, host));
            let is_there = hand.is_none_or(|hand| own.hand.is_none_or(|own| own == hand))
                && layer.is_none_or(|layer| layer == own.layer);
            if is_host && is_there {
                found.push((face, at));
                found.extend(beyond_fold(host, at).map(|at| (face, at)));
            }
        }
        found
    }

    /// The shortest way from one end of a strap to the other.
    pub(super) fn way(&self, from: &StrapEnd, to: &StrapEnd) -> Option<Way> {
        self.between([self.ends(from), self.ends(to)])
    }

    /// The shortest way between places on faces, place by place (Dijkstra 1959), of which the nearest two count.
    pub(super) fn between(&self, ends: [Vec<(FaceId, Point)>; 2]) -> Option<Way> {
        let mut search = Search::default();
        for &(face, at) in &ends[0] {
            self.step(&mut search, face, at, 0.0, None);
        }
        let mut best: Option<(f64, usize, FaceId)> = None;
        while let Some((bits, index)) = search.open.pop_first() {
            let far = f64::from_bits(bits);
            if best.is_some_and(|(known, ..)| known <= far) {
                break;
            }
            let Some((&node, _)) = search.reached.get_index(index) else { continue };
            for &(face, at) in self.faces_at.get(&node).into_iter().flatten() {
                for (_, end) in ends[1].iter().filter(|(own, _)| *own == face) {
                    let length = far + at.distance(*end);
                    if best.is_none_or(|(known, ..)| length < known) {
                        best = Some((length, index, face));
                    }
                }
                self.step(&mut search, face, at, far, Some(index));
            }
        }
        let (length, last, face) = best?;
        let faces = search.faces(last, face);
        let is_flat =
            faces.windows(2).all(|two| matches!(two, [one, other] if self.hangs_by_one_edge(*one, *other)));
        Some(Way { length, is_flat, ends })
    }

    /// To all places where one leaves a face.
    fn step(&self, search: &mut Search, face: FaceId, from: Point, far: f64, before: Option<usize>) {
        for &(node, at) in self.meeting.get(&face).into_iter().flatten() {
            search.reach(node, Reached { far: far + from.distance(at), over: face, from: before });
        }
    }

    /// Whether two faces are joined along one edge of each, and hang together by nothing else.
    fn hangs_by_one_edge(&self, one: FaceId, other: FaceId) -> bool {
        let surface = self.surface;
        let partners = |stretch: StretchId| {
            let join = surface.stretch(stretch).join.map(|join| surface.join(join));
            let plies = join.into_iter().flat_map(|join| &join.plies).map(|ply| ply.stretch);
            plies.filter(move |other| *other != stretch)
        };
        let mut sides = BTreeSet::new();
        for stretch in surface.stretches_of(one) {
            for beside in partners(stretch).filter(|&beside| surface.face_of(beside) == other) {
                sides.insert((surface.stretch(stretch).side, surface.stretch(beside).side));
            }
        }
        if sides.len() != 1 {
            return false;
        }
        let (mut seen, mut next) = (BTreeSet::from([one]), vec![one]);
        while let Some(face) = next.pop() {
            for beside in surface.stretches_of(face).flat_map(partners).map(|beside| surface.face_of(beside))
            {
                let is_that_seam = face == one && beside == other;
                if !is_that_seam && seen.insert(beside) {
                    next.push(beside);
                }
            }
        }
        !seen.contains(&other)
    }

    /// How far a place is from the nearest place of a side.
    pub(super) fn away_from(&self, id: SideId, at: Point) -> f64 {
        let side = self.surface.side(id);
        let drawn = self.size.drawn.paper(self.size.sewn.part(side.part).part.paper);
        let at = match (side.mirrored, drawn) {
            (true, Some(drawn)) => beyond_fold(drawn, at),
            (_, drawn) => drawn.map(|_| at),
        };
        let edge = drawn.and_then(|drawn| drawn.edge_at(side.edge));
        at.zip(edge).map_or(f64::INFINITY, |(at, edge)| edge.path.nearest(at).distance)
    }
}

/// The same place on the other half of what is cut on the fold.
pub(super) fn beyond_fold(drawn: &DrawnPiece, at: Point) -> Option<Point> {
    let CutHow::OnFold(fold) = drawn.cut else { return None };
    Some(mirror_across(&drawn.edge(fold)?.path).ok()? * at)
}

impl Search {
    fn reach(&mut self, node: Node, by: Reached) {
        let far = by.far;
        let index = match self.reached.get_full_mut(&node) {
            Some((_, _, known)) if known.far <= far => return,
            Some((index, _, known)) => {
                self.open.remove(&(known.far.to_bits(), index));
                *known = by;
                index
            }
            None => self.reached.insert_full(node, by).0,
        };
        self.open.insert((far.to_bits(), index));
    }

    /// The faces that the way to a place and on to a face leads over, the last one first: it is asked of neighbours alone.
    fn faces(&self, to: usize, last: FaceId) -> Vec<FaceId> {
        let mut all = vec![last];
        let mut next = Some(to);
        while let Some((_, reached)) = next.and_then(|index| self.reached.get_index(index)) {
            if all.last() != Some(&reached.over) {
                all.push(reached.over);
            }
            next = reached.from;
        }
        all
    }
}
