//! What two garments say differently, in a maker's words: the causes of all that comes out differently.
//!
//! Both chains are compared as they stand merged, statement by statement, so that it is all the same in which file
//! something is said: a cloth on a library's shelf, a `set` or a line of the base.

mod matched;
mod renamed;
mod sayings;
mod worded;

use super::merge::Merged;
use crate::source::{SourceMap, Span};
use crate::syntax::parse;
use crate::syntax::tidy::{AsWritten, Said, said};
use matched::{moved, paired};
use renamed::Renaming;
use sayings::{Saying, sayings};
use std::sync::Arc;
use worded::{Sizes, instead_of, lead, shortened};

pub(crate) use worded::renamed as with_name;

/// A garment as its files say it.
#[derive(Clone, Copy, Debug)]
pub struct Told<'a> {
    /// Its files.
    pub map: &'a SourceMap,
    /// What they say together.
    pub merged: &'a Merged,
}

/// What is said differently.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Causes {
    /// In the order of the new one, and what is gone last.
    pub causes: Vec<Cause>,
    /// How the files differ as texts, where they say the same.
    pub texts: Texts,
    /// What is called otherwise and is the same: by its old and its new name.
    pub renamed: Vec<(String, String)>,
}

/// How files differ where what they say does not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Texts {
    /// In nothing; or what they say differs.
    #[default]
    Alike,
    /// In notes, blank lines and the like.
    NotesOrLayout,
    /// They say the same in another way, or something that this garment does not use.
    Unused,
}

/// One thing that is said differently.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Cause {
    /// What it is said of: `ease`, `fabric shell`, `seam side`.
    pub what: String,
    /// As it was said; none where it is added.
    pub old: Option<String>,
    /// As it is said; none where it is gone.
    pub new: Option<String>,
    /// All of it in words: `ease 34 instead of 30`.
    pub words: String,
    /// The file that says it, of what is gone the one that said it.
    pub file: Arc<str>,
    /// The line, counted from 1.
    pub line: usize,
    /// It is said in the first file, not in its base or a library.
    pub is_own: bool,
}

/// Compares what two garments say. What stands in a damaged statement counts as gone.
pub fn causes(old: Told<'_>, new: Told<'_>) -> Causes {
    let (mut before, after) = (sayings(old), sayings(new));
    let renamings = renamed::take_out(&mut before, &after);
    let mut finder = Finder { old, new, sizes: Sizes::of(&before, &after), causes: Vec::new() };
    for one in &renamings {
        finder.renamed(one);
    }
    let pairs = paired(
        &before,
        &after,
        |one| (one.kind, one.name.as_str()),
        |one, other| {
            one.kind == other.kind && matched::are_alike(&one.said, &other.said, one.kind == "alteration")
        },
    );
    for &(was, is) in &pairs {
        finder.compare(was.and_then(|at| before.get(at)), is.and_then(|at| after.get(at)));
    }
    finder.alterations_in_another_order(&before, &after, &pairs);
    let causes = finder.causes;
    let texts = match causes.is_empty() {
        true => how_texts_differ(old.map, new.map),
        false => Texts::Alike,
    };
    let renamed = renamings.into_iter().map(|one| (one.old, one.new)).collect();
    Causes { causes, texts, renamed }
}

struct Finder<'a> {
    old: Told<'a>,
    new: Told<'a>,
    sizes: Sizes,
    causes: Vec<Cause>,
}

