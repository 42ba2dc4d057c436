//! Alterations but for lengthening, each by hand calculation, in centimetres.

use crate::cases::cases;
use crate::drafting::{Drafted, draft, same, same_place};
use fustian::compile;
use fustian::source::MemoryLoader;
use fustian::syntax::KEYWORDS;
use fustian::syntax::tree::{AlterationKind, AmountForm, Change, TargetForm};
use proptest::prelude::*;

/// A panel 20 by 60 from (0, 0) up, and what is done to it.
fn panel(inside: &str, done: &str) -> Drafted {
    draft(&format!(
        r#"block piece panel "Panel" {{
  cut 1 on fold centre
  point low_cf = (0, 0)
  point top_cf = (0, 60)
  point top_side = (20, 60)
  point low_side = (20, 0)
  outline from low_cf {{
    centre to top_cf
    upper to top_side
    side to low_side
    hem to low_cf
  }}
  {inside}
}}
{done}"#
    ))
}

#[test]
fn an_edge_extended_and_trimmed() {
    let drafted =
        panel("mark badge = (4, 50)", "extend panel.centre by 1.5\ntrim panel.hem by 2").drawn_soundly();
    same_place(drafted.point("panel", "low_cf"), (-15.0, 20.0));
    same(drafted.length("panel", "upper"), 215.0);
    same(drafted.length("panel", "side"), 580.0);
    same_place(drafted.point("panel", "badge"), (40.0, 500.0));
}

#[test]
fn extended_between_slanted_neighbours() {
    // The hem's neighbours lean 45° outwards: 2 down makes it 2 wider at that side.
    let text = r#"block piece gore { cut 1
  point a = (0, 0)
  point b = (0, 20)
  point c = (10, 20)
  point d = (30, 0)
  outline from a { left to b; top to c; right to d; hem to a }
}
extend gore.hem by 2"#;
    let drafted = draft(text).drawn_soundly();
    same(drafted.length("gore", "hem"), 320.0);
    same(drafted.length("gore", "right"), 220.0 * 2.0_f64.sqrt());
}

#[test]
fn opened_and_closed_again() {
    use fustian::garment::CutHow;
    let opened = panel("", "open panel at centre").drawn_soundly();
    assert_eq!((opened.piece("panel").cut, opened.piece("panel").count), (CutHow::Mirrored, 2));
    let closed = panel("", "open panel at centre\nclose panel at centre").drawn_soundly();
    assert!(matches!(closed.piece("panel").cut, CutHow::OnFold(_)));
    assert_eq!(closed.piece("panel").count, 1);
    same(closed.length("panel", "centre"), 600.0);
    assert_eq!(panel("", "open panel at side").told("alter/not-fold").len(), 1);
    assert_eq!(panel("", "close panel at side").told("alter/no-pair").len(), 1);
}

#[test]
fn cut_off_at_a_line() {
    let drafted = panel(
        "line short across at (0, 25)\n  line low across at (0, 10)\n  mark badge = (4, 50)",
        "cut off panel at short",
    )
    .drawn_soundly();
    assert_eq!(drafted.edges("panel").len(), 4);
    same(drafted.length("panel", "short"), 200.0);
    same(drafted.length("panel", "centre"), 350.0);
    same(drafted.area("panel"), 200.0 * 350.0);
    assert!(drafted.piece("panel").lines.is_empty());
}

#[test]
fn an_edge_that_was_cut_off_is_told_of() {
    let drafted =
        panel("line short across at (0, 25)", "cut off panel at short\nlet hem = length(panel.hem)");
    assert_eq!(drafted.told("edge/gone"), ["Panel has no hem"]);
}

#[test]
fn split_at_a_slanted_line() {
    let text = "line yoke_line from (0, 40) to (20, 45)\n  mark badge = (4, 50)\n  mark low_badge = (4, 5)\n  notch side 5 from top_side\n  notch side 5 from low_side";
    let drafted =
        panel(text, "split panel at yoke_line into yoke, skirt\nlet whole_side = length(panel.side)")
            .drawn_soundly();
    assert!(drafted.is_missing("panel"));
    same(drafted.length("yoke", "centre"), 200.0);
    same(drafted.length("yoke", "side"), 150.0);
    same(drafted.length("skirt", "side"), 450.0);
    same(drafted.value(0, "whole_side").unwrap_or_default(), 600.0);
    same(drafted.area("yoke"), 200.0 * 175.0);
    same_place(drafted.point("yoke", "badge"), (40.0, 500.0));
    same_place(drafted.point("skirt", "low_badge"), (40.0, 50.0));
    assert_eq!(drafted.piece("yoke").notches.len(), 1);
    assert_eq!(drafted.piece("skirt").notches.len(), 1);
    same(drafted.piece("skirt").notches[0].at.y, 50.0);
}

