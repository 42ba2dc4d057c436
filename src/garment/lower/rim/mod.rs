//! `from end to end`: a closure that runs on along the rim of all that is sewn on above and below its edges, so that
//! what closes a front and what is sewn to its neck need not know each other.
//!
//! From an end of the edges that are named the edge beside them leads on: to the seam that takes it, to what is sewn
//! to it there, and to the edge of that which begins at the same corner. That edge is the closure's as long
//! as nothing else takes it. It is found from what is written alone, so that it is the same in every size. Where what
//! is sewn on has two ends alike, a collar that is cut once, the seams say which meets the closure; else
//! the outlines do, since right sides lie together: of two pieces that are sewn the outlines run against each
//! other.

mod messages;
mod ring;
mod step;
mod uses;

use super::Lowering;
use crate::garment::{Chain, ClosureId, EdgeId, PointId, SewnEdge, User};
use crate::report::Diagnostic;
use crate::source::Span;
use crate::syntax::tree::{self, Hand, StatementNode};
use ring::{Along, Lies, Ring, begins_at};
pub(super) use uses::RimEdge;
use uses::Uses;

/// What is found beyond both ends of a closure's side.
#[derive(Clone, Debug, Default)]
pub(super) struct RimSide {
    /// Before its first edge, from the outermost one.
    pub before: Vec<RimEdge>,
    /// After its last edge.
    pub after: Vec<RimEdge>,
}

/// What is found for a closure from end to end.
#[derive(Clone, Debug)]
pub(super) struct FoundRim {
    pub closure: ClosureId,
    pub sides: [RimSide; 2],
}

/// Nothing can be said of the closure: why, or nothing if that is reported where it is lowered.
type Lost = Option<Box<Diagnostic>>;

/// An edge, where it stands in the ring of its piece, and which way the rim is followed from there.
struct Reached {
    edge: RimEdge,
    ring: Ring,
    at: usize,
    along: Along,
    /// +1 where the outline as it is written runs as that of a rectangle does when both are worn right side out, −1
    /// where it runs the other way.
    turn: i8,
    /// Beyond it lies the fold of its piece.
    ends: bool,
}

/// How pieces lie to one another, as far as the walk has told.
#[derive(Default)]
struct Turns {
    /// How a rectangle that is worn as it is drawn runs.
    rectangle: Option<i8>,
    /// How a piece lies is known, but not how its outline runs; or it was assumed.
    walked: bool,
}

/// A closure that is followed.
struct Following<'a> {
    uses: &'a Uses,
    closure: &'a tree::Closure,
    /// Edges that it goes along already, on both sides.
    chain: Vec<RimEdge>,
    /// Those of them that its own words name, or that are found on the side that is followed.
    own: Vec<RimEdge>,
    turns: Turns,
}

/// An edge that may go on from a seam.
#[derive(Clone)]
struct Candidate {
    edge: RimEdge,
    ring: Ring,
    at: usize,
    along: Along,
    /// Where it begins.
    corner: Option<PointId>,
    /// Where it ends, if a fold brings that to where it begins.
    onto: Option<PointId>,
    ends: bool,
}

