//! Every example of the language's reference is compiled.

use fustian::emit::{document, to_text};
use fustian::report::Severity;
use fustian::source::MemoryLoader;
use fustian::syntax::KEYWORDS;
use fustian::syntax::tree::AlterationKind;
use fustian::{Compiled, compile};
use std::collections::BTreeSet;

const REFERENCE: &str = include_str!("../../grammar/REFERENCE.md");

/// A fenced example: the words after `fus`, its text and the line it starts at.
struct Example {
    kind: String,
    text: String,
    line: usize,
}

fn examples() -> Vec<Example> {
    let mut examples = Vec::new();
    let mut open: Option<Example> = None;
    for (at, line) in REFERENCE.lines().enumerate() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(fence)) if fence.starts_with("fus") => {
                let kind = fence.trim_start_matches("fus").trim().to_owned();
                open = Some(Example { kind, text: String::new(), line: at + 2 });
            }
            (Some(_), Some(_)) => examples.extend(open.take()),
            (Some(example), None) => {
                example.text.push_str(line);
                example.text.push('\n');
            }
            _ => {}
        }
    }
    examples
}

fn compiled(example: &Example, sample: &str) -> Compiled {
    let text = match example.kind.as_str() {
        "sample" => example.text.clone(),
        kind if kind.starts_with("file") || kind.starts_with("library") => example.text.clone(),
        "" => format!("{sample}\n{}", example.text),
        "piece" => format!("{sample}\nblock piece example {{\n{}\n}}\n", example.text),
        "variation" => format!("variation \"Example\" of \"sample.fus\"\n{}", example.text),
        _ => format!("{sample}\n{}", example.text),
    };
    let library = examples().into_iter().find(|example| example.kind == "library");
    let library = library.map(|library| library.text).unwrap_or_default();
    // An example whose heading names a file is there for the others to lead to.
    let named = examples().into_iter().filter_map(|one| {
        let name = one.kind.split_once(' ').filter(|(_, name)| name.ends_with(".fus"))?.1.to_owned();
        Some((name, one.text))
    });
    let loader = named.fold(MemoryLoader::new(), |loader, (name, text)| loader.with(&name, text));
    let loader = loader.with("sample.fus", sample).with("slop_chest.fus", library).with("example.fus", text);
    compile(&loader, "example.fus")
}

/// The examples that are garments without mistakes, by the lines they start at.
pub fn garments() -> Vec<(usize, Compiled)> {
    let examples = examples();
    let sample = examples.iter().find(|example| example.kind == "sample").expect("the sample").text.clone();
    let all = examples.iter().filter(|example| !example.kind.starts_with("slip"));
    let compiled = all.map(|example| (example.line, compiled(example, &sample)));
    compiled.filter(|(_, compiled)| !compiled.has_mistakes() && !compiled.sizes.is_empty()).collect()
}

#[test]
fn every_example_of_the_reference_compiles() {
    let examples = examples();
    let sample = examples.iter().find(|example| example.kind == "sample").expect("the sample").text.clone();
    assert!(examples.len() >= 24, "only {} examples were found", examples.len());
    let mut told = Vec::new();
    for example in examples.iter().filter(|example| !example.kind.starts_with("slip")) {
        let compiled = compiled(example, &sample);
        for diagnostic in compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake) {
            let words = compiled.map.text(diagnostic.span());
            told.push(format!(
                "line {}: {}: {} `{words}`",
                example.line,
                diagnostic.slug(),
                diagnostic.title
            ));
        }
    }
    assert!(told.is_empty(), "mistakes in examples of the reference:\n{}", told.join("\n"));
}

#[test]
fn what_comes_of_every_example_is_of_the_published_form() {
    let validator = crate::documents::validator();
    let examples = examples();
    let sample = examples.iter().find(|example| example.kind == "sample").expect("the sample").text.clone();
    for example in &examples {
        let compiled = compiled(example, &sample);
        let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
        let written = serde_json::from_str(&to_text(&document).unwrap()).unwrap();
        if let Err(error) = validator.validate(&written) {
            panic!("line {}: {error}", example.line);
        }
    }
}

#[test]
fn every_slip_of_the_reference_is_told() {
    let examples = examples();
    let sample = examples.iter().find(|example| example.kind == "sample").expect("the sample").text.clone();
    for example in examples.iter().filter(|example| example.kind.starts_with("slip")) {
        let slug = example.kind.trim_start_matches("slip").trim();
        let compiled = compiled(example, &sample);
        let slugs: Vec<&str> = compiled.diagnostics.iter().map(|diagnostic| diagnostic.slug()).collect();
        assert_eq!(slugs, [slug], "line {}", example.line);
    }
}

/// The pin in the example is that of the library here.
#[test]
fn the_pin_of_the_reference_is_kept() {
    let sample = examples().into_iter().find(|example| example.kind == "sample").map(|sample| sample.text);
    for example in examples().iter().filter(|example| example.text.contains(" as of ")) {
        let compiled = compiled(example, sample.as_deref().unwrap_or_default());
        assert!(compiled.diagnostics.iter().all(|one| one.slug() != "file/changed"), "{}", example.text);
    }
}

/// A form is learned from an example of it, not from a row in a table.
#[test]
fn every_form_of_sewing_has_an_example() {
    let examples = examples();
    for form in [
        "+ back.",
        " and hem_band.bottom to",
        "allowance 1.5",
        "stitch overlock",
        "notch 20 from",
        "leaving gap 4..17 from",
        "turn through gap in",
        "slipstitch gap in",
        "matching hem_band.top_left with",
        "hem 3 turned under 1",
        "hem 1/2 twice",
        "bound 1",
        "casing 3.5 for elastic 3 of",
        "casing 2.5\n",
        "overlocked",
        "cord drawstring 160 through",
        "ends 15 free",
        "thread drawstring",
        "caught bottom in",
        "topstitch left",
        "passes head",
        "zipper separating",
        "buttons 5 of 15mm",
        "stand 2  right over left",
        "notion \"cord stop\" 1",
    ] {
        let shows = |example: &&Example| !example.kind.starts_with("slip") && example.text.contains(form);
        assert!(examples.iter().any(|example| shows(&example)), "no example shows {form:?}");
    }
}

/// No word of the language is left to be guessed: each stands in an example that compiles, an
/// alteration's verb at the beginning of a statement.
#[test]
fn every_word_of_the_language_stands_in_an_example() {
    let examples: Vec<Example> =
        examples().into_iter().filter(|example| !example.kind.starts_with("slip")).collect();
    let words: BTreeSet<&str> = examples
        .iter()
        .flat_map(|example| example.text.lines())
        .flat_map(|line| {
            line.split('#')
                .next()
                .unwrap_or_default()
                .split(|c: char| !c.is_alphanumeric() && !"_-".contains(c))
        })
        .collect();
    let missing: Vec<&&str> = KEYWORDS.iter().filter(|word| !words.contains(*word)).collect();
    assert!(missing.is_empty(), "in no example: {missing:?}");
    for kind in AlterationKind::ALL.into_iter().filter(|kind| kind.has_statement()) {
        let verb = format!("{} ", kind.form().verb);
        let mut lines = examples.iter().flat_map(|example| example.text.lines());
        assert!(lines.any(|line| line.trim_start().starts_with(&verb)), "no example of {verb}");
    }
}
