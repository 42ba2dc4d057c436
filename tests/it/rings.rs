//! Panels cut alike and sewn each to the next, in a ring.

use crate::workbench::{of, said};

/// A cap of so many panels, 10 cm wide at the bottom, and a band that is sewn to them.
fn cap(cut: &str, seams: &str, band: &str) -> String {
    format!(
        "garment \"Watch cap\"
units cm
allowance 1
fabric felt \"felt\" {{ width 150 }}
layer main in felt {{ panel, band }}
piece panel \"Panel\" {{
  {cut}
  point low_left = (0, 0)
  point low_right = (10, 0)
  point top = (5, 18)
  outline from low_left {{ bottom to low_right; right to top curve leaving up; left to low_left curve arriving down }}
}}
{band}
{seams}
finish band.bottom overlocked"
    )
}

const BAND: &str = "piece band \"Band\" { cut 1; outline rectangle 60 by 6 }
seam band_ends band.left to band.right { matching band.top_left with band.top_right }";
const SEAMS: &str = "seam panels panel.right to panel.left in a ring
seam brim band.top to panel.bottom in a ring { matching band.top_left with panel.low_left }";

/// Six panels of 10 cm are 60 cm round, as long as the band, by hand; with five it is 10 cm too long.
#[test]
fn all_panels_together_meet_the_band() {
    let text = cap("cut 6", SEAMS, BAND);
    assert_eq!(said(&text), [""; 0]);
    assert!(said(&cap("cut 5", SEAMS, BAND)).contains(&"seam/unequal"));
    let compiled = of(&text);
    let sewing = &compiled.sizes[0].sewn;
    let of = |name: &str| {
        let mut seams = sewing.seams.iter();
        seams.find(|sewn| *compiled.garment.seam(sewn.seam).name == *name).expect("the seam")
    };
    assert_eq!((of("panels").sewings, of("brim").sewings), (6, 1));
    assert!((of("brim").second.plies[0].length - 600.0).abs() < 1e-6);
    assert_eq!(of("brim").second.plies[0].runs.len(), 6);
}

/// Six triangles glued in a ring about one point are a disc: with the band round it one surface, 7 faces, with one rim
/// (Euler: a disc and a ring glued along a circle are a disc).
#[test]
fn the_cap_is_one_surface_with_one_rim() {
    let compiled = of(&cap("cut 6", SEAMS, BAND));
    let faces = &compiled.sizes[0].sewn.surface.as_ref().expect("a surface").faces;
    assert_eq!(faces.len(), 7);
    let document =
        fustian::emit::document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
    let written: serde_json::Value =
        serde_json::from_str(&fustian::emit::to_text(&document).expect("finite")).expect("a document");
    let rims = written["sizes"][0]["rims"].as_array().expect("rims");
    assert_eq!(rims.len(), 1, "{rims:?}");
    assert_eq!(written["sizes"][0]["seams"][1]["each_to_the_next"], true);
}

/// Two panels: without the words each would be a tube by itself; in a ring they go round together. Sewn to a lining of two,
/// once round it is.
#[test]
fn two_panels_and_a_lining_of_them() {
    let lining = "piece band \"Lining\" { cut 2; outline rectangle 10 by 6 }
seam sides band.right to band.left in a ring { matching band.bottom_right with band.bottom_left }";
    let text = cap(
        "cut 2",
        "seam panels panel.right to panel.left in a ring
seam brim band.top in a ring to panel.bottom in a ring { matching band.top_left with panel.low_left }",
        lining,
    );
    assert_eq!(said(&text), [""; 0]);
    let compiled = of(&text);
    let brim =
        compiled.sizes[0].sewn.seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *"brim");
    let brim = brim.expect("the seam");
    assert_eq!((brim.sewings, brim.first.plies[0].runs.len(), brim.second.plies[0].runs.len()), (1, 2, 2));
    assert!((brim.first.plies[0].length - 200.0).abs() < 1e-6);
}

#[test]
fn rings_that_are_none() {
    let found = |cut: &str, seams: &str| said(&cap(cut, seams, BAND));
    assert!(found("cut 6 mirrored", SEAMS).contains(&"seam/ring"));
    assert!(found("cut 1", SEAMS).contains(&"seam/ring"));
    // Nothing joins the panels.
    let open = "finish panel.left, panel.right overlocked
seam brim band.top to panel.bottom in a ring { matching band.top_left with panel.low_left }";
    assert!(found("cut 6", open).contains(&"seam/ring"));
    // Without the words each panel is closed to a cone by itself.
    let cones = SEAMS.replace("panel.left in a ring", "panel.left");
    assert_eq!(said(&cap("cut 6", &cones, BAND)), ["seam/ring"]);
    // A row of edges is no edge of pieces that are alike.
    let row = "seam panels panel.right to panel.left in a ring
seam brim band.top to panel.bottom + band.bottom in a ring";
    assert!(found("cut 6", row).contains(&"seam/ring"));
}

