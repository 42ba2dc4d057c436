//! Geometry of pieces against two other libraries, and against what must hold whatever the numbers.

use crate::cases::cases;
use fustian::shape::arc::{Turning, arc_about};
use fustian::shape::curve::smooth_curve;
use fustian::shape::cut::cut;
use fustian::shape::flare::flare;
use fustian::shape::line::{StraightLine, meet, meet_segment, runs_inside};
use fustian::shape::offset::{extend_edge, inner_run, parallel};
use fustian::shape::outline::{check_ring, collapse, contains, crossings, extents, signed_area};
use fustian::shape::path::Path;
use fustian::shape::place::{Meeting, lay_against, move_ends};
use fustian::shape::spread::Spread;
use fustian::shape::{Affine, Point, Vec2, fold};
use geo::{Area, Contains, Euclidean, Length};
use proptest::prelude::*;

/// A point of a piece of ordinary size, mm.
fn point() -> impl Strategy<Value = Point> {
    (-800.0..800.0, -800.0..800.0).prop_map(|(x, y)| Point::new(x, y))
}

fn cubic() -> impl Strategy<Value = [Point; 4]> {
    [point(), point(), point(), point()]
}

fn path_of([a, b, c, d]: [Point; 4]) -> Path {
    Path::cubic(a, b, c, d)
}

/// A blob round the origin: `radii` on evenly spaced rays, joined by smooth curves. Every edge leaves and arrives square
/// to its ray, as the armhole and neckline of a piece do, so neighbours never cross.
fn blob() -> impl Strategy<Value = Vec<Path>> {
    proptest::collection::vec(200.0..260.0_f64, 5..9).prop_map(|radii| {
        let ray = |k: usize| {
            let angle = std::f64::consts::TAU * k as f64 / radii.len() as f64;
            Vec2::new(libm::cos(angle), libm::sin(angle))
        };
        let corner = |k: usize| (ray(k) * radii[k]).to_point();
        (0..radii.len())
            .map(|k| {
                let next = (k + 1) % radii.len();
                smooth_curve(&[corner(k), corner(next)], Some(ray(k).turn_90()), Some(ray(next).turn_90()))
                    .unwrap()
            })
            .collect()
    })
}

fn coords(points: &[Point]) -> Vec<geo::Coord<f64>> {
    points.iter().map(|p| geo::Coord { x: p.x, y: p.y }).collect()
}

fn polygon_of(ring: &[Path], tolerance: f64) -> geo::Polygon<f64> {
    let points: Vec<Point> = ring.iter().flat_map(|path| path.flatten(tolerance)).collect();
    geo::Polygon::new(geo::LineString::new(coords(&points)), Vec::new())
}

