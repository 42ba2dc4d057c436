//! Edges taken in the wrong layer, in the wrong row or upside down, and what is asked of openings that
//! stay open: what is refused, and the sound garment beside it.

use crate::workbench::{NOTHING, mistake, said, with};

#[test]
fn the_shells_side_is_sewn_to_the_shell_and_the_linings_to_the_lining() {
    let mitt = mistake("seam-crossed-exchanged");
    assert_eq!(said(&mitt), ["seam/crossed"]);
    let sound = with(
        &mitt,
        &[
            ("to lining.back.left", "to behind.back.left"),
            ("lining.front.left to behind.back.left", "lining.front.left to lining.back.left"),
        ],
    );
    assert_eq!(said(&sound), NOTHING);
    // A loop that the seam is to catch is caught once it takes the right layer: only that is said.
    let loops = |mitt: &str| {
        let text = with(
            mitt,
            &[
                ("layer behind in ticking { back }", "layer behind in ticking { back, hanger }"),
                (
                    "cut 1; outline rectangle 20 by 30 }\nseam",
                    "cut 1; outline rectangle 20 by 30; mark at_ = (0, 20) }\nseam",
                ),
            ],
        );
        said(&format!(
            "{text}\npiece hanger \"Hanger\" {{ cut 1; outline rectangle 5 by 3 }}\n\
             finish hanger.top, hanger.bottom hem 1\n\
             place hanger on behind.back {{ corner bottom_left at at_; caught left in left; topstitch right }}\n"
        ))
    };
    assert_eq!(loops(&mitt), ["seam/crossed"]);
    assert_eq!(loops(&sound), NOTHING);
}

#[test]
fn what_is_caught_lies_in_the_layer_of_the_seam() {
    let bag = mistake("place-not-caught-layer");
    assert_eq!(said(&bag), ["place/not-caught"]);
    assert_eq!(said(&with(&bag, &[("caught left in lining_round", "caught left in round")])), NOTHING);
    assert_eq!(said(&with(&bag, &[("place loop on outer.side", "place loop on lining.side")])), NOTHING);
}

/// An apron with a band below, in whose seam a pocket is caught.
fn apron(apron: &str, pocket: &str, low: &str) -> String {
    format!(
        "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ apron, pocket, band }}\npiece apron \"Apron\" {{ {apron} }}\n\
         piece pocket \"Pocket\" {{ {pocket} }}\npiece band \"Band\" {{ cut 1; outline rectangle 60 by 8 }}\n\
         seam low {low} to band.top {{ matching apron.bottom_left with band.top_left }}\nfinish pocket.top hem 1\n\
         finish apron.top, band.bottom, band.left, band.right bound 1\n"
    )
}

#[test]
fn a_caught_edge_may_lie_on_several_edges_of_the_seam() {
    let place = "place pocket on apron { corner bottom_left at at_; topstitch left, right; caught bottom in low }\n\
                 finish apron.left, apron.right bound 1";
    let whole = "cut 1; outline rectangle 20 by 15";
    let one = apron("cut 1; outline rectangle 60 by 50; mark at_ = (20, 0)", whole, "apron.bottom");
    assert_eq!(said(&format!("{one}{place}")), NOTHING);
    let two = "cut 1; outline rectangle 60 by 50; mark at_ = (20, 0)\ndivide bottom 28 from bottom_left into low_a, low_b";
    let two = apron(two, whole, "apron.low_a + apron.low_b");
    assert_eq!(said(&format!("{two}{place}")), NOTHING);
    // 3 cm above the seam nothing is caught.
    let above = with(&two, &[("mark at_ = (20, 0)", "mark at_ = (20, 3)")]);
    assert_eq!(said(&format!("{above}{place}")), ["place/not-caught"]);
}

#[test]
fn both_halves_of_a_pocket_on_the_fold_are_caught() {
    let half = "cut 1 on fold left; outline rectangle 10 by 15";
    let text = apron("cut 1; outline rectangle 60 by 50; mark at_ = (30, 0)", half, "apron.bottom");
    let place = "place pocket on apron { corner bottom_left at at_; topstitch right; caught bottom in low }\n\
                 finish apron.left, apron.right bound 1";
    assert_eq!(said(&format!("{text}{place}")), NOTHING);
}

