//! From the end of an edge over the seam there to the edge that goes on beyond it.

use super::super::Lowering;
use super::ring::{Along, Lies};
use super::uses::{SeamUse, Uses};
use super::{Candidate, Following, Lost, Reached, RimEdge};
use crate::garment::{LayerId, PieceId, PointId};
use crate::syntax::tree::StatementNode;

/// A seam, and what lies on its other side.
struct Over<'u> {
    seam: &'u SeamUse,
    plies: &'u [Vec<RimEdge>],
}

impl Lowering<'_> {
    /// All edges that the closure goes on along from there, in order.
    pub(super) fn beyond(&self, following: &mut Following, from: Reached) -> Result<Vec<RimEdge>, Lost> {
        let (mut found, mut reached) = (Vec::new(), from);
        // Each piece is passed once at most.
        for _ in 0..=self.garment.pieces.len() {
            let Some(next) = self.step(following, &reached)? else { break };
            found.push(next.edge);
            following.chain.push(next.edge);
            following.own.push(next.edge);
            let ends = next.ends;
            reached = next;
            if ends {
                break;
            }
        }
        Ok(found)
    }

    /// From an edge over the seam at its end to the edge beyond; none where nothing goes on.
    fn step(&self, following: &mut Following, from: &Reached) -> Result<Option<Reached>, Lost> {
        let Some((_, beside)) = from.ring.beside(from.at, from.along) else { return Ok(None) };
        if matches!(from.ring.lies, Lies::Handed { fold: Some(fold) } if fold == beside.edge) {
            return Ok(None);
        }
        let corner = from.ring.edges.get(from.at).and_then(|own| own.corner(from.along));
        let beside = self.cut_edge(following.uses, RimEdge { edge: beside.edge, ..from.edge });
        let Some(Over { seam, plies }) = self.sewn_to(following, &beside)? else { return Ok(None) };
        let candidates = self.candidates(following, from, plies)?;
        let candidates = self.as_matched(seam, corner, candidates);
        let chosen = match candidates.as_slice() {
            [] => return Ok(None),
            [one] => one,
            several => match self.by_outlines(following, from, several) {
                Some(one) => one,
                None => return Err(Some(Box::new(self.which_end(following, from, corner, seam, several)))),
            },
        };
        let turn = from.turn * from.along.sign() * chosen.along.sign();
        if chosen.ring.is_whole_rectangle() {
            following.turns.rectangle.get_or_insert(turn);
        }
        let Candidate { edge, ring, at, along, ends, .. } = chosen.clone();
        Ok(Some(Reached { edge, ring, at, along, turn, ends }))
    }

    /// The line that a piece is cut off at, where nothing takes the edge and something takes that.
    fn cut_edge(&self, uses: &Uses, edge: RimEdge) -> RimEdge {
        let is_sewn = |edge: &RimEdge| {
            uses.seams.iter().any(|seam| seam.edges().any(|own| self.is_same_edge(own, edge)))
        };
        let cut = uses.cut_off.iter().find(|cut| cut.piece == edge.piece && is_sewn(cut));
        match cut {
            Some(cut) if !is_sewn(&edge) => RimEdge { edge: cut.edge, ..edge },
            _ => edge,
        }
    }

    /// The seam that takes an edge, and the plies on its other side; none where no seam does, or the edge is sewn
    /// to itself.
    fn sewn_to<'u>(&self, following: &Following<'u>, edge: &RimEdge) -> Result<Option<Over<'u>>, Lost> {
        let is_it = |own: &RimEdge| self.is_same_edge(own, edge);
        for seam in &following.uses.seams {
            if seam.runs.iter().any(is_it) {
                return Err(Some(Box::new(self.cannot_follow(following.closure, edge.piece))));
            }
            let [first, second] = &seam.sides;
            return Ok(match [first, second].map(|side| side.iter().flatten().any(is_it)) {
                [true, false] => Some(Over { seam, plies: second }),
                [false, true] => Some(Over { seam, plies: first }),
                [true, true] => None,
                [false, false] => continue,
            });
        }
        Ok(None)
    }

    /// The edges that begin where an edge of those plies ends, and that nothing else takes.
    fn candidates(
        &self,
        following: &Following,
        from: &Reached,
        plies: &[Vec<RimEdge>],
    ) -> Result<Vec<Candidate>, Lost> {
        let layer = from.edge.layer;
        let in_layer =
            |ply: &&Vec<RimEdge>| ply.iter().any(|edge| edge.layer.is_some() && edge.layer == layer);
        let Some(ply) = plies.iter().find(in_layer).or(plies.first()) else { return Ok(Vec::new()) };
        let mut candidates = Vec::new();
        for sewn in ply {
            let cannot = || Some(Box::new(self.cannot_follow(following.closure, sewn.piece)));
            let ring = self.ring_of(sewn.piece).ok_or_else(cannot)?;
            let sewn_at = ring.position(sewn.edge).ok_or_else(cannot)?;
            let layer = sewn.layer.or_else(|| layer.filter(|&layer| self.is_cut_in(sewn.piece, layer)));
            for along in Along::BOTH {
                let Some((at, beyond)) = ring.beside(sewn_at, along) else { continue };
                let edge = RimEdge { layer, piece: sewn.piece, edge: beyond.edge };
                let is_fold = matches!(ring.lies, Lies::Handed { fold: Some(fold) } if fold == edge.edge);
                // The left and the right one of a pair lie on both sides of the closure.
                let passed = if ring.lies == Lies::Alike { &following.chain } else { &following.own };
                let is_passed = passed.iter().any(|own| self.is_same_edge(own, &edge));
                if is_fold
                    || is_passed
                    || !self.is_free(&edge, following.uses, following.closure, &following.chain)
                {
                    continue;
                }
                let corner = ring.edges.get(sewn_at).and_then(|own| own.corner(along));
                let ends = ring.folded.iter().any(|pair| pair.contains(&sewn.edge));
                let onto = beyond.corner(along).filter(|_| ends);
                candidates.push(Candidate { edge, ring: ring.clone(), at, along, corner, onto, ends });
            }
        }
        Ok(candidates)
    }

    /// Whether the words of a layer name the piece.
    fn is_cut_in(&self, piece: PieceId, layer: LayerId) -> bool {
        let (layer, piece) = (&self.garment.layer(layer).name, &self.garment.piece(piece).name);
        self.merged.declarations.iter().any(|one| match &one.statement.node {
            StatementNode::Layer(own) => {
                own.name.text == *layer && own.pieces.iter().any(|named| named.text == *piece)
            }
            _ => false,
        })
    }

    /// Those candidates that meet the corner, as far as the seam says which corners meet or names tell.
    fn as_matched(
        &self,
        seam: &SeamUse,
        corner: Option<PointId>,
        candidates: Vec<Candidate>,
    ) -> Vec<Candidate> {
        let same =
            |one: PointId, other: PointId| self.garment.point_origin(one) == self.garment.point_origin(other);
        let Some(corner) = corner else { return candidates };
        let partners = |point: PointId| {
            let both = seam.matching.iter().flat_map(|&(one, other)| [(one, other), (other, one)]);
            both.filter(move |&(one, _)| same(one, point)).map(|(_, other)| other).collect::<Vec<PointId>>()
        };
        let meets = |one: &Candidate| {
            let own: Vec<PointId> = one.corner.into_iter().chain(one.onto).flat_map(&partners).collect();
            (!own.is_empty()).then(|| own.iter().any(|&point| same(point, corner)))
        };
        if candidates.iter().any(|one| meets(one) == Some(true)) {
            return candidates.into_iter().filter(|one| meets(one) == Some(true)).collect();
        }
        let name = |point: PointId| &self.garment.point(point).name;
        let left: Vec<Candidate> = candidates.into_iter().filter(|one| meets(one) != Some(false)).collect();
        let is_named_so = |one: &Candidate| one.corner.is_some_and(|own| name(own) == name(corner));
        match left.len() > 1 && left.iter().any(is_named_so) {
            true => left.into_iter().filter(is_named_so).collect(),
            false => left,
        }
    }

    /// Of the two ends of one piece that is neither left nor right the one at which its outline runs against that of
    /// what it is sewn to; none where that is not known.
    fn by_outlines<'c>(
        &self,
        following: &mut Following,
        from: &Reached,
        candidates: &'c [Candidate],
    ) -> Option<&'c Candidate> {
        let [one, other] = candidates else { return None };
        if one.edge.piece != other.edge.piece || one.ring.lies != Lies::Alike {
            return None;
        }
        let turns = &mut following.turns;
        if one.ring.rectangle {
            let wanted = match (turns.rectangle, turns.walked) {
                (Some(known), _) => known,
                (None, false) => 1,
                (None, true) => return None,
            };
            let turn = |own: &Candidate| from.turn * from.along.sign() * own.along.sign();
            return candidates.iter().find(|own| turn(own) == wanted);
        }
        let is_first = turns.rectangle.is_none() && !turns.walked;
        turns.walked = true;
        is_first.then_some(one)
    }
}
