//! What is placed with a mouth, on one side alone, or hanging: what is refused, and what is right.

use crate::workbench::{said, with};
use fustian::source::MemoryLoader;

const NOTHING: [&str; 0] = [];

/// The ways out that are offered for a text.
fn helps(text: &str) -> String {
    let compiled = fustian::compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    compiled.diagnostics.into_iter().filter_map(|one| one.help).collect()
}

#[test]
fn the_fold_of_a_folded_pocket_is_its_mouth() {
    let apron = r#"garment "Galley apron"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { apron, pocket }
piece apron "Apron" { cut 1; outline rectangle 26 by 30; mark at_mark = (6, 6) }
piece pocket "Pocket" { cut 1; outline rectangle 12 by 16; folded top to bottom }
finish apron.left, apron.right, apron.top, apron.bottom overlocked
place pocket on apron { corner bottom_left at at_mark; topstitch left, right, bottom, top }
"#;
    assert_eq!(said(apron), NOTHING);
    assert_eq!(said(&with(apron, &[("; folded top to bottom", "")])), ["place/shut"]);
}

#[test]
fn a_tie_hangs_as_low_as_it_is_long() {
    let cap = r#"garment "Watch cap"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { cap, band, tie }
piece cap "Cap" { cut 1; outline rectangle 56 by 12 }
piece band "Band" { cut 1; outline rectangle 56 by 4; mark tie_at = (12, 4) }
piece tie "Chin tie" { cut 1; outline rectangle 2 by 40; folded left to right }
finish tie.left, tie.right raw
finish tie.bottom overlocked
seam back cap.left to cap.right
seam ends band.left to band.right
seam on band.top to cap.bottom { matching band.top_left with cap.bottom_left }
finish cap.top, band.bottom hem 1
place tie on band { corner top_left at tie_at; caught top in on }
"#;
    assert_eq!(said(cap), NOTHING);
    // Stitched down, it would have to lie on the band.
    let down = with(
        cap,
        &[
            ("finish tie.left, tie.right raw", "finish tie.left raw"),
            ("caught top in on", "caught top in on; topstitch right"),
        ],
    );
    assert_eq!(said(&down), ["place/below-hem"]);
}

#[test]
fn one_pocket_for_two_fronts_is_said_to_be_on_one_side() {
    let apron = r#"garment "Galley apron"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, pocket }
piece front "Front" { cut 2 mirrored; outline rectangle 30 by 60; mark at_p = (10, 30) }
piece pocket "Pocket" { cut 1; outline rectangle 12 by 14 }
seam centre front.left to front.left
finish front.right, front.top, front.bottom hem 2
finish pocket.top hem 2
place pocket on front { corner bottom_left at at_p; topstitch left, bottom, right }
"#;
    assert_eq!(said(apron), ["place/count"]);
    let way = "place pocket on front on left";
    assert!(helps(apron).contains(way), "{}", helps(apron));
    let drawn = ("cut 2 mirrored;", "cut 2 mirrored; drawn left;");
    assert_eq!(said(&with(apron, &[("place pocket on front", way), drawn])), NOTHING);
}

#[test]
fn a_yoke_of_two_plies_stands_in_brackets() {
    let shirt = r#"garment "Shirt back"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { back, yoke, sleeve }
layer under in drill { yoke }
piece yoke "Yoke" { cut 1; outline rectangle 40 by 10 }
piece back "Back" { cut 1; outline rectangle 40 by 50 }
piece sleeve "Sleeve strip" { cut 1; outline rectangle 20 by 60 }
seam y back.top to outer.yoke.bottom and under.yoke.bottom { matching back.top_left with outer.yoke.bottom_left }
seam arm sleeve.left to back.right + outer.yoke.right and under.yoke.right { matching sleeve.bottom_left with back.bottom_right }
finish back.left, back.bottom, sleeve.top, sleeve.right, sleeve.bottom overlocked
finish outer.yoke.top, outer.yoke.left, under.yoke.top, under.yoke.left overlocked
"#;
    assert_eq!(said(shirt), ["seam/plies"]);
    let way = "back.right + (outer.yoke.right and under.yoke.right)";
    assert!(helps(shirt).contains(way), "{}", helps(shirt));
    let said_so = with(shirt, &[("back.right + outer.yoke.right and under.yoke.right", way)]);
    assert_eq!(said(&said_so), NOTHING);
}
