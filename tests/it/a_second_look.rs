//! Slips that a garment hides at first sight: a lost sign at the neck, elastic far too wide, cloth that is fastened on itself;
//! and what is one slip, told once. Each beside what is sound.

use crate::workbench::{NOTHING, cured, example, helps, mistake, said, told, with};

#[test]
fn a_neck_does_not_rise_to_its_middle() {
    let hollow = [
        ("neck_cf   = (0, 8)", "neck_cf   = (0, -8)"),
        ("curve leaving right\n", "curve leaving right arriving square to shoulder\n"),
    ];
    cured("neck-rises", "neck/rises", &hollow);
    let rises = |from: &str, height: &str| {
        let text = with(
            &with(&mistake("neck-rises"), &hollow),
            &[(from, &from.replace("-8", height).replace("-2", height))],
        );
        told(&text)
            .into_iter()
            .filter(|(slug, _)| *slug == "neck/rises")
            .map(|(_, title)| title)
            .collect::<Vec<_>>()
    };
    // A boat neck goes straight across, or rises by a centimetre.
    let front = "neck_cf   = (0, -8)";
    assert_eq!(rises(front, "0"), NOTHING);
    assert_eq!(rises(front, "1.4"), NOTHING);
    assert_eq!(rises(front, "1.6"), ["the middle of the neckline of Front lies 1.6 cm above the shoulder"]);
    // So does a back neck.
    let back = "neck_cf = (0, -2)";
    assert_eq!(rises(back, "1"), NOTHING);
    assert_eq!(rises(back, "2"), ["the middle of the neckline of Back lies 2 cm above the shoulder"]);
    // The neck of a raglan goes on in its sleeve: 8 below is 8 above, and the shoulder lies 3 below nothing.
    let jersey = with(&example("raglan-jersey"), &[("neck_centre = (0, -8)", "neck_centre = (0, 8)")]);
    assert!(told(&jersey).iter().any(|(slug, title)| *slug == "neck/rises" && title.contains("11 cm")));
}

#[test]
fn what_rises_at_its_middle_and_is_no_neck_is_sound() {
    // A flap in a point, and a skirt that rises in front: nothing leads away to the side from them.
    let skirt = "garment \"Mess skirt\"\nunits cm\nallowance 1\nbody { hip 90 }\n\
        fabric serge \"wool serge\" { width 150; kind woven firm }\nlayer outer in serge { front, back }\n\
        piece front \"Front\" {\ncut 1 on fold centre\npoint low = (0, 0)\npoint low_side = (32, 0)\npoint waist_side = (24, 60)\n\
        point waist_middle = (0, 66)\noutline from low {\nhem to low_side\nside to waist_side\nwaist to waist_middle curve arriving left\n\
        centre to low\n}\n}\npiece back \"Back\" like front { point waist_middle = (0, 59) }\n\
        seam side front.side to back.side\nfinish front.waist, back.waist bound 1\nfinish front.hem, back.hem bound 1\n";
    assert!(!said(skirt).contains(&"neck/rises"), "{:?}", told(skirt));
}

#[test]
fn ease_is_less_than_another_body() {
    cured("length-out-of-use-ease", "length/out-of-use", &[("ease = 80", "ease = 8")]);
    let ease =
        |cm: &str| said(&with(&mistake("length-out-of-use-ease"), &[("ease = 80", &format!("ease = {cm}"))]));
    assert_eq!(ease("60"), NOTHING);
    assert_eq!(ease("61"), ["length/out-of-use"]);
}

#[test]
fn elastic_is_narrower_than_a_sixth_of_its_ring() {
    let narrow = [("casing 5.5 for elastic 5 ", "casing 1 for elastic 0.5 ")];
    cured("length-out-of-use-elastic", "length/out-of-use", &narrow);
    // 24 × 90 % = 21.6 and a sixth of it 3.6; of 26, 23.4 and 3.9.
    let wide = |cm: &str, deep: &str| {
        let casing = format!("casing {deep} for elastic {cm} ");
        said(&with(&mistake("length-out-of-use-elastic"), &[("casing 5.5 for elastic 5 ", &casing)]))
    };
    assert_eq!(wide("3.6", "4"), NOTHING);
    assert_eq!(wide("3.7", "4"), ["length/out-of-use"]);
}

