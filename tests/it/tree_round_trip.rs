//! Any tree, printed and read again, is the same tree.

use crate::any_tree::{HERE, statement};
use crate::cases::cases;
use crate::tree_text::tree_text;
use fustian::source::{FileId, SourceMap};
use fustian::syntax::parse;
use fustian::syntax::tidy::{Plain, print, tidy};
use fustian::syntax::tree::{File, Statement, StatementNode, Text};
use proptest::collection::vec;
use proptest::prelude::*;
use std::sync::Arc;

/// The first lines of two trees that differ.
fn differing(one: &File, other: &File) -> Option<(String, String)> {
    let (one, other) = (tree_text(one), tree_text(other));
    if one == other {
        return None;
    }
    let mut both = one.lines().chain([""]).zip(other.lines().chain([""]));
    let (first, second) = both.find(|(first, second)| first != second)?;
    Some((first.to_owned(), second.to_owned()))
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn what_is_printed_is_read_as_the_same_tree(statements in vec(statement(), 1..4)) {
        let text = print(&statements, &Plain);
        let mut map = SourceMap::default();
        let id: FileId = map.add("printed.fus", text.as_str());
        let parsed = parse(&map, id);
        prop_assert!(parsed.mistakes.is_empty(), "{text}\n{:#?}", parsed.mistakes);
        let before = File { id, statements: statements.into_iter().map(Arc::new).collect(), notes: Vec::new() };
        prop_assert_eq!(differing(&before, &parsed.file), None, "{}", text);
        let tidied = tidy(&map, id).expect("it can be read");
        let mut again = SourceMap::default();
        let once_more = again.add("tidied.fus", tidied.as_str());
        prop_assert_eq!(differing(&before, &parse(&again, once_more).file), None, "{}", tidied);
        prop_assert_eq!(tidy(&again, once_more).expect("it can be read"), tidied);
    }
}

#[test]
fn a_text_with_quotes_and_strokes_is_read_as_it_was() {
    for words in ["a \"b\" c", "\\", "\\\\\"", "a\\n", "{ # no note"] {
        let about = StatementNode::About(Text { text: Arc::from(words), span: HERE });
        let statements = [Statement { span: HERE, node: about }];
        let mut map = SourceMap::default();
        let id = map.add("a.fus", print(&statements, &Plain));
        let StatementNode::About(read) = &parse(&map, id).file.statements[0].node else { panic!("{words}") };
        assert_eq!(&*read.text, words);
    }
}

/// Words that a value or a list could swallow: a run that begins with a count, and how a strap is sewn after a list.
#[test]
fn a_word_after_a_value_is_not_taken_for_part_of_it() {
    for line in
        ["seam a front count 0..2 from front to back", "strap s 6 by 2 in outer { sewn each 6, 8, boxed }"]
    {
        let mut map = SourceMap::default();
        let id = map.add("a.fus", line);
        let parsed = parse(&map, id);
        assert!(parsed.mistakes.is_empty(), "{line}\n{:#?}", parsed.mistakes);
        let tidied = tidy(&map, id).expect("it can be read");
        let once_more = map.add("tidied.fus", tidied.as_str());
        assert_eq!(differing(&parsed.file, &parse(&map, once_more).file), None, "{tidied}");
    }
}
