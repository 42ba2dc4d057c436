//! What pieces and their sizes are called where their own names say less or more than that.

use crate::brought::{brought, in_mm};
use crate::reading_dxf::{block, drawing, insert, square, words};

const METRIC: &str = "9 $INSUNITS|70 4|";

/// A bib as long as wide, 300 mm in S and 320 in M: each block with these words of its size.
fn bib(said: &dyn Fn(&str) -> String) -> (String, [&'static str; 2]) {
    let one =
        |size: &str, side: f64| block(&format!("BIB-{size}"), &(square("1", 0.0, 0.0, side) + &said(size)));
    (one("36", 300.0) + &one("38", 320.0), ["BIB-36", "BIB-38"])
}

/// It has two sizes, of one piece: 30 cm, and 2 more.
fn is_graded(text: &str, name: &str) {
    for words in ["sizes 36, 38", "(30 grade +2)", name] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert_eq!(text.matches("\npiece ").count(), 1, "{text}");
}

#[test]
fn blocks_that_are_never_put_down_are_taken() {
    let said = |size: &str| {
        words("1", 50.0, 50.0, "Piece Name: Bib") + &words("1", 50.0, 40.0, &format!("Size: {size}"))
    };
    let (blocks, names) = bib(&said);
    let style = words("1", 0.0, -20.0, "Style Name: Deck bib");
    let all = brought("bib.dxf", &drawing(METRIC, &blocks, &style));
    is_graded(&all.text, "piece bib \"Bib\"");
    let [told] = &*all.remarks else { panic!("{:?}", all.remarks) };
    assert!(told.contains("puts down no block; its 2 blocks with an outline"), "{told}");
    // One that is put down says which are meant.
    let one = brought("bib.dxf", &drawing(METRIC, &blocks, &(style + &insert(names[1]))));
    let [told] = &*one.remarks else { panic!("{:?}", one.remarks) };
    assert!(
        told.contains("“BIB-36” is in the file, with an outline, and the drawing puts it down nowhere"),
        "{told}"
    );
    assert!(one.text.contains("(32, 32)"), "{}", one.text);
}

#[test]
fn blocks_of_one_piece_that_end_with_sizes_are_sizes() {
    let style = words("1", 0.0, -20.0, "Sample Size: 38");
    let (blocks, names) = bib(&|_| words("1", 50.0, 50.0, "Piece Name: Bib"));
    let entities = names.map(insert).concat() + &style;
    let all = brought("bib.dxf", &drawing(METRIC, &blocks, &entities));
    is_graded(&all.text, "piece bib \"Bib\"");
    assert!(
        all.remarks.iter().any(|one| one.contains("the blocks' names end with 36 and 38")),
        "{:?}",
        all.remarks
    );
    // Two pieces whose blocks are only numbered are two pieces in the sample size.
    let said = |size: &str| {
        words("1", 50.0, 50.0, if size == "36" { "Piece Name: Bib" } else { "Piece Name: Yoke" })
    };
    let two = brought("bib.dxf", &drawing(METRIC, &bib(&said).0, &entities));
    assert!(two.text.contains("sizes 38\n"), "{}", two.text);
    assert!(two.text.contains("piece bib ") && two.text.contains("piece yoke "), "{}", two.text);
}

#[test]
fn a_written_name_that_ends_with_its_own_size_is_the_piece() {
    let said = |name: &'static str| {
        move |size: &str| {
            words("1", 50.0, 50.0, &format!("Piece Name: {name} {size}"))
                + &words("1", 50.0, 40.0, &format!("Size: {size}"))
        }
    };
    let (blocks, names) = bib(&said("Bib"));
    let all = brought("bib.dxf", &drawing(METRIC, &blocks, &names.map(insert).concat()));
    is_graded(&all.text, "piece bib \"Bib\"");
    assert!(all.remarks.is_empty(), "{:?}", all.remarks);
    // The gores 36 and 38 of a hat, both in both sizes, are called by their numbers.
    let gores: String = ["36", "38"]
        .iter()
        .flat_map(|gore| ["36", "38"].map(|size| (gore, size)))
        .map(|(gore, size)| {
            let side = if size == "36" { 300.0 } else { 320.0 };
            let own = words("1", 50.0, 50.0, &format!("Piece Name: Gore {gore}"))
                + &words("1", 50.0, 40.0, &format!("Size: {size}"));
            block(&format!("G{gore}-{size}"), &(square("1", 0.0, 0.0, side) + &own))
        })
        .collect();
    let hat = drawing(METRIC, &gores, &["G36-36", "G36-38", "G38-36", "G38-38"].map(insert).concat());
    let text = brought("hat.dxf", &hat).text;
    assert!(text.contains("piece gore_36 ") && text.contains("piece gore_38 "), "{text}");
}

/// The bib is sewn 300 by 400, and cut 10 mm outside of that.
#[test]
fn paths_that_are_called_after_lines_leave_the_name_to_their_group() {
    let drawn = |cut: &str, sewn: &str| {
        in_mm(&format!(
            "<g id='bib'><rect id='{cut}' width='320' height='430'/><rect id='{sewn}' x='10' y='10' width='300' height='400'/></g>\
             <g id='cuff'><rect id='{cut} 2' x='700' width='120' height='70'/>\
             <rect id='{sewn} 2' x='710' y='10' width='100' height='50'/></g>"
        ))
    };
    for (cut, sewn) in
        [("cutting line", "stitching line"), ("cut", "sew line"), ("Cutting_line", "Seam_line")]
    {
        let all = brought("bib.svg", &drawn(cut, sewn));
        assert_eq!(all.text.matches("\npiece ").count(), 2, "{}", all.text);
        for words in ["piece bib ", "piece cuff ", "(30, 40)", "(10, 5)"] {
            assert!(all.text.contains(words), "{words}\n{}", all.text);
        }
    }
    // A cut-out is a piece's own name.
    let own = in_mm("<g id='bib'><rect id='cutter' width='320' height='430'/></g>");
    assert!(brought("bib.svg", &own).text.contains("piece cutter "));
}
