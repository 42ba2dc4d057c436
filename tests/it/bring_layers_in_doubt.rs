//! What elements, layers and names of a drawing say that cannot be so, or that makes a piece of what is none.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, in_mm};
use crate::reading_dxf::{drawing, ring, square, words};

#[test]
fn what_an_element_says_and_nobody_can_read_is_told_with_its_line() {
    let drawn = |shape: &str| in_mm(&format!("<path id='flap' d='M310 10h200v100h-200z'/>\n{shape}"));
    let tab = |said: &str| format!("<rect id='tab' {said}/>");
    let path = |said: &str| format!("<g transform='{said}'><path id='tab' d='M0 0h90v90h-90z'/></g>");
    for (shape, words) in [
        (path("translate(NaN 0)"), "the `transform` here, `translate(NaN 0)`, cannot be read"),
        (path("tranlate(3 0)"), "`tranlate(3 0)`, cannot be read"),
        (path("translate(10 20"), "`translate(10 20`, cannot be read"),
        (path("scale(2) rotat(5)"), "`scale(2) rotat(5)`, cannot be read"),
        (tab("width='100,5' height='50'"), "the `width` of <rect>, `100,5`, cannot be read"),
        (tab("width='abc' height='50'"), "the `width` of <rect>, `abc`, cannot be read"),
        (tab("width='-100' height='50'"), "the `width` of <rect>, `-100`, is negative"),
        (tab("width='20%' height='50'"), "the `width` of <rect>, `20%`, depends on what is around it"),
        (tab("x='NaN' width='90' height='50'"), "the `x` of <rect>, `NaN`, cannot be read"),
        ("<circle r='-50'/>".to_owned(), "the `r` of <circle>, `-50`, is negative"),
        (
            "<polygon points='10,10 100,10 100,100 10,100 50'/>".to_owned(),
            "are 9 numbers, and each point is two",
        ),
        ("<polygon points='10,10 100,10 1o0,100 10,100'/>".to_owned(), "damaged: `1o0` is not a number"),
    ] {
        let why = refused("bib.svg", &drawn(&shape));
        assert!(why.starts_with("bib.svg:2: ") && why.contains(words), "{why}\nlacks {words}");
        assert!(!why.contains('\n'), "{why}");
    }
    // What can be read, or is no more than paper, is as it was.
    for (shape, pieces) in [
        (path("translate(10 20)"), 2),
        (path(""), 2),
        (path("none"), 2),
        (tab("width='100' height='50mm' rx='' x='0%'"), 2),
        (tab("width='100%' height='100%' fill='white'"), 1),
        ("<polygon points='10,10 100,10 100,100 10,100'/>".to_owned(), 2),
    ] {
        let own = brought("bib.svg", &drawn(&shape));
        assert_eq!(own.text.matches("\npiece ").count(), pieces, "{shape}\n{}", own.text);
    }
}

#[test]
fn a_group_that_its_transform_leaves_no_width_is_told() {
    let drawn = |scale: &str| {
        in_mm(&format!(
            "<g id='S'><rect id='bib' width='300' height='400'/></g>\n\
             <g id='M' transform='{scale}'><rect id='bib' width='310' height='410'/></g>"
        ))
    };
    assert!(told("bib.svg", &drawn("scale(1)")).is_empty(), "{:?}", told("bib.svg", &drawn("scale(1)")));
    for scale in ["scale(0)", "scale(1 0)"] {
        let remarks = told("bib.svg", &drawn(scale));
        let words = format!("M in line 2 is drawn without any width, by its transform `{scale}`");
        assert!(remarks.iter().any(|one| one.contains(&words)), "{remarks:?}");
    }
}

