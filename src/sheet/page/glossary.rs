//! The words of the trade that the sheet uses, explained.

use super::Page;
use super::write::{Html, Writer, escaped};
use crate::emit::CutWay;
use crate::sheet::words::Words;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Word {
    key: &'static str,
    word: Html,
    meaning: Html,
}

/// Those that its sentences name, and those that its tables, pieces and lays do, by the alphabet.
pub fn glossary(page: &Page, writer: &Writer, words: &Words) -> Vec<Word> {
    let document = page.facts.document;
    let sizes = || document.sizes.iter();
    let own = [
        ("allowance", true),
        ("grain", true),
        ("notch", sizes().any(|size| size.pieces.iter().any(|piece| !piece.notches.is_empty()))),
        ("stitching_line", true),
        ("fold", sizes().any(|size| size.cut_list.iter().any(|row| row.how == CutWay::OnFold))),
        ("mirrored", sizes().any(|size| size.cut_list.iter().any(|row| row.how == CutWay::Mirrored))),
        ("nap", sizes().any(|size| size.cloths.iter().any(|cloth| cloth.one_way))),
        ("selvage", sizes().any(|size| size.lays.as_ref().is_some_and(|lays| !lays.is_empty()))),
        ("wearing_ease", sizes().any(|size| size.measures.values().any(|measure| measure.ease.is_some()))),
    ];
    let is_used =
        |key: &str| writer.terms.contains(key) || own.iter().any(|(own, used)| *own == key && *used);
    let terms = words.glossary.terms();
    let mut used: Vec<_> = terms.into_iter().filter(|(key, _)| is_used(key)).collect();
    used.sort_by_key(|(_, term)| term.word.to_lowercase());
    used.into_iter()
        .map(|(key, term)| Word {
            key,
            word: Value::from_safe_string(escaped(term.word)),
            meaning: Value::from_safe_string(escaped(term.meaning)),
        })
        .collect()
}
