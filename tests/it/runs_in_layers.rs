//! Runs of one edge in different layers: they may lie over one another on the paper that the layers share.

use crate::workbench::{NOTHING, mistake, said, told, with};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// Vents of 12 in the shell and of 18 in the lining, in side seams of 60.
const VEST: &str = "garment \"Deckhand's vest\"
units cm
allowance 1
fabric canvas \"apron canvas\" { width 150; kind woven firm }
fabric cotton \"blue cotton\" { width 150; kind woven firm }
layer outer in canvas { front, back }
layer lining in cotton { front, back }
piece front \"Front\" { cut 1 on fold left; outline rectangle 24 by 60 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 60 }
seam side front.right to back.right
finish outer.front.right 12 from bottom_right, outer.back.right 12 from bottom_right hem 1
finish lining.front.right 18 from bottom_right, lining.back.right 18 from bottom_right hem 1
finish front.bottom, back.bottom hem 2
seam top outer.front.top + outer.back.top to lining.front.top + lining.back.top
steps { \"All\" { sew side, top; hem front.right, back.right, front.bottom, back.bottom } }
";

fn compiled(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("vest.fus", text), "vest.fus")
}

/// What is left of the sides is sewn: 48 in the shell and 42 in the lining.
#[test]
fn each_layer_has_its_own_run() {
    assert_eq!(said(VEST), NOTHING);
    let compiled = compiled(VEST);
    let sewn = &compiled.sizes[0].sewn;
    let side = compiled.garment.seams.iter().position(|seam| &*seam.name == "side").expect("a seam");
    let mut lengths: Vec<f64> = sewn
        .seams
        .iter()
        .filter(|seam| seam.seam.index() == side)
        .map(|seam| seam.first.plies[0].length)
        .collect();
    lengths.sort_by(f64::total_cmp);
    assert_eq!(lengths.len(), 2);
    for (length, by_hand) in lengths.iter().zip([420.0, 480.0]) {
        assert!((length - by_hand).abs() < 1e-6, "{length}");
    }
}

/// 12 to 18 in the shell's alone, on both sides of the body and on one; and three over one another.
#[test]
fn runs_of_layers_and_of_sides_lie_over_one_another() {
    let sides = with(
        VEST,
        &[
            (
                "cut 1 on fold left; outline rectangle 24 by 60 }\npiece back",
                "cut 1 on fold left; drawn left; outline rectangle 24 by 60 }\npiece back",
            ),
            (
                "piece back \"Back\" { cut 1 on fold left;",
                "piece back \"Back\" { cut 1 on fold left; drawn right;",
            ),
            (
                "finish outer.front.right 12 from bottom_right, outer.back.right 12 from bottom_right hem 1",
                "finish outer.front.right 12 from bottom_right on left, outer.back.right 12 from bottom_right on left hem 1\n\
                 finish outer.front.right 15 from bottom_right on right, outer.back.right 15 from bottom_right on right hem 1",
            ),
        ],
    );
    assert_eq!(said(&sides), NOTHING);
}

#[test]
fn in_one_layer_it_stays_a_mistake() {
    for changes in [
        [("finish outer.front.right 12", "finish front.right 12"), ("units cm", "units cm")],
        [("finish lining.front.right 18", "finish outer.front.right 18"), ("units cm", "units cm")],
    ] {
        let all = told(&with(VEST, &changes));
        assert!(all.iter().any(|(slug, _)| *slug == "run/overlap"), "{changes:?}: {all:?}");
    }
    assert!(mistake("run-overlap-layers").contains("lining.front.right"));
}
