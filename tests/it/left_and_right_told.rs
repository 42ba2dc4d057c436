//! Left and right, copies that are cut alike, and what lies at the wrong end: each is told at its place, with a way out that is
//! true, and what is sound beside it is not.

use crate::workbench::{NOTHING, cured, helps, mistake, said, told, with};

/// A belt of two lengths that are cut alike: joined in the middle, each folded lengthwise, closed, and turned.
const BELT: &str = r#"
garment "Belt of the night watch"
units cm
allowance 1
fabric terry "cotton terry" { width 150; nap none }
layer outer in terry { belt }
piece belt "Belt" { cut 2; outline rectangle 90 by 12; folded top to bottom }
seam middle  belt.right to belt.right
seam long    belt.top to belt.bottom { leaving gap 15 }
seam ends    belt.left across the fold
"#;

#[test]
fn one_of_two_alike_lengths_of_a_belt_is_turned_end_for_end() {
    assert_eq!(said(BELT), NOTHING);
    // So it is said too, or the other way round: a rectangle is the same from both ends.
    let matched = |one: &str, other: &str| {
        with(
            BELT,
            &[(
                "belt.right\nseam long",
                &format!("belt.right {{ matching belt.{one} with belt.{other} }}\nseam long"),
            )],
        )
    };
    assert_eq!(said(&matched("top_right", "bottom_right")), NOTHING);
    assert_eq!(said(&matched("top_right", "top_right")), NOTHING);
    assert_eq!(said(&with(BELT, &[("cut 2", "cut 2 mirrored")])), NOTHING);
}

#[test]
fn what_is_wrong_of_a_belt_of_two_lengths_is_told() {
    let changed = |old: &str, new: &str| said(&with(BELT, &[(old, new)]));
    assert_eq!(changed(" { leaving gap 15 }", ""), ["turn/closed"]);
    assert_eq!(changed("cut 2", "cut 3"), ["seam/pairing"]);
    assert_eq!(changed("seam ends    belt.left across the fold", ""), ["edge/loose"]);
    // Laid end on end, the long seam twists each length.
    assert_eq!(
        changed("{ leaving", "{ matching belt.top_right with belt.bottom_left; leaving"),
        ["seam/twisted"]
    );
    // One end slants: what is turned end for end is no longer as the other.
    let slanting = "point a = (0, 0); point b = (90, 0); point c = (90, 12); point d = (8, 12)\n  \
                    outline from a { bottom to b; right to c; top to d; left to a }\n  folded top to bottom";
    assert!(changed("outline rectangle 90 by 12; folded top to bottom", slanting).contains(&"pair/same"));
    let crooked = [
        ("outline rectangle 90 by 12; folded top to bottom", slanting),
        ("belt.right\nseam long", "belt.right { matching belt.c with belt.b }\nseam long"),
    ];
    assert!(said(&with(BELT, &crooked)).contains(&"seam/matching"));
}

#[test]
fn halves_that_are_each_sewn_to_themselves_are_told_there() {
    let text = mistake("seam-ring-each");
    assert_eq!(said(&text), ["seam/ring"]);
    let [help] = helps(&text).try_into().expect("one message");
    assert!(help.contains("in a ring at the end of seam shoulder, and half.neck in a ring"), "{help}");
    // The way out is true: the hood goes once round both necks of 32, and 64 let the head of 58 through.
    let ring = [
        ("half.right_top to half.left_top", "half.right_top to half.left_top in a ring"),
        ("to half.neck {", "to half.neck in a ring {"),
        ("opening half.neck", "opening half.neck in a ring"),
    ];
    assert_eq!(said(&with(&text, &ring)), NOTHING);
    // Two sleeves that are cut alike are tubes by themselves, and a slip in their cuffs is no matter of rings.
    let [(slug, title)] = told(&mistake("seam-left-to-right")).try_into().expect("one message");
    assert_eq!(slug, "seam/left-to-right", "{title}");
}

