//! Flaps, belts, bands, loops and figures that look right at a glance and are not, each beside the sound one.

use crate::workbench::{NOTHING, cured, folder_of, helps, mistake, run, said, told, with};

/// The mouth is 18 wide, from 9 to 27, at 26; the flap is stitched down at its top.
#[test]
fn a_flap_covers_the_mouth_of_its_pocket() {
    let flap = mistake("place-flap");
    // 18 - 14.
    let narrow = "Flap is 4 cm narrower than the mouth of Pocket under it";
    assert_eq!(told(&flap), [("place/flap", narrow.to_owned())]);
    let own = |wide: &str, at: &str| {
        let wide = format!("{wide} by 7");
        told(&with(&flap, &[("14 by 7", &wide), ("(11, 27)", at)]))
    };
    // As wide as the mouth, or a few millimetres wider.
    assert_eq!(own("18", "(9, 27)"), []);
    assert_eq!(own("19", "(8.5, 27)"), []);
    // A tab that holds the mouth shut.
    assert_eq!(own("4", "(16, 27)"), []);
    // As wide, and 2 to the right.
    let aside = "Flap leaves 2 cm of the mouth of Pocket open, at one side";
    assert_eq!(own("18", "(11, 27)"), [("place/flap", aside.to_owned())]);
    // From 38 down to 31, 5 above the mouth.
    let high = "Flap ends 5 cm above the mouth of Pocket, and covers nothing";
    assert_eq!(told(&mistake("place-flap-high")), [("place/flap", high.to_owned())]);
    // A yoke flap is far wider, and a pocket's flap covers the one that it hangs over.
    assert_eq!(own("26", "(5, 38)"), []);
    // 15 deep it hangs over three quarters of the pocket, and is not stitched through.
    assert_eq!(told(&with(&flap, &[("14 by 7", "19 by 15"), ("(11, 27)", "(8.5, 27)")])), []);
}

#[test]
fn a_flap_that_is_too_low_is_moved_up_by_as_much() {
    let low = mistake("place-over-pocket-flap");
    // 6 + 20 - 24.
    let title = "Flap is stitched down 2 cm below the top of Pocket, and shuts it";
    assert_eq!(told(&low), [("place/over-pocket", title.to_owned())]);
    assert!(helps(&low)[0].contains("at least 2 cm up"), "{:?}", helps(&low));
    assert_eq!(said(&with(&low, &[("(8.5, 24)", "(8.5, 26)")])), NOTHING);
}

#[test]
fn nothing_is_set_where_a_pocket_lies() {
    let vest = mistake("place-over-buttons-set");
    assert_eq!(said(&vest), ["place/over-buttons"]);
    let moved = |at: &str| said(&with(&vest, &[("(18, 14)", at)]));
    // Beside it; at its corner, as a rivet; at its mouth, as half of a snap.
    assert_eq!(moved("(32, 14)"), NOTHING);
    assert_eq!(moved("(10, 25)"), NOTHING);
    assert_eq!(moved("(18, 23)"), NOTHING);
    // A cord may lead in by an eyelet.
    let eyelet = with(&vest, &[("brace button 17 mm", "eyelet 8 mm"), ("brace button 17 mm", "eyelet 8 mm")]);
    assert_eq!(said(&eyelet), NOTHING);
}

#[test]
fn a_file_that_is_only_begun_says_so() {
    assert_eq!(said(&mistake("piece-none")), ["piece/none"]);
    // Advice: nothing has to be mended.
    let folder = folder_of(&[("own.fus", "garment \"Mess apron\"\n"), ("crew.fus", "library \"Crew\"\n")]);
    assert!(run(folder.path(), &["check", "own.fus"]).status.success());
    // A library need not draw anything, and a mistake comes first.
    assert_eq!(said("library \"Crew\"\nfabric drill \"cotton drill\" { width 150 }\n"), NOTHING);
    assert!(!said("garment \"Mess apron\"\nlet long = wide\n").contains(&"piece/none"));
}

