//! The ways along a garment's rims, with closures open and closed, and what an open closure adds to a ring.

use super::lines::{AT_EDGE, BESIDE_ROW};
use super::over::{in_order, over_one_another};
use crate::garment::{Chain, ClosureId, CutHow, EdgeId, Garment, Outline, PieceId};
use crate::id_hash::{IdMap, IdSet};
use crate::resolve::SizedGarment;
use crate::sewing::model::SewnPart;
use crate::sewing::surface::{ClosureLine, FaceId, Gluing, RimPart, StretchId, Surface};
use crate::syntax::tree::Hand;

/// A garment glued layer by layer: what lies on its own twin in another layer, or on another copy of it in its own, is joined
/// to it at a rim, and is a rim all the same.
pub(super) struct Ways<'a> {
    pub(super) surface: &'a Surface,
    garment: &'a Garment,
    sized: &'a SizedGarment,
    pub(super) open: Gluing,
    pub(super) closed: Gluing,
    parts: &'a [SewnPart],
    /// The closures that begin, end or have a joint at each vertex.
    at_vertex: IdMap<u32, Vec<usize>>,
}

impl<'a> Ways<'a> {
    pub(super) fn new(
        garment: &'a Garment,
        sized: &'a SizedGarment,
        parts: &'a [SewnPart],
        surface: &'a Surface,
    ) -> Self {
        let piece = |stretch: StretchId| {
            let part = surface.face(surface.face_of(stretch)).part;
            parts.get(part.index()).map(|sewn| (sewn.part.piece, sewn.part.layer))
        };
        let mut known: IdMap<_, bool> = IdMap::default();
        let over = over_one_another(garment, parts, surface);
        let lie_over = |one: StretchId, other: StretchId| {
            !over.is_empty() && over.contains(&in_order(surface.face_of(one), surface.face_of(other)))
        };
        let open = Gluing::of(surface, |_, one, other| match (piece(one.stretch), piece(other.stretch)) {
            _ if lie_over(one.stretch, other.stretch) => false,
            (Some(one), Some(other)) => !*known
                .entry((one, other))
                .or_insert_with(|| is_parallel(garment, one.0, other.0, one.1 != other.1)),
            _ => true,
        });
        let closed = open.clone().closed(surface);
        let mut at_vertex: IdMap<u32, Vec<usize>> = IdMap::default();
        for (at, line) in surface.closures.iter().enumerate() {
            for vertex in line.sides.iter().flat_map(|side| vertices(surface, side)) {
                let known = at_vertex.entry(vertex).or_default();
                if known.last() != Some(&at) {
                    known.push(at);
                }
            }
        }
        Ways { surface, garment, sized, open, closed, parts, at_vertex }
    }

    /// Where a rim goes on: of a ring that goes along `part`, the next. `is_cut` as in
    /// [`Gluing::turn_cut`].
    pub(super) fn next(&self, part: RimPart, is_cut: &dyn Fn(StretchId) -> bool) -> RimPart {
        // It is met at its end where the rim goes against it.
        let (stretch, against) = self.closed.turn_cut(self.surface, is_cut, part.stretch, !part.against);
        RimPart { stretch, against }
    }

    /// Whether one stretch of a ring ends where another begins.
    pub(super) fn meet(&self, one: RimPart, other: RimPart) -> bool {
        self.vertex(one, true) == self.vertex(other, false)
    }

    /// The vertex where a stretch of a ring begins.
    pub(super) fn begins_at(&self, part: RimPart) -> u32 {
        self.vertex(part, false)
    }

    /// The vertices that closures which begin or have a joint at the end of a stretch bring to it.
    pub(super) fn across(&self, part: RimPart) -> Vec<u32> {
        let from = self.vertex(part, true);
        let lines = self.at_vertex.get(&from).into_iter().flatten();
        let mut found = Vec::new();
        for line in lines.filter_map(|&at| self.surface.closures.get(at)) {
            for (near, far) in [(0, 1), (1, 0)] {
                if vertices(self.surface, &line.sides[near]).any(|vertex| vertex == from) {
                    found.extend(vertices(self.surface, &line.sides[far]));
                }
            }
        }
        found
    }

    fn vertex(&self, part: RimPart, at_end: bool) -> u32 {
        let stretch = self.surface.stretch(part.stretch);
        if at_end != part.against { stretch.end } else { stretch.start }
    }

