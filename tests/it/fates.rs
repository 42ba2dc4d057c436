//! What becomes of every edge, how much cloth lies beyond it, and what is caught, turned and bought.
//! Every expected figure is worked out by hand beside it.

use fustian::emit::{fates_table, fates_text};
use fustian::report::Severity;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;

fn of(text: &str) -> Compiled {
    let loader =
        MemoryLoader::new().with("apron.fus", format!("garment \"Galley apron\"\nunits cm\n{text}\n"));
    compile(&loader, "apron.fus")
}

/// Slugs and titles, but for the advice to say the order of work.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let told = of(text).diagnostics.into_iter().filter(|one| one.slug() != "steps/none");
    told.map(|one| (one.slug(), one.title.into())).collect()
}

fn example(name: &str) -> Compiled {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    let files = [
        "crew-library",
        "deck-smock",
        "deck-zip",
        "deck-lined",
        "deck-jacket",
        "oilskin-trousers",
        "mess-jacket",
    ];
    for file in files {
        loader = loader
            .with(&format!("{file}.fus"), fs::read_to_string(folder.join(format!("{file}.fus"))).unwrap());
    }
    compile(&loader, name)
}

const CLOTH: &str = "fabric canvas \"canvas\" { width 150 }\n";

/// One piece, 60 by 80, with these finishes.
fn apron(header: &str, sewing: &str) -> String {
    format!(
        "{header}\n{CLOTH}layer outer in canvas {{ apron }}\npiece apron \"Apron\" {{ cut 1; outline rectangle 60 by 80 }}\n{sewing}"
    )
}

/// The allowance of each edge of the first part in millimetres: bottom, right, top, left.
fn allowances(text: &str) -> Vec<Option<f64>> {
    let compiled = of(text);
    compiled.sizes[0].sewn.parts[0].edges.iter().map(|fate| fate.allowance).collect()
}

#[test]
fn a_finish_brings_its_allowance() {
    // 3; 3 + 1; 2 × 0.6; none for a bound edge (language: a bound edge carries no allowance).
    let text = apron(
        "allowance 1.5",
        "finish apron.bottom  hem 3\nfinish apron.right  hem 3 turned under 1\nfinish apron.top  hem 0.6 twice\nfinish apron.left  bound 1",
    );
    assert_eq!(allowances(&text), [Some(30.0), Some(40.0), Some(12.0), Some(0.0)]);
    // 3.5 and the 1 cm that is turned under (common practice); overlocked and raw: the header's.
    let text = apron(
        "allowance 1.5",
        "finish apron.bottom  casing 3.5\nfinish apron.right  overlocked\nfinish apron.top, apron.left  raw",
    );
    assert_eq!(allowances(&text), [Some(45.0), Some(15.0), Some(15.0), Some(15.0)]);
}

#[test]
fn a_seam_goes_before_the_piece_and_the_piece_before_the_header() {
    let text = format!(
        "allowance 1\n{CLOTH}layer outer in canvas {{ apron }}\npiece apron \"Apron\" {{ allowance 2; cut 1; outline rectangle 60 by 80 }}\n\
         seam tube apron.left to apron.right {{ allowance 0.7; matching apron.bottom_left with apron.bottom_right }}\nfinish apron.top, apron.bottom  raw"
    );
    assert_eq!(allowances(&text), [Some(20.0), Some(7.0), Some(20.0), Some(7.0)]);
}

#[test]
fn an_allowance_that_nobody_says_is_asked_for_once() {
    let found = told(&apron("", "finish apron.bottom, apron.left, apron.right, apron.top  raw"));
    let title = "no allowance is given for the bottom of Apron, the right of Apron, the top of Apron and one more edge";
    assert_eq!(found, [("allowance/unknown", title.to_owned())]);
    // Where all bring their own, none is asked for.
    assert_eq!(told(&apron("", "finish apron.bottom, apron.left, apron.right, apron.top  hem 2")), []);
}

