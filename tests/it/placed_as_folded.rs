//! What is placed lies as it is folded, and on what is left of the piece it is placed on.

use crate::workbench::{NOTHING, cured, said, told, with};

/// A panel of 40 by 40 with a flap of 14 by 10, folded to 5, above a pocket whose mouth lies at 24.
const PANEL: &str = r#"garment "Chart panel"
units cm
allowance 1
fabric canvas "apron canvas" { width 150; kind woven firm }
layer outer in canvas { panel, flap, pocket }
piece panel "Panel" { cut 1; outline rectangle 40 by 40; mark flap_at = (10, 34); mark pocket_at = (10.3, 10) }
piece flap "Flap" { cut 1; outline rectangle 14 by 10; folded top to bottom }
piece pocket "Pocket" { cut 1; outline rectangle 13.4 by 14 }
seam flap_ends  flap.left, flap.right across the fold
finish panel.left, panel.right, panel.bottom, panel.top  hem 1
finish pocket.top  hem 2
place pocket on panel { corner bottom_left at pocket_at; topstitch left, right, bottom }
place flap on panel { corner bottom_left at flap_at; topstitch bottom, top }
"#;

#[test]
fn a_folded_flap_is_half_as_high_as_its_paper() {
    // 34 and half of 10 are 39: on the panel, where 34 and 10 would be off it.
    assert_eq!(said(PANEL), NOTHING);
    let higher = with(PANEL, &[("flap_at = (10, 34)", "flap_at = (10, 36)")]);
    assert_eq!(told(&higher), [("place/below-hem", "Flap reaches 1 cm below the top of Panel".to_owned())]);
    // Put by its other edge it hangs down from there: from 31 to 26, and the mouth lies at 24.
    let hanging = [
        ("flap_at = (10, 34)", "flap_at = (10, 31)"),
        ("corner bottom_left at flap_at", "corner top_left at flap_at"),
    ];
    let text = with(PANEL, &hanging);
    assert!(!said(&text).contains(&"place/over-pocket"), "{:?}", told(&text));
    // From 28 it reaches to 23.
    assert_eq!(said(&with(&text, &[("flap_at = (10, 31)", "flap_at = (10, 28)")])), NOTHING);
}

#[test]
fn a_mark_that_is_cut_off_with_a_strip_is_not_on_the_rest() {
    let own = [
        ("without facing }", "without facing; mark lining_corner = (10, 20) }"),
        ("corner bottom_left at pocket_corner", "corner bottom_left at lining_corner"),
    ];
    cured("mark-outside-cut-off", "mark/outside", &own);
    cured("mark-outside-cut-off", "mark/outside", &[("pocket_corner = (2, 20)", "pocket_corner = (8, 20)")]);
}

#[test]
fn a_bib_of_two_layers_does_not_go_round_the_waist() {
    let bib = r#"garment "Bib of the engine crew"
units cm
allowance 1
body { waist 82 }
fabric drill "cotton drill" { width 150; kind woven firm }
layer outer in drill { bib, skirt }
layer inside in drill { bib }
piece bib "Bib" {
  cut 1 on fold centre
  point waist_cf = (0, 0)
  point low_side = (29, 0)
  point high_side = (13, 26)
  point high_cf = (0, 26)
  outline from waist_cf { waist to low_side; side to high_side; top to high_cf; centre to waist_cf }
}
piece skirt "Skirt front" { cut 1 on fold left; outline rectangle 29 by 60 }
seam bib_edge outer.bib to inside.bib along side + top
seam waist    outer.bib.waist and inside.bib.waist to skirt.top
finish skirt.right  hem 1
finish skirt.bottom  hem 3
"#;
    // The edge named after the waist is 29 on each half, 58 in all, and is sewn to the front of the skirt alone.
    let found = told(bib);
    assert!(found.iter().all(|(slug, _)| *slug != "measure/tight"), "{found:?}");
}
