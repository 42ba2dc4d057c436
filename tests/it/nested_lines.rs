//! Sizes in one another without colour: rendered in grey at 150 dots an inch by another library (tiny-skia), the line of
//! each size is followed and told from its neighbours by its rhythm.

use crate::cutting_lines::{cut_all, example};
use fustian::emit::drawing::{DrawnGroup, Look, Pen, Shape, What, draw_group, pieces};
use fustian::garment::SizeId;
use fustian::{Compiled, compile};
use kurbo::{BezPath, PathEl, Point};
use tiny_skia::{LineCap, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform};

/// Dots in a millimetre: 150 in an inch of 25.4 mm.
const DOTS: f64 = 150.0 / 25.4;

fn nest(compiled: &Compiled, piece: usize) -> DrawnGroup {
    let (cuts, look) = (cut_all(compiled), Look::printing());
    let group = &pieces(&compiled.garment, &cuts, &look)[piece];
    draw_group(&compiled.garment, group, &look, false).unwrap()
}

/// All lines of a piece in grey.
fn rendered(group: &DrawnGroup) -> Pixmap {
    let bounds = group.bounds;
    let side = |length: f64| (length * DOTS).ceil() as u32 + 2;
    let mut map = Pixmap::new(side(bounds.width()), side(bounds.height())).unwrap();
    map.fill(tiny_skia::Color::WHITE);
    let dots = DOTS as f32;
    let place = Transform::from_row(dots, 0.0, 0.0, -dots, -bounds.x0 as f32 * dots, bounds.y1 as f32 * dots);
    for shape in &group.shapes {
        let What::Stroke(path, pen) = &shape.what else { continue };
        let Some(path) = path_of(path) else { continue };
        let [red, green, blue] = pen.ink().rgb().map(f64::from);
        // Luma of ITU-R BT.601.
        let grey = (0.299 * red + 0.587 * green + 0.114 * blue) as u8;
        let mut paint = Paint { anti_alias: true, ..Paint::default() };
        paint.set_color_rgba8(grey, grey, grey, 255);
        let dashes: Vec<f32> = pen.dashes().iter().map(|dash| *dash as f32).collect();
        let stroke = Stroke {
            width: pen.width() as f32,
            line_cap: if pen.round() { LineCap::Round } else { LineCap::Butt },
            dash: StrokeDash::new(dashes, 0.0),
            ..Stroke::default()
        };
        map.stroke_path(&path, &paint, &stroke, place, None);
    }
    map
}

fn path_of(path: &BezPath) -> Option<tiny_skia::Path> {
    let mut drawn = PathBuilder::new();
    let pair = |point: Point| (point.x as f32, point.y as f32);
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => drawn.move_to(pair(to).0, pair(to).1),
            PathEl::LineTo(to) => drawn.line_to(pair(to).0, pair(to).1),
            PathEl::QuadTo(a, to) => drawn.quad_to(pair(a).0, pair(a).1, pair(to).0, pair(to).1),
            PathEl::CurveTo(a, b, to) => {
                drawn.cubic_to(pair(a).0, pair(a).1, pair(b).0, pair(b).1, pair(to).0, pair(to).1)
            }
            PathEl::ClosePath => drawn.close(),
        }
    }
    drawn.finish()
}

/// The cutting line of each size where it lies by itself, flattened.
fn lines(group: &DrawnGroup) -> Vec<(SizeId, Vec<Vec<Point>>)> {
    let of_cut = group.shapes.iter().filter_map(|shape| match &shape.what {
        What::Stroke(path, Pen::Cut(Some(size))) => Some((*size, flat(path))),
        _ => None,
    });
    of_cut.collect()
}

/// The parts of a line, each flattened.
fn flat(path: &BezPath) -> Vec<Vec<Point>> {
    let mut parts: Vec<Vec<Point>> = Vec::new();
    kurbo::flatten(path, 0.05, |element| match (element, parts.last_mut()) {
        (PathEl::MoveTo(point), _) => parts.push(vec![point]),
        (PathEl::ClosePath, Some(part)) => part.push(part[0]),
        (element, Some(part)) => part.extend(element.end_point()),
        (_, None) => {}
    });
    parts
}

fn away(points: &[Point], at: Point) -> f64 {
    let to_stretch = |pair: &[Point]| {
        let (from, way) = (pair[0], pair[1] - pair[0]);
        let share = ((at - from).dot(way) / way.hypot2().max(1e-12)).clamp(0.0, 1.0);
        at.distance(from + way * share)
    };
    points.windows(2).map(to_stretch).fold(f64::INFINITY, f64::min)
}

