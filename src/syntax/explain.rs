//! One damaged statement in a maker's words: what was found, what would have fitted, the way out.

use super::build::{Context, Damage, DamageKind};
use super::expected::{Expected, expected, fits};
use super::forms;
use super::slips;
use super::tree::AlterationKind;
use super::words::UNITS;
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;

/// A damaged statement.
pub(super) struct Snippet<'t> {
    /// Its text, from its beginning to the end of the damage.
    pub text: &'t str,
    /// Where that text begins in the file.
    pub from: usize,
    /// What is wrong with it.
    pub damage: Damage,
    /// Where a text opens in it that never closes, in the file.
    pub open_text: Option<usize>,
    /// The file's first global offset.
    pub base: u32,
}

/// A message, and what it means for the lines below.
pub(super) struct Explained {
    pub diagnostic: Diagnostic,
    /// The `{` of a block is missing.
    pub opener_lost: bool,
    /// The line ended where its rest should stand; it may stand on the next.
    pub goes_on_below: bool,
}

impl From<Diagnostic> for Explained {
    fn from(diagnostic: Diagnostic) -> Self {
        Explained { diagnostic, opener_lost: false, goes_on_below: false }
    }
}

impl Snippet<'_> {
    /// The span of a part of the text.
    fn span(&self, lo: usize, hi: usize) -> Span {
        let start = self.base + self.from as u32;
        Span::new(start + lo as u32, start + hi as u32)
    }

    fn first_word(&self) -> &str {
        word_at(self.text, 0)
    }
}

/// `redraw front.side on left …`: what only one side of the body would need.
fn one_side(snippet: &Snippet, at: usize) -> Option<Diagnostic> {
    let rest = snippet.text.get(at..)?;
    let mut words = rest.split_whitespace();
    let (on, side) = (words.next()?, words.next()?);
    if on != "on" || !matches!(side, "left" | "right") {
        return None;
    }
    let end = at + rest.find(side).unwrap_or(0) + side.len();
    if snippet.damage.context != Context::File {
        return None;
    }
    let mut words = snippet.text.split_whitespace();
    let (verb, second) = (words.next()?, words.next());
    let kind = AlterationKind::beginning(verb, second)?;
    let mut named = snippet.text.get(..at)?.split_whitespace().skip(kind.form().verb.split(' ').count());
    let piece = named.next().and_then(|name| name.split('.').next()).unwrap_or("front");
    Some(slips::one_side(snippet.span(at, end), piece, side))
}

/// `leaving gap in the middle`: where it lies, and not how long it is.
fn gap_without_length(snippet: &Snippet) -> Option<Diagnostic> {
    let after = snippet.text.strip_prefix("leaving")?.trim_start().strip_prefix("gap")?;
    let word = word_at(after.trim_start(), 0);
    let is_place = matches!(word, "in" | "from" | "at" | "along");
    if !is_place || !after.starts_with(char::is_whitespace) || snippet.damage.context != Context::Seam {
        return None;
    }
    let at = snippet.text.len() - after.trim_start().len();
    Some(slips::gap_without_length(snippet.span(at, at + word.len())))
}

/// Explains a damage.
pub(super) fn explain(snippet: &Snippet) -> Explained {
    if let Some(open) = snippet.open_text {
        return unclosed_text(snippet, open - snippet.from).into();
    }
    let Some(mut wanted) = expected(snippet.damage.context, snippet.text) else {
        return no_reason(snippet).into();
    };
    // What stands behind blanks: the failure is reported at the word, not at the blank before it.
    let rest = snippet.text.get(wanted.at..).unwrap_or("");
    wanted.at += rest.len() - rest.trim_start_matches([' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}']).len();
    if let Some(message) = brackets(snippet, &wanted) {
        return message.into();
    }
    if let Some(message) = look_alike(snippet, wanted.at) {
        return message.into();
    }
    if let Some(message) = unit_lost(snippet, wanted.at) {
        return message.into();
    }
    if let Some(message) = one_side(snippet, wanted.at) {
        return message.into();
    }
    if let Some(message) = gap_without_length(snippet) {
        return message.into();
    }
    let first = snippet.first_word();
    let free = matches!(
        snippet.damage.context,
        Context::Body | Context::FittedBody | Context::Walk | Context::Steps
    );
    let known = forms::starters(snippet.damage.context).any(|word| word == first);
    if snippet.damage.kind == DamageKind::Bad && !free && !known {
        return unknown(snippet).into();
    }
    misfit(snippet, &wanted)
}

