//! What cannot be worn, opened or sewn though every seam matches: corners sewn shut, girths that nothing measures,
//! pockets stitched through a lining, rows and darts where nobody sews them, each beside the sound one.

use crate::workbench::{NOTHING, cured, example, in_memory, mistake, said, told, with};
use fustian::compile;

const INSEAMS: &str =
    "seam front_inseam  front.inseam to front.inseam\nseam back_inseam   back.inseam to back.inseam";

#[test]
fn trousers_have_two_legs() {
    let shorts = mistake("seam-corner-shut");
    assert_eq!(said(&shorts), ["seam/corner-shut"]);
    let legs =
        [(INSEAMS, "seam inseam  front.inseam to back.inseam"), ("front_inseam, back_inseam", "inseam")];
    assert_eq!(said(&with(&shorts, &legs)), NOTHING);
    // Hems that join leg to leg lie between the inseam and the side, which join front and back.
    let hems = [
        (
            "finish front.hem, back.hem      hem 3",
            "seam one front.hem to front.hem\nseam two back.hem to back.hem",
        ),
        ("; hem front.hem, back.hem", "; sew one, two"),
    ];
    let shut = said(&with(&with(&shorts, &legs), &hems));
    assert!(shut.contains(&"seam/corner-shut"), "{shut:?}");
}

#[test]
fn a_hem_is_not_sewn_to_itself() {
    cured(
        "seam-corner-shut-hem",
        "seam/corner-shut",
        &[
            ("seam hem_seam     back.bottom to back.bottom\n", ""),
            ("finish front.bottom         hem 3", "finish front.bottom, back.bottom  hem 3"),
            (", hem_seam;", ";"),
            ("hem front.bottom", "hem front.bottom, back.bottom"),
        ],
    );
}

/// A hood goes round a corner in one seam, and in two is no garment for a trunk.
#[test]
fn a_hood_is_sewn_round_a_corner_on_purpose() {
    let hood = "garment \"Storm hood\"
units cm
allowance 1
body { head 58; chest 100 }
fabric shell \"dry-waxed cotton\" { width 150; kind woven firm }
layer outer in shell { hood }
piece hood \"Hood\" { cut 2 mirrored; outline rectangle head/2 by head/2 + 6 }
seam middle  hood.left + hood.top to hood.left + hood.top
finish hood.right, hood.bottom  hem 2
opening hood.right + hood.bottom  passes head
";
    assert_eq!(said(hood), NOTHING);
    let two = "seam back_seam  hood.left to hood.left\nseam crown  hood.top to hood.top";
    assert_eq!(
        said(&with(hood, &[("seam middle  hood.left + hood.top to hood.left + hood.top", two)])),
        NOTHING
    );
}

#[test]
fn a_pocket_is_placed_before_the_lining_is_sewn_in() {
    let bag = mistake("place-through");
    let found = said(&bag);
    assert!(found.len() == 1, "{found:?}");
    let placed = "  \"Pocket\"  { hem pocket.top; place pocket }\n";
    let early = with(&bag, &[(placed, ""), ("steps {\n", &format!("steps {{\n{placed}"))]);
    assert_eq!(said(&early), NOTHING);
    // Through an open mouth only the outside is stitched.
    let between = with(&bag, &[(placed, ""), ("  \"Mouth\"", &format!("{placed}  \"Mouth\""))]);
    assert_eq!(said(&between), NOTHING);
}

#[test]
fn a_finger_goes_into_a_pocket() {
    cured("place-small-mouth", "place/small-mouth", &[("10mm by 12mm", "12cm by 14cm")]);
    // A badge is stitched on all round, and a tab at its end alone.
    cured(
        "place-small-mouth",
        "place/small-mouth",
        &[
            ("topstitch left, bottom, right", "topstitch all round"),
            ("\"Pocket\"", "\"Badge\""),
            ("finish pocket.top  hem 0.4\n", ""),
            ("hem pocket.top; ", ""),
        ],
    );
}

