use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::slips;
use crate::syntax::tree::{Statement, StatementNode};
use pest::iterators::Pair;
use std::sync::Arc;

impl Builder<'_> {
    /// Every statement of a file; what is damaged is noted.
    pub(crate) fn statements(&mut self, file: Pair<Rule>) -> Vec<Arc<Statement>> {
        let mut statements = Vec::new();
        let mut last = 0;
        for pair in file.into_inner() {
            if pair.as_rule() == Rule::EOI {
                continue;
            }
            let start = pair.as_span().start();
            if let Some(pair) = self.sound(Context::File, pair, last) {
                last = start;
                let span = self.span(&pair);
                match self.statement(pair) {
                    Some(statement) => statements.push(Arc::new(statement)),
                    None => self.mistakes.push(slips::unread(span)),
                }
            }
        }
        statements
    }

    pub(super) fn statement(&mut self, pair: Pair<Rule>) -> Option<Statement> {
        let span = self.span(&pair);
        Some(Statement { span, node: self.statement_node(pair)? })
    }

    fn statement_node(&mut self, pair: Pair<Rule>) -> Option<StatementNode> {
        let rule = pair.as_rule();
        Some(match rule {
            Rule::garment => StatementNode::Garment(self.only_text(pair)?),
            Rule::library => StatementNode::Library(self.only_text(pair)?),
            Rule::about => StatementNode::About(self.only_text(pair)?),
            Rule::credit => StatementNode::Credit(self.credit(pair)?),
            Rule::variation => StatementNode::Variation(self.variation(pair)?),
            Rule::fitting => StatementNode::Fitting(self.fitting(pair)?),
            Rule::use_ => StatementNode::Use(self.use_library(pair)?),
            Rule::units => {
                let mut kids = Kids::of(pair);
                kids.next();
                let unit = kids.next()?;
                StatementNode::Units(self.unit(unit))
            }
            Rule::allowance => StatementNode::Allowance(self.only_value(pair)?),
            Rule::tolerance => StatementNode::Tolerance(self.only_value(pair)?),
            Rule::stitch => StatementNode::Stitch(self.stitch(pair)?),
            Rule::wearer => StatementNode::Wearer(self.wearer(pair)?),
            Rule::sizes => StatementNode::Sizes(self.sizes(pair)?),
            Rule::body => StatementNode::Body(self.body(pair)),
            Rule::pick => StatementNode::Pick(self.pick(pair)?),
            Rule::let_ => StatementNode::Let(self.let_statement(pair)?),
            Rule::measure => StatementNode::Measure(self.measure(pair)?),
            Rule::require => StatementNode::Require(self.require(pair)?),
            Rule::fabric => StatementNode::Fabric(self.fabric(pair)?),
            Rule::layer => StatementNode::Layer(self.layer(pair)?),
            Rule::notion => StatementNode::Notion(self.notion(pair)?),
            Rule::piece => StatementNode::Piece(self.piece(pair)?),
            Rule::seam => StatementNode::Seam(self.seam(pair)?),
            Rule::finish => StatementNode::Finish(self.finish(pair)?),
            Rule::place => StatementNode::Place(self.place(pair)?),
            Rule::closure => StatementNode::Closure(self.closure(pair)?),
            Rule::opening => StatementNode::Opening(self.opening(pair)?),
            Rule::placket => StatementNode::Placket(self.placket(pair)?),
            Rule::band => StatementNode::Band(Box::new(self.band(pair)?)),
            Rule::facing => StatementNode::Facing(Box::new(self.facing(pair)?)),
            Rule::strap => StatementNode::Strap(Box::new(self.strap(pair)?)),
            Rule::stitched_row => StatementNode::StitchedRow(self.stitched_row(pair)?),
            Rule::tack => StatementNode::Tack(Box::new(self.tack(pair)?)),
            Rule::setting => StatementNode::Setting(Box::new(self.setting(pair)?)),
            Rule::cord => StatementNode::Cord(self.cord(pair)?),
            Rule::steps => StatementNode::Steps(self.steps(pair)),
            Rule::replace => {
                let mut kids = Kids::of(pair);
                kids.next();
                let inner = kids.next()?;
                StatementNode::Replace(Box::new(self.statement(inner)?))
            }
            Rule::set => StatementNode::Set(self.set(pair)?),
            Rule::replace_step => {
                let group = Kids::of(pair).nth(2)?;
                StatementNode::ReplaceStep(self.step_group(group)?)
            }
            Rule::replace_altered => StatementNode::ReplaceAlteration(self.replace_alteration(pair)?),
            Rule::drop => self.dropped(pair)?,
            Rule::add_to_layer => StatementNode::AddToLayer(self.add_to_layer(pair)?),
            Rule::add_steps => StatementNode::AddSteps(self.add_steps(pair)?),
            Rule::replace_dart => StatementNode::AddToPiece(self.replace_dart(pair)?),
            Rule::in_band => StatementNode::ChangeBand(Box::new(self.band_change(pair)?)),
            Rule::in_seam => StatementNode::ChangeSeam(self.seam_change(pair)?),
            Rule::add_to_piece => StatementNode::AddToPiece(self.add_to_piece(pair)?),
            _ => StatementNode::Alteration(self.alteration(pair)?),
        })
    }
}
