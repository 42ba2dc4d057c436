//! Answers to one kind of question, each by all that it was asked of.

use super::question::Question;
use crate::id_hash::IdIndexMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};

/// Answers that are known from the last text, and those found for this one: what this one does not ask for is
/// forgotten with the next.
#[derive(Debug)]
pub(crate) struct Memo<V> {
    before: IdIndexMap<u64, Answer<V>>,
    found: Mutex<IdIndexMap<u64, Answer<V>>>,
}

/// An answer by what its question is known by. Of two questions that are known by the same the later one's stays.
#[derive(Debug)]
struct Answer<V> {
    words: Arc<[u64]>,
    value: V,
    /// Somebody asked for it since the text was changed.
    asked: AtomicBool,
}

impl<V> Default for Memo<V> {
    fn default() -> Self {
        Memo { before: IdIndexMap::default(), found: Mutex::default() }
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
        self.part_of_known(question, V::clone)
    }

    /// A part of the answer that is known.
    pub fn part_of_known<T>(&self, question: &Question, part: impl Fn(&V) -> T) -> Option<T> {
        self.look(question, |answer| part(&answer.value))
    }

    /// Remembers an answer.
    pub fn keep(&self, question: &Question, value: V) {
        self.put(question, Arc::from(question.words()), value);
    }

    fn put(&self, question: &Question, words: Arc<[u64]>, value: V) {
        if let Ok(mut found) = self.found.lock() {
            found.insert(question.key(), Answer { words, value, asked: AtomicBool::new(true) });
        }
    }

    fn look<T>(&self, question: &Question, take: impl Fn(&Answer<V>) -> T) -> Option<T> {
        let key = question.key();
        let is_same = |known: &&Answer<V>| *known.words == *question.words();
        if let Some(known) = self.before.get(&key).filter(is_same) {
            known.asked.store(true, Ordering::Relaxed);
            return Some(take(known));
        }
        self.found.lock().ok()?.get(&key).filter(is_same).map(take)
    }

    /// Forgets what was not asked for since this was last called.
    pub fn begin(&mut self) {
        self.before.retain(|_, answer| std::mem::take(answer.asked.get_mut()));
        if let Ok(found) = self.found.get_mut() {
            let not_asked = |answer| Answer { asked: AtomicBool::new(false), ..answer };
            self.before.extend(found.drain(..).map(|(key, answer)| (key, not_asked(answer))));
        }
    }
}

impl Memo<()> {
    /// The question itself: of all that are the same, in this text and in those before it, the very same row of numbers.
    pub fn one_of(&self, question: &Question) -> Arc<[u64]> {
        if let Some(known) = self.look(question, |answer| answer.words.clone()) {
            return known;
        }
        let words: Arc<[u64]> = Arc::from(question.words());
        self.put(question, words.clone(), ());
        words
    }
}

#[cfg(test)]
mod tests {
    use super::super::Question;
    use super::Memo;
    use std::sync::Arc;

    fn of(numbers: &[f64]) -> Question {
        let mut question = Question::default();
        numbers.iter().for_each(|number| question.number(*number));
        question
    }

    #[test]
    fn what_is_not_asked_for_is_forgotten() {
        let mut memo = Memo::default();
        assert_eq!(memo.ask(&of(&[1.0]), || "first"), "first");
        assert_eq!(memo.ask(&of(&[1.0]), || "again"), "first");
        memo.keep(&of(&[2.0]), "second");
        memo.begin();
        assert_eq!(memo.known(&of(&[1.0])), Some("first"));
        assert_eq!(memo.known(&of(&[1.0, 0.0])), None);
        memo.begin();
        assert_eq!(memo.known(&of(&[1.0])), Some("first"));
        assert_eq!(memo.known(&of(&[2.0])), None);
        memo.begin();
        memo.begin();
        assert_eq!(memo.known(&of(&[1.0])), None);
    }

    /// 0 and −0 are equal as numbers, and lead to other figures.
    #[test]
    fn questions_are_one_to_the_last_bit() {
        let mut memo = Memo::default();
        memo.keep(&of(&[0.0, 2.0]), ());
        memo.begin();
        assert_eq!(memo.known(&of(&[-0.0, 2.0])), None);
        assert_eq!(memo.known(&of(&[2.0, 0.0])), None);
        assert_eq!(memo.known(&of(&[0.0, 2.0])), Some(()));
    }

    #[test]
    fn questions_that_are_the_same_are_one() {
        let mut memo = Memo::default();
        let first = memo.one_of(&of(&[1.0, 2.0]));
        assert!(Arc::ptr_eq(&first, &memo.one_of(&of(&[1.0, 2.0]))));
        assert!(!Arc::ptr_eq(&first, &memo.one_of(&of(&[2.0, 1.0]))));
        memo.begin();
        assert!(Arc::ptr_eq(&first, &memo.one_of(&of(&[1.0, 2.0]))));
    }
}
