//! Traced points from tables in text.

use fustian::bring::ReadOptions;
use fustian::bring::read::csv::read;
use fustian::bring::traced::{Traced, TracedPoint};
use fustian::shape::Point;
use kurbo::ParamCurve;

fn came(text: &str) -> Traced {
    read(text.as_bytes(), "bib.csv", &ReadOptions::default()).unwrap_or_else(|error| panic!("{error}"))
}

fn refused(text: &str) -> String {
    match read(text.as_bytes(), "bib.csv", &ReadOptions::default()) {
        Err(error) => error.to_string(),
        Ok(traced) => panic!("{traced:#?} came in"),
    }
}

fn corners(traced: &Traced, piece: usize, size: &str) -> Vec<(f64, f64)> {
    let outline = &traced.pieces[piece].sizes[size].outline;
    assert!(outline.closed);
    outline.segments.iter().map(|segment| segment.course.start()).map(|at| (at.x, at.y)).collect()
}

const BIB: &str = "piece,size,point,x,y,kind\n\
    Bib,S,1,0,0,corner\n\
    Bib,S,2,200,0,corner\n\
    Bib,S,3,210,150,curve\n\
    Bib,S,4,200,300,corner\n\
    Bib,S,5,0,300,\n\
    Bib,S,1,200,100,notch\n\
    Bib,S,pocket,100,120,mark\n\
    Bib,S,1,20,40,line hem fold\n\
    Bib,S,2,180,40,line hem fold\n\
    Bib,S,1,100,50,grain\n\
    Bib,S,2,100,250,grain\n\
    Bib,S,1,0,0,fold\n\
    Bib,S,2,0,300,fold\n\
    Bib,M,1,0,0\n\
    Bib,M,2,220,0\n\
    Bib,M,4,0,320\n\
    Bib,M,3,220,320\n\
    \"Strap, long\",,,0,0\n\
    \"Strap, long\",,,50,0\n\
    \"Strap, long\",,,50,900\n\
    \"Strap, long\",,,0,0\n";

/// What stands in the table, and nothing else; points stand in the order of their numbers.
#[test]
fn points_become_pieces() {
    let traced = came(BIB);
    let names: Vec<&str> = traced.pieces.iter().map(|piece| piece.name.as_str()).collect();
    assert_eq!(names, ["Bib", "Strap, long"]);
    assert_eq!(traced.pieces[0].origin, "Bib of bib.csv");
    assert_eq!(traced.pieces[0].sizes.keys().collect::<Vec<_>>(), ["S", "M"]);
    let small = &traced.pieces[0].sizes["S"];
    assert_eq!(
        corners(&traced, 0, "S"),
        [(0.0, 0.0), (200.0, 0.0), (210.0, 150.0), (200.0, 300.0), (0.0, 300.0)]
    );
    use TracedPoint::{Corner, Curve, Unsaid};
    let said: Vec<TracedPoint> = small.outline.segments.iter().map(|segment| segment.ends_at).collect();
    assert_eq!(said, [Corner, Curve, Corner, Unsaid, Corner]);
    assert_eq!(small.notches[0].at, Point::new(200.0, 100.0));
    assert_eq!((small.marks[0].name.as_str(), small.marks[0].at), ("pocket", Point::new(100.0, 120.0)));
    assert_eq!(small.lines[0].name, "hem fold");
    assert_eq!(small.lines[0].path.segments[0].course.end(), Point::new(180.0, 40.0));
    assert_eq!(small.grain, Some((Point::new(100.0, 50.0), Point::new(100.0, 250.0))));
    assert_eq!(small.fold, Some((Point::new(0.0, 0.0), Point::new(0.0, 300.0))));
    assert_eq!(corners(&traced, 0, "M"), [(0.0, 0.0), (220.0, 0.0), (220.0, 320.0), (0.0, 320.0)]);
    assert_eq!(corners(&traced, 1, ""), [(0.0, 0.0), (50.0, 0.0), (50.0, 900.0)]);
}

