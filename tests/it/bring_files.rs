//! What a maker names on the command line when a pattern comes in: drawings, and where it is written.

use crate::brought::{brought, draft, in_mm, piece};
use crate::workbench::{err, folder_of, run};
use fustian::bring::{BringOptions, bring};
use std::time::{Duration, Instant};

const HATCH: &str = "<svg xmlns='http://www.w3.org/2000/svg' width='30cm' height='20cm' viewBox='0 0 300 200'>\
    <path id='hatch' d='M0 0 H300 V200 H0 Z'/></svg>";

#[test]
fn a_drawing_that_is_named_twice_comes_in_once() {
    let folder = folder_of(&[("hatch.svg", HATCH), ("copy.svg", HATCH)]);
    let at = folder.path();
    for (files, words) in [
        (["hatch.svg", "hatch.svg"], "hatch.svg is named twice: name it once"),
        (["hatch.svg", "./hatch.svg"], "./hatch.svg and hatch.svg are one file: name it once"),
    ] {
        let refused = run(at, &["bring", files[0], files[1], "-o", "hatch.fus"]);
        assert_eq!(refused.status.code(), Some(2));
        assert!(err(&refused).contains(words), "{}", err(&refused));
        assert!(!at.join("hatch.fus").exists());
    }
    let both = run(at, &["bring", "hatch.svg", "copy.svg", "-o", "hatch.fus"]);
    assert_eq!(both.status.code(), Some(0), "{}", err(&both));
    assert!(
        err(&both).contains("copy.svg holds the same as hatch.svg, letter for letter, and is left out"),
        "{}",
        err(&both)
    );
    let text = std::fs::read_to_string(at.join("hatch.fus")).unwrap();
    assert_eq!(text.matches("\npiece ").count(), 1, "{text}");
    // Two drawings that differ are two.
    let cover = HATCH.replace("id='hatch'", "id='cover'");
    let files = [("hatch.svg", HATCH.as_bytes()), ("cover.svg", cover.as_bytes())];
    let own = bring(&files, &BringOptions::default()).unwrap();
    assert!(own.remarks.is_empty() && own.text.matches("\npiece ").count() == 2, "{}", own.text);
}

#[test]
fn a_picture_replaces_no_file_but_another_picture() {
    let folder = folder_of(&[
        ("hatch.svg", HATCH),
        ("kept.svg", "mine"),
        ("open.svg", &in_mm("<path d='M0 0 H9 V9 H1'/>")),
    ]);
    let at = folder.path();
    let read = |name: &str| std::fs::read_to_string(at.join(name)).unwrap();
    let refused = run(at, &["bring", "hatch.svg", "-o", "hatch.fus", "--look", "kept.svg"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(
        err(&refused)
            .contains("kept.svg is there already, and is no picture that --look drew, and is left as it is"),
        "{}",
        err(&refused)
    );
    assert!(read("kept.svg") == "mine" && !at.join("hatch.fus").exists());
    // Its own picture is drawn anew, as often as the drawing changes.
    for _ in 0..2 {
        let drawn = run(at, &["bring", "hatch.svg", "--look", "look.svg"]);
        assert_eq!(drawn.status.code(), Some(0), "{}", err(&drawn));
    }
    // So it is where nothing came in.
    let bib = in_mm("<path id='bib' d='M0 0 H300 V500 H0'/><rect id='tab' x='900' width='99' height='99'/>");
    std::fs::write(at.join("bib.svg"), bib).unwrap();
    for _ in 0..2 {
        let failed = run(at, &["bring", "bib.svg", "--look", "look.svg"]);
        assert!(err(&failed).contains("look.svg shows what was found"), "{}", err(&failed));
    }
    let forced = run(at, &["bring", "hatch.svg", "--look", "kept.svg", "--force"]);
    assert_eq!(forced.status.code(), Some(0), "{}", err(&forced));
    assert!(read("kept.svg").contains("hatch"));
    // A drawing never is, nor is anything forced where nothing is written.
    let drawing = run(at, &["bring", "hatch.svg", "--look", "hatch.svg", "--force"]);
    assert!(drawing.status.code() == Some(2) && read("hatch.svg") == HATCH);
    assert_eq!(run(at, &["bring", "hatch.svg", "--force"]).status.code(), Some(2));
}

#[test]
fn the_picture_shows_how_the_grain_lies() {
    let drawn = |grain: &str| brought("hatch.svg", &HATCH.replace("</svg>", &format!("{grain}</svg>"))).look;
    assert!(!drawn("").contains("grain"));
    for grain in ["M150 180 V20", "M20 100 H280", "M20 20 L200 180"] {
        let look = drawn(&format!("<path id='grain' d='{grain}'/>"));
        assert!(look.contains("<title>\ngrain\n</title>") || look.contains("<title>grain</title>"), "{look}");
    }
}

/// Sixty pieces of forty sizes each, none of them another piece's: the limit is one of all pieces together.
#[test]
fn sizes_are_counted_over_all_pieces() {
    let table = |pieces: u32, own: bool| {
        let mut rows = "piece,size,x mm,y mm\n".to_owned();
        for piece in 0..pieces {
            for size in 0..40 {
                let called = if own { format!("{piece} of {size}") } else { format!("{size} of all") };
                for (x, y) in [(0, 0), (200 + size, 0), (200 + size, 150), (0, 150)] {
                    rows += &format!("panel {piece},{called},{x},{y}\n");
                }
            }
        }
        rows
    };
    let begun = Instant::now();
    let wrong = table(60, true);
    let why = bring(&[("kit.csv", wrong.as_bytes())], &BringOptions::default()).unwrap_err().to_string();
    assert!(
        why.contains("it holds 2400 sizes; a garment has at most 100, no piece more than 40 of them"),
        "{why}"
    );
    assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    let sound = brought("kit.csv", &table(3, false));
    assert!(sound.text.contains("\nsizes "), "{}", sound.text);
}

/// A button's tab with a hundred thousand points on its rim, as they are, and rounded to a tenth of a millimetre: in steps then.
#[test]
fn far_too_many_points_in_a_small_space_are_a_curve_still() {
    for (places, count) in [(4, 100_000), (1, 100_000)] {
        let points = (0..count).map(|at| {
            let (sine, cosine) = (f64::from(at) / f64::from(count) * std::f64::consts::TAU).sin_cos();
            format!("{:.places$},{:.places$}", 100.0 + 25.0 * cosine, 100.0 + 15.0 * sine)
        });
        let drawing =
            in_mm(&format!("<polygon id='tab' points='{}'/>", points.collect::<Vec<_>>().join(" ")));
        let begun = Instant::now();
        let text = brought("tab.svg", &drawing).text;
        let most = Duration::from_secs(if cfg!(debug_assertions) { 30 } else { 5 });
        assert!(begun.elapsed() < most, "{:?}", begun.elapsed());
        // By hand π · 25 · 15 = 1178; a tenth of a millimetre along a rim of 128 comes to 13.
        let covered = crate::brought::area(&draft(&text), 0, "tab");
        assert!((covered - 1178.0).abs() < 13.0, "{covered}");
        let edges = piece(&draft(&text), 0, "tab").edges.len();
        assert!(edges <= 12, "{edges} edges\n{text}");
    }
}
