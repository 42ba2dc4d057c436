//! Test squares: what says how large a drawing is, and what only looks as if it did.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, brought_with, draft, in_mm, length};
use fustian::bring::{BringOptions, Brought, ReadOptions};

#[test]
fn a_test_square_that_is_none_makes_no_piece() {
    let bib = "<rect id='bib' width='300' height='400'/>";
    let drawn = |square: &str| in_mm(&format!("{bib}\n{square}"));
    let is_bib_alone = |square: &str| {
        let own = brought("bib.svg", &drawn(square));
        assert!(own.text.matches("\npiece ").count() == 1 && own.text.contains("piece bib "), "{}", own.text);
        own.remarks
    };
    let inside = "<rect x='500' y='20' width='100' height='100'/><text x='520' y='70'>10 cm</text>";
    assert!(is_bib_alone(inside).is_empty());
    let beside = "<rect x='500' y='20' width='100' height='100'/><text x='610' y='70'>10 x 10 cm</text>";
    only(&is_bib_alone(beside), &["the square in line 2 is 100.0 mm wide as the words beside it say"]);
    // With a scale of the maker's it is no piece either.
    let options = BringOptions {
        read: ReadOptions { scale: Some(1.0), ..ReadOptions::default() },
        ..BringOptions::default()
    };
    let scaled = brought_with("bib.svg", &drawn(inside), &options).unwrap();
    assert_eq!(scaled.text.matches("\npiece ").count(), 1, "{}", scaled.text);
    let oblong = refused("bib.svg", &drawn(&inside.replace("height='100'", "height='90'")));
    assert!(
        oblong.contains("bib.svg:2: a test square that says “10 cm” is drawn 100.0 mm wide and 90.0 mm high"),
        "{oblong}"
    );
    let small = refused(
        "bib.svg",
        &drawn("<rect x='500' y='20' width='10' height='10'/><text x='520' y='70'>10 cm</text>"),
    );
    assert!(
        small.contains("bib.svg:2: a square is drawn 10.0 mm wide, and the words beside it say “10 cm”"),
        "{small}"
    );
    let two =
        format!("{inside}\n<rect x='700' y='20' width='100' height='100'/><text x='720' y='70'>4 in</text>");
    let two = refused("bib.svg", &drawn(&two));
    assert!(
        two.contains("bib.svg:3: two test squares say two scales: 101.6 mm are drawn 100.0 mm wide here"),
        "{two}"
    );
    // A pocket that is square, has a name and a length in it is a piece still.
    let pocket =
        "<rect id='pocket' x='500' y='20' width='150' height='150'/><text x='700' y='300'>15 cm</text>";
    assert_eq!(brought("bib.svg", &drawn(pocket)).text.matches("\npiece ").count(), 2);
}

#[test]
fn a_square_with_a_name_or_words_of_its_own_is_a_piece() {
    let pocket = |named: &str, words: &str| {
        let flap = "<rect id='flap' x='310' y='10' width='200' height='100'/>";
        let title = if named.is_empty() { String::new() } else { format!("<title>{named}</title>") };
        brought(
            "bib.svg",
            &in_mm(&format!(
                "{flap}<path d='M10 10h200v200h-200z'>{title}</path><text x='30' y='50'>{words}</text>"
            )),
        )
    };
    for (named, words) in [
        ("Pocket", "20 cm"),
        ("Pocket", "Pocket, hem 2 cm"),
        ("", "Pocket, hem 2 cm"),
        ("Pocket", "Pocket 10 cm deep"),
        ("", "Pocket 10 cm deep"),
    ] {
        let own = pocket(named, words);
        assert_eq!(own.text.matches("\npiece ").count(), 2, "{named} {words}\n{}", own.text);
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
        // It is drawn 200 mm wide, and the flap beside it too.
        let garment = draft(&own.text);
        assert!((length(&garment, 0, "flap", "e1") - 200.0).abs() < 0.02, "{}", own.text);
    }
    // What says a length and nothing else is a test square still: all is half as large.
    for (named, words) in [
        ("", "10 cm"),
        ("Test square", "10 cm"),
        ("", "10 cm × 10 cm"),
        ("", "test square 10 cm"),
        ("Scale", "must measure 10 cm when printed"),
    ] {
        let own = pocket(named, words);
        assert_eq!(own.text.matches("\npiece ").count(), 1, "{named} {words}\n{}", own.text);
        let garment = draft(&own.text);
        assert!((length(&garment, 0, "flap", "e1") - 100.0).abs() < 0.02, "{}", own.text);
    }
}

