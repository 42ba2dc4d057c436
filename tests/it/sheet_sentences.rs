//! What a sheet says of each step: from facts, short, complete, in two languages.

use crate::workbench::example;
use fustian::cutting::WorkedSize;
use fustian::sheet::sentences::{MOST_WORDS, StepText, step_texts, words_in};
use fustian::sheet::{Facts, Figure, FigureKind, Language, Run, Text};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// All examples, by name.
fn names() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let entries = fs::read_dir(folder).expect("the examples");
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let path = entry.expect("an entry").path();
            let is_garment = path.extension().is_some_and(|extension| extension == "fus");
            is_garment.then(|| path.file_stem().expect("a name").to_string_lossy().into_owned())
        })
        .filter(|name| name != "crew-library" && name != "crew-badge")
        .collect();
    names.sort();
    names
}

fn loader() -> MemoryLoader {
    let all = names();
    let libraries = ["crew-library", "crew-badge"].map(str::to_owned);
    all.iter()
        .chain(&libraries)
        .fold(MemoryLoader::new(), |loader, name| loader.with(&format!("{name}.fus"), example(name)))
}

/// What the steps of a compiled garment say, and what is asked of its facts.
fn with_texts<T>(compiled: &Compiled, language: Language, ask: impl Fn(&Facts, &[StepText]) -> T) -> T {
    let document = compiled.document().expect("a garment without mistakes");
    let sizes: Vec<&WorkedSize> = compiled.sizes.iter().collect();
    let facts = Facts::of(&compiled.garment, sizes, &document).expect("a size");
    let texts = step_texts(&facts, language);
    assert_eq!(texts.len(), facts.rows.len());
    ask(&facts, &texts)
}

fn compiled(name: &str) -> Compiled {
    compile(&loader(), &format!("{name}.fus"))
}

/// A text as it is read: `(3) Sleeve`, `[D]`, `14.8 to 18.9 cm`.
fn plain(text: &Text) -> String {
    let mut plain = String::new();
    for run in &text.0 {
        let _ = match run {
            Run::Words(words) | Run::Term(_, words) => write!(plain, "{words}"),
            Run::Piece(number, title) => match title {
                Some(title) => write!(plain, "({number}) {title}"),
                None => write!(plain, "({number})"),
            },
            Run::Letter(letter) => write!(plain, "[{letter}]"),
            Run::Sign(sign) => write!(plain, "<{sign}>"),
            Run::Figure(figure) => write!(plain, "{}", figured(figure)),
        };
    }
    plain
}

fn figured(figure: &Figure) -> String {
    let known = || figure.values.iter().flatten().copied();
    let least = known().fold(f64::INFINITY, f64::min);
    let most = known().fold(f64::NEG_INFINITY, f64::max);
    let range = |by: f64, unit: &str| {
        let written = |value: f64| format!("{}", (value * by * 10.0).round() / 10.0);
        match written(least) == written(most) {
            true => format!("{}{unit}", written(least)),
            false => format!("{} to {}{unit}", written(least), written(most)),
        }
    };
    match figure.kind {
        FigureKind::Length => range(0.1, " cm"),
        FigureKind::Small => range(1.0, " mm"),
        FigureKind::Count => range(1.0, ""),
        FigureKind::Share => range(100.0, " %"),
    }
}

/// A sheet's steps as they are read.
fn read(facts: &Facts, texts: &[StepText]) -> String {
    let mut read = String::new();
    let mut group = usize::MAX;
    for (row, text) in facts.rows.iter().zip(texts) {
        if row.group != group {
            group = row.group;
            let _ = writeln!(read, "== {}", facts.plan.groups[group].title);
        }
        let sentences: Vec<String> = text.sentences.iter().map(plain).collect();
        let _ = writeln!(read, "{}: {}", row.code, sentences.join("\n    "));
        if let Some(words) = &text.words {
            let _ = writeln!(read, "    \"{words}\"");
        }
        let facts: Vec<String> = text.facts.iter().map(plain).collect();
        if !facts.is_empty() {
            let _ = writeln!(read, "    | {}", facts.join(" | "));
        }
    }
    read
}

#[test]
fn each_step_has_a_sentence_or_the_makers_words() {
    for name in names() {
        for language in Language::ALL {
            with_texts(&compiled(&name), language, |facts, texts| {
                if std::env::var_os("LOOK").is_some() {
                    let path = format!("/tmp/sheetwords/{name}.{}.txt", language.tag());
                    fs::write(path, read(facts, texts)).unwrap();
                }
                for (row, text) in facts.rows.iter().zip(texts) {
                    let says = !text.sentences.is_empty() || text.words.is_some();
                    assert!(says, "{name}: step {} says nothing in {}", row.code, language.tag());
                }
            });
        }
    }
}

#[test]
fn no_sentence_has_more_than_twenty_five_words() {
    for name in names() {
        for language in Language::ALL {
            with_texts(&compiled(&name), language, |facts, texts| {
                for (row, text) in facts.rows.iter().zip(texts) {
                    for sentence in &text.sentences {
                        let words = words_in(sentence);
                        assert!(
                            words <= MOST_WORDS,
                            "{name}, step {}: {words} words: {}",
                            row.code,
                            plain(sentence)
                        );
                    }
                }
            });
        }
    }
}
