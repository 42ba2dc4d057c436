//! Orders of work that can be sewn: what is worked out, alone and round steps that say a part of it, and what is told of steps that
//! cannot be followed. Each beside what is sound.

use crate::workbench::{NOTHING, cured, folder_of, helps, mistake, run, said, told, with};

/// A smock with a lined hood, whose two plies are sewn to the neck at once, and folded cuffs.
const SMOCK: &str = "garment \"Bow lookout's smock\"
units cm
allowance 1
tolerance 2mm
fabric fleece \"fleece\" { width 150; kind knit; stretch 30% across; surface smooth }
layer outer in fleece { front, back, sleeve, hood }
layer inside in fleece { hood }
piece front \"Front\" {
  cut 1 on fold centre
  point neck_cf = (0, -9)
  point neck_side = (9, 0)
  point tip = (22, -5)
  point underarm = (26, -25)
  point hem_side = (26, -62)
  point hem_cf = (0, -62)
  outline from hem_cf {
    centre to neck_cf
    neckline to neck_side curve leaving right arriving square to shoulder
    shoulder to tip
    armhole to underarm curve leaving square to shoulder arriving right
    side to hem_side
    hem to hem_cf
  }
}
piece back \"Back\" like front { point neck_cf = (0, -2.5) }
piece sleeve \"Sleeve\" {
  cut 2 mirrored
  point top = (0, 0)
  point under_f = (half, -11)
  point under_b = (0 - half, -11)
  point wrist_f = (12, -50)
  point wrist_b = (-12, -50)
  outline from under_b {
    cap_back to top curve leaving square to under_back arriving right
    cap_front to under_f curve leaving right arriving square to under_front
    under_front to wrist_f
    wrist to wrist_b curve leaving square to under_front arriving square to under_back
    under_back to under_b
  }
}
let half between 12 and 45 so that length(sleeve.cap_front) = length(front.armhole)
piece hood \"Hood\" {
  cut 2 mirrored
  point neck_front = (0, 0)
  point neck_back = (length(front.neckline) + length(back.neckline), 0)
  point brow = (0, 34)
  outline from neck_front {
    neck to neck_back
    crown to brow curve leaving up arriving left
    face to neck_front
  }
}
seam shoulder front.shoulder to back.shoulder
seam cap sleeve.cap_front + sleeve.cap_back to front.armhole + back.armhole { matching sleeve.top with front.tip }
seam side front.side to back.side
seam under sleeve.under_front to sleeve.under_back
seam crown hood.crown to hood.crown
seam face outer.hood.face to inside.hood.face
seam neck outer.hood.neck and inside.hood.neck to front.neckline + back.neckline {
  matching hood.neck_front with front.neck_cf
}
band cuff \"Cuff\" in outer 6 deep folded round sleeve.wrist at 80% joined at sleeve.wrist_b
finish front.hem, back.hem hem 2
";

/// A lined bodice that is turned at the waist, where its lining is felled onto the skirt's seam.
const PINAFORE: &str = "garment \"Saloon pinafore\"
units cm
allowance 1
tolerance 2mm
fabric lawn \"lawn\" { width 140; kind woven supple; surface smooth }
layer outer in lawn { front, back, skirt }
layer lining in lawn { front, back }
piece front \"Front\" {
  cut 1 on fold centre
  point waist_cf = (0, 0)
  point top_cf = (0, 18)
  point top_side = (8, 18)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cf {
    centre to top_cf
    top to top_side
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cf
  }
}
piece back \"Back\" {
  cut 1 on fold centre
  point waist_cf = (0, 0)
  point top_cf = (0, 18)
  point top_side = (8, 18)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cf {
    centre to top_cf
    top to top_side
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cf
  }
}
piece skirt \"Skirt\" { cut 1; outline rectangle 64 by 32 }
seam side front.side to back.side
seam front_edge outer.front.armhole + outer.front.top to lining.front.armhole + lining.front.top
seam back_edge outer.back.armhole + outer.back.top to lining.back.armhole + lining.back.top
seam skirt_side skirt.left to skirt.right
seam waist skirt.top to outer.front.waist + outer.back.waist { matching skirt.top_left with outer.front.waist_side }
finish lining.front.waist, lining.back.waist turned under onto waist
finish skirt.bottom hem 4
steps {
  \"Bodice\" { sew side, front_edge, back_edge }
  \"Skirt\" { sew skirt_side, waist; finish lining.front.waist, lining.back.waist; hem skirt.bottom }
}
";

