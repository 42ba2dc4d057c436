//! What is sewn every day and was refused: a lining felled to a zip, a cord laid into piping, a seam through what is lined. Each
//! passes, and what lies beside it and is wrong is told.

use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, helps, in_memory, mistake, of, said, told, with};
use fustian::compile;
use fustian::emit::with_steps;
use fustian::report::Severity;
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
        let run =
            format!("lining.back.left {long} from bottom_left to lining.back.left {long} from bottom_left");
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

/// With a skirt, into which the zip goes on below the waist; the lining of the bodice is felled to what lies above it.
fn with_a_skirt() -> String {
    with(
        FELLED,
        &[
            (
                "outer.back.left 30 from top_left to outer.back.left 30 from top_left",
                "outer.back.left + skirt.left 20 from top_left to outer.back.left + skirt.left 20 from top_left",
            ),
            ("zipper concealed 30", "zipper concealed 70"),
            (
                "layer outer in linen { front, back }",
                "layer outer in linen { front, back, skirt, skirt_front }",
            ),
            (
                "trim lining.front.bottom, lining.back.bottom by 2\n",
                "piece skirt_front \"Skirt front\" { cut 1 on fold left; outline rectangle chest / 4 + 3 by 40 }\n\
                 piece skirt \"Skirt back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 40 }\n\
                 seam skirt_side skirt_front.right to skirt.right\n\
                 seam waist skirt_front.top + skirt.top to outer.front.bottom + outer.back.bottom { matching skirt.top_left with outer.back.bottom_left }\n",
            ),
            (
                "seam centre       outer.back.left to outer.back.left",
                "seam centre       skirt.left to skirt.left",
            ),
            (
                "seam lining_back  lining.back.left 18 from bottom_left to lining.back.left 18 from bottom_left\n",
                "",
            ),
            (
                "finish outer.front.bottom, outer.back.bottom    hem 3",
                "finish skirt_front.bottom, skirt.bottom hem 3",
            ),
            (
                "finish lining.front.bottom, lining.back.bottom  hem 2",
                "finish lining.front.bottom, lining.back.bottom turned under onto waist",
            ),
        ],
    )
}

#[test]
fn a_lining_is_felled_to_the_edges_of_a_zip_from_joint_to_joint() {
    let text = with_a_skirt();
    assert_eq!(said(&text), NOTHING, "{:?}", told(&text));
    let longer = with(
        &text,
        &[("finish lining.back.left ", "lengthen lining.back at chest_line by 4\nfinish lining.back.left ")],
    );
    let longer = with(
        &longer,
        &[(
            "piece back \"Back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 50 }",
            "piece back \"Back\" { cut 2 mirrored; outline rectangle chest / 4 + 3 by 50; line chest_line across at (0, 25) }",
        )],
    );
    assert!(said(&longer).contains(&"finish/onto"), "{:?}", told(&longer));
}

