//! The table of words: complete in each language, and every slot filled.

use fustian::report::{Severity, catalogue};
use fustian::sewing::order::{GroupTitle, Phase};
use fustian::sheet::Language;
use fustian::sheet::words::{Pattern, PatternPart, Words, parts};
use fustian::syntax::tree::Fastener;
use std::collections::BTreeSet;

fn all() -> Vec<(&'static str, &'static Words)> {
    Language::ALL.iter().map(|&language| (language.tag(), Words::of(language))).collect()
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

/// Words that are spelt alike in both languages.
const ALIKE: [&str; 1] = ["hinten"];

/// Every fixed word of the page and every title of a group is there in each language, and in its own words.
#[test]
fn every_language_has_every_word_of_the_page() {
    let [(_, english), (_, german)] = all()[..] else { panic!("two languages") };
    for ((name, one), (other_name, other)) in english.labels.all().into_iter().zip(german.labels.all()) {
        assert_eq!(name, other_name);
        assert!(!one.trim().is_empty() && !other.trim().is_empty(), "{name}");
        assert!(one != other || ALIKE.contains(&one), "{name}: {one}");
    }
    use Phase::*;
    let phases = [
        Fusing, TakeUps, SmallParts, Slits, Pockets, Zips, Shoulders, Collar, Flat, Sides, Round, Cuffs,
        Lining, BaggingOut, Turning, Hems, Buttons,
    ];
    let fasteners =
        [Fastener::Button, Fastener::Snap, Fastener::Hook, Fastener::Toggle, Fastener::Buckle, Fastener::Tie];
    let others = [GroupTitle::Topstitching, GroupTitle::Straps, GroupTitle::Fastenings];
    let titles = phases.map(GroupTitle::Phase).into_iter().chain(others);
    for called in titles.chain(fasteners.map(GroupTitle::Fasteners)) {
        assert_eq!(english.phases.title(called), called.title());
        let title = german.phases.title(called);
        assert!(!title.is_empty() && title != called.title(), "{title}");
    }
    for (tag, words) in all() {
        assert!(matches!(words.numbers.decimal, '.' | ','), "{tag}");
        assert!(!words.numbers.to.is_empty(), "{tag}");
    }
}

/// Messages are written in English. Every other language has words for what each warning is about, and for nothing else.
#[test]
fn every_warning_has_words_in_every_other_language() {
    let slugs: BTreeSet<&str> = catalogue::entries()
        .filter(|entry| entry.severity == Severity::Warning)
        .map(|entry| entry.slug)
        .collect();
    assert!(slugs.len() > 40, "{}", slugs.len());
    for &language in Language::ALL.iter().filter(|language| **language != Language::English) {
        let words = Words::of(language);
        let told: BTreeSet<&str> = words.warnings.iter().map(|(entry, _)| entry.slug).collect();
        assert_eq!(told, slugs, "{}", language.name());
        assert_eq!(told.len(), words.warnings.len());
        assert!(words.warnings.iter().all(|(_, about)| !about.is_empty() && !about.ends_with('.')));
    }
    assert!(Words::of(Language::English).warnings.is_empty());
}

/// A language is chosen by its name or its tag (BCP 47), and no two have one.
#[test]
fn languages_are_told_apart() {
    let names: BTreeSet<&str> =
        Language::ALL.iter().flat_map(|language| [language.name(), language.tag()]).collect();
    assert_eq!(names.len(), 2 * Language::ALL.len());
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
