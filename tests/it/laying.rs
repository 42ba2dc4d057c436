//! Garments laid on cloth: every lay is looked over again with `geo`, and what lies where is what
//! a cutter would accept.

use crate::workbench::{err, examples, fustian, other, out, run};
use fustian::cutting::{Spread, WorkedSize};
use fustian::lay::Allowance;
use fustian::materials::{GarmentLay, LayOrder, LayTrouble, Plies, buying, cloths_of, lay_garment};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use geo::{Area, BooleanOps, BoundingRect, Buffer, Coord, Intersects, LineString, MultiPolygon, Polygon};
use std::fs;
use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

/// An example as a compiled garment.
fn example(name: &str) -> Compiled {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_name().unwrap().to_str().unwrap();
            loader = loader.with(name, fs::read_to_string(&path).unwrap());
        }
    }
    compile(&loader, name)
}

fn made(text: &str) -> Compiled {
    let loader = MemoryLoader::new().with("made.fus", text);
    let compiled = compile(&loader, "made.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    compiled
}

/// The lay of that cloth, looked over; or why there is none.
fn lay(
    compiled: &Compiled,
    sizes: &[&WorkedSize],
    fabric: &str,
    order: LayOrder,
) -> Result<GarmentLay, LayTrouble> {
    let garment = &compiled.garment;
    let cloths = cloths_of(garment, sizes);
    let fabric = *cloths.iter().find(|&&cloth| *garment.fabric(cloth).name == *fabric).expect("the cloth");
    let lay = lay_garment(garment, sizes, fabric, order, &mut |_| {})?;
    look_over(&lay, order.space);
    Ok(lay)
}

/// Nothing lies over another piece or over the edge of the cloth by more than 0.01 mm, as `geo`
/// sees it.
fn look_over(lay: &GarmentLay, space: f64) {
    let drawn: Vec<MultiPolygon> = lay
        .parts
        .iter()
        .map(|part| {
            let ring: Vec<Coord> = part.outline.iter().map(|p| Coord { x: p.x, y: p.y }).collect();
            let polygon = Polygon::new(LineString::from(ring), Vec::new());
            let bounds = polygon.bounding_rect().expect("bounds");
            assert!(bounds.min().x > -0.01 && bounds.min().y > -0.01, "off the cloth: {bounds:?}");
            assert!(bounds.max().x < lay.length + 0.01 && bounds.max().y < lay.width + 0.01);
            polygon.buffer(if space > 0.0 { (space - 0.01) / 2.0 } else { -0.005 })
        })
        .collect();
    for (index, a) in drawn.iter().enumerate() {
        for b in &drawn[index + 1..] {
            let near = a.bounding_rect().zip(b.bounding_rect()).is_some_and(|(a, b)| a.intersects(&b));
            assert!(!near || a.intersection(b).unsigned_area() < 1e-6, "two pieces overlap");
        }
    }
}

fn open() -> LayOrder<'static> {
    LayOrder { spread: Some(Spread::Open), ..LayOrder::default() }
}

fn folded() -> LayOrder<'static> {
    LayOrder { spread: Some(Spread::Lengthwise), ..LayOrder::default() }
}

