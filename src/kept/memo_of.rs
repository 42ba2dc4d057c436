//! Answers about things that are shared: what is the very same thing as before needs no other look.

use super::memo::Memo;
use super::question::Question;
use std::sync::Arc;

/// Answers to one kind of question, each by the things that it is about and by what else was asked of them. A thing is
/// told by where it lies: as long as an answer is remembered so is what it is about, so that nothing else can lie there.
#[derive(Debug)]
pub(crate) struct MemoOf<T, V> {
    memo: Memo<(T, V)>,
}

/// What never changes, and is told by where it lies.
pub(crate) trait Thing: Clone {
    /// Asks of it.
    fn ask_of(&self, question: &mut Question);
}

impl<T: ?Sized> Thing for Arc<T> {
    fn ask_of(&self, question: &mut Question) {
        question.count(Arc::as_ptr(self).addr());
    }
}

impl<A: Thing, B: Thing> Thing for (A, B) {
    fn ask_of(&self, question: &mut Question) {
        self.0.ask_of(question);
        self.1.ask_of(question);
    }
}

impl<T, V> Default for MemoOf<T, V> {
    fn default() -> Self {
        MemoOf { memo: Memo::default() }
    }
}

impl<T: Thing, V: Clone> MemoOf<T, V> {
    /// The answer, which is worked out where it is not known.
    pub fn ask(&self, things: &T, question: Question, work: impl FnOnce() -> V) -> V {
        let question = about(things, question);
        self.known(&question).unwrap_or_else(|| {
            let answer = work();
            self.keep(things, &question, &answer);
            answer
        })
    }

    /// The answer, if there is one. One that is worked out comes with whether it may be remembered.
    pub fn ask_unless_told(
        &self,
        things: &T,
        question: Question,
        work: impl FnOnce() -> (Option<V>, bool),
    ) -> Option<V> {
        let question = about(things, question);
        self.known(&question).or_else(|| {
            let (answer, is_silent) = work();
            answer.as_ref().filter(|_| is_silent).inspect(|answer| self.keep(things, &question, answer));
            answer
        })
    }

    fn known(&self, question: &Question) -> Option<V> {
        self.memo.part_of_known(question, |(_, answer)| answer.clone())
    }

    fn keep(&self, things: &T, question: &Question, answer: &V) {
        self.memo.keep(question, (things.clone(), answer.clone()));
    }

    /// Forgets what was not asked for since this was last called.
    pub fn begin(&mut self) {
        self.memo.begin();
    }
}

impl<T: Thing> MemoOf<T, ()> {
    /// Whether something is remembered of them.
    pub fn holds(&self, things: &T) -> bool {
        self.known(&about(things, Question::default())).is_some()
    }

    /// Remembers them.
    pub fn hold(&self, things: &T) {
        self.keep(things, &about(things, Question::default()), &());
    }
}

fn about(things: &impl Thing, mut question: Question) -> Question {
    things.ask_of(&mut question);
    question
}

#[cfg(test)]
mod tests {
    use super::super::Question;
    use super::MemoOf;
    use std::sync::Arc;

    #[test]
    fn what_only_looks_the_same_is_another_thing() {
        let mut memo = MemoOf::default();
        let (one, other) = (Arc::new(1), Arc::new(1));
        assert_eq!(memo.ask(&one, Question::default(), || "first"), "first");
        memo.begin();
        assert_eq!(memo.ask(&one, Question::default(), || "again"), "first");
        assert_eq!(memo.ask(&other, Question::default(), || "other"), "other");
    }

    #[test]
    fn what_is_told_of_is_looked_at_again() {
        let mut memo = MemoOf::default();
        let thing = Arc::new(1);
        let mut ask = |answer, is_silent| {
            memo.begin();
            memo.ask_unless_told(&thing, Question::default(), || (answer, is_silent))
        };
        assert_eq!(ask(Some("told"), false), Some("told"));
        assert_eq!(ask(None, true), None);
        assert_eq!(ask(Some("silent"), true), Some("silent"));
        assert_eq!(ask(Some("again"), true), Some("silent"));
    }

    /// Were the thing forgotten before its answer, another could lie where it lay.
    #[test]
    fn an_answer_holds_on_to_what_it_is_about() {
        let mut memo = MemoOf::default();
        let thing = Arc::new(1);
        let still = Arc::downgrade(&thing);
        memo.ask(&(thing, Arc::new(2)), Question::default(), || ());
        memo.begin();
        assert!(still.upgrade().is_some());
        memo.begin();
        memo.begin();
        assert!(still.upgrade().is_none());
    }
}
