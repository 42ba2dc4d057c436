//! Outlines that were traced or graded with a slip: a point beside its curve, a mark among the points of the outline, one size drawn
//! otherwise. Beside each stands a sound drawing of which nothing is said.

use crate::bring_displaced::layers as sized;
use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, draft, in_mm, length, plain};
use crate::reading_dxf::{block, drawing, insert, ring};
use kurbo::{CubicBez, ParamCurve};

/// Says nothing of it.
fn silent(name: &str, drawing: &str) {
    assert!(told(name, drawing).is_empty(), "{:#?}\n{drawing}", told(name, drawing));
}

/// A quarter of a round cape in sizes of 200 mm and so much more: from its middle along the front, round, and back. It is traced
/// every 5°, 17 mm; `off` says how far outside the points that bear these numbers stand in one size.
fn cape(sizes: &[&str], kind: &str, odd: &str, off: &[(i32, f64)]) -> String {
    let mut rows = "piece,size,point,x mm,y mm,kind\n".to_owned();
    for (size, step) in sizes.iter().zip(0..) {
        let long = 200.0 + 10.0 * f64::from(step);
        rows += &format!("cape,{size},1,0,0,corner\n");
        for at in 0..=18 {
            let by: f64 = off.iter().filter(|(own, _)| *own == at && *size == odd).map(|(_, by)| by).sum();
            let (sine, cosine) = f64::from(5 * at).to_radians().sin_cos();
            let kind = if at % 18 == 0 { "corner" } else { kind };
            rows += &format!(
                "cape,{size},{},{:.2},{:.2},{kind}\n",
                at + 2,
                (long + by) * cosine,
                (long + by) * sine
            );
        }
    }
    rows
}

/// The circle through the neighbours is the cape's own: 5 mm outside of it are 5 mm beside them.
#[test]
fn a_point_beside_its_curve_is_told_in_one_size_and_in_two() {
    for sizes in [&["M"][..], &["S", "M"]] {
        for kind in ["curve", ""] {
            silent("cape.csv", &cape(sizes, kind, "M", &[]));
            // A hand that trembles by a millimetre.
            let trembling = [(3, 1.0), (4, -1.0), (8, 1.0), (9, -0.7), (12, -1.0)];
            silent("cape.csv", &cape(sizes, kind, "M", &trembling));
        }
        for off in [5.0_f64, 20.0, -5.0] {
            let words = format!("stands {:.0} mm beside those before and behind it", off.abs());
            only(&told("cape.csv", &cape(sizes, "curve", "M", &[(9, off)])), &["cape in M (cape of", &words]);
        }
    }
}

/// At 5 mm the line turns by 2 atan 5/17, 33°, where nothing is said of the points: at a corner, of which the other size has none.
#[test]
fn a_point_beside_its_curve_explains_a_corner_too_many() {
    let why = refused("cape.csv", &cape(&["S", "M"], "", "M", &[(9, 20.0)]));
    assert!(
        why.contains("in the outline of cape in M, the point") && why.contains("stands 20 mm beside"),
        "{why}"
    );
}

/// Among three sizes it is told by the others, and once.
#[test]
fn a_point_beside_its_curve_is_told_once_in_three_sizes() {
    silent("cape.csv", &cape(&["S", "M", "L"], "curve", "M", &[]));
    only(&told("cape.csv", &cape(&["S", "M", "L"], "curve", "M", &[(9, 20.0)])), &["20 mm off in M"]);
}

