//! Notches by their form: short strokes at the sew line, and a small V or triangle that stands on an edge.

use crate::brought::{brought, in_mm, plain};
use crate::reading_dxf::{drawing, ring};

/// A bib cut 320 wide and 420 high, sewn 10 mm within; its lower edge is sewn from (10, 410) to (310, 410).
fn sewn(inside: &str) -> String {
    in_mm(&format!(
        "<g id='bib'><rect width='320' height='420'/><rect x='10' y='10' width='300' height='400'/>{inside}</g>"
    ))
}

/// The same, sewn where it is cut.
fn sewn_where_cut(inside: &str) -> String {
    in_mm(&format!("<g id='bib'><rect x='10' y='10' width='300' height='400'/>{inside}</g>"))
}

fn has_one(text: &str, notch: &str) {
    let text = plain(text);
    assert!(text.matches("\nnotch ").count() == 1 && text.contains(notch), "{notch}\n{text}");
    assert!(text.matches("\npiece ").count() == 1 && !text.contains("\nline "), "{text}");
}

/// At x = 110 it stands 100 mm from the left end of the lower edge, at 10.
#[test]
fn a_stroke_at_the_sew_line_is_a_notch() {
    for (from, to) in [(410, 405), (413, 407), (415, 410), (420, 410)] {
        let stroke = format!("<line x1='110' y1='{from}' x2='110' y2='{to}'/>");
        let brought = brought("bib.svg", &sewn(&stroke));
        assert!(brought.remarks.is_empty(), "{:?}", brought.remarks);
        has_one(&brought.text, "notch e1 10 from p1");
    }
    // Within the piece a stroke as long is a line.
    let within = brought("bib.svg", &sewn("<line x1='110' y1='400' x2='110' y2='395'/>"));
    assert!(
        plain(&within.text).contains("\nline ") && !plain(&within.text).contains("\nnotch "),
        "{}",
        within.text
    );
}

/// Six wide on the lower edge about x = 110, five high.
#[test]
fn a_small_v_on_an_edge_is_a_notch() {
    let open = "<polyline points='107,410 110,405 113,410'/>";
    let closed = "<polygon points='107,410 110,405 113,410'/>";
    let outside = "<polygon points='107,410 110,415 113,410'/>";
    for drawn in [open, closed, outside] {
        let brought = brought("bib.svg", &sewn_where_cut(drawn));
        assert!(brought.remarks.is_empty(), "{:?}", brought.remarks);
        has_one(&brought.text, "notch e1 10 from p1");
    }
    // The head of an arrow points to the edge and stands on none; a flap as large as a hand is a piece.
    let arrow = brought("bib.svg", &sewn_where_cut("<polyline points='107,405 110,410 113,405'/>"));
    assert!(!plain(&arrow.text).contains("\nnotch "), "{}", arrow.text);
    let flap = brought("bib.svg", &sewn_where_cut("<polygon id='flap' points='60,410 110,450 160,410'/>"));
    assert!(flap.text.matches("\npiece ").count() == 2, "{}", flap.text);
}

/// A plain drawing with y up: the lower edge is at y = 0.
#[test]
fn a_small_v_in_a_plotters_file_is_a_notch() {
    let bib = ring("CUT", &[(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)]);
    let small = ring("CUT", &[(97.0, 0.0), (100.0, 5.0), (103.0, 0.0)]);
    for drawn in [small.clone(), small.replace("|70 1|", "|70 0|")] {
        let text = brought("bib.dxf", &drawing("9 $INSUNITS|70 4|", "", &(bib.clone() + &drawn))).text;
        has_one(&text, "notch e1 10 from p1");
    }
}
