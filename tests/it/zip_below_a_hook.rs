//! A zip below the hook of a waistband: both open, one after the other, whatever is sewn behind the zip.

use crate::workbench::{NOTHING, said, told, with};

const SKIRT: &str = r#"
garment "Lined skirt of the purser"
units cm
allowance 1.5
wearer adult
body { hip 130 }
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { front, back, band }
layer lining in serge { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle 25 by 60 }
piece back "Back" { cut 2 mirrored; outline rectangle 25 by 60 }
piece band "Waistband" { cut 1; outline rectangle 100 by 8; folded top to bottom }
trim lining.front.bottom, lining.back.bottom by 2
seam side front.right to back.right
seam centre back.left to back.left
closure zip  outer.back.left 20 from top_left to outer.back.left 20 from top_left { zipper concealed 20 }
seam zip_edge lining.back.left 20 from top_left to outer.back.left 20 from top_left enclosing zip
seam waist band.bottom and band.top and lining.front.top + lining.back.top to outer.front.top + outer.back.top { matching band.bottom_left with outer.back.top_left; matching lining.back.top_left with outer.back.top_left }
seam ends band.left, band.right across the fold
closure hook band.left to band.right { hooks 1 }
finish outer.front.bottom, outer.back.bottom hem 3
finish lining.front.bottom, lining.back.bottom hem 2
opening outer.front.top + outer.back.top passes hip
"#;

#[test]
fn a_lined_skirt_opens_at_the_hook_and_on_down_the_zip() {
    // Round the waist 100, and twice the zip's 20 with what hooks above it open: 140; round the fold of the band, 4 above it, 148.
    assert_eq!(said(SKIRT), NOTHING);
    assert_eq!(said(&with(SKIRT, &[("hip 130", "hip 139.5")])), NOTHING);
    let narrow = with(SKIRT, &[("hip 130", "hip 142")]);
    let passes = |text: &str| -> Vec<String> {
        let all = told(text).into_iter().filter(|(slug, _)| *slug == "opening/passes");
        all.map(|(_, title)| title).collect()
    };
    let words = "the opening of the top of Front and the top of Back is 2 cm too small for the hip";
    assert_eq!(passes(&narrow), [words]);
    // Not lined it opens as wide.
    let unlined = [
        ("layer lining in serge { front, back }\n", ""),
        ("trim lining.front.bottom, lining.back.bottom by 2\n", ""),
        (
            "seam zip_edge lining.back.left 20 from top_left to outer.back.left 20 from top_left enclosing zip\n",
            "",
        ),
        (" and lining.front.top + lining.back.top", ""),
        ("; matching lining.back.top_left with outer.back.top_left", ""),
        ("finish lining.front.bottom, lining.back.bottom hem 2\n", ""),
    ];
    assert_eq!(passes(&with(&narrow, &unlined)), [words]);
    // Where the lining is sewn through behind the zip, it does not open there.
    let shut = with(
        SKIRT,
        &[(
            "seam zip_edge lining.back.left 20 from top_left to outer.back.left 20 from top_left enclosing zip\n",
            "",
        )],
    );
    assert_eq!(said(&shut), ["opening/passes"]);
}
