//! What differs between two garments, and between two versions in git.

use crate::workbench::{err, examples, other, out, run};
use std::fs;
use std::path::Path;

/// How git is told of us. `$1` is the file's own path, `$2` and `$5` are its old and new content.
fn driver() -> String {
    let program = env!("CARGO_BIN_EXE_fustian");
    format!("f() {{ '{program}' compare --bases \"$(dirname \"$1\")\" \"$2\" \"$5\"; true; }}; f")
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
    let output = run(folder.path(), &["compare", "old.fus", "galley-apron.fus", "--all"]);
    let text = out(&output);
    assert!(output.status.success(), "{}", err(&output));
    let causes = "Galley apron: 2 changes\n  piece apron: point hem_side (half_width, -90) instead of (half_width, -85)\n  \
                  piece apron: point hem_cf (0, -90) instead of (0, -85)\n";
    assert!(text.starts_with(causes), "{text}");
    assert!(text.contains("changed: outer.apron (Apron)"), "{text}");
    // From the waist's side at -27 down to -85 and to -90; from the bib at 0.
    assert!(text.contains("    side: 5 cm longer, 63 cm instead of 58 cm\n"), "{text}");
    assert!(text.contains("    centre: 5 cm longer, 90 cm instead of 85 cm\n"), "{text}");
    assert!(text.contains("    finished height: 5 cm higher, 90 cm instead of 85 cm\n"), "{text}");
    assert!(!text.contains("bib"), "the bib is as it was: {text}");
    let json = out(&run(folder.path(), &["compare", "old.fus", "galley-apron.fus", "--format", "json"]));
    let json: serde_json::Value = serde_json::from_str(&json).expect("json");
    let facts = json["changes"]["pieces"][0]["facts"].as_array().expect("facts").clone();
    let side = facts.iter().find(|fact| fact["what"] == "side").expect("the side");
    // From the waist's side at -27 down to -85 and to -90.
    assert_eq!(side["sizes"]["one"], serde_json::json!({"old": 580, "new": 630}));
    let markdown = out(&run(
        folder.path(),
        &["compare", "old.fus", "galley-apron.fus", "--all", "--format", "markdown"],
    ));
    assert!(markdown.contains("\n### pieces\n\n- changed: outer.apron (Apron)\n"), "{markdown}");
}

#[test]
fn a_variation_tells_what_it_adds_and_what_is_gone() {
    let folder = examples();
    let text = out(&run(folder.path(), &["compare", "deck-smock.fus", "deck-jacket.fus", "--all"]));
    for words in [
        "added: lining.front (Front)",
        "cut: mirrored instead of on fold in every size",
        "added: front_zip",
        "added: hanging loop",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    let back = out(&run(folder.path(), &["compare", "deck-jacket.fus", "deck-smock.fus", "--all"]));
    assert!(back.contains("gone: front_zip"), "{back}");
    let same = out(&run(folder.path(), &["compare", "deck-jacket.fus", "deck-jacket.fus"]));
    assert_eq!(same, "Deck jacket, lined: nothing differs\n");
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
    assert!(err(&output).contains("bad.fus:2:5: mistake: "), "{}", err(&output));
    // Nothing is told to be gone that may be there.
    assert_eq!(output.status.code(), Some(1));
    assert!(!out(&output).contains("gone"), "{}", out(&output));
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
    assert!(text.contains("Deck smock with a zip, lined: ease 34 instead of 30\n"), "{text}");
    // Four centimetres more of ease is four more at the chest (ease/4 on each of four quarters): the chests of the
    // library, 82 to 123.5, and the ease.
    let chest = "  Finished chest: 4 cm more in every size, 116 to 157.5 cm instead of 112 to 153.5 cm\n";
    assert!(text.contains(chest), "{text}");
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
    assert!(text.contains("piece apron: point hem_cf (0, -86) instead of (0, -85)\n"), "{text}");
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
        told.contains("\nand so\n  canvas: 30 cm more, 1.2 m instead of 90 cm\n")
            || told.contains("\n  canvas: 30 cm more, 120 cm instead of 90 cm\n"),
        "{told}"
    );
    assert!(told.contains("\n  together: 12 instead of 9\n"), "{told}");
    let told = out(&run(folder.path(), &["compare", "old.fus", "new.fus"]));
    assert!(!told.contains("to buy"), "{told}");
}