#[test]
fn a_piece_on_the_fold_is_not_fastened_on_itself() {
    // Cut apart and closed at its middle, left to right, it opens.
    let opened = [
        ("piece front \"Front\" {\n  cut 1 on fold left", "piece front \"Front\" {\n  cut 2 mirrored"),
        ("piece back \"Back\" like front {\n", "piece back \"Back\" like front {\n  cut 1 on fold left\n"),
        ("line row from (3, 55) to (3, 42)", "line row from (1.5, 55) to (1.5, 42)"),
        ("closure snaps", "finish front.left  hem 3\nclosure snaps"),
    ];
    cured("closure-own-edge-line", "closure/own-edge", &opened);
    // Ties draw it in, as those at a back do.
    let tied = [("{ snaps 3 of 12mm }", "{ ties 2 of 30 }")];
    assert_eq!(said(&with(&mistake("closure-own-edge-line"), &tied)), NOTHING);
    // A slit at the fold opens it.
    let slit = [
        ("  line row", "  slit opening on neck at the fold down 15\n  line row"),
        ("  without row\n", "  without row, opening\n"),
        ("closure snaps", "finish front.opening.near  bound 0.5\nclosure snaps"),
    ];
    assert!(!said(&with(&mistake("closure-own-edge-line"), &slit)).contains(&"closure/own-edge"));
    // Where nothing near it opens either, that alone is told.
    let deep = [("from (3, 55) to (3, 42)", "from (3, 35) to (3, 22)")];
    assert_eq!(said(&with(&mistake("closure-own-edge-line"), &deep)), ["closure/out-of-reach"]);
}

#[test]
fn one_binding_round_one_rim_is_told_once() {
    cured("bind-curve-round", "bind/curve", &[("bound 6", "bound 1")]);
    let [(_, title)] = told(&mistake("bind-curve-round")).try_into().expect("one message");
    assert!(title.contains("the neckline of Front and the neckline of Back"), "{title}");
    // Two rims that one line binds are two bindings.
    let two = with(
        &mistake("bind-curve-round"),
        &[
            ("seam shoulder  front.shoulder to back.shoulder\n", ""),
            ("bound 6", "bound 6\nfinish front.shoulder, back.shoulder  hem 1"),
        ],
    );
    assert_eq!(said(&two).into_iter().filter(|slug| *slug == "bind/curve").count(), 2);
}

#[test]
fn what_a_piece_says_twice_is_told_once_though_others_are_like_it() {
    cured("name-declared-twice-like", "name/declared-twice", &[("  line waist across at (0, 30)\n", "")]);
    let twice = with(
        &mistake("name-declared-twice-like"),
        &[("  line waist across at (0, 30)\n", "  grain up\n  grain across\n")],
    );
    assert_eq!(said(&twice), ["name/declared-twice"]);
}

#[test]
fn an_edge_that_is_divided_is_there_no_longer() {
    let once = [("  divide top 12 from top_left into inner, tip\n", "")];
    cured("edge-gone-divided", "edge/gone", &once);
    // Into the same two: both names are told to be there twice, and nothing else.
    let same = [("into inner, tip", "into neck, shoulder")];
    assert_eq!(
        said(&with(&mistake("edge-gone-divided"), &same)),
        ["name/declared-twice", "name/declared-twice"]
    );
    // What is left of it may be divided on.
    let on = [
        ("divide top 12 from top_left into inner, tip", "divide shoulder 5 from neck into inner, tip"),
        ("front.shoulder", "front.inner, front.tip"),
    ];
    assert_eq!(said(&with(&mistake("edge-gone-divided"), &on)), NOTHING);
}

#[test]
fn an_arm_goes_through_an_armhole() {
    let deep = [("(chest / 4 + 4, 60)", "(chest / 4 + 4, 40)")];
    cured("opening-narrow-arm", "opening/narrow", &deep);
    let [(_, title)] = told(&mistake("opening-narrow-arm")).try_into().expect("one message");
    assert!(title.contains("no arm goes through"), "{title}");
    // What is drawn to no chest may be as small as it likes.
    let no_body = [
        ("chest 92, 100", "round 92, 100"),
        ("by chest", "by round"),
        ("chest /", "round /"),
        ("chest /", "round /"),
    ];
    assert!(!said(&with(&mistake("opening-narrow-arm"), &no_body)).contains(&"opening/narrow"));
}

