//! A new file, pins, tidying in place, and the colours of editors.

use crate::workbench::{err, examples, folder_of, out, run};
use fustian::source::pin_of;
use fustian::syntax::{FUNCTIONS, KEYWORDS};
use std::fs;

#[test]
fn a_new_file_has_nothing_to_mend_and_is_tidy() {
    let folder = folder_of(&[]);
    let output = run(folder.path(), &["new", "mess-\"apron"]);
    assert!(output.status.success(), "{}", err(&output));
    let checked = run(folder.path(), &["check", "mess-\"apron.fus"]);
    assert!(err(&checked).contains("nothing to fix"), "{}", err(&checked));
    assert!(run(folder.path(), &["tidy", "--check", "mess-\"apron.fus"]).status.success());
    let before = fs::read(folder.path().join("mess-\"apron.fus")).expect("it");
    assert_eq!(
        run(folder.path(), &["new", "mess-\"apron.fus"]).status.code(),
        Some(2),
        "it is there already"
    );
    assert_eq!(fs::read(folder.path().join("mess-\"apron.fus")).expect("it"), before);
}

#[test]
fn each_draft_compiles_without_a_word_and_is_tidy() {
    for kind in ["apron", "bag", "skirt", "top", "trousers"] {
        let folder = folder_of(&[]);
        assert!(run(folder.path(), &["new", "mate", "--kind", kind]).status.success(), "{kind}");
        let checked = run(folder.path(), &["check", "mate.fus"]);
        let said = err(&checked);
        assert!(said.contains("nothing to fix") && !said.contains("advice"), "{kind}: {said}");
        assert!(run(folder.path(), &["tidy", "--check", "mate.fus"]).status.success(), "{kind}");
    }
    assert_eq!(run(folder_of(&[]).path(), &["new", "mate", "--kind", "hat"]).status.code(), Some(2));
}

#[test]
fn a_pin_is_written_and_refreshed_and_nothing_else_changes() {
    let folder = examples();
    let path = folder.path().join("deck-zip.fus");
    let before = fs::read_to_string(&path).expect("a text");
    assert!(run(folder.path(), &["pin", "deck-zip.fus"]).status.success());
    let pin = pin_of(&fs::read_to_string(folder.path().join("deck-smock.fus")).expect("a text"));
    let pinned = fs::read_to_string(&path).expect("a text");
    assert_eq!(pinned, before.replacen("\"deck-smock.fus\"", &format!("\"deck-smock.fus\" as of {pin}"), 1));
    let smock = folder.path().join("deck-smock.fus");
    let changed =
        fs::read_to_string(&smock).expect("a text").replace("let ease          = 22", "let ease = 24");
    fs::write(&smock, &changed).expect("written");
    assert!(err(&run(folder.path(), &["check", "deck-zip.fus"])).contains("file/changed"));
    assert!(run(folder.path(), &["pin", "deck-zip.fus"]).status.success());
    assert_eq!(fs::read_to_string(&path).expect("a text"), pinned.replace(&pin, &pin_of(&changed)));
    assert!(!err(&run(folder.path(), &["check", "deck-zip.fus"])).contains("file/changed"));
    fs::remove_file(&smock).expect("gone");
    assert_eq!(run(folder.path(), &["pin", "deck-zip.fus"]).status.code(), Some(2));
    assert_eq!(run(folder.path(), &["pin", "galley-apron.fus"]).status.code(), Some(2), "nothing to pin");
}

#[test]
fn a_base_that_was_only_tidied_is_still_the_one_that_was_pinned() {
    let folder = examples();
    let smock = folder.path().join("deck-smock.fus");
    let untidy = fs::read_to_string(&smock)
        .expect("a text")
        .replace("head/5.2 + 0.5", "head / 5.2+0.5")
        .replace("sew hem_band_ends, hem_band }", "sew hem_band_ends,\n   hem_band\n }")
        .replace("(neck_width, 0)", "( neck_width\n , 0 )");
    fs::write(&smock, untidy).expect("written");
    assert!(run(folder.path(), &["pin", "deck-zip.fus"]).status.success());
    assert!(run(folder.path(), &["tidy", "deck-smock.fus"]).status.success());
    let output = run(folder.path(), &["check", "deck-zip.fus"]);
    assert!(!err(&output).contains("file/changed"), "{}", err(&output));
}

