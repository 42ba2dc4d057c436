//! A slip of the pen never quietly means something else: each is told, once, with what was meant.

use fustian::report::Diagnostic;
use fustian::source::SourceMap;
use fustian::syntax::parse;
use fustian::syntax::tree::{ExprKind, LetValue, StatementNode};

fn mistakes(text: &str) -> Vec<Diagnostic> {
    let mut map = SourceMap::default();
    let file = map.add("smock.fus", text);
    parse(&map, file).mistakes
}

/// The one message of a text: its slug, the words it points at, and its way out.
fn only(text: &str) -> (&'static str, String, String) {
    let found = mistakes(text);
    assert_eq!(found.len(), 1, "{text:?} makes {found:#?}");
    let mistake = &found[0];
    let span = mistake.span();
    let pointed = text[span.lo as usize..span.hi as usize].to_owned();
    (mistake.slug(), pointed, mistake.help.clone().unwrap_or_default())
}

/// The number of the only `let`, as it is taken in spite of the slip.
fn number(text: &str) -> f64 {
    let mut map = SourceMap::default();
    let file = map.add("smock.fus", text);
    let parsed = parse(&map, file);
    let StatementNode::Let(value) = &parsed.file.statements[0].node else { panic!("no let in {text:?}") };
    match &value.value {
        LetValue::Is(expr) => match &expr.kind {
            ExprKind::Quantity(quantity) => quantity.number,
            other => panic!("{text:?} is {other:?}"),
        },
        LetValue::Solved { .. } => panic!("{text:?} is solved"),
    }
}

#[test]
fn a_hyphen_before_a_fraction() {
    let (slug, pointed, help) = only("let cuff = 6-1/2in");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "6-1/2in"));
    assert!(help.contains("`6 1/2in`") && help.contains("`6 - 1/2in`"), "{help}");
    assert_eq!(number("let cuff = 6-1/2in"), 6.5);
    assert!(mistakes("let cuff = 6 - 1/2in\nlet hem = 8-2").is_empty());
}

#[test]
fn a_point_without_a_zero() {
    let (slug, pointed, help) = only("let gap = .5");
    assert_eq!((slug, pointed.as_str()), ("text/slip", ".5"));
    assert!(help.contains("`0.5`"), "{help}");
    assert_eq!(number("let gap = .5"), 0.5);
}

#[test]
fn a_decimal_comma() {
    let (slug, pointed, help) = only("let gap = 1,5");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "1,5"));
    assert!(help.contains("`1.5`") && help.contains("`1, 5`"), "{help}");
    assert_eq!(number("let gap = 1,5"), 1.5);
}

#[test]
fn commas_that_touch_in_a_list() {
    let (slug, pointed, help) = only("body { chest 80,88,96 }");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "80,88,96"));
    assert!(help.contains("`80, 88, 96`"), "{help}");
    // In the brackets of a point there are two numbers, whatever touches.
    assert!(mistakes("piece pocket { point corner = (3,4) }").is_empty());
    let (_, pointed, _) = only("piece pocket { point corner = (3,4,5) }");
    assert_eq!(pointed, "3,4,5");
}

#[test]
fn a_step_without_its_word() {
    for text in ["body { back_waist 40 +0.6 }", "let back_waist = 40 +0.6"] {
        let (slug, pointed, help) = only(text);
        assert_eq!((slug, pointed.as_str()), ("text/slip", "40 +0.6"));
        assert!(help.contains("`40 grade +0.6`") && help.contains("`40 + 0.6`"), "{help}");
    }
    let (_, _, help) = only("body { arm 58 +0.8, +1 }");
    assert!(help.contains("`58 grade +0.8, +1`"), "{help}");
    assert!(mistakes("let back_waist = 40 + 0.6\nlet arm = 40+0.6\nlet hip = chest/4 +1").is_empty());
}

#[test]
fn a_text_that_touches_a_number() {
    let (slug, pointed, help) = only("let ease = 24\"wearing ease\"");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "24\"wearing ease\""));
    assert!(help.contains("`24 \"wearing ease\"`"), "{help}");
    assert_eq!(number("let ease = 24\"wearing ease\""), 24.0);
    assert!(mistakes("let ease = 24\" \"wearing ease\"\nlet cuff = 5/8\" + 3/8\"").is_empty());
}

#[test]
fn a_unit_apart_from_its_number() {
    for (text, pointed_at, way_out) in [
        ("let ease = 14 in", "14 in", "`14in`"),
        ("fabric shell { width 150 cm }", "150 cm", "`150cm`"),
        ("lengthen front at waist by 16 cm keeping front.pocket", "16 cm", "`16cm`"),
        ("let ease = 1 1/2 yd + 3", "1 1/2 yd", "`1 1/2yd`"),
        ("let turn = 30 °", "30 °", "`30°`"),
    ] {
        let (slug, pointed, help) = only(text);
        assert_eq!((slug, pointed.as_str()), ("text/slip", pointed_at));
        assert!(help.contains(way_out), "{help}");
    }
    assert!(mistakes("seam side a.side to b.side { leaving gap 14 in lining }").is_empty());
}

#[test]
fn a_unit_spelt_out() {
    let (slug, pointed, help) = only("let ease = 14inches");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "14inches"));
    assert!(help.contains("`14in`"), "{help}");
}

#[test]
fn a_lost_plus_before_a_point() {
    let (slug, pointed, help) = only("piece front { point tip = neck_side (3, 4) }");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "("));
    assert!(help.contains("`neck_side + (…)`"), "{help}");
}

#[test]
fn a_bracket_apart_from_its_function() {
    let (slug, pointed, help) = only("let hem = length (front.hem)");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "length"));
    assert!(help.contains("`length(…)`"), "{help}");
}

#[test]
fn a_line_that_ends_before_its_value() {
    for text in ["let ease =\nlet hem = 3", "let ease =\n  24\nlet hem = 3", "let ease = 3 +\n"] {
        let (slug, pointed, help) = only(text);
        assert_eq!(slug, "text/slip");
        assert!(pointed == "=" || pointed == "+", "{pointed}");
        assert!(help.contains("on the same line"), "{help}");
    }
}

#[test]
fn a_number_that_is_none() {
    let (slug, pointed, _) = only("let ease = 1/0");
    assert_eq!((slug, pointed.as_str()), ("text/slip", "1/0"));
    assert_eq!(only(&format!("let ease = {}", "9".repeat(400))).0, "text/slip");
}

#[test]
fn signs_from_elsewhere() {
    for (text, way_out) in [
        ("garment “Deck smock”", "straight"),
        ("let ease = 3 × 4", "`*`"),
        ("let ease = 3 − 4", "`-`"),
        ("require length(front.side) ≥ 30 \"pocket\"", "`>=`"),
        ("let ease: 3", "`=`"),
    ] {
        let (slug, _, help) = only(text);
        assert_eq!(slug, "syntax/expected");
        assert!(help.contains(way_out), "{help}");
    }
}
