//! What a plotter's file says of itself and is not so, what it draws in vain, and what stands in it once too often: told with
//! its line; beside each stands a sound drawing of which nothing is said.

use crate::brought::{brought, brought_with, draft, length};
use crate::reading_dxf::{block, drawing, insert, ring, square, words};
use fustian::bring::read::read;
use fustian::bring::{BringOptions, ReadOptions};

const METRIC: &str = "9 $INSUNITS|70 4|";

fn metric(entities: &str) -> String {
    drawing(METRIC, "", entities)
}

fn told(drawing: &str) -> Vec<String> {
    brought("bib.dxf", drawing).remarks
}

fn refused(drawing: &str) -> String {
    match brought_with("bib.dxf", drawing, &BringOptions::default()) {
        Err(why) => why.to_string(),
        Ok(brought) => panic!("it came in:\n{}", brought.text),
    }
}

/// Exactly one sentence is there, and it holds all of these words.
fn only(remarks: &[String], expected: &[&str]) {
    let [only] = remarks else { panic!("{remarks:#?} is not one sentence with {expected:?}") };
    for words in expected {
        assert!(only.contains(words), "{only}\nlacks\n{words}");
    }
}

/// Before the first thing drawn stand ten pairs: five of the header's section, three of the blocks', two that begin the entities'.
/// What begins in pair n is told by the pair's value, in line 2 n.
const HEAD: usize = 10;

#[test]
fn pieces_that_lie_apart_cost_nothing_when_those_over_one_another_are_looked_for() {
    let round = |x: f64, y: f64| -> String {
        let places = (0..60).map(|at| (f64::from(at) * 6.0_f64.to_radians()).sin_cos());
        let places: Vec<(f64, f64)> =
            places.map(|(sine, cosine)| (x + 100.0 * cosine, y + 100.0 * sine)).collect();
        ring("0", &places)
    };
    // 250 pieces of 60 corners are 31 125 pairs of 120 corners: 3.7 million, of which a million may be asked.
    let apart: String =
        (0..250).map(|at| round(f64::from(at % 20) * 400.0, f64::from(at / 20) * 400.0)).collect();
    let over = |drawing: &str| -> Vec<String> {
        let traced = read(drawing.as_bytes(), "bib.dxf", &ReadOptions::default()).unwrap();
        traced.remarks.into_iter().filter(|one| one.contains("lie over one another")).collect()
    };
    assert!(over(&metric(&apart)).is_empty());
    // Of two rounds 200 mm wide whose middles lie 150 mm apart 50 mm lie over one another.
    let two = apart + &round(0.0, 9000.0) + &round(150.0, 9000.0);
    only(&over(&metric(&two)), &["50 mm across and 200 mm up"]);
}

#[test]
fn a_line_that_has_other_points_than_it_says_is_told() {
    let light =
        |says: usize, vertices: &str| metric(&format!("0 LWPOLYLINE|8 BIB|90 {says}|70 1|{vertices}"));
    let four = "10 0|20 0|10 300|20 0|10 300|20 400|10 0|20 400|";
    assert!(told(&light(4, four)).is_empty());
    // The pair behind the entity's and its layer's: 13 pairs are 26 lines.
    let line = 2 * (HEAD + 3);
    let why = refused(&light(5, four));
    let words = format!(
        "bib.dxf:{line}: this LWPOLYLINE says that it has 5 vertices, and 4 stand there (group code 10)"
    );
    assert!(
        why.contains(&words) && why.contains("a part of it is lost") && why.contains("write 4 here"),
        "{why}"
    );
    let why = refused(&light(3, four));
    assert!(
        why.contains("says that it has 3 vertices, and 4 stand there") && why.contains("stands there twice"),
        "{why}"
    );
    // A spline: 8 knots, 4 control points. Its closing line makes it an outline.
    let spline = |controls: usize, points: &str| {
        metric(&format!(
            "0 SPLINE|8 A|70 8|71 3|72 8|73 {controls}|74 0|40 0|40 0|40 0|40 0|40 1|40 1|40 1|40 1|{points}\
             0 LINE|8 A|10 90|20 0|11 0|21 0|"
        ))
    };
    let points = "10 0|20 0|10 30|20 60|10 60|20 60|10 90|20 0|";
    assert!(told(&spline(4, points)).is_empty(), "{:?}", told(&spline(4, points)));
    let why = refused(&spline(5, points));
    assert!(why.contains("this SPLINE says that it has 5 control points, and 4 stand there"), "{why}");
}

