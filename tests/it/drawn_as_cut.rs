//! Pieces that are drawn as they are cut, with their allowances on.

use crate::cases::cases;
use crate::drafting::{draft, same, same_place};
use crate::workbench::{of, said};
use fustian::Compiled;
use fustian::shape::Point;
use fustian::shape::path::Path;
use lyon_geom::CubicBezierSegment;
use proptest::prelude::*;

/// A hatch cover, cut as the walk says and finished as the facts say.
fn cover(walk: &str, facts: &str) -> String {
    format!(
        "garment \"Hatch cover\"
units cm
allowance 1
fabric canvas \"apron canvas\" {{ width 150; selvage 1 }}
layer main in canvas {{ cover }}
piece cover \"Cover\" {{
  cut 1
  point a = (0, 0)
  point b = (40, 0)
  point c = (40, 30)
  point d = (0, 30)
  {walk}
}}
{facts}
"
    )
}

const WALK: &str = "outline from a cutting { below to b; side to c; above to d; lee to a }";
const EDGES: &str = "finish cover.below hem 3\nfinish cover.side, cover.above, cover.lee overlocked";

/// The ways of the stitching line and of the cutting line of the one part.
fn lines(compiled: &Compiled) -> (Vec<Path>, Vec<Path>) {
    let size = &compiled.sizes[0];
    let cut = size.cut(&compiled.garment);
    let part = cut.parts.first().expect("a part that is cut");
    let drawn = size.drawn.papers.iter().flatten().next().expect("a paper that is drawn");
    (
        drawn.edges.iter().map(|edge| edge.path.clone()).collect(),
        part.cutting.iter().map(|run| run.path.clone()).collect(),
    )
}

fn corners(ring: &[Path]) -> Vec<(f64, f64)> {
    ring.iter().map(|path| (path.start().x, path.start().y)).collect()
}

fn same_corners(found: &[(f64, f64)], expected: &[(f64, f64)]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (found, expected) in found.iter().zip(expected) {
        same_place(Point::new(found.0, found.1), *expected);
    }
}

/// 40 by 30 cm as it is cut, with a hem of 3 below and 1 elsewhere: 38 by 26 cm are sewn, by hand.
#[test]
fn each_edge_lies_its_own_allowance_inside() {
    let text = cover(WALK, EDGES);
    assert_eq!(said(&text), [""; 0]);
    let (stitching, cutting) = lines(&of(&text));
    same_corners(&corners(&stitching), &[(10.0, 30.0), (390.0, 30.0), (390.0, 290.0), (10.0, 290.0)]);
    same_corners(&corners(&cutting), &[(0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0)]);
    // Walked the other way round it is the same.
    let back = "outline from a cutting { lee to d; above to c; side to b; below to a }";
    let (stitching, _) = lines(&of(&cover(back, EDGES)));
    same_corners(&corners(&stitching), &[(10.0, 30.0), (10.0, 290.0), (390.0, 290.0), (390.0, 30.0)]);
}

/// The rule of allowances, each once: the depth and what is turned under, twice the depth, a binding without any,
/// the seam's before the piece's, the piece's before the garment's, a casing with 1 cm turned under.
#[test]
fn the_allowance_is_what_would_be_added() {
    let with = |facts: &str| {
        let text = cover(&format!("allowance 1.5\n  {WALK}"), facts);
        let compiled = of(&text);
        assert!(said(&text).iter().all(|slug| *slug == "casing/empty"), "{facts}: {:?}", said(&text));
        corners(&lines(&compiled).0)
    };
    let rest = "finish cover.side, cover.above, cover.lee raw";
    for (finish, width) in [
        ("hem 3 turned under 1", 40.0),
        ("hem 2 twice", 40.0),
        ("bound 1", 0.0),
        ("overlocked", 15.0),
        ("casing 3", 40.0),
        ("casing 0.8", 16.0),
    ] {
        let found = with(&format!("finish cover.below {finish}\n{rest}"));
        same_place(Point::new(found[0].0, found[0].1), (15.0, width));
    }
    let seam =
        "seam tube cover.side to cover.lee { allowance 0.7 }\nfinish cover.below, cover.above overlocked";
    let found = with(seam);
    same_place(Point::new(found[0].0, found[0].1), (7.0, 15.0));
}

