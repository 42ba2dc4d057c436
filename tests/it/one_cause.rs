//! One slip, one message: what only follows from it is held back, and what it spoils in several places is told once;
//! each beside the same garment without the slip.

use crate::workbench::{NOTHING, helps, mistake, said, told, with};

/// Gaiters of two panels, lined, with a strap under the boot.
const GAITERS: &str = r#"garment "Stoker's gaiters"
units cm
allowance 1
fabric drill "oiled drill" { width 150; kind woven firm }
layer outer in drill { inner, back }
layer lining in drill { inner, back }
piece inner "Inside panel" {
  cut 2 mirrored
  point low_front = (0, 0)
  point low_back  = (12, 0)
  point up_back   = (12, 30)
  point up_front  = (0, 30)
  outline from low_front { foot to low_back; back to up_back; knee to up_front; front to low_front }
}
piece back "Back panel" {
  cut 2 mirrored
  point low_inner = (0, 0)
  point low_outer = (12, 0)
  point up_outer  = (12, 30)
  point up_inner  = (0, 30)
  outline from low_inner { foot to low_outer; side to up_outer; knee to up_inner; seam to low_inner }
}
seam back_seam inner.back to back.seam { matching inner.low_back with back.low_inner }
seam top   outer.inner.knee + outer.back.knee to lining.inner.knee + lining.back.knee
seam foot  outer.inner.foot + outer.back.foot to lining.inner.foot + lining.back.foot
seam front outer.inner.front to lining.inner.front
seam side  outer.back.side to lining.back.side { leaving gap 20 in the middle in lining }
strap stirrup "Strap" 26 by 2.5 in outer folded in four {
  from outer.inner.foot at 50% caught in foot to outer.back.foot at 50% caught in foot
}
"#;

/// What is told of it besides that its order of work is not said.
fn wrong(text: &str) -> Vec<&'static str> {
    said(text).into_iter().filter(|slug| *slug != "steps/none").collect()
}

#[test]
fn the_gaiters_are_sound() {
    assert_eq!(wrong(GAITERS), NOTHING);
}

#[test]
fn a_layer_that_lacks_a_piece_is_told_once() {
    let lacking = with(GAITERS, &[("lining in drill { inner, back }", "lining in drill { inner }")]);
    assert_eq!(wrong(&lacking), ["part/missing"], "three seams and both ends of the strap come of it");
}

#[test]
fn ends_matched_wrongly_are_told_where_they_are_matched() {
    let turned = with(GAITERS, &[("with back.low_inner", "with back.up_inner")]);
    assert_eq!(wrong(&turned), ["seam/wrong-ends"]);
    assert!(helps(&turned).iter().any(|help| help.contains("matching inner.low_back with back.low_inner")));
}

#[test]
fn a_gap_that_is_not_left_is_told_once() {
    let steps = "steps { \"All\" { place stirrup; sew back_seam, top, foot, front, side; turn through gap in side; slipstitch gap in side } }\n";
    let text = with(GAITERS, &[(" { leaving gap 20 in the middle in lining }", "")]) + steps;
    let of_gap = told(&text).into_iter().filter(|(slug, _)| *slug == "step/nothing").count();
    assert_eq!(of_gap, 1);
}

/// A sleeveless smock of two panels with a strip round its neck, whose seams take all its edges.
const SMOCK: &str = r#"garment "Deck smock"
units cm
allowance 1
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { front, back, strip }
piece front "Front" { cut 2 mirrored; outline rectangle 30 by 60 }
piece back "Back" { cut 2 mirrored; outline rectangle 30 by 60 }
piece strip "Strip" { cut 1 on fold left; outline rectangle 60 by 8 }
seam side    front.right to back.right
seam middle  front.left to front.left
seam spine   back.left to back.left
seam round   strip.bottom to front.top + back.top
finish front.bottom, back.bottom, strip.top  hem 1
finish strip.right  raw
"#;

#[test]
fn allowances_that_differ_for_one_cause_are_told_once() {
    let text = with(SMOCK, &[("piece back \"Back\" { cut", "piece back \"Back\" { allowance 0.6; cut")]);
    let of_allowance = told(&text).into_iter().filter(|(slug, _)| *slug == "seam/allowance").count();
    assert_eq!(of_allowance, 1, "the side and the round seam lay 6 mm on 1 cm");
}

/// The body of a garment in four sizes.
fn in_sizes(row: &str) -> String {
    format!(
        "garment \"Apron\"\nunits cm\nallowance 1\nsizes 36, 40, 44, 48\nbody {{ waist {row} }}\n\
         fabric canvas \"apron canvas\" {{ width 150 }}\nlayer outer in canvas {{ cloth }}\n\
         piece cloth \"Cloth\" {{ cut 1; outline rectangle waist/2 by 60 }}\n\
         finish cloth.left, cloth.right, cloth.top, cloth.bottom  hem 1\n"
    )
}

#[test]
fn a_figure_beside_its_row_is_told() {
    // 84 is meant: 8, 8 and 10 apart. With 80 the steps are 8, 4 and 14.
    let all = told(&in_sizes("68, 76, 80, 94"));
    assert!(
        all.iter().any(|(slug, title)| *slug == "size/irregular" && title.contains("in size 44")),
        "{all:?}"
    );
    assert_eq!(wrong(&in_sizes("68, 76, 84, 94")), NOTHING);
}

