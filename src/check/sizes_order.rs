//! `size/order`: sizes that are called smaller one after another, and whose bodies grow.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Garment, Size, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, amount, catalogue};
use crate::size_letters;
use std::cmp::Ordering;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SIZE_ORDER], run: Run::OverSizes(run) };

/// Less than this, in millimetres, is no step from size to size.
const STEP: f64 = 1.0;

/// Where a size stands among those that are called alike: by letters, or by plain numbers.
#[derive(Clone, Copy)]
enum Called {
    Letters(i32),
    Number(u32),
}

impl Called {
    fn of(name: &str) -> Option<Called> {
        let number = || name.parse().ok().map(Called::Number);
        size_letters::place_of(name).map(Called::Letters).or_else(number)
    }

    fn beside(self, other: Called) -> Option<Ordering> {
        match (self, other) {
            (Called::Letters(one), Called::Letters(other)) => Some(one.cmp(&other)),
            (Called::Number(one), Called::Number(other)) => Some(one.cmp(&other)),
            _ => None,
        }
    }
}

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let is_row =
        |value: &Value| value.dimension == Dimension::Length && matches!(value.kind, ValueKind::Body(_));
    // A row that goes up and down again, or to less than nothing, is told by itself.
    let is_even = |id: ValueId| {
        let all: Option<Vec<f64>> = sizes.iter().map(|size| size.drawn.scalar(id)).collect();
        all.is_some_and(|all| {
            all.iter().all(|is| *is > 0.0) && (all.is_sorted() || all.iter().rev().is_sorted())
        })
    };
    let rows: Vec<(ValueId, &Value)> =
        ValueId::enumerate(&garment.values).filter(|(id, value)| is_row(value) && is_even(*id)).collect();
    diagnostics.extend(sizes.windows(2).find_map(|pair| {
        let [smaller, larger] = pair else { return None };
        against_the_body(garment, &rows, [smaller, larger])
    }));
}

/// Two sizes of which all rows of the body that differ grow from the one to the other, and the names the other way.
fn against_the_body(
    garment: &Garment,
    rows: &[(ValueId, &Value)],
    both: [&WorkedSize; 2],
) -> Option<Diagnostic> {
    let named = both.map(|size| garment.sizes.get(size.drawn.size.index()));
    let [Some(one), Some(other)]: [Option<&Size>; 2] = named else { return None };
    let called = Called::of(&one.name)?.beside(Called::of(&other.name)?)?;
    let steps = rows.iter().filter_map(|&(id, value)| {
        let [is, next] = both.map(|size| size.drawn.scalar(id));
        let (is, next) = (is?, next?);
        ((next - is).abs() >= STEP).then_some((value, is, next))
    });
    let steps: Vec<(&Value, f64, f64)> = steps.collect();
    let goes_against = |&(_, is, next): &(&Value, f64, f64)| is.total_cmp(&next) == called.reverse();
    let &(value, is, next) = steps.first().filter(|_| called.is_ne() && steps.iter().all(goes_against))?;
    let word = if called.is_lt() { "larger" } else { "smaller" };
    let title = format!(
        "{} is called {word} than {}, and its {} is {}",
        other.name,
        one.name,
        value.name.replace('_', " "),
        if called.is_lt() { "smaller" } else { "larger" }
    );
    let warning = Diagnostic::new(&catalogue::SIZE_ORDER, other.span, title)
        .label("called here")
        .also(value.span, format!("{}: {}, {}: {}", one.name, amount(is, garment.unit), other.name, amount(next, garment.unit)))
        .help("put the names of the sizes, or the figures of the body, in the other order: whoever sews it goes by the name");
    Some(warning)
}