/// A traced line that turns by 20° at one point, and goes on straight, goes nowhere and back.
#[test]
fn a_kink_is_no_slip() {
    let (sine, cosine) = 20.0_f64.to_radians().sin_cos();
    let mut rows = "piece,point,x mm,y mm,kind\nyoke,1,0,0,corner\n".to_owned();
    let places = (0..=6).map(|at| (300.0, 20.0 * f64::from(at))).chain(
        (1..=6).map(|at| (300.0 - 20.0 * f64::from(at) * sine, 120.0 + 20.0 * f64::from(at) * cosine)),
    );
    for ((x, y), at) in places.zip(2..) {
        let kind = if at == 2 || at == 14 { "corner" } else { "curve" };
        rows += &format!("yoke,{at},{x:.2},{y:.2},{kind}\n");
    }
    silent("yoke.csv", &(rows + "yoke,15,0,200,corner\n"));
}

/// A pocket flap whose corners are numbered, and an eyelet that `rows` put into each size.
fn flap(kind: &str, rows: impl Fn(&str) -> String) -> String {
    let mut all = "piece,size,point,x mm,y mm,kind\n".to_owned();
    for (size, wide) in [("S", 150), ("M", 160), ("L", 170)] {
        let corners = [(0, 0), (wide / 2, -30), (wide, 0), (wide, 80), (wide / 2, 90), (0, 80)];
        for ((x, y), at) in corners.into_iter().zip(1..) {
            all += &format!("flap,{size},{at},{x},{y},{kind}\n");
        }
        all += &rows(size);
    }
    all
}

#[test]
fn a_mark_whose_kind_was_forgotten_is_told() {
    let eyelet = |kind: &'static str| move |size: &str| format!("flap,{size},eyelet,40,40,{kind}\n");
    for kind in ["corner", ""] {
        silent("flap.csv", &flap(kind, eyelet("mark")));
        let remarks = told("flap.csv", &flap(kind, eyelet("")));
        // The first one stands behind the head and six corners.
        let words = "eyelet of flap (line 8 of flap.csv) is a point of the outline in S, M and L: was its kind, mark or notch, forgotten?";
        assert!(remarks.iter().any(|one| one.contains(words)), "{remarks:#?}");
    }
    let of_one =
        |size: &str| format!("flap,{size},eyelet,40,40,{}\n", if size == "M" { "corner" } else { "mark" });
    let remarks = told("flap.csv", &flap("corner", of_one));
    let words = "is a point of the outline in M, and a mark in S and L";
    assert!(remarks.first().is_some_and(|one| one.contains(words)), "{remarks:#?}");
}

/// A neck whose lowest point lies inside of the line through the others, and is the only one that is called by a name.
#[test]
fn a_corner_that_is_named_is_no_mark() {
    let mut rows = "piece,size,point,x mm,y mm\n".to_owned();
    for (size, wide) in [("S", 400), ("M", 420)] {
        let points = [
            ("1", 0, 0),
            ("2", wide, 0),
            ("3", wide, 500),
            ("neck", wide / 2, 350),
            ("4", 0, 500),
            ("5", -20, 200),
        ];
        for (name, x, y) in points {
            rows += &format!("front,{size},{name},{x},{y}\n");
        }
    }
    silent("front.csv", &rows);
}

const METRIC: &str = "9 $INSUNITS|70 4|";

/// Half a trouser front and a yoke, both drawn from the origin on, on layers that are called so.
fn layers(called: impl Fn(&str, i32) -> String) -> String {
    let each = (0..3).map(|step| {
        let (size, wide) = (30 + 2 * step, f64::from(10 * step));
        let front = [(0.0, 0.0), (290.0 + wide, 0.0), (250.0 + wide, 460.0), (0.0, 450.0)];
        let yoke = [(0.0, 0.0), (240.0 + wide, 0.0), (240.0 + wide, 45.0), (0.0, 35.0)];
        ring(&called("FRONT", size), &front) + &ring(&called("YOKE", size), &yoke)
    });
    drawing(METRIC, "", &each.collect::<String>())
}