#[test]
fn figures_of_another_unit_are_told() {
    cured("piece-huge", "piece/huge", &[("long = 620", "long = 62")]);
    // A sash is long, and a circle from hip to floor is wide: 2 × (16 + 110).
    assert!(!said(&with(&mistake("piece-huge"), &[("70 by long", "20 by long")])).contains(&"piece/huge"));
    assert!(!said(&with(&mistake("piece-huge"), &[("70 by long", "252 by 252")])).contains(&"piece/huge"));
    cured("hem-tiny-under", "hem/tiny", &[("under 1mm", "under 3mm")]);
    let eased = [("60 by 20", "43 by 20"), ("0..80", "0..4")];
    cured("seam-much-eased", "seam/much-eased", &eased);
    // A sleeve cap in supple cloth takes a tenth; so may be allowed what is not eased.
    let flag = mistake("seam-much-eased");
    assert_eq!(said(&with(&flag, &[("60 by 20", "44 by 20"), ("0..80", "0..8")])), NOTHING);
    // The range alone hides every slip.
    assert_eq!(said(&with(&flag, &[("60 by 20", "41 by 20")])), ["seam/much-eased"]);
    cured("strap-tight-loop", "strap/tight-loop", &[("2.5 by 1", "8 by 1")]);
}

#[test]
fn straps_side_by_side_have_room() {
    // (6 + 6) / 2 - 4.
    let bag = mistake("strap-overlap-side");
    assert_eq!(told(&bag), [("strap/overlap", "two lies 2 cm over one on Side".to_owned())]);
    assert_eq!(said(&with(&bag, &[("(16, 30)", "(18, 30)")])), NOTHING);
    // One on the end of the other, as both carry one ring.
    assert_eq!(said(&with(&bag, &[("two_at = (16, 30)", "two_at = (12, 26)")])), NOTHING);
}

/// A fold that is sewn along and across both ends is a bag as two plies are.
#[test]
fn a_folded_belt_is_turned_through_a_gap() {
    let belt = mistake("turn-closed-belt");
    assert_eq!(said(&belt), ["turn/closed"]);
    let gap = ("belt.top to belt.bottom", "belt.top to belt.bottom { leaving gap 14 }");
    assert_eq!(said(&with(&belt, &[gap])), NOTHING);
    // An end that stays open, or is closed by hand, needs none.
    let open = with(
        &belt,
        &[("belt.left, belt.right across the fold", "belt.left across the fold\nfinish belt.right  raw")],
    );
    assert_eq!(said(&open), NOTHING);
    assert_eq!(said(&with(&open, &[gap])), ["gap/needless"]);
    let by_hand = ("across the fold", "across the fold { stitch handstitch }");
    assert_eq!(said(&with(&belt, &[by_hand])), NOTHING);
}

#[test]
fn the_fold_of_a_band_meets_the_middle() {
    cured("seam-matching-middle", "seam/matching", &[("with front.top_right", "with front.top_left")]);
    let help = &helps(&mistake("seam-matching-middle"))[0];
    assert!(help.contains("front.top_left"), "{help}");
}

/// A bib that is caught on a band lies fold on fold there, whatever says so: corner with corner, or the run's near end.
#[test]
fn a_half_is_caught_on_a_half_from_the_fold() {
    let apron = |matching: &str| {
        format!(
            "garment \"Galley half apron\"\nunits cm\nallowance 1\n\
             fabric drill \"blue drill\" {{ width 150; kind woven firm; nap none }}\n\
             layer outer in drill {{ band, bib }}\nlayer inside in drill {{ band }}\n\
             piece band \"Band\" {{ cut 1 on fold left; outline rectangle 40 by 5 }}\n\
             piece bib \"Bib\" {{ cut 1 on fold left; outline rectangle 14 by 20 }}\n\
             seam band_top  outer.band.top to inside.band.top {{\n  caught outer.bib.bottom on outer.band.top at top_left\n  \
             matching outer.bib.{matching}\n}}\n\
             seam band_bottom  outer.band.bottom to inside.band.bottom\n\
             finish outer.band.right, inside.band.right  overlocked\nfinish bib.top, bib.right  hem 2\n"
        )
    };
    for sound in [
        "bottom_left with outer.band.top_left",
        "bottom_left with outer.band.top.near",
        "bottom_right with outer.band.top.far",
    ] {
        assert_eq!(said(&apron(sound)), NOTHING, "{sound}");
    }
    assert_eq!(said(&apron("bottom_left with outer.band.top.far")), ["seam/fold-end"]);
}

