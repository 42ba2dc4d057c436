//! Drawings in SVG that come in: hand-made ones, whose lengths are known.

use crate::brought::{area, brought, brought_with, draft, in_mm, length, piece};
use fustian::bring::{BringOptions, ReadOptions, SizesFrom};
use std::f64::consts::PI;

/// A square of 100 by 100 units.
const SQUARE: &str = "<rect id='hatch' x='10' y='20' width='100' height='100'/>";

fn sized(width: &str, view: &str) -> String {
    format!("<svg xmlns='http://www.w3.org/2000/svg' width='{width}' height='{width}' {view}>{SQUARE}</svg>")
}

/// The four sides of the hatch in millimetres, and the text.
fn hatch(drawing: &str) -> ([f64; 4], String) {
    let text = brought("hatch.svg", drawing).text;
    let compiled = draft(&text);
    (["e1", "e2", "e3", "e4"].map(|edge| length(&compiled, 0, "hatch", edge)), text)
}

#[test]
fn units_are_those_of_the_document() {
    // By hand: 200 units of the view are as wide as the document says, so 100 units are half of that. Of CSS
    // (Values 3, 5.2) 96 px are 1 in, 72 pt, 6 pc and 25.4 mm.
    let view = "viewBox='0 0 200 200'";
    for (width, side) in [
        ("200mm", 100.0),
        ("20cm", 100.0),
        ("10in", 127.0),
        ("192px", 25.4),
        ("192", 25.4),
        ("144pt", 25.4),
        ("12pc", 25.4),
    ] {
        let (sides, text) = hatch(&sized(width, view));
        for own in sides {
            assert!((own - side).abs() < 0.011, "{width}: {own} for {side}\n{text}");
        }
        assert_eq!(text.contains("units in"), width == "10in", "{text}");
    }
    // Without a view, a unit is a px, whatever the document's size.
    let (sides, _) = hatch(&sized("500mm", ""));
    assert!((sides[0] - 100.0 * 25.4 / 96.0).abs() < 0.011, "{sides:?}");
}

#[test]
fn transforms_work_together() {
    // By hand: 100 units, twice as large, then three times, then half: 300 mm; turning and shifting change no length.
    let drawn = format!(
        "<g transform='translate(400 300)'><g transform='scale(2) rotate(30)'>\
         <g transform='matrix(3 0 0 3 -7 5)'><g transform='scale(.5)'>{SQUARE}</g></g></g></g>"
    );
    let (sides, text) = hatch(&in_mm(&drawn));
    assert!(sides.iter().all(|side| (side - 300.0).abs() < 0.02), "{sides:?}\n{text}");
}

#[test]
fn y_goes_up_and_a_mirrored_group_is_a_mirrored_piece() {
    // A triangle with its right angle at the lower left, as one looks at it.
    let triangle = "<path id='flag' d='M0 0 L0 300 L200 300 Z'/>";
    let text = brought("flag.svg", &in_mm(triangle)).text;
    for point in ["p1 = (0, 0)", "p2 = (20, 0)", "p3 = (0, 30)"] {
        assert!(text.contains(point), "{point}\n{text}");
    }
    // Mirrored left to right it is at the lower right.
    let mirrored = format!("<g transform='scale(-1 1)'>{triangle}</g>");
    let text = brought("flag.svg", &in_mm(&mirrored)).text;
    for point in ["p1 = (0, 0)", "p2 = (20, 0)", "p3 = (20, 30)"] {
        assert!(text.contains(point), "{point}\n{text}");
    }
}

#[test]
fn arcs_stay_arcs() {
    // Half a disc of radius 80, in a group that is turned, mirrored and twice as large.
    let half = "<path id='brim' d='M0 0 A80 80 0 0 1 160 0 Z'/>";
    let drawn = format!("<g transform='translate(500 500) scale(-2 2) rotate(90)'>{half}</g>");
    let text = brought("brim.svg", &in_mm(&drawn)).text;
    assert!(text.contains("arc about"), "{text}");
    let compiled = draft(&text);
    // By hand: radius 160.
    assert!((area(&compiled, 0, "brim") - PI * 160.0 * 160.0 / 2.0).abs() < 5.0, "{text}");
    assert!((length(&compiled, 0, "brim", "curve") - PI * 160.0).abs() < 0.05, "{text}");
    assert!((length(&compiled, 0, "brim", "longest") - 320.0).abs() < 0.02, "{text}");
}

