//! Counts and allowances that differ from size to size: each output tells each size its own.

use crate::workbench::{folder_of, out, run, said};
use serde_json::Value;

/// A bag with one tab in S and two in M, sewn with 1 cm in S and 2 cm in M; a square metre of its lining costs 10.
const BAG: &str = r#"
garment "Mail bag"
units cm
sizes S, M
allowance each 1, 2
fabric canvas "canvas" { width 150; price 10 per m }
fabric silk "silk" { width 150 }
layer outer in canvas { front, back }
layer flags in silk { tab }
piece front "Front" { cut 1; outline rectangle 40 by 50 }
piece back "Back" { cut 1; outline rectangle 40 by 50 }
piece tab "Tab" { cut each 1, 2 loose; outline rectangle 14 by 15 }
seam side front.left to back.left
seam bottom front.bottom to back.bottom
seam other front.right to back.right
finish front.top, back.top  hem 2
finish tab.top, tab.left, tab.right, tab.bottom  overlocked
"#;

fn written(arguments: &[&str]) -> String {
    let folder = folder_of(&[("bag.fus", BAG)]);
    let output = run(folder.path(), arguments);
    assert!(output.status.success(), "{output:?}");
    out(&output)
}

fn file_of(arguments: &[&str]) -> String {
    let folder = folder_of(&[("bag.fus", BAG)]);
    let output = run(folder.path(), &[arguments, &["-o", "written"]].concat());
    assert!(output.status.success(), "{output:?}");
    let text = std::fs::read_to_string(folder.path().join("written")).expect("it is written");
    text.replace('\u{a0}', " ")
}

/// A page as text: what stands between its tags.
fn text_of(html: &str) -> String {
    let mut text = String::new();
    for part in html.split('<') {
        text.push_str(part.split_once('>').map_or(part, |(_, words)| words));
    }
    text
}

#[test]
fn the_sheet_tells_each_size_its_count_and_its_allowance() {
    let html = file_of(&["sheet", "bag.fus", "--no-lays"]);
    let text = text_of(&html);
    assert!(text.contains("S: 1; M: 2 alike"), "of all sizes both counts: {text}");
    let chosen = "<span class=\"z z0\">1</span><span class=\"z z1\">2 alike</span>";
    assert!(html.contains(chosen), "of a chosen size its own");
    // Of all seams: 1 cm in S, 2 in M, which is what is usual in each.
    let usual = html.split("<span class=\"z z1\">").skip(1).filter(|rest| rest.starts_with("2 cm")).count();
    assert!(usual >= 1, "the allowance of M is 2 cm: {text}");
    assert!(text.contains("1 to 2 cm"), "{text}");
}

#[test]
fn the_label_in_a_nest_says_what_holds_in_which_size() {
    let drawn = file_of(&["draw", "bag.fus", "--text", "--pieces", "tab"]);
    assert!(drawn.contains("S: cut 1; M: cut 2"), "{drawn}");
    let front = file_of(&["draw", "bag.fus", "--text", "--pieces", "front"]);
    assert!(front.contains("S: 1 cm") && front.contains("M: 2 cm"), "{front}");
    let one = file_of(&["draw", "bag.fus", "--text", "--pieces", "tab", "--size", "M"]);
    assert!(one.contains("cut 2") && !one.contains("M: cut 2"), "{one}");
}

#[test]
fn steps_that_are_done_more_often_in_some_sizes_say_from_and_to() {
    // Each of the tab's edges is finished once on one copy in S, on two in M.
    let table = written(&["steps", "bag.fus", "--format", "csv"]);
    let of_tabs: Vec<&str> = table.lines().filter(|line| line.contains(",tab.")).collect();
    assert_eq!(of_tabs.len(), 4, "{table}");
    assert!(of_tabs.iter().all(|line| line.contains(",1 to 2,")), "{table}");
    let json: Value =
        serde_json::from_str(&written(&["steps", "bag.fus", "--format", "json"])).expect("JSON");
    let lines = json["steps"].as_array().expect("lines").clone();
    let of = |to: &str| lines.iter().find(|line| line["to"] == to).expect("it is a line").clone();
    assert_eq!(of("tab.top")["times"], Value::Null);
    assert_eq!(of("side")["times"], 1);
}

#[test]
fn cloth_at_several_widths_has_a_cost_at_each() {
    let table = written(&["materials", "bag.fus", "--widths", "100,150"]);
    let words = table.split("Cost").nth(1).expect("there is a table of costs");
    assert!(words.contains("canvas, 100 cm wide") && words.contains("canvas, 150 cm wide"), "{table}");
    assert!(!words.contains("together"), "what lies at two widths is bought once: {table}");
    assert!(words.contains("not in the cost: silk, thread"), "{table}");
}

/// Seven pieces in no layer, each sewn to one that is: one message of all of them, and none of the seams that they miss. Only
/// six are shown; the seventh is told of all the same.
#[test]
fn of_many_pieces_in_no_layer_each_is_accounted_for() {
    for count in [6, 7, 9] {
        let names: Vec<String> = (0..count).map(|at| format!("a{at}")).collect();
        let pieces = (0..count).map(|at| {
            format!(
                "piece a{at} \"A{at}\" {{ cut 1; outline rectangle 10 by 20 }}\n\
                 piece b{at} \"B{at}\" {{ cut 1; outline rectangle 10 by 20 }}\n\
                 seam l{at} a{at}.left to b{at}.left\nseam o{at} a{at}.bottom to b{at}.bottom\n\
                 finish a{at}.top, b{at}.top, a{at}.right, b{at}.right raw\n"
            )
        });
        let text = format!(
            "garment \"Flags\"\nunits cm\nallowance 1\nfabric c \"c\" {{ width 150 }}\nlayer outer in c {{ {} }}\n{}",
            names.join(", "),
            pieces.collect::<String>()
        );
        assert_eq!(said(&text), ["piece/uncut"], "{count} pieces");
    }
}
