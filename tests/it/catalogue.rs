//! Every slug that the compiler can say is explained.

use fustian::report::catalogue::{entries, entry};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

fn sources(folder: &Path, texts: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, texts);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            texts.push((path.display().to_string(), fs::read_to_string(&path).unwrap()));
        }
    }
}

fn slugs_in(text: &str) -> BTreeSet<&str> {
    let is_word = |word: &str| {
        word.starts_with(|letter: char| letter.is_ascii_lowercase())
            && word.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-')
    };
    let quoted = text.split('"');
    quoted
        .filter(|word| word.split_once('/').is_some_and(|(family, rest)| is_word(family) && is_word(rest)))
        .collect()
}

/// Every file of the source and its text.
pub fn source_texts() -> Vec<(String, String)> {
    let mut texts = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut texts);
    assert!(texts.len() > 100, "the source was searched: {}", texts.len());
    texts
}

/// The constant that an entry is named by: `SEAM_UNEQUAL` for `seam/unequal`.
fn constant(slug: &str) -> String {
    slug.replace(['/', '-'], "_").to_uppercase()
}

/// Every slug that the source says, and a file that says it. What unit tests say does not count.
pub fn said() -> BTreeMap<String, String> {
    let texts = source_texts();
    let mut said = BTreeMap::new();
    for (file, text) in texts.iter().filter(|(file, _)| !file.contains("catalogue")) {
        let text = text.split("#[cfg(test)]").next().unwrap_or("");
        let is_of_a_name = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
        let words: BTreeSet<&str> = text.split(|letter| !is_of_a_name(letter)).collect();
        for entry in entries().filter(|entry| words.contains(constant(entry.slug).as_str())) {
            said.insert(entry.slug.to_owned(), file.clone());
        }
    }
    assert!(said.len() > 20, "the source was searched: {}", said.len());
    said
}

#[test]
fn no_slug_is_written_outside_of_the_catalogue() {
    for (file, text) in source_texts().iter().filter(|(file, _)| !file.contains("catalogue")) {
        let text = text.split("#[cfg(test)]").next().unwrap_or("");
        let written: Vec<&str> = slugs_in(text).into_iter().filter(|slug| entry(slug).is_some()).collect();
        assert!(written.is_empty(), "{file} writes {written:?}: name the entry");
    }
}

#[test]
fn every_entry_is_whole_and_in_the_voice() {
    let mut seen = BTreeSet::new();
    for entry in entries() {
        assert!(seen.insert(entry.slug), "{} is there twice", entry.slug);
        assert!(!entry.title.ends_with('.') && entry.title.len() < 90, "{}", entry.slug);
        assert!(entry.reason.ends_with('.') && entry.reason.len() > 60, "{}", entry.slug);
        for word in ["invalid", "illegal", "error", "fatal", "abort"] {
            let text = format!("{} {}", entry.title, entry.reason).to_lowercase();
            assert!(!text.contains(word), "{} says {word}", entry.slug);
        }
    }
}
