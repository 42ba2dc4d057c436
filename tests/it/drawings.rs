//! Pieces drawn: true to scale when another library reads them back, words clear of lines.

use crate::cutting_lines::{GARMENTS, cut_all, example};
use fustian::cutting::{CutPart, Cutting};
use fustian::emit::drawing::{Look, Pen, What, draw_group, pieces, sheet};
use fustian::emit::svg;
use fustian::garment::SizeId;
use fustian::resolve::DrawnEdgeId;
use fustian::shape::outline::extents;
use geo::{Intersects, LineString, Polygon};
use lyon_geom::{CubicBezierSegment, LineSegment, point};
use std::collections::BTreeMap;
use usvg::tiny_skia_path::PathSegment;

/// Length, width and height of every path with a name, as usvg reads them.
fn read_back(text: &str) -> BTreeMap<String, (f64, f64, f64)> {
    let tree = usvg::Tree::from_str(text, &usvg::Options::default()).unwrap();
    let mut found = BTreeMap::new();
    let mut open: Vec<&usvg::Node> = tree.root().children().iter().collect();
    while let Some(node) = open.pop() {
        match node {
            usvg::Node::Group(group) => open.extend(group.children()),
            usvg::Node::Path(path) if !path.id().is_empty() => {
                let bounds = path.data().compute_tight_bounds().unwrap();
                let size = (f64::from(bounds.width()), f64::from(bounds.height()));
                found.insert(path.id().to_owned(), (length(path.data()), size.0, size.1));
            }
            _ => {}
        }
    }
    found
}

/// By lyon's arithmetic.
fn length(path: &usvg::tiny_skia_path::Path) -> f64 {
    let (mut start, mut at, mut whole) = (point(0.0, 0.0), point(0.0, 0.0), 0.0);
    let to = |p: usvg::tiny_skia_path::Point| point(f64::from(p.x), f64::from(p.y));
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(p) => (start, at) = (to(p), to(p)),
            PathSegment::LineTo(p) => {
                whole += LineSegment { from: at, to: to(p) }.length();
                at = to(p);
            }
            PathSegment::QuadTo(..) => panic!("no quadratic curves are written"),
            PathSegment::CubicTo(a, b, p) => {
                let curve = CubicBezierSegment { from: at, ctrl1: to(a), ctrl2: to(b), to: to(p) };
                whole += curve.approximate_length(1e-4);
                at = to(p);
            }
            PathSegment::Close => {
                whole += LineSegment { from: at, to: start }.length();
                at = start;
            }
        }
    }
    whole
}

fn identifier(compiled: &fustian::Compiled, part: &CutPart, what: &str) -> String {
    let piece = compiled.garment.part_name(Some(part.part.layer), part.part.piece);
    format!("{piece} {} {what}", part.label.size).replace(' ', "-").replace("--", "-").replace('_', "-")
}

/// Lengths and boxes of what is drawn against the resolved pieces, within 0.05 mm, smallest and
/// largest size.
#[test]
fn the_drawing_is_true_to_scale() {
    for name in GARMENTS {
        let compiled = example(name);
        let cuts = cut_all(&compiled);
        for cut in [cuts.first().unwrap(), cuts.last().unwrap()] {
            let text = svg(
                &sheet(&compiled.garment, std::slice::from_ref(cut), &Look::drawing()),
                &compiled.garment.title,
            );
            let paths = read_back(&text);
            for part in &cut.parts {
                let drawn = compiled.sizes[part.size.index()].drawn.paper(part.part.paper).unwrap();
                let edges = DrawnEdgeId::enumerate(&drawn.edges).filter(|(at, _)| part.fold != Some(*at));
                let sewn: Vec<_> = edges.map(|(_, edge)| edge.path.clone()).collect();
                let runs = part.cutting.iter().filter(|run| part.fold.is_none() || run.along != part.fold);
                let cut: Vec<_> = runs.map(|run| run.path.clone()).collect();
                for (what, own) in [("stitching", sewn), ("cutting", cut)] {
                    let id = identifier(&compiled, part, what);
                    let (length, width, height) =
                        paths.get(&id).unwrap_or_else(|| panic!("{id} is not in {:?}", paths.keys()));
                    let expected: f64 = own.iter().map(fustian::shape::path::Path::length).sum();
                    let bounds = extents(&own).unwrap();
                    assert!((length - expected).abs() < 0.05, "{id}: {length}, not {expected}");
                    assert!(
                        (width - bounds.width()).abs() < 0.05 && (height - bounds.height()).abs() < 0.05,
                        "{id}"
                    );
                }
            }
        }
    }
}

