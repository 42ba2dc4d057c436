//! Two copies of one piece, cut alike, that lie on one another in a seam: an upper and an under collar.

use crate::sheet_sentences::with_texts;
use crate::workbench::in_memory;
use fustian::sheet::{Language, Run};
use fustian::{Compiled, compile};

/// The mess crew's vest with a collar of two plies: round the neck and its outer edge are by hand 2 x (15 + 8) cm, since each
/// half of the neck is straight and 15 and 8 cm long.
fn vest(collar: &str, neck: &str) -> Compiled {
    let text = format!(
        "garment \"Mess vest\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" {{ width 150 }}\n\
         layer outer in serge {{ front, back, collar }}\n\
         piece front \"Front\" {{\n  cut 2 mirrored\n  point low_centre = (0, 0)\n  point low_side = (30, 0)\n\
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
         finish front.hem, back.hem, front.centre  hem 2\nfinish front.armhole, back.armhole  bound 1\n"
    );
    compile(&in_memory(&[("vest.fus", &text)]), "vest.fus")
}

fn told(compiled: &Compiled) -> Vec<(&'static str, String)> {
    let all = compiled.diagnostics.iter().filter(|one| !["steps/none", "seam/kink"].contains(&one.slug()));
    all.map(|one| (one.slug(), one.help_words().unwrap_or_default())).collect()
}

const TWO: &str = "cut 2; outline rectangle 46 by 6";

#[test]
fn two_collars_that_are_cut_alike_go_into_the_neck_together() {
    let vest = vest(TWO, "collar.bottom and collar.bottom");
    assert_eq!(told(&vest), []);
    let size = &vest.sizes[0];
    let neck = size.sewn.seams.iter().find(|sewn| &*vest.garment.seam(sewn.seam).name == "neck").unwrap();
    let lengths: Vec<f64> = neck.first.plies.iter().chain(&neck.second.plies).map(|ply| ply.length).collect();
    assert_eq!((lengths.len(), neck.sewings), (3, 1));
    assert!(lengths.iter().all(|length| (length - 460.0).abs() < 1e-6), "{lengths:?}");
    // Two fronts, a back and both collars are one thing.
    let surface = size.sewn.surface.as_ref().expect("all is known");
    assert_eq!((surface.faces.len(), surface.components().len()), (5, 1));
}

#[test]
fn a_sheet_says_that_both_are_taken_at_once() {
    let vest = vest(TWO, "collar.bottom and collar.bottom");
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
    let told = told(&vest(TWO, "collar.bottom"));
    let unequal = told.iter().find(|(slug, _)| *slug == "seam/unequal");
    let (_, help) = unequal.unwrap_or_else(|| panic!("{told:?}"));
    assert!(
        help.starts_with(
            "if both of collar lie on one another there, name one for each ply: collar.bottom and collar.bottom; or"
        ),
        "{help}"
    );
}

#[test]
fn one_collar_is_no_two_plies() {
    let told = told(&vest("cut 1; outline rectangle 46 by 6", "collar.bottom and collar.bottom"));
    assert!(
        told.iter().any(|(slug, help)| *slug == "edge/twice"
            && help.ends_with("or cut 2 of collar, if so many lie on one another there")),
        "{told:?}"
    );
}

/// Of halves on the fold an edge that meets itself is left and right.
#[test]
fn what_is_cut_on_the_fold_is_not_told_apart() {
    let told =
        told(&vest("cut 2 on fold left; outline rectangle 23 by 6", "collar.bottom and collar.bottom"));
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
