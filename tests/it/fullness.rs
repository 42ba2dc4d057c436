//! Moving fullness: darts moved, left unsewn and shut, and wedges taken out. Figures are worked out by hand, in
//! centimetres where they are said and in millimetres where they come out.

use crate::drafting::{Drafted, draft, same, same_place};
use fustian::resolve::DrawnTakeUp;
use fustian::shape::outline::signed_area;
use fustian::shape::path::Path;
use fustian::shape::pivot::{Gap, Turning, pivot};
use fustian::shape::{Point, Vec2};
use proptest::prelude::*;

/// A panel 40 by 60 from (0, 0) up on the fold at its left, with two darts to (20, 40), and what is done to it.
fn panel(done: &str) -> Drafted {
    with_darts("trued", done)
}

fn with_darts(trued: &str, done: &str) -> Drafted {
    draft(&format!(
        "block piece panel \"Panel\" {{\n cut 1 on fold left\n outline rectangle 40 by 60\n mark bust = (20, 40)\n \
         dart side_dart on right at 20 from top width 4 to bust stopping 2 short pressed down {trued}\n \
         dart waist_dart on bottom at 20 from left width 4 to bust stopping 2 short pressed toward left {trued}\n}}\n{done}"
    ))
}

fn dart<'d>(drafted: &'d Drafted, at: usize) -> &'d DrawnTakeUp {
    &drafted.piece("panel").take_ups[at]
}

/// The angle of a dart at the place that it is directed to, in radians.
fn angle(dart: &DrawnTakeUp) -> f64 {
    let [one, other] = dart.wedge.sides.map(|side| side - dart.apex);
    one.cross(other).atan2(one.dot(other)).abs()
}

/// Taken from a straight edge 4 wide and 20 from its point: 2·atan(2/20) = 11.42°, before and after; the dart from
/// the bottom 2·atan(2/40) = 5.72°.
#[test]
fn a_moved_dart_keeps_its_point_its_angle_and_the_edges_that_it_does_not_touch() {
    let drafted = with_darts("", "move dart panel.side_dart to top at 50% as top_dart pressed toward left");
    let moved = dart(&drafted, 0);
    same_place(moved.apex, (200.0, 400.0));
    assert!((angle(moved) - 2.0 * (0.1_f64).atan()).abs() < 1e-9);
    assert!((angle(dart(&drafted, 1)) - 2.0 * (0.05_f64).atan()).abs() < 1e-9);
    // 20 from its point both sides, and 2·20·sin(5.711°) wide.
    for side in moved.wedge.sides {
        same(side.distance(Point::new(200.0, 400.0)), 200.0);
    }
    let wide = 400.0 * (0.1_f64).atan().sin();
    same(drafted.length("panel", "top"), 400.0 + wide);
    same(drafted.length("panel", "right"), 560.0);
    same(drafted.length("panel", "left"), 600.0);
    same(drafted.length("panel", "bottom"), 400.0);
    // The fold stays where it is.
    same_place(drafted.point("panel", "bottom_left"), (0.0, 0.0));
    same_place(drafted.point("panel", "top_left"), (0.0, 600.0));
    // It is sewn to 2 before its point, straight below the middle of the new mouth.
    same(moved.wedge.point.distance(moved.apex), 20.0);
    assert_eq!(drafted.told("dart/gone").len(), 0);
}

#[test]
fn steps_and_measures_find_a_moved_dart_by_its_old_name() {
    let drafted = panel(
        "move dart panel.side_dart to top at 50% as top_dart pressed toward left\n\
         move dart panel.side_dart to top at 30% from left pressed toward left",
    )
    .drawn_soundly();
    assert_eq!(drafted.piece("panel").take_ups.len(), 2);
    assert!(drafted.told("dart/gone").is_empty());
}

