//! The cutting line: each edge's own allowance, corners, hem ends, and what does not fit.

use crate::cases::cases;
use fustian::cutting::{Allowed, CornerCut, CutRun, Most, Unfit, cutting_line};
use fustian::shape::Point;
use fustian::shape::arc::{Turning, arc_about};
use fustian::shape::curve::smooth_curve;
use fustian::shape::outline::{contains, crossings, signed_area};
use fustian::shape::path::Path;
use fustian::syntax::tree::CornerStyle;
use geo::buffer::{BufferStyle, LineJoin};
use geo::{Area, Buffer, Distance, Euclidean};
use proptest::prelude::*;

fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
    let points: Vec<Point> = corners.iter().map(|&corner| corner.into()).collect();
    let ends = points.iter().cycle().skip(1);
    points.iter().zip(ends).map(|(from, to)| Path::straight(*from, *to)).collect()
}

fn plain(widths: &[f64]) -> Vec<Allowed> {
    widths.iter().map(|&width| Allowed { width, ..Allowed::default() }).collect()
}

fn unsaid(count: usize) -> Vec<CornerCut> {
    vec![CornerCut::default(); count]
}

/// The corners of a cutting line of straight runs, each once.
fn corners_of(line: &[CutRun]) -> Vec<Point> {
    let mut corners: Vec<Point> = Vec::new();
    for point in line.iter().flat_map(|run| run.path.flatten(0.01)) {
        if corners.iter().all(|known| known.distance(point) > 1e-3) {
            corners.push(point);
        }
    }
    corners
}

fn assert_corners(line: &[CutRun], expected: &[(f64, f64)]) {
    let corners = corners_of(line);
    assert_eq!(corners.len(), expected.len(), "{corners:?}");
    for &(x, y) in expected {
        let near = corners.iter().any(|corner| corner.distance(Point::new(x, y)) < 1e-3);
        assert!(near, "({x}, {y}) is no corner of {corners:?}");
    }
}

/// A trapezoid A(0,0) B(200,0) C(160,100) D(20,100) with a hem of 40 below and 10, 15, 20 on the
/// other edges. By hand: the right cutting line is 100x + 40y = 20000 + 10·√(40² + 100²), the left
/// one 100x − 20y = −20·√(20² + 100²); each meets the hem's line at y = 0 and goes down from there
/// as its mirror image, y replaced by −y.
#[test]
fn a_trapezoid_with_four_allowances_and_a_hem() {
    let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (160.0, 100.0), (20.0, 100.0)]);
    let mut allowed = plain(&[40.0, 10.0, 15.0, 20.0]);
    allowed[0].turned_up = true;
    let right = (20000.0 + 10.0 * 11600.0_f64.sqrt()) / 100.0;
    let left = -20.0 * 10400.0_f64.sqrt() / 100.0;
    let expected = [
        (left + 8.0, -40.0),
        (right - 16.0, -40.0),
        (right, 0.0),
        (right - 46.0, 115.0),
        (left + 23.0, 115.0),
        (left, 0.0),
    ];
    let line = cutting_line(&ring, &allowed, &unsaid(4)).unwrap();
    assert_corners(&line, &expected);
    // The same walked the other way round.
    let back: Vec<Path> = ring.iter().rev().map(Path::reversed).collect();
    let back_allowed: Vec<Allowed> = allowed.iter().rev().copied().collect();
    assert_corners(&cutting_line(&back, &back_allowed, &unsaid(4)).unwrap(), &expected);
}

/// A skirt that narrows to its hem: the hem's end must spread, or it would be too short when it is
/// turned up. A(20,0) B(100,0) C(120,200) D(0,200): at depth d below the hem the cloth must reach
/// as far out as it does at height d above: by hand x = 100 + 10/200·√(20² + 200²) + d/10 on the
/// right.
#[test]
fn a_tapering_hem_spreads() {
    let ring = polygon(&[(20.0, 0.0), (100.0, 0.0), (120.0, 200.0), (0.0, 200.0)]);
    let mut allowed = plain(&[30.0, 10.0, 10.0, 10.0]);
    allowed[0].turned_up = true;
    let line = cutting_line(&ring, &allowed, &unsaid(4)).unwrap();
    let out = 10.0 / 200.0 * 40400.0_f64.sqrt();
    assert_corners(
        &line,
        &[
            (100.0 + out, 0.0),
            (100.0 + out + 3.0, -30.0),
            (20.0 - out - 3.0, -30.0),
            (20.0 - out, 0.0),
            (100.0 + out + 21.0, 210.0),
            (20.0 - out - 21.0, 210.0),
        ],
    );
}