#[test]
fn a_square_that_is_a_piece_by_name_and_a_test_square_by_its_words_is_told() {
    let drawn = |side: u32| {
        in_mm(&format!(
            "<rect id='bib' width='300' height='400'/>\n\
             <rect id='pocket' x='500' y='20' width='{side}' height='{side}'/><text x='520' y='70'>15 cm</text>"
        ))
    };
    assert!(told("bib.svg", &drawn(150)).is_empty());
    only(
        &told("bib.svg", &drawn(120)),
        &["pocket in line 2 is a square 120.0 mm wide with the words “15 cm” in it"],
    );
}

#[test]
fn a_test_square_that_stands_turned_is_told() {
    let drawn = |square: &str, words: &str| {
        in_mm(&format!(
            "<rect id='flap' x='10' y='10' width='200' height='100'/>\n\
             <g transform='rotate(10 350 60)'><rect {square} x='300' y='10' width='90' height='90'/></g>\
             <text x='330' y='60'>{words}</text>"
        ))
    };
    let why = refused("bib.svg", &drawn("", "10 cm"));
    assert!(why.starts_with("bib.svg:2: a square stands turned and says “10 cm”"), "{why}");
    // With a name or words of its own it is a piece.
    for (square, words) in [("id='patch'", "10 cm"), ("", "Patch, hem 1 cm")] {
        let text = brought("bib.svg", &drawn(square, words)).text;
        assert_eq!(text.matches("\npiece ").count(), 2, "{text}");
    }
}

/// A drawing whose scale the maker says: a unit is a millimetre.
fn scaled(drawing: &str) -> Brought {
    let read = ReadOptions { scale: Some(1.0), ..ReadOptions::default() };
    let options = BringOptions { read, ..BringOptions::default() };
    brought_with("bib.svg", drawing, &options).unwrap_or_else(|why| panic!("{why}"))
}

#[test]
fn beside_a_scale_that_is_said_no_test_square_goes_without_a_word() {
    let bib = "<rect id='bib' width='300' height='400'/>";
    let square = |wide: u32, high: u32, turned: &str, words: (u32, u32)| {
        let (x, y) = words;
        in_mm(&format!(
            "{bib}\n<rect x='500' y='20' width='{wide}' height='{high}' {turned}/><text x='{x}' y='{y}'>10 cm</text>"
        ))
    };
    let (within, beside, turn) = ((520, 70), (640, 70), "transform='rotate(10 550 70)'");
    let agrees = "the test square in line 2 says “10 cm”, and agrees with the `scale` that was said";
    for (drawing, pieces, words) in [
        (square(100, 100, "", within), 1, agrees),
        (square(100, 100, turn, within), 1, agrees),
        (square(100, 100, "", beside), 1, agrees),
        (square(120, 120, "", within), 1, "says “10 cm” and is 120.0 mm wide by the `scale` that was said"),
        (square(90, 90, turn, within), 1, "says “10 cm” and is 90.0 mm wide by the `scale` that was said"),
        (
            square(100, 90, "", within),
            2,
            "stand in a rectangle in line 2 that is 100.0 mm wide and 90.0 mm high",
        ),
        (square(120, 120, "", beside), 2, "stand beside a rectangle in line 2 that is 120.0 mm wide"),
    ] {
        let own = scaled(&drawing);
        assert_eq!(own.text.matches("\npiece ").count(), pieces, "{words}\n{}", own.text);
        only(&own.remarks, &[words]);
    }
    // What is a piece by its name needs no word.
    assert!(scaled(&square(100, 90, "id='pocket'", within)).remarks.is_empty());
}

#[test]
fn an_oblong_test_square_says_one_scale_in_two_measures() {
    let drawn = |wide: u32, high: u32, words: &str| {
        in_mm(&format!(
            "<rect id='bib' width='300' height='400'/>\n\
             <rect x='500' y='20' width='{wide}' height='{high}'/><text x='510' y='50'>{words}</text>"
        ))
    };
    for words in ["9 x 10 cm", "9 × 10 cm", "9 cm by 10 cm", "10 cm x 9 cm"] {
        for (wide, high) in [(90, 100), (100, 90)] {
            let own = brought("bib.svg", &drawn(wide, high, words));
            assert!(own.remarks.is_empty(), "{words}: {:?}", own.remarks);
            assert_eq!(own.text.matches("\npiece ").count(), 1, "{words}\n{}", own.text);
        }
        // Drawn at half its size, all is twice as large: a hem of 300 is 600.
        let half = brought("bib.svg", &drawn(45, 50, words)).text;
        assert!((length(&draft(&half), 0, "bib", "e1") - 600.0).abs() < 0.02, "{half}");
        let square = refused("bib.svg", &drawn(100, 100, words));
        assert!(square.contains("is drawn 100.0 mm wide and 100.0 mm high"), "{square}");
    }
}