/// A word out of place, or a line that ends too early.
fn misfit(snippet: &Snippet, wanted: &Expected) -> Explained {
    let found = token_at(snippet.text, wanted.at);
    let bad = snippet.damage.kind == DamageKind::Bad;
    let opener_lost = bad && wanted.signs.contains(&"{") && !snippet.text.contains('{');
    if found.is_empty() {
        if let Some(sign @ ('=' | '+' | '-' | '*' | '/')) = snippet.text.trim_end().chars().next_back() {
            let end = snippet.text.trim_end().len();
            let diagnostic = slips::value_below(snippet.span(end - 1, end), &sign.to_string());
            return Explained { diagnostic, opener_lost: false, goes_on_below: true };
        }
        let end = snippet.text.len().min(wanted.at);
        let last = last_token(snippet.text.get(..end).unwrap_or(snippet.text));
        let span = snippet.span(last, end.max(last));
        if let Some(diagnostic) = misspelt_at_end(snippet, last, end) {
            return Explained { diagnostic, opener_lost, goes_on_below: false };
        }
        let title = format!("the line ends where {} would fit", wanted.list());
        let diagnostic =
            with_form(Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title).label("after this"), snippet);
        return Explained { diagnostic, opener_lost, goes_on_below: false };
    }
    let span = snippet.span(wanted.at, wanted.at + found.len());
    let shown = shortened(found);
    let near = nearest(found, wanted.words.iter().map(String::as_str));
    let behind = snippet.damage.kind == DamageKind::Extra && wanted.at <= behind_start(snippet);
    let diagnostic = match near {
        Some(word) => {
            let title = format!("found `{shown}` where {} would fit", wanted.list());
            Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title)
                .label("here")
                .help(format!("did you mean `{word}`?"))
                .fix_by(span, word)
        }
        None if found == ";" && snippet.damage.context == Context::File => {
            Diagnostic::new(&catalogue::SYNTAX_TRAILING, span, "a `;` ends a statement only inside braces")
                .label("outside braces the end of the line does")
                .help("write the next statement on a line of its own")
        }
        None if behind => {
            let title = format!("the statement is complete before `{shown}`");
            let more = Expected { end: false, ..wanted.clone() };
            let fit = match more.words.is_empty() && more.things.is_empty() && more.signs.is_empty() {
                true => String::new(),
                false => format!(", or write what may follow: {}", more.list()),
            };
            let help = misplaced(snippet, wanted.at, found)
                .unwrap_or_else(|| format!("remove it or write it on a line of its own{fit}"));
            Diagnostic::new(&catalogue::SYNTAX_TRAILING, span, title)
                .label("nothing that may follow it")
                .help(help)
        }
        None if found == "}" && snippet.first_word() == "layer" => {
            let title = format!("found `{shown}` where {} would fit", wanted.list());
            Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title).label("here").help(
                "name what is cut in it: pieces, or straps by their names; for example \
                 `layer handles in webbing { handle }`",
            )
        }
        None => {
            let title = format!("found `{shown}` where {} would fit", wanted.list());
            let message = Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title).label("here");
            match misplaced(snippet, wanted.at, found) {
                Some(help) => message.help(help),
                None => with_form(message, snippet),
            }
        }
    };
    Explained { diagnostic, opener_lost, goes_on_below: false }
}

