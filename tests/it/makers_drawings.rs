//! Drawings as makers have them, written by hand: a skirt from a vector program, a waistcoat from a plotter's file in inches, a
//! child's mitten traced with a tape. Each comes in, becomes a garment with seams, and is damaged.

use crate::brought::{compiled, length, outline, piece};
use fustian::bring::{BringError, BringOptions, Brought, bring};
use fustian::{Compiled, Severity};
use kurbo::Point;

const SKIRT: &str = include_str!("sources/makers/mess-skirt.svg");
const WAISTCOAT: &str = include_str!("sources/makers/watch-waistcoat.dxf");
const MITTEN: &str = include_str!("sources/makers/oilskin-mitten.csv");

/// How far what is written may lie from what was drawn, in millimetres: the text has 0.01 mm.
const ROUNDED: f64 = 0.02;

fn came(name: &str, drawing: &str, options: &BringOptions) -> Brought {
    bring(&[(name, drawing.as_bytes())], options).unwrap_or_else(|why| panic!("{why}"))
}

/// The draft after a maker's hand: what is replaced, and what is written below. Nothing is wrong with it.
fn sewn(text: &str, replaced: &[(&str, &str)], below: &str) -> Compiled {
    let edited = replaced.iter().fold(text.to_owned(), |text, (old, new)| {
        assert!(text.contains(old), "{old} is not there\n{text}");
        text.replacen(old, new, 1)
    });
    let sewn = compiled(&format!("{edited}\n{below}"));
    let wrong: Vec<String> = sewn
        .diagnostics
        .iter()
        .filter(|one| one.severity() == Severity::Mistake)
        .map(|one| format!("{}: {}", one.slug(), one.title.as_str()))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}\n{edited}");
    sewn
}

fn sizes(compiled: &Compiled) -> Vec<String> {
    compiled.garment.sizes.iter().map(|size| size.name.to_string()).collect()
}

fn is_about(own: f64, wanted: f64, what: &str) {
    assert!((own - wanted).abs() <= ROUNDED, "{what}: {own} mm, by hand {wanted}");
}

fn has_remark(brought: &Brought, words: &str) {
    assert!(brought.remarks.iter().any(|own| own.contains(words)), "{words}: {:#?}", brought.remarks);
}

/// The skirt is drawn at a quarter of its size, so that a unit of the drawing is a millimetre of the skirt: the square of 100
/// units is 10 cm.
#[test]
fn a_skirt_from_a_vector_program() {
    let brought = came("mess-skirt.svg", SKIRT, &BringOptions::default());
    has_remark(&brought, "everything is brought to its scale");
    assert_eq!(brought.remarks.len(), 1, "{:#?}", brought.remarks);
    let seams = "seam side  front.e2_1 + front.e2_2 to back.e2_1 + back.e2_2\n\
        seam centre_back  back.longest to back.longest\n\
        finish front.longest, back.e1  hem 2\n\
        finish front.e3, back.e3  bound 1\n";
    assert!(brought.text.contains("front.e2_1 + front.e2_2 to back.e2_1 + back.e2_2"), "{}", brought.text);
    assert!(
        brought.text.contains("cut 1 on fold fold") && brought.text.contains("cut 2 mirrored"),
        "{}",
        brought.text
    );
    let skirt = sewn(&brought.text, &[], seams);
    assert_eq!(sizes(&skirt), ["36", "38", "40"]);
    for (size, name) in ["36", "38", "40"].into_iter().enumerate() {
        let step = size as f64;
        // By hand: hems of 280 mm and 10 more a size; from the hip 40 mm out and 400 mm down, 5 more a size; the fold from
        // 60 below the top to 650, 5 more a size.
        is_about(length(&skirt, size, "front", "longest"), 280.0 + 10.0 * step, name);
        is_about(length(&skirt, size, "back", "e1"), 280.0 + 10.0 * step, name);
        for piece in ["front", "back"] {
            is_about(length(&skirt, size, piece, "e2_1"), 40.0_f64.hypot(400.0 + 5.0 * step), piece);
        }
        is_about(length(&skirt, size, "front", "fold"), 590.0 + 5.0 * step, name);
        is_about(length(&skirt, size, "back", "longest"), 580.0 + 5.0 * step, name);
        // The notch at the hip, where the side's curve ends; the cross and the grain, which stand there once, in all sizes.
        for own in ["front", "back"] {
            let drawn = piece(&skirt, size, own);
            assert_eq!(drawn.notches.len(), 1, "{own} in {name}");
            is_about(
                drawn.notches[0].along.min(length(&skirt, size, own, "e2_1")),
                if drawn.notches[0].along < 1.0 { 0.0 } else { length(&skirt, size, own, "e2_1") },
                own,
            );
            assert!(drawn.grain.x.abs() < 1e-9, "{own} in {name}");
        }
        let marks: Vec<Point> = piece(&skirt, size, "front").spots.iter().map(|spot| spot.at).collect();
        // 100 to the right of the fold and 500 above the smallest size's hem.
        assert!(marks.iter().any(|at| at.distance(Point::new(100.0, 500.0)) <= ROUNDED), "{marks:?}");
    }
}