#[test]
fn buttons_go_on_along_lines_that_are_sewn_together() {
    cured(
        "closure-jumps-line",
        "closure/jumps",
        &[("back_band.button_line + front.", "back_band.button_line + back.")],
    );
}

#[test]
fn buttons_are_not_sewn_in() {
    let vest = mistake("seam-encloses-buttons");
    assert_eq!(said(&vest), ["seam/encloses"]);
    let zip = with(
        &vest,
        &[(
            "  buttons 7 of 15mm  from 2 below top_left  to 8 above bottom_left  stand 2  left over right\n",
            "  zipper separating 60\n",
        )],
    );
    assert_eq!(said(&zip), NOTHING);
}

/// Two halves on the fold that nothing but their buttons joins make one ring: from line to line.
#[test]
fn two_pieces_that_button_at_both_sides_let_the_hip_through() {
    let wrap = |lines: &str| {
        format!(
            "garment \"Wrapped waist\"\nunits cm\nallowance 1\nsizes S, M\nbody {{ hip 90, 96 }}\n\
             fabric drill \"blue drill\" {{ width 150; kind woven firm; nap none }}\nlayer outer in drill {{ front, back }}\n\
             piece front \"Front\" {{\n  cut 1 on fold left\n  outline rectangle hip/4 - 4 by 40\n  \
             line button_line along at (hip/4 - 6, 0)\n}}\npiece back \"Back\" like front {{ }}\n\
             finish front.right, back.right  hem 4 turned under 1\nfinish front.bottom, back.bottom  hem 2\n\
             finish front.top, back.top  bound 1\n{lines}opening front.top + back.top  passes hip\n"
        )
    };
    let buttons = "closure sides  front.button_line to back.button_line { buttons 4 of 15mm from 3 below top_right to 3 above bottom_right }\n";
    assert_eq!(said(&wrap(buttons)), NOTHING);
    assert!(said(&wrap("")).contains(&"opening/ring"));
}

/// One figure among those of a row is told where it stands, and not at what is drawn to it.
#[test]
fn a_slip_in_a_row_is_told_at_its_figure() {
    let text = |hip: &str, long: &str| {
        format!(
            "garment \"Mess apron\"\nunits cm\nallowance 1\nsizes S, M, L, XL\nbody {{ hip {hip} }}\nlet long = each {long}\n\
             fabric drill \"blue drill\" {{ width 250; kind woven firm; nap none }}\nlayer outer in drill {{ apron }}\n\
             piece apron \"Apron\" {{ cut 1; outline rectangle hip/2 by long }}\n\
             finish apron.top, apron.left, apron.right, apron.bottom  hem 1\n"
        )
    };
    assert_eq!(said(&text("92, 100, 108, 116", "60, 62, 64, 66")), NOTHING);
    let spike = "hip lies beside its row in size L: 180 cm, after 100 cm and before 116 cm";
    assert_eq!(told(&text("92, 100, 180, 116", "60, 62, 64, 66")), [("size/irregular", spike.to_owned())]);
    let jump = "long jumps from size L to XL: 64 cm, then 166 cm";
    assert_eq!(told(&text("92, 100, 108, 116", "60, 62, 64, 166")), [("size/irregular", jump.to_owned())]);
}

#[test]
fn a_dart_stops_before_the_bust() {
    cured(
        "dart-to-point",
        "dart/to-point",
        &[("to bust_point pressed", "to bust_point stopping 2.5 short pressed")],
    );
    // A place that is called otherwise may be a hip bone.
    let tip = [("bust_point = ", "tip = "), ("to bust_point", "to tip")];
    assert_eq!(said(&with(&mistake("dart-to-point"), &tip)), NOTHING);
}

