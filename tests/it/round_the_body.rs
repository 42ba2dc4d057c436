//! What must go round a body: tubes, hems, rows of snaps, waists over a zip, bands that go round a ring. What is
//! refused, and the sound garment beside it.

use crate::workbench::{mistake, said, with};

const NOTHING: [&str; 0] = [];

#[test]
fn front_and_back_are_sewn_to_each_other_and_not_each_to_itself() {
    let tubes = mistake("seam-two-tubes");
    assert_eq!(said(&tubes), ["seam/two-tubes"]);
    let sound = with(
        &tubes,
        &[
            ("seam front_side  front.side to front.side\n", "seam side  front.side to back.side\n"),
            ("seam back_side   back.side to back.side\n", ""),
        ],
    );
    assert_eq!(said(&sound), NOTHING);
}

#[test]
fn tiers_that_are_tubes_one_above_the_other_are_sewn_together_all_round() {
    let tiers = r#"garment "Galley skirt"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { upper, lower }
piece upper "Upper tier" { cut 1 on fold left; outline rectangle 30 by 30 }
piece lower "Lower tier" { cut 1 on fold left; outline rectangle 30 by 30 }
seam upper_back  upper.right to upper.right
seam lower_back  lower.right to lower.right
seam tier        upper.bottom to lower.top
finish upper.top, lower.bottom  hem 2
"#;
    assert_eq!(said(tiers), NOTHING);
}

#[test]
fn a_garment_for_the_trunk_is_open_below() {
    let shut = mistake("opening-no-way");
    assert_eq!(said(&shut), ["opening/no-way"]);
    let open = [(
        "front.side + front.hem to back.side + back.hem",
        "front.side to back.side\nfinish front.hem, back.hem  hem 3",
    )];
    assert_eq!(said(&with(&shut, &open)), NOTHING);
    // Stepped into by its neck, with openings for two arms and two legs, it has no rim for the trunk but the neck.
    let legs = [
        (
            "  point hem_side  = (bust/4 + 4, -70)\n",
            "  point hem_side  = (bust/4 + 4, -70)\n  point fork = (4, -70)\n",
        ),
        ("    hem      to hem_cf\n", "    leg      to fork\n    crotch   to hem_cf\n"),
        (
            "  point hem_side  = (bust/4 + 4, -70)\n  outline",
            "  point hem_side  = (bust/4 + 4, -70)\n  point fork = (4, -70)\n  outline",
        ),
        ("    hem      to hem_cb\n", "    leg      to fork\n    crotch   to hem_cb\n"),
        (
            "front.side + front.hem to back.side + back.hem",
            "front.side to back.side\nseam crotch  front.crotch to back.crotch",
        ),
        ("front.armhole, back.armhole  bound 1", "front.armhole, back.armhole, front.leg, back.leg  bound 1"),
    ];
    assert_eq!(said(&with(&shut, &legs)), NOTHING);
}

#[test]
fn snaps_lie_beside_what_opens() {
    let snaps = mistake("closure-out-of-reach");
    assert_eq!(said(&snaps), ["closure/out-of-reach"]);
    // A hand's breadth above the hem the one can be folded up to the other.
    let low = with(&snaps, &[("(0, -42)", "(0, -60)"), ("(0, -42)", "(0, -60)")]);
    assert_eq!(said(&low), NOTHING);
}

#[test]
fn a_waist_runs_straight_on_over_a_zip() {
    let kink = mistake("seam-kink-zip");
    assert_eq!(said(&kink), ["seam/kink"]);
    let square = with(&kink, &[("leaving -15°", "leaving square to zip_edge")]);
    assert_eq!(said(&square), NOTHING);
    // A neck cut in a V at a zip, of 55 degrees on each side, turns by 70 and is meant.
    let deep = with(&kink, &[("leaving -15°", "leaving -35°")]);
    assert_eq!(said(&deep), NOTHING);
}

