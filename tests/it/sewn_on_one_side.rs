//! What is done on one side of the body alone takes nothing away of what is told of both: left and right of one drawing are known
//! for what they are. Each beside its twin, done on both sides, and beside what is sound.

use crate::workbench::{NOTHING, helps, said, told, with};

/// Bib and legs are sewn once for left and right; the zip is on the left.
const DUNGAREES: &str = r#"
garment "Engine-room dungarees"
units cm
allowance 1.5
wearer adult
body { hip 98; foot 36 }
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, back, bib }
layer inside in drill { bib }
piece front "Front leg" {
  cut 2 mirrored
  drawn left
  outline rectangle 26 by 100
  divide left 75 from bottom_left into inside, centre
}
piece back "Back leg" {
  cut 2 mirrored
  drawn right
  point hem_in = (0, 0)
  point hem_side = (26, 0)
  point waist_side = (26, 100)
  point waist_cb = (0, 100)
  point fork = (0, 75)
  outline from hem_in { bottom to hem_side; right to waist_side; top to waist_cb; centre to fork; inside to hem_in }
}
piece bib "Bib" { cut 1 on fold left; outline rectangle 26 by 26 }
seam inside   front.inside to back.inside { matching front.bottom_left with back.hem_in }
seam crotch_f front.centre to front.centre
seam crotch_b back.centre to back.centre
seam side     front.right to back.right { matching front.bottom_right with back.hem_side }
closure zip   front.right 20 from top_right to back.right 20 from waist_side on left { zipper concealed 20 }
seam bib_edge outer.bib to inside.bib along right + top
seam waist    outer.bib.bottom and inside.bib.bottom to front.top { matching outer.bib.bottom_left with front.top_left }
finish back.top  bound 1
finish front.bottom, back.bottom  hem 3
opening front.top + back.top  passes hip
opening front.bottom + back.bottom  passes foot
"#;

/// The same text with the zip in both sides.
fn on_both_sides(text: &str) -> String {
    with(text, &[(" on left { zipper", " { zipper")])
}

#[test]
fn a_zip_on_one_side_hides_no_point_in_the_middle() {
    assert_eq!(said(DUNGAREES), NOTHING);
    assert_eq!(said(&on_both_sides(DUNGAREES)), NOTHING);
    // The back waist rises by 12 over 26: 25° on each side of the middle, atan(12/26) = 24.8°.
    let pointed = with(DUNGAREES, &[("waist_cb = (0, 100)", "waist_cb = (0, 112)")]);
    let words = "the top turns by 50° at the crotch_b seam, where both ends of Back leg meet in a point";
    for text in [on_both_sides(&pointed), pointed] {
        assert_eq!(told(&text), [("seam/kink", words.to_owned())]);
    }
    // In a hem it is told as that: 12 over 26 again, at both ends of the crotch there is none.
    let hemmed =
        with(DUNGAREES, &[("finish back.top  bound 1", "finish back.top  hem 3"), ("(0, 100)", "(0, 112)")]);
    assert_eq!(said(&on_both_sides(&hemmed)), ["hem/kink"]);
    assert_eq!(said(&hemmed), ["hem/kink"]);
}

#[test]
fn the_middle_of_a_bib_of_two_plies_lies_in_the_middle() {
    let at_the_sides = with(DUNGAREES, &[("with front.top_left", "with front.top_right")]);
    let words = "outer.bib.bottom_left lies in the middle, on the fold, and front.top_right is there on the left and on the right";
    for text in [on_both_sides(&at_the_sides), at_the_sides.clone()] {
        assert_eq!(told(&text), [("seam/matching", words.to_owned())]);
    }
    assert!(
        helps(&at_the_sides)[0].contains("match outer.bib.bottom_left with that"),
        "{:?}",
        helps(&at_the_sides)
    );
    // Of one ply as well.
    let single = [
        ("outer.bib.bottom and inside.bib.bottom", "outer.bib.bottom"),
        ("seam bib_edge outer.bib to inside.bib along right + top\n", "finish bib.right, bib.top  hem 1\n"),
        ("layer inside in drill { bib }\n", ""),
        ("outer.bib.bottom_left", "bib.bottom_left"),
    ];
    assert_eq!(said(&with(DUNGAREES, &single)), NOTHING);
    assert_eq!(said(&with(&at_the_sides, &single)), ["seam/matching"]);
}

#[test]
fn rings_of_the_left_and_of_the_right_are_one_opening() {
    let said_by_side =
        |lines: &str| said(&with(DUNGAREES, &[("opening front.bottom + back.bottom  passes foot", lines)]));
    let left = "opening front.bottom on left + back.bottom on left  passes foot";
    let right = "opening front.bottom on right + back.bottom on right  passes foot";
    assert_eq!(said_by_side(left), NOTHING);
    // What an opening of its own is advised for can be written so.
    assert_eq!(said_by_side(&format!("{left}\n{right}")), NOTHING);
    assert_eq!(said_by_side(&format!("{left}\n{left}")), ["opening/twice"]);
    // Round each leg it is 2 · 26 = 52.
    let narrow = with(DUNGAREES, &[("foot 36", "foot 53")]);
    assert_eq!(told(&narrow), told(&on_both_sides(&narrow)));
    assert_eq!(said(&narrow), ["opening/passes"]);
    // Rings of unlike edges are still two.
    let unlike = with(
        DUNGAREES,
        &[(
            "front.bottom + back.bottom  passes",
            "front.bottom + back.bottom + front.top + back.top  passes",
        )],
    );
    assert_eq!(said(&unlike), ["opening/ring"]);
}

