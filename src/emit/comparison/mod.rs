//! What differs between two garments, in a maker's words and per size: first what is said differently, then what
//! comes of it.

mod csv;
mod differing;
mod differs;
mod facts;
mod halves;
mod renamed;
mod text;
mod words;

pub use differs::Differs;
pub use text::Told;

use super::Document;
use super::documents::{LengthUnit, SizeDocument, Version};
use super::number::Figure;
use crate::garment::{Cause, Causes, Texts};
use crate::report::DisplayUnit;
use differing::differing;
use facts::{Fact, Facts, Thing, facts};
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;
use std::borrow::Cow;
use std::fmt;
use words::{as_words, in_place};

/// A length that differs by less has not changed: what is solved for is not found more exactly.
const NOTHING_MM: f64 = 0.05;

/// What differs between two garments. Lengths are millimetres.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Comparison")]
pub struct Comparison {
    /// The version of this form.
    pub fustian: Version,
    /// The unit of all lengths.
    pub unit: LengthUnit,
    /// What the old one is called.
    pub old: String,
    /// What the new one is called.
    pub new: String,
    /// What the files say differently, of which all else follows.
    pub causes: Vec<CauseDocument>,
    /// How the files differ as texts, where they say the same.
    pub texts: TextsDocument,
    /// What comes out was compared; false where one of them has mistakes, so that it cannot be worked out.
    pub worked_out: bool,
    /// Sizes that only the new one has.
    pub sizes_added: Vec<String>,
    /// Sizes that only the old one has.
    pub sizes_gone: Vec<String>,
    /// What comes out differently, section by section; what is alike is left out.
    pub changes: IndexMap<String, Vec<Change>>,
    /// The sizes that both have.
    #[serde(skip)]
    common: Vec<String>,
    #[serde(skip)]
    shown_in: DisplayUnit,
}

/// One thing that the files say differently.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cause")]
pub struct CauseDocument {
    /// What it is said of: `ease`, `fabric shell`.
    pub what: String,
    /// As it was said; left out where it is added.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub old: Option<String>,
    /// As it is said; left out where it is gone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new: Option<String>,
    /// In words: `ease 34 instead of 30`.
    pub words: String,
    /// The file that says it, or said it.
    pub file: String,
    /// The line there, from 1.
    pub line: usize,
    /// It is said in the first file itself, and not in its base or a library.
    #[serde(skip)]
    is_own: bool,
}

/// How files differ that say the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "Texts")]
pub enum TextsDocument {
    /// Not at all; or what they say differs.
    #[serde(rename = "alike")]
    Alike,
    /// In notes, blank lines and the like.
    #[serde(rename = "notes or layout")]
    NotesOrLayout,
    /// They say the same in another way, or something that this garment does not use.
    #[serde(rename = "unused")]
    Unused,
}

/// One thing that was added, is gone, or changed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Change")]
pub struct Change {
    /// Its name: of a piece, the part.
    pub name: String,
    /// What people read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What became of it.
    pub change: Fate,
    /// What is said of it otherwise; all that is said of what was added or is gone.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub facts: Vec<ChangedFact>,
}

/// What became of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Became")]
pub enum Fate {
    /// Only the new one has it.
    Added,
    /// Only the old one has it.
    Gone,
    /// Both have it, and it differs.
    Changed,
}

impl fmt::Display for Fate {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Fate::Added => "added",
            Fate::Gone => "gone",
            Fate::Changed => "changed",
        })
    }
}

/// Something that is said otherwise: an edge's length, a kind, a place.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ChangedFact")]
pub struct ChangedFact {
    /// What: an edge's name, "finished width".
    pub what: String,
    /// It is the length of an edge of the piece.
    #[serde(skip)]
    is_edge: bool,
    /// By size; lengths in millimetres.
    pub sizes: IndexMap<String, Differs>,
}

