//! Letting take-ups into a piece that is drawn without them. Figures are worked out by hand, in centimetres where they
//! are said and in millimetres where they come out.

use crate::drafting::{Drafted, draft, same, same_place};
use fustian::resolve::DrawnTakeUp;
use proptest::prelude::*;

/// A panel 40 by 60 from (0, 0) up on the fold at its left, and what is done to it.
fn panel(done: &str) -> Drafted {
    draft(&format!(
        "block piece panel \"Panel\" {{\n cut 1 on fold left\n outline rectangle 40 by 60\n mark bust = (20, 40)\n}}\n{done}"
    ))
}

fn dart(drafted: &Drafted) -> &DrawnTakeUp {
    drafted.piece("panel").take_ups.last().expect("a dart")
}

/// The angle of a dart at the place that it is directed to, in degrees.
fn angle(dart: &DrawnTakeUp) -> f64 {
    let [one, other] = dart.wedge.sides.map(|side| side - dart.apex);
    one.cross(other).atan2(one.dot(other)).abs().to_degrees()
}

/// Cut 20 from its point: both legs 20, and the mouth 2·20·sin(10°) = 6.946 wide. The lower corner of the side lies 20
/// beside and 40 below the point: turned by 20° it lies 20·cos(20°) − 40·sin(20°) = 5.113 beside and
/// 20·sin(20°) + 40·cos(20°) = 44.428 below it.
#[test]
fn a_dart_is_let_in_and_the_paper_below_it_turns() {
    let drafted = panel(
        "let dart side_dart into panel.right at 20 from top angle 20° to bust turning to bottom stopping 2 short pressed down\n\
         let sewn = finished(panel.right)\nlet bottom = length(panel.bottom)",
    )
    .drawn_soundly();
    let let_in = dart(&drafted);
    same_place(let_in.apex, (200.0, 400.0));
    assert!((angle(let_in) - 20.0).abs() < 1e-9);
    let [one, other] = let_in.wedge.sides.map(|side| side.distance(let_in.apex));
    same(one, 200.0);
    same(other, 200.0);
    let ten = 10.0_f64.to_radians();
    same(drafted.length("panel", "right"), 600.0 + 400.0 * ten.sin());
    same(drafted.value(0, "sewn").unwrap(), 600.0);
    same(drafted.length("panel", "top"), 400.0);
    same(drafted.length("panel", "left"), 600.0);
    let twenty = 20.0_f64.to_radians();
    let (beside, below) =
        (200.0 * twenty.cos() - 400.0 * twenty.sin(), 200.0 * twenty.sin() + 400.0 * twenty.cos());
    same_place(drafted.point("panel", "bottom_right"), (200.0 + beside, 400.0 - below));
    same_place(drafted.point("panel", "top_right"), (400.0, 600.0));
    // The lap takes 2·40·tan(10°) = 14.11 of the 40; the smooth curve is no shorter than its chord and no longer
    // than the corner that it takes off.
    let bottom = drafted.value(0, "bottom").unwrap();
    let chord = (200.0 + beside).hypot(400.0 - below);
    let cornered = 400.0 - 800.0 * ten.tan();
    assert!(bottom >= chord - 1e-6 && bottom <= cornered + 1e-6, "{chord} {bottom} {cornered}");
    let edges = &drafted.piece("panel").edges;
    assert!(edges.iter().all(|edge| edge.path.is_smooth(1e-6) || edge.path.length() > 600.0));
    // Pressed down: towards the side that lies lower.
    let lower = if let_in.wedge.sides[0].y < let_in.wedge.sides[1].y { 0 } else { 1 };
    assert_eq!(let_in.pressed, Some(lower));
    same(let_in.wedge.point.distance(let_in.apex), 20.0);
}

/// With a dart let in and moved on, all that is known of darts goes for it.
#[test]
fn a_dart_that_was_let_in_is_a_dart() {
    let let_in = "let dart side_dart into panel.right at 20 from top angle 12° to bust turning to bottom pressed down\n";
    let drafted = panel(&format!(
        "{let_in}move dart panel.side_dart to top at 50% pressed toward left trued\nleave dart panel.side_dart as flare"
    ));
    assert!(drafted.piece("panel").take_ups.is_empty());
    assert!(drafted.told("dart/gone").is_empty());
    // As ease it must be eased; nothing is sewn to the panel.
    let eased = panel(&format!("{let_in}leave dart panel.side_dart as ease"));
    assert_eq!(eased.told("dart/uneased").len(), 1);
    assert!(eased.told("dart/uneased")[0].contains("right"), "{:?}", eased.told("dart/uneased"));
}

