//! Hems, tapes, facings, underlaps and alterations that go too far or not far enough, commas, and what was dropped: each told
//! once, where it was written, beside a sound neighbour that stays silent.

use crate::workbench::{NOTHING, example, helps, in_memory, mistake, of, said, told, with};
use fustian::{Compiled, compile};

/// A skirt of four like quarters, 60 high, with a pocket 14 high.
const SKIRT: &str = "garment \"Mess skirt\"\nunits cm\nallowance 1\n\
    fabric wool \"navy wool\" { width 150; kind woven firm }\n\
    layer outer in wool { front, back, pocket }\n\
    piece front \"Front\" { cut 1 on fold left; drawn left; outline rectangle 24 by 60; mark corner_at = (6, 20) }\n\
    piece back \"Back\" { cut 1 on fold left; drawn right; outline rectangle 24 by 60 }\n\
    piece pocket \"Pocket\" { cut 1; outline rectangle 12 by 14 }\n\
    seam side front.right to back.right\n\
    finish front.top, back.top  overlocked\n\
    finish front.bottom, back.bottom  hem 4 turned under 1\n\
    finish pocket.top  hem 2\n\
    place pocket on front on left { corner bottom_left at corner_at; topstitch left, bottom, right }\n";

#[test]
fn a_hem_covers_less_than_half_of_its_piece() {
    assert_eq!(said(SKIRT), NOTHING);
    // 60 for 6: as deep as both panels, told once for both; the pocket in it only follows.
    let all = with(SKIRT, &[("hem 4 turned", "hem 60 turned")]);
    assert_eq!(
        told(&all),
        [("hem/half", "the hem of bottom is 60 cm deep, as deep as Front itself".to_owned())]
    );
    // 31 of 60 are more than half, 30 are half.
    let without = with(
        SKIRT,
        &[
            ("place pocket on front on left", "#"),
            ("layer outer in wool { front, back, pocket }", "layer outer in wool { front, back }"),
        ],
    );
    let without =
        without.replace("finish pocket.top  hem 2\n", "").replace("piece pocket", "block piece pocket");
    assert_eq!(said(&without), NOTHING);
    assert_eq!(said(&with(&without, &[("hem 4 turned", "hem 31 turned")])), ["hem/half"]);
    assert_eq!(said(&with(&without, &[("hem 4 turned", "hem 30 turned")])), NOTHING);
    // A pocket's hem as deep as the pocket, and one of 8 of 14 cm.
    let pocket = |hem: &str| said(&with(SKIRT, &[("pocket.top  hem 2", &*format!("pocket.top  hem {hem}"))]));
    assert_eq!(pocket("14"), ["hem/half"]);
    assert_eq!(pocket("8"), ["hem/half"]);
    assert_eq!(pocket("7"), NOTHING);
    // A usual hem may cover most of a narrow piece: 4 of 6 cm.
    let narrow = with(
        SKIRT,
        &[("rectangle 12 by 14", "rectangle 12 by 6"), ("pocket.top  hem 2", "pocket.top  hem 4")],
    );
    assert_eq!(said(&narrow), NOTHING);
}

#[test]
fn a_piece_that_is_deep_enough_somewhere_takes_its_hem() {
    // A godet is deep along its middle and ends in a point at both ends of its hem.
    let godet = "garment \"Godet\"\nunits cm\nallowance 1\nfabric wool \"navy wool\" { width 150 }\n\
        layer outer in wool { godet }\npiece godet \"Godet\" {\n  cut 1 loose\n  point a = (0, 0)\n  point b = (30, 0)\n  \
        point c = (15, 40)\n  outline from a { hem to b; right to c; left to a }\n}\n\
        finish godet.hem  hem 5\nfinish godet.right, godet.left  overlocked\n";
    assert_eq!(said(godet), NOTHING);
}

#[test]
fn tape_lies_on_the_allowances_of_its_seam() {
    let taped = |tape: &str| {
        said(&with(
            SKIRT,
            &[("front.right to back.right", &*format!("front.right to back.right {{ {tape} }}"))],
        ))
    };
    assert_eq!(taped("tape 1"), NOTHING);
    // Allowances of 1 and 1 have room for 2; up to an inch is usual all the same.
    assert_eq!(taped("tape 2.5"), NOTHING);
    assert_eq!(taped("tape 5"), ["length/out-of-use"]);
    assert_eq!(taped("allowance 2.5; tape 5"), NOTHING);
    assert_eq!(taped("tape 12"), ["length/out-of-use"]);
}

