//! What is to hold a garment together where it is worn: buttons on cloth, flaps over their pockets, loops over their bands, straps
//! across a back, bars, eyelets, gaps. Each beside what is sound.

use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, cured, mistake, said, told, with};
use fustian::sheet::Language;

/// Whether a change of an example still makes its mistake.
fn is_told(name: &str, slug: &str, changes: &[(&str, &str)]) -> bool {
    said(&with(&mistake(name), changes)).contains(&slug)
}

#[test]
fn a_button_lies_on_its_piece() {
    // The slant leads from (0, 40) by (12, 20); (2, 54) lies (14 · 12 − 2 · 20) / √544 = 128 / 23.3 = 5.5 beyond it.
    let off = told(&mistake("button-edge-off"));
    assert_eq!(off, [("button/edge", "the first button of placket lies 5.5 cm outside Front".to_owned())]);
    cured("button-edge-off", "button/edge", &[("first = (2, 54)", "first = (2, 40)")]);
    // On the edge itself half a button goes over it: that is told as before, and once.
    let on_it = told(&with(&mistake("button-edge-off"), &[("first = (2, 54)", "first = (2, 43.34)")]));
    let edge: Vec<_> = on_it.iter().filter(|(slug, _)| *slug == "button/edge").collect();
    assert!(matches!(edge[..], [(_, title)] if title.contains("comes within")), "{on_it:?}");
    // An edge that is itself the line of its buttons has its stand beyond it.
    let on_edge = [
        ("  line centre from first to last\n", ""),
        ("finish front.edge, front.slant  hem 4", "finish front.slant  hem 4"),
        ("front.centre to front.centre", "front.edge to front.edge"),
        ("from at first  to at last", "from 2 below v_end  to 6 above low_edge  stand 2"),
    ];
    assert!(!is_told("button-edge-off", "button/edge", &on_edge));
}

#[test]
fn a_folded_flap_hangs_over_its_snap() {
    // Folded to 7 and put with its upper corner at 27, what lies 5 above its lower edge comes 5 below its upper one: 22, as the
    // pocket's 6 + 16.
    cured(
        "closure-out-of-reach-folded",
        "closure/out-of-reach",
        &[("from (12.5, 16) to (13.5, 16)", "from (8.5, 16) to (9.5, 16)")],
    );
    let at = |row: &str| {
        let row = format!("from {row}");
        let change = [("from (12.5, 16) to (13.5, 16)", row.as_str())];
        is_told("closure-out-of-reach-folded", "closure/out-of-reach", &change)
    };
    // To the side nothing gives by more than 2; down what is in the pocket gives by 3.
    assert_eq!((at("(10.5, 16) to (11.5, 16)"), at("(10.6, 16) to (11.6, 16)")), (false, true));
    assert_eq!((at("(8.5, 13) to (9.5, 13)"), at("(8.5, 12.9) to (9.5, 12.9)")), (false, true));
    // The other half is the same place: 14 − 5 = 9.
    let half = [
        ("from (12.5, 16) to (13.5, 16)", "from (8.5, 16) to (9.5, 16)"),
        ("line snap_row from (8.5, 5) to (9.5, 5)", "line snap_row from (8.5, 9) to (9.5, 9)"),
    ];
    assert_eq!(said(&with(&mistake("closure-out-of-reach-folded"), &half)), NOTHING);
}

#[test]
fn a_flap_that_is_placed_elsewhere_is_told_once() {
    // 5 above the mouth that it is to cover its snap lies 12 above the pocket's: 38 − 7 + 3 to 6 + 16.
    let high = with(
        &mistake("place-flap-high"),
        &[
            (
                "piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 18 by 20 }",
                "piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 18 by 20; line snap_row from (8.5, 16) to (9.5, 16) }",
            ),
            (
                "piece flap \"Flap\" { cut 2 mirrored; outline rectangle 19 by 7 }",
                "piece flap \"Flap\" { cut 2 mirrored; outline rectangle 19 by 7; line snap_row from (9, 3) to (10, 3) }",
            ),
            (
                "finish pocket.top",
                "closure flap_snap  under.flap.snap_row to pocket.snap_row { snaps 1 of 10mm }\nfinish pocket.top",
            ),
        ],
    );
    assert_eq!(said(&high), ["place/flap"], "{:?}", told(&high));
    // Right above the mouth it lies 1 beside it.
    assert_eq!(said(&with(&high, &[("(8.5, 38)", "(8.5, 27)")])), NOTHING);
}

