//! All that is wrong with drawings is told in one run, and drawn where a picture is asked for; what is noticed of hems,
//! units and dates is said.

use crate::brought::{brought, brought_with, compiled, draft, in_mm, length};
use crate::reading_dxf::{block, drawing, insert, square};
use crate::workbench::{err, folder_of, run};
use fustian::bring::{BringOptions, ReadOptions, TextUnit, bring};

#[test]
fn several_mistakes_are_told_at_once() {
    let drawn = in_mm(
        "<path id='front' d='M0 0 H300 V500 H0'/>\n<path id='back' d='M400 0 H700 V500 H400 V9'/>\n\
         <path id='cuff' d='M0 600 H9 VNaN Z'/>\n<path id='flag' d='M800 0 L1100 500 H800 L1000 0 Z'/>\n\
         <rect id='bib' x='1200' width='200' height='100'/>",
    );
    let files = [
        ("smock.svg", drawn.as_bytes()),
        ("other.svg", b"<html/>"),
        ("trim.csv", b"piece,x,y\nbib,a,0\nbib,0,b\n"),
    ];
    let why = bring(&files, &BringOptions::default()).unwrap_err().to_string();
    for words in [
        "front goes round like an outline, but does not close: its ends are 500.0 mm apart",
        "back goes round like an outline, but does not close: its ends are 9.0 mm apart",
        "smock.svg:3: the data of the path that begins here are damaged",
        "the outline of flag crosses itself",
        "other.svg: it is XML, but no SVG drawing",
        "trim.csv:2: x is “a”, which is no number",
        "trim.csv:3: y is “b”, which is no number",
    ] {
        assert_eq!(why.matches(words).count(), 1, "{words}\n{why}");
    }
    assert_eq!(why.lines().count(), 7, "{why}");
}

#[test]
fn open_boundaries_of_a_plotters_file_are_all_told() {
    let open = |name: &str, side: f64| block(name, &square("1", 0.0, 0.0, side).replace("|70 1|", "|70 0|"));
    let blocks = open("FRONT", 100.0) + &open("BACK", 80.0) + &block("CUFF", &square("1", 0.0, 0.0, 60.0));
    let text = drawing("", &blocks, &["FRONT", "BACK", "CUFF"].map(insert).concat());
    let why = brought_with("smock.dxf", &text, &BringOptions::default()).unwrap_err().to_string();
    assert!(why.contains("block FRONT is open") && why.contains("lie 100.0 mm apart"), "{why}");
    assert!(why.contains("block BACK is open") && why.contains("lie 80.0 mm apart"), "{why}");
    assert_eq!(why.lines().count(), 2, "{why}");
}

