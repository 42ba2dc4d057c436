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
        let words = question.words();
        let known = match self.before.get_key_value(words) {
            Some((key, answer)) => Some((key.clone(), answer.clone())),
            None => self.given(words).map(|answer| (Arc::from(words), answer)),
        };
        let is_new = known.is_none();
        let (key, answer) = known.unwrap_or_else(|| (Arc::from(words), work()));
        if let Ok(mut now) = self.now.lock()
            && (is_new || !now.contains_key(words))
        {
            now.insert(key, answer.clone());
        }
        answer
    }

    fn given(&self, words: &[u64]) -> Option<V> {
        self.now.lock().ok()?.get(words).cloned()
    }

    /// The memory for the next text.
    pub fn next(&self) -> Memo<V> {
        let before = self.now.lock().map(|mut now| std::mem::take(&mut *now)).unwrap_or_default();
        Memo { before, now: Mutex::default() }
    }
}