#[test]
fn a_flap_hangs_on_the_piece_its_pocket_lies_on_or_close_above() {
    cured(
        "closure-out-of-reach-pieces",
        "closure/out-of-reach",
        &[
            (
                "place outer.flap on back { corner top_left at flap_at",
                "place outer.flap on front { corner top_left at flap_at",
            ),
            ("mark pocket_at = (16, 6)", "mark pocket_at = (16, 6); mark flap_at = (16, 27)"),
            ("; mark flap_at = (16, 47)", ""),
        ],
    );
    // From a yoke, whose seam lies right above the mouth, it hangs down over the piece below.
    let yoke = [
        (
            "piece front \"Front\" { cut 1; outline rectangle 50 by 60; mark pocket_at = (16, 6) }",
            "piece front \"Front\" { cut 1; outline rectangle 50 by 28; mark pocket_at = (16, 6) }",
        ),
        (
            "piece back \"Back\" { cut 1; outline rectangle 50 by 60; mark flap_at = (16, 47) }",
            "piece back \"Yoke\" { cut 1; outline rectangle 50 by 30; mark flap_at = (16, 1) }",
        ),
        (
            "front.right to back.left { matching front.top_right with back.top_left }",
            "front.top to back.bottom { matching front.top_left with back.bottom_left }",
        ),
        (
            "front.left, front.top, front.bottom, back.right, back.top, back.bottom",
            "front.left, front.right, front.bottom, back.left, back.right, back.top",
        ),
    ];
    assert!(!is_told("closure-out-of-reach-pieces", "closure/out-of-reach", &yoke));
}

#[test]
fn a_loop_reaches_from_the_seam_to_its_mark() {
    // 3.6 and what is sewn on, 1.
    cured("strap-short-band", "strap/short", &[("\"Belt loop\" 3 by 1", "\"Belt loop\" 4.6 by 1")]);
    let short = |changes: &[(&str, &str)]| is_told("strap-short-band", "strap/short", changes);
    assert!(short(&[("3 by 1", "4.3 by 1")]));
    // 5 wide, 5 are sewn on of 8, and 3 are left.
    assert!(short(&[("3 by 1", "8 by 5")]));
    // The mark is meant on the left: 40 further on 8 do not reach.
    assert!(short(&[("3 by 1", "8 by 1"), ("(20, 3.6)", "(60, 3.6)")]));
    let right = [("3 by 1", "8 by 1"), ("(20, 3.6)", "(60, 3.6)"), ("on left at 20", "on right at 20")];
    assert!(!short(&right) || !short(&[right[0], right[1]]));
}

#[test]
fn a_loop_has_room_for_a_hook() {
    cured("strap-tight-loop-caught", "strap/tight-loop", &[("2 by 1", "6 by 1")]);
    let tight = |size: &str| is_told("strap-tight-loop-caught", "strap/tight-loop", &[("2 by 1", size)]);
    // A narrow one holds a small button.
    assert!(tight("2.4 by 1") && !tight("2.5 by 1") && !tight("2 by 0.5"));
}

#[test]
fn straps_are_long_enough_to_be_buckled_and_no_longer() {
    // Twice 25 of back are 50 to close across.
    cured(
        "closure-out-of-reach-straps",
        "closure/out-of-reach",
        &[("rectangle 5 by 6", "rectangle 20 by 6")],
    );
    cured("strap-long", "strap/long", &[("rectangle 60 by 6", "rectangle 20 by 6")]);
    let long = |cm: &str| {
        let rectangle = format!("rectangle {cm} by 6");
        said(&with(&mistake("strap-long"), &[("rectangle 60 by 6", &rectangle)]))
    };
    assert_eq!(long("12.4"), ["closure/out-of-reach"]);
    assert_eq!(long("12.6"), NOTHING);
    assert_eq!(long("55"), NOTHING);
    assert_eq!(long("55.1"), ["strap/long"]);
    // What is tied or hooked elsewhere hangs as it likes.
    let hooks = [("buckle 30mm", "hooks 1")];
    assert!(!is_told("strap-long", "strap/long", &hooks));
    assert!(is_told("closure-out-of-reach-straps", "closure/out-of-reach", &hooks));
}

