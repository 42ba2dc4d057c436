use super::document::Document;
use crate::source::Span;
use crate::syntax::Parsed;
use crate::syntax::tree::{self, Outline, PieceItem, PieceItemNode, Statement, StatementNode, Text};
use lsp_types::{Range, SymbolKind};
use serde::Serialize;

/// One line of the outline of a document (LSP 3.17, `DocumentSymbol`).
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Entry {
    /// What it is called.
    pub name: String,
    /// What people read of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub detail: Option<String>,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it.
    pub range: Range,
    /// Its name.
    pub selection_range: Range,
    /// What is in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub children: Vec<Entry>,
}

/// The outline of a document, from its text alone, which was read by itself.
pub(super) fn document_symbols(document: &Document, parsed: &Parsed) -> Vec<Entry> {
    let maker = Maker { document };
    parsed.file.statements.iter().flat_map(|statement| maker.statement(statement, statement.span)).collect()
}

struct Maker<'a> {
    document: &'a Document,
}

impl Maker<'_> {
    fn range(&self, span: Span) -> Range {
        self.document.lines.range(&self.document.text, span.lo as usize, span.hi as usize)
    }

    fn entry(&self, name: &str, name_span: Span, all: Span, kind: SymbolKind) -> Entry {
        // An editor wants a name in every line.
        let name = if name.trim().is_empty() { "…" } else { name };
        Entry {
            name: name.to_owned(),
            detail: None,
            kind,
            range: self.range(all.to(name_span)),
            selection_range: self.range(name_span),
            children: Vec::new(),
        }
    }

    fn named(&self, name: &tree::Name, all: Span, kind: SymbolKind, detail: Option<&Text>) -> Entry {
        let entry = self.entry(&name.text, name.span, all, kind);
        Entry { detail: detail.map(|text| text.text.to_string()), ..entry }
    }

    fn titled(&self, text: &Text, all: Span, kind: SymbolKind, word: &str) -> Entry {
        Entry { detail: Some(word.to_owned()), ..self.entry(&text.text, text.span, all, kind) }
    }

    fn statement(&self, statement: &Statement, all: Span) -> Vec<Entry> {
        let one = match &statement.node {
            StatementNode::Replace(inner) => return self.statement(inner, all),
            StatementNode::Garment(title) => self.titled(title, all, SymbolKind::FILE, "garment"),
            StatementNode::Library(title) => self.titled(title, all, SymbolKind::FILE, "library"),
            StatementNode::Variation(of) => {
                self.titled(&of.title, all, SymbolKind::FILE, &format!("variation of {}", of.base.path.text))
            }
            StatementNode::Fitting(of) => {
                let detail = format!("fitting of {}", of.base.path.text);
                let mut entry = self.titled(&of.wearer, all, SymbolKind::FILE, &detail);
                let rows = of.rows().filter_map(|row| Some((row.name.as_ref()?, row)));
                entry.children = rows
                    .map(|(name, row)| self.named(name, row.span, SymbolKind::VARIABLE, row.label.as_ref()))
                    .collect();
                entry
            }
            StatementNode::Body(body) => {
                let name = Span::new(statement.span.lo, statement.span.lo + 4);
                let mut entry = self.entry("body", name, all, SymbolKind::STRUCT);
                let rows = body.rows.iter();
                entry.children = rows
                    .map(|row| self.named(&row.name, row.span, SymbolKind::VARIABLE, row.label.as_ref()))
                    .collect();
                entry
            }
            StatementNode::Let(one) => self.named(&one.name, all, SymbolKind::VARIABLE, one.label.as_ref()),
            StatementNode::Set(one) => self.named(&one.name, all, SymbolKind::VARIABLE, one.label.as_ref()),
            StatementNode::Measure(one) => self.named(&one.name, all, SymbolKind::VARIABLE, Some(&one.title)),
            StatementNode::Fabric(one) => self.named(&one.name, all, SymbolKind::STRUCT, one.title.as_ref()),
            StatementNode::Layer(one) => self.named(&one.name, all, SymbolKind::MODULE, None),
            StatementNode::Piece(one) => {
                let mut entry = self.named(&one.name, all, SymbolKind::CLASS, one.title.as_ref());
                entry.children = self.items(&one.items);
                entry
            }
            StatementNode::AddToPiece(one) => {
                let mut entry = self.named(&one.piece, all, SymbolKind::CLASS, None);
                entry.children = self.items(&one.items);
                entry
            }
            StatementNode::ChangeBand(one) => {
                let bands = one.names.iter();
                return bands.map(|name| self.named(name, all, SymbolKind::CLASS, None)).collect();
            }
            StatementNode::ChangeSeam(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Seam(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Closure(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Placket(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Band(one) => self.named(&one.name, all, SymbolKind::CLASS, one.title.as_ref()),
            StatementNode::Facing(one) => self.named(&one.name, all, SymbolKind::CLASS, one.title.as_ref()),
            StatementNode::Strap(one) => self.named(&one.name, all, SymbolKind::CLASS, one.title.as_ref()),
            StatementNode::StitchedRow(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Tack(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Setting(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Cord(one) => self.named(&one.name, all, SymbolKind::INTERFACE, None),
            StatementNode::Notion(one) => self.titled(&one.title, all, SymbolKind::OBJECT, "notion"),
            StatementNode::Steps(steps) => {
                let name = Span::new(statement.span.lo, statement.span.lo);
                let mut entry = self.entry("steps", name, all, SymbolKind::EVENT);
                entry.children = steps.groups.iter().map(|group| self.step(group)).collect();
                entry
            }
            StatementNode::AddSteps(one) => self.step(&one.group),
            StatementNode::ReplaceStep(group) => self.step(group),
            StatementNode::Alteration(alteration) => {
                let words = self.first_line(statement.span);
                let mut entry = self.entry(words, statement.span, all, SymbolKind::OPERATOR);
                let made = alteration.into.iter();
                entry.children =
                    made.map(|name| self.named(name, name.span, SymbolKind::CLASS, None)).collect();
                entry
            }
            _ => return Vec::new(),
        };
        vec![one]
    }

    fn first_line(&self, span: Span) -> &str {
        let text = self.document.text.get(span.lo as usize..span.hi as usize).unwrap_or("");
        text.lines().next().unwrap_or("").trim_end()
    }

    fn step(&self, group: &tree::StepGroup) -> Entry {
        self.entry(&group.title.text, group.title.span, group.span, SymbolKind::EVENT)
    }

    fn items(&self, items: &[PieceItem]) -> Vec<Entry> {
        let mut entries = Vec::new();
        for item in items {
            match &item.node {
                PieceItemNode::Point(one) | PieceItemNode::Mark(one) => {
                    entries.push(self.named(&one.name, item.span, SymbolKind::CONSTANT, None));
                }
                PieceItemNode::Line(one) => {
                    entries.push(self.named(&one.name, item.span, SymbolKind::FIELD, None));
                }
                PieceItemNode::TakeUp(one) => {
                    entries.push(self.named(&one.name, item.span, SymbolKind::FIELD, None));
                }
                PieceItemNode::Outline(Outline::Walk { edges, .. }) => {
                    let edges = edges.iter();
                    entries
                        .extend(edges.map(|edge| self.named(&edge.name, edge.span, SymbolKind::FIELD, None)));
                }
                _ => {}
            }
        }
        entries
    }
}
