//! What a maker says for people: who drew it, which edition it is, and what edges, lines, marks and seams are called.

use crate::cutting_lines::cut_all;
use crate::wire::{Client, crew, uri};
use crate::workbench::{err, folder_of, in_memory, out, run, told as all_told, with};
use fustian::emit::drawing::{Look, What, sheet};
use fustian::emit::{document, steps_table};
use fustian::{Compiled, compile, packed};
use serde_json::Value;

/// A smock's body of the deck crew, drawn flat, under labels.
const BODY: &str = r#"garment "Deck vest"
maker "Ferry workshop"
edition 3
licence "free to sew from"
level easy
units cm
allowance 1
sizes S, M
body { chest 88, 96 "over the fullest part" }
fabric drill "cotton drill" { width 150 }
layer outer in drill { front, back }
piece front "Front" {
  cut 1 on fold centre
  point neck  = (0, 0)
  point tip   = (20, 0)
  point side_up = (chest/4 + 2, -20)
  point hem_side = (chest/4 + 2, -60)
  point hem_cf = (0, -60)
  outline from hem_cf {
    centre                 to neck
    neckline "Upper edge"  to tip
    armhole                to side_up  curve leaving square to neckline
    side     "Side edge"   to hem_side
    hem                    to hem_cf
  }
  line waist "Waist line" across at (0, -40) adjust
  mark badge "Where the badge goes" = (8, -20)
}
piece back "Back" { outline copy of front; cut 1 on fold centre }
seam side "Side seam" front.side to back.side
seam shoulder front.neckline to back.neckline
finish front.armhole, back.armhole  overlocked
finish front.hem, back.hem  hem 3
opening front.armhole  passes chest
steps { "Body" { sew side, shoulder; finish front.armhole, back.armhole; hem front.hem, back.hem } }
"#;

fn body() -> String {
    // What the arm goes through is of no matter here.
    with(BODY, &[("opening front.armhole  passes chest\n", "")])
}

/// What is told but for the armholes, which are of no matter here.
fn told(text: &str) -> Vec<(&'static str, String)> {
    all_told(text).into_iter().filter(|(slug, _)| *slug != "seam/kink").collect()
}

fn said(text: &str) -> Vec<&'static str> {
    told(text).into_iter().map(|(slug, _)| slug).collect()
}

fn worked_out(files: &[(&str, &str)]) -> (Compiled, Value) {
    let compiled = compile(&in_memory(files), files[0].0);
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    let written = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let written = serde_json::to_value(written).expect("figures");
    (compiled, written)
}

fn words_drawn(compiled: &Compiled) -> Vec<String> {
    let shapes = sheet(&compiled.garment, &cut_all(compiled), &Look::drawing()).shapes;
    let words = shapes.into_iter().filter_map(|shape| match shape.what {
        What::Words(words) => Some(words.text.to_string()),
        _ => None,
    });
    words.collect()
}

#[test]
fn who_drew_it_stands_in_the_json_and_under_the_title() {
    let (compiled, json) = worked_out(&[("vest.fus", &body())]);
    assert_eq!(
        [&json["maker"], &json["edition"], &json["licence"], &json["level"]],
        ["Ferry workshop".into(), 3.into(), "free to sew from".into(), Value::from("easy")].each_ref()
    );
    assert_eq!(json["body_notes"]["chest"], "over the fullest part");
    assert_eq!(json["fabrics"]["drill"], "cotton drill");
    let line = "by Ferry workshop, edition 3, easy to sew, licence: free to sew from";
    assert!(words_drawn(&compiled).iter().any(|words| words == line), "{:?}", words_drawn(&compiled));
}

