//! What can be cut and laid on: cloth widths, placed pieces, zips, the maker's own requirements.
//! Every expected figure is worked out by hand beside it.

use fustian::compile;
use fustian::cutting::{Cloth, Spread};
use fustian::garment::FabricId;
use fustian::source::MemoryLoader;

/// Slugs and titles of what is told of one garment, but for what becomes of its edges: these bare
/// pieces are cut, not sewn.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let loader =
        MemoryLoader::new().with("apron.fus", format!("garment \"Galley apron\"\nunits cm\n{text}\n"));
    let compiled = compile(&loader, "apron.fus");
    let sewn = ["edge/loose", "piece/unsewn", "piece/none", "allowance/unknown", "steps/none"];
    let told = compiled.diagnostics.into_iter().filter(|one| !sewn.contains(&one.slug()));
    told.map(|one| (one.slug(), one.title.into())).collect()
}

/// An apron of one piece, cut from a cloth of these facts.
fn apron(cloth: &str, piece: &str) -> Vec<(&'static str, String)> {
    told(&format!(
        "fabric serge \"wool serge\" {{ {cloth} }}\nlayer outer in serge {{ apron }}\npiece apron \"Apron\" {{ {piece} }}"
    ))
}

#[test]
fn a_piece_may_be_as_wide_as_the_cloth_between_its_selvages() {
    // 150 − 2 × 1 = 148 cm can be cut from.
    assert_eq!(apron("width 150; selvage 1", "cut 1; outline rectangle 148 by 60"), []);
    let over = apron("width 150; selvage 1", "cut 1; outline rectangle 149 by 60");
    assert_eq!(over, [("cloth/narrow", "Apron is 1 cm wider than serge".to_owned())]);
}

#[test]
fn a_half_on_the_fold_needs_twice_its_width() {
    assert_eq!(apron("width 150", "cut 1 on fold left; outline rectangle 75 by 60"), []);
    // 2 × 76 = 152 cm.
    let over = apron("width 150", "cut 1 on fold left; outline rectangle 76 by 60");
    assert_eq!(over, [("cloth/narrow", "Apron, opened out, is 2 cm wider than serge".to_owned())]);
}

#[test]
fn a_tube_is_opened() {
    // 50 cm as it lies flat is 100 cm round.
    assert_eq!(apron("width 50 tubular", "cut 1; outline rectangle 100 by 12"), []);
    let over = apron("width 50 tubular", "cut 1; outline rectangle 103 by 12");
    assert_eq!(over, [("cloth/narrow", "Apron is 3 cm wider than serge".to_owned())]);
}

/// One rule for one cloth. Knitted round it has no selvages (common practice), whatever is said of
/// them; washed, it is narrower, and the selvages of open cloth are taken off what is left of it.
#[test]
fn what_is_checked_and_what_is_laid_agree_on_the_cloth() {
    for (facts, usable) in [
        // Twice 50 cm, with and without a selvage that no tube has: 100 cm, not 96.
        ("width 50 tubular", 100.0),
        ("width 50 tubular; selvage 2", 100.0),
        // Twice 50 × 0.9 = 90 cm.
        ("width 50 tubular; selvage 2; shrink 10% across", 90.0),
        // 100 − 2 × 2 = 96 cm; 100 × 0.9 − 2 × 2 = 86 cm.
        ("width 100; selvage 2", 96.0),
        ("width 100; selvage 2; shrink 10% across", 86.0),
    ] {
        let text = format!(
            "garment \"Galley apron\"\nunits cm\nfabric serge \"wool serge\" {{ {facts} }}\n\
             layer outer in serge {{ apron }}\npiece apron \"Apron\" {{ cut 1; outline rectangle 10 by 10 }}\n"
        );
        let compiled = compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus");
        let cloth =
            Cloth::of(&compiled.garment, &compiled.sizes[0].drawn, FabricId::from_index(0)).expect("a cloth");
        assert!((cloth.usable(Spread::Open) - 10.0 * usable).abs() < 1e-9, "{facts}: {cloth:?}");
        let narrow = |wide: f64| {
            let found = apron(facts, &format!("cut 1; outline rectangle {wide} by 12"));
            found.into_iter().any(|(slug, _)| slug == "cloth/narrow")
        };
        assert!(!narrow(usable) && narrow(usable + 1.0), "{facts}");
    }
    // 3 cm more round are 1.5 cm more of a tube as it lies flat: 51.5; washed, 103 / 0.9 / 2 = 57.22, so 57.3.
    for (facts, wide) in [("width 50 tubular", "51.5 cm"), ("width 50 tubular; shrink 10% across", "57.3 cm")]
    {
        let (_, _, help) = narrow(facts, "cut 1; outline rectangle 103 by 160", "").expect("too wide");
        assert!(help.ends_with(&format!("take a tube that lies flat at least {wide} wide")), "{help}");
    }
}

