//! Which way round edges are sewn, and where zips begin and end: what is refused, and the sound garment
//! beside it.

use crate::workbench::{NOTHING, example, mistake, said, told, with};
use fustian::compile;
use fustian::source::MemoryLoader;

#[test]
fn a_zip_comes_apart_where_its_edges_do() {
    let skirt = mistake("zipper-sewn-in");
    assert_eq!(said(&skirt), ["zipper/sewn-in"]);
    for kind in ["closed", "concealed"] {
        assert_eq!(
            said(&with(&skirt, &[("zipper separating", &format!("zipper {kind}"))])),
            NOTHING,
            "{kind}"
        );
    }
    let wrap = mistake("zipper-open-ends");
    assert_eq!(said(&wrap), ["zipper/open-ends"]);
    assert_eq!(said(&with(&wrap, &[("zipper closed", "zipper concealed")])), ["zipper/open-ends"]);
    assert_eq!(said(&with(&wrap, &[("zipper closed", "zipper separating")])), NOTHING);
    // A wash bag: the zip is held at both ends, by the sides or by tabs that lie across it.
    let bag = |kind: &str| {
        said(&format!(
            "garment \"Wash bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ side }}\npiece side \"Side\" {{ cut 2; outline rectangle 30 by 20 }}\n\
             seam round side.left + side.bottom + side.right to side.left + side.bottom + side.right\n\
             closure zip side.top to side.top {{ zipper {kind} 30 }}"
        ))
    };
    assert_eq!(bag("closed"), NOTHING);
    assert_eq!(bag("separating"), ["zipper/sewn-in"]);
    let tab = "{ cut 1; outline rectangle 3 by 20 }";
    let ring = [("front", "tab_one"), ("tab_one", "back"), ("back", "tab_two"), ("tab_two", "front")];
    let seams = ring.map(|(one, other)| {
        format!("seam {one}_{other} {one}.right to {other}.left {{ matching {one}.top_right with {other}.top_left }}\n")
    });
    let tabs = format!(
        "garment \"Wash bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ front, back, tab_one, tab_two }}\n\
         piece front \"Front\" {{ cut 1; outline rectangle 30 by 20 }}\n\
         piece back \"Back\" {{ cut 1; outline rectangle 30 by 20 }}\n\
         piece tab_one \"Tab\" {tab}\npiece tab_two \"Other tab\" {tab}\n{}\
         seam low front.bottom to back.bottom {{ matching front.bottom_left with back.bottom_right }}\n\
         finish tab_one.top, tab_one.bottom, tab_two.top, tab_two.bottom hem 0.5\n\
         closure zip front.top to back.top {{ zipper closed 30 }}",
        seams.concat()
    );
    assert_eq!(said(&tabs), NOTHING);
}

#[test]
fn a_closure_has_as_much_on_its_one_side_as_on_its_other() {
    let bag = mistake("closure-pairing");
    assert_eq!(said(&bag), ["closure/pairing"]);
    // As many flaps as panels, and each is as wide as the other.
    assert_eq!(said(&with(&bag, &[("cut 2", "cut 1"), ("rectangle 60 by", "rectangle 30 by")])), NOTHING);
    // Buttons along a line: on a front that is there once nothing closes on anything.
    let front = |cut: &str| {
        said(&format!(
            "garment \"Deck vest\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ front }}\npiece front \"Front\" {{ {cut}\n\
             point low = (0, 0); point high = (0, 60)\n\
             point edge_low = (-2, 0); point edge_high = (-2, 60)\n\
             point back_high = (25, 60); point back_low = (25, 0)\n\
             outline from edge_low {{ edge to edge_high; top to back_high; back to back_low; hem to edge_low }}\n\
             line centre from high to low }}\n\
             closure placket front.centre to front.centre {{\n\
             buttons 5 of 15mm from 2 below high to 5 above low stand 2 left over right }}\n\
             finish front.edge, front.top, front.back, front.hem hem 1"
        ))
    };
    assert!(front("cut 1").contains(&"closure/pairing"), "{:?}", front("cut 1"));
    assert!(!front("cut 2 mirrored").contains(&"closure/pairing"), "{:?}", front("cut 2 mirrored"));
}