#[test]
fn a_band_is_closed_before_it_is_sewn_round_a_ring() {
    let band = mistake("step-early-ring");
    assert_eq!(said(&band), ["step/early"]);
    assert_eq!(said(&with(&band, &[("sew brim; sew ends", "sew ends; sew brim")])), NOTHING);
}

#[test]
fn fronts_closed_at_their_sides_wrap_round_a_back_that_is_a_tube() {
    // Open in front, the fronts are no tube; as they are sewn they are the one half of the body twice.
    let vest = with(
        &mistake("seam-two-tubes"),
        &[("piece front \"Front\" {\n  cut 1 on fold centre", "piece front \"Front\" {\n  cut 2 mirrored")],
    ) + "finish front.centre  hem 2\n";
    assert_eq!(said(&vest), ["seam/two-tubes"]);
}

#[test]
fn what_the_trunk_goes_into_it_comes_out_of() {
    // Hemmed, the tube of a skirt is open below; sewn shut there, it is a bag.
    let skirt = r#"garment "Galley skirt"
units cm
allowance 1
body { hip 100 }
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle 30 by 60 }
piece back "Back" { cut 1 on fold left; outline rectangle 30 by 60 }
seam side  front.right to back.right
finish front.top, back.top  hem 2
finish front.bottom, back.bottom  hem 3
opening front.top + back.top  passes hip
"#;
    assert_eq!(said(skirt), NOTHING);
    let bag = with(
        skirt,
        &[("finish front.bottom, back.bottom  hem 3", "seam below  front.bottom to back.bottom")],
    );
    // The seam that does it is named.
    assert_eq!(said(&bag), ["seam/shuts-rim"]);
}

#[test]
fn a_ring_goes_round_a_ring_or_down_a_keyhole() {
    let part = mistake("seam-round-part");
    assert_eq!(said(&part), ["seam/round-part"]);
    let whole = with(
        &part,
        &[
            ("total(front.neckline) by", "total(front.neckline + back.neckline) by"),
            ("finish back.neckline  bound 1\n", ""),
            ("to front.neckline {", "to front.neckline + back.neckline {"),
            ("collar.bottom_left with front.neck_side", "collar.bottom_left with back.neck_cf"),
        ],
    );
    assert_eq!(said(&whole), NOTHING);
    // The back is open down to 10 below the neck: there the rim turns into the keyhole.
    let keyhole = with(
        &whole,
        &[
            (
                "piece back \"Back\" {\n  cut 1 on fold centre\n  outline copy of front\n",
                "piece back \"Back\" {\n  cut 2 mirrored\n  outline copy of front\n  divide centre 10 from neck_cf into keyhole, centre\n",
            ),
            ("seam side ", "finish back.keyhole  hem 1\nseam back  back.centre to back.centre\nseam side "),
        ],
    );
    assert_eq!(said(&keyhole), NOTHING);
}

#[test]
fn edges_are_named_in_the_order_in_which_they_lie() {
    let skirt = mistake("seam-ends-order");
    assert_eq!(said(&skirt), ["seam/ends"]);
    let order = "front.top + side.top + back.top";
    assert_eq!(said(&with(&skirt, &[("front.top + back.top + side.top", order)])), NOTHING);
}

#[test]
fn each_layers_panels_are_a_ring_by_themselves() {
    let cap = r#"garment "Watch cap"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { panel }
layer lining in drill { panel }
piece panel "Panel" {
  cut 6
  point low_left  = (0, 0)
  point low_right = (10, 0)
  point top       = (5, 18)
  outline from low_left {
    bottom to low_right
    right  to top       curve leaving up
    left   to low_left  curve arriving down
  }
}
seam shell  outer.panel.right to outer.panel.left in a ring
seam inside lining.panel.right to lining.panel.left in a ring
seam edge   outer.panel.bottom in a ring to lining.panel.bottom in a ring { leaving gap 13 in lining }
"#;
    assert_eq!(said(cap), NOTHING);
    let open = with(cap, &[("outer.panel.left in a ring", "outer.panel.left")]);
    assert_eq!(said(&open), ["seam/ring"]);
}