/// A turn-up of 40 with a hem of 30 takes 40 + 40 + 30 beyond the finished edge, which lies at y = 0. The
/// right side of A(0,0) B(100,0) C(120,100) D(−20,100) is at 100 + y/5 at height y. Its first 40 lie up on
/// the outside, mirrored: 108 at −40. The next 40 go down again behind them, as the side goes: 100 at −80.
/// The hem lies up inside, mirrored: 106 at −110. Turned under by another 10 it comes back to 104.
#[test]
fn a_turn_up_is_mirrored_straight_and_mirrored_again() {
    let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (120.0, 100.0), (-20.0, 100.0)]);
    let cut = |width: f64, under: Option<f64>| {
        let mut allowed = plain(&[width, 0.0, 0.0, 0.0]);
        allowed[0].turned_up = true;
        allowed[0].turn_up = Some(40.0);
        allowed[0].turned_under = under;
        cutting_line(&ring, &allowed, &unsaid(4)).unwrap()
    };
    let rest = [(0.0, 0.0), (120.0, 100.0), (-20.0, 100.0)];
    let right = [(100.0, 0.0), (108.0, -40.0), (100.0, -80.0), (106.0, -110.0)];
    let left = [(-6.0, -110.0), (0.0, -80.0), (-8.0, -40.0)];
    assert_corners(&cut(110.0, None), &[&right[..], &left, &rest].concat());
    let right = [&right[..], &[(104.0, -120.0)]].concat();
    let left = [&[(-4.0, -120.0)], &left[..]].concat();
    assert_corners(&cut(120.0, Some(110.0)), &[&right[..], &left, &rest].concat());
}

/// Each fold mirrors. A(0,0) B(100,0) C(120,100) D(−20,100) with no allowance but a hem of 30 below
/// whose raw edge is turned under by 10: at height y the right side is at 100 + y/5, so 30 below it is
/// cut at 100 + 30/5 = 106, where it is turned again, and 10 further down at what lies 10 above that
/// line, 100 + 20/5 = 104. Turned twice by 30, its raw edge comes back to 100.
#[test]
fn what_is_turned_under_is_mirrored_once_more() {
    let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (120.0, 100.0), (-20.0, 100.0)]);
    let cut = |width: f64| {
        let mut allowed = plain(&[width, 0.0, 0.0, 0.0]);
        allowed[0].turned_up = true;
        allowed[0].turned_under = Some(30.0);
        (cutting_line(&ring, &allowed, &unsaid(4)).unwrap(), allowed)
    };
    let (line, allowed) = cut(40.0);
    let expected = [
        (100.0, 0.0),
        (106.0, -30.0),
        (104.0, -40.0),
        (-4.0, -40.0),
        (-6.0, -30.0),
        (0.0, 0.0),
        (120.0, 100.0),
        (-20.0, 100.0),
    ];
    assert_corners(&line, &expected);
    // The same walked the other way round.
    let back: Vec<Path> = ring.iter().rev().map(Path::reversed).collect();
    let back_allowed: Vec<Allowed> = allowed.iter().rev().copied().collect();
    assert_corners(&cutting_line(&back, &back_allowed, &unsaid(4)).unwrap(), &expected);
    let (twice, _) = cut(60.0);
    let corners = corners_of(&twice);
    for (x, y) in [(106.0, -30.0), (100.0, -60.0), (0.0, -60.0)] {
        assert!(corners.iter().any(|corner| corner.distance(Point::new(x, y)) < 1e-3), "{corners:?}");
    }
}

