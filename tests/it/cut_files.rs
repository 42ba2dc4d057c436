//! The commands that write pieces: what they say when they cannot, and that what was there stays.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

const APRON: &str = "\
garment \"Galley apron\"
units cm
allowance 1
fabric canvas \"cotton canvas\" { width 150 }
layer outer in canvas { body }
piece body \"Apron\" {
  cut 1
  outline rectangle 60 by 80
}
finish body.bottom, body.right, body.top, body.left  hem 2
";

fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fustian"));
    command.current_dir(folder).env("NO_COLOR", "1").stdin(Stdio::null()).args(arguments).output().unwrap()
}

fn crew() -> TempDir {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("apron.fus"), APRON).unwrap();
    folder
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// Each command, up to the path it writes to.
const WAYS: [&[&str]; 3] = [
    &["draw", "apron.fus", "-o"],
    &["print", "apron.fus", "-o"],
    &["export", "apron.fus", "--to", "dxf", "-o"],
];

#[test]
fn each_writes_its_file() {
    let folder = crew();
    for (way, start) in WAYS.iter().zip(["<svg", "%PDF-1.7", "  0\r\nSECTION"]) {
        let path = folder.path().join("result");
        let output = run(folder.path(), &[way, &["result"][..]].concat());
        assert_eq!(output.status.code(), Some(0), "{}", err(&output));
        let bytes = fs::read(&path).unwrap();
        assert!(bytes.starts_with(start.as_bytes()), "{way:?}");
        assert!(output.stdout.is_empty());
    }
}

#[test]
fn a_missing_folder_is_named() {
    let folder = crew();
    for way in WAYS {
        let output = run(folder.path(), &[way, &["nowhere/result"][..]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(err(&output).contains("there is no folder nowhere"), "{}", err(&output));
    }
}

/// `/dev/full` (Linux) is a disk without room.
#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_told() {
    let folder = crew();
    for way in WAYS {
        let output = run(folder.path(), &[way, &["/dev/full"][..]].concat());
        assert_eq!(output.status.code(), Some(2), "{way:?}");
        assert!(err(&output).contains("/dev/full could not be written"), "{}", err(&output));
    }
}

/// A garment with mistakes is not cut, and the drawing of before stays as it was.
#[test]
fn what_was_there_stays() {
    let folder = crew();
    let wrong = APRON.replace("allowance 1", "allowence 1");
    fs::write(folder.path().join("apron.fus"), wrong).unwrap();
    fs::write(folder.path().join("result"), "the old one").unwrap();
    for way in WAYS {
        let output = run(folder.path(), &[way, &["result"][..]].concat());
        assert_eq!(output.status.code(), Some(1), "{}", err(&output));
        assert_eq!(fs::read_to_string(folder.path().join("result")).unwrap(), "the old one");
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2, "nothing is left beside it");
}

#[test]
fn sizes_and_pieces_that_are_not_there_are_told() {
    let folder = crew();
    for way in WAYS {
        let output = run(folder.path(), &[way, &["result", "--pieces", "bodi"][..]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(err(&output).contains("there is no piece \"bodi\" to cut here; did you mean body?"));
        let output = run(folder.path(), &[way, &["result", "--size", "XXL"][..]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(!folder.path().join("result").exists());
    }
    let output = run(folder.path(), &["print", "apron.fus", "-o", "result", "--pieces", "outer.body,body"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
}