/// On the fold nothing was added; a mark stays where it is drawn, a corner goes with the stitching line.
#[test]
fn folds_marks_and_corners() {
    let walk =
        "mark badge = a + (5, 6)\n  outline from a cutting { below to b; side to c; above to d; lee to a }";
    let text = cover(
        walk,
        "finish cover.below hem 3\nfinish cover.side, cover.above overlocked\nlet low = y(cover.a)",
    )
    .replace("cut 1", "cut 1 on fold lee");
    assert_eq!(said(&text), [""; 0]);
    let compiled = of(&text);
    same_corners(&corners(&lines(&compiled).0), &[(0.0, 30.0), (390.0, 30.0), (390.0, 290.0), (0.0, 290.0)]);
    let drawn = compiled.sizes[0].drawn.papers.iter().flatten().next().expect("a paper");
    let spot = |name: &str| {
        let mut spots = drawn.spots.iter();
        spots.find(|spot| *compiled.garment.point(spot.point).name == *name).expect("a point").at
    };
    same_place(spot("badge"), (50.0, 60.0));
    same_place(spot("a"), (0.0, 30.0));
    let low = compiled.garment.values.iter().position(|value| *value.name == *"low").expect("a value");
    same(compiled.sizes[0].drawn.values[low].and_then(|value| value.scalar()).unwrap_or_default(), 30.0);
}

/// A piece that is altered is cut anew: 26 cm sewn, 5 more by the alteration, 3 and 1 added: 35 cm.
#[test]
fn what_is_altered_is_cut_anew() {
    let walk = format!("{WALK}\n  line middle across at (0, 15)");
    let text = cover(&walk, &format!("{EDGES}\nlengthen cover at middle by 5"));
    assert_eq!(said(&text), [""; 0]);
    let (stitching, cutting) = lines(&of(&text));
    same(stitching[1].length(), 310.0);
    let height = cutting.iter().map(Path::bounding_box).reduce(|one, other| one.union(other));
    same(height.map_or(0.0, |bounds| bounds.height()), 350.0);
}

/// An edge may be divided: it is cut as it is drawn, and measured along the stitching line.
#[test]
fn an_edge_is_divided_along_the_stitching_line() {
    let walk = format!("{WALK}\n  divide side 10 from b into vent, side");
    let facts = "finish cover.below hem 3\nfinish cover.vent, cover.side, cover.above, cover.lee overlocked";
    let text = cover(&walk, facts);
    assert_eq!(said(&text), [""; 0]);
    let (stitching, cutting) = lines(&of(&text));
    same(stitching[1].length(), 100.0);
    same(stitching[2].length(), 160.0);
    // From the lower corner up to 10 cm above the hem's line.
    same(cutting[1].length(), 130.0);
    // One allowance more along a part of it is one too many.
    let two = facts.replace("finish cover.vent, ", "finish cover.vent hem 2\nfinish ");
    assert_eq!(said(&cover(&walk, &two)), ["cutting/allowance"]);
}

#[test]
fn allowances_that_are_none_or_two() {
    let text = cover(WALK, EDGES);
    assert_eq!(said(&text.replace("allowance 1\n", "")), ["cutting/allowance"]);
    let two = text.replace(
        "layer main in canvas { cover }",
        "layer main in canvas { cover }\nlayer under in canvas { cover }",
    );
    let each = "finish main.cover.below hem 3\nfinish under.cover.below hem 2\n\
                finish cover.side, cover.above, cover.lee overlocked";
    assert_eq!(said(&two.replace(EDGES, each)), ["cutting/allowance"]);
    assert_eq!(said(&two.replace("cut 1", "cut 1 loose")), [""; 0]);
    // Its own edge cannot say how wide its own allowance is.
    let circle = text.replace("finish cover.below hem 3", "finish cover.below hem length(cover.side) / 10");
    assert!(said(&circle).contains(&"name/circle"), "{:?}", said(&circle));
}

