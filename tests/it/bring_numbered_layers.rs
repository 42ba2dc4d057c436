//! Drawings whose layers have the numbers of ASTM D6673, where one stands on another layer, is open or is put down nowhere; beside
//! each a sound drawing of which nothing is said.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::brought;
use crate::reading_dxf::{block, drawing, insert, ring, square, words};

fn line(layer: &str, from: (f64, f64), to: (f64, f64)) -> String {
    format!("0 LINE|8 {layer}|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
}

fn metric(blocks: &[(&str, String)]) -> String {
    let each: String = blocks.iter().map(|(name, inside)| block(name, inside)).collect();
    let inserts: String = blocks.iter().map(|(name, _)| insert(name)).collect();
    drawing("9 $INSUNITS|70 4|", &each, &inserts)
}

/// A front 300 by 400 with its grain line.
fn front(more: &str) -> String {
    metric(&[("FRONT", front_block(more))])
}

fn front_block(more: &str) -> String {
    ring("1", &[(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)])
        + &line("7", (90.0, 100.0), (90.0, 300.0))
        + more
}

#[test]
fn a_sew_line_on_a_layer_that_means_nothing_is_told() {
    let sewn =
        |layer: &str| front(&ring(layer, &[(10.0, 10.0), (290.0, 10.0), (290.0, 390.0), (10.0, 390.0)]));
    let sound = brought("front.dxf", &sewn("14"));
    assert!(
        sound.remarks.is_empty() && sound.text.contains("allowance 1\n"),
        "{:?}\n{}",
        sound.remarks,
        sound.text
    );
    only(
        &told("front.dxf", &sewn("44")),
        &["FRONT", "a closed line on layer 44 goes round inside", "a sew line stands on layer 14"],
    );
    // A pocket's place is none.
    assert!(told("front.dxf", &front(&square("8", 100.0, 100.0, 90.0))).is_empty());
}

#[test]
fn a_sew_line_that_is_open_is_refused_but_along_the_fold() {
    let corners = [(10.0, 10.0), (290.0, 10.0), (290.0, 390.0), (10.0, 390.0)];
    let open = ring("14", &corners).replace("|70 1|", "|70 0|");
    let why = refused("front.dxf", &front(&open));
    // From (10, 390) back to (10, 10) are 380 mm.
    assert!(
        why.contains("is open: its ends, (10.0, 10.0) and (10.0, 390.0) mm, lie 380.0 mm apart"),
        "{why}"
    );
    // On the fold it is open as half pieces are drawn: the cutting line lies on the fold too.
    let half = [(0.0, 10.0), (290.0, 10.0), (290.0, 390.0), (0.0, 390.0)];
    let fold = line("6", (0.0, 0.0), (0.0, 400.0));
    let halved = brought("front.dxf", &front(&(ring("14", &half).replace("|70 1|", "|70 0|") + &fold)));
    assert!(halved.text.contains("cut 1 on fold fold"), "{}", halved.text);
    assert!(
        halved.text.contains(", straight, 29 ")
            || halved.text.contains(", straight, 29,")
            || halved.text.contains("straight, 29"),
        "{}",
        halved.text
    );
    // A line of stitching along one edge is a line.
    assert!(
        told("front.dxf", &front(&line("14", (10.0, 30.0), (290.0, 30.0))))
            .iter()
            .all(|one| !one.contains("sew line"))
    );
}

#[test]
fn grain_and_lines_that_are_exchanged_are_told() {
    let drawn = |grain: &str, within: &str| {
        metric(&[(
            "FRONT",
            ring("1", &[(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)])
                + &line(grain, (90.0, 100.0), (90.0, 300.0))
                + &line(within, (0.0, 40.0), (300.0, 40.0)),
        )])
    };
    assert!(told("front.dxf", &drawn("7", "8")).iter().all(|one| one.contains("hem")));
    let exchanged = told("front.dxf", &drawn("8", "7"));
    assert!(exchanged.iter().any(|one| one.contains("are layers 7 and 8 exchanged?")), "{exchanged:?}");
    let lacks = told("front.dxf", &drawn("8", "11"));
    assert!(lacks.iter().all(|one| !one.contains("exchanged")), "{lacks:?}");
    // Two lines at an angle are one too many.
    let two = told("front.dxf", &front(&line("7", (90.0, 100.0), (150.0, 100.0))));
    only(&two, &["FRONT", "more than one line is on layer 7"]);
}

#[test]
fn an_outline_on_another_layer_is_taken_from_there_and_told() {
    let drawn = |layer: &str| {
        let moved = front_block("").replace("|8 1|", &format!("|8 {layer}|"));
        metric(&[("FRONT", moved), ("BACK", front_block(""))])
    };
    let sound = brought("smock.dxf", &drawn("1"));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    for layer in ["8", "14"] {
        let own = brought("smock.dxf", &drawn(layer));
        only(
            &own.remarks,
            &["block FRONT of smock.dxf has no closed line on layer 1", &format!("on layer {layer} (line ")],
        );
        assert_eq!(own.text, sound.text);
    }
}

#[test]
fn blocks_that_are_put_down_nowhere_are_told() {
    let blocks = block("FRONT", &front_block("")) + &block("BACK", &front_block(""));
    let units = words("1", 0.0, 0.0, "UNITS: METRIC");
    let drawn = |inserts: &str| drawing("", &blocks, &(units.clone() + inserts));
    let both = brought("smock.dxf", &drawn(&(insert("FRONT") + &insert("BACK"))));
    assert!(both.remarks.is_empty(), "{:?}", both.remarks);
    only(
        &told("smock.dxf", &drawn(&insert("FRONT"))),
        &["“BACK”", "puts it down nowhere", "is an INSERT lost?"],
    );
    let none = brought("smock.dxf", &drawn(""));
    only(&none.remarks, &["puts down no block", "“FRONT”, “BACK”"]);
    assert_eq!(none.text, both.text);
}

#[test]
fn a_corner_that_is_said_to_be_a_point_of_a_curve_is_told() {
    let point = |layer: &str, x: f64, y: f64| format!("0 POINT|8 {layer}|10 {x}|20 {y}|");
    let corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)];
    let drawn = |layers: [&str; 4]| {
        let points: String = layers.iter().zip(corners).map(|(layer, (x, y))| point(layer, x, y)).collect();
        front(&points)
    };
    assert!(told("front.dxf", &drawn(["2"; 4])).is_empty());
    let one = told("front.dxf", &drawn(["2", "3", "2", "2"]));
    assert!(
        one.iter().any(|one| one
            .contains("turns there by 90° between straight lines of 300 and 400 mm: is it a corner?")),
        "{one:?}"
    );
    let all = told("front.dxf", &drawn(["3"; 4]));
    assert!(all.iter().any(|one| one.contains("4 points are said to be those of a curve")), "{all:?}");
}

