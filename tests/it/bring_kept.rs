//! What is never written over when a pattern comes in, and what is known without its name.

use crate::brought::{brought, brought_with, in_mm};
use crate::workbench::{err, folder_of, run};
use fustian::bring::BringOptions;

const HATCH: &str = "<svg xmlns='http://www.w3.org/2000/svg' width='30cm' height='20cm' viewBox='0 0 300 200'>\
    <path id='hatch' d='M0 0 H300 V200 H0 Z'/></svg>";
const TABLE: &str = "piece,x mm,y mm\nhatch,0,0\nhatch,300,0\nhatch,300,200\nhatch,0,200\n";

#[test]
fn a_drawing_is_never_written_over() {
    let others = [("keep.dxf", "0\nSECTION\n"), ("keep.csv", TABLE), ("keep.svg", HATCH)];
    let folder = folder_of(&[&[("hatch.svg", HATCH)], &others[..]].concat());
    let at = folder.path();
    let read = |name: &str| std::fs::read_to_string(at.join(name)).unwrap();
    for (name, own) in others {
        for option in ["--look", "-o"] {
            let refused = run(at, &["bring", "hatch.svg", option, name, "--force"]);
            assert_eq!(refused.status.code(), Some(2), "{option} {name}");
            let words = format!(
                "{name} is there already and is a drawing, which is never written over: name another file"
            );
            assert!(err(&refused).contains(&words), "{}", err(&refused));
            assert_eq!(read(name), own);
        }
    }
    // A text and a picture of this kind are replaced where that is forced.
    for _ in 0..2 {
        let all = run(at, &["bring", "hatch.svg", "-o", "hatch.fus", "--look", "look.svg", "--force"]);
        assert_eq!(all.status.code(), Some(0), "{}", err(&all));
    }
}

#[test]
fn a_table_without_its_ending_is_known_by_its_first_row() {
    let sound = brought("table.csv", TABLE).text;
    for name in ["-", "table.txt"] {
        assert_eq!(brought(name, TABLE).text, sound.replace("table.csv", name));
    }
    let why = brought_with("table.txt", "hatch,0,0\nhatch,300,0\n", &BringOptions::default());
    let why = why.map(|brought| brought.text).unwrap_err().to_string();
    assert!(
        why.contains("whose names end with .csv or whose first row names the columns piece, x and y"),
        "{why}"
    );
}

#[test]
fn words_that_seem_to_say_how_many_are_cut_are_told() {
    let drawn = |words: &str| {
        in_mm(&format!("<rect id='hatch' width='300' height='200'/><text x='50' y='50'>{words}</text>"))
    };
    for words in ["cut tow mirrored", "2x mirrored"] {
        let [told] = &*brought("hatch.svg", &drawn(words)).remarks else { panic!("{words}") };
        assert!(told.contains(&format!("“{words}” seems to say how many are cut")), "{told}");
    }
    for words in ["cut 2 mirrored", "cutting line", "cut here"] {
        let sound = brought("hatch.svg", &drawn(words)).remarks;
        assert!(sound.is_empty(), "{words}: {sound:?}");
    }
}
