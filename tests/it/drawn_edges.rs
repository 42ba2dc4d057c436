//! How edges are drawn with handles, and points with a place of their own in each size.

use crate::cases::cases;
use crate::drafting::{Drafted, draft, same, same_place};
use lyon_geom::CubicBezierSegment;
use proptest::prelude::*;

/// An apron 60 wide whose top goes from (0, 30) to (60, 30) as the words say.
fn apron(top: &str) -> String {
    format!(
        "block piece apron {{
  cut 1
  point bottom_left = (0, 0)
  point top_left = (0, 30)
  point top_right = (60, 30)
  point bottom_right = (60, 0)
  outline from bottom_left {{
    left to top_left
    top to top_right {top}
    right to bottom_right
    bottom to bottom_left
  }}
}}"
    )
}

proptest! {
    #![proptest_config(cases(48))]

    /// Against lyon_geom, whose length is by flattening to a tenth of the accuracy asked for.
    #[test]
    fn handles_give_the_bezier_that_lyon_draws(
        (ax, ay, bx, by) in (2.0..30.0_f64, 31.0..70.0_f64, 32.0..58.0_f64, 31.0..70.0_f64)
    ) {
        let [ax, ay, bx, by] = [ax, ay, bx, by].map(|number| (number * 100.0).round() / 100.0);
        let drafted = draft(&apron(&format!("handles ({ax}, {ay}), ({bx}, {by})"))).drawn_soundly();
        let at = |x: f64, y: f64| lyon_geom::point(10.0 * x, 10.0 * y);
        let theirs = CubicBezierSegment { from: at(0.0, 30.0), ctrl1: at(ax, ay), ctrl2: at(bx, by), to: at(60.0, 30.0) };
        let length = drafted.length("apron", "top");
        prop_assert!((length - theirs.approximate_length(1e-4)).abs() < 0.01, "{length}");
        let own = &drafted.piece("apron").edges[1].path;
        let (box_, theirs_box) = (own.bounding_box(), theirs.bounding_box());
        prop_assert!((box_.y1 - theirs_box.max.y).abs() < 0.01);
        for step in 1..8_i32 {
            let point = theirs.sample(f64::from(step) / 8.0);
            prop_assert!(own.nearest(fustian::shape::Point::new(point.x, point.y)).distance < 0.01);
        }
    }
}

/// Handles a third and two thirds along the chord give the chord: 600 mm.
#[test]
fn handles_on_the_chord_draw_it() {
    let drafted = draft(&apron("handles (20, 30), (40, 30)")).drawn_soundly();
    same(drafted.length("apron", "top"), 600.0);
    assert!(drafted.piece("apron").edges[1].path.is_straight());
}

/// Above its chord a cubic with both handles at height h over its ends holds 3/5 · h · w (by integration of
/// y = 3h·t(1 − t) over x = w·(3t² − 2t³)): 3h · 6w · ∫ t²(1 − t)² dt = 18hw / 30.
#[test]
fn the_area_under_a_bezier_by_hand() {
    let drafted = draft(&apron("handles (0, 50), (60, 50)")).drawn_soundly();
    same(drafted.area("apron"), 600.0 * 300.0 + 0.6 * 200.0 * 600.0);
}

/// Directions taken from an edge with handles are those of its handles.
#[test]
fn other_edges_follow_its_direction() {
    let text = apron("handles (10, 40), (50, 40)")
        .replace("right to bottom_right", "right to bottom_right curve leaving along top arriving down");
    let drafted = draft(&text).drawn_soundly();
    let way = drafted.piece("apron").edges[2].path.tangent_at_start().unwrap_or_default();
    // From (50, 40) to (60, 30): down to the right at 45°.
    assert!((way.x - 0.5_f64.sqrt()).abs() < 1e-9 && (way.y + 0.5_f64.sqrt()).abs() < 1e-9, "{way:?}");
}

#[test]
fn an_edge_is_redrawn_with_handles() {
    let text = format!("{}\nredraw apron.top handles (20, 45), (40, 45)", apron("straight"));
    let drafted = draft(&text).drawn_soundly();
    // The middle of a cubic: (P + 3Q + 3R + S) / 8 = 30 + ¾ · 15 up.
    let top = drafted.piece("apron").edges[1].path.bounding_box();
    same(top.y1, 300.0 + 0.75 * 150.0);
}

/// B'(½) is nothing where the handles are the corners of a box on the chord, crossed: a cusp at
/// (30, 30 + ¾ · 60). A little shorter the edge only bends, a little longer it makes a loop.
#[test]
fn handles_that_turn_an_edge_back() {
    let told = |top: &str| draft(&apron(top)).slugs();
    let title = draft(&apron("handles (60, 90), (0, 90)")).told("curve/cusp");
    assert_eq!(title, ["the handles turn this edge back on itself, at (30, 75)"]);
    draft(&apron("handles (56, 90), (4, 90)")).drawn_soundly();
    assert!(told("handles (70, 90), (-10, 90)").contains(&"outline/crosses"));
    // There and back on one line.
    assert!(told("handles (90, 30), (-30, 30)").contains(&"curve/cusp"));
    // Both handles at one place make no stop, and a handle on its own corner none either.
    draft(&apron("handles (30, 60), (30, 60)")).drawn_soundly();
    draft(&apron("handles (0, 30), (60, 60)")).drawn_soundly();
}

#[test]
fn handles_that_cannot_be_read() {
    let slugs = |top: &str| draft(&apron(top)).slugs();
    assert!(slugs("handles (10, 40)").iter().any(|slug| slug.starts_with("syntax/")));
    assert!(slugs("handles (10, 40), (20, 40), (30, 40)").iter().any(|slug| slug.starts_with("syntax/")));
    assert!(slugs("handles 10, 40").contains(&"unit/mixed"));
    assert!(slugs("handles (10, 40), nowhere").contains(&"name/unknown"));
    assert!(slugs("handles (10, 10cm / (1 - 1)), (20, 40)").contains(&"value/not-finite"));
}

fn graded(point: &str) -> Drafted {
    draft(&format!(
        "sizes S, M, L
block piece bib {{
  cut 1
  point a = {point}
  point b = a + (20, 0)
  point c = (20, 30)
  point d = (0, 30)
  outline from a {{
    bottom to b
    right to c
    top to d
    left to a
  }}
}}"
    ))
}

#[test]
fn a_point_has_a_place_in_each_size() {
    for words in ["each (0, 0), (0.2, 0.1), (0.5, 0.4)", "(0, 0) + (each (0, 0), (0.2, 0.1), (0.5, 0.4))"] {
        let drafted = graded(words).drawn_soundly();
        for (size, place) in [(0.0, 0.0), (2.0, 1.0), (5.0, 4.0)].into_iter().enumerate() {
            same_place(drafted.point_in(size, "bib", "a"), place);
            same_place(drafted.point_in(size, "bib", "b"), (place.0 + 200.0, place.1));
        }
    }
}

#[test]
fn places_of_sizes_that_do_not_fit() {
    assert_eq!(graded("each (0, 0), (0.2, 0.1)").told("table/length"), ["2 values for 3 sizes"]);
    assert_eq!(
        graded("each (0, 0), 3, (0.2, 0.1)").told("unit/mixed"),
        ["a point and a plain number cannot be put in one list"]
    );
    assert!(graded("(0, 0) grade (0.2, 0.1)").slugs().iter().any(|slug| slug.starts_with("syntax/")));
}
