//! What words on a drawing and names in it say, word by word; blocks that are put down several times, with words of their own or in
//! sizes of their own. Beside each stands what only looks like it.

use crate::bring_in_doubt::{only, told};
use crate::brought::{brought, brought_with, draft, in_mm, length, plain};
use crate::reading_dxf::{block, drawing, insert, square, words};
use fustian::bring::{BringOptions, Brought, ReadOptions, SizesFrom};

const METRIC: &str = "9 $INSUNITS|70 4|";

/// How many are cut, as the only piece says it, with its note.
fn cut(of: &Brought) -> String {
    let text = plain(&of.text);
    let mut lines = text.lines().filter(|line| line.starts_with("cut "));
    let first = lines.next().unwrap_or_else(|| panic!("nothing is cut in\n{text}"));
    assert!(lines.next().is_none(), "{text}");
    first.to_owned()
}

/// How many are cut, by piece.
fn cuts(of: &Brought) -> Vec<(String, String)> {
    let text = plain(&of.text);
    let mut name = String::new();
    let mut all = Vec::new();
    for line in text.lines() {
        if let Some(rest) = line.strip_prefix("piece ") {
            name = rest.split(' ').next().unwrap_or_default().to_owned();
        } else if line.starts_with("cut ") {
            all.push((name.clone(), line.to_owned()));
        }
    }
    all
}

const UNSAID: &str = "cut 1 # how many, the drawing does not say";

#[test]
fn a_title_may_hold_words_that_hold_shorter_ones() {
    let of = |words: &str| {
        let drawn = format!("<rect width='300' height='400'/><text x='90' y='90'>{words}</text>");
        brought("bib.svg", &in_mm(&drawn))
    };
    for title in [
        "Summer top",
        "Hammock",
        "Commando pouch",
        "Cutaway front",
        "Folded cuff",
        "Downsized bib",
        "Winter top, cut 1",
    ] {
        let own = of(title);
        let title = title.trim_end_matches(", cut 1");
        assert!(own.text.contains(&format!("\"{title}\"")), "{title}\n{}", own.text);
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    }
    for other in ["size 38", "cut 2", "hem 10mm", "fold line", "GrainLine", "seam allowance", "notches", "12"]
    {
        assert!(of(other).text.contains("piece piece_1 \"piece 1\""), "{other}\n{}", of(other).text);
    }
}

