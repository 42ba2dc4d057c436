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

/// An awning over the whole deck, nested in so many sizes: some 1450 pages of A4.
fn awning(sizes: usize) -> String {
    let names: Vec<String> = (1..=sizes).map(|size| format!("s{size}")).collect();
    let names = names.join(", ");
    format!(
        "garment \"Deck awning\"\nunits m\nsizes {names}\nbody {{ chest 8 grade +0.001 }}\nallowance 1cm\n\
         fabric canvas \"canvas\" {{ width 10 }}\nlayer outer in canvas {{ body }}\n\
         piece body \"Body\" {{ cut 1; outline rectangle chest by 8 }}\n\
         finish body.bottom, body.right, body.top, body.left  hem 2cm\n"
    )
}

/// What takes more than a second is told of on a terminal, which is had through util-linux's
/// `script` where that is installed, and never in a pipe or a file.
#[test]
#[cfg(target_os = "linux")]
fn slow_printing_is_told_of_on_a_terminal_only() {
    let folder = crew();
    let print = ["print", "awning.fus", "-o", "awning.pdf"];
    // As many sizes as this machine needs more than a second for.
    let slow = [40, 100].into_iter().any(|sizes| {
        fs::write(folder.path().join("awning.fus"), awning(sizes)).unwrap();
        let begun = std::time::Instant::now();
        let piped = run(folder.path(), &print);
        assert_eq!(piped.status.code(), Some(0), "{}", err(&piped));
        assert!(piped.stdout.is_empty() && piped.stderr.is_empty(), "{}", err(&piped));
        begun.elapsed() > std::time::Duration::from_millis(1400)
    });
    let has_script = Command::new("script").arg("--version").stdout(Stdio::null()).status();
    if !slow || !has_script.is_ok_and(|status| status.success()) {
        eprintln!("not checked: script is not installed, or the machine is too fast");
        return;
    }
    let typed = format!("{} {}", env!("CARGO_BIN_EXE_fustian"), print.join(" "));
    let output = Command::new("script")
        .args(["-q", "-e", "-c", &typed, "/dev/null"])
        .current_dir(folder.path())
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(told.contains(" of 1") && told.contains(" pages"), "{told:?}");
    let left = told.trim_end_matches(['\r', '\n']).rsplit('\r').next().unwrap();
    assert!(left.trim().is_empty(), "the line is wiped out at the end: {told:?}");
}
