//! Slips in measures and in the order of work that a garment shows only when it is worn: necks too small, sleeves too long, snaps
//! that tear out. Each beside what is sound.

use crate::workbench::{NOTHING, cured, mistake, said, told, with};

#[test]
fn a_neckline_is_no_shorter_than_the_neck() {
    // Two fronts of √(6² + 6²) and half a back of 6, twice: 28.97. From 8 by 11 it is 2·(13.6 + 6 + 2) = 43.2.
    let wider = [
        ("(0, -6)", "(0, -11)"),
        ("separating 54", "separating 49"),
        ("(6, 0)", "(8, 0)"),
        ("(6, 0)", "(8, 0)"),
    ];
    cured("measure-tight-neck", "measure/tight", &wider);
    // Worn open, it closes round nothing.
    let open = [
        (
            "closure front_zip  front.centre to front.centre { zipper separating 54 }\n",
            "finish front.centre hem 2\n",
        ),
        ("front.neckline, back.neckline  bound 1", "front.neckline, back.neckline  bound 0.5"),
    ];
    cured("measure-tight-neck", "measure/tight", &open);
    // What gives reaches: 28.97 × 1.4 = 40.6, × 1.3 = 37.7.
    let knit = |share: &str| {
        let cloth = format!("kind knit; stretch {share} across, {share} along");
        let text = with(&mistake("measure-tight-neck"), &[("kind woven firm", &cloth)]);
        said(&text).contains(&"measure/tight")
    };
    assert!(!knit("40%") && knit("30%"));
    // As a maker measures it, it is told there, and once: along a neckline that goes down further than across.
    let measured = with(
        &mistake("measure-tight-neck"),
        &[
            (
                "body { neck 38 }\n",
                "body { neck 38 }\nmeasure round \"Neckline\" against neck = 2 * (length(front.neckline) + length(back.neckline))\n",
            ),
            ("(0, -6)", "(0, -7)"),
            ("separating 54", "separating 53"),
        ],
    );
    // 2·(√(6² + 7²) + 6) = 30.4
    let told = told(&measured);
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(
        told[0],
        ("measure/tight", "Neckline comes to 30.4 cm, less than the neck of 38 cm".to_owned())
    );
}

#[test]
fn a_neck_of_two_layers_in_a_collar_is_measured_too() {
    let shirt = crate::workbench::example("purser-shirt");
    let narrow = with(
        &shirt,
        &[("neck/5 - 0.2", "neck/5 - 1.5"), ("measure collar_finished \"Collar", "# measure \"Collar")],
    );
    assert!(
        told(&narrow)
            .iter()
            .any(|(slug, title)| *slug == "measure/tight" && title.starts_with("the neckline"))
    );
    let told = told(&with(&shirt, &[("measure collar_finished \"Collar", "# measure \"Collar")]));
    assert!(told.is_empty(), "{told:?}");
}

#[test]
fn a_sleeve_is_about_as_long_as_the_arm() {
    cured("length-out-of-use-sleeve", "length/out-of-use", &[("arm + 24", "arm - 24")]);
    // A cap of some 19.6 and so much below it: 1.4 × 58 = 81.2 are 61.6 below it.
    let below = |by: &str| {
        let text = with(&mistake("length-out-of-use-sleeve"), &[("arm + 24", &format!("arm + {by}"))]);
        said(&text).contains(&"length/out-of-use")
    };
    assert!(!below("2") && below("5"));
    // What is called arm may be its girth: to a chest of 92 goes an arm of 58 or one of 28 round.
    let girth = [("arm 58", "arm 28"), ("arm + 24", "arm + 54")];
    cured("length-out-of-use-sleeve", "length/out-of-use", &girth);
}

