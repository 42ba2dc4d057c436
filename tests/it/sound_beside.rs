//! Darts, gaps, notches, orders of work and odd values that pass for right at a glance, each beside the sound one.

use crate::workbench::{NOTHING, cured, helps, mistake, said, with};

#[test]
fn a_dart_runs_out_over_a_length() {
    cured("dart-blunt", "dart/blunt", &[("stopping 11 short", "stopping 2 short")]);
    cured(
        "dart-blunt-wide",
        "dart/blunt",
        &[("width 8 to (11, 6)", "width 3 to (11, 12)"), ("22 by 60", "24.5 by 60")],
    );
}

#[test]
fn a_gap_is_left_where_something_is_closed() {
    // A lining that is sewn in all round but for the sides' gap.
    let vest = mistake("gap-needless");
    assert_eq!(said(&vest), ["gap/needless"]);
    assert_eq!(said(&with(&vest, &[(" { leaving gap 15 in outer, left }", "")])), NOTHING);
}

#[test]
fn a_hem_has_a_depth() {
    cured("value-nothing", "value/nothing", &[("hem 0", "hem 1")]);
    let towel = mistake("value-nothing");
    for (finish, slug) in [
        ("bound 0", &["value/nothing"][..]),
        ("hem 1 turned under 0", &["value/nothing"]),
        ("tape 0", &["value/nothing"]),
        ("tape 1", &[]),
    ] {
        assert_eq!(said(&with(&towel, &[("hem 0", finish)])), slug, "{finish}");
    }
}

#[test]
fn a_body_has_no_less_than_nothing() {
    let towel = with(
        &mistake("value-nothing"),
        &[("hem 0", "hem 1"), ("fabric", "sizes S, M, L\nbody { head 56 grade -30 }\nfabric")],
    );
    assert_eq!(said(&towel), ["value/negative", "size/irregular"]);
    assert_eq!(said(&with(&towel, &[("grade -30", "grade +1")])), NOTHING);
}

#[test]
fn a_piece_can_be_held() {
    cured("piece-tiny", "piece/tiny", &[("8 by 0.04", "8 by 4")]);
}

#[test]
fn edges_match_within_what_is_eased() {
    let vest = mistake("tolerance-wide");
    assert_eq!(said(&vest), ["tolerance/wide"]);
    assert_eq!(said(&with(&vest, &[("tolerance 2\n", "tolerance 1\n")])), ["seam/unequal"]);
    assert_eq!(
        said(&with(&vest, &[("tolerance 2\n", "tolerance 0\n"), ("26 by 61.5", "26 by 60")])),
        NOTHING
    );
}

#[test]
fn a_curve_is_cut_where_it_runs_along_the_grain() {
    let front = mistake("alter-s-bend");
    assert_eq!(said(&front), ["alter/s-bend"]);
    assert_eq!(said(&with(&front, &[("at (0, -10)", "at (0, -20)")])), NOTHING);
    // Or its side is drawn anew.
    let redrawn = "by 6\nredraw front.side curve leaving down arriving down";
    assert_eq!(said(&with(&front, &[("by 6", redrawn)])), NOTHING);
}

#[test]
fn a_piece_is_cut_along_a_line_that_crosses_it() {
    let patch = mistake("alter-no-line-inside");
    assert_eq!(said(&patch), ["alter/no-line"]);
    assert_eq!(said(&with(&patch, &[("to (7, 10)", "to (7, 15)")])), NOTHING);
    for alteration in ["overlap patch along middle by 1", "split patch at middle into one, other"] {
        assert_eq!(said(&with(&patch, &[("spread patch along middle by 3", alteration)])), ["alter/no-line"]);
    }
}

#[test]
fn a_girth_is_compared_however_it_is_added_up() {
    let cuff = mistake("measure-tight-added");
    assert_eq!(said(&cuff), ["measure/tight"]);
    for (measured, slugs) in [
        ("2 * length(cuff.bottom) / 2", &["measure/tight"][..]),
        ("finished(cuff.bottom)", &["measure/tight"]),
        ("2 * x(cuff.bottom_right) / 2", &["measure/tight"]),
        // Both cuffs together.
        ("total(cuff.bottom)", &[]),
        // Half of it is no girth.
        ("length(cuff.bottom) / 2", &[]),
        // Nor is what goes up and down.
        ("length(cuff.left)", &[]),
        // A figure that is measured nowhere is held against the cloth.
        ("12cm", &["measure/tight"]),
    ] {
        assert_eq!(said(&with(&cuff, &[("length(cuff.bottom)", measured)])), slugs, "{measured}");
    }
    assert_eq!(said(&with(&cuff, &[("rectangle 12 by 12", "rectangle 18 by 12")])), NOTHING);
}

