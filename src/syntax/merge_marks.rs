//! Marks that version control leaves in a text where two versions of it could not be merged.

use crate::report::{Diagnostic, catalogue};
use crate::source::Span;

/// How many signs a mark has.
const SIGNS: usize = 7;

/// Where one version begins, or all of both ends.
struct Mark<'t> {
    sign: char,
    span: (usize, usize),
    /// From 1.
    line: usize,
    /// What stands behind the signs: a branch, or what was done there.
    name: &'t str,
}

/// The one message about a text in which a merge was left unresolved: nothing can be told of such a text, since it
/// holds two versions at once.
pub(super) fn unresolved(text: &str, base: u32) -> Option<Diagnostic> {
    // Most texts hold none, and are not gone through line by line.
    if !text.contains("<<<<<<<") && !text.contains(">>>>>>>") {
        return None;
    }
    let marks = marks(text);
    if !marks.iter().any(|mark| matches!(mark.sign, '<' | '>')) {
        return None;
    }
    let begin = marks.iter().position(|mark| mark.sign == '<').unwrap_or(0);
    let first = marks.get(begin)?;
    let rest = marks.get(begin..).unwrap_or_default();
    let after = |sign: char| rest.iter().find(|mark| mark.sign == sign);
    let global = |mark: &Mark<'_>| Span::new(base + mark.span.0 as u32, base + mark.span.1 as u32);
    let places = marks.iter().filter(|mark| mark.sign == first.sign).count();
    let title = match places {
        1 => "a merge was left unresolved: two versions stand here, one after the other".to_owned(),
        many => format!(
            "a merge was left unresolved in {many} places: two versions stand there, one after the other"
        ),
    };
    let mistake = Diagnostic::new(&catalogue::FILE_UNMERGED, global(first), title);
    let help = "keep what is right of both versions and take the marks out; until then nothing is worked out of this file";
    let named = |mark: &Mark<'_>, other: &str| match mark.name {
        "" => other.to_owned(),
        name => format!("as {} has it", name.chars().take(60).collect::<String>()),
    };
    let (middle, last) = (after('='), after('>'));
    Some(match (first.sign, middle, last) {
        ('<', Some(middle), Some(last)) => {
            let ends = after('|').unwrap_or(middle);
            mistake
                .label(format!("{}: {}", lines(first.line, ends.line), named(first, "the one version")))
                .also(
                    global(last),
                    format!("{}: {}", lines(middle.line, last.line), named(last, "the other version")),
                )
                .help(help)
        }
        _ => mistake.label("a mark that the merge left behind").help(help),
    })
}

/// What stands between two marks: "lines 5 to 9", "nothing".
fn lines(from: usize, to: usize) -> String {
    match (to.saturating_sub(1)).checked_sub(from) {
        None | Some(0) => "no line".to_owned(),
        Some(1) => format!("line {}", from + 1),
        Some(_) => format!("lines {} to {}", from + 1, to - 1),
    }
}

fn marks(text: &str) -> Vec<Mark<'_>> {
    let mut found = Vec::new();
    let mut at = 0;
    for (line, whole) in text.split_inclusive('\n').enumerate() {
        let words = whole.trim_end();
        for sign in ['<', '|', '=', '>'] {
            let signs = words.bytes().take_while(|byte| *byte == sign as u8).count();
            let name = words.get(signs..).unwrap_or("");
            if signs == SIGNS && (name.is_empty() || name.starts_with(' ')) {
                let span = (at, at + words.len());
                found.push(Mark { sign, span, line: line + 1, name: name.trim() });
            }
        }
        at += whole.len();
    }
    found
}
