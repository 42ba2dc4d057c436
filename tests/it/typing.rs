//! Somebody types without end.

use crate::wire::range;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

/// A disk that holds the base of the jacket and what that uses.
#[derive(Clone)]
struct Locker(std::collections::BTreeMap<String, String>);

struct Drawer {
    files: std::collections::BTreeMap<String, String>,
    first: String,
}

impl fustian::editor::Disk for Locker {
    fn loader(&self, first: &str, _folder: &str) -> Box<dyn fustian::source::Loader> {
        Box::new(Drawer { files: self.0.clone(), first: first.to_owned() })
    }

    fn real(&self, path: &str) -> String {
        path.to_owned()
    }
}

impl fustian::source::Loader for Drawer {
    fn load(
        &self,
        from: Option<&str>,
        path: &str,
    ) -> Result<fustian::source::Loaded, fustian::source::LoadError> {
        let whole = match from {
            Some(_) => format!("/ferry/{path}"),
            None => self.first.clone(),
        };
        let text = self.files.get(&whole).ok_or(fustian::source::LoadError::Missing)?;
        let name = whole.rsplit('/').next().unwrap().into();
        Ok(fustian::source::Loaded { key: whole.as_str().into(), name, bytes: text.clone().into_bytes() })
    }
}

/// Numbers without rhyme, the same in every run (Marsaglia 2003, "Xorshift RNGs").
struct Dice(u64);

impl Dice {
    fn below(&mut self, count: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % count.max(1) as u64) as usize
    }
}