#[test]
fn panels_in_a_row_are_sewn_each_to_the_next() {
    let cap = mistake("seam-pinched");
    assert_eq!(said(&cap), ["seam/pinched"]);
    let sound = [
        (
            "side.left to side.right",
            "side.left to front.right { matching side.top_left with front.top_right }",
        ),
        ("front.right to front.right", "side.right to side.right"),
    ];
    assert_eq!(said(&with(&cap, &sound)), NOTHING);
}

#[test]
fn corners_of_one_name_meet() {
    let skirt = mistake("seam-upside-down");
    assert_eq!(said(&skirt), ["seam/upside-down"]);
    assert_eq!(said(&with(&skirt, &[("with back.hem_s", "with back.waist_s")])), NOTHING);
    // Gores that are to lie so are named for where they lie.
    let back = skirt.find("piece back").expect("there is a back");
    let (front, rest) = skirt.split_at(back);
    let gore = rest.replace("waist_s", "narrow").replace("hem_s", "wide").replace("back.hem_s", "back.wide");
    let gores = said(&format!("{front}{}", gore.replace("front.narrow", "front.waist_s")));
    assert!(!gores.contains(&"seam/upside-down") && !gores.contains(&"seam/end-for-end"), "{gores:?}");
}

#[test]
fn a_closure_closes_an_opening_and_no_seam() {
    let bag = mistake("closure-sewn-shut");
    assert_eq!(said(&bag), ["closure/sewn-shut"]);
    assert_eq!(said(&with(&bag, &[("zip lining.side.top", "zip outer.side.top")])), NOTHING);
}

#[test]
fn a_hood_opens_where_the_cape_opens() {
    let cape = mistake("seam-matching-hood");
    assert_eq!(said(&cape), ["seam/matching"]);
    assert_eq!(said(&with(&cape, &[("with back.neck_cb", "with front.neck_edge")])), NOTHING);
    // Buttoned behind, both open there; the hood's edges are not called after the front then.
    let behind = with(
        &cape.replace("neck_front", "neck_open"),
        &[
            (
                "piece front \"Front\" {\n  cut 2 mirrored",
                "piece front \"Front\" {\n  cut 1 on fold front_edge",
            ),
            ("piece back \"Back\" {\n  cut 1 on fold centre", "piece back \"Back\" {\n  cut 2 mirrored"),
            ("finish front.front_edge", "finish back.centre"),
            ("with back.neck_cb", "with back.neck_cb"),
        ],
    );
    assert_eq!(said(&behind), NOTHING);
}

/// Gaiters that a zip closes, and a strap that is cut loose.
const GAITERS: &str = r#"garment "Deck gaiters"
units cm
allowance 1
body { foot 34 }
fabric canvas "boat canvas" { width 150 }
layer outer in canvas { leg, strap }
piece leg "Leg" { cut 2; outline rectangle 44 by 30 }
piece strap "Strap" { cut 2 loose; outline rectangle 22 by 6; folded top to bottom }
seam strap_long strap.top to strap.bottom
closure zip leg.left to leg.right { zipper separating 30 }
finish leg.top, leg.bottom, strap.left, strap.right bound 1
"#;

#[test]
fn what_is_closed_or_loose_is_asked_for_no_opening() {
    assert_eq!(said(GAITERS), NOTHING);
    // Sewn to a tube without a zip it is asked for one.
    let tube = with(
        GAITERS,
        &[(
            "closure zip leg.left to leg.right { zipper separating 30 }",
            "seam behind leg.left to leg.right",
        )],
    );
    assert_eq!(said(&tube), ["opening/unsaid"]);
}