/// By hand, at C of the first trapezoid: the side's stitching line reaches the top's cutting line
/// at (154, 115); square to the side from there it is 10 to the side's cutting line.
#[test]
fn a_square_corner_is_square_to_the_edge_said_first() {
    let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (160.0, 100.0), (20.0, 100.0)]);
    let mut corners = unsaid(4);
    corners[1] = CornerCut { style: Some(CornerStyle::Square), second_first: false };
    let line = cutting_line(&ring, &plain(&[10.0, 10.0, 15.0, 20.0]), &corners).unwrap();
    let slant = 11600.0_f64.sqrt();
    let points = corners_of(&line);
    for (x, y) in [(154.0, 115.0), (154.0 + 1000.0 / slant, 115.0 + 400.0 / slant)] {
        assert!(points.iter().any(|point| point.distance(Point::new(x, y)) < 1e-3), "{points:?}");
    }
    // Said the other way round, it is square to the top: straight up from (160 + …, 100).
    corners[1].second_first = true;
    let line = cutting_line(&ring, &plain(&[10.0, 10.0, 15.0, 20.0]), &corners).unwrap();
    let across = (20000.0 - 4000.0 + 10.0 * slant) / 100.0;
    let points = corners_of(&line);
    for (x, y) in [(across, 100.0), (across, 115.0)] {
        assert!(points.iter().any(|point| point.distance(Point::new(x, y)) < 1e-3), "{points:?}");
    }
}

/// The same trapezoid with a hem of 40 on the side AB, which flares downwards. At B, `corner hem/side
/// square`, by hand: the hem's line y = 0 reaches the side's cutting line 100x + 40y = 20000 + 10·s,
/// s = √(40² + 100²), at x = 200 + s/10; square to the hem from there it is 40 down to the hem's raw
/// edge. `corner side/hem square`: the side's line goes on to (216, −40) on the raw edge; square to the
/// side from there it is 10, by (1000/s, 400/s), to the side's cutting line.
#[test]
fn a_square_corner_at_a_hem_that_flares() {
    let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (160.0, 100.0), (20.0, 100.0)]);
    let s = 11600.0_f64.sqrt();
    let said = |second_first: bool| {
        let mut allowed = plain(&[40.0, 10.0, 0.0, 0.0]);
        allowed[0].turned_up = true;
        let mut corners = unsaid(4);
        corners[0] = CornerCut { style: Some(CornerStyle::Square), second_first };
        cutting_line(&ring, &allowed, &corners).unwrap()
    };
    // At A the side has no allowance: its hem end is the side's mirror image, 20 · 40/100 to the right.
    let others = [(160.0 + s / 10.0, 100.0), (20.0, 100.0), (0.0, 0.0), (8.0, -40.0)];
    let hem_first = [(200.0 + s / 10.0, -40.0), (200.0 + s / 10.0, 0.0)];
    assert_corners(&said(false), &[&others[..], &hem_first].concat());
    let side_first = [(216.0, -40.0), (216.0 + 1000.0 / s, -40.0 + 400.0 / s)];
    assert_corners(&said(true), &[&others[..], &side_first].concat());
}

/// A skirt that narrows to its hem, A(20,0) B(100,0) C(120,200) D(0,200), hem 30 and sides 10, both
/// corners square, by hand. Said hem first: out to 100 + s/20, s = √(20² + 200²), and straight down.
/// Said side first at B: the side's line goes on to (97, −30); square to it from there, by
/// (2000/s, −200/s), to the side's cutting line.
#[test]
fn a_square_corner_at_a_hem_that_narrows() {
    let ring = polygon(&[(20.0, 0.0), (100.0, 0.0), (120.0, 200.0), (0.0, 200.0)]);
    let s = 40400.0_f64.sqrt();
    let mut allowed = plain(&[30.0, 10.0, 0.0, 10.0]);
    allowed[0].turned_up = true;
    let square = |second_first| CornerCut { style: Some(CornerStyle::Square), second_first };
    let top = [(120.0 + s / 20.0, 200.0), (-s / 20.0, 200.0)];
    let mut corners = unsaid(4);
    // At A the way arrives by the side and leaves by the hem.
    (corners[0], corners[3]) = (square(false), square(true));
    let out = s / 20.0;
    let down = [(100.0 + out, 0.0), (100.0 + out, -30.0), (20.0 - out, -30.0), (20.0 - out, 0.0)];
    assert_corners(&cutting_line(&ring, &allowed, &corners).unwrap(), &[&top[..], &down].concat());
    (corners[0], corners[3]) = (square(true), square(false));
    let (x, y) = (2000.0 / s, 200.0 / s);
    let slanted = [(97.0, -30.0), (97.0 + x, -30.0 - y), (23.0, -30.0), (23.0 - x, -30.0 - y)];
    assert_corners(&cutting_line(&ring, &allowed, &corners).unwrap(), &[&top[..], &slanted].concat());
}

