//! What is said in one line, and the statements that it stands for: plackets, bands and facings.
//!
//! Such a line is a statement of its own up to the merge, so that variations, `tidy` and `pack` keep it as it is said.
//! Here it is written out, from what is written of pieces and seams alone. The words of what is written out lie
//! where the maker's do, so that messages speak of them.

mod added;
mod bands;
mod cloth;
mod expand;
mod facings;
mod known;
mod plackets;
mod writing;

pub use expand::expand;

use super::merge::{Declaration, Merged};
use crate::report::{Diagnostic, catalogue};
use crate::source::{SourceMap, Span};
use crate::syntax::tree::{Name, Statement, StatementNode, Steps};
use known::Known;
use std::sync::Arc;
use writing::Writing;

/// What one line stands for.
#[derive(Default)]
struct Written {
    /// The statements, in order; none where it could not be told, which is reported.
    parts: Vec<StatementNode>,
    /// Pieces, and the layers that they are cut in.
    layers: Vec<(Arc<str>, Name)>,
    mistakes: Vec<Diagnostic>,
}

/// The declarations with all that is said in one line written out.
pub(super) struct WrittenOut {
    pub(super) merged: Merged,
    pub(super) mistakes: Vec<Diagnostic>,
}

/// Whether it is said in one line and stands for several statements.
fn is_short(node: &StatementNode) -> bool {
    matches!(node, StatementNode::Placket(_) | StatementNode::Band(_) | StatementNode::Facing(_))
}

fn write(declarations: &[Declaration], statement: &Statement) -> Option<Written> {
    let writing = |name| Writing { known: Known { declarations }, span: statement.span, name };
    match &statement.node {
        StatementNode::Placket(placket) => plackets::written(writing(&placket.name), placket),
        StatementNode::Band(band) => Some(bands::written(writing(&band.name), band)),
        StatementNode::Facing(facing) => Some(facings::written(writing(&facing.name), facing)),
        _ => None,
    }
}

/// Every name that such a line may give.
fn names(node: &StatementNode) -> Vec<Arc<str>> {
    match node {
        StatementNode::Placket(placket) => {
            let of = |after: &str| Arc::from(format!("{}{after}", placket.name.text));
            ["", "_under", "_over", "_end"].into_iter().map(of).collect()
        }
        StatementNode::Band(band) => band.seams(),
        StatementNode::Facing(facing) => {
            facing.strips().into_iter().chain(facing.row()).chain([facing.name.text.clone()]).collect()
        }
        _ => Vec::new(),
    }
}

