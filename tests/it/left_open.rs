//! What passed without a word although it cannot be sewn or worn, each beside the sound one: pocket bags that are open,
//! pieces that lie in a seam the wrong way round, flaps closed on what they hang from, rows and straps off the cloth.

use crate::workbench::{NOTHING, cured, example, helps, mistake, said, told, with};

#[test]
fn halves_of_a_pocket_bag_are_sewn_to_each_other() {
    let sewn = [
        ("finish bag_front.right, bag_front.bottom, bag_front.left, bag_front.top  overlocked\n", ""),
        (
            "finish bag_back.right, bag_back.bottom, bag_back.left, bag_back.top      overlocked\n",
            "seam bag  bag_front.right + bag_front.bottom + bag_front.left + bag_front.top to bag_back.right + bag_back.bottom + \
             bag_back.left + bag_back.top { stitch overlock }\n",
        ),
    ];
    cured("bag-open", "bag/open", &sewn);
}

#[test]
fn what_faces_a_slit_for_the_hand_is_no_bag() {
    // 4 cm deep: a slit that is faced on both sides, through which a hand goes to the pockets below.
    let faced = mistake("bag-open").replace("rectangle 15 by 22", "rectangle 4 by 22");
    assert_eq!(said(&faced), NOTHING);
}

#[test]
fn a_piece_that_lies_in_a_seam_has_its_corner_in_one_place() {
    cured("seam-drawn-together", "seam/drawn-together", &[("skirt.top.far", "skirt.top.near")]);
    let unsaid = [("  matching bag.top_left with skirt.top.far\n", "")];
    assert_eq!(said(&with(&mistake("seam-drawn-together"), &unsaid)), NOTHING);
}

#[test]
fn a_flap_is_fastened_on_the_other_side_of_its_mouth() {
    let on_the_front = [
        (
            "outline rectangle 24 by 20 }\npiece back",
            "outline rectangle 24 by 20; line snap_line across at (0, 13) }\npiece back",
        ),
        ("flap.snap_line to back.snap_line", "flap.snap_line to front.snap_line"),
    ];
    cured("closure-own-edge", "closure/own-edge", &on_the_front);
}

#[test]
fn a_row_along_a_line_lies_on_the_cloth() {
    cured("row-off-cloth", "row/off-cloth", &[("(20, 48)", "(20, 36)")]);
    // The cover is 40 high and its allowance 1 wide: up to 41 there is cloth; drawn to 48, 7 are beyond it.
    assert_eq!(said(&with(&mistake("row-off-cloth"), &[("(20, 48)", "(20, 41)")])), NOTHING);
    let [(_, title)] = told(&mistake("row-off-cloth")).try_into().expect("one message");
    assert!(title.contains("7 cm"), "{title}");
}

#[test]
fn a_strap_along_an_edge_has_cloth_behind_all_its_width() {
    let further_in = [("(0.5, 34)", "(1.5, 34)"), ("(0.5, 28)", "(1.5, 28)")];
    cured("strap-off-edge", "strap/off-edge", &further_in);
    // Half of 3 is 1.5, of which 0.5 have cloth: 1 lies beside it.
    let [(_, title)] = told(&mistake("strap-off-edge")).try_into().expect("one message");
    assert!(title.contains("1 cm beside"), "{title}");
    // Straight inwards its end, of which 3 are sewn on beyond the mark, reaches to the edge; from the edge on it lies beside the cloth.
    let inwards = [("(0.5, 34)", "(3, 28)"), ("(0.5, 28)", "(9, 28)")];
    assert_eq!(said(&with(&mistake("strap-off-edge"), &inwards)), NOTHING);
    let from_the_edge = [("(0.5, 34)", "(0, 28)"), ("(0.5, 28)", "(6, 28)")];
    assert_eq!(said(&with(&mistake("strap-off-edge"), &from_the_edge)), ["strap/off-edge"]);
    // A long one hangs as a handle does, in whatever direction.
    assert_eq!(said(&with(&mistake("strap-off-edge"), &[("loop 12 by 3", "loop 30 by 3")])), NOTHING);
}

#[test]
fn a_gap_lies_on_a_side_that_its_seam_has() {
    cured("gap-place-alike", "gap/place", &[(", left", "")]);
    let text = mistake("syntax-expected-gap");
    assert!(
        helps(&text).iter().any(|help| help.contains("leaving gap 14 in the middle")),
        "{:?}",
        helps(&text)
    );
}