#[test]
fn a_facing_is_understitched_and_not_what_it_faces() {
    cured("row-outside", "row/outside", &[("0.2 from bib.top", "0.2 from facing.top")]);
    cured(
        "row-outside",
        "row/outside",
        &[
            ("understitch top_under 0.2 from bib.top", "topstitch top_row 0.2 from bib.top"),
            ("understitch top_under }", "topstitch top_row }"),
        ],
    );
    // A whole lining has as much cloth as what it lines: either may be meant.
    cured("row-outside", "row/outside", &[("outline rectangle 30 by 5", "outline rectangle 30 by 40")]);
}

#[test]
fn a_dart_takes_in_more_than_a_stitch() {
    cured(
        "dart-tiny",
        "dart/tiny",
        &[
            ("width 1mm", "width 2.5"),
            ("outline rectangle 24 by 60\n  dart", "outline rectangle 24 by 60\n  dart"),
        ],
    );
    let skirt = mistake("dart-tiny");
    let (dart, wide) = (
        "dart waist_dart on top at 10 from left width 1mm to (10, 48) pressed toward left trued",
        "24 by 60\n",
    );
    let folded = |pleat: &str| with(&skirt, &[(dart, pleat), (wide, "24 by 60\n")]);
    assert_eq!(said(&folded("pleat waist_dart on top at 10 from left depth 1mm toward left")), ["dart/tiny"]);
    // Pin tucks are as small.
    assert_eq!(
        said(&folded("tuck waist_dart on top at 10 from left depth 1mm toward left to bottom")),
        NOTHING
    );
}

#[test]
fn lines_named_after_a_girth_go_round_it() {
    // 4 × (88 − 6)/4 = 82.
    let (_, title) = &told(&mistake("measure-tight-unmeasured"))[0];
    assert!(title.contains("come to 82 cm all round, less than the chest of 88 cm"), "{title}");
    cured("measure-tight-unmeasured", "measure/tight", &[("let ease = -6", "let ease = 10")]);
    // Cloth that stretches by a fifth reaches from 82 to 98.4.
    cured(
        "measure-tight-unmeasured",
        "measure/tight",
        &[("kind woven firm", "stretch 20% across; kind knit")],
    );
    // Of lines that one piece alone has nothing is known.
    let vest = mistake("measure-tight-unmeasured");
    let half = with(
        &vest,
        &[(
            "  outline rectangle (chest + ease)/4 by 60\n  line chest_line across at (0, 40)\n}\nseam",
            "  outline rectangle (chest + ease)/4 by 60\n}\nseam",
        )],
    );
    assert_eq!(said(&half), NOTHING);
}

#[test]
fn a_strap_is_sewn_on_once_in_each_place() {
    cured("strap-place-twice", "strap/place", &[("  from bag.right_low to bag.left_low\n", "")]);
}

#[test]
fn a_thing_has_one_price() {
    cured("notion-twice-price", "notion/twice", &[("notion \"snap 15 mm\"  price 0.90 each\n", "")]);
}

#[test]
fn the_ends_of_a_band_are_sewn_before_both_its_edges_are() {
    cured("step-early-band-ends", "step/early", &[("sew waist, band_ends", "sew band_ends, waist")]);
}

#[test]
fn the_ends_of_a_band_above_a_zip_are_closed() {
    cured(
        "closure-unclosed",
        "closure/unclosed",
        &[
            ("finish front", "closure band_hook  band.left to band.right { hooks 1 }\nfinish front"),
            ("sew band_ends, waist", "sew band_ends, waist, band_hook"),
        ],
    );
    cured(
        "zipper-open-ends-hook",
        "zipper/open-ends",
        &[
            ("finish back.left  hem 1\n", "seam centre_back  back.left to back.left\n"),
            ("; hem back.left", ", centre_back"),
        ],
    );
}

