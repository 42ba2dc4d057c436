//! `examples/mistakes/`: each file makes one mistake, and says in its first line which.
//!
//! The line reads `# slug: place/outside | line: 37 | sizes: S, M`; `file: …` where the first place
//! is in another file. The snapshots show exactly what a person sees.

use fustian::check::CHECKS;
use fustian::report::{Diagnostic, Look, draw};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// What a file's first line promises.
#[derive(Debug, Default, PartialEq)]
struct Promise {
    slug: String,
    file: String,
    line: usize,
    sizes: Vec<String>,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/mistakes")
}

/// Every text of the folder and of the folder of helpers in it, by path.
fn texts() -> BTreeMap<String, String> {
    let mut texts = BTreeMap::new();
    for (folder, prefix) in [(folder(), ""), (folder().join("with"), "with/")] {
        for entry in fs::read_dir(folder).expect("the folder of mistakes") {
            let path = entry.expect("an entry of it").path();
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
            if name.ends_with(".fus") {
                texts.insert(format!("{prefix}{name}"), fs::read_to_string(&path).expect("a text"));
            }
        }
    }
    texts
}

fn loader(texts: &BTreeMap<String, String>) -> MemoryLoader {
    texts.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()))
}

/// The names of the files that make a mistake.
fn makers(texts: &BTreeMap<String, String>) -> impl Iterator<Item = &String> {
    texts.keys().filter(|name| !name.contains('/'))
}

fn promise(name: &str, text: &str) -> Promise {
    let first = text.lines().next().and_then(|line| line.strip_prefix("# ")).unwrap_or_default();
    let mut promise = Promise { file: name.to_owned(), ..Promise::default() };
    for fact in first.split(" | ") {
        let (key, value) = fact.split_once(": ").unwrap_or_else(|| panic!("{name} promises {first:?}"));
        match key {
            "slug" => promise.slug = value.to_owned(),
            "file" => promise.file = value.to_owned(),
            "line" => promise.line = value.parse().expect("a line number"),
            "sizes" => promise.sizes = value.split(", ").map(str::to_owned).collect(),
            other => panic!("{name} promises {other}"),
        }
    }
    promise
}

fn kept(compiled: &Compiled, diagnostic: &Diagnostic) -> Promise {
    let (file, line, _) = compiled.map.place(diagnostic.span());
    Promise { slug: diagnostic.slug.to_owned(), file: file.to_owned(), line, sizes: diagnostic.sizes.clone() }
}

#[test]
fn each_file_makes_the_one_mistake_that_it_promises() {
    let texts = texts();
    let loader = loader(&texts);
    let mut wrong = Vec::new();
    for name in makers(&texts) {
        let promised = promise(name, &texts[name]);
        assert_eq!(*name, format!("{}.fus", promised.slug.replace('/', "-")), "named after its slug");
        let compiled = compile(&loader, name);
        let found: Vec<Promise> = compiled.diagnostics.iter().map(|one| kept(&compiled, one)).collect();
        if found.as_slice() != [promised] {
            wrong.push(format!("{name}: {found:#?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_a_person_sees() {
    let texts = texts();
    let loader = loader(&texts);
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| {
        for name in makers(&texts) {
            let compiled = compile(&loader, name);
            let seen = draw(&compiled.map, &compiled.diagnostics, Look::default());
            insta::assert_snapshot!(name.trim_end_matches(".fus"), seen);
        }
    });
}

#[test]
fn what_the_mistakes_lead_to_is_itself_sound() {
    let texts = texts();
    let loader = loader(&texts);
    for name in texts.keys().filter(|name| name.contains('/')) {
        assert_eq!(compile(&loader, name).diagnostics, [], "{name}");
    }
}

#[test]
fn every_check_has_an_example_that_makes_it() {
    let texts = texts();
    let made: Vec<String> = makers(&texts).map(|name| promise(name, &texts[name]).slug).collect();
    for check in CHECKS {
        for slug in check.slugs {
            assert!(made.iter().any(|one| one == slug), "no file in examples/mistakes makes {slug}");
        }
    }
}

#[test]
fn every_slug_of_a_check_is_in_the_catalogue() {
    for check in CHECKS {
        for slug in check.slugs {
            assert!(fustian::report::catalogue::entry(slug).is_some(), "{slug} is not explained");
        }
    }
}