/// The smallest and the largest size of every example on each of its cloths, open and folded: all
/// copies are there, and the folded cloth yields as many as the open one.
#[test]
fn every_example_lies_on_its_cloths() {
    let names =
        ["deck-smock", "deck-jacket", "galley-apron", "mess-skirt", "oilskin-trousers", "mess-jacket"];
    let mut laid = 0;
    for name in names {
        let compiled = example(&format!("{name}.fus"));
        for size in [0, compiled.sizes.len() - 1] {
            let sizes = [&compiled.sizes[size]];
            for fabric in cloths_of(&compiled.garment, &sizes) {
                let cloth = compiled.garment.fabric(fabric).name.to_string();
                let parts = compiled.sizes[size]
                    .cut(&compiled.garment)
                    .parts
                    .iter()
                    .filter(|part| part.fabric == Some(fabric));
                let copies: usize = parts.map(|part| part.copies as usize).sum();
                for order in [open(), folded()] {
                    let lay = match lay(&compiled, &sizes, &cloth, order) {
                        Ok(lay) => lay,
                        Err(LayTrouble::TooWide { .. }) if order.spread != Some(Spread::Open) => continue,
                        Err(trouble) => panic!("{name}: {trouble}"),
                    };
                    let yielded = |plies: Plies| if plies == Plies::Both { 2 } else { 1 };
                    assert_eq!(
                        lay.parts.iter().map(|p| yielded(p.plies)).sum::<usize>(),
                        copies,
                        "{name} {cloth}"
                    );
                    assert!(lay.usage > 0.03 && lay.usage <= 1.0, "{name} {cloth}: {}", lay.usage);
                    laid += 1;
                }
            }
        }
    }
    assert!(laid > 20, "{laid}");
}

/// Halves on the fold lie against it; on open cloth they are whole and need the whole width.
#[test]
fn halves_lie_against_the_fold() {
    let compiled = example("deck-smock.fus");
    let sizes = [&compiled.sizes[2]];
    let folded = lay(&compiled, &sizes, "shell", folded()).unwrap();
    let halves: Vec<_> = folded.parts.iter().filter(|part| part.plies == Plies::OnFold).collect();
    assert_eq!(halves.len(), 2);
    for half in halves {
        assert!(half.bounds().0.y.abs() < 1e-6, "{:?}", half.bounds());
    }
    // Sleeves and pockets are cut in pairs from both plies, the collar from one.
    assert_eq!(folded.parts.iter().filter(|part| part.plies == Plies::Both).count(), 2);
    assert_eq!(folded.parts.iter().filter(|part| part.plies == Plies::OneOfTwo).count(), 1);
    let open = lay(&compiled, &sizes, "shell", open()).unwrap();
    assert!(open.parts.iter().all(|part| part.plies == Plies::Single));
    assert_eq!(open.parts.iter().filter(|part| part.mirrored).count(), 2, "a left one of each pair");
}

const NAP: &str = "garment \"Deck cape\"\nunits cm\nallowance 1\n\
    fabric fleece \"fleece\" { width 150;  nap one-way }\n\
    fabric twill \"twill\" { width 150;  nap none }\n\
    layer outer in fleece { front }\nlayer lining in twill { front }\n\
    piece front \"Front\" {\n  cut 4 mirrored\n  outline from a {\n    hem to b\n    side to c\n    top to d\n    centre to a\n  }\n\
      point a = (0, 0)\n  point b = (60, 0)\n  point c = (30, 70)\n  point d = (0, 70)\n}\n\
    finish front.hem, front.side, front.top, front.centre  hem 1\n";

/// With nap all tops lie the same way: drawn upright, each is turned by the same quarter. Without
/// it, wedges lie best head to foot.
#[test]
fn nap_is_obeyed() {
    let compiled = made(NAP);
    let sizes = [&compiled.sizes[0]];
    for part in &lay(&compiled, &sizes, "fleece", open()).unwrap().parts {
        assert!((part.degrees - 270.0).abs() < 1e-9, "{}", part.degrees);
    }
    let ways: Vec<f64> =
        lay(&compiled, &sizes, "twill", open()).unwrap().parts.iter().map(|part| part.degrees).collect();
    assert!(ways.iter().all(|way| [90.0, 270.0].contains(way)), "{ways:?}");
    assert!(ways.contains(&90.0) && ways.contains(&270.0), "{ways:?}");
}

