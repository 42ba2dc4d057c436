//! Garments a few words away from a sound one, as a cutter finds them: a row in the wrong order, elastic measured at the wrong
//! place, a hood that is shut at the face. Each is told, and what is sound beside it is not.

use crate::workbench::{NOTHING, cured, example, helps, mistake, said, told, with};

#[test]
fn a_row_names_its_edges_as_they_follow_one_another() {
    let order = [(
        "front.neck + back.neck + sleeve.neck  stretching",
        "front.neck + sleeve.neck + back.neck  stretching",
    )];
    cured("seam-jumps-order", "seam/jumps", &order);
    // So it is where the jersey's own neckband says it, and no bare title tells which edge is meant.
    let jersey = example("raglan-jersey");
    let row = "outer.front.neckline + outer.sleeve.neckline + outer.back.neckline  stretching";
    assert_eq!(said(&jersey), NOTHING);
    let wrong = with(
        &jersey,
        &[(row, "outer.front.neckline + outer.back.neckline + outer.sleeve.neckline  stretching")],
    );
    assert_eq!(said(&wrong), ["seam/jumps"]);
    // From the back it is the same row.
    let back = with(
        &jersey,
        &[(row, "outer.back.neckline + outer.sleeve.neckline + outer.front.neckline  stretching")],
    );
    assert_eq!(said(&back), NOTHING);
}

#[test]
fn elastic_is_measured_where_it_sits() {
    // The hip is 96 and 104, the waist 70 and 78: 90 % of the hip is 86.4 and 93.6, of the waist 63 and 70.2.
    cured("elastic-slack", "elastic/slack", &[("of hip * 90%", "of waist * 90%")]);
    let [(_, title)] = told(&mistake("elastic-slack")).try_into().expect("one message");
    assert!(title.contains("16.4 cm longer than the waist"), "{title}");
    // An edge that is called after no measure says nothing of where it sits.
    let skirt = with(
        &mistake("elastic-slack"),
        &[
            ("waist to high_left", "top to high_left"),
            ("skirt.waist ", "skirt.top "),
            ("skirt.waist ", "skirt.top "),
        ],
    );
    assert_eq!(said(&skirt), NOTHING);
}

#[test]
fn one_button_has_one_place() {
    cured("button-two-places", "button/two-places", &[("to 4 below top_left", "to 2 below top_left")]);
    // Two buttons have two.
    let two = with(
        &mistake("button-two-places"),
        &[("buttons 1 of 11mm", "buttons 2 of 11mm"), ("to 4 below", "to 4.5 below")],
    );
    assert!(!said(&two).contains(&"button/two-places"));
}

#[test]
fn a_row_begins_near_the_top() {
    // The line is 60 long: from 18 to 10 above its end 32 are left, 8 from one to the next of five.
    cured("button-spacing-top", "button/spacing", &[("from 18 below", "from 3 below")]);
    // 1½ × (60 - 11 - 10) / 4 = 14.6.
    let shirt = mistake("button-spacing-top");
    assert_eq!(said(&with(&shirt, &[("from 18 below", "from 11 below")])), NOTHING);
    // It is the same row from below.
    let below = with(
        &shirt,
        &[("from 18 below neck_cf  to 10 above hem_cf", "from 10 above hem_cf  to 18 below neck_cf")],
    );
    assert_eq!(said(&below), ["button/spacing"]);
    // Above the hem the front may stay open: to walk in.
    let hem = with(&shirt, &[("from 18 below", "from 3 below"), ("to 10 above", "to 25 above")]);
    assert_eq!(said(&hem), NOTHING);
}

#[test]
fn a_folded_band_has_a_height() {
    cured("fold-narrow", "fold/narrow", &[("54 by 1\n", "54 by 5\n")]);
    // Piping lies between two pieces, and is as narrow as a cord.
    let cushion = "garment \"Piped cushion\"\nunits cm\nallowance 1\n\
        fabric drill \"cotton drill\" { width 150; kind woven firm }\nlayer outer in drill { top, low, piping }\n\
        piece top \"Top\" { cut 1; outline rectangle 40 by 40 }\npiece low \"Bottom\" { cut 1; outline copy of top }\n\
        piece piping \"Piping\" { cut 1; outline rectangle 40 by 1; folded top to bottom }\n\
        seam front  top.bottom and piping.bottom and piping.top to low.bottom { matching top.bottom_left with piping.bottom_left }\n\
        finish piping.left, piping.right  raw\n\
        finish top.left, top.top, top.right, low.left, low.top, low.right  hem 2\n";
    assert!(!said(cushion).contains(&"fold/narrow"), "{:?}", said(cushion));
    // So do the jets of a pocket.
    assert!(!said(&example("mate-trousers")).contains(&"fold/narrow"));
}

