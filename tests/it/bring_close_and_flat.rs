//! What is drawn so that no garment's text can say it comes in without it, or not at all, and that is told where it stands.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::brought;
use crate::reading_dxf::{block, drawing, insert, square, words};
use fustian::source::MemoryLoader;
use fustian::{Severity, compile};

const METRIC: &str = "9 $INSUNITS|70 4|";

/// A bib in S and M, 200 and 210 wide and 300 high, with more rows of each.
fn bib(more: [&[&str]; 2], corners: [&[&str]; 2]) -> String {
    let mut table = "piece,size,point,x mm,y mm,kind\n".to_owned();
    for ((size, wide), (more, corners)) in [("S", 200), ("M", 210)].into_iter().zip(more.iter().zip(corners))
    {
        let outline = [format!("{wide},0,"), format!("{wide},300,")];
        let rows = std::iter::once("0,0,".to_owned()).chain(outline);
        let rows = rows.chain(corners.iter().map(|row| (*row).to_owned())).chain(["0,300,".to_owned()]);
        let rows = rows.chain(more.iter().map(|row| (*row).to_owned()));
        rows.for_each(|row| table.push_str(&format!("Bib,{size},,{row}\n")));
    }
    table
}

/// What is wrong with the text that came in, beside that nothing is sewn.
fn mistakes(text: &str) -> Vec<String> {
    let draft = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    let wrong = draft.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
    wrong.filter(|one| one.slug() != "piece/unsewn").map(|one| one.title.to_string()).collect()
}