#[test]
fn what_is_felled_to_a_zip_comes_after_it_and_no_button_takes_it() {
    let early =
        "steps {\n  \"Early\" { sew side, top, lining_back; finish lining.back.left; sew back_zip }\n}\n";
    let found = told(&format!("{FELLED}{early}"));
    assert!(
        found.iter().any(|(slug, title)| *slug == "step/early" && title.contains("back_zip")),
        "{found:?}"
    );
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
            (
                "piping.bottom and piping.top and top.bottom + top.right + top.top + top.left to under.bottom",
                "piping.bottom and piping.top to under.bottom",
            ),
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

/// A tote of two layers that hang in one another by their lower edges; a lined tab is caught in the seam of the outer.
const TABBED: &str = r#"garment "Galley tote"
units cm
allowance 1
fabric canvas "boat canvas" { width 150; kind woven firm }
fabric cotton "striped cotton" { width 140; kind woven firm }
layer outer in canvas { front, back, tab }
layer lining in cotton { front, back, tab }
piece front "Front" { cut 1; outline rectangle 40 by 30 }
piece back "Back" { cut 1; outline rectangle 40 by 30 }
piece tab "Tab" { cut 1; outline rectangle 6 by 20 }
seam top  front.top to back.top {
  matching front.top_left with back.top_right
  caught outer.tab.top on outer.back.top 4 from top_left
  caught lining.tab.top on outer.back.top 4 from top_left
}
seam under     outer.front.bottom to lining.front.bottom
seam tab_edge  outer.tab.left + outer.tab.bottom + outer.tab.right to lining.tab.left + lining.tab.bottom + lining.tab.right
finish front.left, front.right, back.left, back.right, back.bottom  overlocked
"#;

#[test]
fn a_seam_of_both_layers_catches_in_the_one_that_is_named() {
    assert_eq!(said(TABBED), NOTHING, "{:?}", told(TABBED));
    // What is of the named layer need not say so twice.
    assert_eq!(said(&with(TABBED, &[("caught outer.tab.top", "caught tab.top")])), NOTHING);
    // Named in no layer it would be caught twice, once in each.
    let open =
        with(TABBED, &[("on outer.back.top 4", "on back.top 4"), ("on outer.back.top 4", "on back.top 4")]);
    assert!(said(&open).contains(&"edge/twice"), "{:?}", told(&open));
}

#[test]
fn each_copy_that_is_caught_has_its_place() {
    let two = with(TABBED, &[("piece tab \"Tab\" { cut 1;", "piece tab \"Tab\" { cut 2 mirrored;")]);
    // Both in one place are 12 where there is room for one of 6.
    let found = told(&two);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "seam/plies");
    assert!(found[0].1.contains("differ by 6 cm"), "{found:?}");
    let help = helps(&two);
    assert!(help[0].contains("tab.top once more, for a place of its own"), "{help:?}");
    let apart = with(
        &two,
        &[(
            "  caught lining.tab.top on outer.back.top 4 from top_left\n",
            "  caught lining.tab.top on outer.back.top 4 from top_left\n  caught outer.tab.top on outer.back.top 28 from top_left\n  caught lining.tab.top on outer.back.top 28 from top_left\n",
        )],
    );
    assert_eq!(said(&apart), NOTHING, "{:?}", told(&apart));
    // On one another they are two plies each.
    let over = with(
        &two,
        &[
            (
                "caught outer.tab.top on outer.back.top 4 from top_left\n",
                "caught outer.tab.top on outer.back.top 4 from top_left\n  caught outer.tab.top on outer.back.top 4 from top_left\n",
            ),
            (
                "caught lining.tab.top on outer.back.top 4 from top_left\n",
                "caught lining.tab.top on outer.back.top 4 from top_left\n  caught lining.tab.top on outer.back.top 4 from top_left\n",
            ),
        ],
    );
    assert_eq!(said(&over), NOTHING, "{:?}", told(&over));
}

/// A box of a front and the strip round it, of two pieces: the ring of its four edges is sewn to that of two.
const BOXED: &str = r#"garment "Chart box"
units cm
allowance 1
fabric canvas "boat canvas" { width 200; kind woven firm }
layer outer in canvas { front, gusset, lid }
piece front "Front" { cut 1; outline rectangle 30 by 40 }
piece gusset "Sides and bottom" { cut 1; outline rectangle 110 by 12 }
piece lid "Top" { cut 1; outline rectangle 30 by 12 }
seam ends_left   gusset.right to lid.left { matching gusset.bottom_right with lid.bottom_left }
seam ends_right  gusset.left to lid.right { matching gusset.bottom_left with lid.bottom_right }
seam round  front.left + front.bottom + front.right + front.top to gusset.bottom + lid.bottom {
  matching front.top_right with gusset.bottom_left
}
finish gusset.top, lid.top  hem 1
"#;

#[test]
fn an_inner_joint_of_a_ring_says_how_it_lies() {
    // 40 + 30 + 40 are the strip's 110, so that its end meets the upper right corner once it begins at the upper left.
    assert_eq!(said(BOXED), NOTHING, "{:?}", told(BOXED));
    assert_eq!(
        said(&with(
            BOXED,
            &[("front.top_right with gusset.bottom_left", "front.top_left with gusset.bottom_right")]
        )),
        NOTHING
    );
    // With its left and its right exchanged the front would lie wrong side out.
    let inside_out = with(
        BOXED,
        &[("front.top_right with gusset.bottom_left", "front.top_right with gusset.bottom_right")],
    );
    assert_eq!(said(&inside_out), ["seam/ends"], "{:?}", told(&inside_out));
    let help = helps(&inside_out);
    assert!(help[0].contains("instead of what is matched there: matching front.top_left with"), "{help:?}");
    assert!(!help[0].contains("the other way round"), "{help:?}");
    let (_, rest) = help[0].split_once("matching ").expect("it says what to match");
    let way: String = rest.split([';', ',']).next().unwrap_or_default().trim().to_owned();
    let mended = with(BOXED, &[("front.top_right with gusset.bottom_left", &way)]);
    assert_eq!(said(&mended), NOTHING, "{way}");
}

