use super::cursor::Cursor;
use super::document::Document;
use super::document::uri_in;
use super::overlay::beside;
use super::references::ReferenceIndex;
use super::tokens::{Token, TokenKind, tokens};
use super::workspace::{OpenDocument, Workspace};
use lsp_types::{DocumentHighlight, DocumentLink, Location, Position, Range, Uri};

/// Where the thing named at a position is declared, or the file that a path means.
pub(super) fn definition(open: &OpenDocument<'_>, position: Position) -> Vec<Location> {
    let offset = open.offset(position);
    let garment = &open.analysis.compiled.garment;
    let mut found: Vec<Location> = Vec::new();
    for one in open.analysis.names_at(&open.path, offset) {
        // What no text names, as a rectangle's edge, is shown where it is made.
        let (_, span) = garment.declared(garment.origin(one.symbol));
        found.extend(open.location(span).filter(|location| !found.contains(location)));
    }
    if found.is_empty() {
        found.extend(file_at(open, offset));
    }
    found
}

/// The same; of a name that stands where it is declared itself, as after `set` or `replace`, what it stands in the place
/// of, in a base.
pub(super) fn definition_or_base(workspace: &mut Workspace, uri: &Uri, position: Position) -> Vec<Location> {
    let Some(open) = workspace.up_to_date(uri) else { return Vec::new() };
    let own = definition(&open, position);
    let is_here = |location: &Location| {
        location.uri == open.document.uri
            && location.range.start <= position
            && position <= location.range.end
    };
    if !own.iter().all(is_here) {
        return own;
    }
    workspace.recompile_stale();
    let Some(open) = workspace.up_to_date(uri) else { return own };
    let offset = open.offset(position);
    let before = ReferenceIndex::new(open.workspace).declared_elsewhere(&open.path, offset);
    let found: Vec<Location> = before
        .iter()
        .filter_map(|place| {
            let uri = uri_in(open.workspace.documents(), &place.path)?;
            Some(Location::new(uri, open.analysis.range(place)?))
        })
        .collect();
    if found.is_empty() { own } else { found }
}

/// Every place of this document that names what is named at a position.
pub(super) fn highlights(workspace: &mut Workspace, uri: &Uri, position: Position) -> Vec<DocumentHighlight> {
    let all = references(workspace, uri, position, true).into_iter();
    let own = all.filter(|location| location.uri == *uri);
    own.map(|location| DocumentHighlight { range: location.range, kind: None }).collect()
}

/// The files that are named in a document, each with where it lies.
pub(super) fn links(open: &OpenDocument<'_>) -> Vec<DocumentLink> {
    let text = &*open.document.text;
    let all = tokens(text);
    let named = all.iter().filter(|token| token.kind == TokenKind::Text);
    let link = |token: &Token| {
        let target = file_named(open, token)?.uri;
        Some(DocumentLink {
            range: inside(open.document, token),
            target: Some(target),
            tooltip: None,
            data: None,
        })
    };
    named.filter_map(link).collect()
}

/// Where the words of a text stand, without its quotes.
fn inside(document: &Document, token: &Token) -> Range {
    let text = &*document.text;
    let said = token.text(text);
    let lo = token.lo + usize::from(said.starts_with('"'));
    let hi = token.hi - usize::from(said.len() > 1 && said.ends_with('"'));
    document.lines.range(text, lo, hi)
}

/// The file that is named at a byte: after `of`, `with`, `without` or `use`.
fn file_at(open: &OpenDocument<'_>, offset: usize) -> Option<Location> {
    let all = tokens(&open.document.text);
    let path =
        all.iter().find(|token| token.kind == TokenKind::Text && token.lo <= offset && offset <= token.hi)?;
    file_named(open, path)
}

/// The file that a text names, if it does.
fn file_named(open: &OpenDocument<'_>, path: &Token) -> Option<Location> {
    let text = &*open.document.text;
    let words = Cursor::at(text, path.lo).words(text).join(" ");
    if words != "use" && !words.starts_with("variation of") {
        return None;
    }
    let wanted = beside(&open.path, path.text(text).trim_matches('"'))?;
    let uri =
        uri_in(open.workspace.documents(), open.analysis.paths.iter().find(|path| ***path == *wanted)?)?;
    Some(Location::new(uri, Range::default()))
}

/// Every place that names what is named at a position, in all files that are open or belong to a
/// garment that is.
pub(super) fn references(
    workspace: &mut Workspace,
    uri: &Uri,
    position: Position,
    with_declaration: bool,
) -> Vec<Location> {
    workspace.recompile_stale();
    let Some(open) = workspace.up_to_date(uri) else { return Vec::new() };
    let offset = open.offset(position);
    let Some((_, found)) = ReferenceIndex::new(open.workspace).references_at(&open.path, offset) else {
        return Vec::new();
    };
    let declared: Vec<Location> = if with_declaration { Vec::new() } else { definition(&open, position) };
    let places = found.places.iter().filter_map(|place| {
        let analysis =
            open.workspace.analyses().values().find(|analysis| analysis.file(&place.path).is_some())?;
        Some(Location::new(uri_in(open.workspace.documents(), &place.path)?, analysis.range(place)?))
    });
    places.filter(|location| !declared.contains(location)).collect()
}
