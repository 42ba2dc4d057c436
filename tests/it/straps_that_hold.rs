//! Straps that are held where they are caught, placed and fastened. Figures are by hand; every wrong case stands beside a sound
//! neighbour.

use crate::workbench::{NOTHING, cured, mistake, said, told, with};

/// A loop 2 wide needs 1 of the seam on both sides of its place; 2 mm of it may lie over the corner.
#[test]
fn a_strap_lies_within_the_seam_that_catches_it() {
    cured(
        "strap-over-corner",
        "strap/over-corner",
        &[(
            "from side.right at 0.4 from top_right caught in round to side.right at 0.4 from top_right",
            "from side.right at 0.9 from top_right caught in round to side.right at 0.9 from top_right",
        )],
    );
    // The lower corner is sewn round: it is caught on both sides of it.
    let low = with(
        &mistake("strap-over-corner"),
        &[(
            "from side.right at 0.4 from top_right caught in round to side.right at 0.4 from top_right",
            "from side.right at 0.4 from bottom_right caught in round to side.right at 0.4 from bottom_right",
        )],
    );
    assert_eq!(said(&low), NOTHING);
}

/// The band is 8 high and 4 once it is folded: of a tie 2.5 wide with its middle 2 from the fold 1.25 lie on each side of it, and
/// 3.9 is as much as there is.
#[test]
fn a_strap_is_no_wider_than_what_catches_it() {
    cured("strap-wide-caught", "strap/wide", &[("left_tie 70 by 6", "left_tie 70 by 2.5")]);
    let wide = with(&mistake("strap-wide-caught"), &[("left_tie 70 by 6", "left_tie 70 by 3.9")]);
    assert_eq!(said(&wide), NOTHING);
    // On the fold it would be caught by half: 8 × 48 % is 0.16 from the fold, and 1.25 − 0.16 lies beyond it.
    let fold = with(
        &mistake("strap-wide-caught"),
        &[("left_tie 70 by 6", "left_tie 70 by 2.5"), ("band.left at 25%", "band.left at 48%")],
    );
    assert_eq!(said(&fold), ["strap/over-corner"]);
}

/// Two panels side by side, each with a facing of its own: what lies over the seam between them is caught by both.
#[test]
fn a_strap_over_a_seam_is_caught_on_both_sides() {
    let bag = "garment \"Net bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150; kind woven firm }\n\
         layer outer in canvas { front, back, front_lip, back_lip }\n\
         piece front \"Front\" { cut 1; outline rectangle 30 by 40 }\npiece back \"Back\" { cut 1; outline rectangle 30 by 40 }\n\
         piece front_lip \"Front facing\" { cut 1; outline rectangle 30 by 5 }\n\
         piece back_lip \"Back facing\" { cut 1; outline rectangle 30 by 5 }\n\
         seam left  front.left to back.right\nseam right  front.right to back.left\nseam base  front.bottom to back.bottom\n\
         seam lips  front_lip.left to back_lip.right, front_lip.right to back_lip.left\n\
         seam front_mouth  front.top to front_lip.top\nseam back_mouth  back.top to back_lip.top\n\
         finish front_lip.bottom, back_lip.bottom  overlocked\n\
         strap loop 10 by 2 in outer folded in four { from front.top 0 from top_left caught in front_mouth to \
         front.top 0 from top_left caught in front_mouth }\n";
    assert!(!told(bag).iter().any(|(slug, _)| slug.starts_with("strap/")), "{:?}", told(bag));
}

/// 18 less the 3 that are sewn on are 15, and twice that is 30: half of the way of 2 × 15 over the back is 15, of which two of 10.5,
/// 7.5 without what is sewn on, have just as much.
#[test]
fn buckled_straps_meet_over_the_cloth_between_them() {
    let name = "closure-out-of-reach-buckled";
    let long = |long: &str| {
        [
            ("buckle_end 8 by", format!("buckle_end {long} by")),
            ("tongue_end 8 by", format!("tongue_end {long} by")),
        ]
    };
    let of = |each: &str| {
        let [first, second] = long(each);
        said(&with(&mistake(name), &[(first.0, &first.1), (second.0, &second.1)]))
    };
    assert_eq!(of("8"), ["closure/out-of-reach"]);
    assert_eq!(of("10.4"), ["closure/out-of-reach"]);
    assert_eq!(of("10.6"), NOTHING);
    assert_eq!(of("18"), NOTHING);
    assert!(told(&mistake(name))[0].1.contains("30 cm apart"), "{:?}", told(&mistake(name)));
    // On the two fronts, 5 from their edges, they close over the opening between these.
    let fronts = with(
        &mistake(name),
        &[
            ("outline rectangle 26 by 50 }", "outline rectangle 26 by 50; mark tab_at = (5, 20) }"),
            ("back.cinch_at on left", "front.tab_at on left"),
            ("back.cinch_at on right", "front.tab_at on right"),
        ],
    );
    assert_eq!(said(&fronts), NOTHING);
}