proptest! {
    #![proptest_config(cases(48))]

    /// Scissors neither make nor lose paper.
    #[test]
    fn a_split_keeps_the_area(left in 1.0..59.0_f64, right in 1.0..59.0_f64) {
        // Nearer across than upright, or beyond is another side.
        let drafted = panel(
            &format!("line cut from (0, {left:.4}) to (20, {right:.4})"),
            "split panel at cut into yoke, skirt",
        );
        prop_assert!((drafted.area("yoke") + drafted.area("skirt") - 200.0 * 600.0).abs() < 0.01);
    }

    /// What is put in and taken out again leaves the piece as it was.
    #[test]
    fn lengthened_then_shortened(at in 5.0..55.0_f64, by in 0.1..40.0_f64) {
        let drafted = panel(
            &format!("line waist across at (0, {at:.4})"),
            &format!("lengthen panel at waist by {by:.4}\nshorten panel at waist by {by:.4}"),
        );
        for (point, place) in [("low_cf", (0.0, 0.0)), ("low_side", (200.0, 0.0)), ("top_side", (200.0, 600.0))] {
            prop_assert!(drafted.point("panel", point).distance(place.into()) < 0.01);
        }
    }
}

#[test]
fn spread_square_to_the_line() {
    let drafted = panel("line slash along at (10, 0)", "spread panel along slash by 6").drawn_soundly();
    same_place(drafted.point("panel", "low_side"), (260.0, 0.0));
    same(drafted.length("panel", "upper"), 260.0);
    same(drafted.length("panel", "side"), 600.0);
}

#[test]
fn flared_from_the_hem() {
    let drafted =
        panel("line slash from (10, 60) to (10, 0)", "flare panel along slash by 4").drawn_soundly();
    // The half to the right turns about (10, 60); the cut is 60 long and opens 4 at the hem. Edges
    // that turn keep their lengths.
    same(drafted.length("panel", "side"), 600.0);
    same(drafted.length("panel", "centre"), 600.0);
    let turn = 2.0 * (2.0_f64 / 60.0).asin();
    let (x, y) = (10.0, -60.0);
    same_place(
        drafted.point("panel", "low_side"),
        (100.0 + 10.0 * (x * turn.cos() - y * turn.sin()), 600.0 + 10.0 * (x * turn.sin() + y * turn.cos())),
    );
}

#[test]
fn an_edge_redrawn_between_the_same_corners() {
    let drafted =
        panel("", "redraw panel.upper curve leaving right arriving right through (10, 58)").drawn_soundly();
    same_place(drafted.point("panel", "top_cf"), (0.0, 600.0));
    same_place(drafted.point("panel", "top_side"), (200.0, 600.0));
    let upper = drafted.piece("panel").edges.iter().find(|edge| edge.touched.len() == 1);
    assert!(upper.is_some_and(|upper| upper.path.nearest((100.0, 580.0).into()).distance < 1e-6));
}

#[test]
fn two_pieces_joined_at_their_sides() {
    let back = r#"block piece back { cut 2 mirrored
  point low_cb = (0, 0)
  point top_cb = (0, 60)
  point top_side = (30, 60)
  point low_side = (30, 0)
  outline from low_cb { back_centre to top_cb; upper_back to top_side; side to low_side; hem to low_cb }
}
join panel to back at side into body
let whole = length(panel.hem + back.hem)"#
        .replace("length(panel.hem + back.hem)", "length(panel.hem) + length(back.hem)");
    let drafted = panel("", &back).drawn_soundly();
    assert!(drafted.is_missing("panel") && drafted.is_missing("back"));
    same(drafted.area("body"), 500.0 * 600.0);
    assert_eq!(drafted.edges("body").len(), 6);
    same(drafted.length("body", "back_centre"), 600.0);
    same(drafted.value(0, "whole").unwrap_or_default(), 500.0);
    // The panel keeps its place; the back's centre is as far to the right as both are wide.
    same_place(drafted.point("body", "low_cb"), (500.0, 0.0));
}

#[test]
fn sides_that_are_not_equally_long_cannot_be_joined() {
    let back = "block piece back { cut 2 mirrored\n outline rectangle 30 by 59 }\njoin panel.side to back.left into body";
    let drafted = panel("", &back.replace("panel.side to back.left", "panel to back at left"));
    // The panel has no edge `left`: that is a matter of names, not of lengths.
    assert!(drafted.told("alter/join-apart").is_empty());
    let back = "block piece back { cut 2 mirrored\n point a = (0, 0)\n point b = (0, 58)\n point c = (30, 58)\n point d = (30, 0)\n outline from a { side to b; top to c; cb to d; low to a }\n}\njoin panel to back at side into body";
    let told = panel("", back).told("alter/join-apart");
    assert_eq!(told.len(), 1);
    assert!(told[0].contains("60 cm") && told[0].contains("58 cm"), "{}", told[0]);
}

