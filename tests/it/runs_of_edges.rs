//! Runs of edges that a seam, a closure or a finish takes by itself, and what is left of the edges. Figures are
//! worked out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::drafting::same;
use crate::workbench::of;
use fustian::garment::Garment;
use fustian::resolve::DrawnEdge;
use fustian::sewing::SewnSeam;
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;
use fustian::{Compiled, compile};

/// A skirt of two halves, 26 wide and `long` long, with these closures, seams and finishes, and these steps.
fn skirt(long: &str, inside: &str, sewn: &str, steps: &str) -> String {
    format!(
        "garment \"Mess skirt\"\nunits cm\nallowance 1.5\ntolerance 2mm\nsizes S, M\n\
         body {{ hip 94, 102 }}\nfabric wool \"navy wool\" {{ width 150 }}\n\
         layer outer in wool {{ front, back }}\n\
         piece front \"Front\" {{ cut 1 on fold left; outline rectangle 26 by {long}\n{inside} }}\n\
         piece back \"Back\" {{ cut 1 on fold left; outline rectangle 26 by {long}\n{inside} }}\n\
         {sewn}\n\
         finish front.top, front.bottom, back.top, back.bottom overlocked\n\
         opening front.top + back.top passes hip\n\
         steps {{ \"All\" {{ {steps}; finish front.top, front.bottom, back.top, back.bottom }} }}\n"
    )
}

const ZIP: &str = "closure zip front.right 20 from top_right to back.right 20 from top_right \
                   { zipper concealed 20 }\nseam side front.right to back.right";

fn slugs(text: &str) -> Vec<&'static str> {
    of(text).diagnostics.iter().map(|diagnostic| diagnostic.slug()).collect()
}

/// What is told, with its way out.
fn told(text: &str) -> Vec<String> {
    let all = of(text).diagnostics;
    all.iter()
        .map(|one| format!("{}: {} | {}", one.slug(), one.title, one.help.as_deref().unwrap_or_default()))
        .collect()
}

fn name<'g>(garment: &'g Garment, edge: &DrawnEdge) -> &'g str {
    &garment.edge(edge.edge).name
}

/// The edges of a piece in the first size, by name, each with its length.
fn edges(compiled: &Compiled, piece: &str) -> Vec<(String, f64)> {
    let garment = &compiled.garment;
    let drawn = compiled.sizes[0].drawn.papers.iter().flatten();
    let mut drawn = drawn.filter(|drawn| *garment.piece(drawn.piece).name == *piece);
    let drawn = drawn.next().expect("the piece is drawn");
    drawn.edges.iter().map(|edge| (name(garment, edge).to_owned(), edge.path.length())).collect()
}

fn seams<'a>(compiled: &'a Compiled, name: &str) -> Vec<&'a SewnSeam> {
    let all = compiled.sizes[0].sewn.seams.iter();
    all.filter(|sewn| *compiled.garment.seam(sewn.seam).name == *name).collect()
}

/// The lengths of both sides of every piece of a seam, in order.
fn lengths(compiled: &Compiled, name: &str) -> Vec<[f64; 2]> {
    let side = |side: &fustian::sewing::SewnSide| side.plies.first().map_or(0.0, |ply| ply.length);
    let mut all: Vec<[f64; 2]> =
        seams(compiled, name).iter().map(|sewn| [side(&sewn.first), side(&sewn.second)]).collect();
    all.sort_by(|a, b| a[0].total_cmp(&b[0]));
    all
}

/// Of a side of 60 a zip takes the upper 20: 40 is left to be sewn, on both pieces.
#[test]
fn a_zip_in_the_upper_part_of_the_side_needs_no_divide() {
    let text = skirt("60", "", ZIP, "sew zip, side");
    assert_eq!(told(&text), [""; 0]);
    let compiled = of(&text);
    let all = edges(&compiled, "front");
    let find = |name: &str| all.iter().find(|(own, _)| own == name).map(|(_, long)| *long);
    same(find("right 20 from top_right").expect("the run"), 200.0);
    same(find("right").expect("the rest"), 400.0);
    let [only] = lengths(&compiled, "side")[..] else { panic!("one piece is left") };
    same(only[0], 400.0);
    same(only[1], 400.0);
    let zip = compiled.sizes[0].drawn.zips[0].expect("a zip");
    same(zip.sides[0], 200.0);
    same(zip.sides[1], 200.0);
    assert_eq!(compiled.sizes[0].sewn.closure_counts.as_deref(), Some(&[2][..]), "one in each side");
}

