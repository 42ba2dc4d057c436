//! Every slug that the compiler can say is explained.

use fustian::report::catalogue::{entries, entry};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Words in quotes that look like a slug and are none.
const NOT_SLUGS: &[&str] = &[];

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

#[test]
fn every_slug_in_the_source_has_its_reason() {
    let mut texts = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut texts);
    let mut said = 0;
    let mut missing = BTreeSet::new();
    for (file, text) in texts.iter().filter(|(file, _)| !file.contains("catalogue")) {
        // Unit tests may say what they like.
        let text = text.split("#[cfg(test)]").next().unwrap_or("");
        for slug in slugs_in(text) {
            if NOT_SLUGS.contains(&slug) {
                continue;
            }
            said += 1;
            if entry(slug).is_none() {
                missing.insert(format!("{slug} of {file}"));
            }
        }
    }
    assert!(missing.is_empty(), "not in the catalogue: {missing:#?}");
    assert!(said > 20, "the source was searched: {said}");
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
