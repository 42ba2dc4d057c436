//! A maker loses a word, a line or a bracket: the file is still read, and the loss is told once.

use crate::cases::cases;
use fustian::limits;
use fustian::source::SourceMap;
use fustian::syntax::{Parsed, parse};
use proptest::prelude::*;
use std::time::{Duration, Instant};

const EVERY_FORM: &str = include_str!("sources/every-form.fus");

fn read(text: &str) -> Parsed {
    let mut map = SourceMap::default();
    let file = map.add("smock.fus", text);
    let parsed = parse(&map, file);
    for mistake in &parsed.mistakes {
        let span = mistake.span();
        assert!(span.lo <= span.hi && text.get(span.lo as usize..span.hi as usize).is_some(), "{mistake:?}");
        // A rule of the grammar must not show. What is left of `neck_cf` after a cut may.
        let quoted = mistake.title.split('`').skip(1).step_by(2);
        let shows_rule = quoted.into_iter().any(|word| word.starts_with("k_") && !text.contains(word));
        assert!(!shows_rule && !mistake.title.contains("invalid"), "{}", mistake.title);
    }
    parsed
}

fn slugs(text: &str) -> Vec<&'static str> {
    read(text).mistakes.iter().map(|mistake| mistake.slug()).collect()
}

/// The words of the sample, notes and texts apart.
fn words() -> Vec<(usize, usize)> {
    let mut words = Vec::new();
    let mut at = 0;
    for line in EVERY_FORM.split_inclusive('\n') {
        let mut start = None;
        let (mut in_text, mut before) = (false, ' ');
        for (offset, character) in line.char_indices() {
            let in_word = !in_text && (character.is_alphanumeric() || "_.%".contains(character));
            match (start, in_word) {
                (None, true) => start = Some(at + offset),
                (Some(from), false) => {
                    words.push((from, at + offset));
                    start = None;
                }
                _ => {}
            }
            if character == '#' && !in_text {
                break;
            }
            if character == '"' {
                in_text = if in_text { before == '\\' } else { !before.is_ascii_digit() };
            }
            before = character;
        }
        at += line.len();
    }
    words
}

/// The sample without that part: the statement it stands in, and those around it that damage
/// could reach. (The whole sample a thousand times takes long in a debug build.)
fn without(from: usize, to: usize) -> String {
    let starts: Vec<usize> = EVERY_FORM
        .match_indices('\n')
        .map(|(at, _)| at + 1)
        .filter(|&at| EVERY_FORM[at..].starts_with(char::is_alphabetic))
        .collect();
    let here = starts.partition_point(|&start| start <= from);
    let first = starts[here.saturating_sub(2).min(starts.len() - 1)].min(from);
    let last = starts.get(here + 3).copied().unwrap_or(EVERY_FORM.len());
    format!("{}{}", &EVERY_FORM[first..from], &EVERY_FORM[to..last.max(to)])
}

/// What is told of a text, for the message of a failing test.
fn told(text: &str) -> Vec<String> {
    read(text).mistakes.iter().map(|mistake| format!("{}: {}", mistake.slug(), mistake.title)).collect()
}

#[test]
fn one_lost_word_costs_one_message() {
    let (mut one, mut many, mut none) = (0, 0, 0);
    for (from, to) in words() {
        let found = told(&without(from, to));
        let word = &EVERY_FORM[from..to];
        assert!(found.len() <= 3, "without `{word}`: {found:#?}");
        match found.len() {
            0 => none += 1,
            1 => one += 1,
            _ => many += 1,
        }
    }
    // A word whose loss leaves another whole statement (`fused`, one name of a list) costs none;
    // they are counted with the words that cost too many.
    assert!(one * 100 >= (one + many + none) * 90, "{one} one, {many} many, {none} none");
    assert!(one * 100 >= (one + many) * 98, "{one} one, {many} many, {none} none");
}

#[test]
fn one_lost_line_costs_little() {
    let mut at = 0;
    for line in EVERY_FORM.split_inclusive('\n') {
        let found = told(&without(at, at + line.len()));
        assert!(found.len() <= 2, "without {line:?}: {found:#?}");
        at += line.len();
    }
}

#[test]
fn one_lost_bracket_costs_little() {
    for (at, bracket) in EVERY_FORM.match_indices(['(', ')', '{', '}', '"', ',', ';', '=']) {
        let found = told(&without(at, at + bracket.len()));
        let line = EVERY_FORM[..at].lines().count();
        assert!(found.len() <= 2, "without `{bracket}` in line {line}: {found:#?}");
    }
}

/// What a text that is not closed begins ends with its line, in the message too (found by damaging texts).
#[test]
fn what_is_shown_of_an_unclosed_text_is_one_line() {
    let broken = "piece k\"\"\"{\"{\nc";
    let compiled =
        fustian::compile(&fustian::source::MemoryLoader::new().with("apron.fus", broken), "apron.fus");
    let titles: Vec<&str> = compiled.diagnostics.iter().map(|one| one.title.as_str()).collect();
    assert!(titles.iter().any(|title| title.contains("begins with `\"{`")), "{titles:?}");
    assert!(titles.iter().all(|title| !title.contains('\n')), "{titles:?}");
}

