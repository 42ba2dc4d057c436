//! What an editor is told while a maker writes: a client speaks the Language Server Protocol (3.17)
//! to the built program.

use crate::wire::Client;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// 🧵 is one sign, two UTF-16 units and four bytes; é is written as e and a combining acute here,
/// two units and three bytes.
const SMOCK: &str = "\
garment \"Deck smock\"
units cm
allowance 1
sizes S, M, L
let ease = 20 grade +2 \"🧵 ne\u{301}\"
let strap = ease / 2
fabric shell \"waxed cotton\" { width 150 }
layer outer in shell { front, back }
# Both are cut alike.
# The neck is open.
piece front \"Front\" {
  cut 1
  point low = (0, 0)
  point side_low = (30 + ease / 2, 0)
  point side_top = (x(side_low), 60)
  point top_left = (0, 60)
  outline from low {
    hem   to side_low
    side  to side_top
    top   to top_left
    inner to low
  }
  line waist across at (0, 30)
}
piece back \"Back\" {
  cut 1
  outline copy of front
}
seam side   front.side to back.side
seam inner  front.inner to back.inner
finish front.hem, back.hem  hem 3
finish front.top, back.top  hem 2
";

const LONG: &str = "\
variation \"Long smock\" of \"smock.fus\"
set ease = 24 grade +2
replace seam side  front.side to back.side { allowance 2 }
lengthen front, back at waist by 10
drop finish front.top
finish front.top  hem 3
";

fn crew(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

fn uri(folder: &Path, name: &str) -> String {
    // The folders of tests have no character that needs an escape; names here may.
    format!("file://{}/{name}", fs::canonicalize(folder).unwrap().to_str().unwrap())
}

fn codes(told: &[Value]) -> Vec<&str> {
    told.iter().map(|one| one["code"].as_str().unwrap()).collect()
}

fn range(from: [u32; 2], to: [u32; 2]) -> Value {
    let at = |[line, character]: [u32; 2]| json!({ "line": line, "character": character });
    json!({ "start": at(from), "end": at(to) })
}

fn labels(answer: &Value) -> Vec<&str> {
    answer.as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap()).collect()
}

/// The text after the edits of a workspace edit, counted in UTF-16 as the protocol says.
fn edited(text: &str, uri: &str, edit: &Value) -> String {
    let mut lines: Vec<Vec<u16>> = text.split('\n').map(|line| line.encode_utf16().collect()).collect();
    let changes = edit["documentChanges"].as_array().unwrap();
    let mut edits: Vec<&Value> = changes
        .iter()
        .filter(|change| change["textDocument"]["uri"] == json!(uri))
        .flat_map(|change| change["edits"].as_array().unwrap())
        .collect();
    edits.sort_by_key(|edit| {
        let start = &edit["range"]["start"];
        std::cmp::Reverse((start["line"].as_u64(), start["character"].as_u64()))
    });
    for edit in edits {
        let at = |end: &str, of: &str| edit["range"][end][of].as_u64().unwrap() as usize;
        assert_eq!(at("start", "line"), at("end", "line"), "these tests edit within lines");
        let new: Vec<u16> = edit["newText"].as_str().unwrap().encode_utf16().collect();
        lines[at("start", "line")].splice(at("start", "character")..at("end", "character"), new);
    }
    let lines: Vec<String> = lines.iter().map(|line| String::from_utf16(line).unwrap()).collect();
    lines.join("\n")
}