/// A run from 3 to 19 of 60 leaves 3 above and 41 below, each sewn by itself.
#[test]
fn what_is_left_above_and_below_is_sewn_piece_by_piece() {
    let sewn = "finish front.right 3..19 from top_right, back.right 3..19 from top_right hem 1.5\n\
                seam side front.right to back.right";
    let text = skirt("60", "", sewn, "sew side; hem front.right, back.right");
    assert_eq!(told(&text), [""; 0]);
    let compiled = of(&text);
    let all = lengths(&compiled, "side");
    assert_eq!(all.len(), 2);
    for (own, long) in all.iter().zip([30.0, 410.0]) {
        same(own[0], long);
        same(own[1], long);
    }
    let names: Vec<String> = edges(&compiled, "front").into_iter().map(|(name, _)| name).collect();
    for wanted in ["right", "right 3..19 from top_right", "right beyond 19 from top_right"] {
        assert!(names.iter().any(|own| own == wanted), "{names:?}");
    }
    // Each piece by itself: 1 cm more of the back's lower part is told of that alone.
    let longer =
        text.replace("outline rectangle 26 by 60\n }\nfinish", "outline rectangle 26 by 61\n }\nfinish");
    let told = told(&longer);
    assert!(
        told.iter().any(|one| one.starts_with("seam/unequal") && one.contains("1 cm longer")),
        "{told:?}"
    );
    assert_eq!(told.len(), 1, "{told:?}");
    // Upper pieces of 3 and 4, lower ones of 41 and 39: both are told.
    let both = text.replacen("back.right 3..19", "back.right 4..21", 1);
    let told = crate::runs_of_edges::told(&both);
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told.iter().any(|one| one.contains("piece 1 of the 2") && one.contains("2 cm longer")),
        "{told:?}"
    );
    assert!(
        told.iter().any(|one| one.contains("piece 2 of the 2") && one.contains("1 cm longer")),
        "{told:?}"
    );
}

/// The same counted from the other end, as shares, or with an amount that is let: of 60, 20 from the top is
/// 40 from the bottom on, and a third.
#[test]
fn a_run_is_counted_from_either_end_and_in_shares() {
    for run in
        ["40..60 from bottom_right", "100%/3 from top_right", "zip_long from top", "20cm from top_right"]
    {
        let zip = ZIP.replace("20 from top_right", run);
        let value = if run.starts_with("zip_long") { "let zip_long = 20\n" } else { "" };
        let text = skirt("60", "", &format!("{value}{zip}"), "sew zip, side");
        assert_eq!(told(&text), [""; 0], "{run}");
        same(lengths(&of(&text), "side")[0][0], 400.0);
    }
}

/// A run is counted as sewn: a dart of 3 at 12 from the top, of a side of 60 that is sewn to 57, lies before
/// the end of the first 20, which so takes 23 of the drawn edge.
#[test]
fn a_run_is_counted_as_sewn() {
    let dart = "dart hip on right at 12 from top width 3 to (12, 46) pressed down trued";
    let text = skirt("60", dart, ZIP, "sew front.hip, back.hip, zip, side");
    let compiled = of(&text);
    let mistakes: Vec<String> = told(&text).into_iter().filter(|one| !one.starts_with("seam/kink")).collect();
    assert_eq!(mistakes, [""; 0]);
    let all = edges(&compiled, "front");
    let drawn = |name: &str| all.iter().find(|(own, _)| own == name).map_or(0.0, |(_, long)| *long);
    let (run, rest) = (drawn("right 20 from top_right"), drawn("right"));
    // Truing bends the edge a little, and so makes it longer than 60.
    let mouth = |piece: &str| {
        let drawn = compiled.sizes[0].drawn.papers.iter().flatten();
        let mut drawn = drawn.filter(|drawn| *compiled.garment.piece(drawn.piece).name == *piece);
        drawn.next().and_then(|drawn| drawn.take_ups.first()?.mouth).expect("a mouth")
    };
    let taken = mouth("front").to - mouth("front").from;
    same(run - taken, 200.0);
    same(lengths(&compiled, "side")[0][0], rest);
    assert!((run - 230.0).abs() < 0.5 && (rest - 370.0).abs() < 0.5, "{run} {rest}");
}

