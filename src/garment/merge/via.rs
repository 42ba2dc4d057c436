//! A mistake in a base, or in a library, seen from the file that leads to it.

use super::Merged;
use crate::garment::chain::{FileKind, LinkWord};
use crate::report::{Diagnostic, Label};
use crate::source::{SourceMap, Span};

/// The same message with the words that lead to its file shown too, from the first file on, if
/// all its places are in other files than the first.
pub fn via_variation(merged: &Merged, map: &SourceMap, mut diagnostic: Diagnostic) -> Diagnostic {
    let Some(first) = merged.first else { return diagnostic };
    diagnostic.labels.extend(over(merged, map, &diagnostic));
    if diagnostic.labels.iter().any(|label| map.file_of(label.span) == first) {
        return diagnostic;
    }
    let is_fitting = |file| merged.lineage.iter().any(|&(id, kind)| id == file && kind == FileKind::Fitting);
    let mut at = map.file_of(diagnostic.span());
    let mut way = Vec::new();
    while let Some(link) = merged.links.get(&at) {
        if at == first || way.len() > merged.links.len() {
            break;
        }
        let text = match link.by {
            LinkWord::Use => "used here",
            LinkWord::With => "combined here",
            LinkWord::Of if is_fitting(map.file_of(link.span)) => "the garment of this fitting",
            LinkWord::Of => "the base of this variation",
        };
        way.push(Label { span: link.span, text: text.to_owned() });
        at = map.file_of(link.span);
    }
    diagnostic.labels.extend(way.into_iter().rev());
    diagnostic
}

/// What another file said in the place of what the message speaks of: "as longer.fus says, over smock.fus".
fn over(merged: &Merged, map: &SourceMap, diagnostic: &Diagnostic) -> Option<Label> {
    let span = diagnostic.span();
    let is_in = |whole: Span| whole.lo <= span.lo && span.hi <= whole.hi;
    let changed = merged.declarations.iter().filter(|one| one.replaced.is_some());
    let changed =
        changed.filter(|one| is_in(one.statement.span)).min_by_key(|one| one.statement.span.len())?;
    let before = changed.replaced?;
    let is_shown = |label: &Label| before.lo <= label.span.lo && label.span.hi <= before.hi;
    if diagnostic.labels.iter().any(is_shown) || map.file_of(before) == map.file_of(span) {
        return None;
    }
    let name =
        |span: Span| map.file(map.file_of(span)).name.rsplit('/').next().unwrap_or_default().to_owned();
    // The head of it is enough.
    let text = map.text(before);
    let head = text.find(['{', '\n']).unwrap_or(text.len());
    let head = before.lo + text.get(..head).unwrap_or(text).trim_end().len() as u32;
    Some(Label {
        span: Span::new(before.lo, head.max(before.lo)),
        text: format!("as {} says, over {}", name(span), name(before)),
    })
}
