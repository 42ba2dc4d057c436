//! One size that is drawn otherwise than the others is told, with what lies otherwise, where, and by how much; beside each
//! stands a sound drawing of which nothing is said.

use crate::bring_in_doubt::only;
use crate::brought::{brought_with, in_mm};
use fustian::bring::BringOptions;

/// All that is said of a drawing, whether it comes in or not.
fn said(name: &str, drawing: &str) -> Vec<String> {
    match brought_with(name, drawing, &BringOptions::default()) {
        Ok(brought) => brought.remarks,
        Err(why) => why.to_string().lines().map(str::to_owned).collect(),
    }
}

/// A layer for each of three sizes, as it is drawn by its number; `M` within a group that is moved.
fn sizes(transform: &str, drawn: impl Fn(&str, u32) -> String) -> String {
    let layers = ["S", "M", "L"].iter().zip(0..).map(|(size, step)| {
        let moved = if *size == "M" { transform } else { "" };
        format!("<g id='{size}' transform='{moved}'>{}</g>\n", drawn(size, step))
    });
    in_mm(&layers.collect::<String>())
}

/// Half a deck smock's front, whose lower right corner is cut off: each size 20 mm wider and 10 mm longer.
fn front(_: &str, step: u32) -> String {
    let (wide, long) = (200 + 20 * step, 400 + 10 * step);
    format!("<path id='front' d='M0 0 H{wide} V{} L{} {long} H0 Z'/>", long - 100, wide - 80)
}

#[test]
fn a_mirrored_size_is_told_as_that() {
    assert!(said("smock.svg", &sizes("", front)).is_empty(), "{:?}", said("smock.svg", &sizes("", front)));
    // Over in its place, over beside, and with its head down.
    for (transform, words) in [
        ("matrix(-1 0 0 1 220 0)", "M is drawn as the mirror image of S and L: turn it over in the drawing"),
        ("translate(900 0) scale(-1 1)", "M is drawn as the mirror image of S and L: turn it over"),
        ("translate(0 410) scale(1 -1)", "M is drawn as the mirror image of S and L: turn it over"),
        ("rotate(180 110 205)", "M is drawn upside down beside S and L: turn it round in the drawing"),
    ] {
        only(&said("smock.svg", &sizes(transform, front)), &["front", words]);
    }
    // All sizes turned over alike are a drawing of the left half.
    let all = in_mm(
        &["S", "M", "L"]
            .iter()
            .zip(0..)
            .map(|(size, step)| {
                format!("<g id='{size}' transform='matrix(-1 0 0 1 500 0)'>{}</g>", front(size, step))
            })
            .collect::<String>(),
    );
    assert!(said("smock.svg", &all).is_empty());
}

/// A bib looks the same turned over: its notch and its rivet do not.
#[test]
fn a_mirrored_size_is_known_by_what_lies_on_it() {
    let bib = |_: &str, step: u32| {
        let (wide, long) = (300 + 20 * step, 400 + 10 * step);
        format!(
            "<path id='bib' d='M0 0 H{wide} V{long} H0 Z'/><path d='M{wide} 120 h-6'/>\
             <circle id='rivet' cx='40' cy='60' r='3'/>"
        )
    };
    assert!(said("bib.svg", &sizes("", bib)).is_empty(), "{:?}", said("bib.svg", &sizes("", bib)));
    only(
        &said("bib.svg", &sizes("matrix(-1 0 0 1 320 0)", bib)),
        &["bib (", "M is drawn as the mirror image of S and L"],
    );
}

#[test]
fn handles_exchanged_in_one_size_are_told() {
    let drawn = |exchanged: &'static str| {
        sizes("", move |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let (near, far) =
                (format!("{} {}", wide * 7 / 10, long + 60), format!("{} {}", wide / 5, long + 10));
            let (first, second) = if size == exchanged { (far, near) } else { (near, far) };
            format!("<path id='bib' d='M0 0 H{wide} V{long} C{first} {second} 0 {long} Z'/>")
        })
    };
    assert!(said("bib.svg", &drawn("")).is_empty(), "{:?}", said("bib.svg", &drawn("")));
    for (size, others) in [("S", "M and L"), ("M", "S and L"), ("L", "S and M")] {
        let words = format!(
            "has its two handles exchanged in {size}: the first stands where the second does in {others}"
        );
        only(&said("bib.svg", &drawn(size)), &["bib", &words]);
    }
}

#[test]
fn a_corner_that_is_round_in_one_size_is_told() {
    let drawn = |round: &'static str| {
        sizes("", move |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let corner = match size == round {
                true => format!("V{} A30 30 0 0 1 {} {long}", long - 30, wide - 30),
                false => format!("V{long}"),
            };
            format!("<path id='bib' d='M0 0 H{wide} {corner} H0 Z'/>")
        })
    };
    assert!(said("bib.svg", &drawn("")).is_empty());
    // By hand: from end to end a quarter of a circle of 30 mm is 30 √2 = 42.4 mm.
    only(
        &said("bib.svg", &drawn("M")),
        &["the corner of S 200 mm from its left and 0 mm from its lower end is round in M, over 42 mm"],
    );
}