/// Both formats read them alike.
#[test]
fn how_many_are_cut_is_read_alike_in_every_format() {
    for (words_on_it, expected) in [
        (&["cut 2"][..], "cut 2"),
        (&["Cut: 2 alike"], "cut 2"),
        (&["cut ×2"], "cut 2"),
        (&["cut2 mirrored"], "cut 2 mirrored"),
        (&["cut 2 in lining"], "cut 2"),
        (&["Cutaway front, cut 2"], "cut 2"),
        (&["cut along the line, cut 3"], "cut 3"),
        (&["cut 1 pair"], "cut 2 mirrored"),
        (&["cut 2 mirrored pairs"], "cut 4 mirrored"),
        (&["cut 2 mirror-image pairs."], "cut 4 mirrored"),
        (&["cut 4 (2 mirrored pairs)"], "cut 4 mirrored"),
        (&["cut 2, a pair"], "cut 2 mirrored"),
        (&["Left and right cuff, cut 2"], "cut 2 mirrored"),
        (&["cut 2, one of each hand"], "cut 2 mirrored"),
        (&["cut 2,", "mirrored"], "cut 2 mirrored"),
        (&["cut 2", "mirrored"], "cut 2"),
        (&["cut 2 for repairs"], "cut 2"),
        (&["cut 2, not mirrored"], "cut 2"),
        (&["cut 3 mirrored"], "cut 3"),
        (&["undercut 2"], UNSAID),
        (&["shortcut 2"], UNSAID),
        (&["cut 1 cm outside"], UNSAID),
        (&["cut 2.5 outside"], UNSAID),
        (&["cut 2nd"], UNSAID),
        (&["cut 5000"], UNSAID),
    ] {
        let lines: String = words_on_it
            .iter()
            .zip(0..)
            .map(|(line, at)| format!("<text x='90' y='{}'>{line}</text>", 90 + 20 * at))
            .collect();
        let vector = in_mm(&format!("<rect id='bib' width='300' height='400'/>{lines}"));
        assert_eq!(cut(&brought("bib.svg", &vector)), expected, "{words_on_it:?}");
        let lines: String = words_on_it
            .iter()
            .zip(0..)
            .map(|(line, at)| words("0", 90.0, 90.0 - 20.0 * f64::from(at), line))
            .collect();
        let plain = square("0", 0.0, 0.0, 300.0) + &words("0", 90.0, 200.0, "Bib") + &lines;
        assert_eq!(cut(&brought("bib.dxf", &drawing(METRIC, "", &plain))), expected, "{words_on_it:?}");
        let coded = square("1", 0.0, 0.0, 300.0) + &words("1", 90.0, 200.0, "Piece Name: Bib") + &lines;
        let coded = drawing(METRIC, &block("BIB", &coded), &insert("BIB"));
        assert_eq!(cut(&brought("bib.dxf", &coded)), expected, "{words_on_it:?}");
    }
    // A quantity of pairs, and one that is no pair whatever else is said.
    for (quantity, expected) in
        [("2 mirrored pairs", "cut 4 mirrored"), ("1 pair", "cut 2 mirrored"), ("1, left and right", "cut 1")]
    {
        let own = square("1", 0.0, 0.0, 300.0) + &words("1", 9.0, 9.0, &format!("Quantity: {quantity}"));
        let own = brought("bib.dxf", &drawing(METRIC, &block("BIB", &own), &insert("BIB")));
        assert_eq!(cut(&own), expected, "{quantity}");
    }
}

#[test]
fn another_count_in_each_size_is_written_for_each_size() {
    let vector = |counts: [&str; 3]| {
        let sizes = ["S", "M", "L"].iter().zip(counts).zip([300, 320, 340]).map(|((size, words), wide)| {
            format!("<g id='{size}'><rect id='bib' width='{wide}' height='400'/><text x='90' y='90'>{words}</text></g>\n")
        });
        brought("bib.svg", &in_mm(&sizes.collect::<String>()))
    };
    for (counts, expected) in [
        (["cut 2", "cut 2", "cut 4"], "cut each 2, 2, 4"),
        (["cut 1 pair", "cut 2 pairs", "cut 2 pairs"], "cut each 2, 4, 4 mirrored"),
    ] {
        let own = vector(counts);
        assert_eq!(cut(&own), expected);
        only(&own.remarks, &["bib is cut 2", "in S", "4", "each size is written so"]);
        draft(&own.text);
    }
    assert_eq!(cut(&vector(["cut 2"; 3])), "cut 2");
    // Where one says nothing, or is no pair, the first holds for all.
    for counts in [["cut 2", "cut 4", "hem 3"], ["cut 2", "cut 4 mirrored", "cut 2"]] {
        let own = vector(counts);
        assert_eq!(cut(&own), "cut 2");
        only(&own.remarks, &["bib is cut 2 in S", "4", "2 was taken for every size"]);
    }
    let by_block = |counts: [&str; 2]| {
        let blocks = ["S", "M"].iter().zip(counts).zip([300.0, 320.0]).map(|((size, count), side)| {
            let own = words("1", 9.0, 9.0, &format!("Quantity: {count}"))
                + &words("1", 9.0, 29.0, "Piece Name: Cuff")
                + &words("1", 9.0, 49.0, &format!("Size: {size}"));
            block(&format!("CUFF-{size}"), &(square("1", 0.0, 0.0, side) + &own))
        });
        brought(
            "cuff.dxf",
            &drawing(METRIC, &blocks.collect::<String>(), &["CUFF-S", "CUFF-M"].map(insert).concat()),
        )
    };
    let own = by_block(["2", "4"]);
    assert_eq!(cut(&own), "cut each 2, 4");
    only(&own.remarks, &["cuff is cut 2 in S, and 4 in M: each size is written so"]);
    assert!(by_block(["2", "2"]).remarks.is_empty());
}

