//! Rings of lines inside pieces: a waist that no edge lies at, from seam to seam round the body.

use super::model::{Holder, LineBreak, PassedRing, RingLine};
use super::ways::Ways;
use crate::garment::{CutHow, EdgeId, Garment, LayerId};
use crate::id_hash::IdSet;
use crate::resolve::{DrawnEdgeId, DrawnLine, DrawnPiece, SizedGarment, finished_line, taken};
use crate::sewing::give::give_along;
use crate::sewing::model::{PartId, SewnPart};
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, SideId, StretchId, Surface};
use crate::shape::Point;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;

/// A line ends at an edge that is no further from it, in millimetres.
pub(super) const AT_EDGE: f64 = 1.0;
/// Lines run on in one another over a seam in a step of so much at most, in millimetres.
const STEP: f64 = 10.0;
/// Buttons close what ends so near their row, in millimetres: a stand, the width of a wrap.
pub(super) const BESIDE_ROW: f64 = 100.0;

/// Lines as rings, and where they are none.
#[derive(Debug, Default)]
pub(super) struct LineRings {
    pub(super) rings: Vec<PassedRing>,
    pub(super) breaks: Vec<LineBreak>,
}

/// A line on one half of one face.
struct Segment<'a> {
    face: FaceId,
    mirrored: bool,
    part: PartId,
    line: &'a DrawnLine,
    /// Where it starts and where it ends.
    spots: [Vec<Spot>; 2],
}

/// Where a line's end lies on the surface.
#[derive(Clone, Copy, Debug)]
enum Spot {
    /// On the fold of its piece.
    Fold,
    Vertex(u32),
    /// In a seam: which share of the way along it, and how long the stretch is there.
    Seam(JoinId, f64, f64),
    /// On a side of a closure, so far from its start.
    Closure(usize, usize, f64),
    /// Beside the row of buttons of a closure's side, so far from it.
    Row(usize, usize, f64),
}

/// How one line goes on in the next.
#[derive(Clone, Copy)]
enum Crossing {
    Sewn,
    /// Over a closure, which side of it first, so far along both sides.
    Closure(usize, usize, [f64; 2]),
    /// Over a row of buttons, on both sides so much lies beyond it.
    Row(usize, f64),
}

/// A line in a layer, on one side of the body or on both.
pub type NamedLine = (LayerId, EdgeId, Option<Hand>);

/// A segment and an end of it.
type End = (usize, usize);

/// In which ends a segment's start and end go on.
type Next = [Option<(End, Crossing)>; 2];

/// What lines are looked for in.
pub(super) struct Lines<'a> {
    pub(super) garment: &'a Garment,
    pub(super) sized: &'a SizedGarment,
    pub(super) parts: &'a [SewnPart],
    pub(super) ways: &'a Ways<'a>,
}

impl<'a> Lines<'a> {
    /// The rings that lines make in their layers.
    pub(super) fn rings(&self, named: &[NamedLine]) -> LineRings {
        let segments = self.segments(named);
        let mut next: Vec<Next> = vec![[None, None]; segments.len()];
        for over_closures in [false, true] {
            self.link(&segments, over_closures, &mut next);
        }
        let mut found = LineRings::default();
        for (segment, next) in segments.iter().zip(&next) {
            for end in [0, 1] {
                if next[end].is_none() {
                    let broken = self.broken(segment, end);
                    if !found.breaks.contains(&broken) {
                        found.breaks.push(broken);
                    }
                }
            }
        }
        if !found.breaks.is_empty() {
            return found;
        }
        let mut seen = vec![false; segments.len()];
        for first in 0..segments.len() {
            if !seen[first] {
                found.rings.push(self.ring(&segments, &next, first, &mut seen));
            }
        }
        found
    }

