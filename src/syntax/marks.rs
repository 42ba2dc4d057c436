//! Which words of a text are what, for colouring: as the grammar reads them, not as they look.

use super::grammar::{Grammar, Rule};
use super::scan;
use pest::Parser;

/// What a word of the text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkKind {
    /// A word of the language.
    Keyword,
    /// A name.
    Name,
    /// A size's name, or a stitch's.
    Fixed,
    /// A function of an expression.
    Function,
    /// A number.
    Number,
    /// A unit.
    Unit,
    /// A text.
    Text,
    /// A sign of arithmetic or comparison.
    Operator,
    /// A note.
    Note,
}

/// A word of the text and what it is, as offsets of the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// First byte.
    pub lo: usize,
    /// One past the last byte.
    pub hi: usize,
    /// What it is.
    pub kind: MarkKind,
}

/// The words of a text in order, none over another. Damaged lines have none.
pub fn marks(text: &str) -> Vec<Mark> {
    let scan = scan::scan(text);
    let notes = scan.notes.iter().map(|&(lo, hi)| Mark { lo, hi, kind: MarkKind::Note });
    let mut marks: Vec<Mark> = notes.collect();
    if let Ok(pairs) = Grammar::parse(Rule::file, &scan.text) {
        for pair in pairs.flatten() {
            if let Some(kind) = kind(pair.as_rule()) {
                let span = pair.as_span();
                marks.push(Mark { lo: span.start(), hi: span.end(), kind });
            }
        }
    }
    marks.sort_by_key(|mark| (mark.lo, std::cmp::Reverse(mark.hi)));
    let mut end = 0;
    marks.retain(|mark| {
        let apart = mark.lo >= end && mark.hi > mark.lo;
        end = if apart { mark.hi } else { end };
        apart
    });
    marks
}

fn kind(rule: Rule) -> Option<MarkKind> {
    Some(match rule {
        Rule::name => MarkKind::Name,
        Rule::sizename | Rule::stitchword => MarkKind::Fixed,
        Rule::function => MarkKind::Function,
        Rule::number | Rule::plain | Rule::hyphened | Rule::pointed | Rule::comma_number => MarkKind::Number,
        Rule::zero | Rule::pin => MarkKind::Number,
        Rule::unit | Rule::unitword => MarkKind::Unit,
        Rule::text | Rule::touching_text => MarkKind::Text,
        Rule::addop | Rule::times | Rule::over | Rule::sign | Rule::relation | Rule::addplus => {
            MarkKind::Operator
        }
        // Keywords are rules named after their word.
        other if format!("{other:?}").starts_with("k_") => MarkKind::Keyword,
        _ => return None,
    })
}
