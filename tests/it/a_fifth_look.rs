//! What a cutter still slipped past the checks: seams that were overlocked instead, pockets open below, straps on one another, slips
//! that no hip passes, peaks that cannot be turned. Each beside what is sound.

use crate::workbench::{NOTHING, cured, helps, mistake, of, said, told, with};

#[test]
fn edges_that_are_overlocked_and_should_be_joined() {
    cured(
        "edge-unjoined",
        "edge/unjoined",
        &[
            ("outer.front.right to outer.back.right", "front.right to back.right"),
            ("finish lining.front.right, lining.back.right  overlocked\n", ""),
            (
                "front.bottom to back.bottom",
                "front.bottom to back.bottom { leaving gap 15 in the middle in lining }",
            ),
        ],
    );
    // A stretch of it left open, the rest sewn, is a way in.
    let slit = [
        ("outer.front.right to outer.back.right", "front.right to back.right"),
        (
            "lining.front.right, lining.back.right",
            "lining.front.right 12..24 from top_right, lining.back.right 12..24 from top_right",
        ),
    ];
    assert!(!said(&with(&mistake("edge-unjoined"), &slit)).contains(&"edge/unjoined"));
    cured(
        "edge-unjoined-hole",
        "edge/unjoined",
        &[("finish half.crown  overlocked\n", "seam crown  half.crown to half.crown { stitch 504 }\n")],
    );
    // A hem runs on over its seams with 90° on each side: overlocked, it stays one.
    let hem = with(
        &mistake("edge-unjoined-hole"),
        &[
            ("finish half.crown  overlocked\n", "seam crown  half.crown to half.crown { stitch 504 }\n"),
            ("half.hem    hem 2", "half.hem    overlocked"),
        ],
    );
    assert_eq!(said(&hem), NOTHING);
}

#[test]
fn a_french_seam_has_room_for_what_it_encloses() {
    // Twice the thickness of 3 mm is 6 mm.
    cured("hem-tiny-french", "hem/tiny", &[("french 0.3", "french 0.6"), ("allowance 1\n", "allowance 2\n")]);
    let narrow = [("french 0.3", "french 0.59"), ("allowance 1\n", "allowance 2\n")];
    assert_eq!(said(&with(&mistake("hem-tiny-french"), &narrow)), ["hem/tiny"]);
    let lawn = with(&mistake("hem-tiny-french"), &[("thickness 3mm", "thickness 0.3mm")]);
    assert_eq!(said(&lawn), NOTHING);
}

#[test]
fn buttons_that_are_bought_close_something_or_are_sewn_on() {
    let set = "mark at_top = (15, 50)\n  mark low = (15, 10)\n  mark third = (15, 20)\n  mark fourth = (15, 30)\n  mark fifth = (15, 40)\n";
    cured(
        "notion-unneeded-buttons",
        "notion/unneeded",
        &[
            ("outline rectangle 30 by 60 }", &format!("outline rectangle 30 by 60\n  {set}}}")),
            (
                "\"button 15 mm\" 5\n",
                "\"button 15 mm\" 5\nset shown \"button 15 mm\" at bib.at_top, bib.low, bib.third, bib.fourth, bib.fifth\n",
            ),
        ],
    );
    // What is no fastener is bought for reasons of its own.
    let other = with(&mistake("notion-unneeded-buttons"), &[("button 15 mm", "name label")]);
    assert_eq!(said(&other), NOTHING);
}

#[test]
fn a_child_s_belt_is_spoken_of() {
    let adult = with(&mistake("caution-cord-sash"), &[("wearer child from 4 to 8 years", "wearer adult")]);
    assert_eq!(said(&adult), NOTHING);
    assert_eq!(said(&mistake("caution-cord-sash")), ["caution/cord"]);
}

#[test]
fn what_is_understitched_is_the_lining() {
    cured(
        "row-outside-lining",
        "row/outside",
        &[("outer.front.top, outer.back.top\n", "lining.front.top, lining.back.top\n")],
    );
}

