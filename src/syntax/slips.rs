//! Slips of the pen: what would read as something else than was meant. Each says what could have
//! been meant and how to write that.

use crate::limits::{DEPTH, NAME_BYTES};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;

const SLIP: &Entry = &catalogue::TEXT_SLIP;

/// `6-1/2in`
pub(super) fn hyphen(span: Span, written: &str) -> Diagnostic {
    Diagnostic::new(SLIP, span, format!("`{written}` can be read two ways: a mixed number or a subtraction"))
        .label("a hyphen between a whole number and a fraction")
        .help(format!(
            "write `{}` for the mixed number, or `{}` with spaces to subtract",
            written.replacen('-', " ", 1),
            written.replacen('-', " - ", 1)
        ))
}

/// `redraw front.side on left …`
pub(super) fn one_side(span: Span, piece: &str, side: &str) -> Diagnostic {
    Diagnostic::new(SLIP, span, "an alteration changes the paper that both sides of the body are cut from")
        .label(format!("not on the {side} alone"))
        .help(format!(
            "make two pieces of it first, unpair {piece} into left_{piece}, right_{piece}, and alter {side}_{piece}; or leave \
             `on {side}` out and alter both"
        ))
}

/// `finish sleeve.wrist on left  hem 2 on right`
pub(super) fn both_sides(edge: Span, again: Span, [first, second]: [&str; 2]) -> Diagnostic {
    let title = format!("this edge is meant on the {first}, and on the {second} as well");
    Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again, title)
        .label(format!("on the {second}"))
        .also(edge, format!("on the {first}"))
        .help("leave one of the two out; without either both sides are meant")
}

/// `leaving gap in the middle`
pub(super) fn gap_without_length(span: Span) -> Diagnostic {
    Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, "it is not said how long the gap is")
        .label("its length comes before this")
        .help(
            "write how much is left open, then where: leaving gap 14 in the middle, leaving gap 14 in lining",
        )
}

/// `.5`
pub(super) fn lost_zero(span: Span, written: &str) -> Diagnostic {
    Diagnostic::new(
        SLIP,
        span,
        format!("`{written}` begins with its point, and a point is easily overlooked"),
    )
    .label("no digit before the point")
    .help(format!("write `0{written}`"))
    .fix_by(span, &format!("0{written}"))
}

/// `1,5`
pub(super) fn comma(span: Span, written: &str) -> Diagnostic {
    let several = written.replace(',', ", ");
    let message =
        Diagnostic::new(SLIP, span, format!("`{written}` can be read as one number or as several values"))
            .label("a comma that touches the digits on both sides");
    match written.matches(',').count() {
        1 => message.help(format!(
            "write `{}` with a point for one number, or `{several}` with a space after the comma for two values",
            written.replace(',', ".")
        )),
        _ => message.help(format!("write `{several}` with a space after each comma")),
    }
}

/// `3 above side.near`
pub(super) fn end_of_run(span: Span, written: &str, word: &str) -> Diagnostic {
    Diagnostic::new(
        &catalogue::SYNTAX_EXPECTED,
        span,
        format!("a corner or a mark is named behind `{word}`, and `{written}` is an end of something"),
    )
    .label("neither a corner nor a mark")
    .help(format!("write the corner or the mark that it is counted from: 3 {word} hem_mark"))
}

/// `price 9,50 per m`
pub(super) fn price_comma(span: Span, written: &str) -> Diagnostic {
    let message = Diagnostic::new(SLIP, span, format!("`{written}` has a comma where a price has a point"))
        .label("a comma stands between several values");
    match written.split_once(',') {
        Some((whole, rest)) if !rest.contains(',') && rest.len() <= 2 => {
            let pointed = format!("{whole}.{rest}");
            message.help(format!("write `{pointed}`")).fix_by(span, &pointed)
        }
        _ => message.help(format!("write `{}` if it is one number", written.replace(',', ""))),
    }
}

/// `14 cm`
pub(super) fn unit_apart(span: Span, written: &str) -> Diagnostic {
    let joined: String = match written.rsplit_once([' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}']) {
        Some((number, unit)) => format!("{}{unit}", number.trim_end()),
        None => written.to_owned(),
    };
    Diagnostic::new(SLIP, span, format!("the unit of `{written}` is separated from its number"))
        .label("a unit touches its number")
        .help(format!("write `{joined}`"))
        .fix_by(span, &joined)
}