#[test]
fn twins_in_two_layers_lie_end_on_end_unless_it_makes_no_difference() {
    let wrap = mistake("seam-end-for-end");
    let right = [("with lining.body.neck", "with lining.body.low")];
    assert_eq!(said(&wrap), ["seam/end-for-end"]);
    assert_eq!(said(&with(&wrap, &right)), NOTHING);
    // Straight at its upper edge it is its own mirror image: upside down it is the same.
    let straight = [("top   to tip   curve leaving right arriving right through (20, 56)", "top   to tip")];
    assert_eq!(said(&with(&wrap, &straight)), NOTHING);
}

#[test]
fn a_folded_band_is_not_twisted_before_it_is_folded() {
    let bag = mistake("seam-twisted-folded");
    assert_eq!(said(&bag), ["seam/twisted"]);
    assert_eq!(said(&with(&bag, &[("band.top_right }", "band.bottom_right }")])), NOTHING);
}

#[test]
fn each_cuff_of_a_pair_is_closed_by_itself() {
    let mitts = mistake("seam-left-to-right");
    assert_eq!(said(&mitts), ["seam/left-to-right"]);
    let ring = [
        (
            "seam cuff_left   cuff.left to cuff.left",
            "seam cuff_ends cuff.left to cuff.right { matching cuff.top_left with cuff.top_right }",
        ),
        ("seam cuff_right  cuff.right to cuff.right\n", ""),
    ];
    assert_eq!(said(&with(&mitts, &ring)), NOTHING);
    // A waistband in two halves is sewn left to right in the middle, as the skirt is below it.
    let skirt = "garment \"Mess skirt\"\nunits cm\nallowance 1\nfabric serge \"serge\" { width 150 }\n\
        layer outer in serge { half, band }\n\
        piece half \"Half\" { cut 2 mirrored; outline rectangle 50 by 60 }\n\
        piece band \"Waistband\" { cut 2 mirrored; outline rectangle 50 by 8; folded top to bottom }\n\
        seam back half.left to half.left\nseam band_back band.left to band.left\n\
        seam front half.right to half.right\nseam band_front band.right to band.right\n\
        seam waist band.top and band.bottom to half.top { matching band.top_left with half.top_left }\n\
        finish half.bottom hem 3";
    assert_eq!(said(skirt), NOTHING);
}

#[test]
fn a_sleeve_that_differs_in_front_and_back_goes_in_one_way_round() {
    let smock = mistake("seam-back-to-front");
    assert_eq!(said(&smock), ["seam/back-to-front"]);
    assert_eq!(said(&with(&smock, &[("one_cap with front", "one_cap with back")])), NOTHING);
    // Of the deck smock front and back armhole are alike: there the names of the corners say it, and of
    // a sleeve that is the same from both sides nothing is said.
    let smock = example("deck-smock");
    let forward = ("point crown          = (0, cap)", "point crown          = (2, cap)");
    let swapped = [
        ("sleeve.underarm_front with front.underarm", "sleeve.underarm_front with back.underarm"),
        ("sleeve.underarm_back with back.underarm", "sleeve.underarm_back with front.underarm"),
    ];
    assert_eq!(said(&with(&smock, &[forward])), NOTHING);
    assert_eq!(said(&with(&smock, &swapped)), NOTHING);
    assert_eq!(said(&with(&smock, &[forward, swapped[0], swapped[1]])), ["seam/back-to-front"]);
}

#[test]
fn the_crown_of_a_sleeve_is_not_set_in_under_the_arm() {
    let upside_down = [
        ("matching sleeve.underarm_front with front.underarm", "matching front.underarm with back.underarm"),
        ("matching sleeve.underarm_back with back.underarm", "matching sleeve.underarm_back with back.tip"),
    ];
    // Matched so, the cap goes round from the shoulder, and its own seam would have to be closed before.
    let told = said(&with(&example("deck-smock"), &upside_down));
    assert_eq!(told, ["seam/back-to-front", "step/early", "step/early"]);
}

