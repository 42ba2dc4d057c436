//! The table of words: complete in each language, and every slot filled.

use fustian::report::{Severity, catalogue};
use fustian::sheet::Language;
use fustian::sheet::words::{Pattern, PatternPart, Words, parts};
use std::collections::BTreeSet;

fn all() -> Vec<(&'static str, &'static Words)> {
    Language::ALL.map(|language| (language.tag(), Words::of(language))).to_vec()
}

fn slots(pattern: &Pattern) -> BTreeSet<&'static str> {
    let slot = |part: PatternPart| match part {
        PatternPart::Slot(name) => Some(name),
        _ => None,
    };
    parts(pattern.text).into_iter().filter_map(slot).collect()
}

#[test]
fn every_pattern_has_the_slots_that_are_filled_and_no_others() {
    for (tag, words) in all() {
        for pattern in words.sentences.patterns() {
            let asked: BTreeSet<&str> = pattern.slots.iter().copied().collect();
            assert_eq!(slots(&pattern), asked, "{tag}: {}", pattern.name);
            assert!(!pattern.text.is_empty(), "{tag}: {}", pattern.name);
        }
    }
}

#[test]
fn no_pattern_is_left_with_half_a_slot_or_half_a_term() {
    for (tag, words) in all() {
        for pattern in words.sentences.patterns() {
            for part in parts(pattern.text) {
                if let PatternPart::Words(plain) = part {
                    assert!(!plain.contains(['{', '}', '[', ']', '|']), "{tag}: {}: {plain}", pattern.name);
                }
            }
        }
    }
}

#[test]
fn every_term_that_is_used_is_explained() {
    for (tag, words) in all() {
        for pattern in words.sentences.patterns() {
            for part in parts(pattern.text) {
                if let PatternPart::Term(key, _) = part {
                    assert!(words.glossary.term(key).is_some(), "{tag}: {} uses {key}", pattern.name);
                }
            }
        }
        for (key, term) in words.glossary.terms() {
            assert!(!term.word.is_empty() && term.meaning.ends_with('.'), "{tag}: {key}");
        }
    }
}

/// A sentence asks for the same terms in every language, so that a term is explained wherever it is met.
#[test]
fn languages_differ_in_words_and_agree_in_what_they_tell() {
    let [(_, english), (_, german)] = all()[..] else { panic!("two languages") };
    let own = english.sentences.patterns();
    for (one, other) in own.iter().zip(german.sentences.patterns()) {
        assert_eq!(one.name, other.name);
        // What is nothing but its slots, or a comma, may be alike.
        let says = |part: &PatternPart| match part {
            PatternPart::Words(words) => words.chars().any(char::is_alphabetic),
            PatternPart::Term(..) => true,
            PatternPart::Slot(_) => false,
        };
        if parts(one.text).iter().any(says) && !matches!(one.name, "fact_layer") {
            assert_ne!(one.text, other.text, "{}", one.name);
        }
    }
    for ((key, one), (_, other)) in english.glossary.terms().into_iter().zip(german.glossary.terms()) {
        assert_ne!(one.meaning, other.meaning, "{key}");
    }
    for ((key, one), (_, other)) in english.measuring.all().into_iter().zip(german.measuring.all()) {
        assert!(!one.is_empty() && !other.is_empty() && one != other, "{key}");
    }
}

#[test]
fn no_sentence_calls_anything_simple() {
    let vain = ["simply", "just", "easily", "merely", "einfach", "nur noch", "ganz leicht"];
    for (tag, words) in all() {
        for pattern in words.sentences.patterns() {
            let said = pattern.text.to_lowercase();
            for word in vain {
                let mut found = said.split(|letter: char| !letter.is_alphabetic());
                assert!(!found.any(|own| own == word), "{tag}: {}: {word}", pattern.name);
            }
        }
    }
}

/// Every caution that there is has its words, its rule and the local law in each language.
#[test]
fn every_caution_is_told_with_its_rule() {
    let slugs: BTreeSet<&str> = catalogue::entries()
        .filter(|entry| entry.severity == Severity::Caution)
        .map(|entry| entry.slug)
        .collect();
    assert!(!slugs.is_empty());
    for (tag, words) in all() {
        let told: BTreeSet<&str> = words.cautions.all().iter().map(|(slug, _)| *slug).collect();
        assert_eq!(told, slugs, "{tag}");
        for slug in &slugs {
            let caution = words.cautions.caution(slug).expect("its words");
            assert!(caution.rule.contains("CFR"), "{tag}: {slug}");
            assert!(!caution.title.is_empty() && caution.text.ends_with('.'), "{tag}: {slug}");
        }
        assert!(words.cautions.law.ends_with('.'), "{tag}");
    }
}
