//! Which ends meet where a seam catches something on a run of one of its edges: at a fold, beside another piece, on one of
//! two plies, and what is told where it cannot be so.

use crate::workbench::{helps, said, told, with};

/// Half a galley apron: a bib of 14, half of 28, caught on the top of a band of 40, half of 80. Both lie on the fold.
const BIB: &str = "garment \"Cook's apron\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { band, bib }
layer inside in drill { band }
piece band \"Band\" { cut 1 on fold left; outline rectangle 40 by 5 }
piece bib \"Bib\" { cut 1 on fold left; outline rectangle 14 by 22 }
seam band_top outer.band.top to inside.band.top {
  caught outer.bib.bottom on outer.band.top at top_left
  matching outer.bib.bottom_left with outer.band.top_left
}
seam band_bottom outer.band.bottom to inside.band.bottom
finish outer.band.right, inside.band.right overlocked
finish bib.top, bib.right hem 2
";

#[test]
fn a_fold_lies_on_a_fold() {
    let matched =
        |words: &str| with(BIB, &[("matching outer.bib.bottom_left with outer.band.top_left", words)]);
    assert_eq!(told(BIB), []);
    for right in [
        "matching outer.bib.bottom_left with outer.band.top.near",
        "matching outer.bib.bottom_right with outer.band.top.far",
        // Where both lie on the fold there is but one way.
        "",
    ] {
        assert_eq!(told(&matched(right)), [], "{right}");
    }
    let counted = with(BIB, &[("on outer.band.top at top_left", "on outer.band.top 0 from top_left")]);
    assert_eq!(told(&counted), []);
    for wrong in [
        "matching outer.bib.bottom_left with outer.band.top.far",
        "matching outer.bib.bottom_right with outer.band.top_left",
    ] {
        assert_eq!(said(&matched(wrong)), ["seam/fold-end"], "{wrong}");
    }
    // A bib that begins beside the middle has its own middle beside it.
    let beside = with(
        BIB,
        &[
            ("on outer.band.top at top_left", "on outer.band.top 6 from top_left"),
            ("with outer.band.top_left", "with outer.band.top.near"),
        ],
    );
    assert_eq!(said(&beside), ["seam/fold-end"]);
    // At the back, where left and right of the band are sewn together, the middle is too: a flap of a cap.
    let behind = with(
        BIB,
        &[
            ("on outer.band.top at top_left", "on outer.band.top at top_right"),
            ("with outer.band.top_left", "with outer.band.top_right"),
            ("finish outer.band.right, inside.band.right overlocked", "seam behind band.right to band.right"),
        ],
    );
    assert!(!said(&behind).contains(&"seam/fold-end"), "{:?}", told(&behind));
}

/// Two panels of 30 on a band of 60, with a bag of 16 caught on one of them: all four corners have the names of rectangles.
const PANELS: &str = "garment \"Steward's apron\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { port, starboard, bag, band }
piece port \"Port panel\" { cut 1; outline rectangle 30 by 50 }
piece starboard \"Starboard panel\" { cut 1; outline rectangle 30 by 50 }
piece bag \"Bag\" { cut 1; outline rectangle 16 by 22 }
piece band \"Band\" { cut 1; outline rectangle 60 by 6 }
seam middle port.right to starboard.left { matching port.top_right with starboard.top_left }
seam waist band.bottom to port.top + starboard.top {
  matching band.bottom_left with port.top_left
  caught bag.top on port.top at top_left
  matching bag.top_left with port.top_left
}
finish port.left, starboard.right, port.bottom, starboard.bottom, band.left, band.right, band.top overlocked
finish bag.left, bag.right, bag.bottom overlocked
";

#[test]
fn the_edge_that_it_lies_on_is_walked_as_it_lies() {
    let caught = |place: &str, corner: &str| {
        with(
            PANELS,
            &[
                ("bag.top on port.top at top_left", &format!("bag.top on {place}")),
                ("bag.top_left with port.top_left", corner),
            ],
        )
    };
    for (place, corner) in [
        ("port.top at top_left", "bag.top_left with port.top.near"),
        ("port.top 4 from top_left", "bag.top_left with port.top.near"),
        ("port.top at top_right", "bag.top_right with port.top_right"),
        ("starboard.top at top_left", "bag.top_left with starboard.top_left"),
        ("starboard.top at top_right", "bag.top_right with starboard.top.near"),
        ("starboard.top 4 from top_right", "bag.top_right with starboard.top.near"),
    ] {
        let text = caught(place, corner);
        assert_eq!(told(&text), [], "{place}");
        let turned = with(&text, &[("port.top + starboard.top", "starboard.top + port.top")]);
        assert_eq!(told(&turned), [], "{place}, the other way");
    }
}

