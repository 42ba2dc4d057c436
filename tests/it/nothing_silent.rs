//! Wrong garments that passed without a word, each beside the sound one: rims sewn shut, welts that lie upside down in
//! their window, gaps that open into nothing, figures that nobody has.

use crate::workbench::{NOTHING, cured, example, mistake, said, told, with};

/// A vest with a welt that fills a window: both its long edges to the window's far side.
const VEST: &str = "garment \"Deck vest\"
units cm
allowance 1
fabric canvas \"apron canvas\" { width 150 }
fabric cotton \"blue cotton\" { width 150 }
layer outer in canvas { front, back, welt }
layer pockets in cotton { bag_front, bag_back }
piece front \"Front\" { cut 2 mirrored; outline rectangle 26 by 56; slit pocket from (6, 24) to (20, 24) window 2 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 26 by 56 }
piece welt \"Pocket welt\" { cut 2 mirrored; outline rectangle 14 by 4; folded top to bottom }
piece bag_front \"Front pocket bag\" { cut 2 mirrored; outline rectangle 14 by 16 }
piece bag_back \"Back pocket bag\" { cut 2 mirrored; outline rectangle 14 by 16 }
seam side  front.right to back.right
seam welt_on  outer.welt.bottom and outer.welt.top to outer.front.pocket.far {
  matching outer.welt.bottom_left with outer.front.pocket.start_far
}
seam bag_on  pockets.bag_back.top to outer.front.pocket.near {
  matching pockets.bag_back.top_left with outer.front.pocket.start_near
}
seam welt_start  welt.left to front.pocket.start { matching welt.bottom_left with front.pocket.start_far }
seam welt_end  welt.right to front.pocket.end { matching welt.bottom_right with front.pocket.end_far }
seam bag  bag_front.left + bag_front.bottom + bag_front.right to bag_back.left + bag_back.bottom + bag_back.right {
  matching bag_front.top_left with bag_back.top_left
}
finish bag_front.top overlocked
finish front.left, front.top, back.top, front.bottom, back.bottom  bound 1
";

/// The bag that hangs on the welt is caught in its seam.
const BAG: [(&str, &str); 2] = [
    (
        "outer.welt.bottom and outer.welt.top to",
        "outer.welt.bottom and outer.welt.top and pockets.bag_front.top to",
    ),
    ("finish bag_front.top overlocked\n", ""),
];

/// Its ends lie with the edges on the window's near side, where only the bag is sewn.
const TURNED: [(&str, &str); 2] = [
    ("welt.bottom_left with front.pocket.start_far", "welt.bottom_left with front.pocket.start_near"),
    ("welt.bottom_right with front.pocket.end_far", "welt.bottom_right with front.pocket.end_near"),
];

#[test]
fn a_folded_end_lies_with_its_edges_where_they_are_matched() {
    for vest in [VEST.to_owned(), with(VEST, &BAG)] {
        assert_eq!(said(&vest), NOTHING);
        // The other corner of an end lies at the same edge.
        let other =
            [("welt.bottom_left with front.pocket.start_far", "welt.top_left with front.pocket.start_far")];
        assert_eq!(said(&with(&vest, &other)), NOTHING);
        for at in 0..2 {
            assert_eq!(said(&with(&vest, &TURNED[at..=at])), ["seam/twisted"], "{at}");
        }
        let both = said(&with(&vest, &TURNED));
        assert!(!both.is_empty() && both.iter().all(|slug| *slug == "seam/twisted"), "{both:?}");
    }
}

#[test]
fn what_a_body_goes_through_is_not_sewn_shut() {
    cured(
        "seam-shuts-body",
        "seam/shuts-body",
        &[("seam hem         front.hem to back.hem\n", "finish front.hem, back.hem  hem 3\n")],
    );
    cured(
        "seam-shuts-rim",
        "seam/shuts-rim",
        &[
            ("seam arm         front.armhole to back.armhole\n", ""),
            (
                "front.neckline, back.neckline  bound",
                "front.neckline, back.neckline, front.armhole, back.armhole  bound",
            ),
        ],
    );
}

