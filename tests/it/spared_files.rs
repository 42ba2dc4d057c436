//! What a command writes is never what it has read, nor two things in one file.

use crate::workbench::{err, examples, folder_of, run};
use std::fs;

/// Each of them has exit code 2, says which file, and leaves every file as it was.
fn refused(arguments: &[&str], says: &str) {
    let folder = examples();
    let before = contents(folder.path());
    let output = run(folder.path(), arguments);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", err(&output));
    assert!(err(&output).contains(says), "{arguments:?}: {}", err(&output));
    assert_eq!(contents(folder.path()), before, "{arguments:?}");
}

fn contents(folder: &std::path::Path) -> Vec<(std::ffi::OsString, Option<Vec<u8>>)> {
    let mut all: Vec<_> = fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry"))
        .map(|entry| (entry.file_name(), fs::read(entry.path()).ok()))
        .collect();
    all.sort();
    all
}

#[test]
fn a_file_that_the_run_reads_is_not_written_over() {
    let jacket = "deck-jacket.fus";
    // Itself, its base, what it is combined with, and what its base uses.
    for read in [jacket, "deck-smock.fus", "deck-zip.fus", "crew-library.fus", "./deck-zip.fus"] {
        let says = "is a file that this garment is made of, and is not written over";
        refused(&["draw", jacket, "-o", read], says);
        refused(&["draw", "--unfinished", jacket, "-o", read], says);
        refused(&["print", jacket, "-o", read], says);
        refused(&["export", jacket, "--to", "dxf", "-o", read], says);
        refused(&["resolve", jacket, "-o", read], says);
        refused(&["resolve", jacket, "-o", "jacket.json", "--depfile", read], says);
        refused(&["lay", jacket, "--svg", read], says);
    }
    for command in ["pack", "expand"] {
        refused(
            &[command, jacket, "-o", jacket],
            "is the file itself, and is left as it is; --force replaces it",
        );
        refused(
            &[command, jacket, "-o", "deck-smock.fus", "--force"],
            "is a file that this garment is made of",
        );
    }
}

#[test]
fn two_outputs_never_go_into_one_file() {
    refused(
        &["resolve", "galley-apron.fus", "-o", "a.json", "--depfile", "./a.json"],
        "cannot hold two outputs",
    );
}

#[test]
fn packed_onto_itself_where_that_is_forced() {
    let folder = examples();
    let output = run(folder.path(), &["pack", "deck-zip.fus", "-o", "deck-zip.fus", "--force"]);
    assert!(output.status.success(), "{}", err(&output));
    let packed = fs::read_to_string(folder.path().join("deck-zip.fus")).expect("it");
    assert!(packed.starts_with('#') || packed.contains("garment \""), "{packed}");
    assert!(run(folder.path(), &["check", "deck-zip.fus"]).status.success());
}

#[cfg(unix)]
#[test]
fn another_name_for_a_file_is_that_file_and_a_link_stays_a_link() {
    use std::os::unix::fs::symlink;
    let folder = examples();
    let at = |name: &str| folder.path().join(name);
    symlink(at("galley-apron.fus"), at("link.svg")).expect("a link");
    fs::hard_link(at("galley-apron.fus"), at("twin.svg")).expect("a twin");
    let before = fs::read(at("galley-apron.fus")).expect("the apron");
    for name in ["link.svg", "twin.svg"] {
        let output = run(folder.path(), &["draw", "galley-apron.fus", "-o", name]);
        assert_eq!(output.status.code(), Some(2), "{name}");
        assert_eq!(fs::read(at("galley-apron.fus")).expect("the apron"), before, "{name}");
    }
    // A link that leads nowhere yet: what it leads to is written, and it stays.
    symlink("drawn.svg", at("dangling.svg")).expect("a link");
    let output = run(folder.path(), &["draw", "galley-apron.fus", "-o", "dangling.svg"]);
    assert!(output.status.success(), "{}", err(&output));
    assert!(fs::symlink_metadata(at("dangling.svg")).expect("it").is_symlink());
    assert!(fs::read(at("drawn.svg")).expect("the drawing").starts_with(b"<svg"));
    // `new` is not led astray by one.
    symlink("nowhere.fus", at("start.fus")).expect("a link");
    assert_eq!(run(folder.path(), &["new", "start"]).status.code(), Some(2));
    assert!(!at("nowhere.fus").exists());
    // A device takes whatever it is given, twice.
    let both = ["resolve", "galley-apron.fus", "-o", "/dev/null", "--depfile", "/dev/null"];
    assert!(run(folder.path(), &both).status.success());
}

/// Nothing is left of a file that could not be written whole: its folder forbids it here.
#[cfg(unix)]
#[test]
fn what_cannot_be_begun_leaves_nothing() {
    let folder = folder_of(&[("plain", "a file, no folder")]);
    let output = run(folder.path(), &["new", "plain/start"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("there is no folder plain"), "{}", err(&output));
    let names: Vec<_> = contents(folder.path()).into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["plain"]);
}

/// A file may be called by the signs with which a terminal is told to do something: no message repeats them.
#[cfg(unix)]
#[test]
fn no_message_obeys_a_file_name() {
    let name = "sm\u{1b}]0;ahoy\u{7}ock\u{1b}[2J\u{202e}.fus";
    let folder = folder_of(&[(name, "garment \"Smock\"\n")]);
    let other = "other\u{1b}[2J";
    let tried: [&[&str]; 8] = [
        &["check", name],
        &["check", "gone\u{1b}[2J.fus"],
        &["tidy", "--check", name],
        &["resolve", name, "-o", other],
        &["resolve", name, "-o", "gone\u{1b}[2J/x.json"],
        &["pin", name],
        &["new", other],
        &["compare", name, "gone\u{1b}[2J.fus"],
    ];
    for arguments in tried {
        let said = err(&run(folder.path(), arguments));
        assert!(!said.contains(['\u{1b}', '\u{7}', '\u{202e}']), "{arguments:?}: {said:?}");
    }
}