/// A strip cut on the bias lies at 45°: 60 × 6 cm, with 1 cm all round 62 × 8, is
/// (62 + 8)/√2 = 49.5 cm long and wide.
#[test]
fn the_bias_lies_at_45_degrees() {
    let compiled = made(
        "garment \"Binding\"\nunits cm\nallowance 1\nfabric twill \"twill\" { width 150 }\n\
         layer outer in twill { strip }\n\
         piece strip \"Strip\" {\n  cut 1\n  grain bias\n  outline rectangle 6 by 60\n}\n\
         finish strip.left, strip.right, strip.top, strip.bottom  overlocked\n",
    );
    let lay = lay(&compiled, &[&compiled.sizes[0]], "twill", open()).unwrap();
    assert!((lay.parts[0].degrees % 90.0 - 45.0).abs() < 1e-9, "{}", lay.parts[0].degrees);
    let expected = 700.0 / 2.0_f64.sqrt();
    assert!((lay.length - expected).abs() < 0.02, "{} for {expected}", lay.length);
    let (low, high) = lay.parts[0].bounds();
    assert!((high.y - low.y - expected).abs() < 0.02);
}

/// `grain across` lies with its x along the cloth.
#[test]
fn grain_across_lies_across() {
    let compiled = made(
        "garment \"Apron string\"\nunits cm\nallowance 1\nfabric twill \"twill\" { width 150 }\n\
         layer outer in twill { strip }\n\
         piece strip \"Strip\" {\n  cut 1\n  grain across\n  outline rectangle 90 by 6\n}\n\
         finish strip.left, strip.right, strip.top, strip.bottom  overlocked\n",
    );
    let lay = lay(&compiled, &[&compiled.sizes[0]], "twill", open()).unwrap();
    assert!((lay.length - 920.0).abs() < 0.02, "{}", lay.length);
}

/// Two pieces of 62 cm one behind the other on cloth for one, a design that repeats every 12 cm:
/// by hand, the bottom of the second comes to lie on the next whole repeat, at 72 cm, and the lay
/// is 134 cm; without a design it is 124 cm.
#[test]
fn corners_that_are_sewn_together_lie_on_the_same_place_of_the_repeat() {
    let text = |repeat: &str| {
        format!(
            "garment \"Mess tabard\"\nunits cm\nallowance 1\n\
             fabric check \"check\" {{ width 60;  nap none;  {repeat} }}\n\
             layer outer in check {{ front, back }}\n\
             piece front \"Front\" {{\n  cut 1\n  outline rectangle 50 by 60\n}}\n\
             piece back \"Back\" {{\n  cut 1\n  outline rectangle 48 by 60\n}}\n\
             seam side  front.right to back.left {{ matching front.bottom_right with back.bottom_left }}\n\
             finish front.left, front.top, front.bottom, back.right, back.top, back.bottom  overlocked\n"
        )
    };
    let plain = made(&text("shrink 0% along"));
    let plain = lay(&plain, &[&plain.sizes[0]], "check", open()).unwrap();
    assert!((plain.length - 1240.0).abs() < 0.02, "{}", plain.length);
    let checked = made(&text("repeat 12 along"));
    let lay = lay(&checked, &[&checked.sizes[0]], "check", open()).unwrap();
    assert!((lay.length - 1340.0).abs() < 0.02, "{}", lay.length);
    let begins: Vec<f64> = lay.parts.iter().map(|part| part.bounds().0.x).collect();
    let apart = (begins[1] - begins[0]) / 120.0;
    assert!((apart - apart.round()).abs() < 1e-4, "{begins:?}");
    // At least one repeat is bought for each main length: two here. 134 + 24 = 158, sold as 1.6 m.
    let bought = buying(&lay.cloth, lay.length, lay.main_length, checked.garment.unit);
    assert!((bought.with_repeats - 1580.0).abs() < 0.03, "{bought:?}");
    assert!((bought.to_buy - 1600.0).abs() < 1e-9);
}