#[test]
fn trousers_are_stepped_into_by_their_waist() {
    let trousers = example("oilskin-trousers");
    let steps = trousers.find("steps {").expect("steps");
    let trousers = &trousers[..steps];
    let waist = "finish front.waist, back.waist  casing 4 for elastic 3.5 of waist * 90%";
    assert_eq!(said(trousers), NOTHING);
    let shut = told(&with(trousers, &[(waist, "seam waist front.waist to back.waist")]));
    assert_eq!(shut.len(), 1, "{shut:?}");
    assert_eq!(shut[0].0, "seam/shuts-body");
    assert!(shut[0].1.contains("no hip goes through"), "{shut:?}");
}

#[test]
fn a_gap_leads_into_what_is_to_be_turned() {
    cured("gap-outside", "gap/outside", &[("gap 14 in outer", "gap 14 in lining")]);
    let roll = mistake("gap-needless-ply");
    assert_eq!(said(&roll), ["gap/needless"]);
    assert_eq!(said(&with(&roll, &[("gap 14 in under", "gap 14 in lining")])), NOTHING);
}

#[test]
fn figures_are_those_of_a_body_and_of_use() {
    cured("body-unlikely", "body/unlikely", &[("hip 900", "hip 90"), ("hip/10", "hip/2")]);
    // Unlikely is what is below the least and above the most.
    for (hip, slugs) in
        [("24.9", &["body/unlikely"][..]), ("25.1", &[]), ("259", &[]), ("261", &["body/unlikely"])]
    {
        assert_eq!(
            said(&with(&mistake("body-unlikely"), &[("hip 900", &format!("hip {hip}"))])),
            slugs,
            "{hip}"
        );
    }
    cured("length-out-of-use", "length/out-of-use", &[("900 by 3", "90 by 3")]);
}

#[test]
fn a_hand_goes_through_a_cuff() {
    // A hand of 1.15 × 16 = 18.4 cm at the least goes over a wrist of 16 cm.
    cured(
        "opening-narrow",
        "opening/narrow",
        &[("(0, 0)", "(-1.25, 0)"), ("(wrist, 0)", "(wrist + 1.25, 0)")],
    );
    // A hand that is measured counts instead.
    let hand = [("wrist 16 }", "wrist 16; hand 15 }")];
    assert_eq!(said(&with(&mistake("opening-narrow"), &hand)), ["opening/unsaid"]);
}

#[test]
fn straps_hang_where_they_are_meant_and_over_hems() {
    cured(
        "strap-same-place",
        "strap/same-place",
        &[(
            "60 by 3 in outer folded in four { from cloth.top_left",
            "60 by 3 in outer folded in four { from cloth.top_right",
        )],
    );
    cured(
        "strap-before-hem",
        "strap/before-hem",
        &[
            ("\"Ties\" { place tie }; ", ""),
            ("cloth.bottom, cloth.top } }", "cloth.bottom, cloth.top }; \"Ties\" { place tie } }"),
        ],
    );
}

#[test]
fn a_slit_lies_at_the_back_of_the_arm() {
    cured("slit-front", "slit/front", &[("10 from bottom_left", "10 from bottom_right")]);
    let shirt = example("purser-shirt");
    assert!(!said(&shirt).contains(&"slit/front"));
    assert!(
        said(&with(&shirt, &[("at 6.5 from back_arm", "at 6.5 from front_arm")])).contains(&"slit/front")
    );
}

#[test]
fn a_fold_does_not_lie_over_an_open_end() {
    cured(
        "seam-fold-end-opening",
        "seam/fold-end",
        &[
            (
                "(skirt.top 15 from top_right and bib.low) + skirt.top",
                "skirt.top + (skirt.top 15 from top_left and bib.low)",
            ),
            ("; matching skirt.top_right with bib.low_cf", ""),
        ],
    );
    // A hood that is open in front ends where the front lies on the fold.
    assert!(!said(&example("deck-hood")).contains(&"seam/fold-end"));
}

#[test]
fn what_is_fused_on_is_not_sewn() {
    cured("part-missing-fused-seam", "part/missing", &[("firm.a.right", "outer.a.right")]);
}