/// A bodice whose neck is faced.
const FACED: &str = "garment \"Galley bodice\"\n\
    units cm\n\
    allowance 1\n\
    fabric wool \"navy wool\" { width 150; kind woven firm }\n\
    layer outer in wool { front, back }\n\
    piece front \"Front\" {\n\
    cut 1 on fold centre\n\
    point low_c  = (0, 0)\n\
    point low_s  = (24, 0)\n\
    point high_s = (24, 40)\n\
    point neck_s = (9, 40)\n\
    point neck_c = (0, 31)\n\
    outline from low_c {\n\
    hem      to low_s\n\
    side     to high_s\n\
    shoulder to neck_s\n\
    neck     to neck_c  arc about (0, 40) clockwise\n\
    centre   to low_c\n\
    }\n\
    }\n\
    piece back \"Back\" like front { cut 1 on fold centre }\n\
    seam shoulder front.shoulder to back.shoulder\n\
    seam side front.side to back.side\n\
    finish front.hem, back.hem  hem 2\n\
    facing neck_facing \"Neck facing\" in outer 5 wide behind front.neck + back.neck understitched\n";

#[test]
fn a_facing_is_wide_enough_to_stay_inside() {
    let wide = |wide: &str| said(&with(FACED, &[("outer 5 wide", &*format!("outer {wide} wide"))]));
    let sound = wide("5");
    assert!(!sound.contains(&"hem/tiny"), "{sound:?}");
    // 5 mm, the decimal point set one place too early; 1.5 cm are as narrow as any.
    assert_eq!(wide("0.5").iter().filter(|slug| **slug == "hem/tiny").count(), 1);
    assert_eq!(wide("1.5"), sound);
}

#[test]
fn an_underlap_laps() {
    let band = mistake("band-underlap");
    let underlap = |long: &str| said(&with(&band, &[("underlap 20 at", &*format!("underlap {long} at"))]));
    assert_eq!(underlap("0.5").iter().filter(|slug| **slug == "band/underlap").count(), 1);
    assert!(!underlap("3").contains(&"band/underlap"));
    assert!(!underlap("1").contains(&"band/underlap"));
    // The edges of a vent lap by 4 cm; 5 mm never close it.
    let vent = |deep: &str| {
        let variation =
            with(&example("mess-skirt-vent"), &[("vent_deep = 4", &*format!("vent_deep = {deep}"))]);
        let lined = example("mess-skirt-lined");
        let (skirt, library) = (example("mess-skirt"), example("crew-library"));
        let files = [
            ("vent.fus", &*variation),
            ("mess-skirt-lined.fus", &*lined),
            ("mess-skirt.fus", &*skirt),
            ("crew-library.fus", &*library),
        ];
        slugs(&compile(&in_memory(&files), "vent.fus"))
    };
    assert_eq!(vent("4"), NOTHING);
    assert_eq!(vent("0.5"), ["band/underlap"]);
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|one| one.slug()).collect()
}

/// Side seams that slant: moved out, they grow shorter.
const SLANTED: &str = "garment \"Deck tunic\"\n\
    units cm\n\
    allowance 1\n\
    fabric wool \"navy wool\" { width 150; kind woven firm }\n\
    layer outer in wool { front, back }\n\
    layer lining in wool { front, back }\n\
    piece front \"Front\" {\n\
    cut 1 on fold centre\n\
    point low = (0, 0)\n\
    point hem_side = (30, 4)\n\
    point underarm = (22, 40)\n\
    point high = (0, 46)\n\
    outline from low { hem to hem_side; side to underarm; top to high; centre to low }\n\
    }\n\
    piece back \"Back\" like front { cut 1 on fold centre }\n\
    seam side front.side to back.side\n\
    seam top outer.front.top + outer.back.top to lining.front.top + lining.back.top\n\
    finish front.hem, back.hem  bound 1\n";