/// Compares two garments, of which it is known what their files say differently. Lengths are shown in the unit of the
/// new one. Fails where a figure is not finite.
pub fn compare(
    old: &Document,
    new: &Document,
    causes: &Causes,
    unit: DisplayUnit,
) -> Result<Comparison, serde_json::Error> {
    let wearer = new.fitting.as_ref().or(old.fitting.as_ref()).map_or("", |fitting| &fitting.wearer);
    let (before, after) = (beside(old, new, wearer), beside(new, old, wearer));
    let (old, new) = (&*before, &*after);
    let sizes = |one: &Document| one.sizes.iter().map(|size| size.size.clone()).collect::<Vec<_>>();
    let (old_sizes, new_sizes) = (sizes(old), sizes(new));
    let without = |some: &[String], others: &[String]| {
        some.iter().filter(|size| !others.contains(size)).cloned().collect::<Vec<_>>()
    };
    let (mut before, mut after) = (serde_json::to_value(old)?, serde_json::to_value(new)?);
    for (was, is) in &causes.renamed {
        renamed::call(&mut before, was, is);
    }
    halves::made_comparable(&mut before, &mut after);
    let (before, after) = (facts(&before, unit), facts(&after, unit));
    Ok(Comparison {
        sizes_added: without(&new_sizes, &old_sizes),
        sizes_gone: without(&old_sizes, &new_sizes),
        changes: changes(&before, &after, unit),
        common: new_sizes.iter().filter(|size| old_sizes.contains(size)).cloned().collect(),
        worked_out: true,
        ..said_only((&old.garment, &new.garment), causes, unit)
    })
}

/// What two garments say differently, where one of them cannot be worked out; `titles` are the old one's and the new
/// one's.
pub fn said_only((old, new): (&str, &str), causes: &Causes, unit: DisplayUnit) -> Comparison {
    Comparison {
        fustian: Version::One,
        unit: LengthUnit::Millimetre,
        old: old.to_owned(),
        new: new.to_owned(),
        causes: causes.causes.iter().map(cause).collect(),
        texts: match causes.texts {
            Texts::Alike => TextsDocument::Alike,
            Texts::NotesOrLayout => TextsDocument::NotesOrLayout,
            Texts::Unused => TextsDocument::Unused,
        },
        worked_out: false,
        sizes_added: Vec::new(),
        sizes_gone: Vec::new(),
        changes: IndexMap::new(),
        common: Vec::new(),
        shown_in: unit,
    }
}

