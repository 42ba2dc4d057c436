//! Openings that no edge lies at: what gets past the waist line of a dress.

use crate::workbench::{mistake, said, with};
use fustian::source::MemoryLoader;

const NOTHING: [&str; 0] = [];

/// What the first opening of a text opens to, as the document lists it, in millimetres.
fn opens(text: &str) -> f64 {
    let compiled = fustian::compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    let sized = compiled.sizes.first().expect("a size");
    let opening = sized.sewn.openings.first().and_then(Option::as_ref).expect("an opening");
    opening.narrowest().expect("a ring").opens()
}

/// Front and back are 20 cm wide on each side, so that the waist is 80 cm round; a zip that goes 6 cm past it adds
/// 12 cm, and then 92 cm of hip go through.
#[test]
fn a_zip_adds_what_it_reaches_past_the_line() {
    let short = mistake("opening-passes-line");
    assert_eq!(said(&short), ["opening/passes"]);
    assert!((opens(&short) - 900.0).abs() < 1e-6, "{}", opens(&short));
    let long = with(&short, &[("zip_length = 45", "zip_length = 46")]);
    assert_eq!(said(&long), NOTHING);
    assert!((opens(&long) - 920.0).abs() < 1e-6, "{}", opens(&long));
    // One that ends above the line adds nothing.
    let above = with(&short, &[("zip_length = 45", "zip_length = 30")]);
    assert!((opens(&above) - 800.0).abs() < 1e-6, "{}", opens(&above));
    // Cloth that stretches by a quarter lets 100 cm through, without any zip.
    let knit = with(&above, &[("kind woven supple", "kind knit; stretch 25% across, 25% along")]);
    assert!((opens(&knit) - 1000.0).abs() < 1e-6, "{}", opens(&knit));
}

/// A dart in the middle of the line takes 3 cm out of each half of it.
#[test]
fn a_dart_is_sewn() {
    let dress = mistake("opening-passes-line");
    let line = "  line waist across at (0, 60)\n  divide";
    let dart = "  line waist across at (0, 60)\n  dart waist_dart at (10, 60) width 3 up 12 down 12 pressed toward left\n  divide";
    let narrow = with(&dress, &[(line, dart)]);
    assert!((opens(&narrow) - 840.0).abs() < 1e-6, "{}", opens(&narrow));
}

/// A lining is sewn to the zip: its waist is opened by that as the shell's is.
#[test]
fn a_lining_has_a_waist_of_its_own() {
    let lined = with(
        &mistake("opening-passes-line"),
        &[
            ("zip_length = 45", "zip_length = 46"),
            (
                "layer outer in wool { front, back }",
                "layer outer in wool { front, back }\nlayer lining in wool { front, back }",
            ),
            (
                "closure zip  back.zip_edge to back.zip_edge",
                "closure zip  outer.back.zip_edge to outer.back.zip_edge",
            ),
            (
                "finish front.top, back.top        bound 1\n",
                "seam top  outer.front.top + outer.back.top to lining.front.top + lining.back.top\nseam zip_lining  outer.back.zip_edge to lining.back.zip_edge enclosing zip\n",
            ),
        ],
    );
    assert_eq!(said(&lined), NOTHING);
}

#[test]
fn a_row_of_buttons_opens_the_waist_that_it_crosses() {
    let coat = with(
        &mistake("opening-passes-line"),
        &[
            ("divide left zip_length from top_left into zip_edge, left", "line row from (2, 0) to (2, 100)"),
            ("seam centre  back.left to back.left\n", "finish back.left  hem 1\n"),
            (
                "closure zip  back.zip_edge to back.zip_edge { zipper closed zip_length }",
                "closure row  back.row to back.row { snaps 8 of 12mm }",
            ),
            ("let zip_length = 45\n", ""),
        ],
    );
    // Worn closed it is 80 less the 2 and 2 that lap over, 76 cm; open, 100 cm of row on both sides more.
    assert!((opens(&coat) - 2760.0).abs() < 1e-6, "{}", opens(&coat));
}

#[test]
fn lines_run_on_from_piece_to_piece() {
    let ring = mistake("opening-ring-line");
    assert_eq!(said(&ring), ["opening/ring"]);
    assert_eq!(
        said(&with(&ring, &[("opening front.waist  ", "opening front.waist + back.waist  ")])),
        NOTHING
    );
    // 2 cm lower at the back they do not meet.
    let step = with(
        &ring,
        &[
            ("opening front.waist  ", "opening front.waist + back.waist  "),
            ("  line waist across at (0, 60)\n  divide", "  line waist across at (0, 58)\n  divide"),
        ],
    );
    assert_eq!(said(&step), ["opening/ring"]);
    assert_eq!(said(&mistake("opening-mixed")), ["opening/mixed"]);
    // A line that stops short of the seam is broken there.
    let short =
        with(&ring, &[("  line waist across at (0, 60)\n}", "  line waist from (0, 60) to (15, 60)\n}")]);
    assert_eq!(said(&short), ["opening/ring"]);
}

#[test]
fn a_waist_is_asked_for_that_lets_neither_hip_nor_bust_past() {
    let unsaid = mistake("opening-unsaid-line");
    assert_eq!(said(&unsaid), ["opening/unsaid"]);
    // Put on over the head, it has 90 cm for 88 cm of bust.
    assert_eq!(said(&with(&unsaid, &[("hip 92", "hip 92; bust 88")])), NOTHING);
    assert_eq!(said(&with(&unsaid, &[("zip_length = 45", "zip_length = 46")])), NOTHING);
    let spoken = format!("{unsaid}\nopening front.waist + back.waist  passes waist\n");
    assert_eq!(said(&spoken), NOTHING);
}
