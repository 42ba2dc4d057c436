use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Binding, Expr, Finish, FinishKind, Hem, HemEdge, RowEnd};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn finish(&mut self, pair: Pair<Rule>) -> Option<Finish> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (edges, finishing) = (kids.next()?, kids.next()?);
        let mut edges = self.sewn_words(edges);
        let kind_span = self.span(&finishing);
        let (kind, binding_stretch) = self.finishing(finishing)?;
        self.on_side_of(&mut kids, edges.iter_mut().map(|sewn| &mut sewn.edge));
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
}
