//! Names that are others now, where all else that is said of them is as it was.

use super::sayings::Saying;
use super::worded::{is_of_a_name, renamed, tokens};
use crate::source::Span;
use crate::syntax::tidy::Said;
use indexmap::IndexMap;
use std::collections::HashSet;

/// So many guesses are tried, each over all that is said.
const GUESSES: usize = 60;
/// So many pairs of lines are looked at for guesses: of two garments that have nothing in common no more is to be found.
const LOOKED_AT: usize = 300_000;

/// Of the lines with a name more than this share must stand with another for that to be its new one; the rest were changed
/// too (a judgement).
const NEARLY: f64 = 0.7;

/// Kinds that are known by what they are done to, and sizes, which are told by what comes and goes.
const UNNAMED: &[&str] = &["alteration", "finish", "units", "sizes"];

/// What is called otherwise.
#[derive(Clone, Debug)]
pub(super) struct Renaming {
    /// What it was called.
    pub old: String,
    /// What it is called.
    pub new: String,
    /// What it is: `piece front` as it was called, or the pieces that it is an edge or a place of.
    pub what: String,
    /// Whether that is what has the name.
    pub is_whole: bool,
    /// Where the new name stands.
    pub span: Span,
}

/// Finds what was renamed and calls it by its new name in `before`, so that this is no change of anything else.
///
/// A name that stands nowhere in the new garment is held to be another now that stood nowhere in the old one, if nearly each
/// line that had it stands there with the new name. What was changed beside that is told as it is without.
pub(super) fn take_out(before: &mut [Saying], after: &[Saying]) -> Vec<Renaming> {
    let mut found = Vec::new();
    let (mut guesses, mut left) = (0, LOOKED_AT);
    let lines: HashSet<Line> = after.iter().flat_map(lines).collect();
    let (all_old, all_new) = (names(before), names(after));
    let without = |given: HashSet<String>, others: &HashSet<String>| -> HashSet<String> {
        given.into_iter().filter(|name| !others.contains(name)).collect()
    };
    let (mut only_old, mut only_new) = (without(given(before), &all_new), without(given(after), &all_old));
    let is_known = |old: &str, new: &str, only_old: &HashSet<String>, only_new: &HashSet<String>| {
        only_old.contains(old) && only_new.contains(new)
    };
    // An edge's new name stands in lines of the piece's, so edges come first and pieces have their lines whole then.
    while let Some((old, new)) = guessed(before, after, &lines, &mut left, |old, new| {
        let is_tried = guesses < GUESSES && is_known(old, new, &only_old, &only_new);
        guesses += usize::from(is_tried);
        is_tried && fits(before, &lines, old, new)
    }) {
        let Some((what, is_whole, span)) = owner(before, after, &old, &new) else { return found };
        only_old.remove(&old);
        only_new.remove(&new);
        for saying in before.iter_mut() {
            rename(saying, &old, &new);
        }
        found.push(Renaming { old, new, what, is_whole, span });
    }
    found
}

/// What a line says, with its text for people.
type Line = (String, Option<String>);

fn lines(saying: &Saying) -> Vec<Line> {
    let mut all = Vec::new();
    let mut open = vec![&saying.said];
    while let Some(said) = open.pop() {
        all.push((said.means.clone(), said.note.clone()));
        open.extend(&said.inside);
    }
    all
}

/// The names that are given to something: to what is declared, and in a piece to its edges, places, lines and take-ups.
fn given(all: &[Saying]) -> HashSet<String> {
    let mut names = HashSet::new();
    for saying in all.iter().filter(|saying| !UNNAMED.contains(&saying.kind)) {
        names.insert(saying.name.clone());
        if saying.kind != "piece" {
            continue;
        }
        for fact in &saying.said.inside {
            // `point top = …`, `line thigh across …`; in braces the edges of an outline: `waist to belt`.
            names.extend(tokens(&fact.means).get(1).map(|name| (*name).to_owned()));
            let edges = fact.inside.iter().filter_map(|edge| tokens(&edge.means).first().copied());
            names.extend(edges.map(str::to_owned));
        }
    }
    names.retain(|name| name.starts_with(char::is_alphabetic) && name.chars().all(is_of_a_name));
    names
}

/// All names that stand anywhere.
fn names(all: &[Saying]) -> HashSet<String> {
    let of_line = |(words, _): Line| names_in(&words).map(str::to_owned).collect::<Vec<_>>();
    all.iter().flat_map(lines).flat_map(of_line).collect()
}

