//! Patterns from DXF files, hand-made: units, curves, blocks, sizes, layers with numbers and without.

use fustian::bring::read::dxf::read;
use fustian::bring::traced::{Traced, TracedCut, TracedPath, TracedPoint, TracedSize};
use fustian::bring::{ReadOptions, SizesFrom};
use fustian::shape::Point;
use fustian::shape::path::Path;
use kurbo::{ParamCurve, PathSeg};

/// Pairs of lines, written `code value` with `|` between them.
pub(crate) fn pairs(short: &str) -> String {
    let all = short.split('|').map(str::trim).filter(|pair| !pair.is_empty());
    all.map(|pair| {
        let (code, value) = pair.split_once(' ').unwrap_or((pair, ""));
        format!("{code}\n{value}\n")
    })
    .collect()
}

/// A drawing of these header variables, blocks and entities.
pub(crate) fn drawing(header: &str, blocks: &str, entities: &str) -> String {
    let section = |name: &str, inside: &str| format!("0 SECTION|2 {name}|{inside}|0 ENDSEC|");
    pairs(&[section("HEADER", header), section("BLOCKS", blocks), section("ENTITIES", entities)].concat())
        + "0\nEOF\n"
}

pub(crate) fn block(name: &str, inside: &str) -> String {
    format!("0 BLOCK|8 0|2 {name}|70 0|10 0|20 0|{inside}|0 ENDBLK|")
}

pub(crate) fn insert(name: &str) -> String {
    format!("0 INSERT|8 1|2 {name}|10 0|20 0|")
}

/// A closed line through corners.
pub(crate) fn ring(layer: &str, corners: &[(f64, f64)]) -> String {
    let vertices: String =
        corners.iter().map(|(x, y)| format!("0 VERTEX|8 {layer}|10 {x}|20 {y}|")).collect();
    format!("0 POLYLINE|8 {layer}|66 1|70 1|10 0|20 0|{vertices}0 SEQEND|8 {layer}|")
}

pub(crate) fn square(layer: &str, x: f64, y: f64, side: f64) -> String {
    ring(layer, &[(x, y), (x + side, y), (x + side, y + side), (x, y + side)])
}

pub(crate) fn words(layer: &str, x: f64, y: f64, words: &str) -> String {
    format!("0 TEXT|8 {layer}|10 {x}|20 {y}|40 6|1 {words}|")
}

