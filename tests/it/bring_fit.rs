//! Traced points become curves that miss none of them by more than is allowed.

use crate::brought::{brought_with, draft, outline};
use fustian::bring::BringOptions;
use kurbo::{ParamCurveNearest, Point};

/// A piece whose upper edge is traced as so many points along a curve, in millimetres with y up.
fn traced(count: usize, curve: impl Fn(f64) -> Point) -> (String, Vec<Point>) {
    let points: Vec<Point> = (0..=count).map(|at| curve(at as f64 / count as f64)).collect();
    let data: String = points.iter().map(|point| format!("L{} {} ", point.x, 1000.0 - point.y)).collect();
    let drawn = format!("<path id='top' d='M0 1000 H400 {data}Z'/>");
    (crate::brought::in_mm(&drawn), points)
}

/// The greatest distance of a point from the outline: half of Hausdorff's; and how many edges the outline has.
fn missed(text: &str, points: &[Point]) -> (f64, usize) {
    let compiled = draft(text);
    let outline = outline(&compiled, 0, "top");
    let away = |point: &Point| {
        let each = outline.iter().flat_map(|path| path.segments().to_vec());
        each.map(|one| one.nearest(*point, 1e-6).distance_sq.sqrt()).fold(f64::INFINITY, f64::min)
    };
    (points.iter().map(away).fold(0.0, f64::max), outline.len())
}

/// The greatest distance of the outline from the traced line, its points joined straight: the other half.
fn strayed(text: &str, points: &[Point]) -> f64 {
    let compiled = draft(text);
    let mut worst = 0.0_f64;
    for path in outline(&compiled, 0, "top") {
        if path.is_straight() {
            continue;
        }
        for point in path.flatten(0.01) {
            let each = points
                .windows(2)
                .map(|pair| kurbo::Line::new(pair[0], pair[1]).nearest(point, 1e-6).distance_sq);
            worst = worst.max(each.fold(f64::INFINITY, f64::min).sqrt());
        }
    }
    worst
}

/// An S from the right to the left: what it is made of is a sine, and no cubic.
fn wave(share: f64) -> Point {
    let x = 400.0 * (1.0 - share);
    Point::new(x, 300.0 + 40.0 * (x / 400.0 * std::f64::consts::TAU).sin())
}

#[test]
fn no_point_is_missed_by_more_than_the_tolerance() {
    for (count, tolerance) in [(40, 0.2), (200, 0.2), (500, 0.05), (500, 1.0)] {
        let (drawing, points) = traced(count, wave);
        let options = BringOptions { tolerance, ..BringOptions::default() };
        let text = brought_with("top.svg", &drawing, &options).unwrap().text;
        let (worst, edges) = missed(&text, &points);
        // What is written is rounded to 0.01 mm, by 0.0071 at most.
        assert!(worst <= tolerance + 0.008, "{count} points: {worst} for {tolerance}\n{text}");
        assert!(edges <= 9, "{edges} edges for {tolerance}\n{text}");
        // The sagitta of a chord adds to it: chords of 400/40 mm on a radius of 100 mm stand off by 0.13 mm.
        assert!(strayed(&text, &points) <= tolerance + 0.15, "{count}\n{text}");
        // And the text says by how much, to 0.01 mm.
        let said = text.split("curves within ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
        let said: f64 = said.parse().unwrap();
        assert!(said <= tolerance + 0.005 && worst <= said + 0.02, "{said} said, {worst} found");
    }
}

#[test]
fn a_traced_cubic_is_found_again_as_one() {
    use kurbo::ParamCurve;
    let curve = kurbo::CubicBez::new((400.0, 300.0), (300.0, 420.0), (60.0, 380.0), (0.0, 200.0));
    let (drawing, points) = traced(120, |share| curve.eval(share));
    let text = brought_with("top.svg", &drawing, &BringOptions::default()).unwrap().text;
    let (worst, edges) = missed(&text, &points);
    assert_eq!(edges, 4, "{text}");
    assert!(worst < 0.03, "{worst}\n{text}");
}

#[test]
fn what_is_straight_stays_straight() {
    let (drawing, points) = traced(60, |share| Point::new(400.0 * (1.0 - share), 300.0));
    let text = brought_with("top.svg", &drawing, &BringOptions::default()).unwrap().text;
    let (worst, edges) = missed(&text, &points);
    assert_eq!(edges, 4, "{text}");
    assert!(worst < 0.01 && !text.contains("handles"), "{text}");
}

#[test]
fn all_sizes_are_parted_alike() {
    // The same wave, wider by 2 cm a size and traced with unlike numbers of points.
    let one = |count: usize, size: &str, width: f64| {
        let data: String = (0..=count)
            .map(|at| {
                let x = 1.0 - at as f64 / count as f64;
                let y = 700.0 - 40.0 * (x * std::f64::consts::TAU).sin();
                format!("L{} {y} ", x * width)
            })
            .collect();
        format!("<path id='top-{size}' d='M0 1000 H{width} {data}Z'/>")
    };
    let drawn =
        crate::brought::in_mm(&[one(80, "S", 400.0), one(95, "M", 420.0), one(61, "L", 440.0)].concat());
    let text = brought_with("top.svg", &drawn, &BringOptions::default()).unwrap().text;
    let compiled = draft(&text);
    let counts: Vec<usize> = (0..3).map(|size| outline(&compiled, size, "top").len()).collect();
    assert!(counts.iter().all(|count| *count == counts[0]) && counts[0] <= 9, "{counts:?}\n{text}");
}
