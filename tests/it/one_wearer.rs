//! Fittings: a garment made for one wearer, between the sizes.

use crate::workbench::{err, examples, folder_of, in_memory, out, run};
use fustian::emit::{document, to_text};
use fustian::{Compiled, compile, packed};
use proptest::prelude::*;
use std::fs;
use std::path::Path;

/// An apron that is drawn from the waist, with one value a size of every kind.
const APRON: &str = "garment \"Deck apron\"\nunits cm\nallowance 1\nsizes S, M, L, XL\n\
    body {\n  waist 70, 78, 88, 100\n  hip 90, 98, 106, 118\n}\npick size by larger of waist, hip\n\
    let depth = each 60, 62, 66, 67\nlet gap = 10 grade +0.8\nlet rows = each count 3, count 4, count 6, count 7\n\
    let share = each 50%, 60%, 60%, 80%\nlet corner = (each (1, 2), (3, 6), (5, 6), (5, 9))\n\
    let slant = each 30°, 34°, 36°, 40°\nlet formula = each waist/2, waist/4, waist/4 + 4, hip\n\
    fabric canvas \"apron canvas\" { width 150 }\nlayer outer in canvas { panel }\n\
    piece panel \"Panel\" {\n  cut 1\n  outline rectangle waist/2 + gap by depth\n}\n\
    finish panel.left, panel.right, panel.top, panel.bottom  hem 2\n\
    measure panel_width \"Width\" against waist = width(panel)\nmeasure panel_depth \"Depth\" = height(panel)\n\
    measure rows_of \"Rows\" = rows * 1cm\nmeasure share_of \"Share\" = share * 1m\nmeasure formula_of \"Formula\" = formula\n\
    measure slant_of \"Slant\" = slant\n\
    steps { \"Edges\" { hem panel.left, panel.right, panel.top, panel.bottom } }\n";

/// The apron without the list of points, which stands in a piece alone.
fn apron_text() -> String {
    APRON.replace("let corner = (each (1, 2), (3, 6), (5, 6), (5, 9))\n", "")
}

/// The apron for a wearer of whom that is known.
fn apron(body: &str) -> Compiled {
    let fitting = format!("fitting \"Second mate\" of \"apron.fus\" {{ body {{ {body} }} }}\n");
    compile(&in_memory(&[("mate.fus", &fitting), ("apron.fus", &apron_text())]), "mate.fus")
}

/// What a measure comes to: millimetres, radians or a plain number.
fn measured(compiled: &Compiled, name: &str) -> f64 {
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    let at = compiled.garment.values.iter().position(|value| &*value.name == name).expect("the measure");
    let [size] = compiled.sizes.as_slice() else { panic!("one wearer") };
    size.drawn.values[at].and_then(|quantity| quantity.scalar()).expect("a number")
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() < 1e-9 * expected.abs().max(1.0)
}

/// Slug, title, and file and line of each place, of the only message.
fn only(compiled: &Compiled) -> (&'static str, String, Vec<String>) {
    let [one] = compiled.diagnostics.as_slice() else { panic!("not one: {:#?}", compiled.diagnostics) };
    let place = |span| {
        let (file, line, _) = compiled.map.place(span);
        format!("{file}:{line}")
    };
    (one.slug(), one.title.to_string(), one.labels.iter().map(|label| place(label.span)).collect())
}

#[test]
fn a_wearer_between_two_sizes_by_hand() {
    // The waist, 83 cm, lies half way from 78 (M) to 88 (L), the hip at M: the waist decides.
    let mate = apron("waist 83; hip as M");
    assert!(mate.diagnostics.is_empty(), "{:#?}", mate.diagnostics);
    // 83/2 + half way from 10.8 to 11.6; half way from 62 to 66.
    assert!(close(measured(&mate, "panel_width"), 415.0 + 112.0));
    assert!(close(measured(&mate, "panel_depth"), 640.0));
    // Of 4 and 6 rows the nearest size's; of two equally near the larger's.
    assert!(close(measured(&mate, "rows_of"), 60.0));
    assert!(close(measured(&mate, "share_of"), 600.0));
    assert!(close(measured(&mate, "slant_of"), 35_f64.to_radians()));
    // Half way from 83/4 to 83/4 + 4.
    assert!(close(measured(&mate, "formula_of"), 207.5 + 20.0));
    // Ease over the wearer: 52.7 - 83.
    let shown = document(&mate.garment, &mate.sizes, &mate.map, &[]);
    let width = &shown.sizes[0].measures["panel_width"];
    assert_eq!(serde_json::to_value(width.ease).unwrap(), serde_json::json!(-303));
    let fitting = serde_json::to_value(shown.fitting.expect("a fitting")).unwrap();
    let expected = serde_json::json!({
        "wearer": "Second mate", "by": "waist", "below": "M", "above": "L", "share": 0.5, "nearest": "L"
    });
    assert_eq!(fitting, expected);
    assert_eq!(shown.sizes[0].size, "Second mate");
}

