//! Every example is drawn as SVG and brought in again: outlines, sizes, notches and grain come back.

use crate::brought::{compiled, draft, outline, piece};
use crate::coming_back::all_examples;
use crate::cutting_lines::{cut_all, example};
use fustian::bring::{BringOptions, Brought, bring};
use fustian::cutting::{CutPart, CutSlit, Cutting};
use fustian::emit::drawing::{Lines, Look, sheet};
use fustian::emit::{dxf, svg};
use fustian::resolve::DrawnNotch;
use fustian::shape::path::Path;
use fustian::{Compiled, Severity};
use kurbo::{ParamCurveNearest, Point, Rect, Vec2};

/// How far an outline may lie from what was drawn: 0.05 mm is asked.
const WITHIN: f64 = 0.05;

fn samples(ring: &[Path]) -> Vec<Point> {
    ring.iter()
        .flat_map(|path| (0..=12).map(|at| path.point_at_length(path.length() * f64::from(at) / 12.0)))
        .collect()
}

/// The greatest distance of those points from a ring.
fn apart(points: &[Point], ring: &[Path]) -> f64 {
    let away = |point: &Point| {
        let each = ring.iter().flat_map(|path| path.segments().iter().copied());
        each.map(|one| one.nearest(*point, 1e-6).distance_sq.sqrt()).fold(f64::INFINITY, f64::min)
    };
    points.iter().map(away).fold(0.0, f64::max)
}

fn corner(ring: &[Path]) -> Vec2 {
    let bounds = ring.iter().map(Path::bounding_box).reduce(|all: Rect, own| all.union(own)).unwrap();
    Vec2::new(bounds.x0, bounds.y0)
}

fn moved(ring: &[Path], by: Vec2) -> Vec<Path> {
    ring.iter().map(|path| path.translated(by)).collect()
}

/// How a garment is handed on.
#[derive(Clone, Copy, Debug, PartialEq)]
enum How {
    Svg,
    Dxf,
}

/// What the draft calls a part: its piece; with its layer before it in DXF, and where another layer has the piece too.
fn called(compiled: &Compiled, part: &CutPart, all: &[CutPart], how: How) -> String {
    let name = part.name(&compiled.garment);
    let short = |name: &str| name.split_once('.').map_or(name, |(_, piece)| piece).to_owned();
    let others: Vec<String> = all.iter().map(|other| other.name(&compiled.garment)).collect();
    let same = others.iter().filter(|other| short(other) == short(&name)).count();
    let own = if same == 1 && how == How::Svg { short(&name) } else { name };
    own.replace(['.', ' '], "_").to_lowercase()
}

/// What was drawn or exported of a garment, brought in again.
fn again(compiled: &Compiled, cuts: &[Cutting], how: How) -> Brought {
    let look = Look { lines: Some(Lines::Both), ..Look::drawing() };
    let (name, bytes) = match how {
        How::Svg => ("drawn.svg", svg(&sheet(&compiled.garment, cuts, &look), "drawn").into_bytes()),
        How::Dxf => ("drawn.dxf", dxf(&compiled.garment, cuts)),
    };
    // DXF has short straight lines within 0.02 mm of the curves: what is fitted to them may miss them by as much.
    let options = BringOptions { tolerance: 0.02, ..BringOptions::default() };
    bring(&[(name, &bytes)], &options).unwrap_or_else(|why| panic!("{why}"))
}

#[test]
fn every_example_comes_back_from_a_drawing() {
    come_back(How::Svg);
}

#[test]
fn every_example_comes_back_from_dxf() {
    come_back(How::Dxf);
}

