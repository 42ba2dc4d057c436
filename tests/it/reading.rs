//! A maker writes every form of the language, and each is read as it was meant.

use fustian::source::SourceMap;
use fustian::syntax::tree::*;
use fustian::syntax::{KEYWORDS, Parsed, bare_parse, parse};

const EVERY_FORM: &str = include_str!("sources/every-form.fus");

fn read(text: &str) -> Parsed {
    let mut map = SourceMap::default();
    let file = map.add("smock.fus", text);
    parse(&map, file)
}

/// Reads a text that has no mistakes.
fn sound(text: &str) -> Vec<StatementNode> {
    let parsed = read(text);
    assert!(parsed.mistakes.is_empty(), "{text:?}: {:#?}", parsed.mistakes);
    parsed.file.statements.into_iter().map(|statement| statement.node.clone()).collect()
}

/// The value of `let v = …`.
fn value(expression: &str) -> Expr {
    match sound(&format!("let v = {expression}")).remove(0) {
        StatementNode::Let(Let { value: LetValue::Is(value), .. }) => value,
        other => panic!("{other:?}"),
    }
}

fn quantity(expression: &str) -> (f64, Option<Unit>) {
    match value(expression).kind {
        ExprKind::Quantity(quantity) => (quantity.number, quantity.unit.map(|unit| unit.unit)),
        other => panic!("{expression}: {other:?}"),
    }
}

/// A plain rendering with all brackets, to see how an expression was put together.
fn shape(expr: &Expr) -> String {
    match &expr.kind {
        ExprKind::Quantity(quantity) => {
            format!("{}{}", quantity.number, quantity.unit.map_or("", |unit| unit.unit.word()))
        }
        ExprKind::Name(dotted) => dotted.parts.iter().map(|name| &*name.text).collect::<Vec<_>>().join("."),
        ExprKind::Call(call) => {
            let all: Vec<_> = call.arguments.iter().map(shape).collect();
            format!("{}({})", call.function.text, all.join(", "))
        }
        ExprKind::Sum(terms) => {
            let all = terms.iter().map(|(sign, term)| {
                format!("{}{}", if *sign == Sign::Minus { "-" } else { "+" }, shape(term))
            });
            format!("[{}]", all.collect::<Vec<_>>().join(" "))
        }
        ExprKind::Product(factors) => {
            let all = factors.iter().map(|(scaling, factor)| {
                format!("{}{}", if *scaling == Scaling::Over { "/" } else { "*" }, shape(factor))
            });
            format!("<{}>", all.collect::<Vec<_>>().join(" "))
        }
        ExprKind::Negative(inner) => format!("neg {}", shape(inner)),
        ExprKind::Group(inner) => format!("({})", shape(inner)),
        ExprKind::Point(both) => format!("({}, {})", shape(&both.0), shape(&both.1)),
        ExprKind::Each(all) => format!("each {}", all.iter().map(shape).collect::<Vec<_>>().join(", ")),
        ExprKind::Grade(grade) => format!(
            "{}{} grade {}",
            shape(&grade.base),
            grade.at.as_ref().map_or(String::new(), |size| format!(" at {}", size.text)),
            grade.steps.iter().map(shape).collect::<Vec<_>>().join(", ")
        ),
        ExprKind::EverySize(inner) => format!("{} in every size", shape(inner)),
    }
}

#[test]
fn every_form_is_read_without_a_mistake() {
    let written = EVERY_FORM.lines().filter(|line| line.starts_with(char::is_alphabetic)).count();
    assert_eq!(sound(EVERY_FORM).len(), written);
    assert!(bare_parse(EVERY_FORM) > written);
}

#[test]
fn numbers_and_units_are_exact() {
    assert_eq!(quantity("16.5cm"), (16.5, Some(Unit::Centimetre)));
    assert_eq!(quantity("6 1/2in"), (6.5, Some(Unit::Inch)));
    assert_eq!(quantity("6½in"), (6.5, Some(Unit::Inch)));
    assert_eq!(quantity("6 ½in"), (6.5, Some(Unit::Inch)));
    assert_eq!(quantity("5/8\""), (0.625, Some(Unit::Inch)));
    assert_eq!(quantity("⅞″"), (0.875, Some(Unit::Inch)));
    assert_eq!(quantity("2mm"), (2.0, Some(Unit::Millimetre)));
    assert_eq!(quantity("3m"), (3.0, Some(Unit::Metre)));
    assert_eq!(quantity("1ft"), (1.0, Some(Unit::Foot)));
    assert_eq!(quantity("1 3/4yd"), (1.75, Some(Unit::Yard)));
    assert_eq!(quantity("30deg"), (30.0, Some(Unit::Degree)));
    assert_eq!(quantity("30°"), (30.0, Some(Unit::Degree)));
    assert_eq!(quantity("85%"), (85.0, Some(Unit::Percent)));
    assert_eq!(quantity("count 6"), (6.0, Some(Unit::Count)));
    assert_eq!(quantity("number 1.6"), (1.6, Some(Unit::Number)));
    assert_eq!(quantity("24"), (24.0, None));
}