#[test]
fn tidying_writes_in_place_and_leaves_alone_what_cannot_be_read() {
    let untidy = "garment   \"Smock\"\nunits    cm\n";
    let bad = "garment   \"Smock\"\nlet ease 3\n";
    let folder = folder_of(&[("a.fus", untidy), ("b.fus", bad)]);
    let output = run(folder.path(), &["tidy", "--check", "a.fus"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("a.fus: would be laid out differently"), "{}", err(&output));
    assert_eq!(fs::read_to_string(folder.path().join("a.fus")).expect("it"), untidy, "only looked at");
    let output = run(folder.path(), &["tidy", "b.fus", "a.fus", "gone.fus"]);
    assert_eq!(output.status.code(), Some(2), "one of them is not there");
    assert!(err(&output).contains("b.fus: left as it is"), "{}", err(&output));
    assert_eq!(fs::read_to_string(folder.path().join("a.fus")).expect("it"), "garment \"Smock\"\nunits cm\n");
    assert_eq!(fs::read_to_string(folder.path().join("b.fus")).expect("it"), bad);
    assert!(out(&output).is_empty());
    assert_eq!(run(folder.path(), &["tidy", "--check", "a.fus"]).status.code(), Some(0));
}

/// The words of an alternation `…(one|two)…`.
fn words(grammar: &serde_json::Value, rule: &str) -> Vec<String> {
    let pattern = grammar["repository"][rule]["match"].as_str().expect("a pattern");
    let from = pattern.find(")(").expect("an alternation") + 2;
    let to = pattern.get(from..).and_then(|rest| rest.find(")(")).expect("its end") + from;
    pattern[from..to].split('|').map(str::to_owned).collect()
}

#[test]
fn editors_colour_every_word_of_the_language_and_no_other() {
    let text = include_str!("../../grammar/fustian.tmLanguage.json");
    let grammar: serde_json::Value = serde_json::from_str(text).expect("json");
    assert_eq!(words(&grammar, "keyword"), KEYWORDS);
    assert_eq!(words(&grammar, "function"), FUNCTIONS);
    let included = grammar["patterns"].as_array().expect("patterns");
    let repository = grammar["repository"].as_object().expect("a repository");
    assert_eq!(included.len(), repository.len());
    for one in included {
        let name = one["include"].as_str().expect("an include").trim_start_matches('#');
        assert!(repository.contains_key(name), "{name}");
    }
}

/// What the extension's manifest names is there, and it is the version of the program that it starts.
#[test]
fn the_extension_for_an_editor_is_complete() {
    let grammar = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar");
    let json = |name: &str| -> serde_json::Value {
        serde_json::from_str(&fs::read_to_string(grammar.join(name)).expect(name)).expect("JSON")
    };
    let manifest = json("package.json");
    assert_eq!(manifest["version"], env!("CARGO_PKG_VERSION"));
    let language = &manifest["contributes"]["languages"][0];
    let colours = &manifest["contributes"]["grammars"][0];
    let named = [&manifest["main"], &language["configuration"], &colours["path"]];
    for path in named {
        let path = path.as_str().expect("a path").trim_start_matches("./");
        assert!(grammar.join(path).is_file(), "{path}");
        let packed = manifest["files"].as_array().expect("what is packed");
        assert!(packed.iter().any(|one| one == path), "{path} is left out of the package");
    }
    assert_eq!(colours["scopeName"], json("fustian.tmLanguage.json")["scopeName"]);
    assert_eq!(colours["language"], language["id"]);
    assert_eq!(json("language-configuration.json")["comments"]["lineComment"], "#");
}
