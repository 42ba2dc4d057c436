//! What a sewer asks of the sheet with the work before her: what hangs free and what is folded in, what lies between two sides, what is
//! turned, where something is set and on which side. And counts, lengths and messages that said other than what was meant. Each beside
//! what was right already.

use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, of, said, told, with};
use fustian::emit::{Form, materials, steps_document};
use fustian::materials::{ClothNeed, LayOrder, Needs, even_out, needs, needs_at_widths};
use fustian::sheet::Language;

/// A cape with a lining, a collar of two layers, flaps, slits in the sides, and loops at its front edge.
const CAPE: &str = r#"garment "Purser's short cape"
units cm
allowance 1
fabric loden "loden" { width 150 }
fabric satin "lining satin" { width 140 }
layer outer in loden { front, back, collar, flap }
layer under in loden { collar }
layer lining in satin { front, back, flap }
piece front "Front" { cut 2 mirrored; outline rectangle 20 by 60; mark flap_at = (4, 30) }
piece back "Back" { cut 1 on fold left; outline rectangle 20 by 60 }
piece collar "Collar" { cut 1; outline rectangle 80 by 6 }
piece flap "Flap" { cut 2 mirrored; outline rectangle 12 by 5 }
seam side front.right to back.right
seam slit_f outer.front.right 20..40 from top_right to lining.front.right 20..40 from top_right
seam slit_b outer.back.right 20..40 from top_right to lining.back.right 20..40 from top_right
seam edge outer.front.left to lining.front.left
seam flap_edge outer.flap to lining.flap along left + bottom + right
seam collar_edge outer.collar to under.collar along left + top + right
seam neck outer.collar.bottom to outer.front.top + outer.back.top
seam neck_in under.collar.bottom to lining.front.top + lining.back.top
finish front.bottom, back.bottom hem 2
place flap on outer.front { corner top_left at flap_at; topstitch top }
closure loops outer.front.left to outer.front.left { toggles 3 of 40mm left over right }
notion "hanging chain" 1
set chain "hanging chain" at lining.back.top at the fold
tack flap_bar outer.front.flap_at bar 1
steps {
  "Flaps" { sew flap_edge; place flap; tack flap_bar; set chain }
  "Body" { sew side; sew collar_edge; sew neck, neck_in }
  "Edges" { baste loops; sew edge; sew slit_f, slit_b; hem front.bottom, back.bottom; sew loops }
}
"#;

fn english(text: &str) -> String {
    read_of(text, Language::English)
}

#[track_caller]
fn has(text: &str, words: &[&str]) {
    words.iter().for_each(|words| assert!(text.contains(words), "{words:?} in:\n{text}"));
}

#[track_caller]
fn lacks(text: &str, words: &[&str]) {
    words.iter().for_each(|words| assert!(!text.contains(words), "{words:?} in:\n{text}"));
}

/// Flaps of one layer, hemmed on three sides.
fn single_flaps() -> String {
    with(
        CAPE,
        &[
            ("{ front, back, flap }", "{ front, back }"),
            (
                "seam flap_edge outer.flap to lining.flap along left + bottom + right",
                "finish flap.left, flap.bottom, flap.right hem 1",
            ),
            ("sew flap_edge;", "hem flap.left, flap.bottom, flap.right;"),
        ],
    )
}

#[test]
fn a_lined_flap_hangs_free_and_both_its_allowances_are_folded_in() {
    assert_eq!(said(CAPE), NOTHING);
    let lined = english(CAPE);
    has(&lined, &["edges hang free", "in between the layers"]);
    lacks(&lined, &["edges stay open"]);
    has(&read_of(CAPE, Language::German), &["hängen frei", "zwischen die Lagen falten"]);
    let single = english(&single_flaps());
    has(&single, &["First press the allowances of the top edge", "edges stay open"]);
    lacks(&single, &["hang free", "between the layers"]);
}

#[test]
fn a_lined_flap_is_placed_once() {
    let times = |text: &str| {
        let compiled = of(text);
        let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
        steps.iter().find(|line| line.verb == "place").and_then(|line| line.times)
    };
    // Two flaps, each of two layers; two of one.
    assert_eq!(times(CAPE), Some(2));
    assert_eq!(times(&single_flaps()), Some(2));
    // A pocket that is cut in both layers lies on each of them: two are placed on the outer fronts, two on the linings.
    let in_both = with(
        &single_flaps(),
        &[("{ front, back }", "{ front, back, flap }"), ("on outer.front { corner", "on front { corner")],
    );
    assert_eq!(times(&in_both), Some(4));
}

#[test]
fn what_is_set_in_the_middle_is_said_to_lie_there() {
    has(&english(CAPE), &["at the middle of the top edge of"]);
    has(&read_of(CAPE, Language::German), &["Mitte von Kante „top“"]);
    let beside = with(
        CAPE,
        &[("chain\" 1", "chain\" 2"), ("lining.back.top at the fold", "lining.front.top 5 from top_left")],
    );
    assert_eq!(said(&beside), NOTHING);
    lacks(&english(&beside), &["at the middle of the top edge"]);
}

#[test]
fn loops_that_are_basted_lie_between_the_sides() {
    has(&english(CAPE), &["The loops [P] lie between the two sides."]);
    has(&read_of(CAPE, Language::German), &["liegen zwischen beiden Seiten."]);
    let later = with(CAPE, &[("baste loops; ", "")]);
    lacks(&english(&later), &["lie between the two sides"]);
}