/// One unit of the picture is one millimetre.
#[test]
fn its_units_are_millimetres() {
    let compiled = example("galley-apron.fus");
    let text = svg(&sheet(&compiled.garment, &cut_all(&compiled), &Look::drawing()), "Galley apron");
    let start = text.split_once('>').unwrap().0;
    let of = |name: &str| start.split_once(&format!(" {name}=\"")).unwrap().1.split('"').next().unwrap();
    let view: Vec<&str> = of("viewBox").split(' ').collect();
    assert_eq!((of("width"), of("height")), (&*format!("{}mm", view[2]), &*format!("{}mm", view[3])));
}

/// No words lie on a line, in the smallest size, in the largest, and with all sizes in one
/// another; but for the names of sizes, which stand in their lines on cleared ground.
#[test]
fn words_are_clear_of_lines() {
    for name in GARMENTS {
        let compiled = example(name);
        let cuts = cut_all(&compiled);
        let (first, last) = (&cuts[..1], &cuts[cuts.len() - 1..]);
        for (drawn, cuts) in [("smallest", first), ("largest", last), ("all", &cuts[..])] {
            for group in pieces(&compiled.garment, cuts, &Look::printing()) {
                let piece = draw_group(&compiled.garment, &group, &Look::printing(), false).unwrap();
                let mut words = Vec::new();
                let mut lines: Vec<LineString> = Vec::new();
                for shape in &piece.shapes {
                    match &shape.what {
                        What::Words(own) if !own.cleared => {
                            let corners = own.corners().map(|corner| (corner.x, corner.y));
                            words.push((own.text.clone(), Polygon::new(corners.to_vec().into(), Vec::new())));
                        }
                        What::Stroke(path, _) => lines.extend(flat(path)),
                        _ => {}
                    }
                }
                assert!(
                    // Alone in its line or, on a low piece, before its size.
                    words.iter().any(|(words, _)| words
                        .strip_prefix(&*piece.title)
                        .is_some_and(|rest| rest.is_empty() || rest.starts_with(", "))),
                    "{name}: {} unnamed",
                    piece.title
                );
                for (at, (text, own)) in words.iter().enumerate() {
                    let hit = lines.iter().find(|line| own.intersects(*line));
                    assert!(hit.is_none(), "{name}, {drawn}: {text:?} on {} lies on a line", piece.title);
                    // Lines of one label stand close; their letters do not touch.
                    for (other, its) in words.iter().skip(at + 1) {
                        let overlap = geo::BooleanOps::intersection(own, its);
                        assert!(
                            geo::Area::unsigned_area(&overlap) < 0.3 * geo::Area::unsigned_area(own),
                            "{text} {other}"
                        );
                    }
                }
            }
        }
    }
}

