//! What is sewn every day and was refused: a lining felled to a zip, a cord laid into piping, a seam through what is lined. Each
//! passes, and what lies beside it and is wrong is told.

use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, of, said, told, with};
use fustian::emit::with_steps;
use fustian::sheet::Language;

/// A pinafore with a zip behind, its lining felled to the zip: of 50 long the upper 30 are the zip's.
const FELLED: &str = r#"garment "Galley pinafore"
units cm
allowance 1
sizes S, M
body { chest 84, 92 }
fabric linen "blue linen" { width 150; kind woven supple }
fabric lawn "white lawn" { width 150; kind woven supple }
layer outer in linen { front, back }
layer lining in lawn { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle chest / 4 + 3 by 50 }
piece back "Back" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 50 }
trim lining.front.bottom, lining.back.bottom by 2
closure back_zip  outer.back.left 30 from top_left to outer.back.left 30 from top_left { zipper concealed 30 }
seam side         front.right to back.right
seam centre       outer.back.left to outer.back.left
seam lining_back  lining.back.left 18 from bottom_left to lining.back.left 18 from bottom_left
seam top          outer.front.top + outer.back.top to lining.front.top + lining.back.top
finish lining.back.left                turned under onto back_zip
finish outer.front.bottom, outer.back.bottom    hem 3
finish lining.front.bottom, lining.back.bottom  hem 2
opening front.top + back.top  passes chest
"#;

#[test]
fn a_lining_is_felled_to_a_zip_about_as_long() {
    assert_eq!(said(FELLED), NOTHING);
    // Of 48 the seam takes so much, and the rest is felled onto 30: half a centimetre is eased by hand, more is not.
    let seam = |long: &str| {
        let run = format!("lining.back.left {long} from bottom_left to lining.back.left {long} from bottom_left");
        let was = "lining.back.left 18 from bottom_left to lining.back.left 18 from bottom_left";
        told(&with(FELLED, &[(was, &run)]))
    };
    assert_eq!(seam("17.6"), []);
    assert_eq!(seam("18.4"), []);
    let found = seam("15");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "finish/onto");
    assert!(found[0].1.contains("is 33 cm long, back_zip that it is felled onto 30 cm"), "{found:?}");
    let found = seam("21");
    assert_eq!(found[0].0, "finish/onto", "{found:?}");
    assert!(found[0].1.contains("is 27 cm long"), "{found:?}");
}

#[test]
fn a_lining_is_felled_to_the_edges_of_a_zip_from_joint_to_joint() {
    // The zip goes on below a waist; the lining of the bodice is felled to what lies above it.
    let text = with(
        FELLED,
        &[
            (
                "outer.back.left 30 from top_left to outer.back.left 30 from top_left",
                "outer.back.left + skirt.left 20 from top_left to outer.back.left + skirt.left 20 from top_left",
            ),
            ("zipper concealed 30", "zipper concealed 70"),
            ("layer outer in linen { front, back }", "layer outer in linen { front, back, skirt, skirt_front }"),
            (
                "trim lining.front.bottom, lining.back.bottom by 2\n",
                "piece skirt_front \"Skirt front\" { cut 1 on fold left; outline rectangle chest / 4 + 3 by 40 }\n\
                 piece skirt \"Skirt back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 40 }\n\
                 seam skirt_side skirt_front.right to skirt.right\n\
                 seam waist skirt_front.top + skirt.top to outer.front.bottom + outer.back.bottom { matching skirt.top_left with outer.back.bottom_left }\n",
            ),
            ("seam centre       outer.back.left to outer.back.left", "seam centre       skirt.left to skirt.left"),
            ("seam lining_back  lining.back.left 18 from bottom_left to lining.back.left 18 from bottom_left\n", ""),
            ("finish outer.front.bottom, outer.back.bottom    hem 3", "finish skirt_front.bottom, skirt.bottom hem 3"),
            ("finish lining.front.bottom, lining.back.bottom  hem 2", "finish lining.front.bottom, lining.back.bottom turned under onto waist"),
        ],
    );
    assert_eq!(said(&text), NOTHING, "{:?}", told(&text));
    let longer = with(&text, &[("finish lining.back.left ", "lengthen lining.back at chest_line by 4\nfinish lining.back.left ")]);
    let longer = with(&longer, &[("piece back \"Back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 50 }", "piece back \"Back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 50; line chest_line across at (0, 25) }")]);
    assert!(said(&longer).contains(&"finish/onto"), "{:?}", told(&longer));
}