#[test]
fn an_edge_that_was_moved_out_alone_is_told_where_that_was_written() {
    assert!(!said(&format!("{SLANTED}extend front.side, back.side by 2\n")).contains(&"alter/one-side"));
    let text = format!("{SLANTED}extend front.side by 2\n");
    let compiled = of(&text);
    let mistakes: Vec<_> = compiled.diagnostics.iter().filter(|one| one.slug() == "alter/one-side").collect();
    // Once, though it is sewn so in the outside and in the lining.
    let [mistake] = mistakes.as_slice() else { panic!("{mistakes:#?}") };
    assert!(!slugs(&compiled).contains(&"seam/unequal"), "{:?}", slugs(&compiled));
    let place = mistake.labels[0].span;
    assert_eq!(compiled.map.text(place), "extend front.side by 2");
    assert_eq!(mistake.help_words().as_deref(), Some("extend back.side by 2cm too, or take it back"));
}

/// A lined tunic whose lining has a pocket of its own.
const LINED: &str = "garment \"Lined tunic\"\nunits cm\nallowance 1\n\
    fabric wool \"navy wool\" { width 150; kind woven firm }\nfabric satin \"satin\" { width 140; kind woven firm }\n\
    layer outer in wool { front, back }\nlayer lining in satin { front, back, pocket }\n\
    piece front \"Front\" { cut 1 on fold left; outline rectangle 24 by 40; mark corner_at = (6, 10) }\n\
    piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 40 }\n\
    piece pocket \"Pocket\" { cut 2; outline rectangle 12 by 14 }\n\
    seam side front.right to back.right\n\
    seam top outer.front.top + outer.back.top to lining.front.top + lining.back.top\n\
    finish outer.front.bottom, outer.back.bottom  hem 3\nfinish lining.front.bottom, lining.back.bottom  hem 2\n\
    finish pocket.top  hem 2\n\
    place pocket on lining.front { corner bottom_left at corner_at; topstitch left, bottom, right }\n";

fn varied(changes: &str) -> Compiled {
    let variation = format!("variation \"Unlined tunic\" of \"lined.fus\"\n{changes}\n");
    compile(&in_memory(&[("lined.fus", LINED), ("own.fus", &variation)]), "own.fus")
}

#[test]
fn what_was_dropped_and_is_used_in_many_places_is_told_once() {
    let dropped = varied("drop layer lining");
    let dangling: Vec<_> = dropped.diagnostics.iter().filter(|one| one.slug() == "drop/dangling").collect();
    let [dangling] = dangling.as_slice() else { panic!("{dangling:#?}") };
    // Two edges of the seam, two of the hem, and where the pocket is placed.
    assert_eq!(dangling.title.to_string(), "lining was dropped, but is still used in 5 places");
    // Those, and where it was dropped.
    assert_eq!(dangling.labels.len(), 6);
    let help = dangling.help_words().unwrap_or_default();
    assert!(help.contains("`drop lining and all sewn to it`"), "{help}");
    // The way out works: the pocket that only the lining had goes along, and the top is bound instead.
    let followed =
        varied("drop lining and all sewn to it\ndrop fabric satin\nfinish front.top, back.top  bound 1");
    let said = followed.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    let told: Vec<String> = said.map(|one| format!("{}: {}", one.slug(), one.title)).collect();
    let title = "dropping lining also drops what is sewn to it: the piece pocket, the seam top, the finish of \
                 lining.front.bottom, the finish of lining.back.bottom, the finish of pocket.top, the placing of pocket on \
                 lining.front";
    assert_eq!(told, [format!("drop/along: {title}")]);
}

#[test]
fn what_is_drawn_from_what_was_dropped_has_its_own_way_out() {
    let copied = LINED.replace(
        "piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 40 }",
        "piece back \"Back\" { cut 1 on fold left; outline copy of front }",
    );
    let variation = "variation \"Back alone\" of \"lined.fus\"\ndrop front and all sewn to it\n";
    let compiled = compile(&in_memory(&[("lined.fus", &copied), ("own.fus", variation)]), "own.fus");
    let all = compiled.diagnostics.iter().filter(|one| one.slug() == "drop/dangling");
    let helps: Vec<String> = all.map(|one| one.help_words().unwrap_or_default()).collect();
    assert_eq!(
        helps,
        [
            "the piece back is drawn from front: write `drop back and all sewn to it` too, or draw back by itself"
        ]
    );
}

