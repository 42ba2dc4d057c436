//! Drawings that are no patterns: a clear message, soon, and nothing written.

use crate::brought::{brought, brought_with, draft, in_mm};
use crate::workbench::{err, folder_of, out, run};
use fustian::bring::BringOptions;
use std::time::{Duration, Instant};

/// What is said of a drawing that does not come in.
fn refused(drawing: &str) -> String {
    let begun = Instant::now();
    let why = brought_with("drawing.svg", drawing, &BringOptions::default());
    assert!(begun.elapsed() < Duration::from_secs(20), "it takes {:?}", begun.elapsed());
    match why {
        Err(why) => why.to_string(),
        Ok(brought) => panic!("it came in:\n{}", brought.text),
    }
}

#[test]
fn what_is_no_pattern_is_told() {
    for (drawing, words) in [
        (String::new(), "drawing.svg: there is nothing in it"),
        ("<svg xmlns='http://www.w3.org/2000/svg'>".to_owned(), "drawing.svg:1: the file breaks off here"),
        (
            "<svg xmlns='http://www.w3.org/2000/svg'>\n<g>\n<path d='M0 0 H3".to_owned(),
            ".svg:3: the file breaks off here",
        ),
        ("<html><body/></html>".to_owned(), "it holds <html>"),
        (in_mm(""), "it draws no path"),
        (in_mm("<path d='M0 0 H100'/>"), "it draws no closed path"),
        // Its ends are near each other since all of it is smaller than a pencil line.
        (in_mm("<path d='M0 0 H0.03 V0.03 H0.01 V0.02'/>"), "it draws no closed path"),
        (
            in_mm("<path id='front' d='M0 0 H300 V500 H0 V4'/>"),
            "front goes round like an outline, but does not close",
        ),
        (
            in_mm("<path id='front' d='M0 0 H300 V500 H0'/><rect x='900' width='99' height='99'/>"),
            "500.0 mm apart",
        ),
        (in_mm("<path id='front' d='M0 0 L300 500 H0 L200 0 Z'/>"), "the outline of front crosses itself"),
        (in_mm("<path id='front' d='M0 0 H300 VNaN H0 Z'/>"), "are damaged"),
        (in_mm("<path id='front' d='M0 0 H300 V5 Q H0 Z'/><rect width='90' height='90'/>"), "are damaged"),
        (in_mm("<path id='front' d='M0 0 H3e300 V1e300 H0 Z' transform='scale(1e200)'/>"), "is not a number"),
        // Its middle would be half of a sum that is beyond all numbers.
        (
            in_mm(
                "<g transform='matrix(-1 0 0 1 0 1.2e308)'><path d='m0,0h200a3 3 0 015 5z'/><circle cx='2' r='3'/></g>",
            ),
            "is not a number",
        ),
        (in_mm("<path id='front' d='M0 0 H300000 V500 H0 Z'/>"), "more than 100 m long"),
        (in_mm("<path id='front' d='M0 0 H300 H0 Z'/>"), "holds no area"),
        (in_mm("<use href='#a'/><g id='a'><use href='#a'/></g>"), "nests them too deep"),
    ] {
        let why = refused(&drawing);
        assert!(why.contains(words), "{drawing}\n{why}");
        assert!(why.starts_with("drawing.svg:") || why.contains("front"), "{why}");
    }
}