/// On a patch it hangs from where that lies: the mark is 26 above one 4 above the lower edge of the patch, which lies 2 above that of
/// the bag: 20 apart.
#[test]
fn a_strap_on_a_patch_hangs_from_what_the_patch_lies_on() {
    let bag = |long: &str| {
        format!(
            "garment \"Flare bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150; kind woven firm }}\n\
             layer outer in canvas {{ bag, patch }}\n\
             piece bag \"Bag\" {{ cut 1; outline rectangle 80 by 70; mark high = (40, 46); mark patch_low = (35, 2) }}\n\
             piece patch \"Patch\" {{ cut 1; outline rectangle 10 by 8; mark low = (5, 4) }}\n\
             place patch on bag {{ corner bottom_left at patch_low; topstitch all round }}\n\
             finish bag.left, bag.bottom, bag.right, bag.top  hem 1\n\
             strap short 9 by 2 in outer folded in four {{ from patch.low to free; sewn 3, boxed }}\n\
             strap sling {long} by 2 in outer folded in four {{ from bag.high to free; sewn 3, boxed }}\n\
             closure clip  short.top to sling.top {{ buckle 20mm }}\n"
        )
    };
    assert_eq!(said(&bag("9")), ["closure/out-of-reach"]);
    assert!(told(&bag("9"))[0].1.contains("40 cm apart"), "{:?}", told(&bag("9")));
    assert_eq!(said(&bag("17.1")), NOTHING);
}

#[test]
fn buckled_straps_lie_level_and_on_one_layer() {
    cured("strap-slant-sewn-on", "strap/slant", &[("back.cinch_high on right", "back.cinch_at on right")]);
    // 3 cm above one another is seen by nobody.
    assert_eq!(said(&with(&mistake("strap-slant-sewn-on"), &[("(15, 26)", "(15, 23)")])), NOTHING);
    cured("strap-layers", "strap/layers", &[("from lining.cover.cinch_at", "from outer.cover.cinch_at")]);
    let inside = [("from outer.cover.cinch_at", "from lining.cover.cinch_at")];
    assert_eq!(said(&with(&mistake("strap-layers"), &inside)), NOTHING);
    // Each 1 from the fold and 2 wide, with their marks 2 apart, they lie beside one another; 0.8 from it over one another.
    let beside = |at: &str| {
        let moved = [("from lining.cover.cinch_at", "from outer.cover.cinch_at"), ("(8, 20)", at)];
        said(&with(&mistake("strap-layers"), &moved))
    };
    assert_eq!(beside("(1, 20)"), NOTHING);
    assert_eq!(beside("(0.8, 20)"), ["strap/overlap"]);
}

#[test]
fn a_buckle_and_eyelets_have_their_time() {
    cured(
        "step-early-buckle",
        "step/early",
        &[("sew clip; place short, long", "place short, long; sew clip")],
    );
    cured(
        "step-early-eyelets",
        "step/early",
        &[
            ("sew round; turn", "set eyelets; sew round; turn"),
            ("slipstitch gap in round; set eyelets }", "slipstitch gap in round }"),
        ],
    );
    // Through the gap one reaches between the layers; and what no layer is named of may go through both.
    let late = [("slipstitch gap in round; set eyelets }", "set eyelets; slipstitch gap in round }")];
    assert_eq!(said(&with(&mistake("step-early-eyelets"), &late)), NOTHING);
    let both = [("outer.cover.corner_low, outer.cover.corner_high", "cover.corner_low, cover.corner_high")];
    assert_eq!(said(&with(&mistake("step-early-eyelets"), &both)), NOTHING);
}