/// How dark the picture is at a place, from 0 to 1.
fn dark(map: &Pixmap, group: &DrawnGroup, at: Point) -> f64 {
    let x = ((at.x - group.bounds.x0) * DOTS) as u32;
    let y = ((group.bounds.y1 - at.y) * DOTS) as u32;
    map.pixel(x.min(map.width() - 1), y.min(map.height() - 1))
        .map_or(0.0, |pixel| 1.0 - f64::from(pixel.red()) / 255.0)
}

/// The lengths of what is dark along a line, one after another, where it lies clear of all other lines; rounded to 2 mm,
/// which the eye tells apart.
fn rhythm(map: &Pixmap, group: &DrawnGroup, own: &[Vec<Point>], others: &[Vec<Point>]) -> Vec<u32> {
    const STEP: f64 = 0.1;
    let mut runs: Vec<u32> = Vec::new();
    let (mut run, mut begun) = (0.0, false);
    for pair in own.iter().flat_map(|part| part.windows(2)) {
        let long = pair[0].distance(pair[1]);
        let mut along = 0.0;
        while along < long {
            let at = pair[0].lerp(pair[1], along / long);
            along += STEP;
            if others.iter().any(|other| away(other, at) < 1.2) {
                // What is cut off at a crossing says nothing.
                (run, begun) = (0.0, false);
            } else if dark(map, group, at) > 0.3 {
                run += STEP;
            } else {
                if begun && run > 0.0 {
                    runs.push((run / 2.0).round() as u32);
                }
                (run, begun) = (0.0, true);
            }
        }
    }
    runs
}

/// The most frequent order of a few neighbouring lengths says which size it is.
fn telling(runs: &[u32]) -> Vec<u32> {
    let mut kinds: Vec<u32> = Vec::new();
    for kind in runs {
        if runs.iter().filter(|other| *other == kind).count() * 8 >= runs.len() && !kinds.contains(kind) {
            kinds.push(*kind);
        }
    }
    kinds.sort_unstable();
    // How many dots stand between two dashes, most often.
    let between = runs.split(|run| *run > 0).map(<[u32]>::len);
    let mut counts = [0; 8];
    between.for_each(|dots| counts[dots.min(7)] += 1);
    let most = (0..8).max_by_key(|&dots| (counts[dots], std::cmp::Reverse(dots)));
    kinds.push(1000 + most.unwrap_or(0) as u32);
    kinds
}

/// Six sizes of the smock's front: each line has parts enough that lie by themselves, and no two have one rhythm.
#[test]
fn each_sizes_line_is_told_in_grey() {
    let compiled = example("deck-smock.fus");
    let group = nest(&compiled, 0);
    let map = rendered(&group);
    let lines = lines(&group);
    assert_eq!(lines.len(), 6);
    let told: Vec<(SizeId, Vec<u32>)> = lines
        .iter()
        .map(|(size, own)| {
            let others = group.shapes.iter().filter_map(|shape| match &shape.what {
                What::Stroke(path, pen) if *pen != Pen::Cut(Some(*size)) => Some(flat(path)),
                _ => None,
            });
            let others: Vec<Vec<Point>> = others.flatten().collect();
            let runs = rhythm(&map, &group, own, &others);
            assert!(runs.len() > 12, "{size:?}: {runs:?}");
            (*size, telling(&runs))
        })
        .collect();
    for (at, (size, own)) in told.iter().enumerate() {
        for (other, its) in &told[at + 1..] {
            assert_ne!(own, its, "{size:?} and {other:?} look alike: {told:?}");
        }
    }
}