/// 40 % of 11.42° goes, 60 % stays.
#[test]
fn a_share_of_a_dart_goes_and_the_rest_stays() {
    let drafted =
        with_darts("", "move 40% of dart panel.side_dart to top at 50% as top_dart pressed toward left")
            .drawn_soundly();
    let whole = 2.0 * (0.1_f64).atan();
    assert_eq!(drafted.piece("panel").take_ups.len(), 3);
    assert!((angle(dart(&drafted, 0)) - 0.6 * whole).abs() < 1e-9);
    assert!((angle(dart(&drafted, 2)) - 0.4 * whole).abs() < 1e-9);
    let mouth = dart(&drafted, 0).mouth.unwrap();
    same(mouth.to - mouth.from, 2.0 * (200.0_f64.hypot(20.0)) * (0.3 * whole).sin());
}

/// The angles add up, and the mouth is that of both: 2·√(400² + 20²)·sin(8.57°).
#[test]
fn a_dart_goes_into_another() {
    let drafted = with_darts("", "move dart panel.side_dart into waist_dart");
    assert_eq!(drafted.piece("panel").take_ups.len(), 1);
    let both = (0.1_f64).atan() + (0.05_f64).atan();
    assert!((angle(dart(&drafted, 0)) - 2.0 * both).abs() < 1e-9);
    let mouth = dart(&drafted, 0).mouth.unwrap();
    same(mouth.to - mouth.from, 2.0 * 400.0_f64.hypot(20.0) * both.sin());
    assert_eq!(dart(&drafted, 0).pressed, panel("").piece("panel").take_ups[1].pressed);
}

/// With truing the edge that it leaves is smooth, and both sides of the new mouth are equally long.
#[test]
fn edges_are_trued_where_a_dart_was_and_where_it_is() {
    let drafted = panel("move dart panel.side_dart to top at 50% pressed toward left").drawn_soundly();
    assert!(!drafted.slugs().contains(&"dart/kink"));
    let piece = drafted.piece("panel");
    let right = piece.edges.iter().find(|edge| (edge.path.length() - 560.0).abs() < 5.0).unwrap();
    assert!(right.path.is_smooth(1e-6));
    let [one, other] = dart(&drafted, 0).wedge.legs();
    same(one, other);
    // Without it the edge has a corner of the dart's angle.
    let told =
        with_darts("", "move dart panel.side_dart to top at 50% pressed toward left").told("dart/kink");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].contains("11.4°"), "{told:?}");
}

/// The mouth counts: 36 + 4.
#[test]
fn a_dart_left_unsewn_makes_its_edge_longer() {
    let finished = "let sewn = finished(panel.bottom)";
    same(panel(finished).value(0, "sewn").unwrap().round(), 360.0);
    let drafted = with_darts("", &format!("leave dart panel.waist_dart as flare\n{finished}"));
    same(drafted.value(0, "sewn").unwrap(), 400.0);
    assert_eq!(drafted.piece("panel").take_ups.len(), 1);
    let trued = panel("leave dart panel.waist_dart as flare").drawn_soundly();
    let bottom = &trued.piece("panel").edges[0].path;
    assert!(bottom.is_smooth(1e-6));
}

/// A yoke 40 by 20 with a dart of 11.42° from its top to its lower edge: shut, the lower edge is as long and the top 4
/// shorter.
#[test]
fn a_yoke_swallows_a_dart() {
    let text = "block piece back \"Back\" {\n cut 1 on fold left\n outline rectangle 40 by 60\n \
                line yoke across at (0, 40)\n \
                dart shoulder on top at 20 from left width 4 to (20, 40) stopping 2 short pressed toward left trued\n}\n\
                split back at yoke into yoke_piece, lower\n";
    let drafted = draft(&format!("{text}close dart yoke_piece.shoulder")).drawn_soundly();
    let yoke = drafted.piece("yoke_piece");
    assert!(yoke.take_ups.is_empty());
    same(drafted.length("yoke_piece", "yoke"), 400.0);
    same(drafted.length("lower", "yoke"), 400.0);
    same(drafted.length("yoke_piece", "right"), 200.0);
}