#[test]
fn darts_that_cannot_be_let_in() {
    let into = |at: &str, angle: &str, to: &str, turning: &str| {
        format!("let dart new_dart into panel.{at} angle {angle} to {to} turning to {turning} pressed down")
    };
    for (done, slug) in [
        (into("right at 20 from top", "0°", "bust", "bottom"), "dart/nothing"),
        (into("right at 20 from top", "91°", "bust", "bottom"), "dart/nothing"),
        (into("right at 20 from top", "20", "bust", "bottom"), "unit/bare"),
        (into("right at 20 from top", "2cm", "bust", "bottom"), "unit/mixed"),
        (into("right at 0 from top", "20°", "bust", "bottom"), "dart/reach"),
        (into("right at 70 from top", "20°", "bust", "bottom"), "dart/reach"),
        // atan(20/40) = 26.6° to each side of the middle: more does not lap within the bottom.
        (into("right at 20 from top", "54°", "bust", "bottom"), "dart/turning"),
        (into("right at 20 from top", "20°", "bust", "bottom at 38 from left"), "dart/turning"),
        (into("right at 20 from top", "20°", "bust", "bottom at 45 from left"), "dart/turning"),
        // Slanting to the bottom, the two sides of the lap are not equally long.
        (into("right at 20 from top", "20°", "bust", "bottom at 28 from left"), "dart/turning"),
        (into("right at 20 from top", "20°", "bust", "right"), "dart/turning"),
        (into("right at 20 from top", "20°", "bust", "hem"), "name/unknown"),
        (into("right at 20 from top", "20°", "breast", "bottom"), "name/unknown"),
        (into("side at 20 from top", "20°", "bust", "bottom"), "name/unknown"),
        // A fold stays straight.
        (into("right at 20 from top", "20°", "bust", "left"), "dart/fold"),
        (into("right at 20 from top", "20°", "(60, 40)", "bottom"), "dart/reach"),
        (into("right at 20 from top", "20°", "(20, 0)", "bottom"), "dart/reach"),
        (into("right at 20 from top", "20°", "(20, 60)", "bottom"), "dart/reach"),
    ] {
        let told = panel(&done).slugs();
        assert!(told.contains(&slug), "{done}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{done}: {told:?}");
    }
    // 53° has room: 2·26.57 = 53.13.
    let wide = panel(&into("right at 20 from top", "53°", "bust", "bottom")).slugs();
    assert!(!wide.contains(&"dart/turning"), "{wide:?}");
    let twice = panel(&format!("{0}\n{0}", into("right at 20 from top", "10°", "bust", "bottom")));
    assert!(twice.slugs().contains(&"name/declared-twice"));
}

fn let_pleat(words: &str) -> Drafted {
    panel(&format!("let pleat p into panel.{words}\nlet sewn = finished(panel.top)"))
}

/// The places of the two lines of each fold on its edge, from the edge's start.
fn mouths(drafted: &Drafted) -> Vec<(f64, f64)> {
    let taken = drafted.piece("panel").take_ups.iter().filter_map(|one| one.mouth);
    taken.map(|mouth| (mouth.from, mouth.to)).collect()
}

#[track_caller]
fn at_places(drafted: &Drafted, expected: &[(f64, f64)]) {
    let found = mouths(drafted);
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (one, other) in found.iter().zip(expected) {
        assert!((one.0 - other.0).abs() < 0.01 && (one.1 - other.1).abs() < 0.01, "{found:?}");
    }
}

/// A knife pleat takes twice its depth (geometry): 40 + 4. The top runs from right to left, so that 10 from the left are 34 of
/// its 44 from its start; the pleat takes the 4 before.
#[test]
fn a_pleat_is_let_in_evenly() {
    let drafted = let_pleat("top at 10 from left depth 2 toward right").drawn_soundly();
    same(drafted.length("panel", "top"), 440.0);
    same(drafted.length("panel", "bottom"), 440.0);
    same(drafted.length("panel", "left"), 600.0);
    same(drafted.length("panel", "right"), 600.0);
    same(drafted.value(0, "sewn").unwrap(), 400.0);
    at_places(&drafted, &[(300.0, 340.0)]);
    // The point is farther than the pleat from the fold, and goes with its paper.
    same_place(drafted.point("panel", "bust"), (240.0, 400.0));
    same_place(drafted.point("panel", "top_left"), (0.0, 600.0));
}