#[test]
fn operators_bind_as_in_arithmetic() {
    for (written, read_as) in [
        ("neck/6 + 1", "[+<*neck /6> +1]"),
        ("a / 6/2", "<*a /6 /2>"),
        ("a - b - c", "[+a -b -c]"),
        ("-a * b", "<*neg a *b>"),
        ("2 - -3cm", "[+2 -neg 3cm]"),
        ("(a + b) * 2", "<*([+a +b]) *2>"),
        ("min(a, b + 1)", "min(a, [+b +1])"),
        ("neck_side + (chest/8 + 1.5, -4)", "[+neck_side +([+<*chest /8> +1.5], neg 4)]"),
        ("85% * total(outer.front.hem + b)", "<*85% *total([+outer.front.hem +b])>"),
        ("1/2 * a", "<*0.5 *a>"),
        ("(a\n  + b)", "([+a +b])"),
        ("max(a,\n  b\n)", "max(a, b)"),
        ("each 8, 8, 8.5", "each 8, 8, 8.5"),
        ("each 8,\n  9", "each 8, 9"),
        ("(each 1, 2) + 3", "[+(each 1, 2) +3]"),
        ("40 grade +0.6", "40 grade 0.6"),
        ("58 grade +0.8, -1, 0", "58 grade 0.8, neg 1, 0"),
        ("38 at M grade +1.2", "38 at M grade 1.2"),
        ("57 in every size", "57 in every size"),
    ] {
        assert_eq!(shape(&value(written)), read_as, "{written}");
    }
}

#[test]
fn a_span_covers_its_words_and_nothing_else() {
    let text = "let ease = 24   # at the chest\n  # more\nlet hem = a + b   \"deep\"  # note\n";
    let parsed = read(text);
    let covered = |span: fustian::source::Span| &text[span.lo as usize..span.hi as usize];
    let spans: Vec<_> = parsed.file.statements.iter().map(|statement| covered(statement.span)).collect();
    assert_eq!(spans, ["let ease = 24", "let hem = a + b   \"deep\""]);
    let notes: Vec<_> = parsed.file.notes.iter().map(|note| covered(note.span)).collect();
    assert_eq!(notes, ["# at the chest", "# more", "# note"]);
    let StatementNode::Let(Let { value: LetValue::Is(value), .. }) = &parsed.file.statements[1].node else {
        panic!("no let");
    };
    assert_eq!(covered(value.span), "a + b");
}

#[test]
fn spans_are_global() {
    let mut map = SourceMap::default();
    map.add("one.fus", "garment \"One\"");
    let second = map.add("two.fus", "  units mm");
    let parsed = parse(&map, second);
    assert_eq!(map.text(parsed.file.statements[0].span), "units mm");
}

#[test]
fn the_size_table() {
    let nodes =
        sound("body {\n  hip 86, 94,\n      102 \"seat\"\n  head 57 in every size; arm 58 grade +1\n}");
    let StatementNode::Body(body) = &nodes[0] else { panic!("{nodes:?}") };
    let rows: Vec<_> = body.rows.iter().map(|row| (&*row.name.text, shape(&row.values))).collect();
    assert_eq!(
        rows,
        [
            ("hip", "each 86, 94, 102".to_owned()),
            ("head", "57 in every size".to_owned()),
            ("arm", "58 grade 1".to_owned())
        ]
    );
    assert_eq!(body.rows[0].label.as_ref().map(|label| &*label.text), Some("seat"));
}

#[test]
fn sizes_may_begin_with_a_digit_or_be_quoted() {
    let nodes = sound("sizes 2XL, 38, \"3-4 y\"");
    let StatementNode::Sizes(sizes) = &nodes[0] else { panic!("{nodes:?}") };
    let names: Vec<_> = sizes.names.iter().map(|name| &*name.text).collect();
    assert_eq!(names, ["2XL", "38", "3-4 y"]);
}

