//! Damaged statements become messages.
use super::build::Damage;
use super::grammar::Rule;
use super::scan::Scan;
use crate::report::Diagnostic;
use crate::source::Span;
use std::sync::Arc;

pub(super) fn unreadable(error: &pest::error::Error<Rule>, base: u32, text: &str) -> Diagnostic {
    let at = match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => {
            at.min(text.len()) as u32
        }
    };
    Diagnostic::mistake(
        "syntax/expected",
        Span::new(base + at, base + at),
        "from here on the file cannot be read",
    )
}

pub(super) fn recover(
    scan: &Scan,
    base: u32,
    damages: &[Damage],
    _slips: &[Diagnostic],
) -> (Vec<Diagnostic>, Vec<Arc<str>>) {
    let told = damages
        .iter()
        .map(|damage| {
            let span = Span::new(base + damage.at as u32, base + damage.to as u32);
            let what = scan.text.get(damage.at..damage.to).unwrap_or("");
            Diagnostic::mistake("syntax/expected", span, format!("`{}` does not fit here", what.trim()))
        })
        .collect();
    (told, Vec::new())
}
