//! What an editor is told while a maker writes: a client speaks the Language Server Protocol (3.17)
//! to the built program.

use crate::wire::{Client, LONG, SMOCK, codes, crew, edited, range, uri};
use serde_json::{Value, json};
use std::fs;

fn labels(answer: &Value) -> Vec<&str> {
    answer.as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap()).collect()
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
    let into = offered("let dart side_dart into ");
    assert!(into.contains(&"front".to_owned()) && into.contains(&"back".to_owned()), "{into:?}");
    assert_eq!(offered("let dart side_dart into front."), ["hem", "side", "top", "inner", "waist"]);
    let point = offered("let dart side_dart into front.side at 3 from low angle 9° to ");
    assert!(point.contains(&"side_low".to_owned()), "{point:?}");
    let nothing = offered("let pleat box_pleat into front.top at 3 from low depth 1 box to nothing at ");
    assert!(nothing.contains(&"hem".to_owned()) && !nothing.contains(&"low".to_owned()), "{nothing:?}");
    let through = offered("split front from one_dart through ");
    assert!(through.contains(&"side_low".to_owned()), "{through:?}");
    let turning = offered("let dart side_dart into front.side at 3 from low angle 9° to (3, 3) turning to ");
    assert!(turning.contains(&"hem".to_owned()) && !turning.contains(&"low".to_owned()), "{turning:?}");
    assert_eq!(offered("set "), ["ease", "strap"]);
    assert_eq!(offered("let depth = x(back.")[0], "low");
    assert_eq!(offered("layer lining in "), ["shell"]);
    assert_eq!(
        offered("finish front.top "),
        ["hem", "bound", "casing", "elastic", "tape", "turned under onto", "overlocked", "raw", "in", "on"]
    );
    assert!(offered("").contains(&"lengthen".to_owned()));
    assert!(offered("replace seam ").starts_with(&["side".to_owned(), "inner".to_owned()]));
    assert_eq!(offered("# seam front."), [""; 0]);
    // A step's title, whether its quotes are there yet or not.
    assert_eq!(offered("in steps after "), ["\"Sew\""]);
    assert_eq!(offered("drop step ")[0], "\"Sew\"");
    assert!(!offered("in steps after \"Sew\" ").contains(&"\"Sew\"".to_owned()));
    let kinds = offered("seam neck front.top to back.top { ");
    for word in ["felled", "french", "lapped", "topstitched", "edges"] {
        assert!(kinds.contains(&word.to_owned()), "{word}: {kinds:?}");
    }
    let over = offered("seam neck front.top to back.top { felled 0.7 over ");
    assert!(over.contains(&"front".to_owned()) && over.contains(&"back".to_owned()), "{over:?}");
    assert_eq!(client.leave(), Some(0));
}

/// Beside each word stands what that word means there, and not what some row of the reference does that has it too.
#[test]
fn words_that_are_offered_are_explained() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "long.fus");
    let mut client = Client::ready();
    client.open(&uri, LONG);
    let line = LONG.lines().count() as u32;
    for (at, (written, word, means)) in [
        ("lengthen front at waist ", "by", "how much"),
        ("lengthen front at waist ", "until", "as much as makes the closure fit"),
        ("", "band", "a band sewn to edges: its piece and its seams in one line"),
        ("finish front.top ", "raw", "the edge stays as it is cut"),
    ]
    .into_iter()
    .enumerate()
    {
        client.edit(&uri, at as i32 + 2, [[line, 0], [line, 999]], written);
        let answer =
            client.ask_at("textDocument/completion", &uri, [line, written.chars().count() as u32]).unwrap();
        let items = answer.as_array().or_else(|| answer["items"].as_array()).unwrap();
        let item = items.iter().find(|item| item["label"] == word).unwrap();
        let detail = item["detail"].as_str().unwrap();
        assert!(detail.starts_with(means), "{word}: {detail}");
    }
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
        ["Deck smock", "ease", "strap", "shell", "outer", "body", "front", "back", "steps", "side", "inner"]
    );
    let body = &outline[5];
    assert_eq!(body["detail"], json!("Body"));
    assert_eq!(body["range"], range([10, 0], [23, 1]));
    assert_eq!(body["selectionRange"], range([10, 12], [10, 16]));
    let inside = ["low", "side_low", "side_top", "top_left", "hem", "side", "top", "inner", "waist"];
    assert_eq!(names(&body["children"]), inside);
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

