//! Figures that every sewer can work out on paper, against what the compiler says and cuts. Where a
//! figure is a rule of the trade or of law, its source stands beside it; the rest is geometry.

use fustian::cutting::{Allowed, CornerCut, CutRun, cutting_line};
use fustian::report::{Diagnostic, Severity};
use fustian::resolve::DrawnEdgeId;
use fustian::shape::Point;
use fustian::shape::arc::{Turning, arc_about};
use fustian::shape::path::Path;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use geo::{Euclidean, Length, LineString};
use std::f64::consts::PI;

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus")
}

fn told<'a>(compiled: &'a Compiled, slug: &str) -> Vec<&'a Diagnostic> {
    compiled.diagnostics.iter().filter(|one| one.slug() == slug).collect()
}

/// A rib band of so many hundredths of a body of 1 m, in a rib that stretches so far.
fn rib(share: u32, stretch: u32) -> Compiled {
    made(&format!(
        "garment \"Deck smock\"\nunits mm\nallowance 7\nfabric shell \"shell\" {{ width 1500 }}\n\
         fabric rib \"rib\" {{ width 1500; stretch {stretch}% across, 0% along; kind knit }}\n\
         layer outer in shell {{ body }}\nlayer knit in rib {{ band }}\n\
         piece body \"Body\" {{ cut 1; outline rectangle 1000 by 500 }}\n\
         piece band \"Band\" {{ cut 1; outline rectangle {} by 60 }}\n\
         seam hem knit.band.top to outer.body.bottom  stretching {share}%..{share}% {{ stitch 504; matching knit.band.top_left with outer.body.bottom_left }}\n",
        share * 10
    ))
}

/// A band of a share s must stretch by 1/s − 1: 65 % by 53.8 %, which a maker calls 54 %; ribbing of
/// 2/3 to 3/4 of its opening (home-sewing guideline, common practice) by 50 % to 33.3 %. Half a per cent
/// of stretch nobody can measure.
#[test]
fn how_far_a_rib_must_stretch() {
    for (share, just_too_little, enough) in [(65, 53, 54), (75, 32, 34), (80, 24, 25), (50, 99, 100)] {
        assert_eq!(told(&rib(share, enough), "seam/stretch").len(), 0, "{share} % of {enough} %");
        let short = rib(share, just_too_little);
        let [one] = told(&short, "seam/stretch")[..] else { panic!("{:#?}", short.diagnostics) };
        let needs = 100.0 / f64::from(share) * 100.0 - 100.0;
        assert!(one.title.contains(&format!("{needs:.0} %")), "{}: {needs}", one.title);
    }
}

/// Button line 40 is 1 in (common practice), so line n is n/40 in; a buttonhole is as long as the
/// button's diameter and thickness together (common practice), 3 mm where none is said.
#[test]
fn buttonholes_by_button_line() {
    for (line, millimetres) in [(40, 25.4), (24, 15.24), (32, 20.32), (60, 38.1)] {
        let compiled = made(&format!(
            "garment \"Mess jacket\"\nunits cm\nallowance 1\nfabric serge \"serge\" {{ width 150 }}\n\
             layer outer in serge {{ front }}\nlet button = {line} / 40 * 1in\n\
             piece front \"Front\" {{\ncut 2 mirrored\noutline rectangle 30 by 60\npoint neck_cf = (4, 60)\npoint hem_cf = (4, 0)\n\
             line centre from neck_cf to hem_cf\n}}\nfinish front.left  hem 9\nfinish front.right, front.top, front.bottom  hem 1\n\
             closure placket front.centre to front.centre {{ buttons 6 of button from 3 below neck_cf to 12 above hem_cf stand 4 }}\n"
        ));
        assert!(compiled.diagnostics.is_empty(), "{:#?}", compiled.diagnostics);
        let row = &compiled.sizes[0].sewn.fasteners[0];
        assert!((row.size.unwrap() - millimetres).abs() < 1e-9, "{line}");
        assert!((row.buttonhole.unwrap() - (millimetres + 3.0)).abs() < 1e-9, "{line}");
    }
}

/// The length of the raw edge of the first edge's allowance, by `geo`.
fn raw_edge(line: &[CutRun]) -> f64 {
    let run = line.iter().find(|run| run.along == Some(DrawnEdgeId::FIRST)).unwrap();
    let points = run.path.flatten(1e-5);
    let line: LineString = points.iter().map(|point| (point.x, point.y)).collect::<Vec<_>>().into();
    Euclidean.length(&line)
}