#[test]
fn a_hood_is_open_for_the_face() {
    let face = [
        ("seam crown hood.crown to hood.crown\n", "seam crown hood.crown to hood.crown\n"),
        ("seam face  hood.face to hood.face\n", ""),
        ("back.hem  bound 1", "back.hem, hood.face  bound 1"),
    ];
    cured("opening-no-way-hood", "opening/no-way", &face);
    let behind = [
        ("seam face  hood.face to hood.face", "seam crown hood.crown to hood.crown"),
        ("hood.crown  bound 1", "hood.face  bound 1"),
    ];
    cured("seam-back-to-front-behind", "seam/back-to-front", &behind);
    let [help] = helps(&mistake("seam-back-to-front-behind")).try_into().expect("one way out");
    assert!(help.contains("lies at Front"), "{help}");
}

#[test]
fn the_ends_of_a_facing_are_joined() {
    let joined = [(
        "finish front_facing.side, back_facing.side  raw",
        "seam facing_side  front_facing.side to back_facing.side",
    )];
    cured("facing-open", "facing/open", &joined);
    // Finished they do not fray.
    cured("facing-open", "facing/open", &[("back_facing.side  raw", "back_facing.side  overlocked")]);
}

#[test]
fn a_bar_is_sewn_where_the_zip_ends() {
    cured("tack-shuts", "tack/shuts", &[("back.top_left bar", "back.opening at 20 from top_left bar")]);
}

#[test]
fn a_strap_goes_over_the_shoulder() {
    cured("strap-one-side", "strap/one-side", &[("to front.outside", "to back.strap")]);
    // A loop for a belt is short; a strap from the left to the right goes round the neck.
    let dress = mistake("strap-one-side");
    assert!(!said(&with(&dress, &[("40 by 1.5", "20 by 1.5")])).contains(&"strap/one-side"));
    let halter = with(
        &dress,
        &[("from front.inside to front.outside", "from front.inside on left to front.inside on right")],
    );
    assert!(!said(&halter).contains(&"strap/one-side"), "{:?}", said(&halter));
}

#[test]
fn a_lining_hangs_shorter_than_the_outer() {
    // 1 cm shorter by another hem, which is turned up: the finished edge counts, and 2 cm are taken off.
    let line = "  outline rectangle hip / 4 + 1 by 60\n}\npiece back";
    let shorter = [
        (line, "  outline rectangle hip / 4 + 1 by 60\n  line knee across at (0, 20)\n}\npiece back"),
        (
            "hip / 4 + 1 by 60\n}\nseam",
            "hip / 4 + 1 by 60\n  line knee across at (0, 20)\n}\nshorten lining.front, lining.back at knee by 2\nseam",
        ),
    ];
    cured("lining-level", "lining/level", &shorter);
    // Sewn to one another at the hem they hang together.
    let together = [(
        "finish outer.front.bottom, outer.back.bottom    hem 3\nfinish lining.front.bottom, lining.back.bottom  hem 2",
        "seam hem  outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom",
    )];
    assert!(!said(&with(&mistake("lining-level"), &together)).contains(&"lining/level"));
}

/// Caps of three and of four panels, and skirts of as many gores, are rings as those of six are.
#[test]
fn a_few_panels_make_a_ring_too() {
    let cap = example("watch-cap");
    for panels in [2, 3, 4, 5, 8] {
        let half = 2 * panels;
        let own = with(
            &cap,
            &[
                ("cut 6", &format!("cut {panels}")),
                ("-head * snug/12", &format!("-head * snug/{half}")),
                ("(head * snug/12", &format!("(head * snug/{half}")),
                ("  notch thirds\n", ""),
            ],
        );
        assert_eq!(said(&own), NOTHING, "{panels} panels");
    }
    for gores in [2, 3, 4, 6] {
        // As long as the band: 72 round, 72 / 4 = 18 for one of four.
        let skirt = format!(
            "garment \"Gored skirt\"\nunits cm\nallowance 1\nsizes one\nbody {{ waist 68; hip 94 }}\n\
             fabric jersey \"jersey\" {{ width 150; kind knit; stretch 50% across, 20% along }}\nlayer outer in jersey {{ gore, band }}\n\
             piece gore \"Gore\" {{ cut {gores}; outline rectangle {} by 60 }}\n\
             piece band \"Band\" {{ cut 1; outline rectangle 72 by 8; folded top to bottom }}\n\
             seam gores  gore.right to gore.left in a ring {{ stitch 504 }}\n\
             seam ends   band.left to band.right {{ matching band.top_left with band.top_right }}\n\
             seam waist  band.top and band.bottom to gore.top in a ring {{ matching band.top_left with gore.top_left; stitch 504 }}\n\
             finish gore.bottom  hem 2\nopening gore.top in a ring  passes hip\n",
            72.0 / f64::from(gores)
        );
        assert_eq!(said(&skirt), NOTHING, "{gores} gores");
    }
}

