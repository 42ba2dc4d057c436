use super::tokens::{TokenKind, tokens};
use super::workspace::OpenDocument;
use crate::garment::Symbol;
use crate::syntax::{KEYWORDS, Mark, MarkKind};
use lsp_types::{SemanticToken, SemanticTokenType};

/// What words are shown as, in the order of their numbers (LSP 3.17, "Semantic Tokens").
pub(super) fn legend() -> Vec<SemanticTokenType> {
    vec![
        SemanticTokenType::KEYWORD,
        SemanticTokenType::VARIABLE,
        SemanticTokenType::CLASS,
        SemanticTokenType::PROPERTY,
        SemanticTokenType::PARAMETER,
        SemanticTokenType::NAMESPACE,
        SemanticTokenType::STRUCT,
        SemanticTokenType::INTERFACE,
        SemanticTokenType::ENUM_MEMBER,
        SemanticTokenType::FUNCTION,
        SemanticTokenType::NUMBER,
        SemanticTokenType::STRING,
        SemanticTokenType::OPERATOR,
        SemanticTokenType::COMMENT,
    ]
}

const KEYWORD: u32 = 0;
const VARIABLE: u32 = 1;
const ENUM_MEMBER: u32 = 8;
const FUNCTION: u32 = 9;
const NUMBER: u32 = 10;
const STRING: u32 = 11;
const OPERATOR: u32 = 12;
const COMMENT: u32 = 13;

fn of_symbol(symbol: Symbol) -> u32 {
    match symbol {
        Symbol::Value(_) => VARIABLE,
        Symbol::Piece(_) => 2,
        Symbol::Edge(_) => 3,
        Symbol::Point(_) => 4,
        Symbol::Layer(_) => 5,
        Symbol::Fabric(_) => 6,
        Symbol::Seam(_) | Symbol::Closure(_) | Symbol::Row(_) | Symbol::Tack(_) => 7,
    }
}

/// The semantic tokens of a document, of which these words could be read: each word by its meaning, on damaged lines by its looks.
pub(super) fn semantic_tokens(open: &OpenDocument<'_>, read: &[Mark]) -> Vec<SemanticToken> {
    let text = &*open.document.text;
    let mut found: Vec<(usize, usize, u32)> = Vec::new();
    let symbols = symbols(open);
    for mark in read {
        let kind = match mark.kind {
            MarkKind::Keyword => Some(KEYWORD),
            MarkKind::Name => match symbols.binary_search_by_key(&mark.lo, |&(lo, _)| lo) {
                Ok(at) => symbols.get(at).map(|&(_, symbol)| of_symbol(symbol)),
                Err(_) => Some(VARIABLE),
            },
            MarkKind::Fixed => Some(ENUM_MEMBER),
            MarkKind::Function => Some(FUNCTION),
            MarkKind::Number | MarkKind::Unit => Some(NUMBER),
            MarkKind::Text => Some(STRING),
            MarkKind::Operator => Some(OPERATOR),
            MarkKind::Note => Some(COMMENT),
        };
        found.extend(kind.map(|kind| (mark.lo, mark.hi, kind)));
    }
    for token in tokens(text) {
        let next = read.partition_point(|mark| mark.hi <= token.lo);
        if read.get(next).is_some_and(|mark| mark.lo < token.hi) {
            continue;
        }
        let kind = match token.kind {
            TokenKind::Word if KEYWORDS.contains(&token.text(text)) => KEYWORD,
            TokenKind::Word => VARIABLE,
            TokenKind::Number => NUMBER,
            TokenKind::Text => STRING,
            TokenKind::Note => COMMENT,
            TokenKind::LineEnd | TokenKind::Sign(_) => continue,
        };
        found.push((token.lo, token.hi, kind));
    }
    found.sort_unstable();
    encoded(open, &found)
}

/// Where names of the document begin and what they mean, in order.
fn symbols(open: &OpenDocument<'_>) -> Vec<(usize, Symbol)> {
    let analysis = open.analysis;
    let Some(id) = analysis.file(&open.path) else { return Vec::new() };
    let file = analysis.compiled.map.file(id).span();
    let uses = &analysis.compiled.garment.name_uses;
    let here = uses.iter().filter(|one| file.lo <= one.span.lo && one.span.hi <= file.hi);
    let mut symbols: Vec<(usize, Symbol)> =
        here.map(|one| ((one.span.lo - file.lo) as usize, one.symbol)).collect();
    symbols.dedup_by_key(|one| one.0);
    symbols
}

/// Each word by how far it is from the one before, in UTF-16 units.
fn encoded(open: &OpenDocument<'_>, found: &[(usize, usize, u32)]) -> Vec<SemanticToken> {
    let (text, lines) = (&*open.document.text, &open.document.lines);
    let mut tokens = Vec::with_capacity(found.len());
    let (mut line, mut start) = (0, 0);
    for &(lo, hi, token_type) in found {
        let at = lines.position(text, lo);
        let length = text.get(lo..hi).unwrap_or("").encode_utf16().count() as u32;
        let delta_line = at.line - line;
        let delta_start = if delta_line == 0 { at.character - start } else { at.character };
        tokens.push(SemanticToken { delta_line, delta_start, length, token_type, token_modifiers_bitset: 0 });
        (line, start) = (at.line, at.character);
    }
    tokens
}
