//! What differs between two garments, in a maker's words and per size.

use super::Document;
use super::differing::differing;
use super::differs::Differs;
use super::documents::SizeDocument;
use super::facts::{Fact, Facts, Thing, facts};
use super::number::Figure;
use crate::report::DisplayUnit;
use crate::report::amount;
use indexmap::IndexMap;
use serde::Serialize;
use std::borrow::Cow;

/// A length that differs by less has not changed: what is solved for is not found more exactly.
const NOTHING_MM: f64 = 0.05;

/// What differs.
#[derive(Clone, Debug, Serialize)]
pub struct Comparison {
    /// What the old one is called.
    pub old: String,
    /// What the new one is called.
    pub new: String,
    /// Sizes that only the new one has.
    pub sizes_added: Vec<String>,
    /// Sizes that only the old one has.
    pub sizes_gone: Vec<String>,
    /// What differs, section by section; what is alike is left out.
    pub changes: IndexMap<String, Vec<Change>>,
    /// The sizes that both have.
    #[serde(skip)]
    common: Vec<String>,
    #[serde(skip)]
    unit: DisplayUnit,
}

/// One thing that was added, is gone, or changed.
#[derive(Clone, Debug, Serialize)]
pub struct Change {
    /// Its name: of a piece, the part.
    pub name: String,
    /// What people read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What became of it.
    pub change: Fate,
    /// What is said of it otherwise.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub facts: Vec<ChangedFact>,
}

/// What became of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Fate {
    /// Only the new one has it.
    Added,
    /// Only the old one has it.
    Gone,
    /// Both have it, and it differs.
    Changed,
}

/// Something that is said otherwise: an edge's length, a kind, a place.
#[derive(Clone, Debug, Serialize)]
pub struct ChangedFact {
    /// What: an edge's name, "finished width".
    pub what: String,
    /// By size; lengths in millimetres.
    pub sizes: IndexMap<String, Differs>,
}

/// Compares two garments. Lengths are reported in the unit of the new one. Fails where a figure is not
/// finite.
pub fn compare(old: &Document, new: &Document, unit: DisplayUnit) -> Result<Comparison, serde_json::Error> {
    let wearer = new.fitting.as_ref().or(old.fitting.as_ref()).map_or("", |fitting| &fitting.wearer);
    let (before, after) = (beside(old, new, wearer), beside(new, old, wearer));
    let (old, new) = (&*before, &*after);
    let sizes = |one: &Document| one.sizes.iter().map(|size| size.size.clone()).collect::<Vec<_>>();
    let (old_sizes, new_sizes) = (sizes(old), sizes(new));
    let without = |some: &[String], others: &[String]| {
        some.iter().filter(|size| !others.contains(size)).cloned().collect::<Vec<_>>()
    };
    let (before, after) = (facts(&serde_json::to_value(old)?), facts(&serde_json::to_value(new)?));
    Ok(Comparison {
        old: old.garment.clone(),
        new: new.garment.clone(),
        sizes_added: without(&new_sizes, &old_sizes),
        sizes_gone: without(&old_sizes, &new_sizes),
        changes: changes(&before, &after),
        common: new_sizes.iter().filter(|size| old_sizes.contains(size)).cloned().collect(),
        unit,
    })
}

/// A garment as it is compared with one wearer's: in the size nearest to the wearer, under the wearer's name.
/// Two fittings are compared whatever their wearers are called.
fn beside<'a>(one: &'a Document, other: &Document, wearer: &str) -> Cow<'a, Document> {
    let (size, words) = match (&one.fitting, &other.fitting) {
        (Some(fitting), _) => (&fitting.wearer, format!(" for {}", fitting.wearer)),
        (None, Some(fitting)) => (&fitting.nearest, format!(", size {}", fitting.nearest)),
        (None, None) => return Cow::Borrowed(one),
    };
    let Some(own) = one.sizes.iter().find(|own| own.size == *size) else { return Cow::Borrowed(one) };
    let sizes = vec![SizeDocument { size: wearer.to_owned(), ..own.clone() }];
    Cow::Owned(Document { garment: format!("{}{words}", one.garment), sizes, ..one.clone() })
}