#[test]
fn a_grain_line_that_one_size_lacks_is_told() {
    let drawn = |lacks: &str| {
        let sizes = ["30", "32", "34"].map(|size| {
            let whole = front_block(&words("1", 20.0, 20.0, &format!("SIZE: {size}")))
                + &words("1", 20.0, 60.0, "PIECE NAME: FRONT");
            let own = if size == lacks { whole.replace("LINE|8 7|", "LINE|8 5|") } else { whole };
            (format!("FRONT-{size}"), own)
        });
        metric(&sizes.each_ref().map(|(name, own)| (name.as_str(), own.clone())))
    };
    assert!(told("front.dxf", &drawn("")).is_empty(), "{:?}", told("front.dxf", &drawn("")));
    let lacks = told("front.dxf", &drawn("32"));
    assert!(
        lacks.iter().any(|one| one == "front has a grain line in 30 and 34, and none in 32"),
        "{lacks:?}"
    );
}

#[test]
fn how_many_are_cut_is_read_as_cutting_rooms_write_it() {
    let cut =
        |said: &str| brought("front.dxf", &front(&words("1", 20.0, 20.0, &format!("QUANTITY: {said}"))));
    for (said, words) in [
        ("2", "cut 2\n"),
        ("1,1", "cut 2 mirrored\n"),
        ("1 PAIR", "cut 2 mirrored\n"),
        ("2, left and right", "cut 2 mirrored\n"),
    ] {
        let own = cut(said);
        assert!(
            own.text.contains(words) && own.remarks.is_empty(),
            "{said}: {:?}\n{}",
            own.remarks,
            own.text
        );
    }
    only(&cut("two").remarks, &["what stands behind its quantity, “two”, is not understood"]);
}

#[test]
fn a_frame_outside_of_all_blocks_is_left_out() {
    let framed = drawing(
        "9 $INSUNITS|70 4|",
        &block("FRONT", &front_block("")),
        &(insert("FRONT") + &square("0", -100.0, -100.0, 900.0)),
    );
    let own = brought("front.dxf", &framed);
    only(&own.remarks, &["a rectangle on layer 0", "stands outside of every block"]);
    assert_eq!(own.text.matches("\npiece ").count(), 1, "{}", own.text);
}

#[test]
fn an_outline_open_by_a_hair_is_closed() {
    let open = |off: f64| {
        let round = [(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0), (0.0, off)];
        metric(&[(
            "FRONT",
            ring("1", &round).replace("|70 1|", "|70 0|") + &line("7", (90.0, 100.0), (90.0, 300.0)),
        )])
    };
    only(&told("front.dxf", &open(0.3)), &["was open by 0.3 mm, and was closed"]);
    assert!(refused("front.dxf", &open(4.0)).contains("lie 4.0 mm apart"));
}

/// A quarter of a circle of 100 mm in three steps, whose two inner points are said to be those of a curve, and no corner is said.
#[test]
fn a_coarse_curve_whose_points_are_said_is_one_edge() {
    let blocks = ["30", "32", "34"].iter().zip(0..).map(|(size, step)| {
        let wide = 300.0 + 10.0 * f64::from(step);
        let arc: Vec<(f64, f64)> = (1..3)
            .map(|at| (f64::from(at) * std::f64::consts::FRAC_PI_2 / 3.0).sin_cos())
            .map(|(sine, cosine)| (wide - 100.0 + 100.0 * cosine, 300.0 + 100.0 * sine))
            .collect();
        let mut round = vec![(0.0, 0.0), (wide, 0.0), (wide, 300.0)];
        round.extend(arc.iter().chain([&(wide - 100.0, 400.0), &(0.0, 400.0)]));
        let points: String = arc.iter().map(|(x, y)| format!("0 POINT|8 3|10 {x}|20 {y}|")).collect();
        let said =
            words("1", 20.0, 20.0, "PIECE NAME: FRONT") + &words("1", 20.0, 40.0, &format!("SIZE: {size}"));
        (format!("FRONT-{size}"), ring("1", &round) + &points + &said)
    });
    let blocks: Vec<(String, String)> = blocks.collect();
    let blocks: Vec<(&str, String)> = blocks.iter().map(|(name, own)| (name.as_str(), own.clone())).collect();
    let own = brought("front.dxf", &metric(&blocks));
    let curves: Vec<&str> = own.text.lines().filter(|line| line.contains(", a curve, ")).collect();
    // A quarter of it is 50 π = 157.1 mm long.
    let [only] = curves.as_slice() else { panic!("{}", own.text) };
    assert!(only.contains("a curve, 15.7"), "{only}");
    assert!(!own.text.contains(", straight, 5.18"), "{}", own.text);
}
