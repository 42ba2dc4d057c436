//! Garments that are wrong by a word or two, each beside the right one: both are told from one another.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

const HEADER: &str = "garment \"Stove cloth\"\nunits cm\nallowance 1\ntolerance 1mm\n\
     fabric canvas \"apron canvas\" { width 150; kind woven firm }\n\
     fabric lawn \"lawn\" { width 140; kind woven supple }\n";

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("cloth.fus", format!("{HEADER}{text}\n")), "cloth.fus")
}

/// Slugs, but for the advice to say the order of work, and to use all cloths.
fn slugs(text: &str) -> Vec<&'static str> {
    let compiled = made(text);
    compiled
        .diagnostics
        .iter()
        .map(|one| one.slug())
        .filter(|slug| !["steps/none", "cloth/unused"].contains(slug))
        .collect()
}

/// Nothing is said of the right one, and one thing of the wrong one, which differs in those words.
fn differ(right: &str, words: [&str; 2], slug: &str) {
    let [is, becomes] = words;
    assert_eq!(right.matches(is).count(), 1, "{is} in {right}");
    assert_eq!(slugs(right), [""; 0], "{right}");
    assert_eq!(slugs(&right.replace(is, becomes)), [slug], "{becomes}");
}

/// Two layers, sewn round in two seams and turned through a gap.
fn lined(steps: &str) -> String {
    let seam = |edges: [&str; 3], layer: &str| {
        let named: Vec<String> = edges.iter().map(|edge| format!("{layer}.cloth.{edge}")).collect();
        named.join(" + ")
    };
    let round = ["left", "top", "right"];
    format!(
        "layer outer in canvas {{ cloth }}\nlayer lining in lawn {{ cloth }}\n\
         piece cloth \"Cloth\" {{ cut 1; outline rectangle 60 by 40 }}\n\
         seam round {} to {} {{ leaving gap 15 }}\n\
         seam foot outer.cloth.bottom to lining.cloth.bottom\nsteps {{ \"All\" {{ {steps} }} }}",
        seam(round, "outer"),
        seam(round, "lining")
    )
}

#[test]
fn what_is_turned_through_a_gap_is_sewn_before() {
    let right = "sew round, foot; turn through gap in round; slipstitch gap in round";
    for wrong in [
        "sew round; turn through gap in round; sew foot; slipstitch gap in round",
        "sew round; turn through gap in round; slipstitch gap in round; sew foot",
    ] {
        differ(&lined(right), [right, wrong], "turn/closed");
    }
    // By hand it is closed from outside; and what is pulled out through the gap is turned once more.
    let by_hand = lined("sew round; turn through gap in round; sew foot; slipstitch gap in round")
        .replace("to lining.cloth.bottom", "to lining.cloth.bottom { stitch handstitch }");
    assert_eq!(slugs(&by_hand), [""; 0]);
    let again = "sew round; turn through gap in round; sew foot; turn through gap in round; \
                 slipstitch gap in round";
    assert_eq!(slugs(&lined(again)), [""; 0]);
}

#[test]
fn a_gap_of_nothing_is_none() {
    let right = lined("sew round, foot; turn through gap in round; slipstitch gap in round");
    differ(&right, ["gap 15", "gap 0"], "gap/nothing");
}

/// A towel with a loop that is sewn to a tube, with these words about it.
fn towel(steps: &str) -> String {
    format!(
        "layer outer in canvas {{ towel, loop }}\n\
         piece towel \"Towel\" {{ cut 1; outline rectangle 60 by 40; mark loop_at = (20, 15) }}\n\
         piece loop \"Loop\" {{ cut 1; outline rectangle 8 by 4; folded top to bottom }}\n\
         seam loop_long loop.top to loop.bottom\n\
         place loop on outer.towel {{ corner bottom_left at loop_at; topstitch left, right }}\n\
         finish towel.left, towel.right, towel.top, towel.bottom hem 1\n\
         steps {{ \"Loop\" {{ {steps} }}\n\"Hems\" {{ hem towel.left, towel.right, towel.top, towel.bottom }} }}"
    )
}

#[test]
fn a_loop_is_sewn_to_a_tube_before_it_is_placed() {
    differ(
        &towel("sew loop_long; place loop"),
        ["sew loop_long; place loop", "place loop; sew loop_long"],
        "step/early",
    );
}

#[test]
fn a_seam_needs_an_allowance_unless_its_edges_only_touch() {
    let right = towel("sew loop_long; place loop");
    let long = "loop.top to loop.bottom\nplace";
    differ(&right, [long, "loop.top to loop.bottom { allowance 0 }\nplace"], "allowance/none");
    // 3 mm are the least that is left in common practice; by hand edges may touch.
    differ(&right, [long, "loop.top to loop.bottom { allowance 2.9mm }\nplace"], "allowance/scant");
    let trimmed = right.replace(long, "loop.top to loop.bottom { allowance 3mm }\nplace");
    assert_eq!(slugs(&trimmed), [""; 0]);
    let by_hand = right.replace(long, "loop.top to loop.bottom { allowance 0; stitch handstitch }\nplace");
    assert_eq!(slugs(&by_hand), [""; 0]);
}