/// A mark on the edge may be counted from where only one way fits; where both do, it is asked which.
#[test]
fn a_run_counted_from_a_mark() {
    let mark = "mark hip = (26, 40)";
    let from = |run: &str| skirt("60", mark, &ZIP.replace("20 from top_right", run), "sew zip, side");
    assert!(slugs(&from("20 from hip")).contains(&"edge/place"));
    // 30 down from 40 high there is no more than 40; up there is 20: so it goes down, and leaves 20 and 10.
    let text = from("30 from hip").replace("concealed 20", "concealed 30");
    assert_eq!(told(&text), [""; 0]);
    let all = lengths(&of(&text), "side");
    same(all[0][0], 100.0);
    same(all[1][0], 200.0);
    assert!(
        slugs(&skirt("60", "mark hip = (20, 40)", &ZIP.replace("top_right", "hip"), "sew zip, side"))
            .contains(&"edge/place")
    );
}

/// 60 is no room for 70; two that overlap; one without a length; a zip that shows: each mistake is told, once.
#[test]
fn runs_that_cannot_be_are_told() {
    let finished = |runs: &[&str]| {
        let each: String = runs.iter().map(|run| format!("finish front.right {run} overlocked\n")).collect();
        let text = skirt(
            "60",
            "",
            &format!("{each}seam side front.right to back.right"),
            "sew side; finish front.right",
        );
        told(&text)
    };
    let only = |runs: &[&str], slug: &str| {
        let told = finished(runs);
        assert!(told.len() == 1 && told[0].starts_with(slug), "{runs:?}: {told:#?}");
        told[0].clone()
    };
    assert!(only(&["70 from top_right"], "run/too-long").contains("60 cm"));
    only(&["-1..20 from top_right"], "run/too-long");
    only(&["20..20 from top_right"], "run/nothing");
    only(&["20 from bottom_left"], "edge/place");
    only(&["20 from left"], "edge/place");
    assert!(only(&["20 from top_right", "18..24 from top_right"], "run/overlap").contains("2 cm"));
    assert!(only(&["20 from top_right", "40..60 from bottom"], "run/overlap").contains("one and the same"));
    let zip = ZIP.replace("concealed", "closed").replace("20 }", "20 showing 1 }");
    assert_eq!(slugs(&skirt("60", "", &zip, "sew zip, side")), ["run/showing"]);
    let label = "\nseam label front.right 20..24 from top_right to back.right 20..24 from top_right";
    let text = skirt("60", "", &format!("{ZIP}{label}"), "sew zip, label, side");
    assert_eq!(told(&text), [""; 0], "one begins where the other ends");
    same(lengths(&of(&text), "side")[0][0], 360.0);
}

/// Of the front two pieces are left, of the back one: there is nothing to sew the second to.
#[test]
fn sides_left_in_unlike_pieces() {
    let sewn = "finish front.right 30..40 from top_right overlocked\nseam side front.right to back.right";
    assert_eq!(slugs(&skirt("60", "", sewn, "sew side; finish front.right")), ["run/uneven"]);
    // At an end both are left in one piece, and one is 10 shorter.
    let text = skirt("60", "", &sewn.replace("30..40", "10"), "sew side; finish front.right");
    assert!(
        told(&text).iter().any(|one| one.starts_with("seam/unequal") && one.contains("10 cm longer")),
        "{:?}",
        told(&text)
    );
}

/// What nothing takes is loose, as an edge is; what may be sewn to one another is told together.
#[test]
fn a_run_that_nothing_is_left_to_sew() {
    let sewn =
        "closure zip front.right 20 from top_right to back.right 20 from top_right { zipper concealed 20 }";
    let text = skirt("60", "", sewn, "sew zip");
    assert!(told(&text).iter().all(|one| one.starts_with("edge/loose")), "{:?}", told(&text));
    assert_eq!(slugs(&text).len(), 1);
}