#[test]
fn fasteners_are_as_large_as_any_that_are_sold() {
    let vest = mistake("closure-tiny");
    assert_eq!(said(&vest), ["closure/tiny"]);
    let row = |how: &str| said(&with(&vest, &[("buttons 5 of 1.5mm", how)]));
    assert_eq!(row("buttons 5 of 15mm"), NOTHING);
    assert_eq!(row("snaps 5 of 10mm"), NOTHING);
    assert_eq!(row("snaps 5 of 1.2mm"), ["closure/tiny"]);
    assert!(row("buttons 5 of 15").contains(&"length/out-of-use"));
    // Ties of 5 cm cannot be tied.
    let ties = |long: &str| {
        let changes = [
            ("buttons 5 of 1.5mm", &*format!("ties 5 of {long}")),
            ("  stand 2  left over right", ""),
            ("front.bottom, back.bottom", "front.left, front.bottom, back.bottom"),
        ];
        said(&with(&vest, &changes))
    };
    assert_eq!(ties("5"), ["closure/tiny"]);
    assert_eq!(ties("25"), NOTHING);
}

/// Interfacing that is fused once a strap is sewn on would be cut round its stitching.
#[test]
fn what_carries_a_strap_is_stiffened_before() {
    let text = "garment \"Tool roll\"\nunits cm\nallowance 1\n\
        fabric canvas \"apron canvas\" { width 150; kind woven firm }\nfabric stay \"fusible\" { width 90 }\n\
        layer outer in canvas { roll }\nlayer firm in stay fused { roll }\n\
        piece roll \"Roll\" {\n  cut 1\n  outline rectangle 60 by 40\n  mark tie_at = (30, 20)\n}\n\
        finish roll.left, roll.right, roll.top, roll.bottom  hem 1\n\
        strap tie \"Tie\" 50 by 2 in outer folded in four { from roll.tie_at to free }\n\
        steps { \"All\" { fuse roll; place tie; hem roll.left, roll.right, roll.top, roll.bottom } }\n";
    assert_eq!(said(text), NOTHING);
    let late = with(text, &[("fuse roll; place tie", "place tie; fuse roll")]);
    assert_eq!(said(&late), ["step/early"]);
}

/// Of a cord that runs between two layers each edge has its row, and its ends come out somewhere.
#[test]
fn a_cord_has_a_channel_along_all_that_it_runs_through() {
    let vest = |rows: &str, more: &str| {
        format!(
            "garment \"Lined vest\"\nunits cm\nallowance 1\n\
             fabric drill \"cotton drill\" {{ width 150; kind woven firm }}\n\
             layer outer in drill {{ front, back }}\nlayer lining in drill {{ front, back }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 26 by 60; mark hole = (3, 1) }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle 26 by 60 }}\n\
             seam side  front.right to back.right\n\
             seam hem   outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom\n\
             seam edge  outer.front.left to lining.front.left\nfinish front.top, back.top  bound 1\n{rows}\
             cord hem_cord 140 through outer.front.bottom, outer.back.bottom  ends 10 free\n{more}"
        )
    };
    let eyelets = "notion \"eyelet 8 mm\"\nset holes \"eyelet 8 mm\" at outer.front.hole\n";
    let both = "topstitch row 2 from outer.front.bottom, outer.back.bottom\n";
    assert_eq!(said(&vest(both, eyelets)), NOTHING);
    assert_eq!(said(&vest("topstitch row 2 from outer.front.bottom\n", eyelets)), ["cord/seam"]);
    assert_eq!(said(&vest(both, "")), ["cord/shut"]);
    // 140 - 2 × 55 = 30 are left for 104 of hem: less than a third is told as a slip only where nothing could be drawn so.
    let ends = |ends: &str| said(&with(&vest(both, eyelets), &[("ends 10 free", ends)]));
    assert_eq!(ends("ends 55 free"), NOTHING);
    assert_eq!(ends("ends 62 free"), ["cord/ends"]);
}