/// A pocket inside on the left and a badge on the left tell both fronts apart; the back is cut on the fold in both layers.
const VEST: &str = r#"
garment "Lined vest of the purser"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
fabric satin "satin" { width 150; kind woven firm }
layer outer in drill { front, back, badge }
layer lining in satin { front_lining, back, pocket }
piece front "Front" { cut 2 mirrored; drawn left; outline rectangle 26 by 60; mark badge_corner = (8, 40) }
piece back "Back" { cut 1 on fold left; drawn right; outline rectangle 26 by 60 }
piece front_lining "Front lining" { cut 2 mirrored; drawn right; outline rectangle 26 by 60; mark pocket_corner = (8, 20) }
piece pocket "Inside pocket" { cut 1; outline rectangle 12 by 12 }
piece badge "Badge" { cut 1; outline rectangle 6 by 6 }
seam side      outer.front.right to outer.back.right
seam side_in   lining.front_lining.right to lining.back.right
seam edge      outer.front.left to lining.front_lining.left
finish outer.front.top, outer.back.top, front_lining.top, lining.back.top  bound 1
finish outer.front.bottom, outer.back.bottom, front_lining.bottom, lining.back.bottom  hem 3
finish pocket.top  hem 2
place pocket on front_lining on left { corner bottom_left at pocket_corner; topstitch left, bottom, right }
place badge on front on left { corner bottom_left at badge_corner; topstitch all round }
"#;

#[test]
fn a_back_on_the_fold_does_not_bind_the_sides_of_two_layers() {
    // Drawn to the right of its centre, right side up, a front is worn on the left; a lining, whose right side lies inside, on
    // the right.
    assert_eq!(said(VEST), NOTHING);
    assert_eq!(said(&with(VEST, &[("cut 1 on fold left; drawn right", "cut 1 on fold left")])), NOTHING);
    assert_eq!(said(&with(VEST, &[("fold left; drawn right", "fold left; drawn left")])), NOTHING);
    let turned = with(
        VEST,
        &[(
            "drawn right; outline rectangle 26 by 60; mark pocket",
            "drawn left; outline rectangle 26 by 60; mark pocket",
        )],
    );
    assert_eq!(said(&turned), ["side/turned"]);
    // With something on one side of the back it matters which half of it is drawn.
    let on_back = with(
        VEST,
        &[
            (
                "fold left; drawn right; outline rectangle 26 by 60",
                "fold left; drawn left; outline rectangle 26 by 60; mark badge_corner = (8, 40)",
            ),
            (
                "layer lining in satin { front_lining, back, pocket }",
                "layer lining in satin { front_lining, pocket }",
            ),
            (
                "seam side_in   lining.front_lining.right to lining.back.right\n",
                "finish front_lining.right  hem 1\n",
            ),
            ("front_lining.top, lining.back.top", "front_lining.top"),
            ("front_lining.bottom, lining.back.bottom", "front_lining.bottom"),
            ("place badge on front", "place badge on back"),
        ],
    );
    assert_eq!(said(&on_back), ["side/turned"]);
    assert_eq!(said(&with(&on_back, &[("fold left; drawn left", "fold left; drawn right")])), NOTHING);
}

/// A band from one front to the other.
const CAPE: &str = r#"
garment "Cape of the purser"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, back, facing, band }
piece front "Front" { cut 2 mirrored; outline rectangle 20 by 60 }
piece back "Back" { cut 1 on fold left; outline rectangle 20 by 60 }
piece facing "Facing" { cut 2 mirrored; outline rectangle 6 by 60 }
piece band "Band" { cut 1; outline rectangle 80 by 6 }
seam side  front.right to back.right
seam edge  front.left to facing.left
seam neck  band.bottom to front.top + back.top { matching band.bottom_right with front.top_left }
finish band.top, band.left, band.right, facing.right, facing.top, facing.bottom, front.bottom, back.bottom  overlocked
"#;

#[test]
fn an_end_is_matched_with_no_corner_in_the_middle_of_a_chain() {
    assert_eq!(said(CAPE), NOTHING);
    let inside = with(CAPE, &[("with front.top_left", "with front.top_right")]);
    let words =
        "front.top_right lies inside the neck seam, and band.bottom_right is an end of it: they cannot meet";
    assert_eq!(told(&inside), [("seam/matching", words.to_owned())]);
    assert_eq!(helps(&inside), ["match band.bottom_right with an end of the other side: front.top_left"]);
}

/// A skirt of one half on the fold, sewn to itself behind, and a band closed to a ring.
const RING: &str = r#"
garment "Ferry skirt"
units cm
allowance 1
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { half, band }
piece half "Half" { cut 1 on fold left; drawn left; outline rectangle 52 by 60 }
piece band "Waistband" { cut 1; outline rectangle 104 by 8; folded top to bottom }
seam centre_back  half.right to half.right
seam band_ends    band.left to band.right { matching band.top_left with band.top_right }
seam waist        band.top and band.bottom to half.top { matching band.top_left with half.top_right }
finish half.bottom  hem 3
"#;

#[test]
fn a_ring_whose_left_is_hemmed_otherwise_is_a_ring() {
    assert_eq!(said(RING), NOTHING);
    let each = with(
        RING,
        &[(
            "finish half.bottom  hem 3",
            "finish half.bottom on left  hem 3\nfinish half.bottom on right  hem 3",
        )],
    );
    assert_eq!(said(&each), NOTHING);
    // What is matched with nothing is asked for on both.
    let unsaid = [(" { matching band.top_left with half.top_right }", "")];
    assert_eq!(said(&with(&each, &unsaid)), said(&with(RING, &unsaid)));
}