#[test]
fn a_waist_sewn_shut_below_an_open_back_is_told_as_that() {
    let bodice = with(
        &example("steward-bodice"),
        &[
            ("finish front.waist, back.waist        hem 2\n", "seam waist  front.waist to back.waist\n"),
            ("; hem front.waist, back.waist }", "; sew waist }"),
        ],
    );
    let said = said(&bodice);
    assert!(said == ["seam/shuts-rim"] || said == ["seam/shuts-body"], "{said:?}");
}

/// A waistcoat that is bagged out all round: shell, facing and lining of one draft, a welt pocket in the front.
const WAISTCOAT: &str = include_str!("sources/waistcoat.fus");

#[test]
fn a_waistcoat_bagged_out_all_round_is_turned_through_its_gap_and_buttons() {
    assert_eq!(said(WAISTCOAT), NOTHING);
    // Without the gap nothing leads out: a pocket's window is filled by its welt.
    assert_eq!(said(&with(WAISTCOAT, &[(" { leaving gap 14 in inside, left }", "")])), ["turn/closed"]);
    // Its armholes bound, the fronts still open from edge to edge.
    let bound = [
        (
            "seam armholes    outer.front.armhole + outer.back.armhole to inside.front_lining.armhole + inside.back.armhole\n",
            "finish outer.front.armhole, outer.back.armhole, front_lining.armhole, inside.back.armhole  bound 1\n",
        ),
        (" { leaving gap 14 in inside, left }", ""),
    ];
    assert_eq!(said(&with(WAISTCOAT, &bound)), NOTHING);
}

#[test]
fn a_sleeve_is_laid_in_its_armhole_by_its_top() {
    let smock = include_str!("sources/set_in_sleeve.fus");
    assert_eq!(said(smock), NOTHING);
    // Without it nothing says which half of the cap lies on the front.
    assert_eq!(said(&with(smock, &[(" { matching sleeve.top with front.top_right }", "")])), ["seam/ends"]);
}

#[test]
fn a_lining_that_is_felled_in_hangs_on_the_seam_it_is_felled_onto() {
    let hat = include_str!("sources/felled_lining.fus");
    assert_eq!(said(hat), NOTHING);
    let free = [("turned under onto head_seam", "hem 1 turned under 1")];
    let [(slug, title)] = told(&with(hat, &free)).try_into().expect("one message");
    assert_eq!(slug, "piece/apart");
    assert!(title.contains("in lining"), "{title}");
}

#[test]
fn the_ends_of_a_lined_gusset_are_sewn_in_either_layer_first() {
    let satchel = include_str!("sources/satchel.fus");
    assert_eq!(said(satchel), NOTHING);
}

#[test]
fn joints_of_rectangles_meet_where_they_lie() {
    // Left, bottom and right of the face are 10 + 20 + 10, as long as the strip; its top is 20, as long as the half.
    let ring = "garment \"Gusset ring\"
units cm
allowance 1
fabric wool \"navy wool\" { width 150; kind woven firm }
layer outer in wool { strip, half, face }
piece face \"Face\" { cut 2 mirrored; outline rectangle 20 by 10 }
piece strip \"Strip\" { cut 1 on fold left; outline rectangle 4 by 40 }
piece half \"Half\" { cut 2 mirrored; outline rectangle 4 by 20 }
seam end_one half.top to strip.top
seam end_two half.bottom to strip.bottom
seam round face.left + face.bottom + face.right + face.top to strip.right + half.right { matching face.top_left with strip.top_right }
finish half.left hem 1
";
    assert_eq!(said(ring), NOTHING);
    let shorter = [("rectangle 4 by 20", "rectangle 4 by 22"), ("rectangle 4 by 40", "rectangle 4 by 38")];
    assert_eq!(said(&with(ring, &shorter)), ["seam/segment"]);
}

#[test]
fn a_half_lies_on_one_side_of_its_fold() {
    cured("fold-beyond", "fold/beyond", &[("outer_cb = (-8, -18)", "outer_cb = (0, -22)")]);
}