#[test]
fn layers_of_a_piece_and_a_size_each_are_read() {
    for mark in ["_", "-", " "] {
        let own = brought("shorts.dxf", &layers(|piece, size| format!("{piece}{mark}{size}")));
        assert!(own.remarks.is_empty(), "{:#?}", own.remarks);
        let text = plain(&own.text);
        for words in ["sizes 30, 32, 34\n", "piece front \"FRONT\" {\n", "piece yoke \"YOKE\" {\n"] {
            assert!(text.contains(words), "{words}\n{text}");
        }
        let compiled = draft(&own.text);
        for size in 0..3_u32 {
            // Of the yoke 35 mm on the left.
            assert!((length(&compiled, size as usize, "yoke", "e4") - 35.0).abs() < 1e-6);
            let bottom = ["longest", "e1"].iter().find(|name| own.text.contains(&format!("{name} to p2")));
            assert!(
                (length(&compiled, size as usize, "yoke", bottom.unwrap_or(&"e1"))
                    - 240.0
                    - 10.0 * f64::from(size))
                .abs()
                    < 1e-6
            );
        }
    }
}

/// Layers that only number what is drawn on them, each another piece, name no sizes.
#[test]
fn layers_of_other_pieces_are_no_sizes() {
    let places = [
        ("FRONT_10", 0.0, 300.0),
        ("FRONT_20", 400.0, 900.0),
        ("YOKE_10", 1400.0, 200.0),
        ("YOKE_20", 1700.0, 60.0),
    ];
    let rings = places
        .map(|(layer, x, long)| ring(layer, &[(x, 0.0), (x + 200.0, 0.0), (x + 200.0, long), (x, long)]));
    let text = brought("bags.dxf", &drawing(METRIC, "", &rings.concat())).text;
    assert!(!text.contains("sizes 10, 20") && text.matches("\npiece ").count() == 4, "{text}");
}

