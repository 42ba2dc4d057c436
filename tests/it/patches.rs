//! What is placed on a piece, against darts, slits, hems and other pockets under it: what is refused, and the sound
//! garment beside it.

use crate::workbench::{NOTHING, mistake, said, told, with};

#[test]
fn a_pocket_lies_beside_a_dart_or_has_one_too() {
    let vest = mistake("place-over-dart");
    assert_eq!(said(&vest), ["place/over-dart"]);
    // The dart is 3 wide at the edge and ends 24 up: half way up, where the pocket begins, 1.5.
    let (_, title) = &told(&vest)[0];
    assert_eq!(title, "Pocket is 1.5 cm too wide where waist_dart of Front is sewn");
    // At its mouth it is held as wide: 2 below the edge the dart, 3 wide and 12 long, has 3 × 10 / 12 = 2.5.
    let hung = with(&vest, &[("pocket_at = (8, 12)", "pocket_at = (8, 40)"), ("to (11, 24)", "to (11, 22)")]);
    assert_eq!(said(&hung), NOTHING);
    let from_above = with(
        &hung,
        &[
            ("on bottom at 11 from left width 3 to (11, 22)", "on top at 11 from left width 3 to (11, 48)"),
            ("(8, 40)", "(8, 43)"),
        ],
    );
    assert_eq!(
        told(&from_above),
        [("place/over-dart", "Pocket is 2.5 cm too wide where waist_dart of Front is sewn".to_owned())]
    );
    // Its point alone under the pocket is no matter; nor is a dart beside it.
    assert_eq!(said(&with(&vest, &[("pocket_at = (8, 12)", "pocket_at = (8, 25)")])), NOTHING);
    assert_eq!(said(&with(&vest, &[("pocket_at = (8, 12)", "pocket_at = (12, 12)")])), NOTHING);
    // A shaped pocket has a dart of its own, sewn before it is placed.
    let shaped = with(
        &vest,
        &[
            (
                "outline rectangle 14 by 15 }",
                "outline rectangle 14 by 15; dart own on bottom at 3 from left width 1.5 to (3, 12) pressed toward left trued }",
            ),
            ("hem pocket.top; place", "hem pocket.top; sew pocket.own; place"),
        ],
    );
    assert_eq!(said(&shaped), NOTHING);
    let late = with(&shaped, &[("sew pocket.own; place pocket", "place pocket; sew pocket.own")]);
    assert_eq!(said(&late), ["step/early"]);
}

#[test]
fn a_dart_is_sewn_before_the_pocket_over_it() {
    let vest = mistake("step-early-over-dart");
    assert_eq!(said(&vest), ["step/early"]);
    let before = ("place pocket; sew front.contour", "sew front.contour; place pocket");
    assert_eq!(said(&with(&vest, &[before])), NOTHING);
    // Clear of the pocket it may be sewn after.
    assert_eq!(said(&with(&vest, &[("contour at (15, 20)", "contour at (15, 40)")])), NOTHING);
}

#[test]
fn a_pocket_lies_beside_a_slit() {
    let vest = mistake("place-over-line-slit");
    assert_eq!(said(&vest), ["place/over-line"]);
    assert_eq!(said(&with(&vest, &[("pocket_at = (8, 12)", "pocket_at = (8, 21.5)")])), NOTHING);
}

