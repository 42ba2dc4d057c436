use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Band, BandChange, Chain, Dotted, Expr, Facing, Neatened, PieceChange, SeamAlong, SeamChange, SeamItem,
    SewnWords, Side, Underlap,
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
        let inside = self.inside(&mut kids);
        let share = self.share(&mut kids)?;
        let (joined, opening) = self.ends(&mut kids);
        let underlap = self.underlap(&mut kids)?;
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

    /// `in band collar, hem_band opening at front_zip`
    pub(super) fn band_change(&mut self, pair: Pair<Rule>) -> Option<BandChange> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let names = kids.nth(2)?;
        let names = self.names(names);
        let depth = match kids.only(Rule::value) {
            Some(depth) => {
                kids.has(Rule::k_deep);
                Some(self.value(depth)?)
            }
            None => None,
        };
        let round = match kids.rule() {
            Some(Rule::k_round) => Some(true),
            Some(Rule::k_along) => Some(false),
            _ => None,
        };
        let edges = match round {
            Some(round) => kids.nth(1).map(|edges| (round, self.plain_chain(edges))),
            None => None,
        };
        let inside = self.inside(&mut kids);
        let share = self.share(&mut kids)?;
        let (joined, opening) = self.ends(&mut kids);
        let underlap = self.underlap(&mut kids)?;
        let stiffened = self.stiffened(&mut kids);
        let items = self.of_seam(&mut kids, from);
        Some(BandChange { names, depth, edges, inside, share, joined, opening, underlap, stiffened, items })
    }

    /// `in seam sleeve add { … }`
    pub(super) fn seam_change(&mut self, pair: Pair<Rule>) -> Option<SeamChange> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let (name, how) = (kids.nth(2)?, kids.next()?);
        let how = match how.as_rule() {
            Rule::k_replace => PieceChange::Replaces,
            _ => PieceChange::Adds,
        };
        Some(SeamChange { name: self.name(name), how, items: self.of_seam(&mut kids, from) })
    }

    fn inside(&mut self, kids: &mut Kids) -> Option<Chain> {
        match kids.has(Rule::k_inside) {
            true => kids.next().map(|edges| self.plain_chain(edges)),
            false => None,
        }
    }

    fn share(&mut self, kids: &mut Kids) -> Option<Option<Expr>> {
        Some(match kids.has(Rule::k_at) {
            true => {
                let share = kids.next()?;
                Some(self.value(share)?)
            }
            false => None,
        })
    }

    /// Where its ends are joined, and what lies between them.
    fn ends(&mut self, kids: &mut Kids) -> (Option<Dotted>, Option<Dotted>) {
        let mut said = |rule: Rule| match kids.has(rule) {
            true => kids.nth(1).map(|at| self.dotted(at)),
            false => None,
        };
        (said(Rule::k_joined), said(Rule::k_opening))
    }

    fn underlap(&mut self, kids: &mut Kids) -> Option<Option<Underlap>> {
        Some(match kids.has(Rule::k_underlap) {
            true => {
                let (length, at) = (kids.next()?, kids.nth(1)?);
                Some(Underlap { length: self.value(length)?, at: self.name(at) })
            }
            false => None,
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
                Rule::sewn => edges.extend(self.one_sewn(kid)),
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
    SewnWords { edge, run: None, over: Vec::new(), ring: false, span }
}
