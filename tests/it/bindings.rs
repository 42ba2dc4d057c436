//! Bindings that run on as ties, make loops, and are cut from cloth. Lengths by hand.

use crate::workbench::{err, folder_of, out, run};
use fustian::compile;
use fustian::source::MemoryLoader;
use serde_json::Value as Json;

/// A bib of 30 by 40 whose top and bottom are bound so, its sides hemmed.
fn bib(cut: &str, binding: &str) -> String {
    format!(
        "garment \"Galley bib\"\nunits cm\nallowance 1\nfabric cotton \"apron cotton\" {{ width 150; price 10 per m }}\n\
         fabric stripe \"striped cotton\" {{ width 100; price 8 per m }}\n\
         layer outer in cotton {{ bib }}\npiece bib \"Bib\" {{ {cut}; outline rectangle 30 by 40 }}\n\
         layer back in stripe {{ patch }}\npiece patch \"Patch\" {{ cut 1 loose; outline rectangle 90 by 20 }}\n\
         finish patch.top, patch.bottom, patch.left, patch.right  raw\n\
         finish bib.left, bib.right, bib.bottom  hem 1\nfinish bib.top  {binding}\n"
    )
}

fn slugs(text: &str) -> Vec<&'static str> {
    let compiled = compile(&MemoryLoader::new().with("bib.fus", text), "bib.fus");
    let told = compiled.diagnostics.iter().map(|one| one.slug());
    told.filter(|slug| *slug != "steps/none").collect()
}

/// How much binding is needed, in millimetres.
fn length(text: &str) -> Option<f64> {
    let compiled = compile(&MemoryLoader::new().with("bib.fus", text), "bib.fus");
    let needs = compiled.sizes[0].sewn.notions.iter();
    needs
        .filter(|need| need.name.words(&compiled.garment).starts_with("binding"))
        .find_map(|need| need.length)
}

/// 30 of edge; with 45 and 60 beyond it 135; of two bibs 270. A loop of 6 at one corner 36.
#[test]
fn what_runs_on_and_loops_is_bound_with_it() {
    let once = |binding: &str| length(&bib("cut 1", binding));
    assert_eq!(once("bound 1"), Some(300.0));
    assert_eq!(once("bound 1 running on 45 at start"), Some(750.0));
    assert_eq!(once("bound 1 running on 45 at start, 60 at end"), Some(1350.0));
    assert_eq!(length(&bib("cut 2", "bound 1 running on 45 at start, 60 at end")), Some(2700.0));
    assert_eq!(once("bound 1 looping 6 at bib.top_left"), Some(360.0));
    // A half on the fold has 60 of edge in one row, with two ends; its corner is there twice.
    let half = |binding: &str| length(&bib("cut 1 on fold left", binding).replace("bib.left, ", ""));
    assert_eq!(half("bound 1 running on 45 at start, 60 at end"), Some(1650.0));
    assert_eq!(half("bound 1 looping 6 at bib.top_right"), Some(720.0));
}

#[test]
fn it_runs_on_from_an_end_and_loops_at_a_corner() {
    let found = |binding: &str| slugs(&bib("cut 1", binding));
    assert_eq!(found("bound 1 running on 45 at start, 60 at end"), [""; 0]);
    assert_eq!(found("bound 1 looping 6 at bib.top_left"), [""; 0]);
    assert_eq!(found("bound 1 looping 6 at bib.bottom_left"), ["bind/runs-on"]);
    assert_eq!(found("bound 1 running on -4 at start"), ["value/negative"]);
    assert_eq!(found("bound 1 running on 4 at start, 5 at start"), ["name/declared-twice"]);
    assert_eq!(found("bound 1 cut from sailcloth"), ["cloth/unknown"]);
    let child = bib("cut 1", "bound 1 running on 45 at start").replace("units cm", "units cm\nwearer baby");
    assert_eq!(slugs(&child), ["caution/cord"]);
}

/// 30 + 45 + 60 = 135 of binding 1 wide are cut 4 × 1 wide (common practice), 540 cm² on the bias from a square of
/// √540 = 23.2 (handbook rule): so much more of the striped cotton is bought, and no binding. Its one patch is 20
/// deep and has allowances of 1: 22 are sold as 30, by 10 cm, and 22 + 23.2 as 50.
#[test]
fn a_binding_is_cut_from_cloth() {
    let bought = |binding: &str| {
        let folder = folder_of(&[("bib.fus", &bib("cut 1", binding))]);
        let output = run(folder.path(), &["materials", "bib.fus", "--format", "json"]);
        assert!(output.status.success(), "{}", err(&output));
        let text = out(&run(folder.path(), &["materials", "bib.fus"]));
        let told: Json = serde_json::from_slice(&output.stdout).unwrap();
        (told["sizes"]["one size"].clone(), text)
    };
    let striped = |needs: &Json| {
        let cloths = needs["cloths"].as_array().unwrap();
        let own = cloths.iter().find(|cloth| cloth["fabric"] == "stripe").unwrap();
        own["buy"]["to_buy"].as_f64()
    };
    let (plain, _) = bought("bound 1 running on 45 at start, 60 at end");
    let (cut, text) = bought("bound 1 cut from stripe running on 45 at start, 60 at end");
    assert_eq!((striped(&plain), striped(&cut)), (Some(300.0), Some(500.0)));
    assert_eq!(plain["unpriced"].as_array().map(Vec::len), Some(1));
    assert_eq!(cut["unpriced"].as_array().map(Vec::len), Some(0));
    assert!(text.contains("cut on the bias from striped cotton, a square of"), "{text}");
}