#[test]
fn cloth_shrinks_by_no_third() {
    let towel = mistake("cloth-odd");
    let shrinks = |by: &str| with(&towel, &[("thickness 8", &format!("shrink {by} along"))]);
    assert_eq!(said(&shrinks("30%")), ["cloth/odd"]);
    assert_eq!(said(&shrinks("3%")), NOTHING);
}

#[test]
fn a_dart_is_directed_to_a_point_in_reach() {
    let skirt = mistake("dart-far");
    assert_eq!(said(&skirt), ["dart/far"]);
    assert_eq!(said(&with(&skirt, &[("(12, 20)", "(12, 50)")])), NOTHING);
}

#[test]
fn a_child_is_said_to_be_one() {
    let apron = mistake("wearer-child-size");
    assert_eq!(said(&apron), ["wearer/child-size"]);
    assert_eq!(
        said(&with(&apron, &[("wearer adult\n", "")])),
        ["wearer/child-size"],
        "where nothing is said, too"
    );
    assert_eq!(said(&with(&apron, &[("adult", "child from 2 to 7 years")])), ["caution/cord"]);
    assert_eq!(said(&with(&apron, &[("stature 98, 110", "stature 164, 176")])), NOTHING);
}

#[test]
fn an_underlap_is_closed() {
    let skirt = mistake("band-unclosed");
    assert_eq!(wrong(&skirt), ["band/unclosed"]);
    let hooked = skirt.clone() + "closure hook waistband.left to waistband.right { hooks 1 }\n";
    assert_eq!(wrong(&hooked), NOTHING);
    // Ends that meet are told of as such.
    assert_eq!(wrong(&with(&skirt, &[(" underlap 4 at left", "")])), ["closure/unclosed"]);
}

#[test]
fn elastic_is_not_lost_in_its_casing() {
    let skirt = mistake("casing-wide");
    assert_eq!(wrong(&skirt), ["casing/wide"]);
    assert_eq!(wrong(&with(&skirt, &[("casing 25", "casing 2.5")])), NOTHING);
}

#[test]
fn a_notch_has_one_to_meet() {
    let smock = mistake("notch-unmet");
    assert_eq!(wrong(&smock), ["notch/unmet"]);
    let both = with(&smock, &[("  notch cap_front 6 from front_under\n", "")]);
    assert_eq!(wrong(&both), NOTHING);
}

#[test]
fn an_opening_under_a_yoke_is_finished_before_it() {
    // The seam goes straight on over the upper ends of both edges.
    let text = "garment \"Yoke over two halves\"\nunits cm\nallowance 1\nfabric wool \"navy wool\" { width 150; kind woven firm }\n\
         layer outer in wool { yoke, back }\npiece yoke \"Yoke\" { cut 1 on fold left; outline rectangle 20 by 12 }\n\
         piece back \"Back\" { cut 2 mirrored; outline rectangle 20 by 40 }\n\
         seam across back.top to yoke.bottom { matching back.top_left with yoke.bottom_left }\n\
         finish back.left, back.right, back.bottom, yoke.top, yoke.right hem 1\n";
    let late = |first: &str, then: &str| {
        format!(
            "{text}steps {{ \"One\" {{ {first} }}; \"Two\" {{ {then} }}; \"Hems\" {{ hem back.right, back.bottom, yoke.top, yoke.right }} }}\n"
        )
    };
    assert_eq!(said(&late("sew across", "hem back.left")), ["step/early"]);
    assert_eq!(said(&late("hem back.left", "sew across")), NOTHING);
}

#[test]
fn lines_to_adjust_at_meet_on_their_seam() {
    let skirt = mistake("alter-adjust-uneven");
    assert_eq!(wrong(&skirt), ["alter/adjust-uneven"]);
    assert_eq!(wrong(&with(&skirt, &[("(0, 25)", "(0, 20)")])), NOTHING);
}

#[test]
fn the_side_of_a_place_on_an_edge_stands_before_it_or_behind_it() {
    let said_as = |place: &str| {
        with(
            GAITERS,
            &[("inner.foot at 50% caught in foot to", &format!("inner.foot {place} caught in foot to"))],
        )
    };
    // One end on the left, the other on either side: the strap has no two places.
    assert_eq!(wrong(&said_as("at 50% on left")), ["strap/place"]);
    assert_eq!(wrong(&said_as("on left at 50%")), ["strap/place"]);
}

/// A number where a length is needed is told once, with the `let` that makes it one, however often that is used.
#[test]
fn a_plain_number_is_told_where_it_is_said() {
    let text = "garment \"Brim\"\nunits cm\nallowance 1\nfabric c \"canvas\" { width 150 }\nlayer o in c { disc }\n\
                let across = 26 / pi\npiece disc {\n  cut 1\n  outline rectangle across by 2*across\n}\n\
                finish disc.left, disc.right, disc.top, disc.bottom raw\n";
    assert_eq!(said(text), ["unit/bare"]);
    assert_eq!(said(&with(text, &[("26 / pi", "26cm / pi")])), NOTHING);
}
