//! A fitting: the garment's body measures become one wearer's, who is given a place among its sizes.

use super::Lowering;
use super::declare::constant;
use super::header::constant_of;
use super::papers::When;
use super::sought::Sought;
use super::values::wanted_for;
use crate::garment::{
    BetweenSizes, ClosureKind, Expression, Fitting, Node, Size, Symbol, ValueId, ValueKind,
};
use crate::report::{Diagnostic, amount, catalogue};
use crate::source::Span;
use crate::syntax::tree::{FittedRow, FittedValue, FittingOf, Name, SizeName};
use indexmap::IndexMap;

/// More missing measures than these are counted and not shown.
const SHOWN: usize = 5;
/// A measure that is a size's own may have been reckoned with this much noise, in millimetres.
const NOISE: f64 = 1e-9;

/// What is known of one body measure.
struct Row {
    value: ValueId,
    /// The garment's, size by size; none where that could not be made sense of.
    by_size: Option<Vec<f64>>,
    /// The wearer's, and where it is said.
    wearer: Option<(f64, Span)>,
    /// It was measured, and not taken from a size.
    measured: bool,
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
        let (place, by) = self.place_among_sizes(of, &rows);
        self.report_beyond(&rows);
        let sizes = self.garment.sizes.clone();
        self.garment.fitting =
            Some(Fitting { wearer: of.wearer.text.clone(), sizes, place, by, bought: Vec::new() });
        for row in rows.into_values() {
            let Some((wearer, span)) = row.wearer else { continue };
            let value = &mut self.garment.values[row.value.index()];
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
            Some((value, Row { value, by_size, wearer: None, measured: false }))
        };
        ValueId::enumerate(&self.garment.values).filter_map(row).collect()
    }

    /// Reads what the fitting says of each measure; whether that could be read whole.
    fn take_rows(&self, of: &FittingOf, rows: &mut IndexMap<ValueId, Row>) -> bool {
        let mut whole = !self.merged.incomplete && !self.is_damaged(self.garment.heading);
        let mut said: IndexMap<ValueId, Span> = IndexMap::new();
        let mut rest: Option<(Span, Option<usize>)> = None;
        for row in of.rows() {
            let Some(name) = &row.name else {
                match rest {
                    Some((first, _)) => self.said_twice_of_wearer("rest", row.span, first),
                    None => rest = Some((row.span, self.size_of_row(row))),
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
            known.wearer = match &row.value {
                FittedValue::Measured(measured) => {
                    let wanted = wanted_for(self.garment.value(value).dimension);
                    let lowered = self.lower(measured, When::Fact, None, wanted);
                    known.measured = true;
                    constant_of(&lowered).map(|number| (number, measured.span))
                }
                FittedValue::AsSize(size) => {
                    let at = self.size_of_row(row);
                    let of_size = at.and_then(|at| known.by_size.as_ref()?.get(at).copied());
                    of_size.map(|number| (number, size.span))
                }
            };
        }
        if let Some((span, at)) = rest {
            for (_, row) in rows.iter_mut().filter(|(value, _)| !said.contains_key(*value)) {
                row.wearer = at.and_then(|at| row.by_size.as_ref()?.get(at).copied()).map(|one| (one, span));
            }
        }
        whole && rest.is_none()
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
            "measure it and write {own} with its amount, or take it from a size: {own} as {size}, or the rest as {size}"
        )));
    }

    /// Where the wearer lies among the sizes, and the measure that decides it: of those by which a size is
    /// picked the one that lies farthest up.
    fn place_among_sizes(
        &self,
        of: &FittingOf,
        rows: &IndexMap<ValueId, Row>,
    ) -> (BetweenSizes, Option<ValueId>) {
        let count = self.garment.sizes.len();
        let middle = BetweenSizes { below: count / 2, share: 0.0 };
        if count < 2 {
            return (BetweenSizes::default(), None);
        }
        if self.garment.pick.is_empty() {
            if !self.merged.incomplete {
                self.report_no_rule(of);
            }
            return (middle, None);
        }
        let mut found: Option<(BetweenSizes, ValueId)> = None;
        for &measure in &self.garment.pick {
            let Some(row) = rows.get(&measure) else {
                self.report_not_body(of, measure);
                continue;
            };
            let (Some(by_size), Some((wearer, _))) = (&row.by_size, row.wearer) else { continue };
            if let Some(at) = by_size.windows(2).position(|pair| pair[1] < pair[0] - NOISE) {
                self.report_falling(of, measure, by_size, at);
                continue;
            }
            let place = BetweenSizes::reaching(by_size, wearer);
            if found.is_none_or(|(before, _)| place.is_beyond(before)) {
                found = Some((place, measure));
            }
        }
        found.map_or((middle, None), |(place, by)| (place, Some(by)))
    }

    fn report_no_rule(&self, of: &FittingOf) {
        let mistake = Diagnostic::new(
            &catalogue::FITTING_NO_RULE,
            of.base.path.span,
            "the garment does not say by which measure a size is picked, so that the wearer has no place among its sizes",
        )
        .label("fitted here");
        let mistake = match (self.garment.sizes.first(), self.garment.sizes.last()) {
            (Some(first), Some(last)) => {
                mistake.also(first.span.to(last.span), format!("{} sizes", self.garment.sizes.len()))
            }
            _ => mistake,
        };
        let bodies = self.garment.values.iter().filter(|value| matches!(value.kind, ValueKind::Body(_)));
        let names: Vec<&str> = bodies.take(2).map(|value| &*value.name).collect();
        let rule = match names.as_slice() {
            [one] => format!("pick size by {one}"),
            [one, other, ..] => format!("pick size by {one}, or by larger of {one}, {other}"),
            [] => "body { … } with the measures of the sizes, and pick size by one of them".to_owned(),
        };
        self.report(mistake.help(format!("write in the garment: {rule}")));
    }

    fn report_not_body(&self, of: &FittingOf, measure: ValueId) {
        let value = self.garment.value(measure);
        let title = format!("a size is picked by {}, which is no measure of the body", value.name);
        self.report(
            Diagnostic::new(&catalogue::FITTING_NO_RULE, of.base.path.span, title)
                .label("fitted here")
                .also(value.span, "not in a body table")
                .help("pick the size by rows of the body table: a wearer is measured, and nothing else"),
        );
    }

    fn report_falling(&self, of: &FittingOf, measure: ValueId, by_size: &[f64], at: usize) {
        let value = self.garment.value(measure);
        let size = |at: usize| self.garment.sizes.get(at).map_or("", |size| &*size.name);
        let shown = |at: usize| by_size.get(at).map_or(String::new(), |&one| amount(one, self.garment.unit));
        let title = format!(
            "{} is smaller in {} than in {}, so that a wearer has no one place among the sizes",
            value.name,
            size(at + 1),
            size(at)
        );
        let mut mistake =
            Diagnostic::new(&catalogue::FITTING_FALLING, of.base.path.span, title).label("fitted here");
        let spot = |at: usize| match &value.kind {
            ValueKind::Body(Expression { node: Node::EachSize(values), .. }) => {
                values.get(at).map(|value| value.span)
            }
            _ => None,
        };
        let (low, high) = (spot(at).unwrap_or(value.span), spot(at + 1).unwrap_or(value.span));
        mistake = mistake.also(high, format!("{} in {}", shown(at + 1), size(at + 1)));
        if low != high {
            mistake = mistake.also(low, format!("{} in {}", shown(at), size(at)));
        }
        self.report(mistake.help(format!(
            "put the sizes in the order of {}, smallest first, or pick the size by a measure that grows",
            value.name
        )));
    }

    /// A wearer beyond the smallest or the largest size is told so, measure by measure.
    fn report_beyond(&self, rows: &IndexMap<ValueId, Row>) {
        if self.garment.sizes.len() < 2 {
            return;
        }
        for row in rows.values().filter(|row| row.measured) {
            let (Some(by_size), Some((wearer, span))) = (&row.by_size, row.wearer) else { continue };
            let sizes = || by_size.iter().copied().enumerate();
            let most = sizes().max_by(|one, other| one.1.total_cmp(&other.1));
            let least = sizes().min_by(|one, other| one.1.total_cmp(&other.1));
            let (Some(most), Some(least)) = (most, least) else { continue };
            let ((at, end), way) = match () {
                () if wearer > most.1 + NOISE => (most, "larger"),
                () if wearer < least.1 - NOISE => (least, "smaller"),
                () => continue,
            };
            let value = self.garment.value(row.value);
            let size = self.garment.sizes.get(at).map_or("", |size| &*size.name);
            let decides = self.garment.pick.contains(&row.value);
            let title = format!("the wearer's {} is {way} than that of any size", value.name);
            let help = match decides {
                true => format!(
                    "what is drawn from {} is drawn from the wearer's; what has one value a size goes no further \
                     than {size}: look whether it still fits, or give the garment one more size",
                    value.name
                ),
                false => format!(
                    "what is drawn from {} was meant for no such body: look the pieces over before cutting",
                    value.name
                ),
            };
            let shown = |number: f64| match value.dimension {
                crate::garment::Dimension::Length => amount(number, self.garment.unit),
                _ => String::new(),
            };
            self.report(
                Diagnostic::new(&catalogue::FITTING_BEYOND, span, title)
                    .label(shown(wearer))
                    .also(value.span, format!("{} in size {size}", shown(end)).trim().to_owned())
                    .help(help),
            );
        }
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
