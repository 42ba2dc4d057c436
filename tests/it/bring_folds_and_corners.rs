//! Pieces with more than one fold are told; corners where splines end are corners.

use crate::brought::{brought, in_mm, plain};
use crate::reading_dxf::{block, drawing, insert, ring, words};

const METRIC: &str = "9 $INSUNITS|70 4|";

fn fold(from: (f64, f64), to: (f64, f64)) -> String {
    format!("0 LINE|8 6|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
}

/// A yoke, 240 by 120, with these lines of folds.
fn yoke(folds: &str) -> String {
    let own = ring("1", &[(0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0)]);
    let said = words("1", 100.0, 60.0, "Piece Name: Yoke");
    drawing(METRIC, &block("YOKE", &(own + folds + &said)), &insert("YOKE"))
}

#[test]
fn two_folds_of_one_piece_are_told() {
    let (left, lower) = (fold((0.0, 0.0), (0.0, 120.0)), fold((0.0, 0.0), (240.0, 0.0)));
    let told = brought("yoke.dxf", &yoke(&(left.clone() + &lower))).remarks;
    let [only] = &*told else { panic!("{told:?}") };
    assert!(only.contains("Yoke of yoke.dxf has two folds that do not lie in one line"), "{only}");
    // One fold, and one that is drawn in two parts.
    let parts = fold((0.0, 0.0), (0.0, 60.0)) + &fold((0.0, 60.0), (0.0, 120.0));
    for folds in [left, parts] {
        let sound = brought("yoke.dxf", &yoke(&folds));
        assert!(
            sound.remarks.is_empty() && plain(&sound.text).contains("fold to p1"),
            "{:?}\n{}",
            sound.remarks,
            sound.text
        );
    }
}

#[test]
fn two_folds_in_a_vector_drawing_are_told() {
    let drawn = |more: &str| {
        in_mm(&format!(
            "<g id='yoke'><rect width='240' height='120'/><line id='fold' x1='0' y1='0' x2='0' y2='120'/>{more}</g>"
        ))
    };
    let told = brought("yoke.svg", &drawn("<line id='fold_2' x1='0' y1='0' x2='240' y2='0'/>")).remarks;
    assert_eq!(
        told.iter().filter(|one| one.contains("yoke of yoke.svg has two folds")).count(),
        1,
        "{told:?}"
    );
    assert!(brought("yoke.svg", &drawn("")).remarks.is_empty());
}

/// A spline through points, and lines back to where it begins: the lower side 200 mm, the left one 100. The spline leaves the left
/// corner upward and arrives at the right one from above, so that both are corners.
#[test]
fn a_spline_through_points_ends_at_corners() {
    let points = [(0.0, 100.0), (40.0, 160.0), (100.0, 180.0), (160.0, 120.0), (200.0, 0.0)];
    let through: String = points.iter().map(|(x, y)| format!("11 {x}|21 {y}|31 0|")).collect();
    let line = |from: (f64, f64), to: (f64, f64)| {
        format!("0 LINE|8 CUT|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
    };
    let spline = format!("0 SPLINE|8 CUT|70 8|71 3|72 0|73 0|74 5|{through}");
    let drawn = spline + &line((200.0, 0.0), (0.0, 0.0)) + &line((0.0, 0.0), (0.0, 100.0));
    let text = plain(&brought("cap.dxf", &drawing(METRIC, "", &drawn)).text);
    for corner in ["point p1 = (0, 0)", "point p2 = (20, 0)", "point p3 = (0, 10)"] {
        assert!(text.contains(corner), "{corner}\n{text}");
    }
    assert!(!text.contains("point p4"), "{text}");
    assert!(text.contains("straight, 20\n") && text.contains("straight, 10\n"), "{text}");
}
