//! The query that editors colour by.

use fustian_editor_grammar::{language, of_the_program};
use std::collections::BTreeMap;
use tree_sitter::{Parser, Query, QueryCursor, StreamingIterator};

const QUERY: &str = include_str!("../../grammar/tree-sitter/queries/highlights.scm");

/// Each word of a text with what it is coloured as, in the order of the text.
fn coloured(text: &str) -> Vec<(String, String)> {
    let query = Query::new(&language(), QUERY).expect("a query of nodes that there are");
    let mut parser = Parser::new();
    parser.set_language(&language()).expect("a grammar that this version can read");
    let tree = parser.parse(text, None).expect("a tree");
    let mut found = BTreeMap::new();
    let mut cursor = QueryCursor::new();
    let mut matches = cursor.matches(&query, tree.root_node(), text.as_bytes());
    while let Some(one) = matches.next() {
        for capture in one.captures() {
            let name = query.capture_names()[capture.index as usize].to_owned();
            let before = found.insert(capture.node.byte_range().start, (capture.node.byte_range(), name));
            assert!(before.is_none(), "{:?} is coloured twice", &text[capture.node.byte_range()]);
        }
    }
    found.into_values().map(|(range, name)| (text[range].to_owned(), name)).collect()
}

#[test]
fn every_name_of_a_colour_is_one_that_editors_know() {
    let query = Query::new(&language(), QUERY).expect("a query of nodes that there are");
    let standard = [
        "comment",
        "constant",
        "constant.builtin",
        "function",
        "function.builtin",
        "keyword",
        "label",
        "number",
        "operator",
        "property",
        "punctuation.bracket",
        "punctuation.delimiter",
        "string",
        "type",
        "type.builtin",
        "variable",
    ];
    for name in query.capture_names() {
        assert!(standard.contains(name), "{name}");
    }
}

#[test]
fn every_word_of_the_language_is_coloured() {
    let list =
        QUERY.rsplit_once("] @keyword").and_then(|(before, _)| before.rsplit_once('[')).expect("a list").1;
    let listed: Vec<&str> = list.split_whitespace().map(|word| word.trim_matches('"')).collect();
    let (_, mut words) = of_the_program();
    words.sort();
    assert_eq!(listed, words);
}

#[test]
fn an_example_is_coloured() {
    let text = "# a note\n\
                piece front \"Front\" {\n  cut 2 mirrored\n  point waist = (0, -length(back.side)/2 + 1.5cm * pi)\n}\n\
                seam side front.side to back.side\n\
                sizes S, M\nlet ease = each 1, 2\nunits cm\nfabric shell { price 3 FK per m }\n";
    let expected = [
        ("# a note", "comment"),
        ("piece", "keyword"),
        ("front", "function"),
        ("\"Front\"", "string"),
        ("{", "punctuation.bracket"),
        ("cut", "keyword"),
        ("2", "number"),
        ("mirrored", "keyword"),
        ("point", "keyword"),
        ("waist", "label"),
        ("=", "operator"),
        ("(", "punctuation.bracket"),
        ("0", "number"),
        (",", "punctuation.delimiter"),
        ("-", "operator"),
        ("length", "function.builtin"),
        ("(", "punctuation.bracket"),
        ("back", "variable"),
        (".", "punctuation.delimiter"),
        ("side", "property"),
        (")", "punctuation.bracket"),
        ("/", "operator"),
        ("2", "number"),
        ("+", "operator"),
        ("1.5", "number"),
        ("cm", "number"),
        ("*", "operator"),
        ("pi", "constant.builtin"),
        (")", "punctuation.bracket"),
        ("}", "punctuation.bracket"),
        ("seam", "keyword"),
        ("side", "function"),
        ("front", "variable"),
        (".", "punctuation.delimiter"),
        ("side", "property"),
        ("to", "keyword"),
        ("back", "variable"),
        (".", "punctuation.delimiter"),
        ("side", "property"),
        ("sizes", "keyword"),
        ("S", "constant"),
        (",", "punctuation.delimiter"),
        ("M", "constant"),
        ("let", "keyword"),
        ("ease", "variable"),
        ("=", "operator"),
        ("each", "keyword"),
        ("1", "number"),
        (",", "punctuation.delimiter"),
        ("2", "number"),
        ("units", "keyword"),
        ("cm", "type.builtin"),
        ("fabric", "keyword"),
        ("shell", "type"),
        ("{", "punctuation.bracket"),
        ("price", "keyword"),
        ("3", "number"),
        ("per", "keyword"),
        ("m", "type.builtin"),
        ("}", "punctuation.bracket"),
    ];
    let expected = expected.map(|(word, colour)| (word.to_owned(), colour.to_owned()));
    assert_eq!(coloured(text), expected);
}

/// What the query says of itself: no editor has to choose between two patterns.
#[test]
fn nothing_is_coloured_twice() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    for entry in std::fs::read_dir(folder).expect("the examples") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            coloured(&std::fs::read_to_string(path).expect("a text"));
        }
    }
}