    /// Whether two lines run on in one another over a seam; none where one of them ends at no edge.
    pub(super) fn run_on(&self, one: NamedLine, other: NamedLine) -> Option<bool> {
        let segments = self.segments(&[one, other]);
        let of = |named: NamedLine| -> Vec<usize> {
            let is = |at: &usize| self.garment.is_run_of(segments[*at].line.edge, named.1);
            (0..segments.len()).filter(is).collect()
        };
        let (ours, theirs) = (of(one), of(other));
        let ends_at_edges =
            |all: &[usize]| all.iter().any(|&at| segments[at].spots.iter().any(|spots| !spots.is_empty()));
        if !ends_at_edges(&ours) || !ends_at_edges(&theirs) {
            return None;
        }
        let ends = |all: &[usize]| -> Vec<End> { all.iter().flat_map(|&at| [(at, 0), (at, 1)]).collect() };
        let their_ends = ends(&theirs);
        let meets = |own: &End| {
            their_ends.iter().any(|far| own.0 != far.0 && crossing(&segments, *own, *far, false).is_some())
        };
        Some(ends(&ours).iter().any(meets))
    }

    fn surface(&self) -> &'a Surface {
        self.ways.surface
    }

    fn segments(&self, named: &[NamedLine]) -> Vec<Segment<'a>> {
        let surface = self.surface();
        let mut found = Vec::new();
        for face in surface.face_ids() {
            let mut halves: Vec<(PartId, bool)> = Vec::new();
            for side in surface.sides_of(face).map(|side| surface.side(side)) {
                if !halves.contains(&(side.part, side.mirrored)) {
                    halves.push((side.part, side.mirrored));
                }
            }
            for (part, mirrored) in halves {
                let Some(sewn) = self.parts.get(part.index()) else { continue };
                let Some(drawn) = self.sized.paper(sewn.part.paper) else { continue };
                let hand = self.hand(face, part, mirrored, drawn);
                let is_named = |line: &DrawnLine| {
                    named.iter().any(|&(layer, edge, on)| {
                        let is_there = on.is_none() || hand.is_none() || on == hand;
                        layer == sewn.part.layer && is_there && self.garment.is_run_of(line.edge, edge)
                    })
                };
                for line in drawn.lines.iter().filter(|line| is_named(line)) {
                    let ends = [line.path.start(), line.path.end()];
                    let spots = ends.map(|at| self.spots(face, part, mirrored, drawn, at));
                    found.push(Segment { face, mirrored, part, line, spots });
                }
            }
        }
        found
    }

    fn hand(&self, face: FaceId, part: PartId, mirrored: bool, drawn: &DrawnPiece) -> Option<Hand> {
        let told = self.parts.get(part.index()).and_then(|sewn| sewn.hand);
        told.or(match drawn.cut {
            CutHow::OnFold(_) => Some(if mirrored { Hand::Right } else { Hand::Left }),
            CutHow::Alike | CutHow::Mirrored => self.surface().face(face).hand,
        })
    }

    /// Everything that lies where a line of a face ends.
    fn spots(
        &self,
        face: FaceId,
        part: PartId,
        mirrored: bool,
        drawn: &'a DrawnPiece,
        at: Point,
    ) -> Vec<Spot> {
        let surface = self.surface();
        let mut found = Vec::new();
        for (id, edge) in DrawnEdgeId::enumerate(&drawn.edges) {
            let nearest = edge.path.nearest(at);
            if nearest.distance > AT_EDGE {
                continue;
            }
            if drawn.cut == CutHow::OnFold(edge.edge) {
                found.push(Spot::Fold);
                continue;
            }
            let Some(along) = taken(self.garment, drawn, id).map(|taken| taken.as_sewn(nearest.at)) else {
                continue;
            };
            let is_meant = |side: &SideId| {
                let side = surface.side(*side);
                (side.edge, side.part, side.mirrored, side.fold) == (id, part, mirrored, false)
            };
            for side in surface.sides_of(face).filter(is_meant) {
                // The ring goes along the mirrored half against its drawing.
                let along = if mirrored { surface.side(side).length - along } else { along };
                surface.stretches_on(side).for_each(|stretch| self.on_stretch(stretch, along, &mut found));
            }
        }
        for (at_line, line) in surface.closures.iter().enumerate() {
            if line.sides.iter().any(|side| !side.is_empty()) {
                continue;
            }
            let closure = self.garment.closure(line.closure);
            for (side, chain) in [&closure.first, &closure.second].into_iter().enumerate() {
                let is_row = |own: &&DrawnLine| {
                    chain.edges.iter().any(|sewn| self.garment.is_run_of(own.edge, sewn.edge))
                };
                let rows = drawn.lines.iter().filter(is_row).map(|row| row.path.nearest(at).distance);
                let away = rows.fold(f64::INFINITY, f64::min);
                if line.faces[side].contains(&face) && away <= BESIDE_ROW {
                    found.push(Spot::Row(at_line, side, away));
                }
            }
        }
        found
    }

    /// What a place on a side lies in, if it is on that stretch.
    fn on_stretch(&self, id: StretchId, along: f64, found: &mut Vec<Spot>) {
        let surface = self.surface();
        let stretch = surface.stretch(id);
        if along < stretch.from - AT_EDGE || along > stretch.to + AT_EDGE {
            return;
        }
        for (end, vertex) in [(stretch.from, stretch.start), (stretch.to, stretch.end)] {
            if (along - end).abs() <= AT_EDGE {
                found.push(Spot::Vertex(vertex));
            }
        }
        let share = ((along - stretch.from) / surface.length(id).max(AT_EDGE)).clamp(0.0, 1.0);
        self.on_closures(id, share, found);
        let Some(at) = stretch.join else { return };
        let join = surface.join(at);
        let Some(own) = join.plies.iter().find(|ply| ply.stretch == id) else { return };
        if matches!(join.by, JoinedBy::Seam { .. }) {
            let share = if own.against { 1.0 - share } else { share };
            found.push(Spot::Seam(at, share, surface.length(id)));
            // A lining ends at the zip that its shell is closed by.
            for ply in join.plies.iter().filter(|ply| ply.stretch != id) {
                let share = if ply.against { 1.0 - share } else { share };
                self.on_closures(ply.stretch, share, found);
            }
        }
    }

    fn on_closures(&self, id: StretchId, share: f64, found: &mut Vec<Spot>) {
        let surface = self.surface();
        for (at, line) in surface.closures.iter().enumerate() {
            for (side, stretches) in line.sides.iter().enumerate() {
                let mut before = 0.0;
                for &(stretch, against) in stretches {
                    let long = surface.length(stretch);
                    if stretch == id {
                        let share = if against { 1.0 - share } else { share };
                        found.push(Spot::Closure(at, side, before + share * long));
                    }
                    before += long;
                }
            }
        }
    }

    /// Which end goes on in which: over folds and seams first, then over closures.
    fn link(&self, segments: &[Segment], over_closures: bool, next: &mut [Next]) {
        let ends = || (0..segments.len()).flat_map(|at| [(at, 0), (at, 1)]);
        for one in ends() {
            if next[one.0][one.1].is_some() {
                continue;
            }
            let free = ends().filter(|&other| other != one && next[other.0][other.1].is_none());
            let mut crossed = free.filter_map(|other| {
                let crossing = crossing(segments, one, other, over_closures)?;
                Some((other, crossing))
            });
            let Some((other, crossing)) = crossed.next() else { continue };
            next[one.0][one.1] = Some((other, crossing));
            next[other.0][other.1] = Some((one, crossing));
        }
    }

    fn ring(&self, segments: &[Segment], next: &[Next], first: usize, seen: &mut [bool]) -> PassedRing {
        let mut ring = PassedRing {
            parts: Vec::new(),
            lines: Vec::new(),
            length: 0.0,
            stretched: 0.0,
            held_by: None,
            closures: Vec::new(),
            reached: false,
        };
        let (mut at, mut leaves) = (first, 1);
        while !std::mem::replace(&mut seen[at], true) {
            let segment = &segments[at];
            let (length, stretched, fused) = self.lengths(segment);
            ring.lines.push(self.ring_line(segment));
            ring.length += length;
            ring.stretched += stretched;
            ring.held_by = ring.held_by.or(fused.map(Holder::Fused));
            let Some(((other, end), crossing)) = next[at][leaves] else { break };
            match crossing {
                Crossing::Sewn => {}
                Crossing::Closure(line, near, crossed) => {
                    let line = &self.surface().closures[line];
                    let adds = self.ways.adds(line, near, crossed, &IdSet::default());
                    ring.closures.push((line.closure, adds));
                }
                Crossing::Row(line, beyond) => {
                    let line = &self.surface().closures[line];
                    ring.length -= beyond;
                    ring.stretched -= beyond;
                    ring.closures.push((line.closure, 2.0 * line.lengths[0].max(line.lengths[1])));
                }
            }
            (at, leaves) = (other, 1 - end);
        }
        ring
    }

    /// How long a line is as sewn, how far its cloth stretches, and what is fused on that holds it.
    fn lengths(&self, segment: &Segment) -> (f64, f64, Option<LayerId>) {
        let Some(sewn) = self.parts.get(segment.part.index()) else { return (f64::NAN, f64::NAN, None) };
        let Some(drawn) = self.sized.paper(sewn.part.paper) else { return (f64::NAN, f64::NAN, None) };
        let long = finished_line(self.garment, drawn, segment.line);
        let share = |part: &SewnPart, path: &Path| {
            give_along(self.garment, self.sized, &part.part, path).share().unwrap_or(0.0)
        };
        let cloth = share(sewn, &segment.line.path);
        let is_on = |part: &&SewnPart| {
            let onto = self.garment.is_fused_onto(part.part.layer, sewn.part.layer);
            part.fused && onto && part.part.piece == sewn.part.piece
        };
        let fused = self.parts.iter().filter(is_on);
        let held = fused.map(|part| (share(part, &segment.line.path), part.part.layer));
        let held = held.filter(|(share, _)| *share < cloth).min_by(|one, other| one.0.total_cmp(&other.0));
        match held {
            Some((share, layer)) => (long, long * (1.0 + share), Some(layer)),
            None => (long, long * (1.0 + cloth), None),
        }
    }

    fn ring_line(&self, segment: &Segment) -> RingLine {
        let sewn = self.parts.get(segment.part.index());
        let drawn = sewn.and_then(|sewn| self.sized.paper(sewn.part.paper));
        let hand = drawn.and_then(|drawn| self.hand(segment.face, segment.part, segment.mirrored, drawn));
        RingLine { part: segment.part, line: segment.line.edge, hand }
    }

    fn broken(&self, segment: &Segment, end: usize) -> LineBreak {
        let line = RingLine { hand: None, ..self.ring_line(segment) };
        let sewn = self.parts.get(segment.part.index());
        let drawn = sewn.and_then(|sewn| self.sized.paper(sewn.part.paper));
        let path = &segment.line.path;
        let place = if end == 0 { path.start() } else { path.end() };
        let edges = drawn.into_iter().flat_map(|drawn| &drawn.edges);
        let near = edges.map(|edge| (edge.path.nearest(place).distance, edge.edge));
        let near = near.filter(|(away, _)| *away <= AT_EDGE);
        let at = near.min_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, edge)| edge);
        let surface = self.surface();
        let beyond = segment.spots[end].iter().find_map(|spot| match spot {
            Spot::Seam(join, ..) => {
                let mut faces = surface.join(*join).plies.iter().map(|ply| surface.face_of(ply.stretch));
                faces.find(|face| *face != segment.face).map(|face| surface.face(face).part)
            }
            _ => None,
        });
        LineBreak { line, at, beyond }
    }
}

