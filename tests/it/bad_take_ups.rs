//! Nonsense in what is taken out of edges, sewn beside them and hung on them: each is one clear mistake or a few, in
//! no time.

use crate::workbench::told;
use std::time::{Duration, Instant};

/// A panel of 40 by 60 with a dart to a point in it, and what is asked of it.
fn text(inside: &str, behind: &str) -> String {
    format!(
        "garment \"Galley apron\"\nunits cm\nallowance 1\n\
         fabric drill \"cotton drill\" {{ width 150; kind woven firm }}\nlayer outer in drill {{ panel }}\n\
         piece panel \"Panel\" {{\ncut 1\noutline rectangle 40 by 60\nmark point_in = (20, 30)\nline hip across at (0, 40)\n\
         {inside}\n}}\n{behind}\nfinish panel.left, panel.right, panel.top  overlocked\n{}\n",
        if behind.contains("cut off") { "" } else { "finish panel.bottom  overlocked" }
    )
}

const DART: &str = "dart own on top at 20 from left width 3 to point_in pressed toward left trued";
const SLIT: &str = "slit own on top at 20 from left down 12 window 1";
const SIDES: &str = "finish panel.own.near, panel.own.far, panel.own.end  bound 0.5";

/// What is wrong, in the piece and behind it, and a slug that tells it.
const BAD: &[(&str, &str, &str)] = &[
    ("dart d on top at 20 from left width 0 to point_in pressed toward left trued", "", "dart/nothing"),
    ("dart d on top at 20 from left width -1 to point_in pressed toward left trued", "", "dart/nothing"),
    ("dart d on top at 20 from left width 50 to point_in pressed toward left trued", "", "dart/off-edge"),
    ("dart d on top at 1 from left width 3 to point_in pressed toward left trued", "", "dart/off-edge"),
    ("dart d on top at 45 from left width 3 to point_in pressed toward left trued", "", "dart/off-edge"),
    ("dart d on top at 20 from left width 3 to (20, 80) pressed toward left trued", "", "dart/outside"),
    ("dart d on top at 20 from left width 3 to (20, -5) pressed toward left trued", "", "dart/outside"),
    ("dart d on top at 20 from left width 3 to (20, 60) pressed toward left trued", "", "dart/nothing"),
    (
        "dart d on top at 20 from left width 3 to point_in stopping 40 short pressed toward left trued",
        "",
        "dart/nothing",
    ),
    (
        "dart d on top at 20 from left width 3 to point_in stopping -2 short pressed toward left trued",
        "",
        "dart/nothing",
    ),
    ("dart d at (20, 30) width 0 up 5 down 5 pressed toward left", "", "dart/nothing"),
    ("dart d at (20, 30) width 2 up 0 down 5 pressed toward left", "", "dart/nothing"),
    ("dart d at (20, 30) width 2 up 50 down 5 pressed toward left", "", "dart/outside"),
    ("dart d at (60, 30) width 2 up 5 down 5 pressed toward left", "", "dart/outside"),
    ("pleat p on top at 20 from left depth 0 toward left", "", "pleat/nothing"),
    ("pleat p on top at 20 from left depth -2 toward left", "", "pleat/nothing"),
    ("pleat p on top at 20 from left depth 30 toward left", "", "pleat/off-edge"),
    ("pleat p on top at 0 from left depth 2 box", "", "pleat/off-edge"),
    ("pleat p on top at 39 from left depth 2 toward left", "", "pleat/off-edge"),
    ("pleat p on top at 5 from left depth 1 count 0 apart 2 toward left", "", "pleat/nothing"),
    ("pleat p on top at 5 from left depth 1 count -3 apart 2 toward left", "", "pleat/nothing"),
    ("pleat p on top at 5 from left depth 1 count 2.5 apart 2 toward left", "", "pleat/nothing"),
    ("pleat p on top at 5 from left depth 1 count 3 apart 0 toward left", "", "pleat/nothing"),
    ("pleat p on top at 5 from left depth 1 count 3 apart -2 toward left", "", "pleat/nothing"),
    ("pleat p on top at 5 from left depth 1 count 1000 apart 2 toward left", "", "limit/pleats"),
    ("pleat p on top at 5 from left depth 0.01 count 1000000000 apart 0.02 toward left", "", "limit/pleats"),
    ("tuck t on top at 2 from left depth 0.3 count 1000 apart 1 toward right to bottom", "", "limit/pleats"),
    ("tuck t on top at 2 from left depth 0 count 3 apart 1 toward right to bottom", "", "pleat/nothing"),
    ("tuck t on top at 2 from left depth 0.3 count 3 apart 1 toward right to left", "", "pleat/sewn"),
    ("pleat p on top at 20 from left depth 2 box stitched down 80", "", "pleat/sewn"),
    ("pleat p on top at 20 from left depth 2 box stitched down -1", "", "pleat/nothing"),
    ("slit s on top at 20 from left down 0", "finish panel.s.near, panel.s.far  bound 0.5", "slit/nothing"),
    ("slit s on top at 20 from left down -5", "finish panel.s.near, panel.s.far  bound 0.5", "slit/nothing"),
    ("slit s on top at 20 from left down 80", "finish panel.s.near, panel.s.far  bound 0.5", "slit/outside"),
    ("slit s on top at 20 from left up 10", "finish panel.s.near, panel.s.far  bound 0.5", "slit/outside"),
    (
        "slit s on top at 20 from left to (60, 30)",
        "finish panel.s.near, panel.s.far  bound 0.5",
        "slit/outside",
    ),
    ("slit s on top at 45 from left down 10", "finish panel.s.near, panel.s.far  bound 0.5", "slit/off-edge"),
    ("slit own on top at 20 from left down 12 window -1", SIDES, "slit/nothing"),
    ("slit own on top at 20 from left down 12 window 50", SIDES, "slit/off-edge"),
    (
        "slit s on top at 10 from left to (30, 40)\nslit r on top at 30 from left to (10, 40)",
        "finish panel.s.near, panel.s.far, panel.r.near, panel.r.far  bound 0.5",
        "slit/overlap",
    ),
    (
        "",
        "let dart d into panel.right at 30 from top angle 0° to point_in turning to bottom pressed down trued",
        "dart/nothing",
    ),
    (
        "",
        "let dart d into panel.right at 30 from top angle -5° to point_in turning to bottom pressed down trued",
        "dart/nothing",
    ),
    (
        "",
        "let dart d into panel.right at 30 from top angle 200° to point_in turning to bottom pressed down trued",
        "dart/nothing",
    ),
    (
        "",
        "let dart d into panel.right at 30 from top angle 10° to (90, 30) turning to bottom pressed down trued",
        "dart/reach",
    ),
    (
        "",
        "let dart d into panel.right at 80 from top angle 10° to point_in turning to bottom pressed down trued",
        "dart/reach",
    ),
    ("", "let pleat p into panel.top at 20 from left depth 0 toward left", "pleat/nothing"),
    ("", "let pleat p into panel.top at 20 from left depth -2 toward left", "pleat/nothing"),
    ("", "let pleat p into panel.top at 50 from left depth 2 toward left", "pleat/off-edge"),
    (DART, "move 0% of dart panel.own to right at 20 from top as new pressed down trued", "dart/share"),
    (DART, "move 150% of dart panel.own to right at 20 from top as new pressed down trued", "dart/share"),
    (DART, "move dart panel.own to right at 90 from top pressed down trued", "dart/reach"),
    ("", "strap s 0 by 2 in outer { from panel.point_in to free }", "value/nothing"),
    ("", "strap s 20 by 0 in outer { from panel.point_in to free }", "value/nothing"),
    ("", "strap s 20 by -2 in outer { from panel.point_in to free }", "value/negative"),
    ("", "strap s 20 by 2 in outer {\nfrom panel.point_in to free\nsewn -1\n}", "value/negative"),
    ("", "strap s 20 by 2 in outer {\nfrom panel.point_in to free\nsewn 30\n}", "strap/short"),
    ("", "topstitch r -1 from panel.top", "value/negative"),
    ("", "topstitch r 1 from panel.top rows 0 apart 1", "row/room"),
    ("", "topstitch r 1 from panel.top rows 2.5 apart 1", "row/room"),
    ("", "topstitch r 1 from panel.top rows 1000000000 apart 1", "row/room"),
    ("", "topstitch r 1 from panel.top rows 2 apart 0", "row/room"),
    ("", "topstitch r 90 from panel.top", "row/room"),
    ("", "topstitch r 1 from panel.top 0..50 from top_left", "row/place"),
    ("", "topstitch r 1 from panel.top 5..5 from top_left", "row/place"),
    ("", "understitch r 1 from panel.top", "row/no-seam"),
    ("", "tack t panel.point_in bar 0", "value/nothing"),
    ("", "tack t panel.point_in bar -1", "value/negative"),
    ("", "tack t panel.top at 50 from top_left bar 1", "row/place"),
    ("", "tack t panel.point_in to panel.point_in", "row/place"),
    (SLIT, "placket p on panel.own bound 0", "outline/collapses"),
    (SLIT, "placket p on panel.own bound -1", "outline/collapses"),
    (SLIT, "placket p on panel.own two-part over 0 under 1", "outline/collapses"),
    (SLIT, "placket p on panel.own two-part over 2 under 5", "seam/unequal"),
    (
        "slit s on top at 17 from left to (21, 45)\ndart d on top at 20 from left width 3 to point_in pressed toward left trued",
        "finish panel.s.near, panel.s.far  bound 0.5",
        "slit/overlap",
    ),
    // On an edge that an alteration removes.
    (
        "slit own on bottom at 20 from left up 12 window 1",
        "cut off panel at hip\nfinish panel.hip  overlocked\nfinish panel.own.near, panel.own.far, panel.own.end  bound 0.5",
        "edge/gone",
    ),
    (
        "dart own on bottom at 20 from left width 3 to (20, 20) pressed toward left trued",
        "cut off panel at hip\nfinish panel.hip  overlocked\nsteps { \"Dart\" { sew panel.own } }",
        "step/nothing",
    ),
    (
        "",
        "cut off panel at hip\nfinish panel.hip  overlocked\nstrap s 20 by 2 in outer { from panel.bottom in the middle to free }",
        "edge/gone",
    ),
    (
        "",
        "cut off panel at hip\nfinish panel.hip  overlocked\ntack t panel.bottom in the middle bar 1",
        "edge/gone",
    ),
    ("", "cut off panel at hip\nfinish panel.hip  overlocked\ntopstitch t 1 from panel.bottom", "edge/gone"),
];

