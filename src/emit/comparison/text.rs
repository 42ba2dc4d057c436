//! A comparison in lines for people.

use super::words::way;
use super::{Change, ChangedFact, Comparison, Differs, Fate, TextsDocument};
use crate::emit::sheet::in_markdown;
use crate::report::amount;
use indexmap::IndexMap;

/// So many causes are told unless all are asked for.
const CAUSES: usize = 24;
/// So many measures are told unless all are asked for.
const MEASURES: usize = 8;
/// What differs by less is not seen on a tape.
const SEEN_MM: f64 = 0.5;
/// Sections whose changes are told one by one: what is measured on the garment, and what is bought.
const TOLD: &[&str] = &["measures", "notions", "cloth", "thread", "cost"];

/// How lines are marked.
struct Marks {
    heading: &'static str,
    section: &'static str,
    entry: &'static str,
    detail: &'static str,
    gap: &'static str,
    /// A maker's words as they are written there.
    words: fn(&str) -> String,
}

/// How much of a comparison is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told<'a> {
    /// All that comes out differently.
    All,
    /// What that is in short, and by what word all of it is asked for.
    InShort(&'a str),
}

impl Comparison {
    /// In lines for people.
    pub fn text(&self, told: Told) -> String {
        self.drawn(
            told,
            &Marks {
                heading: "",
                section: "",
                entry: "  ",
                detail: "    ",
                gap: "",
                words: |words| words.chars().map(|one| if one.is_control() { ' ' } else { one }).collect(),
            },
        )
    }

    /// As Markdown.
    pub fn markdown(&self, told: Told) -> String {
        self.drawn(
            told,
            &Marks {
                heading: "## ",
                section: "### ",
                entry: "- ",
                detail: "  - ",
                gap: "\n",
                words: in_markdown,
            },
        )
    }

    fn drawn(&self, told: Told, marks: &Marks) -> String {
        let title = match self.old == self.new {
            true => self.new.clone(),
            false => format!("{} compared with {}", self.new, self.old),
        };
        let mut text = format!("{}{}", marks.heading, (marks.words)(&title));
        let says = |said: &str| format!(": {said}\n");
        text.push_str(&match (self.causes.as_slice(), self.nothing_comes_out()) {
            ([], true) => says(match self.texts {
                TextsDocument::Alike => "nothing differs",
                TextsDocument::NotesOrLayout => "only notes or layout differ",
                TextsDocument::Unused => "nothing differs, for what is written otherwise comes to the same",
            }),
            ([], false) => "\n".to_owned(),
            ([one], _) => says(&(marks.words)(&self.cause_words(one))),
            (many, _) => {
                let shown = if told == Told::All { many.len() } else { CAUSES };
                let lines = many.iter().take(shown).map(|one| (marks.words)(&self.cause_words(one)));
                let mut text = says(&format!("{} changes", many.len())) + marks.gap;
                text.extend(lines.map(|line| format!("{}{line}\n", marks.entry)));
                if let (Told::InShort(all), true) = (told, many.len() > shown) {
                    text.push_str(&format!("{}and {} more: {all}\n", marks.entry, many.len() - shown));
                }
                text
            }
        });
        if !self.worked_out {
            return text + marks.gap + "what comes out is not compared, since one of them has mistakes\n";
        }
        if self.nothing_comes_out() {
            if !self.causes.is_empty() {
                text.push_str(&format!("{}and nothing of the pieces comes out differently\n", marks.gap));
            }
            return text;
        }
        text.push_str(marks.gap);
        for (words, sizes) in [("more sizes", &self.sizes_added), ("sizes gone", &self.sizes_gone)] {
            if !sizes.is_empty() {
                text.push_str(&format!("{words}: {}\n{}", (marks.words)(&sizes.join(", ")), marks.gap));
            }
        }
        if self.changes.is_empty() {
            return text;
        }
        let (seen, hidden) = self.seen();
        match told {
            Told::InShort(all) if !self.causes.is_empty() => self.in_short(&seen, all, &mut text, marks),
            Told::All | Told::InShort(_) => self.each(&seen, &mut text, marks),
        }
        if hidden > 0 && seen.is_empty() {
            text.push_str(&format!("{}nothing that a tape shows\n", marks.entry));
        }
        text
    }

    /// With the file where that is another than the first.
    fn cause_words(&self, cause: &super::CauseDocument) -> String {
        match cause.is_own {
            true => cause.words.clone(),
            false => format!("{} ({}:{})", cause.words, cause.file, cause.line),
        }
    }