#[test]
fn left_and_right_that_are_exchanged_are_no_twist() {
    let right = [
        ("left_front.side to back.side on right", "left_front.side to back.side on left"),
        ("right_front.side to back.side on left", "right_front.side to back.side on right"),
    ];
    cured("seam-twisted-left-right", "seam/twisted", &right);
    // Nothing says where either is worn: both ways out are offered, and both are true.
    let text = mistake("seam-twisted-left-right");
    let [help] = helps(&text).try_into().expect("one message");
    assert!(
        help.contains("for Left front write on left in left_side, or on right in left_shoulder"),
        "{help}"
    );
    let shoulders = [
        ("left_front.shoulder to back.shoulder on left", "left_front.shoulder to back.shoulder on right"),
        ("right_front.shoulder to back.shoulder on right", "right_front.shoulder to back.shoulder on left"),
    ];
    assert_eq!(said(&with(&text, &shoulders)), NOTHING);
    // Where it is drawn settles it.
    let drawn = [
        ("outline rectangle 34 by 50", "drawn left\n  outline rectangle 34 by 50"),
        ("outline rectangle 28 by 50", "drawn right\n  outline rectangle 28 by 50"),
    ];
    let [help] = helps(&with(&text, &drawn)).try_into().expect("one message");
    assert_eq!(
        help,
        "for Left front write on left in left_side; for Right front write on right in right_side"
    );
}

#[test]
fn what_is_cut_once_is_worn_as_it_is_drawn() {
    cured("side-turned-once", "side/turned", &[("34 by 60\n  drawn left", "34 by 60\n  drawn right")]);
    // A pair says which of its copies is drawn, and is sewn on both sides.
    let text = mistake("side-turned-once");
    assert_eq!(said(&with(&text, &[("34 by 60\n  drawn left", "34 by 60")])), NOTHING);
}

#[test]
fn buttons_and_buttonholes_lie_at_one_height() {
    let level = [("from (29, 6) to (29, 20)", "from (29, 4) to (29, 18)")];
    cured("button-sides-level", "button/sides", &level);
    let [(_, title)] = told(&mistake("button-sides-level")).try_into().expect("one message");
    assert_eq!(title, "the buttons of wrap lie 2 cm higher on Right front than on Left front");
    // Only the part of a line counts on which they stand: one that goes on up to the shoulder is as good.
    let long = [("from (29, 6) to (29, 20)", "from (29, 4) to (29, 40)")];
    assert_eq!(said(&with(&mistake("button-sides-level"), &long)), NOTHING);
    // A line that begins lower is no matter, where the place is counted from the corner.
    let lower = [
        ("from (29, 6) to (29, 20)", "from (29, 2) to (29, 40)"),
        ("from 16 above bottom_left", "from 2 below bottom_left"),
    ];
    assert!(said(&with(&mistake("button-sides-level"), &lower)).contains(&"button/beyond"));
}

#[test]
fn lines_of_unlike_length_need_go_no_further_than_their_buttons() {
    // Nothing is sewn to both fronts, so that no heights are known.
    let text = with(
        &mistake("button-sides"),
        &[
            ("30 by 60\n", "30 by 60\n  line row along at (28, 0)\n"),
            ("30 by 62\n", "30 by 62\n  line row along at (28, 0)\n"),
            ("left_front.right to right_front.right", "left_front.row to right_front.row"),
            ("finish left_front.left,", "finish left_front.right, right_front.right, left_front.left,"),
            (" stand 2", ""),
        ],
    );
    let all = told(&text);
    let at = all.iter().position(|(slug, _)| *slug == "button/sides").expect("they differ by 2 cm");
    assert!(helps(&text)[at].contains("line … from … to …"), "{:?}", helps(&text));
    let drawn = with(
        &text,
        &[
            ("line row along at (28, 0)", "line row from (28, 0) to (28, 60)"),
            ("line row along at (28, 0)", "line row from (28, 0) to (28, 60)"),
        ],
    );
    assert!(!said(&drawn).contains(&"button/sides"));
}

#[test]
fn two_rows_on_one_line_keep_clear_of_one_another() {
    // On a line of its own, 6 cm beside, the second row is sound.
    let beside = [
        ("line centre along at (3, 0)", "line centre along at (3, 0); line inner along at (9, 0)"),
        ("more   front.centre to front.centre", "more   front.inner to front.inner"),
    ];
    cured("button-close-rows", "button/close", &beside);
    let [(_, title)] = told(&mistake("button-close-rows")).try_into().expect("one message");
    assert_eq!(title, "snaps and more come within 1 cm of one another on Front");
}

