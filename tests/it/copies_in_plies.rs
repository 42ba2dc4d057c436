//! Two copies of one piece, cut alike or in a pair, that lie on one another in a seam: an upper and an under collar.

use crate::sheet_sentences::with_texts;
use crate::workbench::in_memory;
use fustian::sewing::garment_rims;
use fustian::sheet::{Language, Run};
use fustian::{Compiled, compile};

/// The mess crew's vest with a collar of two plies: round the neck and its outer edge are by hand 2 x (15 + 8) cm, since each
/// half of the neck is straight and 15 and 8 cm long.
fn vest(collar: &str, neck: &str) -> Compiled {
    vest_with("cut 2 mirrored", collar, neck, "front.hem, back.hem, front.centre")
}

/// The same with a front that is cut otherwise, and with those edges hemmed.
fn vest_with(front: &str, collar: &str, neck: &str, hemmed: &str) -> Compiled {
    of(&vest_text(front, collar, neck, hemmed))
}

fn of(text: &str) -> Compiled {
    compile(&in_memory(&[("vest.fus", text)]), "vest.fus")
}

fn vest_text(front: &str, collar: &str, neck: &str, hemmed: &str) -> String {
    format!(
        "garment \"Mess vest\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" {{ width 150 }}\n\
         layer outer in serge {{ front, back, collar }}\n\
         piece front \"Front\" {{\n  {front}\n  point low_centre = (0, 0)\n  point low_side = (30, 0)\n\
         \x20 point underarm = (30, 30)\n  point tip = (20, 50)\n  point neck_side = (15, 50)\n  point neck_centre = (0, 50)\n\
         \x20 outline from low_centre {{\n    hem to low_side\n    side to underarm\n    armhole to tip\n\
         \x20   shoulder to neck_side\n    neck to neck_centre\n    centre to low_centre\n  }}\n}}\n\
         piece back \"Back\" {{\n  cut 1 on fold centre\n  point low_centre = (0, 0)\n  point low_side = (30, 0)\n\
         \x20 point underarm = (30, 30)\n  point tip = (13, 50)\n  point neck_side = (8, 50)\n  point neck_centre = (0, 50)\n\
         \x20 outline from low_centre {{\n    hem to low_side\n    side to underarm\n    armhole to tip\n\
         \x20   shoulder to neck_side\n    neck to neck_centre\n    centre to low_centre\n  }}\n}}\n\
         piece collar \"Collar\" {{ {collar} }}\n\
         seam shoulder  front.shoulder to back.shoulder\nseam side  front.side to back.side\n\
         seam collar_edge  collar.left + collar.top + collar.right to collar.left + collar.top + collar.right\n\
         seam neck  {neck} to front.neck + back.neck {{ matching collar.bottom_right with front.neck_centre }}\n\
         finish {hemmed}  hem 2\nfinish front.armhole, back.armhole  bound 1\n"
    )
}

fn told(compiled: &Compiled) -> Vec<(&'static str, String)> {
    let all = compiled.diagnostics.iter().filter(|one| !["steps/none", "seam/kink"].contains(&one.slug()));
    all.map(|one| (one.slug(), one.help_words().unwrap_or_default())).collect()
}

const TWO: &str = "cut 2; outline rectangle 46 by 6";
const PAIR: &str = "cut 2 mirrored; outline rectangle 46 by 6";
const BOTH: &str = "collar.bottom and collar.bottom";
const OPEN: &str = "front.hem, back.hem, front.centre";
const CLOSED: &str = "front.hem, back.hem";

/// The rims, as long as they are, the shortest first, in tenths of a millimetre.
fn rims(compiled: &Compiled) -> Vec<i64> {
    let size = &compiled.sizes[0];
    let rims = garment_rims(&compiled.garment, &size.drawn, &size.sewn).expect("its rims");
    let mut long: Vec<i64> = rims.iter().map(|rim| (rim.ring.length * 10.0).round() as i64).collect();
    long.sort_unstable();
    long
}

/// Both armholes: by hand from (30, 30) to (20, 50) and from there to (13, 50), the root of 10² + 20² and that of 17² + 20², are
/// 22.3607 + 26.2488 cm.
const ARMHOLE: i64 = 4861;

#[test]
fn two_collars_that_are_cut_alike_go_into_the_neck_together() {
    for two in [TWO, PAIR] {
        go_together(&vest(two, BOTH));
    }
}