#[test]
fn what_is_open_from_hem_to_hood_is_asked_for_no_opening() {
    let cape = mistake("seam-matching-hood");
    let robe = with(
        &cape,
        &[
            ("with back.neck_cb", "with front.neck_edge"),
            ("units cm", "units cm\nbody { head 54 }"),
            ("    side       to hem_side", "    armhole    to underarm\n    side       to hem_side"),
            ("    side     to hem_side", "    armhole  to underarm\n    side     to hem_side"),
            ("  point hem_side", "  point underarm  = (40, -20)\n  point hem_side"),
            ("piece back \"Back\" {\n", "piece back \"Back\" {\n  point underarm = (40, -20)\n"),
            (
                "finish front.front_edge, front.side, back.side,",
                "seam side front.side to back.side\nfinish front.armhole, back.armhole bound 1\nfinish front.front_edge,",
            ),
        ],
    );
    let is_asked = |text: &str| said(text).contains(&"opening/unsaid");
    assert!(!is_asked(&robe), "{:?}", said(&robe));
    // Closed down the front it goes on over the head.
    let closed = with(
        &robe,
        &[("finish front.front_edge,", "seam closed front.front_edge to front.front_edge\nfinish")],
    );
    assert!(is_asked(&closed), "{:?}", said(&closed));
}

/// A cap of six panels with a peak; its opening is 6 times (57 + 1) / 6 cm round, 1 cm more than the head.
const CAP: &str = r#"garment "Lookout's cap"
units cm
allowance 0.7
tolerance 2mm
wearer adult
body { head 57 }
let base   = (head + 1)/6       "one panel round the head"
let rise_  = 16.8
let band_h = 3
let peak_half between 5 and 12 so that length(peak.inner) = base
fabric duck "cotton duck" { width 145; selvage 1; kind woven firm; nap none; thickness 0.6mm; price 14 per m }
fabric lawn "cotton lawn" { width 140; kind woven supple; nap none; thickness 0.2mm; price 8 per m }
layer outer in duck { front_panel, side_panel, back_panel, peak }
layer lining in lawn { front_panel, side_panel, back_panel }
layer under in duck { peak }
layer band in duck { sweatband }
piece front_panel "Front panel" {
  cut 2 mirrored
  point cf = (0, 0)
  point right_ = (base, 0)
  point apex = (base/2, rise_)
  outline from cf {
    centre to apex curve leaving up arriving 45°
    side to right_ curve leaving -45° arriving down
    base to cf
  }
}
piece side_panel "Side panel" {
  cut 2 mirrored
  point cf = (0, 0)
  point right_ = (base, 0)
  point apex = (base/2, rise_)
  outline from cf {
    fore to apex curve leaving up arriving 45°
    aft to right_ curve leaving -45° arriving down
    base to cf
  }
}
piece back_panel "Back panel" {
  cut 2 mirrored
  outline copy of side_panel
}
piece peak "Peak" {
  cut 1 on fold centre
  point in_c  = (0, 0)
  point out_c = (0, -7)
  point tip   = (peak_half, 2.2)
  outline from in_c {
    inner to tip curve leaving right
    edge to out_c curve arriving left through (peak_half - 0.5, -2.5)
    centre to in_c
  }
}
piece sweatband "Sweatband" {
  cut 1
  outline rectangle 6 * base by band_h
  divide top 2 * base from top_left into left_run, front_run
  divide front_run 2 * base from top_right into right_run, front_run
}
seam front      front_panel.centre to front_panel.centre
seam fore       front_panel.side to side_panel.fore
seam aft        side_panel.aft to back_panel.fore
seam back       back_panel.aft to back_panel.aft
seam peak_edge  outer.peak.edge to under.peak.edge
seam band_ends  sweatband.left to sweatband.right
seam base_front outer.peak.inner and under.peak.inner and outer.front_panel.base and lining.front_panel.base to sweatband.front_run
seam base_back  outer.side_panel.base + outer.back_panel.base and lining.side_panel.base + lining.back_panel.base to sweatband.left_run + sweatband.right_run
finish sweatband.bottom overlocked
opening outer.front_panel.base + outer.side_panel.base + outer.back_panel.base passes head"#;

#[test]
fn a_peak_is_no_band_that_the_head_must_pass() {
    assert_eq!(said(CAP), NOTHING);
    assert_eq!(said(&with(CAP, &[("(head + 1)/6", "(head - 3)/6")])), ["opening/passes"]);
}

#[test]
fn one_wrong_count_is_told_once() {
    // One front panel for two: its centre, its side and the band all lack it.
    let one = with(
        CAP,
        &[(
            "piece front_panel \"Front panel\" {\n  cut 2 mirrored",
            "piece front_panel \"Front panel\" {\n  cut 1",
        )],
    );
    assert_eq!(said(&one), ["seam/pairing"]);
}