/// `24"wearing ease"`
pub(super) fn touching_text(span: Span, written: &str, number: &str) -> Diagnostic {
    let note = written.get(number.len()..).unwrap_or("");
    Diagnostic::new(SLIP, span, format!("a text touches the number `{number}`, where a `\"` means inches"))
        .label("inches, or a text?")
        .help(format!("write `{number} {note}` with a space before the text; `{number}\"` alone is inches"))
}

/// `40 +0.6`
pub(super) fn lost_grade(span: Span, base: &str, steps: &str) -> Diagnostic {
    let sum = match steps.split_at_checked(1) {
        Some((sign, rest)) if !rest.contains(',') => {
            format!("; a sum has a space on both sides of its sign: `{base} {sign} {rest}`")
        }
        _ => String::new(),
    };
    Diagnostic::new(
        SLIP,
        span,
        format!("`{base} {steps}` looks like a step from size to size, without `grade`"),
    )
    .label("a step or a sum?")
    .help(format!("write `{base} grade {steps}` for a value that steps from size to size{sum}"))
}

/// `neck_side (3, 4)`
pub(super) fn lost_plus(span: Span, before: &str) -> Diagnostic {
    Diagnostic::new(SLIP, span, format!("no sign joins `{before}` and the bracket"))
        .label("a `+` seems to be missing before this bracket")
        .help(format!("write `{before} + (…)`, or the `-`, `*` or `/` that was meant"))
}

/// `length (front.side)`
pub(super) fn call_apart(span: Span, function: &str) -> Diagnostic {
    Diagnostic::new(SLIP, span, format!("the bracket of `{function}` is separated from it"))
        .label("a function's bracket touches its name")
        .help(format!("write `{function}(…)`"))
}

/// A line that ends where its value should stand.
pub(super) fn value_below(span: Span, word: &str) -> Diagnostic {
    Diagnostic::new(SLIP, span, format!("the line ends after `{word}`, before what belongs there"))
        .label("nothing follows this")
        .help(
            "write it on the same line: a statement goes on to the next line only after `,` and inside `( )`",
        )
}

/// `1/0`, or more digits than a number can hold.
pub(super) fn no_number(span: Span, written: &str) -> Diagnostic {
    let short: String = written.chars().take(20).collect();
    Diagnostic::new(SLIP, span, format!("`{short}` is not a number that can be measured"))
        .label("this has no finite value")
        .help("a fraction has something other than 0 below its stroke, and a number fewer than 300 digits")
}

/// A name that is longer than any maker would write.
pub(super) fn name_too_long(span: Span, name: &str) -> Diagnostic {
    let short: String = name.chars().take(24).collect();
    let length = name.len();
    Diagnostic::new(
        &catalogue::SYNTAX_NAME_TOO_LONG,
        span,
        format!("the name `{short}…` is {length} bytes long"),
    )
    .label(format!("a name may be {NAME_BYTES} bytes long"))
    .help("give it a short name, and write the rest as a text or a `# note`")
}

/// Brackets too deep inside one another.
pub(super) fn too_deep(span: Span) -> Diagnostic {
    Diagnostic::new(&catalogue::SYNTAX_TOO_DEEP, span, format!("brackets are nested more than {DEPTH} deep"))
        .label("too deep from here")
        .help("work out a part of it in a `let` of its own, and use its name here")
}

/// Control characters and those that turn the direction of text.
pub(super) fn odd_character(span: Span, character: char, count: usize) -> Diagnostic {
    let code = format!("U+{:04X}", u32::from(character));
    let more = match count {
        1 => String::new(),
        2 => ", and another one further on".to_owned(),
        _ => format!(", and {} more further on", count - 1),
    };
    Diagnostic::new(
        &catalogue::SYNTAX_CHARACTER,
        span,
        format!("there is an invisible character here: {code}{more}"),
    )
    .label("this character has no place in a text file")
    .help("delete it; a file is plain text in UTF-8")
}

/// A statement that the grammar knows and the tree does not. No text is known that makes this; it
/// is here so that nothing a maker wrote can be left out in silence.
pub(super) fn unread(span: Span) -> Diagnostic {
    Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, "this statement cannot be read as it is")
        .label("from here")
        .help("write it in its plainest form")
}