/// A bag in the side seam: its mouth of 16 on the run from 3 to 19, end on end as is said.
#[test]
fn a_pocket_in_the_side_seam() {
    let bag = "piece front_bag { cut 2 mirrored\npoint high = (0, 0)\npoint low = (0, -16)\npoint in_low = (-14, -20)\n\
               point in_high = (-14, 2)\noutline from high { mouth to low; under to in_low; inner to in_high; upper to high } }\n\
               piece back_bag { cut 2 mirrored; outline copy of front_bag }\n";
    let sewn = |end: &str| {
        format!(
            "{bag}add_bags\nseam side front.right to back.right\n\
             seam front_pocket front_bag.mouth to front.right 3..19 from top_right {{ matching front_bag.high with front.right.{end} }}\n\
             seam back_pocket back_bag.mouth to back.right 3..19 from top_right {{ matching back_bag.high with back.right.{end} }}\n\
             seam bag front_bag.under + front_bag.inner + front_bag.upper to back_bag.under + back_bag.inner + back_bag.upper\n"
        )
    };
    let whole = |end: &str| {
        let text = skirt("60", "", &sewn(end), "sew front_pocket, back_pocket, side, bag");
        text.replace("add_bags\n", "").replace("{ front, back }", "{ front, back, front_bag, back_bag }")
    };
    assert_eq!(told(&whole("near")), [""; 0]);
    let compiled = of(&whole("near"));
    let all = lengths(&compiled, "side");
    assert_eq!(all.len(), 2);
    same(all[0][0], 30.0);
    same(all[1][0], 410.0);
    same(lengths(&compiled, "front_pocket")[0][1], 160.0);
    // Nobody can tell which end of the mouth is up: it is asked for, with both answers.
    let unsaid = whole("near").replace("{ matching front_bag.high with front.right.near }", "");
    assert_eq!(crate::runs_of_edges::told(&unsaid), [""; 0], "the back's says it, with the bag's own seam");
    let unsaid = unsaid.replace("{ matching back_bag.high with back.right.near }", "");
    let told = told(&unsaid);
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told[0].starts_with("seam/ends") && told[0].contains("matching front_bag.high with front.right.near")
    );
    assert!(told[0].contains("front.right.far"), "{told:?}");
    assert!(slugs(&whole("middle")).contains(&"name/unknown"));
}

/// A lining that the zip is not named for is sewn all along; one that it is named for is not.
#[test]
fn a_run_is_taken_in_the_layers_that_are_named() {
    let text = skirt("60", "", ZIP, "sew zip, side").replace(
        "layer outer in wool { front, back }",
        "layer outer in wool { front, back }\nlayer lining in wool { front, back }",
    );
    let outer = text
        .replace("closure zip front.right", "closure zip outer.front.right")
        .replace("to back.right 20", "to outer.back.right 20");
    let compiled = of(&outer);
    let all = lengths(&compiled, "side");
    assert_eq!(all.len(), 2);
    same(all[0][0], 400.0);
    same(all[1][0], 600.0);
    let compiled = of(&text);
    assert!(lengths(&compiled, "side").iter().all(|[one, _]| (one - 400.0).abs() < 1e-6));
}

/// What is tidied reads the same, and comes out of a packed variation too.
#[test]
fn runs_are_tidied_in_one_way() {
    let text = "seam a  b.c 3 .. 19  from d + e.f 20 from g to h.i\nfinish a.b 5 from c, d.e  raw\n";
    let mut map = SourceMap::default();
    let file = map.add("deck.fus", text);
    let tidied = tidy(&map, file).expect("nothing is wrong with it");
    assert_eq!(tidied, "seam a  b.c 3..19 from d + e.f 20 from g to h.i\nfinish a.b 5 from c, d.e  raw\n");
}