    /// Whether a closure ends right where one stretch of a ring ends and another begins, as a zip down to a waist: it holds both
    /// together there, and opens nothing of the ring.
    pub(super) fn closed_at(&self, one: RimPart, other: RimPart) -> bool {
        let from = self.vertex(one, true);
        let lines = self.at_vertex.get(&from).into_iter().flatten();
        let mut lines = lines.filter_map(|&at| self.surface.closures.get(at));
        self.meet(one, other)
            && lines
                .any(|line| line.sides.iter().all(|side| vertices(self.surface, side).any(|own| own == from)))
    }

    /// The closure between the end of one stretch of a ring and the beginning of the next, and what it
    /// adds to the ring when it is open; none where there is none.
    pub(super) fn closure_between(
        &self,
        one: RimPart,
        other: RimPart,
        ring: &IdSet<StretchId>,
    ) -> Option<(ClosureId, f64)> {
        let (from, to) = (self.vertex(one, true), self.vertex(other, false));
        if from == to {
            return None;
        }
        let lines = self.at_vertex.get(&from).into_iter().flatten();
        for line in lines.filter_map(|&at| self.surface.closures.get(at)) {
            for (near, far) in [(0, 1), (1, 0)] {
                let of = |side: usize| vertices(self.surface, &line.sides[side]);
                let place = of(near).position(|vertex| vertex == from);
                let other = of(far).position(|vertex| vertex == to);
                if let (Some(place), Some(other)) = (place, other) {
                    let crossed = [self.along(line, near, place), self.along(line, far, other)];
                    return Some((line.closure, self.adds(line, near, crossed, ring)));
                }
            }
        }
        self.buttons_between(one, other, ring).or_else(|| self.rows_between(one, other))
    }

    /// Whether there are rows of buttons inside pieces.
    pub(super) fn has_rows(&self) -> bool {
        self.surface.closures.iter().any(is_row)
    }

    /// The same of a row of buttons whose line runs on both pieces into the edges that the ring goes along, near where it
    /// ends: a wrap that is open on both hips.
    fn rows_between(&self, one: RimPart, other: RimPart) -> Option<(ClosureId, f64)> {
        let face = |part: RimPart| self.surface.face_of(part.stretch);
        if face(one) == face(other) || self.side_of_body(one) != self.side_of_body(other) {
            return None;
        }
        let turned = RimPart { against: !other.against, ..other };
        let rows = self.surface.closures.iter().filter(|line| is_row(line));
        rows.filter(|line| {
            let closure = self.garment.closure(line.closure);
            let chains = [&closure.first, &closure.second];
            [(0, 1), (1, 0)].into_iter().any(|(near, far)| {
                line.faces[near].contains(&face(one))
                    && line.faces[far].contains(&face(other))
                    && self.row_ends_at(chains[near], one)
                    && self.row_ends_at(chains[far], turned)
            })
        })
        .map(|line| (line.closure, 2.0 * line.lengths[0].max(line.lengths[1])))
        .next()
    }

    /// The side of the body that a stretch is on; none of what is cut alike.
    fn side_of_body(&self, part: RimPart) -> Option<Hand> {
        let side = self.surface.side_of(part.stretch);
        let sewn = self.parts.get(side.part.index())?;
        let drawn = self.sized.paper(sewn.part.paper)?;
        sewn.hand.or(match drawn.cut {
            CutHow::OnFold(_) => Some(if side.mirrored { Hand::Right } else { Hand::Left }),
            CutHow::Alike | CutHow::Mirrored => self.surface.face(side.face).hand,
        })
    }

    /// Whether a line of a chain ends on the edge of that stretch, near the end of it.
    fn row_ends_at(&self, chain: &Chain, part: RimPart) -> bool {
        let side = self.surface.side_of(part.stretch);
        let sewn = self.parts.get(side.part.index());
        let Some(drawn) = sewn.and_then(|sewn| self.sized.paper(sewn.part.paper)) else { return false };
        let Some(edge) = drawn.edge_at(side.edge) else { return false };
        // The ring goes along the mirrored half against its drawing.
        let end = if part.against == side.mirrored { edge.path.end() } else { edge.path.start() };
        let is_named = |own: EdgeId| chain.edges.iter().any(|sewn| self.garment.is_run_of(own, sewn.edge));
        drawn.lines.iter().filter(|line| is_named(line.edge)).any(|line| {
            [line.path.start(), line.path.end()]
                .into_iter()
                .any(|at| edge.path.nearest(at).distance <= AT_EDGE && at.distance(end) <= BESIDE_ROW)
        })
    }

