//! Answers to one kind of question, each by all that it was asked of.

use super::question::Question;
use crate::id_hash::IdMap;
use std::sync::{Arc, Mutex};

/// Answers that were given for the last text, and those given for this one: what this one does not ask for is
/// forgotten with the next.
#[derive(Debug)]
pub(crate) struct Memo<V> {
    before: Answers<V>,
    now: Mutex<Answers<V>>,
}

/// Questions and their answers, by what the questions are known by. Of two that are known by the same the later one stays.
type Answers<V> = IdMap<u64, (Arc<[u64]>, V)>;

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
        let (key, words) = (question.key(), question.words());
        let is_same = |known: &&(Arc<[u64]>, V)| *known.0 == *words;
        let Some(known) = self.before.get(&key).filter(is_same) else {
            return self.now.lock().ok()?.get(&key).filter(is_same).map(|known| known.1.clone());
        };
        if let Ok(mut now) = self.now.lock() {
            now.insert(key, known.clone());
        }
        Some(known.1.clone())
    }

    /// Remembers an answer.
    pub fn keep(&self, question: &Question, answer: V) {
        if let Ok(mut now) = self.now.lock() {
            now.insert(question.key(), (Arc::from(question.words()), answer));
        }
    }

    /// The memory for the next text.
    pub fn next(&self) -> Memo<V> {
        let before = self.now.lock().map(|mut now| std::mem::take(&mut *now)).unwrap_or_default();
        let mut now = IdMap::default();
        now.reserve(before.len());
        Memo { before, now: Mutex::new(now) }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Question;
    use super::Memo;

    fn of(numbers: &[f64]) -> Question {
        let mut question = Question::default();
        numbers.iter().for_each(|number| question.number(*number));
        question
    }

    #[test]
    fn what_is_not_asked_for_is_forgotten() {
        let memo = Memo::default();
        assert_eq!(memo.ask(&of(&[1.0]), || "first"), "first");
        assert_eq!(memo.ask(&of(&[1.0]), || "again"), "first");
        let memo = memo.next();
        assert_eq!(memo.known(&of(&[1.0])), Some("first"));
        assert_eq!(memo.known(&of(&[1.0, 0.0])), None);
        assert_eq!(memo.next().next().known(&of(&[1.0])), None);
    }

    /// 0 and −0 are equal as numbers, and lead to other figures.
    #[test]
    fn questions_are_one_to_the_last_bit() {
        let memo = Memo::default();
        memo.keep(&of(&[0.0, 2.0]), ());
        assert_eq!(memo.known(&of(&[-0.0, 2.0])), None);
        assert_eq!(memo.known(&of(&[2.0, 0.0])), None);
        assert_eq!(memo.known(&of(&[0.0, 2.0])), Some(()));
    }
}
