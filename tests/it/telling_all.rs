//! Every mistake is reported, once, at the words that make it, and the same in every run.

use fustian::emit::{document, to_text};
use fustian::report::{RenderOptions, render, reported};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

const VEST: &str = r#"garment "Deck vest"
units cm
allowance 1
fabric shell "canvas" { width 150 }
layer outer in shell { front }
let gap = 1
piece front { outline rectangle 30 by 60; cut 2 mirrored; grain up }
"#;

fn compiled(files: &[(&str, &str)]) -> Compiled {
    let loader = files.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, *text));
    compile(&loader, files[0].0)
}

/// The names that nothing declares, each with the words at its places.
fn unknown(compiled: &Compiled) -> Vec<(String, Vec<&str>)> {
    let unknown = compiled.diagnostics.iter().filter(|one| one.slug() == "name/unknown");
    unknown
        .map(|one| {
            let places = one.labels.iter().map(|label| compiled.map.text(label.span));
            (one.title.rsplit(' ').next().unwrap_or_default().to_owned(), places.collect())
        })
        .collect()
}

#[test]
fn a_zip_that_shows_an_unknown_amount_is_told_beside_an_unknown_edge() {
    let text = format!(
        "{VEST}seam shoulder front.topp to front.top\n\
         closure zip front.left to front.left {{ zipper separating 60 showing gapp }}\n"
    );
    let compiled = compiled(&[("vest.fus", &text)]);
    assert_eq!(
        unknown(&compiled),
        [("topp".to_owned(), vec!["topp"]), ("gapp".to_owned(), vec!["gapp", "gap"])],
        "{:#?}",
        compiled.diagnostics
    );
}

/// What a variation sets stands no more: a mistake in it is not the variation's, and its words stay out
/// of the variation's messages.
#[test]
fn a_mistake_in_what_a_variation_sets_is_not_told_at_its_words() {
    let base = VEST.replace("let gap = 1", "let gap = chst / 4");
    let variation = "variation \"Mate's vest\" of \"base.fus\"\nset gap = widht\nlet wide = chst * 2\n";
    let compiled = compiled(&[("vest.fus", variation), ("base.fus", &base)]);
    assert_eq!(
        unknown(&compiled),
        [("widht".to_owned(), vec!["widht"]), ("chst".to_owned(), vec!["chst"])],
        "{:#?}",
        compiled.diagnostics
    );
    let first = compiled.map.file_of(compiled.map.files()[0].span());
    for one in compiled.diagnostics.iter().filter(|one| one.slug() == "name/unknown") {
        assert!(one.labels.iter().all(|label| compiled.map.file_of(label.span) == first), "{one:#?}");
    }
}

/// A seam that a join is made at, a strip whose rest another piece is: both are read twice.
#[test]
fn what_is_read_twice_is_told_once() {
    for (name, said) in [
        ("seam", "seam middle front to front.left\njoin front and back at middle into whole\n"),
        (
            "strip",
            "piece facing { outline strip of front along lft width wde; cut 2 mirrored }\n\
             piece rest { outline rest of front without facing; cut 2 mirrored }\n",
        ),
        ("join", "join front.a.b.c and back at left into whole\n"),
        ("split", "split front.a.b.c at left into upper, lower\n"),
        ("twice", "split front at left into upper, lower\nsplit front at left into high, low\n"),
    ] {
        let text =
            format!("{VEST}piece back {{ outline rectangle 30 by 60; cut 2 mirrored; grain up }}\n{said}");
        let compiled = compiled(&[("vest.fus", &text)]);
        let mut seen: Vec<_> = compiled.diagnostics.iter().map(|one| (one.slug(), one.span())).collect();
        let all = seen.len();
        seen.sort_unstable();
        seen.dedup();
        assert!(!seen.is_empty() && seen.len() == all, "{name}: {:#?}", compiled.diagnostics);
    }
}

/// Every example and every mistake, by folder and name.
pub fn texts() -> Vec<(String, MemoryLoader)> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut all = Vec::new();
    for folder in [top.clone(), top.join("mistakes")] {
        let mut texts: BTreeMap<String, String> = BTreeMap::new();
        for (within, prefix) in [(folder.clone(), ""), (folder.join("with"), "with/")] {
            let Ok(entries) = fs::read_dir(within) else { continue };
            for entry in entries {
                let path = entry.expect("an entry").path();
                if path.extension().is_some_and(|extension| extension == "fus") {
                    let name = path.file_name().and_then(|name| name.to_str()).expect("a name");
                    texts.insert(format!("{prefix}{name}"), fs::read_to_string(&path).expect("a text"));
                }
            }
        }
        let loader =
            texts.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()));
        all.extend(texts.into_keys().filter(|name| !name.contains('/')).map(|name| (name, loader.clone())));
    }
    all
}

/// Everything that is said and worked out, as people and as programs read it.
fn outputs(loader: &MemoryLoader, name: &str) -> [String; 3] {
    let Compiled { map, garment, sizes, diagnostics, .. } = compile(loader, name);
    [
        render(&map, &diagnostics, RenderOptions::default()),
        serde_json::to_string(&reported(&map, &diagnostics)).expect("messages as JSON"),
        to_text(&document(&garment, &sizes, &map, &diagnostics)).expect("a document"),
    ]
}

/// On one thread and on two, twice each: hash maps are seeded anew in every one of them.
#[test]
fn every_run_gives_the_same_bytes() {
    let texts = texts();
    assert!(texts.len() > 100, "the folders were read: {}", texts.len());
    let runs: Vec<Vec<[String; 3]>> = [1, 2, 1, 2]
        .into_iter()
        .map(|threads| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
            pool.install(|| texts.iter().map(|(name, loader)| outputs(loader, name)).collect())
        })
        .collect();
    for (at, (name, _)) in texts.iter().enumerate() {
        for run in &runs[1..] {
            for (one, other) in runs[0][at].iter().zip(&run[at]) {
                assert!(one == other, "{name}:\n{one}\n{other}");
            }
        }
    }
}