/// Of four lines one is 0.4 mm short at both ends.
#[test]
fn the_gaps_of_a_boundary_in_parts_are_told() {
    let line = |from: (f64, f64), to: (f64, f64)| {
        format!("0 LINE|8 1|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
    };
    let yoke = |short: f64| {
        let lines = line((0.0, 0.0), (240.0, 0.0))
            + &line((240.0, short), (240.0, 60.0 - short))
            + &line((240.0, 60.0), (0.0, 60.0))
            + &line((0.0, 60.0), (0.0, 0.0));
        drawing(METRIC, &block("YOKE", &lines), &insert("YOKE"))
    };
    assert!(brought("yoke.dxf", &yoke(0.0)).text.contains("piece yoke"));
    let why = refused("yoke.dxf", &yoke(0.4));
    for words in [
        "the boundary of block YOKE is open in 2 places, between the ends ",
        "(240.0, 0.0) and (240.0, 0.4) mm, 0.4 mm apart",
        "(240.0, 60.0) and (240.0, 59.6) mm, 0.4 mm apart",
    ] {
        assert!(why.contains(words), "{words}\n{why}");
    }
}

/// A pocket 140 by 160, 6 mm wider and 4 mm longer from size to size, in one size `out` mm wider all round.
#[test]
fn an_allowance_in_the_first_or_the_last_size_is_told() {
    let pocket = |odd: &str, out: i32| {
        sized(&["S", "M", "L"], |size, step| {
            let out = if size == odd { out } else { 0 };
            let (wide, long) = (140 + 6 * step + 2 * out, 160 + 4 * step + 2 * out);
            format!("<path id='pocket' d='M{} {} h{wide} v{long} h-{wide} Z'/>", 100 - out, 100 - out)
        })
    };
    silent("pocket.svg", &pocket("", 0));
    for odd in ["S", "M", "L"] {
        let remarks = told("pocket.svg", &pocket(odd, 10));
        let words = format!("{odd} lies everywhere 10 mm outside of where the growth of");
        assert!(remarks.iter().any(|one| one.contains(&words)), "{odd}: {remarks:#?}");
    }
}

/// A patch that grows by 8 mm on all sides, and in the last step by 16 mm: a size is left out, and none holds an allowance.
#[test]
fn a_larger_step_is_no_allowance() {
    let patch = |steps: [i32; 3]| {
        sized(&["S", "M", "XL"], |_, step| {
            let by = steps[step as usize];
            let (wide, long) = (200 + 2 * by, 150 + 2 * by);
            format!("<path id='patch' d='M{} {} h{wide} v{long} h-{wide} Z'/>", 100 - by, 100 - by)
        })
    };
    silent("patch.svg", &patch([0, 8, 16]));
    silent("patch.svg", &patch([0, 8, 24]));
}

/// Half a front 240 wide and 560 high whose corners are, in order, its lower ones, its armhole's and its neck's. It grows by 10 mm across and
/// 8 mm up; `odd` says in which size which corner lies how far off.
fn front(sizes: &[&str], odd: (&str, usize, (i32, i32))) -> String {
    sized(sizes, |size, step| {
        let (across, up) = (10 * step, 8 * step);
        let mut corners = [
            (0, 0),
            (240 + across, 0),
            (250 + across, 330 + up / 2),
            (215 + across, 540 + up),
            (75, 580 + up),
            (0, 470 + up),
        ];
        if size == odd.0 {
            corners[odd.1].0 += odd.2.0;
            corners[odd.1].1 += odd.2.1;
        }
        let places: Vec<String> = corners.iter().map(|(x, y)| format!("{} {}", 100 + x, 900 - y)).collect();
        format!("<path id='front' d='M{} Z'/>", places.join(" L"))
    })
}

#[test]
fn a_corner_that_lies_off_is_told_of_its_own_size() {
    let sizes = ["S", "M", "L"];
    silent("front.svg", &front(&sizes, ("", 0, (0, 0))));
    for off in [(7, 0), (10, 0), (14, 0), (20, 0), (0, 10), (0, 20)] {
        let by = off.0.max(off.1);
        only(
            &told("front.svg", &front(&sizes, ("M", 0, off))),
            &["front (", &format!("lies {by} mm off in M")],
        );
    }
    for (size, corner, off) in
        [("S", 0, (10, 0)), ("L", 0, (14, 0)), ("S", 1, (0, 10)), ("L", 1, (0, 10)), ("S", 5, (12, 0))]
    {
        let by = off.0.max(off.1);
        only(
            &told("front.svg", &front(&sizes, (size, corner, off))),
            &["front (", &format!("lies {by} mm off in {size}")],
        );
    }
}

/// The left lower corner, which stays where it is, lies 10 mm to the right in L, as far as the right one grows: in S it would lie as far off if it
/// grew as that does.
#[test]
fn where_two_sizes_are_as_likely_both_are_told() {
    only(
        &told("front.svg", &front(&["S", "M", "L"], ("L", 0, (10, 0)))),
        &["lies 10 mm off in", " or in ", "in L", "in S"],
    );
}

/// A waist that stays as wide in one step, of two corners, is graded so.
#[test]
fn a_measure_that_stays_in_one_step_is_no_slip() {
    let drawn = |wide: [i32; 3]| {
        sized(&["S", "M", "L"], |_, step| {
            let (wide, long) = (wide[step as usize], 300 + 8 * step);
            format!(
                "<path id='apron' d='M100 100 H{} V{} H{} V{} H100 Z'/>",
                100 + wide,
                250 + 4 * step,
                140 + wide,
                100 + long
            )
        })
    };
    silent("apron.svg", &drawn([200, 210, 220]));
    silent("apron.svg", &drawn([200, 200, 210]));
    silent("apron.svg", &drawn([200, 210, 210]));
}

/// A corner between two curves that go over into one another smoothly is one if it is said to be.
#[test]
fn a_smooth_corner_that_slips_along_its_curve_is_told() {
    let cape = |off: f64| {
        let mut rows = "piece,size,point,x mm,y mm,kind\n".to_owned();
        for (size, step) in ["S", "M", "L", "XL"].iter().zip(0..) {
            let long = 200.0 + 10.0 * f64::from(step);
            rows += &format!("cape,{size},1,0,0,corner\n");
            for at in 0..=18 {
                let turn = f64::from(5 * at) + if at == 9 && *size == "M" { off } else { 0.0 };
                let (sine, cosine) = turn.to_radians().sin_cos();
                let kind = if at % 9 == 0 { "corner" } else { "curve" };
                rows += &format!("cape,{size},{},{:.2},{:.2},{kind}\n", at + 2, long * cosine, long * sine);
            }
        }
        rows
    };
    silent("cape.csv", &cape(0.0));
    // 4° of a circle of 210 mm are a chord of 420 sin 2°, 14.66 mm.
    only(&told("cape.csv", &cape(4.0)), &["cape (", "lies 15 mm off in M"]);
}

/// Half a smock's front in two sizes; `turn` turns M about its corner.
#[test]
fn one_of_two_sizes_that_is_turned_is_told() {
    let drawn = |turn: &str| {
        sized(&["S", "M"], |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let turned = if size == "M" { turn } else { "" };
            format!(
                "<g transform='{turned}'><path id='front' d='M0 0 H{wide} V{} L{} {long} H0 Z'/></g>",
                long - 100,
                wide - 80
            )
        })
    };
    silent("smock.svg", &drawn(""));
    only(&told("smock.svg", &drawn("rotate(5)")), &["front (", "M is drawn turned by 5.0° beside S"]);
}

