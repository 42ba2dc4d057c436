//! Lengths on the command line are read as they are in a file: the same are taken, the same refused,
//! in the same words.

use crate::workbench::{err, folder_of, out, run};
use fustian::compile;
use fustian::source::MemoryLoader;
use fustian::syntax::read_length;
use fustian::syntax::tree::Unit;

/// 1 in is 25.4 mm, 1 ft 304.8 and 1 yd 914.4 exactly (NIST SP 811, App. B).
const TAKEN: [(&str, Unit, f64); 15] = [
    ("5mm", Unit::Inch, 5.0),
    ("16.5cm", Unit::Millimetre, 165.0),
    ("1/2in", Unit::Centimetre, 12.7),
    ("58 1/2in", Unit::Centimetre, 1485.9),
    ("½in", Unit::Centimetre, 12.7),
    ("6½\"", Unit::Centimetre, 165.1),
    ("6 ½\"", Unit::Centimetre, 165.1),
    ("5/8\"", Unit::Centimetre, 15.875),
    ("2ft", Unit::Centimetre, 609.6),
    ("1 1/4yd", Unit::Centimetre, 1143.0),
    ("0.4m", Unit::Inch, 400.0),
    ("45", Unit::Centimetre, 450.0),
    ("45", Unit::Inch, 1143.0),
    (" 3/8 ", Unit::Inch, 9.525),
    ("0", Unit::Millimetre, 0.0),
];

const REFUSED: [&str; 14] = [
    "6-1/2in", ".5", "1,5", "14 cm", "½ yd", "3furlong", "3 inches", "2yards", "5deg", "5%", "1/0in", "5×3",
    "101m", "'5mm'",
];

/// What a file says of the same words as the width of a cloth: the first mistake's words and way out.
fn in_a_file(length: &str) -> Option<(String, String)> {
    let text = format!(
        "garment \"Ensign\"\nunits cm\nlet wide = {length}\nfabric bunting \"bunting\" {{ width wide }}\n"
    );
    let told = compile(&MemoryLoader::new().with("ensign.fus", text.as_str()), "ensign.fus").diagnostics;
    let of_length = |slug: &str| {
        ["text/slip", "syntax/expected", "unit/mixed", "unit/bare", "limit/length"].contains(&slug)
    };
    let first = told.into_iter().find(|told| of_length(told.slug()))?;
    Some((first.title.into(), first.help.unwrap_or_default()))
}

#[test]
fn what_the_language_takes_is_taken() {
    for (text, unit, millimetres) in TAKEN {
        let read = read_length(text, unit).unwrap_or_else(|slip| panic!("{text:?}: {}", slip.title));
        assert!((read - millimetres).abs() < 1e-9, "{text:?}: {read}");
        assert_eq!(in_a_file(text), None, "{text:?}");
    }
}

#[test]
fn what_the_language_refuses_is_refused_in_the_same_words() {
    for text in REFUSED {
        let slip = read_length(text, Unit::Centimetre).expect_err(text);
        let (title, help) = in_a_file(text).unwrap_or_else(|| panic!("a file takes {text:?}"));
        assert!(slip.help.is_some(), "{text:?} has no way out");
        let span = slip.span();
        assert!(text.get(span.lo as usize..span.hi as usize).is_some(), "{text:?}: {span:?}");
        // A file that knows what comes before and after may say more of these three.
        match text {
            "5deg" | "5%" => assert_eq!(slip.title, title),
            "101m" => assert_eq!(slip.slug(), "limit/length"),
            _ => assert_eq!((slip.title.to_string(), slip.help.unwrap_or_default()), (title, help)),
        }
    }
    for text in [
        "",
        "wide",
        "-3mm",
        "+3mm",
        "3mm 4mm",
        "count 4",
        "chest",
        "nan",
        "inf",
        "1e3",
        "5mm # wide",
        "5mm }",
    ] {
        let slip = read_length(text, Unit::Centimetre).expect_err(text);
        assert!(slip.help.is_some(), "{text:?} has no way out");
    }
}

const ENSIGN: &str = "garment \"Ensign\"\nunits cm\nallowance 1\nfabric bunting \"bunting\" { width 150 }\n\
     layer outer in bunting { flag }\npiece flag \"Flag\" {\n  cut 2\n  outline rectangle 20 by 15\n}\n\
     finish flag.left, flag.top, flag.right, flag.bottom  hem 1\n";

#[test]
fn inches_and_fractions_on_the_command_line() {
    let folder = folder_of(&[("ensign.fus", ENSIGN)]);
    // 58½ in = 148.59 cm, ½ yd = 45.72 cm.
    let output = run(folder.path(), &["materials", "ensign.fus", "--widths", "58 1/2in,½yd, 90"]);
    assert!(output.status.success(), "{}", err(&output));
    for width in ["148.6 cm", "45.7 cm", "90 cm"] {
        assert!(out(&output).contains(&format!("bunting   {width}")), "{width}: {}", out(&output));
    }
    for space in ["1/2in", "½\"", "3/8in"] {
        let output = run(folder.path(), &["lay", "ensign.fus", "--space", space]);
        assert!(output.status.success(), "{space}: {}", err(&output));
    }
    let output = run(folder.path(), &["lay", "ensign.fus", "--space", "6-1/2mm"]);
    assert_eq!(output.status.code(), Some(2));
    let words = "fustian: --space 6-1/2mm: `6-1/2mm` can be read two ways: a mixed number or a subtraction; \
                 write `6 1/2mm` for the mixed number, or `6 - 1/2mm` with spaces to subtract\n";
    assert_eq!(err(&output), words);
    assert!(output.stdout.is_empty());
    let output = run(folder.path(), &["materials", "ensign.fus", "--widths", "90,wide"]);
    let words = "fustian: --widths wide: `wide` is not a length; write a number and its unit, as 5mm, 16.5cm or 58 1/2in\n";
    assert_eq!((output.status.code(), err(&output).as_str()), (Some(2), words));
}
