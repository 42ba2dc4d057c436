//! A length that stands alone, outside any file: on a command line.

use super::build::{Builder, Context, Damage, DamageKind};
use super::explain::{Snippet, length_misread};
use super::grammar::{Grammar, Rule};
use super::tree::{ExprKind, Unit};
use crate::limits::LENGTH_MM;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use pest::Parser;
use pest::error::InputLocation;

/// Reads one length as a file would hold it: `5mm`, `58 1/2in`, `½"`; a number without a unit is of
/// `unit`. In millimetres, finite and not below 0.
///
/// # Errors
/// What is wrong with it, in the words that the same slip has in a file; spans are byte offsets of
/// `text`.
pub fn read_length(text: &str, unit: Unit) -> Result<f64, Box<Diagnostic>> {
    let whole = Span::new(0, text.len() as u32);
    let pair = match Grammar::parse(Rule::s_length, text) {
        Ok(mut pairs) => pairs.next().and_then(|pair| pair.into_inner().next()),
        Err(error) => {
            let (InputLocation::Pos(at) | InputLocation::Span((at, _))) = error.location;
            let damage =
                Damage { context: Context::File, kind: DamageKind::Bad, from: 0, at, to: text.len() };
            let snippet = Snippet { text, from: 0, damage, open_text: None, base: 0 };
            return Err(Box::new(length_misread(&snippet, at).unwrap_or_else(|| not_a_length(whole, text))));
        }
    };
    let mut builder = Builder::new(text, 0, &[]);
    let read = pair.and_then(|pair| builder.quantity(pair));
    if let Some(slip) = builder.mistakes.drain(..).next() {
        return Err(Box::new(slip));
    }
    let Some(ExprKind::Quantity(quantity)) = read.map(|read| read.kind) else {
        return Err(Box::new(not_a_length(whole, text)));
    };
    let unit = quantity.unit.map_or(unit, |said| said.unit);
    let Some(millimetres) = unit.millimetres() else { return Err(Box::new(other_quantity(whole, unit))) };
    match quantity.number * millimetres {
        length if length <= LENGTH_MM => Ok(length),
        _ => Err(Box::new(too_long(whole, text))),
    }
}

fn not_a_length(span: Span, text: &str) -> Diagnostic {
    Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, format!("`{}` is not a length", text.trim()))
        .label("a length would fit here")
        .help("write a number and its unit, as 5mm, 16.5cm or 58 1/2in")
}

fn other_quantity(span: Span, unit: Unit) -> Diagnostic {
    let (kind, found) = match unit {
        Unit::Degree => (&catalogue::UNIT_MIXED, "an angle"),
        _ => (&catalogue::UNIT_BARE, "a plain number"),
    };
    Diagnostic::new(kind, span, format!("this is {found} where a length is needed"))
        .label(found)
        .help("give it a length's unit: `mm`, `cm`, `m`, `in`, `ft` or `yd`")
}

fn too_long(span: Span, text: &str) -> Diagnostic {
    let most = LENGTH_MM / 1000.0;
    Diagnostic::new(&catalogue::LIMIT_LENGTH, span, format!("{} is more than any garment has", text.trim()))
        .label("too long")
        .help(format!("a length may be {most} m at most: is the unit right?"))
}