#[test]
fn the_grain_says_which_way_a_piece_lies() {
    // 160 cm along the cloth is no matter; across it is 10 cm too much.
    assert_eq!(apron("width 150", "cut 1; outline rectangle 40 by 160"), []);
    let across = apron("width 150", "cut 1; grain across; outline rectangle 40 by 160");
    assert_eq!(across, [("cloth/narrow", "Apron is 10 cm wider than serge".to_owned())]);
    // On the bias a square of 110 cm is as wide as its diagonal: 110 × √2 = 155.56 cm.
    let bias = apron("width 150", "cut 1; grain bias; outline rectangle 110 by 110");
    assert_eq!(bias, [("cloth/narrow", "Apron is 5.6 cm wider than serge".to_owned())]);
}

/// What is told of the width of an apron with these edges finished, and the words beside it.
fn narrow(cloth: &str, piece: &str, finish: &str) -> Option<(String, Vec<String>, String)> {
    let text = format!(
        "garment \"Galley apron\"\nunits cm\nfabric serge \"wool serge\" {{ {cloth} }}\n\
         layer outer in serge {{ apron }}\npiece apron \"Apron\" {{ {piece} }}\n{finish}\n"
    );
    let compiled = compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus");
    let found = compiled.diagnostics.into_iter().find(|one| one.slug() == "cloth/narrow")?;
    let labels = found.labels.iter().map(|label| label.text.clone()).collect();
    Some((found.title.into(), labels, found.help.unwrap_or_default()))
}

const SIDES: &str = "finish apron.left, apron.right hem 2\nfinish apron.top, apron.bottom hem 3";
const FROM_FOLD: &str = "finish apron.right hem 2\nfinish apron.top, apron.bottom hem 3";

#[test]
fn allowances_need_cloth_too() {
    // 146 + 2 × 2 = 150 cm, all that there is; 147 + 4 = 151 cm.
    assert_eq!(narrow("width 150", "cut 1; outline rectangle 146 by 60", SIDES), None);
    let (title, labels, help) =
        narrow("width 150", "cut 1; outline rectangle 147 by 60", SIDES).expect("too wide");
    assert_eq!(title, "Apron is 1 cm wider than serge");
    assert_eq!(labels, ["151 cm across, with its allowances", "150 cm can be cut from"]);
    // Along the cloth it needs 60 + 2 × 3 = 66 cm, so that turning it would do.
    assert_eq!(
        help,
        "make its allowances 1 cm narrower, both sides together; or write grain across in apron, if the \
         cloth may be turned; or give it a seam: split apron at a line; or take a cloth that is at least \
         151 cm wide"
    );
    // The apron itself is wider than the cloth: narrower allowances are no way out.
    let (title, _, help) =
        narrow("width 150", "cut 1; outline rectangle 151 by 60", SIDES).expect("too wide");
    assert_eq!(title, "Apron is 5 cm wider than serge");
    assert!(!help.contains("allowances"), "{help}");
    // Edges without allowances are cut where they are sewn.
    let raw = SIDES.replace("hem 2", "raw");
    assert_eq!(narrow("width 150", "cut 1; outline rectangle 150 by 60", &raw), None);
}

#[test]
fn on_the_fold_the_whole_is_cut_of_the_width_and_half_of_the_folded_width() {
    // No allowance on the fold: 2 × (73 + 2) = 150 cm, and 2 × (76 + 2) = 156 cm.
    let half = |width: &str| format!("cut 1 on fold left; outline rectangle {width} by 160");
    assert_eq!(narrow("width 150", &half("73"), FROM_FOLD), None);
    let (title, labels, help) = narrow("width 150", &half("74.5"), FROM_FOLD).expect("too wide");
    // 2 × (74.5 + 2) = 153 cm: 1.5 cm too much on each half.
    assert_eq!(title, "Apron, opened out, is 3 cm wider than serge");
    assert_eq!(
        labels,
        [
            "153 cm across, with its allowances, 76.5 cm from the fold",
            "150 cm can be cut from, 75 cm when it is folded"
        ]
    );
    assert!(help.starts_with("make its allowance across from the fold 1.5 cm narrower; or give it a seam"));
    // With the grain across, the cloth is folded the other way: 60 + 2 × 3 = 66 cm of a cloth of 65.
    let across = "cut 1 on fold left; grain across; outline rectangle 80 by 60";
    let (title, labels, _) = narrow("width 65", across, FROM_FOLD).expect("too wide");
    assert_eq!(title, "Apron, opened out, is 1 cm wider than serge");
    assert_eq!(labels, ["66 cm across, with its allowances", "65 cm can be cut from"]);
    assert_eq!(narrow("width 66", across, FROM_FOLD), None);
}

