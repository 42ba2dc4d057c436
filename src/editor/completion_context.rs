use super::cursor::Cursor;
use crate::syntax::{Context, Fitting};

/// What kinds of names fit where somebody is writing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct CompletionContext {
    pub values: bool,
    pub functions: bool,
    pub body: bool,
    /// Values that are let, not measured.
    pub lets: bool,
    pub pieces: bool,
    pub layers: bool,
    pub fabrics: bool,
    pub seams: bool,
    pub closures: bool,
    pub sizes: bool,
    /// Edges of these pieces.
    pub edges_of: Vec<String>,
    /// LineIndex of these pieces.
    pub lines_of: Vec<String>,
    /// Points and marks of these pieces.
    pub points_of: Vec<String>,
    /// Behind a piece's dot: its points and marks instead of its edges and lines.
    pub points_after_dot: bool,
}

impl CompletionContext {
    fn parts() -> Self {
        CompletionContext { pieces: true, layers: true, ..CompletionContext::default() }
    }

    fn points() -> Self {
        CompletionContext { points_after_dot: true, ..CompletionContext::parts() }
    }

    fn lines(pieces: Vec<String>) -> Self {
        CompletionContext { lines_of: pieces, ..CompletionContext::default() }
    }

    fn edges(pieces: Vec<String>) -> Self {
        CompletionContext { edges_of: pieces, ..CompletionContext::default() }
    }

    fn spots(pieces: Vec<String>) -> Self {
        CompletionContext { points_of: pieces, ..CompletionContext::default() }
    }
}

/// Words that say what the names after them are.
const LEADING: &[&str] = &[
    "about",
    "above",
    "against",
    "along",
    "at",
    "below",
    "between",
    "by",
    "caught",
    "corner",
    "divide",
    "enclosing",
    "fold",
    "folded",
    "from",
    "in",
    "into",
    "keeping",
    "layer",
    "matching",
    "of",
    "on",
    "passes",
    "through",
    "to",
    "topstitch",
    "toward",
    "until",
    "with",
    "without",
];

/// What fits at the cursor. `fitting` is what the grammar says, none where the line is damaged.
pub(super) fn completion_context(
    cursor: &Cursor,
    text: &str,
    fitting: Option<&Fitting>,
) -> CompletionContext {
    if let Some(function) = function_around(cursor, text) {
        return of_function(function, cursor, text);
    }
    let written = cursor.words(text);
    let mut words: &[&str] = &written;
    if words.first() == Some(&"replace") && cursor.context == Context::File {
        words = words.get(1..).unwrap_or_default();
        let named = words.len() == 1 && fitting.is_some_and(|fitting| fitting.name);
        if named {
            return of_replaced(words.first().copied().unwrap_or(""));
        }
    }
    let first = words.first().copied().unwrap_or("");
    let leading = words.iter().skip(1).rev().find(|word| LEADING.contains(word)).copied();
    let names = fitting.is_none_or(|fitting| fitting.name || cursor.in_list);
    let values = fitting.is_none_or(|fitting| fitting.value);
    let mut expected = match (names, cursor.context) {
        _ if first.is_empty() && !cursor.in_list => CompletionContext::default(),
        (false, _) => CompletionContext::default(),
        (true, Context::File) => in_file(first, leading, words, cursor),
        (true, Context::Piece | Context::Walk) => in_piece(first, leading, words, cursor, text),
        (true, Context::Seam) => in_seam(first, leading),
        (true, Context::Place) => in_place(first, leading, cursor, text),
        (true, Context::Closure) => CompletionContext::spots(names_before(&cursor.head_words(text), &[])),
        (true, Context::Group) => in_group(first, leading, words),
        (true, Context::Body | Context::Fabric | Context::Steps) => CompletionContext::default(),
    };
    let takes_values = !matches!(cursor.context, Context::Body | Context::Steps | Context::Group);
    if values && takes_values && !first.is_empty() && !cursor.in_list {
        expected.values = true;
        expected.functions = true;
        if let (Context::Piece | Context::Walk, Some(piece)) = (cursor.context, cursor.piece_name(text)) {
            expected.points_of.push(piece.to_owned());
        }
    }
    expected.sizes = fitting.is_some_and(|fitting| fitting.size);
    expected
}

