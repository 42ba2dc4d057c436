//! Sheets: frames and boxes round pieces, scales that contradict one another, one drawing a size, notches beside sew lines; beside each
//! a sound drawing of which nothing is said.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, brought_with, in_mm};
use fustian::bring::{BringOptions, ReadOptions, bring};

const BIB: &str = "<rect id='bib' x='50' y='50' width='300' height='400'/>";
const FLAP: &str = "<rect id='flap' x='450' y='50' width='200' height='90'/>";

#[test]
fn a_frame_round_all_pieces_is_left_out() {
    let drawn = |frame: &str| in_mm(&format!("{frame}\n{BIB}\n{FLAP}"));
    let sound = brought("bib.svg", &drawn(""));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    for name in ["", "id='frame'", "id='page 1'"] {
        let own = brought("bib.svg", &drawn(&format!("<rect {name} width='900' height='700'/>")));
        only(&own.remarks, &["a rectangle goes round all pieces", "900 mm wide and 700 mm high", "left out"]);
        assert_eq!(own.text.matches("\npiece ").count(), 2, "{}", own.text);
    }
    // A piece of its own name with things on it is none.
    let yoke = told(
        "bib.svg",
        &in_mm(
            "<rect id='yoke' width='900' height='700'/><rect id='patch' x='90' y='90' width='90' height='90'/>",
        ),
    );
    only(&yoke, &["patch lies inside yoke"]);
}

#[test]
fn a_closed_path_without_a_name_beside_named_ones_is_told() {
    let drawn = |named: &str| {
        in_mm(&format!("{BIB}\n{FLAP}\n<rect {named} x='450' y='300' width='60' height='40'/>"))
    };
    assert!(told("bib.svg", &drawn("id='tab'")).is_empty());
    only(&told("bib.svg", &drawn("")), &["1 closed path of bib.svg has no name", "line 3"]);
}

#[test]
fn a_scale_that_the_drawing_contradicts_is_told() {
    let scaled = |name: &str, drawing: &str, scale: f64| {
        let read = ReadOptions { scale: Some(scale), ..ReadOptions::default() };
        brought_with(name, drawing, &BringOptions { read, ..BringOptions::default() }).unwrap().remarks
    };
    assert!(scaled("bib.svg", &in_mm(BIB), 1.0).is_empty());
    only(&scaled("bib.svg", &in_mm(BIB), 2.0), &["one unit is 1 mm, and `scale` that it is 2 mm"]);
    let table = "piece,x mm,y mm\nbib,0,0\nbib,300,0\nbib,300,200\n";
    assert!(scaled("bib.csv", table, 1.0).is_empty());
    only(
        &scaled("bib.csv", table, 2.0),
        &["the first row of bib.csv says that one unit is 1 mm, and `scale` that it is 2 mm"],
    );
}

#[test]
fn a_width_and_a_height_that_say_two_scales_are_told() {
    let drawn = |height: u32| {
        format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' height='{height}mm' viewBox='0 0 1000 800'>{BIB}</svg>"
        )
    };
    assert!(told("bib.svg", &drawn(800)).is_empty());
    // 1000 : 1000 across, 840 : 800 up: 1 / 1.05 is 0.952.
    only(&told("bib.svg", &drawn(840)), &["its width and height say two scales", "0.952 times"]);
}

/// Trousers of 104 cm, a skirt and a yoke, in centimetres and said to be millimetres.
#[test]
fn centimetres_that_are_said_to_be_millimetres_are_told() {
    let drawn = |scale: f64| {
        let rect = |name: &str, x: f64, wide: f64, long: f64| {
            format!(
                "<rect id='{name}' x='{}' width='{}' height='{}'/>",
                x * scale,
                wide * scale,
                long * scale
            )
        };
        in_mm(
            &(rect("leg", 0.0, 30.0, 104.0)
                + &rect("yoke", 40.0, 40.0, 12.0)
                + &rect("band", 90.0, 40.0, 4.0)),
        )
    };
    assert!(told("trousers.svg", &drawn(10.0)).is_empty());
    only(
        &told("trousers.svg", &drawn(1.0)),
        &["no piece is longer than 104.0 mm", "in centimetres it would be 104.0 cm"],
    );
}

#[test]
fn an_allowance_that_is_said_beside_another_drawn_one_is_told() {
    let sewn = in_mm(&format!("{BIB}<rect id='sew line' x='60' y='60' width='280' height='380'/>"));
    let said = |allowance: f64| {
        let options = BringOptions { allowance: Some(allowance), ..BringOptions::default() };
        brought_with("bib.svg", &sewn, &options).unwrap().remarks
    };
    assert!(said(10.0).is_empty(), "{:?}", said(10.0));
    only(&said(15.0), &["bib: its sew line is drawn", "is 10 mm; `allowance` says 15 mm"]);
}

#[test]
fn a_count_that_differs_in_one_size_or_is_garbled_is_told() {
    let drawn = |of_m: &str| {
        let sizes = ["S", "M", "L"].iter().zip(0..).map(|(size, step)| {
            let words = if *size == "M" { of_m } else { "cut 2" };
            format!("<g id='{size}'><rect id='bib' width='{}' height='400'/><text x='90' y='90'>{words}</text></g>\n", 300 + 10 * step)
        });
        in_mm(&sizes.collect::<String>())
    };
    assert!(told("bib.svg", &drawn("cut 2")).is_empty(), "{:?}", told("bib.svg", &drawn("cut 2")));
    only(
        &told("bib.svg", &drawn("cut 1")),
        &["bib is cut 2 in S and L, and 1 in M: each size is written so; is one of them a slip?"],
    );
    let alone = |words: &str| brought("bib.svg", &in_mm(&format!("{BIB}<text x='90' y='90'>{words}</text>")));
    only(
        &alone("cut tow mirrored").remarks,
        &["“cut tow mirrored” seems to say how many are cut, and is not understood"],
    );
    assert!(alone("cut on the fold line").remarks.iter().all(|one| !one.contains("how many")));
    assert!(alone("cut 4 (2 mirrored pairs)").text.contains("cut 4 mirrored"));
}