fn changes(before: &Facts, after: &Facts) -> IndexMap<String, Vec<Change>> {
    let sections = after.keys().chain(before.keys().filter(|section| !after.contains_key(*section)));
    let mut changes = IndexMap::new();
    for section in sections {
        let (none, also_none) = (IndexMap::new(), IndexMap::new());
        let old = before.get(section).unwrap_or(&none);
        let new = after.get(section).unwrap_or(&also_none);
        let whole = |name: &String, thing: &Thing, change| Change {
            name: name.clone(),
            label: thing.label.clone(),
            change,
            facts: Vec::new(),
        };
        let mut found: Vec<Change> = Vec::new();
        for (name, thing) in new {
            match old.get(name) {
                None => found.push(whole(name, thing, Fate::Added)),
                Some(older) => {
                    let facts = changed_facts(older, thing);
                    if !facts.is_empty() {
                        found.push(Change { facts, ..whole(name, thing, Fate::Changed) });
                    }
                }
            }
        }
        let gone = old.iter().filter(|(name, _)| !new.contains_key(*name));
        found.extend(gone.map(|(name, thing)| whole(name, thing, Fate::Gone)));
        if !found.is_empty() {
            changes.insert(section.clone(), found);
        }
    }
    changes
}

/// What is said otherwise in the sizes that both have. That it is drawn otherwise is reported only where
/// no figure tells how.
fn changed_facts(old: &Thing, new: &Thing) -> Vec<ChangedFact> {
    let mut changed: IndexMap<String, IndexMap<String, Differs>> = IndexMap::new();
    let mut drawn: IndexMap<String, IndexMap<String, Differs>> = IndexMap::new();
    for (size, after) in &new.sizes {
        let Some(before) = old.sizes.get(size) else { continue };
        let keys = before.keys().chain(after.keys().filter(|key| !before.contains_key(*key)));
        for what in keys {
            let (before, after) = (before.get(what), after.get(what));
            if before == after {
                continue;
            }
            match (before, after) {
                (Some(Fact::Length(old)), Some(Fact::Length(new))) if (old - new).abs() < NOTHING_MM => {}
                (Some(Fact::Length(old)), Some(Fact::Length(new))) => {
                    let differs = Differs::Length { old: Figure(*old), new: Figure(*new) };
                    changed.entry(what.clone()).or_default().insert(size.clone(), differs);
                }
                (Some(Fact::Drawing(old)), Some(Fact::Drawing(new))) => {
                    for (what, differs) in differing(what, old, new) {
                        drawn.entry(what).or_default().insert(size.clone(), differs);
                    }
                }
                _ => {
                    let differs = Differs::Words { old: before.map(words), new: after.map(words) };
                    changed.entry(what.clone()).or_default().insert(size.clone(), differs);
                }
            }
        }
    }
    if changed.is_empty() {
        changed = drawn;
    }
    changed.into_iter().map(|(what, sizes)| ChangedFact { what, sizes }).collect()
}

fn words(fact: &Fact) -> String {
    match fact {
        Fact::Length(mm) => format!("{} mm", Figure(*mm)),
        Fact::Number(number) => Figure(*number).to_string(),
        Fact::Words(words) => words.clone(),
        Fact::Drawing(_) => "there".to_owned(),
    }
}