/// The side leans 6 cm in 30: turned up, a hem of 3 cm is cut as its mirror image, which is not what is drawn. Where the
/// corner is mitred it is; and so it is where the side stands upright.
#[test]
fn the_end_of_a_hem() {
    let leaning = cover(WALK, EDGES).replace("point b = (40, 0)", "point b = (46, 0)");
    assert!(said(&leaning).contains(&"cutting/corner"));
    let mitred = leaning.replace("cut 1\n", "cut 1\n  corner below/side mitred\n");
    assert!(!said(&mitred).contains(&"cutting/corner"), "{:?}", said(&mitred));
    let square = cover(WALK, EDGES).replace("cut 1\n", "cut 1\n  corner above/side blunt\n");
    assert_eq!(said(&square), ["cutting/corner"]);
}

#[test]
fn where_no_stitching_line_is_left() {
    assert!(said(&cover(WALK, &EDGES.replace("hem 3", "hem 35"))).contains(&"cutting/narrow"));
    let tight = WALK.replace("above to d", "above to d handles (24, 60), (16, 60)");
    let text = cover(&tight, &EDGES.replace("cover.side, cover.above", "cover.side"));
    let text = format!("{text}finish cover.above hem 12\n");
    assert!(said(&text).contains(&"cutting/narrow"), "{:?}", said(&text));
    // Two edges that go on in one another, with allowances that differ.
    let step = "point m = (20, 0)\n  outline from a cutting { below to m; beyond to b; side to c; above to d; lee to a }";
    let facts =
        "finish cover.below hem 3\nfinish cover.beyond, cover.side, cover.above, cover.lee overlocked";
    assert_eq!(said(&cover(step, facts)), ["cutting/corner"]);
    assert_eq!(said(&cover(step, &facts.replace("hem 3", "overlocked"))), [""; 0]);
}