/// The same skirt said by a maker, `corner hem/side square` or the other way round.
#[test]
fn a_square_corner_of_a_hem_as_a_maker_says_it() {
    let written = |corner: &str| {
        let text = format!(
            "garment \"Mess skirt\"\nunits mm\nallowance 10\nfabric serge \"serge\" {{ width 1500 }}\nlayer outer in serge {{ skirt }}\n\
             piece skirt \"Skirt\" {{\ncut 2\npoint a = (20, 0)\npoint b = (100, 0)\npoint c = (120, 200)\npoint d = (0, 200)\n\
             outline from a {{\nhem to b\nside to c\ntop to d\nback to a\n}}\n{corner}\n}}\n\
             seam round skirt.side to skirt.back {{ matching skirt.c with skirt.d }}\nfinish skirt.hem  hem 30\nfinish skirt.top  bound 8\n"
        );
        let compiled =
            fustian::compile(&fustian::source::MemoryLoader::new().with("skirt.fus", text), "skirt.fus");
        assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
        let parts = compiled.sizes[0].cut(&compiled.garment);
        corners_of(&parts.parts[0].cutting)
    };
    let s = 40400.0_f64.sqrt();
    let is_there = |corners: &[Point], x: f64, y: f64| {
        assert!(
            corners.iter().any(|corner| corner.distance(Point::new(x, y)) < 1e-3),
            "({x}, {y}): {corners:?}"
        );
    };
    let hem_first = written("corner hem/side square");
    is_there(&hem_first, 100.0 + s / 20.0, -30.0);
    let side_first = written("corner side/hem square");
    is_there(&side_first, 97.0, -30.0);
    is_there(&side_first, 97.0 + 2000.0 / s, -30.0 - 200.0 / s);
    // Nothing said: the mirror image of the side, 30 · 20/200 further out than at the hem's line.
    is_there(&written(""), 100.0 + s / 20.0 + 3.0, -30.0);
}

/// A right angle cut off 10 from its corner, by hand: x + y = 200 + 10√2.
#[test]
fn a_blunt_corner_is_cut_off() {
    let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]);
    let mut corners = unsaid(4);
    corners[1].style = Some(CornerStyle::Blunt);
    let line = cutting_line(&ring, &plain(&[10.0; 4]), &corners).unwrap();
    let short = 90.0 + 10.0 * 2.0_f64.sqrt();
    assert_corners(&line, &[(-10.0, -10.0), (110.0, -10.0), (110.0, short), (short, 110.0), (-10.0, 110.0)]);
}

/// The point of a scarf, 20° wide, would reach 10 / sin 10° = 57.6 beyond; it is cut off.
#[test]
fn a_sharp_point_is_no_spike() {
    let half = 10.0_f64.to_radians();
    let ring = polygon(&[(0.0, 0.0), (300.0 * half.cos(), 300.0 * half.sin()), (0.0, 600.0 * half.sin())]);
    let line = cutting_line(&ring, &plain(&[10.0; 3]), &unsaid(3)).unwrap();
    let farthest = corners_of(&line).iter().map(|point| point.x).fold(0.0, f64::max);
    assert!(farthest <= 300.0 * half.cos() + 10.0 + 1e-6, "{farthest}");
}

/// On the fold there is no allowance, and the hem ends on the fold as it runs on.
#[test]
fn a_fold_has_none() {
    let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 200.0), (0.0, 200.0)]);
    let mut allowed = plain(&[30.0, 10.0, 15.0, 0.0]);
    allowed[0].turned_up = true;
    allowed[3].fold = true;
    let line = cutting_line(&ring, &allowed, &unsaid(4)).unwrap();
    assert_corners(&line, &[(0.0, -30.0), (110.0, -30.0), (110.0, 0.0), (110.0, 215.0), (0.0, 215.0)]);
}

