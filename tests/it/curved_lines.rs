//! Lines drawn as curves: pieces are split and cut off along them. Figures are worked out by hand, in centimetres where
//! they are said and in millimetres where they come out, or by lyon_geom.

use crate::drafting::{Drafted, draft, same, same_place};
use lyon_geom::CubicBezierSegment;
use proptest::prelude::*;

/// A panel 60 by 80 from (0, 0) up with a line, and what is done to it.
fn panel(line: &str, more: &str, done: &str) -> Drafted {
    draft(&format!(
        "block piece panel \"Panel\" {{\n cut 2\n outline rectangle 60 by 80\n line yoke from {line}\n{more}\n}}\n{done}"
    ))
}

/// About (30, 0) with a radius of 50, from (0, 40) over (30, 50) to (60, 40).
const ARC: &str = "(0, 40) to (60, 40) arc about (30, 0) clockwise";
const SPLIT: &str = "split panel at yoke into upper, lower";

/// Its angle is 2·atan(30/40) = 73.74°, its length 50 · 1.2870; between it and its chord lie r²/2·(θ − sin θ) = 408.75 square
/// centimetres, which go to the lower piece.
#[test]
fn both_halves_have_the_arc_as_an_edge() {
    let drafted =
        panel(ARC, " line middle along at (30, 1)\n mark badge = (30, 45)\n mark high = (30, 55)", SPLIT)
            .drawn_soundly();
    let angle = 2.0 * (0.75_f64).atan();
    let cap = 250.0 * 500.0 * (angle - angle.sin());
    for (piece, area) in [("upper", 600.0 * 400.0 - cap), ("lower", 600.0 * 400.0 + cap)] {
        same(drafted.length(piece, "yoke"), 500.0 * angle);
        assert!((drafted.area(piece) - area).abs() < 5.0, "{piece}: {} {area}", drafted.area(piece));
    }
    same(drafted.length("upper", "right"), 400.0);
    same(drafted.length("lower", "left"), 400.0);
    // The one line is cut where it meets the other, at (30, 50).
    let (low, high) = drafted.line("lower", "middle");
    same(low.distance(high), 500.0);
    let (low, high) = drafted.line("upper", "middle");
    same(low.distance(high), 300.0);
    // Above the chord and below the arc.
    same_place(drafted.point("lower", "badge"), (300.0, 450.0));
    same_place(drafted.point("upper", "high"), (300.0, 550.0));
}

#[test]
fn what_lies_beyond_an_arc_is_cut_off() {
    let drafted = panel(ARC, "", "cut off panel at yoke").drawn_soundly();
    same(drafted.length("panel", "yoke"), 1000.0 * (0.75_f64).atan());
    same(drafted.length("panel", "top"), 600.0);
    assert_eq!(drafted.edges("panel"), ["right", "top", "left", "yoke"]);
}

/// Level at both of its ends and 0.1 short of the sides, which the tolerance of 0.2 allows: 0.1 more on each side. What ends
/// 10 short of them parts nothing.
#[test]
fn a_curve_is_drawn_on_straight_to_the_outline() {
    let curve = "curve leaving right arriving right through (30, 44)";
    let inner = format!("(0.1, 40) to (59.9, 40) {curve}");
    let inside = panel(&inner, "", "").piece("panel").lines[0].path.length();
    let drafted = panel(&inner, "", SPLIT).drawn_soundly();
    same(drafted.length("upper", "yoke"), inside + 2.0);
    same(drafted.length("lower", "right"), 400.0);
    let short = panel(&format!("(10, 40) to (50, 40) {curve}"), "", SPLIT).told("alter/no-line");
    assert!(short.len() == 1 && short[0].contains("10 cm"), "{short:?}");
}