#[test]
fn what_matching_says_is_obeyed_or_refused() {
    let both = mistake("seam-matching-both");
    assert_eq!(said(&both), ["seam/matching"]);
    // Either of the two alone is sound: a flap may be sewn on by either side.
    assert_eq!(said(&with(&both, &[("  matching flap.bottom_left with bag.top_right\n", "")])), NOTHING);
    assert_eq!(said(&with(&both, &[("  matching flap.bottom_left with bag.top_left\n", "")])), NOTHING);
    // A closed sleeve, of which one corner is matched with the wrong end of a lined armhole.
    let jacket = with(
        &example("mess-jacket"),
        &[
            (
                "matching sleeve.underarm_front with front.underarm",
                "matching sleeve.underarm_front with back.underarm",
            ),
            ("  matching sleeve.underarm_back with back.underarm\n", ""),
        ],
    );
    assert_eq!(said(&jacket), ["seam/twisted"]);
}

/// Two panels beside each other and a strip along both of their upper edges.
fn panels(middle: &str, edge: &str) -> String {
    let hemmed =
        "finish strip.left, strip.top, strip.right, one.left, one.bottom, other.right, other.bottom hem 1";
    format!(
        "garment \"Awning\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ one, other, strip }}\n\
         piece one \"Panel\" {{ cut 1; outline rectangle 20 by 30 }}\n\
         piece other \"Other panel\" {{ cut 1; outline rectangle 40 by 30 }}\n\
         piece strip \"Strip\" {{ cut 1; outline rectangle 60 by 10 }}\n{middle}\n{edge}\n{hemmed}\n"
    )
}

#[test]
fn a_chain_runs_on_where_its_pieces_are_sewn_together() {
    let middle = "seam middle one.right to other.left { matching one.top_right with other.top_left }";
    let edge =
        "seam edge strip.bottom to one.top + other.top { matching strip.bottom_left with one.top_left }";
    // The corners that bear one name are one.top_right and other.top_right; sewn together are others.
    assert_eq!(said(&panels(middle, edge)), NOTHING);
    assert_eq!(said(&panels(edge, middle)), NOTHING);
    // The other panel lies face down: then the corners of one name are those that meet.
    let turned = "seam middle one.right to other.right";
    let hemmed = |text: String| with(&text, &[("other.right, other.bottom", "other.left, other.bottom")]);
    assert_eq!(said(&hemmed(panels(turned, edge))), NOTHING);
}

#[test]
fn an_edge_goes_on_in_the_next_over_the_seam_between_them() {
    let bag = mistake("seam-jumps");
    assert_eq!(said(&bag), ["seam/jumps"]);
    let upright = [
        ("front.top_left with back.bottom_right", "front.top_left with back.top_right"),
        ("front.bottom_right with back.top_left", "front.top_right with back.top_left"),
    ];
    assert_eq!(said(&with(&bag, &upright)), NOTHING);
    // Upside down the back's upper edge is the one to be named.
    let named = [
        ("front.bottom + back.bottom", "front.bottom + back.top"),
        ("front.top, back.top", "front.top, back.bottom"),
    ];
    assert_eq!(said(&with(&bag, &named)), NOTHING);
}

#[test]
fn two_folds_meet_in_the_middle() {
    let shirt = mistake("seam-fold-end");
    assert_eq!(said(&shirt), ["seam/fold-end"]);
    assert_eq!(said(&with(&shirt, &[("with yoke.top_right", "with yoke.top_left")])), NOTHING);
}

#[test]
fn marks_keep_their_order_in_every_size() {
    let awning = mistake("seam-order");
    assert_eq!(said(&awning), ["seam/order"]);
    // At 10 it lies before the joint in both sizes: at 15 and at 25.
    assert_eq!(said(&with(&awning, &[("notch 20", "notch 10")])), NOTHING);
}

