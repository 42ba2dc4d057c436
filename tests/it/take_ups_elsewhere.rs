//! Darts, pleats, tucks and slits beyond their drawing: what differs, one file for all, other programs, and the editor.
//! Figures are worked out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::cutting_lines::cut_all;
use crate::wire::{Client, crew, edited, uri};
use crate::workbench::{folder_of, out, run};
use dxf::entities::EntityType;
use fustian::emit::{document, to_text};
use fustian::source::MemoryLoader;
use serde_json::{Value, json};

const SKIRT: &str = "garment \"Galley skirt\"
units cm
allowance 1
fabric cotton \"blue cotton\" { width 150; selvage 1 }
layer outer in cotton { skirt }
piece skirt \"Skirt\" {
  cut 2 mirrored
  outline rectangle 40 by 60
  mark hip_point = (30, 45)
  dart side_dart on top at 10 from right width 3 to hip_point pressed toward right trued
  pleat front_pleat on top at 8 from left depth 2 toward left
  tuck hem_tuck on left at 20 from bottom depth 0.5 toward bottom to right
  slit vent on bottom at 12 from left up 10
}
finish skirt.left, skirt.right, skirt.top, skirt.bottom, skirt.vent.near, skirt.vent.far  overlocked
steps {
  \"All\" {
    sew skirt.side_dart, skirt.hem_tuck
    baste skirt.front_pleat
    finish skirt.left, skirt.right, skirt.top, skirt.bottom, skirt.vent.near, skirt.vent.far
  }
}
";

/// What the skirt becomes: the tuck and the dart go, a dart and a pleat are let in.
const FULLER: &str = "variation \"Galley skirt, fuller\" of \"skirt.fus\"
drop tuck skirt.hem_tuck
drop dart skirt.side_dart
let pleat fuller into skirt.top at 20 from left depth 1 toward left to nothing at bottom trued
let dart new_dart into skirt.right at 12 from top angle 9\u{b0} to (28, 45) turning to top pressed down
in steps before \"All\" add \"More\" { sew skirt.new_dart; baste skirt.fuller }
";

/// A dart 3 wide becomes 4, a pleat of 2 one of 1.5 that takes 1 less, a tuck of 0.5 one of 0.4 on both of its edges, a slit of 10
/// one of 12.
#[test]
fn what_differs_is_told() {
    let other = SKIRT
        .replace("width 3 to", "width 4 to")
        .replace("depth 2 toward", "depth 1.5 toward")
        .replace("depth 0.5", "depth 0.4")
        .replace("up 10", "up 12");
    let folder = folder_of(&[("old.fus", SKIRT), ("new.fus", &other)]);
    let told = out(&run(folder.path(), &["compare", "--all", "old.fus", "new.fus"]));
    for words in [
        "side_dart width: 1 cm wider",
        "front_pleat fold 1 on top depth: 5 mm less deep",
        "front_pleat fold 1 on top width: 1 cm narrower",
        "hem_tuck fold 1 on left depth: 1 mm less deep",
        "hem_tuck fold 1 on right width: 2 mm narrower",
        "vent.near: 2 cm longer",
        "vent.far: 2 cm longer",
    ] {
        assert!(told.contains(words), "{words}: {told}");
    }
    // What did not change is not told.
    assert!(!told.contains("  left:") && !told.contains("  right:"), "{told}");
    let folder = folder_of(&[("skirt.fus", SKIRT), ("fuller.fus", FULLER)]);
    let told = out(&run(folder.path(), &["compare", "skirt.fus", "fuller.fus"]));
    for words in ["let pleat", "let dart", "side_dart", "new_dart", "hem_tuck", "fuller"] {
        assert!(told.contains(words), "{words}: {told}");
    }
}

#[test]
fn what_is_let_in_packs_into_one_file_that_says_the_same() {
    let loader = MemoryLoader::new().with("skirt.fus", SKIRT).with("fuller.fus", FULLER);
    let worked_out = |loader: &MemoryLoader, path: &str| {
        let compiled = fustian::compile(loader, path);
        assert!(!compiled.has_mistakes(), "{path}: {:#?}", compiled.diagnostics);
        to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("a document")
    };
    let one = fustian::packed(&loader, "fuller.fus");
    let again = MemoryLoader::new().with("one.fus", one.as_str());
    assert_eq!(worked_out(&loader, "fuller.fus"), worked_out(&again, "one.fus"), "{one}");
    assert!(one.contains("let pleat fuller into skirt.top") && !one.contains("hem_tuck"), "{one}");
}

/// The straight lines on a layer of the one block, each with its lower or left end first.
fn lines(bytes: &[u8], layer: &str) -> Vec<[(i64, i64); 2]> {
    let drawing = dxf::Drawing::load(&mut std::io::Cursor::new(bytes)).expect("a drawing");
    let block = drawing.blocks().find(|block| block.name == "OUTER_SKIRT").expect("the skirt");
    let mut found = Vec::new();
    for entity in block.entities.iter().filter(|entity| entity.common.layer == layer) {
        if let EntityType::Line(line) = &entity.specific {
            let at = |point: &dxf::Point| (point.x.round() as i64, point.y.round() as i64);
            let mut ends = [at(&line.p1), at(&line.p2)];
            ends.sort_unstable();
            found.push(ends);
        }
    }
    found.sort_unstable();
    found
}

