//! Finishes are known by their edges: replacing or dropping one edge's leaves the others'.

use super::doing::Doing;
use super::key::{Key, finished};
use super::{Declaration, Dropped, Merging};
use crate::source::Span;
use crate::syntax::tree::{Finish, Statement, StatementNode};
use std::sync::Arc;

impl Merging {
    /// `replace finish front.hem hem 4`: each edge named leaves its finish for this one. The new
    /// one takes the place of the first finish that is left without an edge.
    pub(super) fn replace_finish(&mut self, whole: Span, new: &Statement, finish: &Finish) {
        let mut replaced: Option<Span> = None;
        let mut place: Option<usize> = None;
        for edge in &finish.edges {
            let text = finished(edge);
            let what = format!("finish of {text}");
            let said = StatementNode::Finish(Finish { edges: vec![edge.clone()], ..finish.clone() });
            let key = Key::Finish(text.clone());
            let Some(slot) = self.slot_to_change(&key, edge.span, &what, Doing::Replace, Some(&said)) else {
                continue;
            };
            let Some(old) = self.standing.get(slot).map(|old| old.statement.span) else { continue };
            replaced.get_or_insert(old);
            if self.take_edge(slot, &text) {
                place.get_or_insert(slot);
            }
        }
        if replaced.is_none() {
            return;
        }
        let declaration = Declaration {
            statement: Arc::new(Statement { span: whole, node: new.node.clone() }),
            replaced,
            from_library: false,
            set_over: None,
        };
        match place {
            Some(slot) => self.standing.put(slot, declaration),
            None => self.standing.push(declaration),
        }
    }

    /// `drop finish front.hem`
    pub(super) fn drop_finish(&mut self, whole: Span, edge: &str, span: Span) {
        let key = Key::Finish(edge.to_owned());
        let Some(slot) = self.slot_to_change(&key, span, &format!("finish of {edge}"), Doing::Drop, None)
        else {
            return;
        };
        let Some(old) = self.standing.get(slot) else { return };
        let declared = old.statement.span;
        if self.take_edge(slot, edge) {
            self.take_away(slot, &key);
        }
        self.merged.dropped.push(Dropped::new(edge, "finish", declared, whole));
    }

    /// Takes an edge out of a finish; whether none is left. The last one stays in the slot.
    fn take_edge(&mut self, slot: usize, edge: &str) -> bool {
        let mut empty = true;
        self.standing.edit(slot, |node| {
            let StatementNode::Finish(finish) = node else { return };
            empty = finish.edges.iter().all(|one| finished(one) == edge);
            if !empty {
                finish.edges.retain(|one| finished(one) != edge);
            }
        });
        if !empty {
            self.standing.forget(&Key::Finish(edge.to_owned()), slot);
        }
        empty
    }
}
