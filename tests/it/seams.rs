//! Seams: which copies meet, how long both sides are, and what is said where they do not match.

use fustian::garment::SeamId;
use fustian::report::{Diagnostic, Severity};
use fustian::sewing::{SewnSeam, SewnSide};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;

type Drafted = (&'static str, &'static str, f64, [f64; 6], [f64; 6]);

/// Lengths of both sides over all copies, in millimetres, size by size: file, seam, how many of its
/// sewings the figure counts, first side, second side. They come from a draft of the examples made
/// by hand in another program with spline code of its own, before these pieces could be drawn here.
#[rustfmt::skip]
const DRAFTED: &[Drafted] = &[
    ("deck-smock.fus", "shoulder", 2.0, [226.065, 244.837, 263.609, 282.381, 301.154, 323.820], [226.065, 244.837, 263.609, 282.381, 301.154, 323.820]),
    ("deck-smock.fus", "armhole", 2.0, [1067.609, 1101.202, 1136.795, 1174.093, 1212.849, 1260.267], [1016.809, 1050.402, 1085.995, 1123.293, 1162.049, 1209.467]),
    ("deck-smock.fus", "side", 2.0, [786.000, 790.000, 794.000, 798.000, 802.000, 803.000], [786.000, 790.000, 794.000, 798.000, 802.000, 803.000]),
    ("deck-smock.fus", "sleeve", 1.0, [415.705, 426.791, 437.267, 447.186, 456.601, 462.176], [415.705, 426.791, 437.267, 447.186, 456.601, 462.176]),
    ("deck-smock.fus", "collar", 1.0, [585.362, 590.472, 595.583, 600.694, 605.804, 610.915], [585.362, 590.472, 595.583, 600.694, 605.804, 610.915]),
    ("deck-smock.fus", "hem_band", 1.0, [884.000, 952.000, 1020.000, 1088.000, 1156.000, 1236.750], [1040.000, 1120.000, 1200.000, 1280.000, 1360.000, 1455.000]),
    ("deck-smock.fus", "cuff", 2.0, [394.784, 403.568, 412.376, 421.209, 430.069, 439.030], [563.977, 576.525, 589.108, 601.727, 614.384, 627.186]),
    ("deck-jacket.fus", "shoulder", 2.0, [295.961, 311.538, 327.115, 342.692, 358.269, 377.740], [295.961, 311.538, 327.115, 342.692, 358.269, 377.740]),
    ("deck-jacket.fus", "armhole", 2.0, [1046.811, 1087.152, 1128.874, 1171.761, 1215.639, 1268.296], [996.011, 1036.352, 1078.074, 1120.961, 1164.839, 1217.496]),
    ("deck-jacket.fus", "side", 2.0, [936.000, 945.000, 954.000, 963.000, 972.000, 978.000], [936.000, 945.000, 954.000, 963.000, 972.000, 978.000]),
    ("deck-jacket.fus", "sleeve", 1.0, [424.485, 432.873, 440.765, 448.232, 455.335, 458.580], [424.485, 432.873, 440.765, 448.232, 455.335, 458.580]),
    ("deck-jacket.fus", "collar", 1.0, [414.579, 427.853, 441.127, 454.402, 467.678, 480.955], [414.579, 427.853, 441.127, 454.402, 467.678, 480.955]),
    ("deck-jacket.fus", "hem_band", 1.0, [952.000, 1020.000, 1088.000, 1156.000, 1224.000, 1304.750], [1120.000, 1200.000, 1280.000, 1360.000, 1440.000, 1535.000]),
    ("deck-jacket.fus", "cuff", 2.0, [394.668, 403.477, 412.318, 421.190, 430.094, 439.112], [563.812, 576.396, 589.025, 601.700, 614.421, 627.303]),
    ("deck-jacket.fus", "collar_inside", 1.0, [414.579, 427.853, 441.127, 454.402, 467.678, 480.955], [414.579, 427.853, 441.127, 454.402, 467.678, 480.955]),
    ("deck-jacket.fus", "hem_band_inside", 1.0, [952.000, 1020.000, 1088.000, 1156.000, 1224.000, 1304.750], [1120.000, 1200.000, 1280.000, 1360.000, 1440.000, 1535.000]),
    ("deck-jacket.fus", "front_edge", 1.0, [630.000, 640.000, 650.000, 660.000, 670.000, 680.000], [630.000, 640.000, 650.000, 660.000, 670.000, 680.000]),
    ("oilskin-trousers.fus", "outseam", 2.0, [2063.073, 2099.958, 2136.937, 2174.179, 2211.538, 2249.216], [2063.073, 2099.958, 2136.937, 2174.179, 2211.538, 2249.216]),
    ("oilskin-trousers.fus", "inseam", 2.0, [1464.534, 1485.640, 1506.888, 1528.493, 1550.275, 1572.499], [1464.534, 1485.640, 1506.888, 1528.493, 1550.275, 1572.499]),
    ("oilskin-trousers.fus", "front_crotch", 2.0, [646.994, 666.127, 685.407, 705.281, 725.330, 746.063], [646.994, 666.127, 685.407, 705.281, 725.330, 746.063]),
    ("oilskin-trousers.fus", "back_crotch", 2.0, [748.242, 775.749, 803.641, 833.848, 864.487, 897.627], [748.242, 775.749, 803.641, 833.848, 864.487, 897.627]),
    ("mess-jacket.fus", "shoulder", 2.0, [273.115, 287.654, 302.192, 316.730, 331.269, 349.702], [273.115, 287.654, 302.192, 316.730, 331.269, 349.702]),
    ("mess-jacket.fus", "armhole", 2.0, [941.666, 987.718, 1035.508, 1084.686, 1134.987, 1195.338], [865.466, 911.518, 959.308, 1008.486, 1058.787, 1119.138]),
    ("mess-jacket.fus", "side", 2.0, [477.133, 481.124, 485.115, 489.106, 493.097, 494.094], [477.133, 481.124, 485.115, 489.106, 493.097, 494.094]),
    ("mess-jacket.fus", "facing_edge", 2.0, [958.209, 981.072, 1003.944, 1026.826, 1049.716, 1072.614], [958.209, 981.072, 1003.944, 1026.826, 1049.716, 1072.614]),
    ("mess-jacket.fus", "lining_shoulder", 2.0, [273.115, 287.654, 302.192, 316.730, 331.269, 349.702], [273.115, 287.654, 302.192, 316.730, 331.269, 349.702]),
    ("mess-jacket.fus", "lining_armhole", 2.0, [941.666, 987.718, 1035.508, 1084.686, 1134.987, 1195.338], [865.466, 911.518, 959.308, 1008.486, 1058.787, 1119.138]),
    ("mess-jacket.fus", "lining_side", 2.0, [477.133, 481.124, 485.115, 489.106, 493.097, 494.094], [477.133, 481.124, 485.115, 489.106, 493.097, 494.094]),
    ("mess-jacket.fus", "sleeve", 1.0, [470.107, 475.205, 479.773, 483.925, 487.754, 488.075], [470.107, 475.205, 479.773, 483.925, 487.754, 488.075]),
    ("mess-jacket.fus", "outer_neck", 1.0, [375.223, 390.562, 405.936, 421.340, 436.772, 452.230], [375.223, 390.562, 405.936, 421.340, 436.772, 452.230]),
    ("mess-jacket.fus", "inner_neck", 1.0, [375.223, 390.562, 405.936, 421.340, 436.772, 452.230], [375.223, 390.562, 405.936, 421.340, 436.772, 452.230]),
    ("mess-jacket.fus", "front_edge", 2.0, [812.000, 826.000, 840.000, 854.000, 868.000, 882.000], [812.000, 826.000, 840.000, 854.000, 868.000, 882.000]),
    ("mess-jacket.fus", "hem", 1.0, [940.000, 1020.000, 1100.000, 1180.000, 1260.000, 1355.000], [940.000, 1020.000, 1100.000, 1180.000, 1260.000, 1355.000]),
    ("mess-jacket.fus", "wrist", 1.0, [270.512, 276.666, 282.843, 289.043, 295.268, 301.538], [270.512, 276.666, 282.843, 289.043, 295.268, 301.538]),
    ("mess-skirt.fus", "side", 2.0, [1219.200, 1219.200, 1219.200, 1219.200, 1219.200, 1219.200], [1219.200, 1219.200, 1219.200, 1219.200, 1219.200, 1219.200]),
    ("mess-skirt.fus", "centre_back", 2.0, [825.500, 825.500, 825.500, 825.500, 825.500, 825.500], [825.500, 825.500, 825.500, 825.500, 825.500, 825.500]),
    ("mess-skirt.fus", "waist", 1.0, [725.400, 805.400, 885.400, 965.400, 1055.400, 1155.400], [725.400, 805.400, 885.400, 965.400, 1055.400, 1155.400]),
];