#[test]
fn each_loose_edge_is_told_with_the_layer_it_is_loose_in() {
    let text = format!(
        "allowance 1\n{CLOTH}layer outer in canvas {{ apron }}\nlayer lining in canvas {{ apron }}\n\
         piece apron \"Apron\" {{ cut 1; outline rectangle 60 by 80 }}\n\
         finish apron.bottom, apron.left, apron.right  raw\nfinish outer.apron.top  raw"
    );
    assert_eq!(
        told(&text),
        [("edge/loose", "the top of Apron in lining is neither sewn nor finished".to_owned())]
    );
}

#[test]
fn what_is_lost_in_a_misspelt_line_is_not_told_as_loose() {
    let found = told(&apron("allowance 1", "finish apron.bottom, apron.left, apron.right, apron.tpo  raw"));
    assert_eq!(found.iter().map(|(slug, _)| *slug).collect::<Vec<_>>(), ["name/unknown"]);
}

#[test]
fn an_edge_may_be_in_a_seam_and_in_the_closure_that_it_encloses() {
    let front = |seam: &str| {
        format!(
            "allowance 1\n{CLOTH}layer outer in canvas {{ front }}\nlayer lining in canvas {{ front }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 30 by 60 }}\n\
             finish front.top, front.bottom, front.right  raw\n\
             seam edge outer.front.left to lining.front.left {seam}\n\
             closure zip outer.front.left to outer.front.left {{ zipper separating 60 }}"
        )
    };
    assert_eq!(told(&front("enclosing zip")), []);
    let found = told(&front(""));
    let title = "the left of Front in outer is used twice: by the edge seam and by the closure zip";
    assert_eq!(found, [("edge/twice", title.to_owned())]);
}

#[test]
fn a_lining_is_sewn_to_the_edge_of_a_casing() {
    let skirt = |allowance: &str, casing: &str, seam: &str| {
        format!(
            "allowance {allowance}\n{CLOTH}layer outer in canvas {{ skirt }}\nlayer lining in canvas {{ skirt }}\n\
             piece skirt \"Skirt\" {{ cut 1 on fold left; outline rectangle 50 by 60 }}\n\
             seam back  skirt.right to skirt.right\nfinish {casing}  casing 3 for elastic 2.5 of 70\n\
             {seam}\nfinish skirt.bottom  hem 2\n\
             steps {{ \"Sew\" {{ sew back; finish outer.skirt.top; sew waist; hem skirt.bottom }} }}"
        )
    };
    let waist = "seam waist  outer.skirt.top to lining.skirt.top";
    let compiled = of(&skirt("1.5", "outer.skirt.top", waist));
    assert_eq!(compiled.diagnostics, []);
    // Of the top: 3 turned in, and 1.5 that the lining is laid to; on the lining 1.5.
    let top = |part: usize| compiled.sizes[0].sewn.parts[part].edges[2].allowance;
    assert_eq!([top(0), top(1)], [Some(45.0), Some(15.0)]);
    // One ring of elastic, through 2 × 50 cm; the lining has none.
    let channels = compiled.sizes[0].sewn.channels.as_ref().unwrap();
    let rings: Vec<(bool, f64)> = channels.iter().map(|one| (one.ring, one.length)).collect();
    assert_eq!(rings, [(true, 1000.0)]);
    // A seam of its own layer, and casings on both sides, leave nothing to sew to.
    let slugs = |text: &str| told(text).into_iter().map(|(slug, _)| slug).collect::<Vec<_>>();
    assert!(slugs(&skirt("1.5", "skirt.top", waist)).contains(&"edge/twice"));
    assert!(
        slugs(&skirt("1.5", "outer.skirt.top", "seam waist  skirt.top to skirt.top")).contains(&"edge/twice")
    );
}