/// A flap is caught in the seam that joins the two parts of a back: it hangs by that alone, and the parts lie as they do
/// without it, whichever ply is named first and whether it has a lining. The side begins at the top of the upper part.
#[test]
fn a_flap_in_a_seam_does_not_turn_what_it_hangs_from() {
    let text = |flap: &str, yoke: &str| {
        let piece = |name: &str, wide: u32, high: u32| {
            format!("piece {name} {{\n  cut 1 on fold left\n  outline rectangle {wide} by {high}\n}}\n")
        };
        format!(
            "garment \"Box\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ front, back_high, back_low, gusset, base{} }}\n{}{}{}{}{}\
             piece gusset {{\n  cut 2 mirrored\n  outline rectangle 12 by 40\n}}\n{flap}{yoke}\n\
             seam front_side front.right to gusset.left\n\
             seam back_side back_high.right + back_low.right to gusset.right\n\
             seam front_foot front.bottom to base.bottom\nseam back_foot back_low.bottom to base.top\n\
             seam foot gusset.bottom to base.right {{ matching gusset.bottom_left with base.bottom_right }}\n\
             finish front.top, back_high.top, gusset.top hem 2\n",
            if flap.is_empty() { "" } else { ", flap" },
            piece("front", 15, 40),
            piece("back_high", 15, 7),
            piece("back_low", 15, 33),
            piece("base", 15, 12),
            if flap.is_empty() { String::new() } else { piece("flap", 15, 20) },
        )
    };
    let hemmed = "finish flap.right, flap.bottom hem 2\n";
    let lined = "layer inner in canvas { flap }\nseam edge outer.flap to inner.flap along right + bottom\n";
    for (flap, yoke) in [
        ("", "seam yoke back_high.bottom to back_low.top"),
        (hemmed, "seam yoke back_high.bottom and flap.top to back_low.top"),
        (hemmed, "seam yoke flap.top and back_high.bottom to back_low.top"),
        (hemmed, "seam yoke back_low.top and flap.top to back_high.bottom"),
        (
            lined,
            "seam yoke outer.flap.top and inner.flap.top and outer.back_high.bottom to outer.back_low.top",
        ),
    ] {
        let text = text(flap, yoke);
        assert_eq!(told(&text), [], "{yoke}");
        let compiled = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
        let size = &compiled.sizes[0];
        let side = compiled.garment.seams.iter().position(|seam| &*seam.name == "back_side").expect("a side");
        let sewn = size.sewn.seams.iter().find(|sewn| sewn.seam.index() == side).expect("it is sewn");
        let first = &sewn.first.plies[0].runs[0];
        let drawn = size.sewn.parts[first.part.index()].part.paper;
        let edge = size.drawn.paper(drawn).and_then(|drawn| drawn.edge_at(first.edge)).expect("an edge");
        // A rectangle's right goes up: from the top on it is sewn against its way.
        assert!(first.reversed && &*compiled.garment.edge(edge.edge).name == "right", "{yoke}");
    }
}