fn examples() -> MemoryLoader {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_name().and_then(|name| name.to_str()).unwrap().to_owned();
            loader = loader.with(name.as_str(), fs::read_to_string(&path).unwrap().as_str());
        }
    }
    loader
}

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus")
}

fn seams<'a>(compiled: &'a Compiled, size: usize, name: &str) -> Vec<&'a SewnSeam> {
    let named = |seam: &&SewnSeam| &*compiled.garment.seam(seam.seam).name == name;
    compiled.sizes[size].sewn.seams.iter().filter(named).collect()
}

fn seam<'a>(compiled: &'a Compiled, name: &str) -> &'a SewnSeam {
    seams(compiled, 0, name)[0]
}

fn length(side: &SewnSide) -> f64 {
    side.plies[0].length
}

fn both(compiled: &Compiled, name: &str) -> (f64, f64) {
    let seam = seam(compiled, name);
    (length(&seam.first), length(&seam.second))
}

fn told<'a>(compiled: &'a Compiled, slug: &str) -> Vec<&'a Diagnostic> {
    compiled.diagnostics.iter().filter(|one| one.slug() == slug).collect()
}

/// Mistakes in the seams; edges that a small garment leaves loose do not matter here.
fn of_seams(compiled: &Compiled) -> Vec<&'static str> {
    let slugs = compiled.diagnostics.iter().map(|one| one.slug());
    slugs.filter(|slug| slug.starts_with("seam/") || slug.starts_with("alter/")).collect()
}

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 0.02, "{found}, expected {expected}");
}