#[test]
fn an_outline_that_is_drawn_twice_in_one_size_is_taken_once() {
    let size = |size: &str, wide: u32, more: &str| {
        format!(
            "<g id='{size}'><rect id='bib' width='{wide}' height='400'/>{more}\n<path d='M{wide} 200 h-6'/>\
             <circle cx='100' cy='130' r='3'/></g>\n"
        )
    };
    let drawn = |more: &str| in_mm(&(size("S", 300, "") + &size("M", 310, more)));
    let once = brought("bib.svg", &drawn(""));
    assert!(once.remarks.is_empty(), "{:?}", once.remarks);
    let twice = brought("bib.svg", &drawn("<path id='bib' d='M0 0 H310 V400 H0 Z'/>"));
    assert_eq!(twice.text, once.text);
    only(
        &twice.remarks,
        &["the outline of bib in M is drawn twice, in line 3 and in line 3 of bib.svg; it is taken once"],
    );
    // What has another name is something else.
    let other = brought("bib.svg", &drawn("<path id='lining' d='M0 0 H310 V400 H0 Z'/>"));
    assert!(other.text.contains("piece lining"), "{}", other.text);
}

/// A bib in three sizes in one another on these layers, its name in each.
fn bib_on(layers: [&str; 3]) -> String {
    let sizes = layers.iter().zip([300.0, 320.0, 340.0]);
    sizes
        .map(|(layer, side)| square(layer, 0.0, 0.0, side) + &words(layer, 90.0, 90.0, "Bib cut 1"))
        .collect()
}

#[test]
fn one_outline_on_another_layer_leaves_the_sizes_what_they_are() {
    let metric = |entities: &str| drawing("9 $INSUNITS|70 4|", "", entities);
    let three = bib_on(["S", "M", "L"]);
    let alone = brought("bib.dxf", &metric(&three));
    assert!(alone.remarks.is_empty() && alone.text.contains("sizes S, M, L"), "{:?}", alone.remarks);
    // A piece beside is the same in all sizes.
    let tab = square("0", 500.0, 0.0, 40.0) + &words("0", 510.0, 10.0, "Tab cut 2");
    let beside = brought("bib.dxf", &metric(&(three.clone() + &tab)));
    assert!(beside.remarks.is_empty(), "{:?}", beside.remarks);
    assert!(beside.text.contains("sizes S, M, L") && beside.text.contains("piece tab"), "{}", beside.text);
    // A frame round the sheet is none, and is told.
    let framed = brought("bib.dxf", &metric(&(three.clone() + &square("FRAME", -50.0, -50.0, 900.0))));
    only(&framed.remarks, &["on layer FRAME (line ", "goes round pieces", "`sizes-from` says"]);
    assert!(framed.text.contains("sizes S, M, L"), "{}", framed.text);
    // Layers that end with sizes are sizes too where they lie in one another.
    let ending = brought("bib.dxf", &metric(&bib_on(["Pattern 36", "Pattern 38", "Pattern 40"])));
    assert!(ending.text.contains("sizes 36, 38, 40"), "{}\n{:?}", ending.text, ending.remarks);
    // Layers that nothing shows to be sizes are told how they can be said to be some.
    let other = told("bib.dxf", &metric(&bib_on(["Small one", "Middle one", "Large one"])));
    assert!(other.iter().any(|words| words.contains("`sizes-from` says so")), "{other:?}");
    // A line that lies in no piece is told once, not once a size.
    let stray = "0 LINE|8 0|10 700|20 0|11 700|21 90|";
    only(&told("bib.dxf", &metric(&(three + stray))), &["1 line lies in no piece and was left out (line "]);
}

