//! Any tree, printed and read again, is the same tree.

use crate::any_tree::{HERE, statement};
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
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_printed_is_read_as_the_same_tree(statements in vec(statement(), 1..4)) {
        let text = print(&statements, &Plain);
        let mut map = SourceMap::default();
        let id: FileId = map.add("printed.fus", text.as_str());
        let parsed = parse(&map, id);
        prop_assert!(parsed.mistakes.is_empty(), "{text}\n{:#?}", parsed.mistakes);
        let before = File { id, statements, notes: Vec::new() };
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