#[test]
fn the_examples_seams_are_as_long_as_they_were_drafted() {
    let loader = examples();
    let mut last: Option<(&str, Compiled)> = None;
    for &(file, name, copies, first, second) in DRAFTED {
        if last.as_ref().is_none_or(|(known, _)| *known != file) {
            last = Some((file, compile(&loader, file)));
        }
        let compiled = &last.as_ref().unwrap().1;
        for size in 0..6 {
            let found = seams(compiled, size, name);
            assert!(!found.is_empty(), "{file} {name}");
            for seam in found {
                near(copies * length(&seam.first), first[size]);
                near(copies * length(&seam.second), second[size]);
            }
        }
    }
}

#[test]
fn every_end_of_the_examples_seams_is_known() {
    let loader = examples();
    for file in
        ["deck-smock.fus", "deck-jacket.fus", "oilskin-trousers.fus", "mess-jacket.fus", "mess-skirt.fus"]
    {
        let compiled = compile(&loader, file);
        for seam in compiled.sizes.iter().flat_map(|size| &size.sewn.seams) {
            let name = &compiled.garment.seam(seam.seam).name;
            assert!(seam.known && seam.unpaired.is_none() && seam.unmet.is_none(), "{file} {name}");
            assert!(!seam.ends.is_empty(), "{file} {name}");
        }
    }
}