/// Random edits of a jacket and its base, side by side with a model of both texts in UTF-16: the
/// texts stay the same, every answer comes, and what is told at the end is what a fresh check
/// tells. `FUSTIAN_EDITS` says how many edits; 300 when it does not.
#[test]
fn after_any_edits_the_messages_are_those_of_a_fresh_check() {
    let count = std::env::var("FUSTIAN_EDITS").ok().and_then(|count| count.parse().ok()).unwrap_or(300);
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let read = |name: &str| fs::read_to_string(examples.join(name)).unwrap();
    let mut disk = std::collections::BTreeMap::new();
    for name in ["deck-zip.fus", "deck-smock.fus", "crew-library.fus"] {
        disk.insert(format!("/ferry/{name}"), read(name));
    }
    let locker = Locker(disk.clone());
    let mut service = fustian::editor::Service::new(fustian::editor::Workspace::new(locker));
    service.initialise(&json!({}));
    let names = ["deck-zip.fus", "deck-smock.fus"];
    let mut models: Vec<Vec<u16>> = names.map(|name| read(name).encode_utf16().collect()).into();
    for name in names {
        let document = json!({ "uri": format!("file:///ferry/{name}"), "languageId": "fustian", "version": 0, "text": read(name) });
        service.notice("textDocument/didOpen", json!({ "textDocument": document })).unwrap();
    }
    let scraps = [
        "",
        "",
        "",
        "\n",
        " ",
        "{",
        "}",
        "\"",
        "(",
        ",",
        "🧵",
        "e\u{301}",
        "front.",
        "seam x ",
        "let ease = ",
        "12",
        "\r\n",
        "replace ",
        "drop side\n",
        "# note\n",
        "lengthen front at waist by 3\n",
        "\u{feff}",
        "½in",
        "\t",
        "outer.front.hem",
    ];
    let mut dice = Dice(0x5eed_f00d_cafe_0001);
    let mut told: std::collections::BTreeMap<String, Value> = std::collections::BTreeMap::new();
    let mut undo: Option<(usize, Vec<u16>)> = None;
    for edit in 1..=count {
        let which = dice.below(2);
        let uri = format!("file:///ferry/{}", names[which]);
        // Now and then all is put back, so that the garments do not only get worse.
        let (which, range, text): (usize, Option<(usize, usize)>, Vec<u16>) = match undo.take() {
            _ if edit % 50 == 0 => (which, None, read(names[which]).encode_utf16().collect()),
            Some((which, whole)) if dice.below(3) > 0 => (which, None, whole),
            _ => {
                undo = Some((which, models[which].clone()));
                let from = dice.below(models[which].len() + 1);
                let to = (from + dice.below(12)).min(models[which].len());
                let (from, to) = (whole_sign(&models[which], from), whole_sign(&models[which], to));
                (which, Some((from, to)), scraps[dice.below(scraps.len())].encode_utf16().collect())
            }
        };
        let words = String::from_utf16(&text).unwrap();
        let change = match range {
            None => json!({ "text": words }),
            Some((from, to)) => {
                let (start, end) = (position(&models[which], from), position(&models[which], to));
                json!({ "range": range_of(start, end), "text": words })
            }
        };
        let uri = if range.is_none() { format!("file:///ferry/{}", names[which]) } else { uri };
        let (from, to) = range.unwrap_or((0, models[which].len()));
        models[which].splice(from..to, text);
        let params = json!({ "textDocument": { "uri": uri, "version": edit }, "contentChanges": [change] });
        service.notice("textDocument/didChange", params).unwrap();
        let model = String::from_utf16(&models[which]).unwrap();
        let path = format!("/ferry/{}", names[which]);
        assert_eq!(&*service.workspace().documents()[&*path].text, model, "edit {edit}");
        let at = position(&models[which], whole_sign(&models[which], from));
        let ask = ["hover", "completion", "definition", "prepareRename", "documentSymbol", "foldingRange"];
        let method = format!("textDocument/{}", ask[dice.below(ask.len())]);
        let at = json!({ "textDocument": { "uri": uri }, "position": { "line": at[0], "character": at[1] } });
        if let Err(refusal) = service.answer(&method, at) {
            assert_eq!(refusal.code, fustian::editor::REQUEST_FAILED, "edit {edit}: {refusal:?}");
        }
        if edit % 10 == 0 || edit == count {
            for news in service.changed_diagnostics() {
                told.insert(news.uri.as_str().to_owned(), json!(news.diagnostics));
            }
        }
    }
    // Nothing is kept of what was.
    assert_eq!(service.workspace().documents().len(), 2);
    assert_eq!(service.workspace().analyses().len(), 2);
    let kept: usize = service.workspace().analyses().values().map(|one| one.compiled.map.files().len()).sum();
    assert!(kept <= 6, "{kept} texts are kept for two garments of at most three files");

    let mut fresh = fustian::editor::Service::new(fustian::editor::Workspace::new(Locker(disk)));
    fresh.initialise(&json!({}));
    for (name, model) in names.iter().zip(&models) {
        let text = String::from_utf16(model).unwrap();
        let uri = format!("file:///ferry/{name}");
        let document = json!({ "uri": uri, "languageId": "fustian", "version": 0, "text": text });
        fresh.notice("textDocument/didOpen", json!({ "textDocument": document })).unwrap();
    }
    let mut checked: std::collections::BTreeMap<String, Value> = std::collections::BTreeMap::new();
    for news in fresh.changed_diagnostics() {
        checked.insert(news.uri.as_str().to_owned(), json!(news.diagnostics));
    }
    told.retain(|_, told| *told != json!([]));
    checked.retain(|_, told| *told != json!([]));
    assert_eq!(told, checked);
    // And what is told of the jacket is what the compiler says of those texts.
    let mut loader = fustian::source::MemoryLoader::new().with("crew-library.fus", read("crew-library.fus"));
    for (name, model) in names.iter().zip(&models) {
        loader = loader.with(name, String::from_utf16(model).unwrap());
    }
    let compiled = fustian::compile(&loader, names[0]);
    let messages = told.values().flat_map(|one| one.as_array().unwrap());
    let messages: Vec<&str> = messages.map(|one| one["message"].as_str().unwrap()).collect();
    for one in &compiled.diagnostics {
        assert!(messages.iter().any(|message| message.starts_with(one.title.as_str())), "{}", one.title);
    }
}

/// The nearest place before that is not inside a sign of two units, nor inside a line's end.
fn whole_sign(units: &[u16], at: usize) -> usize {
    let line_end = at > 0 && units.get(at) == Some(&10) && units.get(at - 1) == Some(&13);
    let inside = line_end || units.get(at).is_some_and(|unit| (0xdc00..0xe000).contains(unit));
    if inside && at > 0 { at - 1 } else { at }
}

/// Line and column of a place; lines end at `\n`, `\r\n` or `\r`.
fn position(units: &[u16], at: usize) -> [u32; 2] {
    let (mut line, mut start, mut index) = (0, 0, 0);
    while index < at {
        let (unit, next) = (units[index], units.get(index + 1).copied());
        index += 1;
        if unit == 13 && next == Some(10) {
            // Between the two is no place of its own: it is the end of the line.
            if index == at {
                return [line, (index - 1 - start) as u32];
            }
            index += 1;
        }
        if unit == 10 || unit == 13 {
            (line, start) = (line + 1, index);
        }
    }
    [line, (at - start) as u32]
}

fn range_of(start: [u32; 2], end: [u32; 2]) -> Value {
    range(start, end)
}
