//! Drawings as makers have them, written by hand: a skirt from a vector program, a waistcoat from a plotter's file in inches, a
//! child's mitten traced with a tape. Each comes in, becomes a garment with seams, and is damaged.

use crate::brought::{compiled, length, outline, piece};
use fustian::bring::{BringOptions, Brought, bring};
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

/// What is said of a drawing after a slip: that it does not come in, or the remarks.
fn told(name: &str, sound: &str, slips: &[(&str, &str)]) -> (bool, String) {
    let damaged = slips.iter().fold(sound.to_owned(), |text, (old, new)| {
        assert!(text.contains(old), "{old} is not in {name}");
        text.replacen(old, new, 1)
    });
    match bring(&[(name, damaged.as_bytes())], &BringOptions::default()) {
        Ok(brought) => (true, brought.remarks.join("\n")),
        Err(why) => (false, why.to_string()),
    }
}

/// What is written otherwise in a sound drawing, whether it comes in all the same, and what is told of it.
type Slip<'s> = (&'s [(&'s str, &'s str)], bool, &'s str);

/// Each slip with what is told of it.
fn are_told(name: &str, sound: &str, slips: &[Slip]) {
    for (slips, comes_in, words) in slips {
        let (came_in, said) = told(name, sound, slips);
        assert!(came_in == *comes_in && said.contains(words), "{slips:?}: {words}\nsaid ({came_in}): {said}");
    }
}

#[test]
fn slips_in_the_skirt_s_drawing_are_told() {
    let square = "<text x=\"985\" y=\"95\">10 cm</text>";
    let sheet = "width=\"275mm\" height=\"180mm\" ";
    let back_38 = "id=\"path39\" d=\"M600 70";
    are_told(
        "mess-skirt.svg",
        SKIRT,
        &[
            (
                &[("L380 650 H100 Z", "L380 650 H100 V80")],
                false,
                "does not close: its ends are 20.0 mm apart",
            ),
            (
                &[("L380 650 H100 Z", "L380 650 L120 30 H100 Z")],
                false,
                "the outline of front in 36 crosses itself",
            ),
            (&[("L380 650", "LNaN 650")], false, "`LNaN` is not a number"),
            // Twenty times too small.
            (&[(sheet, "width=\"27.5mm\" height=\"18mm\" "), (square, "")], true, "no piece is longer than"),
            (&[(sheet, ""), (square, "")], true, "nothing in it says how large it is"),
            (
                &[(
                    "id=\"path39\" d=\"M600 70 C663 68 730 58 790 50 C810 110 850 180 850 250 L890 655 H600 Z\"",
                    "d=\"M600 70\"",
                )],
                true,
                "back is not drawn in every size; the nearest is taken for 38",
            ),
            (
                &[(back_38, "transform=\"translate(-310 60) scale(.7)\" d=\"M600 70")],
                true,
                "lies inside a piece in 38",
            ),
            (&[(">Back<", ">Front<")], true, "Front is drawn more than once"),
            (&[("M332 250 h16", "M300 250 h16")], true, "has not equally many notches in every size"),
            (&[("M332 250 h16", "M420 250 h16")], true, "1 line or mark lies outside of every piece"),
            (
                &[("Size 36", "Size X"), ("Size 40", "Size 36"), ("Size X", "Size 40")],
                true,
                "are sizes mixed up",
            ),
            (&[("Size 38", "Size 36")], true, "are two layers called alike?"),
            (&[("<title>Size 38</title>", "")], true, "neither its layer nor its name says a size"),
        ],
    );
}

#[test]
fn slips_in_the_waistcoat_s_file_are_told() {
    let open = "0\nPOLYLINE\n8\nCUT\n66\n1\n70\n1";
    are_told(
        "watch-waistcoat.dxf",
        WAISTCOAT,
        &[
            (&[(open, "0\nPOLYLINE\n8\nCUT\n66\n1\n70\n0")], false, "an outline is open"),
            (&[("Units: ENGLISH", "Drawn on the bridge")], true, "Nothing says in which unit it is drawn"),
            (&[("Units: ENGLISH", "Units: METRIC")], true, "no piece is longer than 22.0 mm"),
            (
                &[("Size: M", "")],
                true,
                "front is drawn in S, L, and once more without a size: that one is left out",
            ),
            (&[("Size: M", "Size: S")], true, "“Front” stands there more than once in one size"),
            (
                &[("Piece Name: Back", "Piece Name: Front")],
                true,
                "“Front” stands there more than once in one size",
            ),
            (&[("\n10\n9.5\n", "\n10\nNaN\n")], false, "“NaN” stands where a number must stand"),
            (&[("\n10\n9.5\n", "\n10\n9.5e7\n")], false, "a point lies more than 100 km"),
            (
                // From (3, 22) to (-3, 1) in inches: 6 and 21 of 25.4 mm, √(152.4² + 533.4²) = 554.7.
                &[("\n10\n3\n20\n22\n", "\n10\n-3\n20\n1\n")],
                false,
                "lies 555 mm off in S (152 mm to the left and 533 mm down)",
            ),
            (
                &[("\n10\n9.25\n20\n8\n11\n9.75\n21\n8", "\n10\n7.25\n20\n8\n11\n7.75\n21\n8")],
                true,
                "1 notch lies at no edge",
            ),
            (&[("\n42\n-0.25", "\n42\n-25")], false, "crosses itself"),
            (&[("0\nENDSEC\n0\nEOF\n", "")], false, "the file breaks off"),
        ],
    );
}

#[test]
fn slips_in_the_mitten_s_table_are_told() {
    are_told(
        "oilskin-mitten.csv",
        MITTEN,
        &[
            (
                &[("Cuff,4 years,3,16,6\n", ""), ("Cuff,4 years,4,0,6\n", "")],
                false,
                "has 2 points; it needs three that differ",
            ),
            (&[("x cm", "x"), ("y cm", "y")], true, "no piece is longer than 17.6 mm"),
            (&[("x cm", "x mm")], false, "x and y are in two units"),
            (
                &[("Mitten,6 years,9,", "Mitten,6 year,9,")],
                false,
                "the outline of Mitten in size 6 year has 1 point;",
            ),
            (
                &[("4 years,9,7.6,12.8", "4 years,9,-3,1")],
                false,
                "the outline of mitten in 4 years crosses itself",
            ),
            (&[("4 years,9,", "4 years,8,")], false, "the point 8 stands in line 9 already"),
            (&[("10.6,6.2", "NaN,6.2")], false, "x is “NaN”, which is no number"),
            (&[("10.6,6.2", "\"10,6\",6.2")], false, "with a decimal comma"),
            (&[("1,0,3.5,notch", "1,4,7,notch")], true, "1 notch lies at no edge"),
            (&[("0,3.5,notch", "0,3.5,nodge")], false, "“nodge” is no kind of point"),
            (
                &[("Mitten,4 years,9,7.6,12.8,curve\n", "")],
                true,
                "behind line 9 of oilskin-mitten.csv the point 9 of Mitten is missing in size 4 years",
            ),
            (&[("7.6,12.8,curve", "76,12.8,curve")], true, "is one of them drawn wrong?"),
            (&[("8.6,7,corner", "8.6,7,curve")], false, "mitten has 3 corners in 4 years and 4 in 6 years"),
        ],
    );
}
