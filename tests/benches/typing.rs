//! One keystroke after the other in a big garment, as an editor sends them, and what it asks for after each.

use fustian::editor::{Disk, Service, Workspace};
use fustian::source::{Loader, MemoryLoader};
use serde_json::{Value, json};
use std::time::{Duration, Instant};

/// A disk with nothing on it.
struct Bare;

impl Disk for Bare {
    fn loader(&self, _first: &str, _folder: &str) -> Box<dyn Loader> {
        Box::new(MemoryLoader::new())
    }

    fn real(&self, path: &str) -> String {
        path.to_owned()
    }
}

const HERE: &str = "file:///ferry/awning.fus";

/// How long a keystroke takes until its messages are there, and how long the outline and the colours take then: the
/// middle ones of so many. Behind `word` of one piece and another of a garment a figure is written and taken back.
pub fn keystroke(text: &str, pieces: usize, word: &str, turns: usize) -> (Duration, Duration) {
    let mut service = Service::new(Workspace::new(Bare));
    let document = json!({ "uri": HERE, "languageId": "fustian", "version": 1, "text": text });
    service.notice("textDocument/didOpen", json!({ "textDocument": document })).expect("it can be opened");
    service.changed_diagnostics();
    let (mut told, mut shown) = (Vec::new(), Vec::new());
    for turn in 0..turns {
        let piece =
            text.find(&format!("piece panel{} ", (turn * 37 + pieces / 2) % pieces)).expect("it is there");
        let at = piece + text[piece..].find(word).expect("every panel has it") + word.len();
        let line = text[..at].matches('\n').count();
        let from = at - text[..at].rfind('\n').expect("it is not in the first line") - 1;
        for (to, put) in [(from, "1"), (from + 1, "")] {
            let range = json!({ "start": place(line, from), "end": place(line, to) });
            let change = json!({
                "textDocument": { "uri": HERE, "version": turn + 2 },
                "contentChanges": [{ "range": range, "text": put }],
            });
            let start = Instant::now();
            service.notice("textDocument/didChange", change).expect("it is open");
            service.changed_diagnostics();
            told.push(start.elapsed());
            let start = Instant::now();
            for method in ["textDocument/documentSymbol", "textDocument/semanticTokens/full"] {
                let asked = json!({ "textDocument": { "uri": HERE } });
                service.answer(method, asked).expect("it is open");
            }
            shown.push(start.elapsed());
        }
    }
    (middle(told), middle(shown))
}

fn place(line: usize, character: usize) -> Value {
    json!({ "line": line, "character": character })
}

fn middle(mut all: Vec<Duration>) -> Duration {
    all.sort();
    all[all.len() / 2]
}
