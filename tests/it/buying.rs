//! What to buy: cloth, thread, binding, notions and their cost.

use crate::workbench::{err, examples, folder_of, out, run};
use fustian::cutting::{Cloth, Spread};
use fustian::garment::FabricId;
use fustian::materials::{bias_length, bias_square, binding_cut, buying, buying_step, thread_per_length};
use fustian::report::DisplayUnit;
use serde_json::{Value as Json, json};

fn cloth(shrink: (f64, f64), repeat: (Option<f64>, Option<f64>)) -> Cloth {
    Cloth {
        fabric: FabricId::from_index(0),
        width: 1500.0,
        tubular: false,
        selvage: 10.0,
        shrink,
        repeat,
        one_way: false,
    }
}

/// 200 cm wanted of cloth that shrinks by 5 % are 210.53 cm before washing (shrinkage as ISO 5077
/// tells it: of the length before), sold as 2.2 m or, by eighths of a yard, as 2⅜ yd = 217.17 cm.
#[test]
fn what_shrinks_is_bought_longer() {
    let bought = buying(&cloth((0.05, 0.0), (None, None)), 2000.0, 600.0, DisplayUnit::Centimetre);
    assert!((bought.unwashed - 2_105.263_157).abs() < 1e-5, "{bought:?}");
    assert!((bought.to_buy - 2200.0).abs() < 1e-9);
    let bought = buying(&cloth((0.05, 0.0), (None, None)), 2000.0, 600.0, DisplayUnit::Inch);
    assert!((bought.to_buy - 2.375 * 914.4).abs() < 1e-9, "{bought:?}");
    // What is a whole step already stays it: 2 m.
    let bought = buying(&cloth((0.0, 0.0), (None, None)), 2000.0, 600.0, DisplayUnit::Centimetre);
    assert!((bought.to_buy - 2000.0).abs() < 1e-9);
    // By definition an eighth of a yard is 4.5 in.
    assert!((buying_step(DisplayUnit::Inch) - 4.5 * 25.4).abs() < 1e-9);
}

/// Three main lengths of 60 cm in 2 m, a repeat of 12 cm: 36 cm more. Cloth that shrinks by 10 %
/// has a repeat of 10.8 cm when it is cut.
#[test]
fn a_repeat_is_bought_for_each_main_length() {
    let bought = buying(&cloth((0.0, 0.0), (Some(120.0), None)), 2000.0, 600.0, DisplayUnit::Centimetre);
    assert!((bought.with_repeats - 2360.0).abs() < 1e-9, "{bought:?}");
    let bought = buying(&cloth((0.1, 0.0), (Some(120.0), None)), 500.0, 600.0, DisplayUnit::Centimetre);
    assert!((bought.with_repeats - 608.0).abs() < 1e-9, "at least one: {bought:?}");
    assert!((bought.unwashed - 608.0 / 0.9).abs() < 1e-9);
}

/// 150 cm with selvages of 1 cm that shrink by 2 % across: 147 − 2 = 145 cm open, 72.5 folded. A
/// tube of 50 cm is 50 wide as it lies and 100 slit open.
#[test]
fn the_usable_width() {
    let shell = cloth((0.0, 0.02), (None, None));
    assert!((shell.usable(Spread::Open) - 1450.0).abs() < 1e-9);
    assert!((shell.usable(Spread::Lengthwise) - 725.0).abs() < 1e-9);
    let tube = Cloth { width: 500.0, tubular: true, selvage: 0.0, ..cloth((0.0, 0.0), (None, None)) };
    assert!((tube.usable(Spread::Tube) - 500.0).abs() < 1e-9);
    assert!((tube.usable(Spread::Open) - 1000.0).abs() < 1e-9);
    assert_eq!(tube.folded(), Spread::Tube);
}

/// Handbook: 100 in of bias strip 3½ in wide are cut from a square of 18.71 in. A binding of
/// finished 1 cm is cut 4 cm wide (common practice).
#[test]
fn bias_strips_by_the_root_of_their_area() {
    assert!((bias_square(100.0, 3.5) - 18.71).abs() < 0.005);
    assert!((bias_length(bias_square(100.0, 3.5), 3.5) - 100.0).abs() < 1e-9);
    let cut = binding_cut(10.0, 900.0);
    assert!((cut.width - 40.0).abs() < 1e-9 && (cut.square - 36_000.0_f64.sqrt()).abs() < 1e-9);
}

