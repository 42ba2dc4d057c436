use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Alteration, AlterationKind, Amount, DartChange, DartGoal, DartLet, DartMove, DartSplit, Expr, LeftAs,
    Name, PleatLet,
};
use pest::iterators::Pair;

impl Builder<'_> {
    /// Any alteration: its verb, then its clauses, each told by the word or rule that it begins with.
    pub(super) fn alteration(&mut self, pair: Pair<Rule>) -> Option<Alteration> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        let first = kids.next()?.as_str();
        match rule {
            Rule::move_dart => return self.move_dart(kids),
            Rule::let_pleat => return self.let_pleat(kids),
            Rule::let_dart => return self.let_dart(kids),
            Rule::leave_dart => return self.leave_dart(kids),
            Rule::split_darts => return self.split_darts(kids),
            Rule::close_dart => {
                let dart = kids.nth(1)?;
                let mut made = bare(AlterationKind::CloseDart);
                made.targets.push(self.dotted(dart));
                made.dart = Some(DartChange::Close);
                return Some(made);
            }
            _ => {}
        }
        let kind = match AlterationKind::beginning(first, None) {
            Some(kind) => kind,
            None => AlterationKind::beginning(first, Some(kids.next()?.as_str()))?,
        };
        let mut made = bare(kind);
        while let Some(kid) = kids.next() {
            match kid.as_rule() {
                Rule::qlist => made.targets = self.dotteds(kid),
                Rule::qname => made.targets.push(self.dotted(kid)),
                Rule::k_to => {}
                Rule::k_at | Rule::k_along => {
                    let at = kids.next()?;
                    made.at = Some(self.name(at));
                }
                Rule::path => made.path = Some(self.path(kid)?),
                Rule::k_by => match kids.only(Rule::tapered) {
                    Some(tapered) => made.tapered = Some(Box::new(self.tapered(tapered)?)),
                    None => {
                        let by = kids.next()?;
                        made.amount = Some(Amount::By(self.value(by)?));
                    }
                },
                Rule::k_stepped => made.stepped = true,
                Rule::amount => made.amount = Some(self.amount(kid)?),
                Rule::k_keeping => {
                    let kept = kids.next()?;
                    made.keeping = self.dotteds(kept);
                }
                Rule::k_into => {
                    while let Some(name) = kids.only(Rule::name) {
                        made.into.push(self.name(name));
                    }
                }
                _ => return None,
            }
        }
        Some(made)
    }

    /// `0 at underarm, 2 at hem_side`
    fn tapered(&mut self, pair: Pair<Rule>) -> Option<[(Expr, Name); 2]> {
        let mut kids = Kids::of(pair);
        let mut end = || {
            let (by, at) = (kids.next()?, kids.nth(1)?);
            Some((self.sum(by)?, self.name(at)))
        };
        Some([end()?, end()?])
    }

    fn amount(&mut self, pair: Pair<Rule>) -> Option<Amount> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let by = kids.has(Rule::k_by);
        kids.has(Rule::k_about);
        let about = match (by, kids.only(Rule::value)) {
            (true, Some(value)) => Some(self.value(value)?),
            _ => None,
        };
        if !kids.has(Rule::k_until) {
            return about.map(Amount::By);
        }
        let closure = kids.next()?;
        Some(Amount::Until { about, closure: self.name(closure), span })
    }

    /// What follows `move`.
    fn move_dart(&mut self, mut kids: Kids) -> Option<Alteration> {
        let mut made = bare(AlterationKind::MoveDart);
        let share = match kids.only(Rule::expr) {
            Some(share) => {
                kids.has(Rule::k_of);
                Some(self.sum(share)?)
            }
            None => None,
        };
        kids.has(Rule::k_dart);
        let dart = kids.next()?;
        made.targets.push(self.dotted(dart));
        let goal = match kids.has(Rule::k_to) {
            true => {
                let (edge, place) = (kids.next()?, kids.next()?);
                DartGoal::Edge { edge: self.name(edge), place: self.edge_place(place)? }
            }
            false => {
                kids.has(Rule::k_into);
                kids.has(Rule::k_dart);
                let into = kids.next()?;
                DartGoal::Dart(self.dotted(into))
            }
        };
        let named = match kids.has(Rule::k_as) {
            true => kids.next().map(|name| self.name(name)),
            false => None,
        };
        let stopping = self.stopping(&mut kids)?;
        let laid = match kids.rule() {
            Some(Rule::k_cut | Rule::k_pressed) => Some(self.dart_laid(&mut kids)?),
            _ => None,
        };
        let trued = kids.has(Rule::k_trued);
        made.dart = Some(DartChange::Move(Box::new(DartMove { share, goal, named, stopping, laid, trued })));
        Some(made)
    }

    /// What follows `let` of a pleat.
    fn let_pleat(&mut self, mut kids: Kids) -> Option<Alteration> {
        let mut made = bare(AlterationKind::LetPleat);
        let (name, edge) = (kids.nth(1)?, kids.nth(1)?);
        let (name, target) = (self.name(name), self.dotted(edge));
        let edge = target.parts.last()?.clone();
        let (pleat, nothing) = self.pleat_ways(edge, &mut kids, false)?;
        made.targets.push(target);
        made.dart = Some(DartChange::LetPleat(Box::new(PleatLet { name, pleat, nothing })));
        Some(made)
    }

    /// What follows `let`.
    fn let_dart(&mut self, mut kids: Kids) -> Option<Alteration> {
        let mut made = bare(AlterationKind::LetDart);
        let (name, edge, place) = (kids.nth(1)?, kids.nth(1)?, kids.next()?);
        let (angle, to, turning) = (kids.nth(1)?, kids.nth(1)?, kids.nth(2)?);
        let ends = match kids.only(Rule::edge_place) {
            Some(ends) => Some(self.edge_place(ends)?),
            None => None,
        };
        made.targets.push(self.dotted(edge));
        made.dart = Some(DartChange::Let(Box::new(DartLet {
            name: self.name(name),
            place: self.edge_place(place)?,
            angle: self.value(angle)?,
            to: self.sum(to)?,
            turning: self.name(turning),
            ends,
            ways: self.dart_ways(&mut kids)?,
        })));
        Some(made)
    }

    /// What follows `leave`.
    fn leave_dart(&mut self, mut kids: Kids) -> Option<Alteration> {
        let mut made = bare(AlterationKind::LeaveDart);
        let dart = kids.nth(1)?;
        made.targets.push(self.dotted(dart));
        let left = match kids.nth(1)?.as_rule() {
            Rule::k_ease => LeftAs::Ease,
            Rule::k_gathers => LeftAs::Gathers,
            _ => LeftAs::Flare,
        };
        made.dart = Some(DartChange::Leave(left));
        Some(made)
    }
}

