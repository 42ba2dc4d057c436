//! What the README tells to type for git, typed into real git.

use crate::workbench::{err, example, out};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

/// The indented lines of the README around the one that holds these words.
fn snippet(words: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = fs::read_to_string(path).expect("the README");
    let blocks = readme.split("\n\n").filter(|block| block.starts_with("    "));
    let block = blocks.into_iter().find(|block| block.contains(words)).expect("the snippet");
    block.lines().map(|line| format!("{}\n", line.strip_prefix("    ").unwrap_or(line))).collect()
}

fn sh(folder: &Path, script: &str) -> Output {
    let here = Path::new(env!("CARGO_BIN_EXE_fustian")).parent().expect("a folder");
    let path = std::env::var("PATH").unwrap_or_default();
    let mut command = Command::new("sh");
    command.args(["-c", script]).current_dir(folder).env("PATH", format!("{}:{path}", here.display()));
    command.env("HOME", folder).env("NO_COLOR", "1").output().expect("a shell")
}

fn done(folder: &Path, script: &str) -> String {
    let output = sh(folder, script);
    assert!(output.status.success(), "{script}: {}{}", out(&output), err(&output));
    out(&output)
}

fn write(folder: &Path, name: &str, text: &str) {
    fs::write(folder.join(name), text).expect("written");
}

/// The smock and its library in a repository with the README's settings.
fn repository() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    done(
        folder.path(),
        "git init -q -b main && git config user.name 'Deck crew' && git config user.email deck@example.invalid \
         && git config commit.gpgsign false && git config core.autocrlf false",
    );
    for name in ["deck-smock.fus", "crew-library.fus"] {
        write(folder.path(), name, &example(name));
    }
    done(folder.path(), &snippet(".gitattributes"));
    done(folder.path(), "git add . && git commit -q -m 'As worn'");
    folder
}

#[test]
fn attributes_and_the_driver_tell_what_changed() {
    let folder = repository();
    let smock = example("deck-smock.fus");
    write(folder.path(), "deck-smock.fus", &smock.replacen("allowance 1\n", "allowance 1.5\n", 1));
    let told = done(folder.path(), "git diff");
    assert!(told.starts_with("Deck smock: allowance 1.5 instead of 1\n"), "{told}");
    // A slip ends no diff.
    write(
        folder.path(),
        "crew-library.fus",
        &example("crew-library.fus").replacen("width 150", "widht 150", 1),
    );
    write(folder.path(), "deck-smock.fus", &smock.replacen("allowance 1\n", "allowance broad\n", 1));
    let output = sh(folder.path(), "git diff");
    assert!(output.status.success(), "{}", err(&output));
    assert!(out(&output).contains("Deck smock: allowance broad instead of 1\n"), "{}", out(&output));
    // Line ends of another system are written as everybody's.
    write(folder.path(), "crew-library.fus", &example("crew-library.fus").replace('\n', "\r\n"));
    write(folder.path(), "deck-smock.fus", &smock.replace('\n', "\r\n"));
    done(folder.path(), "git add .");
    assert_eq!(done(folder.path(), "git diff --cached --name-only"), "");
}

/// One of the crew lays the file out anew and one changes a line of it: that is no conflict.
#[test]
fn what_is_tidied_merges() {
    let folder = repository();
    let smock = example("deck-smock.fus");
    let crooked = smock
        .replace("let ease          = 22 ", "let ease=22 ")
        .replace("  point neck_cf   = ", "    point neck_cf = ");
    assert_ne!(crooked, smock);
    done(folder.path(), "git checkout -q -b layout");
    write(folder.path(), "deck-smock.fus", &crooked);
    done(folder.path(), "git commit -q -a -m 'Another layout' && git checkout -q main");
    write(folder.path(), "deck-smock.fus", &smock.replace("= 22 ", "= 24 "));
    done(folder.path(), "git commit -q -a -m 'More ease' && git merge -q layout -m 'Both'");
    let merged = fs::read_to_string(folder.path().join("deck-smock.fus")).expect("a text");
    assert_eq!(merged, smock.replace("= 22 ", "= 24 "));
    // What both changed is left to them, and is one message.
    done(folder.path(), "git checkout -q -b less && true");
    write(folder.path(), "deck-smock.fus", &smock.replace("= 22 ", "= 20 "));
    done(folder.path(), "git commit -q -a -m 'Less ease' && git checkout -q main");
    write(folder.path(), "deck-smock.fus", &smock.replace("= 22 ", "= 26 "));
    done(folder.path(), "git commit -q -a -m 'Even more'");
    assert!(!sh(folder.path(), "git merge less").status.success());
    let told = sh(folder.path(), "fustian check --format plain deck-smock.fus");
    let told = out(&told) + &err(&told);
    assert_eq!(told.matches(" mistake: ").count(), 1, "{told}");
    assert!(told.contains("[file/unmerged]"), "{told}");
}

#[test]
fn what_has_mistakes_is_not_committed() {
    let folder = repository();
    let hook = folder.path().join(".git/hooks/pre-commit");
    fs::create_dir_all(hook.parent().expect("a folder")).expect("made");
    fs::write(&hook, format!("#!/bin/sh\n{}", snippet("checkout-index"))).expect("written");
    done(folder.path(), "chmod +x .git/hooks/pre-commit");
    let smock = example("deck-smock.fus");
    write(folder.path(), "deck-smock.fus", &smock.replacen("allowance 1\n", "allowance broad\n", 1));
    let output = sh(folder.path(), "git commit -q -a -m 'A slip'");
    assert!(!output.status.success() && (err(&output) + &out(&output)).contains("broad"), "{}", err(&output));
    // What is committed counts, and not what lies in the folder.
    write(folder.path(), "deck-smock.fus", &smock.replacen("allowance 1\n", "allowance 1.5\n", 1));
    done(folder.path(), "git add deck-smock.fus");
    write(folder.path(), "deck-smock.fus", &smock.replacen("allowance 1\n", "allowance broad\n", 1));
    done(folder.path(), "git commit -q -m 'Wider allowances'");
    // Nothing of ours in it, and one that is gone.
    write(folder.path(), "notes.txt", "to do\n");
    done(folder.path(), "git checkout -q deck-smock.fus && git add notes.txt && git commit -q -m 'Notes'");
    done(folder.path(), "git rm -q deck-smock.fus && git commit -q -m 'Without the smock'");
    assert_eq!(done(folder.path(), "git status --porcelain"), "");
}

/// The lines that a job of continuous integration runs.
#[test]
fn a_job_looks_at_every_file() {
    let folder = repository();
    let job = "fustian tidy --check $(git ls-files '*.fus') && fustian check --quiet $(git ls-files '*.fus')";
    done(folder.path(), job);
    write(
        folder.path(),
        "deck-smock.fus",
        &example("deck-smock.fus").replacen("allowance 1\n", "allowance   1\n", 1),
    );
    assert_eq!(sh(folder.path(), job).status.code(), Some(1));
}