#[test]
fn a_layer_is_dropped_by_its_name_only_with_all_that_is_sewn_to_it() {
    let compiled = varied("drop lining");
    assert!(slugs(&compiled).contains(&"drop/nothing"), "{:?}", slugs(&compiled));
}

#[test]
fn a_comma_in_the_brackets_of_a_point_may_touch_both_numbers() {
    let drawn = |corner: &str| {
        let text = SKIRT.replace("mark corner_at = (6, 20)", &format!("mark corner_at = {corner}"));
        let compiled = of(&text);
        let paper = crate::workbench::paper(&compiled, "front").clone();
        let spot = paper.spots.iter().map(|spot| (spot.at.x, spot.at.y)).collect::<Vec<_>>();
        (said(&text), spot)
    };
    let (silent, spots) = drawn("(6, 20)");
    assert_eq!(silent, NOTHING);
    for tight in ["(6,20)", "(7-1,20)", "(2cm*3,20)", "( 6,20 )"] {
        assert_eq!(drawn(tight), (silent.clone(), spots.clone()), "{tight}");
    }
    let minus = drawn("(-6,20) + (12, 0)");
    assert_eq!(minus, (silent, spots));
    // Elsewhere it can be read two ways, and is told.
    for (old, new) in [
        ("mark corner_at = (6, 20)", "mark corner_at = (6, 20)\n  point help = (3cm,5cm) + (1,5cm)"),
        ("seam side", "let x = 1,5\nseam side"),
        ("seam side", "let x = max(1,5)\nseam side"),
    ] {
        assert!(said(&with(SKIRT, &[(old, new)])).contains(&"text/slip"), "{new}");
    }
}

#[test]
fn a_price_has_a_point() {
    let priced =
        |price: &str| with(SKIRT, &[("width 150; kind", &*format!("width 150; price {price} per m; kind"))]);
    assert_eq!(said(&priced("9.50")), NOTHING);
    let slip = priced("9,50");
    assert_eq!(said(&slip), ["text/slip"]);
    assert_eq!(helps(&slip), ["write `9.50`"]);
    // A thousand has no comma either.
    assert_eq!(helps(&priced("1,250")), ["write `1250` if it is one number"]);
}

#[test]
fn a_box_is_stitched_on_its_piece_all_round() {
    // A strap 4 wide whose mark lies 1 cm from both edges of a corner may hang over the corner's tip, as it goes on
    // slanting; no box is stitched there.
    let bib = |how: &str| {
        let text = with(
            &mistake("strap-wide"),
            &[
                ("left_strap  = (3, 25)", "left_strap  = (1, 27)"),
                ("right_strap = (21, 25)", "right_strap = (23, 27)"),
            ],
        );
        said(&with(&text, &[("70 by 30", "70 by 4"), ("; sewn 3", how)]))
    };
    assert_eq!(bib("; sewn 4"), NOTHING);
    assert_eq!(bib("; sewn 4, boxed"), ["strap/wide"]);
}

#[test]
fn a_centre_that_is_joined_is_no_sleeve() {
    // Trousers, cut along and across: the fronts are told beside the backs at both legs' seams, not at their own centre.
    let trousers = |grain: &str| {
        let text = format!(
            "garment \"Bunk trousers\"\nunits cm\nallowance 1\nfabric wool \"navy wool\" {{ width 150; kind woven firm }}\n\
             layer outer in wool {{ front, back, bag }}\n\
             piece front \"Front\" {{\n  cut 2 mirrored\n  grain {grain}\n  point hem_i = (0, 0)\n  point hem_s = (22, 0)\n  \
             point waist_s = (22, 100)\n  point cf = (0, 100)\n  point crotch = (-4, 72)\n  outline from hem_i {{ hem to hem_s; side to \
             waist_s; waist to cf; centre to crotch; inseam to hem_i }}\n}}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline copy of front }}\n\
             piece bag \"Pocket bag\" {{ cut 4 mirrored; outline rectangle 15 by 18 }}\n\
             seam side front.side to back.side\nseam inseam front.inseam to back.inseam\n\
             seam fronts front.centre to front.centre\nseam backs back.centre to back.centre\n\
             seam bags bag.right to front.side 60..78 from hem_s\n\
             finish front.waist, back.waist, front.hem, back.hem  bound 1\n"
        );
        told(&text)
            .into_iter()
            .filter(|(slug, _)| *slug == "seam/grain")
            .map(|(_, title)| title)
            .collect::<Vec<_>>()
    };
    assert_eq!(trousers("up"), NOTHING);
    let across = trousers("across");
    assert!(!across.is_empty());
    assert!(
        across.iter().all(|title| !title.contains("Pocket bag") && !title.contains("fronts")),
        "{across:#?}"
    );
}