/// A body, a top of two halves with a zip between, and a pocket of two pieces with another one.
const BAG: &str = "garment \"Rope locker bag\"
units cm
allowance 1
tolerance 2mm
fabric canvas \"canvas\" { width 150; kind woven firm; surface smooth }
layer outer in canvas { near, far, base, low, high }
piece near \"Near half of the top\" {
  cut 1
  point low_l = (0, 0)
  point low_r = (30, 0)
  point zip_r = (30, 6)
  point zip_l = (0, 6)
  outline from low_l { bottom to low_r; right to zip_r; top to zip_l; left to low_l }
}
piece far \"Far half of the top\" {
  cut 1
  point zip_l = (0, 0)
  point zip_r = (30, 0)
  point high_r = (30, 6)
  point high_l = (0, 6)
  outline from zip_l { bottom to zip_r; right to high_r; top to high_l; left to zip_l }
}
piece base \"Body\" { cut 1; outline rectangle 60 by 12; mark low_at = (40, 1); mark high_at = (40, 6) }
piece low \"Pocket\" { cut 1; outline rectangle 12 by 4 }
piece high \"Strip\" { cut 1; outline rectangle 12 by 3 }
closure zip near.top to far.bottom { zipper closed 30 }
seam ends base.left to near.left + far.left { matching base.top_left with near.low_l }
seam other_ends base.right to near.right + far.right { matching base.top_right with near.low_r }
closure pocket_zip low.top to high.bottom { zipper closed 12 }
place low on base { corner bottom_left at low_at; topstitch left, bottom, right }
place high on base { corner bottom_left at high_at; topstitch left, top, right }
finish base.top, base.bottom, near.bottom, far.top hem 1
steps {
  \"Pocket\" { sew pocket_zip; place low, high }
  \"Top\" { sew zip, ends, other_ends; hem base.top, base.bottom, near.bottom, far.top }
}
";

/// The same closed behind by a zip that goes on below the waist.
const ZIPPED: &str = "garment \"Saloon pinafore with a zip\"
units cm
allowance 1
tolerance 2mm
sizes one
body { chest 56 }
fabric lawn \"lawn\" { width 140; kind woven supple; surface smooth }
layer outer in lawn { front, back, skirt_front, skirt_back }
layer lining in lawn { front, back }
piece front \"Front\" {
  cut 1 on fold centre
  point waist_cf = (0, 0)
  point top_cf = (0, 18)
  point top_side = (8, 18)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cf {
    centre to top_cf
    top to top_side
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cf
  }
}
piece back \"Back\" {
  cut 2 mirrored
  point waist_cb = (0, 0)
  point top_cb = (0, 18)
  point top_side = (8, 18)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cb {
    centre to top_cb
    top to top_side
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cb
  }
}
piece skirt_front \"Skirt front\" { cut 1 on fold left; outline rectangle 16 by 32 }
piece skirt_back \"Skirt back\" { cut 2 mirrored; outline rectangle 16 by 32 }
seam side front.side to back.side
seam front_edge outer.front.armhole + outer.front.top to lining.front.armhole + lining.front.top
seam back_edge outer.back.armhole + outer.back.top to lining.back.armhole + lining.back.top
seam skirt_side skirt_front.right to skirt_back.right
closure back_zip outer.back.centre + skirt_back.left 12 from top_left to outer.back.centre + skirt_back.left 12 from top_left { zipper concealed 30 }
seam skirt_cb skirt_back.left to skirt_back.left
seam waist skirt_front.top + skirt_back.top to outer.front.waist + outer.back.waist { matching skirt_back.top_left with outer.back.waist_cb }
finish lining.front.waist, lining.back.waist turned under onto waist
seam zip_edge outer.back.centre to lining.back.centre enclosing back_zip
finish skirt_front.bottom, skirt_back.bottom hem 4
opening front.waist + back.waist passes chest
";

