//! Moving fullness: darts moved, left unsewn and shut, and wedges taken out. Figures are worked out by hand, in
//! centimetres where they are said and in millimetres where they come out.

use crate::cases::cases;
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

fn dart(drafted: &Drafted, at: usize) -> &DrawnTakeUp {
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

/// A block of right angles 40 by 60, with darts to (20, 40): one from the middle of the top, 4 wide and 20 deep, one from
/// the middle of the bottom, 6 wide and 40 deep.
fn princess(done: &str) -> Drafted {
    draft(&format!(
        "block piece front \"Front\" {{\n cut 1 on fold left\n outline rectangle 40 by 60\n mark bust = (20, 40)\n \
         line chest across at (0, 45)\n mark badge = (5, 50)\n \
         dart upper on top in the middle width 4 to bust stopping 2 short pressed toward left\n \
         dart lower on bottom in the middle width 6 to bust stopping 3 short pressed toward left\n}}\n{done}"
    ))
}

/// By hand: above the point both new edges are √(20² + 2²) long, below it √(40² + 3²); the corners there of both pieces
/// are 360° together less both darts, 2·atan(2/20) and 2·atan(3/40). The chest line, 5 above the point, loses 4·5/20.
#[test]
fn a_princess_seam_takes_both_darts() {
    let drafted =
        princess("split front from upper through bust to lower into side_front, middle as princess")
            .drawn_soundly();
    let (above, below) = (200.0_f64.hypot(20.0), 400.0_f64.hypot(30.0));
    let mut corners = 0.0;
    for piece in ["side_front", "middle"] {
        same(drafted.length(piece, "princess"), above + below);
        same(drafted.length(piece, "top"), 180.0);
        same(drafted.length(piece, "bottom"), 170.0);
        let drawn = drafted.piece(piece);
        assert!(drawn.take_ups.is_empty());
        let edge = drawn.edges.last().unwrap();
        let [first, second] = [edge.path.start(), edge.path.end()].map(|end| end - Point::new(200.0, 400.0));
        corners += first.cross(second).atan2(first.dot(second)).abs();
        // At the point and 5 on either side of it, alike on both.
        let mut notches: Vec<f64> = drawn.notches.iter().map(|notch| notch.along).collect();
        if edge.path.start().y < 300.0 {
            notches = notches.iter().map(|along| above + below - along).collect();
        }
        notches.sort_by(f64::total_cmp);
        for (along, expected) in notches.iter().zip([above - 50.0, above, above + 50.0]) {
            same(*along, expected);
        }
        assert_eq!(notches.len(), 3);
        let (start, end) = drafted.line(piece, "chest");
        same(start.distance(end), 195.0);
    }
    let darts = 2.0 * (0.1_f64.atan() + 0.075_f64.atan());
    assert!((corners - (std::f64::consts::TAU - darts)).abs() < 1e-6, "{corners}");
    // Going down, the side lies to the left; the middle keeps the fold and the badge.
    use fustian::garment::CutHow;
    assert!(matches!(drafted.piece("middle").cut, CutHow::OnFold(_)));
    assert_eq!((drafted.piece("side_front").cut, drafted.piece("side_front").count), (CutHow::Mirrored, 2));
    same_place(drafted.point("middle", "badge"), (50.0, 500.0));
    let turned_round =
        princess("split front from lower through bust to upper into middle, side_front as princess");
    assert!(matches!(turned_round.drawn_soundly().piece("middle").cut, CutHow::OnFold(_)));
}

/// A corner of 180° less 1·atan(2/20) and 1·atan(3/40) rounded 4: between the tangents an arc, shorter than both by
/// 2·4 − 8·(θ/2)/tan(θ/2)·… which for so small a turn θ is 8·θ²/24 (series of the arc against its tangents).
#[test]
fn a_rounded_princess_seam_has_no_corner() {
    let plain = princess("split front from upper through bust to lower into side_front, middle as princess");
    let drafted = princess(
        "split front from upper through bust to lower into side_front, middle as princess rounded 4",
    )
    .drawn_soundly();
    let theta = 0.1_f64.atan() + 0.075_f64.atan();
    for piece in ["side_front", "middle"] {
        let edge = &drafted.piece(piece).edges.last().unwrap().path;
        assert!(edge.is_smooth(1e-6));
        let shorter = plain.length(piece, "princess") - edge.length();
        assert!((shorter - 80.0 * theta * theta / 12.0).abs() < 0.05, "{shorter}");
    }
    let told = princess(
        "split front from upper through bust to lower into side_front, middle as princess rounded 25",
    );
    assert_eq!(told.told("alter/too-much").len(), 1);
}

#[test]
fn splits_that_cannot_be_cut() {
    for (done, slug) in [
        ("split front from upper through (60, 30) to lower into a, b as princess", "dart/reach"),
        ("split front from upper to upper into a, b as princess", "dart/apart"),
        ("split front from upper to hip into a, b as princess", "name/unknown"),
        ("split front from upper to left into a, b as princess", "name/unknown"),
        (
            "leave dart front.upper as flare\nsplit front from upper to lower into a, b as princess",
            "dart/gone",
        ),
        ("split front from upper to lower into a, b as princess rounded -1", "alter/too-much"),
    ] {
        let told = princess(done).slugs();
        assert!(told.contains(&slug), "{done}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{done}: {told:?}");
    }
    // Both are directed to one place: it need not be named.
    princess("split front from upper to lower into a, b as princess").drawn_soundly();
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
    #![proptest_config(cases(256))]

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

/// The steward's bodice, and what a variation of it does; every slug and title that is told.
fn variation(done: &str) -> Vec<String> {
    let base = std::fs::read_to_string("examples/steward-bodice.fus").expect("the bodice");
    let text = format!("variation \"Steward bodice, changed\" of \"steward-bodice.fus\"\n{done}\n");
    let loader =
        fustian::source::MemoryLoader::new().with("steward-bodice.fus", base).with("changed.fus", text);
    let told = fustian::compile(&loader, "changed.fus").diagnostics;
    told.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect()
}

#[test]
fn a_variation_drops_a_dart_or_says_it_anew() {
    // Without its bust dart the front side is 3 longer than the back's.
    let told = variation("drop dart front.bust_dart\nset bust_dart = 0.01");
    assert_eq!(told.iter().filter(|one| one.starts_with("drop/along")).count(), 1, "{told:#?}");
    assert!(told.iter().all(|one| !one.starts_with("name/") && !one.starts_with("step/")), "{told:#?}");
    let told = variation(
        "replace dart back.waist_dart on waist in the middle width back_dart to (x(waist_side)/2, 13) pressed toward centre trued",
    );
    assert!(told.is_empty(), "{told:#?}");
    for (done, slug) in [
        ("drop dart front.hip_dart", "drop/nothing"),
        ("drop dart bust_dart", "drop/nothing"),
        ("drop dart hem.bust_dart", "replace/nothing"),
        ("replace dart front.hip_dart on waist in the middle width 1 to (9, 9) cut open", "replace/nothing"),
        ("drop dart front.bust_dart\ndrop dart front.bust_dart", "name/declared-twice"),
        ("drop dart front.bust_dart\nmove dart front.bust_dart to armhole at 50%", "drop/dangling"),
    ] {
        let told = variation(done);
        assert!(told.iter().any(|one| one.starts_with(slug)), "{done}: {told:#?}");
    }
}

/// A skirt back 40 by 60, the lowest 20 of its centre a vent.
fn vented(done: &str) -> Drafted {
    draft(&format!(
        "block piece back \"Back\" {{\n cut 2 mirrored\n outline rectangle 40 by 60\n \
         divide left 20 from bottom into vent, left\n notch vent 5 from bottom\n}}\n{done}"
    ))
}

/// 4 out square to the centre: the step is 4, the hem 44, the vent as long as before.
#[test]
fn a_vent_steps_out_of_its_centre() {
    let drafted = vented("extend back.vent by 4 stepped").drawn_soundly();
    assert_eq!(drafted.edges("back"), ["bottom", "right", "top", "left", "vent_step", "vent"]);
    for (edge, long) in [("vent_step", 40.0), ("vent", 200.0), ("left", 400.0), ("bottom", 440.0)] {
        same(drafted.length("back", edge), long);
    }
    // Counted from the bottom; the vent runs down.
    same(drafted.piece("back").notches[0].along, 150.0);
    let upper = vented("extend back.left by 3 stepped").drawn_soundly();
    assert_eq!(upper.edges("back"), ["bottom", "right", "top", "left", "left_step", "vent"]);
    same(upper.length("back", "top"), 430.0);
    let smaller = vented("trim back.vent by 3 stepped").drawn_soundly();
    same(smaller.length("back", "bottom"), 370.0);
    assert_eq!(vented("extend back.right by 4 stepped").told("alter/neighbours").len(), 1);
    let again = vented("extend back.vent by 4 stepped\nextend back.vent by 2 stepped");
    assert_eq!(again.told("name/declared-twice").len(), 1, "{:?}", again.slugs());
}

/// 0 above and 2 below over a height of 60: it leans, √(60² + 2²) long, and the bottom is 42.
#[test]
fn an_edge_extended_at_one_end_only() {
    let drafted = vented("extend back.right by 0 at top_right, 2 at bottom_right").drawn_soundly();
    same(drafted.length("back", "right"), 600.0_f64.hypot(20.0));
    same(drafted.length("back", "bottom"), 420.0);
    same(drafted.length("back", "top"), 400.0);
    let by_edges = vented("extend back.right by 2 at bottom, 0 at top").drawn_soundly();
    same(by_edges.length("back", "bottom"), 420.0);
    let trimmed = vented("trim back.right by 0 at top_right, 5 at bottom_right").drawn_soundly();
    same(trimmed.length("back", "bottom"), 350.0);
    for (done, slug) in [
        ("extend back.right by 0 at top_left, 2 at bottom_right", "edge/place"),
        ("extend back.right by 0 at bottom_right, 2 at bottom", "edge/place"),
        ("extend back.right by 0 at waist, 2 at bottom", "name/unknown"),
        ("extend back.right by -1 at top_right, 2 at bottom_right", "alter/negative"),
        ("trim back.right by 0 at top_right, 45 at bottom_right", "alter/neighbours"),
    ] {
        let told = vented(done).slugs();
        assert!(told.contains(&slug), "{done}: {told:?}");
        assert!(!told.contains(&"lost/unreported"), "{done}: {told:?}");
    }
}

/// Sewn to 2 before its point, 18 from the middle of a mouth 4 wide: √(18² + 2²). Moved, 20·cos(5.711°) − 2 deep and
/// as wide as 2·20·sin(5.711°) on each side of its middle.
#[test]
fn a_dart_has_a_length() {
    let asked = "let long = length(panel.side_dart)\nlet again = length(panel.top_dart)";
    let drafted = with_darts(
        "",
        &format!("move dart panel.side_dart to top at 50% as top_dart pressed toward left\n{asked}"),
    );
    let half = 0.1_f64.atan();
    let (deep, wide) = (200.0 * half.cos() - 20.0, 200.0 * half.sin());
    same(drafted.value(0, "long").unwrap(), deep.hypot(wide));
    same(drafted.value(0, "again").unwrap(), deep.hypot(wide));
    same(
        with_darts("", "let long = length(panel.side_dart)").value(0, "long").unwrap(),
        180.0_f64.hypot(20.0),
    );
    let told =
        with_darts("", "leave dart panel.side_dart as flare\nlet long = length(panel.side_dart)").slugs();
    assert!(told.contains(&"edge/gone"), "{told:?}");
    let told = draft(
        "block piece p \"P\" { outline rectangle 20 by length(d); dart d on top at 50% width 2 to (10, 9) cut open }",
    );
    assert!(told.slugs().contains(&"name/unknown"), "{:?}", told.slugs());
}

#[test]
fn only_darts_are_moved() {
    let text = "block piece p \"P\" {\n outline rectangle 40 by 60\n \
                pleat fold_in on top in the middle depth 2 toward left\n slit cut_in on bottom at 10 from left up 8\n}\n";
    for (done, slug) in [
        ("leave dart p.fold_in as flare", "name/unknown"),
        ("move dart p.fold_in to right at 50%", "name/unknown"),
        ("close dart p.fold_in", "name/unknown"),
        ("close dart p.cut_in", "name/unknown"),
    ] {
        let told = draft(&format!("{text}{done}")).slugs();
        assert!(told.contains(&slug) && !told.contains(&"lost/unreported"), "{done}: {told:?}");
    }
}

/// A dart that reaches the line along which its piece is split must be shut, or stop before it.
#[test]
fn a_dart_that_ends_on_a_split_is_told() {
    let back = |stopping: &str, rest: &str| {
        format!(
            "fabric drill \"drill\" {{ width 150 }}\nlayer outer in drill {{ back }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle 40 by 60; line yoke across at (0, 40)\n\
             dart shoulder on top at 20 from left width 3 to (20, 40) {stopping} pressed toward left trued }}\n\
             split back at yoke into upper, lower\n{rest}"
        )
    };
    let told = |stopping: &str, rest: &str| draft(&back(stopping, rest)).told("dart/outside").len();
    assert_eq!(
        (told("", ""), told("stopping 2 short", ""), told("", "close dart upper.shoulder")),
        (1, 0, 0)
    );
}