/// The fronts, the back and the sleeve of a vest; its seams are put in by each test.
fn sleeved(seams: &[&str]) -> String {
    let head = "garment \"Deck vest\"\nunits cm\nallowance 1\n\
        fabric drill \"cotton drill\" { width 150; kind woven firm }\nlayer outer in drill { front, back, sleeve }\n\
        piece front \"Front\" {\n  cut 1 on fold centre\n  point hem_cf = (0, 0)\n  point neck_cf = (0, 54)\n  \
        point neck = (12, 54)\n  point tip = (20, 54)\n  point underarm = (26, 36)\n  point hem = (26, 0)\n  \
        outline from hem_cf {\n    centre to neck_cf\n    neckline to neck\n    shoulder to tip\n    armhole to underarm\n    \
        side to hem\n    hem to hem_cf\n  }\n}\npiece back \"Back\" like front { }\n\
        let h = sqrt(length(front.armhole) * length(front.armhole) - 16cm * 16cm)\n\
        piece sleeve \"Sleeve\" {\n  cut 2 mirrored\n  point under_back = (-16, 0)\n  point top = (0, h)\n  \
        point under_front = (16, 0)\n  point wrist_front = (16, -40)\n  point wrist_back = (-16, -40)\n  \
        outline from wrist_back {\n    back_arm to under_back\n    back_cap to top\n    front_cap to under_front\n    \
        front_arm to wrist_front\n    wrist to wrist_back\n  }\n}\n";
    let tail =
        "finish front.neckline, back.neckline  bound 1\nfinish front.hem, back.hem, sleeve.wrist  hem 2\n";
    format!("{head}{}\n{tail}", seams.join("\n"))
}

const SHOULDER: &str = "seam shoulder  front.shoulder to back.shoulder";
const SIDE: &str = "seam side  front.side to back.side";
const ARM: &str =
    "seam arm  sleeve.front_arm to sleeve.back_arm { matching sleeve.wrist_front with sleeve.wrist_back }";
const ARMHOLE: &str = "seam armhole  sleeve.front_cap + sleeve.back_cap to front.armhole + back.armhole { matching sleeve.top with front.tip }";

/// Front and back meet at both ends of the armhole. That the sleeve's top meets the tip says that the tip lies inside.
#[test]
fn in_whatever_order_seams_are_said_an_armhole_lies_the_same_way() {
    let orders = [
        [SHOULDER, SIDE, ARM, ARMHOLE],
        [SIDE, SHOULDER, ARM, ARMHOLE],
        [ARMHOLE, SIDE, ARM, SHOULDER],
        [ARMHOLE, SHOULDER, SIDE, ARM],
        [SIDE, ARMHOLE, SHOULDER, ARM],
        [SHOULDER, ARMHOLE, SIDE, ARM],
    ];
    for order in orders {
        let all = said(&sleeved(&order));
        assert!(
            all.iter().all(|slug| !slug.starts_with("seam/") || *slug == "seam/kink"),
            "{order:?}: {all:?}"
        );
    }
    // Where the sleeve is no ring, its ends are asked for: the underarm's, since the tips lie inside.
    for order in [[SHOULDER, SIDE, ARMHOLE], [SIDE, SHOULDER, ARMHOLE], [ARMHOLE, SIDE, SHOULDER]] {
        let text = format!("{}finish sleeve.front_arm, sleeve.back_arm  hem 1\n", sleeved(&order));
        assert!(said(&text).contains(&"seam/ends"), "{order:?}");
        let help = helps(&text)
            .into_iter()
            .find(|help| help.contains("matching sleeve.under_front"))
            .expect("asked for");
        assert!(help.contains("front.underarm") && !help.contains("tip"), "{order:?}: {help}");
    }
}