#[test]
fn what_is_too_much_is_told() {
    let paths = |count: usize| in_mm(&"<path d='M0 0 H10 V10 H0 Z'/>".repeat(count));
    assert!(refused(&paths(25_000)).contains("20000 paths"), "too many paths");
    // 10000 pieces are paths enough, but no pattern.
    let beside: String = (0..10_000).map(|at| format!("<path d='M{} 0 h10 v10 h-10 Z'/>", at * 20)).collect();
    assert!(refused(&in_mm(&beside)).contains("pieces"), "too many pieces");
    let points = "L1 2 3 4 ".repeat(600_000);
    assert!(refused(&in_mm(&format!("<path d='M0 0 {points}Z'/>"))).contains("points"), "too many points");
    let large = format!("<!--{}-->", " ".repeat(33 * 1024 * 1024));
    assert!(refused(&large).contains("larger than 32 MB"), "too large");
    // Every entity is ten of the one before: the parser stops long before it has all.
    let mut entities = "<!ENTITY a0 'lol'>".to_owned();
    for at in 1..12 {
        entities += &format!("<!ENTITY a{at} '{}'>", format!("&a{};", at - 1).repeat(10));
    }
    let bomb = format!(
        "<!DOCTYPE svg [{entities}]><svg xmlns='http://www.w3.org/2000/svg'><text>&a11;</text></svg>"
    );
    assert!(refused(&bomb).contains("cannot be read as XML"), "entities");
    // Every group is two of the one before.
    let groups: String = (1..60)
        .map(|at| format!("<g id='g{at}'><use href='#g{0}'/><use href='#g{0}'/></g>", at - 1))
        .collect();
    let uses = in_mm(&format!("<g id='g0'><path d='M0 0 H9 V9 Z'/></g>{groups}"));
    assert!(refused(&uses).contains("20000 paths"), "uses");
    let deep = in_mm(&format!("{}{}", "<g>".repeat(5000), "</g>".repeat(5000)));
    assert!(refused(&deep).contains("too deep"), "deep groups");
}

