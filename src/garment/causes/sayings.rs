//! A merged garment as a list of what it says, each with the name by which two are compared.

use super::Told;
use crate::garment::FileKind;
use crate::garment::merge::{Declaration, keys_of, kind_word};
use crate::source::Span;
use crate::syntax::tidy::{AsWritten, Said, altered_words, fused_words, said};
use crate::syntax::tree::{Altered, Name, SizeName, Statement, StatementNode};

/// One thing that is said.
#[derive(Clone, Debug)]
pub(super) struct Saying {
    /// The trade's word for its kind.
    pub kind: &'static str,
    /// What it is known by among its kind.
    pub name: String,
    /// What it is called to a maker: `ease`, `fabric shell`.
    pub what: String,
    /// What it says.
    pub said: Said,
}

/// All that a garment says, in its order. Cloth on a library's shelf that no layer is cut from is not of it.
pub(super) fn sayings(told: Told<'_>) -> Vec<Saying> {
    let spelling = AsWritten { map: told.map };
    let mut all = Vec::new();
    let merged = told.merged;
    if let Some((first, unit)) = merged.first.and_then(|first| Some((first, merged.units.get(&first)?))) {
        let span = merged.units_said.get(&first).copied().unwrap_or(merged.heading);
        let words = format!("units {}", unit.word());
        all.push(Saying {
            kind: "units",
            name: String::new(),
            what: "units".to_owned(),
            said: leaf(span, words),
        });
    }
    if let Some(fitting) = &merged.fitting {
        let node = StatementNode::Fitting(fitting.clone());
        let whole = said(&Statement { span: fitting.wearer.span, node }, &spelling);
        for row in whole.inside.into_iter().flat_map(|body| body.inside) {
            all.push(measured("wearer's measure", row));
        }
    }
    let first = merged.first.filter(|_| merged.lineage.len() == 1);
    let by_itself = merged.lineage.last().is_some_and(|(_, kind)| *kind == FileKind::Library);
    // What a library says of itself is no part of a garment, and all that there is of one that is looked at by itself.
    if let Some(first) = first.filter(|_| by_itself) {
        for statement in crate::syntax::parse(told.map, first).file.statements {
            if matches!(statement.node, StatementNode::About(_) | StatementNode::Credit(_)) {
                let declaration =
                    Declaration { statement, replaced: None, from_library: false, set_over: None };
                of(&declaration, &spelling, &mut all);
            }
        }
    }
    for declaration in &merged.declarations {
        if by_itself || !is_on_the_shelf(declaration, &merged.declarations) {
            of(declaration, &spelling, &mut all);
        }
    }
    all
}

fn is_on_the_shelf(declaration: &Declaration, all: &[Declaration]) -> bool {
    let StatementNode::Fabric(fabric) = &declaration.statement.node else { return false };
    let is_cut = |one: &Declaration| match &one.statement.node {
        StatementNode::Layer(layer) => layer.fabric.text == fabric.name.text,
        _ => false,
    };
    declaration.from_library && !all.iter().any(is_cut)
}

fn of(declaration: &Declaration, spelling: &AsWritten<'_>, all: &mut Vec<Saying>) {
    let statement = &*declaration.statement;
    let mut whole = said(statement, spelling);
    let kind = kind_word(&statement.node);
    let name = keys_of(&statement.node, statement.span)
        .first()
        .map(|(key, _)| key.words().to_owned())
        .unwrap_or_default();
    let named = |words: &str| if name.is_empty() { words.to_owned() } else { format!("{words} {name}") };
    let mut what = named(kind);
    match &statement.node {
        StatementNode::Body(_) => {
            return all.extend(whole.inside.into_iter().map(|row| measured("body measure", row)));
        }
        // A `set` says the same as the `let` that it changes.
        StatementNode::Let(_) => {
            for words in [&mut whole.words, &mut whole.means] {
                if let Some(rest) = words.strip_prefix("let ").or(words.strip_prefix("set ")) {
                    *words = rest.to_owned();
                }
            }
            what.clone_from(&name);
        }
        StatementNode::Sizes(sizes) => {
            what = kind.to_owned();
            let size = |size: &SizeName| leaf(size.span, format!("size {}", size.text));
            whole.inside = sizes.names.iter().map(size).collect();
            (whole.words, whole.means) = ("sizes".to_owned(), "sizes".to_owned());
        }
        StatementNode::Layer(layer) => {
            let piece = |piece: &Name| leaf(piece.span, piece.text.to_string());
            whole.inside = layer.pieces.iter().map(piece).collect();
            let fused = fused_words(layer);
            let fused = if fused.is_empty() { fused } else { format!(" {fused}") };
            whole.words = format!("layer {} in {}{fused}", layer.name.text, layer.fabric.text);
            whole.means.clone_from(&whole.words);
        }
        StatementNode::Alteration(alteration) => {
            let named = altered_words(&Altered::of(alteration, statement.span));
            let (what, kind) = (named.clone(), "alteration");
            return all.push(Saying { kind, name: named, what, said: whole });
        }
        StatementNode::Finish(finish) => {
            let edges = finish.edges.iter().map(|edge| crate::syntax::tidy::sewn(edge, spelling));
            let edges = edges.collect::<Vec<_>>().join(", ");
            let what = format!("finish {edges}");
            return all.push(Saying { kind, name: edges, what, said: whole });
        }
        StatementNode::Require(_) | StatementNode::Notion(_) => what = format!("{kind} \"{name}\""),
        StatementNode::Place(_) | StatementNode::About(_) | StatementNode::Credit(_) => {
            what =
                kind.to_owned() + if name == kind { "" } else { " " } + if name == kind { "" } else { &name };
        }
        StatementNode::Allowance(_)
        | StatementNode::Tolerance(_)
        | StatementNode::Stitch(_)
        | StatementNode::Wearer(_)
        | StatementNode::Pick(_)
        | StatementNode::Steps(_) => what = kind.to_owned(),
        _ => {}
    }
    all.push(Saying { kind, name, what, said: whole });
}

/// A row of the body's, or of the wearer's, measures.
fn measured(kind: &'static str, row: Said) -> Saying {
    let name = row.words.split(' ').next().unwrap_or_default().to_owned();
    let what = format!("{kind} {name}");
    Saying { kind, name, what, said: row }
}

fn leaf(span: Span, words: String) -> Said {
    Said { span, means: words.clone(), words, note: None, inside: Vec::new() }
}
