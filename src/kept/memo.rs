//! Answers to one kind of question, each by all that it was asked of.

use super::question::Question;
use crate::id_hash::IdMap;
use std::sync::{Arc, Mutex};

/// Answers that were given for the last text, and those given for this one: what this one does not ask for is
/// forgotten with the next.
#[derive(Debug)]
pub(crate) struct Memo<V> {
    before: IdMap<Arc<[u64]>, V>,
    now: Mutex<IdMap<Arc<[u64]>, V>>,
}

impl<V> Default for Memo<V> {
    fn default() -> Self {
        Memo { before: IdMap::default(), now: Mutex::default() }
    }
}

impl<V: Clone> Memo<V> {
    /// The answer, which is worked out where it is not known.
    pub fn ask(&self, question: &Question, work: impl FnOnce() -> V) -> V {
        if let Some(known) = self.known(question) {
            return known;
        }
        let answer = work();
        self.keep(question, answer.clone());
        answer
    }

    /// The answer that is known.
    pub fn known(&self, question: &Question) -> Option<V> {
        let words = question.words();
        let Some((key, answer)) = self.before.get_key_value(words) else {
            return self.now.lock().ok()?.get(words).cloned();
        };
        if let Ok(mut now) = self.now.lock() {
            now.insert(key.clone(), answer.clone());
        }
        Some(answer.clone())
    }

    /// Remembers an answer.
    pub fn keep(&self, question: &Question, answer: V) {
        if let Ok(mut now) = self.now.lock() {
            now.insert(Arc::from(question.words()), answer);
        }
    }

    /// The memory for the next text.
    pub fn next(&self) -> Memo<V> {
        let before = self.now.lock().map(|mut now| std::mem::take(&mut *now)).unwrap_or_default();
        Memo { before, now: Mutex::default() }
    }
}