#[test]
fn each_is_told_at_once() {
    let mut odd: Vec<String> = Vec::new();
    for (inside, behind, slug) in BAD {
        let began = Instant::now();
        let told = told(&text(inside, behind));
        let took = began.elapsed();
        let known = told.iter().any(|(own, _)| own == slug);
        if !known || told.len() > 4 || took > Duration::from_secs(10) {
            odd.push(format!("{inside} | {behind} | {slug}\n    {took:?} {told:?}"));
        }
    }
    assert!(odd.is_empty(), "{}", odd.join("\n"));
}

/// The same panel with what is right about it.
#[test]
fn its_sound_neighbours_pass() {
    for (inside, behind) in [
        (DART, ""),
        ("pleat p on top at 20 from left depth 3 toward left", ""),
        // Its cloth lies under the panel, and not beyond its corner.
        ("pleat p on top at 1 from left depth 3 toward left", ""),
        ("pleat p on top at 5 from left depth 1 count 3 apart 2 toward left", ""),
        ("tuck t on top at 2 from left depth 0.3 count 20 apart 1 toward right to bottom", ""),
        (SLIT, SIDES),
        (
            "",
            "let dart d into panel.right at 30 from top angle 10° to point_in turning to bottom pressed down trued",
        ),
        ("", "let pleat p into panel.top at 20 from left depth 2 toward left"),
        (
            DART,
            "move 40% of dart panel.own to right at 20 from top as new stopping 2 short pressed down trued",
        ),
        ("", "strap s 20 by 2 in outer { from panel.point_in to free }"),
        ("", "topstitch r 1 from panel.top rows 2 apart 0.5"),
        ("", "tack t panel.point_in bar 1"),
    ] {
        assert_eq!(told(&text(inside, behind)), [], "{inside} | {behind}");
    }
}