proptest! {
    #![proptest_config(cases(64))]

    /// Source: lyon_geom, which measures by flattening; its tolerance bounds the shortfall.
    #[test]
    fn lengths_agree_with_lyon(controls in cubic()) {
        let at = |p: Point| lyon_geom::point(p.x, p.y);
        let [a, b, c, d] = controls;
        let theirs = lyon_geom::CubicBezierSegment { from: at(a), ctrl1: at(b), ctrl2: at(c), to: at(d) }
            .approximate_length(1e-6);
        let ours = path_of(controls).length();
        prop_assert!((ours - theirs).abs() < 0.01, "{ours} {theirs}");
    }

    /// Source: geo, the length of the flattened curve and the area of the flattened outline.
    #[test]
    fn lengths_and_areas_agree_with_geo(ring in blob()) {
        for edge in &ring {
            let line = geo::LineString::new(coords(&edge.flatten(1e-4)));
            let theirs = Euclidean.length(&line);
            prop_assert!((edge.length() - theirs).abs() < 0.01, "{} {theirs}", edge.length());
        }
        let theirs = polygon_of(&ring, 1e-4).signed_area();
        let perimeter: f64 = ring.iter().map(Path::length).sum();
        // A chord lies within 1e-4 mm of its curve.
        prop_assert!((signed_area(&ring) - theirs).abs() < 1e-4 * perimeter + 1e-6);
        prop_assert_eq!(check_ring(&ring), Ok(()));
        prop_assert_eq!(crossings(&ring), None);
    }

    /// Source: geo's point in polygon; points nearer to the outline than its flattening are left out.
    #[test]
    fn inside_agrees_with_geo(ring in blob(), probe in (-270.0..270.0_f64, -270.0..270.0_f64)) {
        let probe = Point::new(probe.0, probe.1);
        prop_assume!(ring.iter().all(|edge| edge.nearest(probe).distance > 1e-3));
        let theirs = polygon_of(&ring, 1e-4).contains(&geo::Point::new(probe.x, probe.y));
        prop_assert_eq!(contains(&ring, probe), theirs);
    }

    /// The nearest point is no farther than any of a thousand points of the curve, and lies on it.
    #[test]
    fn nearest_is_nearest(controls in cubic(), from in point()) {
        let path = path_of(controls);
        let nearest = path.nearest(from);
        let best = path.flatten(1e-3).iter().map(|p| p.distance(from)).fold(f64::INFINITY, f64::min);
        prop_assert!(nearest.distance <= best + 1e-9, "{} {best}", nearest.distance);
        prop_assert!(path.point_at_length(nearest.at).distance(nearest.point) < 1e-4);
    }

    /// Parts add up to the whole, and a part is where the whole has it.
    #[test]
    fn parts_add_up(controls in cubic(), share in 0.0..1.0_f64) {
        let path = path_of(controls);
        let at = share * path.length();
        let (before, after) = path.split_at_length(at);
        prop_assert!((before.length() - at).abs() < 1e-5);
        prop_assert!((before.length() + after.length() - path.length()).abs() < 1e-5);
        prop_assert!(before.end().distance(after.start()) == 0.0);
        prop_assert!((path.reversed().length() - path.length()).abs() < 1e-6);
        let back = path.reversed().point_at_length(path.length() - at);
        prop_assert!(back.distance(before.end()) < 1e-3);
    }

    /// Source: geo's meeting of two straight lines, tried on all chords of the flattened outline. What it finds away from
    /// the corners is found here too; what is found here lies on both edges.
    #[test]
    fn crossings_agree_with_geo(corners in proptest::collection::vec((point(), -0.6..0.6_f64, -0.6..0.6_f64), 3..6)) {
        let count = corners.len();
        let ring: Vec<Path> = (0..count)
            .map(|k| {
                let (start, first, second) = corners[k];
                let along = corners[(k + 1) % count].0 - start;
                let third = along / 3.0;
                Path::cubic(
                    start,
                    start + third + third.turn_90() * (3.0 * first),
                    start + third * 2.0 + third.turn_90() * (3.0 * second),
                    start + along,
                )
            })
            .collect();
        let ours = crossings(&ring);
        if let Some(found) = ours {
            prop_assert!(ring[found.first].nearest(found.point).distance < 1e-6);
            prop_assert!(ring[found.second].nearest(found.point).distance < 1e-6);
        }
        let chords: Vec<(usize, geo::Line<f64>)> = ring
            .iter()
            .enumerate()
            .flat_map(|(edge, path)| {
                let points = coords(&path.flatten(0.05));
                points.windows(2).map(|two| (edge, geo::Line::new(two[0], two[1]))).collect::<Vec<_>>()
            })
            .collect();
        let mut theirs = None;
        'all: for (k, (edge, chord)) in chords.iter().enumerate() {
            for (other_edge, other) in chords.iter().skip(k + 2) {
                let Some(geo::line_intersection::LineIntersection::SinglePoint { intersection, is_proper: true }) =
                    geo::line_intersection::line_intersection(*chord, *other)
                else {
                    continue;
                };
                let at = Point::new(intersection.x, intersection.y);
                if corners.iter().all(|corner| corner.0.distance(at) > 2.0) {
                    theirs = Some((*edge, *other_edge, at));
                    break 'all;
                }
            }
        }
        prop_assert!(theirs.is_none() || ours.is_some(), "{theirs:?}");
    }

    /// Every hit lies on the line and on the curve, and there are as many as the flattened curve changes side.
    #[test]
    fn a_line_meets_a_curve(controls in cubic(), a in point(), b in point()) {
        prop_assume!(a.distance(b) > 1.0);
        let path = path_of(controls);
        let line = StraightLine::through(a, b).unwrap();
        let hits = meet(&line, std::slice::from_ref(&path));
        for hit in &hits {
            prop_assert!(line.side(hit.point).abs() < 1e-5);
            prop_assert!(path.point_at_length(hit.at).distance(hit.point) < 1e-4);
        }
        let sides: Vec<bool> = path.flatten(1e-5).iter().map(|p| line.side(*p) > 0.0).collect();
        let changes = sides.windows(2).filter(|two| two[0] != two[1]).count();
        // Flattening can miss two hits closer together than a chord, never one alone.
        prop_assert!(hits.len() >= changes && (hits.len() - changes).is_multiple_of(2), "{} {changes}", hits.len());
    }

    /// The two halves of a cut have together the area of the whole (Green's theorem: the cut is walked both ways).
    #[test]
    fn halves_make_the_whole(ring in blob(), angle in 0.0..std::f64::consts::TAU, away in -80.0..80.0_f64) {
        let way = Vec2::new(libm::cos(angle), libm::sin(angle));
        let line = StraightLine::at((way.turn_90() * away).to_point(), way).unwrap();
        let halves = cut(&ring, &line, way.turn_90()).unwrap();
        let of = |half: &[fustian::shape::cut::CutEdge]| -> Vec<Path> { half.iter().map(|e| e.path.clone()).collect() };
        let (before, beyond) = (of(&halves.before), of(&halves.beyond));
        prop_assert_eq!(check_ring(&before), Ok(()));
        prop_assert_eq!(check_ring(&beyond), Ok(()));
        prop_assert!((signed_area(&before) + signed_area(&beyond) - signed_area(&ring)).abs() < 1e-5);
        prop_assert!(signed_area(&before) > 0.0 && signed_area(&beyond) > 0.0);
        prop_assert!(beyond.iter().all(|edge| edge.flatten(0.1).iter().all(|p| line.side(*p) > -1e-5)));
        prop_assert!(before.iter().all(|edge| edge.flatten(0.1).iter().all(|p| line.side(*p) < 1e-5)));
    }

    /// What was let in at a line and is taken out at the same line leaves the outline as it was.
    #[test]
    fn lengthened_and_shortened_is_as_before(ring in blob(), away in -80.0..80.0_f64, by in 0.1..60.0_f64, lean in -0.4..0.4_f64) {
        let line = StraightLine::at(Point::new(0.0, away), Vec2::new(1.0, lean)).unwrap();
        let up = Vec2::new(0.0, 1.0);
        let long = Spread::new(line, up, up * by).unwrap().ring(&ring).unwrap();
        prop_assert_eq!(check_ring(&long), Ok(()));
        for (new, old) in long.iter().zip(&ring) {
            prop_assert!(!old.is_smooth(1e-6) || new.is_smooth(1e-5));
        }
        let back = Spread::new(line, up, up * -by).unwrap().ring(&long);
        let back = back.unwrap();
        for (new, old) in back.iter().zip(&ring) {
            prop_assert!((new.length() - old.length()).abs() < 1e-5, "{} {}", new.length(), old.length());
            for p in old.flatten(0.5) {
                prop_assert!(new.nearest(p).distance < 1e-6);
            }
        }
    }

    /// The let-in area of a spread square to its line is the amount times the width of the piece at the line, for a
    /// piece whose sides there are straight and upright (by hand: a rectangle of that size is let in).
    #[test]
    fn letting_in_adds_a_rectangle(width in 50.0..400.0_f64, height in 50.0..400.0_f64, share in 0.1..0.9_f64, by in 0.5..50.0_f64) {
        let corner = |x, y| Point::new(x, y);
        let corners = [corner(0.0, 0.0), corner(width, 0.0), corner(width, height), corner(0.0, height)];
        let ring: Vec<Path> = (0..4).map(|k| Path::straight(corners[k], corners[(k + 1) % 4])).collect();
        let line = StraightLine::at(corner(0.0, height * share), Vec2::new(1.0, 0.0)).unwrap();
        let long = Spread::new(line, Vec2::new(0.0, 1.0), Vec2::new(0.0, by)).unwrap().ring(&ring).unwrap();
        prop_assert!((signed_area(&long) - width * (height + by)).abs() < 1e-6);
    }

    /// Every point of the parallel lies at the distance from the edge, to 0.01 mm.
    #[test]
    fn parallels_keep_their_distance(ring in blob(), distance in 1.0..40.0_f64) {
        for edge in &ring {
            for side in [distance, -distance] {
                if let Ok(path) = parallel(edge, side) {
                    for p in path.flatten(0.01) {
                        // Flattening gives points of the parallel itself, so this is the offset's own error.
                        let off = edge.nearest(p).distance - distance;
                        prop_assert!(off.abs() < 0.011, "{off}");
                    }
                }
            }
        }
    }

    /// Each edge's turned half moves rigidly: lengths at the hinge stay, the opening is as wide as said.
    #[test]
    fn flaring_opens_as_much_as_said(ring in blob(), amount in 0.5..60.0_f64, at in 0.2..0.8_f64, on in 0.2..0.8_f64) {
        let opening = ring[0].point_at_length(ring[0].length() * at);
        let half_way = ring.len() / 2;
        let hinge = ring[half_way].point_at_length(ring[half_way].length() * on);
        let beyond = (hinge - opening).turn_90();
        let flared = flare(&ring, opening, hinge, beyond, amount).unwrap();
        prop_assert_eq!(check_ring(&flared.edges), Ok(()));
        prop_assert!(((flared.turn * opening).distance(opening) - amount).abs() < 1e-6);
        prop_assert!((flared.edges[half_way].length() - ring[half_way].length()).abs() < 1e-5);
        prop_assert!(flared.edges[0].is_smooth(1e-5));
        for (k, (new, old)) in flared.edges.iter().zip(&ring).enumerate() {
            if k != 0 && k != half_way {
                prop_assert!((new.length() - old.length()).abs() < 1e-6);
            }
        }
        prop_assert!(signed_area(&flared.edges) > signed_area(&ring));
    }

    /// A piece laid against a copy of itself, turned over and about, meets it without a gap.
    #[test]
    fn a_copy_fits_its_own_edge(ring in blob(), angle in 0.0..6.0_f64, move_by in point(), edge in 0..5_usize) {
        let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
        let turned = Affine::new([cosine, sine, -sine, cosine, move_by.x, move_by.y]);
        let copy: Vec<Path> = ring.iter().map(|path| path.transform(turned)).collect();
        let laid = lay_against(&copy, edge, &ring, edge, Meeting::StartWithStart).unwrap();
        prop_assert!(laid.flipped);
        // Mirrored across the chord the curve bows the other way: each way of measuring sees the same gap as here.
        let chord = Path::straight(ring[edge].start(), ring[edge].end());
        let mirrored = ring[edge].transform(fold::mirror_across(&chord).unwrap());
        let wanted = mirrored.flatten(0.02).iter().map(|p| ring[edge].nearest(*p).distance).fold(0.0, f64::max);
        prop_assert!((laid.gap - wanted).abs() < 0.05, "{} {wanted}", laid.gap);
    }
}

