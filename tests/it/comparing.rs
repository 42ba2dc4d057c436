//! What differs between two garments, and between two versions in git.

use crate::workbench::{err, examples, other, out, run};
use std::fs;
use std::path::Path;

/// How git is told of us. `$1` is the file's own path, `$2` and `$5` are its old and new content.
fn driver() -> String {
    let program = env!("CARGO_BIN_EXE_fustian");
    format!("f() {{ '{program}' compare --bases \"$(dirname \"$1\")\" \"$2\" \"$5\"; }}; f")
}

fn repository(folder: &Path) {
    let settings: [&[&str]; 7] = [
        &["init", "-q", "-b", "main"],
        &["config", "user.name", "Deck crew"],
        &["config", "user.email", "deck@example.invalid"],
        &["config", "commit.gpgsign", "false"],
        &["config", "core.autocrlf", "false"],
        &["add", "."],
        &["commit", "-q", "-m", "As worn"],
    ];
    for arguments in settings {
        other(folder, "git", arguments);
    }
}

fn change(folder: &Path, file: &str, from: &str, to: &str) {
    let path = folder.join(file);
    let text = fs::read_to_string(&path).expect("a text");
    assert!(text.contains(from), "{file} has no {from}");
    fs::write(path, text.replacen(from, to, 1)).expect("written");
}

#[test]
fn pieces_and_edges_are_told_by_how_much_and_in_which_sizes() {
    let folder = examples();
    let old = folder.path().join("old.fus");
    fs::copy(folder.path().join("galley-apron.fus"), &old).expect("a copy");
    // The hem 5 cm lower makes the side 5 cm longer, and the straight centre too.
    change(folder.path(), "galley-apron.fus", "(half_width, -85)", "(half_width, -90)");
    change(folder.path(), "galley-apron.fus", "hem_cf     = (0, -85)", "hem_cf     = (0, -90)");
    let output = run(folder.path(), &["compare", "old.fus", "galley-apron.fus"]);
    let text = out(&output);
    assert!(output.status.success(), "{}", err(&output));
    assert!(text.contains("changed: outer.apron (Apron)"), "{text}");
    assert!(text.contains("    side: 5 cm longer in every size\n"), "{text}");
    assert!(text.contains("    centre: 5 cm longer in every size\n"), "{text}");
    assert!(text.contains("    finished height: 5 cm higher in every size\n"), "{text}");
    assert!(!text.contains("bib"), "the bib is as it was: {text}");
    let json = out(&run(folder.path(), &["compare", "old.fus", "galley-apron.fus", "--format", "json"]));
    let json: serde_json::Value = serde_json::from_str(&json).expect("json");
    let facts = json["changes"]["pieces"][0]["facts"].as_array().expect("facts").clone();
    let side = facts.iter().find(|fact| fact["what"] == "side").expect("the side");
    // From the waist's side at -27 down to -85 and to -90.
    assert_eq!(side["sizes"]["one"], serde_json::json!({"old": 580, "new": 630}));
    let markdown =
        out(&run(folder.path(), &["compare", "old.fus", "galley-apron.fus", "--format", "markdown"]));
    assert!(markdown.contains("\n### pieces\n\n- changed: outer.apron (Apron)\n"), "{markdown}");
}

