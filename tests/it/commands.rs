//! What the commands do at the rim: exit codes, pipes, files, colours, the folder limit.

use crate::workbench::terminal::on_a_terminal;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// The smallest garment that can be cut: all its edges are finished raw.
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

/// The same, with one word wrong.
const SLIPPED: &str = "garment \"Galley apron\"\nunits cm\nallowence 1\n";

fn fustian(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fustian"));
    command.current_dir(folder).env_remove("NO_COLOR").env_remove("TERM").stdin(Stdio::null());
    command
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    fustian(folder).args(arguments).output().unwrap()
}

fn piped(folder: &Path, arguments: &[&str], text: &[u8]) -> Output {
    let mut command = fustian(folder);
    command.args(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    // The program may stop reading early; that is its business.
    let _ = stdin.write_all(text);
    drop(stdin);
    child.wait_with_output().unwrap()
}

fn crew(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

#[test]
fn a_sound_garment_ends_with_nothing_to_mend() {
    let folder = crew(&[("apron.fus", APRON)]);
    let output = run(folder.path(), &["check", "apron.fus"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    assert!(output.stdout.is_empty(), "check says everything on standard error");
}

#[test]
fn mistakes_end_with_one_and_are_counted() {
    let folder = crew(&[("apron.fus", SLIPPED)]);
    let output = run(folder.path(), &["check", "apron.fus"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("apron.fus:3:1"), "{}", err(&output));
    assert!(err(&output).ends_with("1 mistake\n"), "{}", err(&output));
}

#[test]
fn what_cannot_be_read_or_asked_ends_with_two() {
    let folder = crew(&[("apron.fus", APRON)]);
    for arguments in [
        &["check", "gone.fus"][..],
        &["check", "."],
        &["check"],
        &["sew", "apron.fus"],
        &["explain", "seam/unequel"],
        &["check", "-", "-"],
        &["pieces", "apron.fus", "--format", "paper"],
    ] {
        let output = run(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", err(&output));
        assert!(!output.stderr.is_empty() && output.stdout.is_empty(), "{arguments:?}");
    }
}

#[test]
fn several_files_are_told_in_the_order_given() {
    let names: Vec<String> = (0..12).map(|number| format!("apron{number}.fus")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), SLIPPED)).collect();
    let folder = crew(&files);
    let mut backwards: Vec<&str> = names.iter().map(String::as_str).rev().collect();
    backwards.insert(0, "check");
    let output = run(folder.path(), &backwards);
    let text = err(&output);
    let places: Vec<usize> =
        names.iter().rev().map(|name| text.find(&format!("[{name}:")).unwrap()).collect();
    assert!(places.is_sorted(), "{text}");
    assert!(text.ends_with("12 mistakes\n"), "{text}");
    assert_eq!(output.status.code(), Some(1));
}

#[test]
fn messages_for_programs_go_to_standard_output() {
    let folder = crew(&[("apron.fus", SLIPPED)]);
    let output = run(folder.path(), &["check", "--format", "json", "apron.fus"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stderr.is_empty(), "{}", err(&output));
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let place = &told[0]["messages"][0]["places"][0];
    assert_eq!(told[0]["file"], "apron.fus");
    assert_eq!((place["line"].as_u64(), place["column"].as_u64()), (Some(3), Some(1)));
    let keys: Vec<&String> = told[0]["messages"][0].as_object().unwrap().keys().collect();
    assert_eq!(keys[..5], ["slug", "severity", "title", "sizes", "places"]);
}

#[test]
fn advice_can_be_left_out() {
    let pocketed = APRON.replace("{ body }", "{ body, pocket }")
        + "piece pocket \"Pocket\" {\n  cut 1\n  outline rectangle 20 by 20\n}\n\
           finish pocket.bottom, pocket.right, pocket.top, pocket.left  raw\n";
    let plain = "variation \"Plain apron\" of \"apron.fus\"\ndrop pocket and all sewn to it\n";
    let folder = crew(&[("apron.fus", &pocketed), ("plain.fus", plain)]);
    let told = run(folder.path(), &["check", "plain.fus"]);
    assert!(err(&told).contains("drop/along"), "{}", err(&told));
    assert!(err(&told).contains("1 piece of advice"), "{}", err(&told));
    let quiet = run(folder.path(), &["check", "--quiet", "plain.fus"]);
    assert!(!err(&quiet).contains("advice") && !err(&quiet).contains("drop/along"), "{}", err(&quiet));
    assert_eq!((told.status.code(), quiet.status.code()), (Some(0), Some(0)));
}

#[test]
fn a_garment_can_be_piped_in() {
    let folder = crew(&[("lib/crew.fus", "library \"Crew\"\n")]);
    let output = piped(folder.path(), &["check", "-"], SLIPPED.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("standard input:3:1"), "{}", err(&output));
    let with_library = "garment \"Apron\"\nuse \"lib/crew.fus\"\n";
    let output = piped(folder.path(), &["check", "-"], with_library.as_bytes());
    assert!(!err(&output).contains("file/"), "{}", err(&output));
}

#[test]
fn too_much_is_refused_and_named() {
    let folder = crew(&[]);
    let path = folder.path().join("endless.fus");
    fs::File::create(&path).unwrap().set_len(100 * 1024 * 1024).unwrap();
    let output = run(folder.path(), &["check", "endless.fus"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("8 MB"), "{}", err(&output));
    let output = piped(folder.path(), &["check", "-"], &vec![b'#'; 9 * 1024 * 1024]);
    assert_eq!(output.status.code(), Some(2), "{}", err(&output));
    assert!(err(&output).contains("8 MB"), "{}", err(&output));
}

#[cfg(unix)]
#[test]
fn no_file_outside_of_the_folder_is_opened() {
    let folder = crew(&[
        ("secret.fus", "library \"Secret words\"\n"),
        ("crew/above.fus", "garment \"A\"\nuse \"../secret.fus\"\n"),
        ("crew/link.fus", "garment \"B\"\nuse \"linked.fus\"\n"),
        ("crew/absolute.fus", "garment \"C\"\nuse \"/etc/passwd\"\n"),
        ("crew/inside.fus", "garment \"D\"\nuse \"deep/../deep/library.fus\"\n"),
        ("crew/deep/library.fus", "library \"Crew\"\n"),
    ]);
    std::os::unix::fs::symlink("../secret.fus", folder.path().join("crew/linked.fus")).unwrap();
    for file in ["crew/above.fus", "crew/link.fus", "crew/absolute.fus"] {
        let output = run(folder.path(), &["check", file]);
        assert_eq!(output.status.code(), Some(1), "{file}: {}", err(&output));
        assert!(err(&output).contains("file/outside"), "{file}: {}", err(&output));
        assert!(!err(&output).contains("Secret words"), "{file}");
    }
    let inside = run(folder.path(), &["check", "crew/inside.fus"]);
    assert!(!err(&inside).contains("file/"), "{}", err(&inside));
    for file in ["crew/above.fus", "crew/link.fus"] {
        let wider = run(folder.path(), &["check", "--root", ".", file]);
        assert!(!err(&wider).contains("file/"), "{}", err(&wider));
    }
    let narrower = run(folder.path(), &["check", "--root", "crew", "secret.fus"]);
    assert_eq!(narrower.status.code(), Some(2), "{}", err(&narrower));
}

#[cfg(unix)]
#[test]
fn what_is_no_ordinary_file_is_not_waited_for() {
    let folder = crew(&[("apron.fus", "garment \"A\"\nuse \"never.fus\"\n")]);
    let made = Command::new("mkfifo").arg(folder.path().join("never.fus")).status().unwrap();
    assert!(made.success());
    let output = run(folder.path(), &["check", "apron.fus"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("not an ordinary file"), "{}", err(&output));
}

#[test]
fn no_colour_where_it_is_not_a_terminal_and_ascii_where_it_can_do_no_more() {
    let folder = crew(&[("apron.fus", SLIPPED)]);
    let plain = run(folder.path(), &["check", "apron.fus"]);
    assert!(!err(&plain).contains('\u{1b}') && err(&plain).contains('╭'), "{}", err(&plain));
    let dumb = fustian(folder.path()).args(["check", "apron.fus"]).env("TERM", "dumb").output().unwrap();
    assert!(err(&dumb).is_ascii(), "{}", err(&dumb));
}

#[cfg(target_os = "linux")]
#[test]
fn colour_on_a_terminal_unless_it_is_not_wanted() {
    let folder = crew(&[("apron.fus", SLIPPED)]);
    let on_terminal = |no_colour: &str| {
        on_a_terminal(folder.path(), "check apron.fus", &[("TERM", "xterm"), ("NO_COLOR", no_colour)])
    };
    let Some(coloured) = on_terminal("") else { return };
    assert!(coloured.contains("\u{1b}[31m"), "an empty NO_COLOR does not count (no-color.org)");
    let plain = on_terminal("1").expect("a terminal");
    assert!(plain.contains("syntax/") && !plain.contains('\u{1b}'), "{plain:?}");
}

#[test]
fn nobody_reading_is_no_trouble() {
    let folder = crew(&[]);
    for arguments in [&["explain"][..], &["schema"]] {
        let mut command = fustian(folder.path());
        command.args(arguments).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert!(output.stderr.is_empty(), "{}", err(&output));
        assert_eq!(output.status.code(), Some(0));
    }
}

#[test]
fn a_result_is_put_in_its_place_only_when_it_is_whole() {
    let folder = crew(&[("apron.fus", APRON), ("slipped.fus", SLIPPED), ("apron.json", "old")]);
    let read = || fs::read_to_string(folder.path().join("apron.json")).unwrap();

    let refused = run(folder.path(), &["resolve", "slipped.fus", "-o", "apron.json"]);
    assert_eq!(refused.status.code(), Some(1));
    assert!(refused.stdout.is_empty(), "a garment with mistakes has no document");
    assert_eq!(read(), "old");

    let written = run(folder.path(), &["resolve", "apron.fus", "-o", "apron.json"]);
    assert_eq!(written.status.code(), Some(0), "{}", err(&written));
    assert!(written.stdout.is_empty());
    assert_eq!(read(), out(&run(folder.path(), &["resolve", "apron.fus"])));

    let mut left: Vec<String> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    left.sort();
    assert_eq!(left, ["apron.fus", "apron.json", "slipped.fus"], "nothing is left beside it");
}

/// `/dev/full` answers every write as a full disk does (full(4)).
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let folder = crew(&[("apron.fus", APRON)]);
    let full = || fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = fustian(folder.path()).args(["resolve", "apron.fus"]).stdout(full()).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("could not be written"), "{}", err(&output));
    let output = run(folder.path(), &["resolve", "apron.fus", "-o", "/dev/full"]);
    assert_eq!(output.status.code(), Some(2), "{}", err(&output));
}

#[test]
fn where_a_result_cannot_be_put_is_told() {
    let folder = crew(&[("apron.fus", APRON), ("results/keep", "")]);
    for (path, words) in [("results", "it is a folder"), ("nowhere/a.json", "there is no folder nowhere")] {
        let output = run(folder.path(), &["resolve", "apron.fus", "-o", path]);
        assert_eq!(output.status.code(), Some(2), "{}", err(&output));
        assert!(err(&output).contains(words), "{}", err(&output));
    }
    assert!(folder.path().join("results/keep").exists());
}

#[cfg(unix)]
#[test]
fn a_result_has_ordinary_permissions_or_those_it_had() {
    use std::os::unix::fs::PermissionsExt;
    let folder =
        crew(&[("apron.fus", APRON), ("kept.json", ""), ("beside.txt", ""), ("guarded.json", "old")]);
    let mode = |name: &str| fs::metadata(folder.path().join(name)).unwrap().permissions().mode() & 0o777;
    let set = |name: &str, mode| {
        fs::set_permissions(folder.path().join(name), fs::Permissions::from_mode(mode)).unwrap()
    };
    set("kept.json", 0o640);
    set("guarded.json", 0o444);
    std::os::unix::fs::symlink("kept.json", folder.path().join("link.json")).unwrap();
    assert!(run(folder.path(), &["resolve", "apron.fus", "-o", "new.json"]).status.success());
    assert!(run(folder.path(), &["resolve", "apron.fus", "-o", "link.json"]).status.success());
    assert!(run(folder.path(), &["resolve", "apron.fus", "-o", "/dev/null"]).status.success());
    assert_eq!(mode("new.json"), mode("beside.txt"));
    assert_eq!(mode("kept.json"), 0o640);
    assert!(folder.path().join("link.json").is_symlink(), "a link goes on leading to its file");
    assert!(fs::read_to_string(folder.path().join("kept.json")).unwrap().starts_with('{'));
    let guarded = run(folder.path(), &["resolve", "apron.fus", "-o", "guarded.json"]);
    assert_eq!(guarded.status.code(), Some(2));
    assert_eq!(fs::read_to_string(folder.path().join("guarded.json")).unwrap(), "old");
}

#[test]
fn a_size_that_is_not_there_is_told_with_the_nearest() {
    let sized = APRON.replace("units cm\n", "units cm\nsizes Small, Middle, Large\n");
    let folder = crew(&[("apron.fus", &sized)]);
    let output = run(folder.path(), &["pieces", "apron.fus", "--size", "Midle"]);
    assert_eq!(output.status.code(), Some(2), "{}", err(&output));
    assert!(err(&output).contains("did you mean Middle?"), "{}", err(&output));
    let output = run(folder.path(), &["resolve", "apron.fus", "--size", "Large", "--size", "Small"]);
    let document: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let names: Vec<&str> =
        document["sizes"].as_array().unwrap().iter().filter_map(|size| size["size"].as_str()).collect();
    assert_eq!(names, ["Small", "Large"], "in the garment's order");
}

#[test]
fn reasons_are_told() {
    let folder = crew(&[]);
    let one = out(&run(folder.path(), &["explain", "seam/unequal"]));
    assert!(one.starts_with("seam/unequal (mistake)\n") && one.lines().all(|line| line.len() <= 80), "{one}");
    let all = out(&run(folder.path(), &["explain"]));
    assert!(all.contains("\ncaution/cord ") && all.lines().count() > 80);
    let family = out(&run(folder.path(), &["explain", "zipper"]));
    assert!(family.lines().count() > 1 && family.lines().all(|line| line.starts_with("zipper/")), "{family}");
}

#[test]
fn check_shows_what_becomes_of_every_edge() {
    let folder = crew(&[("apron.fus", APRON)]);
    let output = run(folder.path(), &["check", "--fates", "apron.fus"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let shown = String::from_utf8(output.stdout).unwrap();
    let lines: Vec<Vec<&str>> = shown.lines().map(|line| line.split_whitespace().collect()).collect();
    assert_eq!(lines[0], ["part", "edge", "fate", "allowance"]);
    assert_eq!(lines[1], ["outer.body", "bottom", "hem", "2", "cm"]);
    assert_eq!(lines.len(), 5);
}
