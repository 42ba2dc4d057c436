//! The tree that the program's grammar makes of a text, and the tree that the grammar for editors makes of it, both
//! as the same flat list, so that the one can be laid beside the other.
//!
//! What is the same in both:
//!
//! | `grammar/fustian.pest` | `grammar/tree-sitter` |
//! |---|---|
//! | a rule, `seam_chain` | a node of that name |
//! | `let_` and `use_`, since Rust has these words for itself | `let`, `use` |
//! | a keyword, `k_matching` | a node without a name, `matching` |
//! | a mark, `comma`, `addop`, … | a node without a name, which is its text |
//! | `loose`, a quantity that was looked at as a slip | `quantity` |
//!
//! Brackets, semicolons, line ends and the point in a name's path are in no list: the one tree has some of them, the
//! other all. Notes are no nodes to the program. A span ends with the last thing in it, without the blanks that
//! pest puts behind it. What the program makes of damage has no rule in the other.

use pest::Parser;
use pest::iterators::Pair;
use tree_sitter::Language;
use tree_sitter_language::LanguageFn;

unsafe extern "C" {
    fn tree_sitter_fustian() -> *const ();
}

/// The grammar for editors.
#[must_use]
pub fn language() -> Language {
    // SAFETY: the generator made this function for nothing else.
    unsafe { LanguageFn::from_raw(tree_sitter_fustian) }.into()
}

/// The program's own grammar.
#[derive(pest_derive::Parser)]
#[grammar = "../../grammar/fustian.pest"]
struct Program;

/// One node of either tree: how deep it lies, what it is, and from where to where it goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    pub depth: usize,
    pub kind: String,
    pub from: usize,
    pub to: usize,
}

/// The rules that only damage is read by.
const DAMAGE: [&str; 20] = [
    "bad",
    "bad_top",
    "extra",
    "extra_top",
    "misread",
    "unclosed",
    "stray",
    "lost",
    "slip_hyphen",
    "hyphened",
    "slip_point",
    "pointed",
    "slip_comma",
    "comma_number",
    "slip_apart",
    "slip_text",
    "touching_text",
    "slip_end",
    "slip_step",
    "slip_steps",
];

/// The rules that only look ahead: no tree has them.
const AHEAD: [&str; 7] =
    ["apart", "lone_step", "begins_run", "boxed_end", "a_word", "dotted_word", "dotted_pair"];

/// The rules that are marks.
const MARKS: [&str; 10] =
    ["relation", "comma", "equals", "slash", "dots", "addop", "addplus", "times", "over", "sign"];

/// What is in no list.
const UNLISTED: [&str; 9] = ["{", "}", "(", ")", ";", ".", "\n", "\r\n", "\r"];
const UNLISTED_RULES: [&str; 4] = ["open", "rbracket", "rbrace", "EOI"];

/// The names of the nodes that the program's grammar makes of sound texts, as an editor's tree has them, and its keywords:
/// read from the text of the grammar, where a rule in `_{` makes none.
#[must_use]
pub fn of_the_program() -> (Vec<String>, Vec<String>) {
    let grammar = include_str!("../../grammar/fustian.pest");
    let (mut nodes, mut keywords) = (Vec::new(), Vec::new());
    for (name, body) in grammar.lines().filter_map(|line| line.split_once('=')) {
        let (name, body) = (name.trim_end(), body.trim_start());
        if name.contains(|letter: char| !letter.is_ascii_alphanumeric() && letter != '_')
            || body.starts_with('_')
        {
            continue;
        }
        let unlisted: [&[&str]; 4] = [&DAMAGE, &AHEAD, &MARKS, &UNLISTED_RULES];
        if name.starts_with("k_") {
            keywords.extend(body.split('"').nth(1).map(str::to_owned));
        } else if !unlisted.iter().any(|names| names.contains(&name)) && !name.starts_with("s_") {
            nodes.push(in_both(name));
        }
    }
    (nodes, keywords)
}

