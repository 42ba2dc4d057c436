//! What goes, and what stays, where a variation drops a piece, a layer, a slit or an alteration.

use crate::workbench::in_memory;
use fustian::{Compiled, compile};

/// A skirt for the crew on a band, with a slip of satin that hangs in its waist and a pleat that is let into the back.
const SKIRT: &str = r#"garment "Skirt"
units cm
allowance 1
fabric drill "drill" { width 150 }
fabric satin "satin" { width 140 }
layer outer in drill { front, back, band }
layer lining in satin { slip_front, slip_back }
piece front "Front" { cut 1 on fold left; outline rectangle 20 by 50 }
piece back "Back" { cut 1 on fold left; outline rectangle 20 by 50 }
piece slip_front "Slip, front" { cut 1 on fold left; outline rectangle 20 by 40 }
piece slip_back "Slip, back" { cut 1 on fold left; outline rectangle 20 by 40 }
piece band "Band" { cut 1; outline rectangle 80 by 6; folded top to bottom }
let pleat action into back.bottom at 8 from left depth 2 toward right to nothing at top trued
seam side front.right to back.right
seam slip_side slip_front.right to slip_back.right
seam ends band.left to band.right
seam waist band.bottom and band.top and slip_front.top + slip_back.top to front.top + back.top {
  matching band.bottom_left with front.top_right
  matching slip_front.top_right with front.top_right
}
finish front.bottom, back.bottom, slip_front.bottom, slip_back.bottom hem 2
steps {
  "Pleats" { baste back.action }
  "Seams" { sew side, slip_side, ends }
  "Waist" { sew waist }
  "Hems" { hem front.bottom, back.bottom, slip_front.bottom, slip_back.bottom }
}
"#;

/// A pouch of two halves whose front is slit for a hand and lined with a copy of it that is not.
const POUCH: &str = r#"garment "Pouch"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, back }
layer inside in drill { inner }
piece front "Front" {
  cut 1
  outline rectangle 20 by 24
  slit hand from (6, 12) to (14, 12)
  mark badge = (10, 18)
}
piece back "Back" { cut 1; outline rectangle 20 by 24 }
piece inner "Inner front" { cut 1; outline copy of front; without hand, badge }
seam round outer.front.left + outer.front.bottom + outer.front.right and inside.inner.left + inside.inner.bottom + inside.inner.right to outer.back.left + outer.back.bottom + outer.back.right
finish front.top, back.top, inner.top hem 2
finish front.hand.near, front.hand.far bound 0.6
steps { "Pouch" { finish front.hand.near, front.hand.far; sew round; hem front.top, back.top, inner.top } }
"#;

fn varied(base: &str, changes: &str) -> Compiled {
    let variation = format!("variation \"Own\" of \"base.fus\"\n{changes}\n");
    compile(&in_memory(&[("own.fus", &variation), ("base.fus", base)]), "own.fus")
}

fn told(compiled: &Compiled) -> Vec<String> {
    compiled.diagnostics.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect()
}

const BARE: &str = "drop slit front.hand\ndrop finish front.hand.near\ndrop finish front.hand.far";

#[test]
fn a_pleat_that_is_let_in_no_more_leaves_the_steps() {
    assert_eq!(told(&varied(SKIRT, "")), [] as [&str; 0]);
    let without = varied(SKIRT, "drop let pleat action into back.bottom");
    assert_eq!(told(&without), ["drop/along: dropping action also takes it out of the steps"]);
}

/// What is let into a piece, and what is sewn of it alone, goes with the piece: only edges are left that want a partner.
#[test]
fn what_is_let_into_a_piece_goes_with_it() {
    let without = told(&varied(SKIRT, "drop back and all sewn to it"));
    let title = "dropping back also drops what is sewn to it: an alteration of it, the seam side, the seam waist, the finish of \
                 back.bottom";
    assert_eq!(without.first().map(String::as_str), Some(format!("drop/along: {title}").as_str()));
    assert!(without.iter().skip(1).all(|one| one.starts_with("edge/loose")), "{without:#?}");
}

#[test]
fn a_seam_that_others_hold_loses_the_ply_alone() {
    let unlined = varied(SKIRT, "drop lining and all sewn to it\ndrop fabric satin");
    let title = "dropping lining also drops what is sewn to it: the piece slip_front, the piece slip_back, the seam slip_side, \
                 what the seam waist has of it, the finish of slip_front.bottom, the finish of slip_back.bottom";
    assert_eq!(told(&unlined), [format!("drop/along: {title}")]);
    // Skirt and slip are as wide as each other, and hang from one seam without a band as well.
    let hanging = varied(SKIRT, "drop band and all sewn to it");
    let title = "dropping band also drops what is sewn to it: the seam ends, what the seam waist has of it";
    assert_eq!(told(&hanging), [format!("drop/along: {title}")]);
}

#[test]
fn a_seam_that_the_variation_sews_anew_goes_whole() {
    let anew =
        "drop band and all sewn to it\nseam waist slip_front.top + slip_back.top to front.top + back.top";
    let title = "dropping band also drops what is sewn to it: the seam ends, the seam waist";
    let told = told(&varied(SKIRT, anew));
    assert_eq!(
        told,
        [&*format!("drop/along: {title}"), "step/forgotten: no step says when the seam waist is sewn"]
    );
}

#[test]
fn what_is_dropped_need_not_be_left_out_any_more() {
    assert_eq!(told(&varied(POUCH, "")), [] as [&str; 0]);
    let is_advice = |told: &[String]| told.iter().all(|one| one.starts_with("step/gone"));
    for more in ["", "\ndrop mark front.badge"] {
        let told = told(&varied(POUCH, &format!("{BARE}{more}")));
        assert!(is_advice(&told), "{more}: {told:#?}");
    }
    // What the file itself leaves out is its own slip.
    let slip = told(&varied(POUCH, &format!("{BARE}\nin piece inner replace {{ without hand, badge }}")));
    let unknown = "name/unknown: Front has no mark, line, dart, pleat or slit called hand".to_owned();
    assert!(slip.contains(&unknown), "{slip:#?}");
    // Drawn anew, it is still left out: a slit in the inner half would want to be sewn.
    let anew = "drop slit front.hand\nin piece front add { slit hand from (6, 10) to (14, 10) }";
    let moved = told(&varied(POUCH, anew));
    assert_eq!(moved, [] as [&str; 0]);
}