#[test]
fn a_layer_of_straps_names_them() {
    let bag = "garment \"Galley bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n\
        fabric webbing \"cotton webbing\" { width 3 }\nlayer outer in canvas { bag }\nlayer handles in webbing { handle }\n\
        piece bag \"Bag\" { cut 2; outline rectangle 40 by 30; mark low = (8, 20); mark high = (32, 20) }\n\
        seam round  bag.left + bag.bottom + bag.right to bag.left + bag.bottom + bag.right\nfinish bag.top  hem 2\n\
        strap handle \"Handle\" 50 by 3 in handles { from bag.low to bag.high; sewn 4, boxed }\n";
    assert_eq!(said(bag), NOTHING);
    let empty = with(bag, &[("{ handle }", "{ }")]);
    assert_eq!(said(&empty), ["syntax/expected"], "{:?}", told(&empty));
    assert!(helps(&empty)[0].contains("straps by their names"), "{:?}", helps(&empty));
}

#[test]
fn a_lining_whose_ring_is_open_beside_a_zip_is_told_as_that() {
    let waist =
        with(&with_a_skirt(), &[("opening front.top + back.top", "opening front.bottom + back.bottom")]);
    assert_eq!(said(&waist), NOTHING, "{:?}", told(&waist));
    let open = with(&waist, &[("turned under onto back_zip", "overlocked")]);
    let found = told(&open);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "opening/ring");
    assert!(found[0].1.contains("are no ring in lining: they end at lining.back.bottom_left"), "{found:?}");
    let help = helps(&open);
    assert!(
        help[0].starts_with("fell it to the zip as well: finish lining.back.left turned under onto back_zip"),
        "{help:?}"
    );
    // The other way out.
    let outer = with(
        &open,
        &[("opening front.bottom + back.bottom", "opening outer.front.bottom + outer.back.bottom")],
    );
    assert_eq!(said(&outer), NOTHING);
}

#[test]
fn a_piece_cut_twice_and_what_is_placed_on_it_are_one_mistake() {
    let placed = format!(
        "{}piece pocket \"Pocket\" {{ cut 1; outline rectangle 10 by 10 }}\nplace pocket on front {{ corner bottom_left at corner; topstitch left, bottom, right }}\nfinish pocket.top hem 2\n",
        with(
            BOXED,
            &[
                ("layer outer in canvas { front,", "layer outer in canvas { pocket, front,"),
                ("outline rectangle 30 by 40 }", "outline rectangle 30 by 40; mark corner = (10, 10) }"),
                ("piece front \"Front\" { cut 1;", "piece front \"Front\" { cut 2;"),
                ("front.top_right with gusset.bottom_left", "front.top_left with gusset.bottom_right"),
            ]
        )
    );
    assert_eq!(said(&placed), ["seam/unequal"], "{:?}", told(&placed));
    assert!(
        helps(&placed)[0].starts_with("both of front are sewn there end to end: write cut 1"),
        "{:?}",
        helps(&placed)
    );
    assert_eq!(said(&with(&placed, &[("cut 2", "cut 1")])), NOTHING);
}

#[test]
fn what_one_zip_takes_off_several_seams_is_told_once() {
    let lidded = |showing: &str| {
        let zip = format!("closure zip front_lid.top to back_lid.bottom {{ zipper closed 30{showing} }}\n");
        with(
            BOXED,
            &[
                (
                    "layer outer in canvas { front, gusset, lid }",
                    "layer outer in canvas { front, gusset, front_lid, back_lid }",
                ),
                (
                    "piece lid \"Top\" { cut 1; outline rectangle 30 by 12 }\n",
                    &format!(
                        "piece front_lid \"Front of the top\" {{ cut 1; outline rectangle 30 by 6 }}\npiece back_lid \"Back of the top\" {{ cut 1; outline rectangle 30 by 6 }}\n{zip}"
                    ),
                ),
                (
                    "gusset.right to lid.left { matching gusset.bottom_right with lid.bottom_left }",
                    "gusset.right to front_lid.left + back_lid.left { matching gusset.bottom_right with front_lid.bottom_left }",
                ),
                (
                    "gusset.left to lid.right { matching gusset.bottom_left with lid.bottom_right }",
                    "gusset.left to front_lid.right + back_lid.right { matching gusset.bottom_left with front_lid.bottom_right }",
                ),
                ("gusset.bottom + lid.bottom", "gusset.bottom + front_lid.bottom"),
                ("finish gusset.top, lid.top", "finish gusset.top, back_lid.top"),
            ],
        )
    };
    let told_so = |text: &str| said(text).iter().filter(|slug| **slug == "alter/one-side").count();
    // Both ends of the top are 5 narrower than the strip there.
    assert_eq!(
        [told_so(&lidded("")), told_so(&lidded(" showing 5"))],
        [0, 1],
        "{:?}",
        told(&lidded(" showing 5"))
    );
}

