use super::cursor::Cursor;
use crate::syntax::tree::{AlterationKind, Need, TargetForm};
use crate::syntax::{Context, Fitting, NameKind, names_after};

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
    /// Rows of topstitching and understitching, and tacks.
    pub stitched: bool,
    pub sizes: bool,
    /// Pieces, and behind a piece's dot its slits.
    pub slits: bool,
    /// Pieces that have darts, and behind a piece's dot its darts.
    pub take_ups: bool,
    /// Darts of these pieces.
    pub take_ups_of: Vec<String>,
    /// Edges of these pieces.
    pub edges_of: Vec<String>,
    /// LineIndex of these pieces.
    pub lines_of: Vec<String>,
    /// Points and marks of these pieces.
    pub points_of: Vec<String>,
    /// Behind a piece's dot: its points and marks instead of its edges and lines.
    pub points_after_dot: bool,
    /// Behind a piece's dot: its points and marks, and its edges as well.
    pub places_after_dot: bool,
}

impl CompletionContext {
    fn parts() -> Self {
        CompletionContext { pieces: true, layers: true, ..CompletionContext::default() }
    }

    fn points() -> Self {
        CompletionContext { points_after_dot: true, ..CompletionContext::parts() }
    }

    /// Edges, darts, points and marks of those pieces.
    fn places(pieces: Vec<String>) -> Self {
        CompletionContext {
            points_of: pieces.clone(),
            take_ups_of: pieces.clone(),
            ..CompletionContext::edges(pieces)
        }
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
    "handles",
    "in",
    "into",
    "keeping",
    "layer",
    "matching",
    "of",
    "on",
    "over",
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
    // A place in an alteration of a dart is worked out, and may be a point of the piece.
    let of_piece = first == "split" || first == "let" && matches!(words.get(1), Some(&("dart" | "pleat")));
    let names = names || values && of_piece && cursor.context == Context::File;
    let mut expected = match (names, cursor.context) {
        _ if cursor.context == Context::FittedBody && first.is_empty() => {
            CompletionContext { body: true, ..CompletionContext::default() }
        }
        _ if first.is_empty() && !cursor.in_list => CompletionContext::default(),
        (false, _) => CompletionContext::default(),
        (true, Context::File) => in_file(first, leading, words, cursor, text),
        (true, Context::Piece | Context::Walk | Context::Seam | Context::Place | Context::Strap) => {
            of_form(cursor, text, first, leading, words)
        }
        (true, Context::Closure) if matches!(leading, Some("at" | "from")) => {
            CompletionContext::places(names_before(&cursor.head_words(text), &[]))
        }
        (true, Context::Closure) => CompletionContext::spots(names_before(&cursor.head_words(text), &[])),
        (true, Context::Group) => in_group(cursor, text, first, leading, words),
        (true, Context::FittedBody) => CompletionContext::default(),
        (true, Context::Body | Context::Fitting | Context::Fabric | Context::Steps) => {
            CompletionContext::default()
        }
    };
    let takes_values = !matches!(
        cursor.context,
        Context::Body | Context::Fitting | Context::FittedBody | Context::Steps | Context::Group
    );
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
        "piece" | "strap" => CompletionContext { pieces: true, ..CompletionContext::default() },
        "topstitch" | "understitch" | "tack" | "set" => {
            CompletionContext { stitched: true, ..CompletionContext::default() }
        }
        "dart" | "pleat" | "tuck" => CompletionContext { take_ups: true, ..CompletionContext::default() },
        _ => CompletionContext::parts(),
    }
}