    /// What of the changes a tape shows, and how many it does not. What is solved for moves everything a little.
    fn seen(&self) -> (IndexMap<&str, Vec<Change>>, usize) {
        let mut hidden = 0;
        let mut all = IndexMap::new();
        for (section, changes) in &self.changes {
            let mut seen: Vec<Change> = Vec::new();
            for change in changes {
                let facts: Vec<ChangedFact> =
                    change.facts.iter().filter(|fact| is_seen(fact)).cloned().collect();
                match facts.is_empty() && !change.facts.is_empty() {
                    true => hidden += 1,
                    false => seen.push(Change { facts, ..change.clone() }),
                }
            }
            if !seen.is_empty() {
                all.insert(section.as_str(), seen);
            }
        }
        (all, hidden)
    }

    /// Every thing, section by section.
    fn each(&self, seen: &IndexMap<&str, Vec<Change>>, text: &mut String, marks: &Marks) {
        for (section, changes) in seen {
            text.push_str(&format!("\n{}{section}\n{}", marks.section, marks.gap));
            for change in changes {
                let label = (marks.words)(&called(change));
                text.push_str(&format!("{}{}: {label}\n", marks.entry, change.change));
                let facts = change.facts.iter().filter(|_| change.change == Fate::Changed);
                for fact in facts {
                    let (what, by_size) = ((marks.words)(&fact.what), (marks.words)(&self.by_size(fact)));
                    text.push_str(&format!("{}{what}: {by_size}\n", marks.detail));
                }
            }
        }
    }

    /// What is measured and bought, and of the rest how much.
    fn in_short(&self, seen: &IndexMap<&str, Vec<Change>>, all: &str, text: &mut String, marks: &Marks) {
        text.push_str(&format!(
            "{}and so\n{}",
            if marks.gap.is_empty() { "" } else { marks.section },
            marks.gap
        ));
        let mut counted: Vec<String> = Vec::new();
        for (section, changes) in seen {
            if TOLD.contains(section) {
                let shown = if *section == "measures" { MEASURES } else { usize::MAX };
                for line in changes.iter().take(shown).flat_map(|change| self.in_one_line(change)) {
                    text.push_str(&format!("{}{}\n", marks.entry, (marks.words)(&line)));
                }
                let more = changes.len().saturating_sub(shown);
                counted.extend((more > 0).then(|| of_more(more, "more measure")));
                continue;
            }
            for fate in [Fate::Added, Fate::Gone] {
                let of = changes.iter().filter(|change| change.change == fate);
                let names: Vec<&str> = of.map(|change| change.name.as_str()).collect();
                if *section == "pieces" && !names.is_empty() {
                    let line = format!("{fate}: {}", names.join(", "));
                    text.push_str(&format!("{}{}\n", marks.entry, (marks.words)(&line)));
                }
            }
            counted.extend(count(section, changes));
        }
        if !counted.is_empty() {
            text.push_str(&format!("{}{}: {all}\n", marks.entry, counted.join(", ")));
        }
    }

    fn in_one_line(&self, change: &Change) -> Vec<String> {
        let name = change.label.as_deref().unwrap_or(&change.name);
        match change.change {
            Fate::Changed => {
                let line = |fact: &ChangedFact| match fact.what.as_str() {
                    "value" | "to buy" | "thread" | "sum" => format!("{name}: {}", self.by_size(fact)),
                    what => format!("{name}, {what}: {}", self.by_size(fact)),
                };
                change.facts.iter().map(line).collect()
            }
            fate => vec![format!("{fate}: {name}")],
        }
    }

    /// "3 cm longer in S, M, 61 to 62 cm instead of 58 to 59 cm; 3.2 cm longer in L, …"
    fn by_size(&self, fact: &ChangedFact) -> String {
        let mut groups: IndexMap<String, Vec<(&str, &Differs)>> = IndexMap::new();
        for (size, differs) in &fact.sizes {
            groups.entry(self.difference(&fact.what, differs)).or_default().push((size, differs));
        }
        let group = |(words, sizes): (String, Vec<(&str, &Differs)>)| {
            let names: Vec<&str> = sizes.iter().map(|(size, _)| *size).collect();
            let place = match self.sizes_words(&names) {
                place if place.is_empty() => place,
                place => format!(" in {place}"),
            };
            format!("{words}{place}{}", self.figures(&sizes))
        };
        groups.into_iter().map(group).collect::<Vec<_>>().join("; ")
    }