/// Long johns whose waist is drawn far too narrow: that is what is told, not what follows of elastic and figures.
const NARROW: &str = r#"garment "Winter watch slip"
units cm
allowance 1
sizes S, M
body { waist 76, 84; hip 94, 102 }
fabric jersey "jersey" { width 150; kind knit; stretch 50% across, 20% along }
layer outer in jersey { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle hip / 4 by 50 }
piece back "Back" { cut 1 on fold left; outline rectangle hip / 4 by 50 }
seam side  front.right to back.right { stitch 504 }
finish front.top, back.top  casing 3.5 for elastic 3 of waist * 90% { stitch 406 }
finish front.bottom, back.bottom  hem 2 { stitch 406 }
opening front.top + back.top  passes hip
measure hip_finished "Finished hip" against hip = total(front.top + back.top)
"#;

#[test]
fn a_ring_far_too_small_is_told_once() {
    assert_eq!(said(NARROW), NOTHING, "{:?}", told(NARROW));
    let narrow = with(
        NARROW,
        &[
            ("rectangle hip / 4 by", "rectangle hip / 10 by"),
            ("rectangle hip / 4 by", "rectangle hip / 10 by"),
        ],
    );
    assert_eq!(said(&narrow), ["opening/passes"], "{:?}", told(&narrow));
    // Elastic too long alone is that.
    let long = with(NARROW, &[("of waist * 90%", "of waist * 150%")]);
    assert!(said(&long).contains(&"elastic/long"), "{:?}", told(&long));
}

/// A skirt gathered onto a bodice with a dart in its waist.
const DARTED: &str = r#"garment "Wheelhouse pinafore"
units cm
allowance 1
sizes S, M
body { chest 56, 60; waist 52, 55 }
fabric chambray "blue chambray" { width 140; kind woven supple }
layer outer in chambray { front, back, skirt_front, skirt_back }
piece front "Front" {
  cut 1 on fold left
  outline rectangle chest / 4 + 3.2 by 18
  dart d on bottom at 8 from right width 1.2 to (8, 9) pressed toward left trued
}
piece back "Back" { cut 1 on fold left; outline rectangle chest / 4 + 2 by 18 }
piece skirt_front "Skirt front" { cut 1 on fold left; outline rectangle (chest / 4 + 2) * 1.7 by 32 }
piece skirt_back "Skirt back" { cut 1 on fold left; outline rectangle (chest / 4 + 2) * 1.7 by 32 }
seam side        front.right to back.right
seam skirt_side  skirt_front.right to skirt_back.right
seam waist  skirt_front.top + skirt_back.top to front.bottom + back.bottom gathering 1.5..1.9 { matching skirt_front.top_left with front.bottom_left }
finish front.top, back.top  bound 1
finish skirt_front.bottom, skirt_back.bottom  hem 4
opening front.bottom + back.bottom  passes chest
"#;

#[test]
fn a_dart_ten_times_too_wide_is_told_with_one_mistake() {
    assert_eq!(said(DARTED), NOTHING, "{:?}", told(DARTED));
    let wide = with(DARTED, &[("width 1.2", "width 12")]);
    let found = told(&wide);
    let slugs: Vec<&str> = found.iter().map(|one| one.0).collect();
    assert_eq!(slugs, ["dart/blunt", "seam/gather"], "{found:?}");
    // Without the seam the opening stays told.
    let loose = with(&wide, &[("gathering 1.5..1.9", "gathering 1.5..4")]);
    assert!(said(&loose).contains(&"opening/passes"), "{:?}", told(&loose));
}

