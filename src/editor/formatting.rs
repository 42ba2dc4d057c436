use super::document::Document;
use crate::source::SourceMap;
use crate::syntax::tidy::tidy;
use lsp_types::TextEdit;

/// The edit that lays a document out in the canonical way; none where it is tidy.
///
/// # Errors
/// Why it is left as it is, in words for the maker: it has mistakes of reading.
pub(super) fn formatting(document: &Document) -> Result<Vec<TextEdit>, String> {
    if document.text.len() > crate::limits::FILE_BYTES {
        return Err("it is too large to be laid out".to_owned());
    }
    let mut map = SourceMap::default();
    let file = map.add("", document.text.clone());
    let new = tidy(&map, file).map_err(|mistakes| match mistakes.first() {
        Some(first) => {
            let line = document.lines.position(&document.text, first.span().lo as usize).line + 1;
            format!("it is left as it is, because line {line} cannot be read: {}", first.title)
        }
        None => "it is left as it is".to_owned(),
    })?;
    Ok(difference(document, &new).into_iter().collect())
}

/// One edit from the first line that differs to the last, so that an editor keeps its place.
pub(super) fn difference(document: &Document, new: &str) -> Option<TextEdit> {
    let old = &*document.text;
    if old == new {
        return None;
    }
    let same = |a: &mut dyn Iterator<Item = &str>, b: &mut dyn Iterator<Item = &str>| -> usize {
        a.zip(b).take_while(|(a, b)| a == b).map(|(a, _)| a.len()).sum()
    };
    let front = same(&mut old.split_inclusive('\n'), &mut new.split_inclusive('\n'));
    let (old_rest, new_rest) = (old.get(front..)?, new.get(front..)?);
    let back = same(&mut old_rest.split_inclusive('\n').rev(), &mut new_rest.split_inclusive('\n').rev());
    let range = document.lines.range(old, front, old.len() - back);
    Some(TextEdit { range, new_text: new_rest.get(..new_rest.len() - back)?.to_owned() })
}
