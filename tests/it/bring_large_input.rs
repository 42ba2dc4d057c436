//! Drawings that say much with little: what is alike, lies amid others, or belongs to many things at once costs no more than what
//! does not, and is refused where it would.

use crate::bring_in_doubt::refused;
use crate::brought::{brought, in_mm};
use crate::reading_dxf::{block, drawing, insert, pairs, square, words};
use std::time::{Duration, Instant};

/// What is said of a drawing that does not come in, soon.
fn soon_refused(name: &str, drawing: &str) -> String {
    let begun = Instant::now();
    let why = refused(name, drawing);
    assert!(begun.elapsed() < Duration::from_secs(20), "it takes {:?}", begun.elapsed());
    why
}

/// Each row stands between two of another size, and none is a point: sizes by turns, of which every second one is no other's.
#[test]
fn rows_amid_others_cost_no_more_than_rows() {
    let rows: String = (0..16_000)
        .map(|at| format!("bib,{},x,0\n", if at % 2 == 0 { "S".into() } else { format!("U{at}") }))
        .collect();
    let why = soon_refused("bib.csv", &format!("piece,size,x,y\n{rows}"));
    assert!(why.starts_with("bib.csv:2: ") && why.contains("and 15980 more"), "{why}");
}

const METRIC: &str = "9 $INSUNITS|70 4|";

/// Squares in one another, each in its own colour with its size, and so many points without a colour.
fn nest(sizes: usize, points: usize) -> String {
    let each = (0..sizes).map(|size| {
        let (colour, side) = (size + 10, 3000.0 - 2.0 * size as f64);
        let outline =
            square("1", size as f64, size as f64, side).replace("66 1|", &format!("62 {colour}|66 1|"));
        outline
            + &words("1", 100.0, 100.0, &format!("Size: {size}"))
                .replace("40 6|", &format!("62 {colour}|40 6|"))
    });
    let points = (0..points).map(|at| format!("0 POINT|8 13|10 {}|20 1500|", 1000 + at % 900));
    let nest = each.collect::<String>() + &points.collect::<String>();
    drawing(METRIC, &block("BIB", &nest), &insert("BIB"))
}

#[test]
fn what_belongs_to_many_sizes_at_once_is_counted_in_each() {
    let sound = brought("bib.dxf", &nest(3, 5));
    assert!(sound.text.contains("sizes 2, 1, 0") || sound.text.contains("sizes 0, 1, 2"), "{}", sound.text);
    let marks = sound.text.lines().filter(|line| line.trim_start().starts_with("mark ")).count();
    assert_eq!(marks, 5, "{}", sound.text);
    // 60 times 20 000 points are 1 200 000.
    let why = soon_refused("bib.dxf", &nest(60, 20_000));
    assert!(why.contains("drawn once in it for several sizes comes to more than 1000000 points"), "{why}");
    let why = refused("bib.dxf", &nest(101, 0));
    assert!(
        why.contains("block BIB holds 101 closed lines on layer 1") && why.contains("at most 100 sizes"),
        "{why}"
    );
    // So it is where layers are sizes.
    let layers: String =
        (100..160).map(|size| square(&size.to_string(), 0.0, 0.0, f64::from(size))).collect();
    let layers = layers + &"0 POINT|8 0|10 50|20 50|".repeat(20_000);
    let why = soon_refused("bib.dxf", &drawing(METRIC, "", &layers));
    assert!(why.contains("drawn once in it for several sizes comes to more than 1000000 points"), "{why}");
}

/// Rectangles of one name beside one another.
fn alike(count: usize, name: &str) -> String {
    let each = (0..count).map(|at| format!("<rect id='{name}' x='{}' width='30' height='90'/>", 40 * at));
    in_mm(&each.collect::<String>())
}

#[test]
fn outlines_of_one_name_cost_no_more_than_others_and_some_are_told() {
    let own = brought("tab.svg", &alike(100, "tab"));
    let again = own.remarks.iter().filter(|one| one.contains("tab is drawn more than once")).count();
    assert_eq!(again, 20, "{:?}", own.remarks);
    let more = "79 more outlines of tab.svg have the name and the size of another one";
    assert!(own.remarks.iter().any(|one| one.contains(more)), "{:?}", own.remarks);
    assert!(own.text.contains("piece tab_100 \"tab 100\""), "{}", own.text);
    let why = soon_refused("tab.svg", &alike(6_000, "tab"));
    assert!(why.contains("it holds 6000 pieces; 500 come in at once"), "{why}");
    // A name that is longer than any of the language leaves no room for a number behind it.
    let long = brought("tab.svg", &alike(2, &"tab".repeat(70)));
    assert_eq!(long.text.matches("\npiece tabtab").count(), 2, "{}", long.text);
}

#[test]
fn entities_beyond_all_patterns_are_counted_as_what_they_are() {
    let [head, tail] = ["0 SECTION|2 ENTITIES|", "0 ENDSEC|0 EOF|"].map(pairs);
    let why = refused("bib.dxf", &(head + &"0\nSEQEND\n".repeat(2_000_001) + &tail));
    assert!(why.contains("it holds more than 2000000 entities; take out what is no pattern"), "{why}");
}
