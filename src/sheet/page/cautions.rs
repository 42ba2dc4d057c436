//! Cautions: what was checked, what is done before cutting, and where a rule asks for care.

use super::Page;
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, Writer, escaped, isolated, said};
use crate::emit::{ClosureDocument, ClothFactsDocument};
use crate::report::Severity;
use crate::sheet::words::Words;
use crate::sheet::{Figure, FigureKind};
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Cautions {
    checked: Html,
    notes: Vec<Caution>,
    law: Html,
}

#[derive(Debug, Serialize)]
struct Caution {
    title: Html,
    text: Html,
    rule: Html,
    /// It is told in English, whatever the page is.
    foreign: bool,
}

pub fn cautions(page: &Page, writer: &Writer, words: &Words, foreign: bool) -> Cautions {
    let say = page.say;
    let checked = match page.sizes.len() {
        0 | 1 => say.checked_one.to_owned(),
        count => format!("{} {count} {}", say.checked, say.checked_sizes),
    };
    let mut notes = before_cutting(page, writer);
    let mut is_by_law = false;
    for one in &page.facts.document.diagnostics {
        match (one.severity, words.cautions.caution(one.slug)) {
            (Severity::Caution, Some(known)) => {
                is_by_law = true;
                notes.push(Caution {
                    title: Value::from_safe_string(escaped(known.title)),
                    text: Value::from_safe_string(escaped(known.text)),
                    rule: Value::from_safe_string(escaped(known.rule)),
                    foreign: false,
                });
            }
            (Severity::Caution | Severity::Warning, _) => notes.push(Caution {
                title: said(&one.title, SAID_LETTERS),
                text: said(one.help.as_deref().unwrap_or(""), SAID_LETTERS),
                rule: Value::from_safe_string(escaped(one.slug)),
                foreign,
            }),
            _ => {}
        }
    }
    let law = if is_by_law { words.cautions.law } else { say.no_cautions };
    Cautions {
        checked: Value::from_safe_string(escaped(&checked)),
        notes,
        law: Value::from_safe_string(escaped(law)),
    }
}

/// Cloth that shrinks is washed, cloth with a direction lies one way, a zip is bought before it is sewn to.
fn before_cutting(page: &Page, writer: &Writer) -> Vec<Caution> {
    let say = page.say;
    let mut notes = Vec::new();
    let mut note = |title: &str, text: String| {
        notes.push(Caution {
            title: Value::from_safe_string(escaped(title)),
            text: Value::from_safe_string(text),
            rule: Value::from(""),
            foreign: false,
        });
    };
    let Some(size) = page.facts.document.sizes.get(page.shown) else { return notes };
    let label = |cloth: &ClothFactsDocument| isolated(&cloth.label, NAME_LETTERS);
    let shrinks = size.cloths.iter().filter_map(|cloth| {
        let shrink = cloth.shrink?;
        let share = |way: Option<crate::emit::Figure>| {
            let value = way.map_or(0.0, |share| share.rounded());
            writer.figure(&Figure { kind: FigureKind::Share, values: vec![Some(value)] })
        };
        let (along, across) = (share(shrink.along), share(shrink.across));
        Some(format!("{}: {along} {}, {across} {}", label(cloth), say.along, say.across))
    });
    let shrinks: Vec<String> = shrinks.collect();
    if !shrinks.is_empty() {
        note(say.wash_title, format!("{} {}.", escaped(say.wash_text), shrinks.join("; ")));
    }
    let one_way: Vec<String> = size.cloths.iter().filter(|cloth| cloth.one_way).map(label).collect();
    if !one_way.is_empty() {
        note(say.one_way_title, format!("{}: {}", one_way.join(", "), escaped(say.one_way)));
    }
    let has_zip = |closure: &ClosureDocument| closure.zip.is_some();
    if size.closures.iter().any(has_zip) {
        note(say.zip_title, escaped(say.zip_text));
    }
    notes
}
