//! Sew lines that do not close: sound along the fold of a half, told where they break off. Beside each stands a sound
//! neighbour of which nothing is said.

use crate::brought::{brought, brought_with, in_mm};
use crate::reading_dxf::{block, drawing, insert, ring, words};
use fustian::bring::BringOptions;

const METRIC: &str = "9 $INSUNITS|70 4|";

/// A yoke cut 260 wide and 120 high, sewn 10 mm within but for its left edge, x = 0, on which it is folded.
fn yoke(sew_line: &str, fold: &str) -> String {
    let own = ring("1", &[(0.0, 0.0), (260.0, 0.0), (260.0, 120.0), (0.0, 120.0)])
        + sew_line
        + fold
        + &words("1", 100.0, 60.0, "Piece Name: Yoke");
    drawing(METRIC, &block("YOKE", &own), &insert("YOKE"))
}

/// The same corners, one after the other, without the stretch that would close them.
fn open(corners: &[(f64, f64)]) -> String {
    ring("14", corners).replace("|70 1|", "|70 0|")
}

const FOLD: &str = "0 LINE|8 6|10 0|20 0|11 0|21 120|";
/// From the fold round to the fold: sewn 250 wide and 100 high.
const TO_FOLD: [(f64, f64); 4] = [(0.0, 10.0), (250.0, 10.0), (250.0, 110.0), (0.0, 110.0)];

fn refused(name: &str, drawing: &str) -> String {
    match brought_with(name, drawing, &BringOptions::default()) {
        Err(why) => why.to_string(),
        Ok(brought) => panic!("it came in:\n{}", brought.text),
    }
}

/// 250 by 100 mm, with 10 mm of allowance that is the drawing's own.
fn is_sewn(text: &str) {
    for words in ["The outlines are the drawing's sew lines", "(25, 0)", "(25, 10)"] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn a_sew_line_that_is_open_along_the_fold_is_closed_there() {
    let closed = brought("yoke.dxf", &yoke(&ring("14", &TO_FOLD), FOLD));
    let open = brought("yoke.dxf", &yoke(&open(&TO_FOLD), FOLD));
    is_sewn(&open.text);
    assert_eq!(open, closed);
}

#[test]
fn a_sew_line_that_breaks_off_is_refused() {
    // The last stretch lacks: 100 mm from (10, 110) to (10, 10).
    let short = [(10.0, 10.0), (250.0, 10.0), (250.0, 110.0), (10.0, 110.0)];
    let why = refused("yoke.dxf", &yoke(&open(&short), ""));
    assert!(
        why.contains("the sew line of Yoke (block YOKE of yoke.dxf) is open: its ends, (10.0, 10.0) and (10.0, 110.0) mm, lie 100.0 mm \
                      apart"),
        "{why}"
    );
    // One end alone reaches the fold.
    let one_end = [(0.0, 10.0), (250.0, 10.0), (250.0, 110.0), (10.0, 110.0)];
    assert!(refused("yoke.dxf", &yoke(&open(&one_end), FOLD)).contains("is open"));
    // Closed it comes in: sewn 240 by 100.
    let sound = brought("yoke.dxf", &yoke(&ring("14", &short), ""));
    assert!(sound.text.contains("(24, 10)"), "{}", sound.text);
}

#[test]
fn an_open_line_of_stitches_is_told_or_left() {
    // It ends on the outline, and no fold is drawn there.
    let told = brought("yoke.dxf", &yoke(&open(&TO_FOLD), ""));
    let of_line = |one: &&String| one.contains("is open and ends on the outline");
    assert_eq!(told.remarks.iter().filter(of_line).count(), 1, "{:?}", told.remarks);
    // Beside the sew line it is stitches, and so is a line that goes across.
    let stitches = [(20.0, 20.0), (240.0, 20.0), (240.0, 100.0), (20.0, 100.0)];
    let across = [(0.0, 60.0), (130.0, 60.0), (260.0, 61.0)];
    let both = brought("yoke.dxf", &yoke(&(ring("14", &TO_FOLD) + &open(&stitches)), FOLD));
    let one = brought("yoke.dxf", &yoke(&open(&across), FOLD));
    for sound in [both, one] {
        assert!(sound.remarks.iter().all(|one| !one.contains("sew line")), "{:?}", sound.remarks);
    }
}

/// A bib cut 320 by 420, its line 10 mm within drawn to those points.
fn bib(points: &str, style: &str, fold: &str) -> String {
    in_mm(&format!(
        "<g id='bib'><rect id='bib' x='0' y='0' width='320' height='420'/><polyline points='{points}' {style}/>{fold}</g>"
    ))
}

#[test]
fn open_paths_within_an_outline_are_told_from_stitches() {
    // The left side lacks: 400 mm.
    let three = "10,10 310,10 310,410 10,410";
    for style in ["", "stroke-dasharray='4 2'", "id='sew line'"] {
        let why = refused("bib.svg", &bib(three, style, ""));
        assert!(why.contains("the sew line of bib is open: its ends lie 400.0 mm apart"), "{why}");
    }
    // To the fold at x = 0 it is closed: sewn 310 by 400.
    let fold = "<line id='fold' x1='0' y1='0' x2='0' y2='420'/>";
    let sound = brought("bib.svg", &bib("0,10 310,10 310,410 0,410", "", fold));
    assert!(sound.text.contains("sew lines") && sound.text.contains("(31, 40)"), "{}", sound.text);
    // Stitches 10 mm from three sides that end 60 mm below the upper one are a line: cut 320 by 420.
    let pocket = brought("bib.svg", &bib("10,60 10,410 310,410 310,60", "", ""));
    assert!(pocket.text.contains("(32, 42)") && pocket.text.contains("line "), "{}", pocket.text);
}
