//! What is drawn and yet hardly meant is told where it stands, with the piece, the size and the amount; beside each stands
//! a sound drawing of which nothing is said.

use crate::brought::{brought, brought_with, compiled, draft, in_mm, length};
use crate::reading_dxf::{drawing, ring, square, words};
use fustian::bring::{BringOptions, ReadOptions};

/// What is said of a drawing that comes in.
pub fn told(name: &str, drawing: &str) -> Vec<String> {
    brought(name, drawing).remarks
}

/// What is said of one that does not.
pub fn refused(name: &str, drawing: &str) -> String {
    match brought_with(name, drawing, &BringOptions::default()) {
        Err(why) => why.to_string(),
        Ok(brought) => panic!("it came in:\n{}", brought.text),
    }
}

/// Exactly one of the sentences holds all of these words, and no other is there.
pub fn only(remarks: &[String], expected: &[&str]) {
    let [only] = remarks else { panic!("{remarks:#?} is not one sentence with {expected:?}") };
    for words in expected {
        assert!(only.contains(words), "{only}\nlacks\n{words}");
    }
}

const INCHES: &str = "9 $INSUNITS|70 1|9 $MEASUREMENT|70 0|";

/// One gore of a watch cap in inches: 3.75 wide at its foot, 6.5 high, its sides quarters of ellipses, as a plain drawing.
fn gore(scale: f64) -> String {
    bulging(scale, 0.0)
}

/// The same, so much wider below its middle and narrower above, as a share.
fn bulging(scale: f64, more: f64) -> String {
    let side = |at: i32| (f64::from(at) / 12.0 * std::f64::consts::FRAC_PI_2).sin_cos();
    // Of an angle's four times the sine.
    let wave = |sine: f64, cosine: f64| 4.0 * sine * cosine * (cosine * cosine - sine * sine);
    let right: Vec<(f64, f64)> = (0..=12)
        .map(side)
        .map(|(sine, cosine)| (1.875 * cosine * (1.0 + more * wave(sine, cosine)), 6.5 * sine))
        .collect();
    let left = right.iter().rev().skip(1).map(|(x, y)| (-x, *y));
    let round: Vec<(f64, f64)> = right.iter().copied().chain(left).collect();
    // As figures in a file are rounded.
    let figure = |at: f64| (at * scale * 10_000.0).round() / 10_000.0;
    let round: Vec<(f64, f64)> = round.into_iter().map(|(x, y)| (figure(x), figure(y))).collect();
    let word =
        words("0", -scale, 2.0 * scale, "gore, cut 6").replace("40 6|", &format!("40 {}|", 0.25 * scale));
    ring("0", &round) + &word
}

#[test]
fn a_cap_in_inches_is_told_from_one_in_millimetres() {
    let sound = brought("cap.dxf", &drawing(INCHES, "", &gore(1.0)));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    // Its words say the name and the count.
    assert!(sound.text.contains("piece gore \"gore\" {\n  cut 6\n"), "{}", sound.text);
    // 6.5 units are 6.5 mm, and in inches 165.1.
    let why = refused("cap.dxf", &drawing("", "", &gore(1.0)));
    for expected in [
        "at most 6.5 mm long",
        "1 mm, since nothing says a unit",
        "in inches it would be 16.5 cm (`scale` 1in=1)",
    ] {
        assert!(why.contains(expected), "{why}\nlacks {expected}");
    }
    let wrong = refused("cap.dxf", &drawing("9 $INSUNITS|70 4|", "", &gore(1.0)));
    assert!(wrong.contains("at most 6.5 mm long") && wrong.contains("1 mm, as its header says"), "{wrong}");
    // Ten times too large: 3.75 in are 95 cm then, which the narrower side of some piece never is, and 65 in 165.
    let large = told("cap.dxf", &drawing(INCHES, "", &gore(10.0)));
    only(&large, &["no piece is narrower than 95 cm, and gore is 165 cm long", "1 inch, as its header says"]);
    // Letters of 2 in are 50.8 mm high.
    let high = gore(1.0).replace("|40 0.25|", "|40 2|");
    only(&told("cap.dxf", &drawing(INCHES, "", &high)), &["its smallest letters are 50.8 mm high"]);
    // Ten times too small: 16.51 mm.
    let small = told("cap.dxf", &drawing(INCHES, "", &gore(0.1)));
    assert!(small.iter().any(|words| words.contains("no piece is longer than 16.5 mm")), "{small:?}");
}