/// A jacket body without a seam that names the layers: it is sewn in both.
#[test]
fn a_seam_without_a_layer_is_sewn_in_every_layer_that_has_its_pieces() {
    let compiled = compile(&examples(), "deck-jacket.fus");
    let layers = |name: &str| -> Vec<Vec<String>> {
        seams(&compiled, 2, name)
            .iter()
            .map(|seam| {
                seam.layers.iter().map(|&layer| compiled.garment.layer(layer).name.to_string()).collect()
            })
            .collect()
    };
    assert_eq!(layers("side"), [["outer"], ["lining"]]);
    assert_eq!(layers("cuff_ends"), [["knit"]]);
    assert_eq!(layers("cuff"), [["outer", "knit", "lining"]]);
}

const BODY: &str = "garment \"Deck smock\"\nunits mm\nallowance 10\ntolerance 2mm\n\
fabric shell \"dry-waxed cotton\" { width 1500; kind woven firm }\n\
layer outer in shell { front, back, sleeve, band }\n\
piece front \"Front\" { cut 1 on fold left; outline rectangle 300 by 500; line waist across at (0, 200) }\n\
piece back \"Back\" { cut 1 on fold left; outline rectangle 280 by 500; line waist across at (0, 200) }\n\
piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 400 by 450 }\n\
piece band \"Band\" { cut 1; outline rectangle 1160 by 60 }\n";

fn body(more: &str) -> Compiled {
    made(&format!("{BODY}{more}"))
}

/// 2 × 300 + 2 × 280 = 1160 all round.
#[test]
fn a_half_on_the_fold_that_is_sewn_once_round_counts_both_halves() {
    let compiled = body(
        "seam side front.right to back.right\n\
         seam hem band.top to front.bottom + back.bottom { matching band.top_left with back.bottom_left }\n",
    );
    assert_eq!(both(&compiled, "hem"), (1160.0, 1160.0));
    assert_eq!(seam(&compiled, "hem").sewings, 1);
    assert_eq!(both(&compiled, "side"), (500.0, 500.0));
    assert_eq!(seam(&compiled, "side").sewings, 2);
    assert_eq!(of_seams(&compiled), [""; 0]);
    // The band is notched where the sides and the centre front lie: 280, 580 and 880 from its end.
    let notches: Vec<f64> = seam(&compiled, "hem").notches.iter().map(|notch| notch.on_first).collect();
    assert_eq!(notches, [280.0, 580.0, 880.0]);
}

/// Both are counted for one sleeve: 400 to 300 + 280.
#[test]
fn a_sleeve_is_compared_with_the_armhole_of_its_own_side() {
    let compiled = body(
        "seam side front.right to back.right\n\
         seam armhole sleeve.top to front.top + back.top  easing -200..0 {\n\
         matching sleeve.top_left with front.top_left\n}\n",
    );
    assert_eq!(seam(&compiled, "armhole").sewings, 2);
    assert_eq!(both(&compiled, "armhole"), (400.0, 580.0));
}

#[test]
fn an_edge_named_on_both_sides_meets_left_to_right() {
    let compiled = body("seam underarm sleeve.right to sleeve.right\n");
    let seam = seam(&compiled, "underarm");
    assert_eq!((seam.sewings, length(&seam.first), length(&seam.second)), (1, 450.0, 450.0));
    assert_ne!(seam.first.plies[0].runs[0].hand, seam.second.plies[0].runs[0].hand);
}

#[test]
fn an_edge_that_is_there_once_is_not_sewn_to_itself() {
    let compiled = body("seam ends band.left to band.left\n");
    let mistakes = told(&compiled, "seam/pairing");
    assert_eq!(mistakes.len(), 1);
    assert!(
        mistakes[0].title.contains("takes the left of Band twice, but it occurs once"),
        "{:?}",
        mistakes[0].title
    );
}

