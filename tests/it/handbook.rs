//! Figures that stand in standards and sewing handbooks, from a `.fus` text to the paper.

use crate::drafting::{Drafted, draft_in};
use std::f64::consts::{PI, SQRT_2};

/// What a `let` of that text comes to, in millimetres.
#[track_caller]
fn millimetres(unit: &str, text: &str) -> f64 {
    let drafted = draft_in(unit, &format!("sizes one\nlet asked = {text}\n")).drawn_soundly();
    drafted.value(0, "asked").unwrap_or_else(|| panic!("{text} has no value"))
}

/// NIST SP 811 (2008), appendix B: 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 yd = 914.4 mm, all exactly;
/// the rest by arithmetic.
#[test]
fn lengths_are_what_the_standard_says() {
    for (text, expected) in [
        ("1in", 25.4),
        ("1\"", 25.4),
        ("1ft", 304.8),
        ("1yd", 914.4),
        ("36in", 914.4),
        ("1m", 1000.0),
        ("1cm", 10.0),
        ("1mm", 1.0),
        ("2.54cm", 25.4),
        // A bare number is in the file's unit.
        ("1", 25.4),
        // Mixed fractions, as a tape is read: 6.5 × 25.4, 2.625 × 25.4 and so on.
        ("6 1/2in", 165.1),
        ("6½in", 165.1),
        ("6 1/2\"", 165.1),
        ("½in", 12.7),
        ("1/2in", 12.7),
        ("5/8\"", 15.875),
        ("2 5/8in", 66.675),
        ("2⅝in", 66.675),
        ("¼in + ¾in", 25.4),
        ("1/3yd", 304.8),
        ("6 1/2in + 16.5cm", 330.1),
        // 3 ft less 1 yd is nothing.
        ("3ft - 1yd", 0.0),
    ] {
        let found = millimetres("in", text);
        assert!((found - expected).abs() < 1e-9, "{text} is {found} mm instead of {expected}");
    }
    assert!((millimetres("cm", "6 1/2") - 65.0).abs() < 1e-9, "a fraction of the file's own unit");
    assert!((millimetres("mm", "6½") - 6.5).abs() < 1e-9);
}

/// A circle skirt of so many quarters, waist 28 in and 24 in long, drafted with arcs.
fn circle_skirt(quarters: u32) -> Drafted {
    draft_in(
        "in",
        &format!(
            r#"sizes one
let waist  = 28
let radius = waist / ({quarters} * pi / 2)
let hem    = radius + 24
fabric serge {{ width 200 }}
layer outer in serge {{ panel }}
piece panel "Quarter" {{
  cut {quarters}
  point middle      = (0, 0)
  point waist_left  = (0, -radius)
  point waist_right = (radius, 0)
  point hem_right   = (hem, 0)
  point hem_left    = (0, -hem)
  outline from hem_left {{
    left   to waist_left
    waist  to waist_right  arc about middle anticlockwise
    right  to hem_right
    hem    to hem_left     arc about middle clockwise
  }}
}}
measure waist_round "Waist" = total(panel.waist)
measure hem_round "Hem" = total(panel.hem)
"#
        ),
    )
    .drawn_soundly()
}

/// Handbook method, common practice: a full circle has the waist radius W/2π, a half W/π, a quarter
/// 2W/π; for a waist of 28 in that is 4.456, 8.913 and 17.825 in. Hems are as long as their part of
/// a circle of radius + length.
#[test]
fn circle_skirts_are_as_the_handbook_says() {
    for (quarters, radius, part) in [(4, 4.456, 1.0), (2, 8.913, 0.5), (1, 17.825, 0.25)] {
        let skirt = circle_skirt(quarters);
        let found = skirt.value(0, "radius").unwrap() / 25.4;
        assert!((found - radius).abs() < 0.0005, "{quarters} quarters: radius {found} in");
        let waist = skirt.value(0, "waist_round").unwrap() / 25.4;
        assert!((waist - 28.0).abs() < 1e-4, "{quarters} quarters: waist {waist} in");
        let exact = 28.0 / (2.0 * PI * part);
        let hem = skirt.value(0, "hem_round").unwrap() / 25.4;
        assert!((hem - part * 2.0 * PI * (exact + 24.0)).abs() < 1e-4, "{quarters} quarters: hem {hem} in");
        // A quarter of a ring, from π times the difference of the squares.
        let area = skirt.area("panel") / (25.4 * 25.4);
        let ring = PI / 4.0 * ((exact + 24.0) * (exact + 24.0) - exact * exact);
        assert!((area - ring).abs() < 1e-4 * ring, "{quarters} quarters: {area} instead of {ring} square in");
    }
}

/// Hobby, "Smooth, easy to compute interpolating splines", Discrete & Computational Geometry 1 (1986):
/// a quarter circle, left and reached square, has handles of
/// 2 / 3(1 + cos 45°) of its chord, hence of 0.5523 of its radius; its length is within 0.03 % of
/// πr/2, and no place of it further from the circle than 0.06 % of the radius.
#[test]
fn a_smooth_curve_drawn_as_a_quarter_circle_is_one() {
    let drafted = draft_in(
        "cm",
        r#"sizes one
block piece panel "Panel" {
  cut 1
  point middle = (0, 0)
  point low    = (0, -40)
  point side   = (40, 0)
  outline from middle {
    left  to low
    round to side  curve leaving right arriving up
    top   to middle
  }
}
"#,
    )
    .drawn_soundly();
    let radius = 400.0;
    let length = drafted.length("panel", "round");
    let quarter = PI * radius / 2.0;
    assert!((length / quarter - 1.0).abs() < 0.0003, "{length} instead of {quarter}");
    let edge = &drafted.piece("panel").edges[1].path;
    for step in 0..=200 {
        let away = edge.point_at_length(length * f64::from(step) / 200.0).to_vec2().hypot();
        assert!((away / radius - 1.0).abs() < 0.0006, "{away} from the middle");
    }
    // Midway along, by the handles: chord r√2, handles 2/(3(1 + √½)) of it; the middle of a cubic
    // is (1, 3, 3, 1)/8 of its corners and handles.
    let handle = SQRT_2 * 2.0 / (3.0 * (1.0 + 0.5_f64.sqrt())) * radius;
    let across = (3.0 * handle + 3.0 * radius + radius) / 8.0;
    let middle = edge.point_at_length(length / 2.0);
    assert!((middle.x - across).abs() < 1e-6 && (middle.y + across).abs() < 1e-6, "{middle:?}, {across}");
}
