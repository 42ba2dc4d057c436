//! Seams that are not plain: what they take of allowance, which side lies over, what is seen, sewn and
//! bought of them. Least allowances are common practice (home and trade sewing); the rest is worked out by
//! hand.

use fustian::compile;
use fustian::emit::document;
use fustian::materials::{STITCHES_PER_INCH, WASTE, thread_needs};
use fustian::report::Diagnostic;
use fustian::source::MemoryLoader;
use fustian::{Compiled, emit::drawing};
use serde_json::{Value, json};

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("skirt.fus", text), "skirt.fus")
}

/// A skirt of two halves on the fold, 26 by 60 cm, and what its side seams say of themselves.
fn skirt(front: f64, back: f64, seam: &str) -> Compiled {
    made(&format!(
        "garment \"Mess skirt\"\nunits cm\nfabric serge \"wool serge\" {{ width 150 }}\n\
         layer outer in serge {{ front, back }}\n\
         piece front \"Front\" {{ allowance {front}; cut 1 on fold left; outline rectangle 26 by 60 }}\n\
         piece back \"Back\" {{ allowance {back}; cut 1 on fold left; outline rectangle 26 by 60 }}\n\
         seam side  front.right to back.right {{ {seam} }}\n\
         finish front.top, back.top, front.bottom, back.bottom  hem 3\n"
    ))
}

fn slugs(compiled: &Compiled) -> Vec<&str> {
    let all = compiled.diagnostics.iter().map(Diagnostic::slug);
    all.filter(|slug| *slug != "steps/none").collect()
}

/// French and felled: twice the width. Topstitched: 3 mm beyond the row. Lapped: the same of the under
/// side, and the upper side as it likes. Bound: as wide as the binding.
#[test]
fn each_kind_takes_its_allowance_and_says_how_much() {
    for (seam, enough, too_little, takes) in [
        ("french 0.7", (1.4, 1.4), (1.3, 1.3), "1.4 cm"),
        ("felled 0.7 over back", (1.4, 1.4), (1.3, 1.3), "1.4 cm"),
        ("topstitched 0.6 over back", (0.9, 0.9), (0.8, 0.8), "9 mm"),
        ("lapped 0.7 over front", (0.5, 1.0), (1.5, 0.9), "1 cm"),
        ("lapped 0.7 over back", (1.0, 0.5), (0.9, 1.5), "1 cm"),
        ("edges bound 1", (1.0, 1.0), (0.9, 0.9), "1 cm"),
    ] {
        let sound = skirt(enough.0, enough.1, seam);
        assert_eq!(slugs(&sound), [""; 0], "{seam}: {:#?}", sound.diagnostics);
        let short = skirt(too_little.0, too_little.1, seam);
        assert_eq!(slugs(&short), ["seam/width"], "{seam}");
        let told = &short.diagnostics.iter().find(|one| one.slug() == "seam/width").unwrap();
        assert!(told.title.contains(&format!("{takes} of allowance")), "{seam}: {}", told.title);
    }
    assert_eq!(slugs(&skirt(1.0, 1.0, "french 0")), ["seam/width"]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "french -1")), ["value/negative"]);
    // The sides of any other seam are laid edge to edge.
    assert_eq!(slugs(&skirt(1.5, 2.0, "felled 0.7 over back")), ["seam/allowance"]);
}

/// The amount that is said as the way out is one.
#[test]
fn the_ways_out_are_ways_out() {
    let short = skirt(1.0, 1.0, "felled 0.7 over back");
    let told = short.diagnostics.iter().find(|one| one.slug() == "seam/width").unwrap();
    let help = told.help.clone().unwrap_or_default().to_string();
    assert!(help.contains("allowance 1.4cm") && help.contains("no wider than 5 mm"), "{help}");
    assert_eq!(slugs(&skirt(1.0, 1.0, "allowance 1.4cm; felled 0.7 over back")), [""; 0]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "felled 5mm over back")), [""; 0]);
}

/// Cut as it was said, and no wider: 26 + 1.4 across, 60 + 2 × 3 up, half on the fold twice as wide.
#[test]
fn nothing_is_cut_wider_than_was_said() {
    for seam in ["allowance 1.4", "allowance 1.4; felled 0.7 over back", "allowance 1.4; french 0.7"] {
        let json = written(&skirt(1.0, 1.0, seam));
        let cut = &json["sizes"][0]["pieces"][0]["cut"];
        assert_eq!(*cut, json!({ "width": 548, "height": 660 }), "{seam}");
    }
}