#[test]
fn a_band_closed_to_a_ring_holds_its_zip_shut() {
    let text = mistake("closure-across");
    assert_eq!(said(&text), ["closure/across"]);
    // On the other side of the body, and on both, it is the same.
    assert_eq!(said(&with(&text, &[("on left {", "on right {")])), ["closure/across"]);
    assert_eq!(said(&with(&text, &[("on left {", "{")])), ["closure/across"]);
    // The zip goes on between the ends of the band: 20 and half of 7.
    let open = [
        ("closure zip   front.right", "closure zip   band.left + front.right"),
        (
            "to back.right 20 from top_right on left { zipper concealed 20 }",
            "to band.right + back.right 20 from top_right on left { zipper concealed 23.5 }",
        ),
        ("seam ends     band.left to band.right\n", ""),
        ("sew zip, side", "sew side"),
        ("sew ends, waist", "sew waist, zip"),
    ];
    assert_eq!(said(&with(&text, &open)), NOTHING);
}

/// A pullover that opens in front from the neck down to a band that goes round.
const PULLOVER: &str = r#"
garment "Lookout's pullover"
units cm
allowance 1
body { head 57 }
fabric fleece "fleece" { width 150; nap none; kind knit; stretch 30% across, 10% along }
layer outer in fleece { front, back, band }
piece front "Front" {
  cut 2 mirrored
  outline rectangle 26 by 55
  divide top 10 from left into neckline, shoulder
  divide right 24 from top_right into armhole, side
}
piece back "Back" {
  cut 1 on fold left
  outline rectangle 26 by 55
  divide top 10 from left into neckline, shoulder
  divide right 24 from top_right into armhole, side
}
piece band "Hem band" { cut 1; grain across; outline rectangle 104 by 10; folded top to bottom }
seam shoulder  front.shoulder to back.shoulder { stitch 504 }
seam side      front.side to back.side
seam ends      band.left to band.right
seam hem       band.bottom and band.top to front.bottom + back.bottom { matching band.bottom_left with front.bottom_left }
finish front.neckline, back.neckline, front.armhole, back.armhole  bound 1
closure zip    front.left to front.left { zipper closed 55 }
"#;

#[test]
fn what_opens_at_the_neck_may_be_held_by_a_band_at_the_hem() {
    assert_eq!(said(PULLOVER), NOTHING);
}

#[test]
fn a_band_holds_buttons_shut_as_well() {
    let buttons = "{ buttons 3 of 15mm from 2 below top_right to 16 below top_right stand 1.5 }";
    let text = with(&mistake("closure-across"), &[("{ zipper concealed 20 }", buttons)]);
    assert!(said(&text).contains(&"closure/across"), "{:?}", told(&text));
}

#[test]
fn a_sleeve_hangs_with_its_seam_under_the_arm() {
    let under = [("sleeve.top_left with front.tip", "sleeve.top_left with front.underarm")];
    cured("seam-at-shoulder", "seam/at-shoulder", &under);
    // What is told to match is the underarm.
    let [help] = helps(&mistake("seam-at-shoulder")).try_into().expect("one message");
    assert!(help.ends_with(".underarm"), "{help}");
}

#[test]
fn a_tack_holds_what_lies_there() {
    let there = [("outer.apron.bottom at 10 from bottom_left", "outer.apron.right at 20 from top_right")];
    cured("tack-far", "tack/far", &there);
    // By Pythagoras from (60, 30) to (10, 0) it is 58.3 cm; no less is told than shows at the corners that are sewn together:
    // from the upper left one √(60² + 20²) = 63.2 and √(10² + 50²) = 51.0, from the lower left one 67.1 and 10.0.
    let [(_, title)] = told(&mistake("tack-far")).try_into().expect("one message");
    assert_eq!(title, "hold draws together two places that lie at least 57.1 cm apart");
}

