//! A file with everything that it says in one line written out.

use super::{added, is_short, write};
use crate::garment::merge::Merged;
use crate::source::{SourceMap, Span};
use crate::syntax;
use crate::syntax::tidy::{AsWritten, Plain, Spelling, print, quoted};
use crate::syntax::tree::{Layer, Price, Quantity, Seam, SizeName, Statement, StatementNode, Text};
use std::sync::Arc;

/// The first file with every statement that is said in one line written out in its place; all else stays as it is,
/// notes too. It works out to the same. Of a variation nothing is written out: pack it before.
///
/// A strap has no longer form, and stays. What cannot be written out, which is reported as a mistake, stays too.
pub fn expand(map: &SourceMap, merged: &Merged) -> String {
    let Some(first) = merged.first else { return String::new() };
    let source = map.file(first);
    let tree = syntax::parse(map, first).file;
    let mut changes: Vec<(Span, String)> = Vec::new();
    let mut added: Vec<(Arc<str>, Arc<str>)> = Vec::new();
    for statement in &tree.statements {
        let parts = match &statement.node {
            StatementNode::Seam(seam) if seam.along.is_some() => {
                vec![StatementNode::Seam(Seam { along: None, ..seam.clone() })]
            }
            StatementNode::Piece(piece) if piece.like.is_some() => {
                let written = merged.declarations.iter().find_map(|one| match &one.statement.node {
                    StatementNode::Piece(own) if own.name.text == piece.name.text => Some(own),
                    _ => None,
                });
                match written {
                    Some(written) => vec![StatementNode::Piece(written.clone())],
                    None => continue,
                }
            }
            node if is_short(node) => match write(&merged.declarations, statement) {
                Some(mut written) if !written.parts.is_empty() => {
                    added::put(&mut written.parts, &merged.declarations);
                    let layers = written.layers.into_iter().map(|(layer, piece)| (layer, piece.text));
                    added.extend(layers);
                    written.parts
                }
                _ => continue,
            },
            StatementNode::AddToPiece(add)
                if added::is_of_one_line(&merged.declarations, &add.piece.text) =>
            {
                Vec::new()
            }
            _ => continue,
        };
        let statements: Vec<Statement> =
            parts.into_iter().map(|node| Statement { span: statement.span, node }).collect();
        let spelling = WrittenOut { written: AsWritten { map }, whole: statement.span };
        changes.push((statement.span, print(&statements, &spelling).trim_end().to_owned()));
    }
    for statement in &tree.statements {
        if let StatementNode::Layer(layer) = &statement.node {
            changes.extend(listed(map, statement.span, layer, &added));
        }
    }
    changes.sort_by_key(|(span, _)| span.lo);
    let mut text = String::with_capacity(source.text.len());
    let mut at = 0;
    for (span, words) in changes {
        let (lo, hi) = ((span.lo - source.base) as usize, (span.hi - source.base) as usize);
        text.push_str(source.text.get(at..lo).unwrap_or_default());
        text.push_str(&words);
        at = hi.max(at);
    }
    text.push_str(source.text.get(at..).unwrap_or_default());
    text
}

/// What a layer gets, before its closing brace.
fn listed(
    map: &SourceMap,
    whole: Span,
    layer: &Layer,
    added: &[(Arc<str>, Arc<str>)],
) -> Option<(Span, String)> {
    let mut names: Vec<&str> = Vec::new();
    for (of, piece) in added {
        let is_there = layer.pieces.iter().any(|own| own.text == *piece) || names.contains(&&**piece);
        if *of == layer.name.text && !is_there {
            names.push(piece);
        }
    }
    if names.is_empty() {
        return None;
    }
    let names = names.join(", ");
    match layer.pieces.last() {
        Some(last) => Some((Span::new(last.span.hi, last.span.hi), format!(", {names}"))),
        None => {
            let brace = map.text(whole).rfind('}')?;
            let at = whole.lo + brace as u32;
            Some((Span::new(at, at), format!(" {names} ")))
        }
    }
}

/// The maker's words as they are written, and the others in decimals.
struct WrittenOut<'a> {
    written: AsWritten<'a>,
    /// Where the words lie that the maker did not write.
    whole: Span,
}

impl Spelling for WrittenOut<'_> {
    fn quantity(&self, quantity: &Quantity) -> String {
        match quantity.span == self.whole {
            true => Plain.quantity(quantity),
            false => self.written.quantity(quantity),
        }
    }

    fn text(&self, text: &Text) -> String {
        quoted(&text.text)
    }

    fn price(&self, price: &Price) -> String {
        self.written.price(price)
    }

    fn size(&self, size: &SizeName) -> String {
        self.written.size(size)
    }
}