#[test]
fn of_several_measures_the_one_that_lies_farthest_up_decides() {
    // 103 cm of hip lie 5/8 from M (98) to L (106); the waist of an S.
    let mate = apron("waist 70; hip 103");
    assert!(close(measured(&mate, "panel_depth"), 620.0 + 40.0 * 5.0 / 8.0));
    // Nearer to L: its six rows; the width is drawn from the waist itself.
    assert!(close(measured(&mate, "rows_of"), 60.0));
    assert!(close(measured(&mate, "panel_width"), 350.0 + 108.0 + 8.0 * 5.0 / 8.0));
}

/// Every garment of the examples that says how its size is picked.
fn picked_examples() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the examples")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".fus") && !name.contains("library") && name != "second-mate.fus")
        .collect();
    names.sort();
    names
}

fn with_examples(first: &str) -> fustian::MemoryLoader {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let files = fs::read_dir(folder).expect("the examples").map(|entry| entry.expect("an entry").path());
    let texts = files.filter(|path| path.extension().is_some_and(|extension| extension == "fus"));
    texts.fold(fustian::MemoryLoader::new().with("wearer.fus", first), |loader, path| {
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        loader.with(&name, fs::read_to_string(&path).expect("a text"))
    })
}

/// The pieces, seams and all else of a size, as text.
fn size_text(compiled: &Compiled, at: usize, name: &str) -> String {
    let mut shown = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    shown.sizes = vec![shown.sizes[at].clone()];
    shown.sizes[0].size = name.to_owned();
    shown.fitting = None;
    to_text(&shown).expect("figures")
}

#[test]
fn a_fitting_at_a_size_s_own_measures_is_that_size() {
    let mut fitted = 0;
    for name in picked_examples() {
        let garment = compile(&with_examples(""), &name);
        if garment.garment.pick.is_empty() {
            continue;
        }
        let shown = document(&garment.garment, &garment.sizes, &garment.map, &[]);
        for (at, size) in shown.sizes.iter().enumerate() {
            let row =
                |(name, value): (&String, &_)| format!("{name} {}mm", serde_json::to_value(value).unwrap());
            let rows: Vec<String> = size.body.iter().map(row).collect();
            let text = format!("fitting \"Mate\" of \"{name}\" {{ body {{ {} }} }}\n", rows.join("; "));
            let mate = compile(&with_examples(&text), "wearer.fus");
            assert!(!mate.has_mistakes(), "{name} {}: {:#?}", size.size, mate.diagnostics);
            // All of it, to the 0.01 mm that is written.
            assert!(
                size_text(&mate, 0, "Mate") == size_text(&garment, at, "Mate"),
                "{name} in {} comes out otherwise",
                size.size
            );
            // Whatever is said of that size is said of the wearer: nothing of the fitting itself.
            let about = |one: &fustian::Diagnostic| one.slug().starts_with("fitting/");
            assert!(!mate.diagnostics.iter().any(about), "{name}: {:#?}", mate.diagnostics);
            fitted += 1;
        }
    }
    assert!(fitted > 30, "only {fitted} were fitted");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Halfway between two sizes whatever is linear lies halfway, and at any share as far as the wearer does.
    #[test]
    fn linear_values_lie_as_far_as_the_wearer(
        below in 0_usize..3,
        share in prop_oneof![Just(0.5), 0.01_f64..0.99],
    ) {
        let waists = [70.0, 78.0, 88.0, 100.0];
        let depths = [60.0, 62.0, 66.0, 67.0];
        let waist = waists[below] + share * (waists[below + 1] - waists[below]);
        let mate = apron(&format!("waist {waist}; hip as S"));
        let depth = depths[below] + share * (depths[below + 1] - depths[below]);
        let gap = 10.0 + 0.8 * (below as f64 + share);
        prop_assert!((measured(&mate, "panel_depth") - 10.0 * depth).abs() < 1e-6);
        prop_assert!((measured(&mate, "panel_width") - 10.0 * (waist / 2.0 + gap)).abs() < 1e-6);
        let slants = [30.0_f64, 34.0, 36.0, 40.0];
        let slant = slants[below] + share * (slants[below + 1] - slants[below]);
        prop_assert!((measured(&mate, "slant_of") - slant.to_radians()).abs() < 1e-9);
    }

    /// A larger wearer gets no smaller a value where the sizes' grow.
    #[test]
    fn values_grow_with_the_wearer(one in 66.0_f64..106.0, more in 0.0_f64..30.0) {
        let (small, large) = (apron(&format!("waist {one}; hip as S")), apron(&format!("waist {}; hip as S", one + more)));
        for name in ["panel_depth", "panel_width", "rows_of", "share_of", "slant_of"] {
            prop_assert!(measured(&small, name) <= measured(&large, name) + 1e-9, "{name}");
        }
        // Never beyond the last size's.
        prop_assert!((600.0..=670.0).contains(&measured(&small, "panel_depth")));
    }
}

