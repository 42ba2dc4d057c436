//! What leads to the place that a message speaks of: the words by which a file came into the chain, and what another
//! file said in the place of it.

use super::Merged;
use crate::garment::chain::{FileKind, LinkWord};
use crate::report::{Diagnostic, Label};
use crate::source::{SourceMap, Span};

/// The same messages with what leads to their places.
pub fn via_variation(merged: &Merged, map: &SourceMap, messages: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut changed: Vec<(Span, Span)> = merged
        .declarations
        .iter()
        .filter_map(|one| Some((one.statement.span, one.replaced?)))
        .filter(|(now, before)| map.file_of(*now) != map.file_of(*before))
        .collect();
    changed.sort_unstable_by_key(|(now, _)| now.lo);
    let led = |mut message: Diagnostic| {
        message.labels.extend(over(map, &changed, &message));
        via(merged, map, message)
    };
    messages.into_iter().map(led).collect()
}

/// The words that lead to a message's file, from the first file on, if all its places are in other files than that.
fn via(merged: &Merged, map: &SourceMap, mut diagnostic: Diagnostic) -> Diagnostic {
    let Some(first) = merged.first else { return diagnostic };
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

/// What another file said in the place of what a message on how it comes out speaks of: "as longer.fus says, over
/// smock.fus". A slip of the pen is where it is written.
fn over(map: &SourceMap, changed: &[(Span, Span)], diagnostic: &Diagnostic) -> Option<Label> {
    if changed.is_empty() || diagnostic.sizes.is_empty() {
        return None;
    }
    let span = diagnostic.span();
    let at = changed.partition_point(|(now, _)| now.lo <= span.lo).checked_sub(1)?;
    let (_, before) = changed.get(at).copied().filter(|(now, _)| span.hi <= now.hi)?;
    let is_shown = |label: &Label| before.lo <= label.span.lo && label.span.hi <= before.hi;
    if diagnostic.labels.iter().any(is_shown) {
        return None;
    }
    let name = |span: Span| {
        let file = map.file(map.file_of(span));
        file.name.rsplit('/').next().unwrap_or_default().to_owned()
    };
    // The head of it is enough.
    let text = map.text(before);
    let head = text.find(['{', '\n']).and_then(|end| text.get(..end)).unwrap_or(text).trim_end();
    let text = format!("as {} says, over {}", name(span), name(before));
    Some(Label { span: Span::new(before.lo, before.lo + head.len() as u32), text })
}