/// Takes the first way out of the only message of that kind; what the text is then.
fn taken(client: &mut Client, uri: &str, text: &str, code: &str) -> String {
    client.told.clear();
    client.open(uri, text);
    let told = client.told_of(uri, 1);
    let one = told.iter().find(|one| one["code"] == json!(code)).unwrap_or_else(|| panic!("{told:?}"));
    let params =
        json!({ "textDocument": { "uri": uri }, "range": one["range"], "context": { "diagnostics": [] } });
    let actions = client.ask("textDocument/codeAction", params).unwrap();
    let edits = &actions[0]["edit"];
    let text = edited(text, uri, edits);
    client.note("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
    text
}

#[test]
fn the_steps_that_are_worked_out_are_written_for_the_maker() {
    let text = "garment \"Sleeve guard\"\nunits cm\nallowance 1\n\
        fabric canvas \"canvas\" { width 150 }\nlayer outer in canvas { sleeve }\n\
        piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 30 by 40 }\n\
        seam underarm sleeve.left to sleeve.right\nfinish sleeve.top, sleeve.bottom  hem 2\n";
    let folder = crew(&[("guard.fus", text)]);
    let uri = uri(folder.path(), "guard.fus");
    let mut client = Client::ready();
    client.open(&uri, text);
    let told = client.told_of(&uri, 1);
    let one = told.iter().find(|one| one["code"] == json!("steps/none")).unwrap();
    let params =
        json!({ "textDocument": { "uri": uri }, "range": one["range"], "context": { "diagnostics": [] } });
    let actions = client.ask("textDocument/codeAction", params).unwrap();
    assert_eq!(actions[0]["title"], json!("write the steps that are worked out"));
    let written = actions[0]["edit"].to_string().replace("\\\"", "\"");
    assert!(written.contains("\"Hems\""), "{written}");
    // By hand: hems run on over the underarm seam, and come after it.
    let place = |word: &str| written.find(word).unwrap();
    assert!(place("{ sew underarm }") < place("{ hem sleeve.top, sleeve.bottom }"), "{written}");
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_partner_and_a_forgotten_edge_are_written_for_the_maker() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    // Only the front is lengthened: the side does not match any more.
    let one_side = LONG.replace("lengthen front, back", "lengthen front");
    assert_eq!(taken(&mut client, &long, &one_side, "alter/one-side"), LONG);
    // The top of the back is forgotten.
    let loose = SMOCK.replace("finish front.top, back.top  hem 2", "finish front.top  hem 2");
    let text = taken(&mut client, &base, &loose, "edge/loose");
    assert_eq!(text, loose.replace("finish front.top  ", "finish back.top raw\nfinish front.top  "));
    client.told.clear();
    client.open(&base, &text);
    assert!(!codes(&client.told_of(&base, 1)).contains(&"edge/loose"));
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_document_is_laid_out_or_left_with_a_reason() {
    let folder = crew(&[("smock.fus", SMOCK)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    let options =
        json!({ "textDocument": { "uri": uri }, "options": { "tabSize": 2, "insertSpaces": true } });
    let text = "garment \"Deck smock\"\nunits   cm\n# 🧵 ne\u{301}\nallowance 1\nlet   ease =   20\n";
    client.open(&uri, text);
    let edits = client.ask("textDocument/formatting", options.clone()).unwrap();
    let edits = edits.as_array().unwrap();
    assert_eq!(edits.len(), 1, "one edit, over the lines that differ only: {edits:?}");
    assert_eq!(edits[0]["range"], range([1, 0], [5, 0]));
    let new = edits[0]["newText"].as_str().unwrap();
    assert!(
        new.contains("units cm") && new.contains("let ease = 20") && new.contains("🧵 ne\u{301}"),
        "{new}"
    );
    client.edit(&uri, 2, [[1, 0], [5, 0]], new);
    assert_eq!(client.ask("textDocument/formatting", options.clone()).unwrap(), json!([]));
    client.edit(&uri, 3, [[1, 0], [1, 5]], "unitz");
    let refused = client.ask("textDocument/formatting", options).unwrap_err();
    assert_eq!(refused["code"], json!(-32803));
    assert!(refused["message"].as_str().unwrap().contains("line 2 cannot be read"), "{refused}");
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_name_that_is_set_or_replaced_leads_to_its_base() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&long, LONG);
    let mut to = |uri: &str, at: [u32; 2]| client.ask_at("textDocument/definition", uri, at).unwrap();
    // `set ease` changes what the smock's fifth line declares, `replace seam side` what its 29th does.
    assert_eq!(to(&long, [1, 5]), json!([{ "uri": base, "range": range([4, 4], [4, 8]) }]));
    assert_eq!(to(&long, [2, 14]), json!([{ "uri": base, "range": range([28, 5], [28, 9]) }]));
    client.open(&base, SMOCK);
    // In the base itself a use leads to its declaration, and that to itself or to who changes it.
    let own = client.ask_at("textDocument/definition", &base, [5, 13]).unwrap();
    assert_eq!(own, json!([{ "uri": base, "range": range([4, 4], [4, 8]) }]));
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn a_name_is_lit_wherever_it_stands_in_its_file() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let base = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&base, SMOCK);
    let lit = client.ask_at("textDocument/documentHighlight", &base, [4, 5]).unwrap();
    // Declared in line 5, used in lines 6 and 14.
    let places = [range([4, 4], [4, 8]), range([5, 12], [5, 16]), range([13, 25], [13, 29])];
    assert_eq!(lit, json!(places.map(|range| json!({ "range": range }))));
    assert_eq!(client.ask_at("textDocument/documentHighlight", &base, [8, 0]).unwrap(), json!([]));
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn files_that_are_named_are_links() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&long, LONG);
    let asked = json!({ "textDocument": { "uri": long } });
    let links = client.ask("textDocument/documentLink", asked).unwrap();
    // `variation "Long smock" of "smock.fus"`: 27 characters before the name.
    assert_eq!(links, json!([{ "range": range([0, 27], [0, 36]), "target": base }]));
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn names_are_found_in_all_files_of_a_garment() {
    let folder = crew(&[("smock.fus", SMOCK), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "smock.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&long, LONG);
    let mut found = |letters: &str| client.ask("workspace/symbol", json!({ "query": letters })).unwrap();
    // Only the smock declares it, which is not open.
    let strap = found("stra");
    let places: Vec<&Value> = strap.as_array().unwrap().iter().map(|one| &one["location"]).collect();
    assert_eq!(places, [&json!({ "uri": base, "range": range([5, 4], [5, 9]) })]);
    assert_eq!(found("no such name"), json!([]));
    assert_eq!(client.leave(), Some(0));
}
