//! Cautions: what was checked, what is done before cutting, and where a rule asks for care.

use super::Page;
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, Writer, escaped, isolated, said};
use crate::emit::{ClosureDocument, ClothFactsDocument};
use crate::report::{ReportedDiagnostic, Severity};
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
    /// The message as it is written, where the page is in another language.
    as_told: Html,
}

pub fn cautions(page: &Page, writer: &Writer, words: &Words) -> Cautions {
    let say = page.say;
    let mut told = page.facts.document.diagnostics.iter().filter(|one| !is_for_maker_alone(one));
    let has_warnings = told.any(|one| one.severity == Severity::Warning);
    let found = if has_warnings { say.found_warnings } else { say.found_nothing };
    let checked = match page.sizes.len() {
        0 | 1 => format!("{} {found}", say.checked_one),
        count => format!("{} {count} {} {found}", say.checked, say.checked_sizes),
    };
    let mut notes = before_cutting(page, writer);
    let (mut warnings, mut is_by_law) = (Vec::new(), false);
    for one in page.facts.document.diagnostics.iter().filter(|one| !is_for_maker_alone(one)) {
        match (one.severity, words.cautions.caution(one.slug)) {
            (Severity::Caution, Some(known)) => {
                is_by_law = true;
                notes.push(Caution {
                    title: Value::from_safe_string(escaped(known.title)),
                    text: Value::from_safe_string(escaped(known.text)),
                    rule: Value::from_safe_string(escaped(known.rule)),
                    as_told: Value::from(""),
                });
            }
            (Severity::Caution | Severity::Warning, _) => warnings.push(warning(one, words)),
            _ => {}
        }
    }
    notes.extend(warnings);
    let law = if is_by_law { words.cautions.law } else { say.no_cautions };
    Cautions {
        checked: Value::from_safe_string(escaped(&checked)),
        notes,
        law: Value::from_safe_string(escaped(law)),
    }
}

/// Whether a warning only asks what its maker means: whoever sews can do nothing about it.
fn is_for_maker_alone(one: &ReportedDiagnostic) -> bool {
    one.slug == crate::report::catalogue::PLACE_SHUT.slug
}

/// A warning: the message itself, or what it is about in the page's language, with the message behind it. The ways out are for
/// who writes the pattern, and not for who sews it.
fn warning(one: &ReportedDiagnostic, words: &Words) -> Caution {
    let rule = Value::from_safe_string(escaped(one.slug));
    match words.warning(one.slug) {
        None => Caution {
            title: said(&one.title, SAID_LETTERS),
            text: Value::from(""),
            rule,
            as_told: Value::from(""),
        },
        Some(about) => Caution {
            title: Value::from_safe_string(escaped(&begun(about))),
            text: Value::from(""),
            rule,
            as_told: said(&one.title, SAID_LETTERS),
        },
    }
}

/// With a capital at its beginning.
fn begun(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect()
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
            as_told: Value::from(""),
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