/// What an editor's tree calls what the program's rule of this name reads.
fn in_both(rule: &str) -> String {
    if rule == "loose" { "quantity".to_owned() } else { rule.trim_end_matches('_').to_owned() }
}

/// The program's tree of a text, or what is damaged in it.
///
/// # Errors
///
/// The name of the rule that read the first damage, or what pest says where it reads nothing at all.
pub fn program(text: &str) -> Result<Vec<Node>, String> {
    let file = Program::parse(Rule::file, text).map_err(|error| error.to_string())?;
    let ends = Ends::of(text);
    let mut nodes = Vec::new();
    for pair in file.flat_map(Pair::into_inner) {
        listed(pair, 0, text, &ends, &mut nodes)?;
    }
    Ok(nodes)
}

fn listed(
    pair: Pair<'_, Rule>,
    depth: usize,
    text: &str,
    ends: &Ends,
    nodes: &mut Vec<Node>,
) -> Result<(), String> {
    let rule = format!("{:?}", pair.as_rule());
    if DAMAGE.contains(&rule.as_str()) {
        return Err(rule);
    }
    if UNLISTED_RULES.contains(&rule.as_str()) {
        return Ok(());
    }
    let span = pair.as_span();
    let (from, to) = (span.start(), ends.last(span.start(), span.end()));
    let kind = match rule.as_str() {
        word if word.starts_with("k_") || MARKS.contains(&word) => text[from..to].to_owned(),
        other => in_both(other),
    };
    nodes.push(Node { depth, kind, from, to });
    for inner in pair.into_inner() {
        listed(inner, depth + 1, text, ends, nodes)?;
    }
    Ok(())
}

/// Where what is written ends, if blanks, line ends and notes come after it.
struct Ends {
    /// For each byte whether it is a blank or stands in a note.
    nothing: Vec<bool>,
}

impl Ends {
    fn of(text: &str) -> Self {
        let mut nothing = vec![false; text.len()];
        let mut quoted = false;
        let mut noted = false;
        let mut before = ' ';
        for (at, character) in text.char_indices() {
            match character {
                '\n' | '\r' => (quoted, noted) = (false, false),
                // Behind a digit it is an inch, unless a text ends there.
                '"' if !noted && (quoted || !before.is_numeric()) => quoted = !(quoted && before != '\\'),
                '#' if !quoted => noted = true,
                _ => {}
            }
            let blank = noted || (!quoted && character.is_whitespace());
            nothing[at..at + character.len_utf8()].fill(blank);
            before = character;
        }
        Self { nothing }
    }

    fn last(&self, from: usize, mut to: usize) -> usize {
        while to > from && self.nothing[to - 1] {
            to -= 1;
        }
        to
    }
}

/// The editor's tree of a text, and whether it has an error anywhere.
///
/// # Panics
///
/// Where the grammar cannot be used by this version of tree-sitter at all.
#[must_use]
pub fn editor(text: &str) -> (Vec<Node>, bool) {
    let mut parser = tree_sitter::Parser::new();
    parser.set_language(&language()).expect("a grammar that this version can read");
    let tree = parser.parse(text, None).expect("a tree");
    let mut nodes = Vec::new();
    let mut cursor = tree.walk();
    let mut depth = 0;
    if !cursor.goto_first_child() {
        return (nodes, tree.root_node().has_error());
    }
    loop {
        let node = cursor.node();
        let kind = node.kind();
        if !node.is_extra() && !UNLISTED.contains(&kind) {
            nodes.push(Node { depth, kind: kind.to_owned(), from: node.start_byte(), to: node.end_byte() });
        }
        if cursor.goto_first_child() {
            depth += 1;
            continue;
        }
        while !cursor.goto_next_sibling() {
            if depth == 0 {
                return (nodes, tree.root_node().has_error());
            }
            cursor.goto_parent();
            depth -= 1;
        }
    }
}