/// What was flared by 4 and folded out by 4 is as it was, but for the bow of the hem: it is measured on that.
#[test]
fn folding_out_undoes_a_flare() {
    let text = |done: &str| {
        format!(
            "block piece skirt \"Skirt\" {{\n cut 1\n outline rectangle 40 by 60\n line slash from (15, 60) to (15, 0)\n}}\n{done}"
        )
    };
    let drafted =
        draft(&text("flare skirt along slash by 4\nfold out skirt along slash by 4")).drawn_soundly();
    for (edge, long) in [("bottom", 400.0), ("right", 600.0), ("top", 400.0), ("left", 600.0)] {
        assert!(
            (drafted.length("skirt", edge) - long).abs() < 0.5,
            "{edge}: {}",
            drafted.length("skirt", edge)
        );
    }
    assert!(drafted.point("skirt", "bottom_right").distance(Point::new(400.0, 0.0)) < 0.5);
    assert!(drafted.point("skirt", "top_right").distance(Point::new(400.0, 600.0)) < 0.5);
    // Of itself: the hem is about 4 shorter, the top as long, the hinge where it was.
    let folded = draft(&text("fold out skirt along slash by 4")).drawn_soundly();
    same(folded.length("skirt", "top"), 400.0);
    assert!((folded.length("skirt", "bottom") - 360.0).abs() < 1.0);
    let told = draft(&text("fold out skirt along slash by 30")).told("alter/too-much");
    assert_eq!(told.len(), 1, "{told:?}");
}

/// Lapped by as much as it was spread.
#[test]
fn overlapping_undoes_a_spread() {
    let text = "block piece skirt \"Skirt\" {\n cut 1\n outline rectangle 40 by 60\n line middle along at (15, 0)\n}\n\
                spread skirt along middle by 4\noverlap skirt along middle by 4\noverlap skirt along middle by 3";
    let drafted = draft(text).drawn_soundly();
    same(drafted.length("skirt", "bottom"), 370.0);
    same(drafted.length("skirt", "left"), 600.0);
}

/// Slips: each is told, and what is told does not depend on what follows.
#[test]
fn darts_that_cannot_be_moved() {
    for (done, slug) in [
        ("move dart panel.side_dart to top at 50 from left", "dart/reach"),
        ("move dart panel.side_dart to top at 0 from left", "dart/reach"),
        ("move dart panel.side_dart to bottom at 20 from left", "dart/reach"),
        ("move dart panel.side_dart to right at 20 from top", "dart/reach"),
        ("move dart panel.side_dart to left at 50%", "dart/fold"),
        ("move dart panel.side_dart to hem at 50%", "name/unknown"),
        ("move dart panel.sidedart to top at 50%", "name/unknown"),
        ("move dart panel.right to top at 50%", "name/unknown"),
        ("move 0% of dart panel.side_dart to top at 50% as top_dart", "dart/share"),
        ("move 101% of dart panel.side_dart to top at 50% as top_dart", "dart/share"),
        ("move 2 of dart panel.side_dart to top at 50% as top_dart", "dart/share"),
        ("move 4cm of dart panel.side_dart to top at 50% as top_dart", "dart/share"),
        ("move 40% of dart panel.side_dart to top at 50%", "dart/share"),
        ("move dart panel.side_dart into waist_dart as top_dart", "dart/share"),
        ("move dart panel.side_dart into side_dart", "dart/apart"),
        ("move dart panel.side_dart to top at 50% as waist_dart", "name/declared-twice"),
        ("move dart panel.side_dart to top at 50% stopping 25 short", "dart/nothing"),
        ("close dart panel.side_dart", "dart/close"),
        ("leave dart panel.side_dart as flare\nclose dart panel.side_dart", "dart/gone"),
        ("move dart panel.side_dart into waist_dart\nmove dart panel.side_dart to top at 50%", "dart/gone"),
    ] {
        let told = panel(done).slugs();
        assert!(told.contains(&slug), "{done}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{done}: {told:?}");
    }
    // To its own edge, farther up, it may go; so may one that was moved away come back.
    assert!(
        panel("move dart panel.side_dart to right at 5 from top")
            .slugs()
            .iter()
            .all(|slug| *slug != "dart/reach")
    );
    let there_and_back = panel(
        "move dart panel.side_dart to top at 50% pressed toward left\n\
         move dart panel.side_dart to right at 20 from top pressed down",
    )
    .drawn_soundly();
    assert!((angle(dart(&there_and_back, 0)) - angle(dart(&panel(""), 0))).abs() < 1e-3);
}