fn written(compiled: &Compiled) -> Value {
    let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
    serde_json::to_value(document).unwrap()
}

/// Of a felled seam the under allowance is trimmed to 2 mm less than its width (common practice). Classes
/// of ISO 4916:1991 (from memory): superimposed 1, lapped 2, bound 3.
#[test]
fn the_document_says_how_a_seam_is_made() {
    for (seam, expected) in [
        ("stitch 301", Value::Null),
        (
            "felled 0.7 over back",
            json!({ "kind": "felled", "width": 7, "over": "second", "trimmed": 5, "rows": 2, "iso_4916_class": 2 }),
        ),
        ("french 0.7", json!({ "kind": "french", "width": 7, "rows": 2, "iso_4916_class": 1 })),
        (
            "lapped 0.7 over outer.front",
            json!({ "kind": "lapped", "width": 7, "over": "first", "rows": 1, "iso_4916_class": 2 }),
        ),
        (
            "topstitched 0.6 over back.right",
            json!({ "kind": "topstitched", "width": 6, "over": "second", "rows": 2, "iso_4916_class": 2 }),
        ),
        ("edges bound 1", json!({ "kind": "edges_bound", "width": 10, "rows": 1, "iso_4916_class": 3 })),
    ] {
        let json = written(&skirt(2.0, 2.0, seam));
        assert_eq!(json["sizes"][0]["seams"][0]["made"], expected, "{seam}");
    }
}

/// What lies over is a side of the seam, told by as little as tells it.
#[test]
fn which_side_lies_over() {
    let jersey = |seam: &str| {
        made(&format!(
            "garment \"Deck jersey\"\nunits cm\nallowance 2\nfabric knit \"jersey\" {{ width 150 }}\n\
             layer outer in knit {{ back, sleeve }}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline rectangle 26 by 60 }}\n\
             piece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 40 by 60 }}\n\
             {seam}\nfinish back.top, back.bottom, back.right, sleeve.top, sleeve.bottom  overlocked\n"
        ))
    };
    let centre =
        |over: &str| jersey(&format!("seam centre back.left to back.left {{ felled 0.7 over {over} }}"));
    let over = |compiled: &Compiled| compiled.garment.seams[0].work.as_ref().and_then(|work| work.over);
    use fustian::garment::SeamSide::{First, Second};
    assert_eq!([over(&centre("left")), over(&centre("right"))], [Some(First), Some(Second)]);
    let unclear = |compiled: &Compiled, help: &str| {
        let told: Vec<_> = compiled.diagnostics.iter().filter(|one| one.slug() == "seam/over").collect();
        assert_eq!(told.len(), 1, "{:#?}", compiled.diagnostics);
        let said = told[0].help.clone().unwrap_or_default().to_string();
        assert!(said.contains(help), "{said}");
    };
    unclear(&centre("back"), "over left, or over right");
    unclear(&centre("sleeve"), "over back.left");
    let under = |over: &str| {
        jersey(&format!(
            "seam under sleeve.left to sleeve.right {{ felled 0.7 over {over}; matching sleeve.top_left with sleeve.top_right }}"
        ))
    };
    assert_eq!(over(&under("sleeve.right")), Some(Second));
    unclear(&under("sleeve"), "over sleeve.left, or over sleeve.right");
    unclear(&under("left"), "over sleeve.left, or over sleeve.right");
    let twice = skirt(2.0, 2.0, "french 0.7; french 0.6");
    assert_eq!(slugs(&twice), ["name/declared-twice"]);
}