#[test]
fn corners_exchanged_in_a_drawing_are_told() {
    let metric = |entities: &str| drawing("9 $INSUNITS|70 4|", "", entities);
    let bib = square("0", 0.0, 0.0, 300.0);
    let pocket = |corners: &[(f64, f64)]| {
        metric(&(bib.clone() + &ring("0", corners) + &words("0", 450.0, 20.0, "Pocket cut 1")))
    };
    let sound = [(400.0, 0.0), (520.0, 0.0), (520.0, 90.0), (400.0, 90.0)];
    assert!(brought("bib.dxf", &pocket(&sound)).text.contains("piece pocket"));
    let [a, b, c, d] = sound;
    let why = refused("bib.dxf", &pocket(&[a, c, b, d]));
    assert!(why.contains("the outline of Pocket crosses itself and holds no area"), "{why}");
    // A line drawn to and fro holds nothing at all, and is a line left out.
    let to_and_fro = told("bib.dxf", &metric(&(bib.clone() + &ring("0", &[a, c]))));
    only(&to_and_fro, &["1 line lies in no piece"]);
}

#[test]
fn two_names_in_one_piece_are_told() {
    let of = |second: &str| {
        let bib = square("0", 0.0, 0.0, 300.0) + &words("0", 20.0, 90.0, "Bib cut 1");
        drawing("9 $INSUNITS|70 4|", "", &(bib + &words("0", 20.0, 40.0, second)))
    };
    assert!(told("bib.dxf", &of("hem 2 cm")).is_empty());
    only(&told("bib.dxf", &of("Sleeve cut 2")), &["Bib and Sleeve both stand in one piece", "line "]);
}

#[test]
fn a_piece_that_the_first_size_lacks_is_named_with_its_line() {
    let three = bib_on(["S", "M", "L"]);
    let strap = |layer: &str| square(layer, 500.0, 0.0, 60.0) + &words(layer, 510.0, 10.0, "Strap cut 2");
    let all = drawing("9 $INSUNITS|70 4|", "", &(three + &strap("M") + &strap("L")));
    let remarks = told("bib.dxf", &all);
    let expected = "Strap of size M (line ";
    assert!(
        remarks.iter().any(|one| one.contains(expected) && one.contains("none of size S")),
        "{remarks:?}"
    );
}

/// A table of one square in two sizes, of these names.
fn table(first: (&str, &str), second: (&str, &str), more: &str) -> String {
    let of = |(piece, size): (&str, &str), side: u32| -> String {
        let corners = [(0, 0), (side, 0), (side, side), (0, side)];
        corners.iter().map(|(x, y)| format!("{piece},{size},{x},{y},\n")).collect()
    };
    format!("piece,size,x mm,y mm,kind\n{}{}{more}", of(first, 100), of(second, 110))
}

#[test]
fn names_in_a_table_that_differ_in_capitals_and_marks_that_lack_are_told() {
    let alike = told("hand.csv", &table(("hand", "4"), ("hand", "6"), ""));
    assert!(alike.is_empty(), "{alike:?}");
    let pieces = told("hand.csv", &table(("Hand", "4"), ("hand", "6"), ""));
    let words = "Hand and hand differ in capitals alone, and are taken for two pieces";
    assert!(pieces.iter().any(|one| one.contains(words)), "{pieces:?}");
    let marks = "hand,4,20,20,mark\nhand,6,22,22,mark\n";
    assert!(told("hand.csv", &table(("hand", "4"), ("hand", "6"), marks)).is_empty());
    let lacks = told("hand.csv", &table(("hand", "4"), ("hand", "6"), "hand,4,20,20,mark\n"));
    only(&lacks, &["hand has no mark in 6, and has one in 4"]);
}

#[test]
fn a_damaged_row_of_a_table_is_told_alone() {
    let rows = |x: &str| format!("piece,x mm,y mm\ntab,0,0\ntab,{x},0\ntab,90,40\n");
    assert!(told("tab.csv", &rows("90")).is_empty());
    let why = refused("tab.csv", &rows("9o"));
    assert!(why.contains("x is “9o”") && !why.contains("it needs three"), "{why}");
    // Where no row is damaged the outline lacks a point.
    let short = refused("tab.csv", "piece,x mm,y mm\ntab,0,0\ntab,90,0\n");
    assert!(short.contains("has 2 points; it needs three"), "{short}");
}
