//! What is done all round pieces that are sewn in a ring: finishes, rows, closures, and the joints one by one. Six panels are
//! 10 cm wide at the bottom, so that they are 60 cm round.

use crate::drafting::same;
use crate::workbench::{NOTHING, of, said, told, with};
use fustian::source::SourceMap;
use fustian::syntax::tidy::tidy;

const HAT: &str = "garment \"Oilskin hat\"
units cm
allowance 1
body { head 58 }
fabric oilskin \"oilskin\" { width 150; kind woven firm }
layer outer in oilskin { panel, curtain }
piece panel \"Panel\" {
  cut 6
  point low_left = (0, 0)
  point low_right = (10, 0)
  point top = (5, 18)
  outline from low_left { bottom to low_right; right to top curve leaving up; left to low_left curve arriving down }
}
piece curtain \"Neck curtain\" { cut 1; outline rectangle 60 by 20 }
seam panels panel.right to panel.left in a ring
seam ends curtain.left to curtain.right { matching curtain.top_left with curtain.top_right }
finish curtain.bottom hem 2
closure snap_on panel.bottom in a ring to curtain.top { snaps 12 of 10mm stand 1 }
opening panel.bottom in a ring passes head
steps {
  \"Halves\" { sew panels 1..2, panels 4..5; press panels 1..2 }
  \"Crown\" { sew panels 3, panels 6 }
  \"Curtain\" { sew ends; hem curtain.bottom; sew snap_on }
}
";

/// A finish of the panels instead of the snaps.
fn finished(words: &str) -> String {
    with(
        HAT,
        &[
            ("closure snap_on panel.bottom in a ring to curtain.top { snaps 12 of 10mm stand 1 }", words),
            ("finish curtain.bottom", "finish curtain.top, curtain.bottom"),
            ("hem curtain.bottom; sew snap_on", "hem curtain.top, curtain.bottom; finish panel.bottom"),
        ],
    )
}

/// Twelve over 60 cm are 5 cm apart, the first half of that from a joint: on each panel of 10 cm at 2.5 and 7.5.
#[test]
fn snaps_are_spread_all_round_and_marked_alike_on_every_copy() {
    assert_eq!(said(HAT), NOTHING);
    let compiled = of(HAT);
    let sewn = &compiled.sizes[0].sewn;
    let along = |part: usize| {
        let mut all: Vec<f64> = sewn.parts[part].fasteners.iter().map(|one| one.at.x).collect();
        all.sort_by(f64::total_cmp);
        all
    };
    let panel = along(0);
    assert_eq!(panel.len(), 2);
    same(panel[0], 25.0);
    same(panel[1], 75.0);
    let curtain = along(1);
    assert_eq!(curtain.len(), 12);
    for (nth, at) in curtain.iter().enumerate() {
        same(*at, 25.0 + 50.0 * nth as f64);
    }
    let row = &sewn.fasteners[0];
    same(row.spacing.expect("several"), 50.0);
    assert_eq!(sewn.closure_counts.as_deref(), Some(&[1][..]));
}

#[test]
fn what_cannot_go_round_is_told() {
    for (from, to, slug, words) in [
        ("snaps 12", "snaps 10", "seam/ring", "10 snaps cannot be spread over the 6 copies of Panel"),
        (
            "{ snaps 12 of 10mm stand 1 }",
            "{ zipper closed 60 }",
            "seam/ring",
            "snap_on is a zip, which has two ends",
        ),
        ("curtain.top { snaps", "curtain.top from end to end { snaps", "seam/ring", "which has no ends"),
        (
            "{ snaps 12 of 10mm stand 1 }",
            "{ snaps 12 of 10mm from 1 from low_left to 1 from low_right stand 1 }",
            "seam/ring",
            "stand evenly all round it",
        ),
        ("cut 6", "cut 6 mirrored", "seam/ring", "Panel is not cut several times alike"),
        ("panel.left in a ring", "panel.left", "seam/ring", "the panels seam sews each Panel to itself"),
        (
            "panel.bottom in a ring to curtain",
            "panel.bottom 4 from low_left in a ring to curtain",
            "seam/ring",
            "a run of bottom of Panel ends on every copy",
        ),
        (
            "finish curtain.bottom",
            "topstitch row 1 from panel.right in a ring\nfinish curtain.bottom",
            "seam/ring",
            "right of Panel is what the panels seam sews to the next",
        ),
        ("rectangle 60 by 20", "rectangle 57 by 20", "button/sides", "3 cm"),
        ("panel.bottom in a ring to curtain", "panel.bottom to curtain", "closure/pairing", "occurs 6 times"),
    ] {
        let all = told(&with(HAT, &[(from, to)]));
        let found = all.iter().any(|(own, title)| *own == slug && title.contains(words));
        assert!(found, "{to}: {all:?}");
    }
}

