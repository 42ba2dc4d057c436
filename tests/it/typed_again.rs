//! A text that is being typed in: what is told after each change, with what is remembered from before, is what a first
//! compiling tells.
//!
//! The same changes each time. More of them: `TYPED=2000 SEED=7 cargo test --release --test it typed_again`.

#[path = "../benches/bare_disk.rs"]
mod bare_disk;

use crate::mutator::Dice;
use bare_disk::opened;
use fustian::editor::Service;
use fustian::source::MemoryLoader;
use fustian::{Compiled, Kept, compile, compile_again};
use serde_json::{Value, json};
use std::path::Path;
use std::{env, fs};

/// What is typed: parts of statements, whole ones, and what breaks them.
const TYPED: [&str; 28] = [
    "1",
    "0",
    ".5",
    " ",
    "\n",
    "\n\n",
    "{",
    "}",
    "(",
    ")",
    "\"",
    "#",
    "# a note\n",
    ",",
    ";",
    "=",
    " + 1",
    "x",
    "é",
    "½",
    "\r\n",
    "\nlet wide = 3\n",
    "\nlet wide = (3\n",
    "\npiece flag \"Flag\" {\n  cut 1\n  outline rectangle 4 by 3\n}\n",
    "\npiece flag \"Flag\" {\n",
    "\nfinish flag.top,\n  flag.left  hem 1\n",
    "\nwidht 3\n{ }\n",
    "\u{1}",
];

fn number(name: &str, usual: usize) -> usize {
    env::var(name).ok().and_then(|said| said.parse().ok()).unwrap_or(usual)
}

pub fn examples() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<(String, String)> = paths
        .filter(|path| path.extension().is_some_and(|extension| extension == "fus"))
        .map(|path| {
            (path.file_name().unwrap().to_str().unwrap().to_owned(), fs::read_to_string(&path).unwrap())
        })
        .collect();
    found.sort();
    found
}

/// The nearest place at or before a byte at which a character begins.
fn place(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The text after one thing that a hand does.
fn typed(text: &str, dice: &mut Dice) -> String {
    let at = place(text, dice.roll(text.len() + 1));
    let (before, after) = text.split_at(at);
    let line = after.find('\n').map_or(after.len(), |end| end + 1);
    let digit = after.find(|letter: char| letter.is_ascii_digit());
    match dice.roll(8) {
        // Another figure, which is as long.
        6 | 7 if let Some(at) = digit => {
            format!("{before}{}{}{}", &after[..at], dice.roll(10), &after[at + 1..])
        }
        // A letter is taken back, the rest of a line, a line is written twice.
        0 => format!("{before}{}", after.chars().skip(1).collect::<String>()),
        1 => format!("{before}{}", &after[line..]),
        2 => format!("{before}{}{after}", &after[..line]),
        _ => format!("{before}{}{after}", TYPED[dice.roll(TYPED.len())]),
    }
}

/// All that is told of a garment, figures and places.
pub fn told(compiled: &Compiled) -> [String; 6] {
    let sizes: Vec<_> = compiled.sizes.iter().map(|size| (&size.drawn, &size.sewn.parts)).collect();
    [
        format!("{:?}", compiled.map.files()),
        format!("{:#?}", compiled.diagnostics),
        format!("{:?}", compiled.garment),
        format!("{:?}", compiled.plan),
        format!("{sizes:?}"),
        format!("{:?}", compiled.json()),
    ]
}

/// Changes a file of a garment again and again, and compares what is told of the garment each time.
fn type_in(first: &str, changed: &str, changes: usize, dice: &mut Dice) {
    let files = examples();
    let loader = |text: &str| {
        let other = files.iter().filter(|(name, _)| name != changed);
        let others = other.fold(MemoryLoader::new(), |all, (name, text)| all.with(name, text.as_str()));
        others.with(changed, text)
    };
    let sound = &files.iter().find(|(name, _)| name == changed).unwrap().1;
    let (mut kept, mut text) = (Kept::default(), sound.clone());
    for change in 0..changes {
        // Now and then all is taken back: what is broken hides what comes after.
        text = if change % 4 == 0 { sound.clone() } else { typed(&text, dice) };
        let loader = loader(&text);
        let again = told(&compile_again(&loader, first, &mut kept));
        let fresh = told(&compile(&loader, first));
        for (again, fresh) in again.iter().zip(&fresh) {
            assert!(
                again == fresh,
                "{changed} of {first}, change {change}:\n{text}\n--- again:\n{again}\n--- fresh:\n{fresh}"
            );
        }
    }
}

/// Small garments, in all that they say.
#[test]
fn a_small_garment_is_told_of_as_if_it_were_new() {
    let changes = number("TYPED", 48);
    for name in ["watch-cap.fus", "galley-apron.fus", "ticket-bag.fus", "mess-skirt.fus", "storm-hat.fus"] {
        let mut dice = Dice::seeded(number("SEED", 1) as u64);
        type_in(name, name, changes, &mut dice);
    }
}

/// Of a variation its base and its library are written too.
#[test]
fn a_variation_is_told_of_as_if_it_were_new() {
    let changes = number("TYPED", 24);
    for (first, changed) in [
        ("deck-jacket.fus", "deck-smock.fus"),
        ("deck-jacket.fus", "crew-library.fus"),
        ("steward-bodice-faced.fus", "steward-bodice-faced.fus"),
        ("mate-trousers-jetted.fus", "mate-trousers.fus"),
    ] {
        let mut dice = Dice::seeded(number("SEED", 1) as u64);
        type_in(first, changed, changes, &mut dice);
    }
}

const HERE: &str = "file:///ferry/cap.fus";

fn asked(service: &mut Service) -> Vec<Value> {
    let of_document = json!({ "textDocument": { "uri": HERE } });
    ["textDocument/documentSymbol", "textDocument/semanticTokens/full"]
        .into_iter()
        .map(|method| service.answer(method, of_document.clone()).unwrap())
        .collect()
}

/// What an editor asks for after every letter: the outline and the colours, before and after the garment is compiled.
#[test]
fn an_editor_is_answered_as_if_the_text_were_new() {
    for name in ["watch-cap.fus", "mess-skirt.fus", "purser-shirt.fus"] {
        let mut dice = Dice::seeded(number("SEED", 1) as u64);
        let sound = examples().into_iter().find(|(own, _)| own == name).unwrap().1;
        let (mut text, mut typing) = (sound.clone(), opened(HERE, &sound));
        for change in 0..number("TYPED", 24) {
            text = if change % 4 == 0 { sound.clone() } else { typed(&text, &mut dice) };
            let changes = json!({
                "textDocument": { "uri": HERE, "version": change + 2 },
                "contentChanges": [{ "text": text }],
            });
            typing.notice("textDocument/didChange", changes).unwrap();
            if change % 2 == 0 {
                typing.changed_diagnostics();
            }
            assert_eq!(
                asked(&mut typing),
                asked(&mut opened(HERE, &text)),
                "{name}, change {change}:\n{text}"
            );
        }
    }
}
