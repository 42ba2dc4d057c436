//! Darts, pleats, tucks, slits, plackets, straps, tacks, rows, sets, rings and what is fused to one layer, in an editor: what
//! is offered where each is written, what is shown of a name, and how it is renamed.

use crate::wire::{Client, crew, edited, uri};
use serde_json::{Value, json};

/// A hat's worth of everything that is declared by a word of its own.
const TEXT: &str = "garment \"Deck sleeves\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nfabric stay \"fusible\" { width 90 }\n\
    layer outer in drill { sleeve, panel, cuff }\nlayer inner in drill { panel }\nlayer firm in stay fused to inner { panel }\n\
    piece sleeve \"Sleeve\" {\n  cut 2 mirrored\n  outline rectangle 40 by 50\n  mark badge = (12, 30)\n  line crease from (6, 14) to (6, 28)\n\
    \x20 dart elbow on left at 20 from bottom width 1 to (8, 20) pressed down trued\n\
    \x20 pleat wrist_pleats on bottom at 8 from right depth 1 count 2 apart 2.5 toward right\n\
    \x20 tuck pins on right at 38 from bottom depth 0.5 toward bottom to left\n\
    \x20 slit wrist_slit on bottom at 8 from left up 10\n}\n\
    piece panel \"Panel\" { cut 6; outline rectangle 12 by 20 }\n\
    piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 36.5 by 12 }\n\
    placket lap on sleeve.wrist_slit bound 1\n\
    seam round panel.right to panel.left in a ring\n\
    finish panel.bottom in a ring bound 1\n\
    strap tie 40 by 2 in outer folded in four { from sleeve.badge to free }\n\
    topstitch crease_row along sleeve.crease\n\
    tack hold sleeve.badge bar 1\n\
    notion \"eyelet 5 mm\"\n\
    set eyelets \"eyelet 5 mm\" at sleeve.badge\n\
    steps {\n  \"Sleeves\" { sew sleeve.elbow, sleeve.pins; baste sleeve.wrist_pleats; set eyelets; tack hold; topstitch crease_row; place tie; sew lap }\n\
    \x20 \"Hat\" { sew round }\n}\n";

const MORE: &str = "variation \"More\" of \"sleeves.fus\"\n";

fn labels(answer: &Value) -> Vec<String> {
    let items = answer.as_array().or_else(|| answer["items"].as_array()).expect("a list");
    items.iter().map(|item| item["label"].as_str().expect("a label").to_owned()).collect()
}