#[test]
fn what_does_not_close_is_drawn() {
    let drawn =
        in_mm("<path id='front' d='M0 0 H300 V500 H0'/><rect id='bib' x='900' width='99' height='99'/>");
    let folder = folder_of(&[("front.svg", &drawn)]);
    let refused = run(folder.path(), &["bring", "front.svg", "-o", "new.fus", "--look", "look.svg"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(
        err(&refused).contains("look.svg shows what was found, and nothing was written"),
        "{}",
        err(&refused)
    );
    let look = std::fs::read_to_string(folder.path().join("look.svg")).unwrap();
    assert!(look.contains("does not close") && look.contains("bib"), "{look}");
    assert!(!folder.path().join("new.fus").exists());
}

/// A hem of 4 cm at the lower edge of a bib; a fold in the middle of a band is none, nor is a line that stops half way.
#[test]
fn a_line_along_an_edge_is_told_as_a_hems_fold() {
    let drawn = "<rect id='bib' width='300' height='400'/><path d='M5 360 H295'/>\
        <rect id='band' x='400' width='60' height='400'/><path d='M430 0 V400'/>\
        <rect id='flap' x='600' width='300' height='400'/><path d='M605 360 H700'/>";
    let own = brought("bib.svg", &in_mm(drawn));
    let told: Vec<&String> = own.remarks.iter().filter(|words| words.contains("hem")).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("bib: line runs 4 cm inside e1, all along it"), "{told:?}");
    let edge = own.text.lines().find(|line| line.contains("a line 4 inside all along it: a hem's fold?"));
    assert!(edge.is_some_and(|line| line.contains("bottom, straight, 30")), "{}", own.text);
    // Where the outline is where the cloth is cut, the words that are offered make a hem that is so deep.
    let options = BringOptions { allowance: Some(10.0), ..BringOptions::default() };
    let held = brought_with("bib.svg", &in_mm(drawn), &options).unwrap();
    let told = held.remarks.iter().find_map(|words| words.split("say ").nth(1)).unwrap();
    assert_eq!(told, "finish bib.e1  hem 4");
    let garment = compiled(&format!("{}\n{told}\nfinish bib.e2, bib.e3, bib.e4 raw\n", held.text));
    let mistakes: Vec<&str> = garment
        .diagnostics
        .iter()
        .filter(|one| one.severity() == fustian::Severity::Mistake && one.slug() != "piece/unsewn")
        .map(|one| one.slug())
        .collect();
    assert!(mistakes.is_empty(), "{mistakes:?}\n{}", held.text);
}

#[test]
fn points_are_measured_as_the_table_or_the_maker_says() {
    let table = |x: &str, y: &str| format!("piece,{x},{y}\nbib,0,0\nbib,30,0\nbib,30,20\nbib,0,20\n");
    let read_as = |table: &str, unit: Option<TextUnit>| {
        let read = ReadOptions { points_in: unit, ..ReadOptions::default() };
        let own =
            brought_with("bib.csv", table, &BringOptions { unit, read, ..BringOptions::default() }).unwrap();
        let compiled = draft(&own.text);
        (length(&compiled, 0, "bib", "e1"), own)
    };
    for (x, y, unit, expected) in [
        ("x", "y", None, 30.0),
        ("x", "y", Some(TextUnit::Centimetres), 300.0),
        ("x", "y", Some(TextUnit::Inches), 762.0),
        ("x cm", "y cm", None, 300.0),
        ("X_MM", "Y_MM", Some(TextUnit::Inches), 30.0),
        ("x (in)", "y (in)", None, 762.0),
    ] {
        let (long, own) = read_as(&table(x, y), unit);
        assert!((long - expected).abs() < 0.02, "{x} {unit:?}: {long}");
        let told = own.remarks.iter().any(|words| words.contains("as `units` says"));
        assert_eq!(told, x == "x" && unit.is_some(), "{:?}", own.remarks);
    }
    let (_, own) = read_as(&table("x (in)", "y (in)"), None);
    assert!(own.text.contains("units in"), "{}", own.text);
    let why = brought_with("bib.csv", &table("x cm", "y"), &BringOptions::default()).unwrap_err();
    assert!(why.to_string().contains("bib.csv:1: x and y are in two units"), "{why}");
}

/// The texts of a style that ASTM D6673 names.
#[test]
fn the_day_of_the_drawing_is_kept() {
    let words = |text: &str| crate::reading_dxf::words("1", 0.0, -50.0, text);
    let style = words("Creation Date: 24-11-2026") + &words("Creation Time: 09:30");
    let text = drawing("", &block("FRONT", &square("1", 0.0, 0.0, 100.0)), &(insert("FRONT") + &style));
    let own = brought("smock.dxf", &text);
    assert!(own.text.contains("\n# The drawing is of 24-11-2026, 09:30.\n"), "{}", own.text);
}

/// Front and back of which nothing is sewn: shoulders of 13 cm are told as ready seams, once; hems that differ are not.
#[test]
fn check_offers_what_is_likely_sewn() {
    let drawn = "<path id='front' d='M0 400 H220 V100 L100 50 L0 80 Z'/><path id='back' d='M500 400 H735 V70 L615 20 L500 50 Z'/>";
    // By hand: 120 across and 50 up are 130.
    let text = brought("smock.svg", &in_mm(drawn)).text;
    let garment = draft(&text);
    let offered: Vec<String> = garment.diagnostics.iter().filter_map(|one| one.help_words()).collect();
    let lines: Vec<&str> = offered
        .iter()
        .flat_map(|help| help.lines())
        .map(str::trim)
        .filter(|line| line.starts_with("seam "))
        .collect();
    let [only] = lines.as_slice() else { panic!("{lines:?}\n{text}") };
    assert!(only.ends_with("# 13 cm") && only.contains("front.") && only.contains("back."), "{only}");
    let sewn = compiled(&format!("{text}\n{only}\n"));
    let slugs: Vec<&str> = sewn.diagnostics.iter().map(|one| one.slug()).collect();
    assert!(!slugs.contains(&"seam/unequal") && !slugs.contains(&"piece/unsewn"), "{slugs:?}");
}