/// Read back, on the layers of ASTM D6673: legs and the sewn lines of the tuck where it is sewn (14), folds and
/// placement lines inside (8), the slit where it is cut (11), the point of the dart where it is drilled (13).
#[test]
fn take_ups_are_exported() {
    // A dart 3 wide and 15 long in a straight edge kinks where it is not trued, which does not matter here.
    let text = SKIRT.replace(" trued", "");
    let compiled = fustian::compile(&MemoryLoader::new().with("skirt.fus", text), "skirt.fus");
    let bytes = fustian::emit::dxf(&compiled.garment, &cut_all(&compiled));
    let sewn = lines(&bytes, "14");
    // The dart's sides are 1.5 to each side of 10 from the right, its point on (30, 45).
    assert!(sewn.contains(&[(285, 600), (300, 450)]) && sewn.contains(&[(300, 450), (315, 600)]), "{sewn:?}");
    // The tuck takes 1 from 20 above the bottom on, right across.
    assert!(sewn.contains(&[(0, 200), (400, 200)]) && sewn.contains(&[(0, 210), (400, 210)]), "{sewn:?}");
    let inner = lines(&bytes, "8");
    // The pleat's lines, at 8 and 8 + 4 from the left.
    for at in [80, 120] {
        assert!(inner.iter().any(|[one, other]| one.0 == at && other.0 == at), "{at}: {inner:?}");
    }
    // From the cutting line, 1 below the bottom, 10 up.
    assert_eq!(lines(&bytes, "11"), [[(120, -10), (120, 100)]]);
    let drawing = dxf::Drawing::load(&mut std::io::Cursor::new(&bytes)).expect("a drawing");
    let block = drawing.blocks().find(|block| block.name == "OUTER_SKIRT").expect("the skirt");
    let drilled = block.entities.iter().filter(|entity| entity.common.layer == "13").any(|entity| {
        matches!(&entity.specific, EntityType::ModelPoint(point)
            if (point.location.x - 300.0).hypot(point.location.y - 450.0) < 0.1)
    });
    assert!(drilled, "the point of the dart");
}

fn labels(answer: &Value) -> Vec<String> {
    let items = answer.as_array().expect("a list").iter();
    items.map(|item| item["label"].as_str().expect("a label").to_owned()).collect()
}

#[test]
fn the_editor_knows_take_ups_by_place_word_and_name() {
    let folder = crew(&[("skirt.fus", SKIRT), ("fuller.fus", FULLER)]);
    let (base, fuller) = (uri(folder.path(), "skirt.fus"), uri(folder.path(), "fuller.fus"));
    let mut client = Client::ready();
    client.open(&base, SKIRT);
    client.open(&fuller, FULLER);
    let mut shown = |uri: &str, at: [u32; 2]| {
        let hover = client.ask_at("textDocument/hover", uri, at).unwrap();
        hover["contents"]["value"].as_str().unwrap_or("").to_owned()
    };
    let dart = shown(&base, [9, 8]);
    assert!(dart.starts_with("dart **side_dart**") && dart.contains("3 cm"), "{dart}");
    let pleat = shown(&base, [10, 9]);
    assert!(
        pleat.starts_with("pleat **front_pleat**") && pleat.contains("2 cm") && pleat.contains("4 cm"),
        "{pleat}"
    );
    let tuck = shown(&base, [11, 8]);
    assert!(tuck.starts_with("tuck **hem_tuck**") && tuck.contains("5 mm"), "{tuck}");
    let slit = shown(&base, [12, 8]);
    assert!(slit.starts_with("slit **vent**") && slit.contains("10 cm"), "{slit}");
    let let_in = shown(&fuller, [3, 12]);
    assert!(
        let_in.starts_with("pleat **fuller**") && let_in.contains("1 cm") && let_in.contains("2 cm"),
        "{let_in}"
    );
    assert!(shown(&fuller, [4, 12]).starts_with("dart **new_dart**"));
    // A name given anew reaches the steps.
    let renamed = client
        .ask(
            "textDocument/rename",
            json!({ "textDocument": { "uri": fuller }, "position": { "line": 3, "character": 12 }, "newName": "roomier" }),
        )
        .unwrap();
    let text = edited(FULLER, &fuller, &renamed);
    assert_eq!(text.matches("roomier").count(), 2, "{text}");
    assert!(text.contains("baste skirt.roomier") && !text.contains("skirt.fuller"), "{text}");
    // Where a step sews something of the piece, its take-ups are offered.
    let line = FULLER.lines().count() as u32;
    client.edit(&fuller, 2, [[line, 0], [line, 999]], "leave dart skirt.");
    let answer = client.ask_at("textDocument/completion", &fuller, [line, 17]).unwrap();
    let offered = labels(&answer);
    assert!(offered.contains(&"new_dart".to_owned()), "{offered:?}");
    assert_eq!(client.leave(), Some(0));
}