/// Of edges that a divided edge or a slit was to make, on an edge that the piece has not, nothing more is told (found by
/// damaging texts).
#[test]
fn what_was_to_be_made_of_an_unknown_edge_is_told_once() {
    let head = "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" { width 150 }\n\
                layer outer in serge { apron }\n";
    for (made, sewn) in [
        ("divide tpo 20 from top_left into strap, rest", "seam straps apron.strap to apron.bottom"),
        ("slit vent on tpo in the middle down 20 window 2", "finish apron.vent.near, apron.vent.end hem 1"),
    ] {
        let text = format!(
            "{head}piece apron \"Apron\" {{\n  cut 1\n  outline rectangle 60 by 90\n  {made}\n}}\n{sewn}\n"
        );
        let compiled = fustian::compile(
            &fustian::source::MemoryLoader::new().with("apron.fus", text.as_str()),
            "apron.fus",
        );
        let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
        assert!(slugs.contains(&"name/unknown") && !slugs.contains(&"lost/unreported"), "{made}: {slugs:?}");
    }
}

#[test]
fn an_unclosed_brace_is_shown_where_it_opens() {
    let text = "piece front {\n  cut 1\n  point a = (0, 0)\nlet ease = 3\n";
    let parsed = read(text);
    assert_eq!(parsed.mistakes.len(), 1);
    assert_eq!(parsed.mistakes[0].slug(), "syntax/unclosed");
    assert_eq!(parsed.mistakes[0].span().lo as usize, text.find('{').unwrap());
    assert_eq!(parsed.file.statements.len(), 2);
}

/// What belongs outside and stands among the lines of a piece is one slip, told where it stands.
#[test]
fn a_let_among_the_lines_of_a_piece_is_one_mistake() {
    let text = "piece front {\n  cut 1\n  let ease = 3\n  point a = (0, 0)\n  point b = (9, 0)\n}\n\
                piece back { cut 1 }\n";
    let parsed = read(text);
    let [only] = parsed.mistakes.as_slice() else { panic!("{:#?}", parsed.mistakes) };
    assert_eq!(
        (only.slug(), &*only.title.to_string()),
        ("syntax/unknown-statement", "`let` does not belong in these braces")
    );
    assert_eq!(only.span().lo as usize, text.find("let ease").unwrap());
    assert!(only.labels.iter().any(|label| label.span.lo as usize == text.find('{').unwrap()));
    // The next piece is read.
    assert_eq!(parsed.file.statements.len(), 3);
}

#[test]
fn every_independent_mistake_is_told_in_one_run() {
    let text = "garment \"Deck smock\nsizes S, M\nbody { chest 88, 96 104 }\nlengthn front at waist by 3\n\
                piece front {\n  cut 1\n  pont a = (0, 0)\n  point b = (0, 0\n  grain sideways\n}\n}\nlet ease = 3";
    assert_eq!(
        slugs(text),
        [
            "syntax/unclosed",
            "syntax/trailing",
            "syntax/unknown-statement",
            "syntax/unknown-statement",
            "syntax/unclosed",
            "syntax/expected",
            "syntax/stray-brace"
        ]
    );
    assert_eq!(read(text).file.statements.len(), 4);
}

#[test]
fn a_misspelt_word_is_guessed() {
    for (text, guess) in [
        ("peice front { cut 1 }", "`piece`"),
        ("lengthen front at waist by 3 keping front.pocket", "`keeping`"),
        ("closure zip a.b to a.c { zipper separatng 65 }", "`separating`"),
        ("seam side a.b to a.c { alowance 1 }", "`allowance`"),
        ("wearer chidl from 2 to 3 years", "`child`"),
        ("Piece front { cut 1 }", "`piece`"),
    ] {
        let found = read(text).mistakes;
        assert_eq!(found.len(), 1, "{text}: {found:#?}");
        let help = found[0].help.clone().unwrap_or_default();
        assert!(help.contains("did you mean") && help.contains(guess), "{text}: {help}");
    }
}

#[test]
fn a_statement_in_the_wrong_braces_is_shown_the_right_ones() {
    let found = read("point a = (0, 0)").mistakes;
    assert_eq!(found[0].slug(), "syntax/unknown-statement");
    assert!(found[0].help.as_deref().unwrap_or("").contains("a piece"), "{found:?}");
}

#[test]
fn words_lost_in_damage_are_kept() {
    let parsed = read("lett ease = 24\nlet hem = ease / 6");
    assert!(parsed.lost_words.iter().any(|word| &**word == "ease"), "{:?}", parsed.lost_words);
}