/// The lined mess skirt of the examples, in every size: of its sides of 58 a pocket's mouth leaves 4 and 38; of the
/// centre back the zip of 22, of which 4 lie in the waistband, leaves 40; the lining is cut 2 shorter; the waist
/// is 1.6 times the waistband, which is the body's waist and 2.
#[test]
fn the_lined_mess_skirt() {
    let read = |name: &str| std::fs::read_to_string(format!("examples/{name}.fus")).expect("the example");
    let loader = MemoryLoader::new()
        .with("mess-skirt-lined.fus", read("mess-skirt-lined"))
        .with("crew-library.fus", read("crew-library"));
    let compiled = compile(&loader, "mess-skirt-lined.fus");
    let told: Vec<&str> = compiled.diagnostics.iter().map(|one| one.title.as_str()).collect();
    assert_eq!(told, [""; 0]);
    let waists = [70.0, 78.0, 86.0, 94.0, 103.0, 113.0];
    for (size, waist) in compiled.sizes.iter().zip(waists) {
        let pieces = |name: &str| -> Vec<[f64; 2]> {
            let all = size.sewn.seams.iter().filter(|sewn| *compiled.garment.seam(sewn.seam).name == *name);
            all.map(|sewn| [&sewn.first, &sewn.second].map(|side| side.plies[0].length)).collect()
        };
        for (found, long) in pieces("side").iter().zip([40.0, 380.0, 560.0]) {
            same(found[0], long);
            same(found[1], long);
        }
        for (found, long) in pieces("centre_back").iter().zip([400.0, 380.0]) {
            same(found[0], long);
        }
        same(pieces("zip_edge")[0][1], 180.0);
        same(size.drawn.zips[0].expect("a zip").sides[0], 220.0);
        same(pieces("waist")[0][0], 16.0 * (waist + 2.0));
        same(pieces("waist")[0][1], 10.0 * (waist + 2.0));
    }
}

/// A waistband of 83 on a waist of 80: 3 are left of both its edges, and sewn to one another; its ends, 4 once it is
/// folded, are sewn each to itself.
fn banded(ends: &str) -> String {
    format!(
        "garment \"Mess skirt\"\nunits cm\nallowance 1.5\ntolerance 2mm\nsizes S\nbody {{ hip 75 }}\n\
         fabric wool \"navy wool\" {{ width 150 }}\nlayer outer in wool {{ front, back, waistband }}\n\
         piece front \"Front\" {{ cut 1 on fold left; outline rectangle 20 by 50 }}\n\
         piece back \"Back\" {{ cut 2 mirrored; outline rectangle 20 by 50 }}\n\
         piece waistband \"Waistband\" {{ cut 1; outline rectangle 83 by 8; folded top to bottom }}\n\
         seam side front.right to back.right\nseam centre back.left to back.left\n\
         closure zip back.left 20 from top_left to back.left 20 from top_left {{ zipper concealed 20 }}\n\
         seam waist waistband.bottom 80 from bottom_left and waistband.top 80 from top_left to front.top + back.top \
         {{ matching waistband.bottom_left with back.top_left }}\n\
         seam underlap waistband.bottom to waistband.top\n{ends}\n\
         finish front.bottom, back.bottom hem 3 turned under 1\nopening front.top + back.top passes hip\n\
         steps {{ \"All\" {{ sew side, zip, centre, ends, underlap, waist; hem front.bottom, back.bottom }} }}\n"
    )
}

#[test]
fn a_waistband_with_an_underlap_and_ends_across_the_fold() {
    let text = banded("seam ends waistband.left, waistband.right across the fold");
    assert_eq!(told(&text), [""; 0]);
    let compiled = of(&text);
    same(lengths(&compiled, "waist")[0][0], 800.0);
    same(lengths(&compiled, "waist")[0][1], 800.0);
    same(lengths(&compiled, "underlap")[0][0], 30.0);
    let parts = &compiled.sizes[0].sewn.parts;
    let band = parts.iter().find(|part| *compiled.garment.piece(part.part.piece).name == *"waistband");
    let fates = &band.expect("it is cut").edges;
    assert!(fates.iter().all(|fate| fate.takers.len() == 1 && fate.allowance == Some(15.0)));
    // Two ends of 4, sewn once each: 8 cm more thread's seam than without them.
    let thread = |text: &str| -> f64 {
        let compiled = of(text);
        let size = &compiled.sizes[0];
        fustian::materials::thread_needs(&compiled.garment, &size.drawn, &size.sewn)
            .iter()
            .map(|need| need.sewn)
            .sum()
    };
    let raw = text.replace(
        "seam ends waistband.left, waistband.right across the fold",
        "finish waistband.left, waistband.right raw",
    );
    same(thread(&text) - thread(&raw), 80.0);
}

