//! What differs from the base that a garment is a variation of.

use super::Page;
use super::write::{Html, NAME_LETTERS, Writer, escaped, isolated, spoken};
use crate::emit::{Change, Comparison, Differs as Difference, Fate};
use crate::sheet::differing::part_of;
use crate::sheet::{Figure, FigureKind};
use indexmap::IndexMap;
use minijinja::Value;
use serde::Serialize;

/// So many names stand in a line at most.
const NAMES: usize = 12;

#[derive(Debug, Serialize)]
pub struct Differs {
    base: Html,
    lines: Vec<Html>,
}

pub fn differs(page: &Page, writer: &Writer, comparison: &Comparison) -> Option<Differs> {
    let mut lines = Vec::new();
    for (section, word) in [
        ("pieces", page.say.nav_pieces),
        ("cloths", page.say.buy_cloth),
        ("closures", page.say.closures),
        ("cords", page.say.cord),
        ("notions", page.say.buy_beside),
    ] {
        let Some(changes) = comparison.changes.get(section) else { continue };
        for (fate, what) in
            [(Fate::Added, page.say.added), (Fate::Gone, page.say.gone), (Fate::Changed, page.say.changed)]
        {
            // What a cloth or a notion is otherwise is told where it is bought.
            if fate == Fate::Changed && section != "pieces" && section != "closures" {
                continue;
            }
            // What is told apart by sides here and not there, or there and not here, is the same piece.
            let is_there = |change: &Change, fate: Fate| {
                section == "pieces"
                    && changes
                        .iter()
                        .any(|other| other.change == fate && part_of(&other.name) == part_of(&change.name))
            };
            let told = |change: &&Change| match fate {
                Fate::Added => change.change == fate && !is_there(change, Fate::Gone),
                Fate::Gone => change.change == fate && !is_there(change, Fate::Added),
                Fate::Changed => {
                    change.change == fate || change.change == Fate::Added && is_there(change, Fate::Gone)
                }
            };
            let names = names(section, changes.iter().filter(told));
            if !names.is_empty() {
                lines.push(format!("{} {}: {}", escaped(&spoken(word)), escaped(what), names));
            }
        }
    }
    for change in comparison.changes.get("measures").into_iter().flatten() {
        lines.extend(measured(page, writer, change));
    }
    (!lines.is_empty()).then(|| Differs {
        base: Value::from_safe_string(isolated(&comparison.old, NAME_LETTERS)),
        lines: lines.into_iter().map(Value::from_safe_string).collect(),
    })
}

/// "Front, Back, Sleeve (lining)"
fn names<'c>(section: &str, changes: impl Iterator<Item = &'c Change>) -> String {
    let mut by_layer: IndexMap<Option<&str>, Vec<String>> = IndexMap::new();
    for change in changes {
        let layer = change.name.split_once('.').filter(|_| section == "pieces").map(|(layer, _)| layer);
        let name = spoken(change.label.as_deref().unwrap_or(&change.name));
        let names = by_layer.entry(layer).or_default();
        let name = isolated(&name, NAME_LETTERS);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let groups = by_layer.into_iter().map(|(layer, names)| {
        let count = names.len();
        let mut words = names.into_iter().take(NAMES).collect::<Vec<_>>().join(", ");
        if count > NAMES {
            words.push_str(", …");
        }
        layer.map_or(words.clone(), |layer| format!("{words} ({})", isolated(layer, NAME_LETTERS)))
    });
    groups.take(NAMES).collect::<Vec<_>>().join("; ")
}

/// "Finished chest: 104 to 145.5 cm (…), 112 to 153.5 cm (…) here"
fn measured(page: &Page, writer: &Writer, change: &Change) -> Option<String> {
    let fact = change.facts.iter().find(|fact| fact.what == "value" && change.change == Fate::Changed)?;
    let of = |new: bool| {
        let own = |size: &String| match fact.sizes.get(size)? {
            Difference::Length { old: before, new: after } => {
                Some((*if new { after } else { before })?.rounded())
            }
            Difference::Words { .. } | Difference::Redrawn { .. } => None,
        };
        Figure { kind: FigureKind::Length, values: page.sizes.iter().map(own).collect() }
    };
    let (before, after) = (of(false), of(true));
    if after.values.iter().all(Option::is_none) {
        return None;
    }
    let (before, after) = (writer.figure(&before), writer.figure(&after));
    // What differs by less than is shown does not differ to who reads it.
    if before == after {
        return None;
    }
    let name = change.label.as_deref().map_or_else(|| spoken(&change.name), str::to_owned);
    Some(format!(
        "{}: {} {}, {} {}",
        isolated(&name, NAME_LETTERS),
        escaped(page.say.instead_of),
        before,
        escaped(page.say.now),
        after
    ))
}