#[test]
fn shapes_are_outlines_too() {
    let drawn = "<polygon id='a' points='0,0 100,0 100,50 0,50'/>\
        <ellipse id='b' cx='300' cy='100' rx='60' ry='40'/>\
        <circle id='c' cx='600' cy='100' r='50'/>\
        <rect id='d' x='800' y='0' width='100' height='60' rx='10'/>\
        <polyline id='e' points='0,300 100,300 100,400 0,400 0,300'/>";
    let text = brought("shapes.svg", &in_mm(drawn)).text;
    let compiled = draft(&text);
    // By hand: half axes 6 by 4 cm; radius 5; four corners of radius 1 each lose (4 - π)/4 of a square.
    for (name, square) in [
        ("a", 5000.0),
        ("b", PI * 60.0 * 40.0),
        ("c", PI * 2500.0),
        ("d", 6000.0 - (4.0 - PI) * 100.0),
        ("e", 10000.0),
    ] {
        let own = area(&compiled, 0, name);
        assert!((own - square).abs() < 3.0, "{name}: {own} for {square}\n{text}");
    }
}

#[test]
fn a_bezier_keeps_its_handles() {
    let drawn = "<path id='wing' d='M0 200 L0 0 C60 -40 150 -20 200 0 L200 200 Z'/>";
    let text = brought("wing.svg", &in_mm(drawn)).text;
    // By hand, from the lower left corner, y up, in cm: the handles run from right to left, since the outline goes
    // anticlockwise.
    assert!(text.contains("handles (15, 22), (6, 24)"), "{text}");
    draft(&text);
}

#[test]
fn what_lies_inside_is_told_apart() {
    let drawn = "<g id='front'><rect id='front' x='0' y='0' width='300' height='500'/>\
        <title>front</title>\
        <path id='waist' d='M0 200 H300'/>\
        <path d='M150 0 v8'/>\
        <path d='M300 400 h-6'/>\
        <circle id='button' cx='40' cy='60' r='3'/>\
        <path d='M96 96 l8 8'/><path d='M104 96 l-8 8'/>\
        <path d='M150 100 V350 M146 108 L150 100 L154 108'/>\
        <text x='60' y='300'>Cut 2 mirrored</text></g>";
    let brought = brought("front.svg", &in_mm(drawn));
    let text = &brought.text;
    let compiled = draft(text);
    let front = piece(&compiled, 0, "front");
    assert_eq!(front.notches.len(), 2, "{text}");
    // By hand: 15 cm from the corner, and 10 cm from the lower one.
    assert!(text.contains("notch e3 15 from"), "{text}");
    assert!(text.contains("notch e2 10 from p2"), "{text}");
    assert!(text.contains("mark button = (4, 44)"), "{text}");
    assert!(text.contains("= (10, 40)"), "{text}");
    assert!(text.contains("line waist from (0, 30) to (30, 30)"), "{text}");
    assert!(text.contains("grain up"), "{text}");
    assert!(text.contains("cut 2 mirrored"), "{text}");
    assert!(brought.remarks.is_empty(), "{:?}", brought.remarks);
}

/// A piece in three sizes: each 1 cm wider and 0.5 cm higher than the one before.
fn nest(each: impl Fn(usize, &str) -> String) -> String {
    let all: String = ["S", "M", "L"].iter().enumerate().map(|(at, size)| each(at, size)).collect();
    in_mm(&all)
}