#[test]
fn pieces_that_no_cloth_is_wide_enough_for_are_told() {
    let piece = |side: f64| drawing(INCHES, "", &square("BIB", 0.0, 0.0, side));
    // 40 in are 101.6 cm; 30 in are 76.2.
    only(&told("bib.dxf", &piece(40.0)), &["no piece is narrower than 102 cm", "1 inch, as its header says"]);
    assert!(told("bib.dxf", &piece(30.0)).is_empty());
}

#[test]
fn the_sides_of_a_gore_are_parted_alike_and_offered_to_each_other() {
    // One cubic follows a quarter of an ellipse to 0.03 % of its radius, 0.05 mm of 165.
    let whole = brought("cap.dxf", &drawing(INCHES, "", &gore(1.0))).text;
    assert!(whole.contains("gore.e2 to gore.e3") && !whole.contains("e2_1"), "{whole}");
    let text = brought("cap.dxf", &drawing(INCHES, "", &bulging(1.0, 0.06))).text;
    let garment = draft(&text);
    let names = |run: &str| -> Vec<String> {
        (1..9)
            .map(|at| format!("{run}_{at}"))
            .filter(|name| text.lines().any(|line| line.trim_start().starts_with(&format!("{name} "))))
            .collect()
    };
    let (right, left) = (names("e2"), names("e3"));
    assert!(right.len() > 1 && right.len() == left.len(), "{text}");
    for (one, other) in right.iter().zip(left.iter().rev()) {
        let (one, other) = (length(&garment, 0, "gore", one), length(&garment, 0, "gore", other));
        // The text is rounded to 0.0001 in.
        assert!((one - other).abs() < 0.02, "{one} is not {other}\n{text}");
    }
    let offered = text.lines().find(|line| line.starts_with("# seam")).unwrap_or_else(|| panic!("{text}"));
    assert!(offered.contains("gore.e2_1") && offered.contains("to gore.e3_1"), "{offered}");
    let sewn = compiled(&text.replace("# seam", "seam"));
    let wrong: Vec<&str> = sewn
        .diagnostics
        .iter()
        .map(|one| one.slug())
        .filter(|slug| slug.starts_with("seam/") || *slug == "name/unknown")
        .collect();
    assert!(wrong.is_empty(), "{wrong:?}\n{text}");
    // Of a piece that is cut once there is no next one.
    let once = brought("cap.dxf", &drawing(INCHES, "", &gore(1.0).replace("cut 6", "cut 1"))).text;
    assert!(!once.contains("# seam"), "{once}");
    // Nor are neighbouring sides of a square pocket sewn to each other.
    let pocket = drawing(INCHES, "", &(square("0", 0.0, 0.0, 6.0) + &words("0", 1.0, 1.0, "pocket, cut 2")));
    let pocket = brought("pocket.dxf", &pocket).text;
    assert!(pocket.contains("cut 2") && !pocket.contains("e1 to pocket.e2"), "{pocket}");
}

