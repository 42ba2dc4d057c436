//! Drawings whose looks are said in style sheets: what is not seen, what is dashed, sizes by class and by colour.

use crate::brought::{area, brought, draft, in_mm, length};

#[test]
fn what_a_style_sheet_hides_is_no_piece() {
    let drawn = "<style>.notes, #old { display: none } rect.guide { visibility: hidden }</style>\
        <rect id='bib' width='300' height='200'/><rect id='old' x='400' width='300' height='200'/>\
        <g class='notes x'><rect id='frame' x='800' width='300' height='200'/></g>\
        <rect class='guide' x='1200' width='300' height='200'/>";
    let brought = brought("bib.svg", &in_mm(drawn));
    let compiled = draft(&brought.text);
    assert_eq!(compiled.garment.pieces.len(), 1, "{}", brought.text);
    assert!(
        brought.remarks.iter().any(|words| words.contains("3 groups or paths are hidden")),
        "{:?}",
        brought.remarks
    );
}

/// A bib of 300 by 400 with 1 cm round it and 4 cm at its hem, its sew line drawn in dashes. A pocket in dashes is a
/// line, since it does not go round inside the outline.
#[test]
fn a_dashed_line_all_round_is_the_sew_line() {
    let drawn = "<style>.sewn { stroke-dasharray: 4 2 }</style>\
        <rect id='bib' x='0' y='0' width='320' height='450'/>\
        <g class='sewn'><rect x='10' y='10' width='300' height='400'/>\
        <rect id='pocket' x='110' y='110' width='100' height='100'/></g>";
    let brought = brought("bib.svg", &in_mm(drawn));
    let compiled = draft(&brought.text);
    assert!((area(&compiled, 0, "bib") - 300.0 * 400.0).abs() < 1.0, "{}", brought.text);
    assert!(brought.text.contains("line pocket_1"), "{}", brought.text);
    let drawn = drawn.replace("4 2", "none");
    let plain = crate::brought::brought("bib.svg", &in_mm(&drawn));
    assert!((area(&draft(&plain.text), 0, "bib") - 320.0 * 450.0).abs() < 1.0, "{}", plain.text);
}

#[test]
fn sizes_are_told_apart_by_class_or_colour() {
    let by_class = "<style>.size-S { stroke: red } .size-M { stroke: blue }</style>\
        <rect id='a1' class='cut size-S' width='200' height='100'/>\
        <rect id='a2' class='cut size-M' width='240' height='100'/>";
    let by_colour = "<style>.a { stroke: #C00 } .b { stroke: #00c }</style>\
        <rect class='a' width='200' height='100'/><rect class='b' width='240' height='100'/>\
        <text x='900' y='20' fill='#c00'>S</text><text x='900' y='40' style='fill:#00C'>Size M</text>";
    for drawn in [by_class, by_colour] {
        let text = brought("bib.svg", &in_mm(drawn)).text;
        let compiled = draft(&text);
        assert!(text.contains("sizes S, M"), "{text}");
        let name = compiled.garment.pieces[0].name.to_string();
        assert_eq!(compiled.garment.pieces.len(), if drawn == by_class { 2 } else { 1 }, "{text}");
        if drawn == by_colour {
            let longest =
                |size| length(&compiled, size, &name, "e1").max(length(&compiled, size, &name, "e2"));
            assert!((longest(0) - 200.0).abs() < 0.01 && (longest(1) - 240.0).abs() < 0.01, "{text}");
        }
    }
    // Colours that no words explain are only colours: two pieces, one in the other.
    let unsaid = by_colour.replace("<text", "<desc").replace("</text", "</desc");
    let text = brought("bib.svg", &in_mm(&unsaid)).text;
    assert!(!text.contains("sizes"), "{text}");
}