#[test]
fn a_fold_is_a_fate_and_cannot_be_sewn() {
    let skirt = |sewing: &str| {
        format!(
            "allowance 1\n{CLOTH}layer outer in canvas {{ skirt }}\npiece skirt \"Skirt\" {{ cut 1 on fold left; outline rectangle 50 by 60 }}\n\
             seam back skirt.right to skirt.right\nfinish skirt.top, skirt.bottom{sewing}  hem 2"
        )
    };
    assert_eq!(told(&skirt("")), []);
    let found = told(&skirt(", skirt.left"));
    assert_eq!(
        found,
        [("edge/twice", "the left of Skirt is cut on the fold, but a hem uses it too".to_owned())]
    );
}

#[test]
fn a_deep_hem_on_a_circle_is_told_by_how_much_it_is_too_long() {
    // A half circle of radius 70, on the fold: the quarter turns by π/2, so at 10 cm deep
    // π/2 × 10 = 15.7 cm of its 110 cm, 14 %, must be eased in; both halves together πd (geometry).
    let skirt = |depth: &str| {
        format!(
            "allowance 1\n{CLOTH}layer outer in canvas {{ skirt }}\npiece skirt \"Skirt\" {{\n cut 1 on fold front\n point middle = (0, 0)\n\
             point wf = (0, -12)\npoint wb = (12, 0)\npoint hb = (70, 0)\npoint hf = (0, -70)\noutline from hf {{\n\
             front to wf\nwaist to wb arc about middle anticlockwise\nback to hb\nhem to hf arc about middle clockwise\n}}\n}}\n\
             seam back skirt.back to skirt.back\nfinish skirt.waist  bound 1\nfinish skirt.hem  hem {depth}"
        )
    };
    let found = told(&skirt("10"));
    let title = "a hem of 10 cm is deep for the curve of the hem of Skirt: 15.7 cm, 14 %, must be eased in";
    // With the hem the half is 70 + 10 = 80 cm wide, the whole 160 cm, and the canvas 150 cm.
    let narrow = "Skirt, opened out, is 10 cm wider than canvas";
    assert_eq!(found, [("cloth/narrow", narrow.to_owned()), ("hem/short", title.to_owned())]);
    // 2 / 70 = 2.9 % goes without a word, 2.2 / 70 = 3.1 % does not.
    assert_eq!(told(&skirt("2")), []);
    assert_eq!(told(&skirt("2.2")).len(), 1);
}

#[test]
fn the_jackets_pocket_no_longer_reaches_the_band_when_it_is_kept() {
    // The base's placement, in the variation that lengthens the front under it.
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let zip = read("deck-zip.fus")
        .replace("topstitch left, bottom, right }", "topstitch left, right; caught bottom in hem_band }");
    let loader = MemoryLoader::new()
        .with("crew-library.fus", read("crew-library.fus"))
        .with("deck-smock.fus", read("deck-smock.fus"))
        .with("deck-zip.fus", zip);
    let compiled = compile(&loader, "deck-zip.fus");
    let [one] = compiled.diagnostics.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!((one.slug(), one.sizes.len()), ("place/not-caught", 6));
    // As far as the front was lengthened, to the millimetre.
    let lengthened = compiled.sizes[0].drawn.amounts.iter().flatten().fold(0.0, |_, amount| *amount);
    let shown = format!("{:.0}", lengthened);
    let table = one.table.as_ref().unwrap();
    let first: String = table.rows[0].1[0].chars().filter(char::is_ascii_digit).collect();
    assert!(first == shown || format!("{first}0") == shown, "{first} against {shown}");
    assert!(one.help.as_ref().unwrap().contains("leave front.pocket_corner out of keeping"));
}

#[test]
fn a_lining_sewn_on_all_round_needs_a_gap() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    // The deck jacket needs none: its cuffs are sewn on last.
    for (name, gap, told) in [
        ("deck-lined.fus", "leaving gap 16 in lining, left", false),
        ("mess-jacket.fus", "leaving gap 14 in lining, left", true),
    ] {
        let text = read(name);
        assert!(text.contains(gap));
        let loader = MemoryLoader::new()
            .with("crew-library.fus", read("crew-library.fus"))
            .with("deck-smock.fus", read("deck-smock.fus"))
            .with("deck-zip.fus", read("deck-zip.fus"))
            .with(name, text.replace(gap, ""));
        let found = compile(&loader, name).diagnostics;
        assert_eq!(found.iter().any(|one| one.slug() == "turn/closed"), told, "{name}: {found:#?}");
    }
}