    /// ", 61 to 66 cm instead of 58 to 63 cm"
    fn figures(&self, sizes: &[(&str, &Differs)]) -> String {
        let both = sizes.iter().filter_map(|(_, differs)| match differs {
            Differs::Length { old: Some(old), new: Some(new) } => Some((old.0, new.0)),
            _ => None,
        });
        let (old, new): (Vec<f64>, Vec<f64>) = both.unzip();
        match (self.range(&old), self.range(&new)) {
            (Some(old), Some(new)) if old != new => format!(", {new} instead of {old}"),
            _ => String::new(),
        }
    }

    /// "61 to 66 cm", of the first size and the last.
    fn range(&self, all: &[f64]) -> Option<String> {
        let words = |mm: f64| amount(mm, self.shown_in);
        let (first, last) = (words(*all.first()?), words(*all.last()?));
        Some(match (first.rsplit_once(' '), last.rsplit_once(' ')) {
            _ if first == last => first,
            (Some((number, unit)), Some((_, other))) if unit == other => format!("{number} to {last}"),
            _ => format!("{first} to {last}"),
        })
    }

    /// "every size", "S to XL", "S, M, 2XL"; nothing where there is one size.
    fn sizes_words(&self, sizes: &[&str]) -> String {
        if sizes.len() == self.common.len() {
            return if self.common.len() == 1 { String::new() } else { "every size".to_owned() };
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
        let words = |mm: f64| amount(mm, self.shown_in);
        match differs {
            Differs::Length { old: Some(old), new: Some(new) } => {
                let by = new.0 - old.0;
                format!("{} {}", words(by.abs()), way(what, by > 0.0))
            }
            Differs::Length { old: None, new: Some(new) } => format!("new, {}", words(new.0)),
            Differs::Length { old: Some(old), new: None } => format!("gone, was {}", words(old.0)),
            Differs::Words { old: Some(old), new: Some(new) } => format!("{new} instead of {old}"),
            Differs::Words { old: None, new: Some(new) } => format!("new, {new}"),
            Differs::Words { old: Some(old), new: None } => format!("gone, was {old}"),
            Differs::Length { old: None, new: None } | Differs::Words { old: None, new: None } => {
                "not said".to_owned()
            }
            Differs::Redrawn { moved: Some(moved), .. } => format!("moved by {} at most", words(moved.0)),
            Differs::Redrawn { moved: None, .. } => "drawn with other points".to_owned(),
        }
    }
}

/// Whether anything of it can be seen on a tape.
fn is_seen(fact: &ChangedFact) -> bool {
    fact.sizes.values().any(|differs| match differs {
        Differs::Length { old: Some(old), new: Some(new) } => (new.0 - old.0).abs() >= SEEN_MM,
        Differs::Redrawn { moved: Some(moved), .. } => moved.0 >= SEEN_MM,
        _ => true,
    })
}

/// "outer.front (Front)"
fn called(change: &Change) -> String {
    match &change.label {
        Some(label) if *label != change.name => format!("{} ({label})", change.name),
        _ => change.name.clone(),
    }
}

/// How much of a section comes out differently: "14 edges of 4 pieces", "2 seams".
fn count(section: &str, changes: &[Change]) -> Option<String> {
    if changes.is_empty() {
        return None;
    }
    if section == "pieces" {
        let changed: Vec<&Change> = changes.iter().filter(|change| change.change == Fate::Changed).collect();
        let edges: usize =
            changed.iter().map(|change| change.facts.iter().filter(|fact| fact.is_edge).count()).sum();
        return match (changed.len(), edges) {
            (0, _) => None,
            (pieces, 0) => Some(of_more(pieces, "piece")),
            (pieces, edges) => Some(format!("{} of {}", of_more(edges, "edge"), of_more(pieces, "piece"))),
        };
    }
    let one = match section {
        "cut list" => "line of the cut list",
        "body" => "body measure",
        "cloths" => "cloth",
        "elastic" => "length of elastic",
        "pattern" => "line about the pattern",
        "steps" => "step",
        section => section.strip_suffix('s').unwrap_or(section),
    };
    Some(of_more(changes.len(), one))
}

fn of_more(count: usize, one: &str) -> String {
    match (count, one.split_once(' ')) {
        (1, _) => format!("1 {one}"),
        (_, Some((first, rest))) if matches!(first, "line" | "length") => format!("{count} {first}s {rest}"),
        _ => format!("{count} {one}s"),
    }
}