#[test]
fn on_the_bias_the_corners_of_the_allowances_count() {
    // A square of 102 cm, with 2 cm all round of 106 cm: its diagonal is 106 × √2 = 149.91 cm.
    let square = |side: &str| format!("cut 1; grain bias; outline rectangle {side} by {side}");
    let hems = "finish apron.left, apron.right, apron.top, apron.bottom hem 2";
    assert_eq!(narrow("width 150", &square("102"), hems), None);
    // 107 × √2 = 151.32 cm; the square itself, 103 × √2 = 145.66 cm, would have done.
    let (title, labels, _) = narrow("width 150", &square("103"), hems).expect("too wide");
    assert_eq!(title, "Apron is 1.3 cm wider than serge");
    assert_eq!(labels[0], "151.3 cm across, with its allowances");
}

/// A front of 30 by 60, half on the fold at its left, with a pocket of 16 by 18 placed on it.
fn pocket_at(x: f64, y: f64, alter: &str) -> Vec<(&'static str, String)> {
    // Across the middle there is one, beside it one on each half.
    let cut = if x < 0.0 { 1 } else { 2 };
    told(&format!(
        "fabric serge \"wool serge\" {{ width 150 }}\nlayer outer in serge {{ front, pocket }}\n\
         piece front \"Front\" {{ cut 1 on fold left; outline rectangle 30 by 60; point spot = ({x}, {y}) }}\n\
         piece pocket \"Pocket\" {{ cut {cut}; outline rectangle 16 by 18 }}\n{alter}\n\
         place pocket on front {{ corner bottom_left at spot }}"
    ))
}

#[test]
fn a_pocket_may_reach_the_edges_and_lie_across_a_fold() {
    // Right edge at 14 + 16 = 30, lower edge at 0; then across the fold, 8 cm on each half.
    assert_eq!(pocket_at(14.0, 0.0, ""), []);
    assert_eq!(pocket_at(-8.0, 20.0, ""), []);
}

#[test]
fn a_pocket_past_an_edge_says_by_how_much() {
    let past = pocket_at(16.0, 20.0, "");
    assert_eq!(past, [("place/outside", "Pocket reaches 2 cm past the right of Front".to_owned())]);
    let below = pocket_at(10.0, -3.0, "");
    assert_eq!(below, [("place/below-hem", "Pocket reaches 3 cm below the bottom of Front".to_owned())]);
    let both: Vec<_> = pocket_at(16.0, -3.0, "").into_iter().map(|(slug, _)| slug).collect();
    assert_eq!(both.len(), 2, "each side is told: {both:?}");
}

#[test]
fn an_opened_fold_is_no_longer_crossed() {
    let across = pocket_at(-8.0, 20.0, "open front at left");
    assert_eq!(
        across,
        [(
            "place/over-line",
            "Pocket lies across the left of Front, which is open: it reaches 8 cm over it".to_owned()
        )]
    );
    assert_eq!(pocket_at(2.0, 20.0, "open front at left"), []);
    // Closed again, the pocket may lie there again.
    assert_eq!(pocket_at(-8.0, 20.0, "open front at left\nclose front at left"), []);
}

#[test]
fn a_requirement_is_judged_by_what_it_compares() {
    let require = |line: &str| told(&format!("tolerance 2mm\nlet ease = 22\n{line}"));
    for holds in ["ease >= 22", "ease <= 22", "ease = 22.1", "ease != 23", "ease > 21.9", "ease < 22.1"] {
        assert_eq!(require(&format!("require {holds} \"so it must be\"")), [], "{holds}");
    }
    for fails in ["ease >= 22.1", "ease = 22.3", "ease > 22", "ease < 22", "ease != 22.1"] {
        let found = require(&format!("require {fails} \"so it must be\""));
        assert_eq!(
            found,
            [("require/unmet", "the requirement is not met: so it must be".to_owned())],
            "{fails}"
        );
    }
}

#[test]
fn the_nearest_zip_in_stock_may_fit() {
    let zip = |lengths: &str| {
        told(&format!(
            "tolerance 2mm\nfabric serge \"wool serge\" {{ width 150 }}\nlayer outer in serge {{ front }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 30 by 60 }}\n\
             closure front_zip front.left to front.left {{ zipper separating {lengths} }}"
        ))
    };
    assert_eq!(zip("stocked 55, 60, 65"), []);
    assert_eq!(zip("60.1"), []);
    let stock = "no stocked zip fits front_zip: the nearest is 2 cm longer than its edges".to_owned();
    assert_eq!(zip("stocked 55, 62"), [("zipper/stock", stock)]);
    let short = "the zip of front_zip is 5 cm shorter than its edges".to_owned();
    assert_eq!(zip("55"), [("zipper/length", short)]);
}