#[test]
fn a_pocket_has_one_mouth() {
    cured(
        "place-mouth-down-both",
        "place/mouth-down",
        &[
            ("pocket.top, pocket.bottom  hem 2", "pocket.top  hem 2"),
            ("topstitch left, right", "topstitch left, bottom, right"),
        ],
    );
    // A tunnel for a strap is open above and below.
    let tunnel = with(
        &mistake("place-mouth-down-both"),
        &[("\"Pocket\"", "\"Tunnel\""), ("piece pocket", "piece tunnel")],
    );
    let tunnel = tunnel
        .replace("pocket.", "tunnel.")
        .replace("apron, pocket }", "apron, tunnel }")
        .replace("place pocket", "place tunnel");
    assert_eq!(said(&tunnel), NOTHING);
    // What is zipped above and open below is told of its bottom.
    let zipped = with(
        &mistake("place-mouth-down-both"),
        &[
            ("apron, pocket }", "apron, pocket, strip }"),
            (
                "finish pocket.top, pocket.bottom",
                "piece strip \"Strip\" { cut 1; outline rectangle 20 by 4 }\nfinish pocket.bottom",
            ),
            ("mark pocket_at", "mark strip_at = (25, 58.5); mark pocket_at"),
            (
                "place pocket on",
                "closure zip  pocket.top to strip.bottom { zipper closed 20 }\nplace strip on apron { corner bottom_left at strip_at; topstitch left, top, right }\nplace pocket on",
            ),
        ],
    );
    assert_eq!(said(&zipped), ["place/mouth-down"], "{:?}", told(&zipped));
    assert!(helps(&zipped)[0].starts_with("add bottom to what is topstitched"), "{:?}", helps(&zipped));
}

#[test]
fn a_part_of_an_edge_is_sewn_to_the_same_part() {
    let seam = "seam h back.left 72..100 from bottom_left to back.left";
    cured("run-uneven-rest", "run/uneven", &[(seam, &format!("{seam} 72..100 from bottom_left"))]);
    // What is left of one copy meets what is left of the other.
    cured("run-uneven-rest", "run/uneven", &[(seam, "seam h back.left to back.left")]);
}

#[test]
fn an_edge_of_a_piece_and_of_its_copy_is_shown_once() {
    let text = "garment \"Galley skirt\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nlayer outer in drill { front, back }\n\
                piece front \"Front\" { cut 1 on fold left; outline rectangle 30 by 60 }\n\
                piece back \"Back\" { cut 1 on fold left; outline copy of front }\n\
                finish front.top, back.top, front.bottom, back.bottom  hem 2\n\
                steps { \"Skirt\" { sew side; hem front.top, back.top, front.bottom, back.bottom } }\n";
    let all = of(text).diagnostics;
    let shown: Vec<&str> = all.iter().flat_map(|one| &one.labels).map(|label| &*label.text).collect();
    assert_eq!(shown, ["left loose", "the steps sew it, and no seam is called so"]);
}

#[test]
fn a_patch_shuts_what_lies_below() {
    let of = |steps: &str| {
        let edges = "\"Edges\" { hem apron.left, apron.right, apron.top, apron.bottom }";
        told(&format!("{}steps {{\n  {steps}\n  {edges}\n}}\n", mistake("place-over-pocket-patch")))
    };
    // Behind the pocket it strengthens the cloth.
    assert_eq!(of("\"Pocket\" { hem pocket.top; place badge, pocket }"), []);
    let found = of("\"Pocket\" { hem pocket.top; place pocket, badge }");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "place/over-pocket");
}

#[test]
fn straps_lie_beside_one_another() {
    cured("strap-overlap-loop", "strap/overlap", &[("9 by 15", "9 by 1.5")]);
    // 4 cm wide, 4 cm apart: their edges touch.
    cured("strap-overlap-ends", "strap/overlap", &[("(17, 36)", "(16, 36)"), ("(19, 36)", "(20, 36)")]);
    // From one place both may go, to either side.
    let one_place = with(&mistake("strap-overlap-ends"), &[("back.right_high", "back.left_high")]);
    assert_eq!(said(&one_place), NOTHING);
}

#[test]
fn a_slip_opens_as_far_as_its_skirt() {
    cured(
        "opening-passes-slip",
        "opening/passes",
        &[(
            "slip_front.upper 6 from top_s on left, slip_back.upper 6",
            "slip_front.upper 18 from top_s on left, slip_back.upper 18",
        )],
    );
    // Round the waist 4 × (70 / 4 + 0.5) = 72: 12 of slit on both sides are 96.
    let open = |deep: &str| {
        let text = mistake("opening-passes-slip").replace(".upper 6 from", &format!(".upper {deep} from"));
        said(&text)
    };
    assert_eq!(open("12"), NOTHING);
    assert_eq!(open("11.8"), ["opening/passes"]);
}

#[test]
fn what_hangs_from_a_band_ends_above_the_hem() {
    let found = told(&mistake("lining-long-band"));
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].1.contains("about 3 cm"), "{found:?}");
    cured("lining-long-band", "lining/long", &[("100 by 63", "100 by 58")]);
}