#[test]
fn a_flap_reaches_the_row_that_it_closes_on() {
    // The row lies 20 − 2 below the mouth, that of the flap 11 − 2 below its seam.
    let (_, title) = &told(&mistake("closure-out-of-reach-flap"))[0];
    assert!(title.starts_with("Flap is 9 cm too short"), "{title}");
    cured(
        "closure-out-of-reach-flap",
        "closure/out-of-reach",
        &[("  line snap_line across at (0, 2)\n", "  line snap_line across at (0, 11)\n")],
    );
}

/// The mouth of a lined bag is sewn to its lining, and open all the same.
#[test]
fn the_flap_of_a_lined_bag_reaches_its_row() {
    let bag = |row: u32| {
        format!(
            "garment \"Chart bag\"\nunits cm\nallowance 1\n\
             fabric canvas \"waxed canvas\" {{ width 150; kind woven firm }}\n\
             fabric twill \"lining twill\" {{ width 140; kind woven firm }}\n\
             layer outer in canvas {{ front, back, flap }}\nlayer lining in twill {{ front, back }}\n\
             piece front \"Front\" {{ cut 1; outline rectangle 36 by 28; line row across at (0, {row}) }}\n\
             piece back \"Back\" {{ cut 1; outline rectangle 36 by 28 }}\n\
             piece flap \"Flap\" {{ cut 1; outline rectangle 36 by 14; line row across at (0, 2) }}\n\
             seam round front.left + front.bottom + front.right to back.left + back.bottom + back.right {{ leaving gap 16 in lining }}\n\
             seam mouth outer.front.top to lining.front.top\n\
             seam mouth_back outer.back.top to lining.back.top and flap.top\n\
             finish flap.left, flap.right, flap.bottom hem 1.5 turned under 0.5\n\
             closure shut flap.row to outer.front.row {{ snaps 3 of 12mm }}\n"
        )
    };
    // The flap reaches 14 − 2 = 12 down, where 28 − 16 is, and 20 is not.
    assert_eq!(said(&bag(16)), NOTHING);
    assert_eq!(
        told(&bag(8)),
        [("closure/out-of-reach", "Flap is 8 cm too short for shut to close it on Front".to_owned())]
    );
}

#[test]
fn a_hem_lies_behind_buttonholes() {
    cured(
        "button-facing-short-hem",
        "button/facing-short",
        &[("finish front.left  hem 1", "finish front.left  hem 3")],
    );
    cured(
        "button-facing-short-hem",
        "button/facing-short",
        &[
            (
                "layer outer in poplin { front, back }",
                "layer outer in poplin { front, back }\nfabric stay \"fusible\" { width 90 }\nlayer firm in stay fused { front }",
            ),
            ("sew side; hem", "fuse front; sew side; hem"),
        ],
    );
}

/// In a yoke of two layers the front lies between them: each end has one that it can meet all the same.
#[test]
fn a_shoulder_in_a_yoke_of_two_layers_is_not_sewn_end_for_end() {
    let shirt = example("purser-shirt");
    assert_eq!(said(&shirt), NOTHING);
    let shoulder = "inside.yoke.shoulder to front.shoulder";
    let matched = |with_what: &str| {
        with(
            &shirt,
            &[(shoulder, &format!("{shoulder} {{ matching outer.yoke.neck_side with {with_what} }}"))],
        )
    };
    assert_eq!(said(&matched("front.neck_side")), NOTHING);
    assert_eq!(said(&matched("front.tip")), ["seam/twisted"]);
    // Its sleeve has a slit, so that the left one set in on the right opens in front.
    let turned = [(
        "matching sleeve.under_front with front.underarm",
        "matching sleeve.under_front with back.underarm",
    )];
    assert_eq!(said(&with(&shirt, &turned)), ["seam/back-to-front"]);
}