#[test]
fn bought_lengths_are_the_nearest_size_s() {
    let pouch = "garment \"Ticket pouch\"\nunits cm\nallowance 1\nsizes S, L\nbody { arm 60, 64 }\npick size by arm\n\
        let long = each 20, 24\nlet zip = each 20, 24\nfabric canvas \"canvas\" { width 150 }\n\
        layer outer in canvas { front, back }\n\
        piece front \"Front\" {\n  cut 1\n  outline rectangle 20 by 15\n}\npiece back \"Back\" {\n  cut 1\n  outline rectangle 20 by 15\n}\n\
        closure mouth front.top to back.top { zipper closed ZIP }\nseam round front.right + front.bottom + front.left to back.right + back.bottom + back.left\n\
        notion \"cord end\" each 3, 5\nmeasure plain \"Plain\" = long\n";
    for zip in ["each 20, 24", "zip"] {
        let text = pouch.replace("ZIP", zip);
        let fitting = |arm: &str| {
            let fitting = format!("fitting \"Purser\" of \"pouch.fus\" {{ body {{ arm {arm} }} }}\n");
            compile(&in_memory(&[("own.fus", &fitting), ("pouch.fus", &text)]), "own.fus")
        };
        for (arm, zip, ends, long) in [("61", 200.0, 3, 210.0), ("63", 240.0, 5, 230.0)] {
            let own = fitting(arm);
            let fit = own.sizes[0].drawn.zips[0].expect("a zip");
            assert!(close(fit.zip, zip), "{arm}: {fit:?}");
            // A value of the same list that buys nothing lies between.
            let at = own.garment.values.iter().position(|value| &*value.name == "plain").expect("plain");
            let plain = own.sizes[0].drawn.values[at].and_then(|quantity| quantity.scalar());
            assert!(plain.is_some_and(|plain| close(plain, long)), "{plain:?}");
            let shown = document(&own.garment, &own.sizes, &own.map, &[]);
            let shown = serde_json::to_value(&shown.sizes[0].notions).unwrap().to_string();
            assert!(
                shown.contains(&format!("\"amount\":{ends}")) || shown.contains(&format!(":{ends}")),
                "{shown}"
            );
        }
    }
}

#[test]
fn the_second_mate_s_jacket_by_hand() {
    let mate = compile(&with_examples(""), "second-mate.fus");
    assert!(mate.diagnostics.is_empty(), "{:#?}", mate.diagnostics);
    let shown = document(&mate.garment, &mate.sizes, &mate.map, &[]);
    let value = |name: &str| serde_json::to_value(shown.sizes[0].measures[name].value).unwrap();
    // 101 cm and 30 cm of ease; the hip, 110 cm, lies a quarter from L (108) to XL (116), so that the zip
    // is that of an L, 78 cm, and the front with collar and rib as long as the zip.
    assert_eq!(value("chest_finished"), serde_json::json!(1310));
    assert_eq!(value("front_length"), serde_json::json!(780));
    let fitting = serde_json::to_value(&shown.fitting).unwrap();
    assert_eq!((&fitting["by"], &fitting["share"]), (&serde_json::json!("hip"), &serde_json::json!(0.25)));
}

