//! One wide page for a plotter or a projector; words that keep off where pages join; what is said along lines; drawings
//! with words that can be marked. Figures are worked out by hand.

use crate::cutting_lines::{cut_all, example};
use crate::workbench::{err, folder_of, run};
use fustian::cutting::Cutting;
use fustian::emit::drawing::{DrawnGroup, Look, What, Words, draw_group, pieces};
use fustian::{Compiled, compile};
use kurbo::Point;
use lopdf::Document;
use lopdf::content::Content;

/// A bib cut on the fold from a cloth with a nap, 2 inches of hem to be lengthened, in two sizes.
const BIB: &str = "garment \"Engine bib\"\nunits in\nallowance 1/2\nsizes S, M\nbody { chest 36, 40 }\n\
    fabric cord \"corduroy\" { width 45; nap one-way }\nlayer outer in cord { bib }\n\
    measure finished_chest \"Finished chest\" against chest = 4 * length(bib.chest_line)\n\
    piece bib \"Bib\" {\n  cut 1 on fold middle\n  point p1 = (0, 0)\n  point p2 = (chest/4 + 1, 0)\n  \
    point p3 = (x(p2), 20)\n  point p4 = (0, 20)\n  \
    outline from p1 { hem to p2; side to p3; top to p4; middle to p1 }\n  line chest_line across at (0, 12)\n}\n\
    finish bib.hem, bib.side, bib.top  hem 1/2\n";