#[test]
fn a_collar_and_the_sides_of_a_slit_are_turned() {
    // Flaps, the collar, and both kinds of slits; the front edge is sewn before its slit joins the same two.
    let told = english(CAPE);
    assert_eq!(told.matches("Turn it right side out").count(), 4, "{told}");
    assert_eq!(told.matches("Clip the allowances at both ends").count(), 2, "{told}");
    has(&read_of(CAPE, Language::German), &["an beiden Enden der Naht einschneiden"]);
    // Without slits the front edge is the last that joins them.
    let plain = with(
        CAPE,
        &[
            (
                "seam slit_f outer.front.right 20..40 from top_right to lining.front.right 20..40 from top_right\n",
                "",
            ),
            (
                "seam slit_b outer.back.right 20..40 from top_right to lining.back.right 20..40 from top_right\n",
                "",
            ),
            ("sew slit_f, slit_b; ", ""),
        ],
    );
    assert_eq!(english(&plain).matches("Turn it right side out").count(), 3, "{}", english(&plain));
    lacks(&english(&plain), &["at both ends"]);
}

#[test]
fn tape_lies_along_the_shorter_side_only_where_there_is_one() {
    let taped = with(
        CAPE,
        &[("seam side front.right to back.right", "seam side front.right to back.right { tape 1 }")],
    );
    has(&english(&taped), &["Lay tape along the stitching line and sew it in"]);
    has(&read_of(&taped, Language::German), &["Auf der Nahtlinie Nahtband mitfassen"]);
    let eased = with(
        CAPE,
        &[
            ("rectangle 80 by 6", "rectangle 80.6 by 6"),
            ("outer.front.top + outer.back.top", "outer.front.top + outer.back.top easing 0..1 { tape 1 }"),
            ("lining.front.top + lining.back.top", "lining.front.top + lining.back.top easing 0..1"),
        ],
    );
    has(&english(&eased), &["along the stitching line of the shorter side"]);
}

#[test]
fn a_bar_tack_on_each_side_says_so() {
    has(&english(CAPE), &["Do so on the left and on the right."]);
    let one = with(CAPE, &[("tack flap_bar outer.front.flap_at", "tack flap_bar outer.back.top_left")]);
    lacks(&english(&one), &["Do so on the left and on the right."]);
}

/// Two tacks of 1 cm are a row of 2 cm: of thread something is sewn.
#[test]
fn what_is_sewn_is_never_none() {
    let compiled = of(CAPE);
    let all: Vec<Needs> = vec![needs(&compiled.garment, &compiled.sizes[0], LayOrder::default(), &[])];
    let text = materials(&compiled.garment, &all, Form::Text).unwrap();
    has(&text, &["0.1 m sewn"]);
    lacks(&text, &["0.0 m sewn"]);
}

/// The short search is unlucky with the smaller size: it is laid anew, as long as the command for its width searches.
#[test]
fn no_size_takes_more_than_a_larger_one_by_bad_luck() {
    let sized = with(CAPE, &[("fabric loden", "sizes S, L\nfabric loden")]);
    let compiled = of(&sized);
    let (garment, sizes) = (&compiled.garment, compiled.sizes.iter().collect::<Vec<_>>());
    let order = LayOrder::default();
    let mut all: Vec<Needs> =
        sizes.iter().map(|size| needs_at_widths(garment, size, order, &[1150.0])).collect();
    let length = |need: &ClothNeed| need.laid.as_ref().unwrap().0.length;
    let searched = length(&needs(garment, sizes[0], order, &[1150.0]).cloths[0]);
    let before = length(&all[0].other_widths[0]);
    all[0].other_widths[0].laid.as_mut().unwrap().0.length = before + 500.0;
    even_out(garment, &sizes, &mut all, order);
    assert!((length(&all[0].other_widths[0]) - searched).abs() < 1e-9);
    // What is in order stays.
    let kept = length(&all[1].other_widths[0]);
    even_out(garment, &sizes, &mut all, order);
    assert!((length(&all[1].other_widths[0]) - kept).abs() < 1e-9);
}

/// Both side edges of a towel are hemmed unlike, so that its halves are told apart; on the fold they are one.
#[test]
fn what_is_set_on_the_fold_of_halves_that_differ_is_there_once() {
    let towel = r#"garment "Stoker's towel"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { back }
piece back "Towel" { cut 1 on fold left; drawn right; outline rectangle 30 by 60 }
finish back.bottom, back.top hem 1
finish back.right on left hem 1
finish back.right on right hem 2
notion "hanging chain" 1
set chain "hanging chain" at back.top at the fold
"#;
    assert_eq!(said(towel), NOTHING);
    assert_eq!(said(&with(towel, &[("on right hem 2", "on right hem 1")])), NOTHING);
    assert_eq!(said(&with(towel, &[("chain\" 1", "chain\" 2")])), ["notion/unset"]);
}

#[test]
fn a_finish_of_which_runs_leave_nothing_is_not_said_to_be_missing() {
    let bag = r#"garment "Stoker's bag"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { one, two }
piece one "One" { cut 1; outline rectangle 30 by 40 }
piece two "Two" { cut 1; outline rectangle 30 by 40 }
seam low one.bottom to two.bottom
seam right_side one.right 0..40 from top_right to two.right
finish one.right overlocked
finish one.left, two.left, one.top, two.top hem 1
steps { "All" { finish one.right; sew right_side, low; hem one.left, two.left, one.top, two.top } }
"#;
    assert_eq!(said(bag), ["run/nothing-left"], "{:?}", told(bag));
    // What nobody says how to finish is still told.
    assert!(said(&with(bag, &[("finish one.right overlocked\n", "")])).contains(&"step/nothing"));
}