#[test]
fn what_is_sewn_on_of_a_straight_strap_lies_on_its_piece() {
    let further_in = [("(1, 15)", "(4, 15)"), ("(39, 15)", "(36, 15)")];
    cured("strap-off-edge-end", "strap/off-edge", &further_in);
    // A handle stands up from its marks, and may be sewn on downwards.
    assert_eq!(said(&with(&mistake("strap-off-edge-end"), &[("strap grip 44", "strap grip 60")])), NOTHING);
}

#[test]
fn a_hood_holds_the_head_that_it_is_drawn_to() {
    cured("hood-small", "hood/small", &[("head/2 - 12", "head/2 + 4")]);
    let [(_, title)] = told(&mistake("hood-small")).try_into().expect("one message");
    assert_eq!(title, "Hood is 14 cm high at the face, for a head of 52 cm");
}

#[test]
fn lines_that_match_one_corner_otherwise_are_told_together() {
    let smock = mistake("seam-at-shoulder");
    let matched = |more: &str| {
        with(
            &smock,
            &[(
                "matching sleeve.top_left with front.tip",
                &format!("matching sleeve.top_left with front.underarm; {more}"),
            )],
        )
    };
    assert_eq!(said(&matched("matching sleeve.top_left with front.tip")), ["seam/matching"]);
    // Both ends of the sleeve's edge lie in one place, once its own seam is sewn.
    assert_eq!(said(&matched("matching sleeve.top_right with front.tip")), ["seam/matching"]);
    assert_eq!(said(&matched("matching sleeve.top_right with back.underarm")), NOTHING);
}

#[test]
fn two_pockets_have_two_places() {
    cured(
        "place-over-pocket-same",
        "place/over-pocket",
        &[(
            "pencil on apron { corner bottom_left at rule_at",
            "pencil on apron { corner bottom_left at pencil_at",
        )],
    );
}

/// An apron of two layers with a pocket on each, the inner one behind the outer one.
const TWO_LAYERS: &str = r#"
garment "Purser's apron"
units cm
allowance 1
fabric drill "cotton drill" { width 150; nap none; kind woven firm }
layer outer in drill { apron, change }
layer lining in drill { apron, papers }
piece apron "Apron" { cut 1; outline rectangle 60 by 60; mark low = (10, 20); mark high = (12, 22) }
piece change "Change pocket" { cut 1; outline rectangle 14 by 14 }
piece papers "Pocket for papers" { cut 1; outline rectangle 14 by 14 }
seam edge  outer.apron to lining.apron along left + top + right
finish outer.apron.bottom, lining.apron.bottom  hem 2
finish change.top, papers.top  hem 2
place change on outer.apron { corner bottom_left at low; topstitch left, bottom, right }
place papers on lining.apron { corner bottom_left at high; topstitch left, bottom, right }
"#;

#[test]
fn pockets_on_two_layers_lie_on_two_cloths() {
    assert_eq!(said(TWO_LAYERS), NOTHING);
    assert_eq!(
        said(&with(
            TWO_LAYERS,
            &[(
                "papers on lining.apron { corner bottom_left at high",
                "papers on lining.apron { corner bottom_left at low"
            )]
        )),
        NOTHING
    );
    // On one cloth the one is stitched through the other.
    assert_eq!(
        said(&with(TWO_LAYERS, &[("papers on lining.apron", "papers on outer.apron")])),
        ["place/over-pocket"]
    );
}

#[test]
fn a_piece_has_one_allowance() {
    let apron = |more: &str| {
        with(
            TWO_LAYERS,
            &[(
                "cut 1; outline rectangle 60 by 60",
                &format!("cut 1; allowance 1.5{more}; outline rectangle 60 by 60"),
            )],
        )
    };
    assert_eq!(said(&apron("")), NOTHING);
    assert_eq!(said(&apron("; allowance 2")), ["name/declared-twice"]);
}

#[test]
fn a_corner_is_cut_in_one_way() {
    let pocket = |more: &str| {
        with(
            TWO_LAYERS,
            &[(
                "cut 1; outline rectangle 14 by 14",
                &format!("cut 1; outline rectangle 14 by 14; corner bottom/right square{more}"),
            )],
        )
    };
    assert_eq!(said(&pocket("; corner bottom/left mitred")), NOTHING);
    assert_eq!(said(&pocket("; corner right/bottom mitred")), ["name/declared-twice"]);
}

