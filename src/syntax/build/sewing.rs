use super::{Builder, Context, Kids, hand_of, on_side};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Anchor, AnchorAt, Binding, Chain, Closure, ClosureItem, ClosureItemNode, Cord, Dotted, Expr, Fastener,
    Fasteners, Finish, FinishKind, Fit, FitKind, GapAt, Hand, Hem, HemEdge, HostPlace, NotchesApart, Opening,
    Place, PlaceItem, PlaceItemNode, Placket, PlacketKind, RowEnd, RunWords, Seam, SeamItem, SeamItemNode,
    SeamKind, SewnWords, Side, Zipper, ZipperKind,
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
        if let Some(hand) = on_side(&mut kids)
            && let Some(last) = second.plies.last_mut().and_then(|chain| chain.edges.last_mut())
        {
            last.edge.on.get_or_insert(hand);
        }
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
    fn run_words(&mut self, pair: Pair<Rule>) -> Option<RunWords> {
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

    pub(super) fn finish(&mut self, pair: Pair<Rule>) -> Option<Finish> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (edges, finishing) = (kids.next()?, kids.next()?);
        let mut edges = self.sewn_words(edges);
        let kind_span = self.span(&finishing);
        let (kind, binding_stretch) = self.finishing(finishing)?;
        if let Some(hand) = on_side(&mut kids) {
            edges.iter_mut().for_each(|sewn| _ = sewn.edge.on.get_or_insert(hand));
        }
        kids.has(Rule::open);
        let stitch = match kids.only(Rule::stitch) {
            Some(stitch) => Some(self.stitch(stitch)?),
            None => None,
        };
        Some(Finish { edges, kind, kind_span, binding_stretch, stitch })
    }

    /// How an edge is finished, and how far a binding stretches.
    pub(super) fn finishing(&mut self, pair: Pair<Rule>) -> Option<(FinishKind, Option<Expr>)> {
        let mut kids = Kids::of(pair);
        let form = kids.next()?.as_rule();
        let depth = match kids.only(Rule::value) {
            Some(depth) if form == Rule::k_hem => return Some((self.hem(depth, kids)?, None)),
            Some(width) if form == Rule::k_bound => return self.binding(width, kids),
            Some(width) if form == Rule::k_elastic => {
                let length = kids.nth(1)?;
                let (width, length) = (self.value(width)?, self.value(length)?);
                return Some((FinishKind::Elastic { width, length }, None));
            }
            Some(width) if form == Rule::k_tape => {
                return Some((FinishKind::Tape(Some(self.value(width)?)), None));
            }
            Some(depth) => self.value(depth)?,
            None if form == Rule::k_tape => return Some((FinishKind::Tape(None), None)),
            None if form == Rule::k_turned => {
                let seam = kids.nth(2)?;
                return Some((FinishKind::TurnedUnderOnto(self.name(seam)), None));
            }
            None if form == Rule::k_overlocked => return Some((FinishKind::Overlocked, None)),
            None => return Some((FinishKind::Raw, None)),
        };
        let more = kids.rule();
        let mut values = kids.filter(|kid| kid.as_rule() == Rule::value);
        let kind = match more {
            Some(_) => {
                let (width, length) = (values.next()?, values.next()?);
                FinishKind::Casing { depth, elastic: Some((self.value(width)?, self.value(length)?)) }
            }
            None => FinishKind::Casing { depth, elastic: None },
        };
        Some((kind, None))
    }

    fn binding(&mut self, width: Pair<Rule>, mut kids: Kids) -> Option<(FinishKind, Option<Expr>)> {
        let width = self.value(width)?;
        let stretch = match kids.has(Rule::k_stretch) {
            true => {
                let stretch = kids.next()?;
                Some(self.value(stretch)?)
            }
            false => None,
        };
        let cut_from = match kids.has(Rule::k_cut) {
            true => kids.nth(1).map(|name| self.name(name)),
            false => None,
        };
        let mut binding = Binding { width, cut_from, running_on: Vec::new(), loops: Vec::new() };
        for kid in kids {
            let is_loop = kid.as_rule() == Rule::looping;
            let mut own = Kids::of(kid).filter(|kid| {
                matches!(kid.as_rule(), Rule::value | Rule::sewn_place | Rule::k_start | Rule::k_end)
            });
            while let (Some(length), Some(at)) = (own.next(), own.next()) {
                let length = self.value(length)?;
                match at.as_rule() {
                    Rule::k_start => binding.running_on.push((length, RowEnd::Start)),
                    Rule::k_end => binding.running_on.push((length, RowEnd::End)),
                    _ if is_loop => {
                        let at = self.sewn_place(at)?;
                        binding.loops.push((length, at));
                    }
                    _ => {}
                }
            }
        }
        Some((FinishKind::Bound(binding), stretch))
    }

    fn hem(&mut self, depth: Pair<Rule>, mut kids: Kids) -> Option<FinishKind> {
        let depth = self.value(depth)?;
        let raw_edge = if kids.has(Rule::k_turned) {
            kids.next();
            let under = kids.next()?;
            HemEdge::TurnedUnder(self.value(under)?)
        } else if kids.has(Rule::k_twice) {
            HemEdge::TurnedTwice
        } else {
            HemEdge::TurnedOnce
        };
        let turn_up = match kids.has(Rule::k_turnup) {
            true => {
                let turn_up = kids.next()?;
                Some(self.value(turn_up)?)
            }
            false => None,
        };
        Some(FinishKind::Hem(Hem { depth, raw_edge, turn_up }))
    }

    pub(super) fn place(&mut self, pair: Pair<Rule>) -> Option<Place> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let (piece, _, on) = (kids.next()?, kids.next()?, kids.next()?);
        let (piece, on) = (self.dotted(piece), self.use_of(on)?);
        let items = self.block(Context::Place, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            Some(PlaceItem { span, node: builder.place_item(item)? })
        });
        Some(Place { piece, on, items })
    }

    fn place_item(&mut self, pair: Pair<Rule>) -> Option<PlaceItemNode> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        kids.next();
        let first = kids.next()?;
        Some(match rule {
            Rule::corner_at => {
                let corner = self.name(first);
                let on_edge = kids.next()?.as_rule() == Rule::k_on;
                let at = kids.next()?;
                let at = match on_edge {
                    true => {
                        let place = kids.next()?;
                        HostPlace::Edge(self.name(at), self.edge_place(place)?)
                    }
                    false => HostPlace::Point(self.name(at)),
                };
                PlaceItemNode::Corner { corner, at }
            }
            Rule::topstitch if first.as_rule() == Rule::k_all => PlaceItemNode::TopstitchAllRound,
            Rule::topstitch => PlaceItemNode::Topstitch(self.names(first)),
            _ => {
                let seam = kids.nth(1)?;
                PlaceItemNode::Caught { edges: self.names(first), in_seam: self.name(seam) }
            }
        })
    }

    pub(super) fn closure(&mut self, pair: Pair<Rule>) -> Option<Closure> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, first, _, second) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let (name, first, second) = (self.name(name), self.ring_chain(first)?, self.ring_chain(second)?);
        let end_to_end = kids.only(Rule::end_to_end).map(|words| self.span(&words));
        let items = self.block(Context::Closure, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            let node = match item.as_rule() {
                Rule::zipper => ClosureItemNode::Zipper(builder.zipper(item)?),
                _ => ClosureItemNode::Fasteners(Box::new(builder.fasteners(item)?)),
            };
            Some(ClosureItem { span, node })
        });
        Some(Closure { name, first, second, end_to_end, items })
    }

    fn zipper(&mut self, pair: Pair<Rule>) -> Option<Zipper> {
        let mut kids = Kids::of(pair);
        let kind = match kids.nth(1)?.as_rule() {
            Rule::k_separating => ZipperKind::Separating,
            Rule::k_closed => ZipperKind::Closed,
            _ => ZipperKind::Concealed,
        };
        let stocked = kids.has(Rule::k_stocked);
        let mut lengths = Vec::new();
        while let Some(rule) = kids.rule()
            && !matches!(rule, Rule::k_showing | Rule::k_clear)
        {
            let length = kids.next()?;
            lengths.push(if rule == Rule::value { self.value(length)? } else { self.sum(length)? });
        }
        let showing = match kids.has(Rule::k_showing) {
            true => {
                let showing = kids.next()?;
                Some(self.value(showing)?)
            }
            false => None,
        };
        let clear = match kids.has(Rule::k_clear) {
            true => {
                let clear = kids.nth(2)?;
                Some(self.value(clear)?)
            }
            false => None,
        };
        Some(Zipper {
            kind,
            lengths: if stocked { self.split_commas(lengths) } else { lengths },
            stocked,
            showing,
            clear,
        })
    }

    fn fasteners(&mut self, pair: Pair<Rule>) -> Option<Fasteners> {
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_buttons => Fastener::Button,
            Rule::k_snaps => Fastener::Snap,
            Rule::k_hooks => Fastener::Hook,
            Rule::k_toggles => Fastener::Toggle,
            Rule::k_buckle => Fastener::Buckle,
            _ => Fastener::Tie,
        };
        let value = |builder: &mut Self, kids: &mut Kids| match kids.only(Rule::value) {
            Some(said) => builder.value(said).map(Some),
            None => Some(None),
        };
        let first = value(self, &mut kids)?;
        kids.has(Rule::k_of);
        let second = value(self, &mut kids)?;
        let (count, size) = if kind == Fastener::Buckle { (None, first) } else { (first, second) };
        let between = match kids.has(Rule::k_from) {
            true => {
                let (from, _, to) = (kids.next()?, kids.next()?, kids.next()?);
                Some((self.anchor(from)?, self.anchor(to)?))
            }
            false => None,
        };
        let stand = match kids.has(Rule::k_stand) {
            true => {
                let stand = kids.next()?;
                Some(self.value(stand)?)
            }
            false => None,
        };
        let over = kids.next().map(|hand| hand_of(&hand));
        Some(Fasteners { kind, count, size, between, stand, over })
    }

    fn anchor(&mut self, pair: Pair<Rule>) -> Option<Anchor> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        if let Some(place) = kids.only(Rule::place_on) {
            return Some(Anchor { at: AnchorAt::Place(self.edge_place(place)?), span });
        }
        let (distance, word, point) = (kids.next()?, kids.next()?, kids.next()?);
        let below = word.as_rule() == Rule::k_below;
        let (distance, point) = (self.value(distance)?, self.name(point));
        Some(Anchor { at: AnchorAt::Beside { distance, below, point }, span })
    }

    pub(super) fn opening(&mut self, pair: Pair<Rule>) -> Option<Opening> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (ring, _, passes) = (kids.next()?, kids.next()?, kids.next()?);
        Some(Opening { ring: self.ring_chain(ring)?, passes: self.name(passes) })
    }

    pub(super) fn placket(&mut self, pair: Pair<Rule>) -> Option<Placket> {
        let mut kids = Kids::of(pair);
        let (name, slit, how) = (kids.nth(1)?, kids.nth(1)?, kids.next()?.as_rule());
        let (name, slit) = (self.name(name), self.dotted(slit));
        let kind = match how {
            Rule::k_bound => {
                let width = kids.next()?;
                PlacketKind::Bound(self.value(width)?)
            }
            _ => {
                let (over, under) = (kids.nth(1)?, kids.nth(1)?);
                let (over, under) = (self.value(over)?, self.value(under)?);
                let upper = match kids.next().map(|word| word.as_rule()) {
                    Some(Rule::k_left) => Some(Hand::Left),
                    Some(Rule::k_right) => Some(Hand::Right),
                    _ => None,
                };
                PlacketKind::TwoPart { over, under, upper }
            }
        };
        Some(Placket { name, slit, kind })
    }

    pub(super) fn cord(&mut self, pair: Pair<Rule>) -> Option<Cord> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, length, _, through) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let (name, length, through) = (self.name(name), self.value(length)?, self.uses_of(through));
        let ends = match kids.has(Rule::k_ends) {
            true => {
                let ends = kids.next()?;
                Some(self.value(ends)?)
            }
            false => None,
        };
        Some(Cord { name, length, through, ends })
    }
}
