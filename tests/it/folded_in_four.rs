//! Straps and ties: folded in four, with both long edges inside.

use crate::workbench::{of, said};
use fustian::Compiled;
use fustian::emit::{document, fates_table, to_text};
use serde_json::{Value, json};

/// A ticket bag: one flap with a tab of 2.5 cm at its top, to which a strap of 60 by 10 cm is sewn.
fn bag(facts: &str) -> String {
    format!(
        "garment \"Ticket bag\"
units cm
allowance 1
fabric canvas \"waxed canvas\" {{ width 150; selvage 1 }}
layer main in canvas {{ flap, strap }}
piece flap \"Flap\" {{
  cut 1
  point a = (0, 0)
  point b = (24, 0)
  point c = (13.25, 30)
  point d = (10.75, 30)
  outline from a {{ below to b; side to c; tab to d; lee to a }}
}}
piece strap \"Strap\" {{
  cut 1
  outline rectangle 60 by 10
  folded top to bottom in four
}}
seam hang strap.left to flap.tab {{ matching strap.top_left with flap.c }}
finish strap.right hem 1
finish flap.below, flap.side, flap.lee overlocked
{facts}"
    )
}

fn written(compiled: &Compiled) -> Value {
    let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
    serde_json::from_str(&to_text(&document).expect("figures that are finite")).expect("a document")
}

/// By hand: a strap drawn 10 cm wide comes out 2.5, so that its end is as long as the tab; along its long edges
/// nothing is added, at its ends 1 cm each.
#[test]
fn a_strap_comes_out_a_quarter_as_wide() {
    let text = bag("let wide = finished(strap.left)\nlet long = finished(strap.top)");
    assert_eq!(said(&text), [""; 0]);
    let compiled = of(&text);
    let value = |name: &str| {
        let at = compiled.garment.values.iter().position(|value| *value.name == *name).expect("a value");
        compiled.sizes[0].drawn.values[at].and_then(|value| value.scalar()).unwrap_or_default()
    };
    assert!((value("wide") - 25.0).abs() < 1e-9 && (value("long") - 600.0).abs() < 1e-9);
    let written = written(&compiled);
    let strap = &written["sizes"][0]["pieces"][1];
    assert_eq!(strap["finished"], json!({ "width": 600, "height": 25 }));
    assert_eq!(strap["cut"], json!({ "width": 620, "height": 100 }));
    assert_eq!(strap["folded"], json!([{ "edge": "top", "onto": "bottom", "in_four": true }]));
    let fates = fates_table(&compiled.garment, &compiled.sizes[0].drawn, &compiled.sizes[0].sewn);
    let inside: Vec<&str> =
        fates.iter().filter(|row| row.fates == ["folded in"]).map(|row| row.edge.as_str()).collect();
    assert_eq!(inside, ["bottom", "top"]);
}

/// Folded once it is 5 cm wide, and its edges are to be sewn or finished.
#[test]
fn folded_once_it_is_half_as_wide_and_open() {
    let once = bag("").replace(" in four", "");
    let found = said(&once);
    assert!(found.contains(&"edge/loose") && found.contains(&"seam/unequal"), "{found:?}");
}

#[test]
fn nothing_is_sewn_to_what_lies_inside() {
    for facts in [
        "finish strap.bottom hem 1",
        "finish strap.bottom bound 1",
        "cord pull 80 through strap.bottom",
        "closure snap strap.bottom to strap.top { buttons 3 of 15mm from 2 below top_left to 2 above top_right }",
    ] {
        let found = said(&bag(facts));
        assert!(found.contains(&"fold/inside"), "{facts}: {found:?}");
    }
    let seam = bag("seam shut strap.bottom to flap.below").replace("finish flap.below, ", "finish ");
    assert!(said(&seam).contains(&"fold/inside"));
    // Left raw they are in any case.
    assert!(!said(&bag("finish strap.bottom, strap.top raw")).contains(&"fold/inside"));
    let raw = written(&of(&bag("finish strap.bottom, strap.top raw")));
    assert_eq!(raw["sizes"][0]["pieces"][1]["cut"], json!({ "width": 620, "height": 100 }));
}

#[test]
fn the_two_edges_are_alike() {
    let drawn = "point p = (0, 0)\n  point q = (60, 0)\n  point r = (50, 10)\n  point s = (0, 10)\n  \
                 outline from p { bottom to q; right to r; top to s; left to p }";
    let text = bag("").replace("outline rectangle 60 by 10", drawn).replace("strap.top_left", "strap.s");
    assert!(said(&text).contains(&"fold/unequal"));
}