#[test]
fn beyond_a_fold_the_cloth_goes_on() {
    // In the middle of a line of 14 mm the snap lies 7 mm from the fold, and 14 from the same one beyond it, where it needs its
    // width of 9 and 2 more; in the middle of one of 8 mm it lies 4 and 8.
    let crotch = |long: &str| {
        let piece = |name: &str, title: &str| {
            format!(
                "piece {name} \"{title}\" {{ cut 1 on fold left; outline rectangle 8 by 20; line row from (0, 1.5) to ({long}, 1.5) }}"
            )
        };
        format!(
            "garment \"Skipper's baby's romper, its crotch\"\nunits cm\nallowance 1\n\
             fabric jersey \"single jersey\" {{ width 150; kind knit; stretch 40% across, 15% along; nap none }}\n\
             layer outer in jersey {{ front, back }}\n{}\n{}\n\
             seam side  front.right to back.right\n\
             finish front.bottom, back.bottom  hem 2.5\nfinish front.top, back.top  hem 1\n\
             closure crotch  front.row to back.row {{ snaps 1 of 9mm }}\n",
            piece("front", "Front"),
            piece("back", "Back")
        )
    };
    assert!(!said(&crotch("1.4")).contains(&"button/edge"), "{:?}", told(&crotch("1.4")));
    assert!(said(&crotch("0.8")).contains(&"button/edge"), "{:?}", told(&crotch("0.8")));
}

#[test]
fn a_pocket_lies_on_one_side_of_the_body() {
    let right = [("from top_right on left", "from top_right on right")];
    cured("run-uneven-sides", "run/uneven", &right);
    let [help] = helps(&mistake("run-uneven-sides")).try_into().expect("one message");
    assert_eq!(help, "take them out on one side of the body: write on left, or on right, for both");
}

#[test]
fn a_side_is_said_once_of_an_edge() {
    let text = mistake("side-turned");
    let sound = with(&text, &[("24 by 60\n  drawn left\n}\nseam", "24 by 60\n  drawn right\n}\nseam")]);
    assert_eq!(said(&sound), NOTHING);
    let twice = with(
        &sound,
        &[("front.right to back.right on left", "front.right on right to back.right on right on left")],
    );
    assert!(said(&twice).contains(&"name/declared-twice"), "{:?}", told(&twice));
    let finish = with(&sound, &[("back.right on right  hem 2", "back.right on right  hem 2 on left")]);
    assert!(said(&finish).contains(&"name/declared-twice"), "{:?}", told(&finish));
}

/// Of three plies each goes the way that it is said to match, whichever ply that names: corners that are called alike, as the
/// bottom right ones of the first two, say less.
#[test]
fn what_is_matched_with_any_ply_comes_before_names_that_are_alike() {
    let text = |matching: &str| {
        format!(
            "garment \"Patchwork awning\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ a, b, c }}\n\
             piece a \"A\" {{ cut 1; outline rectangle 20 by 20 }}\n\
             piece b \"B\" {{ cut 1; outline rectangle 20 by 20 }}\n\
             piece c \"C\" {{ cut 1; outline rectangle 20 by 20 }}\n\
             seam s  a.bottom and b.right to c.top {{ {matching} }}\n\
             finish a.left, a.top, a.right, b.left, b.top, b.bottom, c.left, c.right, c.bottom  raw\n"
        )
    };
    // Drawn counterclockwise, the bottom begins at bottom_left, the right at bottom_right, the top at top_right.
    let begins = ["matching a.bottom_left with c.top_right", "matching b.bottom_right with c.top_right"];
    for order in [[0, 1], [1, 0]] {
        let garment = text(&order.map(|at| begins[at]).join("; "));
        let compiled = crate::workbench::of(&garment);
        assert_eq!(crate::workbench::said(&garment), [""; 0]);
        let seam = &compiled.sizes[0].sewn.seams[0];
        let ways: Vec<bool> = [&seam.first, &seam.second]
            .iter()
            .flat_map(|side| &side.plies)
            .map(|ply| ply.runs[0].reversed)
            .collect();
        assert_eq!(ways, [false; 3], "all three from where they begin");
    }
}