#[test]
fn an_arm_goes_into_a_sleeve() {
    // 0.3 × 92 = 27.6: of 14 to each side of the middle 28 are round it, of 13.5 there are 27.
    let wide = |half: &str| {
        let text = with(
            &mistake("opening-narrow-sleeve"),
            &[
                ("under_front = (9, 0)", &format!("under_front = ({half}, 0)")),
                ("(-9, 0)", &format!("(-{half}, 0)")),
            ],
        );
        told(&text).into_iter().filter(|(slug, _)| *slug == "opening/narrow").count()
    };
    assert_eq!(wide("9"), 1);
    assert_eq!(wide("13.5"), 1);
    assert_eq!(wide("14"), 0);
    // Cloth that stretches gives way: 18 × 1.6 = 28.8.
    let knit = [("kind woven firm", "kind knit; stretch 60% across, 60% along")];
    assert!(!said(&with(&mistake("opening-narrow-sleeve"), &knit)).contains(&"opening/narrow"));
}

#[test]
fn a_girth_is_counted_once() {
    cured("measure-wide", "measure/wide", &[("= 2 * total", "= total")]);
}

#[test]
fn a_layer_lists_a_piece_once() {
    cured(
        "name-declared-twice-listed",
        "name/declared-twice",
        &[("{ flap, flap }", "{ flap }"), ("cut 1", "cut 2")],
    );
}

#[test]
fn a_flap_of_two_plies_is_sewn_before_it_is_placed() {
    let vest = |steps: &str| {
        said(&format!(
            "garment \"Deckhand's vest, its front\"\nunits cm\nallowance 1\nfabric wool \"fulled wool\" {{ width 150; kind woven firm; nap none }}\n\
             fabric cotton \"blue cotton\" {{ width 150; kind woven supple }}\nlayer outer in wool {{ front, flap }}\nlayer inside in cotton {{ flap }}\n\
             piece front \"Front\" {{ cut 1; outline rectangle 40 by 60; mark flap_corner = (6, 40) }}\n\
             piece flap \"Pocket flap\" {{ cut 1; outline rectangle 12 by 5 }}\n\
             seam flap_edge outer.flap.left + outer.flap.bottom + outer.flap.right to inside.flap.left + inside.flap.bottom + inside.flap.right\n\
             finish front.top, front.left, front.right, front.bottom hem 2\n\
             place flap on front {{\ncorner bottom_left at flap_corner\ntopstitch top\n}}\n\
             steps {{ \"Flap\" {{ {steps} }}; \"Front\" {{ hem front.top, front.left, front.right, front.bottom }} }}\n"
        ))
    };
    assert_eq!(vest("sew flap_edge; place flap"), NOTHING);
    assert_eq!(
        vest("place flap; sew flap_edge").into_iter().collect::<std::collections::BTreeSet<_>>(),
        ["step/early"].into()
    );
}

#[test]
fn no_length_grows_by_a_fifth_from_size_to_size() {
    cured("size-irregular-let", "size/irregular", &[("+15", "+1.5")]);
    // 12 of 64 is less than a fifth; of 60 it is one, and less than 12 is no slip for certain.
    let long = |from: &str, by: &str| {
        said(&with(&mistake("size-irregular-let"), &[("64 grade +15", &format!("{from} grade +{by}"))]))
    };
    assert_eq!(long("64", "12"), NOTHING);
    assert_eq!(long("60", "12"), ["size/irregular"]);
    assert_eq!(long("55", "11.9"), NOTHING);
    // Children grow so.
    let child = [
        ("allowance 1\n", "allowance 1\nwearer child from 2 to 10 years\n"),
        ("waist 70 grade +8", "waist 50 grade +3"),
    ];
    assert_eq!(said(&with(&mistake("size-irregular-let"), &child)), NOTHING);
}