impl Builder<'_> {
    /// What follows `split`, where that goes from a dart to a dart.
    fn split_darts(&mut self, mut kids: Kids) -> Option<Alteration> {
        let mut made = bare(AlterationKind::Split);
        let (piece, from) = (kids.next()?, kids.nth(1)?);
        made.targets.push(self.dotted(piece));
        let from = self.name(from);
        let mut through = Vec::new();
        if kids.has(Rule::k_through) {
            while let Some(point) = kids.only(Rule::expr) {
                through.push(self.sum(point)?);
            }
        }
        let (to, one, other, named) = (kids.nth(1)?, kids.nth(1)?, kids.next()?, kids.nth(1)?);
        let (to, named) = (self.name(to), self.name(named));
        made.into = vec![self.name(one), self.name(other)];
        let rounded = match kids.has(Rule::k_rounded) {
            true => {
                let radius = kids.next()?;
                Some(self.value(radius)?)
            }
            false => None,
        };
        // The new edge stands where a line's name would.
        made.at = Some(named.clone());
        made.dart = Some(DartChange::Split(Box::new(DartSplit { from, through, to, named, rounded })));
        Some(made)
    }
}

/// An alteration of a kind, without its clauses.
fn bare(kind: AlterationKind) -> Alteration {
    Alteration {
        kind,
        targets: Vec::new(),
        at: None,
        path: None,
        amount: None,
        keeping: Vec::new(),
        into: Vec::new(),
        dart: None,
        tapered: None,
        stepped: false,
    }
}