/// A star-shaped ring about (0, 0): corners at growing angles.
fn ring(radii: &[f64]) -> Vec<Path> {
    let count = radii.len() as f64;
    let corners: Vec<Point> = radii
        .iter()
        .enumerate()
        .map(|(at, radius)| {
            Point::ZERO + Vec2::from_angle(std::f64::consts::TAU * at as f64 / count) * *radius
        })
        .collect();
    let ends = corners.iter().cycle().skip(1);
    corners.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
}

proptest! {
    /// Whatever the outline, the place and the share: no angle at the point is lost (a full turn is 360° less the
    /// angle of the mouths), no edge but the two changes its length, and without the mouths as much cloth is left.
    #[test]
    fn turning_about_a_point_loses_nothing(
        radii in proptest::collection::vec(80.0..160.0f64, 5..9),
        shut_at in 0..5usize, open_after in 1..4usize,
        from in 0.2..0.45f64, wide in 0.02..0.1f64, open in 0.2..0.8f64,
        share in 0.1..=1.0f64, after in any::<bool>(),
    ) {
        let ring = ring(&radii);
        let count = ring.len();
        let shut_edge = shut_at % count;
        let open_edge = (shut_edge + open_after) % count;
        let long = ring[shut_edge].length();
        // A mouth with legs of one length: its second side at the distance of the first.
        let first = ring[shut_edge].point_at_length(from * long);
        let turn = fustian::shape::Affine::rotate(wide);
        let second = turn * first;
        let shut = Gap { edge: shut_edge, from: from * long, to: from * long };
        // The mouth is cut into the ring, so that both legs are equal.
        let mut notched = ring.clone();
        let bent = Path::straight(ring[shut_edge].start(), first)
            .then(&Path::straight(first, second))
            .then(&Path::straight(second, ring[shut_edge].end()));
        notched[shut_edge] = bent;
        let shut = Gap { to: shut.from + first.distance(second), ..shut };
        let at = open * notched[open_edge].length();
        let opens = Gap { edge: open_edge, from: at, to: at };
        prop_assume!(open_edge != shut_edge);
        let turning = if after { Turning::AfterShut } else { Turning::BeforeShut };
        let made = pivot(&notched, Point::ZERO, shut, opens, share, turning).unwrap();
        let mouth = |edge: usize, (from, to): (f64, f64)| {
            let [one, other] = [from, to].map(|at| made.edges[edge].point_at_length(at).to_vec2());
            (one.cross(other).atan2(one.dot(other)).abs(), one.cross(other).abs() / 2.0)
        };
        let ((left, left_cloth), (new, new_cloth)) = (mouth(shut_edge, made.shut), mouth(open_edge, made.opened));
        prop_assert!((left + new - wide).abs() < 1e-9, "{left} {new} {wide}");
        prop_assert!((new - share * wide).abs() < 1e-9);
        for edge in (0..count).filter(|edge| ![shut_edge, open_edge].contains(edge)) {
            prop_assert!((made.edges[edge].length() - notched[edge].length()).abs() < 1e-9);
        }
        let old = signed_area(&notched).abs() - first.to_vec2().cross(second.to_vec2()).abs() / 2.0;
        let now = signed_area(&made.edges).abs() - left_cloth - new_cloth;
        prop_assert!((old - now).abs() < 1e-6, "{old} {now}");
        // Round the point, from corner to corner, the mouths left out.
        let mut round = 0.0;
        for edge in &made.edges {
            for segment in edge.segments() {
                let cubic = segment.to_cubic();
                let (one, other) = (cubic.p0.to_vec2(), cubic.p3.to_vec2());
                round += one.cross(other).atan2(one.dot(other));
            }
        }
        prop_assert!((round.abs() - std::f64::consts::TAU).abs() < 1e-9);
        prop_assert!((round.abs() - left - new - (std::f64::consts::TAU - wide)).abs() < 1e-9);
    }
}