#[test]
fn what_follows_from_a_hem_that_is_too_deep_is_not_told_beside_it() {
    // The hem comes out at the top: that the pocket lies in it, and that it cannot be cut so, follows.
    let deep = with(SKIRT, &[("hem 4 turned", "hem 70 turned")]);
    assert_eq!(said(&deep), ["hem/deep"]);
    // A binding at the top and a hem as deep as the skirt: both panels alike, told once.
    let bound =
        with(SKIRT, &[("back.top  overlocked", "back.top  bound 1"), ("hem 4 turned", "hem 60 turned")]);
    assert_eq!(said(&bound), ["hem/crosses"]);
}

#[test]
fn a_place_in_a_closure_is_a_corner_or_a_mark() {
    let vest = |to: &str| {
        let text = with(&mistake("closure-tiny"), &[("1.5mm", "15mm")]);
        let from = text.find("  from ").expect("a row says where it begins");
        let (before, rest) = text.split_at(from);
        let end = rest.find(" to ").expect("and where it ends") + 4;
        let after = rest[end..].find("  stand").expect("and its stand") + end;
        format!("{before}{}{to}{}", &rest[..end], &rest[after..])
    };
    assert_eq!(said(&vest("8 above bottom_left")), NOTHING);
    // An end of the run that the closure itself takes: one slip, one message.
    assert_eq!(said(&vest("8 above left.near")), ["syntax/expected"]);
}

#[test]
fn an_opening_that_was_not_understood_is_not_asked_for() {
    // A crown of 56 / π = 17.8254 across.
    let cap = |passes: &str| {
        format!(
            "garment \"Hat\"\nunits cm\nallowance 1\nbody {{ head 56 }}\nfabric felt \"felt\" {{ width 150 }}\n\
             layer outer in felt {{ side, crown }}\npiece side \"Side\" {{ cut 1; outline rectangle head by 12 }}\n\
             piece crown \"Crown\" {{\n  cut 1\n  point a = (0, 0)\n  point b = (17.8254, 0)\n  outline from a {{\n    \
             low  to b arc about (8.9127, 0) anticlockwise\n    high to a arc about (8.9127, 0) anticlockwise\n  }}\n}}\n\
             seam back side.left to side.right {{ matching side.top_left with side.top_right }}\n\
             seam crown crown.low + crown.high to side.top {{ matching crown.a with side.top_left }}\n\
             finish side.bottom  hem 2\n{passes}"
        )
    };
    let slugs = |passes: &str| said(&cap(passes));
    assert!(slugs("").contains(&"opening/unsaid"), "{:?}", slugs(""));
    let misspelt = slugs("opening side.bottom passes heed\n");
    assert!(misspelt.contains(&"name/unknown") && !misspelt.contains(&"opening/unsaid"), "{misspelt:?}");
}

#[test]
fn a_strap_at_a_mark_beside_its_piece_is_told_of_the_mark() {
    let bib = with(
        &mistake("strap-wide"),
        &[("70 by 30", "70 by 3"), ("left_strap  = (3, 25)", "left_strap  = (3, 30)")],
    );
    let told = said(&bib);
    assert!(told.contains(&"mark/outside") && !told.contains(&"strap/wide"), "{told:?}");
}

