//! What becomes of a seam when a piece or a layer is dropped with all that is sewn to it.

use super::along::{Fate, Gone};
use crate::source::Span;
use crate::syntax::tree::{
    Chain, Dotted, EdgePlace, GapAt, Seam, SeamItem, SeamItemNode, SewnWords, Side, StatementNode,
};
use std::sync::Arc;

/// A seam that something else still holds together loses the plies that are of what is dropped, and what it says of them;
/// else it goes, and so does one that the file sews anew under its name. `means` tells whether words are of what is dropped, whose names those are.
pub(super) fn seam_fate(
    (seam, is_sewn_anew): (&Seam, bool),
    names: &[Arc<str>],
    means: &dyn Fn(&Dotted) -> bool,
    gone: &mut Vec<Gone>,
) -> Fate {
    let mut lost: Vec<Span> = Vec::new();
    let (first, second) =
        (side_without(&seam.first, means, &mut lost), side_without(&seam.second, means, &mut lost));
    let is_held = !first.plies.is_empty() && (seam.across_fold || !second.plies.is_empty());
    if !lost.is_empty() && (!is_held || is_sewn_anew || seam.along.is_some()) {
        gone.push(Gone { words: format!("the seam {}", seam.name.text), span: seam.name.span });
        return Fate::Goes;
    }
    let is_caught = |item: &SeamItem| catches(&item.node, means);
    let (left, items): (Vec<SeamItem>, Vec<SeamItem>) =
        seam.items.iter().cloned().partition(|item| is_caught(item) || speaks(&item.node, names, means));
    let caught: Vec<Span> = left.iter().filter(|item| is_caught(item)).map(|item| item.span).collect();
    if lost.is_empty() && caught.is_empty() {
        return Fate::Stays;
    }
    let plies = lost.into_iter().map(|span| (format!("what the seam {} has of it", seam.name.text), span));
    let caught =
        caught.into_iter().map(|span| (format!("what the seam {} catches of it", seam.name.text), span));
    for (words, span) in plies.chain(caught) {
        // Of several plies of one seam the words are said once.
        match gone.iter_mut().find(|one| one.words == words) {
            Some(_) => gone.push(Gone { words: String::new(), span }),
            None => gone.push(Gone { words, span }),
        }
    }
    Fate::loses(StatementNode::Seam(Seam { first, second, items, ..seam.clone() }))
}

/// The side without the plies that are dropped, whose places are kept.
fn side_without(side: &Side, means: &dyn Fn(&Dotted) -> bool, lost: &mut Vec<Span>) -> Side {
    let mut plies = Vec::with_capacity(side.plies.len());
    for chain in &side.plies {
        let edges: Option<Vec<SewnWords>> =
            chain.edges.iter().map(|sewn| edge_without(sewn, means, lost)).collect();
        match edges {
            Some(edges) => plies.push(Chain { edges, ..chain.clone() }),
            None => lost.push(chain.span),
        }
    }
    Side { plies, span: side.span }
}

/// The edge without what lies on it in brackets and is dropped; none where nothing is left.
fn edge_without(
    sewn: &SewnWords,
    means: &dyn Fn(&Dotted) -> bool,
    lost: &mut Vec<Span>,
) -> Option<SewnWords> {
    let mut rest = sewn.clone();
    rest.over.retain(|over| {
        let goes = means(&over.edge);
        lost.extend(goes.then_some(over.span));
        !goes
    });
    if !means(&sewn.edge) {
        return Some(rest);
    }
    // What lies on it takes its place.
    let mut over = rest.over.into_iter();
    let next = over.next()?;
    lost.push(sewn.edge.span);
    Some(SewnWords { over: over.collect(), ..next })
}

/// Whether a line of a seam catches an edge of what is meant, or on one.
fn catches(item: &SeamItemNode, means: &dyn Fn(&Dotted) -> bool) -> bool {
    matches!(item, SeamItemNode::Caught { ply, on, .. } if means(ply) || means(on))
}

/// Whether a line of a seam says something of what is dropped.
fn speaks(item: &SeamItemNode, names: &[Arc<str>], means: &dyn Fn(&Dotted) -> bool) -> bool {
    match item {
        SeamItemNode::Matching(one, other) => means(one) || means(other),
        SeamItemNode::Gap { at, layer, .. } => {
            let counted = |at: &GapAt| [&at.counted, &at.along].into_iter().flatten().any(means);
            layer.as_ref().is_some_and(|layer| names.contains(&layer.text))
                || at.as_ref().is_some_and(counted)
        }
        SeamItemNode::Kind { over, .. } => over.as_ref().is_some_and(means),
        SeamItemNode::Notch { place: EdgePlace::At { from, .. }, .. } => from.as_ref().is_some_and(means),
        SeamItemNode::Notch { .. }
        | SeamItemNode::Notches { .. }
        | SeamItemNode::Allowance(_)
        | SeamItemNode::Stitch(_)
        | SeamItemNode::Tape(_)
        | SeamItemNode::Caught { .. } => false,
    }
}

/// Whether a seam has a gap.
pub(super) fn has_gap(seam: &Seam) -> bool {
    seam.items.iter().any(|item| matches!(item.node, SeamItemNode::Gap { .. }))
}