#[test]
fn sizes_are_layers_or_names() {
    let path = |at: usize| format!("M0 500 H{} V{} H0 Z", 200 + 10 * at, 100 - 5 * at);
    let layers = nest(|at, size| format!("<g id='{size}'><path id='front-{size}' d='{}'/></g>", path(at)));
    let named = nest(|at, size| format!("<path id='front-{size}' d='{}'/>", path(at)));
    let grouped = nest(|at, size| format!("<g id='front {size}'><path d='{}'/></g>", path(at)));
    for drawing in [layers, named, grouped] {
        let text = brought("front.svg", &drawing).text;
        assert!(text.contains("sizes S, M, L"), "{text}");
        assert!(text.contains("piece front "), "{text}");
        assert!(text.contains("point p3 = ((20 grade +1), (40 grade +0.5))"), "{text}");
        let compiled = draft(&text);
        for (at, across) in [200.0, 210.0, 220.0].into_iter().enumerate() {
            assert!((length(&compiled, at, "front", "e1") - across).abs() < 0.01, "{text}");
        }
    }
    // Layers that are called otherwise are sizes when that is said.
    let odd = nest(|at, size| format!("<g id='deck {size}hand'><path id='front' d='{}'/></g>", path(at)));
    let options = BringOptions {
        read: ReadOptions { sizes_from: Some(SizesFrom::Layers), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    let text = brought_with("front.svg", &odd, &options).unwrap().text;
    assert!(text.contains("sizes \"deck Shand\", \"deck Mhand\", \"deck Lhand\""), "{text}");
    draft(&text);
}

#[test]
fn sizes_side_by_side_answer_to_each_other_too() {
    // The larger is drawn first, elsewhere, and begins at another corner the other way round.
    let drawing = in_mm(
        "<path id='front-L' d='M900 100 V600 H680 V100 Z'/>\
         <path id='front-S' d='M0 500 H200 V0 L50 10 Z'/>\
         <path id='front-M' d='M300 500 H510 V0 L350 10 Z'/>",
    );
    let drawing = drawing.replace("M900 100 V600 H680 V100 Z", "M900 100 V600 H680 L730 110 Z");
    let text = brought("front.svg", &drawing).text;
    assert!(text.contains("sizes S, M, L"), "{text}");
    let compiled = draft(&text);
    for (at, across) in [200.0, 210.0, 220.0].into_iter().enumerate() {
        assert!((length(&compiled, at, "front", "e1") - across).abs() < 0.01, "{text}");
    }
}

#[test]
fn a_size_that_does_not_match_is_told() {
    let drawing = in_mm(
        "<path id='front-S' d='M0 500 H200 V100 H0 Z'/><path id='front-M' d='M0 500 H210 V300 L260 250 V95 H0 Z'/>",
    );
    let why = brought_with("front.svg", &drawing, &BringOptions::default()).unwrap_err().to_string();
    assert!(why.contains("4 corners in S") && why.contains("6 in M"), "{why}");
}

#[test]
fn pieces_without_a_size_in_common_are_no_garment() {
    let rect = |name: &str, at: usize| {
        format!("<rect id='{name}' x='{}' width='{}' height='300'/>", at * 400, 200 + at)
    };
    let all =
        |names: [&str; 4]| -> String { names.iter().enumerate().map(|(at, name)| rect(name, at)).collect() };
    let apart = in_mm(&all(["front-S", "front-M", "hood-34", "hood-36"]));
    let why = brought_with("smock.svg", &apart, &BringOptions::default()).unwrap_err().to_string();
    assert!(why.contains("34, 36") && why.contains("S, M"), "{why}");
    // Of some sizes only one has both: the nearest is taken, and that is told.
    let some = brought("smock.svg", &in_mm(&all(["front-S", "front-M", "hood-M", "hood-L"])));
    assert!(some.remarks.iter().any(|words| words.contains("S (as M)")), "{:?}", some.remarks);
    assert!(some.text.contains("sizes S, M, L"), "{}", some.text);
    draft(&some.text);
}

#[test]
fn a_square_of_known_length_gives_the_scale() {
    // The square is 37.5 wide and says 10 cm: all is 100 / 37.5 as large.
    let drawn = "<rect id='test square 10 cm' x='1000' y='0' width='37.5' height='37.5'/>\
        <rect id='hatch' x='0' y='0' width='75' height='150'/>";
    let brought_in = brought("hatch.svg", &in_mm(drawn));
    let compiled = draft(&brought_in.text);
    assert!((length(&compiled, 0, "hatch", "e1") - 200.0).abs() < 0.02, "{}", brought_in.text);
    assert!((length(&compiled, 0, "hatch", "e2") - 400.0).abs() < 0.02, "{}", brought_in.text);
    assert!(
        brought_in.remarks.iter().any(|words| words.contains("37.5 mm wide")),
        "{:?}",
        brought_in.remarks
    );
    assert!(!brought_in.text.contains("square"), "the square is no piece");
    // Or it is said: 10 cm are 37.5 units.
    let options = BringOptions {
        read: ReadOptions { scale: Some(100.0 / 37.5), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    let drawn = in_mm("<rect id='hatch' width='75' height='150'/>");
    let compiled = draft(&brought_with("hatch.svg", &drawn, &options).unwrap().text);
    assert!((length(&compiled, 0, "hatch", "e2") - 400.0).abs() < 0.02);
    // A front of 3 m is suspected.
    let drawn = in_mm("<rect id='front' width='900' height='3000'/>");
    let remarks = brought("front.svg", &drawn).remarks;
    assert!(remarks.iter().any(|words| words.contains("3.00 m long")), "{remarks:?}");
    let drawn = in_mm("<rect id='front' width='300' height='700'/>");
    assert!(brought("front.svg", &drawn).remarks.is_empty());
}

#[test]
fn allowances_are_held_or_drawn() {
    let drawn = in_mm("<rect id='hatch' width='120' height='220'/>");
    let options = BringOptions { allowance: Some(10.0), ..BringOptions::default() };
    let text = brought_with("hatch.svg", &drawn, &options).unwrap().text;
    assert!(text.contains("outline from p1 cutting {") && text.contains("allowance 1\n"), "{text}");
    // By hand: 1 cm less on each side.
    let compiled = draft(&text);
    assert!((length(&compiled, 0, "hatch", "e1") - 100.0).abs() < 0.01, "{text}");
    assert!((length(&compiled, 0, "hatch", "e2") - 200.0).abs() < 0.01, "{text}");
    // The sew line is drawn too: it is the outline, and the allowance is measured.
    let drawn = in_mm(
        "<rect id='hatch' width='120' height='220'/><rect id='sew line' x='15' y='15' width='90' height='190'/>",
    );
    let text = brought("hatch.svg", &drawn).text;
    let compiled = draft(&text);
    assert!((length(&compiled, 0, "hatch", "e1") - 90.0).abs() < 0.01, "{text}");
    assert!(text.contains("  allowance 1.5\n"), "{text}");
    // It is used even if an allowance is said for those that have none.
    let text = brought_with("hatch.svg", &drawn, &options).unwrap().text;
    assert!(!text.contains("cutting {"), "{text}");
    assert!((length(&draft(&text), 0, "hatch", "e1") - 90.0).abs() < 0.01, "{text}");
}

#[test]
fn edges_are_named_as_the_maker_says() {
    let drawn = in_mm("<path id='front' d='M0 500 H200 V100 C150 100 100 60 0 0 Z'/>");
    let mut options = BringOptions::default();
    let names = ["hem", "side", "neckline", "centre"].map(str::to_owned).to_vec();
    options.names.insert("front".to_owned(), names);
    let text = brought_with("front.svg", &drawn, &options).unwrap().text;
    draft(&text);
    for edge in ["hem ", "side ", "neckline ", "centre "] {
        assert!(text.contains(&format!("\n    {edge}")), "{edge}\n{text}");
    }
    // Without names, what can be known: the only curve, and the longest straight one.
    let text = brought("front.svg", &drawn).text;
    assert!(text.contains("\n    curve ") && text.contains("\n    longest "), "{text}");
    options.names.insert("front".to_owned(), vec!["a".to_owned(); 5]);
    let why = brought_with("front.svg", &drawn, &options).unwrap_err().to_string();
    assert!(why.contains("front has 4 edges, and 5 names are given"), "{why}");
    let options = BringOptions {
        names: [("frond".to_owned(), Vec::new())].into_iter().collect(),
        ..BringOptions::default()
    };
    let why = brought_with("front.svg", &drawn, &options).unwrap_err().to_string();
    assert!(why.contains("did you mean front?"), "{why}");
}

#[test]
fn equal_edges_are_offered_as_seams() {
    // The shoulders are 130 long in both, the sides 300; nothing else is alike.
    let drawn = in_mm(
        "<path id='front' d='M0 400 H220 V100 H170 V30 L50 -20 L0 80 Z'/>\
         <path id='back' d='M500 400 H715 V100 H670 V25 L550 -25 L500 50 Z'/>",
    );
    let text = brought("smock.svg", &drawn).text;
    let compiled = draft(&text);
    assert!(text.contains("# seam e5  front.e5 to back.e5  # 13\n"), "{text}");
    // By hand: 12 across and 5 up are 13.
    assert!((length(&compiled, 0, "front", "e5") - 130.0).abs() < 0.02, "{text}");
    let sewn = text.replace("# seam", "seam");
    let compiled = crate::brought::compiled(&sewn);
    let unequal = compiled.diagnostics.iter().any(|one| one.slug() == "seam/unequal");
    assert!(!unequal, "{sewn}");
}
