//! The examples, drafted a second time by an independent program: `drafted_numbers.json` says how.

use fustian::garment::ValueId;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use serde_json::{Map, Value};
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Half the width of a pencil line, in millimetres.
const WITHIN: f64 = 0.05;

fn numbers() -> Map<String, Value> {
    let text = include_str!("drafted_numbers.json");
    serde_json::from_str::<Value>(text).unwrap().as_object().unwrap().clone()
}

/// An example with a measure for each of those expressions: `asked0`, `asked1` and so on.
fn measured(file: &str, expressions: &[&String]) -> Compiled {
    let mut text = format!("variation \"Measured\" of \"{file}\"\nunits cm\n");
    for (at, expression) in expressions.iter().enumerate() {
        writeln!(text, "measure asked{at} \"Asked\" = {expression}").unwrap();
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new().with("measured.fus", text);
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            loader = loader.with(path.file_name().unwrap().to_str().unwrap(), fs::read(&path).unwrap());
        }
    }
    compile(&loader, "measured.fus")
}

#[test]
fn every_length_is_what_a_second_drafter_found() {
    let mut apart = Vec::new();
    let mut compared = 0;
    for (file, rows) in numbers().iter().filter(|(file, _)| file.ends_with(".fus") && !file.contains(' ')) {
        let rows = rows.as_object().unwrap();
        let expressions: Vec<&String> = rows.keys().collect();
        let compiled = measured(file, &expressions);
        assert!(!compiled.has_mistakes(), "{file}: {:#?}", compiled.diagnostics);
        for (at, (expression, expected)) in rows.iter().enumerate() {
            let name = format!("asked{at}");
            let id = compiled.garment.values.iter().position(|value| *value.name == *name).unwrap();
            let expected = expected.as_array().unwrap();
            assert_eq!(compiled.sizes.len(), expected.len(), "{file}");
            for (sized, expected) in compiled.sizes.iter().zip(expected) {
                let found = sized.drawn.scalar(ValueId::from_index(id)).unwrap();
                let expected = expected.as_f64().unwrap();
                compared += 1;
                if (found - expected).abs() > WITHIN {
                    apart.push(format!(
                        "{file}, size {}: {expression} is {found:.3}, not {expected}",
                        sized.id().index()
                    ));
                }
            }
        }
    }
    assert!(apart.is_empty(), "{} of {compared} apart:\n{}", apart.len(), apart.join("\n"));
    assert!(compared > 800, "only {compared} figures were compared");
}

#[test]
fn the_jacket_is_lengthened_by_what_a_second_drafter_found() {
    let numbers = numbers();
    let rows = |row: &str| numbers["amounts of deck-jacket.fus"][row].as_array().unwrap().clone();
    let compiled = measured("deck-jacket.fus", &[]);
    let (amounts, zips) = (rows("lengthen front, back"), rows("front_zip"));
    for ((sized, amount), zip) in compiled.sizes.iter().zip(&amounts).zip(&zips) {
        let (amount, zip) = (amount.as_f64().unwrap(), zip.as_f64().unwrap());
        let found: Vec<f64> = sized.drawn.amounts.iter().copied().flatten().collect();
        assert!(found.iter().any(|found| (found - amount).abs() < WITHIN), "{found:?} has no {amount}");
        let fit = sized.drawn.zips.iter().copied().flatten().next().unwrap();
        assert!(fit.sides.iter().all(|side| (side - zip).abs() < WITHIN), "{fit:?} is not {zip}");
        assert!((fit.zip - zip).abs() < WITHIN);
    }
}
