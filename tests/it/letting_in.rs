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