/// Both waists begin at a centre front on the fold and end at a centre back on the fold; that their
/// corners have the same names does not matter, because each lies on its own.
#[test]
fn a_lining_is_sewn_to_its_shell_all_round_without_a_word() {
    let compiled = body(
        "layer lining in shell { front, back }\nseam side front.right to back.right\n\
         seam waist outer.front.top + outer.back.top to lining.front.top + lining.back.top\n",
    );
    assert_eq!(of_seams(&compiled), [""; 0]);
    let waist = seam(&compiled, "waist");
    assert_eq!(
        (waist.sewings, waist.ring, length(&waist.first), length(&waist.second)),
        (1, true, 1160.0, 1160.0)
    );
    // Fronts and backs are joined at the sides: 2 × 300 of front, or 2 × 280 of back, lie together.
    let joint = waist.stretches.iter().map(|one| one.first.1 - one.first.0);
    let mut joint: Vec<f64> = joint.collect();
    joint.sort_by(f64::total_cmp);
    assert_eq!(joint, [280.0, 280.0, 300.0, 300.0]);
}

#[test]
fn a_tube_is_not_twisted() {
    let compiled = body("seam ends band.left to band.right\n");
    let seam = seam(&compiled, "ends");
    assert!(seam.unmet.is_none());
    assert_ne!(seam.first.plies[0].runs[0].reversed, seam.second.plies[0].runs[0].reversed);
}

#[test]
fn four_cuffs_do_not_go_on_two_sleeves() {
    let compiled = body(
        "piece cuff \"Cuff\" { cut 4; outline rectangle 400 by 60 }\nlayer more in shell { cuff }\n\
        seam cuff more.cuff.top to outer.sleeve.bottom { matching more.cuff.top_left with outer.sleeve.bottom_left }\n",
    );
    assert_eq!(told(&compiled, "seam/pairing").len(), 1);
    assert_eq!(told(&compiled, "seam/unequal").len(), 0, "lengths of what is not paired mean nothing");
}

#[test]
fn the_help_for_unknown_ends_is_the_line_that_mends_it() {
    let text = "seam top sleeve.top to front.right  easing -200..200";
    let compiled = made(&format!(
        "{BODY}piece odd \"Odd\" {{ cut 2 mirrored; point a = (0, 0); point b = (400, 0); point c = (0, 90)\noutline from a {{ foot to b; slope to c; back to a }} }}\nlayer more in shell {{ odd }}\nseam top outer.sleeve.top to more.odd.foot\n"
    ));
    let mistakes = told(&compiled, "seam/ends");
    assert_eq!(mistakes.len(), 1, "{text}");
    let help = mistakes[0].help.clone().unwrap();
    let line = help.split("matching ").nth(1).and_then(|rest| rest.split(';').next()).unwrap();
    let mended = made(&format!(
        "{BODY}piece odd \"Odd\" {{ cut 2 mirrored; point a = (0, 0); point b = (400, 0); point c = (0, 90)\noutline from a {{ foot to b; slope to c; back to a }} }}\nlayer more in shell {{ odd }}\nseam top outer.sleeve.top to more.odd.foot {{ matching {line} }}\n"
    ));
    assert_eq!(told(&mended, "seam/ends").len(), 0, "{line}");
}

#[test]
fn one_side_altered_is_told_from_the_alteration() {
    let compiled = body("lengthen front at waist by 160\nseam side front.right to back.right\n");
    let mistakes = told(&compiled, "alter/one-side");
    assert_eq!(mistakes.len(), 1);
    let mistake = mistakes[0];
    assert_eq!(mistake.title, "the side seam does not match: Front is 160 mm longer than Back");
    assert_eq!(mistake.labels[0].text, "only Front was lengthened");
    assert_eq!(mistake.help.as_deref(), Some("lengthen back at waist by 160mm too"));
    assert_eq!(mistake.severity(), Severity::Mistake);
    assert_eq!(told(&compiled, "seam/unequal").len(), 0, "told once");
}

#[test]
fn lengthening_both_partners_keeps_them_equal() {
    for by in [1.0, 16.0, 250.0, -30.0] {
        let verb = if by > 0.0 { "lengthen" } else { "shorten" };
        let compiled = body(&format!(
            "{verb} front, back at waist by {}\nseam side front.right to back.right\n",
            f64::abs(by)
        ));
        assert_eq!(of_seams(&compiled), [""; 0], "{by}");
        let (first, second) = both(&compiled, "side");
        near(first, 500.0 + by);
        near(second, 500.0 + by);
    }
}

