//! What only follows from something else is not told, and the cause is: each slip beside the same garment without it.

use crate::workbench::{NOTHING, helps, said, told, with};

/// A skirt with a zip in its left side, a waistband that is hooked beyond it, and three belt loops.
const SKIRT: &str = r#"
garment "Saloon skirt"
units cm
allowance 1.5
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { front, back, band }
piece front "Front" { cut 1 on fold left; drawn left; outline rectangle 24 by 60 }
piece back "Back" like front { drawn right }
piece band "Waistband" {
  cut 1
  outline rectangle 96 by 8
  folded top to bottom
  mark m1 = (10, 3.5)
  mark m2 = (38, 3.5)
  mark m3 = (58, 3.5)
}
closure zip  front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }
seam side   front.right to back.right
seam waist  band.bottom and band.top to front.top + back.top { matching band.bottom_left with back.top_right }
finish front.bottom, back.bottom  hem 4
closure hooks  band.left to band.right { hooks 2  stand 3  left over right }
strap one "Belt loop" 8 by 1 in outer folded in four {
  from back.top on left at 10 from top_right caught in waist to band.m1
}
strap two "Belt loop" 8 by 1 in outer folded in four {
  from back.top on right at 10 from top_right caught in waist to band.m2
}
strap three "Belt loop" 8 by 1 in outer folded in four {
  from front.top on right at 10 from top_right caught in waist to band.m3
}
"#;

fn titles(text: &str) -> String {
    told(text).into_iter().map(|(_, title)| title).collect::<Vec<_>>().join("\n")
}

/// The same with a slip that is caught in the band and opens beside the zip.
const LINED: &str = r#"
garment "Saloon skirt"
units cm
allowance 1.5
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { front, back, band }
layer lining in serge { slip_front, slip_back }
piece front "Front" {
  cut 1 on fold centre
  drawn left
  point low_c = (0, -58)
  point low_s = (24, -58)
  point hip_s = (24, -20)
  point top_s = (17, 0)
  point top_c = (0, 0)
  outline from low_c {
    hem to low_s
    side to hip_s
    side2 to top_s curve leaving up arriving up
    waist to top_c
    centre to low_c
  }
}
piece back "Back" like front { drawn right }
piece band "Waistband" { cut 1; outline rectangle 68 by 8; folded top to bottom }
piece slip_front "Slip, front" like front { drawn right }
piece slip_back "Slip, back" like front { drawn left }
closure zip  front.side2 20 from top_s to back.side2 20 from top_s on left { zipper concealed 20 }
seam side  front.side + front.side2 to back.side + back.side2
finish slip_front.side2 20 from top_s on left, slip_back.side2 20 from top_s on left  hem 0.5 twice
seam slip_side  slip_front.side + slip_front.side2 to slip_back.side + slip_back.side2
seam waist  outer.band.bottom and outer.band.top and lining.slip_front.waist + lining.slip_back.waist to outer.front.waist + outer.back.waist {
  matching outer.band.bottom_left with outer.back.top_s
  matching outer.front.top_s with lining.slip_front.top_s
}
finish front.hem, back.hem  hem 4
finish slip_front.hem, slip_back.hem  hem 6
closure hooks  band.left to band.right { hooks 2  stand 3  left over right }
"#;

#[test]
fn a_band_with_two_ends_on_what_goes_all_round_is_told_as_that() {
    assert_eq!(said(LINED), NOTHING);
    let low = with(
        LINED,
        &[("20 from top_s to back.side2 20 from top_s on", "20 from hip_s to back.side2 20 from hip_s on")],
    );
    let of = titles(&low);
    assert!(
        of.contains(
            "Waistband has two ends, and Back and Front go all round where the waist seam joins them"
        ),
        "{of}"
    );
    let help = helps(&low).concat();
    assert!(help.contains("zip opens the side seam elsewhere: let it begin at back.top_s"), "{help}");
    let zip = "closure zip  front.side2 20 from top_s to back.side2 20 from top_s on left { zipper concealed 20 }\n";
    let none = with(LINED, &[(zip, "")]);
    assert!(titles(&none).contains("nothing opens there"), "{}", titles(&none));
    assert!(helps(&none).concat().contains("open the side seam from back.top_s on"), "{:?}", helps(&none));
}

#[test]
fn straps_that_one_seam_catches_elsewhere_are_told_once() {
    // The waist begins 48 cm on: by hand, each loop is to reach half the round to its mark.
    let other = with(
        SKIRT,
        &[("on left { zipper", "on right { zipper"), ("with back.top_right }", "with front.top_right }")],
    );
    assert_eq!(said(&other), ["strap/short"]);
    assert!(
        helps(&other).concat().contains("look first where the waist seam begins and ends"),
        "{:?}",
        helps(&other)
    );
    // One alone is told of its own.
    let one = with(SKIRT, &[("m1 = (10, 3.5)", "m1 = (30, 3.5)")]);
    assert_eq!(said(&one), ["strap/short"]);
    assert!(!helps(&one).concat().contains("look first"), "{:?}", helps(&one));
}

