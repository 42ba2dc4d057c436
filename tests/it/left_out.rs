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
        [("name/unknown", "Front has no mark, line, dart, pleat or slit called bagde".to_owned())]
    );
    assert_eq!(
        slip("without left"),
        [("name/unknown", "left is an edge of Front, which a copy keeps".to_owned())]
    );
    let own = with(POUCH, &[("mark loop = (10, 22)", "mark loop = (10, 22)\n  without badge")]);
    assert_eq!(said(&own), ["name/unknown"]);
    let twice = "variation \"Own\" of \"pouch.fus\"\ndrop mark back.badge\ndrop mark back.badge\n";
    let twice = compile(&in_memory(&[("own.fus", twice), ("pouch.fus", POUCH)]), "own.fus");
    assert_eq!(twice.diagnostics.len(), 1, "{:#?}", twice.diagnostics);
}

/// A shell with a welt slit, a slit in its edge, a dart in its middle, one in its edge and a pleat; and its lining.
const SHELL: &str = r#"garment "Pouch"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { shell }
layer inside in drill { lining }
piece shell "Shell" {
  cut 1
  outline rectangle 30 by 40
  slit hole from (6, 20) to (20, 20) window 2
  slit vent on bottom at 6 from left up 10 window 1
  dart shape at (15, 30) width 1.5 up 5 down 5 pressed left
  dart waist on top at 8 from left width 0.4 to (8, 30) pressed left
  pleat fold on top at 8 from right depth 1 toward right
}
piece lining "Lining" { cut 1 loose; outline copy of shell; without hole, vent, shape, waist, fold }
finish shell.hole.near, shell.hole.far, shell.hole.start, shell.hole.end  bound 1
finish shell.vent.near, shell.vent.far, shell.vent.end  bound 1
finish shell.top, shell.bottom, shell.left, shell.right  overlocked
finish lining.top, lining.bottom, lining.left, lining.right  overlocked
measure shell_top "Shell, top" = total(outer.shell.top)
measure lining_top "Lining, top" = total(inside.lining.top)
measure lining_hem "Lining, hem" = total(inside.lining.bottom)
measure shell_hem "Shell, hem" = total(outer.shell.bottom)
"#;

#[test]
fn darts_pleats_and_slits_of_the_shell_alone() {
    assert_eq!(told(SHELL), []);
    let json = worked_out(&[("own.fus", SHELL)]).1;
    let pieces = &json["sizes"][0]["pieces"];
    let taken = |at: usize| pieces[at]["take_ups"].as_array().map_or(0, Vec::len);
    let slits = |at: usize| pieces[at]["slits"].as_array().map_or(0, Vec::len);
    assert_eq!((taken(0), slits(0), taken(1), slits(1)), (3, 2, 0, 0));
    // Of 30 the dart takes 0.4 and the pleat 2, and of the hem the window 1; the lining keeps all of it.
    let measure = |name: &str| json["sizes"][0]["measures"][name]["value"].as_f64().expect("it is measured");
    assert_eq!(
        ["shell_top", "lining_top", "shell_hem", "lining_hem"].map(measure),
        [276.0, 300.0, 290.0, 300.0]
    );
    // Their names are free, and nothing answers to them any more.
    let named = with(SHELL, &[("finish lining.top,", "finish lining.hole.near, lining.top,")]);
    assert_eq!(said(&named), ["name/unknown"]);
    let again = with(SHELL, &[("without hole,", "slit hole on right at 9 from top left 4; without hole,")]);
    assert_eq!(said(&again), ["slit/unfinished"]);
}

#[test]
fn an_edge_that_was_drawn_for_a_dart_to_be_shut_needs_it() {
    // 3 wide and 10 long it turns the edge by 2 · atan(1.5 / 10) = 17°, half of it at each side.
    let trued = "dart waist on top at 8 from left width 3 to (8, 30) pressed left trued";
    let old = "dart waist on top at 8 from left width 0.4 to (8, 30) pressed left";
    let text = with(SHELL, &[(old, trued)]);
    let told = told(&text);
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0], ("piece/like", "without waist an edge of Shell turns by 9°".to_owned()));
    // Kept in the copy it is sound.
    assert_eq!(said(&with(&text, &[("shape, waist, fold", "shape, fold")])), [] as [&str; 0]);
}

#[test]
fn a_variation_drops_what_a_copy_has_of_its_original() {
    let kept = with(SHELL, &[("; without hole, vent, shape, waist, fold", "")]);
    let kept = with(
        &kept,
        &[(
            "finish lining.top",
            "finish lining.hole.near, lining.hole.far, lining.hole.start, lining.hole.end, lining.vent.near, lining.vent.far, lining.vent.end bound 1\nfinish lining.top",
        )],
    );
    let all = "variation \"Own\" of \"base.fus\"\ndrop slit lining.hole\ndrop slit lining.vent\n\
               drop dart lining.shape\ndrop dart lining.waist\ndrop pleat lining.fold\n\
               drop finish lining.hole.near\ndrop finish lining.hole.far\ndrop finish lining.hole.start\ndrop finish lining.hole.end\n\
               drop finish lining.vent.near\ndrop finish lining.vent.far\ndrop finish lining.vent.end\n";
    let files = [("own.fus", all), ("base.fus", &*kept)];
    let (_, json) = worked_out(&files);
    let lining = &json["sizes"][0]["pieces"][1];
    assert!(lining["take_ups"].as_array().is_none_or(Vec::is_empty), "{lining:#}");
    let whole = packed(&in_memory(&files), "own.fus");
    assert!(whole.contains("without hole, vent, shape, waist, fold"), "{whole}");
}

#[test]
fn a_strip_has_none_of_them_anyhow() {
    let strip = with(
        SHELL,
        &[(
            "copy of shell; without hole, vent, shape, waist, fold",
            "strip of shell along right width 4; without hole",
        )],
    );
    let found = told(&strip);
    assert!(
        found.contains(&("name/unknown", "a strip of Shell has none of its darts and slits".to_owned())),
        "{found:?}"
    );
}