/// The two worked values of the course tables: 301 with T 0.01 and S 10 takes 2.2 in, 101 with
/// T 0.005 and S 9 takes 3.09 in. The others by hand from the published equations.
#[test]
fn thread_by_the_published_equations() {
    for (stitch, t, s, w, thread) in [
        (301, 0.01, 10.0, 0.0, 2.2),
        (101, 0.005, 9.0, 0.0, 3.09),
        (401, 0.01, 10.0, 0.0, 4.2),
        (504, 0.02, 10.0, 0.2, 13.8),
        (514, 0.02, 10.0, 0.2, 14.2),
        (516, 0.02, 10.0, 0.2, 18.2),
        (406, 0.02, 10.0, 0.25, 12.4),
    ] {
        let found = thread_per_length(stitch, t, s, w).unwrap();
        assert!((found - thread).abs() < 1e-9, "{stitch}: {found}");
    }
    assert_eq!(thread_per_length(304, 0.01, 10.0, 0.2), None, "no equation is published");
}

const PENNANT: &str = "\
garment \"Signal pennant\"
units cm
allowance 1
fabric bunting \"bunting\" { width 100;  thickness 1mm;  shrink 5% along;  price 12 crowns per m }
layer outer in bunting { near, far }
piece near \"Near\" {
  cut 1
  outline rectangle 98 by 50
}
piece far \"Far\" {
  cut 1
  outline rectangle 98 by 50
}
seam top  near.top to far.top { matching near.top_left with far.top_left }
seam side  near.left to far.left { stitch 602;  matching near.top_left with far.top_left }
finish near.bottom, far.bottom  bound 1
finish near.right, far.right  overlocked
notion \"toggle\" 2  price 0.75 crowns each
notion \"halyard\" 3m  price 2 crowns per m
notion \"badge\" 1
";

/// By hand. Each piece is cut 100 × 51 cm (a bound edge has no allowance) on 100 cm of cloth: one
/// behind the other 102 cm, 107.37 before washing, 1.1 m: 13.20. Toggles 1.50, halyard 6.
///
/// Thread: the seam of 98 cm through 2 mm, T = 2/25.4 in, S = 10: 2 + 20/12.7 = 3.5748; bound edges
/// 2 × 98 cm, twice round, through 4 mm: 2 + 20 · 4/25.4 = 5.1496; together
/// (98 · 3.5748 + 392 · 5.1496) · 1.15 = 2724.3 cm. Overlocked 2 × 50 cm through 1 mm, 5 mm wide:
/// 5 + 40 · 6/25.4 = 14.4488; · 100 · 1.15 = 1661.6 cm. For 602 no equation is published.
#[test]
fn a_pennant_by_hand() {
    let folder = folder_of(&[("pennant.fus", PENNANT)]);
    let output = run(folder.path(), &["materials", "pennant.fus", "--format", "json"]);
    assert!(output.status.success(), "{}", err(&output));
    let told: Json = serde_json::from_slice(&output.stdout).unwrap();
    let needs = told["sizes"].as_object().unwrap().values().next().unwrap();
    let cloth = &needs["cloths"][0];
    assert!((cloth["length"].as_f64().unwrap() - 1020.0).abs() < 0.02, "{cloth}");
    assert_eq!(cloth["buy"]["to_buy"], 1100);
    assert!((cloth["buy"]["before_washing"].as_f64().unwrap() - 1073.68).abs() < 0.03);
    assert_eq!(cloth["cost"], json!({ "amount": 13.2, "currency": "crowns" }));
    assert_eq!(needs["total"], json!([{ "amount": 20.7, "currency": "crowns" }]));
    assert_eq!(needs["unpriced"], json!(["binding, finished 1 cm wide", "badge"]));
    let thread = needs["thread"].as_array().unwrap();
    let of = |stitch: u64| thread.iter().find(|row| row["stitch"] == stitch).unwrap();
    assert!((of(301)["thread"].as_f64().unwrap() - 27_243.0).abs() < 2.0, "{}", of(301));
    assert!((of(504)["thread"].as_f64().unwrap() - 16_616.0).abs() < 2.0, "{}", of(504));
    assert_eq!(of(602)["sewn"], 500);
    assert!(of(602).get("thread").is_none());
    let binding = &needs["notions"].as_array().unwrap()[0];
    // Two edges of 98 cm, strips 4 cm wide: a square of √(196 · 4) = 28 cm.
    assert_eq!(binding["cut"], json!({ "width": 40, "length": 1960, "square": 280 }));
    let text = out(&run(folder.path(), &["materials", "pennant.fus"]));
    for line in [
        "bunting   100 cm   open   1.1 m",
        "together   20.70 crowns",
        "without a price, and not in the cost: binding, finished 1 cm wide, badge, thread",
    ] {
        assert!(text.contains(line), "{line}\n{text}");
    }
}