/// The row that is seen, beside the seam at 26 cm and from hem to hem: on what lies over, but of a felled
/// seam on what the fold lies on.
#[test]
fn the_row_that_is_seen_is_drawn() {
    for (seam, on, x) in [
        ("felled 0.7 over back", Some("front"), 253.0),
        ("lapped 0.7 over back", Some("back"), 253.0),
        ("topstitched 0.6 over back", Some("back"), 254.0),
        ("topstitched 0.6 over front", Some("front"), 254.0),
        ("french 0.7", None, 0.0),
        ("edges bound 1", None, 0.0),
    ] {
        let compiled = skirt(2.0, 2.0, seam);
        let cuts = crate::cutting_lines::cut_all(&compiled);
        for group in drawing::group(&cuts) {
            let part = &group.members[0];
            let name = &*compiled.garment.piece(part.part.piece).name;
            let rows: Vec<_> = part.rows.iter().map(|row| (row.start(), row.end())).collect();
            if on != Some(name) {
                assert!(rows.is_empty(), "{seam}: {name}");
                continue;
            }
            let [(from, to)] = rows[..] else { panic!("{seam}: {rows:?}") };
            assert!((from.x - x).abs() < 1e-6 && (to.x - x).abs() < 1e-6, "{seam}: {from:?} {to:?}");
            assert!((from.y.min(to.y)).abs() < 1e-6 && (from.y.max(to.y) - 600.0).abs() < 1e-6, "{seam}");
            let drawn =
                drawing::draw_group(&compiled.garment, &group, &drawing::Look::drawing(), true).unwrap();
            let is_row = |shape: &&drawing::Shape| {
                matches!(shape.what, drawing::What::Stroke(_, drawing::Pen::Topstitch))
            };
            assert_eq!(drawn.shapes.iter().filter(is_row).count(), 1, "{seam}");
        }
    }
}

/// Two side seams of 60 cm in a cloth of which no thickness is said: 0.5 mm. A row of lockstitch takes
/// 2 + 2TS for its length (course tables), T in inches, S = 10, and 15 % waste. By hand the plies under
/// each row: 2 of a plain seam and of both rows of a french one, 3 where an allowance is folded or lies
/// under with the other, 4 of a binding, which is sewn twice on each side.
#[test]
fn thread_by_the_rows_of_each_kind() {
    let lockstitch = |seam: &str| {
        let compiled = skirt(2.0, 2.0, seam);
        let size = &compiled.sizes[0];
        let needs = thread_needs(&compiled.garment, &size.drawn, &size.sewn);
        needs.iter().find(|need| need.stitch == 301).and_then(|need| need.thread).unwrap()
    };
    let row = |plies: f64| 1200.0 * (2.0 + 2.0 * (plies * 0.5 / 25.4) * STITCHES_PER_INCH) * (1.0 + WASTE);
    let plain = lockstitch("stitch 301");
    for (seam, rows) in [
        ("french 0.7", row(2.0)),
        ("felled 0.7 over back", row(3.0)),
        ("topstitched 0.6 over back", row(3.0)),
        ("lapped 0.7 over back", row(3.0) - row(2.0)),
        ("edges bound 1", 4.0 * row(4.0)),
        // Sewn together with an overedge, sewn down with a lockstitch.
        ("stitch overlock; topstitched 0.6 over back", row(3.0) - row(2.0)),
    ] {
        let more = lockstitch(seam) - plain;
        assert!((more - rows).abs() < 1e-6, "{seam}: {more} {rows}");
    }
}

#[test]
fn a_comparison_says_how_the_seam_was_made() {
    let [old, new] = ["felled 0.7 over back", "felled 0.8 over front"].map(|seam| {
        let compiled = skirt(2.0, 2.0, seam);
        document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics)
    });
    let unit = fustian::report::DisplayUnit::Centimetre;
    let compared =
        serde_json::to_value(fustian::emit::compare(&old, &new, &Default::default(), unit).unwrap()).unwrap();
    let changed = &compared["changes"]["seams"][0]["facts"][0];
    assert_eq!(changed["what"], "made");
    let words = changed["sizes"].as_object().unwrap().values().next().unwrap();
    assert_eq!(
        *words,
        json!({ "old": "felled, 7 mm wide, the second side over", "new": "felled, 8 mm wide, the first side over" })
    );
}

/// Both allowances of both side seams: 2 × 2 × 60 cm of binding.
#[test]
fn binding_for_bound_edges() {
    let json = written(&skirt(2.0, 2.0, "edges bound 1"));
    let notions = json["sizes"][0]["notions"].as_array().unwrap();
    assert_eq!(notions.len(), 1);
    assert_eq!(notions[0]["what"], "binding, finished 1 cm wide");
    assert_eq!((&notions[0]["length"], &notions[0]["for"]), (&json!(2400), &json!("side")));
}