fn names_in(words: &str) -> impl Iterator<Item = &str> {
    // What stands in quotes is no name.
    let unquoted = words.split('"').step_by(2);
    unquoted.flat_map(|part| part.split(|letter: char| !is_of_a_name(letter))).filter(|name| !name.is_empty())
}

/// The first guess that is right: a line of the old one and one of the new one that differ in one name alone. No more than
/// what is `left` is looked at.
fn guessed(
    before: &[Saying],
    after: &[Saying],
    lines: &HashSet<Line>,
    left: &mut usize,
    mut is_right: impl FnMut(&str, &str) -> bool,
) -> Option<(String, String)> {
    let was: HashSet<Line> = before.iter().flat_map(self::lines).collect();
    let without = |saying: &Saying, others: &HashSet<Line>| -> Vec<Line> {
        self::lines(saying).into_iter().filter(|line| !others.contains(line)).collect()
    };
    let mut fresh: IndexMap<&str, Vec<Line>> = IndexMap::new();
    for saying in after {
        fresh.entry(saying.kind).or_default().extend(without(saying, &was));
    }
    for saying in before {
        for (line, _) in without(saying, lines) {
            for (other, _) in fresh.get(saying.kind).into_iter().flatten() {
                *left = left.checked_sub(1)?;
                if let Some((old, new)) = one_name_apart(&line, other)
                    && is_right(old, new)
                {
                    return Some((old.to_owned(), new.to_owned()));
                }
            }
        }
    }
    None
}

/// The names in which two lines differ, where that is one name, maybe in several places.
fn one_name_apart<'a>(one: &'a str, other: &'a str) -> Option<(&'a str, &'a str)> {
    let mut apart = None;
    let (mut ours, mut theirs) = (names_in(one), names_in(other));
    loop {
        match (ours.next(), theirs.next()) {
            (Some(own), Some(their)) if own != their && apart.is_none_or(|known| known == (own, their)) => {
                apart = Some((own, their));
            }
            (Some(own), Some(their)) if own == their => {}
            (None, None) => return apart.filter(|(old, new)| renamed(one, old, new) == other),
            _ => return None,
        }
    }
}

/// Whether nearly every line with the old name stands in the new garment with the new name.
fn fits(before: &[Saying], lines: &HashSet<Line>, old: &str, new: &str) -> bool {
    let has_it = |line: &Line| names_in(&line.0).any(|name| name == old);
    let with_it: Vec<Line> = before.iter().flat_map(self::lines).filter(has_it).collect();
    let stands = |(words, note): &&Line| lines.contains(&(renamed(words, old, new), note.clone()));
    let standing = with_it.iter().filter(stands).count();
    standing as f64 > NEARLY * with_it.len() as f64
}

/// What has the name, or the pieces in which it stands, and where it stands first.
fn owner(before: &[Saying], after: &[Saying], old: &str, new: &str) -> Option<(String, bool, Span)> {
    let is_called = |one: &&Saying| one.name == old && !UNNAMED.contains(&one.kind);
    if let Some(saying) = before.iter().find(is_called) {
        let is = after.iter().find(|one| one.kind == saying.kind && one.name == new)?;
        return Some((saying.what.clone(), true, is.said.span));
    }
    let has = |said: &&Said| names_in(&said.means).any(|name| name == new);
    let within: Vec<(&Saying, Span)> =
        after.iter().filter_map(|saying| Some((saying, saying.said.inside.iter().find(has)?.span))).collect();
    let pieces: Vec<&(&Saying, Span)> = within.iter().filter(|(saying, _)| saying.kind == "piece").collect();
    let (_, span) = pieces.first().copied().or(within.first())?;
    let names = match pieces.is_empty() {
        true => within.iter().take(1).map(|(saying, _)| saying.what.clone()).collect::<Vec<_>>(),
        false => pieces.iter().map(|(saying, _)| saying.what.clone()).collect(),
    };
    Some((names.join(", "), false, *span))
}

fn rename(saying: &mut Saying, old: &str, new: &str) {
    for words in [&mut saying.name, &mut saying.what] {
        *words = renamed(words, old, new);
    }
    let mut open = vec![&mut saying.said];
    while let Some(said) = open.pop() {
        for words in [&mut said.words, &mut said.means] {
            *words = renamed(words, old, new);
        }
        open.extend(&mut said.inside);
    }
}