/// One size of a cape in whole centimetres, as a hasty hand copies a table: 193.2 becomes 190.
#[test]
fn figures_that_are_rounded_in_one_size_are_told() {
    let table = cape(&["S", "M", "L"], "curve", "M", &[]);
    silent("cape.csv", &table);
    let rounded = table.lines().map(|line| {
        let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
        if fields[1] == "M" {
            for field in &mut fields[3..5] {
                *field = format!("{:.0}", (field.parse::<f64>().unwrap_or(0.0) / 10.0).round() * 10.0);
            }
        }
        fields.join(",") + "\n"
    });
    let remarks = told("cape.csv", &rounded.collect::<String>());
    let words = "all points of M lie by whole centimetres from its first one, and those of S and L do not";
    assert!(remarks.iter().any(|one| one.contains(words)), "{remarks:#?}");
}

/// A skirt that is flared more in the larger size turns at its side alone.
#[test]
fn a_flare_is_no_turn() {
    let drawn = |size: &str, step: i32| {
        let _ = size;
        format!("<path id='skirt' d='M0 0 H{} L{} 600 H0 Z'/>", 180 + 10 * step, 240 + 50 * step)
    };
    silent("skirt.svg", &sized(&["S", "M"], drawn));
}

/// A hem 300 wide into which a V or a box is cut, 100 mm from its left.
fn hem(cut: &str) -> String {
    sized(&["S", "M"], |_, step| {
        let wide = 300 + 10 * step;
        format!("<path id='apron' d='M100 100 H{} V500 H{} {cut} H100 Z'/>", 100 + wide, 203)
    })
}

#[test]
fn a_small_v_in_the_outline_may_be_a_notch() {
    silent("apron.svg", &hem(""));
    only(
        &told("apron.svg", &hem("L200 494 L197 500")),
        &["apron (", "a V 6 mm wide and 6 mm deep", "is it a notch?"],
    );
    only(&told("apron.svg", &hem("L200 506 L197 500")), &["a V 6 mm wide and 6 mm deep"]);
    only(&told("apron.svg", &hem("V495 H197 V500")), &["a box 6 mm wide and 5 mm deep"]);
    // A dart that is left open, and a slit, are none.
    silent("apron.svg", &hem("L190 420 L177 500"));
    silent("apron.svg", &hem("V440 H183 V500"));
}