#[test]
fn a_variation_has_its_bases_or_its_own_and_takes_back() {
    let base = body();
    let said_by = |variation: &str, hood: &str| {
        let files = [("own.fus", variation), ("vest.fus", base.as_str()), ("hood.fus", hood)];
        let (_, json) = worked_out(&files);
        ["maker", "edition", "licence", "level"].map(|key| json[key].to_string())
    };
    let of_base = ["\"Ferry workshop\"", "3", "\"free to sew from\"", "\"easy\""].map(str::to_owned);
    let heading = "variation \"Own\" of \"vest.fus\"";
    let hood = "variation \"Marked\" of \"vest.fus\"\nmaker \"The second mate\"\nedition 9\nlevel hard\n";
    assert_eq!(said_by(heading, hood), of_base);
    // What is combined says its own of itself.
    assert_eq!(said_by(&format!("{heading} with \"hood.fus\""), hood), of_base);
    let own = said_by(&format!("{heading}\nmaker \"The mate\"\nreplace edition 4\ndrop level\n"), hood);
    assert_eq!(own, ["\"The mate\"", "4", "\"free to sew from\"", "null"].map(str::to_owned));
    // A variation of a variation that says its own has that one's.
    let (_, json) = worked_out(&[
        ("own.fus", "variation \"Own\" of \"hood.fus\""),
        ("hood.fus", hood),
        ("vest.fus", &base),
    ]);
    assert_eq!([&json["maker"], &json["edition"]], [&Value::from("The second mate"), &9.into()]);
    let pack = packed(&in_memory(&[("own.fus", hood), ("vest.fus", &base)]), "own.fus");
    for words in ["maker \"The second mate\"", "edition 9", "licence \"free to sew from\"", "level hard"] {
        assert!(pack.contains(words), "{pack}");
    }
}

#[test]
fn what_cannot_be_an_edition_or_is_said_twice() {
    let base = body();
    let slug = |old: &str, new: &str| said(&with(&base, &[(old, new)]));
    assert_eq!(slug("edition 3", "edition 0"), ["syntax/expected"]);
    assert_eq!(slug("edition 3", "edition 2.1"), ["syntax/expected"]);
    assert_eq!(slug("edition 3", "edition 99999999999"), ["syntax/expected"]);
    assert_eq!(slug("edition 3", "edition three"), ["syntax/expected"]);
    assert_eq!(slug("level easy", "level simple"), ["syntax/expected"]);
    assert_eq!(slug("level easy", "level easy\nlevel hard"), ["name/declared-twice"]);
    assert_eq!(slug("maker \"Ferry workshop\"", "maker Ferry"), ["syntax/expected"]);
    for (old, new) in [
        ("maker \"Ferry workshop\"", "maker \"\""),
        ("\"Side seam\"", "\" \""),
        ("\"Waist line\"", "\"\""),
        ("\"Upper edge\"", "\"\""),
        ("\"Where the badge goes\"", "\"\""),
        ("garment \"Deck vest\"", "garment \"\""),
        ("piece front \"Front\"", "piece front \"\""),
    ] {
        let told = said(&with(&base, &[(old, new)]));
        assert_eq!(told.iter().filter(|slug| **slug == "text/empty").count(), 1, "{new}: {told:?}");
    }
    assert_eq!(said(&base), [""; 0]);
}

#[test]
fn labels_stand_in_the_json_also_of_copies() {
    let (_, json) = worked_out(&[("vest.fus", &body())]);
    let pieces = json["sizes"][0]["pieces"].as_array().expect("pieces");
    for piece in pieces {
        let label = |edge: &str| {
            let edges = piece["edges"].as_array().expect("edges");
            edges.iter().find(|one| one["name"] == edge).expect("the edge")["label"].clone()
        };
        assert_eq!([label("side"), label("hem")], ["Side edge".into(), Value::Null], "{}", piece["part"]);
        assert_eq!(piece["labels"]["waist"], "Waist line");
        assert_eq!(piece["labels"]["badge"], "Where the badge goes");
        assert_eq!(piece["adjust"], serde_json::json!(["waist"]));
    }
    assert_eq!(pieces.len(), 2);
    let seams = json["sizes"][0]["seams"].as_array().expect("seams");
    assert_eq!([&seams[0]["label"], &seams[1]["label"]], [&Value::from("Side seam"), &Value::Null]);
}