#[test]
fn numbers_of_a_fitting_are_in_its_garment_s_unit() {
    let base = apron_text();
    let fitted = |text: &str| compile(&in_memory(&[("own.fus", text), ("apron.fus", &base)]), "own.fus");
    let bare = fitted("fitting \"Cook\" of \"apron.fus\" { body { waist 78; hip as S } }\n");
    assert!(close(measured(&bare, "panel_depth"), 620.0));
    // 31 in are 787.4 mm: 7.4 mm of the 100 mm from M to L.
    let inches = fitted("fitting \"Cook\" of \"apron.fus\" { body { waist 31; hip as S } }\nunits in\n");
    assert!(close(measured(&inches, "panel_depth"), 620.0 + 40.0 * 0.074));
    let mixed = fitted("fitting \"Cook\" of \"apron.fus\" { body { waist 31in; hip as S } }\n");
    assert!(close(measured(&mixed, "panel_depth"), 620.0 + 40.0 * 0.074));
}

#[test]
fn a_variation_is_fitted_and_pinned_as_a_garment_is() {
    let longer = "variation \"Longer\" of \"apron.fus\"\nset depth = each 70, 72, 76, 77\n";
    let fitting = "fitting \"Cook\" of \"longer.fus\" { body { waist 83; hip as M } }\n";
    let base = apron_text();
    let files = [("cook.fus", fitting), ("longer.fus", longer), ("apron.fus", &base)];
    let cook = compile(&in_memory(&files), "cook.fus");
    assert!(close(measured(&cook, "panel_depth"), 740.0));
    assert_eq!(&*cook.garment.title, "Longer");
    let folder = folder_of(&files);
    let pinned = run(folder.path(), &["pin", "cook.fus"]);
    assert!(pinned.status.success(), "{}", err(&pinned));
    let text = fs::read_to_string(folder.path().join("cook.fus")).expect("the fitting");
    assert!(text.starts_with("fitting \"Cook\" of \"longer.fus\" as of "), "{text}");
    fs::write(folder.path().join("longer.fus"), longer.replace("77", "78")).expect("written");
    let checked = run(folder.path(), &["check", "cook.fus"]);
    assert!(err(&checked).contains("has changed since it was pinned"), "{}", err(&checked));
}

#[test]
fn a_packed_fitting_is_one_garment_in_one_size() {
    for body in [
        "waist 83; hip as M",
        "waist as L; the rest as M",
        "waist 71.3; hip 99.9",
        "waist 140; the rest as XL",
    ] {
        let fitting = format!("fitting \"Second mate\" of \"apron.fus\" {{ body {{ {body} }} }}\n");
        let base = apron_text();
        let files = [("mate.fus", fitting.as_str()), ("apron.fus", &base)];
        let text = packed(&in_memory(&files), "mate.fus");
        let mate = compile(&in_memory(&files), "mate.fus");
        let one = compile(&in_memory(&[("one.fus", &text)]), "one.fus");
        assert!(!one.has_mistakes(), "{text}\n{:#?}", one.diagnostics);
        assert_eq!(size_text(&one, 0, "Mate"), size_text(&mate, 0, "Mate"), "{text}");
        assert!(text.contains("sizes \"Second mate\"") && !text.contains("each"), "{text}");
    }
    let folder = examples();
    let done = run(folder.path(), &["pack", "second-mate.fus", "-o", "one.fus"]);
    assert!(done.status.success(), "{}", err(&done));
    let again = run(folder.path(), &["check", "one.fus"]);
    assert!(again.status.success(), "{}", err(&again));
}