    /// The same of a row of buttons inside pieces: from the one end the rim leads over both pieces that
    /// it closes to the other, or over nothing but what is sewn to the ring where it ends on both. Where it
    /// leads over a seam at once, that is not the end: the ring goes on there.
    fn buttons_between(
        &self,
        one: RimPart,
        other: RimPart,
        ring: &IdSet<StretchId>,
    ) -> Option<(ClosureId, f64)> {
        let mut inside = self.surface.closures.iter().filter(|line| is_row(line)).peekable();
        inside.peek()?;
        let is_sewn_to_it =
            |stretch| self.closed.partner(stretch).is_some_and(|partner| ring.contains(&partner.stretch));
        let is_cut = |stretch| ring.contains(&stretch) || is_sewn_to_it(stretch);
        let face = |part: RimPart| self.surface.face_of(part.stretch);
        let (mut faces, mut beyond) = (Vec::new(), Vec::new());
        let mut at = self.next(one, &is_cut);
        for _ in 0..self.surface.stretches.len() {
            if ring.contains(&at.stretch) {
                break;
            }
            if !is_sewn_to_it(at.stretch) {
                faces.push(face(at));
                beyond.push(at.stretch);
            }
            at = self.next(at, &is_cut);
        }
        if at != other {
            // Two pieces that nothing but their buttons joins: each rim leads round its own piece.
            let leads_back =
                ring.contains(&at.stretch) && faces.iter().chain([&face(at)]).all(|own| *own == face(one));
            if !leads_back || face(other) == face(one) || !self.is_alone(other, ring, &is_cut) {
                return None;
            }
            faces = vec![face(one), face(other)];
        }
        match (faces.first(), faces.last()) {
            (Some(&first), Some(&last)) if first != face(one) || last != face(other) => return None,
            (Some(_), Some(_)) => {}
            _ => faces = vec![face(one), face(other)],
        }
        // A lining opens with the cloth that it is sewn to from there on.
        for stretch in [beyond.first(), beyond.last()].into_iter().flatten() {
            let join = self.surface.stretch(*stretch).join.map(|join| self.surface.join(join));
            faces.extend(
                join.iter().flat_map(|join| &join.plies).map(|ply| self.surface.face_of(ply.stretch)),
            );
        }
        let is_there = |face: &FaceId| faces.contains(face);
        let mut found = inside.filter(|line| line.faces.iter().all(|side| side.iter().any(is_there)));
        found.next().map(|line| (line.closure, 2.0 * line.lengths[0].max(line.lengths[1])))
    }

    /// Whether the rim before a stretch of a ring leads round its own piece alone, back to the ring.
    fn is_alone(&self, part: RimPart, ring: &IdSet<StretchId>, is_cut: &dyn Fn(StretchId) -> bool) -> bool {
        let own = self.surface.face_of(part.stretch);
        let mut at = self.next(RimPart { against: !part.against, ..part }, is_cut);
        for _ in 0..self.surface.stretches.len() {
            if self.surface.face_of(at.stretch) != own || ring.contains(&at.stretch) {
                break;
            }
            at = self.next(at, is_cut);
        }
        self.surface.face_of(at.stretch) == own
    }

    /// The faces that rows of buttons inside pieces close a face with.
    pub(super) fn buttoned_to(&self, face: FaceId) -> Vec<FaceId> {
        let inside = self.surface.closures.iter().filter(|line| line.sides.iter().all(Vec::is_empty));
        let far = |line: &ClosureLine| {
            let [one, other] = &line.faces;
            match (one.contains(&face), other.contains(&face)) {
                (true, false) => other.clone(),
                (false, true) => one.clone(),
                _ => Vec::new(),
            }
        };
        inside.flat_map(far).collect()
    }

    /// How far along a closure's side a joint of it lies.
    fn along(&self, line: &ClosureLine, side: usize, joint: usize) -> f64 {
        let before = line.sides[side].iter().take(joint);
        before.map(|&(stretch, _)| self.surface.length(stretch)).sum()
    }