/// An edge of which a part is sewn wider: the cutting line steps out at the division.
#[test]
fn straight_on_with_another_allowance_is_a_step() {
    let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (100.0, 100.0), (0.0, 100.0)]);
    let line = cutting_line(&ring, &plain(&[10.0, 10.0, 25.0, 10.0, 10.0]), &unsaid(5)).unwrap();
    assert_corners(
        &line,
        &[(-10.0, -10.0), (110.0, -10.0), (110.0, 60.0), (125.0, 60.0), (125.0, 110.0), (-10.0, 110.0)],
    );
}

#[test]
fn without_allowance_it_is_the_stitching_line() {
    let ring = bodice();
    let line = cutting_line(&ring, &plain(&[0.0; 6]), &unsaid(6)).unwrap();
    let paths: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
    assert_eq!(paths, ring);
}

/// A half front: straight and curved edges, a concave armhole and neck.
fn bodice() -> Vec<Path> {
    let p = Point::new;
    let (hem_cf, neck_cf, neck_side, tip, underarm, hem_side) =
        (p(0.0, -640.0), p(0.0, -85.0), p(75.0, 0.0), p(200.0, -35.0), p(275.0, -255.0), p(275.0, -640.0));
    let (up, right) = (fustian::shape::Vec2::new(0.0, 1.0), fustian::shape::Vec2::new(1.0, 0.0));
    let shoulder = (tip - neck_side) / (tip - neck_side).hypot();
    let in_from_shoulder = fustian::shape::Vec2::new(shoulder.y, -shoulder.x);
    vec![
        Path::straight(hem_cf, neck_cf),
        smooth_curve(&[neck_cf, neck_side], Some(right), Some(up)).unwrap(),
        Path::straight(neck_side, tip),
        smooth_curve(&[tip, underarm], Some(in_from_shoulder), Some(right)).unwrap(),
        Path::straight(underarm, hem_side),
        Path::straight(hem_side, hem_cf),
    ]
}

fn geo_ring(paths: &[Path], tolerance: f64) -> geo::LineString {
    let mut points: Vec<geo::Coord> = Vec::new();
    for point in paths.iter().flat_map(|path| path.flatten(tolerance)) {
        let coordinate = geo::Coord { x: point.x, y: point.y };
        if points.last().is_none_or(|last| (last.x - point.x).hypot(last.y - point.y) > 1e-6) {
            points.push(coordinate);
        }
    }
    points.into()
}

/// Another library's buffer of the same outline (geo, its join mitred): area within 0.1 %, and
/// within 0.05 mm of each other away from corners.
#[test]
fn a_uniform_allowance_is_the_buffer_of_the_outline() {
    let ring = bodice();
    for width in [5.0, 10.0, 25.0] {
        let line = cutting_line(&ring, &plain(&[width; 6]), &unsaid(6)).unwrap();
        let paths: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
        let style = BufferStyle::new(width).line_join(LineJoin::Miter(0.1));
        let stitching = geo::Polygon::new(geo_ring(&ring, 0.001), Vec::new());
        let buffered = stitching.buffer_with_style(style);
        let other = buffered.0.first().unwrap().exterior().clone();
        let (own_area, other_area) = (signed_area(&paths).abs(), buffered.unsigned_area());
        assert!((own_area / other_area - 1.0).abs() < 1e-3, "{own_area} {other_area}");
        let corners: Vec<Point> = ring.iter().map(Path::start).collect();
        let away = |x: f64, y: f64| corners.iter().all(|c| c.distance(Point::new(x, y)) > 2.5 * width);
        for point in paths.iter().flat_map(|path| path.flatten(0.01)).filter(|p| away(p.x, p.y)) {
            let distance = Euclidean.distance(&geo::Point::new(point.x, point.y), &other);
            assert!(distance < 0.05, "{point:?} is {distance} from the other");
        }
        for place in other.coords().filter(|c| away(c.x, c.y)) {
            let point = Point::new(place.x, place.y);
            let distance =
                paths.iter().map(|path| path.nearest(point).distance).fold(f64::INFINITY, f64::min);
            assert!(distance < 0.05, "{place:?} is {distance} from ours");
        }
    }
}