/// Long, low pieces have room along their length: the smallest letters of their labels have
/// capitals of 3.5 mm at least, a nominal size of lettering in ISO 3098-1; those of the cuff, which is
/// short and has its label in one half, of the size below that, 2.5 mm.
#[test]
fn labels_of_low_pieces_can_be_read() {
    // Noto Sans: capitals are 714 of the 1000 units of its body (the font's own OS/2 table).
    const CAPITALS: f64 = 0.714;
    let compiled = example("deck-jacket.fus");
    let cuts = cut_all(&compiled);
    let is_size = |text: &str| compiled.garment.sizes.iter().any(|size| &*size.name == text);
    let mut looked_at = 0;
    for cuts in [&cuts[..1], &cuts[cuts.len() - 1..], &cuts[..]] {
        for group in pieces(&compiled.garment, cuts, &Look::printing()) {
            let piece = draw_group(&compiled.garment, &group, &Look::printing(), false).unwrap();
            if !["Collar", "Hem band", "Cuff"].contains(&&*piece.title) {
                continue;
            }
            let labels = piece.shapes.iter().filter_map(|shape| match &shape.what {
                // A size's name beside a notch is no label.
                What::Words(words) if !words.cleared && !is_size(&words.text) => Some(words),
                _ => None,
            });
            for words in labels {
                let least = if piece.title == "Cuff" { 2.5 } else { 3.5 };
                assert!(
                    words.size * CAPITALS >= least,
                    "{:?} on {}: {}",
                    words.text,
                    piece.title,
                    words.size
                );
                looked_at += 1;
            }
        }
    }
    assert!(looked_at >= 3 * 3 * 3, "each of three pieces has three lines or more, three times");
}

fn flat(path: &kurbo::BezPath) -> Vec<LineString> {
    let mut lines: Vec<Vec<(f64, f64)>> = Vec::new();
    kurbo::flatten(path, 0.05, |element| match element {
        kurbo::PathEl::MoveTo(p) => lines.push(vec![(p.x, p.y)]),
        kurbo::PathEl::LineTo(p) => lines.last_mut().unwrap().push((p.x, p.y)),
        kurbo::PathEl::ClosePath => {
            let line = lines.last_mut().unwrap();
            line.push(line[0]);
        }
        _ => {}
    });
    lines.into_iter().map(LineString::from).collect()
}

/// Without colour: every two kinds of line differ by their width or their dashes.
#[test]
fn lines_are_told_apart_without_colour() {
    let pens = [Pen::Cut(None), Pen::Stitch, Pen::Fold, Pen::Line, Pen::Grain];
    let sizes = (0..6).map(|at| Pen::Cut(Some(SizeId::from_index(at))));
    let all: Vec<Pen> = pens.into_iter().chain(sizes).collect();
    for (at, one) in all.iter().enumerate() {
        for other in &all[at + 1..] {
            let alike = one.dashes() == other.dashes() && (one.width() - other.width()).abs() < 0.2;
            assert!(!alike, "{one:?} and {other:?}");
        }
    }
}

/// Names out of the ordinary neither break the file nor fall out of it.
#[test]
fn any_name_can_be_drawn() {
    let text = r#"garment "Smock </title> & 'é' ½ 🧵 a/b \ ]]>"
units cm
allowance 1
fabric canvas "<b>canvas</b> & co" { width 150 }
layer outer in canvas { body }
piece body "Body <1/2> 🧵" {
  cut 1
  outline rectangle 40 by 50
}
finish body.bottom, body.right, body.top, body.left  hem 2
"#;
    let loader = fustian::source::MemoryLoader::new().with("a.fus", text);
    let compiled = fustian::compile(&loader, "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let cuts: Vec<Cutting> = cut_all(&compiled);
    let text = svg(&sheet(&compiled.garment, &cuts, &Look::drawing()), &compiled.garment.title);
    assert!(usvg::Tree::from_str(&text, &usvg::Options::default()).is_ok());
    assert!(!text.contains("</title> &") && text.contains("½ 🧵"));
}

/// The picture in the README is what the program draws of the deck jacket in size M.
#[test]
fn the_picture_is_kept_up_to_date() {
    let compiled = example("deck-jacket.fus");
    let cuts = cut_all(&compiled);
    let at = compiled.garment.sizes.iter().position(|size| &*size.name == "M").unwrap();
    let text = svg(&sheet(&compiled.garment, &cuts[at..=at], &Look::drawing()), &compiled.garment.title);
    let kept = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/deck-jacket.svg");
    let way = "draw it again: fustian draw examples/deck-jacket.fus --size M -o examples/deck-jacket.svg";
    assert!(std::fs::read_to_string(kept).unwrap() == text, "{way}");
}