#[test]
fn every_command_takes_a_fitting() {
    let folder = examples();
    let at = folder.path();
    let done = |arguments: &[&str]| {
        let output = run(at, arguments);
        assert!(output.status.success(), "{arguments:?}: {}", err(&output));
        (out(&output), err(&output))
    };
    assert!(
        done(&["check", "second-mate.fus"])
            .1
            .contains("nothing to fix for Second mate, between L and XL by hip")
    );
    assert!(done(&["pieces", "second-mate.fus"]).0.contains("Second mate"));
    assert!(done(&["cutlist", "second-mate.fus"]).0.contains("Second mate"));
    assert!(done(&["draw", "second-mate.fus", "-o", "mate.svg"]).0.is_empty());
    let svg = fs::read_to_string(at.join("mate.svg")).expect("the drawing");
    assert!(svg.contains("for Second mate"));
    done(&["print", "second-mate.fus", "-o", "mate.pdf"]);
    done(&["export", "second-mate.fus", "--to", "dxf", "-o", "mate.dxf"]);
    assert!(done(&["materials", "second-mate.fus"]).0.contains("Second mate"));
    assert!(done(&["lay", "second-mate.fus", "--seconds", "0.1"]).0.contains("for Second mate"));
    done(&["resolve", "second-mate.fus", "-o", "mate.json", "--depfile", "mate.d"]);
    let rule = fs::read_to_string(at.join("mate.d")).expect("the rule");
    for file in ["second-mate.fus", "deck-jacket.fus", "deck-smock.fus", "crew-library.fus"] {
        assert!(rule.contains(file), "{rule}");
    }
    done(&["tidy", "--check", "second-mate.fus"]);
    // Beside the jacket the wearer's is compared with the nearest size, both ways.
    let compared = done(&["compare", "deck-jacket.fus", "second-mate.fus"]).0;
    assert!(
        compared.contains("Deck jacket, lined, size L")
            && compared.contains("Deck jacket, lined for Second mate"),
        "{compared}"
    );
    assert!(!compared.contains("sizes gone") && compared.contains("chest"), "{compared}");
    let back = done(&["compare", "second-mate.fus", "deck-jacket.fus"]).0;
    assert!(!back.contains("more sizes") && back.contains("chest"), "{back}");
}

/// By the program's own list, so that a new command is tried as well.
#[test]
fn each_command_of_the_list_takes_a_fitting() {
    let folder = examples();
    let help = out(&run(folder.path(), &["--help"]));
    let commands =
        help.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
    // What a line has no room for goes on below, further in.
    let commands = commands.filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let commands: Vec<&str> = commands.filter_map(|line| line.split_whitespace().next()).collect();
    assert!(commands.len() > 15, "{help}");
    // These read no garment of ours; the editor, and the live view, which goes on until it is stopped, have tests of
    // their own.
    let others = ["preview", "new", "bring", "explain", "editor", "schema", "completions", "manual", "help"];
    let file = "second-mate.fus";
    for command in commands.into_iter().filter(|command| !others.contains(command)) {
        let more: &[&str] = match command {
            "draw" => &["-o", "drawn.svg"],
            "print" => &["-o", "printed.pdf"],
            "export" => &["--to", "dxf", "-o", "exported.dxf"],
            "sheet" => &["--no-lays", "-o", "sheet.html"],
            "lay" => &["--seconds", "0.1"],
            "compare" => &[file],
            "tidy" => &["--check"],
            _ => &[],
        };
        let output = run(folder.path(), &[&[command, file], more].concat());
        assert!(output.status.success(), "{command}: {}", err(&output));
    }
}

#[test]
fn what_is_not_measured_may_lie_between_sizes() {
    // The waist, 83 cm, lies half way from 78 (M) to 88 (L), and so does the hip: between 98 and 106, at 102.
    let mate = apron("waist 83; the rest between sizes");
    let hip = |compiled: &Compiled| {
        let json = serde_json::to_value(document(&compiled.garment, &compiled.sizes, &compiled.map, &[]));
        json.expect("figures")["sizes"][0]["body"]["hip"].as_f64().expect("a length")
    };
    assert!(close(hip(&mate), 1020.0));
    assert!(close(hip(&apron("waist 83; hip between sizes \"as far as the waist\"")), 1020.0));
    // A size's own waist: that size's hip. Beyond the last the last one's.
    assert!(close(hip(&apron("waist as L; the rest between sizes")), 1060.0));
    assert!(close(hip(&apron("waist 120; the rest between sizes")), 1180.0));
    // The measure that decides has to be known.
    let (slug, title, places) = only(&apron("the rest between sizes"));
    assert_eq!(slug, "fitting/missing");
    assert_eq!(
        title,
        "the wearer's waist is not given, and only that says between which sizes the wearer lies"
    );
    assert_eq!(places, ["mate.fus:1", "mate.fus:1"]);
    assert_eq!(only(&apron("waist between sizes; hip between sizes")).0, "fitting/missing");
    assert_eq!(only(&apron("waist 83; the rest between sizes; the rest as M")).0, "name/declared-twice");
    assert_eq!(only(&apron("waist 83; the rest between")).0, "syntax/expected");
}