/// On cloth 80 cm wide with a design that repeats every 8 cm across, the centre fronts of a
/// mirrored pair and the middle of the back lie on the middle of the design.
#[test]
fn centre_lines_lie_on_the_middle_of_the_design() {
    let compiled = made(
        "garment \"Mess vest\"\nunits cm\nallowance 0\n\
         fabric check \"check\" { width 150;  nap one-way;  repeat 12 along, 8 across }\n\
         layer outer in check { front, back }\n\
         piece front \"Front\" {\n  cut 2 mirrored\n  outline rectangle 27 by 60\n}\n\
         piece back \"Back\" {\n  cut 1 on fold left\n  outline rectangle 25 by 60\n}\n\
         seam side  front.right to back.right { stitch zigzag; matching front.bottom_right with back.bottom_right }\n\
         closure front_zip  front.left to front.left { zipper separating 60 }\n\
         finish front.top, front.bottom, back.top, back.bottom  raw\n",
    );
    let lay = lay(&compiled, &[&compiled.sizes[0]], "check", open()).unwrap();
    assert_eq!(lay.parts.len(), 3);
    for part in &lay.parts {
        let (low, high) = part.bounds();
        // The front's centre is its left edge, at the upper side once its top lies ahead; of the
        // mirrored one at the lower side. The back's is its middle.
        let is_back = high.y - low.y > 400.0;
        let centre = match (is_back, part.mirrored) {
            (true, _) => (low.y + high.y) / 2.0,
            (false, false) => high.y,
            (false, true) => low.y,
        };
        let off = (centre / 80.0 - (centre / 80.0).round()).abs() * 80.0;
        assert!(off < 0.01, "{centre} is off the middle by {off}");
    }
}

/// A tube has a fold at each side: two halves of 24 cm lie against both on a tube of 50 cm.
#[test]
fn a_tube_has_two_folds() {
    let compiled = made(
        "garment \"Knit vest\"\nunits cm\nallowance 0\n\
         fabric rib \"rib\" { width 50 tubular;  nap none }\n\
         layer outer in rib { front, back }\n\
         piece front \"Front\" {\n  cut 1 on fold left\n  outline rectangle 24 by 60\n}\n\
         piece back \"Back\" {\n  cut 1 on fold left\n  outline rectangle 24 by 60\n}\n\
         seam side  front.right to back.right { stitch zigzag; matching front.bottom_right with back.bottom_right }\n\
         finish front.top, front.bottom, back.top, back.bottom  raw\n",
    );
    let order = LayOrder { spread: Some(Spread::Tube), ..LayOrder::default() };
    let lay = lay(&compiled, &[&compiled.sizes[0]], "rib", order).unwrap();
    assert!((lay.length - 600.0).abs() < 0.02, "{}", lay.length);
    let sides: Vec<f64> = lay.parts.iter().map(|part| part.bounds().0.y).collect();
    assert!(
        sides.iter().any(|y| y.abs() < 0.01) && sides.iter().any(|y| (y - 260.0).abs() < 0.01),
        "{sides:?}"
    );
}

/// A wider cloth never needs more than 1 % more, and two garments never more than twice one and
/// 1 %.
#[test]
fn width_and_number_behave_as_cloth_does() {
    let compiled = example("deck-smock.fus");
    let one = &compiled.sizes[2];
    let mut before = f64::INFINITY;
    for width in [900.0, 1150.0, 1400.0, 1500.0, 1600.0] {
        let order = LayOrder { width: Some(width), ..LayOrder::default() };
        let lay = lay(&compiled, &[one], "shell", order).unwrap();
        assert!(lay.length <= before * 1.01, "{width} mm wide needs {} after {before}", lay.length);
        before = lay.length;
    }
    for order in [open(), folded()] {
        let single = lay(&compiled, &[one], "shell", order).unwrap();
        let double = lay(&compiled, &[one, one], "shell", order).unwrap();
        assert_eq!(double.parts.len(), 2 * single.parts.len());
        assert!(
            double.length <= 2.02 * single.length,
            "{} for two, {} for one",
            double.length,
            single.length
        );
    }
}

