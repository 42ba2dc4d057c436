//! What lies behind what is sewn: slits of a shell and its lining, and pockets of which no edge is left open. Each beside what is
//! sound.

use crate::workbench::{NOTHING, helps, mistake, said, told, with};

/// Both layers of the cape open at the same place, each side of the slit sewn to its own.
const SLIT: [(&str, &str); 1] = [(
    "finish outer.front.side 24..44 from tip, outer.back.side 24..44 from tip  hem 1",
    "seam slit_f  outer.front.side 24..44 from tip to lining.front.side 24..44 from tip\nseam slit_b  outer.back.side 24..44 from tip to lining.back.side 24..44 from tip",
)];

fn slit() -> String {
    with(&mistake("opening-behind"), &SLIT)
}

#[test]
fn a_slit_in_the_shell_opens_its_lining_too() {
    assert_eq!(said(&mistake("opening-behind")), ["opening/behind"]);
    assert_eq!(said(&slit()), NOTHING);
    // Each layer hemmed by itself opens as well.
    let each = with(
        &mistake("opening-behind"),
        &[(
            "finish outer.front.side 24..44 from tip, outer.back.side 24..44",
            "finish front.side 24..44 from tip, back.side 24..44",
        )],
    );
    assert_eq!(said(&each), NOTHING);
    // So does one whose lining is not sewn at the sides at all.
    let hanging = with(
        &mistake("opening-behind"),
        &[(
            "seam side_in  lining.front.side to lining.back.side",
            "finish lining.front.side, lining.back.side  overlocked",
        )],
    );
    assert!(!said(&hanging).contains(&"opening/behind"));
    // 2 · 6 all round is where a cord comes out, not an arm.
    let cord = with(
        &mistake("opening-behind"),
        &[("side 24..44 from tip", "side 24..30 from tip"), ("side 24..44 from tip", "side 24..30 from tip")],
    );
    assert_eq!(said(&cord), NOTHING);
    // A slit that begins at the hem is a vent, and goes on into it.
    let vent = with(
        &mistake("opening-behind"),
        &[
            ("side 24..44 from tip", "side 20 from hem_side"),
            ("side 24..44 from tip", "side 20 from hem_side"),
        ],
    );
    assert_eq!(said(&vent), NOTHING);
}

#[test]
fn runs_of_two_layers_that_are_sewn_together_lie_on_one_another() {
    let text = mistake("run-apart");
    assert_eq!(said(&text), ["run/apart"]);
    assert!(helps(&text)[0].contains("lining.back.centre 24..44 from neck_cb"), "{:?}", helps(&text));
    assert_eq!(said(&with(&text, &[("lining.back.centre 32..52", "lining.back.centre 24..44")])), NOTHING);
    // A centimetre is ease of the lining.
    assert_eq!(said(&with(&text, &[("32..52", "25..45")])), NOTHING);
    assert_eq!(said(&with(&text, &[("32..52", "25.5..45.5")])), ["run/apart"]);
    // Counted from the hem, of which the lining lacks 2, the same place is 2 less: 70 − 44 = 26 and 24.
    let trimmed = |run: &str| {
        with(
            &text,
            &[
                ("seam centre  ", "trim lining.back.hem by 2\nseam centre  "),
                ("lining.back.centre 32..52 from neck_cb", run),
                (
                    "matching outer.back.centre.near with lining.back.centre.near",
                    "matching outer.back.centre.near with lining.back.centre.far",
                ),
                ("outer.back.front to", "outer.back.front 68 from side to"),
                ("finish outer.back.hem", "finish outer.back.front, outer.back.hem"),
            ],
        )
    };
    assert_eq!(said(&trimmed("lining.back.centre 24..44 from hem_cb")), NOTHING);
    assert_eq!(said(&trimmed("lining.back.centre 14..34 from hem_cb")), ["run/apart"]);
}

#[test]
fn ends_of_runs_in_two_layers_are_told_with_their_layer() {
    let unclear = with(
        &slit(),
        &[
            ("lining.front.side 24..44", "lining.front.side 25..45"),
            ("lining.back.side 24..44", "lining.back.side 25..45"),
        ],
    );
    assert_eq!(said(&unclear), ["seam/ends", "seam/ends"]);
    let words = "matching outer.front.side.near with lining.front.side.near";
    assert!(helps(&unclear)[0].contains(words), "{:?}", helps(&unclear));
    // As it is told, it can be written.
    let matched = with(
        &unclear,
        &[
            (
                "lining.front.side 25..45 from tip",
                &format!("lining.front.side 25..45 from tip {{ {words} }}"),
            ),
            (
                "lining.back.side 25..45 from tip",
                "lining.back.side 25..45 from tip { matching outer.back.side.near with lining.back.side.near }",
            ),
        ],
    );
    assert_eq!(said(&matched), NOTHING);
    // Without the layer it is asked for.
    let unsaid = with(
        &matched,
        &[(
            "matching outer.front.side.near with lining.front.side.near",
            "matching front.side.near with lining.front.side.far",
        )],
    );
    assert!(
        told(&unsaid)
            .iter()
            .any(|(slug, title)| *slug == "name/unknown" && title.contains("several runs of side"))
    );
    assert!(
        helps(&unsaid)
            .iter()
            .any(|help| help == "say of which layer: outer.front.side.near or lining.front.side.near"),
        "{:?}",
        helps(&unsaid)
    );
}

#[test]
fn what_is_called_a_pocket_is_no_patch() {
    let text = mistake("place-shut-pocket");
    assert_eq!(said(&text), ["place/shut"]);
    let open = with(
        &text,
        &[
            ("topstitch all round", "topstitch left, bottom, right"),
            ("finish leg.top", "finish rule.top, leg.top"),
        ],
    );
    assert_eq!(said(&open), NOTHING);
    // A patch is one; what belongs to a pocket is none.
    for name in ["Knee patch", "Pocket stay", "Pocketknife badge"] {
        assert_eq!(said(&with(&text, &[("\"Rule pocket\"", &format!("\"{name}\""))])), NOTHING, "{name}");
    }
    // Nor is a pocket shut that a slit in it opens.
    let slit = with(
        &text,
        &[("outline rectangle 7 by 22 }", "outline rectangle 7 by 22; slit mouth from (1, 18) to (6, 18) }")],
    );
    assert!(!said(&slit).contains(&"place/shut"), "{:?}", told(&slit));
    // Under what a snap fastens on it it is a pocket, whatever its name.
    let under_a_flap = with(
        &text,
        &[
            ("\"Rule pocket\"", "\"Rule holder\""),
            (
                "by 22 }",
                "by 22; line snap_row from (3, 20) to (4, 20) }\npiece lid \"Lid\" { cut 1; outline rectangle 7.4 by 5; line snap_row from (3, 1) to (4, 1) }",
            ),
            ("mark rule_corner = (12, 30)", "mark rule_corner = (12, 30); mark lid_corner = (11.8, 54)"),
            ("{ leg, rule }", "{ leg, rule, lid }"),
            (
                "finish leg.top",
                "finish lid.left, lid.bottom, lid.right  overlocked\nplace lid on leg on right { corner top_left at lid_corner; topstitch top }\nclosure snap  lid.snap_row to rule.snap_row { snaps 1 of 10mm }\nfinish leg.top",
            ),
        ],
    );
    assert_eq!(said(&under_a_flap), ["place/shut"]);
    let patch =
        with(&under_a_flap, &[("closure snap  lid.snap_row to rule.snap_row { snaps 1 of 10mm }\n", "")]);
    assert!(!said(&patch).contains(&"place/shut"), "{:?}", told(&patch));
}
