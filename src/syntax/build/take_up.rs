use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    DartCloth, DartLaid, DartWays, EdgePlace, Expr, Name, PressedWay, SlitEnd, TakeUp, TakeUpForm, WalkDart,
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
        let (edge, place, end) = (kids.nth(1)?, kids.next()?, kids.next()?);
        let (edge, place) = (self.name(edge), self.edge_place(place)?);
        let mut to = Kids::of(end);
        let (way, value) = (to.next()?.as_rule(), to.next()?);
        let end = match paper_way(way) {
            Some(way) => SlitEnd::Way(way, self.value(value)?),
            None => SlitEnd::To(self.sum(value)?),
        };
        let window = match kids.has(Rule::k_window) {
            true => {
                let window = kids.next()?;
                Some(self.value(window)?)
            }
            false => None,
        };
        Some(TakeUp { name, form: TakeUpForm::Slit { edge, place, end, window } })
    }

    /// What follows `dart` in a walk: the corner that it leads to, and the dart.
    pub(super) fn walk_dart(&mut self, mut kids: Kids) -> Option<(Name, WalkDart)> {
        let (about, to) = (kids.nth(1)?, kids.nth(1)?);
        let (about, to) = (self.sum(about)?, self.name(to));
        Some((to, WalkDart { about, ways: self.dart_ways(&mut kids)? }))
    }

    fn dart_ways(&mut self, kids: &mut Kids) -> Option<DartWays> {
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