#[test]
fn two_halves_on_the_fold_are_joined_to_a_half() {
    let text = "garment \"Steward's back\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nlayer outer in drill { yoke, back }\n\
                piece yoke \"Yoke\" { cut 1 on fold left; outline rectangle 20 by 10 }\n\
                piece back \"Back\" { cut 1 on fold left; outline rectangle 20 by 30 }\n\
                seam yoke_on yoke.bottom to back.top\n\
                finish yoke.top, yoke.right, back.right, back.bottom hem 1\n\
                join yoke to back at yoke_on into body\n";
    assert_eq!(said(text), NOTHING, "{:?}", told(text));
    // 10 and 30 high: the fold of the whole is 40.
    let measured = format!("{text}require length(body.left) = 40 \"the fold\"\n");
    assert_eq!(said(&measured), NOTHING, "{:?}", told(&measured));
    let wrong = format!("{text}require length(body.left) = 30 \"the fold\"\n");
    assert_eq!(said(&wrong), ["require/unmet"]);
    // A fold at the other side does not run on.
    let across = with(
        text,
        &[("piece back \"Back\" { cut 1 on fold left", "piece back \"Back\" { cut 1 on fold right")],
    );
    assert!(said(&across).contains(&"alter/join-fold"), "{:?}", told(&across));
}

/// Opened, the two halves are pairs; joined, each pair is one front edge in two runs, of 10 and of 30; closed, one fold of 40.
#[test]
fn halves_that_are_opened_and_joined_are_closed_in_one_line() {
    let text = "garment \"Steward's back\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nlayer outer in drill { yoke, back }\n\
                piece yoke \"Yoke\" { cut 1 on fold left; outline rectangle 20 by 10 }\n\
                piece back \"Back\" { cut 1 on fold left; outline rectangle 20 by 30 }\n\
                seam yoke_on yoke.bottom to back.top\n\
                finish yoke.top, yoke.right, back.right, back.bottom hem 1\n\
                open yoke at left\nopen back at left\njoin yoke to back at yoke_on into body\nclose body at left\n";
    assert_eq!(said(text), NOTHING, "{:?}", told(text));
    let measured = |long: u32| format!("{text}require length(body.left) = {long} \"the fold\"\n");
    assert_eq!(said(&measured(40)), NOTHING, "{:?}", told(&measured(40)));
    assert_eq!(said(&measured(30)), ["require/unmet"]);
    // A yoke that leans by 2 meets the back at an angle: what bends is no fold.
    let leaning = with(
        text,
        &[
            (
                "cut 1 on fold left; outline rectangle 20 by 10",
                "cut 2 mirrored; point a = (0, 0); point b = (20, 0); point c = (20, 10); point d = (2, 10); outline from a { bottom to b; \
                 right to c; top to d; left to a }",
            ),
            ("open yoke at left\n", ""),
        ],
    );
    let told = told(&leaning);
    let title = "left of body is in 2 edges that do not run on in one line, and cloth folds along a straight line only";
    assert!(told.iter().any(|one| one.1.contains(title)), "{told:?}");
}

#[test]
fn a_zip_is_long_enough_to_get_in() {
    // 72 and twice 9.6 are 0.95 of a hip of 96.
    let zip = |long: &str| {
        let zipped = format!(
            "front.upper {long} from top_s to back.upper {long} from top_s on left {{ zipper concealed {long} }}"
        );
        said(&with(
            &mistake("opening-no-way-zip"),
            &[(
                "front.upper 3 from top_s to back.upper 3 from top_s on left { zipper concealed 3 }",
                &zipped,
            )],
        ))
    };
    assert_eq!(zip("9"), ["opening/no-way"]);
    // With 3 cm it opens to 78, and 18 are wanting all round.
    assert!(helps(&mistake("opening-no-way-zip"))[0].starts_with("make it at least 9 cm longer"));
    assert_eq!(zip("10"), NOTHING);
}

#[test]
fn a_row_does_not_go_across_a_slit() {
    cured("place-shut-slit", "place/shut", &[("edge_row 12", "edge_row 1.2")]);
    // Beside its end, which lies 6 cm from the edge, it holds it.
    let beside = with(&mistake("place-shut-slit"), &[("edge_row 12", "edge_row 5.8")]);
    assert_eq!(said(&beside), NOTHING);
}

#[test]
fn what_is_caught_is_turned_before() {
    let steps = [("\"Brim\" { sew brim, rim }", "\"Brim\" { sew rim, brim }")];
    cured("turn-closed-caught", "turn/closed", &steps);
}