/// Two layers of six panels, each 60 cm round, shut on one another.
#[test]
fn a_ring_closes_on_a_ring() {
    let text = with(
        HAT,
        &[
            ("{ cut 1; outline rectangle 60 by 20 }", "{ cut 6; outline rectangle 10 by 20 }"),
            (
                "to curtain.right { matching curtain.top_left with curtain.top_right }",
                "to curtain.right in a ring",
            ),
            ("to curtain.top {", "to curtain.top in a ring {"),
        ],
    );
    assert_eq!(said(&text), NOTHING);
    let compiled = of(&text);
    assert!(compiled.sizes[0].sewn.parts.iter().all(|part| part.fasteners.len() == 2));
}

/// Once round the panels are 60 cm, bound in one.
#[test]
fn a_finish_says_that_it_goes_round() {
    for finish in ["bound 1", "hem 2", "casing 2", "overlocked", "tape"] {
        // The curtain hangs on nothing here, and nothing runs through the casing.
        let sound = ["opening/unsaid", "piece/apart", "casing/empty"];
        let all = said(&finished(&format!("finish panel.bottom in a ring {finish}")));
        assert!(all.iter().all(|slug| sound.contains(slug)), "{finish}: {all:?}");
        let broken = with(
            &finished(&format!("finish panel.bottom in a ring {finish}")),
            &[("panel.left in a ring", "panel.left")],
        );
        assert!(told(&broken).iter().any(|(slug, _)| *slug == "seam/ring"), "{finish}");
    }
    // Nothing is claimed where it is not said.
    let plain =
        with(&finished("finish panel.bottom hem 2"), &[("opening panel.bottom in a ring passes head\n", "")]);
    assert!(!told(&plain).iter().any(|(slug, _)| *slug == "seam/ring"));
    let row = with(
        &finished("finish panel.bottom hem 2"),
        &[("opening", "topstitch row 1 from panel.bottom in a ring\nopening")],
    );
    assert!(!told(&row).iter().any(|(slug, _)| *slug == "seam/ring"));
    let odd = with(&row, &[("panel.bottom in a ring\nopening", "curtain.top in a ring\nopening")]);
    assert!(
        told(&odd).iter().any(|(_, title)| title.contains("Neck curtain is not cut several times alike"))
    );
}

#[test]
fn what_goes_round_is_laid_out_as_it_is_written() {
    let mut map = SourceMap::default();
    let id = map.add(
        "hat.fus".to_owned(),
        with(HAT, &[("finish curtain", "topstitch row  1 from panel.bottom   in a ring\nfinish curtain")]),
    );
    let text = tidy(&map, id).expect("a sound text");
    for line in [
        "topstitch row 1 from panel.bottom in a ring",
        "closure snap_on  panel.bottom in a ring to curtain.top { snaps 12 of 10mm  stand 1 }",
        "sew panels 1..2, panels 4..5; press panels 1..2",
    ] {
        assert!(text.contains(line), "{text}");
    }
}

/// Six over 60 cm are 10 cm apart, one in the middle of each panel; where no ring is meant the first and the last are said.
#[test]
fn buttons_go_round_too() {
    let snaps = "snaps 12 of 10mm stand 1";
    let text = with(HAT, &[(snaps, "buttons 6 of 15mm stand 1.5")]);
    assert_eq!(said(&text), NOTHING);
    let compiled = of(&text);
    let places = &compiled.sizes[0].sewn.parts[0].fasteners;
    assert_eq!(places.len(), 1);
    same(places[0].at.x, 50.0);
    let from =
        with(HAT, &[(snaps, "buttons 6 of 15mm from 1 below low_left to 1 above low_right stand 1.5")]);
    assert!(said(&from).contains(&"seam/ring"), "{:?}", said(&from));
    let line = with(
        HAT,
        &[(
            "panel.bottom in a ring to curtain.top { snaps 12 of 10mm stand 1 }",
            "curtain.top to curtain.top { buttons 6 of 15mm stand 1.5 }",
        )],
    );
    assert!(said(&line).contains(&"closure/how"), "{:?}", said(&line));
}

