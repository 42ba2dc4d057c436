//! Choosing a size: what is measured on the body, what the finished garment measures, and what is counted by size.

use super::figures::Written;
use super::tables::{Table, TableRow};
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, escaped, isolated, said, spoken};
use super::{Page, Writer};
use crate::emit::{ClosureDocument, ClosureWay, MeasureKind};
use crate::sheet::words::Words;
use crate::sheet::{Figure, FigureKind};
use indexmap::IndexSet;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Sizes {
    pick: Html,
    tables: Vec<Table>,
}

pub fn sizes(page: &Page, writer: &Writer, words: &Words) -> Sizes {
    let say = page.say;
    let caption = |words: &str| Value::from_safe_string(escaped(words));
    let tables = [
        Table::of(caption(say.body_table), say.units_cm, &page.sizes, &body(page, words)),
        Table::of(caption(say.finished_table), say.units_cm, &page.sizes, &finished(page, writer)),
    ];
    Sizes { pick: pick(page), tables: tables.into_iter().flatten().collect() }
}

/// "Take the size of the larger of chest and hip; between two sizes, take the larger one."
fn pick(page: &Page) -> Html {
    let say = page.say;
    let names: Vec<String> = page
        .facts
        .document
        .pick
        .iter()
        .map(|row| isolated(&spoken(row).to_lowercase(), NAME_LETTERS))
        .collect();
    if page.sizes.len() < 2 {
        return Value::from("");
    }
    Value::from_safe_string(match names.as_slice() {
        [] => String::new(),
        [one] => format!("{} <b>{one}</b>; {}.", say.pick_one, say.between),
        [first @ .., last] => format!(
            "{} <b>{} {} {} {last}</b>; {}.",
            say.pick_larger,
            say.pick_larger_of,
            first.join(", "),
            say.and,
            say.between
        ),
    })
}

/// Each measure with how it is taken: as the maker says it, or as its name is understood.
fn body(page: &Page, words: &Words) -> Vec<TableRow> {
    let document = page.facts.document;
    let names: IndexSet<&String> = document.sizes.iter().flat_map(|size| size.body.keys()).collect();
    let rows = names.into_iter().map(|name| TableRow {
        title: said(&spoken(name), NAME_LETTERS),
        note: said(
            document
                .body_notes
                .get(name)
                .map_or_else(|| words.measuring.how(name).unwrap_or(""), String::as_str),
            SAID_LETTERS,
        ),
        cells: document
            .sizes
            .iter()
            .map(|size| {
                size.body.get(name).map(|value| page.numbers.in_table(FigureKind::Length, value.rounded()))
            })
            .collect(),
    });
    rows.collect()
}

fn finished(page: &Page, writer: &Writer) -> Vec<TableRow> {
    let document = page.facts.document;
    let mut rows: Vec<TableRow> = Vec::new();
    let names: IndexSet<&String> = document.sizes.iter().flat_map(|size| size.measures.keys()).collect();
    for name in names {
        let own = || document.sizes.iter().map(|size| size.measures.get(name));
        let Some(first) = own().flatten().next() else { continue };
        let cell = |kind: MeasureKind, value: f64| match kind {
            MeasureKind::Length => page.numbers.in_table(FigureKind::Length, value),
            MeasureKind::Number => page.numbers.in_table(FigureKind::Count, value),
            MeasureKind::Angle => {
                Written { main: format!("{}°", page.numbers.number(value, 1)), beside: None }
            }
            // Square centimetres.
            MeasureKind::Area => {
                Written { main: format!("{}\u{a0}cm²", page.numbers.number(value / 100.0, 0)), beside: None }
            }
        };
        let ease = first.against.as_ref().filter(|_| first.kind == MeasureKind::Length).map(|against| {
            let values = own().map(|measure| Some(measure?.ease?.rounded())).collect();
            let figure = writer.figure(&Figure { kind: FigureKind::Length, values });
            let against = isolated(&spoken(against).to_lowercase(), NAME_LETTERS);
            format!("{} {against}: {figure}", page.say.ease_over)
        });
        rows.push(TableRow {
            title: said(first.title.as_deref().unwrap_or(&spoken(name)), NAME_LETTERS),
            note: Value::from_safe_string(ease.unwrap_or_default()),
            cells: own().map(|measure| measure.map(|one| cell(one.kind, one.value.rounded()))).collect(),
        });
    }
    rows.extend(closures(page));
    rows
}

/// Zip lengths, and how many buttons or the like there are and how far apart.
fn closures(page: &Page) -> Vec<TableRow> {
    let document = page.facts.document;
    let names: IndexSet<&String> =
        document.sizes.iter().flat_map(|size| size.closures.iter().map(|closure| &closure.name)).collect();
    let mut rows = Vec::new();
    for name in names {
        let own =
            || document.sizes.iter().map(|size| size.closures.iter().find(|closure| closure.name == *name));
        let Some(first) = own().flatten().next() else { continue };
        let kind = kind(page, first);
        let mut push =
            |kind: FigureKind, note: String, of: &dyn Fn(&ClosureDocument) -> Option<f64>, title: &str| {
                let values: Vec<Option<f64>> = own().map(|closure| of(closure?)).collect();
                if values.iter().any(Option::is_some) {
                    rows.push(TableRow {
                        title: Value::from_safe_string(escaped(title)),
                        note: said(&note, NAME_LETTERS),
                        cells: values
                            .iter()
                            .map(|value| value.map(|value| page.numbers.in_table(kind, value)))
                            .collect(),
                    });
                }
            };
        let called = spoken(name);
        push(FigureKind::Length, called.clone(), &|closure| Some(closure.zip?.rounded()), &kind);
        push(FigureKind::Count, called.clone(), &|closure| Some(f64::from(closure.fasteners?.count)), &kind);
        let apart = format!("{kind}, {}", page.say.buttons_apart);
        push(FigureKind::Length, called, &|closure| Some(closure.fasteners?.spacing?.rounded()), &apart);
    }
    rows
}

fn kind(page: &Page, closure: &ClosureDocument) -> String {
    let say = page.say;
    spoken(match closure.kind {
        ClosureWay::SeparatingZip => say.separating_zip,
        ClosureWay::ClosedZip => say.closed_zip,
        ClosureWay::ConcealedZip => say.concealed_zip,
        ClosureWay::Buttons => say.button,
        ClosureWay::Snaps => say.snap,
        ClosureWay::Hooks => say.hook,
        ClosureWay::Toggles => say.toggle,
        ClosureWay::Buckle => say.buckle,
        ClosureWay::Ties => say.tie,
    })
}