#[test]
fn a_fold_on_the_wrong_edge_is_told_where_it_is_said() {
    let fold = with(SKIRT, &[("on fold left", "on fold right")]);
    assert_eq!(said(&fold), ["edge/twice"], "{}", titles(&fold));
    assert!(
        helps(&fold).concat().contains("is left the fold of Front? cut … on fold left"),
        "{:?}",
        helps(&fold)
    );
}

/// A tray cloth of a border all round.
const CUSHION: &str = r#"
garment "Saloon cushion"
units cm
allowance 1.5
fabric cord "corduroy" { width 150; kind woven firm }
layer outer in cord { top, border, end }
piece top "Top" { cut 1; outline rectangle 50 by 45 }
piece border "Border" { cut 1; outline rectangle 140 by 6 }
piece end "End border" { cut 1; outline rectangle 50 by 6 }
seam end_l  border.left to end.right { matching border.top_left with end.top_right }
seam end_r  border.right to end.left { matching border.top_right with end.top_left }
seam round  top.left + top.bottom + top.right + top.top to border.top + end.top {
  matching top.top_left with border.top_left
}
finish border.bottom, end.bottom  hem 1
"#;

#[test]
fn a_piece_that_is_cut_too_often_is_told_where_it_says_how_often() {
    assert_eq!(said(CUSHION), NOTHING);
    let twice = with(CUSHION, &[("\"Border\" { cut 1", "\"Border\" { cut 2")]);
    assert_eq!(said(&twice), ["seam/unequal"]);
    let of = titles(&twice);
    assert!(
        of.contains("Border is cut 2, and the end_l seam, the end_r seam and the round seam take one of it"),
        "{of}"
    );
}

#[test]
fn a_match_that_lays_a_ring_wrong_is_named() {
    // By hand: the border's ends lie 45 + 50 + 45 cm apart, which from bottom_left on comes to no corner of the top.
    let other = with(CUSHION, &[("matching top.top_left with", "matching top.bottom_left with")]);
    assert_eq!(said(&other), ["seam/segment"]);
    let help = helps(&other).concat();
    assert!(help.contains("match another corner, so that all joints meet: matching top.top_left"), "{help}");
    assert!(help.contains("with border.top_left"), "{help}");
}

/// A bag between two layers of a pocket, 12 by 13 cm, matched at one end.
const BAG: &str = r#"
garment "Ticket pocket"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, back }
piece front "Front" { cut 1; outline rectangle 12 by 13 }
piece back "Back" { cut 1; outline rectangle 12 by 13 }
seam bag  front.left + front.bottom to back.left + back.bottom { matching front.top_left with back.top_left }
finish front.top, back.top, front.right, back.right  hem 1
"#;

#[test]
fn a_match_that_lays_a_chain_end_for_end_is_named() {
    assert_eq!(said(BAG), NOTHING);
    let turned = with(BAG, &[("with back.top_left }", "with back.bottom_right }")]);
    let help = helps(&turned).concat();
    assert!(help.contains("match the other end, matching front.top_left with back.top_left"), "{help}");
}

/// Mittens, lined, turned through gaps.
const MITTENS: &str = r#"
garment "Lookout's mittens"
units cm
allowance 1
fabric loden "loden" { width 140; kind woven firm }
layer outer in loden { palm, back }
layer lining in loden { palm, back }
piece palm "Palm" { cut 2 mirrored; outline rectangle 12 by 24 }
piece back "Back" { cut 2 mirrored; outline rectangle 12 by 24 }
seam round  palm.right + palm.top + palm.left to back.right + back.top + back.left { leaving gap 9 in lining }
seam wrist  outer.palm.bottom + outer.back.bottom to lining.palm.bottom + lining.back.bottom {
  matching outer.palm.bottom_right with lining.palm.bottom_right
}
"#;

#[test]
fn a_gap_on_one_side_of_a_pair_is_told_as_that() {
    assert_eq!(said(MITTENS), NOTHING);
    let left = with(MITTENS, &[("in lining }", "in lining, left }")]);
    let of = titles(&left);
    assert!(of.contains("is left on the left alone: the right one is not turned"), "{of}");
    assert!(helps(&left).concat().contains("leave , left out"), "{:?}", helps(&left));
}