/// Everything drawn k times as large: every difference is k times as large.
#[test]
fn differences_scale_with_the_garment() {
    let at = |k: f64| {
        let compiled = made(&format!(
            "garment \"Deck vest\"\nunits mm\nallowance 10\nfabric shell {{ width 9000 }}\nlayer outer in shell {{ front, back }}\n\
             piece front {{ cut 1 on fold a\npoint p = (0, 0)\npoint q = (0, {})\npoint r = ({}, {})\npoint s = ({}, 0)\n\
             outline from p {{ a to q; b to r; c to s curve leaving down arriving down through ({}, {}); d to p }} }}\n\
             piece back {{ cut 1 on fold left; outline rectangle {} by {} }}\n\
             seam side front.c to back.right {{ matching front.s with back.bottom_right }}\n",
            400.0 * k,
            200.0 * k,
            400.0 * k,
            260.0 * k,
            210.0 * k,
            150.0 * k,
            200.0 * k,
            400.0 * k
        ));
        let (first, second) = both(&compiled, "side");
        assert!(first > second);
        first - second
    };
    let one = at(1.0);
    for k in [0.1, 0.5, 2.0, 7.0] {
        assert!((at(k) - k * one).abs() < 1e-3 * k.max(1.0), "{k}");
    }
}

#[test]
fn swapping_the_sides_of_a_plain_seam_changes_nothing_but_the_order() {
    for (one, other) in
        [("front.right", "back.right"), ("front.top", "back.top"), ("sleeve.left", "sleeve.right")]
    {
        let (plain, swapped) =
            (body(&format!("seam x {one} to {other}\n")), body(&format!("seam x {other} to {one}\n")));
        let (first, second) = both(&plain, "x");
        assert_eq!(both(&swapped, "x"), (second, first));
        assert_eq!(seam(&plain, "x").sewings, seam(&swapped, "x").sewings);
        assert_eq!(of_seams(&plain), of_seams(&swapped));
        let ends = |compiled: &Compiled, turned: bool| {
            let ends = seam(compiled, "x").ends.iter().map(|(a, b)| if turned { (*b, *a) } else { (*a, *b) });
            let mut ends: Vec<String> = ends.map(|ends| format!("{ends:?}")).collect();
            ends.sort();
            ends
        };
        assert_eq!(ends(&plain, false), ends(&swapped, true));
    }
}

/// A notch 80 mm from the shoulder of the front stands 80 mm from the shoulder of the back too.
#[test]
fn a_notch_of_one_piece_is_matched_on_the_other() {
    let text = BODY.replace(
        "outline rectangle 300 by 500;",
        "outline rectangle 300 by 500; notch right 80 from top_right double;",
    );
    let compiled = made(&format!("{text}seam side front.right to back.right\n"));
    let back = &compiled.sizes[0].sewn.parts[1].notches;
    assert_eq!(back.len(), 1);
    assert!(back[0].double);
    // `right` of a rectangle runs up: 80 from its top is 420 from its start.
    near(back[0].along, 420.0);
    assert_eq!((back[0].at.x, back[0].at.y), (280.0, 420.0));
    assert_eq!(back[0].seam, Some(SeamId::from_index(0)));
}

/// 20 mm of ease, all of it between the two corners of the middle: outside, both sides are equal.
#[test]
fn ease_may_be_confined() {
    let text = |confined: &str| {
        format!(
            "{BODY}piece cap \"Cap\" {{ cut 2 mirrored; outline rectangle 520 by 90; point m = (100, 90); mark n = (420, 90) }}\n\
             layer more in shell {{ cap }}\nseam x more.cap.top to outer.front.right  easing 10..30 {confined} {{ matching more.cap.top_left with outer.front.top_right }}\n"
        )
    };
    let compiled = made(&text("between more.cap.m and more.cap.n"));
    assert_eq!(of_seams(&compiled), [""; 0]);
    let stretches = &seam(&compiled, "x").stretches;
    let eased: Vec<f64> =
        stretches.iter().map(|one| (one.first.1 - one.first.0) - (one.second.1 - one.second.0)).collect();
    assert_eq!(stretches.len(), 3);
    near(eased[0], 0.0);
    near(eased[1], 20.0);
    near(eased[2], 0.0);
}