#[test]
fn alterations_in_the_order_written() {
    // 60 of side, 10 put in, then a fifth of what it is by then.
    let drafted = panel(
        "line waist across at (0, 30)",
        "lengthen panel at waist by 10\nlengthen panel at waist by length(panel.side) / 5",
    )
    .drawn_soundly();
    same(drafted.length("panel", "side"), 700.0 + 140.0);
}

/// By hand: the sides of the flap meet in a point 10 cm above its foot (30 wide, 45° on both sides: 15),
/// so that the top at 5 can move up by 10; a rectangle of 3 by 12 can be trimmed by less than 3; and what
/// runs on without a corner does not move alone.
#[test]
fn what_does_not_fit_says_how_much_would() {
    let told = |piece: &str, alteration: &str| {
        let text = format!("block piece flap \"Flap\" {{\n{piece}\n}}\n{alteration}\n");
        let text = format!("garment \"Deck smock\"\nunits cm\nallowance 1\n{text}");
        let compiled = compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus");
        let told = compiled.diagnostics.into_iter().filter(|one| one.slug().starts_with("alter/"));
        told.map(|one| (one.slug(), one.help.unwrap_or_default())).collect::<Vec<_>>()
    };
    let loop_of = "outline rectangle 3 by 12";
    assert_eq!(
        told(loop_of, "trim flap.left by 5"),
        [("alter/neighbours", "trim it by less than 3 cm".to_owned())]
    );
    assert_eq!(told(loop_of, "trim flap.left by 2.9"), []);
    let pointed = "point a = (0, 0)\npoint b = (30, 0)\npoint c = (25, 5)\npoint d = (5, 5)\n\
         outline from a {\nfoot to b\nright to c\ntop to d\nleft to a\n}";
    let [(slug, help)] = &told(pointed, "extend flap.top by 12")[..] else { panic!() };
    assert!(slug.starts_with("alter/") && help.contains("less than 10 cm"), "{slug}: {help}");
    assert_eq!(told(pointed, "extend flap.top by 9.9"), []);
    let divided = "outline rectangle 30 by 20\ndivide top 10 from top_left into short, long";
    let [(slug, help)] = &told(divided, "extend flap.short by 2")[..] else { panic!() };
    assert_eq!(*slug, "alter/neighbours");
    assert!(help.starts_with("short runs on into long without a corner"), "{help}");
    let [(slug, help)] = &told(divided, "extend flap.top by 2")[..] else { panic!() };
    assert_eq!((*slug, help.as_str()), ("alter/no-line", "it is divided there: name short or long"));
}

/// What is known of a kind does not contradict itself, and each kind that a maker writes is a word of
/// the language, explained in the reference.
#[test]
fn every_kind_is_described_in_full() {
    let reference = include_str!("../../grammar/REFERENCE.md");
    for kind in AlterationKind::ALL {
        let form = kind.form();
        let others = AlterationKind::ALL.into_iter().filter(|&other| other != kind);
        assert!(others.into_iter().all(|other| other.form().verb != form.verb), "{kind:?}");
        if let Some(opposite) = form.opposite {
            assert_eq!(opposite.form().opposite, Some(kind), "{kind:?}");
            let grows = |kind: AlterationKind| matches!(kind.form().change, Change::Grow);
            let shrinks = |kind: AlterationKind| matches!(kind.form().change, Change::Shrink);
            assert_eq!((grows(kind), shrinks(kind)), (shrinks(opposite), grows(opposite)), "{kind:?}");
        }
        // Only what is sought or given is compared with a difference in length.
        if matches!(form.change, Change::Grow | Change::Shrink) {
            assert_ne!(form.amount, AmountForm::None, "{kind:?}");
        }
        assert_eq!(kind.has_statement(), form.targets != TargetForm::Closure);
        if kind.has_statement() {
            assert!(form.verb.split(' ').all(|word| KEYWORDS.contains(&word)), "{kind:?}");
            assert!(reference.contains(&format!("`{}", form.verb)), "{kind:?} in the reference");
            let mut words = form.verb.split(' ');
            let first = words.next().unwrap_or("");
            assert_eq!(AlterationKind::beginning(first, words.next()), Some(kind));
        }
    }
}