#[test]
fn snaps_hold_on_more_than_one_layer() {
    let slug = "button/facing-short";
    let hemmed = [
        ("finish front.left, front.top", "finish front.left hem 3\nfinish front.top"),
        ("finish front.left, front.top", "hem front.left; finish front.top"),
    ];
    cured("button-facing-short-snaps", slug, &hemmed);
    // What is fused, stout, or cut in a lining as well lies on something.
    let fused = [
        (
            "layer outer in poplin { front, back }",
            "fabric stay \"fusible\" { width 90 }\nlayer outer in poplin { front, back }\nlayer firm in stay fused { front }",
        ),
        ("steps { \"Shirt\" {", "steps { \"Shirt\" { fuse front;"),
    ];
    cured("button-facing-short-snaps", slug, &fused);
    cured("button-facing-short-snaps", slug, &[("woven supple", "woven firm")]);
    // So do buttons.
    let text = with(&mistake("button-facing-short-snaps"), &[("snaps 6 of", "buttons 6 of")]);
    assert_eq!(
        told(&text),
        [(slug, "nothing lies behind the buttons of button_front: they hold on one layer".to_owned())]
    );
}

#[test]
fn a_flap_is_about_as_wide_as_its_pocket() {
    let narrower = [("rectangle 32 by 7", "rectangle 16 by 7"), ("(2, 27)", "(10, 27)")];
    cured("place-flap-wide", "place/flap", &narrower);
    // Half as wide again it may be: 22.5.
    let wide = |cm: &str| {
        let text = with(
            &mistake("place-flap-wide"),
            &[("rectangle 32 by 7", &format!("rectangle {cm} by 7")), ("(2, 27)", "(7, 27)")],
        );
        said(&text).contains(&"place/flap")
    };
    assert!(!wide("22") && wide("23"));
}

#[test]
fn what_is_fused_is_fused_before_it_is_sewn() {
    let first = [("  \"Stay\"   { fuse yoke }\n", ""), ("\"Skirt\"  { sew", "\"Skirt\"  { fuse yoke; sew")];
    cured("step-fuse-late", "step/fuse-late", &first);
    // What is left out of the steps is worked out, and told as that.
    let text = with(&mistake("step-fuse-late"), &[("  \"Stay\"   { fuse yoke }\n", "")]);
    assert_eq!(said(&text), ["step/unfused"]);
    assert_ne!(said(&mistake("step-early-covered")), NOTHING);
    assert!(!said(&mistake("step-early-covered")).contains(&"step/fuse-late"));
}

#[test]
fn the_halves_of_a_snap_lie_on_one_another_where_the_flap_hangs() {
    // 27 − 7 + 2 = 22 is where the flap's half lies; 6 + 16 the pocket's.
    cured(
        "closure-out-of-reach-placed",
        "closure/out-of-reach",
        &[("from (8.5, 12) to (9.5, 12)", "from (8.5, 16) to (9.5, 16)")],
    );
    let at = |y: &str| {
        let row = format!("from (8.5, {y}) to (9.5, {y})");
        said(&with(&mistake("closure-out-of-reach-placed"), &[("from (8.5, 12) to (9.5, 12)", &row)])).len()
    };
    // What is in the pocket lets the flap hang lower or higher by 2.
    assert_eq!((at("14"), at("13.9"), at("17")), (0, 1, 0));
}

#[test]
fn a_strap_is_held_beside_a_pocket() {
    let slug = "place/over-pocket";
    cured("place-over-pocket-strap", slug, &[("brace_at = (28, 30)", "brace_at = (28, 46)")]);
    // At the corner of a pocket it is held by the same stitches.
    cured("place-over-pocket-strap", slug, &[("brace_at = (28, 30)", "brace_at = (21, 39)")]);
}

#[test]
fn a_loop_at_a_childs_neck_is_told_by_its_size() {
    let cover = |long: &str| {
        let text = format!(
            "garment \"Small galley apron\"\nunits cm\nallowance 1\nwearer child from 3 to 7 years\nfabric canvas \"apron canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ apron }}\npiece apron \"Apron\" {{ cut 1; outline rectangle 40 by 50; mark neck_left = (14, 49); \
             mark neck_right = (26, 49) }}\nfinish apron.left, apron.right, apron.bottom, apron.top hem 1 twice\n\
             strap loop \"Neck loop\" {long} by 2 in outer folded in four {{ from apron.neck_left to apron.neck_right }}\n"
        );
        let found = crate::workbench::told(&text);
        assert!(found.iter().any(|(slug, _)| *slug == "caution/cord"), "{found:?}");
        let loader = fustian::source::MemoryLoader::new().with("own.fus", text);
        let compiled = fustian::compile(&loader, "own.fus");
        compiled
            .diagnostics
            .iter()
            .any(|one| one.labels.iter().any(|label| label.text.contains("a child's head goes through")))
    };
    // Each end is sewn on by 2, and 12 lie between them: 38 − 4 + 12 = 46 are more than a child's 45, 36 − 4 + 12 less.
    assert!(cover("38") && !cover("36"));
}

