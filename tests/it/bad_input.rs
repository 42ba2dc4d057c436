//! What no maker would write and a file may yet hold: one clear message each, an end with 1 or 2,
//! soon and in little memory. The program itself is run, as a maker would.

use fustian::limits;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

const APRON: &str = r#"garment "Galley apron"
units cm
allowance 1
fabric canvas { width 150 }
layer outer in canvas { bib }
piece bib "Bib" {
  cut 1
  outline rectangle 30 by 40
}
finish bib.bottom, bib.right, bib.top, bib.left  raw
"#;

fn folder(files: &[(&str, &[u8])]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, bytes) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

/// Runs the program; on Linux in no more than a gigabyte of address space (`ulimit -v` of the shell),
/// which a run that grows without bound does not survive.
fn check(folder: &Path, file: &str) -> Output {
    let program = env!("CARGO_BIN_EXE_fustian");
    let mut command = match cfg!(target_os = "linux") {
        true => {
            let mut shell = Command::new("sh");
            shell.args(["-c", "ulimit -v 1000000; exec \"$0\" \"$@\"", program]);
            shell
        }
        false => Command::new(program),
    };
    let started = Instant::now();
    let output = command.args(["check", file]).current_dir(folder).stdin(Stdio::null()).output().unwrap();
    let taken = started.elapsed();
    // Generous: a debug build on a busy machine.
    assert!(taken < Duration::from_secs(60), "{file} took {taken:?}");
    output
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// Fails unless the file ends with that code and one message, of that slug and with those words.
#[track_caller]
fn one_message(text: impl AsRef<[u8]>, code: i32, slug: &str, words: &str) {
    let folder = folder(&[("apron.fus", text.as_ref())]);
    one_message_in(folder.path(), "apron.fus", code, slug, words);
}

#[track_caller]
fn one_message_in(folder: &Path, file: &str, code: i32, slug: &str, words: &str) {
    let output = check(folder, file);
    let told = err(&output);
    assert_eq!(output.status.code(), Some(code), "{told}");
    let slugs: Vec<&str> = told.lines().filter(|line| is_slug(line)).collect();
    assert_eq!(slugs, [slug], "{told}");
    assert!(told.contains(words), "{told}");
    assert!(told.ends_with("1 mistake\n"), "{told}");
    assert!(told.len() < 4_000, "{} bytes are more than anyone reads", told.len());
}

fn is_slug(line: &str) -> bool {
    let is_word =
        |word: &str| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-');
    line.split_once('/').is_some_and(|(family, name)| is_word(family) && is_word(name))
}

fn with(line: &str) -> String {
    format!("{APRON}{line}\n")
}

fn drawn(outline: &str) -> String {
    APRON.replace("rectangle 30 by 40", outline)
}

#[test]
fn the_apron_itself_is_sound() {
    let folder = folder(&[("apron.fus", APRON.as_bytes())]);
    let output = check(folder.path(), "apron.fus");
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
}

#[test]
fn a_hundred_thousand_opening_brackets() {
    let words = format!("more than {} deep", limits::DEPTH);
    one_message(with(&format!("let a = {}", "(".repeat(100_000))), 1, "syntax/too-deep", &words);
    one_message(with(&"{".repeat(100_000)), 1, "syntax/too-deep", &words);
}

#[test]
fn a_file_of_a_hundred_megabytes() {
    let folder = folder(&[("uses.fus", with("use \"endless.fus\"").as_bytes())]);
    let endless = folder.path().join("endless.fus");
    fs::File::create(endless).unwrap().set_len(100 << 20).unwrap();
    let words = format!("larger than {} MB", limits::FILE_BYTES >> 20);
    one_message_in(folder.path(), "endless.fus", 2, "file/too-large", &words);
    one_message_in(folder.path(), "uses.fus", 1, "file/too-large", &words);
}

#[test]
fn bytes_that_are_no_letters() {
    one_message(APRON.replace("by 40", "by \0 40"), 1, "syntax/character", "U+0000");
    one_message("\0".repeat(1000), 1, "syntax/character", "and 999 more");
    let broken = [APRON.as_bytes(), b"# sewn by \xff\xfe\n"].concat();
    one_message(broken, 2, "file/not-text", "line 11, column 11");
    let wide: Vec<u8> = APRON.encode_utf16().flat_map(u16::to_le_bytes).collect();
    one_message([b"\xff\xfe".as_slice(), &wide].concat(), 2, "file/not-text", "line 1, column 1");
}

#[test]
fn files_written_elsewhere_are_read() {
    let slip = with("let length = ");
    for (kind, sound, slipped) in [
        ("CRLF", APRON.replace('\n', "\r\n"), slip.replace('\n', "\r\n")),
        ("BOM", format!("\u{feff}{APRON}"), format!("\u{feff}{slip}")),
        ("both", format!("\u{feff}{}", APRON.replace('\n', "\r\n")), slip.replace('\n', "\r\n")),
        ("no last line end", APRON.trim_end().to_owned(), slip.trim_end().to_owned()),
    ] {
        let folder = folder(&[("sound.fus", sound.as_bytes()), ("slipped.fus", slipped.as_bytes())]);
        let output = check(folder.path(), "sound.fus");
        assert_eq!(output.status.code(), Some(0), "{kind}: {}", err(&output));
        let output = check(folder.path(), "slipped.fus");
        assert!(err(&output).contains("slipped.fus:11:"), "{kind}: {}", err(&output));
    }
}

#[test]
fn a_file_that_leads_to_itself() {
    one_message("variation \"A\" of \"apron.fus\"\n", 1, "file/circle", "a variation of itself");
    one_message(with("use \"apron.fus\""), 1, "file/circle", "uses itself");
    one_message(with("use \"./apron.fus\""), 1, "file/circle", "uses itself");
    let folder = folder(&[
        ("a.fus", b"variation \"A\" of \"b.fus\"\n"),
        ("b.fus", b"variation \"B\" of \"c.fus\"\n"),
        ("c.fus", b"variation \"C\" of \"a.fus\"\n"),
    ]);
    one_message_in(folder.path(), "b.fus", 1, "file/circle", "b.fus is of c.fus is of a.fus is of b.fus");
}

#[cfg(unix)]
#[test]
fn a_base_outside_of_the_folder() {
    let folder = folder(&[
        ("apron.fus", APRON.as_bytes()),
        ("crew/above.fus", b"variation \"A\" of \"../apron.fus\"\n"),
        ("crew/linked.fus", b"variation \"A\" of \"link.fus\"\n"),
        ("crew/through.fus", b"variation \"A\" of \"deck/apron.fus\"\n"),
    ]);
    std::os::unix::fs::symlink("../apron.fus", folder.path().join("crew/link.fus")).unwrap();
    std::os::unix::fs::symlink("..", folder.path().join("crew/deck")).unwrap();
    for file in ["crew/above.fus", "crew/linked.fus", "crew/through.fus"] {
        one_message_in(folder.path(), file, 1, "file/outside", "lies outside the folder");
    }
}

#[test]
fn ten_thousand_sizes() {
    let names: Vec<String> = (0..10_000).map(|size| format!("s{size}")).collect();
    let words = format!("10000 sizes are more than the {}", limits::SIZES);
    let sizes = format!("sizes {}\nbody {{ chest 80 grade +1 }}", names.join(", "));
    one_message(with(&sizes), 1, "limit/sizes", &words);
    let chest: Vec<String> = (0..10_000).map(|size| format!("{}.5", 80 + size)).collect();
    let sizes = format!("sizes {}\nbody {{ chest {} }}", names.join(", "), chest.join(", "));
    one_message(with(&sizes), 1, "limit/sizes", &words);
}

#[test]
fn more_pieces_than_a_garment_has() {
    let pieces: String = (0..=limits::PIECES)
        .map(|at| format!("block piece p{at} {{ cut 1; outline rectangle 3 by 4 }}\n"))
        .collect();
    one_message(with(&pieces), 1, "limit/pieces", &limits::PIECES.to_string());
}

#[test]
fn more_edges_than_a_piece_has() {
    let edges = limits::EDGES_OF_PIECE + 1;
    let mut walk = String::from("block piece ring \"Ring\" {\n  cut 1\n");
    for at in 0..edges {
        walk += &format!(
            "  point p{at} = (40cm * cos({0}deg), 40cm * sin({0}deg))\n",
            at as f64 * 360.0 / edges as f64
        );
    }
    walk += "  outline from p0 {\n";
    for at in 0..edges {
        walk += &format!("    e{at} to p{}\n", (at + 1) % edges);
    }
    one_message(with(&format!("{walk}  }}\n}}")), 1, "limit/edges", &limits::EDGES_OF_PIECE.to_string());
}

/// Half a thousand lines and two thousand copies are a file of 100 kB, and a million edges.
#[test]
fn copies_of_copies() {
    let lines: String = (0..500).map(|at| format!("  line l{at} across at (0, 1.{at:03})\n")).collect();
    let first = format!("block piece c0 {{\n  cut 1\n  outline rectangle 3 by 4\n{lines}}}\n");
    let copies: String =
        (1..2_500).map(|at| format!("block piece c{at} {{ cut 1; outline copy of c0 }}\n")).collect();
    let words = limits::EDGES_OF_ALL_SIZES.to_string();
    one_message(with(&format!("{first}{copies}")), 1, "limit/edges", &words);
}

/// Each size looked for among all before it would be ten thousand million looks.
#[test]
fn a_hundred_thousand_sizes() {
    let names: Vec<String> = (0..100_000).map(|size| format!("s{size}")).collect();
    let words = format!("100000 sizes are more than the {}", limits::SIZES);
    one_message(with(&format!("sizes {}", names.join(", "))), 1, "limit/sizes", &words);
}

/// Each version of a piece knows all that was done to it: so many take gigabytes.
#[test]
fn sixteen_thousand_alterations_of_one_piece() {
    let grown = "extend bib.bottom by 0.05\n".repeat(16_000);
    let words = format!("Bib is altered more than {} times", limits::ALTERATIONS_OF_PIECE);
    one_message(with(&grown), 1, "limit/alterations", &words);
}

/// What is told of a circle that goes through ten thousand names is read by people.
#[test]
fn a_circle_of_ten_thousand() {
    let lets: String = (0..10_000).map(|at| format!("let v{at} = v{} + 1\n", (at + 1) % 10_000)).collect();
    let folder = folder(&[("apron.fus", with(&lets).as_bytes())]);
    let output = check(folder.path(), "apron.fus");
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("more … →") && output.stderr.len() < 10_000, "{}", output.stderr.len());
}