#[test]
fn what_fits_each_form_is_offered() {
    let folder = crew(&[("sleeves.fus", TEXT)]);
    let uri = uri(folder.path(), "more.fus");
    let mut client = Client::ready();
    client.open(&uri, MORE);
    let (mut version, line) = (1, MORE.lines().count() as u32);
    let mut offered = |written: &str| {
        version += 1;
        client.edit(&uri, version, [[line, 0], [line, 999]], written);
        let answer = client.ask_at("textDocument/completion", &uri, [line, written.chars().count() as u32]);
        labels(&answer.expect("an answer"))
    };
    // What is written, what must be among what is offered, and what must not.
    for (written, among, not) in [
        ("in piece sleeve add { dart more on ", "bottom", "badge"),
        ("in piece sleeve add { dart more on left at 3 from bottom width 1 to ", "badge", "bottom"),
        (
            "in piece sleeve add { dart more on left at 3 from bottom width 1 to badge pressed toward ",
            "left",
            "outer",
        ),
        ("in piece sleeve add { pleat more on bottom at 3 from ", "wrist_pleats", "outer"),
        ("in piece sleeve add { pleat more on bottom at 3 from left depth 1 toward ", "right", "outer"),
        ("in piece sleeve add { tuck more on right at 3 from bottom depth 0.5 to ", "left", "badge"),
        ("in piece sleeve add { slit more on ", "bottom", "badge"),
        ("placket more on sleeve.", "wrist_slit", "badge"),
        ("strap more 40 by 2 in ", "outer", "sleeve"),
        ("strap more 40 by 2 in outer { from sleeve.", "badge", "outer"),
        ("tack more sleeve.", "badge", "outer"),
        ("tack more sleeve.badge to sleeve.", "bottom", "outer"),
        ("topstitch more along sleeve.", "crease", "badge"),
        ("set more \"eyelet 5 mm\" at sleeve.", "badge", "outer"),
        ("seam more panel.right to panel.left in a ", "ring", "panel"),
        ("finish panel.top in a ", "ring", "panel"),
        ("layer more in stay fused to ", "inner", "sleeve"),
        ("in steps after \"Hat\" add \"More\" { sew sleeve.", "elbow", "badge"),
        ("in steps after \"Hat\" add \"More\" { tack ", "hold", "round"),
        ("in steps after \"Hat\" add \"More\" { set ", "eyelets", "round"),
        ("in steps after \"Hat\" add \"More\" { topstitch ", "crease_row", "round"),
        ("drop dart sleeve.", "elbow", "badge"),
        ("drop tuck sleeve.", "pins", "badge"),
        ("drop set ", "eyelets", "round"),
        ("drop tack ", "hold", "round"),
        ("drop topstitch ", "crease_row", "round"),
        ("drop strap ", "tie", "round"),
        ("in piece panel add { outline copy of sleeve ", "mirrored", "along"),
        ("seam more panel.top to panel.bottom { ", "tape", "zipper"),
    ] {
        let found = offered(written);
        assert!(found.iter().any(|label| label == among), "{written:?} wants {among}: {found:?}");
        assert!(!found.iter().any(|label| label == not), "{written:?} without {not}: {found:?}");
    }
    assert_eq!(client.leave(), Some(0));
}

/// Where each is declared, what is shown of it, and how often its name stands.
#[test]
fn each_is_shown_and_renamed_wherever_it_stands() {
    let folder = crew(&[("sleeves.fus", TEXT)]);
    let base = uri(folder.path(), "sleeves.fus");
    let mut client = Client::ready();
    client.open(&base, TEXT);
    let slugs = |text: &str| -> Vec<&'static str> {
        let loader = fustian::source::MemoryLoader::new().with("sleeves.fus", text);
        fustian::compile(&loader, "sleeves.fus").diagnostics.iter().map(|one| one.slug()).collect()
    };
    let lines: Vec<&str> = TEXT.split('\n').collect();
    for (declared, name, shown) in [
        ("dart elbow", "elbow", "dart"),
        ("pleat wrist_pleats", "wrist_pleats", "pleat"),
        ("tuck pins", "pins", "tuck"),
        ("slit wrist_slit", "wrist_slit", "slit"),
        ("placket lap", "lap", "seam **lap**"),
        ("strap tie", "tie", "piece **tie**"),
        ("tack hold", "hold", "a bar"),
        ("set eyelets", "eyelets", "eyelet 5 mm at 1 place"),
        ("topstitch crease_row", "crease_row", "topstitching"),
        ("seam round", "round", "panel.right to panel.left"),
        ("layer inner", "inner", "layer **inner** in drill"),
    ] {
        let line = lines.iter().position(|line| line.contains(declared)).expect("it is declared");
        let from = lines[line].find(declared).unwrap_or(0) + declared.find(name).unwrap_or(0);
        let at = [line as u32, from as u32 + 1];
        let hover = client.ask_at("textDocument/hover", &base, at).expect("an answer");
        let says = hover["contents"]["value"].as_str().unwrap_or("");
        assert!(says.contains(name) && says.contains(shown), "{declared}: {says}");
        let edit = client.ask(
            "textDocument/rename",
            json!({ "textDocument": { "uri": &base }, "position": { "line": at[0], "character": at[1] }, "newName": "renamed" }),
        );
        let new = edited(TEXT, &base, &edit.expect("it is renamed"));
        let word = |text: &str, name: &str| {
            let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
            text.split(|letter: char| !is_part(letter)).filter(|word| *word == name).count()
        };
        assert_eq!(word(&new, "renamed"), word(TEXT, name), "{name}: {new}");
        assert_eq!(slugs(&new), slugs(TEXT), "{name}");
    }
    assert_eq!(client.leave(), Some(0));
}