/// What the table of forms says of a name here, with the names that are meant. `own` are those of
/// the piece around, `head` the words before the braces around.
fn of_form(
    cursor: &Cursor,
    text: &str,
    first: &str,
    leading: Option<&str>,
    words: &[&str],
) -> CompletionContext {
    let none = CompletionContext::default();
    let own = || cursor.piece_name(text).map(str::to_owned).into_iter().collect::<Vec<String>>();
    let (context, mut kind) = (cursor.context, names_after(cursor.context, first, leading));
    if context == Context::Walk && after_square_to(words, leading) {
        kind = NameKind::OwnEdges;
    }
    // What a dart is pressed towards may be an edge; a curve leads towards points.
    if context == Context::Walk && leading == Some("toward") && words.contains(&"pressed") {
        kind = NameKind::OwnPlaces;
    }
    match kind {
        // Only the first word after the statement's own is a new name; `block piece` is two words.
        NameKind::New if leading.is_none() && words.len() > 1 && !(first == "block" && words.len() == 2) => {
            match (context, first) {
                (Context::File, "tack") => {
                    CompletionContext { places_after_dot: true, ..CompletionContext::parts() }
                }
                (Context::File, _) => CompletionContext::parts(),
                (Context::Piece, "point" | "mark") => CompletionContext::spots(own()),
                _ => none,
            }
        }
        NameKind::New => none,
        NameKind::Parts => CompletionContext::parts(),
        NameKind::PointsOfParts => CompletionContext::points(),
        NameKind::PlacesOfParts => CompletionContext { places_after_dot: true, ..CompletionContext::parts() },
        NameKind::Pieces => CompletionContext { pieces: true, ..none },
        NameKind::Layers => CompletionContext { layers: true, ..none },
        NameKind::Fabrics => CompletionContext { fabrics: true, ..none },
        NameKind::Seams => CompletionContext { seams: true, ..none },
        NameKind::Closures => CompletionContext { closures: true, ..none },
        NameKind::Stitched => CompletionContext { stitched: true, ..none },
        NameKind::Slits => CompletionContext { slits: true, ..CompletionContext::parts() },
        NameKind::SeamsAndClosures => CompletionContext { seams: true, closures: true, ..none },
        NameKind::BodyMeasures => CompletionContext { body: true, ..none },
        NameKind::Lets => CompletionContext { lets: true, ..none },
        NameKind::OfKindNamed => match words.get(1) {
            None => CompletionContext { pieces: true, ..none },
            Some(&kind) => of_replaced(kind),
        },
        NameKind::OwnEdges => CompletionContext::edges(own()),
        NameKind::OwnPoints => CompletionContext::spots(own()),
        NameKind::OwnPlaces => CompletionContext::places(own()),
        NameKind::PlacesOfNamed => {
            let is_over = |word: &&&str| matches!(**word, "to" | "and");
            let named = words.iter().rev().take_while(|word| !is_over(word));
            CompletionContext::places(named.map(|word| (*word).to_owned()).collect())
        }
        NameKind::Sewable => CompletionContext { seams: true, closures: true, take_ups: true, ..none },
        NameKind::EdgesOfBase => {
            let of = words.iter().position(|&word| word == "of").and_then(|at| words.get(at + 1));
            CompletionContext::edges(of.map(|word| (*word).to_owned()).into_iter().collect())
        }
        NameKind::PlacesOfBase => match words.iter().position(|&word| word == "of") {
            Some(of) => CompletionContext::places(
                words.iter().skip(of + 1).take(1).map(|word| (*word).to_owned()).collect(),
            ),
            None => CompletionContext::spots(own()),
        },
        NameKind::PointsOfPlaced => CompletionContext::spots(placed(cursor, text).0),
        NameKind::PointsOfHost => CompletionContext::spots(placed(cursor, text).1),
        NameKind::EdgesOfHost => CompletionContext::edges(placed(cursor, text).1),
        NameKind::PlacesOfHost => CompletionContext::places(placed(cursor, text).1),
        NameKind::PlacesOfHead => CompletionContext::places(names_before(&cursor.head_words(text), &[])),
        NameKind::EdgesOfPlaced => CompletionContext::edges(placed(cursor, text).0),
    }
}

/// Whether a name follows `square to`, which is another `to` than the one before a corner.
fn after_square_to(words: &[&str], leading: Option<&str>) -> bool {
    let before = words.len().checked_sub(2).and_then(|at| words.get(at));
    leading == Some("to") && words.len() > 2 && before == Some(&"square")
}

/// What is placed, and what on.
fn placed(cursor: &Cursor, text: &str) -> (Vec<String>, Vec<String>) {
    let head = cursor.head_words(text);
    let on = head.iter().position(|&word| word == "on").unwrap_or(head.len());
    let last = |words: &[&str]| words.last().map(|word| (*word).to_owned()).into_iter().collect();
    let host = head.get((on + 1).min(head.len())..).unwrap_or_default();
    (last(head.get(..on).unwrap_or_default()), last(host))
}