/// A lined bib whose two straps lie beside one another in the middle of the front.
const STRAPS: &str = "garment \"Saloon bib with crossed straps\"
units cm
allowance 1
tolerance 2mm
fabric lawn \"lawn\" { width 140; kind woven supple; surface smooth }
layer outer in lawn { front, back }
layer lining in lawn { front, back }
piece front \"Front\" {
  cut 1 on fold centre
  point waist_cf = (0, 0)
  point top_cf = (0, 18)
  point top_side = (8, 18)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cf {
    centre to top_cf
    top to top_side
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cf
  }
}
piece back \"Back\" {
  cut 2 mirrored
  point waist_cb = (0, 0)
  point neck_cb = (0, 16)
  point strap_in = (4.5, 32)
  point strap_out = (8, 32)
  point underarm = (16, 10)
  point waist_side = (16, 0)
  outline from waist_cb {
    centre to neck_cb
    neck to strap_in curve leaving right arriving up
    strap_end to strap_out
    armhole to underarm curve leaving down arriving right
    side to waist_side
    waist to waist_cb
  }
}
seam side front.side to back.side
seam centre back.centre to back.centre
seam strap outer.back.strap_end to outer.front.top 3.5 from top_cf { matching outer.back.strap_out with outer.front.top.far }
seam strap_in lining.back.strap_end to lining.front.top 3.5 from top_cf { matching lining.back.strap_out with lining.front.top.far }
seam front_edge outer.front.armhole to lining.front.armhole
seam front_top outer.front.top to lining.front.top
seam back_edge outer.back.armhole to lining.back.armhole
seam back_neck outer.back.neck to lining.back.neck
finish front.waist, back.waist hem 2
";

