//! A text read in parts: side by side, or again after a change, where of those that say what they said the statements are
//! moved, and only the others are read.
//!
//! A part begins where a line begins outside all brackets; nothing of the grammar goes on over such a place, so that
//! the parts of a text read one by one say what the whole does. Where that is in doubt, all of it is read.

#[cfg(feature = "editor")]
use super::Mark;
use super::build::{Builder, Damage};
use super::grammar::{Grammar, Rule};
use super::scan::{Scan, scan};
use super::shift::Shift;
use super::tree::Statement;
use super::{Parsed, Read, finished, parse_text};
use crate::report::Diagnostic;
use crate::source::{FileId, SourceMap};
use indexmap::IndexMap;
use pest::Parser;
use rayon::prelude::*;
use std::ops::Range;
use std::sync::Arc;
#[cfg(feature = "editor")]
use std::sync::OnceLock;

/// What was last read of each file: of no more than the files of one garment.
#[derive(Debug, Default)]
pub(crate) struct KeptTexts {
    /// By the loader's names.
    files: IndexMap<Arc<str>, KeptText>,
    /// How many of them the garment at hand has asked for.
    asked: usize,
}

#[derive(Debug, Default)]
struct KeptText {
    text: Arc<str>,
    base: u32,
    parts: Vec<Part>,
}

/// A part of a text, read.
#[derive(Debug)]
struct Part {
    /// Where it stands in its text.
    at: Range<usize>,
    statements: Vec<Arc<Statement>>,
    /// Counted from the part's beginning.
    damages: Vec<Damage>,
    slips: Vec<Diagnostic>,
    /// Its words, counted likewise, once somebody has asked for them.
    #[cfg(feature = "editor")]
    marks: OnceLock<Vec<Mark>>,
}

impl KeptTexts {
    /// From here on another garment is read, or the same one again.
    pub fn begin(&mut self) {
        self.asked = 0;
    }

    /// Forgets the files that were not asked for since.
    pub fn end(&mut self) {
        self.files.truncate(self.asked);
    }

    /// Reads a file of a source map, as [`super::parse`] does.
    pub fn parse(&mut self, map: &SourceMap, id: FileId, key: &Arc<str>) -> Parsed {
        let source = map.file(id);
        let mut kept = self.files.shift_remove(key).unwrap_or_default();
        let parsed = kept.again(&source.text, source.base, id);
        let place = self.asked.min(self.files.len());
        self.files.shift_insert(place, key.clone(), kept);
        self.asked = place + 1;
        parsed.unwrap_or_else(|| parse_text(&source.text, source.base, id))
    }

    /// Reads the text of a file by itself, as [`super::parse_text`] does.
    #[cfg(feature = "editor")]
    pub fn parse_alone(&mut self, key: &Arc<str>, text: &Arc<str>) -> Parsed {
        let kept = self.files.entry(key.clone()).or_default();
        kept.again(text, 0, FileId(0)).unwrap_or_else(|| parse_text(text, 0, FileId(0)))
    }

    /// The words of a text, as [`super::marks`] finds them.
    #[cfg(feature = "editor")]
    pub fn marks(&mut self, key: &Arc<str>, text: &Arc<str>) -> Vec<Mark> {
        let kept = self.files.entry(key.clone()).or_default();
        match kept.again(text, 0, FileId(0)) {
            Some(_) => kept.parts.iter().flat_map(|part| part.marks(text)).collect(),
            None => super::marks(text),
        }
    }
}

impl KeptText {
    /// What a file says now; none where it has to be read as a whole, which changes nothing.
    fn again(&mut self, text: &Arc<str>, base: u32, id: FileId) -> Option<Parsed> {
        if super::merge_marks::unresolved(text, base).is_some() {
            return None;
        }
        let scan = scan(text);
        if !may_be_parted(&scan) {
            return None;
        }
        let places = ranges(&scan, text.len());
        let is_same =
            |(part, own): &(&Part, &Range<usize>)| self.text.get(part.at.clone()) == text.get((*own).clone());
        let first = self.parts.iter().zip(&places).take_while(is_same).count();
        let rest = self.parts.len().min(places.len()) - first;
        let last = self.parts.iter().rev().zip(places.iter().rev()).take(rest).take_while(is_same).count();
        let changed = places.get(first..places.len() - last)?.iter();
        let read = changed.map(|own| Part::read(text.get(own.clone())?, own.start, base));
        let mut read = read.collect::<Option<Vec<Part>>>()?;
        for (part, own) in self.parts.iter_mut().zip(&places).take(first) {
            part.settle(own.start, self.base, base);
        }
        for (part, own) in self.parts.iter_mut().rev().zip(places.iter().rev()).take(last) {
            part.settle(own.start, self.base, base);
        }
        let mut after = self.parts.split_off(self.parts.len() - last);
        self.parts.truncate(first);
        self.parts.append(&mut read);
        self.parts.append(&mut after);
        (self.text, self.base) = (text.clone(), base);
        Some(finished(base, id, &scan, self.read()))
    }

    /// What all parts say.
    fn read(&self) -> Read {
        let mut read = Read::default();
        for part in &self.parts {
            read.statements.extend(part.statements.iter().cloned());
            read.damages.extend(part.damages.iter().map(|one| one.moved(part.at.start)));
            read.mistakes.extend(part.slips.iter().cloned());
        }
        read
    }
}

/// So many bytes at the least are read in one go: handing less to another thread costs more than it saves.
const RUN: usize = 1024;