/// A notch of radius 6 cut out of a band takes an allowance of less than 6.
#[test]
fn a_curve_too_tight_says_how_much_it_takes() {
    let p = Point::new;
    let bite = arc_about(p(50.0, 40.0), p(56.0, 40.0), p(44.0, 40.0), Turning::Clockwise).unwrap();
    let ring = vec![
        Path::straight(p(0.0, 0.0), p(100.0, 0.0)),
        Path::straight(p(100.0, 0.0), p(100.0, 40.0)),
        Path::straight(p(100.0, 40.0), p(56.0, 40.0)),
        bite,
        Path::straight(p(44.0, 40.0), p(0.0, 40.0)),
        Path::straight(p(0.0, 40.0), p(0.0, 0.0)),
    ];
    let widths = plain(&[10.0, 10.0, 0.0, 10.0, 0.0, 10.0]);
    match cutting_line(&ring, &widths, &unsaid(6)) {
        Err(Unfit::TooWide { edge, most: Most::Own(most), .. }) if edge.index() == 3 => {
            assert!((5.0..6.01).contains(&most), "{most}");
        }
        other => panic!("{other:?}"),
    }
    assert!(cutting_line(&ring, &plain(&[10.0, 10.0, 0.0, 5.0, 0.0, 10.0]), &unsaid(6)).is_ok());
}

/// A slit 12 wide has room for 6 on each side, not for 10.
#[test]
fn allowances_that_lie_over_each_other_are_no_tangle() {
    let ring = polygon(&[
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 80.0),
        (56.0, 80.0),
        (56.0, 20.0),
        (44.0, 20.0),
        (44.0, 80.0),
        (0.0, 80.0),
    ]);
    match cutting_line(&ring, &plain(&[10.0; 8]), &unsaid(8)) {
        Err(Unfit::Overlap { most, .. } | Unfit::TooWide { most, .. }) => {
            // One edge's allowance alone cannot make room: all three of the slit are too wide.
            let Most::All(most) = most else { panic!("{most:?}") };
            assert!((5.5..6.01).contains(&most), "{most}");
        }
        other => panic!("{other:?}"),
    }
    assert!(cutting_line(&ring, &plain(&[5.0; 8]), &unsaid(8)).is_ok());
}

/// An allowance may be larger than its piece, as long as nothing lies over itself.
#[test]
fn a_tab_smaller_than_its_allowance_can_be_cut() {
    let ring = polygon(&[(0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0)]);
    let line = cutting_line(&ring, &plain(&[15.0; 4]), &unsaid(4)).unwrap();
    assert_corners(&line, &[(-15.0, -15.0), (23.0, -15.0), (23.0, 23.0), (-15.0, 23.0)]);
}

/// One edge that closes on itself: a round of radius 80 is cut at radius 90.
#[test]
fn a_round_piece_of_one_edge() {
    let half = |from: (f64, f64), to: (f64, f64)| {
        arc_about(Point::ZERO, from.into(), to.into(), Turning::Anticlockwise).unwrap()
    };
    let round = half((80.0, 0.0), (-80.0, 0.0)).then(&half((-80.0, 0.0), (80.0, 0.0)));
    let line = cutting_line(&[round], &plain(&[10.0]), &unsaid(1)).unwrap();
    let paths: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
    let area = signed_area(&paths);
    assert!((area - std::f64::consts::PI * 8100.0).abs() < 8.0, "{area}");
}