/// Six joints: five between panels side by side, and the sixth from the last to the first.
#[test]
fn steps_sew_the_joints_of_a_ring_one_by_one() {
    for (from, to, slug, words) in [
        ("panels 4..5;", "panels 2;", "step/twice", "joint 2 of panels is sewn already"),
        ("panels 3, panels 6", "panels 3, panels 7", "step/nothing", "panels has 6 joints, and no joint 7"),
        ("panels 3, panels 6", "panels 3", "step/forgotten", "joint 6 of the seam panels"),
        ("sew panels 3, panels 6", "press panels 3", "step/forgotten", "joints 3 and 6 of the seam panels"),
        ("press panels 1..2", "press panels 3", "step/early", "pressing joint 3 of panels"),
        ("press panels 1..2", "baste panels 1", "step/early", "basting joint 1 of panels"),
        ("panels 3, panels 6", "panels 0, panels 6", "seam/ring", "0 are no joints"),
        ("panels 1..2", "panels 2..1", "seam/ring", "2..1 are no joints"),
        ("sew ends;", "sew ends 1;", "seam/ring", "joins no pieces in a ring"),
        ("hem curtain.bottom;", "hem curtain.bottom 2;", "seam/ring", "is no seam"),
    ] {
        let all = told(&with(HAT, &[(from, to)]));
        let found = all.iter().any(|(own, title)| *own == slug && title.contains(words));
        assert!(found, "{to}: {all:?}");
    }
    // The rest at once, and the whole seam after it is done.
    assert_eq!(said(&with(HAT, &[("panels 3, panels 6", "panels")])), NOTHING);
    let again = told(&with(HAT, &[("sew ends;", "sew panels; sew ends;")]));
    assert!(again.iter().any(|(slug, _)| *slug == "step/twice"), "{again:?}");
    // What goes round comes after the last joint.
    let early = with(
        &finished("finish panel.bottom in a ring hem 2"),
        &[
            ("sew panels 3, panels 6", "finish panel.bottom; sew panels 3, panels 6"),
            ("; finish panel.bottom }", " }"),
        ],
    );
    assert!(
        told(&early).iter().any(|(slug, title)| *slug == "step/early" && title.contains("sewing panels"))
    );
}

/// Two joints and one, one and one, and of those that are left the sixth alone.
#[test]
fn joints_are_counted() {
    let text = with(HAT, &[("panels 3, panels 6", "panels 3, panels")]);
    let compiled = of(&text);
    let steps = fustian::emit::steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let sewn: Vec<(String, Option<u32>)> = steps
        .into_iter()
        .filter(|line| line.verb == "sew" && line.to.as_ref().is_some_and(|to| to.starts_with("panels")))
        .map(|line| (line.to.expect("a seam"), line.times))
        .collect();
    let wanted = [("panels 1..2", 2), ("panels 4..5", 2), ("panels 3", 1), ("panels", 1)];
    let wanted: Vec<(String, Option<u32>)> =
        wanted.iter().map(|(name, times)| ((*name).to_owned(), Some(*times))).collect();
    assert_eq!(sewn, wanted);
}

/// A lining of six panels that is felled onto the seam of the brim hangs on the hat by that alone; left raw it does not.
#[test]
fn what_is_felled_onto_a_seam_hangs_on_it() {
    let text = with(
        HAT,
        &[
            (
                "layer outer in oilskin { panel, curtain }",
                "layer outer in oilskin { panel, curtain }\nlayer lining in oilskin { panel }",
            ),
            (
                "finish curtain.bottom hem 2\n",
                "finish curtain.bottom hem 2\nfinish lining.panel.bottom in a ring turned under onto join\n",
            ),
            (
                "closure snap_on panel.bottom in a ring to curtain.top { snaps 12 of 10mm stand 1 }",
                "seam join curtain.top to outer.panel.bottom in a ring { matching curtain.top_left with outer.panel.low_left }",
            ),
            ("opening panel.bottom", "opening outer.panel.bottom"),
            ("sew snap_on", "sew join; finish lining.panel.bottom"),
        ],
    );
    assert_eq!(said(&text), NOTHING);
    let raw = with(&text, &[("turned under onto join", "raw")]);
    assert_eq!(said(&raw), ["piece/apart"]);
}

