//! Plies that a seam catches along a part of one of its edges: `caught bag.top on front.waist at waist_side`.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::few::Few;
use crate::garment::{
    Chain, Dimension, EdgeId, Expression, LayerId, Node, Over, Seam, SewnEdge, Symbol, User,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, ExprKind};

/// What one line of a seam's braces catches, and where: several plies may lie in one place.
pub(super) struct CaughtAt {
    host: SewnEdge,
    /// The edge that is caught.
    edge: EdgeId,
    /// The place in its words.
    place: String,
    /// The side of the seam, and which of its plies the caught edge is.
    ply: (usize, usize),
}

impl Lowering<'_> {
    /// Lays the caught edge on a run of the seam's edge that is as long as it is sewn: the edge then is that run and
    /// what is left of it, and the caught edge a ply that lies on the run. None where that cannot be, which is reported.
    pub(super) fn catch_ply(
        &mut self,
        seam: &mut Seam,
        user: User,
        (ply, on, place): (&tree::Dotted, &tree::Dotted, &tree::EdgePlace),
        span: Span,
        before: &mut Vec<CaughtAt>,
    ) -> Option<()> {
        let (mut caught, host) =
            (self.named_edge(ply, false, Some(user))?, self.named_edge(on, false, Some(user))?);
        // In a seam that is sewn in several layers it lies in the one that is named, and is of it where it may be.
        let only = host.layer;
        let is_there = |layer: LayerId| self.garment.layer(layer).pieces.contains(&caught.piece);
        caught.layer = caught.layer.or(only.filter(|&layer| is_there(layer)));
        let (from, counted) = match place {
            tree::EdgePlace::At { value, from: Some(from) } => (Some(value), from.clone()),
            tree::EdgePlace::At { value, from: None } => match &value.kind {
                ExprKind::Name(name) => (None, name.clone()),
                _ => return self.no_end(on, place, span),
            },
            tree::EdgePlace::Middle | tree::EdgePlace::Fold => return self.no_end(on, place, span),
        };
        let mut counted = counted;
        // With its piece it is the same place.
        if let [.., piece, _] = counted.parts.as_slice()
            && self.names.pieces.get(&piece.text) == Some(&host.piece)
        {
            self.used(Symbol::Piece(host.piece), piece.span);
            counted.parts.drain(..counted.parts.len() - 1);
        }
        let counted_from = self.counted_from(host.piece, &counted)?;
        let is_host = |sewn: &SewnEdge| {
            sewn.edge == host.edge && sewn.layer.zip(host.layer).is_none_or(|(one, other)| one == other)
        };
        let sides = [&seam.first, &seam.second];
        let found = sides.into_iter().enumerate().find_map(|(side, plies)| {
            plies.iter().enumerate().find_map(|(ply, chain)| {
                let edge = chain.edges.iter().position(is_host).filter(|_| chain.over.is_none())?;
                Some((side, ply, edge))
            })
        });
        let Some((side, of_ply, at)) = found else {
            let (edge, name) = (self.garment.edge(host.edge).name.clone(), seam.name.clone());
            let title = format!("the {name} seam does not take {edge}, on which this is to lie");
            let mistake = Diagnostic::new(&catalogue::PLACE_NOT_CAUGHT, on.span, title);
            let help = "name an edge that stands in the seam, before or after to";
            self.report(mistake.label("not in the seam").also(seam.name_span, "the seam").help(help));
            return None;
        };
        let end = counted.parts.last().map_or_else(String::new, |name| name.text.to_string());
        let said = match from {
            Some(from) => format!("{} from {end}", self.words(from.span)),
            None => end,
        };
        // What lies in the same place lies on the same run, as the two plies of a flap do.
        let is_there = |one: &&CaughtAt| {
            (one.host.edge, one.host.layer) == (host.edge, host.layer)
                && one.ply.0 == side
                && one.place == said
        };
        if let Some(&CaughtAt { ply: (_, known), .. }) = before.iter().find(is_there) {
            let plies = if side == 0 { &mut seam.first } else { &mut seam.second };
            let mut all: Vec<Chain> = plies.iter().cloned().collect();
            let over = all.get(known)?.over;
            all.push(Chain { edges: Few::one(caught), over, caught: true, only, ring: false, span });
            *plies = all.into();
            return Some(());
        }
        let long = self.finished_of(ply)?;
        let from = from.map(|from| self.lower(from, When::Fact, None, Wanted::Length));
        let to = match &from {
            Some(from) => Expression {
                node: Node::Sum(vec![(true, from.clone()), (true, long)]),
                dimension: Dimension::Length,
                span,
            },
            None => long,
        };
        let name = self.words(ply.span);
        // A second copy of the piece lies in another place of the same edge.
        let is_second = |one: &CaughtAt| (one.host.edge, one.edge) == (host.edge, caught.edge);
        let at_place = if before.iter().any(is_second) { format!(" {said}") } else { String::new() };
        let words = format!("where {name} is caught{at_place}").into();
        let beside = [format!("where {name} begins{at_place}"), format!("where {name} ends{at_place}")];
        let run = self.portion_between(host.edge, (words, beside), [from, Some(to)], counted_from, span)?;
        let plies = if side == 0 { &mut seam.first } else { &mut seam.second };
        let mut all: Vec<Chain> = plies.iter().cloned().collect();
        for over in all.iter_mut().filter_map(|chain| chain.over.as_mut()) {
            if over.ply == of_ply && over.edge > at {
                over.edge += 1;
            }
        }
        let chain = all.get_mut(of_ply)?;
        let mut edges: Vec<SewnEdge> = chain.edges.iter().copied().collect();
        let own = *edges.get(at)?;
        edges.insert(at + 1, SewnEdge { edge: run, ..own });
        chain.edges = edges.into();
        let over = Some(Over { ply: of_ply, edge: at + 1 });
        before.push(CaughtAt { host, edge: caught.edge, place: said, ply: (side, all.len()) });
        all.push(Chain { edges: Few::one(caught), over, caught: true, only, ring: false, span });
        *plies = all.into();
        Some(())
    }

    /// How long an edge is as it is sewn.
    fn finished_of(&mut self, edge: &tree::Dotted) -> Option<Expression> {
        let span = edge.span;
        let argument = tree::Expr { span, kind: ExprKind::Name(edge.clone()) };
        let function = tree::Name { text: "finished".into(), span };
        let call = tree::Call { function, arguments: vec![argument] };
        let expr = tree::Expr { span, kind: ExprKind::Call(call) };
        Some(self.lower(&expr, When::Fact, None, Wanted::Length))
    }

    fn no_end(&self, on: &tree::Dotted, place: &tree::EdgePlace, span: Span) -> Option<()> {
        let at = match place {
            tree::EdgePlace::At { value, .. } => value.span,
            tree::EdgePlace::Middle | tree::EdgePlace::Fold => span,
        };
        let title = "what is caught begins at an end of its edge, or so far from it";
        let help = format!(
            "say from where it goes on: at a corner of {0}, or 3 from a corner of {0}",
            self.words(on.span)
        );
        self.report(Diagnostic::new(&catalogue::EDGE_PLACE, at, title).label("from where?").help(help));
        None
    }
}
