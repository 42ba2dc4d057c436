//! A fitting: the garment's body measures become one wearer's, who is given a place among its sizes.

use super::Lowering;
use super::declare::constant;
use super::header::constant_of;
use super::papers::When;
use super::sought::Sought;
use super::values::wanted_for;
use crate::garment::{ClosureKind, Expression, Fitting, Node, Size, Symbol, ValueId, ValueKind};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{FittedRow, FittedValue, FittingOf, Name, SizeName};
use indexmap::IndexMap;
use std::sync::Arc;

/// More missing measures than these are counted and not shown.
const SHOWN: usize = 5;

/// What is known of one body measure.
pub(super) struct Row {
    pub value: ValueId,
    /// The garment's, size by size; none where that could not be made sense of.
    pub by_size: Option<Vec<f64>>,
    /// The wearer's, and where it is said.
    pub wearer: Option<(f64, Span)>,
    /// It was measured, and not taken from a size.
    pub measured: bool,
    /// It lies as far between two sizes as the wearer; where that is said.
    pub between: Option<Span>,
    /// What is noted of it.
    note: Option<Arc<str>>,
}

impl Lowering<'_> {
    /// Takes the wearer's measures in place of the garment's, once both can be read.
    pub(super) fn lower_fitting(&mut self) {
        let Some(of) = &self.merged.fitting else { return };
        let mut rows = self.body_rows();
        let whole = self.take_rows(of, &mut rows);
        if whole {
            self.report_rows_missing(of, &rows);
        }
        self.report_bodies(of);
        let (place, by) = self.place_among_sizes(of, &rows);
        for row in rows.values_mut() {
            let Some((span, by_size)) = row.between.zip(row.by_size.as_ref()) else { continue };
            let one = |at: usize| by_size.get(at).copied();
            row.wearer = match (one(place.below), place.above().and_then(one)) {
                (Some(below), Some(above)) => Some((place.between(below, above), span)),
                (Some(own), None) => Some((own, span)),
                (None, _) => None,
            };
        }
        self.report_beyond(&rows);
        let sizes = self.garment.sizes.clone();
        self.garment.fitting =
            Some(Fitting { wearer: of.wearer.text.clone(), sizes, place, by, bought: Vec::new() });
        for row in rows.into_values() {
            let value = &mut self.garment.values[row.value.index()];
            if row.note.is_some() {
                value.label = row.note;
            }
            let Some((wearer, span)) = row.wearer else { continue };
            let dimension = value.dimension;
            value.kind = ValueKind::Body(Expression { dimension, ..constant(wearer, span) });
        }
    }

    /// Every body measure of the garment.
    fn body_rows(&self) -> IndexMap<ValueId, Row> {
        let sizes = self.garment.sizes.len();
        let row = |(value, one): (ValueId, &crate::garment::Value)| {
            let ValueKind::Body(values) = &one.kind else { return None };
            let by_size = match &values.node {
                Node::EachSize(values) => values.iter().map(constant_of).collect(),
                _ => constant_of(values).map(|value| vec![value; sizes]),
            };
            Some((value, Row { value, by_size, wearer: None, measured: false, between: None, note: None }))
        };
        ValueId::enumerate(&self.garment.values).filter_map(row).collect()
    }

    /// Reads what the fitting says of each measure; whether that could be read whole.
    fn take_rows(&self, of: &FittingOf, rows: &mut IndexMap<ValueId, Row>) -> bool {
        // Of `units` that stands where it is not read the numbers without one are not known.
        let units_lost = self.is_damaged_word("units");
        let mut whole = !self.merged.incomplete && !self.is_damaged(self.garment.heading);
        let mut said: IndexMap<ValueId, Span> = IndexMap::new();
        let mut rest: Option<&FittedRow> = None;
        for row in of.rows() {
            let Some(name) = &row.name else {
                match rest {
                    Some(first) => self.said_twice_of_wearer("rest", row.span, first.span),
                    None => rest = Some(row),
                }
                continue;
            };
            let Some(value) = self.body_measure(name, rows) else {
                whole = false;
                continue;
            };
            if let Some(&first) = said.get(&value) {
                self.said_twice_of_wearer(&name.text, name.span, first);
                continue;
            }
            said.insert(value, name.span);
            let Some(known) = rows.get_mut(&value) else { continue };
            known.note = row.label.as_ref().map(|label| label.text.clone());
            known.wearer = match &row.value {
                FittedValue::Measured(measured) => {
                    let wanted = wanted_for(self.garment.value(value).dimension);
                    let lowered = self.lower(measured, When::Fact, None, wanted);
                    known.measured = true;
                    constant_of(&lowered).filter(|_| !units_lost).map(|number| (number, measured.span))
                }
                FittedValue::AsSize(size) => {
                    let at = self.size_of_row(row);
                    let of_size = at.and_then(|at| known.by_size.as_ref()?.get(at).copied());
                    of_size.map(|number| (number, size.span))
                }
                FittedValue::BetweenSizes(span) => {
                    known.between = Some(*span);
                    None
                }
            };
        }
        if let Some(rest) = rest {
            let at = self.size_of_row(rest);
            for (_, row) in rows.iter_mut().filter(|(value, _)| !said.contains_key(*value)) {
                match &rest.value {
                    FittedValue::BetweenSizes(_) => row.between = Some(rest.span),
                    _ => {
                        let of_size = at.and_then(|at| row.by_size.as_ref()?.get(at).copied());
                        row.wearer = of_size.map(|one| (one, rest.span));
                    }
                }
            }
        }
        whole && rest.is_none()
    }

    /// One block holds all that is known of the wearer.
    fn report_bodies(&self, of: &FittingOf) {
        let Some((first, others)) = of.bodies.split_first() else { return };
        for again in others {
            self.report(
                Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again.word, "a fitting has one body")
                    .label("another one")
                    .also(first.word, "the first")
                    .help("write all that is known of the wearer in the first one's braces"),
            );
        }
    }

    fn said_twice_of_wearer(&self, what: &str, again: Span, first: Span) {
        let title = format!("the wearer's {what} is given twice");
        self.report(
            Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again, title)
                .label("again here")
                .also(first, "first here")
                .help("leave one of the two out"),
        );
    }

    /// The measure that a row names; one that is none is reported.
    fn body_measure(&self, name: &Name, rows: &IndexMap<ValueId, Row>) -> Option<ValueId> {
        match self.names.values.get(&name.text).copied() {
            Some(value) if rows.contains_key(&value) => {
                self.used(Symbol::Value(value), name.span);
                Some(value)
            }
            Some(value) => {
                let is = match self.garment.value(value).kind {
                    ValueKind::Measure { .. } => "a measure of the finished garment",
                    _ => "a let",
                };
                let title = format!("{} is {is}, and no measure of the body", name.text);
                self.report(
                    Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title)
                        .label("given for the wearer")
                        .also(self.garment.value(value).span, is)
                        .help(format!(
                            "give the rows of the garment's body table; to change {}, write a variation with \
                             set {} = …, and fit that",
                            name.text, name.text
                        )),
                );
                None
            }
            None if &*name.text == "rest" => {
                self.report(
                    Diagnostic::new(
                        &catalogue::NAME_UNKNOWN,
                        name.span,
                        "there is no measure of the body called rest",
                    )
                    .label("no such measure of the body")
                    .help("for all rows that are not named write `the rest`")
                    .fix_by(name.span, "the rest"),
                );
                None
            }
            None => {
                let among = rows.keys().map(|&value| &self.garment.value(value).name);
                let among = self.offered(among);
                self.unknown(Sought::BodyMeasure, &name.text, name.span, &among);
                None
            }
        }
    }

    fn size_of_row(&self, row: &FittedRow) -> Option<usize> {
        let FittedValue::AsSize(size) = &row.value else { return None };
        self.size_named(size)
    }

    fn size_named(&self, size: &SizeName) -> Option<usize> {
        let found = self.garment.sizes.iter().position(|one| one.name == size.text);
        if found.is_none() {
            let among = self.offered(self.garment.sizes.iter().map(|one| &one.name));
            self.unknown(Sought::Size, &size.text, size.span, &among);
        }
        found
    }

    fn report_rows_missing(&self, of: &FittingOf, rows: &IndexMap<ValueId, Row>) {
        let said = |value: ValueId| {
            let name = &self.garment.value(value).name;
            of.rows().any(|row| row.name.as_ref().is_some_and(|one| one.text == *name))
        };
        let missing: Vec<&Row> = rows.values().filter(|row| !said(row.value)).collect();
        let Some(first) = missing.first() else { return };
        let name = |row: &Row| self.garment.value(row.value).name.to_string();
        let names: Vec<String> = missing.iter().take(SHOWN).map(|row| name(row)).collect();
        let more = match missing.len().saturating_sub(SHOWN) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        let title = match missing.len() {
            1 => format!("the wearer's {} is not given", name(first)),
            _ => format!("measures of the wearer are not given: {}{more}", names.join(", ")),
        };
        let place = of.bodies.first().map_or(of.wearer.span, |body| body.word);
        let mut mistake = Diagnostic::new(&catalogue::FITTING_MISSING, place, title).label("not in here");
        for row in missing.iter().take(SHOWN) {
            mistake = mistake.also(self.garment.value(row.value).span, "needed by the garment");
        }
        let middle = self.garment.sizes.get(self.garment.sizes.len() / 2);
        let size = middle.map_or("M", |size| &*size.name);
        let own = name(first);
        self.report(mistake.help(format!(
            "measure it and write {own} with its amount, or take it from a size: {own} as {size}, or the rest as {size}, or the rest between sizes"
        )));
    }

    /// Once everything is read: what is bought by its length is that of the nearest size, and the wearer is all
    /// the sizes that there are.
    pub(super) fn fit_sizes(&mut self) {
        let Some(mut fitting) = self.garment.fitting.take() else { return };
        let nearest = fitting.place.nearest();
        let mut lets: Vec<ValueId> = Vec::new();
        let mut lists: Vec<Span> = Vec::new();
        let mut buy = |bought: &mut Expression| match &bought.node {
            Node::EachSize(values) => {
                if let Some(value) = values.get(nearest) {
                    lists.push(bought.span);
                    *bought = Expression { span: bought.span, ..value.clone() };
                }
            }
            Node::Value(value) => lets.push(*value),
            _ => {}
        };
        for closure in &mut self.garment.closures {
            match &mut closure.kind {
                Some(ClosureKind::Zipper { lengths, .. }) => lengths.iter_mut().for_each(&mut buy),
                Some(ClosureKind::Fasteners(fasteners)) => fasteners.size.iter_mut().for_each(&mut buy),
                None => {}
            }
        }
        self.garment.notions.iter_mut().filter_map(|notion| notion.amount.as_mut()).for_each(&mut buy);
        for value in lets {
            if let Some(ValueKind::Let(is)) =
                self.garment.values.get_mut(value.index()).map(|value| &mut value.kind)
                && let Node::EachSize(values) = &is.node
                && let Some(one) = values.get(nearest)
            {
                lists.push(is.span);
                *is = Expression { span: is.span, ..one.clone() };
            }
        }
        self.garment.sizes = vec![Size { name: fitting.wearer.clone(), span: self.garment.heading }];
        fitting.bought = lists;
        self.garment.fitting = Some(fitting);
    }
}
