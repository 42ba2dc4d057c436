//! Plackets: what they are made of, how the edge to be cuffed comes out, and what is told of wrong ones. Figures are worked
//! out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::drafting::same;
use crate::workbench::of;
use fustian::Compiled;
use fustian::compile;
use fustian::source::MemoryLoader;

/// A sleeve closed by its underarm seam, with that slit and placket and a cuff on that chain.
fn sleeve(inside: &str, placket: &str, cuff: &str, chain: &str, matching: &str, slits: &str) -> String {
    format!(
        "garment \"Purser's sleeves\"\nunits cm\nallowance 1\ntolerance 2mm\n\
         fabric cotton \"white cotton\" {{ width 150 }}\nlayer outer in cotton {{ sleeve, cuff }}\n\
         piece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 30 by 40\n{inside}\n}}\n\
         piece cuff \"Cuff\" {{ cut 2 mirrored; outline rectangle {cuff} by 12; folded top to bottom }}\n\
         {placket}\nseam under sleeve.left to sleeve.right\n\
         seam cuff_on cuff.bottom and cuff.top to {chain} {{ matching cuff.bottom_left with {matching} }}\n\
         finish sleeve.top hem 2\n\
         closure buttoned cuff.left to cuff.right {{ buttons 1 of 15mm from 3 below top_left to 3 below top_left stand 1.5 }}\n\
         steps {{ \"All\" {{ {slits}; sew under; hem sleeve.top; sew cuff_on, buttoned }} }}\n"
    )
}

/// Wrist 30, of which two pleats take 6, a window of 1, an under part of 1 and an over part of 2.5.
fn two_part(cuff: &str) -> String {
    sleeve(
        "pleat wrist_pleats on bottom at 8 from right depth 1.5 count 2 apart 2.5 toward right\n\
         slit wrist_slit on bottom at 7 from left up 12 window 1",
        "placket wrist_placket on sleeve.wrist_slit two-part over 2.5 under 1",
        cuff,
        "wrist_placket_under.left + sleeve.bottom + wrist_placket_over.left",
        "wrist_placket_under.bottom_left",
        "baste sleeve.wrist_pleats; hem wrist_placket_over.right; \
         sew wrist_placket_under, wrist_placket_over, wrist_placket_end",
    )
}

fn bound(slit: &str, cuff: &str) -> String {
    sleeve(
        slit,
        "placket wrist_placket on sleeve.wrist_slit bound 1",
        cuff,
        "wrist_placket.left + sleeve.bottom",
        "wrist_placket.bottom_left",
        "sew wrist_placket",
    )
}

fn told(text: &str) -> Vec<String> {
    let all = of(text).diagnostics;
    all.iter()
        .map(|one| format!("{}: {} | {}", one.slug(), one.title, one.help.as_deref().unwrap_or_default()))
        .collect()
}

fn length_of(compiled: &Compiled, seam: &str) -> (f64, f64) {
    let garment = &compiled.garment;
    let seams = &compiled.sizes[0].sewn.seams;
    let sewn = seams.iter().find(|sewn| *garment.seam(sewn.seam).name == *seam).expect("the seam");
    (sewn.first.plies[0].length, sewn.second.plies[0].length)
}

fn cut_rows(compiled: &Compiled) -> Vec<(String, u32)> {
    let rows = &compiled.sizes[0].drawn.cut_list;
    rows.iter().map(|row| (compiled.garment.piece(row.part.piece).name.to_string(), row.copies)).collect()
}

/// 30 − 6 − 1 + 1 + 2.5 = 26.5.
#[test]
fn a_two_part_placket_adds_its_parts_to_the_wrist() {
    let compiled = of(&two_part("26.5"));
    let (cuff, wrist) = length_of(&compiled, "cuff_on");
    same(cuff, 265.0);
    same(wrist, 265.0);
    assert_eq!(told(&two_part("26.5")), Vec::<String>::new());
    assert_eq!(told(&two_part("finished(sleeve.bottom) + 3.5")), Vec::<String>::new());
    let rows = cut_rows(&compiled);
    assert!(rows.contains(&("wrist_placket_under".to_owned(), 2)), "{rows:?}");
    assert!(rows.contains(&("wrist_placket_over".to_owned(), 2)), "{rows:?}");
    // As long as the slit, and twice as wide as they are finished.
    let garment = &compiled.garment;
    for (name, wide) in [("wrist_placket_under", 20.0), ("wrist_placket_over", 50.0)] {
        let papers = compiled.sizes[0].drawn.papers.iter().flatten();
        let mut own = papers.filter(|drawn| *garment.piece(drawn.piece).name == *name);
        let drawn = own.next().expect("the strip");
        same(drawn.edges[0].path.length(), 120.0);
        same(drawn.edges[1].path.length(), wide);
    }
}

/// 30 + 1 without a window; with one of 1, 30 − 1 + 1, and the strip goes round 10 + 1 + 10.
#[test]
fn a_bound_slit_adds_its_width_to_the_wrist() {
    let plain = bound("slit wrist_slit on bottom at 7 from left up 10", "31");
    assert_eq!(told(&plain), Vec::<String>::new());
    let compiled = of(&plain);
    same(length_of(&compiled, "cuff_on").1, 310.0);
    same(length_of(&compiled, "wrist_placket").0, 200.0);
    let windowed = bound("slit wrist_slit on bottom at 7 from left up 10 window 1", "30");
    assert_eq!(told(&windowed), Vec::<String>::new());
    let compiled = of(&windowed);
    same(length_of(&compiled, "cuff_on").1, 300.0);
    same(length_of(&compiled, "wrist_placket").0, 210.0);
}