/// The declarations with all that is said in one line written out; none where nothing is.
pub(super) fn written_out(map: &SourceMap, merged: &Merged) -> Option<WrittenOut> {
    let any = |one: &Declaration| {
        is_short(&one.statement.node) || matches!(one.statement.node, StatementNode::AddToPiece(_))
    };
    if !merged.declarations.iter().any(any) {
        return None;
    }
    let mut made: Vec<Declaration> = Vec::new();
    let mut strips: Vec<(Arc<str>, Name)> = Vec::new();
    let mut lost_words = merged.lost_words.clone();
    let mut mistakes = Vec::new();
    // Seams that a line does not stand for, though it might.
    let mut without: Vec<(Arc<str>, Span)> = Vec::new();
    for declaration in &merged.declarations {
        let statement = &declaration.statement;
        if matches!(statement.node, StatementNode::AddToPiece(_)) {
            continue;
        }
        if !is_short(&statement.node) {
            made.push(declaration.clone());
            continue;
        }
        let mut written = write(&merged.declarations, statement).unwrap_or_default();
        if let StatementNode::Band(band) = &statement.node {
            // Its closure may well stand in the line that could not be read, or in the file that could not be had.
            let named = band.opening.as_ref().and_then(|opening| opening.parts.last());
            let is_lost = |name: &Name| merged.incomplete || merged.lost_words.contains(&name.text);
            if named.is_some_and(is_lost) {
                written.mistakes.retain(|one| !one.is(&catalogue::NAME_UNKNOWN));
            }
            // Its share may be what stands out of place behind it.
            let has_no_share = written.mistakes.iter().any(|one| one.is(&catalogue::BAND_SHARE));
            if has_no_share && is_cut_short(map, merged, statement.span) {
                written.mistakes.retain(|one| !one.is(&catalogue::BAND_SHARE));
            }
        }
        mistakes.extend(std::mem::take(&mut written.mistakes));
        mistakes.extend(added::put(&mut written.parts, &merged.declarations));
        if written.parts.is_empty() {
            // Why is told; what it would be made of is not missed.
            lost_words.extend(names(&statement.node));
            // That something is sewn there is known all the same.
            if !matches!(statement.node, StatementNode::Placket(_)) {
                made.push(declaration.clone());
            }
            continue;
        }
        if let StatementNode::Band(band) = &statement.node {
            let has = |name: &Arc<str>| {
                written
                    .parts
                    .iter()
                    .any(|part| matches!(part, StatementNode::Seam(seam) if seam.name.text == *name))
            };
            let missing = band.seams().into_iter().filter(|name| !has(name));
            without.extend(missing.map(|name| (name, band.name.span)));
        }
        strips.extend(written.layers);
        for part in written.parts {
            let statement = Arc::new(Statement { span: statement.span, node: part });
            made.push(Declaration { statement, ..declaration.clone() });
        }
    }
    mistakes.extend(added::to_nothing(&made, merged, &lost_words));
    for declaration in &mut made {
        match &declaration.statement.node {
            StatementNode::Layer(layer) => {
                let mut layer = layer.clone();
                for (of, strip) in &strips {
                    if *of == layer.name.text && !layer.pieces.iter().any(|own| own.text == strip.text) {
                        layer.pieces.push(strip.clone());
                    }
                }
                let span = declaration.statement.span;
                declaration.statement = Arc::new(Statement { span, node: StatementNode::Layer(layer) });
            }
            StatementNode::Steps(steps) => {
                if let Some(steps) = steps_without(map, steps, &without, merged) {
                    let span = declaration.statement.span;
                    declaration.statement = Arc::new(Statement { span, node: StatementNode::Steps(steps) });
                }
            }
            _ => {}
        }
    }
    Some(WrittenOut { merged: Merged { declarations: made, lost_words, ..merged.clone() }, mistakes })
}

/// Whether something that could not be read stands behind a statement on its line, which is told.
fn is_cut_short(map: &SourceMap, merged: &Merged, statement: Span) -> bool {
    let mut behind =
        merged.mistakes.iter().filter(|one| one.is(&catalogue::SYNTAX_TRAILING)).map(|one| one.span());
    behind.any(|at| {
        let is_after = at.lo >= statement.hi && map.file_of(at) == map.file_of(statement);
        is_after && !map.text(Span::new(statement.hi, at.lo)).contains(['\n', '\r', ';', '{', '}'])
    })
}

/// The steps without what a band of a later file has no seam for any more: the ends of one that goes along now.
fn steps_without(
    map: &SourceMap,
    steps: &Steps,
    without: &[(Arc<str>, Span)],
    merged: &Merged,
) -> Option<Steps> {
    let stands = |name: &str| {
        merged.declarations.iter().any(|one| match &one.statement.node {
            StatementNode::Seam(seam) => *seam.name.text == *name,
            StatementNode::Closure(closure) => *closure.name.text == *name,
            _ => false,
        })
    };
    let replaced = |span: &Span| {
        let own = merged
            .declarations
            .iter()
            .find(|one| one.statement.span.lo <= span.lo && span.hi <= one.statement.span.hi);
        own.and_then(|own| own.replaced)
    };
    let order = |span: Span| {
        let file = map.file_of(span);
        merged.lineage.iter().position(|(id, _)| *id == file)
    };
    let gone: Vec<(&Arc<str>, Span)> = without
        .iter()
        .filter(|(name, span)| replaced(span).is_some() && !stands(name))
        .map(|(name, span)| (name, *span))
        .collect();
    if gone.is_empty() {
        return None;
    }
    let mut rest = steps.clone();
    let mut lost = false;
    for group in &mut rest.groups {
        group.actions.retain_mut(|action| {
            let before = action.targets.len();
            action.targets.retain(|target| {
                let [name] = target.parts.as_slice() else { return true };
                // What the same file says of it, or a later one, is a mistake, and told where steps are read.
                let by =
                    gone.iter().find(|(gone, span)| **gone == name.text && order(name.span) < order(*span));
                by.is_none()
            });
            lost |= action.targets.len() < before;
            !action.targets.is_empty() || before == 0
        });
    }
    rest.groups.retain(|group| !group.actions.is_empty());
    lost.then_some(rest)
}