    /// What a ring gains that crosses an open closure so far along its near and its other side: the way along
    /// both of them to where it ends, and on along what is free beyond.
    pub(super) fn adds(
        &self,
        line: &ClosureLine,
        near: usize,
        crossed: [f64; 2],
        ring: &IdSet<StretchId>,
    ) -> f64 {
        let sides = [&line.sides[near], &line.sides[1 - near]];
        let halves = |forward: bool| -> f64 {
            let of = |side: usize| {
                let whole: f64 = sides[side].iter().map(|&(stretch, _)| self.surface.length(stretch)).sum();
                if forward { whole - crossed[side] } else { crossed[side] }
            };
            of(0) + of(1)
        };
        // On to where the sides end, then round what lies free between their ends.
        let beyond = |forward: bool| -> Option<f64> {
            let last = |side: &[(StretchId, bool)]| {
                if forward { side.last().copied() } else { side.first().copied() }
            };
            let (from, to) = (last(sides[0])?, last(sides[1])?);
            self.free_way(from.0, forward != from.1, to.0, ring)
        };
        let way = |forward: bool| beyond(forward).map(|beyond| (beyond > 0.0, halves(forward) + beyond));
        let found = match (way(true), way(false)) {
            // Of two closed ends both rings must let it through; a closed one bounds it before an open one.
            (Some((is_open, one)), Some((other_is_open, other))) => match (is_open, other_is_open) {
                (false, false) => one.min(other),
                (true, true) => one.max(other),
                (false, true) => one,
                (true, false) => other,
            },
            (Some((_, only)), None) | (None, Some((_, only))) => only,
            (None, None) => halves(true) + halves(false),
        };
        let zip = self.sized.zips.get(line.closure.index()).copied().flatten();
        let is_shut = [true, false].into_iter().all(|forward| beyond(forward).is_none_or(|way| way <= 0.0));
        match zip {
            Some(fit) if is_shut => found.min(2.0 * fit.zip),
            _ => found,
        }
    }

    /// Along what is free, from an end of one stretch to another stretch; none where that leads along
    /// the ring, or along what is sewn.
    fn free_way(&self, from: StretchId, at_end: bool, to: StretchId, ring: &IdSet<StretchId>) -> Option<f64> {
        let (mut at, mut end) = self.open.turn(self.surface, from, at_end);
        let mut long = 0.0;
        for _ in 0..self.surface.stretches.len() {
            if at == to {
                return Some(long);
            }
            // Beside a zip that is enclosed lies the lining, and opens with it.
            let is_sewn = self.surface.stretch(at).join.is_some() && !self.is_side_of_closure(at);
            if at == from || ring.contains(&at) || is_sewn {
                return None;
            }
            long += self.surface.length(at);
            (at, end) = self.open.turn(self.surface, at, !end);
        }
        None
    }

    fn is_side_of_closure(&self, at: StretchId) -> bool {
        self.surface.closures.iter().flat_map(|line| line.sides.iter().flatten()).any(|&(own, _)| own == at)
    }

    /// The area of the cloth of a face; half of one that is folded in two.
    pub(super) fn area(&self, face: FaceId, parts: &[SewnPart]) -> f64 {
        let own = self.surface.face(face);
        let drawn = parts.get(own.part.index()).and_then(|sewn| self.sized.paper(sewn.part.paper));
        let Some(drawn) = drawn else { return 0.0 };
        let ring = drawn.edges.iter().map(|edge| &edge.path);
        let halves = if matches!(drawn.cut, crate::garment::CutHow::OnFold(_)) { 2.0 } else { 1.0 };
        let folded = if own.flap { 0.5 } else { 1.0 };
        crate::shape::outline::signed_area(ring).abs() * halves * folded
    }

    pub(super) fn garment(&self) -> &'a Garment {
        self.garment
    }
}

/// Whether a closure's line runs inside pieces.
fn is_row(line: &ClosureLine) -> bool {
    line.sides.iter().all(Vec::is_empty)
}

/// The vertices along a closure's side, from its start.
fn vertices<'s>(surface: &'s Surface, side: &'s [(StretchId, bool)]) -> impl Iterator<Item = u32> + 's {
    let first = side.first().map(|&(id, against)| {
        let stretch = surface.stretch(id);
        if against { stretch.end } else { stretch.start }
    });
    let ends = side.iter().map(|&(id, against)| {
        let stretch = surface.stretch(id);
        if against { stretch.start } else { stretch.end }
    });
    first.into_iter().chain(ends)
}

/// Whether pieces that are sewn to each other lie on one another: the same piece in two layers, or a
/// strip on what it is a strip of. A strip and the rest without it lie side by side.
fn is_parallel(garment: &Garment, one: PieceId, other: PieceId, in_two_layers: bool) -> bool {
    let outline = |piece: PieceId| &garment.piece(piece).drawing.outline;
    let is_rest =
        |piece, without| matches!(outline(piece), Outline::Rest { without: strip, .. } if *strip == without);
    if is_rest(one, other) || is_rest(other, one) {
        return false;
    }
    let is_strip = |piece| matches!(outline(piece), Outline::Strip { .. });
    let (origins, others) = (garment.origins(one), garment.origins(other));
    (in_two_layers || is_strip(one) != is_strip(other))
        && origins.iter().any(|origin| others.contains(origin))
}
