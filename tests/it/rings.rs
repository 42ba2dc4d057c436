//! Panels cut alike and sewn each to the next, in a ring.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

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

fn compiled(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("cap.fus", text), "cap.fus")
}

fn slugs(text: &str) -> Vec<&'static str> {
    let compiled = compiled(text);
    compiled.diagnostics.iter().map(|one| one.slug()).filter(|slug| *slug != "steps/none").collect()
}

/// Six panels of 10 cm are 60 cm round, as long as the band, by hand; with five it is 10 cm too long.
#[test]
fn all_panels_together_meet_the_band() {
    let text = cap("cut 6", SEAMS, BAND);
    assert_eq!(slugs(&text), [""; 0]);
    assert!(slugs(&cap("cut 5", SEAMS, BAND)).contains(&"seam/unequal"));
    let compiled = compiled(&text);
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
    let compiled = compiled(&cap("cut 6", SEAMS, BAND));
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
    assert_eq!(slugs(&text), [""; 0]);
    let compiled = compiled(&text);
    let brim =
        compiled.sizes[0].sewn.seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *"brim");
    let brim = brim.expect("the seam");
    assert_eq!((brim.sewings, brim.first.plies[0].runs.len(), brim.second.plies[0].runs.len()), (1, 2, 2));
    assert!((brim.first.plies[0].length - 200.0).abs() < 1e-6);
}

#[test]
fn rings_that_are_none() {
    let found = |cut: &str, seams: &str| slugs(&cap(cut, seams, BAND));
    assert!(found("cut 6 mirrored", SEAMS).contains(&"seam/ring"));
    assert!(found("cut 1", SEAMS).contains(&"seam/ring"));
    // Nothing joins the panels.
    let open = "finish panel.left, panel.right overlocked
seam brim band.top to panel.bottom in a ring { matching band.top_left with panel.low_left }";
    assert!(found("cut 6", open).contains(&"seam/ring"));
    // Without the words each panel is closed to a cone by itself.
    let cones = SEAMS.replace("panel.left in a ring", "panel.left");
    assert_eq!(slugs(&cap("cut 6", &cones, BAND)), ["seam/ring"]);
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
    assert_eq!(slugs(&text), [""; 0]);
    let compiled = compiled(&text);
    let edge =
        compiled.sizes[0].sewn.seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *"edge");
    let edge = edge.expect("the seam");
    assert_eq!((edge.sewings, edge.first.plies[0].runs.len(), edge.second.plies[0].runs.len()), (1, 6, 6));
    assert!((edge.first.plies[0].length - 600.0).abs() < 1e-6);
    assert!(slugs(&lined("panel.bottom in a ring to panel.bottom in a ring")).contains(&"seam/ring"));
}