#[test]
fn the_space_between_pieces_is_kept() {
    let compiled = example("deck-smock.fus");
    let order = LayOrder { space: 8.0, ..open() };
    lay(&compiled, &[&compiled.sizes[2]], "shell", order).unwrap();
}

/// The fabric-width conversion chart of the Cooperative Extension Service, widely reprinted on
/// pattern envelopes (attribution from memory): yards at 35–36, 44–45, 52–54 and 58–60 in.
const CHART: [[f64; 4]; 12] = [
    [1.75, 1.375, 1.125, 1.0],
    [2.0, 1.625, 1.375, 1.25],
    [2.25, 1.75, 1.5, 1.375],
    [2.5, 2.125, 1.75, 1.625],
    [2.875, 2.25, 1.875, 1.75],
    [3.125, 2.5, 2.0, 1.875],
    [3.375, 2.75, 2.25, 2.0],
    [3.75, 2.875, 2.375, 2.25],
    [4.25, 3.125, 2.625, 2.375],
    [4.5, 3.375, 2.75, 2.625],
    [4.75, 3.625, 2.875, 2.75],
    [5.0, 3.875, 3.125, 2.875],
];

/// What the chart gives for the other widths where 60 in, the cloth's own width, need so much,
/// between its rows.
fn charted(at_60: f64) -> [f64; 4] {
    let upper = CHART.iter().position(|row| row[3] >= at_60).unwrap_or(CHART.len() - 1).max(1);
    let (low, high) = (CHART[upper - 1], CHART[upper]);
    let share = (at_60 - low[3]) / (high[3] - low[3]);
    std::array::from_fn(|at| low[at] + share * (high[at] - low[at]))
}