#[test]
fn sewing_facts() {
    let nodes = sound(
        "seam cuff knit.cuff.top and knit.cuff.bottom to a.wrist + b.wrist easing 0.5..2.5 between a.p and b.q {\n\
         leaving gap 14 in lining, left }\n\
         finish skirt.waist casing 3.5 for elastic 3 of waist * 90% { stitch 602 }\n\
         closure zip a.b to a.c { zipper separating stocked 55, 60 showing 1 }\n\
         drop cuff and all sewn to it",
    );
    let StatementNode::Seam(seam) = &nodes[0] else { panic!("{nodes:?}") };
    assert_eq!(
        (seam.first.plies.len(), seam.second.plies.len(), seam.second.plies[0].edges.len()),
        (2, 1, 2)
    );
    let fit = seam.fit.as_ref().unwrap();
    assert_eq!((fit.kind, shape(&fit.low)), (FitKind::Easing, "0.5".to_owned()));
    assert!(fit.high.is_some() && fit.between.is_some());
    let SeamItemNode::Gap { length, layer, hand, .. } = &seam.items[0].node else { panic!("{seam:?}") };
    assert_eq!((shape(length).as_str(), hand), ("14", &Some(Hand::Left)));
    assert_eq!(layer.as_ref().map(|layer| &*layer.text), Some("lining"));
    let StatementNode::Finish(finish) = &nodes[1] else { panic!("{nodes:?}") };
    assert!(matches!(&finish.kind, FinishKind::Casing { elastic: Some((width, length)), .. }
        if shape(width) == "3" && shape(length) == "<*waist *90%>"));
    assert_eq!(finish.stitch.as_ref().map(|stitch| &*stitch.word), Some("602"));
    let StatementNode::Closure(closure) = &nodes[2] else { panic!("{nodes:?}") };
    assert!(matches!(&closure.items[0].node, ClosureItemNode::Zipper(zipper)
        if zipper.stocked && zipper.lengths.len() == 2 && zipper.showing.is_some()));
    assert!(matches!(&nodes[3], StatementNode::Drop(dropped)
        if dropped.and_all_sewn && dropped.kind == DropKind::Piece));
}

#[test]
fn amounts_of_an_alteration() {
    let nodes = sound(
        "lengthen front, back at waist by about 16 until front_zip fits keeping front.pocket\n\
         shorten front at waist until front_zip fits\nshorten front at waist by each 1, 2 keeping front.pocket",
    );
    let alteration = |at: usize| match &nodes[at] {
        StatementNode::Alteration(alteration) => alteration,
        other => panic!("{other:?}"),
    };
    let (first, second, third) = (alteration(0), alteration(1), alteration(2));
    assert_eq!((first.kind, first.keeping.len()), (AlterationKind::Lengthen, 1));
    assert!(matches!(first.amount, Some(Amount::Until { about: Some(_), .. })));
    assert_eq!(second.kind, AlterationKind::Shorten);
    assert!(matches!(second.amount, Some(Amount::Until { about: None, .. })));
    assert!(matches!(&third.amount, Some(Amount::By(by)) if shape(by) == "each 1, 2"));
    assert_eq!(third.keeping.len(), 1);
}

#[test]
fn no_word_is_reserved() {
    sound(
        "seam a front.to to back.to\nseam to to.by and by.to to and.and easing 1\nfinish hem.hem, by.hem hem 3",
    );
    sound(
        "place in on on { corner at at at\n caught in, by in in }\nopen open at at\nset set = 3\ndrop drop",
    );
    for word in KEYWORDS.iter().filter(|word| !word.contains('-')) {
        sound(&format!(
            "piece {word} {{\n  point {word} = (0, 0)\n  outline from {word} {{\n    {word} to {word}\n    side to {word} curve leaving along {word}\n  }}\n  mark {word} = {word}\n  notch {word} 3 from {word}\n}}"
        ));
        sound(&format!(
            "let {word} = 3\nset {word} = 4\nlayer {word} in {word} {{ {word}, {word} }}\n\
             seam {word} {word}.{word} to {word}.{word} + a.{word}\nlengthen {word}, {word} at {word} by 3\n\
             closure {word} a.{word} to b.{word} {{ zipper closed 3 }}\nbody {{ {word} 3, 4 }}\npick size by {word}"
        ));
        sound(&format!("steps {{ \"A\" {{ sew {word}, {word}; in {word} baste {word} }} }}"));
    }
}

#[test]
fn names_are_composed() {
    // U+0065 U+0301 composes to U+00E9: Unicode Standard Annex 15, canonical composition.
    let nodes = sound("let cafe\u{301} = Länge");
    let StatementNode::Let(made) = &nodes[0] else { panic!("{nodes:?}") };
    assert_eq!(&*made.name.text, "caf\u{e9}");
}

#[test]
fn text_undoes_its_escapes() {
    let nodes = sound(r#"about "in \"all\" \\ weathers # and more""#);
    let StatementNode::About(text) = &nodes[0] else { panic!("{nodes:?}") };
    assert_eq!(&*text.text, r#"in "all" \ weathers # and more"#);
}

#[test]
fn files_of_any_make() {
    for text in ["", "\n\n", "# only a note", "\u{feff}", "\u{feff}# note\r\n", "   ", "\r\r"] {
        assert!(sound(text).is_empty());
    }
    assert_eq!(sound("\u{feff}garment \"A\"\r\nunits cm\r\n\r\npiece a {\r\n  cut 1\r\n}").len(), 3);
    assert_eq!(sound("garment \"A\"\runits cm").len(), 2);
}

#[test]
fn a_list_goes_on_after_its_comma() {
    let nodes =
        sound("lengthen front,   # the first\n\n  back at waist by 3\nlayer a in b {\n  c,\n\n  d\n}");
    assert_eq!(nodes.len(), 2);
    let StatementNode::Layer(layer) = &nodes[1] else { panic!("{nodes:?}") };
    assert_eq!(layer.pieces.len(), 2);
}