/// A flag whose sizes share their lower edge, and whose upper edges lie 1 mm apart: nearer than names in lines.
fn flag() -> Compiled {
    let text = "garment \"Signal flag\"\nunits cm\nallowance 1\nsizes S, M, L\n\
        fabric bunting \"bunting\" { width 150 }\nlayer outer in bunting { flag }\n\
        piece flag \"Flag\" {\n  cut 1\n  point p1 = (0, 0)\n  point p2 = (40, 0)\n  point p3 = (40, (30 grade +0.1))\n  \
        point p4 = (0, (30 grade +0.1))\n  outline from p1 { foot to p2; fly to p3; head to p4; hoist to p1 }\n}\n\
        finish flag.foot, flag.fly, flag.head, flag.hoist  overlocked\n";
    let compiled = compile(&fustian::source::MemoryLoader::new().with("flag.fus", text), "flag.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    compiled
}

#[test]
fn lines_that_run_together_part_at_a_fan() {
    let compiled = flag();
    let group = nest(&compiled, 0);
    let words = |wanted: &str| {
        group
            .shapes
            .iter()
            .filter(|shape| matches!(&shape.what, What::Words(words) if words.text == wanted))
            .count()
    };
    // The foot lies alike in all sizes.
    assert!(words("all sizes") >= 1, "{:?}", all_words(&group));
    // From each line at the head a stroke leads to a name above it.
    let strokes: Vec<&Shape> = group
        .shapes
        .iter()
        .filter(|shape| shape.size.is_some() && matches!(&shape.what, What::Stroke(_, Pen::Sheet)))
        .collect();
    assert_eq!(strokes.len(), 3, "{:?}", all_words(&group));
    for (stroke, long) in strokes.iter().zip([310.0, 311.0, 312.0]) {
        let What::Stroke(path, _) = &stroke.what else { continue };
        let points = flat(path).remove(0);
        // 30 cm and 1 cm of allowance, 1 mm more each size.
        assert!((points[0].y - long).abs() < 0.01, "{points:?}");
        assert!(points[1].y > 313.0);
    }
    for size in ["S", "M", "L"] {
        assert!(words(size) >= 1, "{size}: {:?}", all_words(&group));
    }
}

/// How long all parts of a line are, in millimetres.
fn long(path: &BezPath) -> f64 {
    flat(path).iter().flat_map(|part| part.windows(2)).map(|pair| pair[0].distance(pair[1])).sum()
}

/// By hand: the flag is cut 42 cm wide and 32, 32.1 and 32.2 cm high in S, M and L. The three share the foot, and 32 cm of
/// either upright side; M and L 1 mm more of each. So what is drawn is the foot once, two sides of 32.2 cm once, and three
/// heads. And each size is whole: what is its own and what it shares is its whole cutting line.
#[test]
fn what_sizes_share_is_drawn_once() {
    let compiled = flag();
    let group = nest(&compiled, 0);
    let cut: Vec<(&Shape, f64)> = group
        .shapes
        .iter()
        .filter_map(|shape| match &shape.what {
            What::Stroke(path, Pen::Cut(_)) => Some((shape, long(path))),
            _ => None,
        })
        .collect();
    let all: f64 = cut.iter().map(|(_, long)| long).sum();
    let by_hand = 420.0 + 2.0 * 322.0 + 3.0 * 420.0;
    assert!((all - by_hand).abs() < 0.1, "{all} of {by_hand}");
    let shared: f64 = cut
        .iter()
        .filter(|(shape, _)| matches!(shape.what, What::Stroke(_, Pen::Cut(None))))
        .map(|(_, long)| long)
        .sum();
    assert!((shared - (420.0 + 2.0 * 321.0)).abs() < 0.1, "{shared}");
    for (place, high) in [320.0, 321.0, 322.0].into_iter().enumerate() {
        let size = SizeId::from_index(place);
        let own: f64 = cut.iter().filter(|(shape, _)| shape.is_of(size)).map(|(_, long)| long).sum();
        assert!((own - 2.0 * (420.0 + high)).abs() < 0.1, "{size:?}: {own}");
    }
}

/// Two sizes alone may share a stretch: it is seen with either of them. By hand: pennants of 30, 40 and 50 cm by 20, all cut 1 cm
/// larger on every side.
#[test]
fn what_some_sizes_share_belongs_to_them() {
    let text = "garment \"Pennant\"\nunits cm\nallowance 1\nsizes S, M, L\nbody { long 30, 40, 50 }\n\
        fabric bunting \"bunting\" { width 150 }\nlayer outer in bunting { flag }\n\
        piece flag \"Flag\" { cut 1; outline rectangle long by 20 }\n\
        finish flag.bottom, flag.right, flag.top, flag.left  overlocked\n";
    let compiled = compile(&fustian::source::MemoryLoader::new().with("flag.fus", text), "flag.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let group = nest(&compiled, 0);
    let long_of = |wanted: &dyn Fn(&Shape) -> bool| -> f64 {
        let all = group.shapes.iter().filter(|shape| wanted(shape)).map(|shape| match &shape.what {
            What::Stroke(path, Pen::Cut(_)) => long(path),
            _ => 0.0,
        });
        all.sum()
    };
    // Foot and top of S are 32 cm, the left side 22: all share them. M and L share 10 cm more of foot and top.
    let all = long_of(&|shape| shape.size.is_none());
    assert!((all - (2.0 * 320.0 + 220.0)).abs() < 0.1, "{all}");
    let two = long_of(&|shape| !shape.with.is_empty());
    assert!((two - 2.0 * 100.0).abs() < 0.1, "{two}");
    let [small, middle, large] = [0, 1, 2].map(SizeId::from_index);
    for (size, own) in [(small, 220.0), (middle, 220.0), (large, 2.0 * 100.0 + 220.0)] {
        let alone = long_of(&|shape| shape.size == Some(size) && shape.with.is_empty());
        assert!((alone - own).abs() < 0.1, "{size:?}: {alone}");
    }
    assert!(group.shapes.iter().any(|shape| shape.size == Some(middle) && shape.with == [large]));
}

fn all_words(group: &DrawnGroup) -> Vec<String> {
    let words = group.shapes.iter().filter_map(|shape| match &shape.what {
        What::Words(words) => Some(words.text.clone()),
        _ => None,
    });
    words.collect()
}