/// What a text says, runs of its parts read side by side; none where it has to be read as a whole, or is small. Where runs
/// begin hangs on the text alone, and not on how many threads there are.
pub(super) fn side_by_side(scan: &Scan, text: &str, base: u32) -> Option<Read> {
    if text.len() < 2 * RUN { None } else { in_runs(scan, text, base, RUN) }
}

fn in_runs(scan: &Scan, text: &str, base: u32, run: usize) -> Option<Read> {
    if !may_be_parted(scan) {
        return None;
    }
    let runs = runs(scan, text.len(), run);
    let parts = runs.into_par_iter().map(|own| Part::read(text.get(own.clone())?, own.start, base));
    let mut read = Read::default();
    for part in parts.collect::<Vec<Option<Part>>>() {
        let mut part = part?;
        read.statements.append(&mut part.statements);
        read.damages.extend(part.damages.iter().map(|one| one.moved(part.at.start)));
        read.mistakes.append(&mut part.slips);
    }
    Some(read)
}

/// Whether nothing of the grammar can go on from one part to the next.
fn may_be_parted(scan: &Scan) -> bool {
    !scan.is_open && scan.open_texts.is_empty() && scan.deep.is_empty() && scan.odd.is_empty()
}

/// Parts one after the other, as many together as make a run.
fn runs(scan: &Scan, end: usize, least: usize) -> Vec<Range<usize>> {
    let mut runs: Vec<Range<usize>> = Vec::new();
    for part in ranges(scan, end) {
        match runs.last_mut().filter(|run| run.len() < least || end - part.start < least) {
            Some(run) => run.end = part.end,
            None => runs.push(part),
        }
    }
    runs
}

/// Where the parts of a text stand, one after the other.
fn ranges(scan: &Scan, end: usize) -> Vec<Range<usize>> {
    let starts = std::iter::once(0).chain(scan.begins.iter().copied());
    let ends = scan.begins.iter().copied().chain([end]);
    starts.zip(ends).map(|(from, to)| from..to).collect()
}

impl Part {
    /// Reads one that begins at that byte of its text; none where what is told of it hangs on the whole.
    fn read(text: &str, at: usize, base: u32) -> Option<Part> {
        let scan = scan(text);
        let start = base + at as u32;
        let mut builder = Builder::new(&scan.text, start, &scan.notes);
        let statements = builder.statements(Grammar::parse(Rule::file, &scan.text).ok()?.next()?);
        // A name that is too long is told once, wherever it stands.
        builder.long_names.is_empty().then(|| Part {
            at: at..at + text.len(),
            statements,
            damages: std::mem::take(&mut builder.damages),
            slips: std::mem::take(&mut builder.mistakes),
            #[cfg(feature = "editor")]
            marks: OnceLock::new(),
        })
    }

    /// Its words in its text.
    #[cfg(feature = "editor")]
    fn marks(&self, text: &str) -> impl Iterator<Item = Mark> {
        let own = self.marks.get_or_init(|| super::marks(text.get(self.at.clone()).unwrap_or_default()));
        let from = self.at.start;
        own.iter().map(move |mark| Mark { lo: mark.lo + from, hi: mark.hi + from, kind: mark.kind })
    }

    /// Moves it to where it stands now, in a text that began at `before` and begins at `base`.
    fn settle(&mut self, at: usize, before: u32, base: u32) {
        let by = (base + at as u32).wrapping_sub(before + self.at.start as u32);
        self.at = at..at + self.at.len();
        if by != 0 {
            self.statements.shift(by);
            self.slips.shift(by);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{finished, read_whole};
    use super::{in_runs, scan};
    use crate::source::FileId;
    use std::fs;
    use std::path::Path;

    /// Each example and each mistake, as it is and with one line after the other left out or cut short.
    #[test]
    fn a_text_read_in_parts_says_what_it_says_as_a_whole() {
        let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
        let folders = [examples.clone(), examples.join("mistakes")];
        let files = folders.iter().flat_map(|folder| fs::read_dir(folder).unwrap());
        let mut paths: Vec<_> = files.map(|file| file.unwrap().path()).collect();
        paths.sort();
        let mut parted = 0;
        for path in paths.iter().filter(|path| path.extension().is_some_and(|end| end == "fus")) {
            let Ok(text) = fs::read_to_string(path) else { continue };
            parted += usize::from(is_the_same_in_parts(&text));
            let lines: Vec<&str> = text.lines().collect();
            // Not each of them, which would take minutes.
            for (at, line) in lines.iter().enumerate().skip(3).step_by(61) {
                let half = line.get(..line.len() / 2).unwrap_or_default();
                for put in ["", half] {
                    let mut changed = lines.clone();
                    changed[at] = put;
                    parted += usize::from(is_the_same_in_parts(&changed.join("\n")));
                }
            }
        }
        assert!(parted > 1000, "{parted}");
    }

    /// Whether it may be read in parts; fails where they say something else.
    fn is_the_same_in_parts(text: &str) -> bool {
        const BASE: u32 = 7;
        let (scan, id) = (scan(text), FileId(0));
        let said = |read| format!("{:?}", finished(BASE, id, &scan, read));
        [1, 200].into_iter().all(|run| {
            in_runs(&scan, text, BASE, run).is_some_and(|read| {
                assert_eq!(said(read), said(read_whole(&scan, text, BASE)), "{text}");
                true
            })
        })
    }
}