#[test]
fn a_figure_that_is_off_in_its_row_is_told_there_and_not_of_the_lines_that_it_crosses() {
    let quarter = |rise: &str| {
        format!(
            "garment \"Bunk quarter\"\nunits cm\nallowance 1\nsizes S, M, L\nlet rise = each {rise}\nlet wide = 20 grade +1\n\
             fabric wool \"navy wool\" {{ width 150 }}\nlayer outer in wool {{ panel }}\npiece panel \"Panel\" {{\n  cut 1 loose\n  \
             point a = (0, 0)\n  point b = (wide, 0)\n  point c = (wide, rise)\n  point d = (0, 5 * wide - 70)\n  \
             outline from a {{ hem to b; side to c; top to d; front to a }}\n}}\n\
             finish panel.hem, panel.side, panel.top, panel.front  overlocked\n"
        )
    };
    assert_eq!(said(&quarter("28, 29, 30")), NOTHING);
    // The upper edge of L begins 5 cm above that of M and ends 26 cm below it.
    assert_eq!(said(&quarter("28, 29, 3.0")), ["size/irregular"]);
}

#[test]
fn a_binding_that_runs_on_at_both_ends_can_be_tied() {
    let apron = |ends: &str| {
        said(&format!(
            "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric drill \"cotton drill\" {{ width 150; kind woven firm }}\n\
             layer outer in drill {{ apron }}\npiece apron \"Apron\" {{ cut 1; outline rectangle 60 by 50 }}\n\
             finish apron.left, apron.bottom, apron.right  hem 1 twice\nfinish apron.top  bound 2 {ends}\n"
        ))
    };
    assert_eq!(apron("running on 60 at start, 60 at end"), NOTHING);
    assert_eq!(apron("running on 5 at start, 6 at end"), ["closure/tiny"]);
    // One end alone is a tab, or a loop to hang it up by.
    assert_eq!(apron("running on 5 at end"), NOTHING);
}

#[test]
fn snaps_on_a_hemmed_edge_have_two_ways_out() {
    let vest = with(
        &mistake("closure-tiny"),
        &[("1.5mm", "15mm"), ("front.bottom, back.bottom", "front.left, front.bottom, back.bottom")],
    );
    assert_eq!(said(&vest), ["edge/twice"]);
    let help = helps(&vest).remove(0);
    assert!(
        help.contains("leave front.left out of the finish") && help.contains("draw a line inside"),
        "{help}"
    );
}

#[test]
fn nothing_grows_by_more_than_half_from_size_to_size() {
    let towel = |long: &str| {
        said(&format!(
            "garment \"Stove cloth\"\nunits cm\nallowance 1\nsizes S, M, L\nlet long = {long}\nfabric drill \"cotton drill\" {{ \
             width 150 }}\nlayer outer in drill {{ cloth }}\npiece cloth \"Cloth\" {{ cut 1; outline rectangle 30 by long }}\n\
             finish cloth.left, cloth.bottom, cloth.right, cloth.top  hem 1 twice\n"
        ))
    };
    assert_eq!(towel("34 grade +2.5"), NOTHING);
    // 16 of 34 are less than half, 25 are more.
    assert_eq!(towel("34 grade +16"), NOTHING);
    assert_eq!(towel("34 grade +25"), ["size/irregular"]);
}

#[test]
fn a_binding_that_is_too_wide_is_told_once() {
    // 20 for 2: 15 are left between neck and side, and the neck has a radius of 9.
    let bodice = with(FACED, &[("facing neck_facing", "finish front.neck, back.neck  bound 1 #")]);
    assert_eq!(said(&bodice), NOTHING);
    let wide = said(&with(&bodice, &[("bound 1", "bound 20")]));
    assert_eq!(wide, ["hem/deep"]);
}

/// Until a zip fits each size is lengthened by its own: what is right in the largest would leave the others unequal.
#[test]
fn what_is_another_amount_in_each_size_is_mended_by_one_line() {
    let zipped = with(
        &example("deck-zip"),
        &[("lengthen front, back at waist until", "lengthen front at waist until")],
    );
    let (smock, library) = (example("deck-smock"), example("crew-library"));
    let loader = in_memory(&[("deck-smock.fus", &smock), ("crew-library.fus", &library)]);
    let compiled = compile(&loader.with("zip.fus", zipped), "zip.fus");
    let told: Vec<_> = compiled.diagnostics.iter().filter(|one| one.slug() == "alter/one-side").collect();
    assert_eq!(told.len(), 1, "{:?}", slugs(&compiled));
    let help = told[0].help_words().expect("a way out");
    assert_eq!(
        help,
        "it is another amount in each size: name both in one line, lengthen front, back at waist …"
    );
}
