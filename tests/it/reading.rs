//! A maker writes every form of the language, and each is read as it was meant.

use fustian::source::SourceMap;
use fustian::syntax::{Parsed, parse};

fn read(text: &str) -> Parsed {
    let mut map = SourceMap::default();
    let file = map.add("smock.fus", text);
    parse(&map, file)
}

const EVERY_FORM: &str = include_str!("sources/every-form.fus");

#[test]
fn every_form_is_read_without_a_mistake() {
    let parsed = read(EVERY_FORM);
    for mistake in &parsed.mistakes {
        let span = mistake.span();
        println!("{:?}: {}", &EVERY_FORM.get(span.lo as usize..span.hi as usize), mistake.title);
    }
    assert!(parsed.mistakes.is_empty());
}

#[test]
fn no_statement_is_left_out() {
    let written = EVERY_FORM.lines().filter(|line| line.starts_with(char::is_alphabetic)).count();
    assert_eq!(read(EVERY_FORM).file.statements.len(), written);
}