/// A word of the language that is misspelt where a name or a value may stand too: it was taken for one, and only what
/// should follow that is missed.
fn misspelt_at_end(snippet: &Snippet, last: usize, end: usize) -> Option<Diagnostic> {
    let found = snippet.text.get(last..end)?;
    let before = snippet.text.get(..last)?;
    // A character that stands in no statement makes the parser tell what would have fitted there.
    let wanted = expected(snippet.damage.context, &format!("{before}\u{2}")).filter(|one| one.at == last)?;
    let word = nearest(found, wanted.words.iter().map(String::as_str)).filter(|word| *word != found)?;
    let mended = format!("{before}{word}");
    if !fits(snippet.damage.context, &mended) {
        return None;
    }
    let span = snippet.span(last, end);
    let title = format!("found `{}` where {} would fit", shortened(found), wanted.list());
    let message = Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title).label("here");
    Some(message.help(format!("did you mean `{word}`?")).fix_by(span, word))
}

/// What to write, where something is right in another place, or another sign is meant.
fn misplaced(snippet: &Snippet, at: usize, found: &str) -> Option<String> {
    let before = snippet.text.get(..at)?.trim_end();
    match (snippet.first_word(), found) {
        ("outline", "+") if before.contains("strip of") && before.contains("along") => Some(
            "edges of a strip follow one another with commas between them, for example `outline strip of front along neckline, edge \
             width 5`"
                .to_owned(),
        ),
        ("band", "inside") if before.contains("joined at") => {
            Some("write it before `joined at`: … inside lining … joined at …".to_owned())
        }
        ("band", "at") if let Some(behind) = ["joined at", "opening at"].into_iter().find(|one| before.contains(one)) => {
            let share = snippet.text.get(at..)?.split_whitespace().nth(1)?;
            Some(format!("write it before `{behind}`: … at {share} {behind} …"))
        }
        ("in" | "sew" | "hem" | "finish" | "place" | "press" | "baste" | "topstitch", ",") if before.ends_with('"') => Some(
            "words belong to one action: begin the next with its verb, behind a `;`, for example `sew shoulder \"press it open\"; sew \
             side`"
                .to_owned(),
        ),
        _ => None,
    }
}

/// Where the damage begins, in the snippet's text.
fn behind_start(snippet: &Snippet) -> usize {
    snippet.damage.at.saturating_sub(snippet.from)
}

/// A line that begins with nothing known there.
fn unknown(snippet: &Snippet) -> Diagnostic {
    let context = snippet.damage.context;
    let place = forms::place(context);
    let first = match snippet.first_word() {
        "" => token_at(snippet.text, 0),
        word => word,
    };
    let shown = shortened(first);
    let span = snippet.span(0, first.len());
    let title = match context {
        Context::File => format!("no statement begins with `{shown}`"),
        _ => format!("no statement {place} begins with `{shown}`"),
    };
    if context == Context::File && matches!(first, "with" | "without") {
        let title = format!("`{first}` stands on the line of the heading");
        return Diagnostic::new(&catalogue::SYNTAX_UNKNOWN_STATEMENT, span, title)
            .label("on a line of its own")
            .help(format!(
                "write variation \"…\" of \"….fus\" {first} \"….fus\"; after a comma the line may end and go on below"
            ));
    }
    let elsewhere = forms::elsewhere(context, first);
    let title = match elsewhere {
        Some(_) => format!("`{shown}` does not belong {place}"),
        None => title,
    };
    let message = Diagnostic::new(&catalogue::SYNTAX_UNKNOWN_STATEMENT, span, title).label("here");
    if let Some(other) = elsewhere {
        return message.help(format!("`{first}` belongs {}", forms::place(other)));
    }
    if let Some(near) = nearest(first, forms::starters(context)) {
        return message.help(format!("did you mean `{near}`?")).fix_by(span, near);
    }
    let mut words: Vec<&str> = forms::starters(context).collect();
    // Of a statement with two forms the word is told once.
    words.dedup();
    match context {
        Context::File => message.help(
            "a statement begins with a word such as `piece`, `let`, `seam`, `finish` or `lengthen`; \
             a note begins with `#`",
        ),
        _ => message.help(format!("{place} belong {}; a note begins with `#`", quoted(&words))),
    }
}

/// A statement that is sound by itself: it is only what is around it that does not fit.
fn no_reason(snippet: &Snippet) -> Diagnostic {
    let at = behind_start(snippet);
    let found = token_at(snippet.text, at);
    let span = snippet.span(at, at + found.len());
    Diagnostic::new(&catalogue::SYNTAX_TRAILING, span, format!("`{}` does not fit here", shortened(found)))
        .label("here")
        .help("write each statement on a line of its own")
}