/// Columns in any order, semicolons with decimal commas, tabs, capitals, the mark of byte order, old code pages, inches.
#[test]
fn tables_as_programs_write_them() {
    let semicolons = "\u{feff}X;Y;Piece\r\n0;0;Bib\r\n100,5;0;Bib\r\n0;50.25;Bib\r\n";
    assert_eq!(corners(&came(semicolons), 0, ""), [(0.0, 0.0), (100.5, 0.0), (0.0, 50.25)]);
    assert_eq!(corners(&came(&semicolons.replace(';', "\t")), 0, "")[1], (100.5, 0.0));
    let inches = ReadOptions { scale: Some(25.4), ..ReadOptions::default() };
    let text = b"piece,x,y\nGr\xf6\xdfe,0,0\nGr\xf6\xdfe,1,0\nGr\xf6\xdfe,0,2\n";
    let traced = read(text, "bib.csv", &inches).unwrap();
    assert_eq!(traced.pieces[0].name, "Größe");
    assert_eq!(corners(&traced, 0, ""), [(0.0, 0.0), (25.4, 0.0), (0.0, 50.8)]);
}

#[test]
fn what_is_wrong_is_said_with_its_line() {
    let head = "piece,size,point,x,y,kind\n";
    let rest = "Bib,,,0,0,\nBib,,,9,0,\nBib,,,9,9,\n";
    for (text, expected) in [
        (String::new(), "bib.csv: there is nothing in it"),
        (head.to_owned(), "bib.csv: no point stands in it"),
        ("piece,x\nBib,1\n".to_owned(), "bib.csv:1: the first row must name the columns piece, x and y"),
        ("piece,x,y,x\n".to_owned(), "bib.csv:1: two columns are named “x”"),
        ("piece,x,y,z\n".to_owned(), "bib.csv:1: the first row names a column “z”"),
        (format!("{head}{rest}Bib,,,nan,0,\n"), "bib.csv:5: x is “nan”, which is no number"),
        (format!("{head}{rest}Bib,,,inf,0,\n"), "bib.csv:5: x is “inf”, which is no number"),
        (format!("{head}{rest}Bib,,,,0,\n"), "bib.csv:5: x is missing"),
        (format!("{head}{rest}Bib,,,1e300,0,\n"), "bib.csv:5: this point lies more than 100 km away"),
        (format!("{head}{rest}Bib,,,\"1,5\",0,\n"), "with a decimal comma, let semicolons part the fields"),
        (
            "piece;x;y\nBib;1.000,5;0\n".to_owned(),
            "bib.csv:2: x is “1.000,5”, which is no number; write it without signs",
        ),
        (format!("{head}{rest},,,1,0,\n"), "bib.csv:5: the piece’s name is missing"),
        (format!("{head}{rest}Bib,,,1,0,dart\n"), "bib.csv:5: “dart” is no kind of point"),
        (format!("{head}{rest}Bib,,,1,0,,,7\n"), "bib.csv:5: this row has 8 fields, the first row names 6"),
        (format!("{head}{rest}\"Bib,,,1,0,\n"), "bib.csv:5: a quotation mark opens here and none closes it"),
        (format!("{head}{rest}\"B\"ib,,,1,0,\n"), "bib.csv:5: letters stand after a closing quotation mark"),
        (
            format!("{head}Bib,,,0,0,\nBib,,,9,0,\nBib,,,9,0,\n"),
            "the outline of Bib has 3 points; it needs three that differ",
        ),
        (format!("{head}Bib,M,,0,0,notch\n"), "bib.csv:2: the outline of Bib in size M has no points"),
        (
            format!("{head}{rest}Bib,,,0,0,grain\n"),
            "bib.csv:5: a grain line needs two points that differ; 1 stand there",
        ),
        (
            format!("{head}Bib,,1,0,0,\nBib,,2,9,0,\nBib,,3,9,9,\nBib,,2,5,5,\n"),
            "bib.csv:5: the point 2 stands in line 3 already",
        ),
    ] {
        let why = refused(&text).replace('\'', "’");
        assert!(why.contains(expected), "{why}\nis not\n{expected}");
    }
    // All at once, each with its line.
    let why = refused(&format!("{head}{rest}Bib,,,a,0,\nBib,,,1,b,\nBib,,,1,0,c\n"));
    for line in ["bib.csv:5: x is “a”", "\nbib.csv:6: y is “b”", "\nbib.csv:7: “c” is no kind"] {
        assert!(why.contains(line), "{why}");
    }
    let many = refused(&format!("{head}{}", "Bib,,,a,0,\n".repeat(1000)));
    assert!(many.lines().count() == 21 && many.ends_with("and 980 more"), "{many}");
    let why =
        refused(&format!("piece,x,y\n{}", (0..600).map(|at| format!("p{at},0,0\n")).collect::<String>()));
    assert!(why.contains("it holds 600 pieces in 1 sizes; at most 500 in 100 are read"), "{why}");
}