#[test]
fn straps_that_are_buckled_are_caught_level() {
    cured("strap-slant", "strap/slant", &[("at 28 from", "at 20 from")]);
    let slants = |at: &str| is_told("strap-slant", "strap/slant", &[("at 28 from", at)]);
    assert!(!slants("at 23 from") && slants("at 23.2 from") && slants("at 16.8 from"));
    // From another edge of the same piece, as a bag's from its top to its bottom, it is meant so.
    let down = [
        (
            "seam shoulder  front.top 15 from top_right to back.top 15 from top_right\n",
            "seam shoulder  front.top 15 from top_right to back.top 15 from top_right on left {\n  caught other_tab.left on back.top at 6 from top_right\n  matching other_tab.bottom_left with back.top.near\n}\n",
        ),
        (
            " on right {\n  caught other_tab.left on back.right at 28 from bottom_right\n  matching other_tab.bottom_left with back.right.near\n}",
            " on right",
        ),
    ];
    assert!(!is_told("strap-slant", "strap/slant", &down));
}

#[test]
fn a_strap_is_no_sleeve() {
    // A tube of 6 that a seam catches, on what is drawn to the chest.
    let text = with(
        &mistake("closure-out-of-reach-straps"),
        &[
            ("layer outer", "body { chest 100 }\nlayer outer"),
            ("rectangle 25 by 50", "rectangle chest / 4 by 50"),
            ("rectangle 5 by 6", "rectangle 20 by 6"),
        ],
    );
    assert!(!said(&text).contains(&"opening/narrow"), "{:?}", told(&text));
    // Of two plies that are no fold it is the same.
    let flat = with(&text, &[("; folded top to bottom }\nseam", " }\nseam"), ("buckle 30mm", "buckle 60mm")]);
    assert!(!said(&flat).contains(&"opening/narrow"), "{:?}", told(&flat));
}

#[test]
fn a_facing_of_the_same_layer_reaches_behind_the_buttons() {
    // 1.5 to the middle and 1.8 of buttonhole.
    cured("button-facing-layer", "button/facing", &[("along left width 1.5", "along left width 3.3")]);
    let narrow = [("along left width 1.5", "along left width 3.2")];
    assert_eq!(said(&with(&mistake("button-facing-layer"), &narrow)), ["button/facing-short"]);
}

#[test]
fn nothing_is_caught_in_a_gap() {
    cured("gap-place-caught", "gap/place", &[("gap 15..30", "gap 30..45")]);
    // Beside it, and where nobody says where it lies.
    assert!(!is_told("gap-place-caught", "gap/place", &[("gap 15..30", "gap 24..39")]));
    assert!(!is_told("gap-place-caught", "gap/place", &[("gap 15..30 from cloth.bottom_left", "gap 15")]));
    // A strap is caught as well.
    let strap = |at: &str| {
        let text = with(
            &mistake("gap-place-caught"),
            &[
                ("  caught outer.tab.top on outer.cloth.bottom at 20 from bottom_left\n", ""),
                ("  matching outer.tab.top_left with outer.cloth.bottom.near\n", ""),
                ("finish tab.left, tab.right, tab.bottom  hem 0.5\n", ""),
                ("piece tab \"Tab\" { cut 1; outline rectangle 4 by 8 }\n", ""),
                ("{ cloth, tab }", "{ cloth }"),
            ],
        );
        let end = format!("outer.cloth.bottom at {at} from bottom_left caught in bottom");
        said(&format!("{text}strap loop 8 by 1 in outer folded in four {{ from {end} to {end} }}\n"))
    };
    assert_eq!(strap("20"), ["gap/place"]);
    assert_eq!(strap("40"), NOTHING);
}

