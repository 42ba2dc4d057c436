//! Drawings that are one a size: the size is the only layer's, or what the file's name ends with.

use crate::brought::in_mm;
use fustian::bring::{BringOptions, Brought, ReadOptions, SizesFrom, bring};

/// A bib and a pocket beside it, so wide, in groups of their names that stand in a layer.
fn bib(layer: &str, wide: u32) -> String {
    in_mm(&format!(
        "<g id='{layer}'><g id='bib'><rect width='{wide}' height='400'/></g>\
         <g id='pocket'><rect x='700' width='150' height='160'/></g></g>"
    ))
}

fn all(files: &[(&str, String)], from: Option<SizesFrom>) -> Brought {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, own)| (*name, own.as_bytes())).collect();
    let read = ReadOptions { sizes_from: from, ..ReadOptions::default() };
    bring(&files, &BringOptions { read, ..BringOptions::default() }).unwrap_or_else(|why| panic!("{why}"))
}

/// 300, 320 and 340 mm wide in S, M and L: 30 cm and 2 more from size to size.
fn is_graded(brought: &Brought) {
    let text = &brought.text;
    assert!(text.contains("sizes S, M, L") && text.contains("(30 grade +2)"), "{text}");
    assert_eq!(text.matches("\npiece ").count(), 2, "{text}");
}

#[test]
fn the_only_layer_of_a_drawing_is_its_size() {
    let files = [("a.svg", bib("S", 300)), ("b.svg", bib("M", 320)), ("c.svg", bib("L", 340))];
    for from in [None, Some(SizesFrom::Layers)] {
        let brought = all(&files, from);
        is_graded(&brought);
        assert!(brought.remarks.is_empty(), "{:?}", brought.remarks);
    }
    // One by itself is drawn in that size, with a frame beside its layer too.
    let one = all(&files[..1], None);
    assert!(one.text.contains("sizes S\n"), "{}", one.text);
    // By numbers, whose pieces have names of their own.
    let numbers = [("a.svg", bib("size 38", 300)), ("b.svg", bib("40", 320))];
    assert!(all(&numbers, None).text.contains("sizes 38, 40"));
}

#[test]
fn a_group_that_is_only_numbered_is_no_size() {
    // The twelfth piece of many, and a layer that says nothing of a size.
    let twelfth = in_mm("<g id='12'><rect width='300' height='400'/></g>");
    let plain = bib("sheet", 300);
    for drawn in [twelfth, plain] {
        let brought = all(&[("bib.svg", drawn)], None);
        assert!(!brought.text.contains("sizes"), "{}", brought.text);
    }
}

#[test]
fn files_of_one_name_that_end_with_sizes_are_sizes() {
    let files = [
        ("bib-S.svg", bib("sheet", 300)),
        ("bib-M.svg", bib("sheet", 320)),
        ("bib-L.svg", bib("sheet", 340)),
    ];
    let brought = all(&files, None);
    is_graded(&brought);
    let [told] = &*brought.remarks else { panic!("{:?}", brought.remarks) };
    assert!(told.contains("their names end with S, M and L: those are taken for sizes"), "{told}");
    // Two drawings of unlike pieces are two, whatever their names end with, and so are two pages.
    let cap = in_mm("<rect id='cap' width='200' height='100'/>");
    let nameless = |wide: u32| in_mm(&format!("<rect width='{wide}' height='100'/>"));
    let unlike = [("bib-S.svg", bib("sheet", 300)), ("bib-M.svg", cap)];
    for two in [unlike, [("sheet-10.svg", nameless(300)), ("sheet-11.svg", nameless(500))]] {
        let two = all(&two, None);
        assert!(two.remarks.is_empty() && !two.text.contains("sizes"), "{:?}\n{}", two.remarks, two.text);
    }
}