/// Only what runs across a fold can be sewn to itself there; nothing can be eased or matched.
#[test]
fn what_cannot_be_sewn_across_a_fold() {
    let all = |ends: &str| told(&banded(ends));
    let wrong = all(
        "seam ends waistband.left, waistband.right across the fold { matching waistband.top_left with waistband.bottom_left }",
    );
    assert!(wrong.len() == 1 && wrong[0].starts_with("seam/across"), "{wrong:?}");
    let wrong = all("seam ends waistband.left, waistband.right, back.bottom across the fold");
    assert!(wrong.iter().any(|one| one.starts_with("seam/across: bottom of Back has no fold")), "{wrong:?}");
    let once = all("seam ends waistband.left across the fold");
    assert!(once.iter().any(|one| one.starts_with("edge/loose") && one.contains("right")), "{once:?}");
}

/// A waistband of just 80 leaves nothing for an underlap; runs that are counted from unlike ends do not lie on one
/// another once it is folded: the one from 0 to 80, the other from 3 to 83.
#[test]
fn what_runs_leave_of_a_band() {
    let ends = "seam ends waistband.left, waistband.right across the fold";
    let short = told(&banded(ends).replace("83 by 8", "80 by 8"));
    assert!(
        short.iter().any(|one| one.starts_with("run/nothing-left: nothing is left of bottom of Waistband")),
        "{short:?}"
    );
    assert!(!short.iter().any(|one| one.starts_with("lost/")), "{short:?}");
    let askew =
        told(&banded(ends).replace("waistband.top 80 from top_left", "waistband.top 80 from top_right"));
    assert!(askew.iter().any(|one| one.starts_with("run/folded") && one.contains("3 cm")), "{askew:?}");
    let other_way = banded(ends)
        .replace("waistband.top 80 from top_left", "waistband.top 3..83 from top_right")
        .replace("waistband.bottom 80 from bottom_left", "waistband.bottom 3..83 from bottom_right");
    assert_eq!(told(&other_way), [""; 0], "the same stretches, counted from the other end");
}

/// An alteration is of the paper, which both sides are cut from; a run that is too long for a piece of a split is told
/// once, and what hangs on that piece is not.
#[test]
fn what_one_side_or_one_piece_cannot_have_is_told_once() {
    let redrawn = skirt(
        "60",
        "",
        &format!("{ZIP}\nredraw front.right on left curve through (27, 30)"),
        "sew zip, side",
    );
    let all = told(&redrawn);
    let slip = "text/slip: an alteration changes the paper that both sides of the body are cut from | make two pieces of \
                it first, unpair front into left_front, right_front, and alter left_front; or leave `on left` out and alter \
                both";
    assert!(all.iter().any(|one| one == slip), "{all:#?}");
    let split = skirt(
        "60",
        "line knee across at (0, 20)",
        "closure zip front.right 50 from top_right to back.right 50 from top_right { zipper concealed 50 }\n\
         seam side front.right to back.right { matching front.top_right with back.top_right }\n\
         split front at knee into upper, lower",
        "sew zip, knee, side",
    );
    assert_eq!(
        slugs(&split).iter().filter(|slug| **slug != "run/too-long").count(),
        0,
        "{:#?}",
        told(&split)
    );
}

const ONE_SIDED: &str = "garment \"Mess skirt\"\nunits cm\nallowance 1.5\ntolerance 2mm\n\
    fabric wool \"navy wool\" { width 150 }\nlayer outer in wool { front, back }\n\
    piece front \"Front\" { cut 1 on fold left; drawn left; outline rectangle 26 by 60; line knee across at (0, 20) }\n\
    piece back \"Back\" { cut 1 on fold left; drawn right; outline rectangle 26 by 60; line knee across at (0, 20) }\n\
    finish front.top, back.top bound 1\n";