fn hemmed(ring: &[Path], depth: f64) -> f64 {
    let mut allowed = vec![Allowed::default(); ring.len()];
    allowed[0] = Allowed { width: depth, turned_up: true, ..Allowed::default() };
    raw_edge(&cutting_line(ring, &allowed, &vec![CornerCut::default(); ring.len()]).unwrap())
}

/// Beside an arc that turns by an angle the raw edge at depth d is longer by d times the angle: by πd
/// for a half circle, 2πd for the two halves of a full one.
#[test]
fn a_round_hem_is_longer_at_its_raw_edge() {
    let quarters = |count: i32, radius: f64| {
        let waist = 120.0;
        let at = |radius: f64, quarter: i32| {
            Point::new(
                [1.0, 0.0, -1.0, 0.0][quarter as usize] * radius,
                [0.0, 1.0, 0.0, -1.0][quarter as usize] * radius,
            )
        };
        let hem = arc_about(Point::ZERO, at(radius, 0), at(radius, count), Turning::Anticlockwise).unwrap();
        let round = arc_about(Point::ZERO, at(waist, count), at(waist, 0), Turning::Clockwise).unwrap();
        vec![
            hem,
            Path::straight(at(radius, count), at(waist, count)),
            round,
            Path::straight(at(waist, 0), at(radius, 0)),
        ]
    };
    for depth in [6.0, 20.0, 30.0] {
        for (count, angle) in [(1, PI / 2.0), (2, PI), (3, 1.5 * PI)] {
            let excess = hemmed(&quarters(count, 700.0), depth) - angle * 700.0;
            // Arcs are drawn as cubic curves, good to some hundredths of a millimetre on such a radius.
            assert!((excess - angle * depth).abs() < 0.05, "{count} quarters, {depth} deep: {excess}");
        }
    }
}

/// A half circle of 70 cm with a hem 10 cm deep: π × 10 cm = 31.4 cm of π × 70 = 219.9 cm, 14 %, and for
/// both halves of a full circle 2π × 10 = 62.8 cm.
#[test]
fn a_round_hem_is_told_what_must_be_eased_in() {
    let compiled = made(
        "garment \"Mess skirt\"\nunits cm\nallowance 1\nfabric serge \"serge\" { width 150 }\nlayer outer in serge { half }\n\
         piece half \"Half\" {\ncut 2\npoint middle = (0, 0)\npoint a = (12, 0)\npoint b = (-12, 0)\npoint c = (-70, 0)\npoint d = (70, 0)\n\
         outline from d {\nhem to c arc about middle anticlockwise\nleft to b\nwaist to a arc about middle clockwise\nright to d\n}\n}\n\
         seam side half.left to half.right\nfinish half.waist  bound 1\nfinish half.hem  hem 10\n",
    );
    let [one] = told(&compiled, "hem/short")[..] else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!(one.severity(), Severity::Advice);
    assert_eq!(
        one.title,
        "a hem of 10 cm is deep for the curve of the hem of Half: 31.4 cm, 14 %, must be eased in"
    );
}

/// A shirt's tail swings down and up again: from level to steep and back to level it turns by nothing on
/// the whole, and yet each bend is a curve that a hem 4 cm deep does not lie round. One of 6 mm does, as
/// shirt tails have it (common practice: 5 to 10 mm).
#[test]
fn a_hem_that_swings_both_ways_is_judged_bend_by_bend() {
    let hems = |deep: &str, drop: &str| {
        let compiled = made(&format!(
            "garment \"Stoker's shirt\"\nunits cm\nallowance 1\nfabric flannel \"flannel\" {{ width 150 }}\nlayer outer in flannel {{ tail }}\n\
             piece tail \"Tail\" {{\ncut 1\npoint a = (0, 0)\npoint b = (20, {drop})\npoint c = (20, 40)\npoint d = (0, 40)\n\
             outline from a {{\nhem to b curve leaving right arriving right\nright to c\ntop to d\nleft to a\n}}\n}}\n\
             finish tail.top, tail.left, tail.right  raw\nfinish tail.hem  hem {deep}\n"
        ));
        told(&compiled, "hem/short").len()
    };
    assert_eq!(hems("4", "12"), 1);
    assert_eq!(hems("6mm", "12"), 0);
    assert_eq!(hems("4", "0"), 0);
}