#[test]
fn messages_come_as_you_type_and_stand_in_utf16() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, SMOCK);
    assert_eq!(codes(&client.told_of(&uri, 1)), [""; 0]);
    // `let ease = 20 grade +2 "🧵 né"`: 24 units before the thread, then 2 + 1 + 3 and the quote.
    client.edit(&uri, 2, [[4, 24], [4, 30]], "🪡 e\u{301}e\u{301} 🧵");
    client.edit(&uri, 3, [[5, 12], [5, 16]], "eaes");
    let told = client.told_of(&uri, 3);
    assert_eq!(codes(&told), ["name/unknown"]);
    assert_eq!(told[0]["range"], range([5, 12], [5, 16]));
    assert!(told[0]["message"].as_str().unwrap().contains("help: did you mean ease?"), "{told:?}");
    // The hover shows the text as it was typed into.
    let hover = client.ask_at("textDocument/hover", &uri, [4, 5]).unwrap();
    assert!(hover["contents"]["value"].as_str().unwrap().contains("🪡 e\u{301}e\u{301} 🧵"), "{hover}");
    // A message behind such signs on the same line: `measure hem_round ` is 18 units, the text with
    // its quotes 1 + 2 + 1 + 3 + 1, and ` = 2 * ` 7.
    client.edit(&uri, 4, [[5, 0], [5, 20]], "measure hem_round \"🧵 ne\u{301}\" = 2 * widht(front)");
    let told = client.told_of(&uri, 4);
    assert_eq!(codes(&told), ["name/unknown"]);
    assert_eq!(told[0]["range"], range([5, 33], [5, 38]));
    client.edit(&uri, 5, [[5, 33], [5, 38]], "width");
    assert_eq!(codes(&client.told_of(&uri, 5)), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn an_open_base_is_checked_again_with_its_variations() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&base, SMOCK);
    client.open(&long, LONG);
    assert_eq!(codes(&client.told_of(&long, 1)), [""; 0]);
    // The base loses its line `waist` without being saved: the variation lengthens there.
    client.edit(&base, 2, [[22, 7], [22, 12]], "belly");
    client.told_of(&base, 2);
    let told = loop {
        let told = client.told_of(&long, 1);
        if !told.is_empty() {
            break told;
        }
        client.told.remove(&long);
    };
    assert_eq!(codes(&told)[0], "alter/no-line");
    assert_eq!(told[0]["range"], range([3, 24], [3, 29]));
    let related = told[0]["relatedInformation"].as_array().unwrap();
    assert!(related.iter().any(|one| one["location"]["uri"] == json!(base)), "{related:?}");
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_base_that_is_missing_may_come_later() {
    let folder = crew(&[("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&long, LONG);
    assert_eq!(codes(&client.told_of(&long, 1)), ["file/missing"]);
    assert!(client.ask_at("textDocument/hover", &long, [1, 5]).is_ok());
    assert!(client.ask_at("textDocument/completion", &long, [3, 24]).is_ok());
    client.told.clear();
    // Never saved, only open.
    client.open(&base, SMOCK);
    assert_eq!(codes(&client.told_of(&long, 1)), [""; 0]);
    // And gone again.
    client.told.clear();
    client.note("textDocument/didClose", json!({ "textDocument": { "uri": base } }));
    assert_eq!(codes(&client.told_of(&long, 1)), ["file/missing"]);
    // Saved to the disk by another program.
    client.told.clear();
    fs::write(folder.path().join("smock.fus"), SMOCK).unwrap();
    client.note("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": base, "type": 1 }] }));
    assert_eq!(codes(&client.told_of(&long, 1)), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn paths_are_escaped_and_stay_in_the_folder() {
    let folder = crew(&[("smock.fus", SMOCK), ("sm\u{f6}ck 100%.fus", SMOCK)]);
    let inside = folder.path().join("deck crew");
    fs::create_dir(&inside).unwrap();
    let outer = LONG.replace("smock.fus", "../smock.fus");
    let mut client = Client::ready();
    let escaped = uri(folder.path(), "deck%20crew/long%20%C3%A9.fus");
    client.open(&escaped, &outer);
    assert_eq!(codes(&client.told_of(&escaped, 1)), ["file/outside"]);
    let near = uri(folder.path(), "near.fus");
    client.open(&near, &LONG.replace("smock.fus", "sm\u{f6}ck 100%.fus"));
    assert_eq!(codes(&client.told_of(&near, 1)), [""; 0]);
    let base = client.ask_at("textDocument/definition", &near, [0, 30]).unwrap();
    assert_eq!(base[0]["uri"], json!(uri(folder.path(), "sm%C3%B6ck%20100%25.fus")));
    client.open("untitled:one", &outer);
    assert_eq!(codes(&client.told_of("untitled:one", 1)), ["file/outside"]);
    client.open("untitled:two", LONG);
    assert_eq!(codes(&client.told_of("untitled:two", 1)), ["file/missing"]);
    client.open("untitled:three", SMOCK);
    assert_eq!(codes(&client.told_of("untitled:three", 1)), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn pointing_at_a_name_shows_it_in_every_size() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&base, SMOCK);
    client.open(&long, LONG);
    let mut shown = |uri: &str, at: [u32; 2]| {
        let hover = client.ask_at("textDocument/hover", uri, at).unwrap();
        hover["contents"]["value"].as_str().unwrap_or("").to_owned()
    };
    // 20 and two steps of 2.
    let ease = shown(&base, [4, 4]);
    assert!(ease.contains("| S | 20 cm |\n| M | 22 cm |\n| L | 24 cm |"), "{ease}");
    // The hem is 30 + ease / 2 long: 40, 41, 42.
    let hem = shown(&base, [30, 14]);
    assert!(hem.contains("| S | 40 cm |\n| M | 41 cm |\n| L | 42 cm |"), "{hem}");
    // The side is 60, and 70 once lengthened by 10; in the variation the hem is 42, 43, 44.
    assert!(shown(&base, [28, 19]).contains("length 60 cm in every size"));
    assert!(shown(&long, [2, 26]).contains("length 70 cm in every size"));
    let front = shown(&long, [3, 10]);
    assert!(front.contains("| S | 42 cm | 70 cm |\n| M | 43 cm | 70 cm |"), "{front}");
    // A word of the language, by the reference; a name that is such a word is a name.
    let lengthen = shown(&long, [3, 2]);
    assert!(lengthen.contains("`lengthen front, back at waist by 16`"), "{lengthen}");
    assert!(lengthen.contains("along the grain"), "{lengthen}");
    assert!(shown(&base, [17, 5]).starts_with("edge **hem**"));
    let finish = shown(&base, [30, 29]);
    assert!(finish.contains("turned once"), "{finish}");
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn what_fits_the_place_is_offered() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "long.fus");
    let mut client = Client::ready();
    client.open(&uri, LONG);
    let mut version = 1;
    let line = LONG.lines().count() as u32;
    let mut offered = |written: &str| {
        version += 1;
        client.edit(&uri, version, [[line, 0], [line, 999]], written);
        let answer = client.ask_at("textDocument/completion", &uri, [line, written.chars().count() as u32]);
        let answer = answer.unwrap();
        labels(&answer).iter().map(|label| (*label).to_owned()).collect::<Vec<String>>()
    };
    assert_eq!(offered("seam neck front."), ["hem", "side", "top", "inner", "waist"]);
    assert_eq!(offered("seam neck outer."), ["front", "back"]);
    assert_eq!(offered("lengthen front at "), ["waist"]);
    assert_eq!(offered("lengthen front at waist "), ["by", "until"]);
    assert_eq!(
        offered("lengthen front at waist by 3 keeping front."),
        ["low", "side_low", "side_top", "top_left"]
    );
    assert_eq!(offered("set "), ["ease", "strap"]);
    assert_eq!(offered("let depth = x(back.")[0], "low");
    assert_eq!(offered("layer lining in "), ["shell"]);
    assert_eq!(offered("finish front.top "), ["hem", "bound", "casing", "overlocked", "raw"]);
    assert!(offered("").contains(&"lengthen".to_owned()));
    assert!(offered("replace seam ").starts_with(&["side".to_owned(), "inner".to_owned()]));
    assert_eq!(offered("# seam front."), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn names_are_followed_over_files() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&long, LONG);
    // `side` of `front.side` in the variation is declared in the base's outline.
    let place = client.ask_at("textDocument/definition", &long, [2, 26]).unwrap();
    assert_eq!(place, json!([{ "uri": base, "range": range([18, 4], [18, 8]) }]));
    let file = client.ask_at("textDocument/definition", &long, [0, 30]).unwrap();
    assert_eq!(file[0]["uri"], json!(base));
    let uses = |client: &mut Client, at: [u32; 2], declared: bool| {
        let [line, character] = at;
        let params = json!({
            "textDocument": { "uri": long }, "position": { "line": line, "character": character },
            "context": { "includeDeclaration": declared },
        });
        let answer = client.ask("textDocument/references", params).unwrap();
        let places = answer.as_array().unwrap().iter().map(|one| {
            let file = one["uri"].as_str().unwrap().rsplit('/').next().unwrap().to_owned();
            (file, one["range"]["start"]["line"].as_u64().unwrap())
        });
        places.collect::<Vec<_>>()
    };
    let at = |file: &str, line: u64| (file.to_owned(), line);
    // `ease`: set here; in the base declared, in `strap` and in one point.
    let ease = [at("long.fus", 1), at("smock.fus", 4), at("smock.fus", 5), at("smock.fus", 13)];
    assert_eq!(uses(&mut client, [1, 5], true), ease);
    // The seam `side` is replaced here and declared there; the edges `side` are something else.
    assert_eq!(uses(&mut client, [2, 14], true), [at("long.fus", 2), at("smock.fus", 28)]);
    // `top`, which is dropped here: front's, and back's that was copied from it.
    let top = uses(&mut client, [4, 20], true);
    assert_eq!(
        top,
        [at("long.fus", 4), at("long.fus", 5), at("smock.fus", 19), at("smock.fus", 31), at("smock.fus", 31)]
    );
    assert_eq!(client.leave(), Some(0));
}