#[test]
fn figures_that_nobody_sews_are_told() {
    cured("hem-tiny-strap", "hem/tiny", &[("by 3.5mm in", "by 3.5cm in")]);
    cured("length-out-of-use-binding", "length/out-of-use", &[("bound 8", "bound 0.8")]);
    let cloth = mistake("length-out-of-use-binding");
    let changed =
        |from: &str, to: &str| said(&with(&with(&cloth, &[("bound 8", "bound 0.8")]), &[(from, to)]));
    assert_eq!(changed("width 150", "width 150; selvage 20"), ["length/out-of-use"]);
    assert_eq!(changed("width 150", "width 150; selvage 2"), NOTHING);
    let end = "layer outer";
    let row = |mm: &str| changed(end, &format!("topstitch edge_row {mm} from cloth.left\nlayer outer"));
    assert_eq!(row("0.6mm"), ["hem/tiny"]);
    assert_eq!(row("1mm"), NOTHING);
}

#[test]
fn girths_go_with_one_another() {
    cured("body-unlikely-share", "body/unlikely", &[("waist 28", "waist 82")]);
    // The slimmest and the roundest of size tables: hip 1.5 times the waist, waist as large as the hip.
    for sound in [("waist 28", "waist 64"), ("waist 28", "waist 110")] {
        cured("body-unlikely-share", "body/unlikely", &[sound]);
    }
}

#[test]
fn a_childs_height_goes_with_its_age() {
    cured("wearer-child-size-months", "wearer/child-size", &[("3 to 7 months", "3 to 7 years")]);
    let said_of =
        |ages: &str| said(&with(&mistake("wearer-child-size-months"), &[("from 3 to 7 months", ages)]));
    assert_eq!(said_of("from 12 to 14 years"), ["wearer/child-size"]);
    assert_eq!(said_of("from 2 to 4 years"), NOTHING);
}

#[test]
fn a_fusible_is_not_sewn_as_cloth() {
    cured("fused-alone-cloth", "fused/alone", &[("layer inside in stay", "layer inside in canvas")]);
}

#[test]
fn what_one_figure_does_in_many_places_is_told_once() {
    let trousers = crate::workbench::example("mate-trousers");
    assert!(trousers.contains("width 150"));
    let narrow = with(&trousers, &[("width 150", "width 15")]);
    let found = told(&narrow);
    assert_eq!(found.iter().filter(|(slug, _)| *slug == "cloth/narrow").count(), 1, "{found:?}");
    let wide = with(&trousers, &[("\nallowance 1.5\n", "\nallowance 15\n")]);
    let found = told(&wide);
    let of = |wanted: &str| found.iter().filter(|(slug, _)| *slug == wanted).count();
    assert_eq!((of("cutting/too-wide"), of("allowance/wide")), (1, 0), "{found:?}");
}

#[test]
fn a_figure_for_which_a_piece_cannot_be_drawn_is_told_itself() {
    let vest = |lengths: &str| {
        let text = format!(
            "garment \"Deck vest\"\nunits cm\nallowance 1\nsizes S, M, L\nfabric canvas \"apron canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ front }}\nlet long = each {lengths}\npiece front \"Front\" {{\ncut 1\npoint a = (0, 0)\n\
             point b = (30, -20)\npoint c = (30, -long)\npoint d = (0, -long)\noutline from a {{ top to b; right to c; low to d; \
             left to a }}\n}}\nfinish front.top, front.right, front.low, front.left hem 1\n"
        );
        told(&text)
    };
    let sound = vest("40, 42, 44");
    assert!(sound.iter().all(|(slug, _)| *slug != "size/irregular"), "{sound:?}");
    // 10 long, the lower edge crosses the upper one, which goes down to 20.
    let found = vest("40, 10, 44");
    assert!(
        found.iter().any(|(slug, title)| *slug == "size/irregular"
            && title.starts_with("long lies beside its row in size M")),
        "{found:?}"
    );
    assert!(found.iter().any(|(slug, _)| slug.starts_with("outline/")), "{found:?}");
}