/// Turned open about the place 10 from the fold in the hem: what takes 4 at a distance of 60 turns by 2·asin(2/60) = 3.82°,
/// by which the edge has a corner with the pleat folded. With `trued` it has none.
#[test]
fn a_pleat_that_ends_in_nothing_turns_the_paper() {
    let words = "top at 10 from left depth 2 toward right to nothing at bottom";
    let drafted = let_pleat(words);
    same(drafted.length("panel", "top"), 440.0);
    same(drafted.length("panel", "bottom"), 400.0);
    same(drafted.length("panel", "left"), 600.0);
    same(drafted.length("panel", "right"), 600.0);
    same(drafted.value(0, "sewn").unwrap(), 400.0);
    let turn = 2.0 * (20.0_f64 / 600.0).asin();
    // 30 beside the hinge, turned clockwise.
    same_place(drafted.point("panel", "bottom_right"), (100.0 + 300.0 * turn.cos(), -300.0 * turn.sin()));
    let cut = |words: &str| {
        draft(&format!(
            "fabric cotton \"cotton\" {{ width 140 }}\nlayer outer in cotton {{ panel }}\npiece panel \"Panel\" {{\n \
             cut 1 on fold left\n outline rectangle 40 by 60\n}}\nlet pleat p into panel.{words}"
        ))
    };
    let told = cut(words).told("pleat/step");
    assert!(told.len() == 1 && told[0].contains("3.8°"), "{told:?} {:?}", cut(words).slugs());
    assert!(cut(&format!("{words} trued")).told("pleat/step").is_empty());
}

/// As sewn 5 apart: 10, 15 and 20 from the left, with 2 of cloth put in at each.
#[test]
fn a_row_of_pleats_is_let_in() {
    let drafted = let_pleat("top at 10 from left depth 1 count 3 apart 5 toward right").drawn_soundly();
    same(drafted.length("panel", "top"), 460.0);
    same(drafted.length("panel", "bottom"), 460.0);
    same(drafted.value(0, "sewn").unwrap(), 400.0);
    at_places(&drafted, &[(340.0, 360.0), (270.0, 290.0), (200.0, 220.0)]);
    let fan =
        let_pleat("top at 10 from left depth 1 count 3 apart 5 toward right to nothing at bottom trued");
    same(fan.drawn_soundly().length("panel", "bottom"), 400.0);
}

/// A box or inverted one takes four times its depth. Of a box in the middle of the whole, 4 wide by itself, half is on the
/// half: 2 from the fold the 4 begin. The folds of an inverted one meet at the fold: its 6 lie there.
#[test]
fn pairs_of_folds_are_let_in() {
    let boxed = let_pleat("top at the fold depth 2 box").drawn_soundly();
    same(boxed.length("panel", "top"), 440.0);
    same(boxed.value(0, "sewn").unwrap(), 400.0);
    at_places(&boxed, &[(380.0, 420.0)]);
    let inverted = let_pleat("top at the fold depth 3 inverted").drawn_soundly();
    same(inverted.length("panel", "bottom"), 460.0);
    at_places(&inverted, &[(400.0, 460.0)]);
    // The middle of a pair 15 from the left: 3 on each side of it, 15 + 3 from the left as drawn.
    let beside = let_pleat("top at 15 from left depth 1.5 inverted").drawn_soundly();
    same(beside.value(0, "sewn").unwrap(), 400.0);
    let mut found = mouths(&beside);
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert!((found[0].0 - 250.0).abs() < 0.01 && (found[1].1 - 310.0).abs() < 0.01, "{found:?}");
}

/// Along a line that leans by atan(10/60): 4 square to it are 4/cos of that along the edge.
#[test]
fn a_pleat_is_let_in_along_a_line() {
    let drafted = draft(
        "block piece panel \"Panel\" {\n cut 2\n outline rectangle 40 by 60\n line crease from (20, 0) to (10, 60)\n}\n\
         let pleat p into panel.top at 10 from left depth 2 toward right along crease\nlet sewn = finished(panel.top)",
    )
    .drawn_soundly();
    same(drafted.length("panel", "top"), 400.0 + 40.0 * 10.0_f64.hypot(60.0) / 60.0);
    same(drafted.value(0, "sewn").unwrap(), 400.0);
}