/// A skirt whose sides lean by an angle a: turned up by d, the raw edge must be 2d·tan a longer than
/// the hem where it narrows downwards, and as much shorter where it flares.
#[test]
fn a_tapering_hem_is_mirrored() {
    for (degrees, depth) in [(5.0_f64, 30.0), (-5.0, 30.0), (12.0, 40.0), (-20.0, 25.0)] {
        let lean = 300.0 * degrees.to_radians().tan();
        let corners = [(0.0, 0.0), (500.0, 0.0), (500.0 + lean, 300.0), (-lean, 300.0)].map(Point::from);
        let ring: Vec<Path> = (0..4).map(|at| Path::straight(corners[at], corners[(at + 1) % 4])).collect();
        let raw = hemmed(&ring, depth);
        let excess = 2.0 * depth * degrees.to_radians().tan();
        assert!((raw - (500.0 + excess)).abs() < 1e-6, "{degrees}°: {raw}, expected {}", 500.0 + excess);
    }
}

/// A layer of thickness t inside a girth takes 2πt of it: 5 and 3 mm are 31.4 and 18.8, together 50.3
/// of 120 mm.
#[test]
fn what_lies_inside_takes_its_thickness_all_round() {
    let compiled = made(
        "garment \"Deck jacket\"\nunits mm\nallowance 10\nsizes S\nbody { chest 880 }\nfabric shell \"shell\" { width 1500; thickness 9 }\n\
         fabric fleece \"fleece\" { width 1500; thickness 5 }\nfabric felt \"felt\" { width 1500; thickness 3 }\n\
         layer outer in shell { trunk }\nlayer middle in felt { trunk }\nlayer lining in fleece { trunk }\n\
         measure finished_chest \"Finished chest\" against chest = total(trunk.bottom)\n\
         piece trunk \"Trunk\" { cut 1 on fold left; outline rectangle 500 by 600 }\n\
         seam back trunk.right to trunk.right\nfinish trunk.top, trunk.bottom  hem 20\n",
    );
    let [one] = told(&compiled, "cloth/thick")[..] else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!(one.title, "what lies inside takes 50 mm of the 120 mm of ease that Finished chest has");
    let labels: Vec<&str> = one.labels.iter().skip(1).map(|label| label.text.as_str()).collect();
    assert_eq!(
        labels,
        ["middle is 3 mm thick: 2π times that is 19 mm", "lining is 5 mm thick: 2π times that is 31 mm"]
    );
}

fn cord(wearer: &str, through: &str, ends: &str) -> Diagnostic {
    let compiled = made(&format!(
        "garment \"Small smock\"\nunits mm\nallowance 10\nwearer child from {wearer} years\nfabric cloth \"cloth\" {{ width 1500 }}\n\
         layer outer in cloth {{ smock, hood }}\n\
         piece smock \"Smock\" {{ cut 1 on fold left; outline rectangle 400 by 600 }}\n\
         piece hood \"Hood\" {{ cut 1 on fold left; outline rectangle 300 by 300 }}\n\
         seam back smock.right to smock.right\nseam hood_back hood.right to hood.right\n\
         finish smock.top, hood.bottom  raw\nfinish smock.bottom, hood.top  casing 20\ncord pull 900 through {through}  ends {ends} free\n"
    ));
    let [one] = told(&compiled, "caution/cord")[..] else { panic!("{:#?}", compiled.diagnostics) };
    one.clone()
}

/// 16 CFR 1120.3 (Federal Register 76:42502, 19 July 2011) and ASTM F1816: at hood and neck in sizes 2T
/// to 12 a substantial product hazard; at waist and bottom in sizes 2T to 16 at most 3 in, 76.2 mm
/// (NIST SP 811), outside the channel. Sizes are taken as ages.
#[test]
fn drawstrings_by_size_and_length() {
    for (wearer, is_hazard) in
        [("2 to 3", true), ("11 to 13", true), ("12 to 14", true), ("13 to 16", false), ("0 to 1", false)]
    {
        let help = cord(wearer, "hood.top", "50").help.unwrap();
        assert_eq!(help.contains("substantial product hazard"), is_hazard, "{wearer}: {help}");
        assert!(help.contains("sizes 2T to 12") && help.contains("16 CFR 1120.3"), "{help}");
    }
    for (wearer, is_limited) in
        [("2 to 3", true), ("13 to 16", true), ("16 to 17", true), ("17 to 18", false)]
    {
        let help = cord(wearer, "smock.bottom", "50").help.unwrap();
        assert_eq!(help.contains("at most 3 in (76 mm)"), is_limited, "{wearer}: {help}");
        assert!(help.contains("sizes 2T to 16") && help.contains("ASTM F1816"), "{help}");
    }
    for (ends, is_more) in [("76", false), ("76.2", false), ("76.3", true), ("3in", false), ("100", true)] {
        let help = cord("4 to 7", "smock.bottom", ends).help.unwrap();
        assert_eq!(help.contains("which is more"), is_more, "{ends}: {help}");
    }
}