fn in_file(
    first: &str,
    leading: Option<&str>,
    words: &[&str],
    cursor: &Cursor,
    text: &str,
) -> CompletionContext {
    if cursor.in_list {
        return CompletionContext { pieces: true, ..CompletionContext::default() };
    }
    if words.iter().take(5).any(|&word| word == "dart") && matches!(first, "move" | "leave" | "close") {
        return of_dart(leading, words);
    }
    if first == "let" && matches!(words.get(1), Some(&("dart" | "pleat"))) {
        return of_dart_let_in(leading, words);
    }
    if first == "split" && words.contains(&"from") {
        return of_split(leading, words);
    }
    let alteration = AlterationKind::beginning(first, words.get(1).copied()).map(AlterationKind::form);
    if let Some(form) = alteration
        && let TargetForm::Pieces(place) | TargetForm::Piece(place) | TargetForm::TwoPieces(place) =
            form.targets
        && leading == Some(place)
    {
        let pieces = names_before(words, LEADING);
        let context = match form.needs {
            Need::LineAcross | Need::Line => CompletionContext::lines(pieces),
            Need::Fold | Need::Edge | Need::Dart => CompletionContext::edges(pieces),
        };
        // Two pieces may be said to meet at the seam between them.
        let seams = matches!(form.targets, TargetForm::TwoPieces(_));
        return CompletionContext { seams, ..context };
    }
    of_form(cursor, text, first, leading, words)
}

/// What fits behind `move dart`, `leave dart` and `close dart`.
fn of_dart(leading: Option<&str>, words: &[&str]) -> CompletionContext {
    let dart = words.iter().position(|&word| word == "dart").unwrap_or(0);
    let named = words.get(dart + 1);
    // Its piece, or a layer and its piece.
    let own = || words.iter().skip(dart + 1).take(2).map(|&word| word.to_owned()).collect::<Vec<String>>();
    let darts = CompletionContext { take_ups: true, ..CompletionContext::default() };
    match leading {
        _ if named.is_none() => darts,
        Some("to") => CompletionContext::edges(own()),
        Some("into") => CompletionContext { take_ups_of: own(), ..darts },
        Some("at") => CompletionContext::spots(own()),
        Some("from" | "toward") => {
            CompletionContext { points_of: own(), take_ups_of: own(), ..CompletionContext::edges(own()) }
        }
        _ => CompletionContext::default(),
    }
}

/// What fits behind `let dart` and `let pleat`.
fn of_dart_let_in(leading: Option<&str>, words: &[&str]) -> CompletionContext {
    let into = words.iter().position(|&word| word == "into").unwrap_or(words.len());
    // Its piece, or a layer and its piece.
    let own: Vec<String> = words.iter().skip(into + 1).take(2).map(|&word| word.to_owned()).collect();
    let last = words.iter().rposition(|&word| leading == Some(word)).unwrap_or(0);
    let after = |word: &&str| last > 0 && words.get(last - 1) == Some(word);
    let turning = after(&"turning") || after(&"nothing");
    match leading {
        Some("at") if turning => CompletionContext::edges(own),
        Some("along") => CompletionContext { lines_of: own.clone(), ..CompletionContext::edges(own) },
        Some("into") => CompletionContext::parts(),
        Some("to") if turning => CompletionContext::edges(own),
        Some("at" | "to") => CompletionContext::spots(own),
        Some("from" | "toward") => CompletionContext {
            points_of: own.clone(),
            take_ups_of: own.clone(),
            ..CompletionContext::edges(own)
        },
        _ => CompletionContext::default(),
    }
}

/// What fits behind `split front from`.
fn of_split(leading: Option<&str>, words: &[&str]) -> CompletionContext {
    let own: Vec<String> =
        words.iter().skip(1).take_while(|&&word| word != "from").map(|&word| word.to_owned()).collect();
    match leading {
        Some("from" | "to") => CompletionContext { take_ups_of: own, ..CompletionContext::default() },
        Some("through") => CompletionContext::spots(own),
        _ => CompletionContext::default(),
    }
}

fn in_group(
    cursor: &Cursor,
    text: &str,
    first: &str,
    leading: Option<&str>,
    words: &[&str],
) -> CompletionContext {
    let (verb, at) = match first {
        "in" => (words.get(2).copied().unwrap_or(""), 2),
        verb => (verb, 0),
    };
    // The `in` of `in outer sew …` leads on to its layer alone.
    let leading = leading.filter(|_| words.len() > at);
    match verb {
        "" => CompletionContext { layers: true, ..CompletionContext::default() },
        _ => of_form(cursor, text, verb, leading, words),
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