#[test]
fn a_gap_is_held_at_both_ends() {
    cured("gap-end", "gap/end", &[("gap 15 from", "gap 3..18 from")]);
    cured("gap-end", "gap/end", &[("gap 15 from cloth.bottom_left", "gap 15 in the middle")]);
    cured("gap-end", "gap/end", &[("gap 15 from cloth.bottom_left", "gap 15")]);
    assert!(is_told("gap-end", "gap/end", &[("gap 15 from", "gap 45..60 from")]));
    // Where the edges beside it are hemmed by themselves nothing is sewn across.
    let hemmed = [(
        "seam sides   outer.cloth.left + outer.cloth.top + outer.cloth.right to lining.cloth.left + lining.cloth.top + lining.cloth.right {\n  matching outer.cloth.top_left with lining.cloth.top_left\n}\n",
        "finish outer.cloth.left, outer.cloth.top, outer.cloth.right, lining.cloth.left, lining.cloth.top, lining.cloth.right  hem 1\n",
    )];
    assert!(!is_told("gap-end", "gap/end", &hemmed));
}

#[test]
fn a_bar_lies_at_the_end_of_a_zip() {
    cured(
        "tack-shuts-zip",
        "tack/shuts",
        &[("tack bar back.opening at 10 from top_left", "tack bar back.opening at 20 from top_left")],
    );
    let shuts = |spot: &str| {
        is_told("tack-shuts-zip", "tack/shuts", &[("back.opening at 10 from top_left bar 1", spot)])
    };
    // From the teeth to a place of the same piece; not of a facing, and not beside the teeth.
    assert!(shuts("back.opening at 10 from top_left to back.right at 10 from top_right"));
    assert!(!shuts("back.right at 10 from top_right bar 1"));
    assert!(!shuts("back.opening at 18 from top_left bar 1"));
    // A fly that is buttoned has bars between its buttonholes.
    let buttons = [(
        "closure back_zip  back.opening to back.opening { zipper closed 20 }",
        "closure back_zip  back.opening to back.opening { buttons 3 of 15mm from 3 below top_left to 17 below top_left stand 2 }",
    )];
    assert!(!is_told("tack-shuts-zip", "tack/shuts", &buttons));
}

#[test]
fn what_is_called_a_flap_covers_its_mouth() {
    cured(
        "place-flap-narrow",
        "place/flap",
        &[("rectangle 7 by 7", "rectangle 18.4 by 7"), ("(14.5, 27)", "(8.8, 27)")],
    );
    // Below a third of the mouth, 6, it holds it shut as a tab; and so does what is called otherwise.
    let narrow = |wide: &str| is_told("place-flap-narrow", "place/flap", &[("rectangle 7 by 7", wide)]);
    assert!(narrow("rectangle 6.1 by 7") && !narrow("rectangle 5.9 by 7"));
    let tab = [
        ("piece flap \"Flap\"", "piece tab \"Tab\""),
        ("layer outer in canvas { front, pocket, flap }", "layer outer in canvas { front, pocket, tab }"),
        ("layer under in canvas { flap }", "layer under in canvas { tab }"),
        ("outer.flap to under.flap", "outer.tab to under.tab"),
        ("under.flap.top", "under.tab.top"),
        ("place outer.flap", "place outer.tab"),
    ];
    assert!(!is_told("place-flap-narrow", "place/flap", &tab));
}

#[test]
fn an_eyelet_has_cloth_all_round_its_hole() {
    cured("set-place-edge", "set/place", &[("(29.7, 6)", "(29.6, 6)")]);
    let told = |changes: &[(&str, &str)]| is_told("set-place-edge", "set/place", changes);
    // The size is read in any unit; one that says none is held against nothing.
    assert!(told(&[("eyelet 8 mm\"\n", "eyelet 0.8cm\"\n"), ("\"eyelet 8 mm\" at", "\"eyelet 0.8cm\" at")]));
    assert!(!told(&[("eyelet 8 mm\"\n", "eyelet\"\n"), ("\"eyelet 8 mm\" at", "\"eyelet\" at")]));
    // A rivet holds a corner, and a fold is no edge.
    assert!(!told(&[("eyelet 8 mm\"\n", "rivet 8 mm\"\n"), ("\"eyelet 8 mm\" at", "\"rivet 8 mm\" at")]));
    assert!(!told(&[
        ("cut 2 mirrored", "cut 1 on fold right"),
        ("seam middle  hood.right to hood.right\n", "")
    ]));
    // A hem's edge is one.
    assert!(told(&[("(29.7, 6)", "(0.3, 6)")]));
}

