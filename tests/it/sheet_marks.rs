//! What the document says so that a sheet can be made of it: what notches mark, which seams an action means.

use crate::workbench::{in_memory, run};
use fustian::compile;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;

/// A band of 40 cm on two halves of 20 cm each, in quarters, with a gap of 6 cm that begins 3 cm from the left; and a lining
/// that is sewn like it.
const FLAG: &str = r#"
garment "Flag band"
units cm
allowance 1
sizes S, L
fabric bunting "bunting" { width 150 }
layer outer in bunting { band, left_half, right_half }
layer inner in bunting { left_half, right_half }
piece band "Band" { cut 1; outline rectangle 40 by 6 }
piece left_half "Left half" { cut 1; outline rectangle 20 by 30 }
piece right_half "Right half" { cut 1; outline rectangle 20 by 30 }
seam middle  left_half.right to right_half.left { matching left_half.top_right with right_half.top_left }
seam top     band.bottom to outer.left_half.top + outer.right_half.top {
  matching band.bottom_left with outer.left_half.top_left
  notch quarters
  notch 5 from band.bottom_left
}
finish band.left, band.top, band.right, left_half.left, left_half.bottom, right_half.right, right_half.bottom  overlocked
finish inner.left_half.top, inner.right_half.top  overlocked
steps {
  "All" { in outer sew middle; in inner sew middle; sew top; press middle }
}
"#;

fn document() -> Value {
    let compiled = compile(&in_memory(&[("own.fus", FLAG)]), "own.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics.first());
    serde_json::from_str(&compiled.json().expect("figures")).expect("JSON")
}

fn list<'v>(value: &'v Value, key: &str) -> Vec<&'v Value> {
    value[key].as_array().map(|all| all.iter().collect()).unwrap_or_default()
}

/// By hand: of 40 cm the quarters are 10, 20 and 30 cm; 20 cm is where the halves meet, too; 5 cm is asked for.
#[test]
fn notches_say_what_they_mark() {
    let json = document();
    for size in list(&json, "sizes") {
        let top = list(size, "seams").into_iter().find(|seam| seam["name"] == "top").expect("it is sewn");
        let told: Vec<(i64, Vec<&str>)> = list(top, "notches")
            .into_iter()
            .map(|notch| {
                let at = notch["on_first"].as_f64().expect("a length").round() as i64;
                (at, list(notch, "marks").into_iter().map(|mark| mark.as_str().expect("a word")).collect())
            })
            .collect();
        let wanted =
            [(50, vec!["given"]), (100, vec!["share"]), (200, vec!["joint", "share"]), (300, vec!["share"])];
        assert_eq!(told, wanted);
    }
}

/// An action names the seams that it sews, layer by layer, and what is pressed in every layer names both.
#[test]
fn actions_name_the_seams_that_they_sew() {
    let json = document();
    for size in list(&json, "sizes") {
        let actions: Vec<&Value> =
            list(size, "steps").into_iter().flat_map(|step| list(step, "actions")).collect();
        let named: Vec<Vec<&str>> = actions
            .iter()
            .map(|action| list(action, "seams").into_iter().map(|id| id.as_str().expect("an id")).collect())
            // What is left out of the steps is finished at their end, and sews no seam.
            .filter(|seams: &Vec<&str>| !seams.is_empty())
            .collect();
        let wanted = [
            vec!["middle.outer"],
            vec!["middle.inner"],
            vec!["top.outer"],
            vec!["middle.outer", "middle.inner"],
        ];
        assert_eq!(named, wanted);
    }
}

/// Of every example: each id is there once and in every size, and whatever an action names is a seam of its size by the name
/// that the action says.
#[test]
fn ids_of_seams_tell_them_apart() {
    let folder = crate::workbench::examples();
    let mut compared = 0;
    for name in ["deck-jacket", "purser-shirt", "mate-trousers-fly", "mess-skirt-vent", "watch-cap"] {
        let told = run(folder.path(), &["resolve", &format!("{name}.fus"), "-o", "all.json"]);
        assert!(told.status.success(), "{told:?}");
        let text = fs::read_to_string(folder.path().join("all.json")).expect("the document");
        let json: Value = serde_json::from_str(&text).expect("JSON");
        let ids = |size: &Value| -> Vec<String> {
            list(size, "seams")
                .into_iter()
                .map(|seam| seam["id"].as_str().expect("an id").to_owned())
                .collect()
        };
        let sizes = list(&json, "sizes");
        for size in &sizes {
            let own = ids(size);
            assert_eq!(own.iter().collect::<BTreeSet<_>>().len(), own.len(), "{name}: {own:?}");
            assert_eq!(own, ids(sizes[0]), "{name}");
            for action in list(size, "steps").into_iter().flat_map(|step| list(step, "actions")) {
                let to = list(action, "to");
                for id in list(action, "seams") {
                    let seams = list(size, "seams");
                    let seam = seams.iter().find(|seam| seam["id"] == *id).expect("a seam of the size");
                    assert!(to.contains(&&seam["name"]), "{name}: {id} of {to:?}");
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 200, "{compared}");
}
