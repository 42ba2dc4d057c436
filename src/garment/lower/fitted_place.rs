//! Where a wearer lies among the sizes of a garment.

use super::Lowering;
use super::fitted::Row;
use crate::garment::{BetweenSizes, Expression, Node, ValueId, ValueKind};
use crate::report::{Diagnostic, amount, catalogue};
use crate::syntax::tree::FittingOf;
use indexmap::IndexMap;

/// A measure that is a size's own may have been reckoned with this much noise, in millimetres.
const NOISE: f64 = 1e-9;

impl Lowering<'_> {
    /// Where the wearer lies among the sizes, and the measure that decides it: of those by which a size is
    /// picked the one that lies farthest up.
    pub(super) fn place_among_sizes(
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
        self.report_none_decides(of, rows);
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

    /// What lies between sizes goes by a measure that is known, and none of those by which a size is picked is.
    fn report_none_decides(&self, of: &FittingOf, rows: &IndexMap<ValueId, Row>) {
        let deciding = || self.garment.pick.iter().filter_map(|measure| rows.get(measure));
        let Some(first) = deciding().next().filter(|_| deciding().all(|row| row.between.is_some())) else {
            return;
        };
        let Some(span) = first.between else { return };
        let value = self.garment.value(first.value);
        let title = format!(
            "the wearer's {} is not given, and only that says between which sizes the wearer lies",
            value.name
        );
        self.report(
            Diagnostic::new(&catalogue::FITTING_MISSING, span, title)
                .label("between which sizes?")
                .also(of.base.path.span, format!("its size is picked by {}", value.name))
                .help(format!("measure it and write {} with its amount", value.name)),
        );
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
    pub(super) fn report_beyond(&self, rows: &IndexMap<ValueId, Row>) {
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
                    "what follows {} follows the wearer's; what has one value a size goes no further \
                     than {size}: look whether it still fits, or give the garment one more size",
                    value.name
                ),
                false => format!(
                    "the garment was planned for no such {}: look over the pieces that lie there before cutting",
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
}
