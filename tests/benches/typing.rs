//! One keystroke after the other in a big garment, as an editor sends them, and what it asks for after each.

#[path = "bare_disk.rs"]
mod bare_disk;

use bare_disk::opened;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

const HERE: &str = "file:///ferry/awning.fus";

/// How long a keystroke takes until its messages are there, and how long the outline and the colours take then: the
/// middle ones of so many. Behind `word` of one piece and another of a garment a figure is written and taken back.
pub fn keystroke(text: &str, pieces: usize, word: &str, turns: usize) -> (Duration, Duration) {
    let mut service = opened(HERE, text);
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
