//! Two mistakes that have nothing to do with each other, from any two stages of the journey: both are
//! reported, at their own lines, in text and in JSON, and nothing else is.

use fustian::compile;
use fustian::report::{RenderOptions, render, reported};
use fustian::source::MemoryLoader;

/// A smock without mistakes.
const SMOCK: &str = r#"garment "Deck smock"
units cm
allowance 1
sizes S, M
fabric shell "canvas" { width 150 }
layer outer in shell { front, back }
piece front "Front" {
  cut 1 on fold left
  outline rectangle each 28, 30 by 60
  line waist across at (0, 25)
}
piece back "Back" {
  cut 1 on fold left
  outline rectangle each 28, 30 by 60
}
seam side  front.right to back.right
finish front.top, back.top  hem 2
finish front.bottom, back.bottom  hem 3
"#;

/// One mistake: the stage that finds it, its slug, and a line of a variation that makes it.
type OneMistake = (&'static str, &'static str, &'static str);

const MISTAKES: &[OneMistake] = &[
    ("syntax", "syntax/unknown-statement", "lett brim = 3"),
    ("syntax", "syntax/trailing", "let cuff = 3 4"),
    ("merge", "drop/nothing", "drop piece hood"),
    ("merge", "replace/nothing", "set hood_width = 3"),
    ("chain", "file/heading", "garment \"Deck smock\""),
    ("lower", "unit/mixed", "let turn_back = 4 + 30deg"),
    ("lower", "table/length", "let stand = each 1, 2, 3"),
    ("plan", "name/circle", "let rope = rope + 1"),
    ("plan", "solve/none", "let slack between 1 and 5 so that 3cm = 4cm"),
    ("resolve", "value/not-finite", "let slit = 3 / (2 - 2)"),
    ("resolve", "solve/none", "let tall between 40 and 60 so that tall + 20 = 90"),
    ("sewing", "alter/one-side", "lengthen front at waist by 3"),
    ("check", "edge/twice", "finish front.bottom  hem 2"),
    ("check", "require/unmet", "require 3 > 4 \"the smock goes over the head\""),
];

/// The slug and the line of every message about a jacket made of the smock with these lines, as
/// programs read them; what a person reads must name the same places.
fn found(lines: &[&str]) -> Vec<(String, usize)> {
    let text = format!("variation \"Deck jacket\" of \"smock.fus\"\n{}\n", lines.join("\n"));
    let loader = MemoryLoader::new().with("jacket.fus", text).with("smock.fus", SMOCK);
    let compiled = compile(&loader, "jacket.fus");
    let shown = render(&compiled.map, &compiled.diagnostics, RenderOptions::default());
    let json = serde_json::to_value(reported(&compiled.map, &compiled.diagnostics)).expect("JSON");
    let mut found = Vec::new();
    for message in json.as_array().expect("a list") {
        let slug = message["slug"].as_str().expect("a slug").to_owned();
        if slug == "steps/none" {
            continue;
        }
        let place = &message["places"][0];
        assert_eq!(place["file"], "jacket.fus", "{message:#}");
        let line = place["line"].as_u64().expect("a line") as usize;
        let head = shown.split("\n\n").position(|one| one.trim() == slug);
        assert!(head.is_some(), "{slug} is in JSON and not in text:\n{shown}");
        assert!(shown.contains(&format!("[jacket.fus:{line}:")), "{slug}, line {line}:\n{shown}");
        found.push((slug, line));
    }
    found.sort();
    found
}

#[test]
fn the_smock_itself_is_sound() {
    assert_eq!(found(&["let nothing_special = 3"]), []);
}

#[test]
fn each_of_the_mistakes_is_reported_alone() {
    for (stage, slug, line) in MISTAKES {
        assert_eq!(found(&[line]), [((*slug).to_owned(), 2)], "{stage}: {line}");
    }
}

/// Every two of them, in both orders: the stages are syntax, chain, merge, lower, plan, resolve, sewing
/// and check, and each stands with each other.
#[test]
fn two_mistakes_of_any_two_stages_are_both_reported() {
    let mut missing = Vec::new();
    for (one_at, one) in MISTAKES.iter().enumerate() {
        for (other_at, other) in MISTAKES.iter().enumerate() {
            if one_at == other_at {
                continue;
            }
            let mut expected = vec![(one.1.to_owned(), 2), (other.1.to_owned(), 3)];
            expected.sort();
            let found = found(&[one.2, other.2]);
            if found != expected {
                missing.push(format!("{} + {}: {found:?}", one.2, other.2));
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}