/// In the lining, which has a ring of its own, all six are sewn in one step.
#[test]
fn joints_of_one_layer_are_not_those_of_another() {
    let text = with(
        HAT,
        &[
            (
                "layer outer in oilskin { panel, curtain }",
                "layer outer in oilskin { panel, curtain }\nlayer lining in oilskin { panel }",
            ),
            ("opening panel.bottom", "finish lining.panel.bottom overlocked\nopening outer.panel.bottom"),
            ("closure snap_on panel.bottom", "closure snap_on outer.panel.bottom"),
            ("sew panels 1..2, panels 4..5; press panels 1..2", "in outer sew panels 1..2, panels 4..5"),
            (
                "sew panels 3, panels 6",
                "in outer sew panels 3, panels 6; in lining sew panels; finish lining.panel.bottom",
            ),
        ],
    );
    let mistakes: Vec<_> = told(&text).into_iter().filter(|(slug, _)| *slug != "piece/apart").collect();
    assert_eq!(mistakes, []);
    let compiled = of(&text);
    let steps = fustian::emit::steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let lining = steps.iter().find(|line| line.to.as_deref() == Some("panels")).expect("a step");
    assert_eq!((lining.times, lining.layers.as_slice()), (Some(6), &["lining".to_owned()][..]));
}

/// A crown and a curtain that are rings of one piece each, 60 round.
const ROUND: &str = "garment \"Oilskin hat\"
units cm
allowance 1
body { head 58 }
fabric oilskin \"oilskin\" { width 150; kind woven firm }
layer outer in oilskin { crown, curtain }
piece crown \"Crown\" { cut 1; outline rectangle 60 by 20 }
piece curtain \"Neck curtain\" { cut 1; outline rectangle 60 by 20 }
seam crown_end crown.left to crown.right { matching crown.top_left with crown.top_right }
seam ends curtain.left to curtain.right { matching curtain.top_left with curtain.top_right }
finish curtain.bottom, crown.top hem 2
closure snap_on crown.bottom to curtain.top { snaps 12 of 10mm from 2.5 from bottom_left to 2.5 from bottom_right stand 1 }
opening crown.bottom passes head
steps { \"All\" { sew crown_end, ends; hem curtain.bottom, crown.top; sew snap_on } }
";

/// From 2.5 to 57.5 twelve stand 5 apart, and across the seam 2.5 + 2.5; from 1 to 59 they stand 58 / 11 = 5.27, and 2.
#[test]
fn one_gap_that_differs_is_advised_of() {
    assert_eq!(said(ROUND), NOTHING);
    let uneven =
        with(ROUND, &[("from 2.5 from bottom_left to 2.5 from", "from 1 from bottom_left to 1 from")]);
    let all = told(&uneven);
    let words = |title: &str| title.contains("5.3 cm apart") && title.contains("2 cm");
    assert!(all.iter().any(|(slug, title)| *slug == "button/spacing" && words(title)), "{all:?}");
    // Of a row that is not round nothing is said.
    let open = with(
        &uneven,
        &[
            (
                "seam crown_end crown.left to crown.right { matching crown.top_left with crown.top_right }\n",
                "",
            ),
            (
                "seam ends curtain.left to curtain.right { matching curtain.top_left with curtain.top_right }\n",
                "",
            ),
            (
                "finish curtain.bottom, crown.top",
                "finish crown.left, crown.right, curtain.left, curtain.right, curtain.bottom, crown.top",
            ),
            ("sew crown_end, ends; hem", "hem crown.left, crown.right, curtain.left, curtain.right,"),
            ("opening crown.bottom passes head\n", ""),
        ],
    );
    assert!(told(&open).iter().all(|(slug, _)| *slug != "button/spacing"), "{:?}", told(&open));
}