#[test]
fn a_pocket_ends_above_the_hem_or_is_sewn_through_it() {
    let vest = mistake("place-in-hem");
    assert_eq!(said(&vest), ["place/in-hem"]);
    assert_eq!(
        told(&vest)[0].1,
        "Pocket reaches 2 cm into the hem at the bottom of Front, which is turned up behind it later"
    );
    assert_eq!(said(&with(&vest, &[("pocket_at = (8, 1)", "pocket_at = (8, 3)")])), NOTHING);
    // Where the hem is turned first, the pocket is sewn through it; then the side seams are under the hem.
    let first = with(
        &vest,
        &[
            (
                "hem pocket.top; place pocket",
                "sew side; hem front.bottom, back.bottom, pocket.top; place pocket",
            ),
            ("sew side; hem front.left, front.bottom, back.bottom;", "hem front.left;"),
        ],
    );
    assert!(!said(&first).contains(&"place/in-hem"), "{:?}", told(&first));
    // A band that goes down to the edge is turned up with it.
    let band = with(
        &vest,
        &[
            ("pocket_at = (8, 1)", "pocket_at = (8, 0)"),
            ("outline rectangle 14 by 15", "outline rectangle 4 by 60"),
            ("topstitch left, bottom, right", "topstitch left, right"),
            ("finish pocket.top  hem 2", "finish pocket.top  bound 1\nfinish pocket.bottom  hem 3"),
            ("hem pocket.top;", "finish pocket.top; hem pocket.bottom;"),
        ],
    );
    assert_eq!(said(&band), NOTHING);
}

#[test]
fn no_pocket_shuts_a_channel() {
    let vest = mistake("place-in-hem-casing");
    assert_eq!(said(&vest), ["place/in-hem"]);
    assert_eq!(said(&with(&vest, &[("pocket_at = (8, 44)", "pocket_at = (8, 42)")])), NOTHING);
}

#[test]
fn a_pocket_lies_on_another_one_and_not_across_it() {
    let vest = mistake("place-over-pocket");
    assert_eq!(said(&vest), ["place/over-pocket"]);
    // On the pocket itself, placed before that is.
    let on_it = with(
        &vest,
        &[
            ("outline rectangle 14 by 15 }", "outline rectangle 14 by 15; mark ticket_at = (4, 3) }"),
            ("  mark ticket_at = (12, 15)\n", ""),
            ("place ticket on front", "place ticket on pocket"),
            ("place pocket, ticket", "place ticket, pocket"),
        ],
    );
    assert_eq!(said(&on_it), NOTHING);
    let after = with(&on_it, &[("place ticket, pocket }", "place pocket, ticket }")]);
    assert_eq!(said(&after), ["step/early"]);
    // A flap hangs over the pocket, and is stitched down above it.
    let flap = with(
        &vest,
        &[
            ("ticket_at = (12, 15)", "ticket_at = (8, 22)"),
            ("outline rectangle 6 by 7", "outline rectangle 14 by 6"),
            (
                "finish pocket.top, ticket.top  hem 2",
                "finish pocket.top  hem 2\nfinish ticket.left, ticket.right, ticket.bottom  hem 0.5",
            ),
            (
                "corner bottom_left at ticket_at\n  topstitch left, bottom, right",
                "corner bottom_left at ticket_at\n  topstitch top",
            ),
            ("hem pocket.top, ticket.top;", "hem pocket.top, ticket.left, ticket.right, ticket.bottom;"),
        ],
    );
    assert_eq!(said(&flap), NOTHING);
    // One on the left and one on the right do not meet.
    let sides = with(
        &vest,
        &[
            ("mark ticket_at", "drawn left\n  mark ticket_at"),
            ("place pocket on front {", "place pocket on front on left {"),
            ("place ticket on front {", "place ticket on front on right {"),
            ("pocket \"Pocket\" { cut 2 mirrored", "pocket \"Pocket\" { cut 1"),
            ("\"Ticket pocket\" { cut 2 mirrored", "\"Ticket pocket\" { cut 1"),
        ],
    );
    assert_eq!(said(&sides), NOTHING);
}

#[test]
fn two_pockets_leave_the_middle_free() {
    let apron = mistake("place-over-pocket-fold");
    assert_eq!(said(&apron), ["place/over-pocket"]);
    assert_eq!(told(&apron)[0].1, "Pocket reaches 4 cm over the fold, onto the other Pocket");
    assert_eq!(said(&with(&apron, &[("pocket_at = (10, 30)", "pocket_at = (14, 30)")])), NOTHING);
}