/// It is not even read to its end.
#[test]
fn a_drawing_of_a_hundred_megabytes_is_refused() {
    let folder = folder_of(&[("hatch.svg", HATCH)]);
    let large = std::fs::OpenOptions::new().append(true).open(folder.path().join("hatch.svg")).unwrap();
    large.set_len(100 * 1024 * 1024).unwrap();
    let begun = Instant::now();
    let refused = run(folder.path(), &["bring", "hatch.svg", "-o", "hatch.fus"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(err(&refused).contains("larger than 32 MB"), "{}", err(&refused));
    assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    assert!(!folder.path().join("hatch.fus").exists());
}

#[test]
fn nothing_outside_of_the_drawing_is_opened() {
    let drawing = "<!DOCTYPE svg [<!ENTITY other SYSTEM 'file:///etc/hostname'>]>\
        <svg xmlns='http://www.w3.org/2000/svg' width='900mm' height='900mm' viewBox='0 0 900 900'>\
        <script>alert(1)</script><style>@import url(https://example.invalid/a.css);</style>\
        <image href='https://example.invalid/a.png' width='5' height='5'/>\
        <use href='other.svg#front'/>\
        <rect id='hatch' width='300' height='200'/></svg>";
    let brought = brought("hatch.svg", drawing);
    draft(&brought.text);
    assert!(
        brought.remarks.iter().any(|words| words.contains("no other file is opened")),
        "{:?}",
        brought.remarks
    );
    let refers = drawing.replace("<script>alert(1)</script>", "<text x='5' y='5'>&other;</text>");
    match brought_with("hatch.svg", &refers, &BringOptions::default()) {
        Ok(brought) => assert!(!brought.text.contains("localhost"), "{}", brought.text),
        Err(why) => assert!(why.to_string().contains("XML"), "{why}"),
    }
}

#[test]
fn odd_names_and_words_do_no_harm() {
    let drawn = "<path id='&quot; }&#10;garment &quot;x&quot;' d='M0 0 H300 V200 H0 Z'/>\
        <path id='front' d='M400 0 H700 V200 H400 Z'/><path id='Front' d='M800 0 H1100 V200 H800 Z'/>\
        <text x='500' y='100'>a&#x9;b &#x85; \u{202e}c</text>";
    let text = brought("odd.svg", &in_mm(drawn)).text;
    let compiled = draft(&text);
    let mut names: Vec<&str> = compiled.garment.pieces.iter().map(|piece| &*piece.name).collect();
    names.sort_unstable();
    assert_eq!(names, ["front", "front_2", "garment_x"], "{text}");
}

/// What damaged files were found to bring down: each is refused with words, or comes in.
#[test]
fn what_damage_found_does_no_harm_any_more() {
    // A letter that is none in a tag is not repeated as it is.
    let why = refused("<svg xmlns='http://www.w3.org/2000/svg' a\u{17}'b'/>");
    assert!(why.contains("cannot be read as XML") && !why.contains('\u{17}'), "{why:?}");
    // Words that turn the direction of text, as a title.
    let turned =
        brought("flag.svg", &in_mm("<path d='M0 0 H300 V200 H0 Z'><title>a\u{202e}b</title></path>"));
    draft(&turned.text);
    // A handle, a line and an arrow that lead 10¹⁵ km away.
    let far = refused(&in_mm("<path id='front' d='M0 0 H300 V200 C-999999999999999999 200 1 200 0 200 Z'/>"));
    assert!(far.contains("more than 100 m long"), "{far}");
    // Two outlines whose handles lead as far as numbers go, in rectangles that are alike.
    let twice = "<path d='M100 60 C1e308 60 0 55 300 50 0 110 60 1 360 250 L400 66 L400 660Z'/>\
        <path d='M100 60 C1e308 60 0 55 300 50 0 110 60 1 360 250 L400 66 L400 659.95Z'/>";
    let far = refused(&in_mm(twice));
    assert!(far.contains("too large for one"), "{far}");
    let far = refused(&in_mm(&twice.replace("1e308", "1e149")));
    assert!(far.contains("more than 100 m long"), "{far}");
    let inside = "<path id='front' d='M0 0 H300 V200 H0 Z'/><path id='hem' d='M9 50 L999999999999999999 60'/>\
        <path id='grain' d='M50 50 L50 999999999999999999'/><path d='M50 60 h10 M55 55 v10'/>";
    draft(&brought("front.svg", &in_mm(inside)).text);
    // Its lines in a drawing of two sizes, where steps from size to size are beyond all numbers.
    let sized = "<g id='S'><path id='a' d='M0 0 H300 V200 H0 Z'/><path id='l' d='M9 50 L-999999999999999999 60'/></g>\
        <g id='M'><path id='a' d='M0 0 H310 V210 H0 Z'/><path id='l' d='M9 50 L999999999999999999 60'/></g>";
    draft(&brought("front.svg", &in_mm(sized)).text);
    // A mark of a table beside its piece.
    let table = "piece,x,y,kind\nhatch,0,0\nhatch,300,0\nhatch,300,200\nhatch,0,200\nhatch,400,100,mark\n";
    let beside = brought("hatch.csv", table);
    draft(&beside.text);
    assert!(
        beside.remarks.iter().any(|words| words.contains("lies outside of the outline")),
        "{:?}",
        beside.remarks
    );
    // Lines of DXF so far away that no grid has a cell for them, and a sew line that only goes out and back.
    let entities = |inside: &str| crate::reading_dxf::drawing("9 $INSUNITS|70 4|", "", inside);
    let away = entities("0 LINE|8 1|10 999999999999999999|20 0|11 5|21 5|");
    assert!(brought_with("away.dxf", &away, &BringOptions::default()).is_err());
    let spur = crate::reading_dxf::ring("1", &[(0.0, 0.0), (90.0, 0.0), (90.0, 9.0), (0.0, 9.0)])
        + &crate::reading_dxf::ring("14", &[(0.0, 0.0), (90.0, 1.0)]);
    draft(&brought("spur.dxf", &entities(&spur)).text);
    // Words of several lines are one line: so many are cut.
    let words = "<path id='front' d='M0 0 H300 V200 H0 Z'/><text x='20' y='20'>cut\n  2\tmirrored</text>";
    assert!(brought("front.svg", &in_mm(words)).text.contains("cut 2 mirrored"));
    // An outline smaller than a pencil line that bears the name of a cutting line, as drawings made here have them.
    let cutting =
        "<path transform='scale(0.0001)' d='M44 5 L5 5 L63 5 L5 5 L44 5'><title>. cutting</title></path>";
    let small = refused(&in_mm(cutting));
    assert!(small.contains("it draws no closed path"), "{small}");
}

#[test]
fn a_piece_inside_a_piece_is_told() {
    let drawn = "<path id='front' d='M0 0 H300 V500 H0 Z'/><path id='pocket' d='M50 300 H150 V420 H60 Z'/>";
    let brought = brought("front.svg", &in_mm(drawn));
    assert!(
        brought.remarks.iter().any(|words| words.contains("pocket lies inside front")),
        "{:?}",
        brought.remarks
    );
    assert!(brought.text.contains("line pocket_1 from"), "{}", brought.text);
    draft(&brought.text);
}

const HATCH: &str = "<svg xmlns='http://www.w3.org/2000/svg' width='30cm' height='20cm' viewBox='0 0 300 200'>\
    <path id='hatch' d='M0 0 H300 V200 H0 Z'/></svg>";

#[test]
fn the_command_writes_a_draft_and_never_over_what_is_there() {
    let folder = folder_of(&[("hatch.svg", HATCH), ("kept.fus", "mine")]);
    let at = folder.path();
    let first = run(at, &["bring", "hatch.svg", "-o", "hatch.fus", "--look", "look.svg"]);
    assert_eq!(first.status.code(), Some(0), "{}", err(&first));
    assert!(out(&first).is_empty(), "the result is in the file");
    assert!(err(&first).contains("hatch.fus is a draft"), "{}", err(&first));
    let look = std::fs::read_to_string(at.join("look.svg")).unwrap();
    assert!(look.contains("e1 30") && look.contains("hatch\n"), "{look}");
    // A draft is drawn, and its checks say what is still to do.
    let drawn = run(at, &["draw", "--unfinished", "hatch.fus", "-o", "drawn.svg"]);
    assert_eq!(drawn.status.code(), Some(1), "{}", err(&drawn));
    assert!(std::fs::read_to_string(at.join("drawn.svg")).unwrap().contains("hatch"), "it is drawn");
    assert_eq!(run(at, &["tidy", "--check", "hatch.fus"]).status.code(), Some(0), "it is tidy");
    // Without a file it goes to standard output.
    let piped = run(at, &["bring", "hatch.svg"]);
    assert!(out(&piped).contains("piece hatch \"hatch\""), "{}", out(&piped));
    for arguments in [
        &["bring", "hatch.svg", "-o", "kept.fus"][..],
        &["bring", "hatch.svg", "-o", "hatch.svg"],
        &["bring", "hatch.svg", "-o", "hatch.svg", "--force"],
        &["bring", "hatch.svg", "--look", "hatch.svg"],
        &["bring", "missing.svg", "-o", "new.fus"],
        &["bring", "kept.fus", "-o", "new.fus"],
        &["bring", "hatch.svg", "--scale", "10cm", "-o", "new.fus"],
        &["bring", "hatch.svg", "--names", "hatch", "-o", "new.fus"],
        &["bring", "hatch.svg", "--corner", "0", "-o", "new.fus"],
        &["bring", "hatch.svg", "--tolerance", "3m", "-o", "new.fus"],
    ] {
        let refused = run(at, arguments);
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}: {}", err(&refused));
        assert!(!err(&refused).is_empty());
    }
    assert_eq!(std::fs::read_to_string(at.join("hatch.svg")).unwrap(), HATCH);
    assert_eq!(std::fs::read_to_string(at.join("kept.fus")).unwrap(), "mine");
    assert!(!at.join("new.fus").exists());
    let forced = run(at, &["bring", "hatch.svg", "-o", "kept.fus", "--force", "--units", "in"]);
    assert_eq!(forced.status.code(), Some(0), "{}", err(&forced));
    assert!(std::fs::read_to_string(at.join("kept.fus")).unwrap().contains("units in"));
}

#[test]
fn sizes_that_do_not_match_are_shown() {
    let two = HATCH
        .replace("id='hatch'", "id='hatch-S'")
        .replace("</svg>", "<path id='hatch-M' d='M0 0 H300 V150 L250 200 H0 Z'/></svg>");
    let folder = folder_of(&[("hatch.svg", &two)]);
    let refused = run(folder.path(), &["bring", "hatch.svg", "-o", "new.fus", "--look", "look.svg"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(err(&refused).contains("4 corners in S and 5 in M"), "{}", err(&refused));
    assert!(std::fs::read_to_string(folder.path().join("look.svg")).unwrap().contains("hatch M"));
    assert!(!folder.path().join("new.fus").exists());
}

/// Under a second in a release build; a build for tests is given time for its checks.
#[test]
fn a_nest_of_ten_pieces_in_ten_sizes_takes_less_than_a_second() {
    let mut drawn = String::new();
    for piece in 0..10 {
        for size in 0..10 {
            let scale = 1.0 + 0.02 * f64::from(size);
            let points = (0..500).map(|at| {
                let turn = f64::from(at) / 500.0 * std::f64::consts::TAU;
                let radius = 200.0 * scale * (1.0 + 0.1 * (3.0 * turn).sin());
                format!(
                    "{:.3},{:.3}",
                    f64::from(piece) * 600.0 + radius * turn.cos(),
                    400.0 + radius * turn.sin()
                )
            });
            let points: Vec<String> = points.collect();
            drawn += &format!("<polygon id='panel{piece}-{}' points='{}'/>", 30 + 2 * size, points.join(" "));
        }
    }
    let drawing = in_mm(&drawn);
    let begun = Instant::now();
    let text = brought("nest.svg", &drawing).text;
    let taken = begun.elapsed();
    assert!(text.contains("sizes 30, 32"), "{text}");
    let most = Duration::from_secs(if cfg!(debug_assertions) { 20 } else { 1 });
    assert!(taken < most, "{taken:?} for {} KB", drawing.len() / 1024);
}

const CAP: &str = "piece,size,point,x,y\ncap,,1,0,0\ncap,,2,100,0\ncap,,3,100,80\ncap,,4,0,80\n";

/// Without a name's ending a table is known by its columns, however they are parted.
#[test]
fn a_table_that_is_piped_in_is_known_by_its_head() {
    let sound = crate::brought::brought("table.csv", CAP).text.replace("table.csv", "-");
    for table in [CAP.to_owned(), CAP.replace(',', ";"), CAP.replace(',', "\t")] {
        assert_eq!(crate::brought::brought("-", &table).text, sound);
    }
}

/// One file cannot hold the text and the picture of it.
#[test]
fn text_and_picture_are_two_files() {
    let folder = crate::workbench::folder_of(&[("cap.csv", CAP)]);
    let both = ["bring", "cap.csv", "-o", "cap.fus", "--look", "cap.fus"];
    let output = crate::workbench::run(folder.path(), &both);
    assert_eq!(output.status.code(), Some(2));
    assert!(crate::workbench::err(&output).contains("cannot hold two outputs"));
    assert!(!folder.path().join("cap.fus").exists());
}

/// The middle size is the largest, by a slip: notes tell from the least to the most, and not from the first to the last.
#[test]
fn notes_tell_the_least_and_the_most() {
    let size = |name: &str, wide: u32| {
        CAP.replace("cap,,", &format!("cap,{name},")).replace("100,", &format!("{wide},"))
    };
    let rows = |name: &str, wide: u32| {
        size(name, wide).lines().skip(1).map(|row| format!("{row}\n")).collect::<String>()
    };
    let table = format!("piece,size,point,x,y\n{}{}{}", rows("S", 100), rows("M", 120), rows("L", 110));
    let text = crate::brought::brought("cap.csv", &table).text;
    assert!(text.contains("bottom, straight, 10 to 12"), "{text}");
}