#[test]
fn where_what_is_to_be_turned_is_open_is_told() {
    let open = with(
        MITTENS,
        &[
            (
                "palm.right + palm.top + palm.left to back.right + back.top + back.left",
                "palm.right + palm.top to back.right + back.top",
            ),
            ("seam wrist", "finish palm.left, back.left  overlocked\nseam wrist"),
        ],
    );
    assert_eq!(said(&open), ["gap/needless"]);
    let of = titles(&open);
    assert!(of.contains("that is open at the left of Palm and Back"), "{of}");
}

#[test]
fn nothing_is_said_of_a_gap_beside_a_mistake() {
    // Back is 1 cm less high than palm, and the gap shorter than makers leave.
    let short = with(
        MITTENS,
        &[
            (
                "\"Back\" { cut 2 mirrored; outline rectangle 12 by 24",
                "\"Back\" { cut 2 mirrored; outline rectangle 12 by 22",
            ),
            ("gap 9 ", "gap 3 "),
        ],
    );
    let of = said(&short);
    assert!(of.contains(&"seam/unequal") && !of.contains(&"gap/small"), "{of:?}");
    let alone = with(MITTENS, &[("gap 9 ", "gap 3 ")]);
    assert_eq!(said(&alone), ["gap/small"]);
}

/// A skirt whose slip hangs in the band too, each a half on the fold.
#[test]
fn no_seam_is_offered_that_shuts_a_rim() {
    let slip = with(
        SKIRT,
        &[
            (
                "layer outer in serge { front, back, band }",
                "layer outer in serge { front, back, band }\nlayer lining in serge { slip_f, slip_b }",
            ),
            (
                "closure zip",
                "piece slip_f \"Slip front\" { cut 1 on fold left; drawn left; outline rectangle 24 by 50 }\npiece slip_b \"Slip back\" like slip_f { drawn right }\nseam slip_side  slip_f.right to slip_b.right\nfinish slip_f.bottom, slip_b.bottom  hem 2\nclosure zip",
            ),
        ],
    );
    let loose = said(&slip).iter().filter(|slug| **slug == "edge/loose").count();
    assert_eq!(loose, 2);
    assert!(!helps(&slip).concat().contains("perhaps sewn"), "{:?}", helps(&slip));
    // One that is sewn along neither side is offered its seams.
    let open = with(&slip, &[("seam slip_side  slip_f.right to slip_b.right\n", "")]);
    assert!(helps(&open).concat().contains("slip_f.right to slip_b.right"), "{:?}", helps(&open));
}

/// A back between a yoke and a skirt, and a front beside it that has no line to be lengthened at.
const PLEATED: &str = r#"
garment "Deck smock"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { yoke, back, front, skirt }
piece yoke "Yoke" { cut 1; outline rectangle 40 by 12 }
piece back "Back" {
  cut 1
  outline rectangle 40 by 30
  line low across at (0, 10) adjust
  line middle from (20, 0) to (20, 30)
}
piece front "Front" { cut 1; outline rectangle 40 by 30 }
piece skirt "Skirt" { cut 1; outline rectangle 40 by 20 }
seam upper  yoke.bottom to back.top { matching yoke.bottom_left with back.top_left }
seam lower  back.bottom to skirt.top { matching back.bottom_left with skirt.top_left }
seam side  back.left to front.right { matching back.top_left with front.top_right }
finish yoke.left, yoke.right, yoke.top, front.left, front.top, front.bottom, back.right, skirt.left, skirt.right, skirt.bottom  hem 2
"#;

#[test]
fn what_an_alteration_draws_awry_is_looked_at_once_it_is_right() {
    assert_eq!(said(PLEATED), ["alter/adjust-alone"]);
    let wider = with(PLEATED, &[("seam upper", "spread back along middle by 6\nseam upper")]);
    assert_eq!(said(&wider), ["alter/one-side", "alter/one-side"]);
}

#[test]
fn what_is_written_in_another_place_is_told_where_it_goes() {
    // Words behind one of two seams in a row.
    let words = with(
        LINED,
        &[("closure hooks", "steps { \"Sides\" { sew side \"press it open\", slip_side } }\nclosure hooks")],
    );
    assert!(
        helps(&words).concat().contains("begin the next with its verb, behind a `;`"),
        "{:?}",
        helps(&words)
    );
    // The edges of a strip, added up; that it is left out of nothing is not told beside.
    let strip = with(
        LINED,
        &[(
            "closure zip",
            "block piece stay \"Stay\" { outline strip of front along waist + side2 width 3; without hem }\nclosure zip",
        )],
    );
    assert!(helps(&strip).concat().contains("with commas between them"), "{:?}", helps(&strip));
    assert!(!titles(&strip).contains("is made of no other one"), "{}", titles(&strip));
}