#[test]
fn a_stitch_in_the_header_is_that_of_every_seam_that_says_none() {
    let jersey = mistake("stitch-breaks-unsaid");
    let header =
        |stitch: &str| with(&jersey, &[("allowance 1\n", &format!("allowance 1\nstitch {stitch}\n"))]);
    assert_eq!(said(&header("504")), NOTHING, "{:?}", told(&header("504")));
    assert_eq!(said(&header("overlock")), NOTHING);
    // A lockstitch is told where it is said.
    let locked = header("301");
    assert_eq!(said(&locked), ["stitch/breaks"]);
    let compiled = of(&locked);
    let told_at =
        compiled.diagnostics.iter().find(|one| one.slug() == "stitch/breaks").expect("it is told").span();
    assert_eq!(compiled.map.text(told_at), "301");
    // What a seam says itself holds.
    let own = with(&locked, &[("front.side to back.side\n", "front.side to back.side { stitch 504 }\n")]);
    assert_eq!(said(&own), NOTHING, "{:?}", told(&own));
    let own =
        with(&header("504"), &[("front.side to back.side\n", "front.side to back.side { stitch 301 }\n")]);
    assert_eq!(said(&own), ["stitch/breaks"]);
    let numbers = |text: &str| -> Vec<Option<u16>> {
        of(text).garment.seams.iter().map(|seam| seam.stitch.as_ref().map(|stitch| stitch.number)).collect()
    };
    assert_eq!(numbers(&own), [Some(301), Some(504)]);
    assert_eq!(numbers(&jersey), [None, None]);
    assert!(said(&header("999")).contains(&"name/unknown"));
    // One that joins nothing is told once.
    assert_eq!(said(&header("103")).iter().filter(|slug| **slug == "stitch/unfit").count(), 1);
}

#[test]
fn a_variation_changes_and_drops_the_stitch() {
    let base = with(&mistake("stitch-breaks-unsaid"), &[("allowance 1\n", "allowance 1\nstitch 504\n")]);
    let number = |line: &str| {
        let text = format!("variation \"Vest again\" of \"base.fus\"\n{line}\n");
        let loader = in_memory(&[("base.fus", &base), ("own.fus", &text)]);
        let compiled = compile(&loader, "own.fus");
        let mistakes = compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake).count();
        (mistakes, compiled.garment.seams[0].stitch.as_ref().map(|stitch| stitch.number))
    };
    assert_eq!(number("replace stitch 401"), (0, Some(401)));
    assert_eq!(number("drop stitch"), (0, None));
    assert_eq!(number("").1, Some(504));
    // Said anew without replacing it, it is told.
    assert_eq!(number("stitch 401").0, 1);
}

#[test]
fn a_buckle_is_sewn_to_the_end_of_a_strap_that_hangs_free() {
    let wrong = mistake("edge-twice-strap");
    assert_eq!(said(&wrong), ["edge/twice"]);
    assert_eq!(helps(&wrong), ["name the end that hangs free: short.top"]);
    let free = with(&wrong, &[("short.bottom to long.top", "short.top to long.top")]);
    assert_eq!(said(&free), NOTHING, "{:?}", told(&free));
    // 2.5 wide, it does not go through one of 15 mm.
    assert_eq!(said(&with(&free, &[("buckle 25mm", "buckle 15mm")])), ["closure/buckle"]);
    let sewn = with(&free, &[("from bag.high to free", "from bag.high to bag.low")]);
    assert!(said(&sewn).contains(&"edge/twice"), "{:?}", told(&sewn));
    // One for each of the two that are cut of the bag.
    let english = read_of(&free, Language::ALL[0]);
    assert!(english.contains("Sew the buckle") && english.contains("goes through it"), "{english}");
}

#[test]
fn what_is_caught_in_a_layer_that_lacks_it_is_told_to_be_caught_in_the_other() {
    let one = with(
        TABBED,
        &[
            ("layer lining in cotton { front, back, tab }", "layer lining in cotton { front, back }"),
            ("caught outer.tab.top on outer.back.top 4", "caught tab.top on back.top 4"),
            ("  caught lining.tab.top on outer.back.top 4 from top_left\n", ""),
            (
                "seam tab_edge  outer.tab.left + outer.tab.bottom + outer.tab.right to lining.tab.left + lining.tab.bottom + lining.tab.right\n",
                "finish tab.left, tab.bottom, tab.right  overlocked\n",
            ),
        ],
    );
    let found = told(&one);
    assert!(!found.is_empty(), "it is loose in the lining");
    let mended = with(&one, &[("on back.top 4", "on outer.back.top 4")]);
    assert_eq!(said(&mended), NOTHING, "{:?}", told(&mended));
}