impl Comparison {
    /// Whether nothing differs but, maybe, the names.
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty() && self.sizes_added.is_empty() && self.sizes_gone.is_empty()
    }

    /// In lines for people.
    pub fn text(&self) -> String {
        self.drawn("", "  ", "    ", "")
    }

    /// As Markdown.
    pub fn markdown(&self) -> String {
        self.drawn("## ", "- ", "  - ", "\n")
    }

    fn drawn(&self, heading: &str, entry: &str, detail: &str, gap: &str) -> String {
        let mut text = match self.old == self.new {
            true => format!("{heading}{}\n{gap}", self.new),
            false => format!("{heading}{} compared with {}\n{gap}", self.new, self.old),
        };
        if self.is_empty() {
            text.push_str("nothing differs\n");
            return text;
        }
        for (words, sizes) in [("more sizes", &self.sizes_added), ("sizes gone", &self.sizes_gone)] {
            if !sizes.is_empty() {
                text.push_str(&format!("{words}: {}\n{gap}", sizes.join(", ")));
            }
        }
        let section_mark = if heading.is_empty() { "" } else { "### " };
        for (section, changes) in &self.changes {
            text.push_str(&format!("\n{section_mark}{section}\n{gap}"));
            for change in changes {
                let label = match &change.label {
                    Some(label) => format!("{} ({label})", change.name),
                    None => change.name.clone(),
                };
                text.push_str(&match change.change {
                    Fate::Added => format!("{entry}added: {label}\n"),
                    Fate::Gone => format!("{entry}gone: {label}\n"),
                    Fate::Changed => format!("{entry}changed: {label}\n"),
                });
                for fact in &change.facts {
                    text.push_str(&format!("{detail}{}: {}\n", fact.what, self.by_size(fact)));
                }
            }
        }
        text
    }

    /// "3 cm longer in S, M; 3.2 cm longer in L"
    fn by_size(&self, fact: &ChangedFact) -> String {
        let mut groups: IndexMap<String, Vec<&str>> = IndexMap::new();
        for (size, differs) in &fact.sizes {
            groups.entry(self.difference(&fact.what, differs)).or_default().push(size);
        }
        let group = |(words, sizes): (String, Vec<&str>)| format!("{words} in {}", self.sizes_words(&sizes));
        groups.into_iter().map(group).collect::<Vec<_>>().join("; ")
    }

    /// "every size", "S to XL", "S, M, 2XL"
    fn sizes_words(&self, sizes: &[&str]) -> String {
        if sizes.len() == self.common.len() {
            return "every size".to_owned();
        }
        let place = |size: &&str| self.common.iter().position(|one| one == size);
        let places: Vec<usize> = sizes.iter().filter_map(place).collect();
        let in_a_row = places.windows(2).all(|two| matches!(two, [one, next] if one + 1 == *next));
        match sizes {
            [first, _, .., last] if in_a_row && sizes.len() > 2 => format!("{first} to {last}"),
            _ => sizes.join(", "),
        }
    }

    fn difference(&self, what: &str, differs: &Differs) -> String {
        match differs {
            Differs::Length { old, new } => {
                let by = new.0 - old.0;
                let way = match (what, by > 0.0) {
                    (what, true) if what.ends_with(" x") => "further to the right",
                    (what, false) if what.ends_with(" x") => "further to the left",
                    (what, true) if what.ends_with(" y") => "further up",
                    (what, false) if what.ends_with(" y") => "further down",
                    ("finished width", true) => "wider",
                    ("finished width", false) => "narrower",
                    ("finished height", true) => "higher",
                    ("finished height", false) => "lower",
                    ("value" | "girth or length" | "amount" | "to buy" | "thread", true) => "more",
                    ("value" | "girth or length" | "amount" | "to buy" | "thread", false) => "less",
                    (_, true) => "longer",
                    (_, false) => "shorter",
                };
                format!("{} {way}", amount(by.abs(), self.unit))
            }
            Differs::Words { old: Some(old), new: Some(new) } => format!("{new} instead of {old}"),
            Differs::Words { old: None, new: Some(new) } => format!("new, {new}"),
            Differs::Words { old: Some(old), new: None } => format!("gone, was {old}"),
            Differs::Words { old: None, new: None } => "not said".to_owned(),
            Differs::Redrawn { moved: Some(moved), .. } => {
                format!("moved by {} at most", amount(moved.0, self.unit))
            }
            Differs::Redrawn { moved: None, .. } => "drawn with other points".to_owned(),
        }
    }
}
