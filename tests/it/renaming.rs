//! Names followed over files, and given anew: by a client of the language server.

use crate::wire::{Client, LONG, SMOCK, crew, edited, range, uri};
use serde_json::{Value, json};

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
    // The seam `side` is replaced here, and sewn and declared there; the edges `side` are something else.
    let side = [at("long.fus", 2), at("smock.fus", 27), at("smock.fus", 28)];
    assert_eq!(uses(&mut client, [2, 14], true), side);
    // Without its declarations.
    assert_eq!(uses(&mut client, [2, 14], false), [at("smock.fus", 27), at("smock.fus", 28)]);
    // `top`, whose finish is dropped here: front's and back's, both copied from the body's.
    let top = uses(&mut client, [4, 20], true);
    assert_eq!(
        top,
        [
            ("long.fus", 4),
            ("long.fus", 5),
            ("smock.fus", 19),
            ("smock.fus", 27),
            ("smock.fus", 27),
            ("smock.fus", 31),
            ("smock.fus", 31)
        ]
        .map(|(file, line)| at(file, line))
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
            let papers = compiled.sizes.iter().flat_map(|size| size.drawn.papers.iter().flatten());
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

/// Names that one of two combined files gives, the other knows nothing of, and the combining file uses.
#[test]
fn renaming_reaches_what_is_combined() {
    let loop_file = "variation \"With a loop\" of \"smock.fus\"\nlet loop_long = 8\n\
        piece hanger \"Hanger\" { cut 1 loose; outline rectangle loop_long by 3 }\nadd hanger to layer outer\n\
        finish hanger.top, hanger.bottom, hanger.left, hanger.right  raw\n";
    let both_file = "variation \"Both\" of \"smock.fus\" with \"long.fus\", \"loop.fus\"\n\
        set loop_long = 9\nset ease = 26 grade +2\nreplace finish hanger.top  hem 1\n";
    let files = [("smock.fus", SMOCK), ("long.fus", LONG), ("loop.fus", loop_file), ("both.fus", both_file)];
    let folder = crew(&files);
    let mut client = Client::ready();
    let uris: Vec<String> = files.iter().map(|(name, _)| uri(folder.path(), name)).collect();
    for ((_, text), uri) in files.iter().zip(&uris) {
        client.open(uri, text);
    }
    // The let of one file, from the file that combines it; the base's let, which two files set; the piece.
    for (at, new, old, changed) in [
        ([1, 5], "tab_long", "loop_long", &["loop.fus", "both.fus"][..]),
        ([2, 5], "room", "ease", &["smock.fus", "long.fus", "both.fus"][..]),
        ([3, 16], "tab", "hanger", &["loop.fus", "both.fus"][..]),
    ] {
        let edit = renamed(&mut client, &uris[3], at, new).expect("may be renamed");
        let texts: Vec<(&str, String)> =
            files.iter().zip(&uris).map(|((name, text), uri)| (*name, edited(text, uri, &edit))).collect();
        for ((name, before), (_, after)) in files.iter().zip(&texts) {
            assert_eq!(changed.contains(name), before != after, "{name}: {old} to {new}");
            assert!(!after.contains(old), "{name}: {after}");
        }
        let loader = texts.iter().fold(fustian::source::MemoryLoader::new(), |loader, (name, text)| {
            loader.with(name, text.as_str())
        });
        let compiled = fustian::compile(&loader, "both.fus");
        assert!(!compiled.has_mistakes(), "{new}: {:#?}", compiled.diagnostics);
    }
    // A name that the other file of the two has is refused, though neither knows of the other.
    let taken = renamed(&mut client, &uris[2], [1, 4], "ease");
    assert!(taken.is_err(), "{taken:?}");
    assert_eq!(client.leave(), Some(0));
}

/// What a seam says to lie over is the piece: it is shown with the seam, and renamed with the piece.
#[test]
fn what_lies_over_is_shown_and_renamed() {
    let text = SMOCK.replace("front.side to back.side", "front.side to back.side { french 0.5 }").replace(
        "front.inner to back.inner",
        "front.inner to back.inner { allowance 2; felled 0.7 over back }",
    );
    let folder = crew(&[("smock.fus", &text)]);
    let base = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&base, &text);
    assert!(client.told_of(&base, 1).is_empty());
    let hover = client.ask_at("textDocument/hover", &base, [29, 6]).unwrap();
    let shown = hover["contents"]["value"].as_str().unwrap();
    assert!(shown.contains("front.inner to back.inner; felled 0.7 over back"), "{shown}");
    let edit = renamed(&mut client, &base, [25, 7], "rear").unwrap();
    let new = edited(&text, &base, &edit);
    assert!(new.contains("front.inner to rear.inner { allowance 2; felled 0.7 over rear }"), "{new}");
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
        ([1, 5], "4ease", "is not a name"),
        ([1, 5], "", "is not a name"),
        ([1, 5], "two words", "is not a name"),
        ([1, 5], "pi", "a word of the language"),
        ([2, 14], "inner", "inner"),
        ([2, 26], "hem", "hem"),
        ([3, 10], "back", "back"),
        ([3, 10], "outer", "outer"),
        ([0, 2], "anything", "no name here that can be changed"),
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

/// What is declared by one word and named in steps, in a piece of its own or by a place of a seam: each is shown, and given
/// another name wherever it stands.
#[test]
fn rows_tacks_straps_plackets_and_slits_are_renamed() {
    let text = "garment \"Deck bag\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\n\
        layer outer in drill { front, back }\n\
        piece front \"Front\" {\n  cut 1\n  outline rectangle 60 by 40\n  mark left_low = (10, 10)\n  mark right_low = (50, 10)\n\
        \x20 line middle from (10, 30) to (50, 30)\n  pleat folds on top at 20 from left depth 1 count 2 apart 2 toward left\n\
        \x20 slit pocket from (20, 20) to (34, 20)\n}\n\
        piece back \"Back\" { cut 1; outline rectangle finished(front.top) by 40 }\n\
        seam top front.top to back.top\nfinish front.left, front.bottom, front.right, back.left, back.bottom, back.right hem 1\n\
        finish front.pocket.near, front.pocket.far bound 1\n\
        topstitch quilting along front.middle\ntopstitch edge_row 0.5 from front.bottom\ntack hold front.left_low bar 1\n\
        strap carrier 44 by 2 in outer folded in four { from front.left_low to front.right_low }\n\
        steps { \"All\" { baste front.folds; finish front.pocket.near, front.pocket.far; topstitch quilting; place carrier; tack hold; sew top; \
        hem front.left, front.bottom, front.right, back.left, back.bottom, back.right; topstitch edge_row } }\n";
    let folder = crew(&[("bag.fus", text)]);
    let base = uri(folder.path(), "bag.fus");
    let mut client = Client::ready();
    client.open(&base, text);
    let lines: Vec<&str> = text.split('\n').collect();
    for (declared, name) in [
        ("pleat folds", "folds"),
        ("slit pocket", "pocket"),
        ("topstitch quilting along", "quilting"),
        ("topstitch edge_row 0.5", "edge_row"),
        ("tack hold front", "hold"),
        ("strap carrier", "carrier"),
        ("line middle", "middle"),
    ] {
        let line = lines.iter().position(|line| line.contains(declared)).expect("it is declared");
        let from = lines[line].find(declared).unwrap() + declared.find(name).unwrap();
        let at = [line as u32, from as u32 + 1];
        let hover = client.ask_at("textDocument/hover", &base, at).unwrap();
        assert!(
            hover["contents"]["value"].as_str().is_some_and(|shown| shown.contains(name)),
            "{declared}: {hover}"
        );
        let edit = renamed(&mut client, &base, at, "renamed").unwrap();
        let new = edited(text, &base, &edit);
        assert_eq!(new.matches("renamed").count(), text.matches(name).count(), "{name}: {new}");
        let loader = fustian::source::MemoryLoader::new().with("bag.fus", new);
        let left: Vec<&str> =
            fustian::compile(&loader, "bag.fus").diagnostics.iter().map(|one| one.slug()).collect();
        let before = fustian::source::MemoryLoader::new().with("bag.fus", text);
        let wanted: Vec<&str> =
            fustian::compile(&before, "bag.fus").diagnostics.iter().map(|one| one.slug()).collect();
        assert_eq!(left, wanted, "{name}");
    }
    assert_eq!(client.leave(), Some(0));
}