/// A block of squares on layers that are sizes, in coordinates of its own.
fn nest(name: &str, layers: &[(&str, f64, f64)]) -> String {
    block(name, &layers.iter().map(|(layer, x, side)| square(layer, *x, 0.0, *side)).collect::<String>())
}

#[test]
fn sizes_that_are_layers_are_matched_within_their_block() {
    let front = nest("FRONT", &[("S", 0.0, 300.0), ("M", 0.0, 320.0), ("L", 0.0, 340.0)]);
    let two = |other: &str, name: &str| {
        drawing(METRIC, &(front.clone() + other), &(insert("FRONT") + &insert(name)))
    };
    // One that lies elsewhere in its own block, and one that lies over half of the front there.
    for (name, x, [small, middle, large]) in
        [("BACK", 1000.0, [300.0, 320.0, 340.0]), ("COLLAR", 0.0, [150.0, 170.0, 190.0])]
    {
        let other = nest(name, &[("S", x, small), ("M", x, middle), ("L", x, large)]);
        let own = brought("smock.dxf", &two(&other, name));
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
        let garment = draft(&own.text);
        assert_eq!(garment.garment.pieces.len(), 2, "{}", own.text);
        for (size, side) in [small, middle, large].into_iter().enumerate() {
            assert!((length(&garment, size, &name.to_lowercase(), "e1") - side).abs() < 0.02, "{}", own.text);
        }
    }
    // What the first size of its own block lacks is told with that size.
    let back = nest("BACK", &[("M", 1000.0, 320.0), ("L", 1000.0, 340.0), ("L", 2000.0, 90.0)]);
    let remarks = told("smock.dxf", &two(&back, "BACK"));
    assert!(remarks.iter().any(|one| one.contains("lies on none of size M, the first one")), "{remarks:?}");
}