/// Prices in two currencies are never added to one another.
#[test]
fn currencies_are_summed_apart() {
    let text = PENNANT.replace("0.75 crowns", "0.75 shells");
    let folder = folder_of(&[("pennant.fus", &text)]);
    let output = run(folder.path(), &["materials", "pennant.fus", "--format", "json"]);
    let told: Json = serde_json::from_slice(&output.stdout).unwrap();
    let needs = told["sizes"].as_object().unwrap().values().next().unwrap();
    let expected = json!([{ "amount": 19.2, "currency": "crowns" }, { "amount": 1.5, "currency": "shells" }]);
    assert_eq!(needs["total"], expected);
}

/// The table of an envelope: one row a cloth and width, one column a size; what does not fit is
/// said and why, and there is no cost, since a price is for cloth of its own width.
#[test]
fn other_widths_make_the_table_of_an_envelope() {
    let folder = examples();
    let arguments = ["materials", "deck-smock.fus", "--widths", "55,90,45in", "--size", "S", "--size", "2XL"];
    let output = run(folder.path(), &arguments);
    assert!(output.status.success(), "{}", err(&output));
    let text = out(&output);
    assert!(text.contains("dry-waxed cotton   114.3 cm   "), "{text}");
    let narrow = text.lines().find(|line| line.starts_with("dry-waxed cotton   55 cm")).unwrap();
    assert_eq!(narrow.matches("too narrow").count(), 2, "{narrow}");
    assert!(
        text.contains("Back (outer.back, S) needs") || text.contains("Front (outer.front, S) needs"),
        "{text}"
    );
    assert!(!text.contains("together"), "{text}");
}

#[test]
fn materials_in_every_form() {
    let folder = folder_of(&[("pennant.fus", PENNANT)]);
    let csv = out(&run(folder.path(), &["materials", "pennant.fus", "--format", "csv"]));
    let heading = "size,kind,code,label,count,width,length,unit,cost,currency,trouble\r\n";
    assert!(csv.starts_with(heading), "{csv}");
    assert!(csv.contains(",cloth,bunting,bunting,,100,110,cm,13.2,crowns,\r\n"), "{csv}");
    assert!(csv.contains(",notion,,toggle,2,,,cm,1.5,crowns,\r\n"), "{csv}");
    let markdown = out(&run(folder.path(), &["materials", "pennant.fus", "--format", "markdown"]));
    // In inches: the cloth that was 100 cm wide is 39.37 in (an inch is 2.54 cm).
    let folder = folder_of(&[(
        "pennant.fus",
        &PENNANT
            .replace("units cm", "units in")
            .replace("width 100", "width 39.37")
            .replace("98 by 50", "36 by 20"),
    )]);
    let csv = out(&run(folder.path(), &["materials", "pennant.fus", "--format", "csv"]));
    assert!(
        csv.contains(",39.37,") && csv.contains(",in,") && !csv.contains(",mm,") && !csv.contains(",cm,"),
        "{csv}"
    );
    assert!(markdown.starts_with("# Signal pennant: to buy\n\n## Cloth\n\n| cloth "), "{markdown}");
}

/// With `units in` cloth is sold by eighths of a yard: 40.16 in of 39 in cloth, 42.27 before
/// washing, are 10 eighths of 4.5 in.
#[test]
fn yards_where_the_maker_thinks_in_inches() {
    let text = PENNANT.replace("units cm", "units in").replace("allowance 1\n", "allowance 1cm\n");
    let text = text
        .replace("width 100", "width 100cm")
        .replace("98 by 50", "98cm by 50cm")
        .replace("bound 1\n", "bound 1cm\n");
    let folder = folder_of(&[("pennant.fus", &text)]);
    let output = run(folder.path(), &["materials", "pennant.fus"]);
    assert!(out(&output).contains("1 1/4 yd"), "{}{}", out(&output), err(&output));
}