/// Smock and jacket at 36, 45, 54 and 60 in follow the chart within 15 %, or by the chart's own
/// rule within ¼ yd: "add ¼ yd where widths differ much or the cloth runs one way".
#[test]
fn widths_convert_as_the_chart_says() {
    const YARD: f64 = 914.4;
    for (name, fabric) in
        [("deck-smock.fus", "shell"), ("deck-jacket.fus", "shell"), ("deck-jacket.fus", "fleece")]
    {
        let compiled = example(name);
        let sizes = [&compiled.sizes[2]];
        let lengths = [36.0, 45.0, 54.0, 60.0].map(|inches| {
            let order = LayOrder { width: Some(inches * 25.4), ..LayOrder::default() };
            lay(&compiled, &sizes, fabric, order).unwrap().length / YARD
        });
        let expected = charted(lengths[3]);
        for (length, expected) in lengths.iter().zip(expected) {
            let off = (length - expected).abs();
            assert!(
                off <= 0.15 * expected || off <= 0.25,
                "{name} {fabric}: {lengths:?} yd, the chart says {expected} for {length}"
            );
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_one_thread_or_two() {
    let folder = examples();
    let laid = |threads: &str, seed: &str| {
        let mut command = fustian(folder.path());
        command.args(["lay", "deck-jacket.fus", "--size", "M", "--format", "json", "--seed", seed]);
        let output = command.env("RAYON_NUM_THREADS", threads).output().unwrap();
        assert!(output.status.success(), "{}", err(&output));
        output.stdout
    };
    let first = laid("1", "1");
    assert!(first == laid("2", "1"), "threads change nothing");
    assert!(first == laid("2", "1"), "nor does another run");
    assert!(first != laid("2", "7"), "another seed begins elsewhere");
}

/// 75 cm on the fold, both sides with 1 cm allowance: 152 cm opened out on 150 cm, 2 cm too much;
/// without the fold's allowance 76 cm on folded 75 cm, 1 cm too much.
#[test]
fn what_is_too_wide_is_told_with_the_amount_and_the_way_out() {
    let text = |width: u32, half: u32| {
        format!(
            "garment \"Awning\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width {width} }}\n\
             layer outer in canvas {{ awning }}\n\
             piece awning \"Awning\" {{\n  cut 1 on fold left\n  outline rectangle {half} by 200\n}}\n\
             finish awning.top, awning.right, awning.bottom  hem 2\n"
        )
    };
    // The hem of 2 cm: the half is 74 cm wide on 73 cm of folded cloth; opened out 148 on 146.
    let compiled = made(&text(148, 72));
    let sizes = [&compiled.sizes[0]];
    let narrower = LayOrder { width: Some(1460.0), ..folded() };
    let told = lay(&compiled, &sizes, "canvas", narrower).unwrap_err().to_string();
    assert_eq!(
        told,
        "Awning (outer.awning) needs 74 cm across and canvas has 73 cm when it is folded: 1 cm too \
         little; give awning a seam, or take a cloth at least 148 cm wide"
    );
    let narrower = LayOrder { width: Some(1460.0), ..open() };
    let told = lay(&compiled, &sizes, "canvas", narrower).unwrap_err().to_string();
    assert_eq!(
        told,
        "Awning (outer.awning) needs 148 cm across and canvas has 146 cm between its selvages: 2 cm \
         too little; give awning a seam, or take a cloth at least 148 cm wide"
    );
    let nothing = LayOrder { width: Some(0.0), ..open() };
    let told = lay(&compiled, &sizes, "canvas", nothing).unwrap_err().to_string();
    assert_eq!(told, "canvas has no width to lay on: 0 cm less its selvages");
}

/// A single piece that folded cloth cannot hold, but open cloth can: the way out is to lay it open,
/// and without `--fold` that is what is done.
#[test]
fn folded_cloth_that_is_too_narrow_is_laid_open() {
    let folder = examples();
    let output = run(
        folder.path(),
        &["lay", "deck-smock.fus", "--size", "2XL", "--fabric", "rib", "--fold", "lengthwise"],
    );
    assert_eq!(output.status.code(), Some(2));
    let told = err(&output);
    assert!(
        told.contains("Hem band (knit.hem_band, 2XL) needs")
            && told.contains("lay the cloth open (--fold open)"),
        "{told}"
    );
    assert!(!told.contains("--fabric"), "{told}");
    let output = run(folder.path(), &["lay", "deck-smock.fus", "--size", "2XL", "--fold", "lengthwise"]);
    assert!(err(&output).ends_with("; --fabric NAME lays each cloth its own way\n"), "{}", err(&output));
    let output = run(folder.path(), &["lay", "deck-smock.fus", "--size", "2XL", "--fabric", "rib"]);
    assert!(output.status.success() && out(&output).contains("\nopen, 140 cm across"), "{}", out(&output));
}

#[test]
fn a_fabric_that_is_not_there_is_told_with_those_that_are() {
    let folder = examples();
    let output = run(folder.path(), &["lay", "deck-jacket.fus", "--fabric", "fleeze"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(
        err(&output),
        "fustian: nothing is cut from a fabric \"fleeze\" here, but from shell, fleece, rib; did you mean fleece?\n"
    );
    assert!(output.stdout.is_empty());
}

#[test]
fn a_width_of_nothing_and_odd_numbers_are_told() {
    let folder = examples();
    let apron = fs::read_to_string(folder.path().join("galley-apron.fus")).unwrap();
    fs::write(folder.path().join("flat.fus"), apron.replace("width 150", "width 0")).unwrap();
    let output = run(folder.path(), &["lay", "flat.fus"]);
    assert!(matches!(output.status.code(), Some(1 | 2)), "{}", err(&output));
    assert!(!err(&output).is_empty() && !err(&output).contains("panicked"), "{}", err(&output));
    for arguments in [
        &["lay", "galley-apron.fus", "--space", "wide"][..],
        &["lay", "galley-apron.fus", "--space", "-3mm"],
        &["lay", "galley-apron.fus", "--seconds", "0"],
        &["lay", "galley-apron.fus", "--seconds", "nan"],
        &["lay", "galley-apron.fus", "--fold", "sideways"],
        &["materials", "galley-apron.fus", "--widths", "90,x"],
        &["materials", "galley-apron.fus", "--widths", "90,0"],
        &["lay", "galley-apron.fus", "--svg", "nowhere/lay.svg"],
    ] {
        let output = run(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(output.stdout.is_empty() && !err(&output).is_empty(), "{arguments:?}");
    }
}

/// 500 copies: the work is bounded, and nothing is left out.
#[test]
fn five_hundred_parts_are_laid_in_bounded_time() {
    let compiled = made(
        "garment \"Signal flags\"\nunits cm\nallowance 1\nfabric bunting \"bunting\" { width 150 }\n\
         layer outer in bunting { flag, pennant }\n\
         piece flag \"Flag\" {\n  cut 300\n  outline rectangle 20 by 15\n}\n\
         piece pennant \"Pennant\" {\n  cut 200\n  outline from a {\n    hoist to b\n    upper to c\n    lower to a\n  }\n\
           point a = (0, 0)\n  point b = (0, 16)\n  point c = (30, 8)\n}\n\
         finish flag.left, flag.top, flag.right, flag.bottom, pennant.hoist, pennant.upper, pennant.lower  raw\n",
    );
    let start = Instant::now();
    let mut heard = 0;
    let garment = &compiled.garment;
    let sizes = [&compiled.sizes[0]];
    let fabric = cloths_of(garment, &sizes)[0];
    let lay = lay_garment(garment, &sizes, fabric, open(), &mut |_| heard += 1).unwrap();
    look_over(&lay, 0.0);
    assert_eq!(lay.parts.len(), 500);
    assert!(heard > 0, "progress is told");
    assert!(start.elapsed() < Duration::from_secs(120), "{:?}", start.elapsed());
}

/// What is searched for a time ends in time, at an interrupt too, with a whole result.
#[cfg(unix)]
#[test]
fn an_interrupt_ends_the_search_with_the_best_lay_so_far() {
    let folder = examples();
    let mut command = fustian(folder.path());
    command.args([
        "lay",
        "deck-smock.fus",
        "--size",
        "M,L",
        "--fabric",
        "shell",
        "--fold",
        "open",
        "--seconds",
        "300",
    ]);
    let start = Instant::now();
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    std::thread::sleep(Duration::from_secs(4));
    other(folder.path(), "kill", &["-INT", &child.id().to_string()]);
    let output = child.wait_with_output().unwrap();
    assert!(start.elapsed() < Duration::from_secs(60), "{:?}", start.elapsed());
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    assert!(out(&output).contains("shell: dry-waxed cotton, sizes M, L\nopen"), "{}", out(&output));
    let timed = run(folder.path(), &["lay", "galley-apron.fus", "--seconds", "0.5", "--format", "json"]);
    assert_eq!(timed.status.code(), Some(0), "{}", err(&timed));
}

/// With time as without it a lay comes out, and a sound one (`lay` looks each over); that of some time is no longer.
#[test]
fn a_lay_searched_for_a_time_is_sound() {
    let compiled = example("mess-jacket.fus");
    let start = Instant::now();
    let spent = || start.elapsed().as_secs_f64() / 0.5;
    let order = LayOrder { allowance: Allowance::Until(&spent), threads: 2, ..LayOrder::default() };
    let none = LayOrder { allowance: Allowance::Until(&|| 1.0), ..order };
    let sizes = [&compiled.sizes[3]];
    let long = lay(&compiled, &sizes, "serge", order).unwrap();
    let short = lay(&compiled, &sizes, "serge", none).unwrap();
    assert!(long.length <= short.length + 1e-6, "{} after {}", long.length, short.length);
}

/// Three cloths in six sizes are 18 lays, and a bag of rectangles in two sizes two: with their time each for itself they
/// would take 18 times as long, and twice.
#[test]
fn a_time_is_that_of_all_cloths_together() {
    let folder = examples();
    for (garment, seconds, lays) in [("ticket-bag.fus", 12, 2), ("deck-jacket.fus", 2, 18)] {
        let start = Instant::now();
        let output = run(folder.path(), &["lay", garment, "--seconds", &seconds.to_string()]);
        assert!(start.elapsed() < Duration::from_secs(20), "{garment} took {:?}", start.elapsed());
        let text = out(&output);
        assert_eq!(
            text.lines().filter(|line| line.trim_start().starts_with("length")).count(),
            lays,
            "{text}"
        );
    }
}

/// The drawing is read back by `usvg`: cloth, fold, scale and one outline a place, at a tenth.
#[test]
fn the_lay_is_drawn() {
    let folder = examples();
    let arguments = [
        "lay",
        "deck-jacket.fus",
        "--size",
        "M",
        "--fold",
        "lengthwise",
        "--fabric",
        "fleece",
        "--svg",
        "lay.svg",
    ];
    let output = run(folder.path(), &arguments);
    assert!(output.status.success(), "{}", err(&output));
    let text = fs::read_to_string(folder.path().join("lay.svg")).unwrap();
    let tree = usvg::Tree::from_str(&text, &usvg::Options::default()).unwrap();
    assert!(tree.size().width() > 100.0);
    for (what, times) in [
        ("<title>lining.front laid</title>", 1),
        ("<title>lining.back laid</title>", 1),
        ("<title>lining.sleeve laid</title>", 1),
        ("<title>length scale</title>", 1),
        ("<title>nap</title>", 1),
        ("aria-label=\"fold\"", 1),
        ("aria-label=\"selvage\"", 1),
        ("aria-label=\"on the fold\"", 1),
        ("aria-label=\"both plies\"", 2),
    ] {
        assert_eq!(text.matches(what).count(), times, "{what}");
    }
}

#[test]
fn lays_and_materials_are_of_the_form_that_their_schemas_say() {
    use fustian::emit::{Schemas, schema};
    let folder = examples();
    let read = |arguments: &[&str]| -> serde_json::Value {
        let output = run(folder.path(), arguments);
        assert!(output.status.success(), "{}", err(&output));
        serde_json::from_slice(&output.stdout).unwrap()
    };
    for (of, name, arguments) in [
        (Schemas::Lay, "lay", &["lay", "mess-jacket.fus", "--size", "M", "--format", "json"][..]),
        (
            Schemas::Materials,
            "materials",
            &["materials", "mess-jacket.fus", "--size", "M", "--format", "json"],
        ),
        (
            Schemas::Resolve,
            "resolved",
            &["resolve", "mess-jacket.fus", "--size", "M", "--with", "lay,materials"],
        ),
    ] {
        let text = schema(of).unwrap();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("grammar/{name}.schema.json"));
        assert!(fs::read_to_string(path).unwrap() == text, "write grammar/{name}.schema.json anew");
        let schema = serde_json::from_str(&text).unwrap();
        let validator = jsonschema::draft202012::new(&schema).unwrap();
        let written = read(arguments);
        if let Err(error) = validator.validate(&written) {
            panic!("{name}: {error}");
        }
        let mut bad = written.clone();
        bad.as_object_mut().unwrap().insert("unit".to_owned(), serde_json::json!(3));
        assert!(!validator.is_valid(&bad));
    }
    let with = read(&["resolve", "mess-jacket.fus", "--size", "M", "--with", "lay"]);
    let size = &with["sizes"][0];
    assert_eq!(size["lays"].as_array().unwrap().len(), 3, "serge, twill and the fusible");
    assert!(size.get("materials").is_none());
    assert!(read(&["resolve", "mess-jacket.fus", "--size", "M"])["sizes"][0].get("lays").is_none());
}