/// A band at 65 % must stretch by 1 / 0.65 − 1 = 54 %; along the bias of a cloth that stretches 80 %
/// across and 20 % along it has the mean of both, 50 %, by the transformation of strain at 45°.
#[test]
fn stretch_is_checked_along_the_edge() {
    let at = |grain: &str| {
        made(&format!(
            "garment \"Deck smock\"\nunits mm\nallowance 10\nfabric shell {{ width 1500 }}\n\
             fabric rib \"rib\" {{ width 1500; stretch 80% across, 20% along }}\n\
             layer outer in shell {{ body }}\nlayer knit in rib {{ band }}\n\
             piece body \"Body\" {{ cut 1; outline rectangle 1000 by 500 }}\n\
             piece band \"Band\" {{ cut 1; outline rectangle 650 by 60; {grain} }}\n\
             seam hem knit.band.top to outer.body.bottom  stretching 60%..70% {{ matching knit.band.top_left with outer.body.bottom_left }}\n"
        ))
    };
    assert_eq!(told(&at("grain up"), "seam/stretch").len(), 0, "80 % are enough");
    for (grain, gives) in [("grain across", "20 %"), ("grain bias", "50 %")] {
        let compiled = at(grain);
        let mistakes = told(&compiled, "seam/stretch");
        assert_eq!(mistakes.len(), 1, "{grain}");
        assert!(
            mistakes[0].title.contains("54 %") && mistakes[0].title.contains(gives),
            "{}",
            mistakes[0].title
        );
    }
}

/// Sleeve-cap ease that a cloth takes: 1½ in for supple cloth, 1 in for others (Virginia Cooperative
/// Extension, publication 346-122).
#[test]
fn more_ease_than_a_cloth_takes_is_advised_against() {
    let at = |kind: &str, ease: f64| {
        let text = BODY.replace("kind woven firm", kind);
        let text = text
            .replace("outline rectangle 400 by 450", &format!("outline rectangle {} by 450", 580.0 + ease));
        let compiled = made(&format!(
            "{text}seam side front.right to back.right\nseam armhole sleeve.top to front.top + back.top  easing 0..60 {{\n\
             matching sleeve.top_left with front.top_left\n}}\n"
        ));
        told(&compiled, "seam/cap-ease").len()
    };
    for (kind, takes) in
        [("kind woven firm", 25.4), ("kind woven supple", 38.1), ("kind knit", 25.4), ("kind leather", 25.4)]
    {
        assert_eq!(at(kind, takes), 0, "{kind}");
        assert_eq!(at(kind, takes + 4.0), 1, "{kind}");
    }
}

/// A skirt's waist of 700 mm does not pass a hip of 900; a zip of 100 in it adds twice its length.
#[test]
fn an_opening_passes_with_its_closure_open() {
    let at = |zip: f64| {
        let compiled = made(&format!(
            "garment \"Mess skirt\"\nunits mm\nallowance 10\nsizes one\nbody {{ hip 900 }}\nfabric serge {{ width 1500; kind woven firm }}\n\
             layer outer in serge {{ panel }}\n\
             piece panel \"Panel\" {{ cut 1 on fold left; outline rectangle 350 by 600; divide right {zip} from top_right into zip_edge, right }}\n\
             seam back panel.right to panel.right\n\
             closure back_zip panel.zip_edge to panel.zip_edge {{ zipper concealed {zip} }}\n\
             finish panel.top, panel.bottom hem 20\n\
             opening panel.top passes hip\n"
        ));
        told(&compiled, "opening/passes").len()
    };
    assert_eq!(at(90.0), 1);
    assert_eq!(at(100.0), 0);
}