/// An apron whose top is faced for 30, of which one of two ties is fused and whose band laps with a hook.
const FACED: &str = "garment \"Chart apron\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nfabric stay \"fusible\" { width 90 }\n\
layer outer in drill { apron, tie }\nlayer firm in stay fused 1 of 2 { tie }\n\
piece apron \"Apron\" { cut 1; outline rectangle 70 by 60; mark pen = (30, 60) }\n\
piece tie \"Tie\" { cut 2 loose; outline rectangle 40 by 5 }\n\
facing mouth \"Mouth\" in outer 5 wide behind apron.top 30 from pen\n\
finish mouth_apron.top_near, mouth_apron.top_far  hem 1\n\
finish apron.top, apron.left, apron.right, apron.bottom  hem 2\n\
finish outer.tie.left, outer.tie.right, outer.tie.top, outer.tie.bottom  hem 1\n";

#[test]
fn runs_that_are_faced_and_shares_that_are_fused_are_known() {
    let folder = crew(&[("apron.fus", FACED), ("more.fus", "variation \"More\" of \"apron.fus\"\n")]);
    let (base, more) = (uri(folder.path(), "apron.fus"), uri(folder.path(), "more.fus"));
    let mut client = Client::ready();
    client.open(&base, FACED);
    client.open(&more, "variation \"More\" of \"apron.fus\"\n");
    let place = |line: &str, word: &str| -> [u32; 2] {
        let at = FACED.lines().position(|own| own.starts_with(line)).expect("a line");
        let column = FACED.lines().nth(at).and_then(|own| own.find(word)).expect("a word");
        [at as u32, column as u32 + 1]
    };
    // A mark that a run is counted from is named anew wherever it stands.
    let rename = |client: &mut Client, [line, character]: [u32; 2], name: &str| {
        let position = json!({ "line": line, "character": character });
        let params = json!({ "textDocument": { "uri": base }, "position": position, "newName": name });
        edited(FACED, &base, &client.ask("textDocument/rename", params).expect("may be renamed"))
    };
    let text = rename(&mut client, place("piece apron", "pen"), "pencil");
    assert!(text.contains("mark pencil =") && text.contains("30 from pencil"), "{text}");
    // What a strip ends with is called after the facing.
    let text = rename(&mut client, place("facing mouth", "mouth"), "opening_facing");
    assert!(text.contains("finish opening_facing_apron.top_near, opening_facing_apron.top_far"), "{text}");
    let hover = client.ask_at("textDocument/hover", &base, place("layer firm", "firm")).expect("words");
    let shown = hover["contents"]["value"].as_str().expect("text").to_owned();
    assert!(shown.contains("fused 1 of 2"), "{shown}");
    // Behind a facing's edge places are offered, and edges inside a strip's words.
    let mut version = 1;
    let mut offered = |client: &mut Client, written: &str| {
        version += 1;
        client.edit(&more, version, [[1, 0], [1, 999]], written);
        let answer = client.ask_at("textDocument/completion", &more, [1, written.chars().count() as u32]);
        labels(&answer.expect("an answer"))
    };
    for (written, among) in [
        ("facing other in outer 4 wide behind apron.left 10 from ", "top_left"),
        ("piece stay \"Stay\" { outline strip of apron along ", "top"),
        ("piece stay \"Stay\" { outline strip of apron along top 10 from ", "top_left"),
        ("finish mouth_apron.", "top_far"),
        ("layer firmer in stay fused 1 of 2 to ", "outer"),
    ] {
        let found = offered(&mut client, written);
        assert!(found.iter().any(|label| label == among), "{written}: {found:?}");
    }
    assert_eq!(client.leave(), Some(0));
}