#[test]
fn a_pocket_is_open_above() {
    let vest = mistake("place-mouth-down");
    assert_eq!(said(&vest), ["place/mouth-down"]);
    let sound = with(
        &vest,
        &[
            ("finish pocket.bottom", "finish pocket.top"),
            ("hem pocket.bottom", "hem pocket.top"),
            ("topstitch left, top, right", "topstitch left, bottom, right"),
        ],
    );
    assert_eq!(said(&sound), NOTHING);
    // Turned with two corners, its bottom is above.
    let turned = with(
        &vest,
        &[
            ("mark pocket_at = (8, 12)", "mark pocket_at = (22, 27)\n  mark other_at = (8, 27)"),
            (
                "corner bottom_left at pocket_at",
                "corner bottom_left at pocket_at\n  corner bottom_right at other_at",
            ),
        ],
    );
    assert_eq!(said(&turned), NOTHING);
}

/// A flap of 19 by 7 hangs 6 over a pocket of 18 by 20: placed after the pocket, its cloth is not stitched through. Where no
/// order is said, it is placed so; an order that has the flap first is told, once.
#[test]
fn a_flap_is_placed_after_its_pocket() {
    let text = "garment \"Pocket with a flap\"\nunits cm\nallowance 1\n\
                fabric c \"canvas\" { width 150; kind woven firm }\nlayer o in c { front, pocket, flap }\n\
                layer l in c { flap }\npiece front {\n  cut 1\n  outline rectangle 40 by 50\n  mark low = (9, 6)\n  \
                mark high = (8.5, 27)\n}\npiece pocket {\n  cut 1\n  outline rectangle 18 by 20\n}\n\
                piece flap {\n  cut 1\n  outline rectangle 19 by 7\n}\nfinish pocket.top hem 2\n\
                seam edge o.flap to l.flap along left + bottom + right\nfinish l.flap.top overlocked\n\
                place pocket on front { corner bottom_left at low; topstitch left, bottom, right }\n\
                place o.flap on front { corner top_left at high; topstitch top }\n\
                finish front.left, front.right, front.top, front.bottom hem 1\n";
    assert_eq!(told(text), []);
    let ordered = |places: &str| {
        format!(
            "{text}steps {{ \"All\" {{ sew edge; finish l.flap.top; hem pocket.top; {places}; \
             hem front.left, front.right, front.top, front.bottom }} }}\n"
        )
    };
    assert_eq!(told(&ordered("place pocket; place o.flap")), []);
    let early = "placing flap comes before placing pocket, over which it hangs";
    assert_eq!(told(&ordered("place o.flap; place pocket")), [("step/early", early.to_owned())]);
}

/// A zip across a patch pocket: its ends lie under the stitching of both halves, which holds them, and it shuts the mouth of
/// the upper one. Where one half is not stitched at its sides, nothing holds the zip together.
#[test]
fn a_zip_across_a_patch_pocket_is_held_by_its_stitching() {
    let text = "garment \"Zipped patch pocket\"\nunits cm\nallowance 1\n\
                fabric c \"canvas\" { width 150; kind woven firm }\nlayer o in c { front, low, high }\n\
                piece front {\n  cut 1\n  outline rectangle 40 by 50\n  mark below = (9, 6)\n  mark above = (9, 20)\n}\n\
                piece low {\n  cut 1\n  outline rectangle 22 by 14\n}\npiece high {\n  cut 1\n  outline rectangle 22 by 4\n}\n\
                closure mouth low.top to high.bottom { zipper closed 22 }\n\
                place low on front { corner bottom_left at below; topstitch left, bottom, right }\n\
                place high on front { corner bottom_left at above; topstitch left, top, right }\n\
                finish front.left, front.right, front.top, front.bottom hem 1\n";
    assert_eq!(said(text), NOTHING);
    let loose = with(
        text,
        &[
            ("topstitch left, top, right", "topstitch top"),
            ("finish front.left", "finish high.left, high.right raw\nfinish front.left"),
        ],
    );
    assert!(said(&loose).contains(&"zipper/open-ends"), "{:?}", said(&loose));
}