proptest! {
    #![proptest_config(cases(96))]

    /// Whatever the piece and its allowances: either there is a message, or the cutting line closes,
    /// does not cross itself, and has the whole stitching line inside.
    #[test]
    fn every_stitching_line_lies_inside_its_cutting_line(
        radii in prop::collection::vec(40.0..200.0_f64, 3..9),
        widths in prop::collection::vec(0.0..45.0_f64, 9),
        bends in prop::collection::vec(-0.6..0.6_f64, 9),
        hem in 0..3_usize,
        backwards in any::<bool>(),
    ) {
        let count = radii.len();
        let corner = |at: usize| {
            let angle = std::f64::consts::TAU * (at % count) as f64 / count as f64;
            let radius = radii[at % count];
            Point::new(radius * angle.cos(), radius * angle.sin())
        };
        let mut ring: Vec<Path> = (0..count).map(|at| {
            let (from, to) = (corner(at), corner(at + 1));
            let out = (to - from).turn_90() * -bends[at] * 0.4;
            match at % 2 {
                0 => Path::straight(from, to),
                _ => Path::cubic(from, from.lerp(to, 0.3) + out, from.lerp(to, 0.7) + out, to),
            }
        }).collect();
        let mut allowed = plain(&widths[..count]);
        allowed[hem].turned_up = true;
        if backwards {
            ring = ring.iter().rev().map(Path::reversed).collect();
            allowed.reverse();
        }
        prop_assume!(crossings(&ring).is_none());
        if let Ok(line) = cutting_line(&ring, &allowed, &unsaid(count)) {
            let paths: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
            prop_assert!(crossings(&paths).is_none());
            for point in ring.iter().flat_map(|path| path.flatten(0.5)) {
                let inside = contains(&paths, point)
                    || paths.iter().any(|path| path.nearest(point).distance < 0.02);
                prop_assert!(inside, "{point:?} of the stitching line lies outside");
            }
        }
    }
}

/// A garment of `examples/`.
pub(crate) fn example(name: &str) -> fustian::Compiled {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = fustian::source::MemoryLoader::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "fus") {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            loader = loader.with(&name, std::fs::read_to_string(&path).unwrap().as_str());
        }
    }
    let compiled = fustian::compile(&loader, name);
    assert!(!compiled.has_mistakes(), "{name} has mistakes");
    compiled
}

/// The garments of `examples/`.
pub(crate) const GARMENTS: [&str; 6] = [
    "deck-smock.fus",
    "deck-jacket.fus",
    "galley-apron.fus",
    "mess-jacket.fus",
    "mess-skirt.fus",
    "oilskin-trousers.fus",
];

/// Every size of it as it is cut.
pub(crate) fn cut_all(compiled: &fustian::Compiled) -> Vec<fustian::cutting::Cutting> {
    compiled.sizes.iter().map(|size| size.cut(&compiled.garment).clone()).collect()
}

/// Of every part of every example in every size: a cutting line, the stitching line inside it, the
/// grain and the notches inside the cloth.
#[test]
fn every_example_can_be_cut() {
    for name in GARMENTS {
        let compiled = example(name);
        for (cut, sized) in cut_all(&compiled).iter().zip(&compiled.sizes) {
            assert!(cut.findings.is_empty(), "{name}");
            assert_eq!(cut.parts.len(), sized.drawn.cut_list.len(), "{name}");
            for part in &cut.parts {
                let ring = part.cutting_ring();
                let on =
                    |point: Point| ring.iter().map(|p| p.nearest(point).distance).fold(f64::MAX, f64::min);
                for point in part.stitching.iter().flat_map(|path| path.flatten(0.5)) {
                    assert!(
                        contains(&ring, point) || on(point) < 0.02,
                        "{name} {} {point:?}",
                        part.label.piece
                    );
                }
                let (from, to) = part.grain_line.unwrap();
                let along = (to - from).cross(part.grain).abs();
                assert!(along < 1e-6 && contains(&part.stitching, from) && contains(&part.stitching, to));
                for (top, foot) in part.notches.iter().flat_map(|notch| &notch.snips) {
                    assert!(contains(&ring, *foot) || on(*foot) < 0.02, "{name} {}", part.label.piece);
                    assert!(
                        on(*top) < 0.02 || part.stitching.iter().any(|p| p.nearest(*top).distance < 0.02)
                    );
                }
                let whole = fustian::cutting::opened(part);
                let outline = geo::Polygon::new(geo_points(&whole), Vec::new());
                let twice = if part.fold.is_some() { 2.0 } else { 1.0 };
                let area = signed_area(&ring).abs() * twice;
                assert!((outline.unsigned_area() / area - 1.0).abs() < 1e-3, "{name} {}", part.label.piece);
                assert!(geo::Validation::is_valid(&outline), "{name} {}", part.label.piece);
            }
        }
    }
}

fn geo_points(points: &[Point]) -> geo::LineString {
    points.iter().map(|point| geo::Coord { x: point.x, y: point.y }).collect::<Vec<_>>().into()
}
