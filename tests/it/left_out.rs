//! A copy without some of the marks and lines of the piece that it is made of.

use crate::workbench::{in_memory, said, told, with};
use fustian::emit::{document, to_text};
use fustian::{Compiled, compile, packed};
use serde_json::Value;

/// Two halves of a crew member's pouch, alike.
const POUCH: &str = r#"garment "Pouch"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, back }
piece front "Front" {
  cut 1
  outline rectangle 20 by 24
  line middle across at (0, 12)
  mark badge = (10, 18)
  mark loop = (10, 22)
}
piece back "Back" { cut 1; outline copy of front }
seam round front.left + front.bottom + front.right to back.left + back.bottom + back.right
finish front.top, back.top  hem 2
steps { "Pouch" { sew round; hem front.top, back.top } }
"#;

fn worked_out(files: &[(&str, &str)]) -> (Compiled, Value) {
    let compiled = compile(&in_memory(files), files[0].0);
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    let written = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let written = serde_json::to_value(written).expect("figures");
    (compiled, written)
}

/// The marks and lines of front and back.
fn drawn(json: &Value) -> [String; 2] {
    let names =
        |value: &Value| value.as_object().expect("names").keys().cloned().collect::<Vec<_>>().join(" ");
    [0, 1].map(|at| {
        let piece = &json["sizes"][0]["pieces"][at];
        format!("{} | {}", names(&piece["marks"]), names(&piece["lines"]))
    })
}

fn varied(lines: &str) -> (Compiled, Value) {
    let variation = format!("variation \"Own\" of \"pouch.fus\"\n{lines}\n");
    worked_out(&[("own.fus", &variation), ("pouch.fus", POUCH)])
}

#[test]
fn what_a_copy_has_of_its_original_is_dropped_from_the_copy_alone() {
    let all = "badge loop | middle".to_owned();
    assert_eq!(drawn(&varied("").1), [all.clone(), all.clone()]);
    assert_eq!(drawn(&varied("drop mark back.badge").1), [all.clone(), "loop | middle".to_owned()]);
    let both = varied("drop mark back.badge\ndrop line back.middle").1;
    assert_eq!(drawn(&both), [all.clone(), "loop | ".to_owned()]);
    // Said in the piece it is the same.
    let said = with(POUCH, &[("outline copy of front", "outline copy of front; without badge, middle")]);
    assert_eq!(drawn(&worked_out(&[("pouch.fus", &said)]).1), drawn(&both));
    // What the original loses, the copy loses.
    assert_eq!(
        drawn(&varied("drop mark front.badge").1),
        ["loop | middle".to_owned(), "loop | middle".to_owned()]
    );
}

#[test]
fn it_is_replaced_in_the_copy_alone_and_taken_back() {
    let (_, json) = varied("replace mark back.badge = (5, 18)");
    let at = |piece: usize| json["sizes"][0]["pieces"][piece]["marks"]["badge"]["x"].as_f64();
    // 10 cm and 5 cm from the left.
    assert_eq!([at(0), at(1)], [Some(100.0), Some(50.0)]);
    let more = "variation \"More\" of \"pouch.fus\"\ndrop mark back.badge\n";
    let back = "variation \"Back\" of \"more.fus\"\ndrop without back\n";
    let text = |files: &[(&str, &str)]| {
        let (compiled, _) = worked_out(files);
        let mut written = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
        written.garment = String::new();
        to_text(&written).expect("figures")
    };
    let base = text(&[("pouch.fus", POUCH)]);
    assert_eq!(text(&[("back.fus", back), ("more.fus", more), ("pouch.fus", POUCH)]), base);
    let loader = in_memory(&[("more.fus", more), ("pouch.fus", POUCH)]);
    let whole = packed(&loader, "more.fus");
    assert!(whole.contains("without badge"), "{whole}");
    assert_eq!(text(&[("whole.fus", &whole)]), text(&[("more.fus", more), ("pouch.fus", POUCH)]));
}

#[test]
fn what_is_not_there_is_not_left_out() {
    let slip = |words: &str| {
        let text = with(POUCH, &[("outline copy of front", &format!("outline copy of front; {words}"))]);
        told(&text)
    };
    assert_eq!(
        slip("without bagde"),
        [("name/unknown", "Front has no mark or line called bagde".to_owned())]
    );
    assert_eq!(slip("without left"), [("name/unknown", "Front has no mark or line called left".to_owned())]);
    let own = with(POUCH, &[("mark loop = (10, 22)", "mark loop = (10, 22)\n  without badge")]);
    assert_eq!(said(&own), ["name/unknown"]);
    let twice = "variation \"Own\" of \"pouch.fus\"\ndrop mark back.badge\ndrop mark back.badge\n";
    let twice = compile(&in_memory(&[("own.fus", twice), ("pouch.fus", POUCH)]), "own.fus");
    assert_eq!(twice.diagnostics.len(), 1, "{:#?}", twice.diagnostics);
}