#[test]
fn lines_to_adjust_at_are_drawn_twice_and_say_so() {
    let (compiled, _) = worked_out(&[("vest.fus", &body())]);
    let words = words_drawn(&compiled);
    let says = |own: &str| words.iter().any(|words| words.starts_with(own));
    assert!(says("Waist line: lengthen or shorten here"), "{words:?}");
    assert!(says("Where the badge goes"), "{words:?}");
    let strokes = |text: &str| {
        let (compiled, _) = worked_out(&[("vest.fus", text)]);
        sheet(&compiled.garment, &cut_all(&compiled), &Look::drawing()).shapes.len()
    };
    let plain = with(&body(), &[(" adjust", "")]);
    // One stroke more a size and a piece: two of each.
    assert_eq!(strokes(&body()), strokes(&plain) + 4);
    // Along the grain nothing is lengthened.
    let along = with(&body(), &[("across at (0, -40) adjust", "along at (5, -40) adjust")]);
    let all = told(&along);
    let [(slug, title)] = all.as_slice() else { panic!("not one: {all:?}") };
    assert_eq!(*slug, "alter/along-grain");
    assert!(
        title.starts_with(
            "the grain of Front runs along Waist line (waist), so there is no way to lengthen or shorten it there"
        ),
        "{title}"
    );
}

#[test]
fn messages_and_steps_show_labels_beside_names() {
    let longer = with(&body(), &[("piece back", "lengthen front at waist by 3\npiece back")]);
    // Lengthened before the copy is made, both are; the back alone is not.
    let one =
        longer.replace("outline copy of front;", "outline copy of front; move point hem_side by (0, 2);");
    let (slug, title) = told(&one).into_iter().find(|(slug, _)| *slug == "seam/unequal").expect("unequal");
    assert_eq!(slug, "seam/unequal");
    assert!(title.contains("Side seam (side)"), "{title}");
    let (compiled, _) = worked_out(&[("vest.fus", &body())]);
    let steps = steps_table(&compiled.garment, &compiled.sizes, fustian::emit::Form::Text).expect("text");
    assert!(steps.contains("side (Side seam)") && !steps.contains("shoulder ("), "{steps}");
    // A label that reads as the name does is not repeated.
    let same = told(&with(&one, &[("\"Side seam\"", "\"side\"")]));
    assert!(same.iter().all(|(_, title)| !title.contains("(side)")), "{same:?}");
}

#[test]
fn compare_tells_another_edition() {
    let newer = with(&body(), &[("edition 3", "edition 4"), ("level easy\n", "")]);
    let folder = folder_of(&[("old.fus", &body()), ("new.fus", &newer)]);
    let output = run(folder.path(), &["compare", "old.fus", "new.fus"]);
    assert!(output.status.success(), "{}", err(&output));
    let text = out(&output);
    assert!(text.contains("2 changes\n  edition 4 instead of 3\n  gone: level easy\n"), "{text}");
    let text = out(&run(folder.path(), &["compare", "old.fus", "new.fus", "--all"]));
    assert!(text.contains("changed: edition\n    said: 4 instead of 3"), "{text}");
    assert!(text.contains("gone: level\n") && !text.contains("maker"), "{text}");
}

#[test]
fn the_editor_shows_labels_and_renames_beside_them() {
    let text = body();
    let folder = crew(&[("vest.fus", &text)]);
    let uri = uri(folder.path(), "vest.fus");
    let mut client = Client::ready();
    client.open(&uri, &text);
    client.told_of(&uri, 1);
    let place = |word: &str| {
        let at = text.find(word).expect("the word");
        let line = text[..at].matches('\n').count();
        let column = at - text[..at].rfind('\n').map_or(0, |end| end + 1);
        [line as u32, column as u32]
    };
    let hover = client.ask_at("textDocument/hover", &uri, place("waist \"Waist")).expect("a hover");
    let shown = hover["contents"]["value"].as_str().expect("words");
    assert!(shown.starts_with("line **waist** \"Waist line\" of Front"), "{shown}");
    assert!(shown.contains("to lengthen or shorten at"), "{shown}");
    let hover = client.ask_at("textDocument/hover", &uri, place("side \"Side seam")).expect("a hover");
    assert!(hover["contents"]["value"].as_str().expect("words").starts_with("seam **side** \"Side seam\""));
    assert_eq!(client.leave(), Some(0));
}
