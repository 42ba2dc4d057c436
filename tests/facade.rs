//! A small program that uses Fustian as a library, by the names at its root alone: an editor's
//! unsaved texts in, a list of what is to be mended out, and the figures of a sound garment.

use fustian::{
    Compiled, Diagnostic, Document, LoadError, Loaded, Loader, MemoryLoader, NoDocument, ReportedDiagnostic,
    Severity, Span, compile, packed,
};
use std::collections::BTreeMap;

/// The texts of a crew's wardrobe, by their names.
struct Wardrobe(BTreeMap<&'static str, String>);

impl Loader for Wardrobe {
    fn load(&self, _from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let (name, text) = self.0.get_key_value(path).ok_or(LoadError::Missing)?;
        Ok(Loaded { key: (*name).into(), name: (*name).into(), bytes: text.clone().into_bytes() })
    }
}

const APRON: &str = "garment \"Galley apron\"\nunits cm\nallowance 1\n\
    fabric canvas \"apron canvas\" { width 150 }\nlayer outer in canvas { apron }\n\
    piece apron \"Apron\" { cut 1; outline rectangle 70 by 90 }\n\
    finish apron.left, apron.top, apron.right, apron.bottom  hem 2\n";

fn wardrobe(variation: &str) -> Wardrobe {
    let variation = format!("variation \"Galley apron, long\" of \"apron.fus\"\n{variation}");
    Wardrobe(BTreeMap::from([("apron.fus", APRON.to_owned()), ("long.fus", variation)]))
}

/// As a build would print them.
fn lines(compiled: &Compiled) -> Vec<String> {
    let line = |one: &ReportedDiagnostic| {
        let place = &one.places[0];
        format!("{}:{}: {}", place.file, place.line, one.slug)
    };
    compiled.reported().iter().map(line).collect()
}

#[test]
fn a_sound_garment_gives_its_figures() {
    let compiled = compile(&MemoryLoader::new().with("apron.fus", APRON), "apron.fus");
    assert!(!compiled.has_mistakes(), "{:?}", lines(&compiled));
    let document: Document = compiled.document().expect("a document");
    assert_eq!(document.garment, "Galley apron");
    // 90 by 70 cm are 900 by 700 mm, and its edges run 2 × 900 + 2 × 700 = 3200 mm.
    let json: serde_json::Value = serde_json::from_str(&compiled.json().expect("text")).expect("JSON");
    let edges = json["sizes"][0]["pieces"][0]["edges"].as_array().expect("edges");
    let sum: f64 = edges.iter().filter_map(|edge| edge["length"].as_f64()).sum();
    assert!((sum - 3200.0).abs() < 1e-6, "{sum}");
}

#[test]
fn a_mistake_is_found_in_its_file_and_there_is_no_document() {
    let texts = wardrobe("lengthen apron at waist by 10\n");
    let compiled = compile(&texts, "long.fus");
    let mistakes: Vec<&Diagnostic> =
        compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake).collect();
    assert!(!mistakes.is_empty());
    let span: Span = mistakes[0].span();
    assert!(compiled.map.text(span).contains("waist"), "{}", compiled.map.text(span));
    assert!(lines(&compiled).iter().any(|line| line.starts_with("long.fus:2: ")), "{:?}", lines(&compiled));
    assert_eq!(compiled.document().err(), Some(NoDocument::Mistakes));
}

#[test]
fn a_variation_can_be_packed_and_a_missing_base_is_told() {
    let texts = wardrobe("drop finish apron.top\nfinish apron.top  hem 3\n");
    let compiled = compile(&texts, "long.fus");
    let one = compile(&MemoryLoader::new().with("one.fus", packed(&texts, "long.fus")), "one.fus");
    assert_eq!(compiled.has_mistakes(), one.has_mistakes());
    let alone = Wardrobe(BTreeMap::from([("long.fus", "variation \"Long\" of \"apron.fus\"\n".to_owned())]));
    let compiled = compile(&alone, "long.fus");
    assert!(compiled.has_mistakes());
    assert!(
        lines(&compiled).iter().any(|line| line.starts_with("long.fus:1: file/missing")),
        "{:?}",
        lines(&compiled)
    );
}
