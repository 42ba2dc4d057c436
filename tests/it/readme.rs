//! What the README shows is what the program says.

use std::fs;
use std::path::Path;
use std::process::Command;

/// What a command of the README says now: results and messages, as a reader sees them.
fn said(command: &str) -> String {
    let arguments: Vec<&str> = command.split_whitespace().skip(1).collect();
    let output = Command::new(env!("CARGO_BIN_EXE_fustian"))
        .args(&arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .env_remove("TERM")
        .output()
        .expect("the program starts");
    let both = [output.stdout, output.stderr].concat();
    String::from_utf8(both).expect("text").trim_end().to_owned()
}

/// Set `FUSTIAN_WRITE_README=1` to write the README anew after a message or a table has changed.
#[test]
fn what_the_readme_shows_is_what_is_said() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = fs::read_to_string(&path).expect("the README");
    let mut anew = String::new();
    let mut lines = readme.lines().peekable();
    let mut shown = 0;
    while let Some(line) = lines.next() {
        anew.push_str(line);
        anew.push('\n');
        if line != "```console" {
            continue;
        }
        let command = lines.next().expect("a command").to_owned();
        while lines.next_if(|line| *line != "```").is_some() {}
        let said = said(command.trim_start_matches("$ "));
        shown += 1;
        anew.push_str(&format!("{command}\n{said}\n"));
    }
    assert!(shown >= 3, "only {shown} commands were found");
    if std::env::var_os("FUSTIAN_WRITE_README").is_some() {
        fs::write(&path, &anew).expect("the README can be written");
    }
    assert_eq!(readme, anew);
}

/// What the README tells to type, beside what it shows the words of, can be typed.
#[test]
fn the_readmes_commands_write_what_they_say() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = fs::read_to_string(root.join("README.md")).expect("the README");
    let folder = tempfile::TempDir::new().expect("a folder");
    let typed = readme.lines().filter_map(|line| line.strip_prefix("    fustian "));
    let mut written = Vec::new();
    for line in typed {
        let line = line.split(" #").next().unwrap_or(line).trim_end();
        let mut arguments: Vec<&str> = line.split_whitespace().collect();
        // Written into a folder of its own, and not searched for a minute.
        let into = arguments.iter().position(|word| ["-o", "--svg"].contains(word)).map(|at| at + 1);
        let path = into.map(|at| folder.path().join(arguments[at]));
        if let (Some(at), Some(path)) = (into, &path) {
            arguments[at] = path.to_str().expect("text");
        }
        if let Some(at) = arguments.iter().position(|word| *word == "--seconds") {
            arguments[at + 1] = "0.1";
        }
        let output = Command::new(env!("CARGO_BIN_EXE_fustian"))
            .args(&arguments)
            .current_dir(root)
            .output()
            .expect("the program starts");
        assert!(output.status.success(), "{line}: {}", String::from_utf8_lossy(&output.stderr));
        written.push(path.map_or(output.stdout, |path| fs::read(path).expect("a file")));
    }
    assert_eq!(written.len(), 9, "two lays, materials; draw, print, export and sheet; bring; steps");
    assert!(written[6].starts_with(b"<!DOCTYPE html>"));
    assert!(String::from_utf8_lossy(&written[7]).contains("garment \""));
    assert!(String::from_utf8_lossy(&written[8]).contains("slipstitch gap"));
    assert!(written[0].starts_with(b"<svg") && written[2].starts_with(b"Deck jacket"));
    let written = &written[3..];
    assert!(written[0].starts_with(b"<svg") && written[1].starts_with(b"%PDF"));
    // The picture that stands in the README is the one that it tells to draw.
    assert!(readme.contains("](examples/deck-jacket.svg)"));
    assert!(written[0] == fs::read(root.join("examples/deck-jacket.svg")).expect("the picture"));
}