#[test]
fn both_pieces_of_a_seam_are_adjusted() {
    cured(
        "alter-adjust-alone",
        "alter/adjust-alone",
        &[(
            "outline rectangle 25 by 60\n}\nseam",
            "outline rectangle 25 by 60\n  line waist across at (0, 24) adjust\n}\nseam",
        )],
    );
}

#[test]
fn a_cord_between_two_layers_runs_beside_a_row() {
    let hood = "garment \"Hood lining\"
units cm
allowance 1
fabric drill \"blue drill\" { width 150; kind woven firm }
layer outer in drill { hood }
layer lining in drill { hood }
piece hood \"Hood\" { cut 1; outline rectangle 60 by 30 }
seam face  outer.hood.bottom to lining.hood.bottom
finish hood.left, hood.right, hood.top  overlocked
cord drawstring 100 through outer.hood.bottom  ends 15 free
";
    assert_eq!(said(hood), ["cord/seam"]);
    let with_row = format!("{hood}topstitch face_row 2 from outer.hood.bottom\n");
    assert_eq!(said(&with_row), NOTHING);
}

#[test]
fn toggles_along_a_side_seam_close_nothing() {
    let coat = "garment \"Watch coat\"
units cm
allowance 1
fabric drill \"blue drill\" { width 150; kind woven firm }
layer outer in drill { front, back }
piece front \"Front\" { cut 2 mirrored; outline rectangle 30 by 60 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 30 by 60 }
seam side  front.right to back.right
finish front.left, front.top, front.bottom, back.top, back.bottom  hem 2
closure duffle  front.left to front.left { toggles 3 of 40mm from 6 below top_left to 6 above bottom_left }
";
    let shut = [
        ("duffle  front.left to front.left", "duffle  front.right to front.right"),
        ("6 below top_left to 6 above bottom_left", "6 below top_right to 6 above bottom_right"),
    ];
    let sound = said(coat);
    assert!(!sound.contains(&"closure/sewn-shut"), "{sound:?}");
    assert!(said(&with(coat, &shut)).contains(&"closure/sewn-shut"), "{:?}", said(&with(coat, &shut)));
}

#[test]
fn tucks_meet_at_the_seam_that_they_run_up_to() {
    cured("seam-tucks", "seam/tucks", &[("23 from bottom_right", "20 from bottom_right")]);
    // Counted so on purpose, more than 6 cm away they belong to something else.
    let far = [("23 from bottom_right", "40 from bottom_right")];
    assert_eq!(said(&with(&mistake("seam-tucks"), &far)), NOTHING);
    let [(_, title)] = told(&mistake("seam-tucks")).try_into().expect("one message");
    assert!(title.contains("3 cm apart"), "{title}");
}

/// A bag whose mouth is turned down into a casing, with the lining sewn to the casing's edge: the sides, the mouth, turned
/// through the lining, and then the casing. The seam of the mouth sews both tops at once, and goes round the end of neither.
#[test]
fn a_casing_with_the_lining_at_its_edge_has_an_order() {
    let text = "garment \"Laundry bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n\
                layer outer in canvas { front, back }\nlayer lining in canvas { front, back }\n\
                piece front \"Front\" {\n  cut 1\n  outline rectangle 30 by 40\n}\n\
                piece back \"Back\" {\n  cut 1\n  outline rectangle 30 by 40\n}\n\
                seam sides front.left + front.bottom + front.right to back.right + back.bottom + back.left {\n  \
                leaving gap 15cm in lining\n}\nfinish outer.front.top, outer.back.top casing 3\n\
                seam mouth outer.front.top + outer.back.top to lining.front.top + lining.back.top\n";
    let found = said(text);
    assert!(!found.iter().any(|slug| slug.starts_with("step/") || slug.starts_with("turn/")), "{found:?}");
    let ordered = |work: &str| format!("{text}steps {{ \"All\" {{ {work} }} }}\n");
    let turned = "turn through gap in sides; slipstitch gap in sides";
    let casing = "finish outer.front.top, outer.back.top";
    let found = said(&ordered(&format!("sew sides; sew mouth; {turned}; {casing}")));
    assert!(!found.iter().any(|slug| slug.starts_with("step/")), "{found:?}");
    let found = said(&ordered(&format!("{casing}; sew sides; sew mouth; {turned}")));
    assert!(found.contains(&"step/early"), "{found:?}");
}