#[test]
fn units_that_contradict_each_other_are_told() {
    let bib = square("BIB", 0.0, 0.0, 300.0);
    let english = drawing("9 $INSUNITS|70 4|9 $MEASUREMENT|70 0|", "", &bib);
    only(&told("bib.dxf", &english), &["a unit is 1 mm", "set up for English measures ($MEASUREMENT)"]);
    let metric = drawing("9 $INSUNITS|70 4|9 $MEASUREMENT|70 1|", "", &bib);
    assert!(told("bib.dxf", &metric).is_empty());
    let by_text = bib + &words("BIB", 9.0, -9.0, "Units: METRIC");
    only(
        &told("bib.dxf", &drawing("9 $MEASUREMENT|70 0|", "", &by_text)),
        &["Its text says", "English measures"],
    );
    // What a table is measured in is said, or it is told what was taken.
    let table = |first: &str| format!("{first}\nbib,0,0\nbib,300,0\nbib,300,200\nbib,0,200\n");
    only(
        &told("bib.csv", &table("piece,x,y")),
        &["bib.csv are read as millimetres, since nothing says a unit"],
    );
    assert!(told("bib.csv", &table("piece,x mm,y mm")).is_empty());
    let options = BringOptions {
        read: ReadOptions { scale: Some(1.0), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    assert!(brought_with("bib.csv", &table("piece,x,y"), &options).unwrap().remarks.is_empty());
}

#[test]
fn pieces_in_pieces_and_drawn_twice_are_told() {
    let bib = square("BIB", 0.0, 0.0, 300.0);
    let metric = |entities: &str| drawing("9 $INSUNITS|70 4|", "", entities);
    assert!(told("bib.dxf", &metric(&bib)).is_empty());
    let inside = brought("bib.dxf", &metric(&(bib.clone() + &square("POCKET", 60.0, 60.0, 90.0))));
    only(&inside.remarks, &["on layer POCKET (line ", "lies inside", "a piece has to lie beside"]);
    let twice = brought("bib.dxf", &metric(&(bib.clone() + &bib)));
    only(&twice.remarks, &["is drawn twice, in line ", " of bib.dxf; it is taken once"]);
    assert!(!twice.text.contains("  line "), "{}", twice.text);
    let block = crate::reading_dxf::block("BIB", &(square("1", 0.0, 0.0, 300.0).repeat(2)));
    let twice = drawing("9 $INSUNITS|70 4|", &block, &crate::reading_dxf::insert("BIB"));
    only(&told("bib.dxf", &twice), &["the outline of BIB is drawn twice in block BIB of bib.dxf"]);
    // Beside one another they are two pieces, and nothing is said.
    assert!(told("bib.dxf", &metric(&(bib.clone() + &square("POCKET", 400.0, 0.0, 90.0)))).is_empty());
    // Partly over one another: 300 less 250 are 50.
    let over = metric(&(bib.clone() + &square("POCKET", 250.0, 60.0, 90.0)));
    only(&told("bib.dxf", &over), &["lie over one another, 50 mm across and 90 mm up"]);
}

#[test]
fn a_point_ten_times_too_far_is_told() {
    let panel = |tip: f64| {
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (tip, 200.0), (50.0, 220.0), (0.0, 200.0)];
        drawing("9 $INSUNITS|70 4|", "", &ring("PANEL", &corners))
    };
    assert!(told("panel.dxf", &panel(100.0)).is_empty());
    only(
        &told("panel.dxf", &panel(1000.0)),
        &["line ", "1000 mm from its left and 200 mm from its lower end", "ten times too large perhaps?"],
    );
    // A gusset's tip is far from all its other points, and is right.
    let gusset = [(0.0, 0.0), (20.0, 2.0), (40.0, 3.0), (60.0, 2.0), (80.0, 0.0), (40.0, 400.0)];
    assert!(told("gusset.dxf", &drawing("9 $INSUNITS|70 4|", "", &ring("GUSSET", &gusset))).is_empty());
}

/// A bib in three sizes, each 15 mm wider on both sides and 20 mm longer than the one before, with a rivet, a notch and a grain line
/// that go along; `other` puts others into M.
fn bib(other: &[(&str, &str)]) -> String {
    let sizes: String = ["S", "M", "L"]
        .iter()
        .enumerate()
        .map(|(at, size)| {
            let (wide, long) = (200 + 15 * at, 500 + 20 * at);
            let (left, right) = (500 - wide, 500 + wide);
            let own = format!(
                "<g id='{size}'><path id='bib' d='M{left} 100 H{right} V{} H{left} Z'/>\n\
                 <path d='M{right} 300 h-6'/>\n<circle id='rivet' cx='500' cy='130' r='3'/>\n\
                 <path id='grain' d='M450 500 V200'/></g>\n",
                100 + long
            );
            match *size {
                "M" => other.iter().fold(own, |own, (from, to)| {
                    assert!(own.contains(from), "{from} is not in\n{own}");
                    own.replace(from, to)
                }),
                _ => own,
            }
        })
        .collect();
    in_mm(&sizes)
}

#[test]
fn what_lies_elsewhere_in_one_size_is_told() {
    assert!(told("bib.svg", &bib(&[])).is_empty(), "{:?}", told("bib.svg", &bib(&[])));
    // By hand: from 130 to 430 are 300 mm down; a notch from 300 to 480 lies 180 lower, and 15 to the right with its edge.
    let rivet = told("bib.svg", &bib(&[("cy='130'", "cy='430'")]));
    only(
        &rivet,
        &[
            "bib (bib, of the layers or names of bib.svg): rivet lies elsewhere in M than in ",
            "by 300 mm down",
        ],
    );
    let notch = told("bib.svg", &bib(&[("M715 300", "M715 480")]));
    only(&notch, &["the notch on e2 lies elsewhere in M than in ", "180 mm down"]);
    let grain = told("bib.svg", &bib(&[("M450 500 V200", "M350 500 H650")]));
    only(&grain, &["the grain line of M lies 90° turned from that of "]);
    // What moves as far as the edge does is graded.
    assert!(told("bib.svg", &bib(&[("cy='130'", "cy='140'")])).is_empty());
}

/// Half a bib on the fold, its side an arc, in three sizes.
#[test]
fn a_curve_or_a_fold_that_lies_otherwise_in_one_size_is_told() {
    let half = |sweep: u8, fold: usize| {
        let sizes: String = ["S", "M", "L"]
            .iter()
            .enumerate()
            .map(|(at, size)| {
                let (wide, long) = (200 + 5 * at, 400 + 10 * at);
                let (sweep, fold) = if *size == "M" { (sweep, fold) } else { (1, 0) };
                format!(
                    "<g id='{size}'><path id='bib' d='M0 0 H{wide} A500 500 0 0 {sweep} {wide} {long} H0 Z'/>\
                     <path id='fold' d='M0 0 L{fold} {long}'/></g>"
                )
            })
            .collect();
        in_mm(&sizes)
    };
    assert!(told("bib.svg", &half(1, 0)).is_empty(), "{:?}", told("bib.svg", &half(1, 0)));
    // The arc of radius 500 over a chord of 410 rises 500 - √(500² - 205²) = 44 mm.
    let turned = told("bib.svg", &half(0, 0));
    let words = "curve bends into the piece in M, and out of it in S and L";
    assert!(turned.iter().any(|one| one.contains(words)), "{turned:?}");
    let off = told("bib.svg", &half(1, 60));
    assert!(
        off.iter().any(|words| words.contains("and no edge lies along it in M: is it drawn wrong")),
        "{off:?}"
    );
}

#[test]
fn notches_that_one_size_lacks_are_counted() {
    let lacks = told("bib.svg", &bib(&[("<path d='M715 300 h-6'/>", "")]));
    only(&lacks, &["bib: e2 has not equally many notches in every size (1 in S and L; none in M)"]);
}

#[test]
fn one_wrong_piece_does_not_put_the_sizes_in_another_order() {
    let table = |cuff_of_bosun: usize| {
        let mut rows = "piece,size,x mm,y mm\n".to_owned();
        for (size, wide) in [("deckhand", 200), ("bosun", 220), ("mate", 240)] {
            let cuff = if size == "bosun" { cuff_of_bosun } else { wide };
            for (piece, wide) in [("mitten", wide), ("cuff", cuff), ("strap", wide)] {
                for (x, y) in [(0, 0), (wide, 0), (wide, 150), (0, 150)] {
                    rows += &format!("{piece},{size},{x},{y}\n");
                }
            }
        }
        rows
    };
    let sound = brought("kit.csv", &table(220));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    // A cuff of 24 where 240 is meant: a tenth of the width, and 88 % less than 200.
    let wrong = brought("kit.csv", &table(24));
    assert!(wrong.text.contains("sizes deckhand, bosun, mate"), "{}", wrong.text);
    let cuff: Vec<&String> = wrong.remarks.iter().filter(|words| words.contains("mixed up")).collect();
    let [cuff] = cuff.as_slice() else { panic!("{:?}", wrong.remarks) };
    assert!(
        cuff.starts_with(
            "cuff (cuff of kit.csv): the outline of size bosun is 88 % smaller than that of size deckhand"
        ),
        "{cuff}"
    );
}

#[test]
fn two_pieces_of_one_name_are_both_placed() {
    let two = in_mm(
        "<rect id='bib-S' width='300' height='200'/>\n<rect id='bib-M' width='310' height='210' y='300'/>\n\
         <rect id='bib-M' x='400' width='90' height='80'/>",
    );
    let remarks = told("bib.svg", &two);
    assert!(
        remarks.iter().any(|words| words
            .contains("bib is drawn more than once in size M, in line 2 and in line 3 of bib.svg")),
        "{remarks:?}"
    );
    assert!(!remarks.iter().any(|words| words.contains("sizes-from")), "{remarks:?}");
    let plotted = drawing(
        "9 $INSUNITS|70 4|",
        "",
        &(square("A", 0.0, 0.0, 90.0)
            + &words("A", 20.0, 40.0, "Cuff")
            + &square("A", 200.0, 0.0, 80.0)
            + &words("A", 220.0, 40.0, "Cuff")),
    );
    // What begins in pair n is told by its value, in line 2 n. Ten pairs stand before the entities (five of the header, three of
    // blocks, two that begin the section): 11. A closed line through four corners is 6 + 4 × 4 + 2 pairs, words are six: 41.
    only(&told("cuff.dxf", &plotted), &["“Cuff” stands there more than once", "line 22", "line 82"]);
    let rows = "cuff,1,0,0\ncuff,2,90,0\ncuff,3,90,80\ncuff,4,0,80\n";
    let why = refused("cuff.csv", &format!("piece,point,x mm,y mm\n{rows}{rows}"));
    assert!(
        why.contains(
            "cuff.csv:6: the outline of cuff stands there twice, from line 2 and again from here on"
        ),
        "{why}"
    );
}

#[test]
fn pieces_over_one_another_are_told_as_that() {
    // The pouch reaches 20 mm over the bib, with a notch of its own there.
    let drawn = |at: usize| {
        in_mm(&format!(
            "<rect id='bib' width='300' height='400'/><rect id='pouch' x='{at}' y='100' width='200' height='150'/>\
             <path d='M{} 100 v6'/>",
            at + 10
        ))
    };
    only(
        &told("bib.svg", &drawn(280)),
        &["bib and pouch of bib.svg lie over one another, 20 mm across and 150 mm up"],
    );
    assert!(told("bib.svg", &drawn(320)).is_empty());
    assert!(told("bib.svg", &drawn(300)).is_empty(), "they only touch");
}

/// Found by damage: of many outlines over one another the first are told, and it does not take long to find them.
#[test]
fn of_many_pieces_over_one_another_some_are_told() {
    let round = |at: usize| -> Vec<(f64, f64)> {
        let turn = |step: usize| step as f64 / 400.0 * std::f64::consts::TAU;
        (0..400)
            .map(|step| (at as f64 * 150.0 + 200.0 * turn(step).cos(), 200.0 * turn(step).sin()))
            .collect()
    };
    let points = |at: usize| -> String {
        round(at).iter().map(|(x, y)| format!("{:.2},{:.2} ", x + 300.0, y + 300.0)).collect()
    };
    let drawn: String =
        (0..300).map(|at| format!("<polygon id='panel {}' points='{}'/>", letters(at), points(at))).collect();
    let plotted: String = (0..300).map(|at| ring("PANEL", &round(at))).collect();
    for (name, drawing) in
        [("panels.svg", in_mm(&drawn)), ("panels.dxf", drawing("9 $INSUNITS|70 4|", "", &plotted))]
    {
        let begun = std::time::Instant::now();
        let traced = fustian::bring::read::read(drawing.as_bytes(), name, &ReadOptions::default()).unwrap();
        let taken = begun.elapsed();
        let over = traced.remarks.iter().filter(|words| words.contains("lie over one another")).count();
        assert!((1..=20).contains(&over), "{name}: {over}");
        assert!(taken < std::time::Duration::from_secs(20), "{name}: {taken:?}");
    }
}

/// A name without figures, which would be a size's.
fn letters(at: usize) -> String {
    ["a", "b", "c", "d", "e", "f", "g", "h", "i", "j"]
        .iter()
        .enumerate()
        .filter(|(bit, _)| at >> bit & 1 == 1)
        .map(|(_, letter)| *letter)
        .chain(["z"])
        .collect()
}

/// A table of a cuff in two sizes; `other` changes its rows.
fn cuff(other: &[(&str, &str)]) -> String {
    let mut rows = "piece,size,point,x mm,y mm\n".to_owned();
    for (size, wide) in [("deckhand", 200), ("bosun", 220)] {
        let corners = [(0, 0), (wide, 0), (wide, 70), (wide / 2, 120), (0, 70)];
        for (at, (x, y)) in corners.into_iter().enumerate() {
            rows += &format!("cuff,{size},{},{x},{y}\n", at + 1);
        }
    }
    other.iter().fold(rows, |rows, (from, to)| {
        assert!(rows.contains(from), "{from} is not in\n{rows}");
        rows.replace(from, to)
    })
}

#[test]
fn rows_that_are_lost_or_have_no_size_are_told() {
    assert!(told("cuff.csv", &cuff(&[])).is_empty());
    let why = refused("cuff.csv", &cuff(&[("cuff,bosun,3,220,70\n", "")]));
    assert_eq!(
        why,
        "cuff.csv:8: behind this row the point 3 of cuff is missing in size bosun; deckhand has it in line 4: is a row lost?"
    );
    let why = refused("cuff.csv", &cuff(&[("cuff,bosun,3,", "cuff,,3,")]));
    assert_eq!(why, "cuff.csv:9: the size is missing: cuff is drawn in deckhand, bosun");
    // Without numbers only the corners tell; by hand the one without another is the lower end's right one, 22 cm from the left.
    let unnumbered = |rows: &str| -> String {
        rows.lines()
            .map(|row| {
                let fields: Vec<&str> = row.split(',').collect();
                [&fields[..2], &fields[3..]].concat().join(",") + "\n"
            })
            .collect()
    };
    let why = refused("cuff.csv", &unnumbered(&cuff(&[("cuff,deckhand,2,200,0\n", "")])));
    assert!(
        why.contains("cuff has 4 corners in deckhand and 5 in bosun")
            && why.contains(
                "the corner of bosun 220 mm from its left and 0 mm from its lower end has none in deckhand"
            )
            && !why.contains("`corner`"),
        "{why}"
    );
}

#[test]
fn where_a_drawing_lies_is_not_in_the_text() {
    for (name, drawn) in [
        ("/home/purser/drawn/bib.svg", in_mm("<rect id='bib' width='300' height='400'/>")),
        ("..\\drawn\\bib.csv", "piece,x mm,y mm\nbib,0,0\nbib,300,0\nbib,0,200\n".to_owned()),
        ("drawn/bib.dxf", drawing("9 $INSUNITS|70 4|", "", &square("BIB", 0.0, 0.0, 300.0))),
    ] {
        let own = brought(name, &drawn);
        assert!(
            own.text.contains("of bib.") && !own.text.contains("drawn/") && !own.text.contains("drawn\\"),
            "{}",
            own.text
        );
        assert!(!own.look.contains("drawn/"), "{}", own.look);
    }
}

#[test]
fn an_outline_that_ends_a_hair_beside_its_beginning_has_no_edge_more() {
    // The second size is a centimetre wider; its outline begins `off` beside where it ends.
    let drawn = |off: f64, end: &str| {
        in_mm(&format!(
            "<path id='bib-S' d='M0 0 V300 H200 V0 C150 40 50 40 0 0 Z'/>\
             <path id='bib-M' d='M{off} 0 V300 H210 V0 C160 40 50 40 0 0 {end}'/>"
        ))
    };
    let exact = brought("bib.svg", &drawn(0.0, "Z"));
    assert!(exact.remarks.is_empty(), "{:?}", exact.remarks);
    for off in [0.01, 0.02, 0.03] {
        for end in ["Z", ""] {
            let own = brought("bib.svg", &drawn(off, end));
            assert!(own.remarks.is_empty(), "{off} {end}: {:?}", own.remarks);
            let garment = draft(&own.text);
            for (size, width) in [(0, 200.0), (1, 210.0)] {
                let foot = length(&garment, size, "bib", "e1");
                assert!((foot - width).abs() < 0.05, "{off} {end}: {foot} is not {width}\n{}", own.text);
            }
            assert_eq!(own.text.lines().count(), exact.text.lines().count(), "{}", own.text);
        }
    }
    // A millimetre is none of rounding: the left edge crosses the neck there.
    let far = refused("bib.svg", &drawn(1.0, "Z"));
    assert!(far.contains("the outline of bib in M crosses itself 1 mm from its left"), "{far}");
}

#[test]
fn what_an_element_says_and_nobody_can_read_is_told_with_its_line() {
    let drawn = |shape: &str| in_mm(&format!("<path id='flap' d='M310 10h200v100h-200z'/>\n{shape}"));
    let tab = |said: &str| format!("<rect id='tab' {said}/>");
    let path = |said: &str| format!("<g transform='{said}'><path id='tab' d='M0 0h90v90h-90z'/></g>");
    for (shape, words) in [
        (path("translate(NaN 0)"), "the `transform` here, `translate(NaN 0)`, cannot be read"),
        (path("tranlate(3 0)"), "`tranlate(3 0)`, cannot be read"),
        (path("translate(10 20"), "`translate(10 20`, cannot be read"),
        (path("scale(2) rotat(5)"), "`scale(2) rotat(5)`, cannot be read"),
        (tab("width='100,5' height='50'"), "the `width` of <rect>, `100,5`, cannot be read"),
        (tab("width='abc' height='50'"), "the `width` of <rect>, `abc`, cannot be read"),
        (tab("width='-100' height='50'"), "the `width` of <rect>, `-100`, is negative"),
        (tab("width='20%' height='50'"), "the `width` of <rect>, `20%`, depends on what is around it"),
        (tab("x='NaN' width='90' height='50'"), "the `x` of <rect>, `NaN`, cannot be read"),
        ("<circle r='-50'/>".to_owned(), "the `r` of <circle>, `-50`, is negative"),
        (
            "<polygon points='10,10 100,10 100,100 10,100 50'/>".to_owned(),
            "are 9 numbers, and each point is two",
        ),
        ("<polygon points='10,10 100,10 1o0,100 10,100'/>".to_owned(), "damaged: `1o0` is not a number"),
    ] {
        let why = refused("bib.svg", &drawn(&shape));
        assert!(why.starts_with("bib.svg:2: ") && why.contains(words), "{why}\nlacks {words}");
        assert!(!why.contains('\n'), "{why}");
    }
    // What can be read, or is no more than paper, is as it was.
    for (shape, pieces) in [
        (path("translate(10 20)"), 2),
        (path(""), 2),
        (path("none"), 2),
        (tab("width='100' height='50mm' rx='' x='0%'"), 2),
        (tab("width='100%' height='100%' fill='white'"), 1),
        ("<polygon points='10,10 100,10 100,100 10,100'/>".to_owned(), 2),
    ] {
        let own = brought("bib.svg", &drawn(&shape));
        assert_eq!(own.text.matches("\npiece ").count(), pieces, "{shape}\n{}", own.text);
    }
}

#[test]
fn a_group_that_its_transform_leaves_no_width_is_told() {
    let drawn = |scale: &str| {
        in_mm(&format!(
            "<g id='S'><rect id='bib' width='300' height='400'/></g>\n\
             <g id='M' transform='{scale}'><rect id='bib' width='310' height='410'/></g>"
        ))
    };
    assert!(told("bib.svg", &drawn("scale(1)")).is_empty(), "{:?}", told("bib.svg", &drawn("scale(1)")));
    for scale in ["scale(0)", "scale(1 0)"] {
        let remarks = told("bib.svg", &drawn(scale));
        let words = format!("M in line 2 is drawn without any width, by its transform `{scale}`");
        assert!(remarks.iter().any(|one| one.contains(&words)), "{remarks:?}");
    }
}

#[test]
fn an_outline_that_is_drawn_twice_in_one_size_is_taken_once() {
    let size = |size: &str, wide: u32, more: &str| {
        format!(
            "<g id='{size}'><rect id='bib' width='{wide}' height='400'/>{more}\n<path d='M{wide} 200 h-6'/>\
             <circle cx='100' cy='130' r='3'/></g>\n"
        )
    };
    let drawn = |more: &str| in_mm(&(size("S", 300, "") + &size("M", 310, more)));
    let once = brought("bib.svg", &drawn(""));
    assert!(once.remarks.is_empty(), "{:?}", once.remarks);
    let twice = brought("bib.svg", &drawn("<path id='bib' d='M0 0 H310 V400 H0 Z'/>"));
    assert_eq!(twice.text, once.text);
    only(
        &twice.remarks,
        &["the outline of bib in M is drawn twice, in line 3 and in line 3 of bib.svg; it is taken once"],
    );
    // What has another name is something else.
    let other = brought("bib.svg", &drawn("<path id='lining' d='M0 0 H310 V400 H0 Z'/>"));
    assert!(other.text.contains("piece lining"), "{}", other.text);
}

/// A bib in three sizes in one another on these layers, its name in each.
fn bib_on(layers: [&str; 3]) -> String {
    let sizes = layers.iter().zip([300.0, 320.0, 340.0]);
    sizes
        .map(|(layer, side)| square(layer, 0.0, 0.0, side) + &words(layer, 90.0, 90.0, "Bib cut 1"))
        .collect()
}

#[test]
fn one_outline_on_another_layer_leaves_the_sizes_what_they_are() {
    let metric = |entities: &str| drawing("9 $INSUNITS|70 4|", "", entities);
    let three = bib_on(["S", "M", "L"]);
    let alone = brought("bib.dxf", &metric(&three));
    assert!(alone.remarks.is_empty() && alone.text.contains("sizes S, M, L"), "{:?}", alone.remarks);
    // A piece beside is the same in all sizes.
    let tab = square("0", 500.0, 0.0, 40.0) + &words("0", 510.0, 10.0, "Tab cut 2");
    let beside = brought("bib.dxf", &metric(&(three.clone() + &tab)));
    assert!(beside.remarks.is_empty(), "{:?}", beside.remarks);
    assert!(beside.text.contains("sizes S, M, L") && beside.text.contains("piece tab"), "{}", beside.text);
    // A frame round the sheet is none, and is told.
    let framed = brought("bib.dxf", &metric(&(three.clone() + &square("FRAME", -50.0, -50.0, 900.0))));
    only(&framed.remarks, &["on layer FRAME (line ", "goes round pieces", "`sizes-from` says"]);
    assert!(framed.text.contains("sizes S, M, L"), "{}", framed.text);
    // Layers that end with sizes are sizes too where they lie in one another.
    let ending = brought("bib.dxf", &metric(&bib_on(["Pattern 36", "Pattern 38", "Pattern 40"])));
    assert!(ending.text.contains("sizes 36, 38, 40"), "{}\n{:?}", ending.text, ending.remarks);
    // Layers that nothing shows to be sizes are told how they can be said to be some.
    let other = told("bib.dxf", &metric(&bib_on(["Small one", "Middle one", "Large one"])));
    assert!(other.iter().any(|words| words.contains("`sizes-from` says so")), "{other:?}");
    // A line that lies in no piece is told once, not once a size.
    let stray = "0 LINE|8 0|10 700|20 0|11 700|21 90|";
    only(&told("bib.dxf", &metric(&(three + stray))), &["1 line lies in no piece and was left out (line "]);
}

#[test]
fn corners_exchanged_in_a_drawing_are_told() {
    let metric = |entities: &str| drawing("9 $INSUNITS|70 4|", "", entities);
    let bib = square("0", 0.0, 0.0, 300.0);
    let pocket = |corners: &[(f64, f64)]| {
        metric(&(bib.clone() + &ring("0", corners) + &words("0", 450.0, 20.0, "Pocket cut 1")))
    };
    let sound = [(400.0, 0.0), (520.0, 0.0), (520.0, 90.0), (400.0, 90.0)];
    assert!(brought("bib.dxf", &pocket(&sound)).text.contains("piece pocket"));
    let [a, b, c, d] = sound;
    let why = refused("bib.dxf", &pocket(&[a, c, b, d]));
    assert!(why.contains("the outline of Pocket crosses itself and holds no area"), "{why}");
    // A line drawn to and fro holds nothing at all, and is a line left out.
    let to_and_fro = told("bib.dxf", &metric(&(bib.clone() + &ring("0", &[a, c]))));
    only(&to_and_fro, &["1 line lies in no piece"]);
}

#[test]
fn two_names_in_one_piece_are_told() {
    let of = |second: &str| {
        let bib = square("0", 0.0, 0.0, 300.0) + &words("0", 20.0, 90.0, "Bib cut 1");
        drawing("9 $INSUNITS|70 4|", "", &(bib + &words("0", 20.0, 40.0, second)))
    };
    assert!(told("bib.dxf", &of("hem 2 cm")).is_empty());
    only(&told("bib.dxf", &of("Sleeve cut 2")), &["Bib and Sleeve both stand in one piece", "line "]);
}

#[test]
fn a_piece_that_the_first_size_lacks_is_named_with_its_line() {
    let three = bib_on(["S", "M", "L"]);
    let strap = |layer: &str| square(layer, 500.0, 0.0, 60.0) + &words(layer, 510.0, 10.0, "Strap cut 2");
    let all = drawing("9 $INSUNITS|70 4|", "", &(three + &strap("M") + &strap("L")));
    let remarks = told("bib.dxf", &all);
    let expected = "Strap of size M (line ";
    assert!(
        remarks.iter().any(|one| one.contains(expected) && one.contains("none of size S")),
        "{remarks:?}"
    );
}

/// A table of one square in two sizes, of these names.
fn table(first: (&str, &str), second: (&str, &str), more: &str) -> String {
    let of = |(piece, size): (&str, &str), side: u32| -> String {
        let corners = [(0, 0), (side, 0), (side, side), (0, side)];
        corners.iter().map(|(x, y)| format!("{piece},{size},{x},{y},\n")).collect()
    };
    format!("piece,size,x mm,y mm,kind\n{}{}{more}", of(first, 100), of(second, 110))
}

#[test]
fn names_in_a_table_that_differ_in_capitals_and_marks_that_lack_are_told() {
    let alike = told("hand.csv", &table(("hand", "4"), ("hand", "6"), ""));
    assert!(alike.is_empty(), "{alike:?}");
    let pieces = told("hand.csv", &table(("Hand", "4"), ("hand", "6"), ""));
    let words = "Hand and hand differ in capitals alone, and are taken for two pieces";
    assert!(pieces.iter().any(|one| one.contains(words)), "{pieces:?}");
    let marks = "hand,4,20,20,mark\nhand,6,22,22,mark\n";
    assert!(told("hand.csv", &table(("hand", "4"), ("hand", "6"), marks)).is_empty());
    let lacks = told("hand.csv", &table(("hand", "4"), ("hand", "6"), "hand,4,20,20,mark\n"));
    only(&lacks, &["hand has no mark in 6, and has one in 4"]);
}

#[test]
fn a_damaged_row_of_a_table_is_told_alone() {
    let rows = |x: &str| format!("piece,x mm,y mm\ntab,0,0\ntab,{x},0\ntab,90,40\n");
    assert!(told("tab.csv", &rows("90")).is_empty());
    let why = refused("tab.csv", &rows("9o"));
    assert!(why.contains("x is “9o”") && !why.contains("it needs three"), "{why}");
    // Where no row is damaged the outline lacks a point.
    let short = refused("tab.csv", "piece,x mm,y mm\ntab,0,0\ntab,90,0\n");
    assert!(short.contains("has 2 points; it needs three"), "{short}");
}