fn go_together(vest: &Compiled) {
    assert_eq!(told(vest), []);
    let size = &vest.sizes[0];
    let neck = size.sewn.seams.iter().find(|sewn| &*vest.garment.seam(sewn.seam).name == "neck").unwrap();
    let lengths: Vec<f64> = neck.first.plies.iter().chain(&neck.second.plies).map(|ply| ply.length).collect();
    assert_eq!((lengths.len(), neck.sewings), (3, 1));
    assert!(lengths.iter().all(|length| (length - 460.0).abs() < 1e-6), "{lengths:?}");
    // Two fronts, a back and both collars are one thing.
    let surface = size.sewn.surface.as_ref().expect("all is known");
    assert_eq!((surface.faces.len(), surface.components().len()), (5, 1));
    // Without the under collar, which lies on the other: four discs, glued at two shoulders, at two sides and along the neck to
    // both fronts and the back between them, 7 arcs, round two points where a shoulder comes to the neck. Euler: 4 - 7 + 2 = 2
    // less three rims, both armholes and the rest: 4 x 30 cm of hem, 2 x 50 of front edges, and 6 + 46 + 6 of the collar.
    assert_eq!(rims(vest), [ARMHOLE, ARMHOLE, 27800]);
}

#[test]
fn a_sheet_says_that_both_are_taken_at_once() {
    let vest = vest(PAIR, BOTH);
    for (language, words) in
        [(Language::English, " at once, one on the other."), (Language::German, " zugleich, übereinander.")]
    {
        let is_said = with_texts(&vest, language, |_, texts| {
            let all = texts.iter().flat_map(|text| &text.sentences).flat_map(|sentence| &sentence.0);
            all.filter(|run| matches!(run, Run::Words(said) if said.ends_with(words))).count()
        });
        assert_eq!(is_said, 1, "{words}");
    }
}

/// Named once both copies are sewn one after the other, each to half of the neck: 46 cm to 15 + 8 = 23.
#[test]
fn named_once_they_are_told_to_be_too_long_and_how_to_say_it() {
    for two in [TWO, PAIR] {
        let told = told(&vest(two, "collar.bottom"));
        let unequal = told.iter().find(|(slug, _)| *slug == "seam/unequal");
        let (_, help) = unequal.unwrap_or_else(|| panic!("{told:?}"));
        assert!(
            help.starts_with(
                "if both of collar lie on one another there, name one for each ply: collar.bottom and collar.bottom; or"
            ),
            "{help}"
        );
    }
}

#[test]
fn one_collar_is_no_two_plies() {
    let told = told(&vest("cut 1; outline rectangle 46 by 6", BOTH));
    assert!(
        told.iter().any(|(slug, help)| *slug == "edge/twice"
            && help.ends_with("or cut 2 of collar, if so many lie on one another there")),
        "{told:?}"
    );
}

/// Of halves on the fold an edge that meets itself is left and right.
#[test]
fn what_is_cut_on_the_fold_is_not_told_apart() {
    let told = told(&vest("cut 2 on fold left; outline rectangle 23 by 6", BOTH));
    let out = "draw collar whole and cut 2 of it, or one in each of two layers: layer under in serge { collar }, \
               outer.collar.bottom and under.collar.bottom";
    assert!(told.iter().any(|(slug, help)| *slug == "edge/twice" && help.ends_with(out)), "{told:?}");
}

/// In a row the same edge twice is a slip, whatever is cut.
#[test]
fn an_edge_twice_in_a_row_is_told() {
    let told = told(&vest(TWO, "collar.bottom + collar.bottom"));
    assert!(told.iter().any(|(slug, _)| *slug == "edge/twice"), "{told:?}");
}

/// Both ways out work: drawn whole, and one in each of two layers.
#[test]
fn halves_on_the_fold_in_two_layers() {
    let half = "cut 1 on fold left; outline rectangle 23 by 6";
    let neck = "outer.collar.bottom and under.collar.bottom";
    let text = vest_text("cut 2 mirrored", half, neck, OPEN)
        .replace("layer outer", "layer under in serge { collar }\nlayer outer")
        .replace(
            "collar.left + collar.top + collar.right to collar.left + collar.top + collar.right",
            "outer.collar to under.collar along top + right",
        )
        .replace(" { matching collar.bottom_right with front.neck_centre }", "");
    let vest = of(&text);
    assert_eq!(told(&vest), []);
    assert_eq!(rims(&vest), [ARMHOLE, ARMHOLE, 27800]);
}