impl Lowering<'_> {
    /// Finds what closures from end to end go along.
    pub(super) fn follow_rims(&mut self) {
        let merged = self.merged;
        let closures = merged.declarations.iter().filter_map(|one| match &one.statement.node {
            StatementNode::Closure(closure) if closure.end_to_end.is_some() => Some(closure),
            _ => None,
        });
        let closures: Vec<&tree::Closure> = closures.collect();
        if closures.is_empty() {
            return;
        }
        let uses = self.uses_of_edges();
        for closure in closures {
            let Some(&id) = self.names.closures.get(&closure.name.text) else { continue };
            match self.followed(closure, &uses) {
                Ok(sides) => self.rims.push(FoundRim { closure: id, sides }),
                Err(Some(mistake)) => {
                    self.report(*mistake);
                    self.rims_lost.push(id);
                }
                Err(None) => self.rims_lost.push(id),
            }
        }
    }

    /// All that is found for a closure.
    pub(super) fn found_rim(&self, closure: ClosureId) -> Vec<RimEdge> {
        let found = self.rims.iter().filter(|found| found.closure == closure);
        let sides = found.flat_map(|found| &found.sides);
        sides.flat_map(|side| side.before.iter().chain(&side.after)).copied().collect()
    }

    /// The chain of a closure with what is found beyond its ends; none where that could not be told.
    pub(super) fn with_rim(&self, closure: ClosureId, span: Span, chains: [Chain; 2]) -> Option<[Chain; 2]> {
        if self.rims_lost.contains(&closure) {
            return None;
        }
        let Some(found) = self.rims.iter().find(|found| found.closure == closure) else {
            return Some(chains);
        };
        let user = Some(User::Closure(closure));
        let mut sides = found.sides.iter();
        Some(chains.map(|mut chain| {
            let side = sides.next();
            let sewn = |edge: &RimEdge| SewnEdge {
                layer: edge.layer,
                piece: edge.piece,
                edge: edge.edge,
                on: None,
                user,
                span,
            };
            let before = side.iter().flat_map(|side| &side.before).map(sewn);
            let after = side.iter().flat_map(|side| &side.after).map(sewn);
            chain.edges = before.chain(chain.edges.iter().copied()).chain(after).collect();
            chain
        }))
    }

    fn followed(&self, closure: &tree::Closure, uses: &Uses) -> Result<[RimSide; 2], Lost> {
        let (chain, own, turns) = (Vec::new(), Vec::new(), Turns::default());
        let mut following = Following { uses, closure, chain, own, turns };
        for words in closure.first.edges.iter().chain(&closure.second.edges) {
            let edge = self.rim_edge(&words.edge).ok_or(None)?;
            if self.garment.edge(edge.edge).line && !uses.cut_off.iter().any(|cut| cut.edge == edge.edge) {
                return Err(Some(Box::new(self.line_has_no_rim(closure, words))));
            }
            following.chain.push(edge);
        }
        let written = following.chain.clone();
        following.own = written.clone();
        let is_crossed = self.names_alike(&closure.first, &closure.second);
        let first = self.side(&mut following, &closure.first, Hand::Left)?;
        let right = if is_crossed { Hand::Right } else { Hand::Left };
        following.own = written;
        let mut second = self.side(&mut following, &closure.second, right)?;
        // Both run the same way.
        let piece = |edges: Option<&RimEdge>| edges.map(|edge| edge.piece);
        let (before, after) = (piece(first.before.last()), piece(first.after.first()));
        let (other_before, other_after) = (piece(second.before.last()), piece(second.after.first()));
        let against =
            (before.is_some() && before == other_after) || (after.is_some() && after == other_before);
        if against && closure.second.edges.len() == 1 {
            std::mem::swap(&mut second.before, &mut second.after);
            second.before.reverse();
            second.after.reverse();
        }
        Ok([first, second])
    }

    /// Whether both sides name the same edges.
    fn names_alike(&self, one: &tree::Chain, other: &tree::Chain) -> bool {
        let edges = |chain: &tree::Chain| -> Vec<Option<EdgeId>> {
            let each = chain.edges.iter().map(|words| self.rim_edge(&words.edge).map(|own| own.edge));
            each.collect()
        };
        let (one, other) = (edges(one), edges(other));
        one.iter().any(|edge| edge.is_some() && other.contains(edge))
    }

    fn side(&self, following: &mut Following, chain: &tree::Chain, hand: Hand) -> Result<RimSide, Lost> {
        let (Some(first), Some(last)) = (chain.edges.first(), chain.edges.last()) else { return Err(None) };
        let mut side = RimSide::default();
        let ends = match chain.edges.as_slice() {
            [_] => [(first, None, Along::Back), (first, None, Along::On)],
            [first, second, ..] => {
                let before_last = chain.edges.get(chain.edges.len() - 2).unwrap_or(second);
                [(first, Some(second), Along::Back), (last, Some(before_last), Along::On)]
            }
            [] => return Err(None),
        };
        for (at, (words, inner, along)) in ends.into_iter().enumerate() {
            let reached = self.reached(following, words, hand)?;
            let along = match inner {
                None => along,
                Some(inner) => match self.outward(following, &reached, inner)? {
                    Some(along) => along,
                    None => continue,
                },
            };
            if words.run.as_ref().is_some_and(|run| !self.run_reaches(run, &reached, along)) {
                continue;
            }
            let found = self.beyond(following, Reached { along, ..reached })?;
            if at == 0 {
                side.before = found.into_iter().rev().collect();
            } else {
                side.after = found;
            }
        }
        Ok(side)
    }

    /// The edge of those words in the ring of its piece.
    fn reached(
        &self,
        following: &mut Following,
        words: &tree::SewnWords,
        hand: Hand,
    ) -> Result<Reached, Lost> {
        let edge = self.rim_edge(&words.edge).ok_or(None)?;
        let cannot = || Some(Box::new(self.cannot_follow(following.closure, edge.piece)));
        let ring = self.ring_of(edge.piece).ok_or_else(cannot)?;
        let at = ring.position(edge.edge).ok_or_else(cannot)?;
        let hand = words.edge.on.unwrap_or(hand);
        // How a rectangle runs is known, and how another outline does is not.
        if ring.lies == Lies::Alike || ring.drawn.is_some() {
            if ring.rectangle {
                following.turns.rectangle.get_or_insert(1);
            } else {
                following.turns.walked = true;
            }
        }
        let mirrored = ring.drawn.is_some_and(|drawn| drawn != hand) && ring.lies != Lies::Alike;
        // The right copy of a pair is the left one's mirror image.
        let is_second = ring.drawn.is_none() && ring.lies != Lies::Alike && hand == Hand::Right;
        let turn = if mirrored || is_second { -1 } else { 1 };
        Ok(Reached { edge, ring, at, along: Along::On, turn, ends: false })
    }

    /// Which way a chain of several edges leaves its outermost one: not toward the edge beside it in the chain. None of what
    /// is folded so that both its ends lie there.
    fn outward(
        &self,
        following: &mut Following,
        reached: &Reached,
        inner: &tree::SewnWords,
    ) -> Result<Option<Along>, Lost> {
        let inner_edge = self.rim_edge(&inner.edge).ok_or(None)?;
        let leads = |along: Along| {
            let Some((_, beside)) = reached.ring.beside(reached.at, along) else { return false };
            let beside = RimEdge { edge: beside.edge, ..reached.edge };
            self.is_same_edge(&beside, &inner_edge)
                || following.uses.seams.iter().any(|seam| {
                    let takes =
                        |side: &[Vec<RimEdge>], is: &dyn Fn(&RimEdge) -> bool| side.iter().flatten().any(is);
                    let [one, other] = &seam.sides;
                    let is_beside = |edge: &RimEdge| self.is_same_edge(edge, &beside);
                    let is_inner = |edge: &RimEdge| edge.piece == inner_edge.piece;
                    takes(one, &is_beside) && takes(other, &is_inner)
                        || takes(other, &is_beside) && takes(one, &is_inner)
                })
        };
        match Along::BOTH.map(leads) {
            [true, false] => Ok(Some(Along::Back)),
            [false, true] => Ok(Some(Along::On)),
            [true, true] if !reached.ring.folded.is_empty() => Ok(None),
            _ => Err(Some(Box::new(self.cannot_follow(following.closure, reached.edge.piece)))),
        }
    }

    /// Whether a run of an edge reaches its corner on that side.
    fn run_reaches(&self, run: &tree::RunWords, reached: &Reached, along: Along) -> bool {
        let Some(name) = begins_at(run) else { return false };
        let own = reached.ring.edges.get(reached.at).and_then(|own| own.corner(along));
        let is_corner = own.is_some_and(|corner| self.garment.point(corner).name == name.text);
        let beside = reached.ring.beside(reached.at, along);
        is_corner || beside.is_some_and(|(_, beside)| self.garment.edge(beside.edge).name == name.text)
    }
}
