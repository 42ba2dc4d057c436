//! Cautions: what was checked, and where care is asked for.

use super::Page;
use super::write::{Html, SAID_LETTERS, escaped, said};
use crate::report::Severity;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Cautions {
    checked: Html,
    notes: Vec<Caution>,
}

#[derive(Debug, Serialize)]
struct Caution {
    title: Html,
    help: Html,
    rule: &'static str,
}

pub fn cautions(page: &Page) -> Cautions {
    let say = page.say;
    let checked = match page.sizes.len() {
        0 | 1 => say.checked_one.to_owned(),
        count => format!("{} {count} {}", say.checked, say.checked_sizes),
    };
    let told = page.facts.document.diagnostics.iter();
    let told = told.filter(|one| matches!(one.severity, Severity::Caution | Severity::Warning));
    let notes = told.map(|one| Caution {
        title: said(&one.title, SAID_LETTERS),
        help: said(one.help.as_deref().unwrap_or(""), SAID_LETTERS),
        rule: one.slug,
    });
    Cautions { checked: Value::from_safe_string(escaped(&checked)), notes: notes.collect() }
}