/// A sleeve whose ring begins under the arm, and an armhole whose two edges follow one another there as they are drawn: that
/// corner is offered too, since at either other one the sleeve would be set in upside down.
#[test]
fn of_rings_the_corners_inside_are_offered_as_well() {
    const BODY: &str = "  point hem_c = (0, -60)\n  point neck = (0, 0)\n  point neck_side = (8, 0)\n  point tip = (20, -4)\n  \
        point underarm = (25, -22)\n  point hem_side = (25, -60)\n  outline from hem_c { centre to neck; neckline to neck_side; \
        shoulder to tip; armhole to underarm; side to hem_side; hem to hem_c }\n}\n";
    let text = format!(
        "garment \"Crew vest\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" {{ width 150 }}\n\
         layer outer in cotton {{ front, back, sleeve }}\n\
         piece front \"Front\" {{\n  cut 1 on fold centre\n  drawn left\n{BODY}\
         piece back \"Back\" {{\n  cut 1 on fold centre\n  drawn right\n{BODY}\
         piece sleeve \"Sleeve\" {{\n  cut 2 mirrored\n  drawn right\n  point a = (-15, 0)\n  point b = (-16, 40)\n  \
         point crown = (0, 51)\n  point c = (16, 40)\n  point d = (15, 0)\n  outline from a {{ back_seam to b; back_cap to crown; \
         front_cap to c; front_seam to d; wrist to a }}\n}}\n\
         seam shoulder front.shoulder to back.shoulder\nseam side front.side to back.side\n\
         seam sleeve_seam sleeve.back_seam to sleeve.front_seam\n\
         seam armhole sleeve.front_cap + sleeve.back_cap to front.armhole + back.armhole easing 0..5 {{ \
         matching sleeve.c with front.underarm }}\n\
         finish front.neckline, back.neckline bound 1\nfinish front.hem, back.hem hem 2\nfinish sleeve.wrist hem 2\n"
    );
    let of = |text: &str| -> Vec<(&'static str, String)> {
        let all = compile(&MemoryLoader::new().with("own.fus", text), "own.fus").diagnostics;
        let all =
            all.iter().filter(|one| matches!(one.slug(), "seam/ends" | "seam/back-to-front" | "side/turned"));
        all.map(|one| (one.slug(), one.help_words().unwrap_or_default())).collect()
    };
    assert_eq!(of(&text), []);
    let unsaid = of(&text.replace(" { matching sleeve.c with front.underarm }", ""));
    let [(slug, help)] = unsaid.as_slice() else { panic!("{unsaid:?}") };
    assert_eq!(*slug, "seam/ends");
    assert!(
        help.starts_with("both go all round") && help.contains("underarm, front.tip or back.tip"),
        "{help}"
    );
}

/// A godet in a slit in the middle: a triangle whose sides are as long as the slit is deep, √(5² + 19.365²) = 20. A band goes
/// round the hem and over it, in whichever order its edges and those of the slit's seam are named.
#[test]
fn a_godet_in_the_middle_goes_on_in_the_hem_in_any_order() {
    const SKIRT: &str = "garment \"Skirt with a godet\"\n\
    units cm\n\
    allowance 1\n\
    fabric cotton \"white cotton\" { width 150 }\n\
    layer outer in cotton { front, back, godet, band }\n\
piece front \"Front\" {\n\
      cut 1 on fold left\n\
      drawn left\n\
      outline rectangle 24 by 60\n\
      slit vent on bottom at the fold up 20\n\
    }\n\
piece back \"Back\" {\n\
      cut 1 on fold left\n\
      drawn right\n\
      outline rectangle 24 by 60\n\
    }\n\
piece godet \"Godet\" {\n\
      cut 1\n\
      point a = (-5, 0)\n\
      point b = (5, 0)\n\
      point tip = (0, 19.365)\n\
      outline from a { bottom to b; far to tip; near to a }\n\
    }\n\
piece band \"Band\" { cut 1; outline rectangle 106 by 8; folded top to bottom }\n\
    seam side   front.right to back.right\n\
    seam vent  front.vent.near to godet.far + godet.near\n\
    seam hemmed  band.bottom and band.top to back.bottom + front.bottom + godet.bottom\n\
    seam ends band.left to band.right\n\
    finish front.top, back.top  hem 3";
    for vent in ["godet.far + godet.near", "godet.near + godet.far"] {
        for hem in ["back.bottom + front.bottom + godet.bottom", "godet.bottom + front.bottom + back.bottom"]
        {
            let text = with(
                SKIRT,
                &[("godet.far + godet.near", vent), ("back.bottom + front.bottom + godet.bottom", hem)],
            );
            assert_eq!(said(&text), NOTHING, "{vent}; {hem}");
        }
    }
}