impl Finder<'_> {
    fn compare(&mut self, was: Option<&Saying>, is: Option<&Saying>) {
        match (was, is) {
            (Some(was), Some(is)) if was.said.says_the_same(&is.said) => {}
            (Some(was), Some(is)) => self.changed(&is.what, "", &was.said, &is.said, is.kind == "steps"),
            (None, Some(is)) => self.added_or_gone(&is.what, "", None, Some(&is.said)),
            (Some(was), None) => self.added_or_gone(&was.what, "", Some(&was.said), None),
            (None, None) => {}
        }
    }

    fn renamed(&mut self, one: &Renaming) {
        let (file, line, is_own) = place(self.new, one.span);
        let words = match one.is_whole {
            true => format!("{} is called {}", one.what, one.new),
            false => format!("{}: {} is called {}", one.what, one.old, one.new),
        };
        let (old, new) = (Some(one.old.clone()), Some(one.new.clone()));
        self.causes.push(Cause { what: one.what.clone(), old, new, words, file, line, is_own });
    }

    /// `of` is what stands before the words of a fact in braces: `fabric shell: `.
    fn changed(&mut self, what: &str, of: &str, was: &Said, is: &Said, in_order: bool) {
        if was.means != is.means {
            let words = instead_of(&was.words, &is.words, &self.sizes);
            self.cause(what, Some(was), Some(is), format!("{of}{words}"));
        }
        if was.means == is.means && was.note != is.note {
            let text = |note: &Option<String>| note.clone().unwrap_or_else(|| "no text".to_owned());
            let words = format!("{of}{} {} instead of {}", lead(&is.words), text(&is.note), text(&was.note));
            self.cause(what, Some(was), Some(is), words);
        }
        let deeper = match of.is_empty() || in_order {
            true => format!(
                "{}: ",
                if of.is_empty() { what.to_owned() } else { of.to_owned() + &lead(&is.words) }
            ),
            false => of.to_owned(),
        };
        let pairs = paired(
            &was.inside,
            &is.inside,
            |one| one.means.as_str(),
            |one, other| matched::are_alike(one, other, false),
        );
        for &(before, after) in &pairs {
            let (before, after) =
                (before.and_then(|at| was.inside.get(at)), after.and_then(|at| is.inside.get(at)));
            match (before, after) {
                (Some(before), Some(after)) if before.says_the_same(after) => {}
                (Some(before), Some(after)) => self.changed(what, &deeper, before, after, in_order),
                (before, after) => self.added_or_gone(what, &deeper, before, after),
            }
        }
        if in_order && let Some((at, beside)) = moved(&pairs) {
            let name = |at: usize| is.inside.get(at).map(|one| lead(&one.words)).unwrap_or_default();
            let place =
                beside.map_or("comes first".to_owned(), |beside| format!("comes after {}", name(beside)));
            let words = format!("{deeper}{} {place}", name(at));
            self.cause(what, Some(was), Some(is), words);
        }
    }

    fn added_or_gone(&mut self, what: &str, of: &str, was: Option<&Said>, is: Option<&Said>) {
        let Some(said) = is.or(was) else { return };
        let word = if is.is_some() { "added" } else { "gone" };
        let told = match said.inside.is_empty() {
            true => shortened(&lead(&said.words)),
            false if of.is_empty() => what.to_owned(),
            false => lead(&said.words),
        };
        self.cause(what, was, is, format!("{of}{word}: {told}"));
    }

    /// What is done to paper is done in its order.
    fn alterations_in_another_order(
        &mut self,
        before: &[Saying],
        after: &[Saying],
        pairs: &[(Option<usize>, Option<usize>)],
    ) {
        let is_alteration = |at: &usize| after.get(*at).is_some_and(|one| one.kind == "alteration");
        let done: Vec<_> =
            pairs.iter().filter(|(_, is)| is.as_ref().is_some_and(is_alteration)).copied().collect();
        let Some((at, beside)) = moved(&done) else { return };
        let was = done.iter().find(|(_, is)| *is == Some(at)).and_then(|(was, _)| before.get((*was)?));
        let (Some(was), Some(is)) = (was, after.get(at)) else { return };
        let place = match beside.and_then(|beside| after.get(beside)) {
            Some(beside) => format!("is done after {}", beside.what),
            None => "is done first".to_owned(),
        };
        self.cause(&is.what, Some(&was.said), Some(&is.said), format!("{} {place}", is.what));
    }

    fn cause(&mut self, what: &str, was: Option<&Said>, is: Option<&Said>, words: String) {
        let (told, span) = match (is, was) {
            (Some(is), _) => (self.new, is.span),
            (None, Some(was)) => (self.old, was.span),
            (None, None) => return,
        };
        let (file, line, is_own) = place(told, span);
        let spelt = |said: &Said| match &said.note {
            Some(note) => format!("{}  {note}", said.words),
            None => said.words.clone(),
        };
        let (old, new) = (was.map(spelt), is.map(spelt));
        self.causes.push(Cause { what: what.to_owned(), old, new, words, file, line, is_own });
    }
}

fn place(told: Told<'_>, span: Span) -> (Arc<str>, usize, bool) {
    let (file, line, _) = told.map.place(span);
    let is_own = told.merged.first.is_none_or(|first| told.map.file_of(span) == first);
    (file.into(), line, is_own)
}

/// How the files differ whose garments are said alike. Files are told apart by their names, but for the first.
fn how_texts_differ(old: &SourceMap, new: &SourceMap) -> Texts {
    let same = |one: &str, other: &str| one == other;
    if alike(old, new, same, |map, at| map.files().get(at).map(|file| file.text.to_string())) {
        return Texts::Alike;
    }
    let meaning = |map: &SourceMap, at: usize| {
        let file = map.files().get(at)?;
        let parsed = parse(map, map.file_of(file.span()));
        let statements = parsed.file.statements.iter();
        Some(statements.map(|one| flat(&said(one, &AsWritten { map }))).collect::<Vec<_>>().join("\n"))
    };
    match alike(old, new, same, meaning) {
        true => Texts::NotesOrLayout,
        false => Texts::Unused,
    }
}

fn alike(
    old: &SourceMap,
    new: &SourceMap,
    same: impl Fn(&str, &str) -> bool,
    text: impl Fn(&SourceMap, usize) -> Option<String>,
) -> bool {
    let rest = |map: &SourceMap| {
        let mut all: Vec<String> = (1..map.files().len()).filter_map(|at| text(map, at)).collect();
        all.sort();
        all
    };
    match (text(old, 0), text(new, 0)) {
        (Some(one), Some(other)) => same(&one, &other) && rest(old) == rest(new),
        (one, other) => one == other,
    }
}

fn flat(said: &Said) -> String {
    let inside: Vec<String> = said.inside.iter().map(flat).collect();
    format!("{} {} {{{}}}", said.means, said.note.as_deref().unwrap_or(""), inside.join(";"))
}
