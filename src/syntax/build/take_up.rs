use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    DartCloth, DartLaid, DartWays, EdgePlace, Expr, Name, Pleat, PleatKind, PleatPlace, PressedWay, SlitCut,
    SlitEnd, TakeUp, TakeUpForm, WalkDart,
};
use pest::iterators::Pair;

impl Builder<'_> {
    /// What follows `dart`.
    pub(super) fn dart(&mut self, name: Name, mut kids: Kids) -> Option<TakeUp> {
        let cloth = match kids.next()?.as_rule() {
            Rule::k_on => {
                let (edge, place) = (kids.next()?, kids.next()?);
                let (edge, place) = (self.name(edge), self.edge_place(place)?);
                let (width, to) = (kids.nth(1)?, kids.nth(1)?);
                DartCloth::OnEdge { edge, place, width: self.value(width)?, to: self.sum(to)? }
            }
            _ => {
                let (at, width, up, down) = (kids.next()?, kids.nth(1)?, kids.nth(1)?, kids.nth(1)?);
                DartCloth::Inside {
                    at: self.value(at)?,
                    width: self.value(width)?,
                    up: self.value(up)?,
                    down: self.value(down)?,
                }
            }
        };
        Some(TakeUp { name, form: TakeUpForm::Dart { cloth, ways: self.dart_ways(&mut kids)? } })
    }

    /// What follows `slit`.
    pub(super) fn slit(&mut self, name: Pair<Rule>, mut kids: Kids) -> Option<TakeUp> {
        let name = self.name(name);
        let cut = match kids.next()?.as_rule() {
            Rule::k_from => {
                let (from, to) = (kids.next()?, kids.nth(1)?);
                SlitCut::Inside { from: self.sum(from)?, to: self.sum(to)? }
            }
            _ => {
                let (edge, place, end) = (kids.next()?, kids.next()?, kids.next()?);
                let edge = self.name(edge);
                let place = match place.as_rule() {
                    Rule::at_fold => EdgePlace::Fold,
                    _ => self.edge_place(place)?,
                };
                let mut to = Kids::of(end);
                let (way, value) = (to.next()?.as_rule(), to.next()?);
                let end = match paper_way(way) {
                    Some(way) => SlitEnd::Way(way, self.value(value)?),
                    None => SlitEnd::To(self.sum(value)?),
                };
                SlitCut::FromEdge { edge, place, end }
            }
        };
        let window = match kids.has(Rule::k_window) {
            true => {
                let window = kids.next()?;
                Some(self.value(window)?)
            }
            false => None,
        };
        Some(TakeUp { name, form: TakeUpForm::Slit { cut, window } })
    }

    /// What follows the name of a pleat or tuck.
    pub(super) fn pleat(&mut self, name: Name, mut kids: Kids, tuck: bool) -> Option<TakeUp> {
        let edge = kids.nth(1)?;
        let edge = self.name(edge);
        let (pleat, _) = self.pleat_ways(edge, &mut kids, tuck)?;
        Some(TakeUp { name, form: TakeUpForm::Pleat(Box::new(pleat)) })
    }

    /// What follows the edge of a pleat or tuck; of one that is let in also where it ends in nothing.
    pub(super) fn pleat_ways(
        &mut self,
        edge: Name,
        kids: &mut Kids,
        tuck: bool,
    ) -> Option<(Pleat, Option<Name>)> {
        let place = kids.next()?;
        let place = match place.as_rule() {
            Rule::at_fold => PleatPlace::Fold,
            _ => PleatPlace::On(self.edge_place(place)?),
        };
        let depth = kids.nth(1)?;
        let depth = self.value(depth)?;
        let kind = if kids.has(Rule::k_box) {
            PleatKind::Box(self.wide(kids)?)
        } else if kids.has(Rule::k_inverted) {
            PleatKind::Inverted(self.wide(kids)?)
        } else {
            PleatKind::Knife
        };
        let row = match kids.has(Rule::k_count) {
            true => {
                let (count, apart) = (kids.next()?, kids.nth(1)?);
                Some((self.value(count)?, self.value(apart)?))
            }
            false => None,
        };
        let toward = self.name_after(kids, Rule::k_toward)?;
        let (mut to, mut nothing) = (None, None);
        if kids.has(Rule::k_to) {
            let to_nothing = kids.has(Rule::k_nothing) && kids.has(Rule::k_at);
            let named = kids.next()?;
            *(if to_nothing { &mut nothing } else { &mut to }) = Some(self.name(named));
        }
        let stitched = match kids.has(Rule::k_stitched) {
            true => {
                let far = kids.nth(1)?;
                Some(self.value(far)?)
            }
            false => None,
        };
        let along = self.name_after(kids, Rule::k_along)?;
        let trued = kids.has(Rule::k_trued);
        let pleat = Pleat { tuck, edge, place, depth, kind, row, toward, to, stitched, along, trued };
        Some((pleat, nothing))
    }

    /// `4 wide`, if it is said.
    fn wide(&mut self, kids: &mut Kids) -> Option<Option<Expr>> {
        let Some(wide) = kids.only(Rule::expr) else { return Some(None) };
        kids.has(Rule::k_wide);
        Some(Some(self.sum(wide)?))
    }

    fn name_after(&mut self, kids: &mut Kids, leading: Rule) -> Option<Option<Name>> {
        if !kids.has(leading) {
            return Some(None);
        }
        let name = kids.next()?;
        Some(Some(self.name(name)))
    }

    /// What follows `dart` in a walk: the corner that it leads to, and the dart.
    pub(super) fn walk_dart(&mut self, mut kids: Kids) -> Option<(Name, WalkDart)> {
        let (about, to) = (kids.nth(1)?, kids.nth(1)?);
        let (about, to) = (self.sum(about)?, self.name(to));
        Some((to, WalkDart { about, ways: self.dart_ways(&mut kids)? }))
    }

    pub(super) fn dart_ways(&mut self, kids: &mut Kids) -> Option<DartWays> {
        let stopping = self.stopping(kids)?;
        let laid = self.dart_laid(kids)?;
        Some(DartWays { stopping, laid, trued: kids.has(Rule::k_trued) })
    }

    /// `stopping 2.5 short`, if it is said; none where it cannot be read.
    pub(super) fn stopping(&mut self, kids: &mut Kids) -> Option<Option<Expr>> {
        if !kids.has(Rule::k_stopping) {
            return Some(None);
        }
        let amount = kids.next()?;
        kids.has(Rule::k_short);
        self.sum(amount).map(Some)
    }

    /// `pressed toward centre`, `cut open`
    pub(super) fn dart_laid(&mut self, kids: &mut Kids) -> Option<DartLaid> {
        if kids.next()?.as_rule() == Rule::k_cut {
            kids.has(Rule::k_open);
            return Some(DartLaid::CutOpen);
        }
        let mut to = Kids::of(kids.next()?);
        Some(match paper_way(to.next()?.as_rule()) {
            Some(way) => DartLaid::Pressed(way),
            None => {
                let name = to.next()?;
                DartLaid::Toward(self.name(name))
            }
        })
    }

    /// A place where one may stand: `at the fold`, or one that is counted.
    pub(super) fn any_place(&mut self, kids: &mut Kids) -> Option<Option<EdgePlace>> {
        if kids.only(Rule::at_fold).is_some() {
            return Some(Some(EdgePlace::Fold));
        }
        match kids.only(Rule::edge_place) {
            Some(place) => Some(Some(self.edge_place(place)?)),
            None => Some(None),
        }
    }

    /// `at 8 from side`, `at 50%`, `in the middle`; `8 from side`
    pub(super) fn edge_place(&mut self, pair: Pair<Rule>) -> Option<EdgePlace> {
        let mut kids = Kids::of(pair);
        if kids.has(Rule::k_in) {
            return Some(EdgePlace::Middle);
        }
        kids.has(Rule::k_at);
        let value = kids.next()?;
        let value = self.value(value)?;
        let from = match kids.has(Rule::k_from) {
            true => {
                let from = kids.next()?;
                Some(self.dotted(from))
            }
            false => None,
        };
        Some(EdgePlace::At { value, from })
    }
}

/// A way on the paper.
fn paper_way(rule: Rule) -> Option<PressedWay> {
    match rule {
        Rule::k_up => Some(PressedWay::Up),
        Rule::k_down => Some(PressedWay::Down),
        Rule::k_left => Some(PressedWay::Left),
        Rule::k_right => Some(PressedWay::Right),
        _ => None,
    }
}
