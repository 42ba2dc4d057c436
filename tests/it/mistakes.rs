//! `examples/mistakes/`: each file makes one mistake, and says in its first line which.
//!
//! The line reads `# slug: place/outside | line: 37 | sizes: S, M`; `file: …` where the first place
//! is in another file. The file is named after the slug, with a word more where one slug has several
//! files. The snapshots show exactly what a person sees.

use fustian::check::CHECKS;
use fustian::report::{Diagnostic, RenderOptions, render, reported, sarif};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Slugs that no file of this folder can make, and why.
const WITHOUT_FILE: &[(&str, &str)] = &[
    ("file/not-text", "a file that is no text cannot be read as one here"),
    ("file/unreadable", "hangs on the permissions of the disk"),
    ("file/too-large", "the file would be larger than 8 MB"),
    ("file/too-many", "it takes more than 64 files"),
    ("limit/pieces", "it takes more than 20 000 pieces"),
    ("limit/edges", "it takes more than 1 000 edges"),
    ("limit/alterations", "it takes more than 1 000 alterations"),
    ("lost/unreported", "a text that makes it shows a defect of the compiler"),
];

/// What is told of a file of helpers too: that of which the mistake is a consequence.
const LED_TO: &[(&str, &str)] = &[("with/falling.fus", "size/irregular")];

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
    Promise {
        slug: diagnostic.slug().to_owned(),
        file: file.to_owned(),
        line,
        sizes: diagnostic.sizes.clone(),
    }
}

/// Most of the files are too small to say the order of work; that they are advised to is looked at
/// in the one file that is about it.
fn looked_at(compiled: &Compiled, slug: &str) -> Vec<Diagnostic> {
    let all = compiled.diagnostics.iter();
    all.filter(|one| one.slug() != "steps/none" || slug == "steps/none").cloned().collect()
}

#[test]
fn each_file_makes_the_one_mistake_that_it_promises() {
    let texts = texts();
    let loader = loader(&texts);
    let mut wrong = Vec::new();
    for name in makers(&texts) {
        let promised = promise(name, &texts[name]);
        let after = promised.slug.replace('/', "-");
        let rest = name.strip_suffix(".fus").and_then(|name| name.strip_prefix(after.as_str()));
        assert!(
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('-')),
            "{name} is named after its slug"
        );
        let compiled = compile(&loader, name);
        let found = looked_at(&compiled, &promised.slug);
        let found: Vec<Promise> = found.iter().map(|one| kept(&compiled, one)).collect();
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
            let found = looked_at(&compiled, &promise(name, &texts[name]).slug);
            let seen = render(&compiled.map, &found, RenderOptions::default());
            insta::assert_snapshot!(name.trim_end_matches(".fus"), seen);
        }
    });
}

#[test]
fn what_the_mistakes_lead_to_is_itself_sound() {
    let texts = texts();
    let loader = loader(&texts);
    for name in texts.keys().filter(|name| name.contains('/')) {
        let compiled = compile(&loader, name);
        let said: Vec<&str> = compiled.diagnostics.iter().map(Diagnostic::slug).collect();
        let told = LED_TO.iter().filter(|(led_to, _)| led_to == name).map(|&(_, slug)| slug);
        assert_eq!(said, told.collect::<Vec<&str>>(), "{name}");
    }
}

#[test]
fn every_check_has_an_example_that_makes_it() {
    let texts = texts();
    let made: Vec<String> = makers(&texts).map(|name| promise(name, &texts[name]).slug).collect();
    for check in CHECKS {
        for kind in check.kinds {
            assert!(
                made.iter().any(|one| one == kind.slug),
                "no file in examples/mistakes makes {}",
                kind.slug
            );
        }
    }
}

/// A slug has one severity, whoever says it: messages as JSON, SARIF's rules and results, and `explain`.
#[test]
fn severity_sarif_and_explain_agree() {
    let texts = texts();
    let loader = loader(&texts);
    let listed = std::process::Command::new(env!("CARGO_BIN_EXE_fustian")).arg("explain").output();
    let listed = String::from_utf8(listed.expect("explain runs").stdout).expect("text");
    let explained: BTreeMap<&str, &str> = listed
        .lines()
        .filter_map(|line| {
            let mut words = line.split_whitespace();
            Some((words.next()?, words.next()?))
        })
        .collect();
    let mut seen = BTreeSet::new();
    for name in makers(&texts) {
        let compiled = compile(&loader, name);
        let messages = reported(&compiled.map, &compiled.diagnostics);
        let log = serde_json::to_value(sarif(&messages)).expect("SARIF");
        let messages = serde_json::to_value(&messages).expect("JSON");
        let run = &log["runs"][0];
        for (message, result) in messages.as_array().unwrap().iter().zip(run["results"].as_array().unwrap()) {
            let slug = message["slug"].as_str().unwrap();
            let word = message["severity"].as_str().unwrap();
            let level = match word {
                "mistake" => "error",
                "advice" => "note",
                _ => "warning",
            };
            let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
            let rule = rules.iter().find(|rule| rule["id"] == slug).expect("a rule for each result");
            assert_eq!(result["ruleId"], slug, "{name}");
            assert_eq!(result["level"], level, "{name}: {slug}");
            assert_eq!(rule["defaultConfiguration"]["level"], level, "{name}: {slug}");
            assert_eq!(explained.get(slug), Some(&word), "{name}: {slug}");
            seen.insert(slug.to_owned());
        }
    }
    for entry in fustian::report::catalogue::entries() {
        let excused = WITHOUT_FILE.iter().any(|(slug, _)| *slug == entry.slug);
        assert!(excused || seen.contains(entry.slug), "{} was not looked at", entry.slug);
    }
}

#[test]
fn every_slug_has_an_example_or_a_reason_to_have_none() {
    let texts = texts();
    let made: BTreeSet<String> = makers(&texts).map(|name| promise(name, &texts[name]).slug).collect();
    let said = super::catalogue::said();
    let without: BTreeSet<&str> = WITHOUT_FILE.iter().map(|(slug, _)| *slug).collect();
    let excused = |slug: &str| without.contains(slug);
    for slug in said.keys() {
        assert!(made.contains(slug) || excused(slug), "no file in examples/mistakes makes {slug}");
    }
    for entry in fustian::report::catalogue::entries() {
        let slug = entry.slug;
        assert!(said.contains_key(slug), "{slug} is explained and never said");
    }
    for slug in made.iter().map(String::as_str) {
        assert!(!excused(slug), "a file makes {slug}: it needs no excuse any more");
    }
}