/// A rectangle is the same from both sides of its middle, but not when one side is open and the other sewn.
#[test]
fn a_hood_opens_in_front() {
    let hooded = |corner: &str| {
        let hood = with(
            &example("deck-hood"),
            &[(
                "matching hood.neck_back with back.neck_cb",
                &format!("matching hood.neck_{corner} with back.neck_cb"),
            )],
        );
        let loader = in_memory(&[
            ("crew-library.fus", &example("crew-library")),
            ("deck-smock.fus", &example("deck-smock")),
            ("deck-hood.fus", &hood),
        ]);
        let compiled = compile(&loader, "deck-hood.fus");
        let slugs = compiled.diagnostics.iter().map(|one| one.slug()).filter(|slug| *slug != "drop/along");
        slugs.collect::<Vec<_>>()
    };
    assert_eq!(hooded("back"), NOTHING);
    assert_eq!(hooded("front"), ["seam/back-to-front"]);
}

/// A tailor's front dart runs out under the pocket: 3 wide and 36 long, it has 3 × 9 / 36 = 0.75 left at the mouth.
#[test]
fn a_narrow_dart_runs_out_under_a_pocket() {
    let vest = mistake("place-over-dart");
    let from_above = |point: &str| {
        let words = format!("dart waist_dart on top at 11 from left width 3 to (11, {point}) pressed");
        with(
            &vest,
            &[
                ("dart waist_dart on bottom at 11 from left width 3 to (11, 24) pressed", &words),
                ("pocket_at = (8, 12)", "pocket_at = (8, 18)"),
            ],
        )
    };
    // The pocket's mouth lies 18 + 15 = 33 up.
    assert_eq!(said(&from_above("24")), NOTHING);
    // 3 × 14 / 41 = 1.02 wide there, it would hold the mouth too wide.
    assert_eq!(said(&from_above("19")), ["place/over-dart"]);
}

/// What stiffens a band is fused on: the closure is of the cloth, and says so.
#[test]
fn a_closure_is_of_cloth_and_not_of_what_is_fused_on() {
    let trousers = example("mate-trousers");
    let hook = "closure band_hook  band.left to band.right";
    let of =
        |first: &str| with(&trousers, &[(hook, &format!("closure band_hook  {first}.left to band.right"))]);
    assert_eq!(said(&of("outer.band")), NOTHING);
    let told = told(&of("firm.band"));
    let title = "the closure band_hook cannot close Waistband in firm, which is fused on and not sewn";
    assert_eq!(told, [("part/missing", title.to_owned())]);
}

/// A band of two layers that are sewn together at its edge is 100 cm round there, and where the skirt hangs on it
/// 80 cm, which lets no hip of 90 cm through; 92 cm do.
#[test]
fn a_band_of_two_layers_is_passed_at_its_seam_too() {
    let narrow = r#"garment "Galley skirt"
units cm
allowance 1
tolerance 2mm
wearer adult
body { hip 90 }
fabric cotton "blue cotton" { width 150; kind woven firm }
layer outer in cotton { band, skirt }
layer inside in cotton { band }
piece band "Band" {
  cut 1
  point low_left = (-40, 0)
  point low_right = (40, 0)
  point up_right = (50, 8)
  point up_left = (-50, 8)
  outline from low_left { bottom to low_right; right to up_right; top to up_left; left to low_left }
}
piece skirt "Skirt" { cut 1; outline rectangle 80 by 60 }
seam band_end band.left to band.right
seam edge outer.band.top to inside.band.top
seam waist outer.band.bottom and inside.band.bottom to skirt.top { matching outer.band.low_left with skirt.top_left }
seam back skirt.left to skirt.right
finish skirt.bottom hem 2
opening outer.band.top passes hip
"#;
    assert!(said(narrow).contains(&"opening/passes"), "{:?}", told(narrow));
    let wide = narrow
        .replace("(-40, 0)", "(-46, 0)")
        .replace("(40, 0)", "(46, 0)")
        .replace("rectangle 80", "rectangle 92");
    let of_wide = said(&wide);
    assert!(
        !of_wide.iter().any(|slug| slug.starts_with("opening/") || *slug == "seam/unequal"),
        "{of_wide:?}"
    );
}