/// Its file is in inches and says so in words; an arc of the bulge b over a chord c has the radius c (1 + b²) / 4b and turns by
/// 4 atan b (Autodesk's DXF reference).
#[test]
fn a_waistcoat_from_a_plotter_s_file() {
    let edges = |names: &str| names.split(' ').map(str::to_owned).collect::<Vec<String>>();
    let names = [
        ("front".to_owned(), edges("lower hem side armhole shoulder neckline centre")),
        ("back".to_owned(), edges("hem side armhole shoulder neckline centre")),
    ];
    let options = BringOptions {
        corner: 20.0_f64.to_radians(),
        names: names.into_iter().collect(),
        ..BringOptions::default()
    };
    let brought = came("watch-waistcoat.dxf", WAISTCOAT, &options);
    assert_eq!(brought.remarks, [""; 0]);
    assert_eq!(
        brought.text.matches("cut 2 mirrored").count(),
        2,
        "`Quantity: 2, left and right`\n{}",
        brought.text
    );
    let seams = "seam shoulder  front.shoulder to back.shoulder { matching front.p5 with back.p4 }\n\
        seam side  front.side to back.side { matching front.p3 with back.p2 }\n\
        seam centre_back  back.centre to back.centre\n\
        finish front.lower, front.hem, back.hem, front.armhole, back.armhole  bound 3/8\n\
        finish front.neckline, back.neckline, front.centre  bound 3/8\n";
    let waistcoat = sewn(&brought.text, &[], seams);
    let upside_down = waistcoat.diagnostics.iter().filter(|one| one.slug() == "seam/upside-down").count();
    assert_eq!(upside_down, 0, "numbers of corners say nothing of how a piece lies");
    assert_eq!(sizes(&waistcoat), ["S", "M", "L"]);
    const INCH: f64 = 25.4;
    for size in 0..3 {
        let wider = 0.5 * size as f64;
        for own in ["front", "back"] {
            is_about(length(&waistcoat, size, own, "side"), 11.0 * INCH, own);
            is_about(length(&waistcoat, size, own, "shoulder"), 5.0_f64.hypot(1.0) * INCH, own);
            assert_eq!(piece(&waistcoat, size, own).notches.len(), 1, "{own}");
        }
        is_about(length(&waistcoat, size, "front", "centre"), 12.0 * INCH, "centre");
        is_about(length(&waistcoat, size, "front", "neckline"), (3.0 + wider).hypot(8.0) * INCH, "neckline");
        is_about(length(&waistcoat, size, "front", "hem"), (5.5 + wider).hypot(2.0) * INCH, "hem");
        is_about(length(&waistcoat, size, "back", "hem"), (9.0 + wider) * INCH, "hem");
        let arc = |chord: f64| {
            let bulge = 0.25_f64;
            chord * (1.0 + bulge * bulge) / (4.0 * bulge) * 4.0 * bulge.atan() * INCH
        };
        is_about(length(&waistcoat, size, "front", "armhole"), arc(1.5_f64.hypot(8.0)), "armhole");
        is_about(length(&waistcoat, size, "back", "armhole"), arc(1.5_f64.hypot(8.5)), "armhole");
        // The notch stands 6 in above the hem.
        let notch = &piece(&waistcoat, size, "back").notches[0];
        is_about(notch.along, 6.0 * INCH, "notch");
    }
}

/// Every row is a point of the tape, in centimetres.
#[test]
fn a_mitten_traced_with_a_tape() {
    let brought = came("oilskin-mitten.csv", MITTEN, &BringOptions::default());
    assert_eq!(brought.remarks, [""; 0]);
    let round: Vec<String> =
        edges_of(&brought.text, "mitten").into_iter().skip(1).map(|edge| format!("mitten.{edge}")).collect();
    let round = round.join(" + ");
    let seams = format!(
        "seam round  {round} to {round}\n\
         seam cuff_end  cuff.e2 to cuff.e4 {{ matching cuff.p2 with cuff.p1 }}\n\
         seam wrist  cuff.e3 to mitten.longest {{ matching cuff.p4 with mitten.p1 }}\n\
         finish cuff.e1  hem 1\n"
    );
    let twice = [("cut 1  # how many, the drawing does not say", "cut 2 mirrored")];
    let mitten = sewn(&brought.text, &twice, &seams);
    assert_eq!(sizes(&mitten), ["4 years", "6 years"]);
    for (size, wide) in [80.0, 88.0].into_iter().enumerate() {
        // By hand: a cuff goes round both of its sides.
        is_about(length(&mitten, size, "mitten", "longest"), wide, "wrist");
        is_about(length(&mitten, size, "cuff", "e3"), 2.0 * wide, "cuff");
        assert_eq!(piece(&mitten, size, "mitten").notches.len(), 1);
        assert_eq!(piece(&mitten, size, "mitten").lines.len(), 1);
    }
    // No point of the tape is missed by more than the tolerance.
    let rows = MITTEN.lines().filter(|row| {
        row.starts_with("Mitten,4 years,") && (row.ends_with("corner") || row.ends_with("curve"))
    });
    let ring = outline(&mitten, 0, "mitten");
    let mut rows_seen = 0;
    for row in rows {
        let fields: Vec<&str> = row.split(',').collect();
        let at =
            Point::new(fields[3].parse::<f64>().unwrap() * 10.0, fields[4].parse::<f64>().unwrap() * 10.0);
        assert!(fustian::shape::outline::is_on(&ring, at, 0.2 + ROUNDED), "{row}\n{}", brought.text);
        rows_seen += 1;
    }
    assert_eq!(rows_seen, 14);
    // What is said to be a curve is none of straight lines: the wrist and the lowest part of the side are straight.
    let straight = piece(&mitten, 0, "mitten").edges.iter().filter(|edge| edge.path.is_straight()).count();
    assert!(straight <= 3, "{straight} straight edges\n{}", brought.text);
}

/// The edges of a piece, in their order.
fn edges_of(text: &str, piece: &str) -> Vec<String> {
    let inside = text.split(&format!("piece {piece} ")).nth(1).unwrap();
    let outline = inside.split("outline from").nth(1).unwrap().split("\n  }").next().unwrap();
    outline.lines().skip(1).filter_map(|line| line.split_whitespace().next()).map(str::to_owned).collect()
}