#[test]
fn teeth_all_along_an_edge_are_no_notches() {
    // Each 4 mm wide and 6 mm deep, and 8 mm of hem between two.
    let teeth: String = (0..15)
        .map(|at| 350 - 12 * at)
        .map(|from| format!("L{} 494 L{} 500 h-8 ", from - 2, from - 4))
        .collect();
    let drawn = in_mm(&format!("<path id='apron' d='M50 100 H400 V500 H350 {teeth}H50 Z'/>"));
    assert!(
        told("apron.svg", &drawn).iter().all(|one| !one.contains("notch")),
        "{:#?}",
        told("apron.svg", &drawn)
    );
}

#[test]
fn pairs_are_counted_once() {
    let cut = |words: &str| {
        let bib = "<path id='bib' d='M50 50 H350 V450 H50 Z'/>";
        let text =
            plain(&brought("bib.svg", &in_mm(&format!("{bib}<text x='90' y='90'>{words}</text>"))).text);
        text.lines().find(|line| line.starts_with("cut ")).map(str::to_owned).unwrap_or_default()
    };
    for (words, wanted) in [
        ("cut 2 mirrored pairs", "cut 4 mirrored"),
        ("cut 1 mirrored pair", "cut 2 mirrored"),
        ("cut 4 (2 mirrored pairs)", "cut 4 mirrored"),
        ("cut 1 pair", "cut 2 mirrored"),
        ("cut 3 pairs", "cut 6 mirrored"),
        ("cut 2, a pair", "cut 2 mirrored"),
        ("cut 2 mirrored", "cut 2 mirrored"),
        ("cut 2", "cut 2"),
    ] {
        assert_eq!(cut(words), wanted, "{words}");
    }
}

/// Curves that were each parted once: where one is tight, where it bends both ways, where its handles are of unlike lengths.
#[test]
fn points_along_one_curve_are_one_curve_where_it_is_tight_too() {
    let curves = [
        (CubicBez::new((388.6, 73.0), (277.1, 325.7), (515.1, 295.4), (283.0, 429.2)), 30),
        (CubicBez::new((330.8, 93.3), (353.3, 144.9), (175.9, 384.9), (158.1, 405.0)), 30),
        (CubicBez::new((376.9, 71.3), (433.2, 139.8), (429.5, 198.5), (280.4, 374.5)), 28),
        (CubicBez::new((344.6, 24.2), (334.4, 368.6), (456.0, 208.4), (223.7, 474.5)), 25),
        (CubicBez::new((254.6, 32.8), (301.0, 52.6), (336.4, 239.3), (294.6, 479.0)), 34),
        (CubicBez::new((361.9, 59.0), (338.2, 274.4), (453.4, 210.0), (284.8, 329.2)), 47),
    ];
    for (curve, count) in curves {
        // At equal shares of its length, as a plotter sets them.
        let fine: Vec<_> = (0..=4000).map(|at| curve.eval(f64::from(at) / 4000.0)).collect();
        let mut along = vec![0.0];
        for pair in fine.windows(2) {
            along.push(along.last().copied().unwrap_or(0.0) + pair[0].distance(pair[1]));
        }
        let whole = along.last().copied().unwrap_or(0.0);
        let points = (0..count).map(|at| {
            let wanted = whole * f64::from(at) / f64::from(count - 1);
            fine[along.partition_point(|own| *own < wanted * (1.0 - 1e-9)).min(4000)]
        });
        let corners: String = points.map(|at| format!("L{:.3} {:.3} ", at.x, 1000.0 - at.y)).collect();
        let (low, high) = (1000.0 - curve.p0.y, 1000.0 - curve.p3.y);
        let text =
            brought("panel.svg", &in_mm(&format!("<path id='panel' d='M0 {low} {corners}L0 {high} Z'/>")))
                .text;
        assert!(!text.contains("_1 to"), "{count} points of {curve:?}\n{text}");
    }
}