#[test]
fn pleats_that_cannot_be_let_in() {
    for (words, slug) in [
        ("top at 0 from left depth 2 toward right", "pleat/off-edge"),
        ("top at 45 from left depth 2 toward right", "pleat/off-edge"),
        ("top at 30 from left depth 1 count 4 apart 5 toward right", "pleat/off-edge"),
        ("top at 10 from left depth 0 toward right", "pleat/nothing"),
        ("top at 10 from left depth 2", "pleat/toward"),
        ("top at 10 from left depth 2 box toward right", "pleat/toward"),
        ("top at 10 from left depth 3 box 4 wide", "pleat/too-deep"),
        ("top at the fold depth 2 toward right", "pleat/fold"),
        ("right at the fold depth 2 box", "pleat/fold"),
        ("top at 10 from left depth 2 toward right along top", "pleat/along"),
        ("top at 10 from left depth 2 toward right along crease", "name/unknown"),
        ("top at 10 from left depth 2 toward right to nothing at hem", "name/unknown"),
        ("top at 10 from left depth 2 toward right to nothing at right", "pleat/let-in"),
        ("top at 10 from left depth 2 toward right to nothing at top", "pleat/let-in"),
        ("right at 10 from top depth 2 toward top to nothing at left", "pleat/let-in"),
        ("top at 10 from left depth 31 toward right to nothing at bottom", "pleat/let-in"),
        ("hem at 10 from left depth 2 toward right", "name/unknown"),
    ] {
        let told = let_pleat(words).slugs();
        assert!(told.contains(&slug), "{words}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{words}: {told:?}");
    }
    // It is a pleat, and no dart.
    let moved = let_pleat("top at 10 from left depth 2 toward right\nmove dart panel.p to right at 50%");
    assert!(moved.slugs().contains(&"name/unknown"), "{:?}", moved.slugs());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    /// Wherever it is cut and however far it opens: the angle and the point are as said, both legs are as long as the cut,
    /// its own edge is as long sewn as it was, and so is every edge but that where the turning ends.
    #[test]
    fn letting_in_keeps_every_other_length(
        down in 12..45u32, angle_said in 2..30u32, across in 12..28u32, up in 25..45u32,
    ) {
        let drafted = draft(&format!(
            "block piece panel \"Panel\" {{\n cut 1 on fold left\n point a = (0, 0)\n point b = (40, 0)\n point c = (44, 30)\n \
             point d = (40, 60)\n point e = (0, 65)\n mark bust = ({across}, {up})\n outline from a {{\n bottom to b straight\n \
             side to d curve through c\n top to e straight\n left to a straight\n }}\n}}\n\
             let before = length(panel.top)\n\
             let dart side_dart into panel.side at {down} from d angle {angle_said}° to bust turning to bottom pressed down"
        ));
        prop_assume!(drafted.slugs().iter().all(|slug| !slug.starts_with("dart/turning") && !slug.starts_with("dart/reach")));
        let undone = draft(
            "block piece panel \"Panel\" {\n cut 1 on fold left\n point a = (0, 0)\n point b = (40, 0)\n point c = (44, 30)\n \
             point d = (40, 60)\n point e = (0, 65)\n outline from a {\n bottom to b straight\n \
             side to d curve through c\n top to e straight\n left to a straight\n }\n}",
        );
        let let_in = dart(&drafted);
        prop_assert!((angle(let_in) - f64::from(angle_said)).abs() < 1e-9);
        prop_assert!(let_in.apex.distance((f64::from(across) * 10.0, f64::from(up) * 10.0).into()) < 1e-9);
        let [one, other] = let_in.wedge.legs();
        prop_assert!((one - other).abs() < 1e-6);
        prop_assert!((drafted.length("panel", "top") - 400.0_f64.hypot(50.0)).abs() < 1e-6);
        prop_assert!((drafted.length("panel", "left") - 650.0).abs() < 1e-6);
        let mouth = let_in.mouth.unwrap();
        prop_assert!((drafted.length("panel", "side") - (mouth.to - mouth.from) - undone.length("panel", "side")).abs() < 1e-6);
        prop_assert!((mouth.to - mouth.from - 2.0 * one * f64::from(angle_said).to_radians().mul_add(0.5, 0.0).sin()).abs() < 1e-6);
    }
}
