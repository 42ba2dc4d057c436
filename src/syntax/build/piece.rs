use super::{Builder, Context, Kids, hand_of};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    CornerFact, CornerStyle, Cut, CutHow, Direction, DirectionKind, Divide, EdgePath, Expr, Grain, LeftOut,
    Line, LineRun, Notch, Outline, Piece, PieceItem, PieceItemNode, PointFact, StripEdge, WalkEdge,
};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn piece(&mut self, pair: Pair<Rule>) -> Option<Piece> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let block = kids.has(Rule::k_block);
        kids.has(Rule::k_piece);
        let name = kids.next()?;
        let name = self.name(name);
        let title = kids.only(Rule::text).map(|text| self.text(text));
        let like =
            kids.has(Rule::k_like).then(|| kids.only(Rule::name)).flatten().map(|name| self.name(name));
        Some(Piece { name, title, block, like, items: self.piece_items(&mut kids, from) })
    }

    /// What stands in a piece's braces.
    pub(super) fn piece_items(&mut self, kids: &mut Kids, from: usize) -> Vec<PieceItem> {
        self.block(Context::Piece, kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            Some(PieceItem { span, node: builder.piece_item(item)? })
        })
    }

    fn piece_item(&mut self, pair: Pair<Rule>) -> Option<PieceItemNode> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        kids.next();
        let first = kids.next()?;
        Some(match rule {
            Rule::cut => {
                let count = self.value(first)?;
                let (mut how, mut loose) = (CutHow::Alike, false);
                for kid in kids {
                    match kid.as_rule() {
                        Rule::k_mirrored => how = CutHow::Mirrored,
                        Rule::name => how = CutHow::OnFold(self.name(kid)),
                        Rule::k_loose => loose = true,
                        _ => {}
                    }
                }
                PieceItemNode::Cut(Cut { count, how, loose })
            }
            Rule::point | Rule::mark => {
                let fact = self.point_fact(first, &mut kids)?;
                if rule == Rule::point { PieceItemNode::Point(fact) } else { PieceItemNode::Mark(fact) }
            }
            Rule::outline => PieceItemNode::Outline(self.outline(first)?),
            Rule::line => PieceItemNode::Line(self.line(first, &mut kids)?),
            Rule::notch => {
                let place = kids.next()?;
                let (edge, place) = (self.name(first), self.edge_place(place)?);
                PieceItemNode::Notch(Notch { edge, place, double: kids.has(Rule::k_double) })
            }
            Rule::divide => {
                let place = kids.next()?;
                let (edge, place) = (self.name(first), self.edge_place(place)?);
                let (one, other) = (kids.nth(1)?, kids.next()?);
                let into = (self.name(one), self.name(other));
                PieceItemNode::Divide(Divide { edge, place, into })
            }
            Rule::dart => {
                let name = self.name(first);
                PieceItemNode::TakeUp(self.dart(name, kids)?)
            }
            Rule::pleat | Rule::tuck => {
                let name = self.name(first);
                PieceItemNode::TakeUp(self.pleat(name, kids, rule == Rule::tuck)?)
            }
            Rule::slit => PieceItemNode::TakeUp(self.slit(first, kids)?),
            Rule::folded => {
                let onto = kids.nth(1)?;
                let (edge, onto) = (self.name(first), self.name(onto));
                kids.has(Rule::k_in);
                PieceItemNode::Folded { edge, onto, in_four: kids.has(Rule::k_four) }
            }
            Rule::grain => PieceItemNode::Grain(match first.as_rule() {
                Rule::k_up => Grain::Up,
                Rule::k_across => Grain::Across,
                Rule::k_bias => Grain::Bias,
                _ => {
                    let edge = kids.next()?;
                    Grain::Along(self.name(edge))
                }
            }),
            Rule::allowance => PieceItemNode::Allowance(self.value(first)?),
            Rule::corner => {
                let (second, style) = (kids.next()?, kids.next()?);
                let style = match style.as_rule() {
                    Rule::k_square => CornerStyle::Square,
                    Rule::k_blunt => CornerStyle::Blunt,
                    _ => CornerStyle::Mitred,
                };
                PieceItemNode::Corner(CornerFact {
                    first: self.name(first),
                    second: self.name(second),
                    style,
                })
            }
            Rule::move_point => {
                let (point, _, by) = (kids.next()?, kids.next()?, kids.next()?);
                PieceItemNode::MovePoint { point: self.name(point), by: self.value(by)? }
            }
            Rule::drawn => PieceItemNode::Drawn(hand_of(&first)),
            Rule::left_out => {
                let all = std::iter::once(first).chain(kids).filter(|kid| kid.as_rule() == Rule::without);
                PieceItemNode::Without(all.filter_map(|one| self.without(one)).collect())
            }
            _ => PieceItemNode::NeverFlipped,
        })
    }

    /// `pocket_corner`, `notch side 8 from underarm`, `corner side/hem`
    fn without(&mut self, pair: Pair<Rule>) -> Option<LeftOut> {
        let mut kids = Kids::of(pair);
        let first = kids.next()?;
        Some(match first.as_rule() {
            Rule::k_notch => {
                let edge = kids.next()?;
                let edge = self.name(edge);
                let place = match kids.next() {
                    Some(place) => Some(self.edge_place(place)?),
                    None => None,
                };
                LeftOut::Notch { edge, place }
            }
            Rule::k_corner => {
                let (one, other) = (kids.next()?, kids.next()?);
                LeftOut::Corner(self.name(one), self.name(other))
            }
            _ => LeftOut::Named(self.name(first)),
        })
    }

    fn outline(&mut self, pair: Pair<Rule>) -> Option<Outline> {
        let from = pair.as_span().start();
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        if rule == Rule::parts {
            let edges = self.block(Context::Walk, &mut kids, from, Context::Piece, Self::walk_edge);
            return Some(Outline::Parts(edges));
        }
        kids.next();
        Some(match rule {
            Rule::walk => {
                let start = kids.next()?;
                let start = self.name(start);
                let cutting = kids.has(Rule::k_cutting);
                let edges = self.block(Context::Walk, &mut kids, from, Context::Piece, Self::walk_edge);
                Outline::Walk { from: start, cutting, edges }
            }
            Rule::rectangle => {
                let (width, _, height) = (kids.next()?, kids.next()?, kids.next()?);
                Outline::Rectangle { width: self.value(width)?, height: self.value(height)? }
            }
            Rule::strip => {
                let (_, of, _) = (kids.next()?, kids.next()?, kids.next()?);
                let of = self.dotted(of);
                let mut along = Vec::new();
                while let Some(edge) = kids.only(Rule::strip_edge) {
                    along.push(self.strip_edge(edge)?);
                }
                let width = kids.nth(1)?;
                let width = self.value(width)?;
                Outline::Strip { of, along, width, mirrored: kids.has(Rule::k_mirrored) }
            }
            Rule::copy => {
                let of = kids.nth(1)?;
                Outline::Copy { of: self.dotted(of), mirrored: kids.has(Rule::k_mirrored) }
            }
            _ => {
                let (_, of, _, without) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
                let (of, without) = (self.dotted(of), self.dotted(without));
                Outline::Rest { of, without, mirrored: kids.has(Rule::k_mirrored) }
            }
        })
    }

    /// `armhole 12 from underarm`
    fn strip_edge(&mut self, pair: Pair<Rule>) -> Option<StripEdge> {
        let mut kids = Kids::of(pair);
        let edge = kids.next()?;
        let edge = self.name(edge);
        let run = match kids.only(Rule::run) {
            Some(run) => Some(self.run_words(run)?),
            None => None,
        };
        Some(StripEdge { edge, run })
    }

    fn walk_edge(&mut self, pair: Pair<Rule>) -> Option<WalkEdge> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let name = kids.next()?;
        let name = self.name(name);
        let label = kids.only(Rule::text).map(|text| self.text(text));
        if kids.has(Rule::k_dart) {
            let (to, dart) = self.walk_dart(kids)?;
            return Some(WalkEdge { span, name, label, to, path: EdgePath::Straight, dart: Some(dart) });
        }
        let to = kids.nth(1)?;
        let to = self.name(to);
        let path = match kids.next() {
            Some(path) => self.path(path)?,
            None => EdgePath::Straight,
        };
        Some(WalkEdge { span, name, label, to, path, dart: None })
    }

    /// `curve …`, `handles …`, `arc …`, `straight`
    pub(super) fn path(&mut self, pair: Pair<Rule>) -> Option<EdgePath> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        match kids.next()?.as_rule() {
            Rule::k_straight => Some(EdgePath::Straight),
            Rule::k_arc => {
                let about = kids.nth(1)?;
                let about = self.sum(about)?;
                Some(EdgePath::Arc { about, clockwise: kids.has(Rule::k_clockwise), span })
            }
            Rule::k_handles => {
                let handles = kids.filter(|kid| kid.as_rule() == Rule::expr);
                let handles = handles.map(|point| self.sum(point)).collect::<Option<Vec<_>>>()?;
                let [first, second] = <[Expr; 2]>::try_from(handles).ok()?;
                Some(EdgePath::Handles { first, second, span })
            }
            _ => {
                let leaving = self.direction_after(Rule::k_leaving, &mut kids)?;
                let arriving = self.direction_after(Rule::k_arriving, &mut kids)?;
                kids.has(Rule::k_through);
                let mut through = Vec::new();
                while let Some(point) = kids.only(Rule::expr) {
                    through.push(self.sum(point)?);
                }
                // From the beginning over what lies between to the end is as good an order.
                let arriving = match arriving {
                    None => self.direction_after(Rule::k_arriving, &mut kids)?,
                    said => said,
                };
                Some(EdgePath::Curve { leaving, arriving, through: self.split_commas(through), span })
            }
        }
    }

    fn direction_after(&mut self, before: Rule, kids: &mut Kids) -> Option<Option<Direction>> {
        if !kids.has(before) {
            return Some(None);
        }
        let pair = kids.only(Rule::direction)?;
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let first = kids.next()?;
        let kind = match first.as_rule() {
            Rule::k_up => DirectionKind::Up,
            Rule::k_down => DirectionKind::Down,
            Rule::k_left => DirectionKind::Left,
            Rule::k_right => DirectionKind::Right,
            Rule::k_square => {
                let edge = kids.nth(1)?;
                DirectionKind::SquareTo(self.name(edge))
            }
            Rule::k_along => {
                let edge = kids.next()?;
                DirectionKind::Along(self.name(edge))
            }
            Rule::k_toward => {
                let point = kids.next()?;
                DirectionKind::Toward(self.sum(point)?)
            }
            _ => DirectionKind::Angle(self.sum(first)?),
        };
        Some(Some(Direction { span, kind }))
    }

    /// What stands behind `mark` and `point`.
    pub(super) fn point_fact(&mut self, name: Pair<Rule>, kids: &mut Kids) -> Option<PointFact> {
        let name = self.name(name);
        let label = kids.only(Rule::text).map(|text| self.text(text));
        let at = kids.next()?;
        Some(PointFact { name, label, at: self.value(at)? })
    }

    /// What stands behind `line`.
    pub(super) fn line(&mut self, name: Pair<Rule>, kids: &mut Kids) -> Option<Line> {
        let name = self.name(name);
        let label = kids.only(Rule::text).map(|text| self.text(text));
        let (word, next) = (kids.next()?, kids.next()?);
        let run = match word.as_rule() {
            Rule::k_from => {
                let to = kids.nth(1)?;
                let (from, to) = (self.value(next)?, self.value(to)?);
                match kids.only(Rule::path) {
                    Some(path) => LineRun::Way(from, to, self.path(path)?),
                    None => LineRun::FromTo(from, to),
                }
            }
            rule => {
                let at = kids.next()?;
                let at = self.value(at)?;
                if rule == Rule::k_across { LineRun::Across(at) } else { LineRun::Along(at) }
            }
        };
        let adjust = kids.only(Rule::k_adjust).map(|word| self.span(&word));
        Some(Line { name, label, run, adjust })
    }
}