/// Said on both sides, the ring of one layer is sewn to the ring of the other: six times 10 cm on six times 10 cm,
/// by hand. In one layer an edge is not sewn to itself so.
#[test]
fn a_ring_is_sewn_to_the_ring_of_its_lining() {
    let lined = |edge: &str| {
        let text = cap(
            "cut 6",
            &format!(
                "seam panels panel.right to panel.left in a ring\nseam edge {edge} {{ leaving gap 15 in lining }}"
            ),
            "",
        );
        text.replace(
            "layer main in felt { panel, band }",
            "layer main in felt { panel }\nlayer lining in felt { panel }",
        )
        .replace("finish band.bottom overlocked", "")
    };
    let text = lined("main.panel.bottom in a ring to lining.panel.bottom in a ring");
    assert_eq!(said(&text), [""; 0]);
    let compiled = of(&text);
    let edge =
        compiled.sizes[0].sewn.seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *"edge");
    let edge = edge.expect("the seam");
    assert_eq!((edge.sewings, edge.first.plies[0].runs.len(), edge.second.plies[0].runs.len()), (1, 6, 6));
    assert!((edge.first.plies[0].length - 600.0).abs() < 1e-6);
    assert!(said(&lined("panel.bottom in a ring to panel.bottom in a ring")).contains(&"seam/ring"));
}

/// Notches that a seam cuts into each part of the cap, along its edge in cm.
fn notches(text: &str, name: &str) -> Vec<f64> {
    let compiled = of(text);
    let mut parts = compiled.sizes[0].sewn.parts.iter();
    let part = parts.find(|part| *compiled.garment.piece(part.part.piece).name == *name).expect("it is cut");
    part.notches.iter().map(|notch| (notch.along / 10.0 * 100.0).round() / 100.0).collect()
}

/// Six panels of 10 cm in a ring of 60, from where the band's ends meet: quarters are at 15, 30 and 45 cm, and joints at
/// 10, 20, 30, 40 and 50. The first and the last quarter fall in the middle of the second panel and of the fifth alone;
/// the panels are cut alike, so that they are not notched there, and the band is. The band's top is drawn from right to
/// left.
#[test]
fn panels_that_are_alike_are_notched_where_each_of_them_is() {
    let with = |line: &str| cap("cut 6", &SEAMS.replace("low_left }", &format!("low_left; {line} }}")), BAND);
    let quarters = with("notch quarters");
    assert_eq!(said(&quarters), [""; 0]);
    assert_eq!(notches(&quarters, "panel"), [0.0; 0]);
    assert_eq!(notches(&quarters, "band"), [10.0, 15.0, 20.0, 30.0, 40.0, 45.0, 50.0]);
    let thirds = with("notch thirds");
    assert_eq!(notches(&thirds, "panel"), [0.0; 0]);
    assert_eq!(notches(&thirds, "band"), [10.0, 20.0, 30.0, 40.0, 50.0]);
    // Every 5 cm: in the middle of each panel.
    let fives = with("notch every 5");
    assert_eq!(notches(&fives, "panel"), [5.0]);
    assert_eq!(notches(&fives, "band"), [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0]);
    // No more than 9 apart: seven parts of 8.57, of which none falls on the same place of two panels.
    let nines = with("notch every 9");
    assert_eq!(notches(&nines, "panel"), [0.0; 0]);
    let sevenths = [8.57, 17.14, 25.71, 34.29, 42.86, 51.43];
    assert!(sevenths.iter().all(|at| notches(&nines, "band").contains(at)), "{:?}", notches(&nines, "band"));
}

/// An opening may say that its edge is the round one of all copies; where nothing sews them in a ring it is told.
#[test]
fn an_opening_goes_once_round_all_panels() {
    let opening = "\nopening panel.bottom in a ring passes head";
    let body = "units cm\nbody { head 56 }";
    let with = |seams: &str| format!("{}{opening}", cap("cut 6", seams, BAND).replace("units cm", body));
    assert_eq!(said(&with(SEAMS)), [""; 0]);
    let small = with(SEAMS).replace("head 56", "head 64");
    assert_eq!(said(&small), ["opening/passes"]);
    let alone = with(SEAMS).replace("panel.right to panel.left in a ring", "panel.right to panel.left");
    assert!(said(&alone).contains(&"seam/ring"), "{:?}", said(&alone));
    let single = with(SEAMS).replace("opening panel.bottom", "opening band.bottom");
    assert!(said(&single).contains(&"seam/ring"), "{:?}", said(&single));
}