#[test]
fn what_is_placed_lies_on_a_piece_that_its_layer_has() {
    let right = towel("sew loop_long; place loop")
        .replace("piece towel", "layer lining in lawn { backing }\npiece backing \"Backing\" { cut 1 loose; outline rectangle 9 by 9 }\nfinish backing.left, backing.right, backing.top, backing.bottom raw\npiece towel");
    differ(&right, ["on outer.towel", "on lining.towel"], "part/missing");
}

/// Nothing is done to a raw edge, so no step has to say so; what is hemmed is done.
#[test]
fn a_raw_edge_needs_no_step() {
    let hems = "hem towel.left, towel.right, towel.top, towel.bottom";
    let raw = towel("sew loop_long; place loop")
        .replace("towel.top, towel.bottom hem 1", "towel.top hem 1\nfinish towel.bottom raw")
        .replace(hems, "hem towel.left, towel.right, towel.top");
    assert_eq!(slugs(&raw), [""; 0]);
    assert!(slugs(&raw.replace("towel.bottom raw", "towel.bottom overlocked")).contains(&"step/forgotten"));
}

/// 0.8 mm past the edge of a towel that is 60 cm wide are within 1 mm, 2 mm are not.
#[test]
fn past_an_edge_by_no_more_than_is_tolerated_is_on_it() {
    let placed = |at: &str| {
        slugs(&format!(
            "layer outer in canvas {{ towel, patch }}\n\
             piece towel \"Towel\" {{ cut 1; outline rectangle 60 by 40; mark patch_at = {at} }}\n\
             piece patch \"Patch\" {{ cut 1; outline rectangle 8 by 4 }}\n\
             place patch on towel {{ corner bottom_left at patch_at; topstitch left, bottom, right }}\n\
             finish towel.left, towel.top, towel.bottom hem 1\nfinish towel.right, patch.top raw"
        ))
    };
    assert_eq!(placed("(52.08, 15)"), [""; 0]);
    assert_eq!(placed("(52.2, 15)"), ["place/outside"]);
}

/// The line is drawn 2 cm from the edge: whatever else is said of the stand is told, however much.
#[test]
fn a_stand_is_as_wide_as_it_is_drawn_however_wide_it_is_said() {
    let front = |stand: &str| {
        format!(
            "layer outer in canvas {{ front }}\npiece front \"Front\" {{\ncut 2 mirrored\noutline rectangle 30 by 60\n\
             point neck_cf = (2, 60)\npoint hem_cf = (2, 0)\nline centre from neck_cf to hem_cf\n}}\n\
             finish front.left hem 4\nfinish front.right, front.top, front.bottom hem 1\n\
             closure placket front.centre to front.centre {{ buttons 6 of 15mm from 3 below neck_cf to 12 above hem_cf stand {stand} }}"
        )
    };
    for wrong in ["2.5", "12", "34"] {
        differ(&front("2 "), ["stand 2 ", &format!("stand {wrong} ")], "button/stand");
    }
}

/// The front of a waistcoat, buttoned 2 cm from its edge, with a facing and a pocket.
fn waistcoat(facing: &str, pocket_at: &str) -> String {
    format!(
        "layer outer in canvas {{ front, pocket }}\nlayer facing in canvas {{ front_facing }}\n\
         piece front \"Front\" {{\ncut 2 mirrored\noutline rectangle 30 by 60\npoint neck_cf = (2, 60)\npoint hem_cf = (2, 0)\n\
         line centre from neck_cf to hem_cf\nmark pocket_at = {pocket_at}\n}}\n\
         piece front_facing \"Front facing\" {{ cut 2 mirrored; outline strip of front along left width {facing} }}\n\
         piece pocket \"Pocket\" {{ cut 2 mirrored; outline rectangle 12 by 14 }}\n\
         seam front_edge outer.front.left to facing.front_facing.left\n\
         finish front.top, front.right, front.bottom hem 1\nfinish pocket.top hem 2\n\
         finish front_facing.top, front_facing.inner, front_facing.bottom overlocked\n\
         place pocket on outer.front {{ corner bottom_left at pocket_at; topstitch left, bottom, right }}\n\
         closure placket outer.front.centre to outer.front.centre {{ buttons 6 of 20mm from 3 below neck_cf to 8 above hem_cf stand 2 left over right }}"
    )
}

/// Half of 20 mm and 3 mm are 13 mm: with the stand of 20 mm the facing is 33 mm wide at least.
#[test]
fn a_facing_reaches_behind_the_buttons() {
    for wrong in ["3.2", "2", "1"] {
        differ(&waistcoat("4.3", "(8, 20)"), ["width 4.3", &format!("width {wrong}")], "button/facing");
    }
}