#[test]
fn an_edge_that_bends_otherwise_in_one_size_is_told() {
    // A quadratic curve stands off its chord by half as much as its handle does.
    let drawn = |usual: i32, other: i32| {
        sizes("", move |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let handle = long as i32 + if size == "M" { other } else { usual };
            format!("<path id='bib' d='M0 0 H{wide} V{long} Q{} {handle} 0 {long} Z'/>", wide / 2)
        })
    };
    assert!(said("bib.svg", &drawn(8, 9)).is_empty(), "{:?}", said("bib.svg", &drawn(8, 9)));
    only(
        &said("bib.svg", &drawn(8, -8)),
        &["bib (", "curve bends into the piece in M, and out of it in S and L"],
    );
    only(&said("bib.svg", &drawn(0, 12)), &["bib (", "curve is straight in S and L, and bows by 6 mm in M"]);
}

#[test]
fn a_corner_that_lies_off_in_one_size_is_told_with_its_amount() {
    let drawn = |odd: &'static str, by: u32| {
        sizes("", move |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let off = if size == odd { by } else { 0 };
            format!(
                "<path id='front' d='M0 0 H{wide} L{} {} L{} {long} H0 Z'/>",
                wide + off,
                long - 100,
                wide - 80
            )
        })
    };
    for (size, others) in [("S", "M and L"), ("M", "S and L"), ("L", "S and M")] {
        let words =
            format!("lies 40 mm off in {size} (40 mm to the right) from where {others} have it as they grow");
        only(&said("smock.svg", &drawn(size, 40)), &["front (", &words]);
    }
    // What stays as it is between two sizes is graded so.
    let held = sizes("", |size, step| {
        let (wide, long) = (200 + 20 * step, 400 + 10 * step);
        let shoulder = if size == "M" { 200 } else { wide };
        format!("<path id='front' d='M0 0 H{wide} L{shoulder} {} L{} {long} H0 Z'/>", long - 100, wide - 80)
    });
    assert!(said("smock.svg", &held).is_empty(), "{:?}", said("smock.svg", &held));
}

/// The hand of a mitten, traced point by point: half an ellipse over a straight cuff, each size 5 mm wider on both sides and 8 mm
/// longer than the one before.
fn mitten(odd: &str, by: f64) -> String {
    let mut rows = "piece,size,point,x mm,y mm\n".to_owned();
    for (size, step) in [("7", 0.0), ("8", 1.0), ("9", 2.0), ("10", 3.0)] {
        let (wide, high) = (90.0 + 5.0 * step, 200.0 + 8.0 * step);
        for point in 0..=24 {
            let (sine, cosine) = (f64::from(point) / 24.0 * std::f64::consts::PI).sin_cos();
            let off = if size == odd && point == 12 { by } else { 0.0 };
            rows += &format!("hand,{size},{},{:.2},{:.2}\n", point + 1, wide * cosine, high * sine + off);
        }
    }
    rows
}

#[test]
fn a_traced_point_beside_its_curve_in_one_size_is_told_with_its_amount() {
    assert!(said("mitten.csv", &mitten("", 0.0)).is_empty(), "{:?}", said("mitten.csv", &mitten("", 0.0)));
    // A hand that trembles by a millimetre traces no worse.
    assert!(said("mitten.csv", &mitten("8", 1.0)).is_empty(), "{:?}", said("mitten.csv", &mitten("8", 1.0)));
    for (size, by) in [("7", 8.0), ("8", 6.0), ("9", 12.0), ("10", 25.0)] {
        let words = format!("lies {by:.0} mm off in {size} ({by:.0} mm up)");
        let own = said("mitten.csv", &mitten(size, by));
        assert!(own.iter().any(|one| one.contains(&words)), "{words}\n{own:?}");
    }
}

/// The left edge is 400, 410 and 420 mm long; an upper edge of 380, 405 and 440 is longer in one size.
#[test]
fn an_edge_is_called_the_longest_where_it_is_so_in_every_size() {
    let text = |wide: [u32; 3]| {
        let drawing = sizes("", |_, step| {
            let (wide, long) = (wide[step as usize], 400 + 10 * step);
            format!("<path id='front' d='M0 0 H{wide} V{} L{} {long} H0 Z'/>", long - 100, wide - 80)
        });
        crate::brought::brought("smock.svg", &drawing).text
    };
    assert!(text([200, 220, 240]).contains("longest "), "{}", text([200, 220, 240]));
    assert!(!text([380, 405, 440]).contains("longest "), "{}", text([380, 405, 440]));
}

#[test]
fn a_mark_or_a_grain_line_that_one_of_three_sizes_lacks_is_told() {
    let drawn = |lacks: &'static str| {
        sizes("", move |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let on = "<circle id='rivet' cx='40' cy='60' r='3'/><path id='grain' d='M90 300 V100'/>";
            let on = if lacks.contains(size) { "" } else { on };
            format!("<path id='bib' d='M0 0 H{wide} V{long} H0 Z'/>{on}")
        })
    };
    assert!(said("bib.svg", &drawn("")).is_empty(), "{:?}", said("bib.svg", &drawn("")));
    // What is drawn in one size alone stands for all.
    assert!(said("bib.svg", &drawn("M L")).is_empty(), "{:?}", said("bib.svg", &drawn("M L")));
    let lacks = said("bib.svg", &drawn("L"));
    for words in [
        "bib has the mark “rivet” in S and M, and none in L",
        "bib has a grain line in S and M, and none in L",
    ] {
        assert!(lacks.iter().any(|one| one == words), "{words}\n{lacks:?}");
    }
}