#[test]
fn notches_stand_apart() {
    cured("notch-close-apart", "notch/close", &[("10.2 from", "20 from")]);
    // A double notch is one; and two pieces may say the same notch.
    let vest = mistake("notch-close-apart");
    let own = |second: &str| {
        with(
            &vest,
            &[
                ("  notch 10 from front.top_right\n  notch 10.2 from front.top_right\n", ""),
                ("26 by 60 }\npiece back", "26 by 60; notch right 10 from top_right }\npiece back"),
                ("on fold left; outline", &format!("on fold left; {second}; outline")),
            ],
        )
    };
    assert_eq!(said(&own("notch right 10 from top_right")), NOTHING);
    assert_eq!(said(&own("notch right 40 from bottom_right")), ["seam/segment"]);
}

#[test]
fn what_is_pressed_is_sewn_and_what_is_sewn_is_not_basted() {
    cured(
        "step-early-pressed",
        "step/early",
        &[
            ("\"Press\" { press side }\n", ""),
            ("sew front.waist_dart, side }", "sew front.waist_dart, side; press side, front.waist_dart }"),
        ],
    );
    cured(
        "step-early-basted",
        "step/early",
        &[
            ("\n  \"Baste\" { baste side }", ""),
            ("sew front.waist_dart, side", "sew front.waist_dart; baste side; sew side"),
        ],
    );
}

#[test]
fn buttonholes_go_through_what_is_stiffened() {
    cured(
        "step-early-buttons-fused",
        "step/early",
        &[("\n  \"Firm\"  { fuse cuff }", ""), ("{ finish cuff.top", "{ fuse cuff; finish cuff.top")],
    );
}

#[test]
fn a_row_goes_through_what_is_stiffened() {
    // Before its edge is sewn, too: afterwards its wrong side lies inside.
    cured(
        "step-early-row-fused",
        "step/early",
        &[("sew edge; ", ""), ("rows; fuse peak", "rows"), ("{ press", "{ fuse peak; sew edge; press")],
    );
}

#[test]
fn buttons_lie_where_the_other_side_laps() {
    cured("closure-lap-buttons", "closure/lap", &[("bottom_left }", "bottom_left stand 1.5 }")]);
}

#[test]
fn what_makes_up_for_an_alteration_of_one_side_is_told() {
    let tabard = mistake("alter-made-up");
    assert_eq!(said(&tabard), ["alter/made-up"]);
    assert_eq!(said(&with(&tabard, &[("lengthen front at", "lengthen front, back at")])), NOTHING);
    // 26 + 3 to 34 are within its bounds; 30 + 9 are not, and the cure is not to widen them.
    let far = with(&tabard, &[("at waist by 4", "at waist by 9")]);
    assert_eq!(said(&far), ["solve/none"]);
    let help = &helps(&far)[0];
    assert!(help.starts_with("lengthen back in the same line, as front is"), "{help}");
    // What has no waist is not altered with it: the value is there for that.
    let line = "  line waist across at (0, 15)\n";
    let own = tabard.rfind(line).expect("the back's line");
    let without = format!("{}{}", &tabard[..own], &tabard[own + line.len()..]);
    assert_eq!(said(&without), NOTHING);
}

#[test]
fn what_went_to_the_other_piece_of_a_split_is_told_so() {
    let towel = mistake("point-gone-split");
    assert_eq!(said(&towel), ["point/gone"]);
    assert_eq!(said(&with(&towel, &[("patch on other", "patch on one")])), NOTHING);
    assert_eq!(said(&with(&towel, &[("into one, other", "into other, one")])), NOTHING);
    let towel = mistake("edge-gone-split");
    assert_eq!(said(&towel), ["edge/gone"]);
    let help = &helps(&towel)[0];
    assert!(help.contains("one.left"), "{help}");
}