#[test]
fn what_draws_nothing_is_told_with_its_line() {
    let bib = square("BIB", 0.0, 0.0, 300.0);
    let sound = "0 SPLINE|8 BIB|70 8|71 3|74 2|11 20|21 20|11 90|21 30|";
    assert!(told(&metric(&(bib.clone() + sound))).is_empty());
    // A closed line through four corners is 6 + 4 × 4 + 2 pairs.
    let line = 2 * (HEAD + 24 + 1);
    for (drawn, expected) in [
        (
            "0 SPLINE|8 BIB|70 8|71 3|72 0|73 0|74 0|",
            "a SPLINE has neither control points (group code 10) nor points",
        ),
        ("0 CIRCLE|8 BIB|10 9|20 9|40 0|", "has no radius"),
        ("0 LWPOLYLINE|8 BIB|90 0|70 1|", "a POLYLINE has no vertices"),
        ("0 LINE|8 BIB|10 9|20 9|11 9|21 9|", "a LINE ends where it begins"),
    ] {
        let remarks = told(&metric(&(bib.clone() + drawn)));
        only(&remarks, &[&format!("in line {line} of bib.dxf "), expected, "it draws nothing"]);
    }
    // A block of its own that is put down at scale 0, beside one that is put down as it is.
    let blocks = block("BIB", &square("1", 0.0, 0.0, 300.0)) + &block("TAB", &square("1", 0.0, 0.0, 60.0));
    let put = |scale: &str| drawing(METRIC, &blocks, &(insert("BIB") + &insert("TAB") + scale));
    let sound = brought("bib.dxf", &put("41 1|42 1|"));
    assert!(sound.remarks.is_empty() && sound.text.contains("piece tab"), "{:?}", sound.remarks);
    // A block is seven pairs round its outline's 24; an INSERT is five: 5 of the header, 3 + 2 × 31 of blocks, 2 + 5 of entities.
    let line = 2 * (5 + 3 + 2 * 31 + 2 + 5 + 1);
    let remarks = told(&put("41 0|42 0|"));
    only(
        &remarks,
        &[
            &format!("in line {line} of bib.dxf the block “TAB” is put down at scale 0"),
            "1 puts it down as it is drawn",
        ],
    );
    only(&told(&put("41 0|")), &["at scale 0 across, without any width (group code 41)"]);
    // Where it is all that there is the mistake says so.
    let alone = drawing(METRIC, &blocks, &(insert("TAB") + "41 0|42 0|"));
    let why = refused(&alone);
    assert!(
        why.contains("there is no line in it") && why.contains("the block “TAB” is put down at scale 0"),
        "{why}"
    );
}

