use super::cursor::Cursor;
use super::document::uri_in;
use super::overlay::beside;
use super::references::ReferenceIndex;
use super::tokens::{TokenKind, tokens};
use super::workspace::{OpenDocument, Workspace};
use lsp_types::{Location, Position, Range, Uri};

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

/// The file that is named at a byte: after `of`, `with`, `without` or `use`.
fn file_at(open: &OpenDocument<'_>, offset: usize) -> Option<Location> {
    let text = &*open.document.text;
    let all = tokens(text);
    let path =
        all.iter().find(|token| token.kind == TokenKind::Text && token.lo <= offset && offset <= token.hi)?;
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
