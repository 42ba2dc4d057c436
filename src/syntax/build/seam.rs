use super::{Builder, Context, Kids, hand_of, on_side};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Chain, Dotted, Fit, FitKind, GapAt, NotchesApart, RunWords, Seam, SeamItem, SeamItemNode, SeamKind,
    SewnWords, Side,
};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn seam(&mut self, pair: Pair<Rule>) -> Option<Seam> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let name = kids.next()?;
        let name = self.name(name);
        let label = kids.only(Rule::text).map(|text| self.text(text));
        let first = kids.next()?;
        let across_fold = first.as_rule() == Rule::across_fold;
        let mut along = None;
        let (first, mut second) = match first.as_rule() {
            Rule::across_fold => (self.each_end(first), Side { plies: Vec::new(), span: name.span }),
            Rule::alongside => {
                let (said, sides) = self.alongside(first)?;
                along = Some(Box::new(said));
                sides
            }
            _ => {
                kids.has(Rule::k_to);
                let second = kids.next()?;
                (self.side(first), self.side(second))
            }
        };
        let fit = match kids.only(Rule::fit) {
            Some(fit) => Some(self.fit(fit)?),
            None => None,
        };
        let enclosing = match kids.has(Rule::k_enclosing) {
            true => kids.next().map(|list| self.names(list)).unwrap_or_default(),
            false => Vec::new(),
        };
        let last = second.plies.last_mut().and_then(|chain| chain.edges.last_mut());
        self.on_side_of(&mut kids, last.into_iter().map(|last| &mut last.edge));
        let items = self.block(Context::Seam, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            Some(SeamItem { span, node: builder.seam_item(item)? })
        });
        Some(Seam { name, label, first, second, fit, across_fold, along, enclosing, items })
    }

    /// `cuff.left, cuff.right`: each is a ply by itself.
    fn each_end(&mut self, pair: Pair<Rule>) -> Side {
        let span = self.span(&pair);
        let ends = Kids::of(pair).find(|kid| kid.as_rule() == Rule::qlist);
        let ends = ends.map(|ends| self.dotteds(ends)).unwrap_or_default();
        let ply = |edge: Dotted| {
            let span = edge.span;
            Chain {
                edges: vec![SewnWords { edge, run: None, over: Vec::new(), ring: false, span }],
                ring: false,
                span,
            }
        };
        Side { plies: ends.into_iter().map(ply).collect(), span }
    }

    fn side(&mut self, pair: Pair<Rule>) -> Side {
        let span = self.span(&pair);
        let rounds = Kids::of(pair).filter(|kid| kid.as_rule() == Rule::round);
        Side { plies: rounds.filter_map(|round| self.round(round)).collect(), span }
    }

    fn round(&mut self, pair: Pair<Rule>) -> Option<Chain> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let chain = kids.only(Rule::seam_chain)?;
        Some(Chain { ring: kids.any(|kid| kid.as_rule() == Rule::k_ring), span, ..self.chain(chain) })
    }

    pub(super) fn chain(&mut self, pair: Pair<Rule>) -> Chain {
        let span = self.span(&pair);
        Chain { edges: self.sewn_words(pair), ring: false, span }
    }

    /// `a + b`, or `panel.bottom in a ring`
    pub(super) fn ring_chain(&mut self, pair: Pair<Rule>) -> Option<Chain> {
        let span = self.span(&pair);
        let mut words = Kids::of(pair);
        let chain = words.next()?;
        let ring = words.any(|word| word.as_rule() == Rule::k_ring);
        Some(Chain { ring, span, ..self.chain(chain) })
    }

    /// Edges, or runs of them. One whose run could not be read is left out.
    pub(super) fn sewn_words(&mut self, pair: Pair<Rule>) -> Vec<SewnWords> {
        let mut all: Vec<SewnWords> = Vec::new();
        // What says that an edge lies in a ring stands behind it.
        let mut said = false;
        for kid in Kids::of(pair) {
            let span = self.span(&kid);
            let found = match kid.as_rule() {
                Rule::sewn => self.one_sewn(kid),
                Rule::stacked => {
                    let mut plies = self.sewn_words(kid);
                    let over = plies.split_off(plies.len().min(1));
                    plies.pop().map(|first| SewnWords { over, span, ..first })
                }
                Rule::k_ring => {
                    if let Some(last) = all.last_mut().filter(|_| said) {
                        last.ring = true;
                        last.span = last.span.to(span);
                    }
                    continue;
                }
                _ => continue,
            };
            said = found.is_some();
            all.extend(found);
        }
        all
    }

    /// `front.side 20 from waist_side on left`
    pub(super) fn one_sewn(&mut self, sewn: Pair<Rule>) -> Option<SewnWords> {
        let span = self.span(&sewn);
        let mut kids = Kids::of(sewn);
        let edge = kids.next()?;
        let edge = self.dotted(edge);
        let run = match kids.only(Rule::run) {
            Some(run) => Some(self.run_words(run)?),
            None => None,
        };
        let on = on_side(&mut kids);
        // The side is a part of the name where it stands beside it.
        let named = if on.is_some() && run.is_none() { span } else { edge.span };
        let edge = Dotted { on, span: named, ..edge };
        Some(SewnWords { edge, run, over: Vec::new(), ring: false, span })
    }

    /// `20 from waist_side`, `3..19 from waist_side`
    pub(super) fn run_words(&mut self, pair: Pair<Rule>) -> Option<RunWords> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let first = kids.next()?;
        let first = self.value(first)?;
        let second = match kids.only(Rule::value) {
            Some(second) => Some(self.value(second)?),
            None => None,
        };
        kids.has(Rule::k_from);
        let counted = kids.next()?;
        let counted = self.dotted(counted);
        let (from, to) = match second {
            Some(second) => (Some(first), second),
            None => (None, first),
        };
        Some(RunWords { from, to, counted, span })
    }

    fn fit(&mut self, pair: Pair<Rule>) -> Option<Fit> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_easing => FitKind::Easing,
            Rule::k_gathering => FitKind::Gathering,
            _ => FitKind::Stretching,
        };
        let low = kids.next()?;
        let low = self.value(low)?;
        let high = match kids.only(Rule::value) {
            Some(high) => Some(self.value(high)?),
            None => None,
        };
        let between = match kids.has(Rule::k_between) {
            true => {
                let (one, _, other) = (kids.next()?, kids.next()?, kids.next()?);
                Some((self.sewn_place(one)?, self.sewn_place(other)?))
            }
            false => None,
        };
        Some(Fit { kind, low, high, between, span })
    }

    pub(super) fn seam_item(&mut self, pair: Pair<Rule>) -> Option<SeamItemNode> {
        let rule = pair.as_rule();
        if rule == Rule::stitch {
            return Some(SeamItemNode::Stitch(self.stitch(pair)?));
        }
        if rule == Rule::seam_kind {
            return self.seam_kind(pair);
        }
        let mut kids = Kids::of(pair);
        kids.next();
        Some(match rule {
            Rule::allowance => {
                let value = kids.next()?;
                SeamItemNode::Allowance(self.value(value)?)
            }
            Rule::seam_tape => SeamItemNode::Tape(match kids.next() {
                Some(value) => Some(self.value(value)?),
                None => None,
            }),
            Rule::seam_notch => {
                let apart = match kids.rule()? {
                    Rule::k_quarters => Some(NotchesApart::Quarters),
                    Rule::k_thirds => Some(NotchesApart::Thirds),
                    Rule::k_every => {
                        let every = kids.nth(1)?;
                        Some(NotchesApart::Every(self.value(every)?))
                    }
                    _ => None,
                };
                match apart {
                    Some(apart) => {
                        if !matches!(apart, NotchesApart::Every(_)) {
                            kids.next();
                        }
                        SeamItemNode::Notches { apart, double: kids.has(Rule::k_double) }
                    }
                    None => {
                        let place = kids.next()?;
                        let place = self.edge_place(place)?;
                        SeamItemNode::Notch { place, double: kids.has(Rule::k_double) }
                    }
                }
            }
            Rule::gap => {
                let length = kids.nth(1)?;
                let mut length = self.value(length)?;
                let mut begins = None;
                if let Some(to) = kids.only(Rule::value) {
                    begins = Some(std::mem::replace(&mut length, self.value(to)?));
                }
                let at = match kids.only(Rule::gap_from).or_else(|| kids.only(Rule::gap_middle)) {
                    Some(at) => Some(self.gap_at(at)?),
                    None => None,
                };
                let layer = match kids.has(Rule::k_in) {
                    true => kids.next().map(|name| self.name(name)),
                    false => None,
                };
                let hand = kids.next().map(|hand| hand_of(&hand));
                SeamItemNode::Gap { begins, length, at, layer, hand }
            }
            Rule::caught_ply => {
                let (ply, _, on, place) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
                let (ply, on) = (self.dotted(ply), self.dotted(on));
                SeamItemNode::Caught { ply, on, place: self.edge_place(place)? }
            }
            _ => {
                let (one, _, other) = (kids.next()?, kids.next()?, kids.next()?);
                SeamItemNode::Matching(self.dotted(one), self.dotted(other))
            }
        })
    }

    /// `from hem_side along front.hem`, `in the middle`
    fn gap_at(&mut self, pair: Pair<Rule>) -> Option<GapAt> {
        let span = self.span(&pair);
        let is_middle = pair.as_rule() == Rule::gap_middle;
        let mut kids = Kids::of(pair);
        let counted = match is_middle {
            true => {
                kids.nth(2)?;
                None
            }
            false => {
                let counted = kids.nth(1)?;
                Some(self.dotted(counted))
            }
        };
        let along = match kids.has(Rule::k_along) {
            true => kids.next().map(|edge| self.dotted(edge)),
            false => None,
        };
        Some(GapAt { counted, along, span })
    }

    fn seam_kind(&mut self, pair: Pair<Rule>) -> Option<SeamItemNode> {
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_felled => SeamKind::Felled,
            Rule::k_french => SeamKind::French,
            Rule::k_lapped => SeamKind::Lapped,
            Rule::k_topstitched => SeamKind::Topstitched,
            _ => SeamKind::EdgesBound,
        };
        kids.has(Rule::k_bound);
        let width = kids.next()?;
        let width = self.value(width)?;
        let over = match kids.has(Rule::k_over) {
            true => kids.next().map(|side| self.dotted(side)),
            false => None,
        };
        Some(SeamItemNode::Kind { kind, width, over })
    }
}
