//! How outlines are given: walks, rectangles, strips, copies, rests; and which cannot be cut.

use crate::drafting::{draft, draft_in, same, same_place};
use std::f64::consts::PI;

/// A circle skirt's waist radius W/2π, W/π, 2W/π for a full, a half and a quarter circle: 28 in
/// gives 4.456, 8.913 and 17.825 in (handbook method, common practice; the figures by division).
#[test]
fn a_circle_skirt_by_its_waist_and_hem() {
    for (share, angle, radius) in [(1.0, "90deg", 4.456), (0.5, "45deg", 8.913), (0.25, "22.5deg", 17.825)] {
        let text = format!(
            r#"let radius = 28 / (2 * pi * {share})
let far = radius + 24
block piece skirt {{
  cut 1 on fold centre
  point middle = (0, 0)
  point waist_cf = (0, -radius)
  point waist_side = (radius * sin(2 * {angle}), -radius * cos(2 * {angle}))
  point hem_side = (far * sin(2 * {angle}), -far * cos(2 * {angle}))
  point hem_cf = (0, -far)
  outline from hem_cf {{
    centre to waist_cf
    waist to waist_side arc about middle anticlockwise
    side to hem_side
    hem to hem_cf arc about middle clockwise
  }}
}}
let whole = total(skirt.waist)"#
        );
        let text = text.replace("28 /", "28in /").replace("+ 24", "+ 24in");
        let drafted = draft_in("in", &text).drawn_soundly();
        let found = drafted.value(0, "radius").unwrap_or_default() / 25.4;
        assert!((found - radius).abs() < 0.001, "{found} instead of {radius}");
        same(drafted.value(0, "whole").unwrap_or_default(), 28.0 * 25.4);
        // The hem of half the cloth: half the share of 2π(r + 24).
        same(drafted.length("skirt", "hem"), share * PI * 25.4 * (28.0 / (2.0 * PI * share) + 24.0));
    }
}

#[test]
fn a_rectangle_from_its_lower_left_corner() {
    let drafted = draft("block piece band { cut 1\n outline rectangle 40 by 6 }").drawn_soundly();
    assert_eq!(drafted.edges("band"), ["bottom", "right", "top", "left"]);
    same_place(drafted.point("band", "top_right"), (400.0, 60.0));
    same(drafted.area("band"), 400.0 * 60.0);
}

const FRONT: &str = r#"block piece front {
  cut 1 on fold centre
  point hem_cf = (0, 0)
  point neck_cf = (0, 50)
  point neck_side = (10, 60)
  point tip = (20, 60)
  point hem_side = (20, 0)
  outline from hem_cf {
    centre to neck_cf
    neckline to neck_side
    shoulder to tip
    side to hem_side
    hem to hem_cf
  }
}
"#;

#[test]
fn a_facing_is_a_strip_along_the_neck() {
    let drafted = draft(&format!(
        "{FRONT}block piece facing {{ cut 1 on fold centre\n outline strip of front along neckline width 5 }}"
    ))
    .drawn_soundly();
    // The neckline's slant is 45°, so 5 square to it is 5√2 down the centre and along the shoulder.
    let reach = 50.0 * 2.0_f64.sqrt();
    same(drafted.length("facing", "neckline"), 100.0 * 2.0_f64.sqrt());
    same(drafted.length("facing", "centre"), reach);
    same(drafted.length("facing", "shoulder"), reach);
    // A band of parallel sides: from (0, 50 − 5√2) to (10 + 5√2, 60).
    same(drafted.length("facing", "inner"), (100.0 + reach) * 2.0_f64.sqrt());
}

#[test]
fn facing_and_rest_make_the_whole() {
    let text = format!(
        "{FRONT}block piece facing {{ cut 1 on fold centre\n outline strip of front along neckline width 5 }}\nblock piece lining {{ cut 1 on fold centre\n outline rest of front without facing }}"
    );
    let drafted = draft(&text).drawn_soundly();
    same(drafted.area("facing") + drafted.area("lining"), drafted.area("front"));
    same(drafted.length("facing", "centre") + drafted.length("lining", "centre"), 500.0);
    same(drafted.length("facing", "inner"), drafted.length("lining", "inner"));
    same(drafted.length("lining", "hem"), 200.0);
}

#[test]
fn a_copy_with_a_corner_moved() {
    let text = format!(
        "{FRONT}block piece low_front {{ cut 1 on fold centre\n outline copy of front\n move point neck_cf by (0, -6) }}"
    );
    let drafted = draft(&text).drawn_soundly();
    same(drafted.length("low_front", "centre"), 440.0);
    same(drafted.length("low_front", "neckline"), 10.0 * (100.0_f64 + 256.0).sqrt());
    same(drafted.length("front", "centre"), 500.0);
}

