use super::completion_context::{CompletionContext, completion_context};
use super::cursor::Cursor;
use super::tokens::{TokenKind, is_letter};
use super::word_texts::word_text;
use super::workspace::OpenDocument;
use crate::garment::{Garment, LayerId, Piece, PieceId, ValueKind};
use crate::once_each::once_each;
use crate::syntax::tidy::quoted;
use crate::syntax::{FUNCTIONS, fitting};
use indexmap::IndexMap;
use lsp_types::{CompletionItem, CompletionItemKind, CompletionTextEdit, Position, TextEdit};

/// What may be written at a position: names by what fits there, then words of the language.
pub(super) fn completion(open: &OpenDocument<'_>, position: Position) -> Vec<CompletionItem> {
    let text = &*open.document.text;
    let offset = open.offset(position);
    let cursor = Cursor::at(text, offset);
    let mut found = Found::default();
    let garment = &open.analysis.compiled.garment;
    match cursor.inside {
        Some(TokenKind::Text) => titles(garment, &cursor, text, &mut found),
        Some(_) => {}
        None => {
            let fitting = fitting(cursor.context, cursor.written(text));
            let expected = completion_context(&cursor, text, fitting.as_ref());
            let after_word = cursor.before.last().is_some_and(|last| last.kind == TokenKind::Word);
            if after_word && names_a_step(&cursor.words(text)) {
                for step in &garment.steps {
                    found.add(&quoted(&step.title), CompletionItemKind::TEXT, Some("step"));
                }
            }
            if cursor.heads.is_empty() {
                names(garment, &expected, &mut found);
                let words = fitting.map(|fitting| fitting.words).unwrap_or_default();
                for word in words.iter().filter(|word| word.starts_with(is_letter)) {
                    found.add(word, CompletionItemKind::KEYWORD, word_text(word));
                }
            } else {
                after_dot(garment, &cursor.heads, &expected, &mut found);
            }
        }
    }
    let (lo, hi) = match cursor.inside {
        Some(_) => (offset, offset),
        None => cursor.word,
    };
    let range = open.document.lines.range(text, lo, hi.max(offset));
    found.items(range, cursor.inside.is_none())
}

#[derive(Default)]
struct Found {
    items: IndexMap<String, (CompletionItemKind, Option<String>)>,
}

impl Found {
    fn add(&mut self, name: &str, kind: CompletionItemKind, detail: Option<&str>) {
        self.items.entry(name.to_owned()).or_insert_with(|| (kind, detail.map(str::to_owned)));
    }

    fn items(self, range: lsp_types::Range, edit: bool) -> Vec<CompletionItem> {
        let all = self.items.into_iter().enumerate();
        all.map(|(at, (label, (kind, detail)))| CompletionItem {
            // In this order: what is meant more likely stands first.
            sort_text: Some(format!("{at:05}")),
            text_edit: edit.then(|| CompletionTextEdit::Edit(TextEdit { range, new_text: label.clone() })),
            label,
            kind: Some(kind),
            detail,
            ..CompletionItem::default()
        })
        .collect()
    }
}

/// Whether a step's title comes next.
fn names_a_step(words: &[&str]) -> bool {
    matches!(words, ["in", "steps", "after" | "before"] | ["drop" | "replace", "step"])
}

/// Titles that a text may repeat: of the base's steps.
fn titles(garment: &Garment, cursor: &Cursor, text: &str, found: &mut Found) {
    let of_steps = names_a_step(&cursor.words(text));
    for step in garment.steps.iter().filter(|_| of_steps) {
        found.add(&step.title, CompletionItemKind::TEXT, None);
    }
}