#[test]
fn a_measure_is_compared_with_the_girth_that_it_is_called_after() {
    cured("measure-other", "measure/other", &[("against waist", "against chest")]);
    // What opens to let a larger girth through is compared with that.
    let larger = [("chest_finished", "waist_open"), ("against waist", "against chest")];
    assert_eq!(said(&with(&mistake("measure-other"), &larger)), NOTHING);
    assert_eq!(
        said(&with(&mistake("measure-other"), &[("chest_finished", "chest_over_the_waist")])),
        NOTHING
    );
}

#[test]
fn what_is_closed_on_one_side_is_sewn_on_the_other() {
    cured("closure-one-side", "closure/one-side", &[(" on left { ties", " { ties")]);
    let sewn = [(
        "finish front.right, back.right  hem 2\n",
        "finish front.right on left, back.right on left  hem 2\nseam side  front.right to back.right on right\n",
    )];
    assert_eq!(said(&with(&mistake("closure-one-side"), &sewn)), NOTHING);
    let buckled = [(
        "closure side_ties",
        "closure other_ties  front.right to back.right on right { ties 3 of 30 }\nclosure side_ties",
    )];
    assert_eq!(said(&with(&mistake("closure-one-side"), &buckled)), NOTHING);
}

#[test]
fn a_flap_hangs_on_the_side_of_its_pocket() {
    cured("place-flap-side", "place/flap", &[("front on left", "front on right")]);
    // Far from it, it is a flap of its own.
    let apart = [("flap_corner   = (6, 40)", "flap_corner   = (6, 50)")];
    assert_eq!(said(&with(&mistake("place-flap-side"), &apart)), NOTHING);
    // So it is where the pocket has one already.
    let both = [
        (
            "place flap on front on left",
            "place other on front on right {\n  corner bottom_left at flap_corner\n  topstitch top\n}\nplace flap on front on left",
        ),
        ("{ front, pocket, flap }", "{ front, pocket, flap, other }"),
        (
            "finish pocket.top  hem 2\n",
            "finish pocket.top  hem 2\nfinish other.left, other.right, other.bottom  hem 1\n",
        ),
        ("place flap }\n", "place flap; hem other.left, other.right, other.bottom; place other }\n"),
        ("piece flap", "piece other \"Other flap\" { cut 1; outline rectangle 12 by 5 }\npiece flap"),
    ];
    assert_eq!(said(&with(&mistake("place-flap-side"), &both)), NOTHING);
}

#[test]
fn a_pocket_is_deep_enough_to_hold_something() {
    cured("place-small-mouth-shallow", "place/small-mouth", &[("12 by 2.5", "12 by 13")]);
    let deep = |cm: &str| {
        said(&with(
            &mistake("place-small-mouth-shallow"),
            &[("12 by 2.5", &format!("12 by {cm}")), ("pocket.top  hem 2", "pocket.top  hem 1")],
        ))
    };
    assert_eq!(deep("3"), NOTHING);
    assert_eq!(deep("2.7"), ["place/small-mouth"]);
}

#[test]
fn a_strap_that_is_sewn_on_at_both_ends_goes_once_round() {
    let strap = |cm: &str, to: &str| {
        let text = format!(
            "garment \"Chart bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150; kind woven firm }}\n\
             layer outer in canvas {{ bag }}\npiece bag \"Bag\" {{ cut 2; outline rectangle 40 by 36; mark at_left = (5, 34); mark at_right = (35, 34) }}\n\
             seam round bag.left + bag.bottom + bag.right to bag.left + bag.bottom + bag.right\nfinish bag.top hem 3\n\
             strap strap {cm} by 3 in outer folded in four {{ from bag.at_left to {to} }}\n"
        );
        said(&text).into_iter().filter(|slug| *slug == "length/out-of-use").count()
    };
    assert_eq!(strap("190", "bag.at_right"), 0);
    assert_eq!(strap("320", "bag.at_right"), 1);
    assert_eq!(strap("320", "free"), 0);
}