/// Numbers of every kind.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -500.0..500.0_f64,
        1 => proptest::num::f64::ANY,
        1 => Just(0.0),
        1 => Just(f64::NAN),
        1 => Just(1e-7),
        1 => -1e12..1e12_f64,
    ]
}

fn wild_point() -> impl Strategy<Value = Point> {
    (wild(), wild()).prop_map(|(x, y)| Point::new(x, y))
}

proptest! {
    #![proptest_config(cases(400))]

    /// Nothing panics and nothing hangs, whatever the numbers.
    #[test]
    fn no_number_breaks_it(corners in proptest::collection::vec((wild_point(), wild_point(), wild_point()), 1..6), amount in wild(), extra in wild_point()) {
        let count = corners.len();
        let ring: Vec<Path> = (0..count)
            .map(|k| {
                let (start, first, second) = corners[k];
                let end = corners[(k + 1) % count].0;
                if k % 2 == 0 { Path::cubic(start, first, second, end) } else { Path::straight(start, end) }
            })
            .collect();
        let (start, first, second) = corners[0];
        let direction = Vec2::new(extra.x, extra.y);
        let _ = check_ring(&ring);
        let _ = (signed_area(&ring), extents(&ring), crossings(&ring), collapse(&ring), contains(&ring, extra));
        let _ = smooth_curve(&[start, first, second], Some(direction), None);
        let _ = arc_about(extra, start, first, Turning::Clockwise);
        for path in &ring {
            let _ = (path.length(), path.nearest(extra), path.flatten(0.01).len(), path.bounding_box());
            let _ = (path.split_at_length(amount), path.part(amount, extra.x), path.tangent_at_length(amount));
            let _ = (path.is_straight(), path.is_smooth(0.1), parallel(path, amount), fold::mirror_across(path));
            let _ = move_ends(path, direction, direction);
        }
        let _ = (extend_edge(&ring, 0, amount), inner_run(&ring, 0, 1, amount), meet_segment(first, second, &ring));
        let _ = (flare(&ring, start, first, direction, amount), fold::opened_extents(&ring, 0));
        let _ = lay_against(&ring, 0, &ring, 0, Meeting::StartWithEnd);
        if let Some(line) = StraightLine::at(extra, first - second) {
            let _ = (meet(&line, &ring), runs_inside(&line, &ring), cut(&ring, &line, direction));
            if let Ok(spread) = Spread::new(line, direction, Vec2::new(amount, amount)) {
                let _ = (spread.ring(&ring), spread.fate(extra));
            }
        }
    }
}