fn names(garment: &Garment, expected: &CompletionContext, found: &mut Found) {
    let pieces = |names: &[String]| {
        let ids = (0..garment.pieces.len()).map(PieceId::from_index);
        let named = ids.filter(|&id| names.iter().any(|name| **name == *garment.piece(id).name));
        named.collect::<Vec<PieceId>>()
    };
    for piece in pieces(&expected.edges_of) {
        edges(garment, piece, false, found);
    }
    for piece in pieces(&expected.lines_of) {
        edges(garment, piece, true, found);
    }
    for piece in pieces(&expected.points_of) {
        points(garment, piece, found);
    }
    for piece in pieces(&expected.take_ups_of) {
        take_ups(garment, piece, found);
    }
    let has_darts = |piece: &&Piece| piece.edges.iter().any(|&edge| garment.edge(edge).take_up);
    for piece in garment.pieces.iter().filter(has_darts).filter(|_| expected.take_ups) {
        found.add(&piece.name, CompletionItemKind::CLASS, Some(&piece.title));
    }
    if expected.pieces {
        for piece in &garment.pieces {
            found.add(&piece.name, CompletionItemKind::CLASS, Some(&piece.title));
        }
    }
    if expected.layers {
        for layer in &garment.layers {
            found.add(&layer.name, CompletionItemKind::MODULE, Some("layer"));
        }
    }
    if expected.seams {
        for seam in &garment.seams {
            found.add(&seam.name, CompletionItemKind::INTERFACE, Some("seam"));
        }
    }
    if expected.closures {
        for closure in &garment.closures {
            found.add(&closure.name, CompletionItemKind::INTERFACE, Some("closure"));
        }
    }
    if expected.stitched {
        for row in &garment.rows {
            found.add(&row.name, CompletionItemKind::INTERFACE, Some(row.kind.gerund()));
        }
        for tack in &garment.tacks {
            found.add(&tack.name, CompletionItemKind::INTERFACE, Some(tack.word()));
        }
    }
    if expected.fabrics {
        for fabric in &garment.fabrics {
            found.add(&fabric.name, CompletionItemKind::STRUCT, Some(&fabric.title));
        }
    }
    for value in &garment.values {
        let body = matches!(value.kind, ValueKind::Body(_));
        let is_let = matches!(value.kind, ValueKind::Let(_) | ValueKind::Solved { .. });
        if expected.values || expected.body && body || expected.lets && is_let {
            let plain = if body { "body measure" } else { "value" };
            found.add(
                &value.name,
                CompletionItemKind::VARIABLE,
                Some(value.label.as_deref().unwrap_or(plain)),
            );
        }
    }
    let sizes = garment.fitting.as_ref().map_or(&garment.sizes, |fitting| &fitting.sizes);
    for size in sizes.iter().filter(|_| expected.sizes) {
        found.add(&size.name, CompletionItemKind::ENUM_MEMBER, Some("size"));
    }
    for function in FUNCTIONS.iter().filter(|_| expected.functions) {
        found.add(function, CompletionItemKind::FUNCTION, word_text(function));
    }
}

fn edges(garment: &Garment, piece: PieceId, lines_only: bool, found: &mut Found) {
    for &edge in &garment.piece(piece).edges {
        let edge = garment.edge(edge);
        if !edge.take_up && (edge.line || !lines_only) {
            let kind = if edge.line { "line" } else { "edge" };
            let of = format!("{kind} of {}", garment.piece(piece).name);
            found.add(&edge.name, CompletionItemKind::FIELD, Some(&of));
        }
    }
}

fn take_ups(garment: &Garment, piece: PieceId, found: &mut Found) {
    let edges = &garment.piece(piece).edges;
    // A slit is cut, not sewn: its sides are edges.
    let is_slit = |slit| edges.iter().any(|&edge| garment.edge(edge).side_of == Some(slit));
    for &name in edges.iter().filter(|&&edge| garment.edge(edge).take_up && !is_slit(edge)) {
        let word = garment.take_up(name).map_or("dart", |take_up| take_up.word());
        let of = format!("{word} of {}", garment.piece(piece).name);
        found.add(&garment.edge(name).name, CompletionItemKind::FIELD, Some(&of));
    }
}

fn slits(garment: &Garment, piece: PieceId, found: &mut Found) {
    let edges = &garment.piece(piece).edges;
    let mut slits: Vec<_> = edges.iter().filter_map(|&edge| garment.edge(edge).side_of).collect();
    once_each(&mut slits);
    for slit in slits {
        let of = format!("slit of {}", garment.piece(piece).name);
        found.add(&garment.edge(slit).name, CompletionItemKind::FIELD, Some(&of));
    }
}

fn points(garment: &Garment, piece: PieceId, found: &mut Found) {
    for &point in &garment.piece(piece).points {
        let point = garment.point(point);
        let kind = if point.mark { "mark" } else { "point" };
        let of = format!("{kind} of {}", garment.piece(piece).name);
        found.add(&point.name, CompletionItemKind::CONSTANT, Some(&of));
    }
}

/// Behind a layer its parts, behind a piece its edges, or its points where those are meant.
fn after_dot(garment: &Garment, heads: &[String], expected: &CompletionContext, found: &mut Found) {
    let last = heads.last().map_or("", String::as_str);
    let layer = (0..garment.layers.len()).map(LayerId::from_index);
    let layer = layer.into_iter().find(|&id| *garment.layer(id).name == *last);
    if let Some(layer) = layer.filter(|_| heads.len() == 1) {
        for &piece in &garment.layer(layer).pieces {
            let piece = garment.piece(piece);
            found.add(&piece.name, CompletionItemKind::CLASS, Some(&piece.title));
        }
        return;
    }
    let mut pieces = (0..garment.pieces.len()).map(PieceId::from_index);
    let Some(piece) = pieces.find(|&id| *garment.piece(id).name == *last) else { return };
    if expected.places_after_dot {
        points(garment, piece, found);
        return edges(garment, piece, false, found);
    }
    if expected.slits {
        return slits(garment, piece, found);
    }
    match (expected.points_after_dot, expected.take_ups) {
        (true, _) => points(garment, piece, found),
        (_, true) => take_ups(garment, piece, found),
        _ => edges(garment, piece, false, found),
    }
}
