//! A mistake in a base, or in a library, seen from the file that leads to it.

use super::Merged;
use crate::garment::chain::{FileKind, LinkWord};
use crate::report::{Diagnostic, Label};
use crate::source::SourceMap;

/// The same message with the words that lead to its file shown too, from the first file on, if
/// all its places are in other files than the first.
pub fn via_variation(merged: &Merged, map: &SourceMap, mut diagnostic: Diagnostic) -> Diagnostic {
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