/// What moves with its paper moves whole; what reached the outline still does.
#[test]
fn a_curve_goes_with_its_paper() {
    let low = " line low across at (0, 20)";
    let lengthened = panel(ARC, low, &format!("lengthen panel at low by 6\n{SPLIT}")).drawn_soundly();
    same(lengthened.length("upper", "yoke"), 1000.0 * (0.75_f64).atan());
    same(lengthened.length("lower", "left"), 460.0);
    // From the side at 40 on it goes on straight, square to the radius there: 3 to the side are 3.75 along it.
    let extended = panel(ARC, "", &format!("extend panel.right by 3\n{SPLIT}")).drawn_soundly();
    same(extended.length("upper", "yoke"), 1000.0 * (0.75_f64).atan() + 37.5);
    // 3 less: up to where the arc is at x = 57, 27 beside its centre.
    let trimmed = panel(ARC, "", &format!("trim panel.right by 3\n{SPLIT}")).drawn_soundly();
    same(trimmed.length("upper", "yoke"), 500.0 * ((0.75_f64).atan() + (27.0_f64 / 50.0).asin()));
    let turned = panel(
        ARC,
        "mark bust = (30, 65)",
        "let dart d into panel.right at 15 from top angle 10° to bust turning to top pressed down",
    );
    let path = &turned.piece("panel").lines[0].path;
    same(path.length(), 1000.0 * (0.75_f64).atan());
}

#[test]
fn curves_that_do_not_cut_a_piece_in_two() {
    let out_again = "(0, 10) to (60, 10) curve through (30, -4)";
    for (line, done, slug) in [
        (out_again, SPLIT, "alter/no-line"),
        (ARC, "lengthen panel at yoke by 4", "line/curved"),
        (ARC, "shorten panel at yoke by 4", "line/curved"),
        (ARC, "spread panel along yoke by 4", "line/curved"),
        (ARC, "overlap panel along yoke by 4", "line/curved"),
        (ARC, "flare panel along yoke by 4", "line/curved"),
        (ARC, "fold out panel along yoke by 4", "line/curved"),
        ("(0, 40) to (60, 41) arc about (30, 0) clockwise", SPLIT, "arc/radii"),
        ("(70, 40) to (90, 40) curve through (80, 50)", SPLIT, "line/misses"),
        ("(0, 40) to (60, 40) curve leaving square to hem", SPLIT, "name/unknown"),
        ("(0, 40) to (60, 40) curve through bust", SPLIT, "name/unknown"),
    ] {
        let told = panel(line, "", done).slugs();
        assert!(told.contains(&slug), "{line}, {done}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{line}, {done}: {told:?}");
    }
    // A dart above the chord and below the top of the arc is cut through; one beside the arc is not.
    let dart = |point: &str| {
        format!(" mark end = {point}\n dart d on top in the middle width 3 to end pressed toward left trued")
    };
    assert!(panel(ARC, &dart("(30, 45)"), SPLIT).slugs().contains(&"alter/through-dart"));
    assert!(!panel(ARC, &dart("(30, 55)"), SPLIT).slugs().contains(&"alter/through-dart"));
    let pleat = " pleat p on top at 20 from left depth 1 toward right along yoke";
    assert!(panel(ARC, pleat, "").slugs().contains(&"pleat/along"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]
    /// Against lyon_geom; the two halves together are the whole.
    #[test]
    fn a_bezier_that_pieces_are_split_along(
        (from, to, ax, ay, bx, by) in
            (10..70_u32, 10..70_u32, 5..30_u32, 5..75_u32, 31..55_u32, 5..75_u32)
    ) {
        let line = format!("(0, {from}) to (60, {to}) handles ({ax}, {ay}), ({bx}, {by})");
        let drafted = panel(&line, "", SPLIT).drawn_soundly();
        let at = |x: u32, y: u32| lyon_geom::point(10.0 * f64::from(x), 10.0 * f64::from(y));
        let theirs = CubicBezierSegment { from: at(0, from), ctrl1: at(ax, ay), ctrl2: at(bx, by), to: at(60, to) };
        let long = theirs.approximate_length(1e-4);
        for piece in ["upper", "lower"] {
            let own = drafted.length(piece, "yoke");
            prop_assert!((own - long).abs() < 0.01, "{piece}: {own} {long}");
        }
        let both = drafted.area("upper") + drafted.area("lower");
        prop_assert!((both - 480_000.0).abs() < 0.01, "{both}");
    }
}