/// What is said differently stands first, in the words of the file; each kind of line is changed once.
#[test]
fn the_first_line_tells_the_cause() {
    let mut wrong = Vec::new();
    for (file, from, to, cause) in [
        ("deck-smock.fus", "allowance 1", "allowance 1.5", "allowance 1.5 instead of 1"),
        ("deck-smock.fus", "tolerance 2mm", "tolerance 3mm", "tolerance 3mm instead of 2mm"),
        (
            "deck-smock.fus",
            "wearer adult",
            "wearer child from 8 to 10 years",
            "wearer child from 8 to 10 years instead of adult",
        ),
        (
            "crew-badge.fus",
            "Who is who aboard.",
            "Who is who.",
            "about \"Who is who.\" instead of \"Who is who aboard.\"",
        ),
        ("deck-smock.fus", "= 22 ", "= 26 ", "ease 26 instead of 22"),
        (
            "deck-smock.fus",
            "back_waist + 22",
            "back_waist + 24",
            "hem_depth: back_waist + 24 instead of back_waist + 22",
        ),
        (
            "deck-smock.fus",
            "between 6 and 22",
            "between 6 and 24",
            "cap between 6 and 24 instead of 22 so that length(sleeve.cap) = length(front.armhole) + length(back.armhole) + cap_ease",
        ),
        (
            "deck-smock.fus",
            "\"half the sleeve",
            "\"half a sleeve",
            "sleeve_width \"half a sleeve at the underarm\" instead of \"half the sleeve at the underarm\"",
        ),
        ("deck-lined.fus", "set ease = 30", "set ease = 34", "ease 34 instead of 30"),
        ("deck-zip.fus", "each 75, 76", "each 74, 76", "zip_length 74 instead of 75 in XS"),
        (
            "deck-smock.fus",
            "\"Finished wrist\"",
            "\"Wrist\"",
            "measure cuff_finished \"Wrist\" instead of \"Finished wrist\" against wrist = length(cuff.top)",
        ),
        ("deck-smock.fus", ">= 30", ">= 32", "require length(front.side) >= 32 instead of 30"),
        ("crew-library.fus", "90,  98", "90,  99", "chest 99 instead of 98 in M"),
        ("crew-library.fus", "at M grade +1.5", "at M grade +1.6", "neck 39 at M grade +1.6 instead of +1.5"),
        (
            "crew-library.fus",
            "width 150; selvage 1\n  shrink 2%",
            "width 145; selvage 1\n  shrink 2%",
            "fabric shell: width 145 instead of 150",
        ),
        ("crew-library.fus", "price 18.50", "price 19", "fabric shell: price 19 instead of 18.50 per m"),
        (
            "crew-library.fus",
            "pick size by larger of chest, hip",
            "pick size by chest",
            "pick size by chest instead of larger of chest, hip",
        ),
        ("deck-lined.fus", "{ front, back, sleeve }", "{ front, back }", "layer lining: gone: sleeve"),
        (
            "deck-lined.fus",
            "notion \"hanging loop\" 1",
            "notion \"hanging loop\" 2",
            "notion \"hanging loop\" 2 instead of 1",
        ),
        (
            "deck-smock.fus",
            "cut 2 mirrored\n  point crown",
            "cut 2\n  point crown",
            "piece sleeve: cut 2 instead of 2 mirrored",
        ),
        (
            "galley-apron.fus",
            "(13, 0)",
            "(14, 0)",
            "piece apron: point bib_corner (14, 0) instead of (13, 0)",
        ),
        (
            "galley-apron.fus",
            "18 by 20",
            "18 by 21",
            "piece pocket: outline rectangle 18 by 21 instead of 20",
        ),
        (
            "deck-smock.fus",
            "shoulder arriving right\n    side      to hem_side\n    hem       to hem_cf",
            "shoulder arriving down\n    side      to hem_side\n    hem       to hem_cf",
            "piece front: armhole to underarm curve leaving square to shoulder arriving down instead of right",
        ),
        (
            "galley-apron.fus",
            "(0, -56)",
            "(0, -54)",
            "piece apron: mark pocket_low (0, -54) instead of (0, -56)",
        ),
        (
            "deck-smock.fus",
            "line waist across at (0, -back_waist)  #",
            "line waist across at (0, -40)  #",
            "piece front: line waist across at (0, -40) instead of (0, -back_waist)",
        ),
        (
            "deck-smock.fus",
            "folded top to bottom",
            "folded bottom to top",
            "piece cuff: folded bottom to top instead of top to bottom",
        ),
        ("bias-slip.fus", "grain bias", "grain up", "piece front: grain up instead of bias"),
        (
            "steward-bodice.fus",
            "stopping 2.5 short pressed",
            "stopping 3 short pressed",
            "piece front: dart bust_dart on side at 6 from underarm width bust_dart to bust_point stopping 3 instead of 2.5 short pressed down trued",
        ),
        (
            "deck-cropped.fus",
            "at waist by 6",
            "at waist by 7",
            "shorten front, back at waist by 7 instead of 6",
        ),
        (
            "mess-skirt-lined.fus",
            "shorten lining.front, lining.back at knee by 2",
            "shorten lining.front at knee by 2",
            "shorten lining.front instead of lining.front, lining.back at knee by 2",
        ),
        (
            "deck-smock.fus",
            "easing 2..3",
            "easing 2..4",
            "seam armhole sleeve.cap to front.armhole + back.armhole easing 2..4 instead of 2..3",
        ),
        (
            "deck-smock.fus",
            "notch 8 from front.underarm",
            "notch 9 from front.underarm",
            "seam armhole: notch 9 instead of 8 from front.underarm",
        ),
        (
            "galley-apron.fus",
            "hem 3 turned under 1\nfinish apron.slope",
            "hem 4 turned under 1\nfinish apron.slope",
            "finish apron.hem hem 4 instead of 3 turned under 1",
        ),
        (
            "deck-smock.fus",
            "topstitch left, right",
            "topstitch left",
            "place pocket: topstitch left instead of left, right",
        ),
        (
            "deck-zip.fus",
            "zipper separating",
            "zipper closed",
            "closure front_zip: zipper closed instead of separating zip_length",
        ),
        (
            "galley-apron.fus",
            "cord tie 280",
            "cord tie 290",
            "cord tie 290 instead of 280 through apron.slope ends 70 free",
        ),
        (
            "mate-trousers.fus",
            "front.fly_low bar 1",
            "front.fly_low bar 1.5",
            "tack fly_bar front.fly_low bar 1.5 instead of 1",
        ),
        (
            "bias-slip.fus",
            "44 by 0.8",
            "46 by 0.8",
            "strap shoulder_strap 46 instead of 44 by 0.8 in outer folded in four",
        ),
        (
            "deck-smock.fus",
            "in outer 6 deep",
            "in outer 7 deep",
            "band collar \"Collar\" in outer 7 instead of 6 deep folded round front.neckline + back.neckline joined at back.neck_cb",
        ),
        (
            "deck-smock.fus",
            "\nopening front.neckline + back.neckline  passes head\n",
            "\n",
            "gone: opening front.neckline + back.neckline passes head",
        ),
        (
            "deck-smock.fus",
            "  \"Pockets\"   { hem pocket.top; place pocket }\n",
            "",
            "steps: gone: \"Pockets\"",
        ),
        (
            "galley-apron.fus",
            "hem apron.side, apron.bib",
            "hem apron.bib, apron.side",
            "steps: \"Edges\": hem apron.bib, apron.side instead of apron.side, apron.bib, apron.hem",
        ),
        (
            "galley-apron.fus",
            "hem apron.side, apron.bib, apron.hem;",
            "hem apron.side;",
            "steps: \"Edges\": hem apron.side instead of apron.side, apron.bib, apron.hem",
        ),
        ("crew-library.fus", "S, M, L, XL", "S, M, L, XXL", "sizes: size XXL instead of XL"),
    ] {
        let folder = examples();
        fs::copy(folder.path().join(file), folder.path().join("old.fus")).expect("a copy");
        change(folder.path(), file, from, to);
        let text = out(&run(folder.path(), &["compare", "old.fus", file]));
        let first = text.lines().next().unwrap_or_default();
        let told = first.split_once(": ").map_or("", |(_, told)| told);
        if told != cause {
            wrong.push(format!("{cause}\n    {told}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Each way in which two texts may differ that say the same, and what a base or a library says.
#[test]
fn notes_layout_and_other_files_are_told_apart() {
    let folder = examples();
    let told = |old: &str, new: &str| out(&run(folder.path(), &["compare", old, new]));
    let copy = |from: &str, to: &str, change: &dyn Fn(String) -> String| {
        let text = fs::read_to_string(folder.path().join(from)).expect("a text");
        fs::write(folder.path().join(to), change(text)).expect("written");
    };
    copy("galley-apron.fus", "noted.fus", &|text| {
        text.replace("# A half on the fold, placed on", "# A half on the fold,  put on")
            .replace("allowance 1", "allowance  1.0")
    });
    assert_eq!(told("galley-apron.fus", "noted.fus"), "Galley apron: only notes or layout differ\n");
    copy("deck-lined.fus", "set.fus", &|text| text.replace("set ease = 30", "set ease = 26 + 4"));
    assert_eq!(
        told("deck-lined.fus", "set.fus").lines().next(),
        Some("Deck smock with a zip, lined: ease: 26 + 4 instead of 30")
    );
    // A cloth on the shelf that the apron does not use, and one that the smock is cut from.
    fs::create_dir(folder.path().join("then")).expect("a folder");
    for file in ["deck-smock.fus", "crew-library.fus"] {
        copy(file, &format!("then/{file}"), &|text| text);
    }
    copy("crew-library.fus", "crew-library.fus", &|text| {
        text.replace("fabric oilskin \"oilskin\" {\n  width 147", "fabric oilskin \"oilskin\" {\n  width 140")
    });
    assert_eq!(
        told("then/deck-smock.fus", "deck-smock.fus"),
        "Deck smock: nothing differs, for what is written otherwise comes to the same\n"
    );
    let library = told("then/crew-library.fus", "crew-library.fus");
    assert!(library.starts_with("Crew slop chest: fabric oilskin: width 140 instead of 147\n"), "{library}");
    copy("crew-library.fus", "crew-library.fus", &|text| {
        text.replacen("width 150; selvage 1\n  shrink", "width 145; selvage 1\n  shrink", 1)
    });
    let smock = told("then/deck-smock.fus", "deck-smock.fus");
    assert!(
        smock.starts_with("Deck smock: fabric shell: width 145 instead of 150 (crew-library.fus:27)\n"),
        "{smock}"
    );
}

/// A library that changed is told by git too, though nothing is sewn of it.
#[test]
fn git_diff_tells_what_changed_in_a_library() {
    let folder = examples();
    fs::write(folder.path().join(".gitattributes"), "*.fus diff=fustian\n").expect("written");
    repository(folder.path());
    other(folder.path(), "git", &["config", "diff.fustian.command", &driver()]);
    change(folder.path(), "crew-library.fus", "width 140\n  stretch 80%", "width 135\n  stretch 80%");
    let text = out(&other(folder.path(), "git", &["diff"]));
    assert!(text.starts_with("Crew slop chest: fabric rib: width 135 instead of 140\n"), "{text}");
}

/// What comes of it is counted unless all is asked for, and every figure is in the JSON and the table.
#[test]
fn what_follows_is_folded_and_every_figure_is_there() {
    let folder = examples();
    fs::copy(folder.path().join("galley-apron.fus"), folder.path().join("old.fus")).expect("a copy");
    change(folder.path(), "galley-apron.fus", "(13, 0)", "(14, 0)");
    let told = |more: &[&str]| {
        out(&run(folder.path(), &[&["compare", "old.fus", "galley-apron.fus"], more].concat()))
    };
    // The bib and the slope are other edges than before, on one piece.
    let text = told(&[]);
    assert!(text.contains("\nand so\n  2 edges of 1 piece"), "{text}");
    assert!(text.trim_end().ends_with(": --all"), "{text}");
    let all = told(&["--all"]);
    assert!(all.contains("    bib: 1 cm longer, 14 cm instead of 13 cm\n"), "{all}");
    let follows = all.split_once('\n').map_or("", |(_, follows)| follows);
    for words in ["_", "M0", "hem: "] {
        assert!(!follows.contains(words), "{words} in {all}");
    }
    let csv = told(&["--format", "csv"]);
    assert!(
        csv.starts_with(
            "section,name,label,change,what,size,old,new,unit,file,line\r\ncause,piece apron,,changed,"
        ),
        "{csv}"
    );
    assert!(csv.contains("\r\npieces,outer.apron,Apron,changed,bib,one,13,14,cm,,\r\n"), "{csv}");
    let json: serde_json::Value = serde_json::from_str(&told(&["--format", "json"])).expect("json");
    assert_eq!(json["causes"][0]["old"], "point bib_corner = (13, 0)");
    assert_eq!(json["causes"][0]["new"], "point bib_corner = (14, 0)");
    assert_eq!(json["causes"][0]["words"], "piece apron: point bib_corner (14, 0) instead of (13, 0)");
    let bib = json["changes"]["pieces"][0]["facts"].as_array().expect("facts");
    let bib = bib.iter().find(|fact| fact["what"] == "bib").expect("the bib");
    assert_eq!(bib["sizes"]["one"], serde_json::json!({"old": 130, "new": 140}));
    // Inches where the garment is in inches: 14 cm are 5.51 in, 5 1/2 on the tape.
    let text = fs::read_to_string(folder.path().join("galley-apron.fus")).expect("a text");
    for file in ["old.fus", "galley-apron.fus"] {
        let text = if file == "old.fus" { text.replace("(14, 0)", "(13, 0)") } else { text.clone() };
        let inches = "garment \"Bib\"\nunits in\nfabric canvas { width 60 }\nlayer outer in canvas { bib }\npiece bib \"Bib\" {\n  cut 1\n  outline rectangle 10 by LONG\n}\nfinish bib.top, bib.bottom, bib.left, bib.right  hem 1/2\n";
        let long = if text.contains("(14, 0)") { "5 1/2" } else { "5" };
        fs::write(folder.path().join(file), inches.replace("LONG", long)).expect("written");
    }
    let all = told(&["--all"]);
    assert!(all.starts_with("Bib: piece bib: outline rectangle 10 by 5 1/2 instead of 5\n"), "{all}");
    assert!(all.contains("    left: 1/2 in longer, 5 1/2 in instead of 5 in\n"), "{all}");
    assert!(told(&["--format", "csv"]).contains(",left,one size,5,5.5,in,,\r\n"));
}

/// A front on the fold that is opened: its half is compared with what is one of a pair now.
#[test]
fn a_half_is_compared_with_a_half() {
    let folder = examples();
    let text = out(&run(folder.path(), &["compare", "deck-smock.fus", "deck-zip.fus", "--all"]));
    let pieces = text.split("\npieces\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("pieces");
    let front =
        pieces.split("  changed: ").find(|piece| piece.starts_with("outer.front ")).expect("the front");
    assert!(!front.contains("finished width"), "half as wide: {front}");
    let lines =
        text.split("\ncut list\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("the cut list");
    let front = lines.split("  changed: ").find(|line| line.starts_with("outer.front")).expect("the front");
    assert!(front.contains("cut: mirrored instead of on fold"), "{front}");
    // The half gets an allowance of 1 cm at its centre.
    assert!(front.contains("cut width: 1 cm wider in every size"), "{front}");
}

#[test]
fn the_comparison_is_of_the_form_that_its_schema_says() {
    use fustian::emit::{Schemas, schema};
    let folder = examples();
    let text = schema(Schemas::Compare).expect("a schema");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/compare.schema.json");
    assert!(
        fs::read_to_string(path).unwrap_or_default() == text,
        "fustian schema compare > grammar/compare.schema.json"
    );
    let schema = serde_json::from_str(&text).expect("json");
    let validator = jsonschema::draft202012::new(&schema).expect("a schema");
    for (old, new) in [
        ("deck-smock.fus", "deck-jacket.fus"),
        ("mess-skirt.fus", "mess-skirt-vent.fus"),
        ("deck-jacket.fus", "second-mate.fus"),
    ] {
        let json = out(&run(folder.path(), &["compare", old, new, "--format", "json"]));
        let json: serde_json::Value = serde_json::from_str(&json).expect("json");
        let wrong: Vec<String> = validator.iter_errors(&json).map(|error| error.to_string()).collect();
        assert!(wrong.is_empty(), "{old}: {wrong:?}");
    }
}

/// Lists are told by what stands in them, ends of seams are no ends of cords, and counts say of what.
#[test]
fn what_is_listed_is_told_in_words() {
    let folder = examples();
    fs::copy(folder.path().join("deck-smock.fus"), folder.path().join("old.fus")).expect("a copy");
    change(
        folder.path(),
        "deck-smock.fus",
        "  notch 8 from back.underarm double  # two notches mean back\n",
        "",
    );
    let text = out(&run(folder.path(), &["compare", "old.fus", "deck-smock.fus", "--all"]));
    let causes = "Deck smock: seam armhole: gone: notch 8 from back.underarm double\n";
    assert!(text.starts_with(causes), "{text}");
    assert!(text.contains("how many notches: "), "{text}");
    assert!(!text.contains("hanging out"), "{text}");
    fs::copy(folder.path().join("galley-apron.fus"), folder.path().join("old.fus")).expect("a copy");
    change(folder.path(), "galley-apron.fus", "ends 70 free", "ends 75 free");
    let text = out(&run(folder.path(), &["compare", "old.fus", "galley-apron.fus", "--all"]));
    assert!(text.contains("    hanging out at each end: 5 cm longer, 75 cm instead of 70 cm\n"), "{text}");
}

/// The steps that are worked out for hooks alone are not called after buttons.
#[test]
fn hooks_are_not_called_buttons() {
    let folder = examples();
    for (word, title) in [("hooks 2", "Hooks and eyes"), ("snaps 4 of 12mm", "Snaps")] {
        let flap = format!(
            "garment \"Signal flap\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ flap }}\npiece flap \"Flap\" {{\n  cut 1\n  outline rectangle 40 by 60\n  \
             line one along at (5, 0)\n  line two along at (35, 0)\n}}\n\
             finish flap.top, flap.bottom, flap.left, flap.right  hem 2\nclosure front flap.one to flap.two {{ {word} }}\n"
        );
        fs::write(folder.path().join("flap.fus"), flap).expect("written");
        let text = out(&run(folder.path(), &["steps", "flap.fus"]));
        assert!(text.contains(title), "{word}: {text}{}", err(&run(folder.path(), &["check", "flap.fus"])));
    }
}
