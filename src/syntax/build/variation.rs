use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    AddSteps, AddToLayer, AddToPiece, Dotted, Drop, DropKind, NameOrText, PieceItem, PieceItemNode, Set,
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
            Rule::k_strap => DropKind::Strap,
            Rule::k_pleat => DropKind::Pleat,
            Rule::k_tuck => DropKind::Tuck,
            Rule::k_notion => DropKind::Notion,
            Rule::k_step => DropKind::Step,
            Rule::k_steps => DropKind::Steps,
            _ => DropKind::Piece,
        };
        let kind_span = self.span(&first);
        let target = match (first.as_rule(), kids.rule()) {
            (Rule::qname, _) => NameOrText::Name(self.dotted(first)),
            (Rule::k_steps, _) => {
                let name = self.name(first);
                NameOrText::Name(Dotted { span: name.span, on: None, parts: vec![name] })
            }
            (_, Some(Rule::text)) => {
                let text = kids.next()?;
                NameOrText::Text(self.text(text))
            }
            _ => {
                let name = kids.next()?;
                NameOrText::Name(match name.as_rule() {
                    Rule::use_of => self.use_of(name)?,
                    _ => self.dotted(name),
                })
            }
        };
        let on = match kids.has(Rule::k_on) {
            true => kids.next().and_then(|name| self.use_of(name)),
            false => None,
        };
        Some(Drop { kind, target, on, and_all_sewn: kids.has(Rule::k_and), kind_span })
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
        let (_, _, piece, _) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let piece = self.name(piece);
        Some(AddToPiece { piece, items: self.piece_items(&mut kids, from), replacing: false })
    }

    /// `replace dart front.waist_dart …`, `replace pleat back.back_pleat …`
    pub(super) fn replace_dart(&mut self, pair: Pair<Rule>) -> Option<AddToPiece> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        kids.next();
        let said = kids.next()?.as_rule();
        let mut named = Kids::of(kids.next()?);
        let (piece, dart) = (named.next()?, named.next()?);
        let (piece, dart) = (self.name(piece), self.name(dart));
        let node = PieceItemNode::TakeUp(match said {
            Rule::k_dart => self.dart(dart, kids)?,
            _ => self.pleat(dart, kids, said == Rule::k_tuck)?,
        });
        Some(AddToPiece { piece, items: vec![PieceItem { span, node }], replacing: true })
    }
}
