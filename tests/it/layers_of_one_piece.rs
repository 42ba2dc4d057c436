//! Pieces that lie in one layer each: a waistcoat with a front of one cloth and a back of another. Nothing is to be chosen, so
//! nothing is to be said.

use crate::workbench::{NOTHING, in_memory, said, told, with};
use fustian::compile;

/// By hand: each side is 60 - 20 = 40, each shoulder 20 - 8 = 12; the neck is finished by itself.
const WAISTCOAT: &str = r#"garment "Mate's waistcoat"
units cm
allowance 1
body { chest 96 }
sizes M
fabric tweed "wool tweed" { width 150 }
fabric satin "back satin" { width 140 }
layer outer in tweed { front }
layer behind in satin { back }
piece front "Front" {
  cut 2 mirrored
  drawn left
  point low_cf = (0, -60)
  point cf = (0, -22)
  point neck = (8, 0)
  point tip = (20, 0)
  point under = (26, -20)
  point low_side = (26, -60)
  outline from low_cf {
    edge to cf
    neckline to neck
    shoulder to tip
    armhole to under
    side to low_side
    hem to low_cf
  }
}
piece back "Back" {
  cut 2 mirrored
  drawn right
  point low_cb = (0, -60)
  point neck_cb = (0, -2)
  point neck = (8, 0)
  point tip = (20, 0)
  point under = (26, -20)
  point low_side = (26, -60)
  outline from low_cb {
    centre to neck_cb
    neckline to neck
    shoulder to tip
    armhole to under
    side to low_side
    hem to low_cb
  }
}
seam shoulder front.shoulder to back.shoulder
seam side front.side to back.side
seam centre back.centre to back.centre
finish front.edge, front.neckline, front.armhole, front.hem, back.neckline, back.armhole, back.hem bound 1
"#;

fn of_its_own(text: &str) -> Vec<&'static str> {
    said(text)
        .into_iter()
        .filter(|slug| matches!(slug.split('/').next(), Some("part" | "edge" | "piece")))
        .collect()
}

#[test]
fn a_back_of_another_cloth_is_sewn_to_the_front_without_a_word_of_layers() {
    let named = with(
        WAISTCOAT,
        &[
            ("front.shoulder to back.shoulder", "outer.front.shoulder to behind.back.shoulder"),
            ("seam side front.side to back.side", "seam side outer.front.side to behind.back.side"),
        ],
    );
    assert_eq!(told(WAISTCOAT), told(&named));
    let lengths = |text: &str| -> Vec<[f64; 2]> {
        let compiled = compile(&in_memory(&[("own.fus", text)]), "own.fus");
        let all = compiled.sizes[0].sewn.seams.iter();
        all.map(|sewn| [sewn.first.plies[0].length, sewn.second.plies.first().map_or(0.0, |ply| ply.length)])
            .collect()
    };
    assert_eq!(lengths(WAISTCOAT)[..2], [[120.0, 120.0], [400.0, 400.0]]);
    assert_eq!(lengths(WAISTCOAT), lengths(&named));
    assert_eq!(of_its_own(WAISTCOAT), NOTHING);
}

/// An armhole ring over both cloths is passed as one.
#[test]
fn an_opening_goes_over_both() {
    let text = format!("{WAISTCOAT}opening front.armhole + back.armhole passes chest\n");
    let named = text
        .replace("opening front.armhole + back.armhole", "opening outer.front.armhole + behind.back.armhole");
    assert_eq!(told(&text), told(&named));
    assert!(said(&text).contains(&"opening/passes"), "two armholes of 21 do not let a chest of 96 through");
}

/// With a lining, front and back are each there twice, and the lining's back may be forgotten: that is told as before.
#[test]
fn what_is_missing_in_a_layer_is_told() {
    let lined = with(
        WAISTCOAT,
        &[(
            "layer behind in satin { back }",
            "layer behind in satin { back }\nlayer lining in satin { front, back }",
        )],
    );
    // In the lining the two lie together, and in outer and behind nothing joins them any more.
    assert!(of_its_own(&lined).contains(&"edge/loose"));
    let lacking = with(&lined, &[("lining in satin { front, back }", "lining in satin { front }")]);
    assert!(of_its_own(&lacking).contains(&"part/missing"));
    // A layer that is named and has no such piece.
    let wrong = with(WAISTCOAT, &[("seam side front.side", "seam side behind.front.side")]);
    assert!(of_its_own(&wrong).contains(&"part/missing"));
}
