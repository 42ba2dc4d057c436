//! Garments that nobody means: pocket bags upside down, a sleeve closed too soon, a zip set in too late, welts that hang,
//! straps that draw an opening together, tucks laid up and down, linings that hang out. Each beside the sound one.

use crate::workbench::{NOTHING, cured, example, helps, in_memory, mistake, said, told, with};
use fustian::compile;

#[test]
fn a_pocket_bag_hangs_down_from_its_mouth() {
    let down = [
        ("bag_front.low with front.right.near", "bag_front.high with front.right.near"),
        ("bag_back.low with back.right.near", "bag_back.high with back.right.near"),
    ];
    cured("bag-up", "bag/up", &down);
}

#[test]
fn a_pocket_bag_does_not_stick_out_of_the_waist() {
    // Hung the right way round, but drawn 6 higher than its mouth, which begins 3 below the waist: by hand 6 - 3 = 3 beyond it.
    let high = [
        ("bag_front.low with front.right.near", "bag_front.high with front.right.near"),
        ("bag_back.low with back.right.near", "bag_back.high with back.right.near"),
        ("(-14, 0)", "(-14, 6)"),
        ("(14, 0)", "(14, 6)"),
    ];
    let [(slug, title)] = told(&with(&mistake("bag-up"), &high)).try_into().expect("one message");
    assert_eq!(slug, "bag/up");
    assert!(title.contains("3 cm beyond the top of Front"), "{title}");
}

#[test]
fn a_welt_stands_up_from_the_lower_side_of_its_slit() {
    cured("slit-welt-down", "slit/welt-down", &[("from (20, 24) to (6, 24)", "from (6, 24) to (20, 24)")]);
}

#[test]
fn a_strap_under_a_boot_is_as_long_as_the_opening_is_wide() {
    // By hand: 7 + 7 along the foot; across it at least 2 × 14 / π = 8.9. Of 8, 1 is sewn on at each end.
    cured(
        "strap-draws-together",
        "strap/draws-together",
        &[("under the boot\" 8 by", "under the boot\" 11.2 by")],
    );
    assert_eq!(
        said(&with(&mistake("strap-draws-together"), &[("8 by 2.5", "10.6 by 2.5")])),
        ["strap/draws-together"]
    );
}

#[test]
fn of_a_raised_cloth_its_nap_is_said() {
    for nap in ["nap one-way", "nap none"] {
        cured("cloth-nap", "cloth/nap", &[("surface raised", &format!("surface raised; {nap}"))]);
    }
    cured("cloth-nap", "cloth/nap", &[("surface raised", "surface smooth")]);
}

#[test]
fn a_concealed_zip_is_set_in_before_the_seam_below_it() {
    let first = [(
        "  \"Zip\"    { sew centre }\n  \"Zip in\" { sew zip }\n",
        "  \"Zip\"    { sew zip; sew centre }\n",
    )];
    cured("step-zip-late", "step/zip-late", &first);
    // One with its teeth in sight may be set in under edges that are folded and basted.
    cured("step-zip-late", "step/zip-late", &[("zipper concealed", "zipper closed")]);
}

#[test]
fn a_zip_is_set_in_before_a_band_lies_over_its_end() {
    let first = [
        ("sew side, centre; sew ends", "sew side, centre; sew zip; sew ends"),
        ("{ sew zip, hook }", "{ sew hook }"),
    ];
    cured("step-early-band-zip", "step/early", &first);
}

#[test]
fn a_ring_is_sewn_round_a_ring() {
    let flat = [("{ sew under; sew armhole }", "{ sew armhole }"), ("{ sew side }", "{ sew side, under }")];
    cured("step-early-tube", "step/early", &flat);
    let round =
        [("{ sew under; sew armhole }", "{ sew under }"), ("{ sew side }", "{ sew side; sew armhole }")];
    cured("step-early-tube", "step/early", &round);
    // The other way about it is no better: an open sleeve round a closed armhole.
    let open = [
        ("\"Sides\"     { sew side }", "\"Sides\"     { sew armhole; sew under }"),
        ("{ sew under; sew armhole }", "{ sew side }"),
    ];
    assert_eq!(said(&with(&mistake("step-early-tube"), &open)), ["step/early"]);
}

#[test]
fn tucks_that_meet_are_laid_the_same_way() {
    cured("seam-tucks-against", "seam/tucks", &[("toward top", "toward bottom")]);
    let up = [("apart 3 toward bottom", "apart 3 toward top")];
    assert_eq!(said(&with(&mistake("seam-tucks-against"), &up)), NOTHING);
}

#[test]
fn exchanged_edges_are_told_once() {
    let right = [
        ("back.inside\nseam", "back.side\nseam"),
        ("front.inside to back.side", "front.inside to back.inside"),
    ];
    cured("seam-unequal-exchanged", "seam/unequal", &right);
    let help = helps(&mistake("seam-unequal-exchanged")).join(" ");
    assert!(
        help.contains("front.side to back.side") && help.contains("front.inside to back.inside"),
        "{help}"
    );
}

#[test]
fn what_a_dropped_seam_leaves_loose_shows_where_it_was_dropped() {
    let loader = in_memory(&[
        ("deck-smock.fus", &example("deck-smock.fus")),
        ("crew-library.fus", &example("crew-library.fus")),
        ("loose.fus", "variation \"Smock without sides\" of \"deck-smock.fus\"\ndrop seam side\n"),
    ]);
    let compiled = compile(&loader, "loose.fus");
    let loose: Vec<_> = compiled.diagnostics.iter().filter(|one| one.slug() == "edge/loose").collect();
    assert_eq!(loose.len(), 2);
    for one in loose {
        assert!(one.labels.iter().any(|label| {
            let (file, line, _) = compiled.map.place(label.span);
            file == "loose.fus" && line == 2 && label.text.contains("seam side is dropped here")
        }));
    }
}

#[test]
fn a_lining_that_is_hemmed_by_itself_does_not_hang_out() {
    cured("lining-long", "lining/long", &[("lengthen lining", "shorten lining")]);
    // Lengthened with the outer it is as long as that, and shows as soon as it drops.
    let both = [("lengthen lining.front, lining.back", "lengthen front, back")];
    assert_eq!(said(&with(&mistake("lining-long"), &both)), ["lining/level"]);
}