/// A half on the fold has a slit on each side, and a strip for each.
#[test]
fn a_piece_on_the_fold_has_two_strips() {
    let text = "garment \"Deck tunic\"\nunits cm\nallowance 1\nfabric cotton \"blue cotton\" { width 150 }\n\
         layer outer in cotton { back }\n\
         piece back \"Back\" { cut 1 on fold left; outline rectangle 30 by 70\nslit vent on bottom at 8 from right up 15 }\n\
         placket vent_placket on back.vent bound 1\n\
         finish back.right, back.top, back.bottom, vent_placket.left overlocked\n";
    let rows = cut_rows(&of(text));
    assert!(rows.contains(&("vent_placket".to_owned(), 2)), "{rows:?}");
}

/// Each kind of slip, and what is told of it.
#[test]
fn wrong_plackets_are_told_once_each() {
    let good = bound("slit wrist_slit on bottom at 7 from left up 10", "31");
    for (wrong, expected) in [
        ("on sleeve.wrist_slut bound", "there is no slit of sleeve called wrist_slut"),
        ("on sleeve.bottom bound", "bottom is an edge: only a slit has sides"),
        ("on wrist_slit bound", "wrist_slit is no slit of a piece"),
        ("on sleeve.wrist_slit bund", "found `bund` where `bound` or `two-part` would fit"),
        ("on sheeve.wrist_slit bound", "there is no piece called sheeve"),
    ] {
        let all = told(&good.replace("on sleeve.wrist_slit bound", wrong));
        let found: Vec<&String> = all.iter().filter(|one| one.contains(expected)).collect();
        assert_eq!(found.len(), 1, "{wrong}: {all:#?}");
    }
    let bare = good.replace("on sleeve.wrist_slit bound", "on wrist_slit bound");
    assert!(told(&bare).iter().all(|one| !one.contains("called wrist_placket")), "{:#?}", told(&bare));
    let nothing = told(&good.replace("bound 1", "bound 0"));
    assert!(nothing.iter().any(|one| one.starts_with("outline/collapses: Wrist placket is 0 cm high")));
    let late =
        told(&good.replace("sew wrist_placket;", "").replace("sew cuff_on,", "sew cuff_on, wrist_placket,"));
    assert!(late.iter().any(|one| one.starts_with("step/early")), "{late:#?}");
    let forgotten = told(&good.replace("sew wrist_placket;", ""));
    assert!(forgotten.iter().any(|one| one.starts_with("step/forgotten")), "{forgotten:#?}");
    let short = told(&good.replace("rectangle 31 by", "rectangle 30 by"));
    assert!(short.iter().any(|one| one.starts_with("seam/unequal")), "{short:#?}");
}

/// The under part fills the window: of unlike widths both are told, in the placket's words and not in those of the seam
/// that it makes.
#[test]
fn an_under_part_that_does_not_fill_its_window_is_told() {
    let wide = told(&two_part("26.5").replace("up 12 window 1", "up 12 window 2"));
    let found: Vec<&String> = wide.iter().filter(|one| one.starts_with("seam/unequal")).collect();
    let expected = "seam/unequal: the under part of wrist_placket is 1 cm wide, and fills the window of wrist_slit, which is \
                    2 cm | let the two be one width: under 2cm in the placket, or window 1cm in the slit";
    assert!(found.iter().any(|one| **one == expected), "{wide:#?}");
    assert!(wide.iter().all(|one| !one.contains("wrist_placket_end seam")), "{wide:#?}");
}

/// A variation takes the placket back, or makes it another; packed, it is still one line.
#[test]
fn a_variation_drops_and_replaces_a_placket() {
    let base = bound("slit wrist_slit on bottom at 7 from left up 10", "31");
    let loader = |variation: &str| {
        MemoryLoader::new().with("sleeve.fus", base.clone()).with("other.fus", variation.to_owned())
    };
    let wider = "variation \"Wide\" of \"sleeve.fus\"\nunits cm\nreplace placket wrist_placket on sleeve.wrist_slit bound 1.5\n\
                 replace piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 31.5 by 12; folded top to bottom }\n";
    let compiled = compile(&loader(wider), "other.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    same(length_of(&compiled, "cuff_on").1, 315.0);
    let packed = fustian::packed(&loader(wider), "other.fus");
    assert!(packed.contains("placket wrist_placket on sleeve.wrist_slit bound 1.5"), "{packed}");
    let dropped = "variation \"Bound\" of \"sleeve.fus\"\nunits cm\ndrop placket wrist_placket\n\
                   replace seam cuff_on cuff.bottom and cuff.top to sleeve.bottom { matching cuff.bottom_left with sleeve.wrist_slit.near }\n\
                   replace piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 30 by 12; folded top to bottom }\n\
                   finish sleeve.wrist_slit.near, sleeve.wrist_slit.far bound 0.8\n\
                   drop steps\nsteps { \"All\" { finish sleeve.wrist_slit.near, sleeve.wrist_slit.far; sew under; hem sleeve.top; sew cuff_on, buttoned } }\n";
    let compiled = compile(&loader(dropped), "other.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let wrong = "variation \"Bound\" of \"sleeve.fus\"\nunits cm\ndrop piece wrist_placket\n";
    let told = compile(&loader(wrong), "other.fus").diagnostics;
    assert!(told.iter().any(|one| one.title.to_string().contains("wrist_placket is a placket, not a piece")));
}