#[test]
fn a_closed_sleeve_goes_round_an_armhole_that_is_closed_at_the_shoulder_too() {
    let smock = with(&mistake("length-out-of-use-sleeve"), &[("arm + 24", "arm - 24")]);
    let order = |sewn: &str| {
        let text = format!(
            "{smock}steps {{ \"Smock\" {{ {sewn}; finish front.neckline, back.neckline; hem front.hem, back.hem, sleeve.wrist }} }}\n"
        );
        told(&text)
    };
    assert!(order("sew shoulder, side, under, armhole").is_empty());
    assert!(order("sew shoulder, armhole, side, under").is_empty());
    let early = order("sew side, under, armhole, shoulder");
    let title = "sewing armhole comes before sewing shoulder, which it crosses";
    assert_eq!(early, [("step/early", title.to_owned())]);
}

#[test]
fn slips_in_sizes_of_pieces_that_have_nothing_to_do_with_one_another_are_told_each() {
    let sheet = |other: &str| {
        let drawn = "cut 1\npoint a = (0, 0)\npoint b = (each (30, 0), (70, 0), (34, 0))\npoint c = (each (32, 20), (72, 60), (36, 24))\n\
             point d = (0, 22)\noutline from a { low to b; right to c; top to d; left to a }";
        let text = format!(
            "garment \"Deck sheets\"\nunits cm\nallowance 1\nsizes S, M, L\nfabric canvas \"apron canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ fore, aft }}\npiece fore \"Fore\" {{\n{drawn}\n}}\npiece aft \"Aft\" {{\n{}\n}}\n\
             finish fore.low, fore.right, fore.top, fore.left hem 1\nfinish aft.low, aft.right, aft.top, aft.left hem 1\n",
            other.replace("ITSELF", drawn)
        );
        told(&text).iter().filter(|(slug, _)| *slug == "size/irregular").count()
    };
    // Each has three edges that jump.
    assert_eq!(sheet("ITSELF"), 2);
    // What is drawn to the first goes with it.
    let to_it = "cut 1\npoint a = (0, 0)\npoint b = (length(fore.low), 0)\npoint c = (length(fore.low) + 2, length(fore.right))\n\
         point d = (0, 22)\noutline from a { low to b; right to c; top to d; left to a }";
    assert_eq!(sheet(to_it), 1);
}

/// A pair of which one is cut is told as that, though each of both is off by as much as the file tolerates, or is eased in.
#[test]
fn one_of_a_pair_is_told_as_that_within_what_is_tolerated_of_each() {
    let legs = |fit: &str, long: &str| {
        let text = format!(
            "garment \"Engine-room trousers\"\nunits cm\nallowance 1\ntolerance 2mm\nfabric twill \"twill\" {{ width 150 }}\n\
             layer outer in twill {{ front, back }}\npiece front \"Front\" {{ cut 1; outline rectangle 20 by {long} }}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline rectangle 20 by 100 }}\nseam side  front.left to back.right{fit}\n\
             finish front.top, front.bottom, front.right, back.top, back.bottom, back.left  hem 1\n"
        );
        let compiled =
            fustian::compile(&fustian::source::MemoryLoader::new().with("own.fus", text), "own.fus");
        let unequal =
            compiled.diagnostics.iter().find(|one| ["seam/unequal", "seam/ease"].contains(&one.slug()));
        unequal
            .and_then(|one| one.help_words())
            .is_some_and(|help| help.contains("cut 2 mirrored in piece front"))
    };
    // 2 × 99.8 and 2 × 100 differ by 4 mm, and each of both by 2.
    assert!(legs("", "99.8") && !legs("", "99.7"));
    // 2 × 102.5 has 5 to be eased into 2 × 100, and each of both 2.5.
    assert!(legs("  easing 2..3", "102.5") && !legs("  easing 2..3", "103.5"));
}