/// Runs on one side of the body, of edges that a split parts: on the left 20 of the zip and 40 of the seam, of which the
/// lower piece has 20; on the right 60 in one.
#[test]
fn runs_on_one_side_go_on_in_the_pieces_of_a_split() {
    let zip = format!(
        "{ONE_SIDED}closure zip front.right 20 from top_right to back.right 20 from top_right on left {{ zipper concealed 20 }}\n\
         seam side front.right to back.right {{ matching front.top_right with back.top_right }}\n\
         finish front.bottom, back.bottom hem 3\nsplit front at knee into upper, lower\n"
    );
    let all: Vec<&str> = slugs(&zip).into_iter().filter(|slug| *slug != "steps/none").collect();
    assert_eq!(all, [""; 0], "{:#?}", told(&zip));
    let compiled = of(&zip);
    let mut long: Vec<f64> = seams(&compiled, "side").iter().map(|sewn| sewn.first.plies[0].length).collect();
    long.sort_by(f64::total_cmp);
    assert_eq!(long.len(), 2);
    same(long[0], 400.0);
    same(long[1], 600.0);
    let vents = zip
        .replace("closure zip front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }",
            "finish front.right 12 from bottom_right on left, back.right 12 from bottom_right on left hem 1")
        .replace("into upper, lower\n", "into upper, lower\nsplit back at knee into back_upper, back_lower\n");
    let all: Vec<&str> = slugs(&vents).into_iter().filter(|slug| *slug != "steps/none").collect();
    assert_eq!(all, [""; 0], "{:#?}", told(&vents));
}

/// A band that goes round the hem but for 6 of the left front, which is left raw: 4 × 26 - 6 = 98, from there once round.
#[test]
fn a_round_seam_begins_where_one_side_leaves_it() {
    let round = format!(
        "{ONE_SIDED}layer more in wool {{ band }}\npiece band \"Band\" {{ cut 1; outline rectangle 98 by 10 }}\n\
         seam side front.right to back.right\nfinish front.bottom 6 from bottom_right on left raw\n\
         finish band.left, band.right, band.bottom raw\n\
         seam hem band.top to front.bottom + back.bottom {{ matching band.top_left with back.bottom_right }}\n"
    )
    .replace("{ front, back }", "{ front, back, band }")
    .replace("layer more in wool { band }\n", "");
    let compiled = of(&round);
    let hem = seams(&compiled, "hem");
    assert_eq!(hem.len(), 1, "{:#?}", told(&round));
    same(hem[0].second.plies[0].length, 980.0);
    assert!(hem[0].unmet.is_none() && !hem[0].ring, "{:#?}", told(&round));
    assert!(!slugs(&round).contains(&"seam/unequal"), "{:#?}", told(&round));
    let short = round.replace("rectangle 98 by", "rectangle 104 by");
    assert!(slugs(&short).contains(&"seam/unequal"), "{:#?}", told(&short));
}

/// A locker bag, 20 by 30, sewn to its mirror image: 5 of the left side are sewn by themselves, so of the left 25 are
/// left, of the top 20, of the right 30 or 25. The edges follow one another clockwise or anticlockwise.
#[test]
fn what_is_left_follows_in_either_order() {
    let bag = |runs: &str, round: &str| {
        format!(
            "garment \"Locker bag\"\nunits cm\nallowance 1\nfabric drill \"drill\" {{ width 150 }}\n\
             layer outer in drill {{ side }}\npiece side \"Side\" {{ cut 2 mirrored; outline rectangle 20 by 30 }}\n\
             {runs}seam round {round} to {round}\nfinish side.bottom hem 2\n\
             steps {{ \"All\" {{ sew low, round; finish side.bottom }} }}\n"
        )
    };
    let low = "seam low side.left 5 from bottom_left to side.left 5 from bottom_left\n";
    for round in ["side.left + side.top + side.right", "side.right + side.top + side.left"] {
        let text = bag(low, round);
        assert_eq!(told(&text), [""; 0], "{round}");
        let all = lengths(&of(&text), "round");
        assert_eq!(all.len(), 1, "{round}");
        same(all[0][0], 750.0);
        same(all[0][1], 750.0);
    }
    let both = "seam low side.left 5 from bottom_left to side.left 5 from bottom_left\n\
                seam low_right side.right 5 from bottom_right to side.right 5 from bottom_right\n";
    for round in ["side.left + side.top + side.right", "side.right + side.top + side.left"] {
        let text = bag(both, round).replace("sew low, round", "sew low, low_right, round");
        assert_eq!(told(&text), [""; 0], "{round}");
        same(lengths(&of(&text), "round")[0][0], 700.0);
    }
    assert!(slugs(&bag(low, "side.top + side.left + side.right")).contains(&"seam/ends"), "not end to end");
}

