//! The declarations that stand so far, in order, and found by what they are known by.

use super::Declaration;
use super::key::{Key, keys_of};
use crate::name_hash::NameMap;
use crate::syntax::tree::StatementNode;
use std::sync::Arc;

/// Declarations in order. One that is taken away leaves its slot empty, so that slots keep
/// their numbers.
#[derive(Default)]
pub(super) struct Standing {
    slots: Vec<Option<Declaration>>,
    /// Slots by key, in the order in which the keys were first declared.
    by_key: NameMap<Key, Vec<usize>>,
}

impl Standing {
    /// The slots that a key has.
    pub(super) fn slots_of(&self, key: &Key) -> &[usize] {
        self.by_key.get(key).map_or(&[], Vec::as_slice)
    }

    /// The first declaration of a key.
    pub(super) fn find(&self, key: &Key) -> Option<&Declaration> {
        self.slots_of(key).first().and_then(|&slot| self.get(slot))
    }

    pub(super) fn get(&self, slot: usize) -> Option<&Declaration> {
        self.slots.get(slot).and_then(Option::as_ref)
    }

    /// Every declaration with its slot, in order.
    pub(super) fn iter(&self) -> impl Iterator<Item = (usize, &Declaration)> {
        self.slots.iter().enumerate().filter_map(|(slot, one)| Some((slot, one.as_ref()?)))
    }

    /// Every key that something stands for.
    pub(super) fn keys(&self) -> impl Iterator<Item = &Key> {
        self.by_key.iter().filter(|(_, slots)| !slots.is_empty()).map(|(key, _)| key)
    }

    /// Puts one more at the end.
    pub(super) fn push(&mut self, declaration: Declaration) {
        let slot = self.slots.len();
        self.slots.push(None);
        self.put(slot, declaration);
    }

    /// Puts one in the place of another, and finds it by its own keys from now on.
    pub(super) fn put(&mut self, slot: usize, declaration: Declaration) {
        self.take(slot);
        for (key, _) in keys_of(&declaration.statement.node, declaration.statement.span) {
            let slots = self.by_key.entry(key).or_default();
            if !slots.contains(&slot) {
                slots.push(slot);
            }
        }
        if let Some(place) = self.slots.get_mut(slot) {
            *place = Some(declaration);
        }
    }

    /// Changes one where it stands; what it is known by must stay.
    pub(super) fn edit(&mut self, slot: usize, change: impl FnOnce(&mut StatementNode)) {
        if let Some(Some(declaration)) = self.slots.get_mut(slot) {
            change(&mut Arc::make_mut(&mut declaration.statement).node);
        }
    }

    /// One is known by that key no more.
    pub(super) fn forget(&mut self, key: &Key, slot: usize) {
        if let Some(slots) = self.by_key.get_mut(key) {
            slots.retain(|&one| one != slot);
        }
    }

    /// Takes one away.
    pub(super) fn take(&mut self, slot: usize) -> Option<Declaration> {
        let gone = self.slots.get_mut(slot).and_then(Option::take)?;
        for (key, _) in keys_of(&gone.statement.node, gone.statement.span) {
            if let Some(slots) = self.by_key.get_mut(&key) {
                slots.retain(|&one| one != slot);
            }
        }
        Some(gone)
    }

    pub(super) fn into_declarations(self) -> Vec<Declaration> {
        self.slots.into_iter().flatten().collect()
    }
}