/// All that the sheet says of a text.
fn sheet(text: &str) -> String {
    read_of(text, Language::English)
}

#[test]
fn a_strap_is_turned_and_has_no_underlap() {
    let text = with(&mistake("closure-out-of-reach-straps"), &[("rectangle 5 by 6", "rectangle 20 by 6")]);
    let read = sheet(&text);
    let step = |of: &str| {
        let at = read.find(of).unwrap_or_else(|| panic!("{of}\n{read}"));
        read[at..].split("\n1").next().unwrap_or_default().to_owned()
    };
    assert_eq!(read.matches("so much of that end lies under").count(), 0, "{read}");
    assert_eq!(read.matches("Turn it right side out and press the edge.").count(), 1, "{read}");
    assert!(step("tab long").contains("Turn it right side out"), "{read}");
}

/// A collar of two copies.
const COLLAR: &str = r#"
garment "Mess vest"
units cm
allowance 1
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { back, collar }
piece back "Back" { cut 1; outline rectangle 40 by 50 }
piece collar "Collar" { cut 2; outline rectangle 40 by 8 }
seam edge  collar.left + collar.top + collar.right to collar.left + collar.top + collar.right
seam neck  collar.bottom and collar.bottom to back.top { matching collar.bottom_left with back.top_left }
finish back.left, back.right, back.bottom  hem 2
"#;

#[test]
fn two_copies_sewn_in_as_one_are_turned() {
    let read = sheet(COLLAR);
    assert_eq!(read.matches("Turn it right side out and press the edge.").count(), 1, "{read}");
    // The two sides of a bag that is hemmed are not.
    let bag = with(
        COLLAR,
        &[
            (
                "seam neck  collar.bottom and collar.bottom to back.top { matching collar.bottom_left with back.top_left }\n",
                "",
            ),
            ("finish back.left", "finish collar.bottom, back.top hem 1\nfinish back.left"),
        ],
    );
    let bag = sheet(&bag);
    assert!(!bag.contains("press the edge"), "{bag}");
}

#[test]
fn a_folded_flap_is_stitched_along_its_edges_and_not_its_fold() {
    let cured = [("from (12.5, 16) to (13.5, 16)", "from (8.5, 16) to (9.5, 16)")];
    let text = with(&mistake("closure-out-of-reach-folded"), &cured);
    let read = sheet(&text);
    assert!(
        read.contains(
            "lie on one another: topstitch along them through both layers, and not along the fold."
        ),
        "{read}"
    );
    assert!(!read.contains("Topstitch its bottom and top edges"), "{read}");
    assert!(read.contains("in between the layers"), "{read}");
    let german = read_of(&text, Language::German);
    assert!(german.contains("liegen aufeinander"), "{german}");
}

#[test]
fn a_flap_has_the_buttonhole_and_its_pocket_the_button() {
    let buttons = [
        ("from (12.5, 16) to (13.5, 16)", "from (8.5, 16) to (9.5, 16)"),
        ("{ snaps 1 of 10mm }", "{ buttons 1 of 15mm from in the middle to in the middle }"),
    ];
    let text = with(&mistake("closure-out-of-reach-folded"), &buttons);
    let read = sheet(&text);
    let line =
        |of: &str| read.lines().find(|line| line.contains(of)).unwrap_or_else(|| panic!("{of}\n{read}"));
    assert!(line("Work a buttonhole").contains("Flap"), "{read}");
    assert!(line("Sew a button").contains("Pocket"), "{read}");
    assert!(!read.contains("on one side"), "{read}");
}

#[test]
fn a_zip_that_is_called_zip_is_said_once() {
    let text = mistake("tack-shuts-zip")
        .replace("back_zip", "zip")
        .replace("tack bar back.opening at 10 from top_left bar 1", "");
    let read = sheet(&text);
    assert!(read.contains("the zip"), "{read}");
    assert!(!read.to_lowercase().contains("zip zip"), "{read}");
    let concealed = sheet(&text.replace("zipper closed", "zipper concealed"));
    assert!(
        concealed.contains("the opened concealed zip") && !concealed.contains("zip concealed"),
        "{concealed}"
    );
}