#[test]
fn a_variation_tells_what_it_adds_and_what_is_gone() {
    let folder = examples();
    let text = out(&run(folder.path(), &["compare", "deck-smock.fus", "deck-jacket.fus"]));
    for words in [
        "added: lining.front (Front)",
        "how: mirrored instead of on fold in every size",
        "added: front_zip",
        "added: hanging loop",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    let back = out(&run(folder.path(), &["compare", "deck-jacket.fus", "deck-smock.fus"]));
    assert!(back.contains("gone: front_zip"), "{back}");
    let same = out(&run(folder.path(), &["compare", "deck-jacket.fus", "deck-jacket.fus"]));
    assert!(same.ends_with("nothing differs\n"), "{same}");
}

#[test]
fn sizes_and_what_cannot_be_worked_out_are_told() {
    let folder = examples();
    fs::write(
        folder.path().join("few.fus"),
        "variation \"Few\" of \"deck-smock.fus\"\nunits cm\nsizes S, M\n",
    )
    .expect("written");
    let text = out(&run(folder.path(), &["compare", "deck-smock.fus", "few.fus"]));
    assert!(text.contains("sizes gone: XS, L, XL, 2XL"), "{text}");
    fs::write(folder.path().join("bad.fus"), "variation \"Bad\" of \"deck-smock.fus\"\nset nothing = 3\n")
        .expect("written");
    let output = run(folder.path(), &["compare", "deck-smock.fus", "bad.fus"]);
    assert!(err(&output).contains("bad.fus has 1 mistake"), "{}", err(&output));
    let output = run(folder.path(), &["compare", "deck-smock.fus", "gone.fus"]);
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn git_diff_speaks_in_a_makers_words() {
    let folder = examples();
    fs::write(folder.path().join(".gitattributes"), "*.fus diff=fustian\n").expect("written");
    repository(folder.path());
    other(folder.path(), "git", &["config", "diff.fustian.command", &driver()]);
    change(folder.path(), "deck-lined.fus", "set ease = 30", "set ease = 34");
    fs::write(folder.path().join("new.fus"), "garment \"New\"\n").expect("written");
    other(folder.path(), "git", &["add", "-N", "new.fus"]);
    let text = out(&other(folder.path(), "git", &["diff"]));
    // The old content lies in git's own folder; the smock that it varies is found by --bases.
    assert!(text.contains("Finished chest"), "{text}");
    // Four centimetres more of ease is four more at the chest (ease/4 on each of four quarters).
    assert!(text.contains("value: 4 cm more in every size"), "{text}");
    assert!(text.contains("New compared with nothing"), "{text}");
}

#[test]
fn git_difftool_does_too() {
    let folder = examples();
    repository(folder.path());
    let program = env!("CARGO_BIN_EXE_fustian");
    let command = format!("'{program}' compare --bases \"$(dirname \"$MERGED\")\" \"$LOCAL\" \"$REMOTE\"");
    other(folder.path(), "git", &["config", "difftool.fustian.cmd", &command]);
    change(folder.path(), "galley-apron.fus", "hem_cf     = (0, -85)", "hem_cf     = (0, -86)");
    let text = out(&other(folder.path(), "git", &["difftool", "-y", "-t", "fustian"]));
    assert!(text.contains("centre: 1 cm longer in every size"), "{text}");
}

/// `git log -p` and `git show` know no other program for differences, but let one say what a file
/// holds: here every piece's sizes, a line each, and then the text itself.
#[test]
fn git_log_shows_what_became_of_the_pieces_with_the_lines_that_changed() {
    let folder = examples();
    fs::write(folder.path().join(".gitattributes"), "*.fus diff=fustian\n").expect("written");
    repository(folder.path());
    let program = env!("CARGO_BIN_EXE_fustian");
    let textconv =
        format!("f() {{ '{program}' pieces --bases . --format csv \"$1\" 2>/dev/null; cat \"$1\"; }}; f");
    other(folder.path(), "git", &["config", "diff.fustian.textconv", &textconv]);
    change(folder.path(), "deck-lined.fus", "set ease = 30", "set ease = 34");
    other(folder.path(), "git", &["commit", "-q", "-a", "-m", "More ease"]);
    // A version with a mistake has no pieces; its text is still shown.
    change(folder.path(), "deck-lined.fus", "set ease = 34", "set ease = broad");
    other(folder.path(), "git", &["commit", "-q", "-a", "-m", "A slip"]);
    let log = out(&other(folder.path(), "git", &["log", "-p", "--format=%s"]));
    let (slip, rest) = log.split_once("More ease").expect("two commits");
    let (rest, _) = rest.split_once("As worn").expect("three");
    assert!(slip.contains("+set ease = broad"), "{slip}");
    assert!(rest.contains("\n+set ease = 34"), "{rest}");
    // Four centimetres more at the chest are one more on each quarter (ease/4), cut and finished.
    let widths = |sign: &str| -> Vec<(f64, f64)> {
        let fronts = rest.lines().filter_map(|line| line.strip_prefix(sign)?.strip_prefix("outer.front,"));
        let fields = fronts.map(|line| line.split(',').collect::<Vec<_>>());
        let number = |text: &str| text.parse::<f64>().expect("a number");
        fields.map(|fields| (number(fields[5]), number(fields[7]))).collect()
    };
    let (before, after) = (widths("-"), widths("+"));
    assert_eq!((before.len(), after.len()), (6, 6), "{rest}");
    for (before, after) in before.iter().zip(&after) {
        assert!(
            (after.0 - before.0 - 1.0).abs() < 0.011 && (after.1 - before.1 - 1.0).abs() < 0.011,
            "{rest}"
        );
    }
}

/// A longer smock takes more of the same cloth: by hand, an apron of 60 × 80 cm with 2 cm hems is
/// cut 84 cm long and takes 0.9 m; 30 cm longer it takes 1.2 m, at 10 a metre.
#[test]
fn what_is_bought_is_compared_where_that_is_asked_for() {
    use crate::workbench::{err, folder_of, out, run};
    let apron = |long: u32| {
        format!(
            "garment \"Galley apron\"\nunits cm\nfabric canvas \"canvas\" {{ width 70;  price 10 per m }}\n\
             layer outer in canvas {{ body }}\npiece body \"Body\" {{\n  cut 1\n  outline rectangle 60 by {long}\n}}\n\
             finish body.bottom, body.right, body.top, body.left  hem 2\n"
        )
    };
    let folder = folder_of(&[("old.fus", &apron(80)), ("new.fus", &apron(110))]);
    let told = run(folder.path(), &["compare", "old.fus", "new.fus", "--materials"]);
    assert!(told.status.success(), "{}", err(&told));
    let told = out(&told);
    assert!(
        told.contains("\ncloth\n  changed: canvas (canvas)\n    to buy: 30 cm more in every size\n"),
        "{told}"
    );
    assert!(told.contains("\ncost\n  changed: together\n    sum: 12 instead of 9 in every size\n"), "{told}");
    let told = out(&run(folder.path(), &["compare", "old.fus", "new.fus"]));
    assert!(!told.contains("to buy"), "{told}");
}
