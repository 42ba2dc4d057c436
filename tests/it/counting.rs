//! What is bought is counted once for every copy, and priced whatever the unit it is shown in. All
//! counts by hand.

use crate::workbench::{err, folder_of, out, run};
use fustian::compile;
use fustian::report::Severity;
use fustian::source::MemoryLoader;
use serde_json::{Value as Json, json};

const HEADER: &str = "garment \"Winch gloves\"\nunits cm\nallowance 1\ntolerance 2mm\n\
     fabric canvas \"canvas\" { width 150 }\n";

/// Every need of a garment: its words, how many and how long (mm).
fn needs(text: &str) -> Vec<(String, Option<u32>, Option<f64>)> {
    let compiled =
        compile(&MemoryLoader::new().with("gloves.fus", format!("{HEADER}{text}\n")), "gloves.fus");
    let mistakes = compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
    let told: Vec<_> = mistakes.map(|one| (one.slug(), &one.title)).collect();
    assert_eq!(told, [], "{text}");
    let needs = compiled.sizes[0].sewn.notions.iter();
    needs.map(|need| (need.name.words(&compiled.garment), need.count, need.length)).collect()
}

/// A cuff that closes on itself, cut so often.
fn cuffs(cut: &str, how: &str) -> String {
    format!(
        "layer outer in canvas {{ cuff }}\npiece cuff \"Cuff\" {{ cut {cut}; outline rectangle 24 by 14 }}\n\
         closure wrist cuff.left to cuff.right {{ {how} }}\nfinish cuff.top, cuff.bottom  hem 1"
    )
}

#[test]
fn two_cuffs_with_two_buttons_are_four() {
    let row = "buttons 2 of 15mm from 3.5 below top_left to 3.5 above bottom_left stand 2";
    for (cut, buttons) in [("1", 2), ("2 mirrored", 4), ("2", 4), ("4 mirrored", 8)] {
        let found = needs(&cuffs(cut, row));
        assert_eq!(found, [("button 15 mm".to_owned(), Some(buttons), None)], "cut {cut}");
    }
    for (cut, zips) in [("1", 1), ("2 mirrored", 2)] {
        let found = needs(&cuffs(cut, "zipper separating 14"));
        assert_eq!(found, [("separating zip".to_owned(), Some(zips), Some(140.0))], "cut {cut}");
    }
}

/// A skirt of two halves on the fold: its side is there on the left and on the right. Closed by a zip
/// at the top of both sides it has two; a centre back, left to right, has one.
fn skirt(side: &str) -> String {
    let half = |name: &str, cut: &str| {
        format!(
            "piece {name} \"{name}\" {{\n  cut {cut}\n  point waist_centre = (0, 60)\n  point waist_side = (25, 60)\n\
             \u{20}\u{20}point zip_end = (25, 40)\n  point hem_side = (25, 0)\n  point hem_centre = (0, 0)\n\
             \u{20}\u{20}outline from hem_centre {{\n    centre to waist_centre\n    waist to waist_side\n    upper to zip_end\n\
             \u{20}\u{20}\u{20}\u{20}side to hem_side\n    hem to hem_centre\n  }}\n}}\n"
        )
    };
    let cut = if side.contains("centre") { "2 mirrored" } else { "1 on fold centre" };
    format!(
        "layer outer in canvas {{ front, back }}\n{}{}{side}\nfinish front.waist, back.waist  hem 1\n\
         finish front.hem, back.hem  hem 2",
        half("front", "1 on fold centre"),
        half("back", cut)
    )
}

#[test]
fn two_side_openings_have_two_zips_and_a_centre_back_one() {
    let both = needs(&skirt(
        "closure side_zip front.upper to back.upper { zipper closed 20 }\nseam side front.side to back.side",
    ));
    assert_eq!(both, [("closed zip".to_owned(), Some(2), Some(200.0))]);
    let back = needs(&skirt(
        "closure back_zip back.centre to back.centre { zipper separating 60 }\n\
         seam upper front.upper to back.upper\nseam side front.side to back.side",
    ));
    assert_eq!(back, [("separating zip".to_owned(), Some(1), Some(600.0))]);
}

