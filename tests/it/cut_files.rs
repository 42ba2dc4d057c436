//! The commands that write pieces: what they say when they cannot, and that what was there stays.

use crate::workbench::terminal::on_a_terminal;
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

/// What is in a folder, by name.
fn inside(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// A disk that is full when part of the file is written: the shell allows no file beyond one block
/// (512 or 1024 bytes), and writing more fails with EFBIG where SIGXFSZ is ignored (setrlimit(2)).
#[test]
#[cfg(target_os = "linux")]
fn a_disk_that_fills_up_leaves_what_was_there() {
    let folder = crew();
    fs::write(folder.path().join("result"), "the old one").unwrap();
    for way in WAYS {
        let typed = format!("trap '' XFSZ; ulimit -f 1; exec \"$0\" {} result", way.join(" "));
        let output = Command::new("sh")
            .args(["-c", &typed, env!("CARGO_BIN_EXE_fustian")])
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(2), "{way:?}: {}", err(&output));
        let told = err(&output);
        assert!(told.contains("result could not be written") && told.contains("too large"), "{told}");
        assert_eq!(fs::read_to_string(folder.path().join("result")).unwrap(), "the old one");
        assert_eq!(inside(folder.path()), ["apron.fus", "result"], "nothing is left beside it");
    }
}

/// Where nothing new may be written, and where the file itself is protected.
#[test]
#[cfg(target_os = "linux")]
fn what_may_not_be_written_is_told_and_stays() {
    use std::os::unix::fs::PermissionsExt;
    let folder = crew();
    let kept = folder.path().join("kept");
    fs::write(&kept, "the old one").unwrap();
    fs::set_permissions(&kept, fs::Permissions::from_mode(0o444)).unwrap();
    let closed = folder.path().join("closed");
    fs::create_dir(&closed).unwrap();
    fs::write(closed.join("result"), "the old one").unwrap();
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o555)).unwrap();
    // Root may write into a closed folder; into /proc (proc(5)) nobody may.
    let may = fs::write(closed.join("tried"), "").is_ok();
    let places: &[&str] = if may {
        &["/proc/result", "apron.fus/result"]
    } else {
        &["closed/result", "/proc/result", "apron.fus/result"]
    };
    for way in WAYS {
        let output = run(folder.path(), &[way, &["kept"][..]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(
            err(&output).contains("kept could not be written: it is write-protected"),
            "{}",
            err(&output)
        );
        for place in places {
            let output = run(folder.path(), &[way, &[*place][..]].concat());
            assert_eq!(output.status.code(), Some(2), "{place}");
            assert!(err(&output).contains(&format!("{place} could not be written")), "{}", err(&output));
        }
    }
    assert_eq!(fs::read_to_string(&kept).unwrap(), "the old one");
    assert_eq!(fs::read_to_string(closed.join("result")).unwrap(), "the old one");
    assert_eq!(fs::read_to_string(folder.path().join("apron.fus")).unwrap(), APRON);
    // So that the folder can be cleared away.
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o755)).unwrap();
}

/// Allowances of nothing, and larger than the piece, can be cut where the piece is round about;
/// where they lie over each other it is told, and no file is written.
#[test]
fn allowances_of_nothing_and_larger_than_the_piece() {
    let folder = crew();
    let finish = "finish body.bottom, body.right, body.top, body.left  ";
    let raw = APRON.replace("  hem 2\n", "  raw\n").replace("allowance 1\n", "allowance 0\n");
    let patch = APRON
        .replace("60 by 80", "2 by 3")
        .replace("  hem 2\n", "  raw\n")
        .replace("allowance 1\n", "allowance 5\n");
    assert!(raw.contains(finish) && patch.contains(finish));
    for (text, width, height) in [(&raw, "60", "80"), (&patch, "12", "13")] {
        fs::write(folder.path().join("apron.fus"), text).unwrap();
        for way in WAYS {
            let output = run(folder.path(), &[way, &["result"][..]].concat());
            assert_eq!(output.status.code(), Some(0), "{}", err(&output));
        }
        // 2 + 2 × 5 cm by 3 + 2 × 5 cm.
        let table = run(folder.path(), &["pieces", "apron.fus", "--format", "csv"]);
        let table = String::from_utf8(table.stdout).unwrap();
        assert!(table.contains(&format!(",{width},{height},")), "{table}");
    }
    // A slot of 2 cm between two tabs has no room for two allowances of 3 cm, but for less than 1 cm each.
    let slotted = "\
piece body \"Apron\" {
  cut 1
  point a = (0, 0)
  point b = (12, 0)
  point c = (12, 10)
  point d = (7, 10)
  point e = (7, 4)
  point f = (5, 4)
  point g = (5, 10)
  point h = (0, 10)
  outline from a {
    bottom to b; right to c; tab to d; inner to e; slot to f; other to g; second to h; left to a
  }
}
finish body.bottom, body.right, body.tab, body.inner, body.slot, body.other, body.second, body.left  hem 3
";
    let text = format!("{}{slotted}", APRON.split("piece body").next().unwrap());
    fs::write(folder.path().join("apron.fus"), text).unwrap();
    fs::write(folder.path().join("result"), "the old one").unwrap();
    for way in WAYS {
        let output = run(folder.path(), &[way, &["result"][..]].concat());
        assert_eq!(output.status.code(), Some(1), "{}", err(&output));
        let told = err(&output);
        assert!(told.contains("cutting/too-wide") && told.contains("there is room for 9 mm there"), "{told}");
        assert_eq!(fs::read_to_string(folder.path().join("result")).unwrap(), "the old one");
    }
}

