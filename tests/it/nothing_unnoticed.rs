//! Nothing goes unnoticed: take any one seam, finish, placement, closure or action out of a
//! complete garment, and a mistake or a warning names what is missing.
//!
//! The text is changed, not the model: what a maker would forget to write.

use fustian::compile;
use fustian::report::{Diagnostic, Severity};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::parse;
use fustian::syntax::tree::{Action, Chain, Dotted, StatementNode, Verb};
use rayon::prelude::*;
use std::fs;
use std::path::Path;

const GARMENTS: [&str; 7] =
    ["deck-lined", "deck-zip", "deck-smock", "galley-apron", "mess-jacket", "mess-skirt", "oilskin-trousers"];

/// What may go unnoticed, with the reason; by the garment and the words that are taken away.
const UNNOTICED: [(&str, &str, &str); 0] = [];

/// Something that can be taken out of a text.
struct Cut {
    garment: &'static str,
    from: usize,
    to: usize,
    words: String,
    /// One of these is named by whoever notices.
    names: Vec<String>,
}

fn read(garment: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(format!("{garment}.fus"));
    fs::read_to_string(path).unwrap()
}

/// Every example, one of them changed, in one size.
fn compiled(garment: &str, text: &str) -> Vec<Diagnostic> {
    let mut loader = MemoryLoader::new().with("crew-library.fus", read("crew-library"));
    for other in GARMENTS {
        let own = if other == garment { text.to_owned() } else { read(other) };
        loader = loader.with(&format!("{other}.fus"), own);
    }
    let size = if garment == "galley-apron" { "one" } else { "M" };
    let one = format!("variation \"One size\" of \"{garment}.fus\"\nsizes {size}\n");
    compile(&loader.with("one.fus", one), "one.fus").diagnostics
}

fn last(dotted: &Dotted) -> String {
    dotted.parts.last().map(|name| name.text.to_string()).unwrap_or_default()
}

fn edges<'a>(chains: impl IntoIterator<Item = &'a Chain>) -> Vec<String> {
    chains.into_iter().flat_map(|chain| &chain.edges).map(|sewn| last(&sewn.edge)).collect()
}

fn cuts(garment: &'static str) -> Vec<Cut> {
    let text = read(garment);
    let mut map = SourceMap::default();
    let id = map.add(garment, text.as_str());
    let mut found = Vec::new();
    let mut cut = |from: usize, to: usize, names: Vec<String>| {
        found.push(Cut { garment, from, to, words: text[from..to].to_owned(), names });
    };
    for statement in parse(&map, id).file.statements {
        let (from, to) = (statement.span.lo as usize, statement.span.hi as usize);
        let own = match &statement.node {
            StatementNode::Replace(inner) => &inner.node,
            node => node,
        };
        match own {
            StatementNode::Seam(seam) => {
                let mut names = edges(seam.first.plies.iter().chain(&seam.second.plies));
                names.push(seam.name.text.to_string());
                cut(from, to, names);
            }
            StatementNode::Finish(finish) => {
                cut(from, to, finish.edges.iter().map(|sewn| last(&sewn.edge)).collect())
            }
            StatementNode::Place(place) => cut(from, to, vec![last(&place.piece)]),
            StatementNode::Closure(closure) => {
                let mut names = edges([&closure.first, &closure.second]);
                names.push(closure.name.text.to_string());
                cut(from, to, names);
            }
            StatementNode::Steps(steps) => {
                for action in steps.groups.iter().flat_map(|group| &group.actions) {
                    if action.verb != Verb::Press {
                        of_action(&text, action, &mut cut);
                    }
                }
            }
            _ => {}
        }
    }
    found
}

/// The whole action, and each of several targets by itself.
fn of_action(text: &str, action: &Action, cut: &mut impl FnMut(usize, usize, Vec<String>)) {
    let (from, mut to) = (action.span.lo as usize, action.span.hi as usize);
    let after = &text[to..];
    if after.trim_start_matches(' ').starts_with(';') {
        to += after.find(';').unwrap() + 1;
    }
    cut(from, to, action.targets.iter().map(|target| last(target)).collect());
    if let [first, .., end] = action.targets.as_slice() {
        for (at, target) in action.targets.iter().enumerate() {
            // With the comma after it; of the last one, with the comma before.
            let (from, to) = match action.targets.get(at + 1) {
                Some(next) => (target.span.lo, next.span.lo),
                None => (action.targets[at - 1].span.hi, end.span.hi),
            };
            assert!(first.span.lo <= from);
            cut(from as usize, to as usize, vec![last(target)]);
        }
    }
}

/// Everything that a message says.
fn words(diagnostic: &Diagnostic) -> String {
    let labels = diagnostic.labels.iter().map(|label| label.text.clone());
    let mut all: Vec<String> = vec![diagnostic.title.to_string()];
    all.extend(labels);
    all.extend(diagnostic.help.clone());
    all.join(" ")
}

fn is_named(told: &[Diagnostic], names: &[String]) -> bool {
    // What the steps leave out is worked out, and that is told.
    let worked_out = |one: &Diagnostic| ["step/forgotten", "step/unfused"].contains(&one.slug());
    let stops = told
        .iter()
        .filter(|one| matches!(one.severity(), Severity::Mistake | Severity::Warning) || worked_out(one));
    let mut stops = stops.map(words);
    stops.any(|text| {
        let mut words = text.split(|letter: char| !letter.is_alphanumeric() && letter != '_');
        words.any(|word| names.iter().any(|name| name.eq_ignore_ascii_case(word)))
    })
}

#[test]
fn whatever_is_forgotten_is_named() {
    let all: Vec<Cut> = GARMENTS.into_iter().flat_map(cuts).collect();
    let told: Vec<(bool, String)> = all
        .par_iter()
        .map(|cut| {
            let mut text = read(cut.garment);
            let blank: String =
                cut.words.chars().map(|letter| if letter == '\n' { '\n' } else { ' ' }).collect();
            text.replace_range(cut.from..cut.to, &blank);
            let told = compiled(cut.garment, &text);
            let found: Vec<String> =
                told.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect();
            (is_named(&told, &cut.names), found.join("\n    "))
        })
        .collect();
    let mut missed = Vec::new();
    for (cut, (noticed, found)) in all.iter().zip(&told) {
        let excepted = UNNOTICED
            .iter()
            .any(|(garment, words, _)| *garment == cut.garment && cut.words.starts_with(words));
        if *noticed == excepted {
            missed.push(format!("{}: {}\n    {found}", cut.garment, cut.words));
        }
    }
    assert!(
        missed.is_empty(),
        "of {} cuts {} are not as told:\n{}",
        all.len(),
        missed.len(),
        missed.join("\n")
    );
    // So many there were when the files were last looked over: fewer would mean that some are not found.
    assert!(all.len() >= 140, "{} statements and actions were taken away", all.len());
}

#[test]
fn nothing_is_said_of_the_garments_as_they_are() {
    for garment in GARMENTS {
        let told = compiled(garment, &read(garment));
        assert!(told.is_empty(), "{garment}: {told:#?}");
    }
}