proptest! {
    #![proptest_config(cases(24))]

    /// Drawn as it is sewn, a piece gets its cutting line by the rules of cutting. Drawn as that, it is sewn as before.
    #[test]
    fn a_cutting_line_gives_the_outline_back(
        (bx, by, cx, cy) in (35.0..50.0_f64, -5.0..5.0_f64, 35.0..50.0_f64, 25.0..40.0_f64),
        (dx, dy) in (-5.0..5.0_f64, 25.0..40.0_f64),
        widths in (0.3..3.0_f64, 0.3..3.0_f64, 0.3..3.0_f64, 0.3..3.0_f64),
    ) {
        let text = |corners: &[(f64, f64)], cutting: &str| {
            let [a, b, c, d] = corners else { return String::new() };
            let place = |(x, y): &(f64, f64)| {
                let sum = |number: f64| if number < 0.0 { format!("0 - {:.7}", -number) } else { format!("{number:.7}") };
                format!("({}, {})", sum(*x), sum(*y))
            };
            let names = ["below", "side", "above", "lee"];
            let widths = [widths.0, widths.1, widths.2, widths.3];
            let joined: String = names.iter().zip(widths).map(|(name, width)| {
                format!("seam {name} cover.{name} to flap.{name} {{ allowance {width:.3} }}\n")
            }).collect();
            format!("units cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\nlayer main in canvas {{ cover, flap }}\n\
                piece cover {{\n cut 1\n point a = {}\n point b = {}\n point c = {}\n point d = {}\n \
                outline from a {cutting} {{ below to b; side to c; above to d; lee to a }}\n}}\n\
                piece flap {{\n cut 1\n outline copy of cover\n}}\n{joined}", place(a), place(b), place(c), place(d))
        };
        let sewn = [(0.0, 0.0), (bx, by), (cx, cy), (dx, dy)].map(|(x, y)| ((x * 1e3).round() / 1e3, (y * 1e3).round() / 1e3));
        let first = of(&format!("garment \"Hatch cover\"\n{}", text(&sewn, "")));
        let (_, cut) = lines(&first);
        prop_assert_eq!(cut.len(), 4);
        let cut: Vec<(f64, f64)> = corners(&cut).iter().map(|(x, y)| (x / 10.0, y / 10.0)).collect();
        let second = of(&format!("garment \"Hatch cover\"\n{}", text(&cut, "cutting")));
        let (stitching, _) = lines(&second);
        for ((x, y), expected) in corners(&stitching).iter().zip(sewn) {
            prop_assert!((x - 10.0 * expected.0).abs() < 0.01 && (y - 10.0 * expected.1).abs() < 0.01, "({x}, {y})");
        }
    }

    /// Inside a curve by lyon_geom: every point of the stitching line is as far from the Bézier as the allowance says.
    #[test]
    fn inside_a_curve((ax, ay, bx, by) in (6.0..16.0_f64, 30.0..45.0_f64, 24.0..34.0_f64, 30.0..45.0_f64), hem in 0.5..3.0_f64) {
        let [ax, ay, bx, by, hem] = [ax, ay, bx, by, hem].map(|number| (number * 100.0).round() / 100.0);
        let walk = WALK.replace("above to d", &format!("above to d handles ({bx}, {by}), ({ax}, {ay})"));
        let facts = format!("finish cover.above hem {hem}\nfinish cover.below, cover.side, cover.lee overlocked");
        let text = format!("{}\n", cover(&walk, &facts).replace("cut 1\n", "cut 1\n  corner above/side mitred\n  corner lee/above mitred\n"));
        let compiled = of(&text);
        let (stitching, cutting) = lines(&compiled);
        let at = |x: f64, y: f64| lyon_geom::point(10.0 * x, 10.0 * y);
        let theirs = CubicBezierSegment { from: at(40.0, 30.0), ctrl1: at(bx, by), ctrl2: at(ax, ay), to: at(0.0, 30.0) };
        let near: Vec<_> = theirs.flattened(0.001).collect();
        let mut chords: Vec<_> = Vec::new();
        let mut from = theirs.from;
        for to in near {
            chords.push(lyon_geom::LineSegment { from, to });
            from = to;
        }
        for point in stitching[2].flatten(0.5) {
            let point = lyon_geom::point(point.x, point.y);
            let far = chords.iter().map(|chord| chord.distance_to_point(point)).fold(f64::INFINITY, f64::min);
            // Beyond the ends of the curve its line goes on straight.
            let is_end = [theirs.from, theirs.to].iter().any(|end| (*end - point).length() < far + 0.01);
            prop_assert!(is_end || (far - 10.0 * hem).abs() < 0.015, "{far} and {hem}");
        }
        // It is cut as it is drawn, beyond the corners of the stitching line too.
        let middle = theirs.sample(0.5);
        prop_assert!(cutting[2].nearest(Point::new(middle.x, middle.y)).distance < 1e-6);
        prop_assert!(cutting[2].end().distance(Point::new(0.0, 300.0)) < 1e-9);
    }
}

/// A block piece, which nothing sews, has its own allowance or the garment's.
#[test]
fn a_block_that_was_bought_as_a_pattern() {
    let text = "block piece cover { cut 1; allowance 2; point a = (0, 0); point b = (40, 0); point c = (40, 30)\n\
                outline from a cutting { below to b; side to c; slope to a } }";
    let drafted = draft(text).drawn_soundly();
    // A triangle of 40, 30 and 50 cm, whose inscribed circle has a radius of 10: 2 inside, all is 8 tenths.
    same(drafted.length("cover", "below"), 320.0);
    same(drafted.length("cover", "slope"), 400.0);
}
