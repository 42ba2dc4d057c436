//! The head: what it is, whose, in which sizes, and what it asks of who sews it.

use super::Page;
use super::figures::Numbers;
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, escaped, isolated, said, spoken};
use crate::sheet::base::Differences;
use crate::sheet::{Figure, FigureKind};
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Head {
    title: Html,
    about: Html,
    facts: Vec<(&'static str, Html)>,
}

pub fn head(page: &Page, differences: Option<&Differences>) -> Head {
    let (document, say) = (page.facts.document, page.say);
    let mut facts: Vec<(&'static str, Html)> = Vec::new();
    if let Some(maker) = &document.maker {
        facts.push((say.maker, said(maker, NAME_LETTERS)));
    }
    let base = page.base_title().map(|base| format!("{} {}", say.variation_of, isolated(base, NAME_LETTERS)));
    let edition = document.edition.map(|edition| edition.to_string());
    if edition.is_some() || base.is_some() {
        let words: Vec<String> = edition.into_iter().chain(base).collect();
        facts.push((say.edition, Value::from_safe_string(words.join(", "))));
    }
    if let Some(fitting) = &document.fitting {
        facts.push((say.wearer, said(&fitting.wearer, NAME_LETTERS)));
    } else {
        facts.push((say.sizes, sizes(page)));
    }
    facts.push((say.asks_for, asks_for(page)));
    if let Some(licence) = &document.licence {
        facts.push((say.licence, said(licence, SAID_LETTERS)));
    }
    // What is true of the base need not be true of a variation that says nothing of itself.
    let is_of_base = differences.is_some_and(|one| one.about == document.about);
    let about = document.about.as_deref().filter(|_| !is_of_base).unwrap_or("");
    Head { title: said(&document.garment, NAME_LETTERS), about: said(about, SAID_LETTERS), facts }
}

/// "XS to 2XL, chest 82 to 123.5 cm (32¼ to 48⅝ in)"
fn sizes(page: &Page) -> Html {
    let names = &page.sizes;
    let name = |at: usize| isolated(&names[at], NAME_LETTERS);
    let mut words = match names.len() {
        0 => String::new(),
        1 => name(0),
        count => format!("{} {} {}", name(0), page.numbers.to(), name(count - 1)),
    };
    if let Some(by) = page.facts.document.pick.first() {
        let values =
            page.facts.document.sizes.iter().map(|size| size.body.get(by).map(|value| value.rounded()));
        let written = page.numbers.over_all(&Figure { kind: FigureKind::Length, values: values.collect() });
        words = format!("{words}, {} {}", escaped(&spoken(by).to_lowercase()), escaped(&written.main));
        if let Some(beside) = written.beside {
            words = format!("{words} <span class=\"in\">({})</span>", escaped(&beside));
        }
    }
    Value::from_safe_string(words)
}

/// "some practice; 7 pattern pieces, 16 steps"
fn asks_for(page: &Page) -> Html {
    let say = page.say;
    let counted = |count: usize, one: &str, many: &str| match count {
        1 => format!("1\u{a0}{one}"),
        _ => format!("{}\u{a0}{many}", Numbers::number(page.numbers, count as f64, 0)),
    };
    let level = page.facts.document.level.map(|level| match level {
        "easy" => say.easy,
        "hard" => say.hard,
        _ => say.medium,
    });
    let counts = format!(
        "{}, {}",
        counted(page.facts.pieces.len(), say.piece_one, say.piece_many),
        counted(page.facts.rows.len(), say.step_one, say.step_many)
    );
    let words: Vec<&str> = level.into_iter().chain([counts.as_str()]).collect();
    Value::from_safe_string(escaped(&words.join("; ")))
}