fn of_replaced(kind: &str) -> CompletionContext {
    match kind {
        "seam" => CompletionContext { seams: true, ..CompletionContext::default() },
        "closure" => CompletionContext { closures: true, ..CompletionContext::default() },
        "let" | "measure" => CompletionContext { values: true, ..CompletionContext::default() },
        "fabric" => CompletionContext { fabrics: true, ..CompletionContext::default() },
        "layer" => CompletionContext { layers: true, ..CompletionContext::default() },
        "piece" => CompletionContext { pieces: true, ..CompletionContext::default() },
        _ => CompletionContext::parts(),
    }
}

fn in_file(first: &str, leading: Option<&str>, words: &[&str], cursor: &Cursor) -> CompletionContext {
    if cursor.in_list {
        return CompletionContext { pieces: true, ..CompletionContext::default() };
    }
    let pieces = || names_before(words, LEADING);
    match (first, leading) {
        ("layer", Some("in")) => CompletionContext { fabrics: true, ..CompletionContext::default() },
        ("pick", _) | (_, Some("against" | "passes")) => {
            CompletionContext { body: true, ..CompletionContext::default() }
        }
        (_, Some("enclosing" | "until")) => {
            CompletionContext { closures: true, ..CompletionContext::default() }
        }
        (_, Some("keeping")) | ("seam", Some("between")) => CompletionContext::points(),
        ("open" | "close" | "join", Some("at")) => {
            CompletionContext { seams: first == "join", ..CompletionContext::edges(pieces()) }
        }
        ("lengthen" | "shorten" | "cut" | "split", Some("at")) => CompletionContext::lines(pieces()),
        ("flare" | "spread", Some("along")) => CompletionContext::lines(pieces()),
        (_, Some("into")) => CompletionContext::default(),
        ("set", _) => CompletionContext { lets: true, ..CompletionContext::default() },
        ("add", Some("layer")) => CompletionContext { layers: true, ..CompletionContext::default() },
        ("add", _) | ("in", _) => CompletionContext { pieces: true, ..CompletionContext::default() },
        ("drop", _) => match words.get(1) {
            None => CompletionContext { pieces: true, ..CompletionContext::default() },
            Some(&kind) => of_replaced(kind),
        },
        // A name that is only now given.
        ("seam" | "closure" | "cord" | "let" | "measure" | "layer" | "fabric" | "piece" | "block", None)
            if words.len() == 1 || first == "block" && words.len() == 2 =>
        {
            CompletionContext::default()
        }
        _ => CompletionContext::parts(),
    }
}

fn in_piece(
    first: &str,
    leading: Option<&str>,
    words: &[&str],
    cursor: &Cursor,
    text: &str,
) -> CompletionContext {
    let own = || cursor.piece_name(text).map(str::to_owned).into_iter().collect::<Vec<String>>();
    if cursor.context == Context::Walk {
        return match leading {
            Some("along") => CompletionContext::edges(own()),
            Some("to") if words.len() > 2 && words.get(words.len() - 2) == Some(&"square") => {
                CompletionContext::edges(own())
            }
            _ => CompletionContext::spots(own()),
        };
    }
    match (first, leading) {
        ("outline", Some("along")) => {
            let of = words.iter().position(|&word| word == "of").and_then(|at| words.get(at + 1));
            CompletionContext::edges(of.map(|word| (*word).to_owned()).into_iter().collect())
        }
        ("outline", Some("of" | "without")) => CompletionContext::parts(),
        ("outline", _) => CompletionContext::spots(own()),
        ("point" | "mark", _) if words.len() == 1 => CompletionContext::default(),
        ("line", None) => CompletionContext::default(),
        (_, Some("into")) => CompletionContext::default(),
        ("notch" | "divide", Some("from")) | ("move", _) => CompletionContext::spots(own()),
        ("cut" | "notch" | "divide" | "folded" | "grain" | "corner", _) => CompletionContext::edges(own()),
        _ => CompletionContext::spots(own()),
    }
}

