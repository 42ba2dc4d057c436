//! Cords that cannot come out, ease on the wrong side of a crown, zips that never part, straps over one another and pockets
//! apart from their upper half: each beside the sound one.

use crate::workbench::{NOTHING, mistake, said, with};

const HOLES: &str = "in piece mouth add { mark left_hole = (38, 1.5); mark right_hole = (42, 1.5) }\n\
                     set holes \"eyelet 5 mm\" at mouth.left_hole, mouth.right_hole\nnotion \"eyelet 5 mm\" 2\ncord pull";

/// Without the band, a casing 2 cm deep at the top of the bag, which is 50 high; an eyelet so high above its bottom.
fn cased(eyelet: f64) -> String {
    let text = mistake("cord-shut");
    let band = text.lines().find(|line| line.starts_with("band")).expect("the band").to_owned();
    with(
        &text,
        &[
            (&band, "finish bag.top  casing 2"),
            ("80 by 50", &format!("80 by 50\n  mark hole = (40, {eyelet})")),
            ("mouth.top", "bag.top"),
            ("cord pull", "set holes \"eyelet 5 mm\" at bag.hole\nnotion \"eyelet 5 mm\" 1\ncord pull"),
        ],
    )
}

#[test]
fn a_cord_comes_out_of_its_ring_somewhere() {
    let shut = mistake("cord-shut");
    assert_eq!(said(&shut), ["cord/shut"]);
    assert_eq!(said(&with(&shut, &[("cord pull", HOLES)])), NOTHING);
    // It stays inside.
    assert_eq!(said(&with(&shut, &[("ends 20", "ends 0")])), NOTHING);
    // Of ends nothing is said: 80 cm round and 5 that are joined are 85.
    assert_eq!(said(&with(&shut, &[("120", "85"), ("  ends 20 free", "")])), NOTHING);
    assert_eq!(said(&with(&shut, &[("120", "86"), ("  ends 20 free", "")])), ["cord/shut"]);
}

#[test]
fn an_eyelet_lies_on_the_channel() {
    // 2 cm deep, and 1 cm for the eyelet's rim: down to 47.
    assert_eq!(said(&cased(49.0)), NOTHING);
    assert_eq!(said(&cased(47.5)), NOTHING);
    assert_eq!(said(&cased(46.5)), ["cord/shut"]);
    // The seam ends 3 cm below the top, and so the channel has two ends.
    let open = with(
        &cased(20.0),
        &[(
            "finish bag.bottom",
            "finish bag.left 3 from top_left, bag.right 3 from top_right  hem 1\nfinish bag.bottom",
        )],
    );
    assert_eq!(said(&open), NOTHING);
}

#[test]
fn a_band_is_as_deep_as_its_cord_needs() {
    let shallow = mistake("hem-tiny-band");
    assert_eq!(said(&with(&shallow, &[("0.3 deep", "0.5 deep")])), NOTHING);
    assert_eq!(said(&with(&shallow, &[("0.3 deep", "0.4 deep")])), ["hem/tiny"]);
}

/// The cap is 46 long and the armhole 22 and 22, with an ease of 1 to 3: between the crown and either end lie none to 3 of it.
#[test]
fn each_side_of_a_crown_has_its_share_of_the_ease() {
    let eased = mistake("seam-segment-eased");
    let crown =
        |x: &str| said(&with(&eased, &[("crown      = (29, 40)", &format!("crown      = ({x}, 40)"))]));
    assert_eq!(crown("23"), NOTHING);
    assert_eq!(crown("24"), NOTHING);
    // 46 - 24.5 are 21.5, half a centimetre less than the 22 that it is sewn to.
    assert_eq!(crown("24.5"), ["seam/segment"]);
}

#[test]
fn a_zip_that_is_sewn_in_at_both_ends_is_closed() {
    let both = mistake("zipper-sewn-in-both");
    assert_eq!(said(&both), ["zipper/sewn-in"]);
    assert_eq!(said(&with(&both, &[("zipper separating", "zipper closed")])), NOTHING);
}

#[test]
fn straps_lie_side_by_side() {
    let over = mistake("strap-overlap");
    assert_eq!(said(&with(&over, &[("strap_high = (1, 40)", "strap_high = (2, 40)")])), NOTHING);
    assert_eq!(said(&with(&over, &[("60 by 4", "60 by 2")])), NOTHING);
}

#[test]
fn what_a_zip_joins_lies_side_by_side() {
    let apart = mistake("place-apart");
    let high = |y: &str| said(&with(&apart, &[("high = (20, 26)", &format!("high = (20, {y})"))]));
    // The lower pocket ends at 6 + 14 = 20; a zip is up to 2.5 cm wide between its edges.
    assert_eq!(high("20"), NOTHING);
    assert_eq!(high("22"), NOTHING);
    assert_eq!(high("23"), ["place/apart"]);
}
