//! Keys, figures and what became of them, in a maker's words.

use super::facts::{Fact, Thing};
use crate::emit::number::Figure;
use crate::report::{DisplayUnit, amount};
use indexmap::IndexMap;

/// Words for keys of the document that would mean nothing to a maker, or something else.
const KEYS: &[(&str, &str)] = &[
    ("how", "cut"),
    ("fold", "on fold at"),
    ("whole", "drawn as a half, cut whole"),
    ("one_way", "one way only"),
    ("on_first", "on the first side"),
    ("on_second", "on the second side"),
    ("low", "at least"),
    ("high", "at most"),
    ("opens", "opens to"),
    ("first", "first side"),
    ("second", "second side"),
    ("solved_for", "found for"),
    ("iso_4916_class", "class of ISO 4916"),
    ("held_by", "held by"),
    ("cut_from", "cut from"),
    ("do", "done"),
    ("for", "for"),
    ("plies", ""),
    ("corners", "corner"),
    ("edges", "edge"),
    ("notches", "notch"),
    ("fasteners", "fastener"),
    ("places", "place"),
    ("rings", "ring"),
    ("runs", "run"),
    ("chains", "chain"),
    ("sides", "side"),
    ("actions", "step"),
];

/// A key of the document in words.
pub(super) fn key_words(key: &str) -> String {
    match KEYS.iter().find(|(known, _)| *known == key) {
        Some((_, words)) => (*words).to_owned(),
        None => key.replace('_', " "),
    }
}

/// Several of what a key's words name.
pub(super) fn several(one: &str) -> String {
    match one {
        one if one.ends_with('s') => one.to_owned(),
        one if one.ends_with("ch") => format!("{one}es"),
        one => format!("{one}s"),
    }
}

/// Keys whose numbers are counts, shares, angles and money; all other figures are lengths.
pub(super) fn is_length(keys: &[&str]) -> bool {
    const NO_LENGTHS: &[&str] = &[
        "angle",
        "share",
        "copies",
        "count",
        "rows",
        "times",
        "edition",
        "stitch",
        "iso_4916_class",
        "stretch",
        "shrink",
        "price",
        "usage_percent",
        "turned",
        "pressed_to",
        "line",
        "column",
    ];
    !keys.iter().any(|key| NO_LENGTHS.contains(key))
}

/// What a fact says.
pub(super) fn as_words(fact: &Fact, unit: DisplayUnit) -> String {
    match fact {
        Fact::Length(mm) | Fact::Edge(mm) => amount(*mm, unit),
        Fact::Number(number) => Figure(*number).to_string(),
        Fact::Words(words) => words.clone(),
        Fact::Drawing(_) => "there".to_owned(),
    }
}

/// Which way a length changed: "longer", "further up".
pub(super) fn way(what: &str, is_more: bool) -> &'static str {
    let last = what.rsplit(' ').next().unwrap_or_default();
    match (last, is_more) {
        ("x", true) => "further to the right",
        ("x", false) => "further to the left",
        ("y", true) => "further up",
        ("y", false) => "further down",
        ("width" | "allowance" | "selvage" | "window", true) => "wider",
        ("width" | "allowance" | "selvage" | "window", false) => "narrower",
        ("height", true) => "higher",
        ("height", false) => "lower",
        ("thickness", true) => "thicker",
        ("thickness", false) => "thinner",
        ("depth" | "turned_under", true) => "deeper",
        ("depth" | "turned_under", false) => "less deep",
        ("value" | "amount" | "needs" | "buy" | "thread" | "least" | "most" | "difference", true) => "more",
        ("value" | "amount" | "needs" | "buy" | "thread" | "least" | "most" | "difference", false) => "less",
        ("to", true) if what.ends_with("opens to") => "more",
        ("to", false) if what.ends_with("opens to") => "less",
        (_, true) if what == "girth or length" => "more",
        (_, false) if what == "girth or length" => "less",
        (_, true) => "longer",
        (_, false) => "shorter",
    }
}

/// What stands in the place of something else: by its name the old one's. An alteration that is done elsewhere, or
/// to other pieces, is the same one, altered.
pub(super) fn in_place<'a>(
    section: &str,
    old: &'a IndexMap<String, Thing>,
    new: &'a IndexMap<String, Thing>,
) -> IndexMap<&'a str, &'a str> {
    let mut found = IndexMap::new();
    if section != "alterations" {
        return found;
    }
    let mut gone: Vec<&str> =
        old.keys().map(String::as_str).filter(|name| !new.contains_key(*name)).collect();
    for name in new.keys().map(String::as_str).filter(|name| !old.contains_key(*name)) {
        let is_one = |was: &&str| words_shared(was, name);
        if let Some(at) = gone.iter().position(is_one) {
            found.insert(name, gone.remove(at));
        }
    }
    found
}

/// Whether both do the same, and to the same or at the same place.
fn words_shared(one: &str, other: &str) -> bool {
    let (first, second): (Vec<&str>, Vec<&str>) = (one.split(' ').collect(), other.split(' ').collect());
    let shared = first.iter().filter(|word| second.contains(word)).count();
    first.first() == second.first() && shared * 2 > first.len().max(second.len())
}