fn come_back(how: How) {
    let (mut parts, mut notches, mut slits) = (0, 0, 0);
    for name in &all_examples() {
        let original = example(name);
        let cuts = cut_all(&original);
        if cuts.iter().all(|cut| cut.parts.is_empty()) {
            continue;
        }
        let brought = again(&original, &cuts, how);
        let text = &brought.text;
        let back = compiled(text);
        for one in back.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake) {
            assert_eq!(one.slug(), "piece/unsewn", "{name}: {}\n{text}", one.title.as_str());
        }
        let sizes = |compiled: &Compiled| -> Vec<String> {
            compiled.garment.sizes.iter().map(|size| size.name.to_string()).collect()
        };
        // A garment that is the same in every size is drawn once.
        if sizes(&back).len() > 1 {
            assert_eq!(sizes(&back), sizes(&original), "{name}");
        }
        for (size, cut) in cuts.iter().enumerate() {
            let size = size.min(back.sizes.len() - 1);
            for part in &cut.parts {
                let own = called(&original, part, &cut.parts, how);
                let ring = outline(&back, size, &own);
                let ring = moved(&ring, corner(&part.stitching) - corner(&ring));
                let drawn = piece(&back, size, &own);
                let shift = corner(&ring) - corner(&outline(&back, size, &own));
                let lines: Vec<Path> = drawn.lines.iter().map(|line| line.path.translated(shift)).collect();
                slits += are_there(part, &[&*ring, &lines].concat(), how, &format!("{name}: {own}\n{text}"));
                // A slit that takes no width is a line, and its sides are no edges; round a window the outline goes.
                let is_line = |slit: &&CutSlit| slit.start.is_some() || slit.cuts.len() == 1;
                let beside = |points: Vec<Point>| -> Vec<Point> {
                    let lines: Vec<Rect> = part.slits.iter().filter(is_line).map(window).collect();
                    points.into_iter().filter(|at| !lines.iter().any(|line| line.contains(*at))).collect()
                };
                let away = apart(&beside(samples(&part.stitching)), &ring)
                    .max(apart(&beside(samples(&ring)), &part.stitching));
                assert!(away <= WITHIN, "{name}: {own} in size {size} is {away} mm apart\n{text}");
                assert!(drawn.grain.cross(part.grain).abs() < 0.01, "{name}: the grain of {own}");
                // Beside an end no notch is told from it: those are left out, and said.
                let ends: Vec<Point> = ring.iter().map(Path::start).collect();
                // Where a curve is parted, a notch may lie on one part in one size and on the next in another.
                let out = format!("{own}: ");
                let left =
                    brought.remarks.iter().any(|words| words.starts_with(&out) && words.contains("notch"));
                let told = |at: &Point| !left && ends.iter().all(|end| end.distance(*at) > 5.1);
                for inner in snips_of(part, how).into_iter().filter(told) {
                    notches += 1;
                    // The snips of a double notch are 6 mm apart.
                    let off = |notch: &DrawnNotch| {
                        let away = (notch.at + shift).distance(inner);
                        if notch.double { (away - 3.0).abs() } else { away }
                    };
                    let near = drawn.notches.iter().map(off).fold(f64::INFINITY, f64::min);
                    assert!(near < 0.1, "{name}: a notch of {own} is {near} mm off\n{text}");
                }
                parts += 1;
            }
        }
    }
    assert!(parts > 200, "{parts} parts were compared");
    assert!(notches > 250, "{notches} notches were compared");
    // The sleeves of three shirts in four sizes, with and without a window, and the jetted pocket of the trousers.
    assert!(slits > 12, "{slits} slits were compared");
}

/// Where a slit is cut, from the cutting line on, and where its sides are sewn.
fn window(slit: &CutSlit) -> Rect {
    let ends = slit.cuts.iter().flat_map(|&(from, to)| [from, to]);
    let bounds = ends.fold(None, |all: Option<Rect>, at| {
        Some(all.map_or_else(|| Rect::from_points(at, at), |all| all.union_pt(at)))
    });
    bounds.unwrap_or_default().inflate(WITHIN, WITHIN)
}

/// The cuts of a part's slits lie on what came back, and so do the sides of those inside, of which a drawing shows the corners
/// that are cut to; how many slits it has. What is cut up to a window lies outside of the outline, which goes round that.
fn are_there(part: &CutPart, back: &[Path], how: How, whose: &str) -> usize {
    for hole in &part.holes {
        let sides = if how == How::Dxf { samples(hole) } else { hole.iter().map(Path::start).collect() };
        let away = apart(&sides, back);
        assert!(away <= WITHIN, "{away} mm from the sides of a slit of {whose}");
    }
    for slit in part.slits.iter().filter(|slit| slit.start.is_some() || slit.cuts.len() == 1) {
        for &(from, to) in &slit.cuts {
            let along = (0..=10).map(|at| from.lerp(to, f64::from(at) / 10.0)).collect::<Vec<Point>>();
            let away = apart(&along, back);
            assert!(away <= WITHIN, "{away} mm from the slit {} of {whose}", slit.name);
        }
    }
    part.slits.len()
}

/// Where snips end on the stitching line; of what DXF tells of them, where they begin on the cutting line, the place nearest to
/// that: a pleat's snips are not square to its edge.
fn snips_of(part: &CutPart, how: How) -> Vec<Point> {
    let snips = part.notches.iter().flat_map(|notch| &notch.snips);
    let snips = snips.chain(part.take_ups.iter().flat_map(|take_up| &take_up.snips));
    let nearest = |top: Point| {
        let each = part.stitching.iter().flat_map(|path| path.segments().iter().copied());
        let places = each.map(|one| (one.nearest(top, 1e-6), one));
        let best = places.min_by(|(one, _), (other, _)| one.distance_sq.total_cmp(&other.distance_sq));
        best.map_or(top, |(place, one)| kurbo::ParamCurve::eval(&one, place.t))
    };
    snips.map(|&(top, inner)| if how == How::Dxf { nearest(top) } else { inner }).collect()
}

#[test]
fn what_came_back_can_be_sewn() {
    // The smock's shoulders, sides and armholes as they are offered, taken as they stand.
    let original = example("deck-smock.fus");
    let text = again(&original, &cut_all(&original), How::Svg).text;
    draft(&text);
    let offered = text
        .lines()
        .filter(|line| line.starts_with("# seam ") && line.contains("front.") && line.contains("back."));
    let seams: String = offered.map(|line| format!("{}\n", line.trim_start_matches("# "))).collect();
    assert_eq!(seams.lines().count(), 4, "hem, side, armhole and shoulder\n{text}");
    let sewn = compiled(&format!("{text}\n{seams}"));
    let unequal: Vec<&str> = sewn
        .diagnostics
        .iter()
        .map(|one| one.slug())
        .filter(|slug| slug.starts_with("seam/unequal"))
        .collect();
    assert!(unequal.is_empty(), "{unequal:?}\n{seams}");
}