/// How far below the top the notches of the front are, in the layers in which it is cut.
fn below_top(text: &str) -> Vec<Vec<f64>> {
    let compiled = of(text);
    let cutting = compiled.sizes[0].cut(&compiled.garment);
    let name = |piece| &*compiled.garment.piece(piece).name;
    let fronts = cutting.parts.iter().filter(|part| name(part.part.piece) == "front");
    fronts
        .map(|part| {
            let top = part.stitching.iter().map(|edge| edge.start().y).fold(f64::MIN, f64::max);
            let feet = part.notches.iter().flat_map(|notch| &notch.snips).map(|(_, foot)| top - foot.y);
            let mut feet: Vec<f64> = feet.collect();
            feet.sort_by(f64::total_cmp);
            feet
        })
        .collect()
}

/// What a finish takes by itself is notched where it begins and ends, and a double notch at a run's end is one: its
/// second snip lies on the run, since the first is at its end.
#[test]
fn the_ends_of_runs_that_are_finished_are_notched() {
    let are = |text: &str, wanted: &[f64]| {
        let found = below_top(text);
        assert_eq!(found[0].len(), wanted.len(), "{found:?}");
        found[0].iter().zip(wanted).for_each(|(one, other)| same(*one, *other));
    };
    let apron = "garment \"Apron\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nlayer outer in drill { front }\n\
        piece front \"Front\" { cut 1; outline rectangle 60 by 60 }\nfinish front.right 20 from top_right bound 1\n\
        finish front.right, front.left, front.top, front.bottom hem 1\n";
    are(apron, &[200.0]);
    are(&apron.replace("right 20 from", "right 5..20 from"), &[50.0, 200.0]);
    are(&apron.replace("finish front.right 20 from top_right bound 1\n", ""), &[]);
    let low = "seam low front.right 3..19 from top_right to back.right 3..19 from top_right { notch at front.right.near double }\n\
               seam side front.right to back.right";
    are(&skirt("60", "", low, "sew low, side"), &[30.0, 33.0, 190.0]);
}

/// Nothing else shows on the cloth where a zip ends and the seam below it begins, or where a pocket lies: 20 below the
/// top, and 3 and 19. At a corner of the edge no notch is needed, and in a layer that is sewn all along none is there.
#[test]
fn the_ends_of_runs_are_notched() {
    let are = |text: &str, wanted: &[&[f64]]| {
        let found = below_top(text);
        assert_eq!(found.len(), wanted.len(), "{found:?}");
        for (found, wanted) in found.iter().zip(wanted) {
            assert_eq!(found.len(), wanted.len(), "{found:?}");
            found.iter().zip(*wanted).for_each(|(one, other)| same(*one, *other));
        }
    };
    let zip = skirt("60", "", ZIP, "sew zip, side");
    are(&zip, &[&[200.0]]);
    are(&zip.replace(" 20 from top_right", " 3..19 from top_right"), &[&[30.0, 190.0]]);
    are(&skirt("60", "", "seam side front.right to back.right", "sew side"), &[&[]]);
    let low = "seam low front.right 3..19 from top_right to back.right 3..19 from top_right { notch at front.right.near }\n\
               seam side front.right to back.right";
    are(&skirt("60", "", low, "sew low, side"), &[&[30.0, 190.0]]);
    let outer = zip
        .replace(
            "layer outer in wool { front, back }",
            "layer outer in wool { front, back }\nlayer lining in wool { front, back }",
        )
        .replace("closure zip front.right", "closure zip outer.front.right")
        .replace("to back.right 20", "to outer.back.right 20");
    are(&outer, &[&[200.0], &[]]);
}