/// Worked out, both come in time.
#[test]
fn the_order_that_is_worked_out_keeps_to_it() {
    for (name, steps) in [
        (
            "step-early-buckle",
            "steps {\n  \"Straps\"  { sew clip; place short, long }\n  \"Bag\"     { sew round; hem bag.top }\n}\n",
        ),
        (
            "step-early-eyelets",
            "steps {\n  \"Cover\" { sew round; turn through gap in round; slipstitch gap in round; set eyelets }\n}\n",
        ),
    ] {
        assert_eq!(said(&with(&mistake(name), &[(steps, "")])), NOTHING, "{name}");
    }
}

#[test]
fn sizes_are_called_as_the_body_grows() {
    cured("size-order", "size/order", &[("sizes L, M, S", "sizes S, M, L")]);
    let called = |sizes: &str| said(&with(&mistake("size-order"), &[("sizes L, M, S", sizes)]));
    assert_eq!(called("sizes 44, 42, 40"), ["size/order"]);
    assert_eq!(called("sizes 40, 42, 44"), NOTHING);
    // Of names that say no order, and of letters beside numbers, nothing is known.
    assert_eq!(called("sizes \"44 long\", M, short"), NOTHING);
    // Of rows that go both ways it is not known which is meant: a row that shrinks is told.
    let both = with(&mistake("size-order"), &[("waist 68, 74, 80", "waist 80, 74, 68")]);
    assert!(!said(&both).contains(&"size/order"), "{:?}", said(&both));
    // From the largest down both go together, which is told of the rows alone.
    let down = [("hip 92, 98, 104; waist 68, 74, 80", "hip 104, 98, 92; waist 80, 74, 68")];
    assert!(!said(&with(&mistake("size-order"), &down)).contains(&"size/order"));
}

#[test]
fn figures_that_nobody_has() {
    cured("piece-huge-sash", "piece/huge", &[("rectangle 1900 by", "rectangle 190 by")]);
    // Cloth for a turban is some 6 m long.
    assert_eq!(
        said(&with(&mistake("piece-huge-sash"), &[("rectangle 1900 by", "rectangle 600 by")])),
        NOTHING
    );
    cured("body-unlikely-child", "body/unlikely", &[("chest 90", "chest 66")]);
    let adult = [("wearer child from 6 to 9 years", "wearer adult")];
    assert_eq!(said(&with(&mistake("body-unlikely-child"), &adult)), NOTHING);
}

/// Without a row for the arm no arm is longer than 1 m, and no sleeve half as long again.
#[test]
fn a_sleeve_without_a_row_for_the_arm() {
    let sleeve = |reach: &str| {
        with(
            &mistake("length-out-of-use-sleeve"),
            &[("chest 92; arm 58", "chest 92"), ("let reach = arm + 24", &format!("let reach = {reach}"))],
        )
    };
    assert_eq!(said(&sleeve("240")), ["length/out-of-use"]);
    assert_eq!(said(&sleeve("70")), NOTHING);
    // Set in by a seam in front and one behind, as far as the neck.
    let raglan = |reach: &str| {
        with(
            &sleeve(reach),
            &[(
                "seam armhole   sleeve.front_cap + sleeve.back_cap to front.armhole + back.armhole { matching sleeve.top with front.tip }",
                "seam arm_front  sleeve.front_cap to front.armhole { matching sleeve.top with front.tip }\n\
                 seam arm_back  sleeve.back_cap to back.armhole { matching sleeve.top with back.tip }",
            )],
        )
    };
    assert_eq!(said(&raglan("240")), ["length/out-of-use"]);
    assert_eq!(said(&raglan("70")), NOTHING);
}

/// 2 wide with its mark 0.4 above the lower edge, 0.6 of it hang over that all the way to the other half.
#[test]
fn a_buckled_strap_along_an_edge_lies_on_the_cloth() {
    let at = |at: &str| {
        let changes = [
            ("buckle_end 8 by", "buckle_end 18 by"),
            ("tongue_end 8 by", "tongue_end 18 by"),
            ("(15, 20)", at),
        ];
        told(&with(&mistake("closure-out-of-reach-buckled"), &changes))
    };
    let low = at("(15, 0.4)");
    assert!(
        low.iter().any(|(slug, title)| *slug == "strap/off-edge" && title.contains("6 mm beside")),
        "{low:?}"
    );
    assert!(!at("(15, 1)").iter().any(|(slug, _)| *slug == "strap/off-edge"));
}
