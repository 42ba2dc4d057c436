//! Names that no maker would give and a file may yet hold, on every drawing: drawn, printed, on a wide page, for other programs
//! and in the live view. What is written stays words, and takes no more room than words should.

use crate::workbench::served::Served;
use crate::workbench::{err, folder_of, run};
use lopdf::Document;
use std::fs;
use std::path::Path;

/// A deck pennant with a title, a piece's name and sizes.
fn pennant(title: &str, piece: &str, sizes: &str) -> String {
    let wide = if sizes.is_empty() { "30" } else { "wide" };
    format!(
        "garment \"{title}\"\nunits cm\n{sizes}fabric bunting \"bunting\" {{ width 150 }}\n\
         layer outer in bunting {{ flag }}\npiece flag \"{piece}\" {{ cut 1; outline rectangle {wide} by 20 }}\n\
         finish flag.bottom, flag.right, flag.top, flag.left  hem 2\n"
    )
}

const TWO: &str = "sizes S, M\nbody { wide 30, 34 }\n";

/// Draws and prints it every way; how many pages it has on A4, and how long a wide page is in points.
fn all_ways(folder: &Path) -> (usize, f64) {
    for arguments in [
        &["draw", "flag.fus", "-o", "flag.svg"][..],
        &["draw", "flag.fus", "--text", "-o", "text.svg"],
        &["print", "flag.fus", "-o", "flag.pdf"],
        &["print", "flag.fus", "--wide", "90cm", "-o", "wide.pdf"],
        &["export", "flag.fus", "--to", "dxf", "-o", "flag.dxf"],
    ] {
        let made = run(folder, arguments);
        assert_eq!(made.status.code(), Some(0), "{arguments:?}: {}", err(&made));
    }
    for name in ["flag.svg", "text.svg"] {
        let drawn = fs::read_to_string(folder.join(name)).unwrap();
        let read = roxmltree::Document::parse(&drawn).unwrap();
        assert!(read.descendants().all(|node| !node.has_tag_name("script")), "{name}");
    }
    let wide = Document::load(folder.join("wide.pdf")).unwrap();
    let page = wide.get_dictionary(wide.get_pages()[&1]).unwrap();
    let media = page.get(b"MediaBox").unwrap().as_array().unwrap();
    let pages = Document::load(folder.join("flag.pdf")).unwrap().get_pages().len();
    (pages, f64::from(media[3].as_float().unwrap()))
}

#[test]
fn odd_names_are_words_everywhere() {
    let long = "x".repeat(10_000);
    let plain = folder_of(&[("flag.fus", &pennant("Pennant", "Flag", TWO))]);
    let usual = all_ways(plain.path());
    let families = "<script>alert(1)</script> &amp; ]]> %%d \\U+0041 {p}";
    for (title, piece, sizes) in [
        (families, "<b>'Flag'</b>", TWO),
        ("\u{5de}\u{5e2}\u{5d9}\u{5dc} 3 \u{633}\u{62a}\u{631}\u{629}", "\u{5de}\u{5e2}\u{5d9}\u{5dc}", TWO),
        ("🧵🧥 👩\u{200d}✈️", "🚩", TWO),
        (&long, &long, TWO),
        ("Without sizes", "Flag", ""),
    ] {
        let text = pennant(title, piece, sizes);
        let folder = folder_of(&[("flag.fus", &text)]);
        let shown: String = title.chars().take(20).collect();
        if title.contains('\u{200d}') && run(folder.path(), &["check", "flag.fus"]).status.code() == Some(1) {
            // An invisible sign is refused, and that is said; without it all goes on.
            let told = err(&run(folder.path(), &["draw", "flag.fus", "-o", "flag.svg"]));
            assert!(told.contains("syntax/character"), "{told}");
            fs::write(folder.path().join("flag.fus"), text.replace('\u{200d}', "")).unwrap();
        }
        let (pages, high) = all_ways(folder.path());
        // A long name may stand under its piece, in a line or two more than usual.
        assert!(pages <= usual.0 + 3, "{shown}: {pages} pages, {usual:?}");
        assert!(high <= usual.1 + 300.0, "{shown}: {high}, {usual:?}");
        let served = Served::of(folder.path(), "flag.fus");
        let standing = served.get("/standing").json();
        assert_eq!(standing["mistakes"], 0, "{shown}: {standing}");
        let size = if sizes.is_empty() { String::new() } else { "?size=M".to_owned() };
        assert_eq!(served.get(&format!("/pieces{size}")).status, 200, "{shown}");
        assert_eq!(served.get("/sheet").status, 200, "{shown}");
    }
}

/// A hundred sizes in one another: one page set, one wide page, and each of them by itself on its pages of the nest.
#[test]
fn a_hundred_sizes_in_one_another() {
    let names: Vec<String> = (1..=100).map(|at| format!("z{at}")).collect();
    let widths: Vec<String> = (1..=100).map(|at| (20 + at).to_string()).collect();
    let sizes = format!("sizes {}\nbody {{ wide {} }}\n", names.join(", "), widths.join(", "));
    let folder = folder_of(&[("flag.fus", &pennant("Hundred", "Flag", &sizes))]);
    let (pages, _) = all_ways(folder.path());
    // By hand: 124 cm by 24 cm, in steps of 17.4 cm and 26.1 cm, is 8 pages wide and 1 or 2 high.
    assert!(pages <= 1 + 8 * 2, "{pages}");
    let made = run(folder.path(), &["print", "flag.fus", "--nest", "--size", "z1", "-o", "one.pdf"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    let one = Document::load(folder.path().join("one.pdf")).unwrap().get_pages().len();
    assert!(one < pages, "{one} of {pages}");
}