/// A roll with a pocket that two rows divide.
const ROLL: &str = "garment \"Engine room tool roll\"
units cm
allowance 1
tolerance 2mm
fabric canvas \"canvas\" { width 150; kind woven firm; surface smooth }
layer outer in canvas { roll, pocket }
piece roll \"Roll\" {
  cut 1
  outline rectangle 60 by 36
  mark low = (1, 3)
  line over from (1, 19) to (59, 19)
  line down from (21, 3) to (21, 21)
}
piece pocket \"Tool pocket\" {
  cut 1
  outline rectangle 58 by 18
  line one along at (20, 0)
  line other along at (40, 0)
}
finish pocket.top hem 1
finish roll.left, roll.bottom, roll.right, roll.top hem 1
place pocket on roll { corner bottom_left at low; topstitch left, bottom, right }
topstitch rows along pocket.one, pocket.other
steps { \"Pocket\" { hem pocket.top; place pocket; topstitch rows; hem roll.left, roll.bottom, roll.right, roll.top } }
";

/// A robe and its belt, which hangs on nothing and is turned through a gap.
const ROBE: &str = "garment \"Night watch robe\"
units cm
allowance 1
tolerance 2mm
fabric terry \"terry\" { width 150; kind woven supple; surface smooth }
layer outer in terry { front, back, belt }
piece front \"Front\" { cut 2 mirrored; outline rectangle 25 by 100 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 25 by 100 }
piece belt \"Belt\" { cut 1 loose; outline rectangle 120 by 10; folded top to bottom }
seam side front.right to back.right
seam belt_long belt.top to belt.bottom { leaving gap 14 in the middle }
seam belt_ends belt.left across the fold
seam belt_other belt.right across the fold
finish front.top, back.top, front.bottom, back.bottom hem 2
finish front.left hem 3
steps {
  \"Belt\" { sew belt_ends, belt_other, belt_long; turn through gap in belt_long; slipstitch gap in belt_long }
  \"Robe\" { sew side; hem front.left; hem front.top, back.top, front.bottom, back.bottom }
}
";

/// A text with these steps, and no others.
fn in_steps(text: &str, steps: &str) -> String {
    let before = text.split_once("steps {").map_or(text, |(before, _)| before);
    format!("{before}steps {{ \"A\" {{ {steps} }} }}\n")
}

/// What is said of it, but that it leaves something out.
fn told_of(text: &str, steps: &str) -> Vec<(&'static str, String)> {
    let mut all = told(&in_steps(text, steps));
    all.retain(|(slug, _)| *slug != "step/forgotten");
    all
}

fn early(sooner: &str, later: &str, why: &str) -> Vec<(&'static str, String)> {
    vec![("step/early", format!("sewing {sooner} comes before sewing {later}, {why}"))]
}

/// What `steps` lists of a text: what is done to what, line by line.
fn order(text: &str) -> Vec<String> {
    let compiled = crate::workbench::of(text);
    let document = fustian::emit::steps_document(&compiled.garment, &compiled.sizes[0]);
    let line = |one: &fustian::emit::StepLineDocument| {
        format!("{} {}", one.verb, one.to.clone().unwrap_or_default())
    };
    document.steps.iter().map(line).collect()
}

/// Where something stands in an order.
fn at(order: &[String], step: &str) -> usize {
    order.iter().position(|one| one == step).unwrap_or_else(|| panic!("{step}: {order:?}"))
}

#[test]
fn a_lined_hood_is_closed_at_its_face_before_both_plies_are_sewn_to_the_neck() {
    assert_eq!(said(SMOCK), NOTHING);
    let order = order(SMOCK);
    assert!(at(&order, "sew face") < at(&order, "sew neck"), "{order:?}");
    // Written out it passes all checks, which what cannot be turned would not.
    let folder = folder_of(&[("smock.fus", SMOCK)]);
    assert!(run(folder.path(), &["steps", "--write", "smock.fus"]).status.success());
    let written = std::fs::read_to_string(folder.path().join("smock.fus")).unwrap();
    assert!(written.contains("steps {"), "{written}");
    assert_eq!(said(&written), NOTHING);
    // The other way round nothing is left to turn it through.
    let shut = "Hood is sewn together all round in outer and inside, and no gap is left to turn it through";
    let late = "sew shoulder, crown, neck, face";
    assert_eq!(told_of(SMOCK, late), [("turn/closed", shut.to_owned())]);
}

#[test]
fn steps_that_say_a_part_are_not_accused_of_what_is_worked_out_round_them() {
    for part in ["sew shoulder", "sew shoulder; sew side", "sew cuff_ends", "sew crown", "sew face"] {
        assert_eq!(told_of(SMOCK, part), [], "{part}");
    }
    // What is wrong of them is told alone.
    let crosses = "which it crosses";
    assert_eq!(told_of(SMOCK, "sew neck; sew shoulder"), early("neck", "shoulder", crosses));
    assert_eq!(told_of(SMOCK, "sew cuff; sew cuff_ends"), early("cuff", "cuff_ends", "whose ends it shuts"));
    let ring = "which makes a ring of what it sews round one";
    assert_eq!(told_of(SMOCK, "sew shoulder, side, cap, under"), early("cap", "under", ring));
}

#[test]
fn a_sleeve_goes_over_shoulders_that_are_sewn() {
    let crosses = "which it crosses";
    for steps in ["sew cap, shoulder", "sew side, cap, shoulder", "sew side, under, cap, shoulder"] {
        assert_eq!(told_of(SMOCK, steps), early("cap", "shoulder", crosses), "{steps}");
    }
    // Flat before the sides, or in the round after them.
    for steps in ["sew shoulder, cap, side, under", "sew shoulder, side, under, cap"] {
        assert_eq!(told_of(SMOCK, steps), [], "{steps}");
    }
}

#[test]
fn what_goes_round_an_edge_that_is_closed_only_later_is_told_by_that_alone() {
    let told = told(&in_steps(SMOCK, "sew cuff; sew under"));
    let round = "sewing cuff comes before sewing under, which closes the edge that it goes round";
    // What is left out is told once, all of it.
    let left =
        "the steps leave out the seam shoulder, the seam cap, the seam side and 6 more: they are worked out";
    assert_eq!(told, [("step/forgotten", left.to_owned()), ("step/early", round.to_owned())]);
    assert_eq!(told_of(SMOCK, "sew under; sew cuff"), []);
}

#[test]
fn a_lining_is_felled_once_all_else_is_turned() {
    assert_eq!(said(PINAFORE), NOTHING);
    let fell = "finish lining.front.waist, lining.back.waist";
    let late = format!("sew side, skirt_side, waist; {fell}; sew front_edge, back_edge; hem skirt.bottom");
    let title =
        "finishing the waist of Front comes before sewing front_edge, which could not be turned any more";
    assert_eq!(told(&in_steps(PINAFORE, &late)), [("step/early", title.to_owned())]);
    // One of both is left open as well, as long as nothing is turned through there.
    let half = format!("sew side, front_edge, skirt_side, waist; {fell}; sew back_edge; hem skirt.bottom");
    assert_eq!(said(&in_steps(PINAFORE, &half)), ["step/early"]);
    // By hand nothing is turned, and through a gap it is turned afterwards.
    let by_hand = with(
        &in_steps(PINAFORE, &half),
        &[(
            "lining.back.armhole + lining.back.top",
            "lining.back.armhole + lining.back.top { stitch handstitch }",
        )],
    );
    assert_eq!(said(&by_hand), NOTHING);
    let gap = [
        (
            "seam side front.side to back.side",
            "seam side front.side to back.side { leaving gap 6 in lining }",
        ),
        ("hem skirt.bottom", "turn through gap in side; slipstitch gap in side; hem skirt.bottom"),
    ];
    assert!(!said(&with(&in_steps(PINAFORE, &half), &gap)).contains(&"step/early"));
    let order = order(PINAFORE.split_once("steps {").unwrap().0);
    assert!(at(&order, "sew back_edge") < at(&order, "finish lining.back.waist"), "{order:?}");
}

#[test]
fn a_zip_of_a_pocket_is_sewn_before_the_pocket_is_stitched_down() {
    assert_eq!(said(BAG), NOTHING);
    let late = with(BAG, &[("sew pocket_zip; place low, high", "place low, high; sew pocket_zip")]);
    let title = "placing Pocket comes before sewing pocket_zip, without which it is no finished piece";
    assert_eq!(told(&late), [("step/early", title.to_owned())]);
    // What hangs from one edge alone can be reached behind.
    let hanging = [
        ("topstitch left, bottom, right", "topstitch bottom"),
        ("topstitch left, top, right", "topstitch top"),
    ];
    assert!(!said(&with(&late, &hanging)).contains(&"step/early"));
}

#[test]
fn a_zip_is_put_in_before_its_ends_are_sewn_over() {
    let late = with(BAG, &[("sew zip, ends, other_ends;", "sew ends, other_ends, zip;")]);
    let title = "zip is put in only after sewing ends, which no longer takes in the end of its tape";
    assert_eq!(told(&late), [("step/zip-late", title.to_owned())]);
    assert_eq!(helps(&late), ["put in zip before sewing ends: move it up, or the seam down"]);
}

#[test]
fn a_concealed_zip_over_a_waist_comes_before_the_seam_below_it() {
    let title = "back_zip is a concealed zip, and is set in once skirt_cb is sewn beyond its end";
    let late = told_of(ZIPPED, "sew side, skirt_side, waist, skirt_cb, back_zip");
    assert_eq!(late, [("step/zip-late", title.to_owned())]);
    assert_eq!(told_of(ZIPPED, "sew side, skirt_side, waist, back_zip, skirt_cb"), []);
}

#[test]
fn a_zip_may_end_right_at_the_waist() {
    assert_eq!(said(ZIPPED), NOTHING);
    let to_waist = "closure back_zip outer.back.centre to outer.back.centre { zipper concealed 18 }";
    let zip = ZIPPED.lines().find(|line| line.starts_with("closure back_zip")).unwrap();
    assert_eq!(said(&with(ZIPPED, &[(zip, to_waist)])), NOTHING);
    // Without a zip the bodice is open behind, and its waist no ring.
    let open = [(zip, ""), (" enclosing back_zip", "")];
    assert!(said(&with(ZIPPED, &open)).contains(&"opening/ring"));
}

#[test]
fn two_straps_beside_the_fold_wait_for_no_other_layer() {
    assert_eq!(said(STRAPS), NOTHING);
    let order = order(STRAPS);
    assert!(at(&order, "sew strap") < at(&order, "sew back_neck"), "{order:?}");
}

#[test]
fn what_divides_a_pocket_is_stitched_once_it_is_placed_or_before() {
    assert_eq!(said(ROLL), NOTHING);
    let swapped = with(ROLL, &[("place pocket; topstitch rows;", "topstitch rows; place pocket;")]);
    assert_eq!(said(&swapped), NOTHING);
    let order = order(ROLL.split_once("steps {").unwrap().0);
    assert!(at(&order, "place pocket") < at(&order, "topstitch rows"), "{order:?}");
    // From side to side it would sew the pocket shut, on the pocket as on what carries it.
    let across = with(
        ROLL,
        &[("topstitch rows along pocket.one, pocket.other", "topstitch rows 9 from pocket.bottom")],
    );
    let early = "placing Tool pocket comes before topstitching rows, without which it is no finished piece";
    assert_eq!(told(&across), [("step/early", early.to_owned())]);
    let carried = with(ROLL, &[("along pocket.one, pocket.other", "along roll.over")]);
    let early = "placing Tool pocket comes before topstitching rows, which would sew it shut";
    assert_eq!(told(&carried), [("step/early", early.to_owned())]);
    let order = self::order(carried.split_once("steps {").unwrap().0);
    assert!(at(&order, "topstitch rows") < at(&order, "place pocket"), "{order:?}");
    // Drawn on what carries it from the mouth down, it divides.
    assert_eq!(said(&with(ROLL, &[("along pocket.one, pocket.other", "along roll.down")])), NOTHING);
    // Along its lower edge, 1 of 18 above it, next to nothing is cut off.
    let low = [
        ("line over from (1, 19) to (59, 19)", "line over from (1, 4) to (59, 4)"),
        ("along pocket.one, pocket.other", "along roll.over"),
    ];
    assert_eq!(said(&with(ROLL, &low)), NOTHING);
}

#[test]
fn a_row_beside_a_seam_that_goes_through_the_zip_of_a_pocket_is_told() {
    // 15 from the right of 60 it lies at 45, between 40 and 52.
    let row = |distance: &str| {
        let said = format!("topstitch down {distance} from base.right\nfinish base.top");
        with(
            BAG,
            &[
                ("finish base.top", &*said),
                (
                    "  \"Top\" { sew zip, ends, other_ends;",
                    "  \"Top\" { sew zip, ends, other_ends; topstitch down;",
                ),
            ],
        )
    };
    let title = "down goes over Pocket and Strip, which are placed before it, and sews them shut";
    assert_eq!(told(&row("15")), [("place/shut", title.to_owned())]);
    assert_eq!(said(&row("5")), NOTHING);
}

#[test]
fn a_belt_that_hangs_on_nothing_is_turned_at_any_time() {
    assert_eq!(said(ROBE), NOTHING);
    let order = order(ROBE.split_once("steps {").unwrap().0);
    assert!(at(&order, "turn through gap belt_long") < at(&order, "sew side"), "{order:?}");
}

#[test]
fn a_patch_is_stitched_onto_a_leg_that_lies_flat() {
    let early =
        [("sew side, inside }", "place knee; sew side, inside }"), ("\"Patches\" { place knee }", "")];
    cured("place-in-tube", "place/in-tube", &early);
    // Sewn at one side alone it still lies flat; and a skirt of 4 × 50 is no tube.
    let half =
        [("sew side, inside }", "sew side; place knee; sew inside }"), ("\"Patches\" { place knee }", "")];
    cured("place-in-tube", "place/in-tube", &half);
    let wide =
        [("rectangle 25 by 100", "rectangle 50 by 100"), ("casing 3 for elastic 2.5 of hip * 80%", "hem 2")];
    cured("place-in-tube", "place/in-tube", &wide);
    assert!(told(&mistake("place-in-tube"))[0].1.contains("in a tube 50 cm round"));
}