#[test]
fn what_is_felled_to_a_zip_comes_after_it_and_no_button_takes_it() {
    let early = "steps {\n  \"Early\" { sew side, top, lining_back; finish lining.back.left; sew back_zip }\n}\n";
    let found = told(&format!("{FELLED}{early}"));
    assert!(found.iter().any(|(slug, title)| *slug == "step/early" && title.contains("back_zip")), "{found:?}");
    let buttons = "hooks 3";
    let text = with(FELLED, &[("zipper concealed 30", buttons)]);
    let found = told(&text);
    assert!(
        found.contains(&("finish/onto", "back_zip is no zip, and nothing is felled onto it".to_owned())),
        "{found:?}"
    );
}

#[test]
fn the_sheet_says_that_a_lining_is_felled_to_the_tape() {
    let [english, german] = [0, 1].map(|at| read_of(FELLED, Language::ALL[at]));
    assert!(english.contains("under and sew it by hand onto the tape of the back zip"), "{english}");
    assert!(english.contains("Keep it clear of the teeth."), "{english}");
    assert!(german.contains("von Hand auf das Band des Reißverschlusses"), "{german}");
}

/// A cushion whose seam takes in piping, a strip folded over a cord.
const PIPED: &str = r#"garment "Wheelhouse cushion"
units cm
allowance 1
fabric canvas "boat canvas" { width 150; kind woven firm }
layer outer in canvas { top, under, piping }
piece top "Top" { cut 1; outline rectangle 40 by 40 }
piece under "Under side" { cut 1; outline rectangle 40 by 40 }
piece piping "Piping" { cut 1; grain bias; outline rectangle 160 by 1.5; folded top to bottom }
seam ends   piping.left to piping.right { matching piping.bottom_left with piping.bottom_right }
seam round  piping.bottom and piping.top and top.bottom + top.right + top.top + top.left to under.bottom + under.right + under.top + under.left {
  matching piping.bottom_left with under.bottom_left
  matching top.bottom_left with under.bottom_left
  leaving gap 20 in the middle
}
cord filler 160 through piping.top ends 0 free
"#;

#[test]
fn a_cord_is_laid_into_piping_before_the_seam_that_closes_it() {
    assert_eq!(said(PIPED), NOTHING);
    let compiled = of(PIPED);
    let written = with_steps(&compiled.map, &compiled.garment, &compiled.sizes[0]).expect("an order");
    let at = |action: &str| written.find(action).unwrap_or_else(|| panic!("{action}: {written}"));
    assert!(at("sew ends") < at("thread filler") && at("thread filler") < at("sew round"), "{written}");
    // Said by hand it passes, and so does drawing it in afterwards.
    let steps = |text: &str, own: &str| {
        let turned = "turn through gap in round; slipstitch gap in round";
        said(&format!("{text}steps {{\n  \"Cushion\" {{ sew ends; {own}; {turned} }}\n}}\n"))
    };
    assert_eq!(steps(PIPED, "thread filler; sew round"), NOTHING);
    assert_eq!(steps(PIPED, "sew round; thread filler"), NOTHING);
    // A band that is sewn on, with no cloth behind it, is a channel only then.
    let band = with(
        PIPED,
        &[
            ("piping.bottom and piping.top and top.bottom + top.right + top.top + top.left to under.bottom", "piping.bottom and piping.top to under.bottom"),
            ("  matching top.bottom_left with under.bottom_left\n  leaving gap 20 in the middle\n", ""),
            ("layer outer in canvas { top, under, piping }", "layer outer in canvas { under, piping }"),
            ("piece top \"Top\" { cut 1; outline rectangle 40 by 40 }\n", ""),
        ],
    );
    let early = "steps {\n  \"Band\" { sew ends; thread filler; sew round }\n}\n";
    assert_eq!(said(&format!("{band}{early}")), ["step/early"]);
    let english = read_of(PIPED, Language::ALL[0]);
    assert!(english.contains("Lay the filler cord") && english.contains("into the fold of"), "{english}");
    assert!(!english.contains("Out of each end"), "{english}");
}
