use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Band, Chain, Dotted, Facing, Neatened, SeamAlong, SeamItem, SewnWords, Side, Underlap,
};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn band(&mut self, pair: Pair<Rule>) -> Option<Band> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let name = kids.nth(1)?;
        let name = self.name(name);
        let title = kids.only(Rule::text).map(|title| self.text(title));
        let (_, layer, depth, _) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let (layer, depth) = (self.name(layer), self.value(depth)?);
        let folded = kids.has(Rule::k_folded);
        let across = match kids.has(Rule::k_grain) {
            true => kids.next().map(|across| self.span(&across)),
            false => None,
        };
        let round = kids.next()?.as_rule() == Rule::k_round;
        let edges = kids.next()?;
        let edges = self.plain_chain(edges);
        let inside = match kids.has(Rule::k_inside) {
            true => kids.next().map(|edges| self.plain_chain(edges)),
            false => None,
        };
        let share = match kids.has(Rule::k_at) {
            true => {
                let share = kids.next()?;
                Some(self.value(share)?)
            }
            false => None,
        };
        let joined = match kids.has(Rule::k_joined) {
            true => kids.nth(1).map(|at| self.dotted(at)),
            false => None,
        };
        let opening = match kids.has(Rule::k_opening) {
            true => kids.nth(1).map(|at| self.dotted(at)),
            false => None,
        };
        let underlap = match kids.has(Rule::k_underlap) {
            true => {
                let (length, at) = (kids.next()?, kids.nth(1)?);
                Some(Underlap { length: self.value(length)?, at: self.name(at) })
            }
            false => None,
        };
        let stiffened = self.stiffened(&mut kids);
        let items = self.of_seam(&mut kids, from);
        Some(Band {
            name,
            title,
            layer,
            depth,
            folded,
            across,
            round,
            edges,
            inside,
            share,
            joined,
            opening,
            underlap,
            stiffened,
            items,
        })
    }

    pub(super) fn facing(&mut self, pair: Pair<Rule>) -> Option<Facing> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let name = kids.nth(1)?;
        let name = self.name(name);
        let title = kids.only(Rule::text).map(|title| self.text(title));
        let (_, layer, width) = (kids.next()?, kids.next()?, kids.next()?);
        let edges = kids.nth(2)?;
        let (layer, width, edges) = (self.name(layer), self.value(width)?, self.plain_chain(edges));
        let stiffened = self.stiffened(&mut kids);
        let understitched = kids.only(Rule::k_understitched).map(|word| self.span(&word));
        let neatened = match kids.only(Rule::neatened) {
            Some(said) => {
                let finishing = Kids::of(said).nth(1)?;
                let span = self.span(&finishing);
                let (kind, binding_stretch) = self.finishing(finishing)?;
                Some(Neatened { kind, binding_stretch, span })
            }
            None => None,
        };
        let items = self.of_seam(&mut kids, from);
        Some(Facing { name, title, layer, width, edges, stiffened, understitched, neatened, items })
    }

    fn stiffened(&mut self, kids: &mut Kids) -> Option<crate::syntax::tree::Name> {
        match kids.has(Rule::k_stiffened) {
            true => kids.next().map(|layer| self.name(layer)),
            false => None,
        }
    }

    /// What a seam's braces say.
    fn of_seam(&mut self, kids: &mut Kids, from: usize) -> Vec<SeamItem> {
        self.block(Context::Seam, kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            Some(SeamItem { span, node: builder.seam_item(item)? })
        })
    }

    /// Edges joined with `+`, without runs and sides.
    fn plain_chain(&mut self, pair: Pair<Rule>) -> Chain {
        let span = self.span(&pair);
        let (mut edges, mut ring) = (Vec::new(), false);
        for kid in Kids::of(pair) {
            match kid.as_rule() {
                Rule::qname => edges.push(whole(self.dotted(kid))),
                Rule::k_ring => ring = true,
                _ => {}
            }
        }
        Chain { edges, ring, span }
    }

    /// `outer.collar to inside.collar along left + top + right`, and the sides that it stands for.
    pub(super) fn alongside(&mut self, pair: Pair<Rule>) -> Option<(SeamAlong, (Side, Side))> {
        let mut kids = Kids::of(pair);
        let (first, _, second) = (kids.next()?, kids.next()?, kids.next()?);
        let pieces = [self.dotted(first), self.dotted(second)];
        let edges: Vec<_> =
            kids.filter(|kid| kid.as_rule() == Rule::name).map(|edge| self.name(edge)).collect();
        let [first, second] = &pieces;
        let along = |piece: &Dotted| {
            let each = edges.iter().map(|edge| {
                let parts = piece.parts.iter().chain([edge]).cloned().collect();
                whole(Dotted { parts, on: None, span: edge.span })
            });
            let chain = Chain { edges: each.collect(), ring: false, span: piece.span };
            Side { plies: vec![chain], span: piece.span }
        };
        let sides = (along(first), along(second));
        Some((SeamAlong { pieces, edges }, sides))
    }
}

/// All of an edge.
fn whole(edge: Dotted) -> SewnWords {
    let span = edge.span;
    SewnWords { edge, run: None, over: Vec::new(), span }
}
