use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    AddSteps, AddToLayer, AddToPiece, AlterationKind, Altered, CreditKind, Dotted, Drop, DropAlteration,
    DropKind, DropOfPiece, NameOrText, Notch, PieceChange, PieceItem, PieceItemKind, PieceItemNode,
    ReplaceAlteration, Set, StatementNode,
};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn set(&mut self, pair: Pair<Rule>) -> Option<Set> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, value) = (kids.next()?, kids.next()?);
        let (name, value) = (self.name(name), self.value(value)?);
        Some(Set { name, value, label: kids.only(Rule::text).map(|text| self.text(text)) })
    }

    /// `drop …`, whatever it takes away.
    pub(super) fn dropped(&mut self, pair: Pair<Rule>) -> Option<StatementNode> {
        let mut kids = Kids::of(pair.clone());
        kids.next();
        Some(match kids.rule() {
            Some(Rule::altered) => {
                let altered = kids.next()?;
                let altered = self.altered(altered)?;
                kids.has(Rule::k_of);
                let of = kids.only(Rule::text).map(|text| self.text(text));
                StatementNode::DropAlteration(DropAlteration { altered, of })
            }
            Some(Rule::of_piece) => {
                let of_piece = kids.next()?;
                StatementNode::DropOfPiece(Box::new(self.drop_of_piece(of_piece)?))
            }
            _ => StatementNode::Drop(self.drop_statement(pair)?),
        })
    }

    fn altered(&mut self, pair: Pair<Rule>) -> Option<Altered> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let first = kids.next()?.as_str();
        let second = match kids.rule() {
            Some(Rule::k_off | Rule::k_out | Rule::k_dart | Rule::k_pleat) => {
                kids.next().map(|word| word.as_str())
            }
            _ => None,
        };
        let kind = AlterationKind::beginning(first, second)?;
        let mut altered = Altered { kind, targets: Vec::new(), at: None, to: None, span };
        let joins = kind == AlterationKind::Join;
        while let Some(kid) = kids.next() {
            match kid.as_rule() {
                Rule::qlist => altered.targets = self.dotteds(kid),
                Rule::qname => altered.targets.push(self.dotted(kid)),
                Rule::k_to if joins => {}
                Rule::k_into => {}
                // The name of a dart that is let in.
                Rule::name => altered.at = Some(self.name(kid)),
                Rule::k_to => altered.to = kids.next().map(|name| self.name(name)),
                _ => altered.at = kids.next().map(|name| self.name(name)),
            }
        }
        Some(altered)
    }

    fn drop_of_piece(&mut self, pair: Pair<Rule>) -> Option<DropOfPiece> {
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_point => PieceItemKind::Point,
            Rule::k_mark => PieceItemKind::Mark,
            Rule::k_line => PieceItemKind::Line,
            Rule::k_slit => PieceItemKind::Slit,
            Rule::k_divide => PieceItemKind::Divide,
            Rule::k_notch => PieceItemKind::Notch,
            Rule::k_corner => PieceItemKind::Corner,
            Rule::k_cut => PieceItemKind::Cut,
            Rule::k_outline => PieceItemKind::Outline,
            Rule::k_folded => PieceItemKind::Folded,
            Rule::k_grain => PieceItemKind::Grain,
            Rule::k_allowance => PieceItemKind::Allowance,
            Rule::k_drawn => PieceItemKind::Drawn,
            Rule::k_without => PieceItemKind::Without,
            Rule::k_move => {
                kids.next();
                PieceItemKind::MovePoint
            }
            _ => {
                kids.next();
                PieceItemKind::NeverFlipped
            }
        };
        let named = kids.next()?;
        let span = self.span(&named);
        if named.as_rule() == Rule::name {
            let piece = self.name(named);
            return Some(DropOfPiece { piece, kind, name: None, other: None, notch: None, span });
        }
        let mut named = Kids::of(named);
        let (piece, name) = (named.next()?, named.next()?);
        let (piece, name) = (self.name(piece), self.name(name));
        let (mut other, mut notch) = (None, None);
        if let Some(second) = kids.only(Rule::name) {
            other = Some(self.name(second));
        }
        if let Some(place) = kids.next() {
            let place = self.edge_place(place)?;
            notch = Some(Notch { edge: name.clone(), place, double: false });
        }
        Some(DropOfPiece { piece, kind, name: Some(name), other, notch, span })
    }

    /// `replace lengthen front, back at waist by 8 of "deck-longer.fus"`
    pub(super) fn replace_alteration(&mut self, pair: Pair<Rule>) -> Option<ReplaceAlteration> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (new, of) = (kids.next()?, kids.nth(1)?);
        Some(ReplaceAlteration { new: Box::new(self.statement(new)?), of: self.text(of) })
    }

    pub(super) fn drop_statement(&mut self, pair: Pair<Rule>) -> Option<Drop> {
        let mut kids = Kids::of(pair);
        kids.next();
        let first = kids.next()?;
        let kind = match first.as_rule() {
            Rule::k_seam => DropKind::Seam,
            Rule::k_closure => DropKind::Closure,
            Rule::k_finish => DropKind::Finish,
            Rule::k_place => DropKind::Place,
            Rule::k_layer => DropKind::Layer,
            Rule::k_fabric => DropKind::Fabric,
            Rule::k_let => DropKind::Let,
            Rule::k_measure => DropKind::Measure,
            Rule::k_require => DropKind::Require,
            Rule::k_opening => DropKind::Opening,
            Rule::k_cord => DropKind::Cord,
            Rule::k_dart => DropKind::Dart,
            Rule::k_placket => DropKind::Placket,
            Rule::k_band => DropKind::Band,
            Rule::k_facing => DropKind::Facing,
            Rule::k_strap => DropKind::Strap,
            Rule::k_topstitch => DropKind::Topstitch,
            Rule::k_understitch => DropKind::Understitch,
            Rule::k_tack => DropKind::Tack,
            Rule::k_set => DropKind::SetNotion,
            Rule::k_pleat => DropKind::Pleat,
            Rule::k_tuck => DropKind::Tuck,
            Rule::k_notion => DropKind::Notion,
            Rule::k_step => DropKind::Step,
            Rule::k_steps => DropKind::Steps,
            Rule::k_body => DropKind::BodyRow,
            Rule::k_pick => DropKind::Pick,
            Rule::k_allowance => DropKind::Allowance,
            Rule::k_tolerance => DropKind::Tolerance,
            Rule::k_stitch => DropKind::Stitch,
            Rule::k_wearer => DropKind::Wearer,
            Rule::k_about => DropKind::About,
            Rule::k_maker => DropKind::Credit(CreditKind::Maker),
            Rule::k_edition => DropKind::Credit(CreditKind::Edition),
            Rule::k_licence => DropKind::Credit(CreditKind::Licence),
            Rule::k_level => DropKind::Credit(CreditKind::Level),
            _ => DropKind::Piece,
        };
        let kind_span = self.span(&first);
        let mut run = None;
        let target = match (first.as_rule(), kids.rule()) {
            (Rule::qname, _) => NameOrText::Name(self.dotted(first)),
            (
                Rule::k_steps
                | Rule::k_pick
                | Rule::k_allowance
                | Rule::k_tolerance
                | Rule::k_stitch
                | Rule::k_wearer
                | Rule::k_about
                | Rule::k_maker
                | Rule::k_edition
                | Rule::k_licence
                | Rule::k_level,
                _,
            ) => {
                let name = self.name(first);
                NameOrText::Name(Dotted { span: name.span, on: None, parts: vec![name] })
            }
            (_, Some(Rule::text)) => {
                let text = kids.next()?;
                NameOrText::Text(self.text(text))
            }
            (_, Some(Rule::sewn)) => {
                let sewn = self.one_sewn(kids.next()?)?;
                run = sewn.run;
                NameOrText::Name(sewn.edge)
            }
            _ => {
                let name = kids.next()?;
                NameOrText::Name(match name.as_rule() {
                    Rule::use_of => self.use_of(name)?,
                    Rule::name => {
                        let name = self.name(name);
                        Dotted { span: name.span, on: None, parts: vec![name] }
                    }
                    _ => self.dotted(name),
                })
            }
        };
        let on = match kids.has(Rule::k_on) {
            true => kids.next().and_then(|name| self.use_of(name)),
            false => None,
        };
        Some(Drop { kind, target, on, run, and_all_sewn: kids.has(Rule::k_and), kind_span })
    }

    pub(super) fn add_to_layer(&mut self, pair: Pair<Rule>) -> Option<AddToLayer> {
        let mut kids = Kids::of(pair);
        let (_, pieces, _, _, layer) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        Some(AddToLayer { pieces: self.names(pieces), layer: self.name(layer) })
    }

    pub(super) fn add_steps(&mut self, pair: Pair<Rule>) -> Option<AddSteps> {
        let mut kids = Kids::of(pair);
        let (_, _, where_, anchor) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let group = kids.nth(1)?;
        let after = where_.as_rule() == Rule::k_after;
        Some(AddSteps { after, anchor: self.text(anchor), group: self.step_group(group)? })
    }

    pub(super) fn add_to_piece(&mut self, pair: Pair<Rule>) -> Option<AddToPiece> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        let (_, _, piece, how) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let piece = self.name(piece);
        let how = match how.as_rule() {
            Rule::k_replace => PieceChange::Replaces,
            _ => PieceChange::Adds,
        };
        Some(AddToPiece { piece, items: self.piece_items(&mut kids, from), how })
    }

    /// `replace dart front.waist_dart …`, `replace pleat back.back_pleat …`, `replace line front.waist …`
    pub(super) fn replace_dart(&mut self, pair: Pair<Rule>) -> Option<AddToPiece> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        kids.next();
        let said = kids.next()?.as_rule();
        let mut named = Kids::of(kids.next()?);
        let (piece, dart) = (named.next()?, named.next()?);
        let piece = self.name(piece);
        let drawn = match said {
            Rule::k_line => Some(PieceItemNode::Line(self.line(dart.clone(), &mut kids)?)),
            Rule::k_point | Rule::k_mark => {
                let fact = self.point_fact(dart.clone(), &mut kids)?;
                Some(match said {
                    Rule::k_point => PieceItemNode::Point(fact),
                    _ => PieceItemNode::Mark(fact),
                })
            }
            _ => None,
        };
        if let Some(node) = drawn {
            return Some(AddToPiece {
                piece,
                items: vec![PieceItem { span, node }],
                how: PieceChange::Replaces,
            });
        }
        let dart = self.name(dart);
        let node = PieceItemNode::TakeUp(match said {
            Rule::k_dart => self.dart(dart, kids)?,
            _ => self.pleat(dart, kids, said == Rule::k_tuck)?,
        });
        Some(AddToPiece { piece, items: vec![PieceItem { span, node }], how: PieceChange::ReplacesTakeUp })
    }
}