#[test]
fn a_fitting_has_a_wearer_and_one_body() {
    let of = |text: &str| {
        let base = apron_text();
        only(&compile(&in_memory(&[("own.fus", text), ("apron.fus", &base)]), "own.fus"))
    };
    let (slug, _, places) = of("fitting \"\" of \"apron.fus\" { body { waist 80; hip 99 } }\n");
    assert_eq!((slug, places), ("text/empty", vec!["own.fus:1".to_owned()]));
    let (slug, title, places) =
        of("fitting \"Cook\" of \"apron.fus\" {\n  body { waist 80 }\n  body { hip 99 }\n}\n");
    assert_eq!((slug, title.as_str()), ("name/declared-twice", "a fitting has one body"));
    assert_eq!(places, ["own.fus:3", "own.fus:2"]);
}

#[test]
fn what_is_wrong_with_a_fitting_is_told_once_at_its_place() {
    let of = |body: &str| only(&apron(body));
    let told = |body: &str, slug: &str, title: &str, places: &[&str]| {
        assert_eq!(
            of(body),
            (slug, title.to_owned(), places.iter().map(|one| (*one).to_owned()).collect()),
            "{body}"
        );
    };
    told("waist 80", "fitting/missing", "the wearer's hip is not given", &["mate.fus:1", "apron.fus:7"]);
    told(
        "",
        "fitting/missing",
        "measures of the wearer are not given: waist, hip",
        &["mate.fus:1", "apron.fus:6", "apron.fus:7"],
    );
    told(
        "waist 80; hip 99; waist 81",
        "name/declared-twice",
        "the wearer's waist is given twice",
        &["mate.fus:1", "mate.fus:1"],
    );
    told(
        "waist 80; the rest as M; the rest as L",
        "name/declared-twice",
        "the wearer's rest is given twice",
        &["mate.fus:1", "mate.fus:1"],
    );
    told(
        "waist 80; hop 99; the rest as M",
        "name/unknown",
        "there is no measure of the body called hop",
        &["mate.fus:1"],
    );
    told("waist 80; hip as XXL", "name/unknown", "there is no size called XXL", &["mate.fus:1"]);
    told(
        "waist 80; depth 61; hip as M",
        "name/unknown",
        "depth is a let, and no measure of the body",
        &["mate.fus:1", "apron.fus:10"],
    );
    told(
        "waist 120; hip as XL",
        "fitting/beyond",
        "the wearer's waist is larger than that of any size",
        &["mate.fus:1", "apron.fus:6"],
    );
    told(
        "waist as S; hip 60",
        "fitting/beyond",
        "the wearer's hip is smaller than that of any size",
        &["mate.fus:1", "apron.fus:7"],
    );
    told("waist 80°; hip as M", "unit/mixed", "this is an angle where a length is needed", &["mate.fus:1"]);
    // The last size's own values, and not beyond.
    let large = apron("waist 120; hip as XL");
    assert!(
        close(measured(&large, "panel_depth"), 670.0)
            && close(measured(&large, "panel_width"), 600.0 + 124.0)
    );
}

#[test]
fn slips_in_a_wearer_s_rows_are_told_once() {
    let of = |text: &str| {
        let base = apron_text();
        only(&compile(&in_memory(&[("own.fus", text), ("apron.fus", &base)]), "own.fus"))
    };
    let (slug, title, _) = of("fitting \"Cook\" of \"apron.fus\" {\n  waist 80\n  hip 99\n}\n");
    assert_eq!(
        (slug, title.as_str()),
        ("syntax/expected", "a wearer's measures stand in the braces of `body`")
    );
    let (slug, ..) = of("fitting \"Cook\" of \"apron.fus\" { body { waist 80; rest as M } }\n");
    assert_eq!(slug, "name/unknown");
    let (slug, ..) = of("fitting \"Cook\" of \"apron.fus\" { body { waist 80, 81; hip as M } }\n");
    assert_eq!(slug, "syntax/trailing");
    // In inches as the garment is, without a word more.
    let inches = apron_text().replace("units cm", "units in");
    let cook = "fitting \"Cook\" of \"apron.fus\" { body { waist 83; hip as M } }\n";
    let cook = compile(&in_memory(&[("own.fus", cook), ("apron.fus", &inches)]), "own.fus");
    assert!(cook.diagnostics.iter().all(|one| one.slug() != "unit/inherited"), "{:#?}", cook.diagnostics);
    assert!(close(measured(&cook, "panel_depth"), 64.0 * 25.4));
}