fn with_form(message: Diagnostic, snippet: &Snippet) -> Diagnostic {
    match forms::form(snippet.damage.context, snippet.first_word()) {
        Some(form) => message.help(format!("for example `{form}`")),
        None => message,
    }
}

fn unclosed_text(snippet: &Snippet, at: usize) -> Diagnostic {
    let rest = snippet.text.get(at..).unwrap_or("");
    let line = rest.lines().next().unwrap_or("").trim_end();
    Diagnostic::new(
        &catalogue::SYNTAX_UNCLOSED,
        snippet.span(at, at + line.len().max(1)),
        "this text is never closed",
    )
    .label("opened by this `\"`")
    .help("write the closing `\"` on the same line")
}

/// A bracket without its partner.
fn brackets(snippet: &Snippet, wanted: &Expected) -> Option<Diagnostic> {
    let (open, stray) = partnerless(snippet.text);
    if let Some(at) = stray
        && at == wanted.at
    {
        let span = snippet.span(at, at + 1);
        let message = Diagnostic::new(&catalogue::SYNTAX_STRAY_BRACE, span, "this `)` closes nothing");
        return Some(
            message.label("no `(` is open here").help("remove it, or write the `(` that it should close"),
        );
    }
    let (at, bracket) = open.filter(|&(at, _)| at < wanted.at)?;
    let partner = if bracket == '(' { ')' } else { '}' };
    let span = snippet.span(at, at + 1);
    let message =
        Diagnostic::new(&catalogue::SYNTAX_UNCLOSED, span, format!("this `{bracket}` is never closed"));
    Some(message.label("opened here").help(format!("write its `{partner}` where it should end")))
}

/// The first opener without a closer, and the first `)` without an opener, texts and notes apart.
fn partnerless(text: &str) -> (Option<(usize, char)>, Option<usize>) {
    let (mut open, mut stray) = (Vec::new(), None);
    let (mut in_text, mut before) = (false, ' ');
    let mut in_note = false;
    for (at, character) in text.char_indices() {
        match character {
            '\n' | '\r' => (in_text, in_note) = (false, false),
            _ if in_note => {}
            '"' if in_text => in_text = before == '\\',
            '"' => in_text = !before.is_ascii_digit(),
            '#' if !in_text => in_note = true,
            '(' | '{' if !in_text => open.push((at, character)),
            ')' if !in_text && open.last().is_some_and(|last| last.1 == '(') => drop(open.pop()),
            '}' if !in_text && open.last().is_some_and(|last| last.1 == '{') => drop(open.pop()),
            ')' if !in_text && stray.is_none() => stray = Some(at),
            _ => {}
        }
        before = character;
    }
    (open.first().copied(), stray)
}

/// Signs that look like those of the language, or mean the same elsewhere.
fn look_alike(snippet: &Snippet, at: usize) -> Option<Diagnostic> {
    let found = snippet.text.get(at..)?.chars().next()?;
    let (name, instead) = match found {
        '“' | '”' | '„' | '«' | '»' | '‘' | '’' | '\'' => ("quote mark", "the straight `\"`"),
        '–' | '—' | '−' => ("dash", "the plain `-`"),
        '×' | '·' | '•' => ("sign", "`*` to multiply"),
        '÷' => ("sign", "`/` to divide"),
        '≥' => ("sign", "`>=`"),
        '≤' => ("sign", "`<=`"),
        '≠' => ("sign", "`!=`"),
        '…' => ("sign", "two points `..` for a range"),
        '[' | ']' => ("bracket", "round brackets `( )`"),
        ':' => ("colon", "a space; `=` comes before a value"),
        _ => return None,
    };
    let span = snippet.span(at, at + found.len_utf8());
    let title = format!("the {name} `{found}` has no meaning here");
    Some(
        Diagnostic::new(&catalogue::SYNTAX_EXPECTED, span, title)
            .label("here")
            .help(format!("write {instead}")),
    )
}