/// A neck that is closed all round brings both ends of each collar to one place, and the collars are no rings for that. By hand
/// the neck is 2 x (15 + 8) = 46 cm round. Euler, without the under collar: three discs, glued at two shoulders, at two sides
/// and along the neck to the back and to the front on both sides of the collar's ends, 7 arcs, round two points: 3 - 7 + 2 = 2
/// less four rims: both armholes, 4 x 30 cm of hem, and round the collar 6 + 46 + 6.
#[test]
fn a_closed_neck_takes_two_collars_too() {
    for two in [TWO, PAIR] {
        let vest = vest_with("cut 1 on fold centre", two, BOTH, CLOSED);
        assert_eq!(told(&vest), []);
        assert_eq!(rims(&vest), [ARMHOLE, ARMHOLE, 5800, 12000]);
    }
}

/// Each of both closed to a ring: the rim is the upper edge alone.
#[test]
fn two_collars_that_are_rings() {
    let text = vest_text("cut 1 on fold centre", PAIR, BOTH, CLOSED).replace(
        "collar.left + collar.top + collar.right to collar.left + collar.top + collar.right",
        "collar.top to collar.top\nseam collar_ends  collar.left to collar.right",
    );
    let vest = of(&text);
    assert_eq!(told(&vest), []);
    assert_eq!(rims(&vest), [4600, ARMHOLE, ARMHOLE, 12000]);
}

/// A collar whose ends differ is cut as a pair; cut alike its two copies do not lie right sides together.
#[test]
fn a_collar_that_is_not_its_own_mirror_image_is_a_pair() {
    let shaped = "\n  point bottom_left = (0, 0)\n  point bottom_right = (46, 0)\n  point top_right = (48, 9)\n  point top_left = (0, 6)\n\
                  \x20 outline from bottom_left { bottom to bottom_right; right to top_right; top to top_left; left to bottom_left }\n";
    assert_eq!(told(&vest(&format!("cut 2 mirrored{shaped}"), BOTH)), []);
    let told = told(&vest(&format!("cut 2{shaped}"), BOTH));
    assert!(told.iter().any(|(slug, _)| *slug == "pair/same"), "{told:?}");
}

/// An upper and an under collar drawn apart, in one layer, have the same rims.
#[test]
fn two_pieces_in_one_layer() {
    let text = vest_text(
        "cut 2 mirrored",
        "cut 1; outline rectangle 46 by 6",
        "collar.bottom and under.bottom",
        OPEN,
    )
    .replace(
        "back, collar }",
        "back, collar, under }\npiece under \"Under collar\" { cut 1; outline copy of collar }",
    )
    .replace(
        "collar.left + collar.top + collar.right to collar.left + collar.top + collar.right",
        "collar to under along left + top + right",
    );
    let vest = of(&text);
    assert_eq!(told(&vest), []);
    assert_eq!(rims(&vest), [ARMHOLE, ARMHOLE, 27800]);
}

/// Each of these slips in a sound vest is told.
#[test]
fn slips_in_both_forms_are_told() {
    let edge = "collar.left + collar.top + collar.right to collar.left + collar.top + collar.right";
    let slips = [
        ("rectangle 46", "rectangle 45", "seam/unequal"),
        (BOTH, "collar.bottom and collar.bottom and collar.bottom", "seam/pairing"),
        (BOTH, "collar.bottom and collar.top", "edge/twice"),
        (BOTH, "collar.bottom on left and collar.bottom on left", "edge/twice"),
        ("matching collar.bottom_right", "matching collar.top_right", "seam/matching"),
        (edge, "collar.left + collar.top to collar.left + collar.top", "edge/loose"),
        (edge, "collar.left + collar.top to collar.left + collar.right", "seam/pairing"),
        ("cut 2 mirrored; outline", "cut 1; outline", "seam/pairing"),
    ];
    for (front, hemmed) in [("cut 2 mirrored", OPEN), ("cut 1 on fold centre", CLOSED)] {
        let sound = vest_text(front, PAIR, BOTH, hemmed);
        for (was, is, slug) in slips {
            let told = told(&of(&sound.replace(was, is)));
            assert!(sound.contains(was) && told.iter().any(|(own, _)| *own == slug), "{is}: {told:?}");
        }
    }
}