fn renamed(client: &mut Client, uri: &str, [line, character]: [u32; 2], name: &str) -> Result<Value, Value> {
    let position = json!({ "line": line, "character": character });
    client.ask(
        "textDocument/rename",
        json!({ "textDocument": { "uri": uri }, "position": position, "newName": name }),
    )
}

#[test]
fn renaming_reaches_every_file_and_changes_no_meaning() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&base, SMOCK);
    client.open(&long, LONG);
    for (at, old, new, whole) in [
        ([1, 5], "ease", "room", true),
        ([2, 14], "seam side", "seam flank", true),
        ([2, 20], "front", "fore\u{e9}", false),
        ([2, 26], "front.side", "flank", false),
        ([3, 25], "waist", "belt_line", true),
        ([4, 20], "front.top", "rim", false),
    ] {
        let name = new.rsplit(' ').next().unwrap();
        let edit = renamed(&mut client, &long, at, name).unwrap();
        let (new_base, new_long) = (edited(SMOCK, &base, &edit), edited(LONG, &long, &edit));
        assert_ne!(new_long, LONG, "{old}");
        if whole {
            assert!(!new_base.contains(old) && !new_long.contains(old), "{old}: {new_base}{new_long}");
        }
        // The garment is the same one but for that name.
        let loader =
            fustian::source::MemoryLoader::new().with("smock.fus", new_base).with("long.fus", new_long);
        let compiled = fustian::compile(&loader, "long.fus");
        assert_eq!(compiled.diagnostics, [], "{old}");
        let lengths = |compiled: &fustian::Compiled| -> Vec<f64> {
            let papers = compiled.sizes.iter().flat_map(|sized| sized.papers.iter().flatten());
            papers.flat_map(|paper| paper.edges.iter().map(|edge| edge.path.length())).collect()
        };
        let before = fustian::source::MemoryLoader::new().with("smock.fus", SMOCK).with("long.fus", LONG);
        assert_eq!(lengths(&compiled), lengths(&fustian::compile(&before, "long.fus")), "{old}");
    }
    let edit = renamed(&mut client, &long, [1, 5], "room").unwrap();
    let versions: Vec<&Value> = edit["documentChanges"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| &one["textDocument"]["version"])
        .collect();
    assert_eq!(versions, [&json!(1), &json!(1)]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_rename_that_would_not_do_is_refused_in_words() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let long = uri(folder.path(), "long.fus");
    let mut client = Client::ready();
    client.open(&long, LONG);
    for (at, name, words) in [
        ([1, 5], "strap", "strap"),
        ([1, 5], "4ease", "is no name"),
        ([1, 5], "", "is no name"),
        ([1, 5], "two words", "is no name"),
        ([1, 5], "sin", "a word of the language"),
        ([2, 14], "inner", "inner"),
        ([2, 26], "hem", "hem"),
        ([3, 10], "back", "back"),
        ([3, 10], "outer", "outer"),
        ([0, 2], "anything", "no name that can be changed"),
    ] {
        let refused = renamed(&mut client, &long, at, name).unwrap_err();
        assert_eq!(refused["code"], json!(-32803), "{name}");
        assert!(refused["message"].as_str().unwrap().contains(words), "{name}: {refused}");
    }
    let prepared = client.ask_at("textDocument/prepareRename", &long, [1, 6]).unwrap();
    assert_eq!(prepared, json!({ "range": range([1, 4], [1, 8]), "placeholder": "ease" }));
    assert_eq!(client.ask_at("textDocument/prepareRename", &long, [0, 2]).unwrap(), Value::Null);
    // A line that cannot be read may hold the name: not all of it would change.
    client.edit(&long, 2, [[3, 0], [3, 8]], "lenghten ease");
    let refused = renamed(&mut client, &long, [1, 5], "room").unwrap_err();
    assert!(refused["message"].as_str().unwrap().contains("cannot be read"), "{refused}");
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn the_outline_folds_and_colours_of_a_document() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, SMOCK);
    let document = json!({ "textDocument": { "uri": uri } });
    let outline = client.ask("textDocument/documentSymbol", document.clone()).unwrap();
    let names = |entries: &Value| -> Vec<String> {
        entries.as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(
        names(&outline),
        ["Deck smock", "ease", "strap", "shell", "outer", "front", "back", "side", "inner"]
    );
    let front = &outline[5];
    assert_eq!(front["detail"], json!("Front"));
    assert_eq!(front["range"], range([10, 0], [23, 1]));
    assert_eq!(front["selectionRange"], range([10, 6], [10, 11]));
    let inside = ["low", "side_low", "side_top", "top_left", "hem", "side", "top", "inner", "waist"];
    assert_eq!(names(&front["children"]), inside);
    let folds = client.ask("textDocument/foldingRange", document.clone()).unwrap();
    let fold = |at: usize| [folds[at]["startLine"].as_u64().unwrap(), folds[at]["endLine"].as_u64().unwrap()];
    assert_eq!([fold(0), fold(1), fold(2)], [[8, 9], [10, 22], [16, 20]]);
    assert_eq!(folds[0]["kind"], json!("comment"));

    let data = client.ask("textDocument/semanticTokens/full", document).unwrap()["data"].clone();
    let data: Vec<u64> = data.as_array().unwrap().iter().map(|one| one.as_u64().unwrap()).collect();
    let (mut line, mut start, mut found) = (0, 0, Vec::new());
    for token in data.chunks(5) {
        start = if token[0] == 0 { start + token[1] } else { token[1] };
        line += token[0];
        found.push((line, start, token[2], token[3]));
    }
    // By the legend: 0 a keyword, 1 a variable, 2 a class (piece), 3 a property (edge), 10 a number,
    // 11 a string, 13 a comment.
    let on = |wanted: u64| -> Vec<(u64, u64, u64)> {
        found
            .iter()
            .filter(|one| one.0 == wanted)
            .map(|&(_, start, length, kind)| (start, length, kind))
            .collect()
    };
    // let ease = 20 grade +2 "🧵 né": the text is 2 + 1 + 3 units between its quotes.
    assert_eq!(on(4), [(0, 3, 0), (4, 4, 1), (11, 2, 10), (14, 5, 0), (20, 1, 12), (21, 1, 10), (23, 8, 11)]);
    assert_eq!(on(8), [(0, 21, 13)]);
    // finish front.hem, back.hem  hem 3: twice an edge, once a keyword.
    assert_eq!(on(30), [(0, 6, 0), (7, 5, 2), (13, 3, 3), (18, 4, 2), (23, 3, 3), (28, 3, 0), (32, 1, 10)]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_way_out_is_offered_as_an_edit() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    for (right, slip) in [
        ("front.side to back.side", "front.sied to back.side"),
        ("hem 3", "hme 3"),
        ("ease / 2\nfabric", "eese / 2\nfabric"),
        ("width 150", "width 150 cm"),
        ("in shell", "in shel"),
    ] {
        let right_text =
            if right == "width 150" { SMOCK.replacen(right, "width 150cm", 1) } else { SMOCK.to_owned() };
        let text = SMOCK.replacen(right, slip, 1);
        client.told.clear();
        client.open(&uri, &text);
        let told = client.told_of(&uri, 1);
        let at = told[0]["range"].clone();
        let context = json!({ "diagnostics": [told[0]] });
        let params = json!({ "textDocument": { "uri": uri }, "range": at, "context": context });
        let actions = client.ask("textDocument/codeAction", params).unwrap();
        let first = &actions[0];
        assert_eq!(first["kind"], json!("quickfix"), "{slip}: {told:?}");
        assert_eq!(first["diagnostics"][0]["code"], told[0]["code"], "{slip}");
        assert_eq!(edited(&text, &uri, &first["edit"]), right_text, "{slip}");
        client.note("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
    }
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn rubbish_gets_an_answer_and_costs_only_itself() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::new();
    assert_eq!(client.ask("textDocument/hover", json!({})).unwrap_err()["code"], json!(-32002));
    client.ask("initialize", json!({ "capabilities": {} })).unwrap();
    assert_eq!(client.ask("initialize", json!({ "capabilities": {} })).unwrap_err()["code"], json!(-32600));
    // An answer without a number, by JSON-RPC 2.0, section 5.
    let null = Value::Null;
    client.raw(b"Content-Length: 5\r\n\r\n{oops");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(b"Content-Length: 3\r\n\r\n\xff\xfe\xfd");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(b"Content-Length: 2\r\n\r\n[]Content-Length: 2\r\n\r\n{}");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    client.raw(b"ahoy\r\nContent-Length: many\r\n\r\n");
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32700));
    client.raw(&Client::framed(&json!({ "jsonrpc": "2.0", "id": 1.5, "method": "textDocument/hover" })));
    assert_eq!(client.answer(&null).unwrap_err()["code"], json!(-32600));
    client.raw(&Client::framed(&json!({ "jsonrpc": "2.0", "id": "one", "method": 7 })));
    assert_eq!(client.answer(&json!("one")).unwrap_err()["code"], json!(-32600));
    assert_eq!(client.ask("textDocument/iron", json!({})).unwrap_err()["code"], json!(-32601));
    for method in ["hover", "completion", "rename", "codeAction", "references", "semanticTokens/full"] {
        let method = format!("textDocument/{method}");
        for params in [Value::Null, json!([1]), json!({ "textDocument": { "uri": "::::" } })] {
            assert_eq!(client.ask(&method, params).unwrap_err()["code"], json!(-32602), "{method}");
        }
    }
    client.note("textDocument/didChange", json!({ "textDocument": 4 }));
    client.edit(&uri, 9, [[0, 0], [0, 1]], "never opened");
    client.note("$/nonsense", json!([]));
    client.note("textDocument/didClose", json!({ "textDocument": { "uri": "file:///gone.fus" } }));
    assert_eq!(client.ask_at("textDocument/hover", &uri, [0, 0]), Ok(Value::Null));
    client.open(&uri, SMOCK);
    // Positions far outside, and ranges the wrong way round.
    client.edit(&uri, 2, [[900, 900], [0, 0]], "garment \"Deck smock\"\n");
    client.edit(&uri, 3, [[4_000_000_000, 4_000_000_000], [4_000_000_000, 0]], "units cm\n");
    assert_eq!(codes(&client.told_of(&uri, 3)), [""; 0]);
    for at in [[0, 0], [0, 4_000_000_000], [4_000_000_000, 7]] {
        for method in ["hover", "completion", "definition", "prepareRename"] {
            assert!(client.ask_at(&format!("textDocument/{method}"), &uri, at).is_ok(), "{method} {at:?}");
        }
    }
    let logged = client.others.iter().filter(|one| one["method"] == json!("window/logMessage"));
    assert_eq!(logged.count(), 2, "{:?}", client.others);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn shutdown_and_exit_have_their_order() {
    let mut client = Client::ready();
    assert_eq!(client.ask("shutdown", Value::Null), Ok(Value::Null));
    assert_eq!(client.ask("shutdown", Value::Null).unwrap_err()["code"], json!(-32600));
    client.note("exit", Value::Null);
    assert_eq!(client.end(), Some(0));
    let mut hasty = Client::ready();
    hasty.note("exit", Value::Null);
    assert_eq!(hasty.end(), Some(1));
    assert_eq!(Client::ready().end(), Some(1), "gone without a word");
    assert_eq!(Client::new().end(), Some(1));
}

#[test]
fn what_is_not_wanted_any_more_is_not_worked_out() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, SMOCK);
    // All in one go: while the first answers are worked out, the last ones are cancelled.
    let mut bytes = Vec::new();
    for id in 0..60 {
        let change = json!({ "textDocument": { "uri": uri, "version": id + 2 }, "contentChanges": [{ "text": SMOCK }] });
        bytes.extend(Client::framed(
            &json!({ "jsonrpc": "2.0", "method": "textDocument/didChange", "params": change }),
        ));
        let params = json!({ "textDocument": { "uri": uri }, "position": { "line": 4, "character": 5 } });
        let id = format!("hover {id}");
        bytes.extend(Client::framed(
            &json!({ "jsonrpc": "2.0", "id": id, "method": "textDocument/hover", "params": params }),
        ));
    }
    let cancel = json!({ "jsonrpc": "2.0", "method": "$/cancelRequest", "params": { "id": "hover 59" } });
    bytes.extend(Client::framed(&cancel));
    client.raw(&bytes);
    for id in 0..59 {
        assert!(client.answer(&json!(format!("hover {id}"))).is_ok());
    }
    assert_eq!(client.answer(&json!("hover 59")).unwrap_err()["code"], json!(-32800));
    // Changes that waited together are told of once, by the last version.
    assert_eq!(codes(&client.told_of(&uri, 61)), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

/// A disk that holds the base of the jacket and what that uses.
#[derive(Clone)]
struct Locker(std::collections::BTreeMap<String, String>);

impl fustian::editor::Disk for Locker {
    fn loader(&self, first: &str, _folder: &str) -> Box<dyn fustian::source::Loader> {
        Box::new(Drawer { files: self.0.clone(), first: first.to_owned() })
    }

    fn real(&self, path: &str) -> String {
        path.to_owned()
    }
}

struct Drawer {
    files: std::collections::BTreeMap<String, String>,
    first: String,
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
    for name in ["deck-jacket.fus", "deck-smock.fus", "crew-library.fus"] {
        disk.insert(format!("/ferry/{name}"), read(name));
    }
    let locker = Locker(disk.clone());
    let mut service = fustian::editor::Service::new(fustian::editor::Desk::new(locker));
    service.initialise(&json!({}));
    let names = ["deck-jacket.fus", "deck-smock.fus"];
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
        assert_eq!(&*service.desk().documents()[&*path].text, model, "edit {edit}");
        let at = position(&models[which], whole_sign(&models[which], from));
        let ask = ["hover", "completion", "definition", "prepareRename", "documentSymbol", "foldingRange"];
        let method = format!("textDocument/{}", ask[dice.below(ask.len())]);
        let at = json!({ "textDocument": { "uri": uri }, "position": { "line": at[0], "character": at[1] } });
        if let Err(refusal) = service.answer(&method, at) {
            assert_eq!(refusal.code, fustian::editor::REQUEST_FAILED, "edit {edit}: {refusal:?}");
        }
        if edit % 10 == 0 || edit == count {
            for news in service.news() {
                told.insert(news.uri.as_str().to_owned(), json!(news.diagnostics));
            }
        }
    }
    // Nothing is kept of what was.
    assert_eq!(service.desk().documents().len(), 2);
    assert_eq!(service.desk().analyses().len(), 2);
    let kept: usize = service.desk().analyses().values().map(|one| one.compiled.map.files().len()).sum();
    assert!(kept <= 6, "{kept} texts are kept for two garments of at most three files");

    let mut fresh = fustian::editor::Service::new(fustian::editor::Desk::new(Locker(disk)));
    fresh.initialise(&json!({}));
    for (name, model) in names.iter().zip(&models) {
        let text = String::from_utf16(model).unwrap();
        let uri = format!("file:///ferry/{name}");
        let document = json!({ "uri": uri, "languageId": "fustian", "version": 0, "text": text });
        fresh.notice("textDocument/didOpen", json!({ "textDocument": document })).unwrap();
    }
    let mut checked: std::collections::BTreeMap<String, Value> = std::collections::BTreeMap::new();
    for news in fresh.news() {
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
    let titles = |told: &std::collections::BTreeMap<String, Value>| -> Vec<String> {
        told.values().flat_map(|one| one.as_array().unwrap()).map(|one| one["message"].to_string()).collect()
    };
    let all = titles(&told).join("\n");
    for one in &compiled.diagnostics {
        assert!(
            all.contains(json!(one.title).as_str().unwrap().lines().next().unwrap())
                || all.contains(json!(one.title).to_string().trim_matches('"')),
            "{}",
            one.title
        );
    }
}

/// The nearest place before that is not inside a sign of two units.
fn whole_sign(units: &[u16], at: usize) -> usize {
    let inside = units.get(at).is_some_and(|unit| (0xdc00..0xe000).contains(unit));
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
