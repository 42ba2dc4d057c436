//! Points that lie on one curve come in as one curve, however unlike its handles are.

use crate::brought::{brought, in_mm, plain};
use kurbo::{CubicBez, ParamCurve, ParamCurveNearest, Point};

/// A panel whose side is so many points of that curve: from (0, 0) to the right, along the curve, back to the left and down.
fn panel(curve: CubicBez, count: usize) -> String {
    let points = (0..count).map(|at| curve.eval(at as f64 / (count - 1) as f64));
    let corners: String = points.map(|at| format!("L{:.3} {:.3} ", at.x, 1000.0 - at.y)).collect();
    in_mm(&format!("<path id='panel' d='M0 1000 {corners}L0 {:.3} Z'/>", 1000.0 - curve.p3.y))
}

/// Where the text says that a curve's two handles stand, in millimetres.
fn handles(text: &str) -> Option<(Point, Point)> {
    let figures = text.split(" handles (").nth(1)?.split(')').take(2).collect::<Vec<_>>();
    let place = |words: &str| {
        let (x, y) = words.trim_start_matches([',', ' ', '(']).split_once(", ")?;
        Some(Point::new(10.0 * x.parse::<f64>().ok()?, 10.0 * y.parse::<f64>().ok()?))
    };
    Some((place(figures.first()?)?, place(figures.get(1)?)?))
}

/// Handles of 49 and of 101 mm, of 8 and of 104 mm, of 170 and of 57 mm: each curve turns one way.
#[test]
fn points_on_one_curve_are_one_curve() {
    let curves = [
        CubicBez::new((250.0, 330.0), (205.0, 350.0), (200.0, 440.0), (215.0, 540.0)),
        CubicBez::new((210.0, 0.0), (212.0, 8.0), (330.0, 100.0), (260.0, 220.0)),
        CubicBez::new((290.0, 100.0), (300.0, 270.0), (230.0, 300.0), (190.0, 340.0)),
    ];
    for curve in curves {
        for count in [9, 12, 16, 30, 80] {
            let text = plain(&brought("panel.svg", &panel(curve, count)).text);
            // Three straight edges and the curve: four corners, and no joint within the curve.
            assert!(text.contains("point p4 = ") && !text.contains("point p5 = "), "{count}\n{text}");
            assert!(!text.contains("panel_e"), "{count}\n{text}");
            let Some((out, back)) = handles(&text) else { panic!("{count}\n{text}") };
            let own = CubicBez::new(curve.p0, out, back, curve.p3);
            let off = (0..=50)
                .map(|at| own.nearest(curve.eval(f64::from(at) / 50.0), 1e-6).distance_sq.sqrt())
                .fold(0.0, f64::max);
            // Between points that are known to 0.001 mm, written to 0.01 mm.
            assert!(off < 0.05, "{count} points: {off} mm off\n{text}");
        }
    }
}

/// What no one curve follows is parted as before.
#[test]
fn a_line_of_two_curves_is_parted() {
    let at = |share: f64| {
        let x = 400.0 * (1.0 - share);
        Point::new(x, 300.0 + 40.0 * (x / 200.0 * std::f64::consts::TAU).sin())
    };
    let corners: String = (0..=60)
        .map(|step| at(f64::from(step) / 60.0))
        .map(|at| format!("L{:.3} {:.3} ", at.x, 1000.0 - at.y))
        .collect();
    let text = brought("panel.svg", &in_mm(&format!("<path id='panel' d='M0 1000 H400 {corners}Z'/>"))).text;
    assert!(text.contains("panel_e"), "{text}");
}

/// One curve in three sizes, whose handle out of (250, 330) stands at (205, 350) and grows by (8, 4), and whose other one stands at
/// (200, 440) and grows by (8, 6): they come in as they were drawn in every size, and not in one size as another curve that passes
/// the points as well.
#[test]
fn handles_grow_as_they_were_drawn() {
    let drawn = |number: u32, size: &str| {
        let grown = f64::from(number);
        let curve = CubicBez::new(
            (250.0 + 10.0 * grown, 330.0 + 4.0 * grown),
            (205.0 + 8.0 * grown, 350.0 + 4.0 * grown),
            (200.0 + 8.0 * grown, 440.0 + 6.0 * grown),
            (215.0 + 8.0 * grown, 540.0 + 8.0 * grown),
        );
        let points = (0..24).map(|at| curve.eval(f64::from(at) / 23.0));
        let corners: String = points.map(|at| format!("L{:.3} {:.3} ", at.x, 1000.0 - at.y)).collect();
        format!("<path id='panel-{size}' d='M0 1000 {corners}L0 {:.3} Z'/>", 1000.0 - curve.p3.y)
    };
    let sizes = ["S", "M", "L"].into_iter().zip(0..).map(|(size, number)| drawn(number, size));
    let text = plain(&brought("panel.svg", &in_mm(&sizes.collect::<String>())).text);
    for (name, own) in [("p2_out", [20.5, 35.0, 0.8, 0.4]), ("p3_in", [20.0, 44.0, 0.8, 0.6])] {
        let line = text.lines().find_map(|line| line.strip_prefix(&format!("point {name} = each ")));
        let Some(line) = line else { panic!("{name}\n{text}") };
        let places: Vec<&str> = line.trim_matches(['(', ')']).split("), (").collect();
        assert_eq!(places.len(), 3, "{line}");
        for (place, number) in places.iter().zip(0..) {
            let figures: Vec<f64> = place.split(", ").filter_map(|one| one.parse().ok()).collect();
            let [x, y, across, up] = own;
            let (x, y) = (x + across * f64::from(number), y + up * f64::from(number));
            assert!((figures[0] - x).abs() < 0.02 && (figures[1] - y).abs() < 0.02, "({x}, {y}): {line}");
        }
    }
}