#[test]
fn a_name_that_is_given_twice_is_a_mistake() {
    let named = |names: &[&str]| {
        let names =
            [("bib".to_owned(), names.iter().map(|name| (*name).to_owned()).collect())].into_iter().collect();
        brought_with("bib.svg", &in_mm(BIB), &BringOptions { names, ..BringOptions::default() })
    };
    assert!(named(&["hem", "side", "top", ""]).is_ok());
    let why = named(&["hem", "side", "hem"]).unwrap_err().to_string();
    assert!(why.contains("the name hem is given to two edges of bib"), "{why}");
}

#[test]
fn a_drawing_for_each_size_is_one_piece_in_several() {
    let size = |name: &str, wide: u32| {
        in_mm(&format!(
            "<g id='{name}'><g id='bib'><rect width='{wide}' height='400'/></g>\
             <g id='flap'><rect x='500' width='{wide}' height='90'/></g></g>"
        ))
    };
    let files = [size("S", 300), size("M", 310), size("L", 320)];
    let named = |names: [&'static str; 3]| {
        let files: Vec<(&str, &[u8])> =
            names.into_iter().zip(files.iter().map(|file| file.as_bytes())).collect();
        bring(&files, &BringOptions::default()).unwrap()
    };
    let own = named(["s.svg", "m.svg", "l.svg"]);
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    assert!(own.text.contains("sizes S, M, L") && own.text.matches("\npiece ").count() == 2, "{}", own.text);
    // The same size in two drawings is told.
    let (one, other) = (size("S", 300), size("S", 301));
    let twice =
        bring(&[("a.svg", one.as_bytes()), ("b.svg", other.as_bytes())], &BringOptions::default()).unwrap();
    assert!(
        twice.remarks.iter().any(|one| one.contains("bib is drawn in two drawings")),
        "{:?}",
        twice.remarks
    );
}

#[test]
fn a_notch_at_a_sew_line_or_drawn_as_a_wedge_is_one() {
    let notch = |more: &str| {
        let own = brought(
            "bib.svg",
            &in_mm(&format!("{BIB}<rect id='sew line' x='60' y='60' width='280' height='380'/>{more}")),
        );
        (own.text.lines().filter(|line| line.trim_start().starts_with("notch ")).count(), own.remarks)
    };
    assert_eq!(notch(""), (0, vec![]));
    // From the sew line inward, across it, a V and a triangle on the cutting line.
    for more in [
        "<path d='M340 200 h-5'/>",
        "<path d='M343 200 h-6'/>",
        "<path d='M350 197 L344 200 L350 203'/>",
        "<path d='M350 197 L344 200 L350 203 Z'/>",
    ] {
        assert_eq!(notch(more), (1, vec![]), "{more}");
    }
}

#[test]
fn a_sew_line_that_does_not_close_is_refused() {
    let drawn = |end: &str| in_mm(&format!("{BIB}<path id='sew line' d='M60 60 H340 V440 H60 {end}'/>"));
    assert!(brought("bib.svg", &drawn("Z")).text.contains("allowance 1\n"));
    let why = refused("bib.svg", &drawn(""));
    assert!(why.contains("the sew line of bib is open: its ends lie 380.0 mm apart"), "{why}");
}

#[test]
fn an_outline_that_nearly_closes_is_closed() {
    let drawn = |end: f64| in_mm(&format!("<path id='bib' d='M0 0 H300 V400 H0 V{end}'/>"));
    only(&told("bib.svg", &drawn(0.3)), &["the outline bib in line 1 was open by 0.3 mm, and was closed"]);
    assert!(refused("bib.svg", &drawn(2.0)).contains("does not close: its ends are 2.0 mm apart"));
}

#[test]
fn what_is_used_again_and_is_not_there_is_told() {
    let drawn = |id: &str| {
        in_mm(&format!(
            "{BIB}<defs><rect id='tab' width='90' height='40'/></defs><use href='#{id}' x='500'/>"
        ))
    };
    assert!(told("bib.svg", &drawn("tab")).is_empty());
    only(&told("bib.svg", &drawn("collar")), &["is to be used again that is not in the drawing, “collar”"]);
}

/// Found by damage: a handle kilometres away beside a sew line is told at once.
#[test]
fn a_cutting_line_that_reaches_far_is_not_measured() {
    let wild = in_mm(
        "<path id='bib' d='M0 0 H300 C3000000 9 300 4000000 300 400 H0 Z'/><path id='sew line' d='M10 10 H290 V390 H10 Z'/>",
    );
    let begun = std::time::Instant::now();
    let why = refused("bib.svg", &wild);
    assert!(
        why.contains("the line that bib is cut at is more than 100 m long: is the scale right?"),
        "{why}"
    );
    assert!(begun.elapsed() < std::time::Duration::from_secs(3), "{:?}", begun.elapsed());
}