/// The buttons lie at 2 cm from the edge; a pocket that begins at 2.1 cm is clear of their middles.
#[test]
fn a_pocket_lies_beside_the_buttons() {
    differ(&waistcoat("6", "(2.1, 20)"), ["(2.1, 20)", "(1, 20)"], "place/over-buttons");
    // One that is buttoned itself lies there by design.
    let own = waistcoat("6", "(1, 20)").replace(
        "piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 12 by 14 }",
        "piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 12 by 14; point low = (1, 0); point high = (1, 14); line row from low to high }",
    );
    let own = own.replace("outer.front.centre {", "outer.pocket.row {");
    assert!(!slugs(&own).contains(&"place/over-buttons"), "{:?}", slugs(&own));
}

/// A back on the fold, with its centre from there to (0, 60) and these words about its hem.
fn back(foot: &str, hem: &str, finish: &str) -> String {
    format!(
        "layer outer in canvas {{ back }}\npiece back \"Back\" {{\ncut 1 on fold centre\n\
         point neck_cb = (0, 60)\npoint neck = (25, 60)\npoint hem_side = (25, 0)\npoint hem_cb = {foot}\n\
         outline from hem_cb {{ centre to neck_cb; top to neck; side to hem_side; hem to hem_cb{hem} }}\n}}\n\
         finish back.top, back.side {finish}\nfinish back.hem {finish}"
    )
}

/// On the fold an angle is there twice. 25 cm to the side and 1 cm down are 2.29°, twice is 4.6°; 2 cm down
/// are 4.57°, 9.1° over the fold; 30 cm down are 50°, 100° over the fold, the point of a V.
#[test]
fn a_hem_goes_straight_on_over_a_fold() {
    let sound = back("(0, 0)", "", "hem 1");
    for right in ["(0, -1)", "(0, 1)"] {
        assert_eq!(slugs(&sound.replace("(0, 0)", right)), [""; 0], "{right}");
    }
    for wrong in ["(0, -2)", "(0, 2)"] {
        differ(&sound, ["(0, 0)", wrong], "hem/kink");
    }
    // An edge that nobody turns up is no hem.
    differ(&back("(0, 0)", "", "raw"), ["(0, 0)", "(0, 2)"], "seam/kink");
    assert_eq!(slugs(&back("(0, -30)", "", "raw")), [""; 0]);
    let square = back("(0, 2)", " curve arriving square to centre", "hem 1");
    assert_eq!(slugs(&square), [""; 0]);
}

/// 2 cm aside in 60 are 1.9°, within the half of 5°; 3 cm are 2.9°.
#[test]
fn a_fold_is_straight_to_the_grain() {
    assert_eq!(slugs(&back("(2, 0)", "", "hem 1")), [""; 0]);
    differ(&back("(2, 0)", "", "hem 1"), ["(2, 0)", "(3, 0)"], "fold/slant");
    // The grain may run along it.
    let along = back("(3, 0)", "", "hem 1").replace("cut 1 on fold", "grain along centre\ncut 1 on fold");
    assert!(!slugs(&along).contains(&"fold/slant"), "{:?}", slugs(&along));
}

#[test]
fn a_hem_does_not_run_on_into_an_edge_that_is_not_turned() {
    let legs = |finish: &str| {
        format!(
            "layer outer in canvas {{ front, back }}\npiece front \"Front\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\nseam side front.right to back.right\n\
             finish front.top, back.top overlocked\nfinish front.bottom hem 4\nfinish back.bottom {finish}"
        )
    };
    differ(&legs("hem 4"), ["back.bottom hem 4", "back.bottom overlocked"], "finish/runs-on");
    differ(&legs("hem 4"), ["back.bottom hem 4", "back.bottom raw"], "finish/runs-on");
}

#[test]
fn pieces_of_two_woven_cloths_hang_alike_and_a_sleeve_as_its_body() {
    let sides = "layer outer in canvas { front }\nlayer behind in lawn { back }\n\
         piece front \"Front\" { cut 1 on fold left; grain up; outline rectangle 25 by 60 }\n\
         piece back \"Back\" { cut 1 on fold left; outline rectangle 25 by 60 }\n\
         seam side outer.front.right to behind.back.right\nfinish front.top, front.bottom, back.top, back.bottom hem 1";
    differ(sides, ["grain up", "grain across"], "seam/grain");
    let sleeve = |kind: &str, long: f64| {
        format!(
            "layer outer in canvas {{ body, arm }}\n\
             piece body \"Body\" {{ cut 2; outline rectangle 40 by 60 }}\n\
             piece arm \"Arm\" {{ cut 2; grain {kind}; outline rectangle 40 by {long} }}\n\
             seam round body.left to body.right\nseam under arm.left to arm.right {{ matching arm.top_left with arm.top_right }}\n\
             seam hole arm.top to body.bottom\nfinish body.top, arm.bottom hem 1"
        )
    };
    let told = |kind: &str, long: f64| slugs(&sleeve(kind, long)).contains(&"seam/grain");
    assert!(!told("up", 50.0) && told("across", 50.0));
    // A cuff of 8 cm is cut either way.
    assert!(!told("across", 8.0));
}
