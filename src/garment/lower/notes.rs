//! What is noted while the text is read, as one value. A reading that is only tried is then kept with
//! all that it noted, or forgotten with all of it.

use super::Lowering;
use super::sought::{Sought, StillUsed, UnresolvedName};
use crate::garment::{NameUse, ValueId};
use crate::id_hash::IdSet;
use crate::report::Diagnostic;
use crate::source::Span;
use indexmap::{IndexMap, IndexSet};
use std::sync::Arc;

/// Everything that reading the text notes beside what it gives back.
#[derive(Debug, Default)]
pub(super) struct Notes {
    /// What was reported, apart from unresolved names.
    pub diagnostics: Vec<Diagnostic>,
    /// Names that nothing declares, by what was sought: one message each, however often they are used.
    pub unresolved: IndexMap<(Sought, Arc<str>), UnresolvedName>,
    /// Names of what was dropped, by where it was: one message each.
    pub dangling: IndexMap<(Span, Arc<str>), StillUsed>,
    /// How many unresolved names were noted by the reading that this one is tried in.
    unresolved_outside: usize,
    /// What names in the text mean.
    pub name_uses: Vec<NameUse>,
    /// Numbers without a unit that were taken as lengths.
    pub bare_lengths: Vec<Span>,
    /// Values that are plain numbers and were told to be none where a length is needed.
    pub plain_numbers: IdSet<ValueId>,
    /// The sizes that lists are too short for, and those lists.
    pub sizes_missed: IndexMap<Arc<str>, IndexSet<Span>>,
    /// A name in the steps is not resolved.
    pub steps_incomplete: bool,
}

impl Notes {
    /// How many unresolved names were noted so far.
    pub fn unresolved_count(&self) -> usize {
        self.unresolved_outside + self.unresolved.len()
    }

    /// Whether nothing was noted that hangs on what was noted before, or that others would hang on.
    pub fn is_quiet(&self) -> bool {
        let Notes {
            diagnostics,
            unresolved,
            dangling,
            unresolved_outside: _,
            name_uses: _,
            bare_lengths: _,
            plain_numbers,
            sizes_missed,
            steps_incomplete,
        } = self;
        diagnostics.is_empty()
            && unresolved.is_empty()
            && dangling.is_empty()
            && plain_numbers.is_empty()
            && sizes_missed.is_empty()
            && !steps_incomplete
    }

    pub fn absorb(&mut self, other: Notes) {
        self.diagnostics.extend(other.diagnostics);
        for (key, name) in other.unresolved {
            match self.unresolved.get_mut(&key) {
                Some(known) => name.uses.into_iter().for_each(|span| known.used_at(span)),
                None => {
                    self.unresolved.insert(key, name);
                }
            }
        }
        for (key, other) in other.dangling {
            match self.dangling.get_mut(&key) {
                Some(known) => known.join(other),
                None => {
                    self.dangling.insert(key, other);
                }
            }
        }
        self.name_uses.extend(other.name_uses);
        self.bare_lengths.extend(other.bare_lengths);
        self.plain_numbers.extend(other.plain_numbers);
        for (size, lists) in other.sizes_missed {
            self.sizes_missed.entry(size).or_default().extend(lists);
        }
        self.steps_incomplete |= other.steps_incomplete;
    }
}

/// A reading that was tried, with all that it noted.
#[must_use = "a reading is kept or forgotten"]
pub(super) struct Attempt<T> {
    /// What it gave back.
    pub value: T,
    notes: Notes,
}

impl<T> Attempt<T> {
    /// What was read, with everything noted.
    pub fn keep(self, lowering: &Lowering) -> T {
        lowering.notes.borrow_mut().absorb(self.notes);
        self.value
    }

    /// What was read, with nothing noted.
    pub fn forget(self) -> T {
        self.value
    }
}

impl Lowering<'_> {
    /// Tries a reading. It changes nothing but the notes, which go with its value.
    pub(super) fn attempt<T>(&self, read: impl FnOnce(&Self) -> T) -> Attempt<T> {
        let unresolved_outside = self.notes.borrow().unresolved_count();
        let plain_numbers = self.notes.borrow().plain_numbers.clone();
        let outside = self.notes.replace(Notes { unresolved_outside, plain_numbers, ..Notes::default() });
        let value = read(self);
        Attempt { value, notes: self.notes.replace(outside) }
    }

    /// Reports a mistake.
    pub(super) fn report(&self, diagnostic: Diagnostic) {
        let mut notes = self.notes.borrow_mut();
        // What is wrong with what is said in one line would be found in each thing that it is made of.
        let is_same = |one: &Diagnostic| {
            one.kind == diagnostic.kind && one.span() == diagnostic.span() && one.title == diagnostic.title
        };
        if self.has_short_forms && notes.diagnostics.iter().any(is_same) {
            return;
        }
        notes.diagnostics.push(diagnostic);
    }
}