/// In another order than the edges lie the maker's own words are told, not those of the runs.
#[test]
fn the_order_is_told_as_it_is_named() {
    let three = with(
        PANELS,
        &[
            ("{ port, starboard,", "{ port, starboard, midship,"),
            ("piece bag", "piece midship \"Midship panel\" { cut 1; outline rectangle 20 by 50 }\npiece bag"),
            (
                "seam middle port.right to starboard.left { matching port.top_right with starboard.top_left }",
                "seam middle port.right to midship.left { matching port.top_right with midship.top_left }\n\
                 seam other midship.right to starboard.left { matching midship.top_right with starboard.top_left }",
            ),
            ("rectangle 60 by 6", "rectangle 80 by 6"),
            ("to port.top + starboard.top", "to port.top + starboard.top + midship.top"),
            ("starboard.bottom, band.left", "starboard.bottom, midship.bottom, band.left"),
        ],
    );
    assert_eq!(said(&three), ["seam/ends"]);
    let help = helps(&three).join(" ");
    assert!(help.contains("port.top + midship.top + starboard.top"), "{help}");
    assert!(!help.contains("caught"), "{help}");
}

/// A cap of six panels of 10 on a brim of two plies, each half of 60; flaps of 6 lie on it, 8 from the back.
const CAP: &str = "garment \"Deckhand's cap\"
units cm
allowance 1
body { head 56 }
fabric felt \"felt\" { width 150; kind woven firm }
layer outer in felt { crown, brim, flap }
layer lining in felt { brim, flap }
piece crown \"Crown\" { cut 6; outline rectangle 10 by 16 }
piece brim \"Brim\" { cut 1 on fold left; outline rectangle 30 by 6 }
piece flap \"Ear flap\" { cut 2 mirrored; outline rectangle 6 by 8 }
seam crown_back crown.right to crown.left in a ring
seam brim_back brim.right to brim.right
seam flap_edge outer.flap to lining.flap along left + bottom + right
seam round outer.crown.bottom in a ring to outer.brim.top and lining.brim.top {
  matching outer.crown.bottom_right with outer.brim.top_right
  caught outer.flap.top on outer.brim.top 8 from top_right
  matching outer.flap.top_right with outer.brim.top.near
  caught lining.flap.top on outer.brim.top 8 from top_right
  matching lining.flap.top_right with outer.brim.top.near
}
finish crown.top in a ring bound 1
finish brim.bottom overlocked
opening outer.crown.bottom in a ring passes head
";

#[test]
fn on_one_of_two_plies_of_a_ring() {
    assert_eq!(told(CAP), []);
}

/// Both plies of a flap are one another's twins, though each is its own mirror image: their sides are sewn together.
#[test]
fn both_plies_of_a_flap_lie_the_same_way() {
    let turned = with(CAP, &[("matching lining.flap.top_right with", "matching lining.flap.top_left with")]);
    assert_eq!(said(&turned), ["seam/end-for-end"]);
    let both = with(
        CAP,
        &[
            ("matching lining.flap.top_right with", "matching lining.flap.top_left with"),
            ("matching outer.flap.top_right with", "matching outer.flap.top_left with"),
        ],
    );
    assert_eq!(told(&both), []);
}

/// The bag lies on the last 16 of the port panel's 30; its corner is matched with one that lies elsewhere.
#[test]
fn what_is_matched_lies_at_an_end_of_the_run() {
    let off = with(PANELS, &[("bag.top_left with port.top_left", "bag.top_left with port.top_right")]);
    assert_eq!(said(&off), ["seam/matching"]);
    let help = helps(&off).join(" ");
    assert!(help.contains("port.top_left") && help.contains("port.top.far"), "{help}");
    // What is sewn to the end of the run lies there too.
    let beside = with(
        PANELS,
        &[
            ("bag.top on port.top at top_left", "bag.top on port.top at top_right"),
            ("bag.top_left with port.top_left", "bag.top_right with starboard.top_left"),
        ],
    );
    assert!(!said(&beside).contains(&"seam/matching"), "{:?}", told(&beside));
}
