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
        let parts = (1..9).map(|at| format!("{run}_{at}"));
        std::iter::once(run.to_owned())
            .chain(parts)
            .filter(|name| text.lines().any(|line| line.trim_start().starts_with(&format!("{name} "))))
            .collect()
    };
    let (right, left) = (names("e2"), names("e3"));
    assert!(!right.is_empty() && right.len() == left.len(), "{text}");
    for (one, other) in right.iter().zip(left.iter().rev()) {
        let (one, other) = (length(&garment, 0, "gore", one), length(&garment, 0, "gore", other));
        // The text is rounded to 0.0001 in.
        assert!((one - other).abs() < 0.02, "{one} is not {other}\n{text}");
    }
    let offered = text.lines().find(|line| line.starts_with("# seam")).unwrap_or_else(|| panic!("{text}"));
    assert!(offered.contains("gore.e2") && offered.contains("to gore.e3"), "{offered}");
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