#[test]
fn an_edge_divided_from_either_corner() {
    let text = FRONT.replace(
        "    hem to hem_cf\n  }\n",
        "    hem to hem_cf\n  }\n  divide side 20 from hem_side into vent, side\n  notch side 5 from tip\n",
    );
    let drafted = draft(&text).drawn_soundly();
    same(drafted.length("front", "vent"), 200.0);
    same(drafted.length("front", "side"), 400.0);
    same(drafted.piece("front").notches[0].at.y, 550.0);
}

#[test]
fn a_curve_that_leaves_square_to_an_edge() {
    // A quarter circle by a smooth curve: within 0.1 % of its length (Hobby 1986).
    let text = FRONT
        .replace("point neck_cf = (0, 50)", "point neck_cf = (0, 50)\n  point middle = (0, 60)")
        .replace(
            "neckline to neck_side",
            "neckline to neck_side curve leaving square to centre arriving square to shoulder",
        );
    let drafted = draft(&text).drawn_soundly();
    let quarter = PI * 50.0;
    let found = drafted.length("front", "neckline");
    assert!((found / quarter - 1.0).abs() < 1e-3, "{found}");
}

#[test]
fn what_cannot_be_cut_is_told() {
    let crossing = FRONT.replace("point hem_side = (20, 0)", "point hem_side = (-20, 20)");
    assert_eq!(draft(&crossing).told("outline/crosses").len(), 1);
    let nothing = FRONT.replace("point tip = (20, 60)", "point tip = (10, 60)");
    assert_eq!(draft(&nothing).told("outline/collapses").len(), 1);
    let outside = format!("{}  mark badge = (30, 30)\n}}\n", FRONT.trim_end().trim_end_matches('}'));
    assert_eq!(draft(&outside).told("mark/outside"), ["badge lies 10 cm outside front"]);
    let misses = outside.replace("mark badge = (30, 30)", "line waist across at (5, 80)");
    assert_eq!(draft(&misses).told("line/misses").len(), 1);
    let past = outside.replace("mark badge = (30, 30)", "notch hem 25 from hem_cf");
    assert_eq!(draft(&past).told("notch/off-edge").len(), 1);
    let divided = outside.replace("mark badge = (30, 30)", "divide hem 25 from hem_cf into vent, hem");
    assert_eq!(draft(&divided).told("divide/off-edge").len(), 1);
    let arc = FRONT.replace("neckline to neck_side", "neckline to neck_side arc about (0, 61) anticlockwise");
    assert_eq!(draft(&arc).told("arc/radii").len(), 1);
    let broken = format!(
        "{FRONT}block piece facing {{ cut 1\n outline strip of front along neckline, side width 2 }}"
    );
    assert_eq!(draft(&broken).told("strip/broken").len(), 1);
}

#[test]
fn inside_out_in_one_size_only() {
    let text = format!(
        "sizes S, M, L\nlet wide = each -20, 20, 22\n{}",
        FRONT
            .replace("(20, 60)", "(wide, 60)")
            .replace("(20, 0)", "(wide, 0)")
            .replace("(10, 60)", "(wide / 2, 60)")
    );
    let told = draft(&text).told("outline/collapses");
    assert_eq!(told, ["front is turned inside out in S"]);
}

#[test]
fn numbers_that_are_none() {
    let text = "block piece band { cut 1; outline rectangle 10cm / (1 - 1) by 5 }";
    let drafted = draft(text);
    assert_eq!(drafted.told("value/not-finite"), ["this divides by 0"]);
    assert!(drafted.is_missing("band"));
}

#[test]
fn an_unknown_found_between_its_bounds() {
    // A triangle's slant of 13 over 5 is 12 high.
    let text = r#"let high between 2 and 30 so that length(gusset.slant) = 13
block piece gusset { cut 1
  point a = (0, 0)
  point b = (5, 0)
  point c = (0, high)
  outline from a { base to b; slant to c; upright to a }
}"#;
    let drafted = draft(text).drawn_soundly();
    same(drafted.value(0, "high").unwrap_or_default(), 120.0);
    same(drafted.length("gusset", "upright"), 120.0);
    let none = draft(&text.replace("and 30", "and 10"));
    assert_eq!(none.told("solve/none").len(), 1);
    // 13 is reached at −12 and at 12.
    let many = draft(&text.replace("between 2", "between -31"));
    assert_eq!(many.told("solve/many").len(), 1);
}
