//! What a hurried or clumsy hand makes of the examples: words lost, doubled, swapped, numbers out
//! of all measure. Whatever is written, the compiler comes to an end and says something.
//!
//! The same each time. More of them: `MUTANTS=20000 SEED=7 cargo test --release --test it mutations`.

pub(super) use crate::mutator::Dice;
use fustian::compile;
use fustian::emit::{Form, cut_list, document, pieces, to_text};
use fustian::report::{RenderOptions, render, reported};
use fustian::source::MemoryLoader;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};
use std::{env, fs};

/// Numbers that a maker would never write, and how they are written.
const WILD: [&str; 16] = [
    "0",
    "-1",
    "-0.0001",
    "1000000",
    "99999999999999999999",
    "1e308",
    "1/0",
    "0/0",
    "0.0000000001",
    "-99999",
    "3 1/2",
    "½",
    "400%",
    "90deg",
    "1000m",
    "12 * 10000m * 10000m",
];

/// Signs that stand for something in the language.
const SIGNS: [&str; 14] = ["{", "}", "(", ")", "\"", "#", ";", ",", "=", "+", "-", "..", "\n", "'"];

/// A text in its words, signs and spaces.
fn words(text: &str) -> Vec<String> {
    let kind = |letter: char| match letter {
        letter if letter.is_alphabetic() || letter == '_' => 0,
        letter if letter.is_ascii_digit() || letter == '.' => 1,
        ' ' => 2,
        _ => 3,
    };
    let mut words: Vec<String> = Vec::new();
    let mut last = 3;
    for letter in text.chars() {
        let this = kind(letter);
        match words.last_mut() {
            Some(word) if this == last && this != 3 => word.push(letter),
            _ => words.push(letter.to_string()),
        }
        last = this;
    }
    words
}

/// The text after one to four slips.
fn mutant(text: &str, dice: &mut Dice) -> String {
    let mut words = words(text);
    let solid: Vec<usize> = (0..words.len()).filter(|&at| words[at].trim() != "").collect();
    let numbers: Vec<usize> = solid
        .iter()
        .copied()
        .filter(|&at| words[at].starts_with(|letter: char| letter.is_ascii_digit()))
        .collect();
    for _ in 0..1 + dice.roll(4) {
        let at = solid[dice.roll(solid.len())];
        let other = solid[dice.roll(solid.len())];
        match dice.roll(10) {
            0 => words[at].clear(),
            1 => words[at] = format!("{0} {0}", words[at]),
            2 => words.swap(at, other),
            3 => words[at] = words[other].clone(),
            4 => words[at] = SIGNS[dice.roll(SIGNS.len())].to_owned(),
            5 => {
                let line = words.iter().skip(at).position(|word| word == "\n").unwrap_or(0);
                words[at..at + line].iter_mut().for_each(String::clear);
            }
            6 => {
                let line = words.iter().skip(at).position(|word| word == "\n").unwrap_or(0);
                let copy = words[at..at + line].concat();
                words[other] = format!("{}\n{copy}\n", words[other]);
            }
            _ if numbers.is_empty() => {}
            7 => words[numbers[dice.roll(numbers.len())]] = "0".to_owned(),
            _ => words[numbers[dice.roll(numbers.len())]] = WILD[dice.roll(WILD.len())].to_owned(),
        }
    }
    words.concat()
}

fn read(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "fus"))
        .map(|path| {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, fs::read_to_string(&path).unwrap())
        })
        .collect();
    files.sort();
    files
}

/// Everything that is done with a garment.
fn whole_journey(loader: &MemoryLoader, path: &str) -> usize {
    let compiled = compile(loader, path);
    let sizes: Vec<_> = compiled.sizes.iter().collect();
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics)).unwrap();
    pieces(&compiled.garment, &sizes, Form::Text).unwrap();
    cut_list(&compiled.garment, &sizes, Form::Text).unwrap();
    assert_eq!(reported(&compiled.map, &compiled.diagnostics).len(), compiled.diagnostics.len());
    render(&compiled.map, &compiled.diagnostics, RenderOptions::default()).len() + compiled.diagnostics.len()
}

pub(super) fn asked(name: &str, default: u64) -> u64 {
    env::var(name).ok().and_then(|value| value.parse().ok()).unwrap_or(default)
}

#[test]
fn no_slip_of_the_hand_brings_the_compiler_down() {
    let examples = read("examples");
    let mut seeds = examples.clone();
    seeds.extend(read("examples/mistakes"));
    survive(&examples, &seeds, asked("MUTANTS", 150));
}

/// A fitting is a small file among many: by itself it is damaged often enough.
#[test]
fn no_slip_in_a_wearer_s_rows_does() {
    let examples = read("examples");
    let fittings: Vec<(String, String)> =
        examples.iter().filter(|(_, text)| text.contains("\nfitting \"")).cloned().collect();
    assert!(!fittings.is_empty());
    survive(&examples, &fittings, asked("MUTANTS", 150) / 5);
}

/// So many damaged seeds are compiled, with the examples beside them.
fn survive(examples: &[(String, String)], seeds: &[(String, String)], count: u64) {
    let seed = asked("SEED", 1);
    let mut dice = Dice::seeded(seed);
    let mut slowest = (Duration::ZERO, String::new());
    let mut without_a_word = 0;
    for number in 0..count {
        let (name, text) = &seeds[dice.roll(seeds.len())];
        let mutant = mutant(text, &mut dice);
        let loader = examples
            .iter()
            .fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()))
            .with(name, mutant.as_str());
        // A slip in the smock or the library is seen from the jacket too.
        let first = match name.as_str() {
            "deck-smock.fus" | "crew-library.fus" => "deck-jacket.fus",
            own => own,
        };
        let start = Instant::now();
        let told = catch_unwind(AssertUnwindSafe(|| whole_journey(&loader, first)));
        let took = start.elapsed();
        if took > slowest.0 {
            slowest = (took, format!("mutant {number} of seed {seed}, {name}:\n{mutant}"));
        }
        match told {
            Ok(0) => without_a_word += 1,
            Ok(_) => {}
            Err(_) => panic!("mutant {number} of seed {seed}, {name}:\n{mutant}"),
        }
    }
    println!("{count} mutants, {without_a_word} of them sound; the slowest took {:?}", slowest.0);
    assert!(slowest.0 < Duration::from_secs(20), "{:?}: {}", slowest.0, slowest.1);
}