#[test]
fn a_fitting_leads_to_a_garment_with_a_rule() {
    let base = apron_text();
    let with_base = |fitting: &str, base: &str| {
        only(&compile(&in_memory(&[("own.fus", fitting), ("apron.fus", base)]), "own.fus"))
    };
    let fitting = "fitting \"Cook\" of \"apron.fus\" { body { waist 80; hip as M } }\n";
    let (slug, _, places) = with_base(fitting, &base.replace("pick size by larger of waist, hip\n", ""));
    assert_eq!((slug, places), ("fitting/no-rule", vec!["own.fus:1".to_owned(), "apron.fus:4".to_owned()]));
    let (slug, title, _) = with_base(fitting, &base.replace("larger of waist, hip", "depth"));
    assert_eq!(
        (slug, title.as_str()),
        ("fitting/no-rule", "a size is picked by depth, which is no measure of the body")
    );
    // Level for a while is no fall: the first size that is reached counts.
    let level = base.replace("waist 70, 78, 88, 100", "waist 70, 78, 78, 100");
    let level = compile(
        &in_memory(&[
            ("own.fus", "fitting \"Cook\" of \"apron.fus\" { body { waist 78; hip as S } }\n"),
            ("apron.fus", &level),
        ]),
        "own.fus",
    );
    assert!(close(measured(&level, "panel_depth"), 620.0));
    // A garment in one size has no places between sizes, and needs no rule.
    let one = base
        .replace("sizes S, M, L, XL\n", "")
        .replace("waist 70, 78, 88, 100", "waist 70")
        .replace("hip 90, 98, 106, 118", "hip 90");
    let one = one
        .replace("pick size by larger of waist, hip\n", "")
        .replace("each 60, 62, 66, 67", "60")
        .replace(" grade +0.8", "");
    let one = one
        .replace("each count 3, count 4, count 6, count 7", "count 3")
        .replace("each 50%, 60%, 60%, 80%", "50%");
    let one = one
        .replace("each 30°, 34°, 36°, 40°", "30°")
        .replace("each waist/2, waist/4, waist/4 + 4, hip", "hip");
    let one = compile(
        &in_memory(&[("own.fus", fitting.replace("hip as M", "hip 99").as_str()), ("apron.fus", &one)]),
        "own.fus",
    );
    assert!(one.diagnostics.is_empty(), "{:#?}", one.diagnostics);
    assert!(close(measured(&one, "panel_width"), 400.0 + 100.0));
}

#[test]
fn neither_a_fitting_nor_a_variation_is_made_of_a_fitting() {
    let base = apron_text();
    let first = "fitting \"Cook\" of \"apron.fus\" { body { waist 80; hip as M } }\n";
    for heading in [
        "fitting \"Mate\" of \"cook.fus\" { body { waist 80; hip as M } }\n",
        "variation \"Longer\" of \"cook.fus\"\n",
        "variation \"Longer\" of \"apron.fus\" with \"cook.fus\"\n",
        "variation \"Longer\" of \"apron.fus\"\nuse \"cook.fus\"\n",
    ] {
        let files = [("own.fus", heading), ("cook.fus", first), ("apron.fus", base.as_str())];
        let (slug, title, places) = only(&compile(&in_memory(&files), "own.fus"));
        assert_eq!(slug, "file/kind", "{heading}");
        assert!(title.contains("\"cook.fus\" is a fitting"), "{title}");
        assert!(places[0].starts_with("own.fus:") && places[1] == "cook.fus:1", "{places:?}");
    }
    let itself = [("own.fus", "fitting \"Mate\" of \"own.fus\" { body { waist 80 } }\n")];
    assert_eq!(only(&compile(&in_memory(&itself), "own.fus")).0, "file/kind");
}

#[test]
fn an_editor_offers_the_rows_and_sizes_of_the_garment() {
    use fustian::syntax::{Context, fitting};
    let row = fitting(Context::FittedBody, "").expect("a row");
    assert!(row.name && row.words.contains(&"the".to_owned()));
    assert!(fitting(Context::FittedBody, "hip ").is_some_and(|after| after.words.contains(&"as".to_owned())));
    assert!(fitting(Context::FittedBody, "hip as ").is_some_and(|after| after.size));
    assert!(fitting(Context::FittedBody, "the rest as ").is_some_and(|after| after.size));
}