/// More pages than anybody sticks together: told with a way out, and the old file stays.
#[test]
fn too_many_pages_are_told() {
    let folder = crew();
    // Two of them, since nothing is printed of the middle of one.
    let awning = APRON.replace("60 by 80", "9000 by 9000").replace("width 150", "width 9500");
    let spare = "piece spare \"Spare\" { cut 1; outline rectangle 9000 by 9000 }\n\
        finish spare.bottom, spare.right, spare.top, spare.left  hem 2\n";
    let awning = awning.replace("{ body }", "{ body, spare }") + spare;
    fs::write(folder.path().join("apron.fus"), awning).unwrap();
    fs::write(folder.path().join("result"), "the old one").unwrap();
    let output = run(folder.path(), &["print", "apron.fus", "-o", "result"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        err(&output).contains("take larger paper with --paper, or print fewer pieces with --pieces"),
        "{}",
        err(&output)
    );
    assert_eq!(fs::read_to_string(folder.path().join("result")).unwrap(), "the old one");
    // Drawn it is one sheet as large as it takes.
    let output = run(folder.path(), &["draw", "apron.fus", "-o", "result"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
}

/// An awning over so many metres of the deck, nested in so many sizes: over 13 m some 1450 pages of A4.
fn awning(sizes: usize, long: u32) -> String {
    let names: Vec<String> = (1..=sizes).map(|size| format!("s{size}")).collect();
    let names = names.join(", ");
    format!(
        "garment \"Deck awning\"\nunits m\nsizes {names}\nbody {{ ship 4.8 grade +0.001 }}\nallowance 1cm\n\
         fabric canvas \"canvas\" {{ width 5 }}\nlayer outer in canvas {{ body }}\n\
         piece body \"Body\" {{ cut 1; outline rectangle ship by {long} }}\n\
         finish body.bottom, body.right, body.top, body.left  hem 2cm\n"
    )
}

/// What takes more than a second is told of on a terminal, and never in a pipe or a file. When it is told is tried with a clock of
/// its own beside the line that says it; here it is whether printing says it at all, for which the machine has to be slow enough.
#[test]
#[cfg(target_os = "linux")]
fn slow_printing_is_told_of_on_a_terminal_only() {
    let folder = crew();
    let print = ["print", "awning.fus", "-o", "awning.pdf"];
    // As much as this machine needs clearly more than a second for: it is told how printing goes on, not what comes before.
    let slow = [(40, 13), (100, 13), (100, 26), (100, 52)].into_iter().any(|(sizes, long)| {
        fs::write(folder.path().join("awning.fus"), awning(sizes, long)).unwrap();
        let begun = std::time::Instant::now();
        let piped = run(folder.path(), &print);
        assert_eq!(piped.status.code(), Some(0), "{}", err(&piped));
        // An awning is no piece of clothing, which is warned of, and nothing else.
        let told = err(&piped);
        assert!(
            piped.stdout.is_empty() && told.starts_with("piece/huge") && !told.contains(" pages"),
            "{told}"
        );
        begun.elapsed() > std::time::Duration::from_millis(2500)
    });
    let printed = || on_a_terminal(folder.path(), &print.join(" "), &[]);
    let Some(first) = printed() else { return };
    if !slow {
        eprintln!("not checked: the machine prints 100 awnings in no time");
        return;
    }
    // What was slow beside other work may be quick the next time.
    let each = std::iter::once(first).chain((1..3).filter_map(|_| printed()));
    let told = each.into_iter().find(|told| told.contains(" pages"));
    let told = told.expect("it is told of once in three times");
    assert!(told.contains(" of ") && told.contains(" pages"), "{told:?}");
    // Before or after stands that an awning is no piece of clothing.
    let told = told.split("piece/huge").find(|part| part.contains(" pages")).unwrap();
    let left = told.trim_end_matches(['\r', '\n']).rsplit('\r').next().unwrap();
    assert!(left.trim().is_empty(), "the line is wiped out at the end: {told:?}");
}