/// How one end goes on in another; none where they are not in one place.
fn crossing(segments: &[Segment], one: End, other: End, over_closures: bool) -> Option<Crossing> {
    let [(own, own_end), (far, far_end)] = [one, other].map(|(at, end)| (&segments[at], end));
    let is_twin = own.face == far.face
        && own.mirrored != far.mirrored
        && (own.line.edge, own_end) == (far.line.edge, far_end);
    own.spots[own_end].iter().find_map(|&spot| {
        far.spots[far_end].iter().find_map(|&there| match (spot, there) {
            (Spot::Fold, Spot::Fold) => (is_twin && !over_closures).then_some(Crossing::Sewn),
            (Spot::Vertex(at), Spot::Vertex(there)) => {
                (at == there && !over_closures).then_some(Crossing::Sewn)
            }
            (Spot::Seam(at, share, long), Spot::Seam(there, other, far)) => {
                let step = (share - other).abs() * long.min(far);
                (at == there && step <= STEP && !over_closures).then_some(Crossing::Sewn)
            }
            (Spot::Closure(at, side, along), Spot::Closure(there, far, other)) => {
                let is_across = at == there && side != far && (along - other).abs() <= STEP;
                (is_across && over_closures).then_some(Crossing::Closure(at, side, [along, other]))
            }
            (Spot::Row(at, side, beyond), Spot::Row(there, far, other)) => {
                (at == there && side != far && over_closures).then_some(Crossing::Row(at, beyond + other))
            }
            _ => None,
        })
    })
}