/// Three hundred pieces, each split from what the one before left: whatever is told of them, it ends soon.
#[test]
fn a_long_chain_of_splits() {
    let count = 300;
    let lines: String =
        (0..count).map(|at| format!("  line k{at} across at (0, {})\n", 0.1 + at as f64 * 0.13)).collect();
    let text =
        APRON.replace("  outline rectangle 30 by 40\n", &format!("  outline rectangle 30 by 40\n{lines}"));
    let splits: String = (0..count)
        .map(|at| match at {
            0 => "split bib at k0 into r0, q0\n".to_owned(),
            _ => format!("split q{} at k{at} into r{at}, q{at}\n", at - 1),
        })
        .collect();
    let folder = folder(&[("apron.fus", format!("{text}{splits}").as_bytes())]);
    let output = check(folder.path(), "apron.fus");
    assert!(output.status.code().is_some_and(|code| code < 2), "{}", err(&output));
}

/// To look for the nearest of so many names for each of so many takes minutes.
#[test]
fn names_that_are_all_unknown() {
    let lets: String = (0..20_000).map(|at| format!("let v{at} = w{at}\n")).collect();
    let folder = folder(&[("apron.fus", with(&lets).as_bytes())]);
    let output = check(folder.path(), "apron.fus");
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).ends_with("20000 mistakes\n"));
}