#[test]
fn what_three_seams_catch_hangs_open_below() {
    let cape = "garment \"Lookout's cape, its back\"\nunits cm\nallowance 1\n\
        fabric oilskin \"oilskin\" { width 150; kind woven firm; nap none }\nlayer outer in oilskin { back, yoke, left, right, top }\n\
        piece back \"Back\" { cut 1; outline rectangle 40 by 60; mark low = (0, 40) }\n\
        piece yoke \"Storm yoke\" { cut 1; outline rectangle 40 by 20 }\n\
        piece left \"Left\" { cut 1; outline rectangle 10 by 60 }\npiece right \"Right\" { cut 1; outline rectangle 10 by 60 }\n\
        piece top \"Top\" { cut 1; outline rectangle 40 by 10 }\n\
        seam to_left left.right to back.left { matching left.bottom_right with back.bottom_left }\n\
        seam to_right right.left to back.right { matching right.bottom_left with back.bottom_right }\n\
        seam to_top top.bottom to back.top { matching top.bottom_left with back.top_left }\n\
        place yoke on back {\n corner bottom_left at low\n caught left in to_left\n caught right in to_right\n caught top in to_top\n}\n\
        finish yoke.bottom hem 1\nfinish back.bottom, left.left, left.top, left.bottom, right.right, right.top, right.bottom, top.left, top.right, top.top hem 1\n";
    assert_eq!(said(cape), NOTHING);
}

#[test]
fn a_hem_is_told_once_round_its_rim_and_with_a_depth_that_does() {
    // A hem of 2 on half a circle of 20 to each side: π × 2 of π × 20 are 10 % to ease in, and 3 % are at a hem of 6 mm.
    let text = "garment \"Galley wrap\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150; kind woven firm }\n\
        layer outer in canvas { front, back }\npiece front \"Front\" {\ncut 1 on fold middle\npoint top = (0, 0)\npoint low = (0, -20)\n\
        point side_low = (20, 0)\noutline from top {\nmiddle to low\nhem to side_low arc about top anticlockwise\nside to top\n}\n}\n\
        piece back \"Back\" like front { }\nseam side front.side to back.side\nfinish front.hem, back.hem hem 2\n";
    let told: Vec<(&str, String)> = told(text).into_iter().filter(|(slug, _)| *slug == "hem/short").collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].1.contains("the hem of Front and the hem of Back: up to 3.1 cm, 10 %"), "{told:?}");
    assert!(helps(text).iter().any(|help| help.contains("no deeper than 6 mm")), "{:?}", helps(text));
}

#[test]
fn a_strap_reaches_over_what_lies_between_its_ends() {
    let near = [("to skirt.low", "to bib.beside")];
    cured("strap-draws-together-far", "strap/draws-together", &near);
    // 24 of the bib, 6 of the band and 38 of the skirt lie between, straight down: 68, of which a third is 22.7.
    let [(_, title)] = told(&mistake("strap-draws-together-far")).try_into().expect("one message");
    assert!(title.contains("10 cm between its ends, which lie 68 cm apart over the cloth"), "{title}");
    let long =
        |cm: &str| said(&with(&mistake("strap-draws-together-far"), &[("12 by 2", &format!("{cm} by 2"))]));
    assert_eq!(long("25"), NOTHING);
    assert_eq!(long("24"), ["strap/draws-together"]);
    // A tab from the one side of a bag to the other lies over its mouth, however far the way round by its sides.
    let bag = "garment \"Chart bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150; kind woven firm }\n\
        layer outer in canvas { front, back }\n\
        piece front \"Front\" { cut 1; outline rectangle 50 by 36; mark tab = (25, 30) }\npiece back \"Back\" like front { }\n\
        seam round front.left + front.bottom + front.right to back.left + back.bottom + back.right\n\
        finish front.top, back.top hem 3\nstrap tab 14 by 3 in outer folded in four { from front.tab to back.tab; sewn 1 }\n";
    assert_eq!(said(bag), NOTHING);
}

#[test]
fn a_tack_on_one_piece_holds_a_fold_down() {
    // From (4, 72) it is √(4² + 8²) = 8.9 to the corner above and √(4² + 72²) = 72.1 to the one below.
    cured("tack-far-on-one", "tack/far", &[("to apron.bottom_left", "to apron.top_left")]);
    let [(_, title)] = told(&mistake("tack-far-on-one")).try_into().expect("one message");
    assert!(title.contains("72.1 cm apart"), "{title}");
}