/// Two cuffs of two plies each, that are not their own mirror image: two pairs, of which each sleeve takes one.
fn cuffs(count: &str) -> Compiled {
    of(&format!(
        "garment \"Mess jacket's sleeves\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" {{ width 150 }}\n\
         layer outer in serge {{ sleeve, cuff }}\n\
         piece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 30 by 50 }}\n\
         piece cuff \"Cuff\" {{\n  {count}\n  point top_left = (0, 0)\n  point top_right = (30, 0)\n\
         \x20 point low_right = (30, -11)\n  point low_left = (0, -8)\n\
         \x20 outline from top_left {{ top to top_right; right to low_right; bottom to low_left; left to top_left }}\n}}\n\
         seam sleeve_side  sleeve.left to sleeve.right\n\
         seam cuff_edge    cuff.left + cuff.bottom + cuff.right to cuff.left + cuff.bottom + cuff.right\n\
         seam cuff_on      cuff.top and cuff.top to sleeve.bottom {{ matching cuff.top_left with sleeve.bottom_left }}\n\
         finish sleeve.top  bound 1\n"
    ))
}

/// By hand the lower edge of a cuff is the root of 30² + 3² long, 30.1496 cm, and its rim with both ends 49.1496.
#[test]
fn two_pairs_are_an_upper_and_an_under_cuff_of_each_sleeve() {
    let sound = cuffs("cut 4 mirrored");
    assert_eq!(told(&sound), []);
    assert_eq!(rims(&sound), [3000, 3000, 4915, 4915]);
    let surface = sound.sizes[0].sewn.surface.as_ref().expect("all is known");
    let mut components: Vec<usize> = surface.components().iter().map(Vec::len).collect();
    components.sort_unstable();
    assert_eq!(components, [3, 3]);
    for (count, slug) in
        [("cut 4", "pair/same"), ("cut 2 mirrored", "seam/unequal"), ("cut 6 mirrored", "seam/pairing")]
    {
        let told = told(&cuffs(count));
        assert!(told.iter().any(|(own, _)| *own == slug), "{count}: {told:?}");
    }
}

/// Halves of two hoods come together in the middle: an edge of them that meets itself may be a crown, left to right, or a
/// face, the one hood to the other.
#[test]
fn halves_that_meet_in_the_middle_are_not_told_apart() {
    let edge = "seam collar_edge  collar.left + collar.top + collar.right to collar.left + collar.top + collar.right";
    let hood = "cut 4 mirrored; outline rectangle 23 by 30";
    let seams = "seam crown  collar.left to collar.left\nseam face  collar.top + collar.right to collar.top + collar.right";
    let text = vest_text("cut 2 mirrored", hood, BOTH, OPEN).replace(edge, seams);
    let told_of = told(&of(&text));
    let out = "if 2 lie on one another there, one pair in each of two layers: layer under in serge { collar }, cut 2 mirrored, \
               outer.collar.bottom and under.collar.bottom";
    assert!(told_of.iter().any(|(slug, help)| *slug == "edge/twice" && help.ends_with(out)), "{told_of:?}");
    let in_layers = text
        .replace("cut 4 mirrored", "cut 2 mirrored")
        .replace("layer outer", "layer under in serge { collar }\nlayer outer")
        .replace(
            "collar.top + collar.right to collar.top + collar.right",
            "outer.collar to under.collar along top + right",
        )
        .replace(BOTH, "outer.collar.bottom and under.collar.bottom");
    assert_eq!(told(&of(&in_layers)), []);
}

/// Four halves of collars, two end to end in each ply along what is there but once: those that a seam joins lie on one another.
/// By hand the rim goes 30 + 46 + 30 cm round the bib and 2 x (6 + 23 + 6) round its collars.
#[test]
fn several_copies_end_to_end_in_each_ply() {
    let bib = of("garment \"Mess bib\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" { width 150 }\n\
                  layer outer in serge { bib, collar }\npiece bib \"Bib\" { cut 1; outline rectangle 46 by 30 }\n\
                  piece collar \"Collar\" { cut 4; outline rectangle 23 by 6 }\n\
                  seam collar_edge  collar.left + collar.top + collar.right to collar.left + collar.top + collar.right\n\
                  seam neck  collar.bottom and collar.bottom to bib.top { matching collar.bottom_left with bib.top_left }\n\
                  finish bib.left, bib.bottom, bib.right  hem 1\n");
    assert_eq!(told(&bib), []);
    assert_eq!(rims(&bib), [17600]);
}