/// A unit that stands apart from its number, or a word that touches a number and is not a unit.
fn unit_lost(snippet: &Snippet, at: usize) -> Option<Diagnostic> {
    let word = word_at(snippet.text, at);
    let before = snippet.text.get(..at)?;
    if word.is_empty() || !before.trim_end().ends_with(|character: char| character.is_ascii_digit()) {
        return None;
    }
    let number =
        before.trim_end().rfind(|character: char| !(character.is_ascii_digit() || ".,/".contains(character)));
    let number = number
        .map_or(0, |at| at + before.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let span = snippet.span(number, at + word.len());
    let spelt = match word {
        "inch" | "inches" | "ins" => Some("in"),
        "cms" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Some("cm"),
        "mms" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Some("mm"),
        "metre" | "metres" | "meter" | "meters" => Some("m"),
        "foot" | "feet" => Some("ft"),
        "yard" | "yards" | "yds" => Some("yd"),
        "degree" | "degrees" => Some("deg"),
        _ => None,
    };
    let written = snippet.text.get(number..at + word.len()).unwrap_or(word);
    match spelt {
        Some(unit) => {
            let number = before.get(number..).unwrap_or("").trim_end();
            let message = Diagnostic::new(
                &catalogue::TEXT_SLIP,
                span,
                format!("`{word}` is not a unit as it is spelled here"),
            );
            Some(message.label("a number and its unit").help(format!("write `{number}{unit}`")))
        }
        None if before.ends_with(char::is_whitespace) => {
            UNITS.contains(&word).then(|| slips::unit_apart(span, written))
        }
        None => {
            let message = Diagnostic::new(
                &catalogue::TEXT_SLIP,
                span,
                format!("`{word}` touches a number and is not a unit"),
            );
            Some(message.label("here").help(format!("the units are {}, `\"`, `°` and `%`", quoted(UNITS))))
        }
    }
}

/// What is wrong with a length that stands alone, where that can be told from what stands at an
/// offset of it.
pub(super) fn length_misread(snippet: &Snippet, at: usize) -> Option<Diagnostic> {
    look_alike(snippet, at).or_else(|| unit_lost(snippet, at))
}

/// The word at an offset; empty if none begins there.
fn word_at(text: &str, at: usize) -> &str {
    let rest = text.get(at..).unwrap_or("");
    let end =
        rest.find(|character: char| !(character.is_alphanumeric() || character == '_')).unwrap_or(rest.len());
    rest.get(..end).unwrap_or("")
}

/// What stands at an offset: a name with its dots, a number, a text, or one sign; empty at a
/// line's end.
fn token_at(text: &str, at: usize) -> &str {
    let rest = text.get(at..).unwrap_or("");
    let Some(first) = rest.chars().next() else { return "" };
    if first == '\n' || first == '\r' || first == '#' {
        return "";
    }
    if first == '"' {
        let inner = rest.get(1..).unwrap_or("");
        // A text that is not closed ends with its line, without that end.
        let end = inner.find(['"', '\n', '\r']).map_or(rest.len(), |end| {
            let is_closed = inner.get(end..).is_some_and(|rest| rest.starts_with('"'));
            1 + end + usize::from(is_closed)
        });
        return rest.get(..end).unwrap_or(rest);
    }
    let in_word = |character: char| character.is_alphanumeric() || character == '_' || character == '.';
    let end =
        if in_word(first) { rest.find(|character| !in_word(character)) } else { Some(first.len_utf8()) };
    rest.get(..end.unwrap_or(rest.len())).unwrap_or(rest)
}

/// Where the last token of a text begins.
fn last_token(text: &str) -> usize {
    let kept = text.trim_end();
    let last = kept.char_indices().rev().take_while(|(_, character)| !character.is_whitespace()).last();
    last.map_or(0, |(at, _)| at)
}

fn quoted(words: &[&str]) -> String {
    let all: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    all.join(", ")
}

fn shortened(found: &str) -> String {
    match found.chars().count() > 40 {
        true => found.chars().take(39).chain(std::iter::once('…')).collect(),
        false => found.to_owned(),
    }
}