/// A slip that hangs from a waistband, whose slit is hemmed in that step.
fn hung(steps: &str) -> Vec<&'static str> {
    let text = mistake("opening-passes-slip").replace(".upper 6 from", ".upper 18 from");
    said(&format!("{text}steps {{\n{steps}}}\n"))
}

#[test]
fn the_slit_of_a_slip_is_hemmed_before_its_band_goes_on() {
    let sides = "  \"Sides\" { sew zip, side, slip_side }\n";
    let hems = "  \"Hems\" { hem front.hem, back.hem, slip_front.hem, slip_back.hem; sew hook }\n";
    let slit = "  \"Slit\" { hem slip_front.upper, slip_back.upper }\n";
    let waist = "  \"Waist\" { sew waist }\n";
    assert_eq!(hung(&[sides, slit, waist, hems].concat()), NOTHING);
    assert_eq!(hung(&[sides, waist, slit, hems].concat()), ["step/early", "step/early"]);
}

/// A cushion with a border that a zip parts on one side.
const CUSHION: &str = r#"garment "Wheelhouse cushion"
units cm
allowance 1
let wide = 50
let deep = 45
let high = 6
fabric cord "corduroy" { width 145; kind woven firm }
layer outer in cord { top, under, border, zip_up, zip_low }
piece top "Top" { cut 1; outline rectangle wide by deep }
piece under "Underside" { cut 1; outline copy of top }
piece border "Border" { cut 1; outline rectangle wide + 2 * deep by high }
piece zip_up "Zip border, upper" { cut 1; outline rectangle wide by high / 2 }
piece zip_low "Zip border, lower" { cut 1; outline rectangle wide by high / 2 }
closure zip  zip_up.bottom to zip_low.top { zipper closed wide }
seam end_l  border.left to zip_up.right + zip_low.right { matching border.top_left with zip_up.top_right }
seam end_r  border.right to zip_up.left + zip_low.left { matching border.top_right with zip_up.top_left }
seam round_t  top.left + top.bottom + top.right + top.top to border.top + zip_up.top { matching top.top_left with border.top_left }
seam round_l  under.right + under.bottom + under.left + under.top to border.bottom + zip_low.bottom { matching under.top_right with border.bottom_left }
"#;

#[test]
fn a_zip_shows_how_the_edges_beside_it_follow_one_another() {
    // Nothing but the zip says that the lower strip hangs below the upper one; and every rectangle has a bottom right.
    assert_eq!(said(CUSHION), NOTHING, "{:?}", told(CUSHION));
    let steps = |zip: &str, ends: &str| {
        format!("{CUSHION}steps {{\n  {zip}\n  {ends}\n  \"Round\" {{ sew round_t, round_l }}\n}}\n")
    };
    let (zip, ends) = ("\"Zip\" { sew zip }", "\"Ends\" { sew end_l, end_r }");
    assert_eq!(said(&steps(zip, ends)), NOTHING);
    assert_eq!(said(&steps(ends, zip)), ["step/zip-late"]);
    // What is said to match wins over names that all rectangles have.
    let both = CUSHION.replace(
        "matching under.top_right with border.bottom_left",
        "matching under.top_right with border.bottom_left; matching under.top_left with border.bottom_right",
    );
    assert_eq!(said(&both), NOTHING, "{:?}", told(&both));
}

#[test]
fn a_row_that_goes_through_a_flap_holds_it_down() {
    let row = |far: &str| {
        let text = format!(
            "garment \"Deck apron\"\nunits cm\nallowance 1\nfabric canvas \"apron canvas\" {{ width 150; kind woven firm }}\n\
             layer outer in canvas {{ apron, flap }}\n\
             piece apron \"Apron\" {{ cut 1; outline rectangle 70 by 80; mark flap_at = (25, 60) }}\n\
             piece flap \"Flap\" {{ cut 1; outline rectangle 20 by 8 }}\n\
             finish apron.left, apron.right, apron.top, apron.bottom  hem 2\n\
             finish flap.left, flap.right, flap.bottom  hem 1\n\
             place flap on apron {{ corner top_left at flap_at; topstitch top }}\n\
             topstitch side_row {far} from apron.left\n\
             steps {{ \"Edges\" {{ hem apron.left, apron.right, apron.top, apron.bottom }}\n\"Flap\" {{ hem flap.left, flap.right, flap.bottom; place flap; topstitch side_row }} }}\n"
        );
        told(&text)
    };
    assert_eq!(row("10"), []);
    let through = row("35");
    assert_eq!(through.len(), 1, "{through:?}");
    assert!(through[0].1.contains("sew"), "{through:?}");
}
