//! A catalogue of variations built by engines that skip, or fetch, what has been built: the rules of DEVELOPERS.md.

use crate::workbench::{example, out};
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

const COUNT: usize = 6;

/// A folder of variations of the smock.
fn catalogue() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    for name in ["deck-smock.fus", "crew-library.fus"] {
        fs::write(folder.path().join(name), example(name)).expect("a file");
    }
    for at in 0..COUNT {
        let text = format!("variation \"Smock {at}\" of \"deck-smock.fus\"\nset ease = {}\n", 20 + at);
        fs::write(folder.path().join(format!("deck-{at}.fus")), text).expect("a file");
    }
    folder
}

/// The lines of DEVELOPERS.md from the one that begins so, as far as they are indented.
fn rules(first: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let text = fs::read_to_string(path).expect("DEVELOPERS.md");
    let lines =
        text.lines().skip_while(|line| line.trim() != first).take_while(|line| line.starts_with("    "));
    lines.map(|line| format!("{}\n", line.strip_prefix("    ").unwrap_or(line))).collect()
}

/// What an engine says; none where it is not there.
fn built(folder: &Path, program: &str, arguments: &[&str]) -> Option<String> {
    let here = Path::new(env!("CARGO_BIN_EXE_fustian")).parent().expect("a folder");
    let path = std::env::var("PATH").unwrap_or_default();
    let mut command = Command::new(program);
    command.args(arguments).current_dir(folder).env("PATH", format!("{}:{path}", here.display()));
    let output = command.output().ok()?;
    assert!(output.status.success(), "{}{}", out(&output), String::from_utf8_lossy(&output.stderr));
    Some(out(&output))
}

#[test]
fn ninja_builds_once() {
    let folder = catalogue();
    let rule = rules("rule fustian");
    let (rule, line) = rule.split_once("build ").expect("a line that builds");
    assert_eq!(line.trim(), "deck-zip.json: fustian deck-zip.fus");
    let lines: String =
        (0..COUNT).map(|at| format!("build deck-{at}.json: fustian deck-{at}.fus\n")).collect();
    fs::write(folder.path().join("build.ninja"), format!("{rule}{lines}")).expect("written");
    let Some(told) = built(folder.path(), "ninja", &["-v"]) else { return };
    assert_eq!(told.matches(" resolve ").count(), COUNT, "{told}");
    let told = built(folder.path(), "ninja", &["-v"]).expect("ninja");
    assert!(told.contains("no work to do"), "{told}");
    // All hang on the base, as the first run told.
    let base = folder.path().join("deck-smock.fus");
    let later = std::time::SystemTime::now() + std::time::Duration::from_secs(20);
    fs::File::options().write(true).open(base).and_then(|file| file.set_modified(later)).expect("a time");
    let told = built(folder.path(), "ninja", &["-v"]).expect("ninja");
    assert_eq!(told.matches(" resolve ").count(), COUNT, "{told}");
}

#[test]
fn what_one_machine_has_built_another_fetches() {
    let (first, second, cache) = (catalogue(), catalogue(), TempDir::new().expect("a folder"));
    let shared = cache.path().to_str().expect("text");
    let rules = rules("import os, subprocess")
        .replace("/shared/fustian", shared)
        .replace("deck-*.fus", "deck-[0-9].fus");
    for folder in [&first, &second] {
        fs::write(folder.path().join("SConstruct"), &rules).expect("written");
    }
    let Some(told) = built(first.path(), "scons", &[]) else { return };
    assert_eq!(told.matches("fustian resolve ").count(), COUNT, "{told}");
    let told = built(second.path(), "scons", &[]).expect("scons");
    assert_eq!(told.matches("from cache").count(), COUNT, "{told}");
    assert_eq!(told.matches("fustian resolve ").count(), 0, "{told}");
    let bytes = |folder: &TempDir| fs::read(folder.path().join("deck-3.json")).expect("a garment");
    assert_eq!(bytes(&first), bytes(&second));
    // Another base is another garment.
    let base = example("deck-smock.fus").replacen("allowance 1\n", "allowance 1.5\n", 1);
    fs::write(second.path().join("deck-smock.fus"), base).expect("written");
    let told = built(second.path(), "scons", &[]).expect("scons");
    assert_eq!(told.matches("fustian resolve ").count(), COUNT, "{told}");
    assert_ne!(bytes(&first), bytes(&second));
}