/// A seam of 60 cm by hand: 15, 30, 45; 20, 40; every 10 of 60 is five notches, every 25 of 60 two, 20
/// apart, since 30 would be more than 25. Gathered 1.5 times, the first side has them at the same shares.
#[test]
fn notches_divide_a_seam_as_it_is_sewn() {
    let notches = |compiled: &Compiled| -> Vec<(f64, f64)> {
        let all = compiled.sizes[0].sewn.seams[0].notches.iter();
        all.map(|notch| (notch.on_first, notch.on_second)).collect()
    };
    let near = |found: Vec<(f64, f64)>, places: &[(f64, f64)]| {
        let is_near = |(one, other): (&(f64, f64), &(f64, f64))| {
            (one.0 - other.0).abs() < 1e-6 && (one.1 - other.1).abs() < 1e-6
        };
        assert_eq!(found.len(), places.len(), "{found:?}");
        assert!(found.iter().zip(places).all(is_near), "{found:?}");
    };
    for (said, places) in [
        ("notch quarters", vec![150.0, 300.0, 450.0]),
        ("notch thirds", vec![200.0, 400.0]),
        ("notch every 10", vec![100.0, 200.0, 300.0, 400.0, 500.0]),
        ("notch every 25", vec![200.0, 400.0]),
        ("notch quarters; notch thirds", vec![150.0, 200.0, 300.0, 400.0, 450.0]),
    ] {
        let compiled = skirt(1.0, 1.0, said);
        assert_eq!(slugs(&compiled), [""; 0], "{said}");
        let both: Vec<(f64, f64)> = places.iter().map(|&at| (at, at)).collect();
        near(notches(&compiled), &both);
        // Cut into both plies.
        for part in &compiled.sizes[0].cut(&compiled.garment).parts {
            assert_eq!(part.notches.len(), places.len(), "{said}");
        }
    }
    let frill = made(
        "garment \"Galley curtain\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" { width 150 }\n\
         layer main in cotton { curtain, frill }\n\
         piece curtain \"Curtain\" { cut 1; outline rectangle 80 by 60 }\n\
         piece frill \"Frill\" { cut 1; outline rectangle 120 by 10 }\n\
         seam on  frill.top to curtain.bottom gathering 1.5 { notch quarters; matching frill.top_left with curtain.bottom_left }\n\
         finish frill.left, frill.right, frill.bottom, curtain.left, curtain.right, curtain.top  hem 1\n",
    );
    near(notches(&frill), &[(300.0, 200.0), (600.0, 400.0), (900.0, 600.0)]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "notch every 60")), ["notch/off-edge"]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "notch every 0.9")), ["notch/close"]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "notch every 1")), [""; 0]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "notch every 0")), ["notch/close"]);
    assert_eq!(slugs(&skirt(1.0, 1.0, "notch every -1")), ["value/negative"]);
}

/// A neckband sewn round, closed at the centre back: quarters of the whole round, from that seam on. The
/// neckline of two halves on the fold is 40 cm round: 10, 20, 30, and the shoulders' own at 12 and 28.
#[test]
fn quarters_of_what_is_sewn_round_begin_at_its_joint() {
    let jersey = made(
        "garment \"Deck jersey\"\nunits cm\nallowance 1\nfabric knit \"jersey\" { width 150; stretch 40% across, 40% along; kind knit }\n\
         layer outer in knit { front, back, band }\n\
         piece front \"Front\" { cut 1 on fold left; outline rectangle 8 by 60 }\n\
         piece back \"Back\" { cut 1 on fold left; outline rectangle 12 by 60 }\n\
         piece band \"Neckband\" { cut 1; outline rectangle 32 by 4 }\n\
         seam side front.right to back.right\nseam ends band.left to band.right { matching band.top_left with band.top_right }\n\
         seam neck  band.bottom to front.top + back.top stretching 80% { notch quarters; matching band.bottom_left with back.top_left; stitch overlock }\n\
         finish band.top, front.bottom, back.bottom  overlocked\n",
    );
    let seam = jersey.sizes[0].sewn.seams.iter().find(|seam| seam.ring).expect("a ring");
    let mut places: Vec<f64> = seam.notches.iter().map(|notch| notch.on_second).collect();
    places.sort_by(f64::total_cmp);
    for at in [100.0, 200.0, 300.0] {
        assert!(places.iter().any(|place| (place - at).abs() < 1e-6), "{at}: {places:?}");
    }
    assert!(seam.notches.iter().all(|notch| (notch.on_first - notch.on_second * 0.8).abs() < 1e-6));
}