/// 2 cm to join its ends (common practice) are bought with each.
#[test]
fn elastic_is_counted_by_rings() {
    // A waist all round: two halves on the fold, one ring. 70 + 2 cm.
    let round = skirt("seam upper front.upper to back.upper\nseam side front.side to back.side").replace(
        "finish front.waist, back.waist  hem 1",
        "finish front.waist, back.waist  casing 3 for elastic 2 of 70",
    );
    assert_eq!(needs(&round), [("elastic 2 cm wide".to_owned(), Some(1), Some(720.0))]);
    // Two sleeves, each sewn to itself: two rings. On the fold or cut in pairs it is the same.
    for (cut, under) in
        [("2 mirrored", "sleeve.left to sleeve.right"), ("2 on fold left", "sleeve.right to sleeve.right")]
    {
        let sleeves = format!(
            "layer outer in canvas {{ sleeve }}\npiece sleeve \"Sleeve\" {{ cut {cut}; outline rectangle 30 by 50 }}\n\
             seam under {under}\nfinish sleeve.bottom casing 2 for elastic 1 of 16\nfinish sleeve.top hem 2"
        );
        assert_eq!(needs(&sleeves), [("elastic 1 cm wide".to_owned(), Some(2), Some(180.0))], "{cut}");
    }
    // Two legs that a seam joins left to right at the top: a waist of one ring, ankles of two.
    let trousers = "layer outer in canvas { front, back }\n\
         piece front \"Front\" { cut 2 mirrored\n  point a = (0, 100)\n  point b = (30, 100)\n  point c = (30, 0)\n  point d = (5, 0)\n  point e = (0, 70)\n\
         outline from a {\n waist to b\n side to c\n ankle to d\n inside to e\n crotch to a\n }\n }\n\
         piece back \"Back\" { cut 2 mirrored\n outline copy of front\n }\n\
         seam side front.side to back.side\nseam inside front.inside to back.inside\n\
         seam front_crotch front.crotch to front.crotch\nseam back_crotch back.crotch to back.crotch\n\
         finish front.waist, back.waist  casing 4 for elastic 3 of 80\n\
         finish front.ankle, back.ankle  casing 3 for elastic 2 of 24";
    assert_eq!(
        needs(trousers),
        [
            ("elastic 3 cm wide".to_owned(), Some(1), Some(820.0)),
            ("elastic 2 cm wide".to_owned(), Some(2), Some(260.0))
        ]
    );
}

/// Two pockets closed by a cord each: two cords.
#[test]
fn cords_are_counted_by_channels() {
    let bags = "layer outer in canvas { bag }\npiece bag \"Bag\" { cut 2; outline rectangle 40 by 30 }\n\
         seam side bag.left to bag.right\nfinish bag.top casing 2\nfinish bag.bottom hem 2\ncord tie 60 through bag.top ends 8 free";
    assert_eq!(needs(bags), [("cord (tie)".to_owned(), Some(2), Some(600.0))]);
}

const SKIRT: &str = "garment \"Purser's skirt\"\nUNITS\nallowance 1cm\ntolerance 2mm\n\
     fabric serge \"serge\" { width 150cm; price 10 per m }\nlayer outer in serge { skirt }\n\
     piece skirt \"Skirt\" { cut 2 mirrored; outline rectangle 50cm by 60cm }\n\
     seam front skirt.left to skirt.left\nclosure back skirt.right to skirt.right { buttons 5 of 15mm from 6cm below top_right to 6cm above bottom_right stand 2cm }\n\
     finish skirt.top  casing 3cm for elastic 2cm of 70cm\nfinish skirt.bottom  bound 1cm\n\
     notion \"elastic 2 cm wide\" price 4 per m\nnotion \"button 15 mm\" price 0.5 each\n\
     notion \"binding, finished 3/8in wide\" price 1 per m\n";