#[test]
fn blocks_of_one_size_each_are_sizes_of_one_another() {
    let blocks = nest("FRONT-S", &[("S", 0.0, 300.0)])
        + &nest("BACK-S", &[("S", 1000.0, 200.0)])
        + &nest("FRONT-M", &[("M", 0.0, 320.0)])
        + &nest("BACK-M", &[("M", 1000.0, 220.0)]);
    let entities = ["FRONT-S", "BACK-S", "FRONT-M", "BACK-M"].map(insert).concat();
    let options = BringOptions {
        read: ReadOptions { sizes_from: Some(SizesFrom::Layers), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    let own = brought_with("smock.dxf", &drawing(METRIC, &blocks, &entities), &options).unwrap();
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    let garment = draft(&own.text);
    for (name, sides) in [("front", [300.0, 320.0]), ("back", [200.0, 220.0])] {
        for (size, side) in sides.into_iter().enumerate() {
            assert!((length(&garment, size, name, "e1") - side).abs() < 0.02, "{}", own.text);
        }
    }
    assert_eq!(garment.garment.pieces.len(), 2, "{}", own.text);
}

/// A block put down at a place, with words that stand there too: tag, value and place.
fn put(name: &str, x: f64, more: &str, written: &[(&str, &str, f64)]) -> String {
    let attributes: String = written
        .iter()
        .map(|(tag, value, x)| format!("0 ATTRIB|8 0|10 {x}|20 100|40 5|1 {value}|2 {tag}|"))
        .collect();
    let (opens, shuts) = if written.is_empty() { ("", "") } else { ("66 1|", "0 SEQEND|8 0|") };
    format!("0 INSERT|8 0|2 {name}|{opens}10 {x}|20 0|{more}{attributes}{shuts}")
}

#[test]
fn a_block_in_rows_and_columns_is_as_many() {
    let front = block("FRONT", &square("1", 0.0, 0.0, 300.0));
    let wrap = block("WRAP", &put("FRONT", 0.0, "", &[]));
    let own =
        |entities: &str| cut(&brought("smock.dxf", &drawing(METRIC, &(front.clone() + &wrap), entities)));
    assert_eq!(own(&put("FRONT", 0.0, "", &[])), UNSAID);
    assert_eq!(own(&put("FRONT", 0.0, "70 1|71 1|", &[])), UNSAID);
    assert_eq!(own(&put("FRONT", 0.0, "70 2|71 1|44 500|", &[])), "cut 2");
    assert_eq!(own(&put("FRONT", 0.0, "70 2|71 3|44 500|45 500|", &[])), "cut 6");
    assert_eq!(own(&put("WRAP", 0.0, "70 2|44 500|", &[])), "cut 2");
    // Both rows once more turned over: four and four.
    let both = put("FRONT", 0.0, "70 4|44 500|", &[]) + &put("FRONT", 0.0, "41 -1|70 4|44 500|", &[]);
    assert_eq!(own(&both), "cut 8 mirrored");
}

#[test]
fn what_is_written_with_a_block_names_its_piece() {
    let front = block("FRONT", &square("1", 0.0, 0.0, 300.0));
    let wrap = block("WRAP", &put("FRONT", 0.0, "", &[]));
    let named = [("PIECE NAME", "Rear panel", 100.0)];
    // With the block, with one that only puts it down, and with one in it.
    let sign = block("SIGN", &words("1", 0.0, 0.0, "hem 2"));
    let inner = block("FRONT", &(square("1", 0.0, 0.0, 300.0) + &put("SIGN", 9.0, "", &named)));
    for (blocks, entities) in [
        (front.clone(), put("FRONT", 0.0, "", &named)),
        (front.clone() + &wrap, put("WRAP", 0.0, "", &named)),
        (sign + &inner, insert("FRONT")),
    ] {
        let own = brought("smock.dxf", &drawing(METRIC, &blocks, &entities));
        assert!(own.text.contains("piece rear_panel \"Rear panel\""), "{}", own.text);
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    }
}

/// Two outlines, 1000 apart, in a block that is put down 1000 to the right: what is written at 1100 stands in the first.
#[test]
fn what_is_written_with_a_block_stands_where_the_drawing_has_it() {
    let both = block("BOTH", &(square("A", 0.0, 0.0, 300.0) + &square("A", 1000.0, 0.0, 310.0)));
    let named = [("X", "Piece name: Left one", 1100.0), ("X", "Piece name: Right one", 2100.0)];
    let own = brought("smock.dxf", &drawing(METRIC, &both, &put("BOTH", 1000.0, "", &named)));
    let garment = draft(&own.text);
    assert!((length(&garment, 0, "left_one", "e1") - 300.0).abs() < 0.02, "{}", own.text);
    assert!((length(&garment, 0, "right_one", "e1") - 310.0).abs() < 0.02, "{}", own.text);
    // Two blocks in one that only puts them down, and the name of the second.
    let blocks = block("ONE", &square("1", 0.0, 0.0, 300.0))
        + &block("OTHER", &square("1", 0.0, 0.0, 310.0))
        + &block("WRAP", &(put("ONE", 0.0, "", &[]) + &put("OTHER", 1000.0, "", &[])));
    let named = [("PIECE NAME", "Right one", 2100.0)];
    let own = brought("smock.dxf", &drawing(METRIC, &blocks, &put("WRAP", 1000.0, "", &named)));
    let garment = draft(&own.text);
    assert!((length(&garment, 0, "one", "e1") - 300.0).abs() < 0.02, "{}", own.text);
    assert!((length(&garment, 0, "right_one", "e1") - 310.0).abs() < 0.02, "{}", own.text);
}

#[test]
fn a_block_put_down_again_is_one_more_or_what_is_written_with_it() {
    let front = block("FRONT", &square("1", 0.0, 0.0, 300.0));
    let own = |first: &[(&str, &str, f64)], second: &[(&str, &str, f64)]| {
        let entities = put("FRONT", 0.0, "", first) + &put("FRONT", 1000.0, "", second);
        brought("smock.dxf", &drawing(METRIC, &front, &entities))
    };
    let [left, right] = [[("PIECE NAME", "Left pocket", 100.0)], [("PIECE NAME", "Right pocket", 1100.0)]];
    let pair = |name: &str, cut: &str| (name.to_owned(), cut.to_owned());
    for (first, second) in [(&left[..], &[][..]), (&[], &left), (&left, &left)] {
        assert_eq!(cuts(&own(first, second)), [pair("left_pocket", "cut 2")]);
    }
    // Two names are two pieces.
    assert_eq!(cuts(&own(&left, &right)), [pair("left_pocket", UNSAID), pair("right_pocket", UNSAID)]);
    // What says no name is the piece's, once.
    let note = [("NOTE", "cut 2 mirrored", 100.0)];
    assert_eq!(cuts(&own(&[], &note)), [pair("front", "cut 2 mirrored")]);
    assert_eq!(cuts(&own(&note, &note)), [pair("front", "cut 2 mirrored")]);
}

#[test]
fn names_of_lines_are_read_word_by_word() {
    // A line along the left edge.
    let folded = |name: &str| {
        in_mm(&format!(
            "<path id='bib' d='M0 0 H300 V400 H0 Z'/><path id='{name}' d='M0 0 V400'/><text x='90' y='90'>folded hem, cut 1</text>"
        ))
    };
    for (name, is_fold) in [
        ("fold", true),
        ("FoldLine", true),
        ("centre-fold_2", true),
        ("unfold", false),
        ("manifold", false),
        ("folded collar", false),
    ] {
        let own = brought("bib.svg", &folded(name));
        assert_eq!(cut(&own) == "cut 1 on fold fold", is_fold, "{name}\n{}", own.text);
        assert!(own.remarks.iter().all(|one| !one.contains("something of a fold")), "{:?}", own.remarks);
    }
    let unfolded = in_mm("<path id='bib' d='M0 0 H300 V400 H0 Z'/><text x='90' y='90'>place on fold</text>");
    assert!(told("bib.svg", &unfolded).iter().any(|one| one.contains("something of a fold")));
    // A closed line inside, 10 from three sides and 60 from the fourth.
    let sewn = |name: &str| {
        in_mm(&format!(
            "<path id='bib' d='M0 0 H300 V400 H0 Z'/><path id='{name}' d='M10 10 H290 V340 H10 Z'/>"
        ))
    };
    for (name, is_sewn) in [
        ("seam top", true),
        ("StitchLine", true),
        ("top stitching", false),
        ("topstitch", false),
        ("seamless panel", false),
        ("sewer", false),
    ] {
        let text = brought("bib.svg", &sewn(name)).text;
        assert_eq!(text.contains("# The outlines are the drawing's sew lines."), is_sewn, "{name}\n{text}");
    }
    // Layers of a plain drawing: a line along an edge, and a closed one inside.
    let layer = |layer: &str, line: &str| {
        let bib =
            square("0", 0.0, 0.0, 300.0) + &words("0", 90.0, 90.0, "Bib, cut 1") + &line.replace('*', layer);
        brought("bib.dxf", &drawing(METRIC, "", &bib)).text
    };
    let edge = "0 LINE|8 *|10 0|20 0|11 0|21 300|";
    let inner = square("*", 10.0, 10.0, 280.0);
    for (name, is_fold) in
        [("FOLD", true), ("Mirror line", true), ("UNFOLD", false), ("MIRRORED FRONT", false)]
    {
        let text = layer(name, edge);
        assert_eq!(text.contains("cut 1 on fold fold"), is_fold, "{name}\n{text}");
    }
    for (name, is_sewn) in [("SEW", true), ("Seam_Line", true), ("TOPSTITCH", false), ("SEWER", false)] {
        let text = layer(name, &inner);
        assert_eq!(text.contains("# The outlines are the drawing's sew lines."), is_sewn, "{name}\n{text}");
    }
}