#[test]
fn a_test_square_says_the_scale_and_is_no_piece() {
    let test = |side: f64, said: &str| {
        square("0", 500.0, 0.0, side) + &words("0", 500.0 + side / 4.0, side / 2.0, said)
    };
    let bib = square("0", 0.0, 0.0, 300.0) + &words("0", 20.0, 150.0, "Bib");
    let long = |text: &str| length(&draft(text), 0, "bib", "e1");
    let sound = brought("bib.dxf", &metric(&(bib.clone() + &test(100.0, "10 cm"))));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    assert!(
        sound.text.matches("\npiece ").count() == 1 && (long(&sound.text) - 300.0).abs() < 0.02,
        "{}",
        sound.text
    );
    // Drawn 50 wide all is twice as large.
    let half = brought("bib.dxf", &metric(&(bib.clone() + &test(50.0, "test square 10 cm"))));
    only(
        &half.remarks,
        &["the square of 100.0 mm is drawn 50.0 mm wide: everything is brought to its scale, 2.000 times"],
    );
    assert!((long(&half.text) - 600.0).abs() < 0.02, "{}", half.text);
    // Four lines are a square too, and where nothing says a unit it does: 4 units are 4 in, and 12 of the bib 304.8 mm.
    let lines: String = [(20, 0, 24, 0), (24, 0, 24, 4), (24, 4, 20, 4), (20, 4, 20, 0)]
        .map(|(x, y, to_x, to_y)| format!("0 LINE|8 0|10 {x}|20 {y}|11 {to_x}|21 {to_y}|"))
        .concat();
    let inches = square("0", 0.0, 0.0, 12.0) + &words("0", 2.0, 6.0, "Bib").replace("40 6|", "40 0.3|");
    let unsaid = drawing("", "", &(inches + &lines + &words("0", 21.0, 2.0, "4 inches")));
    let unsaid = brought("bib.dxf", &unsaid);
    only(&unsaid.remarks, &["the square of 101.6 mm is drawn 4.0 mm wide"]);
    assert!((long(&unsaid.text) - 304.8).abs() < 0.02 && unsaid.text.contains("units in"), "{}", unsaid.text);
    // A block that is called after what it is.
    let blocks = block("BIB", &square("1", 0.0, 0.0, 300.0))
        + &block("TEST SQUARE 10 CM", &square("1", 0.0, 0.0, 50.0));
    let of_blocks =
        brought("bib.dxf", &drawing(METRIC, &blocks, &(insert("BIB") + &insert("TEST SQUARE 10 CM"))));
    assert_eq!(of_blocks.text.matches("\npiece ").count(), 1, "{}", of_blocks.text);
    assert!((long(&of_blocks.text) - 600.0).abs() < 0.02, "{}", of_blocks.text);
    // A square with words of its own is a piece, and the maker's own scale counts more.
    let pocket = brought("bib.dxf", &metric(&(bib.clone() + &test(100.0, "Pocket 10 cm deep"))));
    assert_eq!(pocket.text.matches("\npiece ").count(), 2, "{}", pocket.text);
    let options = BringOptions {
        read: ReadOptions { scale: Some(1.0), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    let scaled = brought_with("bib.dxf", &metric(&(bib.clone() + &test(50.0, "10 cm"))), &options).unwrap();
    assert!((long(&scaled.text) - 300.0).abs() < 0.02, "{}", scaled.text);
    only(&scaled.remarks, &["says “10 cm” and is 50.0 mm wide by the `scale` that was said"]);
    // Squares that contradict one another are told.
    let second = square("0", 900.0, 0.0, 100.0) + &words("0", 920.0, 50.0, "4 in");
    let why = refused(&metric(&(bib + &test(100.0, "10 cm") + &second)));
    assert!(why.contains("two test squares say two scales"), "{why}");
}

#[test]
fn a_piece_in_a_piece_is_told_with_its_name_its_size_and_its_place() {
    let bib = square("BIB", 0.0, 0.0, 300.0) + &words("BIB", 20.0, 250.0, "Bib");
    let inner = [(60.0, 40.0), (150.0, 40.0), (150.0, 110.0), (60.0, 110.0)];
    let pocket =
        ring("POCKET", &inner) + &words("POCKET", 70.0, 60.0, "Pocket, cut 2").replace("40 6|", "40 4|");
    // Behind ten pairs, the bib's 24 and six of words.
    let line = 2 * (HEAD + 24 + 6 + 1);
    let remarks = told(&metric(&(bib.clone() + &pocket)));
    let expected = format!(
        "Pocket, a closed line on layer POCKET (line {line} of bib.dxf), 90 mm wide and 70 mm high, lies inside Bib, 60 mm from its \
         left and 40 mm from its lower end"
    );
    only(&remarks, &[&expected, "a piece has to lie beside"]);
    // Beside it is a piece.
    let beside = inner.map(|(x, y)| (x + 400.0, y));
    assert!(told(&metric(&(bib + &ring("POCKET", &beside)))).is_empty());
    // On layer 1 of a block both are named by their lines: five pairs of the header, two that begin the blocks, six of the block's own.
    let blocks = block("BIB", &(square("1", 0.0, 0.0, 300.0) + &ring("1", &inner)));
    let (first, second) = (2 * (5 + 2 + 6 + 1), 2 * (5 + 2 + 6 + 24 + 1));
    let why = refused(&drawing(METRIC, &blocks, &insert("BIB")));
    let words =
        format!("(line {first}, 300 mm wide and 300 mm high; line {second}, 90 mm wide and 70 mm high)");
    assert!(why.contains("block BIB holds 2 closed lines on layer 1") && why.contains(&words), "{why}");
}

#[test]
fn two_sizes_on_one_layer_or_in_one_block_are_told() {
    let bib = |layer: &str, x: f64, side: f64| {
        square(layer, x, 0.0, side) + &words(layer, x + 90.0, 90.0, "Bib cut 1")
    };
    let sound = metric(&(bib("S", 0.0, 300.0) + &bib("M", 0.0, 320.0)));
    assert!(told(&sound).is_empty());
    // The next size in it: 320² are 102 400 of 340², 115 600 mm².
    let nested = metric(&(bib("S", 0.0, 300.0) + &bib("M", 0.0, 340.0) + &square("M", 0.0, 0.0, 320.0)));
    let told_of = told(&nested);
    assert!(
        told_of.iter().any(|one| one.contains("320 mm wide and 320 mm high, lies inside Bib in M")
            && one.contains("another size on a layer or in a block of its own")),
        "{told_of:?}"
    );
    // As a line it is one that S lacks.
    assert!(
        told_of.iter().any(|one| one.contains("a line is drawn in M and not in S: it is left out")),
        "{told_of:?}"
    );
    // In a block, beside one another: five pairs of the header, two that begin the blocks, six of the block's own.
    let two = block("BIB-M", &(square("1", 0.0, 0.0, 320.0) + &square("1", 400.0, 0.0, 340.0)));
    let (first, second) = (2 * (5 + 2 + 6 + 1), 2 * (5 + 2 + 6 + 24 + 1));
    let remarks = told(&drawing(METRIC, &two, &insert("BIB-M")));
    let expected = format!(
        "block BIB-M of bib.dxf draws more than one outline in one size (M): in line {first}, 320 mm wide and 320 mm high, and in line \
         {second}, 340 mm wide and 340 mm high"
    );
    assert!(remarks.iter().any(|one| one.contains(&expected)), "{remarks:?}");
}

/// A bib of three sizes after ASTM D6673, its sew line so far inside, its fold along its left edge; `other` changes block BIB-M.
fn bib_in_blocks(other: &dyn Fn(String) -> String) -> String {
    let sizes = [("S", 300.0), ("M", 320.0), ("L", 340.0)];
    let blocks: String = sizes
        .map(|(size, side)| {
            let own = square("1", 0.0, 0.0, side)
                + &square("14", 15.0, 15.0, side - 30.0)
                + &words("1", 100.0, 100.0, "Piece Name: Bib")
                + &words("1", 100.0, 90.0, &format!("Size: {size}"));
            block(&format!("BIB-{size}"), &if size == "M" { other(own) } else { own })
        })
        .concat();
    drawing(METRIC, &blocks, &["BIB-S", "BIB-M", "BIB-L"].map(insert).concat())
}

#[test]
fn an_allowance_that_differs_in_one_size_is_told() {
    let sound = brought("bib.dxf", &bib_in_blocks(&|own| own));
    assert!(
        sound.remarks.is_empty() && sound.text.contains("allowance 1.5"),
        "{:?}\n{}",
        sound.remarks,
        sound.text
    );
    // 310 of 320 wide and high: 5 mm inside all round.
    let narrow = brought(
        "bib.dxf",
        &bib_in_blocks(&|own| own.replace(&square("14", 15.0, 15.0, 290.0), &square("14", 5.0, 5.0, 310.0))),
    );
    let expected = "its allowance is not the same in every size: all round it is 15 mm wide in S and L, and 5 mm wide in M";
    let of_allowance: Vec<&String> = narrow.remarks.iter().filter(|one| one.contains("allowance")).collect();
    assert!(of_allowance.len() == 1 && of_allowance[0].contains(expected), "{:?}", narrow.remarks);
    assert!(narrow.text.contains("allowance 1.5"), "{}", narrow.text);
    // One edge alone: the lower one lies 40 mm inside, as a hem does.
    let hem = [(15.0, 40.0), (305.0, 40.0), (305.0, 305.0), (15.0, 305.0)];
    let hemmed =
        told(&bib_in_blocks(&|own| own.replace(&square("14", 15.0, 15.0, 290.0), &ring("14", &hem))));
    let expected = "at e1 it is 15 mm wide in S and L, and 40 mm wide in M";
    assert!(hemmed.iter().any(|one| one.contains(expected)), "{hemmed:?}");
}

#[test]
fn a_fold_on_another_edge_in_one_size_is_told() {
    let line = |from: (f64, f64), to: (f64, f64)| {
        format!("0 LINE|8 6|10 {}|20 {}|11 {}|21 {}|", from.0, from.1, to.0, to.1)
    };
    let drawn = |of_medium: Option<String>| {
        let blocks: String = [("S", 300.0), ("M", 320.0), ("L", 340.0)]
            .map(|(size, side)| {
                let left = line((0.0, 0.0), (0.0, side));
                let fold = if size == "M" { of_medium.clone().unwrap_or(left) } else { left };
                block(&format!("BIB-{size}"), &(square("1", 0.0, 0.0, side) + &fold))
            })
            .concat();
        drawing(METRIC, &blocks, &["BIB-S", "BIB-M", "BIB-L"].map(insert).concat())
    };
    let sound = brought("bib.dxf", &drawn(None));
    assert!(sound.remarks.is_empty() && sound.text.contains("fold"), "{:?}", sound.remarks);
    // Edges go round from the lower left corner: the lower one, the right one, the upper one, the left one.
    only(
        &told(&drawn(Some(line((0.0, 320.0), (320.0, 320.0))))),
        &[
            "a fold is drawn, and e4 lies along it in S and L, and e3 lies along it in M: is it drawn wrong in one of them?",
        ],
    );
    only(&told(&drawn(Some(line((90.0, 0.0), (90.0, 320.0))))), &["and no edge lies along it in M"]);
    only(&told(&drawn(Some(String::new()))), &["e4 lies along it in S and L, and none is drawn in M"]);
}

#[test]
fn what_is_written_once_names_a_piece_on_the_layers_of_all_sizes() {
    let drawn = |words_of: &dyn Fn(&str) -> String, layers: [&str; 3]| {
        let sizes = layers.iter().zip([300.0, 320.0, 340.0]);
        let all: String = sizes
            .map(|(layer, side)| {
                let pocket = square(layer, 100.0, 90.0, 80.0);
                square(layer, 0.0, 0.0, side)
                    + &words_of(layer)
                    + &pocket
                    + &square(layer, 500.0, 0.0, side / 5.0)
            })
            .collect();
        brought("bib.dxf", &metric(&all))
    };
    let once = |layer: &str| if layer == "S" { words("S", 20.0, 20.0, "Bib cut 1") } else { String::new() };
    let ending = |layer: &str| words(layer, 20.0, 20.0, &format!("Bib {layer}"));
    for named in [&once as &dyn Fn(&str) -> String, &ending] {
        let own = drawn(named, ["S", "M", "L"]);
        assert!(own.text.contains("piece bib") && own.text.contains("piece piece_2"), "{}", own.text);
        assert_eq!(own.text.matches("\npiece ").count(), 2, "{}", own.text);
        // The pocket's place is told once for all sizes, and nothing of layers: it is drawn on each of them.
        only(
            &own.remarks,
            &[
                "lies inside Bib in S, 100 mm from its left and 90 mm",
                "a piece has to lie beside; so it is in M and L",
            ],
        );
        let garment = draft(&own.text);
        for (size, side) in [300.0, 320.0, 340.0].into_iter().enumerate() {
            assert!((length(&garment, size, "bib", "e1") - side).abs() < 0.02, "{}", own.text);
            assert!((length(&garment, size, "piece_2", "e1") - side / 5.0).abs() < 0.02, "{}", own.text);
        }
    }
}

#[test]
fn a_piece_that_is_cut_otherwise_in_one_size_is_told() {
    let drawn = |size: &str, count: u8, cloth: &str| {
        let blocks: String = [("S", 300.0, "S", 2, "sailcloth"), ("M", 320.0, size, count, cloth)]
            .map(|(name, side, size, count, cloth)| {
                let own = words("1", 20.0, 20.0, &format!("Quantity: {count}"))
                    + &words("1", 20.0, 40.0, &format!("Material: {cloth}"))
                    + &words("1", 20.0, 60.0, "Piece Name: Cuff")
                    + &words("1", 20.0, 80.0, &format!("Size: {size}"));
                block(&format!("CUFF-{name}"), &(square("1", 0.0, 0.0, side) + &own))
            })
            .concat();
        told(&drawing(METRIC, &blocks, &["CUFF-S", "CUFF-M"].map(insert).concat()))
    };
    assert!(drawn("M", 2, "Sailcloth").is_empty(), "{:?}", drawn("M", 2, "Sailcloth"));
    only(&drawn("M", 1, "sailcloth"), &["cuff is cut 2 in S, and 1 in M: each size is written so"]);
    only(
        &drawn("M", 2, "oilskin"),
        &["Cuff is cut of sailcloth in S and of oilskin in M: the first was taken"],
    );
    let alike = drawn("s", 2, "sailcloth");
    assert!(alike.iter().any(|one| one.contains("the sizes S and s differ in capitals alone")), "{alike:?}");
}

#[test]
fn of_much_that_is_told_the_first_twenty_and_a_count_are() {
    let bib = square("BIB", 0.0, 0.0, 900.0);
    let holes: String = (0..30)
        .map(|at| square("POCKET", f64::from(at % 6) * 100.0 + 9.0, f64::from(at / 6) * 100.0 + 9.0, 60.0))
        .collect();
    let nested = told(&metric(&(bib.clone() + &holes)));
    assert_eq!(nested.iter().filter(|one| one.contains("lies inside")).count(), 20, "{nested:?}");
    assert!(
        nested.iter().any(|one| one.starts_with("10 more closed lines of bib.dxf lie inside pieces")),
        "{nested:?}"
    );
    let missing: String = (0..1000).map(|at| insert(&format!("NOWHERE {at}"))).collect();
    let missing = told(&metric(&(bib + &missing)));
    assert_eq!(missing.len(), 21, "{missing:?}");
    assert!(missing[20].starts_with("980 more blocks are put down"), "{missing:?}");
}

/// A bib of 300 that is cut 10 outside of that: with its layers exchanged it would be sewn 10 outside of where it is cut.
#[test]
fn a_sew_line_outside_its_cutting_line_is_told() {
    let bib = |cut: &str, sewn: &str| {
        let lines = square(cut, 0.0, 0.0, 320.0) + &square(sewn, 10.0, 10.0, 300.0);
        drawing(METRIC, &block("BIB", &lines), &insert("BIB"))
    };
    let sound = brought("bib.dxf", &bib("1", "14"));
    assert!(
        sound.remarks.is_empty() && sound.text.contains("outlines are the drawing's sew lines"),
        "{sound:?}"
    );
    let why = refused(&bib("14", "1"));
    assert!(
        why.contains("the sew line of bib lies outside the line that it is cut at: are the two exchanged?"),
        "{why}"
    );
}
