//! The header's facts, and the maker's own checks.

use super::Lowering;
use super::expression::Wanted;
use super::notes::Notes;
use super::papers::When;
use crate::garment::{Expression, Node, Notion, NotionKind, NotionName, Require, Wearer};
use crate::report::{Diagnostic, DisplayUnit, amount, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, StatementNode, Unit, Who};

/// Two lengths that should match may differ by this much where the header says nothing: what a
/// maker eases away without noticing (common practice).
const USUAL_TOLERANCE_MM: f64 = 2.0;
/// Curves are measured to no less than this, so that nothing matches better.
const LEAST_TOLERANCE_MM: f64 = 0.01;
/// More than this is eased in by nobody without being told (common practice).
const WIDE_TOLERANCE_MM: f64 = 10.0;

impl Lowering<'_> {
    pub(super) fn lower_header(&mut self) {
        self.garment.unit = shown_in(self.unit_at(self.garment.heading));
        self.garment.tolerance = USUAL_TOLERANCE_MM;
        let merged = self.merged;
        for declaration in &merged.declarations {
            match &declaration.statement.node {
                StatementNode::About(about) => self.garment.about = Some(about.text.clone()),
                StatementNode::Credit(credit) => self.lower_credit(credit),
                StatementNode::Allowance(allowance) => {
                    self.garment.allowance = Some(self.lower(allowance, When::Fact, None, Wanted::Length));
                }
                StatementNode::Stitch(stitch) => self.garment.stitch = self.lower_stitch(stitch),
                StatementNode::Tolerance(tolerance) => self.lower_tolerance(tolerance),
                StatementNode::Wearer(wearer) => self.lower_wearer(wearer, declaration.statement.span),
                StatementNode::Pick(pick) => {
                    self.garment.pick =
                        pick.measures.iter().filter_map(|measure| self.find_value(measure)).collect();
                }
                StatementNode::Require(require) => {
                    if let Some((left, right)) = self.sides(&require.condition) {
                        self.garment.requires.push(Require {
                            left,
                            relation: require.condition.relation,
                            right,
                            because: require.because.text.clone(),
                            span: require.condition.span,
                        });
                    }
                }
                StatementNode::Notion(notion) => {
                    let amount = notion
                        .amount
                        .as_ref()
                        .map(|amount| self.lower(amount, When::Fact, None, Wanted::Any));
                    let price = notion.price.as_ref().map(super::cloth::price);
                    let (title, span) = (notion.title.text.clone(), declaration.statement.span);
                    // What it names is found once cords are known.
                    let name = NotionName { kind: NotionKind::Other(title.clone()), measure: None };
                    let from_library = declaration.from_library;
                    self.garment.notions.push(Notion { title, name, amount, price, span, from_library });
                }
                _ => {}
            }
        }
    }

    fn lower_credit(&mut self, credit: &tree::Credit) {
        let credits = &mut self.garment.credits;
        match credit {
            tree::Credit::Maker(maker) => credits.maker = Some(maker.text.clone()),
            tree::Credit::Edition(edition) => credits.edition = Some(*edition),
            tree::Credit::Licence(licence) => credits.licence = Some(licence.text.clone()),
            tree::Credit::Level(level) => credits.level = Some(*level),
        }
    }

    /// Where the bare lengths of a file are in another file's unit, and that is not the one which is meant where
    /// no file says any: told once a file.
    pub(super) fn report_units_inherited(&self, notes: &mut Notes) {
        // A wearer's measures are compared with those of the sizes, which tells another unit sooner.
        let fitting = self.merged.fitting.as_ref().and(self.merged.first);
        for (&file, from) in self.merged.units_inherited.iter().filter(|(file, _)| fitting != Some(**file)) {
            let unit = self.merged.units.get(&file).copied().unwrap_or(Unit::Centimetre);
            let span = self.map.file(file).span();
            let bare = notes.bare_lengths.iter().filter(|bare| span.lo <= bare.lo && bare.hi <= span.hi);
            let Some(&first) = bare.min_by_key(|bare| bare.lo).filter(|_| unit != Unit::Centimetre) else {
                continue;
            };
            let (name, base) = (&self.map.file(file).name, &self.map.file(*from).name);
            let title = format!("the numbers of {name} are read as {}, as {base} says", plural(unit));
            let said = self.merged.units_said.get(from).copied().unwrap_or(self.map.file(*from).span());
            notes.diagnostics.push(
                Diagnostic::new(&catalogue::UNIT_INHERITED, first, title)
                    .label(format!("{} {}", self.map.text(first), unit.word()))
                    .also(said, "the unit")
                    .help(format!(
                        "write units {} in {name} if that is meant, or units cm if it is not",
                        unit.word()
                    )),
            );
        }
    }

    fn lower_tolerance(&mut self, tolerance: &tree::Expr) {
        let lowered = self.lower(tolerance, When::Fact, None, Wanted::Length);
        match constant_of(&lowered) {
            Some(value) if value >= 0.0 => {
                self.garment.tolerance = value.max(LEAST_TOLERANCE_MM);
                if value > WIDE_TOLERANCE_MM {
                    let is = amount(value, self.garment.unit);
                    let title = format!("edges that differ by {is} still match");
                    self.report(
                        Diagnostic::new(&catalogue::TOLERANCE_WIDE, tolerance.span, title)
                            .label(format!("{is} is eased in by nobody"))
                            .help("write a tolerance of 1 cm at most, better 2mm; where a seam takes up more, say easing in that seam"),
                    );
                }
            }
            Some(_) => {
                let title = "the tolerance is below 0";
                self.report(
                    Diagnostic::new(&catalogue::VALUE_NEGATIVE, tolerance.span, title).label("below 0").help(
                        "write by how much two edges that are sewn together may differ, for example 2mm",
                    ),
                );
            }
            None if matches!(lowered.node, Node::Poison) => {}
            None => {
                let title =
                    "the tolerance is one length for the whole garment, and this is worked out by size";
                self.report(
                    Diagnostic::new(&catalogue::VALUE_CONSTANT, tolerance.span, title)
                        .label("not the same in every size")
                        .help("write the length itself, for example 2mm"),
                );
            }
        }
    }

    fn lower_wearer(&mut self, wearer: &tree::Wearer, span: Span) {
        let ages = match &wearer.who {
            Who::Adult => None,
            Who::Baby => Some((0.0, 1.0)),
            Who::Child { from, to, months } => {
                let years = if *months { 12.0 } else { 1.0 };
                let from_age = self.age(from).map(|age| age / years);
                let to_age = self.age(to).map(|age| age / years);
                match (from_age, to_age) {
                    (Some(from_age), Some(to_age)) if from_age > to_age => {
                        let title = "the youngest age is above the oldest";
                        let diagnostic = Diagnostic::new(&catalogue::VALUE_CONSTANT, from.span, title)
                            .also(to.span, "the oldest")
                            .help("write the smaller age first");
                        self.report(diagnostic);
                        Some((to_age, from_age))
                    }
                    (from_age, to_age) => from_age.zip(to_age),
                }
            }
        };
        self.garment.wearer = Wearer { ages, for_sleep: wearer.for_sleep, span };
    }

    fn age(&self, age: &tree::Expr) -> Option<f64> {
        let lowered = self.lower(age, When::Fact, None, Wanted::Number);
        let value = constant_of(&lowered).filter(|&value| value >= 0.0);
        if value.is_none() && !matches!(lowered.node, Node::Poison) {
            let title = "an age is a plain number";
            self.report(
                Diagnostic::new(&catalogue::VALUE_CONSTANT, age.span, title)
                    .help("write: child from 2 to 7 years"),
            );
        }
        value
    }
}

/// "inches"
fn plural(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "millimetres",
        Unit::Metre => "metres",
        Unit::Inch => "inches",
        Unit::Foot => "feet",
        Unit::Yard => "yards",
        _ => "centimetres",
    }
}

/// The unit of figures that is nearest to what a file writes.
fn shown_in(unit: Unit) -> DisplayUnit {
    match unit {
        Unit::Millimetre => DisplayUnit::Millimetre,
        Unit::Inch | Unit::Foot | Unit::Yard => DisplayUnit::Inch,
        _ => DisplayUnit::Centimetre,
    }
}

/// The number of an expression that is a literal.
pub(super) fn constant_of(expression: &Expression) -> Option<f64> {
    match &expression.node {
        Node::Constant(value) => Some(*value),
        Node::Negative(inner) => constant_of(inner).map(|value| -value),
        _ => None,
    }
}