/// By hand: 72 cm of elastic at 4 a metre are 2.88, five buttons at 0.50 are 2.50, 100 cm of binding
/// at 1 are 1.00.
#[test]
fn prices_are_found_whatever_unit_things_are_shown_in() {
    for units in ["units cm", "units mm", "units in"] {
        let folder = folder_of(&[("skirt.fus", &SKIRT.replace("UNITS", units))]);
        let output = run(folder.path(), &["materials", "skirt.fus", "--format", "json"]);
        assert!(output.status.success(), "{units}: {}", err(&output));
        let told: Json = serde_json::from_slice(&output.stdout).unwrap();
        let needs = told["sizes"].as_object().unwrap().values().next().unwrap();
        let notions: Vec<(&str, &Json, &Json)> = needs["notions"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| (one["kind"].as_str().unwrap(), &one["width"], &one["cost"]["amount"]))
            .collect();
        let expected = [
            ("button", &json!(15), &json!(2.5)),
            ("elastic", &json!(20), &json!(2.88)),
            ("binding", &json!(10), &json!(1)),
        ];
        assert_eq!(notions, expected, "{units}");
        assert_eq!(needs["unpriced"], json!([]), "{units}");
        let text = out(&run(folder.path(), &["materials", "skirt.fus"]));
        let row = |name: &str, cost: &str| {
            text.lines().any(|line| line.starts_with(name) && line.trim_end().ends_with(cost))
        };
        assert!(row("elastic", " 2.88") && row("button 15 mm", " 2.50") && row("binding", " 1.00"), "{text}");
        assert!(text.contains("of each length is there to join its ends"), "{text}");
        let csv = out(&run(folder.path(), &["materials", "skirt.fus", "--format", "csv"]));
        let elastic = match units {
            "units cm" => ",1,2,72,cm,2.88,",
            "units mm" => ",1,20,720,mm,2.88,",
            // 72 / 2.54 and 2 / 2.54.
            _ => ",1,0.79,28.35,in,2.88,",
        };
        assert!(csv.contains(elastic), "{csv}");
    }
}

/// Said in inches it is the same elastic; what names it more closely comes before what names its kind.
#[test]
fn the_closest_price_counts() {
    for (price, cost) in [
        ("notion \"elastic 13/16in\" price 5 per m", Some(3.6)),
        ("notion \"elastic\" price 3 per m\nnotion \"elastic 2 cm\" price 4 per m", Some(2.88)),
        ("notion \"elastic 2 cm\" price 4 per m\nnotion \"elastic\" price 3 per m", Some(2.88)),
        ("notion \"elastic\" price 3 per m", Some(2.16)),
    ] {
        let text =
            SKIRT.replace("UNITS", "units cm").replace("notion \"elastic 2 cm wide\" price 4 per m", price);
        let folder = folder_of(&[("skirt.fus", &text)]);
        let output = run(folder.path(), &["materials", "skirt.fus", "--format", "json"]);
        let told: Json = serde_json::from_slice(&output.stdout).unwrap();
        let needs = told["sizes"].as_object().unwrap().values().next().unwrap();
        let elastic =
            needs["notions"].as_array().unwrap().iter().find(|one| one["kind"] == "elastic").unwrap();
        assert_eq!(elastic["cost"]["amount"].as_f64(), cost, "{price}");
    }
}

/// What `resolve` says of closures and notions is the one count.
#[test]
fn the_document_tells_the_count_of_closures() {
    let text = format!(
        "{HEADER}{}\n",
        cuffs("2 mirrored", "buttons 2 of 15mm from 3.5 below top_left to 3.5 above bottom_left stand 2")
    );
    let folder = folder_of(&[("gloves.fus", &text)]);
    let told: Json = serde_json::from_slice(&run(folder.path(), &["resolve", "gloves.fus"]).stdout).unwrap();
    let size = &told["sizes"][0];
    assert_eq!(size["closures"][0]["count"], 2);
    assert_eq!(size["closures"][0]["fasteners"]["count"], 2);
    assert_eq!(
        size["notions"],
        json!([{ "what": "button 15 mm", "kind": "button", "width": 15, "for": "wrist", "count": 4 }])
    );
}