#[test]
fn characters_that_cannot_be_seen() {
    assert_eq!(slugs("garment \"Deck\0smock\"\nlet a = \u{202e}3"), ["syntax/character"]);
    assert!(slugs("\u{feff}garment \"Deck smock\"\r\nunits cm\r\n").is_empty());
}

#[test]
fn a_name_that_is_too_long() {
    let name = "a".repeat(limits::NAME_BYTES + 1);
    assert_eq!(slugs(&format!("let {name} = 3")), ["syntax/name-too-long"]);
    assert!(slugs(&format!("let {} = 3", "a".repeat(limits::NAME_BYTES))).is_empty());
}

#[test]
fn brackets_too_deep() {
    let within = format!("let a = {}3{}", "(".repeat(limits::DEPTH), ")".repeat(limits::DEPTH));
    assert!(slugs(&within).is_empty(), "{:?}", told(&within));
    let beyond =
        format!("let a = {}3{}\nlet b = 4", "(".repeat(limits::DEPTH + 1), ")".repeat(limits::DEPTH + 1));
    assert_eq!(slugs(&beyond), ["syntax/too-deep"]);
}

#[test]
fn texts_that_would_be_slow_are_not() {
    let many = 100_000;
    let sum = format!("let a = 1{}", " + b".repeat(300_000));
    let slow = [
        "(".repeat(many),
        format!("let a = {}", "(".repeat(many)),
        "{".repeat(many),
        format!("piece front {}", "{ ".repeat(many)),
        "}".repeat(2_000),
        "\"".repeat(many),
        "{(".repeat(many),
        "(\n".repeat(many),
        "a{b\n".repeat(20_000),
        "let a = (1 + 2\n".repeat(5_000),
        "1\"a ".repeat(many),
        "-".repeat(many),
        ",\n".repeat(many),
        format!("piece front {{{}", "\n".repeat(many)),
        format!("let a = ({}", "\n".repeat(many)),
        format!("body {{ chest {} }}", "8, ".repeat(many)),
    ];
    for text in slow {
        let started = Instant::now();
        let found = read(&text).mistakes.len();
        let taken = started.elapsed();
        let shown: String = text.chars().take(20).collect();
        // Generous: a debug build on a shared machine. What is quadratic here takes minutes.
        assert!(taken < Duration::from_secs(20), "{shown:?} took {taken:?}");
        assert!(found > 0, "{shown:?}");
    }
    assert!(slugs(&sum).is_empty());
}

/// A value that stands among the lines of a piece is one slip; a line of that piece that is damaged as well is told where it is.
#[test]
fn a_value_among_the_lines_of_a_piece_hides_no_other_slip() {
    let text = "garment \"Cuff\"\npiece cuff \"Cuff\" {\n  cut 2 mirrored\n  let deep = 6\n  point a = (0, 0)\n  point b = (20, 0)\n  \
                point c = (20, deep)\n  outline from a {\n    low  to b  curve leaving up 30°\n    side to c\n    slant to a\n  }\n}\n";
    let parsed = read(text);
    let told: Vec<(&str, &str)> =
        parsed.mistakes.iter().map(|one| (one.slug(), one.title.as_str())).collect();
    let [first, second] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!(*first, ("syntax/unknown-statement", "`let` does not belong in these braces"));
    assert!(second.0 == "syntax/expected" && second.1.starts_with("found `30`"), "{second:?}");
    assert!(
        read(&text.replace(" curve leaving up 30°", "").replace("  let deep = 6\n", "")).mistakes.is_empty()
    );
}

#[test]
fn many_unclosed_brackets_cost_one_message_each() {
    let text = "let a = (1 + 2\n".repeat(100);
    assert_eq!(slugs(&text), ["syntax/unclosed"; 100]);
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn any_text_is_read(text in "\\PC{0,200}") {
        read(&text);
    }

    #[test]
    fn any_mix_of_words_and_signs_is_read(parts in proptest::collection::vec(0usize..40, 0..60)) {
        const PARTS: [&str; 40] = [
            "piece", "front", "{", "}", "(", ")", "\n", ";", ",", "\"", "let", "=", "+", "-", "*", "/", "3", "4cm",
            "1/2in", "seam", "to", "a.b", "outline", "from", "curve", "leaving", "up", "steps", "sew", "#", "½",
            "body", "grade", "each", "in every size", "é", "..", "%", "\\", "\r\n",
        ];
        let text: Vec<&str> = parts.iter().filter_map(|&at| PARTS.get(at).copied()).collect();
        read(&text.join(" "));
        read(&text.concat());
    }

    #[test]
    fn a_sample_with_a_random_cut_is_read(from in 0usize..6000, length in 0usize..60) {
        let from = (from..).find(|&at| EVERY_FORM.is_char_boundary(at)).unwrap_or(0).min(EVERY_FORM.len());
        let to = (from + length..).find(|&at| EVERY_FORM.is_char_boundary(at)).unwrap_or(0).min(EVERY_FORM.len());
        read(&without(from, to.max(from)));
    }
}