#[test]
fn numbers_that_are_none() {
    one_message(with("let a = 1/0"), 1, "text/slip", "`1/0` is not a number");
    one_message(with("let a = 5cm / (2 - 2)"), 1, "value/not-finite", "divides by 0");
    one_message(with("let a = 1e308"), 1, "text/slip", "`e308` touches a number");
    one_message(drawn(&format!("rectangle 30 by 1{}", "0".repeat(400))), 1, "text/slip", "is not a number");
    let most = format!("1{}", "0".repeat(308));
    one_message(drawn(&format!("rectangle 30 by {most}")), 1, "value/not-finite", "has no finite value");
    one_message(
        with(&format!("let a = number {most}\nlet b = a * a")),
        1,
        "value/not-finite",
        "has no finite value",
    );
    one_message(drawn("rectangle 30 by 1000000m"), 1, "limit/length", "more than any garment has");
    one_message(with("let a = sqrt(-4)"), 1, "value/not-finite", "");
    one_message(APRON.replace("cut 1", "cut 100000000000"), 1, "pair/count", "100000000000 times");
}

#[test]
fn names_of_a_megabyte() {
    let name = "b".repeat(1 << 20);
    let words = format!("a name may be {} bytes long", limits::NAME_BYTES);
    for text in [
        with(&format!("let {name} = 3")),
        with(&format!("let a = {name} + 1")),
        with(&format!("sizes \"{name}\"")),
        with(&format!("fabric {name} {{ width 150 }}\nlayer second in {name} {{ bib }}\n")),
        APRON.replace("bib", &name),
    ] {
        one_message(text, 1, "syntax/name-too-long", &words);
    }
    one_message(format!("variation \"A\" of \"{name}.fus\"\n"), 1, "file/unreadable", "cannot be");
}

#[test]
fn outlines_that_collapse() {
    one_message(drawn("rectangle 30 by 0"), 1, "outline/collapses", "0 cm high");
    one_message(drawn("rectangle -30 by 40"), 1, "outline/collapses", "-30 cm wide");
    let walk = |a: &str, b: &str, c: &str, d: &str| {
        drawn("from a {\n    bottom to b\n    right to c\n    top to d\n    left to a\n  }").replace(
            "  cut 1\n",
            &format!("  cut 1\n  point a = {a}\n  point b = {b}\n  point c = {c}\n  point d = {d}\n"),
        )
    };
    one_message(walk("(0, 0)", "(10, 0)", "(20, 0)", "(5, 0)"), 1, "outline/collapses", "no cloth");
    one_message(walk("(0, 0)", "(10, 10)", "(10, 0)", "(0, 5)"), 1, "outline/crosses", "");
    one_message(walk("(0, 0)", "(0, 0)", "(10, 0)", "(0, 10)"), 1, "outline/collapses", "");
}

#[test]
fn nothing_at_all() {
    one_message("", 1, "file/heading", "does not say what it is");
    one_message("  \n\n# a note\n", 1, "file/heading", "does not say what it is");
}