#[test]
fn what_has_to_be_bought_is_listed() {
    let needs = |name: &str| -> Vec<(String, Option<u32>, Option<f64>)> {
        let compiled = example(name);
        let needs = compiled.sizes[2].sewn.notions.iter();
        needs.map(|need| (need.name.words(&compiled.garment), need.count, need.length)).collect()
    };
    // Size M: each 75, 76, 77 …
    assert_eq!(
        needs("deck-jacket.fus"),
        [("separating zip".to_owned(), Some(1), Some(770.0)), ("hanging loop".to_owned(), Some(1), None)]
    );
    // 90 % of a waist of 86 cm is 77.4 cm, and 2 cm to join its ends.
    let trousers = needs("oilskin-trousers.fus");
    let [(what, count, Some(length))] = trousers.as_slice() else { panic!("{trousers:?}") };
    assert_eq!((what.as_str(), *count), ("elastic 3.5 cm wide", Some(1)));
    assert!((length - 794.0).abs() < 1e-6);
}

#[test]
fn the_table_of_fates_names_every_edge_once() {
    let compiled = example("deck-jacket.fus");
    let rows = fates_table(&compiled.garment, &compiled.sizes[0].drawn, &compiled.sizes[0].sewn);
    let edges: usize = compiled.sizes[0].sewn.parts.iter().map(|part| part.edges.len()).sum();
    assert_eq!(rows.len(), edges);
    assert!(rows.iter().all(|row| !row.fates.is_empty()));
    let text = fates_text(&rows);
    assert!(text.contains("seam front_edge; closure front_zip"), "{text}");
    assert_eq!(text.lines().count(), rows.len() + 1);
}

#[test]
fn a_thick_lining_eats_the_ease() {
    // 2π × 4 mm = 25 mm against 12 cm: a fifth, no word. 2π × 5 mm = 31 mm: more than a quarter.
    let jacket = |thickness: &str| {
        format!(
            "allowance 1\nsizes S\nbody {{ chest 88 }}\n{CLOTH}fabric fleece \"fleece\" {{ width 150; thickness {thickness} }}\n\
             layer outer in canvas {{ trunk }}\nlayer lining in fleece {{ trunk }}\n\
             measure finished_chest \"Finished chest\" against chest = total(trunk.bottom)\n\
             piece trunk \"Trunk\" {{ cut 1 on fold left; outline rectangle 50 by 60 }}\n\
             seam back trunk.right to trunk.right\nseam neck outer.trunk.top to lining.trunk.top\nfinish trunk.bottom  hem 2"
        )
    };
    assert_eq!(told(&jacket("4mm")), []);
    let found = told(&jacket("5mm"));
    assert_eq!(
        found,
        [(
            "cloth/thick",
            "what lies inside takes 3.1 cm of the 12 cm of ease that Finished chest has".to_owned()
        )]
    );
}

#[test]
fn fates_are_worked_out_without_a_panic_whatever_is_sewn_to_what() {
    // A piece sewn to itself turned round, a closure across layers, an edge of no length.
    let text = format!(
        "allowance 1\n{CLOTH}layer outer in canvas {{ a, b }}\nlayer lining in canvas {{ b }}\n\
         piece a \"A\" {{ cut 1; outline rectangle 10 by 0 }}\npiece b \"B\" {{ cut 2 mirrored; outline rectangle 10 by 20 }}\n\
         seam round b.left + b.left to b.left\nclosure odd outer.a.left to lining.b.top {{ buttons 3 of 15mm from 1 below top_left to 1 above bottom_left stand 2 }}\n\
         finish b.top, b.top  raw\nplace b on b {{ corner top_left at top_left; topstitch top; caught left in round }}"
    );
    let compiled = of(&text);
    assert!(compiled.diagnostics.iter().any(|one| one.severity() == Severity::Mistake));
}
