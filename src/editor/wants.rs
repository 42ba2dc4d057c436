use super::cursor::Cursor;
use crate::syntax::{Context, Fitting};

/// What kinds of names fit where somebody is writing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Wants {
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
    /// Lines of these pieces.
    pub lines_of: Vec<String>,
    /// Points and marks of these pieces.
    pub points_of: Vec<String>,
    /// Behind a piece's dot: its points and marks instead of its edges and lines.
    pub points_after_dot: bool,
}

impl Wants {
    fn parts() -> Self {
        Wants { pieces: true, layers: true, ..Wants::default() }
    }

    fn points() -> Self {
        Wants { points_after_dot: true, ..Wants::parts() }
    }

    fn lines(pieces: Vec<String>) -> Self {
        Wants { lines_of: pieces, ..Wants::default() }
    }

    fn edges(pieces: Vec<String>) -> Self {
        Wants { edges_of: pieces, ..Wants::default() }
    }

    fn spots(pieces: Vec<String>) -> Self {
        Wants { points_of: pieces, ..Wants::default() }
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
pub(super) fn wants(cursor: &Cursor, text: &str, fitting: Option<&Fitting>) -> Wants {
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
    let mut wants = match (names, cursor.context) {
        _ if first.is_empty() && !cursor.in_list => Wants::default(),
        (false, _) => Wants::default(),
        (true, Context::File) => in_file(first, leading, words, cursor),
        (true, Context::Piece | Context::Walk) => in_piece(first, leading, words, cursor, text),
        (true, Context::Seam) => in_seam(first, leading),
        (true, Context::Place) => in_place(first, leading, cursor, text),
        (true, Context::Closure) => Wants::spots(names_before(&cursor.head_words(text), &[])),
        (true, Context::Group) => in_group(first, leading, words),
        (true, Context::Body | Context::Fabric | Context::Steps) => Wants::default(),
    };
    let takes_values = !matches!(cursor.context, Context::Body | Context::Steps | Context::Group);
    if values && takes_values && !first.is_empty() && !cursor.in_list {
        wants.values = true;
        wants.functions = true;
        if let (Context::Piece | Context::Walk, Some(piece)) = (cursor.context, cursor.piece_name(text)) {
            wants.points_of.push(piece.to_owned());
        }
    }
    wants.sizes = fitting.is_some_and(|fitting| fitting.size);
    wants
}

fn of_replaced(kind: &str) -> Wants {
    match kind {
        "seam" => Wants { seams: true, ..Wants::default() },
        "closure" => Wants { closures: true, ..Wants::default() },
        "let" | "measure" => Wants { values: true, ..Wants::default() },
        "fabric" => Wants { fabrics: true, ..Wants::default() },
        "layer" => Wants { layers: true, ..Wants::default() },
        "piece" => Wants { pieces: true, ..Wants::default() },
        _ => Wants::parts(),
    }
}

fn in_file(first: &str, leading: Option<&str>, words: &[&str], cursor: &Cursor) -> Wants {
    if cursor.in_list {
        return Wants { pieces: true, ..Wants::default() };
    }
    let pieces = || names_before(words, LEADING);
    match (first, leading) {
        ("layer", Some("in")) => Wants { fabrics: true, ..Wants::default() },
        ("pick", _) | (_, Some("against" | "passes")) => Wants { body: true, ..Wants::default() },
        (_, Some("enclosing" | "until")) => Wants { closures: true, ..Wants::default() },
        (_, Some("keeping")) | ("seam", Some("between")) => Wants::points(),
        ("open" | "close" | "join", Some("at")) => Wants { seams: first == "join", ..Wants::edges(pieces()) },
        ("lengthen" | "shorten" | "cut" | "split", Some("at")) => Wants::lines(pieces()),
        ("flare" | "spread", Some("along")) => Wants::lines(pieces()),
        (_, Some("into")) => Wants::default(),
        ("set", _) => Wants { lets: true, ..Wants::default() },
        ("add", Some("layer")) => Wants { layers: true, ..Wants::default() },
        ("add", _) | ("in", _) => Wants { pieces: true, ..Wants::default() },
        ("drop", _) => match words.get(1) {
            None => Wants { pieces: true, ..Wants::default() },
            Some(&kind) => of_replaced(kind),
        },
        // A name that is only now given.
        ("seam" | "closure" | "cord" | "let" | "measure" | "layer" | "fabric" | "piece" | "block", None)
            if words.len() == 1 || first == "block" && words.len() == 2 =>
        {
            Wants::default()
        }
        _ => Wants::parts(),
    }
}

fn in_piece(first: &str, leading: Option<&str>, words: &[&str], cursor: &Cursor, text: &str) -> Wants {
    let own = || cursor.piece_name(text).map(str::to_owned).into_iter().collect::<Vec<String>>();
    if cursor.context == Context::Walk {
        return match leading {
            Some("along") => Wants::edges(own()),
            Some("to") if words.len() > 2 && words.get(words.len() - 2) == Some(&"square") => {
                Wants::edges(own())
            }
            _ => Wants::spots(own()),
        };
    }
    match (first, leading) {
        ("outline", Some("along")) => {
            let of = words.iter().position(|&word| word == "of").and_then(|at| words.get(at + 1));
            Wants::edges(of.map(|word| (*word).to_owned()).into_iter().collect())
        }
        ("outline", Some("of" | "without")) => Wants::parts(),
        ("outline", _) => Wants::spots(own()),
        ("point" | "mark", _) if words.len() == 1 => Wants::default(),
        ("line", None) => Wants::default(),
        (_, Some("into")) => Wants::default(),
        ("notch" | "divide", Some("from")) | ("move", _) => Wants::spots(own()),
        ("cut" | "notch" | "divide" | "folded" | "grain" | "corner", _) => Wants::edges(own()),
        _ => Wants::spots(own()),
    }
}

fn in_seam(first: &str, leading: Option<&str>) -> Wants {
    match (first, leading) {
        ("leaving", _) => Wants { layers: true, ..Wants::default() },
        ("matching", _) | ("notch", Some("from")) => Wants::points(),
        _ => Wants::default(),
    }
}

fn in_place(first: &str, leading: Option<&str>, cursor: &Cursor, text: &str) -> Wants {
    let head = cursor.head_words(text);
    let on = head.iter().position(|&word| word == "on").unwrap_or(head.len());
    let last =
        |words: &[&str]| words.last().map(|word| (*word).to_owned()).into_iter().collect::<Vec<String>>();
    let placed = last(head.get(..on).unwrap_or_default());
    let below = last(head.get((on + 1).min(head.len())..).unwrap_or_default());
    match (first, leading) {
        ("corner", Some("at")) => Wants::spots(below),
        ("corner", _) => Wants::spots(placed),
        ("caught", Some("in")) => Wants { seams: true, closures: true, ..Wants::default() },
        _ => Wants::edges(placed),
    }
}

fn in_group(first: &str, leading: Option<&str>, words: &[&str]) -> Wants {
    let (verb, at) = match first {
        "in" => (words.get(2).copied().unwrap_or(""), 2),
        verb => (verb, 0),
    };
    match verb {
        "" => Wants { layers: true, ..Wants::default() },
        "sew" | "baste" | "press" => Wants { seams: true, closures: true, ..Wants::default() },
        "turn" | "slipstitch" if leading == Some("in") && words.len() > at => {
            Wants { seams: true, ..Wants::default() }
        }
        "turn" | "slipstitch" => Wants::default(),
        _ => Wants::parts(),
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

fn of_function(function: &str, cursor: &Cursor, text: &str) -> Wants {
    let own: Vec<String> = cursor.piece_name(text).map(str::to_owned).into_iter().collect();
    match function {
        "length" | "finished" | "total" => Wants { edges_of: own, ..Wants::parts() },
        "x" | "y" | "distance" => Wants { points_of: own, ..Wants::points() },
        "width" | "height" => Wants::parts(),
        _ => Wants { values: true, functions: true, points_of: own, ..Wants::default() },
    }
}