fn line(layer: &str, from: (f64, f64), to: (f64, f64)) -> String {
    format!("0 LINE|8 {layer}|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
}

fn point(layer: &str, x: f64, y: f64) -> String {
    format!("0 POINT|8 {layer}|10 {x}|20 {y}|")
}

pub(crate) fn came(text: &str) -> Traced {
    read(text.as_bytes(), "smock.dxf", &ReadOptions::default())
        .unwrap_or_else(|error| panic!("{error}\n{text}"))
}

fn refused(text: &str) -> String {
    match read(text.as_bytes(), "smock.dxf", &ReadOptions::default()) {
        Err(error) => error.to_string(),
        Ok(traced) => match traced.wrong.first() {
            Some(wrong) => wrong.to_string(),
            None => panic!("{traced:#?} came in"),
        },
    }
}

fn only(traced: &Traced) -> &TracedSize {
    assert_eq!(traced.pieces.len(), 1, "{traced:#?}");
    &traced.pieces[0].sizes[0]
}

pub(crate) fn corners(path: &TracedPath) -> Vec<(f64, f64)> {
    path.segments.iter().map(|segment| segment.course.start()).map(|at| (at.x, at.y)).collect()
}

fn length(path: &TracedPath) -> f64 {
    Path::from_segments(path.segments.iter().map(|segment| segment.course)).unwrap().length()
}

fn is_near(one: Point, other: (f64, f64), within: f64) {
    assert!(one.distance(Point::new(other.0, other.1)) <= within, "{one:?} is not {other:?}");
}

const METRIC: &str = "9 $INSUNITS|70 4|";

/// 4 in are 101.6 mm (1 in is 25.4 mm by international agreement, 1959).
#[test]
fn a_square_of_four_inches() {
    let inches = square("OUTLINE", 1.0, 1.0, 4.0);
    let said = came(&drawing("9 $INSUNITS|70 1|", "", &inches));
    assert!(said.in_inches && said.remarks.is_empty(), "{:?}", said.remarks);
    assert_eq!(corners(&only(&said).outline), [(25.4, 25.4), (127.0, 25.4), (127.0, 127.0), (25.4, 127.0)]);
    let by_text = came(&drawing("", "", &(inches.clone() + &words("TEXT", 0.0, -1.0, "Units: ENGLISH"))));
    assert!(by_text.in_inches && by_text.remarks.is_empty(), "{:?}", by_text.remarks);
    assert_eq!(only(&by_text).outline, only(&said).outline);
    // What is only set up for English measures is told; what says nothing is in millimetres.
    let doubtful = came(&drawing("9 $MEASUREMENT|70 0|", "", &inches));
    assert!(
        doubtful.in_inches && doubtful.remarks[0].contains("inches were taken"),
        "{:?}",
        doubtful.remarks
    );
    let unsaid = came(&drawing("", "", &square("OUTLINE", 0.0, 0.0, 40.0)));
    assert!(
        !unsaid.in_inches && unsaid.remarks[0].contains("millimetres were taken"),
        "{:?}",
        unsaid.remarks
    );
    let both = drawing(METRIC, "", &(square("1", 0.0, 0.0, 40.0) + &words("1", 0.0, -9.0, "Units: ENGLISH")));
    assert!(came(&both).remarks[0].contains("the text was believed"));
    // The maker's scale outdoes all of them, and nothing is in doubt then.
    let scaled = ReadOptions { scale: Some(10.0), ..ReadOptions::default() };
    let text = drawing("9 $INSUNITS|70 1|", "", &inches);
    let scaled = read(text.as_bytes(), "smock.dxf", &scaled).unwrap();
    assert_eq!(corners(&only(&scaled).outline)[1], (50.0, 10.0));
}

/// A quarter of a circle of radius 100 has the bulge tan(90°/4) = √2 − 1; its length is 50π, its middle lies at 45°.
#[test]
fn a_bulge_is_an_arc() {
    let bulge = 2.0_f64.sqrt() - 1.0;
    for kind in ["LWPOLYLINE", "POLYLINE"] {
        let quarter = match kind {
            "POLYLINE" => format!(
                "0 POLYLINE|8 A|66 1|70 1|0 VERTEX|8 A|10 100|20 0|42 {bulge}|0 VERTEX|8 A|10 0|20 100|\
                 0 VERTEX|8 A|10 0|20 0|0 SEQEND|"
            ),
            _ => format!("0 LWPOLYLINE|8 A|90 3|70 1|10 100|20 0|42 {bulge}|10 0|20 100|10 0|20 0|"),
        };
        let traced = came(&drawing(METRIC, "", &quarter));
        let outline = &only(&traced).outline;
        assert!((length(outline) - (50.0 * std::f64::consts::PI + 200.0)).abs() < 2e-3);
        let arcs: Vec<_> = outline.segments.iter().filter_map(|segment| segment.arc).collect();
        assert!(!arcs.is_empty() && outline.segments.len() == arcs.len() + 2);
        for arc in arcs {
            is_near(arc.centre, (0.0, 0.0), 1e-9);
            assert!(!arc.clockwise);
        }
        for segment in outline.segments.iter().filter(|segment| segment.arc.is_some()) {
            for share in [0.0, 0.3, 0.5, 0.8, 1.0] {
                assert!((segment.course.eval(share).to_vec2().hypot() - 100.0).abs() < 1e-3);
            }
        }
        // Inside an arc it turns nowhere; where it ends nothing is said.
        assert_eq!(outline.segments[0].ends_at, TracedPoint::Curve);
        assert_eq!(outline.segments.last().unwrap().ends_at, TracedPoint::Unsaid);
    }
    // The other way round: the circle's middle is (100, 100).
    let text = format!("0 LWPOLYLINE|8 A|90 3|70 1|10 100|20 0|42 {}|10 0|20 100|10 0|20 0|", -bulge);
    let arc = only(&came(&drawing(METRIC, "", &text))).outline.segments[0].arc.unwrap();
    is_near(arc.centre, (100.0, 100.0), 1e-9);
    assert!(arc.clockwise);
}

/// A clamped cubic without inner knots is the Bézier of its control points. Of a uniform one the Bézier points are
/// (P₀ + 4P₁ + P₂)/6, (2P₁ + P₂)/3, (P₁ + 2P₂)/3, (P₁ + 4P₂ + P₃)/6 (Farin, "Curves and Surfaces for CAGD").
#[test]
fn splines_are_the_same_curves_exactly() {
    let controls = "10 0|20 0|10 30|20 60|10 60|20 60|10 90|20 0|";
    let closing = line("A", (90.0, 0.0), (0.0, 0.0));
    let spline = |knots: &str| {
        let knots: String = knots.split(' ').map(|knot| format!("40 {knot}|")).collect();
        format!("0 SPLINE|8 A|70 8|71 3|{knots}{controls}")
    };
    let clamped = came(&drawing(METRIC, "", &(spline("0 0 0 0 1 1 1 1") + &closing)));
    let [first, second] = only(&clamped).outline.segments.as_slice() else { panic!("{clamped:#?}") };
    let PathSeg::Cubic(cubic) = first.course else { panic!("{first:?}") };
    is_near(cubic.p0, (0.0, 0.0), 1e-9);
    is_near(cubic.p1, (30.0, 60.0), 1e-9);
    is_near(cubic.p2, (60.0, 60.0), 1e-9);
    is_near(cubic.p3, (90.0, 0.0), 1e-9);
    assert!(matches!(second.course, PathSeg::Line(_)));
    // ends: (0 + 120 + 60)/6 = 30, (0 + 240 + 60)/6 = 50; (30 + 240 + 90)/6 = 60, (60 + 240 + 0)/6 = 50.
    let closing = line("A", (60.0, 50.0), (60.0, 0.0)) + &line("A", (60.0, 0.0), (30.0, 50.0));
    let uniform = came(&drawing(METRIC, "", &(spline("0 1 2 3 4 5 6 7") + &closing)));
    let PathSeg::Cubic(cubic) = only(&uniform).outline.segments[0].course else { panic!("{uniform:#?}") };
    is_near(cubic.p0, (30.0, 50.0), 1e-9);
    is_near(cubic.p1, (40.0, 60.0), 1e-9);
    is_near(cubic.p2, (50.0, 60.0), 1e-9);
    is_near(cubic.p3, (60.0, 50.0), 1e-9);
    // With weights it is a conic: the quarter of the unit circle as a NURBS of degree 2, weights 1, √½, 1.
    let conic = "0 SPLINE|8 A|70 12|71 2|40 0|40 0|40 0|40 1|40 1|40 1|41 1|41 0.70710678118654752|41 1|\
                 10 100|20 0|10 100|20 100|10 0|20 100|";
    let closing = line("A", (0.0, 100.0), (0.0, 0.0)) + &line("A", (0.0, 0.0), (100.0, 0.0));
    let conic = came(&drawing(METRIC, "", &(conic.to_owned() + &closing)));
    for at in corners(&only(&conic).outline).into_iter().filter(|at| at.0 > 0.0 && at.1 > 0.0) {
        assert!((at.0.hypot(at.1) - 100.0).abs() < 1e-9, "{at:?}");
    }
}

/// An ellipse of the half axes 60 and 30 has the area 1800π; a circle turned, moved, made twice as large by its block
/// has its middle where the block says and twice its radius.
#[test]
fn ellipses_circles_and_arcs() {
    let area = |path: &TracedPath| -> f64 {
        path.segments.iter().map(|segment| kurbo::ParamCurveArea::signed_area(&segment.course)).sum()
    };
    let ellipse = "0 ELLIPSE|8 A|10 5|20 5|11 0|21 60|40 0.5|41 0|42 6.283185307179586|";
    let traced = came(&drawing(METRIC, "", ellipse));
    assert!((area(&only(&traced).outline) - 1800.0 * std::f64::consts::PI).abs() < 0.1);
    let disc = block("DISC", "0 CIRCLE|8 0|10 10|20 0|40 20|");
    let put = "0 INSERT|8 0|2 DISC|10 7|20 9|41 2|42 2|50 90|";
    let traced = came(&drawing(METRIC, &disc, put));
    let outline = &only(&traced).outline;
    let arc = outline.segments[0].arc.unwrap();
    // A piece keeps the coordinates of its block, turned and larger: (10, 0) becomes (0, 20).
    is_near(arc.centre, (0.0, 20.0), 1e-9);
    assert!((arc.centre.distance(outline.segments[0].course.start()) - 40.0).abs() < 1e-9);
    // Larger along x alone: no circle any more.
    let traced = came(&drawing(METRIC, &disc, "0 INSERT|8 0|2 DISC|10 0|20 0|41 2|"));
    assert_eq!(only(&traced).outline.segments[0].arc, None);
    assert!((area(&only(&traced).outline) - 800.0 * std::f64::consts::PI).abs() < 0.1);
    // A D of an arc and a line, drawn in parts: joined. Half a circle of radius 50.
    let half = "0 ARC|8 A|10 0|20 0|40 50|50 270|51 90|".to_owned() + &line("A", (0.0, -50.0), (0.0, 50.0));
    let traced = came(&drawing(METRIC, "", &half));
    assert!((length(&only(&traced).outline) - 50.0 * std::f64::consts::PI - 100.0).abs() < 2e-3);
    // Drawn from behind: x goes the other way.
    let behind = half.replace("50 270|51 90|", "50 270|51 90|230 -1|");
    let traced = came(&drawing(METRIC, "", &behind));
    assert!(corners(&only(&traced).outline).iter().all(|at| at.0 <= 1e-9));
}

/// A square with a hole, three blocks deep: moved by (10, 0), turned by 90°, mirrored at the y axis. (30, 10) goes to
/// (40, 10), (−10, 40), (10, 40).
#[test]
fn blocks_in_blocks_and_mirrored() {
    let hole = block("HOLE", "0 CIRCLE|8 0|10 30|20 10|40 1|");
    let moved = block("MOVED", "0 INSERT|8 0|2 HOLE|10 10|20 0|");
    let turned = block("TURNED", "0 INSERT|8 0|2 MOVED|10 0|20 0|50 90|");
    let piece = square("1", 0.0, 0.0, 90.0) + "0 INSERT|8 13|2 TURNED|10 0|20 0|41 -1|";
    let blocks = hole + &moved + &turned + &block("FRONT", &piece);
    let traced = came(&drawing(METRIC, &blocks, &insert("FRONT")));
    let marks = &only(&traced).marks;
    assert_eq!(marks.len(), 1, "{traced:#?}");
    is_near(marks[0].at, (10.0, 40.0), 1e-9);
    // Put down once as drawn and once turned over, and nothing says how many are cut: a pair.
    let both = insert("FRONT") + "0 INSERT|8 1|2 FRONT|10 500|20 0|41 -1|";
    let traced = came(&drawing(METRIC, &blocks, &both));
    assert_eq!(traced.pieces[0].cut, Some(TracedCut { count: 2, mirrored: true }));
}

/// All layers of ASTM D6673 in one block.
#[test]
fn a_block_with_all_layers() {
    let piece = [
        ring("1", &[(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (100.0, 310.0), (0.0, 300.0)]),
        [(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 300.0)].map(|at| point("2", at.0, at.1)).concat(),
        point("3", 100.0, 310.0),
        point("4", 200.0, 150.0) + &line("4", (0.0, 100.0), (5.0, 100.0)),
        line("6", (0.0, 0.0), (0.0, 300.0)),
        line("7", (100.0, 50.0), (100.0, 250.0)),
        line("8", (20.0, 40.0), (180.0, 40.0)),
        line("11", (150.0, 100.0), (170.0, 100.0)),
        point("13", 60.0, 200.0) + "0 CIRCLE|8 13|10 70|20 200|40 2|",
        square("14", 10.0, 10.0, 180.0).replace("|20 190|", "|20 285|"),
        point("5", 1.0, 1.0),
        words("15", 50.0, 150.0, "Piece Name: Smock front"),
        words("15", 50.0, 140.0, "Size: M"),
        words("15", 50.0, 130.0, "Quantity: 2"),
        words("15", 50.0, 120.0, "Material: sail canvas"),
        words("15", 50.0, 110.0, "Annotation: cut 2, one of each hand"),
    ];
    let style = words("15", 0.0, -20.0, "Style Name: Smock") + &words("15", 0.0, -30.0, "Units: METRIC");
    let traced = came(&drawing("", &block("A1", &piece.concat()), &(insert("A1") + &style)));
    let piece = &traced.pieces[0];
    assert_eq!((piece.name.as_str(), piece.origin.as_str()), ("Smock front", "block A1 of smock.dxf"));
    assert_eq!(piece.cut, Some(TracedCut { count: 2, mirrored: true }));
    assert_eq!(piece.material.as_deref(), Some("sail canvas"));
    assert_eq!(piece.sizes.keys().collect::<Vec<_>>(), ["M"]);
    let size = &piece.sizes["M"];
    use TracedPoint::{Corner, Curve};
    let said: Vec<TracedPoint> = size.outline.segments.iter().map(|segment| segment.ends_at).collect();
    assert_eq!(said, [Corner, Corner, Curve, Corner, Corner]);
    assert_eq!(corners(size.sew_line.as_ref().unwrap()).len(), 4);
    let notches: Vec<(f64, f64)> = size.notches.iter().map(|notch| (notch.at.x, notch.at.y)).collect();
    assert_eq!(notches, [(200.0, 150.0), (0.0, 100.0)]);
    assert_eq!(size.fold, Some((Point::new(0.0, 0.0), Point::new(0.0, 300.0))));
    assert_eq!(size.grain, Some((Point::new(100.0, 50.0), Point::new(100.0, 250.0))));
    let marks: Vec<(f64, f64)> = size.marks.iter().map(|mark| (mark.at.x, mark.at.y)).collect();
    assert_eq!(marks, [(60.0, 200.0), (70.0, 200.0)]);
    let lines: Vec<&str> = size.lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(lines, ["", "cut-out"]);
    assert_eq!(size.texts, ["cut 2, one of each hand"]);
    assert!(traced.remarks[0].starts_with("1 things that grading"), "{:?}", traced.remarks);
}

fn sizes_of(traced: &Traced) -> Vec<(&str, Vec<&str>)> {
    traced
        .pieces
        .iter()
        .map(|piece| (piece.name.as_str(), piece.sizes.keys().map(String::as_str).collect()))
        .collect()
}

/// Sizes from what is written, from the names of blocks, from the sample size; left and right are no sizes.
#[test]
fn sizes_from_texts_and_names() {
    let blocks_of = |names: &[&str], inside: &dyn Fn(&str) -> String| {
        let blocks: String = names
            .iter()
            .enumerate()
            .map(|(at, name)| block(name, &(square("1", 0.0, 0.0, 100.0 + at as f64) + &inside(name))))
            .collect();
        let inserts: String = names.iter().map(|name| insert(name)).collect();
        (blocks, inserts)
    };
    let plain = |names: &[&str]| {
        let (blocks, inserts) = blocks_of(names, &|_| String::new());
        came(&drawing(METRIC, &blocks, &inserts))
    };
    let named = plain(&["FRONT-S", "FRONT-M", "BACK-S", "BACK-M", "CUFF"]);
    assert_eq!(
        sizes_of(&named),
        [("FRONT", vec!["S", "M"]), ("BACK", vec!["S", "M"]), ("CUFF", vec!["S", "M"])]
    );
    assert!(named.remarks.iter().any(|words| words.contains("“CUFF” is drawn once")), "{:?}", named.remarks);
    let numbered = plain(&["FRONT_38", "FRONT_40"]);
    assert_eq!(sizes_of(&numbered), [("FRONT", vec!["38", "40"])]);
    for names in [&["FRONT_LEFT", "FRONT_RIGHT"], &["POCKET_1", "POCKET_2"], &["FRONT_S", "BACK_M"]] {
        let apart = plain(names);
        let expected: Vec<(&str, Vec<&str>)> = names.iter().map(|name| (*name, vec![""])).collect();
        assert_eq!(sizes_of(&apart), expected);
    }
    let by_names = ReadOptions { sizes_from: Some(SizesFrom::Names), ..ReadOptions::default() };
    let (blocks, inserts) = blocks_of(&["FRONT_1", "FRONT_2"], &|_| String::new());
    let said = read(drawing(METRIC, &blocks, &inserts).as_bytes(), "a.dxf", &by_names).unwrap();
    assert_eq!(sizes_of(&said), [("FRONT", vec!["1", "2"])]);
    // Written: the block's name then may be anything.
    let (blocks, inserts) = blocks_of(&["P1", "P2"], &|name| {
        words("1", 9.0, 9.0, "Piece Name: Front")
            + &words("1", 9.0, 5.0, &format!("Size: {}", name.replace('P', "2T-")))
    });
    let written = came(&drawing(METRIC, &blocks, &inserts));
    assert_eq!(sizes_of(&written), [("Front", vec!["2T-1", "2T-2"])]);
    let sample = inserts + &words("1", 0.0, -9.0, "Sample Size: M");
    let (blocks, _) = blocks_of(&["P1", "P2"], &|_| String::new());
    let sample = came(&drawing(METRIC, &blocks, &sample));
    assert_eq!(sizes_of(&sample), [("P1", vec!["M"]), ("P2", vec!["M"])]);
    // The same piece twice in one size is two pieces, and told.
    let (blocks, inserts) = blocks_of(&["P1", "P2"], &|_| words("1", 9.0, 9.0, "Piece Name: Front"));
    let twice = came(&drawing(METRIC, &blocks, &inserts));
    assert_eq!(sizes_of(&twice), [("Front", vec![""]), ("Front", vec![""])]);
    assert!(twice.remarks.iter().any(|words| words.contains("more than once")), "{:?}", twice.remarks);
}

/// Nests: each size a layer; each size a colour with its words; and one that nothing names, which is refused.
#[test]
fn sizes_in_one_another() {
    let layers = [
        square("S", 0.0, 0.0, 100.0) + &square("S", 300.0, 0.0, 50.0) + &point("S", 10.0, 10.0),
        square("M", 0.0, 0.0, 110.0) + &square("M", 300.0, 0.0, 55.0) + &point("M", 11.0, 11.0),
        square("L", 0.0, 0.0, 120.0) + &square("L", 300.0, 0.0, 60.0) + &point("L", 12.0, 12.0),
        line("GRAIN", (50.0, 10.0), (50.0, 90.0)),
        words("TEXT", 20.0, 50.0, "Yoke") + &words("TEXT", 310.0, 20.0, "Cuff"),
    ];
    let traced = came(&drawing(METRIC, "", &layers.concat()));
    assert_eq!(sizes_of(&traced), [("Yoke", vec!["S", "M", "L"]), ("Cuff", vec!["S", "M", "L"])]);
    for (size, side) in [("S", 100.0), ("M", 110.0), ("L", 120.0)] {
        let yoke = &traced.pieces[0].sizes[size];
        assert_eq!(corners(&yoke.outline)[2], (side, side));
        assert_eq!(yoke.marks.len(), 1);
        assert!((yoke.marks[0].at.x - side / 10.0).abs() < 1e-9);
        assert_eq!(yoke.grain, Some((Point::new(50.0, 10.0), Point::new(50.0, 90.0))));
    }
    let coloured = |size: &str, side: f64, colour: u8| {
        let own = square("1", 0.0, 0.0, side) + &words("1", 5.0, 5.0, &format!("Size: {size}"));
        own.replace("|8 1|", &format!("|8 1|62 {colour}|"))
    };
    let nest = coloured("S", 100.0, 1) + &coloured("M", 110.0, 2) + &line("7", (9.0, 9.0), (9.0, 90.0));
    let traced = came(&drawing(METRIC, &block("YOKE", &nest), &insert("YOKE")));
    assert_eq!(sizes_of(&traced), [("YOKE", vec!["S", "M"])]);
    assert!(traced.pieces[0].sizes.values().all(|size| size.grain.is_some()));
    assert_eq!(corners(&traced.pieces[0].sizes["M"].outline)[1], (110.0, 0.0));
    let unnamed = square("1", 0.0, 0.0, 100.0) + &square("1", 0.0, 0.0, 110.0);
    let why = refused(&drawing(METRIC, &block("YOKE", &unnamed), &insert("YOKE")));
    assert!(why.contains("block YOKE holds 2 closed lines on layer 1 that lie in one another"), "{why}");
}

/// A plain drawing: each closed line that lies in no other is a piece, what is in it belongs to it.
#[test]
fn plain_lines_of_release_12() {
    let entities = [
        square("0", 0.0, 0.0, 200.0),
        words("0", 60.0, 100.0, "Bib"),
        "0 TEXT|8 0|10 60|20 80|40 3|1 cut 1 pair|".to_owned(),
        // A pocket's place, a drill hole, a cross, a line, and strokes across the edge and in from it.
        square("0", 50.0, 20.0, 40.0),
        "0 CIRCLE|8 0|10 150|20 150|40 2|".to_owned(),
        line("0", (145.0, 50.0), (155.0, 50.0)) + &line("0", (150.0, 45.0), (150.0, 55.0)),
        line("0", (10.0, 120.0), (190.0, 120.0)),
        line("0", (100.0, -3.0), (100.0, 4.0)) + &line("0", (200.0, 70.0), (194.0, 70.0)),
        ring("0", &[(300.0, 0.0), (420.0, 0.0), (360.0, 90.0)]),
        words("0", 350.0, 20.0, "Strap end"),
        "0 HATCH|8 0|70 1|".to_owned(),
        line("0", (900.0, 900.0), (990.0, 900.0)),
    ];
    let traced = came(&drawing(METRIC, "", &entities.concat()));
    assert_eq!(sizes_of(&traced), [("Bib", vec![""]), ("Strap end", vec![""])]);
    let bib = &traced.pieces[0].sizes[0];
    assert_eq!(traced.pieces[0].cut, Some(TracedCut { count: 2, mirrored: true }));
    let marks: Vec<(f64, f64)> = bib.marks.iter().map(|mark| (mark.at.x, mark.at.y)).collect();
    assert_eq!(marks, [(150.0, 150.0), (150.0, 50.0)]);
    let notches: Vec<(f64, f64)> = bib.notches.iter().map(|notch| (notch.at.x, notch.at.y)).collect();
    assert_eq!(notches, [(100.0, 0.0), (200.0, 70.0)]);
    assert_eq!(bib.lines.iter().map(|line| line.path.closed).collect::<Vec<_>>(), [true, false]);
    // What begins in pair n is told by its value, in line 2 n. Ten pairs stand before the entities (five of the header, three of
    // blocks, two that begin the section), then the bib's 24 (6, four vertices of 4, and 2) and twice six of words: the pocket's
    // place begins in pair 47. It is 24 more, the circle 5, five lines of 6, the strap's end 6 + 3 × 4 + 2, its words 6, the hatch
    // 3: the stray line begins in pair 47 + 24 + 5 + 30 + 20 + 6 + 3 = 135.
    assert_eq!(
        traced.remarks,
        [
            "a closed line on layer 0 (line 94 of smock.dxf), 40 mm wide and 40 mm high, lies inside Bib, 50 mm from its left and 20 mm \
             from its lower end, and is taken for a line on it; a piece has to lie beside",
            "1 line lies in no piece and was left out (line 270).",
            "1 HATCH is no line of a pattern and was left out."
        ]
    );
}

/// What is wrong is said where it is, and nothing comes in.
#[test]
fn what_is_wrong_is_said_with_its_line() {
    let sound = square("1", 0.0, 0.0, 100.0);
    for (text, expected) in [
        (String::new(), "smock.dxf: there is nothing in it"),
        (
            "{\"garment\": 1}\n".to_owned(),
            "smock.dxf:1: “{\"garment\": 1}” stands where a group code must stand",
        ),
        ("AutoCAD Binary DXF\r\n\u{1a}\0".to_owned(), "smock.dxf: it is a binary DXF; save it as DXF text"),
        ("AC1027\0\0".to_owned(), "smock.dxf: it is a DWG drawing; save it as DXF text"),
        ("0\nSEC\0TION\n".to_owned(), "smock.dxf: it is no text"),
        ("0\nLINE\n".to_owned(), "smock.dxf:2: a DXF file begins with a section"),
        (drawing(METRIC, "", ""), "smock.dxf: there is no line in it that could be a piece’s outline"),
        (
            drawing(METRIC, "", &line("A", (0.0, 0.0), (50.0, 0.0))),
            "smock.dxf: none of its 1 lines is closed",
        ),
        (drawing(METRIC, "", &sound.replace("10 100", "10 nan")), "“nan” stands where a number must stand"),
        (
            drawing(METRIC, "", &sound.replace("10 100", "10 1e999")),
            "“1e999” stands where a number must stand",
        ),
        (
            drawing(METRIC, "", &sound.replace("10 100", "10 1e300")),
            "more than 100 km from the drawing’s origin",
        ),
        (drawing(METRIC, "", &sound.replace("10 100|", "")), "a coordinate is missing here (group code 10)"),
        (drawing(METRIC, "", "0 VERTEX|8 1|10 0|20 0|"), "a VERTEX stands outside a POLYLINE"),
        (
            drawing(METRIC, &block("A", &sound.replace("70 1|", "70 0|")), &insert("A")),
            "the boundary of block A is open: its ends, (0.0, 0.0) and (0.0, 100.0) mm, lie 100.0 mm apart",
        ),
        (
            drawing(
                METRIC,
                "",
                &sound.replace("|70 1|", "|70 0|").replace("8 1", "8 A").replace("10 0|20 100", "10 0|20 2"),
            ),
            // 100 + 100 + √(100² + 98²) = 340.0
            "a line that is 340 mm long ends 2.0 mm from where it begins",
        ),
        (
            drawing(METRIC, &(block("A", &insert("B")) + &block("B", &insert("A"))), &insert("A")),
            "the block “A” puts down itself",
        ),
        (drawing(METRIC, &(block("A", "") + &block("a", "")), ""), "there are two blocks “a”"),
    ] {
        let why = refused(&text).replace('\'', "’");
        assert!(why.contains(expected), "{why}\nis not\n{expected}");
    }
    // Broken off anywhere: never half a pattern.
    let whole = drawing(METRIC, &block("A", &sound), &insert("A"));
    let lines: Vec<&str> = whole.lines().collect();
    for end in 1..lines.len() - 2 {
        let part = lines[..end].join("\n");
        assert!(read(part.as_bytes(), "smock.dxf", &ReadOptions::default()).is_err(), "{part}");
    }
    let lost = lines.iter().position(|line| *line == "SEQEND").unwrap();
    let why = refused(&[&lines[..lost], &lines[lost + 1..]].concat().join("\n"));
    assert!(why.contains("a line is lost or doubled before it"), "{why}");
}

/// What is not there is told, other files are never opened, and the rest comes in.
#[test]
fn what_is_left_out_is_told() {
    let elsewhere = "0 BLOCK|8 0|2 SHEET|70 4|10 0|20 0|1 /etc/passwd|0 ENDBLK|".to_owned();
    let blocks = elsewhere + &block("A\u{7}^[[31m", &square("1", 0.0, 0.0, 100.0));
    let entities =
        insert("A\u{7}^[[31m") + &insert("SHEET") + &insert("NOWHERE") + "0 3DFACE|8 0|0 3DFACE|8 0|";
    let traced = came(&drawing(METRIC, &blocks, &entities));
    assert!(!traced.pieces[0].name.contains(char::is_control), "{:?}", traced.pieces[0].name);
    assert_eq!(
        traced.remarks,
        [
            "There is no block “NOWHERE”, which the drawing puts down.",
            "The block “SHEET” is another file, which is never opened: bring that file too.",
            "2 3DFACE are no lines of a pattern and were left out."
        ]
    );
}

/// Bombs: blocks of blocks of blocks, rows without end, more outlines than a pattern has, more points than are read.
#[test]
fn what_has_no_end_comes_to_one() {
    let doubled: String =
        (1..16).map(|at| block(&format!("B{at}"), &insert(&format!("B{}", at - 1)).repeat(10))).collect();
    let bomb = block("B0", &square("1", 0.0, 0.0, 100.0)) + &doubled;
    let why = refused(&drawing(METRIC, &bomb, &insert("B15")));
    assert!(why.contains("it draws more than 1000000 points"), "{why}");
    // The same with nothing in it at the end.
    let why = refused(&drawing(METRIC, &(block("B0", "") + &doubled), &insert("B15")));
    assert!(why.contains("it draws more than 1000000 points"), "{why}");
    let deep: String = (1..40).map(|at| block(&format!("B{at}"), &insert(&format!("B{}", at - 1)))).collect();
    let why = refused(&drawing(METRIC, &(block("B0", "") + &deep), &insert("B39")));
    assert!(why.contains("blocks stand more than 16 deep"), "{why}");
    let rows = square("1", 0.0, 0.0, 100.0) + "0 INSERT|8 8|2 DOT|10 0|20 0|70 60000|71 60000|44 1|45 1|";
    let why =
        refused(&drawing(METRIC, &(block("DOT", &point("8", 0.0, 0.0)) + &block("A", &rows)), &insert("A")));
    assert!(why.contains("it draws more than 1000000 points"), "{why}");
    let many: String = (0..10_000)
        .map(|at| square("0", f64::from(at % 100) * 60.0, f64::from(at / 100) * 60.0, 50.0))
        .collect();
    let why = refused(&drawing(METRIC, "", &many));
    assert!(why.contains("more than 500 outlines; no pattern has so many"), "{why}");
    let vertices: String = (0..1_000_001).map(|at| format!("0\nVERTEX\n8\n1\n10\n{at}\n20\n0\n")).collect();
    let long =
        format!("0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n8\n1\n{vertices}0\nSEQEND\n0\nENDSEC\n0\nEOF\n");
    let why = refused(&long);
    assert!(why.contains("it holds more than 1000000 points"), "{why}");
    let huge = vec![b'0'; 33 * 1024 * 1024];
    let why = read(&huge, "smock.dxf", &ReadOptions::default()).unwrap_err().to_string();
    assert!(why.contains("it is 33 MB large; at most 32 MB are read"), "{why}");
}

/// Ten pieces in ten sizes with 500 points each, every point with its kind: in under a second where the program is built
/// to be fast; here only what would be felt is caught.
#[test]
fn a_large_nest_comes_in_soon() {
    let (mut blocks, mut inserts) = (String::new(), String::new());
    for (piece, size) in (0..10).flat_map(|piece| (34..44).map(move |size| (piece, size))) {
        let round: Vec<(f64, f64)> = (0..500)
            .map(|at| (f64::from(at) / 500.0 * std::f64::consts::TAU).sin_cos())
            .map(|(sine, cosine)| (cosine * f64::from(200 + size), sine * f64::from(200 + size)))
            .collect();
        let points: String = round.iter().map(|at| point("3", at.0, at.1)).collect();
        blocks +=
            &block(&format!("PIECE{piece}-{size}"), &(ring("1", &round) + &ring("14", &round) + &points));
        inserts += &insert(&format!("PIECE{piece}-{size}"));
    }
    let text = drawing(METRIC, &blocks, &inserts);
    let start = std::time::Instant::now();
    let traced = came(&text);
    let took = start.elapsed();
    println!("{} kB, {took:?}", text.len() / 1000);
    assert_eq!(traced.pieces.len(), 10);
    assert!(traced.pieces.iter().all(|piece| piece.sizes.len() == 10));
    assert!(took < std::time::Duration::from_secs(20), "{took:?}");
}