fn bib() -> Compiled {
    let compiled = compile(&fustian::source::MemoryLoader::new().with("bib.fus", BIB), "bib.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    compiled
}

fn drawn(compiled: &Compiled, cuts: &[Cutting], look: &Look) -> DrawnGroup {
    draw_group(&compiled.garment, &pieces(&compiled.garment, cuts, look)[0], look, false).unwrap()
}

fn words(group: &DrawnGroup) -> Vec<&Words> {
    let words = group.shapes.iter().filter_map(|shape| match &shape.what {
        What::Words(words) => Some(words),
        _ => None,
    });
    words.collect()
}

/// By hand: a quarter of 36 in and 1 in are 10 in, four of them 40 in; of 40 in, 44 in.
#[test]
fn a_piece_says_fold_nap_and_girth() {
    let compiled = bib();
    let cuts = cut_all(&compiled);
    let texts = |cuts: &[Cutting]| -> Vec<String> {
        words(&drawn(&compiled, cuts, &Look::printing())).iter().map(|words| words.text.clone()).collect()
    };
    let one = texts(&cuts[..1]);
    assert!(one.iter().any(|text| text == "cut on the fold"), "{one:?}");
    assert!(one.iter().any(|text| text == "all pieces this way"), "{one:?}");
    assert!(one.iter().any(|text| text == "chest line: Finished chest 40 in"), "{one:?}");
    let both = texts(&cuts);
    assert!(both.iter().any(|text| text.ends_with("Finished chest 40 in to 44 in")), "{both:?}");
    // Of a cloth that lies either way nothing is said of it.
    let plain = BIB.replace("; nap one-way", "");
    let plain = compile(&fustian::source::MemoryLoader::new().with("bib.fus", plain), "bib.fus");
    let group = drawn(&plain, &cut_all(&plain)[..1], &Look::printing());
    assert!(words(&group).iter().all(|words| words.text != "all pieces this way"));
}

/// Two lines across the jacket's front, as where pages join: words stand on one side of them or the other.
#[test]
fn words_keep_off_where_pages_join() {
    let compiled = example("deck-smock.fus");
    let cuts = cut_all(&compiled);
    let plain = drawn(&compiled, &cuts, &Look::printing());
    let (bounds, middle) = (plain.bounds, plain.bounds.center());
    let upright = (Point::new(middle.x, bounds.y0), Point::new(middle.x, bounds.y1));
    let level = (Point::new(bounds.x0, middle.y), Point::new(bounds.x1, middle.y));
    let crossing = |group: &DrawnGroup| -> Vec<String> {
        let across = |words: &&&Words| {
            let corners = words.corners();
            let spans = |of: fn(&Point) -> f64, at: f64| {
                corners.iter().any(|one| of(one) < at) && corners.iter().any(|one| of(one) > at)
            };
            spans(|point| point.x, middle.x) || spans(|point| point.y, middle.y)
        };
        words(group)
            .iter()
            .filter(across)
            .filter(|words| !words.cleared)
            .map(|words| words.text.clone())
            .collect()
    };
    assert!(!crossing(&plain).is_empty(), "the label stands in the middle");
    let parted = drawn(&compiled, &cuts, &Look { joins: vec![upright, level], ..Look::printing() });
    assert_eq!(crossing(&parted), [""; 0]);
}

/// The page's width and height in points and its unit (ISO 32000-1, 14.11.2), and its operators.
fn page(bytes: &[u8]) -> ([f64; 2], f64, Content) {
    let document = Document::load_mem(bytes).unwrap();
    let pages = document.get_pages();
    assert_eq!(pages.len(), 1);
    let dictionary = document.get_dictionary(pages[&1]).unwrap();
    let media = dictionary.get(b"MediaBox").unwrap().as_array().unwrap();
    let [width, height] = [2, 3].map(|at| f64::from(media[at].as_float().unwrap()));
    let unit = dictionary.get(b"UserUnit").map_or(1.0, |unit| f64::from(unit.as_float().unwrap()));
    let content = Content::decode(&document.get_page_content(pages[&1])).unwrap();
    ([width, height], unit, content)
}

#[test]
fn a_wide_page_is_as_wide_as_the_roll() {
    let folder = folder_of(&[("bib.fus", BIB)]);
    let at = folder.path();
    let made = run(at, &["print", "bib.fus", "--wide", "36in", "--grid", "-o", "bib.pdf"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    let ([width, height], unit, content) = page(&std::fs::read(at.join("bib.pdf")).unwrap());
    // 36 in of 72 points.
    assert!((width - 2592.0).abs() < 0.01 && unit == 1.0, "{width} {unit}");
    // The first line drawn is the grid's: 1 in apart, in millimetres.
    let moves: Vec<f64> = content
        .operations
        .iter()
        .take_while(|operation| operation.operator != "S")
        .filter(|operation| operation.operator == "m")
        .map(|operation| f64::from(operation.operands[0].as_float().unwrap()))
        .collect();
    let (across, down) = (35 + usize::from(width > 2592.0), (height / 72.0).floor() as usize);
    assert!((moves[0] - 25.4).abs() < 1e-3 && (moves[1] - 50.8).abs() < 1e-3, "{moves:?}");
    assert!(moves.len() >= across + down, "{} lines for {across} and {down}", moves.len());
    // White on black: a black ground first, and no ink that is dark.
    let made = run(at, &["print", "bib.fus", "--wide", "36in", "--dark", "-o", "dark.pdf"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    let (.., content) = page(&std::fs::read(at.join("dark.pdf")).unwrap());
    let colour = |operator: &str| -> Vec<Vec<f64>> {
        let all = content.operations.iter().filter(|operation| operation.operator == operator);
        all.map(|one| one.operands.iter().map(|number| f64::from(number.as_float().unwrap())).collect())
            .collect()
    };
    assert_eq!(colour("g").first(), Some(&vec![0.0]));
    let strokes = colour("RG");
    assert!(!strokes.is_empty() && strokes.iter().flatten().all(|part| *part > 0.5), "{strokes:?}");
    for arguments in [
        &["print", "bib.fus", "--wide", "8in", "-o", "no.pdf"][..],
        &["print", "bib.fus", "--wide", "5in", "-o", "no.pdf"],
        &["print", "bib.fus", "--dark", "-o", "no.pdf"],
        &["print", "bib.fus", "--wide", "36in", "--paper", "a3", "-o", "no.pdf"],
    ] {
        let refused = run(at, arguments);
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}: {}", err(&refused));
        assert!(!at.join("no.pdf").exists());
    }
}

/// No page has more than 14 400 units a side (ISO 32000-1, annex C.2): 5.08 m of points.
#[test]
fn a_page_longer_than_a_file_can_say_has_larger_units() {
    let long = BIB.replace(", 20)", ", 240)").replace("(0, 12)", "(0, 120)").replace("width 45", "width 60");
    let folder = folder_of(&[("bib.fus", &long)]);
    let at = folder.path();
    let made = run(at, &["print", "bib.fus", "--wide", "36in", "-o", "bib.pdf"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    let ([width, height], unit, content) = page(&std::fs::read(at.join("bib.pdf")).unwrap());
    assert!(height <= 14_400.0 && unit == 2.0, "{height} {unit}");
    assert!((width * unit - 2592.0).abs() < 0.01);
    let scale = f64::from(content.operations[0].operands[0].as_float().unwrap());
    assert!((scale * unit - 72.0 / 25.4).abs() < 1e-4, "{scale}");
}

#[test]
fn a_drawing_has_words_that_can_be_marked() {
    let folder = folder_of(&[("bib.fus", BIB)]);
    let at = folder.path();
    for (arguments, is_text) in [
        (&["draw", "bib.fus", "--text", "-o", "bib.svg"][..], true),
        (&["draw", "bib.fus", "-o", "bib.svg"], false),
    ] {
        let made = run(at, arguments);
        assert_eq!(made.status.code(), Some(0), "{}", err(&made));
        let drawn = std::fs::read_to_string(at.join("bib.svg")).unwrap();
        assert_eq!(drawn.contains("<text"), is_text);
        assert_eq!(drawn.contains("<use"), !is_text);
        assert!(drawn.contains("Engine bib"), "{drawn}");
        // A garment in inches has a measure in inches.
        assert!(drawn.contains("4 in, true to scale") && !drawn.contains("10 cm, true to scale"));
    }
}