#[test]
fn a_notch_is_snipped_where_cloth_is_cut_and_sewn() {
    let back = mistake("notch-fold");
    assert_eq!(said(&back), ["notch/fold"]);
    assert_eq!(said(&with(&back, &[("notch left 10 from top", "notch top 10 from left")])), NOTHING);
    let front = mistake("notch-in-dart");
    assert_eq!(said(&front), ["notch/in-dart"]);
    for place in
        ["notch right 2 from side_dart.near", "notch right 2 from side_dart.far", "notch right 10 from top"]
    {
        assert_eq!(said(&with(&front, &[("notch right 20 from top", place)])), NOTHING, "{place}");
    }
    let front = mistake("notch-close-end");
    assert_eq!(said(&front), ["notch/close"]);
    for place in ["0 from top", "2 from top", "2 from bottom"] {
        assert_eq!(said(&with(&front, &[("0.2 from top", place)])), NOTHING, "{place}");
    }
}

#[test]
fn an_allowance_is_no_wider_than_is_let_out() {
    let vest = mistake("allowance-wide");
    assert_eq!(said(&vest), ["allowance/wide"]);
    assert_eq!(said(&with(&vest, &[("allowance 15 ", "allowance 5 ")])), NOTHING);
    assert_eq!(said(&with(&vest, &[("allowance 15 ", "allowance 7 ")])), ["allowance/wide"]);
}

#[test]
fn a_hem_and_a_casing_are_wide_enough_to_be_sewn() {
    let cloth = mistake("hem-tiny");
    let own = |how: &str| said(&with(&cloth, &[("hem 0.1", how)]));
    assert_eq!(own("hem 0.1"), ["hem/tiny"]);
    assert_eq!(own("hem 1mm"), ["hem/tiny"]);
    assert_eq!(own("hem 2mm"), NOTHING);
    let cased = |how: &str| {
        said(&with(
            &cloth,
            &[
                ("cloth.top, ", ""),
                (
                    "hem 0.1",
                    &format!(
                        "hem 1\nfinish cloth.top  casing {how}\ncord tie 80 through cloth.top ends 8 free"
                    ),
                ),
            ],
        ))
    };
    assert!(cased("0.2").contains(&"hem/tiny"));
    assert!(!cased("0.5").contains(&"hem/tiny"));
}

/// One layer's part that is not hemmed is hemmed by its own name.
#[test]
fn a_way_out_names_the_layer_that_is_meant() {
    let text = "garment \"Stove cloth\"\nunits cm\nallowance 1\nfabric canvas \"apron canvas\" { width 150 }\n\
         layer outer in canvas { cloth }\nlayer lining in canvas { cloth }\n\
         piece cloth \"Cloth\" { cut 1; outline rectangle 60 by 40 }\n\
         seam round outer.cloth.left + outer.cloth.top + outer.cloth.right to \
         lining.cloth.left + lining.cloth.top + lining.cloth.right\nfinish outer.cloth.bottom hem 2\n\
         steps { \"All\" { sew round; hem outer.cloth.bottom, lining.cloth.bottom } }\n";
    assert_eq!(said(text), ["edge/loose", "step/nothing"]);
    assert!(helps(text)[1].starts_with("say it: finish lining.cloth.bottom  hem 2"), "{:?}", helps(text));
}

#[test]
fn figures_that_nobody_means_are_told() {
    cured("alter-nothing", "alter/nothing", &[("by 0", "by 2")]);
    let towel = mistake("alter-nothing");
    let sizes = with(&towel, &[("fabric", "sizes S, M\nfabric"), ("middle by 0", "middle by each 0, 2")]);
    assert_eq!(said(&sizes), NOTHING);
    cured("size-alike", "size/alike", &[("88, 96, 96", "88, 96, 104")]);
    // Told apart by the other measure.
    cured("size-alike", "size/alike", &[("pick size by chest", "pick size by larger of chest, waist")]);
    cured("cloth-odd", "cloth/odd", &[("thickness 8 ", "thickness 8mm ")]);
    let fleece = mistake("cloth-odd");
    for (fact, slugs) in
        [("stretch 3% across", &[][..]), ("stretch 3 across", &["cloth/odd"]), ("stretch 200% across", &[])]
    {
        assert_eq!(said(&with(&fleece, &[("thickness 8 ", &format!("{fact} "))])), slugs, "{fact}");
    }
}