fn in_seam(first: &str, leading: Option<&str>) -> CompletionContext {
    match (first, leading) {
        ("leaving", _) => CompletionContext { layers: true, ..CompletionContext::default() },
        ("matching", _) | ("notch", Some("from")) => CompletionContext::points(),
        _ => CompletionContext::default(),
    }
}

fn in_place(first: &str, leading: Option<&str>, cursor: &Cursor, text: &str) -> CompletionContext {
    let head = cursor.head_words(text);
    let on = head.iter().position(|&word| word == "on").unwrap_or(head.len());
    let last =
        |words: &[&str]| words.last().map(|word| (*word).to_owned()).into_iter().collect::<Vec<String>>();
    let placed = last(head.get(..on).unwrap_or_default());
    let below = last(head.get((on + 1).min(head.len())..).unwrap_or_default());
    match (first, leading) {
        ("corner", Some("at")) => CompletionContext::spots(below),
        ("corner", _) => CompletionContext::spots(placed),
        ("caught", Some("in")) => {
            CompletionContext { seams: true, closures: true, ..CompletionContext::default() }
        }
        _ => CompletionContext::edges(placed),
    }
}

fn in_group(first: &str, leading: Option<&str>, words: &[&str]) -> CompletionContext {
    let (verb, at) = match first {
        "in" => (words.get(2).copied().unwrap_or(""), 2),
        verb => (verb, 0),
    };
    match verb {
        "" => CompletionContext { layers: true, ..CompletionContext::default() },
        "sew" | "baste" | "press" => {
            CompletionContext { seams: true, closures: true, ..CompletionContext::default() }
        }
        "turn" | "slipstitch" if leading == Some("in") && words.len() > at => {
            CompletionContext { seams: true, ..CompletionContext::default() }
        }
        "turn" | "slipstitch" => CompletionContext::default(),
        _ => CompletionContext::parts(),
    }
}

/// The words of a statement that name pieces: those after its first, up to the word that leads
/// on to something else.
fn names_before(words: &[&str], until: &[&str]) -> Vec<String> {
    let rest = words.iter().skip(1);
    let names = rest.take_while(|word| !until.contains(word) || **word == "to");
    names.filter(|word| **word != "off").map(|word| (*word).to_owned()).collect()
}

/// The function in whose brackets the cursor stands.
fn function_around<'t>(cursor: &Cursor, text: &'t str) -> Option<&'t str> {
    let mut depth = 0usize;
    for (at, token) in cursor.before.iter().enumerate().rev() {
        if token.is(')') {
            depth += 1;
        } else if token.is('(') {
            if depth == 0 {
                let name = cursor.before.get(at.checked_sub(1)?)?;
                return (name.hi == token.lo).then(|| name.text(text));
            }
            depth -= 1;
        }
    }
    None
}

fn of_function(function: &str, cursor: &Cursor, text: &str) -> CompletionContext {
    let own: Vec<String> = cursor.piece_name(text).map(str::to_owned).into_iter().collect();
    match function {
        "length" | "finished" | "total" => CompletionContext { edges_of: own, ..CompletionContext::parts() },
        "x" | "y" | "distance" => CompletionContext { points_of: own, ..CompletionContext::points() },
        "width" | "height" => CompletionContext::parts(),
        _ => CompletionContext {
            values: true,
            functions: true,
            points_of: own,
            ..CompletionContext::default()
        },
    }
}