/// By hand: on the right side, which is straight up, from one notch to the other.
#[test]
fn notches_that_one_size_has_too_near_to_each_other() {
    let notched =
        |other: &str| bib([&["200,100,notch", "200,150,notch"], &["210,100,notch", other]], [&[], &[]]);
    only(
        &told("bib.csv", &notched("210,106,notch")),
        &[
            "bib: two notches of e2 lie 6.0 mm apart in M, where they are not told apart, and 50.0 mm in S: is one of them drawn \
           wrong? Both are left out",
        ],
    );
    let text = brought("bib.csv", &notched("210,106,notch")).text;
    assert!(!text.contains("notch"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
    let sound = brought("bib.csv", &notched("210,155,notch"));
    assert_eq!((sound.remarks, sound.text.matches("notch ").count()), (Vec::new(), 2));
    // Near in every size they are one double notch; what stands beside that is no third one.
    let near = ["200,100,notch", "200,106,notch", "210,100,notch", "210,106,notch"];
    let double = bib([&near[..2], &near[2..]], [&[], &[]]);
    assert!(brought("bib.csv", &double).text.contains("double"));
    let third = bib([&[near[0], near[1], "200,111,notch"], &[near[2], near[3], "210,111,notch"]], [&[], &[]]);
    // The double one stands at 103, 8 below the third.
    only(
        &told("bib.csv", &third),
        &["a single and a double notch of e2 lie 8.0 mm apart in S and M", "the single one is left out"],
    );
    let text = brought("bib.csv", &third).text;
    assert!(text.contains("double"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
}

#[test]
fn a_half_that_goes_beyond_its_fold_in_one_size() {
    let fold: &[&str] = &["0,0,fold", "0,300,fold"];
    let halves = |at: &str| bib([fold, fold], [&["40,320,"], &[at]]);
    let sound = brought("bib.csv", &halves("45,320,"));
    assert!(
        sound.remarks.is_empty() && sound.text.contains("on fold"),
        "{:?}\n{}",
        sound.remarks,
        sound.text
    );
    let wrong = halves("-5,320,");
    only(
        &told("bib.csv", &wrong),
        &[
            "a fold is drawn, and in M the half goes 5.0 mm beyond it, 0 mm from its left and 320 mm from its lower end: is it drawn \
           wrong in that size? The fold is left out, and the piece is taken to be whole",
        ],
    );
    let text = brought("bib.csv", &wrong).text;
    assert!(!text.contains("on fold"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
}

#[test]
fn corners_that_lie_on_one_another() {
    let there_and_back: &[&str] = &["100,100,curve", "200,300,", "100,100,curve", "200,300,"];
    let in_m: &[&str] = &["100,100,curve", "210,300,", "100,100,curve", "210,300,"];
    let why = refused("bib.csv", &bib([&[], &[]], [there_and_back, in_m]));
    assert!(
        why.contains("in the outline of bib in S, two corners lie on one another 200 mm from its left and 300 mm from its lower end")
            && why.contains("take one of them out, or draw them apart"),
        "{why}"
    );
}

/// A curve from (0, 0) with handles at (100, 100) and (0, 100) to (100, 0) stands still halfway: three quarters of
/// (p2 - p0) + (p3 - p1) = (0, 100) + (0, -100) are nothing. There it is at (50, 75), and goes back. With handles at (80, 100) and
/// (20, 100) it does not.
#[test]
fn a_curve_that_comes_to_a_point_and_goes_back() {
    let drawing = |line: &str| {
        format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='300mm' viewBox='0 0 300 300'><g id='flap'>\
             <path d='M0 0H200V200H0Z'/><path id='stitches' d='{line}'/></g></svg>"
        )
    };
    let sound = brought("flap.svg", &drawing("M50 50C130 150 70 150 150 50"));
    assert!(sound.text.contains("line stitches"), "{}", sound.text);
    let back = drawing("M50 50C150 150 50 150 150 50");
    // In the drawing y goes down: its lower end is at 200.
    let words = "flap: stitches comes to a point and goes back on itself, 100 mm from its left and 75 mm from its lower end, and is left out";
    let told = told("flap.svg", &back);
    assert!(told.iter().any(|one| one.starts_with(words)), "{told:?}");
    assert_eq!(mistakes(&brought("flap.svg", &back).text), [] as [&str; 0]);
    // In an outline nothing can be left out.
    let outline = drawing("").replace("M0 0H200V200H0Z", "M0 200V0H50C150 100 50 100 150 0H200V200Z");
    let why = refused("flap.svg", &outline);
    let words = "a curve in the outline of flap comes to a point and goes back on itself, 100 mm from its left and 125 mm from its lower end";
    assert!(why.contains(words), "{why}");
}

#[test]
fn a_count_that_no_piece_is_cut_in() {
    let cut = |many: u32| {
        let quantity = words("1", 0.0, 0.0, &format!("Quantity: {many}"));
        drawing(METRIC, &block("FRONT", &(square("1", 0.0, 0.0, 300.0) + &quantity)), &insert("FRONT"))
    };
    assert!(brought("front.dxf", &cut(1000)).text.contains("cut 1000\n"));
    let told = told("front.dxf", &cut(1001));
    let words = "front: the drawing says that it is cut 1001 times, and a piece is cut 1000 times at most; 1 is taken";
    assert!(told.iter().any(|one| one == words), "{told:?}");
    assert_eq!(mistakes(&brought("front.dxf", &cut(1001)).text), [] as [&str; 0]);
}

/// What lies on a slanting edge is written to 0.01 mm, and so may lie beyond that: a third of the way up an edge from (200, 0) to
/// (230, 300) no figure of two decimals is.
#[test]
fn a_mark_on_an_edge_is_kept_on_the_piece() {
    let table = |x: &str| {
        format!(
            "piece,size,point,x mm,y mm,kind\nBib,S,,0,0,\nBib,S,,200,0,\nBib,S,,230,300,\nBib,S,,0,310,\nBib,S,rivet,{x},103,mark\n"
        )
    };
    // The edge lies at 200 + 30 * 103 / 300 = 210.3 there.
    for at in ["210.3", "210.304", "210.296"] {
        let own = brought("bib.csv", &table(at));
        assert!(own.text.contains("mark rivet"), "{at}: {:?}", own.remarks);
        assert_eq!(mistakes(&own.text), [] as [&str; 0], "{at}");
    }
    assert!(!brought("bib.csv", &table("212")).text.contains("mark rivet"));
}

#[test]
fn a_grain_line_beside_its_piece_says_the_way_alone() {
    let table = |from: u32| {
        format!(
            "piece,size,point,x mm,y mm,kind\nBib,S,,0,0,\nBib,S,,200,0,\nBib,S,,200,300,\nBib,S,,0,300,\n\
             Bib,S,,{from},50,grain\nBib,S,,{},250,grain\n",
            from + 50
        )
    };
    let on_it = brought("bib.csv", &table(100));
    assert!(on_it.remarks.is_empty() && on_it.text.contains("from (10, 5) to (15, 25)"), "{}", on_it.text);
    let beside = table(400);
    only(
        &told("bib.csv", &beside),
        &["bib", "its grain line is drawn beside the piece, and is laid onto it"],
    );
    // Its middle, at (425, 150), comes to the piece's, at (100, 150).
    let text = brought("bib.csv", &beside).text;
    assert!(text.contains("from (7.5, 5) to (12.5, 25)"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
}