fn cause(cause: &Cause) -> CauseDocument {
    CauseDocument {
        what: cause.what.clone(),
        old: cause.old.clone(),
        new: cause.new.clone(),
        words: cause.words.clone(),
        file: cause.file.to_string(),
        line: cause.line,
        is_own: cause.is_own,
    }
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

fn changes(before: &Facts, after: &Facts, unit: DisplayUnit) -> IndexMap<String, Vec<Change>> {
    let sections = after.keys().chain(before.keys().filter(|section| !after.contains_key(*section)));
    let mut changes = IndexMap::new();
    let none = IndexMap::new();
    for section in sections {
        let old = before.get(section).unwrap_or(&none);
        let new = after.get(section).unwrap_or(&none);
        let in_place_of = in_place(section, old, new);
        let known = |name: &str| in_place_of.get(name).map_or_else(|| old.get(name), |was| old.get(*was));
        let whole = |name: &String, thing: &Thing, change, facts| Change {
            name: name.clone(),
            label: thing.label.clone(),
            change,
            facts,
        };
        let mut found: Vec<Change> = Vec::new();
        for (name, thing) in new {
            match known(name) {
                None => found.push(whole(name, thing, Fate::Added, all_facts(thing, unit, true))),
                Some(older) => {
                    let facts = changed_facts(older, thing, unit);
                    if !facts.is_empty() {
                        found.push(whole(name, thing, Fate::Changed, facts));
                    }
                }
            }
        }
        let taken: Vec<&str> = in_place_of.values().copied().collect();
        let gone = old.iter().filter(|(name, _)| !new.contains_key(*name) && !taken.contains(&name.as_str()));
        found.extend(gone.map(|(name, thing)| whole(name, thing, Fate::Gone, all_facts(thing, unit, false))));
        if !found.is_empty() {
            changes.insert(section.clone(), found);
        }
    }
    changes
}

/// Facts by what they are of, and then by size.
#[derive(Default)]
struct Gathered(IndexMap<String, ChangedFact>);

impl Gathered {
    fn put(&mut self, what: &str, size: &str, differs: Differs, is_edge: bool) {
        let fact = self.0.entry(what.to_owned()).or_insert_with(|| ChangedFact {
            what: what.to_owned(),
            is_edge,
            sizes: IndexMap::new(),
        });
        fact.sizes.insert(size.to_owned(), differs);
    }
}

/// What is said of what only one of them has: its figures, and not how it is drawn.
fn all_facts(thing: &Thing, unit: DisplayUnit, is_new: bool) -> Vec<ChangedFact> {
    let mut all = Gathered::default();
    let sides = |is: bool, fact: &Fact| match fact {
        Fact::Length(mm) | Fact::Edge(mm) => {
            let of = |there: bool| there.then_some(Figure(*mm));
            Some(Differs::Length { old: of(!is), new: of(is) })
        }
        Fact::Number(_) | Fact::Words(_) => {
            let of = |there: bool| there.then(|| as_words(fact, unit));
            Some(Differs::Words { old: of(!is), new: of(is) })
        }
        Fact::Drawing(_) => None,
    };
    for (size, said) in &thing.sizes {
        for (what, fact) in said {
            if let Some(differs) = sides(is_new, fact) {
                all.put(what, size, differs, matches!(fact, Fact::Edge(_)));
            }
        }
    }
    all.0.into_values().collect()
}

/// What is said otherwise in the sizes that both have. That it is drawn otherwise is reported only where
/// no figure tells how.
fn changed_facts(old: &Thing, new: &Thing, unit: DisplayUnit) -> Vec<ChangedFact> {
    let (mut changed, mut drawn) = (Gathered::default(), Gathered::default());
    for (size, after) in &new.sizes {
        let Some(before) = old.sizes.get(size) else { continue };
        let keys = before.keys().chain(after.keys().filter(|key| !before.contains_key(*key)));
        for what in keys {
            let (before, after) = (before.get(what), after.get(what));
            if before == after {
                continue;
            }
            let mm = |fact: Option<&Fact>| match fact {
                Some(Fact::Length(mm) | Fact::Edge(mm)) => Some(*mm),
                _ => None,
            };
            let is_length = |fact: Option<&Fact>| fact.is_none() || mm(fact).is_some();
            let is_edge = matches!(after.or(before), Some(Fact::Edge(_)));
            match (before, after) {
                (Some(Fact::Drawing(old)), Some(Fact::Drawing(new))) => {
                    for (what, differs) in differing(what, old, new, unit) {
                        drawn.put(&what, size, differs, false);
                    }
                }
                _ if is_length(before) && is_length(after) => {
                    let (old, new) = (mm(before), mm(after));
                    let by = old.zip(new).map(|(old, new)| (old - new).abs());
                    if by.is_none_or(|by| by >= NOTHING_MM) {
                        let differs = Differs::Length { old: old.map(Figure), new: new.map(Figure) };
                        changed.put(what, size, differs, is_edge);
                    }
                }
                _ => {
                    let words = |fact: Option<&Fact>| fact.map(|fact| as_words(fact, unit));
                    let differs = Differs::Words { old: words(before), new: words(after) };
                    changed.put(what, size, differs, false);
                }
            }
        }
    }
    let told = if changed.0.is_empty() { drawn } else { changed };
    told.0.into_values().collect()
}

impl Comparison {
    /// Whether nothing differs but, maybe, the names.
    pub fn is_empty(&self) -> bool {
        self.causes.is_empty() && self.nothing_comes_out()
    }

    fn nothing_comes_out(&self) -> bool {
        self.changes.is_empty() && self.sizes_added.is_empty() && self.sizes_gone.is_empty()
    }
}
